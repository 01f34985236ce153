//! The stair as a whole, its landings, and how far one can fall from them.

use std::borrow::Cow;

use super::custom::CustomId;
use super::datum::Derived;
use super::door::{PLACES, place};
use super::evaluation::{Evaluation, number, word};
use super::formula::Formula::{Asks, Each, Minus, Number, Otherwise, Over, Pi, Plus, Square, Stated, Times};
use super::formula::{Derive, Fold, Of, Things};
use super::missing::{Drawing, Method, Missing};
use super::quantity::{AREA, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use super::{flight, step};
use crate::measure::{Dimension, INCH, equal};
use crate::model::{IN_THE_CENTRE, Id, Kind, Side, Value, kinds, properties};

/// The ball that what is left of a side shall not let through: 4 in, IRC 2021, R312.1.3.
const BALL: f64 = 4.0 * INCH;

/// Of an edge beside the steps that a wall or a guard of its own may be drawn for: common practice, no source.
const WORTH_CLOSING: f64 = 12.0 * INCH;

/// Where the string of a spiral stands that turns round a well.
const INNER: &str = "inner";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STAIR,
        name: "rise",
        gives: LENGTH,
        help: "plumb, over all flights",
        source: GEOMETRY,
        derive: Derive::Formula(&Each(Fold::Sum, FLIGHTS, &Asks(Of::This, || flight::RISE))),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "run",
        gives: LENGTH,
        help: "level, over all flights in one line and the landings between them",
        source: GEOMETRY,
        derive: Derive::Formula(&Plus(
            &Each(Fold::Sum, FLIGHTS, &Asks(Of::This, || flight::RUN)),
            &Each(Fold::Sum, LANDINGS_BETWEEN, &Stated(Of::This, properties::DEPTH)),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "rise closure",
        gives: LENGTH,
        help: "what the risers leave of the total rise",
        source: GEOMETRY,
        derive: Derive::Formula(&Minus(&Stated(Of::This, properties::TOTAL_RISE), &Asks(Of::This, || RISE))),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "run closure",
        gives: LENGTH,
        help: "what the runs leave of the total run",
        formula: "total run - run, where no landing turns between flights and no tread tapers",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let total = w.number(id, properties::TOTAL_RUN)?;
            // The run of a winder is taken on the line of travel: no stair that turns has one run, whatever its total.
            let (turns, _) = w.trace(|| w.things(kinds::WINDERS, id).map(|mut winders| winders.next()));
            if let Some(winders) = turns? {
                return Err(Missing::outside(winders, Method::FlightsInLine));
            }
            let run = w.trace(|| w.number(id, RUN)).0?;
            w.number(id, RUN)?;
            w.length(total - run)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "access",
        gives: Gives::Word(&["private", "utility", "general"]),
        help: "whose way it is",
        formula: "access as stated, else private where use is dwelling, general where it is shared or public",
        source: "Approved Document K, 2013 edition",
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::ACCESS).is_some() {
                return w.stated(id, properties::ACCESS);
            }
            match w.word(id, properties::USE).as_deref() {
                Ok("dwelling") => word("private"),
                Ok("shared" | "public") => word("general"),
                // A work place may have either of the others.
                _ => Err(w.missing(id, properties::ACCESS)),
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "switch floors",
        gives: NUMBER,
        help: "at how many floors its light can be switched",
        formula: "as counted in switches",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let Value::Words(words) = w.value(id, properties::SWITCHES)? else {
                return Err(w.missing(id, properties::SWITCHES));
            };
            let mut floors: Vec<&str> = words.iter().copied().filter(|word| *word != "none").collect();
            floors.sort_unstable();
            floors.dedup();
            #[allow(clippy::cast_precision_loss)]
            number(floors.len() as f64)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "place",
        gives: Gives::Word(PLACES),
        help: "at the head of the stair, at its foot, or between",
        formula: "by its name",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let name = w.design.get(id).and_then(|landing| landing.name.as_deref()).unwrap_or("");
            found_between(w, id)?;
            word(place(name))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "plan",
        gives: Gives::Word(&["rectangular", "other"]),
        help: "its outline",
        source: GEOMETRY,
        derive: Derive::Formula(&Otherwise(properties::PLAN, "rectangular")),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "quarter circle",
        gives: AREA,
        help: "of a quarter circle as wide as the flight",
        source: "IRC 2021, R311.7.6",
        derive: Derive::Formula(&Over(&Times(&Pi, &Square(&Asks(Of::This, || FLIGHT_WIDTH))), &Number(4.0))),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "elevation",
        gives: LENGTH,
        help: "of its floor above the floor at the foot",
        formula: "sum of rise of each flight below",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let mut elevation = 0.0;
            found_between(w, id)?;
            let place = place(w.design.get(id).and_then(|landing| landing.name.as_deref()).unwrap_or_default());
            let (top, bottom) = (place == "top", place == "bottom");
            for flight in all(w, kinds::FLIGHT, 0)?.filter(|flight| !bottom && (top || *flight < id)) {
                elevation += w.number(flight, flight::RISE)?;
            }
            if top && w.design.of_kind(kinds::FLIGHT).next().is_none() {
                return w.length(w.number(0, properties::TOTAL_RISE)?);
            }
            w.length(elevation)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "flight width",
        gives: LENGTH,
        help: "the wider of the flights that it joins",
        source: "IRC 2021, R311.7.6",
        derive: Derive::Formula(&Each(Fold::Largest, FLIGHTS_JOINED, &Stated(Of::This, properties::WIDTH))),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "width needed",
        gives: LENGTH,
        help: "for the flights across it: side by side where the way turns back",
        formula: "largest width of each flight it joins; at a quarter turn the width of the flight below, at a half \
            turn the sum of both",
        source: "IRC 2021, R311.7.6",
        derive: Derive::Whole(|w, id| {
            let [below, above] = widths(w, id)?;
            let needed = match turn(w, id)?.as_ref() {
                "straight" => below.max(above),
                "quarter left" | "quarter right" => below,
                _ => below + above,
            };
            w.length(needed)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "depth needed",
        gives: LENGTH,
        help: "for the flight that leaves it at a side",
        formula: "at a quarter turn the width of the flight above, else nothing",
        source: "IRC 2021, R311.7.6",
        derive: Derive::Whole(|w, id| {
            if !turn(w, id)?.starts_with("quarter") {
                return w.length(0.0);
            }
            let [_, above] = widths(w, id)?;
            w.length(above)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "flight above width",
        gives: LENGTH,
        help: "of the flight that leaves it",
        formula: "between flights width of the flight above, else nothing",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if w.word(id, PLACE)? != "between" {
                return w.length(0.0);
            }
            let [_, above] = widths(w, id)?;
            w.length(above)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "flights abreast",
        gives: LENGTH,
        help: "across both flights of a half turn and what is between them",
        formula: "width of the flight below + width of the flight above + between flights",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let apart = w.number(id, properties::BETWEEN_FLIGHTS)?;
            let [below, above] = widths(w, id)?;
            w.length(below + apart + above)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "drop beside the steps within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "at the edge where its steps begin or end, should it be wider than they are, to the lowest ground so far out",
        formula: "largest of elevation + below + so far out x slope at the left and the right",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::At(|w, id, reach| {
            let left = drop_at(w, id, Side::Left, reach)?;
            w.length(left.max(drop_at(w, id, Side::Right, reach)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "edge beside the steps",
        gives: Gives::Word(&["closed", "open"]),
        help: "whether nobody can fall there",
        formula: "closed where it is as wide as its steps, where it has no open sides, or where walls and guards close what \
            the steps leave of its near side and of that where the next ones leave; open where they do not, where neither is \
            drawn for it, or where guards are and none for an edge of which the steps and four of the posts leave 4\" at \
            one end at least, however they stand; else not known",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::Whole(|w, id| {
            if edge_is_closed(w, id)? || covered(w, id)? {
                return word("closed");
            }
            let mut drawn: Vec<Id> = w.things(kinds::WALL, id)?.collect();
            drawn.extend(w.things(kinds::GUARD, id)?);
            if drawn.is_empty() {
                return word("open");
            }
            let mut settled = true;
            for (side, steps) in steps_at(w, id)? {
                let here: Vec<Id> = at_side(w, &drawn, side);
                let edge = edge_at(w, id, side)?;
                if no_wider(edge, steps) {
                    continue;
                }
                match here.is_empty() {
                    false if fill(w, &here, edge - steps)? => {}
                    false => return word("open"),
                    true => match bare_beside(w, id, &drawn, edge - steps)? {
                        Some(true) => return word("open"),
                        Some(false) => {}
                        None => settled = false,
                    },
                }
            }
            if settled {
                return word("closed");
            }
            Err(Missing::outside(id, Method::LandingAsWideAsItsSteps))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "way on",
        gives: Gives::Word(&["open", "closed"]),
        help: "whether a wall or a guard leaves one a way off it",
        formula: "closed where one stands at the left, the right and the far side, or at that where it leads on, and no \
            door opens; open where it leads nowhere, for its steps are the way; between flights closed where one stands at the side of the next flight, which leaves less than 12\" of it",
        source: "what is drawn closes what it stands at",
        derive: Derive::Whole(|w, id| word(if is_closed_off(w, id)? { "closed" } else { "open" })),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest beside it to the lowest ground so far out, at a side that no wall closes",
        formula: "largest of elevation + below + so far out x slope at each side that no wall closes",
        source: "IRC 2021, R312.1.1",
        derive: Derive::At(|w, id, reach| deepest(w, id, false, reach)),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "unguarded drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest to the lowest ground so far out, at a side with neither wall nor guard",
        formula: "largest of elevation + below + so far out x slope at each side with neither wall nor guard",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::At(|w, id, reach| deepest(w, id, true, reach)),
        ..ROW
    },
];

/// Of the wells, as of the landings.
pub(super) static WELLS: &[Quantity] = &[
    Quantity {
        kind: kinds::WELL,
        name: "drop",
        gives: LENGTH,
        help: "from the floor above to the tread under its far end",
        formula: "sum of the risers from the head down to the tread under length; past the first tread, elevation",
        source: "IRC 2021, R312.1.1",
        derive: Derive::Whole(|w, id| w.length(into_the_well(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::WELL,
        name: "unguarded drop",
        gives: LENGTH,
        help: "the deepest at a side with neither wall nor guard",
        formula: "drop where a side has neither wall nor guard, else nothing",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::Whole(|w, id| deepest(w, id, true, 0.0)),
        ..ROW
    },
];

const RISE: &Quantity = row(QUANTITIES, kinds::STAIR, "rise");
const RUN: &Quantity = row(QUANTITIES, kinds::STAIR, "run");
pub(super) const PLACE: &Quantity = row(QUANTITIES, kinds::LANDING, "place");
pub(super) const ELEVATION: &Quantity = row(QUANTITIES, kinds::LANDING, "elevation");
pub(super) const FLIGHT_WIDTH: &Quantity = row(QUANTITIES, kinds::LANDING, "flight width");

const FLIGHTS: &Things =
    &Things { text: "each flight", walk: |w, stair, visit| flights(w, stair)?.try_for_each(visit) };

const LANDINGS_BETWEEN: &Things = &Things {
    text: "each landing between",
    walk: |w, stair, visit| {
        for landing in all(w, kinds::LANDING, stair)? {
            if w.word(landing, PLACE)? != "between" {
                continue;
            }
            if w.word(landing, properties::TURN)? != "straight" {
                return Err(Missing::outside(landing, Method::FlightsInLine));
            }
            visit(landing)?;
        }
        Ok(())
    },
};

const FLIGHTS_JOINED: &Things = &Things {
    text: "each flight it joins",
    walk: |w, landing, visit| {
        let name = w.design.get(landing).and_then(|landing| landing.name.as_deref()).unwrap_or("");
        let mut flights = flights(w, landing)?;
        let joined = match name {
            "bottom" => [flights.next(), None],
            "top" => [flights.last(), None],
            _ => [
                flights.clone().take_while(|flight| *flight < landing).last(),
                flights.find(|flight| *flight > landing),
            ],
        };
        joined.into_iter().flatten().try_for_each(visit)
    },
};

/// How a landing between two flights turns; any other is straight.
pub(super) fn turn(w: &Evaluation<'_>, landing: Id) -> Result<Cow<'static, str>, Missing> {
    if w.word(landing, PLACE)? == "between" { w.word(landing, properties::TURN) } else { Ok("straight".into()) }
}

/// The widths of the flights below and above a landing; of one where there is none, nothing.
fn widths(w: &Evaluation<'_>, landing: Id) -> Result<[f64; 2], Missing> {
    let (mut below, mut above) = (0.0, 0.0);
    (FLIGHTS_JOINED.walk)(w, landing, &mut |flight| {
        let side = if flight < landing { &mut below } else { &mut above };
        *side = w.number(flight, properties::WIDTH)?;
        Ok(())
    })?;
    Ok([below, above])
}

/// Whether the drawing says that nobody can fall from any edge of a landing.
fn edge_is_closed(w: &Evaluation<'_>, landing: Id) -> Result<bool, Missing> {
    if w.looked_up(landing, properties::OPEN_SIDES).is_some() {
        return Ok(open_sides(w, landing, false)?.is_empty());
    }
    Ok(w.things(kinds::WALL, landing)?.any(|wall| w.design.get(wall).is_some_and(|wall| wall.side.is_none())))
}

/// Whether the steps at a landing leave nothing of the edges that they stand at. At its foot there is nothing to fall.
fn covered(w: &Evaluation<'_>, landing: Id) -> Result<bool, Missing> {
    let place = w.word(landing, PLACE)?;
    if place == "bottom" {
        return Ok(true);
    }
    for (side, steps) in steps_at(w, landing)? {
        if !no_wider(edge_at(w, landing, side)?, steps) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The sides of a landing at which steps come and go, and how wide they are there.
pub(super) fn steps_at(w: &Evaluation<'_>, landing: Id) -> Result<Vec<(Side, f64)>, Missing> {
    let [below, above] = widths(w, landing)?;
    if w.word(landing, PLACE)? == "top" {
        return Ok(vec![(Side::Near, below.max(above))]);
    }
    let leaves = match turn(w, landing)?.as_ref() {
        "straight" => Side::Far,
        "quarter left" => Side::Left,
        "quarter right" => Side::Right,
        _ => return Ok(vec![(Side::Near, below + above)]),
    };
    Ok(vec![(Side::Near, below), (leaves, above)])
}

/// Of these things those at a side.
fn at_side(w: &Evaluation<'_>, things: &[Id], side: Side) -> Vec<Id> {
    let at = |thing: &Id| w.design.get(*thing).is_some_and(|thing| thing.side == Some(side));
    things.iter().copied().filter(at).collect()
}

/// Whether one falls past the steps at an edge for which nothing is drawn, and of which they leave so much. Guards at
/// other sides of a landing say what closes its edges: then a ball's width in all is none, and so much that a ball
/// passes at one end of the steps however they and the posts beside them stand is one. Anything between is not known, nor
/// what walls close.
fn bare_beside(w: &Evaluation<'_>, landing: Id, drawn: &[Id], left: f64) -> Result<Option<bool>, Missing> {
    let guards = |id: &&Id| w.design.is(**id, kinds::GUARD);
    let sided = |id: &Id| w.design.get(*id).is_some_and(|guard| guard.side.is_some());
    if !drawn.iter().any(|id| guards(&id)) || !drawn.iter().filter(guards).all(sided) {
        return Ok(None);
    }
    // Two flights abreast leave an end at each side and what is between them.
    let ends = if turn(w, landing)?.starts_with("half") { 3.0 } else { 2.0 };
    if left < BALL {
        return Ok(Some(false));
    }
    if left < ends * BALL {
        return Ok(None);
    }
    // One at each corner, and one at each side of the steps.
    let mut post: f64 = 0.0;
    w.each(w.things(kinds::POST, 0)?, |id| {
        post = post.max(w.section(id)?.depth);
        Ok(())
    })?;
    Ok((left - 4.0 * post >= ends * BALL).then_some(true))
}

fn no_wider(edge: f64, steps: f64) -> bool {
    edge <= steps || equal(edge, steps, Dimension::LENGTH)
}

/// Whether nobody gets off a landing: every side of it is closed, or the one at which the next flight leaves.
fn is_closed_off(w: &Evaluation<'_>, landing: Id) -> Result<bool, Missing> {
    let between = w.word(landing, PLACE)? == "between";
    let mut closed = Vec::new();
    for kind in [kinds::WALL, kinds::GUARD] {
        for id in w.things(kind, landing)? {
            // One that closes a part of its side leaves a way past it, and a gate is one.
            let part = w.looked_up(id, properties::LENGTH).is_some() || w.things(kinds::GATE, id)?.next().is_some();
            // Walls drawn once for the whole stair stand beside its way and not across it.
            let part =
                part || between && w.parent(id) == 0 && w.design.get(id).is_some_and(|wall| wall.serves.is_none());
            closed.extend(w.design.get(id).and_then(|thing| thing.side).filter(|_| !part));
        }
    }
    if !between {
        let doors = w.things(kinds::DOOR, landing)?.next().is_some();
        let ways = match w.looked_up(landing, properties::LEADS_ON) {
            Some(_) => Vec::from_iter(way_on(w, landing)?),
            None => EVERY_SIDE.to_vec(),
        };
        return Ok(!doors && !ways.is_empty() && ways.iter().all(|side| closed.contains(side)));
    }
    let (side, edge) = match w.word(landing, properties::TURN)?.as_ref() {
        "straight" => (Side::Far, properties::WIDTH),
        "quarter left" => (Side::Left, properties::DEPTH),
        "quarter right" => (Side::Right, properties::DEPTH),
        _ => return Ok(false),
    };
    if !closed.contains(&side) {
        return Ok(false);
    }
    let (edge, [_, above]) = (w.number(landing, edge)?, widths(w, landing)?);
    Ok(edge - above < WORTH_CLOSING)
}

/// The flights, of which there is one at least.
fn flights<'d>(w: &Evaluation<'d>, of: Id) -> Result<impl Iterator<Item = Id> + Clone + use<'d>, Missing> {
    let flights = all(w, kinds::FLIGHT, of)?;
    if flights.clone().next().is_none() { Err(w.not_drawn(of, kinds::FLIGHT)) } else { Ok(flights) }
}

/// All of a kind, if each of them could be read; how many there are is not what a number comes from.
pub(super) fn all<'d>(
    w: &Evaluation<'d>,
    kind: &'static Kind,
    of: Id,
) -> Result<impl Iterator<Item = Id> + Clone + use<'d>, Missing> {
    w.trace(|| w.things(kind, of).map(|_| ())).0?;
    Ok(w.design.of_kind(kind))
}

/// The sides of a flight, a landing, a well or a step that one can fall from.
pub(super) fn open_sides(w: &Evaluation<'_>, of: Id, unguarded: bool) -> Result<Vec<Side>, Missing> {
    let step = w.design.get(of).and_then(|element| element.step);
    let place = if step.is_some() || w.design.is(of, kinds::TREAD) { w.parent(of) } else { of };
    let (mut open, walls);
    if w.looked_up(place, properties::OPEN_SIDES).is_some() {
        let Value::Words(words) = w.value(place, properties::OPEN_SIDES)? else {
            return Err(w.missing(place, properties::OPEN_SIDES));
        };
        open = EVERY_SIDE.into_iter().filter(|side| words.contains(&side.word())).collect();
        // Of an open side a wall may close a part.
        let part = |wall: &Id| w.looked_up(*wall, properties::LENGTH).is_some();
        walls = w.design.belonging(kinds::WALL, place).filter(part).collect::<Vec<Id>>();
    } else {
        open = sides(w, place)?;
        walls = w.things(kinds::WALL, place)?.collect();
    }
    open = not_closed(w, (place, step), &walls, &[], open)?;
    if unguarded {
        let guards: Vec<Id> = w.things(kinds::GUARD, place)?.collect();
        open = not_closed(w, (place, step), &guards, &walls, open)?;
    }
    Ok(open)
}

/// The sides of a flight, a landing or a step that neither wall nor guard closes, as far as they are known; of a landing
/// with those where steps leave a part of its edge bare.
pub fn unguarded_sides(w: &Evaluation<'_>, of: Id) -> Vec<Side> {
    let mut open = open_sides(w, of, true).unwrap_or_default();
    if w.design.is(of, kinds::LANDING) {
        open.extend(bare_edges(w, of).unwrap_or_default());
    }
    open
}

/// The sides of a landing at which its steps leave a ball's width that nothing closes.
fn bare_edges(w: &Evaluation<'_>, landing: Id) -> Result<Vec<Side>, Missing> {
    let mut bare = Vec::new();
    if edge_is_closed(w, landing)? || covered(w, landing)? {
        return Ok(bare);
    }
    let mut drawn: Vec<Id> = w.things(kinds::WALL, landing)?.collect();
    drawn.extend(w.things(kinds::GUARD, landing)?);
    for (side, steps) in steps_at(w, landing)? {
        let left = edge_at(w, landing, side)? - steps;
        // A guard where the next flight leaves would stand across it, unless there is room beside.
        let worth = if side == Side::Near { BALL } else { WORTH_CLOSING };
        if left >= worth && at_side(w, &drawn, side).is_empty() {
            bare.push(side);
        }
    }
    Ok(bare)
}

const EVERY_SIDE: [Side; 3] = [Side::Left, Side::Right, Side::Far];

/// The sides of a flight or landing by which nobody comes or goes. Where a landing lies between two flights, the
/// way it turns says which they are; at the head and the foot of a stair one goes on at the far side, or as it says.
pub(super) fn sides(w: &Evaluation<'_>, place: Id) -> Result<Vec<Side>, Missing> {
    if w.design.is(place, kinds::FLIGHT) && w.word(place, flight::SPIRAL)? == "yes" {
        return sides_of_a_spiral(w, place);
    }
    if w.design.is(place, kinds::WELL) {
        return Ok(EVERY_SIDE.to_vec());
    }
    if !w.design.is(place, kinds::LANDING) {
        return Ok(vec![Side::Left, Side::Right]);
    }
    if w.word(place, PLACE)? != "between" {
        let way_on = way_on(w, place)?;
        return Ok(EVERY_SIDE.into_iter().filter(|side| Some(*side) != way_on).collect());
    }
    Ok(match w.word(place, properties::TURN)?.as_ref() {
        "straight" => vec![Side::Left, Side::Right],
        "quarter left" => vec![Side::Right, Side::Far],
        "quarter right" => vec![Side::Left, Side::Far],
        _ => EVERY_SIDE.to_vec(),
    })
}

/// The side by which one goes on at the head or the foot of a stair; none where it leads nowhere. Where nothing says so
/// it is taken to be the far one.
fn way_on(w: &Evaluation<'_>, landing: Id) -> Result<Option<Side>, Missing> {
    if w.looked_up(landing, properties::LEADS_ON).is_some() {
        let stated = w.word(landing, properties::LEADS_ON)?;
        return Ok(EVERY_SIDE.into_iter().find(|side| side.word() == stated));
    }
    let far_or_none = |id: Id| w.design.get(id).is_some_and(|thing| thing.side.is_none_or(|side| side == Side::Far));
    let mut settled = w.things(kinds::DOOR, landing)?.next().is_some();
    for kind in [kinds::WALL, kinds::GUARD] {
        settled = settled || w.things(kind, landing)?.any(far_or_none);
    }
    // Nobody falls from the floor at the foot where no ground is said to lie below it.
    let at_the_foot = w.word(landing, PLACE)? == "bottom" && w.trace(|| w.things(kinds::GROUND, 0)).0?.next().is_none();
    if !settled && !at_the_foot {
        w.custom(CustomId::LEADS_ON_AT_THE_FAR_SIDE, landing);
    }
    Ok(Some(Side::Far))
}

/// Of a spiral all but the side of the pole, where its treads are narrow; round a well both. Where no winders say which
/// that is and only one side is left to ask about, it may be the pole's.
fn sides_of_a_spiral(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Side>, Missing> {
    let both = [Side::Left, Side::Right];
    if turns_round_a_well(w, flight)? {
        return Ok(both.to_vec());
    }
    let winders: Vec<Id> = w.things(kinds::WINDERS, flight)?.collect();
    let poles: Vec<Side> =
        winders.iter().filter_map(|winders| w.design.get(*winders).and_then(|winders| winders.side)).collect();
    if !poles.is_empty() {
        return Ok(both.into_iter().filter(|side| !poles.contains(side)).collect());
    }
    let closing = [kinds::WALL, kinds::GUARD].into_iter().any(|kind| w.design.belonging(kind, flight).next().is_some());
    if closing { Err(w.not_drawn(flight, kinds::WINDERS)) } else { Ok(both.to_vec()) }
}

/// The first thing of a kind in a flight that is stated to stand so.
pub(super) fn standing(w: &Evaluation<'_>, kind: &'static Kind, flight: Id, so: &str) -> Result<Option<Id>, Missing> {
    let mut first = None;
    let known = w.each(w.things(kind, flight)?, |id| {
        if w.looked_up(id, properties::STANDS).is_some() && w.word(id, properties::STANDS)? == so {
            first = first.or(Some(id));
        }
        Ok(())
    });
    if first.is_some() { Ok(first) } else { known.map(|()| None) }
}

/// Whether a flight turns round a well that one can fall into: an inner string carries its treads, and no pole.
fn turns_round_a_well(w: &Evaluation<'_>, flight: Id) -> Result<bool, Missing> {
    let inner = w.trace(|| standing(w, kinds::STRINGER, flight, INNER)).0?.is_some();
    Ok(inner && w.trace(|| standing(w, kinds::POST, flight, IN_THE_CENTRE)).0?.is_none())
}

/// The sides that these things leave open, of a place as a whole or at one of its steps; a part that they close may add
/// up with what is closed beside.
fn not_closed(
    w: &Evaluation<'_>,
    at: (Id, Option<usize>),
    closing: &[Id],
    beside: &[Id],
    sides: Vec<Side>,
) -> Result<Vec<Side>, Missing> {
    let side_of = |id: &Id| w.design.get(*id).and_then(|element| element.side);
    let mut left = Vec::new();
    for side in sides {
        let here: Vec<Id> = closing.iter().chain(beside).copied().filter(|id| side_of(id) == Some(side)).collect();
        if !closes(w, at, side, &here)? {
            left.push(side);
        }
    }
    for closing in closing.iter().filter(|id| side_of(id).is_none()) {
        if let (_, Some(step)) = at
            && !stands_beside(w, *closing, step)?
        {
            continue;
        }
        // With no side it closes the only one there is.
        return if left.len() < 2 { Ok(Vec::new()) } else { Err(w.side_not_known(*closing)) };
    }
    Ok(left)
}

/// Whether what stands at a side of a place closes all of it, or at a step all of that.
fn closes(w: &Evaluation<'_>, (place, step): (Id, Option<usize>), side: Side, here: &[Id]) -> Result<bool, Missing> {
    if w.design.is(place, kinds::FLIGHT) {
        if here.iter().any(|id| !stops_short(w, *id)) {
            return Ok(true);
        }
        let steps = match (step, here) {
            (_, []) => return Ok(false),
            (Some(step), _) => step..step + 1,
            (None, _) => 0..w.list(place, properties::RUNS)?.len(),
        };
        for step in steps {
            let mut closed = false;
            for id in here {
                closed = closed || stands_beside(w, *id, step)?;
            }
            if !closed {
                return Ok(false);
            }
        }
        return Ok(true);
    }
    if here.iter().any(|id| w.looked_up(*id, properties::LENGTH).is_none()) {
        return Ok(true);
    }
    Ok(!here.is_empty() && fill(w, here, edge_at(w, place, side)?)?)
}

/// Whether these leave less than a ball's width of an edge. One that states no length fills it.
fn fill(w: &Evaluation<'_>, here: &[Id], edge: f64) -> Result<bool, Missing> {
    let mut length = 0.0;
    for id in here {
        if w.looked_up(*id, properties::LENGTH).is_none() {
            return Ok(true);
        }
        length += w.number(*id, properties::LENGTH)?;
    }
    Ok(edge - length < BALL)
}

/// How long a side of a landing or a well is.
pub(super) fn edge_at(w: &Evaluation<'_>, place: Id, side: Side) -> Result<f64, Missing> {
    let along = if w.design.is(place, kinds::WELL) { properties::LENGTH } else { properties::DEPTH };
    w.number(place, if matches!(side, Side::Far | Side::Near) { properties::WIDTH } else { along })
}

/// Whether it says beside which treads it stands.
fn stops_short(w: &Evaluation<'_>, id: Id) -> bool {
    [properties::FROM_TREAD, properties::TO_TREAD].into_iter().any(|end| w.looked_up(id, end).is_some())
}

/// Whether a wall or a guard of a flight stands beside a tread.
pub(super) fn stands_beside(w: &Evaluation<'_>, id: Id, step: usize) -> Result<bool, Missing> {
    #[allow(clippy::cast_precision_loss)]
    let tread = step as f64 + 1.0;
    let end = |end| w.looked_up(id, end).map(|_| w.number(id, end)).transpose();
    let (from, to) = (end(properties::FROM_TREAD)?, end(properties::TO_TREAD)?);
    Ok(from.is_none_or(|from| from <= tread) && to.is_none_or(|to| tread <= to))
}

/// Whether it is known where a landing lies: at the head or the foot by its name, else between two flights.
fn found_between(w: &Evaluation<'_>, landing: Id) -> Result<(), Missing> {
    let name = w.design.get(landing).and_then(|landing| landing.name.as_deref()).unwrap_or("");
    let mut flights = w.design.of_kind(kinds::FLIGHT).peekable();
    let (mut below, mut above) = (false, false);
    if place(name) != "between" || flights.peek().is_none() {
        return Ok(());
    }
    for flight in flights {
        below |= flight < landing;
        above |= flight > landing;
    }
    if below && above {
        return Ok(());
    }
    Err(Missing::drawing(landing, Drawing::FlightAtEachEnd))
}

/// The flights that a landing joins: the one below it and the one above it.
///
/// # Errors
/// Where it is not known where it lies.
pub(super) fn joined(w: &Evaluation<'_>, landing: Id) -> Result<Vec<Id>, Missing> {
    found_between(w, landing)?;
    let mut flights = all(w, kinds::FLIGHT, 0)?;
    let name = w.design.get(landing).and_then(|landing| landing.name.as_deref()).unwrap_or_default();
    let (below, above) = match place(name) {
        "bottom" => (None, flights.next()),
        "top" => (flights.last(), None),
        _ => (flights.clone().filter(|flight| *flight < landing).last(), flights.find(|flight| *flight > landing)),
    };
    Ok(below.into_iter().chain(above).collect())
}

/// Things of one kind as one comes to them going up. Flights and steps are drawn so; a landing stands at the foot, at the
/// head or between two flights by its name, wherever its block stands.
///
/// # Errors
/// Where it is not known which of two landings comes first.
pub fn going_up(w: &Evaluation<'_>, kind: &Kind, things: Vec<Id>) -> Result<Vec<Id>, Missing> {
    if kind != kinds::LANDING || things.len() < 2 {
        return Ok(things);
    }
    let mut placed = Vec::with_capacity(things.len());
    for landing in things {
        found_between(w, landing)?;
        let below = match place(w.design.get(landing).and_then(|landing| landing.name.as_deref()).unwrap_or_default()) {
            "bottom" => 0,
            "top" => usize::MAX,
            _ => w.design.of_kind(kinds::FLIGHT).filter(|flight| *flight < landing).count(),
        };
        placed.push((below, landing));
    }
    placed.sort_unstable();
    for pair in placed.windows(2) {
        if let [(below, _), (also, landing)] = pair
            && below == also
        {
            return Err(Missing::drawing(*landing, Drawing::FlightBetweenLandings));
        }
    }
    Ok(placed.into_iter().map(|(_, landing)| landing).collect())
}

/// The deepest drop beside a surface: plumb from it to the lowest ground within reach of the edge.
pub(super) fn deepest(w: &Evaluation<'_>, surface: Id, unguarded: bool, reach: f64) -> Derived {
    let mut deepest: f64 = 0.0;
    for side in open_sides(w, surface, unguarded)? {
        deepest = deepest.max(drop_at(w, surface, side, reach)?);
    }
    w.length(deepest)
}

/// From the floor above down to the tread under the far end of its well; past the first of them to the floor at the foot.
fn into_the_well(w: &Evaluation<'_>, well: Id) -> Result<f64, Missing> {
    let mut left = w.number(well, properties::LENGTH)?;
    let flight = flights(w, well)?.last().ok_or_else(|| w.not_drawn(well, kinds::FLIGHT))?;
    let (risers, runs) = (w.list(flight, properties::RISERS)?, w.list(flight, properties::RUNS)?);
    let mut runs = values(runs).rev();
    let mut drop = 0.0;
    for riser in values(risers).rev() {
        drop += riser;
        match runs.next() {
            Some(run) if left > run => left -= run,
            Some(_) => return Ok(drop),
            None => {}
        }
    }
    Ok(drop + w.number(flight, flight::FOOT)?)
}

/// The drop at one side. Ground nearer than the edge lies under the surface, and is none that one falls to; into a well
/// one falls plumb from its edge, however far out ground counts.
pub(super) fn drop_at(w: &Evaluation<'_>, surface: Id, side: Side, reach: f64) -> Result<f64, Missing> {
    if w.design.is(surface, kinds::WELL) {
        return into_the_well(w, surface);
    }
    let on_step = w.design.is(surface, kinds::TREAD);
    let elevation = w.number(surface, if on_step { step::TREAD_ELEVATION } else { ELEVATION })?;
    let mut grounds = w.trace(|| w.things(kinds::GROUND, 0)).0?;
    let ground =
        grounds.find(|id| w.design.get(*id).is_some_and(|ground| ground.side.is_none_or(|beside| beside == side)));
    let Some(ground) = ground else {
        w.custom(CustomId::LEVEL_GROUND, 0);
        return Ok(elevation);
    };
    let below = w.number(ground, properties::BELOW)?;
    if w.looked_up(ground, properties::SLOPE).is_none() {
        w.custom(CustomId::LEVEL_BESIDE, ground);
        return Ok(elevation + below);
    }
    Ok(elevation + below + reach.max(0.0) * w.number(ground, properties::SLOPE)?)
}
