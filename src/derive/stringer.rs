//! What carries the treads.

use super::custom::CustomId;
use super::evaluation::Evaluation;
use super::flight::UNIT_RUN;
use super::formula::Formula::{Asks, Item, Minus, Plus, Section, Stated};
use super::formula::{Derive, Nth, Of, Way, assumed};
use super::missing::Missing;
use super::place::all;
use super::quantity::{GEOMETRY, LENGTH, Quantity, ROW, row};
use super::reading::values;
use super::step::{BOARD_THICKNESS, RUN, landing_above};
use super::winder::SHAPE;
use crate::measure::INCH;
use crate::model::{Id, kinds, properties};

/// Thickness of a nominal 2x, PS 20.
const TWO_BY: f64 = 1.5 * INCH;

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STRINGER,
        name: "two-by depth",
        gives: LENGTH,
        help: "the depth of a board 1-1/2 in thick that bends as hard: before it is notched, and less what treads are let in",
        formula: "the larger way of section x sqrt((the smaller way - housing, where it is housed) / 1-1/2\")",
        source: "statics: a section modulus goes with thickness and the square of depth",
        derive: Derive::Whole(|w, id| {
            let section = w.section(id)?;
            let let_in = match w.word(id, properties::CUT)?.as_ref() {
                "housed" => w.number(id, properties::HOUSING)?,
                _ => 0.0,
            };
            w.length(section.depth * ((section.thickness - let_in).max(0.0) / TWO_BY).sqrt())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "next string",
        gives: LENGTH,
        help: "level, centre to centre, to the next of its flight, whichever block draws that, where those between stand evenly",
        formula: "spacing; of outer ones and those that stand between them (count - 1) x spacing of the outer ones / (count - 1 + \
            count of those between)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stands = |id: Id, so: &str| -> Result<bool, Missing> {
                Ok(w.looked_up(id, properties::STANDS).is_some() && w.word(id, properties::STANDS)? == so)
            };
            let all: Vec<Id> = w.things(kinds::STRINGER, w.flight_of(id)?)?.collect();
            let (mut outer, mut between) = (None, 0.0);
            if all.len() > 1 && (stands(id, "outer")? || stands(id, "between")?) {
                for string in all {
                    if stands(string, "between")? {
                        between += w.number(string, properties::COUNT)?;
                    } else if stands(string, "outer")? {
                        outer = Some(string);
                    }
                }
            }
            let Some(outer) = outer else { return w.length(w.number(id, properties::SPACING)?) };
            let gaps = (w.number(outer, properties::COUNT)? - 1.0).max(1.0);
            w.length(gaps * w.number(outer, properties::SPACING)? / (gaps + between))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "thickness",
        gives: LENGTH,
        help: "the smaller way of its section",
        source: GEOMETRY,
        derive: Derive::Formula(&Section(Way::Smaller)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "throat",
        gives: LENGTH,
        help: "wood left square to the slope below a cut; all of it where none is cut",
        formula: "depth of section - R x T / sqrt(R^2 + T^2), R the largest of risers, T the largest run that is no \
            winder's; all of it where it is not notched",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let depth = w.section(id)?.depth;
            if w.word(id, properties::CUT)? != "notched" {
                return w.length(depth);
            }
            w.length(depth - step_depth(w, id)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "step depth",
        gives: LENGTH,
        help: "what a step takes of its depth: from the line of the nosings to where tread and riser meet, square to the slope",
        formula: "R x T / sqrt(R^2 + T^2), R the largest of risers, T the largest run that is no winder's",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| w.length(step_depth(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "first cut needed",
        gives: LENGTH,
        help: "height of the lowest riser cut that leaves an even first riser",
        formula: "first of risers + bottom finish - thickness of the first tread's board; of a flight that rises from a landing \
            without that finish, which is laid at the foot of the stair",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let first = values(w.list(flight, properties::RISERS)?).next();
            let first = first.ok_or_else(|| w.missing(flight, properties::RISERS))?;
            let rises_from_a_landing = all(w, kinds::FLIGHT, 0)?.any(|other| other < flight);
            let finish = match rises_from_a_landing {
                true => 0.0,
                false => assumed(w, 0, properties::BOTTOM_FINISH, CustomId::NO_FINISH)?,
            };
            let tread = w.step_of(flight, kinds::TREAD, 0).ok_or_else(|| w.missing(flight, properties::RUNS))?;
            w.length(first + finish - w.number(tread, BOARD_THICKNESS)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "last cut needed",
        gives: LENGTH,
        help: "height from the highest tread cut to the rough floor at the head that leaves an even last riser",
        formula: "last of risers + thickness of the last tread's board - top finish; below a landing between flights \
            - its thickness",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let last = values(w.list(flight, properties::RISERS)?).last();
            let last = last.ok_or_else(|| w.missing(flight, properties::RISERS))?;
            let runs = w.list(flight, properties::RUNS)?.len();
            let tread = runs.checked_sub(1).and_then(|nth| w.step_of(flight, kinds::TREAD, nth));
            let board = w.number(tread.ok_or_else(|| w.missing(flight, properties::RUNS))?, BOARD_THICKNESS)?;
            let goes_on = super::place::all(w, kinds::FLIGHT, 0)?.any(|other| other > flight);
            let finish = if goes_on {
                w.number(landing_above(w, flight)?, properties::THICKNESS)?
            } else if w.looked_up(0, properties::TOP_FINISH).is_some() {
                w.number(0, properties::TOP_FINISH)?
            } else {
                w.custom(CustomId::NO_FINISH_ABOVE, 0);
                0.0
            };
            w.length(last + board - finish)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "finished first riser",
        gives: LENGTH,
        help: "what the first riser comes to with the first cut as it is",
        source: "common practice",
        derive: Derive::Formula(&Plus(
            &Item(Of::Flight, properties::RISERS, Nth::First),
            &Minus(&Stated(Of::This, properties::FIRST_CUT), &Asks(Of::This, || FIRST_CUT_NEEDED)),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "finished last riser",
        gives: LENGTH,
        help: "what the last riser comes to with the first cut as it is: every tread moves with it, the \
            floor above does not",
        source: "common practice",
        derive: Derive::Formula(&Minus(
            &Item(Of::Flight, properties::RISERS, Nth::Last),
            &Minus(&Stated(Of::This, properties::FIRST_CUT), &Asks(Of::This, || FIRST_CUT_NEEDED)),
        )),
        ..ROW
    },
];

fn step_depth(w: &Evaluation<'_>, stringer: Id) -> Result<f64, Missing> {
    let flight = w.flight_of(stringer)?;
    let rise = values(w.list(flight, properties::RISERS)?).fold(0.0, f64::max);
    let mut run: f64 = 0.0;
    for tread in w.things(kinds::TREAD, flight)? {
        if w.word(tread, SHAPE)? == "rectangular" {
            run = run.max(w.number(tread, RUN)?);
        }
    }
    // Where all of them taper, one that was like the others.
    let run = if run > 0.0 { run } else { w.number(flight, UNIT_RUN)? };
    Ok(rise * run / rise.hypot(run))
}

pub(super) const THROAT: &Quantity = row(QUANTITIES, kinds::STRINGER, "throat");
const FIRST_CUT_NEEDED: &Quantity = row(QUANTITIES, kinds::STRINGER, "first cut needed");
