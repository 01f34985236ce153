//! The path of the fuzz target for the language server: a script of messages, a line each, through the server. Whatever
//! stands in it, there is no panic, every question has one answer, and what is told lies in the text.
//!
//! The first sign of a line says what it is; `\n` in it stands for the end of a line. `o` opens a design with the rest
//! of the line, `r` a ruleset, `s` a shop's file; `d`, `p` and `t` type the rest at a place of these, `D`, `P`, `T` put
//! it in place of all; a digit asks something of a place of one of them; `x` closes one, `z` gives up the last question.
//! Any other line is a message of the protocol as it stands, if it is one.

use lsp_server::{Message, Notification, Request, RequestId};
use pitchboard::server::Server;
use pitchboard::session::{Memory, Session};
use serde_json::{Value, json};

/// The texts that can be open, by the signs that open and change them.
const TEXTS: [(&str, [char; 3]); 3] = [
    ("file:///marsh/a.stair", ['o', 'd', 'D']),
    ("file:///marsh/house.rules", ['r', 'p', 'P']),
    ("file:///marsh/shop.pitchboard", ['s', 't', 'T']),
];

const METHODS: [&str; 20] = [
    "textDocument/hover",
    "textDocument/codeAction",
    "textDocument/diagnostic",
    "textDocument/documentSymbol",
    "textDocument/foldingRange",
    "textDocument/selectionRange",
    "textDocument/formatting",
    "textDocument/rangeFormatting",
    "textDocument/completion",
    "textDocument/definition",
    "textDocument/references",
    "textDocument/prepareRename",
    "textDocument/rename",
    "textDocument/documentLink",
    "textDocument/semanticTokens/full",
    "textDocument/inlayHint",
    "workspace/symbol",
    "workspace/diagnostic",
    "workspace/textDocumentContent",
    "shutdown",
];

/// Sends a script of messages through a server.
pub fn take(script: &str) {
    let files = Memory::new()
        .with("/marsh/beside.stair", "stair \"b\" { rules: \"house.rules\"; flight { risers: 3 of 7\" } }")
        .with("/marsh/base.rules", "ruleset \"Base\" { }\nrule \"low\" { limit most: 7\"; each riser shall have height <= most; source: \"x\" }");
    let mut server = Server::new(Session::new(files));
    let capabilities = json!({
        "textDocument": { "completion": { "completionItem": { "snippetSupport": true } } },
        "workspace": { "textDocumentContent": {}, "workspaceEdit": { "documentChanges": true } },
    });
    let folders = json!([{ "uri": "file:///marsh", "name": "marsh" }]);
    let params =
        json!({ "processId": null, "rootUri": null, "capabilities": capabilities, "workspaceFolders": folders });
    let (mut asked, mut answered) = (Vec::new(), Vec::new());
    let ask = |server: &mut Server, asked: &mut Vec<RequestId>, method: &str, params: Value| {
        let id = RequestId::from(1_000_000 + i32::try_from(asked.len()).unwrap_or(0));
        asked.push(id.clone());
        server.take(Message::Request(Request { id, method: method.to_owned(), params }));
    };
    ask(&mut server, &mut asked, "initialize", params);
    for (version, line) in (2_i32..).zip(script.lines()) {
        let Some(sign) = line.chars().next() else { continue };
        let rest = line.get(sign.len_utf8()..).unwrap_or_default();
        let seed = rest.bytes().fold(u32::from(sign), |sum, byte| sum.wrapping_mul(31).wrapping_add(u32::from(byte)));
        let place = |by: u32| json!({ "line": (seed / by) % 7, "character": (seed / by / 7) % 60 });
        let range = json!({ "start": place(1), "end": place(11) });
        let typed = rest.replace("\\n", "\n");
        let of = TEXTS.iter().find_map(|(uri, signs)| Some((*uri, signs.iter().position(|known| *known == sign)?)));
        match (of, sign) {
            (Some((uri, 0)), _) => {
                let item = json!({ "uri": uri, "languageId": "stair", "version": version, "text": typed });
                note(&mut server, "textDocument/didOpen", json!({ "textDocument": item }));
            }
            (Some((uri, how)), _) => {
                let change = if how == 1 { json!({ "range": range, "text": typed }) } else { json!({ "text": typed }) };
                let document = json!({ "uri": uri, "version": version });
                let params = json!({ "textDocument": document, "contentChanges": [change] });
                note(&mut server, "textDocument/didChange", params);
            }
            (None, '0'..='9') => {
                let (uri, _) = TEXTS[seed as usize % TEXTS.len()];
                let method = METHODS[seed as usize / 3 % METHODS.len()];
                let params = json!({
                    "textDocument": { "uri": uri }, "position": place(3), "range": range, "positions": [place(5)],
                    "newName": typed, "query": typed, "uri": typed, "previousResultIds": [],
                    "context": { "diagnostics": [], "includeDeclaration": true, "triggerKind": 1 },
                    "options": { "tabSize": 4, "insertSpaces": true },
                });
                ask(&mut server, &mut asked, method, params);
            }
            (None, 'x') => {
                let (uri, _) = TEXTS[seed as usize % TEXTS.len()];
                note(&mut server, "textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
            }
            (None, 'z') => {
                let last = asked.last().and_then(|id| id.to_string().parse::<i32>().ok());
                note(&mut server, "$/cancelRequest", json!({ "id": last }));
            }
            (None, _) => match serde_json::from_str::<Message>(line) {
                // Its numbers are its own: those of the script are told apart by being high.
                Ok(Message::Request(request)) if asked.contains(&request.id) => {}
                Ok(message) => {
                    if let Message::Request(request) = &message {
                        asked.push(request.id.clone());
                    }
                    server.take(message);
                }
                Err(_) => {}
            },
        }
        // Not after every line: messages that are queued are worked off together.
        if seed % 3 != 0 {
            work(&mut server, &mut answered, seed % 2 == 0);
        }
    }
    work(&mut server, &mut answered, false);
    let wanted = |id: &RequestId| asked.iter().filter(|asked| *asked == id).count();
    assert!(answered.iter().all(|id| wanted(id) > 0), "an answer that nobody asked for");
    if server.ended().is_none() {
        assert_eq!(answered.len(), asked.len(), "{answered:?} of {asked:?}");
    }
}

fn note(server: &mut Server, method: &str, params: Value) {
    server.take(Message::Notification(Notification { method: method.to_owned(), params }));
}

/// Works all off; where checks give way they do so once.
fn work(server: &mut Server, answered: &mut Vec<RequestId>, gives_way: bool) {
    let polls = std::cell::Cell::new(0);
    let newer = || {
        polls.set(polls.get() + 1);
        gives_way && polls.get() == 3
    };
    while server.ended().is_none() && server.work(&newer) {}
    for message in server.sends() {
        match message {
            Message::Response(response) => answered.push(response.id),
            Message::Notification(note) => {
                // Every diagnostic has its place, its end not before its start.
                for found in note.params["diagnostics"].as_array().into_iter().flatten() {
                    let at = |end: &str| {
                        let place = &found["range"][end];
                        (place["line"].as_u64().expect("a line"), place["character"].as_u64().expect("a column"))
                    };
                    assert!(at("start") <= at("end"), "{found}");
                }
            }
            Message::Request(_) => {}
        }
    }
}
