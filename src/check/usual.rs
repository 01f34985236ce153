//! What a stair is usually held to, whatever the document, and what of it no rule of its sets asks. A set that leaves a
//! handrail out lets a stair without one pass, and nothing in the drawing shows it.

use std::sync::Arc;

use super::loaded::LoadedSet;
use crate::model::{Kind, kinds};
use crate::rules::{Node, Rule, What};
use crate::syntax::Aggregate;

/// One thing that a stair is usually held to.
#[derive(Debug, PartialEq, Eq)]
pub struct Usual {
    /// What it is.
    pub name: &'static str,
    /// A rule asks for it whose requirement reads one of these, of a kind: quantities and properties by their names.
    pub by: &'static [(&'static Kind, &'static str)],
    /// Or whose requirement takes both the largest and the smallest of one of these.
    pub spread: &'static [(&'static Kind, &'static str)],
    /// Or counts one of these.
    pub counts: &'static [&'static Kind],
}

const ROW: Usual = Usual { name: "", by: &[], spread: &[], counts: &[] };

/// The closed list. A test holds each name to the catalogue and the vocabulary.
pub const USUAL: &[Usual] = &[
    Usual { name: "even risers", by: &[(kinds::FLIGHT, "riser spread")], spread: &[(kinds::RISER, "height")], ..ROW },
    Usual {
        name: "a handrail",
        by: &[
            (kinds::FLIGHT, "railed sides"),
            (kinds::FLIGHT, "handrail sides"),
            (kinds::FLIGHT, "unrailed walls"),
            (kinds::FLIGHT, "unrailed open sides"),
        ],
        counts: &[kinds::HANDRAIL],
        ..ROW
    },
    Usual {
        name: "a guard beside the steps",
        by: &[(kinds::TREAD, "unguarded drop within"), (kinds::FLIGHT, "bare sides")],
        ..ROW
    },
    Usual { name: "a guard at a landing", by: &[(kinds::LANDING, "unguarded drop within")], ..ROW },
    Usual { name: "headroom", by: &[(kinds::CEILING, "headroom")], ..ROW },
    Usual { name: "the depth of landings", by: &[(kinds::LANDING, "depth")], ..ROW },
];

/// What a stair is usually held to and no rule of these sets asks. Where no set is named, that is reported, and nothing here.
pub(super) fn left_out(sets: &[Arc<LoadedSet>]) -> Vec<&'static Usual> {
    if sets.is_empty() {
        return Vec::new();
    }
    let rules = || sets.iter().flat_map(|loaded| &loaded.set.rules);
    USUAL.iter().filter(|usual| !rules().any(|rule| asks(rule, usual))).collect()
}

fn asks(rule: &Rule, usual: &Usual) -> bool {
    let (mut asked, mut largest, mut smallest) = (false, false, false);
    rule.requirement.each(&mut |node| match node {
        Node::Count(things) => asked |= usual.counts.contains(&things.kind),
        Node::Over(how, what, things) => {
            asked |= is_one_of(usual.by, things.kind, what);
            if is_one_of(usual.spread, things.kind, what) {
                largest |= *how == Aggregate::Largest;
                smallest |= *how == Aggregate::Smallest;
                asked |= *how == Aggregate::Change;
            }
        }
        Node::Read(what, path) => asked |= is_one_of(usual.by, path.last().map_or(rule.kind, |of| of.kind), what),
        Node::ReadAt(quantity, _, path) => {
            let kind = path.last().map_or(rule.kind, |of| of.kind);
            asked |= is_one_of(usual.by, kind, &What::Quantity(quantity));
        }
        _ => {}
    });
    asked || largest && smallest
}

fn is_one_of(list: &[(&'static Kind, &'static str)], kind: &'static Kind, what: &What) -> bool {
    let name = match what {
        What::Quantity(quantity) | What::At(quantity, _) => quantity.name,
        What::Property(property) => property.name,
    };
    list.iter().any(|(of, called)| *of == kind && *called == name)
}

#[cfg(test)]
mod tests {
    use super::USUAL;
    use crate::derive::quantity;

    #[test]
    fn what_a_stair_is_usually_held_to_is_in_the_vocabulary() {
        for usual in USUAL {
            assert!(!usual.by.is_empty() || !usual.spread.is_empty(), "{}", usual.name);
            for (kind, name) in usual.by.iter().chain(usual.spread) {
                let known = quantity(kind, name).is_some() || kind.property(name).is_some();
                assert!(known, "{}: {name} of a {}", usual.name, kind.name);
            }
        }
    }
}
