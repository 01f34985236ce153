//! A table of a rule as an amendment leaves it: a row that is restated takes the place of the old one, a new row stands
//! before the old ones, for the first that holds counts, and every other row stays.

use super::reach;
use super::table::{RowAsks, Table, TableRow};

/// A table as an amendment leaves it.
pub(super) struct Retabled {
    pub table: Table,
    /// The rows that no longer count and that the amendment does not restate, by the names of their limits.
    pub gone: Vec<String>,
    /// They are gone because the table goes by something else, or is read otherwise: nothing of it was kept.
    pub anew: bool,
}

/// The old table with the rows of the new one put in.
pub(super) fn retabled(old: &Table, new: &Table) -> Retabled {
    let has = |table: &Table, limit: &str| table.rows.iter().any(|row| row.limit == limit);
    if old.by_words != new.by_words || old.between != new.between && !is_part(old, new) {
        let gone = old.rows.iter().filter(|row| !has(new, &row.limit)).map(|row| row.limit.clone()).collect();
        return Retabled { table: new.clone(), gone, anew: true };
    }
    let added = || new.rows.iter().filter(|row| !has(old, &row.limit));
    let last = |row: &&TableRow| row.asks == RowAsks::Otherwise;
    // What is restated is said by the new words.
    let kept = old.rows.iter().map(|row| new.rows.iter().find(|new| new.limit == row.limit).unwrap_or(row));
    let rows = added().filter(|row| !last(row)).chain(kept).chain(added().filter(last));
    let mut rows: Vec<TableRow> = rows.cloned().collect();
    let mut gone = Vec::new();
    if !old.between {
        let dead = reach::never_read(&rows.iter().map(|row| &row.asks).collect::<Vec<_>>());
        let of_old = |at: &usize| rows.get(*at).is_some_and(|row| !has(new, &row.limit));
        let dead: Vec<usize> = dead.into_iter().filter(of_old).collect();
        gone = dead.iter().filter_map(|at| rows.get(*at)).map(|row| row.limit.clone()).collect();
        rows.retain(|row| !gone.contains(&row.limit));
    }
    let formerly = old.formerly.clone();
    Retabled { table: Table { rows, formerly, between: old.between, ..new.clone() }, gone, anew: false }
}

/// Whether a new table restates rows of one that is read between them, without saying so again.
fn is_part(old: &Table, new: &Table) -> bool {
    let at_one = |row: &TableRow| matches!(&row.asks, RowAsks::Number(bounds) if matches!(bounds.as_slice(), [(crate::syntax::Relation::Equal, ..)]));
    old.between && new.rows.iter().all(at_one)
}
