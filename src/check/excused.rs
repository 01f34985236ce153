//! Which rules the words of a design took out of its check: each such word is left out in turn, and what would then
//! not hold, or not be known, is told.

use super::view::CheckedView;
use crate::base::Span;
use crate::derive::Evaluation;
use crate::model::{ASKED_BY_NAME, EXCUSES, PropertyName, Value};
use crate::rules::{self, Verdict};

/// Most words that are left out in turn; how many more there are is told.
const MOST: usize = 12;

/// A word that took rules out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Excused {
    /// The property.
    pub property: PropertyName,
    /// What it is stated of.
    pub of: String,
    /// The words that state it.
    pub span: Span,
    /// The rules that did not apply for it, or passed for it alone, by name; at least one.
    pub rules: Vec<String>,
}

/// The words of a design that took any of the rules out.
pub(super) fn excused(view: &CheckedView<'_>) -> (Vec<Excused>, usize) {
    let (design, mut untried) = (view.design, 0);
    let mut found: Vec<Excused> = Vec::new();
    let drawn = design.elements.iter().take(design.drawn).enumerate();
    let stated = drawn.flat_map(|(id, element)| element.stated.iter().map(move |stated| (id, stated)));
    let words = stated.filter(|(_, stated)| {
        matches!(stated.value, Some(Value::Word(_) | Value::Words(_) | Value::Measure(_)))
            && EXCUSES.contains(&stated.property.handle())
    });
    let mut tried: Vec<(PropertyName, Span)> = Vec::new();
    for (id, stated) in words {
        let (property, span) = (stated.property.handle(), stated.span);
        // Copies (`left, right`) share their words.
        if tried.contains(&(property, span)) {
            continue;
        }
        tried.push((property, span));
        if tried.len() > MOST {
            untried += 1;
            continue;
        }
        let without = design.without(property, span);
        let without = Evaluation::after(&without, &view.plain);
        let by_name = ASKED_BY_NAME.contains(&property);
        let touched = view.rules_touched(&without).map(|(_, rule)| rule);
        let may_rest_on_it = touched.filter(|rule| !by_name || rule.asks_for(property));
        let taken_out = may_rest_on_it.filter(|rule| {
            rules::verdicts(rule, &view.plain).any(|(element, before)| {
                let after = || rules::verdict(rule, &without, element);
                match before {
                    Verdict::NotApplicable => matches!(after(), Verdict::Fail | Verdict::NotChecked(_)),
                    // It applies, and only the word lets it pass.
                    Verdict::Pass => after() == Verdict::Fail,
                    Verdict::Fail | Verdict::NotChecked(_) => false,
                }
            })
        });
        let rules: Vec<String> = taken_out.map(|rule| rule.name.clone()).collect();
        if !rules.is_empty() {
            found.push(Excused { property, of: design.called(id), span, rules });
        }
    }
    (found, untried)
}
