//! Where a closing brace is missing: what the braces leave open, the indentation of the lines tells.

use super::problem::Problem;
use super::tree::{Item, Tree};
use crate::base::{Diagnostic, Source, Span};

/// A piece of a tree: what opens, what stands there, what closes.
enum Piece {
    Open(Item),
    Leaf(Item),
    Close(Span),
}

/// A block that is open, with what stands in it so far.
struct Open {
    block: Option<Item>,
    /// How far the line is indented that it opens on, where it is the first on its line.
    indent: Option<usize>,
    items: Vec<Item>,
    /// What stands where it should have been closed before.
    missed: Option<Span>,
}

/// Closes each block that lacks its brace before the first line that is indented no further than it, where the text
/// leaves as many open; and reports the brace there. A text whose lines do not tell stays as the braces have it.
pub(super) fn mend(tree: &mut Tree, found: &mut Vec<Diagnostic<Problem>>) {
    let unclosed = |diagnostic: &Diagnostic<Problem>| matches!(diagnostic.problem, Problem::UnclosedBrace { .. });
    let lacking = found.iter().filter(|diagnostic| unclosed(diagnostic)).count();
    if lacking == 0 {
        return;
    }
    let mut pieces = Vec::new();
    flatten(tree.items.clone(), &mut pieces);
    let indented = |piece: &Piece| match piece {
        Piece::Open(item) | Piece::Leaf(item) => begins_line(&tree.source, item).is_some_and(|(_, indent)| indent > 0),
        Piece::Close(_) => false,
    };
    if !pieces.iter().any(indented) {
        return;
    }
    let Some((items, open)) = rebuild(&tree.source, pieces, lacking) else { return };
    tree.items = items;
    found.retain(|diagnostic| !unclosed(diagnostic));
    found.extend(
        open.into_iter().map(|(open, missed)| {
            Diagnostic::new(&tree.source, open, Problem::UnclosedBrace { taken_by: None, missed })
        }),
    );
    found.sort_by_key(|diagnostic| diagnostic.span);
}

fn flatten(items: Vec<Item>, pieces: &mut Vec<Piece>) {
    for item in items {
        let Item::Block { head, head_span, misplaced, open, body, close } = item else {
            pieces.push(Piece::Leaf(item));
            continue;
        };
        let bare = Item::Block { head, head_span, misplaced, open, body: Vec::new(), close: None };
        pieces.push(Piece::Open(bare));
        flatten(body, pieces);
        pieces.extend(close.map(Piece::Close));
    }
}

/// The items as the lines tell, and the braces that are missing; none where that closes more than is open.
type Rebuilt = (Vec<Item>, Vec<(Span, Option<Span>)>);

fn rebuild(source: &Source, pieces: Vec<Piece>, mut lacking: usize) -> Option<Rebuilt> {
    let file = Open { block: None, indent: None, items: Vec::new(), missed: None };
    let (mut stack, mut missing) = (vec![file], Vec::new());
    for piece in pieces {
        if let Piece::Open(item) | Piece::Leaf(item) = &piece
            && let Some((span, indent)) = begins_line(source, item)
        {
            while lacking > 0 && stack.last().is_some_and(|open| open.indent.is_some_and(|own| indent <= own)) {
                stack.last_mut()?.missed = Some(span);
                lacking -= 1;
                close(&mut stack, None, &mut missing)?;
            }
        }
        match piece {
            Piece::Open(block) => {
                let indent = begins_line(source, &block).map(|(_, indent)| indent);
                stack.push(Open { block: Some(block), indent, items: Vec::new(), missed: None });
            }
            Piece::Leaf(item) => stack.last_mut()?.items.push(item),
            Piece::Close(span) => close(&mut stack, Some(span), &mut missing)?,
        }
    }
    while stack.len() > 1 {
        close(&mut stack, None, &mut missing)?;
    }
    Some((stack.pop()?.items, missing))
}

/// Closes the innermost block; none where only the file is open.
fn close(stack: &mut Vec<Open>, brace: Option<Span>, missing: &mut Vec<(Span, Option<Span>)>) -> Option<()> {
    let Open { block, items, missed, .. } = stack.pop()?;
    let Some(Item::Block { head, head_span, misplaced, open, .. }) = block else { return None };
    if brace.is_none() {
        missing.push((open, missed));
    }
    let block = Item::Block { head, head_span, misplaced, open, body: items, close: brace };
    stack.last_mut()?.items.push(block);
    Some(())
}

/// The words of a statement and how far its line is indented, where it is the first on its line.
fn begins_line(source: &Source, item: &Item) -> Option<(Span, usize)> {
    let span = match item {
        Item::Property { name_span, .. } => *name_span,
        Item::Block { head_span, .. } => *head_span,
        Item::Malformed { span, .. } | Item::Damaged { span, .. } => *span,
        Item::Clause(_) | Item::Condition { .. } | Item::Fragment(_) => return None,
    };
    let before = source.text.get(..span.start as usize)?;
    let indent = before.rsplit(['\n', '\r']).next()?;
    // The mark at the start of a text is no sign of its first line.
    let indent = indent.trim_start_matches('\u{feff}');
    indent.chars().all(char::is_whitespace).then(|| (span, indent.chars().count()))
}
