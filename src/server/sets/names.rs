//! Where the names of a ruleset lead: to the set and the rule below, and from a rule to the designs that are held to it.

use gen_lsp_types::Location;

use super::read::{Block, Opened, limit_of, term_at};
use crate::base::{Source, Span};
use crate::check::{Analysis, RuleOutcome, Settled};
use crate::model::kinds;
use crate::rules::problem::BlockKind;
use crate::rules::{Limit, Named, Rule};
use crate::server::documents::Document;
use crate::server::nodes;
use crate::server::workspace::Workspace;
use crate::syntax::Item;

/// Where the name at a byte is from.
pub(in crate::server) fn definitions(workspace: &Workspace, document: &Document, byte: u32) -> Vec<Location> {
    let opened = Opened::of(workspace, document);
    let place = |source: &Source, span: Span| workspace.location(source, span);
    let chain = nodes::holding(&opened.tree.items, byte);
    let Some((last, block)) = chain.last().zip(opened.block(byte)) else { return Vec::new() };
    match last {
        Item::Property { name, value, .. } if name == "amends" && term_at(value, byte).is_some() => {
            let below = opened.set().and_then(|set| set.takes_in.first()).and_then(|below| below.text.as_ref());
            below.and_then(|text| place(text, Span::default())).into_iter().collect()
        }
        Item::Property { name, .. } => {
            let Some(name) = limit_of(name) else { return Vec::new() };
            let limit = limit(&opened, &block, name);
            // Of one that is set here the one that it replaced.
            let from = limit.map(|limit| limit.replaced.as_deref().unwrap_or(limit));
            from.and_then(|limit| place(&limit.source, limit.named)).into_iter().collect()
        }
        Item::Clause(_) | Item::Condition { .. } => match opened.named_at(byte) {
            Some((_, Named::Limit(name))) => {
                let limit = limit(&opened, &block, &name);
                limit.and_then(|limit| place(&limit.source, limit.named)).into_iter().collect()
            }
            _ => Vec::new(),
        },
        Item::Block { .. } if at_the_name(&block, byte) => {
            let Some(rule) = opened.rule(&block) else { return Vec::new() };
            // The rule as it was written, and what sets between that one and this have changed of it.
            let between = rule.amendments.iter().filter(|by| by.source.text != opened.source.text);
            let between: Vec<_> = between.filter_map(|by| place(&by.source, by.span)).collect();
            place(&rule.source, rule.span).into_iter().chain(between).collect()
        }
        _ => Vec::new(),
    }
}

fn limit<'o>(opened: &'o Opened, block: &Block<'_>, name: &str) -> Option<&'o Limit> {
    opened.rule(block)?.limits.iter().find(|limit| limit.name == name)
}

fn at_the_name(block: &Block<'_>, byte: u32) -> bool {
    block.name_span.is_some_and(|name| name.start <= byte && byte <= name.end)
}

/// Where the rule at a byte is held: in every design of the folders that is checked against it the words that it rests
/// on, the waivers that name it, and the sets that amend it. Where it is written too, if that is asked for.
pub(in crate::server) fn references(
    workspace: &Workspace,
    document: &Document,
    byte: u32,
    written_too: bool,
) -> Vec<Location> {
    let opened = Opened::of(workspace, document);
    let block = opened.block(byte).filter(|block| at_the_name(block, byte));
    let Some((rule, block)) = block.and_then(|block| Some((opened.rule(&block)?, block))) else { return Vec::new() };
    let mut found = Vec::new();
    if written_too {
        found.extend(workspace.location(&rule.source, rule.span));
    }
    // Of an amendment those that are held to the rule as it amends it.
    let amended_here = |other: &Rule| other.amendments.iter().any(|by| by.source.text == opened.source.text);
    let is_held = |other: &Rule| is_same(other, rule) && (block.kind != BlockKind::Amend || amended_here(other));
    for path in workspace.texts() {
        if path.extension().is_some_and(|ending| ending == "rules") {
            let Ok(loaded) = workspace.session.set(&path.to_string_lossy(), None) else { continue };
            let other = loaded.set.rules.iter().filter(|other| is_held(other));
            let own = other.flat_map(|other| &other.amendments).filter(|by| by.source.path() == path);
            found.extend(own.filter_map(|by| workspace.location(&by.source, by.span)));
        } else if let Ok(analysis) = workspace.session.analyse(&path) {
            in_design(workspace, &analysis, &is_held, &mut found);
        }
    }
    let mut once: Vec<Location> = Vec::with_capacity(found.len());
    found.into_iter().for_each(|place| {
        if !once.contains(&place) {
            once.push(place);
        }
    });
    once
}

/// Whether two rules are one, whatever was changed of it since.
fn is_same(rule: &Rule, other: &Rule) -> bool {
    rule.name == other.name && rule.span == other.span && rule.source.text == other.source.text
}

fn in_design(workspace: &Workspace, analysis: &Analysis, is_held: &dyn Fn(&Rule) -> bool, found: &mut Vec<Location>) {
    let outcomes = analysis.outcomes_of(is_held);
    let source = &analysis.report.source;
    let words = |outcome: &RuleOutcome| {
        let thing = || {
            let drawn = &analysis.stairs.get(outcome.stair)?.drawn;
            drawn.get(outcome.element).map(|element| element.span)
        };
        match &outcome.verdict {
            Settled::Pass(grounds) | Settled::Fail(grounds) => {
                let drawn = &analysis.stairs.get(outcome.stair)?.drawn;
                let own = |read: &&crate::derive::StatedRead| {
                    drawn.stated(read.element, read.property).is_none_or(|stated| stated.shop.is_none())
                };
                grounds.stated.iter().find(own).map(|read| read.span).or_else(thing)
            }
            Settled::NotChecked(_) => thing(),
            Settled::NotApplicable => None,
        }
    };
    // What draws a thing may be a whole block; its first line is enough to stand at.
    let first_line = |span: Span| {
        let first = source.slice(span).lines().next().unwrap_or_default().trim_end();
        Span::new(span.start as usize, span.start as usize + first.len())
    };
    found.extend(outcomes.iter().filter_map(words).filter_map(|span| workspace.location(source, first_line(span))));
    let Some(name) = outcomes.first().map(|outcome| &outcome.rule.rule().name) else { return };
    for item in &analysis.tree.items {
        nodes::walk(item, &mut |item| {
            if let Item::Block { head, .. } = item
                && nodes::kind(head) == Some(kinds::WAIVER)
                && let Some((said, span)) = nodes::quoted(head)
                && said == name
            {
                found.extend(workspace.location(source, span));
            }
        });
    }
}
