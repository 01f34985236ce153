//! Where fasteners stand in a member: least distances, and the geometry factor for what is less than full. NDS 12.5.1.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, greatest};
use super::outside::{Lacking, Outside, Placed};
use super::working::{Working, found, given};
use crate::handbook::{self, Cited, Distance};

/// How the load on a fastener meets the grain of a member.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// Along the grain, toward the end that the fastener is near.
    TowardEnd,
    /// Along the grain, away from that end.
    AwayFromEnd,
    /// Across the grain.
    Across,
}

/// Of which sort of tree the member is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hardness {
    /// A conifer.
    Softwood,
    /// A broad-leaved tree.
    Hardwood,
}

/// Where the fasteners of a joint stand in one member. What is not there is `None`: one fastener has no spacing. What is
/// there and was not stated is no matter for this: the caller says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stands {
    /// Nominal diameter.
    pub diameter: Amount,
    /// Of which sort of tree the member is.
    pub hardness: Hardness,
    /// Along the grain to the end.
    pub end: Option<Amount>,
    /// Square to the grain to the edge that the load presses towards; the lesser where it turns round.
    pub loaded_edge: Option<Amount>,
    /// To the other edge.
    pub unloaded_edge: Option<Amount>,
    /// To the next in the row, centre to centre.
    pub spacing: Option<Amount>,
    /// To the next row.
    pub rows: Option<Amount>,
    /// Length in the main member and in the side members together.
    pub lengths: (Amount, Amount),
}

/// What a distance has to be: below `least` nothing is permitted, from `full` on the geometry factor is 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Needed {
    /// Which distance.
    pub placed: Placed,
    /// Below this nothing is permitted.
    pub least: Amount,
    /// From this on the value is whole.
    pub full: Amount,
    /// Where it is from.
    pub cited: Cited,
}

const LARGE: &str = "1/4 in and over";
const SMALL: &str = "under 1/4 in";
const GEOMETRY: Cited = Cited::memory("NDS 12.5.1.2");

fn load_word(grain: Grain, placed: Placed) -> &'static str {
    match (placed, grain) {
        (Placed::End, Grain::TowardEnd) => "along, toward the end",
        (Placed::End, Grain::AwayFromEnd) => "along, away from the end",
        (_, Grain::TowardEnd | Grain::AwayFromEnd) => "along the grain",
        (_, Grain::Across) => "across the grain",
    }
}

fn row(distance: &str, load: &str, hardness: Hardness) -> Result<&'static Distance, Outside> {
    let member = match hardness {
        Hardness::Softwood => "softwood",
        Hardness::Hardwood => "hardwood",
    };
    handbook::distance(LARGE, distance, load, member, "-").ok_or(Outside::Lacking(Lacking::Distance))
}

/// The slenderness of a fastener, `l/D`: the lesser of its length in the main member and in the side members together.
pub fn slenderness(stands: &Stands) -> f64 {
    let (main, side) = stands.lengths;
    (super::amount::least(main, side) / stands.diameter).plain()
}

/// What a distance has to be for fasteners of 1/4 in and over, under a load that meets the grain in a way.
///
/// # Errors
///
/// Where the table does not hold it, or the slenderness is no number.
pub fn needed(stands: &Stands, placed: Placed, grain: Grain) -> Result<Needed, Outside> {
    let D = stands.diameter;
    let across = grain == Grain::Across;
    let load = load_word(grain, placed);
    let of = |name: &str| {
        let row = row(name, load, stands.hardness)?;
        Ok(Needed { placed, least: row.least * D, full: row.full * D, cited: row.cited })
    };
    let slender = slenderness(stands);
    if !slender.is_finite() || slender <= 0.0 {
        return Err(Outside::Undefined);
    }
    match placed {
        Placed::End => of("end"),
        Placed::Spacing => of("spacing"),
        Placed::LoadedEdge if across => of("loaded edge"),
        Placed::UnloadedEdge if across => of("unloaded edge"),
        Placed::LoadedEdge | Placed::UnloadedEdge => {
            let edge = of("edge")?;
            // Slender bolts loaded along the grain want half the distance of their rows, where that is more.
            let half = stands.rows.filter(|_| slender > 6.0).map(|rows| rows / 2.0);
            let least = half.map_or(edge.least, |half| greatest(edge.least, half));
            Ok(Needed { least, full: least, ..edge })
        }
        Placed::Rows if across => {
            let cited = Cited::memory("NDS Table 12.5.1D");
            let (main, side) = stands.lengths;
            let l = super::amount::least(main, side);
            let least = if slender <= 2.0 {
                2.5 * D
            } else if slender < 6.0 {
                (5.0 * l + 10.0 * D) / 8.0
            } else {
                5.0 * D
            };
            Ok(Needed { placed, least, full: least, cited })
        }
        Placed::Rows => of("rows"),
    }
}

/// The geometry factor, `C_delta`, of fasteners in one member under loads that meet its grain in these ways: the least over
/// all distances. It is 1 of fasteners under 1/4 in, whose distances are a matter of splitting.
///
/// # Errors
///
/// Where a distance is below the least that is permitted, and the first such.
pub fn geometry(w: &mut Working, stands: &Stands, loads: &[Grain]) -> Result<Amount, Outside> {
    if stands.diameter.per(INCHES) < 0.25 - 1e-6 {
        return Ok(w.given("C_delta", "geometry: under 1/4 in", 1.0, GEOMETRY));
    }
    let placed = [
        ("c_end", "end distance over the full one", Placed::End, stands.end),
        ("c_loaded", "distance to the loaded edge over the full one", Placed::LoadedEdge, stands.loaded_edge),
        ("c_unloaded", "distance to the other edge over the full one", Placed::UnloadedEdge, stands.unloaded_edge),
        ("c_spacing", "spacing over the full one", Placed::Spacing, stands.spacing),
        ("c_rows", "distance of the rows over the full one", Placed::Rows, stands.rows),
    ];
    let mut shares = vec![("1", Amount::number(1.0))];
    for (symbol, name, placed, actual) in placed {
        let Some(actual) = actual else { continue };
        for grain in loads {
            let needed = needed(stands, placed, *grain)?;
            if actual.is_below(needed.least) || !actual.is_finite() {
                return Err(Outside::TooNear(placed));
            }
            given!(w, a = actual, "as it stands", Cited::STATED);
            given!(w, a_full = needed.full, "full distance", needed.cited);
            let share = w.step(symbol, name, "a / a_full", a / a_full, needed.cited);
            shares.push((symbol, share));
        }
    }
    found(w.least("C_delta", "geometry", &shares, GEOMETRY))
}

/// The recommended distance for a small fastener, nail or wood screw, by the words of the table.
///
/// # Errors
///
/// Where the table does not hold it.
pub fn small(
    diameter: Amount,
    distance: &str,
    load: &str,
    side_member: SideMember,
    hole: Hole,
) -> Result<(Amount, Cited), Outside> {
    let member = match side_member {
        SideMember::Wood => "wood",
        SideMember::SteelPlate => "steel plate",
    };
    let hole = match hole {
        Hole::NotBored => "not bored",
        Hole::Bored => "bored",
    };
    let row = handbook::distance(SMALL, distance, load, member, hole);
    let row = row.ok_or(Outside::Lacking(Lacking::Distance))?;
    Ok((row.least * diameter, row.cited))
}

/// What a small fastener goes through first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SideMember {
    /// Wood.
    Wood,
    /// A steel plate.
    SteelPlate,
}

/// Whether the hole of a small fastener was bored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hole {
    /// Driven into whole wood.
    NotBored,
    /// Bored.
    Bored,
}
