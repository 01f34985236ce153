//! What may belong to what, by kind: what a clause may count of a thing, and of what else it may ask. The things of one
//! design that do are found in `derive/belonging.rs`.

use super::kind::{FILE, Kind, Trait};
use super::vocabulary::{KINDS, kinds, properties};

impl Kind {
    /// Whether things of this kind may belong to one of another: they stand in it, serve it, join it or are joined by it.
    pub fn may_belong_to(&self, owner: &Kind) -> bool {
        if self == kinds::WAIVER || self == kinds::MEASURED {
            return false;
        }
        if owner == kinds::STAIR {
            return self != kinds::STAIR;
        }
        if self == kinds::PART {
            return KINDS.iter().any(|kind| kind.is_timber() && kind.may_belong_to(owner));
        }
        // What is defined for a whole file belongs to none of its things; they call for it by its name.
        if self.is(Trait::Stocked) {
            return false;
        }
        // A door opens onto a landing, and serves a flight by none.
        if self == kinds::DOOR {
            return owner == kinds::LANDING;
        }
        let joins = self == kinds::JOINT || self == kinds::MEMBER;
        let joined = owner == kinds::JOINT && self.is(Trait::Joinable);
        let meet = [(kinds::LANDING, kinds::FLIGHT), (kinds::FLIGHT, kinds::LANDING)];
        joins && owner.is(Trait::Joinable)
            || joined
            || meet.iter().any(|(one, other)| self == *one && owner == *other)
            || self.stands_in(owner)
    }

    /// Whether it stands in another, along it or at it, itself or with what it stands in.
    fn stands_in(&self, owner: &Kind) -> bool {
        let at_a_flight =
            self.made_from.is_some() || self.within.contains(&kinds::STAIR.name) && !self.is(Trait::Place);
        let inner = |name: &&&str| **name != FILE && **name != kinds::STAIR.name;
        self.within.contains(&owner.name)
            || owner == kinds::FLIGHT && at_a_flight
            || owner == kinds::LANDING && self.is(Trait::ServesEveryPlace)
            || owner.is(Trait::Place) && self.has(properties::ALONG).is_some()
            || self
                .within
                .iter()
                .filter(inner)
                .filter_map(|name| KINDS.iter().find(|kind| kind.name == *name))
                .any(|within| within.stands_in(owner))
    }

    /// Whether a clause about one of this kind may ask something of the one of another: what it belongs to, what belongs
    /// to it, or the timber or the section that it calls for.
    pub fn may_ask_of(&self, other: &Kind) -> bool {
        if other == kinds::TIMBER || other == kinds::SECTION {
            return self == other || self.is_timber() || self == kinds::PART || self == kinds::MEMBER;
        }
        self == other || other == kinds::STAIR || self.may_belong_to(other) || other.may_belong_to(self)
    }

    /// Whether it is made of timber.
    pub fn is_timber(&self) -> bool {
        self.has(properties::TIMBER).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_in_a_thing_may_belong_to_it() {
        for kind in KINDS.iter().filter(|kind| !kind.is(Trait::Stocked) && *kind != kinds::WAIVER) {
            for owner in KINDS.iter().filter(|owner| kind.within.contains(&owner.name)) {
                let lands = kind == kinds::DOOR || kind == kinds::MEASURED;
                assert!(kind.may_belong_to(owner) || lands, "{} in {}", kind.name, owner.name);
            }
        }
        for (kind, owner) in [
            (kinds::GATE, kinds::FLIGHT),
            (kinds::BRACE, kinds::FLIGHT),
            (kinds::MEMBER, kinds::STRINGER),
            (kinds::POST, kinds::JOINT),
            (kinds::GROUND, kinds::FLIGHT),
            (kinds::HANDRAIL, kinds::WELL),
            (kinds::PART, kinds::LANDING),
        ] {
            assert!(kind.may_belong_to(owner), "{} of {}", kind.name, owner.name);
        }
    }

    #[test]
    fn what_only_stands_beside_a_thing_does_not() {
        for (kind, owner) in [
            (kinds::PART, kinds::TREAD),
            (kinds::HANDRAIL, kinds::GUARD),
            (kinds::POST, kinds::STRINGER),
            (kinds::DOOR, kinds::FLIGHT),
            (kinds::RISER, kinds::TREAD),
            (kinds::RISER, kinds::LANDING),
            (kinds::STAIR, kinds::FLIGHT),
            (kinds::TIMBER, kinds::TREAD),
            (kinds::STRINGER, kinds::LANDING),
            (kinds::FLIGHT, kinds::WELL),
        ] {
            assert!(!kind.may_belong_to(owner), "{} of {}", kind.name, owner.name);
        }
    }
}
