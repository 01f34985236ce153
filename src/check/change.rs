//! What one design comes to under two sets: the rules whose outcome changes, as drawn and as measured.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use super::group::rests_on_measured;
use super::problem::Problem;
use super::{Drawing, Standing, View};
use crate::base::{Diagnostic, Severity};
use crate::derive::Evaluation;
use crate::model::{Design, Id};
use crate::rules::{self, Rule, RuleSet};

/// What a design comes to under two sets.
#[derive(Debug, Clone, Default)]
pub struct Changes {
    /// Outcomes that change.
    pub changes: Vec<Change>,
    /// Rules that only one of the sets has, and that hold: nothing else is known of the other.
    pub held_by_one: usize,
    /// What could not be read of the design, and so was not held to either.
    pub unread: Vec<Diagnostic<Problem>>,
}

/// One outcome that changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Title of the stair, where the design has several.
    pub stair: Option<String>,
    /// The rule, by its name in the second set where it has it.
    pub rule: String,
    /// The things for which it comes out so, as a report calls them; none where only one of the sets has the rule and
    /// it holds of nothing.
    pub elements: Vec<String>,
    /// As measured, not as drawn.
    pub measured: bool,
    /// Under the first set.
    pub first: Standing,
    /// Under the second.
    pub second: Standing,
}

/// What is drawn, under two sets, whatever sets it names itself.
pub fn changes(drawing: &Drawing, first: &RuleSet, second: &RuleSet) -> Changes {
    let slips = drawing.diagnostics.iter();
    let unread = slips.filter(|slip| matches!(slip.severity(), Severity::NotUnderstood | Severity::Unchecked));
    let unread = unread.cloned().collect();
    let mut found = Changes { unread, ..Changes::default() };
    let rules = compared(first, second);
    for stair in &drawing.stairs {
        let title = (drawing.stairs.len() > 1).then(|| stair.title.clone());
        let views = [(View::Drawn, Some(&stair.drawn)), (View::Measured, stair.measured.as_ref())];
        for (view, design) in views {
            let Some(design) = design else { continue };
            let evaluations = Evaluations::new(design, view);
            for (before, after) in &rules {
                let (before, after) = (before.map(|rule| evaluations.of(rule)), after.map(|rule| evaluations.of(rule)));
                found.add(title.as_ref(), design, view, (before, after));
            }
        }
    }
    found
}

/// The rules of both sets side by side, in the order of the first, then of the second.
fn compared<'s>(first: &'s RuleSet, second: &'s RuleSet) -> Vec<(Option<&'s Rule>, Option<&'s Rule>)> {
    let pairs = rules::pairs(first, second);
    let of_first = |rule: &'s Rule| {
        let other = pairs.iter().find(|(a, _)| std::ptr::eq(*a, rule)).map(|(_, other)| *other);
        (Some(rule), other)
    };
    let mut found: Vec<_> = first.rules.iter().map(|rule| of_first(rule)).collect();
    let alone = |rule: &&Rule| !pairs.iter().any(|(_, b)| std::ptr::eq(*b, *rule));
    found.extend(second.rules.iter().map(|rule| &**rule).filter(alone).map(|rule| (None, Some(rule))));
    found
}

/// How a rule stands: for each thing that it speaks of, and for all of them.
struct Stands<'s> {
    rule: &'s Rule,
    each: Vec<(Id, Standing)>,
}

impl Stands<'_> {
    fn all(&self) -> Standing {
        self.each.iter().map(|(_, standing)| *standing).max().unwrap_or(Standing::NotApplicable)
    }

    fn of(&self, element: Id) -> Standing {
        let found = self.each.iter().find(|(id, _)| *id == element);
        found.map_or(Standing::NotApplicable, |(_, standing)| *standing)
    }
}

impl Changes {
    fn add(
        &mut self,
        stair: Option<&String>,
        design: &Design,
        view: View,
        (before, after): (Option<Stands<'_>>, Option<Stands<'_>>),
    ) {
        let Some(rule) = after.as_ref().or(before.as_ref()).map(|stands| stands.rule.name.clone()) else { return };
        let standings = |of: &dyn Fn(&Stands<'_>) -> Standing| {
            let stands = |side: &Option<Stands<'_>>| side.as_ref().map_or(Standing::Absent, of);
            (stands(&before), stands(&after))
        };
        let sides = || before.iter().chain(&after);
        let all = standings(&|side| side.all());
        let mut groups: BTreeMap<(Standing, Standing), Vec<Id>> = BTreeMap::new();
        match all {
            (Standing::Absent, Standing::NotApplicable) | (Standing::NotApplicable, Standing::Absent) => return,
            (Standing::Absent, Standing::Passes) | (Standing::Passes, Standing::Absent) => {
                self.held_by_one += 1;
                return;
            }
            // Where one set lacks the rule, what it comes to in all is told, with the things that decide.
            (Standing::Absent, worst) | (worst, Standing::Absent) => {
                let decide = sides().flat_map(|side| &side.each).filter(|(_, standing)| *standing == worst);
                groups.insert(all, decide.map(|(id, _)| *id).collect());
            }
            _ => {
                let mut ids: Vec<Id> = sides().flat_map(|side| side.each.iter().map(|(id, _)| *id)).collect();
                ids.sort_unstable();
                ids.dedup();
                for id in ids {
                    let (a, b) = standings(&|side| side.of(id));
                    if a != b {
                        groups.entry((a, b)).or_default().push(id);
                    }
                }
            }
        }
        for ((first, second), ids) in groups.into_iter().rev() {
            let elements: Vec<String> = ids.into_iter().map(|id| design.called(id)).collect();
            let measured = view == View::Measured;
            // What is not stated is not stated of the drawing: it is told there.
            let told_with_the_drawing = |change: &Change| {
                (change.rule.as_str(), change.stair.as_ref(), change.measured) == (rule.as_str(), stair, false)
                    && (change.first, change.second) == (first, second)
            };
            let unsettled = first.max(second) == Standing::NotChecked;
            if !(measured && unsettled && self.changes.iter().any(told_with_the_drawing)) {
                let (stair, rule) = (stair.cloned(), rule.clone());
                self.changes.push(Change { stair, rule, elements, measured, first, second });
            }
        }
    }
}

/// The evaluations of one view of a stair.
struct Evaluations<'d> {
    view: View,
    plain: Evaluation<'d>,
    traced: OnceCell<Evaluation<'d>>,
    design: &'d Design,
}

impl<'d> Evaluations<'d> {
    fn new(design: &'d Design, view: View) -> Self {
        Self { view, plain: Evaluation::plain(design), traced: OnceCell::new(), design }
    }

    fn of<'s>(&self, rule: &'s Rule) -> Stands<'s> {
        let stands = |element| match self.view {
            View::Drawn => Standing::of_verdict(&rules::verdict(rule, &self.plain, element), rule.shall),
            View::Measured => self.as_measured(rule, element),
        };
        Stands { rule, each: self.design.of_kind(rule.kind).map(|element| (element, stands(element))).collect() }
    }

    /// How a rule stands by the measured figures. What they leave as drawn is told with the drawing.
    fn as_measured(&self, rule: &Rule, element: Id) -> Standing {
        let (verdict, reads) = self.plain.trace(|| rules::verdict(rule, &self.plain, element));
        let standing = Standing::of_verdict(&verdict, rule.shall);
        if !reads.behind.measured {
            return Standing::NotApplicable;
        }
        if !standing.fails() {
            return standing;
        }
        let traced = self.traced.get_or_init(|| Evaluation::traced(self.design));
        match rules::outcome(rule, traced, element).decision {
            Some(decision) if !rests_on_measured(&decision, traced) => Standing::NotApplicable,
            _ => standing,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Source;
    use crate::check::draw;
    use crate::rules::SetRefusal;

    fn set(rules: &str) -> RuleSet {
        let mut findings = Vec::new();
        let set = rules::load(
            &Source::new("t.rules", rules),
            &|name, _| Err(SetRefusal::NotBuiltIn { name: name.to_owned(), near: None }),
            &mut findings,
        );
        assert!(findings.is_empty(), "{findings:?}");
        set
    }

    fn changed(design: &str, first: &str, second: &str) -> Vec<(String, bool, &'static str, &'static str)> {
        let told = |change: &Change| (change.rule.clone(), change.measured, change.first.word(), change.second.word());
        changes(&draw(&Source::new("a.stair", design), Vec::new()), &set(first), &set(second))
            .changes
            .iter()
            .map(told)
            .collect()
    }

    const LOW: &str = "rule \"low\" { each riser shall have height <= 7\"; source: \"x\" }";
    const LOWER: &str = "rule \"low\" { each riser shall have height <= 6-3/4\"; source: \"x\" }";
    const ADVICE: &str = "rule \"low\" { each riser should have height <= 6-3/4\"; source: \"x\" }";

    #[test]
    fn what_is_measured_is_told_beside_what_is_drawn_and_once() {
        let drawn = "stair \"a\" { flight { risers: 2 of 7\"; runs: 10\" } }";
        let low = || "low".to_owned();
        assert_eq!(changed(drawn, LOW, LOWER), [(low(), false, "passes", "broken")]);
        assert_eq!(changed(drawn, LOW, ADVICE), [(low(), false, "passes", "advised")]);
        assert_eq!(changed(drawn, LOW, LOW), []);
        let mixed = "stair \"a\" { flight { risers: 8\", 7\"; runs: 10\" } }";
        let source = Source::new("a.stair", mixed);
        let found = changes(&draw(&source, Vec::new()), &set(LOW), &set(LOWER)).changes;
        assert_eq!(found.len(), 1, "the first riser is broken by either, and does not flip");
        assert_eq!(found[0].elements, ["riser 2"]);
        let width = format!("{drawn} measured \"a\" {{ width: 30\" }}");
        assert_eq!(changed(&width, LOW, LOWER), [(low(), false, "passes", "broken")], "its risers are not measured");
        let risers = drawn.replace("2 of 7\"", "2 of 6\"") + " measured \"a\" { risers: 6\", 7\" }";
        assert_eq!(changed(&risers, LOW, LOWER), [(low(), true, "passes", "broken")]);
    }

    #[test]
    fn a_rule_that_only_one_set_has_is_told_where_it_does_not_hold() {
        let drawn = "stair \"a\" { flight { risers: 2 of 7\" } }";
        let wide = "rule \"wide\" { each flight shall have width >= 30\"; source: \"x\" }";
        let source = Source::new("a.stair", drawn);
        let (none, low) = (set(wide), set(LOW));
        let found = changes(&draw(&source, Vec::new()), &low, &none);
        assert_eq!(found.held_by_one, 1, "low passes and is gone");
        let told: Vec<_> = found.changes.iter().map(|change| (&*change.rule, change.first, change.second)).collect();
        assert_eq!(told, [("wide", Standing::Absent, Standing::NotChecked)]);
    }
}
