//! What a waiver excuses and what a baseline knows, in every face: told, marked and counted, and never as a failure.

use serde_json::Value;

use crate::yard::Yard;

/// A library of three designs: a waiver for what is broken and for what is not stated; a fault that a baseline knows; a
/// new one.
fn library() -> Yard {
    let yard = Yard::with_house();
    yard.stair("known.stair", "8\"", "10\"");
    let (code, text) = yard.run(&["check", "--baseline", "b.known", "--record", "known.stair"]);
    assert_eq!(code, 0, "{text}");
    yard.put(
        "waived.stair",
        "stair \"waived\" {\n    flight {\n        risers: 2 of 8\"; runs: 10\"\n        \
         waive \"easy riser\" { why: \"the old <carriage>\"; by: \"J. Reed\"; until: 2027-03-01 }\n        \
         waive \"clear width\" { why: \"cut on the day\"; by: \"J. Reed\" }\n    }\n}\n",
    );
    yard
}

/// What a face says of the library, and the exit code.
fn face(yard: &Yard, name: &str) -> (i32, String) {
    let mut tool = yard.tool(&["check", "--on", "2026-06-01", "--strict", "--baseline", "b.known", "--as", name, "."]);
    let output = tool.output().expect("it runs");
    (output.status.code().expect("no signal"), String::from_utf8(output.stdout).expect("UTF-8"))
}

const RULE: &str = "risers 1 and 2: height is 8\", shall be at most 7-1/2\": 1/2\" too much";

#[test]
fn the_faces_of_lines_mark_what_is_excused_and_call_it_no_error() {
    let yard = library();
    let (code, text) = face(&yard, "short");
    assert_eq!(code, 0, "{text}");
    for line in [
        format!("known.stair:2:22: known: easy riser: {RULE} (a baseline knows it)"),
        format!(
            "waived.stair:3:17: waived: easy riser: {RULE} (waived until 2027-03-01; \"the old <carriage>\", J. Reed)"
        ),
    ] {
        assert!(text.lines().any(|told| told == line), "no `{line}`: {text}");
    }
    assert!(text.contains("nothing else broken") && text.contains("1 known") && text.contains("2 waived"), "{text}");
    let (code, text) = face(&yard, "annotations");
    assert_eq!(code, 0, "{text}");
    assert!(!text.contains("::error") && text.matches("::notice title=easy riser").count() == 2, "{text}");
    let (_, text) = face(&yard, "checkstyle");
    assert!(!text.contains("severity=\"error\"") && text.matches("severity=\"info\"").count() >= 2, "{text}");
    let (_, text) = face(&yard, "quiet");
    assert!(!text.lines().next().unwrap_or_default().contains("waived.stair"), "{text}");
    let (_, text) = face(&yard, "code-quality");
    let issues: Vec<Value> = serde_json::from_str(&text).expect("JSON");
    let graver: Vec<&Value> = issues.iter().filter(|issue| issue["severity"] != "info").collect();
    assert!(graver.is_empty() && issues.len() >= 2, "{graver:?}");
    // What nothing excuses is an error as before.
    yard.stair("new.stair", "8\"", "10\"");
    let (code, text) = face(&yard, "annotations");
    assert_eq!((code, text.matches("::error title=easy riser").count()), (1, 1), "{text}");
}

#[test]
fn the_faces_of_data_say_by_what_it_is_excused() {
    let yard = library();
    let (code, text) = face(&yard, "json");
    assert_eq!(code, 0, "{text}");
    let run: Value = serde_json::from_str(&text).expect("JSON");
    let of = |name: &str| {
        let designs = run["designs"].as_array().expect("designs");
        designs.iter().find(|design| design.to_string().contains(name)).unwrap_or(&Value::Null).clone()
    };
    let waived = of("waived.stair");
    let excuse = serde_json::json!({
        "how": "waived", "until": "2027-03-01", "why": "the old <carriage>", "by": "J. Reed"
    });
    assert_eq!(waived["findings"][0]["excused"], excuse, "{waived}");
    let open = waived["not_checked"].as_array().expect("waits");
    let width = open.iter().find(|wait| wait["rule"] == "clear width").expect("it is open");
    assert_eq!(width["excused"], serde_json::json!({ "how": "waived", "why": "cut on the day", "by": "J. Reed" }));
    assert_eq!((&waived["counts"]["waived"], &waived["counts"]["broken"]), (&2.into(), &0.into()), "{waived}");
    let known = of("known.stair");
    assert_eq!(known["findings"][0]["excused"], serde_json::json!({ "how": "known" }), "{known}");
    assert_eq!(known["counts"]["known"], 1, "{known}");

    let (_, text) = face(&yard, "sarif");
    let run: Value = serde_json::from_str(&text).expect("JSON");
    let results = run["runs"][0]["results"].as_array().expect("results");
    let failing = results.iter().filter(|result| result["kind"] == "fail");
    let kinds: Vec<&Value> = failing.map(|result| &result["suppressions"][0]["kind"]).collect();
    assert_eq!(kinds, ["external", "inSource"], "known, then waived");
    assert!(text.contains("waived until 2027-03-01; \\\"the old <carriage>\\\", J. Reed"), "{text}");
}

#[test]
fn the_faces_for_test_reports_and_for_readers_count_it_as_no_failure() {
    let yard = library();
    let (code, text) = face(&yard, "junit");
    assert_eq!(code, 0, "{text}");
    assert!(!text.contains("<failure") && !text.contains("<error"), "{text}");
    assert!(text.matches("<skipped").count() >= 3, "two waived, one known: {text}");
    let (_, text) = face(&yard, "compliance");
    assert!(
        text.contains("broken (waived until 2027-03-01; ") && text.contains("broken (a baseline knows it)"),
        "{text}"
    );
    assert!(text.contains("waived until 2027-03-01"), "{text}");
    let (_, text) = face(&yard, "summary");
    assert!(!text.contains("fails:") && text.contains("2 waived") && text.contains("1 known"), "{text}");
}
