//! Text to tree. Parsing cannot fail: a slip becomes a damaged node and a finding, and the rest is read.

mod clause;
mod events;
mod figure;
#[cfg(test)]
mod fragment_extent;
mod grammar;
mod hidden;
mod indentation;
mod kept;
mod lower;
mod plain;
mod print;
pub mod problem;
mod relation;
#[cfg(feature = "cli")]
mod tidy;
mod tree;
mod trivia;
mod verb;

#[cfg(feature = "cli")]
pub use clause::parse_condition;
pub use clause::{
    Aggregate, Asked, AskedAt, ClauseTree, Collection, Expr, LoneCondition, Name, is_name, parse_clause,
    parse_lone_condition, parse_value,
};
pub use plain::sign_of;
#[cfg(feature = "internals")]
pub use print::{Token, TokenKind};
pub use problem::Problem;
pub use relation::Relation;
#[cfg(feature = "cli")]
pub use tidy::{Language, Tidying, tidy};
#[cfg(feature = "internals")]
pub use tree::Trivia;
#[cfg(feature = "cli")]
pub use tree::TriviaKind;
pub use tree::{Fragment, FragmentKind, Item, Term, TermKind, Tree};

use crate::base::{Diagnostic, Source, Span, limits};
#[cfg(feature = "cli")]
use crate::measure::{Dimension, Measure};
use trivia::Keep;

/// Largest text that is read, in bytes.
pub const LARGEST: usize = limits::BYTES;

/// Reads a design. Never fails; what could not be read is in the diagnostics.
pub fn parse_design(source: &Source) -> (Tree, Vec<Diagnostic<Problem>>) {
    let (mut tree, mut found) = whole(source, grammar::Rule::design, Keep::All);
    indentation::mend(&mut tree, &mut found);
    (tree, found)
}

/// Reads a piece of a text as a design: the fragment of a rule.
#[cfg(feature = "cli")]
pub fn parse_fragment(source: &Source, span: Span) -> (Tree, Vec<Diagnostic<Problem>>) {
    parse(source, span, grammar::Rule::design, Keep::All)
}

/// Reads a ruleset down to its clauses, which [`parse_clause`] reads one by one.
#[cfg(any(test, feature = "cli"))]
pub fn parse_rules(source: &Source) -> (Tree, Vec<Diagnostic<Problem>>) {
    whole(source, grammar::Rule::rules, Keep::All)
}

/// What a ruleset states: the same without its trivia, for one who only reads what it asks.
pub fn rules_stated(source: &Source) -> (Tree, Vec<Diagnostic<Problem>>) {
    whole(source, grammar::Rule::rules, Keep::Statements)
}

/// Reads a text that is one length and nothing else.
#[cfg(feature = "cli")]
pub fn length(text: &str) -> Option<Measure> {
    let mut events = events::read(text, grammar::Rule::figure).ok()?;
    let (_, start) = events.begin()?;
    match figure::figure(&mut events, start) {
        TermKind::Figure(measure) if measure.dimension == Dimension::LENGTH && events.since(start) == text => {
            Some(measure)
        }
        _ => None,
    }
}

fn whole(source: &Source, start: grammar::Rule, keep: Keep) -> (Tree, Vec<Diagnostic<Problem>>) {
    let (tree, mut found) = parse(source, Span::new(0, source.text.len()), start, keep);
    // Nothing hides in a text that is shipped, as a test there holds.
    if source.text.len() <= LARGEST && !tree.kept {
        hidden::tell(source, &mut found);
    }
    (tree, found)
}

fn parse(source: &Source, span: Span, start: grammar::Rule, keep: Keep) -> (Tree, Vec<Diagnostic<Problem>>) {
    if source.text.len() > LARGEST {
        return (Tree::unread(source, span), vec![Diagnostic::whole(source, Problem::TooLarge)]);
    }
    let mut found = Vec::new();
    if start == grammar::Rule::design
        && let Some(tree) = lower::lines::by_statements(source, span, &mut found)
    {
        return (tree, found);
    }
    found.clear();
    let read = match events::read(source.slice(span), start) {
        Ok(events) => lower::tree(events, source, span, keep, &mut found),
        Err(at) => {
            let at = span.start as usize + at;
            Err(Box::new(Diagnostic::new(source, Span::new(at, at), Problem::NothingMore)))
        }
    };
    match read {
        Ok(tree) => (tree, found),
        Err(refused) => (Tree::unread(source, span), vec![*refused]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(items: &[Item]) -> Vec<String> {
        items
            .iter()
            .map(|item| match item {
                Item::Property { name, .. } => name.to_string(),
                Item::Block { head, .. } => head.iter().filter_map(Term::word).collect::<Vec<_>>().join(" ") + " {",
                Item::Malformed { .. } => "?".to_owned(),
                Item::Damaged { .. } => "!".to_owned(),
                Item::Clause(_) => "each".to_owned(),
                Item::Condition { .. } => "where".to_owned(),
                Item::Fragment(_) => "fragment".to_owned(),
            })
            .collect()
    }

    #[test]
    fn one_slip_costs_one_statement() {
        let text = "stair \"a\" {\n risers 4 of 7\"\n width: 36\"\n \"open\n flight { runs: 7\" }\n} x\n}\nguard {\n";
        let (tree, findings) = parse_design(&Source::new("t", text));
        let found: Vec<&str> = findings.iter().map(|finding| finding.name()).collect();
        assert_eq!(found, ["unclosed quote", "stray brace", "unclosed brace"]);
        assert_eq!(names(&tree.items), ["stair {", "?", "!", "guard {"]);
        let Some(Item::Block { body, .. }) = tree.items.first() else { panic!("no block") };
        assert_eq!(names(body), ["?", "width", "!", "flight {"]);
    }

    #[test]
    fn a_byte_order_mark_says_nothing_of_where_a_brace_is_missing() {
        let text = "stair \"a\" {\n    flight {\n        risers: 4 of 7\"\n    }\nguard {\n    height: 36\"\n}\n";
        let heads = |text: &str| names(&parse_design(&Source::new("t", text)).0.items);
        assert_eq!(heads(text), ["stair {", "guard {"]);
        assert_eq!(heads(&format!("\u{feff}{text}")), heads(text));
    }

    #[test]
    fn rules_read_down_to_clauses_and_fragments() {
        let text = "rule \"r\" {\n limit a: 7\"\n each flight where number of risers > 3\n   shall have a <= height\n source: \"x\"\n passes: flight { risers: 4 of 7\" }; handrail left { }\n}";
        let source = Source::new("t", text);
        let (tree, findings) = parse_rules(&source);
        assert_eq!(findings, []);
        let Some(Item::Block { body, .. }) = tree.items.first() else { panic!("no block") };
        assert_eq!(names(body), ["limit a", "each", "source", "fragment"]);
        let Some(Item::Clause(span)) = body.get(1) else { panic!("no clause") };
        let clause = parse_clause(&source, *span).expect("reads");
        assert_eq!(clause.kind.words, "flight");
        assert!(clause.shall && clause.condition.is_some());
        let Some(Item::Fragment(fragment)) = body.get(3) else { panic!("no fragment") };
        assert_eq!(source.slice(fragment.span), "flight { risers: 4 of 7\" }; handrail left { }");
    }
}
