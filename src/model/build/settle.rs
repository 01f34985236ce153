//! What each thing serves, and whether the names that it uses are drawn.

use std::sync::Arc;

use super::{Builder, twice};
use crate::base::Span;
use crate::base::names::nearest;
use crate::model::design::{Design, Element, Id, MOST_OF_A_STAIR, Side};
use crate::model::kind::{PropertyName, Trait};
use crate::model::problem::{DrawingProblem, Limit};
use crate::model::value::Value;
use crate::model::vocabulary::{kinds, properties};

/// What a name in a property stands for.
#[derive(Debug, Clone, Copy)]
enum Named {
    /// A thing that a joint can join.
    Joined,
    /// A flight or a landing.
    Place,
    /// A landing.
    Landing,
}

/// The properties that name the places where things stand.
const PLACES: &[(PropertyName, Named)] = &[(properties::ALONG, Named::Place), (properties::AT, Named::Landing)];
/// The property that names what is joined: which of several of one name is meant hangs on where each of them stands.
const JOINED: &[(PropertyName, Named)] = &[(properties::JOINS, Named::Joined)];

impl Builder<'_> {
    /// Which flight or landing each thing serves, and whether the names it uses are drawn.
    pub(super) fn settle(&mut self, design: &mut Design) {
        let flights: Vec<Id> = design.drawn_of_kind(kinds::FLIGHT).collect();
        let mut asked = std::collections::BTreeSet::new();
        for id in 0..design.elements.len() {
            self.resolve_names(design, id, PLACES);
            let along = self.along(design, id);
            self.stands_in_two(design, id, along);
            let Some(element) = design.get(id) else { continue };
            let inside = element.parent.filter(|parent| design.is_place(*parent));
            let spread = element.kind.is(Trait::ServesLoneFlight);
            let mut lost = None;
            let serves = match (along, inside, flights.as_slice()) {
                (Some(place), ..) => Some(place),
                (None, Some(place), _) => Some(place),
                (None, None, _) if element.kind.is(Trait::ServesLandingOfName) => self.door_landing(design, id),
                (None, None, [only]) if spread => Some(*only),
                (None, None, [_, _, ..]) if spread && element.parent == Some(0) => {
                    let unsaid = design.stated(id, properties::ALONG).is_none();
                    if asked.insert(element.span) && unsaid {
                        self.push(element.span, DrawingProblem::WhichFlight { kind: element.kind });
                    }
                    // It stands beside one of them, and which flight has it is not known of any.
                    lost = unsaid.then_some(properties::ALONG);
                    None
                }
                (None, None, [_, _, ..]) if element.parent == Some(0) && is_wall_beside_steps(element) => {
                    if asked.insert(element.span) {
                        self.push(element.span, DrawingProblem::WhichFlight { kind: element.kind });
                    }
                    let end = [properties::FROM_TREAD, properties::TO_TREAD];
                    lost = end.into_iter().find(|end| element.stated(*end).is_some());
                    None
                }
                _ => None,
            };
            self.far_of_a_flight(design, id, serves);
            if let Some(element) = design.get_mut(id) {
                element.serves = serves;
                element.lost = element.lost.or(lost);
            }
        }
        for id in 0..design.elements.len() {
            if design.is(id, kinds::MEMBER) {
                self.resolve_member(design, id);
            } else {
                self.resolve_names(design, id, JOINED);
            }
        }
        self.members_without_blocks(design);
        self.lost_landings(design, &flights);
        if flights.len() > 1 {
            self.share_out(design, &flights);
        }
    }

    /// A flight has neither a far side nor a near one: what is said to stand there stands nobody knows where.
    fn far_of_a_flight(&mut self, design: &mut Design, id: Id, serves: Option<Id>) {
        let Some(element) = design.get(id).filter(|element| matches!(element.side, Some(Side::Far | Side::Near)))
        else {
            return;
        };
        if serves.is_some_and(|place| design.is(place, kinds::FLIGHT)) {
            let (kind, span) = (element.kind, element.span);
            let name = element.side.map_or("", Side::word).to_owned();
            self.push(span, DrawingProblem::NoSide { kind, name, near: None });
            design.unread.push(kind);
        }
    }

    /// What is drawn in one place and said to serve another serves neither for certain.
    fn stands_in_two(&mut self, design: &mut Design, id: Id, along: Option<Id>) {
        let Some(element) = design.get(id) else { return };
        let inside = element.parent.filter(|parent| design.is_place(*parent));
        let (Some(along), Some(inside)) = (along, inside) else { return };
        let Some(stated) = element.stated(properties::ALONG).filter(|_| along != inside) else { return };
        let (span, first) = (stated.span, design.get(inside).map(|place| place.span).unwrap_or_default());
        self.push(span, DrawingProblem::InTwoPlaces { inside: design.called(inside), first });
        if let Some(element) = design.get_mut(id) {
            element.lost = Some(properties::ALONG);
        }
    }

    /// A joint's fasteners stand somewhere in each member, whether or not a block says where.
    fn members_without_blocks(&mut self, design: &mut Design) {
        for joint in design.drawn_of_kind(kinds::JOINT).collect::<Vec<Id>>() {
            let stated = design.stated(joint, properties::JOINS);
            let Some(Value::Names(names)) = stated.and_then(|of| of.value.as_ref()) else {
                // What it joins may stand in words that were not understood.
                if stated.is_some() || design.get(joint).is_some_and(|joint| joint.not_understood.is_some()) {
                    design.unread.push(kinds::MEMBER);
                } else if !design
                    .of_kind(kinds::MEMBER)
                    .any(|member| design.get(member).is_some_and(|it| it.parent == Some(joint)))
                {
                    // It joins something, though nothing says what.
                    let span = design.get(joint).map(|joint| joint.span).unwrap_or_default();
                    let member = Element { parent: Some(joint), span, ..Element::bare(kinds::MEMBER) };
                    design.elements.push(Arc::new(member));
                }
                continue;
            };
            let of_joint = |member: &Element| member.kind == kinds::MEMBER && member.parent == Some(joint);
            let names = names.clone();
            // A block for what is not joined was meant for one that is.
            let strayed = |member: &Element| {
                let own = member.name.as_deref().unwrap_or_default();
                of_joint(member) && !names.iter().any(|(name, _)| name.eq_ignore_ascii_case(own))
            };
            let strayed: Vec<(String, Span)> = design
                .elements
                .iter()
                .filter(|member| strayed(member))
                .map(|member| (member.name.clone().unwrap_or_default(), member.span))
                .collect();
            for (name, span) in strayed {
                design.unread.push(kinds::MEMBER);
                // Of a name that nothing goes by that is reported.
                if design.joined(joint, &name).is_some() {
                    let joined = names.iter().map(|(name, _)| format!("`{name}`")).collect();
                    self.push(span, DrawingProblem::NotJoined { name, joined });
                }
            }
            for (nth, (name, span)) in names.iter().enumerate() {
                let earlier = names.get(..nth).unwrap_or_default();
                if earlier.iter().any(|(other, _)| other.eq_ignore_ascii_case(name)) {
                    self.push(*span, DrawingProblem::JoinsItself { name: name.clone() });
                    design.unread.push(kinds::MEMBER);
                }
            }
            for (name, span) in names {
                let same = |member: &Element| member.name.as_deref().is_some_and(|own| own.eq_ignore_ascii_case(&name));
                if design.elements.iter().any(|member| of_joint(member) && same(member)) {
                    continue;
                }
                if design.elements.len() >= MOST_OF_A_STAIR {
                    return self.too_many(span, Limit::EachFlight);
                }
                let clear = design.joined_unlike(joint, &name).is_none();
                let target = design.joined(joint, &name).filter(|_| clear);
                let member =
                    Element { name: Some(name), parent: Some(joint), target, span, ..Element::bare(kinds::MEMBER) };
                design.elements.push(Arc::new(member));
            }
        }
    }

    /// A landing called neither top nor bottom lies between two flights; with none at one end, nobody knows where.
    fn lost_landings(&mut self, design: &mut Design, flights: &[Id]) {
        let (Some(first), Some(last)) = (flights.first(), flights.last()) else { return };
        if design.unread.contains(&kinds::FLIGHT) {
            return;
        }
        let landings: Vec<Id> = design.drawn_of_kind(kinds::LANDING).collect();
        for id in landings {
            let Some(landing) = design.get(id).filter(|landing| landing.parent == Some(0)) else { continue };
            let name = landing.name.as_deref().unwrap_or_default();
            if matches!(name.to_lowercase().as_str(), "top" | "bottom") || (*first < id && id < *last) {
                continue;
            }
            let name = landing.name.clone().filter(|name| !name.is_empty());
            self.push(landing.span, DrawingProblem::LandingBesideFlights { name });
            // Which place has a landing is not known.
            design.unread.push(kinds::LANDING);
        }
    }

    /// A stringer or riser board drawn once in a stair of several flights is one for each of them.
    fn share_out(&mut self, design: &mut Design, flights: &[Id]) {
        let [first, others @ ..] = flights else { return };
        let mut drawn = design.elements.len();
        for id in 0..design.elements.len() {
            let Some(element) = design.get_mut(id) else { continue };
            if element.parent != Some(0) || !element.kind.is(Trait::OneForEachFlight) {
                continue;
            }
            element.serves = Some(*first);
            if drawn + others.len() > MOST_OF_A_STAIR {
                let span = element.span;
                return self.too_many(span, Limit::EachFlight);
            }
            drawn += others.len();
            let copies = others.iter().map(|flight| Element { serves: Some(*flight), ..element.clone() });
            let copies: Vec<Arc<Element>> = copies.map(Arc::new).collect();
            design.elements.extend(copies);
        }
    }

    /// The landing at which a door opens, where one is drawn.
    fn door_landing(&self, design: &Design, id: Id) -> Option<Id> {
        let name = match design.stated(id, properties::AT).and_then(|stated| stated.value.as_ref()) {
            Some(Value::Names(names)) => names.first().map(|(name, _)| name.as_str()),
            _ => design.get(id).and_then(|door| door.name.as_deref()),
        }?;
        self.place(design, name)
    }

    fn along(&mut self, design: &Design, id: Id) -> Option<Id> {
        let Some(Value::Names(names)) = design.stated(id, properties::ALONG).and_then(|stated| stated.value.as_ref())
        else {
            return None;
        };
        let (name, _) = names.first()?;
        self.place(design, name)
    }

    fn place(&self, design: &Design, name: &str) -> Option<Id> {
        let is = |element: &Element| element.kind.is(Trait::Place) && element.goes_by(name);
        design.elements.iter().position(|element| is(element))
    }

    fn resolve_member(&mut self, design: &mut Design, id: Id) {
        let Some(element) = design.get(id) else { return };
        let name = element.name.clone().unwrap_or_default();
        let (joint, span) = (element.parent, element.span);
        let unlike = joint.and_then(|joint| design.joined_unlike(joint, &name));
        // Which of them is meant nobody knows, and so nothing of it is.
        let target = joint.filter(|_| unlike.is_none()).and_then(|joint| design.joined(joint, &name));
        if let Some(unlike) = unlike
            && joint.is_none_or(|joint| design.stated(joint, properties::JOINS).is_none())
        {
            self.unclear_name(design, &name, span, unlike);
        } else if unlike.is_none() && target.is_none() && !named_by_its_joint(design, id, &name) {
            self.unknown_name(design, &name, span, Named::Joined);
        }
        if let Some(element) = design.get_mut(id) {
            element.target = target;
        }
    }

    fn resolve_names(&mut self, design: &mut Design, id: Id, naming: &[(PropertyName, Named)]) {
        for &(property, of) in naming {
            let stated = design.stated(id, property).map(|stated| stated.value.clone());
            let unread = matches!(stated, Some(None)) && property != properties::JOINS;
            let Some(element) = design.get_mut(id) else { return };
            element.lost = element.lost.or(unread.then_some(property));
            let Some(Some(Value::Names(names))) = stated else { continue };
            let mut lost = element.lost;
            for (name, span) in names {
                let known = match of {
                    Named::Joined => design.elements.iter().any(|other| other.can_be_joined() && other.goes_by(&name)),
                    // The head and the foot of a stair are there without a landing.
                    Named::Landing if matches!(name.to_lowercase().as_str(), "top" | "bottom") => true,
                    Named::Landing | Named::Place => self.place(design, &name).is_some(),
                };
                let unlike = match of {
                    Named::Joined => design.joined_unlike(id, &name),
                    Named::Landing => design.places_of_one_name(&name, |place| place.kind == kinds::LANDING),
                    Named::Place => design.places_of_one_name(&name, |_| true),
                };
                if let Some([one, other]) = unlike {
                    self.unclear_name(design, &name, span, [one, other]);
                    twice::forget(design, id, property);
                }
                if !known {
                    self.unknown_name(design, &name, span, of);
                }
                if !known || unlike.is_some() {
                    lost = lost.or((property != properties::JOINS).then_some(property));
                }
            }
            if let Some(element) = design.get_mut(id) {
                element.lost = lost;
            }
        }
    }

    fn unclear_name(&mut self, design: &Design, name: &str, span: Span, [one, other]: [Id; 2]) {
        let drawn = |id: Id| (design.called(id), design.get(id).map(|element| element.span).unwrap_or_default());
        let (name, one, other) = (name.to_owned(), drawn(one), drawn(other));
        self.push(span, DrawingProblem::WhichOfTheName { name, one, other });
    }

    fn unknown_name(&mut self, design: &Design, name: &str, span: Span, of: Named) {
        let said = name.to_lowercase();
        let ends = |head: &String| head.strip_suffix(&*said).is_some_and(|rest| rest.is_empty() || rest.ends_with(' '));
        if design.unread.iter().any(|kind| kind.name == said) || self.unread_heads.iter().any(ends) {
            // It is drawn, and could not be read: that was reported there.
            return;
        }
        let fits = |element: &&Arc<Element>| match of {
            Named::Joined => element.can_be_joined(),
            Named::Landing => element.kind == kinds::LANDING,
            Named::Place => element.kind.is(Trait::Place),
        };
        let drawn = design.elements.iter().skip(1).filter(|_| self.seeks_near()).filter(fits);
        let mut names: Vec<&str> = drawn.map(|element| element.name.as_deref().unwrap_or(element.kind.opens)).collect();
        let near = nearest(name, names.iter().copied()).map(str::to_owned);
        names.sort_unstable();
        names.dedup();
        let drawn = names.into_iter().map(str::to_owned).collect();
        self.push(span, DrawingProblem::NothingCalled { name: name.to_owned(), near, drawn });
    }
}

/// Whether a wall says beside which treads it stands, and not of which flight.
fn is_wall_beside_steps(element: &Element) -> bool {
    let ends = [properties::FROM_TREAD, properties::TO_TREAD];
    element.kind == kinds::WALL && ends.into_iter().any(|end| element.stated(end).is_some())
}

/// Whether the joint that a member stands in names it among what it joins: that nothing is called so is reported there.
fn named_by_its_joint(design: &Design, member: Id, name: &str) -> bool {
    let joint = design.get(member).and_then(|member| member.parent);
    let joins = joint.and_then(|joint| design.stated(joint, properties::JOINS)?.value.as_ref());
    matches!(joins, Some(Value::Names(names)) if names.iter().any(|(joined, _)| joined.eq_ignore_ascii_case(name)))
}
