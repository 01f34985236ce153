//! One riser, one tread, and the boards that make them.

use super::custom::CustomId;
use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, number, word};
use super::flight::{FOOT, RISER_FACES, UNIT_RISE};
use super::missing::{Drawing, Missing, Statement};
use super::place::deepest;
use super::quantity::{Derive, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use crate::model::{Edge, Id, Kind, PropertyName, Value, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::RISER,
        name: "index",
        gives: NUMBER,
        help: "which one, from 1 at the bottom",
        formula: "as counted from the bottom",
        source: GEOMETRY,
        derive: Derive::Whole(index),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "height",
        gives: LENGTH,
        help: "finish to finish",
        formula: "as stated in risers",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Whole(|w, id| Ok(Datum::Measure(w.item(w.parent(id), properties::RISERS, w.step(id))?))),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "elevation",
        gives: LENGTH,
        help: "of its top above the foot of the stair",
        formula: "foot + sum of risers up to this one",
        source: GEOMETRY,
        derive: Derive::Whole(elevation),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "height above ground",
        gives: LENGTH,
        help: "of its top above the lowest floor or ground below it",
        formula: "elevation + the deepest below of the ground, at either side",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Whole(|w, id| {
            let elevation = w.number(id, RISER_ELEVATION)?;
            let (mut deepest, mut drawn) = (0.0_f64, false);
            for ground in w.design.of_kind(kinds::GROUND) {
                drawn = true;
                if w.design.stated(ground, properties::BELOW).is_some() {
                    deepest = deepest.max(w.number(ground, properties::BELOW)?);
                }
            }
            if !drawn {
                w.custom(CustomId::LEVEL_GROUND, 0);
            }
            w.length(elevation + deepest)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "opening",
        gives: LENGTH,
        help: "between the tread below and the board above; none behind a riser board",
        formula: "height - board thickness above",
        source: "IRC 2021, R311.7.5.1",
        cure: Some(kinds::RISER_BOARD),
        derive: Derive::Whole(|w, id| {
            let flight = w.parent(id);
            if w.word(flight, RISER_FACES)? == "closed" {
                return w.length(0.0);
            }
            let height = w.number(id, HEIGHT)?;
            let above = step_of(w, flight, kinds::TREAD, w.step(id));
            let board = match above {
                Some(tread) => w.number(tread, BOARD_THICKNESS)?,
                None => w.number(landing_above(w, flight)?, properties::THICKNESS)?,
            };
            w.length((height - board).max(0.0))
        }),
    },
    Quantity {
        kind: kinds::TREAD,
        name: "index",
        gives: NUMBER,
        help: "which one, from 1 at the bottom",
        formula: "as counted from the bottom",
        source: GEOMETRY,
        derive: Derive::Whole(index),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "run",
        gives: LENGTH,
        help: "front edge to the next front edge, level",
        formula: "as stated in runs",
        source: "IRC 2021, R311.7.5.2",
        derive: Derive::Whole(|w, id| {
            let flight = made_for(w, id, properties::RUNS)?;
            Ok(Datum::Measure(w.item(flight, properties::RUNS, w.step(id))?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "elevation",
        gives: LENGTH,
        help: "of its surface above the foot of the stair",
        formula: "foot + sum of risers up to this one",
        source: GEOMETRY,
        derive: Derive::Whole(elevation),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "nosing",
        gives: LENGTH,
        help: "front edge past the face of the riser below",
        formula: "nosing as stated, else nosing from the boards",
        source: "IRC 2021, R311.7.5.3",
        derive: Derive::Whole(|w, id| {
            if w.design.stated(id, properties::NOSING).is_some() {
                return Ok(Datum::Measure(w.item(id, properties::NOSING, w.step(id))?));
            }
            // Either would settle it; the nosing is the one to ask for.
            let derived = w.number(id, NOSING_FROM_THE_BOARDS).map_err(|_| w.missing(id, properties::NOSING))?;
            w.length(derived)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "nosing from the boards",
        gives: LENGTH,
        help: "the nosing that the boards leave",
        formula: "board depth - run - riser board",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let depth = w.number(id, BOARD_DEPTH)?;
            let run = w.number(id, RUN)?;
            w.length(depth - run - riser_board_on(w, id)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "board depth",
        gives: LENGTH,
        help: "of the tread's boards and the gaps between them",
        formula: "boards x section + (boards - 1) x gap",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let depth = w.section(id)?.depth;
            if w.design.stated(id, properties::BOARDS).is_none() {
                w.custom(CustomId::ONE_BOARD, id);
                return w.length(depth);
            }
            let boards = w.number(id, properties::BOARDS)?;
            let gaps = if boards > 1.0 { (boards - 1.0) * w.number(id, properties::GAP)? } else { 0.0 };
            w.length(boards * depth + gaps)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "board depth needed",
        gives: LENGTH,
        help: "that the run and the nosing ask for",
        formula: "run + nosing + riser board",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let run = w.number(id, RUN)?;
            let nosing = w.item(id, properties::NOSING, w.step(id))?.value;
            w.length(run + nosing + riser_board_on(w, id)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "board thickness",
        gives: LENGTH,
        help: "of one board",
        formula: "the smaller way of section",
        source: "PS 20 for nominal sizes",
        derive: Derive::Whole(|w, id| {
            let thickness = w.section(id)?.thickness;
            w.length(thickness)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "grip",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether its finish gives grip when it is wet",
        formula: "by the words of finish",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let Value::Finish(finish) = w.value(id, properties::FINISH)? else {
                return Err(w.missing(id, properties::FINISH));
            };
            word(if finish.grips() { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "strip margin",
        gives: LENGTH,
        help: "what a grip strip leaves of the board at each end; nothing where there is none",
        formula: "(length - length of the strip) / 2",
        source: "common practice",
        derive: Derive::Whole(|w, id| {
            let Value::Finish(finish) = w.value(id, properties::FINISH)? else {
                return Err(w.missing(id, properties::FINISH));
            };
            if !finish.has_strip() {
                return w.length(0.0);
            }
            let strip = finish.strip.ok_or_else(|| Missing::statement(id, Statement::LengthOfStrip))?.value;
            let length = w.number(id, properties::LENGTH)?;
            w.length((length - strip) / 2.0)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "edge radius",
        gives: LENGTH,
        help: "of its front edge; none if not rounded",
        formula: "as stated in edge",
        source: "IRC 2021, R311.7.5.3",
        derive: Derive::Whole(|w, id| match w.value(id, properties::EDGE)? {
            Value::Edge(Edge::Radius(radius)) => Ok(Datum::Measure(*radius)),
            _ => w.length(0.0),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "edge bevel",
        gives: LENGTH,
        help: "of its front edge; none if not bevelled",
        formula: "as stated in edge",
        source: "IRC 2021, R311.7.5.3",
        derive: Derive::Whole(|w, id| match w.value(id, properties::EDGE)? {
            Value::Edge(Edge::Bevel(bevel)) => Ok(Datum::Measure(*bevel)),
            _ => w.length(0.0),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "drop",
        gives: LENGTH,
        help: "the deepest beside it, at a side that no wall closes",
        formula: "elevation + below + 36\" x slope",
        source: "IRC 2021, R312.1.1",
        derive: Derive::Whole(|w, id| {
            made_for(w, id, properties::RUNS)?;
            deepest(w, id, false)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "unguarded drop",
        gives: LENGTH,
        help: "the deepest at a side with neither wall nor guard",
        formula: "elevation + below + 36\" x slope",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::Whole(|w, id| {
            made_for(w, id, properties::RUNS)?;
            deepest(w, id, true)
        }),
    },
    Quantity {
        kind: kinds::RISER_BOARD,
        name: "board height",
        gives: LENGTH,
        help: "as it measures",
        formula: "the larger way of section",
        source: "PS 20 for nominal sizes",
        derive: Derive::Whole(|w, id| {
            let height = w.section(id)?.depth;
            w.length(height)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER_BOARD,
        name: "board height needed",
        gives: LENGTH,
        help: "that the riser asks for, on the tread or behind it",
        formula: "unit rise - board thickness where it stands on the tread",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let rise = w.number(flight, UNIT_RISE)?;
            if w.word(id, properties::STANDS)? == "behind tread" {
                return w.length(rise);
            }
            let tread = step_of(w, flight, kinds::TREAD, 0).ok_or_else(|| w.missing(flight, properties::RUNS))?;
            w.length(rise - w.number(tread, BOARD_THICKNESS)?)
        }),
        ..ROW
    },
];

const HEIGHT: &Quantity = row(QUANTITIES, kinds::RISER, "height");
const RISER_ELEVATION: &Quantity = row(QUANTITIES, kinds::RISER, "elevation");
pub(super) const RUN: &Quantity = row(QUANTITIES, kinds::TREAD, "run");
pub(super) const TREAD_ELEVATION: &Quantity = row(QUANTITIES, kinds::TREAD, "elevation");
pub(super) const NOSING: &Quantity = row(QUANTITIES, kinds::TREAD, "nosing");
const NOSING_FROM_THE_BOARDS: &Quantity = row(QUANTITIES, kinds::TREAD, "nosing from the boards");
const BOARD_DEPTH: &Quantity = row(QUANTITIES, kinds::TREAD, "board depth");
pub(super) const BOARD_THICKNESS: &Quantity = row(QUANTITIES, kinds::TREAD, "board thickness");

fn index(w: &Evaluation<'_>, id: Id) -> Derived {
    #[allow(clippy::cast_precision_loss)]
    number(w.step(id) as f64 + 1.0)
}

fn elevation(w: &Evaluation<'_>, id: Id) -> Derived {
    let flight = made_for(w, id, properties::RUNS)?;
    let foot = w.number(flight, FOOT)?;
    let risers = w.list(flight, properties::RISERS)?;
    w.length(foot + values(risers).take(w.step(id) + 1).sum::<f64>())
}

/// The flight that a step was made for. A tread block without runs has made none.
pub(super) fn made_for(w: &Evaluation<'_>, id: Id, list: PropertyName) -> Result<Id, Missing> {
    let step = w.design.get(id).and_then(|element| element.step);
    match step {
        Some(_) => Ok(w.parent(id)),
        None => Err(match w.design.related(id, kinds::FLIGHT) {
            Some(flight) => w.missing(flight, list),
            None => w.not_drawn(id, kinds::FLIGHT),
        }),
    }
}

/// The landing that a flight comes up to.
pub(super) fn landing_above(w: &Evaluation<'_>, flight: Id) -> Result<Id, Missing> {
    let named = |id: Id, name: &str| w.design.get(id).and_then(|element| element.name.as_deref()) == Some(name);
    let above = |landing: &Id| (*landing > flight || named(*landing, "top")) && !named(*landing, "bottom");
    let landing = w.design.of_kind(kinds::LANDING).find(above);
    landing.ok_or_else(|| Missing::drawing(flight, Drawing::LandingAbove))
}

/// The riser or tread of a flight at a step.
pub(super) fn step_of(w: &Evaluation<'_>, flight: Id, kind: &'static Kind, step: usize) -> Option<Id> {
    w.design.belonging(kind, flight).find(|id| w.design.get(*id).is_some_and(|element| element.step == Some(step)))
}

/// What the riser board takes of the tread it stands on.
fn riser_board_on(w: &Evaluation<'_>, tread: Id) -> Result<f64, Missing> {
    let flight = w.parent(tread);
    // Which board it is does not decide; that one may stand there unread does.
    let mut boards = w.trace(|| w.things(kinds::RISER_BOARD, flight)).0?;
    let Some(board) = boards.next() else { return Ok(0.0) };
    if w.word(board, properties::STANDS)? == "behind tread" {
        return Ok(0.0);
    }
    Ok(w.section(board)?.thickness)
}
