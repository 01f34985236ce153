//! What is told of the words under a place: what a property takes, and every rule that rests on a value, with the room
//! that is left.

use gen_lsp_types::{Contents, Hover, MarkupContent, MarkupKind};

use super::derived;
use super::documents::Document;
use super::nodes;
use super::workspace::Workspace;
use crate::base::Span;
use crate::check::{Analysis, Comparison, Grounds, RuleOutcome, Settled, View};
use crate::derive::Evaluation;
use crate::measure::print;
use crate::model::{Element, Kind, Property};
use crate::report::{Look, derivation, headline, prose};
use crate::syntax::Item;
use crate::wording::takes;

/// Workings that one value shows at once.
const MOST_WORKINGS: usize = 4;
/// How a working is laid out there.
const LOOK: Look = Look { colour: false, unicode: true, width: 80, list_not_checked: false };

/// What there is to tell at a byte.
pub(super) fn at(workspace: &Workspace, document: &Document, byte: u32) -> Option<Hover> {
    let tree = workspace.tree(document);
    let chain = nodes::holding(&tree.items, byte);
    let (last, around) = chain.split_last()?;
    let (span, text) = match last {
        Item::Property { name, name_span, value_span, .. } => {
            let Some(Item::Block { head, .. }) = around.last() else { return None };
            let kind = nodes::kind(head)?;
            let property = kind.property(name)?;
            let mut text = of_property(kind, property);
            if let Some(analysis) = workspace.analysis(document) {
                text += &workings(&analysis, *value_span);
                text += &resting(&analysis, *value_span);
            }
            (if byte <= name_span.end { *name_span } else { *value_span }, text)
        }
        Item::Block { head, head_span, .. } if byte <= head_span.end => {
            let mut text = of_kind(nodes::kind(head)?);
            if let Some(analysis) = workspace.analysis(document) {
                text += &quantities(&analysis, *head_span);
            }
            (*head_span, text)
        }
        _ => return None,
    };
    Some(marked(workspace, document, span, text))
}

/// A text in Markdown, told of words.
pub(super) fn marked(workspace: &Workspace, document: &Document, span: Span, text: String) -> Hover {
    let contents = Contents::MarkupContent(MarkupContent { kind: MarkupKind::Markdown, value: text });
    Hover { contents, range: Some(workspace.range(document, span)) }
}

pub(super) fn of_property(kind: &Kind, property: &Property) -> String {
    let Property { name, help, .. } = property;
    format!("**{name}** of {}: {}\n\nTakes {}.\n", kind.name, prose(help), prose(&takes(property.takes)))
}

pub(super) fn of_kind(kind: &Kind) -> String {
    let properties: Vec<String> = kind.properties.iter().map(|property| format!("`{}`", property.name)).collect();
    let mut text = format!("**{}**: {}\n", kind.name, prose(kind.help));
    if !properties.is_empty() {
        text += &format!("\nTakes {}.\n", properties.join(", "));
    }
    text
}

/// How the numbers that read a value come about, as `pitchboard working` shows it.
fn workings(analysis: &Analysis, words: Span) -> String {
    let mut shown: Vec<String> = Vec::new();
    for stair in &analysis.stairs {
        let evaluation = Evaluation::traced(&stair.drawn);
        let drawn = stair.drawn.elements.iter().take(stair.drawn.drawn).enumerate();
        // Copies (`left, right`) share their words.
        let states = |element: &Element| element.stated.iter().any(|stated| stated.span == words);
        for worked in
            drawn.filter(|(_, element)| states(element)).flat_map(|(id, _)| derived::from_words(&evaluation, id, words))
        {
            shown.push(derivation(&evaluation, &analysis.report.source, &worked, &LOOK));
        }
    }
    let more = shown.len().saturating_sub(MOST_WORKINGS);
    shown.truncate(MOST_WORKINGS);
    match (shown.is_empty(), more) {
        (true, _) => String::new(),
        (false, 0) => fenced(&shown.join("\n")),
        (false, more) => fenced(&format!("{}\nand {more} more: `pitchboard working`\n", shown.join("\n"))),
    }
}

/// A text as it stands. No line of a working begins as a fence does.
fn fenced(text: &str) -> String {
    format!("\n```text\n{}\n```\n", text.trim_end())
}

/// What is known of the thing that a head draws.
fn quantities(analysis: &Analysis, head: Span) -> String {
    let mut lines: Vec<String> = Vec::new();
    for stair in &analysis.stairs {
        let evaluation = Evaluation::traced(&stair.drawn);
        let drawn = stair.drawn.elements.iter().take(stair.drawn.drawn).enumerate();
        let here = drawn.filter(|(_, element)| head.start <= element.span.start && element.span.start < head.end);
        for worked in here.flat_map(|(id, _)| derived::of(&evaluation, id)) {
            lines.push(headline(&evaluation, &worked));
        }
    }
    if lines.is_empty() { String::new() } else { fenced(&lines.join("\n")) }
}

/// Every rule that rests on words, and how it came out.
fn resting(analysis: &Analysis, words: Span) -> String {
    let mut lines: Vec<String> = Vec::new();
    for outcome in analysis.outcomes() {
        let RuleOutcome { rule, path, view, verdict, .. } = &outcome;
        let (Settled::Pass(grounds) | Settled::Fail(grounds)) = verdict else { continue };
        let Some(came) = self::outcome(&outcome) else { continue };
        let rests = grounds.stated.iter().any(|stated| stated.span.start < words.end && words.start < stated.span.end);
        if !rests {
            continue;
        }
        let measured = if *view == View::Measured { ", as measured" } else { "" };
        let line = format!("- {} of {}{measured}: {came}\n", prose(&rule.rule().name), prose(path));
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    if lines.is_empty() { String::new() } else { format!("\nRests on it:\n\n{}", lines.concat()) }
}

/// How a rule came out, with the figures that decided; nothing where it could not be settled.
pub(super) fn outcome(outcome: &RuleOutcome) -> Option<String> {
    let (grounds, word) = match &outcome.verdict {
        Settled::Pass(grounds) => (grounds, "holds"),
        Settled::Fail(grounds) if outcome.rule.rule().shall => (grounds, "broken"),
        Settled::Fail(grounds) => (grounds, "advised"),
        Settled::NotApplicable | Settled::NotChecked(_) => return None,
    };
    Some(format!("{word}{}", figures(grounds)))
}

fn figures(grounds: &Grounds) -> String {
    let Some(Comparison { value, relation, limit, margin }) = grounds.comparison else { return String::new() };
    let (value, limit) = (print(value), print(limit));
    format!(": `{value} {} {limit}`, margin `{}`", relation.sign(), print(margin))
}
