//! What fails a run, and what a baseline knows, in words.

use crate::base::Levels;
use crate::check::Fault;

/// What fails a run, of a design for which that was chosen.
pub fn fails_on(levels: Levels) -> String {
    format!("fails the run: {}", levels.words())
}

/// That rules which could not be settled fail a run; so many of them are advice, which then does not.
pub fn open(failing: usize, advice: usize, advice_fails: bool) -> String {
    let what = if advice_fails { "rule" } else { "required rule" };
    let rules = if failing == 1 { format!("1 {what}") } else { format!("{failing} {what}s") };
    let fail = if failing == 1 { "fails" } else { "fail" };
    let spared = match advice {
        0 => String::new(),
        1 => " (1 that is advice does not)".to_owned(),
        many => format!(" ({many} that are advice do not)"),
    };
    format!("{rules} not checked {fail} the run{spared}:")
}

/// Something that a baseline knows and that is gone.
pub fn gone(fault: &Fault) -> String {
    let Fault { stair, element, set, rule, level } = fault;
    format!("gone from the baseline: {rule}, {set}, {} for {element} of \"{stair}\"", level.word())
}

/// A design that a baseline knows and that is no longer there.
pub fn lost(design: &str, faults: usize) -> String {
    format!("gone from the baseline with `{design}`, which is not there: {faults}")
}

/// A design of which a baseline can hold nothing: its name is no text, or it is no file; so much of it stays new.
pub fn unnamed(design: &str, new: usize) -> String {
    format!("no baseline can name `{design}`, so what was found there stays new: {new}")
}

/// What a run came to beside a baseline.
pub fn baseline(file: &str, (known, new, gone): (usize, usize, usize), done: BaselineDone) -> String {
    let done = match done {
        BaselineDone::Held if gone > 0 => ": --shrink takes out what is gone",
        BaselineDone::Held | BaselineDone::AsItWas => "",
        BaselineDone::Recorded => ": recorded",
        BaselineDone::Shrunk => ": what is gone was taken out",
        BaselineDone::NotWritten => ": not written",
    };
    format!("baseline {file}: {known} known, {new} new, {gone} gone{done}")
}

/// What was done with a baseline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BaselineDone {
    /// It was held beside the run, and not written.
    Held,
    /// It was to be written, and is as it should be.
    AsItWas,
    /// What was found is in it.
    Recorded,
    /// What is gone is not in it any more.
    Shrunk,
    /// It could not be written.
    NotWritten,
}
