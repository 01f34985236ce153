//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod amend;
mod bounds;
mod compare;
mod eval;
mod explain;
mod language;
mod load;
mod node;
mod parts;
mod prove;
mod resolve;
mod rule;
mod wording;

pub use compare::{Comparison, Difference, Differing, Point, Way, compare};
pub use eval::{Compared, Decider, Outcome, Standing, hold, holds};
pub use explain::{Explanation, Holds, Joined, Term, explain};
pub use language::{Stands, WORDS, Word};
pub use load::{FindBase, load};
pub use node::{Collected, Node, Place, What};
pub use prove::{Otherwise, Proof, Saw, lacking_proof, prove, without};
pub use rule::{Amendment, Below, Change, Limit, Part, Rule, RuleSet, Withdrawn};
