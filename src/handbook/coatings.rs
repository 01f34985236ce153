//! Which fasteners stand which wood, by how they are coated.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// What the wood does to metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WoodFor {
    /// Treated with a preservative of copper.
    Treated,
    /// Treated with borate, or with a fire retardant, and kept dry.
    TreatedDry,
    /// Rich in tannin: iron stains it, and rusts.
    Tannin,
    /// None of these.
    Plain,
}

/// What a coating comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// The clause allows it.
    Yes,
    /// The clause does not.
    No,
    /// By its maker's report only.
    ByItsMaker,
}

/// One row: a wood, a place, a coating.
#[derive(Debug)]
pub struct Coating {
    /// Which wood.
    pub wood: WoodFor,
    /// `indoors` or `outdoors`.
    pub place: &'static str,
    /// As the table of fasteners calls it.
    pub coating: &'static str,
    /// Least diameter from which on the row holds, inches.
    pub from: f64,
    /// What it comes to.
    pub stands: Stands,
    /// Where it is from.
    pub cited: Cited,
}

/// Every row.
pub static COATINGS: LazyLock<Rows<Coating>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/fastener-coatings.tsv"), |row| {
        Some(Coating {
            wood: match row.text("wood")? {
                "treated" => WoodFor::Treated,
                "treated, kept dry" => WoodFor::TreatedDry,
                "rich in tannin" => WoodFor::Tannin,
                "plain" => WoodFor::Plain,
                _ => return None,
            },
            place: row.text("place")?,
            coating: row.text("coating")?,
            from: row.number("from")?,
            stands: match row.text("stands")? {
                "yes" => Stands::Yes,
                "no" => Stands::No,
                "by its maker" => Stands::ByItsMaker,
                _ => return None,
            },
            cited: row.cited()?,
        })
    })
});

/// Timbers rich in tannin, by the names of the table of timbers: common practice, no source.
pub static RICH_IN_TANNIN: &[&str] = &[
    "red oak",
    "white oak",
    "oak",
    "chestnut",
    "redwood",
    "redwood open grain",
    "western red cedar",
    "alaska yellow cedar",
    "northern white cedar",
    "black walnut",
    "walnut",
    "black locust",
    "iroko",
    "ipe",
    "teak",
];

/// The row for a wood, a place, a coating and a bolt's or nail's diameter, inches: of several that hold, the one from the
/// largest diameter.
pub fn coating(wood: WoodFor, outdoors: &str, coating: &str, diameter: f64) -> Option<&'static Coating> {
    let holds = |row: &&Coating| {
        row.wood == wood && row.place == outdoors && row.coating == coating && row.from <= diameter + 1e-6
    };
    COATINGS.rows.iter().filter(holds).max_by(|a, b| a.from.total_cmp(&b.from))
}
