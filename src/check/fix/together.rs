//! Two changes together, where no single one serves: the first makes the rule hold, the second makes good what the first
//! breaks. Both are written into the text, which is read and checked again before they are offered.
//!
//! What a joiner would pair comes of itself: another number of risers and the size of the runs, a run and the board or
//! the nosing, the height of a rail and what its post or its infill then asks, a spacing and the gap that it leaves, a
//! pilot and its fastener; or another number of risers and the handrail that they then need.

use super::compose::compose;
use super::draw;
use super::offer::{Fix, Offer};
use super::redraw::{Redraw, Redrawn};
use super::search;
use super::tried::{LONGEST, rewritten};
use crate::check::loaded::RuleRef;
use crate::check::view::CheckedView;
use crate::model::{Id, Kind, Trait, kinds, properties};
use crate::rules::{self, Applies, Decision, Rule};

/// Most first changes of a finding for which a second is sought.
const MOST_FIRST: usize = 3;

/// Most rules that a first change breaks; what breaks more is another stair.
const MOST_BROKEN: usize = 4;

/// Most searches for a second change after one first change.
const MOST_SECOND: usize = 4;

/// The single changes that make a rule hold, the best first.
pub(super) fn singles(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Vec<Fix> {
    match decision.lacking {
        // One is drawn, and stands for every step: a second block of it is no cure, another figure of the first may be.
        Some(kind) if !decision.counted && is_drawn_for_all(view, kind, element) => {
            search::changes(view, rule, element, decision)
        }
        // One that stops short has to go on; a second one there would be drawn into it.
        Some(kind) if stops_short(view, kind, element) || is_barred(view, kind, element) => {
            let changes = search::changes(view, rule, element, decision);
            match changes.is_empty() {
                true => draw::draw(view, rule, kind, element, decision, search::search)
                    .filter(|fix| !fix.edits.is_empty())
                    .into_iter()
                    .collect(),
                false => changes,
            }
        }
        Some(kind) => draw::draw(view, rule, kind, element, decision, search::search).into_iter().collect(),
        None => search::changes(view, rule, element, decision),
    }
}

/// Whether something of a kind is drawn there that says between which steps it stands.
fn stops_short(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> bool {
    let ends = [properties::FROM_TREAD, properties::TO_TREAD, properties::FROM_RISER, properties::TO_RISER];
    let place = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    let mut there = view.design.belonging(kind, place.unwrap_or(element));
    there.any(|id| ends.iter().any(|end| view.design.stated(id, *end).is_some()))
}

/// Whether bars that are drawn do what such a thing would: those are to be moved.
fn is_barred(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> bool {
    let flight = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    let mut bars = view.design.belonging(kinds::RISER_BAR, flight.unwrap_or(element));
    kind == kinds::RISER_BOARD && bars.next().is_some()
}

fn is_drawn_for_all(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> bool {
    let flight = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    kind.is(Trait::OneForEachFlight) && view.design.belonging(kind, flight.unwrap_or(element)).next().is_some()
}

/// Two changes with which the rule holds, and which break nothing.
pub(super) fn two(
    view: &CheckedView<'_>,
    rule: &Rule,
    element: Id,
    decision: &Decision,
    singles: &[Fix],
) -> Option<Fix> {
    let redraw = view.redraw.filter(|redraw| redraw.tree.source.text.len() <= LONGEST)?;
    let tried = singles.iter().filter(|fix| fix.was_tried() && !fix.edits.is_empty());
    let few = tried.filter(|fix| (1..=MOST_BROKEN).contains(&fix.then_breaks.len()));
    // Where no single change makes the rule hold, a stouter post is the first and the rule itself asks for the second.
    let stouter = if singles.is_empty() { search::stouter(view, decision) } else { None };
    few.chain(&stouter).take(MOST_FIRST).take_while(|_| !view.is_given_up()).find_map(|first| {
        view.pairs.set(view.pairs.get().checked_sub(1)?);
        second(view, redraw, (rule, element), first)
    })
}

/// A first change with a second that makes good all that it breaks, or lets the rule hold.
fn second(view: &CheckedView<'_>, redraw: Redraw<'_>, (rule, element): (&Rule, Id), first: &Fix) -> Option<Fix> {
    let Redrawn { source, tree, stair } = redraw.with(&first.edits)?;
    let changed = CheckedView::changed(&stair.drawn, source, view).with_redraw(Redraw { tree: &tree, ..redraw });
    changed.searches.set(MOST_SECOND * draw::COSTS);
    changed.evaluate_after(view);
    let asking = first.then_breaks.iter().map(RuleRef::rule).chain(first.then_breaks.is_empty().then_some(rule));
    // A stouter part is no mend of a slip of the pen.
    let slip = rule.applies == Applies::WhereStated;
    let missed = asking.filter_map(|rule| {
        let outcomes = rules::evaluate(rule, changed.traced()).into_iter();
        let (at, decision) = outcomes.filter_map(|outcome| Some((outcome.element, outcome.decision?))).next()?;
        (!(slip && search::is_of_strength(&decision))).then_some((rule, at, decision))
    });
    missed.take(MOST_SECOND).take_while(|_| !view.is_given_up()).find_map(|(missed, at, decision)| {
        singles_of(&changed, missed, at, &decision).into_iter().find_map(|second| {
            let edits = compose(&first.edits, &second.edits)?;
            // What is written where the first was written stands in its place.
            let replaced = edits.len() == second.edits.len() && first.offer.is_of_what(&second.offer);
            let offer = match replaced {
                true => second.offer,
                false => Offer::Both(Box::new(first.offer.clone()), Box::new(second.offer)),
            };
            rewritten(view, rule, element, Fix { edits, ..Fix::new(offer) }).filter(Fix::is_clean)
        })
    })
}

/// The changes of the changed text that make a rule hold there.
fn singles_of(changed: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Vec<Fix> {
    let all = singles(changed, rule, element, decision).into_iter();
    all.filter(|fix| fix.was_tried() && !fix.edits.is_empty()).collect()
}
