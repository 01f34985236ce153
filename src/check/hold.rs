//! Every rule held against one view of a stair: how each stands, what is not met, and what it waits for.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::cause::{self, OfOneCause};
use super::earlier::{Earlier, RuleResult};
use super::group;
use super::loaded::{LoadedSet, RuleRef};
use super::needs::NeedsOfOne;
use super::report::{NotChecked, Report};
use super::standing::{Standing, Stands, Unknown};
use super::view::{CheckedView, View};
use crate::derive::{Behind, Classes, CustomId, Evaluation, Need, Reason};
use crate::model::{Id, Value, properties};
use crate::rules::{self, Rule, RuleSet, Verdict};

/// The rules that are not checked so far, by title of the set and name and by whether that is excused, with the places
/// of their needs in the report.
pub(super) type Waiting = BTreeMap<(String, String, bool), NeedsOfOne>;

/// A stair is kept where more than one of so many rules had to be evaluated for it.
const OF_USE: usize = 4;

impl CheckedView<'_> {
    /// Checks every rule, and takes each into how it stands so far; gives back what is not met. What rests on nothing
    /// measured is as it is for the drawing, where it was told; what rests on nothing that is another than in an earlier
    /// check is as it was there.
    pub(super) fn check(
        &self,
        drawn: Option<&CheckedView<'_>>,
        earlier: Option<&Earlier>,
        report: &mut Report,
        waiting: &mut Waiting,
        standings: &mut [Standing],
    ) -> Vec<OfOneCause> {
        let (mut behind_all, mut all_found) = (Behind::default(), Vec::new());
        let rules = || self.rules();
        let as_drawn =
            |at: usize| drawn.and_then(|drawn| drawn.looked_up_by(at)).filter(|names| !self.plain.may_change(*names));
        // A waiver may excuse something of one stair and nothing of another.
        let earlier = earlier.filter(|_| self.design.waivers.is_empty());
        let (things, alike) = match earlier.map(|earlier| earlier.alike(self.design, self.sets)) {
            Some((things, alike)) => (Some(things), alike),
            None => (None, None),
        };
        // Every rule before the first finding: a search for a fix asks which of the others it breaks.
        let mut results: Vec<Option<Cow<'_, RuleResult>>> = Vec::with_capacity(self.many());
        let mut looked_up = Vec::with_capacity(self.many());
        let mut evaluated = 0;
        for (at, (loaded, rule)) in rules().enumerate() {
            let untouched = as_drawn(at);
            looked_up.extend(untouched);
            if untouched.is_some() {
                results.push(None);
                continue;
            }
            let known = alike.as_ref().and_then(|alike| alike.result(at)).map(Cow::Borrowed);
            let result = known.unwrap_or_else(|| {
                evaluated += 1;
                let run = || self.plain.trace(|| self.plainly(&loaded.set, rule));
                let ((stands, reads), looked_up) = self.plain.looking(run);
                Cow::Owned(RuleResult { stands, behind: reads.behind, looked_up })
            });
            looked_up.push(result.looked_up);
            results.push(Some(result));
        }
        let fails = |at: usize, loaded: &Arc<LoadedSet>, rule: &Arc<Rule>, is_unmet: bool| {
            let earlier = || drawn.is_some_and(|drawn| drawn.unmet.borrow().iter().any(|unmet| unmet.is(loaded, rule)));
            is_unmet || as_drawn(at).is_some() && earlier()
        };
        let is_unmet =
            |result: &Option<Cow<'_, RuleResult>>| result.as_ref().is_some_and(|result| result.stands.is_unmet);
        let all = rules().zip(&results).enumerate();
        let unmet = all.filter(|(at, ((loaded, rule), result))| fails(*at, loaded, rule, is_unmet(result)));
        self.unmet.replace(unmet.map(|(_, ((loaded, rule), _))| RuleRef::new(loaded, rule)).collect());
        self.looked_up.replace(looked_up);
        // A stair that is much like one that is kept already is of no further use.
        if let (Some(earlier), Some(things)) = (earlier, things)
            && evaluated * OF_USE > results.len()
        {
            let kept = results.iter().map(|result| result.clone().map(Cow::into_owned)).collect();
            earlier.keep(things, self.design, self.sets, kept, alike.as_ref());
        }
        let nothing = RuleResult::default();
        for (((loaded, rule), result), so_far) in rules().zip(&results).zip(standings) {
            let RuleResult { stands, behind, .. } = result.as_deref().unwrap_or(&nothing);
            let found = match stands.is_unmet {
                true if !self.is_given_up() => group::findings(self, &RuleRef::new(loaded, rule)),
                _ => Vec::new(),
            };
            // What the measured figures leave as drawn was counted with the drawing.
            let drawn_already = self.view == View::Measured && found.is_empty();
            *so_far = (*so_far).max(if drawn_already { Standing::NotApplicable } else { stands.worst });
            all_found.extend(found);
            if self.view == View::Measured {
                let opens = |unknown: &Unknown| {
                    let verdict = Verdict::NotChecked(unknown.missing);
                    drawn.is_some_and(|drawn| opens(rule, unknown.element, &verdict, &drawn.plain))
                };
                for unknown in stands.unknown.iter().filter(|unknown| opens(unknown)) {
                    let standing = if unknown.waived.is_some() { Standing::Waived } else { Standing::NotChecked };
                    *so_far = (*so_far).max(standing);
                    self.not_checked(report, waiting, (&loaded.set, rule), unknown);
                }
                continue;
            }
            behind_all.add(*behind);
            for unknown in &stands.unknown {
                self.not_checked(report, waiting, (&loaded.set, rule), unknown);
            }
        }
        for custom in behind_all.customs().filter_map(CustomId::custom) {
            if !report.customs.iter().any(|known| known == custom.sentence) {
                report.customs.push(custom.sentence.to_owned());
            }
        }
        cause::of_rules(self, all_found)
    }

    /// How a rule stands, by the plain verdicts.
    fn plainly(&self, set: &RuleSet, rule: &Rule) -> Stands {
        let mut stands = Stands { worst: Standing::NotApplicable, is_unmet: false, unknown: Vec::new() };
        for (element, verdict) in rules::verdicts(rule, &self.plain) {
            let waivers = self.waivers;
            let waived = waivers.and_then(|waivers| waivers.excusing(self.design, set, rule, element, &verdict));
            let standing = Standing::of_verdict(&verdict, rule.shall);
            stands.is_unmet |= standing.fails();
            stands.worst = stands.worst.max(if waived.is_some() { Standing::Waived } else { standing });
            if let Verdict::NotChecked(missing) = verdict {
                let unknown = Unknown { element, missing, waived: waived.map(Arc::clone) };
                if !stands.unknown.iter().any(|known| known.is_settled_with(&unknown)) {
                    stands.unknown.push(unknown);
                }
            }
        }
        stands
    }

    /// The classes that a set has, beside what the stair calls itself.
    fn classes(&self, set: &RuleSet) -> Classes {
        let stated = self.design.stated(0, properties::CLASS).and_then(|stated| stated.value.as_ref());
        let word = stated.and_then(|class| if let Value::Word(word) = class { Some(&**word) } else { None });
        Classes::near(&set.classes, word)
    }

    fn not_checked(&self, report: &mut Report, waiting: &mut Waiting, (set, rule): (&RuleSet, &Rule), of: &Unknown) {
        let Unknown { element, missing, waived } = of;
        let waiting = waiting.entry((set.title.clone(), rule.name.clone(), waived.is_some())).or_default();
        let mut needs = Need::of(self.design, missing);
        if needs.reason == Reason::NoSuchClass {
            needs.classes = Some(self.classes(set));
        }
        let known = |at: usize| report.not_checked.get(at).map(|earlier| &earlier.needs);
        if waiting.settled_with(&needs, known).is_some() {
            return;
        }
        waiting.add(&needs, report.not_checked.len());
        report.not_checked.push(NotChecked {
            set: set.title.clone(),
            rule: rule.name.clone(),
            shall: rule.shall,
            about: self.design.called(*element),
            needs,
            span: self.design.get(*element).map(|element| element.span).unwrap_or_default(),
            waived: waived.clone(),
            known: false,
        });
    }
}

/// Whether what was measured leaves a rule open that does not apply to the drawing, so that nothing was told of it there.
/// What was not understood was.
pub(super) fn opens(rule: &Rule, element: Id, verdict: &Verdict, drawn: &Evaluation<'_>) -> bool {
    let Verdict::NotChecked(missing) = verdict else { return false };
    !missing.reason.is_of_what_was_not_understood()
        && drawn.design.kind(element).is_some_and(|kind| kind.counts_as(rule.kind))
        && rules::verdict(rule, drawn, element) == Verdict::NotApplicable
}
