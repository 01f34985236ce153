//! Anything made of timber: whether it lasts where it stands.

use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, word};
use super::formula::Derive;
use super::missing::{Missing, Statement};
use super::quantity::{Gives, Quantity, ROW};
use crate::handbook;
use crate::mechanics::{Outside, SpecificGravity};
use crate::model::timbers::{Species, species};
use crate::model::{Id, PropertyName, Timber, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[TREATED, DURABLE];

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
