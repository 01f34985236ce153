//! What was measured beside what was drawn: how finely and by whom, and how far the one is off the other where a list
//! states it.

use super::datum::Derived;
use super::evaluation::{Evaluation, word};
use super::formula::Derive;
use super::missing::{Missing, Statement};
use super::quantity::{Gives, LENGTH, Quantity, ROW};
use super::reading::values;
use crate::model::{Id, PropertyName, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STAIR,
        name: "grain",
        gives: LENGTH,
        help: "the finest mark to which what was measured of it was read; of several blocks the coarsest",
        formula: "read to of what was measured; of several blocks the coarsest",
        source: "what was measured",
        derive: Derive::Whole(|w, id| {
            measured(w, id, properties::READ_TO)?;
            w.datum(id, properties::READ_TO)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "measurements signed",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether each block of measured figures says who measured, and when",
        formula: "yes where by and on are stated",
        source: "what was measured",
        derive: Derive::Whole(|w, id| {
            for property in [properties::BY, properties::ON] {
                if w.looked_up(id, property).is_none() {
                    measured_at_all(w, id)?;
                    return word("no");
                }
                w.value(id, property)?;
            }
            word("yes")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "height off the drawing",
        gives: LENGTH,
        help: "how far the measured height that is farthest off is from the drawn one",
        formula: "largest of measured height - drawn height, either way",
        source: "what was measured",
        derive: Derive::Whole(height_off_the_drawing),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "height off the drawing",
        gives: LENGTH,
        help: "how far the measured height that is farthest off is from the drawn one",
        formula: "largest of measured height - drawn height, either way",
        source: "what was measured",
        derive: Derive::Whole(height_off_the_drawing),
        ..ROW
    },
];

/// Height by height; one height stands for all of them.
fn height_off_the_drawing(w: &Evaluation<'_>, id: Id) -> Derived {
    let is_measured = w.looked_up(id, properties::HEIGHT).is_some_and(|height| height.measured);
    let as_drawn = w.drawn().filter(|_| is_measured).ok_or_else(|| Missing::not_measured(id))?;
    let measured = w.list(id, properties::HEIGHT)?;
    let drawn = as_drawn.list(id, properties::HEIGHT);
    w.looks_up_as(&as_drawn);
    let drawn = drawn?;
    let many = measured.len().max(drawn.len());
    let mut farthest = 0.0_f64;
    for (measured, drawn) in for_each(values(measured), many).zip(for_each(values(drawn), many)) {
        farthest = farthest.max((measured - drawn).abs());
    }
    w.length(farthest)
}

/// The values of a list that has so many; a single one again and again.
fn for_each(list: impl ExactSizeIterator<Item = f64> + Clone, many: usize) -> impl Iterator<Item = f64> {
    let times = if list.len() == 1 { many } else { 1 };
    std::iter::repeat_n(list, times).flatten()
}

/// Whether anything was measured of a stair; the first figure of it is read.
fn measured_at_all(w: &Evaluation<'_>, stair: Id) -> Result<(), Missing> {
    w.looks_up_all();
    if w.design.as_drawn.is_none() {
        return Err(Missing::not_measured(stair));
    }
    w.read_measured();
    Ok(())
}

/// Whether the blocks of what was measured state a property of their own.
fn measured(w: &Evaluation<'_>, stair: Id, property: PropertyName) -> Result<(), Missing> {
    if w.looked_up(stair, property).is_some() {
        return Ok(());
    }
    measured_at_all(w, stair)?;
    Err(Missing::statement(stair, Statement::OfBlock(property, kinds::MEASURED)))
}
