//! A ruleset as it stands in the editor: its tree, what was read of it, and what its words name.

use std::sync::Arc;

use crate::base::{Source, Span};
use crate::check::LoadedSet;
use crate::rules::problem::BlockKind;
use crate::rules::{Named, Rule, RuleSet, named, named_in_condition};
use crate::server::documents::Document;
use crate::server::nodes;
use crate::server::workspace::Workspace;
use crate::syntax::{self, Item, Term, Tree};

/// A ruleset that is open.
pub(super) struct Opened {
    pub source: Source,
    pub tree: Tree,
    /// What was read of it; nothing where it cannot be read at all.
    pub loaded: Option<Arc<LoadedSet>>,
}

/// A block of it.
#[derive(Clone)]
pub(super) struct Block<'t> {
    pub kind: BlockKind,
    /// The word that opens it.
    pub word: Span,
    /// Its name, without quotes; empty where it has none.
    pub name: String,
    /// Where that stands, with its quotes.
    pub name_span: Option<Span>,
    pub open: Span,
    pub body: &'t [Item],
}

impl Opened {
    pub fn of(workspace: &Workspace, document: &Document) -> Self {
        let tree = workspace.tree(document);
        Self { source: document.source.clone(), tree, loaded: workspace.set(document) }
    }

    pub fn set(&self) -> Option<&RuleSet> {
        self.loaded.as_ref().map(|loaded| &loaded.set)
    }

    /// The innermost block that is known and holds a byte, its head too.
    pub fn block(&self, byte: u32) -> Option<Block<'_>> {
        nodes::holding(&self.tree.items, byte).into_iter().rev().find_map(|item| block(&self.source, item))
    }

    /// Every block, those in chapters too.
    pub fn blocks(&self) -> Vec<Block<'_>> {
        let mut found = Vec::new();
        for item in &self.tree.items {
            nodes::walk(item, &mut |item| found.extend(block(&self.source, item)));
        }
        found
    }

    /// The rule that a block writes, amends or withdraws, as it now stands or last stood.
    pub fn rule(&self, block: &Block<'_>) -> Option<&Arc<Rule>> {
        let set = self.set()?;
        match block.kind {
            BlockKind::Rule | BlockKind::Amend => set.rule_called(&block.name),
            BlockKind::Withdraw => set.withdrawn.iter().map(|gone| &gone.rule).find(|rule| rule.name == block.name),
            BlockKind::Ruleset | BlockKind::Chapter | BlockKind::Figure => None,
        }
    }

    /// The names of the limits that a block's clause may read: those of the rule, and those that stand in the block.
    pub fn limits(&self, block: &Block<'_>) -> Vec<String> {
        let stated = block.body.iter().filter_map(|item| match item {
            Item::Property { name, .. } => limit_of(name).map(str::to_owned),
            _ => None,
        });
        let of_rule = self.rule(block).into_iter().flat_map(|rule| rule.limits.iter().map(|limit| limit.name.clone()));
        let mut names: Vec<String> = stated.chain(of_rule).collect();
        names.sort();
        names.dedup();
        names
    }

    /// What the words of a clause, or of a condition that stands alone, name.
    pub fn named(&self, block: &Block<'_>, item: &Item) -> Vec<(Span, Named)> {
        let limits = self.limits(block);
        match item {
            Item::Clause(span) => {
                syntax::parse_clause(&self.source, *span).map(|clause| named(&clause, &limits)).unwrap_or_default()
            }
            Item::Condition { span, .. } => {
                let kind = self.rule(block).map(|rule| rule.kind);
                let read = syntax::parse_condition(&self.source, *span).ok();
                kind.zip(read).map(|(kind, read)| named_in_condition(&read, kind, &limits)).unwrap_or_default()
            }
            _ => Vec::new(),
        }
    }

    /// What the words under a byte name, of the statement that holds it.
    pub fn named_at(&self, byte: u32) -> Option<(Span, Named)> {
        let block = self.block(byte)?;
        let chain = nodes::holding(&self.tree.items, byte);
        let named = self.named(&block, chain.last()?).into_iter();
        named.filter(|(span, _)| span.start <= byte && byte <= span.end).min_by_key(|(span, _)| span.end - span.start)
    }
}

/// The limit that a property states, without the name that it went by before.
pub(super) fn limit_of(property: &str) -> Option<&str> {
    let limit = property.strip_prefix("limit ")?;
    Some(limit.split_once(" formerly ").map_or(limit, |(limit, _)| limit))
}

fn block<'t>(source: &Source, item: &'t Item) -> Option<Block<'t>> {
    let Item::Block { head, open, body, .. } = item else { return None };
    let (first, rest) = head.split_first()?;
    let kind = BlockKind::of(first.word()?)?;
    let (name, name_span) = match (nodes::quoted(rest), rest.first().zip(rest.last())) {
        (Some((name, span)), _) => (name.to_owned(), Some(span)),
        (None, Some((from, to))) => {
            let span = from.span.to(to.span);
            (source.slice(span).split_whitespace().collect::<Vec<_>>().join(" "), Some(span))
        }
        (None, None) => (String::new(), None),
    };
    Some(Block { kind, word: first.span, name, name_span, open: *open, body })
}

/// What the words of a set's clauses and fragments are, for their colours: the words that open them, the statements of
/// the fragments, and what clauses name.
pub(in crate::server) fn colours(
    workspace: &Workspace,
    document: &Document,
) -> (Vec<(Span, Named)>, Vec<Span>, Vec<Tree>) {
    let opened = Opened::of(workspace, document);
    let (mut found, mut words, mut fragments) = (Vec::new(), Vec::new(), Vec::new());
    for block in opened.blocks() {
        for item in block.body {
            match item {
                Item::Clause(span) => {
                    let said = opened.source.slice(*span);
                    let first = said.find(char::is_whitespace).unwrap_or(said.len());
                    words.push(Span::new(span.start as usize, span.start as usize + first));
                    found.extend(opened.named(&block, item));
                }
                Item::Condition { word, .. } => {
                    words.push(*word);
                    found.extend(opened.named(&block, item));
                }
                Item::Fragment(fragment) => {
                    words.push(fragment.word);
                    fragments.push(syntax::parse_fragment(&opened.source, fragment.span).0);
                }
                _ => {}
            }
        }
    }
    (found, words, fragments)
}

/// The words of a list of terms that hold a byte.
pub(super) fn term_at(terms: &[Term], byte: u32) -> Option<&Term> {
    terms.iter().find(|term| term.span.start <= byte && byte <= term.span.end)
}
