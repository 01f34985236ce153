//! A reading in the order of its text, made by pest now or kept since the build.

use pest::Token;
use pest::iterators::Tokens;

use super::grammar::{self, Rule};
use super::kept::{self, Kept};

/// One event: a rule begins or ends, at a byte of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// This rule begins here.
    Begin(Rule, usize),
    /// The innermost rule that is open ends here.
    End(usize),
}

/// Where the events come from.
enum Steps<'t> {
    Read(Tokens<'t, Rule>),
    Kept(Kept),
}

impl Steps<'_> {
    fn next(&mut self) -> Option<Step> {
        match self {
            Steps::Kept(kept) => kept.next(),
            Steps::Read(tokens) => tokens.next().map(|token| match token {
                Token::Start { rule, pos } => Step::Begin(rule, pos.pos()),
                Token::End { pos, .. } => Step::End(pos.pos()),
            }),
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

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// What pest reads, whatever is kept.
    pub fn steps_of_pest(text: &str, start: Rule) -> Vec<Step> {
        let mut steps = Steps::Read(grammar::read(text, start).expect("it reads").tokens());
        std::iter::from_fn(|| steps.next()).collect()
    }
}
