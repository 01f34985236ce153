//! What fails a run: chosen on the command line, or in the shops' files above a design.

use super::Outcome;
use crate::base::{Level, Levels, Severity};
use crate::check::{Finding, Report, ShopAbove};
use crate::report::{self, Look};
use crate::wording;

/// Reads levels of the command line: `broken,not-checked`.
pub(super) fn read(text: &str) -> Result<Levels, String> {
    let words: Vec<String> = text.split(',').map(|word| word.trim().replace('-', " ").to_lowercase()).collect();
    let known = || Level::ALL.iter().map(|level| level.word().replace(' ', "-")).collect::<Vec<_>>().join(", ");
    Levels::of(words.iter().map(String::as_str))
        .ok_or_else(|| format!("what fails a run is `none`, or some of: {}", known()))
}

/// What was asked to fail a run.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gate {
    /// On the command line, in place of what the shops' files say.
    pub asked: Option<Levels>,
    /// What is required and was not checked, too.
    pub strict: bool,
}

impl Gate {
    /// What fails the run, of a design below these shops' files.
    pub fn levels(self, shop: Option<&ShopAbove>) -> Levels {
        let levels = self.asked.or_else(|| shop.and_then(ShopAbove::fail_on)).unwrap_or_default();
        if self.strict { levels.with(Level::NotChecked) } else { levels }
    }
}

/// What there is to say beneath a report of what fails the run.
pub(super) fn told(report: &Report, levels: Levels, look: &Look) -> String {
    let mut told = String::new();
    let usual = [Levels::default(), Levels::default().with(Level::NotChecked)];
    if !usual.contains(&levels) {
        told += &report::beneath(&wording::gate::fails_on(levels), look);
    }
    if levels.hold(Level::NotChecked) {
        told += &report::open(report, levels.hold(Level::Advised), look);
    }
    told
}

/// What a report means for the exit code.
pub(super) fn outcome(report: &Report, levels: Levels) -> Outcome {
    let of = |finding: &Finding| match finding.severity() {
        Severity::Unchecked => Outcome::Unchecked,
        severity if levels.fail(severity) => Outcome::Broken,
        _ => Outcome::Sound,
    };
    let found = report.findings.iter().filter(|finding| !finding.is_excused()).map(of);
    let found = found.max().unwrap_or(Outcome::Sound);
    // Advice that was not settled is no graver than advice.
    let counts = |shall: bool| shall || levels.hold(Level::Advised);
    let open = report.not_checked.iter().any(|item| !item.is_excused() && counts(item.shall));
    let open = open && levels.hold(Level::NotChecked);
    found.max(if open { Outcome::Broken } else { Outcome::Sound })
}
