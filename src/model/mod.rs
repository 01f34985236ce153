//! Tree to stated design: what is drawn, and what is stated of it. Nothing is derived here.

mod build;
mod design;
mod kind;
mod notation;
mod path;
pub mod problem;
mod read;
mod shop;
pub mod sizes;
pub mod timbers;
mod value;
pub mod vocabulary;

pub use build::{Stair, build, build_below, build_fragment, build_shop};
pub use design::{Design, Element, Id, SectionName, ShopWords, Side, Stated};
pub use kind::{FILE, Kind, Property, PropertyName, Takes, Trait};
pub use notation::{NOTATIONS, Notation};
pub use problem::Problem;
pub use read::example;
pub use shop::{Folder, SHOP_FILE, Shop, StockedSection, StockedTimber, nominal};
pub use value::{Balusters, Edge, Fasteners, ListItem, Recess, Section, Shape, Timber, Value};
pub(crate) use vocabulary::same;
pub use vocabulary::{KINDS, SHOP_KINDS, kinds, properties};
