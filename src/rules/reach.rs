//! How far the rows of a table reach: which of them are never read, for others before them hold wherever they do, and
//! where none holds.

use super::problem::Without;
use super::table::RowAsks;
use crate::measure::{self, Measure};
use crate::syntax::Relation;

/// A place between numbers: just before one, or just after it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Cut {
    at: Measure,
    after: bool,
}

/// Numbers from one cut to another; open where there is none.
type Stretch = (Option<Cut>, Option<Cut>);

impl Cut {
    /// Whether it lies before another, or at it.
    fn is_before(self, other: Self) -> bool {
        if measure::equal(self.at.value, other.at.value, self.at.dimension) {
            return !self.after || other.after;
        }
        self.at.value < other.at.value
    }
}

/// The rows, by their places, that no value ever reaches.
pub(super) fn never_read(rows: &[&RowAsks]) -> Vec<usize> {
    let mut dead = Vec::new();
    let (mut words, mut stretches, mut all): (Vec<&str>, Vec<Stretch>, bool) = (Vec::new(), Vec::new(), false);
    for (at, row) in rows.iter().enumerate() {
        let idle = match row {
            _ if all => true,
            RowAsks::Otherwise => false,
            RowAsks::Words(choice) => choice.iter().all(|word| words.contains(&word.words.as_str())),
            RowAsks::Number(bounds) => left(stretch(bounds), &stretches).is_empty(),
        };
        if idle {
            dead.push(at);
        }
        match row {
            RowAsks::Otherwise => all = true,
            RowAsks::Words(choice) => words.extend(choice.iter().map(|word| word.words.as_str())),
            RowAsks::Number(bounds) => stretches.push(stretch(bounds)),
        }
    }
    dead
}

/// Whether no whole number lies between two cuts.
fn holds_no_count(from: Cut, to: Cut) -> bool {
    let first = if from.after { from.at.value.floor() + 1.0 } else { from.at.value.ceil() };
    let last = if to.after { to.at.value.floor() } else { to.at.value.ceil() - 1.0 };
    first > last
}

/// Where no row of a table that goes by a number holds, between rows that do; `counts` says that there are only whole
/// numbers.
pub(super) fn gaps(rows: &[&RowAsks], counts: bool) -> Vec<Without> {
    let mut stretches = Vec::new();
    for row in rows {
        match row {
            RowAsks::Otherwise | RowAsks::Words(_) => return Vec::new(),
            RowAsks::Number(bounds) => stretches.push(stretch(bounds)),
        }
    }
    let between = left((None, None), &stretches).into_iter();
    let gaps = between.filter_map(|(from, to)| from.zip(to));
    let gaps = gaps.filter(|(from, to)| !counts || !holds_no_count(*from, *to));
    gaps.map(|(from, to)| {
        let one = measure::equal(from.at.value, to.at.value, from.at.dimension) && !from.after && to.after;
        match one {
            true => Without::At(from.at),
            false => Without::Between { from: from.at, over: from.after, to: to.at, up_to: to.after },
        }
    })
    .collect()
}

/// The words that no row of a table has, of those that there are.
pub(super) fn without_row<'w>(rows: &[&RowAsks], known: impl IntoIterator<Item = &'w str>) -> Vec<&'w str> {
    let has = |word: &str| {
        rows.iter().any(|row| match row {
            RowAsks::Otherwise => true,
            RowAsks::Words(choice) => choice.iter().any(|asked| asked.words == word),
            RowAsks::Number(_) => false,
        })
    };
    known.into_iter().filter(|word| !has(word)).collect()
}

/// The numbers that stand so to each of these figures.
fn stretch(bounds: &[(Relation, Measure, crate::base::Span)]) -> Stretch {
    let (mut low, mut high): Stretch = (None, None);
    for (relation, at, _) in bounds {
        let cut = |after| Some(Cut { at: *at, after });
        let (from, to) = match relation {
            Relation::Less => (None, cut(false)),
            Relation::AtMost => (None, cut(true)),
            Relation::More => (cut(true), None),
            Relation::AtLeast => (cut(false), None),
            Relation::Equal => (cut(false), cut(true)),
            Relation::Unequal => (None, None),
        };
        low = match (low, from) {
            (Some(low), Some(from)) => Some(if low.is_before(from) { from } else { low }),
            (low, from) => low.or(from),
        };
        high = match (high, to) {
            (Some(high), Some(to)) => Some(if high.is_before(to) { high } else { to }),
            (high, to) => high.or(to),
        };
    }
    (low, high)
}

/// What others leave of a stretch.
fn left(whole: Stretch, taken: &[Stretch]) -> Vec<Stretch> {
    let mut left = if is_empty(whole) { Vec::new() } else { vec![whole] };
    for (from, to) in taken {
        let mut rest = Vec::new();
        for piece in left {
            if let Some(from) = from {
                let below = (piece.0, Some(piece.1.filter(|end| end.is_before(*from)).unwrap_or(*from)));
                rest.extend((!is_empty(below)).then_some(below));
            }
            if let Some(to) = to {
                let above = (Some(piece.0.filter(|begin| to.is_before(*begin)).unwrap_or(*to)), piece.1);
                rest.extend((!is_empty(above)).then_some(above));
            }
        }
        left = rest;
    }
    left
}

fn is_empty(stretch: Stretch) -> bool {
    matches!(stretch, (Some(from), Some(to)) if to.is_before(from))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Span;

    fn row(bounds: &[(Relation, f64)]) -> RowAsks {
        let bound = |(relation, at): &(Relation, f64)| (*relation, Measure::number(*at), Span::default());
        RowAsks::Number(bounds.iter().map(bound).collect())
    }

    fn gaps_of(rows: &[RowAsks], counts: bool) -> Vec<Without> {
        gaps(&rows.iter().collect::<Vec<_>>(), counts)
    }

    fn between(from: f64, over: bool, to: f64, up_to: bool) -> Without {
        Without::Between { from: Measure::number(from), over, to: Measure::number(to), up_to }
    }

    #[test]
    fn a_gap_is_what_no_row_holds_between_two_that_do() {
        let (up_to, under, over, from) = (Relation::AtMost, Relation::Less, Relation::More, Relation::AtLeast);
        assert_eq!(gaps_of(&[row(&[(up_to, 49.0)]), row(&[(over, 100.0)])], false), [between(49.0, true, 100.0, true)]);
        assert_eq!(
            gaps_of(&[row(&[(under, 40.0)]), row(&[(over, 40.0)])], false),
            [Without::At(Measure::number(40.0))]
        );
        assert_eq!(gaps_of(&[row(&[(up_to, 40.0)]), row(&[(over, 40.0)])], false), []);
        // Of what is counted nothing lies between 49 and 50.
        let counted = [row(&[(up_to, 49.0)]), row(&[(from, 50.0), (up_to, 200.0)]), row(&[(over, 200.0)])];
        assert_eq!(gaps_of(&counted, true), []);
        assert_eq!(gaps_of(&counted, false), [between(49.0, true, 50.0, false)]);
        // Ends are no gaps: a rule may speak of a stretch alone.
        assert_eq!(gaps_of(&[row(&[(from, 10.0), (up_to, 20.0)])], false), []);
        assert_eq!(gaps_of(&[row(&[(up_to, 40.0)]), RowAsks::Otherwise], false), []);
    }

    #[test]
    fn a_row_is_never_read_where_those_before_it_hold_wherever_it_does() {
        let (up_to, over) = (Relation::AtMost, Relation::More);
        let dead = |rows: &[RowAsks]| never_read(&rows.iter().collect::<Vec<_>>());
        assert_eq!(dead(&[row(&[(up_to, 50.0)]), row(&[(up_to, 44.0)]), RowAsks::Otherwise]), [1]);
        assert_eq!(dead(&[row(&[(up_to, 44.0)]), row(&[(up_to, 50.0)]), RowAsks::Otherwise]), [0; 0]);
        assert_eq!(dead(&[row(&[(up_to, 44.0)]), row(&[(over, 40.0)]), row(&[(over, 43.0), (up_to, 60.0)])]), [2]);
        assert_eq!(dead(&[row(&[(over, 50.0), (up_to, 40.0)])]), [0]);
    }
}
