//! The examples of a set's rules, run as `pitchboard rules --prove` runs them, with their outcomes beside them.

use std::sync::Arc;

use gen_lsp_types::{InlayHint, Label, Range, Tooltip};

use crate::base::Span;
use crate::rules::{Proof, prove_some};
use crate::server::documents::{Document, Holds};
use crate::server::workspace::Workspace;
use crate::wording::{self, message};

/// What came of the examples that stand in a set's own text. They are run once for each text.
pub(in crate::server) fn proofs(workspace: &Workspace, document: &Document) -> Arc<[Proof]> {
    let Some(loaded) = workspace.set(document).filter(|_| document.holds == Holds::Rules) else { return Arc::from([]) };
    if let Some((of, proofs)) = document.proven.borrow().as_ref()
        && Arc::ptr_eq(of, &loaded)
    {
        return Arc::clone(proofs);
    }
    let own = |source: &crate::base::Source, _| source.path() == document.source.path();
    let proofs: Arc<[Proof]> = prove_some(&loaded.set, &own).into();
    document.proven.replace(Some((loaded, Arc::clone(&proofs))));
    proofs
}

/// The outcomes of the examples that end within a range, behind them.
pub(in crate::server) fn hints(workspace: &Workspace, document: &Document, range: Range) -> Vec<InlayHint> {
    let stretch = workspace.span(document, range);
    let proofs = proofs(workspace, document);
    let within = proofs.iter().filter(|proof| stretch.start <= proof.span.end && proof.span.end <= stretch.end);
    let hint = |proof: &Proof| {
        let why = proof.diagnostic().and_then(|found| message(&found).help);
        InlayHint {
            position: workspace.range(document, Span { start: proof.span.end, end: proof.span.end }).start,
            label: Label::String(wording::came_of(proof)),
            kind: None,
            text_edits: None,
            tooltip: why.map(Tooltip::String),
            padding_left: Some(true),
            padding_right: None,
            data: None,
        }
    };
    within.map(hint).collect()
}
