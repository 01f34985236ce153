//! Outcomes to findings: things that miss at the same words are one finding, with the words to change first.

use std::sync::Arc;

use super::fix::fix;
use super::loaded::RuleRef;
use super::rule_finding::{HowMany, Place, Role, RuleFinding, Said, SaidPiece};
use super::view::{CheckedView, View};
use crate::base::Span;
use crate::derive::{Evaluation, StatedRead, unguarded_sides};
use crate::model::{Basis, Id, Kind, ShopWords, Side, Waiver, kinds};
use crate::rules::{self, Compared, Decision, Piece, Printed, Puts, Rule};

/// Outcomes of one rule at the same words, given by the worst of them.
struct Group<'o> {
    words: Span,
    worst: &'o Decision,
    element: Id,
    elements: Vec<Id>,
    places: Vec<Place>,
    shop_places: Vec<Place>,
    waived: Option<&'o Arc<Waiver>>,
}

/// The findings of one rule.
pub(super) fn findings(view: &CheckedView<'_>, rule: &RuleRef) -> Vec<RuleFinding> {
    let evaluation = view.traced();
    let outcomes = rules::evaluate(rule.rule(), evaluation);
    let mut groups: Vec<Group<'_>> = Vec::new();
    for outcome in &outcomes {
        let Some(decision) = &outcome.decision else { continue };
        if view.view == View::Measured && !rests_on_measured(decision, evaluation) {
            continue;
        }
        let (places, shop_places) = places(view, outcome.element, decision);
        let words = places.first().map(|place| place.span).unwrap_or_default();
        let waived = view.waiver(rule, outcome.element, &outcome.verdict);
        // What is excused is one finding, and what is not another. Copies (`left, right`) share a waiver's words.
        let alike = |group: &Group<'_>| {
            group.words == words && group.waived.map(|waiver| waiver.span) == waived.map(|waiver| waiver.span)
        };
        match groups.iter_mut().find(|group| alike(group)) {
            Some(group) => {
                group.elements.push(outcome.element);
                if decision.miss() > group.worst.miss() {
                    group.worst = decision;
                    group.element = outcome.element;
                    group.places = places;
                    group.shop_places = shop_places;
                }
            }
            None => {
                let elements = vec![outcome.element];
                let (worst, element) = (decision, outcome.element);
                groups.push(Group { words, worst, element, elements, places, shop_places, waived });
            }
        }
    }
    groups.into_iter().map(|group| finding(view, rule, group)).collect()
}

fn finding(view: &CheckedView<'_>, rule: &RuleRef, group: Group<'_>) -> RuleFinding {
    RuleFinding {
        rule: rule.clone(),
        view: view.view,
        source: view.source.clone(),
        design: Arc::clone(view.design),
        // What is excused needs no mending.
        fix: if group.waived.is_some() { None } else { fix(view, rule.rule(), group.element, group.worst) },
        waived: group.waived.map(Arc::clone),
        known: false,
        said: std::iter::once(group.worst)
            .chain(&group.worst.also)
            .map(|decision| said(view, rule.rule(), group.element, decision))
            .collect(),
        elements: group.elements,
        element: group.element,
        decision: group.worst.clone(),
        places: group.places,
        shop_places: group.shop_places,
    }
}

/// The rule's sentence for what decided, with the values of the thing put in; nothing where it has none, or one of
/// them is not known.
fn said(view: &CheckedView<'_>, rule: &Rule, element: Id, decision: &Decision) -> Option<Said> {
    let of = |saying: &&rules::Saying| saying.of.as_ref().is_some_and(|of| rules::speaks_of(&decision.subject, of));
    let saying = rule.says.iter().find(of).or_else(|| rule.says.iter().find(|saying| saying.of.is_none()))?;
    let printed = decision.printed.unwrap_or(Printed::First);
    let piece = |piece: &Piece| {
        Some(match piece {
            Piece::Text(text) => SaidPiece::Text(text.clone()),
            Piece::Put(Puts::Own(own), shown) => SaidPiece::Own(*own, shown.clone()),
            Piece::Put(Puts::Node(node), shown) => {
                SaidPiece::Value(rules::value_of(rule, &view.plain, node, element, printed)?, shown.clone())
            }
        })
    };
    let pieces = saying.pieces.iter().map(piece).collect::<Option<_>>()?;
    Some(Said { pieces })
}

/// Whether the value that misses was measured; a drawn value beside a measured limit is the drawing's finding.
pub(super) fn rests_on_measured(decision: &Decision, evaluation: &Evaluation<'_>) -> bool {
    let given = evaluation.stated_behind(decision.reads.get(..decision.given).unwrap_or_default());
    given.iter().any(|stated| stated.measured)
}

/// The words that an outcome rests on, in the design and in its shop's file.
fn places(view: &CheckedView<'_>, element: Id, decision: &Decision) -> (Vec<Place>, Vec<Place>) {
    let mut stated = view.traced().stated_behind(&decision.reads);
    // A fact of the place stands; the words to change are the others.
    stated.sort_by_key(|stated| {
        let property = view.design.get(stated.element).and_then(|element| element.kind.has(stated.property));
        property.is_some_and(|property| property.basis == Basis::Site)
    });
    let shop_places = shop_places(view, &stated);
    let of_design = stated.iter().filter(|stated| shop_words(view, stated).is_none_or(|shop| shop.called));
    let mut places: Vec<Place> = of_design.map(place).collect();
    if let (Some(item), Some(list)) = (decision.item, places.first_mut()) {
        list.span = item;
    }
    if places.is_empty() || decision.lacking.is_some() {
        let lacking = lacking(view, decision, element, !stated.is_empty());
        places = std::iter::once(lacking).chain(places).collect();
    }
    // Where nothing is lacking, measured words come first: they are what the finding speaks of.
    if view.view == View::Measured && decision.lacking.is_none() {
        places.sort_by_key(|place| !matches!(place.role, Role::Stated { view: View::Measured, .. }));
    }
    (places, shop_places)
}

fn place(stated: &StatedRead) -> Place {
    let view = if stated.measured { View::Measured } else { View::Drawn };
    Place { span: stated.span, role: Role::Stated { property: stated.property, element: stated.element, view } }
}

/// The words of the shop's file behind a stated value.
fn shop_words(view: &CheckedView<'_>, stated: &StatedRead) -> Option<ShopWords> {
    view.design.stated(stated.element, stated.property).and_then(|stated| stated.shop)
}

/// What the shop's file states of all that was read, each place once.
fn shop_places(view: &CheckedView<'_>, stated: &[StatedRead]) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::new();
    for stated in stated {
        let Some(shop) = shop_words(view, stated) else { continue };
        if places.iter().any(|place| place.span == shop.words) {
            continue;
        }
        let of_timber = view.design.is(stated.element, kinds::TIMBER);
        let role = if shop.called && !of_timber { Role::StockedSection } else { place(stated).role };
        places.push(Place { span: shop.words, role });
    }
    places
}

/// Where something is lacking: what has none of it, or what is drawn and does not count.
fn lacking(view: &CheckedView<'_>, decision: &Decision, element: Id, stated: bool) -> Place {
    let design = view.design;
    // What is lacking at a step is drawn beside the flight.
    let flight = design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    let element = flight.unwrap_or(element);
    let span = |id: Id| design.get(id).map(|element| element.span).unwrap_or_default();
    let Some(kind) = decision.lacking else {
        return Place { span: span(element), role: Role::Drawn(element) };
    };
    let drawn = design.belonging(kind, element).next();
    let counted_none = decision.counted && matches!(decision.compared, Compared::Numbers(n, ..) if n.value == 0.0);
    if let (Some(drawn), true, true) = (drawn, counted_none, stated) {
        return Place { span: span(drawn), role: Role::DoesNotCount(drawn) };
    }
    let some = if drawn.is_some() { HowMany::TooFew } else { HowMany::None };
    let at = |side: &Side| stands_at(view, element, *side);
    let (short, sides) = bare_sides(view, kind, element).into_iter().partition(at);
    Place { span: span(element), role: Role::Lacks { element, kind, drawn: some, sides, short } }
}

/// Whether a guard or a wall of a thing stands at one of its sides.
fn stands_at(view: &CheckedView<'_>, element: Id, side: Side) -> bool {
    let mut drawn = [kinds::GUARD, kinds::WALL].into_iter().flat_map(|kind| view.design.of_kind(kind));
    let of = |id: Id| view.design.get(id).filter(|drawn| drawn.serves == Some(element));
    drawn.any(|id| of(id).is_some_and(|drawn| drawn.side == Some(side)))
}

/// The sides at which a guard is lacking.
fn bare_sides(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> Vec<Side> {
    if kind == kinds::GUARD { unguarded_sides(&view.plain, element) } else { Vec::new() }
}
