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

pub mod base;
pub mod check;
pub mod cli;
pub mod derive;
pub mod guide;
pub mod measure;
pub mod model;
pub mod report;
pub mod rules;
pub mod session;
pub mod syntax;
pub mod wording;

/// The example of README.md, run as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
