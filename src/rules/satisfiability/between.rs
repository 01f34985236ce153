//! Two rules that nothing keeps together: whatever both of them speak of breaks one or the other.

use super::{Asked, Place, Reasoner, Term, Ways, asks, both, clash, few};
use crate::rules::node::Node;
use crate::rules::problem::{Fault, LimitValue};
use crate::rules::rule::{Applies, Printed, Rule};

/// Why nothing keeps two rules that both require something, by the figures that stand first or by the metric ones beside
/// them, where one of the two speaks of all that the other speaks of. Of rules that only meet in a few things, such as a
/// guard that is a handrail too, nothing is said: that no such thing is built may be what they are for.
pub(in crate::rules) fn quarrel(one: &Rule, other: &Rule) -> Option<Fault> {
    let requires = |rule: &Rule| rule.shall && rule.applies == Applies::Always;
    if one.kind != other.kind || !requires(one) || !requires(other) || !(is_wider(one, other) || is_wider(other, one)) {
        return None;
    }
    let two = one.limits.iter().chain(&other.limits).any(|limit| limit.metric.is_some());
    let by = |printed| quarrel_by(one, other, printed);
    by(Printed::First).or_else(|| two.then(|| by(Printed::Metric)).flatten())
}

/// Whether a rule speaks of all that another speaks of: what narrows it narrows the other too.
fn is_wider(one: &Rule, other: &Rule) -> bool {
    let terms = |rule: &'_ Rule| -> Vec<Node> {
        match &rule.condition {
            Some(Node::All(terms)) => terms.clone(),
            condition => condition.iter().cloned().collect(),
        }
    };
    let others = terms(other);
    terms(one).iter().all(|term| others.contains(term))
}

fn quarrel_by(one: &Rule, other: &Rule, printed: Printed) -> Option<Fault> {
    let [first, second] = [one, other].map(|rule| Reasoner { rule, printed });
    let asks_one = first.ways(&one.requirement, Place::Requirement, Asked::Holds)?;
    let asks_other = second.ways(&other.requirement, Place::Requirement, Asked::Holds)?;
    let alike = |term: &Term<'_>| asks_other.iter().flatten().any(|other| other.alike(term));
    // Most ask of something else, which is soon seen.
    if !asks_one.iter().flatten().any(alike) {
        return None;
    }
    let mut together = both(narrowed(&first)?, narrowed(&second)?)?;
    together.retain(|way| clash(way).is_none());
    let asks_both = both(asks_one.clone(), asks_other.clone())?;
    let leaves = |way: &[Term<'_>], asks: &Ways<'_>| asks.iter().any(|asked| clash(&[way, asked].concat()).is_none());
    if together.is_empty() || ![&asks_one, &asks_other, &asks_both].iter().all(|asks| few(&together, asks)) {
        return None;
    }
    let broken = |way: &Vec<Term<'_>>| leaves(way, &asks_one) && leaves(way, &asks_other) && !leaves(way, &asks_both);
    together.iter().all(broken).then(|| Fault::NeverBothRules {
        words: first.words((Place::Requirement, asks(one))),
        limits: limits(one, &asks_one),
        other: (other.name.clone(), other.set.clone()),
        other_words: second.words((Place::Requirement, asks(other))),
        other_limits: limits(other, &asks_other),
    })
}

/// All the ways for a thing to be one that a rule speaks of; nothing if they are too many.
fn narrowed<'n>(reasoner: &Reasoner<'n>) -> Option<Ways<'n>> {
    let rule = reasoner.rule;
    match &rule.condition {
        Some(condition) => reasoner.ways(condition, Place::Condition, Asked::Holds),
        None => Some(vec![Vec::new()]),
    }
}

/// The limits that some ways read, with their values.
fn limits(rule: &Rule, ways: &Ways<'_>) -> Vec<LimitValue> {
    let mut read: Vec<usize> = ways.iter().flatten().flat_map(Term::limits).collect();
    read.sort_unstable();
    read.dedup();
    Reasoner { rule, printed: Printed::First }.values(&read)
}
