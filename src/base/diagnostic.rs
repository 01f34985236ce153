//! A diagnostic: what a stage has to say about a text, as a value. Its English is made in `wording`.

use super::notices::Notice;
use super::severity::Severity;
use super::source::{Source, Span};

/// What every stage's problem has: the kind of message that it is.
pub trait HasNotice {
    /// The kind of message, which gives its name and its severity.
    fn notice(&self) -> Notice;
}

/// One problem of a text and its place. `P` is the enum of the stage that found it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Diagnostic<P> {
    /// The text.
    pub source: Source,
    /// The words at fault; none where the whole text is.
    pub span: Option<Span>,
    /// What is wrong, with all that its words need.
    pub problem: P,
}

impl<P> Diagnostic<P> {
    /// A problem at a place.
    pub fn new(source: &Source, span: Span, problem: impl Into<P>) -> Self {
        Self { source: source.clone(), span: Some(span), problem: problem.into() }
    }

    /// A problem of a whole text.
    pub fn whole(source: &Source, problem: impl Into<P>) -> Self {
        Self { source: source.clone(), span: None, problem: problem.into() }
    }

    /// The same diagnostic as a later stage reports it, whose problems hold those of the earlier one.
    pub fn lift<Q: From<P>>(self) -> Diagnostic<Q> {
        Diagnostic { source: self.source, span: self.span, problem: self.problem.into() }
    }
}

impl<P: HasNotice> Diagnostic<P> {
    /// How grave it is.
    pub fn severity(&self) -> Severity {
        self.problem.notice().severity()
    }

    /// The name of its kind of message.
    pub fn name(&self) -> &'static str {
        self.problem.notice().name()
    }
}

/// The diagnostics of an earlier stage as a later one reports them.
pub fn lift<P, Q: From<P>>(found: Vec<Diagnostic<P>>) -> Vec<Diagnostic<Q>> {
    found.into_iter().map(Diagnostic::lift).collect()
}

/// Where a stage reports what it finds in one text.
pub struct Reporter<'a, P> {
    /// The text.
    pub source: &'a Source,
    /// What was found so far.
    pub found: &'a mut Vec<Diagnostic<P>>,
}

impl<P> Reporter<'_, P> {
    /// Reports a problem at a place of the text.
    pub fn push(&mut self, span: Span, problem: impl Into<P>) {
        self.found.push(Diagnostic::new(self.source, span, problem));
    }
}
