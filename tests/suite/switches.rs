//! What the environment asks of the tests: `UPDATE=1` to write anew what the tests hold, `FULL=1` for the long runs.
//!
//! A variable that is not set, empty or `0` asks for nothing.

use std::ffi::OsStr;

/// How much shorter a long run is unless `FULL=1` asks for all of it.
const SHORTER: usize = 10;

fn asks(value: Option<&OsStr>) -> bool {
    value.is_some_and(|value| !value.is_empty() && value != "0")
}

/// Whether what differs is to be written anew, not told.
pub fn update() -> bool {
    asks(std::env::var_os("UPDATE").as_deref())
}

/// Whether the long runs are wanted in full.
pub fn full() -> bool {
    asks(std::env::var_os("FULL").as_deref())
}

/// How often or how far a run goes whose full length is given: a tenth of it, at least once, or with `FULL=1` all.
pub fn long_run(full: usize) -> usize {
    if self::full() { full } else { full.div_ceil(SHORTER) }
}

#[test]
fn nothing_and_nought_ask_for_nothing() {
    assert!(!asks(None));
    for (value, asked) in [("", false), ("0", false), ("1", true), ("yes", true), ("00", true)] {
        assert_eq!(asks(Some(OsStr::new(value))), asked, "{value:?}");
    }
}
