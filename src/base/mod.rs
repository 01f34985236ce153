//! What every stage shares: places in a text, and the findings that point at them. Imports nothing of the crate.

pub mod finding;
pub mod names;
pub mod notices;
pub mod source;

pub use finding::{Amended, Beside, Class, Clause, Finding, Label};
pub use notices::Notice;
pub use source::{Source, Span};
