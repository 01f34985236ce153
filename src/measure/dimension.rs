//! Physical dimensions: exponents of length, force and angle.

use std::fmt;

use super::base::MILLIMETRE;

/// Exponents of length, force and angle. A slope is a plain ratio, an angle is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Dimension {
    /// Exponent of length.
    pub length: i8,
    /// Exponent of force.
    pub force: i8,
    /// Exponent of angle.
    pub angle: i8,
}

impl Dimension {
    /// A plain number, a count, a slope.
    pub const NUMBER: Self = Self::of(0, 0, 0);
    /// A length.
    pub const LENGTH: Self = Self::of(1, 0, 0);
    /// An area.
    pub const AREA: Self = Self::of(2, 0, 0);
    /// An angle.
    pub const ANGLE: Self = Self::of(0, 0, 1);
    /// A force.
    pub const FORCE: Self = Self::of(0, 1, 0);
    /// A force on a length.
    pub const LINE_LOAD: Self = Self::of(-1, 1, 0);
    /// A force on an area.
    pub const PRESSURE: Self = Self::of(-2, 1, 0);

    const fn of(length: i8, force: i8, angle: i8) -> Self {
        Self { length, force, angle }
    }

    /// Dimension of a product.
    #[must_use]
    pub fn times(self, other: Self) -> Self {
        Self::of(
            self.length.saturating_add(other.length),
            self.force.saturating_add(other.force),
            self.angle.saturating_add(other.angle),
        )
    }

    /// Dimension of a quotient.
    #[must_use]
    pub fn over(self, other: Self) -> Self {
        Self::of(
            self.length.saturating_sub(other.length),
            self.force.saturating_sub(other.force),
            self.angle.saturating_sub(other.angle),
        )
    }

    /// How far two values near nothing may lie apart and still be the same, in base units of this dimension.
    ///
    /// It covers the last bits that a difference of ordinary values leaves, and lies far below the smallest mark that
    /// any unit of the dimension is set to: ten nanometres, 10^-9 of a number, a slope or a degree. A mixed dimension
    /// takes it from small amounts above its line and large ones below, so that it stays small whatever the exponents.
    #[must_use]
    pub fn tolerance(self) -> f64 {
        if self == Self::NUMBER {
            return 1e-9;
        }
        let least = |exponent: i8, (small, large): (f64, f64)| {
            let amount = if exponent > 0 { small } else { large };
            amount.powi(exponent.into())
        };
        let tolerance = 1e-4 * least(self.length, LENGTHS) * least(self.force, FORCES) * least(self.angle, ANGLES);
        if tolerance.is_finite() { tolerance } else { 0.0 }
    }
}

/// A tenth of a millimetre and ten metres: the smallest and the largest length that a stair has.
const LENGTHS: (f64, f64) = (0.1 * MILLIMETRE, 1e4 * MILLIMETRE);
/// A tenth of a newton and ten kilonewtons.
const FORCES: (f64, f64) = (0.1, 1e4);
/// What a level shows no more, and a full turn; degrees.
const ANGLES: (f64, f64) = (1e-5, 360.0);

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match *self {
            Self::NUMBER => "a number",
            Self::LENGTH => "a length",
            Self::AREA => "an area",
            Self::ANGLE => "an angle",
            Self::FORCE => "a force",
            Self::LINE_LOAD => "a load on a length",
            Self::PRESSURE => "a load on an area",
            _ => "a mixed unit",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{INCH, equal};

    /// Powers of length from a curvature to a moment of inertia, of force and of angle.
    fn dimensions() -> impl Iterator<Item = Dimension> {
        let exponents = |most: i8| -most..=most;
        exponents(4).flat_map(move |length| {
            exponents(2).flat_map(move |force| exponents(1).map(move |angle| Dimension::of(length, force, angle)))
        })
    }

    /// A value of a dimension that is so much of each base: nanometres, newtons, degrees.
    fn amount(dimension: Dimension, length: f64, force: f64, angle: f64) -> f64 {
        let Dimension { length: a, force: b, angle: c } = dimension;
        length.powi(a.into()) * force.powi(b.into()) * angle.powi(c.into())
    }

    #[test]
    fn a_tolerance_lies_far_below_small_amounts_and_above_last_bits() {
        for dimension in dimensions() {
            let of = |exponent: i8, small: f64, large: f64| if exponent > 0 { small } else { large };
            // A 64th of an inch, a tenth of a newton and of a degree above the line; ten metres, a ton and a full
            // turn below it.
            let (length, force) = (of(dimension.length, INCH / 64.0, 1e10), of(dimension.force, 0.1, 1e4));
            let small = amount(dimension, length, force, of(dimension.angle, 0.1, 360.0));
            assert!(dimension.tolerance() * 1000.0 < small, "{dimension:?}");
            assert!(!equal(small, 0.0, dimension) && !equal(2.0 * small, small, dimension), "{dimension:?}");
        }
        // What a difference of values of a metre, a kilonewton and a right angle leaves.
        let moment = Dimension::FORCE.times(Dimension::LENGTH);
        for dimension in [
            Dimension::NUMBER,
            Dimension::LENGTH,
            Dimension::AREA,
            Dimension::ANGLE,
            Dimension::FORCE,
            Dimension::LINE_LOAD,
            Dimension::PRESSURE,
            moment,
        ] {
            let ordinary = amount(dimension, 1000.0 * MILLIMETRE, 1000.0, 90.0);
            assert!(equal(4.0 * ordinary * f64::EPSILON, 0.0, dimension), "{dimension:?}");
        }
        assert!((Dimension::LENGTH.tolerance() - 10.0).abs() < 1e-12);
        assert!((Dimension::ANGLE.tolerance() - 1e-9).abs() < 1e-24);
    }

    #[test]
    fn what_is_not_finite_equals_nothing() {
        for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for other in [0.0, 1.0, f64::MAX, odd] {
                assert!(!equal(odd, other, Dimension::PRESSURE) && !equal(other, odd, Dimension::LENGTH));
            }
        }
        let beyond = Dimension { length: i8::MAX, ..Dimension::NUMBER };
        assert!(beyond.tolerance().is_finite() && !equal(1e300, 0.0, beyond));
    }
}
