//! The shipped sets, each with one figure, relation or word changed at random: whether anything that this repository
//! holds would notice.
//!
//! A mutant counts if it changes any outcome of the cases, the examples, their faulty copies (`mutation.rs`) or the
//! examples of the sets themselves. It is caught where the set is no longer read without a remark, where an example of a
//! rule comes out otherwise, or where an outcome that `tests/record` holds does. What is not caught is named.
//! `SET_MUTANTS_SEED=n` takes others; a tenth by default, all with `FULL=1`.

use std::ops::Range;
use std::path::Path;

use crate::cases::Cases;
use crate::drawing::Dice;
use crate::mutation::faulty_designs;
use crate::record::{designs, of_design};
use crate::switches::long_run;
use pitchboard::base::Source;
use pitchboard::check::{Analysis, BUILT_IN};
use pitchboard::rules;
use pitchboard::session::Session;

const MUTANTS: usize = 100;
const SEED: u64 = 14;

/// What ends a clause or a limit: the line of a rule that comes after it.
const OTHER_LINES: &[&str] =
    &["source:", "because:", "sure:", "clause:", "passes:", "fails:", "spares:", "formerly:", "}"];

/// Words that say something else when one stands for the other.
const WORDS: &[(&str, &[&str])] = &[
    ("and", &["or"]),
    ("or", &["and"]),
    ("shall", &["should"]),
    ("should", &["shall"]),
    ("yes", &["no"]),
    ("no", &["yes"]),
    ("largest", &["smallest", "mean"]),
    ("smallest", &["largest"]),
    ("greater", &["lesser"]),
    ("lesser", &["greater"]),
    ("indoors", &["outdoors"]),
    ("outdoors", &["indoors"]),
    ("top", &["foot"]),
    ("foot", &["top"]),
    ("flight", &["landing"]),
    ("landing", &["flight"]),
    ("<=", &["<", ">=", "="]),
    (">=", &[">", "<=", "="]),
    ("<", &["<=", ">"]),
    (">", &[">=", "<"]),
    ("=", &["<=", ">="]),
    ("+", &["-"]),
    ("-", &["+"]),
    ("*", &["/"]),
    ("/", &["*"]),
];

/// The clauses and limits of a set's text.
fn asking(text: &str) -> Vec<Range<usize>> {
    let (mut asking, mut at, mut open) = (Vec::new(), 0, None);
    for line in text.split_inclusive('\n') {
        let words = line.trim_start();
        let starts = words.starts_with("limit ") || words.starts_with("each ");
        let ends = words.starts_with('#') || OTHER_LINES.iter().any(|other| words.starts_with(other));
        if starts || ends {
            asking.extend(open.take().map(|start| start..at));
        }
        if starts {
            open = Some(at);
        }
        at += line.len();
    }
    asking.extend(open.map(|start| start..at));
    asking
}

/// One change of a text: what stands there, and what in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Change {
    at: Range<usize>,
    to: String,
}

/// Every place of a clause or limit that can be changed, with one change of it.
fn changes(text: &str, dice: &mut Dice) -> Vec<Change> {
    let mut changes = Vec::new();
    for range in asking(text) {
        let clause = &text[range.clone()];
        for (at, sign) in clause.char_indices().filter(|(_, sign)| sign.is_ascii_digit()) {
            let other = (u32::from(sign) - u32::from('0') + 1 + dice.below(9) as u32) % 10;
            let at = range.start + at;
            changes.push(Change { at: at..at + 1, to: other.to_string() });
        }
        let mut from = 0;
        for word in clause.split_inclusive([' ', '\n', '(', ')']) {
            let bare = word.trim_end_matches([' ', '\n', '(', ')']);
            let row = WORDS.iter().find(|(known, _)| *known == bare);
            if let Some(other) = row.and_then(|(_, others)| dice.one(others)) {
                let at = range.start + from;
                changes.push(Change { at: at..at + bare.len(), to: other.to_owned() });
            }
            from += word.len();
        }
    }
    changes
}

/// A set with a change in it.
struct Mutant {
    set: &'static str,
    text: String,
    told: String,
}

fn mutants(dice: &mut Dice, wanted: usize) -> Vec<Mutant> {
    let mut mutants: Vec<Mutant> = Vec::new();
    while mutants.len() < wanted {
        // Long sets have more to go wrong, so places are drawn from all of them together.
        let all: Vec<(&str, &str, Vec<Change>)> =
            BUILT_IN.iter().map(|(name, text)| (*name, *text, changes(text, dice))).collect();
        let mut at = dice.below(all.iter().map(|(.., changes)| changes.len()).sum());
        for (set, text, changes) in all {
            let Some(change) = changes.get(at) else {
                at -= changes.len();
                continue;
            };
            let mut changed = text.to_owned();
            changed.replace_range(change.at.clone(), &change.to);
            let line = changed[..change.at.start].matches('\n').count();
            let words = changed.lines().nth(line).unwrap_or_default().trim();
            let told = format!("{set}:{}: {} -> {}: {words}", line + 1, &text[change.at.clone()], change.to);
            if mutants.iter().all(|other| other.told != told) {
                mutants.push(Mutant { set, text: changed, told });
            }
            break;
        }
    }
    mutants
}

/// Whether the set itself shows the change: a remark of the reader, or an example that comes out otherwise.
fn caught_by_set(mutant: &Mutant) -> bool {
    let source = Source::new(mutant.set, &mutant.text);
    let loaded = Session::default().with_set(mutant.set, source.clone()).read_set(&source);
    // It bears the title of a shipped set: that it has.
    let told = loaded.diagnostics.iter().any(|slip| slip.name() != "title of a shipped set");
    told || rules::prove(&loaded.set).iter().any(|proof| proof.failed.is_some())
}

fn checked(session: &Session, name: &str, text: &str) -> Analysis {
    session.check(&Source::new(name, text), None)
}

/// The first of these designs whose outcomes differ under the mutant.
fn first_that_differs<'d>(mutant: &Mutant, session: &Session, designs: &'d [(String, String)]) -> Option<&'d str> {
    let other = Session::new(Cases).with_set(mutant.set, Source::new(mutant.set, &mutant.text));
    let differs = |(name, text): &&(String, String)| {
        of_design(&checked(session, name, text)) != of_design(&checked(&other, name, text))
    };
    designs.iter().find(differs).map(|(name, _)| name.as_str())
}

#[test]
fn a_random_change_of_a_set_is_noticed() {
    let seed = std::env::var("SET_MUTANTS_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(SEED);
    let mut dice = Dice::new(seed);
    let read = |path: &Path| (path.to_string_lossy().into_owned(), std::fs::read_to_string(path).unwrap());
    let held: Vec<(String, String)> = ["tests/cases", "examples"]
        .iter()
        .flat_map(|folder| designs(Path::new(folder)))
        .map(|path| read(&path))
        .collect();
    let session = Session::new(Cases);
    let (mut caught, mut survived, mut same) = (0, Vec::new(), Vec::new());
    let mut faulty: Option<Vec<(String, String)>> = None;
    for mutant in mutants(&mut dice, long_run(MUTANTS)) {
        if caught_by_set(&mutant) || first_that_differs(&mutant, &session, &held).is_some() {
            caught += 1;
            continue;
        }
        match first_that_differs(&mutant, &session, faulty.get_or_insert_with(faulty_designs)) {
            Some(design) => survived.push(format!("{}\n    seen in {design}", mutant.told)),
            None => same.push(mutant.told),
        }
    }
    println!("{caught} caught, {} survived, {} change no outcome", survived.len(), same.len());
    println!("survived:\n{}\nno outcome:\n{}", survived.join("\n"), same.join("\n"));
    assert!(caught > 0);
    assert!(survived.len() * 20 <= caught + survived.len(), "survived:\n{}", survived.join("\n"));
}

/// Or everything would be caught.
#[test]
fn a_set_without_a_change_is_caught_by_nothing() {
    for (set, text) in BUILT_IN {
        let mutant = Mutant { set, text: (*text).to_owned(), told: String::new() };
        assert!(!caught_by_set(&mutant), "{set}");
    }
    let design = ("a.stair".to_owned(), "stair { rules: residential; flight { risers: 3 of 8\" } }".to_owned());
    let residential = BUILT_IN.iter().find(|(name, _)| *name == "residential").expect("shipped");
    let with = |text: &str| Mutant { set: residential.0, text: text.to_owned(), told: String::new() };
    let session = Session::new(Cases);
    let designs = [design];
    assert_eq!(first_that_differs(&with(residential.1), &session, &designs), None);
    let other = residential.1.replacen("tallest: 7-3/4\"", "tallest: 8\"", 1);
    assert_eq!(first_that_differs(&with(&other), &session, &designs), Some("a.stair"));
}

#[test]
fn clauses_and_limits_are_changed_and_nothing_else() {
    let text = "# 7\nrule \"r 7\" {\n limit tall: 7\"\n each riser where a\n  and b shall have height <= tall\n source: \"7 and\"\n fails: flight { risers: 2 of 7\" }\n}\n";
    let words: Vec<&str> = asking(text).into_iter().map(|range| text[range].trim()).collect();
    assert_eq!(words, ["limit tall: 7\"", "each riser where a\n  and b shall have height <= tall"]);
    let changed: Vec<String> =
        changes(text, &mut Dice::new(1)).into_iter().map(|change| text[change.at].to_owned()).collect();
    assert_eq!(changed, ["7", "and", "shall", "<="]);
}
