//! What would pass: a change of the text that was tried, or a thing to draw.

mod compose;
mod draw;
mod offer;
mod redraw;
mod search;
mod seek;
mod together;
mod tried;

pub(super) use offer::Tried;
pub use offer::{Drawn, Edit, Fix, Offer};
pub(super) use redraw::{MOST_READ_AGAIN, Redraw};

use super::view::CheckedView;
use crate::model::Id;
use crate::rules::{Decision, Rule};

/// What would pass, if anything is found: one change that breaks nothing, else two that together break nothing, else
/// one change and what it breaks. Each is written into the text, which is read and checked again.
pub(super) fn fix(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Fix> {
    let mut held = Vec::new();
    for single in together::singles(view, rule, element, decision) {
        if view.is_given_up() {
            return None;
        }
        let Some(single) = tried::confirmed(view, rule, element, single) else { continue };
        if single.is_clean() {
            return Some(single);
        }
        held.push(single);
    }
    let two = together::two(view, rule, element, decision, &held);
    two.or_else(|| held.into_iter().find(Fix::serves))
}
