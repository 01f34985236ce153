//! What the hand holds: its size, what it takes of the width, how far it goes.

use super::quantity::{GEOMETRY, LENGTH, NUMBER, Quantity, entry};
use super::working::Working;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("handrail" "width" LENGTH, "across it; the larger way of its section, to be on the safe side", "the larger way of section", GEOMETRY, |w, id| {
        let width = w.section(id)?.depth;
        w.length(width)
    }),
    entry!("handrail" "projection" LENGTH, "what it takes of the width", "clearance + width", "IRC 2021, R311.7.1", |w, id| {
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
