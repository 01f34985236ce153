//! What every capability asks: the session, the open documents, and places as the client counts them.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use gen_lsp_types::{
    DocumentChange, Edit, Location, OptionalVersionedTextDocumentIdentifier, Range, TextDocumentEdit,
    TextDocumentIdentifier, TextEdit, Uri, WorkspaceEdit,
};

use super::client::Client;
use super::documents::{Document, Documents, Holds};
use super::positions::Lines;
use super::uris;
use crate::base::{Source, Span};
use crate::check::{Analysis, LoadedSet};
use crate::session::Session;
use crate::syntax::{self, Tree};

#[derive(Debug)]
pub(super) struct Workspace {
    pub session: Session,
    pub documents: Documents,
    pub client: Client,
    /// The folders that the client has open.
    pub folders: Vec<PathBuf>,
}

impl Workspace {
    /// What a design came to; nothing for a document that holds none.
    pub fn analysis(&self, document: &Document) -> Option<Arc<Analysis>> {
        (document.holds == Holds::Design).then(|| self.session.analyse(&document.path).ok()).flatten()
    }

    /// What was read of a ruleset; nothing for a document that holds none, or that cannot be read at all.
    pub fn set(&self, document: &Document) -> Option<Arc<LoadedSet>> {
        match document.holds {
            Holds::Rules => self.session.set(&document.path.to_string_lossy(), None).ok(),
            Holds::BuiltIn => self.session.set(&uris::built_in_name(&document.uri.0)?, None).ok(),
            Holds::Design | Holds::Shop => None,
        }
    }

    /// The designs, rulesets and shops' files of the folders, and those that are open besides, each once.
    pub fn texts(&self) -> Vec<PathBuf> {
        let below = self.folders.iter().flat_map(|folder| self.session.texts_below(folder));
        let open = self.documents.all().filter(|open| open.holds != Holds::BuiltIn).map(|open| open.path.clone());
        let all: BTreeSet<PathBuf> = below.chain(open).collect();
        all.into_iter().collect()
    }

    /// The syntax tree of a document, whatever it holds.
    pub fn tree(&self, document: &Document) -> Tree {
        match document.holds {
            Holds::Design | Holds::Shop => syntax::parse_design(&document.source).0,
            Holds::Rules | Holds::BuiltIn => syntax::parse_rules(&document.source).0,
        }
    }

    pub fn range(&self, document: &Document, span: Span) -> Range {
        document.lines.range(&document.source.text, span, self.client.encoding)
    }

    pub fn span(&self, document: &Document, range: Range) -> Span {
        document.lines.span(&document.source.text, range, self.client.encoding)
    }

    pub fn byte(&self, document: &Document, place: gen_lsp_types::Position) -> u32 {
        self.span(document, Range { start: place, end: place }).start
    }

    /// Words of any text, where the client can open it.
    pub fn location(&self, source: &Source, span: Span) -> Option<Location> {
        if let Some(open) = self.documents.of(source) {
            return Some(Location { uri: open.uri.clone(), range: self.range(open, span) });
        }
        let uri = uris::of(source)?;
        if uris::built_in(&uri).is_some() && !self.client.opens_content {
            return None;
        }
        let range = Lines::of(&source.text).range(&source.text, span, self.client.encoding);
        Some(Location { uri: Uri(uri), range })
    }

    /// Words of a document, which may not be open.
    pub fn location_in(&self, document: &Document, span: Span) -> Option<Location> {
        Some(Location { uri: document.uri.clone(), range: self.range(document, span) })
    }

    /// Edits of one document, for the version that they were made for.
    pub fn edit(&self, document: &Document, edits: Vec<TextEdit>) -> WorkspaceEdit {
        if !self.client.versioned_edits {
            return WorkspaceEdit { changes: Some([(document.uri.clone(), edits)].into()), ..WorkspaceEdit::default() };
        }
        let text_document = OptionalVersionedTextDocumentIdentifier {
            version: Some(document.version),
            text_document_identifier: TextDocumentIdentifier { uri: document.uri.clone() },
        };
        let edits = edits.into_iter().map(Edit::TextEdit).collect();
        let change = DocumentChange::TextDocumentEdit(TextDocumentEdit { text_document, edits });
        WorkspaceEdit { document_changes: Some(vec![change]), ..WorkspaceEdit::default() }
    }

    pub fn text_edit(&self, document: &Document, span: Span, text: &str) -> TextEdit {
        TextEdit { range: self.range(document, span), new_text: text.to_owned() }
    }
}
