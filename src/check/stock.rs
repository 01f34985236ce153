//! Sections and timbers of a design that its shop does not stock: an advice at the words that name them.

use std::collections::BTreeSet;

use crate::base::names::did_you_mean;
use crate::base::{Finding, Source, Span, notices};
use crate::model::{Design, Shop, Takes, Value, nominal};

/// The advices of one design. A shop that lists no timber, no nominal size or no section of its own is taken to buy
/// such as they come.
pub(super) fn advices(design: &Design, source: &Source, shop: &Shop) -> Vec<Finding> {
    let mut told: BTreeSet<Span> = BTreeSet::new();
    let mut findings = Vec::new();
    for stated in design.elements.iter().flat_map(|element| &element.stated) {
        if stated.shop.is_some() || stated.value.is_none() {
            continue;
        }
        let place = match stated.property.takes {
            Takes::Section => Some(stated.span),
            // `2x2 every 5"`, `9 of 2x2`: the section stands before or after the word.
            Takes::Balusters => {
                let words = source.slice(stated.span);
                let start = stated.span.start as usize;
                let before = words
                    .find("every")
                    .map(|end| Span::new(start, start + words.get(..end).map_or(0, |said| said.trim_end().len())));
                let after = || words.find("of ").map(|at| Span::new(start + at + 3, stated.span.end as usize));
                before.or_else(after)
            }
            Takes::Timber => Some(stated.span),
            _ => None,
        };
        let Some(place) = place.filter(|place| told.insert(*place)) else { continue };
        let finding = match &stated.value {
            Some(Value::Timber(timber)) => not_timber(shop, &timber.species, source, place),
            _ => not_section(shop, source, place),
        };
        findings.extend(finding);
    }
    findings
}

fn not_timber(shop: &Shop, species: &str, source: &Source, place: Span) -> Option<Finding> {
    if shop.timbers.is_empty() || shop.timber(species).is_some() {
        return None;
    }
    let stocked = shop.timbers.iter().map(|timber| timber.name.as_str());
    Some(advice(shop, species, source, place, stocked.collect()))
}

fn not_section(shop: &Shop, source: &Source, place: Span) -> Option<Finding> {
    let words = source.slice(place).trim_matches(['"', '“', '”', ' ']);
    let sold = nominal(words);
    let is_name = words.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-'));
    let name = match &sold {
        Some(sold) => sold.as_str(),
        None if is_name => words,
        // Written as it measures: what it is ripped from is the joiner's to say.
        None => return None,
    };
    let alike = || shop.sections.iter().filter(|stocked| stocked.nominal == sold.is_some());
    if alike().next().is_none() || shop.section(name).is_some() {
        return None;
    }
    Some(advice(shop, name, source, place, alike().map(|stocked| stocked.name.as_str()).collect()))
}

fn advice(shop: &Shop, name: &str, source: &Source, place: Span, stocked: Vec<&str>) -> Finding {
    let message = format!("{} does not stock `{name}`", shop.title);
    // Two sizes are never a slip of the pen for one another.
    let near = if nominal(name).is_some() { None } else { did_you_mean(name, stocked.iter().copied()) };
    let help = near.unwrap_or_else(|| format!("It stocks {}.", stocked.join(", ")));
    Finding::notice(&notices::NOT_STOCKED, source, place, message).with_help(help)
}
