//! Sections of the user's own: what their shape lets them measure.

use super::formula::Derive;
use super::formula::Formula::{Number, Otherwise, Pi, Plus, Root, Square, Stated, Times};
use super::formula::Of;
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW};
use crate::model::{kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::SECTION,
        name: "shape",
        gives: Gives::Word(&["round", "rectangular", "profiled"]),
        help: "what it looks like",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::SHAPE, "rectangular")),
        ..ROW
    },
    Quantity {
        kind: kinds::SECTION,
        name: "circumference",
        gives: LENGTH,
        help: "round a circle of its diameter",
        source: GEOMETRY,
        derive: Derive::Formula(&Times(&Pi, &Stated(Of::This, properties::DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::SECTION,
        name: "diagonal",
        gives: LENGTH,
        help: "from corner to corner of a rectangle as wide and as deep",
        source: GEOMETRY,
        derive: Derive::Formula(&Root(&Plus(
            &Square(&Stated(Of::This, properties::WIDTH)),
            &Square(&Stated(Of::This, properties::DEPTH)),
        ))),
        ..ROW
    },
    Quantity {
        kind: kinds::SECTION,
        name: "girth",
        gives: LENGTH,
        help: "round a rectangle as wide and as deep",
        source: GEOMETRY,
        derive: Derive::Formula(&Times(
            &Number(2.0),
            &Plus(&Stated(Of::This, properties::WIDTH), &Stated(Of::This, properties::DEPTH)),
        )),
        ..ROW
    },
];
