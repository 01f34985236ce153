//! What the hand holds: its size, what it takes of the width, how far it goes.

use super::evaluation::{Evaluation, number, word};
use super::flight::range;
use super::quantity::{Derive, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use crate::model::{Id, kinds, properties};

/// The name of a rail that stands between the sides of a flight.
const MIDDLE: &str = "middle";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::HANDRAIL,
        name: "width",
        gives: LENGTH,
        help: "across it; the larger way of its section, to be on the safe side",
        formula: "the larger way of section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let width = w.section(id)?.depth;
            w.length(width)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "place",
        gives: Gives::Word(&["flight", "level", MIDDLE]),
        help: "beside the steps, beside a landing, or between the sides of a wide flight",
        formula: "level where it serves a landing, middle where that is its name",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if is_middle(w, id) {
                return word(MIDDLE);
            }
            let serves = w.design.get(id).and_then(|rail| rail.serves);
            word(if serves.is_some_and(|place| w.design.is(place, kinds::LANDING)) { "level" } else { "flight" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "continues",
        gives: Gives::Word(&["nowhere", "up", "down", "both ways"]),
        help: "where it runs on into the rail of another flight",
        formula: "continues as stated, else nowhere",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| w.stated_or(id, properties::CONTINUES, "nowhere")),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "height spread",
        gives: LENGTH,
        help: "its largest height less its smallest",
        formula: "largest of height - smallest of height",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let heights = w.list(id, properties::HEIGHT)?;
            w.length(range(values(heights)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "projection",
        gives: LENGTH,
        help: "what it takes of the width; of one in the middle, its own width",
        formula: "clearance + width",
        source: "IRC 2021, R311.7.1",
        derive: Derive::Whole(|w, id| {
            if is_middle(w, id) {
                return w.datum(id, WIDTH);
            }
            let clearance = w.number(id, properties::CLEARANCE)?;
            w.length(clearance + w.number(id, WIDTH)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "risers missed",
        gives: NUMBER,
        help: "risers of its flight that it does not stand over",
        formula: "number of risers - (to riser - from riser + 1)",
        source: "IRC 2021, R311.7.8.4",
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            #[allow(clippy::cast_precision_loss)]
            let risers = w.list(flight, properties::RISERS)?.len() as f64;
            let from = w.number(id, properties::FROM_RISER)?.max(1.0);
            let to = w.number(id, properties::TO_RISER)?.min(risers);
            number(risers - (to - from + 1.0).max(0.0))
        }),
        ..ROW
    },
];

const WIDTH: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "width");
pub(super) const PLACE: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "place");
pub(super) const PROJECTION: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "projection");

fn is_middle(w: &Evaluation<'_>, id: Id) -> bool {
    w.design.get(id).and_then(|rail| rail.name.as_deref()).is_some_and(|name| name.eq_ignore_ascii_case(MIDDLE))
}
