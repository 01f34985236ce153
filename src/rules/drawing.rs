//! The text of what a drawing contradicts in itself: rules that the tool holds with every design.

use crate::base::Source;

/// The name under which the set is listed.
pub const DRAWING: &str = "drawing";

/// Its text.
pub const DRAWING_TEXT: &str = include_str!("../../rulesets/drawing.rules");

/// Whether a text is that of the set, wherever it lies.
pub(super) fn is_drawing(source: &Source) -> bool {
    *source.text == *DRAWING_TEXT
}

/// Whether it holds a rule of this name.
pub(super) fn is_held(rule: &str) -> bool {
    let named = |line: &str| line.trim().strip_prefix("rule \"")?.split('"').next().map(|name| name == rule);
    DRAWING_TEXT.lines().filter_map(named).any(|is| is)
}
