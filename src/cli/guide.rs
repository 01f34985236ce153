//! `pitchboard guide`: the pages of the guide, on a terminal.

use clap::Args;

use super::{Outcome, Output};
use crate::base::names::nearest;
use crate::guide::TOPICS;
use crate::report::{self, Cell, Look, Page, Table};
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard guide                         the topics, a line each
  pitchboard guide design                  one page
  pitchboard guide adapt > adapt.md        the same into a file, as Markdown";

/// What `guide` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// A topic, such as `design` or `ci`; without one, all are listed
    pub topic: Option<String>,
}

impl Ask {
    /// Prints a page, or the list of them.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let Some(wanted) = self.topic.as_deref().map(str::to_lowercase) else {
            output.put(&list().text(look));
            return Outcome::Sound;
        };
        if let Some(topic) = TOPICS.iter().find(|topic| topic.name == wanted) {
            output.put(&printed(topic.text));
            return Outcome::Sound;
        }
        let names = || TOPICS.iter().map(|topic| topic.name);
        let all = || {
            let names: Vec<String> = names().map(str::to_owned).collect();
            format!("there are {}", report::listed(&names))
        };
        let help = nearest(&wanted, names()).map_or_else(all, wording::did_you_mean);
        let said = format!("`{wanted}` is no topic of the guide; {help}");
        output.put(&format!("{}\n", report::sentence(&said, look.unicode)));
        Outcome::Unchecked
    }
}

fn list() -> Page {
    let mut page = Page::default();
    page.heading(1, "Guide");
    let mut table = Table::new(&["topic", "what it tells"]);
    for topic in TOPICS {
        table.row(vec![Cell::code(topic.name), Cell::words(topic.about)]);
    }
    page.table(table);
    page.words(
        "`pitchboard guide TOPIC` prints a page. `pitchboard reference` prints every kind, property, quantity and word \
         of the two languages, and every command.",
    );
    page
}

/// A page without what only its other readers need: the notes to the test that runs it, which are comments, and the
/// targets of its links.
fn printed(page: &str) -> String {
    let mut out = String::with_capacity(page.len());
    let mut in_block = false;
    for line in page.lines() {
        in_block ^= line.starts_with("```");
        if in_block {
            out += line;
        } else if line.starts_with("<!--") || link_target(line) {
            continue;
        } else {
            out += &unlinked(line);
        }
        out.push('\n');
    }
    // What stood between two blank lines may be gone, and the links' targets stand last.
    while out.contains("\n\n\n") {
        out = out.replace("\n\n\n", "\n\n");
    }
    format!("{}\n", out.trim_end())
}

/// `[rules]: rules.md`.
fn link_target(line: &str) -> bool {
    line.starts_with('[') && line.split_once("]: ").is_some_and(|(_, target)| !target.contains(' '))
}

/// `[words][rules]` becomes `words`.
fn unlinked(line: &str) -> String {
    let Some((before, rest)) = line.split_once("][") else { return line.to_owned() };
    match (before.rsplit_once('['), rest.split_once(']')) {
        (Some((before, words)), Some((_, rest))) => format!("{before}{words}{}", unlinked(rest)),
        _ => line.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_to_the_test_and_targets_of_links_are_not_printed() {
        let page = "# Steps\n\nSee [`guide a`][a], and [`guide b`][b].\n\n<!-- edit x | 1 | 2 -->\n\n\
                    <!-- file x.stair -->\n```text\n[a][b] # kept\n```\n\n[a]: a.md\n[b]: b.md\n";
        assert_eq!(printed(page), "# Steps\n\nSee `guide a`, and `guide b`.\n\n```text\n[a][b] # kept\n```\n");
    }
}
