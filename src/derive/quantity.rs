//! One entry of the catalogue.

use super::working::{Derived, Working};
use crate::measure::Dimension;
use crate::model::Id;

/// What a quantity gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gives {
    /// A number of this dimension.
    Measure(Dimension),
    /// One of these words.
    Word(&'static [&'static str]),
}

/// One quantity.
pub struct Quantity {
    /// The kind it belongs to.
    pub kind: &'static str,
    /// As a rule names it.
    pub name: &'static str,
    /// What it gives.
    pub gives: Gives,
    /// One line.
    pub help: &'static str,
    /// How it comes about; words in it that were read are replaced by their numbers in a working.
    pub formula: &'static str,
    /// Where the formula comes from.
    pub source: &'static str,
    /// The kind of thing that, once drawn, would cure too much of it; empty for none.
    pub cure: &'static str,
    /// The derivation.
    pub derive: fn(&Working<'_>, Id) -> Derived,
}

impl std::fmt::Debug for Quantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} of {}", self.name, self.kind)
    }
}

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other)
    }
}

pub(super) const NUMBER: Gives = Gives::Measure(Dimension::NUMBER);
pub(super) const LENGTH: Gives = Gives::Measure(Dimension::LENGTH);
pub(super) const ANGLE: Gives = Gives::Measure(Dimension::ANGLE);
pub(super) const GEOMETRY: &str = "plane geometry";

/// Builds one entry; `entry!("kind" "name" GIVES, "help", "formula", "source", derive)`.
macro_rules! entry {
    ($kind:literal $name:literal $gives:expr, $help:literal, $formula:literal, $source:expr, $derive:expr) => {
        entry!($kind $name $gives, $help, $formula, $source, $derive, cure "")
    };
    ($kind:literal $name:literal $gives:expr, $help:literal, $formula:literal, $source:expr, $derive:expr, cure $cure:literal) => {
        Quantity { kind: $kind, name: $name, gives: $gives, help: $help, formula: $formula, source: $source, cure: $cure, derive: $derive }
    };
}
pub(super) use entry;

impl Gives {
    /// What it gives, in words.
    pub fn words(self) -> String {
        match self {
            Gives::Measure(dimension) => dimension.to_string(),
            Gives::Word(words) => words.join(" or "),
        }
    }
}
