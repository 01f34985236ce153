//! Joints: what fastens them, how deep it goes, and where it stands in each member.

use std::borrow::Cow;

use super::missing::{Drawing, FastenerPart, Method, Missing, Statement};
use super::part::{known_timber, own_timber};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, entry};
use super::working::{Datum, Derived, Working};
use crate::measure::INCH;
use crate::model::sizes::screw_root;
use crate::model::{Element, Id, Value};

const FASTENERS: &[&str] = &["carriage bolt", "hex bolt", "lag", "wood screw", "nail"];
const COATINGS: &[&str] = &["galvanised", "stainless", "coated", "plain"];
const NDS: &str = "NDS 2018, 12.5.1";

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("joint" "fastener" Gives::Word(FASTENERS), "what fastens it", "as stated", "the trade's names", |w, id| {
        Working::say(w.fasteners(id)?.kind)
    }),
    entry!("joint" "diameter" LENGTH, "of the shank", "as stated, or by the number of a screw or nail", "NDS Tables L1 to L4", |w, id| {
        Ok(Datum::Measure(w.fasteners(id)?.diameter))
    }),
    entry!("joint" "fastener length" LENGTH, "under the head to the tip", "as stated, or by the size of a nail", "NDS Table L4", |w, id| {
        let length = w.fasteners(id)?.length;
        length.map(Datum::Measure).ok_or_else(|| Missing::statement(id, Statement::OfFasteners(FastenerPart::Length)))
    }),
    entry!("joint" "fastener count" NUMBER, "how many", "as stated", "the drawing", |w, id| {
        Working::plain(w.fasteners(id)?.count)
    }),
    entry!("joint" "coating" Gives::Word(COATINGS), "against rust", "as stated", "the drawing", |w, id| {
        let coating = w.fasteners(id)?.coating.clone();
        let needs = || Missing::statement(id, Statement::OfFasteners(FastenerPart::Coating));
        coating.map(|word| Datum::Word(Cow::Owned(word))).ok_or_else(needs)
    }),
    entry!("joint" "stack" LENGTH, "thickness that a through-bolt passes", "sum of through of each member + spacer", GEOMETRY, |w, id| {
        let mut stack = 0.0;
        for name in joined(w, id)? {
            stack += through(w, id, &name)?;
        }
        w.length(stack + spacer(w, id)?)
    }),
    entry!("joint" "hole play" LENGTH, "hole less shank", "hole - diameter", "NDS 2018, 12.1.3.2", |w, id| {
        let hole = w.number(id, "hole")?;
        w.length(hole - w.number(id, "diameter")?)
    }),
    entry!("joint" "nut room" LENGTH, "that washer, nut and a little thread take past the stack", "2 x diameter", "common practice", |w, id| {
        w.length(2.0 * w.number(id, "diameter")?)
    }),
    entry!("joint" "penetration" LENGTH, "of a lag, screw or nail into the member it holds to; a lag's tip does not count",
        "fastener length - through of the first member - spacer - tip", "NDS 2018, 12.1.4.6, 12.1.5.6, 12.1.6.5", |w, id| {
        let length = w.number(id, "fastener length")?;
        let names = joined(w, id)?;
        let first = names.first().ok_or_else(|| w.missing(id, "joins"))?;
        let tip = match w.fasteners(id)?.kind {
            "lag" => lag_tip(w.number(id, "diameter")?),
            _ => 0.0,
        };
        w.length(length - through(w, id, first)? - spacer(w, id)? - tip)
    }),
    entry!("joint" "gravity" NUMBER, "specific gravity of the member that its fasteners hold to, oven-dry weight and volume", "by species in timber, or gravity of a timber of your own", "NDS 2018, Table 12.3.3A", |w, id| {
        let names = joined(w, id)?;
        let last = names.last().ok_or_else(|| w.missing(id, "joins"))?;
        let held = drawn(w, last).ok_or_else(|| w.missing(id, "joins"))?;
        let timber = w.timber(held)?;
        if let Some(own) = own_timber(w, timber) {
            return w.datum(own, "gravity");
        }
        let needs = || Missing::statement(held, Statement::OfTimber("gravity", timber.species.clone()));
        Working::plain(known_timber(held, timber, "gravity")?.gravity.ok_or_else(needs)?)
    }),
    entry!("joint" "pilot share" NUMBER, "of the shank that the hole for the thread takes", "pilot / diameter", "NDS 2018, 12.1.4.2", |w, id| {
        let pilot = w.number(id, "pilot")?;
        Working::plain(pilot / w.number(id, "diameter")?)
    }),
    entry!("joint" "root share" NUMBER, "of a screw's root that the hole for its thread takes", "pilot / root diameter of the screw", "NDS 2018, 12.1.5.2; roots by NDS Table L3, from memory", |w, id| {
        let pilot = w.number(id, "pilot")?;
        let diameter = w.number(id, "diameter")?;
        let root = screw_root(diameter / INCH).ok_or_else(|| Missing::outside(id, Method::NumberedScrews))?;
        Working::plain(pilot / (root * INCH))
    }),
    entry!("joint" "slenderness" NUMBER, "of a through-bolt: its length in the thinner of the members, in shank diameters", "lesser of through of each member / diameter", "NDS 2018, 12.5.1, l/D", |w, id| {
        let mut thinnest = f64::INFINITY;
        for name in joined(w, id)? {
            thinnest = thinnest.min(through(w, id, &name)?);
        }
        Working::plain(thinnest / w.number(id, "diameter")?)
    }),
    entry!("member" "fastener" Gives::Word(FASTENERS), "what fastens the joint", "as stated in the joint", "the trade's names", |w, id| {
        let word = w.word(w.parent(id), "fastener")?;
        Ok(Datum::Word(word))
    }),
    entry!("member" "diameter" LENGTH, "of the shank", "as stated in the joint", "NDS Tables L1 to L4", |w, id| {
        w.datum(w.parent(id), "diameter")
    }),
    entry!("member" "end in diameters" NUMBER, "end distance in shank diameters", "end / diameter", NDS, |w, id| in_diameters(w, id, "end")),
    entry!("member" "edge in diameters" NUMBER, "distance to the nearer edge in shank diameters", "lesser of edge and depth of section - edge, / diameter", NDS, |w, id| {
        let edge = w.number(id, "edge")?;
        let diameter = w.number(id, "diameter")?;
        // A load turns round, so the edge on the other side counts as well, where the section says how far it is.
        let target = target(w, id)?;
        let nearer = if w.design.stated(target, "section").is_some() { edge.min(w.section(target)?.depth - edge) } else { edge };
        Working::plain(nearer / diameter)
    }),
    entry!("member" "spacing in diameters" NUMBER, "spacing in shank diameters", "spacing / diameter", NDS, |w, id| in_diameters(w, id, "spacing")),
    entry!("member" "load" Gives::Word(&["along the grain", "across the grain", "both"]), "how the joint's load meets the member's grain",
        "weight is plumb, a push on a post or rail is level: a plumb post takes both ways, a pitched member both, a tread or riser board across", "statics", |w, id| {
        let target = target(w, id)?;
        Working::say(match w.design.kind(target) {
            "tread" | "riser board" => "across the grain",
            _ => "both",
        })
    }),
    entry!("member" "hardness" Gives::Word(&["softwood", "hardwood"]), "of its timber", "by species in timber", "botany: broad-leaved trees are hardwoods", |w, id| {
        let target = target(w, id)?;
        let timber = w.timber(target)?;
        if let Some(own) = own_timber(w, timber) {
            return Ok(Datum::Word(w.word(own, "hardness")?));
        }
        Working::say(if known_timber(target, timber, "hardness")?.hardwood { "hardwood" } else { "softwood" })
    }),
];

fn in_diameters(w: &Working<'_>, id: Id, name: &'static str) -> Derived {
    let distance = w.number(id, name)?;
    Working::plain(distance / w.number(id, "diameter")?)
}

fn target(w: &Working<'_>, member: Id) -> Result<Id, Missing> {
    let target = w.design.get(member).and_then(|member| member.target);
    target.ok_or_else(|| Missing::drawing(member, Drawing::MemberJoined))
}

fn joined(w: &Working<'_>, joint: Id) -> Result<Vec<String>, Missing> {
    match w.value(joint, "joins")? {
        Value::Names(names) => Ok(names.iter().map(|(name, _)| name.clone()).collect()),
        _ => Err(w.missing(joint, "joins")),
    }
}

/// What is drawn under a name and can be joined.
fn drawn(w: &Working<'_>, name: &str) -> Option<Id> {
    let is = |element: &Element| element.can_be_joined() && element.goes_by(name);
    (0..w.design.drawn).find(|id| w.design.get(*id).is_some_and(is))
}

fn spacer(w: &Working<'_>, joint: Id) -> Result<f64, Missing> {
    if w.design.stated(joint, "spacer").is_some() { w.number(joint, "spacer") } else { Ok(0.0) }
}

/// Thickness of a joined member along the fastener: as stated, else its section where that leaves no doubt.
fn through(w: &Working<'_>, joint: Id, name: &str) -> Result<f64, Missing> {
    let called = |id: Id| w.design.get(id).is_some_and(|element| element.goes_by(name));
    let member = w.design.of_kind("member").find(|id| w.parent(*id) == joint && called(*id));
    if let Some(member) = member
        && w.design.stated(member, "through").is_some()
    {
        return w.number(member, "through");
    }
    let element = drawn(w, name);
    let needs = || Missing::statement(joint, Statement::OfMember("through", name.to_owned()));
    let element = element.ok_or_else(needs)?;
    let section = w.section(element)?;
    let plain = section.thickness == section.depth || w.design.kind(element) != "post";
    if plain { Ok(section.thickness) } else { Err(needs()) }
}

/// Length of a lag's tapered tip: NDS Table L2, from memory. Nanometres.
fn lag_tip(diameter: f64) -> f64 {
    let table = [
        (0.25, 5.0 / 32.0),
        (0.3125, 3.0 / 16.0),
        (0.375, 7.0 / 32.0),
        (0.4375, 9.0 / 32.0),
        (0.5, 5.0 / 16.0),
        (0.625, 13.0 / 32.0),
        (0.75, 0.5),
        (0.875, 19.0 / 32.0),
        (1.0, 11.0 / 16.0),
    ];
    let inches = diameter / INCH;
    let row = table.iter().find(|(size, _)| inches <= size + 1e-6);
    INCH * row.map_or(inches * 0.7, |(_, tip)| *tip)
}
