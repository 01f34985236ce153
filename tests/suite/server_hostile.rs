//! What a client may do to the language server: bytes that are no messages, messages in any order, texts that are far
//! too large, pipes that close, questions that it never answers. It says what is wrong, goes on, or ends; it never
//! hangs.

use std::process::Stdio;
use std::time::Duration;

use serde_json::{Value, json};

use crate::chance::Chance;
use crate::editor::{Editor, PATIENCE, able, framed, uri};
use crate::switches::full;
use crate::yard::Yard;

/// Bodies that are no messages, messages that say nothing, and sound ones, in any order: after each the server answers a
/// plain question. A tenth of the rounds, or with `FULL=1` all.
#[test]
fn bytes_and_messages_in_any_order_leave_it_answering() {
    let yard = Yard::new();
    let (mut editor, _) = Editor::met_in(&yard, able(json!(["utf-16"])));
    let file = uri(&yard, "hide.stair");
    let mut chance = Chance(0x00ff_1ce0_fda7_a5e5);
    let methods = [
        "initialize",
        "initialized",
        "textDocument/didOpen",
        "textDocument/didChange",
        "textDocument/didClose",
        "textDocument/hover",
        "textDocument/completion",
        "textDocument/codeAction",
        "textDocument/references",
        "workspace/diagnostic",
        "workspace/didChangeWatchedFiles",
        "workspace/didChangeWorkspaceFolders",
        "$/cancelRequest",
        "$/setTrace",
        "no/such",
    ];
    for round in 0..if full() { 2_000 } else { 200 } {
        let method = methods[chance.below(methods.len() as u64) as usize];
        let body = match chance.below(5) {
            // Any bytes.
            0 => (0..chance.below(80)).map(|_| chance.below(256) as u8).collect(),
            // Any value where the parameters belong.
            1 => json!({ "jsonrpc": "2.0", "method": method, "params": any(&mut chance, 3) }).to_string().into_bytes(),
            2 => {
                let id = json!(format!("odd-{round}"));
                json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": any(&mut chance, 3) })
                    .to_string()
                    .into_bytes()
            }
            // An answer that nobody asked for.
            3 => json!({ "jsonrpc": "2.0", "id": any(&mut chance, 0), "result": any(&mut chance, 2) })
                .to_string()
                .into_bytes(),
            _ => {
                let text =
                    if chance.below(2) == 0 { "stair \"a\" { flight { risers: 3 of 8\" } }" } else { "⅞ {{{ \"" };
                let item = json!({ "uri": file, "languageId": "stair", "version": round, "text": text });
                let params = json!({ "textDocument": item });
                json!({ "jsonrpc": "2.0", "method": "textDocument/didOpen", "params": params }).to_string().into_bytes()
            }
        };
        let mut bytes = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
        bytes.extend(body);
        assert!(editor.put(&bytes), "round {round}");
        let told = editor.ask("workspace/symbol", json!({ "query": "" }));
        assert!(told["result"].is_array(), "round {round}: {told}");
        editor.early.clear();
    }
    assert_eq!(editor.end(), 0);
}

/// Any value of JSON, so many levels deep at most.
fn any(chance: &mut Chance, depth: u64) -> Value {
    let names =
        ["textDocument", "uri", "version", "text", "position", "line", "character", "event", "id", "changes", "range"];
    match chance.below(if depth == 0 { 5 } else { 8 }) {
        0 => Value::Null,
        1 => json!(chance.below(9)),
        2 => json!(-1.5e300),
        3 => json!("file:///%00%zz"),
        4 => json!("\u{202e}⅞🦆"),
        5 => (0..chance.below(4)).map(|_| any(chance, depth - 1)).collect(),
        _ => {
            let mut held = serde_json::Map::new();
            for _ in 0..chance.below(5) {
                let name = names[chance.below(names.len() as u64) as usize];
                held.insert(name.to_owned(), any(chance, depth - 1));
            }
            Value::Object(held)
        }
    }
}

/// A text of 50 MB has one message, be it a design, a set, or all on one line; another document is answered beside it.
#[test]
fn huge_texts_have_one_message_and_others_are_answered() {
    let yard = Yard::new();
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-16"])));
    let small = uri(&yard, "small.stair");
    let text = "stair \"a\" { rules: residential; flight { risers: 3 of 8\"; runs: 2 of 11\" } }";
    editor.open(&small, text);
    editor.found(&small, 1);
    let line = format!("stair {{ note: {} }}", "reed ".repeat(10_000_000));
    for (name, huge) in [("huge.rules", "# reed\n".repeat(50_000_000 / 7)), ("line.stair", line)] {
        let file = uri(&yard, name);
        editor.open(&file, &huge);
        let found = editor.found(&file, 1);
        assert_eq!(found.len(), 1, "{name}: {found:?}");
        assert_eq!(found[0]["code"], "too large", "{name}");
        // Typing in it costs no more than the text itself, and every question has an answer.
        let at = json!({ "line": 0, "character": 1 });
        for version in 2..5 {
            editor.change(&file, version, json!([{ "range": { "start": at, "end": at }, "text": "x" }]));
        }
        assert_eq!(editor.found(&file, 4).len(), 1);
        let params = json!({
            "textDocument": { "uri": file }, "position": at, "range": { "start": at, "end": at },
            "context": { "diagnostics": [], "includeDeclaration": true, "triggerKind": 1 }, "positions": [at],
            "options": { "tabSize": 4, "insertSpaces": true },
        });
        for method in [
            "textDocument/hover",
            "textDocument/completion",
            "textDocument/codeAction",
            "textDocument/inlayHint",
            "textDocument/semanticTokens/full",
            "textDocument/documentSymbol",
            "textDocument/foldingRange",
            "textDocument/formatting",
            "textDocument/definition",
            "textDocument/references",
        ] {
            assert!(editor.ask(method, params.clone()).get("result").is_some(), "{name}: {method}");
        }
        let hover =
            editor.at("textDocument/hover", &small, json!({ "line": 0, "character": text.find("risers").unwrap() }));
        assert!(hover["contents"]["value"].as_str().unwrap().contains("riser height"));
        editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": file } }));
    }
    assert_eq!(editor.end(), 0);
}

/// The server asks to be told of files, and to be asked again; a client that never answers is served all the same.
#[test]
fn a_client_that_answers_nothing_is_served() {
    let yard = Yard::new();
    let capabilities = json!({
        "textDocument": { "diagnostic": {} },
        "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true }, "diagnostics": { "refreshSupport": true } },
    });
    let (mut editor, _) = Editor::met(&yard, capabilities);
    editor.wait(|message| message["method"] == "client/registerCapability");
    let file = uri(&yard, "hide.stair");
    editor.open(&file, "");
    let mut asked = 0;
    for version in 2..100 {
        editor.change(
            &file,
            version,
            json!([{ "text": "stair \"a\" { rules: residential; flight { risers: 3 of 8\" } }" }]),
        );
        let told = editor.ask("textDocument/diagnostic", json!({ "textDocument": { "uri": file } }));
        assert!(told["result"]["items"].is_array());
        asked += editor.early.drain(..).filter(|message| message["method"] == "workspace/diagnostic/refresh").count();
    }
    assert!(asked > 0, "it has asked, and was not answered");
    assert_eq!(editor.end(), 0);
}

/// A client that reads no more, and then writes no more: either ends the server, in the middle of whatever it does.
#[test]
fn pipes_that_close_end_it() {
    for both in [true, false] {
        let yard = Yard::new();
        for at in 0..50 {
            yard.put(&format!("hide-{at}.stair"), "stair \"a\" { rules: residential; flight { risers: 3 of 9\" } }");
        }
        let mut child = yard.tool(&["lsp"]).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let mut pipe = child.stdin.take().unwrap();
        let folders = json!([{ "uri": uri(&yard, ""), "name": "yard" }]);
        let params = json!({ "processId": null, "rootUri": null, "capabilities": {}, "workspaceFolders": folders });
        drop(child.stdout.take());
        let mut send = |message: Value| {
            use std::io::Write;
            let _ = pipe.write_all(&framed(&message));
        };
        send(json!({ "jsonrpc": "2.0", "id": 0, "method": "initialize", "params": params }));
        for id in 1..20 {
            let params = json!({ "previousResultIds": [] });
            send(json!({ "jsonrpc": "2.0", "id": id, "method": "workspace/diagnostic", "params": params }));
        }
        // Held open, the pipe alone keeps nothing alive once an answer finds nobody.
        let held = (!both).then_some(pipe);
        let start = std::time::Instant::now();
        let code = loop {
            if let Some(code) = child.try_wait().unwrap() {
                break code;
            }
            if start.elapsed() > PATIENCE {
                let _ = child.kill();
                panic!("it lives on");
            }
            std::thread::sleep(Duration::from_millis(20));
        };
        assert_eq!(code.code(), Some(1));
        drop(held);
    }
}
