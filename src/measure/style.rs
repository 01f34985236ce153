//! How a number was written, and so how it prints back.

use std::fmt;

use super::dimension::Dimension;
use super::unit::{Figures, Joint, Notation, System, UNITS, Unit};

/// Unit and notation of a written number.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Style {
    unit: &'static Unit,
    notation: Notation,
}

impl Style {
    /// Inches with a hyphened fraction, `7-3/8"`, the ordinary way.
    pub const INCHES: Self = Self::named("inch");
    /// Inches with a decimal point, `7.375"`.
    pub const DECIMAL_INCHES: Self = Self::INCHES.with(Notation::Decimal);
    /// Millimetres.
    pub const MILLIMETRES: Self = Self::named("millimetre");
    /// Degrees.
    pub const DEGREES: Self = Self::named("degree");
    /// A plain number.
    pub const NUMBER: Self = Self::named("number");
    /// `1 in 48`.
    pub const ONE_IN: Self = Self::named("one in");
    /// `1/4" per 12"`.
    pub const PER_FOOT: Self = Self::named("inch per foot");
    /// `2%`.
    pub const PERCENT: Self = Self::named("percent");

    /// Feet and inches, `3'-6"` or `3' 6"`.
    pub const fn feet(joint: Joint) -> Self {
        Self::named("foot").with(Notation::FeetAndInches(joint))
    }

    /// A unit in its ordinary notation.
    pub const fn of(unit: &'static Unit) -> Self {
        Self { unit, notation: unit.notation }
    }

    /// The same unit in another notation.
    #[must_use]
    pub const fn with(self, notation: Notation) -> Self {
        Self { notation, ..self }
    }

    // Called for constants only, so a name that stands in no row does not compile.
    #[allow(clippy::panic)]
    const fn named(name: &str) -> Self {
        let mut rows = UNITS;
        while let [unit, rest @ ..] = rows {
            if same(unit.name.as_bytes(), name.as_bytes()) {
                return Self::of(unit);
            }
            rows = rest;
        }
        panic!("no unit has this name")
    }

    /// The unit.
    pub const fn unit(self) -> &'static Unit {
        self.unit
    }

    /// How its figures are laid out.
    pub const fn notation(self) -> Notation {
        self.notation
    }

    /// Whether this is how a slope is written.
    pub fn is_slope(self) -> bool {
        self.unit.figures == Figures::Slopes
    }

    /// Whether the unit is metric.
    pub fn is_metric(self) -> bool {
        self.unit.system == System::Metric
    }

    /// The style in which a derived value of `dimension` is written beside values of this style.
    #[must_use]
    pub fn for_dimension(self, dimension: Dimension) -> Self {
        if self.unit.dimension == dimension && !self.is_slope() {
            return self;
        }
        match Unit::of_derived(dimension, self.unit.system) {
            Some(unit) => Self::of(unit),
            None if self.is_slope() => self,
            None => Self::NUMBER,
        }
    }
}

const fn same(mut a: &[u8], mut b: &[u8]) -> bool {
    while let ([first, rest_of_a @ ..], [other, rest_of_b @ ..]) = (a, b) {
        if *first != *other {
            return false;
        }
        (a, b) = (rest_of_a, rest_of_b);
    }
    a.is_empty() && b.is_empty()
}

impl fmt::Debug for Style {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({:?})", self.unit.name, self.notation)
    }
}
