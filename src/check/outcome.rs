//! Outcomes as values: what every rule came to for every element, passes too, with the figures and words behind it.
//!
//! They are worked out when they are asked for; an ordinary check keeps only what it reports.

use std::sync::Arc;

use super::Analysis;
use super::loaded::{LoadedSet, RuleRef};
use super::view::View;
use crate::derive::{Custom, CustomId, Evaluation, Need, Read, StatedRead};
use crate::measure::Measure;
use crate::model::{Design, Id};
use crate::rules::{self, Compared, Decision, Nearest, Node, Relation, Rule, Traced, Verdict};

/// What a rule came to for one element.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleOutcome {
    /// The stair, by its place among those drawn.
    pub stair: usize,
    /// As drawn, or as measured.
    pub view: View,
    /// The rule, and the set that was asked for.
    pub rule: RuleRef,
    /// The element.
    pub element: Id,
    /// Its path.
    pub path: String,
    /// How it came out.
    pub verdict: Settled,
    /// What was taken to be so where nothing states it.
    pub customs: Vec<&'static Custom>,
}

/// How a rule came out for one element.
#[derive(Debug, Clone, PartialEq)]
pub enum Settled {
    /// It holds.
    Pass(Grounds),
    /// It does not.
    Fail(Grounds),
    /// Its `where` does not hold.
    NotApplicable,
    /// It could not be settled without this.
    NotChecked(Need),
}

/// What decided.
#[derive(Debug, Clone, PartialEq)]
pub struct Grounds {
    /// The term: of a comparison the side that the design gives, else the condition.
    pub term: Node,
    /// The comparison, of a pass the one with the smallest margin as a share of its limit; none where words decided,
    /// or a number of things that meet a condition.
    pub comparison: Option<Comparison>,
    /// The stated places behind it, each once.
    pub stated: Vec<StatedRead>,
}

/// A value held against a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// What the design has.
    pub value: Measure,
    /// The relation that it is to have.
    pub relation: Relation,
    /// To what.
    pub limit: Measure,
    /// The room that is left, in the value's unit; below nothing by as much as is missed.
    pub margin: Measure,
}

impl Comparison {
    fn new(value: Measure, relation: Relation, limit: Measure) -> Self {
        Self { value, relation, limit, margin: rules::margin(value, relation, limit) }
    }
}

impl Analysis {
    /// What every rule came to for every element of every stair: as drawn, and as measured where it rests on measured
    /// figures. In the order of the stairs, views, sets, rules and elements.
    pub fn outcomes(&self) -> Vec<RuleOutcome> {
        let mut outcomes = Vec::new();
        for (at, (stair, sets)) in self.stairs.iter().zip(&self.stair_sets).enumerate() {
            of_view(at, View::Drawn, &stair.drawn, sets, &mut outcomes);
            if let Some(measured) = &stair.measured {
                of_view(at, View::Measured, measured, sets, &mut outcomes);
            }
        }
        outcomes
    }
}

fn of_view(stair: usize, view: View, design: &Design, sets: &[Arc<LoadedSet>], outcomes: &mut Vec<RuleOutcome>) {
    let (evaluation, paths) = (Evaluation::traced(design), design.paths());
    for loaded in sets {
        for rule in &loaded.set.rules {
            for element in design.of_kind(rule.kind) {
                let Some((verdict, customs)) = verdict(rule, &evaluation, element, view) else { continue };
                let path = paths.get(element).cloned().unwrap_or_default();
                let rule = RuleRef::new(loaded, rule);
                outcomes.push(RuleOutcome { stair, view, rule, element, path, verdict, customs });
            }
            let unread = rules::unread(rule, &evaluation).filter(|_| view == View::Drawn);
            outcomes.extend(unread.map(|missing| RuleOutcome {
                stair,
                view,
                rule: RuleRef::new(loaded, rule),
                element: 0,
                path: paths.first().cloned().unwrap_or_default(),
                verdict: Settled::NotChecked(Need::of(design, &missing)),
                customs: Vec::new(),
            }));
        }
    }
}

/// A verdict and the customs behind it; none in the measured view for what rests on drawn figures alone.
fn verdict(
    rule: &Rule,
    evaluation: &Evaluation<'_>,
    element: Id,
    view: View,
) -> Option<(Settled, Vec<&'static Custom>)> {
    let Traced { verdict, decision, reads, nearest } = rules::trace(rule, evaluation, element);
    let customs = reads.behind.customs().filter_map(CustomId::custom).collect();
    let (verdict, given) = match (verdict, decision, nearest) {
        (Verdict::Pass, _, Some(nearest)) => passed(nearest, evaluation),
        (Verdict::Pass, _, None) => {
            let grounds = grounds(rule.requirement.clone(), None, &reads.reads, evaluation);
            (Settled::Pass(grounds), reads.reads)
        }
        (Verdict::Fail, Some(decision), _) => failed(*decision, evaluation),
        (Verdict::Fail, None, _) => {
            let grounds = grounds(rule.requirement.clone(), None, &reads.reads, evaluation);
            (Settled::Fail(grounds), reads.reads)
        }
        (Verdict::NotApplicable, ..) => (Settled::NotApplicable, Vec::new()),
        (Verdict::NotChecked(missing), ..) => (Settled::NotChecked(Need::of(evaluation.design, &missing)), Vec::new()),
    };
    let counts = view == View::Drawn || evaluation.stated_behind(&given).iter().any(|stated| stated.measured);
    counts.then_some((verdict, customs))
}

/// A pass by a comparison, and what was read for its value.
fn passed(nearest: Nearest, evaluation: &Evaluation<'_>) -> (Settled, Vec<Read>) {
    let Nearest { subject, value, relation, limit, mut reads, given } = nearest;
    let grounds = grounds(subject, Some(Comparison::new(value, relation, limit)), &reads, evaluation);
    reads.truncate(given);
    (Settled::Pass(grounds), reads)
}

/// A failure, and what was read for its value.
fn failed(decision: Decision, evaluation: &Evaluation<'_>) -> (Settled, Vec<Read>) {
    let Decision { subject, compared, mut reads, given, .. } = decision;
    let comparison = match compared {
        Compared::Numbers(value, relation, limit) if !rules::counts_conditions(&subject) => {
            Some(Comparison::new(value, relation, limit))
        }
        _ => None,
    };
    let grounds = grounds(subject, comparison, &reads, evaluation);
    reads.truncate(given);
    (Settled::Fail(grounds), reads)
}

fn grounds(term: Node, comparison: Option<Comparison>, reads: &[Read], evaluation: &Evaluation<'_>) -> Grounds {
    Grounds { term, comparison, stated: evaluation.stated_behind(reads) }
}
