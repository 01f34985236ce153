//! The mechanics of members, fasteners and joints of timber: demands, capacities and what is between them.
//!
//! Allowable stress design by the NDS. A method takes amounts with their dimensions, notes every figure in a [`Working`], and
//! gives a value, or [`Outside`]: why it has none. It never gives a number outside what it covers. Nothing here knows a
//! design: what is stated is handed in.
//!
//! What is worked here is a check of drawings, no more: local codes, the authority that has jurisdiction and licensed practice
//! decide.

#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod adjusted;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod amount;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod beam;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod bolt;
pub mod demand;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod dowel;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod group;
pub mod guard_post;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod holes;
pub mod joint;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod lateral;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod local;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod moisture;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod notch;
mod outside;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod overturning;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod placing;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod section;
pub mod stringer;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod withdrawal;
mod working;
#[cfg_attr(not(feature = "internals"), allow(dead_code, reason = "in part read by tests alone"))]
pub mod yield_limit;

pub use amount::Amount;
pub use outside::{Lacking, Outside, Placed};
#[cfg(feature = "cli")]
pub use working::Step;
pub use working::{Assumption, Working};
