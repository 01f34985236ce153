//! The face of counts: the designs that fail, then rules and folders with what they came to. All of it is counted once.

use super::Totals;
use super::checked::Checked;
use super::face::{Face, ROW, Run};
use super::page::{Cell, Page, Table};
use super::short::counts;
use super::tallied::Tallied;
use crate::check::Tally;

/// `summary`.
pub(super) const FACE: Face = Face {
    name: "summary",
    about: "the designs that fail, then counts by rule and by folder",
    design,
    ends,
    tallies: true,
    remarks: true,
    ..ROW
};

fn design(checked: &Checked<'_>, _: &Run) -> String {
    if checked.verdict.fails { format!("fails: {}", counts(checked)) } else { String::new() }
}

fn ends(tallied: &Tallied, run: &Run) -> String {
    let mut page = Page::default();
    page.heading(2, "By rule");
    page.words("How often each rule was broken and the like, a design's stair counting once; those that only passed are left out.");
    let excused = Excused::of(&tallied.totals.rules);
    let mut rules = Table::new(&excused.columns(&["rule", "set", "broken", "advised", "not checked", "passed"]));
    for ((set, rule, _), (_, tally)) in &tallied.rules {
        if tally.broken + tally.advised + tally.not_checked + tally.waived + tally.known > 0 {
            let mut row = vec![Cell::words(rule), Cell::words(set)];
            row.extend(excused.numbers(tally));
            rules.row(row);
        }
    }
    rows(&mut page, rules);
    if !tallied.notices.is_empty() {
        page.heading(2, "By notice of the reader");
        let mut notices = Table::new(&["notice", "how grave", "times"]);
        for ((severity, name), times) in &tallied.notices {
            notices.row(vec![Cell::words(name), Cell::words(severity.word()), Cell::words(times.to_string())]);
        }
        page.table(notices);
    }
    page.heading(2, "By folder");
    let columns = ["folder", "designs", "failing", "broken", "advised", "not checked", "passed"];
    let mut folders = Table::new(&excused.columns(&columns));
    let of = |name: &str, totals: &Totals, failing: usize| {
        let mut row = vec![Cell::words(name), number(totals.files), number(failing)];
        row.extend(excused.numbers(&totals.rules));
        row
    };
    for (folder, counted) in &tallied.folders {
        folders.row(of(if folder.is_empty() { "." } else { folder }, &counted.totals, counted.failing));
    }
    folders.row(of("all", &tallied.totals, tallied.failing));
    page.table(folders);
    format!("{}\n{}", page.text(&run.look), tallied.closing(&run.look))
}

fn rows(page: &mut Page, table: Table) {
    if table.is_empty() {
        page.words("None was broken, advised or not checked.");
    } else {
        page.table(table);
    }
}

fn number(number: usize) -> Cell {
    Cell::words(number.to_string())
}

/// The columns of what is excused; each only where a run has any.
struct Excused {
    waived: bool,
    known: bool,
}

impl Excused {
    fn of(tally: &Tally) -> Self {
        Self { waived: tally.waived > 0, known: tally.known > 0 }
    }

    fn columns(&self, columns: &[&'static str]) -> Vec<&'static str> {
        let own = [(self.waived, "waived"), (self.known, "known")];
        let own = own.into_iter().filter(|(is_there, _)| *is_there).map(|(_, column)| column);
        columns.iter().copied().chain(own).collect()
    }

    fn numbers(&self, tally: &Tally) -> Vec<Cell> {
        let own = [(self.waived, tally.waived), (self.known, tally.known)];
        let own = own.into_iter().filter(|(is_there, _)| *is_there).map(|(_, number)| number);
        [tally.broken, tally.advised, tally.not_checked, tally.passed].into_iter().chain(own).map(number).collect()
    }
}
