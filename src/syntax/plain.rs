//! Plain English where a clause takes a sign: which sign it says.

use super::problem::Meant;
use super::relation::Relation;

/// Phrases and their signs, the longer before those that they hold.
const SIGNS: [(&str, Relation); 17] = [
    ("shall not exceed", Relation::AtMost),
    ("not exceeding", Relation::AtMost),
    ("not more than", Relation::AtMost),
    ("no more than", Relation::AtMost),
    ("not greater than", Relation::AtMost),
    ("no greater than", Relation::AtMost),
    ("not less than", Relation::AtLeast),
    ("no less than", Relation::AtLeast),
    ("no fewer than", Relation::AtLeast),
    ("at least", Relation::AtLeast),
    ("at most", Relation::AtMost),
    ("more than", Relation::More),
    ("greater than", Relation::More),
    ("less than", Relation::Less),
    ("fewer than", Relation::Less),
    ("exceeding", Relation::More),
    ("equal to", Relation::Equal),
];

/// The first such phrase of a text, where it stands, and its sign.
pub fn sign_of(text: &str) -> Option<(usize, &'static str, Relation)> {
    let whole = |at: usize, phrase: &str| {
        let before = text.get(..at).is_some_and(|text| text.is_empty() || text.ends_with(char::is_whitespace));
        let after = text.get(at + phrase.len()..);
        before && after.is_some_and(|text| text.is_empty() || text.starts_with(char::is_whitespace))
    };
    SIGNS.iter().find_map(|(phrase, sign)| {
        let (at, _) = text.match_indices(phrase).find(|(at, _)| whole(*at, phrase))?;
        Some((at, *phrase, *sign))
    })
}

/// What a clause that could not be read on was likely to say; `before` is what was read of it, `rest` what was not.
pub(super) fn meant(before: &str, rest: &str) -> Option<Meant> {
    let before = before.trim_end();
    match rest.chars().next() {
        Some('<') if before.ends_with('=') => return Some(Meant::Sign(Relation::AtMost)),
        Some('>') if before.ends_with('=') => return Some(Meant::Sign(Relation::AtLeast)),
        Some('"' | '“' | '”') => return Some(Meant::WithoutQuotes),
        _ => {}
    }
    if let Some((_, phrase, sign)) = sign_of(before).or_else(|| sign_of(rest)) {
        return Some(Meant::Phrase(phrase, sign));
    }
    let last = before.split_whitespace().next_back()?.to_lowercase();
    match (last.as_str(), rest.split_whitespace().next()?) {
        ("min" | "minimum" | "smaller" | "lesser", word) if word.starts_with('(') => Some(Meant::Pick("lesser")),
        ("max" | "maximum" | "larger" | "greater", word) if word.starts_with('(') => Some(Meant::Pick("greater")),
        (_, "of") if before.contains("number of ") => Some(Meant::CountOfOthers),
        (_, rest) if rest.starts_with(',') => picked(before),
        _ => None,
    }
}

/// `min(width` and the like, before the comma of what programs write so.
fn picked(before: &str) -> Option<Meant> {
    let (before, _) = before.rsplit_once('(')?;
    let last = before.split_whitespace().next_back()?.to_lowercase();
    match last.as_str() {
        "min" | "minimum" | "smaller" | "lesser" => Some(Meant::Pick("lesser")),
        "max" | "maximum" | "larger" | "greater" => Some(Meant::Pick("greater")),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Relation, sign_of};

    #[test]
    fn phrases_are_whole_words_and_the_longest() {
        assert_eq!(sign_of("no more than 16 risers"), Some((0, "no more than", Relation::AtMost)));
        assert_eq!(sign_of("depth at least"), Some((6, "at least", Relation::AtLeast)));
        assert_eq!(sign_of("height above ground > free"), None);
        assert_eq!(sign_of("flat least"), None);
    }
}
