//! What a check found: a reader's diagnostic, or a rule that is not met.

use super::problem::Problem;
use super::rule_finding::RuleFinding;
use crate::base::{Diagnostic, Severity, Source, Span};

/// One finding. Every face reads this value, and has its words from `wording`.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Finding {
    /// What the readers found in a text.
    Reader(Box<Diagnostic<Problem>>),
    /// A rule that is not met.
    Rule(Box<RuleFinding>),
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
            Finding::Rule(finding) => finding.severity(),
        }
    }

    /// The name of the rule, or of the reader's kind of message.
    pub fn name(&self) -> &str {
        match self {
            Finding::Reader(diagnostic) => diagnostic.name(),
            Finding::Rule(finding) => &finding.rule.rule().name,
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
            Finding::Rule(finding) => finding.place(),
        }
    }
}
