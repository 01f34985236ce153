//! Every value that a finding offers as tried is written into the text, and the text is checked again: it still reads,
//! the rule no longer fails for what missed at those words, and no other rule of any verb is newly unmet but those that
//! were named.
//!
//! The designs are the examples, the cases and the seeded faults, of which a tenth is taken unless `FULL=1`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::cases;
use crate::mutation::faulty_designs;
use pitchboard::base::Source;
use pitchboard::check::{Analysis, Edit, Finding, RuleFinding, Settled, View};
use pitchboard::model::{Basis, Stated};
use pitchboard::session::Session;

/// A text once edits are made.
pub fn applied(text: &str, edits: &[Edit]) -> String {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    let mut text = text.to_owned();
    for edit in edits {
        text.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
    }
    text
}

/// How often the readers find each kind of thing. What is mended needs no waiver any more, and is rightly said to.
fn read(analysis: &Analysis) -> BTreeMap<String, usize> {
    let mut found = BTreeMap::new();
    for finding in &analysis.report.findings {
        if matches!(finding, Finding::Reader(_)) && finding.name() != "unneeded waiver" {
            *found.entry(finding.name().to_owned()).or_insert(0) += 1;
        }
    }
    found
}

/// The stair of a finding, by its place among those drawn.
fn stair_of(analysis: &Analysis, finding: &RuleFinding) -> Option<usize> {
    analysis.stairs.iter().position(|stair| {
        let measured = stair.measured.as_ref().is_some_and(|measured| Arc::ptr_eq(measured, &finding.design));
        measured || Arc::ptr_eq(&stair.drawn, &finding.design)
    })
}

fn of_rules(analysis: &Analysis) -> impl Iterator<Item = &RuleFinding> {
    analysis.report.findings.iter().filter_map(|finding| match finding {
        Finding::Rule(finding) => Some(&**finding),
        _ => None,
    })
}

/// Rules that the drawing of a stair does not meet, by set and name.
fn unmet(analysis: &Analysis, stair: Option<usize>) -> BTreeSet<(String, String)> {
    of_rules(analysis)
        .filter(|finding| finding.view == View::Drawn)
        .filter(|finding| stair_of(analysis, finding) == stair)
        .map(named)
        .collect()
}

fn named(finding: &RuleFinding) -> (String, String) {
    (finding.rule.set().title.clone(), finding.rule.rule().name.clone())
}

/// What is wrong with the design after the change; empty if nothing is.
fn wrong(before: &Analysis, finding: &RuleFinding, after: &Analysis) -> Vec<String> {
    let mut wrong = Vec::new();
    let (known, new) = (read(before), read(after));
    for (name, count) in new.iter().filter(|(name, count)| **count > known.get(*name).copied().unwrap_or(0)) {
        wrong.push(format!("the readers find {name} {count} times"));
    }
    let stair = stair_of(before, finding);
    let all = finding.design.paths();
    let paths: Vec<String> = finding.elements.iter().map(|element| all[*element].clone()).collect();
    for outcome in after.outcomes() {
        let rule = (outcome.rule.set().title.clone(), outcome.rule.rule().name.clone());
        let same = rule == named(finding) && outcome.view == finding.view && Some(outcome.stair) == stair;
        if same && paths.contains(&outcome.path) {
            match outcome.verdict {
                Settled::Fail(_) => wrong.push(format!("{} still fails", outcome.path)),
                Settled::NotChecked(_) => wrong.push(format!("{} is not checked then", outcome.path)),
                Settled::Pass(_) | Settled::NotApplicable => {}
            }
        }
    }
    let promised = finding.fix.iter().flat_map(|fix| &fix.then_breaks);
    let promised: BTreeSet<_> = promised.map(|rule| (rule.set().title.clone(), rule.rule().name.clone())).collect();
    for rule in unmet(after, stair).difference(&unmet(before, stair)).filter(|rule| !promised.contains(*rule)) {
        wrong.push(format!("then breaks {}", rule.1));
    }
    wrong
}

/// Facts of the site and measured values that an offer would change; empty where it changes only what was chosen.
fn not_chosen(finding: &RuleFinding, edits: &[Edit]) -> Vec<String> {
    let stated = || finding.design.elements.iter().flat_map(|element| &element.stated);
    let changed = |edit: &Edit| {
        let holds = move |stated: &&Stated| stated.span.start <= edit.span.start && edit.span.end <= stated.span.end;
        stated().filter(move |stated| stated.shop.is_none()).find(holds)
    };
    let fixed = |stated: &&Stated| stated.measured || stated.property.basis != Basis::Choice;
    // A block that is drawn beside what is stated changes nothing of it.
    let found = edits.iter().filter(|edit| edit.span.start < edit.span.end).filter_map(changed).filter(fixed);
    found.map(|stated| format!("{} is not the designer's to change", stated.property.name)).collect()
}

/// The designs that lie in these folders.
pub fn files(folders: &[&str]) -> Vec<(String, String)> {
    let mut paths: Vec<PathBuf> = folders
        .iter()
        .flat_map(|folder| walkdir::WalkDir::new(folder).sort_by_file_name())
        .map(|entry| entry.unwrap().into_path())
        .collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "stair"));
    let read = |path: PathBuf| (path.to_string_lossy().replace('\\', "/"), std::fs::read_to_string(&path).unwrap());
    paths.into_iter().map(read).collect()
}

fn designs() -> Vec<(String, String)> {
    files(&["examples", "tests/cases"]).into_iter().chain(faulty_designs()).collect()
}

#[test]
fn every_offered_value_holds_when_it_is_written() {
    let session = cases::session();
    let (mut tried, mut told) = (0, Vec::new());
    for (name, text) in designs() {
        let lies = if Path::new(&name).exists() { name.clone() } else { "spoilt.stair".to_owned() };
        let source = Source::new(&*lies, &text);
        let before = session.check(&source, None);
        for finding in of_rules(&before) {
            let Some(fix) = finding.fix.as_ref().filter(|fix| fix.was_tried() && !fix.edits.is_empty()) else {
                continue;
            };
            tried += 1;
            let after = session.check(&Source::new(&*lies, applied(&text, &fix.edits)), None);
            let mut wrong = wrong(&before, finding, &after);
            wrong.extend(not_chosen(finding, &fix.edits));
            if !wrong.is_empty() {
                let rule = &finding.rule.rule().name;
                told.push(format!("{name}: {rule}: {:?}: {}", fix.edits, wrong.join("; ")));
            }
        }
    }
    println!("{tried} offers were written and checked again, {} of them not as said", told.len());
    assert!(tried > 200, "only {tried} offers");
    assert!(told.is_empty(), "{} of {tried} offers do not come out:\n{}", told.len(), told.join("\n"));
}

#[test]
fn an_offer_that_does_not_hold_is_told() {
    let session = Session::default();
    let design = |risers: &str, runs: &str| {
        let text =
            format!("stair \"hide\" {{\n rules: residential\n flight {{ risers: {risers}; runs: {runs} }}\n}}\n");
        session.check(&Source::new("hide.stair", text), None)
    };
    let before = design("3 of 8\"", "2 of 11\"");
    let finding = of_rules(&before).find(|finding| finding.rule.rule().name == "riser height").unwrap();
    assert_eq!(wrong(&before, finding, &design("3 of 7\"", "2 of 11\"")), Vec::<String>::new());
    let still = wrong(&before, finding, &design("3 of 8-1/2\"", "2 of 11\""));
    assert!(still.iter().any(|wrong| wrong.ends_with("still fails")), "{still:?}");
    let other = wrong(&before, finding, &design("3 of 7\"", "2 of 5\""));
    assert!(other.iter().any(|wrong| wrong.starts_with("then breaks ")), "{other:?}");
    let unread = wrong(&before, finding, &design("3 of 7 florins", "2 of 11\""));
    assert!(unread.iter().any(|wrong| wrong.starts_with("the readers find ")), "{unread:?}");
}
