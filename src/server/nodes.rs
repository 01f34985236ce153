//! The statements of a tree by their places.

use crate::base::Span;
use crate::model::{KINDS, Kind, SHOP_KINDS};
use crate::syntax::{Item, Term, TermKind};

/// Where a whole statement stands, its braces too.
pub(super) fn extent(item: &Item) -> Span {
    match item {
        Item::Property { name_span, colon, value_span, .. } => name_span.to(*colon).to(*value_span),
        Item::Block { head_span, misplaced, open, body, close, .. } => {
            let mut whole = head_span.to(*open);
            whole = misplaced.iter().fold(whole, |whole, term| whole.to(term.span));
            whole = body.iter().fold(whole, |whole, item| whole.to(extent(item)));
            close.map_or(whole, |close| whole.to(close))
        }
        Item::Malformed { span, .. } | Item::Damaged { span, .. } | Item::Clause(span) => *span,
        Item::Condition { word, span, .. } => word.to(*span),
        Item::Fragment(fragment) => fragment.word.to(fragment.span),
    }
}

/// The statements that hold a byte, the outermost first.
pub(super) fn holding(items: &[Item], byte: u32) -> Vec<&Item> {
    let mut found = Vec::new();
    let mut items = items;
    let holds = |item: &&Item| {
        let span = extent(item);
        span.start <= byte && byte <= span.end
    };
    while let Some(item) = items.iter().rev().find(holds) {
        found.push(item);
        let Item::Block { body, .. } = item else { break };
        items = body;
    }
    found
}

/// The kind that a block opens, by the words of its head.
pub(super) fn kind(head: &[Term]) -> Option<&'static Kind> {
    let words: Vec<&str> = head.iter().map_while(Term::word).collect();
    let all = KINDS.iter().chain(SHOP_KINDS).filter(|kind| kind.is_drawn());
    let opened = all.filter(|kind| {
        let opens = if kind.opens.is_empty() { kind.name } else { kind.opens };
        let mut said = words.iter();
        opens.split(' ').all(|word| said.next().is_some_and(|said| said.eq_ignore_ascii_case(word)))
    });
    // `riser board` opens with the word `riser` too.
    opened.max_by_key(|kind| kind.name.len())
}

/// The name in quotes of a head, with its place.
pub(super) fn quoted(head: &[Term]) -> Option<(&str, Span)> {
    head.iter().find_map(|term| match &term.kind {
        TermKind::Text(text) => Some((text.as_str(), term.span)),
        _ => None,
    })
}

/// Visits a statement and all that stand in it, in the order of the text.
pub(super) fn walk<'t>(item: &'t Item, visit: &mut impl FnMut(&'t Item)) {
    let mut waiting = vec![item];
    while let Some(item) = waiting.pop() {
        visit(item);
        if let Item::Block { body, .. } = item {
            waiting.extend(body.iter().rev());
        }
    }
}
