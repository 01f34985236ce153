//! A number with its dimension, to be reckoned with: formulas are written of these as they stand in a handbook.
//!
//! What adds or compares two dimensions comes to no number at all, and so does everything after it: a method that slips
//! gives no value. Empirical formulas, whose figures hold for inches and pounds only, name the units in them.

use std::ops::{Add, Div, Mul, Neg, Sub};

use crate::measure::{Dimension, INCH, MILLIMETRE, Measure, POUND, Style};

/// A number in base units (nanometre, newton, degree) with its dimension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    value: f64,
    dimension: Dimension,
}

const fn of(value: f64, length: i8, force: i8) -> Amount {
    Amount { value, dimension: Dimension { length, force, angle: 0 } }
}

/// One inch.
pub const INCHES: Amount = of(INCH, 1, 0);
/// One foot.
pub const FEET: Amount = of(12.0 * INCH, 1, 0);
/// One pound-force.
pub const POUNDS: Amount = of(POUND, 0, 1);
/// One pound-force on a square inch.
pub const PSI: Amount = of(POUND / (INCH * INCH), -2, 1);
/// One pound-force on a square foot.
pub const PSF: Amount = of(POUND / (144.0 * INCH * INCH), -2, 1);
/// One pound-force on a foot.
pub const PLF: Amount = of(POUND / (12.0 * INCH), -1, 1);
/// One pound-force on an inch.
pub const POUNDS_PER_INCH: Amount = of(POUND / INCH, -1, 1);
/// One pound-force on a cubic foot.
pub const POUNDS_PER_CUBIC_FOOT: Amount = of(POUND / (1728.0 * INCH * INCH * INCH), -3, 1);
/// A moment of one pound-force at an inch.
pub const INCH_POUNDS: Amount = of(POUND * INCH, 1, 1);

impl Amount {
    /// A plain number.
    pub const fn number(value: f64) -> Self {
        of(value, 0, 0)
    }

    /// An angle in degrees.
    pub const fn degrees(value: f64) -> Self {
        Self { value, dimension: Dimension::ANGLE }
    }

    /// So many base units of a dimension.
    pub const fn base(value: f64, dimension: Dimension) -> Self {
        Self { value, dimension }
    }

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        self.dimension
    }

    /// In base units.
    pub const fn in_base(self) -> f64 {
        self.value
    }

    /// How many of another amount it is; no number where they measure different things.
    pub fn per(self, unit: Amount) -> f64 {
        (self / unit).plain()
    }

    /// The value of a plain number; no number for anything else.
    pub fn plain(self) -> f64 {
        if self.dimension == Dimension::NUMBER { self.value } else { f64::NAN }
    }

    /// Whether it is a number above nothing.
    pub fn is_positive(self) -> bool {
        self.value.is_finite() && self.value > 0.0
    }

    /// Whether it is a number at all.
    pub fn is_finite(self) -> bool {
        self.value.is_finite()
    }

    /// As a measure, in the style of its dimension beside values of another style.
    pub fn measure(self, beside: Style) -> Measure {
        let style = beside.for_dimension(self.dimension);
        Measure { value: self.value, dimension: self.dimension, style }
    }

    /// Whether it is less than another of its dimension, by more than the last bits of a sum.
    pub fn is_below(self, other: Amount) -> bool {
        self.dimension == other.dimension
            && self.value < other.value
            && !crate::measure::equal(self.value, other.value, self.dimension)
    }

    fn lost(self) -> Self {
        Self { value: f64::NAN, ..self }
    }

    fn joined(self, other: Self, value: f64) -> Self {
        if self.dimension == other.dimension { Self { value, ..self } } else { self.lost() }
    }

    /// As text in customary units, to five figures: `5600 psi`, `40 psf`, `31.64 in3`.
    pub fn text(self) -> String {
        let Dimension { length, force, angle } = self.dimension;
        if !self.value.is_finite() {
            return "undefined".to_owned();
        }
        let scale = INCH.powi(length.into()) * POUND.powi(force.into());
        let (scale, unit) = match (length, force, angle) {
            (0, 0, 0) => (1.0, String::new()),
            (0, 0, 1) => (1.0, " degrees".to_owned()),
            // Loads are told by the square foot, stresses by the square inch: 2 psi are 288 psf.
            (-2, 1, 0) if self.value < 2.0 * PSI.value => (PSF.value, " psf".to_owned()),
            (-2, 1, 0) => (scale, " psi".to_owned()),
            (0, 1, 0) => (scale, " lb".to_owned()),
            (1, 0, 0) => (scale, " in".to_owned()),
            (1, 1, 0) => (scale, " in-lb".to_owned()),
            (-1, 1, 0) => (scale, " lb/in".to_owned()),
            (-3, 1, 0) => (POUNDS_PER_CUBIC_FOOT.value, " lb/ft3".to_owned()),
            (_, 0, 0) => (scale, format!(" in{length}")),
            (_, 1, 0) => (scale, format!(" lb in{length}")),
            _ => (1.0, format!(" ({})", self.dimension)),
        };
        format!("{}{unit}", figures(self.value / scale))
    }
}

/// A number to five figures, with no zeros behind its decimals.
fn figures(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let before = value.abs().log10().floor();
    // A cast of a float stops at the bounds of its type.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let digits = ((4.0 - before) as usize).min(15);
    let text = format!("{value:.digits$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

impl From<f64> for Amount {
    fn from(number: f64) -> Self {
        Self::number(number)
    }
}

impl From<Measure> for Amount {
    fn from(measure: Measure) -> Self {
        Self { value: measure.value, dimension: measure.dimension }
    }
}

impl Mul for Amount {
    type Output = Amount;
    fn mul(self, other: Self) -> Self {
        Self { value: self.value * other.value, dimension: self.dimension.times(other.dimension) }
    }
}

impl Div for Amount {
    type Output = Amount;
    fn div(self, other: Self) -> Self {
        Self { value: self.value / other.value, dimension: self.dimension.over(other.dimension) }
    }
}

impl Add for Amount {
    type Output = Amount;
    fn add(self, other: Self) -> Self {
        self.joined(other, self.value + other.value)
    }
}

impl Sub for Amount {
    type Output = Amount;
    fn sub(self, other: Self) -> Self {
        self.joined(other, self.value - other.value)
    }
}

impl Neg for Amount {
    type Output = Amount;
    fn neg(self) -> Self {
        Self { value: -self.value, ..self }
    }
}

macro_rules! with_plain_numbers {
    ($($sign:ident $name:ident),*) => {
        $(
            impl $sign<f64> for Amount {
                type Output = Amount;
                fn $name(self, other: f64) -> Amount {
                    self.$name(Amount::number(other))
                }
            }
            impl $sign<Amount> for f64 {
                type Output = Amount;
                fn $name(self, other: Amount) -> Amount {
                    Amount::number(self).$name(other)
                }
            }
        )*
    };
}
with_plain_numbers!(Add add, Sub sub, Mul mul, Div div);

/// The square root; of a dimension whose exponents are even.
pub fn sqrt(amount: Amount) -> Amount {
    let Dimension { length, force, angle } = amount.dimension;
    let even = length % 2 == 0 && force % 2 == 0 && angle % 2 == 0;
    let half = |exponent: i8| exponent.checked_div(2).unwrap_or(0);
    let dimension = Dimension { length: half(length), force: half(force), angle: half(angle) };
    Amount { value: if even { amount.value.sqrt() } else { f64::NAN }, dimension }
}

/// The square.
pub fn squared(amount: Amount) -> Amount {
    amount * amount
}

/// The cube.
pub fn cubed(amount: Amount) -> Amount {
    amount * amount * amount
}

/// The fourth power.
pub fn fourth(amount: Amount) -> Amount {
    squared(squared(amount))
}

/// A power of a plain number.
pub fn power(amount: Amount, exponent: impl Into<Amount>) -> Amount {
    Amount::number(amount.plain().powf(exponent.into().plain()))
}

/// The sine of an angle.
pub fn sin(angle: Amount) -> Amount {
    Amount::number(of_angle(angle).to_radians().sin())
}

/// The cosine of an angle.
pub fn cos(angle: Amount) -> Amount {
    Amount::number(of_angle(angle).to_radians().cos())
}

fn of_angle(angle: Amount) -> f64 {
    if angle.dimension == Dimension::ANGLE { angle.value } else { f64::NAN }
}

/// The lesser of two of one dimension.
pub fn least(a: impl Into<Amount>, b: impl Into<Amount>) -> Amount {
    let (a, b) = (a.into(), b.into());
    if a.value.is_nan() || b.value.is_nan() { a.lost() } else { a.joined(b, a.value.min(b.value)) }
}

/// The greater of two of one dimension.
pub fn greatest(a: impl Into<Amount>, b: impl Into<Amount>) -> Amount {
    let (a, b) = (a.into(), b.into());
    if a.value.is_nan() || b.value.is_nan() { a.lost() } else { a.joined(b, a.value.max(b.value)) }
}

/// To the nearest whole number of a step, a half upward.
pub fn nearest(amount: Amount, step: Amount) -> Amount {
    let steps = amount / step;
    // A half that a product misses by its last bits is still a half.
    step * Amount::number((steps.plain() + 0.5 + 1e-9).floor())
}

/// A length in millimetres.
pub fn millimetres(value: f64) -> Amount {
    of(value * MILLIMETRE, 1, 0)
}
