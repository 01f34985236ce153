//! Doors: where they open onto the stair, and what their leaves sweep.

use super::evaluation::{Evaluation, number, word};
use super::formula::Derive;
use super::missing::{Drawing, Missing};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use crate::model::{Id, Value, kinds, properties};

/// Where a door or a landing can be.
pub(super) const PLACES: &[&str] = &["top", "bottom", "between"];

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::DOOR,
        name: "place",
        gives: Gives::Word(PLACES),
        help: "at the head of the stair, at its foot, or between",
        formula: "by the landing at which it opens",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let element = w.design.get(id);
            found(w, id)?;
            let named = match w.looked_up(id, properties::AT) {
                Some(_) => match w.value(id, properties::AT)? {
                    Value::Names(names) => names.first().map(|(name, _)| name.clone()),
                    _ => None,
                },
                None => {
                    let landing = element.and_then(|door| door.serves).and_then(|place| w.design.get(place));
                    landing
                        .and_then(|landing| landing.name.clone())
                        // The head and the foot of a stair are there without a landing; no other place is.
                        .or_else(|| element.and_then(|door| door.name.clone()).filter(|name| place(name) != "between"))
                }
            };
            let named = named.ok_or_else(|| w.missing(id, properties::AT))?;
            word(place(&named))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::DOOR,
        name: "landing drawn",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a landing is drawn where it opens",
        formula: "yes where its place is drawn",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| {
            found(w, id)?;
            let serves = w.design.get(id).and_then(|door| door.serves);
            if serves.is_none() {
                w.trace(|| w.things(kinds::LANDING, 0).map(|_| ())).0?;
            }
            // At the landing of no name there is none; where it opens at all has to be known.
            w.word(id, PLACE)?;
            word(if serves.is_some_and(|place| w.design.is(place, kinds::LANDING)) { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::DOOR,
        name: "room left",
        gives: LENGTH,
        help: "depth of its landing that its leaf leaves",
        formula: "depth of the landing - leaf, where it swings over the stair",
        source: "29 CFR 1910.25(b)(5)",
        derive: Derive::Whole(|w, id| {
            let serves = w.design.get(id).and_then(|door| door.serves);
            let landing = serves.filter(|place| w.design.is(*place, kinds::LANDING));
            let landing = landing.ok_or_else(|| Missing::drawing(id, Drawing::LandingAtDoor))?;
            let depth = w.number(landing, properties::DEPTH)?;
            let leaf =
                if w.word(id, properties::SWING)? == "over the stair" { w.number(id, properties::LEAF)? } else { 0.0 };
            w.length(depth - leaf)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::DOOR,
        name: "sweep over the steps",
        gives: LENGTH,
        help: "how far its leaf reaches past its landing, over the steps or against them",
        formula: "greater of nothing and leaf - depth of the landing, or leaf where none is drawn; nothing where it does \
            not swing over the stair",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| w.length(sweep(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::DOOR,
        name: "treads swept",
        gives: NUMBER,
        help: "how many treads its leaf passes over",
        formula: "treads of the flight at its place whose front edge or back lies within the sweep over the steps",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let sweep = w.number(id, SWEEP)?;
            if sweep <= 0.0 {
                return number(0.0);
            }
            let bottom = w.word(id, PLACE)? == "bottom";
            let mut flights = w.things(kinds::FLIGHT, 0)?;
            let flight = if bottom { flights.next() } else { flights.last() };
            let runs = values(w.list(flight.ok_or_else(|| w.not_drawn(id, kinds::FLIGHT))?, properties::RUNS)?);
            let runs: Vec<f64> = if bottom { runs.collect() } else { runs.rev().collect() };
            let begins = runs.iter().scan(0.0, |at, run| Some(std::mem::replace(at, *at + run)));
            #[allow(clippy::cast_precision_loss)]
            number(begins.filter(|begin| *begin < sweep).count() as f64)
        }),
        ..ROW
    },
];

const SWEEP: &Quantity = row(QUANTITIES, kinds::DOOR, "sweep over the steps");

/// How far the leaf of a door passes the end of its landing.
fn sweep(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    if w.word(id, properties::SWING)? != "over the stair" {
        return Ok(0.0);
    }
    let leaf = w.number(id, properties::LEAF)?;
    if w.word(id, LANDING_DRAWN)? == "no" {
        return Ok(leaf);
    }
    let landing = w.design.get(id).and_then(|door| door.serves).filter(|place| w.design.is(*place, kinds::LANDING));
    let landing = landing.ok_or_else(|| Missing::drawing(id, Drawing::LandingAtDoor))?;
    Ok((leaf - w.number(landing, properties::DEPTH)?).max(0.0))
}

const LANDING_DRAWN: &Quantity = row(QUANTITIES, kinds::DOOR, "landing drawn");

const PLACE: &Quantity = row(QUANTITIES, kinds::DOOR, "place");

/// Whether what says where it opens was understood.
fn found(w: &Evaluation<'_>, door: Id) -> Result<(), Missing> {
    match w.design.get(door).and_then(|door| door.lost) {
        Some(property) => Err(Missing::not_understood(door, property)),
        None => Ok(()),
    }
}

/// The place that a name means.
pub(super) fn place(name: &str) -> &'static str {
    match name.to_lowercase().as_str() {
        "top" => "top",
        "bottom" => "bottom",
        _ => "between",
    }
}
