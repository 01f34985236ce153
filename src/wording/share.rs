//! What a design has from its shop's file, and what a report says of its words at its end.

use super::phrase::plural;
use crate::check::{Excused, Finding, FromShop, Problem, Report, SetLine};
use crate::model;
use crate::model::problem::DrawingProblem;
use crate::rules::Departures;

/// Most rules that are named behind one word.
const MOST: usize = 4;

/// The words that took rules out, a line each.
pub fn excused(report: &Report) -> Vec<String> {
    let untried = match report.untried {
        0 => None,
        1 => Some("taken at its word, and not tried without: 1 more word that may take rules out".to_owned()),
        many => Some(format!("taken at their word, and not tried without: {many} more words that may take rules out")),
    };
    report.excused.iter().map(|excused| taken_out(report, excused)).chain(untried).collect()
}

fn taken_out(report: &Report, excused: &Excused) -> String {
    let Excused { property, of, span, rules } = excused;
    format!("taken at its word: `{property}: {}` of {of}, which takes out {}", report.source.slice(*span), few(rules))
}

/// The first of some rules by name, and how many more there are.
fn few(rules: &[String]) -> String {
    let more = rules.len().saturating_sub(MOST);
    let mut named: Vec<String> = rules.iter().take(MOST).cloned().collect();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    let last = named.pop().unwrap_or_default();
    if named.is_empty() { last } else { format!("{} and {last}", named.join(", ")) }
}

/// The stairs that alone were held to a set, behind its name, where others of the text were not.
pub fn only_of(set: &SetLine) -> String {
    match set.only.as_slice() {
        [] => String::new(),
        [one] => format!("; of the stairs here only {one}"),
        some => format!("; of the stairs here only {}", few(some)),
    }
}

/// What a set lets pass that those do not which it amends, on one line, if there is anything.
pub fn departs(set: &SetLine) -> Option<String> {
    let Departures { looser, changed, withdrawn, .. } = &set.departs;
    let ways = [
        (looser, "lets more pass", "let more pass"),
        (withdrawn, "is withdrawn", "are withdrawn"),
        (changed, "asks something else", "ask something else"),
    ];
    let some = ways.into_iter().filter(|(rules, ..)| !rules.is_empty());
    let said: Vec<String> = some
        .map(|(rules, one, many)| match rules.len() {
            1 => format!("1 rule {one} ({})", few(rules)),
            number => format!("{number} rules {many} ({})", few(rules)),
        })
        .collect();
    (!said.is_empty()).then(|| format!("{} departs from what it amends: {}", set.title, said.join(", ")))
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

/// Hidden and build folders, and files by a hidden or a wrong name, which a walk has not read, on one line.
pub fn passed_over(paths: &[String]) -> Option<String> {
    (!paths.is_empty()).then(|| format!("passed over, not read: {} ({})", plural(paths.len(), "name"), few(paths)))
}

/// What a shop's file states of a design, on one line.
pub fn shares(shares: &[FromShop]) -> String {
    shares.iter().map(share).collect::<Vec<_>>().join(", ")
}

fn share(share: &FromShop) -> String {
    match share {
        FromShop::Rules(names) => format!("rules {}", names.join(" and ")),
        FromShop::Section(name) => format!("section {name}"),
        FromShop::Timber(name) => format!("timber \"{name}\""),
        FromShop::Property(name) => name.to_string(),
    }
}
