//! The stair as a whole, its landings, and how far one can fall from them.

use super::door::{PLACES, place};
use super::missing::{Drawing, Method, Missing};
use super::quantity::{AREA, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::working::{Derived, LEVEL_GROUND, Working};
use crate::measure::INCH;
use crate::model::{Id, Side, Value};

/// How far out from an edge the ground counts: 36 in, IRC 2018/2021 R312.1.1.
const REACH: f64 = 36.0 * INCH;

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("stair" "rise" LENGTH, "plumb, over all flights", "sum of rise of each flight", GEOMETRY, |w, id| {
        let mut rise = 0.0;
        for flight in flights(w, id)? {
            rise += w.number(flight, "rise")?;
        }
        w.length(rise)
    }),
    entry!("stair" "run" LENGTH, "level, over all flights in one line and the landings between them", "sum of run of each flight + depth of each landing between", GEOMETRY, |w, id| {
        let mut run = 0.0;
        for flight in flights(w, id)? {
            run += w.number(flight, "run")?;
        }
        for landing in all(w, "landing", id)? {
            if w.word(landing, "place")? != "between" {
                continue;
            }
            if w.word(landing, "turn")? != "straight" {
                return Err(Missing::outside(landing, Method::FlightsInLine));
            }
            run += w.number(landing, "depth")?;
        }
        w.length(run)
    }),
    entry!("stair" "rise closure" LENGTH, "what the risers leave of the total rise", "total rise - rise", GEOMETRY, |w, id| {
        let total = w.number(id, "total rise")?;
        w.length(total - w.number(id, "rise")?)
    }),
    entry!("stair" "run closure" LENGTH, "what the runs leave of the total run", "total run - run", GEOMETRY, |w, id| {
        for landing in all(w, "landing", id)? {
            if w.design.stated(landing, "turn").is_some() && w.word(landing, "turn")? != "straight" {
                // No total run could be held against it.
                return w.datum(id, "run");
            }
        }
        let total = w.number(id, "total run")?;
        w.length(total - w.number(id, "run")?)
    }),
    entry!("stair" "access" Gives::Word(&["private", "utility", "general"]), "whose way it is", "access as stated, else private where use is dwelling, general where it is shared or public", "Approved Document K, 2013 edition", |w, id| {
        if w.design.stated(id, "access").is_some() {
            return w.stated(id, "access");
        }
        match w.word(id, "use").as_deref() {
            Ok("dwelling") => Working::say("private"),
            Ok("shared" | "public") => Working::say("general"),
            // A work place may have either of the others.
            _ => Err(w.missing(id, "access")),
        }
    }),
    entry!("stair" "switch floors" NUMBER, "at how many floors its light can be switched", "as counted in switches", "the drawing", |w, id| {
        let Value::Words(words) = w.value(id, "switches")? else { return Err(w.missing(id, "switches")) };
        let mut floors: Vec<&str> = words.iter().map(String::as_str).filter(|word| *word != "none").collect();
        floors.sort_unstable();
        floors.dedup();
        #[allow(clippy::cast_precision_loss)]
        Working::plain(floors.len() as f64)
    }),
    entry!("landing" "place" Gives::Word(PLACES), "at the head of the stair, at its foot, or between", "by its name", GEOMETRY, |w, id| {
        let name = w.design.get(id).and_then(|landing| landing.name.as_deref()).unwrap_or("");
        found_between(w, id)?;
        Working::say(place(name))
    }),
    entry!("landing" "plan" Gives::Word(&["rectangular", "other"]), "its outline", "plan as stated, else rectangular", GEOMETRY, |w, id| {
        w.stated_or(id, "plan", "rectangular")
    }),
    entry!("landing" "quarter circle" AREA, "of a quarter circle as wide as the flight", "pi x flight width^2 / 4", "IRC 2021, R311.7.6", |w, id| {
        let width = w.number(id, "flight width")?;
        w.area(std::f64::consts::FRAC_PI_4 * width * width)
    }),
    entry!("landing" "elevation" LENGTH, "of its floor above the floor at the foot", "sum of rise of each flight below", GEOMETRY, |w, id| {
        let mut elevation = 0.0;
        found_between(w, id)?;
        let top = w.design.get(id).and_then(|landing| landing.name.as_deref()) == Some("top");
        let bottom = w.design.get(id).and_then(|landing| landing.name.as_deref()) == Some("bottom");
        for flight in all(w, "flight", 0)?.into_iter().filter(|flight| !bottom && (top || *flight < id)) {
            elevation += w.number(flight, "rise")?;
        }
        if top && w.design.of_kind("flight").next().is_none() {
            return w.length(w.number(0, "total rise")?);
        }
        w.length(elevation)
    }),
    entry!("landing" "flight width" LENGTH, "the wider of the flights that it joins", "largest width of the flights it joins", "IRC 2021, R311.7.6", |w, id| {
        let name = w.design.get(id).and_then(|landing| landing.name.as_deref()).unwrap_or("");
        let flights = flights(w, id)?;
        let (below, above): (Vec<Id>, Vec<Id>) = flights.iter().partition(|flight| **flight < id);
        let joined = match name {
            "bottom" => [flights.first(), None],
            "top" => [flights.last(), None],
            _ => [below.last(), above.first()],
        };
        let mut widest: f64 = 0.0;
        for flight in joined.into_iter().flatten() {
            widest = widest.max(w.number(*flight, "width")?);
        }
        w.length(widest)
    }),
    entry!("landing" "drop" LENGTH, "the deepest beside it, at a side that no wall closes", "elevation + below + 36\" x slope", "IRC 2021, R312.1.1", |w, id| {
        deepest(w, id, false)
    }),
    entry!("landing" "unguarded drop" LENGTH, "the deepest at a side with neither wall nor guard", "elevation + below + 36\" x slope", "IRC 2021, R312.1.1", |w, id| {
        deepest(w, id, true)
    }, cure "guard"),
];

fn flights(w: &Working<'_>, stair: Id) -> Result<Vec<Id>, Missing> {
    let flights = all(w, "flight", stair)?;
    if flights.is_empty() { Err(w.not_drawn(stair, "flight")) } else { Ok(flights) }
}

/// All of a kind, if each of them could be read; how many there are is not what a number comes from.
pub(super) fn all(w: &Working<'_>, kind: &'static str, of: Id) -> Result<Vec<Id>, Missing> {
    w.trace(|| w.things(kind, of)).0?;
    Ok(w.design.of_kind(kind).collect())
}

/// The sides of a flight or landing that one can fall from.
pub(super) fn open_sides(w: &Working<'_>, place: Id, unguarded: bool) -> Result<Vec<Side>, Missing> {
    let mut open = if w.design.stated(place, "open sides").is_some() {
        let Value::Words(words) = w.value(place, "open sides")? else { return Err(w.missing(place, "open sides")) };
        EVERY_SIDE.into_iter().filter(|side| words.iter().any(|word| word == side.word())).collect()
    } else {
        not_closed(w, "wall", place, sides(w, place)?)?
    };
    if unguarded {
        open = not_closed(w, "guard", place, open)?;
    }
    Ok(open)
}

/// The sides of a flight, a landing or a step that neither wall nor guard closes, as far as they are known.
pub fn unguarded_sides(w: &Working<'_>, of: Id) -> Vec<Side> {
    let place = if w.design.get(of).is_some_and(|element| element.step.is_some()) { w.parent(of) } else { of };
    open_sides(w, place, true).unwrap_or_default()
}

const EVERY_SIDE: [Side; 3] = [Side::Left, Side::Right, Side::Far];

/// The sides of a flight or landing by which nobody comes or goes. Where a landing lies between two flights, the
/// way it turns says which they are; the head of a stair leads on at its far side.
pub(super) fn sides(w: &Working<'_>, place: Id) -> Result<Vec<Side>, Missing> {
    let between = w.design.kind(place) == "landing" && w.word(place, "place")? == "between";
    if !between {
        return Ok(vec![Side::Left, Side::Right]);
    }
    Ok(match w.word(place, "turn")?.as_ref() {
        "straight" => vec![Side::Left, Side::Right],
        "quarter left" => vec![Side::Right, Side::Far],
        "quarter right" => vec![Side::Left, Side::Far],
        _ => EVERY_SIDE.to_vec(),
    })
}

fn not_closed(w: &Working<'_>, kind: &'static str, place: Id, sides: Vec<Side>) -> Result<Vec<Side>, Missing> {
    let closing = w.things(kind, place)?;
    let side_of = |id: &Id| w.design.get(*id).and_then(|element| element.side);
    let closed: Vec<Side> = closing.iter().filter_map(side_of).collect();
    let left: Vec<Side> = sides.into_iter().filter(|side| !closed.contains(side)).collect();
    match closing.iter().find(|id| side_of(id).is_none()) {
        None => Ok(left),
        // Walls with no side stand all round; a guard with none closes the only side there is.
        Some(_) if kind == "wall" || left.len() < 2 => Ok(Vec::new()),
        Some(guard) => Err(w.side_not_known(*guard)),
    }
}

/// Whether it is known where a landing lies: at the head or the foot by its name, else between two flights.
fn found_between(w: &Working<'_>, landing: Id) -> Result<(), Missing> {
    let name = w.design.get(landing).and_then(|landing| landing.name.as_deref()).unwrap_or("");
    let mut flights = w.design.of_kind("flight").peekable();
    let (mut below, mut above) = (false, false);
    if place(name) != "between" || flights.peek().is_none() {
        return Ok(());
    }
    for flight in flights {
        below |= flight < landing;
        above |= flight > landing;
    }
    if below && above {
        return Ok(());
    }
    Err(Missing::drawing(landing, Drawing::FlightAtEachEnd))
}

/// The deepest drop beside a surface: plumb from it to the lowest ground within reach.
pub(super) fn deepest(w: &Working<'_>, surface: Id, unguarded: bool) -> Derived {
    let place = if w.design.kind(surface) == "tread" { w.parent(surface) } else { surface };
    let mut deepest: f64 = 0.0;
    for side in open_sides(w, place, unguarded)? {
        deepest = deepest.max(drop_at(w, surface, side)?);
    }
    w.length(deepest)
}

/// The drop at one side.
pub(super) fn drop_at(w: &Working<'_>, surface: Id, side: Side) -> Result<f64, Missing> {
    let elevation = w.number(surface, "elevation")?;
    let ground = w
        .design
        .of_kind("ground")
        .find(|id| w.design.get(*id).is_some_and(|ground| ground.side.is_none_or(|beside| beside == side)));
    let Some(ground) = ground else {
        w.custom(LEVEL_GROUND, 0);
        return Ok(elevation);
    };
    let below = match w.design.stated(ground, "below") {
        Some(_) => w.number(ground, "below")?,
        None => 0.0,
    };
    let falls = match w.design.stated(ground, "slope") {
        Some(_) => REACH * w.number(ground, "slope")?,
        None => 0.0,
    };
    Ok(elevation + below + falls)
}
