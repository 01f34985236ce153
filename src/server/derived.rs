//! The quantities of a design by the words that they are worked from.

use std::rc::Rc;

use crate::base::{Source, Span};
use crate::derive::{Datum, Evaluation, Input, Read, Worked, quantities};
use crate::measure::print;
use crate::model::{Design, Id, kinds};

/// The quantities of an element as drawn that are known, but for those that are asked at a place.
pub(super) fn of(evaluation: &Evaluation<'_>, id: Id) -> Vec<Rc<Worked>> {
    let design = evaluation.design;
    let part = design.get(id).is_some_and(crate::model::Element::is_part);
    let own = quantities().filter(|entry| design.is(id, entry.kind) || part && entry.kind == kinds::PART);
    let worked = own.filter(|entry| !entry.at_a_place()).map(|entry| evaluation.work(id, entry, None));
    worked.filter(|worked| worked.result.is_ok()).collect()
}

/// Those of an element that read these words themselves, not by way of another quantity.
pub(super) fn from_words(evaluation: &Evaluation<'_>, id: Id, words: Span) -> Vec<Rc<Worked>> {
    let reads = |worked: &Rc<Worked>| {
        let mut reads = worked.reads.iter();
        reads.any(
            |read| matches!(read.input, Input::Stated { span, .. } if span.start < words.end && words.start < span.end),
        )
    };
    of(evaluation, id).into_iter().filter(reads).collect()
}

/// Numbers that follow from the words of one statement alone, at those words: the first that is not nothing, and does
/// not stand in the words themselves, by the order of the catalogue.
pub(super) fn numbers(evaluation: &Evaluation<'_>, source: &Source) -> Vec<(Span, Rc<Worked>)> {
    let design = evaluation.design;
    let mut found: Vec<(Span, Rc<Worked>)> = Vec::new();
    for id in 0..design.drawn {
        for worked in of(evaluation, id) {
            let [Read { input: Input::Stated { span, measured: false, .. }, .. }] = worked.reads.as_slice() else {
                continue;
            };
            let Ok(Datum::Measure(value)) = &worked.result else { continue };
            let is_new = value.value != 0.0 && !source.slice(*span).contains(&print(*value));
            if is_new && is_own(design, id, *span) && !found.iter().any(|(known, _)| known == span) {
                found.push((*span, worked));
            }
        }
    }
    found
}

/// Whether words of the design itself state a property of the element.
fn is_own(design: &Design, id: Id, words: Span) -> bool {
    design
        .get(id)
        .is_some_and(|element| element.stated.iter().any(|stated| stated.span == words && stated.shop.is_none()))
}
