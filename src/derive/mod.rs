//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod ask;
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

pub use ask::NotAnswered;
pub use catalogue::{quantities, quantity};
pub use missing::{Drawing, FastenerPart, Method, Missing, Need, Reason, Statement, Undefined};
pub use place::unguarded_sides;
#[cfg(feature = "internals")]
pub use quantity::{Asked, Derive};
pub use quantity::{Gives, Quantity};
#[cfg(feature = "cli")]
pub use working::{CUSTOMS, Input, Worked};
#[cfg(feature = "internals")]
pub use working::{Custom, Derived};
pub use working::{Datum, Read, StatedRead, Working};
