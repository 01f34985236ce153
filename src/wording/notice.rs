//! What the main label of each kind of message says, and its help, unless the problem knows better.

use crate::base::Notice;
#[cfg(feature = "cli")]
use crate::base::notices::NOTICES;

/// What the main label says; empty where only the problem knows.
pub(super) fn label(notice: Notice) -> &'static str {
    match notice {
        Notice::NotAStatement => "neither `property: value` nor `kind {`",
        Notice::MissingColon => "a colon is missing here",
        Notice::MissingValue => "nothing is stated",
        Notice::UnclosedBrace => "opened here and never closed",
        Notice::StrayBrace => "closes nothing",
        Notice::UnclosedQuote => "opened here, not closed on its line",
        Notice::NestedTooDeep => "one level too many opens here",
        Notice::Hidden => "the first of them",
        Notice::NotText => "the first byte that is not UTF-8",
        Notice::UnknownKind => "no such thing is known",
        Notice::UnknownProperty => "no such property is known here",
        Notice::WrongPlace => "does not stand here",
        Notice::StatedTwice => "stated again",
        Notice::MissingUnit => "a bare number",
        Notice::UnknownWord => "not one of the words this takes",
        Notice::UnclearSubtraction => "blanks round the hyphen",
        Notice::UnclearList => "a list, or a decimal comma?",
        Notice::UnknownName => "nothing drawn has this name",
        Notice::NamedTwice => "this name is taken",
        Notice::UnclearFlight => "there are several flights",
        Notice::UnclearName => "not alike, and called so",
        Notice::TooMany => "one more than can be checked",
        Notice::NoRules => "states no `rules:`",
        Notice::UnknownSet => "no such set",
        Notice::UnknownQuantity => "no such quantity or limit is known here",
        Notice::NotACondition => "a value, where something true or false belongs",
        Notice::AddedToAPlace => "a sum, and no place",
        Notice::UnusedLimit => "the clause never reads it",
        Notice::TitleOfShipped => "the title of another set",
        Notice::AsksNothing => "no rule in it",
        Notice::MissingClause => "this rule asks for nothing",
        Notice::MissingSource => "this rule names no source",
        Notice::Unproven => "the example does not do what it is there for",
        Notice::MissingVerb => "no `shall have` and no `should have`",
        Notice::MissingName => "goes by no name",
        Notice::MissingReason => "withdrawn without a reason",
        Notice::Withdrawn => "this rule is no longer there",
        Notice::NothingChanged => "as it was",
        Notice::AnotherUnit => "another unit, and far from what it was",
        Notice::ConditionDropped => "in place of a condition that asked for more",
        Notice::SameFigure => "changed here alone",
        Notice::AddsNothing => "adds nothing",
        Notice::RowsLeftOut => "in place of a table with more rows",
        Notice::FormerName => "a former name",
        Notice::RowsMeet => "meets a row before it",
        Notice::TableGap => "not checked there",
        Notice::DeadRow => "never read",
        Notice::OtherPurpose => "the rules asked for are for another use",
        Notice::MeasuredAhead => "a day to come",
        Notice::UnprovenAmendment => "amended without an example of its own",
        Notice::NotNoticed => "no example holds it",
        Notice::NeverHolds => "this can never be so",
        Notice::CrossedBounds => "nothing lies between",
        Notice::NeverPasses => "never so where the rule applies",
        Notice::AlwaysHolds => "holds whatever is built",
        Notice::NeverBothRules => "nothing meets this and the other",
        Notice::OutOfProportion => "out of all proportion",
        Notice::MeansNothing => "nobody reads it here",
        Notice::FinerThanRead => "between two marks",
        Notice::Redefined => "the trade knows another",
        Notice::NotStocked => "not in the shop's stock",
        Notice::IncompleteWaiver => "does not hold",
        Notice::ExpiredWaiver => "holds no more",
        Notice::UnneededWaiver => "excuses nothing",
        Notice::UnknownWaiver => "no such rule",
        Notice::ForbiddenWaiver => "does not hold",
        Notice::CircularSets => "this closes the circle",
        Notice::AmendedTooDeep => "one set too many",
        Notice::TooLarge
        | Notice::Empty
        | Notice::WrongDimension
        | Notice::WrongValue
        | Notice::ImpossibleNumber
        | Notice::Unreadable
        | Notice::NoDesigns
        | Notice::UnreadClause
        | Notice::MixedDimensions => "",
    }
}

/// What to do about the kind of message that goes by a name; empty where only the problem knows.
#[cfg(feature = "cli")]
pub fn of_name(name: &str) -> &'static str {
    NOTICES.iter().find(|notice| notice.name() == name).map_or("", |notice| help(*notice))
}

/// What to do; empty where only the problem knows.
pub(super) fn help(notice: Notice) -> &'static str {
    match notice {
        Notice::NotAStatement => "Write `property: value`, or `kind name {` for a thing that has parts.",
        Notice::MissingColon => "Put a colon between the property and its value.",
        Notice::MissingValue => "Write the value after the colon.",
        Notice::UnclosedBrace => "Close it with `}` where the thing ends.",
        Notice::StrayBrace => "Take it out, or open the block it should close.",
        Notice::UnclosedQuote => {
            "Close the text with a quote on the same line. An inch mark stands right after its number; inside a text write `in`."
        }
        Notice::NestedTooDeep => "A design needs three or four levels; look for braces that were never closed.",
        Notice::TooLarge => "A design is a few kilobytes; more than one megabyte is refused.",
        Notice::NotText => "Save the file as UTF-8 text.",
        Notice::Empty => "Start with `stair \"name\" {` and close it with `}`.",
        Notice::StatedTwice => "Keep one of the two.",
        Notice::UnclearList => "Put a blank after each comma of a list; write a decimal with a point.",
        Notice::NamedTwice => "Give each its own name.",
        Notice::FormerName => "Write the name of now.",
        Notice::UnclearName => "Give each of them a name of its own, and write that one.",
        Notice::UnclearFlight => "Nest it in the flight it serves, or say `along:` and the flight's name.",
        Notice::TooMany => "Split the file; five thousand things in one design are refused.",
        Notice::NoRules => "Add `rules: residential, workshop`, or give `--rules NAME` on the command line.",
        Notice::NoDesigns => "Designs are files whose names end in `.stair`.",
        Notice::UnreadClause => "A clause reads `each KIND [where CONDITION] shall have REQUIREMENT`.",
        Notice::UnusedLimit => "Take it out, or use it in the clause.",
        Notice::AsksNothing => "Write a rule, `rule \"low risers\" { ... }`, or let it amend a set that has some.",
        Notice::MissingClause => "Add `each KIND shall have ...`.",
        Notice::MissingSource => "Add `source:` with the document and clause, or `source: \"common practice\"`.",
        Notice::MissingReason => "Add `because:` and say in a sentence why. Until then the rule stays in force.",
        Notice::NothingChanged => "State only what differs.",
        Notice::NotNoticed => {
            "Write an example that it decides: a `passes` at the limit, a `fails` one mark past it. Where no stair can tell the \
             two apart, there is none to write."
        }
        Notice::ConditionDropped => {
            "If they are still meant, write them again, joined with `and`: a new `where` takes the place of the old one."
        }
        Notice::SameFigure => "If both are meant, amend the other too.",
        Notice::AddsNothing => {
            "Of two that are joined by `or` the looser counts: leave the other out, or join them by `and`."
        }
        Notice::RowsLeftOut => "If they are still meant, write them again.",
        Notice::TableGap => "Where no row holds the rule is not checked: add a row, or `otherwise` as the last.",
        Notice::DeadRow => "The first row that holds counts: put it before them, or take it out.",
        Notice::RowsMeet => "The first row that holds counts. Say in one of the two which is meant where both do.",
        Notice::NeverHolds => "Change one of the two, or join them with `or`.",
        Notice::CrossedBounds => "Put the smaller figure first, or leave room between the two.",
        Notice::NeverPasses => "Whatever the rule applies to would break it: change the `where`, or what is asked.",
        Notice::AlwaysHolds => "Take it out, or ask for more than is given already.",
        Notice::NeverBothRules => {
            "Amend the other rule or withdraw it, or say by `where` which of the two is for what."
        }
        Notice::UnneededWaiver => "Take it out.",
        Notice::CircularSets => "Take one of the `amends:` out.",
        Notice::AmendedTooDeep => "Sixteen sets may take one another in, one after the other.",
        Notice::UnknownKind
        | Notice::UnknownProperty
        | Notice::WrongPlace
        | Notice::MissingUnit
        | Notice::WrongDimension
        | Notice::WrongValue
        | Notice::UnknownWord
        | Notice::ImpossibleNumber
        | Notice::UnclearSubtraction
        | Notice::UnknownName
        | Notice::UnknownSet
        | Notice::Unreadable
        | Notice::UnknownQuantity
        | Notice::MixedDimensions
        | Notice::NotACondition
        | Notice::Unproven
        | Notice::MissingVerb
        | Notice::MissingName
        | Notice::Withdrawn
        | Notice::AnotherUnit
        | Notice::AddedToAPlace
        | Notice::UnprovenAmendment
        | Notice::OtherPurpose
        | Notice::MeasuredAhead
        | Notice::OutOfProportion
        | Notice::Hidden
        | Notice::TitleOfShipped
        | Notice::MeansNothing
        | Notice::FinerThanRead
        | Notice::Redefined
        | Notice::NotStocked
        | Notice::IncompleteWaiver
        | Notice::ExpiredWaiver
        | Notice::UnknownWaiver
        | Notice::ForbiddenWaiver => "",
    }
}
