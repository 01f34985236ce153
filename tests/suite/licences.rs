//! The licences of what the project is built from, and the notices that the binary prints of what is linked into it.
//! Which crates those are, Cargo.lock decides; `cargo tree` names them, `cargo metadata` says under which licence each
//! is offered and where its texts lie.
//!
//! `UPDATE=1 cargo test --test suite licences` writes `src/cli/licences.txt` anew.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

use crate::switches::update;

/// Every licence expression (SPDX) that a dependency may carry, and the licence under which it is taken. What is not
/// listed wants a person's eye first. The second is one of the alternatives of the first, or all of it.
const TAKEN: &[(&str, &str)] = &[
    ("MIT", "MIT"),
    ("MIT OR Apache-2.0", "MIT"),
    ("Apache-2.0 OR MIT", "MIT"),
    ("MIT/Apache-2.0", "MIT"),
    ("Apache-2.0 / MIT", "MIT"),
    ("Unlicense OR MIT", "MIT"),
    ("Unlicense/MIT", "MIT"),
    ("Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT", "MIT"),
    ("MIT OR Apache-2.0 OR LGPL-2.1-or-later", "MIT"),
    ("Apache-2.0/MIT", "MIT"),
    ("BSD-2-Clause OR Apache-2.0 OR MIT", "MIT"),
    ("MIT-0", "MIT-0"),
    ("Apache-2.0", "Apache-2.0"),
    ("ISC", "ISC"),
    ("Zlib", "Zlib"),
    ("Unicode-3.0", "Unicode-3.0"),
    ("(MIT OR Apache-2.0) AND Unicode-3.0", "MIT AND Unicode-3.0"),
];

/// The platforms for which a binary is handed on.
const PLATFORMS: [&str; 3] = ["x86_64-unknown-linux-gnu", "aarch64-apple-darwin", "x86_64-pc-windows-msvc"];

const NOTICES: &str = "src/cli/licences.txt";

const HEAD: &str = "\
Third-party software in Pitchboard

A binary of Pitchboard holds code of the packages below, in whole or in part; which of them depends on the system that
it is built for. Each stands with its version, the licence expression under which it is offered and, where that leaves
a choice, the licence that is taken. Packages of the same text stand together above it. The standard library of the
Rust language is linked in too; The Rust Project Developers offer it under MIT OR Apache-2.0.
";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

/// What cargo prints, or why it could not.
fn cargo(arguments: &[&str]) -> Result<String, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo).args(arguments).current_dir(root()).output().expect("cargo runs");
    let said = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    if output.status.success() { Ok(said(&output.stdout)) } else { Err(said(&output.stderr)) }
}

/// Name and version.
type Crate = (String, String);

/// Every package that the lock brings, and where it lies.
struct Package {
    expression: String,
    folder: PathBuf,
}

/// The packages of the project for these platforms, with and without what only tests need.
fn packages(platforms: &[&str]) -> Result<BTreeMap<Crate, Package>, String> {
    let mut arguments = vec!["metadata", "--locked", "--format-version", "1"];
    arguments.extend(platforms.iter().flat_map(|platform| ["--filter-platform", platform]));
    let metadata: Value = serde_json::from_str(&cargo(&arguments)?).expect("JSON");
    let text = |package: &Value, name: &str| package[name].as_str().unwrap_or("").to_owned();
    let named = |package: &Value| {
        let folder = Path::new(&text(package, "manifest_path")).parent().expect("a folder").to_owned();
        let package_is = (text(package, "name"), text(package, "version"));
        (package_is, Package { expression: text(package, "license"), folder })
    };
    Ok(metadata["packages"].as_array().expect("a list").iter().map(named).collect())
}

/// The packages that are linked into the binary.
fn linked(platforms: &[&str]) -> Result<BTreeSet<Crate>, String> {
    let mut arguments =
        vec!["tree", "--locked", "--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"];
    arguments.extend(platforms.iter().flat_map(|platform| ["--target", platform]));
    let lines = cargo(&arguments)?;
    let read = |line: &str| {
        let (name, rest) = line.split_once(" v")?;
        Some((name.to_owned(), rest.split(' ').next()?.to_owned()))
    };
    Ok(lines.lines().filter_map(read).filter(|(name, _)| name != env!("CARGO_PKG_NAME")).collect())
}

/// All that a binary for any of the platforms is made of, and true; or, where the packages of the others cannot be
/// had, what one for this machine is made of, and false.
fn known() -> (BTreeSet<Crate>, BTreeMap<Crate, Package>, bool) {
    match (linked(&PLATFORMS), packages(&PLATFORMS)) {
        (Ok(linked), Ok(packages)) => (linked, packages, true),
        _ => {
            let rustc = Command::new("rustc").arg("-vV").output().expect("rustc runs");
            let said = String::from_utf8_lossy(&rustc.stdout).into_owned();
            let host = said.lines().find_map(|line| line.strip_prefix("host: ")).expect("a host");
            let had = |why: String| -> ! { panic!("{why}") };
            (linked(&[host]).unwrap_or_else(|why| had(why)), packages(&[host]).unwrap_or_else(|why| had(why)), false)
        }
    }
}

fn taken(expression: &str) -> Option<&'static str> {
    TAKEN.iter().find(|(known, _)| *known == expression).map(|(_, taken)| *taken)
}

/// The licence that goes with a package: the text of the one that is taken, and what it asks to be handed on with it.
fn text(package: &Package) -> String {
    let taken = taken(&package.expression).unwrap_or_else(|| panic!("{}", package.expression));
    let names = fs::read_dir(&package.folder).expect("a folder").map(|entry| entry.expect("an entry").file_name());
    let mut names: Vec<String> = names.map(|name| name.to_string_lossy().into_owned()).collect();
    names.sort();
    let is = |name: &str, begins: &str| name.to_uppercase().starts_with(begins);
    let licences: Vec<&String> = names.iter().filter(|name| is(name, "LICEN") || is(name, "COPYING")).collect();
    // Where each licence has its file, the file of the one that is taken.
    let own: Vec<&String> = licences.iter().copied().filter(|name| name.to_uppercase().contains(taken)).collect();
    let chosen = if own.is_empty() { licences } else { own };
    assert!(!chosen.is_empty(), "no licence in {}", package.folder.display());
    let notices = names.iter().filter(|name| is(name, "NOTICE"));
    let read = |name: &String| fs::read_to_string(package.folder.join(name)).expect("text");
    let whole: Vec<String> = chosen.into_iter().chain(notices).map(read).collect();
    let lines: Vec<&str> = whole.iter().flat_map(|text| text.trim().lines().map(str::trim_end).chain([""])).collect();
    lines.join("\n").trim_start_matches('\u{feff}').trim_end().to_owned()
}

/// The notices of these packages: each text once, below the packages that it goes with.
fn notices(linked: &BTreeSet<Crate>, packages: &BTreeMap<Crate, Package>) -> String {
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for name in linked {
        let package = packages.get(name).unwrap_or_else(|| panic!("{name:?} has no metadata"));
        by_text.entry(text(package)).or_default().push(entry(name, package));
    }
    let mut groups: Vec<(String, Vec<String>)> = by_text.into_iter().collect();
    groups.sort_by(|(_, a), (_, b)| a.cmp(b));
    let rule = "=".repeat(80);
    let shown = groups.iter().map(|(text, names)| format!("\n{rule}\n{}\n\n{text}\n", names.join("\n")));
    HEAD.to_owned() + &shown.collect::<String>()
}

fn entry((name, version): &Crate, package: &Package) -> String {
    let taken = taken(&package.expression).unwrap_or_else(|| panic!("{name}: {}", package.expression));
    let choice = if taken == package.expression { String::new() } else { format!("; taken under {taken}") };
    format!("{name} {version}: {}{choice}", package.expression)
}

#[test]
fn the_notices_are_those_of_what_is_linked() {
    let (linked, packages, all) = known();
    assert!(linked.iter().any(|(name, _)| name == "pest") && !linked.iter().any(|(name, _)| name == "proptest"));
    let path = root().join(NOTICES);
    let held = fs::read_to_string(&path).unwrap_or_default();
    if all {
        let meant = notices(&linked, &packages);
        if update() && held != meant {
            fs::write(&path, &meant).expect("written");
        } else {
            assert!(held == meant, "{NOTICES} is not what Cargo.lock decides; UPDATE=1 writes it anew");
        }
        return;
    }
    // Without the packages of the other platforms: each that is here, word for word, and none that the lock lacks.
    for name in &linked {
        let package = &packages[name];
        let group = held.split(&"=".repeat(80)).find(|group| group.contains(&entry(name, package)));
        assert!(group.is_some_and(|group| group.contains(&text(package))), "{name:?} is not in {NOTICES} as it is");
    }
    let lock = fs::read_to_string(root().join("Cargo.lock")).expect("a lock");
    for line in held.split(&"=".repeat(80)).skip(1).flat_map(|group| group.trim().lines().take_while(|l| !l.is_empty()))
    {
        let (name, version) = line.split_once(": ").and_then(|(name, _)| name.split_once(' ')).expect("an entry");
        assert!(lock.contains(&format!("name = \"{name}\"\nversion = \"{version}\"")), "{line} is not in Cargo.lock");
    }
}

#[test]
fn every_dependency_is_under_a_licence_that_is_known() {
    let (_, packages, _) = known();
    assert!(packages.len() > 100, "{} packages", packages.len());
    let unknown: Vec<String> = packages
        .iter()
        .filter(|(_, package)| taken(&package.expression).is_none())
        .map(|((name, version), package)| format!("{name} {version}: `{}`", package.expression))
        .collect();
    assert!(unknown.is_empty(), "read these first, then enter them in TAKEN: {unknown:#?}");
}

#[test]
fn each_licence_that_is_taken_is_one_that_is_offered() {
    for (offered, taken) in TAKEN {
        let alternatives: Vec<&str> = offered.split([' ', '/', '(', ')']).collect();
        for part in taken.split(" AND ") {
            assert!(alternatives.contains(&part), "{part} of {offered}");
        }
        // Nothing is asked of those who use the tool but that the notice goes along.
        assert!(!taken.contains("GPL"), "{taken}");
    }
}

/// What the crates of this test file are held to must not hold of a licence that nobody has looked at.
#[test]
fn a_licence_that_is_not_listed_is_seen() {
    assert_eq!(taken("AGPL-3.0-only"), None);
    assert_eq!(taken(""), None);
}
