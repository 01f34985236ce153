//! A design read a statement at a time. What stands before the brace or the end of a statement means the same wherever
//! it stands, so lines that were read lately are remembered: the designs of one shop repeat themselves.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use super::super::events::Events;
use super::super::grammar::{self, Rule};
use super::super::problem::Problem;
use super::super::tree::{Item, Term, Tree, Trivia};
use super::super::trivia::Keep;
use super::{Lower, Stated};
use crate::base::{Diagnostic, Source, Span};

/// Most braces of a text that is read so: with as many, no block can be one level too deep.
const MOST_BRACES: usize = 64;

/// Most lines that are remembered, and the longest, in bytes.
const MOST_LINES: usize = 4_096;
const LONGEST_LINE: usize = 160;

thread_local! {
    /// Lines by their text. What a line comes to is made of its text alone, so nothing here is ever out of date.
    static LINES: RefCell<HashMap<Box<str>, Rc<Line>>> = RefCell::default();
}

/// The statement that a line begins with, up to its brace or its end. Places count from where it begins.
struct Line {
    opening: Opening,
    head: Vec<Term>,
    terms: Vec<Term>,
    trivia: Vec<Trivia>,
    /// Where its last token ends.
    end: usize,
}

/// What was read of a statement up to its brace or its end, beside its terms.
#[derive(Clone, Copy)]
struct Opening {
    head: Option<Span>,
    stated: Option<Stated>,
    length: usize,
    /// How much was found up to the end of its head.
    after_head: usize,
}

impl Opening {
    /// The same with its places moved. Nothing is found in a line that is remembered.
    fn map(self, place: impl Fn(Span) -> Span) -> Self {
        let stated = self.stated.map(|Stated { colon, value }| Stated { colon: place(colon), value: place(value) });
        Self { head: self.head.map(&place), stated, ..self }
    }
}

/// A block that is open.
struct Open {
    head: Vec<Term>,
    head_span: Span,
    misplaced: Vec<Term>,
    brace: Span,
    /// How many statements stand before those in it.
    from: usize,
}

/// Lowers the piece of a design at `span`; nothing where its braces may nest too deep to be read so.
pub fn by_statements(source: &Source, span: Span, found: &mut Vec<Diagnostic<Problem>>) -> Option<Tree> {
    let text = source.slice(span);
    if text.bytes().filter(|byte| *byte == b'{').count() > MOST_BRACES {
        return None;
    }
    let mut lower = Lower::new(Events::none(), source, span, Keep::All, found);
    lower.statements(text, span.start as usize)?;
    let trivia = lower.trivia.finish(span.end);
    Some(Tree { source: source.clone(), span, items: lower.items, trivia, kept: false })
}

impl<'a> Lower<'a> {
    /// Reads every statement of a text that begins at `begin` of the source.
    fn statements(&mut self, text: &'a str, begin: usize) -> Option<()> {
        let mut open: Vec<Open> = Vec::new();
        let mut at = if text.starts_with('\u{FEFF}') { '\u{FEFF}'.len_utf8() } else { 0 };
        loop {
            at += filler(text.get(at..)?);
            let sign = Span::new(begin + at, begin + at + 1);
            match text.as_bytes().get(at) {
                None => break,
                Some(b'}') => {
                    at += 1;
                    self.trivia.token(sign);
                    match open.pop() {
                        Some(block) => self.close(block, Some(sign)),
                        None => {
                            self.report(sign, Problem::StrayBrace);
                            self.items.push(Item::Damaged { terms: Vec::new(), span: sign });
                        }
                    }
                }
                Some(first) => {
                    let before = self.found.len();
                    self.head.clear();
                    self.terms.clear();
                    let mut opening = Opening { head: None, stated: None, length: 0, after_head: before };
                    if *first != b'{' {
                        opening = self.opening(text.get(at..)?, begin + at)?;
                    }
                    at += opening.length;
                    let Opening { head, stated, after_head, .. } = opening;
                    if text.as_bytes().get(at) == Some(&b'{') {
                        // What stands between the colon and the brace is reported by its colon alone.
                        self.found.truncate(after_head);
                        let head_terms = self.head.drain(..).collect();
                        let misplaced = self.misplaced(stated);
                        let brace = Span::new(begin + at, begin + at + 1);
                        self.trivia.token(brace);
                        let from = self.items.len();
                        let head_span = head.unwrap_or(sign);
                        open.push(Open { head: head_terms, head_span, misplaced, brace, from });
                        at += 1;
                    } else {
                        let item = self.leaf(head, stated, before);
                        self.items.extend(item);
                    }
                }
            }
        }
        while let Some(block) = open.pop() {
            self.unclosed(block.brace, block.from);
            self.close(block, None);
        }
        Some(())
    }

    fn close(&mut self, block: Open, close: Option<Span>) {
        let Open { head, head_span, misplaced, brace: open, from } = block;
        let body = self.take_items(from);
        self.items.push(Item::Block { head, head_span, misplaced, open, body, close });
    }

    /// Reads a statement that begins at `begin` of the source with `rest`, up to its brace or its end: its terms into
    /// `head` and `terms`.
    fn opening(&mut self, rest: &'a str, begin: usize) -> Option<Opening> {
        let line = rest.find('\n').and_then(|end| rest.get(..=end)).filter(|line| line.len() <= LONGEST_LINE);
        let known = line.and_then(|line| LINES.with_borrow(|lines| lines.get(line).cloned()));
        let by = u32::try_from(begin).ok()?;
        let pieces = self.trivia.up_to(begin);
        if let Some(known) = known {
            let Line { opening, head, terms, trivia, end } = &*known;
            self.head.extend(head.iter().map(|term| later(term, by)));
            self.terms.extend(terms.iter().map(|term| later(term, by)));
            let trivia = trivia.iter().map(|piece| Trivia { span: piece.span.later(by), ..*piece });
            self.trivia.again(trivia, begin + end);
            return Some(Opening { after_head: self.found.len(), ..opening.map(|span| span.later(by)) });
        }
        let before = self.found.len();
        let opening = self.read_opening(rest, begin)?;
        if let Some(line) = line
            && self.found.len() == before
            && stands_alone(line, opening.length)
        {
            let trivia = self.trivia.after(pieces).iter();
            let line_read = Line {
                opening: opening.map(|span| span.earlier(by)),
                head: self.head.iter().map(|term| earlier(term, by)).collect(),
                terms: self.terms.iter().map(|term| earlier(term, by)).collect(),
                trivia: trivia.map(|piece| Trivia { span: piece.span.earlier(by), ..*piece }).collect(),
                end: self.trivia.end() - begin,
            };
            LINES.with_borrow_mut(|lines| {
                if lines.len() >= MOST_LINES {
                    lines.clear();
                }
                lines.insert(line.into(), Rc::new(line_read));
            });
        }
        Some(opening)
    }

    /// The same by the grammar.
    fn read_opening(&mut self, rest: &'a str, begin: usize) -> Option<Opening> {
        let pairs = grammar::read(rest, Rule::lone).ok()?;
        self.events = Events::of(rest, pairs.tokens());
        self.offset = begin;
        self.events.begin()?;
        let mut opening = Opening { head: None, stated: None, length: 0, after_head: self.found.len() };
        while let Some((rule, at)) = self.events.begin() {
            match rule {
                Rule::head => {
                    opening.head = Some(self.terms(at));
                    std::mem::swap(&mut self.head, &mut self.terms);
                    self.terms.clear();
                    opening.after_head = self.found.len();
                }
                Rule::colon => {
                    let colon = self.token(at);
                    opening.stated = Some(Stated { colon, value: Span { start: colon.end, end: colon.end } });
                }
                Rule::value => {
                    let value = self.terms(at);
                    opening.stated = opening.stated.map(|stated| Stated { value, ..stated });
                }
                _ => {
                    self.events.end();
                }
            }
        }
        opening.length = self.events.since(0).len();
        (opening.length > 0).then_some(opening)
    }
}

/// Whether a statement that so many bytes of a line were read for is the same wherever that line stands: only after a
/// comma does a reading look past the end of its line. One in a comment is none.
fn stands_alone(line: &str, length: usize) -> bool {
    let (Some(read), Some(rest)) = (line.get(..length), line.get(length..)) else { return false };
    let is_comment = || matches!(rest.trim_start().as_bytes(), [b'#', next, ..] if !next.is_ascii_digit());
    !rest.is_empty() && !read.trim_end().ends_with(',') && (!rest.contains(',') || is_comment())
}

/// How many bytes of blanks, ends of lines, separators and comments a text begins with: `filler` of the grammar.
fn filler(text: &str) -> usize {
    let mut rest = text;
    loop {
        let length = match rest.as_bytes() {
            [b' ' | b'\t' | b'\n' | b'\r' | b';', ..] => 1,
            [b'#', digit, ..] if digit.is_ascii_digit() => break,
            [b'#', ..] => rest.find(['\n', '\r']).unwrap_or(rest.len()),
            [0x80..=0xFF, ..] if rest.starts_with(['\u{A0}', '\u{2009}', '\u{202F}']) => {
                rest.chars().next().map_or(0, char::len_utf8)
            }
            _ => break,
        };
        rest = rest.get(length..).unwrap_or("");
    }
    text.len() - rest.len()
}

fn later(term: &Term, by: u32) -> Term {
    Term { kind: term.kind.clone(), span: term.span.later(by) }
}

fn earlier(term: &Term, by: u32) -> Term {
    Term { kind: term.kind.clone(), span: term.span.earlier(by) }
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::{Path, PathBuf};

    use super::*;

    /// The designs among the examples and the cases, and those that fuzzing found.
    fn texts(folder: &Path, texts: &mut Vec<String>) {
        let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        for path in paths {
            if path.is_dir() {
                self::texts(&path, texts);
            } else if let Ok(text) = fs::read_to_string(&path)
                && (path.extension().is_some_and(|extension| extension == "stair") || folder.ends_with("corpus/design"))
            {
                texts.push(text);
            }
        }
    }

    fn both(text: &str) {
        let source = Source::new("t", text);
        let span = Span::new(0, text.len());
        let (mut found, mut found_whole) = (Vec::new(), Vec::new());
        let Some(tree) = by_statements(&source, span, &mut found) else { return };
        let pairs = grammar::read(text, Rule::design).expect("a design reads to its end");
        let whole = super::super::tree(Events::of(text, pairs.tokens()), &source, span, Keep::All, &mut found_whole)
            .expect("not too deep");
        assert_eq!(tree, whole, "{text}");
        assert_eq!(found, found_whole, "{text}");
    }

    #[test]
    fn a_statement_at_a_time_comes_to_what_the_whole_text_comes_to() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut all = Vec::new();
        for folder in ["examples", "tests/cases", "tests/corpus"] {
            texts(&root.join(folder), &mut all);
        }
        assert!(all.len() > 200, "{}", all.len());
        for (number, text) in all.iter().enumerate() {
            both(text);
            // Damaged: cut off, a sign taken out, a sign put in, the ends of lines others.
            let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
            for (nth, sign) in ["}", "{", ",", "\"", ":", "\r", "#", ";", "\u{A0}", ",\n 7"].into_iter().enumerate() {
                let Some(at) = places.get((number * 31 + nth * 97) % places.len().max(1)).copied() else { continue };
                let (before, after) = text.split_at(at);
                both(before);
                both(&format!("{before}{sign}{after}"));
                both(&format!("{before}{}", after.get(after.chars().next().map_or(0, char::len_utf8)..).unwrap_or("")));
            }
            both(&text.replace('\n', "\r\n"));
            both(&text.replace('\n', "\r"));
        }
    }

    #[test]
    fn a_line_that_was_read_is_not_taken_for_one_that_runs_on() {
        for after in ["  7\"\n}", "  width: 36\"\n}", "\n\n  # said\n  8\" }"] {
            both(&format!("flight {{\n  risers: 7\",\n{after}"));
            both(&format!("flight {{\n  risers: 7\", # a\n{after}"));
            both(&format!("flight {{\n  risers: 7\" # a, b\n{after}"));
        }
    }
}
