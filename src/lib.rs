//! Pitchboard.
pub mod base;
pub mod measure;
pub mod syntax;
