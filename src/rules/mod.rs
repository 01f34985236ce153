//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod amend;
mod bounds;
mod eval;
mod load;
mod node;
mod parts;
mod prove;
mod resolve;
mod rule;

pub use eval::{Compared, Decider, Outcome, Standing, hold, holds};
pub use load::{Library, load};
pub use node::{Collected, Node, What};
pub use prove::{Proof, lacking_proof, prove, without};
pub use rule::{Amendment, Below, Change, Limit, Part, Rule, RuleSet, Withdrawn};
