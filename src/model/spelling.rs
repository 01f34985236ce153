//! Figures that are not written as they are read: what a value that is no figure was meant for, and how to write it.

use crate::base::Source;
use crate::measure::Dimension;
use crate::syntax::{Item, Term, TermKind, parse_design};

/// Why words that hold a figure are not one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misspelling {
    /// It is written so that it cannot be read; this can.
    Otherwise(String),
    /// A figure with a tolerance.
    Tolerance,
    /// A bound: `36" max`.
    Bound,
    /// Two figures, from one to the other.
    Span,
    /// About so much.
    About,
    /// A sign before it that makes it less than nothing.
    BelowNothing,
}

/// Other marks for feet and inches, and for the unit of an angle.
const MARKS: &[(&str, &str)] = &[
    ("ʺ", "\""),
    ("＂", "\""),
    ("´´", "\""),
    ("``", "\""),
    ("〃", "\""),
    ("ʹ", "'"),
    ("´", "'"),
    ("`", "'"),
    ("＇", "'"),
];

/// Units that are written out, and how they are read.
const UNITS: &[(&str, &str)] = &[
    ("millimetres", "mm"),
    ("millimeters", "mm"),
    ("millimetre", "mm"),
    ("millimeter", "mm"),
    ("centimetres", "cm"),
    ("centimeters", "cm"),
    ("metres", "m"),
    ("meters", "m"),
    ("metre", "m"),
    ("meter", "m"),
    ("mms", "mm"),
    ("ins", "in"),
    ("inchs", "in"),
    ("degs", "deg"),
];

/// What words that are no figure of a dimension were meant for, if that is plain.
pub fn misspelling(words: &str, dimension: Dimension) -> Option<Misspelling> {
    let words = words.trim().to_lowercase();
    if !words.contains(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let said = |word: &str| words.split(|c: char| !c.is_alphabetic()).any(|part| part == word);
    if ["±", "+/-", "+-", "-/+"].iter().any(|sign| words.contains(sign)) || said("tolerance") {
        return Some(Misspelling::Tolerance);
    }
    if ["max", "min", "maximum", "minimum", "least", "most", "up"].into_iter().any(said)
        || words.starts_with(['<', '>', '≤', '≥'])
    {
        return Some(Misspelling::Bound);
    }
    if ["about", "approx", "approximately", "ca", "circa", "roughly", "nominal"].into_iter().any(said)
        || words.starts_with(['~', '≈'])
    {
        return Some(Misspelling::About);
    }
    if ["to", "or", "between", "bis"].into_iter().any(said) || words.contains(['–', '—']) {
        return Some(Misspelling::Span);
    }
    if words.starts_with(['-', '−']) {
        return Some(Misspelling::BelowNothing);
    }
    let plain = plain_marks(&words);
    [plain.clone(), without_thousands(&plain), feet_with_inches(&plain)]
        .into_iter()
        .find(|candidate| *candidate != words && reads(candidate, dimension))
        .map(Misspelling::Otherwise)
}

/// The marks and units of a figure as they are read.
fn plain_marks(words: &str) -> String {
    let mut plain = words.trim_start_matches('+').trim_start().to_owned();
    for (mark, read) in MARKS {
        plain = plain.replace(mark, read);
    }
    for (unit, read) in UNITS {
        if let Some(figure) = plain.strip_suffix(unit) {
            plain = format!("{figure}{read}");
            break;
        }
    }
    // `36-in`, `36-inch`: the hyphen stands for a blank.
    match plain.rsplit_once('-') {
        Some((figure, unit)) if !unit.is_empty() && unit.chars().all(char::is_alphabetic) => format!("{figure} {unit}"),
        _ => plain,
    }
}

/// `1 200 mm` and `1'200 mm` without what parts the thousands.
fn without_thousands(words: &str) -> String {
    let mut plain = String::new();
    let mut rest = words;
    while let Some(at) = rest.find([' ', '\'', '’', '\u{A0}']) {
        let Some((before, after)) = rest.split_at_checked(at) else { break };
        let mark = after.chars().next().map_or(0, char::len_utf8);
        let next = after.get(mark..).unwrap_or_default();
        let group = next.chars().take_while(char::is_ascii_digit).count() == 3;
        plain.push_str(before);
        if !(group && before.ends_with(|c: char| c.is_ascii_digit())) {
            plain.push_str(after.get(..mark).unwrap_or_default());
        }
        rest = next;
    }
    plain + rest
}

/// `6'8` with the mark of its inches.
fn feet_with_inches(words: &str) -> String {
    let Some((feet, inches)) = words.split_once(['\'', '’', '′']) else { return words.to_owned() };
    let inches = inches.trim_matches([' ', '-']);
    format!("{}'-{inches}\"", feet.trim())
}

/// Whether a text reads as one figure of a dimension.
fn reads(figure: &str, dimension: Dimension) -> bool {
    let (tree, slips) = parse_design(&Source::new("figure", ["figure: ", figure, "\n"].concat()));
    let of_dimension = |term: &Term| matches!(term.kind, TermKind::Figure(measure) if measure.dimension == dimension);
    let [Item::Property { value, .. }] = tree.items.as_slice() else { return false };
    slips.is_empty() && matches!(value.as_slice(), [only] if of_dimension(only))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_trade_writes_is_told_how_it_is_read() {
        let told = |words: &str| misspelling(words, Dimension::LENGTH);
        for (words, write) in [
            ("6'8", "6'-8\""),
            ("6' 8", "6'-8\""),
            ("6' 8 1/2", "6'-8 1/2\""),
            ("48 ins", "48 in"),
            ("36ʺ", "36\""),
            ("36´´", "36\""),
            ("36-in", "36 in"),
            ("36-inch", "36 inch"),
            ("+36\"", "36\""),
            ("36 millimetres", "36 mm"),
            ("1'200 mm", "1200 mm"),
            ("1 200 mm", "1200 mm"),
        ] {
            assert_eq!(told(words), Some(Misspelling::Otherwise(write.to_owned())), "{words}");
        }
        assert_eq!(told("36\" +/- 1/8\""), Some(Misspelling::Tolerance));
        assert_eq!(told("36\" max."), Some(Misspelling::Bound));
        assert_eq!(told("36\" to 38\""), Some(Misspelling::Span));
        assert_eq!(told("about 36\""), Some(Misspelling::About));
        assert_eq!(told("-36\""), Some(Misspelling::BelowNothing));
        assert_eq!(told("36\"!"), None);
        assert_eq!(misspelling("48º", Dimension::LENGTH), None);
    }
}
