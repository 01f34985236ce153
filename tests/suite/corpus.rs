//! What the fuzz targets of `tests/fuzz` have found worth keeping, one file each: every text takes the same path as
//! there, without a panic, and what is told of it lies on whole characters.

use crate::message_path;
use crate::whole_path;
use std::fs;
use std::path::Path;

fn replay(target: &str, take: impl Fn(&str)) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(target);
    let mut files: Vec<_> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    assert!(!files.is_empty(), "{folder:?} is empty");
    for file in files {
        // Shown only if the file fails.
        println!("{}", file.display());
        take(&fs::read_to_string(&file).expect("the targets take UTF-8 only"));
    }
}

#[test]
fn designs_are_read() {
    replay("design", whole_path::read_design);
}

#[test]
fn rulesets_are_read_and_proved_and_held_to() {
    let design = include_str!("../../examples/sedge-cabin-north-door.stair");
    replay("ruleset", |text| {
        whole_path::check_rules(text);
        whole_path::hold_to(text, design);
    });
}

#[test]
fn messages_are_taken_in_any_order() {
    replay("messages", message_path::take);
}

#[test]
fn designs_are_held_to_both_sets_and_drawn() {
    replay("whole", |text| {
        whole_path::check(text);
    });
}
