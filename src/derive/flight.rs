//! A flight: its sums, its pitch, its evenness, and the width that is left between the rails.

use super::custom::CustomId;
use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, number, word};
use super::handrail::PROJECTION;
use super::missing::Missing;
use super::place::all;
use super::quantity::{ANGLE, Derive, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use super::step::{self, landing_above};
use super::winder::{DEPTH_AT, SHAPE};
use crate::measure::Measure;
use crate::model::{Id, PropertyName, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::FLIGHT,
        name: "rise",
        gives: LENGTH,
        help: "plumb, from its foot to its head",
        formula: "sum of risers",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let rise = values(w.list(id, properties::RISERS)?).sum();
            w.length(rise)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "run",
        gives: LENGTH,
        help: "level, first front edge to the edge of the floor above",
        formula: "sum of runs",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let run = values(w.list(id, properties::RUNS)?).sum();
            w.length(run)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "foot",
        gives: LENGTH,
        help: "of its foot above the foot of the stair",
        formula: "sum of rise of each flight below",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let mut foot = 0.0;
            for below in all(w, kinds::FLIGHT, id)?.into_iter().filter(|below| *below < id) {
                foot += w.number(below, RISE)?;
            }
            w.length(foot)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unit rise",
        gives: LENGTH,
        help: "one riser, if all were alike",
        formula: "mean of risers",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let risers = w.list(id, properties::RISERS)?;
            w.length(mean(values(risers)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unit run",
        gives: LENGTH,
        help: "one run, if all were alike; winders left out where there are others",
        formula: "mean of runs",
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
        formula: "atan((sum of risers - the first) / sum of runs)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            // The first riser stands below the first nosing: n risers, n - 1 runs.
            let risers = w.list(id, properties::RISERS)?;
            let runs = w.list(id, properties::RUNS)?;
            let climbed: f64 = values(risers).skip(1).sum();
            let angle = climbed.atan2(values(runs).sum()).to_degrees();
            Ok(Datum::Measure(Measure::degrees(angle)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "nosing line",
        gives: LENGTH,
        help: "from nosing to nosing along the pitch",
        formula: "sqrt(unit rise^2 + unit run^2)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let rise = w.number(id, UNIT_RISE)?;
            w.length(rise.hypot(w.number(id, UNIT_RUN)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "riser spread",
        gives: LENGTH,
        help: "largest riser less smallest",
        formula: "largest of risers - smallest of risers",
        source: "IRC 2021, R311.7.5.1",
        derive: Derive::Whole(|w, id| spread(w, id, properties::RISERS)),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "run spread",
        gives: LENGTH,
        help: "largest run less smallest, winders left out",
        formula: "largest run - smallest run",
        source: "IRC 2021, R311.7.5.2",
        derive: Derive::Whole(|w, id| {
            let mut runs = Vec::new();
            for tread in treads(w, id)? {
                if w.word(tread, SHAPE)? == "rectangular" {
                    runs.push(w.number(tread, step::RUN)?);
                }
            }
            w.length(range(runs.into_iter()))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "riser count",
        gives: NUMBER,
        help: "how many it has",
        formula: "risers, counted",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            #[allow(clippy::cast_precision_loss)]
            number(w.list(id, properties::RISERS)?.len() as f64)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "winder count",
        gives: NUMBER,
        help: "how many of its treads taper",
        formula: "treads whose shape is winder, counted",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let mut count = 0.0;
            for tread in treads(w, id)? {
                if w.word(tread, SHAPE)? == "winder" {
                    count += 1.0;
                }
            }
            number(count)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "winder spread at",
        gives: LENGTH,
        help: "largest depth of its winders less smallest, so far from the narrow side",
        formula: "largest depth at - smallest depth at",
        source: "IRC 2021, R311.7.5.2.1",
        derive: Derive::At(|w, id, place| {
            let mut depths = Vec::new();
            for tread in treads(w, id)? {
                if w.word(tread, SHAPE)? == "winder" {
                    depths.push(w.number_at(tread, DEPTH_AT, place)?);
                }
            }
            w.length(range(depths.into_iter()))
        }),
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
                Ok(landing) if w.design.stated(landing, properties::NOSING).is_some() => {
                    nosings.push(w.number(landing, properties::NOSING)?)
                }
                _ => w.custom(CustomId::EVEN_NOSING, id),
            }
            w.length(range(nosings.into_iter()))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "width at the rails",
        gives: LENGTH,
        help: "clear width less what each handrail takes of it",
        formula: "width - projection of each handrail",
        source: "IRC 2021, R311.7.1",
        derive: Derive::Whole(|w, id| {
            let mut width = w.number(id, properties::WIDTH)?;
            for rail in w.things(kinds::HANDRAIL, id)? {
                width -= w.number(rail, PROJECTION)?;
            }
            w.length(width)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "spiral",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it goes round a pole",
        formula: "spiral as stated, else no",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| w.stated_or(id, properties::SPIRAL, "no")),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "ship",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it is a ship stair",
        formula: "ship as stated, else no",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| w.stated_or(id, properties::SHIP, "no")),
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
pub(super) const RUN: &Quantity = row(QUANTITIES, kinds::FLIGHT, "run");
pub(super) const FOOT: &Quantity = row(QUANTITIES, kinds::FLIGHT, "foot");
pub(super) const UNIT_RISE: &Quantity = row(QUANTITIES, kinds::FLIGHT, "unit rise");
pub(super) const UNIT_RUN: &Quantity = row(QUANTITIES, kinds::FLIGHT, "unit run");
pub(super) const NOSING_LINE: &Quantity = row(QUANTITIES, kinds::FLIGHT, "nosing line");
pub(super) const WIDTH_AT_THE_RAILS: &Quantity = row(QUANTITIES, kinds::FLIGHT, "width at the rails");
pub(super) const SPIRAL: &Quantity = row(QUANTITIES, kinds::FLIGHT, "spiral");
pub(super) const RISER_FACES: &Quantity = row(QUANTITIES, kinds::FLIGHT, "riser faces");

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
pub(super) fn range(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let none = values.clone().next().is_none();
    let largest = values.clone().fold(f64::NEG_INFINITY, f64::max);
    let smallest = values.fold(f64::INFINITY, f64::min);
    if none { 0.0 } else { largest - smallest }
}

fn spread(w: &Evaluation<'_>, id: Id, name: PropertyName) -> Derived {
    let items = w.list(id, name)?;
    w.length(range(values(items)))
}

/// The largest of a flight's list.
pub(super) fn largest(w: &Evaluation<'_>, id: Id, name: PropertyName) -> Result<f64, Missing> {
    Ok(values(w.list(id, name)?).fold(0.0, f64::max))
}
