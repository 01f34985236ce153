//! What a face draws, and how a problem comes to it.

use std::sync::Arc;

use super::notice;
use crate::base::{Diagnostic, HasNotice, Severity, Source, Span};
use crate::model::Waiver;

/// One message in words. Every face draws this value.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Message {
    /// How grave it is.
    pub severity: Severity,
    /// Name of the rule that is not met, or of the kind of message.
    pub name: String,
    /// What is asked, what stands there, by how much it misses.
    pub message: String,
    /// The text that the labels point into.
    pub source: Source,
    /// Places, the main one first; none where the whole text is meant.
    pub labels: Vec<Label>,
    /// A value that would satisfy the rule, or what to write instead.
    pub help: Option<String>,
    /// Other findings of the same cause, a line each.
    pub also: Vec<String>,
    /// Words of another text that the design's stand on, such as the shop's file.
    pub beside: Option<Beside>,
    /// The clause, where a rule speaks.
    pub clause: Option<Clause>,
    /// The waiver that excuses it: it is told, and fails nothing.
    pub waived: Option<Arc<Waiver>>,
}

/// What can be put in words: a diagnostic of any stage, a finding.
pub trait ToMessage {
    /// Its words.
    fn to_message(&self) -> Message;
}

/// A diagnostic or a finding in words.
pub fn message<T: ToMessage + ?Sized>(found: &T) -> Message {
    found.to_message()
}

/// Diagnostics or findings in words.
#[cfg(feature = "internals")]
pub fn messages<'t, T: ToMessage + 't>(found: impl IntoIterator<Item = &'t T>) -> Vec<Message> {
    found.into_iter().map(T::to_message).collect()
}

/// A problem that can be described at its place.
pub(super) trait Describe: HasNotice {
    /// What is said of it; label and help may be left to its kind of message.
    fn describe(&self, place: &Place<'_>) -> Description;
}

/// Where a problem stands.
pub(super) struct Place<'a> {
    pub source: &'a Source,
    pub span: Span,
}

impl<'a> Place<'a> {
    /// The words at fault.
    pub fn quote(&self) -> &'a str {
        self.source.slice(self.span)
    }

    /// Other words of the same text.
    pub fn quote_at(&self, span: Span) -> &'a str {
        self.source.slice(span)
    }
}

/// What is said of one problem.
pub(super) struct Description {
    message: String,
    /// What the main label says, where the kind of message does not.
    label: Option<String>,
    /// Labels beside the main one.
    beside: Vec<Label>,
    /// What to do, where the kind of message does not know.
    help: Option<String>,
}

impl Description {
    /// What is said of a name that something no longer goes by.
    pub fn former_name(was: &str, now: &str) -> Self {
        Self::new(format!("{was} is called {now} now, and is read as that")).help(format!("Write {now}."))
    }

    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), label: None, beside: Vec::new(), help: None }
    }

    pub fn help(self, help: impl Into<String>) -> Self {
        Self { help: Some(help.into()), ..self }
    }

    pub fn label(self, label: impl Into<String>) -> Self {
        Self { label: Some(label.into()), ..self }
    }

    pub fn beside(mut self, span: Span, text: impl Into<String>) -> Self {
        self.beside.push(Label { span, text: text.into() });
        self
    }

    /// The help where there is one; else that of the kind of message.
    pub fn maybe_help(self, help: Option<String>) -> Self {
        Self { help, ..self }
    }
}

impl<P: Describe> ToMessage for Diagnostic<P> {
    fn to_message(&self) -> Message {
        let kind = self.problem.notice();
        let description = self.problem.describe(&Place { source: &self.source, span: self.span.unwrap_or_default() });
        let main = self
            .span
            .map(|span| Label { span, text: description.label.unwrap_or_else(|| notice::label(kind).to_owned()) });
        Message {
            severity: kind.severity(),
            name: kind.name().to_owned(),
            message: description.message,
            source: self.source.clone(),
            labels: main.into_iter().chain(description.beside).collect(),
            help: description.help.or_else(|| Some(notice::help(kind).to_owned())).filter(|help| !help.is_empty()),
            also: Vec::new(),
            beside: None,
            clause: None,
            waived: None,
        }
    }
}

/// Words at a place in the finding's own source. The first label of a finding is the main one.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What stands there, in a few words.
    pub text: String,
}

/// The clause behind a finding: its place in the ruleset and where the figure comes from.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
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
    /// The figures of the set that it reads and that state a source of their own, each with that.
    pub figures: Vec<(String, String)>,
    /// Why the rule is there, in a sentence.
    pub because: String,
    /// How sure the figure is, if the set says so (`memory`).
    pub sure: String,
}

/// What one set has changed of a rule of a set below it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
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
#[non_exhaustive]
pub struct Beside {
    /// The text.
    pub source: Source,
    /// The words, each with what they state.
    pub labels: Vec<Label>,
}
