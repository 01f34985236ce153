//! What each word of a design is, for its colour: from the tree, so that it is what the reader reads.

use gen_lsp_types::{SemanticToken, SemanticTokens, SemanticTokensLegend};

use super::documents::{Document, Holds};
use super::nodes;
use super::sets;
use super::workspace::Workspace;
use crate::base::Span;
use crate::rules::Named;
use crate::syntax::{Item, Term, TermKind, TriviaKind};

/// The types of tokens, by the names of the protocol, in the order of the legend.
const TYPES: [&str; 7] = ["comment", "keyword", "property", "number", "string", "enumMember", "variable"];

#[derive(Debug, Clone, Copy)]
enum Type {
    Comment,
    Kind,
    Property,
    Figure,
    Text,
    Word,
    Limit,
}

/// What the numbers of the tokens mean.
pub(super) fn legend() -> SemanticTokensLegend {
    let token_types = TYPES.iter().map(|name| (*name).to_owned()).collect();
    SemanticTokensLegend { token_types, token_modifiers: Vec::new() }
}

/// Every token of a document, in order, none over the end of a line.
pub(super) fn of(workspace: &Workspace, document: &Document) -> SemanticTokens {
    let tree = workspace.tree(document);
    let mut found: Vec<(Span, Type)> = Vec::new();
    if matches!(document.holds, Holds::Rules | Holds::BuiltIn) {
        let (named, words, fragments) = sets::colours(workspace, document);
        found.extend(words.into_iter().map(|word| (word, Type::Kind)));
        found.extend(named.into_iter().map(|(span, named)| (span, of_name(&named))));
        for fragment in &fragments {
            fragment.items.iter().for_each(|item| nodes::walk(item, &mut |item| one(item, &mut found)));
        }
    }
    for item in &tree.items {
        nodes::walk(item, &mut |item| one(item, &mut found));
    }
    let comments = tree.trivia.iter().filter(|piece| piece.kind == TriviaKind::Comment);
    found.extend(comments.map(|piece| (piece.span, Type::Comment)));
    // Of what lies in another the longer one stands.
    found.sort_by_key(|(span, _)| (span.start, std::cmp::Reverse(span.end)));
    let (mut data, mut before, mut end) = (Vec::new(), (0, 0), 0);
    for (span, of) in found {
        let range = workspace.range(document, span);
        // None may lie in another, or reach over a line.
        if span.start < end || span.start == span.end || range.start.line != range.end.line {
            continue;
        }
        end = span.end;
        let (line, column) = (range.start.line, range.start.character);
        data.push(SemanticToken {
            delta_line: line - before.0,
            delta_start: if line == before.0 { column - before.1 } else { column },
            length: range.end.character - column,
            token_type: of as u32,
            token_modifiers_bitset: 0,
        });
        before = (line, column);
    }
    SemanticTokens { result_id: None, data }
}

fn of_name(named: &Named) -> Type {
    match named {
        Named::Kind(_) => Type::Kind,
        Named::Quantity(_) | Named::Property(..) => Type::Property,
        Named::Limit(_) => Type::Limit,
        Named::Word => Type::Word,
    }
}

fn one(item: &Item, found: &mut Vec<(Span, Type)>) {
    match item {
        Item::Property { name_span, value, .. } => {
            found.push((*name_span, Type::Property));
            found.extend(value.iter().filter_map(term));
        }
        Item::Block { head, .. } => {
            let words = nodes::kind(head).map_or(1, |kind| kind.opens.split(' ').count());
            let (opens, names) = head.split_at_checked(words).unwrap_or((head, &[]));
            found.extend(opens.iter().filter(|term| term.word().is_some()).map(|term| (term.span, Type::Kind)));
            found.extend(opens.iter().filter(|term| term.word().is_none()).filter_map(term));
            found.extend(names.iter().filter_map(term));
        }
        _ => {}
    }
}

fn term(term: &Term) -> Option<(Span, Type)> {
    let of = match term.kind {
        TermKind::Figure(_)
        | TermKind::Nominal(..)
        | TermKind::Penny(_)
        | TermKind::NumberSign(_)
        | TermKind::Date(_) => Type::Figure,
        TermKind::Text(_) => Type::Text,
        TermKind::Word(_) => Type::Word,
        _ => return None,
    };
    Some((term.span, of))
}
