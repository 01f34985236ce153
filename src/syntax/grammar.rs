//! The parser that pest derives from `grammar/`: one lexicon, two languages.

// The derive writes an undocumented public enum.
#![allow(missing_docs)]

use pest::iterators::{Pairs, Tokens};
use pest::{Parser, Token};

#[derive(pest_derive::Parser)]
#[grammar = "../grammar/lexicon.pest"]
#[grammar = "../grammar/design.pest"]
#[grammar = "../grammar/rules.pest"]
struct Grammar;

/// Reads a text from one start rule; the error is the byte at which reading stopped.
pub fn read(text: &str, start: Rule) -> Result<Pairs<'_, Rule>, usize> {
    Grammar::parse(start, text).map_err(|error| match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => at,
    })
}

/// A reading in the order of its text: each rule begins, holds others, and ends. Places are bytes of `text`.
pub struct Events<'t> {
    text: &'t str,
    tokens: Option<Tokens<'t, Rule>>,
    depth: usize,
    at: usize,
}

impl<'t> Events<'t> {
    /// The events of a text that was read.
    pub fn new(text: &'t str, tokens: Tokens<'t, Rule>) -> Self {
        Self { text, tokens: Some(tokens), depth: 0, at: 0 }
    }

    /// No events.
    pub fn none() -> Self {
        Self { text: "", tokens: None, depth: 0, at: 0 }
    }

    /// The next rule in the one that is open, and where it begins; it is open from here on. None closes the open one.
    pub fn begin(&mut self) -> Option<(Rule, usize)> {
        match self.tokens.as_mut()?.next()? {
            Token::Start { rule, pos } => {
                self.depth += 1;
                self.at = pos.pos();
                Some((rule, self.at))
            }
            Token::End { pos, .. } => {
                self.depth -= 1;
                self.at = pos.pos();
                None
            }
        }
    }

    /// Closes the rule that is open, whatever is left in it; gives the place of its end.
    pub fn end(&mut self) -> usize {
        self.end_at(self.depth)
    }

    /// Closes the rule that was open at a depth, if it still is.
    pub fn end_at(&mut self, depth: usize) -> usize {
        while self.depth >= depth && depth > 0 {
            match self.tokens.as_mut().and_then(Iterator::next) {
                Some(Token::Start { .. }) => self.depth += 1,
                Some(Token::End { pos, .. }) => {
                    self.depth -= 1;
                    self.at = pos.pos();
                }
                None => break,
            }
        }
        self.at
    }

    /// How many rules are open.
    pub fn depth(&self) -> usize {
        self.depth
    }

    /// The text from a place to the last event.
    pub fn since(&self, start: usize) -> &'t str {
        self.text.get(start..self.at).unwrap_or("")
    }
}
