//! A post under load along its grain: what of a landing or a flight it carries, and how slender it is.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::{Amount, sqrt, squared};
use super::outside::Outside;
use super::working::{Assumption, Working, found, given, step};
use crate::handbook::Cited;

/// A post as a column: its weaker way and its area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// The lesser way; of a round one the side of a square of the same area.
    pub way: Amount,
    /// Its area.
    pub area: Amount,
}

const STATICS: Cited = Cited::derived("statics");
const GEOMETRY: Cited = Cited::derived("plane geometry");

/// A column by its section: a rectangle, or a round one, which counts as a square of the same area by NDS 3.7.3.
///
/// # Errors
///
/// Where a way of it is nothing.
pub fn column(w: &mut Working, (lesser, greater): (Amount, Amount), round: bool) -> Result<Column, Outside> {
    if !(lesser.is_positive() && greater.is_positive()) {
        return Err(Outside::NothingThere);
    }
    if round {
        let pi = std::f64::consts::PI;
        given!(w, D = lesser, "diameter", Cited::STATED);
        step!(w, A = pi * squared(D) / 4.0, "area", GEOMETRY);
        step!(w, d = sqrt(A), "side of a square of the same area", Cited::memory("NDS 3.7.3"));
        return Ok(Column { way: found(d)?, area: found(A)? });
    }
    given!(w, d = lesser, "weaker way", Cited::STATED);
    given!(w, b = greater, "other way", Cited::STATED);
    step!(w, A = b * d, "area", GEOMETRY);
    Ok(Column { way: d, area: found(A)? })
}

/// The effective length of a column: its height, where both its ends are held against moving sideways.
///
/// # Errors
///
/// Where its height is nothing.
pub fn effective_length(w: &mut Working, height: Amount) -> Result<Amount, Outside> {
    if !height.is_positive() {
        return Err(Outside::NothingThere);
    }
    w.assume(Assumption::HeldInPlace);
    given!(w, l = height, "height of the post", Cited::STATED);
    given!(w, K_e = 1.0, "buckling length: both ends held in place, free to turn", Cited::memory("NDS Appendix G"));
    step!(w, l_e = K_e * l, "effective length", Cited::memory("NDS 3.7.1.2"));
    found(l_e)
}

/// Effective length over the weaker way.
///
/// # Errors
///
/// Where the way is nothing.
pub fn slenderness(w: &mut Working, effective_length: Amount, way: Amount) -> Result<Amount, Outside> {
    given!(w, l_e = effective_length, "effective length", Cited::STATED);
    given!(w, d = way, "weaker way", Cited::STATED);
    step!(w, s = l_e / d, "slenderness", Cited::memory("NDS 3.7.1"));
    found(s)
}

/// What share of an evenly loaded floor the leg carries that carries most, of so many: which stands where no drawing says. Of
/// two or three one may stand alone under an edge; of five or more one in a row of three carries five eighths of that row.
pub fn share_of_a_leg(legs: f64) -> f64 {
    match legs {
        legs if legs < 3.5 => 1.0 / 2.0,
        legs if legs < 4.5 => 1.0 / 4.0,
        legs if legs < 6.5 => 1.0 / 3.0,
        legs => 2.0 / legs,
    }
}

/// What a flight brings to the edge that it begins or ends at: half of what lies on it.
///
/// # Errors
///
/// Where it comes to no force.
pub fn end_of_a_flight(w: &mut Working, load: Amount, run: Amount, width: Amount) -> Result<Amount, Outside> {
    given!(w, p = load, "load on the area of the flight", STATICS);
    given!(w, run = run, "run of the flight", Cited::STATED);
    given!(w, width = width, "its width", Cited::STATED);
    step!(w, R_i = p * width * run / 2.0, "what an end of the flight brings", STATICS);
    found(R_i)
}

/// What several flights bring together.
pub fn with_flights_before(w: &mut Working, before: Amount, flight: Amount) -> Amount {
    given!(w, R_0 = before, "flights before", STATICS);
    given!(w, R_i = flight, "what an end of the flight brings", STATICS);
    step!(w, R_f = R_0 + R_i, "what the flights bring so far", STATICS);
    R_f
}

/// The load on the leg of a landing that carries most: its share of the floor, and all that the flights bring, for where along
/// the edge they hang no drawing says.
///
/// # Errors
///
/// Where it comes to no force.
pub fn on_a_leg(
    w: &mut Working,
    load: Amount,
    (depth, width): (Amount, Amount),
    share: f64,
    flights: Amount,
) -> Result<Amount, Outside> {
    given!(w, p = load, "load on the area of the landing", STATICS);
    given!(w, depth = depth, "depth of the landing", Cited::STATED);
    given!(w, width = width, "its width", Cited::STATED);
    given!(w, k = share, "share of it on the leg that carries most", STATICS);
    given!(w, R_f = flights, "what the flights bring", STATICS);
    step!(w, P = k * p * depth * width + R_f, "load on that leg", STATICS);
    if P.is_positive() { found(P) } else { Err(Outside::NothingThere) }
}

/// The stress of a load along the grain of a column.
///
/// # Errors
///
/// Where it comes to no number.
pub fn stress(w: &mut Working, load: Amount, area: Amount) -> Result<Amount, Outside> {
    given!(w, P = load, "load along the post", STATICS);
    given!(w, A = area, "area", GEOMETRY);
    step!(w, f_c = P / A, "stress along the grain", Cited::memory("NDS 3.6.3"));
    found(f_c)
}
