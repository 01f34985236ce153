//! Posts that carry a landing or a string: what goes along them, and what they take as columns.

use super::evaluation::{Evaluation, number, word};
use super::fastened::on_the_way;
use super::formula::Derive;
use super::joint::target;
use super::load::{self, Together, length};
use super::member::{self, Timbered, over, timber};
use super::missing::{Drawing, Method, Missing, Statement};
use super::place::joined;
use super::quantity::{Gives, NUMBER, Quantity, ROW, row};
use crate::mechanics::adjusted::{self, Sharing};
use crate::mechanics::amount::greatest;
use crate::mechanics::column::{self, Column};
use crate::mechanics::{Amount, Outside, Working};
use crate::model::{IN_THE_CENTRE, Id, Shape, kinds, properties};

const A_LANDING: &str = "a landing";
const A_STRING: &str = "a string";
const NOTHING: &str = "nothing";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::POST,
        name: "carries",
        gives: Gives::Word(&[A_LANDING, A_STRING, NOTHING]),
        help: "what it holds up, whatever guard stands on it",
        formula: "a landing where it stands between ends in one; a string where a joint holds one to it; else nothing; not known \
            of the pole of a spiral, of one between ends that no joint holds, and of one in a landing, or joined to one, of which \
            nobody says where it stands",
        source: "the drawing",
        derive: Derive::Whole(|w, id| word(carries(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "slenderness",
        gives: NUMBER,
        help: "its height over its weaker way, both its ends taken as held in place",
        formula: "l_e / d",
        source: "NDS 2018, 3.7.1; Appendix G for the ends",
        derive: Derive::Mechanics(|w, id, working| {
            let (post, long) = as_column(w, id, working)?;
            column::slenderness(working, long, post.way).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "column ratio",
        help: "stress along its grain over what the timber takes at its height: dead and live load of what it carries, and with \
            snow where it lies",
        formula: "f_c / F_c'",
        source: "statics; NDS 2018, 3.6 and 3.7, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            // What to change first: its section.
            let _ = w.section(id)?;
            let timber = timber(w, id, working)?;
            if w.word(id, properties::NOTCHED)? == "yes" {
                return Err(beyond(Outside::Notch));
            }
            let mut most: Option<Amount> = None;
            for (lasts, part, load) in carried(w, id, working)? {
                let found = working.part(part, |working| {
                    let (post, long) = as_column(w, id, working)?;
                    let stress = column::stress(working, load, post.area).map_err(beyond)?;
                    let piece = timber.upright(post.way)?;
                    let conditions = timber.conditions(lasts, Sharing::Single);
                    let taken = adjusted::along(working, &piece, conditions, long);
                    over(id, working, stress, taken.map_err(|outside| timber.lacks(outside))?)
                })?;
                most = Some(most.map_or(found, |most| greatest(most, found)));
            }
            most.ok_or_else(|| beyond(Outside::NothingThere))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "legs",
        gives: NUMBER,
        help: "how many legs hold its landing up between its edges: of one alone nobody knows whether a wall carries the other end \
            of its beam",
        formula: "props; not known of one where a wall closes a side of the landing, or of none where joists rest on a beam",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let legs = w.number(id, super::joist::PROPS)?;
            // A beam lies on something.
            let on_a_beam =
                w.looked_up(id, properties::RESTS_ON).is_none() || w.word(id, properties::RESTS_ON)? == "beam";
            if legs < 1.0 && on_a_beam {
                let _ = w.word(id, properties::RESTS_ON)?;
                return Err(w.not_drawn(landing, kinds::POST));
            }
            if legs == 1.0 && w.things(kinds::WALL, landing)?.next().is_some() {
                return Err(Missing::outside(landing, Method::OneLeg));
            }
            number(legs)
        }),
        ..ROW
    },
];

const CARRIES: &Quantity = row(QUANTITIES, kinds::POST, "carries");

fn carries(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    let stands = w.looked_up(id, properties::STANDS).is_some();
    if stands && w.word(id, properties::STANDS)? == IN_THE_CENTRE {
        return Err(Missing::outside(id, Method::PoleAsColumn));
    }
    let held_up = held_up(w, id)?;
    let in_a_landing = w.design.is(w.parent(id), kinds::LANDING);
    if on_the_way(w, id)? {
        return match (in_a_landing, strings(w, &held_up).is_empty()) {
            (true, _) => Ok(A_LANDING),
            (false, false) => Ok(A_STRING),
            (false, true) => Err(Missing::drawing(id, Drawing::JointThatHolds)),
        };
    }
    if !strings(w, &held_up).is_empty() {
        return Ok(A_STRING);
    }
    // A newel at its edge, or a leg under it.
    let at_a_landing = in_a_landing || held_up.iter().any(|of| w.design.is(*of, kinds::LANDING));
    if at_a_landing && !stands {
        return Err(Missing::statement(id, Statement::Property(properties::STANDS)));
    }
    Ok(NOTHING)
}

/// What the joints of a post join it to.
fn held_up(w: &Evaluation<'_>, post: Id) -> Result<Vec<Id>, Missing> {
    let mut found = Vec::new();
    for joint in w.belonging(kinds::JOINT, post)? {
        for member in w.things(kinds::MEMBER, joint)? {
            let of = target(w, member)?;
            if of != post && !found.contains(&of) {
                found.push(of);
            }
        }
    }
    Ok(found)
}

fn strings(w: &Evaluation<'_>, of: &[Id]) -> Vec<Id> {
    of.iter().copied().filter(|of| w.design.is(*of, kinds::STRINGER)).collect()
}

/// A post as a column, and its effective length.
fn as_column(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<(Column, Amount), Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let section = w.section(id)?;
    if section.shape == Shape::Profiled {
        return Err(Missing::outside(id, Method::PlainSection));
    }
    let ways = (length(section.thickness), length(section.depth));
    let post = column::column(working, ways, section.shape == Shape::Round).map_err(beyond)?;
    let height = length(w.number(id, properties::HEIGHT)?);
    Ok((post, column::effective_length(working, height).map_err(beyond)?))
}

/// What goes along a post, by the loads that are taken together.
fn carried(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Vec<Together>, Missing> {
    match w.word(id, CARRIES)?.as_ref() {
        A_LANDING => on_a_leg(w, id, working),
        A_STRING => under_strings(w, id, working),
        _ => Err(Missing::beyond(id, Outside::NothingThere)),
    }
}

fn under_strings(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Vec<Together>, Missing> {
    let mut all: Vec<Together> = Vec::new();
    for string in strings(w, &held_up(w, id)?) {
        let stringer = member::stringer(w, string, working)?;
        // What stands under it on its way halves a span that nobody has halved.
        if on_the_way(w, id)? && w.looked_up(string, properties::SPAN).is_none() {
            return Err(Missing::statement(string, Statement::Property(properties::SPAN)));
        }
        let these = stringer.reactions(w, working)?;
        add(working, &mut all, these, column::with_flights_before);
    }
    Ok(all)
}

/// Adds loads to those of the same combinations before.
fn add(
    working: &mut Working,
    all: &mut Vec<Together>,
    these: Vec<Together>,
    sum: fn(&mut Working, Amount, Amount) -> Amount,
) {
    if all.is_empty() {
        *all = these;
        return;
    }
    for ((_, part, before), (_, _, load)) in all.iter_mut().zip(these) {
        *before = working.part(part, |working| sum(working, *before, load));
    }
}

fn on_a_leg(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Vec<Together>, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let landing = w.parent(id);
    let sizes = (length(w.number(landing, properties::DEPTH)?), length(w.number(landing, properties::WIDTH)?));
    let mut legs = 0.0;
    w.each(w.things(kinds::POST, landing)?, |post| {
        if on_the_way(w, post)? {
            legs += w.number(post, properties::COUNT)?;
        }
        Ok(())
    })?;
    let joists: Vec<Id> = w.things(kinds::JOIST, landing)?.collect();
    let mut floor: Option<Vec<Together>> = None;
    for joist in joists {
        let these = load::on_a_landing(w, joist, working)?;
        floor = Some(match floor {
            None => these,
            Some(before) => {
                let heavier = |((lasts, part, a), (_, _, b))| (lasts, part, greatest(a, b));
                before.into_iter().zip(these).map(heavier).collect()
            }
        });
    }
    let floor = floor.ok_or_else(|| w.not_drawn(landing, kinds::JOIST))?;
    let mut flights: Vec<Together> = Vec::new();
    for flight in joined(w, landing)? {
        let (run, width) = member::on_the_level(w, flight)?;
        let mut these = Vec::new();
        for (lasts, part, load) in load::together(w, flight, working)? {
            let brings = working.part(part, |working| column::end_of_a_flight(working, load, run, width));
            these.push((lasts, part, brings.map_err(beyond)?));
        }
        add(working, &mut flights, these, column::with_flights_before);
    }
    let share = column::share_of_a_leg(legs);
    let mut all = Vec::new();
    for (nth, (lasts, part, load)) in floor.into_iter().enumerate() {
        let brought = flights.get(nth).map_or(0.0 * crate::mechanics::amount::POUNDS, |(_, _, brought)| *brought);
        let leg = working.part(part, |working| column::on_a_leg(working, load, sizes, share, brought));
        all.push((lasts, part, leg.map_err(beyond)?));
    }
    Ok(all)
}

impl Timbered {
    /// As a piece that stands upright, by its weaker way.
    fn upright(&self, way: Amount) -> Result<adjusted::Piece<'_>, Missing> {
        let piece = self.piece(adjusted::Lies::OnEdge)?;
        Ok(adjusted::Piece { thickness: way, ..piece })
    }
}
