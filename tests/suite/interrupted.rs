//! Runs that are killed while they write, and two at once: whatever was there is whole, before or after, and nothing is left
//! but files whose names begin with a dot, which no run reads.
#![cfg(unix)]

use std::collections::BTreeSet;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use crate::yard::Yard;

const KNOWN: &str = "library.known";
const DESIGNS: usize = 40;

/// A library in which every design has a fault that can be mended, and a text that is not tidy.
fn library() -> Yard {
    let yard = Yard::with_house();
    for at in 0..DESIGNS {
        let flight = "flight { risers: 2 of 8\"; runs: 10\"; width: 36\" }";
        yard.put(&name(at), format!("stair \"{at}\" {{\n  {flight}\n}}\n"));
    }
    yard
}

fn name(at: usize) -> String {
    format!("many/{at:03}.stair")
}

fn texts(yard: &Yard) -> Vec<String> {
    (0..DESIGNS).map(|at| yard.text(&name(at))).collect()
}

/// What stands beside the designs; all of it must be under way.
fn left_over(yard: &Yard, folder: &str, known: &[&str]) -> Vec<String> {
    let names = yard.names(folder).into_iter();
    let others: Vec<String> =
        names.filter(|name| !known.contains(&name.as_str()) && !name.ends_with(".stair")).collect();
    assert!(others.iter().all(|name| name.starts_with('.')), "{others:?}");
    others
}

/// Kills a run, which has no time to clear up.
fn kill(child: &mut Child) {
    child.kill().expect("it may be killed");
    child.wait().expect("it ends");
}

fn spawn(yard: &Yard, arguments: &[&str]) -> Child {
    let mut tool = yard.tool(arguments);
    tool.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("it runs")
}

/// A report is begun before the design that standard input holds up.
#[test]
fn a_run_killed_in_the_midst_of_a_report_leaves_the_old_one() {
    let yard = library();
    yard.put("out/report.json", "what was there");
    let arguments = ["check", &name(0), &name(1), "-", "--as", "json=out/report.json"];
    let mut child = yard
        .tool(&arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("it runs");
    let began = Instant::now();
    while yard.names("out").len() < 2 {
        assert!(began.elapsed() < Duration::from_secs(60), "no file is begun");
        thread::sleep(Duration::from_millis(5));
    }
    kill(&mut child);
    assert_eq!(yard.text("out/report.json"), "what was there");
    assert_eq!(left_over(&yard, "out", &["report.json"]).len(), 1);
    // The next run is not held up by it, and reads it for no design.
    let (code, text) = yard.run_on(&arguments, "stair { rules: residential; flight { risers: 2 of 7\" } }");
    assert_eq!(code, 1, "{text}");
    assert!(yard.text("out/report.json").starts_with("{\"version\":1,"));
}

/// A limit on the size of files ends a run by a signal at its first write.
#[test]
fn a_run_ended_by_a_signal_as_it_writes_leaves_every_file_as_it_was() {
    let yard = library();
    let before = texts(&yard);
    let (code, text) = yard.run(&["check", "--baseline", KNOWN, "--record", "."]);
    assert_eq!(code, 0, "{text}");
    let known = yard.text(KNOWN);
    yard.stair("new.stair", "8\"", "10\"");
    let binary = env!("CARGO_BIN_EXE_pitchboard");
    for arguments in ["mend .", "tidy .", "check --baseline library.known --record .", "check . --as json=report.json"]
    {
        let line = format!("ulimit -f 0; exec '{binary}' {arguments}");
        let said = yard.command("sh", &["-c", &line]).output().expect("sh runs");
        assert_eq!(said.status.code(), None, "{arguments}: {said:?}");
        assert_eq!((texts(&yard), yard.text(KNOWN)), (before.clone(), known.clone()), "{arguments}");
        left_over(&yard, "many", &[]);
        left_over(&yard, "", &[KNOWN, "many", "house.rules", "shop.pitchboard"]);
    }
}

/// Killed at many moments: each design is as it was, or as it comes out of a run that nobody ends.
#[test]
fn a_run_killed_at_any_moment_leaves_whole_files() {
    for arguments in [&["mend", "."][..], &["tidy", "."]] {
        let (yard, after) = (library(), library());
        assert_eq!(after.run(arguments).0, 0);
        let (before, after) = (texts(&yard), texts(&after));
        assert!(before.iter().zip(&after).all(|(before, after)| before != after), "{arguments:?} changes each");
        for wait in 0..8 {
            let mut child = spawn(&yard, arguments);
            thread::sleep(Duration::from_millis(wait * 6));
            kill(&mut child);
            for ((now, before), after) in texts(&yard).iter().zip(&before).zip(&after) {
                assert!(now == before || now == after, "{arguments:?}: {now}");
            }
            left_over(&yard, "many", &[]);
        }
        let (code, text) = yard.run(arguments);
        assert_eq!((code, texts(&yard)), (0, after), "{arguments:?}: {text}");
    }
    let yard = library();
    let record = ["check", "--baseline", KNOWN, "--record", "."];
    yard.put(KNOWN, "pitchboard baseline 1\n");
    for wait in 0..8 {
        let mut child = spawn(&yard, &record);
        thread::sleep(Duration::from_millis(wait * 6));
        kill(&mut child);
        let lines = yard.text(KNOWN).lines().count();
        assert!([1, 1 + 2 * DESIGNS].contains(&lines), "{lines} lines");
    }
    assert_eq!(yard.run(&record).0, 0);
    assert_eq!(yard.text(KNOWN).lines().count(), 1 + 2 * DESIGNS);
}

/// Two runs that write the same files, and two that write into one baseline of different folders.
#[test]
fn two_runs_at_once_leave_whole_files() {
    for arguments in [&["mend", "."][..], &["tidy", "."]] {
        let (yard, after) = (library(), library());
        assert_eq!(after.run(arguments).0, 0);
        thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| {
                    let (code, text) = yard.run(arguments);
                    assert_eq!(code, 0, "{text}");
                });
            }
        });
        assert_eq!(texts(&yard), texts(&after), "{arguments:?}");
        assert!(left_over(&yard, "many", &[]).is_empty());
    }
    let yard = library();
    let folders: Vec<String> = (0..4).map(|at| format!("shed-{at}")).collect();
    for folder in &folders {
        yard.stair(&format!("{folder}/low.stair"), "8\"", "10\"");
    }
    thread::scope(|scope| {
        for folder in &folders {
            let yard = &yard;
            scope.spawn(move || {
                let (code, text) = yard.run(&["check", "--baseline", KNOWN, "--record", folder]);
                assert_eq!(code, 0, "{text}");
            });
        }
    });
    let text = yard.text(KNOWN);
    let lines: BTreeSet<&str> = text.lines().skip(1).collect();
    assert!(text.starts_with("pitchboard baseline 1\n") && text.ends_with("\tbroken\n"), "{text}");
    assert_eq!(lines.len(), 2 * folders.len(), "{text}");
    for line in lines {
        let parts: Vec<&str> = line.split('\t').collect();
        assert!(parts.len() == 6 && folders.iter().any(|folder| parts[0] == format!("{folder}/low.stair")), "{line}");
    }
    assert_eq!(yard.run(&["check", "--baseline", KNOWN, "--record", "."]).0, 0);
    assert_eq!(yard.text(KNOWN).lines().count(), 1 + 2 * (DESIGNS + folders.len()));
    let known = [KNOWN, "many", "house.rules", "shop.pitchboard", "shed-0", "shed-1", "shed-2", "shed-3"];
    assert!(left_over(&yard, "", &known).is_empty());
}

/// Processes that record and shrink one baseline in the same instant, over and over: none loses what another found.
#[test]
fn no_run_loses_what_another_records_in_the_same_instant() {
    let yard = Yard::with_house();
    let folders: Vec<String> = (0..6).map(|at| format!("shed-{at}")).collect();
    let all = |how: &str| {
        let arguments = |folder| ["check", "--baseline", KNOWN, how, folder];
        let mut runs: Vec<Child> = folders.iter().map(|folder| spawn(&yard, &arguments(folder))).collect();
        let codes: Vec<Option<i32>> = runs.iter_mut().map(|run| run.wait().expect("it ends").code()).collect();
        assert!(codes.iter().all(|code| *code == Some(0)), "{how}: {codes:?}");
        yard.text(KNOWN).lines().skip(1).count()
    };
    for _ in 0..5 {
        for folder in &folders {
            yard.stair(&format!("{folder}/low.stair"), "8\"", "10\"");
        }
        assert_eq!(all("--record"), 2 * folders.len());
        for folder in &folders {
            yard.stair(&format!("{folder}/low.stair"), "7\"", "10\"");
        }
        assert_eq!(all("--shrink"), 0);
    }
    assert!(
        left_over(
            &yard,
            "",
            &[&[KNOWN, "house.rules", "shop.pitchboard"], &*folders.iter().map(String::as_str).collect::<Vec<_>>()]
                .concat()
        )
        .is_empty()
    );
}
