//! `pitchboard mend`: writes into designs what leaves nothing new.

use std::path::{Path, PathBuf};

use clap::Args;

use super::baseline::{Baseline, Use};
use super::commands::harmless;
use super::gate::{self, Gate};
use super::ordered::{Next, in_order};
use super::selection::Selection;
use super::{Disk, Outcome, Output, day, output, read, unharmed, whole_file};
use crate::base::{Day, Diagnostic, Source};
use crate::check::Analysis;
use crate::report::{self, Look, Totals};
use crate::rules::{FileProblem, Unwritten};
use crate::session::{Mended, Refusal, Session};

const EXAMPLES: &str = "\
Examples:
  pitchboard mend hide.stair               write what can be mended into the file
  pitchboard mend --patch library          show the same as a patch; no file is touched
  pitchboard mend - < hide.stair           the mended design to standard output

Only changes that were tried are written: each mends a finding and leaves none that was not there. Facts of the
site, such as the total rise, and what was measured are never changed; what is waived, or known to a baseline, is not
mended. What was mended passes; whether it is the
stair that you want is for you to say.

Exit code: that of `check` for the mended designs; 2 also where a file could not be written.";

/// What `mend` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// Which designs.
    #[command(flatten)]
    pub selection: Selection,
    /// Hold the designs to this set, in place of those they name; may be given several times
    #[arg(long, value_name = "NAME|FILE")]
    pub rules: Vec<String>,
    /// Take this for the day on which the designs are checked; today, by Greenwich, unless given
    #[arg(long, value_name = "DATE", value_parser = day::read)]
    pub on: Option<Day>,
    /// Leave as it is what this file knows
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,
    /// Show the changes as a patch, and write no file
    #[arg(long)]
    pub patch: bool,
}

/// What came of one design.
enum Done {
    /// Words of the report.
    Told(String, Box<Totals>, Outcome),
    /// What goes to standard output as it is: a patch, a design.
    Text(String, Outcome),
    /// It could not be read or written.
    Refused(Refusal),
}

impl Ask {
    /// Mends every design, in the order of the designs.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let session = match self.on.or_else(day::today) {
            Some(day) => Session::new(Disk).on(day),
            None => Session::new(Disk),
        };
        let selected = match self.selection.find() {
            Ok(selected) => selected,
            Err(why) => {
                output::complain(&format!("{}\n", report::sentence(&why, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        let baseline = match self.baseline.as_deref().map(|path| Baseline::open(path, Use::Hold)).transpose() {
            Ok(baseline) => baseline,
            Err(refused) => {
                output::complain(&format!("{}\n", report::finding(&*refused, &Look { colour: false, ..*look })));
                return Outcome::Unchecked;
            }
        };
        let (mut totals, mut outcome) = (Totals::default(), Outcome::Sound);
        let report = !self.patch && !self.selection.paths.iter().any(|path| path == Path::new("-"));
        in_order(
            &selected.designs,
            |found| self.one(found, (&session, baseline.as_ref()), look),
            |done| {
                outcome = outcome.max(match done {
                    Done::Told(text, of_file, outcome) => {
                        if report {
                            output.put(&text);
                        }
                        totals.merge(&of_file);
                        outcome
                    }
                    Done::Text(text, outcome) => {
                        output.as_it_is(&text);
                        outcome
                    }
                    Done::Refused(why) => {
                        totals.add_refused();
                        let text = format!("{}\n", report::finding(&*why, look));
                        if report {
                            output.put(&text)
                        } else {
                            output::complain(&text)
                        }
                        Outcome::Unchecked
                    }
                });
                // Every file is mended, whether anybody reads of it or not.
                if output.is_closed() && self.patch { Next::Stop } else { Next::GoOn }
            },
        );
        for said in selected.said() {
            if report {
                output.put(&report::line(&said, look));
            } else {
                output::complain(&format!("{}\n", report::sentence(&said, look.unicode)));
            }
        }
        if report {
            output.put(&report::closing(&totals, look));
        }
        outcome
    }

    fn one(
        &self,
        found: &Result<PathBuf, Refusal>,
        (session, baseline): (&Session, Option<&Baseline>),
        look: &Look,
    ) -> Done {
        let path = match found {
            Ok(path) => path,
            Err(refused) => return Done::Refused(refused.clone()),
        };
        let done = read(path).and_then(|source| {
            let rules = (!self.rules.is_empty()).then_some(self.rules.as_slice());
            let mark = |analysis: &mut Analysis| {
                // What is gone since is for a check to tell.
                let _ = baseline.map(|baseline| baseline.mark(analysis, path, rules.is_none()));
            };
            let mended = unharmed(&source, || session.mend_marked(&source, rules, &mark))?;
            self.deliver(path, &source, &mended, look)
        });
        done.unwrap_or_else(Done::Refused)
    }

    /// Writes the file, or gives its patch or its text.
    fn deliver(&self, path: &Path, source: &Source, mended: &Mended, look: &Look) -> Result<Done, Refusal> {
        let after = &mended.analysis().report;
        let levels = Gate { asked: None, strict: false }.levels(mended.analysis().shop.as_ref());
        let outcome = gate::outcome(after, levels);
        if self.patch {
            let patch = report::patch(source, &mended.source);
            // A patch goes out as it is; its first two lines are its own.
            if patch.lines().skip(2).any(|line| harmless(line) != line) {
                let problem = FileProblem::NotWritten(Unwritten::CommandsALog);
                return Err(Box::new(Diagnostic::whole(&source.with_text(""), problem)));
            }
            return Ok(Done::Text(patch, outcome));
        }
        if path == Path::new("-") {
            return Ok(Done::Text(mended.source.text.to_string(), outcome));
        }
        if !mended.mends.is_empty() {
            replace(source, &mended.source.text)?;
        }
        let mut totals = Totals::default();
        totals.add(after);
        let text = format!("{}\n", report::mended(&mended.mends, &mended.before.report, after, look));
        Ok(Done::Told(text, Box::new(totals), outcome))
    }
}

/// Writes a mended text back.
fn replace(read: &Source, with: &str) -> Result<(), Refusal> {
    whole_file::replace(read, with).map_err(|why| {
        let why = match why {
            FileProblem::NotWritten(why) => why,
            why => Unwritten::Other(Box::new(why)),
        };
        Box::new(Diagnostic::whole(&Source::at(read.path(), "".into()), FileProblem::NotWritten(why)))
    })
}
