//! The rules behind the findings of a run, each once: their texts are asked for apart from the findings.

use super::look::Look;
use super::terminal;
use crate::check::{Finding, Report};
use crate::wording::{Clause, ToMessage};

/// The clauses behind findings, by set and rule, in the order in which each was met first.
#[derive(Default)]
pub struct Clauses(Vec<(String, String, Clause)>);

impl Clauses {
    /// Adds the clauses behind the findings of a report.
    pub fn add(&mut self, report: &Report) {
        for finding in &report.findings {
            let Finding::Rule(finding) = finding else { continue };
            let (set, rule) = (&finding.rule.set().title, &finding.rule.rule().name);
            if !self.has(set, rule)
                && let Some(clause) = finding.to_message().clause
            {
                self.0.push((set.clone(), rule.clone(), clause));
            }
        }
    }

    /// Adds those of other files.
    pub fn merge(&mut self, other: Clauses) {
        for (set, rule, clause) in other.0 {
            if !self.has(&set, &rule) {
                self.0.push((set, rule, clause));
            }
        }
    }

    fn has(&self, set: &str, rule: &str) -> bool {
        self.0.iter().any(|(known, name, _)| known == set && name == rule)
    }

    /// The texts of the rules.
    pub fn text(&self, look: &Look) -> String {
        self.0.iter().map(|(_, rule, clause)| format!("{}\n", terminal::draw_clause(rule, clause, look))).collect()
    }
}
