//! What a design has from its shop's file, and what a report says of its words at its end.

use super::message::message;
use super::need::need;
use crate::check::{Excused, Finding, FromShop, Problem, Report};
use crate::model::problem::DrawingProblem;
use crate::model::{self, Waiver};

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
