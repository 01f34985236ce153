//! What is wrong with what a design draws, and with the heads of its blocks.

use super::message::{Describe, Description, Place};
use super::phrase::{a, begun, did_you_mean, does, is_many, offered};
use super::value;
use crate::base::Span;
use crate::measure::print;
use crate::model::problem::{DrawingProblem, HeadProblem, Limit, NeedsDrawn, Onward, Problem, PropertyMeant};
use crate::model::redefined::{Departure, Figure};
use crate::model::{KINDS, Kind, Property, Takes, Trait, example, kinds};

impl Describe for Problem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            Problem::Syntax(problem) => problem.describe(place),
            Problem::Head(problem) => problem.describe(place),
            Problem::Value { property, slip } => value::describe(property, slip, place),
            Problem::Drawing(problem) => problem.describe(place),
            Problem::Shop(problem) => problem.describe(place),
        }
    }
}

impl Describe for HeadProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            HeadProblem::RiserDrawn => {
                Description::new("risers are made from a flight's list").help("Write `risers: 4 of 7\"` in the flight.")
            }
            HeadProblem::WrongPlace { kind, within } => {
                let here = if within.is_empty() { "at the top of a file".to_owned() } else { format!("in a {within}") };
                let file = |place: &&'static str| if place.is_empty() { "file" } else { place };
                let places: Vec<&str> = kind.within.iter().map(file).collect();
                Description::new(format!("{} not stand {here}", does(kind, "does", "do")))
                    .help(format!("It stands in a {}.", places.join(", or a ")))
            }
            HeadProblem::KindAsName { name, kind } => {
                Description::new(format!("`{name}` is a kind of thing, and no name by itself"))
                    .help(format!("Put it in quotes, `{} \"{name}\" {{`, or draw it by itself.", kind.opens))
            }
            HeadProblem::NoName => Description::new(format!("`{}` is no name", place.quote()))
                .help("A name is words, or a text in quotes."),
            HeadProblem::NoKind => {
                Description::new("this brace opens a thing without a kind").help("Write `kind name {`.")
            }
            HeadProblem::UnknownKind { word, near, within } => {
                Description::new(format!("`{word}` is no kind of thing that is known"))
                    .help(offered(*near, || format!("Here may stand: {}.", standing_in(within))))
            }
        }
    }
}

/// The kinds that may stand in a kind.
fn standing_in(within: &str) -> String {
    let here = KINDS.iter().filter(|kind| kind.within.contains(&within)).map(|kind| kind.opens);
    here.collect::<Vec<_>>().join(", ")
}

fn continues_nowhere(onward: Onward, place: &Place<'_>) -> Description {
    let flight = match onward {
        Onward::Up => "no flight above has a handrail at this side",
        Onward::Down => "no flight below has a handrail at this side",
    };
    Description::new(format!("the handrail `continues: {}`, and {flight}", place.quote()))
        .label("nothing drawn continues it")
        .help("Draw the rail that it runs on into, or leave `continues` out.")
}

fn redefined(kind: &Kind, name: &str, departures: &[Departure]) -> Description {
    let said = |figure: &Figure| match figure {
        Figure::Measure(measure) => print(*measure),
        Figure::Word(word) => word.clone(),
    };
    let departs = departures.iter().map(|departure| {
        format!("`{}` is {} here and {} there", departure.property, said(&departure.own), said(&departure.trade))
    });
    let departs = departs.collect::<Vec<_>>().join(", ");
    let counts = match kind == kinds::SECTION {
        true => format!(
            "It counts where its name stands in quotes, `section: \"{name}\"`; without them that of the trade is \
            read. Give it a name of its own."
        ),
        false => "What is stated here counts. Give it a name of its own if it is another.".to_owned(),
    };
    Description::new(format!("the trade knows another {} called `{name}`: {departs}", kind.name)).help(counts)
}

impl Describe for DrawingProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            DrawingProblem::ContinuesOverNothing { first } => Description::new(format!(
                "the handrail `continues: {}`, and no rail is drawn at the landing that it would run on over",
                place.quote()
            ))
            .label("nothing drawn continues it")
            .beside(*first, "no handrail here")
            .help("Draw the rail of the landing, or leave `continues` out."),
            DrawingProblem::ContinuesNowhere { onward } => continues_nowhere(*onward, place),
            DrawingProblem::Redefined { kind, name, departures } => redefined(kind, name, departures),
            DrawingProblem::WaivesNothing => Description::new("this waiver names no rule")
                .help("Write the rule's name in quotes: `waive \"riser height\" { }`."),
            DrawingProblem::TooMany(limit) => Description::new(too_many(*limit)),
            DrawingProblem::WhichStairMeasured => Description::new("which stair was measured?")
                .label("names none of several stairs")
                .help("Name it: `measured \"the stair's name\" { }`."),
            DrawingProblem::NamesNoTimber { name } => Description::new(format!(
                "`{name}` says a grade or a treatment, and is no name of a timber"
            ))
            .help("Name the timber, and say its grade and treatment where it is used: `timber: marsh oak, treated`."),
            DrawingProblem::StairTwice { name, first } => {
                Description::new(format!("a stair `{name}` is drawn already")).beside(*first, "drawn here first")
            }
            DrawingProblem::NoSuchStair { name, near } => Description::new(format!("no stair here is called `{name}`"))
                .help(offered(near.as_deref(), || "Name a stair of this file.".to_owned())),
            DrawingProblem::StatedTwice { property, first } => {
                Description::new(format!("`{}` is stated twice", property.name)).beside(*first, "stated here first")
            }
            DrawingProblem::SizeOfNothing { property }
                if matches!(property.takes, Takes::Count | Takes::Balusters | Takes::Fasteners) =>
            {
                Description::new(format!("`{}` cannot count 0", property.name))
                    .help("Count from 1, or leave out what is not there.")
            }
            DrawingProblem::SizeOfNothing { property } => {
                Description::new(format!("`{}` of nothing cannot be built", property.name))
            }
            DrawingProblem::UnknownProperty { kind, name, meant } => {
                Description::new(format!("{} no property `{name}`", does(kind, "has", "have")))
                    .maybe_help(property_meant(kind, name, *meant))
            }
            DrawingProblem::NoSide { kind, name, near } => {
                Description::new(format!("`{name}` names no side")).help(offered(*near, || sides(kind)))
            }
            DrawingProblem::DrawnTwice { kind, name, first } => {
                let name = if name.is_empty() { String::new() } else { format!(" `{name}`") };
                Description::new(format!(
                    "{}{name} {} drawn already",
                    a(kind),
                    if is_many(kind) { "are" } else { "is" }
                ))
                .beside(*first, "drawn here first")
            }
            DrawingProblem::InTwoPlaces { inside, first } => {
                Description::new(format!("this is drawn in {inside} and said to serve another place"))
                    .beside(*first, "drawn in here")
            }
            DrawingProblem::WhichOfTheName { name, one, other } if one.0 == other.0 => {
                Description::new(format!("`{name}` may mean either of two that are drawn so and are not alike"))
                    .beside(one.1, "one of them")
                    .beside(other.1, "another")
            }
            DrawingProblem::WhichOfTheName { name, one, other } => {
                Description::new(format!("`{name}` may mean {} or {}", one.0, other.0))
                    .beside(one.1, "one of them")
                    .beside(other.1, "another")
            }
            DrawingProblem::Rivals { property, other, first } => {
                Description::new(format!("`{}` and `{}` cannot both be so", other.name, property.name))
                    .beside(*first, "stated here first")
            }
            DrawingProblem::OpenAndWalled { first } => {
                Description::new("a side that is open has a wall here").beside(*first, "the wall")
            }
            DrawingProblem::TooLong { property, many, kind, most } => {
                let things = if *most == 1 { kind.name } else { kind.plural };
                Description::new(format!("`{}` has {many} items, for {most} {things}", property.name))
                    .help("State one for all, or one for each.")
            }
            DrawingProblem::NoPostAtItsEnds => {
                Description::new("the handrail ends at a post, and no post is drawn that it could end at")
                    .label("no post to end at")
                    .help("Draw it, `post \"newel\" { section: 4x4 }`, or say how the rail ends.")
            }
            DrawingProblem::ReturnsToNothing => Description::new(
                "the handrail returns, and neither wall, guard nor post is drawn beside it",
            )
            .label("nothing to return to")
            .help("Draw what it returns to, `wall left { }` or `post \"newel\" { section: 4x4 }`, or say how it ends."),
            DrawingProblem::MeansNothing { property, beside, belongs } => means_nothing(property, *beside, *belongs),
            DrawingProblem::NoStepsBeside { property, place } => {
                Description::new(format!("`{}` means nothing at a {}, which has no steps", property.name, place.name))
                    .help("Leave it out; one that stops short there states its `length`.")
            }
            DrawingProblem::NeedsDrawn(needs) => needs_drawn(*needs),
            DrawingProblem::NotJoined { name, joined } => {
                Description::new(format!("this joint does not join `{name}`"))
                    .label("no member of this joint")
                    .help(format!("It joins {}: write where its fasteners stand in one of them.", joined.join(" to ")))
            }
            DrawingProblem::JoinsItself { name } => Description::new(format!("`{name}` cannot be joined to itself"))
                .label("twice the same")
                .help("Name two things that are drawn; give two of one kind names of their own."),
            DrawingProblem::FlightsOutOfOrder { name, other, first } => {
                Description::new(format!("flight `{name}` is drawn below flight `{other}`"))
                    .beside(*first, "drawn above it")
                    .help("Flights are drawn from the bottom up: change their order, or their names.")
            }
            DrawingProblem::NoneOpenAndClosed { kind, first } if *kind == kinds::WALL => {
                Description::new("no side is open, and a wall closes only a part of one")
                    .beside(*first, "the wall")
                    .help("Say which sides are open, or let the wall close all of its side.")
            }
            DrawingProblem::NoneOpenAndClosed { first, .. } => {
                Description::new("no side is open, and a guard stands at one")
                    .beside(*first, "the guard")
                    .help("Leave `open sides` out, or say which sides are open.")
            }
            DrawingProblem::FinerThanRead { marks } => {
                let marks = print(*marks);
                Description::new(format!("this figure lies between the marks of {marks} to which it was read"))
                    .help("Say how finely the work was read, `read to`, or write the figure as it was read.")
            }
            DrawingProblem::SpiralOfStraightTreads => Description::new(
                "this flight is called a spiral, and none of its treads tapers",
            )
            .label("a spiral of straight treads")
            .help(
                "Draw them as they turn, `winders left { from tread: 1; to tread: 11; turn: 330°; narrow: 1\" }`; \
                         or leave `spiral` out.",
            ),
            DrawingProblem::MeasuredOther { property, many, drawn } => {
                Description::new(format!("`{}` has {many} measured, and {drawn} drawn", property.name)).help(
                    "State one for each that is drawn, bottom first; draw the flight anew if it was built otherwise.",
                )
            }
            DrawingProblem::OutsideStair => Description::new("this stands outside of any stair")
                .help("Put it between the braces of `stair \"name\" { }`."),
            DrawingProblem::MissingColon { said, value } => {
                let value = value.map_or("...", |span| place.quote_at(span));
                Description::new(format!("a colon is missing after `{said}`")).help(format!("Write `{said}: {value}`."))
            }
            DrawingProblem::MissingColonIn { kind } => {
                Description::new(format!("a colon is missing here, and this belongs to {}", a(kind)))
                    .help(format!("Write it with a colon inside `{} {{ }}`.", kind.opens))
            }
            DrawingProblem::NotOpened => Description::new("this names a thing and does not open it")
                .help(format!("Write `{} {{ }}`.", place.quote())),
            DrawingProblem::NotAStatement => Description::new("this line is no statement"),
            DrawingProblem::WhichFlight { kind } if is_many(kind) => {
                Description::new(format!("which flight do these {} serve?", kind.name))
            }
            DrawingProblem::WhichFlight { kind } => {
                Description::new(format!("which flight does this {} serve?", kind.name))
            }
            DrawingProblem::WhichFlightMeasured { property } => {
                Description::new(format!("which flight was `{property}` measured on?"))
                    .help("Write it inside `flight name { }`.")
            }
            DrawingProblem::LandingBesideFlights { name } => {
                let landing =
                    name.as_ref().map_or_else(|| "this landing".to_owned(), |name| format!("landing `{name}`"));
                Description::new(format!("{landing} does not lie between two flights")).help(
                    "Call it `landing top` at the head and `landing bottom` at the foot; else draw it between \
                     the flights that it joins.",
                )
            }
            DrawingProblem::NothingCalled { name, near, drawn } => {
                Description::new(format!("nothing drawn here is called `{name}`"))
                    .help(offered(near.as_deref(), || drawn_are(drawn)))
            }
            DrawingProblem::NotDrawn { kind, name } => {
                let name = name.as_ref().map(|name| format!(" {name}")).unwrap_or_default();
                Description::new(format!("`{}{name}` is measured and not drawn", kind.name))
                    .help("Draw it in the stair.")
            }
        }
    }
}

/// A property that nobody reads where it stands.
fn means_nothing(
    property: &Property,
    beside: Option<(&'static Property, Span)>,
    belongs: Option<&'static Property>,
) -> Description {
    match (beside, belongs) {
        (Some((other, span)), _) => {
            Description::new(format!("`{}` means nothing beside this `{}`", property.name, other.name))
                .beside(span, "beside this")
                .help("Leave one of the two out, or say what was meant.")
        }
        (None, belongs) => {
            let belongs = belongs.map_or("what it belongs to", |belongs| belongs.name);
            Description::new(format!("`{}` means nothing without `{belongs}`", property.name))
                .help(format!("State `{belongs}`, or leave it out."))
        }
    }
}

/// A word that speaks of something which is not drawn.
fn needs_drawn(needs: NeedsDrawn) -> Description {
    match needs {
        NeedsDrawn::LandingAtItsFoot => {
            Description::new("the string stands on a landing, and none is drawn at its foot")
                .label("no landing to stand on")
                .help("Draw it, `landing bottom { depth: 36\" }`, or say what the string stands on.")
        }
        NeedsDrawn::WallBesideIt => Description::new("the string stands at the wall, and no wall is drawn")
            .label("no wall to stand at")
            .help("Draw it, `wall left { }`, or say where the string stands."),
        NeedsDrawn::Turn => Description::new("this stands at a turn, and nothing that is drawn turns")
            .label("no turn to stand at")
            .help("Draw the turn, `winders left { }` or `turn: quarter left` of a landing, or say where it stands."),
        NeedsDrawn::FramingOfItsOwn => {
            Description::new("the stair stands by itself, and nothing that is drawn carries the head of this string")
                .label("nothing to hang from")
                .help("Draw the joint that holds it to a landing of the stair's own, or say what holds it.")
        }
    }
}

/// Most names that a message lists.
const MOST_NAMES: usize = 12;

/// The names of what is drawn, each once.
fn drawn_are(drawn: &[String]) -> String {
    let mut names: Vec<String> = drawn.iter().map(|name| format!("`{name}`")).collect();
    names.sort();
    names.dedup();
    let more = names.len().saturating_sub(MOST_NAMES);
    names.truncate(MOST_NAMES);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    if names.is_empty() { "Draw it first.".to_owned() } else { format!("Drawn are {}.", names.join(", ")) }
}

fn too_many(limit: Limit) -> &'static str {
    match limit {
        Limit::Things => "this file draws more than can be checked",
        Limit::Stairs => "this file draws more stairs than can be checked",
        Limit::Steps => "this stair has more steps than can be checked",
        Limit::EachFlight => "this stair draws more for each of its flights than can be checked",
        Limit::Waivers => "this stair states more waivers than are read",
        Limit::Stock => "this file lists more sections or timbers than are read",
    }
}

fn property_meant(kind: &Kind, name: &str, meant: PropertyMeant) -> Option<String> {
    Some(match meant {
        PropertyMeant::Near(near) => did_you_mean(near),
        PropertyMeant::Trade(ours) => match kind.property(ours).map(example) {
            Some(value) => format!("That is `{ours}` here, for example `{ours}: {value}`."),
            None => did_you_mean(ours),
        },
        PropertyMeant::Thing => format!("It is a thing with parts of its own: `{name} {{ }}`."),
        PropertyMeant::Of(other) => {
            format!("`{name}` belongs to {}: `{} {{ {name}: ... }}`.", a(other), other.opens)
        }
        PropertyMeant::LowWall => {
            "A wall goes up to the ceiling. One that is low is a guard: `guard left { infill: wall; height: 36\" }`."
                .to_owned()
        }
        PropertyMeant::Unknown if kind.properties.is_empty() => return None,
        PropertyMeant::Unknown => {
            let names: Vec<&str> = kind.properties.iter().map(|property| property.name).collect();
            format!("{} {}.", begun(&does(kind, "takes", "take")), names.join(", "))
        }
    })
}

/// The sides of a kind; only a landing has a far one and a near one.
fn sides(kind: &Kind) -> String {
    let far = kind.is(Trait::FarSide) && kind.within.contains(&kinds::LANDING.name);
    let far = if far { ", of a landing also `far` and `near`" } else { "" };
    format!("Sides are `left` and `right`{far}, seen going up; for both write `{} left, right {{ }}`.", kind.opens)
}
