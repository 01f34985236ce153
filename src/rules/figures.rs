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
    let mut shared: Vec<Limit> =
        figures.iter().filter(|figure| said.contains(&figure.name) && !own(figure)).cloned().collect();
    if shared.is_empty() {
        return shared;
    }
    // The words may stand there for something else; what is wrong with the clause is reported when it is read for good.
    let limits: Vec<Limit> = parts.limits.iter().chain(&shared).cloned().collect();
    let mut aside = Reporter { source, found: &mut Vec::new() };
    let names = Names { limits: &limits, tables: &parts.tables, classes: &[], refused: &[] };
    if let Some(read) = resolve::clause(clause, names, &mut aside) {
        let mut used = read.used.into_iter().skip(parts.limits.len());
        shared.retain(|_| used.next().unwrap_or(true));
    }
    shared
}
