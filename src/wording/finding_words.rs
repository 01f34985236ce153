//! Pieces of a finding that its sentences share: who misses, what is asked, by how much.

use super::phrase;
use crate::check::RuleFinding;
use crate::measure::{Dimension, Measure, equal, print};
use crate::model::{Id, kinds};
use crate::rules::Relation;

/// `risers 2 to 4`, `handrail left and handrail right`.
pub(super) fn who(finding: &RuleFinding) -> String {
    let design = &finding.design;
    let called = design.called(finding.element);
    let more = || format!("{called} and {} more", finding.elements.len() - 1);
    let step = |id: &Id| design.get(*id).and_then(|element| element.step);
    let steps: Vec<usize> = finding.elements.iter().filter_map(step).collect();
    if let ([first, .., last], Some(element)) = (steps.as_slice(), design.get(finding.element)) {
        let parent = |id: &Id| design.get(*id).and_then(|step| step.parent);
        let parents: Vec<Option<Id>> = finding.elements.iter().map(parent).collect();
        if parents.windows(2).any(|pair| matches!(pair, [a, b] if a != b)) {
            return more();
        }
        let climbs = steps.windows(2).all(|pair| matches!(pair, [a, b] if a + 1 == *b));
        let listed = match (steps.len(), climbs) {
            (2, _) => format!("{} and {}", first + 1, last + 1),
            (_, true) => format!("{} to {}", first + 1, last + 1),
            _ => steps.iter().map(|step| (step + 1).to_string()).collect::<Vec<_>>().join(", "),
        };
        let steps = format!("{} {listed}", element.kind.plural);
        let flights = design.of_kind(kinds::FLIGHT).len() > 1;
        return if flights { format!("{steps} of {}", design.called(element.parent.unwrap_or(0))) } else { steps };
    }
    match finding.elements.as_slice() {
        [first, second] => format!("{} and {}", design.called(*first), design.called(*second)),
        [_, _, _, ..] => more(),
        _ => called,
    }
}

/// `at most 7-3/4"`; of a number of things `none`.
pub(super) fn asked(relation: Relation, limit: Measure, written: &str) -> String {
    let none = limit.value == 0.0 && matches!(relation, Relation::AtMost | Relation::Equal);
    let counts = limit.dimension == Dimension::NUMBER;
    if none && counts { "none".to_owned() } else { join(phrase::relation_words(relation), written) }
}

/// `at most`, and the limit.
pub(super) fn join(words: &str, limit: &str) -> String {
    if words.is_empty() { limit.to_owned() } else { format!("{words} {limit}") }
}

/// `1/4" too much`.
pub(super) fn miss(value: Measure, relation: Relation, limit: Measure) -> String {
    if value.style.is_slope() {
        return match relation {
            Relation::Less | Relation::AtMost => "too steep",
            _ => "not steep enough",
        }
        .to_owned();
    }
    if relation == Relation::Unequal {
        return "that is the one figure that it must not be".to_owned();
    }
    if equal(value.value, limit.value, value.dimension) {
        let none = limit.value == 0.0 && relation == Relation::More;
        return if none { "there is none" } else { "the limit itself does not count" }.to_owned();
    }
    let gap = Measure { value: (value.value - limit.value).abs(), ..value };
    let side = match (relation, value.value > limit.value) {
        (Relation::Equal, true) | (Relation::Less | Relation::AtMost, _) => "too much",
        (Relation::Equal, false) | (Relation::More | Relation::AtLeast, _) => "too little",
        (Relation::Unequal, _) => "off",
    };
    format!("{} {side}", print(gap))
}
