//! The rows of a table as they are written: a figure, then when it counts.

use super::problem::TableFault;
use super::table::RowAsks;
use crate::base::{Source, Span};
use crate::measure::Measure;
use crate::syntax::{Name, Relation, Term, TermKind};

/// Words before a figure of a row, and the relation that they say.
const PHRASES: [(&str, Relation); 13] = [
    ("up to", Relation::AtMost),
    ("to", Relation::AtMost),
    ("at most", Relation::AtMost),
    ("under", Relation::Less),
    ("below", Relation::Less),
    ("less than", Relation::Less),
    ("over", Relation::More),
    ("above", Relation::More),
    ("more than", Relation::More),
    ("from", Relation::AtLeast),
    ("at least", Relation::AtLeast),
    ("at", Relation::Equal),
    ("for", Relation::Equal),
];

/// Words with which a row begins, behind its figure.
pub(super) const BEGIN: [&str; 8] = ["for", "up to", "under", "over", "from", "at", "below", "above"];

/// When a row counts, from the words behind its figure; `of_two` says that its table goes by two things, of which the row
/// says something each.
///
/// # Errors
/// What is wrong with them, and where.
pub(super) fn row(source: &Source, terms: &[Term], of_two: bool) -> Result<RowAsks, (Span, TableFault)> {
    let parts: Vec<&[Term]> = terms.split(|term| term.word() == Some("and")).collect();
    if parts.len() < 2 {
        return one(source, terms);
    }
    if of_two {
        let read =
            parts.into_iter().enumerate().map(|(at, part)| match part.first().map(|first| (first, first.word())) {
                Some((first, Some("otherwise" | "else"))) => Err((first.span, TableFault::RowWords)),
                // `for dwelling and indoors` says `for` once.
                Some((_, Some(word)))
                    if at > 0 && !BEGIN.contains(&word) && part.iter().all(|term| term.word().is_some()) =>
                {
                    Ok(RowAsks::Words(choice(source, part)))
                }
                _ => one(source, part),
            });
        return Ok(RowAsks::Both(read.collect::<Result<_, _>>()?));
    }
    let whole = terms.first().zip(terms.last()).map(|(first, last)| first.span.to(last.span)).unwrap_or_default();
    // `over 3 and up to 12` stands to one thing; words beside a figure speak of two.
    let says = |words: bool| {
        let is = |part: &&&[Term]| part.iter().all(|term| term.word().is_some()) == words;
        parts.iter().any(|part| !part.is_empty() && is(&part))
    };
    if says(true) && says(false) { Err((whole, TableFault::TwoOfOne)) } else { one(source, terms) }
}

/// What a row, or one part of it, says of one thing.
fn one(source: &Source, terms: &[Term]) -> Result<RowAsks, (Span, TableFault)> {
    let whole = terms.first().zip(terms.last()).map(|(first, last)| first.span.to(last.span)).unwrap_or_default();
    let words: Vec<&str> = terms.iter().filter_map(Term::word).collect();
    if words.len() == terms.len() {
        return match words.as_slice() {
            ["otherwise" | "else"] => Ok(RowAsks::Otherwise),
            ["for", ..] => Ok(RowAsks::Words(choice(source, terms.get(1..).unwrap_or_default()))),
            _ => Err((whole, TableFault::RowWords)),
        };
    }
    let (mut bounds, mut before): (Vec<(Relation, Measure, Span)>, Vec<&str>) = (Vec::new(), Vec::new());
    for term in terms {
        match (&term.kind, term.word()) {
            (TermKind::Figure(figure), _) => {
                let said = before.join(" ").to_lowercase();
                let Some((_, relation)) = PHRASES.iter().find(|(phrase, _)| *phrase == said) else {
                    return Err((whole, TableFault::RowWords));
                };
                bounds.push((*relation, *figure, term.span));
                before.clear();
            }
            (_, Some("and")) if before.is_empty() => {}
            (_, Some(word)) => before.push(word),
            _ => return Err((whole, TableFault::RowWords)),
        }
    }
    if bounds.is_empty() || !before.is_empty() {
        Err((whole, TableFault::RowWords))
    } else {
        Ok(RowAsks::Number(bounds))
    }
}

/// The words of a choice, parted by `or`.
fn choice(source: &Source, terms: &[Term]) -> Vec<Name> {
    let parts = terms.split(|term| term.word() == Some("or")).filter(|part| !part.is_empty());
    let name = |part: &[Term]| {
        let span = part.first().zip(part.last()).map(|(first, last)| first.span.to(last.span)).unwrap_or_default();
        let words = source.slice(span).split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
        Name { words, span }
    };
    parts.map(name).collect()
}

/// Whether a row says that what lies between the others is read in proportion.
pub(super) fn reads_between(terms: &[Term]) -> bool {
    let words: Vec<&str> = terms.iter().filter_map(Term::word).collect();
    words.len() == terms.len()
        && matches!(words.as_slice(), ["read", "between"] | ["in", "between", "in", "proportion"])
}
