//! What is drawn of which no rule of the sets speaks that a design is held to.

use std::sync::Arc;

use super::loaded::LoadedSet;
use crate::model::{Design, Kind, kinds};
use crate::rules::{Node, Rule};

/// Kinds that hold or say something of others, or are of the site: nobody asks for them alone.
const OF_OTHERS: [&Kind; 11] = [
    kinds::STAIR,
    kinds::FLIGHT,
    kinds::WALL,
    kinds::WINDERS,
    kinds::GROUND,
    kinds::MEASURED,
    kinds::WAIVER,
    kinds::TIMBER,
    kinds::SECTION,
    kinds::PART,
    kinds::MEMBER,
];

/// The kinds of which something is drawn and no rule of these sets speaks, in the order in which they are drawn. Where no
/// set is named, that is reported, and nothing here.
pub(super) fn unasked(design: &Design, sets: &[Arc<LoadedSet>]) -> Vec<&'static Kind> {
    if sets.is_empty() {
        return Vec::new();
    }
    let mut found: Vec<&'static Kind> = Vec::new();
    for element in design.elements.iter().take(design.drawn) {
        if !OF_OTHERS.contains(&element.kind) && !found.contains(&element.kind) {
            found.push(element.kind);
        }
    }
    let rules = || sets.iter().flat_map(|loaded| &loaded.set.rules);
    // Of most kinds a rule speaks by its own.
    found.retain(|kind| !rules().any(|rule| kind.counts_as(rule.kind)) && !rules().any(|rule| speaks_of(rule, kind)));
    found
}

fn speaks_of(rule: &Rule, kind: &Kind) -> bool {
    let mut spoken_of = kind.counts_as(rule.kind);
    for node in std::iter::once(&rule.requirement).chain(&rule.condition) {
        node.each(&mut |node| match node {
            Node::Count(things) | Node::Over(_, _, things) => spoken_of |= kind.counts_as(things.kind),
            Node::Read(_, path) | Node::ReadAt(_, _, path) => {
                spoken_of |= path.iter().any(|of| kind.counts_as(of.kind));
            }
            _ => {}
        });
    }
    spoken_of
}
