//! What can be folded away, and what is selected step by step outwards from a place.

use gen_lsp_types::{FoldingRange, FoldingRangeKind, Position, Range, SelectionRange};

use super::documents::Document;
use super::nodes;
use super::workspace::Workspace;
use crate::base::Span;
use crate::syntax::{Item, TriviaKind};

/// Blocks of more than one line, and comments over several.
pub(super) fn of(workspace: &Workspace, document: &Document) -> Vec<FoldingRange> {
    let tree = workspace.tree(document);
    let mut found = Vec::new();
    blocks(workspace, document, &tree.items, &mut found);
    let comments = tree.trivia.iter().filter(|piece| piece.kind == TriviaKind::Comment);
    let lines: Vec<u32> = comments.map(|piece| workspace.range(document, piece.span).start.line).collect();
    for run in lines.chunk_by(|before, after| after - before == 1) {
        if let [first, .., last] = run {
            found.push(fold(*first, *last, Some(FoldingRangeKind::Comment)));
        }
    }
    found
}

fn blocks(workspace: &Workspace, document: &Document, items: &[Item], found: &mut Vec<FoldingRange>) {
    for item in items {
        let Item::Block { open, close, body, .. } = item else { continue };
        let end = close.unwrap_or_else(|| nodes::extent(item));
        let (first, last) = (workspace.range(document, *open).start.line, workspace.range(document, end).end.line);
        if last > first {
            // The line of the closing brace stays to be seen.
            let last = if close.is_some() { last - 1 } else { last };
            if last > first {
                found.push(fold(first, last, None));
            }
        }
        blocks(workspace, document, body, found);
    }
}

fn fold(start_line: u32, end_line: u32, kind: Option<FoldingRangeKind>) -> FoldingRange {
    FoldingRange { start_line, end_line, kind, ..FoldingRange::default() }
}

/// For each place the term, the value, the statement, and the blocks round it.
pub(super) fn selections(workspace: &Workspace, document: &Document, places: &[Position]) -> Vec<SelectionRange> {
    let tree = workspace.tree(document);
    let one = |place: &Position| {
        let byte = workspace.byte(document, *place);
        let mut spans = vec![Span::new(0, document.source.text.len())];
        for item in nodes::holding(&tree.items, byte) {
            spans.push(nodes::extent(item));
            match item {
                Item::Property { name_span, value, value_span, .. } => {
                    spans.push(if byte <= name_span.end { *name_span } else { *value_span });
                    spans.extend(value.iter().map(|term| term.span));
                }
                Item::Block { head, head_span, .. } if byte <= head_span.end => {
                    spans.push(*head_span);
                    spans.extend(head.iter().map(|term| term.span));
                }
                _ => {}
            }
        }
        spans.retain(|span| span.start <= byte && byte <= span.end);
        let ranges = spans.into_iter().map(|span| workspace.range(document, span));
        let innermost = ranges.fold(None, |parent: Option<SelectionRange>, range| match parent {
            Some(parent) if parent.range == range || !within(range, parent.range) => Some(parent),
            parent => Some(SelectionRange { range, parent: parent.map(Box::new) }),
        });
        innermost.unwrap_or(SelectionRange { range: Range { start: *place, end: *place }, parent: None })
    };
    places.iter().map(one).collect()
}

fn within(inner: Range, outer: Range) -> bool {
    let place = |at: Position| (at.line, at.character);
    place(outer.start) <= place(inner.start) && place(inner.end) <= place(outer.end)
}
