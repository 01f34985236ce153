//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod catalogue;
mod flight;
mod guard;
mod handrail;
mod joint;
mod place;
mod quantity;
mod step;
mod stringer;
mod working;

pub use catalogue::{quantities, quantity};
pub use quantity::{Gives, Quantity};
pub use working::{CUSTOMS, Custom, Datum, Derived, Input, Missing, Read, StatedRead, Worked, Working};
