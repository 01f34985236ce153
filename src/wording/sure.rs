//! How sure a figure is, in words.

use super::phrase::plural;
use crate::rules::Sure;

/// In a column of a list; what a set says of itself stands as it is.
pub fn in_a_column(sure: &str) -> &str {
    match Sure::of(sure) {
        Some(Sure::Seen) => "",
        Some(Sure::SecondHand) => "second hand",
        Some(Sure::Memory) => "from memory",
        None => sure,
    }
}

/// In a sentence beside one figure; nothing where it was seen.
pub fn of_a_figure(sure: &str) -> String {
    match Sure::of(sure) {
        Some(Sure::Seen) => String::new(),
        Some(Sure::SecondHand) => "The figure was seen second hand: look it up before you rely on it.".to_owned(),
        Some(Sure::Memory) => "The figure is from memory: look it up before you rely on it.".to_owned(),
        None => format!("How sure the figure is: {sure}."),
    }
}

/// After a source, in parentheses.
pub fn after_a_source(sure: &str) -> String {
    match Sure::of(sure) {
        Some(Sure::Seen) => String::new(),
        Some(Sure::SecondHand) => " (seen second hand: look it up before you rely on it)".to_owned(),
        Some(Sure::Memory) => " (from memory: look it up before you rely on it)".to_owned(),
        None => format!(" ({sure})"),
    }
}

/// How many outcomes rest on figures that nobody saw where the clause is printed; nothing where none do.
pub fn of_outcomes(number: usize, sure: Sure) -> Option<String> {
    let how = how(sure)?;
    let (rest, them) = if number == 1 { ("rests", "it") } else { ("rest", "them") };
    let outcomes = plural(number, "outcome");
    (number > 0).then(|| format!("{outcomes} {rest} on figures {how}: look them up before you rely on {them}"))
}

/// How many rules do.
pub fn of_rules(number: usize, sure: Sure) -> Option<String> {
    let (rest, its) = if number == 1 { ("rests", "its figures") } else { ("rest", "their figures") };
    let on = match sure {
        Sure::Seen => return None,
        Sure::SecondHand => "what was seen second hand",
        Sure::Memory => "memory",
    };
    let rules = plural(number, "rule");
    (number > 0).then(|| format!("{rules} {rest} on {on}: look {its} up before you rely on them."))
}

fn how(sure: Sure) -> Option<&'static str> {
    match sure {
        Sure::Seen => None,
        Sure::SecondHand => Some("seen second hand"),
        Sure::Memory => Some("from memory"),
    }
}
