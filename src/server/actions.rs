//! Mends as actions: each change was written into the text, which was read and checked again, before it is offered.

use std::sync::Arc;

use gen_lsp_types::{CodeAction, CodeActionKind, CodeActionParams};

use super::documents::Document;
use super::nodes;
use super::sets;
use super::workspace::Workspace;
use crate::base::Span;
use crate::check::{Analysis, Cause, Edit, Finding, Fix, Mend, RuleFinding, View};
use crate::model::{PropertyName, Stair, Takes, kinds, properties};
use crate::syntax::Item;
use crate::wording;

/// Most stairs of a text for which all mends together are worked out unasked.
const MOST_STAIRS: usize = 8;

/// What can be done at a stretch of a document: each mend of a finding there, and all mends of the design together.
pub(super) fn at(workspace: &Workspace, document: &Document, params: &CodeActionParams) -> Vec<CodeAction> {
    let wanted = |kind: &CodeActionKind| {
        let kind = word(kind);
        let asked =
            params.context.only.as_deref().map(|only| {
                only.iter().any(|asked| kind == word(asked) || kind.starts_with(&format!("{}.", word(asked))))
            });
        asked.unwrap_or(true)
    };
    let mut actions = Vec::new();
    let Some(analysis) = workspace.analysis(document) else {
        if wanted(&CodeActionKind::QuickFix) {
            actions.extend(sets::slips::at(workspace, document, workspace.span(document, params.range)));
        }
        return actions;
    };
    if wanted(&CodeActionKind::QuickFix) {
        let stretch = workspace.span(document, params.range);
        actions.extend(mends(workspace, document, &analysis, stretch));
        actions.extend(own_timber(workspace, document, &analysis, stretch));
        actions.extend(waivers(workspace, document, &analysis, stretch));
    }
    // Of a text of many stairs all mends together take a while: they are for who asks for them by name.
    let few = params.context.only.is_some() || analysis.stairs.len() <= MOST_STAIRS;
    if few && wanted(&CodeActionKind::SourceFixAll) {
        actions.extend(all(workspace, document));
    }
    actions
}

fn word(kind: &CodeActionKind) -> String {
    serde_json::to_value(kind).ok().and_then(|kind| kind.as_str().map(str::to_owned)).unwrap_or_default()
}

/// The mends that touch a stretch, or mend a finding that does.
fn mends<'a>(
    workspace: &'a Workspace,
    document: &'a Document,
    analysis: &'a Analysis,
    stretch: Span,
) -> impl Iterator<Item = CodeAction> + 'a {
    let touches = move |span: Span| span.start <= stretch.end && stretch.start <= span.end;
    let here = move |edits: &&[Edit]| {
        edits.iter().any(|edit| touches(edit.span))
            || mended_by(analysis, edits).any(|found| found.place().is_some_and(touches))
    };
    analysis.mends().into_iter().filter(here).filter_map(move |edits| {
        let after = workspace.session.check(&document.source.with_text(&written(document, edits)?), None);
        let mend = Mend { edits: edits.to_vec(), before: document.source.clone(), cured: analysis.mended(&after)? };
        let text_edits = edits.iter().map(|edit| workspace.text_edit(document, edit.span, &edit.text));
        Some(CodeAction {
            title: wording::mend(&mend),
            kind: Some(CodeActionKind::QuickFix),
            edit: Some(workspace.edit(document, text_edits.collect())),
            ..CodeAction::default()
        })
    })
}

/// A timber that nobody knows, defined by its name before the stair: offered where that leaves nothing new.
fn own_timber(workspace: &Workspace, document: &Document, analysis: &Analysis, stretch: Span) -> Option<CodeAction> {
    let chain = nodes::holding(&analysis.tree.items, stretch.start);
    let [stair, .., Item::Block { head, .. }, Item::Property { name, value_span, .. }] = chain.as_slice() else {
        return None;
    };
    let takes = nodes::kind(head)?.property(name)?.takes;
    let slip = |finding: &&Finding| {
        let place = finding.place();
        let within = place.is_some_and(|place| value_span.start <= place.start && place.end <= value_span.end);
        matches!(finding, Finding::Reader(_)) && within
    };
    analysis.report.findings.iter().find(slip).filter(|_| takes == Takes::Timber)?;
    let words = document.source.slice(*value_span).split(',').next()?.trim().trim_matches('"');
    let at = nodes::extent(stair).start;
    let text = format!("{} \"{words}\" {{ }}\n\n", kinds::TIMBER.opens);
    let edits = vec![Edit { span: Span { start: at, end: at }, text }];
    let after = workspace.session.check(&document.source.with_text(&written(document, &edits)?), None);
    let mend = Mend { cured: analysis.mended(&after)?, before: document.source.clone(), edits };
    let text_edits = mend.edits.iter().map(|edit| workspace.text_edit(document, edit.span, &edit.text));
    Some(CodeAction {
        title: wording::mend(&mend),
        kind: Some(CodeActionKind::QuickFix),
        edit: Some(workspace.edit(document, text_edits.collect())),
        ..CodeAction::default()
    })
}

/// For each rule that is not met at a stretch the block of a waiver, its reason and its name still to be written: until
/// they are it excuses nothing, and the check says so.
fn waivers(workspace: &Workspace, document: &Document, analysis: &Analysis, stretch: Span) -> Vec<CodeAction> {
    let mut actions: Vec<CodeAction> = Vec::new();
    for finding in &analysis.report.findings {
        let (Finding::Rule(rule), Some(place)) = (finding, finding.place()) else { continue };
        if finding.is_excused()
            || rule.rule.set().is_drawing()
            || place.start > stretch.end
            || stretch.start > place.end
        {
            continue;
        }
        // What was measured stands in a block of its own, which takes no waiver: that of the thing as drawn does.
        let at =
            if rule.view == View::Measured { drawn_at(analysis, rule).unwrap_or(place.start) } else { place.start };
        let around = nodes::holding(&analysis.tree.items, at).into_iter().rev().find_map(|item| match item {
            Item::Block { head, open, .. } => {
                let kind = nodes::kind(head)?;
                kinds::WAIVER.within.contains(&kind.name).then_some(*open)
            }
            _ => None,
        });
        let title = format!("{} \"{}\" with a reason", kinds::WAIVER.opens, finding.name());
        let Some(open) = around.filter(|_| !actions.iter().any(|action| action.title == title)) else { continue };
        let rest = document.source.text.get(open.end as usize..).unwrap_or_default();
        let [why, by] = [properties::WHY, properties::BY].map(PropertyName::text);
        let block = format!("{} \"{}\" {{ {why}: \"\"; {by}: \"\" }}", kinds::WAIVER.opens, finding.name());
        // On a line of its own where the block has lines of its own, laid out as the first of them.
        let blanks = rest.find(|c: char| !matches!(c, ' ' | '\t' | '\r' | '\n')).unwrap_or(rest.len());
        let text = match rest.get(..blanks).and_then(|blanks| blanks.rsplit_once('\n')) {
            Some((_, indent)) => format!("\n{indent}{block}"),
            None => format!(" {block};"),
        };
        let at = Span { start: open.end, end: open.end };
        actions.push(CodeAction {
            title,
            kind: Some(CodeActionKind::QuickFix),
            edit: Some(workspace.edit(document, vec![workspace.text_edit(document, at, &text)])),
            ..CodeAction::default()
        });
    }
    actions
}

/// Where the thing is drawn that a finding on the finished work speaks of.
fn drawn_at(analysis: &Analysis, finding: &RuleFinding) -> Option<u32> {
    let is = |stair: &&Stair| stair.measured.as_ref().is_some_and(|measured| Arc::ptr_eq(measured, &finding.design));
    let drawn = &analysis.stairs.iter().find(is)?.drawn;
    let path = finding.design.paths().into_iter().nth(finding.element)?;
    let id = drawn.paths().into_iter().position(|known| known == path)?;
    drawn.get(id).map(|element| element.span.start)
}

/// The findings for which a change is offered.
fn mended_by<'a>(analysis: &'a Analysis, edits: &'a [Edit]) -> impl Iterator<Item = &'a Finding> + 'a {
    let report = &analysis.report;
    report.groups.iter().flat_map(move |group| {
        let of_all = matches!(&group.cause, Cause::Change(fix) if fix.edits == edits);
        let members = report.findings.get(group.findings.clone()).unwrap_or_default();
        members.iter().filter(move |found| of_all || own(found).is_some_and(|fix| fix.edits == edits))
    })
}

fn own(finding: &Finding) -> Option<&Fix> {
    match finding {
        Finding::Rule(finding) => finding.fix.as_ref(),
        Finding::Reader(_) => None,
    }
}

/// All mends one after the other, as one change of what lies between the first and the last of them.
fn all(workspace: &Workspace, document: &Document) -> Option<CodeAction> {
    let mended = workspace.session.mend(&document.source, None);
    let (old, new) = (&document.source.text, &mended.source.text);
    let cured = mended.mends.iter().map(|mend| mend.cured.len()).sum();
    let title = wording::mended(mended.mends.len(), cured, mended.before.report.findings.len());
    let (span, text) = differs(old, new)?;
    Some(CodeAction {
        title,
        kind: Some(CodeActionKind::SourceFixAll),
        edit: Some(workspace.edit(document, vec![workspace.text_edit(document, span, text)])),
        ..CodeAction::default()
    })
}

/// Where two texts differ in the first, and what stands there in the second; nothing where they do not.
fn differs<'t>(old: &str, new: &'t str) -> Option<(Span, &'t str)> {
    let same = |a: char, b: char| (a == b).then_some(a.len_utf8());
    let head: usize = old.chars().zip(new.chars()).map_while(|(a, b)| same(a, b)).sum();
    let (old_rest, new_rest) = (old.get(head..)?, new.get(head..)?);
    let tail: usize = old_rest.chars().rev().zip(new_rest.chars().rev()).map_while(|(a, b)| same(a, b)).sum();
    let text = new_rest.get(..new_rest.len() - tail)?;
    let span = Span::new(head, old.len() - tail);
    (span.start != span.end || !text.is_empty()).then_some((span, text))
}

/// The text once edits are made; nothing where they overlap.
fn written(document: &Document, edits: &[Edit]) -> Option<String> {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|edit| edit.span);
    let text = &document.source.text;
    let (mut out, mut at) = (String::with_capacity(text.len()), 0);
    for edit in edits {
        out += text.get(at..edit.span.start as usize)?;
        out += &edit.text;
        at = edit.span.end as usize;
    }
    out += text.get(at..)?;
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_is_as_short_as_its_ends_allow() {
        assert_eq!(differs("a 8 b", "a 7 b"), Some((Span::new(2, 3), "7")));
        assert_eq!(differs("aa", "aaa"), Some((Span::new(2, 2), "a")));
        assert_eq!(differs("é⅞", "é⅜"), Some((Span::new(2, 5), "⅜")));
        assert_eq!(differs("same", "same"), None);
    }
}
