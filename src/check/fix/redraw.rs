//! A thing that is lacking, drawn into the text of a design: where its block goes, and the stair that comes of it.

use std::cell::Cell;
use std::ops::RangeInclusive;

use super::offer::Edit;
use crate::base::{Source, Span, lift};
use crate::model::{self, Shop, Stair};
use crate::syntax::{self, Item, Tree};

/// The text of a stair, to be drawn once more with something added.
#[derive(Clone, Copy)]
pub(in crate::check) struct Redraw<'a> {
    pub tree: &'a Tree,
    pub shop: Option<&'a Shop>,
    /// Which stair of the text.
    pub stair: usize,
    /// How many slips its readers find.
    pub slips: usize,
    /// How many bytes of the text may still be read again for what is tried: a text of many stairs is long, and each of
    /// them tries changes of its own.
    pub left: &'a Cell<usize>,
}

/// Most bytes of a text that are read again for all that is tried in it.
pub(in crate::check) const MOST_READ_AGAIN: usize = 1 << 22;

impl Redraw<'_> {
    /// The edit that draws a block as the last in the one that opens at `opener`; nothing where that is left open.
    pub fn edit(&self, opener: Span, block: &str) -> Option<Edit> {
        let (open, close) = braces(&self.tree.items, opener)?;
        let text = &self.tree.source.text;
        let before = text.get(..close.start as usize)?;
        let line = before.rfind('\n').map_or(0, |end| end + 1);
        let margin = before.get(line..)?;
        if margin.trim().is_empty() && line > open.end as usize {
            let at = Span::new(line, line);
            let step = if margin.contains('\t') { "\t" } else { "    " };
            let end = if before.get(..line)?.ends_with("\r\n") { "\r\n" } else { "\n" };
            return Some(Edit { span: at, text: format!("{margin}{step}{block}{end}") });
        }
        let end = before.trim_end().len();
        let joint = if end == open.end as usize { " " } else { "; " };
        Some(Edit { span: Span::new(end, end), text: format!("{joint}{block}") })
    }

    /// The stair as it is once edits are made, which do not overlap; nothing where something of them, or
    /// more of the text than before, is not understood.
    pub(super) fn with(&self, edits: &[Edit]) -> Option<Redrawn> {
        let source = &self.tree.source;
        self.left.set(self.left.get().checked_sub(source.text.len())?);
        let (text, added) = written(&source.text, edits)?;
        let source = Source::new(&*source.name, text);
        let (tree, slips) = syntax::parse_design(&source);
        let mut found = lift::<_, model::Problem>(slips);
        let stairs = model::build_below(&tree, &source, self.shop, &mut found);
        let in_added = |span: Span| added.iter().any(|added| added.contains(&(span.start as usize)));
        if found.len() > self.slips || found.iter().filter_map(|slip| slip.span).any(in_added) {
            return None;
        }
        let stair = stairs.into_iter().nth(self.stair)?;
        Some(Redrawn { source, tree, stair })
    }
}

/// A text once edits are made, and the stair that it draws then.
pub(super) struct Redrawn {
    pub source: Source,
    pub tree: Tree,
    pub stair: Stair,
}

/// A text once edits are made, and where their words stand in it.
fn written(text: &str, edits: &[Edit]) -> Option<(String, Vec<RangeInclusive<usize>>)> {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|edit| edit.span);
    let (mut out, mut added, mut at) = (String::with_capacity(text.len() + 64), Vec::new(), 0);
    for edit in edits {
        out.push_str(text.get(at..edit.span.start as usize)?);
        added.push(out.len()..=out.len() + edit.text.len());
        out.push_str(&edit.text);
        at = edit.span.end as usize;
    }
    out.push_str(text.get(at..)?);
    Some((out, added))
}

/// The braces of the block that opens with these words.
fn braces(items: &[Item], opener: Span) -> Option<(Span, Span)> {
    items.iter().find_map(|item| match item {
        Item::Block { head_span, open, close, .. } if *head_span == opener => Some((*open, (*close)?)),
        Item::Block { body, .. } => braces(body, opener),
        _ => None,
    })
}
