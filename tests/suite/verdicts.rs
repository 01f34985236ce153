//! A plain evaluation comes to what a traced one comes to: every quantity and every verdict, over all designs and all
//! fragments of the shipped sets.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::sync::Arc;

use crate::record;
use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::derive::{CustomId, Evaluation, Input, Read, quantities};
use pitchboard::measure::Measure;
use pitchboard::model::{self, Design, Id, kinds};
use pitchboard::rules::{Rule, RuleSet, Verdict, evaluate, unread, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax;

fn sets() -> Vec<RuleSet> {
    let read = |(name, text): &(&str, &str)| Session::default().read_set(&Source::new(*name, *text)).set;
    BUILT_IN.iter().map(read).collect()
}

fn designs() -> Vec<(String, Arc<Design>)> {
    let found = ["examples", "tests/cases"].map(|folder| record::designs(Path::new(folder))).concat();
    let mut designs = Vec::new();
    for path in found {
        let name = path.to_string_lossy().into_owned();
        let source = Source::new(&name, fs::read_to_string(&path).expect("text"));
        let (tree, _) = syntax::parse_design(&source);
        for stair in model::build(&tree, &source, &mut Vec::new()) {
            designs.push((name.clone(), stair.drawn));
            designs.extend(stair.measured.map(|measured| (format!("{name}, as measured"), measured)));
        }
    }
    designs
}

/// The customs behind some reads in the order of their first use, and whether anything measured is, by walking the
/// trace.
fn behind(evaluation: &Evaluation<'_>, reads: &[Read]) -> (Vec<CustomId>, bool) {
    fn walk(
        evaluation: &Evaluation<'_>,
        reads: &[Read],
        seen: &mut BTreeSet<(Id, String, Option<u64>)>,
        customs: &mut Vec<CustomId>,
        measured: &mut bool,
    ) {
        for read in reads {
            match read.input {
                Input::Custom(custom) if !customs.contains(&custom) => customs.push(custom),
                Input::Custom(_) => {}
                Input::Stated { measured: as_measured, .. } => *measured |= as_measured,
                Input::Derived(quantity, place) => {
                    let at = place.map(|at| at.value.to_bits());
                    if seen.insert((read.element, format!("{quantity:?}"), at)) {
                        let worked = evaluation.work(read.element, quantity, place);
                        walk(evaluation, &worked.reads, seen, customs, measured);
                    }
                }
            }
        }
    }
    let (mut customs, mut measured) = (Vec::new(), false);
    walk(evaluation, reads, &mut BTreeSet::new(), &mut customs, &mut measured);
    (customs, measured)
}

/// How often each verdict was met.
#[derive(Default, Debug)]
struct Met {
    passed: usize,
    failed: usize,
    spared: usize,
    not_checked: usize,
    measured: usize,
    customs: BTreeSet<String>,
}

fn hold_equal(
    name: &str,
    design: &Design,
    rule: &Rule,
    plain: &Evaluation<'_>,
    traced: &Evaluation<'_>,
    met: &mut Met,
) {
    let told = || format!("{name}: {}", rule.name);
    let (plainly, kept) = plain.trace(|| verdicts(rule, plain).collect::<Vec<_>>());
    let (outcomes, reads) = traced.trace(|| evaluate(rule, traced));
    let by_trace: Vec<(Id, Verdict)> =
        outcomes.iter().map(|outcome| (outcome.element, outcome.verdict.clone())).collect();
    assert_eq!(plainly, by_trace, "{}", told());
    // One more where a block that may draw another was not understood.
    let unread = usize::from(unread(rule, plain).is_some());
    assert_eq!(plainly.len(), design.of_kind(rule.kind).len() + unread, "{}", told());
    for outcome in &outcomes {
        assert_eq!(outcome.decision.is_some(), outcome.verdict == Verdict::Fail, "{}", told());
        *match outcome.verdict {
            Verdict::Pass => &mut met.passed,
            Verdict::Fail => &mut met.failed,
            Verdict::NotApplicable => &mut met.spared,
            Verdict::NotChecked(_) => &mut met.not_checked,
        } += 1;
    }
    assert!(kept.reads.is_empty(), "{} keeps reads without a trace", told());
    assert_eq!(kept.behind, reads.behind, "{}", told());
    let (customs, measured) = behind(traced, &reads.reads);
    assert_eq!(kept.behind.customs().collect::<Vec<_>>(), customs, "{}", told());
    assert_eq!(kept.behind.measured, measured, "{}", told());
    met.measured += usize::from(measured);
    met.customs.extend(customs.iter().map(|custom| format!("{custom:?}")));
}

#[test]
fn plain_and_traced_verdicts_are_equal_over_all_designs() {
    let (sets, mut met) = (sets(), Met::default());
    for (name, design) in designs() {
        let (plain, traced) = (Evaluation::plain(&design), Evaluation::traced(&design));
        for rule in sets.iter().flat_map(|set| &set.rules) {
            hold_equal(&name, &design, rule, &plain, &traced, &mut met);
        }
    }
    let Met { passed, failed, spared, not_checked, measured, customs } = &met;
    assert!([passed, failed, spared, not_checked].into_iter().all(|times| *times > 500), "{met:?}");
    assert!(*measured > 20 && customs.len() > 3, "{met:?}");
}

#[test]
fn plain_and_traced_verdicts_are_equal_over_all_fragments() {
    let (mut met, mut read) = (Met::default(), 0);
    for rule in sets().iter().flat_map(|set| &set.rules) {
        for (source, fragment) in &rule.fragments {
            let (tree, _) = syntax::parse_fragment(source, fragment.span);
            let Some(stair) = model::build_fragment(&tree, source, &mut Vec::new()) else { continue };
            let (plain, traced) = (Evaluation::plain(&stair.drawn), Evaluation::traced(&stair.drawn));
            hold_equal(&source.name, &stair.drawn, rule, &plain, &traced, &mut met);
            read += 1;
        }
    }
    assert!(read > 1_000 && met.passed > 500 && met.failed > 400, "{read} fragments: {met:?}");
}

/// Its style too: how a length is written is part of its value.
#[test]
fn plain_and_traced_values_are_equal() {
    let (mut known, mut unknown) = (0, 0);
    for (name, design) in designs() {
        let (plain, traced) = (Evaluation::plain(&design), Evaluation::traced(&design));
        for id in 0..design.elements.len() {
            let is_part = design.get(id).is_some_and(model::Element::is_part);
            for quantity in
                quantities().filter(|entry| design.is(id, entry.kind) || is_part && entry.kind == kinds::PART)
            {
                let places = [None, Some(Measure::inches(12.0)), Some(Measure::millimetres(270.0))];
                for place in places.into_iter().filter(|place| place.is_some() == quantity.at_a_place()) {
                    let (value, by_trace) = (plain.derived(id, quantity, place), traced.derived(id, quantity, place));
                    assert_eq!(value, by_trace, "{name}: {quantity:?} of {}", design.called(id));
                    *if value.is_ok() { &mut known } else { &mut unknown } += 1;
                }
            }
        }
    }
    assert!(known > 5_000 && unknown > 1_000, "{known} known, {unknown} not");
}
