//! The syntax tree. It loses nothing: every character of the text is in a statement or in the trivia between, damaged
//! statements too, so that printing a tree gives its text back.

use smol_str::SmolStr;

use super::problem::Impossible;
use crate::base::{Source, Span};
use crate::measure::Measure;

/// A text as it was read. Spans point into `source`.
#[derive(Debug, Clone, PartialEq)]
pub struct Tree {
    /// The text, and its name.
    pub source: Source,
    /// What of the text was read: all of it, or the fragment of a rule.
    pub span: Span,
    /// Statements in the order they stand.
    pub items: Vec<Item>,
    /// What no statement says, in the order it stands; comments within a clause too.
    pub trivia: Vec<Trivia>,
    /// Its reading was kept since the tool was built: a text that is shipped. What a test holds true of those need not be
    /// sought in it at each start.
    pub kept: bool,
}

/// One statement.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// `name: value`.
    Property {
        /// Words before the colon, in lower case with single blanks.
        name: SmolStr,
        /// Where they stand.
        name_span: Span,
        /// Where the colon stands.
        colon: Span,
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
        /// Where they stand (the first sign of the block, if there are none).
        head_span: Span,
        /// A colon between the head and the brace, and what follows it: a finding was given, the block is read all
        /// the same. Empty in a sound block.
        misplaced: Vec<Term>,
        /// Where the opening brace stands.
        open: Span,
        /// What stands inside.
        body: Vec<Item>,
        /// Where the closing brace stands; none in a block that the text leaves open.
        close: Option<Span>,
    },
    /// A line that is no statement.
    Malformed {
        /// Its words.
        terms: Vec<Term>,
        /// Where they stand.
        span: Span,
    },
    /// What could not be read, for which a finding was given: a line with an open quote, a value without a name, a
    /// brace that closes nothing, a text too large or nested too deep to be read at all.
    Damaged {
        /// What was made out of it, a colon among them; may be nothing.
        terms: Vec<Term>,
        /// Where it stands.
        span: Span,
    },
    /// A clause of a rule, not read yet.
    Clause(Span),
    /// `where: ...` of an amendment, not read yet.
    Condition {
        /// Where `where` stands.
        word: Span,
        /// Where the colon stands.
        colon: Span,
        /// Where the condition stands.
        span: Span,
    },
    /// A fragment of a rule, not read yet.
    Fragment(Fragment),
}

/// A piece of a design that proves a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fragment {
    /// What it proves.
    pub kind: FragmentKind,
    /// Where the word that says so stands.
    pub word: Span,
    /// Where the colon stands.
    pub colon: Span,
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
    Date(SmolStr),
    /// A word.
    Word(SmolStr),
    /// A quoted text, without its quotes.
    Text(SmolStr),
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

impl Tree {
    /// A text of which nothing could be read: one damaged statement.
    pub(super) fn unread(source: &Source, span: Span) -> Self {
        let items = vec![Item::Damaged { terms: Vec::new(), span }];
        Self { source: source.clone(), span, items, trivia: Vec::new(), kept: false }
    }
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

/// A piece of a text that states nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trivia {
    /// What it is.
    pub kind: TriviaKind,
    /// Where it stands.
    pub span: Span,
}

/// What a piece of trivia is. A blank line is two ends of lines with at most blanks between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TriviaKind {
    /// The mark at the start of a text that says how it is encoded.
    ByteOrderMark,
    /// Blanks within a line, as many as stand together.
    Blank,
    /// The end of one line.
    LineEnd,
    /// A `;` between statements.
    Separator,
    /// A comment, from its `#` to the end of the line.
    Comment,
}
