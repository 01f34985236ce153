//! Every English sentence about a finding is made in `src/wording`: the stages before it give values. Their text
//! literals are read here, and one that looks like a sentence fails, but for the tables whose words are data.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// The stages that make no sentences.
const STAGES: &[&str] =
    &["base", "measure", "handbook", "mechanics", "syntax", "model", "derive", "rules", "check", "session"];

/// Files, or folders, whose words are no sentence about a finding, each with the reason.
const DATA: &[(&str, &str)] = &[
    ("base/notices.rs", "names of kinds of messages"),
    ("check/usual.rs", "the table of what is usually asked, and of quantities by their names"),
    ("measure/dimension.rs", "what a dimension is called"),
    ("measure/print.rs", "how a figure is written"),
    ("measure/style.rs", "names of units"),
    ("measure/unit.rs", "the table of units"),
    ("model/vocabulary.rs", "the table of kinds and properties"),
    ("model/in_units.rs", "examples in other units"),
    ("model/notation.rs", "the table of ways to write a value"),
    ("model/finishes.rs", "names of finishes"),
    ("model/timbers.rs", "names of timbers"),
    ("model/read.rs", "examples of values"),
    ("model/design.rs", "the path of an element"),
    ("model/expand.rs", "a word of the vocabulary"),
    ("derive/ask.rs", "what an error of the library says of itself"),
    ("derive/bearing.rs", "names of figures and their sources"),
    ("derive/coating.rs", "words that a quantity gives"),
    ("derive/datum.rs", "how a list is written"),
    ("derive/door.rs", "words that a quantity gives"),
    ("derive/flight.rs", "names of quantities"),
    ("derive/formula.rs", "how a formula is written"),
    ("derive/joint.rs", "words that a quantity gives"),
    ("derive/joint_strength.rs", "words that a quantity gives"),
    ("derive/joist.rs", "names of figures and their sources"),
    ("derive/load.rs", "names of figures and their sources"),
    ("derive/member.rs", "names of timbers and sources"),
    ("derive/overhead.rs", "words that a property takes"),
    ("derive/place.rs", "what a formula reads something of"),
    ("derive/push.rs", "names of figures and their sources"),
    ("derive/quantity.rs", "what the compiler says of a handle"),
    ("derive/step.rs", "names of quantities"),
    ("derive/stringer.rs", "names of quantities"),
    ("handbook", "words of the tables"),
    ("mechanics", "names of figures and their sources"),
    ("syntax/fragment_extent.rs", "tests only"),
    ("syntax/plain.rs", "phrases that a sign stands for"),
    ("rules/language.rs", "the table of the rule language"),
    ("rules/clause_text.rs", "clauses in the rule language"),
    ("rules/rule.rs", "clauses in the rule language"),
    ("rules/explain.rs", "clauses in the rule language"),
    ("rules/eval.rs", "names of verdicts"),
    ("check/standing.rs", "names of verdicts"),
    ("check/fix/search.rs", "values in the words of a design"),
    ("check/fix/seek.rs", "values in the words of a design"),
    ("check/shipped.rs", "the name of a shipped set's text"),
];

/// Fields of the declared tables (kinds, quantities, customs, units) whose texts are shown as they stand.
const ROWS: &[&str] = &["name", "help", "formula", "source", "sentence", "example"];

/// Files that still make sentences, until their findings are values too.
const NOT_YET: &[&str] = &[];

/// What a text literal is part of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// The pattern of a `format!`.
    Pattern,
    /// A field of a declared table.
    Row,
    Other,
}

/// The text literals of code; attributes, doc comments among them, and what stands under `#[cfg(test)]` are left out.
fn literals(code: TokenStream, found: &mut Vec<(String, Part)>) {
    let (mut tokens, mut before) = (code.into_iter(), [String::new(), String::new()]);
    let mut for_tests = false;
    while let Some(token) = tokens.next() {
        let written = token.to_string();
        match token {
            TokenTree::Punct(sign) if sign.as_char() == '#' => {
                let attribute = tokens.next().map(|token| token.to_string()).unwrap_or_default();
                // `#![...]`.
                let inner = if attribute == "!" { tokens.next() } else { None };
                for_tests |= inner.is_none() && attribute.replace(' ', "") == "[cfg(test)]";
            }
            TokenTree::Group(group) if for_tests && group.delimiter() == Delimiter::Brace => for_tests = false,
            TokenTree::Punct(sign) if for_tests && sign.as_char() == ';' => for_tests = false,
            _ if for_tests => {}
            TokenTree::Group(group) => {
                let inside = found.len();
                literals(group.stream(), found);
                if before == ["format", "!"] {
                    found.iter_mut().skip(inside).take(1).for_each(|(_, part)| *part = Part::Pattern);
                }
            }
            TokenTree::Literal(literal) => {
                if let syn::Lit::Str(text) = syn::Lit::new(literal) {
                    let row = before[1] == ":" && ROWS.contains(&before[0].as_str());
                    found.push((text.value(), if row { Part::Row } else { Part::Other }));
                }
            }
            _ => {}
        }
        before.rotate_left(1);
        before[1] = written;
    }
}

/// Whether a text reads as English: words with blanks between, what is quoted or put in left out.
fn is_sentence(text: &str, part: Part) -> bool {
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
    match part {
        Part::Row => false,
        Part::Pattern => words >= 1,
        Part::Other => bare.matches(' ').count() >= 2 && words >= 2,
    }
}

fn sentences() -> Vec<(String, String)> {
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
            let mut texts = Vec::new();
            literals(text.parse().expect("Rust"), &mut texts);
            let english = texts.into_iter().filter(|(text, part)| is_sentence(text, *part));
            found.extend(english.map(|(text, _)| (file.clone(), text)));
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
    for (text, part, seen) in [
        ("this brace closes nothing", Part::Other, true),
        ("this brace closes nothing", Part::Row, false),
        ("`{}` is no kind", Part::Pattern, true),
        ("a {} has no property `{name}`", Part::Pattern, true),
        ("riser height", Part::Other, false),
        ("{name}:{line}", Part::Pattern, false),
    ] {
        assert_eq!(is_sentence(text, part), seen, "{text}");
    }
    let code = r#"
        /// It is said in a remark.
        fn f() { let c = '"'; g(format!("a \"b\" {c}"), "two") }
        #[cfg(test)]
        mod tests { const X: &str = "not this one"; }
        const Y: Row = Row { help: "last" };
    "#;
    let mut found = Vec::new();
    literals(code.parse().expect("Rust"), &mut found);
    let texts: Vec<_> = found.iter().map(|(text, part)| (text.as_str(), *part)).collect();
    assert_eq!(texts, [("a \"b\" {c}", Part::Pattern), ("two", Part::Other), ("last", Part::Row)]);
}
