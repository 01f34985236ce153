//! What the client announced when the two sides met.

use std::path::PathBuf;

use gen_lsp_types::{ClientCapabilities, InitializeParams, PositionEncodingKind, WorkspaceFolders};

use super::positions::Encoding;
use super::uris;

/// What the client can do. Nothing is sent that it did not announce.
#[derive(Debug, Clone, Copy)]
pub(super) struct Client {
    /// What a column counts: bytes where the client offers it.
    pub encoding: Encoding,
    /// It asks for diagnostics; then none are pushed.
    pub pulls: bool,
    /// A diagnostic may point at other places.
    pub related: bool,
    /// It opens documents whose text the server gives.
    pub opens_content: bool,
    /// It can be told that what it pulled is stale.
    pub refreshes: bool,
    /// It can be asked to watch files.
    pub watches: bool,
    /// What is inserted may have places to fill in.
    pub snippets: bool,
    /// An edit may name the version that it is for.
    pub versioned_edits: bool,
}

/// The folders that the client has open; of one that knows of one alone, that one.
pub(super) fn folders(params: &InitializeParams) -> Vec<PathBuf> {
    let named = match &params.workspace_folders_initialize_params.workspace_folders {
        Some(WorkspaceFolders::WorkspaceFolderList(folders)) => folders.iter().map(|folder| &folder.uri.0).collect(),
        Some(WorkspaceFolders::Null) | None => Vec::new(),
    };
    #[allow(deprecated, reason = "older clients say it no other way")]
    let root = params.root_uri.as_ref().filter(|_| named.is_empty()).map(|root| &root.0);
    named.into_iter().chain(root).map(|uri| uris::path(uri)).collect()
}

impl Default for Client {
    fn default() -> Self {
        Self::of(&InitializeParams::default())
    }
}

impl Client {
    pub fn of(params: &InitializeParams) -> Self {
        let ClientCapabilities { workspace, text_document, general, .. } = &params.capabilities;
        let encodings = general.as_ref().and_then(|general| general.position_encodings.as_deref()).unwrap_or_default();
        let published = text_document.as_ref().and_then(|text| text.publish_diagnostics.as_ref());
        let watched = workspace.as_ref().and_then(|workspace| workspace.did_change_watched_files.as_ref());
        let edits = workspace.as_ref().and_then(|workspace| workspace.workspace_edit.as_ref());
        let pulled = workspace.as_ref().and_then(|workspace| workspace.diagnostics.as_ref());
        let completed = text_document.as_ref().and_then(|text| text.completion.as_ref());
        let completed = completed.and_then(|completed| completed.completion_item.as_ref());
        Self {
            snippets: completed.and_then(|item| item.snippet_support).unwrap_or(false),
            encoding: if encodings.contains(&PositionEncodingKind::UTF8) { Encoding::Utf8 } else { Encoding::Utf16 },
            pulls: text_document.as_ref().is_some_and(|text| text.diagnostic.is_some()),
            related: published.and_then(|push| push.diagnostics_capabilities.related_information).unwrap_or(false),
            opens_content: workspace.as_ref().is_some_and(|workspace| workspace.text_document_content.is_some()),
            refreshes: pulled.and_then(|pull| pull.refresh_support).unwrap_or(false),
            watches: watched.and_then(|watched| watched.dynamic_registration).unwrap_or(false),
            versioned_edits: edits.and_then(|edits| edits.document_changes).unwrap_or(false),
        }
    }
}
