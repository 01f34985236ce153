//! What the trade says of fasteners in words: heads, coatings, metric sizes, each in one table. The reader, its messages
//! and the reference read them.

use super::kind::PropertyName;
use super::vocabulary::properties;
use crate::measure::{MILLIMETRE, Measure};

/// How a fastener may be coated, as a rule reads it.
pub const COATINGS: &[&str] = &["galvanised", "stainless", "coated", "plain"];

/// One word for how a fastener is coated, and how it is written besides.
pub static COATING_WORDS: &[(&str, &[&str])] = &[
    (
        "galvanised",
        &[
            "galvanized",
            "hot-dip galvanised",
            "hot-dip galvanized",
            "hot-dipped galvanised",
            "hot-dipped galvanized",
            "HDG",
        ],
    ),
    ("stainless", &["stainless steel", "A2", "A4"]),
    ("coated", &["polymer coated", "exterior coated"]),
    ("plain", &["bright", "black", "uncoated", "not coated", "no coating", "ungalvanised", "not galvanised"]),
];

/// One sort of fastener under a property.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// The property that takes it.
    pub of: PropertyName,
    /// The word that names it, or its head.
    pub name: &'static str,
    /// How it is written besides.
    pub also: &'static [&'static str],
    /// What a rule calls such a fastener.
    pub kind: &'static str,
}

const fn head(of: PropertyName, name: &'static str, also: &'static [&'static str], kind: &'static str) -> Head {
    Head { of, name, also, kind }
}

/// Heads of bolts, and names of the other fasteners. The first of a property is the one that is meant where none is
/// stated.
pub static HEADS: &[Head] = &[
    head(properties::BOLTS, "hex", &["hex bolt", "hex bolts", "hex head", "hexagon", "bolt", "bolts"], "hex bolt"),
    head(
        properties::BOLTS,
        "carriage",
        &["carriage bolt", "carriage bolts", "coach bolt", "coach bolts"],
        "carriage bolt",
    ),
    head(properties::LAGS, "lag", &["lags", "lag screw", "lag screws", "lag bolt", "lag bolts", "coach screws"], "lag"),
    head(properties::SCREWS, "wood screw", &["wood screws", "screw", "screws", "countersunk"], "wood screw"),
    head(properties::NAILS, "common", &["common nail", "common nails", "nail", "nails"], "nail"),
    head(properties::NAILS, "box", &["box nail", "box nails"], "nail"),
    head(properties::NAILS, "sinker", &["sinkers", "sinker nails"], "nail"),
];

/// What a word beside a fastener's size says.
#[derive(Debug, Clone, Copy)]
pub enum Said {
    /// Its head, or which of several sorts it is.
    Head(&'static Head),
    /// How it is coated.
    Coating(&'static str),
}

/// The heads of a property.
pub fn heads(of: PropertyName) -> impl Iterator<Item = &'static Head> {
    HEADS.iter().filter(move |head| head.of == of)
}

/// Every phrase that may stand beside the size of a property's fasteners.
pub fn phrases(of: PropertyName) -> impl Iterator<Item = (&'static str, Said)> {
    let heads = heads(of).flat_map(|head| {
        std::iter::once(head.name).chain(head.also.iter().copied()).map(move |name| (name, Said::Head(head)))
    });
    let coatings = COATING_WORDS.iter().flat_map(|(name, also)| {
        std::iter::once(*name).chain(also.iter().copied()).map(move |word| (word, Said::Coating(name)))
    });
    heads.chain(coatings)
}

/// Nominal diameters of metric threads, ISO 262: from memory. Millimetres.
pub const METRIC_THREADS: &[f64] = &[4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0, 24.0];

/// `M10`, `M10x120`: the diameter of a metric thread, and the length in millimetres where it is written with it.
/// Nothing where the word is no such size.
pub fn metric(word: &str) -> Option<(Measure, Option<Measure>)> {
    let sizes = word.strip_prefix(['M', 'm'])?;
    let (diameter, length) = match sizes.split_once(['x', 'X', '×']) {
        Some((diameter, length)) => (diameter, Some(length)),
        None => (sizes, None),
    };
    let millimetres = |digits: &str| {
        let whole: u16 = digits.parse().ok()?;
        Some(Measure::millimetres(f64::from(whole)))
    };
    let diameter = millimetres(diameter)?;
    METRIC_THREADS.iter().find(|thread| **thread * MILLIMETRE == diameter.value)?;
    match length {
        Some(length) => Some((diameter, Some(millimetres(length)?))),
        None => Some((diameter, None)),
    }
}
