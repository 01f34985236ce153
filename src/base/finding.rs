//! The one diagnostic value of the crate. It holds facts and words, never their rendering.

use super::diagnostic::Severity;
use super::notice_words::{help, label};
use super::source::{Source, Span};

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

/// One finding. Every face reads this value.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// What kind of trouble.
    pub severity: Severity,
    /// Name of the rule that is not met, or of the reader's notice.
    pub name: String,
    /// What is asked, what stands there, by how much it misses.
    pub message: String,
    /// The text that the labels point into.
    pub source: Source,
    /// Places, the main one first.
    pub labels: Vec<Label>,
    /// A value that would satisfy the rule, or what to write instead.
    pub help: Option<String>,
    /// Words of another text that the design's stand on, such as the shop's file.
    pub beside: Option<Beside>,
    /// The clause, where a rule speaks.
    pub clause: Option<Clause>,
}

/// Words of a second text.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The text.
    pub source: Source,
    /// The words, each with what they state.
    pub labels: Vec<Label>,
}

impl Finding {
    /// A finding of the readers.
    pub fn notice(notice: super::Notice, source: &Source, span: Span, message: impl Into<String>) -> Self {
        Self {
            severity: notice.severity(),
            name: notice.name().to_owned(),
            message: message.into(),
            source: source.clone(),
            labels: vec![Label { span, text: label(notice).to_owned() }],
            help: (!help(notice).is_empty()).then(|| help(notice).to_owned()),
            beside: None,
            clause: None,
        }
    }

    /// Replaces the help line.
    #[must_use]
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Replaces what the main label says.
    #[must_use]
    pub fn with_main_label(mut self, text: impl Into<String>) -> Self {
        if let Some(main) = self.labels.first_mut() {
            main.text = text.into();
        }
        self
    }

    /// Adds a label after the others.
    #[must_use]
    pub fn with_label(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into() });
        self
    }
}
