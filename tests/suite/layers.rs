//! The stages import one way, and so do the files of a stage: a stage that names a later one fails here, and so does a
//! circle of files.

use std::fs;
use std::path::{Path, PathBuf};

use crate::imports::{self, Crate, Edges, circles, way};

/// Every stage with the stages it may import.
const STAGES: &[(&str, &[&str])] = &[
    ("base", &[]),
    ("measure", &["base"]),
    ("handbook", &[]),
    ("mechanics", &["base", "measure", "handbook"]),
    ("syntax", &["base", "measure"]),
    ("model", &["base", "measure", "syntax", "handbook"]),
    ("derive", &["base", "measure", "model", "handbook", "mechanics"]),
    ("rules", &["base", "measure", "syntax", "model", "derive"]),
    ("check", &["base", "measure", "syntax", "model", "derive", "rules"]),
    ("session", &["base", "measure", "syntax", "model", "derive", "rules", "check"]),
    ("wording", &["base", "measure", "syntax", "model", "derive", "rules", "check", "handbook", "mechanics"]),
    ("report", &["base", "measure", "model", "derive", "rules", "check", "wording", "handbook", "mechanics"]),
    ("guide", &[]),
    ("server", &["base", "measure", "syntax", "model", "derive", "rules", "check", "session", "wording", "report"]),
    (
        "cli",
        &[
            "base", "measure", "syntax", "model", "derive", "rules", "check", "session", "wording", "report", "guide",
            "server",
        ],
    ),
];

/// Imports that close a circle today, by the file that names and the file that is named. Without these the files of a
/// stage stand in an order; the list may only grow shorter.
const CLOSES_A_CIRCLE: &[(&str, &str)] = &[
    // A quantity of a step reads one of its flight, and a flight's one of its steps.
    ("derive/flight.rs", "derive/place.rs"),
    ("derive/flight.rs", "derive/step.rs"),
    ("derive/flight.rs", "derive/winder.rs"),
    ("derive/place.rs", "derive/step.rs"),
    ("derive/quantity.rs", "derive/formula.rs"),
    ("model/build/head.rs", "model/build/mod.rs"),
];

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("src is there") {
        let path = entry.expect("entry").path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
    found
}

/// Stages that a text names after `crate::`.
fn imports(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("crate::") {
        let rest = &text[at + "crate::".len()..];
        if let Some(group) = rest.strip_prefix('{') {
            let group = group.split('}').next().unwrap_or("");
            found.extend(group.split(',').map(|part| part.trim().split("::").next().unwrap_or("").to_owned()));
        } else {
            found.push(rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect());
        }
    }
    found.retain(|name| !name.is_empty());
    found
}

fn upward(stage: &str, text: &str) -> Option<String> {
    let allowed = STAGES.iter().find(|(name, _)| *name == stage)?.1;
    let known = |name: &str| STAGES.iter().any(|(stage, _)| *stage == name);
    imports(text).into_iter().find(|name| known(name) && name != stage && !allowed.contains(&name.as_str()))
}

#[test]
fn no_stage_imports_a_later_one() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut read = 0;
    for path in files(&src) {
        let stage = path.strip_prefix(&src).expect("inside").components().next().expect("a folder");
        let stage = stage.as_os_str().to_string_lossy().into_owned();
        if stage.ends_with(".rs") {
            continue;
        }
        assert!(STAGES.iter().any(|(name, _)| *name == stage), "`{stage}` is no stage of the house; add it here");
        let text = fs::read_to_string(&path).expect("text");
        assert_eq!(upward(&stage, &text), None, "{} imports upward", path.display());
        read += 1;
    }
    assert!(read > 30, "only {read} files were read");
}

#[test]
fn an_upward_import_is_seen() {
    assert_eq!(upward("syntax", "use crate::rules::RuleSet;"), Some("rules".to_owned()));
    assert_eq!(upward("derive", "use crate::{base::Span, report::Look};"), Some("report".to_owned()));
    assert_eq!(upward("check", "use crate::base::Span; use crate::rules;"), None);
}

#[test]
fn only_the_faces_touch_the_world() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for path in files(&src) {
        let text = fs::read_to_string(&path).expect("text");
        let face = path.starts_with(src.join("cli")) || path == src.join("main.rs");
        for forbidden in ["std::fs", "std::env", "std::time", "std::net", "println!", "eprintln!"] {
            // A test of what is private to its stage reads the repository's files.
            let code =
                text.split("#[cfg(test)]").next().filter(|code| !code.contains("use proptest::")).unwrap_or_default();
            let said = code.lines().any(|line| line.contains(forbidden) && !line.trim_start().starts_with("//"));
            assert!(face || !said, "{} uses {forbidden}", path.display());
        }
        let knows = text.contains("miette::");
        assert!(!knows || path.ends_with("report/terminal.rs"), "{} knows miette", path.display());
    }
}

/// Circles of files beside those that the list closes, and rows of the list that close none.
fn wrong_circles<'a>(
    mut edges: Edges<'a>,
    closing: &[(&'a str, &'a str)],
) -> (Vec<Vec<&'a str>>, Vec<(&'a str, &'a str)>) {
    let mut idle = Vec::new();
    for (from, to) in closing {
        if !edges.get_mut(from).is_some_and(|named| named.remove(to)) {
            idle.push((*from, *to));
        }
    }
    idle.extend(closing.iter().filter(|(from, to)| way(&edges, to, from).is_none()));
    (circles(&edges), idle)
}

#[test]
fn no_circle_of_files_but_those_that_are_listed() {
    let code = imports::of(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    let edges = code.edges();
    assert!(edges.values().flatten().count() > 50, "only {edges:?}");
    let (new, idle) = wrong_circles(edges, CLOSES_A_CIRCLE);
    assert!(new.is_empty(), "files that lead back to themselves, and are not listed: {new:#?}");
    assert!(idle.is_empty(), "closes no circle any more; take it off the list: {idle:#?}");
}

#[test]
fn a_new_circle_and_a_listed_one_that_is_gone_are_seen() {
    let files = |turned: &str| {
        let file = |name: &str, text: &str| (name.to_owned(), text.to_owned());
        Crate::read([
            file("lib.rs", "mod a;"),
            file("a/mod.rs", "mod b; mod c; mod d; use b::B; pub struct A;"),
            file("a/b.rs", "use super::A; use super::c::C; pub struct B;"),
            file("a/c.rs", "use super::d::D; pub struct C;"),
            file("a/d.rs", turned),
        ])
    };
    let known = [("a/b.rs", "a/mod.rs")];
    assert_eq!(wrong_circles(files("pub struct D;").edges(), &known), (vec![], vec![]));
    let turned = files("use super::c::C; pub struct D;");
    let (new, idle) = wrong_circles(turned.edges(), &known);
    assert_eq!(new, [["a/c.rs", "a/d.rs", "a/c.rs"], ["a/d.rs", "a/c.rs", "a/d.rs"]]);
    assert!(idle.is_empty());
    let longer = files("use super::b::B; pub struct D;");
    assert_eq!(wrong_circles(longer.edges(), &known).0.first().unwrap(), &["a/b.rs", "a/c.rs", "a/d.rs", "a/b.rs"]);
    let two = [known[0], ("a/c.rs", "a/d.rs"), ("a/c.rs", "a/mod.rs")];
    let plain = files("pub struct D;");
    // One that nobody imports, and one that leads back nowhere.
    assert_eq!(wrong_circles(plain.edges(), &two).1, [("a/c.rs", "a/mod.rs"), ("a/c.rs", "a/d.rs")]);
}

/// Words that the code may not hold a kind's name against: handles and traits say which kind is meant.
fn compares_a_kind_by_name(line: &str) -> bool {
    let code = line.split("//").next().unwrap_or("");
    let by_name =
        ["kind.name ==", "kind.name !=", "kind.opens ==", "kind.opens !=", "match kind.name", "matches!(kind.name"];
    let read =
        |text: &str| code.match_indices(text).any(|(at, _)| code[at + text.len()..].trim_start().starts_with('"'));
    let matched = |text: &str| text.starts_with("match") && code.contains(text) && code.contains('"');
    let asked = ["of_kind(\"", "belonging(\"", "related(\"", "things(\"", "vocabulary::kind(\""];
    by_name.iter().any(|text| read(text) || matched(text)) || asked.iter().any(|text| code.contains(text))
}

#[test]
fn no_kind_is_told_by_its_name() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for path in files(&src) {
        if path.ends_with("model/vocabulary.rs") {
            continue;
        }
        let text = fs::read_to_string(&path).expect("text");
        // Literals of a `match` stand on the lines below it.
        let flat = text.replace("{\n", "{ ");
        let found: Vec<&str> = flat.lines().filter(|line| compares_a_kind_by_name(line)).collect();
        assert!(found.is_empty(), "{}: {found:#?}", path.display());
    }
    assert!(compares_a_kind_by_name("if kind.name == \"guard\" {"));
    assert!(compares_a_kind_by_name("matches!(kind.name, \"guard\" | \"wall\")"));
    assert!(compares_a_kind_by_name("match kind.name { \"riser\" => 1,"));
    assert!(compares_a_kind_by_name("design.of_kind(\"flight\")"));
    assert!(!compares_a_kind_by_name("if kind.name == said {"));
}
