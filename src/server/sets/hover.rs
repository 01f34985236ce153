//! What is told of the words of a ruleset: of a rule its page, of a quantity how it comes about, of a limit who set it
//! and which open designs are nearest to it.

use gen_lsp_types::Hover;

use super::read::{Block, Opened, limit_of};
use crate::base::Span;
use crate::check::{Settled, View};
use crate::derive::Quantity;
use crate::measure::Measure;
use crate::report::{self, limit_history, prose};
use crate::rules::problem::BlockKind;
use crate::rules::{Limit, Named, Stands, WORDS, figures};
use crate::server::documents::{Document, Holds};
use crate::server::hover::{marked, of_kind, of_property, outcome};
use crate::server::nodes;
use crate::server::workspace::Workspace;
use crate::syntax::{self, Item};
use crate::wording;

/// Designs that a limit shows.
const MOST_DESIGNS: usize = 5;

/// What there is to tell at a byte.
pub(in crate::server) fn at(workspace: &Workspace, document: &Document, byte: u32) -> Option<Hover> {
    let opened = Opened::of(workspace, document);
    let block = opened.block(byte);
    let chain = nodes::holding(&opened.tree.items, byte);
    let (span, text) = match (chain.last()?, block) {
        (Item::Block { .. }, Some(block)) => head(&opened, &block, byte)?,
        (Item::Property { name, name_span, value_span, .. }, Some(block)) => {
            let limit = limit_of(name).map(|name| (name, name_span.to(*value_span)));
            match limit {
                Some((limit, span)) => (span, of_limit(workspace, &opened, &block, limit)?),
                None if byte <= name_span.end => (*name_span, of_word(name, stands_in(block.kind))?),
                None => return None,
            }
        }
        (Item::Fragment(fragment), _) if byte <= fragment.word.end => {
            (fragment.word, of_word(opened.source.slice(fragment.word), &[Stands::Rule])?)
        }
        (Item::Fragment(fragment), _) => of_fragment(&opened, fragment.span, byte)?,
        (Item::Condition { word, .. }, _) if byte <= word.end => (*word, of_word("where", &[Stands::Amendment])?),
        (Item::Clause(_) | Item::Condition { .. }, Some(block)) => match opened.named_at(byte) {
            Some((span, Named::Limit(name))) => (span, of_limit(workspace, &opened, &block, &name)?),
            Some((span, Named::Kind(kind))) => (span, of_kind(kind)),
            Some((span, Named::Property(kind, property))) => (span, of_property(kind, property)),
            Some((span, Named::Quantity(entry))) => (span, of_quantity(entry)),
            Some((_, Named::Word)) => return None,
            None => {
                let (span, word) = word_at(&opened, byte)?;
                (span, of_word(word, &[Stands::Clause])?)
            }
        },
        _ => return None,
    };
    Some(marked(workspace, document, span, text))
}

/// Of the word that opens a block what it says; of a rule's name the rule in full.
fn head(opened: &Opened, block: &Block<'_>, byte: u32) -> Option<(Span, String)> {
    if byte <= block.word.end {
        return Some((block.word, of_word(block.kind.word(), &[Stands::Set])?));
    }
    let name = block.name_span.filter(|name| name.start <= byte && byte <= name.end)?;
    let (set, rule) = (opened.set()?, opened.rule(block)?);
    Some((name, report::rule(set, rule).markdown(2)))
}

fn stands_in(block: BlockKind) -> &'static [Stands] {
    match block {
        BlockKind::Ruleset => &[Stands::Heading],
        BlockKind::Rule | BlockKind::Withdraw | BlockKind::Figure => &[Stands::Rule],
        BlockKind::Amend => &[Stands::Amendment, Stands::Rule],
        BlockKind::Chapter => &[],
    }
}

/// What a word of the language says, by its table.
fn of_word(word: &str, stands: &[Stands]) -> Option<String> {
    let says = |row: &&crate::rules::Word| {
        let mut words = row.word.split([',', ' ', '(', ')']);
        stands.contains(&row.stands) && words.any(|said| said == word)
    };
    let rows = WORDS.iter().filter(says);
    let told = rows.map(|row| format!("**{}**: {}\n\n```text\n{}\n```\n", row.word, prose(row.help), row.example));
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| told.join("\n"))
}

fn word_at(opened: &Opened, byte: u32) -> Option<(Span, &str)> {
    let text = &opened.source.text;
    let ends = |c: char| c.is_whitespace() || matches!(c, '(' | ')' | ',');
    let start = text.get(..byte as usize)?.rfind(ends).map_or(0, |at| at + 1);
    let rest = text.get(start..)?;
    let word = rest.get(..rest.find(ends).unwrap_or(rest.len()))?;
    Some((Span::new(start, start + word.len()), word))
}

/// A quantity as the reference tells it.
fn of_quantity(entry: &Quantity) -> String {
    let Quantity { name, kind, help, source, gives, .. } = entry;
    let formula = entry.formula();
    let gives = gives.words();
    format!(
        "**{name}** of {}: {}\n\n{} ({})\n\nGives {}.\n",
        kind.name,
        prose(help),
        prose(&formula),
        prose(source),
        gives
    )
}

/// What a design in a fragment may be told of: a kind, or what a property takes.
fn of_fragment(opened: &Opened, fragment: Span, byte: u32) -> Option<(Span, String)> {
    let (tree, _) = syntax::parse_fragment(&opened.source, fragment);
    let chain = nodes::holding(&tree.items, byte);
    let (last, around) = chain.split_last()?;
    match last {
        Item::Property { name, name_span, .. } => {
            let Some(Item::Block { head, .. }) = around.last() else { return None };
            let kind = nodes::kind(head)?;
            Some((*name_span, of_property(kind, kind.property(name)?)))
        }
        Item::Block { head, head_span, .. } if byte <= head_span.end => Some((*head_span, of_kind(nodes::kind(head)?))),
        _ => None,
    }
}

/// A limit: who set it, what it replaced, and the open designs that come nearest to it.
fn of_limit(workspace: &Workspace, opened: &Opened, block: &Block<'_>, name: &str) -> Option<String> {
    let rule = opened.rule(block)?;
    let limit = rule.limits.iter().find(|limit| limit.name == name)?;
    let mut text = format!("**{}** {}\n", prose(name), figures(limit.measure, limit.metric));
    for line in limit_history(limit) {
        text += &format!("\n- {}", prose(&line));
    }
    text.push('\n');
    let nearest = nearest(workspace, &rule.name, limit);
    if !nearest.is_empty() {
        text += &format!("\n{}\n\n", wording::NEAREST_DESIGNS);
        nearest.iter().for_each(|line| text += &format!("- {line}\n"));
    }
    Some(text)
}

/// The open designs that are held to a limit, the one with the least room first.
fn nearest(workspace: &Workspace, rule: &str, limit: &Limit) -> Vec<String> {
    let is_limit = |other: &Limit| other.source.text == limit.source.text && other.span == limit.span;
    let is_figure = |figure: &Measure| {
        [Some(limit.measure), limit.metric].into_iter().flatten().any(|own| (own.value - figure.value).abs() < 1.0)
    };
    let mut found: Vec<(f64, String)> = Vec::new();
    for document in workspace.documents.all().filter(|open| open.holds == Holds::Design) {
        let Some(analysis) = workspace.analysis(document) else { continue };
        let outcomes = analysis.outcomes_of(&|held| held.name == rule && held.limits.iter().any(is_limit));
        let room = |outcome: crate::check::RuleOutcome| {
            let (Settled::Pass(grounds) | Settled::Fail(grounds)) = &outcome.verdict else { return None };
            let held = grounds.comparison.filter(|held| is_figure(&held.limit))?;
            let share = held.margin.value / held.limit.value.abs().max(f64::MIN_POSITIVE);
            Some((share, outcome))
        };
        let least = outcomes.into_iter().filter_map(room).min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((share, nearest)) = least {
            let file = document.path.file_name().unwrap_or_default().to_string_lossy();
            let measured = if nearest.view == View::Measured { ", as measured" } else { "" };
            let came = outcome(&nearest).unwrap_or_default();
            found.push((share, format!("{}, {}{measured}: {came}", prose(&file), prose(&nearest.path))));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let more = found.len().saturating_sub(MOST_DESIGNS);
    let mut lines: Vec<String> = found.into_iter().take(MOST_DESIGNS).map(|(_, line)| line).collect();
    if more > 0 {
        lines.push(format!("and {more} more"));
    }
    lines
}
