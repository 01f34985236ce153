//! What a check finds, by rule and element path: the identity by which a baseline knows it again after other lines have
//! changed. What is known stays in the report, marked.
//!
//! What was not understood has no such identity: no baseline holds it, and none hides what rests on it.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::hold;
use super::loaded::RuleRef;
use super::standing::Standing;
use super::waived::{Waivers, rests_on_what_was_not_understood};
use super::{Analysis, Finding, Report, RuleFinding, View};
use crate::base::Level;
use crate::derive::Evaluation;
use crate::model::{Design, Stair};
use crate::rules::{self, Verdict};

/// A rule that does not hold, or is not settled, for one thing. In the order of a baseline.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Title of the stair; of several by one title, which of them.
    pub stair: String,
    /// Path of the thing; `measured: ` stands before it where it is the finished work.
    pub element: String,
    /// Title of the set.
    pub set: String,
    /// Name of the rule.
    pub rule: String,
    /// Broken, advised or not checked.
    pub level: Level,
}

/// What stands before the path of a thing as it was measured.
const MEASURED: &str = "measured: ";

impl Analysis {
    /// Marks what is known, and gives back all that it was asked about: what breaks a rule or leaves it open, and no
    /// waiver excuses.
    pub fn mark_known(&mut self, is_known: &dyn Fn(&Fault) -> bool) -> Vec<Fault> {
        let mut paths = Paths::of(&self.stairs);
        let mut faults = Vec::new();
        let former = self.former_names();
        // What is known of a rule under the name that it went by before is known of it.
        let is_known = |fault: &Fault| {
            let was = former.get(&(fault.set.clone(), fault.rule.clone())).into_iter().flatten();
            is_known(fault) || was.into_iter().any(|was| is_known(&Fault { rule: was.clone(), ..fault.clone() }))
        };
        let is_known = &is_known;
        // For each rule of each stair, whether all that it finds is known.
        let mut rules: Vec<(usize, RuleRef, bool)> = Vec::new();
        for finding in &mut self.report.findings {
            let Finding::Rule(finding) = finding else { continue };
            if finding.waived.is_some() {
                continue;
            }
            let of = paths.faults(finding);
            finding.known = of.iter().all(is_known);
            let stair = paths.stair(finding);
            match rules.iter_mut().find(|(at, rule, _)| *at == stair && *rule == finding.rule) {
                Some((.., known)) => *known &= finding.known,
                None => rules.push((stair, finding.rule.clone(), finding.known)),
            }
            faults.extend(of);
        }
        let open = self.open(&mut paths);
        let new = |item: &super::NotChecked| {
            let of_rule = open.iter().filter(|fault| fault.set == item.set && fault.rule == item.rule);
            let mut of_rule = of_rule.peekable();
            of_rule.peek().is_none() || of_rule.any(|fault| !is_known(fault))
        };
        for item in self.report.not_checked.iter_mut().filter(|item| item.waived.is_none()) {
            item.known = !item.needs.reason.is_of_what_was_not_understood() && !new(item);
        }
        // What is open besides, and not known, is not settled by what is.
        for (stair, rule, _) in rules.into_iter().filter(|(.., known)| *known) {
            let (set, name) = (&rule.set().title, &rule.rule().name);
            let of_rule =
                |fault: &&Fault| fault.stair == paths.title(stair) && fault.set == *set && fault.rule == *name;
            let is_open = open.iter().filter(of_rule).any(|fault| !is_known(fault));
            let rests_on_a_slip = self.report.not_checked.iter().any(|item| {
                item.set == *set && item.rule == *name && item.needs.reason.is_of_what_was_not_understood()
            });
            let standing = if is_open || rests_on_a_slip { Standing::NotChecked } else { Standing::Known };
            self.report.stands(stair, &rule, standing);
        }
        faults.extend(open);
        faults
    }

    /// The names that rules went by before, by the titles of their sets and their names of now.
    fn former_names(&self) -> BTreeMap<(String, String), Vec<String>> {
        let mut former = BTreeMap::new();
        for loaded in self.stair_sets.iter().flatten() {
            for rule in loaded.set.rules.iter().filter(|rule| !rule.formerly.is_empty()) {
                former.insert((loaded.set.title.clone(), rule.name.clone()), rule.formerly.clone());
            }
        }
        former
    }

    /// What is not settled for each thing: as drawn, and as measured where the rule does not apply to the drawing.
    fn open(&self, paths: &mut Paths) -> Vec<Fault> {
        let mut open = Vec::new();
        for (at, (stair, sets)) in self.stairs.iter().zip(&self.stair_sets).enumerate() {
            let (design, evaluation) = (&stair.drawn, Evaluation::plain(&stair.drawn));
            // What does not hold on a day was excused in the report by one that did.
            let waivers = Waivers::of(design, self.on);
            for loaded in sets {
                for rule in &loaded.set.rules {
                    for (element, verdict) in rules::verdicts(rule, &evaluation) {
                        let excused = || waivers.excusing(design, &loaded.set, rule, element, &verdict).is_some();
                        let is_open = matches!(verdict, Verdict::NotChecked(_));
                        if !is_open || rests_on_what_was_not_understood(&verdict) || excused() {
                            continue;
                        }
                        open.push(Fault {
                            stair: paths.title(at),
                            element: paths.path(design, element),
                            set: loaded.set.title.clone(),
                            rule: rule.name.clone(),
                            level: Level::NotChecked,
                        });
                    }
                }
            }
            let Some(measured) = &stair.measured else { continue };
            let as_measured = Evaluation::plain(measured);
            for loaded in sets {
                for rule in &loaded.set.rules {
                    for (element, verdict) in rules::verdicts(rule, &as_measured) {
                        let excused = || waivers.excusing(measured, &loaded.set, rule, element, &verdict).is_some();
                        if !hold::opens(rule, element, &verdict, &evaluation) || excused() {
                            continue;
                        }
                        open.push(Fault {
                            stair: paths.title(at),
                            element: format!("{MEASURED}{}", paths.path(measured, element)),
                            set: loaded.set.title.clone(),
                            rule: rule.name.clone(),
                            level: Level::NotChecked,
                        });
                    }
                }
            }
        }
        open
    }
}

impl Report {
    /// Counts a rule of a stair otherwise than it was.
    fn stands(&mut self, stair: usize, rule: &RuleRef, now: Standing) {
        let Some(of) = self.standings.iter_mut().find(|of| of.stair == stair && of.rule == *rule) else { return };
        let before = self.tally.counted(of.standing);
        *before = before.saturating_sub(1);
        *self.tally.counted(now) += 1;
        of.standing = now;
    }
}

/// Titles of the stairs and paths of what they draw, each made once.
struct Paths {
    titles: Vec<String>,
    /// The views, each with the stair that it is of.
    views: Vec<(Arc<Design>, usize)>,
    /// The paths of each view, in the order of `views`, where they were asked for.
    paths: Vec<Option<Vec<String>>>,
}

impl Paths {
    fn of(stairs: &[Stair]) -> Self {
        let mut times: BTreeMap<&str, usize> = BTreeMap::new();
        let titles = stairs.iter().map(|stair| {
            let times = times.entry(&stair.title).or_default();
            *times += 1;
            if *times == 1 { stair.title.clone() } else { format!("{} #{times}", stair.title) }
        });
        let titles = titles.collect();
        let of_stair = |(at, stair): (usize, &Stair)| {
            let views = std::iter::once(&stair.drawn).chain(&stair.measured);
            views.map(|view| (Arc::clone(view), at)).collect::<Vec<_>>()
        };
        let views: Vec<_> = stairs.iter().enumerate().flat_map(of_stair).collect();
        let paths = vec![None; views.len()];
        Self { titles, views, paths }
    }

    /// The place of a view, and the stair that it is of.
    fn view(&self, design: &Arc<Design>) -> Option<(usize, usize)> {
        let at = self.views.iter().position(|(view, _)| Arc::ptr_eq(view, design))?;
        Some((at, self.views.get(at)?.1))
    }

    fn stair(&self, finding: &RuleFinding) -> usize {
        self.view(&finding.design).map_or(0, |(_, stair)| stair)
    }

    fn title(&self, stair: usize) -> String {
        self.titles.get(stair).cloned().unwrap_or_default()
    }

    fn path(&mut self, design: &Arc<Design>, element: usize) -> String {
        let place = self.view(design).and_then(|(at, _)| self.paths.get_mut(at));
        let paths = place.map(|paths| paths.get_or_insert_with(|| design.paths()));
        paths.and_then(|paths| paths.get(element).cloned()).unwrap_or_default()
    }

    /// One for each thing that a finding speaks of.
    fn faults(&mut self, finding: &RuleFinding) -> Vec<Fault> {
        let stair = self.title(self.stair(finding));
        let level = if finding.rule.rule().shall { Level::Broken } else { Level::Advised };
        let before = if finding.view == View::Measured { MEASURED } else { "" };
        let fault = |element: &usize| Fault {
            stair: stair.clone(),
            element: format!("{before}{}", self.path(&finding.design, *element)),
            set: finding.rule.set().title.clone(),
            rule: finding.rule.rule().name.clone(),
            level,
        };
        finding.elements.iter().map(fault).collect()
    }
}
