//! Values to English: every sentence of a report is made here.

mod need;
mod proof;

pub use need::{need, needs};
pub use proof::saw;
