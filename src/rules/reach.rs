//! How far the rows of a table reach: which of them are never read, for others before them hold wherever they do, which
//! meet, and where none holds.
//!
//! What a table goes by is parted into cells, at each figure and each word that a row names: within a cell every row holds
//! throughout, or nowhere.

use super::problem::Without;
use super::table::RowAsks;
use crate::base::work;
use crate::measure::{self, Measure};
use crate::syntax::Relation;

/// Most cells of a table that are looked at; of a larger one nothing is told.
const MOST_CELLS: usize = 4096;

/// Most values without a row that are told of one table.
const MOST_TOLD: usize = 6;

/// What a table goes by.
pub(super) enum Along<'w> {
    /// Words: those that it can be, where they are known.
    Words(Vec<&'w str>),
    /// A number.
    Numbers {
        /// Whether there are only whole ones.
        counts: bool,
    },
}

/// A part of what a table goes by.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Cell<'w> {
    Word(&'w str),
    /// Any word that no row names.
    OtherWord,
    Below(Measure),
    At(Measure),
    Between(Measure, Measure),
    Above(Measure),
    /// Every number, where no row names one.
    All,
}

/// Which rows hold where.
pub(super) struct Reached<'w> {
    /// The cells of each thing that the table goes by.
    axes: Vec<Vec<Cell<'w>>>,
    /// For each row, for each of these things, the cells in which it holds.
    holds: Vec<Vec<Vec<bool>>>,
    /// It says of each value something: it is for all that no other row is for.
    otherwise: Vec<bool>,
}

impl<'w> Reached<'w> {
    /// The rows of a table: for each, what it says of each thing that the table goes by.
    pub fn of(along: &[Along<'w>], rows: &[Vec<Vec<&'w RowAsks>>]) -> Self {
        let axis = |(at, along): (usize, &Along<'w>)| {
            let said = rows.iter().filter_map(|row| row.get(at)).flatten().copied();
            cells(along, said)
        };
        let axes: Vec<Vec<Cell<'w>>> = along.iter().enumerate().map(axis).collect();
        let row = |row: &Vec<Vec<&RowAsks>>| -> Vec<Vec<bool>> {
            let parts = axes.iter().zip(row);
            parts
                .map(|(cells, asks)| cells.iter().map(|cell| asks.iter().all(|asks| cell.is(asks))).collect())
                .collect()
        };
        let holds: Vec<Vec<Vec<bool>>> = rows.iter().map(row).collect();
        work::done(axes.iter().map(Vec::len).sum::<usize>() * rows.len());
        let otherwise = rows.iter().map(|row| row.iter().all(Vec::is_empty)).collect();
        Self { axes, holds, otherwise }
    }

    /// Every place of the table: a cell of each thing that it goes by. None where there are too many.
    fn places(&self) -> Vec<Vec<usize>> {
        let many: usize = self.axes.iter().map(Vec::len).product();
        if many > MOST_CELLS {
            return Vec::new();
        }
        let mut places: Vec<Vec<usize>> = vec![Vec::new()];
        for axis in &self.axes {
            let more = |place: Vec<usize>| (0..axis.len()).map(move |cell| [place.as_slice(), &[cell]].concat());
            places = places.into_iter().flat_map(more).collect();
        }
        places
    }

    fn holds(&self, row: usize, place: &[usize]) -> bool {
        let Some(axes) = self.holds.get(row) else { return false };
        axes.iter().zip(place).all(|(holds, cell)| holds.get(*cell).copied().unwrap_or(false))
    }

    /// The first row that holds at a place.
    fn first(&self, place: &[usize]) -> Option<usize> {
        (0..self.holds.len()).find(|row| self.holds(*row, place))
    }

    /// The rows, by their places, that no value ever reaches.
    pub fn never_read(&self) -> Vec<usize> {
        let places = self.places();
        if places.is_empty() {
            return Vec::new();
        }
        work::done(places.len() * self.holds.len());
        let mut read = vec![false; self.holds.len()];
        for row in places.iter().filter_map(|place| self.first(place)) {
            if let Some(read) = read.get_mut(row) {
                *read = true;
            }
        }
        (0..read.len()).filter(|row| read.get(*row) == Some(&false)).collect()
    }

    /// Rows that both hold somewhere, where neither holds wherever the other does: each with the first such before it.
    pub fn meetings(&self) -> Vec<(usize, usize)> {
        let named = |row: &usize| self.otherwise.get(*row) == Some(&false);
        let dead = self.never_read();
        let rows = || (0..self.holds.len()).filter(named).filter(|row| !dead.contains(row));
        rows()
            .filter_map(|row| {
                Some((rows().take_while(|other| *other < row).find(|other| self.meet(*other, row))?, row))
            })
            .collect()
    }

    fn meet(&self, first: usize, second: usize) -> bool {
        let (Some(first), Some(second)) = (self.holds.get(first), self.holds.get(second)) else { return false };
        let axes = || first.iter().zip(second);
        let cells = |a: &[bool], b: &[bool], is: fn(bool, bool) -> bool| a.iter().zip(b).any(|(a, b)| is(*a, *b));
        axes().all(|(a, b)| cells(a, b, |a, b| a && b))
            && axes().any(|(a, b)| cells(a, b, |a, b| a && !b))
            && axes().any(|(a, b)| cells(a, b, |a, b| b && !a))
    }

    /// Values for which no row holds: between others that have one, or words that there are; and of a table that goes by
    /// two things, those that have a row, but none together.
    pub fn without(&self) -> Vec<Without> {
        let places = self.places();
        let covered: Vec<(&Vec<usize>, bool)> =
            places.iter().map(|place| (place, self.first(place).is_some())).collect();
        let mut found = Vec::new();
        let mut known: Vec<Vec<bool>> = Vec::new();
        for (at, axis) in self.axes.iter().enumerate() {
            let has = |cell: usize| covered.iter().any(|(place, held)| *held && place.get(at) == Some(&cell));
            let held: Vec<bool> = (0..axis.len()).map(has).collect();
            if held.contains(&true) {
                found.extend(runs(axis, &held, false));
            }
            known.push(held);
        }
        let ([first, second], [has_first, has_second]) = (self.axes.as_slice(), known.as_slice()) else {
            return found;
        };
        for (at, cell) in first.iter().enumerate().filter(|(at, _)| has_first.get(*at) == Some(&true)) {
            let held = |other: usize| covered.iter().any(|(place, held)| *held && place.as_slice() == [at, other]);
            let held: Vec<bool> =
                (0..second.len()).map(|other| has_second.get(other) != Some(&true) || held(other)).collect();
            for run in runs(second, &held, true) {
                if found.len() >= MOST_TOLD {
                    return found;
                }
                found.push(match cell.without() {
                    Some(cell) => Without::Both(Box::new(cell), Box::new(run)),
                    None => run,
                });
            }
        }
        found
    }
}

/// The cells of one thing, by what rows say of it.
fn cells<'w>(along: &Along<'w>, said: impl Iterator<Item = &'w RowAsks>) -> Vec<Cell<'w>> {
    match along {
        Along::Words(known) => {
            let mut words: Vec<&str> = known.clone();
            for asks in said {
                let RowAsks::Words(choice) = asks else { continue };
                for word in choice {
                    if !words.contains(&word.words.as_str()) {
                        words.push(&word.words);
                    }
                }
            }
            let others = known.is_empty().then_some(Cell::OtherWord);
            words.into_iter().map(Cell::Word).chain(others).collect()
        }
        Along::Numbers { counts } => {
            let mut cuts: Vec<Measure> = Vec::new();
            for asks in said {
                let RowAsks::Number(bounds) = asks else { continue };
                cuts.extend(bounds.iter().map(|(_, at, _)| *at));
            }
            cuts.sort_by(|a, b| a.value.total_cmp(&b.value));
            cuts.dedup_by(|a, b| measure::equal(a.value, b.value, b.dimension));
            let mut cells: Vec<Cell<'_>> = cuts.first().map(|first| Cell::Below(*first)).into_iter().collect();
            for (at, cut) in cuts.iter().enumerate() {
                cells.push(Cell::At(*cut));
                cells.push(cuts.get(at + 1).map_or(Cell::Above(*cut), |next| Cell::Between(*cut, *next)));
            }
            // Of what is counted nothing lies between 49 and 50.
            cells.retain(|cell| match cell {
                Cell::Between(from, to) => !counts || from.value.floor() + 1.0 < to.value,
                Cell::At(at) => !counts || measure::equal(at.value, at.value.round(), at.dimension),
                _ => true,
            });
            if cells.is_empty() { vec![Cell::All] } else { cells }
        }
    }
}

/// Cells beside one another that are not held, as values; those at the ends of all numbers only where they are asked for.
fn runs(cells: &[Cell<'_>], held: &[bool], ends: bool) -> Vec<Without> {
    let mut found = Vec::new();
    let mut open: Vec<Cell<'_>> = Vec::new();
    let mut close = |open: &mut Vec<Cell<'_>>| {
        let run = std::mem::take(open);
        let (Some(first), Some(last)) = (run.first().copied(), run.last().copied()) else { return };
        let end = matches!(first, Cell::Below(_)) || matches!(last, Cell::Above(_));
        found.extend(as_run(first, last).filter(|_| ends || !end));
    };
    for (cell, held) in cells.iter().zip(held) {
        match cell {
            Cell::Word(_) | Cell::OtherWord => {
                close(&mut open);
                open.extend((!held).then_some(*cell));
            }
            _ if *held => close(&mut open),
            _ => open.push(*cell),
        }
    }
    close(&mut open);
    found
}

fn as_run(first: Cell<'_>, last: Cell<'_>) -> Option<Without> {
    let from = match first {
        Cell::At(from) => Some((from, false)),
        Cell::Between(from, _) | Cell::Above(from) => Some((from, true)),
        _ => None,
    };
    let to = match last {
        Cell::At(to) => Some((to, true)),
        Cell::Between(_, to) | Cell::Below(to) => Some((to, false)),
        _ => None,
    };
    match (from, to) {
        _ if matches!(first, Cell::Word(_)) => first.without(),
        (Some((at, false)), Some((_, true))) if first == last => Some(Without::At(at)),
        (Some((from, over)), Some((to, up_to))) => Some(Without::Between { from, over, to, up_to }),
        (Some((from, over)), None) => Some(Without::From(from, !over)),
        (None, Some((to, up_to))) => Some(Without::UpTo(to, up_to)),
        (None, None) => None,
    }
}

impl Cell<'_> {
    /// Whether a row holds in it, by what it says of it.
    fn is(self, asks: &RowAsks) -> bool {
        match asks {
            RowAsks::Words(choice) => {
                matches!(self, Cell::Word(word) if choice.iter().any(|asked| asked.words == word))
            }
            RowAsks::Number(bounds) => bounds.iter().all(|(relation, at, _)| self.stands(*relation, *at)),
            RowAsks::Otherwise | RowAsks::Both(_) => true,
        }
    }

    /// Whether all numbers in it stand so to a figure at which cells are parted.
    fn stands(self, relation: Relation, at: Measure) -> bool {
        let is = |a: Measure| measure::equal(a.value, at.value, at.dimension);
        // Below the figure, at it, or above.
        let (below, equal) = match self {
            Cell::At(cell) => (cell.value < at.value && !is(cell), is(cell)),
            Cell::Below(end) => (end.value < at.value || is(end), false),
            Cell::Between(_, end) => (end.value < at.value || is(end), false),
            Cell::Above(_) | Cell::All | Cell::Word(_) | Cell::OtherWord => (false, false),
        };
        match relation {
            Relation::Less => below,
            Relation::AtMost => below || equal,
            Relation::More => !below && !equal,
            Relation::AtLeast => !below,
            Relation::Equal => equal,
            Relation::Unequal => !equal,
        }
    }

    /// It as values that no row holds.
    fn without(self) -> Option<Without> {
        match self {
            Cell::Word(word) => Some(Without::Word(word.to_owned())),
            Cell::OtherWord | Cell::All => None,
            number => as_run(number, number),
        }
    }
}

/// The rows, by their places, that no value ever reaches, whatever else it can be than what they name; of rows that say
/// something of two things, none is told.
pub(super) fn never_read(rows: &[&RowAsks]) -> Vec<usize> {
    if rows.iter().any(|row| matches!(row, RowAsks::Both(_))) {
        return Vec::new();
    }
    let number = rows.iter().any(|row| matches!(row, RowAsks::Number(_)));
    let along = if number { Along::Numbers { counts: false } } else { Along::Words(Vec::new()) };
    let rows: Vec<Vec<Vec<&RowAsks>>> = rows.iter().map(|row| vec![row.parts().iter().collect()]).collect();
    Reached::of(&[along], &rows).never_read()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Span;
    use crate::syntax::Name;

    fn row(bounds: &[(Relation, f64)]) -> RowAsks {
        let bound = |(relation, at): &(Relation, f64)| (*relation, Measure::number(*at), Span::default());
        RowAsks::Number(bounds.iter().map(bound).collect())
    }

    fn words(words: &[&str]) -> RowAsks {
        let word = |word: &&str| Name { words: (*word).to_owned(), span: Span::default() };
        RowAsks::Words(words.iter().map(word).collect())
    }

    fn of_one(rows: &[RowAsks]) -> Vec<Vec<Vec<&RowAsks>>> {
        rows.iter().map(|row| vec![row.parts().iter().collect()]).collect()
    }

    fn gaps_of(rows: &[RowAsks], counts: bool) -> Vec<Without> {
        Reached::of(&[Along::Numbers { counts }], &of_one(rows)).without()
    }

    fn between(from: f64, over: bool, to: f64, up_to: bool) -> Without {
        Without::Between { from: Measure::number(from), over, to: Measure::number(to), up_to }
    }

    const UP_TO: Relation = Relation::AtMost;
    const UNDER: Relation = Relation::Less;
    const OVER: Relation = Relation::More;
    const FROM: Relation = Relation::AtLeast;

    #[test]
    fn a_gap_is_what_no_row_holds_between_two_that_do() {
        assert_eq!(gaps_of(&[row(&[(UP_TO, 49.0)]), row(&[(OVER, 100.0)])], false), [between(49.0, true, 100.0, true)]);
        assert_eq!(
            gaps_of(&[row(&[(UNDER, 40.0)]), row(&[(OVER, 40.0)])], false),
            [Without::At(Measure::number(40.0))]
        );
        assert_eq!(gaps_of(&[row(&[(UP_TO, 40.0)]), row(&[(OVER, 40.0)])], false), []);
        // Of what is counted nothing lies between 49 and 50.
        let counted = [row(&[(UP_TO, 49.0)]), row(&[(FROM, 50.0), (UP_TO, 200.0)]), row(&[(OVER, 200.0)])];
        assert_eq!(gaps_of(&counted, true), []);
        assert_eq!(gaps_of(&counted, false), [between(49.0, true, 50.0, false)]);
        // Ends are no gaps: a rule may speak of a stretch alone.
        assert_eq!(gaps_of(&[row(&[(FROM, 10.0), (UP_TO, 20.0)])], false), []);
        assert_eq!(gaps_of(&[row(&[(UP_TO, 40.0)]), RowAsks::Otherwise], false), []);
    }

    #[test]
    fn a_row_is_never_read_where_those_before_it_hold_wherever_it_does() {
        let dead = |rows: &[RowAsks]| never_read(&rows.iter().collect::<Vec<_>>());
        assert_eq!(dead(&[row(&[(UP_TO, 50.0)]), row(&[(UP_TO, 44.0)]), RowAsks::Otherwise]), [1]);
        assert_eq!(dead(&[row(&[(UP_TO, 44.0)]), row(&[(UP_TO, 50.0)]), RowAsks::Otherwise]), [0; 0]);
        assert_eq!(dead(&[row(&[(UP_TO, 44.0)]), row(&[(OVER, 40.0)]), row(&[(OVER, 43.0), (UP_TO, 60.0)])]), [2]);
        assert_eq!(dead(&[row(&[(OVER, 50.0), (UP_TO, 40.0)])]), [0]);
        assert_eq!(dead(&[words(&["a", "b"]), words(&["b"]), words(&["c"]), RowAsks::Otherwise]), [1]);
        assert_eq!(dead(&[RowAsks::Otherwise, words(&["a"])]), [1]);
    }

    #[test]
    fn rows_meet_where_both_hold_and_neither_is_the_narrower() {
        let meet = |rows: &[RowAsks]| Reached::of(&[Along::Numbers { counts: false }], &of_one(rows)).meetings();
        assert_eq!(meet(&[row(&[(UP_TO, 50.0)]), row(&[(OVER, 40.0)])]), [(0, 1)]);
        // The narrower first is how such a table is written.
        assert_eq!(meet(&[row(&[(UP_TO, 40.0)]), row(&[(UP_TO, 50.0)]), RowAsks::Otherwise]), []);
        assert_eq!(meet(&[row(&[(UP_TO, 40.0)]), row(&[(OVER, 40.0)])]), []);
    }

    /// A table that goes by a word and a number.
    fn of_two<'r>(rows: &'r [(Option<RowAsks>, Option<RowAsks>)]) -> Reached<'r> {
        let parts = |(word, number): &'r (Option<RowAsks>, Option<RowAsks>)| {
            vec![word.iter().collect::<Vec<_>>(), number.iter().collect()]
        };
        let rows: Vec<Vec<Vec<&RowAsks>>> = rows.iter().map(parts).collect();
        Reached::of(&[Along::Words(vec!["own", "shared"]), Along::Numbers { counts: false }], &rows)
    }

    #[test]
    fn of_two_things_what_has_a_row_each_and_none_together_is_a_gap() {
        let (own, shared) = (|| Some(words(&["own"])), || Some(words(&["shared"])));
        let (narrow, wide) = (|| Some(row(&[(UP_TO, 48.0)])), || Some(row(&[(OVER, 48.0)])));
        let whole = [(own(), narrow()), (own(), wide()), (shared(), narrow()), (shared(), wide())];
        assert_eq!(of_two(&whole).without(), []);
        assert_eq!(of_two(&whole).meetings(), []);
        let short = [(own(), narrow()), (own(), wide()), (shared(), narrow())];
        let missing = Without::Both(
            Box::new(Without::Word("shared".to_owned())),
            Box::new(Without::From(Measure::number(48.0), false)),
        );
        assert_eq!(of_two(&short).without(), [missing]);
        assert_eq!(of_two(&[(own(), narrow()), (None, None)]).without(), []);
        // A word without any row is told by itself.
        assert_eq!(of_two(&[(own(), narrow()), (own(), wide())]).without(), [Without::Word("shared".to_owned())]);
        // Both speak of what is their own and narrow: which of the two is meant the order alone tells.
        assert_eq!(of_two(&[(own(), None), (None, narrow()), (None, None)]).meetings(), [(0, 1)]);
        assert_eq!(of_two(&[(own(), None), (own(), narrow()), (None, None)]).never_read(), [1]);
    }
}
