//! One layout for both languages. It changes nothing but blanks: the same statements, figures, comments and order.
//!
//! Lines stay lines: where a person broke one, or put several statements on one, is theirs. What is laid out is how far
//! a line is indented, the blanks within it, and blank lines. Signs that a person lined up under one another stay so.

mod atoms;
mod layout;

use super::{Problem, Tree, parse_design, parse_rules};
use crate::base::{Diagnostic, Source, Span};
use atoms::Atoms;
use layout::Blanks;

/// What language a text is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Language {
    /// A design, or a shop's file.
    Design,
    /// A ruleset.
    Rules,
}

/// What makes a text tidy.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tidying {
    /// The blanks to change, in order, none within another. A part of them leaves the text whole too.
    pub edits: Vec<Blanks>,
    /// What could not be read: its blanks stay as they are.
    pub left: Vec<Span>,
}

/// What makes a text tidy; nothing for one that is tidy already.
pub fn tidy(source: &Source, language: Language) -> Tidying {
    let (tree, found) = read(source, language);
    let atoms = Atoms::of(&tree);
    let edits = layout::edits(&atoms, source);
    let left = left(&atoms, &found);
    let tidying = Tidying { edits, left };
    // A layout that would be read otherwise is none.
    if tidying.edits.is_empty() || is_same(&atoms, source, &found, &tidying.apply(source), language) {
        return tidying;
    }
    Tidying { edits: Vec::new(), left: vec![tree.span] }
}

impl Tidying {
    /// The text with these blanks.
    pub fn apply(&self, source: &Source) -> String {
        let (mut text, mut at) = (String::with_capacity(source.text.len()), 0);
        for Blanks { span, text: blanks } in &self.edits {
            text += source.slice(Span { start: at, end: span.start });
            text += blanks;
            at = span.end;
        }
        text + source.slice(Span { start: at, end: tree_end(source) })
    }

    /// The part of it that concerns a stretch of the text: the lines that it touches.
    pub fn within(self, source: &Source, stretch: Span) -> Tidying {
        let text = &source.text;
        let is_end = |c: char| c == '\n' || c == '\r';
        let start = text.get(..stretch.start as usize).and_then(|before| before.rfind(is_end)).map_or(0, |end| end + 1);
        let rest = text.get(stretch.end as usize..).unwrap_or("");
        let end = stretch.end as usize + rest.find(is_end).unwrap_or(rest.len());
        let lines = Span::new(start, end);
        let touches = |span: Span| (span.end > lines.start || span.start == lines.start) && span.start <= lines.end;
        let edits = self.edits.into_iter().filter(|edit| touches(edit.span)).collect();
        let left = self.left.into_iter().filter(|span| touches(*span)).collect();
        Tidying { edits, left }
    }
}

fn tree_end(source: &Source) -> u32 {
    Span::new(0, source.text.len()).end
}

fn read(source: &Source, language: Language) -> (Tree, Vec<Diagnostic<Problem>>) {
    match language {
        Language::Design => parse_design(source),
        Language::Rules => parse_rules(source),
    }
}

/// The statements that stay as they are, each once.
fn left(atoms: &Atoms, found: &[Diagnostic<Problem>]) -> Vec<Span> {
    let mut left = atoms.left.clone();
    left.extend(found.iter().filter_map(|diagnostic| diagnostic.span));
    left.sort();
    left.dedup();
    left
}

/// Whether another text says the same: what stands in it but the blanks, what that is, and what is wrong with it.
fn is_same(atoms: &Atoms, source: &Source, found: &[Diagnostic<Problem>], text: &str, language: Language) -> bool {
    let other = Source::new("", text);
    let (tree, found_there) = read(&other, language);
    let there = Atoms::of(&tree);
    let problems = |found: &[Diagnostic<Problem>]| found.iter().map(Diagnostic::name).collect::<Vec<_>>();
    atoms.list.len() == there.list.len()
        && atoms
            .list
            .iter()
            .zip(&there.list)
            .all(|(a, b)| a.kind == b.kind && a.starts == b.starts && source.slice(a.span) == other.slice(b.span))
        && problems(found) == problems(&found_there)
}
