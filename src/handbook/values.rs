//! Reference design values of graded lumber.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// A table of the NDS Supplement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// 4A: dimension lumber of all species but southern pine.
    DimensionLumber,
    /// 4B: dimension lumber of southern pine.
    SouthernPine,
    /// 4D: posts and timbers.
    Timbers,
    /// The user's own timber: no factor of size, form or use is known for it.
    Own,
}

impl Table {
    /// What the tables of factors call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::DimensionLumber => "4A",
            Self::SouthernPine => "4B",
            Self::Timbers => "4D",
            Self::Own => "own",
        }
    }
}

/// Reference design values, psi; nothing where one was not gathered or not stated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DesignValues {
    /// Of which table.
    pub table: Table,
    /// The species as the table of timbers names it.
    pub species: &'static str,
    /// The grade.
    pub grade: &'static str,
    /// Nominal thickness from and to, inches.
    pub thick: (f64, f64),
    /// Nominal width from and to, inches.
    pub wide: (f64, f64),
    /// Bending, `F_b`.
    pub bending: Option<f64>,
    /// Tension along the grain, `F_t`.
    pub tension: Option<f64>,
    /// Shear along the grain, `F_v`.
    pub shear: Option<f64>,
    /// Compression across the grain, `F_c` perpendicular.
    pub across: Option<f64>,
    /// Compression along the grain, `F_c`.
    pub compression: Option<f64>,
    /// Modulus of elasticity, `E`.
    pub stiffness: Option<f64>,
    /// Modulus of elasticity for stability, `E_min`.
    pub least: Option<f64>,
    /// Where they are from.
    pub cited: Cited,
}

impl DesignValues {
    /// The user's own timber, of which nothing is stated yet.
    pub const OWN: Self = Self {
        table: Table::Own,
        species: "",
        grade: "",
        thick: (0.0, f64::INFINITY),
        wide: (0.0, f64::INFINITY),
        bending: None,
        tension: None,
        shear: None,
        across: None,
        compression: None,
        stiffness: None,
        least: None,
        cited: Cited::STATED,
    };
}

/// The edition whose values are in force.
pub const IN_FORCE: &str = "2018";

/// Every row, those of older editions too.
pub static DESIGN_VALUES: LazyLock<Rows<DesignValues>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/reference-design-values.tsv"), |row| {
        row.text("also seen")?;
        Some(DesignValues {
            table: match row.text("table")? {
                "4A" => Table::DimensionLumber,
                "4B" => Table::SouthernPine,
                "4D" => Table::Timbers,
                _ => return None,
            },
            species: row.text("species")?,
            grade: row.text("grade")?,
            thick: row.range("thick")?,
            wide: row.range("wide")?,
            bending: row.gathered("bending")?,
            tension: row.gathered("tension")?,
            shear: row.gathered("shear")?,
            across: row.gathered("across")?,
            compression: row.gathered("compression")?,
            stiffness: row.gathered("stiffness")?,
            least: row.gathered("least")?,
            cited: row.cited()?,
        })
    })
});

/// The values of a species and grade for a piece of nominal thickness and width (inches, the lesser first), by the
/// edition in force. Nothing where no row holds them.
pub fn design_values(species: &str, grade: &str, thickness: f64, width: f64) -> Option<&'static DesignValues> {
    design_values_of(species, grade, thickness, width, IN_FORCE)
}

/// The same of another edition.
pub fn design_values_of(
    species: &str,
    grade: &str,
    thickness: f64,
    width: f64,
    edition: &str,
) -> Option<&'static DesignValues> {
    let within = |(low, high): (f64, f64), size: f64| low <= size && size <= high;
    DESIGN_VALUES.rows.iter().find(|row| {
        row.species == species
            && row.grade == grade
            && row.cited.edition == edition
            && within(row.thick, thickness)
            && within(row.wide, width)
    })
}
