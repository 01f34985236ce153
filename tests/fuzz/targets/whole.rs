//! A design held to both shipped sets, and drawn for the terminal.

#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

#[path = "../../path/mod.rs"]
mod path;

fuzz_target!(|data: &[u8]| -> Corpus {
    let Ok(text) = std::str::from_utf8(data) else { return Corpus::Reject };
    path::is_drawn(&path::held_to_both(text));
    Corpus::Keep
});
