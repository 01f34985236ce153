//! Counts over one file or many, and the last words of a run.

use std::collections::BTreeSet;

use super::look::{Look, Paint};
use super::words::count;
use crate::base::Severity;
use crate::check::{Finding, Report, Tally};

/// Counts of a run. Files are added as they are checked, so that no report needs to be kept.
#[derive(Default, Clone)]
pub struct Totals {
    /// Designs.
    pub(super) files: usize,
    /// Of which something could not be checked at all.
    pub(super) refused: usize,
    /// Statements.
    pub(super) not_understood: usize,
    pub(super) rules: Tally,
    /// What the authors of each set warn of, by the set's title; two sets may share one.
    cautions: BTreeSet<(String, String)>,
}

impl Totals {
    /// The counts of one file.
    pub(super) fn of(report: &Report) -> Self {
        let mut totals = Self::default();
        totals.add(report);
        totals
    }

    /// Adds the counts of other files.
    pub fn merge(&mut self, other: &Totals) {
        self.files += other.files;
        self.not_understood += other.not_understood;
        self.refused += other.refused;
        self.rules += other.rules;
        self.cautions.extend(other.cautions.iter().cloned());
    }

    /// Adds a file that was checked.
    pub fn add(&mut self, report: &Report) {
        self.files += 1;
        self.not_understood += as_grave(&report.findings, Severity::NotUnderstood);
        self.refused += usize::from(as_grave(&report.findings, Severity::Unchecked) > 0);
        self.rules += report.tally;
        let warning = report.sets.iter().filter(|set| !set.caution.is_empty());
        self.cautions.extend(warning.map(|set| (set.title.clone(), set.caution.clone())));
    }

    /// Adds a file that could not be read at all.
    pub fn add_refused(&mut self) {
        self.files += 1;
        self.refused += 1;
    }

    /// Whether something is broken, not understood or could not be checked.
    pub(super) fn is_bad(&self) -> bool {
        self.rules.broken + self.not_understood + self.refused > 0
    }

    /// The counts in words.
    pub(super) fn words(&self) -> String {
        let rules = &self.rules;
        let broken = if rules.broken == 0 {
            // What is excused may well be broken.
            if rules.waived + rules.known > 0 { "nothing else broken" } else { "nothing broken" }.to_owned()
        } else {
            format!("{} broken", count(rules.broken, "rule"))
        };
        let checked = rules.passed + rules.broken + rules.advised + rules.not_applicable + rules.not_checked;
        let checked = checked + rules.waived + rules.known > 0;
        let mut parts = if checked || !self.is_bad() { vec![broken] } else { Vec::new() };
        let counted = [
            (rules.advised, "advised"),
            (rules.passed, "passed"),
            (rules.not_applicable, "not applicable"),
            (rules.not_checked, "not checked"),
            (rules.waived, "waived"),
            (rules.known, "known"),
        ];
        parts.extend(counted.iter().filter(|(number, _)| *number > 0).map(|(number, word)| format!("{number} {word}")));
        if self.not_understood > 0 {
            parts.push(format!("{} not understood", count(self.not_understood, "statement")));
        }
        match (self.refused, self.files) {
            (0, _) => {}
            (_, 1) => parts.push("not all could be checked".to_owned()),
            (refused, _) => parts.push(format!("{} could not be checked in full", count(refused, "file"))),
        }
        parts.join(", ")
    }
}

/// The last words of a run: counts over all files, the cautions of the sets, and who decides.
pub fn closing(totals: &Totals, look: &Look) -> String {
    let mut out = String::new();
    if totals.files > 1 {
        let paint = if totals.is_bad() { Paint::Bad } else { Paint::Good };
        let text = look.hang(&format!("{}: {}", count(totals.files, "file"), totals.words()), 0);
        let lines: Vec<String> = text.lines().map(|line| look.paint(paint, line)).collect();
        out.push_str(&lines.join("\n"));
        out.push('\n');
    }
    for (set, caution) in &totals.cautions {
        out.push_str(&look.hang(&format!("{set}: {caution}"), 0));
    }
    out.push_str(&look.hang(&caution(), 0));
    out
}

/// The caution that goes with every result.
pub(super) fn caution() -> String {
    format!(
        "Pitchboard {}. A result is no permit and no approval: local codes and the authority that has jurisdiction decide, \
         with a licensed professional where one is needed.",
        env!("CARGO_PKG_VERSION")
    )
}

/// How many findings are as grave as this.
fn as_grave(findings: &[Finding], severity: Severity) -> usize {
    findings.iter().filter(|finding| finding.severity() == severity).count()
}
