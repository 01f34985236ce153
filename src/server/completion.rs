//! What may be written at a place: kinds that may stand there, properties that are not stated yet, and values; first
//! what rules wait for. All from the tables that the reader reads by.

use std::collections::BTreeMap;

use gen_lsp_types::{CompletionItem, CompletionItemKind, Documentation, InsertTextFormat};

use super::documents::{Document, Holds};
use super::names;
use super::nodes;
use super::workspace::Workspace;
use crate::base::Span;
use crate::check::{Analysis, BUILT_IN, shipped};
use crate::derive::Statement;
use crate::model::timbers::SPECIES;
use crate::model::{FILE, KINDS, Kind, Property, PropertyName, SHOP_KINDS, Takes, example};
use crate::syntax::{Item, Tree};
use crate::wording::takes;

/// What may stand at a byte.
pub(super) fn at(workspace: &Workspace, document: &Document, byte: u32) -> Vec<CompletionItem> {
    if !matches!(document.holds, Holds::Design | Holds::Shop) {
        return Vec::new();
    }
    let before = document.source.slice(Span { start: 0, end: byte });
    let line = before.rsplit('\n').next().unwrap_or_default();
    if in_a_comment(line) {
        return Vec::new();
    }
    let statement = line.rsplit(['{', '}', ';']).next().unwrap_or_default();
    let tree = workspace.tree(document);
    let block = around(&tree, byte);
    match statement.split_once(':') {
        Some((name, _)) => {
            let name = name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
            let property = block.and_then(|block| block.kind).and_then(|kind| kind.property(&name));
            property.map(|property| values(workspace, document, &tree, property)).unwrap_or_default()
        }
        None => statements(workspace, document, block.as_ref()),
    }
}

/// Whether a line so far opens a comment: `#` but for a screw's number, outside of quotes.
fn in_a_comment(line: &str) -> bool {
    let mut quoted = false;
    let mut signs = line.chars().peekable();
    let mut before = ' ';
    while let Some(sign) = signs.next() {
        // After a figure `"` is an inch.
        if sign == '"' && (quoted || !before.is_ascii_digit()) {
            quoted = !quoted;
        }
        if sign == '#' && !quoted && !signs.peek().is_some_and(char::is_ascii_digit) {
            return true;
        }
        before = sign;
    }
    false
}

/// The block round a place.
struct Around<'t> {
    kind: Option<&'static Kind>,
    head: Span,
    body: &'t [Item],
}

fn around(tree: &Tree, byte: u32) -> Option<Around<'_>> {
    nodes::holding(&tree.items, byte).into_iter().rev().find_map(|item| match item {
        Item::Block { head, head_span, open, body, close, .. }
            if open.end <= byte && close.is_none_or(|close| byte <= close.start) =>
        {
            Some(Around { kind: nodes::kind(head), head: *head_span, body })
        }
        _ => None,
    })
}

/// Properties and blocks that may stand in a block, or at the top.
fn statements(workspace: &Workspace, document: &Document, block: Option<&Around<'_>>) -> Vec<CompletionItem> {
    let within = match block {
        None => FILE,
        Some(Around { kind: Some(kind), .. }) => kind.name,
        Some(_) => return Vec::new(),
    };
    let mut items = Vec::new();
    if let Some(Around { kind: Some(kind), head, body }) = block {
        let stated =
            |name: &str| body.iter().any(|item| matches!(item, Item::Property { name: known, .. } if known == name));
        let awaited = workspace.analysis(document).map(|analysis| awaited(&analysis, *head)).unwrap_or_default();
        for property in kind.properties.iter().filter(|property| !stated(property.name)) {
            let rules = awaited.get(&key(property.handle())).cloned().unwrap_or_default();
            items.push(of_property(property, &rules));
        }
    }
    let table = if document.holds == Holds::Shop { SHOP_KINDS } else { KINDS };
    let kinds = table.iter().filter(|kind| kind.within.contains(&within));
    items.extend(kinds.map(|kind| of_kind(workspace, kind)));
    items
}

/// A property by what a map can be ordered by.
fn key(property: PropertyName) -> &'static str {
    property.text()
}

/// What would settle rules that are not checked, of the thing that a head draws: the property, and the rules.
fn awaited(analysis: &Analysis, head: Span) -> BTreeMap<&'static str, Vec<String>> {
    let mut found: BTreeMap<&'static str, Vec<String>> = BTreeMap::new();
    let drawn = analysis.stairs.iter().map(|stair| &stair.drawn);
    let called: Vec<String> = drawn
        .flat_map(|design| {
            let here = design.elements.iter().enumerate();
            let here = here.filter(|(_, element)| head.start <= element.span.start && element.span.start < head.end);
            here.map(|(id, _)| design.called(id)).collect::<Vec<_>>()
        })
        .collect();
    for item in analysis.report.not_checked.iter().filter(|item| called.contains(&item.needs.of)) {
        let properties = match item.needs.reason.statement() {
            Some(Statement::Property(property)) => vec![property],
            Some(Statement::OneOf(properties)) => properties.to_vec(),
            _ => Vec::new(),
        };
        for property in properties {
            let rules = found.entry(key(property)).or_default();
            if !rules.contains(&item.rule) {
                rules.push(item.rule.clone());
            }
        }
    }
    found
}

fn of_property(property: &Property, awaited: &[String]) -> CompletionItem {
    let settles = if awaited.is_empty() { String::new() } else { format!(". It would settle {}", awaited.join(", ")) };
    let order = if awaited.is_empty() { "2" } else { "1" };
    CompletionItem {
        label: property.name.to_owned(),
        kind: Some(CompletionItemKind::Property),
        detail: Some(takes(property.takes)),
        documentation: Some(Documentation::String(format!("{}{settles}", property.help))),
        sort_text: Some(format!("{order}{}", property.name)),
        insert_text: Some(format!("{}: ", property.name)),
        ..CompletionItem::default()
    }
}

fn of_kind(workspace: &Workspace, kind: &Kind) -> CompletionItem {
    let snippet = format!("{} {{\n\t$0\n}}", kind.opens);
    let (text, format) = match workspace.client.snippets {
        true => (snippet, InsertTextFormat::Snippet),
        false => (format!("{} {{", kind.opens), InsertTextFormat::PlainText),
    };
    CompletionItem {
        label: kind.opens.to_owned(),
        kind: Some(CompletionItemKind::Struct),
        detail: Some(kind.example.to_owned()).filter(|example| !example.is_empty()),
        documentation: Some(Documentation::String(kind.help.to_owned())),
        sort_text: Some(format!("3{}", kind.opens)),
        insert_text: Some(text),
        insert_text_format: Some(format),
        ..CompletionItem::default()
    }
}

/// What a property may be given.
fn values(workspace: &Workspace, document: &Document, tree: &Tree, property: &Property) -> Vec<CompletionItem> {
    let shop = workspace.analysis(document).and_then(|analysis| analysis.shop.clone());
    let own = |opens: &str| {
        let mut names: Vec<String> = Vec::new();
        for item in &tree.items {
            nodes::walk(item, &mut |item| {
                if let Item::Block { head, .. } = item
                    && nodes::kind(head).is_some_and(|kind| kind.opens == opens)
                    && let Some((name, _)) = nodes::quoted(head)
                {
                    names.push(format!("\"{name}\""));
                }
            });
        }
        names
    };
    let mut words: Vec<String> = match property.takes {
        Takes::OneOf(words) | Takes::SomeOf(words) => words.iter().map(|word| (*word).to_owned()).collect(),
        Takes::Sets => {
            let held = BUILT_IN.iter().filter(|(name, _)| shipped(name).is_some() && *name != crate::rules::DRAWING);
            held.map(|(name, _)| (*name).to_owned()).collect()
        }
        Takes::Timber => {
            let stocked = shop.iter().flat_map(|shop| &shop.shop().timbers).map(|timber| timber.name.clone());
            let species = SPECIES.iter().map(|species| species.name.to_owned());
            own("timber").into_iter().chain(stocked).chain(species).collect()
        }
        Takes::Section => {
            let stocked = shop.iter().flat_map(|shop| &shop.shop().sections).map(|section| match section.nominal {
                true => section.name.clone(),
                false => format!("\"{}\"", section.name),
            });
            own("section").into_iter().chain(stocked).collect()
        }
        Takes::Name | Takes::Members => {
            let drawn = names::all(&tree.items).into_iter().filter(|named| named.is_drawn);
            drawn.map(|named| document.source.slice(named.span).to_owned()).collect()
        }
        _ => Vec::new(),
    };
    let typical = example(property);
    if !typical.is_empty() && !matches!(property.takes, Takes::OneOf(_) | Takes::SomeOf(_) | Takes::Sets | Takes::Name)
    {
        words.push(typical.to_owned());
    }
    let mut items: Vec<CompletionItem> = Vec::new();
    for (at, word) in words.into_iter().enumerate() {
        if !items.iter().any(|item| item.label == word) {
            items.push(CompletionItem {
                label: word,
                kind: Some(CompletionItemKind::Value),
                sort_text: Some(format!("{at:04}")),
                ..CompletionItem::default()
            });
        }
    }
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comment_is_told_from_a_number_and_a_quote() {
        assert!(in_a_comment("  width: 36\" # the boards"));
        assert!(in_a_comment("# all"));
        assert!(!in_a_comment("screws: 3 of #10"));
        assert!(!in_a_comment("landing \"# one\" { "));
    }
}
