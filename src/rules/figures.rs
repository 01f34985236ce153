//! Figures of a set, which several rules read under one name.

use super::parts::Parts;
use super::resolve::{self, Names};
use super::rule::Limit;
use crate::base::{Reporter, Source};
use crate::syntax;

/// The figures of a set that a clause reads, but for those that a rule's own limits and tables hide.
pub(super) fn shared(clause: &syntax::ClauseTree, parts: &Parts, figures: &[Limit], source: &Source) -> Vec<Limit> {
    let own = |figure: &Limit| {
        parts.limits.iter().any(|limit| limit.name == figure.name)
            || parts.tables.iter().any(|table| table.name == figure.name)
    };
    let said = source.slice(clause.span);
    let mut named = figures.iter().filter(|figure| said.contains(&figure.name) && !own(figure)).peekable();
    if named.peek().is_none() {
        return Vec::new();
    }
    // The words may stand there for something else; what is wrong with the clause is reported when it is read for good.
    let limits: Vec<Limit> = parts.limits.iter().chain(named).cloned().collect();
    let mut aside = Reporter { source, found: &mut Vec::new() };
    let names = Names { limits: &limits, tables: &parts.tables, classes: &[], refused: &[] };
    let used = resolve::clause(clause, names, &mut aside).map(|read| read.used);
    let is_used = |at: usize| used.as_ref().is_none_or(|used| used.get(at).copied().unwrap_or(true));
    let shared = limits.into_iter().enumerate().skip(parts.limits.len());
    shared.filter(|(at, _)| is_used(*at)).map(|(_, figure)| figure).collect()
}
