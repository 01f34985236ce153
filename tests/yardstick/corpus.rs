//! Makes the corpus, once, from the tree of the earlier version: its examples and cases, designs with one fault each
//! (its table of faults), and damaged texts.

use std::collections::BTreeSet;
use std::error::Error;
use std::fs;
use std::path::Path;

use super::damage::{Random, damaged};
use super::drawing::{Dice, Drawing};
use super::faults::faults;
use super::input::{Input, Kind};
use super::record::escaped;

/// How many faulty designs are made; `tests/suite/mutation.rs` makes as many.
const FAULTY: usize = 2_000;

/// Panicked in the version that this was written against: two runs for three treads, under a ceiling.
const STEPS_WITHOUT_RUNS: &str = "stair \"p\" { rules: residential; flight { risers: 4 of 6-1/2\"; \
    runs: 10\", 10-1/2\", 10\"; ceiling { height: 60\"; slope: 1 in 48 } } }";

/// `corpus FOLDER SEED COUNT`: `FOLDER/tree` is there already, `FOLDER/inputs` is written.
/// `good` says of a design whether nothing is broken in it.
pub fn run(arguments: &[String], good: impl Fn(&str, &str) -> bool) -> Result<(), Box<dyn Error>> {
    let [folder, seed, count] = arguments else { return Err("corpus FOLDER SEED COUNT".into()) };
    let (folder, seed, count) = (Path::new(folder), seed.parse()?, count.parse()?);
    let tree = folder.join("tree");
    let mut files = Vec::new();
    for top in ["examples", "tests/cases", "rulesets"] {
        below(&tree, top, &mut files)?;
    }
    let mut inputs: Vec<Input> = files.iter().filter_map(|path| whole(&tree, path)).collect();
    inputs.push(Input {
        name: "examples-more/steps-without-runs".to_owned(),
        ..design("examples/p.stair", STEPS_WITHOUT_RUNS)
    });
    let whole = inputs.clone();
    let examples: Vec<&Input> = whole
        .iter()
        .filter(|input| {
            input.kind == Kind::Design
                && input.path.starts_with("examples/")
                && input.path.matches('/').count() == 1
                && input.is_file()
        })
        .filter(|input| good(&input.path, &input.text))
        .collect();
    let faulty = spoilt(&examples, seed);
    if faulty.len() != FAULTY {
        return Err(format!("only {} different faults", faulty.len()).into());
    }
    inputs.extend(faulty);
    inputs.extend(all_damaged(&whole, &files, seed, count));
    fs::write(folder.join("inputs"), inputs.iter().map(line).collect::<String>())?;
    println!("{} inputs, {} of them files and {FAULTY} of them designs with a fault", inputs.len(), whole.len());
    Ok(())
}

/// An input as `input.rs` reads it.
fn line(input: &Input) -> String {
    let kind = match input.kind {
        Kind::Design => "design",
        Kind::Rules => "rules",
        Kind::Shop => "shop",
    };
    format!("{}\t{kind}\t{}\t{}\t{}\n", input.name, input.path, input.below, escaped(&input.text))
}

/// Files below a folder, sorted.
fn below(tree: &Path, folder: &str, files: &mut Vec<String>) -> std::io::Result<()> {
    let mut names = Vec::new();
    for entry in fs::read_dir(tree.join(folder))? {
        names.push(entry?.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    for name in names {
        let path = format!("{folder}/{name}");
        if tree.join(&path).is_dir() {
            below(tree, &path, files)?;
        } else {
            files.push(path);
        }
    }
    Ok(())
}

fn design(path: &str, text: &str) -> Input {
    let kind = Kind::Design;
    Input { name: path.to_owned(), kind, path: path.to_owned(), below: String::new(), text: text.to_owned() }
}

/// A file as it is.
fn whole(tree: &Path, path: &str) -> Option<Input> {
    let kind = match path.rsplit_once('.')?.1 {
        "stair" => Kind::Design,
        "rules" => Kind::Rules,
        "pitchboard" => Kind::Shop,
        _ => return None,
    };
    Some(Input { kind, ..design(path, &fs::read_to_string(tree.join(path)).ok()?) })
}

/// The faulty designs of `tests/suite/mutation.rs`, in its order: faults in turn, each on designs in turn.
fn spoilt(good: &[&Input], seed: u64) -> Vec<Input> {
    let stem = |input: &Input| input.path.trim_start_matches("examples/").trim_end_matches(".stair").to_owned();
    let drawings: Vec<Drawing> = good.iter().map(|input| Drawing::read(&stem(input), &input.text)).collect();
    let table = faults();
    let mut dice = Dice::new(seed);
    let mut spoilt: Vec<Input> = Vec::new();
    let mut seen = BTreeSet::new();
    let mut idle = vec![0; table.len()];
    while spoilt.len() < FAULTY && idle.iter().any(|idle| *idle < 200) {
        for (number, fault) in table.iter().enumerate() {
            let mut tries = 0;
            while idle[number] < 200 && tries < drawings.len() * 4 && spoilt.len() < FAULTY {
                tries += 1;
                let drawing = &drawings[dice.below(drawings.len())];
                let made = (fault.damage)(drawing, &mut dice).map(|damage| drawing.with(&damage));
                match made.filter(|text| *text != drawing.text && seen.insert(text.clone())) {
                    Some(text) => {
                        let name = format!("faults/{:04}", spoilt.len());
                        spoilt.push(Input { name, ..design("examples/spoilt.stair", &text) });
                        idle[number] = 0;
                        break;
                    }
                    None => idle[number] += 1,
                }
            }
        }
    }
    spoilt
}

/// Damaged designs, sets and shops' files; each small text as often as a large one.
fn all_damaged(whole: &[Input], files: &[String], seed: u64, count: usize) -> Vec<Input> {
    let of = |kind: Kind, top: &str| -> Vec<&Input> {
        whole.iter().filter(|input| input.kind == kind && input.path.starts_with(top)).collect()
    };
    let examples = of(Kind::Design, "examples/");
    let cases = of(Kind::Design, "tests/cases/");
    let sets = of(Kind::Rules, "rulesets/");
    let small_sets: Vec<&Input> = [of(Kind::Rules, "tests/cases/"), of(Kind::Rules, "examples/")].concat();
    let shops = of(Kind::Shop, "");
    let mut random = Random::new(seed);
    (0..count)
        .map(|number| {
            let from = match random.below(20) {
                0..7 => random.one(&examples),
                7..14 => random.one(&cases),
                14..17 => random.one(&small_sets),
                17..18 => random.one(&sets),
                _ => random.one(&shops),
            };
            let folder = from.path.rsplit_once('/').map_or("", |(folder, _)| folder);
            let designs: Vec<&str> = files
                .iter()
                .map(String::as_str)
                .filter(|path| from.kind == Kind::Shop && path.starts_with(folder) && path.ends_with(".stair"))
                .collect();
            let below = if designs.is_empty() { "" } else { random.one(&designs) }.to_owned();
            Input {
                name: format!("damaged/{number:05}"),
                below,
                text: damaged(&from.text, &mut random),
                ..from.clone()
            }
        })
        .collect()
}
