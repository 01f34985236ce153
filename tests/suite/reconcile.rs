//! A library with one known fault in each design, run by the binary into files for machines: each fault is found there by
//! rule, grade and place, without a word of prose being read, and all of them count alike.

use std::fs;
use std::ops::Range;
use std::path::Path;
use std::process::Command;

use quick_xml::Reader;
use quick_xml::events::Event;
use serde_json::Value;

use crate::mutation::{Planted, planted};
use pitchboard::base::Severity;

/// Designs that lie in one folder.
const IN_A_FOLDER: usize = 50;

struct Library {
    folder: std::path::PathBuf,
    faults: Vec<(String, Planted)>,
}

impl Library {
    fn new() -> Self {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("reconcile-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        let named = planted().into_iter().enumerate().map(|(number, planted)| {
            let name = format!("shelf {}/{number:04}.stair", number / IN_A_FOLDER);
            let path = folder.join(&name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, &planted.text).unwrap();
            (name, planted)
        });
        let faults = named.collect();
        Self { folder, faults }
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.folder.join(name)).unwrap()
    }
}

impl Drop for Library {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

fn overlaps(start: u64, end: u64, words: &Range<usize>) -> bool {
    (start as usize) < words.end.max(words.start + 1) && words.start < (end as usize).max(start as usize + 1)
}

/// Byte of a line and a column in characters, counted here.
fn byte_of(text: &str, line: &Value, column: &Value) -> u64 {
    let (line, column) = (line.as_u64().unwrap() as usize, column.as_u64().unwrap() as usize);
    let start: usize = text.split_inclusive('\n').take(line - 1).map(str::len).sum();
    let within: usize = text[start..].chars().take(column - 1).map(char::len_utf8).sum();
    (start + within) as u64
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// In the document of JSON.
fn in_json(designs: &[Value], name: &str, of: &Planted) -> bool {
    let design = designs.iter().find(|design| design["design"] == name).expect(name);
    list(&design["findings"]).iter().any(|finding| {
        let said = finding["rule"].as_str().or(finding["notice"].as_str()).unwrap();
        let here = |place: &Value| {
            place["file"] == name
                && overlaps(place["bytes"][0].as_u64().unwrap(), place["bytes"][1].as_u64().unwrap(), &of.at)
        };
        of.finds.contains(&said)
            && finding["severity"] == of.severity.word()
            && list(&finding["places"]).iter().any(here)
    })
}

/// In SARIF.
fn in_sarif(results: &[Value], name: &str, of: &Planted) -> bool {
    let uri = name.replace(' ', "%20");
    let level = if of.severity == Severity::Advised { "warning" } else { "error" };
    results.iter().any(|result| {
        let rule = result["ruleId"].as_str().unwrap().split_once('/').unwrap().1;
        let here = |location: &Value| {
            let (at, region) = (&location["physicalLocation"], &location["physicalLocation"]["region"]);
            at["artifactLocation"]["uri"] == uri.as_str() && {
                let start = byte_of(&of.text, &region["startLine"], &region["startColumn"]);
                overlaps(start, byte_of(&of.text, &region["endLine"], &region["endColumn"]), &of.at)
            }
        };
        let mut places = list(&result["locations"]).iter().chain(list(&result["relatedLocations"]));
        result["kind"] == "fail" && result["level"] == level && of.finds.contains(&rule) && places.any(here)
    })
}

/// One case of JUnit: its suite, its name, what it holds.
struct Case {
    suite: String,
    name: String,
    holds: String,
}

/// The cases, and the sums of the suites: tests, failures, errors, skipped.
fn cases(text: &str) -> (Vec<Case>, [usize; 4]) {
    let (mut cases, mut sums, mut suite) = (Vec::new(), [0; 4], String::new());
    let mut reader = Reader::from_str(text);
    loop {
        match reader.read_event().unwrap() {
            Event::Start(element) | Event::Empty(element) => {
                let value = |name: &str| {
                    let attribute = element.try_get_attribute(name).unwrap();
                    let value = attribute.map(|attribute| String::from_utf8(attribute.value.to_vec()).unwrap());
                    value.unwrap_or_default().replace("&apos;", "'").replace("&quot;", "\"")
                };
                match element.name().as_ref() {
                    b"testsuite" => {
                        suite = value("name");
                        for (sum, name) in sums.iter_mut().zip(["tests", "failures", "errors", "skipped"]) {
                            *sum += value(name).parse::<usize>().unwrap();
                        }
                    }
                    b"testcase" => cases.push(Case { suite: suite.clone(), name: value("name"), holds: String::new() }),
                    b"failure" | b"error" => cases.last_mut().unwrap().holds = value("type"),
                    b"skipped" => cases.last_mut().unwrap().holds = "not checked".to_owned(),
                    b"system-out" => cases.last_mut().unwrap().holds = "advised".to_owned(),
                    _ => {}
                }
            }
            Event::Eof => return (cases, sums),
            _ => {}
        }
    }
}

#[test]
fn every_planted_fault_is_found_in_each_and_all_count_alike() {
    let library = Library::new();
    let faces = ["json=a.json", "sarif=a.sarif", "junit=a.xml", "summary=a.txt", "code-quality=a.cq"];
    let output = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
        .args(["check", "."])
        .args(faces.iter().flat_map(|face| ["--as", face]))
        .current_dir(&library.folder)
        .output()
        .unwrap();
    assert!(output.stdout.is_empty() && output.stderr.is_empty(), "{output:?}");

    let whole: Value = serde_json::from_str(&library.read("a.json")).unwrap();
    let sarif: Value = serde_json::from_str(&library.read("a.sarif")).unwrap();
    let (designs, results) = (list(&whole["designs"]), list(&sarif["runs"][0]["results"]));
    let (cases, [tests, failures, errors, skipped]) = cases(&library.read("a.xml"));
    let mut missed = Vec::new();
    for (name, of) in &library.faults {
        let in_junit = cases.iter().any(|case| {
            case.suite == *name && of.finds.contains(&case.name.as_str()) && case.holds == of.severity.word()
        });
        for (face, found) in
            [("json", in_json(designs, name, of)), ("sarif", in_sarif(results, name, of)), ("junit", in_junit)]
        {
            if !found {
                missed.push(format!("{face}: {name}: {:?}", of.finds));
            }
        }
    }
    assert!(missed.is_empty(), "{} faults are missed: {missed:#?}", missed.len());
    // The search itself: another rule, and other words, are not found.
    let (name, of) = &library.faults[0];
    let other = Planted { text: of.text.clone(), finds: &["no such rule"], at: of.at.clone(), ..*of };
    let elsewhere = Planted { text: of.text.clone(), at: 0..1, ..*of };
    for of in [other, elsewhere] {
        assert!(!in_json(designs, name, &of) && !in_sarif(results, name, &of));
    }

    // The same counts, by whatever way.
    let count = |name: &str| whole["totals"][name].as_u64().unwrap() as usize;
    let findings: Vec<&Value> = designs.iter().flat_map(|design| list(&design["findings"])).collect();
    let notices: Vec<&&Value> = findings.iter().filter(|finding| finding["notice"].is_string()).collect();
    let kind = |kind: &str| results.iter().filter(|result| result["kind"] == kind).count();
    assert_eq!(count("designs"), library.faults.len());
    assert_eq!(kind("fail"), findings.len());
    assert_eq!(kind("open"), designs.iter().map(|design| list(&design["not_checked"]).len()).sum::<usize>());
    assert_eq!(failures, count("broken"));
    assert_eq!(skipped, count("not_checked"));
    assert_eq!(errors, notices.iter().filter(|notice| notice["severity"] != "advised").count());
    let rules = count("broken") + count("advised") + count("passed") + count("not_checked");
    assert_eq!((tests, cases.len()), (rules + notices.len(), tests));
    let by_rule =
        |name: &str| -> u64 { list(&whole["rules"]).iter().map(|rule| rule["counts"][name].as_u64().unwrap()).sum() };
    for name in ["broken", "advised", "passed", "not_checked"] {
        assert_eq!(by_rule(name) as usize, count(name), "{name}");
        let by_design: u64 = designs.iter().map(|design| design["counts"][name].as_u64().unwrap()).sum();
        assert_eq!(by_design as usize, count(name), "{name}");
    }
    let failing = designs.iter().filter(|design| design["fails"] == true).count();
    assert_eq!(failing, count("failing"));
    let issues: Value = serde_json::from_str(&library.read("a.cq")).unwrap();
    assert_eq!(list(&issues).len(), findings.len());

    // The last row of the summary, and the rows above it.
    let summary = library.read("a.txt");
    assert_eq!(summary.lines().filter(|line| line.starts_with("fails: ")).count(), failing);
    let (_, folders) = summary.split_once("By folder").expect("folders");
    let row = |line: &str| -> Option<[usize; 6]> {
        let numbers: Vec<usize> = line.split_whitespace().rev().map_while(|word| word.parse().ok()).take(6).collect();
        let numbers: Vec<usize> = numbers.into_iter().rev().collect();
        numbers.try_into().ok()
    };
    let rows: Vec<[usize; 6]> = folders.lines().filter_map(row).collect();
    let (all, each) = rows.split_last().expect("the row of all");
    let wanted = ["designs", "failing", "broken", "advised", "not_checked", "passed"].map(count);
    assert_eq!(*all, wanted, "{folders}");
    assert_eq!(each.len(), library.faults.len().div_ceil(IN_A_FOLDER));
    for column in 0..6 {
        assert_eq!(each.iter().map(|row| row[column]).sum::<usize>(), all[column], "{folders}");
    }
    println!("{} faults found in each of three files; {} findings", library.faults.len(), findings.len());
}
