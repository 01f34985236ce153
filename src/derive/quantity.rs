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
    pub derive: Derive,
}

/// How a quantity is derived.
#[derive(Clone, Copy)]
pub enum Derive {
    /// It is one for the whole element.
    Whole(fn(&Working<'_>, Id) -> Derived),
    /// It is asked at a place of the element: a length in nanometres, from where its help says. Its name ends in
    /// the word that the place follows: `depth at`.
    At(fn(&Working<'_>, Id, f64) -> Derived),
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
pub(super) const AREA: Gives = Gives::Measure(Dimension::AREA);
pub(super) const ANGLE: Gives = Gives::Measure(Dimension::ANGLE);
pub(super) const GEOMETRY: &str = "plane geometry";

/// Builds one entry; `entry!("kind" "name" GIVES, "help", "formula", "source", derive)`; `entry!(at ...)` where it
/// is asked at a place.
macro_rules! entry {
    (at $kind:literal $name:literal $gives:expr, $help:literal, $formula:literal, $source:expr, $derive:expr) => {
        Quantity { kind: $kind, name: $name, gives: $gives, help: $help, formula: $formula, source: $source, cure: "", derive: $crate::derive::Derive::At($derive) }
    };
    ($kind:literal $name:literal $gives:expr, $help:literal, $formula:literal, $source:expr, $derive:expr) => {
        entry!($kind $name $gives, $help, $formula, $source, $derive, cure "")
    };
    ($kind:literal $name:literal $gives:expr, $help:literal, $formula:literal, $source:expr, $derive:expr, cure $cure:literal) => {
        Quantity { kind: $kind, name: $name, gives: $gives, help: $help, formula: $formula, source: $source, cure: $cure, derive: $crate::derive::Derive::Whole($derive) }
    };
}
pub(super) use entry;

impl Quantity {
    /// Whether it is asked at a place, not of the element as a whole.
    pub fn at_a_place(&self) -> bool {
        matches!(self.derive, Derive::At(_))
    }
}

impl Gives {
    /// What it gives, in words.
    pub fn words(self) -> String {
        match self {
            Gives::Measure(dimension) => dimension.to_string(),
            Gives::Word(words) => words.join(" or "),
        }
    }
}
