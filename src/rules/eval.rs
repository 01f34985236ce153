//! A rule held against a design: outcomes, each with the term that decided.

use std::borrow::Cow;

use super::node::{Collected, Node, Place, What};
use super::rule::Rule;
use crate::base::Span;
use crate::derive::{Datum, Drawing, Missing, Read, Reason, Working};
use crate::measure::{self, Dimension, Measure};
use crate::model::{Id, Kind};
use crate::syntax::{Aggregate, Relation};

/// What a rule came to for one element.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// The element.
    pub element: Id,
    /// How it stands.
    pub standing: Standing,
}

/// How a rule stands for one element. The names are those of published checklist standards.
#[derive(Debug, Clone)]
pub enum Standing {
    /// It holds.
    Pass,
    /// It is broken, or the advice is not met.
    Fail(Box<Decider>),
    /// Its `where` does not hold.
    NotApplicable,
    /// Something is not stated.
    NotChecked(Missing),
}

impl Standing {
    /// The word for it, by the rule's verb.
    #[cfg(feature = "cli")]
    pub fn word(&self, shall: bool) -> &'static str {
        match self {
            Standing::Pass => "passes",
            Standing::Fail(_) if shall => "broken",
            Standing::Fail(_) => "advised",
            Standing::NotApplicable => "does not apply",
            Standing::NotChecked(_) => "not checked",
        }
    }
}

/// The term of a requirement that decided.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Decider {
    /// The side that the design gives; of a condition that should not be so, the condition.
    pub subject: Node,
    /// What was compared.
    pub compared: Compared,
    /// What was read for it; the value's side first.
    pub reads: Vec<Read>,
    /// How many of the reads are of the value's side.
    pub given: usize,
    /// The item of a stated list that decided, where the value is one.
    pub item: Option<Span>,
    /// The value counts things, perhaps narrowed by a condition.
    pub counted: bool,
    /// A kind of thing that is lacking, where that is the trouble.
    pub lacking: Option<&'static Kind>,
}

/// What was compared.
#[derive(Debug, Clone, PartialEq)]
pub enum Compared {
    /// Numbers: the value, the relation it should have to the limit, the limit.
    Numbers(Measure, Relation, Measure),
    /// Words: the word found, whether it should not be, the words asked for.
    Words(String, bool, Vec<String>),
    /// A condition that should not hold.
    Denied,
}

impl Decider {
    /// How far the value is on the wrong side, in base units; nothing for words.
    pub fn miss(&self) -> f64 {
        match &self.compared {
            Compared::Numbers(value, _, limit) => (value.value - limit.value).abs(),
            _ => 0.0,
        }
    }
}

/// Holds a rule against every element it speaks of.
pub fn hold(rule: &Rule, working: &Working<'_>) -> Vec<Outcome> {
    let judge = Judge { rule, w: working };
    let elements: Vec<Id> = working.design.of_kind(rule.kind).collect();
    elements.into_iter().map(|element| Outcome { element, standing: judge.standing(element) }).collect()
}

/// Three values: true, false with what decided, not known with what would settle it.
pub(super) enum Truth {
    True,
    False(Option<Box<Decider>>),
    Unknown(Missing),
}

pub(super) struct Judge<'a, 'd> {
    pub rule: &'a Rule,
    pub w: &'a Working<'d>,
}

impl Judge<'_, '_> {
    pub fn standing(&self, element: Id) -> Standing {
        if let Some(condition) = &self.rule.condition {
            match self.truth(condition, element) {
                Truth::True => {}
                Truth::False(_) => return Standing::NotApplicable,
                Truth::Unknown(missing) => return Standing::NotChecked(missing),
            }
        }
        match self.truth(&self.rule.requirement, element) {
            Truth::True => Standing::Pass,
            Truth::False(Some(decider)) => Standing::Fail(decider),
            Truth::False(None) => Standing::Fail(Box::new(Decider {
                subject: self.rule.requirement.clone(),
                compared: Compared::Denied,
                reads: Vec::new(),
                given: 0,
                item: None,
                counted: false,
                lacking: None,
            })),
            Truth::Unknown(missing) => Standing::NotChecked(missing),
        }
    }

    pub fn truth(&self, node: &Node, element: Id) -> Truth {
        match node {
            Node::All(terms) => {
                let mut unknown = None;
                for term in terms {
                    match self.truth(term, element) {
                        Truth::True => {}
                        Truth::False(decider) => return Truth::False(decider),
                        Truth::Unknown(missing) => unknown = unknown.or(Some(missing)),
                    }
                }
                unknown.map_or(Truth::True, Truth::Unknown)
            }
            Node::Any(terms) => {
                let (mut unknown, mut decider): (_, Option<Box<Decider>>) = (None, None);
                for term in terms {
                    match self.truth(term, element) {
                        Truth::True => return Truth::True,
                        Truth::False(found) => decider = decider.or(found),
                        Truth::Unknown(missing) => unknown = unknown.or(Some(missing)),
                    }
                }
                unknown.map_or(Truth::False(decider), Truth::Unknown)
            }
            Node::Not(inner) => match self.truth(inner, element) {
                Truth::True => Truth::False(None),
                Truth::False(_) => Truth::True,
                Truth::Unknown(missing) => Truth::Unknown(missing),
            },
            Node::Chain(terms, relations) => self.chain(terms, relations, element),
            Node::Is(subject, not, words, _) => {
                let (value, reads) = self.w.trace(|| self.value(subject, element));
                let (truth, reads) = match value {
                    Ok(Datum::Word(word)) if words.iter().any(|asked| *asked == word) != *not => (Truth::True, reads),
                    Ok(Datum::Word(word)) => {
                        let decider = Decider {
                            subject: (**subject).clone(),
                            compared: Compared::Words(word.into_owned(), *not, words.clone()),
                            given: reads.len(),
                            reads: reads.clone(),
                            item: None,
                            counted: false,
                            lacking: None,
                        };
                        (Truth::False(Some(Box::new(decider))), reads)
                    }
                    Ok(_) => (Truth::False(None), reads),
                    Err(missing) => (Truth::Unknown(missing), reads),
                };
                self.w.note_again(reads);
                truth
            }
            // The resolver lets only conditions stand here.
            _ => Truth::False(None),
        }
    }

    fn chain(&self, terms: &[(Node, Span)], relations: &[Relation], element: Id) -> Truth {
        let mut unknown = None;
        for (pair, relation) in terms.windows(2).zip(relations) {
            let [(left, _), (right, _)] = pair else { continue };
            // The side that the design gives is the value; the other is its limit.
            let turned = (left.is_constant() && !right.is_constant()) || (right.is_plain() && !left.is_plain());
            let (value, limit, relation) =
                if turned { (right, left, relation.turned()) } else { (left, right, *relation) };
            let (value_is, mut reads) = self.w.trace(|| self.value(value, element));
            let (limit_is, limit_reads) = self.w.trace(|| self.value(limit, element));
            let given = reads.len();
            reads.extend(limit_reads);
            let (value_is, limit_is) = match (value_is, limit_is) {
                (Ok(value), Ok(limit)) => (value, limit),
                (Err(missing), _) | (_, Err(missing)) => {
                    self.w.note_again(reads);
                    unknown = unknown.or(Some(missing));
                    continue;
                }
            };
            let Some((value_is, item, limit_is)) = worst(&value_is, relation, &limit_is) else {
                self.w.note_again(reads);
                continue;
            };
            self.w.note_again(reads.clone());
            {
                let compared = Compared::Numbers(value_is, relation, limit_is);
                let lacking = lacking(value, relation);
                let counted = value.counts();
                return Truth::False(Some(Box::new(Decider {
                    subject: value.clone(),
                    compared,
                    reads,
                    given,
                    item,
                    counted,
                    lacking,
                })));
            }
        }
        unknown.map_or(Truth::True, Truth::Unknown)
    }

    pub fn value(&self, node: &Node, element: Id) -> Result<Datum, Missing> {
        let number = |node: &Node| self.number(node, element);
        match node {
            Node::Figure(measure) => Ok(Datum::Measure(*measure)),
            Node::Limit(at) => {
                let limit = self.rule.limits.get(*at).map(|limit| limit.measure);
                Ok(Datum::Measure(limit.unwrap_or(Measure::number(f64::NAN))))
            }
            Node::Read(what, path) => {
                let mut at = element;
                for kind in path {
                    let needs = || Missing { element: at, reason: Reason::NotDrawn(Drawing::TheOne(kind)) };
                    at = self.w.design.related(at, kind).ok_or_else(needs)?;
                }
                self.read(*what, at)
            }
            Node::Sum(a, minus, b) => {
                let (a, b) = (number(a)?, number(b)?);
                let value = if *minus { a.value - b.value } else { a.value + b.value };
                Ok(Datum::Measure(Measure { value, ..a }))
            }
            Node::Product(a, over, b) => {
                let (a, b) = (number(a)?, number(b)?);
                let dimension = if *over { a.dimension.over(b.dimension) } else { a.dimension.times(b.dimension) };
                let value = if *over { a.value / b.value } else { a.value * b.value };
                let style = if b.dimension == Dimension::LENGTH { b.style } else { a.style };
                Ok(Datum::Measure(Measure { value, dimension, style: style.for_dimension(dimension) }))
            }
            Node::Negative(inner) => {
                let inner = number(inner)?;
                Ok(Datum::Measure(Measure { value: -inner.value, ..inner }))
            }
            Node::Pick(greater, a, b) => {
                let (a, b) = (number(a)?, number(b)?);
                let first = if *greater { a.value >= b.value } else { a.value <= b.value };
                Ok(Datum::Measure(if first { a } else { b }))
            }
            Node::Count(collected) => {
                let found = self.collect(collected, element)?;
                #[allow(clippy::cast_precision_loss)]
                let count = found.len() as f64;
                Ok(Datum::Measure(Measure::number(count)))
            }
            Node::Over(aggregate, what, collected) => self.over(*aggregate, *what, collected, element),
            // The resolver lets only values stand here.
            _ => Ok(Datum::Word(Cow::Borrowed(""))),
        }
    }

    fn number(&self, node: &Node, element: Id) -> Result<Measure, Missing> {
        match self.value(node, element)? {
            Datum::Measure(measure) => Ok(measure),
            // A list in a sum stands for its largest: the sums of a stair ask how much there is at most.
            Datum::List(items) => {
                let largest = items.iter().map(|item| item.measure).max_by(|a, b| a.value.total_cmp(&b.value));
                Ok(largest.unwrap_or(Measure::number(f64::NAN)))
            }
            Datum::Word(_) => Ok(Measure::number(f64::NAN)),
        }
    }

    fn read(&self, what: What, element: Id) -> Result<Datum, Missing> {
        match what {
            What::Quantity(entry) => self.w.derived(element, entry, None),
            What::At(entry, Place::Figure(place)) => self.w.derived(element, entry, Some(place)),
            What::At(entry, Place::Limit(at)) => {
                self.w.derived(element, entry, self.rule.limits.get(at).map(|limit| limit.measure))
            }
            What::Property(property) => self.w.stated(element, property.handle()),
        }
    }

    fn collect(&self, collected: &Collected, element: Id) -> Result<Vec<Id>, Missing> {
        let all = self.w.things(collected.kind, element)?;
        let Some(condition) = &collected.condition else { return Ok(all) };
        let mut kept = Vec::new();
        for id in all {
            match self.truth(condition, id) {
                Truth::True => kept.push(id),
                Truth::False(_) => {}
                Truth::Unknown(missing) => return Err(missing),
            }
        }
        Ok(kept)
    }

    /// Sums up, and notes as read only what decided: the largest, or the two neighbours that differ most.
    fn over(&self, aggregate: Aggregate, what: What, collected: &Collected, element: Id) -> Result<Datum, Missing> {
        let mut seen: Vec<(Measure, Vec<Read>)> = Vec::new();
        // Which things there are is not what decides here; the items are.
        let (things, _) = self.w.trace(|| self.collect(collected, element));
        for id in things? {
            let (datum, reads) = self.w.trace(|| self.read(what, id));
            match datum? {
                Datum::Measure(measure) => seen.push((measure, reads)),
                Datum::List(items) => seen.extend(items.iter().map(|item| (item.measure, reads.clone()))),
                Datum::Word(_) => {}
            }
        }
        let nothing = || Missing { element, reason: Reason::NotDrawn(Drawing::A(collected.kind)) };
        let by = |a: &&(Measure, Vec<Read>), b: &&(Measure, Vec<Read>)| a.0.value.total_cmp(&b.0.value);
        let (measure, reads) = match aggregate {
            Aggregate::Largest => seen.iter().rev().max_by(by).cloned().ok_or_else(nothing)?,
            Aggregate::Smallest => seen.iter().min_by(by).cloned().ok_or_else(nothing)?,
            Aggregate::Total => {
                let first = seen.first().ok_or_else(nothing)?.0;
                let value = seen.iter().map(|(measure, _)| measure.value).sum();
                (Measure { value, ..first }, seen.iter().flat_map(|(_, reads)| reads.clone()).collect())
            }
            Aggregate::Change => {
                let first = seen.first().ok_or_else(nothing)?.0;
                let none = (Measure { value: 0.0, ..first }, Vec::new());
                let steps = seen.windows(2).filter_map(|pair| match pair {
                    [(a, from), (b, to)] => {
                        let reads = to.iter().chain(from).cloned().collect();
                        Some((Measure { value: (b.value - a.value).abs(), ..*a }, reads))
                    }
                    _ => None,
                });
                steps.fold(
                    none,
                    |best, step: (Measure, Vec<Read>)| if step.0.value > best.0.value { step } else { best },
                )
            }
        };
        self.w.note_again(reads);
        Ok(Datum::Measure(measure))
    }
}

/// What is not there, where a count or an unguarded drop decides.
fn lacking(value: &Node, relation: Relation) -> Option<&'static Kind> {
    match value {
        Node::Count(Collected { kind, .. }) if !kind.example.is_empty() => {
            matches!(relation, Relation::AtLeast | Relation::More).then_some(*kind)
        }
        // A sum of counts lacks what the first of them counts.
        Node::Sum(first, false, _) => lacking(first, relation),
        Node::Read(What::Quantity(entry), _) => entry.cure,
        _ => None,
    }
}

/// Whether a relation holds. A value at its limit passes `<=` and fails `<`.
pub fn holds(value: f64, relation: Relation, limit: f64, dimension: Dimension) -> bool {
    // A division by nothing is at its limit, whatever that is.
    let same = measure::equal(value, limit, dimension) || (value - limit).is_infinite();
    match relation {
        Relation::Less => value < limit && !same,
        Relation::AtMost => value <= limit || same,
        Relation::More => value > limit && !same,
        Relation::AtLeast => value >= limit || same,
        Relation::Equal => same,
        Relation::Unequal => !same,
    }
}

/// The pair that misses by most, if any does; lists are held item by item.
fn worst(value: &Datum, relation: Relation, limit: &Datum) -> Option<(Measure, Option<Span>, Measure)> {
    let items = |datum: &Datum| match datum {
        Datum::Measure(measure) => vec![(*measure, None)],
        Datum::List(items) => items.iter().map(|item| (item.measure, Some(item.span))).collect(),
        Datum::Word(_) => Vec::new(),
    };
    let limits = items(limit);
    let pairs = items(value).into_iter().flat_map(|value| limits.clone().into_iter().map(move |limit| (value, limit)));
    pairs
        .map(|((value, item), (limit, _))| (value, item, limit))
        .filter(|(value, _, limit)| !holds(value.value, relation, limit.value, value.dimension))
        .max_by(|a, b| (a.0.value - a.2.value).abs().total_cmp(&(b.0.value - b.2.value).abs()))
}
