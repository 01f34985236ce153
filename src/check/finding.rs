//! What a check found: a reader's diagnostic, or a rule that is not met.

use super::Problem;
use crate::base::{Beside, Clause, Diagnostic, Label, Severity, Source, Span};

/// One finding. Every face reads this value, and has its words from `wording`.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// What the readers found in a text.
    Reader(Diagnostic<Problem>),
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
