//! Specific gravity of wood, with where it is from.

use super::outside::{Lacking, Outside};
use crate::handbook::{self, Cited};

/// The specific gravity of a wood by oven-dry weight and volume, a plain number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecificGravity {
    /// The number.
    pub value: f64,
    /// Where it is from: a row of the handbook, or who states it.
    pub cited: Cited,
}

impl SpecificGravity {
    /// The same, if it is that of a wood.
    pub(super) fn of_wood(self) -> Result<Self, Outside> {
        let value = self.value;
        if value.is_finite() && value > 0.0 && value < 1.5 { Ok(self) } else { Err(Outside::Lacking(Lacking::Gravity)) }
    }
}

/// A bare number is one that somebody states.
impl From<f64> for SpecificGravity {
    fn from(value: f64) -> Self {
        Self { value, cited: Cited::STATED }
    }
}

impl From<&handbook::Gravity> for SpecificGravity {
    fn from(row: &handbook::Gravity) -> Self {
        Self { value: row.gravity, cited: row.cited }
    }
}
