//! Anything made of timber: whether it lasts where it stands.

use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, word};
use super::formula::Derive;
use super::missing::{Missing, Statement};
use super::quantity::{Gives, Quantity, ROW};
use crate::handbook;
use crate::measure::INCH;
use crate::mechanics::{Outside, SpecificGravity};
use crate::model::timbers::{Species, species};
use crate::model::{Id, PropertyName, Timber, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[TREATED, DURABLE, PAST_ITS_GRADE];

const TREATED: Quantity = Quantity {
    kind: kinds::PART,
    name: "treated",
    gives: Gives::Word(&["yes", "no"]),
    help: "whether its timber is treated with a preservative",
    formula: "by treatment in timber",
    source: "the drawing",
    derive: Derive::Whole(|w, id| word(if w.timber(id)?.is_treated() { "yes" } else { "no" })),
    ..ROW
};

const DURABLE: Quantity = Quantity {
    kind: kinds::PART,
    name: "durable",
    gives: Gives::Word(&["yes", "no"]),
    help: "stands the weather by treatment or by nature",
    formula: "by treatment or species in timber; a timber of your own as it states",
    source: "which timbers last outdoors: common practice",
    derive: Derive::Whole(durable),
    ..ROW
};

const PAST_ITS_GRADE: Quantity = Quantity {
    kind: kinds::PART,
    name: "past its grade",
    gives: Gives::Word(&["no", LIGHT_FRAMING, STUD]),
    help: "whether it is wider than timber of its grade is sold, and which grade that is",
    formula: "light framing where it is of the grade construction, standard or utility and the larger way of section is over 4\"; \
        stud where it is of that grade and that way is over 6\"; else no",
    source: "NDS Supplement 2018, Tables 4A and 4B, size classification",
    // From memory.
    derive: Derive::Whole(|w, id| {
        let (sold, most) = match w.timber(id)?.grade.map_or("", |grade| grade.name) {
            "construction" | "standard" | "utility" => (LIGHT_FRAMING, 4.0),
            "stud" => (STUD, 6.0),
            _ => return word("no"),
        };
        word(if w.section(id)?.depth > most * INCH + 10.0 { sold } else { "no" })
    }),
    ..ROW
};

const LIGHT_FRAMING: &str = "light framing";
const STUD: &str = "stud";

/// Whether the timber of an element stands the weather.
pub(super) fn durable(w: &Evaluation<'_>, id: Id) -> Derived {
    let timber = w.timber(id)?;
    if timber.is_treated() {
        return word("yes");
    }
    if let Some(own) = own_timber(w, timber) {
        return Ok(Datum::Word(w.word(own, properties::DURABLE)?));
    }
    let known = known_timber(id, timber, properties::DURABLE)?;
    word(if known.durable { "yes" } else { "no" })
}

/// The block that defines a timber of the user's own.
pub(super) fn own_timber(w: &Evaluation<'_>, timber: &Timber) -> Option<Id> {
    let named = |id: &Id| w.design.get(*id).and_then(|own| own.name.as_deref());
    w.design.of_kind(kinds::TIMBER).find(|id| named(id).is_some_and(|name| name.eq_ignore_ascii_case(&timber.species)))
}

/// What the table knows of a timber, or what would have to be stated of one of the user's own.
pub(super) fn known_timber(element: Id, timber: &Timber, property: PropertyName) -> Result<&'static Species, Missing> {
    let needs = || Missing::statement(element, Statement::OfTimber(property));
    species(&timber.species).ok_or_else(needs)
}

/// The specific gravity of a member's timber, oven-dry weight and volume.
pub(super) fn gravity(w: &Evaluation<'_>, id: Id) -> Result<SpecificGravity, Missing> {
    let timber = w.timber(id)?;
    if let Some(own) = own_timber(w, timber) {
        return Ok(w.number(own, properties::GRAVITY)?.into());
    }
    let needs = || Missing::statement(id, Statement::OfTimber(properties::GRAVITY));
    // What fastens in it is weaker too: NDS 2018, 11.3.5, from memory.
    if timber.is_fire_retardant() {
        return Err(Missing::beyond(id, Outside::FireRetardant));
    }
    let known = known_timber(id, timber, properties::GRAVITY)?;
    handbook::gravity(known.name).map(Into::into).ok_or_else(needs)
}
