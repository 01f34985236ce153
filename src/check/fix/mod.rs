//! What would pass: a change of the text that was tried, or a thing to draw.

mod draw;
mod offer;
mod redraw;
mod search;
mod seek;

pub use offer::{Drawn, Edit, Fix, Offer};
pub(super) use redraw::Redraw;

use super::view::CheckedView;
use crate::model::Id;
use crate::rules::{Decision, Rule};

/// What would pass, if anything is found.
pub(super) fn fix(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Fix> {
    match decision.lacking {
        Some(kind) => draw::draw(view, rule, kind, element, decision, search::search),
        None => search::search(view, rule, element, decision),
    }
}
