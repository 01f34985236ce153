//! Tidying, of a document or of the lines of a selection.

use gen_lsp_types::{Range, TextEdit};

use super::documents::{Document, Holds};
use super::workspace::Workspace;
use crate::syntax::{Language, tidy};

/// The blanks to change.
pub(super) fn of(workspace: &Workspace, document: &Document, selected: Option<Range>) -> Vec<TextEdit> {
    let language = match document.holds {
        Holds::BuiltIn => return Vec::new(),
        Holds::Rules => Language::Rules,
        Holds::Design | Holds::Shop => Language::Design,
    };
    let mut tidying = tidy(&document.source, language);
    if let Some(range) = selected {
        tidying = tidying.within(&document.source, workspace.span(document, range));
    }
    tidying.edits.iter().map(|edit| workspace.text_edit(document, edit.span, &edit.text)).collect()
}
