//! The kinds of message that the readers give, each with its name and severity: the identity of a message. Its words
//! stand in `wording`.

use super::severity::Severity;

/// A kind of message that the readers give.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Notice {
    /// A line that is no statement.
    NotAStatement,
    /// A property whose colon is missing.
    MissingColon,
    /// A property or a thing that states nothing.
    MissingValue,
    /// A block that is never closed.
    UnclosedBrace,
    /// A brace that closes nothing.
    StrayBrace,
    /// A quoted text that is not closed on its line.
    UnclosedQuote,
    /// Braces deeper than the parser goes.
    NestedTooDeep,
    /// A text larger than is read.
    TooLarge,
    /// Text that an editor shows otherwise than it is read.
    Hidden,
    /// Bytes that are no UTF-8 text.
    NotText,
    /// A text that holds, or draws, nothing.
    Empty,
    /// A word that opens no kind of thing.
    UnknownKind,
    /// A property that the thing does not have.
    UnknownProperty,
    /// Something that does not stand where it is written.
    WrongPlace,
    /// Something that is stated a second time.
    StatedTwice,
    /// A bare number where a unit is needed.
    MissingUnit,
    /// A figure of another dimension.
    WrongDimension,
    /// A value of another sort.
    WrongValue,
    /// A word that is not among those taken.
    UnknownWord,
    /// A number that nothing can have.
    ImpossibleNumber,
    /// A hyphen that may join or subtract.
    UnclearSubtraction,
    /// A comma that may part or be a decimal one.
    UnclearList,
    /// A name that nothing goes by.
    UnknownName,
    /// A name that two things go by.
    NamedTwice,
    /// Something that may serve several flights.
    UnclearFlight,
    /// A name that may mean one of several things that are not alike.
    UnclearName,
    /// More things than are checked.
    TooMany,
    /// A stair that asks for no rules.
    NoRules,
    /// A stair that is checked against rules for another use.
    OtherPurpose,
    /// A day of measuring that is still to come.
    MeasuredAhead,
    /// A ruleset that cannot be had.
    UnknownSet,
    /// A file that cannot be read.
    Unreadable,
    /// A folder without designs.
    NoDesigns,
    /// A clause that cannot be read.
    UnreadClause,
    /// A name in a clause that means nothing of the thing.
    UnknownQuantity,
    /// Figures that cannot be compared or added.
    MixedDimensions,
    /// A value where something true or false belongs.
    NotACondition,
    /// Something added to what is asked at a place, where the place may have been meant.
    AddedToAPlace,
    /// A limit that no clause reads.
    UnusedLimit,
    /// A ruleset of somebody's own that goes by the title of a shipped one.
    TitleOfShipped,
    /// A ruleset without a rule.
    AsksNothing,
    /// A rule without a clause.
    MissingClause,
    /// A rule without a source.
    MissingSource,
    /// A fragment that does not do what it is there for.
    Unproven,
    /// A clause without its verb.
    MissingVerb,
    /// A block without its name.
    MissingName,
    /// A withdrawal without a reason.
    MissingReason,
    /// A rule that was withdrawn before.
    Withdrawn,
    /// An amendment that changes nothing.
    NothingChanged,
    /// A limit that is likely in the wrong unit.
    AnotherUnit,
    /// A condition that an amendment drops.
    ConditionDropped,
    /// A figure that is changed in one rule and kept in another.
    SameFigure,
    /// One of several ways to meet a rule, of which another leaves nothing.
    AddsNothing,
    /// Rows of a table that an amendment leaves out.
    RowsLeftOut,
    /// A name that a rule, a limit or a figure no longer goes by.
    FormerName,
    /// An amendment without fragments of its own.
    UnprovenAmendment,
    /// A point of a rule that no example holds.
    NotNoticed,
    /// A value for which no row of a table holds.
    TableGap,
    /// A row of a table that no value reaches.
    DeadRow,
    /// Two rows of a table that both hold somewhere, where neither is the narrower.
    RowsMeet,
    /// A condition that can never be so.
    NeverHolds,
    /// Two bounds with nothing between.
    CrossedBounds,
    /// A rule that nothing can pass.
    NeverPasses,
    /// A rule or condition that is always so.
    AlwaysHolds,
    /// Two rules that nothing meets both of.
    NeverBothRules,
    /// A figure that is out of all proportion for its property.
    OutOfProportion,
    /// A property that means nothing beside what else is stated.
    MeansNothing,
    /// A measured figure finer than the marks it was read to.
    FinerThanRead,
    /// Something of the design's own that bears a name of the trade, with other figures.
    Redefined,
    /// Timber that the shop does not stock.
    NotStocked,
    /// A waiver that does not say why, or who answers for it.
    IncompleteWaiver,
    /// A waiver whose last day is past.
    ExpiredWaiver,
    /// A waiver that has nothing to excuse.
    UnneededWaiver,
    /// A waiver of a rule that there is not.
    UnknownWaiver,
    /// A waiver of a rule that cannot be waived.
    ForbiddenWaiver,
    /// Sets that amend one another in a circle.
    CircularSets,
    /// A longer chain of sets than is read.
    AmendedTooDeep,
}

/// Every kind of message.
#[cfg(any(test, feature = "cli"))]
pub const NOTICES: &[Notice] = &[
    Notice::NotAStatement,
    Notice::MissingColon,
    Notice::MissingValue,
    Notice::UnclosedBrace,
    Notice::StrayBrace,
    Notice::UnclosedQuote,
    Notice::NestedTooDeep,
    Notice::TooLarge,
    Notice::Hidden,
    Notice::NotText,
    Notice::Empty,
    Notice::UnknownKind,
    Notice::UnknownProperty,
    Notice::WrongPlace,
    Notice::StatedTwice,
    Notice::MissingUnit,
    Notice::WrongDimension,
    Notice::WrongValue,
    Notice::UnknownWord,
    Notice::ImpossibleNumber,
    Notice::UnclearSubtraction,
    Notice::UnclearList,
    Notice::UnknownName,
    Notice::NamedTwice,
    Notice::UnclearFlight,
    Notice::UnclearName,
    Notice::TooMany,
    Notice::NoRules,
    Notice::OtherPurpose,
    Notice::MeasuredAhead,
    Notice::UnknownSet,
    Notice::Unreadable,
    Notice::NoDesigns,
    Notice::UnreadClause,
    Notice::UnknownQuantity,
    Notice::MixedDimensions,
    Notice::NotACondition,
    Notice::AddedToAPlace,
    Notice::UnusedLimit,
    Notice::TitleOfShipped,
    Notice::AsksNothing,
    Notice::MissingClause,
    Notice::MissingSource,
    Notice::Unproven,
    Notice::MissingVerb,
    Notice::MissingName,
    Notice::MissingReason,
    Notice::Withdrawn,
    Notice::NothingChanged,
    Notice::AnotherUnit,
    Notice::ConditionDropped,
    Notice::SameFigure,
    Notice::AddsNothing,
    Notice::RowsLeftOut,
    Notice::FormerName,
    Notice::UnprovenAmendment,
    Notice::NotNoticed,
    Notice::TableGap,
    Notice::DeadRow,
    Notice::RowsMeet,
    Notice::NeverHolds,
    Notice::CrossedBounds,
    Notice::NeverPasses,
    Notice::AlwaysHolds,
    Notice::NeverBothRules,
    Notice::OutOfProportion,
    Notice::MeansNothing,
    Notice::FinerThanRead,
    Notice::Redefined,
    Notice::NotStocked,
    Notice::IncompleteWaiver,
    Notice::ExpiredWaiver,
    Notice::UnneededWaiver,
    Notice::UnknownWaiver,
    Notice::ForbiddenWaiver,
    Notice::CircularSets,
    Notice::AmendedTooDeep,
];

impl Notice {
    /// Its name in plain words, unique among the kinds; never a code.
    pub fn name(self) -> &'static str {
        match self {
            Notice::NotAStatement => "not a statement",
            Notice::MissingColon => "missing colon",
            Notice::MissingValue => "missing value",
            Notice::UnclosedBrace => "unclosed brace",
            Notice::StrayBrace => "stray brace",
            Notice::UnclosedQuote => "unclosed quote",
            Notice::NestedTooDeep => "nested too deep",
            Notice::TooLarge => "too large",
            Notice::Hidden => "hidden text",
            Notice::NotText => "not text",
            Notice::Empty => "nothing in it",
            Notice::UnknownKind => "unknown kind",
            Notice::UnknownProperty => "unknown property",
            Notice::WrongPlace => "wrong place",
            Notice::StatedTwice => "stated twice",
            Notice::MissingUnit => "missing unit",
            Notice::WrongDimension => "wrong dimension",
            Notice::WrongValue => "wrong value",
            Notice::UnknownWord => "unknown word",
            Notice::ImpossibleNumber => "impossible number",
            Notice::UnclearSubtraction => "unclear subtraction",
            Notice::UnclearList => "unclear list",
            Notice::UnknownName => "unknown name",
            Notice::NamedTwice => "named twice",
            Notice::UnclearFlight => "unclear flight",
            Notice::UnclearName => "unclear name",
            Notice::TooMany => "too many things",
            Notice::NoRules => "no rules asked for",
            Notice::OtherPurpose => "rules for another use",
            Notice::MeasuredAhead => "measured ahead",
            Notice::UnknownSet => "unknown ruleset",
            Notice::Unreadable => "unreadable",
            Notice::NoDesigns => "no designs",
            Notice::UnreadClause => "unclear clause",
            Notice::UnknownQuantity => "unknown quantity",
            Notice::MixedDimensions => "mixed dimensions",
            Notice::NotACondition => "not a condition",
            Notice::AddedToAPlace => "added to a place",
            Notice::UnusedLimit => "unused limit",
            Notice::TitleOfShipped => "title of a shipped set",
            Notice::AsksNothing => "asks nothing",
            Notice::MissingClause => "missing clause",
            Notice::MissingSource => "missing source",
            Notice::Unproven => "example failed",
            Notice::MissingVerb => "missing verb",
            Notice::MissingName => "missing name",
            Notice::MissingReason => "missing reason",
            Notice::Withdrawn => "withdrawn rule",
            Notice::NothingChanged => "nothing changed",
            Notice::AnotherUnit => "another unit",
            Notice::ConditionDropped => "condition dropped",
            Notice::SameFigure => "same figure elsewhere",
            Notice::AddsNothing => "adds nothing",
            Notice::RowsLeftOut => "rows left out",
            Notice::FormerName => "former name",
            Notice::TableGap => "gap in a table",
            Notice::DeadRow => "row never read",
            Notice::RowsMeet => "rows that meet",
            Notice::UnprovenAmendment => "missing examples",
            Notice::NotNoticed => "no example notices",
            Notice::NeverHolds => "never holds",
            Notice::CrossedBounds => "crossed bounds",
            Notice::NeverPasses => "never passes",
            Notice::AlwaysHolds => "always holds",
            Notice::NeverBothRules => "rules that cannot both be met",
            Notice::OutOfProportion => "out of proportion",
            Notice::MeansNothing => "means nothing here",
            Notice::FinerThanRead => "finer than it was read",
            Notice::Redefined => "redefined",
            Notice::NotStocked => "not stocked",
            Notice::IncompleteWaiver => "incomplete waiver",
            Notice::ExpiredWaiver => "expired waiver",
            Notice::UnneededWaiver => "unneeded waiver",
            Notice::UnknownWaiver => "waiver of an unknown rule",
            Notice::ForbiddenWaiver => "rule not waivable",
            Notice::CircularSets => "circular sets",
            Notice::AmendedTooDeep => "amended too deep",
        }
    }

    /// How grave it is: advised where what is reported hinders no check.
    pub fn severity(self) -> Severity {
        match self {
            Notice::NestedTooDeep
            | Notice::TooLarge
            | Notice::NotText
            | Notice::Empty
            | Notice::NoRules
            | Notice::AsksNothing
            | Notice::UnknownSet
            | Notice::Unreadable
            | Notice::NoDesigns
            | Notice::CircularSets
            | Notice::AmendedTooDeep => Severity::Unchecked,
            Notice::NothingChanged
            | Notice::AnotherUnit
            | Notice::AddedToAPlace
            | Notice::ConditionDropped
            | Notice::SameFigure
            | Notice::AddsNothing
            | Notice::RowsLeftOut
            | Notice::FormerName
            | Notice::TableGap
            | Notice::DeadRow
            | Notice::RowsMeet
            | Notice::OtherPurpose
            | Notice::MeasuredAhead
            | Notice::TitleOfShipped
            | Notice::UnprovenAmendment
            | Notice::NotNoticed
            | Notice::NeverBothRules
            | Notice::OutOfProportion
            | Notice::MeansNothing
            | Notice::FinerThanRead
            | Notice::Redefined
            | Notice::NotStocked
            | Notice::ExpiredWaiver
            | Notice::UnneededWaiver
            | Notice::ForbiddenWaiver => Severity::Advised,
            _ => Severity::NotUnderstood,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::NOTICES;

    #[test]
    fn names_are_unique_plain_words() {
        let mut seen = std::collections::BTreeSet::new();
        for (at, notice) in NOTICES.iter().enumerate() {
            assert_eq!(*notice as usize, at, "the list is in the order of the kinds, and holds each");
            assert!(seen.insert(notice.name()), "{} stands twice", notice.name());
            assert!(notice.name().chars().all(|c| c.is_ascii_lowercase() || c == ' '), "{}", notice.name());
        }
    }
}
