//! Pitchboard reads a timber stair written as text, derives what it means, and holds it to rulesets.
//!
//! Data runs one way and no stage knows the next:
//!
//! 1. text to tree: cannot fail; a slip costs its statement
//! 2. tree to stated design: what is drawn, what is stated ([`Design`], [`Element`])
//! 3. stated values to quantities, on demand, each with its working ([`Evaluation`], [`Quantity`])
//! 4. quantities to outcomes: pass, fail, not applicable, not checked ([`Rule`], [`Tally`])
//! 5. outcomes to findings, with a value that would pass ([`Finding`], [`Fix`])
//! 6. values to English ([`message`])
//! 7. English to a terminal: the command, with the feature `cli`
//!
//! Everything up to the words is pure: no files, no printing, no clock. A [`Session`] owns the texts, remembers the
//! sets and is the way in. Places are bytes of a text; numbers are in nanometres, newtons and degrees ([`Measure`]).
//!
//! # Check a text
//!
//! ```
//! use pitchboard::{Session, Severity, Source, message};
//!
//! let design = "stair \"boat shed\" { rules: residential; flight { risers: 3 of 8\" } }";
//! let report = Session::default().check(&Source::new("boat-shed.stair", design), None).report;
//! let broken = report.findings.iter().find(|finding| finding.name() == "riser height").expect("8 in is too tall");
//! assert_eq!(broken.severity(), Severity::Broken);
//! assert_eq!(broken.place().map(|words| report.source.slice(words)), Some("3 of 8\""));
//! assert!(message(broken).message.contains("8\""));
//! assert_eq!(report.tally.broken, 1);
//! ```
//!
//! # Take a fix
//!
//! A fix that [was tried](Fix::was_tried) made its own rule hold; [`Fix::then_breaks`] names the others that it breaks.
//!
//! ```
//! use pitchboard::{Finding, Session, Source};
//!
//! let mut design = "stair \"boat shed\" { rules: residential; flight { risers: 2 of 8\" } }".to_owned();
//! let session = Session::default();
//! let report = session.check(&Source::new("boat-shed.stair", &design), None).report;
//! let [Finding::Rule(finding)] = report.findings.as_slice() else { panic!("one rule is broken") };
//! let fix = finding.fix.as_ref().expect("a lower riser passes");
//! assert!(fix.was_tried() && fix.then_breaks.is_empty());
//! // From the back, so that no edit moves the place of another.
//! for edit in fix.edits.iter().rev() {
//!     design.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
//! }
//! let mended = session.check(&Source::new("boat-shed.stair", &design), None).report;
//! assert_eq!(mended.tally.broken, 0);
//! ```
//!
//! # Bring your own sets
//!
//! By a bare name, with [`Session::with_set`]; or as files beside the designs, in [`Memory`] or through [`Files`] of
//! your own.
//!
//! ```
//! use pitchboard::{Memory, Session, Source};
//!
//! let rules = r#"
//! ruleset "House rules" {
//!     rule "low riser" {
//!         limit most: 7"
//!         each riser shall have height <= most
//!         source: "our own practice"
//!         passes: flight { risers: 4 of 7" }
//!         fails: flight { risers: 4 of 7-1/8" }
//!     }
//! }"#;
//! let named = Session::default().with_set("house", Source::new("house", rules));
//! assert!(named.set("house", None).is_ok_and(|loaded| loaded.diagnostics.is_empty()));
//! let report = named.check(&Source::new("a.stair", r#"stair { rules: house; flight { risers: 4 of 8" } }"#), None).report;
//! assert_eq!((report.tally.broken, report.sets[0].title.as_str()), (1, "House rules"));
//!
//! let files = Memory::new()
//!     .with("sets/house.rules", rules)
//!     .with("a.stair", r#"stair { rules: "sets/house.rules"; flight { risers: 4 of 7" } }"#);
//! let analysis = Session::new(files).analyse("a.stair").expect("the file is there");
//! assert_eq!((analysis.report.tally.passed, analysis.report.tally.broken), (1, 0));
//! ```
//!
//! # Ask a quantity
//!
//! ```
//! use pitchboard::{Datum, Dimension, Evaluation, NotAnswered, Session, Source, needs};
//!
//! let design = r#"stair { rules: residential; flight { risers: 4 of 7"; runs: 3 of 10" } }"#;
//! let drawing = Session::default().draw(&Source::new("boat-shed.stair", design));
//! let evaluation = Evaluation::plain(&drawing.stairs[0].drawn);
//! let Ok(Datum::Measure(rise)) = evaluation.ask("flight", "rise", None) else { panic!("four risers are stated") };
//! assert_eq!((rise.dimension, rise.value), (Dimension::LENGTH, 28.0 * 25_400_000.0));
//! assert_eq!(pitchboard::print(rise), "28\"");
//! // What is not stated is not guessed.
//! let Err(NotAnswered::NotKnown(missing)) = evaluation.ask("flight", "width", None) else { panic!("no width is stated") };
//! assert_eq!(needs(evaluation.design, &missing), "`width` of flight");
//! ```
//!
//! # Features
//!
//! - `cli` (by default): the command and the pages that it prints, and `Disk`, the files of a disk. Without it the
//!   library has three dependencies, touches no file and builds for `wasm32-unknown-unknown`.
//! - `internals`: the stages as public modules, for this repository's own tests. No promise of stability.
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
        clippy::unreachable,
        clippy::get_unwrap,
        clippy::integer_division,
        clippy::exit,
        clippy::print_stdout,
        clippy::print_stderr
    )
)]
#![cfg_attr(test, allow(clippy::disallowed_methods))]

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
mod handbook;
#[cfg(feature = "internals")]
pub mod handbook;
#[cfg(not(feature = "internals"))]
mod measure;
#[cfg(feature = "internals")]
pub mod measure;
#[cfg(not(feature = "internals"))]
mod mechanics;
#[cfg(feature = "internals")]
pub mod mechanics;
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
#[cfg(all(feature = "cli", not(feature = "internals")))]
mod server;
#[cfg(feature = "internals")]
pub mod server;
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

pub use base::{Day, Diagnostic, Severity, Source, Span};
pub use check::{
    Analysis, BUILT_IN, Cause, Comparison, Drawing, Drawn, Edit, Finding, Fix, FromShop, Grounds, Group, HowMany,
    LoadedSet, Mend, NotChecked, Offer, Place, Problem, Report, Role, RuleFinding, RuleOutcome, RuleRef, SetLine,
    Settled, Tally, View, WaiverProblem,
};
#[cfg(feature = "cli")]
pub use cli::{Disk, Outcome, main as command_line};
pub use derive::{Datum, Evaluation, Missing, Need, NotAnswered, Quantity, Reason, quantities, quantity};
pub use measure::{Dimension, Measure, Style, Unit, print};
pub use model::{Design, Element, Id, Kind, ListItem, Property, PropertyName, Side, Stair, Stated, Value, Waiver};
pub use rules::{Decision, FileProblem, Limit, Rule, RuleSet, SetRefusal};
pub use session::{Files, Memory, Mended, NoFiles, Refusal, Session, ShopPlace};
pub use wording::{Amended, Beside, Clause, Label, Message, ToMessage, message, need, needs, refusal};

/// The example of README.md, run as a test.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
