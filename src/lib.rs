//! Pitchboard reads a timber stair written as text, derives what it means, and holds it to rulesets.
//!
//! Data runs one way and no stage knows the next:
//!
//! 1. [`syntax`]: text to tree. Cannot fail; a slip costs its statement.
//! 2. [`model`]: tree to stated design. What is drawn, what is stated.
//! 3. [`mod@derive`]: stated values to quantities, on demand, each with its working.
//! 4. [`rules`]: quantities to outcomes: pass, fail, not applicable, not checked.
//! 5. [`check`]: outcomes to findings, with a value that would pass.
//! 6. [`wording`]: values to English.
//! 7. [`report`] and [`cli`]: English to a terminal.
//!
//! A [`session`] owns the texts and remembers the sets: whoever needs an analysis asks it.
//!
//! Everything up to the findings is pure: no files, no printing, no clock. A [`session::Session`] is the way in:
//!
//! ```
//! use pitchboard::base::Source;
//! use pitchboard::session::Session;
//!
//! let design = "stair \"boat shed\" { rules: residential; flight { risers: 3 of 8\" } }";
//! let report = Session::default().check(&Source::new("boat-shed.stair", design), None).report;
//! let broken = report.findings.iter().find(|finding| finding.name() == "riser height").expect("8 in is too tall");
//! assert_eq!(broken.place().map(|words| report.source.slice(words)), Some("3 of 8\""));
//! ```
//!
//! A pass is neither a permit nor an approval; local codes, the authority that has jurisdiction and licensed
//! practice decide.

// No input may cause a panic, and only the faces print. Tests may.
#![cfg_attr(
    not(test),
    warn(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::indexing_slicing,
        clippy::string_slice,
        clippy::print_stdout,
        clippy::print_stderr
    )
)]

#[cfg(not(feature = "internals"))]
mod base;
#[cfg(feature = "internals")]
pub mod base;
#[cfg(not(feature = "internals"))]
mod check;
#[cfg(feature = "internals")]
pub mod check;
#[cfg(all(feature = "cli", not(feature = "internals")))]
mod cli;
#[cfg(feature = "internals")]
pub mod cli;
#[cfg(not(feature = "internals"))]
mod derive;
#[cfg(feature = "internals")]
pub mod derive;
pub mod guide;
#[cfg(not(feature = "internals"))]
mod measure;
#[cfg(feature = "internals")]
pub mod measure;
#[cfg(not(feature = "internals"))]
mod model;
#[cfg(feature = "internals")]
pub mod model;
#[cfg(all(feature = "cli", not(feature = "internals")))]
mod report;
#[cfg(feature = "internals")]
pub mod report;
#[cfg(not(feature = "internals"))]
mod rules;
#[cfg(feature = "internals")]
pub mod rules;
#[cfg(not(feature = "internals"))]
mod session;
#[cfg(feature = "internals")]
pub mod session;
#[cfg(not(feature = "internals"))]
mod syntax;
#[cfg(feature = "internals")]
pub mod syntax;
#[cfg(not(feature = "internals"))]
mod wording;
#[cfg(feature = "internals")]
pub mod wording;

pub use base::{Diagnostic, Severity, Source, Span};
pub use check::{
    Analysis, BUILT_IN, Drawing, Drawn, Edit, Finding, Fix, HowMany, LoadedSet, NotChecked, Offer, Place, Problem,
    Report, Role, RuleFinding, RuleRef, SetLine, Tally, View,
};
#[cfg(feature = "cli")]
pub use cli::{Disk, Outcome, main as command_line};
pub use derive::{Datum, Missing, Need, NotAnswered, Quantity, Reason, Working, quantities, quantity};
pub use measure::{Dimension, Measure, Style, Unit, print};
pub use model::{Design, Element, Id, Kind, ListItem, Property, PropertyName, Side, Stair, Stated, Value};
pub use rules::{Decider, FileProblem, Limit, Rule, RuleSet, SetRefusal};
pub use session::{Files, Memory, NoFiles, Refusal, Session, ShopPlace};
pub use wording::{Amended, Beside, Clause, Label, Message, ToMessage, message, need, needs, refusal};

/// The example of README.md, run as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
