//! What `tidy` does to a text: nothing but blanks, once and for all, and nothing that a check would notice.
//!
//! `tests/tidy/loose/` holds texts as people leave them, `tests/tidy/tidy/` the same texts tidied.
//! `UPDATE=1 cargo test --test suite tidy` writes the latter; read the difference before you keep it.

use std::cell::Cell;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::recovery::{cases, slip, slipped, soup};
use crate::switches::{full, update};
use pitchboard::base::{Severity, Source, Span};
use pitchboard::cli::Disk;
use pitchboard::rules::{clause_text, prove};
use pitchboard::session::Session;
use pitchboard::syntax::{self, Language, TokenKind, TriviaKind, tidy};
use pitchboard::wording::message;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

/// What the lexicon takes for blanks and ends of lines, and `;`, which is none.
const BLANKS: [char; 7] = [' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}', '\n', '\r'];

/// Those within a line.
const INNER: [char; 5] = [' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}'];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &str) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(root().join(folder)).sort_by_file_name().into_iter();
    let files = entries.map(|entry| entry.unwrap().into_path()).filter(|path| path.is_file());
    files.collect()
}

fn language(path: &Path) -> Language {
    if path.extension().is_some_and(|end| end == "rules") { Language::Rules } else { Language::Design }
}

/// Every design, ruleset, shop's file and damaged text of the repository.
fn texts() -> Vec<(PathBuf, String)> {
    let folders = ["examples", "rulesets", "tests/cases", "tests/corpus", "tests/tidy"];
    let paths = folders.into_iter().flat_map(files);
    let texts: Vec<_> =
        paths.map(|path| (path.clone(), String::from_utf8_lossy(&fs::read(&path).unwrap()).into_owned())).collect();
    assert!(texts.len() > 600, "{} texts", texts.len());
    texts
}

fn tidied(text: &str, language: Language) -> String {
    let source = Source::new("case", text);
    tidy(&source, language).apply(&source)
}

/// All that stands in a text but its blanks: each token with what it is.
fn said(text: &str, language: Language) -> Vec<(TokenKind, String)> {
    let source = Source::new("case", text);
    let tree = match language {
        Language::Design => syntax::parse_design(&source).0,
        Language::Rules => syntax::parse_rules(&source).0,
    };
    let blank = |kind| matches!(kind, TokenKind::Trivia(TriviaKind::Blank | TriviaKind::LineEnd));
    let tokens = tree.tokens().into_iter().filter(|token| !blank(token.kind));
    // A name and a clause hold blanks, and a fragment is a text of its own.
    let inner = |kind| matches!(kind, TokenKind::Name | TokenKind::Clause | TokenKind::Condition | TokenKind::Fragment);
    let word = |token: syntax::Token| {
        let text = source.slice(token.span);
        (token.kind, if inner(token.kind) { text.replace(BLANKS, "") } else { text.to_owned() })
    };
    tokens.map(word).filter(|(_, text)| !text.is_empty()).collect()
}

/// Holds what is true of every text, and gives it tidied.
fn holds(text: &str, language: Language) -> String {
    let source = Source::new("case", text);
    let tidying = tidy(&source, language);
    let mut at = 0;
    for edit in &tidying.edits {
        assert!(edit.span.start >= at && edit.span.end <= u32::try_from(text.len()).unwrap(), "{edit:?} in {text:?}");
        assert!(
            source.slice(edit.span).chars().chain(edit.text.chars()).all(|sign| BLANKS.contains(&sign)),
            "{edit:?}"
        );
        assert!(edit.text.is_empty() || edit.text != source.slice(edit.span));
        at = edit.span.end;
    }
    let once = tidying.apply(&source);
    assert_eq!(once.replace(BLANKS, ""), text.replace(BLANKS, ""));
    assert_eq!(said(&once, language), said(text, language), "{text}");
    let there = Source::new("case", &once);
    let again = tidy(&there, language);
    assert!(again.edits.is_empty(), "tidied twice:\n{text}\nonce:\n{once}\ntwice:\n{}", again.apply(&there));
    assert_eq!(again.left.len(), tidying.left.len(), "{text}");
    once
}

/// Whether a text of which something can be read is left as it is, all of it.
fn is_given_up(text: &str, language: Language) -> bool {
    let source = Source::new("case", text);
    let whole = |span: &Span| *span == Span::new(0, text.len());
    tidy(&source, language).left.iter().any(whole) && syntax::parse_design(&source).0.items.len() > 1
}

fn both(text: &str) {
    holds(text, Language::Design);
    holds(text, Language::Rules);
}

#[test]
fn loose_texts_become_the_tidy_ones() {
    let mut seen = 0;
    for path in files("tests/tidy/loose") {
        let text = fs::read_to_string(&path).unwrap();
        let once = holds(&text, language(&path));
        assert_ne!(once, text, "{} was tidy", path.display());
        let meant = root().join("tests/tidy/tidy").join(path.file_name().unwrap());
        if update() {
            fs::write(&meant, &once).unwrap();
        }
        assert_eq!(once, fs::read_to_string(&meant).unwrap_or_default(), "{}", path.display());
        seen += 1;
    }
    assert!(seen >= 13 && files("tests/tidy/tidy").len() == seen, "{seen} texts");
}

#[test]
fn what_is_shipped_is_tidy() {
    for path in ["examples", "rulesets"].into_iter().flat_map(files) {
        let text = fs::read_to_string(&path).unwrap();
        assert_eq!(tidied(&text, language(&path)), text, "{}", path.display());
    }
}

#[test]
fn every_text_of_the_repository() {
    let mut changed = 0;
    for (path, text) in texts() {
        let own = holds(&text, language(&path));
        changed += usize::from(own != text);
        both(&text);
        // What cannot be read is left; what can be read is not.
        assert!(!is_given_up(&text, language(&path)), "{} was laid out otherwise than it is read", path.display());
    }
    assert!(changed > 20, "only {changed} texts were not tidy");
}

/// The ends of lines stay as they are, and so does the mark at the start.
#[test]
fn line_ends_and_the_byte_order_mark_stay() {
    for (path, text) in texts().into_iter().filter(|(_, text)| !text.contains(['\r', '\u{feff}'])) {
        let language = language(&path);
        let meant = tidied(&text, language);
        assert_eq!(tidied(&text.replace('\n', "\r\n"), language), meant.replace('\n', "\r\n"), "{}", path.display());
        assert_eq!(tidied(&format!("\u{feff}{text}"), language), format!("\u{feff}{meant}"), "{}", path.display());
    }
    for (text, meant) in [
        ("\u{feff}stair{\r\n\r\n\r\nwidth: 3\" }", "\u{feff}stair {\r\n\r\n    width: 3\" }\r\n"),
        ("stair{\rwidth: 3\"\r}\r\r\r", "stair {\r    width: 3\"\r}\r"),
        ("stair{\n\r\nwidth: 3\"\r\n}", "stair {\n\r\n    width: 3\"\r\n}\n"),
    ] {
        assert_eq!(tidied(text, Language::Design), meant);
    }
}

/// What a check says of a text, places apart.
fn checked(path: &Path, text: &str) -> String {
    let source = Source::new(path.to_string_lossy(), text);
    let analysis = Session::new(Disk).check(&source, None);
    let report = &analysis.report;
    let mut found: Vec<(Severity, String)> =
        // A message quotes words with the blanks between them.
        report.findings.iter().map(|found| (found.severity(), message(found).message.replace(INNER, ""))).collect();
    // Of two texts, the design's and a shop's, the one comes first whose words stand nearer to its beginning.
    found.sort();
    let outcomes = crate::record::of_design(&analysis);
    format!("{outcomes}\n{found:#?}\n{:?}", report.tally).replace(INNER, "")
}

/// What a set asks, and how its examples come out.
fn set(text: &str) -> String {
    let source = Source::new("case.rules", text);
    let loaded = Session::new(Disk).read_set(&source);
    let said: Vec<String> = loaded.diagnostics.iter().map(|found| message(found).message).collect();
    let rules: Vec<(String, String)> =
        loaded.set.rules.iter().map(|rule| (rule.name.to_string(), clause_text(&rule.requirement, rule))).collect();
    let proofs: Vec<Option<String>> =
        prove(&loaded.set).iter().map(|proof| proof.diagnostic().map(|found| message(&found).message)).collect();
    format!("{said:#?}\n{rules:#?}\n{proofs:#?}").replace(INNER, "")
}

/// The first lines that differ.
fn alike(one: &str, other: &str, what: &dyn std::fmt::Display) {
    let differs = one.lines().zip(other.lines()).find(|(one, other)| one != other);
    assert!(differs.is_none() && one.lines().count() == other.lines().count(), "{what}: {differs:#?}");
}

#[test]
fn a_check_comes_out_the_same() {
    let (mut designs, mut sets) = (0, 0);
    for (path, text) in texts() {
        let language = language(&path);
        let once = tidied(&text, language);
        if once == text {
            continue;
        }
        match language {
            Language::Design => alike(&checked(&path, &once), &checked(&path, &text), &path.display()),
            Language::Rules => alike(&set(&once), &set(&text), &path.display()),
        }
        *(if language == Language::Rules { &mut sets } else { &mut designs }) += 1;
    }
    assert!(designs > 10 && sets > 0, "{designs} designs, {sets} sets");
}

/// A text whose blanks somebody shook: others between what stands on a line, and lines indented anyhow.
fn shaken(text: &str, language: Language, blanks: &[usize]) -> String {
    let source = Source::new("case", text);
    let tree = match language {
        Language::Design => syntax::parse_design(&source).0,
        Language::Rules => syntax::parse_rules(&source).0,
    };
    let mut next = blanks.iter().copied().cycle();
    let mut shaken = String::new();
    for token in tree.tokens() {
        let text = source.slice(token.span);
        match token.kind {
            TokenKind::Trivia(TriviaKind::Blank) => shaken += &" ".repeat(1 + next.next().unwrap()),
            TokenKind::Trivia(TriviaKind::LineEnd) => shaken += [text, " \n", "\n\t"][next.next().unwrap() % 3],
            TokenKind::Open | TokenKind::Close => {
                shaken += &" ".repeat(next.next().unwrap());
                shaken += text;
            }
            _ => shaken += text,
        }
    }
    shaken
}

#[test]
fn shaken_texts_say_the_same() {
    let part = if full() { 1 } else { 4 };
    let short = texts().into_iter().filter(|(path, text)| text.len() < 4_000 && !path.ends_with("shop.pitchboard"));
    for (path, text) in short.step_by(part) {
        let language = language(&path);
        let run = |blanks: Vec<usize>| {
            let shaken = shaken(&text, language, &blanks);
            let once = holds(&shaken, language);
            match language {
                Language::Design => alike(&checked(&path, &once), &checked(&path, &shaken), &shaken),
                Language::Rules => alike(&set(&once), &set(&shaken), &shaken),
            }
            Ok(())
        };
        TestRunner::new(cases(10)).run(&vec(0..6_usize, 1..30), run).unwrap();
    }
}

#[test]
fn damaged_texts() {
    let (runs, given_up) = (Cell::new(0), Cell::new(0));
    for (path, text) in texts().iter().filter(|(_, text)| text.len() < 20_000) {
        let run = |slips: Vec<_>| {
            let damaged = slipped(text, &slips);
            both(&damaged);
            runs.set(runs.get() + 1);
            given_up.set(given_up.get() + usize::from(is_given_up(&damaged, language(path))));
            Ok(())
        };
        TestRunner::new(cases(10)).run(&vec(slip(), 1..5), run).unwrap();
    }
    // What would be read otherwise is left as it is, which is a fault of the layout, if a harmless one.
    assert!(given_up.get() * 100 <= runs.get(), "{} of {} texts were given up", given_up.get(), runs.get());
}

proptest! {
    #![proptest_config(cases(3_000))]

    #[test]
    fn any_text(bytes in vec(any::<u8>(), 0..300)) {
        both(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn any_words_of_the_languages(text in soup(60)) {
        both(&text);
        both(&format!("\u{feff}stair \"a\" {{\r\n{text}\r\n}}"));
        both(&format!("rule \"r\" {{\n each flight {text}\n source: \"x\"\n passes: {text} }} }}"));
    }
}

/// What an editor asks for a selection: the lines that it touches come out as those of the whole, and no other changes.
#[test]
fn a_stretch_is_a_part_of_the_whole() {
    for (path, text) in texts().into_iter().filter(|(path, _)| path.starts_with(root().join("tests/tidy/loose"))) {
        let source = Source::new("case", &text);
        let whole = tidy(&source, language(&path)).edits;
        let mut taken = BTreeSet::new();
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let stretch = Span::new(at, at + line.trim_end().len());
            let part = tidy(&source, language(&path)).within(&source, stretch);
            for edit in &part.edits {
                let place = whole.iter().position(|other| other == edit).expect("it is one of the whole");
                taken.insert(place);
                let lines = source.line(edit.span.start)..=source.line(edit.span.end);
                let own = source.line(stretch.start);
                assert!(lines.contains(&own), "{edit:?} for line {own}");
            }
            let said = |text: &str| said(text, language(&path));
            assert_eq!(said(&part.apply(&source)), said(&text), "{}", path.display());
            at += line.len();
        }
        assert_eq!(taken.len(), whole.len(), "{}", path.display());
    }
}
