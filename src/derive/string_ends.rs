//! The ends of a string: what of its head lies against the rim that it is held to, and how long a level cut its foot has
//! room for.

use super::datum::Datum;
use super::evaluation::Evaluation;
use super::flight::{PITCH, RISE};
use super::formula::Derive;
use super::missing::{Method, Missing};
use super::place::all;
use super::quantity::{GEOMETRY, LENGTH, Quantity, ROW};
use super::step::landing_above;
use crate::measure::Measure;
use crate::model::{Id, Value, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STRINGER,
        name: "head on its rim",
        gives: LENGTH,
        help: "plumb, how much of the head of a notched one lies against the rim of the floor at its head, which is as deep as \
            the joists there, or against the header dropped below it; less than nothing where it hangs below both",
        formula: "thickness of the landing above + the largest way of section of its joists + dropped header - last cut; below \
            a landing between flights without that thickness",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let flight = w.flight_of(id)?;
            let landing = landing_above(w, flight)?;
            let mut deepest: Option<f64> = None;
            // What to change first: the joists, of which the rim is one.
            w.each(w.things(kinds::JOIST, landing)?, |joist| {
                let depth = w.section(joist)?.depth;
                deepest = Some(deepest.map_or(depth, |deepest| deepest.max(depth)));
                Ok(())
            })?;
            let rim = deepest.ok_or_else(|| w.not_drawn(landing, kinds::JOIST))?;
            if w.word(id, properties::CUT)? != "notched" {
                return Err(Missing::outside(id, Method::TreadOnNotches));
            }
            let header = match w.looked_up(id, properties::DROPPED_HEADER) {
                Some(_) => w.number(id, properties::DROPPED_HEADER)?,
                None => 0.0,
            };
            let goes_on = all(w, kinds::FLIGHT, 0)?.any(|other| other > flight);
            // The floor between two flights is measured from below its deck.
            let deck = if goes_on { 0.0 } else { w.number(landing, properties::THICKNESS)? };
            let left = w.length(deck + rim + header - w.number(id, properties::LAST_CUT)?)?;
            // Written as the cut is: the joists may go by their names, which are inches, in a drawing in millimetres.
            let style = match w.looked_up(id, properties::LAST_CUT).and_then(|stated| stated.value.as_ref()) {
                Some(Value::Measure(cut)) => Some(cut.style),
                _ => None,
            };
            Ok(match (left, style) {
                (Datum::Measure(left), Some(style)) => Datum::Measure(Measure { style, ..left }),
                (left, _) => left,
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "foot seat",
        gives: LENGTH,
        help: "level, the longest cut that its foot has room for: through its whole depth at its slope, and of a notched one no \
            further forward than the face of its lowest riser cut",
        formula: "the larger way of section / sin(pitch) - first cut / tan(pitch), where it is notched and that is stated",
        source: "plane geometry: a level cut through a board at a slope",
        derive: Derive::Whole(|w, id| {
            let depth = w.section(id)?.depth;
            let pitch = w.number(w.flight_of(id)?, PITCH)?.to_radians();
            let notched = w.looked_up(id, properties::CUT).is_some() && w.word(id, properties::CUT)? == "notched";
            let before = match notched && w.looked_up(id, properties::FIRST_CUT).is_some() {
                true => w.number(id, properties::FIRST_CUT)? / pitch.tan(),
                false => 0.0,
            };
            w.length(depth / pitch.sin() - before)
        }),
        ..ROW
    },
];

/// How long a string is at the most: along its slope from floor to floor, and as much again as it is deep for what is cut
/// aslant.
pub(super) fn longest(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    let flight = w.flight_of(id)?;
    let pitch = w.number(flight, PITCH)?.to_radians();
    Ok(w.number(flight, RISE)? / pitch.sin() + w.section(id)?.depth)
}
