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
    pub(super) fn read(text: &'static str, row: impl Fn(&Cells<'_>) -> Option<T>) -> Self {
        let lines = text.lines().enumerate().map(|(at, line)| (at + 1, line));
        let mut lines = lines.filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
        let head: Vec<&str> = lines.next().map_or("", |(_, head)| head).split('\t').collect();
        let mut table = Self { rows: Vec::new(), unread: Vec::new() };
        let mut cells: Vec<&'static str> = Vec::with_capacity(head.len());
        for (at, line) in lines {
            cells.clear();
            cells.extend(line.split('\t'));
            let whole = cells.len() == head.len();
            match row(&Cells { head: &head, cells: &cells }).filter(|_| whole) {
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
pub(super) struct Cells<'r> {
    head: &'r [&'static str],
    cells: &'r [&'static str],
}

impl Cells<'_> {
    /// The words of a column.
    pub(super) fn text(&self, column: &str) -> Option<&'static str> {
        let nth = self.head.iter().position(|name| *name == column)?;
        self.cells.get(nth).copied()
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
