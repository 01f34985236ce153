//! One entry of the catalogue.

use std::borrow::Cow;

use super::formula::{Derive, Fold, Formula};
use crate::measure::Dimension;
use crate::model::{Kind, PropertyName, kinds, properties, same};

/// What a quantity gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gives {
    /// A number of this dimension.
    Measure(Dimension),
    /// One of these words.
    Word(&'static [&'static str]),
}

/// One quantity.
#[non_exhaustive]
pub struct Quantity {
    /// The kind it belongs to.
    pub kind: &'static Kind,
    /// As a rule names it.
    pub name: &'static str,
    /// A place to show with it, where it is asked at one.
    pub shown_at: &'static str,
    /// What it gives.
    pub gives: Gives,
    /// One line.
    pub help: &'static str,
    /// How it comes about, where code tells cases apart; empty where an expression says so itself.
    pub(super) formula: &'static str,
    /// Where the formula comes from.
    pub source: &'static str,
    /// The kind of thing that, once drawn, would cure too much of it.
    pub cure: Option<&'static Kind>,
    /// The derivation.
    pub derive: Derive,
}

impl std::fmt::Debug for Quantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} of {}", self.name, self.kind.name)
    }
}

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other)
    }
}

pub(super) const NUMBER: Gives = Gives::Measure(Dimension::NUMBER);
pub(super) const LENGTH: Gives = Gives::Measure(Dimension::LENGTH);
pub(super) const FORCE: Gives = Gives::Measure(Dimension::FORCE);
pub(super) const PRESSURE: Gives = Gives::Measure(Dimension::PRESSURE);
pub(super) const AREA: Gives = Gives::Measure(Dimension::AREA);
pub(super) const ANGLE: Gives = Gives::Measure(Dimension::ANGLE);
pub(super) const GEOMETRY: &str = "plane geometry";

/// What a row leaves out.
pub(super) const ROW: Quantity = Quantity {
    kind: kinds::STAIR,
    name: "",
    shown_at: "12\"",
    gives: NUMBER,
    help: "",
    formula: "",
    source: "",
    cure: None,
    derive: Derive::Whole(|w, id| Err(w.not_drawn(id, kinds::STAIR))),
};

/// The row of a table for a kind and a name; one that is not there does not compile.
#[allow(clippy::panic, reason = "only the compiler runs this")]
pub(super) const fn row(table: &'static [Quantity], kind: &'static Kind, name: &str) -> &'static Quantity {
    let mut rest = table;
    while let Some((quantity, after)) = rest.split_first() {
        if quantity.kind.index() == kind.index() && same(quantity.name, name) {
            return quantity;
        }
        rest = after;
    }
    panic!("no such quantity")
}

/// What a derivation reads of an element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Asked {
    /// A quantity.
    Quantity(&'static Quantity),
    /// A stated property.
    Property(PropertyName),
}

impl From<&'static Quantity> for Asked {
    fn from(quantity: &'static Quantity) -> Self {
        Asked::Quantity(quantity)
    }
}

impl From<PropertyName> for Asked {
    fn from(property: PropertyName) -> Self {
        Asked::Property(property)
    }
}

impl Quantity {
    /// Whether it is worked by the mechanics: how much a part is asked for.
    pub fn is_of_mechanics(&self) -> bool {
        matches!(self.derive, Derive::Mechanics(_))
    }

    /// Whether it is asked at a place, not of the element as a whole.
    pub fn at_a_place(&self) -> bool {
        matches!(self.derive, Derive::At(_) | Derive::FormulaAt(_))
    }

    /// The stated property of which it is one, the mean, the largest or the sum, and so as little below nothing as that.
    pub fn adds_up(&self) -> Option<PropertyName> {
        match self.derive {
            Derive::Formula(Formula::Stated(_, property) | Formula::Item(_, property, _)) => Some(*property),
            Derive::Formula(Formula::List(Fold::Mean | Fold::Largest, _, property)) => Some(*property),
            // A flight of one riser has no runs, which come to nothing.
            Derive::Formula(Formula::List(Fold::Sum, _, property)) if *property != properties::RUNS => Some(*property),
            _ => None,
        }
    }

    /// The stated property of which it is one, the mean or the largest, and so within whatever that is within.
    pub fn is_as_stated(&self) -> Option<PropertyName> {
        match self.derive {
            Derive::Formula(Formula::Stated(_, property) | Formula::Item(_, property, _)) => Some(*property),
            Derive::Formula(Formula::List(Fold::Mean | Fold::Largest, _, property)) => Some(*property),
            _ => None,
        }
    }

    /// How it comes about; words in it that were read are replaced by their numbers in a working.
    pub fn formula(&self) -> Cow<'static, str> {
        match self.derive {
            Derive::Formula(formula) | Derive::FormulaAt(formula) => formula.text(),
            Derive::Whole(_) | Derive::At(_) | Derive::Mechanics(_) => Cow::Borrowed(self.formula),
        }
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
