//! A design mended: what was tried and leaves nothing new is written into its text, until nothing more can be.

use super::Session;
use crate::base::Source;
use crate::check::{Analysis, Edit, Mend};

/// A design before and after it was mended.
#[derive(Debug)]
#[non_exhaustive]
pub struct Mended {
    /// What was written, one change after the other.
    pub mends: Vec<Mend>,
    /// The text now.
    pub source: Source,
    /// What the text came to at first.
    pub before: Analysis,
    /// What it comes to now; none where nothing was changed.
    pub after: Option<Analysis>,
}

impl Mended {
    /// What the text comes to now.
    pub fn analysis(&self) -> &Analysis {
        self.after.as_ref().unwrap_or(&self.before)
    }
}

impl Session {
    /// Writes into a design what leaves nothing new, the gravest cause first, until nothing more can be mended. Facts of
    /// the site and what was measured are never changed; beside the edits the text stays as it is. Each change leaves
    /// fewer findings than were, so it comes to an end, and what is mended is mended no further.
    pub fn mend(&self, source: &Source, rules: Option<&[String]>) -> Mended {
        let before = self.check(source, rules);
        let mut mended = Mended { mends: Vec::new(), source: source.clone(), before, after: None };
        while let Some((mend, source, after)) = self.next_mend(mended.analysis(), rules) {
            mended.mends.push(mend);
            mended.source = source;
            mended.after = Some(after);
        }
        mended
    }

    /// The first change that holds, with the text that it makes and what that comes to.
    fn next_mend(&self, now: &Analysis, rules: Option<&[String]>) -> Option<(Mend, Source, Analysis)> {
        let before = &now.report.source;
        now.mends().into_iter().find_map(|edits| {
            let source = before.with_text(&written(&before.text, edits)?);
            let after = self.check(&source, rules);
            let cured = now.mended(&after)?;
            Some((Mend { edits: edits.to_vec(), before: before.clone(), cured }, source, after))
        })
    }
}

/// A text once edits are made; nothing where they overlap.
fn written(text: &str, edits: &[Edit]) -> Option<String> {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|edit| edit.span);
    let (mut out, mut at) = (String::with_capacity(text.len() + 64), 0);
    for edit in edits {
        out.push_str(text.get(at..edit.span.start as usize)?);
        out.push_str(&edit.text);
        at = edit.span.end as usize;
    }
    out.push_str(text.get(at..)?);
    Some(out)
}
