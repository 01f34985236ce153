//! Numbers that follow from a statement, shown behind it.

use gen_lsp_types::{InlayHint, Label, Range, Tooltip};

use super::derived;
use super::documents::Document;
use super::sets;
use super::workspace::Workspace;
use crate::base::Span;
use crate::derive::Evaluation;

/// Those of the statements that end within a range.
pub(super) fn of(workspace: &Workspace, document: &Document, range: Range) -> Vec<InlayHint> {
    let Some(analysis) = workspace.analysis(document) else { return sets::examples::hints(workspace, document, range) };
    let stretch = workspace.span(document, range);
    let mut hints = Vec::new();
    for stair in &analysis.stairs {
        let evaluation = Evaluation::traced(&stair.drawn);
        for (span, worked) in derived::numbers(&evaluation, &document.source) {
            let Ok(value) = &worked.result else { continue };
            if span.end < stretch.start || stretch.end < span.end {
                continue;
            }
            hints.push(InlayHint {
                position: workspace.range(document, Span { start: span.end, end: span.end }).start,
                label: Label::String(format!("{} {value}", worked.quantity.name)),
                kind: None,
                text_edits: None,
                tooltip: Some(Tooltip::String(worked.quantity.help.to_owned())),
                padding_left: Some(true),
                padding_right: None,
                data: None,
            });
        }
    }
    hints
}
