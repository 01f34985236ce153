//! Over every design and every shipped rule: an explanation says what the check says, and a set is like itself.

use std::fs;
use std::path::Path;

use crate::record;
use pitchboard::base::Source;
use pitchboard::check::{BUILT_IN, changes};
use pitchboard::derive::{Evaluation, Reason};
use pitchboard::model;
use pitchboard::rules::{Applies, Explanation, Holds, Joined, RuleSet, Term, compare, explain, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax::parse_design;

fn sets() -> Vec<RuleSet> {
    let read = |(name, text): &(&str, &str)| Session::default().read_set(&Source::new(*name, *text)).set;
    BUILT_IN.iter().map(read).collect()
}

fn designs() -> Vec<Source> {
    let found = ["examples", "tests/cases"].map(|folder| record::designs(Path::new(folder))).concat();
    found.iter().map(|path| Source::new(path.to_string_lossy(), fs::read_to_string(path).expect("text"))).collect()
}

/// What the parts of a term come to together, by the three-valued logic.
fn together(term: &Term) -> &'static str {
    let word = |holds: &Holds| match holds {
        Holds::Yes => "yes",
        Holds::No => "no",
        Holds::Unknown(_) => "unknown",
    };
    let parts: Vec<&str> = term.parts.iter().map(|part| word(&part.holds)).collect();
    match term.joined {
        Joined::Single => word(&term.holds),
        Joined::All => ["no", "unknown", "yes"].into_iter().find(|word| parts.contains(word)).unwrap_or("yes"),
        Joined::Any => ["yes", "unknown", "no"].into_iter().find(|word| parts.contains(word)).unwrap_or("no"),
        Joined::Not => match parts.as_slice() {
            ["yes"] => "no",
            ["no"] => "yes",
            _ => "unknown",
        },
    }
}

fn sound(term: &Term) {
    let word = match term.holds {
        Holds::Yes => "yes",
        Holds::No => "no",
        Holds::Unknown(_) => "unknown",
    };
    assert_eq!(together(term), word, "{term:?}");
    assert_eq!(term.decides, !term.deciding().is_empty() || term.parts.iter().any(|part| part.decides), "{term:?}");
    term.parts.iter().for_each(sound);
}

#[test]
fn an_explanation_agrees_with_the_check() {
    let mut told = std::collections::BTreeMap::new();
    let sets = sets();
    for source in designs() {
        let (tree, slips) = parse_design(&source);
        let mut findings = pitchboard::base::lift(slips);
        for stair in model::build(&tree, &source, &mut findings) {
            let (evaluation, traced) = (Evaluation::plain(&stair.drawn), Evaluation::traced(&stair.drawn));
            for rule in sets.iter().flat_map(|set| &set.rules) {
                // What stands in a block that was not understood is no thing that could be explained.
                let drawn = stair.drawn.of_kind(rule.kind).count();
                for (element, verdict) in verdicts(rule, &evaluation).take(drawn) {
                    let explained = explain(rule, &traced, element);
                    let word = verdict.word(rule.shall);
                    assert_eq!(explained.verdict.word(rule.shall), word, "{} {}", source.name, rule.name);
                    let Explanation { condition, requirement, .. } = &explained;
                    condition.iter().chain(requirement).for_each(sound);
                    let last = requirement.as_ref().or(condition.as_ref()).expect("a term");
                    let holds = match word {
                        "passes" => matches!(last.holds, Holds::Yes),
                        "not checked" => matches!(last.holds, Holds::Unknown(_)),
                        // A contradiction takes two statements, and one is not there.
                        "does not apply" if rule.applies == Applies::WhereStated && last.holds != Holds::No => {
                            matches!(last.holds, Holds::Unknown(_))
                        }
                        // Of what has no neighbour, or was not measured, it has nothing to say.
                        "does not apply" if last.holds != Holds::No => matches!(
                            &last.holds,
                            Holds::Unknown(missing)
                                if matches!(missing.reason, Reason::NoNeighbour(_) | Reason::NotMeasured)
                        ),
                        _ => last.holds == Holds::No,
                    };
                    assert!(holds && !last.deciding().is_empty(), "{} {}: {last:?}", source.name, rule.name);
                    *told.entry(word).or_insert(0) += 1;
                }
            }
        }
    }
    for word in ["passes", "broken", "advised", "does not apply", "not checked"] {
        assert!(told.get(word).is_some_and(|times| *times > 20), "`{word}` is hardly met: {told:?}");
    }
}

#[test]
fn a_set_is_like_itself_and_no_outcome_changes() {
    for set in &sets() {
        let found = compare(set, set);
        assert_eq!((found.alike, found.differing.len()), (set.rules.len(), 0), "{}", set.title);
        assert!(found.only_first.is_empty() && found.only_second.is_empty());
        for source in designs() {
            let found = changes(&Session::default().draw(&source), set, set);
            assert!(found.changes.is_empty() && found.held_by_one == 0, "{}: {found:?}", source.name);
        }
    }
}
