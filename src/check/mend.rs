//! Changes of a design's text that leave nothing new: which are offered, and whether one held.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::finding::Finding;
use super::fix::{Edit, Fix};
use super::rule_finding::RuleFinding;
use super::view::View;
use super::{Analysis, Cause, Settled};
use crate::base::{Severity, Source};
use crate::model::Design;

/// A change that was written into a design.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Mend {
    /// The new words, with their places in the text as it was then.
    pub edits: Vec<Edit>,
    /// The text as it was then.
    pub before: Source,
    /// The findings that are gone since, by how grave they were and their names.
    pub cured: Vec<(Severity, String)>,
}

impl Analysis {
    /// Changes of the design's own text that were tried and break nothing, the gravest cause first, each once.
    pub fn mends(&self) -> Vec<&[Edit]> {
        let report = &self.report;
        let mut mends: Vec<&[Edit]> = Vec::new();
        for group in &report.groups {
            let common = match &group.cause {
                Cause::Change(fix) => Some(&**fix),
                Cause::Own | Cause::Words(_) => None,
            };
            let members = report.findings.get(group.findings.clone()).unwrap_or_default();
            let members: Vec<&Finding> = members.iter().filter(|found| !found.is_excused()).collect();
            let common = common.filter(|_| !members.is_empty());
            let own = members.iter().filter_map(|finding| match finding {
                Finding::Rule(finding) => finding.fix.as_ref(),
                Finding::Reader(_) => None,
            });
            for fix in common.into_iter().chain(own).filter(|fix| is_mend(fix, &report.source)) {
                if !mends.contains(&fix.edits.as_slice()) {
                    mends.push(&fix.edits);
                }
            }
        }
        mends
    }

    /// What is gone of the findings in a text that was changed; nothing where the change left as much as before, or
    /// anything new: a finding, a statement that was understood, an outcome that was known.
    pub fn mended(&self, after: &Analysis) -> Option<Vec<(Severity, String)>> {
        let (had, has) = (counted(self), counted(after));
        if has.iter().any(|(name, number)| *number > had.get(name).copied().unwrap_or(0)) {
            return None;
        }
        if !missed(after).is_subset(&missed(self)) || forgets(self, after) {
            return None;
        }
        let gone = had.into_iter().flat_map(|(name, number)| {
            let left = has.get(&name).copied().unwrap_or(0);
            std::iter::repeat_n(name, number.saturating_sub(left))
        });
        let gone: Vec<(Severity, String)> = gone.collect();
        (!gone.is_empty()).then_some(gone)
    }
}

/// Whether a fix is a change that may be written unseen: tried, with nothing broken by it, and no remark taken out.
fn is_mend(fix: &Fix, source: &Source) -> bool {
    let remark = |edit: &Edit| {
        let mut pieces = source.slice(edit.span).split('#').skip(1);
        pieces.any(|after| !after.starts_with(|c: char| c.is_ascii_digit()))
    };
    fix.is_clean() && !fix.edits.is_empty() && !fix.edits.iter().any(remark)
}

/// The findings by how grave they are and their names.
fn counted(analysis: &Analysis) -> BTreeMap<(Severity, String), usize> {
    let mut counted = BTreeMap::new();
    for finding in &analysis.report.findings {
        *counted.entry((finding.severity(), finding.name().to_owned())).or_insert(0) += 1;
    }
    counted
}

/// What misses a rule: the stair, the view, the set, the rule and the thing's path.
type Missed = (Option<usize>, View, String, String, String);

fn missed<'a>(analysis: &'a Analysis) -> BTreeSet<Missed> {
    let rules = analysis.report.findings.iter().filter_map(|finding| match finding {
        Finding::Rule(finding) => Some(&**finding),
        Finding::Reader(_) => None,
    });
    let mut known: Vec<(&Arc<Design>, Vec<String>)> = Vec::new();
    let of = |finding: &'a RuleFinding| {
        let (stair, rule) = (stair_of(analysis, finding), &finding.rule);
        let at = known.iter().position(|(design, _)| Arc::ptr_eq(design, &finding.design)).unwrap_or_else(|| {
            known.push((&finding.design, finding.design.paths()));
            known.len() - 1
        });
        let of_design = known.get(at).map_or(&[][..], |(_, paths)| paths);
        let path = |element: &usize| of_design.get(*element).cloned().unwrap_or_default();
        let paths: Vec<String> = finding.elements.iter().map(path).collect();
        let (view, set, name) = (finding.view, rule.set().title.clone(), rule.rule().name.clone());
        paths.into_iter().map(move |path| (stair, view, set.clone(), name.clone(), path)).collect::<Vec<_>>()
    };
    rules.flat_map(of).collect()
}

fn stair_of(analysis: &Analysis, finding: &RuleFinding) -> Option<usize> {
    analysis.stairs.iter().position(|stair| {
        let measured = stair.measured.as_ref().is_some_and(|measured| Arc::ptr_eq(measured, &finding.design));
        measured || Arc::ptr_eq(&stair.drawn, &finding.design)
    })
}

/// Whether an outcome that was known is not known any more.
fn forgets(before: &Analysis, after: &Analysis) -> bool {
    let known = &before.report.not_checked;
    let new = |item: &&super::NotChecked| {
        !known.iter().any(|old| (&old.set, &old.rule, &old.about) == (&item.set, &item.rule, &item.about))
    };
    let new: Vec<_> = after.report.not_checked.iter().filter(new).collect();
    // Every outcome is worked out only where something new waits.
    if new.is_empty() {
        return false;
    }
    let key = |outcome: &super::RuleOutcome| {
        let rule = &outcome.rule;
        (outcome.stair, outcome.view, rule.set().title.clone(), rule.rule().name.clone(), outcome.path.clone())
    };
    let known = before.outcomes();
    let known = known.iter().filter(|outcome| matches!(outcome.verdict, Settled::Pass(_) | Settled::Fail(_)));
    let known: BTreeSet<_> = known.map(key).collect();
    let unknown = after.outcomes();
    let mut unknown = unknown.iter().filter(|outcome| matches!(outcome.verdict, Settled::NotChecked(_)));
    unknown.any(|outcome| known.contains(&key(outcome)))
}
