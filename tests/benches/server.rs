//! How long an editor waits for the language server. Bars: from a key in a design of some kilobytes to its diagnostics,
//! and an answer to hover or completion, 5 ms at the median; 1,000 designs open and a set changed, all told of within a
//! second. Run with `cargo bench --bench server`. The messages are handed over in memory: the pipe is not measured.

#![allow(clippy::unwrap_used, missing_docs)]

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use lsp_server::{Message, Notification, Request};
use pitchboard::cli::Disk;
use pitchboard::server::Server;
use pitchboard::session::{Memory, Session};
use serde_json::{Value, json};

const CABIN: &str = include_str!("../../examples/sedge-cabin-north-door.stair");
const URI: &str = "file:///marsh/cabin.stair";
/// Designs that are open at once.
const OPEN: usize = 1_000;

fn main() {
    divan::main();
}

/// A server that has met its client.
struct Served(Server, i32);

impl Served {
    fn new(session: Session) -> Self {
        let mut served = Self(Server::new(session), 0);
        served.ask("initialize", json!({ "processId": null, "rootUri": null, "capabilities": {} }));
        served
    }

    fn tell(&mut self, method: &str, params: Value) -> Vec<Message> {
        self.0.take(Message::Notification(Notification { method: method.to_owned(), params }));
        self.worked()
    }

    fn ask(&mut self, method: &str, params: Value) -> Vec<Message> {
        self.1 += 1;
        self.0.take(Message::Request(Request { id: self.1.into(), method: method.to_owned(), params }));
        self.worked()
    }

    fn worked(&mut self) -> Vec<Message> {
        while self.0.work(&|| false) {}
        self.0.sends()
    }

    fn open(&mut self, uri: &str, text: &str) {
        let item = json!({ "uri": uri, "languageId": "stair", "version": 0, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": item }));
    }

    fn change(&mut self, uri: &str, version: i32, change: Value) -> Vec<Message> {
        let document = json!({ "uri": uri, "version": version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": [change] }))
    }
}

/// The place of words in a text without wide signs before them on their line.
fn place(text: &str, words: &str) -> Value {
    let byte = text.find(words).unwrap();
    let before = &text[..byte];
    json!({ "line": before.matches('\n').count(), "character": byte - before.rfind('\n').map_or(0, |end| end + 1) })
}

/// A key that takes a figure past its limit, and the next that takes it back: with the first what would pass is sought.
#[divan::bench]
fn key_to_diagnostics(bencher: Bencher<'_, '_>) {
    let mut served = Served::new(Session::new(Disk));
    served.open(URI, CABIN);
    let start = place(CABIN, "7\"");
    let end = json!({ "line": start["line"], "character": start["character"].as_u64().unwrap() + 1 });
    let mut version = 0;
    bencher.bench_local(|| {
        version += 1;
        let typed = if version % 2 == 1 { "8" } else { "7" };
        let told = served.change(URI, version, json!({ "range": { "start": start, "end": end }, "text": typed }));
        assert_eq!(told.len(), 1);
        black_box(told)
    });
}

/// What is told, offered and shown of a design that is checked.
#[divan::bench(args = ["textDocument/hover", "textDocument/completion", "textDocument/inlayHint", "textDocument/semanticTokens/full"])]
fn answer(bencher: Bencher<'_, '_>, method: &str) {
    let mut served = Served::new(Session::new(Disk));
    served.open(URI, CABIN);
    let at = place(CABIN, "risers");
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 999, "character": 0 } });
    let params = json!({ "textDocument": { "uri": URI }, "position": at, "range": all });
    bencher.bench_local(|| served.ask(method, params.clone()));
}

/// The same of a limit of the largest shipped set, with a design open that is held to it.
#[divan::bench(args = ["textDocument/hover", "textDocument/completion", "textDocument/inlayHint"])]
fn answer_in_a_set(bencher: Bencher<'_, '_>, method: &str) {
    let mut served = Served::new(Session::new(Disk));
    served.open(URI, CABIN);
    let set = pitchboard::check::shipped("residential").unwrap();
    let uri = "file:///marsh/own.rules";
    served.open(uri, &set.text);
    let at = place(&set.text, "tallest");
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9999, "character": 0 } });
    let params = json!({ "textDocument": { "uri": uri }, "position": at, "range": all });
    bencher.bench_local(|| served.ask(method, params.clone()));
}

fn house(limit: u32) -> String {
    format!(
        "ruleset \"House rules\" {{ amends: residential }}\namend \"riser height\" {{ limit tallest: 7-{limit}/32\" }}\n"
    )
}

/// A thousand designs open that rest on one set.
fn thousand() -> Served {
    let files = Memory::new().with("/marsh/house.rules", house(1));
    let mut served = Served::new(Session::new(files));
    for at in 0..OPEN {
        let text = CABIN.replace("residential", "\"house.rules\"").replace("Sedge cabin", &format!("Cabin {at}"));
        served.open(&format!("file:///marsh/cabin-{at:04}.stair"), &text);
    }
    served.open("file:///marsh/house.rules", &house(1));
    served
}

/// The set is changed, until every design is told of.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn set_of_1000_designs_changed(bencher: Bencher<'_, '_>) {
    let mut served = thousand();
    let mut version = 0;
    bencher.counter(ItemsCount::new(OPEN)).bench_local(|| {
        version += 1;
        let told =
            served.change("file:///marsh/house.rules", version, json!({ "text": house(1 + version as u32 % 20) }));
        assert!(told.len() > OPEN, "{}", told.len());
        told
    });
}

/// A key in one of them.
#[divan::bench]
fn key_among_1000_designs(bencher: Bencher<'_, '_>) {
    let mut served = thousand();
    let start = json!({ "line": 0, "character": 0 });
    let mut version = 0;
    bencher.bench_local(|| {
        version += 1;
        let end = json!({ "line": 0, "character": version % 2 });
        let typed = if version % 2 == 1 { "" } else { "#" };
        let change = json!({ "range": { "start": start, "end": end }, "text": typed });
        served.change("file:///marsh/cabin-0500.stair", version, change)
    });
}
