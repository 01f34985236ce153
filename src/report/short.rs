//! The faces of few words: a line for each finding, for editors and searches; and a line for each design at fault.

use super::checked::{Checked, Spot};
use super::face::{Face, ROW, Run};
use super::tallied::Tallied;
use super::words::visible;
use super::{Totals, closing};

/// `short`.
pub(super) const FACE: Face = Face {
    name: "short",
    about: "a line for each finding, `path:line:column: broken: rule: sentence`, for editors and searches",
    design,
    ends: closing_of,
    ..ROW
};

/// `quiet`.
pub(super) const QUIET: Face = Face {
    name: "quiet",
    about: "a line for each design that fails the run, then the counts over all",
    design: |checked, _| if checked.fails { counts(checked) } else { String::new() },
    ends: closing_of,
    ..ROW
};

fn closing_of(tallied: &Tallied, run: &Run) -> String {
    closing(&tallied.totals, &run.look)
}

fn design(checked: &Checked<'_>, run: &Run) -> String {
    let mut out = String::new();
    let name = visible(&checked.name.words(), true).into_owned();
    let place = |spot: Option<&Spot>| match spot {
        Some(spot) => {
            let Spot { file, start, .. } = spot;
            format!("{}:{}:{}", visible(&file.words(), true), start.line, start.column)
        }
        None => format!("{name}:1:1"),
    };
    for entry in checked.entries() {
        let (severity, rule) = (entry.severity().word(), checked.words(&entry.message.name));
        let said = checked.words(&entry.message.message);
        out += &format!("{}: {severity}: {rule}: {said}\n", place(entry.spot.as_ref()));
    }
    for wait in checked.waits().iter().filter(|wait| run.lists(wait)) {
        let rule = checked.words(&wait.item.rule);
        out += &format!("{}: not checked: {rule}: needs {}\n", place(Some(&wait.spot)), wait.needs);
    }
    out
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
