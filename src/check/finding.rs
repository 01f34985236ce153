//! What a check found: a reader's diagnostic, or a rule that is not met.

use super::problem::Problem;
use crate::base::{Diagnostic, Severity, Source, Span};

/// One finding. Every face reads this value, and has its words from `wording`.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// What the readers found in a text.
    Reader(Box<Diagnostic<Problem>>),
    /// A rule that is not met.
    Rule(Box<RuleFinding>),
}

/// A rule that is not met, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleFinding {
    /// Broken or advised.
    pub severity: Severity,
    /// The rule's name.
    pub name: String,
    /// What is asked, what stands there, by how much it misses.
    pub message: String,
    /// The text that the labels point into.
    pub source: Source,
    /// Places, the main one first.
    pub labels: Vec<Label>,
    /// A value that would satisfy the rule.
    pub help: Option<String>,
    /// Words of the shop's file that the design's stand on.
    pub beside: Option<Beside>,
    /// The clause.
    pub clause: Clause,
}

impl From<Diagnostic<Problem>> for Finding {
    fn from(diagnostic: Diagnostic<Problem>) -> Self {
        Finding::Reader(Box::new(diagnostic))
    }
}

impl Finding {
    /// How grave it is.
    pub fn severity(&self) -> Severity {
        match self {
            Finding::Reader(diagnostic) => diagnostic.severity(),
            Finding::Rule(finding) => finding.severity,
        }
    }

    /// The name of the rule, or of the reader's kind of message.
    pub fn name(&self) -> &str {
        match self {
            Finding::Reader(diagnostic) => diagnostic.name(),
            Finding::Rule(finding) => &finding.name,
        }
    }

    /// The text that it is found in.
    pub fn source(&self) -> &Source {
        match self {
            Finding::Reader(diagnostic) => &diagnostic.source,
            Finding::Rule(finding) => &finding.source,
        }
    }

    /// The words that it points at first; none where a whole text is meant.
    pub fn place(&self) -> Option<Span> {
        match self {
            Finding::Reader(diagnostic) => diagnostic.span,
            Finding::Rule(finding) => finding.labels.first().map(|label| label.span),
        }
    }
}

/// Words at a place in the finding's own source. The first label of a finding is the main one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What stands there, in a few words.
    pub text: String,
}

/// The clause behind a finding: its place in the ruleset and where the figure comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct Clause {
    /// Title of the set that was held.
    pub set: String,
    /// Title of the set below it that the rule's source comes from, empty where that is the same.
    pub from: String,
    /// Edition of the set that the source comes from, empty if it states none.
    pub edition: String,
    /// The ruleset's text.
    pub source: Source,
    /// The requirement.
    pub clause: Span,
    /// The limits that the requirement read, with their names.
    pub limits: Vec<Label>,
    /// What sets above the one that wrote the rule have changed of it, the last one first.
    pub amended: Vec<Amended>,
    /// Document and clause, as the rule states it.
    pub cites: String,
    /// Why the rule is there, in a sentence.
    pub because: String,
    /// How sure the figure is, if the set says so (`memory`).
    pub sure: String,
}

/// What one set has changed of a rule of a set below it.
#[derive(Debug, Clone, PartialEq)]
pub struct Amended {
    /// Title of the set.
    pub set: String,
    /// Its text.
    pub source: Source,
    /// The words that change something, each with what it is now, what it was, and who had set that.
    pub changes: Vec<Label>,
}

/// Words of a second text.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The text.
    pub source: Source,
    /// The words, each with what they state.
    pub labels: Vec<Label>,
}
