//! What can be wrong with what stands in the block of a rule, an amendment or a withdrawal.

use crate::base::{HasNotice, Notice, Span};
use crate::measure::{Dimension, Measure};
use crate::syntax::problem::Impossible;

/// A block that holds what is said of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holder {
    /// A rule.
    Rule,
    /// An amendment.
    Amendment,
    /// A withdrawal.
    Withdrawal,
    /// A figure of the set.
    Figure,
}

impl Holder {
    /// The properties it takes.
    pub fn takes(self) -> &'static [&'static str] {
        match self {
            Holder::Rule => {
                &["limit", "says", "source", "because", "sure", "waive", "formerly", "passes", "fails", "spares"]
            }
            Holder::Amendment => {
                &["limit", "verb", "where", "says", "source", "because", "sure", "waive", "passes", "fails", "spares"]
            }
            Holder::Withdrawal => &["because", "source"],
            Holder::Figure => &["is", "source", "because", "sure", "formerly", "formerly limit"],
        }
    }
}

/// A problem of what stands in a block.
#[derive(Debug, Clone, PartialEq)]
pub enum BlockProblem {
    /// A property that is stated a second time.
    StatedTwice {
        /// The property.
        name: String,
        /// Where it is stated first.
        first: Span,
    },
    /// A property without a value.
    NothingStated {
        /// The property.
        name: String,
    },
    /// A fragment in a withdrawal.
    WithdrawalProves,
    /// An example in a figure of the set, of this name.
    FigureProves {
        /// The figure.
        figure: String,
    },
    /// A clause in a figure of the set.
    FigureAsks,
    /// A clause in a withdrawal.
    WithdrawalAsks,
    /// A second clause in one block.
    SecondClause {
        /// The first.
        first: Span,
    },
    /// `where: always` with more behind it.
    AlwaysAlone {
        /// What stands behind it.
        rest: String,
    },
    /// A `where:` in a block that is no amendment.
    ConditionIn(Holder),
    /// A property that the block does not take.
    UnknownProperty {
        /// The block.
        holder: Holder,
        /// As written.
        name: String,
        /// What was likely meant.
        meant: PropertyMeant,
    },
    /// One limit more than a rule may state.
    TooManyLimits,
    /// A limit without a name.
    UnnamedLimit,
    /// A limit whose name a clause could not read.
    LimitName {
        /// The name.
        name: String,
    },
    /// A limit whose figure cannot be.
    LimitImpossible {
        /// The limit.
        limit: String,
        /// Why.
        why: Impossible,
    },
    /// A figure in parentheses beside a limit's own that cannot stand there.
    Beside {
        /// The limit.
        limit: String,
        /// Why.
        why: BesideFault,
    },
    /// A limit whose value is no figure.
    LimitValue {
        /// The limit.
        limit: String,
    },
    /// A table of limits that cannot be read.
    Table {
        /// Its name.
        limit: String,
        /// Why.
        why: TableFault,
    },
    /// A sentence that is no text in quotes.
    SaysNoText,
    /// A sentence about something that the clause does not ask.
    SaysOfNothing {
        /// As written.
        name: String,
        /// What was likely meant.
        near: Option<&'static str>,
        /// What the clause asks.
        known: Vec<&'static str>,
    },
    /// A place of a sentence that is not closed.
    PlaceLeftOpen,
    /// A place of a sentence that names nothing.
    UnnamedPlace,
    /// A counted place with words for one only.
    CountedOneWay {
        /// Those words.
        said: String,
    },
    /// A verb that is none.
    Verb {
        /// As written.
        said: String,
        /// The verb that was likely meant.
        near: Option<&'static str>,
    },
    /// A word that does not say how sure a figure is.
    Sure {
        /// As written.
        said: String,
        /// The word that was likely meant.
        near: Option<&'static str>,
    },
    /// A word that does not say whether the rule may be waived.
    Waive {
        /// As written.
        said: String,
        /// The word that was likely meant.
        near: Option<&'static str>,
    },
    /// A former name that does not stand in quotes.
    FormerlyNoName,
    /// A property without its colon.
    MissingColon {
        /// The property.
        said: String,
    },
    /// A line that is no statement.
    NotAStatement(StatementMeant),
}

/// What is wrong with a table of limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TableFault {
    /// Nothing says what it goes by.
    NoBy {
        /// It is a figure of the set.
        figure: bool,
    },
    /// A row does not begin with a figure.
    NoFigure,
    /// A row's figure is of another sort than that of the first.
    OtherSort {
        /// What that one is.
        first: Dimension,
    },
    /// The words of a row do not say when it counts.
    RowWords,
    /// A row says the same as one before it.
    Twice,
    /// A row stands behind the one for all others.
    AfterOtherwise,
    /// A table read between its rows has one that does not stand at a figure.
    NotAt,
    /// A table that is read between its rows has only one.
    OneRow,
    /// A table that is read between its rows goes by two things.
    BetweenTwo,
    /// A row of a table that goes by one thing says two of it.
    TwoOfOne,
}

/// What is wrong with a figure in parentheses beside a limit's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BesideFault {
    /// It is no figure.
    NoFigure,
    /// It is of another sort than the one that it stands beside.
    OtherSort {
        /// What that one is.
        first: Dimension,
    },
    /// It is not metric, or the one that it stands beside is.
    NotMetric,
    /// It is not what the other comes to.
    Far {
        /// What that comes to in its unit.
        exact: Measure,
        /// What it is.
        metric: Measure,
    },
}

/// What a property that a block does not take was likely meant for.
#[derive(Debug, Clone, PartialEq)]
pub enum PropertyMeant {
    /// A property of a name near to it.
    Near(&'static str),
    /// The verb of the clause.
    Verb,
    /// A limit of that name, with this figure.
    Limit(Span),
    /// Nothing that is known.
    Unknown,
}

/// What a line in a block, which is no statement, was likely meant for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StatementMeant {
    /// A clause whose `each` is misspelt.
    Each,
    /// A remark.
    Remark,
    /// The reason of a withdrawal.
    Reason,
    /// A clause that begins with `all` and the like.
    ClauseOfAll,
    /// A limit or a clause of an amendment.
    Change,
    /// A clause of a rule.
    Clause,
}

impl HasNotice for BlockProblem {
    fn notice(&self) -> Notice {
        match self {
            BlockProblem::StatedTwice { .. } | BlockProblem::SecondClause { .. } => Notice::StatedTwice,
            BlockProblem::NothingStated { .. } => Notice::MissingValue,
            BlockProblem::WithdrawalProves
            | BlockProblem::WithdrawalAsks
            | BlockProblem::FigureProves { .. }
            | BlockProblem::FigureAsks => Notice::WrongPlace,
            BlockProblem::AlwaysAlone { .. } | BlockProblem::FormerlyNoName => Notice::WrongValue,
            BlockProblem::ConditionIn(_) | BlockProblem::UnknownProperty { .. } => Notice::UnknownProperty,
            BlockProblem::UnnamedLimit => Notice::MissingName,
            BlockProblem::TooManyLimits => Notice::TooMany,
            BlockProblem::LimitName { .. }
            | BlockProblem::LimitValue { .. }
            | BlockProblem::Beside { .. }
            | BlockProblem::Table { .. }
            | BlockProblem::SaysNoText
            | BlockProblem::SaysOfNothing { .. }
            | BlockProblem::PlaceLeftOpen
            | BlockProblem::UnnamedPlace
            | BlockProblem::CountedOneWay { .. } => Notice::WrongValue,
            BlockProblem::LimitImpossible { .. } => Notice::ImpossibleNumber,
            BlockProblem::Verb { .. } | BlockProblem::Sure { .. } | BlockProblem::Waive { .. } => Notice::UnknownWord,
            BlockProblem::MissingColon { .. } => Notice::MissingColon,
            BlockProblem::NotAStatement(_) => Notice::NotAStatement,
        }
    }
}
