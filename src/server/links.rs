//! The sets that a design asks for, as links to their texts.

use gen_lsp_types::DocumentLink;

use super::documents::Document;
use super::workspace::Workspace;
use crate::base::Span;

pub(super) fn of(workspace: &Workspace, document: &Document) -> Vec<DocumentLink> {
    let Some(analysis) = workspace.analysis(document) else { return Vec::new() };
    let link = |(name, span): &(String, Span)| {
        let loaded = workspace.session.set(name, Some(&document.source)).ok()?;
        let target = workspace.location(loaded.set.text.as_ref()?, Span::default())?.uri;
        let tooltip = Some(loaded.set.title.clone());
        Some(DocumentLink { range: workspace.range(document, *span), target: Some(target), tooltip, data: None })
    };
    analysis.stairs.iter().flat_map(|stair| &stair.rules).filter_map(link).collect()
}
