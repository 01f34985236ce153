//! Text on its way to a terminal: control characters made visible, long sentences wrapped.

use std::borrow::Cow;

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// What stands in for a character that must not reach a terminal raw, or nothing if it is harmless.
///
/// Raw control characters could move the cursor or rewrite the report; direction marks and invisible
/// characters could make a design read otherwise than it is.
pub(super) fn stand_in(c: char, unicode: bool) -> Option<String> {
    let code = u32::from(c);
    match c {
        '\0'..='\x1f' if unicode => char::from_u32(0x2400 + code).map(String::from),
        '\x7f' if unicode => Some('\u{2421}'.to_string()),
        '\0'..='\x1f' | '\x7f'..='\u{9f}' => Some(format!("\\x{code:02x}")),
        '\u{ad}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' => {
            Some(escaped(code))
        }
        '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{feff}' | '\u{ffa0}' => Some(escaped(code)),
        '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}' => Some(escaped(code)),
        _ => None,
    }
}

/// Whether a text is of characters that stand for themselves, each a column wide: most texts are.
pub(super) fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| (b' '..=b'~').contains(&byte))
}

fn escaped(code: u32) -> String {
    format!("\\u{{{code:x}}}")
}

/// A text with every control, direction and invisible character made visible, line breaks and tabs too.
pub fn visible(text: &str, unicode: bool) -> Cow<'_, str> {
    if is_plain(text) || !text.chars().any(|c| stand_in(c, unicode).is_some()) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match stand_in(c, unicode) {
            Some(shown) => out.push_str(&shown),
            None => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// A sentence for one paragraph: blanks of every kind become single spaces, the rest is made visible.
pub fn sentence(text: &str, unicode: bool) -> String {
    if is_plain(text) && !text.contains("  ") && !text.starts_with(' ') && !text.ends_with(' ') {
        return text.to_owned();
    }
    let words: Vec<&str> = text.split([' ', '\t', '\n', '\r']).filter(|word| !word.is_empty()).collect();
    visible(&words.join(" "), unicode).into_owned()
}

/// Columns that a text takes on a terminal.
pub fn columns(text: &str) -> usize {
    if is_plain(text) { text.len() } else { text.width() }
}

/// Columns that a character takes; a tab counts as four.
pub(super) fn char_columns(c: char) -> usize {
    if c == '\t' { 4 } else { c.width().unwrap_or(0) }
}

/// Breaks a sentence into lines of at most `width` columns, at blanks only.
///
/// Trade fractions, a number with its unit and citations are not broken; neither is any text of `whole`.
/// What is wider than a line on its own stands out over its end.
pub fn wrap(text: &str, width: usize, whole: &[&str]) -> Vec<String> {
    if is_plain(text) && text.len() <= width {
        let words: Vec<&str> = text.split(' ').filter(|word| !word.is_empty()).collect();
        return vec![words.join(" ")];
    }
    let kept = glue(text, width, whole);
    #[allow(clippy::integer_division)] // By a constant.
    let half = width / 2;
    let words: Vec<&str> = kept.split(' ').filter(|word| !word.is_empty()).collect();
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut line_columns = 0;
    let mut piece = String::new();
    for (i, word) in words.iter().enumerate() {
        if !piece.is_empty() {
            piece.push(' ');
        }
        piece.push_str(word);
        let next = words.get(i + 1).copied();
        let before = i.checked_sub(1).and_then(|k| words.get(k)).copied();
        if next.is_some_and(|next| stays_together(before, word, next)) && columns(&piece) < half {
            continue;
        }
        let piece_columns = columns(&piece);
        if !line.is_empty() && line_columns + 1 + piece_columns > width {
            lines.push(std::mem::take(&mut line));
            line_columns = 0;
        }
        if !line.is_empty() {
            line.push(' ');
            line_columns += 1;
        }
        line.push_str(&piece);
        line_columns += piece_columns;
        piece.clear();
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    for line in &mut lines {
        *line = line.replace(GLUE, " ");
    }
    lines
}

/// A blank that does not break; it is a control character, which no visible text can hold.
const GLUE: char = '\u{1}';

fn glue<'a>(text: &'a str, width: usize, whole: &[&str]) -> Cow<'a, str> {
    let mut text = Cow::Borrowed(text);
    for part in whole {
        if part.contains(' ') && columns(part) <= width && text.contains(part) {
            let glued = part.replace(' ', &GLUE.to_string());
            text = Cow::Owned(text.replace(part, &glued));
        }
    }
    text
}

/// Whether the blank between `word` and `next` may not become a line break.
fn stays_together(before: Option<&str>, word: &str, next: &str) -> bool {
    let numeric = |word: &str| word.chars().any(|c| c.is_ascii_digit());
    let bare = |word: &str| -> String { word.chars().filter(|c| c.is_alphanumeric() || *c == '.').collect() };
    let ends = word.ends_with([';', ':']) || word.ends_with('.') && word != "No.";
    if ends {
        return false;
    }
    if word.ends_with(',') {
        // `IRC 2021, R311.7.5.1`: a document's year and the clause in it.
        return before.is_some_and(abbreviation) && numeric(word) && (numeric(next) || PLACES.contains(&next));
    }
    let joins = |word: &str| JOINTS.contains(&word);
    numeric(word)
        && (UNITS.contains(&bare(next).as_str()) || next.starts_with(|c: char| c.is_ascii_digit()) || joins(next))
        || joins(word) && before.is_some_and(numeric) && numeric(next)
        || (abbreviation(word) || PLACES.contains(&word)) && numeric(next)
        || numeric(word) && abbreviation(next)
}

/// Words between two figures of one value: `1 in 48`, `4 of 7"`, `3/8" x 6"`, `1/4" per 12"`.
const JOINTS: &[&str] = &["x", "×", "of", "per", "in", "to"];
const UNITS: &[&str] =
    &["mm", "cm", "m", "in", "in.", "ft", "ft.", "psf", "plf", "psi", "lb", "kPa", "MPa", "kN", "N", "sq", "deg"];
/// Words before the number of a place in a document.
const PLACES: &[&str] = &["Table", "Section", "Figure", "Chapter", "Part", "page", "§", "No."];

/// `IRC`, `NDS`, `CFR`, `A117.1`: how a citation names a document.
fn abbreviation(word: &str) -> bool {
    let letters = word.chars().filter(char::is_ascii_uppercase).count();
    letters >= 1
        && letters + word.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | '-')).count() == word.len()
        && word.len() >= 2
}

/// `1 rule`, `2 rules`.
pub fn count(number: usize, thing: &str) -> String {
    format!("{number} {thing}{}", if number == 1 { "" } else { "s" })
}

/// `a`, `a and b`, `a, b and c`.
pub fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn controls_and_direction_marks_become_visible() {
        assert_eq!(visible("a\x1b[2J\r\n\tb\u{9b}\u{202e}c\x7f", true), "a␛[2J␍␊␉b\\x9b\\u{202e}c␡");
        assert_eq!(visible("a\x1b\x07\u{2066}", false), "a\\x1b\\x07\\u{2066}");
        assert!(matches!(visible("pièce 板 🪵 7-3/8\"", true), Cow::Borrowed(_)));
        for c in (0..0x3000).filter_map(char::from_u32) {
            assert!(!visible(&c.to_string(), true).chars().any(char::is_control), "{c:?}");
        }
    }

    #[test]
    fn fractions_values_and_citations_are_never_broken() {
        let text = "risers of 7 3/8\" and 7-3/4\" under IRC 2021, R311.7.5.1 fall 1 in 48 with 187 mm, \
                    2 of 3/8\" x 6\" bolts, 1/4\" per 12\", 29 CFR 1910.25(c)(2), NDS 2018, Table 12.5.1A and No. 10 screws";
        let whole =
            ["7 3/8\"", "7-3/4\"", "IRC 2021, R311.7.5.1", "1 in 48", "187 mm", "2 of 3/8\" x 6\"", "1/4\" per 12\""];
        let cited = ["29 CFR 1910.25(c)(2)", "NDS 2018, Table 12.5.1A", "No. 10"];
        for width in 46..90 {
            let lines = wrap(text, width, &[]);
            assert_eq!(lines.join(" "), text);
            assert!(lines.iter().all(|line| columns(line) <= width), "{width}: {lines:#?}");
            for part in whole.iter().chain(&cited) {
                assert!(lines.iter().any(|line| line.contains(part)), "{width}: {part} broken in {lines:#?}");
            }
        }
    }

    #[test]
    fn a_named_citation_stays_whole_whatever_its_words() {
        let cites = "shop notes of the Saltmere yard";
        let text = format!("each riser shall be even, says {cites} on its first page");
        for width in 32..70 {
            assert!(wrap(&text, width, &[cites]).iter().any(|line| line.contains(cites)), "{width}");
        }
    }

    #[test]
    fn wrapping_keeps_every_word_at_any_width() {
        let text = "a\u{a0}b c 板板板板 word 1 2 3 4 5 6 7 8 9";
        for width in 0..30 {
            assert_eq!(wrap(text, width, &[]).join(" "), text);
        }
        assert_eq!(wrap("", 20, &[]), [""]);
    }

    #[test]
    fn counts_and_lists_read_as_words() {
        assert_eq!(count(1, "rule"), "1 rule");
        assert_eq!(count(0, "rule"), "0 rules");
        assert_eq!(listed(&["a".into(), "b".into(), "c".into()]), "a, b and c");
    }
}
