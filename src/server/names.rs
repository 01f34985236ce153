//! Names that a design gives and uses: where each is drawn, where it is used, and both under another name.

use gen_lsp_types::{Location, Range, TextEdit};

use super::documents::{Document, Holds};
use super::nodes;
use super::sets;
use super::workspace::Workspace;
use crate::base::{Severity, Span};
use crate::check::{Analysis, Finding};
use crate::model::{Kind, Takes, kinds};
use crate::syntax::{Item, Term, TermKind};

/// A name where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Named {
    /// In lower case, with single blanks.
    pub name: String,
    /// As it is written, with its quotes if it has them.
    pub span: Span,
    /// A block opens under it; else a value uses it.
    pub is_drawn: bool,
    /// The kind of that block.
    pub draws: Option<&'static Kind>,
    /// The stair that it stands in, by its place in the file; none at the top of the file.
    stair: Option<usize>,
}

/// Words of a head that are sides, and no names of anybody's.
const SIDES: [&str; 6] = ["left", "right", "far", "near", "middle", "both"];

/// Every name of a document, in the order of the text.
pub(super) fn all(items: &[Item]) -> Vec<Named> {
    let mut found = Vec::new();
    for (at, item) in items.iter().enumerate() {
        let in_stair = matches!(item, Item::Block { head, .. } if nodes::kind(head) == Some(kinds::STAIR));
        collect(std::slice::from_ref(item), in_stair.then_some(at), None, &mut found);
    }
    found
}

fn collect(items: &[Item], stair: Option<usize>, within: Option<&[Term]>, found: &mut Vec<Named>) {
    for item in items {
        match item {
            Item::Block { head, body, .. } => {
                if let Some(kind) = nodes::kind(head).filter(|kind| *kind != kinds::STAIR && *kind != kinds::WAIVER) {
                    let words = kind.opens.split(' ').count();
                    let draws = (kind != kinds::MEMBER).then_some(kind);
                    add(head.get(words..).unwrap_or_default(), draws, stair, found);
                }
                collect(body, stair, Some(head), found);
            }
            Item::Property { name, value, .. } => {
                let property = within.and_then(nodes::kind).and_then(|kind| kind.property(name));
                let takes = property.map(|property| property.takes);
                // What names none of the design's own is seen with nothing.
                if let Some(Takes::Name | Takes::Members | Takes::Section | Takes::Timber) = takes {
                    add(value, None, stair, found);
                }
            }
            _ => {}
        }
    }
}

/// The names of a list, with commas or `to` between.
fn add(terms: &[Term], draws: Option<&'static Kind>, stair: Option<usize>, found: &mut Vec<Named>) {
    let parts = terms.split(|term| term.kind == TermKind::Comma || term.word() == Some("to"));
    for part in parts {
        let Some((first, last)) = part.first().zip(part.last()) else { continue };
        let words = part.iter().map(|term| match &term.kind {
            TermKind::Text(text) => Some(text.as_str()),
            _ => term.word(),
        });
        let Some(words) = words.collect::<Option<Vec<&str>>>() else { continue };
        let name = words.join(" ").to_lowercase();
        if !name.is_empty() && !SIDES.contains(&name.as_str()) {
            found.push(Named { name, span: first.span.to(last.span), is_drawn: draws.is_some(), draws, stair });
        }
    }
}

/// The name at a byte, with all of the same name that it can be seen with; empty where none stands there.
pub(super) fn same(items: &[Item], byte: u32) -> Vec<Named> {
    let all = all(items);
    let Some(here) = all.iter().find(|named| named.span.start <= byte && byte <= named.span.end).cloned() else {
        return Vec::new();
    };
    let seen = |named: &Named| named.stair == here.stair || named.stair.is_none() || here.stair.is_none();
    all.into_iter().filter(|named| named.name == here.name && seen(named)).collect()
}

/// Where the name at a byte is drawn; of a set that a design asks for, its text.
pub(super) fn definitions(workspace: &Workspace, document: &Document, byte: u32) -> Vec<Location> {
    if matches!(document.holds, Holds::Rules | Holds::BuiltIn) {
        return sets::names::definitions(workspace, document, byte);
    }
    let tree = workspace.tree(document);
    let drawn = same(&tree.items, byte).into_iter().filter(|named| named.is_drawn);
    let drawn: Vec<Location> = drawn.map(|named| place(workspace, document, named.span)).collect();
    if !drawn.is_empty() {
        return drawn;
    }
    set(workspace, document, byte).or_else(|| waived(workspace, document, &tree.items, byte)).into_iter().collect()
}

/// The rule that a waiver at a byte names.
fn waived(workspace: &Workspace, document: &Document, items: &[Item], byte: u32) -> Option<Location> {
    let chain = nodes::holding(items, byte);
    let Some(Item::Block { head, .. }) = chain.last() else { return None };
    let (name, span) = nodes::quoted(head).filter(|_| nodes::kind(head) == Some(kinds::WAIVER))?;
    let analysis = workspace.analysis(document).filter(|_| span.start <= byte && byte <= span.end)?;
    let rule = analysis.sets.iter().find_map(|loaded| loaded.set.rule_called(name))?;
    workspace.location(&rule.source, rule.span)
}

/// The text of the set that is asked for at a byte.
fn set(workspace: &Workspace, document: &Document, byte: u32) -> Option<Location> {
    let analysis = workspace.analysis(document)?;
    let rules = analysis.stairs.iter().flat_map(|stair| &stair.rules);
    let (name, _) = rules.into_iter().find(|(_, span)| span.start <= byte && byte <= span.end)?;
    let loaded = workspace.session.set(name, Some(&document.source)).ok()?;
    workspace.location(loaded.set.text.as_ref()?, Span::default())
}

/// Where the name at a byte is used; and drawn, if that is asked for.
pub(super) fn references(workspace: &Workspace, document: &Document, byte: u32, drawn_too: bool) -> Vec<Location> {
    if matches!(document.holds, Holds::Rules | Holds::BuiltIn) {
        return sets::names::references(workspace, document, byte, drawn_too);
    }
    let same = same(&workspace.tree(document).items, byte).into_iter();
    same.filter(|named| drawn_too || !named.is_drawn).map(|named| place(workspace, document, named.span)).collect()
}

fn place(workspace: &Workspace, document: &Document, span: Span) -> Location {
    Location { uri: document.uri.clone(), range: workspace.range(document, span) }
}

/// The words of the name at a byte that can be given another.
pub(super) fn renamed(workspace: &Workspace, document: &Document, byte: u32) -> Option<Range> {
    let same = same(&workspace.tree(document).items, byte);
    let drawn = document.holds == Holds::Design && same.iter().any(|named| named.is_drawn);
    let here = same.iter().find(|named| named.span.start <= byte && byte <= named.span.end)?;
    drawn.then(|| workspace.range(document, here.span))
}

/// Edits that give the name at a byte another, tried: the text comes to what it came to before.
///
/// # Errors
/// Why the name cannot be given.
pub(super) fn rename(
    workspace: &Workspace,
    document: &Document,
    byte: u32,
    new: &str,
) -> Result<Vec<TextEdit>, &'static str> {
    if document.holds != Holds::Design {
        return Err("only names of a design can be changed");
    }
    let same = same(&workspace.tree(document).items, byte);
    if !same.iter().any(|named| named.is_drawn) {
        return Err("no name of something drawn stands here");
    }
    let new = new.trim().trim_matches('"');
    if new.is_empty() || new.contains(['"', '“', '”', '\n', '\r']) {
        return Err("this is no name");
    }
    let plain = new.chars().all(char::is_alphanumeric) && !new.starts_with(|c: char| c.is_ascii_digit());
    let (mut text, mut at, mut edits) = (String::new(), 0, Vec::new());
    for named in &same {
        let quoted = document.source.slice(named.span).starts_with(['"', '“']);
        let words = if plain && !quoted { new.to_owned() } else { format!("\"{new}\"") };
        text += document.source.slice(Span { start: at, end: named.span.start });
        text += &words;
        at = named.span.end;
        edits.push(workspace.text_edit(document, named.span, &words));
    }
    text += document.source.slice(Span { start: at, end: Span::new(0, document.source.text.len()).end });
    let analysis = workspace.analysis(document).ok_or("only names of a design can be changed")?;
    let after = workspace.session.check(&document.source.with_text(&text), None);
    let is_same = found(&analysis) == found(&after) && analysis.report.tally == after.report.tally;
    if is_same { Ok(edits) } else { Err("under this name the design would be read otherwise") }
}

fn found(analysis: &Analysis) -> Vec<(Severity, &str)> {
    analysis.report.findings.iter().map(|found: &Finding| (found.severity(), found.name())).collect()
}
