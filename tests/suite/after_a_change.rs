//! What is taken over from an evaluation of a design before a change is what an evaluation from nothing comes to.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use crate::record;
use crate::switches::long_run;
use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::derive::Evaluation;
use pitchboard::model::{self, Design, ListItem, Stair, Value};
use pitchboard::rules::{RuleSet, Verdict, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax;

fn texts() -> Vec<String> {
    let found = ["examples", "tests/cases"].map(|folder| record::designs(Path::new(folder))).concat();
    found.iter().map(|path| fs::read_to_string(path).expect("text")).collect()
}

fn stairs(text: &str) -> Vec<Stair> {
    let source = Source::new("t.stair", text);
    let (tree, _) = syntax::parse_design(&source);
    model::build(&tree, &source, &mut Vec::new())
}

fn designs() -> Vec<Arc<Design>> {
    texts().iter().flat_map(|text| stairs(text)).map(|stair| stair.drawn).collect()
}

/// The design with one statement taken out, and with another value in its place where it is a figure or figures.
fn changed(design: &Design) -> Vec<Design> {
    let mut changed = Vec::new();
    for (id, element) in design.elements.iter().take(design.drawn).enumerate() {
        for stated in &element.stated {
            let property = stated.property.handle();
            changed.push(design.without(property, stated.span));
            match &stated.value {
                Some(Value::Measure(measure)) => {
                    let mut other = *measure;
                    other.value = measure.value * 1.25 + 1.0;
                    changed.push(design.with(id, property, Value::Measure(other)));
                }
                Some(Value::List(items)) => {
                    let larger = |item: &ListItem| {
                        let mut larger = *item;
                        larger.measure.value *= 1.25;
                        larger
                    };
                    let larger: Vec<ListItem> = items.iter().map(larger).collect();
                    let one_more: Vec<ListItem> = larger.iter().chain(larger.first()).copied().collect();
                    changed.push(design.with(id, property, Value::List(larger.into())));
                    changed.push(design.with(id, property, Value::List(one_more.into())));
                }
                _ => {}
            }
        }
    }
    changed
}

#[test]
fn what_a_change_does_not_touch_is_as_it_was() {
    let read = |(name, text): &(&str, &str)| Session::default().read_set(&Source::new(*name, *text)).set;
    let sets: Vec<RuleSet> = BUILT_IN.iter().map(read).collect();
    let rules: Vec<_> = sets.iter().flat_map(|set| &set.rules).collect();
    let (mut untouched, mut otherwise, mut nth) = (0, 0, 0);
    // So many of the changes are tried, whichever design they are of.
    let one_in = 150 / long_run(150) * 15;
    for design in designs() {
        let before = Evaluation::plain(&design);
        let evaluate = |rule| before.looking(|| verdicts(rule, &before).collect::<Vec<_>>());
        let was: Vec<_> = rules.iter().map(|rule| evaluate(rule)).collect();
        for changed in changed(&design) {
            nth += 1;
            if nth % one_in != 0 {
                continue;
            }
            let (after, afresh) = (Evaluation::after(&changed, &before), Evaluation::plain(&changed));
            for (rule, (was, looked_up)) in rules.iter().zip(&was) {
                let found: Vec<_> = verdicts(rule, &afresh).collect();
                assert_eq!(verdicts(rule, &after).collect::<Vec<(_, Verdict)>>(), found, "{}", rule.name);
                if after.may_change(*looked_up) {
                    otherwise += usize::from(*was != found);
                } else {
                    assert_eq!(*was, found, "{} looked up more than it says", rule.name);
                    untouched += 1;
                }
            }
        }
    }
    assert!(untouched > 2_000 && otherwise > 50, "{untouched} untouched, {otherwise} otherwise");
}

/// Where words stand counts for nothing: of a text that begins further down nothing need be worked out anew.
#[test]
fn a_text_that_is_read_again_says_what_it_said() {
    let read = |(name, text): &(&str, &str)| Session::default().read_set(&Source::new(*name, *text)).set;
    let sets: Vec<RuleSet> = BUILT_IN.iter().map(read).collect();
    let mut untouched = 0;
    for text in texts().iter().filter(|text| !text.starts_with('\u{FEFF}')) {
        let lower = stairs(&format!("# Two lines above it.\n\n{text}"));
        for (stair, lower) in stairs(text).iter().zip(&lower) {
            let designs = [(&stair.drawn, &lower.drawn)].into_iter().chain(stair.measured.iter().zip(&lower.measured));
            for (design, lower) in designs {
                let before = Evaluation::plain(design);
                let after = Evaluation::after(lower, &before);
                assert!(after.is_of_same_things() && design.paths() == lower.paths(), "{text}");
                for rule in sets.iter().flat_map(|set| &set.rules) {
                    let (_, looked_up) = before.looking(|| verdicts(rule, &before).count());
                    assert!(!after.may_change(looked_up), "{} of\n{text}", rule.name);
                    untouched += 1;
                }
            }
        }
    }
    assert!(untouched > 50_000, "{untouched}");
}

/// What is stated is looked up by `Evaluation::looked_up`, which notes it; an eye past it would go unseen.
#[test]
fn nothing_is_worked_out_past_the_note() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut looked_at = 0;
    let derive = fs::read_dir(root.join("derive")).unwrap().map(|entry| entry.unwrap().path());
    for path in derive.chain([root.join("rules/eval.rs")]) {
        let text = fs::read_to_string(&path).unwrap();
        looked_at += text.matches(".looked_up(").count();
        // A need is put into words once it is known which: nothing is worked out from those.
        let allowed = ["evaluation.rs", "missing.rs"].iter().any(|name| path.ends_with(name));
        let past = text.matches("design.stated(").count();
        assert!(past <= usize::from(allowed), "{} looks at what is stated past `looked_up`", path.display());
    }
    assert!(looked_at > 20, "{looked_at}");
}
