//! The proof of a set: every fragment held against its rule.

use super::eval::{self, Verdict};
use super::explain::{Holds, explain};
use super::problem::{Decided, DecidedTerm, Lacks, Otherwise, Problem};
use super::rule::{Rule, RuleSet};
use crate::base::{Diagnostic, Severity, Source, Span, lift};
use crate::derive::{Evaluation, Need};
use crate::model::{self, Design, Id, Stair};
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

impl Proof {
    /// The diagnostic of a fragment that does not do what it is there for.
    pub fn diagnostic(&self) -> Option<Diagnostic<Problem>> {
        let (rule, kind, otherwise) = (self.rule.clone(), self.kind, self.failed.clone()?);
        Some(Diagnostic::new(&self.source, self.span, Problem::Unproven { rule, kind, otherwise }))
    }
}

/// Runs every fragment of a set against its rule.
pub fn prove(set: &RuleSet) -> Vec<Proof> {
    prove_some(set, &|_, _| true)
}

/// The same of some fragments alone, by their text and place.
pub fn prove_some(set: &RuleSet, wanted: &dyn Fn(&Source, Span) -> bool) -> Vec<Proof> {
    let mut proofs = Vec::new();
    for rule in &set.rules {
        let overtaken = rule.overtaken();
        let fragments = rule.fragments.iter().enumerate();
        for (at, (source, fragment)) in fragments.filter(|(_, (source, fragment))| wanted(source, fragment.span)) {
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
pub fn lacking_proof(set: &RuleSet) -> Vec<Diagnostic<Problem>> {
    let mut found = Vec::new();
    for rule in &set.rules {
        let Some(amendment) = rule.amendments.last().filter(|last| last.set == set.title && last.alters()) else {
            continue;
        };
        let own = rule.fragments.get(amendment.inherited..).unwrap_or_default();
        let lacks = |wanted| !own.iter().any(|(_, fragment)| fragment.kind == wanted);
        let lacks = match (lacks(FragmentKind::Passes), lacks(FragmentKind::Fails)) {
            (false, false) => continue,
            (true, false) => Lacks::Passes,
            (false, true) => Lacks::Fails,
            (true, true) => Lacks::Both,
        };
        let problem = Problem::UnprovenAmendment { rule: rule.name.clone(), lacks };
        found.push(Diagnostic::new(&amendment.source, amendment.span, problem));
    }
    found
}

/// The rules that nothing proves in one way: they have no such fragment, or only one that is ignored.
pub fn without<'s>(set: &'s RuleSet, proofs: &[Proof], kind: FragmentKind) -> Vec<&'s Rule> {
    let proves = |proof: &Proof, rule: &Rule| proof.kind == kind && proof.rule == rule.name && !proof.set_aside;
    set.rules.iter().map(|rule| &**rule).filter(|rule| !proofs.iter().any(|proof| proves(proof, rule))).collect()
}

/// What of a fragment is held against its rule: what was measured, where it says so.
fn held(stair: &Stair) -> &Design {
    stair.measured.as_ref().unwrap_or(&stair.drawn)
}

/// A fragment as it is drawn.
pub(super) struct Example {
    pub kind: FragmentKind,
    stair: Stair,
}

impl Example {
    pub fn evaluation(&self) -> Evaluation<'_> {
        Evaluation::plain(held(&self.stair))
    }

    /// Whether it comes out under a rule as it should.
    pub fn comes_out(&self, rule: &Rule) -> bool {
        self.comes_out_by(rule, &self.evaluation())
    }

    pub fn comes_out_by(&self, rule: &Rule, evaluation: &Evaluation<'_>) -> bool {
        let (mut passed, mut failed, mut unknown) = (0, 0, 0);
        for (_, verdict) in eval::verdicts(rule, evaluation) {
            match verdict {
                Verdict::Pass => passed += 1,
                Verdict::Fail => failed += 1,
                Verdict::NotChecked(_) => unknown += 1,
                Verdict::NotApplicable => {}
            }
        }
        as_it_should(self.kind, passed, failed, unknown)
    }
}

/// Whether a fragment comes out as it should, by how many of its things pass, fail and are not known.
fn as_it_should(kind: FragmentKind, passed: usize, failed: usize, unknown: usize) -> bool {
    match kind {
        FragmentKind::Passes => passed > 0 && failed == 0 && unknown == 0,
        FragmentKind::Fails => failed > 0,
        FragmentKind::Spares => passed + failed + unknown == 0,
    }
}

/// The fragments of a rule that can be read.
pub(super) fn examples(rule: &Rule) -> Vec<Example> {
    let read = |(source, fragment): &(Source, Fragment)| match drawn(source, *fragment) {
        Ok(stair) => Some(Example { kind: fragment.kind, stair }),
        Err(_) => None,
    };
    rule.fragments.iter().filter_map(read).collect()
}

/// What a fragment draws; nothing where it draws nothing, or the first slip in it.
fn drawn(source: &Source, fragment: Fragment) -> Result<Stair, Option<Box<Otherwise>>> {
    let (tree, slips) = syntax::parse_fragment(source, fragment.span);
    let mut found = lift(slips);
    let stair = model::build_fragment(&tree, source, &mut found).ok_or(None)?;
    // What is only advised of was read.
    let slip = found.into_iter().find(|found: &Diagnostic<model::Problem>| found.severity() != Severity::Advised);
    match slip {
        Some(slip) => Err(Some(Box::new(Otherwise::NotRead(Box::new(slip))))),
        None => Ok(stair),
    }
}

fn prove_one(rule: &Rule, source: &Source, fragment: Fragment) -> Option<Otherwise> {
    let stair = match drawn(source, fragment) {
        Ok(stair) => stair,
        Err(slip) => return slip.map(|slip| *slip),
    };
    let design = held(&stair);
    let evaluation = Evaluation::plain(design);
    let outcomes: Vec<(Id, Verdict)> = eval::verdicts(rule, &evaluation).collect();
    let first = |wanted: Verdict| outcomes.iter().find(|(_, verdict)| *verdict == wanted);
    let count = |wanted: Verdict| outcomes.iter().filter(|(_, verdict)| *verdict == wanted).count();
    let (passed, failed) = (count(Verdict::Pass), count(Verdict::Fail));
    let unknown = outcomes.iter().find_map(|(_, verdict)| match verdict {
        Verdict::NotChecked(missing) => Some(Need::of(design, missing)),
        _ => None,
    });
    let otherwise = match fragment.kind {
        FragmentKind::Passes => first(Verdict::Fail),
        FragmentKind::Fails => first(Verdict::Pass),
        FragmentKind::Spares => first(Verdict::Fail).or_else(|| first(Verdict::Pass)),
    };
    let holds = as_it_should(fragment.kind, passed, failed, usize::from(unknown.is_some()));
    if holds {
        return None;
    }
    let decided = match (otherwise, &unknown, outcomes.first()) {
        (Some(outcome), ..) | (None, None, Some(outcome)) => decided(rule, &evaluation, outcome),
        _ => None,
    };
    Some(Otherwise::Outcomes { kind: rule.kind, passed, failed, needs: unknown, decided })
}

/// The outcome for one thing of a fragment, by the terms that settled it.
fn decided(rule: &Rule, evaluation: &Evaluation<'_>, (element, verdict): &(Id, Verdict)) -> Option<Decided> {
    let explained = explain(rule, evaluation, *element);
    let spared = *verdict == Verdict::NotApplicable;
    let term = if spared { explained.condition } else { explained.requirement }?;
    let terms = term.deciding().into_iter().map(|term| DecidedTerm {
        words: term.words.clone(),
        put_in: term.reckoned.as_ref().unwrap_or(&term.put_in).clone(),
        holds: term.holds == Holds::Yes,
    });
    Some(Decided { element: evaluation.design.called(*element), spared, terms: terms.collect() })
}
