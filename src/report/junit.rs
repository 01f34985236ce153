//! The face for machines that show test reports: a suite for each design, in it a case for each rule that applies to it, and
//! for each notice of the reader.
//!
//! A case fails where it fails the run: usually a broken rule is a failure, and a statement that could not be read an error.
//! What could not be settled, or is excused, is skipped; what is found and fails nothing, such as advice, passes and stands
//! in the output of its case.

use super::checked::{Checked, Entry, Wait, Weight};
use super::face::{Face, ROW, Run};
use super::short::{of_entry, of_wait};
use super::totals::caution;
use super::xml::{HEAD, Xml};
use crate::base::{Level, Severity};
use crate::check::{RuleRef, RuleStanding, Standing};

/// `junit`.
pub(super) const FACE: Face = Face {
    name: "junit",
    about: "JUnit XML, shown as a test report: a case for each design and rule",
    ending: "xml",
    schema: "junit",
    begins: |_| format!("{HEAD}<testsuites name=\"pitchboard\">\n"),
    design,
    ends: |_, _| "</testsuites>\n".to_owned(),
    ..ROW
};

/// What one case came to.
struct Case {
    class: String,
    name: String,
    came: Came,
    /// A line for each place.
    lines: Vec<String>,
}

enum Came {
    Passed,
    /// What was found fails nothing.
    PassedWithOutput,
    Skipped,
    /// With the word for it.
    Failed(&'static str),
    Error(&'static str),
}

fn design(checked: &Checked<'_>, _: &Run) -> String {
    let readers = checked.entries().iter().filter(|entry| entry.finding.is_none());
    let standings = checked.report().map(|report| report.standings.as_slice()).unwrap_or_default();
    let rules = standings.iter().map(|of| of_rule(checked, of));
    let cases: Vec<Case> = readers.map(|entry| of_reader(checked, entry)).chain(rules).collect();
    let count = |wanted: fn(&Came) -> bool| cases.iter().filter(|case| wanted(&case.came)).count().to_string();
    let mut xml = Xml::within(1);
    xml.open(
        "testsuite",
        &[
            ("name", &checked.name.words()),
            ("tests", &count(|_| true)),
            ("failures", &count(|came| matches!(came, Came::Failed(_)))),
            ("errors", &count(|came| matches!(came, Came::Error(_)))),
            ("skipped", &count(|came| matches!(came, Came::Skipped))),
        ],
    );
    let not_applicable = checked.report().map_or(0, |report| report.tally.not_applicable);
    xml.open("properties", &[]);
    xml.empty("property", &[("name", "not applicable"), ("value", &not_applicable.to_string())]);
    xml.empty("property", &[("name", "caution"), ("value", &caution())]);
    xml.close();
    cases.iter().for_each(|case| case.write(&mut xml));
    xml.close();
    xml.text()
}

impl Case {
    fn write(&self, xml: &mut Xml) {
        let attributes = [("classname", self.class.as_str()), ("name", self.name.as_str())];
        let first = self.lines.first().map_or("", String::as_str);
        let holder = match self.came {
            Came::Passed => return xml.empty("testcase", &attributes),
            Came::PassedWithOutput => "system-out",
            Came::Skipped => "skipped",
            Came::Failed(_) => "failure",
            Came::Error(_) => "error",
        };
        xml.open("testcase", &attributes);
        match self.came {
            Came::Failed(word) | Came::Error(word) => {
                xml.lines(holder, &[("message", first), ("type", word)], &self.lines);
            }
            Came::Skipped => xml.empty(holder, &[("message", first)]),
            Came::Passed | Came::PassedWithOutput => xml.lines(holder, &[], &self.lines),
        }
        xml.close();
    }
}

fn of_rule(checked: &Checked<'_>, of: &RuleStanding) -> Case {
    let (set, rule) = (&of.rule.set().title, &of.rule.rule().name);
    let same = |rule: &RuleRef, stair: usize| *rule == of.rule && stair == of.stair;
    let entries = checked.entries().iter();
    let found = |entry: &&Entry<'_>| entry.finding.is_some_and(|finding| same(&finding.rule, entry.stair));
    let waits: Vec<&Wait<'_>> =
        checked.waits().iter().filter(|wait| wait.item.set == *set && wait.item.rule == *rule).collect();
    let strict = waits.iter().any(|wait| checked.counts_as_broken(wait));
    let fails = |level| checked.verdict.levels.hold(level);
    let came = match of.standing {
        Standing::Broken if fails(Level::Broken) => Came::Failed("broken"),
        Standing::Advised if fails(Level::Advised) => Came::Failed("advised"),
        Standing::Broken | Standing::Advised | Standing::NotChecked if strict => Came::Failed("not checked"),
        Standing::Broken | Standing::Advised => Came::PassedWithOutput,
        // What is excused fails nothing, and did not pass.
        Standing::NotChecked | Standing::Waived | Standing::Known => Came::Skipped,
        Standing::Passes | Standing::NotApplicable | Standing::Absent => Came::Passed,
    };
    // What decides comes first: its line is the message of the case.
    let (excused, found): (Vec<_>, Vec<_>) = entries.filter(found).partition(|entry| entry.excuse().is_some());
    let (excused_waits, waits): (Vec<_>, Vec<_>) = waits.into_iter().partition(|wait| wait.excuse().is_some());
    let found = found.into_iter().map(|entry| of_entry(checked, entry));
    let waits = waits.into_iter().map(|wait| of_wait(checked, wait));
    let excused = excused.into_iter().map(|entry| of_entry(checked, entry));
    let excused = excused.chain(excused_waits.into_iter().map(|wait| of_wait(checked, wait)));
    let lines = match of.standing {
        Standing::Broken | Standing::Advised => found.chain(excused).collect(),
        Standing::NotChecked => waits.chain(excused).collect(),
        Standing::Waived | Standing::Known => excused.collect(),
        Standing::Passes | Standing::NotApplicable | Standing::Absent => Vec::new(),
    };
    // A design of several stairs has a case for each of them.
    let stairs = checked.came.map(|analysis| analysis.stairs.as_slice()).unwrap_or_default();
    let title = stairs.get(of.stair).filter(|_| stairs.len() > 1).map(|stair| format!(" ({})", stair.title));
    Case { class: set.clone(), name: format!("{rule}{}", title.unwrap_or_default()), came, lines }
}

fn of_reader(checked: &Checked<'_>, entry: &Entry<'_>) -> Case {
    let came = match entry.severity() {
        _ if checked.weight(entry) != Weight::Fails => Came::PassedWithOutput,
        severity @ (Severity::Advised | Severity::Broken) => Came::Failed(severity.word()),
        severity @ (Severity::NotUnderstood | Severity::Unchecked) => Came::Error(severity.word()),
    };
    let lines = vec![of_entry(checked, entry)];
    Case { class: "reader".to_owned(), name: entry.message.name.clone(), came, lines }
}
