//! What would pass: a change of the text that was tried, or a thing to draw.

mod draw;
mod offer;
mod redraw;
mod search;
mod seek;

pub use offer::{Drawn, Edit, Fix, Offer};
pub(super) use redraw::Redraw;
pub(super) use search::search;
