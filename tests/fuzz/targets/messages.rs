//! A script of messages through the language server.

#![no_main]

use libfuzzer_sys::{Corpus, fuzz_target};

#[path = "../../suite/message_path.rs"]
mod message_path;

fuzz_target!(|data: &[u8]| -> Corpus {
    let Ok(text) = std::str::from_utf8(data) else { return Corpus::Reject };
    message_path::take(text);
    Corpus::Keep
});
