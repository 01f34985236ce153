//! Places of a text as the protocol counts them: lines from 0, and in a line bytes or the 16-bit units of UTF-16, as
//! the two sides agreed.

use gen_lsp_types::{Position, Range};

use crate::base::Span;

/// What a column counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Encoding {
    /// Bytes.
    Utf8,
    /// 16-bit units; a sign past U+FFFF is two.
    Utf16,
}

/// Where the lines of a text begin, in bytes. A line ends at `\n`, `\r\n` or a lone `\r`.
#[derive(Debug)]
pub(super) struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    pub fn of(text: &str) -> Self {
        Self { starts: std::iter::once(0).chain(after_ends(text, 0, text.len())).collect() }
    }

    /// The same once words have taken the place of others: `text` is the whole as it is now, with `written` bytes of it
    /// from where `span` began.
    pub fn replaced(&mut self, text: &str, span: Span, written: usize) {
        let (start, end) = (span.start as usize, span.end as usize);
        // Whether a lone `\r` before the words ends a line may hang on the first of them.
        let before = self.starts.partition_point(|at| *at < start).max(1);
        let after = self.starts.partition_point(|at| *at <= end).max(before);
        let new = after_ends(text, start.saturating_sub(1), start + written);
        let tail = self.starts.get(after..).unwrap_or_default().iter();
        let tail: Vec<usize> = tail.map(|at| at - end + start + written).collect();
        self.starts.truncate(before);
        self.starts.extend(new);
        self.starts.extend(tail);
    }

    /// Where a byte stands; past the end, where the text ends; within a sign, where that begins.
    pub fn position(&self, text: &str, byte: u32, encoding: Encoding) -> Position {
        let byte = (byte as usize).min(text.len());
        let line = self.starts.partition_point(|start| *start <= byte).saturating_sub(1);
        let start = self.starts.get(line).copied().unwrap_or_default();
        let before = text.get(start..).unwrap_or_default();
        let whole = before.char_indices().map(|(at, c)| (start + at + c.len_utf8(), c));
        let whole = whole.take_while(|(end, _)| *end <= byte);
        let column = match encoding {
            Encoding::Utf8 => whole.map(|(_, c)| c.len_utf8()).sum(),
            Encoding::Utf16 => whole.map(|(_, c)| c.len_utf16()).sum::<usize>(),
        };
        Position { line: number(line), character: number(column) }
    }

    /// The byte of a place. Past the end of a line it is that end, past the last line the end of the text, within a
    /// sign where that begins.
    pub fn byte(&self, text: &str, place: Position, encoding: Encoding) -> usize {
        let line = place.line as usize;
        let Some(start) = self.starts.get(line).copied() else { return text.len() };
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        let words = text.get(start..end).unwrap_or_default();
        let words = words.strip_suffix('\n').unwrap_or(words);
        let words = words.strip_suffix('\r').unwrap_or(words);
        let mut left = place.character as usize;
        let mut at = start;
        for c in words.chars() {
            let wide = match encoding {
                Encoding::Utf8 => c.len_utf8(),
                Encoding::Utf16 => c.len_utf16(),
            };
            if left < wide {
                break;
            }
            left -= wide;
            at += c.len_utf8();
        }
        at
    }

    pub fn range(&self, text: &str, span: Span, encoding: Encoding) -> Range {
        let place = |byte| self.position(text, byte, encoding);
        Range { start: place(span.start), end: place(span.end.max(span.start)) }
    }

    /// The span of a range; empty where its ends are the wrong way round.
    pub fn span(&self, text: &str, range: Range, encoding: Encoding) -> Span {
        Span::new(self.byte(text, range.start, encoding), self.byte(text, range.end, encoding))
    }
}

/// Where lines begin after the ends of lines that stand in a part of a text.
fn after_ends(text: &str, from: usize, to: usize) -> impl Iterator<Item = usize> {
    let bytes = text.as_bytes();
    let part = bytes.get(from..to).unwrap_or_default().iter().enumerate();
    part.map(move |(at, byte)| (from + at + 1, byte)).filter_map(move |(next, byte)| match byte {
        b'\n' => Some(next),
        b'\r' if bytes.get(next) != Some(&b'\n') => Some(next),
        _ => None,
    })
}

fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_comes_back_as_the_byte_that_it_was() {
        let text = "a⅞🦆b\r\nc\r\rdé\n\n🦆";
        let lines = Lines::of(text);
        for encoding in [Encoding::Utf8, Encoding::Utf16] {
            for byte in (0..=text.len()).filter(|byte| text.is_char_boundary(*byte)) {
                // Between the two signs of one end of a line there is no place.
                if text[..byte].ends_with('\r') && text[byte..].starts_with('\n') {
                    continue;
                }
                let place = lines.position(text, byte as u32, encoding);
                assert_eq!(lines.byte(text, place, encoding), byte, "{byte} as {place:?}");
            }
        }
    }

    #[test]
    fn lines_that_are_kept_are_those_of_the_text() {
        let words = ["", "\r", "\n", "\r\n", "a", "é\n", "\n\r", "x\r\ny\r", "🦆"];
        let texts = ["", "a\r\nb\rc\nd", "\r\r\n\n", "é\r🦆\n\r\n"];
        for text in texts {
            let places: Vec<usize> = (0..=text.len()).filter(|at| text.is_char_boundary(*at)).collect();
            for (nth, start) in places.iter().enumerate() {
                for end in &places[nth..] {
                    for new in words {
                        let (mut lines, mut now) = (Lines::of(text), text.to_owned());
                        now.replace_range(start..end, new);
                        lines.replaced(&now, Span::new(*start, *end), new.len());
                        assert_eq!(lines.starts, Lines::of(&now).starts, "{text:?} {start}..{end} {new:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn columns_count_what_was_agreed() {
        let text = "a⅞🦆b";
        let lines = Lines::of(text);
        let b = text.len() as u32 - 1;
        assert_eq!(lines.position(text, b, Encoding::Utf8).character, 8);
        assert_eq!(lines.position(text, b, Encoding::Utf16).character, 4);
        // Within a sign it is rounded down; past the end it is the end.
        let at = |line, character| Position { line, character };
        assert_eq!(lines.byte(text, at(0, 3), Encoding::Utf16), 4);
        assert_eq!(lines.byte(text, at(0, 99), Encoding::Utf16), text.len());
        assert_eq!(lines.byte(text, at(9, 0), Encoding::Utf8), text.len());
        let text = "x\r\ny";
        assert_eq!(Lines::of(text).byte(text, at(0, 9), Encoding::Utf8), 1);
    }
}
