//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod eval;
mod load;
mod node;
mod prove;
mod resolve;
mod rule;

pub use eval::{Compared, Decider, Outcome, Standing, hold, holds};
pub use load::{Library, load};
pub use node::{Collected, Node, What};
pub use prove::{Proof, prove};
pub use rule::{Limit, Rule, RuleSet};
