//! Tables of the trade and of standards: sizes, gravities, design values, fasteners, distances. Each is a file of
//! `rulesets/tables/`, read once, and each row says its edition, its source and how sure it is.
//!
//! Figures are as the tables print them: inches, pounds on a square inch, plain numbers. Nothing here works anything
//! out. A figure that a table does not hold is `None`, never a guess.

#![cfg_attr(not(feature = "internals"), allow(dead_code, unused_imports, reason = "tests read every table"))]

mod cited;
mod coatings;
mod factors;
mod fasteners;
mod lumber;
mod placing;
mod shrinkage;
mod species;
mod table;
mod values;

pub use cited::{Certainty, Cited};
pub use coatings::{COATINGS, Coating, RICH_IN_TANNIN, Stands as CoatingStands, WoodFor, coating};
pub use factors::{FACTORS, Factor, factor};
pub use fasteners::{
    BOLTS, Bolt, CARRIAGE_HEADS, CarriageHead, LAG_SCREWS, LagScrew, NAILS, Nail, WASHERS, WOOD_SCREWS, Washer,
    WasherShape, WoodScrew, YIELD_STRENGTHS, YieldStrength, by_diameter, yield_strength,
};
pub use lumber::{
    LUMBER_SIZES, LumberClass, LumberSize, Surface, Way, actual, called, nominal_thickness, widths_about,
};
pub use placing::{DISTANCES, Distance, LEAD_HOLES, LeadHole, distance, lead_hole};
pub use shrinkage::{SHRINKAGE, Shrinkage};
pub use species::{GRAVITIES, Gravity, gravity};
pub use table::Rows;
pub use values::{DESIGN_VALUES, DesignValues, IN_FORCE, Table, design_values, design_values_of};
