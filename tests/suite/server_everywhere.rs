//! The language server on whole folders: the findings of designs that nobody has open, names anywhere, questions that
//! are given up, a day that turns, and completion by what lies in the folder.

use lsp_server::{Message, Notification, Request};
use pitchboard::base::Day;
use pitchboard::server::Server;
use pitchboard::session::{Memory, Session};
use serde_json::{Value, json};

use crate::editor::{Editor, able, at_byte, framed, uri};
use crate::yard::Yard;

fn stair(riser: &str) -> String {
    format!("stair \"a\" {{\n    rules: workshop\n    flight {{ risers: 3 of {riser}; runs: 2 of 11\" }}\n}}\n")
}

#[test]
fn designs_that_nobody_has_open_are_told_of_when_that_is_asked() {
    let yard = Yard::new();
    yard.put("low.stair", stair("7\""));
    yard.put("hides/tall one.stair", stair("9\""));
    yard.put("hides/open.stair", stair("7\""));
    yard.put("notes.txt", "stair");
    yard.put(".old/hidden.stair", stair("9\""));
    let (mut editor, can) = Editor::met_in(&yard, json!({ "textDocument": { "diagnostic": {} } }));
    assert_eq!(can["diagnosticProvider"]["workspaceDiagnostics"], true);
    // What is not saved counts.
    editor.open(&uri(&yard, "hides/open.stair"), &stair("9\""));
    let told = editor.ask("workspace/diagnostic", json!({ "previousResultIds": [] }));
    let items = told["result"]["items"].as_array().unwrap().clone();
    let of = |items: &[Value], name: &str| {
        let wanted = uri(&yard, name);
        items.iter().find(|item| item["uri"] == wanted).unwrap_or_else(|| panic!("{name} in {items:?}")).clone()
    };
    assert_eq!(items.len(), 3, "{items:?}");
    let names = |item: &Value| -> Vec<String> {
        let found = item["items"].as_array().unwrap().iter().map(|one| one["code"].as_str().unwrap().to_owned());
        found.filter(|code| code != "not checked").collect()
    };
    let (code, said) = yard.run(&["check", "hides/tall one.stair"]);
    assert_eq!(code, 0, "advice alone: {said}");
    let tall = of(&items, "hides/tall one.stair");
    assert!(!names(&tall).is_empty() && names(&tall).iter().all(|name| said.contains(name)), "{tall} {said}");
    assert_eq!(names(&of(&items, "hides/open.stair")), names(&tall));
    assert_eq!(of(&items, "hides/open.stair")["version"], 1);
    assert_eq!(of(&items, "low.stair")["version"], Value::Null);
    // What the client has already is not sent again; what has changed on the disk is.
    let had: Vec<Value> = items.iter().map(|item| json!({ "uri": item["uri"], "value": item["resultId"] })).collect();
    yard.put("low.stair", stair("9\""));
    let changes = json!([{ "uri": uri(&yard, "low.stair"), "type": 2 }]);
    editor.tell("workspace/didChangeWatchedFiles", json!({ "changes": changes }));
    let told = editor.ask("workspace/diagnostic", json!({ "previousResultIds": had }));
    let items = told["result"]["items"].as_array().unwrap();
    assert_eq!(of(items, "hides/tall one.stair")["kind"], "unchanged");
    assert_eq!(of(items, "low.stair")["kind"], "full");
    assert_eq!(names(&of(items, "low.stair")), names(&tall));
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_question_that_is_given_up_while_it_is_worked_on_is_answered_so() {
    let yard = Yard::new();
    // Enough that it cannot be done before the next message is read, however fast the machine.
    for at in 0..300 {
        yard.put(&format!("hide-{at}.stair"), stair("9\""));
    }
    let (mut editor, _) = Editor::met_in(&yard, json!({ "textDocument": { "diagnostic": {} } }));
    let survey = editor.request("workspace/diagnostic", json!({ "previousResultIds": [] }));
    editor.tell("$/cancelRequest", json!({ "id": survey }));
    assert_eq!(editor.answer(survey)["error"]["code"], -32800);
    // A question that comes while one is worked on is answered before it.
    let survey = editor.request("workspace/diagnostic", json!({ "previousResultIds": [] }));
    let quick = editor.request("workspace/symbol", json!({ "query": "no such name" }));
    let first = editor.wait(|message| message["id"] == survey || message["id"] == quick);
    assert_eq!(first["id"], quick);
    assert_eq!(editor.answer(survey)["result"]["items"].as_array().unwrap().len(), 300);
    // Two that wait in the same breath: the one that is given up is not answered, the other is.
    let mut bytes = Vec::new();
    let open = json!({ "uri": uri(&yard, "new.stair"), "languageId": "stair", "version": 1, "text": stair("9\"") });
    let notes = [("textDocument/didOpen", json!({ "textDocument": open })), ("$/cancelRequest", json!({ "id": 901 }))];
    let place =
        json!({ "textDocument": { "uri": uri(&yard, "new.stair") }, "position": { "line": 0, "character": 0 } });
    bytes.extend(framed(&json!({ "jsonrpc": "2.0", "method": notes[0].0, "params": notes[0].1 })));
    bytes.extend(framed(&json!({ "jsonrpc": "2.0", "id": 900, "method": "workspace/diagnostic", "params": { "previousResultIds": [] } })));
    bytes.extend(framed(&json!({ "jsonrpc": "2.0", "id": 901, "method": "workspace/diagnostic", "params": { "previousResultIds": [] } })));
    bytes.extend(framed(&json!({ "jsonrpc": "2.0", "id": 902, "method": "textDocument/hover", "params": place })));
    bytes.extend(framed(&json!({ "jsonrpc": "2.0", "method": notes[1].0, "params": notes[1].1 })));
    assert!(editor.put(&bytes));
    assert_eq!(editor.answer(901)["error"]["code"], -32800);
    assert!(editor.answer(902).get("result").is_some());
    assert_eq!(editor.answer(900)["result"]["items"].as_array().unwrap().len(), 301);
    // One that is still open at the end is answered.
    let survey = editor.request("workspace/diagnostic", json!({ "previousResultIds": [] }));
    editor.ask("shutdown", Value::Null);
    assert!(editor.answer(survey)["error"].is_object());
    editor.tell("exit", Value::Null);
    assert_eq!(editor.over(), 0);
}

#[test]
fn names_are_found_in_every_file_of_the_folders() {
    let yard = Yard::new();
    yard.put("hide.stair", "stair \"reed hide\" { landing upper { depth: 4' } }\n");
    yard.put(
        "house.rules",
        "ruleset \"House rules\" { }\nrule \"easy riser\" { each riser shall have height <= 7\"; source: \"x\" }\n",
    );
    yard.put("shop.pitchboard", "shop \"Marsh joinery\" { }\n");
    let (mut editor, can) = Editor::met_in(&yard, json!({}));
    assert_eq!(can["workspaceSymbolProvider"], true);
    editor.open(&uri(&yard, "new.stair"), "stair \"reeve porch\" { }\n");
    let mut names = |query: &str| -> Vec<(String, String)> {
        let told = editor.ask("workspace/symbol", json!({ "query": query }));
        let found = told["result"].as_array().unwrap().iter().map(|symbol| {
            let file = symbol["location"]["uri"].as_str().unwrap().rsplit('/').next().unwrap().to_owned();
            (symbol["name"].as_str().unwrap().to_owned(), file)
        });
        found.collect()
    };
    let said = |name: &str, file: &str| (name.to_owned(), file.to_owned());
    assert_eq!(names("Ree"), [said("reed hide", "hide.stair"), said("reeve porch", "new.stair")]);
    assert_eq!(names("riser"), [said("easy riser", "house.rules")]);
    assert_eq!(names("upper"), [said("upper", "hide.stair")]);
    assert_eq!(names("joinery"), [said("Marsh joinery", "shop.pitchboard")]);
    assert_eq!(names("").len(), 6);
    assert_eq!(editor.end(), 0);
}

#[test]
fn folders_that_come_and_go_are_followed() {
    let yard = Yard::new();
    yard.put("a/one.stair", stair("7\""));
    yard.put("b/two.stair", stair("7\""));
    let (mut editor, _) = Editor::met(&yard, json!({}));
    let found = |editor: &mut Editor| {
        editor.ask("workspace/symbol", json!({ "query": "a" }))["result"].as_array().unwrap().len()
    };
    assert_eq!(found(&mut editor), 0);
    let folder = |name: &str| json!({ "uri": uri(&yard, name), "name": name });
    let event = json!({ "event": { "added": [folder("a"), folder("b")], "removed": [] } });
    editor.tell("workspace/didChangeWorkspaceFolders", event);
    assert_eq!(found(&mut editor), 2);
    editor.tell("workspace/didChangeWorkspaceFolders", json!({ "event": { "added": [], "removed": [folder("a")] } }));
    assert_eq!(found(&mut editor), 1);
    assert_eq!(editor.end(), 0);
}

/// A waiver that holds up to a day, in a server that runs over it.
#[test]
fn a_day_that_turns_has_the_designs_checked_anew() {
    let text = stair("9\"").replace(
        "runs: 2 of 11\"",
        "runs: 2 of 11\"; waive \"easy riser\" { why: \"the old stair stays\"; by: \"J. Reed\"; until: 2027-03-01 }",
    );
    let text = text.replace("workshop", "\"house.rules\"");
    let house =
        "ruleset \"House rules\" { }\nrule \"easy riser\" { each riser shall have height <= 8\"; source: \"x\" }\n";
    let session = Session::new(Memory::new().with("/marsh/house.rules", house)).on(Day::of("2027-03-01").unwrap());
    let mut server = Server::new(session);
    let note = |method: &str, params: Value| Message::Notification(Notification::new(method.into(), params));
    let params = json!({ "processId": null, "rootUri": null, "capabilities": {} });
    server.take(Message::Request(Request::new(1.into(), "initialize".into(), params)));
    let item = json!({ "uri": "file:///marsh/a.stair", "languageId": "stair", "version": 1, "text": text });
    server.take(note("textDocument/didOpen", json!({ "textDocument": item })));
    let severity = |server: &mut Server| {
        while server.work(&|| false) {}
        let sent = server.sends();
        let published = sent.iter().find_map(|message| match message {
            Message::Notification(note) if note.method == "textDocument/publishDiagnostics" => {
                Some(note.params.clone())
            }
            _ => None,
        })?;
        let found = published["diagnostics"].as_array().unwrap();
        found.iter().find(|one| one["code"] == "easy riser").map(|one| one["severity"].clone())
    };
    assert_eq!(severity(&mut server), Some(json!(4)), "the waiver holds on its last day");
    server.turn_to(Day::of("2027-03-01").unwrap());
    assert_eq!(severity(&mut server), None, "the same day says nothing new");
    server.turn_to(Day::of("2027-03-02").unwrap());
    assert_eq!(severity(&mut server), Some(json!(1)), "the day after it does not");
}

#[test]
fn blocks_and_values_are_offered_in_the_units_of_the_design() {
    let yard = Yard::new();
    yard.put(
        "sets/house.rules",
        "ruleset \"House rules\" { }\nrule \"r\" { each riser shall have height <= 7\"; source: \"x\" }\n",
    );
    yard.put(
        "shop.pitchboard",
        "shop \"Marsh joinery\" { }\nsection 2x10 { }\nsection \"rail\" { shape: round; diameter: 40 mm }\n",
    );
    let file = uri(&yard, "hide.stair");
    let mut can = able(json!(["utf-8"]));
    can["textDocument"]["completion"] = json!({ "completionItem": { "snippetSupport": true } });
    let (mut editor, _) = Editor::met_in(&yard, can);
    editor.open(&file, "");
    let mut version = 1;
    let mut offered = |editor: &mut Editor, text: &str| -> Vec<Value> {
        let byte = text.find('|').unwrap();
        let text = text.replacen('|', "", 1);
        version += 1;
        editor.change(&file, version, json!([{ "text": text }]));
        let told = editor.at("textDocument/completion", &file, at_byte(&text, byte));
        let mut items = told.as_array().unwrap().clone();
        items.sort_by_key(|item| item["sortText"].as_str().unwrap().to_owned());
        items
    };
    let of = |items: &[Value], label: &str| {
        items.iter().find(|item| item["label"] == label).unwrap_or_else(|| panic!("{label} in {items:?}")).clone()
    };
    for (risers, rail, width) in [("3 of 7\"", "36\"", "36\""), ("3 of 180 mm", "915 mm", "915 mm")] {
        let items = offered(
            &mut editor,
            &format!(
                "stair \"a\" {{\n    rules: residential\n    flight {{\n        risers: {risers}\n        |\n    }}\n}}\n"
            ),
        );
        let block = of(&items, "handrail");
        assert_eq!(block["insertText"], format!("handrail ${{1:left}} {{\n\theight: ${{2:{rail}}}\n\t$0\n}}"));
        assert_eq!(block["insertTextFormat"], 2);
        assert_eq!(of(&items, "width")["insertText"], format!("width: ${{1:{width}}}"));
        assert!(of(&items, "width")["documentation"].as_str().unwrap().contains("It would settle"), "{items:?}");
    }
    // What is to be drawn, where a rule waits for it, stands before what nothing waits for.
    let items = offered(
        &mut editor,
        "stair \"a\" {\n    rules: residential\n    flight { risers: 3 of 7\"; runs: 2 of 11\"; width: 36\" }\n    |\n}\n",
    );
    let awaited: Vec<&Value> = items
        .iter()
        .filter(|item| item["documentation"].as_str().is_some_and(|said| said.contains("It would settle")))
        .collect();
    assert!(awaited.iter().any(|item| item["kind"] == 22), "a block that settles something: {items:?}");
    let first = items.iter().take(awaited.len()).all(|item| awaited.contains(&item));
    assert!(first, "first what settles something: {items:?}");
    // Sizes: those in stock first, then the nominal ones with what they measure (PS 20: a 2x12 is 1-1/2" x 11-1/4").
    let sizes = offered(&mut editor, "stair \"a\" {\n    tread { section: | }\n}\n");
    assert_eq!(sizes[0]["label"], "2x10");
    assert_eq!(sizes[0]["detail"], "in stock");
    assert_eq!(sizes[1]["label"], "\"rail\"");
    assert_eq!(of(&sizes, "2x12")["detail"], "1-1/2\" x 11-1/4\"");
    // Sets: those of the folder that may be named from here, by their titles, and those that come with the tool.
    let sets = offered(&mut editor, "stair \"a\" {\n    rules: |\n}\n");
    assert_eq!(sets[0]["label"], "\"sets/house.rules\"");
    assert_eq!(sets[0]["detail"], "House rules");
    assert!(of(&sets, "residential")["detail"].as_str().is_some());
    assert_eq!(editor.end(), 0);
}

/// A thousand designs open, or with a tenth of them where not everything is run: the server takes less than 150 MB.
#[cfg(target_os = "linux")]
#[test]
fn a_thousand_designs_that_are_open_take_little_room() {
    use crate::switches::full;

    let yard = Yard::new();
    let design = std::fs::read_to_string("examples/sedge-cabin-north-door.stair").unwrap();
    let (mut editor, _) = Editor::met(&yard, json!({}));
    let number = if full() { 1_000 } else { 100 };
    for at in 0..number {
        let file = uri(&yard, &format!("cabin-{at}.stair"));
        editor.open(&file, &design.replace("Sedge cabin", &format!("Cabin {at}")));
        editor.found(&file, 1);
        editor.early.clear();
    }
    let status = std::fs::read_to_string(format!("/proc/{}/status", editor.child.id())).unwrap();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    let kilobytes: u64 = most.trim().trim_end_matches(" kB").parse().unwrap();
    println!("{number} designs: {kilobytes} kB");
    assert!(kilobytes < 150_000, "{number} designs: {kilobytes} kB");
    assert_eq!(editor.end(), 0);
}
