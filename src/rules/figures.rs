//! Figures of a set, which several rules read under one name; some are tables.

use super::parts::Parts;
use super::resolve::{self, Names};
use super::rule::{Limit, RuleSet};
use super::table::Table;
use crate::base::{Reporter, Source};
use crate::syntax;

/// Figures that a clause reads; of those that are tables each row is one, beside the table.
#[derive(Default)]
pub(super) struct Shared {
    pub limits: Vec<Limit>,
    pub tables: Vec<Table>,
}

/// The figures of a set that a clause reads, but for those that a rule's own limits and tables hide.
pub(super) fn shared(clause: &syntax::ClauseTree, parts: &Parts, set: &RuleSet, source: &Source) -> Shared {
    let own = |figure: &str| {
        parts.limits.iter().any(|limit| limit.name == figure) || parts.tables.iter().any(|table| table.name == figure)
    };
    let said = source.slice(clause.span);
    let is_named = |figure: &str| said.contains(figure) && !own(figure);
    let was_named = |figure: &str| set.former_figures.iter().any(|(former, now)| now == figure && is_named(former));
    let tables = set.figure_tables.iter();
    let tables: Vec<Table> = tables.filter(|table| is_named(&table.name) || was_named(&table.name)).cloned().collect();
    let of_table = |figure: &Limit, tables: &[Table]| {
        tables.iter().any(|table| table.rows.iter().any(|row| row.limit == figure.name))
    };
    let named = |figure: &&Limit| match of_table(figure, &set.figure_tables) {
        true => of_table(figure, &tables),
        false => is_named(&figure.name) || was_named(&figure.name),
    };
    let mut named = set.figures.iter().filter(named).peekable();
    if named.peek().is_none() {
        return Shared::default();
    }
    // The words may stand there for something else; what is wrong with the clause is reported when it is read for good.
    let limits: Vec<Limit> = parts.limits.iter().chain(named).cloned().collect();
    let all: Vec<Table> = parts.tables.iter().chain(&tables).cloned().collect();
    let mut aside = Reporter { source, found: &mut Vec::new() };
    let names = Names { limits: &limits, tables: &all, classes: &set.classes, refused: &[] };
    let used = resolve::clause(clause, names, &mut aside).map(|read| read.used);
    let is_used = |at: usize| used.as_ref().is_none_or(|used| used.get(at).copied().unwrap_or(true));
    let shared = limits.into_iter().enumerate().skip(parts.limits.len());
    let limits: Vec<Limit> = shared.filter(|(at, _)| is_used(*at)).map(|(_, figure)| figure).collect();
    let rows_of = |table: &Table| limits.iter().any(|limit| table.rows.iter().any(|row| row.limit == limit.name));
    let tables = tables.into_iter().filter(rows_of).collect();
    Shared { limits, tables }
}
