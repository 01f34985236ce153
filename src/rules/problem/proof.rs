//! Rules that their own fragments do not prove.

use crate::base::Diagnostic;
use crate::derive::Need;
use crate::model::{self, Kind};

/// How a fragment went that does not do what it is there for.
#[derive(Debug, Clone, PartialEq)]
pub enum Otherwise {
    /// It cannot be read; the first thing that is wrong with it.
    NotRead(Box<Diagnostic<model::Problem>>),
    /// Its things came out otherwise.
    Outcomes {
        /// What the rule holds.
        kind: &'static Kind,
        /// How many pass.
        passed: usize,
        /// How many fail.
        failed: usize,
        /// What the first that cannot be settled needs.
        needs: Option<Need>,
        /// The thing in it that went otherwise.
        decided: Option<Decided>,
    },
}

/// How one thing of a fragment came to its outcome.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided {
    /// What a report calls the thing.
    pub element: String,
    /// The rule does not apply to it.
    pub spared: bool,
    /// The terms that settled it.
    pub terms: Vec<DecidedTerm>,
}

/// A term that settled an outcome.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DecidedTerm {
    /// As the clause has it.
    pub words: String,
    /// With the numbers put in.
    pub put_in: String,
    /// It is so.
    pub holds: bool,
}

/// The fragments of its own that an amended rule lacks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lacks {
    /// One that passes.
    Passes,
    /// One that fails.
    Fails,
    /// Both.
    Both,
}
