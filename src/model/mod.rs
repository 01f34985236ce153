//! Tree to stated design: what is drawn, and what is stated of it. Nothing is derived here.

mod build;
mod design;
mod notation;
mod read;
pub mod sizes;
pub mod timbers;
mod value;
pub mod vocabulary;

pub use build::{Stair, build, build_fragment};
pub use design::{Design, Element, Id, Side, Stated};
pub use notation::{NOTATIONS, Notation};
pub use read::{example, takes};
pub use value::{Balusters, Edge, Fasteners, ListItem, Recess, Section, Shape, Timber, Value};
pub use vocabulary::{KINDS, Kind, Property, Takes};
