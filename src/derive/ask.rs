//! A quantity asked for by the names that a report uses: of which element, and which.

use std::error::Error;
use std::fmt;

use super::catalogue::quantity;
use super::datum::Datum;
use super::evaluation::Evaluation;
use super::missing::Missing;
use crate::measure::Measure;
use crate::model::{Element, Id, kinds};

/// Why a quantity that was asked for by its name has no value.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum NotAnswered {
    /// Nothing that is drawn is called so.
    NoSuchElement,
    /// Several things are of the kind that was named; a report's name tells them apart.
    SeveralElements,
    /// Things of its kind have no quantity and no property of that name.
    NoSuchQuantity,
    /// It rests on what is not stated, not drawn, or asked without a place.
    NotKnown(Missing),
}

impl fmt::Display for NotAnswered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            NotAnswered::NoSuchElement => "nothing that is drawn is called so",
            NotAnswered::SeveralElements => "several things are called so",
            NotAnswered::NoSuchQuantity => "things of its kind have no such quantity",
            NotAnswered::NotKnown(_) => "the value rests on what the design does not state",
        })
    }
}

impl Error for NotAnswered {}

impl Evaluation<'_> {
    /// The value of a quantity, or of a stated property, by names: of `flight` or `"handrail left"`, as a report calls
    /// the element, the `pitch` or the `height`, as a rule names it. Lengths are in nanometres, areas in square
    /// nanometres, angles in degrees. `place` is for quantities whose name ends in the word before a place (`depth
    /// at`): a length from where the quantity's help says.
    ///
    /// # Errors
    /// Why there is no value; where one is not known, what would settle it.
    pub fn ask(&self, element: &str, name: &str, place: Option<Measure>) -> Result<Datum, NotAnswered> {
        let id = self.element_called(element)?;
        let drawn = self.design.get(id).ok_or(NotAnswered::NoSuchElement)?;
        let of_part = || Some(kinds::PART).filter(|_| Element::is_part(drawn));
        let entry = quantity(drawn.kind, name).or_else(|| quantity(of_part()?, name));
        let value = match (entry, drawn.kind.property(name)) {
            (Some(entry), _) => self.derived(id, entry, place),
            (None, Some(property)) => self.stated(id, property.handle()),
            (None, None) => return Err(NotAnswered::NoSuchQuantity),
        };
        value.map_err(NotAnswered::NotKnown)
    }

    /// The element that a report calls so, or the only one of the kind.
    fn element_called(&self, wanted: &str) -> Result<Id, NotAnswered> {
        let ids = 0..self.design.elements.len();
        if let Some(id) = ids.clone().find(|id| self.design.is_called(*id, wanted)) {
            return Ok(id);
        }
        let mut of_kind = ids.filter(|id| self.design.kind(*id).is_some_and(|kind| kind.name == wanted));
        match (of_kind.next(), of_kind.next()) {
            (Some(only), None) => Ok(only),
            (Some(_), Some(_)) => Err(NotAnswered::SeveralElements),
            (None, _) => Err(NotAnswered::NoSuchElement),
        }
    }
}
