//! What concerns all the folders at once: the findings of every design, open or not, and what is drawn and ruled
//! anywhere, by its name.

use std::collections::{BTreeMap, VecDeque};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::PathBuf;

use gen_lsp_types::{
    BaseSymbolInformation, Diagnostic, FullDocumentDiagnosticReport, SymbolKind, UnchangedDocumentDiagnosticReport,
    Uri, WorkspaceDiagnosticParams, WorkspaceDiagnosticReport, WorkspaceDocumentDiagnosticReport,
    WorkspaceFullDocumentDiagnosticReport, WorkspaceSymbol, WorkspaceSymbolLocation,
    WorkspaceUnchangedDocumentDiagnosticReport,
};
use lsp_server::RequestId;

use super::diagnostics;
use super::documents::Document;
use super::nodes;
use super::uris;
use super::workspace::Workspace;
use crate::syntax::{Item, Term};

/// Most names that are given for one query.
const MOST_NAMES: usize = 1_000;

/// The findings of every design, as they are asked for: they are worked out one design at a time, and whatever comes
/// from the client meanwhile goes first.
#[derive(Debug)]
pub(super) struct Survey {
    /// The request that it answers.
    pub id: RequestId,
    left: VecDeque<PathBuf>,
    /// What the client has of each design, by its URI.
    has: BTreeMap<String, String>,
    found: Vec<WorkspaceDocumentDiagnosticReport>,
}

impl Survey {
    pub fn new(workspace: &Workspace, id: RequestId, params: WorkspaceDiagnosticParams) -> Self {
        let is_design = |path: &PathBuf| path.extension().is_some_and(|ending| ending == "stair");
        let left = workspace.texts().into_iter().filter(is_design).collect();
        let has = params.previous_result_ids.into_iter().map(|had| (had.uri.0, had.value)).collect();
        Self { id, left, has, found: Vec::new() }
    }

    /// Looks at one design more; false where none is left.
    pub fn step(&mut self, workspace: &Workspace) -> bool {
        let Some(path) = self.left.pop_front() else { return false };
        let open = workspace.documents.all().find(|open| open.path == path);
        let (uri, version, items) = match open {
            Some(open) => {
                let items = diagnostics::of(workspace, open, &|| false).unwrap_or_default();
                (open.uri.clone(), Some(open.version), items)
            }
            None => {
                let uri = Uri(uris::of_file(&path));
                // What cannot be read is told at the head of nothing.
                let text = workspace.session.text(&path).map(|source| source.text).unwrap_or_default();
                let closed = Document::new(uri.clone(), 0, &text);
                let items = diagnostics::of(workspace, &closed, &|| false).unwrap_or_default();
                (uri, None, items)
            }
        };
        let id = result_id(&items);
        self.found.push(if self.has.get(&uri.0) == Some(&id) {
            let unchanged = UnchangedDocumentDiagnosticReport { result_id: id };
            let report = WorkspaceUnchangedDocumentDiagnosticReport {
                uri,
                version,
                unchanged_document_diagnostic_report: unchanged,
            };
            WorkspaceDocumentDiagnosticReport::WorkspaceUnchangedDocumentDiagnosticReport(report)
        } else {
            let full = FullDocumentDiagnosticReport { result_id: Some(id), items };
            let report = WorkspaceFullDocumentDiagnosticReport { uri, version, full_document_diagnostic_report: full };
            WorkspaceDocumentDiagnosticReport::WorkspaceFullDocumentDiagnosticReport(report)
        });
        true
    }

    /// All that was found.
    pub fn report(self) -> WorkspaceDiagnosticReport {
        WorkspaceDiagnosticReport { items: self.found }
    }
}

/// The same for the same findings at the same places.
fn result_id(items: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    items.hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

/// The named things of all designs, sets and shops' files whose names hold the signs of a query in their order; of more
/// than a thousand the first.
pub(super) fn symbols(workspace: &Workspace, query: &str) -> Vec<WorkspaceSymbol> {
    let query = query.to_lowercase();
    let mut found = Vec::new();
    for path in workspace.texts() {
        let open = workspace.documents.all().find(|open| open.path == path);
        match open {
            Some(open) => of_document(workspace, open, &query, &mut found),
            None => {
                let Ok(source) = workspace.session.text(&path) else { continue };
                let closed = Document::new(Uri(uris::of_file(&path)), 0, &source.text);
                of_document(workspace, &closed, &query, &mut found);
            }
        }
        if found.len() >= MOST_NAMES {
            found.truncate(MOST_NAMES);
            break;
        }
    }
    found
}

fn of_document(workspace: &Workspace, document: &Document, query: &str, found: &mut Vec<WorkspaceSymbol>) {
    let tree = workspace.tree(document);
    let file = document.path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    for item in &tree.items {
        nodes::walk(item, &mut |item| {
            let Item::Block { head, head_span, .. } = item else { return };
            let Some((name, opens)) = named(head) else { return };
            if !holds_in_order(&name.to_lowercase(), query) {
                return;
            }
            let Some(location) = workspace.location_in(document, *head_span) else { return };
            found.push(WorkspaceSymbol {
                location: WorkspaceSymbolLocation::Location(location),
                data: None,
                base_symbol_information: BaseSymbolInformation {
                    name,
                    kind: SymbolKind::Object,
                    container_name: Some(format!("{opens}, {file}")),
                    tags: None,
                },
            });
        });
    }
}

/// The name of a block and the words that open it; nothing where it has no name.
fn named(head: &[Term]) -> Option<(String, String)> {
    let opens = |words: &[Term]| words.iter().map_while(Term::word).collect::<Vec<_>>().join(" ");
    if let Some((name, _)) = nodes::quoted(head) {
        return Some((name.to_owned(), opens(head)));
    }
    let words = nodes::kind(head).map(|kind| kind.opens.split(' ').count())?;
    let (first, name) = head.split_at_checked(words)?;
    let name = opens(name);
    (!name.is_empty()).then(|| (name, opens(first)))
}

fn holds_in_order(name: &str, query: &str) -> bool {
    let mut signs = name.chars();
    query.chars().all(|wanted| signs.any(|sign| sign == wanted))
}
