//! A design read to its tree and to what it states.

#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

#[path = "../../suite/whole_path.rs"]
mod whole_path;

fuzz_target!(|data: &[u8]| -> Corpus {
    let Ok(text) = std::str::from_utf8(data) else { return Corpus::Reject };
    whole_path::read_design(text);
    Corpus::Keep
});
