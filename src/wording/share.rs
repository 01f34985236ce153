//! What a design has from its shop's file, and what a report says of its words at its end.

use crate::check::{Excused, Finding, FromShop, Problem, Report};
use crate::model;
use crate::model::problem::DrawingProblem;

/// Most rules that are named behind one word.
const MOST: usize = 4;

/// The words that took rules out, a line each.
pub fn excused(report: &Report) -> Vec<String> {
    report.excused.iter().map(|excused| taken_out(report, excused)).collect()
}

fn taken_out(report: &Report, excused: &Excused) -> String {
    let Excused { property, of, span, rules } = excused;
    let more = rules.len().saturating_sub(MOST);
    let mut named: Vec<String> = rules.iter().take(MOST).cloned().collect();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    let last = named.pop().unwrap_or_default();
    let named = if named.is_empty() { last } else { format!("{} and {last}", named.join(", ")) };
    format!("taken at its word: `{property}: {}` of {of}, which takes out {named}", report.source.slice(*span))
}

/// Timbers and sections of one's own under names of the trade, on one line, if there are any.
pub fn redefined(report: &Report) -> Option<String> {
    let names = report.findings.iter().filter_map(|finding| match finding {
        Finding::Reader(diagnostic) => match &diagnostic.problem {
            Problem::Model(model::Problem::Drawing(DrawingProblem::Redefined { kind, name, .. })) => {
                Some(format!("{} `{name}`", kind.name))
            }
            _ => None,
        },
        Finding::Rule(_) => None,
    });
    let names: Vec<String> = names.collect();
    (!names.is_empty()).then(|| format!("redefined: {}", names.join(", ")))
}

/// What a shop's file states of a design, on one line.
pub fn shares(shares: &[FromShop]) -> String {
    shares.iter().map(share).collect::<Vec<_>>().join(", ")
}

fn share(share: &FromShop) -> String {
    match share {
        FromShop::Rules => "rules".to_owned(),
        FromShop::Section(name) => format!("section {name}"),
        FromShop::Timber(name) => format!("timber \"{name}\""),
        FromShop::Property(name) => name.to_string(),
    }
}
