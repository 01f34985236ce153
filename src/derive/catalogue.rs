//! The catalogue: every quantity. Rules, the working and the reference all name quantities from here.

use std::sync::LazyLock;

use super::quantity::Quantity;
use crate::model::{KINDS, Kind, kinds};

static GROUPS: &[&[Quantity]] = &[
    super::place::QUANTITIES,
    super::place::WELLS,
    super::flight::QUANTITIES,
    super::side::QUANTITIES,
    super::step::QUANTITIES,
    super::tread_ends::QUANTITIES,
    super::winder::QUANTITIES,
    super::overhead::QUANTITIES,
    super::turned::QUANTITIES,
    super::door::QUANTITIES,
    super::gate::QUANTITIES,
    super::handrail::QUANTITIES,
    super::grip::HANDRAIL,
    super::guard::QUANTITIES,
    super::guard_posts::QUANTITIES,
    super::grip::GUARD,
    super::stringer::QUANTITIES,
    super::member::QUANTITIES,
    super::bearing::QUANTITIES,
    super::string_ends::QUANTITIES,
    super::joist::QUANTITIES,
    super::header::QUANTITIES,
    super::column::QUANTITIES,
    super::push::QUANTITIES,
    super::joint::QUANTITIES,
    super::fastener_group::QUANTITIES,
    super::fastened::QUANTITIES,
    super::joint_strength::QUANTITIES,
    super::coating::QUANTITIES,
    super::part::QUANTITIES,
    super::measured::QUANTITIES,
    super::section::QUANTITIES,
];

/// Every quantity.
pub fn quantities() -> impl Iterator<Item = &'static Quantity> + Clone {
    GROUPS.iter().flat_map(|group| group.iter())
}

/// Those of each kind by its place in the table, in the order of their names.
static BY_NAME: LazyLock<Vec<Vec<&Quantity>>> = LazyLock::new(|| {
    let mut all: Vec<Vec<&Quantity>> = vec![Vec::new(); KINDS.len()];
    for entry in quantities() {
        if let Some(of_kind) = all.get_mut(entry.kind.index()) {
            of_kind.push(entry);
        }
    }
    all.iter_mut().for_each(|of_kind| of_kind.sort_unstable_by_key(|entry| entry.name));
    all
});

/// The quantity of a kind by its name. Of whatever is made of timber may be asked what is asked of a part.
pub fn quantity(kind: &Kind, name: &str) -> Option<&'static Quantity> {
    let of = |kind: &Kind| {
        let of_kind = BY_NAME.get(kind.index())?;
        of_kind.get(of_kind.binary_search_by_key(&name, |entry| entry.name).ok()?).copied()
    };
    of(kind).or_else(|| of(kinds::PART).filter(|_| kind.is_timber()))
}

/// Those that are asked at a place, the shortest name first.
static AT_A_PLACE: LazyLock<Vec<&Quantity>> = LazyLock::new(|| {
    let mut placed: Vec<&Quantity> = quantities().filter(|entry| entry.at_a_place()).collect();
    placed.sort_by_key(|entry| entry.name.len());
    placed
});

/// The quantity of a kind that is asked at a place which words name behind its own, and those last words.
pub fn asked_at<'w>(kind: &Kind, words: &'w str) -> Option<(&'static Quantity, &'w str)> {
    if !words.contains(' ') {
        return None;
    }
    let named = AT_A_PLACE.iter().filter_map(|entry| {
        let place = words.strip_prefix(entry.name)?.strip_prefix(' ')?;
        Some((*entry, place))
    });
    let mut named = named.filter(|(entry, _)| entry.kind == kind || entry.kind == kinds::PART && kind.is_timber());
    named.next()
}

/// Every quantity of a kind, those of a part too where it is made of timber.
pub fn quantities_of(kind: &Kind) -> impl Iterator<Item = &'static Quantity> + Clone + use<> {
    let (index, timber) = (kind.index(), kind.is_timber());
    quantities().filter(move |entry| entry.kind.index() == index || timber && entry.kind == kinds::PART)
}

#[cfg(test)]
mod tests {
    use super::super::formula::Derive;
    use super::*;

    #[test]
    fn entries_are_whole_and_unique() {
        let mut seen = std::collections::BTreeSet::new();
        for entry in quantities() {
            assert!(seen.insert((entry.kind.name, entry.name)), "{entry:?} stands twice");
            assert!(!entry.help.is_empty() && !entry.formula().is_empty() && !entry.source.is_empty(), "{entry:?}");
            let by_code = matches!(entry.derive, Derive::Whole(_) | Derive::At(_) | Derive::Mechanics(_));
            assert_eq!(by_code, !entry.formula.is_empty(), "{entry:?} is told by an expression or by words");
            for word in entry.name.split(' ') {
                let reserved = ["each", "where", "shall", "should", "have", "and", "or", "not", "of", "is", "along"];
                assert!(!reserved.contains(&word), "no rule could name {entry:?}");
            }
        }
    }
}
