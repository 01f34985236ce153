//! The words of a value, matched against the rows of a closed table: every word is one of a phrase that is known, or
//! the value is not understood.

use std::collections::BTreeMap;

use crate::base::Span;
use crate::base::names::nearest;
use crate::measure::Measure;
use crate::syntax::{Term, TermKind};

/// Words that deny what stands beside them. Where no phrase of a table holds one, nothing is understood.
const DENIALS: &[&str] = &["not", "no", "never", "none", "without", "nor", "neither", "hardly", "non", "un", "isn't"];

/// What a denial is written together with.
const DENYING_BEGINNINGS: &[&str] = &["un", "non", "in", "dis"];

/// A word of so many letters is near to too many to be the first of a phrase that was misspelt.
const SHORT: usize = 3;

/// Longest phrase of a table, in words.
const LONGEST: usize = 5;

/// A piece of a value.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    pub kind: PieceKind,
    pub span: Span,
}

/// What a piece is.
#[derive(Debug, Clone, PartialEq)]
pub enum PieceKind {
    /// A word in lower case; a hyphenated one is as many as it has parts. A number sign is `no.2`.
    Word(String),
    /// A figure with its unit, or without one.
    Figure(Measure),
    /// What parts two phrases: a comma.
    Comma,
    /// What no phrase holds.
    Other,
}

/// The pieces of a value.
pub fn pieces(terms: &[Term]) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for term in terms {
        let span = term.span;
        let mut words = |text: &str| {
            let parts = split(text).map(|part| Piece { kind: PieceKind::Word(part.to_lowercase()), span });
            pieces.extend(parts);
        };
        match &term.kind {
            TermKind::Word(word) | TermKind::Text(word) => words(word),
            TermKind::NumberSign(number) => words(&["no.", &number.to_string()].concat()),
            TermKind::Figure(measure) => pieces.push(Piece { kind: PieceKind::Figure(*measure), span }),
            TermKind::Comma => pieces.push(Piece { kind: PieceKind::Comma, span }),
            _ => pieces.push(Piece { kind: PieceKind::Other, span }),
        }
    }
    pieces
}

fn split(phrase: &str) -> impl Iterator<Item = &str> {
    phrase.split([' ', '-', '\t']).filter(|part| !part.is_empty())
}

/// How many pieces at the start of `rest` say a phrase, hyphens and blanks alike; none if they say another.
pub fn says(rest: &[Piece], phrase: &str) -> Option<usize> {
    // Most phrases are out at their first letter.
    let first = rest.first().and_then(Piece::word)?;
    if !first.as_bytes().first()?.eq_ignore_ascii_case(phrase.as_bytes().first()?) {
        return None;
    }
    let mut used = 0;
    for part in split(phrase) {
        match rest.get(used) {
            Some(Piece { kind: PieceKind::Word(word), .. }) if word.eq_ignore_ascii_case(part) => used += 1,
            _ => return None,
        }
    }
    (used > 0).then_some(used)
}

/// The row whose phrase is the longest that stands at the start of `rest`, and how many pieces it takes; of two of one
/// length the first.
pub fn longest<'p, T>(rest: &[Piece], rows: impl IntoIterator<Item = (&'p str, T)>) -> Option<(usize, T)> {
    let mut found: Option<(usize, T)> = None;
    for (phrase, row) in rows {
        if let Some(used) = says(rest, phrase)
            && found.as_ref().is_none_or(|(longest, _)| used > *longest)
        {
            found = Some((used, row));
        }
    }
    found
}

/// The rows of a table by the first letter of their phrases: of the many, few need be looked at.
pub struct Index<T> {
    by_letter: BTreeMap<u8, Vec<(&'static str, T)>>,
}

impl<T: Copy> Index<T> {
    /// The rows, those of one letter in their order.
    pub fn of(rows: impl Iterator<Item = (&'static str, T)>) -> Self {
        let mut by_letter: BTreeMap<u8, Vec<_>> = BTreeMap::new();
        for (phrase, row) in rows {
            let Some(letter) = phrase.bytes().next() else { continue };
            by_letter.entry(letter.to_ascii_lowercase()).or_default().push((phrase, row));
        }
        Self { by_letter }
    }

    /// The same as `longest` of all the rows.
    pub fn longest(&self, rest: &[Piece]) -> Option<(usize, T)> {
        let letter = rest.first().and_then(Piece::word)?.bytes().next()?;
        longest(rest, self.by_letter.get(&letter.to_ascii_lowercase())?.iter().copied())
    }
}

/// A word that is not understood: its place, and what was likely meant.
#[derive(Debug, Clone, PartialEq)]
pub struct Strange {
    pub span: Span,
    /// The phrase that is likely meant.
    pub near: Option<String>,
    /// It denies something.
    pub denies: bool,
}

/// What is to be said of the first piece of `rest`, which begins no phrase. The phrase that is near may be longer than
/// that piece.
pub fn strange(rest: &[Piece], phrases: &[&str]) -> Strange {
    let words: Vec<&str> = rest.iter().map_while(Piece::word).take(LONGEST).collect();
    let place = |used: usize| {
        let (first, last) = (rest.first(), rest.get(used.saturating_sub(1)));
        first.zip(last).map_or_else(Span::default, |(first, last)| first.span.to(last.span))
    };
    if words.first().is_some_and(|word| denies(word, phrases)) {
        return Strange { span: place(1), near: None, denies: true };
    }
    // A phrase that is known ends what is strange; but of `sothern pine` the whole is near to one, though `pine` is one
    // by itself.
    let known =
        |at: &usize| rest.get(*at..).is_some_and(|rest| longest(rest, phrases.iter().map(|p| (*p, ()))).is_some());
    let long = words.first().is_some_and(|first| first.chars().count() > SHORT);
    let strange = if long { None } else { (1..words.len()).find(known) }.unwrap_or(words.len());
    let near = (1..=strange).rev().find_map(|used| {
        let said = words.get(..used)?.join(" ");
        // No phrase is near whose length is far: most need not be compared.
        let alike = phrases.iter().copied().filter(|phrase| phrase.len().abs_diff(said.len()) <= 4);
        nearest(&said, alike).map(|near| (used, near.to_owned()))
    });
    match near {
        Some((used, near)) => Strange { span: place(used), near: Some(near), denies: false },
        None => Strange { span: place(1), near: None, denies: false },
    }
}

/// Whether a word denies: it is a denial, or a known word with one before it.
pub fn denies(word: &str, phrases: &[&str]) -> bool {
    let known = |rest: &str| phrases.iter().flat_map(|phrase| split(phrase)).any(|part| part == rest);
    DENIALS.contains(&word)
        || DENYING_BEGINNINGS.iter().filter_map(|beginning| word.strip_prefix(beginning)).any(|rest| {
            // `in` and `dis` begin many a word that denies nothing.
            rest.len() > 3 && known(rest)
        })
}

impl Piece {
    fn word(&self) -> Option<&str> {
        match &self.kind {
            PieceKind::Word(word) => Some(word),
            _ => None,
        }
    }
}
