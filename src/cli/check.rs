//! `pitchboard check`: designs in, findings out.

use std::path::{Path, PathBuf};

use clap::Args;

use super::baseline::{self, Baseline, Beside, Use};
use super::gate::{self, Gate};
use super::ordered::{Next, in_order};
use super::output::complain;
use super::progress::Progress;
use super::selection::{Selected, Selection};
use super::{Disk, Outcome, Output, affected, day, read, unharmed};
use crate::base::{Day, Levels};
use crate::report::{self, Look, Totals};
use crate::session::{Refusal, Session};

const EXAMPLES: &str = "\
Examples:
  pitchboard check                         every design in this folder and below
  pitchboard check hide.stair jetties/     a file and a folder
  pitchboard check --rules residential --rules shop.rules hide.stair
  pitchboard check - < hide.stair          a design from standard input
  pitchboard check --without sketches/ --changed-since main library
                                           what differs from a commit, but for one folder
  pitchboard check --baseline library.known library
                                           only what is new against a baseline fails

Exit code: 0 nothing broken; 1 a `shall` is broken or a statement could not be read;
2 something could not be checked at all. The highest of all files wins. --fail-on, or the
shop's file, chooses otherwise what ends with 1.";

/// What `check` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
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
    /// Let a required rule that could not be settled count as broken
    #[arg(long)]
    pub strict: bool,
    /// Fail on these and nothing else, whatever the shop's file says: some of broken, advised, not-checked,
    /// not-understood, with commas between; or none
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
    /// Checks every design and prints each report in the order of the designs.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let look = Look { list_not_checked: self.unsettled, ..*look };
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
                output.put(&format!("{}\n", report::finding(&*refused, &look)));
                return Outcome::Unchecked;
            }
        };
        self.all(&selected, &session, baseline.as_ref(), &look, output)
    }

    fn all(
        &self,
        selected: &Selected,
        session: &Session,
        baseline: Option<&Baseline>,
        look: &Look,
        output: &mut Output<'_>,
    ) -> Outcome {
        let (mut totals, mut tally) = (Totals::default(), baseline::Tally::default());
        let mut outcome = Outcome::Sound;
        let mut progress = Progress::of(selected.designs.len());
        in_order(
            &selected.designs,
            |found| self.one(found, session, baseline, look),
            |checked| {
                progress.clear();
                output.put(&checked.text);
                progress.step();
                totals.merge(&checked.totals);
                outcome = outcome.max(checked.outcome);
                if let (Some(baseline), Some(beside)) = (baseline, checked.beside) {
                    baseline.add(&mut tally, beside);
                }
                // The exit code speaks of every design, whether anybody still reads of them or not; so does a baseline.
                let is_settled = outcome == Outcome::Unchecked && baseline.is_none();
                if output.is_closed() && is_settled { Next::Stop } else { Next::GoOn }
            },
        );
        progress.clear();
        if let Some(baseline) = baseline {
            baseline.lost(&mut tally);
            let written = baseline.write(&tally);
            output.put(&baseline.told(&tally, written.as_ref().copied(), look));
            if let Err(refused) = written {
                output.put(&format!("{}\n", report::finding(&*refused, look)));
                outcome = Outcome::Unchecked;
            }
        }
        for line in selected.notes.iter().chain(&selected.passed.words()) {
            output.put(&format!("{}\n", report::sentence(line, look.unicode)));
        }
        output.put(&report::closing(&totals, look));
        outcome
    }

    fn baseline_use(&self) -> Use {
        match (self.record, self.shrink) {
            (true, _) => Use::Record,
            (false, true) => Use::Shrink,
            (false, false) => Use::Hold,
        }
    }

    fn one(
        &self,
        found: &Result<PathBuf, Refusal>,
        session: &Session,
        baseline: Option<&Baseline>,
        look: &Look,
    ) -> Checked {
        match found.clone().and_then(|path| Ok((read(&path)?, path))) {
            Ok((source, path)) => {
                let checked = unharmed(&source, || self.report(&source, &path, session, baseline, look));
                checked.unwrap_or_else(|fault| Checked::refused(&fault, look))
            }
            Err(refused) => Checked::refused(&refused, look),
        }
    }

    fn report(
        &self,
        source: &crate::base::Source,
        path: &Path,
        session: &Session,
        baseline: Option<&Baseline>,
        look: &Look,
    ) -> Checked {
        let rules = (!self.rules.is_empty()).then_some(self.rules.as_slice());
        let mut analysis = session.check(source, rules);
        let beside = baseline.map(|baseline| baseline.mark(&mut analysis, path, rules.is_none()));
        let gate = Gate { asked: self.fail_on, strict: self.strict };
        let levels = gate.levels(analysis.shop.as_ref());
        let report = &analysis.report;
        let mut text = report::report(report, look);
        text += &gate::told(report, levels, look);
        text += &beside.as_ref().map(|beside| baseline::told_of(&beside.gone, look)).unwrap_or_default();
        text.push('\n');
        let mut totals = Totals::default();
        totals.add(report);
        Checked { text, totals, outcome: gate::outcome(report, levels), beside }
    }
}

/// What came of one file.
struct Checked {
    text: String,
    totals: Totals,
    outcome: Outcome,
    /// Beside the baseline.
    beside: Option<Beside>,
}

impl Checked {
    fn refused(why: &Refusal, look: &Look) -> Self {
        let mut totals = Totals::default();
        totals.add_refused();
        let text = format!("{}\n", report::finding(&**why, look));
        Self { text, totals, outcome: Outcome::Unchecked, beside: None }
    }
}
