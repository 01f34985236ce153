//! One riser, one tread, and the boards that make them.

use super::custom::CustomId;
use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, number, word};
use super::flight::{FOOT, UNIT_RISE};
use super::formula::Formula::{self, Asks, Each, Item, List, Minus, Plus, Section, Stated};
use super::formula::{Derive, Fold, Nth, Of, Things, Way};
use super::missing::{Drawing, Missing, Statement};
use super::place::deepest;
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use crate::model::{Edge, Id, Value, kinds, properties};

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
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Formula(&Item(Of::FlightOfStep, properties::RISERS, Nth::OfStep)),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "elevation",
        gives: LENGTH,
        help: "of its top above the foot of the stair",
        source: GEOMETRY,
        derive: Derive::Formula(ELEVATION),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "height above ground",
        gives: LENGTH,
        help: "of its top above the lowest floor or ground below it",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Formula(&Plus(
            &Asks(Of::This, || RISER_ELEVATION),
            &Each(Fold::Largest, LOWER_GROUNDS, &Stated(Of::This, properties::BELOW)),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER_BAR,
        name: "room above",
        gives: LENGTH,
        help: "between its top and the board above it, where that is least; less than nothing where it would stand in that",
        formula: "the least height - board thickness above of the risers of its flight - below - the larger way of section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let top = w.number(id, properties::BELOW)? + w.section(id)?.depth;
            let mut least: Option<f64> = None;
            for riser in w.things(kinds::RISER, w.flight_of(id)?)? {
                let here = w.number(riser, HEIGHT)? - thickness_above(w, riser)?;
                least = Some(least.map_or(here, |least| least.min(here)));
            }
            w.length(least.ok_or_else(|| w.missing(id, properties::RISERS))? - top)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "opening",
        gives: LENGTH,
        help: "between the tread below, or the riser board on it, and the board above; of what bars part, the widest",
        formula: "height - board thickness above - board height of the riser board; behind the tread, what of \
            it stands above the tread; with bars, the largest of what they leave below, between and above",
        source: "IRC 2021, R311.7.5.1",
        cure: Some(kinds::RISER_BOARD),
        derive: Derive::Whole(|w, id| {
            let board = riser_board(w, w.parent(id))?;
            let height = w.number(id, HEIGHT)?;
            let closed = board.map_or(Ok(0.0), |board| closed_by(w, id, board, height))?;
            if closed >= height {
                return w.length(0.0);
            }
            let top = height - thickness_above(w, id)?;
            let (mut at, mut widest) = (closed, 0.0_f64);
            for (below, above) in bars(w, w.parent(id))? {
                widest = widest.max(below.min(top) - at);
                at = at.max(above);
            }
            w.length(widest.max(top - at))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER,
        name: "opening above ground",
        gives: LENGTH,
        help: "of the top of its opening above the lowest floor or ground below it",
        formula: "height above ground - board thickness above",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Whole(|w, id| {
            let top = w.number(id, HEIGHT_ABOVE_GROUND)?;
            w.length(top - thickness_above(w, id)?)
        }),
        ..ROW
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
        source: "IRC 2021, R311.7.5.2",
        derive: Derive::Formula(&Item(Of::MadeBy, properties::RUNS, Nth::OfStep)),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "elevation",
        gives: LENGTH,
        help: "of its surface above the foot of the stair",
        source: GEOMETRY,
        derive: Derive::Formula(ELEVATION),
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
            if w.looked_up(id, properties::NOSING).is_some() {
                return Ok(Datum::Measure(w.item_for(id, id, properties::NOSING)?));
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
        source: GEOMETRY,
        derive: Derive::Formula(&Minus(&Minus(&Asks(Of::This, || BOARD_DEPTH), &Asks(Of::This, || RUN)), RISER_BOARD)),
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
            if w.looked_up(id, properties::BOARDS).is_none() {
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
        name: "board count",
        gives: NUMBER,
        help: "how many boards side by side",
        formula: "boards as stated, else one",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::BOARDS).is_none() {
                w.custom(CustomId::ONE_BOARD, id);
                return number(1.0);
            }
            w.datum(id, properties::BOARDS)
        }),
        ..ROW
    },
    // A board may lean for its whole height, from the underside of the tread above it down.
    Quantity {
        kind: kinds::TREAD,
        name: "set back",
        gives: LENGTH,
        help: "how far a riser board that leans stands behind the front edge above it, at its foot, at the least; \
            nothing where there is none",
        formula: "(height of the riser below - board thickness) x tan(lean of the riser board)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let flight = w.made_for(id, properties::RUNS)?;
            let Some(board) = riser_board(w, flight)? else { return w.length(0.0) };
            let lean = w.number(board, properties::LEAN)?.to_radians();
            let riser = w.step_of(flight, kinds::RISER, w.step(id));
            let height = w.number(riser.ok_or_else(|| w.missing(flight, properties::RISERS))?, HEIGHT)?;
            w.length((height - w.number(id, BOARD_THICKNESS)?).max(0.0) * lean.tan())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "board depth needed",
        gives: LENGTH,
        help: "that the run and the nosing ask for",
        source: GEOMETRY,
        derive: Derive::Formula(&Plus(
            &Plus(&Asks(Of::This, || RUN), &Item(Of::This, properties::NOSING, Nth::OfStep)),
            RISER_BOARD,
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "board thickness",
        gives: LENGTH,
        help: "of one board",
        source: "PS 20 for nominal sizes",
        derive: Derive::Formula(&Section(Way::Smaller)),
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
        formula: "(length - length of the strip) / 2; nothing where there is none",
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
        formula: "as stated in edge, else none",
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
        formula: "as stated in edge, else none",
        source: "IRC 2021, R311.7.5.3",
        derive: Derive::Whole(|w, id| match w.value(id, properties::EDGE)? {
            Value::Edge(Edge::Bevel(bevel)) => Ok(Datum::Measure(*bevel)),
            _ => w.length(0.0),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest beside it to the lowest ground so far out, at a side that no wall closes",
        formula: "largest of elevation + below + so far out x slope at each side that no wall closes",
        source: "IRC 2021, R312.1.1",
        derive: Derive::At(|w, id, reach| {
            w.made_for(id, properties::RUNS)?;
            deepest(w, id, false, reach)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "unguarded drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest to the lowest ground so far out, at a side with neither wall nor guard",
        formula: "largest of elevation + below + so far out x slope at each side with neither wall nor guard",
        source: "IRC 2021, R312.1.1",
        cure: Some(kinds::GUARD),
        derive: Derive::At(|w, id, reach| {
            w.made_for(id, properties::RUNS)?;
            deepest(w, id, true, reach)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER_BOARD,
        name: "board height",
        gives: LENGTH,
        help: "as it measures",
        source: "PS 20 for nominal sizes",
        derive: Derive::Formula(&Section(Way::Larger)),
        ..ROW
    },
    Quantity {
        kind: kinds::RISER_BOARD,
        // One board for all risers: the mean halves what it misses of an uneven flight, which its own rules hold.
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
            let tread = w.step_of(flight, kinds::TREAD, 0).ok_or_else(|| w.missing(flight, properties::RUNS))?;
            w.length(rise - w.number(tread, BOARD_THICKNESS)?)
        }),
        ..ROW
    },
];

const HEIGHT: &Quantity = row(QUANTITIES, kinds::RISER, "height");
const HEIGHT_ABOVE_GROUND: &Quantity = row(QUANTITIES, kinds::RISER, "height above ground");
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

/// What closes the risers of a flight, where it is drawn once: of two that differ nobody said which.
fn riser_board(w: &Evaluation<'_>, flight: Id) -> Result<Option<Id>, Missing> {
    let mut boards = w.things(kinds::RISER_BOARD, flight)?;
    match (boards.next(), boards.next()) {
        (board, None) => Ok(board),
        _ => Err(Missing::drawing(flight, Drawing::TheOne(kinds::RISER_BOARD))),
    }
}

/// What a riser board closes of a riser from the tread below it up. One behind the tread begins at its underside.
fn closed_by(w: &Evaluation<'_>, riser: Id, board: Id, height: f64) -> Result<f64, Missing> {
    let depth = w.section(board)?.depth;
    if w.word(board, properties::STANDS)? == "on tread" {
        return Ok(depth);
    }
    // Below the lowest riser there is no tread.
    let Some(below) = w.step(riser).checked_sub(1) else { return Ok(depth) };
    let flight = w.parent(riser);
    let below = w.step_of(flight, kinds::TREAD, below).ok_or_else(|| w.missing(flight, properties::RUNS))?;
    let thickness = w.number(below, BOARD_THICKNESS)?;
    Ok(if depth < height + thickness { depth - thickness } else { depth })
}

/// Where the bars across the risers of a flight begin and end above the tread below them, the lowest first.
fn bars(w: &Evaluation<'_>, flight: Id) -> Result<Vec<(f64, f64)>, Missing> {
    let mut bars = Vec::new();
    for bar in w.things(kinds::RISER_BAR, flight)? {
        let below = w.number(bar, properties::BELOW)?;
        bars.push((below, below + w.section(bar)?.depth));
    }
    bars.sort_by(|one, other| one.0.total_cmp(&other.0));
    Ok(bars)
}

/// Of the tread or the landing that lies over a riser.
fn thickness_above(w: &Evaluation<'_>, riser: Id) -> Result<f64, Missing> {
    let flight = w.parent(riser);
    match w.step_of(flight, kinds::TREAD, w.step(riser)) {
        Some(tread) => w.number(tread, BOARD_THICKNESS),
        // Only over the last riser lies no tread, whatever is stated of the runs.
        None if w.step_of(flight, kinds::RISER, w.step(riser) + 1).is_some() => {
            Err(w.missing(flight, properties::RUNS))
        }
        None => w.number(landing_above(w, flight)?, properties::THICKNESS),
    }
}

/// Of a riser's top, or of the tread that lies on it.
const ELEVATION: &Formula = &Plus(&Asks(Of::MadeBy, || FOOT), &List(Fold::SumUpToStep, Of::MadeBy, properties::RISERS));

const LOWER_GROUNDS: &Things = &Things {
    text: "each ground",
    walk: |w, _, visit| {
        let mut grounds = w.trace(|| w.things(kinds::GROUND, 0)).0?.peekable();
        if grounds.peek().is_none() {
            w.custom(CustomId::LEVEL_GROUND, 0);
        }
        grounds.try_for_each(visit)
    },
};

/// What the riser board takes of the tread it stands on.
const RISER_BOARD: &Formula = &Each(Fold::One, RISER_BOARD_ON, &Section(Way::Smaller));

const RISER_BOARD_ON: &Things = &Things {
    text: "any riser board on it",
    walk: |w, tread, visit| {
        // Which board it is does not decide; that one may stand there unread does.
        let Some(board) = w.trace(|| riser_board(w, w.parent(tread))).0? else { return Ok(()) };
        if w.word(board, properties::STANDS)? == "behind tread" {
            return Ok(());
        }
        visit(board)
    },
};

/// The landing that a flight comes up to.
pub(super) fn landing_above(w: &Evaluation<'_>, flight: Id) -> Result<Id, Missing> {
    let named = |id: Id, name: &str| w.design.get(id).and_then(|element| element.name.as_deref()) == Some(name);
    let above = |landing: &Id| (*landing > flight || named(*landing, "top")) && !named(*landing, "bottom");
    let landing = w.design.of_kind(kinds::LANDING).find(above);
    landing.ok_or_else(|| Missing::drawing(flight, Drawing::LandingAbove))
}

/// The landing that a flight rises from.
pub(super) fn landing_below(w: &Evaluation<'_>, flight: Id) -> Result<Id, Missing> {
    let named = |id: Id, name: &str| w.design.get(id).and_then(|element| element.name.as_deref()) == Some(name);
    let below = |landing: &Id| (*landing < flight || named(*landing, "bottom")) && !named(*landing, "top");
    // The nearest below it; that at the foot of the stair may be drawn anywhere.
    let lower = |landing: &Id| if named(*landing, "bottom") { 0 } else { *landing };
    let landing = w.design.of_kind(kinds::LANDING).filter(below).max_by_key(lower);
    landing.ok_or_else(|| Missing::drawing(flight, Drawing::LandingBelow))
}
