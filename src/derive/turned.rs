//! What of a stair comes round over its own steps: the next turn of a spiral, or a flight that lies over one further down.

use super::evaluation::{Evaluation, word};
use super::flight::{RISE, RUN, SPIRAL};
use super::formula::Derive;
use super::missing::Missing;
use super::overhead::{height_of, nosing_line};
use super::place::{all, turn};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW};
use super::reading::values;
use super::step::BOARD_THICKNESS;
use super::winder::TURN;
use crate::model::{Id, kinds, properties};

/// All the way round.
const FULL: f64 = 360.0;

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::FLIGHT,
        name: "steps above",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether steps of its own stair come round over it",
        formula: "yes where treads of a spiral turn by more than 360°, or a flight lies over it after turns of 360° one way",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let spiral = w.word(id, SPIRAL)? == "yes";
            let least = if spiral { room_of_a_spiral(w, id)? } else { room_of_flights(w, id)? };
            word(if least.is_some() { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "room under the turn above",
        gives: LENGTH,
        help: "plumb, at its least, from the line of its nosings up to the steps that come round over it; of a spiral up to \
        the underside of their boards, else what those steps are made of is still to come off",
        formula: "of a spiral the least of (rise from a tread to the one over its front edge a full turn on) - board \
        thickness; else the least distance from its nosings to those of the flight that lies over it after turns of 360° \
        one way; not known where none does",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let spiral = w.word(id, SPIRAL)? == "yes";
            let least = if spiral { room_of_a_spiral(w, id)? } else { room_of_flights(w, id)? };
            let mut room = least.ok_or_else(|| w.not_drawn(id, kinds::FLIGHT))?;
            if spiral {
                let mut thickness: f64 = 0.0;
                for tread in w.things(kinds::TREAD, id)? {
                    thickness = thickness.max(w.number(tread, BOARD_THICKNESS)?);
                }
                room -= thickness;
            }
            w.length(room)
        }),
        ..ROW
    },
];

/// Nanometres, from a tread up to the one over its front edge; nothing where none is.
fn room_of_a_spiral(w: &Evaluation<'_>, flight: Id) -> Result<Option<f64>, Missing> {
    let mut rises = values(w.list(flight, properties::RISERS)?);
    let (mut begins, mut height) = (0.0, 0.0);
    // Of each tread: where round the pole its front edge lies, in degrees, and how high it is.
    let mut treads: Vec<(f64, f64)> = Vec::new();
    for tread in w.things(kinds::TREAD, flight)? {
        height += rises.next().unwrap_or(0.0);
        treads.push((begins, height));
        begins += w.number(tread, TURN)?;
    }
    let mut least: Option<f64> = None;
    for (at, (from, low)) in treads.iter().enumerate() {
        let over = |(from_there, _): &&(f64, f64)| *from_there <= from + FULL + TOLERANCE;
        if begins < from + FULL + TOLERANCE {
            break;
        }
        if let Some((_, high)) = treads.iter().skip(at + 1).rev().find(over) {
            least = Some(least.map_or(high - low, |least| least.min(high - low)));
        }
    }
    Ok(least)
}

/// Degrees; turns are written to a tenth or so.
const TOLERANCE: f64 = 0.01;

fn room_of_flights(w: &Evaluation<'_>, flight: Id) -> Result<Option<f64>, Missing> {
    let later: Vec<Id> = all(w, kinds::FLIGHT, 0)?.filter(|other| *other > flight).collect();
    if later.len() < 2 || w.things(kinds::WINDERS, flight)?.next().is_some() {
        return Ok(None);
    }
    let width = w.number(flight, properties::WIDTH);
    let own = nosing_line(w, flight);
    let (mut heading, mut along, mut aside, mut up) = (0.0_f64, 0.0, 0.0, 0.0);
    let mut before = flight;
    let mut least: Option<f64> = None;
    for next in later {
        let (sin, cos) = heading.to_radians().sin_cos();
        let run = w.number(before, RUN)?;
        (along, aside, up) = (along + run * cos, aside + run * sin, up + w.number(before, RISE)?);
        for landing in all(w, kinds::LANDING, 0)?.filter(|landing| before < *landing && *landing < next) {
            heading += match turn(w, landing)?.as_ref() {
                "quarter left" => 90.0,
                "quarter right" => -90.0,
                "half left" => 180.0,
                "half right" => -180.0,
                _ => 0.0,
            };
        }
        let winds = w.things(kinds::WINDERS, next)?.next().is_some();
        if winds || w.word(next, SPIRAL)? == "yes" {
            break;
        }
        // Once round one way it lies over this one again, unless the flights between led it past.
        if (heading.abs() - FULL).abs() < TOLERANCE && aside.abs() < *width.as_ref().map_err(|missing| *missing)? {
            let (own, over) = (own.as_ref().map_err(|missing| *missing)?, nosing_line(w, next)?);
            let end = |line: &[(f64, f64)]| line.last().map_or(0.0, |point| point.0);
            let (from, to) = (along.max(0.0), end(own).min(along + end(&over)));
            for x in [from, to].into_iter().chain(own.iter().map(|point| point.0)).filter(|x| from <= *x && *x <= to) {
                let room = up + height_of(&over, x - along) - height_of(own, x);
                least = Some(least.map_or(room, |least| least.min(room)));
            }
        }
        before = next;
    }
    Ok(least)
}
