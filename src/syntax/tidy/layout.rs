//! Where each atom of a text is to stand: how far its line is indented, and in which column.

use std::collections::BTreeMap;

use super::atoms::{Atom, AtomKind, Atoms};
use crate::base::{Source, Span};

/// Columns by which a block's statements are indented, and a statement's further lines at least.
const INDENT: usize = 4;
/// Columns from one stop of a tabulator to the next.
const TAB: usize = 8;
const BYTE_ORDER_MARK: char = '\u{feff}';
/// What the lexicon takes for a blank.
const BLANKS: [char; 5] = [' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}'];
const LINE_ENDS: [char; 2] = ['\n', '\r'];

/// Blanks in the place of blanks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blanks {
    /// The place in the text.
    pub span: Span,
    /// What to write there.
    pub text: String,
}

/// The blanks to change.
pub(super) fn edits(atoms: &Atoms, source: &Source) -> Vec<Blanks> {
    let mut layout = Layout::of(atoms, source);
    layout.indent(atoms.in_pairs);
    layout.columns();
    layout.edits(source)
}

/// One atom with the blanks before it, and its columns, from nought, as they are and as they are to be.
struct Placed {
    atom: Atom,
    gap: Span,
    old: usize,
    old_end: usize,
    new: usize,
    new_end: usize,
    /// Blanks between it and what stands before it on its line.
    natural: usize,
    /// Where it stands on its line.
    place: Place,
    class: Option<Class>,
    /// A line that states something; those beside one another have numbers that do, but for comments between them.
    row: usize,
    /// It is what could not be read of several lines, and ends where it did.
    several: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// It is the first, and the indentation is to be laid out.
    First,
    /// It is the first, and the indentation stays.
    Stays,
    /// It is a comment alone, below one at the end of a line and in its column.
    Below,
    /// Others stand before it.
    Within,
}

/// What atoms have in common that a person may line up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Class {
    Start,
    Colon,
    /// What stands first after a colon.
    Value,
    /// A further term of a statement, by its number.
    Term(usize),
    Separator,
    Comma,
    Open,
    Close,
}

struct Layout {
    atoms: Vec<Placed>,
    /// Where the last atom ends.
    end: u32,
}

impl Layout {
    fn of(atoms: &Atoms, source: &Source) -> Self {
        let mut at =
            if source.text.starts_with(BYTE_ORDER_MARK) { Span::new(0, BYTE_ORDER_MARK.len_utf8()).end } else { 0 };
        let mut placed: Vec<Placed> = Vec::with_capacity(atoms.list.len());
        let (mut column, mut number, mut row) = (0, 0, 0);
        let mut before: Option<&Atom> = None;
        for atom in &atoms.list {
            let gap = Span { start: at, end: atom.span.start };
            let blanks = source.slice(gap);
            let ends = line_ends(blanks).len();
            let first = ends > 0 || before.is_none();
            let old = after(if first { 0 } else { column }, last_line(blanks));
            let gap_width = old.saturating_sub(column);
            column = end_of(old, source.slice(atom.span));
            number = if atom.starts { 0 } else { number + 1 };
            row += match ends {
                0 => 0,
                1 => usize::from(atom.kind != AtomKind::Comment),
                _ => 2,
            };
            let apart = before
                .is_some_and(|before| before.open || must_stay(source.slice(before.span), source.slice(atom.span)));
            let atom = Atom { fixed: atom.fixed || !first && apart, ..*atom };
            let several = source.slice(atom.span).contains(LINE_ENDS);
            placed.push(Placed {
                atom,
                gap,
                old,
                old_end: column,
                new: old,
                new_end: column,
                natural: before.filter(|_| !first).map_or(0, |before| natural(before, &atom, gap_width)),
                place: if first { Place::First } else { Place::Within },
                class: before.filter(|_| !first && !atom.fixed).and_then(|before| class(before, &atom, number)),
                row,
                several,
            });
            row += if several { 2 } else { 0 };
            at = atom.span.end;
            before = atoms.list.get(placed.len() - 1);
        }
        Self { atoms: placed, end: at }
    }

    /// Indents the lines, where each brace has its partner.
    fn indent(&mut self, in_pairs: bool) {
        // How far the line is indented on which each block opens that is open.
        let mut open: Vec<usize> = Vec::new();
        // How far the line is indented, and the one on which the statement begins: as they are, and as they are to be.
        let (mut line, mut statement) = ((0, 0), (0, 0));
        // The column of a comment at the end of the line above.
        let mut comment = None;
        for placed in &mut self.atoms {
            let (kind, old) = (placed.atom.kind, placed.old);
            let is_comment = kind == AtomKind::Comment;
            if placed.place == Place::First {
                let further = (old + statement.1).saturating_sub(statement.0).max(statement.1 + INDENT);
                (placed.place, placed.new) = match kind {
                    _ if placed.atom.fixed => (Place::Stays, old),
                    AtomKind::Comment if comment == Some(old) => (Place::Below, old),
                    _ if !in_pairs => (Place::Stays, old),
                    AtomKind::Close => (Place::First, open.last().copied().unwrap_or(0)),
                    _ if placed.atom.starts => (Place::First, open.last().map_or(0, |own| own + INDENT)),
                    _ => (Place::First, further),
                };
                line = (old, placed.new);
            }
            comment = (is_comment && matches!(placed.place, Place::Below | Place::Within)).then_some(old);
            if placed.atom.starts && !is_comment && kind != AtomKind::Separator {
                statement = line;
            }
            match kind {
                AtomKind::Open => open.push(line.1),
                AtomKind::Close => drop(open.pop()),
                _ => {}
            }
        }
    }

    /// Puts each atom into its column, from left to right, and those that were lined up together.
    fn columns(&mut self) {
        let groups = self.groups();
        let mut order: Vec<(usize, usize)> =
            self.atoms.iter().enumerate().map(|(at, placed)| (placed.old, at)).collect();
        order.sort_unstable();
        for (_, at) in order {
            let column = match groups.get(&at) {
                Some(Group::Of(leader)) if *leader != at => continue,
                Some(Group::With(members, spare)) => {
                    let ends = members.iter().filter_map(|member| self.natural_column(*member));
                    ends.max().map(|end| end + spare)
                }
                _ => self.natural_column(at),
            };
            let members = match groups.get(&at) {
                Some(Group::With(members, _)) => members.as_slice(),
                _ => &[at],
            };
            for member in members {
                self.put(*member, column);
            }
        }
    }

    /// Where an atom stands by what stands before it; nothing for one that begins its line.
    fn natural_column(&self, at: usize) -> Option<usize> {
        let placed = self.atoms.get(at).filter(|placed| placed.place == Place::Within)?;
        let before = self.atoms.get(at.checked_sub(1)?)?;
        let gap = if placed.atom.fixed { placed.old.saturating_sub(before.old_end) } else { placed.natural };
        Some(before.new_end + gap)
    }

    fn put(&mut self, at: usize, column: Option<usize>) {
        let Some(placed) = self.atoms.get_mut(at) else { return };
        if !matches!(placed.place, Place::First | Place::Stays) {
            placed.new = column.unwrap_or(placed.old);
        }
        if !placed.several {
            placed.new_end = (placed.old_end + placed.new).saturating_sub(placed.old);
        }
    }

    /// The atoms that stay in one column, by each of them.
    fn groups(&self) -> BTreeMap<usize, Group> {
        let mut groups = BTreeMap::new();
        let mut add = |members: Vec<usize>, spare: usize| {
            let Some(leader) = members.first().copied() else { return };
            groups.extend(members.iter().skip(1).map(|member| (*member, Group::Of(leader))));
            groups.insert(leader, Group::With(members, spare));
        };
        // Comments at the ends of lines, by the statement of the file; the longest line keeps its blanks.
        let mut comments: BTreeMap<(Option<usize>, usize, usize), Vec<usize>> = BTreeMap::new();
        // By row and number.
        let mut lined_up: BTreeMap<Column, Vec<(usize, usize)>> = BTreeMap::new();
        let mut begins = (0, 0);
        for (at, placed) in self.atoms.iter().enumerate() {
            if placed.place != Place::Within {
                begins = (placed.old, placed.new);
            }
            let ends_line = matches!(placed.place, Place::Within | Place::Below);
            if placed.atom.kind == AtomKind::Comment && ends_line && !placed.atom.fixed {
                // One that stands close to what is before it is lined up with nothing.
                let close = placed.place == Place::Within && self.gap(at) == Some(0);
                comments.entry((close.then_some(at), placed.atom.item, placed.old)).or_default().push(at);
            } else if let Some(class) = placed.class {
                lined_up.entry((class, begins, placed.old)).or_default().push((placed.row, at));
            }
        }
        for members in comments.into_values() {
            let spare = members.iter().filter_map(|at| self.padding(*at)).min().unwrap_or(0);
            add(members, spare);
        }
        for members in lined_up.into_values() {
            for neighbours in members.chunk_by(|(row, _), (next, _)| next - row <= 1) {
                let members: Vec<usize> = neighbours.iter().map(|(_, at)| *at).collect();
                if members.len() > 1 && members.iter().any(|at| self.padding(*at).is_some_and(|padding| padding > 0)) {
                    add(members, 0);
                }
            }
        }
        groups
    }

    /// Columns between an atom and what stands before it on its line.
    fn gap(&self, at: usize) -> Option<usize> {
        let placed = self.atoms.get(at).filter(|placed| placed.place == Place::Within)?;
        let before = self.atoms.get(at.checked_sub(1)?)?;
        Some(placed.old.saturating_sub(before.old_end))
    }

    /// Those of them beyond the natural ones.
    fn padding(&self, at: usize) -> Option<usize> {
        Some(self.gap(at)?.saturating_sub(self.atoms.get(at)?.natural))
    }

    fn edits(&self, source: &Source) -> Vec<Blanks> {
        let mut edits = Vec::new();
        let mut change = |span: Span, text: String| {
            let blanks = source.slice(span);
            if blanks == text {
                return;
            }
            if blanks.chars().all(|sign| BLANKS.contains(&sign) || LINE_ENDS.contains(&sign)) {
                edits.push(narrowed(blanks, span, &text));
            }
        };
        let mut before: Option<&Placed> = None;
        for placed in &self.atoms {
            let blanks = source.slice(placed.gap);
            let indentation = match placed.place {
                Place::Within => " ".repeat(placed.new.saturating_sub(before.map_or(0, |before| before.new_end))),
                Place::Stays => last_line(blanks).to_owned(),
                Place::First | Place::Below => " ".repeat(placed.new),
            };
            // One blank line stays, and none at the start of the text.
            let lines: String = line_ends(blanks).into_iter().take(if before.is_some() { 2 } else { 0 }).collect();
            // What a line begins with is its own, and what is before that belongs to the line above.
            let start = placed.gap.end - Span::new(0, last_line(blanks).len()).end;
            if !placed.atom.fixed {
                change(Span { end: start, ..placed.gap }, lines);
                change(Span { start, ..placed.gap }, indentation);
            }
            before = Some(placed);
        }
        if before.is_some_and(|last| !last.atom.fixed) {
            let rest = Span { start: self.end, end: Span::new(0, source.text.len()).end };
            let ends = line_ends(source.slice(rest));
            let lines = source.text.split_inclusive(LINE_ENDS).next().unwrap_or("");
            let usual = || source.text.get(lines.len().saturating_sub(1)..lines.len() + 1).filter(|end| *end == "\r\n");
            change(rest, ends.first().copied().unwrap_or_else(|| usual().unwrap_or("\n")).to_owned());
        }
        edits
    }
}

/// A change without what both have in common.
fn narrowed(old: &str, span: Span, new: &str) -> Blanks {
    let alike = |(a, b): &(char, char)| a == b;
    let before: usize = old.chars().zip(new.chars()).take_while(alike).map(|(sign, _)| sign.len_utf8()).sum();
    let (old, new) = (old.get(before..).unwrap_or(""), new.get(before..).unwrap_or(""));
    let after: usize =
        old.chars().rev().zip(new.chars().rev()).take_while(alike).map(|(sign, _)| sign.len_utf8()).sum();
    let start = span.start as usize + before;
    Blanks {
        span: Span::new(start, start + old.len() - after),
        text: new.get(..new.len() - after).unwrap_or("").to_owned(),
    }
}

/// What signs that may be lined up have in common: the class, where their lines begin and are to begin, and where they
/// stand.
type Column = (Class, (usize, usize), usize);

/// A group of atoms, the first of them telling of all.
enum Group {
    /// Its members, and the blanks that the longest of their lines keeps beyond the natural ones.
    With(Vec<usize>, usize),
    /// The first of the group.
    Of(usize),
}

/// Whether the blanks between two atoms say how they are read: `7 3/8"` is one figure, and with two blanks it is two.
fn must_stay(before: &str, after: &str) -> bool {
    let begins_figure = |sign: char| sign.is_ascii_digit() || !sign.is_ascii();
    before.ends_with(|sign: char| sign.is_ascii_digit()) && after.starts_with(begins_figure)
}

fn natural(before: &Atom, atom: &Atom, now: usize) -> usize {
    use AtomKind::{Close, Colon, Comma, Comment, Open, Relation, Separator};
    match (before.kind, atom.kind) {
        // Where something is lacking between them.
        (Colon | Comma, Separator | Comma) => now.min(1),
        (_, Separator | Comma | Colon) => 0,
        (Open | Close | Separator | Comma | Colon | Relation, _) | (_, Open | Close | Comment | Relation) => 1,
        _ if atom.starts => 1,
        _ => now.min(1),
    }
}

fn class(before: &Atom, atom: &Atom, number: usize) -> Option<Class> {
    Some(match atom.kind {
        AtomKind::Comment => return None,
        AtomKind::Separator => Class::Separator,
        AtomKind::Comma => Class::Comma,
        AtomKind::Colon => Class::Colon,
        AtomKind::Open => Class::Open,
        AtomKind::Close => Class::Close,
        _ if before.kind == AtomKind::Colon => Class::Value,
        AtomKind::Clause | AtomKind::Relation => return None,
        AtomKind::Term if atom.starts => Class::Start,
        AtomKind::Term => Class::Term(number),
    })
}

/// The ends of lines in a text.
fn line_ends(text: &str) -> Vec<&str> {
    let mut ends = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(LINE_ENDS) {
        let end = rest.get(at..).unwrap_or("");
        let length = if end.starts_with("\r\n") { 2 } else { 1 };
        ends.extend(end.get(..length));
        rest = end.get(length..).unwrap_or("");
    }
    ends
}

fn last_line(text: &str) -> &str {
    text.rsplit(LINE_ENDS).next().unwrap_or(text)
}

/// The column after blanks that begin in one.
fn after(column: usize, blanks: &str) -> usize {
    blanks.chars().fold(column, |at, blank| if blank == '\t' { (at + TAB) - (at % TAB) } else { at + 1 })
}

/// The column after an atom that begins in one.
fn end_of(column: usize, atom: &str) -> usize {
    let last = last_line(atom);
    last.chars().count() + if last.len() == atom.len() { column } else { 0 }
}
