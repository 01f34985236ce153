//! Every English sentence about a finding is made in `src/wording`: the stages before it give values. Their text
//! literals are read here, and one that looks like a sentence fails, but for the tables whose words are data.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The stages that make no sentences.
const STAGES: &[&str] = &["base", "measure", "syntax", "model", "derive", "rules", "check", "session"];

/// Files, or folders, whose words are no sentence about a finding, each with the reason.
const DATA: &[(&str, &str)] = &[
    ("base/notices.rs", "names of kinds of messages"),
    ("measure/dimension.rs", "what a dimension is called"),
    ("measure/print.rs", "how a figure is written"),
    ("measure/style.rs", "how a unit is written"),
    ("measure/written.rs", "the table of ways to write a figure"),
    ("model/vocabulary.rs", "the table of kinds and properties"),
    ("model/notation.rs", "the table of ways to write a value"),
    ("model/timbers.rs", "names of timbers"),
    ("model/read.rs", "examples of values"),
    ("model/design.rs", "the path of an element"),
    ("derive/", "the catalogue: formulas, sources, customs"),
    ("syntax/plain.rs", "phrases that a sign stands for"),
    ("rules/language.rs", "the table of the rule language"),
    ("rules/wording.rs", "clauses in the rule language"),
    ("rules/rule.rs", "clauses in the rule language"),
    ("rules/explain.rs", "clauses in the rule language"),
    ("check/shipped.rs", "the name of a shipped set's text"),
];

/// Files that still make sentences, until their findings are values too.
const NOT_YET: &[&str] = &["check/telling.rs", "check/remedy.rs", "check/change.rs", "check/mod.rs", "rules/eval.rs"];

/// The text literals of a file with their lines, and whether each is the pattern of a `format!`; tests are left out.
fn literals(text: &str) -> Vec<(usize, String, bool)> {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        if rest.starts_with("//") {
            at += rest.find('\n').unwrap_or(rest.len());
        } else if c == '\'' && (rest.starts_with("'\\") || rest.chars().nth(2) == Some('\'')) {
            let mut inside = rest.char_indices().skip(if rest.starts_with("'\\") { 3 } else { 2 });
            at += inside.find(|(_, c)| *c == '\'').map_or(1, |(end, _)| end + 1);
        } else if c == '"' {
            let mut end = 1;
            while !rest[end..].starts_with('"') {
                end += if rest[end..].starts_with('\\') { 1 } else { 0 };
                end += rest[end..].chars().next().map_or(1, char::len_utf8);
            }
            let pattern = text[..at].trim_end().ends_with("format!(");
            found.push((1 + text[..at].matches('\n').count(), rest[1..end].to_owned(), pattern));
            at += end + 1;
        } else {
            at += c.len_utf8();
        }
    }
    found
}

/// Whether a text reads as English: words with blanks between, what is quoted or put in left out.
fn is_sentence(text: &str, pattern: bool) -> bool {
    let mut bare = String::new();
    let (mut quoted, mut put_in) = (false, 0_i32);
    for c in text.chars() {
        match c {
            '`' => quoted = !quoted,
            '{' => put_in += 1,
            '}' => put_in -= 1,
            other if !quoted && put_in == 0 => bare.push(other),
            _ => {}
        }
    }
    let words = bare.split(|c: char| !c.is_alphabetic());
    let words = words.filter(|word| word.len() > 1 && word.chars().all(|c| c.is_ascii_lowercase())).count();
    bare.matches(' ').count() >= 2 && words >= 2 || pattern && words >= 1
}

fn sentences() -> Vec<(String, usize, String)> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    for stage in STAGES {
        for entry in walkdir::WalkDir::new(src.join(stage)).sort_by_file_name() {
            let entry = entry.expect("src is there");
            if entry.path().extension().is_none_or(|ending| ending != "rs") {
                continue;
            }
            let file = entry.path().strip_prefix(&src).expect("inside").to_string_lossy().replace('\\', "/");
            let text = fs::read_to_string(entry.path()).expect("text");
            let said = literals(&text).into_iter().filter(|(_, text, pattern)| is_sentence(text, *pattern));
            found.extend(said.map(|(line, text, _)| (file.clone(), line, text)));
        }
    }
    found
}

#[test]
fn only_the_wording_makes_sentences() {
    let found = sentences();
    let exempt =
        |file: &str| DATA.iter().map(|(exempt, _)| exempt).chain(NOT_YET).find(|exempt| file.starts_with(**exempt));
    let stray: Vec<_> = found.iter().filter(|(file, ..)| exempt(file).is_none()).collect();
    assert!(stray.is_empty(), "sentences outside of src/wording: {stray:#?}");
    let met: BTreeSet<&str> = found.iter().filter_map(|(file, ..)| exempt(file).copied()).collect();
    let idle: Vec<_> = DATA.iter().map(|(file, _)| file).chain(NOT_YET).filter(|file| !met.contains(**file)).collect();
    assert!(idle.is_empty(), "nothing is left to except in {idle:?}");
}

/// The reader itself.
#[test]
fn a_sentence_is_seen() {
    for (text, pattern, seen) in [
        ("this brace closes nothing", false, true),
        ("`{}` is no kind", true, true),
        ("a {} has no property `{name}`", true, true),
        ("riser height", false, false),
        ("{name}:{line}", true, false),
        ("largest", false, false),
    ] {
        assert_eq!(is_sentence(text, pattern), seen, "{text}");
    }
    let code = "// it is said \"in a remark here\"\nlet c = '\"'; let d = '\\''; f(format!(\"a \\\"b\\\" {c}\"), \"two\")\n#[cfg(test)]\n\"x\"";
    assert_eq!(literals(code), [(2, "a \\\"b\\\" {c}".to_owned(), true), (2, "two".to_owned(), false)]);
}
