//! The units: how each is spelled, what one of it is in base units, how it prints, what it is set to.
//!
//! The reader, the printer, the remedies and the reference all read this table. A further unit is a row here and its
//! spellings in `unit` of `grammar/lexicon.pest`; a test holds the two to each other.

use super::base::{INCH, MILLIMETRE, POUND};
use super::dimension::Dimension;

/// A unit, or a notation of plain numbers.
#[derive(Debug)]
#[non_exhaustive]
pub struct Unit {
    /// Its name, singular.
    pub name: &'static str,
    /// All that may stand for it after a figure. A plain number has none, and a slope is known by its shape.
    pub spellings: &'static [&'static str],
    /// What one of it is in base units: nanometres, newtons, degrees and their products.
    pub scale: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// Where it is at home.
    pub system: System,
    /// Whether a derived value of its dimension is written in it, beside others of its system.
    pub derived: Derived,
    /// How its figures print.
    pub notation: Notation,
    /// What follows a figure in print, with its blank.
    pub suffix: &'static str,
    /// What a rule, a saw or a scale is set to.
    pub steps: Steps,
    /// The heading under which the reference lists its examples.
    pub figures: Figures,
    /// Figures as they may be written; each is read.
    pub examples: &'static [&'static str],
}

/// A system of units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Inch, pound.
    Customary,
    /// Millimetre, newton.
    Metric,
    /// Degrees and plain numbers, which stand in both.
    Both,
}

/// Whether a derived value is written in a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Derived {
    /// The one of its dimension and system that is.
    Yes,
    /// Only a stated value is, and one derived from it of the same dimension.
    No,
}

/// How a figure is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Notation {
    /// `7.375"`.
    Decimal,
    /// `7-3/8"`, with a decimal where no fraction of a rule fits.
    Fraction(Joint),
    /// `3'-6 1/2"`.
    FeetAndInches(Joint),
    /// `1 in 48`.
    OneIn,
    /// `1/4" per 12"`.
    PerFoot,
}

/// What stands between a whole number and its fraction, or between feet and inches.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    /// `7-3/8"`.
    Hyphen,
    /// `7 3/8"`.
    Blank,
}

impl Joint {
    /// The sign that is written.
    pub(super) fn sign(self) -> char {
        match self {
            Self::Hyphen => '-',
            Self::Blank => ' ',
        }
    }
}

/// Steps from mark to mark, in base units: a value that is offered stands on a mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// Quarters of an inch, five millimetres: easy to set out.
    pub coarse: f64,
    /// Sixteenths, millimetres, whole numbers.
    pub plain: f64,
    /// The smallest mark: sixty-fourths, tenths of a millimetre.
    pub fine: f64,
}

impl Steps {
    /// Steps of so many of a unit.
    const fn of(scale: f64, coarse: f64, plain: f64, fine: f64) -> Self {
        Self { coarse: scale * coarse, plain: scale * plain, fine: scale * fine }
    }

    const fn whole(scale: f64) -> Self {
        Self::of(scale, 1.0, 1.0, 1.0)
    }
}

/// The sorts of figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figures {
    /// `7-3/8"`.
    Inches,
    /// `3'-6"`.
    FeetAndInches,
    /// `187 mm`.
    MetricLengths,
    /// `1 in 48`: a number that is written otherwise.
    Slopes,
    /// `12°`.
    Angles,
    /// `0.55`.
    Numbers,
    /// `9 sq ft`.
    Areas,
    /// `200 lb`.
    Forces,
    /// `50 plf`.
    LineLoads,
    /// `40 psf`.
    Pressures,
}

impl Figures {
    /// What such figures are called, plural.
    pub fn name(self) -> &'static str {
        match self {
            Self::Inches => "inches",
            Self::FeetAndInches => "feet and inches",
            Self::MetricLengths => "metric lengths",
            Self::Slopes => "slopes",
            Self::Angles => "angles",
            Self::Numbers => "numbers and counts",
            Self::Areas => "areas",
            Self::Forces => "forces",
            Self::LineLoads => "loads on a length",
            Self::Pressures => "loads on an area",
        }
    }
}

const INCH_STEPS: Steps = Steps::of(INCH, 1.0 / 4.0, 1.0 / 16.0, 1.0 / 64.0);
const METRE: f64 = 1000.0 * MILLIMETRE;
const FOOT: f64 = 12.0 * INCH;
const SQUARE_METRE: f64 = METRE * METRE;
const PSF: f64 = POUND / (144.0 * INCH * INCH);
const PSI: f64 = POUND / (INCH * INCH);
const PLF: f64 = POUND / FOOT;

const NUMBER: Unit = Unit {
    name: "number",
    spellings: &[],
    scale: 1.0,
    dimension: Dimension::NUMBER,
    system: System::Both,
    derived: Derived::No,
    notation: Notation::Decimal,
    suffix: "",
    steps: Steps::of(1.0, 1.0, 1.0, 0.1),
    figures: Figures::Numbers,
    examples: &["0.55", "3", "1/2"],
};
const CUSTOMARY_LENGTH: Unit = Unit {
    dimension: Dimension::LENGTH,
    system: System::Customary,
    notation: Notation::Fraction(Joint::Hyphen),
    steps: INCH_STEPS,
    figures: Figures::Inches,
    ..NUMBER
};
const METRIC_LENGTH: Unit = Unit {
    dimension: Dimension::LENGTH,
    system: System::Metric,
    steps: Steps::of(MILLIMETRE, 5.0, 1.0, 0.1),
    figures: Figures::MetricLengths,
    ..NUMBER
};
const SLOPE: Unit = Unit { figures: Figures::Slopes, steps: Steps::of(0.01, 0.1, 0.1, 0.1), ..NUMBER };
const AREA: Unit = Unit { dimension: Dimension::AREA, figures: Figures::Areas, ..NUMBER };
const FORCE: Unit = Unit { dimension: Dimension::FORCE, figures: Figures::Forces, ..NUMBER };
const LINE_LOAD: Unit = Unit { dimension: Dimension::LINE_LOAD, figures: Figures::LineLoads, ..NUMBER };
const PRESSURE: Unit = Unit { dimension: Dimension::PRESSURE, figures: Figures::Pressures, ..NUMBER };

/// Every unit, in the order in which the reference shows them.
pub static UNITS: &[Unit] = &[
    Unit {
        name: "inch",
        spellings: &["\"", "″", "”", "''", "in", "inch", "inches"],
        scale: INCH,
        derived: Derived::Yes,
        suffix: "\"",
        examples: &["7-3/8\"", "7 3/8\"", "7⅜\"", "7.375\"", "7-3/8 in"],
        ..CUSTOMARY_LENGTH
    },
    Unit {
        name: "foot",
        spellings: &["'", "′", "’", "ft", "foot", "feet"],
        scale: FOOT,
        notation: Notation::FeetAndInches(Joint::Hyphen),
        suffix: "'",
        figures: Figures::FeetAndInches,
        examples: &["3'-6\"", "3' 6 1/2\"", "12'", "12 ft"],
        ..CUSTOMARY_LENGTH
    },
    Unit {
        name: "millimetre",
        spellings: &["mm"],
        scale: MILLIMETRE,
        derived: Derived::Yes,
        suffix: " mm",
        examples: &["187 mm", "187,5 mm"],
        ..METRIC_LENGTH
    },
    Unit {
        name: "centimetre",
        spellings: &["cm"],
        scale: 10.0 * MILLIMETRE,
        suffix: " cm",
        examples: &["18.7 cm"],
        ..METRIC_LENGTH
    },
    Unit { name: "metre", spellings: &["m"], scale: METRE, suffix: " m", examples: &["1.2 m"], ..METRIC_LENGTH },
    Unit {
        name: "one in",
        notation: Notation::OneIn,
        steps: Steps::whole(0.001),
        examples: &["1 in 48", "1:48", "level"],
        ..SLOPE
    },
    Unit { name: "percent", spellings: &["%"], scale: 0.01, suffix: "%", examples: &["2%"], ..SLOPE },
    Unit {
        name: "inch per foot",
        notation: Notation::PerFoot,
        steps: Steps::of(INCH / FOOT, 1.0 / 4.0, 1.0 / 16.0, 1.0 / 64.0),
        examples: &["1/4\" per 12\""],
        ..SLOPE
    },
    Unit {
        name: "degree",
        spellings: &["°", "º", "˚", "degrees", "degree", "deg"],
        dimension: Dimension::ANGLE,
        derived: Derived::Yes,
        suffix: "°",
        figures: Figures::Angles,
        examples: &["12°", "12 deg", "12 degrees"],
        ..NUMBER
    },
    NUMBER,
    Unit {
        name: "square inch",
        spellings: &["sq in"],
        scale: INCH * INCH,
        system: System::Customary,
        derived: Derived::Yes,
        suffix: " sq in",
        steps: Steps::whole(INCH * INCH),
        examples: &["1296 sq in"],
        ..AREA
    },
    Unit {
        name: "square foot",
        spellings: &["sq ft"],
        scale: 144.0 * INCH * INCH,
        system: System::Customary,
        suffix: " sq ft",
        steps: Steps::whole(144.0 * INCH * INCH),
        examples: &["9 sq ft"],
        ..AREA
    },
    Unit {
        name: "square millimetre",
        spellings: &["mm2", "mm²"],
        scale: MILLIMETRE * MILLIMETRE,
        system: System::Metric,
        derived: Derived::Yes,
        suffix: " mm2",
        steps: Steps::whole(MILLIMETRE * MILLIMETRE),
        examples: &["836000 mm2"],
        ..AREA
    },
    Unit {
        name: "pound",
        spellings: &["lb", "lbs"],
        scale: POUND,
        system: System::Customary,
        derived: Derived::Yes,
        suffix: " lb",
        steps: Steps::whole(POUND),
        examples: &["200 lb"],
        ..FORCE
    },
    Unit {
        name: "newton",
        spellings: &["N"],
        system: System::Metric,
        derived: Derived::Yes,
        suffix: " N",
        steps: Steps::whole(1.0),
        examples: &["890 N"],
        ..FORCE
    },
    Unit {
        name: "kilonewton",
        spellings: &["kN"],
        scale: 1000.0,
        system: System::Metric,
        suffix: " kN",
        steps: Steps::of(1000.0, 1.0, 0.1, 0.01),
        examples: &["0.89 kN"],
        ..FORCE
    },
    Unit {
        name: "pound per foot",
        spellings: &["plf"],
        scale: PLF,
        system: System::Customary,
        derived: Derived::Yes,
        suffix: " plf",
        steps: Steps::whole(PLF),
        examples: &["50 plf"],
        ..LINE_LOAD
    },
    Unit {
        name: "newton per metre",
        spellings: &["N/m"],
        scale: 1.0 / METRE,
        system: System::Metric,
        suffix: " N/m",
        steps: Steps::whole(1.0 / METRE),
        examples: &["730 N/m"],
        ..LINE_LOAD
    },
    Unit {
        name: "kilonewton per metre",
        spellings: &["kN/m"],
        scale: 1000.0 / METRE,
        system: System::Metric,
        derived: Derived::Yes,
        suffix: " kN/m",
        steps: Steps::of(1000.0 / METRE, 1.0, 0.1, 0.01),
        examples: &["0.73 kN/m"],
        ..LINE_LOAD
    },
    Unit {
        name: "pound per square foot",
        spellings: &["psf"],
        scale: PSF,
        system: System::Customary,
        suffix: " psf",
        steps: Steps::whole(PSF),
        examples: &["40 psf"],
        ..PRESSURE
    },
    Unit {
        name: "pound per square inch",
        spellings: &["psi"],
        scale: PSI,
        system: System::Customary,
        derived: Derived::Yes,
        suffix: " psi",
        steps: Steps::whole(PSI),
        examples: &["1000 psi"],
        ..PRESSURE
    },
    Unit {
        name: "kilopascal",
        spellings: &["kPa"],
        scale: 1000.0 / SQUARE_METRE,
        system: System::Metric,
        derived: Derived::Yes,
        suffix: " kPa",
        steps: Steps::of(1000.0 / SQUARE_METRE, 1.0, 0.1, 0.01),
        examples: &["1.9 kPa"],
        ..PRESSURE
    },
    Unit {
        name: "megapascal",
        spellings: &["MPa"],
        scale: 1e6 / SQUARE_METRE,
        system: System::Metric,
        suffix: " MPa",
        steps: Steps::of(1e6 / SQUARE_METRE, 1.0, 0.1, 0.01),
        examples: &["7 MPa"],
        ..PRESSURE
    },
];

/// No two rows share a name. (Nor do two constants that hold a row always share an address.)
impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Eq for Unit {}

impl Unit {
    /// The unit that a spelling stands for; blanks inside it count as one.
    pub fn spelled(text: &str) -> Option<&'static Self> {
        let blank = text.contains(char::is_whitespace);
        let is = |spelling: &str| spelling == text || blank && spelling.split(' ').eq(text.split_whitespace());
        UNITS.iter().find(|unit| unit.spellings.iter().any(|spelling| is(spelling)))
    }

    /// The unit in which a derived value is written beside values of a system.
    pub(super) fn of_derived(dimension: Dimension, beside: System) -> Option<&'static Self> {
        let metric = |system| system == System::Metric;
        UNITS.iter().find(|unit| {
            let at_home = unit.system == System::Both || metric(unit.system) == metric(beside);
            unit.dimension == dimension && unit.derived == Derived::Yes && at_home
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_units_share_a_name_or_a_spelling() {
        for (at, unit) in UNITS.iter().enumerate() {
            for other in &UNITS[at + 1..] {
                assert_ne!(unit.name, other.name);
                assert!(unit.spellings.iter().all(|spelling| !other.spellings.contains(spelling)), "{}", other.name);
            }
            assert!(!unit.examples.is_empty(), "{} is shown nowhere", unit.name);
        }
    }

    #[test]
    fn the_smallest_mark_of_a_unit_lies_far_above_the_tolerance_of_its_dimension() {
        for unit in UNITS {
            let Steps { coarse, plain, fine } = unit.steps;
            assert!(coarse >= plain && plain >= fine, "{}", unit.name);
            assert!(fine > 1000.0 * unit.dimension.tolerance(), "{}", unit.name);
            // Print shows three decimals; none of them may pass for nothing.
            assert!(0.001 * unit.scale > 10.0 * unit.dimension.tolerance(), "{}", unit.name);
        }
    }

    #[test]
    fn each_dimension_has_one_unit_for_derived_values_of_each_system() {
        for unit in UNITS.iter().filter(|unit| unit.dimension != Dimension::NUMBER) {
            for system in [System::Customary, System::Metric] {
                let at_home =
                    |unit: &&Unit| unit.derived == Derived::Yes && [System::Both, system].contains(&unit.system);
                let of_dimension = UNITS.iter().filter(|other| other.dimension == unit.dimension);
                assert_eq!(of_dimension.filter(at_home).count(), 1, "{} {system:?}", unit.dimension);
            }
        }
    }
}
