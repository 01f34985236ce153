//! How a report is to look: colours, characters, width.

use super::words::{sentence, wrap};

/// How a report is to look.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// Colours are wanted.
    pub colour: bool,
    /// The terminal shows more than ASCII.
    pub unicode: bool,
    /// Columns to fill.
    pub width: usize,
    /// Every rule that was not checked is listed, not only counted.
    pub list_not_checked: bool,
}

/// A colour of the report's own lines.
#[derive(Debug, Clone, Copy)]
pub(super) enum Paint {
    Bad,
    Good,
    Strong,
    Mark,
}

impl Look {
    pub(super) fn paint(&self, paint: Paint, text: &str) -> String {
        let code = match paint {
            Paint::Bad => 31,
            Paint::Good => 32,
            Paint::Strong => 1,
            Paint::Mark => 36,
        };
        if self.colour { format!("\x1b[{code}m{text}\x1b[0m") } else { text.to_owned() }
    }

    /// A paragraph with a hanging indent; colours are added only after wrapping.
    pub(super) fn hang(&self, text: &str, indent: usize) -> String {
        let width = self.width.saturating_sub(indent + 2).max(32);
        let lines = wrap(&sentence(text, self.unicode), width, &[]);
        let rest = format!("\n{}", " ".repeat(indent + 2));
        format!("{}{}\n", " ".repeat(indent), lines.join(&rest))
    }
}
