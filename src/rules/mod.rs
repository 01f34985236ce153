//! Rulesets: read, checked against the vocabulary and the catalogue, and held against a design.

mod eval;
mod resolve;
mod set;

pub use eval::{Compared, Decider, Outcome, Standing, hold, holds};
pub use resolve::{Collected, Node, What};
pub use set::{Library, Limit, Proof, Rule, RuleSet, load, prove};
