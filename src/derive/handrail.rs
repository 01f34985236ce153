//! What the hand holds: its size, what it takes of the width, how far it goes.

use super::evaluation::{Evaluation, word};
use super::formula::Formula::{Greater, Lesser, List, Minus, Name, Number, Otherwise, Plus, Section, Stated, With};
use super::formula::{Derive, Fold, Of, Way};
use super::missing::{Drawing, Missing, Reason};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use crate::model::{BEGINNINGS, INTERRUPTIONS, Id, ListItem, Side, kinds, properties};

/// The name of a rail that stands between the sides of a flight.
const MIDDLE: &str = "middle";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::HANDRAIL,
        name: "width",
        gives: LENGTH,
        help: "across it; the larger way of its section, to be on the safe side",
        source: GEOMETRY,
        derive: Derive::Formula(&Section(Way::Larger)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "place",
        gives: Gives::Word(&["flight", "level", MIDDLE]),
        help: "beside the steps, beside a landing, or between the sides of a wide flight",
        formula: "level where it serves a landing, middle where that is its name",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if is_middle(w, id) {
                return word(MIDDLE);
            }
            let serves = w.design.get(id).and_then(|rail| rail.serves);
            word(if serves.is_some_and(|place| w.design.is(place, kinds::LANDING)) { "level" } else { "flight" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "side",
        gives: Gives::Word(&["left", "right", "far", MIDDLE]),
        help: "at which it stands, as one goes up",
        formula: "as its head says, middle where that is its name",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            if is_middle(w, id) {
                return word(MIDDLE);
            }
            let side = w.design.get(id).and_then(|rail| rail.side);
            word(side.ok_or_else(|| w.side_not_known(id))?.word())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "wall beside",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it may be fixed to a wall: not in the middle, and not where a guard stands at its side",
        formula: "no where a guard stands at its side and no wall, or where it is in the middle",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| {
            let rail = w.design.get(id);
            let (Some(side), Some(place)) = (rail.and_then(|rail| rail.side), rail.and_then(|rail| rail.serves)) else {
                // A flight that was not understood may be the one that it serves.
                if let Some(kind) = w.design.unread.iter().find(|kind| **kind == kinds::FLIGHT) {
                    return Err(Missing::new(id, Reason::BlockNotUnderstood(kind)));
                }
                return word(if is_middle(w, id) { "no" } else { "yes" });
            };
            let at = |kind, sides: &[Option<Side>]| -> Result<bool, Missing> {
                Ok(w.things(kind, place)?
                    .any(|other| w.design.get(other).is_some_and(|other| sides.contains(&other.side))))
            };
            if at(kinds::WALL, &[Some(side), None])? {
                return word("yes");
            }
            if at(kinds::GUARD, &[Some(side)])? {
                return word("no");
            }
            // One of no side may stand at this one.
            let of_no_side = |id: &Id| w.design.get(*id).is_some_and(|guard| guard.side.is_none());
            match w.things(kinds::GUARD, place)?.find(of_no_side) {
                Some(guard) => Err(Missing::drawing(guard, Drawing::SideOf(kinds::GUARD))),
                None => word("yes"),
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "continues",
        gives: Gives::Word(&["nowhere", "up", "down", "both ways"]),
        help: "where it runs on into the rail of another flight",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::CONTINUES, "nowhere")),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "begins",
        gives: Gives::Word(BEGINNINGS),
        help: "what it begins with over the lowest tread",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::BEGINS, "plain")),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "interrupted",
        gives: Gives::Word(INTERRUPTIONS),
        help: "where a newel stands in its way",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::INTERRUPTED, "nowhere")),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "tier",
        gives: Gives::Word(&["single", "upper", "lower"]),
        help: "which of the rails at its side it is: lower where another stands higher over the same risers",
        formula: "single where no other stands at its side over its risers; upper where none of them has a larger height, \
            else lower",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let others = beside(w, id)?;
            if others.is_empty() {
                return word("single");
            }
            let own = highest(w, id)?;
            for other in others {
                if highest(w, other)? > own {
                    return word("lower");
                }
            }
            word("upper")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "clear to the rail below",
        gives: LENGTH,
        help: "plumb, from its underside to the top of the next rail below it at its side",
        formula: "smallest height - the larger way of section - largest height of the next rail below it",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let own = w.list(id, properties::HEIGHT)?;
            let (top, lowest) = (largest(own), values(own).fold(f64::INFINITY, f64::min));
            let mut below: Option<f64> = None;
            for other in beside(w, id)? {
                let height = highest(w, other)?;
                // Two that are as high lie in one another.
                if height <= top {
                    below = Some(below.map_or(height, |next| next.max(height)));
                }
            }
            let below = below.ok_or_else(|| w.not_drawn(id, kinds::HANDRAIL))?;
            w.length(lowest - w.number(id, WIDTH)? - below)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "height spread",
        gives: LENGTH,
        help: "its largest height less its smallest",
        source: GEOMETRY,
        derive: Derive::Formula(&List(Fold::Spread, Of::This, properties::HEIGHT)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        // The section does not say which way it lies: the larger is taken, and refuses a flat rail on edge.
        name: "projection",
        gives: LENGTH,
        help: "what it takes of the width; of one in the middle, its own width",
        formula: "clearance + width",
        source: "IRC 2021, R311.7.1",
        derive: Derive::Whole(|w, id| {
            if is_middle(w, id) {
                return w.datum(id, WIDTH);
            }
            let clearance = w.number(id, properties::CLEARANCE)?;
            w.length(clearance + w.number(id, WIDTH)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "risers missed",
        gives: NUMBER,
        help: "risers of its flight that it does not stand over",
        source: "IRC 2021, R311.7.8.4",
        derive: Derive::Formula(&With(
            &[
                ("n", List(Fold::Count, Of::Flight, properties::RISERS)),
                ("a", Greater(&Stated(Of::This, properties::FROM_RISER), &Number(1.0))),
                ("b", Lesser(&Stated(Of::This, properties::TO_RISER), &Name("n"))),
            ],
            &Minus(&Name("n"), &Greater(&Plus(&Minus(&Name("b"), &Name("a")), &Number(1.0)), &Number(0.0))),
        )),
        ..ROW
    },
];

const WIDTH: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "width");
pub(super) const PLACE: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "place");
pub(super) const BEGINS: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "begins");
pub(super) const PROJECTION: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "projection");

/// The other rails at its side that stand over any of its risers.
fn beside(w: &Evaluation<'_>, id: Id) -> Result<Vec<Id>, Missing> {
    let rail = w.design.get(id);
    if let Some(property) = rail.and_then(|rail| rail.lost) {
        return Err(Missing::not_understood(id, property));
    }
    let Some(place) = rail.and_then(|rail| rail.serves) else { return Ok(Vec::new()) };
    let drawn = w.things(kinds::HANDRAIL, place)?.filter(|other| *other != id && !is_middle(w, *other));
    let mut others: Vec<Id> = drawn.collect();
    if others.is_empty() || is_middle(w, id) {
        return Ok(Vec::new());
    }
    let side_of = |id: Id| w.design.get(id).and_then(|rail| rail.side);
    let side = side_of(id).ok_or_else(|| w.side_not_known(id))?;
    others.retain(|other| side_of(*other) == Some(side));
    let mut found = Vec::new();
    for other in others {
        if !one_after_the_other(w, id, other)? {
            found.push(other);
        }
    }
    Ok(found)
}

/// Whether one ends before the other begins.
fn one_after_the_other(w: &Evaluation<'_>, one: Id, other: Id) -> Result<bool, Missing> {
    let end = |id, end| w.looked_up(id, end).map(|_| w.number(id, end)).transpose();
    let before = |a, b| -> Result<bool, Missing> {
        let (to, from) = (end(a, properties::TO_RISER)?, end(b, properties::FROM_RISER)?);
        Ok(to.zip(from).is_some_and(|(to, from)| to < from))
    };
    Ok(before(one, other)? || before(other, one)?)
}

fn highest(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    Ok(largest(w.list(id, properties::HEIGHT)?))
}

fn largest(items: &[ListItem]) -> f64 {
    values(items).fold(f64::NEG_INFINITY, f64::max)
}

pub(super) fn is_middle(w: &Evaluation<'_>, id: Id) -> bool {
    w.design.get(id).and_then(|rail| rail.name.as_deref()).is_some_and(|name| name.eq_ignore_ascii_case(MIDDLE))
}
