//! How many posts the guards of a stair take, by how far apart theirs are said to stand, and which of those that are drawn
//! can carry one.

use super::evaluation::{Evaluation, number, word};
use super::fastened::{on_the_way, props};
use super::flight::SPIRAL;
use super::formula::Derive;
use super::guard::landing_of;
use super::missing::{Method, Missing};
use super::place::{FLIGHT_WIDTH, PLACE, edge_at, stands_beside, steps_at};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use super::step::RUN;
use super::{joist, member};
use crate::measure::INCH;
use crate::model::{Id, Side, kinds, properties};

/// A rail on posts may be as deep as a 2x6 on edge.
const RAIL: f64 = 5.5 * INCH;
/// Of a bay that a fraction this small of it is no bay of its own: posts stand past an end, or short of it. Common practice,
/// no source.
const NO_BAY: f64 = 0.25;

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::GUARD,
        name: "level length",
        gives: LENGTH,
        help: "of what it stands along: the steps that it stands beside, or its side of a landing or a well less what the \
            steps take of it",
        formula: "sum of run of each tread beside it, where none tapers; of a landing length as stated, else its side less the width of the \
            steps there",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::LENGTH).is_some() {
                return w.length(w.number(id, properties::LENGTH)?);
            }
            let Some(place) = landing_of(w, id) else {
                let flight = w.flight_of(id)?;
                // Where the steps turn a guard follows them round, at a length that the runs do not tell.
                if w.things(kinds::WINDERS, flight)?.next().is_some() || w.word(flight, SPIRAL)? == "yes" {
                    return Err(Missing::outside(id, Method::FlightsInLine));
                }
                let mut long = 0.0;
                for tread in w.things(kinds::TREAD, flight)? {
                    if stands_beside(w, id, w.step(tread))? {
                        long += w.number(tread, RUN)?;
                    }
                }
                return w.length(long);
            };
            let side = w.side(id)?;
            w.length(edge_at(w, place, side)? - taken_by_steps(w, place, side)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "edge past the steps",
        gives: LENGTH,
        help: "what the steps leave of the side that it stands at, of a landing",
        formula: "its side of the landing less the width of the steps there",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let place = landing_of(w, id).ok_or_else(|| w.not_drawn(id, kinds::LANDING))?;
            let side = w.side(id)?;
            w.length((edge_at(w, place, side)? - taken_by_steps(w, place, side)?).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "bays",
        gives: NUMBER,
        help: "how many of them, as wide as its posts are said to stand apart, it takes at the fewest",
        formula: "(level length - the larger way of section of the posts) / (between posts + that way) - 1/4, rounded up, and at \
            least 1",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let apart = w.number(id, properties::BETWEEN_POSTS)?;
            let mut thick: Option<f64> = None;
            w.each(w.things(kinds::POST, 0)?, |post| {
                // A stouter post in place of one that is lacking is nobody's mend.
                let way = w.trace(|| w.section(post)).0?.depth;
                thick = Some(thick.map_or(way, |thick| thick.max(way)));
                Ok(())
            })?;
            let thick = thick.ok_or_else(|| w.not_drawn(0, kinds::POST))?;
            let long = w.number(id, LEVEL_LENGTH)?;
            number(((long - thick) / (apart + thick) - NO_BAY - 1e-9).ceil().max(1.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "own posts",
        gives: NUMBER,
        help: "how many it takes at the fewest that no guard of another side has",
        formula: "bays, at the left or the right; one less at another side",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let bays = w.number(id, BAYS)?;
            // The guards of the left or the right stand end to end, and at one end may be a wall.
            let side = w.side(id)?;
            number(if matches!(side, Side::Left | Side::Right) { bays } else { bays - 1.0 })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "reaches a guard",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it is as high as the lowest of the guards that stand between posts, but for a rail on top of it; what \
            holds a string up carries none",
        formula: "yes where height is no less than the smallest height of those guards - the larger way of section of each, or \
            5-1/2\" where that is not stated; no for a prop",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if is_a_prop(w, id)? {
                return word("no");
            }
            let mut lowest: Option<f64> = None;
            w.each(w.things(kinds::GUARD, 0)?, |guard| {
                let walled =
                    w.looked_up(guard, properties::INFILL).is_some() && w.word(guard, properties::INFILL)? == "wall";
                if walled || w.looked_up(guard, properties::BETWEEN_POSTS).is_none() {
                    return Ok(());
                }
                let here = values(w.list(guard, properties::HEIGHT)?).fold(f64::INFINITY, f64::min);
                let here = here - rail_depth(w, guard)?;
                lowest = Some(lowest.map_or(here, |lowest| lowest.min(here)));
                Ok(())
            })?;
            let lowest = lowest.ok_or_else(|| w.not_drawn(0, kinds::GUARD))?;
            let reaches = w.number(id, properties::HEIGHT)? >= lowest - 10.0;
            word(if reaches { "yes" } else { "no" })
        }),
        ..ROW
    },
];

const LEVEL_LENGTH: &Quantity = row(QUANTITIES, kinds::GUARD, "level length");
const BAYS: &Quantity = row(QUANTITIES, kinds::GUARD, "bays");

/// How deep the top rail of a guard is, which stands on its posts or between them.
pub(super) fn rail_depth(w: &Evaluation<'_>, guard: Id) -> Result<f64, Missing> {
    match w.looked_up(guard, properties::SECTION) {
        Some(_) => Ok(w.section(guard)?.depth),
        None => Ok(RAIL),
    }
}

/// How wide the steps are that come or go at a side of a landing; a well has none.
fn taken_by_steps(w: &Evaluation<'_>, place: Id, side: Side) -> Result<f64, Missing> {
    if !w.design.is(place, kinds::LANDING) {
        return Ok(0.0);
    }
    if w.word(place, PLACE)? != "between" {
        // At the head and at the foot the near side is that of the steps.
        return if side == Side::Near { w.number(place, FLIGHT_WIDTH) } else { Ok(0.0) };
    }
    // Where no turn is stated nobody said that the next steps leave at that side.
    if side != Side::Near && w.looked_up(place, properties::TURN).is_none() {
        return Ok(0.0);
    }
    Ok(steps_at(w, place)?.into_iter().filter(|(at, _)| *at == side).map(|(_, wide)| wide).sum())
}

/// Whether a post holds a string or a landing up between its ends: that is said to span less than its run, or to lie on a
/// beam, and the post is joined to the string, or stands in the landing.
pub(super) fn is_a_prop(w: &Evaluation<'_>, post: Id) -> Result<bool, Missing> {
    if !on_the_way(w, post)? {
        return Ok(false);
    }
    let landing = w.parent(post);
    if w.design.is(landing, kinds::LANDING) {
        let mut holds_up = false;
        w.each(w.things(kinds::JOIST, landing)?, |joist| {
            // What a beam lies on ends below the joists.
            let on_a_beam =
                w.looked_up(joist, properties::RESTS_ON).is_some() && w.word(joist, properties::RESTS_ON)? == "beam";
            holds_up |=
                on_a_beam || w.looked_up(joist, properties::SPAN).is_some() && w.number(joist, joist::SPANS)? > 1.0;
            Ok(())
        })?;
        if holds_up {
            return Ok(true);
        }
    }
    let mut spans = 0.0_f64;
    w.each(w.things(kinds::STRINGER, 0)?, |stringer| {
        if w.looked_up(stringer, properties::SPAN).is_some() && props(w, stringer)?.contains(&post) {
            spans = spans.max(w.number(stringer, member::SPANS)?);
        }
        Ok(())
    })?;
    Ok(spans > 1.0)
}
