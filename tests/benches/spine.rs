//! How long a design takes from text to findings, and a folder of 2,000 from the disk. First bar: 2,000 designs a
//! second on one core. Run with `cargo bench --bench spine`; on Linux, `taskset -c 0` before it holds it to one core.

#![allow(clippy::unwrap_used, missing_docs)]

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs, process};

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use pitchboard::base::Source;
use pitchboard::check::{BUILT_IN, Finding};
use pitchboard::cli::{Disk, designs, read};
use pitchboard::derive::Evaluation;
use pitchboard::report::{self, Look};
use pitchboard::rules::{self, RuleSet};
use pitchboard::session::Session;
use pitchboard::{model, syntax};

const CABIN: &str = include_str!("../../examples/sedge-cabin-north-door.stair");
const TOWER: &str = include_str!("../../examples/bittern-tower.stair");
const FOLDER: usize = 2_000;

fn main() {
    divan::main();
}

fn cabin() -> Source {
    Source::new("sedge-cabin-north-door.stair", CABIN)
}

fn sets() -> Vec<RuleSet> {
    let load = |(name, text): &(&str, &str)| Session::default().read_set(&Source::new(*name, *text)).set;
    BUILT_IN.iter().map(load).collect()
}

/// Text to tree.
#[divan::bench]
fn parse(bencher: Bencher<'_, '_>) {
    let source = cabin();
    bencher.bench_local(|| syntax::parse_design(black_box(&source)));
}

/// Tree to design.
#[divan::bench]
fn build(bencher: Bencher<'_, '_>) {
    let source = cabin();
    let (tree, _) = syntax::parse_design(&source);
    bencher.bench_local(|| model::build(black_box(&tree), &source, &mut Vec::new()));
}

/// Design to outcomes of both built-in sets, deriving what they ask for.
#[divan::bench]
fn derive_and_evaluate(bencher: Bencher<'_, '_>) {
    let source = cabin();
    let sets = sets();
    let (tree, _) = syntax::parse_design(&source);
    let stairs = model::build(&tree, &source, &mut Vec::new());
    let stair = stairs.first().unwrap();
    bencher.bench_local(|| {
        let evaluation = Evaluation::plain(black_box(&stair.drawn));
        let known = sets.iter().flat_map(|set| &set.rules).map(|rule| rules::verdicts(rule, &evaluation).count());
        known.sum::<usize>()
    });
}

/// Read, parse, build, derive, evaluate and say what is found, with the sets already read.
#[divan::bench]
fn one_design(bencher: Bencher<'_, '_>) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/sedge-cabin-north-door.stair");
    let session = Session::new(Disk);
    session.check(&cabin(), None);
    bencher.bench_local(|| session.check(&read(black_box(&path)).unwrap(), None));
}

/// The same design under two sets, and under the same two with strength. Third bar: strength adds a quarter at most.
#[divan::bench(args = ["residential, wisconsin", "residential, wisconsin, strength"])]
fn with_strength(bencher: Bencher<'_, '_>, named: &str) {
    let text = CABIN.replace("rules: residential, workshop", &format!("rules: {named}"));
    assert!(text.contains(named), "the cabin names its sets otherwise");
    let source = Source::new("sedge-cabin-north-door.stair", &text);
    let session = Session::new(Disk);
    session.check(&source, None);
    bencher.bench_local(|| session.check(black_box(&source), None));
}

/// The same design once more, put into words for a terminal.
#[divan::bench]
fn one_report(bencher: Bencher<'_, '_>) {
    let found = Session::new(Disk).check(&cabin(), None).report;
    let look = Look { colour: false, unicode: true, width: 100, list_not_checked: false };
    bencher.bench_local(|| report::report(black_box(&found), &look));
}

/// A process from its start to its end: a bare `--version`, and the check of one design, which reads three shipped sets.
/// Second bar: the check takes at most four times as long.
#[divan::bench(args = ["--version", "check"], sample_count = 200, sample_size = 1)]
fn cold_check(bencher: Bencher<'_, '_>, what: &str) {
    let design = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/sedge-cabin-north-door.stair");
    let mut command = Command::new(env!("CARGO_BIN_EXE_pitchboard"));
    command.arg(what).args((what == "check").then_some(design));
    bencher.bench_local(|| assert!(black_box(command.output().unwrap()).status.success()));
}

/// Both built-in sets, from text to rules.
#[divan::bench]
fn load_rulesets(bencher: Bencher<'_, '_>) {
    bencher.bench_local(|| black_box(sets()));
}

/// A folder that ends with the run.
struct Folder(PathBuf);

impl Folder {
    /// Designs of one shop, each with a name and a figure of its own. One in `faulty` has an uneven riser, and so three
    /// findings with a value that would pass; the rest are sound.
    fn new(faulty: usize) -> Self {
        let root = env::temp_dir().join(format!("pitchboard-spine-{}-{faulty}", process::id()));
        fs::create_dir_all(&root).unwrap();
        for at in 0..FOLDER {
            let mut text = CABIN.replace("Sedge cabin, north door", &format!("Cabin {at}"));
            text = text.replace("spacing: 17-1/4\"", &format!("spacing: {}\"", Self::spacing(at)));
            if at % faulty == 0 {
                text = text.replace("risers: 4 of 7\" ", "risers: 7\", 7\", 6-1/2\", 7-1/2\" ");
            }
            fs::write(root.join(format!("cabin-{at:04}.stair")), text).unwrap();
        }
        Self(root)
    }

    /// Designs of many sorts: the examples in turn, each under a name and with a figure of its own.
    fn of_many_sorts() -> Self {
        let root = env::temp_dir().join(format!("pitchboard-sorts-{}", process::id()));
        fs::create_dir_all(&root).unwrap();
        let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
        let mut paths: Vec<PathBuf> = fs::read_dir(examples).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.retain(|path| path.is_file());
        paths.sort();
        let texts: Vec<String> = paths.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
        for (at, text) in (0..FOLDER).zip(texts.iter().cycle()) {
            let text = text.replace("stair \"", &format!("stair \"No. {at}, "));
            let text = text.replace("measured \"", &format!("measured \"No. {at}, "));
            let text = text.replace("total rise: ", &format!("longest bit: {}\"\n    total rise: ", Self::spacing(at)));
            fs::write(root.join(format!("sort-{at:04}.stair")), text).unwrap();
        }
        Self(root)
    }

    /// Towers of two stages, 7.5 KB and some 130 elements each, under one set of 57 rules; every second one has
    /// handrails that are too low.
    fn of_towers() -> Self {
        let root = env::temp_dir().join(format!("pitchboard-towers-{}", process::id()));
        fs::create_dir_all(&root).unwrap();
        let stage = TOWER.replace("rules: residential, workshop", "rules: residential");
        let upper = stage.replace("first stage", "second stage");
        for at in 0..FOLDER {
            let mut text = format!("{stage}\n{upper}").replace("Bittern tower", &format!("Tower {at}"));
            text = text.replace("width: 80\"", &format!("width: {}\"", 64.0 + Self::spacing(at)));
            if at % 2 == 0 {
                text = text.replacen(
                    "height: 36\"\n            section: round",
                    "height: 33\"\n            section: round",
                    1,
                );
            }
            fs::write(root.join(format!("tower-{at:04}.stair")), text).unwrap();
        }
        Self(root)
    }

    /// A figure of each design's own.
    fn spacing(at: usize) -> f64 {
        16.0 + f64::from(u32::try_from(at % 32).unwrap()) / 32.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn findings(folder: &Folder) -> Vec<Finding> {
    let session = Session::new(Disk);
    let paths = designs(std::slice::from_ref(&folder.0));
    paths.into_iter().flat_map(|path| session.check(&read(&path.unwrap()).unwrap(), None).report.findings).collect()
}

/// From the disk to what is printed.
fn printed(folder: &Folder) -> usize {
    let session = Session::new(Disk);
    let look = Look { colour: false, unicode: true, width: 100, list_not_checked: false };
    let paths = designs(std::slice::from_ref(&folder.0));
    let text = |path: PathBuf| report::report(&session.check(&read(&path).unwrap(), None).report, &look);
    paths.into_iter().map(|path| text(path.unwrap()).len()).sum()
}

/// 2,000 designs of many sorts, as `pitchboard check` does it on one core.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn folder_of_2000_printed(bencher: Bencher<'_, '_>) {
    let folder = Folder::of_many_sorts();
    bencher.counter(ItemsCount::new(FOLDER)).bench_local(|| printed(black_box(&folder)));
}

/// The same where every one is faulty.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn folder_of_2000_faulty_printed(bencher: Bencher<'_, '_>) {
    let folder = Folder::new(1);
    bencher.counter(ItemsCount::new(FOLDER)).bench_local(|| printed(black_box(&folder)));
}

/// 2,000 designs from the disk to findings, the rulesets read once on the way; one in ten is faulty.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn folder_of_2000(bencher: Bencher<'_, '_>) {
    let folder = Folder::new(10);
    bencher.counter(ItemsCount::new(FOLDER)).bench_local(|| findings(black_box(&folder)));
}

/// The same where every one is faulty, and a value that would pass is sought for each finding.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn folder_of_2000_faulty(bencher: Bencher<'_, '_>) {
    let folder = Folder::new(1);
    bencher.counter(ItemsCount::new(FOLDER)).bench_local(|| findings(black_box(&folder)));
}

/// 2,000 designs three times as large, one set of 57 rules.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn folder_of_2000_towers(bencher: Bencher<'_, '_>) {
    let folder = Folder::of_towers();
    bencher.counter(ItemsCount::new(FOLDER)).bench_local(|| findings(black_box(&folder)));
}
