//! Clauses that cannot do what they are there for.

use super::message::Description;
use crate::base::{Passage, Span};
use crate::rules::problem::{BoundValue, Fault, LimitValue, Settles};
use crate::rules::{figures as printed, one_line};

/// What is said of a fault; `against` are words of the same text that those at fault quarrel with.
pub(super) fn describe(fault: &Fault, amended: bool, against: Option<Span>) -> Description {
    let message = message(fault);
    let message = if amended { format!("with this, {message}") } else { message };
    let description = Description::new(message);
    match (fault, against) {
        (Fault::NeverPasses { .. } | Fault::AlwaysHolds { .. }, Some(span)) => {
            description.beside(span, "the rule applies only here")
        }
        (Fault::Undefined { .. }, _) => description
            .label("undefined, whatever is built")
            .help("What is divided by nothing has no value, so nothing could be checked by it: divide by something."),
        (Fault::OfItself { .. }, _) => description
            .label("the same value on both sides")
            .help("It asks only whether that is above nothing: compare it with a figure."),
        (_, Some(span)) => description.beside(span, "against this"),
        (_, None) => description,
    }
}

/// What is said of a comparison that nothing in proportion decides.
pub(super) fn out_of_proportion(settles: Settles, words: &Passage, limits: &[LimitValue]) -> Description {
    let comes = match settles {
        Settles::Met => "whatever is in proportion meets",
        Settles::Unmet => "nothing in proportion meets",
        Settles::Idle => "nothing in proportion is narrowed to",
    };
    Description::new(format!("{comes} `{}`{}", line(words), figures(limits))).label("out of all proportion").help(
        "A limit that no stair comes near checks nothing: look at its figure and its unit, or withdraw the rule and say why.",
    )
}

fn message(fault: &Fault) -> String {
    match fault {
        Fault::Never { words, limits } => format!("`{}` can never be so{}", line(words), figures(limits)),
        Fault::NeverBoth { first, second, limits } => {
            format!("`{}` and `{}` cannot both be so{}", line(first), line(second), figures(limits))
        }
        Fault::Crossed { least, most } => format!("{} and {}: nothing lies between", bound(least), bound(most)),
        Fault::NeverPasses { words, narrowed_by, limits } => {
            settled(words, narrowed_by.as_ref(), "can never be so", limits)
        }
        Fault::AlwaysHolds { words, narrowed_by, limits } => {
            settled(words, narrowed_by.as_ref(), "is so whatever is built", limits)
        }
        Fault::NeverBothRules { words, limits, other: (name, set), other_words, other_limits } => format!(
            "`{}`{} and `{}`{}, as \"{name}\" of {set} asks, cannot both be so: what both speak of breaks one",
            line(words),
            figures(limits),
            line(other_words),
            figures(other_limits)
        ),
        Fault::Undefined { words, limits } => {
            format!("`{}` divides by nothing, or is past all bounds{}", line(words), figures(limits))
        }
        Fault::OfItself { words, limits } => {
            format!("`{}` compares a value with a multiple of itself{}", line(words), figures(limits))
        }
        Fault::Idle { words, beside, limits } => {
            let (words, beside) = (line(words), line(beside));
            format!("wherever `{words}`{} is so, `{beside}` is so too: the first adds nothing", figures(limits))
        }
        Fault::NarrowsNothing { words, limits } => {
            format!("`{}` is always so, and narrows nothing{}", line(words), figures(limits))
        }
    }
}

fn settled(words: &Passage, narrowed_by: Option<&Passage>, how: &str, limits: &[LimitValue]) -> String {
    let narrowed = narrowed_by.map(|narrows| format!("where `{}`, ", line(narrows))).unwrap_or_default();
    format!("{narrowed}`{}` {how}{}", line(words), figures(limits))
}

fn line(words: &Passage) -> String {
    one_line(words.source.slice(words.span))
}

/// The values behind the limits that were named: ` (least is 8")`.
fn figures(limits: &[LimitValue]) -> String {
    let named: Vec<String> =
        limits.iter().map(|limit| format!("{} is {}", limit.name, printed(limit.value, limit.metric))).collect();
    if named.is_empty() { String::new() } else { format!(" ({})", named.join(", ")) }
}

/// A bound by the limit that sets it, or as it is written.
fn bound(bound: &BoundValue) -> String {
    let value = printed(bound.value, bound.metric);
    bound.limit.as_ref().map_or_else(|| value.clone(), |limit| format!("`{limit}` is {value}"))
}
