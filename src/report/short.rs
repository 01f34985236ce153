//! The faces of few words: a line for each finding, for editors and searches; and a line for each design at fault.

use super::Totals;
use super::checked::{Checked, Entry, Excuse, Spot, Wait};
use super::face::{Face, ROW, Run};
use super::positions::Named;
use super::tallied::Tallied;
use super::words::visible;

/// `short`.
pub(super) const FACE: Face = Face {
    name: "short",
    about: "a line for each finding: `path:line:column: broken: rule: sentence`",
    design,
    ends: closing_of,
    remarks: true,
    ..ROW
};

/// `quiet`.
pub(super) const QUIET: Face = Face {
    name: "quiet",
    about: "a line for each design that fails the run, then the counts over all",
    design: |checked, _| if checked.verdict.fails { counts(checked) } else { String::new() },
    ends: closing_of,
    remarks: true,
    ..ROW
};

fn closing_of(tallied: &Tallied, run: &Run) -> String {
    tallied.closing(&run.look)
}

fn design(checked: &Checked<'_>, run: &Run) -> String {
    let mut out = String::new();
    let lines = checked.entries().iter().map(|entry| of_entry(checked, entry));
    let waits = checked.listed_waits(&run.look).map(|wait| of_wait(checked, wait));
    for line in lines.chain(waits) {
        out += &line;
        out.push('\n');
    }
    out
}

/// `hides/low.stair:6:17: broken: riser height: riser 1: height is 8", ...`.
pub(super) fn of_entry(checked: &Checked<'_>, entry: &Entry<'_>) -> String {
    let file = checked.named(&entry.message.source);
    let rule = checked.words(&entry.message.name);
    let severity = entry.excuse().map_or_else(|| entry.severity().word(), Excuse::word);
    let said = checked.excused(&entry.message.message, entry.excuse());
    format!("{}: {severity}: {rule}: {said}", place(&file, entry.spot.as_ref()))
}

/// `hides/low.stair:5:5: not checked: headroom: needs ...`.
pub(super) fn of_wait(checked: &Checked<'_>, wait: &Wait<'_>) -> String {
    let rule = checked.words(&wait.item.rule);
    let said = checked.excused(&format!("needs {}", wait.needs), wait.excuse());
    format!("{}: not checked: {rule}: {said}", place(&wait.spot.file, Some(&wait.spot)))
}

/// Where a whole file is meant, its first line.
fn place(file: &Named, spot: Option<&Spot>) -> String {
    let (line, column) = spot.map_or((1, 1), |spot| (spot.start.line, spot.start.column));
    format!("{}:{line}:{column}", visible(&file.words(), true))
}

/// `hides/low.stair: 2 rules broken, 3 passed`.
pub(super) fn counts(checked: &Checked<'_>) -> String {
    let mut totals = Totals::default();
    match checked.report() {
        Some(report) => totals.add(report),
        None => totals.add_refused(),
    }
    format!("{}: {}\n", visible(&checked.name.words(), true), totals.words())
}
