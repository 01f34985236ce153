//! What the tests read from folders cannot go unseen: each folder holds what it held, and each shipped set and each
//! fuzz target has its own.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use pitchboard::check::BUILT_IN;

/// Folders of designs and sets, with the fewest files that must lie in each and below. A folder that grows need not be
/// touched here; a file that is taken away on purpose is counted off.
const CASES: &[(&str, usize)] = &[
    ("examples", 31),
    ("tests/cases/accessible", 21),
    ("tests/cases/building", 24),
    ("tests/cases/construction", 10),
    ("tests/cases/drawing", 102),
    ("tests/cases/dwelling-metric", 50),
    ("tests/cases/germany", 15),
    ("tests/cases/machinery", 12),
    ("tests/cases/marsh-county", 7),
    ("tests/cases/new-zealand", 13),
    ("tests/cases/not-understood", 4),
    ("tests/cases/notation", 21),
    ("tests/cases/notices", 43),
    ("tests/cases/ontario", 25),
    ("tests/cases/public", 55),
    ("tests/cases/reading", 17),
    ("tests/cases/residential", 66),
    ("tests/cases/rules", 41),
    ("tests/cases/scotland", 15),
    ("tests/cases/shop", 13),
    ("tests/cases/strength", 89),
    ("tests/cases/twice", 11),
    ("tests/cases/waivers", 16),
    ("tests/cases/wisconsin", 11),
    ("tests/cases/workplace", 41),
    ("tests/cases/workshop", 96),
    ("tests/tidy/loose", 13),
    ("tests/tidy/tidy", 13),
];

/// Sets without a table of published figures, and why.
const NO_TABLE: &[(&str, &str)] = &[
    ("workshop", "restates no document: common practice"),
    ("strength", "what it works out is held to the published tables of tests/published/strength"),
    ("drawing", "restates no document: the drawing agrees with itself"),
    ("marsh-county", "an invented county, whose figures are published nowhere"),
];

/// The fewest texts that are replayed for a fuzz target.
const FEWEST_REPLAYED: usize = 20;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Files and folders right in a folder; nothing if it is not there.
fn entries(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).into_iter().flatten().map(|entry| entry.expect("readable").path()).collect()
}

/// Names without endings of the files of one ending, or of the folders, right in a folder.
fn names(folder: &str, ending: Option<&str>) -> BTreeSet<String> {
    let mut found = entries(&root().join(folder));
    found.retain(|path| match ending {
        Some(ending) => path.extension().is_some_and(|end| end == ending),
        None => path.is_dir(),
    });
    found.iter().filter_map(|path| path.file_stem()).map(|name| name.to_string_lossy().into_owned()).collect()
}

fn is_case(path: &Path) -> bool {
    ["stair", "rules", "pitchboard"].iter().any(|ending| path.extension().is_some_and(|end| end == *ending))
}

fn cases(folder: &Path) -> usize {
    let files = walkdir::WalkDir::new(folder).into_iter().filter_map(Result::ok).map(walkdir::DirEntry::into_path);
    files.filter(|path| path.is_file() && is_case(path)).count()
}

/// What is wrong with folders of cases, below a root: too few files, a folder that is not listed, an empty one.
fn wrong(root: &Path, listed: &[(&str, usize)]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (folder, fewest) in listed {
        let found = cases(&root.join(folder));
        if found < *fewest {
            wrong.push(format!("{folder} holds {found} files, and is to hold {fewest} at least"));
        }
    }
    for path in entries(&root.join("tests/cases")) {
        let name = format!("tests/cases/{}", path.file_name().unwrap_or_default().to_string_lossy());
        if !listed.iter().any(|(folder, _)| *folder == name) {
            wrong.push(format!("{name} is not listed"));
        }
    }
    let below = ["examples", "tests/cases"].map(|folder| walkdir::WalkDir::new(root.join(folder)));
    for folder in below.into_iter().flatten().filter_map(Result::ok).filter(|entry| entry.file_type().is_dir()) {
        if cases(folder.path()) == 0 {
            wrong.push(format!("{} holds nothing", folder.path().display()));
        }
    }
    wrong
}

#[test]
fn folders_of_cases_hold_what_they_held() {
    assert_eq!(wrong(root(), CASES), Vec::<String>::new());
}

#[test]
fn a_folder_that_is_gone_or_empty_or_new_is_told() {
    let made = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("folders-{}", std::process::id()));
    let cases = made.join("tests/cases");
    for folder in ["few", "new", "bare/below"] {
        fs::create_dir_all(cases.join(folder)).unwrap();
    }
    for file in ["few/a.stair", "few/read me.txt", "new/a.rules", "bare/a.stair"] {
        fs::write(cases.join(file), "").unwrap();
    }
    let listed = [("tests/cases/few", 2), ("tests/cases/gone", 1), ("tests/cases/bare", 1)];
    let mut told = wrong(&made, &listed);
    fs::remove_dir_all(&made).unwrap();
    told.sort();
    let wanted = [
        "bare/below holds nothing",
        "tests/cases/few holds 1 files, and is to hold 2 at least",
        "tests/cases/gone holds 0 files, and is to hold 1 at least",
        "tests/cases/new is not listed",
    ];
    assert_eq!(told.len(), wanted.len(), "{told:?}");
    assert!(told.iter().zip(wanted).all(|(told, wanted)| told.replace('\\', "/").ends_with(wanted)), "{told:?}");
}

#[test]
fn every_shipped_set_has_its_cases_and_its_table() {
    let shipped: BTreeSet<String> = BUILT_IN.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(names("rulesets", Some("rules")), shipped, "what is shipped, and what lies in rulesets/");
    for set in &shipped {
        let folder = format!("tests/cases/{set}");
        assert!(CASES.iter().any(|(listed, fewest)| *listed == folder && *fewest > 0), "{folder} is not listed");
    }
    let without: BTreeSet<String> = NO_TABLE.iter().map(|(set, _)| (*set).to_owned()).collect();
    let with: BTreeSet<String> = shipped.difference(&without).cloned().collect();
    assert_eq!(names("tests/published", Some("tsv")), with, "tables of published figures");
    assert!(without.is_subset(&shipped), "excused without need: {without:?}");
}

/// A target, the texts that are replayed for it, and the seeds that it starts from go together.
#[test]
fn every_fuzz_target_has_its_texts_and_its_seeds() {
    let targets = names("tests/fuzz/targets", Some("rs"));
    assert_eq!(names("tests/corpus", None), targets, "targets, and folders of texts to replay");
    let seeds = fs::read_to_string(root().join("tests/fuzz/seeds.sh")).unwrap();
    let replayed = include_str!("corpus.rs");
    assert!(!targets.is_empty());
    for target in targets {
        let texts = entries(&root().join("tests/corpus").join(&target));
        let held = texts.iter().filter(|text| fs::metadata(text).is_ok_and(|about| about.len() > 0)).count();
        assert!(held >= FEWEST_REPLAYED, "tests/corpus/{target} holds {held} texts");
        assert!(seeds.contains(&format!("$seeds/{target}/")), "seeds.sh lays none for {target}");
        assert!(replayed.contains(&format!("replay(\"{target}\"")), "corpus.rs does not replay {target}");
    }
}
