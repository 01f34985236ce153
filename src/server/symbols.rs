//! The outline of a document: its blocks, and in a set the rules.

use gen_lsp_types::{DocumentSymbol, SymbolKind};

use super::documents::Document;
use super::nodes;
use super::workspace::Workspace;
use crate::syntax::Item;

/// Blocks within blocks, by their heads.
pub(super) fn of(workspace: &Workspace, document: &Document) -> Vec<DocumentSymbol> {
    within(workspace, document, &workspace.tree(document).items)
}

fn within(workspace: &Workspace, document: &Document, items: &[Item]) -> Vec<DocumentSymbol> {
    let symbol = |item: &Item| {
        let Item::Block { head, head_span, body, .. } = item else { return None };
        let words = document.source.slice(*head_span).split_whitespace().collect::<Vec<_>>().join(" ");
        let name = nodes::quoted(head).map(|(name, _)| name.trim()).filter(|name| !name.is_empty());
        let kind = words.split('"').next().unwrap_or_default().trim().to_owned();
        let children = within(workspace, document, body);
        #[allow(deprecated, reason = "the type has the field")]
        Some(DocumentSymbol {
            name: match (name, words.is_empty()) {
                (Some(name), _) => name.to_owned(),
                (None, true) => "{ }".to_owned(),
                (None, false) => words,
            },
            detail: name.map(|_| kind),
            kind: if children.is_empty() { SymbolKind::Object } else { SymbolKind::Module },
            range: workspace.range(document, nodes::extent(item)),
            selection_range: workspace.range(document, *head_span),
            children: Some(children),
            tags: None,
            deprecated: None,
        })
    };
    items.iter().filter_map(symbol).collect()
}
