//! What a design has from its shop's file, and what a report says of its words at its end.

use super::message::message;
use super::need::need;
use crate::check::{Excused, Finding, FromShop, Problem, Report, SetLine, Usual};
use crate::model::problem::DrawingProblem;
use crate::model::{self, Kind, Waiver};
use crate::rules::{Below, Departures};

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

/// What is drawn of which no rule speaks, in a line; nothing where rules speak of all of it.
pub fn unasked(kinds: &[&Kind]) -> Option<String> {
    let (last, before) = kinds.split_last()?;
    let names: Vec<&str> = before.iter().map(|kind| kind.plural).collect();
    let names = if names.is_empty() { String::new() } else { format!("{} or ", names.join(", ")) };
    Some(format!("not asked: no rule of the sets that were named speaks of {names}{}", last.plural))
}

/// What a stair is usually held to and no rule asks, in a line; nothing where rules ask all of it.
pub fn usual_left_out(usual: &[&Usual]) -> Option<String> {
    let (last, before) = usual.split_last()?;
    let names: Vec<&str> = before.iter().map(|usual| usual.name).collect();
    let names = if names.is_empty() { String::new() } else { format!("{} or ", names.join(", ")) };
    Some(format!("not asked: no rule of the sets that were named asks for {names}{}, drawn or not", last.name))
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

/// How a set stands to one that it takes in.
pub fn takes_in(below: &Below) -> &'static str {
    if below.amended { "amends" } else { "takes in" }
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

/// What a shop's file states of a design, on one line.
pub fn shares(shares: &[FromShop]) -> String {
    shares.iter().map(share).collect::<Vec<_>>().join(", ")
}

fn share(of: &FromShop) -> String {
    match of {
        FromShop::Rules(names) => format!("rules {}", names.join(" and ")),
        FromShop::Section(name) => format!("section {name}"),
        FromShop::Timber(name) => format!("timber \"{name}\""),
        FromShop::Property(name) => name.to_string(),
        FromShop::PassedOver(passed) => format!("not its {}, for what is nearer the design governs", share(passed)),
    }
}

/// What waivers excuse in a report, a line each: rule and set, what does not hold or is not known, until when, why and
/// by whom.
pub fn waived(report: &Report) -> Vec<String> {
    let mut lines: Vec<Line<'_>> = Vec::new();
    let findings = report.findings.iter().filter_map(|finding| match finding {
        Finding::Rule(finding) => Some((finding.waived.as_deref()?, finding.rule.set().title.as_str(), finding)),
        Finding::Reader(_) => None,
    });
    let findings = findings.map(|(waiver, set, finding)| (waiver, set, message(&**finding).message));
    let open = report.not_checked.iter().filter_map(|item| {
        Some((item.waived.as_deref()?, item.set.as_str(), format!("not checked, needs {}", need(&item.needs))))
    });
    for (waiver, set, what) in findings.chain(open) {
        match lines.iter_mut().find(|line| (line.waiver.span, line.set) == (waiver.span, set)) {
            Some(line) => line.more += 1,
            None => lines.push(Line { waiver, set, what, more: 0 }),
        }
    }
    lines.sort_by_key(|line| (line.waiver.span, line.set));
    lines.iter().map(|line| line.words(report)).collect()
}

/// What one waiver excuses of one set.
struct Line<'r> {
    waiver: &'r Waiver,
    set: &'r str,
    /// The first that it excuses.
    what: String,
    /// How many others it excuses.
    more: usize,
}

impl Line<'_> {
    fn words(&self, report: &Report) -> String {
        let Self { waiver, set, what, more } = self;
        let more = if *more > 0 { format!(", and {more} more") } else { String::new() };
        let line = report.source.line(waiver.span.start);
        let (until, reason) = (until(waiver), reason(waiver));
        format!("waived {until}, line {line}: {}, {set}: {what}{more}; {reason}", waiver.rule)
    }
}

/// A waiver by itself: until when, why, by whom.
pub fn waiver(waiver: &Waiver) -> String {
    format!("{}; {}", until(waiver), reason(waiver))
}

fn until(waiver: &Waiver) -> String {
    waiver.until.map_or_else(|| "with no end".to_owned(), |(day, _)| format!("until {day}"))
}

fn reason(waiver: &Waiver) -> String {
    let why = waiver.why.as_ref().map_or_else(|| "no reason stated".to_owned(), |why| format!("\"{why}\""));
    format!("{why}, {}", waiver.by.as_deref().unwrap_or("by nobody"))
}
