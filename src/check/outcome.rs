//! Outcomes as values: what every rule came to for every element, passes too, with the figures and words behind it.
//!
//! They are worked out when they are asked for; an ordinary check keeps only what it reports.

use std::sync::Arc;

use super::Analysis;
use super::finding::Finding;
use super::loaded::{LoadedSet, RuleRef};
use super::rule_finding::RuleFinding;
use super::view::View;
use super::waived::Waivers;
use crate::derive::{Custom, CustomId, Evaluation, Need, Read, StatedRead};
use crate::measure::Measure;
use crate::model::{Design, Id, Waiver};
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
    /// The waiver that excuses it.
    pub waived: Option<Arc<Waiver>>,
    /// A baseline knows it.
    pub known: bool,
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
        self.outcomes_of(&|_| true)
    }

    /// The same of some rules alone.
    pub fn outcomes_of(&self, wanted: &dyn Fn(&Rule) -> bool) -> Vec<RuleOutcome> {
        let mut outcomes = Vec::new();
        for (at, (stair, sets)) in self.stairs.iter().zip(&self.stair_sets).enumerate() {
            let waivers = Waivers::of(&stair.drawn, self.on);
            of_view((at, View::Drawn), &stair.drawn, (sets, wanted), &waivers, &mut outcomes);
            if let Some(measured) = &stair.measured {
                of_view((at, View::Measured), measured, (sets, wanted), &waivers, &mut outcomes);
            }
        }
        for outcome in outcomes.iter_mut().filter(|outcome| outcome.waived.is_none()) {
            outcome.known = self.knows(outcome);
        }
        outcomes
    }

    /// Whether a baseline knows of what an outcome is about.
    fn knows(&self, outcome: &RuleOutcome) -> bool {
        let Some(stair) = self.stairs.get(outcome.stair) else { return false };
        let design = if outcome.view == View::Measured { stair.measured.as_ref() } else { Some(&stair.drawn) };
        let is_of = |finding: &RuleFinding| {
            let of_rule = finding.known && finding.rule == outcome.rule && finding.elements.contains(&outcome.element);
            of_rule && design.is_some_and(|design| Arc::ptr_eq(design, &finding.design))
        };
        match &outcome.verdict {
            Settled::Fail(_) => self.report.findings.iter().any(|finding| match finding {
                Finding::Rule(finding) => is_of(finding),
                Finding::Reader(_) => false,
            }),
            Settled::NotChecked(needs) => {
                let (set, rule) = (&outcome.rule.set().title, &outcome.rule.rule().name);
                let mut of_rule = self.report.not_checked.iter().filter(|item| item.set == *set && item.rule == *rule);
                !needs.reason.is_of_what_was_not_understood() && of_rule.any(|item| item.known)
            }
            Settled::Pass(_) | Settled::NotApplicable => false,
        }
    }
}

/// Which rules are asked about.
type Wanted<'w> = &'w dyn Fn(&Rule) -> bool;

fn of_view(
    (stair, view): (usize, View),
    design: &Design,
    (sets, wanted): (&[Arc<LoadedSet>], Wanted<'_>),
    waivers: &Waivers,
    outcomes: &mut Vec<RuleOutcome>,
) {
    let (evaluation, paths) = (Evaluation::traced(design), design.paths());
    for loaded in sets {
        for rule in loaded.set.rules.iter().filter(|rule| wanted(rule)) {
            for element in design.of_kind(rule.kind) {
                let excusing =
                    |verdict: &Verdict| waivers.excusing(design, &loaded.set, rule, element, verdict).cloned();
                let Some(came) = verdict(rule, &evaluation, element, view, &excusing) else { continue };
                let Came { verdict, customs, waived } = came;
                let path = paths.get(element).cloned().unwrap_or_default();
                let rule = RuleRef::new(loaded, rule);
                outcomes.push(RuleOutcome { stair, view, rule, element, path, verdict, customs, waived, known: false });
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
                waived: None,
                known: false,
            }));
        }
    }
}

/// A verdict, the customs behind it and the waiver that excuses it.
struct Came {
    verdict: Settled,
    customs: Vec<&'static Custom>,
    waived: Option<Arc<Waiver>>,
}

/// A verdict with what goes with it; none in the measured view for what rests on drawn figures alone.
fn verdict(
    rule: &Rule,
    evaluation: &Evaluation<'_>,
    element: Id,
    view: View,
    excusing: &dyn Fn(&Verdict) -> Option<Arc<Waiver>>,
) -> Option<Came> {
    let Traced { verdict, decision, reads, nearest } = rules::trace(rule, evaluation, element);
    let waived = excusing(&verdict);
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
    counts.then_some(Came { verdict, customs, waived })
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
