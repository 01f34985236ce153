//! Treads that taper: which they are, and how deep at a place across the stair.

use super::missing::{Drawing, Missing};
use super::quantity::{ANGLE, GEOMETRY, Gives, LENGTH, Quantity, entry};
use super::step::made_for;
use super::working::{Datum, Derived, Working};
use crate::measure::{MILLIMETRE, Measure};
use crate::model::Id;

/// In from each side of a wide stair, and the width from which a stair is wide: Approved Document K 2013, 1.25.
const IN_FROM_SIDE: f64 = 270.0 * MILLIMETRE;
const WIDE: f64 = 1000.0 * MILLIMETRE;

const SHAPES: &[&str] = &["rectangular", "winder"];

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("tread" "shape" Gives::Word(SHAPES), "whether it tapers", "winder where winders of its flight count it, else rectangular", GEOMETRY, |w, id| {
        Working::say(if winders_of(w, id)?.is_some() { "winder" } else { "rectangular" })
    }),
    entry!("tread" "turn" ANGLE, "from its front edge to the next", "turn of the winders / (to tread - from tread + 1); none of a rectangular one", GEOMETRY, |w, id| {
        let Some(winders) = winders_of(w, id)? else { return Ok(Datum::Measure(Measure::degrees(0.0))) };
        let turn = w.number(winders.id, "turn")?;
        w.number(winders.id, "from tread")?;
        w.number(winders.id, "to tread")?;
        Ok(Datum::Measure(Measure::degrees(turn / winders.count)))
    }),
    entry!("tread" "narrow depth" LENGTH, "front edge to front edge at its narrow side", "narrow of the winders; run of a rectangular one", "IRC 2021, R311.7.5.2.1", |w, id| {
        match winders_of(w, id)? {
            Some(winders) => Ok(Datum::Measure(w.item(winders.id, "narrow", winders.nth)?)),
            None => w.datum(id, "run"),
        }
    }),
    entry!("tread" "narrow radius" LENGTH, "from the centre of the turn to its narrow side", "narrow depth / (2 x sin(turn / 2))", GEOMETRY, |w, id| {
        if winders_of(w, id)?.is_none() {
            return Err(Missing::drawing(id, Drawing::WindersOfTread));
        }
        let narrow = w.number(id, "narrow depth")?;
        w.length(narrow / (2.0 * half_turn(w, id)?.sin()))
    }),
    entry!(at "tread" "depth at" LENGTH, "front edge to front edge so far from the narrow side", "narrow depth + 2 x distance x sin(turn / 2); run of a rectangular one",
        "chord of the walkline between two front edges that meet at the centre of the turn; IRC 2021, R311.7.4", |w, id, place| {
        if winders_of(w, id)?.is_none() {
            return w.datum(id, "run");
        }
        let narrow = w.number(id, "narrow depth")?;
        w.length(narrow + 2.0 * place * half_turn(w, id)?.sin())
    }),
    entry!("tread" "narrow going" LENGTH, "its going where a foot treads nearest the narrow side: in the middle of a flight narrower than 1 m, else 270 mm in; run of a rectangular one",
        "depth at width of flight / 2, or at 270 mm", "Approved Document K, 2013 edition, 1.25 to 1.27", |w, id| going(w, id, |_| IN_FROM_SIDE)),
    entry!("tread" "broad going" LENGTH, "its going where a foot treads nearest the wide side: in the middle of a flight narrower than 1 m, else 270 mm in; run of a rectangular one",
        "depth at width of flight / 2, or at width - 270 mm", "Approved Document K, 2013 edition, 1.25 to 1.27", |w, id| going(w, id, |width| width - IN_FROM_SIDE)),
];

fn going(w: &Working<'_>, id: Id, wide: fn(f64) -> f64) -> Derived {
    if winders_of(w, id)?.is_none() {
        return w.datum(id, "run");
    }
    // First of what it comes from, and the first to change.
    w.number(id, "narrow depth")?;
    let width = w.number(w.parent(id), "width")?;
    let place = if width < WIDE { width / 2.0 } else { wide(width) };
    w.length(w.number_at(id, "depth at", place)?)
}

/// The block of winders that counts a tread.
struct Winders {
    id: Id,
    /// Which of them, from 0.
    nth: usize,
    count: f64,
}

fn winders_of(w: &Working<'_>, tread: Id) -> Result<Option<Winders>, Missing> {
    // Which block counts it is not what a number of the tread comes from.
    w.trace(|| counted_by(w, tread)).0
}

fn counted_by(w: &Working<'_>, tread: Id) -> Result<Option<Winders>, Missing> {
    let flight = made_for(w, tread, "runs")?;
    #[allow(clippy::cast_precision_loss)]
    let number = w.step(tread) as f64 + 1.0;
    for id in w.things("winders", flight)? {
        let from = w.number(id, "from tread")?;
        let to = w.number(id, "to tread")?;
        // Two ends in the wrong order count the same treads; that they are is told by a rule.
        let (from, to) = (from.min(to), from.max(to));
        if (from..=to).contains(&number) {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let nth = (number - from).max(0.0) as usize;
            return Ok(Some(Winders { id, nth, count: to - from + 1.0 }));
        }
    }
    Ok(None)
}

fn half_turn(w: &Working<'_>, tread: Id) -> Result<f64, Missing> {
    Ok((w.number(tread, "turn")? / 2.0).to_radians())
}
