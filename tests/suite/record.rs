//! Every outcome of every design of `examples/` and `tests/cases/`, as values, held to the record in `tests/record/`:
//! a file for each folder, a line for each rule and the elements that it comes to the same for.
//!
//! `UPDATE=1 cargo test --test suite record` writes it anew; read the difference before you keep it. A line has the
//! rule; the elements by their paths; `pass`, `FAIL`, `miss` (of a `should`) or `open`; the value with the relation and
//! the limit, or what would settle it; the words offered in its place; and the customs that it rests on, by their
//! numbers at the head. What does not apply is a number for each set.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use crate::cases;
use crate::switches::update;
use pitchboard::base::Source;
use pitchboard::check::{Analysis, Comparison, Finding, Fix, Grounds, Offer, RuleOutcome, Settled, View};
use pitchboard::derive::CUSTOMS;
use pitchboard::measure::print_distinct;
use pitchboard::rules::clause_text;
use pitchboard::session::Session;
use pitchboard::wording::need;

const RECORD: &str = "tests/record";

/// More than this is no record that a person reads.
const MOST_BYTES: usize = 4_200_000;

/// The folders with a record, each with the name of its file.
fn folders() -> BTreeMap<String, PathBuf> {
    let cases = fs::read_dir("tests/cases").unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir());
    let folders = cases.chain([PathBuf::from("examples")]);
    folders.map(|path| (format!("{}.txt", path.file_name().unwrap().to_string_lossy()), path)).collect()
}

/// The designs below a folder, by name.
pub fn designs(folder: &Path) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(folder).sort_by_file_name().into_iter().filter_map(Result::ok);
    let designs = entries.map(walkdir::DirEntry::into_path);
    designs.filter(|path| path.extension().is_some_and(|ending| ending == "stair")).collect()
}

fn record(folder: &Path, session: &Session) -> String {
    let mut text = String::new();
    for (number, custom) in CUSTOMS.iter().enumerate() {
        let _ = writeln!(text, "assumed {}: {}", number + 1, custom.sentence);
    }
    for path in designs(folder) {
        let name = path.strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/");
        let source = Source::new(path.to_string_lossy(), fs::read_to_string(&path).unwrap());
        let _ = writeln!(text, "\n== {name}");
        text += &of_design(&session.check(&source, None));
    }
    text
}

/// Every outcome of one design as lines.
pub fn of_design(analysis: &Analysis) -> String {
    let mut text = String::new();
    let outcomes = analysis.outcomes();
    let heads: BTreeSet<(usize, View)> = outcomes.iter().map(|outcome| (outcome.stair, outcome.view)).collect();
    for (stair, view) in heads {
        let of_view: Vec<&RuleOutcome> =
            outcomes.iter().filter(|outcome| (outcome.stair, outcome.view) == (stair, view)).collect();
        let measured = if view == View::Measured { ", as measured" } else { "" };
        let _ = writeln!(text, "stair {}{measured}", analysis.stairs[stair].title);
        for loaded in &analysis.stair_sets[stair] {
            let of_set: Vec<&RuleOutcome> =
                of_view.iter().copied().filter(|outcome| std::ptr::eq(outcome.rule.set(), &loaded.set)).collect();
            let bare = of_set.iter().filter(|outcome| outcome.verdict == Settled::NotApplicable).count();
            if of_set.is_empty() {
                continue;
            }
            let _ = writeln!(text, "set {}: {bare} of {} do not apply", loaded.set.title, of_set.len());
            text += &lines(analysis, &of_set);
        }
    }
    text
}

/// A line for each rule and what it comes to, in the order in which that first occurs.
fn lines(analysis: &Analysis, outcomes: &[&RuleOutcome]) -> String {
    let mut groups: Vec<(&str, String, Vec<&str>)> = Vec::new();
    for outcome in outcomes.iter().filter(|outcome| outcome.verdict != Settled::NotApplicable) {
        let (rule, said) = (outcome.rule.rule().name.as_str(), said(analysis, outcome));
        match groups.iter_mut().rev().take_while(|group| group.0 == rule).find(|group| group.1 == said) {
            Some(group) => group.2.push(&outcome.path),
            None => groups.push((rule, said, vec![&outcome.path])),
        }
    }
    groups.iter().map(|(rule, said, paths)| format!("{rule} | {} | {said}\n", grouped(paths))).collect()
}

fn said(analysis: &Analysis, outcome: &RuleOutcome) -> String {
    let rule = outcome.rule.rule();
    let mut said = match &outcome.verdict {
        Settled::Pass(grounds) => format!("pass {}", compared(outcome, grounds)).trim_end().to_owned(),
        Settled::Fail(grounds) => {
            let verb = if rule.shall { "FAIL" } else { "miss" };
            format!("{verb} {}", compared(outcome, grounds))
        }
        Settled::NotApplicable => String::new(),
        Settled::NotChecked(needed) => format!("open: {}", need(needed)),
    };
    if let Some(fix) = fix_of(analysis, outcome) {
        let _ = write!(said, " | {}", offered(fix));
        for other in &fix.then_breaks {
            let verb = if other.rule().shall { "breaks" } else { "misses" };
            let _ = write!(said, ", then {verb} {}", other.rule().name);
        }
    }
    let customs = CUSTOMS.iter().enumerate().filter(|(_, custom)| outcome.customs.contains(custom));
    let customs: Vec<String> = customs.map(|(number, _)| (number + 1).to_string()).collect();
    if !customs.is_empty() {
        let _ = write!(said, " | assumed {}", customs.join(", "));
    }
    said
}

/// A comparison by its numbers; of a failure without one, the condition.
fn compared(outcome: &RuleOutcome, grounds: &Grounds) -> String {
    match &grounds.comparison {
        Some(Comparison { value, relation, limit, .. }) => {
            let value = value.styled(value.style.for_dimension(value.dimension));
            let (value, limit) = print_distinct(value, *limit, value.style);
            format!("{value} {} {limit}", relation.sign())
        }
        None if matches!(outcome.verdict, Settled::Fail(_)) => clause_text(&grounds.term, outcome.rule.rule()),
        None => String::new(),
    }
}

/// What is offered for the finding that the outcome is part of.
fn fix_of<'a>(analysis: &'a Analysis, outcome: &RuleOutcome) -> Option<&'a Fix> {
    let stair = &analysis.stairs[outcome.stair];
    analysis.report.findings.iter().find_map(|finding| match finding {
        Finding::Rule(found)
            if found.view == outcome.view
                && found.rule == outcome.rule
                && found.elements.contains(&outcome.element)
                && (std::sync::Arc::ptr_eq(&found.design, &stair.drawn)
                    || stair
                        .measured
                        .as_ref()
                        .is_some_and(|measured| std::sync::Arc::ptr_eq(&found.design, measured))) =>
        {
            found.fix.as_ref()
        }
        _ => None,
    })
}

/// The words that are written in place of others, or the kind to draw.
fn offered(fix: &Fix) -> String {
    let texts: Vec<&str> = fix.edits.iter().map(|edit| edit.text.trim_start_matches("; ").trim()).collect();
    match &fix.offer {
        Offer::Draw { kind, .. } => format!("draw {}", kind.name),
        offer if texts.is_empty() => format!("offers {}", format!("{offer:?}").split([' ', '(']).next().unwrap_or("")),
        _ => format!("offers {}", texts.join(" and ")),
    }
}

/// What stands before a number, the numbers from and to, and what stands after it.
type Run<'a> = (&'a str, Option<(usize, usize)>, &'a str);

/// Paths with the steps that follow on each other put together: `flight lower / tread 1..12`.
fn grouped(paths: &[&str]) -> String {
    let mut runs: Vec<Run<'_>> = Vec::new();
    for path in paths {
        let (head, number, tail) = numbered(path);
        match (runs.last_mut(), number) {
            (Some((before, Some((_, last)), after)), Some(number))
                if *before == head && *after == tail && *last + 1 == number =>
            {
                *last = number;
            }
            _ => runs.push((head, number.map(|number| (number, number)), tail)),
        }
    }
    let said = runs.iter().map(|(head, run, tail)| match run {
        None => (*head).to_owned(),
        Some((first, last)) if first == last => format!("{head}{first}{tail}"),
        Some((first, last)) => format!("{head}{first}..{last}{tail}"),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// A path about its last whole number: the step in `flight lower / tread 3`, and in `tread 3 left`.
fn numbered(path: &str) -> (&str, Option<usize>, &str) {
    let mut at = path.len();
    for word in path.rsplit(' ') {
        let start = at - word.len();
        if let Ok(number) = word.parse() {
            return (&path[..start], Some(number), &path[at..]);
        }
        at = start.saturating_sub(1);
    }
    (path, None, "")
}

/// What is wrong with one file of the record; nothing if it is as it should be.
fn differs(name: &str, held: Option<&str>, came: &str) -> Option<String> {
    let Some(held) = held else { return Some(format!("{RECORD}/{name} is not there")) };
    if held == came {
        return None;
    }
    let (old, new): (Vec<&str>, Vec<&str>) = (held.lines().collect(), came.lines().collect());
    let at = old.iter().zip(&new).take_while(|(old, new)| old == new).count();
    let design = new.iter().take(at + 1).rev().find(|line| line.starts_with("== ")).unwrap_or(&"");
    let some = |lines: &[&str], sign: &str| -> String {
        lines.iter().skip(at).take(3).map(|line| format!("    {sign} {line}\n")).collect()
    };
    Some(format!("{RECORD}/{name}:{} {design}\n{}{}", at + 1, some(&old, "-"), some(&new, "+")))
}

#[test]
fn every_outcome_is_as_it_is_recorded() {
    let session = cases::session();
    let folders = folders();
    let (mut wrong, mut bytes) = (Vec::new(), 0);
    for (name, folder) in &folders {
        let came = record(folder, &session);
        bytes += came.len();
        let path = Path::new(RECORD).join(name);
        if update() {
            fs::create_dir_all(RECORD).unwrap();
            fs::write(&path, &came).unwrap();
        }
        let held = fs::read_to_string(&path).ok().map(|held| held.replace("\r\n", "\n"));
        wrong.extend(differs(name, held.as_deref(), &came));
    }
    for entry in fs::read_dir(RECORD).into_iter().flatten() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        if !folders.contains_key(&name) {
            wrong.push(format!("{RECORD}/{name} has no folder of designs"));
        }
    }
    assert!(wrong.is_empty(), "not as recorded; UPDATE=1 writes it anew:\n{}", wrong.join("\n"));
    assert!(bytes < MOST_BYTES, "the record is {bytes} bytes long");
}

#[test]
fn a_record_that_differs_or_is_gone_is_told() {
    assert_eq!(differs("a.txt", Some("== a\nx\n"), "== a\nx\n"), None);
    assert_eq!(differs("a.txt", None, "x").unwrap(), "tests/record/a.txt is not there");
    let told = differs("a.txt", Some("== a\nx\ny\n"), "== a\nx\nz\n").unwrap();
    assert_eq!(told, "tests/record/a.txt:3 == a\n    - y\n    + z\n");
    let longer = differs("a.txt", Some("== a\n"), "== a\n\n== b\n").unwrap();
    assert!(longer.contains("+ == b"), "{longer}");
}

#[test]
fn steps_that_follow_on_each_other_are_one_group() {
    assert_eq!(grouped(&["riser 1", "riser 2", "riser 3", "riser 5"]), "riser 1..3, riser 5");
    assert_eq!(grouped(&["flight a / riser 1", "flight b / riser 2"]), "flight a / riser 1, flight b / riser 2");
    assert_eq!(grouped(&["tread 1 left", "tread 2 left", "guard"]), "tread 1..2 left, guard");
}

/// Outcomes hold what the findings, the tally and the list of what is not checked hold, and passes too.
#[test]
fn outcomes_agree_with_the_report() {
    let session = cases::session();
    let mut passes = 0;
    for path in designs(Path::new("examples")) {
        let source = Source::new(path.to_string_lossy(), fs::read_to_string(&path).unwrap());
        let analysis = session.check(&source, None);
        let outcomes = analysis.outcomes();
        let failed = outcomes.iter().filter(|outcome| matches!(outcome.verdict, Settled::Fail(_))).count();
        let found = analysis.report.findings.iter().map(|finding| match finding {
            Finding::Rule(found) => found.elements.len(),
            _ => 0,
        });
        assert_eq!(failed, found.sum::<usize>(), "{}: failures", path.display());
        for outcome in &outcomes {
            let (Settled::Pass(grounds) | Settled::Fail(grounds)) = &outcome.verdict else { continue };
            let Some(Comparison { margin, value, relation, limit }) = grounds.comparison else { continue };
            let holds = pitchboard::rules::holds(value.value, relation, limit.value, value.dimension);
            assert_eq!(holds, matches!(outcome.verdict, Settled::Pass(_)), "{}: {outcome:?}", path.display());
            assert!((margin.value.abs() - (value.value - limit.value).abs()).abs() < 1e-12, "{outcome:?}");
            passes += usize::from(holds);
        }
    }
    assert!(passes > 1000, "{passes} passes by a comparison");
}
