//! What a design says of itself that would take rules out, held against what it draws; and what it defines anew under
//! a name of the trade.

use super::Builder;
use super::twice::forget;
use crate::base::Span;
use crate::model::design::{Design, Id, Side};
use crate::model::kind::Kind;
use crate::model::kind::PropertyName;
use crate::model::only_where::ONLY_WHERE;
use crate::model::problem::{DrawingProblem, NeedsDrawn, Onward};
use crate::model::redefined::{departures, from_the_shop};
use crate::model::timbers::names_no_timber;
use crate::model::value::Value;
use crate::model::vocabulary::{AT_A_TURN, AT_THE_WALL, IN_THE_CENTRE, kinds, properties};

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
            let lost = onward.iter().find(|onward| !continues(design, &flights, &rails, *id, **onward));
            let gap = || onward.iter().find_map(|onward| landing_without_a_rail(design, &flights, *id, *onward));
            match (lost, gap()) {
                (Some(lost), _) => self.push(span, DrawingProblem::ContinuesNowhere { onward: *lost }),
                (None, Some(first)) => self.push(span, DrawingProblem::ContinuesOverNothing { first }),
                (None, None) => continue,
            }
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

    /// Properties that mean nothing beside what else is stated of their thing.
    pub(super) fn read_past(&mut self, design: &Design) {
        for element in design.elements.iter().take(design.drawn) {
            for row in ONLY_WHERE.iter().filter(|row| element.kind == row.kind) {
                let Some(stated) = element.stated(row.property).filter(|stated| stated.shop.is_none()) else {
                    continue;
                };
                let Some(against) = row.read_past(element) else { continue };
                let beside = against.and_then(|property| element.stated(property));
                let beside = beside.map(|stated| (stated.property, stated.span));
                let belongs = row.means.first().and_then(|(property, _)| element.kind.has(*property));
                let (span, property) = (stated.span, stated.property);
                self.push(span, DrawingProblem::MeansNothing { property, beside, belongs });
            }
        }
    }

    /// Steps from or to which something is said to go that stands at a landing or a well, where there are none.
    pub(super) fn no_steps_there(&mut self, design: &Design) {
        const ENDS: [PropertyName; 4] =
            [properties::FROM_TREAD, properties::TO_TREAD, properties::FROM_RISER, properties::TO_RISER];
        for element in design.elements.iter().take(design.drawn) {
            let place = element.serves.or(element.parent).and_then(|place| design.get(place));
            let level = place.filter(|place| place.kind == kinds::LANDING || place.kind == kinds::WELL);
            let Some(place) = level.map(|place| place.kind) else { continue };
            for stated in ENDS.into_iter().filter_map(|end| element.stated(end)) {
                self.push(stated.span, DrawingProblem::NoStepsBeside { property: stated.property, place });
            }
        }
    }

    /// Words of strings and posts that speak of something drawn. Where it is not, they were not understood.
    pub(super) fn words_that_need(&mut self, design: &mut Design) {
        for kind in [kinds::STRINGER, kinds::POST] {
            for id in design.drawn_of_kind(kind).collect::<Vec<Id>>() {
                for property in [properties::HEAD, properties::FOOT, properties::STANDS] {
                    let Some(stated) = design.stated(id, property) else { continue };
                    let (span, Some(Value::Word(word))) = (stated.span, &stated.value) else { continue };
                    let Some(needs) = needs(design, id, property, word) else { continue };
                    self.push(span, DrawingProblem::NeedsDrawn(needs));
                    forget(design, id, property);
                }
            }
        }
    }

    /// Flights are drawn from the bottom up: one that is called upper does not lie below one that is called lower.
    pub(super) fn flights_in_order(&mut self, design: &Design) {
        const RANKS: [(&str, u8); 4] = [("bottom", 0), ("lower", 0), ("upper", 1), ("top", 1)];
        let rank = |id: Id| {
            let name = design.get(id)?.name.as_deref()?.to_lowercase();
            let (_, rank) = RANKS.iter().find(|(word, _)| name.starts_with(word))?;
            Some((id, *rank))
        };
        let ranked: Vec<(Id, u8)> = design.drawn_of_kind(kinds::FLIGHT).filter_map(rank).collect();
        for pair in ranked.windows(2) {
            let [(below, low), (above, high)] = pair else { continue };
            let (Some(below), Some(above)) = (design.get(*below), design.get(*above)) else { continue };
            if low > high {
                let [name, other] = [below, above].map(|flight| flight.name.clone().unwrap_or_default());
                let (span, first) = (below.span, above.span);
                self.push(span, DrawingProblem::FlightsOutOfOrder { name, other, first });
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
            let shops = self.shop.and_then(|shop| shop.section(name)).filter(|_| element.kind == kinds::SECTION);
            let mut found = departures(element.kind, name, &element.stated);
            if let Some(shops) = shops.filter(|_| found.is_empty()) {
                found = from_the_shop(&shops.section, &element.stated);
            }
            if !found.is_empty() {
                let (kind, name) = (element.kind, name.to_owned());
                self.push(element.span, DrawingProblem::Redefined { kind, name, departures: found });
                continue;
            }
            // A name of one's own for a species that the trade knows.
            let species = element.stated(properties::SPECIES).and_then(|stated| stated.value.as_ref());
            if let Some(Value::Word(species)) = species {
                let species = species.trim_matches(['"', '“', '”', ' ']);
                let departures = departures(element.kind, species, &element.stated);
                if !departures.is_empty() {
                    let (kind, name) = (element.kind, species.to_owned());
                    self.push(element.span, DrawingProblem::Redefined { kind, name, departures });
                }
            }
        }
    }
}

/// What a word of a string or a post speaks of that is not drawn. What could not be read may be it.
fn needs(design: &Design, id: Id, property: PropertyName, word: &str) -> Option<NeedsDrawn> {
    let unread = |kinds: &[&Kind]| kinds.iter().any(|kind| design.unread.iter().any(|unread| unread == kind));
    let says = |id: Id, property, wanted: &str| {
        let value = design.stated(id, property).and_then(|stated| stated.value.as_ref());
        matches!(value, Some(Value::Word(word)) if word == wanted)
    };
    let flights: Vec<Id> = design.of_kind(kinds::FLIGHT).collect();
    match word {
        "landing" if property == properties::FOOT => {
            // Only the lowest flight stands on no landing between.
            let own = design.get(id).and_then(|string| string.serves.or(string.parent));
            let lowest = own.is_none_or(|own| own == 0 || Some(&own) == flights.first());
            let bottom = |id: Id| {
                let name = design.get(id).and_then(|landing| landing.name.as_deref());
                name.is_none_or(|name| name.eq_ignore_ascii_case("bottom"))
            };
            let drawn = design.of_kind(kinds::LANDING).any(bottom);
            (lowest && !drawn && !unread(&[kinds::LANDING, kinds::FLIGHT])).then_some(NeedsDrawn::LandingAtItsFoot)
        }
        AT_THE_WALL => {
            let none = design.of_kind(kinds::WALL).next().is_none();
            (none && !unread(&[kinds::WALL])).then_some(NeedsDrawn::WallBesideIt)
        }
        "inner" | AT_A_TURN => {
            let turns = |id: Id| {
                let stated = design.stated(id, properties::TURN);
                stated.is_some() && !says(id, properties::TURN, "straight")
            };
            let none = design.of_kind(kinds::WINDERS).next().is_none() && !design.of_kind(kinds::LANDING).any(turns);
            (none && !unread(&[kinds::WINDERS, kinds::LANDING])).then_some(NeedsDrawn::Turn)
        }
        "hanger" | "ledger" if property == properties::HEAD => {
            let alone = says(0, properties::STANDING, "freestanding");
            let joined = |joint: Id| {
                let stated = design.stated(joint, properties::JOINS).and_then(|stated| stated.value.as_ref());
                let Some(Value::Names(names)) = stated else { return true };
                let is = |kind: &Kind| {
                    names.iter().any(|(name, _)| design.joined(joint, name).is_none_or(|of| design.is(of, kind)))
                };
                is(kinds::STRINGER) && is(kinds::LANDING)
            };
            let held = design.of_kind(kinds::JOINT).any(joined);
            (alone && !held && !unread(&[kinds::JOINT, kinds::LANDING])).then_some(NeedsDrawn::FramingOfItsOwn)
        }
        _ => None,
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

/// The landing over which a rail would have to run on to that of the next flight, where none is drawn there. On the inner
/// side of a turn it goes straight on; and where no turn is stated nobody knows which side that is.
fn landing_without_a_rail(design: &Design, flights: &[Id], rail: Id, onward: Onward) -> Option<Span> {
    let (rail, own) = (design.get(rail)?, design.get(rail)?.serves?);
    let at = flights.iter().position(|flight| *flight == own)?;
    let (below, above) = match onward {
        Onward::Up => (own, *flights.get(at + 1)?),
        Onward::Down => (*flights.get(at.checked_sub(1)?)?, own),
    };
    let landing = design.drawn_of_kind(kinds::LANDING).find(|landing| below < *landing && *landing < above)?;
    let Some(Value::Word(turn)) = &design.stated(landing, properties::TURN)?.value else { return None };
    let inner = match &**turn {
        "quarter left" | "half left" => Some(Side::Left),
        "quarter right" | "half right" => Some(Side::Right),
        _ => None,
    };
    let unread = [kinds::HANDRAIL, kinds::GUARD].iter().any(|kind| design.unread.contains(kind));
    let held = |id: Id| match design.stated(id, properties::HANDRAIL) {
        Some(stated) => !matches!(&stated.value, Some(Value::Word(word)) if *word == "no"),
        None => false,
    };
    let railed = design.belonging(kinds::HANDRAIL, landing).next().is_some()
        || design.belonging(kinds::GUARD, landing).any(held);
    (rail.side != inner && rail.side.is_some() && !railed && !unread).then_some(design.get(landing)?.span)
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
