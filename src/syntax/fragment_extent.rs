//! Where a fragment ends: the grammar passes over it by the look of its figures, and here by reading each of them.

// The derive writes an undocumented public enum.
#![allow(missing_docs)]

use std::path::{Path, PathBuf};

use pest::Parser;
use proptest::prelude::*;

use super::grammar;

/// The rules that read every figure of a fragment in full: slow, and plainly right.
#[derive(pest_derive::Parser)]
#[grammar = "../grammar/lexicon.pest"]
#[grammar_inline = r#"
fragment_text = @{ (plain | braced | text_run | !(eol | "}" | comment) ~ ANY)* }
braced      = _{ "{" ~ deeper ~ (plain | braced | comment | text_run | !("}") ~ ANY)* ~ ("}" ~ DROP | &EOI) }
text_run    = _{ figure | "\"" ~ (!("\"" | "\n" | "\r") ~ ANY)* ~ "\"" }
"#]
struct InFull;

/// Where a fragment that starts a text ends, in bytes, by the two grammars.
fn ends(text: &str) -> (Option<usize>, Option<usize>) {
    let quick = grammar::read(text, grammar::Rule::fragment_text).ok().and_then(|mut pairs| pairs.next());
    let in_full = InFull::parse(Rule::fragment_text, text).ok().and_then(|mut pairs| pairs.next());
    (quick.map(|pair| pair.as_span().end()), in_full.map(|pair| pair.as_span().end()))
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()) {
        if entry.is_dir() { files(&entry, found) } else { found.push(entry) }
    }
}

/// Every fragment of every set and case, and every line of them and of the designs as if a fragment began there.
#[test]
fn every_fragment_and_line_that_we_have_ends_where_its_figures_say() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    ["rulesets", "examples", "tests/cases", "tests/corpus"]
        .iter()
        .for_each(|folder| files(&root.join(folder), &mut found));
    let (mut fragments, mut lines) = (0, 0);
    for file in found {
        let Ok(text) = String::from_utf8(std::fs::read(&file).expect("a file")) else { continue };
        let words = ["passes:", "fails:", "spares:"];
        let starts = words.iter().flat_map(|word| text.match_indices(word).map(|(at, word)| at + word.len()));
        for start in starts {
            let (quick, in_full) = ends(&text[start..]);
            assert!(quick == in_full && quick.is_some(), "{} at {start}: {quick:?}, {in_full:?}", file.display());
            fragments += 1;
        }
        for line in text.split_inclusive(['\n', ';', '{']) {
            let (quick, in_full) = ends(line);
            assert!(quick == in_full && quick.is_some(), "{}: {line:?}: {quick:?}, {in_full:?}", file.display());
            lines += 1;
        }
    }
    assert!(fragments > 1_000 && lines > 10_000, "{fragments} fragments, {lines} lines");
}

/// What a figure may be made of, and what may stand beside one.
const PIECES: &[&str] = &[
    "0", "1", "2", "12", "2024", "-01", "-15", "/4", "-3/4", ".5", ",5", " 1/2", "½", "⅚", "²", " mm", " mm2", "mm",
    " cm", " m", " in", " in ", "in", " inches", " ft ", "ft", " feet", " foot", "'", "''", "′", "″", "\"", "“", "”",
    " sq in", " sq ft", " psf", " kN/m", "N", "d", "d ", "°", " deg", "%", "x", " x ", "X", "×", ":", " : ", " ", "\t",
    "\u{A0}", "-", " - ", "\n", "\r\n", "\r", "{", "}", ";", "#", "#1", "No.", "/", ".", ",", "\\", "a", " of ",
    " per ", " every ", "é",
];

/// Any two of them after a figure has begun, before a quote that it may end in or that a text may begin with.
#[test]
fn any_two_pieces_end_where_their_figures_say() {
    for first in ["1", "2024", "12-3", "2x4", ".5", "½"] {
        for second in PIECES {
            for third in PIECES {
                let text = format!("{first}{second}{third}48\" }} \"; }}\n");
                let (quick, in_full) = ends(&text);
                assert_eq!(quick, in_full, "{text:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4_000, ..ProptestConfig::default() })]

    #[test]
    fn any_text_ends_where_its_figures_say(picks in proptest::collection::vec(0..PIECES.len(), 0..24)) {
        let text: String = picks.into_iter().map(|at| PIECES[at]).collect();
        let (quick, in_full) = ends(&text);
        prop_assert_eq!(quick, in_full, "{:?}", text);
        let braced = format!("{{{text}\" }} 7\"");
        let (quick, in_full) = ends(&braced);
        prop_assert_eq!(quick, in_full, "{:?}", braced);
    }
}
