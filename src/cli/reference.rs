//! `pitchboard reference`: every table of the tool, for a reader.

use clap::{Args, Command};

use super::{Outcome, Output};
use crate::base::names::nearest;
use crate::model::KINDS;
use crate::report::{self, Cell, FACES, Look, Page, SCHEMAS, Table};
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard reference                     everything that designs and rules may be made of
  pitchboard reference riser board         one kind: what is stated of it, and what follows
  pitchboard reference --markdown          the same as Markdown
  pitchboard reference --schema json       the schema of a face of `check`, as a file holds it";

/// What `reference` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// A kind of thing: `flight`, `guard`, `riser board`
    #[arg(value_name = "KIND")]
    pub kind: Vec<String>,
    /// Write it as Markdown
    #[arg(long)]
    pub markdown: bool,
    /// The schema of what `pitchboard check --as` writes, by its name; the reference lists them
    #[arg(long, value_name = "NAME", conflicts_with_all = ["kind", "markdown"])]
    pub schema: Option<String>,
}

impl Ask {
    /// Prints the tables.
    pub fn run(&self, commands: Command, look: &Look, output: &mut Output<'_>) -> Outcome {
        if let Some(name) = &self.schema {
            return schema(name, look, output);
        }
        let wanted = self.kind.join(" ").to_lowercase();
        let page = match KINDS.iter().find(|kind| [kind.name, kind.plural, kind.opens].contains(&&*wanted)) {
            Some(kind) => report::kind(kind),
            None if wanted.is_empty() => page(commands),
            None => {
                let known = KINDS.iter().flat_map(|kind| [kind.name, kind.plural]);
                let help = nearest(&wanted, known).map_or_else(
                    || {
                        let names: Vec<String> = KINDS.iter().map(|kind| kind.name.to_owned()).collect();
                        format!("there are {}", report::listed(&names))
                    },
                    wording::did_you_mean,
                );
                let said = format!("`{wanted}` is no kind of thing that is known; {help}");
                output.put(&format!("{}\n", report::sentence(&said, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        output.put(&if self.markdown { page.markdown(0) } else { page.text(look) });
        Outcome::Sound
    }
}

/// Prints the text of a schema.
fn schema(name: &str, look: &Look, output: &mut Output<'_>) -> Outcome {
    if let Some((_, text)) = SCHEMAS.iter().find(|(known, _)| *known == name) {
        output.put(text);
        return Outcome::Sound;
    }
    let names: Vec<String> = SCHEMAS.iter().map(|(known, _)| (*known).to_owned()).collect();
    let said = format!("`{name}` is no schema that comes with the tool; there are {}", report::listed(&names));
    output.put(&format!("{}\n", report::sentence(&said, look.unicode)));
    Outcome::Unchecked
}

/// The whole reference: the tables of the languages, the commands, and the faces of a check.
pub fn page(whole: Command) -> Page {
    let mut page = Page::default();
    page.heading(1, "Reference");
    page.append(report::reference());
    page.append(commands(whole));
    page.append(faces());
    page
}

/// What `--as` takes.
fn faces() -> Page {
    let mut page = Page::default();
    page.heading(2, "Faces of a check");
    page.words(
        "`pitchboard check --as FACE=FILE`. `pitchboard reference --schema NAME` prints a schema that is named.",
    );
    let mut table = Table::new(&["face", "file", "schema", "what it is"]);
    for face in FACES {
        let ending = format!(".{}", face.ending);
        table.row(vec![Cell::code(face.name), Cell::code(ending), Cell::words(face.schema), Cell::words(face.about)]);
    }
    page.table(table);
    page
}

/// The commands and their options, as the command line defines them.
fn commands(mut whole: Command) -> Page {
    let mut page = Page::default();
    page.heading(2, "Commands");
    whole.build();
    for command in whole.get_subcommands().filter(|command| command.get_name() != "help") {
        page.heading(3, format!("pitchboard {}", command.get_name()));
        page.words(format!("{}.", command.get_about().map(ToString::to_string).unwrap_or_default()));
        page.table(arguments(command));
    }
    page
}

fn arguments(command: &Command) -> Table {
    let mut table = Table::new(&["argument", "what it is"]);
    let told = command.get_arguments().filter(|argument| !matches!(argument.get_id().as_str(), "help" | "version"));
    for argument in told {
        let help = argument.get_help().map(ToString::to_string).unwrap_or_default();
        table.row(vec![Cell::code(argument.to_string()), Cell::words(help)]);
    }
    table
}
