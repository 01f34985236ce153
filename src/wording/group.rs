//! Findings of one cause: the gravest in full, the others in a line each.

use super::{Message, ToMessage, fix, phrase};
use crate::base::Source;
use crate::check::{Cause, Finding, Fix, Group, Offer, Report};

/// The gravest finding of a group in full, with the change that cures all of them where there is one, and the others;
/// nothing where all are waived or known.
pub fn grouped(report: &Report, group: &Group) -> Option<Message> {
    let members = report.findings.get(group.findings.clone())?.iter().filter(|found| !found.is_excused());
    let members: Vec<&Finding> = members.collect();
    let (first, others) = members.split_first()?;
    let mut message = first.to_message();
    let change = match &group.cause {
        Cause::Change(change) => Some(&**change),
        Cause::Own | Cause::Words(_) => None,
    };
    if let (Some(change), Finding::Rule(first)) = (change, first) {
        let own = first.fix.as_ref().is_some_and(|fix| fix.edits == change.edits);
        let offered = if own { None } else { in_place(change, &first.source) };
        let help = offered.unwrap_or_else(|| fix::help(change, first.rule.rule()));
        let these = phrase::plural(others.len() + 1, "finding");
        message.help = Some(format!("{help} It is one change for {these}."));
    }
    message.also = others.iter().map(|other| line(first, other, change)).collect();
    Some(message)
}

/// A finding on one line, with what would pass where the group has no change that cures all, and its set where that is
/// another than the first finding's.
fn line(first: &Finding, finding: &Finding, change: Option<&Fix>) -> String {
    let Message { severity, name, message, help, clause, .. } = finding.to_message();
    let help = help.filter(|_| change.is_none()).map(|help| format!(". {help}")).unwrap_or_default();
    let firsts = match first {
        Finding::Rule(first) => first.rule.set().title.as_str(),
        Finding::Reader(_) => "",
    };
    let set = clause.map(|clause| clause.set).filter(|set| set != firsts);
    let set = set.map(|set| format!(" ({set})")).unwrap_or_default();
    format!("{}: {name}{set}: {message}{help}", severity.word())
}

/// A change that speaks of "there" in the words of the text, for a finding that points elsewhere.
fn in_place(change: &Fix, source: &Source) -> Option<String> {
    let (Offer::Item(_) | Offer::BalusterCount(_), [edit]) = (&change.offer, change.edits.as_slice()) else {
        return None;
    };
    Some(format!("`{}` in place of `{}` would pass.", edit.text, source.slice(edit.span)))
}
