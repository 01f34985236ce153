//! Rules that their own fragments do not prove.

use crate::base::{Diagnostic, Passage};
use crate::derive::Need;
use crate::measure::Measure;
use crate::model::{self, Kind};
use crate::syntax::Relation;

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

/// One point in which a rule was changed to see whether an example notices.
#[derive(Debug, Clone, PartialEq)]
pub enum Altered {
    /// A limit is moved.
    Limit {
        /// Its name.
        name: String,
        /// What it is.
        from: Measure,
        /// What it was moved to.
        to: Measure,
    },
    /// A figure of the clause is moved.
    Figure {
        /// What it is.
        from: Measure,
        /// What it was moved to.
        to: Measure,
    },
    /// A condition, or a part of an `and`, is left out.
    Dropped {
        /// Its words.
        words: Passage,
    },
    /// A relation is turned.
    Relation {
        /// What it is.
        from: Relation,
        /// What it was turned into.
        to: Relation,
    },
    /// `is` is turned into `is not`, or the other way.
    Denied {
        /// The words of the condition.
        words: Passage,
    },
    /// A word of a choice is left out.
    Word {
        /// Which.
        word: String,
    },
}
