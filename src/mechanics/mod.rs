//! The mechanics of members, fasteners and joints of timber: demands, capacities and what is between them.
//!
//! Allowable stress design by the NDS. A method takes amounts with their dimensions, notes every figure in a [`Working`], and
//! gives a value, or [`Outside`]: why it has none. It never gives a number outside what it covers. Nothing here knows a
//! design: what is stated is handed in.
//!
//! What is worked here is a check of drawings, no more: local codes, the authority that has jurisdiction and licensed practice
//! decide.

#![cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]

pub mod adjusted;
pub mod amount;
pub mod beam;
pub mod bolt;
pub mod column;
pub mod demand;
pub mod dowel;
pub mod gravity;
pub mod group;
pub mod guard_post;
pub mod header;
pub mod holes;
pub mod joint;
pub mod lateral;
pub mod local;
pub mod moisture;
pub mod notch;
mod outside;
pub mod overturning;
pub mod placing;
pub mod section;
pub mod stringer;
pub mod withdrawal;
mod working;
pub mod yield_limit;

pub use amount::Amount;
pub use gravity::SpecificGravity;
pub use outside::{Lacking, Outside, Placed};
#[cfg(feature = "cli")]
pub use working::Step;
pub use working::{Assumption, Working};
