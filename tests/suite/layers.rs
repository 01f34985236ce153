//! The stages import one way: a stage that names a later one fails here.

use std::fs;
use std::path::{Path, PathBuf};

/// Every stage with the stages it may import.
const STAGES: &[(&str, &[&str])] = &[
    ("base", &[]),
    ("measure", &["base"]),
    ("syntax", &["base", "measure"]),
    ("model", &["base", "measure", "syntax"]),
    ("derive", &["base", "measure", "model"]),
    ("rules", &["base", "measure", "syntax", "model", "derive"]),
    ("check", &["base", "measure", "syntax", "model", "derive", "rules"]),
    ("session", &["base", "measure", "syntax", "model", "derive", "rules", "check"]),
    ("wording", &["base", "measure", "syntax", "model", "derive", "rules", "check"]),
    ("report", &["base", "measure", "model", "derive", "rules", "check", "wording"]),
    ("cli", &["base", "measure", "syntax", "model", "derive", "rules", "check", "session", "wording", "report"]),
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
            let said = text.lines().any(|line| line.contains(forbidden) && !line.trim_start().starts_with("//"));
            assert!(face || !said, "{} uses {forbidden}", path.display());
        }
        let knows = text.contains("miette::");
        assert!(!knows || path.ends_with("report/terminal.rs"), "{} knows miette", path.display());
    }
}
