//! Joints under load: what goes through their fasteners, what the stair asks of them, and what they take across their
//! length.

use super::custom::CustomId;
use super::datum::Datum;
use super::evaluation::{Evaluation, word};
use super::fastened::on_the_way;
use super::flight::{PITCH, UNIT_RUN};
use super::formula::Derive;
use super::joint::{across, joined, member_of, spacer, through};
use super::load::{self, length};
use super::member::{over, reaction, timber};
use super::missing::{FastenerPart, Method, Missing, Statement};
use super::part::{gravity, known_timber, own_timber};
use super::quantity::{FORCE, Gives, Quantity, ROW, row};
use crate::handbook;
use crate::mechanics::adjusted::{self, Duration, Lies, Sharing};
use crate::mechanics::amount::{Amount, INCHES, least};
use crate::mechanics::bolt::{neck_holds, thread_in_wood};
use crate::mechanics::demand::end_of_a_tread;
use crate::mechanics::dowel::{Against, Dowel, DowelKind, Thread, toe_nail};
use crate::mechanics::group::{Joins, Row};
use crate::mechanics::joint::{Joined, Joint, lateral_value};
use crate::mechanics::lateral::{Enters, Meets, Moisture, Pattern};
use crate::mechanics::local;
use crate::mechanics::placing::{Grain, Hardness, Stands};
use crate::mechanics::withdrawal::{self, Pulled, Shank};
use crate::mechanics::yield_limit::Shear;
use crate::mechanics::{Assumption, Lacking, Outside, Working};
use crate::model::{Fasteners, Id, kinds, properties};

const HANGS_A_TREAD: &str = "hangs a tread";
const HOLDS_UP_A_STRINGER: &str = "holds up a stringer";
const HOLDS_A_RAIL: &str = "holds a rail";
const OTHER: &str = "other";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::JOINT,
        name: "duty",
        gives: Gives::Word(&[HANGS_A_TREAD, HOLDS_UP_A_STRINGER, HOLDS_A_RAIL, OTHER]),
        help: "what goes through its fasteners, across their length",
        formula: "hangs a tread: from a stringer that is neither notched nor housed into the end of a tread; holds up a \
            stringer: of a stringer and a post, where no guard is drawn or the post stands between ends; holds a rail: of a handrail or guard and a post; \
            other: of a tread that rests, of a brace, of boards; not known of what else carries",
        source: "statics: what rests on wood is not carried by what holds it there",
        derive: Derive::Whole(|w, id| word(duty(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "demand",
        gives: FORCE,
        help: "what the stair asks of all its fasteners together",
        formula: "of a tread the greater of 300 lb + dead load and live + dead load, on half of it; of a stringer its force on \
            a support; of a rail 200 lb",
        source: "statics; loads of IRC R301.5 and IBC Table 1607.1",
        derive: Derive::Mechanics(demand),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "lateral value",
        gives: FORCE,
        help: "what all its fasteners take across their length",
        formula: "n Z'",
        source: "NDS 2018, 11.3.1 and 12.3 to 12.5",
        derive: Derive::Mechanics(value),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "lateral ratio",
        help: "what the stair asks of its fasteners over what they take",
        formula: "demand / lateral value",
        source: "NDS 2018, 11.3.1 and 12.3 to 12.5",
        derive: Derive::Mechanics(|w, id, working| asked_over(w, id, working, value)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "toe-nailed",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it is of toe-nails",
        formula: "toe-nailed as stated, else no; no of all but a nail",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            if w.fasteners(id)?.kind != "nail" {
                return word("no");
            }
            if w.looked_up(id, properties::TOE_NAILED).is_some() {
                return Ok(Datum::Word(w.word(id, properties::TOE_NAILED)?));
            }
            w.custom(CustomId::SQUARE_NAILS, id);
            word("no")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "drawn from end grain",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether what it holds is drawn off along nails or screws that stand in its end",
        formula: "no of all but wood screws and nails, and of what is no post under their heads with a rail before their points; yes where \
            that is a handrail that ends at a post; else not known",
        source: "NDS 2018, 12.2.2.3 and 12.2.3.4",
        derive: Derive::Whole(|w, id| word(drawn_from_end_grain(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "pulled ratio",
        help: "200 lb on a rail, at whatever angle is worst, over what its lags, screws or nails take",
        formula: "P / (n Z_alpha)",
        source: "NDS 2018, 12.2, 12.4 and 11.3.1",
        derive: Derive::Mechanics(|w, id, working| asked_over(w, id, working, at_the_worst_angle)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "tearing ratio",
        help: "the force of a stringer on its post over what the wood of the post takes beside its bolts",
        formula: "demand / the least that the wood takes: across the holes, along the rows, round all of them",
        source: "NDS 2018, Appendix E",
        derive: Derive::Mechanics(|w, id, working| asked_over(w, id, working, torn_beside)),
        ..ROW
    },
];

/// What a joint is asked, over what it takes in one way.
fn asked_over(
    w: &Evaluation<'_>,
    id: Id,
    working: &mut Working,
    taken: fn(&Evaluation<'_>, Id, &mut Working) -> Result<Amount, Missing>,
) -> Result<Amount, Missing> {
    // What to change first: the fasteners.
    let _ = w.fasteners(id)?;
    let asked = working.part("demand", |working| demand(w, id, working))?;
    let taken = taken(w, id, working)?;
    over(id, working, asked, taken)
}

/// What all the lags, screws or nails of a rail's joint take together of a push that may come along them, across them, or
/// between.
fn at_the_worst_angle(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let across = working.part("across", |working| value(w, id, working))?;
    let fasteners = w.fasteners(id)?;
    let count = fasteners.count;
    let (first, second) = pair(w, id)?;
    let names = joined(w, id)?;
    let thickness = |nth: usize| {
        let (name, _) = names.get(nth).ok_or_else(|| w.missing(id, properties::JOINS))?;
        Ok(length(through(w, id, nth, name)?))
    };
    let (side, main) = (thickness(0)?, thickness(1)?);
    let dowel = dowel(w, id, working, fasteners, (side, main))?;
    let long = fasteners.length.map(Amount::from);
    let long = long.ok_or_else(|| Missing::statement(id, Statement::OfFasteners(FastenerPart::Length)))?;
    // Past a post under its head it goes along the grain of the rail; past a rail into the side of the post.
    let enters = if w.design.is(first, kinds::POST) { Enters::EndGrain } else { Enters::SideGrain };
    let meets = Meets { enters, ..meets(w, working, HOLDS_A_RAIL, false)? };
    let goes_in = least(long - side, main);
    let holds = match dowel.kind {
        DowelKind::Lag => {
            let tip = dowel.tip.ok_or_else(|| beyond(Outside::Lacking(Lacking::Tip)))?;
            let thread = withdrawal::lag_thread(working, long, tip).map_err(beyond)?;
            least(thread, least(long - tip - side, main))
        }
        // A cut thread is about two thirds of the screw: NDS Table L3.
        DowelKind::WoodScrew => least(goes_in, long * (2.0 / 3.0)),
        DowelKind::Nail | DowelKind::Bolt => goes_in,
    };
    let shank = match fasteners.coating {
        Some("stainless") => Shank::SmoothStainless,
        _ => Shank::Smooth,
    };
    let pulled = Pulled { dowel: &dowel, shank, gravity: gravity(w, second)?, holds };
    let mut out = working.part("along", |working| withdrawal::adjusted(working, &pulled, meets)).map_err(beyond)?;
    if dowel.kind != DowelKind::Lag {
        let head = head_of(&dowel).ok_or_else(|| beyond(Outside::Lacking(Lacking::Head)))?;
        let wood = gravity(w, first)?;
        let held =
            working.part("head", |working| withdrawal::head_adjusted(working, wood, (head, side), dowel.kind, meets));
        out = least(out, held.map_err(beyond)?);
    }
    working.part("aslant", |working| {
        withdrawal::all_at_the_worst_angle(working, dowel.kind, (across, out), count).map_err(beyond)
    })
}

/// The head of a screw or nail, across.
fn head_of(dowel: &Dowel) -> Option<Amount> {
    let inches = dowel.diameter.per(INCHES);
    let head = match dowel.kind {
        DowelKind::WoodScrew => handbook::by_diameter(&handbook::WOOD_SCREWS, inches, |row| row.diameter)?.head,
        DowelKind::Nail => handbook::by_diameter(&handbook::NAILS, inches, |row| row.diameter)?.head?,
        DowelKind::Bolt | DowelKind::Lag => return None,
    };
    Some(head * INCHES)
}

/// What the wood of a post takes beside the bolts that a stringer hangs on, pulled along its grain.
fn torn_beside(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let (first, second) = pair(w, id)?;
    let (nth, post) = if w.design.is(first, kinds::POST) { (0, first) } else { (1, second) };
    let names = joined(w, id)?;
    let (name, _) = names.get(nth).ok_or_else(|| w.missing(id, properties::JOINS))?;
    let fasteners = w.fasteners(id)?;
    let hole = length(w.number(id, properties::HOLE)?);
    let needs = || Missing::statement(id, Statement::OfMember(properties::END, nth));
    let member = member_of(w, id, name).ok_or_else(needs)?;
    let apart = |property| {
        let stated = w.number(member, property)?;
        Ok::<_, Missing>(Some(stated).filter(|apart| *apart > 0.0).map(length))
    };
    let (spacing, rows_apart) = if fasteners.count > 1.0 {
        let spacing = apart(properties::SPACING)?;
        let rows = match w.looked_up(member, properties::ROW_SPACING) {
            Some(_) => apart(properties::ROW_SPACING)?,
            None => None,
        };
        (spacing, rows)
    } else {
        (None, None)
    };
    // One row, unless they stand side by side or in two rows.
    let rows = match (spacing, rows_apart) {
        (None, Some(_)) => fasteners.count,
        (Some(_), Some(_)) => 2.0,
        (_, None) => 1.0,
    };
    let timber = timber(w, post, working)?;
    let thick = length(through(w, id, nth, name)?);
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
    let lacks = |outside| timber.lacks(outside);
    let tension = working.part("post", |working| adjusted::tension(working, &piece, conditions)).map_err(lacks)?;
    let shear = working.part("post", |working| adjusted::shear(working, &piece, conditions)).map_err(lacks)?;
    let pulled = local::Pulled {
        thickness: thick,
        width: length(across(w, member)?),
        hole,
        rows,
        in_row: (fasteners.count / rows).ceil(),
        end: length(w.number(member, properties::END)?),
        spacing,
        across: rows_apart.map_or(length(0.0), |apart| apart * (rows - 1.0)),
    };
    local::torn(working, &pulled, tension, shear).map_err(beyond)
}

/// Whether a push on a rail draws a joint's fasteners out of the end of that rail. Past a post under their heads they go into the
/// rail: into its end, where it ends at a post.
fn drawn_from_end_grain(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    if !matches!(w.fasteners(id)?.kind, "wood screw" | "nail") {
        return Ok("no");
    }
    let (first, second) = pair(w, id)?;
    let rail = w.design.is(second, kinds::HANDRAIL) || w.design.is(second, kinds::GUARD);
    if !w.design.is(first, kinds::POST) || !rail {
        return Ok("no");
    }
    // A rail that runs past its post is met in its side.
    let ends = w.design.is(second, kinds::HANDRAIL) && w.looked_up(second, properties::ENDS).is_some();
    if ends && w.word(second, properties::ENDS)? == "at a post" {
        return Ok("yes");
    }
    Err(Missing::beyond(id, Outside::WithdrawalFromEndGrain))
}

const BY_TOE_NAILS: &Quantity = row(QUANTITIES, kinds::JOINT, "toe-nailed");
const DUTY: &Quantity = row(QUANTITIES, kinds::JOINT, "duty");

/// The two members that a joint's load passes between, the one under the head first.
fn pair(w: &Evaluation<'_>, id: Id) -> Result<(Id, Id), Missing> {
    let of = |nth: usize| {
        let (name, _) = joined(w, id)?.get(nth).ok_or_else(|| w.missing(id, properties::JOINS))?;
        w.design.joined(id, name).ok_or_else(|| w.missing(id, properties::JOINS))
    };
    Ok((of(0)?, of(1)?))
}

fn duty(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    let (first, second) = pair(w, id)?;
    let is = |id: Id, kind| w.design.is(id, kind);
    let either = |kind| is(first, kind) || is(second, kind);
    let unknown = Err(Missing::outside(id, Method::JointOfKnownLoad));
    if either(kinds::STRINGER) && either(kinds::TREAD) {
        let stringer = if is(first, kinds::STRINGER) { first } else { second };
        let cut = w.word(stringer, properties::CUT)?;
        return match cut.as_ref() {
            "notched" | "housed" => Ok(OTHER),
            _ if on_cleats(w, if stringer == first { second } else { first })? => {
                Err(Missing::outside(id, Method::OnCleats))
            }
            _ if stringer == first => Ok(HANGS_A_TREAD),
            _ => unknown,
        };
    }
    // Wind and what else a brace is for are left out.
    if either(kinds::BRACE) {
        return Ok(OTHER);
    }
    let rail = either(kinds::HANDRAIL) || either(kinds::GUARD);
    if either(kinds::POST) && rail {
        return Ok(HOLDS_A_RAIL);
    }
    // Any post may be one of a guard's, whose push comes along its bolts as well; but for one that stands between ends.
    if either(kinds::POST) && either(kinds::STRINGER) {
        let post = if is(first, kinds::POST) { first } else { second };
        if on_the_way(w, post)? || w.things(kinds::GUARD, 0)?.next().is_none() {
            return Ok(HOLDS_UP_A_STRINGER);
        }
    }
    let spliced = is(first, kinds::STRINGER) && is(second, kinds::STRINGER);
    if spliced || rail || either(kinds::POST) || either(kinds::LANDING) { unknown } else { Ok(OTHER) }
}

/// Whether cleats or brackets carry a tread, so that what is drawn through its stringer does not.
fn on_cleats(w: &Evaluation<'_>, tread: Id) -> Result<bool, Missing> {
    if w.looked_up(tread, properties::HELD_BY).is_none() {
        return Ok(false);
    }
    Ok(matches!(w.word(tread, properties::HELD_BY)?.as_ref(), "cleats" | "brackets"))
}

fn said_duty(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    let said = w.word(id, DUTY)?;
    let known = [HANGS_A_TREAD, HOLDS_UP_A_STRINGER, HOLDS_A_RAIL].into_iter().find(|duty| *duty == said.as_ref());
    Ok(known.unwrap_or(OTHER))
}

/// Nothing is asked of a joint of another duty: it has no load that is known here.
fn demand(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beyond = || Missing::beyond(id, Outside::NothingThere);
    let (first, second) = pair(w, id)?;
    match said_duty(w, id)? {
        HANGS_A_TREAD => {
            let flight = w.flight_of(second)?;
            let sizes = (length(w.number(flight, UNIT_RUN)?), length(w.number(second, properties::LENGTH)?));
            let loads =
                (load::dead(w, flight, working)?, load::live_or_snow(w, flight, working)?, load::on_a_tread(working));
            end_of_a_tread(working, sizes, loads).map_err(|outside| Missing::beyond(id, outside))
        }
        HOLDS_UP_A_STRINGER => {
            let (stringer, post) = if w.design.is(first, kinds::STRINGER) { (first, second) } else { (second, first) };
            // What stands under it on its way halves a span that nobody has halved.
            if on_the_way(w, post)? && w.looked_up(stringer, properties::SPAN).is_none() {
                return Err(Missing::statement(stringer, Statement::Property(properties::SPAN)));
            }
            reaction(w, stringer, working)
        }
        HOLDS_A_RAIL => Ok(load::on_a_guard(working)),
        _ => Err(beyond()),
    }
}

fn value(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let said = said_duty(w, id)?;
    if said == OTHER {
        return Err(beyond(Outside::NothingThere));
    }
    let names = joined(w, id)?;
    if names.len() != 2 || spacer(w, id)? > 0.0 {
        // Three members, and members that do not lie on each other: the latter outside the yield equations.
        return Err(beyond(Outside::Gap));
    }
    let fasteners = w.fasteners(id)?;
    let bolted = matches!(fasteners.kind, "carriage bolt" | "hex bolt");
    let (first, second) = pair(w, id)?;
    let thickness = |nth: usize| {
        let (name, _) = names.get(nth).ok_or_else(|| w.missing(id, properties::JOINS))?;
        Ok(length(through(w, id, nth, name)?))
    };
    let (mut side, main) = (thickness(0)?, thickness(1)?);
    let dowel = dowel(w, id, working, fasteners, (side, main))?;
    let mut meets = meets(w, working, said, bolted)?;
    let mut long = fasteners.length.map(Amount::from);
    if w.word(id, BY_TOE_NAILS)? == "yes" {
        let stated = long.ok_or_else(|| Missing::statement(id, Statement::OfFasteners(FastenerPart::Length)))?;
        let (starts, reaches) = working.part("toe-nail", |working| toe_nail(working, stated)).map_err(beyond)?;
        meets.enters = Enters::ToeNailed;
        (side, long) = (starts, Some(starts + reaches));
    }
    let goes_in = match (bolted, long) {
        (true, _) => main,
        (false, Some(long)) => least(long - side, main),
        (false, None) => return Err(Missing::statement(id, Statement::OfFasteners(FastenerPart::Length))),
    };
    let loads = |element: Id| -> &'static [Grain] {
        match said {
            HOLDS_UP_A_STRINGER if w.design.is(element, kinds::POST) => &[Grain::TowardEnd],
            HANGS_A_TREAD if w.design.is(element, kinds::TREAD) => &[Grain::Across],
            _ => &[Grain::TowardEnd, Grain::Across],
        }
    };
    let member = |nth: usize, element: Id, thickness: Amount| {
        let against = Against::Wood { gravity: gravity(w, element)?, angle: angle(w, said, element)? };
        let stands = if dowel.is_large() { Some(stands(w, id, nth, element, &dowel, (goes_in, side))?) } else { None };
        Ok::<_, Missing>(Joined { against, thickness, stands, loads: loads(element) })
    };
    let (head, point) = (member(0, first, side)?, member(1, second, main)?);
    let spaced = head.stands.and_then(|stands| stands.spacing).or(point.stands.and_then(|stands| stands.spacing));
    let row = match spaced {
        Some(spacing) if fasteners.count > 1.0 => Some(Row {
            count: fasteners.count,
            diameter: dowel.diameter,
            spacing,
            main: stiffness(w, second, working)?,
            side: stiffness(w, first, working)?,
            joins: Joins::WoodToWood,
        }),
        _ => None,
    };
    let joint = Joint {
        dowel: &dowel,
        count: fasteners.count,
        main: point,
        side: head,
        shear: Shear::Single,
        length: long,
        row,
        meets,
    };
    lateral_value(working, &joint).map_err(beyond)
}

/// One of the fasteners as a dowel; of a bolt, with its thread in the wood unless its length says otherwise.
fn dowel(
    w: &Evaluation<'_>,
    id: Id,
    working: &mut Working,
    fasteners: &Fasteners,
    (side, main): (Amount, Amount),
) -> Result<Dowel, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let diameter = Amount::from(fasteners.diameter);
    match fasteners.kind {
        "lag" => Dowel::lag(diameter).map_err(beyond),
        "wood screw" => Dowel::wood_screw(diameter).map_err(beyond),
        "nail" => Dowel::nail(diameter).map_err(beyond),
        kind => {
            if kind == "carriage bolt" {
                neck_holds(diameter, side, length(w.number(id, properties::HOLE)?)).map_err(beyond)?;
            }
            let thread = match fasteners.length {
                Some(stated) => {
                    let none = 0.0 * INCHES;
                    let found = thread_in_wood(working, diameter, stated.into(), side + main, none, main);
                    found.map_err(beyond)?
                }
                None => {
                    working.assume(Assumption::ThreadInShearPlane);
                    Thread::InTheWood
                }
            };
            Dowel::bolt(diameter, thread).map_err(beyond)
        }
    }
}

fn meets(w: &Evaluation<'_>, working: &mut Working, said: &str, bolted: bool) -> Result<Meets, Missing> {
    let moisture = if w.word(0, properties::SETTING)? == "outdoors" {
        working.assume(Assumption::WetOutdoors);
        Moisture::UsedWet
    } else {
        working.assume(Assumption::DryIndoors);
        working.assume(Assumption::MadeDry);
        Moisture::Dry
    };
    let duration = if said == HOLDS_A_RAIL { Duration::TenMinutes } else { Duration::TenYears };
    // Screws and nails into the end of a tread; into the end of a rail, where a post is under their heads, too.
    let enters = if !bolted && said != HOLDS_UP_A_STRINGER { Enters::EndGrain } else { Enters::SideGrain };
    Ok(Meets { duration, moisture, pattern: Pattern::OneRow, enters })
}

/// Between the load and the grain of a member, degrees. A push on a rail may come any way, so across.
fn angle(w: &Evaluation<'_>, said: &str, element: Id) -> Result<f64, Missing> {
    if said != HOLDS_A_RAIL && w.design.is(element, kinds::STRINGER) {
        return Ok(90.0 - w.number(w.flight_of(element)?, PITCH)?);
    }
    let along = said == HOLDS_UP_A_STRINGER && w.design.is(element, kinds::POST);
    Ok(if along { 0.0 } else { 90.0 })
}

fn hardness(w: &Evaluation<'_>, element: Id) -> Result<Hardness, Missing> {
    let timber = w.timber(element)?;
    let hard = match own_timber(w, timber) {
        Some(own) => w.word(own, properties::HARDNESS)? == "hardwood",
        None => known_timber(element, timber, properties::HARDNESS)?.hardwood,
    };
    Ok(if hard { Hardness::Hardwood } else { Hardness::Softwood })
}

/// Where the fasteners stand in one member: which edge is loaded no drawing says, so the nearer counts as that.
fn stands(
    w: &Evaluation<'_>,
    joint: Id,
    nth: usize,
    element: Id,
    dowel: &Dowel,
    lengths: (Amount, Amount),
) -> Result<Stands, Missing> {
    let (name, _) = joined(w, joint)?.get(nth).ok_or_else(|| w.missing(joint, properties::JOINS))?;
    let needs = || Missing::statement(joint, Statement::OfMember(properties::END, nth));
    let member = member_of(w, joint, name).ok_or_else(needs)?;
    let edge = w.number(member, properties::EDGE)?;
    let other = across(w, member)? - edge;
    let several = w.fasteners(joint)?.count > 1.0;
    let apart = |property| {
        if !several {
            return Ok(None);
        }
        Ok::<_, Missing>(Some(w.number(member, property)?).filter(|apart| *apart > 0.0).map(length))
    };
    let spacing = apart(properties::SPACING)?;
    let rows = if spacing.is_none() || w.looked_up(member, properties::ROW_SPACING).is_some() {
        apart(properties::ROW_SPACING)?
    } else {
        None
    };
    Ok(Stands {
        diameter: dowel.diameter,
        hardness: hardness(w, element)?,
        end: Some(length(w.number(member, properties::END)?)),
        loaded_edge: Some(length(edge.min(other))),
        unloaded_edge: Some(length(edge.max(other))),
        spacing,
        rows,
        lengths,
    })
}

/// Modulus of elasticity and area of a member.
fn stiffness(w: &Evaluation<'_>, element: Id, working: &mut Working) -> Result<(Amount, Amount), Missing> {
    let timbered = timber(w, element, working)?;
    let piece = timbered.piece(Lies::OnEdge)?;
    let conditions = timbered.conditions(Duration::TenYears, Sharing::Single);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timbered.lacks(outside))?;
    Ok((modulus, timbered.thickness * timbered.width))
}
