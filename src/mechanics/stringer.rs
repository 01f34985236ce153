//! A stringer under its load: a sloped beam, reckoned over its level span.
#![allow(non_snake_case, reason = "symbols as the handbooks write them")]

use super::amount::{Amount, cos, fourth, sin, squared};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// What a plumb load does to a sloped stringer on two supports.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sloped {
    /// Largest moment.
    pub moment: Amount,
    /// Force on each support, plumb.
    pub reaction: Amount,
    /// Shear across the stringer.
    pub shear: Amount,
    /// Force along the stringer, which shows and is not held against anything.
    pub axial: Amount,
    /// Deflection square to the slope.
    pub deflection: Amount,
    /// Length along the slope, which the deflection is a part of.
    pub length: Amount,
}

const STATICS: Cited = Cited::derived("statics");

/// The effects of a plumb load `q` on each level length, over a level span `L` at an angle to the level, on a stringer of
/// stiffness `EI`. Moment and reaction go by the level span; shear and axial force are the reaction across and along the
/// slope; for the deflection the load is taken across the slope and on its length.
///
/// # Errors
///
/// Where the span or the stiffness is nothing, or the slope is plumb.
pub fn sloped(
    w: &mut Working,
    load: Amount,
    span: Amount,
    angle: Amount,
    stiffness: Amount,
) -> Result<Sloped, Outside> {
    if !(span.is_positive() && stiffness.is_positive() && cos(angle).is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, q = load, "load on the level length", Cited::STATED);
    given!(w, L = span, "level span", Cited::STATED);
    given!(w, slope = angle, "slope", Cited::STATED);
    given!(w, EI = stiffness, "stiffness", STATICS);
    step!(w, M = q * squared(L) / 8.0, "moment", STATICS);
    step!(w, R = q * L / 2.0, "force on a support", STATICS);
    step!(w, V = R * cos(slope), "shear across the stringer", STATICS);
    step!(w, N = R * sin(slope), "force along the stringer", STATICS);
    step!(w, q_s = q * squared(cos(slope)), "load across the stringer on its length", STATICS);
    step!(w, L_s = L / cos(slope), "length along the slope", STATICS);
    step!(w, y = 5.0 * q_s * fourth(L_s) / (384.0 * EI), "deflection square to the slope", STATICS);
    Ok(Sloped {
        moment: found(M)?,
        reaction: found(R)?,
        shear: found(V)?,
        axial: found(N)?,
        deflection: found(y)?,
        length: found(L_s)?,
    })
}

/// Shear and force on the support of a stringer over props between its ends, where it is most: it may run over them in one
/// piece, which puts more on a prop than two pieces would. Coefficients of two equal spans.
///
/// # Errors
///
/// Where the span is nothing, or the slope is plumb.
pub fn over_a_prop(w: &mut Working, load: Amount, span: Amount, angle: Amount) -> Result<(Amount, Amount), Outside> {
    if !(span.is_positive() && cos(angle).is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, q = load, "load on the level length", Cited::STATED);
    given!(w, L = span, "level span", Cited::STATED);
    given!(w, slope = angle, "slope", Cited::STATED);
    step!(w, R = 10.0 * q * L / 8.0, "force on a prop", STATICS);
    step!(w, V = 5.0 * q * L / 8.0 * cos(slope), "shear across the stringer beside it", STATICS);
    Ok((found(R)?, found(V)?))
}

/// The moment near a support, so far in from it on the level: of an even load, by the force on the support.
///
/// # Errors
///
/// Where the span is nothing, or the place is past its middle.
pub fn moment_beside(w: &mut Working, reaction: Amount, reach: Amount, span: Amount) -> Result<Amount, Outside> {
    if !span.is_positive() || (span / 2.0).is_below(reach) || reach.in_base() < 0.0 {
        return Err(Outside::NothingThere);
    }
    given!(w, R = reaction, "force on the support", STATICS);
    given!(w, x = reach, "level, from the support", Cited::STATED);
    given!(w, L = span, "level span", Cited::STATED);
    step!(w, M_x = R * x * (1.0 - x / L), "moment there", STATICS);
    found(M_x)
}

/// The load on each level length of a stringer: a load on an area over half the distance to each neighbour.
pub fn line_load(w: &mut Working, area_load: Amount, left: Amount, right: Amount) -> Result<Amount, Outside> {
    given!(w, p = area_load, "load on the area", Cited::STATED);
    given!(w, s_l = left, "distance to the left neighbour", Cited::STATED);
    given!(w, s_r = right, "distance to the right neighbour", Cited::STATED);
    step!(w, q = p * (s_l + s_r) / 2.0, "load on the length", STATICS);
    found(q)
}
