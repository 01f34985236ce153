//! The yield limit equations: the lateral value of one dowel is the least of the loads at which it, or what it bears against,
//! gives way.
//!
//! NDS 2018, Table 12.3.1A and 12.3.1B; all six modes come out as a worked example of the American Wood Council prints them.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, sqrt, squared};
use super::dowel::{Against, Dowel, bearing_strength, lateral_size};
use super::outside::{Lacking, Outside};
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// How many planes of a dowel the load shears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shear {
    /// One side member.
    Single,
    /// A side member on each side of the main one; the lesser of them counts.
    Double,
}

/// What a dowel bears against in one member, and over which length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// What it bears against.
    pub against: Against,
    /// Along the dowel.
    pub length: Amount,
}

const EQUATIONS: Cited = Cited::reproduced("NDS Table 12.3.1A");
const REDUCTION: Cited = Cited::reproduced("NDS Table 12.3.1B");

/// The reduction terms of the modes.
struct Reduction {
    one: Amount,
    two: Amount,
    three: Amount,
}

/// The reference lateral value of one dowel, `Z`.
///
/// # Errors
///
/// Where a length is nothing, or a bearing strength is not known.
pub fn reference(
    w: &mut Working,
    dowel: &Dowel,
    main: Bearing,
    side: Bearing,
    shear: Shear,
) -> Result<Amount, Outside> {
    if !(main.length.is_positive() && side.length.is_positive()) {
        return Err(Outside::NothingThere);
    }
    lateral_size(dowel.diameter)?;
    let in_yield = dowel.in_yield.ok_or(Outside::Lacking(Lacking::Root))?;
    let F_em = w.part("main member", |w| bearing_strength(w, dowel, main.against))?;
    let F_es = w.part("side member", |w| bearing_strength(w, dowel, side.against))?;
    let R_d = reduction(w, dowel, in_yield, main.against.angle(), side.against.angle())?;
    given!(w, D = in_yield, "diameter in the yield equations", dowel.cited);
    given!(w, l_m = main.length, "bearing length in the main member", Cited::STATED);
    given!(w, l_s = side.length, "bearing length in the side member", Cited::STATED);
    given!(w, F_em = F_em, "dowel bearing strength of the main member", EQUATIONS);
    given!(w, F_es = F_es, "dowel bearing strength of the side member", EQUATIONS);
    given!(w, F_yb = dowel.strength, "bending yield strength", Cited::reproduced("NDS Appendix I"));
    step!(w, R_e = F_em / F_es, "main member's strength over the side's", EQUATIONS);
    step!(w, R_t = l_m / l_s, "main member's length over the side's", EQUATIONS);
    given!(w, R_1 = R_d.one, "reduction term of mode I", REDUCTION);
    given!(w, R_2 = R_d.two, "reduction term of mode II", REDUCTION);
    given!(w, R_3 = R_d.three, "reduction term of modes III and IV", REDUCTION);
    step!(w, Z_Im = D * l_m * F_em / R_1, "main member gives way", EQUATIONS);
    let one = |w: &mut Working| {
        step!(w, Z_Is = D * l_s * F_es / R_1, "side member gives way", EQUATIONS);
        step!(
            w,
            k_1 = (sqrt(R_e + 2.0 * squared(R_e) * (1.0 + R_t + squared(R_t)) + squared(R_t) * R_e * squared(R_e))
                - R_e * (1.0 + R_t))
                / (1.0 + R_e),
            "",
            EQUATIONS
        );
        step!(w, Z_II = k_1 * D * l_s * F_es / R_2, "the dowel tilts in both", EQUATIONS);
        step!(
            w,
            k_2 = sqrt(2.0 * (1.0 + R_e) + 2.0 * F_yb * (1.0 + 2.0 * R_e) * squared(D) / (3.0 * F_em * squared(l_m)))
                - 1.0,
            "",
            EQUATIONS
        );
        step!(
            w,
            Z_IIIm = k_2 * D * l_m * F_em / ((1.0 + 2.0 * R_e) * R_3),
            "the dowel bends in the side member",
            EQUATIONS
        );
        [("Z_Is", Z_Is), ("Z_II", Z_II), ("Z_IIIm", Z_IIIm)]
    };
    let of_one_plane = if shear == Shear::Single { Some(one(w)) } else { None };
    step!(
        w,
        k_3 = sqrt(2.0 * (1.0 + R_e) / R_e + 2.0 * F_yb * (2.0 + R_e) * squared(D) / (3.0 * F_em * squared(l_s))) - 1.0,
        "",
        EQUATIONS
    );
    let Some([side_gives, tilts, bends]) = of_one_plane else {
        step!(w, Z_Is = 2.0 * D * l_s * F_es / R_1, "side members give way", EQUATIONS);
        step!(
            w,
            Z_IIIs = 2.0 * k_3 * D * l_s * F_em / ((2.0 + R_e) * R_3),
            "the dowel bends in the main member",
            EQUATIONS
        );
        step!(
            w,
            Z_IV = 2.0 * squared(D) / R_3 * sqrt(2.0 * F_em * F_yb / (3.0 * (1.0 + R_e))),
            "the dowel bends on both sides of each plane",
            EQUATIONS
        );
        let modes = [("Z_Im", Z_Im), ("Z_Is", Z_Is), ("Z_IIIs", Z_IIIs), ("Z_IV", Z_IV)];
        return found(w.least("Z", "reference lateral value", &modes, EQUATIONS));
    };
    step!(w, Z_IIIs = k_3 * D * l_s * F_em / ((2.0 + R_e) * R_3), "the dowel bends in the main member", EQUATIONS);
    step!(
        w,
        Z_IV = squared(D) / R_3 * sqrt(2.0 * F_em * F_yb / (3.0 * (1.0 + R_e))),
        "the dowel bends on both sides of the plane",
        EQUATIONS
    );
    let modes = [("Z_Im", Z_Im), side_gives, tilts, bends, ("Z_IIIs", Z_IIIs), ("Z_IV", Z_IV)];
    found(w.least("Z", "reference lateral value", &modes, EQUATIONS))
}

/// The reduction terms: by the angle for 1/4 in and over, by the diameter below it, by both where a thread of 1/4 in and
/// over has a root below it.
fn reduction(w: &mut Working, dowel: &Dowel, in_yield: Amount, main: f64, side: f64) -> Result<Reduction, Outside> {
    let root = in_yield.per(INCHES);
    let small = root < 0.25 - 1e-6;
    let by_diameter = if small {
        given!(w, D = in_yield, "diameter in the yield equations", dowel.cited);
        if root <= 0.17 + 1e-9 {
            Some(w.given("K_D", "reduction by diameter, up to 0.17 in", 2.2, REDUCTION))
        } else {
            step!(w, K_D = 10.0 * D / INCHES + 0.5, "reduction by diameter", REDUCTION);
            Some(K_D)
        }
    } else {
        None
    };
    let by_angle = if dowel.is_large() {
        let turned = |angle: f64| {
            let angle = angle.abs().min(180.0);
            if angle > 90.0 { 180.0 - angle } else { angle }
        };
        let largest = turned(main).max(turned(side));
        given!(w, theta_90 = largest / 90.0, "largest angle to the grain, over 90 degrees", Cited::STATED);
        step!(w, K_theta = 1.0 + 0.25 * theta_90, "reduction by angle", REDUCTION);
        Some(K_theta)
    } else {
        None
    };
    match (by_diameter, by_angle) {
        (Some(K_D), Some(K_theta)) => {
            step!(w, R_d = K_D * K_theta, "reduction term of all modes", REDUCTION);
            Ok(Reduction { one: R_d, two: R_d, three: R_d })
        }
        (Some(K_D), None) => Ok(Reduction { one: K_D, two: K_D, three: K_D }),
        (None, Some(K_theta)) => {
            step!(w, R_1 = 4.0 * K_theta, "reduction term of mode I", REDUCTION);
            step!(w, R_2 = 3.6 * K_theta, "reduction term of mode II", REDUCTION);
            step!(w, R_3 = 3.2 * K_theta, "reduction term of modes III and IV", REDUCTION);
            Ok(Reduction { one: R_1, two: R_2, three: R_3 })
        }
        // A wood screw whose root is 1/4 in and over: across the grain, the worst, since its strength knows no angle.
        (None, None) => {
            given!(w, K_theta = 1.25, "reduction by angle, the largest", REDUCTION);
            step!(w, R_1 = 4.0 * K_theta, "reduction term of mode I", REDUCTION);
            step!(w, R_2 = 3.6 * K_theta, "reduction term of mode II", REDUCTION);
            step!(w, R_3 = 3.2 * K_theta, "reduction term of modes III and IV", REDUCTION);
            Ok(Reduction { one: R_1, two: R_2, three: R_3 })
        }
    }
}
