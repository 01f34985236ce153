//! `pitchboard rules`: which rules are in force, what they ask, where they come from, and whether they are proven.

use clap::Args;

use super::{Disk, Outcome, Output};
use crate::base::names::nearest;
use crate::base::{Diagnostic, Severity};
use crate::check::BUILT_IN;
use crate::report::{self, Look};
use crate::rules::{self, Problem, Proof, RuleSet};
use crate::session::Session;
use crate::syntax::FragmentKind;
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard rules                         the sets that come with the tool
  pitchboard rules residential             every rule of a set, with limits and sources
  pitchboard rules residential 'riser height'
                                           one of them in full: why, what it rests on, its examples
  pitchboard rules residential --markdown  every rule as Markdown, for a page that others read
  pitchboard rules our-county.rules --prove
                                           run each rule's own examples
  pitchboard rules residential 'riser height' --prove
                                           only those of one rule

A set restates figures; it is no code, and a pass is no permit and no approval.";

/// What `rules` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// A set that comes with the tool, or a file
    #[arg(value_name = "NAME|FILE")]
    pub set: Option<String>,
    /// One rule of it, to explain in full; with --prove, to prove
    #[arg(value_name = "RULE")]
    pub rule: Option<String>,
    /// Prove the set by the examples of its rules
    #[arg(long)]
    pub prove: bool,
    /// With --prove, let a rule that lacks a passing or a failing example count as a fault, and a point of a rule that
    /// no example notices
    #[arg(long, requires = "prove")]
    pub strict: bool,
    /// List the rules as Markdown, a table for each chapter
    #[arg(long, conflicts_with = "prove", requires = "set")]
    pub markdown: bool,
}

impl Ask {
    /// Prints the set, or proves it.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let session = Session::new(Disk);
        match &self.set {
            Some(name) => self.one(name, &session, look, output),
            None => {
                BUILT_IN.iter().map(|(name, _)| self.line(name, &session, look, output)).max().unwrap_or(Outcome::Sound)
            }
        }
    }

    fn line(&self, name: &str, session: &Session, look: &Look, output: &mut Output<'_>) -> Outcome {
        if self.prove {
            return self.one(name, session, look, output);
        }
        let Ok(loaded) = session.set(name, None) else { return Outcome::Unchecked };
        let set = &loaded.set;
        let rules = report::count(set.rules.len(), "rule");
        let column = BUILT_IN.iter().map(|(name, _)| name.len()).max().unwrap_or(0) + 2;
        output.put(&format!("{name:<column$}{} ({}), {rules}\n", set.title, set.basis));
        read(&loaded.diagnostics)
    }

    fn one(&self, name: &str, session: &Session, look: &Look, output: &mut Output<'_>) -> Outcome {
        let loaded = match session.set(name, None) {
            Ok(loaded) => loaded,
            Err(refusal) => {
                output.put(&format!("{}\n", report::sentence(&wording::refusal(&refusal), look.unicode)));
                return Outcome::Unchecked;
            }
        };
        let (set, diagnostics) = (&loaded.set, &loaded.diagnostics);
        for slip in diagnostics {
            output.put(&format!("{}\n", report::finding(slip, look)));
        }
        let read = read(diagnostics);
        let only = match self.rule.as_deref().map(|rule| only(set, rule)) {
            None => None,
            Some(Ok(set)) => Some(set),
            Some(Err(near)) => {
                let said = wording::no_such_rule(self.rule.as_deref().unwrap_or_default(), &set.title, near);
                output.put(&format!("{}\n", report::sentence(&said, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        if self.prove {
            let slips = diagnostics.iter().filter(|slip| slip.severity() != Severity::Advised).count();
            return read.max(self.proved(only.as_ref().unwrap_or(set), slips, look, output));
        }
        let page = match only.as_ref().and_then(|only| only.rules.first()) {
            Some(rule) => report::rule(set, rule),
            None => report::set(set),
        };
        output.put(&if self.markdown { page.markdown(0) } else { page.text(look) });
        read
    }

    fn proved(&self, set: &RuleSet, slips: usize, look: &Look, output: &mut Output<'_>) -> Outcome {
        let proofs = rules::prove(set);
        let failed: Vec<Diagnostic<Problem>> = proofs.iter().filter_map(Proof::diagnostic).collect();
        for finding in &failed {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        for proof in proofs.iter().filter(|proof| proof.set_aside) {
            let text = wording::ignored(proof.kind, &proof.rule, &proof.source, proof.span);
            output.put(&format!("{}\n", report::sentence(&text, look.unicode)));
        }
        let bare_amendments = rules::lacking_proof(set);
        for finding in &bare_amendments {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let gaps = rules::own_gaps(set);
        for finding in &gaps.found {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let mut lacking = Vec::new();
        for (kind, word) in [(FragmentKind::Passes, "passing"), (FragmentKind::Fails, "failing")] {
            let bare = rules::without(set, &proofs, kind);
            for rule in &bare {
                let line = rule.source.line(rule.clause.start);
                let text = format!("without a {word} example: {} ({}:{line})", rule.name, rule.source.name);
                output.put(&format!("{}\n", report::sentence(&text, look.unicode)));
            }
            lacking.push(bare.len());
        }
        let counts = report::proof_counts(set, slips, (proofs.len(), failed.len()), &lacking, gaps.found.len());
        output.put(&format!("{}\n", report::sentence(&counts, look.unicode)));
        let open = lacking.iter().sum::<usize>() + bare_amendments.len() + gaps.found.len();
        let bare = self.strict && open > 0;
        if bare || !failed.is_empty() { Outcome::Broken } else { Outcome::Sound }
    }
}

/// A set with one of its rules; or the nearest name, where it has none of this name.
fn only<'s>(set: &'s RuleSet, name: &str) -> Result<RuleSet, Option<&'s str>> {
    let rules: Vec<_> = set.rule_called(name).into_iter().cloned().collect();
    if rules.is_empty() {
        return Err(nearest(name, set.rules.iter().map(|rule| rule.name.as_str())));
    }
    Ok(RuleSet { rules, ..set.clone() })
}

/// How the reading of a set went; what its writer is only advised of does not count.
fn read(diagnostics: &[Diagnostic<Problem>]) -> Outcome {
    match diagnostics.iter().map(Diagnostic::severity).min() {
        Some(Severity::Unchecked) => Outcome::Unchecked,
        Some(Severity::NotUnderstood | Severity::Broken) => Outcome::Broken,
        Some(Severity::Advised) | None => Outcome::Sound,
    }
}
