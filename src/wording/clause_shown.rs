//! The clause behind a finding: its place in the set, the limits that it read, who amended it.

use super::{Amended, Clause, Label};
use crate::rules::{Amendment, Change, Limit, Part, Rule, RuleSet, Sourced};

/// The clause behind a finding, with its limits and what sets above have changed of it.
pub(super) fn clause(set: &RuleSet, rule: &Rule) -> Clause {
    let cited_by = rule.set_by(&Part::Source);
    let below = set.takes_in.iter().find(|below| below.title == cited_by);
    Clause {
        set: set.title.clone(),
        from: below.map(|below| below.title.clone()).unwrap_or_default(),
        edition: below.map_or(&set.edition, |below| &below.edition).clone(),
        source: rule.source.clone(),
        clause: rule.clause,
        limits: rule.limits.iter().filter_map(|limit| written(rule, limit)).collect(),
        amended: rule.amendments.iter().rev().filter_map(amended).collect(),
        cites: rule.cites.clone(),
        figures: figures(rule),
        because: rule.because.clone(),
        sure: rule.sure.clone(),
    }
}

/// The figures of the set that a rule reads and that another source has, each with it; of a table the table.
fn figures(rule: &Rule) -> Vec<(String, String)> {
    let called = |figure: &Limit| {
        let table = rule.tables.iter().find(|table| table.rows.iter().any(|row| row.limit == figure.name));
        table.map_or_else(|| figure.name.clone(), |table| table.name.clone())
    };
    let others = rule.limits.iter().filter(|figure| !figure.cites.is_empty() && figure.cites != rule.cites);
    let mut figures: Vec<(String, String)> = others.map(|figure| (called(figure), figure.cites.clone())).collect();
    figures.dedup();
    figures
}

/// The words of a clause, as a place beside others.
#[cfg(feature = "cli")]
pub fn the_clause(clause: &Clause) -> Label {
    let source = if clause.cites.is_empty() { "no source stated" } else { &clause.cites };
    Label { span: clause.clause, text: format!("the clause: {}, {source}", clause.set) }
}

/// The set and the source of a clause on one line, who has changed it, and how sure its figure is.
#[cfg(feature = "cli")]
pub fn source_line(clause: &Clause) -> String {
    let edition = if clause.edition.is_empty() { String::new() } else { format!(" ({})", clause.edition) };
    let set = match clause.from.as_str() {
        "" => format!("{}{edition}", clause.set),
        from => format!("{from}{edition}, in {}", clause.set),
    };
    let cites = if clause.cites.is_empty() { "no source stated" } else { clause.cites.as_str() };
    let by: Vec<String> = clause.amended.iter().map(|amended| amended.set.clone()).collect();
    // A source that says itself that it is amended does not say so twice.
    let as_amended = if cites.contains("as amended") { "" } else { "as amended " };
    let amended =
        if by.is_empty() { String::new() } else { format!(", {as_amended}by {}", super::phrase::all_of(&by)) };
    let sure = super::sure::after_a_source(&clause.sure);
    let figures: String = clause.figures.iter().map(|(name, cites)| format!("; `{name}` by {cites}")).collect();
    format!("{set}: {cites}{amended}{figures}{sure}")
}

/// A limit where the clause was written, with the value that it has or had there.
fn written(rule: &Rule, limit: &Limit) -> Option<Label> {
    let first = std::iter::successors(Some(limit), |limit| limit.replaced.as_deref()).last()?;
    let is = if first.replaced.is_none() && limit.replaced.is_some() { "was" } else { "is" };
    let text = format!("{} {is} {}", first.name, first.figures());
    (first.source == rule.source).then_some(Label { span: first.span, text })
}

/// What one set has changed, where it bears on the outcome.
fn amended(amendment: &Amendment) -> Option<Amended> {
    let told = |change: &Change| {
        let Change { now, before, set_by, .. } = change;
        let text = match &change.part {
            Part::Limit(name) if before.is_empty() => format!("{name} is {now}"),
            Part::Limit(name) => format!("{name} is {now}, in place of {before} of {set_by}"),
            Part::Verb => format!("`{now}`, in place of `{before}` of {set_by}"),
            Part::Condition => match (now.as_str(), before.as_str()) {
                ("always", before) => format!("applies always, no longer only where {before}, as {set_by} has it"),
                (_, "always") => format!("applies only here, no longer always, as {set_by} has it"),
                (_, before) => format!("applies here, in place of where {before} of {set_by}"),
            },
            Part::Clause => format!("in place of `{before}` of {set_by}"),
            Part::Source if before.is_empty() => "the source".to_owned(),
            Part::Source => format!("the source, in place of {before} of {set_by}"),
            Part::Because | Part::Sure | Part::Waive | Part::Says => return None,
        };
        Some(Label { span: change.span, text })
    };
    let mut changes: Vec<Label> = amendment.changes.iter().filter_map(told).collect();
    if let (Sourced::No, Some(last)) = (amendment.grounds, changes.last_mut()) {
        last.text += ", and names no source of its own";
    }
    let (set, source) = (amendment.set.clone(), amendment.source.clone());
    (!changes.is_empty()).then_some(Amended { set, source, changes })
}
