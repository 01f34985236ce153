//! A group of fasteners in the members that it goes through: it is one group, whichever of them it is measured in.

use super::evaluation::Evaluation;
use super::flight::PITCH;
use super::formula::Derive;
use super::guard_posts::rail_depth;
use super::joint::{joined, target};
use super::missing::{Drawing, Method, Missing};
use super::quantity::{GEOMETRY, LENGTH, Quantity, ROW};
use super::reading::values;
use crate::model::{Id, Trait, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::JOINT,
        name: "group apart",
        gives: LENGTH,
        help: "how far the next fastener, as it is spaced in one member, stands from where it is as it is spaced in the other",
        formula: "distance between (spacing, row spacing) of one member, turned by the angle between the two, and that of the \
            other; where the angle is not known, the difference of their lengths; of a tread on a notched string spacing in the one is \
            row spacing in the other, level or along the slope",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let mut farthest = 0.0_f64;
            if w.fasteners(id)?.count > 1.0 {
                let mut steps: Vec<(Id, Step)> = Vec::new();
                w.each(w.things(kinds::MEMBER, id)?, |member| {
                    steps.push((member, step(w, member)?));
                    Ok(())
                })?;
                for (first, second) in steps.iter().zip(steps.iter().skip(1)) {
                    farthest = farthest.max(apart(w, id, *first, *second)?);
                }
            }
            w.length(farthest)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "group across",
        gives: LENGTH,
        help: "how far its fasteners reach square to the grain, where they stand in one line",
        formula: "row spacing x (fastener count - 1)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let rows = w.number(id, properties::ROW_SPACING)?;
            let joint = w.parent(id);
            let count = w.fasteners(joint)?.count;
            if count > 2.0 && !in_one_line(w, joint)? {
                return Err(Missing::outside(joint, Method::GroupInOneLine));
            }
            w.length(rows * (count - 1.0).max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "wood beneath",
        gives: LENGTH,
        help: "how wide, along a tread, the edge of the notched stringer is that its fasteners go down into",
        formula: "the lesser way of section of the notched stringer",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stringer = beneath(w, id)?;
            w.length(w.section(stringer)?.thickness)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "outer string inward",
        gives: LENGTH,
        help: "from the end of a tread that is nearer to its stringer, to the inner face of that, at the most",
        formula: "(length of the tread - (count - 1) x spacing of the stringers + the lesser way of section) / 2",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stringer = beneath(w, id)?;
            let between = (w.number(stringer, properties::COUNT)? - 1.0) * w.number(stringer, properties::SPACING)?;
            let long = w.number(target(w, id)?, properties::LENGTH)?;
            w.length((long - between + w.section(stringer)?.thickness) / 2.0)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "post top",
        gives: LENGTH,
        help: "how high a post reaches that carries its rail, above what its height is measured from",
        formula: "largest height - the larger way of section, or 5-1/2\" where that is not stated: a rail is no deeper",
        source: "geometry; the rail that is not stated is common practice",
        derive: Derive::Whole(|w, id| {
            let highest = values(w.list(id, properties::HEIGHT)?).fold(0.0, f64::max);
            w.length(highest - rail_depth(w, id)?)
        }),
        ..ROW
    },
];

/// From one fastener to the next, along the grain of a member and square to it. Nanometres.
type Step = (f64, f64);

fn step(w: &Evaluation<'_>, member: Id) -> Result<Step, Missing> {
    Ok((w.number(member, properties::SPACING)?, w.number(member, properties::ROW_SPACING)?))
}

/// Whether one of the two is nothing: what stands in a line along one member stands in a line in the other.
fn is_line((along, across): Step) -> bool {
    along == 0.0 || across == 0.0
}

/// Whether the fasteners of a joint stand in one line.
fn in_one_line(w: &Evaluation<'_>, joint: Id) -> Result<bool, Missing> {
    let mut line = false;
    let known = w.each(w.things(kinds::MEMBER, joint)?, |member| {
        line |= is_line(step(w, member)?);
        Ok(())
    });
    if line { Ok(true) } else { known.map(|()| false) }
}

/// How far the next fastener is by one member from where it is by the other.
fn apart(w: &Evaluation<'_>, joint: Id, first: (Id, Step), second: (Id, Step)) -> Result<f64, Missing> {
    let ((one, (along, across)), (other, to)) = (first, second);
    if let Some(apart) = in_plan(w, first, second)? {
        return Ok(apart);
    }
    let angle = angle(w, joint, one, other)?;
    let Some(angle) = angle else {
        return Ok((along.hypot(across) - to.0.hypot(to.1)).abs());
    };
    let square = angle == 0.0 || angle == 90.0;
    let line = w.fasteners(joint)?.count <= 2.0 || is_line(first.1) || is_line(second.1);
    if !square && !line {
        return Err(Missing::outside(joint, Method::GroupInOneLine));
    }
    let (sin, cos) = angle.to_radians().sin_cos();
    // A drawing does not say to which side it is turned.
    let turned = [1.0, -1.0].map(|way| {
        let at = (along * cos + way * across * sin, along * sin - way * across * cos);
        (at.0.abs() - to.0).hypot(at.1.abs() - to.1)
    });
    Ok(turned.into_iter().fold(f64::INFINITY, f64::min))
}

/// The same of a tread on a notched string: seen from above the tread's rows lie along the string, and along it the tread's
/// spacing across it. What lies along is stated level, or along the slope.
fn in_plan(w: &Evaluation<'_>, first: (Id, Step), second: (Id, Step)) -> Result<Option<f64>, Missing> {
    let (one, other) = (target(w, first.0)?, target(w, second.0)?);
    let is = |tread: Id, string: Id| w.design.is(tread, kinds::TREAD) && w.design.is(string, kinds::STRINGER);
    let (string, (along, rows), (of_string, across)) = match (is(one, other), is(other, one)) {
        (true, _) => (other, first.1, second.1),
        (_, true) => (one, second.1, first.1),
        _ => return Ok(None),
    };
    if w.looked_up(string, properties::CUT).is_none() || w.word(string, properties::CUT)? != "notched" {
        return Ok(None);
    }
    let aslant = rows / w.number(w.flight_of(string)?, PITCH)?.to_radians().cos();
    let off = (rows - of_string).max(of_string - aslant).max(0.0);
    Ok(Some(off.hypot(along - across)))
}

/// The angle between the grains of two members, in degrees from 0 to 90, where what they are tells it.
fn angle(w: &Evaluation<'_>, joint: Id, one: Id, other: Id) -> Result<Option<f64>, Missing> {
    let (one, other) = (target(w, one)?, target(w, other)?);
    let pitched = |id: Id| w.design.is(id, kinds::STRINGER);
    let plumb = |id: Id| w.design.is(id, kinds::POST);
    let level = |id: Id| w.design.get(id).is_some_and(|thing| thing.kind.is(Trait::LaidLevel));
    Ok(if plumb(one) && plumb(other) {
        Some(0.0)
    } else if plumb(one) && pitched(other) {
        Some(90.0 - w.number(w.flight_of(other)?, PITCH)?)
    } else if pitched(one) && plumb(other) {
        Some(90.0 - w.number(w.flight_of(one)?, PITCH)?)
    } else if plumb(one) && level(other) || level(one) && plumb(other) {
        Some(90.0)
    } else if pitched(one) && level(other) || level(one) && pitched(other) {
        // What goes down into a sloped edge is spaced level or aslant: no drawing says which.
        return Err(Missing::outside(joint, Method::GroupInOneLine));
    } else {
        None
    })
}

/// The notched stringer that a tread lies on whose fasteners go down through it.
fn beneath(w: &Evaluation<'_>, member: Id) -> Result<Id, Missing> {
    let joint = w.parent(member);
    let tread = target(w, member)?;
    let outside = || Missing::outside(joint, Method::TreadOnNotches);
    let names = joined(w, joint)?;
    // A name that is none, or is missing, may be that of the stringer.
    if names.len() < 2 || names.iter().any(|(name, _)| w.design.joined(joint, name).is_none()) {
        return Err(Missing::drawing(joint, Drawing::MemberJoined));
    }
    let [(first, _), (second, _)] = names else { return Err(outside()) };
    let (first, second) = (w.design.joined(joint, first), w.design.joined(joint, second));
    let stringer = second.filter(|second| w.design.is(*second, kinds::STRINGER)).ok_or_else(outside)?;
    if first != Some(tread) || !w.design.is(tread, kinds::TREAD) || w.word(stringer, properties::CUT)? != "notched" {
        return Err(outside());
    }
    Ok(stringer)
}
