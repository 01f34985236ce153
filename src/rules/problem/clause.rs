//! What can be wrong with the names and the dimensions of a clause.

use crate::base::{HasNotice, Notice, Span};
use crate::derive::Quantity;
use crate::measure::{Dimension, Measure};
use crate::model::Kind;
use crate::syntax::Relation;

/// A problem of a clause's names and dimensions.
#[derive(Debug, Clone, PartialEq)]
pub enum ClauseProblem {
    /// A kind that is not known.
    UnknownKind {
        /// As written.
        words: String,
        /// The kind, or its plural, that was likely meant.
        near: Option<&'static str>,
    },
    /// A kind with the side that it stands at, as a design names it.
    KindAtASide {
        /// As written.
        words: String,
        /// The kind.
        kind: &'static Kind,
        /// The side.
        side: &'static str,
    },
    /// A value where a condition belongs.
    ValueForCondition,
    /// A condition where a number belongs.
    ConditionForNumber,
    /// A word where a number belongs.
    WordForNumber,
    /// Words that are summed up.
    WordSummed {
        /// The quantity or property.
        name: String,
    },
    /// `3 or more risers`, which a sign says.
    FigureOrMore {
        /// The figure.
        figure: Span,
        /// What stands after `or`.
        said: String,
        /// The things counted.
        counted: String,
        /// The sign.
        sign: Relation,
    },
    /// A word after `or`, where a condition belongs.
    WordAfterOr {
        /// The word.
        said: String,
        /// What is asked for a word.
        subject: Span,
        /// All the words it may be, that one last.
        choice: Vec<String>,
    },
    /// Two sides of different dimensions; the diagnostic's place is the right one.
    MixedDimensions {
        /// The left side's place and dimension.
        left: (Span, Dimension),
        /// The right side's dimension.
        right: Dimension,
        /// What likely went wrong.
        counting: Option<Counting>,
    },
    /// A limit that is a bare number, held against a length.
    LimitWithoutUnit {
        /// The limit.
        limit: String,
        /// What it is held against.
        of: Dimension,
    },
    /// A number or a condition that is asked for a word.
    NotAWord,
    /// A word that the subject never is.
    NeverThisWord {
        /// What is asked.
        subject: Span,
        /// As written.
        word: String,
        /// The words it can be.
        known: &'static [&'static str],
        /// The word that was likely meant.
        near: Option<&'static str>,
    },
    /// A class of use that the set does not have.
    NoSuchClass {
        /// As written.
        word: String,
        /// Those that it has.
        known: Vec<String>,
        /// The class that was likely meant.
        near: Option<String>,
    },
    /// `the lesser of`, `maximum of` and the like, which name no quantity.
    PickAsQuantity {
        /// As written.
        words: String,
        /// `lesser` or `greater`.
        pick: &'static str,
    },
    /// `at least` and the like before a figure, which a sign says.
    PhraseBeforeFigure {
        /// The phrase.
        phrase: &'static str,
        /// The sign.
        sign: Relation,
        /// What is compared; empty where nothing stands before the phrase.
        subject: String,
        /// The figure.
        figure: Span,
    },
    /// `between`, which two signs say.
    Between {
        /// What is compared.
        subject: String,
        /// The figure after it.
        figure: Span,
    },
    /// A quantity that is asked at a place and has none.
    NotAtAPlace {
        /// As written.
        words: String,
        /// Of what it is asked.
        kind: &'static Kind,
        /// The kinds of which it is asked at a place.
        others: Vec<&'static str>,
        /// What can be asked of this kind at a place.
        placed: Vec<&'static str>,
    },
    /// A place that is no limit of the rule.
    PlaceIsNoLimit {
        /// As written.
        place: String,
        /// What is asked there.
        quantity: &'static Quantity,
        /// The limit that was likely meant.
        near: Option<String>,
    },
    /// A quantity that needs a place.
    NeedsAPlace {
        /// The quantity.
        quantity: &'static Quantity,
    },
    /// A kind of which nothing ever belongs to the thing of which it is counted.
    NeverBelongs {
        /// The kind counted.
        kind: &'static Kind,
        /// The kind of the thing.
        owner: &'static Kind,
    },
    /// Something asked of a thing that stands in no relation to the one that is asked.
    NotRelated {
        /// What is asked of it.
        asked: String,
        /// The other thing, as a clause names it.
        named: String,
        /// The kind of the other.
        kind: &'static Kind,
        /// The kind that is asked.
        from: &'static Kind,
        /// What both may belong to, by which the other can be asked for.
        through: Option<&'static Kind>,
        /// A place in a row is asked for.
        row: bool,
    },
    /// A kind of which none stands before another.
    NotInARow {
        /// The kind.
        kind: &'static Kind,
    },
    /// `deviation` without `of` something.
    DeviationOfNothing,
    /// A place worked out for one thing, where many are asked.
    WorkedOutOfMany,
    /// A sum behind a place, where the place may have been meant to be the sum.
    AddedToAPlace {
        /// What is asked there.
        quantity: &'static Quantity,
        /// The first part, and the second.
        first: Span,
        /// What is added.
        second: Span,
        /// It is taken away.
        minus: bool,
    },
    /// A place of a sentence that is nothing of a finding, but near to one.
    NoSuchPlace {
        /// As written.
        name: String,
        /// What was likely meant.
        near: &'static str,
    },
    /// A table that goes by a word and is read between its rows.
    BetweenWords,
    /// A row that asks for a figure where the table goes by a word.
    NumberForWord,
    /// A row whose figure is of another sort than what the table goes by.
    RowOfOtherSort {
        /// What the row's is.
        row: Dimension,
        /// What the table goes by.
        by: Dimension,
    },
    /// A row of a table that no value reaches.
    DeadRow,
    /// Values for which no row of a table holds.
    TableGap {
        /// What the table goes by.
        by: String,
        /// The values.
        without: Vec<Without>,
    },
    /// Rows of a table that both hold somewhere, where neither is the narrower.
    RowsMeet {
        /// The row that stands first.
        first: Span,
    },
    /// A limit under the name that it went by before.
    FormerLimit {
        /// As written.
        was: String,
        /// As it is called now.
        now: String,
    },
    /// Two things that a table goes by, of which neither row nor type tells which a row speaks of.
    RowOfWhich {
        /// What the table goes by.
        by: String,
    },
    /// A row that says nothing that the table goes by twice, or of more than it goes by.
    RowOfNeither {
        /// What the table goes by.
        by: String,
    },
    /// A figure of a set below that goes by what cannot be asked of the thing.
    FigureGoesByOther {
        /// The figure.
        figure: String,
        /// What it goes by.
        by: String,
        /// The kind that the clause is about.
        kind: &'static Kind,
    },
    /// A place that is no length.
    PlaceIsNoLength {
        /// What is asked there.
        quantity: &'static Quantity,
        /// What the place is.
        dimension: Dimension,
        /// It is a bare figure, which lacks only its unit.
        bare: bool,
    },
    /// A kind of which no design holds one.
    NeverDrawn {
        /// The kind.
        kind: &'static Kind,
    },
    /// A property that is neither a number nor a word.
    NotComparable {
        /// The property.
        name: String,
        /// The kind that has it.
        kind: &'static Kind,
    },
    /// A name that is no quantity, property or limit here.
    UnknownQuantity {
        /// As written.
        name: String,
        /// The kind that is asked.
        kind: &'static Kind,
        /// What was likely meant.
        meant: QuantityMeant,
    },
}

/// Values for which no row of a table holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Without {
    /// A word.
    Word(String),
    /// A figure.
    At(Measure),
    /// What lies under a figure, and that figure too.
    UpTo(Measure, bool),
    /// What lies over a figure, and that figure too.
    From(Measure, bool),
    /// One of the first thing that a table goes by together with one of the second.
    Both(Box<Without>, Box<Without>),
    /// What lies between two figures.
    Between {
        /// The lower one.
        from: Measure,
        /// That one has a row.
        over: bool,
        /// The upper one.
        to: Measure,
        /// That one has none.
        up_to: bool,
    },
}

/// What likely went wrong where a count and a measure meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Counting {
    /// Things are named and not counted.
    Uncounted(String),
    /// A count is compared with a figure that has a unit.
    WithUnit,
}

/// What a name that means nothing here was likely meant for.
#[derive(Debug, Clone, PartialEq)]
pub enum QuantityMeant {
    /// A comparison in words: what stands before the phrase, the sign, what stands after.
    Sign(String, Relation, String),
    /// The name after an article.
    Article(&'static str, String),
    /// A quantity that is asked at a place.
    AtAPlace(&'static Quantity),
    /// A quantity of what the thing stands in.
    Of(&'static str),
    /// A quantity, property or limit of a name near to it.
    Near(String),
    /// A quantity or property of other kinds.
    OfOthers(Vec<&'static Kind>),
    /// A word of the trade for something of another kind, and our name for that.
    OfOther(&'static Kind, &'static str),
    /// Nothing that is known; the names that the kind has.
    Unknown(Vec<&'static str>),
}

impl HasNotice for ClauseProblem {
    fn notice(&self) -> Notice {
        match self {
            ClauseProblem::UnknownKind { .. }
            | ClauseProblem::KindAtASide { .. }
            | ClauseProblem::NeverDrawn { .. } => Notice::UnknownKind,
            ClauseProblem::ValueForCondition
            | ClauseProblem::FigureOrMore { .. }
            | ClauseProblem::WordAfterOr { .. } => Notice::NotACondition,
            ClauseProblem::ConditionForNumber
            | ClauseProblem::WordForNumber
            | ClauseProblem::WordSummed { .. }
            | ClauseProblem::MixedDimensions { .. }
            | ClauseProblem::NotAWord
            | ClauseProblem::PlaceIsNoLength { .. }
            | ClauseProblem::RowOfWhich { .. }
            | ClauseProblem::RowOfNeither { .. }
            | ClauseProblem::BetweenWords
            | ClauseProblem::NumberForWord
            | ClauseProblem::RowOfOtherSort { .. } => Notice::MixedDimensions,
            ClauseProblem::LimitWithoutUnit { .. } => Notice::MissingUnit,
            ClauseProblem::DeadRow => Notice::DeadRow,
            ClauseProblem::RowsMeet { .. } => Notice::RowsMeet,
            ClauseProblem::FormerLimit { .. } => Notice::FormerName,
            ClauseProblem::TableGap { .. } => Notice::TableGap,
            ClauseProblem::AddedToAPlace { .. } => Notice::AddedToAPlace,
            ClauseProblem::NeverThisWord { .. } | ClauseProblem::NoSuchClass { .. } => Notice::UnknownWord,
            ClauseProblem::PickAsQuantity { .. }
            | ClauseProblem::PhraseBeforeFigure { .. }
            | ClauseProblem::Between { .. }
            | ClauseProblem::NotAtAPlace { .. }
            | ClauseProblem::PlaceIsNoLimit { .. }
            | ClauseProblem::NeedsAPlace { .. }
            | ClauseProblem::NotInARow { .. }
            | ClauseProblem::NeverBelongs { .. }
            | ClauseProblem::NotRelated { .. }
            | ClauseProblem::FigureGoesByOther { .. }
            | ClauseProblem::DeviationOfNothing
            | ClauseProblem::WorkedOutOfMany
            | ClauseProblem::NoSuchPlace { .. }
            | ClauseProblem::NotComparable { .. }
            | ClauseProblem::UnknownQuantity { .. } => Notice::UnknownQuantity,
        }
    }
}
