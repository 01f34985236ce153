//! Findings of one cause are one group: those that one change of the text cures, else those that rest on the same
//! words.
//!
//! Groups stand in the order of their gravest finding, then of its place in the text; within a group the gravest comes
//! first, then by place. Findings that are equal in both stay in the order in which they were found: that of the
//! stairs, views, sets and rules.

use std::collections::BTreeSet;
use std::ops::Range;

use super::finding::Finding;
use super::fix::{Fix, Tried};
use super::loaded::RuleRef;
use super::rule_finding::{Role, RuleFinding};
use super::view::CheckedView;
use crate::base::Span;
use crate::model::Id;

/// Findings of one cause, the gravest first.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Group {
    /// Their places among the findings of the report.
    pub findings: Range<usize>,
    /// What they have in common.
    pub cause: Cause,
}

/// What the findings of a group have in common.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Cause {
    /// Nothing: it is one finding.
    Own,
    /// This change, which was tried, cures all of them.
    Change(Box<Fix>),
    /// These words are the first to change for each of them, and no change that was found cures all.
    Words(Span),
}

/// Findings of one cause before all are put in order.
pub(super) struct OfOneCause {
    cause: Cause,
    findings: Vec<Finding>,
}

/// The findings of one stair in one view, by their causes.
pub(super) fn of_rules(view: &CheckedView<'_>, mut found: Vec<RuleFinding>) -> Vec<OfOneCause> {
    found.sort_by_key(|finding| (finding.severity(), finding.place()));
    let (mut groups, mut left): (Vec<(Cause, Vec<usize>)>, Vec<usize>) = (Vec::new(), (0..found.len()).collect());
    let cures = cures(view, &found);
    while let Some((cause, cured)) = widest(&cures, &left) {
        left.retain(|at| !cured.contains(at));
        groups.push((Cause::Change(Box::new(cause.clone())), cured));
    }
    while let Some(first) = left.first().copied() {
        let words = found.get(first).and_then(stated_words);
        let (alike, others): (Vec<usize>, Vec<usize>) = left
            .iter()
            .partition(|at| **at == first || words.is_some() && found.get(**at).and_then(stated_words) == words);
        let cause = words.filter(|_| alike.len() > 1).map_or(Cause::Own, Cause::Words);
        groups.push((cause, alike));
        left = others;
    }
    let mut found: Vec<Option<RuleFinding>> = found.into_iter().map(Some).collect();
    let mut take = |at: usize| found.get_mut(at).and_then(Option::take).map(|finding| Finding::Rule(Box::new(finding)));
    groups
        .into_iter()
        .map(|(cause, members)| OfOneCause { cause, findings: members.into_iter().filter_map(&mut take).collect() })
        .collect()
}

/// All findings of a report in their order, and the groups that they make.
pub(super) fn in_order(readers: Vec<Finding>, of_rules: Vec<OfOneCause>) -> (Vec<Finding>, Vec<Group>) {
    let readers = readers.into_iter().map(|finding| OfOneCause { cause: Cause::Own, findings: vec![finding] });
    let mut grouped: Vec<OfOneCause> = readers.chain(of_rules).collect();
    grouped.sort_by_key(|group| group.findings.first().map(|finding| (finding.severity(), finding.place())));
    let (mut findings, mut groups) = (Vec::new(), Vec::new());
    for OfOneCause { cause, findings: members } in grouped {
        let first = findings.len();
        findings.extend(members);
        groups.push(Group { findings: first..findings.len(), cause });
    }
    (findings, groups)
}

/// A change, and the findings that it cures by their places.
type Cures<'f> = (&'f Fix, Vec<usize>);

/// The things that miss a rule.
type Missed = BTreeSet<Id>;

/// Every change that was tried for one of these findings and cures others too.
fn cures<'f>(view: &CheckedView<'_>, found: &'f [RuleFinding]) -> Vec<Cures<'f>> {
    let tried = view.tried.borrow();
    let missed: Vec<Missed> = found.iter().map(|finding| finding.elements.iter().copied().collect()).collect();
    let mut of_rules: Vec<(&RuleRef, Missed)> = Vec::new();
    for (finding, missed) in found.iter().zip(&missed) {
        match of_rules.iter_mut().find(|(rule, _)| *rule == &finding.rule) {
            Some((_, known)) => known.extend(missed),
            None => of_rules.push((&finding.rule, missed.clone())),
        }
    }
    let mut cures: Vec<Cures<'f>> = Vec::new();
    for finding in found {
        let Some(fix) = finding.fix.as_ref().filter(|fix| fix.was_tried() && !fix.edits.is_empty()) else { continue };
        if cures.iter().any(|(known, _)| known.edits == fix.edits) {
            continue;
        }
        let Some(tried) = tried.iter().rev().find(|tried| tried.edits == fix.edits) else { continue };
        let cured = found.iter().zip(&missed).enumerate().filter(|(_, (finding, own))| {
            let of_rule = of_rules.iter().find(|(rule, _)| *rule == &finding.rule);
            of_rule.is_some_and(|(_, before)| is_cured(finding, own, before, tried))
        });
        cures.push((fix, cured.map(|(at, _)| at).collect()));
    }
    cures
}

/// Whether a rule holds after a change for all that missed at its words, and is not missed anew elsewhere.
fn is_cured(finding: &RuleFinding, own: &Missed, before: &Missed, tried: &Tried) -> bool {
    let mut of_rule = tried.then.iter().filter(|then| then.rule == finding.rule);
    of_rule.all(|then| {
        let is_one_of = |missed: &Missed| then.thing.is_some_and(|thing| missed.contains(&thing));
        if then.fails { is_one_of(before) && !is_one_of(own) } else { !is_one_of(own) }
    })
}

/// The change that cures most of the findings that are left, two at least; one that breaks nothing before others.
fn widest<'f>(cures: &[Cures<'f>], left: &[usize]) -> Option<Cures<'f>> {
    let of_left = cures.iter().map(|(fix, cured)| {
        let cured: Vec<usize> = cured.iter().filter(|at| left.contains(at)).copied().collect();
        (*fix, cured)
    });
    let several = of_left.filter(|(_, cured)| cured.len() > 1);
    // Of equals the last is taken; the first is that of the gravest finding.
    several.rev().max_by_key(|(fix, cured)| (fix.then_breaks.is_empty(), cured.len()))
}

/// The words that a finding's first label points at, where they state something.
fn stated_words(finding: &RuleFinding) -> Option<Span> {
    let first = finding.places.first()?;
    matches!(first.role, Role::Stated { .. }).then_some(first.span)
}
