//! What would pass: a change of the text that was tried, or a thing to draw.

mod draw;
mod offer;
mod redraw;
mod search;
mod seek;

pub use offer::{Drawn, Edit, Fix, Offer};
pub(super) use redraw::Redraw;

use super::view::CheckedView;
use crate::model::{Id, Kind, Trait};
use crate::rules::{Decision, Rule};

/// What would pass, if anything is found.
pub(super) fn fix(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Fix> {
    match decision.lacking {
        // One is drawn, and stands for every step: a second block of it is no cure, another figure of the first may be.
        Some(kind) if !decision.counted && is_drawn_for_all(view, kind, element) => {
            search::search(view, rule, element, decision)
        }
        Some(kind) => draw::draw(view, rule, kind, element, decision, search::search),
        None => search::search(view, rule, element, decision),
    }
}

fn is_drawn_for_all(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> bool {
    let flight = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    kind.is(Trait::OneForEachFlight) && view.design.belonging(kind, flight.unwrap_or(element)).next().is_some()
}
