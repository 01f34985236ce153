//! What a change of the design came to: what it leaves unmet, and what would be unmet that was not.

use std::cell::OnceCell;
use std::sync::Arc;

use super::offer::{By, Edit, Fix, Offer, Then, Tried};
use crate::check::loaded::{LoadedSet, RuleRef};
use crate::check::view::CheckedView;
use crate::derive::Evaluation;
use crate::model::{Design, Id, Property, PropertyNames};
use crate::rules::{self, Rule, Verdict};

/// A text longer than this, in bytes, holds more than one stair; to read it again and again would cost too much.
pub(super) const LONGEST: usize = 1 << 16;

/// What of a miss is no more than the arithmetic's.
const ROUNDING: f64 = 1e-9;

/// The rules of all the sets that hold now and would not in the design that these edits make.
pub(super) fn newly_unmet(view: &CheckedView<'_>, design: Design, edits: &[Edit]) -> Vec<RuleRef> {
    let known = view.tried.borrow().iter().find(|tried| tried.edits == edits).map(|tried| tried.then_breaks.clone());
    if let Some(then_breaks) = known.filter(|_| !edits.is_empty()) {
        return then_breaks;
    }
    let tried = tried(view, &design, edits);
    let tried = Tried { by: By::Value(design), ..tried };
    let then_breaks = tried.then_breaks.clone();
    view.tried.borrow_mut().push(tried);
    then_breaks
}

/// Another value once more by the text that it makes, where that is not too long to be read again; nothing where the
/// text does not say what the value does. What is drawn was read already.
pub(super) fn confirmed(view: &CheckedView<'_>, rule: &Rule, element: Id, fix: Fix) -> Option<Fix> {
    let short = view.redraw.is_some_and(|redraw| redraw.tree.source.text.len() <= LONGEST);
    let is_value = fix.was_tried() && !fix.edits.is_empty() && !matches!(fix.offer, Offer::Draw { .. });
    if short && is_value { rewritten(view, rule, element, fix) } else { Some(fix) }
}

/// A change of the text with what it breaks, where the rule then holds for the element; it is read and checked again,
/// once for all that it is offered for.
pub(super) fn rewritten(view: &CheckedView<'_>, rule: &Rule, element: Id, fix: Fix) -> Option<Fix> {
    let breaks = |tried: &Tried| {
        let meets = tried.then.iter().all(|then| then.thing != Some(element) || !std::ptr::eq(then.rule.rule(), rule));
        meets.then(|| tried.then_breaks.clone())
    };
    let is_known = |tried: &&Tried| matches!(tried.by, By::Text) && tried.edits == fix.edits;
    let known = view.tried.borrow().iter().find(is_known).map(breaks);
    let mut then_breaks = match known {
        Some(known) => known?,
        None => {
            let stair = view.redraw?.with(&fix.edits)?.stair;
            let by_value = of_value(view, &stair.drawn, &fix.edits);
            let tried = by_value.unwrap_or_else(|| tried(view, &stair.drawn, &fix.edits));
            let then_breaks = breaks(&tried);
            view.tried.borrow_mut().push(tried);
            then_breaks?
        }
    };
    then_breaks.sort_by_key(|unmet| !unmet.rule().shall);
    Some(Fix { then_breaks, ..fix })
}

/// What came of the value that these edits write, where the text says the very same of the very same things.
fn of_value(view: &CheckedView<'_>, read: &Design, edits: &[Edit]) -> Option<Tried> {
    let tried = view.tried.borrow();
    let same = tried.iter().find(|tried| match &tried.by {
        By::Value(design) => tried.edits == edits && read.stated_otherwise(design).is_some_and(PropertyNames::is_empty),
        By::Text => false,
    })?;
    let (then_breaks, then) = (same.then_breaks.clone(), same.then.clone());
    Some(Tried { edits: edits.to_vec(), by: By::Text, then_breaks, then })
}

/// What comes of the design that these edits make in the text.
pub(super) fn tried(view: &CheckedView<'_>, design: &Design, edits: &[Edit]) -> Tried {
    let (before, evaluation) = (view.unmet.borrow(), Evaluation::after(design, &view.plain));
    let held = |loaded: &Arc<LoadedSet>, rule: &Arc<Rule>| !before.iter().any(|unmet| unmet.is(loaded, rule));
    let changed = design.stated_otherwise(view.design);
    let breaks = |(loaded, rule): &(&Arc<LoadedSet>, &Arc<Rule>)| match held(loaded, rule) {
        true => rules::fails(rule, &evaluation),
        // One that was not met before, and asks for what is changed, is not to be left further from it.
        false => {
            changed.is_some_and(|changed| asks_for(rule, changed)) && misses_by_more(rule, &view.plain, &evaluation)
        }
    };
    let fail = view.rules_touched(&evaluation).filter(breaks);
    let then_breaks = fail.map(|(loaded, rule)| RuleRef::new(loaded, rule)).collect();
    let (mut then, paths) = (Vec::new(), OnceCell::new());
    for rule in before.iter() {
        let unmet = rules::verdicts(rule.rule(), &evaluation).filter(|(_, verdict)| *verdict != Verdict::Pass);
        then.extend(unmet.map(|(element, verdict)| {
            let fails = verdict == Verdict::Fail;
            let thing = match evaluation.is_of_same_things() {
                true => Some(element),
                false => paths.get_or_init(|| design.paths()).get(element).and_then(|path| view.of_path(path)),
            };
            Then { rule: rule.clone(), thing, fails }
        }));
    }
    Tried { edits: edits.to_vec(), by: By::Text, then_breaks, then }
}

/// Whether a rule names one of these properties of what it speaks of.
fn asks_for(rule: &Rule, changed: PropertyNames) -> bool {
    rule.kind.properties.iter().map(Property::handle).any(|property| {
        let mut one = PropertyNames::default();
        one.add(rule.kind, property);
        changed.may_share(one) && rule.requirement.names(property)
    })
}

/// Whether a thing that misses a rule misses it by more than before, or did not miss it.
fn misses_by_more(rule: &Rule, before: &Evaluation<'_>, after: &Evaluation<'_>) -> bool {
    let miss =
        |evaluation: &Evaluation<'_>, element: Id| rules::outcome(rule, evaluation, element).decision?.distance();
    let failing = rules::verdicts(rule, after).filter(|(_, verdict)| *verdict == Verdict::Fail);
    failing.map(|(element, _)| element).any(|element| {
        if rules::verdict(rule, before, element) != Verdict::Fail {
            return true;
        }
        match (miss(before, element), miss(after, element)) {
            (Some(was), Some(now)) => {
                was.dimension == now.dimension && now.value.abs() > was.value.abs() * (1.0 + ROUNDING)
            }
            _ => false,
        }
    })
}
