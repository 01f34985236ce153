//! A page: headings, paragraphs and tables, made once and shown on a terminal or as Markdown.

use super::{Look, Paint, columns, sentence, wrap};

/// What a listing, a comparison or the reference is made of.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Page {
    pub(super) blocks: Vec<Block>,
}

/// One part of a page.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Block {
    /// Words over what follows; 1 is the page's own.
    Heading(usize, String),
    /// A paragraph.
    Words(String),
    /// A line that is not wrapped, so that it can be searched for.
    Line(String),
    /// Rows under a head.
    Table(Table),
}

/// Rows under a head.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    pub(super) head: Vec<&'static str>,
    pub(super) rows: Vec<Vec<Cell>>,
    /// On a terminal the last cell stands below its row, over the whole width.
    pub(super) below: bool,
}

/// One cell; its parts stand below one another.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Cell(pub(super) Vec<Part>);

/// One part of a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Part {
    /// Words; what stands between backticks is code.
    Words(String),
    /// Something as it is written in a file.
    Code(String),
}

impl Part {
    fn text(&self) -> &str {
        match self {
            Part::Words(text) | Part::Code(text) => text,
        }
    }
}

impl Cell {
    /// Words.
    pub fn words(text: impl Into<String>) -> Self {
        Self::default().and_words(text)
    }

    /// Something as it is written in a file.
    pub fn code(text: impl Into<String>) -> Self {
        Self(vec![Part::Code(text.into())])
    }

    /// More, as it is written in a file, below.
    #[must_use]
    pub fn and_code(mut self, text: impl Into<String>) -> Self {
        self.0.push(Part::Code(text.into()));
        self
    }

    /// More words below.
    #[must_use]
    pub fn and_words(mut self, text: impl Into<String>) -> Self {
        let text = text.into();
        if !text.is_empty() {
            self.0.push(Part::Words(text));
        }
        self
    }
}

impl Table {
    /// A table with its head.
    pub fn new(head: &[&'static str]) -> Self {
        Self { head: head.to_vec(), rows: Vec::new(), below: false }
    }

    /// The last cell of a row is long: on a terminal it stands below the row.
    #[must_use]
    pub fn with_last_below(mut self) -> Self {
        self.below = true;
        self
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<Cell>) {
        self.rows.push(cells);
    }

    /// Whether it has no rows.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }
}

impl Page {
    /// Adds a heading.
    pub fn heading(&mut self, level: usize, text: impl Into<String>) {
        self.blocks.push(Block::Heading(level, text.into()));
    }

    /// Adds a paragraph, unless it is empty.
    pub fn words(&mut self, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.blocks.push(Block::Words(text));
        }
    }

    /// Adds a line that is not wrapped.
    pub fn line(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Line(text.into()));
    }

    /// Adds a table, unless it has no rows.
    pub fn table(&mut self, table: Table) {
        if !table.is_empty() {
            self.blocks.push(Block::Table(table));
        }
    }

    /// Puts another page's blocks after these.
    pub fn append(&mut self, other: Page) {
        self.blocks.extend(other.blocks);
    }

    /// The page for a terminal.
    pub fn text(&self, look: &Look) -> String {
        let mut out = String::new();
        let mut before: Option<&Block> = None;
        let deep = self.blocks.iter().any(|block| matches!(block, Block::Heading(3.., _)));
        for block in &self.blocks {
            let close = matches!(
                (before, block),
                (None, _)
                    | (Some(Block::Line(_)), Block::Line(_))
                    | (Some(Block::Heading(2.., _)), Block::Table(_) | Block::Words(_) | Block::Line(_))
            );
            if !close {
                out.push('\n');
            }
            match block {
                Block::Heading(level, text) => {
                    let text = sentence(text, look.unicode);
                    let painted = look.paint(Paint::Strong, &text);
                    out += &format!("{painted}\n");
                    // Lines below tell the levels of a long page apart.
                    match level {
                        1 => out += &format!("{}\n", "=".repeat(columns(&text))),
                        2 if deep => out += &format!("{}\n", "-".repeat(columns(&text))),
                        _ => {}
                    }
                }
                Block::Words(text) => out += &look.hang(text, 0),
                Block::Line(text) => out += &format!("{}\n", spaced(text, look)),
                Block::Table(table) => out += &table.text(look),
            }
            before = Some(block);
        }
        out
    }
}

/// A line made safe to print; the blanks in it are kept.
fn spaced(text: &str, look: &Look) -> String {
    super::visible(text, look.unicode).into_owned()
}

/// Columns before a table, and between two columns of it.
const INDENT: usize = 2;
const GAP: usize = 2;
/// No column is made narrower than this, if its words are wider.
const NARROWEST: usize = 9;

impl Table {
    fn text(&self, look: &Look) -> String {
        let beside = if self.below { self.head.len().saturating_sub(1) } else { self.head.len() };
        let widths = self.widths(beside, look);
        let head: Vec<Vec<String>> =
            self.head.iter().take(beside).zip(&widths).map(|(word, width)| wrap(word, *width, &[])).collect();
        let mut out = String::new();
        for line in side_by_side(&head, &widths) {
            out += &format!("{}{}\n", " ".repeat(INDENT), look.paint(Paint::Strong, &line));
        }
        let rule = if look.unicode { "─" } else { "-" };
        let rules: Vec<Vec<String>> = widths.iter().map(|width| vec![rule.repeat(*width)]).collect();
        for line in side_by_side(&rules, &widths) {
            out += &format!("{}{line}\n", " ".repeat(INDENT));
        }
        for row in &self.rows {
            let cells: Vec<Vec<String>> =
                row.iter().take(beside).zip(&widths).map(|(cell, width)| lines(cell, *width, look)).collect();
            for line in side_by_side(&cells, &widths) {
                out += &format!("{}{line}\n", " ".repeat(INDENT));
            }
            for cell in row.iter().skip(beside) {
                let indent = INDENT + 4;
                for line in lines(cell, look.width.saturating_sub(indent), look) {
                    out += &format!("{}{line}\n", " ".repeat(indent));
                }
            }
        }
        out
    }

    /// As wide as the words ask, or, if that is too much, the widest made narrower until all have room.
    fn widths(&self, beside: usize, look: &Look) -> Vec<usize> {
        let mut widths: Vec<usize> = self.head.iter().take(beside).map(|word| columns(word)).collect();
        for row in &self.rows {
            for (cell, width) in row.iter().zip(&mut widths) {
                for part in &cell.0 {
                    *width = (*width).max(columns(&sentence(part.text(), look.unicode)));
                }
            }
        }
        let room = look.width.saturating_sub(INDENT + GAP * beside.saturating_sub(1));
        while widths.iter().sum::<usize>() > room {
            match widths.iter_mut().max() {
                Some(widest) if *widest > NARROWEST => *widest -= 1,
                _ => break,
            }
        }
        widths
    }
}

fn lines(cell: &Cell, width: usize, look: &Look) -> Vec<String> {
    cell.0.iter().flat_map(|part| wrap(&sentence(part.text(), look.unicode), width, &[])).collect()
}

fn side_by_side(cells: &[Vec<String>], widths: &[usize]) -> Vec<String> {
    let most = cells.iter().map(Vec::len).max().unwrap_or(0);
    let line = |at: usize| {
        let mut line = String::new();
        let mut start = 0;
        for (cell, width) in cells.iter().zip(widths) {
            let text = cell.get(at).map_or("", String::as_str);
            if !text.is_empty() {
                line += &" ".repeat(start - columns(&line).min(start));
                if columns(&line) > start {
                    line.push(' ');
                }
                line += text;
            }
            start += width + GAP;
        }
        line
    };
    (0..most).map(line).collect()
}
