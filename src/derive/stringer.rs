//! What carries the treads.

use super::custom::CustomId;
use super::flight::{NOSING_LINE, UNIT_RISE, UNIT_RUN};
use super::formula::Formula::{Asks, Assumed, Item, Minus, Plus, Stated};
use super::formula::{Derive, Nth, Of};
use super::quantity::{GEOMETRY, LENGTH, Quantity, ROW, row};
use super::step::BOARD_THICKNESS;
use crate::model::{kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STRINGER,
        name: "throat",
        gives: LENGTH,
        help: "wood left square to the slope below a cut; all of it where none is cut",
        formula: "depth of section - unit rise x unit run / nosing line; all of it where it is not notched",
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
        source: "common practice",
        derive: Derive::Formula(&Minus(
            &Plus(
                &Item(Of::Flight, properties::RISERS, Nth::First),
                &Assumed(Of::Stair, properties::BOTTOM_FINISH, CustomId::NO_FINISH),
            ),
            &Asks(Of::FirstTread, || BOARD_THICKNESS),
        )),
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

const FIRST_CUT_NEEDED: &Quantity = row(QUANTITIES, kinds::STRINGER, "first cut needed");
