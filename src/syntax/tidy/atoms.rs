//! A text as the signs and words that no blanks may part, in order, each with what it is to the layout.

use std::iter::Peekable;
use std::slice;

use crate::base::{Source, Span};
use crate::syntax::tree::{Fragment, Item, Term, TermKind, Tree, Trivia, TriviaKind};
use crate::syntax::{parse_clause, parse_condition, parse_fragment};

/// What stands between two blanks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Atom {
    pub(super) span: Span,
    pub(super) kind: AtomKind,
    /// It begins a statement. A comment that does not stands within one.
    pub(super) starts: bool,
    /// The blanks before it stay as they are.
    pub(super) fixed: bool,
    /// A text whose quote is left open: blanks after it on its line would be part of it.
    pub(super) open: bool,
    /// Which statement of the file it stands in, a block with all that is in it being one.
    pub(super) item: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum AtomKind {
    /// A word of a name, a head or a value; a figure or a text.
    Term,
    Comma,
    /// After the name of a property, or a word that says what follows.
    Colon,
    Open,
    Close,
    Separator,
    Comment,
    /// A word of a clause.
    Clause,
    /// `<=` and the like, in a clause.
    Relation,
}

/// The atoms of a text.
#[derive(Debug, Default)]
pub(super) struct Atoms {
    pub(super) list: Vec<Atom>,
    /// Whether each brace has its partner. Where one has not, only the indentation says what a block holds.
    pub(super) in_pairs: bool,
    /// Statements that could not be read.
    pub(super) left: Vec<Span>,
}

impl Atoms {
    pub(super) fn of(tree: &Tree) -> Self {
        if let [Item::Damaged { terms, span }] = tree.items.as_slice()
            && terms.is_empty()
            && *span == tree.span
        {
            // Nothing of it was read.
            return Self::default();
        }
        let atoms = Self { in_pairs: tree.items.iter().all(in_pairs), ..Self::default() };
        let mut walk = Walk::new(tree, atoms);
        for (at, item) in tree.items.iter().enumerate() {
            walk.item_at = at;
            walk.whole = !in_pairs(item);
            walk.item(item);
        }
        // What follows a block that is left open stands in it.
        walk.whole &= !matches!(tree.items.last(), Some(Item::Damaged { .. }));
        walk.finish()
    }
}

/// Whether no brace in a statement lacks its partner.
fn in_pairs(item: &Item) -> bool {
    match item {
        Item::Block { body, close, .. } => close.is_some() && body.iter().all(in_pairs),
        Item::Damaged { terms, .. } => !terms.is_empty(),
        _ => true,
    }
}

/// The walk over a tree, with the trivia not yet passed.
struct Walk<'t> {
    source: &'t Source,
    trivia: Peekable<slice::Iter<'t, Trivia>>,
    atoms: Atoms,
    item_at: usize,
    /// All of the statement at hand stays as it is.
    whole: bool,
}

impl<'t> Walk<'t> {
    fn new(tree: &'t Tree, atoms: Atoms) -> Self {
        Self { source: &tree.source, trivia: tree.trivia.iter().peekable(), atoms, item_at: 0, whole: false }
    }

    fn finish(mut self) -> Atoms {
        self.pass(u32::MAX, true);
        self.atoms
    }

    /// Takes the comments and separators before a place.
    fn pass(&mut self, end: u32, between: bool) {
        while let Some(trivia) = self.trivia.next_if(|trivia| trivia.span.start < end) {
            match trivia.kind {
                TriviaKind::Comment => self.add(AtomKind::Comment, trivia.span, between, false),
                TriviaKind::Separator => self.add(AtomKind::Separator, trivia.span, true, false),
                TriviaKind::ByteOrderMark | TriviaKind::Blank | TriviaKind::LineEnd => {}
            }
        }
    }

    fn add(&mut self, kind: AtomKind, span: Span, starts: bool, fixed: bool) {
        let fixed = fixed || self.whole;
        self.atoms.list.push(Atom { span, kind, starts, fixed, open: false, item: self.item_at });
    }

    fn push(&mut self, kind: AtomKind, span: Span, starts: bool, fixed: bool) {
        self.pass(span.start, starts || kind == AtomKind::Close);
        if span.start < span.end {
            self.add(kind, span, starts, fixed);
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Property { name_span, colon, value, damaged, .. } => {
                self.words(*name_span, *damaged);
                self.push(AtomKind::Colon, *colon, false, *damaged);
                self.terms(value, false, *damaged);
            }
            Item::Block { head, misplaced, open, body, close, .. } => {
                self.terms(head, true, false);
                self.terms(misplaced, head.is_empty(), true);
                self.push(AtomKind::Open, *open, head.is_empty() && misplaced.is_empty(), false);
                body.iter().for_each(|item| self.item(item));
                if let Some(close) = close {
                    self.push(AtomKind::Close, *close, false, false);
                }
            }
            Item::Malformed { terms, span } | Item::Damaged { terms, span } => {
                self.atoms.left.push(*span);
                if terms.is_empty() {
                    self.push(AtomKind::Term, *span, true, true);
                }
                self.terms(terms, true, true);
            }
            Item::Clause(span) => {
                let damaged = parse_clause(self.source, *span).is_err();
                self.clause(*span, true, damaged);
            }
            Item::Condition { word, colon, span } => {
                self.push(AtomKind::Term, *word, true, false);
                self.push(AtomKind::Colon, *colon, false, false);
                let damaged = parse_condition(self.source, *span).is_err();
                self.clause(*span, false, damaged);
            }
            Item::Fragment(fragment) => self.fragment(*fragment),
        }
    }

    /// Terms of a statement, the first of which may begin it; where they are damaged the blanks between them stay.
    fn terms(&mut self, terms: &[Term], starts: bool, damaged: bool) {
        let mut colon_before = false;
        for (at, term) in terms.iter().enumerate() {
            let kind = if term.kind == TermKind::Comma { AtomKind::Comma } else { AtomKind::Term };
            // A colon in a value may be half of a slope.
            let colon = term.kind == TermKind::Colon;
            let first = starts && at == 0;
            self.push(kind, term.span, first, !first && (damaged || colon || colon_before));
            colon_before = colon;
            if term.kind == TermKind::Odd && self.source.slice(term.span).starts_with(['"', '“']) {
                self.atoms.list.last_mut().into_iter().for_each(|atom| atom.open = true);
            }
        }
    }

    /// The words of a name, the first of which begins its statement.
    fn words(&mut self, name: Span, damaged: bool) {
        for (at, word) in parts(self.source, name, char::is_whitespace).into_iter().enumerate() {
            self.push(AtomKind::Term, word, at == 0, damaged && at > 0);
        }
    }

    /// A clause, or a condition; one that cannot be read is left as it is.
    fn clause(&mut self, span: Span, starts: bool, damaged: bool) {
        if damaged {
            self.atoms.left.push(span);
        }
        let (mut at, mut first) = (span.start, starts);
        while at < span.end {
            let within = self.trivia.clone().take_while(|piece| piece.span.start < span.end);
            let comment = within.filter(|piece| piece.kind == TriviaKind::Comment).find(|piece| piece.span.start >= at);
            let end = comment.map_or(span.end, |comment| comment.span.start);
            let piece = Span { start: at, end };
            if damaged {
                // A line is one piece.
                for line in parts(self.source, piece, |c| c == '\n' || c == '\r') {
                    self.push(AtomKind::Clause, trimmed(self.source, line), first, !first);
                    first = false;
                }
            } else {
                for word in parts(self.source, piece, char::is_whitespace) {
                    for (part, relation) in relations(self.source, word) {
                        let kind = if relation { AtomKind::Relation } else { AtomKind::Clause };
                        self.push(kind, part, first, false);
                        first = false;
                    }
                }
            }
            let Some(comment) = comment else { break };
            at = comment.span.end;
            self.pass(at, false);
        }
    }

    fn fragment(&mut self, fragment: Fragment) {
        self.push(AtomKind::Term, fragment.word, true, false);
        self.push(AtomKind::Colon, fragment.colon, false, false);
        let (tree, found) = parse_fragment(self.source, fragment.span);
        if found.is_empty() {
            let mut inner = Walk::new(&tree, std::mem::take(&mut self.atoms));
            (inner.item_at, inner.whole) = (self.item_at, self.whole);
            tree.items.iter().for_each(|item| inner.item(item));
            self.atoms = inner.finish();
        } else {
            self.atoms.left.push(fragment.span);
            self.push(AtomKind::Term, fragment.span, false, false);
        }
    }
}

/// The parts of a stretch that such signs part.
fn parts(source: &Source, span: Span, parts: impl Fn(char) -> bool) -> Vec<Span> {
    let text = source.slice(span);
    let mut found = Vec::new();
    let mut start = None;
    for (at, sign) in text.char_indices().chain([(text.len(), '\n')]) {
        let ends = at == text.len() || parts(sign);
        match (start, ends) {
            (None, false) => start = Some(at),
            (Some(from), true) => {
                found.push(Span::new(span.start as usize + from, span.start as usize + at));
                start = None;
            }
            _ => {}
        }
    }
    found
}

/// A word of a clause in parts, and which of them are relations: no other sign of a clause is written like one.
fn relations(source: &Source, word: Span) -> Vec<(Span, bool)> {
    let text = source.slice(word);
    let is_sign = |sign: char| matches!(sign, '<' | '>' | '=' | '!' | '≤' | '≥' | '≠');
    let mut found: Vec<(Span, bool)> = Vec::new();
    for (at, sign) in text.char_indices() {
        let at = word.start as usize + at;
        let span = Span::new(at, at + sign.len_utf8());
        match found.last_mut() {
            Some((part, relation)) if *relation == is_sign(sign) => part.end = span.end,
            _ => found.push((span, is_sign(sign))),
        }
    }
    found
}

fn trimmed(source: &Source, span: Span) -> Span {
    let text = source.slice(span);
    let start = span.start as usize + (text.len() - text.trim_start().len());
    Span::new(start, start + text.trim().len())
}
