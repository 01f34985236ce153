//! The syntax tree: statements and terms with their places. Damaged nodes stay in it, marked.

use super::problem::Impossible;
use crate::base::Span;
use crate::measure::Measure;

/// A whole file, or a fragment.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tree {
    /// Statements in the order they stand.
    pub items: Vec<Item>,
}

/// One statement.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// `name: value`.
    Property {
        /// Words before the colon, in lower case with single blanks.
        name: String,
        /// Where they stand.
        name_span: Span,
        /// What stands after the colon.
        value: Vec<Term>,
        /// Where that stands; empty, after the colon, when nothing does.
        value_span: Span,
        /// A finding was already given for this statement; its value is unknown.
        damaged: bool,
    },
    /// `head { ... }`.
    Block {
        /// Words before the brace.
        head: Vec<Term>,
        /// Where they stand (the brace, if there are none).
        head_span: Span,
        /// What stands inside.
        body: Vec<Item>,
        /// A colon stands in the head; the block is read all the same.
        damaged: bool,
    },
    /// A line that is no statement.
    Malformed {
        /// Its words.
        terms: Vec<Term>,
        /// Where they stand.
        span: Span,
    },
    /// A clause of a rule, not read yet.
    Clause(Span),
    /// `where: ...` of an amendment, not read yet: the word, and the condition.
    Condition(Span, Span),
    /// A fragment of a rule, not read yet.
    Fragment(Fragment),
}

/// A piece of a design that proves a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fragment {
    /// What it proves.
    pub kind: FragmentKind,
    /// The design text.
    pub span: Span,
}

/// What a fragment proves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FragmentKind {
    /// The rule holds.
    Passes,
    /// The rule is broken.
    Fails,
    /// The rule does not apply.
    Spares,
}

/// One term of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// What it is.
    pub kind: TermKind,
    /// Where it stands.
    pub span: Span,
}

/// What a term is.
#[derive(Debug, Clone, PartialEq)]
pub enum TermKind {
    /// A number with its unit, or without one.
    Figure(Measure),
    /// A nominal size, `2x12`: two numbers without a unit.
    Nominal(f64, f64),
    /// A nail's pennyweight, `16d`.
    Penny(u32),
    /// A number sign, `No.10` or `#10`.
    NumberSign(u32),
    /// A date, as written.
    Date(String),
    /// A word.
    Word(String),
    /// A quoted text, without its quotes.
    Text(String),
    /// `,`
    Comma,
    /// `x` or `×` between two figures.
    By,
    /// A lone `-`.
    Dash,
    /// A colon in a value.
    Colon,
    /// A figure that cannot be: why.
    Impossible(Impossible),
    /// Anything else.
    Odd,
}

impl Term {
    /// The word, if the term is one.
    pub fn word(&self) -> Option<&str> {
        match &self.kind {
            TermKind::Word(word) => Some(word),
            TermKind::By => Some("x"),
            _ => None,
        }
    }
}
