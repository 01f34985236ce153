//! Specific gravities.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// The specific gravity of a species combination, by oven-dry weight and volume.
#[derive(Debug)]
pub struct Gravity {
    /// The species as the table of timbers names it.
    pub species: &'static str,
    /// A plain number.
    pub gravity: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Every one.
pub static GRAVITIES: LazyLock<Rows<Gravity>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/specific-gravities.tsv"), |row| {
        Some(Gravity { species: row.text("species")?, gravity: row.number("gravity")?, cited: row.cited()? })
    })
});

/// That of a species.
pub fn gravity(species: &str) -> Option<&'static Gravity> {
    GRAVITIES.rows.iter().find(|row| row.species == species)
}
