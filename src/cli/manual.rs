//! `pitchboard manual`: the pages for `man`, made from the definitions of the commands.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use clap::{Args, Command};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, roman};

use super::{Outcome, Output, files};
use crate::base::names::nearest;
use crate::report::{self, Look};
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard manual | man -l -              how the tool is called
  pitchboard manual check | man -l -        one command
  pitchboard manual --into ~/.local/share/man/man1
                                            every page, as files";

/// What `manual` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// A command, such as `check`; without one, the page of the whole tool
    #[arg(value_name = "COMMAND", conflicts_with = "into")]
    pub command: Option<String>,
    /// Write every page into this folder, which is there
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
}

impl Ask {
    /// Prints a page, or writes all of them.
    pub fn run(&self, mut commands: Command, look: &Look, output: &mut Output<'_>) -> Outcome {
        commands.build();
        let said = match (&self.into, self.command.as_deref()) {
            (Some(folder), _) => match write(&commands, folder) {
                Ok(()) => return Outcome::Sound,
                Err(why) => format!(
                    "the pages could not be written into `{}`: {}",
                    folder.display(),
                    wording::why(&files::why(&why))
                ),
            },
            (None, None) => {
                output.as_it_is(&page(&commands, &commands));
                return Outcome::Sound;
            }
            (None, Some(name)) => {
                if let Some(command) = told(&commands).find(|command| command.get_name() == name) {
                    output.as_it_is(&page(&commands, command));
                    return Outcome::Sound;
                }
                let names = || told(&commands).map(Command::get_name);
                let all = || format!("there are {}", report::listed(&names().map(str::to_owned).collect::<Vec<_>>()));
                let help = nearest(name, names()).map_or_else(all, wording::did_you_mean);
                format!("`{name}` is no command; {help}")
            }
        };
        output.put(&format!("{}\n", report::sentence(&said, look.unicode)));
        Outcome::Unchecked
    }
}

/// The commands that a page tells of.
fn told(whole: &Command) -> impl Iterator<Item = &Command> {
    whole.get_subcommands().filter(|command| command.get_name() != "help")
}

fn write(whole: &Command, folder: &Path) -> io::Result<()> {
    told(whole).chain([whole]).try_for_each(|command| {
        let name = command.get_display_name().unwrap_or(command.get_name());
        fs::write(folder.join(format!("{name}.1")), page(whole, command))
    })
}

/// A page for `man`. The examples keep their lines, which a page made of clap's help alone would fill.
fn page(whole: &Command, command: &Command) -> String {
    let after = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let version = format!("{} {}", whole.get_name(), whole.get_version().unwrap_or_default());
    let mut page = Vec::new();
    // To write into memory does not fail.
    let _ = Man::new(command.clone().after_help(None::<&str>)).source(version).render(&mut page);
    let (examples, notes): (Vec<&str>, Vec<&str>) = after.split("\n\n").partition(|part| part.starts_with("Example"));
    let mut more = Roff::new();
    more.control("SH", ["EXAMPLES"]).control("nf", []);
    for line in examples.iter().flat_map(|part| part.lines().skip(1)) {
        more.text([roman(line)]);
    }
    more.control("fi", []).control("SH", ["NOTES"]);
    for note in notes {
        more.text([roman(note.replace('\n', " "))]).control("PP", []);
    }
    // Some say it in their own words.
    if !after.contains("no permit") {
        more.text([roman(CAUTION)]);
    }
    format!("{}{}", String::from_utf8_lossy(&page), more.render())
}

const CAUTION: &str =
    "A result is no permit and no approval: local codes and the authority that has jurisdiction decide.";
