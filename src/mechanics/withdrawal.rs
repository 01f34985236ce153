//! Screws and nails pulled along their length: withdrawal, the pull of a head through the wood, and both with a load across.
//! NDS 2018, 12.2 and 12.4.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, POUNDS, PSI, cos, least, power, sin, sqrt, squared};
use super::dowel::{Dowel, DowelKind};
use super::gravity::SpecificGravity;
use super::lateral::{Enters, Meets, Moisture, joint_duration};
use super::outside::{Lacking, Outside};
use super::working::{Assumption, Working, found, given, step};
use crate::handbook::{self, Cited, Factor};

/// What a nail is like, for how it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shank {
    /// Smooth, of carbon steel, bright or galvanised.
    Smooth,
    /// Smooth, of stainless steel: it holds less.
    SmoothStainless,
    /// With rings, hardened.
    Rings,
}

const LAG: Cited = Cited::seen("NDS 12.2.1.1");
const SCREW: Cited = Cited::seen("NDS 12.2.2.1");
const NAIL: Cited = Cited::reproduced("NDS 12.2.3.1");
const STAINLESS: Cited = Cited::memory("NDS 12.2.3.2");
const RINGS: Cited = Cited::memory("NDS 12.2.3, post-frame ring shank");
const HEAD: Cited = Cited::memory("NDS 12.2.5");
const COMBINED: Cited = Cited::memory("NDS 12.4.1, 12.4.2");
const ADJUSTED: Cited = Cited::seen("NDS Table 11.3.1");

/// The reference withdrawal value of a lag screw on each length of its thread, `W`, without the tip.
///
/// # Errors
///
/// Where the specific gravity or the diameter is no number above nothing.
pub fn lag(w: &mut Working, G: impl Into<SpecificGravity>, diameter: Amount) -> Result<Amount, Outside> {
    let G = G.into().of_wood()?;
    if !diameter.is_positive() {
        return Err(Outside::NothingThere);
    }
    given!(w, G = G.value, "specific gravity", G.cited);
    given!(w, D = diameter, "diameter", Cited::STATED);
    step!(
        w,
        W = 1800.0 * POUNDS / INCHES * power(G, 1.5) * power(D / INCHES, 0.75),
        "withdrawal value on each length of thread",
        LAG
    );
    found(W)
}

/// The same of a wood screw.
///
/// # Errors
///
/// Where the specific gravity or the diameter is no number above nothing.
pub fn wood_screw(w: &mut Working, G: impl Into<SpecificGravity>, diameter: Amount) -> Result<Amount, Outside> {
    let G = G.into().of_wood()?;
    if !diameter.is_positive() {
        return Err(Outside::NothingThere);
    }
    given!(w, G = G.value, "specific gravity", G.cited);
    given!(w, D = diameter, "diameter", Cited::STATED);
    step!(
        w,
        W = 2850.0 * POUNDS / INCHES * squared(G) * (D / INCHES),
        "withdrawal value on each length of thread",
        SCREW
    );
    found(W)
}

/// The same of a nail, on each length that goes in.
///
/// # Errors
///
/// Where the specific gravity or the diameter is no number above nothing.
pub fn nail(w: &mut Working, G: impl Into<SpecificGravity>, diameter: Amount, shank: Shank) -> Result<Amount, Outside> {
    let G = G.into().of_wood()?;
    if !diameter.is_positive() {
        return Err(Outside::NothingThere);
    }
    given!(w, G = G.value, "specific gravity", G.cited);
    given!(w, D = diameter, "diameter", Cited::STATED);
    let name = "withdrawal value on each length that goes in";
    match shank {
        Shank::Smooth => {
            step!(w, W = 1380.0 * POUNDS / INCHES * power(G, 2.5) * (D / INCHES), name, NAIL);
            found(W)
        }
        Shank::SmoothStainless => {
            step!(w, W = 465.0 * POUNDS / INCHES * power(G, 1.5) * (D / INCHES), name, STAINLESS);
            found(W)
        }
        Shank::Rings => {
            step!(w, W = 1800.0 * POUNDS / INCHES * squared(G) * (D / INCHES), name, RINGS);
            found(W)
        }
    }
}

/// Which moisture factor a withdrawal value has: NDS Table 11.3.3.
fn wet(kind: DowelKind, shank: Shank, moisture: Moisture) -> Option<&'static Factor> {
    let (of, when) = match (kind, shank, moisture) {
        (DowelKind::Nail, Shank::Rings, _) => ("withdrawal of threaded nails", "any"),
        // A nail outdoors is wet and dry in turn; only what is always wet or always dry keeps its hold.
        (DowelKind::Nail, _, Moisture::Dry) => ("withdrawal of smooth nails", "always dry or always wet"),
        (DowelKind::Nail, _, _) => ("withdrawal of smooth nails", "dry and wet in turn"),
        (_, _, Moisture::UsedWet) => ("withdrawal of lags and screws", "used wet"),
        (_, _, _) => ("withdrawal of lags and screws", "used dry"),
    };
    handbook::factor("C_M", of, None, (0.0, 0.0), when)
}

/// A screw or nail that is pulled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulled<'d> {
    /// The screw or nail.
    pub dowel: &'d Dowel,
    /// What a nail is like; of no matter for a screw.
    pub shank: Shank,
    /// Specific gravity of the wood that it holds to.
    pub gravity: SpecificGravity,
    /// How much thread, or how much of a nail, holds.
    pub holds: Amount,
}

/// The adjusted withdrawal value of one screw or nail, `W' p`.
///
/// # Errors
///
/// Of bolts; of nails and wood screws in end grain; of screws set aslant; where nothing holds.
pub fn adjusted(w: &mut Working, pulled: &Pulled<'_>, meets: Meets) -> Result<Amount, Outside> {
    let Pulled { dowel, shank, gravity: G, holds } = *pulled;
    let Meets { duration: lasts, moisture, enters, .. } = meets;
    if !holds.is_positive() {
        return Err(Outside::NothingThere);
    }
    let W = match dowel.kind {
        DowelKind::Bolt => return Err(Outside::PulledBolt),
        DowelKind::Lag => lag(w, G, dowel.diameter)?,
        DowelKind::WoodScrew => wood_screw(w, G, dowel.diameter)?,
        DowelKind::Nail => nail(w, G, dowel.diameter, shank)?,
    };
    let C_D = joint_duration(w, lasts)?;
    let row = wet(dowel.kind, shank, moisture).ok_or(Outside::Lacking(Lacking::Factor))?;
    let C_M = w.given("C_M", row.when, row.factor, row.cited);
    let C_t = w.given("C_t", "temperature", 1.0, Cited::memory("NDS Table 11.3.4, to 100 F"));
    w.assume(Assumption::OrdinaryTemperature);
    let end = |when| handbook::factor("C_eg", "withdrawal of lags", None, (0.0, 0.0), when);
    let C_eg = match (enters, dowel.kind) {
        (Enters::EndGrain, DowelKind::Lag) => {
            let row = end("from end grain").ok_or(Outside::Lacking(Lacking::Factor))?;
            w.given("C_eg", row.when, row.factor, row.cited)
        }
        (Enters::EndGrain, _) => return Err(Outside::WithdrawalFromEndGrain),
        _ => w.given("C_eg", "from side grain", 1.0, ADJUSTED),
    };
    let C_tn = match (enters, dowel.kind) {
        (Enters::ToeNailed, DowelKind::Nail) => {
            let row = handbook::factor("C_tn", "withdrawal", None, (0.0, 0.0), "toe-nailed");
            let row = row.ok_or(Outside::Lacking(Lacking::Factor))?;
            w.given("C_tn", row.when, row.factor, row.cited)
        }
        (Enters::ToeNailed, _) => return Err(Outside::ToeNailed),
        _ => w.given("C_tn", "not toe-nailed", 1.0, ADJUSTED),
    };
    given!(w, p_t = holds, "length that holds", Cited::STATED);
    step!(w, W_adj = W * p_t * C_D * C_M * C_t * C_eg * C_tn, "adjusted withdrawal value", ADJUSTED);
    found(W_adj)
}

/// What it takes to pull a head of a diameter through wood of a thickness, before factors, `W_H`: NDS 2018, 12.2.5.
///
/// # Errors
///
/// Where a size is nothing.
pub fn head_pull_through(
    w: &mut Working,
    G: impl Into<SpecificGravity>,
    head: Amount,
    thickness: Amount,
) -> Result<Amount, Outside> {
    let G = G.into().of_wood()?;
    if !(head.is_positive() && thickness.is_positive()) {
        return Err(Outside::NothingThere);
    }
    let pi = std::f64::consts::PI;
    given!(w, G = G.value, "specific gravity", G.cited);
    given!(w, D_H = head, "diameter of the head", Cited::STATED);
    given!(w, t_s = thickness, "thickness under the head", Cited::STATED);
    if (2.5 * D_H).is_below(t_s) {
        step!(w, W_H = 1725.0 * PSI * pi * squared(D_H) * squared(G), "pull through of the head, thick", HEAD);
        found(W_H)
    } else {
        step!(w, W_H = 690.0 * PSI * pi * D_H * squared(G) * t_s, "pull through of the head", HEAD);
        found(W_H)
    }
}

/// What so many of them take together at that angle: the lateral value is that of all, the other that of one.
///
/// # Errors
///
/// As of one.
pub fn all_at_the_worst_angle(
    w: &mut Working,
    kind: DowelKind,
    (lateral, withdrawal): (Amount, Amount),
    count: f64,
) -> Result<Amount, Outside> {
    given!(w, Z_all = lateral, "adjusted lateral value of the joint", COMBINED);
    given!(w, W_one = withdrawal, "adjusted value along one, the lesser of shank and head", COMBINED);
    given!(w, n = count, "how many", Cited::STATED);
    step!(w, W_all = n * W_one, "adjusted value along all of them", COMBINED);
    at_the_worst_angle(w, kind, Z_all, W_all)
}

/// What it takes to pull a head through, with every factor, `W_H'`: NDS 2018, Table 11.3.1.
///
/// # Errors
///
/// Where a size is nothing, or the table does not hold the condition.
pub fn head_adjusted(
    w: &mut Working,
    G: impl Into<SpecificGravity>,
    (head, thickness): (Amount, Amount),
    kind: DowelKind,
    meets: Meets,
) -> Result<Amount, Outside> {
    let W_H = head_pull_through(w, G, head, thickness)?;
    let C_D = joint_duration(w, meets.duration)?;
    // The head holds whatever the shank does: as a screw, not as a smooth nail that works loose.
    let kind = if kind == DowelKind::Nail { DowelKind::WoodScrew } else { kind };
    let row = wet(kind, Shank::Smooth, meets.moisture).ok_or(Outside::Lacking(Lacking::Factor))?;
    let C_M = w.given("C_M", row.when, row.factor, row.cited);
    let C_t = w.given("C_t", "temperature", 1.0, Cited::memory("NDS Table 11.3.4, to 100 F"));
    w.assume(Assumption::OrdinaryTemperature);
    step!(w, W_H_adj = W_H * C_D * C_M * C_t, "adjusted pull through of the head", HEAD);
    found(W_H_adj)
}

/// What one fastener takes of a load at whatever angle to the surface of the wood is worst for it, by its adjusted lateral
/// and withdrawal values: NDS 12.4. Where the value by sine and cosine is least their shares stand as the two values do.
///
/// # Errors
///
/// Of bolts, and where a value is nothing.
pub fn at_the_worst_angle(
    w: &mut Working,
    kind: DowelKind,
    lateral: Amount,
    withdrawal: Amount,
) -> Result<Amount, Outside> {
    if !(lateral.is_positive() && withdrawal.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, Z_adj = lateral, "adjusted lateral value", COMBINED);
    given!(w, W_adj = withdrawal, "adjusted withdrawal value", COMBINED);
    match kind {
        DowelKind::Bolt => Err(Outside::PulledBolt),
        // By the squares it is nowhere less than the lesser of the two.
        DowelKind::Lag => {
            step!(w, Z_alpha = least(Z_adj, W_adj), "value at the worst angle", COMBINED);
            found(Z_alpha)
        }
        DowelKind::WoodScrew | DowelKind::Nail => {
            step!(
                w,
                Z_alpha = W_adj * Z_adj / sqrt(squared(W_adj) + squared(Z_adj)),
                "value at the worst angle",
                COMBINED
            );
            found(Z_alpha)
        }
    }
}

/// What one fastener takes of a load at an angle to the surface of the wood (0 along it, 90 straight out), by its adjusted
/// lateral and withdrawal values: NDS 12.4. A lag screw by the squares of sine and cosine, others by themselves.
///
/// # Errors
///
/// Of bolts, and where a value is nothing.
pub fn combined(
    w: &mut Working,
    kind: DowelKind,
    lateral: Amount,
    withdrawal: Amount,
    angle: Amount,
) -> Result<Amount, Outside> {
    if !(lateral.is_positive() && withdrawal.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, Z_adj = lateral, "adjusted lateral value", COMBINED);
    given!(w, W_adj = withdrawal, "adjusted withdrawal value", COMBINED);
    given!(w, alpha = angle, "angle of the load to the surface", Cited::STATED);
    match kind {
        DowelKind::Bolt => Err(Outside::PulledBolt),
        DowelKind::Lag => {
            step!(
                w,
                Z_alpha = W_adj * Z_adj / (W_adj * squared(cos(alpha)) + Z_adj * squared(sin(alpha))),
                "value at the angle",
                COMBINED
            );
            found(Z_alpha)
        }
        DowelKind::WoodScrew | DowelKind::Nail => {
            step!(
                w,
                Z_alpha = W_adj * Z_adj / (W_adj * cos(alpha) + Z_adj * sin(alpha)),
                "value at the angle",
                COMBINED
            );
            found(Z_alpha)
        }
    }
}

/// Length of thread of a lag screw of a length, without its tip: half the length and 1/2 in, at most 6 in. NDS Table L2.
///
/// # Errors
///
/// Where the screw is no longer than its tip.
pub fn lag_thread(w: &mut Working, length: Amount, tip: Amount) -> Result<Amount, Outside> {
    given!(w, L = length, "length under the head", Cited::STATED);
    given!(w, E = tip, "length of the tip", Cited::memory("NDS Table L2"));
    step!(
        w,
        T_E = least(least(L / 2.0 + 0.5 * INCHES, 6.0 * INCHES), L) - E,
        "length of thread without the tip",
        Cited::seen("NDS Table L2")
    );
    if T_E.is_positive() { Ok(T_E) } else { Err(Outside::NothingThere) }
}
