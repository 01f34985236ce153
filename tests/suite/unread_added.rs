//! What cannot be read decides nothing: a statement of a property that nobody knows, put into any block of a design,
//! opens what may rest on it and settles nothing. Over the examples and the cases, a tenth of them by default, all with
//! `FULL=1`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

use crate::switches::long_run;
use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::derive::Evaluation;
use pitchboard::model;
use pitchboard::rules::{RuleSet, Verdict, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax::{self, Item};

/// No property of any kind, and near none.
const UNKNOWN: &str = " zzyzx: 7\"; ";

/// The title of the set that is held always.
const DRAWING: &str = "The drawing itself: ";

fn files() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let entries = ["examples", "tests/cases"].into_iter().flat_map(|folder| WalkDir::new(root.join(folder)));
    let paths = entries.map(|entry| entry.expect("a folder").into_path());
    let mut files: Vec<_> = paths.filter(|path| path.extension().is_some_and(|end| end == "stair")).collect();
    files.sort();
    let many = files.len();
    let step = many.div_ceil(long_run(many));
    files.into_iter().step_by(step).collect()
}

/// Where the body of each block begins that is drawn.
fn bodies(items: &[Item], found: &mut Vec<usize>) {
    for item in items {
        if let Item::Block { body, open, .. } = item {
            found.push(open.end as usize);
            bodies(body, found);
        }
    }
}

/// Every thing of each view of each stair, and what each rule came to for it where that is decided.
#[derive(Default)]
struct Came {
    things: BTreeSet<String>,
    decided: BTreeSet<(String, String, &'static str)>,
}

fn came(text: &str, sets: &[RuleSet]) -> Came {
    let source = Source::new("design", text);
    let (tree, _) = syntax::parse_design(&source);
    let mut found = Came::default();
    for (at, stair) in model::build(&tree, &source, &mut Vec::new()).iter().enumerate() {
        for (view, design) in [("drawn", Some(&stair.drawn)), ("measured", stair.measured.as_ref())] {
            let Some(design) = design else { continue };
            let (evaluation, paths) = (Evaluation::plain(design), design.paths());
            let thing = |path: &str| format!("{at} {view} {path}");
            found.things.extend(paths.iter().map(|path| thing(path)));
            for (set, rule) in sets.iter().flat_map(|set| set.rules.iter().map(move |rule| (set, rule))) {
                for (element, verdict) in verdicts(rule, &evaluation) {
                    let came = match verdict {
                        Verdict::Pass => "passes",
                        Verdict::Fail => "fails",
                        Verdict::NotApplicable => "does not apply",
                        Verdict::NotChecked(_) => continue,
                    };
                    let path = paths.get(element).map_or("", String::as_str);
                    found.decided.insert((format!("{}: {}", set.title, rule.name), thing(path), came));
                }
            }
        }
    }
    found
}

#[test]
fn an_unknown_statement_settles_nothing() {
    let sets: Vec<RuleSet> =
        BUILT_IN.iter().map(|(name, text)| Session::default().read_set(&Source::new(*name, *text)).set).collect();
    let (mut told, mut opened, mut tried) = (Vec::new(), 0, 0);
    for file in files() {
        let text = fs::read_to_string(&file).expect("a text");
        let (tree, _) = syntax::parse_design(&Source::new("design", &text));
        let mut places = Vec::new();
        bodies(&tree.items, &mut places);
        let before = came(&text, &sets);
        for place in places {
            tried += 1;
            let (start, end) = text.split_at(place);
            let after = came(&format!("{start}{UNKNOWN}{end}"), &sets);
            opened += before.decided.difference(&after.decided).count();
            // A step or a ceiling of which nothing is drawn may be there now; that it breaks nothing says nothing.
            let known = |thing: &String, came: &str| before.things.contains(thing) || came == "fails";
            // What a drawing contradicts in itself takes two statements: of one that is open there is nothing to tell.
            let settled = after.decided.difference(&before.decided);
            let settled = settled.filter(|(rule, _, came)| !(rule.starts_with(DRAWING) && *came == "does not apply"));
            for (rule, thing, came) in settled.filter(|(_, thing, came)| known(thing, came)) {
                let line = text[..place].matches('\n').count() + 1;
                told.push(format!("{}:{line}: {rule}: {thing} {came}", file.display()));
            }
        }
    }
    let shown = told.iter().take(40).map(String::as_str).collect::<Vec<_>>();
    assert!(told.is_empty(), "{} of {tried} statements settle something:\n{}", told.len(), shown.join("\n"));
    assert!(tried > 500 && opened > 1_000, "{tried} tried, {opened} opened");
}
