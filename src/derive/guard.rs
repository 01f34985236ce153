//! What keeps one from falling: its place, its drop, and the openings a body or a head could pass.

use super::flight::largest;
use super::missing::{Method, Missing};
use super::place::{drop_at, sides};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::working::Working;
use crate::measure::INCH;
use crate::model::{Balusters, Id, Side, Value};

/// The sphere that shall not pass between balusters on the level: 4 in, IRC 2021 R312.1.3.
const SPHERE: f64 = 4.0 * INCH;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("guard" "place" Gives::Word(&["flight", "level"]), "beside the steps, or beside a landing", "level where it guards a landing", "IRC 2021, R312.1.2", |w, id| {
        Working::say(if landing_of(w, id).is_some() { "level" } else { "flight" })
    }),
    entry!("guard" "drop" LENGTH, "the deepest beside what it guards", "elevation + below + 36\" x slope", "IRC 2021, R312.1.1", |w, id| {
        let side = w.design.get(id).and_then(|guard| guard.side);
        let place = landing_of(w, id);
        let sides: Vec<Side> = match (side, place) {
            (Some(side), _) => vec![side],
            (None, Some(landing)) => sides(w, landing)?,
            (None, None) => vec![Side::Left, Side::Right],
        };
        let surfaces: Vec<Id> = match place {
            Some(landing) => vec![landing],
            None => {
                let flight = w.flight_of(id)?;
                let treads: Vec<Id> = w.design.belonging("tread", flight).collect();
                if treads.iter().all(|tread| w.design.get(*tread).is_none_or(|tread| tread.step.is_none())) {
                    return Err(w.missing(flight, "runs"));
                }
                treads
            }
        };
        let mut deepest: f64 = 0.0;
        for surface in surfaces {
            for side in &sides {
                deepest = deepest.max(drop_at(w, surface, *side)?);
            }
        }
        w.length(deepest)
    }),
    entry!("guard" "baluster width" LENGTH, "of one baluster along the guard", "as stated in balusters", "PS 20 for nominal sizes", |w, id| {
        let width = balusters(w, id)?.width;
        Ok(super::working::Datum::Measure(width))
    }),
    entry!("guard" "baluster count" NUMBER, "between two posts", "as stated in balusters, else the fewest that leave no end gap wider than the gap between two; with end gaps stated, as many as fit between them", GEOMETRY, |w, id| {
        let balusters = balusters(w, id)?;
        match (balusters.count, balusters.every) {
            (Some(count), _) => Working::plain(count),
            (None, Some(every)) => {
                let clear = w.number(id, "between posts")?;
                let fit = |clear: f64| ((clear - balusters.width.value) / every.value + 1e-9).floor() + 1.0;
                if w.design.stated(id, "end gap").is_some() {
                    return Working::plain(fit(clear - 2.0 * w.stated_number(id, "end gap")?).max(0.0));
                }
                let gaps = 2.0 * (every.value - balusters.width.value);
                let even = ((clear - balusters.width.value - gaps) / every.value - 1e-9).ceil() + 1.0;
                Working::plain(even.max(1.0).min(fit(clear)).max(0.0))
            }
            (None, None) => Err(w.missing(id, "balusters")),
        }
    }),
    entry!("guard" "baluster gap" LENGTH, "clear between two balusters, level", "every - width of balusters, else even gap", GEOMETRY, |w, id| {
        let balusters = balusters(w, id)?;
        match balusters.every {
            Some(every) => {
                w.number(id, "baluster width")?;
                w.length(every.value - balusters.width.value)
            }
            None => {
                let gap = w.number(id, "even gap")?;
                w.length(gap)
            }
        }
    }),
    entry!("guard" "even gap" LENGTH, "if the balusters stood evenly between the posts", "(between posts - baluster count x baluster width) / (baluster count + 1)", "common practice", |w, id| {
        let clear = w.number(id, "between posts")?;
        let count = w.number(id, "baluster count")?;
        let width = w.number(id, "baluster width")?;
        w.length((clear - count * width) / (count + 1.0))
    }),
    entry!("guard" "end gap" LENGTH, "between the last baluster and its post", "end gap as stated, else (between posts - baluster width - (baluster count - 1) x every) / 2", GEOMETRY, |w, id| {
        if w.design.stated(id, "end gap").is_some() {
            return w.length(w.stated_number(id, "end gap")?);
        }
        let clear = w.number(id, "between posts").map_err(|_| w.missing(id, "end gap"))?;
        let balusters = balusters(w, id)?;
        let count = w.number(id, "baluster count")?;
        let width = w.number(id, "baluster width")?;
        match balusters.every {
            Some(every) => w.length((clear - width - (count - 1.0) * every.value) / 2.0),
            None => w.length(w.number(id, "even gap")?),
        }
    }),
    entry!("guard" "opening" LENGTH, "the widest between balusters, beside the last where that is known, or above them", "largest of baluster gap, end gap and top gap", "IRC 2021, R312.1.3", |w, id| {
        let infill = infill_opening(w, id)?;
        w.length(infill.max(top_gap(w, id)?.map_or(0.0, |(_, gap)| gap)))
    }),
    entry!(at "guard" "opening below" LENGTH, "the widest lower than so far up", "largest of baluster gap, end gap, and top gap where infill to is lower", "IBC 2021, 1015.4", |w, id, place| {
        let infill = infill_opening(w, id)?;
        let above = top_gap(w, id)?.filter(|(reach, _)| *reach < place);
        w.length(infill.max(above.map_or(0.0, |(_, gap)| gap)))
    }),
    entry!(at "guard" "opening above" LENGTH, "the widest from so far up to the top", "top gap, and baluster gap and end gap where the infill reaches higher", "IBC 2021, 1015.4", |w, id, place| {
        match top_gap(w, id)? {
            Some((reach, gap)) if reach <= place => w.length(gap),
            Some((_, gap)) => w.length(infill_opening(w, id)?.max(gap)),
            None => w.length(infill_opening(w, id)?),
        }
    }),
    entry!("guard" "infill" Gives::Word(&["balusters", "solid", "open"]), "what closes it", "infill as stated, else by what is drawn", "what is not drawn is not there", |w, id| {
        if w.design.stated(id, "infill").is_some() {
            return w.stated(id, "infill");
        }
        w.value(id, "balusters")?;
        Working::say("balusters")
    }),
    entry!("guard" "handrail" Gives::Word(&["yes", "no"]), "whether its top serves as the handrail", "handrail as stated, else no", "what is not drawn is not there", |w, id| {
        w.stated_or(id, "handrail", "no")
    }),
    entry!("guard" "fewest balusters" NUMBER, "that keep every gap under 4 in", "smallest count with (between posts - count x baluster width) / (count + 1) < 4\"", GEOMETRY, |w, id| {
        let clear = w.number(id, "between posts")?;
        let width = w.number(id, "baluster width")?;
        let needed = ((clear - SPHERE) / (width + SPHERE) + 1e-9).floor() + 1.0;
        Working::plain(needed.max(0.0))
    }),
    entry!("guard" "triangle opening" LENGTH, "the largest sphere in the triangle of riser, tread and bottom rail",
        "(R + T - L) x (1 + (bottom gap + nosing x R / L) x L / (R x T)), with R the largest of risers, T the largest of runs, L = sqrt(R^2 + T^2)",
        "inscribed circle of a right triangle; IRC 2021, R312.1.3", |w, id| {
        let flight = w.flight_of(id)?;
        if w.word(flight, "riser faces")? == "open" {
            return Err(Missing::outside(id, Method::ClosedRisers));
        }
        let gap = w.number(id, "bottom gap")?;
        let rise = largest(w, flight, "risers")?;
        let run = largest(w, flight, "runs")?;
        let mut nosing: f64 = 0.0;
        for tread in w.design.belonging("tread", flight) {
            nosing = nosing.max(w.number(tread, "nosing")?);
        }
        let line = rise.hypot(run);
        let height = rise * run / line;
        // The riser face stands `nosing` behind the line of the nosings, which lets the sphere in further.
        w.length((rise + run - line) * (1.0 + (gap + nosing * rise / line) / height))
    }),
];

/// The widest opening within the infill.
fn infill_opening(w: &Working<'_>, id: Id) -> Result<f64, Missing> {
    match w.word(id, "infill")?.as_ref() {
        "solid" => return Ok(0.0),
        // Nothing between the posts: the opening is as high as the guard.
        "open" => return w.number(id, "height"),
        _ => {}
    }
    let gap = w.number(id, "baluster gap")?;
    let ends = ["end gap", "between posts"].iter().any(|name| w.design.stated(id, name).is_some());
    let end = if ends { w.number(id, "end gap")? } else { gap };
    Ok(gap.max(end))
}

/// How high the infill reaches, and the widest opening above it, where it stops short of the top.
fn top_gap(w: &Working<'_>, id: Id) -> Result<Option<(f64, f64)>, Missing> {
    if ["infill to", "top gap"].iter().all(|name| w.design.stated(id, name).is_none()) {
        return Ok(None);
    }
    Ok(Some((w.number(id, "infill to")?, w.number(id, "top gap")?)))
}

fn landing_of(w: &Working<'_>, id: Id) -> Option<Id> {
    w.design.get(id).and_then(|guard| guard.serves).filter(|place| w.design.kind(*place) == "landing")
}

fn balusters(w: &Working<'_>, id: Id) -> Result<Balusters, Missing> {
    match w.value(id, "balusters")? {
        Value::Balusters(balusters) => Ok(*balusters),
        _ => Err(w.missing(id, "balusters")),
    }
}
