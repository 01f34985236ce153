//! How a number was written, and so how it prints back.

use super::{Dimension, INCH, MILLIMETRE, POUND};

/// Unit and notation of a written number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Inches with a fraction, `7-3/8"`; `blank` writes `7 3/8"`.
    Inches {
        /// A blank, not a hyphen, before the fraction.
        blank: bool,
    },
    /// Inches with a decimal point, `7.375"`.
    DecimalInches,
    /// Feet and inches, `3'-6 1/2"`.
    FeetInches {
        /// A blank, not a hyphen, between the feet and the inches.
        blank: bool,
    },
    /// Millimetres.
    Millimetres,
    /// Centimetres.
    Centimetres,
    /// Metres.
    Metres,
    /// Degrees.
    Degrees,
    /// A plain number.
    Number,
    /// A count: never printed with a fraction unless it has one.
    Percent,
    /// `1 in 48`.
    OneIn,
    /// `1/4" per 12"`.
    PerFoot,
    /// Pounds-force.
    Pounds,
    /// Newtons.
    Newtons,
    /// Kilonewtons.
    Kilonewtons,
    /// Pounds on a square foot.
    Psf,
    /// Pounds on a square inch.
    Psi,
    /// Kilopascals.
    Kilopascals,
    /// Megapascals.
    Megapascals,
    /// Pounds on a foot.
    Plf,
    /// Kilonewtons on a metre.
    KilonewtonsPerMetre,
    /// Newtons on a metre.
    NewtonsPerMetre,
    /// Square inches.
    SquareInches,
    /// Square feet.
    SquareFeet,
    /// Square millimetres.
    SquareMillimetres,
}

impl Style {
    /// Inches with a hyphened fraction, the ordinary way.
    pub const INCHES: Self = Style::Inches { blank: false };

    /// What one of the unit is in base units, its dimension, and how the unit is written.
    pub fn unit(self) -> (f64, Dimension, &'static str) {
        let metre = 1e9;
        match self {
            Style::Inches { .. } | Style::DecimalInches => (INCH, Dimension::LENGTH, "\""),
            Style::FeetInches { .. } => (12.0 * INCH, Dimension::LENGTH, "'"),
            Style::Millimetres => (MILLIMETRE, Dimension::LENGTH, " mm"),
            Style::Centimetres => (10.0 * MILLIMETRE, Dimension::LENGTH, " cm"),
            Style::Metres => (metre, Dimension::LENGTH, " m"),
            Style::Degrees => (1.0, Dimension::ANGLE, "°"),
            Style::Number | Style::OneIn | Style::PerFoot => (1.0, Dimension::NUMBER, ""),
            Style::Percent => (0.01, Dimension::NUMBER, "%"),
            Style::Pounds => (POUND, Dimension::FORCE, " lb"),
            Style::Newtons => (1.0, Dimension::FORCE, " N"),
            Style::Kilonewtons => (1000.0, Dimension::FORCE, " kN"),
            Style::Psf => (POUND / (144.0 * INCH * INCH), Dimension::PRESSURE, " psf"),
            Style::Psi => (POUND / (INCH * INCH), Dimension::PRESSURE, " psi"),
            Style::Kilopascals => (1000.0 / (metre * metre), Dimension::PRESSURE, " kPa"),
            Style::Megapascals => (1e6 / (metre * metre), Dimension::PRESSURE, " MPa"),
            Style::Plf => (POUND / (12.0 * INCH), Dimension::LINE_LOAD, " plf"),
            Style::KilonewtonsPerMetre => (1000.0 / metre, Dimension::LINE_LOAD, " kN/m"),
            Style::NewtonsPerMetre => (1.0 / metre, Dimension::LINE_LOAD, " N/m"),
            Style::SquareInches => (INCH * INCH, Dimension::AREA, " sq in"),
            Style::SquareFeet => (144.0 * INCH * INCH, Dimension::AREA, " sq ft"),
            Style::SquareMillimetres => (MILLIMETRE * MILLIMETRE, Dimension::AREA, " mm2"),
        }
    }

    /// Whether this is how a slope is written.
    pub fn is_slope(self) -> bool {
        matches!(self, Style::OneIn | Style::PerFoot | Style::Percent)
    }

    /// Whether the unit is metric.
    pub fn is_metric(self) -> bool {
        matches!(
            self,
            Style::Millimetres
                | Style::Centimetres
                | Style::Metres
                | Style::Newtons
                | Style::Kilonewtons
                | Style::Kilopascals
                | Style::Megapascals
                | Style::KilonewtonsPerMetre
                | Style::NewtonsPerMetre
                | Style::SquareMillimetres
        )
    }

    /// The style in which a derived value of `dimension` is written beside values of this style.
    #[must_use]
    pub fn for_dimension(self, dimension: Dimension) -> Self {
        if self.unit().1 == dimension && !self.is_slope() {
            return self;
        }
        match (dimension, self.is_metric()) {
            (Dimension::LENGTH, false) => Style::INCHES,
            (Dimension::LENGTH, true) => Style::Millimetres,
            (Dimension::AREA, false) => Style::SquareInches,
            (Dimension::AREA, true) => Style::SquareMillimetres,
            (Dimension::ANGLE, _) => Style::Degrees,
            (Dimension::FORCE, false) => Style::Pounds,
            (Dimension::FORCE, true) => Style::Newtons,
            (Dimension::LINE_LOAD, false) => Style::Plf,
            (Dimension::LINE_LOAD, true) => Style::KilonewtonsPerMetre,
            (Dimension::PRESSURE, false) => Style::Psi,
            (Dimension::PRESSURE, true) => Style::Kilopascals,
            _ => self.same_number(),
        }
    }

    fn same_number(self) -> Self {
        match self {
            slope if slope.is_slope() => slope,
            _ => Style::Number,
        }
    }
}
