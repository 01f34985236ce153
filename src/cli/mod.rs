//! The command line: what is asked for, and how a run ends.

mod affected;
mod baseline;
mod check;
mod commands;
mod compare;
mod completions;
mod day;
mod disk;
mod faces;
mod fault;
mod files;
mod gate;
mod guide;
mod licences;
mod lock;
mod look;
mod lsp;
mod manual;
mod mend;
mod ordered;
mod outcome;
mod output;
mod passed;
mod progress;
mod reference;
mod rules;
mod search;
mod selection;
mod tidy;
mod whole_file;
mod working;
#[cfg(test)]
mod yard;

use std::thread;

use clap::{CommandFactory, Parser, Subcommand};

use crate::base::limits;
#[cfg(feature = "internals")]
use crate::report::Page;
use crate::rules::FileProblem;
use crate::wording;

pub use disk::Disk;
pub use fault::unharmed;
pub use files::read;
pub use look::{Colour, look};
pub use outcome::Outcome;
pub use output::Output;
#[cfg(feature = "internals")]
pub use search::designs;

/// Checks timber stairs, written as text, against rulesets before wood is cut.
#[derive(Debug, Parser)]
#[command(version, about, after_help = EXAMPLE, arg_required_else_help = true)]
pub struct Cli {
    /// When to use colours; `auto` means on a terminal, unless NO_COLOR is set
    #[arg(long, global = true, value_enum, default_value_t, value_name = "WHEN")]
    pub colour: Colour,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

const EXAMPLE: &str = "\
Example:
  pitchboard check hide.stair

A result is no permit and no approval: local codes and the authority that has jurisdiction decide.";

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check designs and say what is wrong, at the words to change
    Check(check::Ask),
    /// Write into designs what mends a finding and leaves none that was not there, or show it as a patch
    Mend(mend::Ask),
    /// Show how a number comes about: formula, numbers put in, source
    Working(working::Ask),
    /// List rulesets, or the rules of one, and prove them by their own examples
    Rules(rules::Ask),
    /// Compare two rulesets rule by rule, and say which designs come out otherwise
    Compare(compare::Ask),
    /// Lay out designs, rulesets and shop's files alike, changing nothing but blanks
    Tidy(tidy::Ask),
    /// Serve an editor: findings, mends and workings while a design is written
    Lsp(lsp::Ask),
    /// Print what designs and rules may be made of: kinds, properties, quantities, notations, words, commands
    Reference(reference::Ask),
    /// Explain the tool a topic at a time: the two languages, adapting the rules, checking in CI
    Guide(guide::Ask),
    /// Print what a shell needs to complete these commands
    Completions(completions::Ask),
    /// Print the pages for `man`, or write them into a folder
    Manual(manual::Ask),
    /// Print the licence of the tool and of all that is built into it
    Licences(licences::Ask),
}

/// Reads the command line, does what it asks, and says how that ended.
pub fn main() -> Outcome {
    fault::quietly();
    // The stack that the surroundings give may be small.
    let work = thread::Builder::new().stack_size(limits::STACK).spawn(answer);
    match work.map(thread::JoinHandle::join) {
        Ok(Ok(outcome)) => outcome,
        Ok(Err(_)) => {
            output::complain(&format!("{}\n", wording::why(&FileProblem::Fault)));
            Outcome::Unchecked
        }
        Err(_) => answer(),
    }
}

fn answer() -> Outcome {
    let asked = Cli::try_parse();
    // It writes from a thread of its own, and an output holds the stream for this one.
    if let Ok(Cli { command: Command::Lsp(ask), .. }) = &asked {
        return ask.run();
    }
    let mut output = Output::standard();
    match asked {
        Ok(cli) => {
            let outcome = cli.run(&mut output);
            outcome.max(output.finish())
        }
        Err(refused) => {
            let outcome = if refused.use_stderr() { Outcome::Unchecked } else { Outcome::Sound };
            output.clap(&refused);
            outcome.max(output.finish())
        }
    }
}

impl Cli {
    /// Does what is asked for.
    pub fn run(&self, output: &mut Output<'_>) -> Outcome {
        let look = look(self.colour);
        match &self.command {
            Command::Check(ask) => ask.run(&look, output),
            Command::Mend(ask) => ask.run(&look, output),
            Command::Working(ask) => ask.run(&look, output),
            Command::Rules(ask) => ask.run(&look, output),
            Command::Compare(ask) => ask.run(&look, output),
            Command::Tidy(ask) => ask.run(&look, output),
            Command::Lsp(ask) => ask.run(),
            Command::Reference(ask) => ask.run(Cli::command(), &look, output),
            Command::Guide(ask) => ask.run(&look, output),
            Command::Completions(ask) => ask.run(Cli::command(), output),
            Command::Manual(ask) => ask.run(Cli::command(), &look, output),
            Command::Licences(ask) => ask.run(output),
        }
    }
}

/// The whole reference: the tables of the languages, and the commands.
#[cfg(feature = "internals")]
pub fn reference() -> Page {
    reference::page(Cli::command())
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound_and_every_command_shows_an_example() {
        let command = Cli::command();
        command.clone().debug_assert();
        for sub in command.get_subcommands().chain([&command]) {
            let help = sub.get_after_help().map(ToString::to_string).unwrap_or_default();
            assert!(help.contains("pitchboard "), "{} has no example", sub.get_name());
        }
    }

    #[test]
    fn the_highest_outcome_wins() {
        assert!(Outcome::Unchecked > Outcome::Broken && Outcome::Broken > Outcome::Sound);
        assert_eq!(Outcome::Unchecked as u8, 2);
    }
}
