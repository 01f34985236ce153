//! Numbers that follow from a statement, shown behind it, and the room that the nearest limit leaves it.

use std::collections::BTreeMap;

use gen_lsp_types::{InlayHint, Label, Range, Tooltip};

use super::derived;
use super::documents::Document;
use super::hover::outcome as came;
use super::sets;
use super::workspace::Workspace;
use crate::base::Span;
use crate::check::{Analysis, Settled, View};
use crate::derive::Evaluation;
use crate::rules::Relation;
use crate::wording;

/// Those of the statements that end within a range.
pub(super) fn of(workspace: &Workspace, document: &Document, range: Range) -> Vec<InlayHint> {
    let Some(analysis) = workspace.analysis(document) else { return sets::examples::hints(workspace, document, range) };
    let stretch = workspace.span(document, range);
    let mut hints = Vec::new();
    for stair in &analysis.stairs {
        let evaluation = Evaluation::traced(&stair.drawn);
        for (span, worked) in derived::numbers(&evaluation, &document.source) {
            let Ok(value) = &worked.result else { continue };
            if span.end < stretch.start || stretch.end < span.end {
                continue;
            }
            hints.push(InlayHint {
                position: workspace.range(document, Span { start: span.end, end: span.end }).start,
                label: Label::String(format!("{} {value}", worked.quantity.name)),
                kind: None,
                text_edits: None,
                tooltip: Some(Tooltip::String(worked.quantity.help.to_owned())),
                padding_left: Some(true),
                padding_right: None,
                data: None,
            });
        }
    }
    hints.extend(margins(workspace, document, &analysis, stretch));
    hints
}

/// The room that is left to the nearest limit of a rule that holds and is required, behind the words that it rests on
/// alone.
fn margins(workspace: &Workspace, document: &Document, analysis: &Analysis, stretch: Span) -> Vec<InlayHint> {
    let mut nearest: BTreeMap<Span, (f64, InlayHint)> = BTreeMap::new();
    for outcome in analysis.outcomes_of(&|rule| rule.shall) {
        let (Settled::Pass(grounds), View::Drawn) = (&outcome.verdict, outcome.view) else { continue };
        let (Some(held), [words]) = (grounds.comparison, grounds.stated.as_slice()) else { continue };
        let of_shop = analysis.stairs.get(outcome.stair).is_some_and(|stair| {
            stair.drawn.stated(words.element, words.property).is_some_and(|stated| stated.shop.is_some())
        });
        let is_seen = stretch.start <= words.span.end && words.span.end <= stretch.end;
        if of_shop
            || !is_seen
            || matches!(held.relation, Relation::Equal | Relation::Unequal)
            || held.limit.value == 0.0
        {
            continue;
        }
        let share = held.margin.value / held.limit.value.abs();
        if nearest.get(&words.span).is_some_and(|(least, _)| *least <= share) {
            continue;
        }
        let end = Span { start: words.span.end, end: words.span.end };
        let hint = InlayHint {
            position: workspace.range(document, end).start,
            label: Label::String(wording::room_left(held.margin, &outcome.rule.rule().name)),
            kind: None,
            text_edits: None,
            tooltip: came(&outcome).map(|came| Tooltip::String(format!("{}: {came}", outcome.path))),
            padding_left: Some(true),
            padding_right: None,
            data: None,
        };
        nearest.insert(words.span, (share, hint));
    }
    nearest.into_values().map(|(_, hint)| hint).collect()
}
