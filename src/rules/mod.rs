//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod amend;
mod blocks;
mod clause_text;
mod compare;
mod drawing;
mod eval;
#[cfg(feature = "cli")]
mod explain;
mod figures;
#[cfg(feature = "cli")]
mod gaps;
#[cfg(feature = "cli")]
mod language;
mod load;
#[cfg(feature = "cli")]
mod named;
mod nearest;
mod node;
mod parts;
pub mod problem;
mod proportion;
#[cfg(feature = "cli")]
mod prove;
mod reach;
mod refusal;
mod resolve;
mod retable;
mod rows;
mod rule;
mod satisfiability;
mod saying;
mod sentence;
mod table;
mod trade;
mod way;

pub use crate::syntax::Relation;
pub use clause_text::words as clause_text;
#[cfg(feature = "cli")]
pub use compare::{Comparison, Point, compare, pairs};
#[cfg(feature = "internals")]
pub use compare::{Difference, Differing};
pub use drawing::{DRAWING, DRAWING_TEXT};
#[cfg(feature = "internals")]
pub use eval::Outcome;
pub use eval::{Compared, Decision, Verdict, evaluate, fails, holds, outcome, unread, value_of, verdict, verdicts};
#[cfg(feature = "internals")]
pub use explain::Explanation;
#[cfg(feature = "cli")]
pub use explain::{Holds, Joined, Term, explain};
#[cfg(feature = "cli")]
pub use gaps::own_gaps;
#[cfg(feature = "internals")]
pub use gaps::{Gaps, gaps};
#[cfg(feature = "cli")]
pub use language::{Stands, WORDS, Word};
#[cfg(feature = "internals")]
pub use load::FindBase;
pub use load::{load, load_alone};
#[cfg(feature = "cli")]
pub use named::{Named, kind_called, named, named_in_condition};
pub use nearest::{Nearest, Traced, counts_conditions, margin, trace};
#[cfg(feature = "internals")]
pub use node::Place;
pub use node::{Collected, Node, What};
#[cfg(feature = "internals")]
pub use node::{Of, Row, Which};
pub use problem::Problem;
#[cfg(feature = "cli")]
pub use prove::{Proof, lacking_proof, prove, prove_some, without};
pub use refusal::{FileProblem, SetRefusal, Unwritten};
#[cfg(feature = "internals")]
pub use rule::Withdrawn;
pub use rule::{
    Amendment, Applies, Below, Change, Departures, Limit, Part, Printed, Purpose, Rule, RuleSet, Sourced, Sure,
    figures, one_line,
};
pub use saying::{Own, Piece, Puts, Saying, Shown, speaks_of};
pub use table::Table;
#[cfg_attr(not(feature = "cli"), allow(unused_imports))]
pub use way::Way;
