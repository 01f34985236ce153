//! A design held to both shipped sets, and drawn for the terminal.

#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

#[path = "../../suite/whole_path.rs"]
mod whole_path;

fuzz_target!(|data: &[u8]| -> Corpus {
    let Ok(text) = std::str::from_utf8(data) else { return Corpus::Reject };
    whole_path::is_drawn(&whole_path::held_to_both(text));
    Corpus::Keep
});
