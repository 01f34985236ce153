//! Section properties: area, section modulus, moment of inertia, about the axis that the load bends it on.
#![allow(non_snake_case, reason = "symbols as the handbooks write them")]

use super::amount::{Amount, cubed, fourth, squared};
use super::outside::Outside;
use super::working::{Working, given, step};
use crate::handbook::Cited;

/// A section as it lies under its load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Section {
    /// A rectangle.
    Rectangle {
        /// Square to the load.
        width: Amount,
        /// Along the load.
        depth: Amount,
    },
    /// A circle.
    Round {
        /// Its diameter.
        diameter: Amount,
    },
}

/// The properties of a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    /// Its area, `A`.
    pub area: Amount,
    /// Its section modulus, `S`.
    pub modulus: Amount,
    /// Its moment of inertia, `I`.
    pub inertia: Amount,
    /// Along the load.
    pub depth: Amount,
    /// The width that counts in shear: `2/3 of it x depth` carries the shear.
    pub width: Amount,
}

const GEOMETRY: Cited = Cited::derived("statics");

impl Section {
    /// A piece on edge: its thickness square to the load.
    pub fn on_edge(thickness: Amount, depth: Amount) -> Self {
        Self::Rectangle { width: thickness, depth }
    }

    /// A piece laid flat: its thickness along the load.
    pub fn flat(thickness: Amount, width: Amount) -> Self {
        Self::Rectangle { width, depth: thickness }
    }

    /// Its properties.
    ///
    /// # Errors
    ///
    /// Where a size of it is nothing.
    pub fn properties(self, w: &mut Working) -> Result<Properties, Outside> {
        match self {
            Self::Rectangle { width, depth } => {
                if !(width.is_positive() && depth.is_positive()) {
                    return Err(Outside::NothingThere);
                }
                given!(w, b = width, "width, square to the load", Cited::STATED);
                given!(w, d = depth, "depth, along the load", Cited::STATED);
                step!(w, A = b * d, "area", GEOMETRY);
                step!(w, S = b * squared(d) / 6.0, "section modulus", GEOMETRY);
                step!(w, I = b * cubed(d) / 12.0, "moment of inertia", GEOMETRY);
                Ok(Properties { area: A, modulus: S, inertia: I, depth: d, width: b })
            }
            Self::Round { diameter } => {
                if !diameter.is_positive() {
                    return Err(Outside::NothingThere);
                }
                let pi = std::f64::consts::PI;
                given!(w, d = diameter, "diameter", Cited::STATED);
                step!(w, A = pi * squared(d) / 4.0, "area", GEOMETRY);
                step!(w, S = pi * cubed(d) / 32.0, "section modulus", GEOMETRY);
                step!(w, I = pi * fourth(d) / 64.0, "moment of inertia", GEOMETRY);
                // A circle's shear is 4/3 V/A, a rectangle's 3/2 V/A: as wide a rectangle that shears alike.
                step!(w, b = 9.0 * A / (8.0 * d), "width that shears alike", GEOMETRY);
                Ok(Properties { area: A, modulus: S, inertia: I, depth: d, width: b })
            }
        }
    }
}
