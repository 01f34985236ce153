//! Pitchboard.
pub mod base;
pub mod measure;
pub mod derive;
pub mod model;
pub mod syntax;
