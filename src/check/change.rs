//! What one design comes to under two sets: the rules whose outcome changes, as drawn and as measured.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use super::group::rests_on_measured;
use super::problem::Problem;
use super::{Drawing, Standing};
use crate::base::{Diagnostic, Severity};
use crate::derive::Evaluation;
use crate::model::Design;
use crate::rules::{self, Outcome, Rule, RuleSet};

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
    /// The rule.
    pub rule: String,
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
    let names: Vec<&str> = first.rules.iter().chain(&second.rules).map(|rule| rule.name.as_str()).collect();
    for stair in &drawing.stairs {
        let title = (drawing.stairs.len() > 1).then(|| stair.title.clone());
        let views = [Some(&stair.drawn), stair.measured.as_ref()];
        for (design, measured) in views.into_iter().zip([false, true]) {
            let Some(design) = design else { continue };
            let (before, after) = (standings(design, measured, first), standings(design, measured, second));
            let mut told = std::collections::BTreeSet::new();
            for name in names.iter().filter(|name| told.insert(**name)) {
                let of =
                    |standings: &BTreeMap<&str, Standing>| standings.get(name).copied().unwrap_or(Standing::Absent);
                let (first, second) = (of(&before), of(&after));
                // What is not stated is not stated of the drawing: it is told there.
                let told_with_the_drawing = |change: &Change| {
                    change.rule == **name
                        && change.stair == title
                        && !change.measured
                        && (change.first, change.second) == (first, second)
                };
                match (first.min(second), first.max(second)) {
                    (a, b) if a == b => {}
                    (_, Standing::NotChecked) if measured && found.changes.iter().any(told_with_the_drawing) => {}
                    (Standing::Absent, Standing::NotApplicable) => {}
                    (Standing::Absent, Standing::Passes) => found.held_by_one += 1,
                    _ => found.changes.push(Change {
                        stair: title.clone(),
                        rule: (*name).to_owned(),
                        measured,
                        first,
                        second,
                    }),
                }
            }
        }
    }
    found
}

/// How each rule of a set stands. Of a measured design, only rules that read something measured.
fn standings<'a>(design: &Design, measured: bool, set: &'a RuleSet) -> BTreeMap<&'a str, Standing> {
    let (plain, traced) = (Evaluation::plain(design), OnceCell::new());
    let traced = || traced.get_or_init(|| Evaluation::traced(design));
    let stands = |rule: &Rule| if measured { as_measured(rule, &plain, traced) } else { Standing::of(rule, &plain) };
    set.rules.iter().map(|rule| (rule.name.as_str(), stands(rule))).collect()
}

/// How a rule stands by the measured figures. What they leave as drawn is told with the drawing.
fn as_measured<'d, 'e>(rule: &Rule, plain: &Evaluation<'d>, traced: impl Fn() -> &'e Evaluation<'d>) -> Standing
where
    'd: 'e,
{
    let (standing, reads) = plain.trace(|| Standing::of(rule, plain));
    if !reads.behind.measured {
        return Standing::NotApplicable;
    }
    if !standing.fails() {
        return standing;
    }
    let traced = traced();
    let stands = |outcome: &Outcome| match &outcome.decision {
        Some(decision) if !rests_on_measured(decision, traced) => Standing::NotApplicable,
        _ => Standing::of_verdict(&outcome.verdict, rule.shall),
    };
    rules::evaluate(rule, traced).iter().map(stands).max().unwrap_or(Standing::NotApplicable)
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
