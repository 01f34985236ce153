//! What is overhead: the room between the line of the nosings and the ceiling.

use super::missing::Missing;
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, entry};
use super::working::Working;
use crate::model::Id;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("ceiling" "headroom" LENGTH, "plumb, from the line of the nosings or a landing's floor, at its least",
        "headroom as stated, else the least of height + slope x distance - the line of the nosings, between from and to",
        "IRC 2021, R311.7.2", |w, id| {
        if w.design.stated(id, "headroom").is_some() {
            return w.length(w.stated_number(id, "headroom")?);
        }
        // Either would settle it; the headroom is the one to ask for.
        let height = w.number(id, "height").map_err(|_| w.missing(id, "headroom"))?;
        if above_landing(w, id) {
            return w.length(height);
        }
        let rises = optional(w, id, "slope")?.unwrap_or(0.0);
        let (from, to) = (optional(w, id, "from")?, optional(w, id, "to")?);
        let line = nosing_line(w, w.flight_of(id)?)?;
        let end = line.last().map_or(0.0, |point| point.0);
        let from = from.unwrap_or(0.0).clamp(0.0, end);
        let to = to.unwrap_or(end).clamp(from, end);
        let mut least = f64::INFINITY;
        // Between two nosings both lines are straight, so the least stands at a nosing or at an end of the ceiling.
        for x in [from, to].into_iter().chain(line.iter().map(|point| point.0).filter(|x| (from..=to).contains(x))) {
            least = least.min(height + rises * x - height_of(&line, x));
        }
        w.length(least)
    }),
    entry!("ceiling" "over" Gives::Word(&["the stair", "the ends of the treads"]), "what it hangs over", "over as stated, else the stair", GEOMETRY, |w, id| {
        w.stated_or(id, "over", "the stair")
    }),
    entry!("ceiling" "above" Gives::Word(&["flight", "spiral", "landing"]), "what it is above", "by what it is drawn in", GEOMETRY, |w, id| {
        if above_landing(w, id) {
            return Working::say("landing");
        }
        let spiral = w.word(w.flight_of(id)?, "spiral")? == "yes";
        Working::say(if spiral { "spiral" } else { "flight" })
    }),
];

fn above_landing(w: &Working<'_>, id: Id) -> bool {
    w.design.get(id).and_then(|ceiling| ceiling.serves).is_some_and(|place| w.design.kind(place) == "landing")
}

fn optional(w: &Working<'_>, id: Id, name: &'static str) -> Result<Option<f64>, Missing> {
    w.design.stated(id, name).is_some().then(|| w.number(id, name)).transpose()
}

/// Every nosing of a flight, the edge of the floor above last: how far from the first, and how high above the foot.
fn nosing_line(w: &Working<'_>, flight: Id) -> Result<Vec<(f64, f64)>, Missing> {
    let risers = w.list(flight, "risers")?;
    let runs = w.list(flight, "runs")?;
    let (mut x, mut height) = (0.0, 0.0);
    let mut line = Vec::new();
    let steps = risers.iter().zip(std::iter::once(&0.0).chain(&runs));
    for (rise, run) in steps {
        x += run;
        height += rise;
        line.push((x, height));
    }
    Ok(line)
}

/// Height of the line at a distance, which lies within it.
fn height_of(line: &[(f64, f64)], x: f64) -> f64 {
    let next = line.iter().position(|point| point.0 >= x).unwrap_or(line.len().saturating_sub(1));
    match (next.checked_sub(1).and_then(|before| line.get(before)), line.get(next)) {
        (Some((x0, h0)), Some((x1, h1))) if x1 > x0 => h0 + (h1 - h0) * (x - x0) / (x1 - x0),
        (_, Some((_, height))) => *height,
        _ => 0.0,
    }
}
