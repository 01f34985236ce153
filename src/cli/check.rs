//! `pitchboard check`: designs in, findings out.

use std::path::PathBuf;

use clap::Args;

use super::ordered::{Next, in_order};
use super::{Disk, Outcome, Output, designs, read, unharmed};
use crate::base::Severity;
use crate::check::{Finding, Report};
use crate::report::{self, Clauses, Look, Totals};
use crate::session::{Refusal, Session};

const EXAMPLES: &str = "\
Examples:
  pitchboard check                         every design in this folder and below
  pitchboard check hide.stair jetties/     a file and a folder
  pitchboard check --rules residential --rules shop.rules hide.stair
  pitchboard check - < hide.stair          a design from standard input

Exit code: 0 nothing broken; 1 a `shall` is broken or a statement could not be read;
2 something could not be checked at all. The highest of all files wins.";

/// What `check` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// Files, folders (searched for names that end in `.stair`), or `-` for standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,
    /// Hold the designs to this set, in place of those they name; may be given several times
    #[arg(long, value_name = "NAME|FILE")]
    pub rules: Vec<String>,
    /// List every rule that could not be settled, and what would settle it
    #[arg(long)]
    pub unsettled: bool,
    /// Show the text of each rule that is broken or advised of, once, at the end
    #[arg(long)]
    pub clauses: bool,
    /// Let a required rule that could not be settled count as broken
    #[arg(long)]
    pub strict: bool,
}

impl Ask {
    /// Checks every design and prints each report in the order of the designs.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let look = Look { list_not_checked: self.unsettled, ..*look };
        let session = Session::new(Disk);
        let (mut totals, mut clauses) = (Totals::default(), Clauses::default());
        let mut outcome = Outcome::Sound;
        in_order(
            &designs(&self.paths),
            |found| self.one(found, &session, &look),
            |checked| {
                output.put(&checked.text);
                totals.merge(&checked.totals);
                clauses.merge(checked.clauses);
                outcome = outcome.max(checked.outcome);
                // The exit code speaks of every design, whether anybody still reads of them or not.
                if output.is_closed() && outcome == Outcome::Unchecked { Next::Stop } else { Next::GoOn }
            },
        );
        output.put(&clauses.text(&look));
        output.put(&report::closing(&totals, &look));
        outcome
    }

    fn one(&self, found: &Result<PathBuf, Refusal>, session: &Session, look: &Look) -> Checked {
        let mut totals = Totals::default();
        match found.clone().and_then(|path| read(&path)) {
            Ok(source) => {
                let rules = (!self.rules.is_empty()).then_some(self.rules.as_slice());
                let checked = unharmed(&source, || {
                    let report = session.check(&source, rules).report;
                    let strict = if self.strict { report::as_broken(&report, look) } else { String::new() };
                    (format!("{}{strict}\n", report::report(&report, look)), report)
                });
                match checked {
                    Ok((text, report)) => {
                        totals.add(&report);
                        let mut clauses = Clauses::default();
                        if self.clauses {
                            clauses.add(&report);
                        }
                        Checked { text, totals, clauses, outcome: outcome(&report, self.strict) }
                    }
                    Err(fault) => Checked::refused(&fault, totals, look),
                }
            }
            Err(refused) => Checked::refused(&refused, totals, look),
        }
    }
}

/// What a report means for the exit code; where it is `strict`, what is required and could not be settled is broken.
pub(super) fn outcome(report: &Report, strict: bool) -> Outcome {
    let of = |finding: &Finding| match finding.severity() {
        Severity::Unchecked => Outcome::Unchecked,
        Severity::NotUnderstood | Severity::Broken => Outcome::Broken,
        Severity::Advised => Outcome::Sound,
    };
    let found = report.findings.iter().map(of).max().unwrap_or(Outcome::Sound);
    // Advice never decides, whether it was settled or not.
    let unsettled = strict && report.not_checked.iter().any(|item| item.shall);
    found.max(if unsettled { Outcome::Broken } else { Outcome::Sound })
}

/// What came of one file.
struct Checked {
    text: String,
    totals: Totals,
    clauses: Clauses,
    outcome: Outcome,
}

impl Checked {
    fn refused(why: &Refusal, mut totals: Totals, look: &Look) -> Self {
        totals.add_refused();
        let text = format!("{}\n", report::finding(&**why, look));
        Self { text, totals, clauses: Clauses::default(), outcome: Outcome::Unchecked }
    }
}
