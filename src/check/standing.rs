//! How a rule stands over all the elements that it speaks of.

use std::sync::Arc;

use crate::derive::Missing;
use crate::model::{Id, Waiver};
use crate::rules::Verdict;

/// How a rule stands over all things it speaks of; the worst is the greatest.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// The set has no such rule.
    #[cfg(feature = "cli")]
    Absent,
    /// There is nothing to hold.
    #[default]
    NotApplicable,
    /// It holds.
    Passes,
    /// It does not hold, or is not settled, and a waiver excuses it.
    Waived,
    /// It does not hold, and a baseline knows every place where it does not.
    #[cfg(feature = "cli")]
    Known,
    /// Something is not stated.
    NotChecked,
    /// A `should` does not hold.
    Advised,
    /// A `shall` does not hold.
    Broken,
}

impl Standing {
    /// The word for it.
    #[cfg(feature = "cli")]
    pub fn word(self) -> &'static str {
        match self {
            Standing::Absent => "not asked",
            Standing::NotApplicable => "does not apply",
            Standing::Passes => "passes",
            Standing::Waived => "waived",
            #[cfg(feature = "cli")]
            Standing::Known => "known",
            Standing::NotChecked => "not checked",
            Standing::Advised => "advised",
            Standing::Broken => "broken",
        }
    }

    pub(super) fn of_verdict(verdict: &Verdict, shall: bool) -> Self {
        match verdict {
            Verdict::Pass => Standing::Passes,
            Verdict::Fail if shall => Standing::Broken,
            Verdict::Fail => Standing::Advised,
            Verdict::NotApplicable => Standing::NotApplicable,
            Verdict::NotChecked(_) => Standing::NotChecked,
        }
    }

    /// Whether it does not hold somewhere.
    pub fn fails(self) -> bool {
        matches!(self, Standing::Advised | Standing::Broken)
    }
}

/// How a rule stands over all things that it speaks of.
#[derive(Debug, Clone, Default)]
pub(super) struct Stands {
    /// The worst of it, with what is excused taken for that.
    pub worst: Standing,
    /// It does not hold somewhere, excused or not.
    pub is_unmet: bool,
    /// What is missing where it is not known, each once.
    pub unknown: Vec<Unknown>,
}

/// A thing for which a rule is not known to hold.
#[derive(Debug, Clone)]
pub(super) struct Unknown {
    /// The thing.
    pub element: Id,
    /// What is missing.
    pub missing: Missing,
    /// What excuses it.
    pub waived: Option<Arc<Waiver>>,
}

impl Unknown {
    /// Whether the same would settle both.
    pub fn is_settled_with(&self, other: &Unknown) -> bool {
        self.missing == other.missing && self.waived.is_some() == other.waived.is_some()
    }
}
