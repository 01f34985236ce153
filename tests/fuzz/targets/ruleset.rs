//! A ruleset read and proved, and a design of ours held to it.

#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

#[path = "../../suite/whole_path.rs"]
mod whole_path;

const DESIGN: &str = include_str!("../../../examples/sedge-cabin-north-door.stair");

fuzz_target!(|data: &[u8]| -> Corpus {
    let Ok(text) = std::str::from_utf8(data) else { return Corpus::Reject };
    whole_path::check_rules(text);
    whole_path::hold_to(text, DESIGN);
    Corpus::Keep
});
