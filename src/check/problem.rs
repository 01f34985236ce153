//! What can be wrong with a design before a rule is held against it, as values. Their English is made in `wording`.

use crate::base::{Day, HasNotice, Notice};
use crate::model::{self, PropertyName};
use crate::rules::{self, FileProblem, Purpose, SetRefusal};

/// A problem of a design, of the shop's file above it, or of the sets that it asks for.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Problem {
    /// The design, or the shop's file, could not be read, or not all of it.
    Model(model::Problem),
    /// A set that it is held to could not be read, or not all of it.
    Rules(rules::Problem),
    /// The shop's file could not be read as text.
    File(FileProblem),
    /// A set that it asks for cannot be had.
    Refused(SetRefusal),
    /// The text draws no stair.
    NoStair,
    /// A stair asks for no rules.
    NoRules {
        /// Its title.
        stair: String,
        /// The shipped sets that fit what it says that it is for.
        fits: Vec<&'static str>,
    },
    /// A stair says that it is for something that none of its sets is for.
    OtherPurpose {
        /// The property that says so.
        property: PropertyName,
        /// What it is for.
        purpose: Option<Purpose>,
        /// The shipped sets that fit.
        fits: Vec<&'static str>,
    },
    /// The work is said to have been measured on a day that is still to come.
    MeasuredAhead {
        /// The day of the check.
        today: Day,
    },
    /// A waiver that does not hold, or holds for nothing.
    Waiver(WaiverProblem),
    /// A section or a timber that the shop does not stock.
    NotStocked {
        /// Title of the shop.
        shop: String,
        /// As the design names it.
        name: String,
        /// What was likely meant.
        near: Option<String>,
        /// What of that sort is stocked.
        stocked: Vec<String>,
    },
}

/// What is wrong with a waiver.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum WaiverProblem {
    /// It does not say why, or who answers for it.
    Incomplete {
        /// The rule.
        rule: String,
        /// It does not say why.
        why: bool,
        /// It does not say who.
        by: bool,
    },
    /// It held up to a day that is past.
    Expired {
        /// The rule.
        rule: String,
        /// The last day on which it held.
        until: Day,
        /// The day of the check; none is known where it was given none.
        on: Option<Day>,
    },
    /// It has nothing to excuse.
    Unneeded {
        /// The rule.
        rule: String,
    },
    /// The rule is no longer there.
    WithdrawnRule {
        /// The rule.
        rule: String,
        /// Title of the set that took it out.
        set: String,
        /// Why.
        because: String,
    },
    /// No set that the design is checked against has such a rule.
    UnknownRule {
        /// As written.
        rule: String,
        /// The set that it names.
        set: Option<String>,
        /// What was likely meant.
        near: Option<String>,
    },
    /// The design is checked against no set of that title.
    UnknownSet {
        /// As written.
        set: String,
        /// What was likely meant.
        near: Option<String>,
    },
    /// Nothing of which it speaks goes by a name that it gives.
    NothingCalled {
        /// As written.
        name: String,
        /// What was likely meant.
        near: Option<String>,
    },
    /// The rule goes by another name now.
    FormerRule {
        /// As written.
        was: String,
        /// As it is called now.
        now: String,
    },
    /// The rule cannot be waived.
    Forbidden {
        /// The rule.
        rule: String,
        /// Title of the set that forbids it; none for a rule of the drawing itself.
        set: Option<String>,
    },
}

impl From<model::Problem> for Problem {
    fn from(problem: model::Problem) -> Self {
        Problem::Model(problem)
    }
}

impl From<rules::Problem> for Problem {
    fn from(problem: rules::Problem) -> Self {
        Problem::Rules(problem)
    }
}

impl From<FileProblem> for Problem {
    fn from(problem: FileProblem) -> Self {
        Problem::File(problem)
    }
}

impl HasNotice for Problem {
    fn notice(&self) -> Notice {
        match self {
            Problem::Model(problem) => problem.notice(),
            Problem::Rules(problem) => problem.notice(),
            Problem::File(problem) => problem.notice(),
            Problem::Refused(refusal) => refusal.notice(),
            Problem::NoStair => Notice::Empty,
            Problem::NoRules { .. } => Notice::NoRules,
            Problem::OtherPurpose { .. } => Notice::OtherPurpose,
            Problem::MeasuredAhead { .. } => Notice::MeasuredAhead,
            Problem::NotStocked { .. } => Notice::NotStocked,
            Problem::Waiver(problem) => problem.notice(),
        }
    }
}

impl HasNotice for WaiverProblem {
    fn notice(&self) -> Notice {
        match self {
            WaiverProblem::Incomplete { .. } => Notice::IncompleteWaiver,
            WaiverProblem::Expired { .. } => Notice::ExpiredWaiver,
            WaiverProblem::Unneeded { .. } => Notice::UnneededWaiver,
            WaiverProblem::UnknownRule { .. }
            | WaiverProblem::WithdrawnRule { .. }
            | WaiverProblem::UnknownSet { .. } => Notice::UnknownWaiver,
            WaiverProblem::NothingCalled { .. } => Notice::UnknownName,
            WaiverProblem::FormerRule { .. } => Notice::FormerName,
            WaiverProblem::Forbidden { .. } => Notice::ForbiddenWaiver,
        }
    }
}

impl From<WaiverProblem> for Problem {
    fn from(problem: WaiverProblem) -> Self {
        Problem::Waiver(problem)
    }
}
