//! A freestanding stair that is stepped on at its edge: what holds it down over what tips it.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::Amount;
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

const STATICS: Cited = Cited::derived("statics");

/// The factor that is asked for: on dead load only. New York City Administrative Code, 27-591, seen; an industry's practice asks
/// the same.
pub const WANTED: f64 = 1.5;

/// Where what weighs so much at a level distance has its middle together with what weighed before it: both weight and distance.
///
/// # Errors
///
/// Where they weigh nothing.
pub fn together(
    w: &mut Working,
    before: (Amount, Amount),
    these: (Amount, Amount),
) -> Result<(Amount, Amount), Outside> {
    given!(w, W_0 = before.0, "those before", Cited::STATED);
    given!(w, x_0 = before.1, "their distance from the front edge", Cited::STATED);
    given!(w, W_i = these.0, "what is added to them", Cited::STATED);
    given!(w, x_i = these.1, "its distance from the front edge", Cited::STATED);
    step!(w, W = W_0 + W_i, "together", STATICS);
    step!(w, x = (W_0 * x_0 + W_i * x_i) / W, "their distance together", STATICS);
    Ok((found(W)?, found(x)?))
}

/// What holds a stair down over what tips it about the foot nearest the load. Only dead load and drawn anchors hold.
///
/// `weight` acts at a level distance behind the foot about which it would tip, `load` at one before it; `anchor` is a
/// hold-down's moment about that foot, or nothing. Where the load stands behind the foot it tips nothing: there is no
/// factor, and that is said by an infinite one.
///
/// # Errors
///
/// Where the weight or the load is nothing.
pub fn overturning(
    w: &mut Working,
    weight: Amount,
    weight_behind: Amount,
    load: Amount,
    load_before: Amount,
    anchor: Amount,
) -> Result<Tipping, Outside> {
    if !(weight.is_positive() && load.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, W = weight, "dead load", Cited::STATED);
    given!(w, x_w = weight_behind, "its distance behind the foot", Cited::STATED);
    given!(w, P = load, "load", Cited::STATED);
    given!(w, x_p = load_before, "its distance before the foot", Cited::STATED);
    given!(w, M_a = anchor, "moment of the anchors", Cited::STATED);
    step!(w, M_r = W * x_w + M_a, "moment that holds it down", STATICS);
    step!(w, M_o = P * x_p, "moment that tips it", STATICS);
    let (M_r, M_o) = (found(M_r)?, found(M_o)?);
    if !M_o.is_positive() {
        return Ok(Tipping::Never);
    }
    step!(w, factor = M_r / M_o, "holding over tipping", STATICS);
    Ok(Tipping::Factor(found(factor)?))
}

/// Whether a load tips a stair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tipping {
    /// It stands over or behind the foot.
    Never,
    /// What holds over what tips.
    Factor(Amount),
}
