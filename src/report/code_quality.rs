//! The face for code hosts that take a list of issues as JSON: a description, a fingerprint, how grave it is, a place.

use serde::Serialize;

use super::checked::{Checked, Entry, Spot, Wait, Weight};
use super::face::{Face, ROW};
use super::fingerprint::fingerprint;
use super::wire::line;
use crate::base::Severity;

/// `code-quality`.
pub(super) const FACE: Face = Face {
    name: "code-quality",
    about: "code-quality JSON, which code hosts show beside a change",
    ending: "json",
    schema: "code-quality",
    begins: |_| "[\n".to_owned(),
    between: ",\n",
    design: |checked, run| {
        let found = checked.entries().iter().map(|entry| line(&of_entry(checked, entry)));
        let waits = checked.listed_waits(&run.look);
        let all: Vec<String> = found.chain(waits.map(|wait| line(&of_wait(checked, wait)))).collect();
        all.join(",\n")
    },
    ends: |_, _| "\n]\n".to_owned(),
    ..ROW
};

#[derive(Serialize)]
struct Issue {
    description: String,
    check_name: String,
    /// Of the design and the finding.
    fingerprint: String,
    severity: &'static str,
    location: Location,
}

#[derive(Serialize)]
struct Location {
    path: String,
    lines: Lines,
}

#[derive(Serialize)]
struct Lines {
    begin: usize,
    end: usize,
}

impl Location {
    fn new(path: String, spot: Option<&Spot>) -> Self {
        let lines =
            spot.map_or(Lines { begin: 1, end: 1 }, |spot| Lines { begin: spot.start.line, end: spot.end.line });
        Self { path, lines }
    }
}

fn of_entry(checked: &Checked<'_>, entry: &Entry<'_>) -> Issue {
    let severity = match (checked.weight(entry), entry.severity()) {
        (Weight::Excused, _) => "info",
        (Weight::Told, _) => "minor",
        (Weight::Fails, Severity::Unchecked) => "blocker",
        (Weight::Fails, Severity::NotUnderstood) => "critical",
        (Weight::Fails, Severity::Broken | Severity::Advised) => "major",
    };
    Issue {
        description: checked.excused(&entry.message.message, entry.excuse()),
        check_name: entry.message.name.clone(),
        fingerprint: fingerprint(&[&checked.name.words(), &entry.fingerprint]),
        severity,
        location: Location::new(checked.named(&entry.message.source).words(), entry.spot.as_ref()),
    }
}

fn of_wait(checked: &Checked<'_>, wait: &Wait<'_>) -> Issue {
    Issue {
        description: checked.excused(&format!("not checked: needs {}", wait.needs), wait.excuse()),
        check_name: wait.item.rule.clone(),
        fingerprint: fingerprint(&[&checked.name.words(), &wait.fingerprint]),
        severity: if checked.counts_as_broken(wait) { "major" } else { "info" },
        location: Location::new(wait.spot.file.words(), Some(&wait.spot)),
    }
}
