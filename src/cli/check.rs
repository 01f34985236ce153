//! `pitchboard check`: designs in, findings out.

use std::path::{Path, PathBuf};

use clap::Args;

use super::faces::{self, Asked, Faces, Written};
use super::ordered::{Next, in_order};
use super::{Disk, Outcome, Output, designs, output, read, unharmed};
use crate::base::Severity;
use crate::check::{Finding, Report};
use crate::report::{self, Checked, Look, Run, Verdict};
use crate::session::{Refusal, Session};

const EXAMPLES: &str = "\
Examples:
  pitchboard check                         every design in this folder and below
  pitchboard check hide.stair jetties/     a file and a folder
  pitchboard check --rules residential --rules shop.rules hide.stair
  pitchboard check - < hide.stair          a design from standard input
  pitchboard check --as short --as sarif=report.sarif
                                           a line for each finding, and a file for other tools

Exit code: 0 nothing broken; 1 a `shall` is broken or a statement could not be read;
2 something could not be checked at all. The highest of all files wins.";

/// What `check` was asked for.
#[derive(Debug, Args)]
#[command(after_help = format!("{EXAMPLES}\n\n{}", faces::listed()))]
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
    /// Let a required rule that could not be settled count as broken
    #[arg(long)]
    pub strict: bool,
    /// How it is shown, and where: one of the faces below on standard output, or in a file; may be given several times
    #[arg(long = "as", value_name = "FACE[=FILE]")]
    pub faces: Vec<Asked>,
    /// List what every rule came to for every thing, passes too, in the faces `json`, `lines` and `sarif`
    #[arg(long)]
    pub every_outcome: bool,
}

impl Ask {
    /// Checks every design and shows it, in the order of the designs.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let look = Look { list_not_checked: self.unsettled, ..*look };
        let here = std::env::current_dir().unwrap_or_default();
        let run = Run { look, strict: self.strict, every_outcome: self.every_outcome, here };
        let (faces, mut outlets) = match faces::open(&self.faces, &run) {
            Ok(opened) => opened,
            Err(why) => {
                output::complain(&format!("{why}\n"));
                return Outcome::Unchecked;
            }
        };
        let session = Session::new(Disk);
        let mut outcome = Outcome::Sound;
        let designs = designs(&self.paths);
        outlets.begin(output);
        in_order(
            &designs.found,
            |found| self.one(found, &session, &faces, &run.here),
            |(written, came)| {
                outlets.take(written, output);
                outcome = outcome.max(came);
                // The exit code speaks of every design, whether anybody still reads of them or not.
                if !outlets.are_read(output) && outcome == Outcome::Unchecked { Next::Stop } else { Next::GoOn }
            },
        );
        let finished = outlets.finish(designs.passed_over, output);
        // The run ends here, and the system takes all of it back at once.
        std::mem::forget(session);
        outcome.max(finished)
    }

    /// What the faces write of one design, and what it means for the exit code.
    fn one(
        &self,
        found: &Result<PathBuf, Refusal>,
        session: &Session,
        faces: &Faces,
        here: &Path,
    ) -> (Written, Outcome) {
        let (none, waits_fail) = (|_: &Look| String::new(), self.strict);
        let refused = |why: Refusal| {
            let verdict = Verdict { fails: true, waits_fail, remarks: &none };
            (faces.write(&Checked::new(Err(&why), verdict, here)), Outcome::Unchecked)
        };
        let checked = found.clone().and_then(|path| read(&path)).and_then(|source| {
            let rules = (!self.rules.is_empty()).then_some(self.rules.as_slice());
            unharmed(&source, || {
                let analysis = session.check(&source, rules);
                let (report, outcome) = (&analysis.report, self.outcome(&analysis.report));
                let remarks = |look: &Look| if waits_fail { report::as_broken(report, look) } else { String::new() };
                let verdict = Verdict { fails: outcome != Outcome::Sound, waits_fail, remarks: &remarks };
                (faces.write(&Checked::new(Ok(&analysis), verdict, here)), outcome)
            })
        });
        checked.unwrap_or_else(refused)
    }

    /// What a report means for the exit code.
    fn outcome(&self, report: &Report) -> Outcome {
        let of = |finding: &Finding| match finding.severity() {
            Severity::Unchecked => Outcome::Unchecked,
            Severity::NotUnderstood | Severity::Broken => Outcome::Broken,
            Severity::Advised => Outcome::Sound,
        };
        let found = report.findings.iter().map(of).max().unwrap_or(Outcome::Sound);
        // Advice never decides, whether it was settled or not.
        let unsettled = self.strict && report.not_checked.iter().any(|item| item.shall);
        found.max(if unsettled { Outcome::Broken } else { Outcome::Sound })
    }
}
