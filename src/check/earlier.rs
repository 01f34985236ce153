//! What rules came to for stairs that were checked before, by the things that those draw. A stair that draws the very
//! same things and states something else of them is held to the rules that look up what is stated otherwise; what
//! every other rule came to stands. Nothing here can be out of date: what is kept is found again by what it rests on.

use std::collections::VecDeque;
use std::collections::hash_map::{DefaultHasher, Entry, HashMap};
use std::hash::{Hash, Hasher};
use std::sync::{Arc, PoisonError, RwLock};

use super::loaded::LoadedSet;
use super::standing::Stands;
use crate::derive::Behind;
use crate::model::{Design, PropertyNames};

/// So many stairs are kept, those of the last ones that were unlike any other.
const MOST_KEPT: usize = 64;

/// What rules came to for a stair, by their places among the rules of its sets.
pub(super) type Results = Vec<Option<RuleResult>>;

/// What one rule came to, where it was evaluated: for what was measured, one that rests on nothing measured is not.
#[derive(Debug, Clone, Default)]
pub(super) struct RuleResult {
    /// How it stands, with nothing excused.
    pub stands: Stands,
    /// The customs and so on behind it.
    pub behind: Behind,
    /// What was looked up for it in what is stated.
    pub looked_up: PropertyNames,
}

/// Stairs that were checked before. It can be shared between threads.
#[derive(Debug, Default)]
pub struct Earlier(RwLock<VecDeque<Arc<Held>>>);

/// A stair that was checked, with the sets that it was held to.
#[derive(Debug)]
pub(super) struct Held {
    things: Things,
    design: Arc<Design>,
    sets: Vec<Arc<LoadedSet>>,
    results: Results,
}

/// What a stair draws, whatever is stated of it and wherever its words stand.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Things {
    /// Of kinds, names and places.
    hash: u64,
    /// For each thing the first one that the same words draw.
    drawn_with: Vec<usize>,
}

impl Things {
    fn of(design: &Design) -> Self {
        let mut hasher = DefaultHasher::new();
        let mut first: HashMap<_, usize> = HashMap::with_capacity(design.elements.len());
        let mut drawn_with = Vec::with_capacity(design.elements.len());
        let as_drawn = design.as_drawn.iter().flat_map(|drawn| &drawn.elements);
        for (id, element) in design.elements.iter().chain(as_drawn).enumerate() {
            (element.kind.index(), &element.name, element.side, element.step, element.parent).hash(&mut hasher);
            drawn_with.push(match first.entry(element.span) {
                Entry::Occupied(first) => *first.get(),
                Entry::Vacant(place) => *place.insert(id),
            });
        }
        Self { hash: hasher.finish(), drawn_with }
    }
}

/// An earlier stair of the very same things, and what is stated otherwise of them.
pub(super) struct Alike {
    held: Arc<Held>,
    changed: PropertyNames,
}

impl Alike {
    /// What a rule came to, where that rests on nothing that is stated otherwise.
    pub fn result(&self, rule: usize) -> Option<&RuleResult> {
        let result = self.held.results.get(rule)?.as_ref()?;
        (!self.changed.may_share(result.looked_up)).then_some(result)
    }
}

impl Earlier {
    /// The latest stair of the very same things that was held to the same sets; and what this one draws, by which it
    /// may be kept.
    pub(super) fn alike(&self, design: &Design, sets: &[Arc<LoadedSet>]) -> (Things, Option<Alike>) {
        let things = Things::of(design);
        let kept = self.0.read().unwrap_or_else(PoisonError::into_inner);
        let same_sets = |held: &Held| {
            held.sets.len() == sets.len() && held.sets.iter().zip(sets).all(|(held, set)| Arc::ptr_eq(held, set))
        };
        let alike = kept.iter().rev().filter(|held| held.things == things && same_sets(held)).find_map(|held| {
            // What was measured is not held against what was only drawn.
            let same_view = design.as_drawn.is_some() == held.design.as_drawn.is_some();
            let changed = design.changed_since(&held.design).filter(|_| same_view)?;
            Some(Alike { held: Arc::clone(held), changed })
        });
        drop(kept);
        (things, alike)
    }

    /// Keeps what the rules came to for a stair, in the place of an earlier one that it is alike.
    pub(super) fn keep(
        &self,
        things: Things,
        design: &Arc<Design>,
        sets: &[Arc<LoadedSet>],
        results: Results,
        in_place_of: Option<&Alike>,
    ) {
        let held = Arc::new(Held { things, design: Arc::clone(design), sets: sets.to_vec(), results });
        let mut kept = self.0.write().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|other| !in_place_of.is_some_and(|alike| Arc::ptr_eq(&alike.held, other)));
        if kept.len() >= MOST_KEPT {
            kept.pop_front();
        }
        kept.push_back(held);
    }
}
