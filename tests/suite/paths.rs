//! The path of an element is what a person would call it, no two are alike, and a line of another kind leaves it.

use pitchboard::base::Source;
use pitchboard::model::Design;
use pitchboard::session::Session;

fn drawn(body: &str) -> Design {
    let text = format!("stair \"hide\" {{ rules: workshop\n {body} }}");
    let drawing = Session::default().draw(&Source::new("hide.stair", text));
    Design::clone(&drawing.stairs[0].drawn)
}

const BODY: &str = "flight lower { risers: 2 of 7\"; runs: 10\"; guard right { height: 36\" } }\n landing mid { depth: 36\" }\n flight upper { risers: 2 of 7\"; runs: 10\" }\n post \"newel\" { section: 4x4 }\n stringer { section: 2x12 }\n wall left, right { along: lower }\n joint \"newel to stringer\" { joins: newel to stringer; in newel { end: 3\" } }\n brace { direction: along }\n brace { direction: across }";

#[test]
fn a_path_is_what_a_person_would_say() {
    let paths = drawn(BODY).paths();
    for path in [
        "stair",
        "flight lower",
        "flight lower / guard right",
        "flight lower / tread 1",
        "flight upper / riser 2",
        "landing mid",
        "post newel",
        "wall left",
        "joint \"newel to stringer\" / newel",
        "brace #1",
        "brace #2",
        "flight lower / stringer",
        "flight upper / stringer",
    ] {
        assert_eq!(paths.iter().filter(|found| *found == path).count(), 1, "{path} in {paths:#?}");
    }
}

#[test]
fn a_block_of_another_kind_above_changes_no_path() {
    // Indoors a ceiling that is drawn takes the place of those that are not.
    let before = drawn(&format!("setting: outdoors\n {BODY}")).paths();
    let after =
        drawn(&format!("setting: outdoors\n ground left {{ below: 6\" }}\n ceiling {{ headroom: 80\" }}\n {BODY}"))
            .paths();
    for path in &before {
        assert!(after.contains(path), "{path} is gone");
    }
    assert_eq!(after.len(), before.len() + 2);
}

#[test]
fn no_two_elements_of_an_example_share_a_path() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seen = 0;
    for entry in walkdir::WalkDir::new(root.join("examples")) {
        let entry = entry.unwrap();
        if entry.path().extension().is_none_or(|end| end != "stair") {
            continue;
        }
        let source = Source::new(entry.path().to_string_lossy(), std::fs::read_to_string(entry.path()).unwrap());
        for stair in &Session::default().draw(&source).stairs {
            let paths = stair.drawn.paths();
            let mut unique = paths.clone();
            unique.sort();
            unique.dedup();
            assert_eq!(unique.len(), paths.len(), "{paths:#?}");
            seen += paths.len();
        }
    }
    assert!(seen > 500, "only {seen} elements");
}
