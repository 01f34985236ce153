//! What moisture does: the weight of wood, and how far it shrinks and swells.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::{Amount, POUNDS_PER_CUBIC_FOOT, least};
use super::gravity::SpecificGravity;
use super::outside::{Lacking, Outside};
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

const WEIGHT: Cited = Cited::seen("NDS Supplement 3.1.3");
const MOVES: Cited = Cited::reproduced("Wood Handbook, chapter 13");

/// The weight of wood on each volume, by its oven-dry specific gravity and its moisture in percent. Above 30 % only water is added.
///
/// # Errors
///
/// Where the gravity or the moisture is no number above nothing.
pub fn weight(w: &mut Working, gravity: impl Into<SpecificGravity>, moisture: f64) -> Result<Amount, Outside> {
    let gravity = gravity.into();
    if !(gravity.value.is_finite() && gravity.value > 0.0 && moisture.is_finite() && moisture >= 0.0) {
        return Err(Outside::Lacking(Lacking::Gravity));
    }
    given!(w, G = gravity.value, "specific gravity, oven-dry", gravity.cited);
    given!(w, MC = moisture, "moisture, percent", Cited::STATED);
    step!(w, bound = least(MC, 30.0), "of it what swells the wood", WEIGHT);
    step!(
        w,
        weight = 62.4 * POUNDS_PER_CUBIC_FOOT * (G / (1.0 + G * 0.009 * bound)) * (1.0 + MC / 100.0),
        "weight on each volume",
        WEIGHT
    );
    found(weight)
}

/// The weight of some pieces alike, by the weight on each volume.
///
/// # Errors
///
/// Where a size is nothing.
pub fn pieces(
    w: &mut Working,
    (across, along): ((Amount, Amount), Amount),
    count: f64,
    weight: Amount,
) -> Result<Amount, Outside> {
    given!(w, b = across.0, "thickness", Cited::STATED);
    given!(w, d = across.1, "width", Cited::STATED);
    given!(w, l = along, "length", Cited::STATED);
    given!(w, n = count, "how many", Cited::STATED);
    step!(w, W_i = b * d * l * n * weight, "what they weigh", Cited::derived("plane geometry"));
    if W_i.is_positive() { Ok(W_i) } else { Err(Outside::NothingThere) }
}

/// The weight of pieces added to that of those before.
pub fn with_those_before(w: &mut Working, before: Amount, pieces: Amount) -> Amount {
    given!(w, W_0 = before, "those before", Cited::derived("plane geometry"));
    given!(w, W_i = pieces, "what they weigh", Cited::derived("plane geometry"));
    step!(w, W_all = W_0 + W_i, "what all weigh so far", Cited::derived("plane geometry"));
    W_all
}

/// The weight of wood on each volume, by its specific gravity on its volume at a moisture in percent, as handbooks of wood
/// give it: another scale than the oven-dry one of fasteners.
///
/// # Errors
///
/// Where the gravity or the moisture is no number above nothing.
pub fn weight_by_own_volume(w: &mut Working, gravity: f64, moisture: f64) -> Result<Amount, Outside> {
    if !(gravity.is_finite() && gravity > 0.0 && moisture.is_finite() && moisture >= 0.0) {
        return Err(Outside::Lacking(Lacking::Gravity));
    }
    let cited =
        Cited { source: "Wood Handbook, chapter 4", edition: "", certainty: crate::handbook::Certainty::Memory };
    given!(w, G_m = gravity, "specific gravity on the volume at its moisture", Cited::STATED);
    given!(w, MC = moisture, "moisture, percent", Cited::STATED);
    step!(w, weight = 62.4 * POUNDS_PER_CUBIC_FOOT * G_m * (1.0 + MC / 100.0), "weight on each volume", cited);
    found(weight)
}

/// The coefficient by which wood moves with each percent of moisture, by its whole shrinkage (percent) and its fibre saturation
/// point (percent), about 10 % of moisture.
///
/// # Errors
///
/// Where it shrinks by nothing.
pub fn movement(w: &mut Working, shrinkage: f64, saturation: f64) -> Result<Amount, Outside> {
    if !(shrinkage.is_finite() && shrinkage > 0.0 && saturation.is_finite() && saturation > 10.0) {
        return Err(Outside::NothingThere);
    }
    given!(w, S_0 = shrinkage, "shrinkage to oven-dry, percent", MOVES);
    given!(w, f = saturation, "fibre saturation point, percent", MOVES);
    step!(w, C = 1.0 / (100.0 * f / S_0 - f + 10.0), "movement with each percent of moisture", MOVES);
    found(C)
}

/// How much a width changes from one moisture to another (percent), by that coefficient; less than nothing where it shrinks.
/// The figures hold between 6 and 14 %, and roughly up to the fibre saturation point.
pub fn change(w: &mut Working, width: Amount, coefficient: Amount, from: f64, to: f64) -> Result<Amount, Outside> {
    given!(w, d = width, "width", Cited::STATED);
    given!(w, C = coefficient, "movement with each percent of moisture", MOVES);
    given!(w, M_i = from, "moisture at first, percent", Cited::STATED);
    given!(w, M_f = to, "moisture at last, percent", Cited::STATED);
    step!(w, change = d * C * (M_f - M_i), "change", MOVES);
    found(change)
}

/// Which way of a sawn board shrinks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Board {
    /// Its width.
    Width,
    /// Its thickness.
    Thickness,
}

/// Shrinkage of a sawn board from green, percent, at a moisture of 8 to 19 %, whichever way its rings lie.
///
/// # Errors
///
/// Outside that moisture.
pub fn board_shrinkage(w: &mut Working, way: Board, moisture: f64) -> Result<Amount, Outside> {
    if !(8.0..=19.0).contains(&moisture) {
        return Err(Outside::Undefined);
    }
    let cited = Cited { source: "FPL-RP-489", edition: "", certainty: crate::handbook::Certainty::Seen };
    given!(w, MC = moisture, "moisture, percent", Cited::STATED);
    match way {
        Board::Width => {
            step!(w, S_b = 6.031 - 0.215 * MC, "shrinkage of the width, percent", cited);
            found(S_b)
        }
        Board::Thickness => {
            step!(w, S_b = 5.062 - 0.181 * MC, "shrinkage of the thickness, percent", cited);
            found(S_b)
        }
    }
}
