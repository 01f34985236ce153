//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod catalogue;
mod custom;
mod datum;
mod door;
mod evaluation;
mod flight;
mod grip;
mod guard;
mod handrail;
mod joint;
mod missing;
mod origin;
mod overhead;
mod part;
mod place;
mod quantity;
mod reading;
mod side;
mod step;
mod stringer;
mod trace;
mod winder;

pub use catalogue::{quantities, quantity};
pub use custom::{Behind, CUSTOMS, Custom, CustomId};
pub use datum::{Datum, Derived};
pub use evaluation::Evaluation;
pub use missing::{Drawing, FastenerPart, Method, Missing, Need, Reason, Statement, Undefined};
pub use origin::StatedRead;
pub use place::unguarded_sides;
pub use quantity::{Asked, Derive, Gives, Quantity};
pub use trace::{Input, Read, Reads, Worked};
