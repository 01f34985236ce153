//! A value that a rule can compare, and what it looks like in a line of text.

use std::borrow::Cow;
use std::fmt;
use std::sync::Arc;

use super::missing::Missing;
use crate::measure::{Dimension, Measure, Style, print};
use crate::model::ListItem;

/// A value that a rule can compare.
#[derive(Debug, Clone, PartialEq)]
pub enum Datum {
    /// A number.
    Measure(Measure),
    /// One for each step.
    List(Arc<[ListItem]>),
    /// A word.
    Word(Cow<'static, str>),
}

/// What a derivation gives.
pub type Derived = Result<Datum, Missing>;

impl Datum {
    /// Whether every number of it is one that can be compared.
    pub(super) fn is_finite(&self) -> bool {
        match self {
            Datum::Measure(measure) => measure.value.is_finite(),
            Datum::List(items) => items.iter().all(|item| item.measure.value.is_finite()),
            Datum::Word(_) => true,
        }
    }

    /// How it is written, if it is a length. Nothing at all has no unit to speak of.
    pub(super) fn length_style(&self) -> Option<Style> {
        match self {
            Datum::Measure(measure) if measure.dimension == Dimension::LENGTH && measure.value != 0.0 => {
                Some(measure.style)
            }
            Datum::List(items) => items.first().map(|item| item.measure.style),
            Datum::Measure(_) | Datum::Word(_) => None,
        }
    }
}

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
