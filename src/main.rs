//! The `pitchboard` command: reads its arguments, does what they ask, and ends with the outcome as its exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    pitchboard::command_line().into()
}
