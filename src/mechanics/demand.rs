//! What is asked of a part: loads taken together, what reaches its ends, and what is asked over what it takes.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::{Amount, cos, greatest};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

const STATICS: Cited = Cited::derived("statics");
const TOGETHER: Cited = Cited { source: "ASCE 7 2.4.1", edition: "", certainty: crate::handbook::Certainty::Memory };
const GEOMETRY: Cited = Cited::derived("plane geometry");

/// Dead and live load taken together, each a load on an area.
///
/// # Errors
///
/// Where one of them is no load on an area.
pub fn dead_and_live(w: &mut Working, dead: Amount, live: Amount) -> Result<Amount, Outside> {
    given!(w, p_D = dead, "dead load", Cited::STATED);
    given!(w, p_L = live, "live load", Cited::STATED);
    step!(w, p = p_D + p_L, "dead and live load, D + L", TOGETHER);
    found(p)
}

/// The force on the end of a tread that is held at both: the single load beside that end with the dead load, or the live
/// load with it, whichever is greater.
///
/// # Errors
///
/// Where the loads are none of their dimension.
pub fn end_of_a_tread(
    w: &mut Working,
    (run, length): (Amount, Amount),
    (dead, live, single): (Amount, Amount, Amount),
) -> Result<Amount, Outside> {
    given!(w, run = run, "run of the tread", Cited::STATED);
    given!(w, length = length, "its length", Cited::STATED);
    step!(w, A = run * length / 2.0, "half of the tread", GEOMETRY);
    given!(w, p_D = dead, "dead load", Cited::STATED);
    given!(w, p_L = live, "live load", Cited::STATED);
    given!(w, P = single, "single load", Cited::STATED);
    step!(w, R_P = P + p_D * A, "single load beside the end, and dead load", STATICS);
    step!(w, R_L = (p_D + p_L) * A, "dead and live load", STATICS);
    step!(w, R = greatest(R_P, R_L), "force on the end, the greater", STATICS);
    found(R)
}

/// What a length on the level is along a slope.
///
/// # Errors
///
/// Where the slope is plumb.
pub fn along_the_slope(w: &mut Working, level: Amount, angle: Amount) -> Result<Amount, Outside> {
    given!(w, L_h = level, "on the level", Cited::STATED);
    given!(w, slope = angle, "slope", Cited::STATED);
    if !cos(slope).is_positive() {
        return Err(Outside::NothingThere);
    }
    step!(w, L = L_h / cos(slope), "along the slope", GEOMETRY);
    found(L)
}

/// The moment of a push in the middle of one span.
///
/// # Errors
///
/// Where push or span is nothing.
pub fn moment_in_the_middle(w: &mut Working, push: Amount, span: Amount) -> Result<Amount, Outside> {
    if !(push.is_positive() && span.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, P = push, "push in the middle", Cited::STATED);
    given!(w, L = span, "span", Cited::STATED);
    step!(w, M = P * L / 4.0, "moment", STATICS);
    found(M)
}

/// What is asked of a part over what it takes.
///
/// # Errors
///
/// Where it takes nothing, or the two are of different dimensions.
pub fn ratio(w: &mut Working, demand: Amount, capacity: Amount) -> Result<Amount, Outside> {
    given!(w, demand = demand, "what is asked of it", STATICS);
    given!(w, capacity = capacity, "what it takes", STATICS);
    step!(w, ratio = demand / capacity, "demand over capacity", STATICS);
    if ratio.dimension() == crate::measure::Dimension::NUMBER { found(ratio) } else { Err(Outside::Undefined) }
}
