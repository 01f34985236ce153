//! What the examples of a rule leave open: a rule changed in one point, of which no example takes notice.
//!
//! Every limit and every figure of a clause is moved by one smallest mark each way, every relation is turned, every part
//! of an `and` and of an `or`, every condition and every word of a choice is left out. Where each example still comes out as it
//! should, nothing holds that point.

use super::node::{Collected, Node, Row, What};
use super::problem::{Altered, Problem};
use super::prove::{Example, examples};
use super::rule::{Limit, Printed, Rule, RuleSet};
use crate::base::{Diagnostic, Passage, Source, Span};
use crate::derive::Evaluation;
use crate::measure::{Marks, Measure, mark};
use crate::model::Takes;
use crate::syntax::{Aggregate, FragmentKind, Relation};

/// How many changes of the rules of a set were tried, and those that no example notices.
#[derive(Debug, Clone, Default)]
pub struct Gaps {
    /// Changes tried.
    pub tried: usize,
    /// Those that go unnoticed.
    pub found: Vec<Diagnostic<Problem>>,
}

/// Looks for what the examples of a set leave open. A rule that lacks a passing or a failing example is reported as
/// such, and not looked at here.
pub fn gaps(set: &RuleSet) -> Gaps {
    let mut gaps = Gaps::default();
    for rule in &set.rules {
        let examples = examples(rule);
        let holding: Vec<&Example> = examples.iter().filter(|example| example.comes_out(rule)).collect();
        let has = |kind| holding.iter().any(|example| example.kind == kind);
        if !has(FragmentKind::Passes) || !has(FragmentKind::Fails) {
            continue;
        }
        let evaluations: Vec<Evaluation<'_>> = holding.iter().map(|example| example.evaluation()).collect();
        for change in changes(rule) {
            gaps.tried += 1;
            let unnoticed =
                |(example, evaluation): (&&Example, &Evaluation<'_>)| example.comes_out_by(&change.rule, evaluation);
            if holding.iter().zip(&evaluations).all(unnoticed) {
                let problem = Problem::NotNoticed { rule: rule.name.clone(), altered: change.altered };
                gaps.found.push(Diagnostic::new(&change.source, change.span, problem));
            }
        }
    }
    gaps
}

/// A rule changed in one point.
struct Change {
    rule: Rule,
    altered: Altered,
    source: Source,
    span: Span,
}

/// A node changed in one point, and the words of it that are changed, where they are known by themselves.
struct Variant {
    node: Node,
    altered: Altered,
    span: Option<Span>,
}

impl Variant {
    fn within(self, put: impl FnOnce(Node) -> Node) -> Self {
        Self { node: put(self.node), ..self }
    }
}

/// Every change of a rule in one point.
fn changes(rule: &Rule) -> Vec<Change> {
    let mut found = Vec::new();
    for (at, limit) in rule.limits.iter().enumerate() {
        let step = step(rule, at);
        found.extend(moved(limit, step).map(|(limit, altered)| {
            let (source, span) = (limit.source.clone(), limit.span);
            let mut rule = rule.clone();
            if let Some(place) = rule.limits.get_mut(at) {
                *place = limit;
            }
            Change { rule, altered, source, span }
        }));
    }
    if let (Some(condition), Some((source, span))) = (&rule.condition, &rule.narrows) {
        let words = words(source, *span);
        let whole = Change {
            rule: Rule { condition: None, ..rule.clone() },
            altered: Altered::Dropped { words },
            source: source.clone(),
            span: *span,
        };
        found.push(whole);
        found.extend(Alter { source }.condition(condition).into_iter().map(|variant| Change {
            rule: Rule { condition: Some(variant.node), ..rule.clone() },
            altered: variant.altered,
            source: source.clone(),
            span: variant.span.unwrap_or(*span),
        }));
    }
    let alter = Alter { source: &rule.source };
    found.extend(alter.condition(&rule.requirement).into_iter().map(|variant| Change {
        rule: Rule { requirement: variant.node, ..rule.clone() },
        altered: variant.altered,
        source: rule.source.clone(),
        span: variant.span.unwrap_or(rule.asks),
    }));
    found
}

/// A limit moved by a smallest mark each way, by each of its figures.
fn moved(limit: &Limit, step: Option<f64>) -> impl Iterator<Item = (Limit, Altered)> + '_ {
    let figures = [(Printed::First, Some(limit.measure)), (Printed::Metric, limit.metric)];
    figures.into_iter().filter_map(|(printed, figure)| Some((printed, figure?))).flat_map(move |(printed, from)| {
        [1.0, -1.0].into_iter().map(move |way| {
            let step = step.unwrap_or_else(|| mark(from.style, Marks::Fine));
            let to = Measure { value: from.value + way * step, ..from };
            let limit = match printed {
                Printed::First => Limit { measure: to, ..limit.clone() },
                Printed::Metric => Limit { metric: Some(to), ..limit.clone() },
            };
            let altered = Altered::Limit { name: limit.name.clone(), from, to };
            (limit, altered)
        })
    })
}

/// The step of a limit, where it is not the smallest mark of its unit: things are counted one by one.
fn step(rule: &Rule, at: usize) -> Option<f64> {
    let counted = |node: &Node| {
        let mut found = false;
        let is = |node: &Node| node.limits().contains(&at);
        node.pairs(&mut |a, b| found |= is(a) && is_count(b) || is(b) && is_count(a));
        found
    };
    rule.condition.iter().chain([&rule.requirement]).any(counted).then_some(1.0)
}

/// Quantities of which no value lies between two whole numbers; a test holds each to the catalogue.
const COUNTS: [&str; 19] = [
    "baluster count",
    "balusters for",
    "bare sides",
    "board count",
    "fastener count",
    "handrail sides",
    "index",
    "most fasteners",
    "open sides",
    "railed sides",
    "head fasteners",
    "props",
    "rail fasteners",
    "riser count",
    "risers missed",
    "switch floors",
    "spans",
    "tread fasteners",
    "winder count",
];

fn is_count(node: &Node) -> bool {
    match node {
        Node::Count(_) => true,
        Node::Sum(a, _, b) => is_count(a) && is_count(b) || is_count(a) && b.is_constant(),
        Node::Read(what, _) | Node::Over(Aggregate::Total | Aggregate::Largest | Aggregate::Smallest, what, _) => {
            match what {
                What::Property(property) => property.takes == Takes::Count,
                What::Quantity(entry) => COUNTS.contains(&entry.name) || entry.name.starts_with("unrailed "),
                What::At(..) => false,
            }
        }
        _ => false,
    }
}

fn words(source: &Source, span: Span) -> Passage {
    source.passage(span)
}

/// All items but one.
fn without<T: Clone>(items: &[T], at: usize) -> Vec<T> {
    items.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, item)| item.clone()).collect()
}

/// Changes nodes whose words stand in one text.
struct Alter<'a> {
    source: &'a Source,
}

impl Alter<'_> {
    /// A condition changed in one point.
    fn condition(&self, node: &Node) -> Vec<Variant> {
        match node {
            Node::All(terms) => self.joined(terms, Node::All),
            Node::Any(terms) => self.joined(terms, Node::Any),
            Node::Not(inner) => {
                let inner = self.condition(inner).into_iter();
                inner.map(|variant| variant.within(|node| Node::Not(Box::new(node)))).collect()
            }
            Node::Chain(terms, relations) => self.chain(terms, relations),
            Node::Is(subject, not, words, span) => self.is(subject, *not, words, *span),
            _ => Vec::new(),
        }
    }

    /// The parts of an `and` or an `or`: each changed in one point, and each left out.
    fn joined(&self, terms: &[Node], join: fn(Vec<Node>) -> Node) -> Vec<Variant> {
        let mut found = self.each(terms, join);
        for (at, dropped) in terms.iter().enumerate() {
            let rest = without(terms, at);
            let span = span_of(dropped);
            let node = match rest.as_slice() {
                [only] => only.clone(),
                _ => join(rest),
            };
            let words = words(self.source, span.unwrap_or_default());
            found.push(Variant { node, altered: Altered::Dropped { words }, span });
        }
        found
    }

    fn each(&self, terms: &[Node], join: fn(Vec<Node>) -> Node) -> Vec<Variant> {
        let mut found = Vec::new();
        for (at, term) in terms.iter().enumerate() {
            let put = |node: Node| {
                let before = terms.iter().take(at).cloned();
                join(before.chain([node]).chain(terms.iter().skip(at + 1).cloned()).collect())
            };
            found.extend(self.condition(term).into_iter().map(|variant| variant.within(put)));
        }
        found
    }

    fn chain(&self, terms: &[(Node, Span)], relations: &[Relation]) -> Vec<Variant> {
        let mut found = Vec::new();
        for (at, from) in relations.iter().enumerate() {
            let (Some((_, first)), Some((_, second))) = (terms.get(at), terms.get(at + 1)) else { continue };
            for to in turned(*from) {
                let mut relations = relations.to_vec();
                if let Some(place) = relations.get_mut(at) {
                    *place = *to;
                }
                let altered = Altered::Relation { from: *from, to: *to };
                let node = Node::Chain(terms.to_vec(), relations);
                found.push(Variant { node, altered, span: Some(first.to(*second)) });
            }
        }
        for (at, (term, span)) in terms.iter().enumerate() {
            let beside = [at.checked_sub(1), Some(at + 1)];
            let mut beside = beside.into_iter().flatten().filter_map(|at| terms.get(at));
            let counted = beside.any(|(other, _)| is_count(other));
            let put = |node: Node| {
                let mut terms = terms.to_vec();
                if let Some(place) = terms.get_mut(at) {
                    place.0 = node;
                }
                Node::Chain(terms, relations.to_vec())
            };
            let inside = self.value(term, counted).into_iter();
            found.extend(inside.map(|v| Variant { span: v.span.or(Some(*span)), ..v.within(put) }));
        }
        found
    }

    fn is(&self, subject: &Node, not: bool, among: &[String], span: Span) -> Vec<Variant> {
        let is = |not, among| Node::Is(Box::new(subject.clone()), not, among, span);
        let turned = Altered::Denied { words: words(self.source, span) };
        let mut found = vec![Variant { node: is(!not, among.to_vec()), altered: turned, span: Some(span) }];
        for (at, word) in among.iter().enumerate().filter(|_| among.len() > 1) {
            let (node, word) = (is(not, without(among, at)), word.clone());
            found.push(Variant { node, altered: Altered::Word { word }, span: Some(span) });
        }
        found
    }

    /// A value changed in one point: a figure moved, a condition of what it counts changed.
    fn value(&self, node: &Node, counted: bool) -> Vec<Variant> {
        match node {
            Node::Figure(from) => [1.0, -1.0]
                .into_iter()
                .map(|way| {
                    let step = if counted { 1.0 } else { mark(from.style, Marks::Fine) };
                    let to = Measure { value: from.value + way * step, ..*from };
                    Variant { node: Node::Figure(to), altered: Altered::Figure { from: *from, to }, span: None }
                })
                .filter(|variant| !(counted && matches!(variant.node, Node::Figure(to) if to.value < 0.0)))
                .collect(),
            Node::Sum(a, minus, b) => self.both(a, b, counted, |a, b| Node::Sum(Box::new(a), *minus, Box::new(b))),
            Node::Product(a, over, b) => self.both(a, b, false, |a, b| Node::Product(Box::new(a), *over, Box::new(b))),
            Node::Pick(greater, a, b) => {
                self.both(a, b, counted, |a, b| Node::Pick(*greater, Box::new(a), Box::new(b)))
            }
            Node::Negative(inner) => {
                let inner = self.value(inner, counted).into_iter();
                inner.map(|variant| variant.within(|node| Node::Negative(Box::new(node)))).collect()
            }
            Node::ByRow(rows) => self.rows(rows),
            Node::Between(by, rows) => self.rows_between(by, rows),
            Node::ReadAt(entry, place, path) => {
                let inside = self.value(place, false).into_iter();
                inside.map(|v| v.within(|place| Node::ReadAt(entry, Box::new(place), path.clone()))).collect()
            }
            Node::Count(collected) => self.collected(collected, Node::Count),
            Node::Over(aggregate, what, collected) => {
                self.collected(collected, |collected| Node::Over(*aggregate, *what, collected))
            }
            _ => Vec::new(),
        }
    }

    /// The conditions of a table's rows, each changed in one point.
    fn rows(&self, rows: &[Row]) -> Vec<Variant> {
        let mut found = Vec::new();
        for (at, row) in rows.iter().enumerate() {
            let put = |when: Node| {
                let mut rows = rows.to_vec();
                if let Some(row) = rows.get_mut(at) {
                    row.when = Some(when);
                }
                Node::ByRow(rows)
            };
            let inside = row.when.iter().flat_map(|when| self.condition(when));
            found.extend(inside.map(|variant| variant.within(put)));
        }
        found
    }

    /// The figures at which a table that is read between its rows has them, each moved.
    fn rows_between(&self, by: &Node, rows: &[(Measure, usize)]) -> Vec<Variant> {
        let mut found = Vec::new();
        for (at, (from, _)) in rows.iter().enumerate() {
            for way in [1.0, -1.0] {
                let to = Measure { value: from.value + way * mark(from.style, Marks::Fine), ..*from };
                let mut rows = rows.to_vec();
                if let Some(row) = rows.get_mut(at) {
                    row.0 = to;
                }
                let node = Node::Between(Box::new(by.clone()), rows);
                found.push(Variant { node, altered: Altered::Figure { from: *from, to }, span: None });
            }
        }
        found
    }

    fn both(&self, a: &Node, b: &Node, counted: bool, join: impl Fn(Node, Node) -> Node) -> Vec<Variant> {
        let left = self.value(a, counted).into_iter().map(|variant| variant.within(|a| join(a, b.clone())));
        let mut found: Vec<Variant> = left.collect();
        found.extend(self.value(b, counted).into_iter().map(|variant| variant.within(|b| join(a.clone(), b))));
        found
    }

    fn collected(&self, collected: &Collected, put: impl Fn(Collected) -> Node) -> Vec<Variant> {
        let Some(condition) = &collected.condition else { return Vec::new() };
        let span = span_of(condition);
        let words = words(self.source, span.unwrap_or_default());
        let bare = put(Collected { condition: None, ..collected.clone() });
        let mut found = vec![Variant { node: bare, altered: Altered::Dropped { words }, span }];
        found.extend(self.condition(condition).into_iter().map(|variant| {
            variant.within(|node| put(Collected { condition: Some(Box::new(node)), ..collected.clone() }))
        }));
        found
    }
}

/// What a relation is turned into: at its limit the other way, and round.
fn turned(relation: Relation) -> &'static [Relation] {
    match relation {
        Relation::Less => &[Relation::AtMost, Relation::More],
        Relation::AtMost => &[Relation::Less, Relation::AtLeast],
        Relation::More => &[Relation::AtLeast, Relation::Less],
        Relation::AtLeast => &[Relation::More, Relation::AtMost],
        Relation::Equal => &[Relation::Unequal],
        Relation::Unequal => &[Relation::Equal],
    }
}

/// Where a condition stands.
fn span_of(node: &Node) -> Option<Span> {
    super::satisfiability::span(node)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::derive::{Gives, quantities};

    #[test]
    fn what_is_counted_is_in_the_catalogue() {
        for name in COUNTS {
            let found = quantities().find(|entry| entry.name == name);
            assert_eq!(
                found.map(|entry| entry.gives),
                Some(Gives::Measure(crate::measure::Dimension::NUMBER)),
                "{name}"
            );
        }
    }
}
