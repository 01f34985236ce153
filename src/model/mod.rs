//! Tree to stated design: what is drawn, and what is stated of it. Nothing is derived here.

mod belonging;
mod build;
mod design;
mod excuses;
mod expand;
pub mod fastenings;
pub mod finishes;
mod in_units;
mod kind;
mod named;
#[cfg(feature = "cli")]
mod notation;
mod only_where;
mod path;
mod phrases;
pub mod problem;
mod proportion;
mod read;
pub mod redefined;
mod shop;
pub mod sizes;
pub mod spelling;
pub mod timbers;
pub mod trade;
mod value;
pub mod vocabulary;
mod waiver;

#[cfg(feature = "internals")]
pub use build::build;
#[cfg(feature = "cli")]
pub use build::build_fragment;
pub use build::{Stair, build_below, build_shop};
pub use design::{Design, Element, Id, SectionName, ShopWords, Side, Stated};
pub use excuses::{ASKED_BY_NAME, EXCUSES};
pub use in_units::in_units;
#[cfg(feature = "cli")]
pub use kind::FILE;
pub use kind::{Basis, Kind, Property, PropertyName, PropertyNames, Range, Takes, Trait};
#[cfg(feature = "cli")]
pub use notation::NOTATIONS;
#[cfg(feature = "internals")]
pub use notation::Notation;
pub use problem::Problem;
#[cfg(feature = "internals")]
pub use proportion::ranges;
pub use read::example;
#[cfg(feature = "internals")]
pub use shop::{Folder, StockedSection, StockedTimber, nominal};
pub use shop::{SHOP_FILE, Shop};
pub use value::{Balusters, Edge, Fasteners, ListItem, Recess, Section, Shape, Timber, Value};
#[cfg(feature = "cli")]
pub use vocabulary::SHOP_KINDS;
pub(crate) use vocabulary::same;
pub use vocabulary::{
    AWAY_FROM_THE_STEPS, BEGINNINGS, IN_THE_CENTRE, INFILLS, INTERRUPTIONS, KINDS, kinds, properties,
};
pub use waiver::Waiver;
