//! Limits so far off that nothing in proportion runs into them: whatever would be drawn meets them, or nothing would.
//!
//! What is stated lies within the range of sense of its property, and what is reckoned from it within what those ranges
//! leave. A comparison that is settled by them alone decides nothing between one stair and another.

use super::node::{Node, What};
use super::problem::{LimitValue, Settles};
use super::rule::{Limit, Rule};
use super::satisfiability::read_limits;
use crate::base::{Passage, Source, Span};
use crate::derive::Quantity;
use crate::model::{KINDS, Property, PropertyName, Takes};
use crate::syntax::{Aggregate, Relation};

/// A comparison that the ranges of sense settle.
pub(super) struct OutOfProportion {
    /// What that does to the rule.
    pub settles: Settles,
    /// Its words.
    pub words: Passage,
    /// The limits that it reads, by their places in the rule's list.
    pub limits: Vec<usize>,
}

impl OutOfProportion {
    /// The words of a text to which it is reported: those of the first limit that the text states, else its own.
    pub fn place(&self, rule: &Rule, source: &Source) -> Option<Span> {
        let stated = self.limits.iter().filter_map(|at| rule.limits.get(*at)).find(|limit| limit.source == *source);
        stated.map(|limit| limit.span).or_else(|| (self.words.source == *source).then_some(self.words.span))
    }

    /// The limits with their values.
    pub fn values(&self, rule: &Rule) -> Vec<LimitValue> {
        let named = self.limits.iter().filter_map(|at| rule.limits.get(*at));
        let value = |limit: &Limit| LimitValue { name: limit.name.clone(), value: limit.measure, metric: limit.metric };
        named.map(value).collect()
    }
}

/// The first comparison of a rule that the ranges of sense settle.
pub(super) fn out_of_proportion(rule: &Rule) -> Option<OutOfProportion> {
    let narrows = rule.condition.as_ref().zip(rule.narrows.as_ref());
    let narrowed = narrows.and_then(|(node, (source, _))| settled(node, rule, source, &[(Some(false), Settles::Idle)]));
    narrowed.or_else(|| {
        let asked = [(Some(true), Settles::Met), (Some(false), Settles::Unmet)];
        settled(&rule.requirement, rule, &rule.source, &asked)
    })
}

/// The first comparison within a condition that comes out so whatever would be drawn.
fn settled(node: &Node, rule: &Rule, source: &Source, wanted: &[(Option<bool>, Settles)]) -> Option<OutOfProportion> {
    match node {
        Node::All(terms) => terms.iter().find_map(|term| settled(term, rule, source, wanted)),
        // One that is always so makes the whole so; of others that are never so the rest may still hold.
        Node::Any(terms) => {
            let always: Vec<_> = wanted.iter().copied().filter(|(comes, _)| *comes == Some(true)).collect();
            terms.iter().find_map(|term| settled(term, rule, source, &always))
        }
        Node::Chain(terms, relations) => terms.windows(2).zip(relations).find_map(|(pair, relation)| {
            let [(a, first), (b, second)] = pair else { return None };
            let (a, b) = (each_row(a, rule), each_row(b, rule));
            a.iter().flat_map(|a| b.iter().map(move |b| (a, b))).find_map(|((a, of_a), (b, of_b))| {
                let comes = compare(*a, *relation, *b);
                let (_, settles) = wanted.iter().find(|(wanted, _)| comes.is_some() && *wanted == comes)?;
                let limits = [of_a.as_slice(), of_b].concat();
                Some(OutOfProportion { settles: *settles, words: source.passage(first.to(*second)), limits })
            })
        }),
        _ => None,
    }
}

/// The range of a value and the limits that it reads; of a table each row by itself, for each counts for some.
fn each_row(node: &Node, rule: &Rule) -> Vec<(Range, Vec<usize>)> {
    if let Node::ByRow(_) = node {
        return node.limits().into_iter().map(|at| (range(&Node::Limit(at), rule), vec![at])).collect();
    }
    let mut limits = Vec::new();
    read_limits(node, &mut limits);
    vec![(range(node, rule), limits)]
}

/// From the least to the most that a value makes sense as.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Range {
    least: f64,
    most: f64,
}

impl Range {
    const ANY: Self = Self { least: f64::NEG_INFINITY, most: f64::INFINITY };

    fn one(value: f64) -> Self {
        Self { least: value, most: value }
    }

    fn from(least: f64) -> Self {
        Self { least, most: f64::INFINITY }
    }

    fn of(ends: [f64; 2]) -> Self {
        let [a, b] = ends;
        if a.is_nan() || b.is_nan() { Self::ANY } else { Self { least: a.min(b), most: a.max(b) } }
    }

    fn together(self, other: Self) -> Self {
        Self { least: self.least.min(other.least), most: self.most.max(other.most) }
    }
}

/// Whether a comparison comes out the same for all values of two ranges, and how. At the end of a range it is open, for
/// where sense ends nobody knows so exactly; but what a limit itself allows as the end of sense it allows.
fn compare(a: Range, relation: Relation, b: Range) -> Option<bool> {
    let below = a.most < b.least;
    let above = a.least > b.most;
    let one = |range: Range| range.most <= range.least;
    match relation {
        Relation::AtMost if one(b) && !one(a) && a.most <= b.least => Some(true),
        Relation::AtLeast if one(b) && !one(a) && a.least >= b.most => Some(true),
        Relation::AtMost if one(a) && !one(b) && a.most <= b.least => Some(true),
        Relation::AtLeast if one(a) && !one(b) && a.least >= b.most => Some(true),
        Relation::Less | Relation::AtMost if below => Some(true),
        Relation::Less | Relation::AtMost if above => Some(false),
        Relation::More | Relation::AtLeast if above => Some(true),
        Relation::More | Relation::AtLeast if below => Some(false),
        Relation::Equal if below || above => Some(false),
        Relation::Unequal if below || above => Some(true),
        _ => None,
    }
}

fn range(node: &Node, rule: &Rule) -> Range {
    let of = |node: &Node| range(node, rule);
    match node {
        Node::Figure(figure) => Range::one(figure.value),
        Node::Limit(at) => rule.limits.get(*at).map_or(Range::ANY, |limit| Range::one(limit.measure.value)),
        Node::Read(what, _) => of_what(*what),
        Node::Over(Aggregate::Largest | Aggregate::Smallest, what, _) => {
            // Where there are none it comes to nothing.
            of_what(*what).together(Range::one(0.0))
        }
        Node::Over(Aggregate::Total | Aggregate::Change | Aggregate::Increase | Aggregate::Decrease, ..)
        | Node::Count(_) => Range::from(0.0),
        // Any row of a table may be the one that counts.
        Node::ByRow(_) | Node::Between(..) => {
            let rows = node.limits().into_iter().map(|at| of(&Node::Limit(at)));
            rows.reduce(Range::together).unwrap_or(Range::ANY)
        }
        Node::Drawn(inner) | Node::Measured(inner) => of(inner),
        Node::ReadAt(..) => Range::ANY,
        Node::Negative(inner) => {
            let inner = of(inner);
            Range { least: -inner.most, most: -inner.least }
        }
        Node::Sum(a, minus, b) => {
            let (a, b) = (of(a), of(b));
            match minus {
                false => Range::of([a.least + b.least, a.most + b.most]),
                true => Range::of([a.least - b.most, a.most - b.least]),
            }
        }
        Node::Product(a, over, b) => product(of(a), *over, of(b)),
        Node::Pick(greater, a, b) => {
            let (a, b) = (of(a), of(b));
            let pick = |a: f64, b: f64| if *greater { a.max(b) } else { a.min(b) };
            Range { least: pick(a.least, b.least), most: pick(a.most, b.most) }
        }
        Node::Any(_) | Node::All(_) | Node::Not(_) | Node::Chain(..) | Node::Is(..) => Range::ANY,
    }
}

fn product(a: Range, over: bool, b: Range) -> Range {
    // What may be divided by nothing has no bounds.
    if over && b.least <= 0.0 && b.most >= 0.0 {
        return Range::ANY;
    }
    let ends = [a.least, a.most].into_iter().flat_map(|a| [b.least, b.most].map(|b| if over { a / b } else { a * b }));
    let ends: Vec<f64> = ends.collect();
    if ends.iter().any(|end| end.is_nan()) {
        return Range::ANY;
    }
    Range {
        least: ends.iter().copied().fold(f64::INFINITY, f64::min),
        most: ends.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    }
}

fn of_what(what: What) -> Range {
    match what {
        What::Property(property) => of_property(property),
        What::Quantity(entry) => of_quantity(entry),
        What::At(..) => Range::ANY,
    }
}

/// Of what takes a figure: a range beside words is that of a figure in them.
fn of_property(property: &Property) -> Range {
    let figure = matches!(
        property.takes,
        Takes::Length | Takes::Lengths | Takes::Angle | Takes::Area | Takes::Slope | Takes::Number | Takes::Count
    );
    property.range.filter(|_| figure).map_or(Range::ANY, |range| Range { least: range.least, most: range.most })
}

/// Of a quantity that is a stated figure, or the mean or the largest of some; a sum is only as large as one at least.
fn of_quantity(entry: &'static Quantity) -> Range {
    let stated = |name: PropertyName| {
        let rows = KINDS.iter().filter_map(|kind| kind.has(name)).map(of_property);
        rows.reduce(Range::together).unwrap_or(Range::ANY)
    };
    match (entry.is_as_stated(), entry.adds_up()) {
        (Some(name), _) => stated(name),
        (None, Some(name)) => Range::from(stated(name).least),
        (None, None) => Range::ANY,
    }
}
