//! Treads that taper: which they are, and how deep at a place across the stair.

use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, word};
use super::formula::Formula::{Asks, Number, Only, Over, Plus, Sine, Stated, Times};
use super::formula::{Derive, Of};
use super::handrail::PROJECTION;
use super::missing::{Drawing, Missing};
use super::place::standing;
use super::quantity::{ANGLE, GEOMETRY, Gives, LENGTH, Quantity, ROW, row};
use super::reading::values;
use super::step::{RUN, landing_above};
use crate::measure::{MILLIMETRE, Measure};
use crate::model::{IN_THE_CENTRE, Id, kinds, properties};

/// In from each side of a wide stair, and the width from which a stair is wide: Approved Document K 2013, 1.25.
const IN_FROM_SIDE: f64 = 270.0 * MILLIMETRE;
const WIDE: f64 = 1000.0 * MILLIMETRE;

/// Of a full turn, in degrees.
const EIGHTH: f64 = 45.0;

const SHAPES: &[&str] = &["rectangular", "winder"];

pub(super) static QUANTITIES: &[Quantity] = &[
    // Rooms and towers stand at eighths of a turn to one another.
    Quantity {
        kind: kinds::WINDERS,
        name: "off square",
        gives: ANGLE,
        help: "how far its turn is from the nearest eighths of a full one; none of them is no turn",
        formula: "turn less the nearest of 45°, 90°, 135° and so on",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let turn = w.number(id, properties::TURN)?;
            Ok(Datum::Measure(Measure::degrees((turn - (turn / EIGHTH).round().max(1.0) * EIGHTH).abs())))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::WINDERS,
        name: "set above",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether another set of winders follows further up",
        formula: "yes where winders of its flight, or of one above, begin past its last tread",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| word(if next_set(w, id)?.is_some() { "yes" } else { "no" })),
        ..ROW
    },
    Quantity {
        kind: kinds::WINDERS,
        name: "level to the set above",
        gives: LENGTH,
        help: "along the line of travel, from its last tread to the first of the next set: straight treads and landings",
        formula: "sum of the runs between the two, and of the depth of each landing that they pass",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let next = next_set(w, id)?.ok_or_else(|| w.not_drawn(id, kinds::WINDERS))?;
            let (_, last) = reach(w, id)?;
            let (first, _) = reach(w, next)?;
            let (mut flight, above) = (w.parent(id), w.parent(next));
            let mut level = 0.0;
            let mut passed = last;
            while flight != above {
                level += runs_between(w, flight, passed, f64::INFINITY)?;
                level += w.number(landing_above(w, flight)?, properties::DEPTH)?;
                passed = 0.0;
                flight = w.design.of_kind(kinds::FLIGHT).find(|other| *other > flight).unwrap_or(above);
            }
            w.length(level + runs_between(w, flight, passed, first)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "pole radius",
        gives: LENGTH,
        help: "of the pole that its treads turn round",
        formula: "half the larger way of section of the post in its centre",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let pole = standing(w, kinds::POST, id, IN_THE_CENTRE)?.ok_or_else(|| w.not_drawn(id, kinds::POST))?;
            w.length(w.section(pole)?.depth / 2.0)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "winder side",
        gives: Gives::Word(&["none", "narrow", "wide", "both"]),
        help: "at which side of the winders of its flight it stands",
        formula: "narrow where it stands at the side of the winders, wide at the other, both where they turn both ways",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let Some(flight) = w.design.related(id, kinds::FLIGHT).filter(|_| !is_level(w, id)) else {
                return word("none");
            };
            let (mut narrow, mut wide) = (false, false);
            w.each(w.things(kinds::WINDERS, flight)?, |winders| {
                let turn = w.design.get(winders).and_then(|winders| winders.side);
                let turn = turn.ok_or_else(|| w.side_not_known(winders))?;
                let side = w.side(id)?;
                narrow |= side == turn;
                wide |= side != turn;
                Ok(())
            })?;
            word(match (narrow, wide) {
                (true, true) => "both",
                (true, false) => "narrow",
                (false, true) => "wide",
                (false, false) => "none",
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "shape",
        gives: Gives::Word(SHAPES),
        help: "whether it tapers",
        formula: "winder where winders of its flight count it, else rectangular",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| word(if winders_of(w, id)?.is_some() { "winder" } else { "rectangular" })),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "turn",
        gives: ANGLE,
        help: "from its front edge to the next",
        formula: "turn of the winders / (to tread - from tread + 1), or as it is stated of each; none of a \
            rectangular one",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let Some(winders) = winders_of(w, id)? else { return Ok(Datum::Measure(Measure::degrees(0.0))) };
            // How many are stated is not what the turn of one comes from.
            if w.trace(|| w.list(winders.id, properties::TURN)).0?.len() > 1 {
                return Ok(Datum::Measure(w.item(winders.id, properties::TURN, winders.nth)?));
            }
            let turn = w.number(winders.id, properties::TURN)?;
            w.number(winders.id, properties::FROM_TREAD)?;
            w.number(winders.id, properties::TO_TREAD)?;
            Ok(Datum::Measure(Measure::degrees(turn / winders.count)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "narrow depth",
        gives: LENGTH,
        help: "front edge to front edge at its narrow side",
        formula: "narrow of the winders, else at a pole 2 x pole radius x sin(turn / 2); run of a rectangular one",
        source: "IRC 2021, R311.7.5.2.1",
        derive: Derive::Whole(|w, id| {
            let Some(winders) = winders_of(w, id)? else { return w.datum(id, RUN) };
            let stated = w.looked_up(winders.id, properties::NARROW).is_some();
            // Either would settle it; the narrow side is the one to ask for.
            match w.trace(|| w.number(w.parent(id), POLE_RADIUS)).0 {
                Ok(_) if !stated => {
                    let radius = w.number(w.parent(id), POLE_RADIUS)?;
                    w.length(2.0 * radius * half_turn(w, id)?.sin())
                }
                _ => Ok(Datum::Measure(w.item(winders.id, properties::NARROW, winders.nth)?)),
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "narrow radius",
        gives: LENGTH,
        help: "from the centre of the turn to its narrow side",
        source: GEOMETRY,
        derive: Derive::Formula(&Only(
            is_winder,
            &Over(
                &Asks(Of::This, || NARROW_DEPTH),
                &Times(&Number(2.0), &Sine(&Over(&Asks(Of::This, || TURN), &Number(2.0)))),
            ),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "taken at the narrow side",
        gives: LENGTH,
        help: "how far a handrail at its narrow side stands in, so that nobody walks there",
        formula: "largest projection of a handrail at the side of its winders; nothing where none stands there",
        source: "29 CFR 1926.1052(c)(2)",
        derive: Derive::Whole(|w, id| {
            let winders = winders_of(w, id)?.ok_or_else(|| Missing::drawing(id, Drawing::WindersOfTread))?;
            let narrow = w.design.get(winders.id).and_then(|winders| winders.side);
            let narrow = narrow.ok_or_else(|| w.side_not_known(winders.id))?;
            let mut taken: f64 = 0.0;
            w.each(w.things(kinds::HANDRAIL, w.parent(id))?, |rail| {
                if w.design.get(rail).and_then(|rail| rail.side) == Some(narrow) {
                    taken = taken.max(w.number(rail, PROJECTION)?);
                }
                Ok(())
            })?;
            w.length(taken)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "depth at",
        gives: LENGTH,
        help: "front edge to front edge so far from the narrow side",
        formula: "narrow depth + 2 x distance x sin(turn / 2); run of a rectangular one",
        source: "chord of the walkline between two front edges that meet at the centre of the turn; IRC \
            2021, R311.7.4",
        derive: Derive::At(|w, id, place| {
            if winders_of(w, id)?.is_none() {
                return w.datum(id, RUN);
            }
            let narrow = w.number(id, NARROW_DEPTH)?;
            w.length(narrow + 2.0 * place * half_turn(w, id)?.sin())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "broad depth",
        gives: LENGTH,
        help: "front edge to front edge at its wide side",
        source: "chord between two front edges that meet at the centre of the turn",
        derive: Derive::Formula(&Only(
            is_winder,
            &Plus(
                &Asks(Of::This, || NARROW_DEPTH),
                &Times(
                    &Times(&Number(2.0), &Stated(Of::MadeBy, properties::WIDTH)),
                    &Sine(&Over(&Asks(Of::This, || TURN), &Number(2.0))),
                ),
            ),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "narrow going",
        gives: LENGTH,
        help: "its going where a foot treads nearest the narrow side: in the middle of a flight narrower \
            than 1 m, else 270 mm in; run of a rectangular one",
        formula: "depth at width of flight / 2, or at 270 mm",
        source: "Approved Document K, 2013 edition, 1.25 to 1.27",
        derive: Derive::Whole(|w, id| going(w, id, |_| IN_FROM_SIDE)),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "broad going",
        gives: LENGTH,
        help: "its going where a foot treads nearest the wide side: in the middle of a flight narrower \
            than 1 m, else 270 mm in; run of a rectangular one",
        formula: "depth at width of flight / 2, or at width - 270 mm",
        source: "Approved Document K, 2013 edition, 1.25 to 1.27",
        derive: Derive::Whole(|w, id| going(w, id, |width| width - IN_FROM_SIDE)),
        ..ROW
    },
];

/// The treads that a block of winders counts, in order: that the two ends are in the wrong one is for a rule.
fn reach(w: &Evaluation<'_>, winders: Id) -> Result<(f64, f64), Missing> {
    let (from, to) = (w.number(winders, properties::FROM_TREAD)?, w.number(winders, properties::TO_TREAD)?);
    Ok((from.min(to), from.max(to)))
}

/// The next set of winders further up, in the same flight or in one above.
fn next_set(w: &Evaluation<'_>, id: Id) -> Result<Option<Id>, Missing> {
    let flight = w.parent(id);
    let mut next: Option<(Id, f64, Id)> = None;
    w.each(w.things(kinds::WINDERS, 0)?, |other| {
        let above = w.parent(other);
        if other == id || above < flight {
            return Ok(());
        }
        let (first, _) = reach(w, other)?;
        if above == flight && first <= reach(w, id)?.0 {
            return Ok(());
        }
        if next.is_none_or(|(nearest, lowest, _)| (above, first) < (nearest, lowest)) {
            next = Some((above, first, other));
        }
        Ok(())
    })?;
    Ok(next.map(|(.., next)| next))
}

/// The runs of a flight between two of its treads, which count from 1; neither is among them.
fn runs_between(w: &Evaluation<'_>, flight: Id, after: f64, before: f64) -> Result<f64, Missing> {
    let mut level = 0.0;
    let mut tread = 0.0;
    for run in values(w.list(flight, properties::RUNS)?) {
        tread += 1.0;
        if tread > after && tread < before {
            level += run;
        }
    }
    Ok(level)
}

/// How many treads of a flight more than one block of winders counts.
pub(super) fn wound_twice(w: &Evaluation<'_>, flight: Id) -> Result<usize, Missing> {
    let mut reaches: Vec<(f64, f64)> = Vec::new();
    w.each(w.things(kinds::WINDERS, flight)?, |id| {
        let (from, to) = (w.number(id, properties::FROM_TREAD)?, w.number(id, properties::TO_TREAD)?);
        reaches.push((from.min(to), from.max(to)));
        Ok(())
    })?;
    let twice = |tread: &usize| {
        #[allow(clippy::cast_precision_loss)]
        let number = *tread as f64 + 1.0;
        reaches.iter().filter(|(from, to)| (*from..=*to).contains(&number)).count() > 1
    };
    Ok((0..w.list(flight, properties::RUNS)?.len()).filter(twice).count())
}

pub(super) const SHAPE: &Quantity = row(QUANTITIES, kinds::TREAD, "shape");
pub(super) const POLE_RADIUS: &Quantity = row(QUANTITIES, kinds::FLIGHT, "pole radius");
pub(super) const TURN: &Quantity = row(QUANTITIES, kinds::TREAD, "turn");
const NARROW_DEPTH: &Quantity = row(QUANTITIES, kinds::TREAD, "narrow depth");
pub(super) const DEPTH_AT: &Quantity = row(QUANTITIES, kinds::TREAD, "depth at");

fn is_level(w: &Evaluation<'_>, rail: Id) -> bool {
    let serves = w.design.get(rail).and_then(|rail| rail.serves);
    serves.is_some_and(|place| w.design.is(place, kinds::LANDING))
}

fn going(w: &Evaluation<'_>, id: Id, wide: fn(f64) -> f64) -> Derived {
    if winders_of(w, id)?.is_none() {
        return w.datum(id, RUN);
    }
    // First of what it comes from, and the first to change.
    w.number(id, NARROW_DEPTH)?;
    let width = w.number(w.parent(id), properties::WIDTH)?;
    let place = if width < WIDE { width / 2.0 } else { wide(width) };
    w.length(w.number_at(id, DEPTH_AT, place)?)
}

/// The block of winders that counts a tread.
struct Winders {
    id: Id,
    /// Which of them, from 0.
    nth: usize,
    count: f64,
}

fn winders_of(w: &Evaluation<'_>, tread: Id) -> Result<Option<Winders>, Missing> {
    // Which block counts it is not what a number of the tread comes from.
    w.trace(|| counted_by(w, tread)).0
}

fn counted_by(w: &Evaluation<'_>, tread: Id) -> Result<Option<Winders>, Missing> {
    let flight = w.made_for(tread, properties::RUNS)?;
    #[allow(clippy::cast_precision_loss)]
    let number = w.step(tread) as f64 + 1.0;
    for id in w.things(kinds::WINDERS, flight)? {
        let from = w.number(id, properties::FROM_TREAD)?;
        let to = w.number(id, properties::TO_TREAD)?;
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

fn is_winder(w: &Evaluation<'_>, tread: Id) -> Result<(), Missing> {
    winders_of(w, tread)?.map(|_| ()).ok_or_else(|| Missing::drawing(tread, Drawing::WindersOfTread))
}

fn half_turn(w: &Evaluation<'_>, tread: Id) -> Result<f64, Missing> {
    Ok((w.number(tread, TURN)? / 2.0).to_radians())
}
