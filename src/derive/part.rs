//! Anything made of timber: whether it lasts where it stands.

use super::missing::{Missing, Statement};
use super::quantity::{Gives, Quantity, entry};
use super::working::Working;
use crate::model::timbers::{Species, species};
use crate::model::{Id, Timber};

pub(super) static QUANTITIES: &[Quantity] = &[
    entry!("part" "durable" Gives::Word(&["yes", "no"]), "stands the weather by treatment or by nature", "by treatment or species in timber; a timber of your own as it states",
        "which timbers last outdoors: common practice", |w, id| {
        let timber = w.timber(id)?;
        if timber.treatment.iter().any(|word| word.split_whitespace().any(|word| word == "treated")) {
            return Working::say("yes");
        }
        if let Some(own) = own_timber(w, timber) {
            return Ok(super::working::Datum::Word(w.word(own, "durable")?));
        }
        let known = known_timber(id, timber, "durable")?;
        Working::say(if known.durable { "yes" } else { "no" })
    }),
];

/// The block that defines a timber of the user's own.
pub(super) fn own_timber(w: &Working<'_>, timber: &Timber) -> Option<Id> {
    let named = |id: &Id| w.design.get(*id).and_then(|own| own.name.as_deref());
    w.design.of_kind("timber").find(|id| named(id).is_some_and(|name| name.eq_ignore_ascii_case(&timber.species)))
}

/// What the table knows of a timber, or what would have to be stated of one of the user's own.
pub(super) fn known_timber(element: Id, timber: &Timber, property: &'static str) -> Result<&'static Species, Missing> {
    let needs = || Missing::statement(element, Statement::OfTimber(property, timber.species.clone()));
    species(&timber.species).ok_or_else(needs)
}
