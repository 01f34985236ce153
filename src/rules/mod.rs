//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod amend;
mod blocks;
mod clause_text;
mod compare;
mod eval;
mod explain;
mod language;
mod load;
mod nearest;
mod node;
mod parts;
pub mod problem;
mod prove;
mod refusal;
mod resolve;
mod rule;
mod satisfiability;

pub use crate::syntax::Relation;
pub use clause_text::words as clause_text;
pub use compare::{Comparison, Difference, Differing, Point, Way, compare};
pub use eval::{Compared, Decision, Outcome, Verdict, evaluate, fails, holds, outcome, verdict, verdicts};
pub use explain::{Explanation, Holds, Joined, Term, explain};
pub use language::{Stands, WORDS, Word};
pub use load::{FindBase, load};
pub use nearest::{Nearest, Traced, counts_conditions, margin, trace};
pub use node::{Collected, Node, Place, What};
pub use problem::Problem;
pub use prove::{Proof, lacking_proof, prove, without};
pub use refusal::{FileProblem, SetRefusal};
pub use rule::{Amendment, Below, Change, Limit, Part, Rule, RuleSet, Withdrawn, one_line};
