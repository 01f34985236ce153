//! The search for what would pass: stated values are changed one by one, and each change is tried before it is offered.
//!
//! Facts of the place (the total rise, the ground), finished work that was measured and what the shop states are never
//! changed. Of several changes the one is offered that leaves the fewest rules unmet.

use super::offer::{Edit, Fix, Offer};
use super::seek::Trial;
use crate::check::loaded::RuleRef;
use crate::check::view::{CheckedView, View};
use crate::derive::{Evaluation, StatedRead};
use crate::model::{Basis, Design, Id, Takes, Value, properties};
use crate::rules::{self, Compared, Decision, Rule};

/// Most stated values that are tried.
const MOST: usize = 8;

/// A design of more elements than this is no one stair; in it a search costs as many as ten.
const LARGE: usize = 300;
const LARGE_COSTS: usize = 10;

/// Another stated value with which a rule would pass, if one is found.
pub(super) fn search(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Fix> {
    // What is measured is built: another figure on the drawing mends nothing.
    if view.view == View::Measured {
        return None;
    }
    let cost = if view.design.elements.len() > LARGE { LARGE_COSTS } else { 1 };
    view.searches.set(view.searches.get().checked_sub(cost)?);
    let (stated, asks_the_shop) = changeable(view, decision);
    if let Compared::Words(_, not, words) = &decision.compared {
        if asks_the_shop {
            return None;
        }
        return word(view, rule, &stated, *not, words);
    }
    best(view, &Trial { view, rule, element, counted: decision.counted }, &stated)
}

/// The stated values behind a decision that a design's writer may change, and whether the shop stated another.
fn changeable(view: &CheckedView<'_>, decision: &Decision) -> (Vec<StatedRead>, bool) {
    let of_shop = |stated: &StatedRead| {
        let stated = view.design.stated(stated.element, stated.property);
        stated.and_then(|stated| stated.shop).is_some_and(|shop| !shop.called)
    };
    let mut stated = view.traced().stated_behind(&decision.reads);
    // Posts are set before the balusters between them are.
    stated.sort_by_key(|stated| stated.property == properties::BETWEEN_POSTS);
    let asks_the_shop = stated.iter().any(of_shop);
    // Only what the designer chose is ever mended.
    let chosen = |read: &StatedRead| {
        let stated = view.design.stated(read.element, read.property);
        stated.is_some_and(|stated| stated.property.basis == Basis::Choice && !stated.measured)
    };
    stated.retain(|stated| !stated.measured && chosen(stated) && !of_shop(stated));
    (stated, asks_the_shop)
}

/// The change that leaves the fewest rules unmet; one that mends a rule and breaks several is none.
fn best(view: &CheckedView<'_>, trial: &Trial<'_, '_>, stated: &[StatedRead]) -> Option<Fix> {
    let mut best: Option<((usize, usize), Fix)> = None;
    for stated in stated.iter().take(MOST) {
        let Some((design, fix)) = trial.change(stated.element, stated.property) else { continue };
        let mut then_breaks = newly_unmet(view, &design, &fix.edits);
        let required = then_breaks.iter().filter(|unmet| unmet.rule().shall).count();
        if required > 1 {
            continue;
        }
        let rank = (required, then_breaks.len());
        if best.as_ref().is_none_or(|(least, _)| rank < *least) {
            then_breaks.sort_by_key(|unmet| !unmet.rule().shall);
            best = Some((rank, Fix { then_breaks, ..fix }));
        }
        if rank == (0, 0) {
            break;
        }
    }
    best.map(|(_, fix)| fix)
}

fn word(view: &CheckedView<'_>, rule: &Rule, stated: &[StatedRead], not: bool, words: &[String]) -> Option<Fix> {
    let read = stated.first()?;
    let stated = view.design.stated(read.element, read.property)?;
    let choices: Vec<&str> = match stated.property.takes {
        Takes::OneOf(known) => {
            let asked = |word: &&&str| words.iter().any(|asked| asked == *word) != not;
            // In the order of the rule where it names what it wants, else in that of the vocabulary.
            if not {
                known.iter().filter(asked).copied().collect()
            } else {
                words.iter().map(String::as_str).filter(|word| known.contains(word)).collect()
            }
        }
        Takes::Edge if not => return Some(Fix::new(Offer::RoundedEdge)),
        Takes::Timber => return Some(Fix::new(Offer::TreatedTimber)),
        Takes::Fasteners => return Some(Fix::new(Offer::Coating(words.to_vec()))),
        _ => Vec::new(),
    };
    let choice = (*choices.first()?).to_owned();
    let changed = view.design.with(read.element, read.property, Value::Word(choice.clone().into()));
    let offer = Offer::Value { property: read.property, value: choice.clone() };
    if rules::fails(rule, &Evaluation::after(&changed, &view.plain)) {
        return None;
    }
    let fix = Fix::new(offer).with_edit(stated.span, choice);
    let then_breaks = newly_unmet(view, &changed, &fix.edits);
    Some(Fix { then_breaks, ..fix })
}

/// The rules of all the sets that hold now and would not in the design that these edits make.
pub(super) fn newly_unmet(view: &CheckedView<'_>, design: &Design, edits: &[Edit]) -> Vec<RuleRef> {
    let tried = view.tried.borrow().iter().find(|(earlier, _)| earlier == edits).map(|(_, unmet)| unmet.clone());
    if let Some(unmet) = tried.filter(|_| !edits.is_empty()) {
        return unmet;
    }
    let (before, evaluation) = (view.unmet.borrow(), Evaluation::after(design, &view.plain));
    let fails = |rule: &RuleRef| !before.contains(rule) && rules::fails(rule.rule(), &evaluation);
    let new: Vec<RuleRef> = view.rules_touched(&evaluation).filter(fails).collect();
    view.tried.borrow_mut().push((edits.to_vec(), new.clone()));
    new
}
