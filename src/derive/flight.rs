//! A flight: its sums, its pitch, its evenness, and the width that is left between the rails.

use super::missing::Missing;
use super::place::all;
use super::quantity::{ANGLE, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::step::landing_above;
use super::working::{Datum, Derived, EVEN_NOSING, Working};
use crate::measure::Measure;
use crate::model::Id;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("flight" "rise" LENGTH, "plumb, from its foot to its head", "sum of risers", GEOMETRY, |w, id| {
        let rise = w.list(id, "risers")?.iter().sum();
        w.length(rise)
    }),
    entry!("flight" "run" LENGTH, "level, first front edge to the edge of the floor above", "sum of runs", GEOMETRY, |w, id| {
        let run = w.list(id, "runs")?.iter().sum();
        w.length(run)
    }),
    entry!("flight" "foot" LENGTH, "of its foot above the foot of the stair", "sum of rise of each flight below", GEOMETRY, |w, id| {
        let mut foot = 0.0;
        for below in all(w, "flight", id)?.into_iter().filter(|below| *below < id) {
            foot += w.number(below, "rise")?;
        }
        w.length(foot)
    }),
    entry!("flight" "unit rise" LENGTH, "one riser, if all were alike", "mean of risers", GEOMETRY, |w, id| {
        let risers = w.list(id, "risers")?;
        w.length(mean(&risers))
    }),
    entry!("flight" "unit run" LENGTH, "one run, if all were alike; winders left out where there are others", "mean of runs", GEOMETRY, |w, id| {
        let runs = w.list(id, "runs")?;
        if runs.is_empty() {
            return Err(w.missing(id, "runs"));
        }
        let mut straight = Vec::new();
        for (tread, run) in treads(w, id)?.into_iter().zip(&runs) {
            if w.word(tread, "shape")? == "rectangular" {
                straight.push(*run);
            }
        }
        w.length(mean(if straight.is_empty() { &runs } else { &straight }))
    }),
    entry!("flight" "pitch" ANGLE, "of the line of the nosings from level", "atan((sum of risers - the first) / sum of runs)", GEOMETRY, |w, id| {
        // The first riser stands below the first nosing: n risers, n - 1 runs.
        let risers = w.list(id, "risers")?;
        let runs = w.list(id, "runs")?;
        let climbed: f64 = risers.iter().skip(1).sum();
        let angle = climbed.atan2(runs.iter().sum()).to_degrees();
        Ok(Datum::Measure(Measure::degrees(angle)))
    }),
    entry!("flight" "nosing line" LENGTH, "from nosing to nosing along the pitch", "sqrt(unit rise^2 + unit run^2)", GEOMETRY, |w, id| {
        let rise = w.number(id, "unit rise")?;
        w.length(rise.hypot(w.number(id, "unit run")?))
    }),
    entry!("flight" "riser spread" LENGTH, "largest riser less smallest", "largest of risers - smallest of risers", "IRC 2021, R311.7.5.1", |w, id| {
        spread(w, id, "risers")
    }),
    entry!("flight" "run spread" LENGTH, "largest run less smallest, winders left out", "largest run - smallest run", "IRC 2021, R311.7.5.2", |w, id| {
        let mut runs = Vec::new();
        for tread in treads(w, id)? {
            if w.word(tread, "shape")? == "rectangular" {
                runs.push(w.number(tread, "run")?);
            }
        }
        w.length(range(&runs))
    }),
    entry!("flight" "riser count" NUMBER, "how many it has", "risers, counted", GEOMETRY, |w, id| {
        #[allow(clippy::cast_precision_loss)]
        Working::plain(w.list(id, "risers")?.len() as f64)
    }),
    entry!("flight" "winder count" NUMBER, "how many of its treads taper", "treads whose shape is winder, counted", GEOMETRY, |w, id| {
        let mut count = 0.0;
        for tread in treads(w, id)? {
            if w.word(tread, "shape")? == "winder" {
                count += 1.0;
            }
        }
        Working::plain(count)
    }),
    entry!(at "flight" "winder spread at" LENGTH, "largest depth of its winders less smallest, so far from the narrow side", "largest depth at - smallest depth at", "IRC 2021, R311.7.5.2.1", |w, id, place| {
        let mut depths = Vec::new();
        for tread in treads(w, id)? {
            if w.word(tread, "shape")? == "winder" {
                depths.push(w.number_at(tread, "depth at", place)?);
            }
        }
        w.length(range(&depths))
    }),
    entry!("flight" "nosing spread" LENGTH, "largest nosing less smallest, that of the landing above among them", "largest nosing - smallest nosing", "IRC 2021, R311.7.5.3", |w, id| {
        let mut nosings = Vec::new();
        for tread in w.design.belonging("tread", id) {
            nosings.push(w.number(tread, "nosing")?);
        }
        match landing_above(w, id) {
            Ok(landing) if w.design.stated(landing, "nosing").is_some() => nosings.push(w.number(landing, "nosing")?),
            _ => w.custom(EVEN_NOSING, id),
        }
        w.length(range(&nosings))
    }),
    entry!("flight" "width at the rails" LENGTH, "clear width less what each handrail takes of it", "width - projection of each handrail", "IRC 2021, R311.7.1", |w, id| {
        let mut width = w.number(id, "width")?;
        for rail in w.things("handrail", id)? {
            width -= w.number(rail, "projection")?;
        }
        w.length(width)
    }),
    entry!("flight" "spiral" Gives::Word(&["yes", "no"]), "whether it goes round a pole", "spiral as stated, else no", "what is not drawn is not there", |w, id| {
        w.stated_or(id, "spiral", "no")
    }),
    entry!("flight" "ship" Gives::Word(&["yes", "no"]), "whether it is a ship stair", "ship as stated, else no", "what is not drawn is not there", |w, id| {
        w.stated_or(id, "ship", "no")
    }),
    entry!("flight" "riser faces" Gives::Word(&["open", "closed"]), "whether boards close the risers", "closed where a riser board is drawn", "what is not drawn is not there", |w, id| {
        Working::say(if w.things("riser board", id)?.is_empty() { "open" } else { "closed" })
    }),
];

/// The treads; how many there are is not what a number of the flight comes from.
fn treads(w: &Working<'_>, id: Id) -> Result<Vec<Id>, Missing> {
    w.trace(|| w.things("tread", id)).0
}

fn mean(values: &[f64]) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let count = values.len().max(1) as f64;
    values.iter().sum::<f64>() / count
}

pub(super) fn range(values: &[f64]) -> f64 {
    let largest = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let smallest = values.iter().copied().fold(f64::INFINITY, f64::min);
    if values.is_empty() { 0.0 } else { largest - smallest }
}

fn spread(w: &Working<'_>, id: Id, name: &'static str) -> Derived {
    let values = w.list(id, name)?;
    w.length(range(&values))
}

/// The largest of a flight's list.
pub(super) fn largest(w: &Working<'_>, id: Id, name: &'static str) -> Result<f64, Missing> {
    Ok(w.list(id, name)?.iter().copied().fold(0.0, f64::max))
}
