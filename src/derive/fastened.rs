//! Whether what has to be fastened is: how many fasteners the joint has that holds it, where one is drawn.

use super::datum::Derived;
use super::evaluation::{Evaluation, number};
use super::flight::{PITCH, RUN};
use super::formula::Derive;
use super::joint::target;
use super::member::SPANS;
use super::missing::{Drawing, Method, Missing};
use super::quantity::{GEOMETRY, LENGTH, NUMBER, Quantity, ROW};
use super::step::BOARD_THICKNESS;
use super::stringer::THROAT;
use crate::model::{Id, Kind, kinds, properties};

/// Where a post stands that holds a string up on its way.
const ON_THE_WAY: &str = "between ends";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::FLIGHT,
        name: "tread fasteners",
        gives: NUMBER,
        help: "how many hold a board of its treads to each stringer, at the fewest",
        formula: "least fastener count of the joints of its treads and a stringer",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            // Which treads there are is not what decides here.
            let (treads, _) = w.trace(|| w.things(kinds::TREAD, id).map(Iterator::collect));
            let treads: Vec<Id> = treads?;
            let block = treads.iter().find_map(|tread| w.design.get(*tread)?.base);
            let what = block.or(treads.first().copied()).unwrap_or(id);
            let of_flight = |of: Id| treads.contains(&of) || block == Some(of);
            fewest(w, what, &of_flight, &[kinds::STRINGER])
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "head fasteners",
        gives: NUMBER,
        help: "how many hold its head to the framing, at the fewest: to a landing; of what stands on braced legs, to a post too",
        formula: "least fastener count of the joints of it and a landing, or a post where braces are drawn",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            // What stands on legs is braced.
            let (braces, _) = w.trace(|| w.things(kinds::BRACE, 0).map(|mut braces| braces.next()));
            let to: &[&Kind] = if braces?.is_some() { &[kinds::LANDING, kinds::POST] } else { &[kinds::LANDING] };
            fewest(w, id, &|of| is_copy(w, of, id), to)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "rail fasteners",
        gives: NUMBER,
        help: "how many hold an end of its rail to a post, at the fewest",
        formula: "least fastener count of the joints of it and a post",
        source: "the drawing",
        derive: Derive::Whole(|w, id| fewest(w, id, &|of| w.design.is(of, kinds::GUARD), &[kinds::POST])),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "props",
        gives: NUMBER,
        help: "how many posts hold it up on its way, where they stand `between ends` and a joint holds it to them",
        formula: "count of those posts / count, rounded down",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut props = 0.0;
            for post in self::props(w, id)? {
                props += w.number(post, properties::COUNT)?;
            }
            if props == 0.0 {
                return Err(Missing::drawing(id, Drawing::PostOnTheWay));
            }
            number((props / w.number(id, properties::COUNT)?).floor())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "prop height",
        gives: LENGTH,
        help: "of the shortest post that holds it up on its way",
        formula: "the smallest height of those posts",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut shortest: Option<f64> = None;
            for post in props(w, id)? {
                let height = w.number(post, properties::HEIGHT)?;
                shortest = Some(shortest.map_or(height, |shortest| shortest.min(height)));
            }
            w.length(shortest.ok_or_else(|| Missing::drawing(id, Drawing::PostOnTheWay))?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "underside at its prop",
        gives: LENGTH,
        help: "plumb, from the floor at the foot to the lower edge of a notched stringer, where its lowest prop stands",
        formula: "where the lowest prop stands x tan(pitch) - thickness of the treads - throat / cos(pitch); it stands at the lesser of \
            span and run of the flight - (spans - 1) x span",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if w.word(id, properties::CUT)? != "notched" {
                return Err(Missing::outside(id, Method::TreadOnNotches));
            }
            let flight = w.flight_of(id)?;
            let span = w.number(id, properties::SPAN)?;
            let last = w.number(flight, RUN)? - (w.number(id, SPANS)? - 1.0) * span;
            let pitch = w.number(flight, PITCH)?.to_radians();
            let mut thick: f64 = 0.0;
            for tread in w.things(kinds::TREAD, flight)? {
                thick = thick.max(w.number(tread, BOARD_THICKNESS)?);
            }
            w.length(span.min(last) * pitch.tan() - thick - w.number(id, THROAT)? / pitch.cos())
        }),
        ..ROW
    },
];

/// The posts that stand between the ends of a string and are joined to it.
pub(super) fn props(w: &Evaluation<'_>, stringer: Id) -> Result<Vec<Id>, Missing> {
    let mut props = Vec::new();
    for joint in joints(w)? {
        let joined = targets(w, joint)?;
        if !joined.iter().any(|of| is_copy(w, *of, stringer)) {
            continue;
        }
        for post in joined.into_iter().filter(|of| w.design.is(*of, kinds::POST)) {
            if on_the_way(w, post)? {
                props.push(post);
            }
        }
    }
    Ok(props)
}

pub(super) fn on_the_way(w: &Evaluation<'_>, post: Id) -> Result<bool, Missing> {
    Ok(w.looked_up(post, properties::STANDS).is_some() && w.word(post, properties::STANDS)? == ON_THE_WAY)
}

fn joints(w: &Evaluation<'_>) -> Result<Vec<Id>, Missing> {
    Ok(w.things(kinds::JOINT, 0)?.collect())
}

/// What a joint joins, as far as it is drawn.
fn targets(w: &Evaluation<'_>, joint: Id) -> Result<Vec<Id>, Missing> {
    Ok(w.things(kinds::MEMBER, joint)?.filter_map(|member| target(w, member).ok()).collect())
}

/// Whether two are one thing, or copies of one block: a joint that joins one of them joins each.
fn is_copy(w: &Evaluation<'_>, one: Id, other: Id) -> bool {
    let words = |id: Id| w.design.get(id).map(|thing| (thing.kind, thing.span));
    one == other || words(one) == words(other)
}

/// How many fasteners the joints have that hold something to one of these kinds, at the fewest; that no joint does is
/// what is missing of `what`.
fn fewest(w: &Evaluation<'_>, what: Id, held: &dyn Fn(Id) -> bool, to: &[&'static Kind]) -> Derived {
    let mut least: Option<f64> = None;
    for joint in joints(w)? {
        let joined = targets(w, joint)?;
        let holds = |of: &Id| to.iter().any(|kind| w.design.is(*of, kind));
        if joined.iter().any(|of| held(*of)) && joined.iter().any(holds) {
            let count = w.fasteners(joint)?.count;
            least = Some(least.map_or(count, |least| least.min(count)));
        }
    }
    number(least.ok_or_else(|| Missing::drawing(what, Drawing::JointThatHolds))?)
}
