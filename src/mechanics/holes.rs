//! Holes for fasteners: how wide, by the wood's specific gravity and by the way of the load. NDS 2018, 12.1.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES};
use super::dowel::{Dowel, DowelKind};
use super::outside::{Lacking, Outside};
use super::working::{Working, given, step};
use crate::handbook::{self, Cited};

/// Which part of a fastener a hole is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The thread, or the whole of a nail.
    Thread,
    /// The shank above the thread.
    Shank,
}

/// How a screw is loaded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loaded {
    /// Pulled out.
    Withdrawal,
    /// Across its length.
    Lateral,
}

/// How wide a hole is to be; nothing where none is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleSize {
    /// From this on it is wide enough.
    pub least: Amount,
    /// Up to this it holds.
    pub most: Amount,
    /// Where it is from.
    pub cited: Cited,
}

/// The hole for a part of a fastener in wood of a specific gravity.
///
/// # Errors
///
/// Where the specific gravity is no number above nothing.
pub fn hole(
    w: &mut Working,
    dowel: &Dowel,
    part: Part,
    loaded: Loaded,
    gravity: f64,
) -> Result<Option<HoleSize>, Outside> {
    if !(gravity.is_finite() && gravity > 0.0) {
        return Err(Outside::Lacking(Lacking::Gravity));
    }
    let D = dowel.diameter;
    let fastener = match dowel.kind {
        DowelKind::Bolt => {
            let cited = Cited::seen("NDS 12.1.3.2");
            given!(w, D = D, "diameter", dowel.cited);
            step!(w, least = D + INCHES / 32.0, "least hole of a bolt", cited);
            step!(w, most = D + INCHES / 16.0, "largest hole of a bolt", cited);
            return Ok(Some(HoleSize { least, most, cited }));
        }
        DowelKind::Lag => "lag screw",
        DowelKind::WoodScrew => "wood screw",
        DowelKind::Nail => "nail",
    };
    let part = match part {
        Part::Thread if dowel.kind != DowelKind::Nail => "thread",
        Part::Thread | Part::Shank => "shank",
    };
    let load = match loaded {
        Loaded::Withdrawal => "withdrawal",
        Loaded::Lateral => "lateral",
    };
    let Some(row) = handbook::lead_hole(fastener, part, load, gravity) else { return Ok(None) };
    let of = if row.of == "root" { dowel.in_yield.ok_or(Outside::Lacking(Lacking::Root))? } else { D };
    given!(w, D = of, "diameter that the hole goes by", dowel.cited);
    given!(w, least_share = row.low, "least share of it", row.cited);
    given!(w, most_share = row.high, "largest share of it", row.cited);
    step!(w, least = least_share * D, "least hole", row.cited);
    step!(w, most = most_share * D, "largest hole", row.cited);
    Ok(Some(HoleSize { least, most, cited: row.cited }))
}
