//! Which outcomes of a stair its waivers excuse, and what is wrong with those that excuse nothing.
//!
//! A waiver takes nothing out of a report: what it excuses stays there, marked. What was not understood is never
//! excused, and neither is what a drawing contradicts in itself.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use super::loaded::LoadedSet;
use super::problem::{Problem, WaiverProblem};
use crate::base::names::nearest;
use crate::base::{Day, Diagnostic, Source, Span, work};
use crate::model::{Design, Id, Waiver};
use crate::rules::{Rule, RuleSet, Verdict};

/// A name that nothing goes by, and one that was likely meant.
type Stray = (String, Option<String>);

/// The waivers of one stair.
pub(crate) struct Waivers {
    /// All of them, each with a name that it gives and nothing goes by.
    stated: Vec<(Arc<Waiver>, Option<Stray>)>,
    /// The day of the check; where it is not known, none that has an end holds.
    on: Option<Day>,
    /// Where those stand that something could be excused by.
    needed: RefCell<BTreeSet<usize>>,
}

impl Waivers {
    /// Those of a stair, on a day.
    pub fn of(design: &Design, on: Option<Day>) -> Self {
        let stated = design.waivers.iter().map(|waiver| (Arc::clone(waiver), nothing_called(waiver, design)));
        Self { stated: stated.collect(), on, needed: RefCell::default() }
    }

    /// The waiver that excuses an outcome.
    pub fn excusing(
        &self,
        design: &Design,
        set: &RuleSet,
        rule: &Rule,
        element: Id,
        verdict: &Verdict,
    ) -> Option<&Arc<Waiver>> {
        if self.stated.is_empty() || !matches!(verdict, Verdict::Fail | Verdict::NotChecked(_)) {
            return None;
        }
        work::done(self.stated.len());
        let meant = self.stated.iter().filter(|(waiver, _)| {
            speaks_of_rule(waiver, set, rule) && is_waivable(set, rule) && speaks_of(waiver, design, element)
        });
        let mut excuse = None;
        for (waiver, stray) in meant {
            self.needed.borrow_mut().insert(waiver.span.start as usize);
            if excuse.is_none() && stray.is_none() && self.is_in_force(waiver) {
                excuse = Some(waiver);
            }
        }
        excuse.filter(|_| !rests_on_what_was_not_understood(verdict))
    }

    fn is_in_force(&self, waiver: &Waiver) -> bool {
        let whole = waiver.understood && waiver.why.is_some() && waiver.by.is_some();
        whole && waiver.until.is_none_or(|(until, _)| self.on.is_some_and(|on| on <= until))
    }

    /// What is wrong with waivers that do not hold, or hold for nothing, once every rule was checked. Of which rules
    /// there are is known only where every set that was asked for could be had, and by the design.
    pub fn problems(&self, source: &Source, sets: &[Arc<LoadedSet>], all_known: bool) -> Vec<Diagnostic<Problem>> {
        let mut told = BTreeSet::new();
        let once = self.stated.iter().filter(|(waiver, _)| waiver.understood && told.insert(waiver.span.start));
        once.filter_map(|(waiver, stray)| {
            let problem = self.problem(waiver, stray.as_ref(), sets, all_known)?;
            let place = match (&problem, &waiver.until, &waiver.set) {
                (WaiverProblem::Expired { .. }, Some((_, span)), _) => *span,
                (WaiverProblem::UnknownSet { .. }, _, Some((_, span))) => *span,
                (WaiverProblem::NothingCalled { .. }, ..) => waiver.only.first().map_or(waiver.span, |(_, span)| *span),
                _ => waiver.span,
            };
            Some(Diagnostic::new(source, place, problem))
        })
        .collect()
    }

    fn problem(
        &self,
        waiver: &Waiver,
        stray: Option<&Stray>,
        sets: &[Arc<LoadedSet>],
        all_known: bool,
    ) -> Option<WaiverProblem> {
        let rule = || waiver.rule.clone();
        let rules = || sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (&loaded.set, &**rule)));
        let mut meant = rules().filter(|(set, rule)| speaks_of_rule(waiver, set, rule)).peekable();
        if meant.peek().is_none() {
            let unread = sets.iter().any(|loaded| loaded.set.unread.iter().any(|name| is_same(name, &waiver.rule)));
            return if all_known && !unread { Some(unknown(waiver, sets)) } else { None };
        }
        if meant.all(|(set, rule)| !is_waivable(set, rule)) {
            let mut held = rules().filter(|(set, rule)| speaks_of_rule(waiver, set, rule)).map(|(set, _)| set);
            let by_set = held.next().filter(|set| !set.is_drawing()).map(|set| set.title.clone());
            return Some(WaiverProblem::Forbidden { rule: rule(), set: by_set });
        }
        if waiver.why.is_none() || waiver.by.is_none() {
            let (why, by) = (waiver.why.is_none(), waiver.by.is_none());
            return Some(WaiverProblem::Incomplete { rule: rule(), why, by });
        }
        if let Some((name, near)) = stray.cloned() {
            return Some(WaiverProblem::NothingCalled { name, near });
        }
        match (waiver.until, self.on) {
            (Some((until, _)), Some(on)) if until < on => {
                return Some(WaiverProblem::Expired { rule: rule(), until, on: Some(on) });
            }
            (Some((until, _)), None) => return Some(WaiverProblem::Expired { rule: rule(), until, on: None }),
            _ => {}
        }
        let needed = self.needed.borrow().contains(&(waiver.span.start as usize));
        if !needed {
            return Some(WaiverProblem::Unneeded { rule: rule() });
        }
        let mut now = rules().filter(|(set, rule)| speaks_of_rule(waiver, set, rule)).map(|(_, rule)| &rule.name);
        let now = now.find(|now| !is_same(now, &waiver.rule))?.clone();
        Some(WaiverProblem::FormerRule { was: rule(), now })
    }
}

/// The waivers of a design that speak of a rule of a set and a thing, in force or not.
#[cfg(feature = "cli")]
pub fn waivers_of<'d>(
    design: &'d Design,
    set: &'d RuleSet,
    rule: &'d Rule,
    element: Id,
) -> impl Iterator<Item = &'d Waiver> {
    let of_rule = design.waivers.iter().filter(move |waiver| speaks_of_rule(waiver, set, rule));
    of_rule.filter(move |waiver| speaks_of(waiver, design, element)).map(|waiver| &**waiver)
}

fn unknown(waiver: &Waiver, sets: &[Arc<LoadedSet>]) -> WaiverProblem {
    let titles = || sets.iter().map(|loaded| loaded.set.title.as_str());
    if let Some((set, _)) = &waiver.set
        && !titles().any(|title| is_same(title, set))
    {
        return WaiverProblem::UnknownSet { set: set.clone(), near: nearest(set, titles()).map(str::to_owned) };
    }
    let of_set = |title: &str| waiver.set.as_ref().is_none_or(|(set, _)| is_same(title, set));
    let withdrawn = sets.iter().filter(|loaded| of_set(&loaded.set.title)).flat_map(|loaded| &loaded.set.withdrawn);
    if let Some(gone) = withdrawn.rev().find(|gone| is_same(&gone.rule.name, &waiver.rule)) {
        let (rule, set, because) = (gone.rule.name.clone(), gone.set.clone(), gone.because.clone());
        return WaiverProblem::WithdrawnRule { rule, set, because };
    }
    let names = sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(|rule| rule.name.as_str()));
    WaiverProblem::UnknownRule {
        rule: waiver.rule.clone(),
        set: waiver.set.as_ref().map(|(set, _)| set.clone()),
        near: nearest(&waiver.rule, names).map(str::to_owned),
    }
}

fn is_same(one: &str, other: &str) -> bool {
    one.eq_ignore_ascii_case(other)
}

fn speaks_of(waiver: &Waiver, design: &Design, element: Id) -> bool {
    let named = |(name, _): &(String, Span)| design.is_called(element, name);
    design.is_of_block(element, waiver.within) && (waiver.only.is_empty() || waiver.only.iter().any(named))
}

/// A thing that a waiver names and that does not stand where it speaks; and one that does and was likely meant.
fn nothing_called(waiver: &Waiver, design: &Design) -> Option<Stray> {
    let here = || (0..design.elements.len()).filter(|id| design.is_of_block(*id, waiver.within));
    let is_there = |name: &str| here().any(|id| design.is_called(id, name));
    let (name, _) = waiver.only.iter().find(|(name, _)| !is_there(name))?;
    let called: Vec<String> = here().map(|id| design.called(id)).collect();
    let near = nearest(name, called.iter().map(String::as_str)).map(str::to_owned);
    Some((name.clone(), near))
}

fn speaks_of_rule(waiver: &Waiver, set: &RuleSet, rule: &Rule) -> bool {
    let of_set = waiver.set.as_ref().is_none_or(|(title, _)| is_same(title, &set.title) || is_same(title, &rule.set));
    let called = || set.rules.iter().any(|rule| is_same(&waiver.rule, &rule.name));
    let was = || rule.formerly.iter().any(|former| is_same(&waiver.rule, former));
    of_set && (is_same(&waiver.rule, &rule.name) || was() && !called())
}

fn is_waivable(set: &RuleSet, rule: &Rule) -> bool {
    rule.waivable && !set.is_drawing()
}

pub(super) fn rests_on_what_was_not_understood(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::NotChecked(missing) if missing.reason.is_of_what_was_not_understood())
}
