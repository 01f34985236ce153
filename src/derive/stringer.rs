//! What carries the treads.

use super::custom::CustomId;
use super::flight::{NOSING_LINE, UNIT_RISE, UNIT_RUN};
use super::quantity::{Derive, GEOMETRY, LENGTH, Quantity, ROW, row};
use super::step::{BOARD_THICKNESS, step_of};
use crate::model::{kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STRINGER,
        name: "throat",
        gives: LENGTH,
        help: "wood left square to the slope below a cut; all of it where none is cut",
        formula: "depth of section - unit rise x unit run / nosing line",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let depth = w.section(id)?.depth;
            if w.word(id, properties::CUT)? != "notched" {
                return w.length(depth);
            }
            let flight = w.flight_of(id)?;
            let rise = w.number(flight, UNIT_RISE)?;
            let run = w.number(flight, UNIT_RUN)?;
            w.length(depth - rise * run / w.number(flight, NOSING_LINE)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "first cut needed",
        gives: LENGTH,
        help: "height of the lowest riser cut that leaves an even first riser",
        formula: "first of risers + bottom finish - board thickness",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let first = w.item(flight, properties::RISERS, 0)?.value;
            let finish = if w.design.stated(0, properties::BOTTOM_FINISH).is_some() {
                w.number(0, properties::BOTTOM_FINISH)?
            } else {
                w.custom(CustomId::NO_FINISH, 0);
                0.0
            };
            let tread = step_of(w, flight, kinds::TREAD, 0).ok_or_else(|| w.missing(flight, properties::RUNS))?;
            w.length(first + finish - w.number(tread, BOARD_THICKNESS)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "finished first riser",
        gives: LENGTH,
        help: "what the first riser comes to with the first cut as it is",
        formula: "first of risers + (first cut - first cut needed)",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let first = w.item(w.flight_of(id)?, properties::RISERS, 0)?.value;
            let cut = w.number(id, properties::FIRST_CUT)?;
            w.length(first + cut - w.number(id, FIRST_CUT_NEEDED)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "finished last riser",
        gives: LENGTH,
        help: "what the last riser comes to with the first cut as it is: every tread moves with it, the \
            floor above does not",
        formula: "last of risers - (first cut - first cut needed)",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let steps = w.list(flight, properties::RISERS)?.len();
            let last = w.item(flight, properties::RISERS, steps.saturating_sub(1))?.value;
            let cut = w.number(id, properties::FIRST_CUT)?;
            w.length(last - cut + w.number(id, FIRST_CUT_NEEDED)?)
        }),
        ..ROW
    },
];

const FIRST_CUT_NEEDED: &Quantity = row(QUANTITIES, kinds::STRINGER, "first cut needed");
