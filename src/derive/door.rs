//! Doors: where they open onto the stair.

use super::evaluation::{Evaluation, word};
use super::formula::Derive;
use super::missing::{Drawing, Missing};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW, row};
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
];

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
