//! Tree to stated design: what is drawn, and what is stated of it. Nothing is derived here.

mod build;
mod design;
mod read;
mod sizes;
mod value;
pub mod vocabulary;

pub use build::{Stair, build, build_fragment};
pub use design::{Design, Element, Id, Side, Stated};
pub use value::{Balusters, Edge, Fasteners, ListItem, Section, Shape, Timber, Value};
pub use vocabulary::{KINDS, Kind, Property, Takes};
