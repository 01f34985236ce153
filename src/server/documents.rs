//! The documents that the client has open, at their last versions.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

use gen_lsp_types::{TextDocumentContentChangeEvent, Uri};

use super::positions::{Encoding, Lines};
use super::uris;
use crate::base::Source;
use crate::check::LoadedSet;
use crate::model::SHOP_FILE;
use crate::rules::Proof;

/// What a document holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    /// A design.
    Design,
    /// A ruleset.
    Rules,
    /// A shop's file.
    Shop,
    /// A set that comes with the tool; nobody changes it.
    BuiltIn,
}

/// An open document.
#[derive(Debug)]
pub(super) struct Document {
    pub uri: Uri,
    pub path: PathBuf,
    /// As the client counts.
    pub version: i32,
    pub holds: Holds,
    pub source: Source,
    pub lines: Lines,
    /// What came of the examples of a set, as it was last read.
    pub proven: RefCell<Option<Proven>>,
}

/// A set, and what came of its examples.
pub(super) type Proven = (Arc<LoadedSet>, Arc<[Proof]>);

impl Document {
    pub fn new(uri: Uri, version: i32, text: &str) -> Self {
        let path = uris::path(&uri.0);
        let named = path.file_name().unwrap_or_default().to_string_lossy();
        let holds = match &*named {
            _ if uris::built_in(&uri.0).is_some() => Holds::BuiltIn,
            SHOP_FILE => Holds::Shop,
            named if named.ends_with(".rules") => Holds::Rules,
            _ => Holds::Design,
        };
        let source = Source::at(&path, text.into());
        Self { lines: Lines::of(text), uri, path, version, holds, source, proven: RefCell::default() }
    }

    /// Takes changes in their order, each of the text that those before it left.
    pub fn change(&mut self, version: i32, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) {
        let mut text = self.source.text.to_string();
        for change in changes {
            match change {
                TextDocumentContentChangeEvent::TextDocumentContentChangePartial(part) => {
                    let span = self.lines.span(&text, part.range, encoding);
                    let before = text.get(..span.start as usize).unwrap_or_default();
                    let after = text.get(span.end as usize..).unwrap_or_default();
                    text = [before, &part.text, after].concat();
                    self.lines.replaced(&text, span, part.text.len());
                }
                TextDocumentContentChangeEvent::TextDocumentContentChangeWholeDocument(whole) => {
                    text = whole.text;
                    self.lines = Lines::of(&text);
                }
            }
        }
        self.source = self.source.with_text(&text);
        self.version = version;
    }
}

/// Open documents by their URIs.
#[derive(Debug, Default)]
pub(super) struct Documents(BTreeMap<String, Document>);

impl Documents {
    pub fn open(&mut self, document: Document) {
        self.0.insert(document.uri.0.clone(), document);
    }

    pub fn close(&mut self, uri: &str) -> Option<Document> {
        self.0.remove(uri)
    }

    pub fn get(&self, uri: &str) -> Option<&Document> {
        self.0.get(uri)
    }

    pub fn get_mut(&mut self, uri: &str) -> Option<&mut Document> {
        self.0.get_mut(uri)
    }

    pub fn all(&self) -> impl Iterator<Item = &Document> {
        self.0.values()
    }

    /// The open document of a text.
    pub fn of(&self, source: &Source) -> Option<&Document> {
        self.0.values().find(|open| open.path == source.path())
    }
}
