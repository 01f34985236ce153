//! A recorded hour of writing: three whole designs typed key by key into the language server, with the slips of the
//! hand on the way, some noticed at once and some only lines later. After every key the server's findings are those of
//! a fresh check of the same text; a tenth of the keys is compared, or with `FULL=1` every one.
//!
//! A recording in `tests/typing/` is the text as it was typed: `⌫` takes back the sign before the caret, `⟪words⟫` puts
//! the caret behind the last place of these words, and `⟪⟫` behind the text.

use std::fs;

use pitchboard::base::Source;
use pitchboard::session::Session;
use pitchboard::wording;
use serde_json::{Value, json};

use crate::editor::{Editor, able, at_byte, uri};
use crate::switches::full;
use crate::yard::Yard;

/// One key: what it changes of a text, from the byte `start` up to `end`.
struct Key {
    start: usize,
    end: usize,
    typed: String,
}

/// The keys of a recording, each after those before it.
fn keys(recording: &str) -> Vec<Key> {
    let (mut text, mut caret, mut found) = (String::new(), 0, Vec::new());
    let mut rest = recording.chars();
    while let Some(sign) = rest.next() {
        let key = match sign {
            '⟪' => {
                let words: String = rest.by_ref().take_while(|sign| *sign != '⟫').collect();
                caret = match words.as_str() {
                    "" => text.len(),
                    words => text.rfind(words).unwrap_or_else(|| panic!("no `{words}` yet in {text}")) + words.len(),
                };
                continue;
            }
            '⌫' => {
                let before = text[..caret].chars().next_back().expect("something to take back");
                Key { start: caret - before.len_utf8(), end: caret, typed: String::new() }
            }
            typed => Key { start: caret, end: caret, typed: typed.to_string() },
        };
        text.replace_range(key.start..key.end, &key.typed);
        caret = key.start + key.typed.len();
        found.push(key);
    }
    found
}

/// The findings by their names and words, and how many things wait for something.
fn fresh(session: &Session, source: &Source) -> (Vec<(String, String)>, bool) {
    let report = session.check(source, None).report;
    let words = |finding| {
        let message = wording::message(finding);
        (message.name, message.message)
    };
    (report.findings.iter().map(words).collect(), !report.not_checked.is_empty())
}

fn published(found: &[Value]) -> (Vec<(String, String)>, bool) {
    let (waits, found): (Vec<&Value>, Vec<&Value>) = found.iter().partition(|one| one["code"] == "not checked");
    let words = |one: &&Value| {
        let message = one["message"].as_str().unwrap();
        (one["code"].as_str().unwrap().to_owned(), message.lines().next().unwrap_or_default().to_owned())
    };
    (found.iter().map(words).collect(), !waits.is_empty())
}

#[test]
fn three_designs_typed_with_slips_are_checked_after_every_key() {
    let stride = if full() { 1 } else { 10 };
    let mut recordings: Vec<_> = fs::read_dir("tests/typing").unwrap().map(|entry| entry.unwrap().path()).collect();
    recordings.sort();
    assert_eq!(recordings.len(), 3, "{recordings:?}");
    let session = Session::default();
    for recording in recordings {
        let yard = Yard::new();
        let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
        let name = recording.file_stem().unwrap().to_string_lossy().into_owned();
        let uri = uri(&yard, "typed.stair");
        editor.open(&uri, "");
        editor.found(&uri, 1);
        let keys = keys(&fs::read_to_string(&recording).unwrap());
        let (mut text, mut faults, mut version) = (String::new(), 0, 1);
        for (at, key) in keys.iter().enumerate() {
            let range = json!({ "start": at_byte(&text, key.start), "end": at_byte(&text, key.end) });
            text.replace_range(key.start..key.end, &key.typed);
            version += 1;
            editor.change(&uri, version, json!([{ "range": range, "text": key.typed }]));
            // Keys between are queued, and answered by the next that is looked at.
            if at % stride != 0 && at + 1 != keys.len() {
                continue;
            }
            let told = published(&editor.found(&uri, version));
            editor.early.clear();
            let source = Source::new(yard.at("typed.stair").to_string_lossy(), &text);
            assert_eq!(told, fresh(&session, &source), "{name}, after {at} keys:\n{text}");
            faults += usize::from(!told.0.is_empty());
        }
        assert!(faults > 20, "{name}: only {faults} texts with findings");
        assert_eq!(editor.end(), 0);
        // What was typed is the design that the shop has, but for the marks of the case.
        let design = fs::read_to_string(format!("examples/{name}.stair")).unwrap();
        let unmarked: String =
            design.lines().map(|line| format!("{}\n", line.split("#=").next().unwrap().trim_end())).collect();
        assert_eq!(text, unmarked, "{name}");
    }
}
