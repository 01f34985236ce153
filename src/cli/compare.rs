//! `pitchboard compare`: what sets two rulesets apart, and which designs come out otherwise.

use std::path::PathBuf;

use clap::Args;

use super::passed::Filter;
use super::search::Found;
use super::{Disk, Outcome, Output, read, unharmed};
use crate::base::Severity;
use crate::check;
use crate::report::{self, Look};
use crate::rules;
use crate::session::Session;
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard compare residential our-county.rules
                                           the rules that differ, one by one
  pitchboard compare shop-2025.rules shop-2026.rules drawings/
                                           and which drawings come out otherwise
  pitchboard compare residential our-county.rules --markdown

Exit code: 0 whether the sets differ or not, and 1 with --must-agree where they do; 2 where a set or a design could not be read, or not all of it.
A set restates figures; it is no code, and a pass is no permit and no approval.";

/// What `compare` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// The first set: one that comes with the tool, or a file
    #[arg(value_name = "OLD")]
    pub first: String,
    /// The second set
    #[arg(value_name = "NEW")]
    pub second: String,
    /// Designs, or folders of them, to hold to both sets in place of those they name
    #[arg(value_name = "DESIGN|FOLDER")]
    pub designs: Vec<PathBuf>,
    /// End with 1 where the sets differ, or a design comes out otherwise
    #[arg(long)]
    pub must_agree: bool,
    /// Write the comparison as Markdown
    #[arg(long)]
    pub markdown: bool,
}

impl Ask {
    /// Compares, and says what was found.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let session = Session::new(Disk);
        let mut outcome = Outcome::Sound;
        let mut sets = Vec::new();
        for name in [&self.first, &self.second] {
            match session.set(name, None) {
                Ok(loaded) => {
                    for slip in &loaded.diagnostics {
                        output.put(&format!("{}\n", report::finding(slip, look)));
                        if slip.severity() != Severity::Advised {
                            outcome = Outcome::Unchecked;
                        }
                    }
                    sets.push(loaded);
                }
                Err(refusal) => {
                    output.put(&format!("{}\n", report::sentence(&wording::refusal(&refusal), look.unicode)));
                    outcome = Outcome::Unchecked;
                }
            }
        }
        let [first, second] = sets.as_slice() else { return Outcome::Unchecked };
        let (first, second) = (&first.set, &second.set);
        let mut held = Vec::new();
        let filter = Filter::new(&[], &[], false);
        let mut search = Found::new(&filter);
        self.designs.iter().for_each(|path| search.add(path));
        for found in search.designs {
            match found.and_then(|path| read(&path)) {
                Ok(source) => {
                    let changes = unharmed(&source, || check::changes(&session.draw(&source), first, second));
                    let changes = match changes {
                        Ok(changes) => changes,
                        Err(fault) => {
                            output.put(&format!("{}\n", report::finding(&*fault, look)));
                            outcome = Outcome::Unchecked;
                            continue;
                        }
                    };
                    if !changes.unread.is_empty() {
                        outcome = Outcome::Unchecked;
                    }
                    held.push((source.name.to_string(), changes));
                }
                Err(refused) => {
                    output.put(&format!("{}\n", report::finding(&*refused, look)));
                    outcome = Outcome::Unchecked;
                }
            }
        }
        let found = rules::compare(first, second);
        let agree = found.agree() && held.iter().all(|(_, changes)| changes.changes.is_empty());
        if self.must_agree && !agree {
            outcome = outcome.max(Outcome::Broken);
        }
        let page = report::comparison((first, second), &found, &held, self.markdown);
        output.put(&if self.markdown { page.markdown(0) } else { page.text(look) });
        if !self.markdown {
            search.passed.words().iter().for_each(|words| output.put(&report::line(words, look)));
        }
        outcome
    }
}
