//! The map keeps up with the house, and no page says more of a pass than it is.

use std::fs;
use std::path::{Path, PathBuf};

use pitchboard::guide::TOPICS;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn page(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

#[test]
fn the_contributors_guide_maps_every_file_of_the_source() {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("readable") {
            let path = entry.expect("entry").path();
            if path.is_dir() { walk(&path, found) } else { found.push(path) }
        }
    }
    let map = page("DEVELOPERS.md");
    let mut files = Vec::new();
    for folder in ["src", "grammar", "rulesets"] {
        walk(&root().join(folder), &mut files);
    }
    let name = |path: &PathBuf| path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let missing: Vec<String> =
        files.iter().filter(|path| !map.contains(&name(path))).map(|path| path.display().to_string()).collect();
    assert!(missing.is_empty(), "DEVELOPERS.md does not place: {}", missing.join(", "));
}

#[test]
fn a_pass_is_never_called_more_than_it_is() {
    let mut pages =
        vec![("README.md".to_owned(), page("README.md")), ("DEVELOPERS.md".to_owned(), page("DEVELOPERS.md"))];
    pages.extend(TOPICS.iter().map(|topic| (topic.name.to_owned(), topic.text.to_owned())));
    for (name, text) in pages {
        let text = text.to_lowercase();
        for claim in ["code-compliant", "code compliant", "certified", "guaranteed safe"] {
            assert!(!text.contains(claim), "{name} claims `{claim}`");
        }
        let shows_results = text.contains("\n$ pitchboard check");
        assert!(!shows_results || text.contains("no permit"), "{name} shows a result without the usual caution");
    }
}
