//! The language server: messages of the open protocol in, messages out. It reads no pipe and keeps no clock; a face
//! carries the messages.
//!
//! Messages are taken in their order. Diagnostics are worked out when no message is left, so that edits that are queued
//! already get one answer, at the last version.

mod actions;
mod client;
mod completion;
mod derived;
mod diagnostics;
mod documents;
mod everywhere;
mod folding;
mod formatting;
mod hints;
mod hover;
mod links;
mod names;
mod nodes;
mod positions;
mod sets;
mod symbols;
mod tokens;
mod uris;
mod workspace;

use std::collections::{BTreeSet, VecDeque};

use gen_lsp_types::{
    ChangeNotifications, CodeActionKind, CodeActionOptions, CodeActionParams, CodeActionProvider, CompletionOptions,
    CompletionParams, DefinitionParams, DefinitionProvider, DiagnosticOptions, DiagnosticProvider,
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidChangeWorkspaceFoldersParams,
    DidCloseTextDocumentParams, DidOpenTextDocumentParams, DocumentDiagnosticParams, DocumentFormattingParams,
    DocumentFormattingProvider, DocumentLinkOptions, DocumentLinkParams, DocumentRangeFormattingParams,
    DocumentRangeFormattingProvider, DocumentSymbolParams, DocumentSymbolProvider, FoldingRangeParams,
    FoldingRangeProvider, Full, FullDocumentDiagnosticReport, HoverParams, HoverProvider, InitializeParams,
    InitializeResult, InlayHintParams, InlayHintProvider, PositionEncodingKind, PrepareRenameParams,
    PublishDiagnosticsParams, ReferenceParams, ReferencesProvider, RelatedFullDocumentDiagnosticReport, RenameOptions,
    RenameParams, RenameProvider, SelectionRangeParams, SelectionRangeProvider, SemanticTokensOptions,
    SemanticTokensParams, SemanticTokensProvider, ServerCapabilities, ServerInfo, TextDocumentContent,
    TextDocumentContentOptions, TextDocumentContentParams, TextDocumentContentResult, TextDocumentSync,
    TextDocumentSyncKind, TextDocumentSyncOptions, Uri, WorkDoneProgressOptions, WorkspaceFoldersServerCapabilities,
    WorkspaceOptions, WorkspaceSymbolParams, WorkspaceSymbolProvider,
};
use lsp_server::{ErrorCode, Message, Notification, Request, RequestId, Response};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use crate::base::Day;
use crate::session::Session;
use client::Client;
use documents::{Document, Documents, Holds};
use everywhere::Survey;
use positions::Encoding;
use workspace::Workspace;

/// What the server was told about its life.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Phase {
    /// Nobody has said who asks.
    Begins,
    /// It answers.
    Serves,
    /// It was asked to make ready for its end.
    Ends,
    /// It was told to end; in order, or out of the blue.
    Ended { in_order: bool },
}

/// The server.
#[derive(Debug)]
pub struct Server {
    workspace: Workspace,
    phase: Phase,
    /// Messages that are not looked at yet.
    queue: VecDeque<Message>,
    /// Requests that the client gave up before they were looked at.
    withdrawn: BTreeSet<RequestId>,
    /// The request that is being answered.
    answering: Option<RequestId>,
    /// Documents whose diagnostics are to be sent, by their URIs.
    stale: BTreeSet<String>,
    /// The questions for the findings of every design, the oldest first.
    surveys: VecDeque<Survey>,
    /// Requests of the server's own, to number them.
    asked: i32,
    out: Vec<Message>,
}

/// Why a request has no answer.
type Refused = (ErrorCode, String);

impl Server {
    /// A server over a session.
    pub fn new(session: Session) -> Self {
        Self {
            workspace: Workspace {
                session,
                documents: Documents::default(),
                client: Client::default(),
                folders: Vec::new(),
            },
            phase: Phase::Begins,
            queue: VecDeque::new(),
            withdrawn: BTreeSet::new(),
            answering: None,
            stale: BTreeSet::new(),
            surveys: VecDeque::new(),
            asked: 0,
            out: Vec::new(),
        }
    }

    /// Tells it the day, once that has become another: waivers may have come to their end.
    pub fn turn_to(&mut self, day: Day) {
        if self.workspace.session.turn_to(day) {
            self.age();
        }
    }

    /// Takes a message in. Of what is queued already a request that the client gives up is answered so.
    pub fn take(&mut self, message: Message) {
        if let Message::Notification(note) = &message
            && note.method == "$/cancelRequest"
        {
            let id = note.params.get("id").cloned().and_then(|id| serde_json::from_value::<RequestId>(id).ok());
            if let Some(at) = id.as_ref().and_then(|id| self.surveys.iter().position(|survey| survey.id == *id)) {
                let given_up = self.surveys.remove(at);
                given_up.into_iter().for_each(|survey| self.refuse(survey.id, given_up_by_the_client()));
                return;
            }
            let is = |queued: &Message, id: &RequestId| matches!(queued, Message::Request(asked) if asked.id == *id);
            if let Some(id) = id.filter(|id| self.queue.iter().any(|queued| is(queued, id))) {
                self.withdrawn.insert(id);
            }
            return;
        }
        self.queue.push_back(message);
    }

    /// Does one piece of work: the oldest message, else the diagnostics of one document. False where nothing is left. A
    /// check that takes long is given up, to be made again, where `newer` says that a newer text has come in.
    pub fn work(&mut self, newer: &dyn Fn() -> bool) -> bool {
        if let Some(message) = self.queue.pop_front() {
            match message {
                Message::Request(request) => self.request(request),
                Message::Notification(note) => self.notification(note),
                // No answer of the client changes anything.
                Message::Response(_) => {}
            }
            return true;
        }
        if let Some(uri) = self.stale.pop_first() {
            self.publish(&uri, newer);
            return true;
        }
        let Some(mut survey) = self.surveys.pop_front() else { return false };
        // One that fails is answered as any other request.
        self.answering = Some(survey.id.clone());
        let more = survey.step(&self.workspace);
        self.answering = None;
        if more {
            self.surveys.push_front(survey);
        } else {
            let id = survey.id.clone();
            match written(&survey.report()) {
                Ok(value) => self.out.push(Message::Response(Response { id, response_result: Ok(value) })),
                Err(refused) => self.refuse(id, refused),
            }
        }
        true
    }

    /// The messages to send, in their order.
    pub fn sends(&mut self) -> Vec<Message> {
        std::mem::take(&mut self.out)
    }

    /// Whether it was told to end, and if so whether in the order that the protocol asks for.
    pub fn ended(&self) -> Option<bool> {
        match self.phase {
            Phase::Ended { in_order } => Some(in_order),
            Phase::Begins | Phase::Serves | Phase::Ends => None,
        }
    }

    /// A piece of work ended in a fault of the checker: the request gets an answer all the same.
    pub fn fault(&mut self) {
        if let Some(id) = self.answering.take() {
            self.refuse(id, (ErrorCode::InternalError, "the checker failed on it".to_owned()));
        }
    }

    fn refuse(&mut self, id: RequestId, (code, why): Refused) {
        self.out.push(Response::new_err(id, code as i32, why).into());
    }

    fn request(&mut self, request: Request) {
        let Request { id, method, params } = request;
        self.answering = Some(id.clone());
        let answer = if self.withdrawn.remove(&id) {
            Err(given_up_by_the_client())
        } else {
            match self.phase {
                Phase::Begins if method == "initialize" => read(params).and_then(|params| self.initialize(&params)),
                Phase::Begins => Err((ErrorCode::ServerNotInitialized, "`initialize` comes first".to_owned())),
                Phase::Serves if method == "shutdown" => {
                    self.phase = Phase::Ends;
                    for survey in std::mem::take(&mut self.surveys) {
                        self.refuse(survey.id, (ErrorCode::RequestCanceled, "the server ends".to_owned()));
                    }
                    Ok(Value::Null)
                }
                Phase::Serves if method == "workspace/diagnostic" => match read(params) {
                    Ok(params) => {
                        let survey = Survey::new(&self.workspace, id, params);
                        self.answering = None;
                        return self.surveys.push_back(survey);
                    }
                    Err(refused) => Err(refused),
                },
                Phase::Serves => answer(&self.workspace, &method, params),
                Phase::Ends | Phase::Ended { .. } => {
                    Err((ErrorCode::InvalidRequest, "nothing is answered after `shutdown`".to_owned()))
                }
            }
        };
        self.answering = None;
        match answer {
            Ok(value) => self.out.push(Message::Response(Response { id, response_result: Ok(value) })),
            Err(refused) => self.refuse(id, refused),
        }
    }

    fn notification(&mut self, note: Notification) {
        let Notification { method, params } = note;
        if method == "exit" {
            self.phase = Phase::Ended { in_order: self.phase == Phase::Ends };
            return;
        }
        if self.phase != Phase::Serves {
            return;
        }
        // What cannot be read changes nothing; to a notification there is no answer.
        match method.as_str() {
            "initialized" => self.watch(),
            "textDocument/didOpen" => read(params).map(|params| self.open(params)).unwrap_or_default(),
            "textDocument/didChange" => read(params).map(|params| self.change(params)).unwrap_or_default(),
            "textDocument/didClose" => read(params).map(|params| self.close(&params)).unwrap_or_default(),
            "workspace/didChangeWorkspaceFolders" => read(params).map(|params| self.moved(params)).unwrap_or_default(),
            "workspace/didChangeWatchedFiles" => read(params).map(|params| self.watched(&params)).unwrap_or_default(),
            _ => {}
        }
    }

    fn initialize(&mut self, params: &InitializeParams) -> Result<Value, Refused> {
        self.workspace.client = Client::of(params);
        self.workspace.folders = client::folders(params);
        self.phase = Phase::Serves;
        let server_info =
            ServerInfo { name: env!("CARGO_PKG_NAME").to_owned(), version: Some(env!("CARGO_PKG_VERSION").to_owned()) };
        written(&InitializeResult {
            capabilities: capabilities(&self.workspace.client),
            server_info: Some(server_info),
        })
    }

    /// Asks the client to tell when a design, a set or a shop's file changes on the disk.
    fn watch(&mut self) {
        if !self.workspace.client.watches {
            return;
        }
        let watchers = ["**/*.rules", "**/shop.pitchboard", "**/*.stair"].map(|glob| json!({ "globPattern": glob }));
        let registration = json!({
            "id": "files",
            "method": "workspace/didChangeWatchedFiles",
            "registerOptions": { "watchers": watchers },
        });
        self.ask("client/registerCapability", json!({ "registrations": [registration] }));
    }

    fn ask(&mut self, method: &str, params: Value) {
        self.asked += 1;
        let id = RequestId::from(format!("pitchboard-{}", self.asked));
        self.out.push(Message::Request(Request { id, method: method.to_owned(), params }));
    }

    fn open(&mut self, params: DidOpenTextDocumentParams) {
        let item = params.text_document;
        let document = Document::new(item.uri, item.version, &item.text);
        if document.holds != Holds::BuiltIn {
            self.workspace.session.open(&document.path, &item.text);
        }
        self.stale.insert(document.uri.0.clone());
        self.workspace.documents.open(document);
        self.age();
    }

    fn change(&mut self, params: DidChangeTextDocumentParams) {
        let encoding = self.workspace.client.encoding;
        let uri = &params.text_document.text_document_identifier.uri;
        let Some(document) = self.workspace.documents.get_mut(&uri.0) else { return };
        if document.holds == Holds::BuiltIn {
            return;
        }
        document.change(params.text_document.version, params.content_changes, encoding);
        self.workspace.session.open(&document.path, &document.source.text);
        self.stale.insert(uri.0.clone());
        self.age();
    }

    fn close(&mut self, params: &DidCloseTextDocumentParams) {
        let uri = &params.text_document.uri;
        let Some(document) = self.workspace.documents.close(&uri.0) else { return };
        self.workspace.session.close(&document.path);
        self.stale.remove(&uri.0);
        if !self.workspace.client.pulls {
            self.send_diagnostics(uri.clone(), None, Vec::new());
        }
        self.age();
    }

    fn moved(&mut self, params: DidChangeWorkspaceFoldersParams) {
        let gone: Vec<_> = params.event.removed.iter().map(|folder| uris::path(&folder.uri.0)).collect();
        let folders = &mut self.workspace.folders;
        folders.retain(|folder| !gone.contains(folder));
        folders.extend(params.event.added.iter().map(|folder| uris::path(&folder.uri.0)));
    }

    fn watched(&mut self, params: &DidChangeWatchedFilesParams) {
        for change in &params.changes {
            self.workspace.session.changed(uris::path(&change.uri.0));
        }
        self.age();
    }

    /// Every open document that rests on a text that has changed is to be told of anew, and no other.
    fn age(&mut self) {
        let Workspace { session, documents, .. } = &self.workspace;
        let aged = documents.all().filter(|open| match open.holds {
            Holds::Design => !session.is_current(&open.path),
            // Reading a set or a shop's file again costs as much as asking whether it is the same.
            Holds::Rules | Holds::Shop => true,
            Holds::BuiltIn => false,
        });
        let aged: Vec<String> = aged.map(|open| open.uri.0.clone()).collect();
        self.stale.extend(aged);
    }

    /// Sends what there is to say of a document; to a client that asks for it, that it should ask again.
    fn publish(&mut self, uri: &str, newer: &dyn Fn() -> bool) {
        if self.workspace.client.pulls {
            self.stale.clear();
            if self.workspace.client.refreshes {
                self.ask("workspace/diagnostic/refresh", Value::Null);
            }
            return;
        }
        let Some(document) = self.workspace.documents.get(uri) else { return };
        let Some(found) = diagnostics::of(&self.workspace, document, newer) else {
            self.stale.insert(uri.to_owned());
            return;
        };
        let (uri, version) = (document.uri.clone(), document.version);
        self.send_diagnostics(uri, Some(version), found);
    }

    fn send_diagnostics(&mut self, uri: Uri, version: Option<i32>, diagnostics: Vec<gen_lsp_types::Diagnostic>) {
        if let Ok(params) = serde_json::to_value(PublishDiagnosticsParams { uri, version, diagnostics }) {
            let method = "textDocument/publishDiagnostics".to_owned();
            self.out.push(Message::Notification(Notification { method, params }));
        }
    }
}

fn given_up_by_the_client() -> Refused {
    (ErrorCode::RequestCanceled, "given up by the client".to_owned())
}

/// What the server can do for this client.
fn capabilities(client: &Client) -> ServerCapabilities {
    let diagnostics = DiagnosticOptions {
        inter_file_dependencies: true,
        workspace_diagnostics: true,
        ..DiagnosticOptions::default()
    };
    let content = TextDocumentContentOptions { schemes: vec![uris::BUILT_IN.to_owned()] };
    ServerCapabilities {
        position_encoding: Some(match client.encoding {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
        }),
        text_document_sync: Some(TextDocumentSync::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::Incremental),
            ..TextDocumentSyncOptions::default()
        })),
        diagnostic_provider: client.pulls.then_some(DiagnosticProvider::DiagnosticOptions(diagnostics)),
        hover_provider: Some(HoverProvider::Bool(true)),
        code_action_provider: Some(CodeActionProvider::CodeActionOptions(CodeActionOptions {
            code_action_kinds: Some(vec![CodeActionKind::QuickFix, CodeActionKind::SourceFixAll]),
            ..CodeActionOptions::default()
        })),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some(vec![":".to_owned(), "\"".to_owned()]),
            ..CompletionOptions::default()
        }),
        definition_provider: Some(DefinitionProvider::Bool(true)),
        references_provider: Some(ReferencesProvider::Bool(true)),
        rename_provider: Some(RenameProvider::RenameOptions(RenameOptions {
            prepare_provider: Some(true),
            ..RenameOptions::default()
        })),
        inlay_hint_provider: Some(InlayHintProvider::Bool(true)),
        document_link_provider: Some(DocumentLinkOptions::default()),
        semantic_tokens_provider: Some(SemanticTokensProvider::SemanticTokensOptions(SemanticTokensOptions {
            legend: tokens::legend(),
            range: None,
            full: Some(Full::Bool(true)),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        })),
        workspace_symbol_provider: Some(WorkspaceSymbolProvider::Bool(true)),
        document_symbol_provider: Some(DocumentSymbolProvider::Bool(true)),
        folding_range_provider: Some(FoldingRangeProvider::Bool(true)),
        selection_range_provider: Some(SelectionRangeProvider::Bool(true)),
        document_formatting_provider: Some(DocumentFormattingProvider::Bool(true)),
        document_range_formatting_provider: Some(DocumentRangeFormattingProvider::Bool(true)),
        workspace: Some(WorkspaceOptions {
            workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(ChangeNotifications::Bool(true)),
            }),
            text_document_content: client.opens_content.then_some(TextDocumentContent::Options(content)),
            ..WorkspaceOptions::default()
        }),
        ..ServerCapabilities::default()
    }
}

fn read<T: DeserializeOwned>(params: Value) -> Result<T, Refused> {
    serde_json::from_value(params).map_err(|why| (ErrorCode::InvalidParams, why.to_string()))
}

fn written<T: serde::Serialize>(value: &T) -> Result<Value, Refused> {
    serde_json::to_value(value).map_err(|why| (ErrorCode::InternalError, why.to_string()))
}

/// The answer to a request.
fn answer(workspace: &Workspace, method: &str, params: Value) -> Result<Value, Refused> {
    let open = |uri: &Uri| {
        let unknown = || (ErrorCode::InvalidParams, format!("`{}` is not open", uri.0));
        workspace.documents.get(&uri.0).ok_or_else(unknown)
    };
    match method {
        "textDocument/hover" => {
            let asked = read::<HoverParams>(params)?.text_document_position_params;
            let document = open(&asked.text_document.uri)?;
            let byte = workspace.byte(document, asked.position);
            written(&match document.holds {
                Holds::Rules | Holds::BuiltIn => sets::hover::at(workspace, document, byte),
                Holds::Design | Holds::Shop => hover::at(workspace, document, byte),
            })
        }
        "textDocument/codeAction" => {
            let asked: CodeActionParams = read(params)?;
            written(&actions::at(workspace, open(&asked.text_document.uri)?, &asked))
        }
        "textDocument/completion" => {
            let asked = read::<CompletionParams>(params)?.text_document_position_params;
            let document = open(&asked.text_document.uri)?;
            let byte = workspace.byte(document, asked.position);
            written(&match document.holds {
                Holds::Rules | Holds::BuiltIn => sets::completion::at(workspace, document, byte),
                Holds::Design | Holds::Shop => completion::at(workspace, document, byte),
            })
        }
        "textDocument/definition" => {
            let asked = read::<DefinitionParams>(params)?.text_document_position_params;
            let document = open(&asked.text_document.uri)?;
            written(&names::definitions(workspace, document, workspace.byte(document, asked.position)))
        }
        "textDocument/references" => {
            let ReferenceParams { context, text_document_position_params: asked, .. } = read(params)?;
            let document = open(&asked.text_document.uri)?;
            let byte = workspace.byte(document, asked.position);
            written(&names::references(workspace, document, byte, context.include_declaration))
        }
        "textDocument/prepareRename" => {
            let asked = read::<PrepareRenameParams>(params)?.text_document_position_params;
            let document = open(&asked.text_document.uri)?;
            written(&names::renamed(workspace, document, workspace.byte(document, asked.position)))
        }
        "textDocument/rename" => {
            let RenameParams { new_name, text_document_position_params: asked, .. } = read(params)?;
            let document = open(&asked.text_document.uri)?;
            let byte = workspace.byte(document, asked.position);
            let edits = names::rename(workspace, document, byte, &new_name)
                .map_err(|why| (ErrorCode::RequestFailed, why.to_owned()))?;
            written(&workspace.edit(document, edits))
        }
        "textDocument/documentLink" => {
            let asked: DocumentLinkParams = read(params)?;
            written(&links::of(workspace, open(&asked.text_document.uri)?))
        }
        "textDocument/inlayHint" => {
            let asked: InlayHintParams = read(params)?;
            written(&hints::of(workspace, open(&asked.text_document.uri)?, asked.range))
        }
        "textDocument/semanticTokens/full" => {
            let asked: SemanticTokensParams = read(params)?;
            written(&tokens::of(workspace, open(&asked.text_document.uri)?))
        }
        "textDocument/diagnostic" => {
            let asked: DocumentDiagnosticParams = read(params)?;
            let items = diagnostics::of(workspace, open(&asked.text_document.uri)?, &|| false).unwrap_or_default();
            let report = FullDocumentDiagnosticReport { result_id: None, items };
            written(&RelatedFullDocumentDiagnosticReport {
                full_document_diagnostic_report: report,
                ..RelatedFullDocumentDiagnosticReport::default()
            })
        }
        "textDocument/documentSymbol" => {
            let asked: DocumentSymbolParams = read(params)?;
            written(&symbols::of(workspace, open(&asked.text_document.uri)?))
        }
        "workspace/symbol" => {
            let asked: WorkspaceSymbolParams = read(params)?;
            written(&everywhere::symbols(workspace, &asked.query))
        }
        "textDocument/foldingRange" => {
            let asked: FoldingRangeParams = read(params)?;
            written(&folding::of(workspace, open(&asked.text_document.uri)?))
        }
        "textDocument/selectionRange" => {
            let asked: SelectionRangeParams = read(params)?;
            written(&folding::selections(workspace, open(&asked.text_document.uri)?, &asked.positions))
        }
        "textDocument/formatting" => {
            let asked: DocumentFormattingParams = read(params)?;
            written(&formatting::of(workspace, open(&asked.text_document.uri)?, None))
        }
        "textDocument/rangeFormatting" => {
            let asked: DocumentRangeFormattingParams = read(params)?;
            written(&formatting::of(workspace, open(&asked.text_document.uri)?, Some(asked.range)))
        }
        "workspace/textDocumentContent" => {
            let asked: TextDocumentContentParams = read(params)?;
            let unknown =
                || (ErrorCode::InvalidParams, format!("`{}` is no set that comes with the tool", asked.uri.0));
            let source = uris::built_in(&asked.uri.0).ok_or_else(unknown)?;
            written(&TextDocumentContentResult { text: source.text.to_string() })
        }
        _ => Err((ErrorCode::MethodNotFound, format!("`{method}` is not answered"))),
    }
}
