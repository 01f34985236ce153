//! A ruleset: rules with their limits, sources and fragments.

use super::node::Node;
use crate::base::{Source, Span};
use crate::measure::Measure;
use crate::model::Kind;
use crate::syntax::Fragment;

/// A ruleset.
#[derive(Debug, Clone, Default)]
pub struct RuleSet {
    /// Its title.
    pub title: String,
    /// What it rests on.
    pub basis: String,
    /// The edition of that.
    pub edition: String,
    /// What its authors warn of.
    pub caution: String,
    /// Its rules, in order.
    pub rules: Vec<Rule>,
}

/// A named number of a rule.
#[derive(Debug, Clone)]
pub struct Limit {
    /// Its name.
    pub name: String,
    /// Its value.
    pub measure: Measure,
    /// The text that sets it.
    pub source: Source,
    /// Where.
    pub span: Span,
    /// The set that set it.
    pub set: String,
    /// What it was before another set amended it.
    pub replaced: Option<Box<Limit>>,
}

/// One rule.
#[derive(Debug, Clone)]
pub struct Rule {
    /// Its name.
    pub name: String,
    /// The chapter it stands in.
    pub chapter: String,
    /// The set that it came from.
    pub set: String,
    /// The text that the clause stands in.
    pub source: Source,
    /// The words that open it.
    pub span: Span,
    /// The clause.
    pub clause: Span,
    /// What it holds.
    pub kind: &'static Kind,
    /// What narrows it.
    pub condition: Option<Node>,
    /// `shall`, not `should`.
    pub shall: bool,
    /// What it asks.
    pub requirement: Node,
    /// Its limits.
    pub limits: Vec<Limit>,
    /// Document and clause.
    pub cites: String,
    /// Why, in a sentence.
    pub because: String,
    /// `memory`, where the figure was not seen on a page.
    pub sure: String,
    /// What proves it, each with its text.
    pub fragments: Vec<(Source, Fragment)>,
}
