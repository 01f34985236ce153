//! What carries the treads.

use super::quantity::{GEOMETRY, LENGTH, Quantity, entry};
use super::step::step_of;
use super::working::NO_FINISH;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("stringer" "throat" LENGTH, "wood left square to the slope below a cut; all of it where none is cut",
        "depth of section - unit rise x unit run / nosing line", GEOMETRY, |w, id| {
        let depth = w.section(id)?.depth;
        if w.word(id, "cut")? != "notched" {
            return w.length(depth);
        }
        let flight = w.flight_of(id)?;
        let rise = w.number(flight, "unit rise")?;
        let run = w.number(flight, "unit run")?;
        w.length(depth - rise * run / w.number(flight, "nosing line")?)
    }),
    entry!("stringer" "first cut needed" LENGTH, "height of the lowest riser cut that leaves an even first riser",
        "first of risers + bottom finish - board thickness", "common practice", |w, id| {
        let flight = w.flight_of(id)?;
        let first = w.item(flight, "risers", 0)?.value;
        let finish = if w.design.stated(0, "bottom finish").is_some() {
            w.number(0, "bottom finish")?
        } else {
            w.custom(NO_FINISH, 0);
            0.0
        };
        let tread = step_of(w, flight, "tread", 0).ok_or_else(|| w.missing(flight, "runs"))?;
        w.length(first + finish - w.number(tread, "board thickness")?)
    }),
    entry!("stringer" "finished first riser" LENGTH, "what the first riser comes to with the first cut as it is",
        "first of risers + (first cut - first cut needed)", "common practice", |w, id| {
        let first = w.item(w.flight_of(id)?, "risers", 0)?.value;
        let cut = w.number(id, "first cut")?;
        w.length(first + cut - w.number(id, "first cut needed")?)
    }),
    entry!("stringer" "finished last riser" LENGTH, "what the last riser comes to with the first cut as it is: every tread moves with it, the floor above does not",
        "last of risers - (first cut - first cut needed)", "common practice", |w, id| {
        let flight = w.flight_of(id)?;
        let steps = w.list(flight, "risers")?.len();
        let last = w.item(flight, "risers", steps.saturating_sub(1))?.value;
        let cut = w.number(id, "first cut")?;
        w.length(last - cut + w.number(id, "first cut needed")?)
    }),
];
