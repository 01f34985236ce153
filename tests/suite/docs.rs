//! The two guides keep up with the tables and with the house.

use std::fs;
use std::path::{Path, PathBuf};

use pitchboard::derive::quantities;
use pitchboard::model::KINDS;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn guide(name: &str) -> String {
    fs::read_to_string(root().join(name)).expect("the guide is there")
}

const BEGINS: &str = "<!-- The reference begins. It is written by `UPDATE=1 cargo test --test suite docs`. -->\n";
const ENDS: &str = "<!-- The reference ends. -->\n";

#[test]
fn the_readme_holds_the_reference_as_the_tables_have_it() {
    let readme = guide("README.md");
    let (before, rest) = readme.split_once(BEGINS).expect("the mark where the reference begins");
    let (held, after) = rest.split_once(ENDS).expect("the mark where it ends");
    let written = format!("\n{}\n", pitchboard::cli::reference().markdown(1));
    if std::env::var_os("UPDATE").is_some() {
        let text = [before, BEGINS, &written, ENDS, after].concat();
        fs::write(root().join("README.md"), text).expect("written");
        return;
    }
    let differs = held.lines().zip(written.lines()).find(|(held, written)| held != written);
    assert!(held == written, "README.md differs from the tables, first at {differs:#?}; {BEGINS}");
}

#[test]
fn the_reference_names_every_kind_property_quantity_and_command() {
    let text = pitchboard::cli::reference().markdown(1);
    for kind in KINDS {
        let part = text.split(&format!("\n#### {}\n", kind.name)).nth(1).unwrap_or_else(|| panic!("{}", kind.name));
        let part = part.split("\n#").next().unwrap_or_default();
        let quantities = quantities().filter(|entry| entry.kind == kind).map(|entry| entry.name);
        for name in kind.properties.iter().map(|property| property.name).chain(quantities) {
            assert!(part.contains(&format!("| `{name}`")), "{name} of {} is not told", kind.name);
        }
    }
    for command in ["check", "working", "rules", "compare", "reference"] {
        assert!(text.contains(&format!("#### pitchboard {command}\n")), "{command}");
    }
}

#[test]
fn the_contributors_guide_maps_every_file_of_the_source() {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("readable") {
            let path = entry.expect("entry").path();
            if path.is_dir() { walk(&path, found) } else { found.push(path) }
        }
    }
    let guide = guide("DEVELOPERS.md");
    let mut files = Vec::new();
    for folder in ["src", "grammar", "rulesets"] {
        walk(&root().join(folder), &mut files);
    }
    let name = |path: &PathBuf| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let missing: Vec<String> =
        files.iter().filter(|path| !guide.contains(&name(path))).map(|path| path.display().to_string()).collect();
    assert!(missing.is_empty(), "DEVELOPERS.md does not place: {}", missing.join(", "));
}

#[test]
fn a_pass_is_never_called_more_than_it_is() {
    let readme = guide("README.md").to_lowercase();
    assert!(readme.contains("no permit") || readme.contains("neither a permit"), "the usual caution");
    for name in ["README.md", "DEVELOPERS.md"] {
        let text = guide(name).to_lowercase();
        for claim in ["code-compliant", "code compliant", "certified", "guaranteed safe"] {
            assert!(!text.contains(claim), "{name} claims `{claim}`");
        }
    }
}
