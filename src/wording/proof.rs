//! Rules that their own fragments do not prove.

use super::message::{Description, ToMessage};
use super::need::need;
#[cfg(feature = "cli")]
use super::phrase::did_you_mean;
#[cfg(feature = "cli")]
use crate::base::{Source, Span};
use crate::measure::print_distinct;
#[cfg(feature = "cli")]
use crate::rules::Proof;
use crate::rules::one_line;
use crate::rules::problem::{Altered, Decided, DecidedTerm, Lacks, Otherwise};
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

/// What an example came to, in a few words.
#[cfg(feature = "cli")]
pub fn came_of(proof: &Proof) -> String {
    match &proof.failed {
        None if proof.set_aside => "ignored, for its rule is amended".to_owned(),
        None => "as it should".to_owned(),
        Some(otherwise) => format!("not as it should: {}", came(otherwise)),
    }
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

/// What stands over a list of designs by the room that a limit leaves them.
#[cfg(feature = "cli")]
pub const NEAREST_DESIGNS: &str = "Open designs, the one with the least room first:";

/// That an example is ignored, because an amendment has changed its rule.
#[cfg(feature = "cli")]
pub fn ignored(kind: FragmentKind, rule: &str, source: &Source, span: Span) -> String {
    let word = match kind {
        FragmentKind::Passes => "passes",
        FragmentKind::Fails => "fails",
        FragmentKind::Spares => "spares",
    };
    let place = format!("{}:{}", source.name, source.line(span.start));
    format!("ignored, for its rule is amended: a `{word}` example of {rule} ({place})")
}

/// That a set has no rule of a name.
#[cfg(feature = "cli")]
pub fn no_such_rule(rule: &str, set: &str, near: Option<&str>) -> String {
    let near = near.map(|near| format!("; {}", did_you_mean(near))).unwrap_or_default();
    format!("{set} has no rule \"{rule}\"{near}")
}

/// A change of a rule that none of its fragments notices.
pub(super) fn not_noticed(rule: &str, altered: &Altered) -> Description {
    let change = match altered {
        Altered::Limit { name, from, to } => {
            let (is, other) = print_distinct(*from, *to, from.style);
            format!("if `{name}` were {other} in place of {is}")
        }
        Altered::Figure { from, to } => {
            let (is, other) = print_distinct(*from, *to, from.style);
            format!("if {other} stood in place of {is}")
        }
        Altered::Dropped { words } => format!("if `{}` were left out", one_line(words.source.slice(words.span))),
        Altered::Relation { from, to } => format!("if `{}` stood in place of `{}`", to.sign(), from.sign()),
        Altered::Denied { words } => {
            format!("if `{}` were turned round", one_line(words.source.slice(words.span)))
        }
        Altered::Word { word } => format!("if `{word}` were left out"),
    };
    Description::new(format!("rule \"{rule}\": no example notices {change}"))
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
