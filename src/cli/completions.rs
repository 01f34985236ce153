//! `pitchboard completions`: what a shell needs to complete the commands, made from their definitions.

use clap::{Args, Command};
use clap_complete::{Shell, generate};

use super::{Outcome, Output};

const EXAMPLES: &str = "\
Examples:
  pitchboard completions bash > ~/.local/share/bash-completion/completions/pitchboard
  pitchboard completions zsh > ~/.zfunc/_pitchboard
  pitchboard completions fish > ~/.config/fish/completions/pitchboard.fish";

/// What `completions` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// The shell that reads them
    #[arg(value_enum)]
    pub shell: Shell,
}

impl Ask {
    /// Prints the script that the shell reads.
    pub fn run(&self, mut commands: Command, output: &mut Output<'_>) -> Outcome {
        let mut script = Vec::new();
        let name = commands.get_name().to_owned();
        generate(self.shell, &mut commands, name, &mut script);
        output.as_it_is(&String::from_utf8_lossy(&script));
        Outcome::Sound
    }
}
