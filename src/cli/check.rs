//! `pitchboard check`: designs in, findings out.

use std::path::{Path, PathBuf};

use clap::Args;

use super::baseline::{self, Baseline, Beside, Use};
use super::faces::{self, Asked, Faces, Outlets, Written};
use super::gate::{self, Gate};
use super::ordered::{Next, in_order};
use super::output::complain;
use super::progress::Progress;
use super::selection::{Selected, Selection};
use super::{Disk, Outcome, Output, affected, day, read, unharmed};
use crate::base::{Day, Levels, Source};
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
  pitchboard check --without sketches/ --changed-since main library
                                           what differs from a commit, but for one folder
  pitchboard check --baseline library.known library
                                           only what is new against a baseline fails

Exit code: 0 nothing broken; 1 a `shall` is broken or a statement could not be read;
2 something could not be checked at all. The highest of all files wins. --fail-on, or the
shop's file, chooses otherwise what ends with 1.";

/// What `check` was asked for.
#[derive(Debug, Args)]
#[command(after_help = format!("{EXAMPLES}\n\n{}", faces::listed()))]
pub struct Ask {
    /// Which designs.
    #[command(flatten)]
    pub selection: Selection,
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
    /// How it is shown, and where: one of the faces below on standard output, or in a file; may be given several times
    #[arg(long = "as", value_name = "FACE[=FILE]")]
    pub faces: Vec<Asked>,
    /// List what every rule came to for every thing, passes too, in the faces `json`, `lines` and `sarif`
    #[arg(long)]
    pub every_outcome: bool,
    /// Fail on these and nothing else, whatever the shop's file says: some of broken, advised, not-checked,
    /// not-understood, with commas between; or none. --strict adds not-checked
    #[arg(long, value_name = "LEVELS", value_parser = gate::read)]
    pub fail_on: Option<Levels>,
    /// Take this for the day on which the designs are checked; today, by Greenwich, unless given
    #[arg(long, value_name = "DATE", value_parser = day::read)]
    pub on: Option<Day>,
    /// Let what this file knows fail nothing
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,
    /// Write what is found into the baseline, so that it is known from now on
    #[arg(long, requires = "baseline", conflicts_with = "shrink")]
    pub record: bool,
    /// Take out of the baseline what is not found any more
    #[arg(long, requires = "baseline")]
    pub shrink: bool,
    /// Name the designs on which this set bears, a line each, and check none
    #[arg(long, value_name = "NAME|FILE", conflicts_with_all = ["baseline", "rules", "unsettled"])]
    pub affected_by: Option<String>,
}

impl Ask {
    /// Checks every design and shows it, in the order of the designs.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let look = Look { list_not_checked: self.unsettled, ..*look };
        // Every design is held to the drawing's own set: it is read while this thread reads the first of them.
        drop(std::thread::spawn(crate::check::held_always));
        let session = Session::new(Disk);
        let session = match self.on.or_else(day::today) {
            Some(day) => session.on(day),
            None => session,
        };
        let selected = match self.selection.find() {
            Ok(selected) => selected,
            Err(why) => {
                complain(&format!("{}\n", report::sentence(&why, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        if let Some(set) = &self.affected_by {
            return affected::names(set, &selected, &session, &look, output);
        }
        let baseline = match self.baseline.as_deref().map(|path| Baseline::open(path, self.baseline_use())) {
            None => None,
            Some(Ok(baseline)) => Some(baseline),
            Some(Err(refused)) => {
                // Standard output may be a program's.
                complain(&format!("{}\n", report::finding(&*refused, &Look { colour: false, ..look })));
                return Outcome::Unchecked;
            }
        };
        let here = std::env::current_dir().unwrap_or_default();
        let run = Run { look, strict: self.strict, every_outcome: self.every_outcome, clauses: self.clauses, here };
        let (faces, outlets) = match faces::open(&self.faces, &run, self.baseline.as_deref()) {
            Ok(opened) => opened,
            Err(why) => {
                complain(&format!("{why}\n"));
                return Outcome::Unchecked;
            }
        };
        let each = Each { session: &session, baseline: baseline.as_ref(), faces: &faces, run: &run };
        let outcome = self.all(selected, &each, outlets, output);
        // The run ends here, and the system takes all of it back at once.
        std::mem::forget(session);
        outcome
    }

    fn all(&self, selected: Selected, each: &Each<'_>, mut outlets: Outlets, output: &mut Output<'_>) -> Outcome {
        let mut tally = baseline::Tally::default();
        let mut outcome = Outcome::Sound;
        let mut progress = Progress::of(selected.designs.len());
        outlets.begin(output);
        in_order(
            &selected.designs,
            |found| self.one(found, each),
            |done| {
                progress.clear();
                outlets.take(done.written, output);
                progress.step();
                outcome = outcome.max(done.outcome);
                if let (Some(baseline), Some(beside)) = (each.baseline, done.beside) {
                    baseline.add(&mut tally, beside);
                }
                // The exit code speaks of every design, whether anybody still reads of them or not; so does a baseline.
                let is_settled = outcome == Outcome::Unchecked && each.baseline.is_none();
                if !outlets.are_read(output) && is_settled { Next::Stop } else { Next::GoOn }
            },
        );
        progress.clear();
        let Selected { passed, notes: mut remarks, .. } = selected;
        if let Some(baseline) = each.baseline {
            baseline.lost(&mut tally);
            let written = baseline.write(&tally);
            remarks.extend(baseline.told(&tally, written.as_ref().copied()));
            if let Err(refused) = written {
                complain(&format!("{}\n", report::finding(&*refused, &Look { colour: false, ..each.run.look })));
                outcome = Outcome::Unchecked;
            }
        }
        remarks.extend(passed.words());
        outcome.max(outlets.finish(remarks, output))
    }

    fn baseline_use(&self) -> Use {
        match (self.record, self.shrink) {
            (true, _) => Use::Record,
            (false, true) => Use::Shrink,
            (false, false) => Use::Hold,
        }
    }

    fn one(&self, found: &Result<PathBuf, Refusal>, each: &Each<'_>) -> Done {
        let done = found.clone().and_then(|path| {
            let source = read(&path)?;
            unharmed(&source, || self.checked(&source, &path, each))
        });
        done.unwrap_or_else(|why| {
            let levels = Gate { asked: self.fail_on, strict: self.strict }.levels(None);
            let verdict = Verdict { fails: true, levels, remarks: &|_| String::new() };
            let written = each.faces.write(&Checked::new(Err(&why), verdict, &each.run.here));
            Done { written, outcome: Outcome::Unchecked, beside: None }
        })
    }

    fn checked(&self, source: &Source, path: &Path, each: &Each<'_>) -> Done {
        let rules = (!self.rules.is_empty()).then_some(self.rules.as_slice());
        let mut analysis = each.session.check(source, rules);
        let beside = each.baseline.map(|baseline| baseline.mark(&mut analysis, path, rules.is_none()));
        let gate = Gate { asked: self.fail_on, strict: self.strict };
        let levels = gate.levels(analysis.shop.as_ref());
        let report = &analysis.report;
        let outcome = gate::outcome(report, levels);
        let remarks = |look: &Look| {
            let gone = beside.as_ref().map(|beside| baseline::told_of(&beside.gone, look));
            gate::told(report, levels, look) + &gone.unwrap_or_default()
        };
        let verdict = Verdict { fails: outcome != Outcome::Sound, levels, remarks: &remarks };
        let written = each.faces.write(&Checked::new(Ok(&analysis), verdict, &each.run.here));
        Done { written, outcome, beside }
    }
}

/// What every design of a run is checked with.
struct Each<'a> {
    session: &'a Session,
    baseline: Option<&'a Baseline>,
    faces: &'a Faces,
    run: &'a Run,
}

/// What came of one file.
struct Done {
    written: Written,
    outcome: Outcome,
    /// Beside the baseline.
    beside: Option<Beside>,
}
