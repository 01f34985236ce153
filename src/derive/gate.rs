//! Gates: in a guard, or across the head of the steps.

use super::evaluation::word;
use super::formula::Derive;
use super::guard;
use super::place::{ELEVATION, FLIGHT_WIDTH};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW, row};
use crate::model::{AWAY_FROM_THE_STEPS, Side, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::GATE,
        name: "drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest beside what its guard guards, to the lowest ground so far out; across the head of the steps, \
            the floor it stands on above the foot",
        formula: "drop of the guard within so far out, else elevation of the landing",
        source: "IRC 2021, R312.1.1",
        derive: Derive::At(|w, id, reach| match w.parent(id) {
            guard if w.design.is(guard, kinds::GUARD) => w.length(w.number_at(guard, guard::DROP, reach)?),
            landing => w.datum(landing, ELEVATION),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GATE,
        name: "place",
        gives: Gives::Word(&["flight", "level"]),
        help: "beside the steps, or at a landing or a well",
        formula: "that of the guard it stands in; level where it stands across the steps",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| match w.parent(id) {
            guard if w.design.is(guard, kinds::GUARD) => w.datum(guard, guard::PLACE),
            _ => word("level"),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GATE,
        name: "edge length",
        gives: LENGTH,
        help: "of what its guard stands along, or of the edge of its landing that it closes",
        formula: "edge length of the guard, else width of the landing",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| match w.parent(id) {
            guard if w.design.is(guard, kinds::GUARD) => w.datum(guard, guard::EDGE_LENGTH),
            landing => w.datum(landing, properties::WIDTH),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GATE,
        name: "room behind",
        gives: LENGTH,
        help: "depth of the landing that its leaf leaves",
        formula: "depth of the landing - leaf, where it swings away from the steps; nothing where the leaf is wider",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let depth = w.number(landing, properties::DEPTH)?;
            let away = w.word(id, properties::SWING)? == AWAY_FROM_THE_STEPS;
            let leaf = if away { w.number(id, properties::LEAF)? } else { 0.0 };
            w.length((depth - leaf).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GATE,
        name: "steps behind",
        gives: LENGTH,
        help: "how wide the steps are that it stands across; nothing in a guard",
        formula: "the wider of the flights at its landing; nothing where it stands in a guard",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| match w.parent(id) {
            guard if w.design.is(guard, kinds::GUARD) => w.length(0.0),
            landing => w.datum(landing, FLIGHT_WIDTH),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GATE,
        name: "edge left",
        gives: LENGTH,
        help: "what it and the guards and walls at its edge leave of the edge across the steps; less than nothing where they \
            do not fit",
        formula: "edge length - width - each length of a guard or wall at the near side of its landing; nothing in a \
            guard",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let landing = w.parent(id);
            if w.design.is(landing, kinds::GUARD) {
                return w.length(0.0);
            }
            let mut left = w.number(id, EDGE_LENGTH)? - w.number(id, properties::WIDTH)?;
            for kind in [kinds::GUARD, kinds::WALL] {
                w.each(w.things(kind, landing)?, |beside| {
                    let near = w.design.get(beside).is_some_and(|beside| beside.side == Some(Side::Near));
                    // One that states no length fills what the gate leaves.
                    if near && w.looked_up(beside, properties::LENGTH).is_some() {
                        left -= w.number(beside, properties::LENGTH)?;
                    }
                    Ok(())
                })?;
            }
            w.length(left)
        }),
        ..ROW
    },
];

const EDGE_LENGTH: &Quantity = row(QUANTITIES, kinds::GATE, "edge length");
