//! Trivia: what the grammar passes over, piece by piece.

use super::tree::{Trivia, TriviaKind};
use crate::base::{Source, Span};

/// What of a text is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// All of it.
    All,
    /// What it states; not what stands between.
    Statements,
}

/// The trivia of a text that was lowered up to some place.
pub struct TriviaList<'t> {
    source: &'t Source,
    found: Vec<Trivia>,
    /// End of the last token; what follows is trivia up to the next one.
    at: usize,
    keep: Keep,
}

impl<'t> TriviaList<'t> {
    /// A list for the piece of a source at `span`.
    pub fn new(source: &'t Source, span: Span, keep: Keep) -> Self {
        #[allow(clippy::integer_division)] // By a constant.
        let usual = if keep == Keep::All { (span.end - span.start) as usize / 6 } else { 0 };
        Self { source, found: Vec::with_capacity(usual), at: span.start as usize, keep }
    }

    /// Takes what stands before a token, and passes over the token.
    pub fn token(&mut self, span: Span) {
        let (start, end) = (span.start as usize, span.end as usize);
        if start > self.at && self.keep == Keep::All {
            self.gap(start);
        }
        self.at = self.at.max(end);
    }

    /// Takes what stands before a place; gives how many pieces there are up to it.
    pub fn up_to(&mut self, place: usize) -> usize {
        self.token(Span::new(place, place));
        self.found.len()
    }

    /// The pieces after the first so many.
    pub fn after(&self, first: usize) -> &[Trivia] {
        self.found.get(first..).unwrap_or_default()
    }

    /// Takes pieces that were taken once before, up to the end of the token behind them.
    pub fn again(&mut self, pieces: impl Iterator<Item = Trivia>, end: usize) {
        self.found.extend(pieces);
        self.at = self.at.max(end);
    }

    /// Where the last token ends.
    pub fn end(&self) -> usize {
        self.at
    }

    /// Takes the comments within a token that is read later, such as a clause.
    pub fn within(&mut self, span: Span) {
        if self.keep == Keep::Statements {
            return;
        }
        self.token(Span { end: span.start, ..span });
        let mut from = span.start as usize;
        let end = span.end as usize;
        while let Some(at) = self.source.text.get(from..end).and_then(|rest| rest.find('#')) {
            let rest = self.source.text.get(from + at..end).unwrap_or("");
            // Straight before a digit it is a number sign.
            let number = rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit);
            let length = if number { 1 } else { comment(rest) };
            if !number {
                self.push(TriviaKind::Comment, from + at, length);
            }
            from += at + length;
        }
        self.at = self.at.max(end);
    }

    /// What was taken, with what stands before `end` of the text.
    pub fn finish(mut self, end: u32) -> Vec<Trivia> {
        self.token(Span { start: end, end });
        self.found
    }

    fn push(&mut self, kind: TriviaKind, start: usize, length: usize) {
        self.found.push(Trivia { kind, span: Span::new(start, start + length) });
    }

    fn gap(&mut self, end: usize) {
        let source = self.source;
        let mut rest = source.text.get(self.at..end).unwrap_or("");
        let mut at = self.at;
        while let Some(first) = rest.as_bytes().first() {
            let (kind, length) = match first {
                b'\n' => (TriviaKind::LineEnd, 1),
                b'\r' => (TriviaKind::LineEnd, if rest.starts_with("\r\n") { 2 } else { 1 }),
                b';' => (TriviaKind::Separator, 1),
                b'#' => (TriviaKind::Comment, comment(rest)),
                _ if rest.starts_with('\u{FEFF}') => (TriviaKind::ByteOrderMark, '\u{FEFF}'.len_utf8()),
                _ => (TriviaKind::Blank, blanks(rest)),
            };
            self.push(kind, at, length);
            at += length;
            rest = rest.get(length..).unwrap_or("");
        }
    }
}

fn comment(text: &str) -> usize {
    text.bytes().position(|byte| matches!(byte, b'\n' | b'\r')).unwrap_or(text.len())
}

fn blanks(text: &str) -> usize {
    text.bytes().position(|byte| matches!(byte, b'\n' | b'\r' | b';' | b'#')).unwrap_or(text.len())
}
