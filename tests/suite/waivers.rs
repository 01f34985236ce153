//! Waivers at the command line: what they do to the exit code, and what day it is. What they excuse, design by design,
//! stands in `tests/cases/waivers`.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use pitchboard::base::{Day, Severity, Source};
use pitchboard::check::{Analysis, Finding, held_always};
use pitchboard::session::Session;
use pitchboard::wording::message;

use crate::yard::{HOUSE, Yard};
use crate::{cases, record};

fn waived(until: &str) -> String {
    format!(
        "stair \"Hide\" {{\n    flight {{\n        risers: 2 of 8\"; runs: 10\"; width: 36\"\n        \
         waive \"easy riser\" {{ why: \"the old carriage stays\"; by: \"J. Reed\"; {until} }}\n    }}\n}}\n"
    )
}

#[test]
fn a_waiver_holds_through_its_last_day_and_is_told_in_the_report_and_at_its_end() {
    let yard = Yard::with_house();
    yard.put("hide.stair", waived("until: 2027-03-01"));
    yard.stair("shed.stair", "7\"", "10\"");
    for (day, code) in [("2027-02-28", 0), ("2027-03-01", 0), ("2027-03-02", 1)] {
        let (ended, text) = yard.run(&["check", "--on", day, "."]);
        assert_eq!(ended, code, "{day}: {text}");
        let held =
            text.contains("waived until 2027-03-01, line 4: easy riser, House rules: risers 1 and 2: height is 8\"");
        assert_eq!(held, code == 0, "{day}: {text}");
        assert_eq!(text.contains("2 files: nothing else broken"), code == 0, "{text}");
        assert_eq!(text.matches("1 waived").count(), if code == 0 { 2 } else { 0 }, "of the file and of all: {text}");
        assert_eq!(text.contains("advised: expired waiver"), code == 1, "{day}: {text}");
        assert_eq!(text.contains("broken: easy riser"), code == 1, "{day}: {text}");
    }
}

#[test]
fn without_a_day_of_its_own_a_run_takes_todays() {
    let yard = Yard::with_house();
    yard.put("hide.stair", waived("until: 2020-01-01"));
    let (code, text) = yard.run(&["check", "."]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("held until 2020-01-01, and this is 2"), "{text}");
    yard.put("hide.stair", waived("until: 9999-12-31"));
    assert_eq!(yard.run(&["check", "."]).0, 0);
    for wrong in ["2027-02-29", "tomorrow", "01/03/2027"] {
        let (code, text) = yard.run(&["check", "--on", wrong, "."]);
        assert_eq!(code, 2, "{wrong}: {text}");
        assert!(text.contains("a day is written as `2027-03-01`"), "{text}");
    }
}

#[test]
fn what_is_waived_stays_excused_when_everything_fails_and_a_slip_is_never_excused() {
    let yard = Yard::with_house();
    let all = ["check", "--on", "2026-06-01", "--fail-on", "broken,advised,not-checked,not-understood", "."];
    yard.put("hide.stair", waived("until: 2027-03-01"));
    let (code, text) = yard.run(&all);
    assert_eq!(code, 0, "{text}");
    yard.put(
        "hide.stair",
        waived("until: 2027-03-01")
            .replace("width: 36\"", "width: 36; waive \"clear width\" { why: \"x\"; by: \"y\" }"),
    );
    let (code, text) = yard.run(&all);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("not understood: missing unit"), "{text}");
    assert!(text.contains("clear width, House rules: needs `width` of flight"), "{text}");
}

#[test]
fn a_waiver_speaks_of_the_rules_a_design_asks_for_and_is_no_slip_where_others_are_held_in_their_place() {
    let yard = Yard::with_house();
    yard.put("hide.stair", waived("until: 2027-03-01"));
    yard.put(
        "other.rules",
        "ruleset \"Other\" { }\nrule \"low\" { each riser shall have height <= 9\"; source: \"common practice\" }\n",
    );
    let (code, text) = yard.run(&["check", "--on", "2026-06-01", "--rules", "other.rules", "hide.stair"]);
    assert_eq!(code, 0, "{text}");
    assert!(!text.contains("waiver"), "{text}");
}

#[test]
fn what_a_waiver_says_commands_no_terminal_and_no_log() {
    let yard = Yard::with_house();
    let hostile = waived("until: 2027-03-01").replace("the old carriage stays", "\u{1b}[31m\u{202e}::error::x");
    yard.put("hide.stair", hostile.replace("J. Reed", "##[error]y"));
    let (code, text) = yard.run(&["check", "--on", "2026-06-01", "hide.stair"]);
    // Signs that no editor shows are slips of their own.
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("hidden text"), "{text}");
    assert!(text.contains("error") && !text.contains(['\u{1b}', '\u{202e}']) && !text.contains("##["), "{text}");
    assert!(!text.lines().any(|line| line.trim_start().starts_with("::")), "{text}");
}

#[test]
fn a_rule_explained_for_a_thing_names_the_waiver_that_speaks_of_it() {
    let yard = Yard::with_house();
    yard.put("hide.stair", waived("until: 2027-03-01"));
    let (code, text) = yard.run(&["working", "hide.stair", "riser 1", "easy riser"]);
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let said =
        "waiver until 2027-03-01; \"the old carriage stays\", J. Reed; hide.stair:4; a check says whether it holds";
    assert!(words.contains(said), "{text}");
    let (_, text) = yard.run(&["working", "hide.stair", "tread 1", "deep tread"]);
    assert!(!text.contains("waiver"), "{text}");
}

#[test]
fn a_set_forbids_waiving_and_one_above_it_may() {
    let yard = Yard::with_house();
    yard.put("hide.stair", waived("until: 2027-03-01"));
    yard.put(
        "county.rules",
        "ruleset \"County\" { amends: \"house.rules\" }\namend \"easy riser\" { waive: never; because: \"Children.\" }\n",
    );
    let (code, text) = yard.run(&["check", "--on", "2026-06-01", "--rules", "county.rules", "hide.stair"]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("\"easy riser\" cannot be waived: County forbids it"), "{text}");
    let (_, text) = yard.run(&["rules", "county.rules"]);
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("no design may waive it"), "{text}");
    let (_, text) = yard.run(&["compare", "house.rules", "county.rules"]);
    assert!(text.contains("waivers") && text.contains("never"), "{text}");
}

#[test]
fn a_session_that_knows_no_day_takes_no_waiver_that_has_an_end() {
    let found = |until: &str, day: Option<&str>| {
        let session = Session::default().with_set("house", Source::new("house", HOUSE));
        let session = match day.map(|day| Day::of(day).expect("a day")) {
            Some(day) => session.on(day),
            None => session,
        };
        let text = waived(until).replace("stair \"Hide\" {", "stair \"Hide\" { rules: house;");
        let report = session.check(&Source::new("hide.stair", text), None).report;
        let names: Vec<String> = report.findings.iter().map(|finding| finding.name().to_owned()).collect();
        (names, report.tally.waived, report.findings.iter().filter(|finding| finding.waived().is_some()).count())
    };
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    assert_eq!(found("until: 2027-03-01", Some("2027-03-01")), (names(&["easy riser"]), 1, 1));
    assert_eq!(found("until: 2027-03-01", None), (names(&["easy riser", "expired waiver"]), 0, 0));
    assert_eq!(found("", None), (names(&["easy riser"]), 1, 1));
}

#[test]
fn a_stair_states_so_many_waivers_and_no_more() {
    let yard = Yard::with_house();
    let one = "waive \"easy riser\" { why: \"x\"; by: \"y\" }\n";
    let stair = |many: usize| {
        format!("stair \"a\" {{ flight {{ risers: 2 of 8\"; runs: 10\"; width: 36\"\n{} }} }}", one.repeat(many))
    };
    yard.put("a.stair", stair(200));
    let (code, text) = yard.run(&["check", "a.stair"]);
    assert_eq!(code, 0, "{text}");
    yard.put("a.stair", stair(201));
    let (code, text) = yard.run(&["check", "a.stair"]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("this stair states more waivers than are read"), "{text}");
}

/// What a check finds, without places: each finding with the rule, its words, and whether it is excused.
fn facts(analysis: &Analysis) -> Vec<(String, String, bool)> {
    let of = |finding: &Finding| (finding.name().to_owned(), message(finding).message, finding.waived().is_some());
    let mut facts: Vec<_> = analysis.report.findings.iter().map(of).collect();
    let open = analysis.report.not_checked.iter();
    facts.extend(open.map(|item| (item.rule.clone(), format!("{:?}", item.needs), item.waived.is_some())));
    facts.sort();
    facts
}

/// Over every design of one stair: a waiver in the stair excuses all that its rule finds but what was not understood,
/// and changes nothing else.
#[test]
fn a_waiver_excuses_its_rule_and_changes_nothing_else() {
    let own: BTreeSet<String> = held_always().set.rules.iter().map(|rule| rule.name.clone()).collect();
    let session = cases::session();
    let (mut tried, mut excused, mut open) = (0, 0, 0);
    for path in ["examples", "tests/cases"].iter().flat_map(|folder| record::designs(Path::new(folder))) {
        let text = fs::read_to_string(&path).expect("text");
        let check = |text: &str| session.check(&Source::new(path.to_string_lossy(), text), None);
        let before = check(&text);
        let Some(stair) = before.stairs.first().filter(|_| before.stairs.len() == 1) else { continue };
        let Some(brace) = text[stair.span.end as usize..].find('{').map(|at| stair.span.end as usize + at + 1) else {
            continue;
        };
        let is_sound =
            |finding: &&Finding| !matches!(finding.severity(), Severity::NotUnderstood | Severity::Unchecked);
        if text.contains("waive") || !before.report.findings.iter().all(|finding| is_sound(&finding)) {
            continue;
        }
        let ruled = before.report.findings.iter().filter(|finding| matches!(finding, Finding::Rule(_)));
        let names = ruled.map(|finding| finding.name().to_owned());
        let names: BTreeSet<String> =
            names.chain(before.report.not_checked.iter().map(|item| item.rule.clone()).take(2)).collect();
        for rule in names.into_iter().filter(|rule| !own.contains(rule)) {
            let waiver = format!(" waive \"{rule}\" {{ why: \"x\"; by: \"y\" }}; ");
            let after = facts(&check(&format!("{}{waiver}{}", &text[..brace], &text[brace..])));
            let expected: Vec<_> = facts(&before)
                .into_iter()
                .map(|(name, words, _)| {
                    let is_its = name == rule;
                    (name, words, is_its)
                })
                .collect();
            assert_eq!(after, expected, "{}: {rule}", path.display());
            tried += 1;
            excused += after.iter().filter(|(.., excused)| *excused).count();
            open += before.report.not_checked.iter().filter(|item| item.rule == rule).count();
        }
    }
    assert!(tried > 150 && excused > 200 && open > 50, "{tried} waivers, {excused} excuses, {open} of them open");
}
