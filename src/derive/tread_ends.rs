//! The ends of the treads: how far they are let into their strings, or stand out past them.

use super::evaluation::Evaluation;
use super::formula::Derive;
use super::missing::{Method, Missing};
use super::quantity::{GEOMETRY, LENGTH, Quantity, ROW, row};
use crate::model::{Id, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::TREAD,
        name: "let in",
        gives: LENGTH,
        help: "how far each of its ends stands in its string, if it lies evenly between the two",
        formula: "(length - (count - 1) x spacing + thickness of the strings) / 2; where no spacing is stated, (length - width \
            of the flight) / 2 where the strings stand beside that width, or with their thickness twice on it where they \
            stand within it: the one that is in the housing, or nearer to it, and where that is not stated the latter, if it \
            comes to nothing or less",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| w.length(let_in(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "room in the housing",
        gives: LENGTH,
        help: "what its end leaves of the depth of its housing; less than nothing where it is too long",
        formula: "housing of the strings - let in",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stringer = housed_strings(w, w.flight_of(id)?)?;
            w.length(w.number(stringer, properties::HOUSING)? - let_in(w, id)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "overhang",
        gives: LENGTH,
        help: "how far it stands out past the outer stringers at each end, if it lies evenly on them; less than nothing where \
            it does not reach",
        formula: "(length - (count - 1) x spacing - thickness of the stringers) / 2",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stringer = the_strings(w, w.flight_of(id)?)?;
            let (across, thickness) = (across(w, stringer)?, w.section(stringer)?.thickness);
            w.length((w.number(id, properties::LENGTH)? - across - thickness) / 2.0)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "room between",
        gives: LENGTH,
        help: "what it leaves of the clear room between two solid strings, at both ends together; less than nothing where it \
            does not go in",
        formula: "spacing - thickness of the strings - length; where no spacing is stated, width of the flight - length where \
            the strings stand beside that width, or less their thickness twice where they stand within it: the lesser either way",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let long = w.number(id, properties::LENGTH)?;
            let flight = w.flight_of(id)?;
            let stringer = the_strings(w, flight)?;
            if w.number(stringer, properties::COUNT)? != 2.0 || w.word(stringer, properties::CUT)? != "solid" {
                return Err(Missing::outside(flight, Method::TwoSolidStrings));
            }
            let thickness = w.section(stringer)?.thickness;
            if w.looked_up(stringer, properties::SPACING).is_some() {
                return w.length(w.number(stringer, properties::SPACING)? - thickness - long);
            }
            let beside = w.number(flight, properties::WIDTH)? - long;
            let within = beside - 2.0 * thickness;
            w.length(if beside.abs() <= within.abs() { beside } else { within })
        }),
        ..ROW
    },
];

pub(super) const OVERHANG: &Quantity = row(QUANTITIES, kinds::TREAD, "overhang");

/// The block that draws both housed strings of a flight, whatever else stands between them: what is let in is let in at its
/// ends.
fn housed_strings(w: &Evaluation<'_>, flight: Id) -> Result<Id, Missing> {
    let mut strings = w.things(kinds::STRINGER, flight)?;
    if let (Some(only), None) = (strings.next(), strings.next()) {
        return Ok(only);
    }
    let mut housed = Vec::new();
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        // A carriage stands between the two that the treads are let into.
        if w.word(stringer, properties::CUT)? == "housed" {
            housed.push(stringer);
        }
        Ok(())
    })?;
    match housed.as_slice() {
        [pair] if w.number(*pair, properties::COUNT)? >= 2.0 => Ok(*pair),
        _ => the_strings(w, flight),
    }
}

/// The block that draws the strings of a flight, where all of them are alike.
fn the_strings(w: &Evaluation<'_>, flight: Id) -> Result<Id, Missing> {
    let mut strings = w.things(kinds::STRINGER, flight)?;
    let first = strings.next().ok_or_else(|| w.not_drawn(flight, kinds::STRINGER))?;
    match strings.next() {
        None => Ok(first),
        Some(_) => Err(Missing::outside(flight, Method::StringersAlike)),
    }
}

/// From the middle of one outer string to that of the other.
fn across(w: &Evaluation<'_>, stringer: Id) -> Result<f64, Missing> {
    let count = w.number(stringer, properties::COUNT)?;
    Ok(if count > 1.0 { (count - 1.0) * w.number(stringer, properties::SPACING)? } else { 0.0 })
}

fn let_in(w: &Evaluation<'_>, tread: Id) -> Result<f64, Missing> {
    let flight = w.flight_of(tread)?;
    let stringer = housed_strings(w, flight)?;
    let length = w.number(tread, properties::LENGTH)?;
    let thickness = w.section(stringer)?.thickness;
    if w.looked_up(stringer, properties::SPACING).is_some() {
        return Ok((length - across(w, stringer)? + thickness) / 2.0);
    }
    let beside = (length - w.number(flight, properties::WIDTH)?) / 2.0;
    let within = beside + thickness;
    let housing = match w.number(stringer, properties::HOUSING) {
        // Too short however deep it is let in.
        Err(_) if within <= 0.0 => return Ok(within),
        housing => housing?,
    };
    // A negative distance lies within.
    let past = |let_in: f64| (let_in - housing).max(-let_in);
    Ok(if past(beside) <= past(within) { beside } else { within })
}
