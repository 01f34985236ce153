//! How figures are written: every dimension and style of writing that is read.

use super::Dimension;

/// One way to write figures.
#[derive(Debug, Clone, Copy)]
pub struct Written {
    /// What such figures are called.
    pub name: &'static str,
    /// What they measure.
    pub dimension: Dimension,
    /// A slope is a number, and is written otherwise.
    pub slope: bool,
    /// How they may be written.
    pub examples: &'static [&'static str],
}

/// Every way to write figures. A figure prints back in the style in which it was written.
pub static WRITTEN: &[Written] = &[
    row("inches", Dimension::LENGTH, &["7-3/8\"", "7 3/8\"", "7⅜\"", "7.375\"", "7-3/8 in"]),
    row("feet and inches", Dimension::LENGTH, &["3'-6\"", "3' 6 1/2\"", "12'", "12 ft"]),
    row("metric lengths", Dimension::LENGTH, &["187 mm", "187,5 mm", "18.7 cm", "1.2 m"]),
    Written { slope: true, ..row("slopes", Dimension::NUMBER, &["1 in 48", "1:48", "2%", "1/4\" per 12\"", "level"]) },
    row("angles", Dimension::ANGLE, &["12°", "12 deg"]),
    row("numbers and counts", Dimension::NUMBER, &["0.55", "3", "1/2"]),
    row("areas", Dimension::AREA, &["1296 sq in", "9 sq ft", "836000 mm2"]),
    row("forces", Dimension::FORCE, &["200 lb", "890 N", "0.89 kN"]),
    row("loads on a length", Dimension::LINE_LOAD, &["50 plf", "730 N/m", "0.73 kN/m"]),
    row("loads on an area", Dimension::PRESSURE, &["40 psf", "1000 psi", "1.9 kPa", "7 MPa"]),
];

const fn row(name: &'static str, dimension: Dimension, examples: &'static [&'static str]) -> Written {
    Written { name, dimension, slope: false, examples }
}
