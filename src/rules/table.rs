//! A table of limits, as codes print them: one figure for each use, width or height, or a value read between two rows.
//! Each row is a limit of the rule, under the name of the table with its own words behind: `least up to 49`.

use crate::base::Span;
use crate::measure::Measure;
use crate::syntax::{Expr, Name, Relation};

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its name, by which the clause reads it.
    pub name: String,
    /// The name that it went by before.
    pub formerly: Option<String>,
    /// What it goes by.
    pub by: Expr,
    /// What else it goes by, where it goes by two things.
    pub and_by: Option<Expr>,
    /// The words for that.
    pub by_words: String,
    /// Where they stand.
    pub stands: Span,
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

impl RowAsks {
    /// What it says, each part by itself.
    pub fn parts(&self) -> &[RowAsks] {
        match self {
            RowAsks::Otherwise => &[],
            RowAsks::Both(parts) => parts,
            one => std::slice::from_ref(one),
        }
    }
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
    /// Where both of what a table goes by are so.
    Both(Vec<RowAsks>),
}
