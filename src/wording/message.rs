//! What a face draws, and how a problem comes to it.

use super::notice;
use crate::base::{Diagnostic, HasNotice, Severity, Source, Span};
use crate::check::{Beside, Clause, Label};

/// One message in words. Every face draws this value.
#[derive(Debug, Clone, PartialEq)]
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
    /// Words of another text that the design's stand on, such as the shop's file.
    pub beside: Option<Beside>,
    /// The clause, where a rule speaks.
    pub clause: Option<Clause>,
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
            beside: None,
            clause: None,
        }
    }
}
