//! Good designs, each spoilt by one known fault, and the binary held to both sides of the account: every fault is
//! found, by its rule and at its words, and every finding that the good design did not have is explained by the
//! fault.
//!
//! The designs are those of `examples/` in which nothing is broken. A fault is a row of the table in
//! `tests/suite/faults.rs`: what it changes in the text, which rule or notice must tell it, and which others it may
//! honestly set off. A small reader of its own finds the words to change, so that nothing of the crate decides what
//! is spoilt. The binary is run on the spoilt designs as its user would, a folder at a time, and gives exit codes,
//! names and counts; the places are the library's, which its plain text only draws.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::ops::Range;
use std::path::Path;
use std::process::Command;

use crate::drawing::{Dice, Drawing};
use crate::faults::{self, Fault, faults};
use crate::switches::long_run;
use pitchboard::base::notices::NOTICES;
use pitchboard::base::{Severity, Source};
use pitchboard::check::{BUILT_IN, Report};
use pitchboard::session::Session;
use pitchboard::wording::{Message, messages};

/// How many faulty designs are made.
const FAULTY: usize = 2_000;

/// The same faults in every run; MUTATION_SEED asks for others.
const SEED: u64 = 2026;

/// One good design with one fault in it.
struct Spoilt {
    /// Which fault of the table.
    fault: usize,
    /// Which good design.
    good: usize,
    text: String,
    /// Where the finding is to point.
    at: Range<usize>,
}

fn is_good(report: &Report) -> bool {
    report.findings.iter().all(|finding| finding.severity() == Severity::Advised)
}

/// Designs of the examples in which nothing is broken, with their reports.
fn good_designs(session: &Session) -> Vec<(Drawing, Report)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut paths: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.is_file());
    paths.sort();
    let read =
        paths.iter().map(|path| (path.file_stem().unwrap().to_string_lossy(), fs::read_to_string(path).unwrap()));
    let held = read.map(|(name, text)| {
        let report = session.check(&Source::new(&*name, &text), None).report;
        (Drawing::read(&name, &text), report)
    });
    held.filter(|(_, report)| is_good(report)).collect()
}

/// Faults in turn, each on designs in turn, until there are enough different ones.
fn spoil(good: &[(Drawing, Report)], table: &[Fault]) -> Vec<Spoilt> {
    let seed = std::env::var("MUTATION_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(SEED);
    let mut dice = Dice::new(seed);
    let mut spoilt = Vec::new();
    let mut seen = BTreeSet::new();
    let mut idle = vec![0; table.len()];
    while spoilt.len() < FAULTY && idle.iter().any(|idle| *idle < 200) {
        for (number, fault) in table.iter().enumerate() {
            let mut tries = 0;
            while idle[number] < 200 && tries < good.len() * 4 && spoilt.len() < FAULTY {
                tries += 1;
                let at = dice.below(good.len());
                let drawing = &good[at].0;
                let damage = (fault.damage)(drawing, &mut dice);
                let made = damage.map(|damage| (drawing.with(&damage), damage.at));
                match made.filter(|(text, _)| *text != drawing.text && seen.insert(text.clone())) {
                    Some((text, at_words)) => {
                        spoilt.push(Spoilt { fault: number, good: at, text, at: at_words });
                        idle[number] = 0;
                        break;
                    }
                    None => idle[number] += 1,
                }
            }
        }
    }
    spoilt
}

/// The faulty designs, each with a name: a tenth of them, or all with `FULL=1`.
pub fn faulty_designs() -> Vec<(String, String)> {
    let session = Session::default();
    let (good, table) = (good_designs(&session), faults());
    let named = spoil(&good, &table).into_iter().enumerate().map(|(number, spoilt)| {
        (format!("{number:04} ({}, {})", good[spoilt.good].0.name, table[spoilt.fault].name), spoilt.text)
    });
    named.step_by(FAULTY / long_run(FAULTY)).collect()
}

/// A faulty design, and what must tell of it.
pub struct Planted {
    pub text: String,
    /// The rules or notices of which one must.
    pub finds: &'static [&'static str],
    pub severity: Severity,
    /// The words at which.
    pub at: Range<usize>,
}

/// The faulty designs with their faults: a tenth of them, or all with `FULL=1`.
pub fn planted() -> Vec<Planted> {
    let (good, table) = (good_designs(&Session::default()), faults());
    let planted = spoil(&good, &table).into_iter().map(|spoilt| {
        let Fault { finds, severity, .. } = table[spoilt.fault];
        Planted { text: spoilt.text, finds, severity, at: spoilt.at }
    });
    planted.step_by(FAULTY / long_run(FAULTY)).collect()
}

/// What tells two findings apart, whatever the figures in their messages.
fn key(source: &Source, finding: &Message) -> (Severity, String, usize) {
    let line = finding.labels.first().map_or(0, |label| source.line(label.span.start));
    (finding.severity, finding.name.clone(), line)
}

/// Findings that the good design did not have.
fn new_findings(before: &Report, after: &Report) -> Vec<Message> {
    let mut known: Vec<_> = messages(&before.findings).iter().map(|finding| key(&before.source, finding)).collect();
    let mut new = Vec::new();
    for finding in messages(&after.findings) {
        match known.iter().position(|known| *known == key(&after.source, &finding)) {
            Some(at) => {
                known.swap_remove(at);
            }
            None => new.push(finding),
        }
    }
    new
}

/// A label overlaps the words.
fn points_at(finding: &Message, words: &Range<usize>) -> bool {
    finding.labels.iter().any(|label| {
        let (start, end) = (label.span.start as usize, label.span.end as usize);
        start < words.end.max(words.start + 1) && words.start < end.max(start + 1)
    })
}

/// What is wrong with the account of one faulty design; empty if it is even.
fn reconcile(fault: &Fault, spoilt: &Spoilt, before: &Report, after: &Report) -> Vec<String> {
    let new = new_findings(before, after);
    let mut wrong = Vec::new();
    let (own, others): (Vec<&Message>, Vec<&Message>) = new
        .iter()
        .partition(|finding| fault.finds.contains(&finding.name.as_str()) && finding.severity == fault.severity);
    if own.is_empty() {
        wrong.push(format!("missed: {:?}", fault.finds));
    } else if !own.iter().any(|finding| points_at(finding, &spoilt.at)) {
        let places: Vec<_> = own.iter().flat_map(|f| &f.labels).map(|label| after.source.slice(label.span)).collect();
        wrong.push(format!("found, but not at `{}`: at {places:?}", &spoilt.text[spoilt.at.clone()]));
    }
    for finding in others {
        let line_of = |at: usize| spoilt.text[..at].matches('\n').count() + 1;
        let lines = line_of(spoilt.at.start)..=line_of(spoilt.at.end);
        let near = faults::BROUGHT_TO_BEAR.contains(&finding.name.as_str())
            || finding.labels.iter().any(|label| lines.contains(&after.source.line(label.span.start)));
        // A figure of the work that is spoilt is likely no mark of the tape.
        if finding.name == "finer than it was read" && spoilt.text.contains("read to:") {
            continue;
        }
        if finding.message.starts_with("as measured, ") && faults::OFF_THE_WORK.contains(&&*finding.name) {
            continue;
        }
        if !fault.also.contains(&finding.name.as_str()) {
            wrong.push(format!("unexplained: {} {}: {}", finding.severity.word(), finding.name, finding.message));
        } else if !near {
            wrong.push(format!("explained, but elsewhere: {} {}", finding.severity.word(), finding.name));
        }
    }
    wrong
}

/// By file: the lines of its findings, and its last line.
type Told = BTreeMap<String, (Vec<String>, String)>;

/// Exit code of a run over a folder, and what it says of each file: classes and names in their order, and the counts.
fn run(folder: &Path) -> (Option<i32>, Told) {
    let output = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
        .args(["check", "--colour", "never"])
        .arg(".")
        .current_dir(folder)
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let mut told = BTreeMap::new();
    let mut names = Vec::new();
    for line in text.lines() {
        let Some((head, rest)) = line.split_once(": ") else { continue };
        if ["broken", "advised", "not understood", "unchecked"].contains(&head) {
            names.push(line.to_owned());
        } else if let Some(class) = head.strip_prefix("  also ") {
            // Another finding of the same cause: its name, and its set where that is another.
            let name = rest.split(": ").next().unwrap_or_default();
            let name = name.strip_suffix(')').and_then(|named| named.rsplit_once(" (")).map_or(name, |(name, _)| name);
            names.push(format!("{class}: {name}"));
        } else if let Some((_, file)) = head.rsplit_once(['/', '\\']).or(Some(("", head)))
            && let Some(number) = file.strip_suffix(".stair")
        {
            told.insert(number.to_owned(), (std::mem::take(&mut names), rest.to_owned()));
        }
    }
    (output.status.code(), told)
}

fn names(report: &Report) -> Vec<String> {
    report.findings.iter().map(|finding| format!("{}: {}", finding.severity().word(), finding.name())).collect()
}

fn fresh_folder() -> std::path::PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("mutation-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    for class in ["sound", "broken", "unchecked"] {
        fs::create_dir_all(folder.join(class)).unwrap();
    }
    folder
}

#[test]
fn every_fault_is_found_and_every_finding_is_explained() {
    let session = Session::default();
    let good = good_designs(&session);
    assert!(good.len() >= 20, "only {} good designs", good.len());
    let table = faults();
    let spoilt = spoil(&good, &table);
    assert_eq!(spoilt.len(), FAULTY, "not enough different faults");

    let folder = fresh_folder();
    let mut reports = Vec::new();
    for (number, spoilt) in spoilt.iter().enumerate() {
        let report = session.check(&Source::new("spoilt.stair", &spoilt.text), None).report;
        let worst = report.findings.iter().map(|finding| finding.severity()).min();
        let within = match worst {
            Some(Severity::Unchecked) => "unchecked",
            Some(Severity::NotUnderstood | Severity::Broken) => "broken",
            Some(Severity::Advised) | None => "sound",
        };
        fs::write(folder.join(within).join(format!("{number:04}.stair")), &spoilt.text).unwrap();
        reports.push(report);
    }

    // The binary says of each file what the library says, and its exit code follows from the worst of a folder.
    let mut told = BTreeMap::new();
    for (within, expected) in [("sound", 0), ("broken", 1), ("unchecked", 2)] {
        let (code, files) = run(&folder.join(within));
        assert_eq!(code, Some(expected), "exit code for the folder {within}");
        told.extend(files);
    }
    assert_eq!(told.len(), FAULTY, "files that the binary told of");

    let mut wrong = String::new();
    let mut faulty = 0;
    let mut count: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let (mut explained, mut own) = (0, 0);
    for (number, (spoilt, report)) in spoilt.iter().zip(&reports).enumerate() {
        let (drawing, before) = &good[spoilt.good];
        let fault = &table[spoilt.fault];
        let mut account = reconcile(fault, spoilt, before, report);
        let (printed, counts) = &told[&format!("{number:04}")];
        if *printed != names(report) {
            account.push(format!("the binary prints {printed:?}"));
        }
        let broken = report.tally.broken;
        let said = counts.split(" rule").next().and_then(|count| count.parse::<usize>().ok()).unwrap_or(0);
        if said != broken {
            account.push(format!("the binary counts {said} broken, the library {broken}"));
        }
        let new = new_findings(before, report);
        let mine = new.iter().filter(|finding| fault.finds.contains(&finding.name.as_str())).count();
        own += mine;
        explained += new.len() - mine;
        let row = count.entry(fault.name).or_default();
        row.0 += 1;
        if !account.is_empty() {
            row.1 += 1;
            faulty += 1;
            if row.1 <= 3 {
                let line = spoilt.text[..spoilt.at.start].matches('\n').count();
                let line = spoilt.text.lines().nth(line).unwrap_or_default().trim();
                let _ = writeln!(wrong, "{}, {} ({number:04}): {line}", drawing.name, fault.name);
                for said in &account {
                    let _ = writeln!(wrong, "    {said}");
                }
            }
        }
    }
    println!("{} good designs, {} kinds of faults, {} faulty designs", good.len(), table.len(), spoilt.len());
    println!("{own} findings by the rules of the faults, {explained} explained beside them");
    for (name, (made, odd)) in &count {
        println!("{made:5}  {name}{}", if *odd > 0 { format!("  ({odd} not even)") } else { String::new() });
    }
    let idle: Vec<&str> = table.iter().map(|fault| fault.name).filter(|name| !count.contains_key(name)).collect();
    assert!(idle.is_empty(), "no design takes these faults: {idle:?}");
    assert!(wrong.is_empty(), "{faulty} of {FAULTY} do not come out even:\n{wrong}");
    let _ = fs::remove_dir_all(&folder);
}

/// The same account of members and joints that carry.
#[test]
fn every_fault_of_strength_is_found_and_every_finding_is_explained() {
    let session = Session::default();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/strength");
    let good: Vec<(Drawing, Report)> = ["sound-notched", "sound-solid", "sound-rail", "sound-leg", "sound-landing"]
        .into_iter()
        .map(|name| {
            let text = fs::read_to_string(folder.join(name).with_extension("stair")).unwrap();
            let report = session.check(&Source::new(name, &text), None).report;
            assert!(is_good(&report), "{name} is sound");
            (Drawing::read(name, &text), report)
        })
        .collect();
    let table = faults::strength();
    let spoilt: Vec<Spoilt> = spoil(&good, &table).into_iter().take(300).collect();
    let mut wrong = Vec::new();
    let mut made = BTreeSet::new();
    for spoilt in &spoilt {
        let fault = &table[spoilt.fault];
        let (drawing, before) = &good[spoilt.good];
        let after = session.check(&Source::new(&*drawing.name, &spoilt.text), None).report;
        let account = reconcile(fault, spoilt, before, &after);
        let words = &spoilt.text[spoilt.at.clone()];
        wrong.extend(account.into_iter().map(|said| format!("{}, {}, `{words}`: {said}", drawing.name, fault.name)));
        made.insert(spoilt.fault);
    }
    assert_eq!(made.len(), table.len(), "each is made");
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), spoilt.len(), wrong.join("\n"));
}

/// Every rule of the two sets that the examples are held to is spoilt by some fault, or is listed with the reason why not.
#[test]
fn every_rule_is_spoilt_or_excused() {
    // `workshop` takes `strength` in, whose faults are made of designs of their own.
    let table: Vec<Fault> = faults().into_iter().chain(faults::strength()).collect();
    let named: BTreeSet<&str> = table.iter().flat_map(|fault| fault.finds.iter().copied()).collect();
    let excused: BTreeSet<&str> = faults::NOT_SPOILT.iter().map(|(rule, _)| *rule).collect();
    let mut rules = BTreeSet::new();
    for (name, text) in BUILT_IN.iter().filter(|(name, _)| ["drawing", "residential", "workshop"].contains(name)) {
        let set = Session::default().read_set(&Source::new(name, text)).set;
        rules.extend(set.rules.into_iter().map(|rule| rule.name.clone()));
    }
    let of_sets: BTreeSet<&str> = rules.iter().map(String::as_str).collect();
    let neither: Vec<_> = of_sets.iter().filter(|rule| !named.contains(*rule) && !excused.contains(*rule)).collect();
    assert!(neither.is_empty(), "neither spoilt nor excused: {neither:?}");
    let idle: Vec<_> = excused.iter().filter(|rule| named.contains(*rule) || !of_sets.contains(*rule)).collect();
    assert!(idle.is_empty(), "excused without need: {idle:?}");
    let notices: BTreeSet<&str> = NOTICES.iter().map(|notice| notice.name()).collect();
    let unknown: Vec<_> = named.iter().filter(|name| !of_sets.contains(*name) && !notices.contains(*name)).collect();
    assert!(unknown.is_empty(), "no rule and no notice: {unknown:?}");
}

/// The account itself: a fault that is not told, one told at other words, and a finding that nothing explains.
#[test]
fn an_account_that_is_not_even_is_told() {
    let session = Session::default();
    let check = |risers: &str| {
        let text = format!("stair \"hide\" {{\n rules: residential\n flight {{ risers: {risers} }}\n}}\n");
        session.check(&Source::new("hide.stair", text), None).report
    };
    let fault = |finds: &'static [&'static str], also: &'static [&'static str]| Fault {
        name: "a tall riser",
        severity: Severity::Broken,
        finds,
        also,
        damage: |_, _| None,
    };
    let (before, after) = (check("3 of 7\""), check("7\", 7\", 8\""));
    let words = after.source.text.find("8\"").unwrap();
    let spoilt = |at: Range<usize>| Spoilt { fault: 0, good: 0, text: after.source.text.to_string(), at };
    let here = spoilt(words..words + 2);
    let both = fault(&["riser height"], &["riser spread"]);
    assert_eq!(reconcile(&both, &here, &before, &after), Vec::<String>::new());
    let unexplained = reconcile(&fault(&["riser height"], &[]), &here, &before, &after);
    assert!(
        unexplained.len() == 1 && unexplained[0].starts_with("unexplained: broken riser spread"),
        "{unexplained:?}"
    );
    let missed = reconcile(&fault(&["nosing"], &["riser height", "riser spread"]), &here, &before, &after);
    assert_eq!(missed, ["missed: [\"nosing\"]"]);
    let elsewhere = reconcile(&both, &spoilt(0..5), &before, &after);
    assert!(elsewhere[0].starts_with("found, but not at `stair`"), "{elsewhere:?}");
}
