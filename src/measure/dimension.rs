//! Physical dimensions: exponents of length, force and angle.

use std::fmt;

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
}

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
