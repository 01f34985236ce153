//! `pitchboard rules`: which rules are in force, what they ask, where they come from, and whether they are proven.

use clap::Args;

use super::{Outcome, Output, Shelf};
use crate::base::{Class, Finding, notices};
use crate::check::{BUILT_IN, Library};
use crate::report::{self, Look};
use crate::rules::{self, Proof, Rule, RuleSet};
use crate::syntax::FragmentKind;

const EXAMPLES: &str = "\
Examples:
  pitchboard rules                         the sets that come with the tool
  pitchboard rules residential             every rule of a set, with limits and sources
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
        let Ok((set, findings)) = load(name, shelf) else { return Outcome::Unchecked };
        let rules = report::count(set.rules.len(), "rule");
        output.put(&format!("{name:<14}{} ({}), {rules}\n", set.title, set.basis));
        read(&findings)
    }

    fn one(&self, name: &str, shelf: &Shelf, look: &Look, output: &mut Output<'_>) -> Outcome {
        let (set, findings) = match load(name, shelf) {
            Ok(loaded) => loaded,
            Err(why) => {
                output.put(&format!("{}\n", report::sentence(&why, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        for finding in &findings {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let read = read(&findings);
        if self.prove {
            return read.max(prove(&set, look, output));
        }
        output.put(&listing(&set, look));
        read
    }
}

/// How the reading of a set went; what its writer is only advised of does not count.
fn read(findings: &[Finding]) -> Outcome {
    match findings.iter().map(|finding| finding.class).min() {
        Some(Class::Unchecked) => Outcome::Unchecked,
        Some(Class::Unread | Class::Broken) => Outcome::Broken,
        Some(Class::Advised) | None => Outcome::Sound,
    }
}

fn load(name: &str, shelf: &Shelf) -> Result<(RuleSet, Vec<Finding>), String> {
    let source = shelf.ruleset(name, None)?;
    let mut findings = Vec::new();
    let set = rules::load(&source, shelf, &mut findings);
    Ok((set, findings))
}

fn listing(set: &RuleSet, look: &Look) -> String {
    let mut out =
        report::sentence(&format!("{}: {}; edition: {}", set.title, set.basis, set.edition), look.unicode) + "\n";
    let mut chapter = "";
    for rule in &set.rules {
        if rule.chapter != chapter {
            chapter = &rule.chapter;
            out += &format!("\n{}\n", report::sentence(chapter, look.unicode));
        }
        out += &entry(rule, look);
    }
    if !set.caution.is_empty() {
        out += &format!("\n{}\n", report::sentence(&set.caution, look.unicode));
    }
    out
}

fn entry(rule: &Rule, look: &Look) -> String {
    let verb = if rule.shall { "shall" } else { "should" };
    let limits: Vec<String> = rule.limits.iter().map(|limit| report::limit(&limit.name, limit.measure)).collect();
    let sure = if rule.sure.is_empty() { String::new() } else { format!(" ({})", rule.sure) };
    let mut out = format!("  {} [{verb}]\n", report::sentence(&rule.name, look.unicode));
    let clause = &rule.wording();
    let mut line = |text: &str| {
        let text = report::sentence(text, look.unicode);
        for part in report::wrap(&text, look.width.saturating_sub(6), &[]) {
            out += &format!("      {part}\n");
        }
    };
    line(clause);
    if !limits.is_empty() {
        line(&format!("limits: {}", limits.join("; ")));
    }
    line(&format!("source: {}{sure}", rule.cites));
    out
}

fn prove(set: &RuleSet, look: &Look, output: &mut Output<'_>) -> Outcome {
    let proofs = rules::prove(set);
    let mut failed = 0;
    for proof in &proofs {
        if let Some(why) = &proof.failed {
            failed += 1;
            output.put(&format!("{}\n", report::finding(&unproven(proof, why), look)));
        }
    }
    for finding in rules::lacking_proof(set) {
        output.put(&format!("{}\n", report::finding(&finding, look)));
    }
    let lacks = |kind: FragmentKind| {
        let bare = set.rules.iter().filter(|rule| !rule.fragments.iter().any(|(_, fragment)| fragment.kind == kind));
        bare.map(|rule| rule.name.clone()).collect::<Vec<_>>()
    };
    for (kind, word) in [(FragmentKind::Passes, "passes"), (FragmentKind::Fails, "fails")] {
        let bare = lacks(kind);
        if !bare.is_empty() {
            let text = format!("without a `{word}` fragment: {}", report::listed(&bare));
            output.put(&format!("{}\n", report::sentence(&text, look.unicode)));
        }
    }
    let (rules, fragments) = (report::count(set.rules.len(), "rule"), report::count(proofs.len(), "fragment"));
    let title = report::sentence(&set.title, look.unicode);
    output.put(&format!("{title}: {rules}, {fragments}, {failed} not as they should be\n"));
    if failed > 0 { Outcome::Broken } else { Outcome::Sound }
}

/// The finding of a fragment that does not do what it is there for.
fn unproven(proof: &Proof, why: &str) -> Finding {
    let wanted = match proof.kind {
        FragmentKind::Passes => "should pass",
        FragmentKind::Fails => "should fail",
        FragmentKind::Spares => "should be spared",
    };
    let message = format!("rule \"{}\": this fragment {wanted}; {why}", proof.rule);
    Finding::notice(&notices::UNPROVEN, &proof.source, proof.span, message)
}
