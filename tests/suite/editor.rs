//! An editor, as little of one as the tests of the language server need, over the server's pipes.

use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

use serde_json::{Value, json};

use crate::yard::Yard;

/// Longer than any answer takes, on any machine: an answer that never comes fails the test, and does not hang it.
pub const PATIENCE: Duration = Duration::from_secs(60);

/// An editor, as little of one as the tests need.
pub struct Editor {
    pub child: Child,
    pub pipe: Option<ChildStdin>,
    messages: Receiver<Value>,
    /// What came before what was waited for.
    pub early: VecDeque<Value>,
    asked: i32,
}

impl Editor {
    pub fn start(yard: &Yard) -> Self {
        let mut command = yard.tool(&["lsp"]);
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let out = child.stdout.take().unwrap();
        let (sender, messages) = channel();
        thread::spawn(move || {
            let mut out = BufReader::new(out);
            while let Some(message) = read(&mut out) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        let pipe = child.stdin.take();
        Self { child, pipe, messages, early: VecDeque::new(), asked: 0 }
    }

    /// One that has met the server, with these capabilities.
    pub fn met(yard: &Yard, capabilities: Value) -> (Self, Value) {
        let mut editor = Self::start(yard);
        let told =
            editor.ask("initialize", json!({ "processId": null, "rootUri": null, "capabilities": capabilities }));
        editor.tell("initialized", json!({}));
        (editor, told["result"]["capabilities"].clone())
    }

    /// The same with a folder open.
    pub fn met_in(yard: &Yard, capabilities: Value) -> (Self, Value) {
        let mut editor = Self::start(yard);
        let folders = json!([{ "uri": uri(yard, ""), "name": "yard" }]);
        let params = json!({
            "processId": null, "rootUri": null, "capabilities": capabilities, "workspaceFolders": folders,
        });
        let told = editor.ask("initialize", params);
        editor.tell("initialized", json!({}));
        (editor, told["result"]["capabilities"].clone())
    }

    /// Asks something of a place.
    pub fn at(&mut self, method: &str, uri: &str, place: Value) -> Value {
        let told = self.ask(method, json!({ "textDocument": { "uri": uri }, "position": place }));
        assert!(told.get("error").is_none(), "{told}");
        told["result"].clone()
    }

    /// Raw bytes; false where the server reads no more.
    pub fn put(&mut self, bytes: &[u8]) -> bool {
        let pipe = self.pipe.as_mut().expect("open");
        pipe.write_all(bytes).and_then(|()| pipe.flush()).is_ok()
    }

    pub fn tell(&mut self, method: &str, params: Value) {
        let message = json!({ "jsonrpc": "2.0", "method": method, "params": params });
        assert!(self.put(&framed(&message)), "{method} was not read");
    }

    /// Asks, and does not wait.
    pub fn request(&mut self, method: &str, params: Value) -> i32 {
        self.asked += 1;
        let message = json!({ "jsonrpc": "2.0", "id": self.asked, "method": method, "params": params });
        assert!(self.put(&framed(&message)), "{method} was not read");
        self.asked
    }

    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        let id = self.request(method, params);
        self.answer(id)
    }

    pub fn answer(&mut self, id: i32) -> Value {
        self.wait(|message| message["id"] == id && message.get("method").is_none())
    }

    /// The next message that is wanted; others are kept.
    pub fn wait(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.early.iter().position(&wanted) {
            return self.early.remove(at).unwrap();
        }
        loop {
            let message = self.messages.recv_timeout(PATIENCE).expect("an answer in time");
            if wanted(&message) {
                return message;
            }
            self.early.push_back(message);
        }
    }

    pub fn open(&mut self, uri: &str, text: &str) {
        let item = json!({ "uri": uri, "languageId": "stair", "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": item }));
    }

    pub fn change(&mut self, uri: &str, version: i32, changes: Value) {
        let document = json!({ "uri": uri, "version": version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
    }

    /// What is published of a document at a version.
    pub fn found(&mut self, uri: &str, version: i32) -> Vec<Value> {
        let told = self.wait(|message| {
            message["method"] == "textDocument/publishDiagnostics"
                && message["params"]["uri"] == uri
                && message["params"]["version"] == version
        });
        told["params"]["diagnostics"].as_array().unwrap().clone()
    }

    /// Ends it in order; the exit code.
    pub fn end(mut self) -> i32 {
        self.ask("shutdown", Value::Null);
        self.tell("exit", Value::Null);
        self.over()
    }

    /// Waits for its end.
    pub fn over(&mut self) -> i32 {
        let (sender, ended) = channel();
        thread::scope(|scope| {
            let child = &mut self.child;
            scope.spawn(move || sender.send(child.wait().unwrap().code()));
            ended.recv_timeout(PATIENCE).expect("it ends").expect("no signal")
        })
    }
}

impl Drop for Editor {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

pub fn framed(message: &Value) -> Vec<u8> {
    let text = message.to_string();
    format!("Content-Length: {}\r\n\r\n{text}", text.len()).into_bytes()
}

fn read(out: &mut impl BufRead) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if out.read_line(&mut line).ok()? == 0 {
            return None;
        }
        match line.trim_end() {
            "" => break,
            head => length = head.strip_prefix("Content-Length: ")?.parse().ok()?,
        }
    }
    let mut body = vec![0; length];
    out.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}

/// The URI of a file of a yard; its name has a blank in it.
pub fn uri(yard: &Yard, name: &str) -> String {
    format!("file://{}", yard.at(name).display()).replace(' ', "%20")
}

/// A text with the edits of one document's change made, counted in UTF-16.
pub fn edited(text: &str, edits: &[Value]) -> String {
    let byte = |place: &Value| {
        let (line, column) = (place["line"].as_u64().unwrap() as usize, place["character"].as_u64().unwrap() as usize);
        let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
        let (mut at, mut units) = (start, 0);
        for c in text[start..].chars() {
            if units >= column {
                break;
            }
            units += c.len_utf16();
            at += c.len_utf8();
        }
        at
    };
    let mut edits: Vec<(usize, usize, &str)> = edits
        .iter()
        .map(|edit| (byte(&edit["range"]["start"]), byte(&edit["range"]["end"]), edit["newText"].as_str().unwrap()))
        .collect();
    edits.sort_unstable();
    let mut new = text.to_owned();
    for (start, end, words) in edits.into_iter().rev() {
        new.replace_range(start..end, words);
    }
    new
}

/// Related places, edits for a version, columns in bytes.
pub fn able(encodings: Value) -> Value {
    json!({
        "general": { "positionEncodings": encodings },
        "textDocument": { "publishDiagnostics": { "relatedInformation": true } },
        "workspace": { "workspaceEdit": { "documentChanges": true } },
    })
}

/// The place of words in a text, counted in bytes of their line; the nth of them, from 0.
pub fn place(text: &str, words: &str, nth: usize) -> Value {
    let byte = text.match_indices(words).nth(nth).unwrap_or_else(|| panic!("no `{words}` in {text}")).0;
    at_byte(text, byte)
}

/// A place of a text, counted in bytes of its line.
pub fn at_byte(text: &str, byte: usize) -> Value {
    let before = &text[..byte];
    json!({ "line": before.matches('\n').count(), "character": byte - before.rfind('\n').map_or(0, |end| end + 1) })
}
