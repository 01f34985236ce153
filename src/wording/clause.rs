//! Names and dimensions of a clause that mean nothing or do not fit together.

use super::message::{Describe, Description, Place};
use super::phrase::{self, a, did_you_mean, does, is_many, offered};
use crate::base::Span;
use crate::derive::Quantity;
use crate::measure::{Dimension, print};
use crate::model::{KINDS, Kind, kinds};
use crate::rules::problem::{ClauseProblem, Counting, QuantityMeant, Without};

impl Describe for ClauseProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            ClauseProblem::UnknownKind { words, near } => {
                let kinds = || KINDS.iter().map(|kind| kind.name).collect::<Vec<_>>().join(", ");
                Description::new(format!("`{words}` is no kind of thing that is known"))
                    .help(offered(*near, || format!("A rule can speak of {}.", kinds())))
            }
            ClauseProblem::KindAtASide { words, kind, side } => {
                let (one, many) = (kind.name, kind.plural);
                Description::new(format!("`{words}` is no kind of thing: which of the {many} is a condition")).help(
                    format!("Write `each {one} where side is {side}`, or of them all `({many} where side is {side})`."),
                )
            }
            ClauseProblem::NeverDrawn { kind } => never_drawn(kind),
            ClauseProblem::ValueForCondition => {
                Description::new("this is a value, where something true or false is asked")
                    .help("Compare it: `... <= limit`, or `... is word`.")
            }
            ClauseProblem::ConditionForNumber => {
                Description::new(format!("`{}` is a condition, where a number is asked", place.quote()))
            }
            ClauseProblem::WordForNumber => {
                Description::new(format!("`{}` is a word, where a number is asked", place.quote()))
                    .help("Ask for a word with `is`.")
            }
            ClauseProblem::WordSummed { name } => {
                Description::new(format!("`{name}` is a word; only numbers are summed up"))
            }
            ClauseProblem::FigureOrMore { figure, said, counted, sign } => {
                let figure = place.quote_at(*figure);
                Description::new(format!("`{figure} or {said}` is said by a sign"))
                    .help(format!("Write `number of {counted} {} {figure}`.", sign.sign()))
            }
            ClauseProblem::WordAfterOr { said, subject, choice } => {
                let subject = place.quote_at(*subject);
                Description::new(format!("after `or` stands a condition, and `{said}` is a word"))
                    .label("a word, not a condition")
                    .help(format!("Write `{subject} is one of {}`.", choice.join(", ")))
            }
            ClauseProblem::MixedDimensions { left, right, counting } => mixed(place, *left, *right, counting.as_ref()),
            ClauseProblem::LimitWithoutUnit { limit, of } => {
                let figure = place.quote();
                Description::new(format!("`{limit}` is held against {of}, and `{figure}` has no unit"))
                    .label("write the unit")
                    .help(phrase::as_a_length(figure))
            }
            ClauseProblem::NotAWord => {
                Description::new(format!("`{}` is not a word; compare it with `<=` and the like", place.quote()))
            }
            ClauseProblem::NeverThisWord { subject, word, known, near } => {
                Description::new(format!("`{}` is never `{word}`", place.quote_at(*subject)))
                    .help(offered(*near, || format!("It is one of: {}.", known.join(", "))))
            }
            ClauseProblem::NoSuchClass { word, known, near } => {
                Description::new(format!("the set has no class `{word}`"))
                    .help(offered(near.as_deref(), || format!("Its `classes` are {}.", known.join(", "))))
            }
            ClauseProblem::PickAsQuantity { words, pick } => {
                Description::new(format!("`{words}` is no quantity")).help(format!("Write `{pick} of A and B`."))
            }
            ClauseProblem::PhraseBeforeFigure { phrase, sign, subject, figure } => {
                let comparison = format!("{} {} {}", or(subject, "QUANTITY"), sign.sign(), place.quote_at(*figure));
                Description::new(format!("`{phrase}` is said by a sign")).help(format!("Write `{comparison}`."))
            }
            ClauseProblem::Between { subject, figure } => Description::new("`between` is said by two signs")
                .help(format!("Write `{} <= {subject} <= ...`.", place.quote_at(*figure))),
            ClauseProblem::NotAtAPlace { words, kind, others, placed } => {
                Description::new(format!("`{words}` of {} is not asked at a place", a(kind)))
                    .maybe_help(asked_at_a_place(others, placed))
            }
            ClauseProblem::PlaceIsNoLimit { place, quantity, near } => {
                Description::new(format!("`{place}` is no limit of this rule"))
                    .help(offered(near.as_deref(), || {
                        format!(
                            "Write a length, {} Declare one, `limit {place}: {}`; a place that is worked out stands in parentheses, \
                             `{} (width of flight / 2)`.",
                            or_a_limit(quantity),
                            quantity.shown_at,
                            quantity.name
                        )
                    }))
            }
            ClauseProblem::NeedsAPlace { quantity } => Description::new(format!("`{}` needs a place", quantity.name))
                .help(format!("Write {}", or_a_limit(quantity))),
            ClauseProblem::PlaceIsNoLength { quantity, dimension, bare } => {
                no_length(place, quantity, *dimension, *bare)
            }
            ClauseProblem::DeadRow => {
                Description::new(format!("rows before `{}` hold wherever it does", place.quote()))
            }
            ClauseProblem::RowsMeet { first } => Description::new(format!(
                "`{}` and `{}` both hold for some, and neither is the narrower",
                place.quote_at(*first),
                place.quote()
            ))
            .beside(*first, "this row counts where both do"),
            ClauseProblem::FormerLimit { was, now } => Description::former_name(&format!("`{was}`"), &format!("`{now}`")),
            ClauseProblem::RowOfWhich { by } => {
                Description::new(format!("`{}` may speak of either, by `{by}`", place.quote()))
                    .help("Say both, in the order in which the table goes by them: `36\" up to 12' and over 44\"`.")
            }
            ClauseProblem::RowOfNeither { by } => {
                Description::new(format!("`{}` says two things of one, and the table goes by `{by}`", place.quote()))
                    .help("Write `36\" for dwelling and up to 44\"`; several words of one are joined by `or`.")
            }
            ClauseProblem::FigureGoesByOther { figure, by, kind } => Description::new(format!(
                "the figure `{figure}` goes by `{by}`, and that cannot be asked of {}",
                a(kind)
            ))
            .help("State a limit of the rule's own in its place, by what can be asked here."),
            ClauseProblem::TableGap { by, without } => {
                let none: Vec<String> = without.iter().map(|gap| format!("`{}`", as_a_row(gap))).collect();
                Description::new(format!("no row holds {}, by `{by}`", none.join(", ")))
            }
            ClauseProblem::NeverBelongs { kind, owner } => never_belongs(kind, owner),
            ClauseProblem::NotRelated { asked, named, kind, from, through, row } => {
                let why = match row {
                    true => format!("{} stands in no row of {}", a(from), kind.plural),
                    false => {
                        let (has, belongs, own) = match is_many(from) {
                            true => ("have", "belong", "their"),
                            false => ("has", "belongs", "its"),
                        };
                        format!("{} {has} no {} of {own} own, and {belongs} to none", a(from), kind.name)
                    }
                };
                let through = through.map(|through| format!("Write `{asked} of {named} of {}`.", through.name));
                Description::new(why).help(through.unwrap_or_else(|| {
                    let others = KINDS.iter().filter(|other| from != other && from.may_ask_of(other));
                    let others: Vec<&str> = others.map(|other| other.name).collect();
                    format!("Of {} it may be asked: {}.", a(from), others.join(", "))
                }))
            }
            ClauseProblem::NotInARow { kind } => {
                Description::new(format!("of {} none stands before or after another", kind.plural))
                    .help("That is asked of risers, treads, flights and landings: `height of riser before`.")
            }
            ClauseProblem::DeviationOfNothing => Description::new("`deviation` is of something")
                .help("Write `deviation of height`: how far the measured height is from the drawn one."),
            ClauseProblem::WorkedOutOfMany => {
                Description::new("a place for many things is a figure or a limit, and not worked out")
                    .help("Ask it of one thing: `depth at (width of flight / 2)`.")
            }
            ClauseProblem::AddedToAPlace { quantity, first, second, minus } => {
                let (first, second) = (place.quote_at(*first), place.quote_at(*second));
                let at = first.get(quantity.name.len()..).unwrap_or_default().trim();
                let (added, sign) = if *minus { ("taken from", '-') } else { ("added to", '+') };
                Description::new(format!("`{second}` is {added} what `{first}` comes to, and not the place"))
                    .help(format!(
                        "If the place is meant, write `{} ({at} {sign} {second})`; if not, `({first}) {sign} {second}`.",
                        quantity.name
                    ))
            }
            ClauseProblem::NoSuchPlace { name, near } => {
                Description::new(format!("`{name}` is nothing of a finding")).help(did_you_mean(near))
            }
            ClauseProblem::BetweenWords => {
                Description::new(format!("`{}` is a word; only between figures can be read", place.quote()))
            }
            ClauseProblem::NumberForWord => {
                Description::new("this row stands at a figure, and the table goes by a word")
                    .help("Write `220 mm for private`.")
            }
            ClauseProblem::RowOfOtherSort { row, by } => {
                Description::new(format!("`{}` is {row}, and the table goes by {by}", place.quote()))
            }
            ClauseProblem::NotComparable { name, kind } => {
                Description::new(format!("`{name}` of {} is not a number or a word that a rule can hold", a(kind)))
                    .help("Name a quantity that is derived from it.")
            }
            ClauseProblem::UnknownQuantity { name, kind, meant } => {
                let what = match meant {
                    QuantityMeant::Unknown(_) => {
                        format!("`{name}` is no quantity of {}, and no limit or figure of this set", a(kind))
                    }
                    _ => format!("{} no `{name}`", does(kind, "has", "have")),
                };
                Description::new(what).help(quantity_meant(name, kind, meant))
            }
        }
    }
}

fn never_drawn(kind: &Kind) -> Description {
    if kind == kinds::WAIVER {
        return Description::new("a waiver is no part of a stair, so such a rule would check nothing")
            .label("nothing to check")
            .help("A rule that no design may waive says so by itself: `waive: never`.");
    }
    let help = "What was measured is checked by every rule beside what is drawn: let the rule speak of the thing itself, \
                as in `each flight shall have width >= 36\"`.";
    Description::new(format!("no `{}` is part of a stair, so such a rule would check nothing", kind.name))
        .label("nothing to check")
        .help(help)
}

fn or<'a>(words: &'a str, otherwise: &'a str) -> &'a str {
    if words.is_empty() { otherwise } else { words }
}

/// Two values that cannot be compared or added.
fn mixed(place: &Place<'_>, left: (Span, Dimension), right: Dimension, counting: Option<&Counting>) -> Description {
    let (words, dimension) = (place.quote_at(left.0), left.1);
    let message = format!("`{words}` is {dimension} and `{}` is {right}; they cannot be compared", place.quote());
    Description::new(message).label(right.to_string()).beside(left.0, dimension.to_string()).maybe_help(counting.map(
        |counting| match counting {
            Counting::Uncounted(things) => format!("To count them, write `number of {things}`."),
            Counting::WithUnit => "A count is a bare number, without a unit.".to_owned(),
        },
    ))
}

/// What can be asked at a place, where a quantity cannot.
fn asked_at_a_place(others: &[&str], placed: &[&str]) -> Option<String> {
    match (others, placed) {
        ([], []) => None,
        ([], placed) => Some(format!("Asked at a place is: {}.", placed.join(", "))),
        (others, _) => Some(format!("It is asked of a {}.", others.join(" and a "))),
    }
}

fn or_a_limit(quantity: &Quantity) -> String {
    format!("`{} {}`, or the name of a limit.", quantity.name, quantity.shown_at)
}

fn no_length(place: &Place<'_>, quantity: &Quantity, dimension: Dimension, bare: bool) -> Description {
    let name = quantity.name;
    let help = if bare {
        let figure = place.quote();
        format!("Write `{name} {figure}\"` for inches, or `{figure} mm`.")
    } else {
        format!("Write a length, `{name} {}`.", quantity.shown_at)
    };
    Description::new(format!("`{name}` asks for a length, and this is {dimension}")).help(help)
}

fn quantity_meant(name: &str, kind: &Kind, meant: &QuantityMeant) -> String {
    match meant {
        QuantityMeant::Sign(left, sign, right) => {
            format!("Write `{} {} {}`.", or(left, "QUANTITY"), sign.sign(), or(right, "LIMIT"))
        }
        QuantityMeant::Article(article, bare) => format!("Leave out `{article}`: `{bare}`."),
        QuantityMeant::AtAPlace(entry) => format!("It is asked at a place: `{} {}`.", entry.name, entry.shown_at),
        QuantityMeant::Of(owner) => format!("A {owner} has one: write `{name} of {owner}`."),
        QuantityMeant::Near(near) => did_you_mean(near),
        QuantityMeant::OfOthers(kinds) => {
            let kinds: Vec<String> = kinds.iter().map(|kind| format!("`{}`", kind.name)).collect();
            format!("It is asked of {}.", kinds.join(", "))
        }
        QuantityMeant::OfOther(of, ours) => {
            format!("That is asked of {}, by the name `{ours}`: `each {} shall have {ours} ...`.", a(of), of.name)
        }
        QuantityMeant::Unknown(names) => {
            let declared = format!(
                "Declare it, `limit {name}: 24\"` in the rule or `figure \"{name}\" {{ is: 24\" }}` for several."
            );
            format!("{declared} {} {}.", phrase::begun(&does(kind, "has", "have")), names.join(", "))
        }
    }
}

/// Values for which no row of a table holds, as a row would say them: `over 49 under 100`.
fn as_a_row(gap: &Without) -> String {
    match gap {
        Without::Word(word) => format!("for {word}"),
        Without::At(figure) => format!("at {}", print(*figure)),
        Without::UpTo(figure, up_to) => format!("{} {}", if *up_to { "up to" } else { "under" }, print(*figure)),
        Without::From(figure, from) => format!("{} {}", if *from { "from" } else { "over" }, print(*figure)),
        Without::Both(first, second) => format!("{} and {}", as_a_row(first), as_a_row(second)),
        Without::Between { from, over, to, up_to } => {
            let (begins, ends) = (if *over { "over" } else { "from" }, if *up_to { "up to" } else { "under" });
            format!("{begins} {} {ends} {}", print(*from), print(*to))
        }
    }
}

/// What is said of things that are counted where there are never any.
fn never_belongs(kind: &Kind, owner: &Kind) -> Description {
    let none = if is_many(kind) { kind.name.to_owned() } else { format!("no {}", kind.name) };
    let said = Description::new(match is_many(kind) {
        true => format!("{none} never belong to {}", a(owner)),
        false => format!("{none} ever belongs to {}", a(owner)),
    });
    if kind == owner || kind == kinds::PART && owner.is_timber() {
        return said.help(format!("Ask it of {} itself, without a count.", a(owner)));
    }
    let mut counted: Vec<&str> =
        KINDS.iter().filter(|other| other.may_belong_to(owner)).map(|other| other.plural).collect();
    counted.dedup();
    match counted.is_empty() {
        true => {
            said.help(format!("Nothing belongs to {}; count it of the flight, the landing or the stair.", a(owner)))
        }
        false => said.help(format!("What belongs to {}: {}.", a(owner), counted.join(", "))),
    }
}
