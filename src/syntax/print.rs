//! A tree to its text again, by its statements and its trivia alone.

use std::iter::Peekable;
use std::slice;

use super::tree::{Item, Term, Tree, Trivia, TriviaKind};
use crate::base::Span;

/// A piece of a text and what it is. The tokens of a tree follow one another without a gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: TokenKind,
    /// Where it stands.
    pub span: Span,
}

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TokenKind {
    /// The name of a property.
    Name,
    /// A term of a head, a value or a line that could not be read.
    Term,
    /// `:` after a name.
    Colon,
    /// `{`
    Open,
    /// `}` that closes a block.
    Close,
    /// A word that says what follows: `where`, `passes`, `fails`, `spares`.
    Keyword,
    /// A clause, or a piece of one beside a comment.
    Clause,
    /// A condition, or a piece of one beside a comment.
    Condition,
    /// A piece of a design that proves a rule.
    Fragment,
    /// What nothing was made out of.
    Unread,
    /// What states nothing.
    Trivia(TriviaKind),
}

impl Tree {
    /// Every piece of the text in order, none of them empty.
    pub fn tokens(&self) -> Vec<Token> {
        let mut walk = Walk { trivia: self.trivia.iter().peekable(), tokens: Vec::new() };
        walk.items(&self.items);
        walk.token(TokenKind::Unread, Span { start: self.span.end, end: self.span.end });
        walk.tokens
    }

    /// The text that was read, byte for byte.
    pub fn print(&self) -> String {
        self.tokens().iter().map(|token| self.source.slice(token.span)).collect()
    }
}

/// The walk over a tree, with the trivia not yet passed.
struct Walk<'t> {
    trivia: Peekable<slice::Iter<'t, Trivia>>,
    tokens: Vec<Token>,
}

impl Walk<'_> {
    fn items(&mut self, items: &[Item]) {
        items.iter().for_each(|item| self.item(item));
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Property { name_span, colon, value, .. } => {
                self.token(TokenKind::Name, *name_span);
                self.token(TokenKind::Colon, *colon);
                self.terms(value);
            }
            Item::Block { head, misplaced, open, body, close, .. } => {
                self.terms(head);
                self.terms(misplaced);
                self.token(TokenKind::Open, *open);
                self.items(body);
                if let Some(close) = close {
                    self.token(TokenKind::Close, *close);
                }
            }
            Item::Malformed { terms, .. } => self.terms(terms),
            Item::Damaged { terms, span } if terms.is_empty() => self.token(TokenKind::Unread, *span),
            Item::Damaged { terms, .. } => self.terms(terms),
            Item::Clause(span) => self.token(TokenKind::Clause, *span),
            Item::Condition { word, colon, span } => {
                self.token(TokenKind::Keyword, *word);
                self.token(TokenKind::Colon, *colon);
                self.token(TokenKind::Condition, *span);
            }
            Item::Fragment(fragment) => {
                self.token(TokenKind::Keyword, fragment.word);
                self.token(TokenKind::Colon, fragment.colon);
                self.token(TokenKind::Fragment, fragment.span);
            }
        }
    }

    fn terms(&mut self, terms: &[Term]) {
        terms.iter().for_each(|term| self.token(TokenKind::Term, term.span));
    }

    /// The trivia before and within a token, and what is left of the token.
    fn token(&mut self, kind: TokenKind, span: Span) {
        let mut at = span.start;
        while let Some(trivia) = self.trivia.next_if(|trivia| trivia.span.start < span.end.max(span.start + 1)) {
            self.push(kind, Span { start: at, end: trivia.span.start });
            self.push(TokenKind::Trivia(trivia.kind), trivia.span);
            at = at.max(trivia.span.end);
        }
        self.push(kind, Span { start: at, end: span.end });
    }

    fn push(&mut self, kind: TokenKind, span: Span) {
        if span.start < span.end {
            self.tokens.push(Token { kind, span });
        }
    }
}
