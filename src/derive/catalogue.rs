//! The catalogue: one entry a quantity. Rules, the working and the reference all name quantities from here.

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

static GROUPS: &[&[Quantity]] = &[
    super::place::QUANTITIES,
    super::flight::QUANTITIES,
    super::step::QUANTITIES,
    super::handrail::QUANTITIES,
    super::guard::QUANTITIES,
    super::stringer::QUANTITIES,
    super::joint::QUANTITIES,
];

/// Every quantity.
pub fn quantities() -> impl Iterator<Item = &'static Quantity> + Clone {
    GROUPS.iter().flat_map(|group| group.iter())
}

/// The quantity of a kind by its name.
pub fn quantity(kind: &str, name: &str) -> Option<&'static Quantity> {
    quantities().find(|quantity| quantity.kind == kind && quantity.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::vocabulary;

    #[test]
    fn entries_are_whole_and_unique() {
        let mut seen = std::collections::BTreeSet::new();
        for entry in quantities() {
            assert!(vocabulary::kind(entry.kind).is_some(), "{entry:?}");
            assert!(seen.insert((entry.kind, entry.name)), "{entry:?} stands twice");
            assert!(!entry.help.is_empty() && !entry.formula.is_empty() && !entry.source.is_empty(), "{entry:?}");
            for word in entry.name.split(' ') {
                let reserved = ["each", "where", "shall", "should", "have", "and", "or", "not", "of", "is", "along"];
                assert!(!reserved.contains(&word), "no rule could name {entry:?}");
            }
        }
    }
}
