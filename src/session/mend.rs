//! A design mended: what was tried and leaves nothing new is written into its text, until nothing more can be.

use super::Session;
use crate::base::Source;
use crate::check::{Analysis, Edit, Mend};

/// Most bytes that are read again to mend one design: of some kilobytes each change is tried that is offered, however
/// many there are; of a megabyte with hundreds of stairs the first thirty or so.
const MOST_READ: usize = 32 << 20;

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

/// What marks an analysis: what a baseline knows of it.
type Mark<'m> = &'m dyn Fn(&mut Analysis);
/// The sets that are asked for, if any are, and the marks.
type How<'m> = (Option<&'m [String]>, Mark<'m>);

impl Session {
    /// Writes into a design what leaves nothing new, the gravest cause first, until nothing more can be mended. Facts of
    /// the site and what was measured are never changed; beside the edits the text stays as it is. Each change leaves
    /// fewer findings than were, so it comes to an end, and a second run changes nothing; only a text so long that not
    /// every change can be tried may be mended further by one.
    pub fn mend(&self, source: &Source, rules: Option<&[String]>) -> Mended {
        self.mend_marked(source, rules, &|_| {})
    }

    /// The same, where each analysis is marked before it is read: what is marked as known is not mended for its own sake.
    pub fn mend_marked(&self, source: &Source, rules: Option<&[String]>, mark: Mark<'_>) -> Mended {
        self.mend_within(source, (rules, mark), MOST_READ)
    }

    /// The same with a bound on the bytes that are read again.
    fn mend_within(&self, source: &Source, how: How<'_>, mut left: usize) -> Mended {
        let before = self.marked(source, how);
        let mut mended = Mended { mends: Vec::new(), source: source.clone(), before, after: None };
        while let Some((mend, source, after)) = self.next_mend(mended.analysis(), how, &mut left) {
            mended.mends.push(mend);
            mended.source = source;
            mended.after = Some(after);
        }
        mended
    }

    fn marked(&self, source: &Source, (rules, mark): How<'_>) -> Analysis {
        let mut analysis = self.check(source, rules);
        mark(&mut analysis);
        analysis
    }

    /// The first change that holds, with the text that it makes and what that comes to.
    fn next_mend(&self, now: &Analysis, how: How<'_>, left: &mut usize) -> Option<(Mend, Source, Analysis)> {
        let before = &now.report.source;
        now.mends().into_iter().find_map(|edits| {
            *left = left.checked_sub(before.text.len())?;
            let source = before.with_text(&written(&before.text, edits)?);
            let after = self.marked(&source, how);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_mended_as_far_as_it_may_be_read_again() {
        let stair =
            |name: &str| format!("stair {name} {{ rules: workshop; flight {{ risers: 3 of 7\"; runs: 2 of 9\" }} }}\n");
        let text: String = ["a", "b", "c"].map(stair).concat();
        let session = Session::default();
        let mends = |times: usize| {
            session.mend_within(&Source::new("a.stair", &text), (None, &|_| {}), times * text.len() + 99).mends
        };
        assert_eq!([0, 1, 2, 9].map(|times| mends(times).len()), [0, 1, 2, 3]);
    }
}
