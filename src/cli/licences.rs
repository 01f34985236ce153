//! `pitchboard licences`: the terms of the tool, and the notices that go with what is built into it.

use clap::Args;

use super::{Outcome, Output};

const EXAMPLES: &str = "\
Examples:
  pitchboard licences                      on the screen
  pitchboard licences > THIRD-PARTY.txt    to go with a binary that is handed on";

/// The licence of this tool.
const OWN: &str = include_str!("../../LICENSE");
/// Every crate that is linked into the binary, with its licence. `tests/suite/licences.rs` writes it, and holds it to
/// what Cargo.lock decides.
const OTHERS: &str = include_str!("licences.txt");

/// What `licences` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {}

impl Ask {
    /// Prints all of them.
    pub fn run(&self, output: &mut Output<'_>) -> Outcome {
        output.put(&format!("Pitchboard {}\n\n{OWN}\n{OTHERS}", env!("CARGO_PKG_VERSION")));
        Outcome::Sound
    }
}
