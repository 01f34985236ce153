//! What a design says of itself that would take rules out, held against what it draws; and what it defines anew under
//! a name of the trade.

use super::Builder;
use super::twice::forget;
use crate::model::design::{Design, Id};
use crate::model::kind::Kind;
use crate::model::problem::{DrawingProblem, Onward};
use crate::model::redefined::departures;
use crate::model::timbers::names_no_timber;
use crate::model::value::Value;
use crate::model::vocabulary::{IN_THE_CENTRE, kinds, properties};

impl Builder<'_> {
    /// A rail that is said to continue has a rail of the next flight, at its side, to continue into. What has none
    /// was not understood.
    pub(super) fn rails_that_continue(&mut self, design: &mut Design) {
        if design.unread.contains(&kinds::FLIGHT) || design.unread.contains(&kinds::HANDRAIL) {
            return;
        }
        let flights: Vec<Id> = design.of_kind(kinds::FLIGHT).collect();
        let rails: Vec<Id> = design.of_kind(kinds::HANDRAIL).collect();
        for id in &rails {
            let Some(stated) = design.stated(*id, properties::CONTINUES) else { continue };
            let (span, said) = (stated.span, stated.value.clone());
            let Some(Value::Word(word)) = said else { continue };
            let onward: &[Onward] = match &*word {
                "up" => &[Onward::Up],
                "down" => &[Onward::Down],
                "both ways" => &[Onward::Up, Onward::Down],
                _ => &[],
            };
            let Some(lost) = onward.iter().find(|onward| !continues(design, &flights, &rails, *id, **onward)) else {
                continue;
            };
            self.push(span, DrawingProblem::ContinuesNowhere { onward: *lost });
            forget(design, *id, properties::CONTINUES);
        }
    }

    /// A flight that is said to be a spiral has treads that taper. One of straight treads is none, whatever it is called:
    /// then it is not known which rules bind it.
    pub(super) fn spirals_that_turn(&mut self, design: &mut Design) {
        if design.unread.contains(&kinds::WINDERS) {
            return;
        }
        for id in design.of_kind(kinds::FLIGHT).collect::<Vec<Id>>() {
            let Some(stated) = design.stated(id, properties::SPIRAL) else { continue };
            let span = stated.span;
            let said = matches!(&stated.value, Some(Value::Word(word)) if word == "yes");
            if said && design.belonging(kinds::WINDERS, id).next().is_none() {
                self.push(span, DrawingProblem::SpiralOfStraightTreads);
                forget(design, id, properties::SPIRAL);
            }
        }
    }

    /// A rail that is said to end at a post has one: drawn, or one of those between which a guard's balusters stand. What
    /// has none was not understood.
    pub(super) fn rails_at_posts(&mut self, design: &mut Design) {
        let has_posts = |id: Id| design.stated(id, properties::BETWEEN_POSTS).is_some();
        let guarded = design.of_kind(kinds::GUARD).any(has_posts);
        if guarded || design.unread.contains(&kinds::POST) || design.unread.contains(&kinds::GUARD) {
            return;
        }
        for id in design.of_kind(kinds::HANDRAIL).collect::<Vec<Id>>() {
            let Some(stated) = design.stated(id, properties::ENDS) else { continue };
            let at_a_post = matches!(&stated.value, Some(Value::Word(word)) if word.ends_with("post"));
            if at_a_post && !has_a_post(design, id) {
                let span = stated.span;
                self.push(span, DrawingProblem::NoPostAtItsEnds);
                forget(design, id, properties::ENDS);
            }
        }
    }

    /// A rail that is said to return has something beside it to return to: a wall or a guard at its side, or a post. What
    /// has none was not understood.
    pub(super) fn rails_that_return(&mut self, design: &mut Design) {
        const BESIDE: [&Kind; 2] = [kinds::WALL, kinds::GUARD];
        let unread = |design: &Design, kinds: &[&'static Kind]| kinds.iter().any(|kind| design.unread.contains(kind));
        if unread(design, &BESIDE) || unread(design, &[kinds::FLIGHT, kinds::POST]) {
            return;
        }
        for id in design.of_kind(kinds::HANDRAIL).collect::<Vec<Id>>() {
            let Some(stated) = design.stated(id, properties::ENDS) else { continue };
            let returned = matches!(&stated.value, Some(Value::Word(word)) if *word == "returned");
            if returned && !has_beside_it(design, id, &BESIDE) && !has_a_post(design, id) {
                let span = stated.span;
                self.push(span, DrawingProblem::ReturnsToNothing);
                forget(design, id, properties::ENDS);
            }
        }
    }

    /// Timbers and sections of the design's own that bear a name of the trade, with other figures.
    pub(super) fn redefined(&mut self, design: &Design) {
        let definitions = design.drawn_of_kind(kinds::TIMBER).chain(design.drawn_of_kind(kinds::SECTION));
        for element in definitions.filter_map(|id| design.get(id)) {
            // What the shop defines is told in its own file.
            let own = element.stated.iter().all(|stated| stated.shop.is_none());
            let Some(name) = element.name.as_deref().filter(|_| own) else { continue };
            if element.kind == kinds::TIMBER && names_no_timber(name) {
                self.push(element.span, DrawingProblem::NamesNoTimber { name: name.to_owned() });
                continue;
            }
            let departures = departures(element.kind, name, &element.stated);
            if !departures.is_empty() {
                let (kind, name) = (element.kind, name.to_owned());
                self.push(element.span, DrawingProblem::Redefined { kind, name, departures });
            }
        }
    }
}

/// Whether a post is drawn that a rail may end at. None of those are the posts of another flight than its own, and the
/// pole of a spiral, which stands in the middle of the steps.
fn has_a_post(design: &Design, rail: Id) -> bool {
    let flight = |id: Option<Id>| id.filter(|id| design.is(*id, kinds::FLIGHT));
    let own = flight(design.get(rail).and_then(|rail| rail.serves));
    let mut posts = design.of_kind(kinds::POST).filter_map(|id| design.get(id));
    posts.any(|post| {
        let stands = post.stated(properties::STANDS).and_then(|stated| stated.value.as_ref());
        let is_a_pole = matches!(stands, Some(Value::Word(word)) if *word == IN_THE_CENTRE);
        let elsewhere = own.is_some() && flight(post.parent).is_some_and(|of| Some(of) != own);
        !is_a_pole && !elsewhere
    })
}

/// Whether something of these kinds stands at the side of a rail; where the side or the place of either is not said,
/// whether it may.
fn has_beside_it(design: &Design, rail: Id, kinds: &[&'static Kind]) -> bool {
    let Some(rail) = design.get(rail) else { return true };
    let (Some(place), Some(side)) = (rail.serves, rail.side) else {
        return kinds.iter().any(|kind| design.of_kind(kind).len() > 0);
    };
    kinds.iter().any(|kind| {
        let mut beside = design.belonging(kind, place).filter_map(|id| design.get(id));
        beside.any(|thing| thing.side.is_none_or(|at| at == side))
    })
}

/// Whether a rail of the next flight up or down stands at the same side.
fn continues(design: &Design, flights: &[Id], rails: &[Id], rail: Id, onward: Onward) -> bool {
    let flight_of = |id: Id| design.get(id).and_then(|rail| rail.serves);
    // Which flight it serves was not said, and that was reported.
    let Some(at) = flights.iter().position(|flight| flight_of(rail) == Some(*flight)) else { return true };
    let next = match onward {
        Onward::Up => flights.get(at + 1),
        Onward::Down => at.checked_sub(1).and_then(|at| flights.get(at)),
    };
    let side = design.get(rail).and_then(|rail| rail.side);
    let meets = |id: &&Id| flight_of(**id) == next.copied() && design.get(**id).is_some_and(|other| other.side == side);
    next.is_some() && rails.iter().any(|id| meets(&id))
}
