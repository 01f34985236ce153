//! Stated values to quantities, on demand and remembered, each with what it was derived from.

mod absent;
mod ask;
mod bearing;
mod belonging;
mod catalogue;
mod coating;
mod column;
mod custom;
mod datum;
mod door;
mod evaluation;
mod fastened;
mod fastener_group;
mod flight;
mod formula;
mod gate;
mod grip;
mod guard;
mod guard_posts;
mod handrail;
mod header;
mod joint;
mod joint_strength;
mod joist;
mod load;
mod measured;
mod member;
mod missing;
mod origin;
mod overhead;
mod part;
mod place;
mod push;
mod quantity;
mod reading;
mod section;
mod side;
mod step;
mod string_ends;
mod stringer;
mod trace;
mod tread_ends;
mod turned;
mod winder;

pub use ask::NotAnswered;
pub use catalogue::{asked_at, quantities, quantities_of, quantity};
#[cfg(feature = "cli")]
pub use custom::CUSTOMS;
pub use custom::{Behind, Custom, CustomId, Units};
pub use datum::Datum;
#[cfg(feature = "internals")]
pub use datum::Derived;
pub use evaluation::Evaluation;
#[cfg(feature = "internals")]
pub use formula::Derive;
pub use missing::{Classes, Drawing, FastenerPart, Method, Missing, Need, NoNumber, Reason, Statement, Undefined};
pub use origin::StatedRead;
pub use place::{going_up, unguarded_sides};
pub use quantity::{Asked, Gives, Quantity};
pub use trace::Input;
#[cfg(feature = "cli")]
pub use trace::Worked;
pub use trace::{Read, Reads};
