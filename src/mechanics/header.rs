//! A header or a rim under the strings that hang on it.
#![allow(non_snake_case, reason = "symbols as handbooks write them")]

use super::amount::{Amount, greatest, squared};
use super::beam::Effects;
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

const STATICS: Cited = Cited::derived("statics");

/// The load on each length of a header: what half of the flight brings, and the strip of floor that lies on it beside that.
///
/// # Errors
///
/// Where it comes to no load.
pub fn load_on_a_header(w: &mut Working, load: Amount, run: Amount, strip: Amount) -> Result<Amount, Outside> {
    given!(w, p = load, "load on the area, of flight and floor alike", STATICS);
    given!(w, run = run, "run of the flight", Cited::STATED);
    given!(w, f = strip, "strip of floor", Cited::STATED);
    step!(w, q = p * (run / 2.0 + f), "load on the length", STATICS);
    if q.is_positive() { found(q) } else { Err(Outside::NothingThere) }
}

/// What strings that hang on a header do to it, each bringing the load of a length `s` of it at one place; where they hang no
/// drawing says. No row of such loads asks more than the even load and one of them in the middle, or beside a support: the
/// moment is at most `q (L^2 + s^2) / 8`, the shear the greater of `q (L + 1.2 s) / 2` and `q s`.
///
/// # Errors
///
/// Where the span, the distance or the stiffness is nothing.
pub fn under_strings(
    w: &mut Working,
    load: Amount,
    span: Amount,
    apart: Amount,
    stiffness: Amount,
) -> Result<Effects, Outside> {
    if !(span.is_positive() && apart.is_positive() && stiffness.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, q = load, "load on the length", STATICS);
    given!(w, L = span, "span", Cited::STATED);
    given!(w, s = apart, "length of it that one string loads", STATICS);
    given!(w, EI = stiffness, "stiffness", STATICS);
    step!(w, M = q * (squared(L) + squared(s)) / 8.0, "moment, at the most", STATICS);
    step!(w, V = greatest(q * (L + 1.2 * s) / 2.0, q * s), "shear, at the most", STATICS);
    step!(w, y = 5.0 * q * squared(L) * (squared(L) + squared(s)) / (384.0 * EI), "deflection, at the most", STATICS);
    Ok(Effects { moment: found(M)?, shear: found(V)?, reaction: found(V)?, deflection: found(y)? })
}
