//! Bounds nesting before the parser, which recurses, sees the text.

/// Deepest nesting of braces, or of parentheses, that is read.
pub const DEEPEST: usize = 64;

/// Byte of the first bracket that opens one level too many, if any.
///
/// Brackets in texts and comments do not count. A `"` after a digit or a fraction is an inch mark, any other
/// opens a text that ends on its line; `#` opens a comment except before a digit, as in the lexicon.
pub fn too_deep(text: &str) -> Option<usize> {
    let (mut braces, mut round) = (0_usize, 0_usize);
    let (mut quoted, mut comment) = (false, false);
    let mut last = ' ';
    let mut rest = text.char_indices().peekable();
    while let Some((at, c)) = rest.next() {
        match c {
            '\n' | '\r' => (quoted, comment) = (false, false),
            _ if comment => {}
            '"' if quoted => quoted = last == '\\',
            '”' => quoted = false,
            _ if quoted => {}
            '"' => quoted = !(last.is_ascii_digit() || last.is_numeric()),
            '“' => quoted = true,
            '#' => comment = !rest.peek().is_some_and(|(_, next)| next.is_ascii_digit()),
            '{' => braces += 1,
            '}' => braces = braces.saturating_sub(1),
            '(' => round += 1,
            ')' => round = round.saturating_sub(1),
            _ => {}
        }
        if braces > DEEPEST || round > DEEPEST {
            return Some(at);
        }
        last = c;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bound_holds_on_both_sides() {
        assert_eq!(too_deep(&"{".repeat(64)), None);
        assert_eq!(too_deep(&"{".repeat(65)), Some(64));
        assert_eq!(too_deep(&"(".repeat(100_000)), Some(64));
        assert_eq!(too_deep(&"{}".repeat(1000)), None);
        assert_eq!(too_deep(&format!("\"{}\" # {}\n", "{".repeat(99), "{".repeat(99))), None);
        assert_eq!(too_deep(&format!("a: 7\" {}", "{".repeat(65))), Some(70));
    }
}
