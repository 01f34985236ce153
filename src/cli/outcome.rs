//! How a run ends.

use std::process::ExitCode;

/// How a run ended. The highest of all files is the exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// 0: nothing is broken. Advice that was not taken does not count, nor does what was not checked, unless `--strict` is given.
    Sound = 0,
    /// 1: a `shall` is broken, or a statement could not be read; a text is not tidy.
    Broken = 1,
    /// 2: something could not be checked at all: a file, a ruleset, the command line itself.
    Unchecked = 2,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        ExitCode::from(outcome as u8)
    }
}
