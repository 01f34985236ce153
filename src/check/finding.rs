//! What a check found: a reader's diagnostic, or a rule that is not met.

use std::sync::Arc;

use super::problem::Problem;
use super::rule_finding::RuleFinding;
use crate::base::{Diagnostic, Severity, Source, Span};
use crate::model::Waiver;

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

    /// The waiver that excuses it: it stands in a report, and fails nothing.
    pub fn waived(&self) -> Option<&Arc<Waiver>> {
        match self {
            Finding::Reader(_) => None,
            Finding::Rule(finding) => finding.waived.as_ref(),
        }
    }

    /// Whether a waiver excuses it, or a baseline knows it: it fails nothing.
    pub fn is_excused(&self) -> bool {
        match self {
            Finding::Reader(_) => false,
            Finding::Rule(finding) => finding.known || finding.waived.is_some(),
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
