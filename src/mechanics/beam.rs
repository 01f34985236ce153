//! What a load does to a beam: its largest moment, shear, support force and deflection.
//!
//! Simple statics, as tables of beam formulas give them. Coefficients of two equal spans are the ends of closed forms by the
//! theorem of three moments; a test integrates every case numerically.
#![allow(non_snake_case, reason = "symbols as the handbooks write them")]

use super::amount::{Amount, cubed, fourth, power, squared};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// How a beam is held, and where its load stands. Spans are level lengths from support to support.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Beam {
    /// One span, a load on its whole length.
    SimpleUniform,
    /// One span, a load at its middle.
    SimpleMiddle,
    /// One span, a load anywhere on it: the largest effects of all places.
    SimpleAnywhere,
    /// One span, a load at a distance from its nearer support.
    SimpleAt(Amount),
    /// Held at one end, a load on its whole length.
    CantileverUniform,
    /// Held at one end, a load at the other.
    CantileverEnd,
    /// A span, held at both ends, and the load at the tip of what stands out past one of them. `L` is what stands out, and
    /// this the span behind it.
    OverhangEnd(Amount),
    /// Two equal spans, a load on both.
    TwoUniformBoth,
    /// Two equal spans, a load on one of them.
    TwoUniformOne,
    /// Two equal spans, a load in the middle of one.
    TwoMiddleOne,
    /// Two equal spans, a load in the middle of each.
    TwoMiddleBoth,
    /// Two equal spans, a load anywhere: the largest effects of all places.
    TwoAnywhere,
}

/// The largest effects of a load, without sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effects {
    /// Bending moment, force times length.
    pub moment: Amount,
    /// Shear force.
    pub shear: Amount,
    /// Force on the support that carries most.
    pub reaction: Amount,
    /// Deflection.
    pub deflection: Amount,
}

const STATICS: Cited = Cited::derived("statics, beam formulas");

/// The effects of a load on a beam of a span `L` and stiffness `EI`. The load is a force, or a force on a length where it is
/// uniform.
///
/// # Errors
///
/// Where the span or the stiffness is nothing, or a dimension is not what the case asks for.
pub fn effects(w: &mut Working, beam: Beam, load: Amount, span: Amount, stiffness: Amount) -> Result<Effects, Outside> {
    if !(span.is_positive() && stiffness.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, L = span, "span", Cited::STATED);
    given!(w, EI = stiffness, "stiffness", STATICS);
    let (moment, shear, reaction, deflection) = match beam {
        Beam::SimpleUniform => {
            given!(w, q = load, "load on the length", Cited::STATED);
            step!(w, M = q * squared(L) / 8.0, "moment, at the middle", STATICS);
            step!(w, V = q * L / 2.0, "shear, at a support", STATICS);
            step!(w, y = 5.0 * q * fourth(L) / (384.0 * EI), "deflection, at the middle", STATICS);
            (M, V, V, y)
        }
        Beam::SimpleMiddle => {
            given!(w, P = load, "load", Cited::STATED);
            step!(w, M = P * L / 4.0, "moment, at the middle", STATICS);
            step!(w, V = P / 2.0, "shear", STATICS);
            step!(w, y = P * cubed(L) / (48.0 * EI), "deflection, at the middle", STATICS);
            (M, V, V, y)
        }
        Beam::SimpleAnywhere => {
            given!(w, P = load, "load", Cited::STATED);
            step!(w, M = P * L / 4.0, "moment, load at the middle", STATICS);
            step!(w, V = P * 1.0, "shear, load beside a support", STATICS);
            step!(w, y = P * cubed(L) / (48.0 * EI), "deflection, load at the middle", STATICS);
            (M, V, V, y)
        }
        Beam::SimpleAt(near) => {
            given!(w, P = load, "load", Cited::STATED);
            let near = if (near / L).plain() <= 0.5 { near } else { L - near };
            given!(w, b = near, "from the nearer support", Cited::STATED);
            step!(w, a = L - b, "from the other support", STATICS);
            step!(w, M = P * a * b / L, "moment, under the load", STATICS);
            step!(w, V = P * a / L, "shear, beside the nearer support", STATICS);
            step!(
                w,
                y = P * b * power((squared(L) - squared(b)) / squared(L), 1.5) * squared(L) / (15.588457 * EI),
                "deflection, where it is largest",
                STATICS
            );
            (M, V, V, y)
        }
        Beam::CantileverUniform => {
            given!(w, q = load, "load on the length", Cited::STATED);
            step!(w, M = q * squared(L) / 2.0, "moment, where it is held", STATICS);
            step!(w, V = q * L, "shear, where it is held", STATICS);
            step!(w, y = q * fourth(L) / (8.0 * EI), "deflection, at the end", STATICS);
            (M, V, V, y)
        }
        Beam::CantileverEnd => {
            given!(w, P = load, "load", Cited::STATED);
            step!(w, M = P * L, "moment, where it is held", STATICS);
            step!(w, V = P * 1.0, "shear", STATICS);
            step!(w, y = P * cubed(L) / (3.0 * EI), "deflection, at the end", STATICS);
            (M, V, V, y)
        }
        Beam::OverhangEnd(behind) => {
            if !behind.is_positive() {
                return Err(Outside::NothingThere);
            }
            given!(w, P = load, "load", Cited::STATED);
            given!(w, L_b = behind, "span behind it", Cited::STATED);
            step!(w, M = P * L, "moment, over the support", STATICS);
            step!(w, V = P * 1.0, "shear, past the support", STATICS);
            step!(w, R = P * (L_b + L) / L_b, "force on the support", STATICS);
            step!(w, y = P * squared(L) * (L_b + L) / (3.0 * EI), "deflection, at the tip", STATICS);
            (M, V, R, y)
        }
        Beam::TwoUniformBoth => {
            given!(w, q = load, "load on the length", Cited::STATED);
            step!(w, M = q * squared(L) / 8.0, "moment, over the middle support", STATICS);
            step!(w, V = 5.0 * q * L / 8.0, "shear, beside the middle support", STATICS);
            step!(w, R = 10.0 * q * L / 8.0, "force on the middle support", STATICS);
            step!(w, y = 0.005416 * q * fourth(L) / EI, "deflection, 0.42 L from an end", STATICS);
            (M, V, R, y)
        }
        Beam::TwoUniformOne => {
            given!(w, q = load, "load on the length", Cited::STATED);
            step!(w, M = 49.0 * q * squared(L) / 512.0, "moment, in the loaded span", STATICS);
            step!(w, V = 9.0 * q * L / 16.0, "shear, beside the middle support", STATICS);
            step!(w, R = 5.0 * q * L / 8.0, "force on the middle support", STATICS);
            step!(w, y = 0.009151 * q * fourth(L) / EI, "deflection, 0.47 L from an end", STATICS);
            (M, V, R, y)
        }
        Beam::TwoMiddleOne => {
            given!(w, P = load, "load", Cited::STATED);
            step!(w, M = 13.0 * P * L / 64.0, "moment, under the load", STATICS);
            step!(w, V = 19.0 * P / 32.0, "shear, beside the middle support", STATICS);
            step!(w, R = 11.0 * P / 16.0, "force on the middle support", STATICS);
            step!(w, y = 0.015012 * P * cubed(L) / EI, "deflection, 0.48 L from an end", STATICS);
            (M, V, R, y)
        }
        Beam::TwoMiddleBoth => {
            given!(w, P = load, "load in each span", Cited::STATED);
            step!(w, M = 3.0 * P * L / 16.0, "moment, over the middle support", STATICS);
            step!(w, V = 11.0 * P / 16.0, "shear, beside the middle support", STATICS);
            step!(w, R = 11.0 * P / 8.0, "force on the middle support", STATICS);
            step!(w, y = 0.009317 * P * cubed(L) / EI, "deflection, 0.45 L from an end", STATICS);
            (M, V, R, y)
        }
        Beam::TwoAnywhere => {
            given!(w, P = load, "load", Cited::STATED);
            step!(w, M = 0.20743 * P * L, "moment, load 0.43 L from an end", STATICS);
            step!(w, V = P * 1.0, "shear, load beside a support", STATICS);
            step!(w, y = 0.015097 * P * cubed(L) / EI, "deflection, load 0.47 L from an end", STATICS);
            (M, V, V, y)
        }
    };
    let force = |amount: Amount| {
        if amount.dimension() == crate::measure::Dimension::FORCE { Ok(amount) } else { Err(Outside::Undefined) }
    };
    Ok(Effects {
        moment: found(moment)?,
        shear: force(found(shear)?)?,
        reaction: force(found(reaction)?)?,
        deflection: found(deflection)?,
    })
}

/// A deflection as a part of its span: `L` over this many.
pub fn span_over(w: &mut Working, span: Amount, deflection: Amount) -> Result<Amount, Outside> {
    given!(w, L = span, "span", Cited::STATED);
    given!(w, y = deflection, "deflection", STATICS);
    step!(w, n = L / y, "the span over its deflection", STATICS);
    found(n)
}

/// Bending stress, `M / S`.
pub fn bending_stress(w: &mut Working, moment: Amount, modulus: Amount) -> Result<Amount, Outside> {
    given!(w, M = moment, "moment", STATICS);
    given!(w, S = modulus, "section modulus", STATICS);
    step!(w, f_b = M / S, "bending stress", Cited::memory("NDS 3.3.2"));
    found(f_b)
}

/// Shear stress of a rectangle, `3 V / 2 b d`.
pub fn shear_stress(w: &mut Working, shear: Amount, width: Amount, depth: Amount) -> Result<Amount, Outside> {
    given!(w, V = shear, "shear", STATICS);
    given!(w, b = width, "width", Cited::STATED);
    given!(w, d = depth, "depth", Cited::STATED);
    step!(w, f_v = 3.0 * V / (2.0 * b * d), "shear stress", Cited::memory("NDS 3.4.2"));
    found(f_v)
}

/// Pressure of a force on a bearing, `R / b l_b`.
pub fn bearing_stress(w: &mut Working, force: Amount, width: Amount, along: Amount) -> Result<Amount, Outside> {
    if !(width.is_positive() && along.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, R = force, "force on the bearing", STATICS);
    given!(w, b = width, "width", Cited::STATED);
    given!(w, l_b = along, "length of the bearing", Cited::STATED);
    step!(w, f_c = R / (b * l_b), "pressure on the bearing", Cited::memory("NDS 3.10.2"));
    found(f_c)
}

/// Shear of a uniform load without what stands within the depth of the beam from the face of its support: NDS 3.4.3.1.
pub fn shear_past_the_support(w: &mut Working, load: Amount, span: Amount, depth: Amount) -> Result<Amount, Outside> {
    given!(w, q = load, "load on the length", Cited::STATED);
    given!(w, L = span, "span", Cited::STATED);
    given!(w, d = depth, "depth", Cited::STATED);
    step!(w, V = q * (L / 2.0 - d), "shear at the depth of the beam from its support", Cited::memory("NDS 3.4.3.1"));
    if V.in_base() < 0.0 { Err(Outside::NothingThere) } else { found(V) }
}
