//! A thing that is lacking, drawn into the text of a design: where its block goes, and the stair that comes of it.

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
}

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
            return Some(Edit { span: at, text: format!("{margin}    {block}\n") });
        }
        let end = before.trim_end().len();
        let joint = if end == open.end as usize { " " } else { "; " };
        Some(Edit { span: Span::new(end, end), text: format!("{joint}{block}") })
    }

    /// The stair as it is once an edit is made; nothing where something of the edit is not understood.
    pub fn with(&self, edit: &Edit) -> Option<(Source, Stair)> {
        let source = &self.tree.source;
        let (start, end) = (edit.span.start as usize, edit.span.end as usize);
        let text = format!("{}{}{}", source.text.get(..start)?, edit.text, source.text.get(end..)?);
        let source = Source::new(&*source.name, text);
        let (tree, slips) = syntax::parse_design(&source);
        let mut found = lift::<_, model::Problem>(slips);
        let stairs = model::build_below(&tree, &source, self.shop, &mut found);
        let added = start..=start + edit.text.len();
        if found.iter().filter_map(|slip| slip.span).any(|span| added.contains(&(span.start as usize))) {
            return None;
        }
        let stair = stairs.into_iter().nth(self.stair)?;
        Some((source, stair))
    }
}

/// The braces of the block that opens with these words.
fn braces(items: &[Item], opener: Span) -> Option<(Span, Span)> {
    items.iter().find_map(|item| match item {
        Item::Block { head_span, open, close, .. } if *head_span == opener => Some((*open, (*close)?)),
        Item::Block { body, .. } => braces(body, opener),
        _ => None,
    })
}
