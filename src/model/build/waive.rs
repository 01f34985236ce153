//! Waivers of a design: read where they stand, in the thing that departs from a rule.

use std::sync::Arc;

use super::Builder;
use super::head::HeadName;
use crate::base::{Day, Severity, Span, limits};
use crate::model::design::{Design, Element, Id};
use crate::model::problem::{DrawingProblem, Limit};
use crate::model::value::Value;
use crate::model::vocabulary::{kinds, properties};
use crate::model::waiver::Waiver;
use crate::syntax::Item;

impl Builder<'_> {
    /// Reads a waiver that stands in a thing. A slip in it is reported, and it does not hold.
    pub(super) fn waive(&mut self, design: &mut Design, within: Id, names: Vec<HeadName>, span: Span, body: &[Item]) {
        if names.is_empty() {
            return self.push(span, DrawingProblem::WaivesNothing);
        }
        let before = self.found.len();
        let mut block = Design { elements: vec![Arc::new(Element::bare(kinds::WAIVER))], ..Design::default() };
        self.body(&mut block, 0, body, &mut Vec::new());
        let Some(stated) = block.get(0) else { return };
        // A copy (`left, right`) shares its slips with the first, of which they were reported.
        let slips = self.found.get(before..).unwrap_or_default();
        let told = slips.iter().any(|slip| slip.severity() != Severity::Advised);
        let sound = !told && stated.not_understood.is_none() && block.unread.is_empty();
        let understood = sound && stated.stated.iter().all(|stated| stated.value.is_some());
        let text = |property| {
            let stated = stated.stated(property)?;
            let Some(Value::Word(words)) = &stated.value else { return None };
            Some((words.trim_matches(['"', '“', '”', ' ']).to_owned(), stated.span))
                .filter(|(words, _)| !words.is_empty())
        };
        let until = text(properties::UNTIL).and_then(|(day, span)| Some((Day::of(&day)?, span)));
        for name in names.into_iter().filter(|name| !name.text.is_empty()) {
            if design.waivers.len() >= limits::WAIVERS {
                return self.too_many(name.span, Limit::Waivers);
            }
            let [why, by] = [properties::WHY, properties::BY].map(|property| text(property).map(|(words, _)| words));
            let (rule, set) = (name.text, text(properties::SET));
            let only = text(properties::ONLY).map(|(things, span)| named(&things, span)).unwrap_or_default();
            let waiver = Waiver { rule, span: name.span, set, why, by, until, within, only, understood };
            design.waivers.push(Arc::new(waiver));
        }
    }
}

/// Names with commas between, each at the place of all of them.
fn named(things: &str, span: Span) -> Vec<(String, Span)> {
    let names = things.split(',').map(|name| name.split_whitespace().collect::<Vec<_>>().join(" "));
    names.filter(|name| !name.is_empty()).map(|name| (name, span)).collect()
}
