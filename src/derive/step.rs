//! One riser, one tread, and the boards that make them.

use super::missing::{Drawing, Missing, Statement};
use super::place::deepest;
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::working::{Datum, Derived, LEVEL_GROUND, ONE_BOARD, Working};
use crate::model::{Edge, Id, Value};

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("riser" "index" NUMBER, "which one, from 1 at the bottom", "as counted from the bottom", GEOMETRY, index),
    entry!("riser" "height" LENGTH, "finish to finish", "as stated in risers", "IRC 2021, R311.7.5.1", |w, id| {
        Ok(Datum::Measure(w.item(w.parent(id), "risers", w.step(id))?))
    }),
    entry!("riser" "elevation" LENGTH, "of its top above the foot of the stair", "foot + sum of risers up to this one", GEOMETRY, elevation),
    entry!("riser" "height above ground" LENGTH, "of its top above the lowest floor or ground below it", "elevation + the deepest below of the ground, at either side", "IRC 2021, R311.7.5.1", |w, id| {
        let elevation = w.number(id, "elevation")?;
        let (mut deepest, mut drawn) = (0.0_f64, false);
        for ground in w.design.of_kind("ground") {
            drawn = true;
            if w.design.stated(ground, "below").is_some() {
                deepest = deepest.max(w.number(ground, "below")?);
            }
        }
        if !drawn {
            w.custom(LEVEL_GROUND, 0);
        }
        w.length(elevation + deepest)
    }),
    entry!("riser" "opening" LENGTH, "between the tread below and the board above; none behind a riser board", "height - board thickness above", "IRC 2021, R311.7.5.1", |w, id| {
        let flight = w.parent(id);
        if w.word(flight, "riser faces")? == "closed" {
            return w.length(0.0);
        }
        let height = w.number(id, "height")?;
        let above = step_of(w, flight, "tread", w.step(id));
        let board = match above {
            Some(tread) => w.number(tread, "board thickness")?,
            None => w.number(landing_above(w, flight)?, "thickness")?,
        };
        w.length((height - board).max(0.0))
    }, cure "riser board"),
    entry!("tread" "index" NUMBER, "which one, from 1 at the bottom", "as counted from the bottom", GEOMETRY, index),
    entry!("tread" "run" LENGTH, "front edge to the next front edge, level", "as stated in runs", "IRC 2021, R311.7.5.2", |w, id| {
        let flight = made_for(w, id, "runs")?;
        Ok(Datum::Measure(w.item(flight, "runs", w.step(id))?))
    }),
    entry!("tread" "elevation" LENGTH, "of its surface above the foot of the stair", "foot + sum of risers up to this one", GEOMETRY, elevation),
    entry!("tread" "nosing" LENGTH, "front edge past the face of the riser below", "nosing as stated, else nosing from the boards", "IRC 2021, R311.7.5.3", |w, id| {
        if w.design.stated(id, "nosing").is_some() {
            return Ok(Datum::Measure(w.item(id, "nosing", w.step(id))?));
        }
        // Either would settle it; the nosing is the one to ask for.
        let derived = w.number(id, "nosing from the boards").map_err(|_| w.missing(id, "nosing"))?;
        w.length(derived)
    }),
    entry!("tread" "nosing from the boards" LENGTH, "the nosing that the boards leave", "board depth - run - riser board", GEOMETRY, |w, id| {
        let depth = w.number(id, "board depth")?;
        let run = w.number(id, "run")?;
        w.length(depth - run - riser_board_on(w, id)?)
    }),
    entry!("tread" "board depth" LENGTH, "of the tread's boards and the gaps between them", "boards x section + (boards - 1) x gap", GEOMETRY, |w, id| {
        let depth = w.section(id)?.depth;
        if w.design.stated(id, "boards").is_none() {
            w.custom(ONE_BOARD, id);
            return w.length(depth);
        }
        let boards = w.number(id, "boards")?;
        let gaps = if boards > 1.0 { (boards - 1.0) * w.number(id, "gap")? } else { 0.0 };
        w.length(boards * depth + gaps)
    }),
    entry!("tread" "board depth needed" LENGTH, "that the run and the nosing ask for", "run + nosing + riser board", GEOMETRY, |w, id| {
        let run = w.number(id, "run")?;
        let nosing = w.item(id, "nosing", w.step(id))?.value;
        w.length(run + nosing + riser_board_on(w, id)?)
    }),
    entry!("tread" "board thickness" LENGTH, "of one board", "the smaller way of section", "PS 20 for nominal sizes", |w, id| {
        let thickness = w.section(id)?.thickness;
        w.length(thickness)
    }),
    entry!("tread" "grip" Gives::Word(&["yes", "no"]), "whether its finish gives grip when it is wet", "by the words of finish", "common practice", |w, id| {
        let Value::Finish(words, _) = w.value(id, "finish")? else { return Err(w.missing(id, "finish")) };
        let words = words.to_lowercase();
        Working::say(if GRIPS.iter().any(|grips| words.contains(grips)) { "yes" } else { "no" })
    }),
    entry!("tread" "strip margin" LENGTH, "what a grip strip leaves of the board at each end; nothing where there is none", "(length - length of the strip) / 2", "common practice", |w, id| {
        let Value::Finish(words, strip) = w.value(id, "finish")? else { return Err(w.missing(id, "finish")) };
        let words = words.to_lowercase();
        // Whatever has a length is laid on in a strip.
        if strip.is_none() && !words.contains("strip") && !words.contains("tape") {
            return w.length(0.0);
        }
        let strip = strip.ok_or_else(|| Missing::statement(id, Statement::LengthOfStrip))?.value;
        let length = w.number(id, "length")?;
        w.length((length - strip) / 2.0)
    }),
    entry!("tread" "edge radius" LENGTH, "of its front edge; none if not rounded", "as stated in edge", "IRC 2021, R311.7.5.3", |w, id| {
        match w.value(id, "edge")? {
            Value::Edge(Edge::Radius(radius)) => Ok(Datum::Measure(*radius)),
            _ => w.length(0.0),
        }
    }),
    entry!("tread" "edge bevel" LENGTH, "of its front edge; none if not bevelled", "as stated in edge", "IRC 2021, R311.7.5.3", |w, id| {
        match w.value(id, "edge")? {
            Value::Edge(Edge::Bevel(bevel)) => Ok(Datum::Measure(*bevel)),
            _ => w.length(0.0),
        }
    }),
    entry!("tread" "drop" LENGTH, "the deepest beside it, at a side that no wall closes", "elevation + below + 36\" x slope", "IRC 2021, R312.1.1", |w, id| {
        made_for(w, id, "runs")?;
        deepest(w, id, false)
    }),
    entry!("tread" "unguarded drop" LENGTH, "the deepest at a side with neither wall nor guard", "elevation + below + 36\" x slope", "IRC 2021, R312.1.1", |w, id| {
        made_for(w, id, "runs")?;
        deepest(w, id, true)
    }, cure "guard"),
    entry!("riser board" "board height" LENGTH, "as it measures", "the larger way of section", "PS 20 for nominal sizes", |w, id| {
        let height = w.section(id)?.depth;
        w.length(height)
    }),
    entry!("riser board" "board height needed" LENGTH, "that the riser asks for, on the tread or behind it", "unit rise - board thickness where it stands on the tread", GEOMETRY, |w, id| {
        let flight = w.flight_of(id)?;
        let rise = w.number(flight, "unit rise")?;
        if w.word(id, "stands")? == "behind tread" {
            return w.length(rise);
        }
        let tread = step_of(w, flight, "tread", 0).ok_or_else(|| w.missing(flight, "runs"))?;
        w.length(rise - w.number(tread, "board thickness")?)
    }),
];

/// Words for a finish that grips when it is wet: common practice, no source. Oil, paint and varnish do not.
const GRIPS: &[&str] = &[
    "grip",
    "grit",
    "strip",
    "sand",
    "groove",
    "rib",
    "rough",
    "mesh",
    "non-slip",
    "nonslip",
    "anti-slip",
    "slip-resistant",
];

fn index(w: &Working<'_>, id: Id) -> Derived {
    #[allow(clippy::cast_precision_loss)]
    Working::plain(w.step(id) as f64 + 1.0)
}

fn elevation(w: &Working<'_>, id: Id) -> Derived {
    let flight = made_for(w, id, "runs")?;
    let foot = w.number(flight, "foot")?;
    let risers = w.list(flight, "risers")?;
    w.length(foot + risers.iter().take(w.step(id) + 1).sum::<f64>())
}

/// The flight that a step was made for. A tread block without runs has made none.
pub(super) fn made_for(w: &Working<'_>, id: Id, list: &'static str) -> Result<Id, Missing> {
    let step = w.design.get(id).and_then(|element| element.step);
    match step {
        Some(_) => Ok(w.parent(id)),
        None => Err(match w.design.related(id, "flight") {
            Some(flight) => w.missing(flight, list),
            None => w.not_drawn(id, "flight"),
        }),
    }
}

/// The landing that a flight comes up to.
pub(super) fn landing_above(w: &Working<'_>, flight: Id) -> Result<Id, Missing> {
    let named = |id: Id, name: &str| w.design.get(id).and_then(|element| element.name.as_deref()) == Some(name);
    let above = |landing: &Id| (*landing > flight || named(*landing, "top")) && !named(*landing, "bottom");
    let landing = w.design.of_kind("landing").find(above);
    landing.ok_or_else(|| Missing::drawing(flight, Drawing::LandingAbove))
}

/// The riser or tread of a flight at a step.
pub(super) fn step_of(w: &Working<'_>, flight: Id, kind: &'static str, step: usize) -> Option<Id> {
    w.design.belonging(kind, flight).find(|id| w.design.get(*id).is_some_and(|element| element.step == Some(step)))
}

/// What the riser board takes of the tread it stands on.
fn riser_board_on(w: &Working<'_>, tread: Id) -> Result<f64, Missing> {
    let flight = w.parent(tread);
    // Which board it is does not decide; that one may stand there unread does.
    let boards = w.trace(|| w.things("riser board", flight)).0?;
    let Some(board) = boards.first().copied() else { return Ok(0.0) };
    if w.word(board, "stands")? == "behind tread" {
        return Ok(0.0);
    }
    Ok(w.section(board)?.thickness)
}
