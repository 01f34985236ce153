//! Values that do not fit their property, and what each property takes.

use super::message::{Description, Place};
use super::notice;
use super::phrase::{as_a_length, either, offered, sort};
use super::syntax::impossible;
use crate::base::HasNotice;
use crate::measure::{Dimension, Measure, Style, print};
use crate::model::fastenings::{COATINGS, heads};
use crate::model::finishes::FINISHES;
use crate::model::problem::{Table, ValueProblem};
use crate::model::spelling::Misspelling;
use crate::model::{Basis, Kind, Property, Range, Takes, example};

/// What is said of a value.
pub(super) fn describe(property: &Property, slip: &ValueProblem, place: &Place<'_>) -> Description {
    let description = of(property, slip, place);
    // The property says what it takes, where the kind of message has no label.
    if notice::label(slip.notice()).is_empty() {
        return description.label(format!("`{}` takes {}", property.name, takes(property.takes)));
    }
    description
}

fn of(property: &Property, slip: &ValueProblem, place: &Place<'_>) -> Description {
    let (name, quote) = (property.name, place.quote());
    match slip {
        ValueProblem::Impossible { why } => Description::new(format!("`{quote}`: {}", impossible(*why))),
        ValueProblem::NothingStated => Description::new(format!("`{name}` states nothing")),
        ValueProblem::OtherSort => other_sort(property, place).maybe_help(for_example(property)),
        ValueProblem::Misspelt(why) => misspelt(property, why, place),
        ValueProblem::NoSetName => {
            other_sort(property, place).help(format!("A set of your own is its file, in quotes: `\"{quote}\"`."))
        }
        ValueProblem::StepsWithoutUnit => a_length(name, quote).help(steps(name, quote)),
        ValueProblem::LengthWithoutUnit => a_length(name, quote).help(as_a_length(quote)),
        ValueProblem::WithoutUnit { dimension } => {
            let help = (*dimension == Dimension::ANGLE).then(|| format!("Write `{quote}°`."));
            Description::new(format!("`{name}` takes {dimension}; `{quote}` has no unit")).maybe_help(help)
        }
        ValueProblem::WrongDimension { is } => {
            Description::new(format!("`{name}` takes {}, and `{quote}` is {}", takes(property.takes), sort(*is)))
        }
        ValueProblem::SlopeWithoutUnit => Description::new(format!("`{name}` takes a slope; `{quote}` alone is none"))
            .help(format!("Write `1 in {quote}`, or `{quote}%`.")),
        ValueProblem::NoSlope { is } => {
            Description::new(format!("`{name}` takes a slope, and `{quote}` is {}", sort(*is)))
                .maybe_help(as_a_slope(*is).or_else(|| for_example(property)))
        }
        ValueProblem::NoCount => Description::new(format!("`{quote}` is no count of things in a stair")),
        ValueProblem::EmptyItem => Description::new(format!("a comma of `{name}` has nothing beside it")),
        ValueProblem::TooManyItems { most } => {
            Description::new(format!("`{name}` lists no steps, or more than {most}"))
        }
        ValueProblem::UnknownWord { known, near } => {
            Description::new(format!("`{quote}` is not a word that `{name}` takes"))
                .help(offered(*near, || format!("It takes {}.", either(known))))
        }
        ValueProblem::UnknownSection { name, near } => Description::new(format!("no section called `{name}` is known"))
            .help(offered(near.as_deref(), || {
                "Write `2x12`, `1-1/2\" x 11-1/4\"`, `round 1-1/2\"`, or define `section \"name\" { }`.".to_owned()
            })),
        ValueProblem::NotSold => Description::new(format!("`{quote}` is not a size that boards are sold in"))
            .help("For a size as it measures give both their units: `1-1/2\" x 11-1/4\"`."),
        ValueProblem::BalustersWithoutSection => Description::new("balusters need their section")
            .help("Write it first, as in `3/4\" x 3/4\" every 4-1/2\"` or `2x2 every 5\"`."),
        ValueProblem::StrangeWord { table, near } => {
            Description::new(format!("`{quote}` is no {} that is known", sort_of(*table)))
                .help(offered(near.as_deref(), || known_in(*table)))
        }
        ValueProblem::Denied { table } => {
            Description::new(format!("`{quote}` denies something, and `{name}` says what there is"))
                .help(known_in(*table))
        }
        ValueProblem::SaidTwice => Description::new(format!("`{quote}` says a second time what `{name}` says once"))
            .label("stated again")
            .help("Keep one of the two."),
        ValueProblem::Contradicts { first } => Description::new(format!("`{quote}` cannot be so where `{first}` is"))
            .label("contradicts what stands before it"),
        ValueProblem::NoSpecies => {
            Description::new(format!("`{quote}` says nothing of which timber it is")).maybe_help(for_example(property))
        }
        ValueProblem::NoStrip => Description::new(format!("`{quote}` is the length of no strip"))
            .help("A length stands behind a strip: `grit strip 36\"`."),
        ValueProblem::OutOfProportion { of, is, range, likely } => {
            out_of_proportion(property, of, *is, *range, *likely, place)
        }
        ValueProblem::NoDay => Description::new(format!("`{quote}` is no day of the calendar")),
        ValueProblem::LongPast => {
            Description::new(format!("`{quote}` is long past: no stair of that year is checked here"))
                .help("Look at the year.")
        }
        ValueProblem::NoSuchThread => Description::new(format!("`{quote}` is no metric size that is known"))
            .help("Write `M8`, `M10` or `M12`, or the diameter with its unit: `10 mm x 120 mm`."),
        ValueProblem::NoSuchNail { kind, penny } => {
            Description::new(format!("no {kind} nail of {penny}d is in the table"))
                .help("State it as it measures: `3 of 0.148\" x 3\"`.")
        }
        ValueProblem::NoSuchScrew { number } => Description::new(format!("no screw of No.{number} is in the table")),
        ValueProblem::ScrewWithoutUnit => {
            Description::new(format!("`{quote}` is neither the number of a screw nor a diameter with its unit"))
                .help(format!("Write `No.{quote}` for a number."))
        }
    }
}

/// What words that hold a figure, and are not one, were meant for.
fn misspelt(property: &Property, why: &Misspelling, place: &Place<'_>) -> Description {
    let quote = place.quote();
    let one = "State the one figure that is drawn.";
    match why {
        Misspelling::Otherwise(write) => {
            other_sort(property, place).help(format!("Write `{}: {write}`.", property.name))
        }
        Misspelling::Tolerance => Description::new(format!("`{quote}` is a figure with a tolerance"))
            .help(format!("{one} What the work came to stands in a `measured` block.")),
        Misspelling::Bound => Description::new(format!("`{quote}` is a bound and no figure")).help(one),
        Misspelling::Span => Description::new(format!("`{quote}` is more than one figure")).help(one),
        Misspelling::About => Description::new(format!("`{quote}` is about so much")).help(one),
        Misspelling::BelowNothing => {
            Description::new(format!("`{quote}` is less than nothing, and no `{}` is", property.name))
        }
    }
}

fn other_sort(property: &Property, place: &Place<'_>) -> Description {
    Description::new(format!("`{}` takes {}, not `{}`", property.name, takes(property.takes), place.quote()))
}

fn a_length(name: &str, quote: &str) -> Description {
    Description::new(format!("`{name}` takes a length; `{quote}` has no unit"))
}

/// How a count of risers or runs is written.
fn steps(name: &str, count: &str) -> String {
    let (size, what) = if name == "runs" { ("10\"", "depth") } else { ("7\"", "height") };
    format!("Write `{count} of {size}` for {count} of them, `{count}\"` for one of that {what}.")
}

/// An angle as the slope that it is.
fn as_a_slope(is: Measure) -> Option<String> {
    (is.dimension == Dimension::ANGLE).then(|| {
        let rise = 12.0 * is.value.to_radians().tan();
        format!("As a slope that is `{rise:.2}\" per 12\"`.")
    })
}

fn for_example(property: &Property) -> Option<String> {
    let example = example(property);
    (!example.is_empty()).then(|| format!("For example `{}: {example}`.", property.name))
}

fn out_of_proportion(
    property: &Property,
    of: &Kind,
    is: Measure,
    range: Range,
    likely: Option<Measure>,
    place: &Place<'_>,
) -> Description {
    let bound = |value: f64| print(Measure { value, style: bounds_in(is), ..is });
    let of = if property.basis == Basis::Measurement { String::new() } else { format!(" of {}", of.plural) };
    let meant = likely.map_or(String::new(), |likely| format!(": was `{}` meant?", print(likely)));
    let (quote, name) = (place.quote(), property.name);
    Description::new(format!("`{quote}` is out of all proportion for the `{name}`{of}{meant}")).help(format!(
        "Between {} and {} it would be taken without a word. It counts as it stands.",
        bound(range.least),
        bound(range.most)
    ))
}

/// How the bounds of a figure's range are written: feet and inches in inches.
fn bounds_in(is: Measure) -> Style {
    match is.dimension {
        Dimension::LENGTH if is.style.is_metric() => Style::MILLIMETRES,
        Dimension::LENGTH => Style::INCHES,
        _ => is.style,
    }
}

/// What a word of a table is.
fn sort_of(table: Table) -> &'static str {
    match table {
        Table::Words(_) => "word",
        Table::Timbers => "timber, grade or treatment",
        Table::Finishes => "finish",
        Table::Fasteners(_) => "head or coating of a fastener",
    }
}

/// What the words of a table are, or how one's own are said.
fn known_in(table: Table) -> String {
    match table {
        Table::Words(words) => format!("It takes {}.", either(words)),
        Table::Timbers => {
            "A timber that is not in the table is defined: `timber \"name\" { gravity: ...; hardness: ...; durable: ... }`."
                .to_owned()
        }
        Table::Finishes => {
            let names: Vec<&str> = FINISHES.iter().map(|finish| finish.name).collect();
            format!("Known are {}.", either(&names))
        }
        Table::Fasteners(property) => {
            let heads: Vec<&str> = heads(property).map(|head| head.name).collect();
            format!("Known are {}; and {}.", either(&heads), either(COATINGS))
        }
    }
}

/// What a property takes, in words.
pub fn takes(takes: Takes) -> String {
    match takes {
        Takes::Length => "a length",
        Takes::Lengths => "a length, or one for each step",
        Takes::Angle => "an angle",
        Takes::Angles => "an angle for all together, or one for each",
        Takes::Area => "an area",
        Takes::Force => "a force",
        Takes::Pressure => "a load on an area",
        Takes::Slope => "a slope",
        Takes::Number => "a plain number",
        Takes::Count => "a whole number",
        Takes::OneOf(words) => return either(words),
        Takes::SomeOf(words) => return format!("some of {}", either(words)),
        Takes::Sets => "names of rulesets",
        Takes::Words => "words",
        Takes::Finish => "words, perhaps with a length",
        Takes::Date => "a date",
        Takes::Section => "a section",
        Takes::Timber => "a timber",
        Takes::Edge => "an edge",
        Takes::Balusters => "a section and how far apart, or how many",
        Takes::Fasteners => "fasteners",
        Takes::Members => "the members joined",
        Takes::Name => "the name of something drawn",
    }
    .to_owned()
}
