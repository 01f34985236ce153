//! A page as Markdown with tables as GitHub draws them. What comes from a file cannot break out of its cell.

use super::page::{Block, Cell, Page, Part};
use super::words::{columns, sentence};

impl Page {
    /// The page as Markdown; `below` is the level of the heading that it stands under, 0 for none.
    pub fn markdown(&self, below: usize) -> String {
        let mut out = String::new();
        let mut before: Option<&Block> = None;
        for block in &self.blocks {
            if before.is_some() && !matches!((before, block), (Some(Block::Line(_)), Block::Line(_))) {
                out.push('\n');
            }
            match block {
                Block::Heading(level, text) => {
                    out += &format!("{} {}\n", "#".repeat((level + below).min(6)), prose(text));
                }
                Block::Words(text) => out += &format!("{}\n", opening(&prose(text))),
                Block::Line(text) => out += &format!("- {}\n", opening(&prose(text))),
                Block::Table(table) => {
                    let head: Vec<String> = table.head.iter().map(|word| prose(word)).collect();
                    out += &line(&head);
                    out += &line(&vec!["---".to_owned(); head.len()]);
                    for row in &table.rows {
                        out += &line(&row.iter().map(cell).collect::<Vec<_>>());
                    }
                }
            }
            before = Some(block);
        }
        out
    }
}

fn line(cells: &[String]) -> String {
    format!("| {} |\n", cells.join(" | "))
}

fn cell(cell: &Cell) -> String {
    let part = |part: &Part| match part {
        Part::Words(text) => prose(text),
        Part::Code(text) => code(&sentence(text, true)),
    };
    cell.0.iter().map(part).collect::<Vec<_>>().join("<br>")
}

/// Words with every sign that Markdown would read made harmless; pairs of backticks are code.
pub fn prose(text: &str) -> String {
    let text = sentence(text, true);
    let parts: Vec<&str> = text.split('`').collect();
    if parts.len().is_multiple_of(2) {
        return escaped(&text);
    }
    let part = |(at, part): (usize, &&str)| match (at % 2, part.is_empty()) {
        (0, _) => escaped(part),
        (_, true) => "\\`\\`".to_owned(),
        _ => code(part),
    };
    parts.iter().enumerate().map(part).collect()
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | '|' | '*' | '_' | '[' | ']' | '`' | '~' => {
                out.push('\\');
                out.push(c);
            }
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '&' => out += "&amp;",
            _ => out.push(c),
        }
    }
    out
}

/// A code span with a fence longer than any run of backticks in it. A bar splits a cell even in code.
fn code(text: &str) -> String {
    let longest = text.split(|c| c != '`').map(columns).max().unwrap_or(0);
    let fence = "`".repeat(longest + 1);
    let blank = if text.starts_with('`') || text.ends_with('`') { " " } else { "" };
    format!("{fence}{blank}{}{blank}{fence}", text.replace('|', "\\|"))
}

/// A paragraph must not open as a heading, a list or a quotation.
fn opening(text: &str) -> String {
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    match (digits, text.chars().nth(digits)) {
        (0, Some('#' | '-' | '+' | '=')) => format!("\\{text}"),
        (1.., Some('.' | ')')) => {
            let (number, rest) = text.split_at_checked(digits).unwrap_or_default();
            format!("{number}\\{rest}")
        }
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::page::Table;
    use super::*;

    #[test]
    fn what_a_file_says_stays_in_its_cell() {
        assert_eq!(prose("a | b\nc"), "a \\| b c");
        assert_eq!(prose("<b>*x*_y_[z](u)"), "&lt;b&gt;\\*x\\*\\_y\\_\\[z\\](u)");
        assert_eq!(prose("No `ground` is drawn"), "No `ground` is drawn");
        assert_eq!(prose("one ` only"), "one \\` only");
        assert_eq!(prose("esc \x1b"), "esc ␛");
        assert_eq!(code("a <= `b` | c"), "``a <= `b` \\| c``");
        assert_eq!(code("`a"), "`` `a ``");
        assert_eq!(opening("# no heading"), "\\# no heading");
        assert_eq!(opening("12. no list"), "12\\. no list");
        assert_eq!(opening("7-3/8\" is a length"), "7-3/8\" is a length");
    }

    #[test]
    fn a_table_has_as_many_cells_in_each_row_as_in_its_head() {
        let mut table = Table::new(&["name", "value"]);
        table.row(vec![Cell::words("a | b"), Cell::code("x|y").and_words("more")]);
        let mut page = Page::default();
        page.heading(1, "Things");
        page.table(table);
        assert_eq!(page.markdown(1), "## Things\n\n| name | value |\n| --- | --- |\n| a \\| b | `x\\|y`<br>more |\n");
    }
}
