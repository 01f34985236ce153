//! What is overhead: the room between the line of the nosings and a ceiling, or a beam below it.

use super::datum::Derived;
use super::evaluation::{Evaluation, word};
use super::flight::SPIRAL;
use super::formula::Derive;
use super::missing::{Method, Missing};
use super::place::all;
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW, row};
use super::reading::values;
use super::step::landing_above;
use super::winder::POLE_RADIUS;
use crate::model::{Id, PropertyName, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::CEILING,
        name: "headroom",
        gives: LENGTH,
        help: "plumb, from the line of the nosings or a landing's floor, at its least",
        formula: "headroom as stated, else the least of height + slope x distance - fall x distance - the line of the \
            nosings, between from and to, less fall across x width of what it hangs over, or x overhang",
        source: "IRC 2021, R311.7.2",
        derive: Derive::Whole(headroom),
        ..ROW
    },
    Quantity {
        kind: kinds::BEAM,
        name: "headroom",
        gives: LENGTH,
        help: "plumb, from the line of the nosings or a landing's floor to its underside, at its least",
        formula: "headroom as stated, else the least of height - the line of the nosings, between from and from + width",
        source: "IRC 2021, R311.7.2",
        derive: Derive::Whole(headroom),
        ..ROW
    },
    Quantity {
        kind: kinds::CEILING,
        name: "over",
        gives: Gives::Word(&["the stair", "the ends of the treads"]),
        help: "what it hangs over",
        source: GEOMETRY,
        formula: "over as stated, else the stair; not known where an overhang is stated",
        derive: Derive::Whole(|w, id| {
            // An edge that stands in over something does not say over what.
            if w.looked_up(id, properties::OVER).is_none() && w.looked_up(id, properties::OVERHANG).is_some() {
                return Err(w.missing(id, properties::OVER));
            }
            w.stated_or(id, properties::OVER, "the stair")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::CEILING,
        name: "above",
        gives: Gives::Word(&["flight", "spiral", "landing"]),
        help: "what it is above",
        formula: "by what it is drawn in",
        source: GEOMETRY,
        derive: Derive::Whole(above),
        ..ROW
    },
    Quantity {
        kind: kinds::CEILING,
        name: "edge off the well",
        gives: LENGTH,
        help: "of the floor at the head: from where it ends over the last flight to where its well begins, either way",
        formula: "distance of to from run of the last flight - length of the well; nothing where that flight turns, or it is \
            not said to be part of a floor",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            // What is no floor's may end anywhere.
            if w.looked_up(id, properties::PART_OF).is_none() || w.word(id, properties::PART_OF)? != "floor" {
                return w.length(0.0);
            }
            let (flight, begins) = well_begins(w, id)?;
            if turns(w, flight)? || w.flight_of(id)? != flight {
                return w.length(0.0);
            }
            w.length((w.number(id, properties::TO)? - begins).abs())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::CEILING,
        name: "above its floor",
        gives: LENGTH,
        help: "plumb, how far its underside lies above the top of the floor at the head that it is part of",
        formula: "greater of nothing and height - the sum of risers of its flight and of those after it; nothing where it hangs \
            over a landing, ends nowhere over the flight, or is not said to be part of a floor",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let Some(floor) = floor_at_the_head(w, id)? else { return w.length(0.0) };
            w.length((floor.underside - floor.top).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::CEILING,
        name: "deck lacking",
        gives: LENGTH,
        help: "plumb, how much thinner the floor at the head is, whose underside it is, than the deck of the landing there",
        formula: "greater of nothing and thickness of the landing at the head - the sum of risers of its flight and of those after \
            it + height; nothing where it hangs over a landing, ends nowhere over the flight, is not said to be part of a \
            floor, or lies above that floor",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let floor = floor_at_the_head(w, id)?.filter(|floor| floor.underside <= floor.top);
            let Some(floor) = floor else { return w.length(0.0) };
            let deck = w.number(landing_above(w, floor.last)?, properties::THICKNESS)?;
            w.length((deck + floor.underside - floor.top).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::WELL,
        name: "spiral across",
        gives: LENGTH,
        help: "of the last flight, where that goes round a pole: from side to side",
        formula: "2 x (width of the last flight + its pole radius)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let flight = all(w, kinds::FLIGHT, 0)?.last().ok_or_else(|| w.not_drawn(id, kinds::FLIGHT))?;
            w.length(2.0 * (w.number(flight, properties::WIDTH)? + w.number(flight, POLE_RADIUS)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::WELL,
        name: "room under its edge",
        gives: LENGTH,
        help: "plumb, at the far edge of it, from the line of the nosings to the floor it is in: what its thickness leaves \
            of this is the headroom",
        formula: "height of the last front edge - the line of the nosings, at run of the last flight - length; of a spiral the \
            whole height",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (flight, begins) = well_begins(w, id)?;
            let line = nosing_line(w, flight)?;
            let top = line.last().map_or(0.0, |point| point.1);
            if w.word(flight, SPIRAL)? == "yes" {
                return w.length(top);
            }
            if w.things(kinds::WINDERS, flight)?.next().is_some() {
                return Err(Missing::outside(id, Method::FlightsInLine));
            }
            w.length(top - if begins < 0.0 { 0.0 } else { height_of(&line, begins) })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::WELL,
        name: "width lacking",
        gives: LENGTH,
        help: "how much narrower it is than the last flight, where no ceiling is drawn over the ends of the treads",
        formula: "greater of nothing and width of the last flight - width; nothing where such a ceiling is drawn, or it \
            turns",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (flight, _) = well_begins(w, id)?;
            if turns(w, flight)? {
                return w.length(0.0);
            }
            let mut over_the_ends = false;
            w.each(w.things(kinds::CEILING, flight)?, |ceiling| {
                over_the_ends |= w.word(ceiling, OVER)? != "the stair";
                Ok(())
            })?;
            if over_the_ends {
                return w.length(0.0);
            }
            let width = w.number(id, properties::WIDTH)?;
            w.length((w.number(flight, properties::WIDTH)? - width).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::BEAM,
        name: "above",
        gives: Gives::Word(&["flight", "spiral", "landing"]),
        help: "what it is above",
        formula: "by what it is drawn in",
        source: GEOMETRY,
        derive: Derive::Whole(above),
        ..ROW
    },
];

/// The floor at the head that a ceiling is part of, above the foot of the flight that it hangs over. Nanometres.
struct FloorAtTheHead {
    underside: f64,
    top: f64,
    /// The flight that goes up to it.
    last: Id,
}

/// The floor that a ceiling is said to be part of, where it ends over a flight: one that has no end over the stair may be
/// that of the storey above.
fn floor_at_the_head(w: &Evaluation<'_>, ceiling: Id) -> Result<Option<FloorAtTheHead>, Missing> {
    let floor = w.looked_up(ceiling, properties::PART_OF).is_some() && w.word(ceiling, properties::PART_OF)? == "floor";
    if !floor || w.looked_up(ceiling, properties::TO).is_none() || w.design.is(w.parent(ceiling), kinds::LANDING) {
        return Ok(None);
    }
    let flight = w.flight_of(ceiling)?;
    let underside = w.number(ceiling, properties::HEIGHT)?;
    let (mut top, mut last) = (0.0, flight);
    for later in all(w, kinds::FLIGHT, 0)?.filter(|later| *later >= flight) {
        // Nobody builds another stair to reach a figure that was written down wrong.
        top += values(w.trace(|| w.list(later, properties::RISERS)).0?).sum::<f64>();
        last = later;
    }
    Ok(Some(FloorAtTheHead { underside, top, last }))
}

const OVER: &Quantity = row(QUANTITIES, kinds::CEILING, "over");

fn turns(w: &Evaluation<'_>, flight: Id) -> Result<bool, Missing> {
    Ok(w.word(flight, SPIRAL)? == "yes" || w.things(kinds::WINDERS, flight)?.next().is_some())
}

/// The last flight, and where over it the well in the floor at its head begins: level, from the first front edge.
fn well_begins(w: &Evaluation<'_>, of: Id) -> Result<(Id, f64), Missing> {
    let well = match w.design.is(of, kinds::WELL) {
        true => of,
        false => all(w, kinds::WELL, 0)?.next().ok_or_else(|| w.not_drawn(of, kinds::WELL))?,
    };
    let flight = all(w, kinds::FLIGHT, 0)?.last().ok_or_else(|| w.not_drawn(of, kinds::FLIGHT))?;
    let run: f64 = values(w.list(flight, properties::RUNS)?).sum();
    Ok((flight, run - w.number(well, properties::LENGTH)?))
}

/// What is overhead is straight, and so is the line of the nosings between two of them: the least stands at a nosing, or
/// at an end of what is overhead.
fn headroom(w: &Evaluation<'_>, id: Id) -> Derived {
    if w.looked_up(id, properties::HEADROOM).is_some() {
        return w.length(w.number(id, properties::HEADROOM)?);
    }
    // Either would settle it; the headroom is the one to ask for.
    let height = w.number(id, properties::HEIGHT).map_err(|_| w.missing(id, properties::HEADROOM))?;
    let rises = optional(w, id, properties::SLOPE)?.unwrap_or(0.0) - optional(w, id, properties::FALL)?.unwrap_or(0.0);
    let height = height - lower_across(w, id)?;
    let (from, to) = reach(w, id)?;
    if above_landing(w, id) {
        let from = from.unwrap_or(0.0).max(0.0);
        return w.length(match (rises < 0.0, to) {
            (false, _) => height + rises * from,
            (true, Some(to)) => height + rises * to,
            (true, None) => height + rises * w.number(landing(w, id)?, properties::DEPTH)?,
        });
    }
    let line = nosing_line(w, w.flight_of(id)?)?;
    let end = line.last().map_or(0.0, |point| point.0);
    // A flight that goes backwards, as a mend may try it, has its end before its beginning.
    let from = from.unwrap_or(0.0).max(0.0).min(end);
    let to = to.unwrap_or(end).min(end).max(from);
    let mut least = f64::INFINITY;
    for x in [from, to].into_iter().chain(line.iter().map(|point| point.0).filter(|x| (from..=to).contains(x))) {
        least = least.min(height + rises * x - height_of(&line, x));
    }
    w.length(least)
}

/// Where it begins and where it ends, as far as that is stated. A beam lies somewhere, and is so wide.
fn reach(w: &Evaluation<'_>, id: Id) -> Result<(Option<f64>, Option<f64>), Missing> {
    if !w.design.is(id, kinds::BEAM) {
        return Ok((optional(w, id, properties::FROM)?, optional(w, id, properties::TO)?));
    }
    if above_landing(w, id) {
        // It hangs as high over the floor wherever it lies.
        return Ok((None, None));
    }
    let from = w.number(id, properties::FROM)?;
    Ok((Some(from), Some(from + w.number(id, properties::WIDTH)?)))
}

fn above(w: &Evaluation<'_>, id: Id) -> Derived {
    if above_landing(w, id) {
        return word("landing");
    }
    let spiral = w.word(w.flight_of(id)?, SPIRAL)? == "yes";
    word(if spiral { "spiral" } else { "flight" })
}

fn above_landing(w: &Evaluation<'_>, id: Id) -> bool {
    landing(w, id).is_ok()
}

fn landing(w: &Evaluation<'_>, id: Id) -> Result<Id, Missing> {
    let serves = w.design.get(id).and_then(|overhead| overhead.serves);
    serves.filter(|place| w.design.is(*place, kinds::LANDING)).ok_or_else(|| w.not_drawn(id, kinds::LANDING))
}

/// How much lower a ceiling hangs at the one side than at the other, over what it hangs over: one walks at either.
fn lower_across(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    let Some(falls) = optional(w, id, properties::FALL_ACROSS)? else { return Ok(0.0) };
    let width = match optional(w, id, properties::OVERHANG)? {
        Some(overhang) => overhang,
        None if above_landing(w, id) => w.number(landing(w, id)?, properties::WIDTH)?,
        None => w.number(w.flight_of(id)?, properties::WIDTH)?,
    };
    Ok(falls * width)
}

fn optional(w: &Evaluation<'_>, id: Id, name: PropertyName) -> Result<Option<f64>, Missing> {
    w.looked_up(id, name).is_some().then(|| w.number(id, name)).transpose()
}

/// Every nosing of a flight, the edge of the floor above last: how far from the first, and how high above the foot.
pub(super) fn nosing_line(w: &Evaluation<'_>, flight: Id) -> Result<Vec<(f64, f64)>, Missing> {
    let risers = w.list(flight, properties::RISERS)?;
    let runs = w.list(flight, properties::RUNS)?;
    let (mut x, mut height) = (0.0, 0.0);
    let mut line = Vec::new();
    let steps = values(risers).zip(std::iter::once(0.0).chain(values(runs)));
    for (rise, run) in steps {
        x += run;
        height += rise;
        line.push((x, height));
    }
    Ok(line)
}

/// Height of the line at a distance, which lies within it.
pub(super) fn height_of(line: &[(f64, f64)], x: f64) -> f64 {
    let next = line.iter().position(|point| point.0 >= x).unwrap_or(line.len().saturating_sub(1));
    match (next.checked_sub(1).and_then(|before| line.get(before)), line.get(next)) {
        (Some((x0, h0)), Some((x1, h1))) if x1 > x0 => h0 + (h1 - h0) * (x - x0) / (x1 - x0),
        (_, Some((_, height))) => *height,
        _ => 0.0,
    }
}
