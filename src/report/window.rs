//! The few lines of a text that a finding's labels need: controls made visible, long lines cut, places mapped.
//!
//! A report is drawn from a window, never from the whole text, so its cost does not grow with the file.

use std::collections::BTreeMap;

use super::Look;
use super::words::{char_columns, is_plain, stand_in};
use crate::base::{Source, Span, line_ends};
use crate::wording::Label;

/// A line of the window.
#[derive(Debug)]
pub(super) struct WindowLine {
    /// One-based number in the whole text.
    pub number: usize,
    /// Where it starts in the window's text.
    pub start: usize,
    /// One past its line break in the window's text.
    pub end: usize,
}

/// A label moved into the window.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Mark {
    /// First byte in the window's text.
    pub start: usize,
    /// One past the last byte; equal to `start` for a place between two characters.
    pub end: usize,
    /// What it says.
    pub text: String,
    /// Whether it is the finding's main label.
    pub main: bool,
    /// One-based line in the whole text.
    pub line: usize,
    /// One-based column in the whole text, in characters.
    pub column: usize,
}

/// The lines round a finding's labels.
#[derive(Debug)]
pub(super) struct Window {
    /// Name of the text.
    pub name: String,
    /// The lines, each with a line break at its end.
    pub text: String,
    /// Where each line stands, in order; numbers may leap.
    pub lines: Vec<WindowLine>,
    /// The labels, in order of place; none of those on one line overlap.
    pub marks: Vec<Mark>,
    /// Labels that were left out because there were too many.
    pub left_out: usize,
}

/// Where in the window's text a place of the whole text went, and how many bytes after it stand there as they are.
#[derive(Debug, Clone, Copy)]
struct Copied {
    from: usize,
    to: usize,
    length: usize,
}

/// A label over more lines than this is shown at its first line only.
const TALLEST_LABEL: usize = 8;
/// More labels than this would bury the finding.
const MOST_LABELS: usize = 24;
/// Columns kept of a line whose labels lie too far apart for the width.
const WIDEST_LINE: usize = 400;

impl Window {
    /// The window for these labels, or nothing if there is nothing to show.
    pub fn new(source: &Source, labels: &[Label], look: &Look) -> Option<Self> {
        let text: &str = &source.text;
        if labels.is_empty() || text.trim().is_empty() {
            return None;
        }
        let spans: Vec<(usize, usize)> =
            labels.iter().take(MOST_LABELS).map(|label| settle(text, label.span)).collect();
        let mut window = Window {
            name: super::words::visible(&source.name, look.unicode).into_owned(),
            text: String::new(),
            lines: Vec::new(),
            marks: Vec::new(),
            left_out: labels.len().saturating_sub(MOST_LABELS),
        };
        let mut places = Vec::new();
        let (mut number, mut counted) = (1, 0);
        for (start, end) in kept_lines(text, &spans) {
            number += text.get(counted..start).map_or(0, breaks);
            counted = start;
            let line = window.text.len();
            window.push_line(text, (start, end), &spans, look, &mut places);
            window.lines.push(WindowLine { number, start: line, end: window.text.len() });
        }
        for (index, (label, span)) in labels.iter().zip(&spans).enumerate() {
            window.mark(text, label, *span, index == 0, &places, look);
        }
        window.marks = apart(std::mem::take(&mut window.marks), &window.lines);
        Some(window)
    }

    /// Copies one line, cut to its labels' neighbourhood if it is long, and records where each character went.
    fn push_line(
        &mut self,
        text: &str,
        line: (usize, usize),
        spans: &[(usize, usize)],
        look: &Look,
        places: &mut Vec<Copied>,
    ) {
        let words = text.get(line.0..line.1).unwrap_or("");
        let here = spans.iter().filter(|(start, end)| *start <= line.1 && *end >= line.0);
        let reach = here.fold(None, |reach: Option<(usize, usize)>, (start, end)| {
            let (start, end) =
                (start.saturating_sub(line.0).min(words.len()), end.saturating_sub(line.0).min(words.len()));
            Some(reach.map_or((start, end), |(first, last)| (first.min(start), last.max(end))))
        });
        let (from, to) = cut(words, reach.unwrap_or((0, 0)), look.width.saturating_sub(12).max(40));
        let mark = if look.unicode { "…" } else { "..." };
        places.push(Copied { from: line.0, to: self.text.len(), length: 0 });
        if from > 0 {
            self.text.push_str(mark);
        }
        let kept = words.get(from..to).unwrap_or("");
        if is_plain(kept) {
            places.push(Copied { from: line.0 + from, to: self.text.len(), length: kept.len() });
            self.text.push_str(kept);
        } else {
            self.push_visible(kept, line.0 + from, look, places);
        }
        places.push(Copied { from: line.0 + to, to: self.text.len(), length: 0 });
        if to < words.len() {
            self.text.push_str(mark);
        }
        places.push(Copied { from: line.1, to: self.text.len(), length: 0 });
        self.text.push('\n');
    }

    /// Copies words that begin at a place of the text, what is no letter made visible.
    fn push_visible(&mut self, words: &str, from: usize, look: &Look, places: &mut Vec<Copied>) {
        for (offset, c) in words.char_indices() {
            let offset = from + offset;
            places.push(Copied { from: offset, to: self.text.len(), length: 0 });
            match stand_in(c, look.unicode) {
                // A byte-order mark at the head of a file is no part of the design.
                Some(_) if c == '\u{feff}' && offset == 0 => {}
                Some(_) if c == '\t' => self.text.push(c),
                Some(shown) => self.text.push_str(&shown),
                None => self.text.push(c),
            }
        }
    }

    fn mark(&mut self, text: &str, label: &Label, span: (usize, usize), main: bool, places: &[Copied], look: &Look) {
        // Of a place that was noted twice the later note counts.
        let upto = |offset: usize| places.get(..places.partition_point(|copied| copied.from <= offset));
        let place = |offset: usize| {
            upto(offset).and_then(<[_]>::last).map_or(0, |copied| copied.to + (offset - copied.from).min(copied.length))
        };
        let (start, end) = (place(span.0), place(span.1));
        let line = self.lines.iter().rev().find(|line| line.start <= start).map_or(1, |line| line.number);
        let before = text.get(..span.0).unwrap_or("");
        let head = before.rfind('\n').map_or(0, |at| at + 1);
        // Counting what is not the tail of a character is many times faster than decoding, and lines may be a megabyte long.
        let characters = before.bytes().skip(head).filter(|byte| byte & 0xc0 != 0x80).count();
        let column = 1 + characters - usize::from(head == 0 && before.starts_with('\u{feff}'));
        let text = super::words::sentence(&label.text, look.unicode);
        self.marks.push(Mark { start, end: end.max(start), text, main, line, column });
    }
}

fn breaks(text: &str) -> usize {
    line_ends(text.as_bytes())
}

/// A span that lies inside the text, on character boundaries, and does not start or end in blanks past a line's end.
fn settle(text: &str, span: Span) -> (usize, usize) {
    let boundary = |mut offset: usize| {
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        offset
    };
    let written = text.trim_end().len();
    let start = boundary((span.start as usize).min(written));
    let end = boundary((span.end as usize).min(written).max(start));
    let words = text.get(start..end).unwrap_or("");
    let words = if words.contains('\n') { words.trim_end() } else { words.trim_end_matches('\r') };
    if breaks(words) >= TALLEST_LABEL {
        let first = words.split('\n').next().unwrap_or("").trim_end();
        return (start, start + first.len());
    }
    (start, start + words.len())
}

/// Start and end of each line that a span touches, and of one line before and after.
fn kept_lines(text: &str, spans: &[(usize, usize)]) -> BTreeMap<usize, usize> {
    let head = |offset: usize| text.get(..offset).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
    let tail =
        |offset: usize| text.get(offset..).and_then(|after| after.find('\n')).map_or(text.len(), |at| offset + at);
    let mut lines = BTreeMap::new();
    for (start, end) in spans {
        let last = tail(*end);
        let mut from = head(*start);
        if from > 0 {
            from = head(from - 1);
        }
        // The empty line after the last line break is no line of the design.
        let to = if last + 1 < text.len() { tail(last + 1) } else { last };
        while from <= to {
            let line_end = tail(from);
            let shown = text.get(from..line_end).unwrap_or("").trim_end_matches('\r').len();
            lines.insert(from, from + shown);
            from = line_end + 1;
        }
    }
    lines
}

/// The part of a long line to keep: `width` columns round its labels.
fn cut(words: &str, reach: (usize, usize), width: usize) -> (usize, usize) {
    let mut used = 0;
    if is_plain(words) && words.len() <= width {
        return (0, words.len());
    }
    if words.chars().all(|c| {
        used += char_columns(c);
        used <= width
    }) {
        return (0, words.len());
    }
    let labelled = words.get(reach.0..reach.1).unwrap_or("").chars().map(char_columns).sum::<usize>();
    let room = if labelled + 20 > width { WIDEST_LINE } else { width };
    #[allow(clippy::integer_division)] // By a constant.
    let lead = room.saturating_sub(labelled) / 2;
    let mut from = reach.0;
    let mut used = 0;
    for c in words.get(..reach.0).unwrap_or("").chars().rev() {
        used += char_columns(c);
        if used > lead {
            break;
        }
        from -= c.len_utf8();
    }
    let (mut to, mut used) = (from, 0);
    for c in words.get(from..).unwrap_or("").chars() {
        used += char_columns(c);
        if used > room {
            break;
        }
        to += c.len_utf8();
    }
    (from, to)
}

/// Labels in order of place. Those at one place become one; of two that overlap on a line the first gives way,
/// since underlines are drawn side by side.
fn apart(mut marks: Vec<Mark>, lines: &[WindowLine]) -> Vec<Mark> {
    marks.sort_by_key(|mark| (mark.start, mark.end));
    let one_line = |mark: &Mark| lines.iter().any(|line| line.start <= mark.start && mark.end < line.end);
    let mut out: Vec<Mark> = Vec::new();
    for mut mark in marks {
        if let Some(last) = out.last_mut() {
            if (last.start, last.end) == (mark.start, mark.end) {
                merge(last, mark);
                continue;
            }
            if last.end > mark.start && one_line(last) && one_line(&mark) {
                if last.start == mark.start {
                    mark.start = last.end;
                } else {
                    last.end = mark.start;
                }
            }
        }
        out.push(mark);
    }
    out
}

fn merge(into: &mut Mark, other: Mark) {
    if other.main {
        into.text = [other.text.as_str(), into.text.as_str()].join("; ");
        into.main = true;
    } else if !into.text.split("; ").any(|said| said == other.text) {
        into.text = [into.text.as_str(), other.text.as_str()].join("; ");
    }
    into.text = into.text.trim_matches([';', ' ']).to_owned();
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOOK: Look = Look { colour: false, unicode: true, width: 100, list_not_checked: false };

    fn label(start: usize, end: usize) -> Label {
        Label { span: Span::new(start, end), text: "here".into() }
    }

    fn marked(window: &Window, index: usize) -> &str {
        let mark = &window.marks[index];
        window.text.get(mark.start..mark.end).unwrap()
    }

    #[test]
    fn only_the_lines_round_the_labels_are_kept_with_their_numbers() {
        let text: String = (1..=5000).map(|n| format!("line {n}\n")).collect();
        let source = Source::new("long.stair", &text);
        let at = |words: &str| text.find(words).unwrap();
        let (a, b) = (at("line 3000"), at("line 42\n"));
        let window = Window::new(&source, &[label(a, a + 9), label(b, b + 7)], &LOOK).unwrap();
        let numbers: Vec<usize> = window.lines.iter().map(|line| line.number).collect();
        assert_eq!(numbers, [41, 42, 43, 2999, 3000, 3001]);
        assert_eq!(marked(&window, 1), "line 3000");
        assert!(window.marks[1].main && !window.marks[0].main);
        assert_eq!((window.marks[1].line, window.marks[1].column), (3000, 1));
    }

    #[test]
    fn places_move_with_what_is_made_visible() {
        let text = "a\x1b[31m\u{202e}b\r\nrisers:\t8\"\x00\r\nend\r\n";
        let source = Source::new("x.stair", text);
        let eight = text.find("8\"").unwrap();
        let window = Window::new(&source, &[label(eight, eight + 2), label(7, 9)], &LOOK).unwrap();
        assert_eq!(window.text, "a␛[31m\\u{202e}b\nrisers:\t8\"␀\nend\n");
        assert_eq!(marked(&window, 1), "8\"");
        assert_eq!(window.marks[1].column, 9);
    }

    #[test]
    fn a_label_at_or_past_the_end_clings_to_the_last_words() {
        for text in ["flight {", "flight {\n", "flight {\r\n\r\n  \n"] {
            for start in [text.len(), text.len() + 1, 4_000_000_000] {
                let window = Window::new(&Source::new("x", text), &[label(start, start + 5)], &LOOK).unwrap();
                let mark = &window.marks[0];
                assert_eq!((mark.start, mark.end, mark.line), (8, 8, 1), "{text:?} {start}");
            }
        }
        assert!(Window::new(&Source::new("x", " \n"), &[label(0, 1)], &LOOK).is_none());
    }

    #[test]
    fn a_long_line_is_cut_round_its_label() {
        let text = format!("first\n{}risers: 8\"{}\nlast", "板".repeat(100_000), " x".repeat(200_000));
        let at = text.find("8\"").unwrap();
        let window = Window::new(&Source::new("x", &text), &[label(at, at + 2)], &LOOK).unwrap();
        assert!(window.text.len() < 600, "{}", window.text.len());
        assert_eq!(marked(&window, 0), "8\"");
        assert_eq!((window.marks[0].line, window.marks[0].column), (2, 100_009));
    }

    #[test]
    fn a_tall_label_shows_its_first_line() {
        let text = format!("stair {{\n{}}}\n", "  width: 36\"\n".repeat(40));
        let window = Window::new(&Source::new("x", &text), &[label(0, text.len())], &LOOK).unwrap();
        assert_eq!(marked(&window, 0), "stair {");
        assert_eq!(window.lines.len(), 2);
    }

    #[test]
    fn labels_at_one_place_are_joined_and_overlaps_give_way() {
        let text = "risers: 4 of 8\", 7\"";
        let mut twice = label(8, 15);
        twice.text = "too tall".into();
        let window = Window::new(&Source::new("x", text), &[label(8, 15), twice, label(13, 19)], &LOOK).unwrap();
        assert_eq!(window.marks.len(), 2);
        assert_eq!(window.marks[0].text, "here; too tall");
        assert_eq!((marked(&window, 0), marked(&window, 1)), ("4 of ", "8\", 7\""));
    }

    #[test]
    fn any_span_of_any_text_lands_on_characters() {
        let text = "é板\t🪵\x1b\r\n\n\u{feff}a\u{301}\rb\n";
        for start in 0..text.len() + 3 {
            for end in 0..text.len() + 3 {
                let window =
                    Window::new(&Source::new("x", text), &[label(start, end), label(end, start)], &LOOK).unwrap();
                for mark in &window.marks {
                    assert!(window.text.get(mark.start..mark.end).is_some());
                    assert!(mark.end < window.text.len());
                }
            }
        }
    }
}
