//! The sides of a flight: which are open, which are left bare, and where a hand finds a rail.

use super::missing::Missing;
use super::place::open_sides;
use super::quantity::{GEOMETRY, LENGTH, NUMBER, Quantity, entry};
use super::working::{Derived, Working};
use crate::model::{Id, Side};

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("flight" "open sides" NUMBER, "how many no wall closes", "2 - sides with a wall", "29 CFR 1910.28, Table D-2", |w, id| {
        counted(open_sides(w, id, false)?.len())
    }),
    entry!("flight" "bare sides" NUMBER, "how many neither a wall nor a guard closes", "2 - sides with a wall or a guard", "29 CFR 1910.28, Table D-2", |w, id| {
        counted(open_sides(w, id, true)?.len())
    }, cure "guard"),
    entry!("flight" "handrail sides" NUMBER, "at how many a handrail stands", "sides with a handrail", GEOMETRY, |w, id| {
        counted(handrails(w, id)?.len())
    }, cure "handrail"),
    entry!("flight" "railed sides" NUMBER, "at how many a handrail stands, or a guard whose top serves as one", "sides with such a rail", GEOMETRY, |w, id| {
        counted(railed(w, id)?.len())
    }, cure "handrail"),
    entry!("flight" "unrailed walls" NUMBER, "how many a wall closes and no handrail follows", "sides with a wall and no handrail", "29 CFR 1910.28, Table D-2", |w, id| {
        let (open, railed) = (open_sides(w, id, false)?, handrails(w, id)?);
        counted(SIDES.iter().filter(|side| !open.contains(side) && !railed.contains(side)).count())
    }, cure "handrail"),
    entry!("flight" "reach to a rail" LENGTH, "from the place farthest from any; those in the middle are taken to stand evenly", "width at the rails / (2 x (number of handrails - 1)), all of it where there is one", "IBC 2021, 1014.9", |w, id| {
        let rails = w.things("handrail", id)?.len();
        let width = w.number(id, "width at the rails")?;
        #[allow(clippy::cast_precision_loss)]
        let between = rails.saturating_sub(1) as f64;
        w.length(if between > 0.0 { width / (2.0 * between) } else { width })
    }),
];

const SIDES: [Side; 2] = [Side::Left, Side::Right];

fn handrails(w: &Working<'_>, flight: Id) -> Result<Vec<Side>, Missing> {
    let mut sides = Vec::new();
    for rail in w.things("handrail", flight)? {
        if w.word(rail, "place")? == "middle" {
            continue;
        }
        let side = w.design.get(rail).and_then(|rail| rail.side);
        sides.push(side.ok_or_else(|| w.side_not_known(rail))?);
    }
    Ok(SIDES.into_iter().filter(|side| sides.contains(side)).collect())
}

fn railed(w: &Working<'_>, flight: Id) -> Result<Vec<Side>, Missing> {
    let mut sides = handrails(w, flight)?;
    for guard in w.things("guard", flight)? {
        if w.word(guard, "handrail")? == "yes" {
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
    Working::plain(count as f64)
}
