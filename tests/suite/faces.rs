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
    let day: &[&str] = if options.contains(&"--on") { &[] } else { &["--on", "2026-06-01"] };
    let mut arguments: Vec<String> = [&["check"], day].concat().into_iter().map(str::to_owned).collect();
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
    // A baseline of one folder, so that something is known.
    let yard = Yard::new("known");
    let known = yard.0.join("library.known").to_string_lossy().into_owned();
    let record = ["check", "tests/cases/twice", "--baseline", &known, "--record"].map(str::to_owned);
    assert_ne!(run(root(), &record).0, 2);
    let excused = ["--every-outcome", "--unsettled", "--baseline", &known];
    let told = every_face(root(), DESIGNS, &excused);
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

/// What fails a run, as each face has it, of one design and the options of a run: whether there is anything.
fn faults(yard: &Yard, design: &str, options: &[&str]) -> (i32, BTreeMap<&'static str, bool>) {
    let told = every_face(&yard.0, &[design], options);
    let paths = [&["check", design, "--as", "quiet"], options].concat();
    let code = run(&yard.0, &paths.iter().map(|&argument| argument.to_owned()).collect::<Vec<_>>()).0;
    let strict = options.contains(&"--strict");
    let whole = json(&told["json"]);
    let listed = |name: &str| whole["designs"][0][name].as_array().unwrap().clone();
    let counts = |item: &Value| item["excused"].is_null();
    let findings = listed("findings").iter().any(|item| counts(item) && item["severity"] != "advised");
    let waits = listed("not_checked").iter().any(|item| strict && counts(item) && item["required"] == true);
    let sarif = json(&told["sarif"]);
    let results = sarif["runs"][0]["results"].as_array().unwrap();
    let unsuppressed = |result: &&Value| result["suppressions"].as_array().expect("said of each").is_empty();
    // Whether what is open is required stands with its rule.
    let required = |result: &Value| {
        let mut rules = sarif["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap().iter();
        rules.any(|rule| rule["id"] == result["ruleId"] && rule["defaultConfiguration"]["level"] == "error")
    };
    let mut results = results.iter().filter(unsuppressed);
    let result =
        results.any(|result| result["level"] == "error" || strict && result["kind"] == "open" && required(result));
    let issues = json(&told["code-quality"]);
    let mut issues = issues.as_array().unwrap().iter();
    let has = |face: &str, words: &[&str]| words.iter().any(|words| told[face].contains(words));
    let short = told["short"].lines().filter(|line| line.starts_with(design));
    let words = [": broken: ", ": not understood: ", ": unchecked: "];
    let mut short =
        short.filter(|line| words.iter().any(|word| line.contains(word)) || line.contains(": not checked: "));
    let by_face = BTreeMap::from([
        ("json", findings || waits),
        ("json, the design", whole["designs"][0]["fails"] == true),
        ("json, the totals", whole["totals"]["failing"] == 1),
        ("lines", told["lines"].contains("\"fails\":true")),
        ("sarif", result),
        ("junit", has("junit", &["<failure", "<error"])),
        ("checkstyle", has("checkstyle", &["severity=\"error\""])),
        ("code-quality", issues.any(|issue| !["minor", "info"].contains(&issue["severity"].as_str().unwrap()))),
        ("annotations", has("annotations", &["::error "])),
        ("short", short.any(|line| !line.contains("(waived until"))),
        ("quiet", told["quiet"].contains(design)),
        ("summary", told["summary"].contains("fails: ")),
        ("compliance", has("compliance", &["| broken |", "(counts as broken)", "not understood: "])),
        ("full", has("full", &["broken: easy riser", "not checked fail", "not understood: "])),
    ]);
    (code, by_face)
}

/// House rules, and a drawing for each way in which something is excused or is not. All are checked on 2026-06-01.
fn excused() -> Yard {
    let yard = Yard::new(&format!("excused-{:?}", std::thread::current().id()).replace(['(', ')'], "-"));
    yard.put(
        "house.rules",
        "ruleset \"House rules\" { }\n\
         rule \"easy riser\" { each riser shall have height <= 7-1/2\"; source: \"common practice\" }\n\
         rule \"clear width\" { each flight shall have width >= 36\"; source: \"common practice\" }\n",
    );
    yard.put("shop.pitchboard", "shop \"Marsh joinery\" { rules: \"house.rules\" }\n");
    let waive = |rule: &str, until: &str| {
        format!("waive \"{rule}\" {{ why: \"the old door\"; by: \"J. Reed\"; until: {until} }}")
    };
    let wide = "; width: 36\"".to_owned();
    for (name, height, more) in [
        ("sound", "7", wide.clone()),
        ("fault", "8", wide.clone()),
        ("waived", "8", format!("{wide}; {}", waive("easy riser", "2026-06-01"))),
        ("expired", "8", format!("{wide}; {}", waive("easy riser", "2026-05-31"))),
        ("unneeded", "7", format!("{wide}; {}", waive("easy riser", "2026-06-01"))),
        ("open", "7", String::new()),
        ("open-waived", "7", format!("; {}", waive("clear width", "2026-06-01"))),
        ("known", "8", wide.clone()),
        ("open-known", "7", String::new()),
        ("slip", "8", format!("{wide}; colour: red; {}", waive("easy riser", "2026-06-01"))),
    ] {
        yard.put(
            &format!("{name}.stair"),
            &format!("stair \"{name}\" {{\n    flight {{ risers: 2 of {height}\"; runs: 10\"{more} }}\n}}\n"),
        );
    }
    let record = ["check", "known.stair", "open-known.stair", "--baseline", "library.known", "--record"];
    let (code, printed, complained) = run(&yard.0, &record.map(str::to_owned));
    assert_eq!((code, complained.as_str()), (0, ""), "{printed}");
    yard
}

const EXCUSED: [&str; 4] = ["--on", "2026-06-01", "--baseline", "library.known"];

#[test]
fn what_is_excused_fails_in_no_face_and_all_agree_with_the_exit_code() {
    let yard = excused();
    for (name, plain, strict) in [
        ("sound", 0, 0),
        ("fault", 1, 1),
        ("waived", 0, 0),
        ("expired", 1, 1),
        ("unneeded", 0, 0),
        ("open", 0, 1),
        ("open-waived", 0, 0),
        ("known", 0, 0),
        ("open-known", 0, 0),
        ("slip", 1, 1),
    ] {
        for (options, wanted) in [(EXCUSED.to_vec(), plain), ([&EXCUSED[..], &["--strict"]].concat(), strict)] {
            let (code, by_face) = faults(&yard, &format!("{name}.stair"), &options);
            assert_eq!(code, wanted, "{name} {options:?}");
            for (face, has) in by_face {
                assert_eq!(has, wanted == 1, "{name} {options:?}: {face}");
            }
        }
    }
    // Without the baseline, or a day later, it is otherwise.
    assert_eq!(faults(&yard, "known.stair", &["--on", "2026-06-01"]).0, 1);
    assert_eq!(faults(&yard, "waived.stair", &["--on", "2026-06-02"]).0, 1);
}

/// A report of tests is red, and an entry an error, exactly where the run fails, whatever was chosen to fail it.
#[test]
fn a_format_with_levels_of_its_own_says_error_where_the_run_fails() {
    let yard = excused();
    let advice = "rule \"low riser\" { each riser should have height <= 6\"; source: \"common practice\" }\n\
        rule \"high room\" { each flight should have width >= 37\"; source: \"common practice\" }\n";
    yard.put("house.rules", &(yard.read("house.rules") + advice));
    yard.put("low.stair", "stair \"low\" { flight { risers: 2 of 5\"; runs: 11\"; width: 38\" } }");
    let designs = ["low", "sound", "fault", "waived", "expired", "open", "open-waived", "known", "open-known", "slip"];
    let levels = ["none", "broken", "advised", "not-checked", "not-understood"];
    let more = ["broken,not-checked", "advised,not-checked", "advised,not-understood", "broken,advised,not-checked"];
    let mut came = BTreeSet::new();
    for design in designs {
        for level in levels.iter().chain(&more) {
            let file = format!("{design}.stair");
            let arguments = [&["check", &file, "--as", "junit", "--fail-on", level], &EXCUSED[..]].concat();
            let arguments: Vec<String> = arguments.into_iter().map(str::to_owned).collect();
            let (code, printed, _) = run(&yard.0, &arguments);
            let red = printed.contains("<failure") || printed.contains("<error");
            assert_eq!(red, code == 1, "{design}, {level}: {printed}");
            came.insert((*level, code));
            // So is every other format in which an entry is an error or none.
            let told = every_face(&yard.0, &[&file], &[&["--fail-on", level], &EXCUSED[..]].concat());
            let issues = json(&told["code-quality"]);
            let grave = |issue: &Value| ["blocker", "critical", "major"].contains(&issue["severity"].as_str().unwrap());
            assert_eq!(told["checkstyle"].contains("severity=\"error\""), red, "{design}, {level}");
            assert_eq!(told["annotations"].contains("::error "), red, "{design}, {level}");
            assert_eq!(issues.as_array().unwrap().iter().any(grave), red, "{design}, {level}");
            let sarif = json(&told["sarif"]);
            let mut results = sarif["runs"][0]["results"].as_array().unwrap().iter();
            let error = |result: &Value| {
                result["level"] == "error" && result["suppressions"].as_array().expect("said of each").is_empty()
            };
            // What is open has no level there.
            let is_error = results.any(error);
            assert!(is_error == red || red && level.contains("not-checked"), "{design}, {level}: {is_error}");
        }
    }
    assert_eq!(came.len(), 2 * (levels.len() + more.len()) - 1, "each fails somewhere, but for none: {came:?}");
}

/// Two files of sets with one title, and rules of one name that differ.
#[test]
fn sets_of_one_title_have_a_descriptor_each() {
    let yard = Yard::new("one-title");
    for (place, tallest) in [("upper", "7"), ("lower", "6")] {
        yard.put(
            &format!("{place}/house.rules"),
            &format!(
                "ruleset \"House rules\" {{ edition: \"{place}\" }}\n\
                 rule \"easy riser\" {{ each riser shall have height <= {tallest}\"; source: \"{place} yard\" }}\n"
            ),
        );
        yard.put(
            &format!("{place}/hide.stair"),
            "stair \"hide\" { rules: \"house.rules\"; flight { risers: 2 of 8\"; runs: 10\" } }",
        );
    }
    let told = every_face(&yard.0, &["upper", "lower"], &[]);
    let sarif = json(&told["sarif"]);
    let run = &sarif["runs"][0];
    let driver = &run["tool"]["driver"];
    for place in ["upper", "lower"] {
        let id = format!("House rules ({place}/house.rules)/easy riser");
        let of: Vec<&Value> =
            driver["rules"].as_array().unwrap().iter().filter(|rule| rule["id"] == id.as_str()).collect();
        assert_eq!(of.len(), 1, "{id}");
        assert_eq!(of[0]["properties"]["edition"], place);
        let results: Vec<&Value> =
            run["results"].as_array().unwrap().iter().filter(|result| result["ruleId"] == id.as_str()).collect();
        assert_eq!(results.len(), 1, "{id}");
        let at = &results[0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
        assert_eq!(at, format!("{place}/hide.stair").as_str());
        let target = &of[0]["relationships"][0]["target"]["toolComponent"];
        let taxonomy = &run["taxonomies"][target["index"].as_u64().unwrap() as usize];
        assert_eq!((&taxonomy["name"], &taxonomy["version"]), (&target["name"], &Value::from(place)));
        assert_eq!(taxonomy["taxa"][0]["id"], format!("{place} yard").as_str());
    }
}

/// Things that share a finding, drawn the other way round.
#[test]
fn a_fingerprint_does_not_depend_on_the_order_of_the_drawing() {
    let yard = Yard::new("other-way-round");
    let (left, right) = ("handrail left { height: 30\" }", "handrail right { height: 30\" }");
    let (high_left, high_right) = ("handrail left { height: 36\" }", "handrail right { height: 36\" }");
    let all = ["flight { risers: 4 of 8\"; runs: 3 of 9\"; width: 30\" }", left, right, "landing top { depth: 20\" }"];
    let fingerprints = |parts: &[&str]| {
        yard.put("hide.stair", &format!("stair \"hide\" {{\nrules: residential\n{}\n}}\n", parts.join("\n")));
        let whole = json(&every_face(&yard.0, &["hide.stair"], &[])["json"]);
        let findings = whole["designs"][0]["findings"].as_array().unwrap();
        let of = |finding: &Value| (finding["rule"].to_string(), finding["fingerprint"].to_string());
        findings.iter().map(of).collect::<BTreeSet<(String, String)>>()
    };
    let first = fingerprints(&all);
    assert!(first.len() >= 4 && first.iter().any(|(rule, _)| rule.contains("handrail height")), "{first:?}");
    for order in [[0, 2, 1, 3], [3, 2, 1, 0], [2, 0, 3, 1]] {
        assert_eq!(fingerprints(&order.map(|at| all[at])), first, "{order:?}");
    }
    // One of a group by itself is another finding than the other by itself.
    let [flight, .., top] = all;
    assert_ne!(fingerprints(&[flight, left, high_right, top]), fingerprints(&[flight, high_left, right, top]));
}

#[test]
fn what_is_excused_stands_in_every_face_with_the_reason() {
    let yard = excused();
    let told = every_face(&yard.0, &["."], &[&EXCUSED[..], &["--unsettled", "--every-outcome"]].concat());
    let leave = "waived until 2026-06-01; \"the old door\", J. Reed";
    let known = "a baseline knows it";
    let totals = &json(&told["json"])["totals"];
    // Two waivers of a broken rule and one of an open one; what is known and open stays not checked.
    assert_eq!([&totals["waived"], &totals["known"]], [3, 1], "{totals}");
    let open = totals["not_checked"].as_u64().unwrap() as usize;
    assert_eq!([&totals["broken"], &totals["failing"]], [2, 3], "{totals}");
    let whole = json(&told["json"]);
    let all = |name: &str| -> Vec<Value> {
        let designs = whole["designs"].as_array().unwrap().iter();
        designs.flat_map(|design| design[name].as_array().unwrap().clone()).collect()
    };
    let items = [all("findings"), all("not_checked")].concat();
    let waived: Vec<&Value> = items.iter().filter(|item| item["excused"]["by"] == "J. Reed").collect();
    let of_known = |items: &[Value]| items.iter().filter(|item| item["excused"]["how"] == "known").count();
    let (known_findings, known_waits) = (of_known(&all("findings")), of_known(&all("not_checked")));
    assert_eq!((waived.len(), known_findings, known_waits), (3, 1, 1));
    for item in waived {
        let Value::Object(excused) = &item["excused"] else { panic!("{item}") };
        let said: Vec<&Value> = ["how", "until", "why", "by"].iter().map(|name| &excused[*name]).collect();
        assert_eq!(said, ["waived", "2026-06-01", "the old door", "J. Reed"]);
    }
    let outcomes = all("outcomes");
    let of_house = outcomes.iter().filter(|outcome| outcome["set"] == "House rules");
    let of_house: Vec<&Value> = of_house.collect();
    let of = |how: &str| of_house.iter().filter(|outcome| outcome["excused"]["how"] == how).count();
    // Two risers to a flight.
    assert_eq!((of("waived"), of("known")), (5, 3));

    let sarif = json(&told["sarif"]);
    let results = sarif["runs"][0]["results"].as_array().unwrap();
    let suppressed = |kind: &str, why: &str| {
        let all = results.iter().flat_map(|result| result["suppressions"].as_array().expect("said of each"));
        all.filter(|of| of["kind"] == kind && of["status"] == "accepted" && of["justification"] == why).count()
    };
    assert_eq!((suppressed("inSource", leave), suppressed("external", known)), (3, 2));
    for suppression in results.iter().flat_map(|result| result["suppressions"].as_array().unwrap()) {
        // The waiver stands where it is said to.
        let place = &suppression["location"]["physicalLocation"];
        let (Some(file), region) = (place["artifactLocation"]["uri"].as_str(), &place["region"]) else {
            assert_eq!(suppression["kind"], "external");
            continue;
        };
        let at = |name: &str| region[name].as_u64().unwrap() as usize - 1;
        let line = yard.read(file).lines().nth(at("startLine")).unwrap().to_owned();
        let named = &line[at("startColumn")..at("endColumn")];
        assert!(["\"easy riser\"", "\"clear width\""].contains(&named), "{named}");
        assert!(line[..at("startColumn")].ends_with("waive "), "{line}");
    }
    assert!(results.iter().all(|result| result["baselineState"].is_null()));

    let skipped: Vec<&str> = told["junit"].lines().filter(|line| line.contains("<skipped")).collect();
    let quoted = leave.replace('"', "&quot;");
    let with = |words: &str| skipped.iter().filter(|line| line.contains(words)).count();
    // A case for each rule, which counts.
    assert_eq!((skipped.len(), with(&quoted), with(known)), (open + 3 + 1, 3, 2), "{skipped:#?}");

    let info: Vec<&str> = told["checkstyle"].lines().filter(|line| line.contains("severity=\"info\"")).collect();
    let with = |words: &str| info.iter().filter(|line| line.contains(words)).count();
    let waits = all("not_checked").len();
    assert_eq!((info.len(), with(&quoted), with(known)), (waits + 2 + 1, 3, 2), "{info:#?}");

    let issues = json(&told["code-quality"]);
    let info = issues.as_array().unwrap().iter().filter(|issue| issue["severity"] == "info");
    let info: Vec<&str> = info.map(|issue| issue["description"].as_str().unwrap()).collect();
    let with = |words: &str| info.iter().filter(|said| said.contains(words)).count();
    assert_eq!((info.len(), with(leave), with(known)), (waits + 2 + 1, 3, 2), "{info:#?}");

    let with = |face: &str, words: &str| told[face].lines().filter(|line| line.contains(words)).count();
    for face in ["annotations", "short"] {
        assert_eq!((with(face, leave), with(face, known)), (3, 2), "{face}: {}", told[face]);
    }
    assert_eq!((with("short", ": waived: easy riser: "), with("short", ": known: easy riser: ")), (2, 1));
    let shown = |why: &str| told["compliance"].lines().filter(|line| line.contains(&format!(" ({why}) |"))).count();
    assert_eq!((shown(leave), shown(known)), (3, 2), "{}", told["compliance"]);
    assert_eq!(with("full", "  waived until 2026-06-01, line 2: "), 3);
    for face in ["full", "short", "quiet", "summary"] {
        let counts = "10 files: 2 rules broken, ";
        assert!(told[face].contains(counts) && told[face].contains("3 waived, 1 known"), "{face}: {}", told[face]);
        assert!(told[face].contains("baseline library.known: "), "{face}");
    }
    let head = told["summary"].lines().find(|line| line.contains("folder ")).expect("a table");
    assert!(head.contains("waived  known"), "{head}");
    let all = told["summary"].lines().find(|line| line.trim_start().starts_with("all ")).expect("the last row");
    let all: Vec<&str> = all.split_whitespace().collect();
    assert_eq!([all[1], all[2], all[3], all[all.len() - 2], all[all.len() - 1]], ["10", "3", "2", "3", "1"]);
    // The two waivers that excuse nothing are told wherever a reader's notice is.
    for face in ["full", "short", "json", "lines", "sarif", "junit", "checkstyle", "code-quality", "annotations"] {
        for notice in ["expired waiver", "unneeded waiver"] {
            assert!(told[face].contains(notice), "{face}: {notice}");
        }
    }
}

#[test]
fn what_a_run_remarks_goes_to_people_and_never_into_what_a_program_reads() {
    let yard = excused();
    yard.put("sketches/a.stair", "stair { }");
    let arguments = |more: &[&str]| -> Vec<String> {
        let all = [&["check", ".", "--without", "sketches/"], &EXCUSED[..], more].concat();
        all.iter().map(|&argument| argument.to_owned()).collect()
    };
    let remarks = ["baseline library.known: ", "passed over: 1 "];
    for face in FACES {
        let (_, printed, complained) = run(&yard.0, &arguments(&["--as", face.name]));
        for remark in remarks {
            assert_eq!(printed.contains(remark), face.remarks, "{}: {printed}", face.name);
            assert_eq!(complained.contains(remark), !face.remarks, "{}: {complained}", face.name);
        }
        match face.name {
            "json" | "sarif" | "code-quality" => _ = json(&printed),
            "lines" => printed.lines().for_each(|line| _ = json(line)),
            "junit" | "checkstyle" => _ = elements(&printed),
            _ => {}
        }
    }
    // One face for people is enough, and a baseline that is none is no part of a document.
    let (_, printed, complained) = run(&yard.0, &arguments(&["--as", "json", "--as", "quiet=quiet.txt"]));
    json(&printed);
    assert_eq!(complained, "");
    assert!(remarks.iter().all(|remark| yard.read("quiet.txt").contains(remark)));
    yard.put("library.known", "none");
    let (code, printed, complained) = run(&yard.0, &arguments(&["--as", "json"]));
    assert_eq!((code, printed.as_str()), (2, ""), "{complained}");
    assert!(complained.contains("library.known"), "{complained}");
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
        ("OWN.STAIR", "is a design, a set or a shop's file"),
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

/// Whoever laid a link need not be who asks for the file.
#[cfg(unix)]
#[test]
fn a_link_leads_no_face_over_a_design() {
    let yard = Yard::new("link");
    let design = "stair { rules: residential; flight { risers: 2 of 8\" } }";
    yard.put("a.stair", design);
    std::os::unix::fs::symlink("a.stair", yard.0.join("report.json")).unwrap();
    std::os::unix::fs::symlink("new.stair", yard.0.join("a.known")).unwrap();
    let before = yard.names();
    for options in [&["--as", "json=report.json"][..], &["--baseline", "a.known", "--record"]] {
        let arguments: Vec<String> =
            ["check", "a.stair"].iter().chain(options).map(|word| (*word).to_owned()).collect();
        let (code, _, complained) = run(&yard.0, &arguments);
        assert_eq!(code, 2, "{options:?}");
        assert!(complained.contains("is a design, a set or a shop's file"), "{complained}");
    }
    assert_eq!((yard.read("a.stair").as_str(), yard.names()), (design, before));
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
    let one = ["check", "a.stair", "--as", "json=x", "--baseline", "./x", "--record"].map(str::to_owned);
    let (code, _, complained) = run(&yard.0, &one);
    assert!(code == 2 && complained.contains("`json` and the baseline cannot both be one file"), "{complained}");
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
