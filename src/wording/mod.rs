//! The English of every message: what is wrong, what the labels say, what to do. The stages before it give values;
//! every face shows these words.

mod check;
mod clause;
mod clause_shown;
mod fault;
mod file;
mod finding_words;
mod fix;
#[cfg(feature = "cli")]
pub mod gate;
#[cfg(feature = "cli")]
mod group;
#[cfg(feature = "cli")]
mod mend;
mod message;
mod model;
mod need;
mod notice;
mod outside;
mod phrase;
mod proof;
mod rule_finding;
mod rules;
mod said;
mod set;
#[cfg(feature = "cli")]
mod share;
mod shop;
#[cfg(feature = "cli")]
pub mod step;
#[cfg(feature = "cli")]
pub mod sure;
mod syntax;

mod value;
mod waiver;

#[cfg(feature = "cli")]
pub use clause_shown::{source_line, the_clause};
pub use file::refusal;
#[cfg(feature = "cli")]
pub use file::why;
#[cfg(feature = "cli")]
pub use group::grouped;
#[cfg(feature = "cli")]
pub use mend::{in_place, mend, mended};
#[cfg(feature = "internals")]
pub use message::messages;
pub use message::{Amended, Beside, Clause, Label, Message, ToMessage, message};
pub use need::{need, needs};
#[cfg(feature = "cli")]
pub use notice::of_name as notice_help;
#[cfg(feature = "cli")]
pub use phrase::did_you_mean;
#[cfg(feature = "cli")]
pub use proof::{NEAREST_DESIGNS, came_of, ignored, no_such_rule};
#[cfg(feature = "cli")]
pub use rule_finding::room_left;
#[cfg(feature = "cli")]
pub use share::{departs, excused, only_of, redefined, shares, takes_in, unasked, usual_left_out, waived, waiver};
#[cfg(feature = "cli")]
pub use value::takes;
