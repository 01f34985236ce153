//! Rules that their own fragments do not prove.

use super::message::{Description, ToMessage};
use super::need::need;
use crate::rules::problem::{Decided, DecidedTerm, Lacks, Otherwise};
use crate::syntax::FragmentKind;

/// A fragment that does not show what it is there for.
pub(super) fn unproven(rule: &str, kind: FragmentKind, otherwise: &Otherwise) -> Description {
    let wanted = match kind {
        FragmentKind::Passes => "should pass",
        FragmentKind::Fails => "should fail",
        FragmentKind::Spares => "should be spared",
    };
    Description::new(format!("rule \"{rule}\": this example {wanted}; {}", came(otherwise))).maybe_help(why(otherwise))
}

/// An amended rule without fragments of its own.
pub(super) fn unproven_amendment(rule: &str, lacks: Lacks) -> Description {
    let lacks = match lacks {
        Lacks::Passes => "`passes`",
        Lacks::Fails => "`fails`",
        Lacks::Both => "`passes` and no `fails`",
    };
    Description::new(format!("the amended rule \"{rule}\" has no {lacks} example of its own"))
        .help("Write `passes:` with a design just inside what it now asks, and `fails:` with one just outside.")
}

/// What came of a fragment.
fn came(otherwise: &Otherwise) -> String {
    match otherwise {
        Otherwise::NotRead(found) => format!("it cannot be read: {}", found.to_message().message),
        Otherwise::Outcomes { passed: 0, failed: 0, needs: None, .. } => "the rule applies to nothing in it".to_owned(),
        Otherwise::Outcomes { passed: 0, failed: 0, needs: Some(needs), .. } => format!("it needs {}", need(needs)),
        Otherwise::Outcomes { kind, passed, failed, needs, .. } => {
            let needs = needs.as_ref().map(|needs| format!(", and it needs {}", need(needs))).unwrap_or_default();
            let things = if *passed == 1 { kind.name } else { kind.plural };
            format!("{passed} {things} passed, {failed} failed{needs}")
        }
    }
}

/// Why it came so, or what to do.
fn why(otherwise: &Otherwise) -> Option<String> {
    match otherwise {
        Otherwise::NotRead(found) => found.to_message().help,
        Otherwise::Outcomes { decided: Some(decided), .. } => Some(explained(decided)),
        Otherwise::Outcomes { needs: Some(_), .. } => Some("State it in the example.".to_owned()),
        Otherwise::Outcomes { kind, .. } => {
            Some(format!("There is no {} in it, and the rule applies to each {}.", kind.name, kind.name))
        }
    }
}

/// The outcome for one thing, by the terms that settled it.
fn explained(decided: &Decided) -> String {
    let terms: Vec<String> = decided.terms.iter().map(term).collect();
    let effect = if decided.spared { ", so nothing is asked of it" } else { "" };
    format!("For {}, {}{effect}.", decided.element, terms.join(" and "))
}

fn term(term: &DecidedTerm) -> String {
    let holds = if term.holds { "holds" } else { "does not hold" };
    if term.put_in == term.words {
        format!("`{}` {holds}", term.words)
    } else {
        format!("`{}`, that is {}, {holds}", term.words, term.put_in)
    }
}
