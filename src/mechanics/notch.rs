//! Notches at a bearing, fastenings near an end, and the throat of a cut stringer.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, sqrt, squared};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

const NOTCH: Cited = Cited::memory("NDS 3.4.3.2(a)");
const TOP_NOTCH: Cited = Cited::memory("NDS 3.4.3.2(d)");
const FASTENED: Cited = Cited::memory("NDS 3.4.3.3");
const STATED: Cited = Cited::STATED;

/// Which face of a member is notched at its bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Notched {
    /// The one that is stretched: the lower, over a support.
    Stretched,
    /// The one that is pressed, so far in from the face of the support.
    Pressed(Amount),
}

/// The shear that a member of depth `d` and width `b` takes where `d_n` of it is left at its bearing, `V_r'`: NDS 3.4.3.2.
///
/// # Errors
///
/// Where more than a quarter of the depth is taken on the stretched face (NDS 4.4.3), or nothing is left.
pub fn notched_shear(
    w: &mut Working,
    shear_value: Amount,
    width: Amount,
    depth: Amount,
    left: Amount,
    notched: Notched,
) -> Result<Amount, Outside> {
    if !(left.is_positive() && width.is_positive()) || depth.is_below(left) {
        return Err(Outside::NothingThere);
    }
    given!(w, F_v_adj = shear_value, "adjusted shear value", NOTCH);
    given!(w, b = width, "width", STATED);
    given!(w, d = depth, "depth", STATED);
    given!(w, d_n = left, "depth left at the notch", STATED);
    match notched {
        Notched::Stretched => {
            if (0.25 * d).is_below(d - d_n) {
                return Err(Outside::Notch);
            }
            step!(w, V_r = 2.0 / 3.0 * (F_v_adj * b * d_n) * squared(d_n / d), "shear at the notch", NOTCH);
            found(V_r)
        }
        Notched::Pressed(reach) => {
            let reach = super::amount::least(reach, d_n);
            given!(w, e = reach, "reach of the notch from the support, no more than d_n", STATED);
            step!(w, V_r = 2.0 / 3.0 * F_v_adj * b * (d - e * (d - d_n) / d_n), "shear at the notch", TOP_NOTCH);
            found(V_r)
        }
    }
}

/// The shear that a member takes where fasteners hang a load on it, `d_e` from its unloaded edge to the farthest one's row:
/// NDS 3.4.3.3. Nearer its end than five depths the ratio counts squared.
///
/// # Errors
///
/// Where a size is nothing.
pub fn fastened_shear(
    w: &mut Working,
    shear_value: Amount,
    width: Amount,
    depth: Amount,
    effective: Amount,
    from_end: Amount,
) -> Result<Amount, Outside> {
    if !(effective.is_positive() && width.is_positive()) || depth.is_below(effective) {
        return Err(Outside::NothingThere);
    }
    given!(w, F_v_adj = shear_value, "adjusted shear value", FASTENED);
    given!(w, b = width, "width", STATED);
    given!(w, d = depth, "depth", STATED);
    given!(w, d_e = effective, "depth less the distance from the unloaded edge", STATED);
    if from_end.is_below(5.0 * d) {
        step!(
            w,
            V_r = 2.0 / 3.0 * (F_v_adj * b * d_e) * squared(d_e / d),
            "shear at the joint, near the end",
            FASTENED
        );
        return found(V_r);
    }
    step!(w, V_r = 2.0 / 3.0 * (F_v_adj * b * d_e), "shear at the joint", FASTENED);
    found(V_r)
}

/// The wood left square to the slope below the cuts of a stringer, by the largest rise and run that are cut in it.
///
/// # Errors
///
/// Where the cuts leave nothing.
pub fn throat(w: &mut Working, depth: Amount, rise: Amount, run: Amount) -> Result<Amount, Outside> {
    let geometry = Cited::derived("plane geometry");
    given!(w, d = depth, "depth of the board", STATED);
    given!(w, R = rise, "largest rise", STATED);
    given!(w, T = run, "largest run", STATED);
    step!(w, d_t = d - R * T / sqrt(squared(R) + squared(T)), "throat", geometry);
    if d_t.is_positive() { Ok(d_t) } else { Err(Outside::NothingThere) }
}
