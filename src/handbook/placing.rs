//! Where fasteners may stand in a member, and the holes they want.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// An end, edge, spacing or row distance, in diameters.
#[derive(Debug)]
pub struct Distance {
    /// `1/4 in and over` or `under 1/4 in`.
    pub fastener: &'static str,
    /// `end`, `edge`, `loaded edge`, `unloaded edge`, `spacing` or `rows`.
    pub distance: &'static str,
    /// How the load meets the grain.
    pub load: &'static str,
    /// `any`, `softwood`, `hardwood`; of small fasteners `wood` or `steel plate`, the side member.
    pub member: &'static str,
    /// `bored`, `not bored`, or `-` where it makes no difference.
    pub hole: &'static str,
    /// Below this nothing is permitted.
    pub least: f64,
    /// From this on the geometry factor is 1.
    pub full: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Every one.
pub static DISTANCES: LazyLock<Rows<Distance>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/fastener-distances.tsv"), |row| {
        Some(Distance {
            fastener: row.text("fastener")?,
            distance: row.text("distance")?,
            load: row.text("load")?,
            member: row.text("member")?,
            hole: row.text("hole")?,
            least: row.number("least")?,
            full: row.number("full")?,
            cited: row.cited()?,
        })
    })
});

/// The row for a distance under a load, by the words of the table; `any` in a row fits every word.
pub fn distance(fastener: &str, distance: &str, load: &str, member: &str, hole: &str) -> Option<&'static Distance> {
    let fits = |row: &str, word: &str, any: &str| row == word || row == any;
    DISTANCES.rows.iter().find(|row| {
        row.fastener == fastener
            && row.distance == distance
            && fits(row.load, load, "any")
            && fits(row.member, member, "any")
            && fits(row.hole, hole, "-")
    })
}

/// How wide a hole for a screw or nail is to be.
#[derive(Debug)]
pub struct LeadHole {
    /// `lag screw`, `wood screw` or `nail`.
    pub fastener: &'static str,
    /// For wood above this specific gravity.
    pub over: f64,
    /// Up to this one.
    pub to: f64,
    /// `thread` or `shank`.
    pub part: &'static str,
    /// `withdrawal`, `lateral` or `any`.
    pub load: &'static str,
    /// Share of `of` from which on it is wide enough.
    pub low: f64,
    /// Share of `of` up to which it holds.
    pub high: f64,
    /// `diameter` or `root`.
    pub of: &'static str,
    /// Where it is from.
    pub cited: Cited,
}

/// Every one.
pub static LEAD_HOLES: LazyLock<Rows<LeadHole>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/lead-holes.tsv"), |row| {
        Some(LeadHole {
            fastener: row.text("fastener")?,
            over: row.number("over")?,
            to: row.number("to")?,
            part: row.text("part")?,
            load: row.text("load")?,
            low: row.number("low")?,
            high: row.number("high")?,
            of: row.text("of")?,
            cited: row.cited()?,
        })
    })
});

/// The hole for a part of a fastener in wood of a specific gravity, under a load; nothing where none is asked for.
pub fn lead_hole(fastener: &str, part: &str, load: &str, gravity: f64) -> Option<&'static LeadHole> {
    LEAD_HOLES.rows.iter().find(|row| {
        row.fastener == fastener
            && row.part == part
            && (row.load == load || row.load == "any")
            && row.over < gravity
            && gravity <= row.to
    })
}
