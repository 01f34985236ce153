//! What a run came to: the counts of all designs, by rule and by folder. It grows with rules and folders, not with
//! designs.

use std::collections::BTreeMap;

use super::checked::Checked;
use super::{Clauses, Look, Totals, closing, line};
use crate::base::Severity;
use crate::check::{Finding, RuleRef, Settled, Standing, Tally};

/// The counts of a run.
#[derive(Default)]
pub struct Tallied {
    /// Over all designs.
    pub(super) totals: Totals,
    /// Designs that fail the run.
    pub(super) failing: usize,
    /// By title of the set, name of the rule, and the text that the set is: two sets may have one title.
    pub(super) rules: BTreeMap<(String, String, String), (RuleRef, Tally)>,
    /// What the readers found, by how grave it is and the name of the notice.
    pub(super) notices: BTreeMap<(Severity, String), usize>,
    /// By folder; that of the run is empty.
    pub(super) folders: BTreeMap<String, OfFolder>,
    /// The rules behind the findings, where their texts are wanted.
    pub(super) clauses: Clauses,
    /// What there is to say of the run as a whole, a line each: what was passed over, what a baseline knows.
    pub remarks: Vec<String>,
}

/// The counts of a folder.
#[derive(Default)]
pub(super) struct OfFolder {
    pub totals: Totals,
    pub failing: usize,
}

/// What one design adds to the counts of a run.
pub struct Gist {
    folder: String,
    fails: bool,
    totals: Totals,
    rules: Vec<(RuleRef, Standing)>,
    notices: Vec<(Severity, String)>,
    clauses: Clauses,
}

/// What is counted of each design.
#[derive(Debug, Clone, Copy)]
pub struct Wanted {
    /// Rule by rule.
    pub by_rule: bool,
    /// Rules that do not apply, too.
    pub every_outcome: bool,
    /// The texts of the rules behind the findings.
    pub clauses: bool,
}

impl Gist {
    /// Of one design, what is wanted.
    pub fn of(checked: &Checked<'_>, wanted: Wanted) -> Self {
        let Wanted { by_rule, every_outcome, .. } = wanted;
        let (mut totals, mut clauses) = (Totals::default(), Clauses::default());
        let (mut rules, mut notices) = (Vec::new(), Vec::new());
        match checked.came {
            Ok(analysis) => {
                let report = &analysis.report;
                totals.add(report);
                if wanted.clauses {
                    clauses.add(report);
                }
                let standings = report.standings.iter().filter(|_| by_rule);
                rules.extend(standings.map(|of| (of.rule.clone(), of.standing)));
                if by_rule && every_outcome {
                    let idle = checked.outcomes().iter().filter(|of| of.verdict == Settled::NotApplicable);
                    rules.extend(idle.map(|of| (of.rule.clone(), Standing::NotApplicable)));
                    rules.dedup_by(|next, before| next == before && next.1 == Standing::NotApplicable);
                }
                let readers = report.findings.iter().filter(|finding| matches!(finding, Finding::Reader(_)));
                notices.extend(readers.map(|finding| (finding.severity(), finding.name().to_owned())));
            }
            Err(refused) => {
                totals.add_refused();
                notices.push((refused.severity(), refused.name().to_owned()));
            }
        }
        let name = checked.name.words();
        let folder = name.rsplit_once('/').map_or("", |(folder, _)| folder).to_owned();
        Self { folder, fails: checked.verdict.fails, totals, rules, notices, clauses }
    }
}

impl Tallied {
    /// What stands after the last design: the remarks, the counts and the caution.
    pub(super) fn closing(&self, look: &Look) -> String {
        let remarks: String = self.remarks.iter().map(|remark| line(remark, look)).collect();
        remarks + &closing(&self.totals, look)
    }

    /// Adds one design.
    pub fn add(&mut self, gist: Gist) {
        let Gist { folder, fails, totals, rules, notices, clauses } = gist;
        self.clauses.merge(clauses);
        self.totals.merge(&totals);
        self.failing += usize::from(fails);
        let of_folder = self.folders.entry(folder).or_default();
        of_folder.totals.merge(&totals);
        of_folder.failing += usize::from(fails);
        for (rule, standing) in rules {
            let text = rule.set().text.as_ref().map_or_else(String::new, |text| text.name.to_string());
            let key = (rule.set().title.clone(), rule.rule().name.clone(), text);
            let tally = &mut self.rules.entry(key).or_insert_with(|| (rule, Tally::default())).1;
            // How often a rule had nothing to apply to is counted over all rules only.
            if standing != Standing::NotApplicable {
                tally.count(standing);
            }
        }
        for notice in notices {
            *self.notices.entry(notice).or_default() += 1;
        }
    }
}
