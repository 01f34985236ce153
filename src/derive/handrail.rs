//! What the hand holds: its size, what it takes of the width, how far it goes.

use super::flight::range;
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::working::Working;
use crate::model::Id;

/// The name of a rail that stands between the sides of a flight.
const MIDDLE: &str = "middle";

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("handrail" "width" LENGTH, "across it; the larger way of its section, to be on the safe side", "the larger way of section", GEOMETRY, |w, id| {
        let width = w.section(id)?.depth;
        w.length(width)
    }),
    entry!("handrail" "place" Gives::Word(&["flight", "level", MIDDLE]), "beside the steps, beside a landing, or between the sides of a wide flight", "level where it serves a landing, middle where that is its name", GEOMETRY, |w, id| {
        if is_middle(w, id) {
            return Working::say(MIDDLE);
        }
        let serves = w.design.get(id).and_then(|rail| rail.serves);
        Working::say(if serves.is_some_and(|place| w.design.kind(place) == "landing") { "level" } else { "flight" })
    }),
    entry!("handrail" "continues" Gives::Word(&["nowhere", "up", "down", "both ways"]), "where it runs on into the rail of another flight", "continues as stated, else nowhere", "what is not drawn is not there", |w, id| {
        w.stated_or(id, "continues", "nowhere")
    }),
    entry!("handrail" "height spread" LENGTH, "its largest height less its smallest", "largest of height - smallest of height", GEOMETRY, |w, id| {
        let heights = w.list(id, "height")?;
        w.length(range(&heights))
    }),
    entry!("handrail" "projection" LENGTH, "what it takes of the width; of one in the middle, its own width", "clearance + width", "IRC 2021, R311.7.1", |w, id| {
        if is_middle(w, id) {
            return w.datum(id, "width");
        }
        let clearance = w.number(id, "clearance")?;
        w.length(clearance + w.number(id, "width")?)
    }),
    entry!("handrail" "risers missed" NUMBER, "risers of its flight that it does not stand over", "number of risers - (to riser - from riser + 1)", "IRC 2021, R311.7.8.4", |w, id| {
        let flight = w.flight_of(id)?;
        #[allow(clippy::cast_precision_loss)]
        let risers = w.list(flight, "risers")?.len() as f64;
        let from = w.number(id, "from riser")?.max(1.0);
        let to = w.number(id, "to riser")?.min(risers);
        Working::plain(risers - (to - from + 1.0).max(0.0))
    }),
];

fn is_middle(w: &Working<'_>, id: Id) -> bool {
    w.design.get(id).and_then(|rail| rail.name.as_deref()).is_some_and(|name| name.eq_ignore_ascii_case(MIDDLE))
}
