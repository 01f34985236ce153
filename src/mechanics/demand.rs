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

/// What parts alike weigh on each level area: so many of them, by their section and the weight on each volume, over the
/// level distance that they are spread across; sloped ones are longer than the level that they cover.
///
/// # Errors
///
/// Where they are spread over nothing, or the slope is plumb.
pub fn spread(
    w: &mut Working,
    (count, thickness, depth): (f64, Amount, Amount),
    weight: Amount,
    (over, angle): (Amount, Amount),
) -> Result<Amount, Outside> {
    if !(over.is_positive() && cos(angle).is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, n = count, "how many", Cited::STATED);
    given!(w, b = thickness, "thickness", Cited::STATED);
    given!(w, d = depth, "width", Cited::STATED);
    given!(w, s = over, "level distance that they are spread over", Cited::STATED);
    given!(w, slope = angle, "slope", Cited::STATED);
    step!(w, p_i = n * b * d * weight / (s * cos(slope)), "what they weigh on the area", GEOMETRY);
    found(p_i)
}

/// The weight of the kinds of parts together, each on an area.
pub fn with_those_before(w: &mut Working, before: Amount, parts: Amount) -> Amount {
    given!(w, p_0 = before, "those before", GEOMETRY);
    given!(w, p_i = parts, "what they weigh on the area", GEOMETRY);
    step!(w, p_all = p_0 + p_i, "what all weigh so far", GEOMETRY);
    p_all
}

/// The dead load: what the parts weigh, and at least so much.
///
/// # Errors
///
/// Where one of them is no load on an area.
pub fn dead(w: &mut Working, weight: Amount, least: (Amount, Cited)) -> Result<Amount, Outside> {
    given!(w, p_all = weight, "what the parts weigh", GEOMETRY);
    given!(w, p_least = least.0, "least dead load", least.1);
    step!(w, p_D = greatest(p_all, p_least), "dead load, the greater", STATICS);
    found(p_D)
}

/// What comes and goes: the live load, the snow, or three quarters of both, whichever is greatest.
///
/// # Errors
///
/// Where one of them is no load on an area.
pub fn live_or_snow(w: &mut Working, live: Amount, snow: Amount) -> Result<Amount, Outside> {
    given!(w, p_L = live, "live load", Cited::STATED);
    given!(w, p_S = snow, "snow", Cited::STATED);
    step!(w, p_LS = 0.75 * (p_L + p_S), "live load and snow, 0.75 (L + S)", TOGETHER);
    step!(w, p_v = greatest(greatest(p_L, p_S), p_LS), "the greatest of live load, snow and both", TOGETHER);
    found(p_v)
}

/// Dead load and snow taken together, each a load on an area.
///
/// # Errors
///
/// Where one of them is no load on an area.
pub fn dead_and_snow(w: &mut Working, dead: Amount, snow: Amount) -> Result<Amount, Outside> {
    given!(w, p_D = dead, "dead load", Cited::STATED);
    given!(w, p_S = snow, "snow", Cited::STATED);
    step!(w, p = p_D + p_S, "dead load and snow, D + S", TOGETHER);
    found(p)
}

/// Dead load with live load and snow, each a load on an area.
///
/// # Errors
///
/// Where one of them is no load on an area.
pub fn dead_live_and_snow(w: &mut Working, dead: Amount, live: Amount, snow: Amount) -> Result<Amount, Outside> {
    given!(w, p_D = dead, "dead load", Cited::STATED);
    given!(w, p_L = live, "live load", Cited::STATED);
    given!(w, p_S = snow, "snow", Cited::STATED);
    step!(w, p = p_D + 0.75 * (p_L + p_S), "dead load, live load and snow, D + 0.75 (L + S)", TOGETHER);
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
