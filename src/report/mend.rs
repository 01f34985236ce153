//! What was written into a design, and what is left; or the same as a patch.

use similar::TextDiff;

use super::look::{Look, Paint};
use super::words::visible;
use crate::base::Source;
use crate::check::{Mend, Report};
use crate::wording;

/// The changes of one design, a paragraph each, and its counts as they are now.
pub fn mended(mends: &[Mend], before: &Report, after: &Report, look: &Look) -> String {
    // What is waived, or known to a baseline, was not to be mended.
    let count = |report: &Report| report.findings.iter().filter(|finding| !finding.is_excused()).count();
    let (all, left) = (count(before), count(after));
    let name = visible(&before.source.name, look.unicode);
    let head = wording::mended(mends.len(), all.saturating_sub(left), all);
    let mut out = format!("{}: {head}\n", look.paint(Paint::Strong, &name));
    for mend in mends {
        out.push_str(&look.hang(&wording::mend(mend), 2));
    }
    out.push_str(&super::summary(after, look));
    out
}

/// A patch from one text to another of the same name, three lines of each hunk's neighbours with it.
pub fn patch(before: &Source, after: &Source) -> String {
    let name = visible(&before.name, false);
    // Taken from the root of a tree, as patches are by custom.
    let name = name.trim_start_matches("./").trim_start_matches('/');
    let diff = TextDiff::from_lines(&*before.text, &*after.text);
    let (old, new) = (format!("a/{name}"), format!("b/{name}"));
    diff.unified_diff().context_radius(3).header(&old, &new).to_string()
}
