//! What the words of a clause name, each with its place: for whoever reads it on a screen. It looks names up as
//! `resolve.rs` does, and passes over what names nothing.

use crate::base::Span;
use crate::derive::{Quantity, asked_at, quantity};
use crate::model::{KINDS, Kind, Property};
use crate::syntax::{Asked, ClauseTree, Collection, Expr, Name};

/// What words of a clause name.
#[derive(Debug, Clone, PartialEq)]
pub enum Named {
    /// A kind of thing.
    Kind(&'static Kind),
    /// A quantity.
    Quantity(&'static Quantity),
    /// A property of a kind.
    Property(&'static Kind, &'static Property),
    /// A limit of the rule, by its name.
    Limit(String),
    /// A word that a value is held against.
    Word,
}

/// What the words of a clause name, in the order of the text; `limits` are the names of the rule's limits.
pub fn named(clause: &ClauseTree, limits: &[String]) -> Vec<(Span, Named)> {
    let mut walk = Walk { limits, found: Vec::new() };
    if let Some(kind) = walk.kind(&clause.kind) {
        clause.condition.iter().chain([&clause.requirement]).for_each(|expr| walk.expr(expr, kind));
    }
    walk.in_order()
}

/// The same of a condition that stands alone and speaks of things of this kind.
pub fn named_in_condition(condition: &Expr, kind: &'static Kind, limits: &[String]) -> Vec<(Span, Named)> {
    let mut walk = Walk { limits, found: Vec::new() };
    walk.expr(condition, kind);
    walk.in_order()
}

/// The kind of a name in a clause, in the singular or the plural.
pub fn kind_called(words: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == words || kind.plural == words)
}

struct Walk<'l> {
    limits: &'l [String],
    found: Vec<(Span, Named)>,
}

impl Walk<'_> {
    fn in_order(mut self) -> Vec<(Span, Named)> {
        self.found.sort_by_key(|(span, _)| *span);
        self.found
    }

    fn kind(&mut self, name: &Name) -> Option<&'static Kind> {
        let kind = kind_called(&name.words)?;
        self.found.push((name.span, Named::Kind(kind)));
        Some(kind)
    }

    fn expr(&mut self, expr: &Expr, kind: &'static Kind) {
        match expr {
            Expr::Or(terms) | Expr::And(terms) => terms.iter().for_each(|term| self.expr(term, kind)),
            Expr::Not(inner) | Expr::Negative(inner) => self.expr(inner, kind),
            Expr::Chain(first, rest) => {
                self.expr(first, kind);
                rest.iter().for_each(|(_, term)| self.expr(term, kind));
            }
            Expr::Is(subject, _, words) => {
                self.expr(subject, kind);
                self.found.extend(words.iter().map(|word| (word.span, Named::Word)));
            }
            Expr::Sum(a, _, b, _) | Expr::Product(a, _, b, _) | Expr::Pick(_, a, b, _) => {
                self.expr(a, kind);
                self.expr(b, kind);
            }
            Expr::Figure(..) => {}
            Expr::Count(collection, _) => drop(self.collection(collection)),
            Expr::Over(_, asked, collection, _) => {
                if let Some(kind) = self.collection(collection) {
                    self.asked(asked, kind);
                }
            }
            Expr::Reference(asked, of) => {
                let kinds: Vec<_> = of.iter().map(|name| self.kind(name)).collect();
                // `width of flight of stair` asks it of the first.
                match kinds.first() {
                    Some(Some(kind)) => self.asked(asked, kind),
                    Some(None) => {}
                    None => self.asked(asked, kind),
                }
            }
        }
    }

    fn collection(&mut self, collection: &Collection) -> Option<&'static Kind> {
        let kind = self.kind(&collection.kind)?;
        collection.condition.iter().for_each(|condition| self.expr(condition, kind));
        Some(kind)
    }

    fn asked(&mut self, asked: &Asked, kind: &'static Kind) {
        let Name { words, span } = &asked.name;
        if let Some(found) = self.known(words, kind) {
            return self.found.push((*span, found));
        }
        // `depth at walkline`: the last words are a limit.
        let Some((entry, place)) = asked_at(kind, words) else { return };
        self.found.push((*span, Named::Quantity(entry)));
        if self.limits.iter().any(|limit| limit == place) {
            let length = u32::try_from(place.len()).unwrap_or_default();
            let place_span = Span { start: span.end.saturating_sub(length).max(span.start), end: span.end };
            self.found.push((place_span, Named::Limit(place.to_owned())));
        }
    }

    fn known(&self, words: &str, kind: &'static Kind) -> Option<Named> {
        if self.limits.iter().any(|limit| limit == words) {
            return Some(Named::Limit(words.to_owned()));
        }
        let property = || kind.property(words).map(|property| Named::Property(kind, property));
        quantity(kind, words).map(Named::Quantity).or_else(property)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Source;
    use crate::syntax::parse_clause;

    #[test]
    fn each_name_is_told_at_its_place() {
        let text = "each tread where width of flight >= wide and edge is not square shall have largest height of \
                    (risers where height > 0\") <= most and depth at walkline >= 6\"";
        let clause = parse_clause(&Source::new("t.rules", text), Span::new(0, text.len())).unwrap();
        let limits = ["wide", "most", "walkline"].map(str::to_owned);
        let told: Vec<(&str, String)> = named(&clause, &limits)
            .into_iter()
            .map(|(span, named)| {
                let what = match named {
                    Named::Kind(kind) => format!("kind {}", kind.name),
                    Named::Quantity(entry) => format!("{entry:?}"),
                    Named::Property(kind, property) => format!("{} stated of {}", property.name, kind.name),
                    Named::Limit(name) => format!("limit {name}"),
                    Named::Word => "word".to_owned(),
                };
                (&text[span.start as usize..span.end as usize], what)
            })
            .collect();
        let expected = [
            ("tread", "kind tread"),
            ("width", "width stated of flight"),
            ("flight", "kind flight"),
            ("wide", "limit wide"),
            ("edge", "edge stated of tread"),
            ("square", "word"),
            ("height", "height of riser"),
            ("risers", "kind riser"),
            ("height", "height of riser"),
            ("most", "limit most"),
            ("depth at walkline", "depth at of tread"),
            ("walkline", "limit walkline"),
        ];
        let expected: Vec<(&str, String)> = expected.iter().map(|(at, what)| (*at, (*what).to_owned())).collect();
        assert_eq!(told, expected);
    }
}
