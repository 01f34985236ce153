//! What can be wrong with a text before its words are looked up, as values. Their English is made in `wording`.

use super::relation::Relation;
use crate::base::{HasNotice, Notice, Span};
use crate::measure::Dimension;

/// A problem of a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// It is larger than is read.
    TooLarge,
    /// Its braces nest deeper than the parser goes; nothing of it counts.
    NestedTooDeep,
    /// Nothing after this place could be read.
    NothingMore,
    /// A brace that closes nothing.
    StrayBrace,
    /// A brace that is never closed.
    UnclosedBrace {
        /// The brace inside it that took its end, where a fragment leaves one open on its line.
        taken_by: Option<Span>,
        /// What the indentation shows to stand outside of it.
        missed: Option<Span>,
    },
    /// A quote that is not closed on its line.
    UnclosedQuote,
    /// A colon between a thing and its brace.
    ColonBeforeBrace,
    /// A colon without a property's name before it.
    NoName,
    /// A hyphen with blanks round it: one dimension, or a subtraction.
    UnclearSubtraction {
        /// The figure before it.
        left: Span,
        /// The figure after it.
        right: Span,
    },
    /// A comma without a blank: a list, or a decimal comma.
    UnclearList,
    /// Text that an editor shows otherwise than it is read, or not at all.
    Hidden {
        /// How.
        hides: Hides,
        /// The first sign that does, or that stands behind blanks.
        sign: char,
        /// How many there are in the text.
        many: usize,
    },
    /// A clause, or a condition that stands alone.
    Clause(ClauseProblem),
}

/// How text hides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hides {
    /// A sign ends a line for some and not for others.
    LineEnd,
    /// A sign turns the order in which letters are shown.
    Direction,
    /// A sign is shown as nothing.
    Nothing,
    /// So many blanks stand before it that no window shows it.
    OutOfSight,
}

/// A problem of a clause that could not be read.
#[derive(Debug, Clone, PartialEq)]
pub enum ClauseProblem {
    /// It could not be read on.
    Stopped {
        /// What was read.
        reading: Reading,
        /// The word from which it could not; none where it ends too early.
        word: Option<String>,
        /// What was likely meant.
        meant: Option<Meant>,
    },
    /// The grammar gave other parts than it promises.
    Unreadable,
    /// More sums, differences, products and quotients than are read.
    TooManySigns {
        /// The most that are.
        most: usize,
    },
    /// A side of a slope that is no length.
    SlopeOfNoLength {
        /// What it is.
        dimension: Dimension,
    },
    /// A figure that cannot be.
    Impossible(Impossible),
    /// Something other than a number with its unit.
    NotAFigure,
    /// A word that is no verb, where one belongs.
    NoVerb {
        /// As written.
        word: String,
        /// The verb that was likely meant.
        near: Option<&'static str>,
    },
    /// No verb at all.
    WithoutVerb,
    /// Another word than `have` after the verb.
    NotHave {
        /// The verb.
        verb: String,
        /// As written.
        word: String,
        /// It is likely a slip of the pen for `have`.
        near: bool,
    },
    /// Nothing after the verb.
    WithoutHave {
        /// The verb.
        verb: String,
    },
}

/// What was being read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// A clause.
    Clause,
    /// The condition of an amendment.
    Condition,
    /// A value that stands alone.
    Value,
}

/// What a clause that could not be read on was likely to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meant {
    /// A sign of two characters, written the wrong way round.
    Sign(Relation),
    /// Words without quotes.
    WithoutQuotes,
    /// A comparison: the phrase that says it, and its sign.
    Phrase(&'static str, Relation),
    /// The lesser, or the greater, of two values.
    Pick(&'static str),
    /// A count of what belongs to something other than the thing held.
    CountOfOthers,
}

/// Why a figure cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Impossible {
    /// A slope over no run.
    SlopeWithoutRun,
    /// A number sign beyond any screw or grade.
    NumberTooGreat,
    /// A fraction over nothing.
    OverNothing,
    /// A fraction of one or more after a whole number.
    FractionOverOne,
    /// More than a stair can be.
    TooBig,
    /// Twelve inches or more beside feet.
    TwelveInches,
    /// A date that no calendar has.
    NoSuchDay,
    /// A pennyweight that is no whole number.
    BrokenPenny,
    /// A unit that the grammar reads and the table of units lacks.
    UnknownUnit,
}

impl From<ClauseProblem> for Problem {
    fn from(problem: ClauseProblem) -> Self {
        Problem::Clause(problem)
    }
}

impl HasNotice for Problem {
    fn notice(&self) -> Notice {
        match self {
            Problem::TooLarge => Notice::TooLarge,
            Problem::NestedTooDeep => Notice::NestedTooDeep,
            Problem::NothingMore | Problem::ColonBeforeBrace | Problem::NoName => Notice::NotAStatement,
            Problem::StrayBrace => Notice::StrayBrace,
            Problem::UnclosedBrace { .. } => Notice::UnclosedBrace,
            Problem::UnclosedQuote => Notice::UnclosedQuote,
            Problem::UnclearSubtraction { .. } => Notice::UnclearSubtraction,
            Problem::UnclearList => Notice::UnclearList,
            Problem::Hidden { .. } => Notice::Hidden,
            Problem::Clause(problem) => problem.notice(),
        }
    }
}

impl HasNotice for ClauseProblem {
    fn notice(&self) -> Notice {
        match self {
            ClauseProblem::Stopped { .. } | ClauseProblem::Unreadable | ClauseProblem::TooManySigns { .. } => {
                Notice::UnreadClause
            }
            ClauseProblem::SlopeOfNoLength { .. } => Notice::MixedDimensions,
            ClauseProblem::Impossible(_) | ClauseProblem::NotAFigure => Notice::ImpossibleNumber,
            ClauseProblem::NoVerb { .. }
            | ClauseProblem::WithoutVerb
            | ClauseProblem::NotHave { .. }
            | ClauseProblem::WithoutHave { .. } => Notice::MissingVerb,
        }
    }
}
