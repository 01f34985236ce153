//! A table as text: a line of names of columns, a row a line, columns parted by one tab, `#` before a remark.

use super::cited::{Certainty, Cited};

/// The rows of a table, read.
#[derive(Debug)]
pub struct Rows<T> {
    /// Those that were read, in their order.
    pub rows: Vec<T>,
    /// The lines that could not be, counted from 1. A test holds that every shipped table has none.
    pub unread: Vec<usize>,
}

impl<T> Rows<T> {
    /// Reads a table row by row.
    pub(super) fn read(text: &'static str, row: impl Fn(&Cells) -> Option<T>) -> Self {
        let lines = text.lines().enumerate().map(|(at, line)| (at + 1, line));
        let mut lines = lines.filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
        let head = lines.next().map_or("", |(_, head)| head);
        let mut table = Self { rows: Vec::new(), unread: Vec::new() };
        for (at, line) in lines {
            let whole = line.split('\t').count() == head.split('\t').count();
            match row(&Cells { head, line }).filter(|_| whole) {
                Some(row) => table.rows.push(row),
                None => table.unread.push(at),
            }
        }
        table
    }

    /// The rows.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.rows.iter()
    }
}

impl<'t, T> IntoIterator for &'t Rows<T> {
    type Item = &'t T;
    type IntoIter = std::slice::Iter<'t, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

/// The cells of one row, by the names of their columns.
pub(super) struct Cells {
    head: &'static str,
    line: &'static str,
}

impl Cells {
    /// The words of a column.
    pub(super) fn text(&self, column: &str) -> Option<&'static str> {
        let nth = self.head.split('\t').position(|name| name == column)?;
        self.line.split('\t').nth(nth)
    }

    /// The number of a column.
    pub(super) fn number(&self, column: &str) -> Option<f64> {
        self.text(column)?.parse().ok()
    }

    /// The number of a column in which `-` stands for one that was not gathered.
    pub(super) fn gathered(&self, column: &str) -> Option<Option<f64>> {
        match self.text(column)? {
            "-" => Some(None),
            number => number.parse().ok().map(Some),
        }
    }

    /// A range: `2-4`, or one number for both ends; `-` is any.
    pub(super) fn range(&self, column: &str) -> Option<(f64, f64)> {
        let text = self.text(column)?;
        if text == "-" {
            return Some((0.0, f64::INFINITY));
        }
        let (low, high) = text.split_once('-').unwrap_or((text, text));
        Some((low.parse().ok()?, high.parse().ok()?))
    }

    /// Where the row is from.
    pub(super) fn cited(&self) -> Option<Cited> {
        Some(Cited {
            source: self.text("source").filter(|source| !source.is_empty())?,
            edition: self.text("edition")?,
            certainty: Certainty::of(self.text("sure")?)?,
        })
    }
}
