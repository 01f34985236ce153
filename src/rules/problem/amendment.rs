//! What can be wrong with a change to a rule of the set below.

use super::set::BlockKind;
use crate::base::{HasNotice, Notice, Passage, Span};
use crate::measure::Measure;
use crate::rules::rule::Part;

/// A problem of an amendment or a withdrawal.
#[derive(Debug, Clone, PartialEq)]
pub enum AmendmentProblem {
    /// A withdrawal without a reason.
    NoReason {
        /// The rule.
        rule: String,
    },
    /// A rule that this text amends a second time.
    AmendedTwice {
        /// The rule.
        rule: String,
        /// The first amendment.
        first: Span,
    },
    /// An amendment that states nothing.
    NothingDiffers {
        /// The rule.
        rule: String,
    },
    /// A limit that is what it was.
    SameLimit {
        /// The limit.
        limit: String,
        /// What it is, as a set writes it.
        is: String,
        /// Title of the set that set it.
        set: String,
    },
    /// A limit in another unit, and far from what it was.
    AnotherUnit {
        /// What it is now, in the unit of what it was.
        now: Measure,
        /// What it was.
        was: Measure,
    },
    /// A bare number in place of a length.
    LimitWithoutUnit {
        /// The limit.
        limit: String,
    },
    /// A figure in place of one of another sort.
    OtherSort {
        /// What it is now.
        now: Measure,
        /// What it was.
        was: Measure,
        /// Title of the set that set that.
        set: String,
    },
    /// A verb or a condition beside a clause that has both.
    BesideClause {
        /// The clause.
        clause: Span,
    },
    /// The verb is what it was.
    SameVerb {
        /// The verb.
        verb: &'static str,
    },
    /// The condition is what it was.
    SameCondition,
    /// A condition in place of one that asked for more.
    Drops {
        /// The parts that no longer narrow the rule.
        dropped: Vec<String>,
        /// Title of the set that they were of.
        set: String,
    },
    /// A table, or a single figure, in place of a table with rows that it does not have.
    RowsLeftOut {
        /// The table.
        table: String,
        /// What it goes by now; nothing where a single figure takes its place.
        by: Option<String>,
        /// What it went by.
        was: String,
        /// The rows that are gone, by the names of their limits.
        rows: Vec<String>,
    },
    /// A figure is changed that other rules keep.
    SameFigure {
        /// As it was.
        figure: String,
        /// The rules that keep it for the same quantity.
        rules: Vec<String>,
    },
    /// A text is what it was.
    SameText(Part),
    /// A limit that the rule does not have.
    NoSuchLimit {
        /// The rule.
        rule: String,
        /// As written.
        limit: String,
        /// The limit that was likely meant.
        near: Option<String>,
        /// The limits that the rule has.
        known: Vec<String>,
        /// How it is written as a row of a table that the rule has.
        row: Option<RowMeant>,
    },
    /// A rule under the name that it went by before.
    FormerRule {
        /// As written.
        was: String,
        /// As it is called now.
        now: String,
    },
    /// A limit under the name that it went by before.
    FormerLimit {
        /// As written.
        was: String,
        /// As it is called now.
        now: String,
    },
    /// A set that takes no other in has nothing to amend or to withdraw.
    NothingBelow(BlockKind),
    /// The rule was withdrawn before.
    Withdrawn {
        /// The rule.
        rule: String,
        /// What is done to it here.
        block: BlockKind,
        /// Who withdrew it.
        by: Withdrawer,
        /// Why.
        because: String,
        /// The rule that stands in its place.
        heir: Option<String>,
    },
    /// The rule is this set's own.
    OwnRule {
        /// The rule.
        rule: String,
        /// What is done to it here.
        block: BlockKind,
        /// Where it is written.
        written: Span,
    },
    /// The rule is one that the tool holds with every design.
    HeldAlways {
        /// The rule.
        rule: String,
        /// What is done to it here.
        block: BlockKind,
    },
    /// The set below has no such rule.
    NoSuchRule {
        /// As written.
        rule: String,
        /// What is done to it here.
        block: BlockKind,
        /// Title of the set below.
        below: String,
        /// The rule that was likely meant.
        near: Option<String>,
        /// Rules whose names share words with it.
        sharing: Vec<String>,
    },
}

/// A row of a table that a limit of another name was likely meant for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowMeant {
    /// The table.
    pub table: String,
    /// What it goes by.
    pub by: String,
    /// The figure, as a set writes it.
    pub figures: String,
    /// When the row counts.
    pub row: String,
}

/// Who withdrew a rule.
#[derive(Debug, Clone, PartialEq)]
pub enum Withdrawer {
    /// This text, here.
    Here(Span),
    /// A set below, by its title, there.
    Below(String, Passage),
}

impl HasNotice for AmendmentProblem {
    fn notice(&self) -> Notice {
        match self {
            AmendmentProblem::NoReason { .. } => Notice::MissingReason,
            AmendmentProblem::AmendedTwice { .. } | AmendmentProblem::BesideClause { .. } => Notice::StatedTwice,
            AmendmentProblem::NothingDiffers { .. }
            | AmendmentProblem::SameLimit { .. }
            | AmendmentProblem::SameVerb { .. }
            | AmendmentProblem::SameCondition
            | AmendmentProblem::SameText(_) => Notice::NothingChanged,
            AmendmentProblem::Drops { .. } => Notice::ConditionDropped,
            AmendmentProblem::SameFigure { .. } => Notice::SameFigure,
            AmendmentProblem::RowsLeftOut { .. } => Notice::RowsLeftOut,
            AmendmentProblem::FormerRule { .. } | AmendmentProblem::FormerLimit { .. } => Notice::FormerName,
            AmendmentProblem::AnotherUnit { .. } => Notice::AnotherUnit,
            AmendmentProblem::LimitWithoutUnit { .. } => Notice::MissingUnit,
            AmendmentProblem::OtherSort { .. } => Notice::MixedDimensions,
            AmendmentProblem::Withdrawn { .. } => Notice::Withdrawn,
            AmendmentProblem::NoSuchLimit { .. }
            | AmendmentProblem::NothingBelow(_)
            | AmendmentProblem::OwnRule { .. }
            | AmendmentProblem::HeldAlways { .. }
            | AmendmentProblem::NoSuchRule { .. } => Notice::UnknownName,
        }
    }
}
