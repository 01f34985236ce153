//! A number with its dimension, and when two are equal.

use super::base::{INCH, MILLIMETRE};
use super::dimension::Dimension;
use super::style::Style;

/// A number in base units together with how it was written.
///
/// Base units: nanometre, newton, degree. A nanometre holds 1/64 in (396 875 nm) and 1 mm both as whole
/// numbers, and `f64` holds whole numbers exactly up to 2^53 (nine thousand kilometres), so sums and
/// differences of stated lengths carry no error at all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// Value in base units.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// How it was written, or how a derived value should be written.
    pub style: Style,
}

impl Measure {
    /// A length in inches, written as a fraction.
    pub fn inches(value: f64) -> Self {
        Self { value: value * INCH, dimension: Dimension::LENGTH, style: Style::INCHES }
    }

    /// A length in millimetres.
    pub fn millimetres(value: f64) -> Self {
        Self { value: value * MILLIMETRE, dimension: Dimension::LENGTH, style: Style::MILLIMETRES }
    }

    /// A plain number.
    pub fn number(value: f64) -> Self {
        Self { value, dimension: Dimension::NUMBER, style: Style::NUMBER }
    }

    /// An angle in degrees.
    pub fn degrees(value: f64) -> Self {
        Self { value, dimension: Dimension::ANGLE, style: Style::DEGREES }
    }

    /// The same number written another way.
    #[must_use]
    pub fn styled(self, style: Style) -> Self {
        Self { style, ..self }
    }
}

/// Whether two values of one dimension, in its base units, are equal for a rule.
///
/// Stated values are exact; what is derived from them through roots and divisions carries rounding of the last bits.
/// The allowance is one part in 10^9, or the dimension's own tolerance, whichever is more. What is not finite equals
/// nothing.
pub fn equal(a: f64, b: f64, dimension: Dimension) -> bool {
    let finite = a.is_finite() && b.is_finite();
    finite && (a - b).abs() <= (a.abs().max(b.abs()) * 1e-9).max(dimension.tolerance())
}
