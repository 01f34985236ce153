//! The proof of a set: every fragment held against its rule.

use super::eval::{self, Outcome, Standing};
use super::explain::{Holds, explain};
use super::rule::{Rule, RuleSet};
use crate::base::{Finding, Source, Span, notices};
use crate::derive::{Need, Working};
use crate::model::{self, Kind};
use crate::syntax::{self, Fragment, FragmentKind};

/// What a fragment showed.
#[derive(Debug, Clone)]
pub struct Proof {
    /// The rule.
    pub rule: String,
    /// What it should show.
    pub kind: FragmentKind,
    /// Where it stands.
    pub span: Span,
    /// Its text.
    pub source: Source,
    /// What went otherwise, if anything did.
    pub failed: Option<Otherwise>,
    /// It speaks of the rule as a set below wrote it, and no longer of the rule as it is now.
    pub set_aside: bool,
}

/// How a fragment went that does not do what it is there for.
#[derive(Debug, Clone)]
pub struct Otherwise {
    /// What came of it.
    pub saw: Saw,
    /// The thing in it that went otherwise, with the numbers put in.
    pub why: Option<String>,
}

/// What came of a fragment.
#[derive(Debug, Clone)]
pub enum Saw {
    /// It cannot be read; the first thing found in it.
    Unread(String),
    /// The rule applies to nothing in it.
    Nothing,
    /// Of nothing in it is the outcome known.
    Needs(Need),
    /// So many things passed and failed, and of others the outcome is not known.
    Outcomes {
        /// What the rule holds.
        kind: &'static Kind,
        /// How many passed.
        passed: usize,
        /// How many failed.
        failed: usize,
        /// What would settle the others, where there are any.
        needs: Option<Need>,
    },
}

/// Runs every fragment of a set against its rule.
pub fn prove(set: &RuleSet) -> Vec<Proof> {
    let mut proofs = Vec::new();
    for rule in &set.rules {
        let overtaken = rule.overtaken();
        for (at, (source, fragment)) in rule.fragments.iter().enumerate() {
            let failed = prove_one(rule, source, *fragment);
            let set_aside = at < overtaken && failed.is_some();
            let failed = failed.filter(|_| !set_aside);
            let (rule, kind) = (rule.name.clone(), fragment.kind);
            proofs.push(Proof { rule, kind, span: fragment.span, source: source.clone(), failed, set_aside });
        }
    }
    proofs
}

/// Rules that the set itself amends without a fragment of its own that passes, and one that fails.
pub fn lacking_proof(set: &RuleSet) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in &set.rules {
        let Some(amendment) = rule.amendments.last().filter(|last| last.set == set.title && last.alters()) else {
            continue;
        };
        let own = rule.fragments.get(amendment.inherited..).unwrap_or_default();
        let lacks = |wanted| !own.iter().any(|(_, fragment)| fragment.kind == wanted);
        let lacking = match (lacks(FragmentKind::Passes), lacks(FragmentKind::Fails)) {
            (false, false) => continue,
            (true, false) => "`passes`",
            (false, true) => "`fails`",
            (true, true) => "`passes` and no `fails`",
        };
        let message = format!("the amended rule \"{}\" has no {lacking} fragment of its own", rule.name);
        let help = "Write `passes:` with a design just inside what it now asks, and `fails:` with one just outside.";
        let place = amendment.span;
        let finding = Finding::notice(&notices::UNPROVEN_AMENDMENT, &amendment.source, place, message);
        findings.push(finding.with_help(help));
    }
    findings
}

/// The rules that nothing proves in one way: they have no such fragment, or only one that was set aside.
pub fn without<'s>(set: &'s RuleSet, proofs: &[Proof], kind: FragmentKind) -> Vec<&'s Rule> {
    let proves = |proof: &Proof, rule: &Rule| proof.kind == kind && proof.rule == rule.name && !proof.set_aside;
    set.rules.iter().map(|rule| &**rule).filter(|rule| !proofs.iter().any(|proof| proves(proof, rule))).collect()
}

fn prove_one(rule: &Rule, source: &Source, fragment: Fragment) -> Option<Otherwise> {
    let (tree, mut findings) = syntax::parse_fragment(source, fragment.span);
    let stair = model::build_fragment(&tree, source, &mut findings)?;
    if let Some(finding) = findings.first() {
        return Some(Otherwise {
            saw: Saw::Unread(finding.message.clone()),
            why: finding.help.clone().filter(|help| !help.is_empty()),
        });
    }
    let working = Working::new(&stair.drawn);
    let outcomes = eval::hold(rule, &working);
    let first = |wanted: fn(&Standing) -> bool| outcomes.iter().find(|outcome| wanted(&outcome.standing));
    let count = |wanted: fn(&Standing) -> bool| outcomes.iter().filter(|outcome| wanted(&outcome.standing)).count();
    let (passed, failed) = (count(passes), count(fails));
    let unknown = outcomes.iter().find_map(|outcome| match &outcome.standing {
        Standing::NotChecked(missing) => Some(Need::of(&stair.drawn, missing)),
        _ => None,
    });
    let (holds, otherwise) = match fragment.kind {
        FragmentKind::Passes => (passed > 0 && failed == 0 && unknown.is_none(), first(fails)),
        FragmentKind::Fails => (failed > 0, first(passes)),
        FragmentKind::Spares => {
            (passed == 0 && failed == 0 && unknown.is_none(), first(fails).or_else(|| first(passes)))
        }
    };
    if holds {
        return None;
    }
    let kind = rule.kind;
    let why = match (otherwise, &unknown, outcomes.first()) {
        (Some(outcome), ..) | (None, None, Some(outcome)) => told(rule, &working, outcome),
        (None, None, None) => Some(format!("There is no {} in it, and the rule holds each {}.", kind.name, kind.name)),
        (None, Some(_), _) => Some("State it in the fragment.".to_owned()),
    };
    let saw = match (unknown, passed + failed) {
        (None, 0) => Saw::Nothing,
        (Some(needs), 0) => Saw::Needs(needs),
        (needs, _) => Saw::Outcomes { kind, passed, failed, needs },
    };
    Some(Otherwise { saw, why })
}

fn passes(standing: &Standing) -> bool {
    matches!(standing, Standing::Pass)
}

fn fails(standing: &Standing) -> bool {
    matches!(standing, Standing::Fail(_))
}

/// The outcome for one thing of a fragment, by the terms that settled it.
fn told(rule: &Rule, working: &Working<'_>, outcome: &Outcome) -> Option<String> {
    let explained = explain(rule, working, outcome.element);
    let spared = matches!(outcome.standing, Standing::NotApplicable);
    let term = if spared { explained.condition } else { explained.requirement }?;
    let terms: Vec<String> = term
        .deciding()
        .into_iter()
        .map(|term| {
            let put_in = term.reckoned.as_ref().unwrap_or(&term.put_in);
            let holds = if term.holds == Holds::Yes { "holds" } else { "does not hold" };
            if *put_in == term.words {
                format!("`{}` {holds}", term.words)
            } else {
                format!("`{}`, that is {put_in}, {holds}", term.words)
            }
        })
        .collect();
    let called = working.design.called(outcome.element);
    let effect = if spared { ", so nothing is asked of it" } else { "" };
    Some(format!("For {called}, {}{effect}.", terms.join(" and ")))
}
