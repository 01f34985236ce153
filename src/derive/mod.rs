//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod catalogue;
mod datum;
mod door;
mod flight;
mod grip;
mod guard;
mod handrail;
mod joint;
mod missing;
mod overhead;
mod part;
mod place;
mod quantity;
mod side;
mod step;
mod stringer;
mod winder;
mod working;

pub use catalogue::{quantities, quantity};
pub use missing::{Drawing, FastenerPart, Method, Missing, Need, Reason, Statement, Undefined};
pub use place::unguarded_sides;
pub use quantity::{Asked, Derive, Gives, Quantity};
pub use working::{CUSTOMS, Custom, Datum, Derived, Input, Read, StatedRead, Worked, Working};
