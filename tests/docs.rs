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

#[test]
fn the_readme_names_every_kind_property_and_quantity() {
    let readme = guide("README.md");
    let mut missing: Vec<String> = Vec::new();
    for kind in KINDS {
        let said = kind.properties.iter().map(|property| property.name).chain([kind.name]);
        missing.extend(said.filter(|name| !readme.contains(name)).map(|name| format!("{name} of {}", kind.name)));
    }
    let unsaid = quantities().filter(|entry| !readme.contains(entry.name));
    missing.extend(unsaid.map(|entry| format!("{} of {}", entry.name, entry.kind)));
    assert!(missing.is_empty(), "README.md says nothing of: {}", missing.join(", "));
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
