//! How a rule stands over all the elements that it speaks of.

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
