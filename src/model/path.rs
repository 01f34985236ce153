//! The path of an element: the name by which a person would point at it, and by which a waiver, a fingerprint or an
//! editor finds it again after other lines have changed.
//!
//! A block of another kind inserted above an element does not change its path. Things of one kind that have neither a
//! name nor a side are told apart by their order; what needs a lasting identity asks for a name.

use std::collections::BTreeMap;

use super::design::{Design, Element, Id};
use super::vocabulary::kinds;
use crate::base::work;

impl Design {
    /// The path of every element, in their order: `flight lower / tread 3`, `guard right`,
    /// `joint "newel to stringer" / newel`. That of the stair itself is `stair`. No two are alike.
    pub fn paths(&self) -> Vec<String> {
        let mut paths: Vec<String> = Vec::with_capacity(self.elements.len());
        work::done(self.elements.len());
        let mut alike: BTreeMap<String, Vec<Id>> = BTreeMap::new();
        for (id, element) in self.elements.iter().enumerate() {
            let parent = element.parent.filter(|parent| *parent != 0).and_then(|parent| paths.get(parent).cloned());
            let path = match parent.or_else(|| self.flight_of_copy(element)) {
                Some(holder) => format!("{holder} / {}", self.segment(element)),
                None => self.segment(element),
            };
            alike.entry(path.clone()).or_default().push(id);
            paths.push(path);
        }
        for ids in alike.into_values().filter(|ids| ids.len() > 1) {
            for (at, id) in ids.into_iter().enumerate() {
                if let Some(path) = paths.get_mut(id) {
                    *path += &format!(" #{}", at + 1);
                }
            }
        }
        paths
    }

    /// The path of the flight that a copy serves, where a thing drawn once stands for one in each flight.
    fn flight_of_copy(&self, element: &Element) -> Option<String> {
        let flight = element.serves.filter(|_| element.step.is_none())?;
        let copied = self.elements.iter().any(|other| {
            other.kind == element.kind && other.span == element.span && other.serves.is_some_and(|to| to != flight)
        });
        self.get(flight).filter(|_| copied).map(|flight| self.segment(flight))
    }

    fn segment(&self, element: &Element) -> String {
        if element.kind == kinds::MEMBER {
            return element.name.as_deref().map_or_else(|| "member".to_owned(), written);
        }
        let mut segment = element.kind.name.to_owned();
        if let Some(name) = &element.name {
            segment += &format!(" {}", written(name));
        }
        if let Some(step) = element.step {
            segment += &format!(" {}", step + 1);
        }
        if let Some(side) = element.side {
            segment += &format!(" {}", side.word());
        }
        segment
    }
}

/// A name as a path holds it: in quotes where it is more than letters and digits.
fn written(name: &str) -> String {
    if name.chars().all(char::is_alphanumeric) { name.to_owned() } else { format!("\"{name}\"") }
}
