//! Doors: where they open onto the stair.

use super::missing::{Drawing, Missing};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, entry};
use super::working::Working;
use crate::model::Value;

/// Where a door or a landing can be.
pub(super) const PLACES: &[&str] = &["top", "bottom", "between"];

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("door" "place" Gives::Word(PLACES), "at the head of the stair, at its foot, or between", "by the landing at which it opens", GEOMETRY, |w, id| {
        let element = w.design.get(id);
        let named = match w.design.stated(id, "at") {
            Some(_) => match w.value(id, "at")? {
                Value::Names(names) => names.first().map(|(name, _)| name.clone()),
                _ => None,
            },
            None => {
                let landing = element.and_then(|door| door.serves).and_then(|place| w.design.get(place));
                landing.and_then(|landing| landing.name.clone()).or_else(|| element.and_then(|door| door.name.clone()))
            }
        };
        let named = named.ok_or_else(|| w.missing(id, "at"))?;
        Working::say(place(&named))
    }),
    entry!("door" "landing drawn" Gives::Word(&["yes", "no"]), "whether a landing is drawn where it opens", "yes where its place is drawn", "what is not drawn is not there", |w, id| {
        let serves = w.design.get(id).and_then(|door| door.serves);
        Working::say(if serves.is_some_and(|place| w.design.kind(place) == "landing") { "yes" } else { "no" })
    }),
    entry!("door" "room left" LENGTH, "depth of its landing that its leaf leaves", "depth of the landing - leaf, where it swings over the stair", "29 CFR 1910.25(b)(5)", |w, id| {
        let serves = w.design.get(id).and_then(|door| door.serves);
        let landing = serves.filter(|place| w.design.kind(*place) == "landing");
        let landing = landing.ok_or_else(|| Missing::drawing(id, Drawing::LandingAtDoor))?;
        let depth = w.number(landing, "depth")?;
        let leaf = if w.word(id, "swing")? == "over the stair" { w.number(id, "leaf")? } else { 0.0 };
        w.length(depth - leaf)
    }),
];

/// The place that a name means.
pub(super) fn place(name: &str) -> &'static str {
    match name.to_lowercase().as_str() {
        "top" => "top",
        "bottom" => "bottom",
        _ => "between",
    }
}
