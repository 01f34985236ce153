//! Adjusted design values of lumber: reference values times every factor that applies, each by its name.
//!
//! NDS 2018, Table 4.3.1: `F_b' = F_b C_D C_M C_t C_L C_F C_fu C_i C_r`, and so on for each value.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, PSI, cos, greatest, least, power, sin, sqrt, squared};
use super::outside::{Lacking, Outside};
use super::working::{Assumption, Working, found, given, step};
use crate::handbook::{self, Cited, DesignValues, Factor, Table};

/// How wet timber is in service.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Service {
    /// At most 19 % of moisture.
    Dry,
    /// More.
    Wet,
}

/// How long a load lasts, together, over the life of what carries it: NDS Table 2.3.2. Of a combination the shortest counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Duration {
    /// Dead load.
    Permanent,
    /// Floor live load.
    TenYears,
    /// Snow.
    TwoMonths,
    /// Construction.
    SevenDays,
    /// Wind, earthquake; a push on a guard, by practice.
    TenMinutes,
    /// A blow; for members only, never for connections.
    Impact,
}

impl Duration {
    /// What the table of factors calls it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Permanent => "permanent",
            Self::TenYears => "ten years",
            Self::TwoMonths => "two months",
            Self::SevenDays => "seven days",
            Self::TenMinutes => "ten minutes",
            Self::Impact => "impact",
        }
    }
}

/// Whether several members share a load, so that one weak one is helped: NDS 4.3.9.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sharing {
    /// Each on its own.
    Single,
    /// Three or more, at most 24 in apart, joined by what shares the load.
    Repetitive,
}

/// Whether the faces were cut so that a preservative goes in: NDS 4.3.8.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Faces {
    /// Whole.
    Plain,
    /// Incised.
    Incised,
}

/// Which way a piece lies under its load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lies {
    /// Its width along the load.
    OnEdge,
    /// Its thickness along the load.
    Flat,
}

/// A piece of lumber.
#[derive(Debug, Clone, Copy)]
pub struct Piece<'v> {
    /// Its reference design values.
    pub values: &'v DesignValues,
    /// The lesser way of its section.
    pub thickness: Amount,
    /// The greater.
    pub width: Amount,
    /// Which way it lies.
    pub lies: Lies,
}

/// What a piece meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Conditions {
    /// How wet it is.
    pub service: Service,
    /// How long its load lasts.
    pub duration: Duration,
    /// Whether others help.
    pub sharing: Sharing,
    /// Whether it is incised.
    pub faces: Faces,
}

/// What holds a bending member against rolling over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Held {
    /// Nothing but its bearing.
    Loose,
    /// Its ends, against turning.
    Ends,
    /// One edge along its length, and its ends.
    OneEdge,
    /// One edge, its ends, and bridging every 8 ft.
    Bridged,
    /// Both edges along its length.
    BothEdges,
    /// Nowhere over this length: beam stability is worked out by NDS 3.3.3.
    Over(Amount),
}

/// Beam stability by the rule of NDS 4.4.1: `C_L` is 1 where depth over width is within what holds it; otherwise by the
/// formula of 3.3.3.
///
/// # Errors
///
/// Where nothing holds it as the rule asks, and no unbraced length is stated.
pub fn beam_stability(
    w: &mut Working,
    piece: &Piece<'_>,
    conditions: Conditions,
    depth: Amount,
    held: Held,
) -> Result<Amount, Outside> {
    let (b, d) = match piece.lies {
        Lies::OnEdge => (piece.thickness, depth),
        Lies::Flat => (piece.width, depth),
    };
    let ratio = (d / b).plain();
    let most = match held {
        Held::Loose => 2.0,
        Held::Ends => 4.0,
        Held::OneEdge => 5.0,
        Held::Bridged => 6.0,
        Held::BothEdges => 7.0,
        Held::Over(_) => 1.0,
    };
    // The rule is one of nominal sizes: a 2x12 counts as 6, not 7.5. What is no dressed size counts as it measures.
    let nominal = |size: Amount| handbook::called(size.per(INCHES)).map(Amount::number);
    let counted = match (nominal(b), nominal(d)) {
        (Some(b), Some(d)) => (d / b).plain().min(ratio),
        _ => ratio,
    };
    if counted <= most + 1e-9 {
        return Ok(w.given("C_L", "beam stability: depth over width within what holds it", 1.0, HELD));
    }
    let Held::Over(l_u) = held else { return Err(Outside::NotHeld) };
    let F_b_star = bending_but_for_stability(w, piece, conditions)?;
    let E_min_adj = least_stiffness(w, piece, conditions)?;
    given!(w, l_u = l_u, "unbraced length", Cited::STATED);
    given!(w, b = b, "width", Cited::STATED);
    given!(w, d = d, "depth", Cited::STATED);
    let short = (l_u / d).plain() < 7.0;
    let l_e = if short {
        step!(w, l_e = 2.06 * l_u, "effective length, uniform load", STABILITY);
        l_e
    } else {
        step!(w, l_e = 1.63 * l_u + 3.0 * d, "effective length, uniform load", STABILITY);
        l_e
    };
    step!(w, R_B = sqrt(l_e * d / squared(b)), "slenderness of the beam", STABILITY);
    if R_B.plain() > 50.0 {
        return Err(Outside::TooSlender);
    }
    step!(w, F_bE = 1.20 * E_min_adj / squared(R_B), "critical buckling strength", STABILITY);
    step!(w, r = F_bE / F_b_star, "of it over bending strength", STABILITY);
    step!(w, C_L = (1.0 + r) / 1.9 - sqrt(squared((1.0 + r) / 1.9) - r / 0.95), "beam stability", STABILITY);
    found(C_L)
}

fn nominal(thickness: Amount, width: Amount) -> Result<(f64, f64), Outside> {
    let thickness = handbook::nominal_thickness(thickness.per(INCHES));
    let width = handbook::widths_about(width.per(INCHES)).map(|(_, (nominal, _))| nominal);
    thickness.zip(width).ok_or(Outside::Lacking(Lacking::Factor))
}

/// The reference design values in force of a species and grade for a piece of a section, by the names of the tables.
///
/// # Errors
///
/// Of a board under 2 in thick, whose strength no table gives, and where no row holds the species, grade and size.
pub fn values_for(
    species: &str,
    grade: &str,
    thickness: Amount,
    width: Amount,
) -> Result<&'static DesignValues, Outside> {
    let sizes = nominal(least(thickness, width), greatest(thickness, width));
    let (thickness, width) = sizes.map_err(|_| Outside::Lacking(Lacking::DesignValues))?;
    if thickness < 2.0 {
        return Err(Outside::ThinBoard);
    }
    let row = handbook::design_values(species, grade, thickness, width);
    row.ok_or(Outside::Lacking(Lacking::DesignValues))
}

/// The values by which a board under 2 in thick is held for deflection alone: those of its species in lumber of No.2 grade,
/// which is an assumption.
///
/// # Errors
///
/// Where no row holds the species.
pub fn values_of_species(w: &mut Working, species: &str) -> Result<DesignValues, Outside> {
    let row = handbook::design_values(species, "No.2", 2.0, 6.0).ok_or(Outside::Lacking(Lacking::Stiffness))?;
    w.assume(Assumption::StiffnessOfSpecies);
    Ok(DesignValues { stiffness: row.stiffness, table: row.table, cited: row.cited, ..DesignValues::OWN })
}

const HELD: Cited = Cited::memory("NDS 4.4.1.2");
const STABILITY: Cited = Cited::memory("NDS 3.3.3");
const ADJUSTED: Cited = Cited::memory("NDS Table 4.3.1");
const APPENDIX_D: Cited = Cited::memory("NDS Appendix D, D.4");
const COLUMN: Cited = Cited::memory("NDS 3.7.1");
const HANKINSON: Cited = Cited::memory("NDS 3.10.3");
const ORDINARY: Cited = Cited::memory("NDS Table 2.3.3, to 100 F");

/// One factor by its row, or 1 where none applies, with the words why.
fn noted(
    w: &mut Working,
    symbol: &'static str,
    name: &'static str,
    row: Option<&'static Factor>,
    none: Cited,
) -> Amount {
    match row {
        Some(row) => w.given(symbol, name, row.factor, row.cited),
        None => w.given(symbol, name, 1.0, none),
    }
}

const NONE: Cited = Cited { source: "does not apply", edition: "", certainty: handbook::Certainty::Derived };

impl Piece<'_> {
    /// Nominal thickness and width, inches, for the tables of factors. A width between two dressed ones counts as the larger.
    fn nominal(&self) -> Result<(f64, f64), Outside> {
        nominal(self.thickness, self.width)
    }

    fn own(&self) -> bool {
        self.values.table == Table::Own
    }

    /// A factor of size or use on one of its values. A user's own values hold as they are stated.
    fn factor(&self, name: &str, of: &str, when: &str) -> Result<Option<&'static Factor>, Outside> {
        if self.own() {
            return Ok(None);
        }
        Ok(handbook::factor(name, of, Some(self.values.table), self.nominal()?, when))
    }

    fn wet(&self, of: &str, service: Service) -> Result<Option<&'static Factor>, Outside> {
        let given_wet = self.values.table == Table::Timbers && self.values.species == "southern pine";
        if service == Service::Dry || given_wet {
            return Ok(None);
        }
        self.factor("C_M", of, "wet")
    }

    fn incised(&self, of: &str, faces: Faces) -> Result<Option<&'static Factor>, Outside> {
        if faces == Faces::Plain { Ok(None) } else { self.factor("C_i", of, "incised") }
    }

    fn value(&self, value: Option<f64>, lacking: Lacking) -> Result<Amount, Outside> {
        value.map(|psi| psi * PSI).ok_or(Outside::Lacking(lacking))
    }
}

/// Load duration, `C_D`: a choice, so it is noted as an assumption.
pub fn duration(w: &mut Working, duration: Duration) -> Result<Amount, Outside> {
    let row = handbook::factor("C_D", "load", None, (0.0, 0.0), duration.word());
    let row = row.ok_or(Outside::Lacking(Lacking::Factor))?;
    w.assume(Assumption::LoadDuration);
    Ok(w.given("C_D", "load duration", row.factor, row.cited))
}

/// The size factor of bending: by table, or worked out for timbers deeper than 12 in.
fn size(w: &mut Working, piece: &Piece<'_>) -> Result<Amount, Outside> {
    if piece.values.table == Table::Timbers && piece.width.per(INCHES) > 12.0 {
        given!(w, d = piece.width, "depth", Cited::STATED);
        step!(
            w,
            C_F = power(12.0 * INCHES / d, 1.0 / 9.0),
            "size, deeper than 12 in",
            Cited::memory("NDS Supplement Table 4D")
        );
        return found(C_F);
    }
    if piece.values.table == Table::DimensionLumber
        && let Some((below, above)) = handbook::widths_about(piece.width.per(INCHES))
        && below != above
    {
        let (thickness, _) = piece.nominal()?;
        let of = |nominal: f64| handbook::factor("C_F", "bending", Some(piece.values.table), (thickness, nominal), "-");
        let both = of(below.0).zip(of(above.0)).ok_or(Outside::Lacking(Lacking::Factor))?;
        given!(w, d = piece.width, "depth", Cited::STATED);
        given!(w, d_1 = below.1 * INCHES, "dressed width below", both.0.cited);
        given!(w, d_2 = above.1 * INCHES, "dressed width above", both.1.cited);
        given!(w, C_1 = both.0.factor, "size factor of the dressed width below", both.0.cited);
        given!(w, C_2 = both.1.factor, "size factor of the dressed width above", both.1.cited);
        let between = Cited::derived("between two rows of NDS Supplement Table 4A");
        step!(w, C_F = C_1 + (C_2 - C_1) * (d - d_1) / (d_2 - d_1), "size, between two dressed widths", between);
        return found(C_F);
    }
    let row = piece.factor("C_F", "bending", "-")?;
    // Table 4A has a factor for every size that it serves; a size that it has none for is none of its.
    if row.is_none() && piece.values.table == Table::DimensionLumber {
        return Err(Outside::Lacking(Lacking::Factor));
    }
    Ok(noted(w, "C_F", "size", row, NONE))
}

fn bending_but_for_stability(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let F_b = piece.value(piece.values.bending, Lacking::Bending)?;
    let F_b = w.given("F_b", "reference bending value", F_b, piece.values.cited);
    let C_D = duration(w, conditions.duration)?;
    let C_F = size(w, piece)?;
    let wet = piece.wet("bending", conditions.service)?;
    let spared = wet.is_some() && piece.values.table != Table::Timbers && (F_b * C_F).per(PSI) <= 1150.0 + 1e-6;
    let C_M = if spared {
        w.given(
            "C_M",
            "wet service: F_b C_F is at most 1150 psi",
            1.0,
            Cited::reproduced("NDS Supplement Table 4A, note"),
        )
    } else {
        noted(w, "C_M", "wet service", wet, NONE)
    };
    let C_t = ordinary(w);
    let flat = if piece.lies == Lies::Flat { piece.factor("C_fu", "bending", "-")? } else { None };
    let C_fu = noted(w, "C_fu", "flat use", flat, NONE);
    let incised = piece.incised("bending", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    let sharing = match conditions.sharing {
        Sharing::Single => None,
        Sharing::Repetitive => piece.factor("C_r", "bending", "repetitive")?,
    };
    let C_r = noted(w, "C_r", "repetitive members", sharing, NONE);
    step!(
        w,
        F_b_star = F_b * C_D * C_M * C_t * C_F * C_fu * C_i * C_r,
        "bending value without beam stability",
        ADJUSTED
    );
    found(F_b_star)
}

fn ordinary(w: &mut Working) -> Amount {
    w.assume(Assumption::OrdinaryTemperature);
    w.given("C_t", "temperature", 1.0, ORDINARY)
}

/// Bending, `F_b'`, on a section of a depth along the load.
///
/// # Errors
///
/// Where the value was not gathered, where no factor serves the size, where the member is not held.
pub fn bending(
    w: &mut Working,
    piece: &Piece<'_>,
    conditions: Conditions,
    depth: Amount,
    held: Held,
) -> Result<Amount, Outside> {
    let C_L = beam_stability(w, piece, conditions, depth, held)?;
    let F_b_star = bending_but_for_stability(w, piece, conditions)?;
    step!(w, F_b_adj = F_b_star * C_L, "adjusted bending value", ADJUSTED);
    found(F_b_adj)
}

/// Shear along the grain, `F_v'`.
///
/// # Errors
///
/// Where the value was not gathered.
pub fn shear(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let F_v = piece.value(piece.values.shear, Lacking::Shear)?;
    let F_v = w.given("F_v", "reference shear value", F_v, piece.values.cited);
    let C_D = duration(w, conditions.duration)?;
    let wet = piece.wet("shear", conditions.service)?;
    let C_M = noted(w, "C_M", "wet service", wet, NONE);
    let C_t = ordinary(w);
    let incised = piece.incised("shear", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    step!(w, F_v_adj = F_v * C_D * C_M * C_t * C_i, "adjusted shear value", ADJUSTED);
    found(F_v_adj)
}

/// Tension along the grain, `F_t'`.
///
/// # Errors
///
/// Where the value was not gathered, or no factor serves the size.
pub fn tension(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let F_t = piece.value(piece.values.tension, Lacking::Tension)?;
    let F_t = w.given("F_t", "reference tension value", F_t, piece.values.cited);
    let C_D = duration(w, conditions.duration)?;
    let wet = piece.wet("tension", conditions.service)?;
    let C_M = noted(w, "C_M", "wet service", wet, NONE);
    let C_t = ordinary(w);
    let size = piece.factor("C_F", "tension", "-")?;
    let C_F = noted(w, "C_F", "size", size, NONE);
    let incised = piece.incised("tension", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    step!(w, F_t_adj = F_t * C_D * C_M * C_t * C_F * C_i, "adjusted tension value", ADJUSTED);
    found(F_t_adj)
}

/// How a bearing lies: how long it is along the grain, and how far it is from the end of the member.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bears {
    /// Length of the bearing along the grain.
    pub length: Amount,
    /// From the bearing to the end of the member.
    pub from_end: Amount,
}

/// Compression across the grain, `F_c-perp'`, with the bearing area factor of NDS 3.10.4. How long the load lasts makes no
/// difference.
///
/// # Errors
///
/// Where the value was not gathered, or the bearing has no length.
pub fn across(w: &mut Working, piece: &Piece<'_>, conditions: Conditions, bears: Bears) -> Result<Amount, Outside> {
    if !bears.length.is_positive() {
        return Err(Outside::NothingThere);
    }
    let F_c_perp = piece.value(piece.values.across, Lacking::Across)?;
    let F_c_perp = w.given("F_c_perp", "reference value of compression across the grain", F_c_perp, piece.values.cited);
    let wet = piece.wet("across", conditions.service)?;
    let C_M = noted(w, "C_M", "wet service", wet, NONE);
    let C_t = ordinary(w);
    let incised = piece.incised("across", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    let C_b = bearing_area(w, bears);
    step!(w, F_c_perp_adj = F_c_perp * C_M * C_t * C_i * C_b, "adjusted compression across the grain", ADJUSTED);
    found(F_c_perp_adj)
}

/// The bearing area factor, `C_b`: a bearing shorter than 6 in and at least 3 in from the end bears more.
fn bearing_area(w: &mut Working, bears: Bears) -> Amount {
    let l_b = bears.length;
    let short = l_b.per(INCHES) < 6.0 && bears.from_end.per(INCHES) >= 3.0 - 1e-9;
    if !short {
        return w.given("C_b", "bearing area", 1.0, Cited::memory("NDS 3.10.4"));
    }
    given!(w, l_b = l_b, "length of the bearing", Cited::STATED);
    step!(w, C_b = (l_b + 0.375 * INCHES) / l_b, "bearing area", Cited::memory("NDS 3.10.4"));
    C_b
}

/// Modulus of elasticity, `E'`.
///
/// # Errors
///
/// Where it was not gathered.
pub fn stiffness(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let E = piece.value(piece.values.stiffness, Lacking::Stiffness)?;
    let E = w.given("E", "modulus of elasticity", E, piece.values.cited);
    let wet = piece.wet("stiffness", conditions.service)?;
    let C_M = noted(w, "C_M", "wet service", wet, NONE);
    let C_t = ordinary(w);
    let incised = piece.incised("stiffness", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    step!(w, E_adj = E * C_M * C_t * C_i, "adjusted modulus of elasticity", ADJUSTED);
    found(E_adj)
}

/// Modulus of elasticity for stability, `E_min'`.
///
/// # Errors
///
/// Where it was not gathered.
pub fn least_stiffness(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let E_min = match (piece.values.least, piece.values.stiffness) {
        (None, Some(stiffness)) if !piece.own() => {
            given!(w, E = stiffness * PSI, "modulus of elasticity", piece.values.cited);
            given!(w, COV_E = 0.25, "its spread in lumber graded by eye", APPENDIX_D);
            step!(
                w,
                E_min = E * (1.0 - 1.645 * COV_E) * 1.03 / 1.66,
                "modulus of elasticity for stability",
                APPENDIX_D
            );
            E_min
        }
        (least, _) => {
            let E_min = piece.value(least, Lacking::LeastStiffness)?;
            w.given("E_min", "modulus of elasticity for stability", E_min, piece.values.cited)
        }
    };
    let wet = piece.wet("least", conditions.service)?;
    let C_M = noted(w, "C_M", "wet service", wet, NONE);
    let C_t = ordinary(w);
    let incised = piece.incised("least", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    step!(w, E_min_adj = E_min * C_M * C_t * C_i, "adjusted modulus for stability", ADJUSTED);
    found(E_min_adj)
}

/// Compression along the grain, `F_c'`, of a column that nothing holds over a length, about its weaker way; NDS 3.7.1 with
/// `c` 0.8 of sawn lumber.
///
/// # Errors
///
/// Where a value was not gathered, or the column is more slender than 50.
pub fn along(
    w: &mut Working,
    piece: &Piece<'_>,
    conditions: Conditions,
    effective_length: Amount,
) -> Result<Amount, Outside> {
    let F_c_star = along_but_for_stability(w, piece, conditions)?;
    let E_min_adj = least_stiffness(w, piece, conditions)?;
    given!(w, l_e = effective_length, "effective length", Cited::STATED);
    given!(w, d = piece.thickness, "weaker way", Cited::STATED);
    step!(w, s = l_e / d, "slenderness", COLUMN);
    if s.plain() > 50.0 {
        return Err(Outside::TooSlender);
    }
    step!(w, F_cE = 0.822 * E_min_adj / squared(s), "critical buckling strength", COLUMN);
    step!(w, r = F_cE / F_c_star, "of it over compression value", COLUMN);
    step!(w, C_P = (1.0 + r) / 1.6 - sqrt(squared((1.0 + r) / 1.6) - r / 0.8), "column stability", COLUMN);
    step!(w, F_c_adj = F_c_star * C_P, "adjusted compression along the grain", ADJUSTED);
    found(F_c_adj)
}

/// Compression along the grain but for the stability of a column, `F_c*`.
fn along_but_for_stability(w: &mut Working, piece: &Piece<'_>, conditions: Conditions) -> Result<Amount, Outside> {
    let F_c = piece.value(piece.values.compression, Lacking::Compression)?;
    let F_c = w.given("F_c", "reference value of compression along the grain", F_c, piece.values.cited);
    let C_D = duration(w, conditions.duration)?;
    let size = piece.factor("C_F", "compression", "-")?;
    let C_F = noted(w, "C_F", "size", size, NONE);
    let wet = piece.wet("compression", conditions.service)?;
    let spared = wet.is_some() && piece.values.table != Table::Timbers && (F_c * C_F).per(PSI) <= 750.0 + 1e-6;
    let C_M = if spared {
        w.given("C_M", "wet service: F_c C_F is at most 750 psi", 1.0, Cited::memory("NDS Supplement Table 4A, note"))
    } else {
        noted(w, "C_M", "wet service", wet, NONE)
    };
    let C_t = ordinary(w);
    let incised = piece.incised("compression", conditions.faces)?;
    let C_i = noted(w, "C_i", "incising", incised, NONE);
    step!(w, F_c_star = F_c * C_D * C_M * C_t * C_F * C_i, "compression value without C_P", ADJUSTED);
    found(F_c_star)
}

/// Compression at an angle between the load and the grain, `F_theta'`, by the formula of Hankinson: NDS 3.10.3.
///
/// # Errors
///
/// Where a value was not gathered, or the bearing has no length.
pub fn at_an_angle(
    w: &mut Working,
    piece: &Piece<'_>,
    conditions: Conditions,
    bears: Bears,
    angle: Amount,
) -> Result<Amount, Outside> {
    let F_c_star = along_but_for_stability(w, piece, conditions)?;
    let F_c_perp_adj = across(w, piece, conditions, bears)?;
    given!(w, theta = angle, "angle between the load and the grain", Cited::STATED);
    step!(
        w,
        F_theta = F_c_star * F_c_perp_adj / (F_c_star * squared(sin(theta)) + F_c_perp_adj * squared(cos(theta))),
        "compression value at the angle",
        HANKINSON
    );
    found(F_theta)
}
