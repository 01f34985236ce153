//! A joint of two or three members by bolts, screws or nails: what it takes across its fasteners, with every figure.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, least};
use super::dowel::{self, Against, Dowel, DowelKind};
use super::group::{Row, group_action};
use super::lateral::{self, Meets};
use super::outside::Outside;
use super::placing::{Grain, Stands, geometry};
use super::working::Working;
use super::yield_limit::{Bearing, Shear, reference};

/// One member of a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joined<'j> {
    /// What the fasteners bear against in it, and at which angle to its grain the load comes.
    pub against: Against,
    /// Its thickness along the fasteners.
    pub thickness: Amount,
    /// Where the fasteners stand in it; `None` of a steel plate, whose own distances are its maker's.
    pub stands: Option<Stands>,
    /// How the load can meet its grain.
    pub loads: &'j [Grain],
}

/// A joint under a load across its fasteners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joint<'j> {
    /// One of its fasteners.
    pub dowel: &'j Dowel,
    /// How many share the load.
    pub count: f64,
    /// The member that the point is in, or the middle one of three.
    pub main: Joined<'j>,
    /// The member under the head, or each of the two outer ones: the lesser.
    pub side: Joined<'j>,
    /// Whether one plane is sheared or two.
    pub shear: Shear,
    /// Length of the fastener under its head, where it is no bolt.
    pub length: Option<Amount>,
    /// The row with the most fasteners; `None` where each stands alone in its row.
    pub row: Option<Row>,
    /// How long the load lasts, how wet the joint is, how its fasteners enter.
    pub meets: Meets,
}

/// What a joint takes across its fasteners, all of them together. Its members lie on each other: a gap between them is outside
/// the yield equations, and the caller's to refuse.
///
/// # Errors
///
/// Where a fastener goes in too little, stands too near, or is one that no method serves.
pub fn lateral_value(w: &mut Working, joint: &Joint<'_>) -> Result<Amount, Outside> {
    let dowel = joint.dowel;
    let main_length = match (dowel.kind, joint.length) {
        (DowelKind::Bolt, _) => joint.main.thickness,
        (_, Some(length)) => {
            let goes_in = length - joint.side.thickness;
            w.part("penetration", |w| dowel::main_length(w, dowel, goes_in, joint.main.thickness))?
        }
        (_, None) => return Err(Outside::NothingThere),
    };
    let main = Bearing { against: joint.main.against, length: main_length };
    let side = Bearing { against: joint.side.against, length: joint.side.thickness };
    let Z = reference(w, dowel, main, side, joint.shear)?;
    let C_g = match &joint.row {
        Some(row) => w.part("group", |w| group_action(w, row))?,
        None => Amount::number(1.0),
    };
    let mut C_delta = Amount::number(1.0);
    for (part, joined) in [("place in the main member", &joint.main), ("place in the side member", &joint.side)] {
        if let Some(stands) = &joined.stands {
            C_delta = least(C_delta, w.part(part, |w| geometry(w, stands, joined.loads))?);
        }
    }
    w.part("joint", |w| lateral::adjusted(w, Z, dowel.diameter, C_g, C_delta, joint.count, joint.meets))
}
