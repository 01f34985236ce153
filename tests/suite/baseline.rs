//! A baseline: what is known fails nothing, what is new does, what is gone is told and taken out; and whatever happens to
//! a run, its file is whole.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::thread;

use pitchboard::base::Source;
use pitchboard::check::{Fault, Finding};

use crate::yard::Yard;
use crate::{cases, record};

const KNOWN: &str = "library.known";

fn check<'a>(more: &[&'a str]) -> Vec<&'a str> {
    [&["check", "--baseline", KNOWN], more].concat()
}

/// A library of three drawings, one of which is sound, and its baseline.
fn library() -> Yard {
    let yard = Yard::with_house();
    yard.stair("hides/low.stair", "8\"", "9\"");
    yard.put("sheds/punt.stair", "stair \"punt\" { flight { risers: 2 of 7\"; runs: 10\" } }");
    yard.stair("sheds/sound.stair", "7\"", "10\"");
    let (code, text) = yard.run(&check(&["--record", "."]));
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("baseline library.known: 0 known, 4 new, 0 gone: recorded"), "{text}");
    yard
}

#[test]
fn it_is_a_line_for_each_rule_and_thing() {
    let yard = library();
    assert_eq!(
        yard.text(KNOWN),
        "pitchboard baseline 1\n\
         hides/low.stair\tlow\tflight / riser 1\tHouse rules\teasy riser\tbroken\n\
         hides/low.stair\tlow\tflight / riser 2\tHouse rules\teasy riser\tbroken\n\
         hides/low.stair\tlow\tflight / tread 1\tHouse rules\tdeep tread\tadvised\n\
         sheds/punt.stair\tpunt\tflight\tHouse rules\tclear width\tnot checked\n"
    );
}

#[test]
fn what_is_known_fails_nothing_wherever_the_run_begins_and_whatever_lines_changed() {
    let yard = library();
    let all = ["--fail-on", "broken,advised,not-checked,not-understood"];
    let (code, text) = yard.run(&check(&[&all[..], &["."]].concat()));
    assert_eq!(code, 0, "{text}");
    assert!(!text.contains("broken: easy riser"), "it is counted, and not drawn: {text}");
    assert!(text.contains("3 files: nothing else broken") && text.contains("2 known"), "{text}");
    assert_eq!(yard.run(&["check", "."]).0, 1, "without the baseline it fails as before");
    let before = yard.text("hides/low.stair");
    let moved = before.replace("    flight", "\n\n    # As built in 1911.\n    post \"newel\" { }\n    flight");
    yard.put("hides/low.stair", moved.replace("\"low\" {", "\"low\" {\n    total rise: 16\""));
    let mut elsewhere = yard.tool(&["check", "--baseline", "../library.known", "low.stair"]);
    let said = elsewhere.current_dir(yard.at("hides")).output().expect("it runs");
    assert_eq!(said.status.code(), Some(0), "{}", String::from_utf8_lossy(&said.stdout));
}

#[test]
fn what_is_new_fails() {
    let yard = library();
    // The same rule for another thing of the same design.
    yard.stair("hides/low.stair", "8\"; risers: 3 of 8\"", "9\"");
    let text = yard.text("hides/low.stair").replace("2 of 8\"; risers: ", "").replace("runs: 9\"", "runs: 9\", 10\"");
    yard.put("hides/low.stair", text);
    let (code, text) = yard.run(&check(&["."]));
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("broken: easy riser"), "{text}");
    assert!(text.contains("baseline library.known: 4 known, 1 new, 0 gone"), "{text}");
    // A new design.
    let yard = library();
    yard.stair("hides/high.stair", "8\"", "10\"");
    assert_eq!(yard.run(&check(&["."])).0, 1);
    assert_eq!(yard.run(&check(&["hides/low.stair"])).0, 0);
}

#[test]
fn what_is_gone_is_told_and_taken_out_on_request() {
    let yard = library();
    yard.stair("hides/low.stair", "7\"", "9\"");
    let before = yard.text(KNOWN);
    let (code, text) = yard.run(&check(&["."]));
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let gone = "gone from the baseline: easy riser, House rules, broken for flight / riser 1 of \"low\"";
    assert!(words.contains(gone), "{text}");
    assert!(text.contains("2 known, 0 new, 2 gone: --shrink takes out what is gone"), "{text}");
    assert_eq!(yard.text(KNOWN), before, "nothing is written that was not asked for");
    let (code, text) = yard.run(&check(&["--shrink", "."]));
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("what is gone was taken out"), "{text}");
    assert_eq!(yard.text(KNOWN).matches("easy riser").count(), 0);
    assert_eq!(yard.text(KNOWN).lines().count(), 3, "what is still there stays");
    // What came back is new again.
    yard.stair("hides/low.stair", "8\"", "9\"");
    assert_eq!(yard.run(&check(&["."])).0, 1);
}

#[test]
fn what_was_not_looked_at_is_not_gone() {
    let yard = library();
    let before = yard.text(KNOWN);
    yard.stair("hides/low.stair", "7\"", "10\"");
    yard.run(&check(&["--shrink", "sheds"]));
    assert_eq!(yard.text(KNOWN), before, "only the sheds were checked");
    // A slip may hide what it held.
    yard.put("hides/low.stair", "stair \"low\" { flight { risers: 2 of 8; runs: 9\"; width: 36\" } }");
    let (code, text) = yard.run(&check(&["--shrink", "."]));
    assert_eq!(code, 1, "what was not understood is never known: {text}");
    assert_eq!(yard.text(KNOWN), before);
    // Other rules were held.
    yard.put(
        "other.rules",
        "ruleset \"Other\" { }\nrule \"low\" { each riser shall have height <= 9\"; source: \"common practice\" }\n",
    );
    yard.stair("hides/low.stair", "7\"", "10\"");
    yard.run(&check(&["--shrink", "--rules", "other.rules", "."]));
    assert_eq!(yard.text(KNOWN), before);
    // A design that is not there any more is gone with all that it had.
    fs::remove_file(yard.at("hides/low.stair")).expect("it was there");
    let (_, text) = yard.run(&check(&["--shrink", "."]));
    assert!(text.contains("gone from the baseline with `hides/low.stair`, which is not there: 3"), "{text}");
    assert!(!yard.text(KNOWN).contains("low.stair"));
}

#[test]
fn what_was_not_understood_is_never_known() {
    let yard = Yard::with_house();
    yard.put("a.stair", "stair \"a\" { flight { risers: 2 of 8\"; runs: 10\"; width: 36 } }");
    let (code, text) = yard.run(&check(&["--record", "--strict", "."]));
    assert_eq!(code, 1, "{text}");
    assert!(!yard.text(KNOWN).contains("clear width"), "what rests on it is not known either: {}", yard.text(KNOWN));
    let (code, text) = yard.run(&check(&["--fail-on", "not-checked", "."]));
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("not understood: missing unit"), "{text}");
}

#[test]
fn what_is_recorded_again_keeps_what_was_not_looked_at() {
    let yard = library();
    let before = yard.text(KNOWN);
    yard.stair("sheds/sound.stair", "8\"", "10\"");
    yard.run(&check(&["--record", "sheds"]));
    let after = yard.text(KNOWN);
    assert!(before.lines().all(|line| after.contains(line)), "{after}");
    assert_eq!(after.matches("sheds/sound.stair").count(), 2, "{after}");
}

#[test]
fn a_file_that_is_no_baseline_is_refused_and_left_as_it_is() {
    let yard = library();
    for (bad, line) in [
        ("", 1),
        ("stair \"a\" { }\n", 1),
        ("pitchboard baseline 2\n", 1),
        ("pitchboard baseline 1\n<<<<<<< ours\n", 2),
        ("pitchboard baseline 1\na.stair\ta\tflight\tS\tr\tworse\n", 2),
    ] {
        for way in [&["."][..], &["--record", "."], &["--shrink", "."]] {
            yard.put(KNOWN, bad);
            let (code, text) = yard.run(&check(way));
            assert_eq!(code, 2, "{bad:?} {way:?}: {text}");
            assert!(text.contains(&format!("its line {line} is none of a baseline")), "{bad:?}: {text}");
            assert_eq!(yard.text(KNOWN), bad);
        }
    }
    fs::remove_file(yard.at(KNOWN)).expect("it was there");
    for way in [&["."][..], &["--shrink", "."]] {
        let (code, text) = yard.run(&check(way));
        assert_eq!(code, 2, "{text}");
        assert!(text.contains("there is no such file"), "{text}");
    }
    assert_eq!(yard.run(&["check", "--record", "."]).0, 2, "what should be recorded where?");
}

#[cfg(unix)]
#[test]
fn a_file_that_cannot_be_written_costs_a_message_and_leaves_nothing_behind() {
    let yard = library();
    yard.stair("hides/low.stair", "7\"", "10\"");
    for (place, why) in [
        ("/dev/full", "it is a pipe or a device, not a file"),
        ("nowhere/x.known", "there is no such file"),
        ("house.rules/x.known", "a part of its path is no folder"),
        ("/proc/x.known", ""),
        ("hides", "it is a folder"),
    ] {
        let (code, text) = yard.run(&["check", "--baseline", place, "--record", "."]);
        assert_eq!(code, 2, "{place}: {text}");
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains(why), "{place}: {text}");
    }
    let names = yard.names("");
    assert!(names.iter().all(|name| !name.starts_with(".baseline")), "{names:?}");
    assert_eq!(yard.names("hides"), ["low.stair"]);
    use std::os::unix::fs::FileTypeExt;
    assert!(fs::metadata("/dev/full").expect("it is there").file_type().is_char_device(), "and it is still a device");
}

/// A limit on what a run may write stands for a disk that is full, and ends the run half-way.
#[cfg(unix)]
#[test]
fn a_run_that_is_ended_half_way_leaves_the_file_as_it_was() {
    let yard = library();
    let before = yard.text(KNOWN);
    for at in 0..200 {
        yard.stair(&format!("many/{at}.stair"), "8\"", "9\"");
    }
    let binary = env!("CARGO_BIN_EXE_pitchboard");
    let limited = format!("ulimit -f 8; '{binary}' check --baseline {KNOWN} --record . > /dev/null");
    let said = yard.command("sh", &["-c", &limited]).output().expect("sh runs");
    assert!(!said.status.success(), "more than a few kilobytes were to be written");
    assert_eq!(yard.text(KNOWN), before);
    let (code, text) = yard.run(&check(&["--record", "."]));
    assert_eq!(code, 0, "{text}");
    assert_eq!(yard.text(KNOWN).lines().count(), 1 + 4 + 200 * 3);
}

#[test]
fn two_runs_at_once_leave_a_whole_file() {
    let yard = library();
    for at in 0..40 {
        yard.stair(&format!("many/{at}.stair"), "8\"", "9\"");
    }
    for _ in 0..5 {
        thread::scope(|scope| {
            for folder in [".", "many"] {
                let yard = &yard;
                scope.spawn(move || assert_eq!(yard.run(&check(&["--record", folder])).0, 0));
            }
        });
        let text = yard.text(KNOWN);
        assert_eq!(text.lines().count(), 1 + 4 + 40 * 3, "{text}");
        assert!(text.starts_with("pitchboard baseline 1\n") && text.ends_with('\n'));
        assert!(yard.names("").iter().all(|name| !name.starts_with('.')), "{:?}", yard.names(""));
    }
}

/// What is waived, or known, is not mended, and nothing is said of it but in the counts.
#[test]
fn what_is_excused_is_not_mended() {
    let yard = Yard::with_house();
    yard.stair("known.stair", "8\"", "9\"");
    assert_eq!(yard.run(&check(&["--record", "."])).0, 0);
    yard.stair("new.stair", "8\"", "10\"");
    let waive = "waive \"easy riser\" { why: \"the old door\"; by: \"J. Reed\"; until: 2026-06-01 }";
    let waived = format!("stair \"w\" {{ flight {{ risers: 2 of 8\"; runs: 10\"; width: 36\"; {waive} }} }}\n");
    yard.put("waived.stair", &waived);
    let (known, baseline) = (yard.text("known.stair"), yard.text(KNOWN));
    let mend = |day: &str, more: &[&str]| yard.run(&[&["mend", "--on", day, "--baseline", KNOWN], more].concat());
    let (code, text) = mend("2026-06-01", &["."]);
    assert_eq!(code, 0, "{text}");
    assert_eq!((yard.text("known.stair"), yard.text("waived.stair")), (known.clone(), waived.clone()), "{text}");
    assert!(!yard.text("new.stair").contains("2 of 8\""), "{text}");
    for design in ["known.stair", "waived.stair"] {
        assert!(text.contains(&format!("{design}: nothing to mend")), "{text}");
    }
    assert!(text.contains("3 files: nothing else broken") && text.contains("1 waived, 2 known"), "{text}");
    assert_eq!(yard.text(KNOWN), baseline, "it is only read");
    // A fault beside those that are known is mended, and they stay.
    let moved = known.replace("width: 36\"", "width: 30\"");
    yard.put("known.stair", &moved);
    let (code, text) = mend("2026-06-01", &["known.stair"]);
    assert_eq!((code, yard.text("known.stair")), (0, known.clone()), "{text}");
    // A day later the waiver has expired; without the baseline what it knew is mended.
    assert_eq!(mend("2026-06-02", &["waived.stair"]).0, 0);
    assert!(!yard.text("waived.stair").contains("2 of 8\"") && yard.text("waived.stair").contains(waive));
    assert_eq!(yard.run(&["mend", "known.stair"]).0, 0);
    assert_ne!(yard.text("known.stair"), known);
    let (code, text) = yard.run(&["mend", "--baseline", "none.known", "."]);
    assert!(code == 2 && text.contains("there is no such file"), "{text}");
}

/// Over every design: where all is known nothing is left but what readers find and what rests on what was not
/// understood, where nothing is known nothing is, and the same faults are found whatever is known.
#[test]
fn every_fault_of_every_design_is_known_again() {
    let session = cases::session();
    let (mut found, mut known) = (0, 0);
    for path in ["examples", "tests/cases"].iter().flat_map(|folder| record::designs(Path::new(folder))) {
        let source = Source::new(path.to_string_lossy(), fs::read_to_string(&path).expect("text"));
        let mut none = session.check(&source, None);
        let before = none.report.tally;
        let faults = none.mark_known(&|_| false);
        let unmarked = |finding: &Finding| !finding.is_excused() || finding.waived().is_some();
        assert!(none.report.findings.iter().all(unmarked), "{}", source.name);
        assert!(none.report.not_checked.iter().all(|item| !item.known), "{}", source.name);
        assert_eq!(none.report.tally, before, "{}", source.name);

        let set: BTreeSet<Fault> = faults.iter().cloned().collect();
        let mut all = session.check(&source, None);
        let again = all.mark_known(&|fault| set.contains(fault));
        assert_eq!(again, faults, "{}", source.name);
        for finding in &all.report.findings {
            assert!(
                finding.is_excused() || matches!(finding, Finding::Reader(_)),
                "{}: {}",
                source.name,
                finding.name()
            );
        }
        for item in &all.report.not_checked {
            let unread = item.needs.reason.is_of_what_was_not_understood();
            assert!(item.is_excused() != unread, "{}: {} {:?}", source.name, item.rule, item.needs);
        }
        assert_eq!((all.report.tally.broken, all.report.tally.advised), (0, 0), "{}", source.name);
        // Where a rule is open besides, by what no baseline knows, it is not checked now.
        let open = all.report.tally.not_checked - before.not_checked;
        let slips = all.report.not_checked.iter().any(|item| item.needs.reason.is_of_what_was_not_understood());
        assert!(open == 0 || slips, "{}", source.name);
        assert_eq!(all.report.tally.known + open, before.broken + before.advised, "{}", source.name);
        found += faults.len();
        known += all.report.tally.known;
    }
    assert!(found > 3000 && known > 300, "{found} faults, {known} rules");
}
