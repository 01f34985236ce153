//! A table of limits, as codes print them: one figure for each use, width or height, or a value read between two rows.
//! Each row is a limit of the rule, under the name of the table with its own words behind: `least up to 49`.

use super::problem::TableFault;
use crate::base::{Source, Span};
use crate::measure::Measure;
use crate::syntax::{Expr, Name, Relation, Term, TermKind};

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its name, by which the clause reads it.
    pub name: String,
    /// What it goes by.
    pub by: Expr,
    /// Its rows; the first that holds counts.
    pub rows: Vec<TableRow>,
    /// What lies between two rows is read in proportion.
    pub between: bool,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct TableRow {
    /// When it counts.
    pub asks: RowAsks,
    /// The name of its limit.
    pub limit: String,
    /// The words that say when it counts.
    pub span: Span,
}

/// When a row counts.
#[derive(Debug, Clone, PartialEq)]
pub enum RowAsks {
    /// Where no row before it does.
    Otherwise,
    /// Where what the table goes by is one of these words.
    Words(Vec<Name>),
    /// Where it stands so to each of these figures.
    Number(Vec<(Relation, Measure, Span)>),
}

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

/// When a row counts, from the words behind its figure.
///
/// # Errors
/// What is wrong with them, and where.
pub(super) fn row(source: &Source, terms: &[Term]) -> Result<RowAsks, (Span, TableFault)> {
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
    if bounds.is_empty() || !before.is_empty() { Err((whole, TableFault::RowWords)) } else { Ok(RowAsks::Number(bounds)) }
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
    words.len() == terms.len() && matches!(words.as_slice(), ["read", "between"] | ["in", "between", "in", "proportion"])
}
