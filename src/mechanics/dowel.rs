//! Bolts, lag screws, wood screws and nails as dowels, and how hard wood and steel press against them.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, PSI, cos, least, nearest, power, sin, sqrt, squared};
use super::gravity::SpecificGravity;
use super::outside::{Lacking, Outside};
use super::working::{Assumption, Working, found, given, step};
use crate::handbook::{self, Cited};

/// What kind of dowel it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DowelKind {
    /// A bolt, whatever its head.
    Bolt,
    /// A lag screw.
    Lag,
    /// A wood screw.
    WoodScrew,
    /// A nail.
    Nail,
}

/// Where the thread of a bolt lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thread {
    /// At most a quarter of what bears in a member is threaded: NDS 12.3.7.
    ClearOfTheWood,
    /// More.
    InTheWood,
}

/// A dowel-type fastener. Lengths and pressures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dowel {
    /// Its kind.
    pub kind: DowelKind,
    /// Nominal diameter: of the shank.
    pub diameter: Amount,
    /// The diameter that counts in the yield equations: the root of a screw's thread. Of a lag screw above 1 in none is known.
    pub in_yield: Option<Amount>,
    /// Bending yield strength, `F_yb`.
    pub strength: Amount,
    /// Length of its tapered tip, `E`; nothing of a bolt, not known of a lag screw above 1 in.
    pub tip: Option<Amount>,
    /// Where its sizes are from.
    pub cited: Cited,
}

const NOTHING: Amount = Amount::base(0.0, crate::measure::Dimension::LENGTH);

impl Dowel {
    /// A bolt of a diameter.
    ///
    /// # Errors
    ///
    /// Under 1/4 in, over 1 in, and where the thread counts and the table has no root.
    pub fn bolt(diameter: Amount, thread: Thread) -> Result<Self, Outside> {
        let inches = lateral_size(diameter)?;
        if inches < 0.25 - 1e-6 {
            return Err(Outside::BoltUnderQuarterInch);
        }
        let row = handbook::by_diameter(&handbook::BOLTS, inches, |row| row.diameter);
        let in_yield = match thread {
            Thread::ClearOfTheWood => diameter,
            Thread::InTheWood => row.ok_or(Outside::Lacking(Lacking::Root))?.root * INCHES,
        };
        let cited = row.map_or(Cited::STATED, |row| row.cited);
        // All bolts of the table have one strength: that of NDS Appendix I.
        let strength = row.map_or(45_000.0, |row| row.strength) * PSI;
        Ok(Self { kind: DowelKind::Bolt, diameter, in_yield: Some(in_yield), strength, tip: Some(NOTHING), cited })
    }

    /// A lag screw of a diameter. Its root counts all along: where the shank would, it is stronger.
    ///
    /// # Errors
    ///
    /// Of a diameter that the table has not. One above 1 in has a value in withdrawal only.
    pub fn lag(diameter: Amount) -> Result<Self, Outside> {
        let inches = diameter.per(INCHES);
        let row = handbook::by_diameter(&handbook::LAG_SCREWS, inches, |row| row.diameter);
        let row = row.ok_or(Outside::Lacking(Lacking::Diameter))?;
        Ok(Self {
            kind: DowelKind::Lag,
            diameter,
            in_yield: row.root.map(|root| root * INCHES),
            strength: row.strength * PSI,
            tip: row.tip.map(|tip| tip * INCHES),
            cited: row.cited,
        })
    }

    /// A wood screw of cut thread, by the diameter of its shank.
    ///
    /// # Errors
    ///
    /// Of a diameter that the table has not.
    pub fn wood_screw(diameter: Amount) -> Result<Self, Outside> {
        let inches = diameter.per(INCHES);
        let row = handbook::by_diameter(&handbook::WOOD_SCREWS, inches, |row| row.diameter);
        let row = row.ok_or(Outside::Lacking(Lacking::Diameter))?;
        let strength = handbook::yield_strength(inches).ok_or(Outside::Lacking(Lacking::YieldStrength))?;
        Ok(Self {
            kind: DowelKind::WoodScrew,
            diameter,
            in_yield: Some(row.root * INCHES),
            strength: strength.strength * PSI,
            // No table gives the tip of a screw; a nail's is taken.
            tip: Some(2.0 * diameter),
            cited: row.cited,
        })
    }

    /// A smooth nail, by the diameter of its shank.
    ///
    /// # Errors
    ///
    /// Of a diameter for which no bending yield strength is known.
    pub fn nail(diameter: Amount) -> Result<Self, Outside> {
        let strength = handbook::yield_strength(diameter.per(INCHES));
        let strength = strength.ok_or(Outside::Lacking(Lacking::YieldStrength))?;
        Ok(Self {
            kind: DowelKind::Nail,
            diameter,
            in_yield: Some(diameter),
            strength: strength.strength * PSI,
            tip: Some(2.0 * diameter),
            cited: strength.cited,
        })
    }

    /// Whether it is one of 1/4 in and over, whose values go by the grain.
    pub fn is_large(&self) -> bool {
        self.diameter.per(INCHES) >= 0.25 - 1e-6 && self.kind != DowelKind::WoodScrew
    }
}

/// A diameter in inches, where a method serves one of its size laterally.
///
/// # Errors
///
/// Over 1 in, and where it is nothing.
pub(super) fn lateral_size(diameter: Amount) -> Result<f64, Outside> {
    let inches = diameter.per(INCHES);
    if inches.is_nan() || inches <= 0.0 {
        Err(Outside::NothingThere)
    } else if inches > 1.0 + 1e-6 {
        Err(Outside::LateralOverOneInch)
    } else {
        Ok(inches)
    }
}

/// What a dowel bears against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Against {
    /// Wood of a specific gravity, loaded at an angle to its grain.
    Wood {
        /// Specific gravity, oven-dry.
        gravity: SpecificGravity,
        /// Between load and grain, degrees: 0 along, 90 across.
        angle: f64,
    },
    /// Steel of a dowel bearing strength.
    Steel(Amount),
    /// Concrete of 2,500 psi and more.
    Concrete,
}

impl Against {
    /// The angle between load and grain; steel and concrete have none.
    pub fn angle(self) -> f64 {
        match self {
            Self::Wood { angle, .. } => angle,
            Self::Steel(_) | Self::Concrete => 0.0,
        }
    }
}

const FE: Cited = Cited::reproduced("NDS Table 12.3.3");
const HANKINSON: Cited = Cited::seen("NDS 12.3.4, Appendix J");
const STEEL: Cited = Cited::seen("NDS Appendix I");

/// Dowel bearing strength, `F_e`. Wood's is taken to 50 psi, as the table of the standard prints it.
///
/// # Errors
///
/// Where the specific gravity is no number above nothing.
pub fn bearing_strength(w: &mut Working, dowel: &Dowel, against: Against) -> Result<Amount, Outside> {
    let (gravity, angle) = match against {
        Against::Steel(strength) if strength.is_positive() => {
            return Ok(w.given("F_e", "dowel bearing strength of the steel", strength, STEEL));
        }
        Against::Steel(_) => return Err(Outside::MetalWithoutValues),
        Against::Concrete => {
            return Ok(w.given("F_e", "dowel bearing strength of concrete", 7500.0 * PSI, STEEL));
        }
        Against::Wood { gravity, angle } => (gravity, angle),
    };
    let gravity = gravity.of_wood()?;
    given!(w, G = gravity.value, "specific gravity", gravity.cited);
    if !dowel.is_large() {
        step!(w, F_e = nearest(16600.0 * PSI * power(G, 1.84), 50.0 * PSI), "dowel bearing strength, under 1/4 in", FE);
        return found(F_e);
    }
    given!(w, D = dowel.diameter, "diameter", dowel.cited);
    step!(w, F_e_par = nearest(11200.0 * PSI * G, 50.0 * PSI), "along the grain", FE);
    step!(w, F_e_perp = nearest(6100.0 * PSI * power(G, 1.45) / sqrt(D / INCHES), 50.0 * PSI), "across the grain", FE);
    let angle = angle.abs().min(180.0);
    let angle = if angle > 90.0 { 180.0 - angle } else { angle };
    given!(w, theta = Amount::degrees(angle), "angle of the load to the grain", Cited::STATED);
    step!(
        w,
        F_e = F_e_par * F_e_perp / (F_e_par * squared(sin(theta)) + F_e_perp * squared(cos(theta))),
        "dowel bearing strength",
        HANKINSON
    );
    found(F_e)
}

/// Dowel bearing strength of a steel plate by its ultimate strength: 1.5 of it hot-rolled, from 1/4 in of thickness on;
/// 1.375 of it cold-formed, below that. NDS Appendix I.
pub fn steel_bearing(w: &mut Working, ultimate: Amount, thickness: Amount) -> Result<Amount, Outside> {
    if !(ultimate.is_positive() && thickness.is_positive()) {
        return Err(Outside::MetalWithoutValues);
    }
    given!(w, F_u = ultimate, "ultimate strength of the steel", Cited::STATED);
    if thickness.per(INCHES) >= 0.25 - 1e-9 {
        step!(w, F_e = 1.5 * F_u, "dowel bearing strength, hot-rolled", STEEL);
        found(F_e)
    } else {
        step!(w, F_e = 1.375 * F_u, "dowel bearing strength, cold-formed", STEEL);
        found(F_e)
    }
}

/// How far a fastener bears in the member that its point is in, `l_m`: no more than the member, nor than what goes in less
/// half the tip. NDS 12.3.5.3. What sticks out behind the member counts for nothing.
///
/// # Errors
///
/// Where less goes in than the least that is permitted: of a lag screw 4 diameters without its tip, of a wood screw or nail
/// 6 with it. NDS 12.1.4.6, 12.1.5.6, 12.1.6.4.
pub fn main_length(w: &mut Working, dowel: &Dowel, goes_in: Amount, member: Amount) -> Result<Amount, Outside> {
    let least_share = least_penetration(dowel.kind);
    let length_of_tip = dowel.tip.ok_or(Outside::Lacking(Lacking::Tip))?;
    let tip = if dowel.kind == DowelKind::Lag { length_of_tip } else { NOTHING };
    given!(w, p = goes_in, "length past the side member", Cited::STATED);
    given!(w, t_m = member, "thickness of the main member", Cited::STATED);
    given!(w, E = length_of_tip, "length of the tip", dowel.cited);
    if dowel.kind == DowelKind::Bolt {
        return if goes_in.is_below(member) { Err(Outside::TooShallow { least: 0.0 }) } else { Ok(member) };
    }
    let there = least(p - tip, member);
    if there.is_below(least_share * dowel.diameter) {
        return Err(Outside::TooShallow { least: least_share });
    }
    step!(w, l_m = least(t_m, p - E / 2.0), "bearing length in the main member", BEARING_LENGTH);
    found(l_m)
}

const BEARING_LENGTH: Cited = Cited::reproduced("NDS 12.3.5.3");

/// A toe-nail of a length, at about 30 degrees and started a third of its length from the end: how much of it lies in the
/// member that it is started in, and how far its point reaches past that face, square to it. NDS 12.1.6.4 and its Commentary.
///
/// # Errors
///
/// Where the nail has no length.
pub fn toe_nail(w: &mut Working, length: Amount) -> Result<(Amount, Amount), Outside> {
    let cited = Cited::memory("NDS 12.1.6.4 and Commentary C12.1.6.4");
    given!(w, L_n = length, "length of the nail", Cited::STATED);
    given!(w, lean = Amount::degrees(30.0), "angle to the member", cited);
    step!(w, l_s = L_n / 3.0, "length in the member that it is started in", cited);
    step!(w, p_L = L_n * cos(lean) - L_n / 3.0, "length in the other", cited);
    if p_L.is_positive() { Ok((l_s, p_L)) } else { Err(Outside::NothingThere) }
}

/// The least that is to go into the main member, in diameters.
pub fn least_penetration(kind: DowelKind) -> f64 {
    match kind {
        DowelKind::Bolt => 0.0,
        DowelKind::Lag => 4.0,
        DowelKind::WoodScrew | DowelKind::Nail => 6.0,
    }
}

/// Notes that a nail or screw is taken to stand in wood that was not bored.
pub fn not_bored(w: &mut Working) {
    w.assume(Assumption::NotBored);
}
