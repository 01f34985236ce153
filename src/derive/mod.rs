//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod catalogue;
mod flight;
mod guard;
mod handrail;
mod joint;
mod place;
mod step;
mod stringer;
mod working;

pub use catalogue::{Gives, Quantity, quantities, quantity};
pub use working::{CUSTOMS, Custom, Datum, Derived, Input, Missing, Read, StatedRead, Worked, Working};
