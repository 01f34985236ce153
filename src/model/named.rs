//! What a name that a design uses stands for, where several things go by it.

use super::design::{Design, Element, Id};
use super::kind::{PropertyName, Trait};
use super::vocabulary::properties;

/// What a thing that is joined, or that is served, is asked for: where two of a name differ in it, it matters which of
/// them is meant.
const ASKED: [PropertyName; 4] = [properties::SECTION, properties::TIMBER, properties::NOTCHED, properties::THICKNESS];

impl Design {
    /// What a joint joins under a name: what stands in its own flight or landing before what stands elsewhere, and of
    /// several the first.
    pub fn joined(&self, joint: Id, name: &str) -> Option<Id> {
        self.meant(joint, name).next()
    }

    /// Two things that a joint may mean by a name, which are not alike.
    pub(super) fn joined_unlike(&self, joint: Id, name: &str) -> Option<[Id; 2]> {
        let mut meant = self.meant(joint, name);
        let first = meant.next()?;
        let other = meant.find(|other| !self.are_alike(first, *other))?;
        Some([first, other])
    }

    /// Two flights, landings or wells of one name.
    pub(super) fn places_of_one_name(&self, name: &str, is: impl Fn(&Element) -> bool) -> Option<[Id; 2]> {
        let mut places = self.drawn_by(|element| element.kind.is(Trait::Place) && element.goes_by(name) && is(element));
        Some([places.next()?, places.next()?])
    }

    fn meant(&self, joint: Id, name: &str) -> impl Iterator<Item = Id> {
        let place = self.get(joint).and_then(|joint| joint.parent).filter(|parent| self.is_place(*parent));
        let is = move |element: &Element| element.can_be_joined() && element.goes_by(name);
        let near = move |element: &Element| place.is_none() || element.parent == place || element.serves == place;
        let some_near = place.is_some() && self.drawn_by(|element| near(element) && is(element)).next().is_some();
        self.drawn_by(move |element| is(element) && (!some_near || near(element)))
    }

    fn drawn_by(&self, is: impl Fn(&Element) -> bool) -> impl Iterator<Item = Id> {
        self.elements.iter().enumerate().filter(move |(_, element)| is(element)).map(|(id, _)| id)
    }

    /// Whether two things that are drawn say the same of what they are asked for.
    fn are_alike(&self, one: Id, other: Id) -> bool {
        let kind = |id: Id| self.get(id).map(|element| element.kind);
        let same = |property: &PropertyName| match (self.stated(one, *property), self.stated(other, *property)) {
            (Some(one), Some(other)) => one.says_the_same(other),
            (None, None) => true,
            _ => false,
        };
        kind(one) == kind(other) && ASKED.iter().all(same)
    }
}
