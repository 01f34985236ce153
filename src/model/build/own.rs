//! Sections and timbers of the user's own, and those that a shop stocks: known before anything names them.

use std::borrow::Cow;

use super::Builder;
use super::head::{Spelling, draws, opens_section, timbers_defined};
use crate::base::{limits, work};
use crate::measure::Dimension;
use crate::model::kind::{Property, Takes};
use crate::model::problem::Limit;
use crate::model::read::{self, OwnSections};
use crate::model::value::{Section, Shape};
use crate::syntax::{Item, Term, TermKind};

impl Builder<'_> {
    /// The design's own sections, and after them those that the shop stocks.
    pub(super) fn known_sections(&self) -> Cow<'_, OwnSections> {
        let Some(shop) = self.shop else { return Cow::Borrowed(&self.sections) };
        let stocked = shop.sections.iter().filter(|stocked| !stocked.nominal);
        let stocked = stocked.map(|stocked| (stocked.name.clone(), stocked.section));
        work::done(shop.sections.len() + self.sections.len());
        Cow::Owned(self.sections.iter().cloned().chain(stocked).collect())
    }

    /// The names of timbers that a value may say: the design's own, and those that its shop stocks.
    pub(super) fn known_timbers(&self, property: &Property) -> Cow<'_, [String]> {
        match self.shop {
            Some(shop) if property.takes == Takes::Timber => {
                let stocked = shop.timbers.iter().map(|stocked| stocked.name.clone()).chain(shop.unread.clone());
                self.timbers.iter().cloned().chain(stocked).collect()
            }
            _ => Cow::Borrowed(&self.timbers),
        }
    }

    /// Sections of the user's own, read before anything names them.
    pub(super) fn own_sections(&mut self, items: &[Item]) {
        let here = self.sections.len();
        for item in items {
            let Item::Block { head, head_span, body, .. } = item else { continue };
            // Most blocks draw a thing, and one look at their first word tells.
            if draws(head) {
                continue;
            }
            self.timbers.extend(timbers_defined(head));
            let Some(spelling) = opens_section(head) else { continue };
            if self.sections.len() >= limits::STOCK {
                return self.too_many(*head_span, Limit::Stock);
            }
            let name = match head.get(1).map(|term| &term.kind) {
                Some(TermKind::Text(text)) => text.to_string(),
                _ => head.iter().skip(1).filter_map(Term::word).collect::<Vec<_>>().join(" "),
            };
            // A line of it that could not be read may have said what its other figures mean.
            let slipped = body.iter().any(|item| {
                let unknown_shape = |value: &[Term]| match value {
                    [only] => !matches!(only.word(), Some("round" | "rectangular" | "profiled")),
                    _ => true,
                };
                match item {
                    Item::Malformed { .. } => true,
                    Item::Property { name, value, damaged, .. } => *damaged || name == "shape" && unknown_shape(value),
                    _ => false,
                }
            });
            if spelling == Spelling::Slip || slipped {
                self.unread_sections.push(name);
                continue;
            }
            match stated(body) {
                // Of two sections of one name in one place neither is meant for certain, unless they are the same.
                Some(section)
                    if self
                        .sections
                        .get(here..)
                        .unwrap_or_default()
                        .iter()
                        .any(|(other, known)| other.eq_ignore_ascii_case(&name) && *known != section) =>
                {
                    self.unread_sections.push(name);
                }
                Some(section) => self.sections.push((name, section)),
                None => self.unread_sections.push(name),
            }
        }
    }
}

/// The section that a block states, if its lengths make one.
fn stated(body: &[Item]) -> Option<Section> {
    let (mut lengths, mut shape) = (Vec::new(), Shape::Rectangular);
    for item in body {
        let Item::Property { name, value, .. } = item else { continue };
        match value.as_slice() {
            [Term { kind: TermKind::Figure(measure), .. }] if measure.dimension == Dimension::LENGTH => {
                lengths.push((name.as_str(), *measure));
            }
            [Term { kind: TermKind::Word(word), .. }] if name == "shape" => {
                shape = match word.as_str() {
                    "round" => Shape::Round,
                    "profiled" => Shape::Profiled,
                    _ => Shape::Rectangular,
                };
            }
            _ => {}
        }
    }
    read::own_section(shape, &lengths)
}
