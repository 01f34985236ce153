//! A flight: its sums, its pitch, its evenness, and the width that is left between the rails.

use super::custom::CustomId;
use super::evaluation::{Evaluation, number, word};
use super::formula::Formula::{
    ArcTangent, Asks, AsksAt, Count, Each, List, Minus, Otherwise, Plus, Root, Square, Stated,
};
use super::formula::{Derive, Fold, Of, Things, Visit};
use super::handrail::PROJECTION;
use super::missing::Missing;
use super::place::all;
use super::quantity::{ANGLE, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use super::step::{self, landing_above};
use super::winder::{DEPTH_AT, SHAPE, wound_twice};
use crate::model::{Id, Side, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::FLIGHT,
        name: "rise",
        gives: LENGTH,
        help: "plumb, from its foot to its head",
        source: GEOMETRY,
        derive: Derive::Formula(&List(Fold::Sum, Of::This, properties::RISERS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "run",
        gives: LENGTH,
        help: "level, first front edge to the edge of the floor above",
        source: GEOMETRY,
        derive: Derive::Formula(&List(Fold::Sum, Of::This, properties::RUNS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "foot",
        gives: LENGTH,
        help: "of its foot above the foot of the stair",
        source: GEOMETRY,
        derive: Derive::Formula(&Each(Fold::Sum, FLIGHTS_BELOW, &Asks(Of::This, || RISE))),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unit rise",
        gives: LENGTH,
        help: "one riser, if all were alike",
        source: GEOMETRY,
        derive: Derive::Formula(&List(Fold::Mean, Of::This, properties::RISERS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unit run",
        gives: LENGTH,
        help: "one run, if all were alike; winders left out where there are others",
        formula: "mean of runs, winders left out where there are others",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let runs = w.list(id, properties::RUNS)?;
            if runs.is_empty() {
                return Err(w.missing(id, properties::RUNS));
            }
            let mut straight = Vec::new();
            for (tread, run) in treads(w, id)?.zip(values(runs)) {
                if w.word(tread, SHAPE)? == "rectangular" {
                    straight.push(run);
                }
            }
            w.length(if straight.is_empty() { mean(values(runs)) } else { mean(straight.into_iter()) })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "pitch",
        gives: ANGLE,
        help: "of the line of the nosings from level",
        source: GEOMETRY,
        derive: Derive::Formula(&ArcTangent(
            &List(Fold::SumAfterFirst, Of::This, properties::RISERS),
            &List(Fold::Sum, Of::This, properties::RUNS),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "nosing line",
        gives: LENGTH,
        help: "from nosing to nosing along the pitch",
        source: GEOMETRY,
        derive: Derive::Formula(&Root(&Plus(
            &Square(&Asks(Of::This, || UNIT_RISE)),
            &Square(&Asks(Of::This, || UNIT_RUN)),
        ))),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "riser spread",
        gives: LENGTH,
        help: "largest riser less smallest",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Formula(&List(Fold::Spread, Of::This, properties::RISERS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "run spread",
        gives: LENGTH,
        help: "largest run less smallest, winders left out",
        source: "IRC 2021, R311.7.5.2",
        derive: Derive::Formula(&Each(Fold::Spread, RECTANGULAR_TREADS, &Asks(Of::This, || step::RUN))),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "riser count",
        gives: NUMBER,
        help: "how many it has",
        source: GEOMETRY,
        derive: Derive::Formula(&List(Fold::Count, Of::This, properties::RISERS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "winder count",
        gives: NUMBER,
        help: "how many of its treads taper",
        source: GEOMETRY,
        derive: Derive::Formula(&Count(WINDING_TREADS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "treads wound twice",
        gives: NUMBER,
        help: "how many of its treads more than one block of winders counts",
        formula: "treads that lie between from tread and to tread of more than one",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            #[allow(clippy::cast_precision_loss)]
            number(wound_twice(w, id)? as f64)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "winder spread at",
        gives: LENGTH,
        help: "largest depth of its winders less smallest, so far from the narrow side",
        source: "IRC 2021, R311.7.5.2.1",
        derive: Derive::FormulaAt(&Each(Fold::Spread, WINDING_TREADS, &AsksAt(Of::This, || DEPTH_AT))),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "nosing spread",
        gives: LENGTH,
        help: "largest nosing less smallest, that of the landing above among them",
        formula: "largest nosing - smallest nosing",
        source: "IRC 2021, R311.7.5.3",
        derive: Derive::Whole(|w, id| {
            let mut nosings = Vec::new();
            for tread in w.design.belonging(kinds::TREAD, id) {
                nosings.push(w.number(tread, step::NOSING)?);
            }
            match landing_above(w, id) {
                Ok(landing) if w.looked_up(landing, properties::NOSING).is_some() => {
                    nosings.push(w.number(landing, properties::NOSING)?)
                }
                _ => {
                    // A block that was not understood may be that landing.
                    let _ = w.things(kinds::LANDING, 0)?;
                    w.custom(CustomId::EVEN_NOSING, id)
                }
            }
            w.length(range(nosings.into_iter()))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "width at the rails",
        gives: LENGTH,
        help: "clear width less what handrails take of it; of several at one side the one that takes most",
        source: "IRC 2021, R311.7.1",
        derive: Derive::Formula(&Minus(
            &Stated(Of::This, properties::WIDTH),
            &Each(Fold::Sum, WIDEST_HANDRAILS, &Asks(Of::This, || PROJECTION)),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "spiral",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it goes round a pole",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::SPIRAL, "no")),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "ship",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it is a ship stair",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::SHIP, "no")),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "riser faces",
        gives: Gives::Word(&["open", "closed"]),
        help: "whether boards close the risers",
        formula: "closed where a riser board is drawn",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| {
            word(if w.things(kinds::RISER_BOARD, id)?.next().is_none() { "open" } else { "closed" })
        }),
        ..ROW
    },
];

pub(super) const RISE: &Quantity = row(QUANTITIES, kinds::FLIGHT, "rise");
pub(super) const PITCH: &Quantity = row(QUANTITIES, kinds::FLIGHT, "pitch");
pub(super) const RUN: &Quantity = row(QUANTITIES, kinds::FLIGHT, "run");
pub(super) const FOOT: &Quantity = row(QUANTITIES, kinds::FLIGHT, "foot");
pub(super) const UNIT_RISE: &Quantity = row(QUANTITIES, kinds::FLIGHT, "unit rise");
pub(super) const UNIT_RUN: &Quantity = row(QUANTITIES, kinds::FLIGHT, "unit run");
pub(super) const WIDTH_AT_THE_RAILS: &Quantity = row(QUANTITIES, kinds::FLIGHT, "width at the rails");
pub(super) const SPIRAL: &Quantity = row(QUANTITIES, kinds::FLIGHT, "spiral");
pub(super) const RISER_FACES: &Quantity = row(QUANTITIES, kinds::FLIGHT, "riser faces");

const FLIGHTS_BELOW: &Things = &Things {
    text: "each flight below",
    walk: |w, id, visit| all(w, kinds::FLIGHT, id)?.filter(|below| *below < id).try_for_each(visit),
};

const RECTANGULAR_TREADS: &Things =
    &Things { text: "each rectangular tread", walk: |w, id, visit| shaped(w, id, "rectangular", visit) };

const WINDING_TREADS: &Things = &Things { text: "each winder", walk: |w, id, visit| shaped(w, id, "winder", visit) };

/// A rail at each side that has one, and each in the middle: several at one side are no nearer than one.
pub(super) const RAILED: &Things = &Things {
    text: "each side with a handrail",
    walk: |w, id, visit| by_side(w, id)?.into_iter().filter_map(|rails| rails.first().copied()).try_for_each(visit),
};

const WIDEST_HANDRAILS: &Things = &Things {
    text: "each widest handrail of a side",
    walk: |w, id, visit| {
        let mut missed = None;
        for rails in by_side(w, id)? {
            let mut widest: Option<(Id, f64)> = None;
            for rail in rails {
                match w.number(rail, PROJECTION) {
                    Ok(takes) if widest.is_none_or(|(_, most)| takes > most) => widest = Some((rail, takes)),
                    Ok(_) => {}
                    Err(missing) => missed = w.graver(missed, missing),
                }
            }
            widest.map_or(Ok(()), |(rail, _)| visit(rail))?;
        }
        missed.map_or(Ok(()), Err)
    },
};

/// The handrails of a flight, those of one side together; each of no side stands by itself.
fn by_side(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Vec<Id>>, Missing> {
    let mut sides: Vec<(Option<Side>, Vec<Id>)> = Vec::new();
    for rail in w.things(kinds::HANDRAIL, flight)? {
        let side = w.design.get(rail).and_then(|rail| rail.side);
        match sides.iter_mut().find(|(other, _)| side.is_some() && *other == side) {
            Some((_, rails)) => rails.push(rail),
            None => sides.push((side, vec![rail])),
        }
    }
    Ok(sides.into_iter().map(|(_, rails)| rails).collect())
}

/// Visits the treads of a shape.
fn shaped(w: &Evaluation<'_>, id: Id, shape: &str, visit: Visit<'_>) -> Result<(), Missing> {
    for tread in treads(w, id)? {
        if w.word(tread, SHAPE)? == shape {
            visit(tread)?;
        }
    }
    Ok(())
}

/// The treads; how many there are is not what a number of the flight comes from.
fn treads<'d>(w: &Evaluation<'d>, id: Id) -> Result<impl Iterator<Item = Id> + use<'d>, Missing> {
    w.trace(|| w.things(kinds::TREAD, id)).0
}

fn mean(values: impl ExactSizeIterator<Item = f64>) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let count = values.len().max(1) as f64;
    values.sum::<f64>() / count
}

/// The largest less the smallest; nothing where there are none.
fn range(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let none = values.clone().next().is_none();
    let largest = values.clone().fold(f64::NEG_INFINITY, f64::max);
    let smallest = values.fold(f64::INFINITY, f64::min);
    if none { 0.0 } else { largest - smallest }
}
