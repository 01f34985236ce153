//! Joints: what fastens them, how deep it goes, and where it stands in each member.

use std::borrow::Cow;

use super::datum::Datum;
use super::evaluation::{Evaluation, number, word};
use super::formula::Formula::{Asks, Minus, Number, Over, Stated, Times};
use super::formula::{Derive, Of};
use super::missing::{Drawing, FastenerPart, Method, Missing, Statement};
use super::part::{known_timber, own_timber};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::step::NOSING;
use super::string_ends::longest;
use super::stringer::THROAT;
use super::winder::{DEPTH_AT, SHAPE};
use crate::base::Span;
use crate::handbook;
use crate::measure::{Dimension, INCH, equal};
use crate::model::fastenings::COATINGS;
use crate::model::sizes::screw_root;
use crate::model::{IN_THE_CENTRE, Id, Trait, Value, kinds, properties};

const FASTENERS: &[&str] = &["carriage bolt", "hex bolt", "lag", "wood screw", "nail"];
const NDS: &str = "NDS 2018, 12.5.1";

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::JOINT,
        name: "fastener",
        gives: Gives::Word(FASTENERS),
        help: "what fastens it",
        formula: "as stated",
        source: "the trade's names",
        derive: Derive::Whole(|w, id| word(w.fasteners(id)?.kind)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "diameter",
        gives: LENGTH,
        help: "of the shank",
        formula: "as stated, or by the number of a screw or nail",
        source: "NDS Tables L1 to L4",
        derive: Derive::Whole(|w, id| Ok(Datum::Measure(w.fasteners(id)?.diameter))),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "fastener length",
        gives: LENGTH,
        help: "under the head to the tip",
        formula: "as stated, or by the size of a nail",
        source: "NDS Table L4",
        derive: Derive::Whole(|w, id| {
            let length = w.fasteners(id)?.length;
            length
                .map(Datum::Measure)
                .ok_or_else(|| Missing::statement(id, Statement::OfFasteners(FastenerPart::Length)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "fastener count",
        gives: NUMBER,
        help: "how many",
        formula: "as stated",
        source: "the drawing",
        derive: Derive::Whole(|w, id| number(w.fasteners(id)?.count)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "coating",
        gives: Gives::Word(COATINGS),
        help: "against rust",
        formula: "as stated",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let coating = w.fasteners(id)?.coating;
            let needs = || Missing::statement(id, Statement::OfFasteners(FastenerPart::Coating));
            coating.map(|word| Datum::Word(Cow::Borrowed(word))).ok_or_else(needs)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "stack",
        gives: LENGTH,
        help: "thickness that a through-bolt passes",
        formula: "sum of through of each member + spacer",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let mut stack = 0.0;
            for (nth, (name, _)) in joined(w, id)?.iter().enumerate() {
                stack += through(w, id, nth, name)?;
            }
            w.length(stack + spacer(w, id)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "wood ahead",
        gives: LENGTH,
        help: "the most that a lag, screw or nail may find before its point: it may go into the second member along \
            either way of its section",
        formula: "through of the first member + spacer + through of the second, or the larger way of its section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let names = joined(w, id)?;
            let missing = || w.missing(id, properties::JOINS);
            let (first, _) = names.first().ok_or_else(missing)?;
            let (second, _) = names.get(1).ok_or_else(missing)?;
            let first = through(w, id, 0, first)?;
            let stated = member_of(w, id, second)
                .filter(|member| w.looked_up(*member, properties::THROUGH).is_some())
                .map(|member| w.number(member, properties::THROUGH));
            let second = match stated {
                Some(through) => through?,
                None => {
                    // A block of the joint that was not understood may state it.
                    let _ = w.things(kinds::MEMBER, id)?;
                    let needs = || Missing::statement(id, Statement::OfMember(properties::THROUGH, 1));
                    w.section(w.design.joined(id, second).ok_or_else(needs)?)?.depth
                }
            };
            w.length(first + spacer(w, id)? + second)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "hole play",
        gives: LENGTH,
        help: "hole less shank",
        source: "NDS 2018, 12.1.3.2",
        derive: Derive::Formula(&Minus(&Stated(Of::This, properties::HOLE), &Asks(Of::This, || DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "nut room",
        gives: LENGTH,
        help: "that washer, nut and a little thread take past the stack",
        source: "common practice",
        derive: Derive::Formula(&Times(&Number(2.0), &Asks(Of::This, || DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "length past the first",
        gives: LENGTH,
        help: "of a lag, screw or nail past the member under its head; a lag's tip does not count",
        formula: "fastener length - through of the first member - spacer - tip of a lag",
        source: "NDS 2018, 12.1.4.6, 12.1.5.6, 12.1.6.5",
        derive: Derive::Whole(|w, id| {
            let past = past_the_first(w, id)?;
            let tip = match w.fasteners(id)?.kind {
                "lag" => lag_tip(w.number(id, DIAMETER)?),
                _ => 0.0,
            };
            w.length(past - tip)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "penetration",
        gives: LENGTH,
        help: "of a lag, screw or nail into the member it holds to; what comes out behind it does not count",
        formula: "lesser of length past the first and through of the second member",
        source: "NDS 2018, 12.1.4.6, 12.1.5.6, 12.1.6.5",
        derive: Derive::Whole(|w, id| {
            let past = w.number(id, LENGTH_PAST_THE_FIRST)?;
            w.length(past.min(through_second(w, id)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "gravity",
        gives: NUMBER,
        help: "specific gravity of the member that its fasteners hold to, oven-dry weight and volume",
        formula: "by species in timber, or gravity of a timber of your own",
        source: "NDS 2018, Table 12.3.3A",
        derive: Derive::Whole(|w, id| {
            let names = joined(w, id)?;
            let (last, _) = names.last().ok_or_else(|| w.missing(id, properties::JOINS))?;
            let held = w.design.joined(id, last).ok_or_else(|| w.missing(id, properties::JOINS))?;
            let timber = w.timber(held)?;
            if let Some(own) = own_timber(w, timber) {
                return w.datum(own, properties::GRAVITY);
            }
            let needs = || Missing::statement(held, Statement::OfTimber(properties::GRAVITY));
            number(known_timber(held, timber, properties::GRAVITY)?.gravity().ok_or_else(needs)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "treated",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether any of its members is treated with a preservative",
        formula: "yes where the timber of any member is treated",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let mut members = Vec::new();
            for (name, _) in joined(w, id)? {
                members.push(w.design.joined(id, name).ok_or_else(|| w.missing(id, properties::JOINS))?);
            }
            let mut treated = false;
            let known = w.each(members, |member| {
                treated = treated || w.timber(member)?.is_treated();
                Ok(())
            });
            if treated { word("yes") } else { known.and_then(|()| word("no")) }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "pilot share",
        gives: NUMBER,
        help: "of the shank that the hole for the thread takes",
        source: "NDS 2018, 12.1.4.2",
        derive: Derive::Formula(&Over(&Stated(Of::This, properties::PILOT), &Asks(Of::This, || DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "root share",
        gives: NUMBER,
        help: "of a screw's root that the hole for its thread takes",
        formula: "pilot / root diameter of the screw",
        source: "NDS 2018, 12.1.5.2; roots by NDS Table L3, from memory",
        derive: Derive::Whole(|w, id| {
            let pilot = w.number(id, properties::PILOT)?;
            let diameter = w.number(id, DIAMETER)?;
            let root = screw_root(diameter / INCH).ok_or_else(|| Missing::outside(id, Method::NumberedScrews))?;
            number(pilot / (root * INCH))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOINT,
        name: "slenderness",
        gives: NUMBER,
        help: "its length in the thinner of the members, in shank diameters",
        formula: "lesser of through of each member / diameter; of a lag, in the last no more than goes in",
        source: "NDS 2018, 12.5.1, l/D",
        derive: Derive::Whole(|w, id| {
            let mut thinnest = f64::INFINITY;
            for (nth, (name, _)) in joined(w, id)?.iter().enumerate() {
                thinnest = thinnest.min(through(w, id, nth, name)?);
            }
            if w.fasteners(id)?.kind == "lag" {
                thinnest = thinnest.min(past_the_first(w, id)?);
            }
            number(thinnest / w.number(id, DIAMETER)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "fastener",
        gives: Gives::Word(FASTENERS),
        help: "what fastens the joint",
        source: "the trade's names",
        derive: Derive::Formula(&Asks(Of::Joint, || FASTENER)),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "diameter",
        gives: LENGTH,
        help: "of the shank",
        source: "NDS Tables L1 to L4",
        derive: Derive::Formula(&Asks(Of::Joint, || DIAMETER)),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "end in diameters",
        gives: NUMBER,
        help: "end distance in shank diameters",
        source: NDS,
        derive: Derive::Formula(&Over(&Stated(Of::This, properties::END), &Asks(Of::This, || MEMBER_DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "edge in diameters",
        gives: NUMBER,
        help: "distance to the edge that is stated, in shank diameters",
        source: NDS,
        derive: Derive::Formula(&Over(&Stated(Of::This, properties::EDGE), &Asks(Of::This, || MEMBER_DIAMETER))),
        ..ROW
    },
    // A load turns round, so the edge on the other side counts as well.
    Quantity {
        kind: kinds::MEMBER,
        name: "far edge in diameters",
        gives: NUMBER,
        help: "distance to the other edge in shank diameters",
        formula: "(the way of section square to the fastener - edge) / diameter; of a notched stringer its throat for that \
            way: past it the wood is cut",
        source: NDS,
        derive: Derive::Whole(|w, id| {
            let edge = w.number(id, properties::EDGE)?;
            number((whole_across(w, id)? - edge) / w.number(id, MEMBER_DIAMETER)?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "other edge",
        gives: LENGTH,
        help: "distance to the other edge",
        formula: "the way of section square to the fastener - edge",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let edge = w.number(id, properties::EDGE)?;
            w.length(across(w, id)? - edge)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "room in the wedge",
        gives: LENGTH,
        help: "of a tread that tapers and is held at the pole: what is left of it behind a fastener there, at the least",
        formula: "smallest of depth at end of each winder + its nosing - edge",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (board, joint) = (target(w, id)?, w.parent(id));
            let (edge, end) = (w.number(id, properties::EDGE)?, w.number(id, properties::END)?);
            let mut at_the_pole = false;
            w.each(w.things(kinds::MEMBER, joint)?, |member| {
                let post = target(w, member)?;
                let stands = w.design.is(post, kinds::POST) && w.looked_up(post, properties::STANDS).is_some();
                at_the_pole |= stands && w.word(post, properties::STANDS)? == IN_THE_CENTRE;
                Ok(())
            })?;
            if !at_the_pole || !w.design.is(board, kinds::TREAD) {
                return Err(w.not_drawn(id, kinds::WINDERS));
            }
            let mut least: Option<f64> = None;
            w.each(w.things(kinds::TREAD, 0)?, |tread| {
                let made = w.design.get(tread).is_some_and(|tread| tread.step.is_some() && tread.base == Some(board));
                if made && w.word(tread, SHAPE)? != "rectangular" {
                    let room = w.number_at(tread, DEPTH_AT, end)? + w.number(tread, NOSING)? - edge;
                    least = Some(least.map_or(room, |least| least.min(room)));
                }
                Ok(())
            })?;
            w.length(least.ok_or_else(|| w.not_drawn(id, kinds::WINDERS))?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "next fastener",
        gives: LENGTH,
        help: "from one fastener to the next, centre to centre",
        formula: "sqrt(spacing^2 + row spacing^2), or the lesser of the two where there are more than two fasteners and neither \
            is nothing",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (along, rows) = (w.number(id, properties::SPACING)?, w.number(id, properties::ROW_SPACING)?);
            let many = w.number(w.parent(id), FASTENER_COUNT)? > 2.0;
            w.length(if many && along > 0.0 && rows > 0.0 { along.min(rows) } else { along.hypot(rows) })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "plate room",
        gives: LENGTH,
        help: "how wide a square plate lies on it without standing past an edge, where one lies on it: under the head, or under \
            the nut",
        formula: "2 x the lesser of edge and other edge",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let joint = w.parent(id);
            let names = joined(w, joint)?;
            let is =
                |name: Option<&(String, Span)>| name.is_some_and(|(name, _)| member_of(w, joint, name) == Some(id));
            let lies = match w.word(joint, properties::WASHERS)?.as_ref() {
                "both sides" => is(names.first()) || is(names.last()),
                "nut side" => is(names.last()),
                _ => false,
            };
            if !lies {
                return Err(Missing::outside(joint, Method::PlateOnIt));
            }
            w.length(2.0 * w.number(id, properties::EDGE)?.min(w.number(id, OTHER_EDGE)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "grain length",
        gives: LENGTH,
        help: "of the member along its grain, where it is drawn: of a board of a tread, of a post; of a string at the most",
        formula: "length of the tread, height of the post, or of a string rise of its flight / sin(pitch) + the larger way of section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let target = target(w, id)?;
            if w.design.is(target, kinds::STRINGER) {
                return w.length(longest(w, target)?);
            }
            let post = w.design.is(target, kinds::POST);
            w.datum(target, if post { properties::HEIGHT } else { properties::LENGTH })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "most fasteners",
        gives: NUMBER,
        help: "that have room in it, at their spacing, in rows at theirs; one in a row that is not spaced",
        formula: "as many as stand at end + spacing x n within grain length, in as many rows as stand at \
            edge + row spacing x n within its section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let stand = |first: f64, every: f64, within: &dyn Fn() -> Result<f64, Missing>| {
                if every <= 0.0 {
                    return Ok(1.0);
                }
                let room = (within()? - first) / every;
                // What stands at the very end is in the air.
                Ok((room - 1e-9).ceil().max(0.0))
            };
            let rows = w.number(id, properties::ROW_SPACING)?;
            let rows = stand(0.0, rows, &|| w.number(id, OTHER_EDGE))?;
            let spacing = w.number(id, properties::SPACING)?;
            let in_row = stand(w.number(id, properties::END)?, spacing, &|| w.number(id, GRAIN_LENGTH))?;
            number(rows * in_row)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "spacing in diameters",
        gives: NUMBER,
        help: "spacing in shank diameters",
        source: NDS,
        derive: Derive::Formula(&Over(&Stated(Of::This, properties::SPACING), &Asks(Of::This, || MEMBER_DIAMETER))),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        // Which push counts no drawing says: a post and a stringer are held to both, which asks too much and never too little.
        name: "load",
        gives: Gives::Word(&["along the grain", "across the grain", "both"]),
        help: "how the joint's load meets the member's grain",
        formula: "weight is plumb, a push on a post or rail is level: a plumb post takes both ways, a \
            pitched member both, a tread or riser board across; a brace is pushed and pulled along its length",
        source: "statics",
        derive: Derive::Whole(|w, id| {
            let target = target(w, id)?;
            if w.design.is(target, kinds::BRACE) {
                return word("along the grain");
            }
            let laid_level = w.design.get(target).is_some_and(|member| member.kind.is(Trait::LaidLevel));
            word(if laid_level { "across the grain" } else { "both" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::MEMBER,
        name: "hardness",
        gives: Gives::Word(&["softwood", "hardwood"]),
        help: "of its timber",
        formula: "by species in timber",
        source: "botany: broad-leaved trees are hardwoods",
        derive: Derive::Whole(|w, id| {
            let target = target(w, id)?;
            let timber = w.timber(target)?;
            if let Some(own) = own_timber(w, timber) {
                return Ok(Datum::Word(w.word(own, properties::HARDNESS)?));
            }
            word(if known_timber(target, timber, properties::HARDNESS)?.hardwood { "hardwood" } else { "softwood" })
        }),
        ..ROW
    },
];

const FASTENER: &Quantity = row(QUANTITIES, kinds::JOINT, "fastener");
const DIAMETER: &Quantity = row(QUANTITIES, kinds::JOINT, "diameter");
const FASTENER_LENGTH: &Quantity = row(QUANTITIES, kinds::JOINT, "fastener length");
const LENGTH_PAST_THE_FIRST: &Quantity = row(QUANTITIES, kinds::JOINT, "length past the first");
const FASTENER_COUNT: &Quantity = row(QUANTITIES, kinds::JOINT, "fastener count");
const OTHER_EDGE: &Quantity = row(QUANTITIES, kinds::MEMBER, "other edge");
const GRAIN_LENGTH: &Quantity = row(QUANTITIES, kinds::MEMBER, "grain length");
const MEMBER_DIAMETER: &Quantity = row(QUANTITIES, kinds::MEMBER, "diameter");

pub(super) fn target(w: &Evaluation<'_>, member: Id) -> Result<Id, Missing> {
    let target = w.design.get(member).and_then(|member| member.target);
    target.ok_or_else(|| Missing::drawing(member, Drawing::MemberJoined))
}

pub(super) fn joined<'d>(w: &Evaluation<'d>, joint: Id) -> Result<&'d [(String, Span)], Missing> {
    match w.value(joint, properties::JOINS)? {
        Value::Names(names) => Ok(names),
        _ => Err(w.missing(joint, properties::JOINS)),
    }
}

pub(super) fn spacer(w: &Evaluation<'_>, joint: Id) -> Result<f64, Missing> {
    if w.looked_up(joint, properties::SPACER).is_some() { w.number(joint, properties::SPACER) } else { Ok(0.0) }
}

/// Where a joint's fasteners stand in what it joins under a name.
pub(super) fn member_of(w: &Evaluation<'_>, joint: Id, name: &str) -> Option<Id> {
    let called = |id: Id| w.design.get(id).is_some_and(|element| element.goes_by(name));
    w.design.of_kind(kinds::MEMBER).find(|id| w.parent(*id) == joint && called(*id))
}

/// Thickness of a joined member along the fastener: as stated, else its section where that leaves no doubt.
pub(super) fn through(w: &Evaluation<'_>, joint: Id, nth: usize, name: &str) -> Result<f64, Missing> {
    if let Some(member) = member_of(w, joint, name)
        && w.looked_up(member, properties::THROUGH).is_some()
    {
        return w.number(member, properties::THROUGH);
    }
    // A block of the joint that was not understood may state it.
    let _ = w.things(kinds::MEMBER, joint)?;
    let element = w.design.joined(joint, name);
    let needs = || Missing::statement(joint, Statement::OfMember(properties::THROUGH, nth));
    let element = element.ok_or_else(needs)?;
    let section = w.section(element)?;
    if nth == 0 && lies_under_a_tread(w, joint, element)? {
        return Err(needs());
    }
    let plain = section.thickness == section.depth || !w.design.is(element, kinds::POST);
    if plain { Ok(section.thickness) } else { Err(needs()) }
}

/// Whether it is a notched stringer that a joint holds to the tread above it: a fastener with its head in it goes up
/// through what the notches leave, not through its thickness.
fn lies_under_a_tread(w: &Evaluation<'_>, joint: Id, first: Id) -> Result<bool, Missing> {
    if !w.design.is(first, kinds::STRINGER) {
        return Ok(false);
    }
    let others = || joined(w, joint).map(|names| names.iter().map(|(name, _)| w.design.joined(joint, name)));
    let of_a_tread = others()?.flatten().any(|other| w.design.is(other, kinds::TREAD));
    // A name that is none may be that of a tread.
    let unknown = !of_a_tread && others()?.any(|other| other.is_none());
    if !of_a_tread && !unknown || w.word(first, properties::CUT)? != "notched" {
        return Ok(false);
    }
    if unknown { Err(Missing::drawing(joint, Drawing::MemberJoined)) } else { Ok(true) }
}

/// Thickness of the member that a lag, screw or nail holds to.
fn through_second(w: &Evaluation<'_>, joint: Id) -> Result<f64, Missing> {
    let (second, _) = joined(w, joint)?.get(1).ok_or_else(|| w.missing(joint, properties::JOINS))?;
    through(w, joint, 1, second)
}

/// What of a fastener is not in the first member.
fn past_the_first(w: &Evaluation<'_>, joint: Id) -> Result<f64, Missing> {
    let length = w.number(joint, FASTENER_LENGTH)?;
    let (first, _) = joined(w, joint)?.first().ok_or_else(|| w.missing(joint, properties::JOINS))?;
    Ok(length - through(w, joint, 0, first)? - spacer(w, joint)?)
}

/// The way of a member's section square to the fastener: the other way than the one it passes.
pub(super) fn across(w: &Evaluation<'_>, member: Id) -> Result<f64, Missing> {
    let target = target(w, member)?;
    let section = w.section(target)?;
    if w.looked_up(member, properties::THROUGH).is_none() {
        // What comes down through a tread stands in the edge of its string.
        if lies_under_a_tread(w, w.parent(member), target)? {
            return Ok(section.thickness);
        }
        let plain = section.thickness == section.depth || !w.design.is(target, kinds::POST);
        return if plain { Ok(section.depth) } else { Err(w.missing(member, properties::THROUGH)) };
    }
    let passed = w.number(member, properties::THROUGH)?;
    let is = |way: f64| equal(passed, way, Dimension::LENGTH);
    if is(section.depth) {
        Ok(section.thickness)
    } else if is(section.thickness) {
        Ok(section.depth)
    } else {
        Err(Missing::outside(member, Method::OneWayOfSection))
    }
}

/// The same, and of a notched stringer what its notches leave of it: where along it a fastener stands no drawing says.
fn whole_across(w: &Evaluation<'_>, member: Id) -> Result<f64, Missing> {
    let (target, way) = (target(w, member)?, across(w, member)?);
    let notched = w.design.is(target, kinds::STRINGER)
        && w.looked_up(target, properties::CUT).is_some()
        && w.word(target, properties::CUT)? == "notched";
    if notched && way > w.section(target)?.thickness { w.number(target, THROAT) } else { Ok(way) }
}

/// Length of a lag's tapered tip, by the handbook's next size; beyond its sizes 0.7 diameters, as those near it have. Nanometres.
fn lag_tip(diameter: f64) -> f64 {
    let upto = |size: f64| diameter <= size * INCH || equal(diameter, size * INCH, Dimension::LENGTH);
    let row = handbook::LAG_SCREWS.iter().find(|row| upto(row.diameter));
    row.and_then(|row| row.tip).map_or(diameter * 0.7, |tip| INCH * tip)
}
