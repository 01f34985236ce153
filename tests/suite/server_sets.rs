//! Rulesets in the language server: what is told, offered and found of their words, over the pipes.

use pitchboard::derive::quantity;
use pitchboard::model::{KINDS, kinds};
use serde_json::{Value, json};

use crate::editor::{Editor, able, at_byte, edited, place, uri};
use crate::yard::Yard;

/// A set of the shop that amends a shipped one. Its last example is wrong: 7-1/2" is allowed.
const HOUSE: &str = "\
ruleset \"House rules\" {
    edition: \"2026\"
    amends: residential
}

amend \"riser height\" {
    limit tallest: 7-1/2\"
    because: \"The marsh folk are short.\"
    passes: flight { risers: 4 of 7-1/2\" }
    fails:  flight { risers: 4 of 7-5/8\" }
    fails:  flight { risers: 4 of 7-1/2\" }
}

rule \"easy going\" {
    limit least: 10-1/2\"
    each tread shall have run >= least
    source: \"common practice\"
}
";

fn stair(name: &str, riser: &str, set: &str) -> String {
    format!(
        "stair \"{name}\" {{\n    rules: {set}\n    flight {{ risers: 3 of {riser}; runs: 2 of 11\"; width: 36\" }}\n}}\n"
    )
}

/// A yard with the set and three designs, and an editor in it with the set and two of them open.
fn opened() -> (Yard, Editor) {
    let yard = Yard::new();
    yard.put("house.rules", HOUSE);
    for (name, riser) in [("hide", "7-1/4\""), ("loft", "7-1/2\""), ("shed", "7\"")] {
        yard.put(&format!("{name}.stair"), stair(name, riser, "\"house.rules\""));
    }
    yard.put("other.stair", stair("other", "7\"", "residential"));
    let mut can = able(json!(["utf-8"]));
    can["workspace"]["textDocumentContent"] = json!({});
    can["textDocument"]["completion"] = json!({ "completionItem": { "snippetSupport": true } });
    let (mut editor, _) = Editor::met_in(&yard, can);
    editor.open(&uri(&yard, "house.rules"), HOUSE);
    for name in ["hide", "loft"] {
        let file = format!("{name}.stair");
        editor.open(&uri(&yard, &file), &yard.text(&file));
    }
    (yard, editor)
}

fn told(hover: &Value) -> &str {
    hover["contents"]["value"].as_str().unwrap_or_else(|| panic!("nothing told: {hover}"))
}

#[test]
fn a_limit_tells_who_set_it_and_which_open_designs_are_nearest() {
    let (yard, mut editor) = opened();
    let (set, text) = (uri(&yard, "house.rules"), HOUSE);
    let hover = editor.at("textDocument/hover", &set, place(text, "tallest", 0));
    let said = told(&hover);
    assert!(said.starts_with("**tallest** 7-1/2\""), "{said}");
    // 7-3/4" is the figure of the dwelling code: IRC 2021, R311.7.5.1.
    let residential = pitchboard::session::Session::default().set("residential", None).unwrap().set.title.clone();
    assert!(
        said.contains("set by House rules")
            && said.contains(&format!("in place of 7-3/4\" (196 mm), set by {residential}")),
        "{said}"
    );
    let lines: Vec<&str> = said.lines().filter(|line| line.contains(".stair")).collect();
    let [loft, hide] = lines.as_slice() else { panic!("the two that are open: {said}") };
    assert!(loft.contains("loft.stair") && loft.contains("margin `0\"`"), "the least room first: {said}");
    assert!(hide.contains("hide.stair") && hide.contains("`7-1/4\" <= 7-1/2\"`, margin `1/4\"`"), "{said}");
    // The same of the limit where a clause reads it.
    let hover = editor.at("textDocument/hover", &set, place(text, "least", 1));
    assert!(told(&hover).starts_with("**least** 10-1/2\"") && told(&hover).contains("margin `1/2\"`"), "{hover}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_quantity_tells_how_it_comes_about_and_a_rule_is_told_in_full() {
    let (yard, mut editor) = opened();
    let (set, text) = (uri(&yard, "house.rules"), HOUSE);
    let run = quantity(kinds::TREAD, "run").unwrap();
    let hover = editor.at("textDocument/hover", &set, place(text, "run >= least", 0));
    let said = told(&hover);
    assert!(
        said.contains(run.source) && said.contains("Gives a length") && said.starts_with("**run** of tread"),
        "{said}"
    );
    let hover = editor.at("textDocument/hover", &set, place(text, "tread", 0));
    assert!(told(&hover).starts_with("**tread**"), "{hover}");
    for (words, nth, begins) in [
        ("each", 0, "**each**"),
        ("amends", 0, "**amends**"),
        ("passes", 0, "**passes**"),
        ("shall", 0, "**shall have**"),
        ("flight", 0, "**flight**"),
        ("risers", 0, "**risers**"),
        ("amend \"", 0, "**amend**"),
    ] {
        let hover = editor.at("textDocument/hover", &set, place(text, words, nth));
        assert!(told(&hover).starts_with(begins), "{words}: {hover}");
    }
    // The page of a rule is that of the command line.
    let file = yard.at("house.rules");
    let (code, page) = yard.run(&["rules", &file.to_string_lossy(), "riser height", "--markdown"]);
    assert_eq!(code, 0, "{page}");
    let hover = editor.at("textDocument/hover", &set, place(text, "riser height", 0));
    let heading =
        |text: &str| text.lines().map(|line| line.trim_start_matches('#').trim().to_owned()).collect::<Vec<_>>();
    assert_eq!(heading(told(&hover)), heading(page.trim_end()), "{page}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn names_lead_to_the_set_and_the_rule_below() {
    let (yard, mut editor) = opened();
    let (set, text) = (uri(&yard, "house.rules"), HOUSE);
    let mut to = |words: &str, nth: usize| editor.at("textDocument/definition", &set, place(text, words, nth));
    assert_eq!(to("residential", 0)[0]["uri"], "pitchboard:/residential.rules");
    let rule = to("riser height", 0);
    assert_eq!(rule[0]["uri"], "pitchboard:/residential.rules");
    let line = rule[0]["range"]["start"]["line"].as_u64().unwrap() as usize;
    let below = pitchboard::check::shipped("residential").unwrap();
    assert!(below.text.lines().nth(line).unwrap().contains("rule \"riser height\""), "{rule}");
    // Of a limit that is amended the one that it replaced; of one in a clause where it is set.
    let limit = to("tallest", 0);
    let line = limit[0]["range"]["start"]["line"].as_u64().unwrap() as usize;
    assert!(below.text.lines().nth(line).unwrap().contains("limit tallest"), "{limit}");
    assert_eq!(to("least", 1)[0]["range"]["start"], place(text, "least", 0));
    // A waiver leads to its rule.
    let waiving = stair("w", "8\"", "\"house.rules\"")
        .replace("width: 36\"", "waive \"riser height\" { why: \"old\"; by: \"J. Reed\" }");
    let design = uri(&yard, "w.stair");
    editor.open(&design, &waiving);
    let rule = editor.at("textDocument/definition", &design, place(&waiving, "riser height", 0));
    assert_eq!(rule[0]["uri"], "pitchboard:/residential.rules");
    // The read-only set itself is told of, too.
    let shipped = "pitchboard:/residential.rules";
    editor.open(shipped, &below.text);
    let hover = editor.at("textDocument/hover", shipped, place(&below.text, "limit tallest", 0));
    assert!(told(&hover).starts_with("**tallest** 7-3/4\""), "{hover}");
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_rule_is_found_in_every_design_of_the_folder_that_is_held_to_it() {
    let (yard, mut editor) = opened();
    let (set, text) = (uri(&yard, "house.rules"), HOUSE);
    let mut ask = |uri: &str, place: Value| {
        let params =
            json!({ "textDocument": { "uri": uri }, "position": place, "context": { "includeDeclaration": false } });
        let told = editor.ask("textDocument/references", params);
        let mut found: Vec<(String, Value)> = told["result"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| {
                let file = one["uri"].as_str().unwrap();
                (file.rsplit('/').next().unwrap().to_owned(), one["range"]["start"].clone())
            })
            .collect();
        found.sort_by_key(|(file, place)| (file.clone(), place.to_string()));
        found
    };
    // As it is amended: the three designs that ask for the set, open or not, at the words that it rests on.
    let design = stair("hide", "7-1/4\"", "\"house.rules\"");
    let risers = place(&design, "3 of", 0);
    let amended = ask(&set, place(text, "riser height", 0));
    let mut expected: Vec<(String, Value)> =
        ["hide.stair", "loft.stair", "shed.stair"].map(|file| (file.to_owned(), risers.clone())).to_vec();
    expected.insert(1, ("house.rules".to_owned(), place(text, "\"riser height\"", 0)));
    assert_eq!(amended, expected);
    let own = ask(&set, place(text, "easy going", 0));
    let files: Vec<&str> = own.iter().map(|(file, _)| file.as_str()).collect();
    assert_eq!(files, ["hide.stair", "loft.stair", "shed.stair"]);
    assert_eq!(own[0].1, place(&design, "2 of 11", 0));
    assert_eq!(editor.end(), 0);
}

#[test]
fn each_example_shows_what_it_came_to_as_the_proof_does() {
    let (yard, mut editor) = opened();
    let (set, text) = (uri(&yard, "house.rules"), HOUSE);
    let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } });
    let mut hints = |version: i32, text: &str| -> Vec<(u64, String)> {
        editor.change(&set, version, json!([{ "text": text }]));
        let told = editor.ask("textDocument/inlayHint", json!({ "textDocument": { "uri": set }, "range": all }));
        let hints = told["result"].as_array().unwrap().iter();
        hints
            .map(|hint| (hint["position"]["line"].as_u64().unwrap(), hint["label"].as_str().unwrap().to_owned()))
            .collect()
    };
    let line = |words: &str| place(text, words, 0)["line"].as_u64().unwrap();
    let first = line("passes");
    let came = hints(2, text);
    assert_eq!(came[..2], [(first, "as it should".to_owned()), (first + 1, "as it should".to_owned())]);
    assert_eq!(came[2].0, first + 2);
    // What the command line says of it.
    let (code, proof) = yard.run(&["rules", "house.rules", "--prove"]);
    assert_eq!(code, 1, "{proof}");
    let why = came[2].1.strip_prefix("not as it should: ").expect("it fails nothing");
    assert!(proof.contains(&format!("this example should fail; {why}")), "{why}: {proof}");
    // Live: the limit is lowered, and the examples come out otherwise.
    let lower = text.replace("tallest: 7-1/2\"", "tallest: 7-1/4\"");
    let came: Vec<bool> = hints(3, &lower).iter().map(|(_, label)| label == "as it should").collect();
    assert_eq!(came, [false, true, true]);
    let found = editor.found(&set, 3);
    let failed: Vec<&Value> = found.iter().filter(|one| one["code"] == "example failed").collect();
    assert_eq!(failed.len(), 1, "{found:?}");
    assert_eq!(failed[0]["range"]["start"]["line"], first);
    assert_eq!(editor.end(), 0);
}

/// The labels that are offered where the text has a `|`.
fn offered(editor: &mut Editor, uri: &str, version: i32, text: &str) -> Vec<Value> {
    let byte = text.find('|').unwrap();
    let text = text.replacen('|', "", 1);
    editor.change(uri, version, json!([{ "text": text }]));
    let told = editor.at("textDocument/completion", uri, at_byte(&text, byte));
    let mut items = told.as_array().unwrap().clone();
    items.sort_by_key(|item| item["sortText"].as_str().unwrap_or_default().to_owned());
    items
}

fn labels(items: &[Value]) -> Vec<&str> {
    items.iter().map(|item| item["label"].as_str().unwrap()).collect()
}

#[test]
fn what_may_come_next_in_a_set_is_offered_by_the_tables() {
    let (yard, mut editor) = opened();
    let set = uri(&yard, "house.rules");
    let mut version = 1;
    let head = "ruleset \"House rules\" { amends: residential }\n";
    let mut next = |text: &str| {
        version += 1;
        offered(&mut editor, &set, version, &format!("{head}{text}\n"))
    };
    let has = |items: &[Value], wanted: &[&str]| {
        let said = labels(items);
        wanted.iter().for_each(|word| assert!(said.contains(word), "no {word}: {said:?}"));
    };
    has(&next("|"), &["rule", "amend", "withdraw", "chapter"]);
    // Names of what can be amended, and not of what is amended already.
    let names = next("amend \"riser height\" { limit tallest: 7\" }\namend \"|\" { }");
    has(&names, &["tread depth"]);
    assert!(!labels(&names).contains(&"riser height"));
    // The limits of the rule with what they are now.
    let inside = next("amend \"riser height\" {\n    |\n}");
    assert_eq!(inside[0]["label"], "limit tallest", "{inside:?}");
    assert_eq!(inside[0]["insertText"], "limit tallest: 7-3/4\" (196 mm)");
    has(&inside, &["each", "because", "passes", "verb", "where"]);
    let rule = |clause: &str| format!("rule \"r\" {{\n    limit most: 7\"\n    {clause}\n    source: \"x\"\n}}");
    has(&next(&rule("each |")), &["flight", "riser", "riser board"]);
    has(&next(&rule("each riser |")), &["where", "shall have", "should have"]);
    // Every quantity of the kind, the rule's limit first.
    let values = next(&rule("each riser shall have |"));
    assert_eq!(values[0]["label"], "most");
    for entry in pitchboard::derive::quantities().filter(|entry| entry.kind == kinds::RISER) {
        has(&values, &[entry.name]);
    }
    has(&next(&rule("each flight shall have number of |")), &["handrails", "risers"]);
    has(&next(&rule("each tread shall have length >= width of |")), &["flight"]);
    has(&next(&rule("each flight shall have number of (handrails where |")), &["height"]);
    has(&next(&rule("each riser shall have height |")), &["<=", ">=", "is", "and"]);
    let setting = KINDS.iter().find(|kind| kind.name == "stair").unwrap().property("setting").unwrap();
    let pitchboard::model::Takes::OneOf(words) = setting.takes else { panic!("words") };
    has(&next(&rule("each tread where setting of stair is |")), words);
    // A name that is begun is put in the place of what is there.
    let begun = next(&rule("each stair shall have total r|"));
    let rise = begun.iter().find(|item| item["label"] == "total rise").expect("total rise");
    let range = &rise["textEdit"]["range"];
    assert_eq!(range["end"]["character"].as_u64().unwrap() - range["start"]["character"].as_u64().unwrap(), 7);
    // In an example what may stand in a stair, in its statements what may stand there.
    has(&next("rule \"r\" { each riser shall have height <= 7\"\n passes: |\n }"), &["flight", "handrail", "setting"]);
    has(&next("rule \"r\" { each riser shall have height <= 7\"\n passes: flight { | }\n }"), &["risers", "width"]);
    has(&next("rule \"r\" { sure: |\n }"), &["memory", "second hand"]);
    has(&next("rule \"r\" { waive: |\n }"), &["never"]);
    assert_eq!(next("# each |"), Vec::<Value>::new());
    assert_eq!(editor.end(), 0);
}

#[test]
fn a_heading_offers_sets_and_purposes() {
    let (yard, mut editor) = opened();
    let set = uri(&yard, "new.rules");
    editor.open(&set, "");
    let amends = offered(&mut editor, &set, 2, "ruleset \"n\" {\n    amends: |\n}\n");
    let said = labels(&amends);
    assert!(
        said.contains(&"\"house.rules\"") && said.contains(&"residential") && !said.contains(&"drawing"),
        "{said:?}"
    );
    let purposes = offered(&mut editor, &set, 3, "ruleset \"n\" {\n    for: |\n}\n");
    assert_eq!(labels(&purposes), ["dwelling", "shared", "public", "workplace", "accessible", "any"]);
    let heading = offered(&mut editor, &set, 4, "ruleset \"n\" {\n    basis: \"x\"\n    |\n}\n");
    let said = labels(&heading);
    assert!(said.contains(&"edition") && !said.contains(&"basis"), "{said:?}");
    assert_eq!(editor.end(), 0);
}

/// The slips of a clerk: each diagnostic that offers something has it as an action, which mends it and nothing else.
#[test]
fn slips_of_a_clerk_are_mended_by_what_their_messages_offer() {
    let yard = Yard::new();
    let (mut editor, _) = Editor::met(&yard, able(json!(["utf-8"])));
    let mut offered: Vec<String> = Vec::new();
    for case in ["clerk/plain-english", "clerk/units", "clauses", "slips", "amends-what-is-not-there"] {
        let marked = std::fs::read_to_string(format!("tests/cases/rules/{case}.rules")).unwrap();
        let text: String =
            marked.lines().map(|line| format!("{}\n", line.split("#=").next().unwrap().trim_end())).collect();
        let file = uri(&yard, &format!("{}.rules", case.replace('/', "-")));
        editor.open(&file, &text);
        let found = editor.found(&file, 1);
        let mut version = 1;
        for slip in &found {
            let params = json!({ "textDocument": { "uri": file }, "range": slip["range"], "context": { "diagnostics": [slip] } });
            let actions = editor.ask("textDocument/codeAction", params)["result"].as_array().unwrap().clone();
            for action in actions {
                let edits = action["edit"]["documentChanges"][0]["edits"].as_array().unwrap();
                let mended = edited(&text, edits);
                assert_ne!(mended, text);
                editor.change(&file, version + 1, json!([{ "text": mended }]));
                let left = editor.found(&file, version + 1);
                editor.change(&file, version + 2, json!([{ "text": text }]));
                editor.found(&file, version + 2);
                version += 2;
                let grave = |found: &[Value]| {
                    found.iter().filter(|one| one["severity"] == 1 && one["code"] != "example failed").count()
                };
                assert!(grave(&left) <= grave(&found), "{}: {left:?}", action["title"]);
                assert!(left.len() < found.len() + 2, "{}", action["title"]);
                offered.push(action["title"].as_str().unwrap().to_owned());
            }
        }
    }
    offered.sort();
    offered.dedup();
    for wanted in [
        "write `>=` in place of `at least`",
        "write `>=` in place of `=>`",
        "write `number of risers <= 16` in place of `no more than 16 risers`",
        "write `36\" <= depth <=` in place of `depth between 36\" and`",
        "write `lesser of width and` in place of `the lesser of width or`",
        "write `lesser of width and 44\"` in place of `min(width, 44\")`",
        "write `each landing` in place of `all landings`",
        "write `setting of stair` in place of `setting`",
        "write `number of risers >= 3` in place of `3 or more risers`",
        "write `#` in place of `//`",
        "write `limit least` in place of `least`",
    ] {
        assert!(offered.iter().any(|title| title == wanted), "{wanted} is not among {offered:#?}");
    }
    assert_eq!(editor.end(), 0);
}

#[test]
fn the_words_of_a_clause_and_of_an_example_have_their_colours() {
    let yard = Yard::new();
    let text = "rule \"low 🦆\" {\n    limit most: 7\" # a foot\n    each riser where shape of flight is straight shall have height <= most\n    \
                passes: flight { risers: 3 of 7\" }\n    source: \"x\"\n}\n";
    let file = uri(&yard, "a.rules");
    let (mut editor, can) = Editor::met(&yard, able(json!(["utf-16"])));
    let legend = can["semanticTokensProvider"]["legend"]["tokenTypes"].clone();
    editor.open(&file, text);
    let told = editor.ask("textDocument/semanticTokens/full", json!({ "textDocument": { "uri": file } }));
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
    for (words, of) in [
        ("rule", "keyword"),
        ("\"low 🦆\"", "string"),
        ("7\"", "number"),
        ("# a foot", "comment"),
        ("each", "keyword"),
        ("riser", "keyword"),
        ("flight", "keyword"),
        ("height", "property"),
        ("most", "variable"),
        ("passes", "keyword"),
        ("risers", "property"),
    ] {
        assert!(found.contains(&(words.to_owned(), of.to_owned())), "{words} as {of}: {found:?}");
    }
    // A set has an outline, folds and a layout, as a design has.
    let outline = editor.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": file } }));
    assert_eq!(outline["result"][0]["name"], "low 🦆");
    let folds = editor.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": file } }));
    assert_eq!(folds["result"][0]["startLine"], 0);
    assert_eq!(editor.end(), 0);
}
