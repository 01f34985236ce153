//! Sections and timbers of a design that its shop does not stock: an advice at the words that name them.

use std::collections::BTreeSet;

use super::problem::Problem;
use crate::base::names::nearest;
use crate::base::{Diagnostic, Source, Span};
use crate::model::{Design, SectionName, Shop, Stated, Value};

/// The advices of one design. A shop that lists no timber, no nominal size or no section of its own is taken to buy
/// such as they come.
pub(super) fn advices(design: &Design, source: &Source, shop: &Shop) -> Vec<Diagnostic<Problem>> {
    let mut seen: BTreeSet<Span> = BTreeSet::new();
    let stated = design.elements.iter().flat_map(|element| &element.stated).filter(|stated| stated.shop.is_none());
    let asked = stated.filter_map(|stated| asked(stated, shop)).filter(|(place, _)| seen.insert(*place));
    asked.filter_map(|(place, problem)| Some(Diagnostic::new(source, place, problem?))).collect()
}

/// The words of a stated value that ask for a section or a timber, and the problem if that is not stocked.
fn asked(stated: &Stated, shop: &Shop) -> Option<(Span, Option<Problem>)> {
    match (&stated.value, &stated.section) {
        (Some(Value::Timber(timber)), _) => Some((stated.span, not_timber(shop, &timber.species))),
        (Some(_), Some(section)) => Some((section.span, not_section(shop, section))),
        _ => None,
    }
}

fn not_timber(shop: &Shop, species: &str) -> Option<Problem> {
    if shop.timbers.is_empty() || shop.timber(species).is_some() {
        return None;
    }
    let stocked: Vec<&str> = shop.timbers.iter().map(|timber| timber.name.as_str()).collect();
    let near = nearest(species, stocked.iter().copied());
    Some(not_stocked(shop, species, near, &stocked))
}

fn not_section(shop: &Shop, section: &SectionName) -> Option<Problem> {
    let alike = shop.sections.iter().filter(|stocked| stocked.nominal == section.nominal);
    let stocked: Vec<&str> = alike.map(|stocked| stocked.name.as_str()).collect();
    if stocked.is_empty() || shop.section(&section.name).is_some() {
        return None;
    }
    // Two sizes are never a slip of the pen for one another.
    let near = if section.nominal { None } else { nearest(&section.name, stocked.iter().copied()) };
    Some(not_stocked(shop, &section.name, near, &stocked))
}

fn not_stocked(shop: &Shop, name: &str, near: Option<&str>, stocked: &[&str]) -> Problem {
    Problem::NotStocked {
        shop: shop.title.clone(),
        name: name.to_owned(),
        near: near.map(str::to_owned),
        stocked: stocked.iter().map(|name| (*name).to_owned()).collect(),
    }
}
