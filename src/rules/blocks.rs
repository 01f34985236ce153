//! The blocks of a set's file: its heading, chapters, rules, amendments and withdrawals, each with its name.

use super::parts::text_of;
use super::problem::{BlockKind, LineMeant, MoreNames, Problem, SetProblem};
use crate::base::names::nearest;
use crate::base::{Reporter, Span};
use crate::syntax::{Item, Term, TermKind};

/// The properties of a heading.
pub(super) const HEADING: [&str; 6] = ["basis", "edition", "caution", "for", "classes", "amends"];

/// A block of the file other than a chapter, whose blocks stand for themselves.
pub(super) struct Block<'t> {
    pub kind: BlockKind,
    /// An amendment that speaks of a figure of the set, not of a rule.
    pub of_figure: bool,
    /// The words that open it.
    pub head: Span,
    pub name: String,
    pub name_span: Span,
    pub body: &'t [Item],
    /// The chapter in which it stands, empty for none.
    pub chapter: String,
}

/// The blocks of a file in order. One that stands inside another, because a brace is missing, still counts.
pub(super) fn blocks<'t>(items: &'t [Item], report: &mut Reporter<'_, Problem>) -> Vec<Block<'t>> {
    let mut blocks = Vec::new();
    collect(items, "", &mut blocks, report);
    blocks
}

/// Whether a file is a ruleset at all: some block of it opens as one of a set's does, give or take a slip of the pen. Of
/// any other file, which may be anything, no word is told.
pub(super) fn is_ruleset(items: &[Item]) -> bool {
    items.iter().any(|item| {
        let Item::Block { head, .. } = item else { return false };
        let word = head.first().and_then(Term::word).unwrap_or("").to_lowercase();
        BlockKind::of(&word).is_some() || nearest(&word, BlockKind::ALL.map(BlockKind::word)).is_some()
    })
}

/// Reports an item that stands where only blocks, or the properties of a heading, do.
pub(super) fn misplaced(item: &Item, report: &mut Reporter<'_, Problem>) {
    collect(std::slice::from_ref(item), "", &mut Vec::new(), report);
}

fn collect<'t>(items: &'t [Item], chapter: &str, blocks: &mut Vec<Block<'t>>, report: &mut Reporter<'_, Problem>) {
    for item in items {
        match item {
            Item::Block { head, head_span, body, .. } => block(head, *head_span, body, chapter, blocks, report),
            Item::Property { name, name_span, .. } if chapter.is_empty() => {
                let of_heading = HEADING.contains(&name.as_str());
                report.push(*name_span, SetProblem::PropertyOutside { name: name.to_string(), of_heading });
            }
            Item::Property { name, name_span, .. } => {
                report.push(*name_span, SetProblem::ChapterProperty { name: name.to_string() });
            }
            Item::Malformed { terms, span } => {
                report.push(*span, SetProblem::NotAStatement(line_meant(terms, report)));
            }
            Item::Clause(span) => report.push(*span, SetProblem::ClauseOutside),
            Item::Condition { word, .. } => report.push(*word, SetProblem::ConditionOutside),
            Item::Fragment(fragment) => report.push(fragment.span, SetProblem::FragmentOutside),
            // It was reported as such.
            Item::Damaged { .. } => {}
        }
    }
}

/// What a line that is no statement was likely meant for.
fn line_meant(terms: &[Term], report: &Reporter<'_, Problem>) -> LineMeant {
    let first = terms.first().and_then(Term::word).unwrap_or("").to_lowercase();
    let Some(kind) = BlockKind::of(&first) else {
        return nearest(&first, BlockKind::ALL.map(BlockKind::word)).map_or(LineMeant::Unknown, LineMeant::Near);
    };
    let rest = terms.get(1..).unwrap_or_default();
    let name =
        rest.first().zip(rest.last()).map(|(first, last)| text_of(report.source, rest, first.span.to(last.span)));
    LineMeant::Block(kind, name)
}

/// Words by which people begin a set that has a heading of another name.
const MEANT_FOR_A_HEADING: [&str; 6] = ["rules", "rulesets", "rulebook", "set", "code", "title"];

/// Whether a block of another name was meant to head the set: by its word, or by what it states.
fn is_heading(word: &str, body: &[Item]) -> bool {
    let states = |item: &Item| matches!(item, Item::Property { name, .. } if HEADING.contains(&name.as_ref()));
    MEANT_FOR_A_HEADING.contains(&word) || body.iter().any(states)
}

fn block<'t>(
    head: &[Term],
    span: Span,
    body: &'t [Item],
    chapter: &str,
    blocks: &mut Vec<Block<'t>>,
    report: &mut Reporter<'_, Problem>,
) {
    let word = head.first().and_then(Term::word).unwrap_or("").to_lowercase();
    let rest = head.get(1..).unwrap_or_default();
    let of_figure = word == BlockKind::Amend.word()
        && matches!(rest, [figure, Term { kind: TermKind::Text(_), .. }, ..] if figure.word() == Some(BlockKind::Figure.word()));
    let rest = if of_figure { rest.get(1..).unwrap_or_default() } else { rest };
    let name = match rest.first().map(|term| &term.kind) {
        Some(TermKind::Text(text)) => text.trim().to_owned(),
        _ => rest.iter().filter_map(Term::word).collect::<Vec<_>>().join(" "),
    };
    let name_span = match rest {
        [first, .., last] if !matches!(first.kind, TermKind::Text(_)) => first.span.to(last.span),
        [first, ..] => first.span,
        [] => span,
    };
    let Some(kind) = BlockKind::of(&word) else {
        let heads = is_heading(&word, body);
        let near =
            if heads { Some(BlockKind::Ruleset.word()) } else { nearest(&word, BlockKind::ALL.map(BlockKind::word)) };
        let title = heads.then_some(name);
        return report.push(span, SetProblem::UnknownBlock { word, near, title });
    };
    if let [text, more, ..] = rest
        && matches!(text.kind, TermKind::Text(_))
    {
        let names = if more.kind == TermKind::Comma { MoreNames::Listed } else { MoreNames::Unquoted };
        report.push(more.span, SetProblem::SeveralNames { block: kind, more: names });
    }
    if name.is_empty() && kind != BlockKind::Ruleset {
        report.push(span, SetProblem::Unnamed { block: kind });
    }
    if kind == BlockKind::Chapter {
        return collect(body, if name.is_empty() { kind.word() } else { &name }, blocks, report);
    }
    blocks.push(Block { kind, of_figure, head: span, name, name_span, body, chapter: chapter.to_owned() });
    for inner in body.iter().filter(|item| matches!(item, Item::Block { .. })) {
        collect(std::slice::from_ref(inner), chapter, blocks, report);
    }
}
