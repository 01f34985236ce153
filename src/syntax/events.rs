//! A reading in the order of its text, made by pest now or kept since the build.

use pest::iterators::Tokens;

use super::grammar::{self, Rule};
use super::kept::{self, Kept, Step};

/// Where the events come from.
enum Steps<'t> {
    None,
    Read(Tokens<'t, Rule>),
    Kept(Kept),
}

impl Steps<'_> {
    fn next(&mut self) -> Option<Step> {
        match self {
            Steps::None => None,
            Steps::Kept(kept) => kept.next(),
            Steps::Read(tokens) => tokens.next().map(Step::from),
        }
    }
}

/// A reading in the order of its text: each rule begins, holds others, and ends. Places are bytes of `text`.
pub struct Events<'t> {
    text: &'t str,
    steps: Steps<'t>,
    depth: usize,
    at: usize,
}

/// Reads a text from one start rule; the error is the byte at which reading stopped.
pub fn read(text: &str, start: Rule) -> Result<Events<'_>, usize> {
    let steps = match kept::reading(text, start) {
        Some(kept) => Steps::Kept(kept),
        None => Steps::Read(grammar::read(text, start)?.tokens()),
    };
    Ok(Events { text, steps, depth: 0, at: 0 })
}

impl<'t> Events<'t> {
    /// The events of a text that pest has read.
    pub fn of(text: &'t str, tokens: Tokens<'t, Rule>) -> Self {
        Self { text, steps: Steps::Read(tokens), depth: 0, at: 0 }
    }

    /// Whether the reading was kept since the build.
    pub fn are_kept(&self) -> bool {
        matches!(self.steps, Steps::Kept(_))
    }

    /// No events.
    pub fn none() -> Self {
        Self { text: "", steps: Steps::None, depth: 0, at: 0 }
    }

    /// The next rule in the one that is open, and where it begins; it is open from here on. None closes the open one.
    pub fn begin(&mut self) -> Option<(Rule, usize)> {
        match self.steps.next()? {
            Step::Begin(rule, at) => {
                self.depth += 1;
                self.at = at;
                Some((rule, at))
            }
            Step::End(at) => {
                self.depth -= 1;
                self.at = at;
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
            match self.steps.next() {
                Some(Step::Begin(..)) => self.depth += 1,
                Some(Step::End(at)) => {
                    self.depth -= 1;
                    self.at = at;
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
