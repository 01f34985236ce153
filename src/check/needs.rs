//! Needs by whose they are, so that one is found again without looking through all of them.

use std::collections::BTreeMap;

use crate::base::work;
use crate::derive::Need;

/// Places of needs in a list, by the element of each and the name that it has there; those that are of no one element
/// apart.
#[derive(Debug, Default)]
pub struct NeedsOfOne {
    by_element: BTreeMap<Name, BTreeMap<String, Vec<usize>>>,
    of_none: BTreeMap<Name, Vec<usize>>,
}

/// The name in a need.
type Name = Option<String>;

impl NeedsOfOne {
    /// The place of a need that is settled with this one.
    pub fn settled_with<'n>(&self, needs: &Need, at: impl Fn(usize) -> Option<&'n Need>) -> Option<usize> {
        let of_element = self.by_element.get(&needs.name).and_then(|by_element| by_element.get(&needs.of));
        let of_none = self.of_none.get(&needs.name);
        let mut places = of_element.into_iter().chain(of_none).flatten().copied();
        places.find(|place| {
            work::done(1);
            at(*place).is_some_and(|earlier| earlier.settled_with(needs))
        })
    }

    /// Notes where a need stands.
    pub fn add(&mut self, needs: &Need, place: usize) {
        let name = needs.name.clone();
        if needs.reason.is_of_one_element() {
            self.by_element.entry(name).or_default().entry(needs.of.clone()).or_default().push(place);
        } else {
            self.of_none.entry(name).or_default().push(place);
        }
    }
}
