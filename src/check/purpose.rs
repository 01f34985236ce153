//! What a stair is for, as it says, against what the sets are for that it is checked against.

use super::loaded::LoadedSet;
use super::problem::Problem;
use super::shipped::fitting;
use crate::base::{Diagnostic, Source, Span};
use crate::model::{PropertyName, Stair, Value, properties};
use crate::rules::Purpose;
use std::sync::Arc;

/// From so many people on a stair serves more than a household: the codes let go of their smallest stairs there.
const A_CROWD: f64 = 10.0;

/// A statement of a stair, and the purposes of which a set should have one.
struct Wanted {
    words: Span,
    property: PropertyName,
    purposes: Vec<Purpose>,
}

/// Notices that no set is for what a stair says that it is for. A set that does not say what it is for may be; beside one
/// that is for something else that is not enough.
pub(super) fn notices(stair: &Stair, source: &Source, sets: &[Arc<LoadedSet>]) -> Vec<Diagnostic<Problem>> {
    let unsaid = sets.iter().any(|loaded| loaded.set.serves.is_empty());
    let other = sets.iter().flat_map(|loaded| &loaded.set.serves).any(|purpose| *purpose != Purpose::Any);
    if sets.is_empty() || unsaid && !other {
        return Vec::new();
    }
    let serves = |purpose: &Purpose| sets.iter().any(|loaded| loaded.set.serves.contains(purpose));
    let mut told: Vec<Purpose> = Vec::new();
    let unmet = wanted(stair).into_iter().filter(|wanted| !wanted.purposes.iter().any(serves));
    // What a second statement says that was told of the first is one thing to mend.
    let unmet = unmet.filter(|wanted| {
        let before = wanted.purposes.first().is_some_and(|purpose| told.contains(purpose));
        told.extend(wanted.purposes.first());
        !before
    });
    unmet
        .map(|wanted| {
            let fits = wanted.purposes.first().copied().map(fitting).unwrap_or_default();
            let problem =
                Problem::OtherPurpose { property: wanted.property, purpose: wanted.purposes.first().copied(), fits };
            Diagnostic::new(source, wanted.words, problem)
        })
        .collect()
}

/// The shipped sets that fit a stair, for one that asks for none.
pub(super) fn fits(stair: &Stair) -> Vec<&'static str> {
    let mut found = Vec::new();
    for wanted in wanted(stair) {
        found.extend(wanted.purposes.first().copied().map(fitting).unwrap_or_default());
    }
    found.dedup();
    found
}

/// What a stair says that it is for.
fn wanted(stair: &Stair) -> Vec<Wanted> {
    let stated = |name| stair.drawn.stated(0, name).filter(|stated| stated.shop.is_none());
    let word = |name| {
        let stated = stated(name)?;
        let Some(Value::Word(word)) = &stated.value else { return None };
        Some((&**word, stated.span))
    };
    let mut found = Vec::new();
    let mut want = |property: PropertyName, words: Span, purposes: &[Purpose]| {
        found.push(Wanted { words, property, purposes: purposes.to_vec() });
    };
    match word(properties::USE) {
        Some(("dwelling", span)) => want(properties::USE, span, &[Purpose::Dwelling]),
        // A set for whoever comes holds those of one house too.
        Some(("shared", span)) => want(properties::USE, span, &[Purpose::Public, Purpose::Shared]),
        Some(("public", span)) => want(properties::USE, span, &[Purpose::Public]),
        Some(("workplace", span)) => want(properties::USE, span, &[Purpose::Workplace]),
        _ => {}
    }
    match word(properties::ACCESS) {
        Some(("private", span)) => want(properties::ACCESS, span, &[Purpose::Dwelling]),
        Some(("utility" | "general", span)) => {
            want(properties::ACCESS, span, &[Purpose::Public, Purpose::Workplace, Purpose::Shared])
        }
        _ => {}
    }
    if let Some(("yes", span)) = word(properties::ACCESSIBLE) {
        want(properties::ACCESSIBLE, span, &[Purpose::Accessible, Purpose::Public]);
    }
    if let Some(stated) = stated(properties::OCCUPANTS)
        && let Some(Value::Measure(people)) = &stated.value
        && people.value > A_CROWD
    {
        want(properties::OCCUPANTS, stated.span, &[Purpose::Public, Purpose::Workplace]);
    }
    found
}
