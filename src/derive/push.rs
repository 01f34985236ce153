//! What a push does to a guard: its posts, its rail, its balusters; and whether a step tips a stair that nothing holds.

use super::evaluation::{Evaluation, number, word};
use super::flight::{PITCH, RUN};
use super::formula::Derive;
use super::guard_posts::is_a_prop;
use super::joint::target;
use super::load::{self, length};
use super::member::{as_section, over, service, timber};
use super::missing::{Drawing, Method, Missing};
use super::place::{joined, turn};
use super::quantity::{FORCE, GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::stringer::THROAT;
use crate::handbook::{self, Cited, WasherShape};
use crate::measure::Dimension;
use crate::mechanics::adjusted::{self, Bears, Duration, Held, Lies, Sharing};
use crate::mechanics::amount::INCHES;
use crate::mechanics::beam::bending_stress;
use crate::mechanics::bolt::{self, Under, carriage_head, pressed_area, washer};
use crate::mechanics::demand::{along_the_slope, moment_in_the_middle};
use crate::mechanics::guard_post::{Couple, couple, slack_sway};
use crate::mechanics::moisture::{pieces, weight, with_those_before};
use crate::mechanics::overturning::{Tipping, overturning, together};
use crate::mechanics::section::Section;
use crate::mechanics::{Amount, Lacking, Outside, Working};
use crate::model::{IN_THE_CENTRE, Id, Shape, Value, kinds, properties};

const STATICS: &str = "statics; NDS 2018, 3.3 and 4.3, values by its Supplement";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::POST,
        name: "guards beside",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a guard is drawn, or a handrail on posts of its own: any post may have to carry it, but one that holds a \
            string up, and the pole of a spiral",
        formula: "yes where a guard is drawn in the stair, or a handrail that posts carry; no for one in the centre, and for a prop: \
            one that stands between ends, under a landing or a string that is said to take more than one span",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let guarded = w.things(kinds::GUARD, 0)?.next().is_some() || is_railed(w)?;
            let pole =
                w.looked_up(id, properties::STANDS).is_some() && w.word(id, properties::STANDS)? == IN_THE_CENTRE;
            word(if guarded && !pole && !is_a_prop(w, id)? { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "push height",
        gives: LENGTH,
        help: "from its top, where it is pushed, to its upper row of fasteners",
        formula: "height - end - spacing, both in the joint that holds its foot",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (_, member) = on_two_rows(w, id)?;
            let held = w.number(member, properties::END)? + w.number(member, properties::SPACING)?;
            w.length(w.number(id, properties::HEIGHT)? - held)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "foot fasteners",
        gives: NUMBER,
        help: "how many hold its foot, in all the joints that do",
        formula: "sum of fastener count of the joints of it, without those that hold nothing but rails and guards to it",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut joints: Vec<Id> = Vec::new();
            for member in held(w, id)? {
                if !joints.contains(&w.parent(member)) {
                    joints.push(w.parent(member));
                }
            }
            let mut count = 0.0;
            for joint in &joints {
                count += w.fasteners(*joint)?.count;
            }
            if joints.is_empty() { Err(Missing::drawing(id, Drawing::JointThatHolds)) } else { number(count) }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "bending ratio",
        help: "bending stress over what the timber takes, 200 lb level at its top",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            // What to change first: its section, which `weak_way` works with.
            let _ = w.section(id)?;
            let moment = pushed(w, id, working)?.moment;
            if w.word(id, properties::NOTCHED)? == "yes" {
                return Err(Missing::beyond(id, Outside::Notch));
            }
            weak_way(w, id, working, moment)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "upper pull",
        gives: FORCE,
        help: "on its upper row of fasteners, 200 lb level and outward at its top",
        formula: "P x (h + a) / a",
        source: "statics; the push is that of IRC R301.5 and ASCE 7 4.5.1",
        derive: Derive::Mechanics(|w, id, working| Ok(pushed(w, id, working)?.upper)),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "pull ratio",
        help: "that pull over what the hold-down, or the wood under head and nut, takes",
        formula: "T / (the hold-down's load, or the least of F_c_perp' x A under head and nut)",
        source: "statics; NDS 2018, 3.10.2 and 12.1.3.3",
        derive: Derive::Mechanics(|w, id, working| {
            let (joint, _) = foot(w, id)?;
            if w.looked_up(joint, properties::HOLD_DOWN).is_some() {
                let taken = Amount::base(w.number(joint, properties::HOLD_DOWN)?, Dimension::FORCE);
                let _ = w.word(joint, properties::HOLD_DOWN_BY)?;
                let pull = pushed(w, id, working)?.upper;
                let taken = working.given("T_a", "allowable load of the hold-down", taken, Cited::STATED);
                return over(id, working, pull, taken);
            }
            // What to change first: what lies under head and nut.
            let _ = w.word(joint, properties::WASHERS)?;
            let pull = pushed(w, id, working)?.upper;
            pressed(w, joint, working, pull)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "held behind",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether what it is fastened to is held from rolling when it is pushed",
        formula: "yes where a hold-down, with where its load is printed, ties it to the framing; no where nails or screws \
            alone hold it; else yes where straps or angles tie a joist or blocking behind it; no where that is held by its \
            end grain alone, or nothing is behind; else not known",
        source: "IRC 2021, R507.10; DCA6, guard posts",
        derive: Derive::Whole(|w, id| {
            let (joint, _) = foot(w, id)?;
            if w.looked_up(joint, properties::HOLD_DOWN).is_some() {
                let _ = w.number(joint, properties::HOLD_DOWN)?;
                let _ = w.word(joint, properties::HOLD_DOWN_BY)?;
                return word("yes");
            }
            // What to change first: how it is tied, or what is there at all.
            let is = |property, so: &str| {
                w.looked_up(joint, property).is_some() && w.word(joint, property).is_ok_and(|word| word == so)
            };
            if is(properties::TIED_BY, "end grain") || is(properties::BEHIND, "nothing") {
                return word("no");
            }
            if matches!(w.fasteners(joint)?.kind, "wood screw" | "nail") {
                return word("no");
            }
            if w.looked_up(joint, properties::BEHIND).is_none() {
                return Err(Missing::outside(joint, Method::HeldBehind));
            }
            let _ = w.word(joint, properties::BEHIND)?;
            let _ = w.word(joint, properties::TIED_BY)?;
            word("yes")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::POST,
        name: "slack at the top",
        gives: LENGTH,
        help: "how far its top sways before its bolts bear in their holes",
        formula: "(hole - diameter) / a x height",
        source: "statics",
        derive: Derive::Mechanics(|w, id, working| {
            let (joint, member) = on_two_rows(w, id)?;
            let slack = w.number(joint, properties::HOLE)? - w.fasteners(joint)?.diameter.value;
            let apart = length(w.number(member, properties::SPACING)?);
            let height = length(w.number(id, properties::HEIGHT)?);
            slack_sway(working, length(slack), apart, height).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "bending ratio",
        help: "bending stress over what the timber of its top rail takes, 200 lb level in the middle between two posts; about \
            the stronger way of one that is said to lie flat",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let span = between_posts(w, id, working)?;
            let push = load::on_a_guard(working);
            let moment = moment_in_the_middle(working, push, span).map_err(|outside| Missing::beyond(id, outside))?;
            // A level push meets the edge of what lies flat.
            let flat = w.looked_up(id, properties::TOP_RAIL_LIES).is_some()
                && w.word(id, properties::TOP_RAIL_LIES)? == "flat";
            if flat { strong_way(w, id, working, moment) } else { weak_way(w, id, working, moment) }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "baluster bending ratio",
        help: "bending stress over what the timber of one baluster takes, 50 lb level in its middle; as a square of its \
            smaller way",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let Value::Balusters(balusters) = w.value(id, properties::BALUSTERS)? else {
                return Err(w.missing(id, properties::BALUSTERS));
            };
            let way = length(balusters.width.value);
            let high = super::reading::values(w.list(id, properties::HEIGHT)?).fold(0.0, f64::max);
            bar_of_infill(w, id, working, way, length(high))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "infill bending ratio",
        help: "bending stress over what the timber of one rail of its infill takes, 50 lb in its middle; as a square of its smaller \
            way",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            if w.word(id, INFILL)? != "rails" {
                return Err(Missing::outside(id, Method::InfillOfBars));
            }
            let Value::Balusters(rails) = w.value(id, properties::RAILS)? else {
                return Err(w.missing(id, properties::RAILS));
            };
            let way = length(rails.width.value);
            let span = between_posts(w, id, working)?;
            bar_of_infill(w, id, working, way, span)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "carried by",
        gives: Gives::Word(&[BRACKETS, POSTS, "a guard", "a wall"]),
        help: "what it is fixed to",
        formula: "brackets where some are drawn in it; else posts where a joint holds it to one; else a guard, or a wall, that \
            stands at its side; else posts",
        source: "the drawing",
        derive: Derive::Whole(|w, id| word(carried_by(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "rail posts",
        gives: NUMBER,
        help: "how many posts are drawn that may carry it: neither props nor the pole of a spiral",
        formula: "sum of count of the posts of which guards beside is yes",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut posts = 0.0;
            w.each(posts_that_carry(w)?, |post| {
                posts += w.number(post, properties::COUNT)?;
                Ok(())
            })?;
            if posts == 0.0 { Err(w.not_drawn(id, kinds::POST)) } else { number(posts) }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HANDRAIL,
        name: "tallest post",
        gives: LENGTH,
        help: "height of the tallest post that may carry it",
        formula: "largest height of the posts of which guards beside is yes",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut tallest: Option<f64> = None;
            w.each(posts_that_carry(w)?, |post| {
                let height = w.number(post, properties::HEIGHT)?;
                tallest = Some(tallest.map_or(height, |tallest| tallest.max(height)));
                Ok(())
            })?;
            w.length(tallest.ok_or_else(|| w.not_drawn(id, kinds::POST))?)
        }),
        ..ROW
    },
    service(kinds::HANDRAIL),
    Quantity {
        kind: kinds::HANDRAIL,
        name: "bending ratio",
        help: "bending stress over what its timber takes, 200 lb level in the middle between two of its posts, about its weaker way",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            // What to change first: its section, which `weak_way` works with.
            let _ = w.section(id)?;
            let span = between_posts(w, id, working)?;
            let push = load::on_a_handrail(working);
            let moment = moment_in_the_middle(working, push, span).map_err(|outside| Missing::beyond(id, outside))?;
            weak_way(w, id, working, moment)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "overturning factor",
        help: "what its treads and stringers weigh over what a step on the front edge of its lowest tread tips, about its \
            front foot; of flights in one line all of them, landings between them weighing nothing",
        formula: "W x (x - front foot) / (P x front foot), x from the front edge of the lowest tread to the middle of what weighs",
        source: "statics; New York City Administrative Code, 27-591, on dead load only",
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let front = length(w.number(id, properties::FRONT_FOOT)?);
            let (dead, middle) = weight_of_all(w, id, working)?;
            let load = load::on_a_tread(working);
            let none = load * length(0.0);
            match overturning(working, dead, middle - front, load, front, none).map_err(beyond)? {
                Tipping::Factor(factor) => Ok(factor),
                Tipping::Never => Err(beyond(Outside::Undefined)),
            }
        }),
        ..ROW
    },
];

const PUSH_HEIGHT: &Quantity = row(QUANTITIES, kinds::POST, "push height");

/// The joint that holds the foot of a post, and where it stands in the post. One with nothing but what the post itself
/// holds up is another; of two others nobody knows which it is.
fn foot(w: &Evaluation<'_>, post: Id) -> Result<(Id, Id), Missing> {
    let held = held(w, post)?;
    let member = *held.first().ok_or_else(|| Missing::drawing(post, Drawing::JointThatHolds))?;
    if of_several_joints(w, &held) {
        return Err(Missing::drawing(post, Drawing::TheOne(kinds::JOINT)));
    }
    Ok((w.parent(member), member))
}

/// Where the joints stand in a post that hold its foot.
fn held(w: &Evaluation<'_>, post: Id) -> Result<Vec<Id>, Missing> {
    let members = w.things(kinds::MEMBER, 0)?;
    let of_post = members.filter(|member| w.design.get(*member).is_some_and(|member| member.target == Some(post)));
    Ok(of_post.filter(|member| !is_at_the_top(w, w.parent(*member), post)).collect())
}

fn of_several_joints(w: &Evaluation<'_>, members: &[Id]) -> bool {
    members.iter().any(|one| members.first().is_some_and(|first| w.parent(*one) != w.parent(*first)))
}

/// The same, of a foot that two rows hold. One fastener alone is a pivot: no spacing settles what it takes.
fn on_two_rows(w: &Evaluation<'_>, post: Id) -> Result<(Id, Id), Missing> {
    let (joint, member) = foot(w, post)?;
    let pivots = w.trace(|| w.fasteners(joint)).0.is_ok_and(|fasteners| fasteners.count < 2.0);
    if pivots { Err(Missing::outside(joint, Method::TwoRows)) } else { Ok((joint, member)) }
}

/// Whether a joint of a post joins it to rails and guards alone.
fn is_at_the_top(w: &Evaluation<'_>, joint: Id, post: Id) -> bool {
    // Looked up and not asked for: what is found does not rest on its words.
    let joins = w.looked_up(joint, properties::JOINS).and_then(|joins| joins.value.as_ref());
    let Some(Value::Names(names)) = joins else { return false };
    let others: Vec<Id> =
        names.iter().filter_map(|(name, _)| w.design.joined(joint, name)).filter(|other| *other != post).collect();
    let held_up = |other: &Id| w.design.is(*other, kinds::HANDRAIL) || w.design.is(*other, kinds::GUARD);
    !others.is_empty() && others.iter().all(held_up)
}

/// The couple of a post's two rows under the push at its top.
fn pushed(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Couple, Missing> {
    let (_, member) = on_two_rows(w, id)?;
    let high = length(w.number(id, PUSH_HEIGHT)?);
    let apart = length(w.number(member, properties::SPACING)?);
    let push = load::on_a_guard(working);
    couple(working, push, high, apart).map_err(|outside| Missing::beyond(id, outside))
}

const INFILL: &Quantity = super::guard::INFILL;
const CARRIED_BY: &Quantity = row(QUANTITIES, kinds::HANDRAIL, "carried by");
const GUARDS_BESIDE: &Quantity = row(QUANTITIES, kinds::POST, "guards beside");

const BRACKETS: &str = "brackets";
const POSTS: &str = "posts";

/// What a handrail is fixed to.
fn carried_by(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    if w.things(kinds::BRACKET, id)?.next().is_some() {
        return Ok(BRACKETS);
    }
    for joint in w.belonging(kinds::JOINT, id)? {
        for member in w.things(kinds::MEMBER, joint)? {
            if w.design.is(target(w, member)?, kinds::POST) {
                return Ok(POSTS);
            }
        }
    }
    if super::handrail::is_middle(w, id) {
        return Ok(POSTS);
    }
    let rail = w.design.get(id);
    let (Some(place), Some(side)) = (rail.and_then(|rail| rail.serves), rail.and_then(|rail| rail.side)) else {
        // One that nobody says the place of may stand at any guard or wall.
        for (kind, word) in [(kinds::GUARD, "a guard"), (kinds::WALL, "a wall")] {
            if w.things(kind, 0)?.next().is_some() {
                return Ok(word);
            }
        }
        return Ok(POSTS);
    };
    let at = |kind| -> Result<bool, Missing> {
        let beside = |other: Id| w.design.get(other).is_some_and(|other| other.side.is_none_or(|at| at == side));
        Ok(w.things(kind, place)?.any(beside))
    };
    match (at(kinds::GUARD)?, at(kinds::WALL)?) {
        (true, _) => Ok("a guard"),
        (false, true) => Ok("a wall"),
        (false, false) => Ok(POSTS),
    }
}

/// Whether a handrail stands on posts of its own.
fn is_railed(w: &Evaluation<'_>) -> Result<bool, Missing> {
    for rail in w.things(kinds::HANDRAIL, 0)? {
        if w.word(rail, CARRIED_BY)? == POSTS {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The posts that may carry a rail.
fn posts_that_carry(w: &Evaluation<'_>) -> Result<Vec<Id>, Missing> {
    let mut posts = Vec::new();
    for post in w.things(kinds::POST, 0)? {
        if w.word(post, GUARDS_BESIDE)? == "yes" {
            posts.push(post);
        }
    }
    Ok(posts)
}

/// How far a rail spans from post to post, along its slope.
fn between_posts(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let level = length(w.number(id, properties::BETWEEN_POSTS)?);
    let serves = w.design.get(id).and_then(|rail| rail.serves);
    let pitch = match serves.filter(|place| !w.design.is(*place, kinds::FLIGHT)) {
        // A landing's, and a well's, is level.
        Some(_) => 0.0,
        None => w.number(w.flight_of(id)?, PITCH)?,
    };
    along_the_slope(working, level, Amount::degrees(pitch)).map_err(|outside| Missing::beyond(id, outside))
}

/// 50 lb in the middle of a bar of a guard's infill, as a square, over what its timber takes.
fn bar_of_infill(
    w: &Evaluation<'_>,
    id: Id,
    working: &mut Working,
    way: Amount,
    span: Amount,
) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let push = load::on_infill(working);
    let square = Section::on_edge(way, way).properties(working).map_err(beyond)?;
    let moment = moment_in_the_middle(working, push, span).map_err(beyond)?;
    let timber = as_section(w, id, working, (way, way))?;
    let stress = bending_stress(working, moment, square.modulus).map_err(beyond)?;
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenMinutes, Sharing::Single);
    let taken = adjusted::bending(working, &piece, conditions, way, Held::Loose);
    over(id, working, stress, taken.map_err(|outside| timber.lacks(outside))?)
}

/// A moment about the weaker way of a member's section, over what the timber takes.
fn weak_way(w: &Evaluation<'_>, id: Id, working: &mut Working, moment: Amount) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let timber = timber(w, id, working)?;
    let flat = shaped(w, id, Section::flat(timber.thickness, timber.width))?.properties(working).map_err(beyond)?;
    let stress = bending_stress(working, moment, flat.modulus).map_err(beyond)?;
    let square = !timber.thickness.is_below(timber.width);
    let piece = timber.piece(if square { Lies::OnEdge } else { Lies::Flat })?;
    let conditions = timber.conditions(Duration::TenMinutes, Sharing::Single);
    let taken = adjusted::bending(working, &piece, conditions, timber.thickness, Held::Loose);
    over(id, working, stress, taken.map_err(|outside| timber.lacks(outside))?)
}

/// A rectangle, or the circle of a section that is round: half as strong as the square round it.
fn shaped(w: &Evaluation<'_>, id: Id, rectangle: Section) -> Result<Section, Missing> {
    let section = w.section(id)?;
    let round = section.shape == Shape::Round;
    Ok(if round { Section::Round { diameter: length(section.thickness) } } else { rectangle })
}

/// The same about the stronger way; its ends are held by its posts against turning.
fn strong_way(w: &Evaluation<'_>, id: Id, working: &mut Working, moment: Amount) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let timber = timber(w, id, working)?;
    let on_edge = shaped(w, id, Section::on_edge(timber.thickness, timber.width))?;
    let on_edge = on_edge.properties(working).map_err(beyond)?;
    let stress = bending_stress(working, moment, on_edge.modulus).map_err(beyond)?;
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenMinutes, Sharing::Single);
    let taken = adjusted::bending(working, &piece, conditions, timber.width, Held::Ends);
    over(id, working, stress, taken.map_err(|outside| timber.lacks(outside))?)
}

/// A pull on the upper row of a joint's bolts over what the wood takes under head and nut; the greater of the two.
fn pressed(w: &Evaluation<'_>, joint: Id, working: &mut Working, pull: Amount) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(joint, outside);
    let fasteners = w.fasteners(joint)?;
    let carriage = fasteners.kind == "carriage bolt";
    if !carriage && fasteners.kind != "hex bolt" {
        return Err(Missing::outside(joint, Method::ThroughBolts));
    }
    let diameter = length(fasteners.diameter.value);
    let upper = fasteners.count / 2.0;
    let plate = match w.looked_up(joint, properties::PLATE) {
        Some(_) => Some(length(w.number(joint, properties::PLATE)?)),
        None => None,
    };
    let washers = w.word(joint, properties::WASHERS)?;
    let bare = if carriage { Under::RoundHead } else { Under::HexHead };
    let of = |washed: bool| match (washed, plate) {
        (true, Some(side)) => Under::Plate(side),
        (true, None) => Under::CutWasher,
        (false, _) => bare,
    };
    let ends = [("under the head", of(washers == "both sides")), ("under the nut", of(washers != "none"))];
    let Value::Names(names) = w.value(joint, properties::JOINS)? else {
        return Err(w.missing(joint, properties::JOINS));
    };
    let mut most: Option<Amount> = None;
    for ((part, under), name) in ends.into_iter().zip([names.first(), names.last()]) {
        let (name, _) = name.ok_or_else(|| w.missing(joint, properties::JOINS))?;
        let member = w.design.joined(joint, name).ok_or_else(|| w.missing(joint, properties::JOINS))?;
        let timber = timber(w, member, working)?;
        let found = working.part(part, |working| {
            let area = pressed_area(working, diameter, under).map_err(beyond)?;
            let bears = Bears { length: across(under, diameter).map_err(beyond)?, from_end: 3.0 * INCHES };
            let piece = timber.piece(Lies::OnEdge)?;
            let conditions = timber.conditions(Duration::TenMinutes, Sharing::Single);
            let taken = adjusted::across(working, &piece, conditions, bears);
            let taken = taken.map_err(|outside| timber.lacks(outside))?;
            let taken = bolt::pressed(working, taken, area, upper).map_err(beyond)?;
            over(joint, working, pull, taken)
        })?;
        most = Some(most.map_or(found, |most| if most.is_below(found) { found } else { most }));
    }
    most.ok_or_else(|| w.missing(joint, properties::JOINS))
}

/// How long what presses on the wood is along the grain.
fn across(under: Under, diameter: Amount) -> Result<Amount, Outside> {
    let inches = diameter.per(INCHES);
    let lacking = Outside::Lacking(Lacking::Head);
    let across = match under {
        Under::Plate(side) => return Ok(side),
        Under::CutWasher => washer(WasherShape::Round, inches).map(|row| row.outside),
        Under::RoundHead => carriage_head(inches).map(|row| row.head),
        Under::HexHead => handbook::by_diameter(&handbook::BOLTS, inches, |row| row.diameter).map(|row| row.flats),
    };
    across.map(|inches| inches * INCHES).ok_or(lacking)
}

/// What the treads and stringers of all flights weigh, and how far behind the front edge of the lowest tread the middle of that
/// lies. What landings between them weigh holds the stair down, and is left out.
fn weight_of_all(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<(Amount, Amount), Missing> {
    let mut all: Option<(Amount, Amount)> = None;
    let (mut begins, mut before) = (0.0, None);
    for flight in w.things(kinds::FLIGHT, 0)? {
        if let Some(before) = before {
            begins += between(w, before, flight)?;
        }
        let run = w.number(flight, RUN)?;
        let these = (weighs(w, flight, working)?, length(begins + run / 2.0));
        all = Some(match all {
            None => these,
            Some(all) => together(working, all, these).map_err(|outside| Missing::beyond(id, outside))?,
        });
        begins += run;
        before = Some(flight);
    }
    all.ok_or_else(|| w.not_drawn(id, kinds::FLIGHT))
}

/// How deep the landing is between two flights in one line.
fn between(w: &Evaluation<'_>, below: Id, above: Id) -> Result<f64, Missing> {
    for landing in w.things(kinds::LANDING, 0)? {
        if joined(w, landing)? == [below, above] {
            if turn(w, landing)? != "straight" {
                return Err(Missing::outside(landing, Method::FlightsInLine));
            }
            return w.number(landing, properties::DEPTH);
        }
    }
    Err(w.not_drawn(above, kinds::LANDING))
}

/// What the treads and stringers of a flight weigh, at 12 % of moisture and by the wood left under the notches.
fn weighs(w: &Evaluation<'_>, flight: Id, working: &mut Working) -> Result<Amount, Missing> {
    let mut all: Option<Amount> = None;
    let mut add = |working: &mut Working, id, sizes, count, weight| {
        let these = pieces(working, sizes, count, weight).map_err(|outside| Missing::beyond(id, outside))?;
        all = Some(all.map_or(these, |all| with_those_before(working, all, these)));
        Ok::<_, Missing>(())
    };
    for tread in w.things(kinds::TREAD, flight)? {
        let section = w.section(tread)?;
        let boards = match w.looked_up(tread, properties::BOARDS) {
            Some(_) => w.number(tread, properties::BOARDS)?,
            None => 1.0,
        };
        let long = w.number(tread, properties::LENGTH)?;
        let heavy = heavy(w, tread, working)?;
        add(working, tread, ((length(section.thickness), length(section.depth)), length(long)), boards, heavy)?;
    }
    let (run, pitch) = (length(w.number(flight, RUN)?), Amount::degrees(w.number(flight, PITCH)?));
    let slope = along_the_slope(working, run, pitch).map_err(|outside| Missing::beyond(flight, outside))?;
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        let thickness = length(w.section(stringer)?.thickness);
        let throat = length(w.number(stringer, THROAT)?);
        let count = w.number(stringer, properties::COUNT)?;
        let heavy = heavy(w, stringer, working)?;
        add(working, stringer, ((thickness, throat), slope), count, heavy)?;
        Ok(())
    })?;
    all.ok_or_else(|| w.not_drawn(flight, kinds::STRINGER))
}

fn heavy(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let gravity = super::part::gravity(w, id)?;
    weight(working, gravity, 12.0).map_err(|outside| Missing::beyond(id, outside))
}
