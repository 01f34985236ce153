//! The proof of a set: every fragment held against its rule.

use super::eval::{self, Standing};
use super::rule::{Rule, RuleSet};
use crate::base::{Source, Span};
use crate::derive::Working;
use crate::model;
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
    pub failed: Option<String>,
}

/// Runs every fragment of a set against its rule.
pub fn prove(set: &RuleSet) -> Vec<Proof> {
    let mut proofs = Vec::new();
    for rule in &set.rules {
        for (source, fragment) in &rule.fragments {
            let failed = prove_one(rule, source, *fragment);
            let (rule, kind) = (rule.name.clone(), fragment.kind);
            proofs.push(Proof { rule, kind, span: fragment.span, source: source.clone(), failed });
        }
    }
    proofs
}

fn prove_one(rule: &Rule, source: &Source, fragment: Fragment) -> Option<String> {
    let (tree, mut findings) = syntax::parse_fragment(source, fragment.span);
    let stair = model::build_fragment(&tree, source, &mut findings)?;
    if let Some(finding) = findings.first() {
        return Some(format!("it cannot be read: {}", finding.message));
    }
    let working = Working::new(&stair.drawn);
    let outcomes = eval::hold(rule, &working);
    let count = |wanted: fn(&Standing) -> bool| outcomes.iter().filter(|outcome| wanted(&outcome.standing)).count();
    let passed = count(|standing| matches!(standing, Standing::Pass));
    let failed = count(|standing| matches!(standing, Standing::Fail(_)));
    let unknown = outcomes.iter().find_map(|outcome| match &outcome.standing {
        Standing::NotChecked(missing) => Some(&missing.needs),
        _ => None,
    });
    let saw = || match unknown {
        Some(needs) => format!("{passed} passed, {failed} failed, and it needs {needs}"),
        None => format!("{passed} passed, {failed} failed"),
    };
    let holds = match fragment.kind {
        FragmentKind::Passes => passed > 0 && failed == 0 && unknown.is_none(),
        FragmentKind::Fails => failed > 0,
        FragmentKind::Spares => passed == 0 && failed == 0 && unknown.is_none(),
    };
    (!holds).then(saw)
}
