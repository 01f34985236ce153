//! What every stage shares: places in a text, and the diagnostics that point at them. Imports nothing of the crate.

pub mod day;
pub mod diagnostic;
pub mod levels;
pub mod limits;
pub mod names;
pub mod notices;
pub mod severity;
pub mod source;
pub mod work;

pub use day::Day;
pub use diagnostic::{Diagnostic, HasNotice, Reporter, lift};
pub use levels::{Level, Levels};
pub use notices::Notice;
pub use severity::Severity;
#[cfg(feature = "cli")]
pub use source::line_ends;
pub use source::{Passage, Source, Span};
