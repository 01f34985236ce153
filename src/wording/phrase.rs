//! Phrases that messages share.

use crate::measure::Measure;
use crate::model::{Kind, kinds};
use crate::rules::Relation;

/// The offer of a near word.
pub fn did_you_mean(near: &str) -> String {
    format!("did you mean `{near}`?")
}

/// The offer of a near word where there is one, else the other words.
pub(super) fn offered(near: Option<&str>, otherwise: impl FnOnce() -> String) -> String {
    near.map_or_else(otherwise, did_you_mean)
}

/// Words, each marked, with commas between.
pub(super) fn marked<W: AsRef<str>>(words: &[W]) -> String {
    words.iter().map(|word| format!("`{}`", word.as_ref())).collect::<Vec<_>>().join(", ")
}

/// A kind with its article: `a riser`, but `winders`, which have none.
pub(super) fn a(kind: &Kind) -> String {
    if kind == kinds::MEASURED {
        "a block of what was measured".to_owned()
    } else if is_many(kind) {
        kind.name.to_owned()
    } else if kind == kinds::GROUND {
        "the ground".to_owned()
    } else {
        format!("a {}", kind.name)
    }
}

/// The same at the start of a sentence, with the form of a verb: `A riser takes`, `Winders take`.
pub(super) fn does(kind: &Kind, one: &str, many: &str) -> String {
    format!("{} {}", a(kind), if is_many(kind) { many } else { one })
}

/// A sentence with its first letter written large.
pub(super) fn begun(sentence: &str) -> String {
    let mut signs = sentence.chars();
    signs.next().map(|first| first.to_uppercase().chain(signs).collect()).unwrap_or_default()
}

/// Whether a kind is spoken of in the plural alone.
pub(super) fn is_many(kind: &Kind) -> bool {
    kind.name == kind.plural && kind != kinds::GROUND && kind != kinds::MEASURED
}

/// What a figure is: a slope, or its dimension.
pub(super) fn sort(measure: Measure) -> String {
    if measure.style.is_slope() { "a slope".to_owned() } else { measure.dimension.to_string() }
}

/// How a bare number is written as a length.
pub(super) fn as_a_length(figure: &str) -> String {
    format!("Write `{figure}\"` for inches, or `{figure} mm`.")
}

/// `a, b or c`, each marked.
pub(super) fn either(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [only] => format!("`{only}`"),
        [first @ .., last] => format!("{} or `{last}`", marked(first)),
    }
}

/// `1 rule`, `2 rules`.
#[cfg(feature = "cli")]
pub(super) fn plural(number: usize, one: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {one}s") }
}

/// `a, b and c`.
pub(super) fn all_of(items: &[String]) -> String {
    match items.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
        None => String::new(),
    }
}

/// What a relation asks; nothing for "the same".
pub(super) fn relation_words(relation: Relation) -> &'static str {
    match relation {
        Relation::Less => "less than",
        Relation::AtMost => "at most",
        Relation::More => "more than",
        Relation::AtLeast => "at least",
        Relation::Equal => "",
        Relation::Unequal => "other than",
    }
}
