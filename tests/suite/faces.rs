//! Every face of a check over all examples and many broken cases: held to the schemas that ship, to the published one, and to
//! tables of elements; places counted once more; files whole or not there; nothing that a log would obey.
//!
//! `.ci/outside` holds the same files to readers of other make.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

use pitchboard::guide::TOPICS;
use pitchboard::report::{FACES, SCHEMAS};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use serde_json::Value;

/// The designs, from the root of the repository.
const DESIGNS: &[&str] = &[
    "examples",
    "tests/cases/notices",
    "tests/cases/reading",
    "tests/cases/shop",
    "tests/cases/rules",
    "tests/cases/twice",
    "tests/cases/building",
    "tests/cases/marsh-county",
    "tests/cases/waivers",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A folder of its own for each test, gone afterwards.
struct Yard(PathBuf);

impl Yard {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("pitchboard-faces-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn put(&self, name: &str, text: &str) {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.0.join(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
    }

    /// Names right in it.
    fn names(&self) -> BTreeSet<String> {
        let entries = fs::read_dir(&self.0).unwrap();
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
    }
}

impl Drop for Yard {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Exit code, standard output and standard error of a run in a folder.
fn run(folder: &Path, arguments: &[String]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
        .args(arguments)
        .current_dir(folder)
        .env("LC_ALL", "C.UTF-8")
        .env_remove("COLUMNS")
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().expect("no signal"), text(output.stdout), text(output.stderr))
}

/// Checks into a file for each face; gives what each holds.
fn every_face(folder: &Path, paths: &[&str], options: &[&str]) -> BTreeMap<&'static str, String> {
    // Tests that ask alike run at once, each in a folder of its own.
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    let yard = Yard::new(&format!("all-{}", NEXT.fetch_add(1, Ordering::Relaxed)));
    // Waivers hold until a day.
    let mut arguments = ["check", "--on", "2026-06-01"].map(str::to_owned).to_vec();
    arguments.extend(options.iter().chain(paths).map(|&argument| argument.to_owned()));
    for face in FACES {
        arguments.extend(["--as".to_owned(), format!("{}={}", face.name, yard.0.join(face.name).display())]);
    }
    let (code, printed, complained) = run(folder, &arguments);
    assert!((0..=2).contains(&code), "{code}: {complained}");
    assert_eq!((printed.as_str(), complained.as_str()), ("", ""));
    FACES.iter().map(|face| (face.name, yard.read(face.name))).collect()
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}: {}", &text[..text.len().min(200)]))
}

fn shipped(name: &str) -> Value {
    json(SCHEMAS.iter().find(|(known, _)| *known == name).expect(name).1)
}

fn refused(schema: &Value, value: &Value) -> Option<String> {
    let schema = jsonschema::options().should_validate_formats(true).build(schema).expect("a schema");
    schema.validate(value).err().map(|error| format!("{} at {}", error, error.instance_path()))
}

#[test]
fn json_is_as_the_shipped_schemas_say() {
    let told = every_face(root(), DESIGNS, &["--every-outcome", "--unsettled"]);
    let whole = json(&told["json"]);
    assert_eq!(refused(&shipped("json"), &whole), None);
    assert!(whole["designs"].as_array().unwrap().len() > 100);
    let issues = json(&told["code-quality"]);
    assert_eq!(refused(&shipped("code-quality"), &issues), None);
    let schema = jsonschema::validator_for(&shipped("lines")).unwrap();
    let lines: Vec<Value> = told["lines"].lines().map(json).collect();
    for (at, line) in lines.iter().enumerate() {
        assert!(schema.is_valid(line), "line {}: {line}", at + 1);
    }
    // All that can be told is told somewhere: a member that no design brings about would be held by nothing.
    let kinds: BTreeSet<&str> = lines.iter().map(|line| line["line"].as_str().unwrap()).collect();
    assert_eq!(kinds.len(), 7, "{kinds:?}");
    let mut met = BTreeSet::new();
    members(&whole, &mut met);
    let mut known = BTreeSet::new();
    properties(&shipped("json"), &mut known);
    let idle: Vec<_> = known.difference(&met).collect();
    assert!(idle.is_empty(), "nothing tells {idle:?}");
    // The line format says the same as the document.
    let of = |kind: &str| lines.iter().filter(|line| line["line"] == kind).count();
    let in_all = |name: &str| -> usize {
        whole["designs"].as_array().unwrap().iter().map(|design| design[name].as_array().unwrap().len()).sum()
    };
    assert_eq!(
        (of("finding"), of("not_checked"), of("outcome")),
        (in_all("findings"), in_all("not_checked"), in_all("outcomes"))
    );
    assert_eq!(of("rule"), whole["rules"].as_array().unwrap().len());
}

fn members(value: &Value, met: &mut BTreeSet<String>) {
    match value {
        Value::Object(object) => object.iter().for_each(|(name, value)| {
            met.insert(name.clone());
            members(value, met);
        }),
        Value::Array(items) => items.iter().for_each(|item| members(item, met)),
        _ => {}
    }
}

fn properties(schema: &Value, known: &mut BTreeSet<String>) {
    match schema {
        Value::Object(object) => {
            for (name, value) in object {
                if name == "properties" {
                    known.extend(value.as_object().unwrap().keys().cloned());
                }
                properties(value, known);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| properties(item, known)),
        _ => {}
    }
}

#[test]
fn what_is_not_as_a_schema_says_is_seen() {
    let yard = Yard::new("seen");
    yard.put("a.stair", "stair { rules: residential; flight { risers: 2 of 8\" } }");
    let told = every_face(&yard.0, &["a.stair"], &[]);
    let spoil = |face: &str, from: &str, to: &str| {
        assert!(told[face].contains(from), "{from}");
        json(&told[face].replacen(from, to, 1))
    };
    let sarif = json(&fs::read_to_string(root().join("tests/published/sarif-schema-2.1.0.json")).unwrap());
    for (schema, spoilt) in [
        (shipped("json"), spoil("json", "\"severity\":\"broken\"", "\"severity\":\"grave\"")),
        (shipped("json"), spoil("json", "\"line\":", "\"lime\":")),
        (shipped("json"), spoil("json", "\"version\":1", "\"version\":2")),
        (shipped("code-quality"), spoil("code-quality", "\"begin\":1", "\"begin\":0")),
        (sarif.clone(), spoil("sarif", "\"startLine\":1", "\"startLine\":0")),
        (sarif, spoil("sarif", "unicodeCodePoints", "bytes")),
    ] {
        assert!(refused(&schema, &spoilt).is_some());
    }
}

/// Members of one name mean the same in both.
#[test]
fn the_document_and_the_lines_are_described_alike() {
    let (document, lines) = (shipped("json"), shipped("lines"));
    let (document, lines) = (document["$defs"].as_object().unwrap(), lines["$defs"].as_object().unwrap());
    let mut shared = 0;
    for (name, described) in lines {
        match (document.get(name), name.strip_suffix("_line").and_then(|name| document.get(name))) {
            (Some(same), _) => assert_eq!(same, described, "{name}"),
            (None, Some(same)) => {
                for (member, of) in same["properties"].as_object().unwrap() {
                    let listed =
                        ["findings", "not_checked", "outcomes"].contains(&member.as_str()) && name == "design_line";
                    assert!(listed || described["properties"][member] == *of, "{member} of {name}");
                }
            }
            (None, None) => continue,
        }
        shared += 1;
    }
    assert!(shared >= 11, "{shared}");
}

/// The schema of the standard: OASIS, see `tests/published/sarif-schema-2.1.0.md`.
#[test]
fn sarif_is_as_the_published_schema_says() {
    let told = every_face(root(), DESIGNS, &["--every-outcome"]);
    let sarif = json(&told["sarif"]);
    let schema = json(&fs::read_to_string(root().join("tests/published/sarif-schema-2.1.0.json")).unwrap());
    assert_eq!(refused(&schema, &sarif), None);
    let run = &sarif["runs"][0];
    let rules: BTreeSet<&str> =
        run["tool"]["driver"]["rules"].as_array().unwrap().iter().map(|rule| rule["id"].as_str().unwrap()).collect();
    let results = run["results"].as_array().unwrap();
    // What a schema cannot say.
    for result in results {
        let id = result["ruleId"].as_str().unwrap();
        assert!(rules.contains(id), "no rule is {id}");
        let level = result["level"].as_str().unwrap();
        assert_eq!(result["kind"] == "fail", level != "none", "{result}");
        assert!(!result["message"]["text"].as_str().unwrap().is_empty(), "{result}");
    }
    let kinds: BTreeSet<&str> = results.iter().map(|result| result["kind"].as_str().unwrap()).collect();
    assert_eq!(kinds, BTreeSet::from(["fail", "open", "pass", "notApplicable"]));
    let taxonomies = run["taxonomies"].as_array().unwrap();
    for rule in run["tool"]["driver"]["rules"].as_array().unwrap() {
        for relation in rule["relationships"].as_array().into_iter().flatten() {
            let taxonomy = &taxonomies[relation["target"]["toolComponent"]["index"].as_u64().unwrap() as usize];
            assert_eq!(taxonomy["name"], relation["target"]["toolComponent"]["name"]);
            let taxa = taxonomy["taxa"].as_array().unwrap();
            assert!(taxa.iter().any(|taxon| taxon["id"] == relation["target"]["id"]), "{rule}");
        }
    }
    // A fix says by lines and columns what the document says by bytes.
    let whole = json(&told["json"]);
    let findings: Vec<&Value> =
        whole["designs"].as_array().unwrap().iter().flat_map(|design| design["findings"].as_array().unwrap()).collect();
    let failures: Vec<&Value> = results.iter().filter(|result| result["kind"] == "fail").collect();
    assert_eq!(findings.len(), failures.len());
    let mut mends = 0;
    for (finding, failure) in findings.iter().zip(failures) {
        assert_eq!(finding["fingerprint"], failure["partialFingerprints"]["ruleElementOutcome/v1"]);
        assert_eq!(finding["mend"].is_null(), failure["fixes"].is_null());
        let edits = finding["mend"]["edits"].as_array().into_iter().flatten();
        let replacements = failure["fixes"][0]["artifactChanges"][0]["replacements"].as_array().into_iter().flatten();
        for (edit, replacement) in edits.zip(replacements) {
            mends += 1;
            let region = &replacement["deletedRegion"];
            assert_eq!(edit["text"], replacement["insertedContent"]["text"]);
            assert_eq!(
                [&edit["start"]["line"], &edit["start"]["column"], &edit["end"]["line"], &edit["end"]["column"]],
                [&region["startLine"], &region["startColumn"], &region["endLine"], &region["endColumn"]]
            );
        }
    }
    assert!(mends > 10, "{mends}");
}

/// Every element with its attributes, by the element around it.
const JUNIT: &[(&str, &str, &[&str])] = &[
    ("", "testsuites", &["name"]),
    ("testsuites", "testsuite", &["errors", "failures", "name", "skipped", "tests"]),
    ("testsuite", "properties", &[]),
    ("properties", "property", &["name", "value"]),
    ("testsuite", "testcase", &["classname", "name"]),
    ("testcase", "skipped", &["message"]),
    ("testcase", "failure", &["message", "type"]),
    ("testcase", "error", &["message", "type"]),
    ("testcase", "system-out", &[]),
];
const CHECKSTYLE: &[(&str, &str, &[&str])] = &[
    ("", "checkstyle", &["version"]),
    ("checkstyle", "file", &["name"]),
    ("file", "error", &["column", "line", "message", "severity", "source"]),
];

/// The elements of a text: what stands around each, its name and its attributes.
fn elements(text: &str) -> Vec<(String, String, Vec<String>)> {
    let mut reader = Reader::from_str(text);
    reader.config_mut().check_end_names = true;
    let (mut found, mut around) = (Vec::new(), vec![String::new()]);
    let read = |start: &BytesStart<'_>, around: &[String]| {
        let name = String::from_utf8(start.name().as_ref().to_vec()).unwrap();
        let attributes = start.attributes().map(|attribute| {
            let attribute = attribute.unwrap();
            String::from_utf8(attribute.key.as_ref().to_vec()).unwrap()
        });
        let mut attributes: Vec<String> = attributes.collect();
        attributes.sort();
        (around.last().unwrap().clone(), name, attributes)
    };
    loop {
        match reader.read_event().unwrap() {
            Event::Start(start) => {
                let element = read(&start, &around);
                around.push(element.1.clone());
                found.push(element);
            }
            Event::Empty(start) => found.push(read(&start, &around)),
            Event::End(_) => _ = around.pop(),
            Event::Eof => break,
            _ => {}
        }
    }
    assert_eq!(around, [""], "all is closed");
    found
}

#[test]
fn xml_holds_the_elements_of_its_tables() {
    let told = every_face(root(), DESIGNS, &["--unsettled"]);
    for (face, table) in [("junit", JUNIT), ("checkstyle", CHECKSTYLE)] {
        let mut met = BTreeSet::new();
        for (around, name, attributes) in elements(&told[face]) {
            let row = table.iter().find(|row| row.0 == around && row.1 == name);
            let row = row.unwrap_or_else(|| panic!("{face}: `{name}` in `{around}`"));
            assert_eq!(attributes, row.2, "{face}: {name}");
            met.insert((row.0, row.1));
        }
        assert_eq!(met.len(), table.len(), "{face}: not all of its elements are met: {met:?}");
    }
}

/// Where a byte stands, counted from the start of the text.
fn counted(text: &str, byte: usize) -> (u64, u64) {
    let before = &text[..byte];
    let line = before.rsplit('\n').next().unwrap();
    let column = line.trim_start_matches('\u{feff}').chars().count();
    (before.matches('\n').count() as u64 + 1, column as u64 + 1)
}

fn places<'v>(value: &'v Value, found: &mut Vec<&'v Value>) {
    match value {
        Value::Object(object) => {
            if object.contains_key("bytes") {
                found.push(value);
            }
            object.values().for_each(|value| places(value, found));
        }
        Value::Array(items) => items.iter().for_each(|item| places(item, found)),
        _ => {}
    }
}

#[test]
fn every_place_is_where_counting_from_the_start_finds_it() {
    let yard = Yard::new("places");
    yard.put(
        "wide.stair",
        "\u{feff}stair \"é🦆\" { rules: residential; flight { risers: 2 of 8\" } }\r\n# ⅞ 🦆\r\nwall é { }\n",
    );
    let mut checked = 0;
    let mut here: Vec<String> = DESIGNS.iter().map(|path| root().join(path).to_string_lossy().into_owned()).collect();
    here.push("wide.stair".to_owned());
    let paths: Vec<&str> = here.iter().map(String::as_str).collect();
    let told = every_face(&yard.0, &paths, &[]);
    let whole = json(&told["json"]);
    let mut found = Vec::new();
    places(&whole, &mut found);
    let mut texts: BTreeMap<String, String> = BTreeMap::new();
    for place in found {
        let file = place["file"].as_str().unwrap();
        let text =
            texts.entry(file.to_owned()).or_insert_with(|| fs::read_to_string(yard.0.join(file)).unwrap_or_default());
        for (at, end) in ["start", "end"].iter().enumerate() {
            let byte = place["bytes"][at].as_u64().unwrap() as usize;
            let position = (place[end]["line"].as_u64().unwrap(), place[end]["column"].as_u64().unwrap());
            if text.is_char_boundary(byte) {
                assert_eq!(position, counted(text, byte), "{file}: {place}");
                checked += 1;
            }
        }
    }
    assert!(checked > 500, "{checked}");
}

#[test]
fn the_same_bytes_whatever_the_cores_and_however_the_paths_are_written() {
    let yard = Yard::new("bytes");
    yard.put("marsh/a b.stair", "stair { rules: residential; flight { risers: 2 of 8\" } }");
    yard.put("marsh/low/c.stair", "stair { rules: \"../own.rules\"; flight { risers: 2 of 8\"; colour: red } }");
    yard.put(
        "marsh/own.rules",
        "ruleset \"Own\" { amends: residential }\namend \"riser height\" { limit tallest: 7\"; source: \"us\" }",
    );
    yard.put("marsh/empty.stair", "");
    let told = every_face(&yard.0, &["marsh"], &["--every-outcome"]);
    let whole = yard.0.join("marsh").to_string_lossy().into_owned();
    let absolute = every_face(&yard.0, &[&whole], &["--every-outcome"]);
    for face in FACES.iter().filter(|face| !["full", "json"].contains(&face.name)) {
        assert_eq!(told[face.name], absolute[face.name], "{}", face.name);
        assert!(!told[face.name].contains(&*yard.0.to_string_lossy()), "{}", face.name);
    }
    let here = yard.0.to_string_lossy().into_owned();
    assert!(!absolute["json"].contains(&here), "a path of this machine");
    assert!(told["sarif"].contains("marsh/a%20b.stair"));
    let one = Command::new("taskset")
        .args(["-c", "0", env!("CARGO_BIN_EXE_pitchboard"), "check", "marsh", "--as", "json"])
        .current_dir(&yard.0)
        .output();
    if let Ok(one) = one.filter_success() {
        let (_, all, _) = run(&yard.0, &["check", "marsh", "--as", "json"].map(str::to_owned));
        assert_eq!(String::from_utf8(one).unwrap(), all);
    }
}

trait FilterSuccess {
    fn filter_success(self) -> Result<Vec<u8>, ()>;
}

impl FilterSuccess for std::io::Result<std::process::Output> {
    fn filter_success(self) -> Result<Vec<u8>, ()> {
        let output = self.map_err(|_| ())?;
        if output.stdout.is_empty() { Err(()) } else { Ok(output.stdout) }
    }
}

#[test]
fn a_file_is_whole_or_not_there() {
    let yard = Yard::new("whole");
    yard.put("a.stair", "stair { rules: residential; flight { risers: 2 of 8\" } }");
    yard.put("old.json", "what was there");
    yard.put("folder/x", "");
    let check = |file: &str| run(&yard.0, &["check", "a.stair", "--as", &format!("json={file}")].map(str::to_owned));
    let before = yard.names();
    for (file, why) in [
        ("gone/x.json", "its folder is not there"),
        ("folder", "it is a folder"),
        ("a.stair", "is a design, a set or a shop's file"),
        ("own.rules", "is a design, a set or a shop's file"),
        ("a.stair/x.json", "a part of its path is no folder"),
    ] {
        let (code, printed, complained) = check(file);
        assert_eq!((code, printed.as_str()), (2, ""), "{file}");
        assert_eq!(complained.lines().count(), 1, "{complained}");
        assert!(complained.contains(why) && complained.contains(file), "{file}: {complained}");
    }
    assert_eq!(yard.names(), before);
    // Another file of the same run stands all the same; what is there already is taken the place of, whole.
    assert_eq!(check("old.json").0, 1);
    json(&yard.read("old.json"));
    assert_eq!(yard.names(), before);
}

/// The limit of the shell on the size of a file stands for a full disk: the system takes a part, then refuses.
#[cfg(unix)]
#[test]
fn a_disk_that_takes_only_a_part_leaves_what_was_there() {
    let yard = Yard::new("full");
    yard.put("a.stair", "stair { rules: residential; flight { risers: 2 of 8\" } }");
    yard.put("old.json", "what was there");
    let before = yard.names();
    let line = format!(
        "trap '' XFSZ; ulimit -f 2; exec {} check a.stair --as json=old.json --as lines=new.jsonl",
        env!("CARGO_BIN_EXE_pitchboard")
    );
    let output = Command::new("sh").args(["-c", &line]).current_dir(&yard.0).output().unwrap();
    let complained = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{complained}");
    assert_eq!(complained.matches("could not be written").count(), 2, "{complained}");
    assert_eq!(yard.read("old.json"), "what was there");
    assert_eq!(yard.names(), before);
}

#[test]
fn faces_that_cannot_go_together_are_refused() {
    let yard = Yard::new("together");
    yard.put("a.stair", "stair { }");
    let check = |faces: &[&str]| {
        let mut arguments = vec!["check".to_owned(), "a.stair".to_owned()];
        arguments.extend(faces.iter().flat_map(|face| ["--as".to_owned(), (*face).to_owned()]));
        let (code, printed, complained) = run(&yard.0, &arguments);
        assert_eq!((code, printed.as_str()), (2, ""), "{faces:?}");
        complained
    };
    assert!(check(&["short", "full"]).contains("cannot both go to standard output"));
    assert!(check(&["json=x", "lines=./x"]).contains("cannot both be one file"));
    assert!(check(&["sarf"]).contains("did you mean `sarif`?"));
    assert!(check(&["nothing-of-the-kind"]).contains("there are full, short"));
    assert!(check(&["json="]).contains("json=report.json"));
    assert_eq!(yard.names(), BTreeSet::from(["a.stair".to_owned()]));
}

/// Names, titles and words of another person's files, in every face, in a file and on standard output.
#[test]
fn no_face_but_one_gives_commands_to_a_log() {
    let yard = Yard::new("log");
    let said = "::error::x ##[error]y ##vso[task]z";
    let text = format!(
        "stair \"{said}\" {{ rules: \"own.rules\"; flight {{ risers: 2 of 8\" }}; ::error::x: 3\n##[error]\n--- x\n }}"
    );
    for name in ["::error::a.stair", "##[error]b.stair", "--- c/d.stair"] {
        yard.put(name, &text);
    }
    let rule = format!(
        "rule \"{said}\" {{ each riser shall have height <= 7\"; source: \"{said}\"; because: \"::error::x\" }}"
    );
    yard.put(
        "own.rules",
        &format!("ruleset \"{said}\" {{ edition: \"{said}\"; caution: \"::error::{said}\" }}\n{rule}"),
    );
    yard.put("--- c/own.rules", &format!("ruleset \"{said}\" {{ }}\n{rule}"));
    let told = every_face(&yard.0, &["."], &["--unsettled", "--every-outcome"]);
    let command = |line: &&str| {
        let begins = line.trim_start();
        begins.starts_with("::") || begins.starts_with("--- ") || line.contains("##[") || line.contains("##vso[")
    };
    for face in FACES {
        let obeyed: Vec<&str> = told[face.name].lines().filter(command).collect();
        if face.commands {
            let own = ["::error ", "::warning ", "::notice "];
            assert!(obeyed.iter().all(|line| own.iter().any(|own| line.starts_with(own))), "{obeyed:#?}");
            assert_eq!(obeyed.len(), told[face.name].lines().count());
            assert!(!told[face.name].contains("##[") && !told[face.name].contains("##vso["));
        } else {
            assert!(obeyed.is_empty(), "{}: {obeyed:#?}", face.name);
            let said = if ["quiet", "summary"].contains(&face.name) { "3 files" } else { "riser" };
            assert!(told[face.name].contains(said), "{}", face.name);
        }
        let (_, printed, _) =
            run(&yard.0, &["check", ".", "--unsettled", "--every-outcome", "--as", face.name].map(str::to_owned));
        if face.ending != "txt" || face.commands {
            assert_eq!(printed, told[face.name], "{}: another on standard output", face.name);
        }
    }
    // Harmless, and still what they were.
    for face in ["json", "sarif", "code-quality"] {
        json(&told[face]);
    }
    let set = &json(&told["json"])["designs"][0]["sets"];
    assert!(set.as_array().unwrap().iter().any(|set| set["title"] == said), "{set}");
    elements(&told["junit"]);
    elements(&told["checkstyle"]);
}

#[test]
fn every_face_and_schema_is_where_its_readers_look() {
    let page = TOPICS.iter().find(|topic| topic.name == "faces").expect("a page").text;
    let (_, help, _) = run(root(), &["check", "--help"].map(str::to_owned));
    let (_, reference, _) = run(root(), &["reference", "--markdown"].map(str::to_owned));
    for face in FACES {
        assert!(page.contains(&format!("`{}`", face.name)), "the guide says nothing of {}", face.name);
        assert!(help.contains(&format!("  {} ", face.name)), "the help says nothing of {}", face.name);
        assert!(reference.contains(&format!("| `{}` |", face.name)), "the reference says nothing of {}", face.name);
    }
    for (name, text) in SCHEMAS {
        let (code, printed, _) = run(root(), &["reference", "--schema", name].map(str::to_owned));
        assert_eq!((code, printed.as_str()), (0, *text));
        assert!(FACES.iter().any(|face| face.schema == *name), "{name} is of no face");
    }
    let (code, printed, _) = run(root(), &["reference", "--schema", "none"].map(str::to_owned));
    assert!(code == 2 && printed.contains("json, lines"), "{printed}");
}
