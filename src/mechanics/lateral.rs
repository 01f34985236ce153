//! The adjusted lateral value of a joint: the reference value of one dowel, every factor by its name, times how many there
//! are. NDS 2018, Table 11.3.1: `Z' = Z C_D C_M C_t C_g C_delta C_eg C_tn`.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::adjusted::{Duration, duration};
use super::amount::{Amount, INCHES};
use super::outside::{Lacking, Outside};
use super::working::{Assumption, Working, found, given, step};
use crate::handbook::{self, Cited};

/// How wet the wood of a joint was when it was made, and is in service.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moisture {
    /// Made dry, used dry.
    Dry,
    /// Used wet, however it was made.
    UsedWet,
    /// Made wet, used dry: it dries out under the load.
    Dries,
}

/// How the fasteners of a joint stand to each other, for what drying does to them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// One fastener, one row along the grain, or rows with separate splice plates.
    OneRow,
    /// Several rows on one piece.
    SeveralRows,
}

/// How a fastener enters the wood that it holds to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Enters {
    /// Square to the grain.
    SideGrain,
    /// Along the grain.
    EndGrain,
    /// Aslant, near the end of the side member: a toe-nail.
    ToeNailed,
}

/// What a joint meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meets {
    /// How long its load lasts; never a blow.
    pub duration: Duration,
    /// How wet it is.
    pub moisture: Moisture,
    /// How its fasteners stand to each other.
    pub pattern: Pattern,
    /// How they enter.
    pub enters: Enters,
}

const ADJUSTED: Cited = Cited::seen("NDS Table 11.3.1");

/// Wet service of a lateral value, `C_M`: NDS Table 11.3.3.
///
/// # Errors
///
/// Where the table does not hold the condition.
pub fn wet_service(w: &mut Working, diameter: Amount, meets: Meets) -> Result<Amount, Outside> {
    let when = match (meets.moisture, meets.pattern) {
        (Moisture::Dry, _) => "made dry, used dry",
        (Moisture::UsedWet, _) => "used wet",
        (Moisture::Dries, _) if diameter.per(INCHES) < 0.25 - 1e-6 => "made wet, used dry, under 1/4 in",
        (Moisture::Dries, Pattern::OneRow) => "made wet, used dry, one row or one fastener",
        (Moisture::Dries, Pattern::SeveralRows) => "made wet, used dry, several rows",
    };
    by_table(w, "C_M", "lateral", when)
}

fn by_table(w: &mut Working, factor: &'static str, of: &str, when: &'static str) -> Result<Amount, Outside> {
    let row = handbook::factor(factor, of, None, (0.0, 0.0), when).ok_or(Outside::Lacking(Lacking::Factor))?;
    Ok(w.given(factor, when, row.factor, row.cited))
}

/// Load duration of a connection: never above 1.6.
pub fn joint_duration(w: &mut Working, lasts: Duration) -> Result<Amount, Outside> {
    if lasts == Duration::Impact {
        w.assume(Assumption::LoadDuration);
        return Ok(w.given("C_D", "load duration, at most 1.6 of a connection", 1.6, Cited::seen("NDS 11.3.2")));
    }
    duration(w, lasts)
}

/// The adjusted lateral value of a joint, `n Z'`, by the reference value of one dowel, its nominal diameter, the group action
/// and the geometry factor, and how many dowels share the load.
///
/// # Errors
///
/// Where a factor is in no table, or a toe-nail is no small fastener.
pub fn adjusted(
    w: &mut Working,
    reference: Amount,
    diameter: Amount,
    group: Amount,
    geometry: Amount,
    count: f64,
    meets: Meets,
) -> Result<Amount, Outside> {
    if !(count.is_finite() && count >= 1.0) {
        return Err(Outside::NothingThere);
    }
    given!(w, Z = reference, "reference lateral value of one", ADJUSTED);
    let C_D = joint_duration(w, meets.duration)?;
    let C_M = wet_service(w, diameter, meets)?;
    let C_t = w.given("C_t", "temperature", 1.0, Cited::memory("NDS Table 11.3.4, to 100 F"));
    w.assume(Assumption::OrdinaryTemperature);
    given!(w, C_g = group, "group action", ADJUSTED);
    given!(w, C_delta = geometry, "geometry", ADJUSTED);
    let C_eg = match meets.enters {
        Enters::EndGrain => by_table(w, "C_eg", "lateral", "into end grain")?,
        Enters::SideGrain | Enters::ToeNailed => w.given("C_eg", "into side grain", 1.0, ADJUSTED),
    };
    let C_tn = match meets.enters {
        Enters::ToeNailed if diameter.per(INCHES) >= 0.25 - 1e-6 => return Err(Outside::ToeNailed),
        Enters::ToeNailed => by_table(w, "C_tn", "lateral", "toe-nailed")?,
        Enters::SideGrain | Enters::EndGrain => w.given("C_tn", "not toe-nailed", 1.0, ADJUSTED),
    };
    step!(w, Z_adj = Z * C_D * C_M * C_t * C_g * C_delta * C_eg * C_tn, "adjusted lateral value of one", ADJUSTED);
    given!(w, n = count, "how many", Cited::STATED);
    step!(w, Z_all = n * Z_adj, "adjusted lateral value of the joint", ADJUSTED);
    found(Z_all)
}
