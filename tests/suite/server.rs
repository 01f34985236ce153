//! The language server, driven over its pipes as an editor drives it.

use std::io::Write;
use std::process::Stdio;
use std::thread;
use std::time::Duration;

use pitchboard::session::Session;
use serde_json::{Value, json};

use crate::chance::Chance;
use crate::editor::{Editor, PATIENCE, able, edited, framed, uri};
use crate::switches::full;
use crate::yard::Yard;

const HIDE: &str = "stair \"reed hide ⅞ 🦆\" { rules: residential; flight { risers: 3 of 8\"; runs: 2 of 11\" } }\n";

#[test]
fn a_finding_stands_under_its_words_in_both_ways_to_count() {
    let yard = Yard::new();
    let uri = uri(&yard, "reed hide.stair");
    for (encodings, agreed, column) in [
        (json!(["utf-8", "utf-16"]), "utf-8", HIDE.find("3 of 8").unwrap()),
        (json!(["utf-16"]), "utf-16", HIDE[..HIDE.find("3 of 8").unwrap()].encode_utf16().count()),
        (Value::Null, "utf-16", HIDE[..HIDE.find("3 of 8").unwrap()].encode_utf16().count()),
    ] {
        let (mut editor, can) = Editor::met(&yard, able(encodings));
        assert_eq!(can["positionEncoding"], agreed);
        editor.open(&uri, HIDE);
        let found = editor.found(&uri, 1);
        let tall = found.iter().find(|one| one["code"] == "riser height").expect("8 in is too tall");
        let wide = "3 of 8\"".len();
        let range = json!({
            "start": { "line": 0, "character": column }, "end": { "line": 0, "character": column + wide }
        });
        assert_eq!(tall["range"], range, "{agreed}");
        assert_eq!(tall["severity"], 1);
        assert_eq!(editor.end(), 0);
    }
}

#[test]
fn a_mend_is_taken_and_the_finding_is_gone() {
    let yard = Yard::new();
    let uri = uri(&yard, "reed hide.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-16"])));
    editor.open(&uri, HIDE);
    let found = editor.found(&uri, 1);
    let tall = found.iter().find(|one| one["code"] == "riser height").unwrap();
    let hover =
        editor.ask("textDocument/hover", json!({ "textDocument": { "uri": uri }, "position": tall["range"]["start"] }));
    let told = hover["result"]["contents"]["value"].as_str().unwrap();
    assert!(told.contains("**risers** of flight") && told.contains("riser height"), "{told}");
    let context = json!({ "diagnostics": [tall], "only": ["source.fixAll"] });
    let params = json!({ "textDocument": { "uri": uri }, "range": tall["range"], "context": context });
    let actions = editor.ask("textDocument/codeAction", params.clone());
    let [all] = actions["result"].as_array().unwrap().as_slice() else { panic!("{actions}") };
    let change = &all["edit"]["documentChanges"][0];
    assert_eq!(change["textDocument"]["version"], 1);
    let mended = edited(HIDE, change["edits"].as_array().unwrap());
    // One mend of the finding alone, too.
    let mut alone = params;
    alone["context"]["only"] = json!(["quickfix"]);
    let actions = editor.ask("textDocument/codeAction", alone);
    let quick = actions["result"].as_array().unwrap();
    assert!(quick.iter().any(|one| one["title"].as_str().unwrap().contains("riser height")), "{actions}");
    editor.change(&uri, 2, json!([{ "text": mended }]));
    let left = editor.found(&uri, 2);
    assert!(left.iter().all(|one| one["severity"] != 1), "{left:?}");
    assert_eq!(editor.end(), 0);
    // What is saved is what the command line calls sound.
    yard.put("reed hide.stair", mended);
    let (code, said) = yard.run(&["check", "reed hide.stair"]);
    assert_eq!(code, 0, "{said}");
}

#[test]
fn edits_that_are_queued_get_one_answer_at_the_last_version() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let (mut editor, _) = Editor::met(&yard, json!({}));
    editor.open(&uri, HIDE);
    editor.found(&uri, 1);
    let at = HIDE[..HIDE.find("8\"").unwrap()].encode_utf16().count();
    let mut bytes = Vec::new();
    for version in 2..=51 {
        let range = json!({ "start": { "line": 0, "character": at }, "end": { "line": 0, "character": at + 1 } });
        let changes = json!([{ "range": range, "text": if version % 2 == 0 { "7" } else { "8" } }]);
        let params = json!({ "textDocument": { "uri": uri, "version": version }, "contentChanges": changes });
        let message = json!({ "jsonrpc": "2.0", "method": "textDocument/didChange", "params": params });
        bytes.extend(framed(&message));
    }
    assert!(editor.put(&bytes));
    let found = editor.found(&uri, 51);
    assert!(found.iter().any(|one| one["code"] == "riser height"));
    let answers = editor.early.iter().filter(|early| early["method"] == "textDocument/publishDiagnostics").count();
    assert!(answers < 10, "{answers} answers to 50 edits that came at once");
    assert_eq!(editor.end(), 0);
}

const HOUSE: &str = "ruleset \"House rules\" { amends: residential }\n\
    amend \"riser height\" { limit tallest: 7-1/2\"; passes: flight { risers: 4 of 7-1/2\" } }\n\
    rule \"r\" { limit least: 9\"; each tread shall have run >= least; source: \"x\" }\n";

const SET: &str = "ruleset \"House rules\" { edition: \"2026\" }\n\
    rule \"easy riser\" { each riser shall have height <= LIMIT; source: \"common practice\" }\n";

#[test]
fn an_unsaved_set_makes_its_designs_stale_and_no_others() {
    let yard = Yard::new();
    yard.put("house.rules", SET.replace("LIMIT", "7-1/2\""));
    let asking =
        |set: &str| format!("stair \"a\" {{ rules: {set}; flight {{ risers: 4 of 7\"; runs: 3 of 11\" }} }}\n");
    let (own, other, set) = (uri(&yard, "own.stair"), uri(&yard, "other.stair"), uri(&yard, "house.rules"));
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&own, &asking("\"house.rules\""));
    editor.open(&other, &asking("workshop"));
    let broken = |found: &[Value]| found.iter().any(|one| one["code"] == "easy riser");
    assert!(!broken(&editor.found(&own, 1)));
    editor.found(&other, 1);
    editor.open(&set, &SET.replace("LIMIT", "6-1/2\""));
    let found = editor.found(&own, 1);
    assert!(broken(&found), "{found:?}");
    let clause = found.iter().find(|one| one["code"] == "easy riser").unwrap();
    assert_eq!(clause["relatedInformation"][0]["location"]["uri"], set);
    editor.found(&set, 1);
    editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": set } }));
    assert!(!broken(&editor.found(&own, 1)));
    // A set on the disk, too.
    yard.put("house.rules", SET.replace("LIMIT", "6\""));
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": set, "type": 2 }] }));
    assert!(broken(&editor.found(&own, 1)));
    // All that was sent is here once the end is answered.
    editor.ask("shutdown", Value::Null);
    let about = |early: &&Value| early["params"]["uri"] == other;
    assert_eq!(editor.early.iter().find(about), None, "the other design rests on none of it");
}

#[test]
fn a_set_and_a_shop_that_come_to_be_are_seen() {
    let yard = Yard::new();
    let uri_of = |name: &str| uri(&yard, name);
    let (hide, set) = (uri_of("hide.stair"), uri_of("late.rules"));
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&hide, "stair \"a\" { rules: \"late.rules\"; flight { risers: 4 of 7\"; runs: 3 of 11\" } }\n");
    let first = editor.found(&hide, 1);
    yard.put("late.rules", SET.replace("LIMIT", "6\""));
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": set, "type": 1 }] }));
    let found = editor.found(&hide, 1);
    assert_ne!(first, found);
    assert!(found.iter().any(|one| one["code"] == "easy riser"), "{found:?}");
    yard.put("shop.pitchboard", "shop \"Marsh joinery\" { rules: residential }\n");
    let shop = uri_of("shop.pitchboard");
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": shop, "type": 1 }] }));
    let more = editor.found(&hide, 1);
    assert_ne!(more, found);
    assert_eq!(editor.end(), 0);
}

#[test]
fn diagnostics_are_pulled_where_that_is_announced_and_then_never_pushed() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let (mut editor, can) = Editor::met(&yard, json!({ "textDocument": { "diagnostic": {} } }));
    assert!(can["diagnosticProvider"].is_object());
    editor.open(&uri, HIDE);
    let pulled = editor.ask("textDocument/diagnostic", json!({ "textDocument": { "uri": uri } }));
    assert_eq!(pulled["result"]["kind"], "full");
    assert!(pulled["result"]["items"].as_array().unwrap().iter().any(|one| one["code"] == "riser height"));
    editor.ask("shutdown", Value::Null);
    assert!(editor.early.iter().all(|early| early["method"] != "textDocument/publishDiagnostics"));
}

#[test]
fn a_request_that_is_given_up_in_time_is_answered_so() {
    use lsp_server::{Message, Notification, Request, Response};
    use pitchboard::server::Server;

    let mut server = Server::new(Session::default());
    let request =
        |id: i32, method: &str, params: Value| Message::Request(Request::new(id.into(), method.into(), params));
    server.take(request(1, "initialize", json!({ "processId": null, "rootUri": null, "capabilities": {} })));
    while server.work(&|| false) {}
    server.sends();
    let document = json!({ "textDocument": { "uri": "file:///a.stair" }, "position": { "line": 0, "character": 0 } });
    server.take(request(2, "textDocument/hover", document.clone()));
    server.take(request(3, "textDocument/hover", document));
    server.take(Message::Notification(Notification::new("$/cancelRequest".into(), json!({ "id": 3 }))));
    // One that is not there, or is answered already.
    server.take(Message::Notification(Notification::new("$/cancelRequest".into(), json!({ "id": 1 }))));
    server.take(request(1, "shutdown", Value::Null));
    while server.work(&|| false) {}
    let code = |message: Message| match message {
        Message::Response(Response { id, response_result }) => {
            (id.to_string(), response_result.err().map(|why| why.code))
        }
        other => panic!("{other:?}"),
    };
    let answers: Vec<_> = server.sends().into_iter().map(code).collect();
    assert_eq!(answers, [("2".into(), Some(-32602)), ("3".into(), Some(-32800)), ("1".into(), None)]);
}

#[test]
fn a_check_gives_way_to_a_newer_text_and_is_made_again() {
    use std::cell::Cell;

    use lsp_server::{Message, Notification, Request};
    use pitchboard::server::Server;

    let mut server = Server::new(Session::default());
    let note = |method: &str, params: Value| Message::Notification(Notification::new(method.into(), params));
    let params = json!({ "processId": null, "rootUri": null, "capabilities": {} });
    server.take(Message::Request(Request::new(1.into(), "initialize".into(), params)));
    let item = json!({ "uri": "file:///a.stair", "languageId": "stair", "version": 1, "text": HIDE });
    server.take(note("textDocument/didOpen", json!({ "textDocument": item })));
    assert!(server.work(&|| false) && server.work(&|| false));
    server.sends();
    // How often it asks in one check: more than once, so that it gives way in the middle too.
    let polls = Cell::new(0);
    for last in 0.. {
        polls.set(0);
        let newer = || {
            polls.set(polls.get() + 1);
            polls.get() == last + 1
        };
        assert!(server.work(&newer));
        if polls.get() <= last {
            assert!(last > 2, "only asked {last} times");
            break;
        }
        assert!(server.sends().is_empty(), "given up at its question {last}, and answered all the same");
    }
    let [Message::Notification(answer)] = &server.sends()[..] else { panic!("one answer") };
    assert!(answer.params["diagnostics"].as_array().unwrap().iter().any(|one| one["code"] == "riser height"));
    assert!(!server.work(&|| false), "nothing is left");
}

#[test]
fn a_built_in_set_opens_and_the_place_in_it_is_the_clause() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let mut can = able(json!(["utf-8"]));
    can["workspace"]["textDocumentContent"] = json!({});
    let (mut editor, _) = Editor::met(&yard, can);
    editor.open(&uri, HIDE);
    let found = editor.found(&uri, 1);
    let tall = found.iter().find(|one| one["code"] == "riser height").unwrap();
    let places = tall["relatedInformation"].as_array().unwrap();
    let clause = places.iter().find(|place| place["message"].as_str().unwrap().starts_with("the clause")).unwrap();
    let set = clause["location"]["uri"].as_str().unwrap();
    let content = editor.ask("workspace/textDocumentContent", json!({ "uri": set }));
    let text = content["result"]["text"].as_str().unwrap();
    let line = clause["location"]["range"]["start"]["line"].as_u64().unwrap() as usize;
    assert!(text.lines().nth(line).unwrap().contains("each riser"), "{clause}");
    // Opened, it is only read.
    editor.open(set, text);
    assert_eq!(editor.found(set, 1), Vec::<Value>::new());
    assert_eq!(editor.end(), 0);
}

#[test]
fn an_outline_folds_selections_and_a_layout_are_those_of_the_tree() {
    let yard = Yard::new();
    let text = "# one\n# two\nstair \"a\" {\n  rules: workshop\n  flight {\n      risers: 4 of 7\"\n  }\n}\n";
    let uri = uri(&yard, "a.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&uri, text);
    let document = json!({ "textDocument": { "uri": uri } });
    let outline = editor.ask("textDocument/documentSymbol", document.clone());
    assert_eq!(outline["result"][0]["name"], "a");
    assert_eq!(outline["result"][0]["children"][0]["name"], "flight");
    let folds = editor.ask("textDocument/foldingRange", document.clone());
    let lines: Vec<(u64, u64)> = folds["result"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fold| (fold["startLine"].as_u64().unwrap(), fold["endLine"].as_u64().unwrap()))
        .collect();
    assert_eq!(lines, [(2, 6), (4, 5), (0, 1)]);
    let mut asked = document.clone();
    asked["positions"] = json!([{ "line": 5, "character": 16 }]);
    let selected = editor.ask("textDocument/selectionRange", asked);
    let mut wider = &selected["result"][0];
    let mut starts = Vec::new();
    while wider.is_object() {
        starts.push((
            wider["range"]["start"]["line"].as_u64().unwrap(),
            wider["range"]["start"]["character"].as_u64().unwrap(),
        ));
        wider = &wider["parent"];
    }
    assert_eq!(starts, [(5, 16), (5, 14), (5, 6), (4, 2), (2, 0), (0, 0)], "{selected}");
    let mut asked = document;
    asked["options"] = json!({ "tabSize": 4, "insertSpaces": true });
    let edits = editor.ask("textDocument/formatting", asked);
    let tidy = edited(text, edits["result"].as_array().unwrap());
    yard.put("a.stair", text);
    yard.run(&["tidy", "a.stair"]);
    assert_eq!(tidy, yard.text("a.stair"));
    assert_ne!(tidy, text);
    assert_eq!(editor.end(), 0);
}

#[test]
fn workings_are_shown_where_the_words_stand_and_behind_them() {
    let yard = Yard::new();
    let text =
        "stair \"a\" {\n    rules: residential\n    flight { risers: 3 of 7\"; runs: 2 of 11\"; width: 36\" }\n}\n";
    let uri = uri(&yard, "a.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-16"])));
    editor.open(&uri, text);
    let line = text.lines().nth(2).unwrap();
    let mut hover = |words: &str| {
        let place = json!({ "line": 2, "character": line.find(words).unwrap() + 1 });
        let told = editor.ask("textDocument/hover", json!({ "textDocument": { "uri": uri }, "position": place }));
        told["result"]["contents"]["value"].as_str().unwrap().to_owned()
    };
    yard.put("a.stair", text);
    // The same as the command line works it out.
    let (code, working) = yard.run(&["working", "a.stair", "flight", "rise"]);
    assert_eq!(code, 0, "{working}");
    assert!(hover("3 of 7").contains(working.trim_end()), "{}", hover("3 of 7"));
    assert!(hover("flight").contains("rise of flight = 21\""), "{}", hover("flight"));
    // 7-3/4" is the most that a riser may be: IRC 2021, R311.7.5.1.
    assert!(hover("risers").contains("holds: `7\" <= 7-3/4\"`, margin `3/4\"`"), "{}", hover("risers"));
    let range = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9, "character": 0 } });
    let hints = editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": uri }, "range": range }));
    let hints: Vec<(u64, &str)> = hints["result"]
        .as_array()
        .unwrap()
        .iter()
        .map(|hint| (hint["position"]["character"].as_u64().unwrap(), hint["label"].as_str().unwrap()))
        .collect();
    let behind = |words: &str| (line.find(words).unwrap() + words.len()) as u64;
    let (margins, derived): (Vec<_>, Vec<_>) = hints.into_iter().partition(|(_, label)| label.contains(" within "));
    assert_eq!(derived, [(behind("3 of 7\""), "rise 21\""), (behind("2 of 11\""), "run 22\"")]);
    // 7-3/4" is the most that a riser may be, 10" the least of a tread: IRC 2021, R311.7.5.
    let places: Vec<u64> = margins.iter().map(|(at, _)| *at).collect();
    assert_eq!(places, [behind("3 of 7\""), behind("2 of 11\""), behind("36\"")], "{margins:?}");
    assert_eq!(margins[0].1, "3/4\" within riser height");
    assert!(margins[1].1.starts_with("1\" within "), "{margins:?}");
    assert_eq!(editor.end(), 0);
}

/// The labels of a completion at the end of a text whose rest follows.
fn completed(editor: &mut Editor, uri: &str, version: i32, before: &str, after: &str) -> Vec<Value> {
    editor.change(uri, version, json!([{ "text": format!("{before}{after}") }]));
    let line = before.matches('\n').count();
    let column = before.len() - before.rfind('\n').map_or(0, |end| end + 1);
    let place = json!({ "line": line, "character": column });
    let told = editor.ask("textDocument/completion", json!({ "textDocument": { "uri": uri }, "position": place }));
    told["result"].as_array().unwrap().clone()
}

#[test]
fn completions_are_those_of_the_tables() {
    use pitchboard::model::kinds;

    let yard = Yard::new();
    yard.put("shop.pitchboard", "shop \"Marsh joinery\" { }\ntimber \"bog oak\" { gravity: 0.73 }\n");
    let uri = uri(&yard, "hide.stair");
    let mut can = able(json!(["utf-8"]));
    can["textDocument"]["completion"] = json!({ "completionItem": { "snippetSupport": true } });
    let (mut editor, _) = Editor::met(&yard, can);
    editor.open(&uri, "");
    let labels = |items: &[Value]| -> Vec<String> {
        let mut items: Vec<&Value> = items.iter().collect();
        items.sort_by_key(|item| item["sortText"].as_str().unwrap().to_owned());
        items.iter().map(|item| item["label"].as_str().unwrap().to_owned()).collect()
    };
    // In a flight: what is not stated yet, first what rules wait for, then the blocks that may stand there.
    let before = "stair \"a\" {\n    rules: residential\n    flight {\n        risers: 3 of 7\"\n        ";
    let items = completed(&mut editor, &uri, 2, before, "\n    }\n}\n");
    let said = labels(&items);
    for property in kinds::FLIGHT.properties {
        assert_eq!(said.contains(&property.name.to_owned()), property.name != "risers", "{}", property.name);
    }
    let place = |label: &str| said.iter().position(|said| said == label);
    assert!(place("width") < place("spiral"), "a rule waits for the width: {said:?}");
    assert!(place("handrail").is_some() && place("stair").is_none());
    let width = items.iter().find(|item| item["label"] == "width").unwrap();
    assert!(width["documentation"].as_str().unwrap().contains("clear width"), "{width}");
    let rail = items.iter().find(|item| item["label"] == "handrail").unwrap();
    assert_eq!(rail["insertTextFormat"], 2);
    // Values: words, sets, timbers of the shop, names drawn.
    let words = |editor: &mut Editor, version: i32, statement: &str| {
        let before = format!("stair \"a\" {{\n landing upper {{ depth: 4' }}\n {statement}");
        labels(&completed(editor, &uri, version, &before, "\n}\n"))
    };
    assert_eq!(words(&mut editor, 3, "setting: "), ["indoors", "outdoors"]);
    assert!(words(&mut editor, 4, "rules: ").contains(&"residential".to_owned()));
    assert_eq!(words(&mut editor, 5, "handrail left { timber: ")[0], "bog oak");
    assert!(words(&mut editor, 6, "handrail left { along: ").contains(&"upper".to_owned()));
    assert_eq!(words(&mut editor, 7, "# handrail: "), Vec::<String>::new());
    assert!(labels(&completed(&mut editor, &uri, 8, "", "")).contains(&"stair".to_owned()));
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_completion_takes_the_place_of_what_is_typed() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&uri, "");
    let head = "stair \"a\" { rules: residential; flight lower { risers: 2 of 8\"; width: 36\" }\n landing \"upper deck\" { depth: 4' }\n \
                post \"tall one\" { section: 4x4 }\n ";
    for (version, (typed, after, label, written)) in [
        ("handrail left { timber: southern p", " }", "southern pine", "handrail left { timber: southern pine }"),
        ("handrail left { along: \"upper d", "\" }", "\"upper deck\"", "handrail left { along: \"upper deck\" }"),
        ("guard left { between p", "", "between posts", "guard left { between posts: "),
        ("joint { joins: \"tall o", "\" to lower }", "\"tall one\"", "joint { joins: \"tall one\" to lower }"),
        ("waive \"riser h", "\" { }", "\"riser height\"", "waive \"riser height\" { }"),
        ("waive ", "", "\"riser height\"", "waive \"riser height\""),
    ]
    .into_iter()
    .enumerate()
    {
        let before = format!("{head}{typed}");
        let items = completed(&mut editor, &uri, version as i32 + 2, &before, &format!("{after}\n}}\n"));
        let item = items.iter().find(|item| item["label"] == label);
        let item = item.unwrap_or_else(|| panic!("`{label}` after `{typed}`: {items:?}"));
        let now = edited(&format!("{before}{after}\n}}\n"), std::slice::from_ref(&item["textEdit"]));
        assert!(now.contains(written), "{now}");
    }
    // Names of what cannot be meant are not offered; nor is a waiver that somebody else has signed.
    let before = format!("{head}handrail left {{ along: ");
    let items = completed(&mut editor, &uri, 20, &before, " }\n}\n");
    assert!(items.iter().all(|item| item["label"] != "\"tall one\""), "{items:?}");
    let items = completed(&mut editor, &uri, 21, head, "\n}\n");
    let waiver = items.iter().find(|item| item["label"] == "waive").expect("a waiver may stand there");
    assert_eq!(waiver["textEdit"]["newText"], "waive \"\" { why: \"\"; by: \"\" }");
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_waiver_of_what_was_measured_stands_in_what_is_drawn() {
    let yard = Yard::new();
    let text = "stair \"a\" {\n    rules: residential\n    flight {\n        risers: 3 of 7\"; runs: 2 of 11\"; width: 36\"\n    }\n}\n\
                measured \"a\" { flight { risers: 7\", 7\", 8-1/2\" } }\n";
    let uri = uri(&yard, "a.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&uri, text);
    let found = editor.found(&uri, 1);
    let tall = found.iter().find(|one| one["code"] == "riser height").expect("8-1/2 in is too tall");
    let context = json!({ "diagnostics": [tall] });
    let params = json!({ "textDocument": { "uri": uri }, "range": tall["range"], "context": context });
    let actions = editor.ask("textDocument/codeAction", params);
    let is =
        |action: &&Value| action["title"].as_str().is_some_and(|title| title.starts_with("waive \"riser height\""));
    let action = actions["result"].as_array().unwrap().iter().find(is).expect("it may be waived");
    let now = edited(text, action["edit"]["documentChanges"][0]["edits"].as_array().unwrap());
    assert!(now.contains("flight {\n        waive \"riser height\""), "{now}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_name_is_found_and_changed_wherever_it_is_used() {
    let yard = Yard::new();
    let text = "timber \"marsh oak\" { gravity: 0.73 }\nstair \"a\" {\n    rules: residential\n    \
                landing bend { depth: 4'; width: 36\" }\n    flight lower { risers: 3 of 7\"; runs: 2 of 11\"; to: bend }\n    \
                handrail left { along: lower; height: 36\"; timber: \"marsh oak\" }\n    wall right { along: lower }\n}\n";
    let uri = uri(&yard, "a.stair");
    let mut can = able(json!(["utf-16"]));
    can["workspace"]["textDocumentContent"] = json!({});
    let (mut editor, _) = Editor::met(&yard, can);
    editor.open(&uri, text);
    let at = |words: &str, nth: usize| {
        let byte = text.match_indices(words).nth(nth).unwrap().0;
        let line = text[..byte].matches('\n').count();
        json!({ "line": line, "character": byte - text[..byte].rfind('\n').map_or(0, |end| end + 1) })
    };
    let asked = |place: Value| json!({ "textDocument": { "uri": uri }, "position": place });
    let drawn = editor.ask("textDocument/definition", asked(at("lower", 2)));
    assert_eq!(drawn["result"].as_array().unwrap().len(), 1);
    assert_eq!(drawn["result"][0]["range"]["start"], at("lower", 0));
    let set = editor.ask("textDocument/definition", asked(at("residential", 0)));
    assert_eq!(set["result"][0]["uri"], "pitchboard:/residential.rules");
    let links = editor.ask("textDocument/documentLink", json!({ "textDocument": { "uri": uri } }));
    assert_eq!(links["result"][0]["target"], "pitchboard:/residential.rules");
    let mut used = asked(at("lower", 0));
    used["context"] = json!({ "includeDeclaration": false });
    assert_eq!(editor.ask("textDocument/references", used)["result"].as_array().unwrap().len(), 2);
    let mut renamed = |place: Value, name: &str| {
        let mut asked = asked(place);
        asked["newName"] = json!(name);
        editor.ask("textDocument/rename", asked)
    };
    let change = renamed(at("lower", 1), "first flight");
    let edits = change["result"]["documentChanges"][0]["edits"].as_array().unwrap();
    assert_eq!(edited(text, edits), text.replace("lower", "\"first flight\""));
    let change = renamed(at("marsh oak", 1), "bog oak");
    let edits = change["result"]["documentChanges"][0]["edits"].as_array().unwrap();
    assert_eq!(edited(text, edits), text.replace("marsh oak", "bog oak"));
    // A name that would be read as another thing, and what is no name.
    for (place, name) in
        [(at("lower", 0), "bend"), (at("lower", 0), " "), (at("36", 0), "wide"), (at("left", 0), "right")]
    {
        assert!(renamed(place, name)["error"].is_object(), "{name}");
    }
    assert_eq!(editor.end(), 0);
}

#[test]
fn tokens_lie_one_after_the_other_and_say_what_each_word_is() {
    let yard = Yard::new();
    let text = "# ⅞ 🦆\nstair \"a 🦆\" { riser board { section: 2x12; lean: 0° } } # end\n";
    let uri = uri(&yard, "a.stair");
    let (mut editor, can) = Editor::met(&yard, able(json!(["utf-16"])));
    let legend = can["semanticTokensProvider"]["legend"]["tokenTypes"].clone();
    editor.open(&uri, text);
    let told = editor.ask("textDocument/semanticTokens/full", json!({ "textDocument": { "uri": uri } }));
    let data: Vec<usize> =
        told["result"]["data"].as_array().unwrap().iter().map(|number| number.as_u64().unwrap() as usize).collect();
    let lines: Vec<Vec<u16>> = text.lines().map(|line| line.encode_utf16().collect()).collect();
    let (mut line, mut column, mut found) = (0, 0, Vec::new());
    for token in data.chunks(5) {
        line += token[0];
        column = if token[0] == 0 { column + token[1] } else { token[1] };
        let words = String::from_utf16(&lines[line][column..column + token[2]]).unwrap();
        found.push((words, legend[token[3]].as_str().unwrap().to_owned()));
    }
    let expected = [
        ("# ⅞ 🦆", "comment"),
        ("stair", "keyword"),
        ("\"a 🦆\"", "string"),
        ("riser", "keyword"),
        ("board", "keyword"),
        ("section", "property"),
        ("2x12", "number"),
        ("lean", "property"),
        ("0°", "number"),
        ("# end", "comment"),
    ];
    let expected: Vec<(String, String)> = expected.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
    assert_eq!(found, expected);
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_waiver_is_offered_and_holds_once_it_has_its_reason() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-16"])));
    editor.open(&uri, HIDE);
    let found = editor.found(&uri, 1);
    let tall = found.iter().find(|one| one["code"] == "riser height").unwrap();
    let params = json!({ "textDocument": { "uri": uri }, "range": tall["range"], "context": { "diagnostics": [] } });
    let actions = editor.ask("textDocument/codeAction", params);
    let actions = actions["result"].as_array().unwrap();
    let waive = actions.iter().find(|one| one["title"] == "waive \"riser height\" with a reason").expect("offered");
    let text = edited(HIDE, waive["edit"]["documentChanges"][0]["edits"].as_array().unwrap());
    let severity = |editor: &mut Editor, version: i32, text: &str| {
        editor.change(&uri, version, json!([{ "text": text }]));
        let found = editor.found(&uri, version);
        found.iter().find(|one| one["code"] == "riser height").map(|one| one["severity"].clone())
    };
    assert_eq!(severity(&mut editor, 2, &text), Some(json!(1)), "without a reason it excuses nothing");
    let said = text.replace("why: \"\"; by: \"\"", "why: \"the old boards stay\"; by: \"J. Reed\"");
    assert_ne!(said, text);
    assert_eq!(severity(&mut editor, 3, &said), Some(json!(4)), "with one it does: {said}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_timber_that_nobody_knows_is_defined_from_where_it_is_used() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let text = "# one\nstair \"a\" {\n    rules: workshop\n    handrail left { timber: marsh oak; height: 36\" }\n}\n";
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    editor.open(&uri, text);
    let found = editor.found(&uri, 1);
    let strange = found.iter().find(|one| one["range"]["start"]["line"] == 3 && one["severity"] == 1).expect("unknown");
    let params = json!({ "textDocument": { "uri": uri }, "range": strange["range"], "context": { "diagnostics": [] } });
    let actions = editor.ask("textDocument/codeAction", params);
    let actions = actions["result"].as_array().unwrap();
    let define =
        actions.iter().find(|one| one["title"].as_str().unwrap().contains("timber \"marsh oak\"")).expect("offered");
    let text = edited(text, define["edit"]["documentChanges"][0]["edits"].as_array().unwrap());
    assert!(text.starts_with("# one\ntimber \"marsh oak\" { }\n\nstair"), "{text}");
    editor.change(&uri, 2, json!([{ "text": text }]));
    let left = editor.found(&uri, 2);
    assert!(!left.iter().any(|one| one["code"] == strange["code"]), "{left:?}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn what_is_no_message_costs_itself() {
    let yard = Yard::new();
    let uri = uri(&yard, "hide.stair");
    let (mut editor, _) = Editor::met(&yard, json!({}));
    let refused = |message: &Value| message["id"].is_null() && message["error"]["code"] == -32700;
    let deep = "[".repeat(100_000);
    for body in [&b"{"[..], b"\xff\xfe", b"[]", b"null", b"", deep.as_bytes(), b"{\"id\":{}}"] {
        let mut bytes = format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes();
        bytes.extend(body);
        assert!(editor.put(&bytes));
        editor.wait(refused);
    }
    // Messages that say nothing that could be done.
    for (method, params) in [
        (
            "textDocument/didChange",
            json!({ "textDocument": { "uri": "file:///never.stair", "version": 3 }, "contentChanges": [] }),
        ),
        ("textDocument/didClose", json!({ "textDocument": { "uri": "file:///never.stair" } })),
        ("textDocument/didOpen", json!([1, 2])),
        ("no/such", Value::Null),
        ("initialized", Value::Null),
        ("$/cancelRequest", json!({ "id": 99 })),
        ("$/cancelRequest", json!("x")),
    ] {
        editor.tell(method, params);
    }
    assert_eq!(editor.ask("no/such", Value::Null)["error"]["code"], -32601);
    assert_eq!(editor.ask("textDocument/hover", json!(3))["error"]["code"], -32602);
    assert!(editor.put(&framed(&json!({ "jsonrpc": "2.0", "id": 7000, "result": 1 }))));
    editor.open(&uri, HIDE);
    editor.found(&uri, 1);
    // Places that are in no text.
    for place in
        [json!({ "line": 4_000_000_000_u32, "character": 9 }), json!({ "line": 0, "character": 4_000_000_000_u32 })]
    {
        let asked = json!({ "textDocument": { "uri": uri }, "position": place });
        assert!(editor.ask("textDocument/hover", asked).get("result").is_some());
    }
    let backwards = json!({ "start": { "line": 0, "character": 9 }, "end": { "line": 0, "character": 2 } });
    editor.change(&uri, 2, json!([{ "range": backwards, "text": "⅞" }]));
    editor.found(&uri, 2);
    assert_eq!(editor.end(), 0);
}

/// Edits and questions at places that may lie anywhere, over texts with wide signs and every end of a line: each
/// question gets one answer, none is a fault, and the text that is left checks as it does alone. A tenth of the rounds,
/// or with `FULL=1` all.
#[test]
fn any_edits_and_questions_get_an_answer_each() {
    use lsp_server::{ErrorCode, Message, Notification, Request, Response};
    use pitchboard::server::Server;

    const METHODS: [&str; 18] = [
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
        "textDocument/rename",
        "textDocument/semanticTokens/full",
        "textDocument/inlayHint",
        "textDocument/documentLink",
        "textDocument/prepareRename",
        "workspace/symbol",
        "workspace/diagnostic",
    ];
    const WORDS: [&str; 20] = [
        "",
        "{",
        "}",
        "\"",
        "⅞",
        "🦆",
        "\r",
        "\r\n",
        ": ",
        "# ",
        "flight lower { risers: 3 of 7\" }\n",
        "handrail left { along: lower; ",
        "rules: residential, \"late.rules\"\n",
        "waive \"riser height\" { ",
        "each riser shall have height at least ",
        "amend \"riser height\" {\n limit tallest: 7\"\n",
        "passes: flight { risers: 3 of 7\" }\n",
        "each flight where number of (handrails where ",
        "amends: \"late.rules\"",
        "rule \"r\" { limit most: 7\"\n source: \"x\"\n",
    ];
    let mut server = Server::new(Session::default());
    let mut chance = Chance(0x5eed_0f5e_07d9_e5a1);
    let mut asked = 1;
    let params = json!({ "processId": null, "rootUri": null, "capabilities": able(json!(["utf-16"])) });
    server.take(Message::Request(Request::new(1.into(), "initialize".into(), params)));
    let documents = ["file:///a.stair", "file:///b.rules", "file:///shop.pitchboard", "untitled:1"];
    for uri in documents {
        let text = if uri.ends_with(".rules") { HOUSE } else { HIDE };
        let item = json!({ "uri": uri, "languageId": "stair", "version": 1, "text": text });
        let params = json!({ "textDocument": item });
        server.take(Message::Notification(Notification::new("textDocument/didOpen".into(), params)));
    }
    let mut answers = 0;
    for round in 0..if full() { 4_000 } else { 400 } {
        let document = json!({ "uri": documents[chance.below(4) as usize], "version": round });
        let mut place = || {
            let wide = if chance.below(9) == 0 { u64::from(u32::MAX) } else { 40 };
            json!({ "line": chance.below(wide.min(9)), "character": chance.below(wide) })
        };
        let range = json!({ "start": place(), "end": place() });
        let at = place();
        let word = WORDS[chance.below(WORDS.len() as u64) as usize];
        if chance.below(2) == 0 {
            let whole = chance.below(40) == 0;
            let change = if whole { json!({ "text": HIDE }) } else { json!({ "range": range, "text": word }) };
            let params = json!({ "textDocument": document, "contentChanges": [change] });
            server.take(Message::Notification(Notification::new("textDocument/didChange".into(), params)));
        } else {
            asked += 1;
            let params = json!({
                "textDocument": document, "position": at, "range": range, "positions": [at], "newName": word,
                "query": word, "previousResultIds": [],
                "context": { "diagnostics": [], "includeDeclaration": true, "triggerKind": 1 },
                "options": { "tabSize": 4, "insertSpaces": true },
            });
            let method = METHODS[chance.below(METHODS.len() as u64) as usize];
            server.take(Message::Request(Request::new(asked.into(), method.into(), params)));
        }
        while server.work(&|| false) {}
        for message in server.sends() {
            let Message::Response(Response { response_result, .. }) = message else { continue };
            answers += 1;
            if let Err(why) = response_result {
                assert_eq!(why.code, ErrorCode::RequestFailed as i32, "{}", why.message);
            }
        }
    }
    assert_eq!(answers, asked);
}

#[test]
fn messages_out_of_order_are_refused_and_it_ends() {
    let yard = Yard::new();
    let mut editor = Editor::start(&yard);
    assert_eq!(editor.ask("textDocument/hover", json!({}))["error"]["code"], -32002);
    editor.ask("initialize", json!({ "processId": null, "rootUri": null, "capabilities": {} }));
    assert!(editor.ask("initialize", json!({}))["error"].is_object());
    editor.ask("shutdown", Value::Null);
    assert_eq!(editor.ask("shutdown", Value::Null)["error"]["code"], -32600);
    editor.tell("exit", Value::Null);
    assert_eq!(editor.over(), 0);
    // `exit` before `shutdown`, a pipe that closes, and a head that is none.
    for last in [
        &framed(&json!({ "jsonrpc": "2.0", "method": "exit" }))[..],
        b"",
        b"GET / HTTP/1.1\r\n\r\n",
        b"Content-Length: 99999999999999999999\r\n\r\n",
        b"Content-Length: 18446744073709551615\r\n\r\nx",
    ] {
        let (mut editor, _) = Editor::met(&yard, json!({}));
        editor.put(last);
        editor.pipe = None;
        assert_eq!(editor.over(), 1, "{}", String::from_utf8_lossy(last));
    }
}

/// More answers than a pipe and the server's own queue hold, none of them read: it ends with its input all the same.
#[test]
fn a_client_that_never_reads_keeps_nothing_alive() {
    let yard = Yard::new();
    let mut child = yard.tool(&["lsp"]).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let mut pipe = child.stdin.take().unwrap();
    let params = json!({ "processId": null, "rootUri": null, "capabilities": {} });
    pipe.write_all(&framed(&json!({ "jsonrpc": "2.0", "id": 0, "method": "initialize", "params": params }))).unwrap();
    for id in 1..4_000 {
        pipe.write_all(&framed(&json!({ "jsonrpc": "2.0", "id": id, "method": "no/such" }))).unwrap();
    }
    drop(pipe);
    let start = std::time::Instant::now();
    let code = loop {
        if let Some(code) = child.try_wait().unwrap() {
            break code;
        }
        if start.elapsed() > PATIENCE {
            let _ = child.kill();
            panic!("it lives on");
        }
        thread::sleep(Duration::from_millis(20));
    };
    assert_eq!(code.code(), Some(1));
}

#[test]
fn a_huge_document_gets_one_message() {
    let yard = Yard::new();
    let uri = uri(&yard, "huge.stair");
    let (mut editor, _) = Editor::met(&yard, json!({}));
    let text = "# reed\n".repeat(50_000_000 / 7);
    editor.open(&uri, &text);
    let found = editor.found(&uri, 1);
    assert_eq!(found.len(), 1, "{found:?}");
    let range = json!({ "start": { "line": 5, "character": 0 }, "end": { "line": 9_000_000, "character": 0 } });
    editor.change(&uri, 2, json!([{ "range": range, "text": "" }]));
    assert_eq!(editor.found(&uri, 2).len(), 1);
    assert_eq!(editor.end(), 0);
}
