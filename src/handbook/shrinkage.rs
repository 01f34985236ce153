//! How much wood shrinks.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// Shrinkage of a species from green to oven-dry.
#[derive(Debug)]
pub struct Shrinkage {
    /// The species as the table of timbers names it.
    pub species: &'static str,
    /// Across the rings, percent of the green size.
    pub radial: f64,
    /// Along the rings, percent of the green size.
    pub tangential: f64,
    /// Fibre saturation point, percent of moisture.
    pub saturation: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Every one.
pub static SHRINKAGE: LazyLock<Rows<Shrinkage>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/shrinkage.tsv"), |row| {
        Some(Shrinkage {
            species: row.text("species")?,
            radial: row.number("radial")?,
            tangential: row.number("tangential")?,
            saturation: row.number("saturation")?,
            cited: row.cited()?,
        })
    })
});
