//! What a check found: a reader's diagnostic, or a rule that is not met.

use super::rule_finding::RuleFinding;
use crate::base;
use crate::base::{Class, Source, Span};

/// One finding. Every face reads this value, and has its words from `wording`.
#[derive(Debug, Clone, PartialEq)]
pub enum Finding {
    /// What the readers found in a text.
    Reader(base::Finding),
    /// A rule that is not met.
    Rule(Box<RuleFinding>),
}

impl Finding {
    /// How grave it is.
    pub fn severity(&self) -> Class {
        match self {
            Finding::Reader(finding) => finding.class,
            Finding::Rule(finding) if finding.rule.rule().shall => Class::Broken,
            Finding::Rule(_) => Class::Advised,
        }
    }

    /// The name of the rule, or of the reader's kind of message.
    pub fn name(&self) -> &str {
        match self {
            Finding::Reader(finding) => &finding.name,
            Finding::Rule(finding) => &finding.rule.rule().name,
        }
    }

    /// The text that it is found in.
    pub fn source(&self) -> &Source {
        match self {
            Finding::Reader(finding) => &finding.source,
            Finding::Rule(finding) => &finding.source,
        }
    }

    /// The words that it points at first; none where a whole text is meant.
    pub fn place(&self) -> Option<Span> {
        match self {
            Finding::Reader(finding) => finding.labels.first().map(|label| label.span),
            Finding::Rule(finding) => finding.place(),
        }
    }
}
