//! The sides of a flight: which are open, which are left bare, where a hand finds a rail, and how far that may run on.

use super::datum::Derived;
use super::evaluation::{Evaluation, number};
use super::flight::{RAILED, WIDTH_AT_THE_RAILS};
use super::formula::Formula::{Asks, Count, Greater, Minus, Name, Number, Over, Times, With};
use super::formula::{Derive, Of};
use super::guard::HANDRAIL;
use super::handrail::PLACE;
use super::missing::Missing;
use super::place::{open_sides, sides};
use super::quantity::{GEOMETRY, LENGTH, NUMBER, Quantity, ROW};
use super::step::{landing_above, landing_below};
use crate::model::{Id, Side, kinds, properties};

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
        derive: Derive::Whole(|w, id| counted(handrails(w, id)?.len())),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "railed sides",
        gives: NUMBER,
        help: "at how many a handrail stands, or a guard whose top serves as one",
        formula: "sides with such a rail",
        source: GEOMETRY,
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| counted(railed(w, id)?.len())),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unrailed walls",
        gives: NUMBER,
        help: "how many a wall closes and no handrail follows",
        formula: "sides with a wall and no handrail",
        source: "29 CFR 1910.28, Table D-2",
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let (open, railed) = (open_sides(w, id, false)?, handrails(w, id)?);
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
        formula: "open sides with neither a handrail nor a guard whose top serves as one",
        source: "29 CFR 1910.28, Table D-2",
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let (open, railed) = (open_sides(w, id, false)?, railed(w, id)?);
            counted(open.iter().filter(|side| !railed.contains(side)).count())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::FLIGHT,
        name: "unrailed wide sides",
        gives: NUMBER,
        help: "of how many blocks of winders the side where they are wide has no rail for the hand",
        formula: "winders with neither a handrail nor a guard whose top serves as one at the side that is not theirs",
        source: GEOMETRY,
        cure: Some(kinds::HANDRAIL),
        derive: Derive::Whole(|w, id| {
            let railed = railed(w, id)?;
            let mut bare = 0;
            for winders in w.things(kinds::WINDERS, id)? {
                let narrow = w.design.get(winders).and_then(|winders| winders.side);
                let narrow = narrow.ok_or_else(|| w.side_not_known(winders))?;
                bare += usize::from(!railed.iter().any(|side| *side != narrow));
            }
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
];

const SIDES: [Side; 2] = [Side::Left, Side::Right];

fn handrails(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Side>, Missing> {
    let mut sides = Vec::new();
    for rail in w.things(kinds::HANDRAIL, flight)? {
        if w.word(rail, PLACE)? == "middle" {
            continue;
        }
        let side = w.design.get(rail).and_then(|rail| rail.side);
        sides.push(side.ok_or_else(|| w.side_not_known(rail))?);
    }
    Ok(SIDES.into_iter().filter(|side| sides.contains(side)).collect())
}

fn railed(w: &Evaluation<'_>, flight: Id) -> Result<Vec<Side>, Missing> {
    let mut sides = handrails(w, flight)?;
    for guard in w.things(kinds::GUARD, flight)? {
        if w.word(guard, HANDRAIL)? == "yes" {
            match w.design.get(guard).and_then(|guard| guard.side) {
                Some(side) => sides.push(side),
                None => match open_sides(w, flight, false)?.as_slice() {
                    [only] => sides.push(*only),
                    _ => return Err(w.side_not_known(guard)),
                },
            }
        }
    }
    Ok(SIDES.into_iter().filter(|side| sides.contains(side)).collect())
}

fn counted(count: usize) -> Derived {
    #[allow(clippy::cast_precision_loss)]
    number(count as f64)
}
