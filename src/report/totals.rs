//! Counts over one file or many, and the last words of a run.

use std::collections::BTreeSet;

use super::look::{Look, Paint};
use super::words::count;
use crate::base::Severity;
use crate::check::{Finding, FromShop, Report, SetLine, Tally, Usual};
use crate::model::Kind;
use crate::rules::Sure;
use crate::wording;

/// Counts of a run. Files are added as they are checked, so that no report needs to be kept.
#[derive(Default, Clone)]
pub struct Totals {
    /// Designs.
    pub(super) files: usize,
    /// Of which something could not be checked at all.
    pub(super) refused: usize,
    /// Statements.
    pub(super) not_understood: usize,
    /// Notices that are advice of a reader, and of no rule.
    notices: usize,
    pub(super) rules: Tally,
    /// What was assumed, and in how many files.
    customs: Vec<(String, usize)>,
    /// What is drawn of which no rule speaks, and in how many files.
    unasked: Vec<(&'static Kind, usize)>,
    usual_left_out: Vec<(&'static Usual, usize)>,
    /// Each set with what its authors warn of, and how many files were held to it; two sets may share a title.
    sets: Vec<(SetLine, usize)>,
    /// What the shops' files had a say in.
    shops: Vec<(String, Vec<FromShop>)>,
    /// Outcomes that rest on figures from memory, and on such as were seen second hand.
    unsure: [usize; 2],
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
        self.notices += other.notices;
        self.refused += other.refused;
        self.rules += other.rules;
        for (custom, files) in &other.customs {
            add(&mut self.customs, custom, *files);
        }
        for (kind, files) in &other.unasked {
            add(&mut self.unasked, kind, *files);
        }
        for (usual, files) in &other.usual_left_out {
            add(&mut self.usual_left_out, usual, *files);
        }
        for (set, files) in &other.sets {
            add(&mut self.sets, set, *files);
        }
        for (shop, shares) in &other.shops {
            self.add_shop(shop, shares);
        }
        for (mine, more) in self.unsure.iter_mut().zip(other.unsure) {
            *mine += more;
        }
    }

    /// Adds a file that was checked.
    pub fn add(&mut self, report: &Report) {
        self.files += 1;
        self.not_understood += as_grave(&report.findings, Severity::NotUnderstood);
        self.notices += notices(&report.findings);
        self.refused += usize::from(as_grave(&report.findings, Severity::Unchecked) > 0);
        self.rules += report.tally;
        for custom in &report.customs {
            add(&mut self.customs, custom, 1);
        }
        for kind in &report.unasked {
            add(&mut self.unasked, kind, 1);
        }
        for usual in &report.usual_left_out {
            add(&mut self.usual_left_out, usual, 1);
        }
        for set in &report.sets {
            // Which stairs of a text alone were held to it stands with the text.
            add(&mut self.sets, &SetLine { only: Vec::new(), ..set.clone() }, 1);
        }
        for (shop, shares) in &report.shops {
            self.add_shop(shop, shares);
        }
        for (mine, more) in self.unsure.iter_mut().zip([report.from_memory, report.second_hand]) {
            *mine += more;
        }
    }

    fn add_shop(&mut self, shop: &str, shares: &[FromShop]) {
        let known = self.shops.iter_mut().find(|(known, _)| known == shop);
        let Some((_, known)) = known else { return self.shops.push((shop.to_owned(), shares.to_vec())) };
        known.extend(shares.iter().filter(|share| !known.contains(share)).cloned().collect::<Vec<_>>());
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
        if self.notices > 0 {
            parts.push(format!("{} advised", count(self.notices, "notice")));
        }
        match (self.refused, self.files) {
            (0, _) => {}
            (_, 1) => parts.push("not all could be checked".to_owned()),
            (refused, _) => parts.push(format!("{} could not be checked in full", count(refused, "file"))),
        }
        parts.join(", ")
    }
}

/// The last words of a run: counts over all files, what was assumed, the sets and their cautions, and who decides.
pub fn closing(totals: &Totals, look: &Look) -> String {
    let mut out = String::new();
    if totals.files > 1 {
        let paint = if totals.is_bad() { Paint::Bad } else { Paint::Good };
        let text = look.hang(&format!("{}: {}", count(totals.files, "file"), totals.words()), 0);
        let lines: Vec<String> = text.lines().map(|line| look.paint(paint, line)).collect();
        out.push_str(&lines.join("\n"));
        out.push('\n');
    }
    let of_files = |files: usize| match totals.files {
        one if one <= 1 || files == one => String::new(),
        all => format!(" in {files} of {all} files"),
    };
    for (custom, files) in &totals.customs {
        out.push_str(&look.hang(&format!("assumed{}: {custom}", of_files(*files)), 0));
    }
    let unasked: Vec<&Kind> = totals.unasked.iter().map(|(kind, _)| *kind).collect();
    if let Some(line) = wording::unasked(&unasked) {
        let files = totals.unasked.iter().map(|(_, files)| *files).max().unwrap_or_default();
        out.push_str(&look.hang(&format!("{line}{}", of_files(files)), 0));
    }
    let usual: Vec<&Usual> = totals.usual_left_out.iter().map(|(usual, _)| *usual).collect();
    if let Some(line) = wording::usual_left_out(&usual) {
        let files = totals.usual_left_out.iter().map(|(_, files)| *files).max().unwrap_or_default();
        out.push_str(&look.hang(&format!("{line}{}", of_files(files)), 0));
    }
    for (set, files) in &totals.sets {
        out.push_str(&look.hang(&format!("checked against {}{}", told(set), of_files(*files)), 0));
        out.push_str(&wording::departs(set).map(|line| look.hang(&line, 0)).unwrap_or_default());
    }
    for (shop, shares) in &totals.shops {
        out.push_str(&look.hang(&format!("from {shop}: {}", wording::shares(shares)), 0));
    }
    for (number, sure) in totals.unsure.into_iter().zip([Sure::Memory, Sure::SecondHand]) {
        out.push_str(&wording::sure::of_outcomes(number, sure).map(|line| look.hang(&line, 0)).unwrap_or_default());
    }
    let warning = totals.sets.iter().filter(|(set, _)| !set.caution.is_empty());
    let cautions: BTreeSet<(&str, &str)> = warning.map(|(set, _)| (&*set.title, &*set.caution)).collect();
    for (set, caution) in cautions {
        out.push_str(&look.hang(&format!("{set}: {caution}"), 0));
    }
    out.push_str(&look.hang(&caution(), 0));
    out
}

/// A set with its edition, and the sets that it takes in.
fn told(set: &SetLine) -> String {
    let edition = |edition: &str| if edition.is_empty() { String::new() } else { format!(", edition: {edition}") };
    let from = |file: &Option<String>| file.as_ref().map(|file| format!(" ({file})")).unwrap_or_default();
    let below = set.amends.iter().map(|(below, file)| {
        let how = wording::takes_in(below);
        format!(", which {how} {}{}{}", below.title, from(file), edition(&below.edition))
    });
    format!("{}{}{}{}", set.title, from(&set.file), edition(&set.edition), below.collect::<String>())
}

/// Counts one thing more, in the order in which each came first.
fn add<T: PartialEq + Clone>(counted: &mut Vec<(T, usize)>, one: &T, files: usize) {
    match counted.iter_mut().find(|(known, _)| known == one) {
        Some((_, so_far)) => *so_far += files,
        None => counted.push((one.clone(), files)),
    }
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
fn notices(findings: &[Finding]) -> usize {
    let advised = |finding: &&Finding| finding.severity() == Severity::Advised && matches!(finding, Finding::Reader(_));
    findings.iter().filter(advised).count()
}

fn as_grave(findings: &[Finding], severity: Severity) -> usize {
    findings.iter().filter(|finding| finding.severity() == severity).count()
}
