//! `pitchboard rules`: which rules are in force, what they ask, where they come from, and whether they are proven.

use clap::Args;

use super::{Outcome, Output, Shelf};
use crate::base::{Diagnostic, Severity};
use crate::check::{BUILT_IN, Library, SetRefusal};
use crate::report::{self, Look};
use crate::rules::{self, Problem, Proof, RuleSet};
use crate::syntax::FragmentKind;
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard rules                         the sets that come with the tool
  pitchboard rules residential             every rule of a set, with limits and sources
  pitchboard rules residential --markdown  the same as Markdown, for a page that others read
  pitchboard rules our-county.rules --prove
                                           run each rule's own fragments

A set restates figures; it is no code, and a pass is no permit and no approval.";

/// What `rules` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// A set that comes with the tool, or a file
    #[arg(value_name = "NAME|FILE")]
    pub set: Option<String>,
    /// Prove the set by the fragments of its rules
    #[arg(long)]
    pub prove: bool,
    /// With --prove, let a rule that lacks a passing or a failing fragment count as a fault
    #[arg(long, requires = "prove")]
    pub strict: bool,
    /// List the rules as Markdown, a table for each chapter
    #[arg(long, conflicts_with = "prove", requires = "set")]
    pub markdown: bool,
}

impl Ask {
    /// Prints the set, or proves it.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let shelf = Shelf::default();
        match &self.set {
            Some(name) => self.one(name, &shelf, look, output),
            None => {
                BUILT_IN.iter().map(|(name, _)| self.line(name, &shelf, look, output)).max().unwrap_or(Outcome::Sound)
            }
        }
    }

    fn line(&self, name: &str, shelf: &Shelf, look: &Look, output: &mut Output<'_>) -> Outcome {
        if self.prove {
            return self.one(name, shelf, look, output);
        }
        let Ok((set, found)) = load(name, None, shelf) else { return Outcome::Unchecked };
        let rules = report::count(set.rules.len(), "rule");
        let column = BUILT_IN.iter().map(|(name, _)| name.len()).max().unwrap_or(0) + 2;
        output.put(&format!("{name:<column$}{} ({}), {rules}\n", set.title, set.basis));
        read(&found)
    }

    fn one(&self, name: &str, shelf: &Shelf, look: &Look, output: &mut Output<'_>) -> Outcome {
        let (set, found) = match load(name, None, shelf) {
            Ok(loaded) => loaded,
            Err(refusal) => {
                output.put(&format!("{}\n", report::sentence(&wording::refusal(&refusal), look.unicode)));
                return Outcome::Unchecked;
            }
        };
        for slip in &found {
            output.put(&format!("{}\n", report::finding(slip, look)));
        }
        let read = read(&found);
        if self.prove {
            let slips = found.iter().filter(|slip| slip.severity() != Severity::Advised).count();
            return read.max(self.proved(&set, slips, look, output));
        }
        let page = report::set(&set);
        output.put(&if self.markdown { page.markdown(0) } else { page.text(look) });
        read
    }

    fn proved(&self, set: &RuleSet, slips: usize, look: &Look, output: &mut Output<'_>) -> Outcome {
        let proofs = rules::prove(set);
        let failed: Vec<Diagnostic<Problem>> = proofs.iter().filter_map(Proof::diagnostic).collect();
        for finding in &failed {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let bare_amendments = rules::lacking_proof(set);
        for finding in &bare_amendments {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let mut lacking = Vec::new();
        for (kind, word) in [(FragmentKind::Passes, "passing"), (FragmentKind::Fails, "failing")] {
            let bare = rules::without(set, &proofs, kind);
            for rule in &bare {
                let line = rule.source.line(rule.clause.start);
                let text = format!("without a {word} fragment: {} ({}:{line})", rule.name, rule.source.name);
                output.put(&format!("{}\n", report::sentence(&text, look.unicode)));
            }
            lacking.push(bare.len());
        }
        let counts = report::proof_counts(set, slips, proofs.len(), failed.len(), &lacking);
        output.put(&format!("{}\n", report::sentence(&counts, look.unicode)));
        let bare = self.strict && (lacking.iter().any(|bare| *bare > 0) || !bare_amendments.is_empty());
        if bare || !failed.is_empty() { Outcome::Broken } else { Outcome::Sound }
    }
}

/// How the reading of a set went; what its writer is only advised of does not count.
fn read(found: &[Diagnostic<Problem>]) -> Outcome {
    match found.iter().map(Diagnostic::severity).min() {
        Some(Severity::Unchecked) => Outcome::Unchecked,
        Some(Severity::NotUnderstood | Severity::Broken) => Outcome::Broken,
        Some(Severity::Advised) | None => Outcome::Sound,
    }
}

/// A set that was read, with what could not be read of it.
type Loaded = (RuleSet, Vec<Diagnostic<Problem>>);

/// A set by its name or file, as a design or the command line asks for it, and what could not be read of it.
pub(super) fn load(name: &str, asked_by: Option<&str>, shelf: &Shelf) -> Result<Loaded, SetRefusal> {
    let source = shelf.ruleset(name, asked_by)?;
    let mut found = Vec::new();
    let set = rules::load(&source, shelf, &mut found);
    Ok((set, found))
}
