//! A guard post that is pushed at its top: the couple of its two fasteners, and what bears it.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::Amount;
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// The forces of a post's two rows of fasteners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Couple {
    /// Pull on the upper row, of a push outward.
    pub upper: Amount,
    /// Push on the lower row.
    pub lower: Amount,
    /// Moment in the post at the upper row.
    pub moment: Amount,
}

const STATICS: Cited = Cited::derived("statics");

/// The couple under a push `P` at a height `h` above the upper fastener, with the lower one `a` below it: `T = P (h + a) / a`,
/// `C = P h / a`.
///
/// # Errors
///
/// Where a height or the distance of the fasteners is nothing.
pub fn couple(w: &mut Working, push: Amount, height: Amount, apart: Amount) -> Result<Couple, Outside> {
    if !(push.is_positive() && height.is_positive() && apart.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, P = push, "push at the top", Cited::STATED);
    given!(w, h = height, "from the push to the upper fastener", Cited::STATED);
    given!(w, a = apart, "from the upper fastener to the lower", Cited::STATED);
    step!(w, T = P * (h + a) / a, "pull on the upper fastener", STATICS);
    step!(w, C = P * h / a, "push on the lower fastener", STATICS);
    step!(w, M = P * h, "moment in the post at the upper fastener", STATICS);
    Ok(Couple { upper: found(T)?, lower: found(C)?, moment: found(M)? })
}

/// How far the top of a post sways before its fasteners bear, by their slack in the holes over their distance.
pub fn slack_sway(w: &mut Working, slack: Amount, apart: Amount, height: Amount) -> Result<Amount, Outside> {
    if !(apart.is_positive() && height.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, slack = slack, "slack of a hole", Cited::STATED);
    given!(w, a = apart, "from the upper fastener to the lower", Cited::STATED);
    given!(w, h = height, "height of the post", Cited::STATED);
    step!(w, sway = slack / a * h, "sway before the fasteners bear", STATICS);
    found(sway)
}
