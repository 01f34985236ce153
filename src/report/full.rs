//! The face for a person at a terminal: every finding with the drawing's lines, then counts, then what they rest on.

use super::checked::Checked;
use super::face::{Face, ROW, Run};
use super::tallied::Tallied;
use super::{finding, report};

/// `full`.
pub(super) const FACE: Face = Face {
    name: "full",
    about: "every finding with the drawing's lines and what would pass; the default",
    design,
    ends,
    remarks: true,
    ..ROW
};

fn design(checked: &Checked<'_>, run: &Run) -> String {
    match checked.came {
        Ok(analysis) => {
            format!("{}{}\n", report(&analysis.report, &run.look), (checked.verdict.remarks)(&run.look))
        }
        Err(refused) => format!("{}\n", finding(refused, &run.look)),
    }
}

fn ends(tallied: &Tallied, run: &Run) -> String {
    tallied.clauses.text(&run.look) + &tallied.closing(&run.look)
}
