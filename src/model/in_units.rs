//! The examples of the vocabulary in the units that a design is written in.

use super::design::Design;
use super::value::Value;
use crate::measure::Dimension;

/// What a length in millimetres is rounded up to.
const STEP: f64 = 5.0;

impl Design {
    /// Whether more of its lengths are written in metric units than not.
    pub fn is_metric(&self) -> bool {
        let (mut lengths, mut metric) = (0, 0);
        for stated in self.elements.iter().flat_map(|element| &element.stated) {
            let measure = match &stated.value {
                Some(Value::Measure(measure)) => measure,
                Some(Value::List(items)) => match items.first() {
                    Some(item) => &item.measure,
                    None => continue,
                },
                _ => continue,
            };
            if measure.dimension == Dimension::LENGTH {
                lengths += 1;
                metric += usize::from(measure.style.is_metric());
            }
        }
        metric * 2 > lengths
    }
}

/// An example as it stands, or with its inches as millimetres of the next five.
pub fn in_units(example: &str, metric: bool) -> String {
    if !metric {
        return example.to_owned();
    }
    let mut out = String::new();
    let mut pieces = example.split('"').peekable();
    while let Some(piece) = pieces.next() {
        let is_figure = |c: &char| c.is_ascii_digit() || matches!(c, '-' | '/' | '.');
        let figure = piece.chars().rev().take_while(is_figure).count();
        let (before, figure) = piece.split_at_checked(piece.len() - figure).unwrap_or((piece, ""));
        out += before;
        match (inches(figure), pieces.peek()) {
            (Some(inches), Some(_)) => out += &format!("{} mm", (inches * 25.4 / STEP).ceil() * STEP),
            (None, Some(_)) => out += &format!("{figure}\""),
            (_, None) => out += figure,
        }
    }
    out
}

/// `10-1/4`, `3/8`, `7.5`.
fn inches(figure: &str) -> Option<f64> {
    let fraction = |text: &str| match text.split_once('/') {
        Some((over, under)) => Some(over.parse::<f64>().ok()? / under.parse::<f64>().ok()?),
        None => text.parse::<f64>().ok(),
    };
    match figure.split_once('-') {
        Some((whole, part)) => Some(whole.parse::<f64>().ok()? + fraction(part)?),
        None => fraction(figure),
    }
}

#[cfg(test)]
mod tests {
    use super::in_units;

    #[test]
    fn inches_become_millimetres_and_quotes_stay() {
        for (inches, metric) in [
            ("handrail left { height: 36\" }", "handrail left { height: 915 mm }"),
            ("flight { risers: 4 of 7\"; runs: 3 of 10-1/4\" }", "flight { risers: 4 of 180 mm; runs: 3 of 265 mm }"),
            ("post \"newel\" { section: 4x4 }", "post \"newel\" { section: 4x4 }"),
            ("2 of 3/8\" x 6\", galvanised", "2 of 10 mm x 155 mm, galvanised"),
            ("2x2 every 5\"", "2x2 every 130 mm"),
        ] {
            assert_eq!(in_units(inches, true), metric);
            assert_eq!(in_units(inches, false), inches);
        }
    }
}
