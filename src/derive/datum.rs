//! What a value looks like in a line of text.

use std::fmt;

use super::working::Datum;
use crate::measure::print;
use crate::model::ListItem;

impl fmt::Display for Datum {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Datum::Measure(measure) => f.write_str(&print(*measure)),
            Datum::List(items) => f.write_str(&list(items)),
            Datum::Word(word) => f.write_str(word),
        }
    }
}

/// `4 of 7"`, or the items one by one.
fn list(items: &[ListItem]) -> String {
    let alike = items.windows(2).all(|pair| matches!(pair, [a, b] if a.measure.value == b.measure.value));
    match items {
        [first, _, ..] if alike => format!("{} of {}", items.len(), print(first.measure)),
        _ => items.iter().map(|item| print(item.measure)).collect::<Vec<_>>().join(", "),
    }
}
