//! Writing a measure back in trade notation.

use super::{Dimension, INCH, Joint, Measure, Notation, Style};

/// The finest fraction of an inch that a rule is marked with.
const FINEST: f64 = 64.0;

/// Writes a measure in its own style, exactly where a fraction or a short decimal allows, else to three decimals.
pub fn print(measure: Measure) -> String {
    write(measure, 3)
}

/// Writes a measure in another style; `digits` decimals where it is not a whole fraction.
pub fn print_in(measure: Measure, style: Style, digits: usize) -> String {
    write(measure.styled(style.for_dimension(measure.dimension)), digits)
}

/// Writes a value and its limit with as many digits as it takes to tell them apart: three, four, six or nine decimals.
pub fn print_distinct(value: Measure, limit: Measure, style: Style) -> (String, String) {
    for digits in [3, 4, 6] {
        let pair = (print_in(value, style, digits), print_in(limit, style, digits));
        if pair.0 != pair.1 || value.value == limit.value {
            return pair;
        }
    }
    (print_in(value, style, 9), print_in(limit, style, 9))
}

fn write(measure: Measure, digits: usize) -> String {
    if !measure.value.is_finite() {
        return "undefined".to_owned();
    }
    let unit = measure.style.unit();
    if unit.dimension != measure.dimension {
        let raw = decimal(measure.value, digits);
        return if measure.dimension == Dimension::NUMBER { raw } else { format!("{raw} ({})", measure.dimension) };
    }
    match measure.style.notation() {
        Notation::Fraction(joint) => inches(measure.value / INCH, joint, digits),
        Notation::FeetAndInches(joint) => feet(measure.value / INCH, joint, digits),
        Notation::OneIn if measure.value == 0.0 => "level".to_owned(),
        Notation::PerFoot => format!("{} per 12\"", inches(measure.value * 12.0, Joint::Hyphen, digits)),
        Notation::OneIn => format!("1 in {}", decimal(1.0 / measure.value, 1)),
        Notation::Decimal => format!("{}{}", decimal(measure.value / unit.scale, digits), unit.suffix),
    }
}

/// A decimal without trailing zeros.
fn decimal(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn sixty_fourths(value: f64) -> Option<(i64, i64, i64)> {
    let parts = value * FINEST;
    let whole = parts.round();
    if (parts - whole).abs() > 1e-5 || whole.abs() > 1e12 {
        return None;
    }
    // The test above keeps the value well inside the range of an integer.
    #[allow(clippy::cast_possible_truncation)]
    let whole = whole as i64;
    let (mut top, mut bottom) = (whole.rem_euclid(64), 64);
    while top != 0 && top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    Some((whole.div_euclid(64), top, bottom))
}

fn inches(value: f64, joint: Joint, digits: usize) -> String {
    let sign = if value < 0.0 { "-" } else { "" };
    match sixty_fourths(value.abs()) {
        Some((whole, 0, _)) => format!("{}{whole}\"", if whole == 0 { "" } else { sign }),
        Some((0, top, bottom)) => format!("{sign}{top}/{bottom}\""),
        Some((whole, top, bottom)) => {
            let joint = joint.sign();
            format!("{sign}{whole}{joint}{top}/{bottom}\"")
        }
        None => format!("{}\"", decimal(value, digits)),
    }
}

fn feet(value: f64, joint: Joint, digits: usize) -> String {
    let sign = if value < 0.0 { "-" } else { "" };
    // A value a hair under a whole foot must not print as 2'-12".
    let steps = (value.abs() * 1e6).round() / 1e6;
    let whole = (steps / 12.0).floor();
    let rest = steps - whole * 12.0;
    if whole == 0.0 {
        return inches(value, Joint::Blank, digits);
    }
    if rest == 0.0 {
        return format!("{sign}{whole}'");
    }
    format!("{sign}{whole}'{}{}", joint.sign(), inches(rest, Joint::Blank, digits))
}

/// How fine the marks are that a suggestion is rounded to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Marks {
    /// Quarters of an inch, five millimetres.
    Coarse,
    /// Sixteenths, millimetres, whole numbers.
    Plain,
    /// Sixty-fourths, tenths.
    Fine,
}

/// From one mark to the next, in base units.
pub fn mark(style: Style, marks: Marks) -> f64 {
    let steps = style.unit().steps;
    match marks {
        Marks::Coarse => steps.coarse,
        Marks::Plain => steps.plain,
        Marks::Fine => steps.fine,
    }
}

/// The nearest mark at or below a value, both in base units.
pub fn round_down(value: f64, style: Style, marks: Marks) -> f64 {
    let step = mark(style, marks);
    ((value / step) + 1e-7).floor() * step
}

/// The nearest mark at or above a value, both in base units.
pub fn round_up(value: f64, style: Style, marks: Marks) -> f64 {
    let step = mark(style, marks);
    ((value / step) - 1e-7).ceil() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(inches: f64, style: Style) -> String {
        print(Measure::inches(inches).styled(style))
    }

    #[test]
    fn trade_fractions_print_reduced() {
        assert_eq!(length(7.375, Style::INCHES), "7-3/8\"");
        assert_eq!(length(7.375, Style::INCHES.with(Notation::Fraction(Joint::Blank))), "7 3/8\"");
        assert_eq!(length(0.015625, Style::INCHES), "1/64\"");
        assert_eq!(length(-0.25, Style::INCHES), "-1/4\"");
        assert_eq!(length(42.5, Style::feet(Joint::Hyphen)), "3'-6 1/2\"");
        assert_eq!(length(35.999_999_99, Style::feet(Joint::Hyphen)), "3'");
        assert_eq!(length(7.230_769_2, Style::INCHES), "7.231\"");
        assert_eq!(length(7.362_204_7, Style::MILLIMETRES), "187 mm");
    }

    #[test]
    fn suggestions_land_on_a_mark() {
        assert_eq!(round_down(7.3 * INCH, Style::INCHES, Marks::Plain), 7.25 * INCH);
        assert_eq!(round_up(7.3 * INCH, Style::INCHES, Marks::Plain), 7.3125 * INCH);
        assert_eq!(round_down(7.75 * INCH, Style::INCHES, Marks::Plain), 7.75 * INCH);
    }
}
