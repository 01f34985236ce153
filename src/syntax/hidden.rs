//! What a text holds and an editor does not show as it is read: signs that end a line for one reader and not for
//! another, signs that turn the order of the letters, signs that show as nothing, text pushed out of the window.

use super::problem::{Hides, Problem};
use crate::base::{Diagnostic, Source, Span};

/// So many blanks in a row push what follows them out of sight.
const OUT_OF_SIGHT: usize = 120;

/// Reports what hides, each kind once with how often it stands in the text, at its first place.
pub(super) fn tell(source: &Source, found: &mut Vec<Diagnostic<Problem>>) {
    let mut kinds: [Option<(Span, char, usize)>; 4] = [None; 4];
    let mut add = |hides: Hides, at: usize, length: usize, sign: char| {
        let Some(kind) = kinds.get_mut(hides as usize) else { return };
        match kind {
            Some((_, _, many)) => *many += 1,
            None => *kind = Some((Span::new(at, at + length), sign, 1)),
        }
    };
    let text = &*source.text;
    // A text that ends its lines by `\r` alone does so throughout; beside `\n` it hides in the middle of a line.
    let ended = text.contains('\n');
    let mut begin = 0;
    for line in text.split_inclusive('\n') {
        if !shows_all(line) {
            hidden_in(line, begin, ended, &mut add);
        }
        begin += line.len();
    }
    let told = [Hides::LineEnd, Hides::Direction, Hides::Nothing, Hides::OutOfSight].into_iter().zip(kinds);
    found.extend(told.filter_map(|(hides, kind)| {
        let (place, sign, many) = kind?;
        Some(Diagnostic::new(source, place, Problem::Hidden { hides, sign, many }))
    }));
}

/// Tells what hides in a line that begins at `begin`, with its place, its length and its sign; the text ends its lines
/// by `\n` where it is `ended` so.
fn hidden_in(line: &str, begin: usize, ended: bool, tell: &mut impl FnMut(Hides, usize, usize, char)) {
    let mut blanks = 0;
    for (at, sign) in line.char_indices() {
        let next = || line.as_bytes().get(at + 1);
        let hides = match sign {
            ' ' | '\t' => {
                blanks += 1;
                continue;
            }
            '\n' => None,
            '\r' => (ended && next() != Some(&b'\n')).then_some(Hides::LineEnd),
            _ if blanks >= OUT_OF_SIGHT => {
                tell(Hides::OutOfSight, begin + at, sign.len_utf8(), sign);
                hides(sign)
            }
            _ => hides(sign),
        };
        blanks = 0;
        if let Some(hides) = hides {
            tell(hides, begin + at, sign.len_utf8(), sign);
        }
    }
}

/// Whether a line is of plain signs, none of them out of sight, as almost every line is: soon seen, and nothing hides in
/// it. All signs are looked at, which a processor does many at a time.
fn shows_all(line: &str) -> bool {
    let is_strange = |sign: u8| u8::from(!(b' '..=b'~').contains(&sign) & (sign != b'\n') & (sign != b'\t'));
    // So many blanks in a row would cover one of these places.
    let mut places = line.bytes().skip(OUT_OF_SIGHT - 1).step_by(OUT_OF_SIGHT);
    line.bytes().fold(0, |strange, sign| strange | is_strange(sign)) == 0
        && !places.any(|sign| matches!(sign, b' ' | b'\t'))
}

fn hides(sign: char) -> Option<Hides> {
    Some(match sign {
        '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Hides::LineEnd,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => Hides::Direction,
        '\0'..='\u{8}' | '\u{e}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{e0000}'..='\u{e0fff}' => Hides::Nothing,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::{parse_design, parse_rules};

    fn told(text: &str) -> Vec<(Hides, usize)> {
        let mut found = Vec::new();
        tell(&Source::new("t", text), &mut found);
        let hidden = found.into_iter().map(|diagnostic| match diagnostic.problem {
            Problem::Hidden { hides, many, .. } => (hides, many),
            other => panic!("{other:?}"),
        });
        hidden.collect()
    }

    #[test]
    fn what_an_editor_shows_otherwise_is_told_once_for_its_kind() {
        for sign in ['\u{b}', '\u{c}', '\u{85}', '\u{2028}', '\u{2029}', '\r'] {
            let text = format!("stair {{\n # a remark{sign} width: 36\"{sign} }}\n}}");
            assert_eq!(told(&text), [(Hides::LineEnd, 2)], "{sign:?}");
            for (_, found) in [parse_design(&Source::new("t", &text)), parse_rules(&Source::new("t", &text))] {
                assert!(found.iter().any(|found| matches!(found.problem, Problem::Hidden { .. })), "{sign:?}");
            }
        }
        assert_eq!(told("note: a\u{202e}b\u{2069}\u{1b}"), [(Hides::Direction, 2), (Hides::Nothing, 1)]);
        assert_eq!(told(&format!("a{}b", " ".repeat(OUT_OF_SIGHT))), [(Hides::OutOfSight, 1)]);
    }

    #[test]
    fn what_every_editor_shows_alike_is_not() {
        for text in ["a\nb\tc\r\nd", "a\rb\r", "\u{feff}½ × “é”", &format!("a{}\n", " ".repeat(2 * OUT_OF_SIGHT))]
        {
            assert_eq!(told(text), [], "{text:?}");
        }
    }
}
