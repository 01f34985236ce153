//! The English of every message: what is wrong, what the labels say, what to do. The stages before it give values;
//! every face shows these words.

mod check;
mod clause;
mod fault;
mod file;
mod message;
mod model;
mod need;
mod notice;
mod phrase;
mod proof;
mod rules;
mod set;
mod shop;
mod syntax;
mod value;

pub use crate::check::{Amended, Beside, Clause, Label};
pub use file::{refusal, why};
pub use message::{Message, ToMessage, message, messages};
pub use need::{names_element, need, needs};
pub use phrase::did_you_mean;
pub use value::takes;
