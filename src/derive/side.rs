//! The sides of a flight: which are open, which are left bare, where a hand finds a rail, and how far that may run on.

use super::custom::CustomId;
use super::datum::Derived;
use super::evaluation::{Evaluation, number, word};
use super::flight::{RAILED, WIDTH_AT_THE_RAILS};
use super::formula::Formula::{Asks, Count, Greater, Minus, Name, Number, Over, Times, With};
use super::formula::{Derive, Of};
use super::guard::{HANDRAIL, INFILL};
use super::handrail::{BEGINS, PLACE};
use super::missing::Missing;
use super::place::{open_sides, sides};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW};
use super::step::{landing_above, landing_below};
use crate::model::{Id, PropertyName, Side, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::FLIGHT,
        name: "open sides",
        gives: NUMBER,
        help: "how many no wall closes",
        formula: "open sides as stated, else 2 - sides with a wall",
        source: "29 CFR 1910.28, Table D-2",
        derive: Derive::Whole(|w, id| counted(open_sides(w, id, false)?.len())),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "bare sides",
        gives: NUMBER,
        help: "how many neither a wall nor a guard closes",
        formula: "open sides as stated, else 2 - sides with a wall, less those with a guard",
        source: "29 CFR 1910.28, Table D-2",
        cure: Some(kinds::GUARD),
        derive: Derive::Whole(|w, id| counted(open_sides(w, id, true)?.len())),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "handrail sides",
        gives: NUMBER,
        help: "at how many a handrail stands",
        formula: "sides with a handrail",
        source: GEOMETRY,
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let rails = handrails(w, id)?;
            counted(SIDES.into_iter().filter(|side| rails.iter().any(|(at, _)| at == side)).count())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "railed sides",
        gives: NUMBER,
        help: "at how many a handrail, or a guard whose top serves as one, follows every step",
        formula: "sides with such rails over each riser from the first to the last",
        source: GEOMETRY,
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| counted(railed(w, id, &rails(w, id)?)?.len())),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unrailed walls",
        gives: NUMBER,
        help: "how many a wall closes and no handrail follows",
        formula: "sides with a wall and no handrails over each riser from the first to the last",
        source: "29 CFR 1910.28, Table D-2",
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let (open, railed) = (open_sides(w, id, false)?, railed(w, id, &handrails(w, id)?)?);
            // A spiral has a pole at one side, and no wall.
            let walled = sides(w, id)?.into_iter().filter(|side| !open.contains(side));
            counted(walled.filter(|side| !railed.contains(side)).count())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unrailed open sides",
        gives: NUMBER,
        help: "how many no wall closes and no rail for the hand follows",
        formula: "open sides where neither handrails nor guards whose top serves as one stand over each riser",
        source: "29 CFR 1910.28, Table D-2",
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let (open, railed) = (open_sides(w, id, false)?, railed(w, id, &rails(w, id)?)?);
            counted(open.iter().filter(|side| !railed.contains(side)).count())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unrailed wide sides",
        gives: NUMBER,
        help: "of how many blocks of winders the side where they are wide has no rail for the hand",
        formula: "winders over whose treads neither handrails nor guards whose top serves as one stand at the side that is not theirs",
        source: GEOMETRY,
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let rails = rails(w, id)?;
            let mut bare = 0;
            w.each(w.things(kinds::WINDERS, id)?, |winders| {
                let narrow = w.design.get(winders).and_then(|winders| winders.side);
                let narrow = narrow.ok_or_else(|| w.side_not_known(winders))?;
                let (a, b) = (w.number(winders, properties::FROM_TREAD)?, w.number(winders, properties::TO_TREAD)?);
                let risers_beside = [a.min(b), (a.max(b) + 1.0).min(risers(w, id)?)];
                let wide = rails.iter().filter(|(side, _)| *side != narrow).map(|(_, ends)| *ends);
                bare += usize::from(!stand_over(wide, risers_beside));
                Ok(())
            })?;
            counted(bare)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "reach to a rail",
        gives: LENGTH,
        help: "from the place farthest from any; those in the middle are taken to stand evenly",
        source: "IBC 2021, 1014.9",
        derive: Derive::Formula(&With(
            &[("n", Count(RAILED))],
            &Over(
                &Asks(Of::This, || WIDTH_AT_THE_RAILS),
                &Greater(&Times(&Number(2.0), &Minus(&Name("n"), &Number(1.0))), &Number(1.0)),
            ),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "risers missed",
        gives: NUMBER,
        help: "risers of its flight that it does not stand over",
        formula: "risers of the flight less those from from tread, else the first, to the one behind to tread, else the last",
        source: "IRC 2021, R311.7.8.4",
        derive: Derive::Whole(|w, id| number(missed_by(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "room above",
        gives: LENGTH,
        help: "depth of the landing that its flight comes up to",
        formula: "depth of the landing above",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| w.datum(landing_above(w, w.flight_of(id)?)?, properties::DEPTH)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "room below",
        gives: LENGTH,
        help: "depth of the landing that its flight rises from",
        formula: "depth of the landing below",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| w.datum(landing_below(w, w.flight_of(id)?)?, properties::DEPTH)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "guard beside",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a guard stands at its side, and no wall; not of one in the middle",
        formula: "yes where a guard stands at its side and no wall; not known where guards are drawn and it is not said at \
            which side it stands",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| word(if guard_beside(w, id)? { "yes" } else { "no" })),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "wall behind",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a wall, or a low one, stands at its side wherever it goes, for its brackets to hold to",
        formula: "yes where the walls at its side, and the guards there whose infill is wall, stand beside each of its risers, \
            or at its landing; not known where none is drawn at any side of them",
        source: "the drawing",
        derive: Derive::Whole(|w, id| word(if wall_behind(w, id)? { "yes" } else { "no" })),
        ..ROW
    },
];

const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// What serves a hand at a side: the risers from the first to the last that it stands over.
type Rail = (Side, [f64; 2]);

/// The handrails of a flight but for those in the middle.
fn handrails(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Rail>, Missing> {
    let mut rails = Vec::new();
    w.each(w.things(kinds::HANDRAIL, flight)?, |rail| {
        if w.word(rail, PLACE)? == "middle" {
            return Ok(());
        }
        let side = w.side(rail)?;
        let (from, to) = (end(w, rail, properties::FROM_RISER)?, end(w, rail, properties::TO_RISER)?);
        if from.is_none() || to.is_none() {
            w.custom(CustomId::RAIL_ALONG_ITS_FLIGHT, rail);
        }
        let (mut from, to) = (from.unwrap_or(1.0), to.unwrap_or(f64::INFINITY));
        // What it begins with stands over the lowest tread.
        if from > 1.0 && from <= 2.0 && w.word(rail, BEGINS)? != "plain" {
            from = 1.0;
        }
        rails.push((side, [from, to]));
        Ok(())
    })?;
    Ok(rails)
}

/// Those, and the guards whose top serves as one.
fn rails(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Rail>, Missing> {
    let mut rails = handrails(w, flight)?;
    w.each(w.things(kinds::GUARD, flight)?, |guard| {
        if w.word(guard, HANDRAIL)? == "yes" {
            let side = match w.design.get(guard).and_then(|guard| guard.side) {
                Some(side) => side,
                None => match open_sides(w, flight, false)?.as_slice() {
                    [only] => *only,
                    _ => return Err(w.side_not_known(guard)),
                },
            };
            // Over a tread it stands over the risers below and above it.
            let from = end(w, guard, properties::FROM_TREAD)?.unwrap_or(1.0);
            let to = end(w, guard, properties::TO_TREAD)?.map_or(f64::INFINITY, |tread| tread + 1.0);
            rails.push((side, [from, to]));
        }
        Ok(())
    })?;
    Ok(rails)
}

/// The risers of a flight over which a guard of it does not stand: over a tread it stands over those below and above it.
fn missed_by(w: &Evaluation<'_>, guard: Id) -> Result<f64, Missing> {
    let (from, to) = (end(w, guard, properties::FROM_TREAD)?, end(w, guard, properties::TO_TREAD)?);
    if from.is_none() && to.is_none() {
        return Ok(0.0);
    }
    let last = risers(w, w.flight_of(guard)?)?;
    let over = to.map_or(last, |tread| (tread + 1.0).min(last)) - from.unwrap_or(1.0).max(1.0) + 1.0;
    Ok(last - over.max(0.0))
}

/// Where a rail begins or ends, if it says so.
fn end(w: &Evaluation<'_>, rail: Id, end: PropertyName) -> Result<Option<f64>, Missing> {
    w.looked_up(rail, end).map(|_| w.number(rail, end)).transpose()
}

/// The sides at which rails stand over every riser of a flight, one after another.
fn railed(w: &Evaluation<'_>, flight: Id, rails: &[Rail]) -> Result<Vec<Side>, Missing> {
    let mut last = None;
    let mut sides = Vec::new();
    for side in SIDES {
        let here = || rails.iter().filter(|(at, _)| *at == side).map(|(_, ends)| *ends);
        let whole = |[from, to]: [f64; 2]| from <= 1.0 && to.is_infinite();
        let followed = here().any(whole)
            || here().next().is_some() && {
                let last = match last {
                    Some(last) => last,
                    None => *last.insert(risers(w, flight)?),
                };
                stand_over(here(), [1.0, last])
            };
        sides.extend(followed.then_some(side));
    }
    Ok(sides)
}

fn risers(w: &Evaluation<'_>, flight: Id) -> Result<f64, Missing> {
    #[allow(clippy::cast_precision_loss)]
    Ok(w.list(flight, properties::RISERS)?.len() as f64)
}

/// Whether every riser from one to another has a rail over it.
fn stand_over(rails: impl Iterator<Item = [f64; 2]>, [first, last]: [f64; 2]) -> bool {
    let mut rails: Vec<[f64; 2]> = rails.collect();
    rails.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut next = first;
    for [from, to] in rails {
        if from <= next && to >= next {
            next = to + 1.0;
        }
    }
    next > last
}

/// Whether a guard stands beside a rail, and no wall.
fn guard_beside(w: &Evaluation<'_>, id: Id) -> Result<bool, Missing> {
    if w.word(id, PLACE)? == "middle" {
        return Ok(false);
    }
    let rail = w.design.get(id);
    if let Some(property) = rail.and_then(|rail| rail.lost) {
        return Err(Missing::not_understood(id, property));
    }
    let guards: Vec<Id> = w.things(kinds::GUARD, rail.and_then(|rail| rail.serves).unwrap_or(0))?.collect();
    let side_of = |id: Id| w.design.get(id).and_then(|thing| thing.side);
    let (Some(side), Some(place)) = (side_of(id), rail.and_then(|rail| rail.serves)) else {
        return if guards.is_empty() { Ok(false) } else { Err(w.side_not_known(id)) };
    };
    if w.things(kinds::WALL, place)?.any(|wall| side_of(wall).is_none_or(|at| at == side)) {
        return Ok(false);
    }
    match guards.iter().find(|guard| side_of(**guard).is_none()) {
        _ if guards.iter().any(|guard| side_of(*guard) == Some(side)) => Ok(true),
        Some(guard) => Err(w.side_not_known(*guard)),
        None => Ok(false),
    }
}

/// Whether walls, or low ones, stand behind a rail from one end of it to the other.
fn wall_behind(w: &Evaluation<'_>, id: Id) -> Result<bool, Missing> {
    if w.word(id, PLACE)? == "middle" {
        return Ok(false);
    }
    let rail = w.design.get(id);
    if let Some(property) = rail.and_then(|rail| rail.lost) {
        return Err(Missing::not_understood(id, property));
    }
    let (Some(side), Some(place)) = (rail.and_then(|rail| rail.side), rail.and_then(|rail| rail.serves)) else {
        return Err(w.side_not_known(id));
    };
    // A tread has a riser below it and one above.
    let risers_beside = |of: Id| -> Result<[f64; 2], Missing> {
        let to = end(w, of, properties::TO_TREAD)?.map_or(f64::INFINITY, |tread| tread + 1.0);
        Ok([end(w, of, properties::FROM_TREAD)?.unwrap_or(1.0), to])
    };
    let (mut behind, mut drawn) = (Vec::new(), false);
    w.each(w.things(kinds::WALL, place)?, |wall| {
        drawn = true;
        if w.design.get(wall).is_some_and(|wall| wall.side.is_none_or(|at| at == side)) {
            behind.push(risers_beside(wall)?);
        }
        Ok(())
    })?;
    w.each(w.things(kinds::GUARD, place)?, |guard| {
        drawn = true;
        if w.side(guard)? == side && w.word(guard, INFILL)? == "wall" {
            behind.push(risers_beside(guard)?);
        }
        Ok(())
    })?;
    // Who draws what stands at one side has drawn the other.
    if behind.is_empty() && !drawn {
        return Err(w.not_drawn(place, kinds::WALL));
    }
    if !w.design.is(place, kinds::FLIGHT) {
        return Ok(!behind.is_empty());
    }
    let first = end(w, id, properties::FROM_RISER)?.unwrap_or(1.0);
    let last = end(w, id, properties::TO_RISER)?.map_or_else(|| risers(w, place), Ok)?;
    Ok(stand_over(behind.into_iter(), [first, last]))
}

fn counted(count: usize) -> Derived {
    #[allow(clippy::cast_precision_loss)]
    number(count as f64)
}
