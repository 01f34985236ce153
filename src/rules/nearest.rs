//! One rule for one element, with what was read; where it holds, the comparison that came nearest to failing.

use super::eval::{Decision, Evaluator, Sides, Tells, Truth, Verdict, holds};
use super::node::Node;
use super::rule::Rule;
use crate::base::Span;
use crate::derive::{Datum, Evaluation, Read, Reads};
use crate::measure::Measure;
use crate::model::Id;
use crate::syntax::Relation;

/// What a rule came to for one element.
#[derive(Debug)]
pub struct Traced {
    /// What it comes to.
    pub verdict: Verdict,
    /// What decided, where it fails.
    pub decision: Option<Box<Decision>>,
    /// What was read for it.
    pub reads: Reads,
    /// Where it holds by comparisons, the one with the smallest margin as a share of its limit.
    pub nearest: Option<Nearest>,
}

/// A comparison that holds.
#[derive(Debug)]
pub struct Nearest {
    /// The side that the design gives.
    pub subject: Node,
    /// What it came to.
    pub value: Measure,
    /// The relation that it has to the limit.
    pub relation: Relation,
    /// The limit.
    pub limit: Measure,
    /// What was read for it; the value's side first.
    pub reads: Vec<Read>,
    /// How many of the reads are of the value's side.
    pub given: usize,
}

/// What a rule comes to for one element, with what was read.
pub fn trace(rule: &Rule, evaluation: &Evaluation<'_>, element: Id) -> Traced {
    let evaluator = Evaluator::new(rule, evaluation, Tells::Decision);
    let ((verdict, decision), reads) = evaluation.trace(|| evaluator.outcome(element));
    let mut held = Vec::new();
    if verdict == Verdict::Pass {
        comparisons(&evaluator, &rule.requirement, element, &mut held);
    }
    let nearest = held.into_iter().reduce(|least, next| if next.share() < least.share() { next } else { least });
    Traced { verdict, decision, reads, nearest }
}

/// The signed room between a value and its limit: below nothing where the relation does not hold.
pub fn margin(value: Measure, relation: Relation, limit: Measure) -> Measure {
    let over = value.value - limit.value;
    let room = match relation {
        Relation::Less | Relation::AtMost => -over,
        Relation::More | Relation::AtLeast => over,
        Relation::Equal => -over.abs(),
        Relation::Unequal => over.abs(),
    };
    Measure { value: room, ..value }
}

/// Whether a value is a number of things of which a condition says which count.
pub fn counts_conditions(node: &Node) -> bool {
    match node {
        Node::Count(collected) => collected.condition.is_some(),
        Node::Sum(a, _, b) => node.counts() && (counts_conditions(a) || counts_conditions(b)),
        _ => false,
    }
}

impl Nearest {
    /// The margin as a share of the limit, or of the value where the limit is nothing.
    fn share(&self) -> f64 {
        let room = margin(self.value, self.relation, self.limit).value;
        let whole = if self.limit.value == 0.0 { self.value.value } else { self.limit.value };
        if whole == 0.0 { 0.0 } else { (room / whole).abs() }
    }
}

/// The comparisons by which a condition holds; of what should not be so, none.
fn comparisons(evaluator: &Evaluator<'_, '_>, node: &Node, element: Id, found: &mut Vec<Nearest>) {
    match node {
        Node::All(terms) => terms.iter().for_each(|term| comparisons(evaluator, term, element, found)),
        Node::Any(terms) => {
            let holds =
                |term: &&Node| matches!(evaluator.evaluation.trace(|| evaluator.truth(term, element)).0, Truth::True);
            if let Some(term) = terms.iter().find(holds) {
                comparisons(evaluator, term, element, found);
            }
        }
        Node::Chain(terms, relations) => {
            for (pair, relation) in terms.windows(2).zip(relations) {
                if let [left, right] = pair {
                    found.extend(compared(evaluator, (left, right), *relation, element));
                }
            }
        }
        _ => {}
    }
}

/// One comparison, with the side that the design gives as its value, as the evaluation takes it.
fn compared(
    evaluator: &Evaluator<'_, '_>,
    (left, right): (&(Node, Span), &(Node, Span)),
    relation: Relation,
    element: Id,
) -> Vec<Nearest> {
    let sides = evaluator.evaluation.trace(|| evaluator.sides(&left.0, relation, &right.0, element)).0;
    let Sides { value, relation, value_is, limit_is, reads, given, .. } = sides;
    if counts_conditions(value) {
        return Vec::new();
    }
    let (Ok(values), Ok(limits)) = (value_is, limit_is) else { return Vec::new() };
    let limits = measures(&limits);
    let pairs = measures(&values).into_iter().flat_map(|value| limits.iter().map(move |limit| (value, *limit)));
    pairs
        .filter(|(is, limit)| holds(is.value, relation, limit.value, is.dimension))
        .map(|(is, limit)| Nearest {
            subject: value.clone(),
            value: is,
            relation,
            limit,
            reads: reads.reads.clone(),
            given,
        })
        .collect()
}

fn measures(datum: &Datum) -> Vec<Measure> {
    match datum {
        Datum::Measure(measure) => vec![*measure],
        Datum::List(items) => items.iter().map(|item| item.measure).collect(),
        Datum::Word(_) => Vec::new(),
    }
}
