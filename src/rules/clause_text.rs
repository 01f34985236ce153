//! A condition or a value written out again from its nodes: with its names, or with the numbers put in.

use super::node::{Collected, Node, Of, Place, Row, What};
use super::rule::Rule;
use super::table::Table;
use crate::base::Span;
use crate::measure::Dimension;
use crate::measure::{Measure, print};
use crate::syntax::{Aggregate, Relation};

/// What is written in place of a name or a figure; nothing keeps it as it is.
type Leaf<'a> = dyn Fn(&Node) -> Option<String> + 'a;

/// A node of a rule in the words of the rule language.
pub fn words(node: &Node, rule: &Rule) -> String {
    Writer { rule, leaf: &|_| None, figure: &print, order: Order::AsWritten }.node(node, LOOSEST)
}

/// A node with something written in place of its names and figures.
#[cfg(feature = "cli")]
pub(super) fn put_in(node: &Node, rule: &Rule, leaf: &Leaf<'_>) -> String {
    Writer { rule, leaf, figure: &print, order: Order::AsWritten }.node(node, LOOSEST)
}

/// ` of flight of stair`, as a path is written.
fn of(path: &[Of]) -> String {
    path.iter().rev().map(|of| format!(" of {}", of.words())).collect()
}

/// What a deviation is of: the greater of measured less drawn, and drawn less measured.
fn deviation(node: &Node) -> Option<&Node> {
    let Node::Pick(true, over, under) = node else { return None };
    let (Node::Sum(a, true, b), Node::Sum(c, true, d)) = (&**over, &**under) else { return None };
    match (&**a, &**b, &**c, &**d) {
        (Node::Measured(of), Node::Drawn(drawn), Node::Drawn(_), Node::Measured(_))
            if of == drawn && b == c && a == d =>
        {
            Some(of)
        }
        _ => None,
    }
}

/// A node in words that are the same for two rules if they ask the same: however a figure is written, and in whatever
/// order terms stand that can change places.
pub(super) fn exact(node: &Node, rule: &Rule) -> String {
    let figure = |measure: Measure| {
        // Equal figures of two units differ in the last bits at most.
        let Dimension { length, force, angle } = measure.dimension;
        format!("{:.9e}[{length},{force},{angle}]", measure.value)
    };
    Writer { rule, leaf: &|_| None, figure: &figure, order: Order::Sorted }.node(node, LOOSEST)
}

const LOOSEST: u8 = 0;
const ANY: u8 = 1;
const ALL: u8 = 2;
const NOT: u8 = 3;
const COMPARED: u8 = 4;
const SUM: u8 = 5;
const PRODUCT: u8 = 6;
const FACTOR: u8 = 7;

/// In which order terms are written that can change places.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Order {
    /// As the rule has them.
    AsWritten,
    /// By their text, so that the order in the rule does not matter.
    Sorted,
}

struct Writer<'a> {
    rule: &'a Rule,
    leaf: &'a Leaf<'a>,
    figure: &'a dyn Fn(Measure) -> String,
    order: Order,
}

impl Writer<'_> {
    /// A node, in parentheses if it binds less than what it stands in.
    fn node(&self, node: &Node, within: u8) -> String {
        let (binds, text) = self.bare(node);
        if binds < within { format!("({text})") } else { text }
    }

    fn bare(&self, node: &Node) -> (u8, String) {
        if let Some(text) = (self.leaf)(node) {
            return (FACTOR, text);
        }
        match node {
            Node::Any(terms) => (ANY, self.joined(terms, " or ", ALL)),
            Node::All(terms) => (ALL, self.joined(terms, " and ", NOT)),
            Node::Not(inner) => (NOT, format!("not {}", self.node(inner, COMPARED))),
            Node::Chain(terms, relations) => (COMPARED, self.chain(terms, relations)),
            Node::Is(subject, not, words, _) => {
                let not = if *not { "not " } else { "" };
                let one_of = if words.len() > 1 { "one of " } else { "" };
                let words = self.ordered(words.clone());
                (COMPARED, format!("{} is {not}{one_of}{}", self.node(subject, SUM), words.join(", ")))
            }
            Node::Sum(a, false, b) if self.order == Order::Sorted => {
                (SUM, self.ordered(vec![self.node(a, PRODUCT), self.node(b, PRODUCT)]).join(" + "))
            }
            Node::Product(a, false, b) if self.order == Order::Sorted => {
                (PRODUCT, self.ordered(vec![self.node(a, FACTOR), self.node(b, FACTOR)]).join(" * "))
            }
            Node::Sum(a, minus, b) => {
                let sign = if *minus { '-' } else { '+' };
                (SUM, format!("{} {sign} {}", self.node(a, SUM), self.node(b, PRODUCT)))
            }
            Node::Product(a, over, b) => {
                let sign = if *over { '/' } else { '*' };
                (PRODUCT, format!("{} {sign} {}", self.node(a, PRODUCT), self.node(b, FACTOR)))
            }
            Node::Negative(inner) => (FACTOR, format!("-{}", self.node(inner, FACTOR))),
            Node::Count(collected) => (FACTOR, format!("number of {}", self.collected(collected))),
            Node::Over(aggregate, what, collected) => {
                let (what, of) = (self.what(*what), self.collected(collected));
                let text = match aggregate {
                    Aggregate::Largest => format!("largest {what} of {of}"),
                    Aggregate::Smallest => format!("smallest {what} of {of}"),
                    Aggregate::Total => format!("total {what} of {of}"),
                    Aggregate::Change => format!("largest change of {what} along {of}"),
                    Aggregate::Increase => format!("largest increase of {what} along {of}"),
                    Aggregate::Decrease => format!("largest decrease of {what} along {of}"),
                };
                (FACTOR, text)
            }
            Node::Pick(..) if deviation(node).is_some() => {
                let of = deviation(node).map(|of| self.node(of, FACTOR)).unwrap_or_default();
                (FACTOR, format!("deviation of {of}"))
            }
            // Its second part runs on as far as it can, so it stands alone or in parentheses.
            Node::Pick(greater, a, b) => {
                let word = if *greater { "greater" } else { "lesser" };
                let of = self.ordered(vec![self.node(a, SUM), self.node(b, SUM)]).join(" and ");
                (COMPARED, format!("{word} of {of}"))
            }
            Node::Figure(measure) => (FACTOR, (self.figure)(*measure)),
            Node::Limit(at) => (FACTOR, self.limit(*at)),
            Node::Read(what, path) => (FACTOR, self.what(*what) + &of(path)),
            Node::ReadAt(entry, place, path) => {
                (FACTOR, format!("{} ({}){}", entry.name, self.node(place, SUM), of(path)))
            }
            Node::Drawn(inner) => (FACTOR, format!("drawn {}", self.node(inner, FACTOR))),
            Node::Measured(inner) => (FACTOR, format!("measured {}", self.node(inner, FACTOR))),
            Node::ByRow(rows) => (FACTOR, self.table(node, |writer| writer.rows(rows))),
            Node::Between(by, rows) => {
                let whole = |writer: &Self| {
                    let rows =
                        rows.iter().map(|(at, limit)| format!("{} at {}", writer.limit(*limit), (writer.figure)(*at)));
                    format!("[{} by {}]", rows.collect::<Vec<_>>().join(", "), writer.node(by, SUM))
                };
                (FACTOR, self.table(node, whole))
            }
        }
    }

    /// A table by its name; with its rows where what two rules mean is compared.
    fn table(&self, node: &Node, whole: impl Fn(&Self) -> String) -> String {
        let limits = node.limits();
        let first = limits.first().and_then(|at| self.rule.limits.get(*at));
        let named = |table: &&Table| first.is_some_and(|limit| table.rows.iter().any(|row| row.limit == limit.name));
        match self.rule.tables.iter().find(named) {
            Some(table) if self.order == Order::AsWritten => table.name.clone(),
            _ => whole(self),
        }
    }

    fn rows(&self, rows: &[Row]) -> String {
        let rows = rows.iter().map(|row| match &row.when {
            Some(when) => format!("{} where {}", self.limit(row.limit), self.node(when, LOOSEST)),
            None => format!("{} otherwise", self.limit(row.limit)),
        });
        format!("[{}]", rows.collect::<Vec<_>>().join(", "))
    }

    fn joined(&self, terms: &[Node], word: &str, within: u8) -> String {
        self.ordered(terms.iter().map(|term| self.node(term, within)).collect()).join(word)
    }

    /// Texts that can change places.
    fn ordered(&self, mut texts: Vec<String>) -> Vec<String> {
        if self.order == Order::Sorted {
            texts.sort();
        }
        texts
    }

    /// A chained comparison; from the other side where its order does not matter and that comes first.
    fn chain(&self, terms: &[(Node, Span)], relations: &[Relation]) -> String {
        let texts: Vec<String> = terms.iter().map(|(term, _)| self.node(term, SUM)).collect();
        let turned = self.order == Order::Sorted && texts.first() > texts.last();
        let joined = |texts: Vec<&String>, signs: Vec<&str>| {
            let mut text = String::new();
            for (at, term) in texts.into_iter().enumerate() {
                if let Some(sign) = at.checked_sub(1).and_then(|at| signs.get(at)) {
                    text += &format!(" {sign} ");
                }
                text += term;
            }
            text
        };
        if turned {
            return joined(texts.iter().rev().collect(), relations.iter().rev().map(|r| r.turned().sign()).collect());
        }
        joined(texts.iter().collect(), relations.iter().map(|relation| relation.sign()).collect())
    }

    fn collected(&self, collected: &Collected) -> String {
        match &collected.condition {
            Some(condition) => format!("({} where {})", collected.kind.plural, self.node(condition, LOOSEST)),
            None => collected.kind.plural.to_owned(),
        }
    }

    fn limit(&self, at: usize) -> String {
        self.rule.limits.get(at).map_or_else(String::new, |limit| limit.name.clone())
    }

    fn what(&self, what: What) -> String {
        match what {
            What::Quantity(entry) => entry.name.to_owned(),
            What::At(entry, Place::Figure(measure)) => format!("{} {}", entry.name, (self.figure)(measure)),
            What::At(entry, Place::Limit(at)) => format!("{} {}", entry.name, self.limit(at)),
            What::Property(property) => property.name.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{SetRefusal, load};
    use super::*;
    use crate::base::Source;

    fn written(requirement: &str) -> (String, String) {
        let text = format!(
            "rule \"r\" {{ limit most: 7\"\n each flight shall have {requirement} and rise < most\n source: \"x\" }}"
        );
        let mut findings = Vec::new();
        let set = load(
            &Source::new("t.rules", &text),
            &|name, _| Err(SetRefusal::NotBuiltIn { name: name.to_owned(), near: None }),
            &mut findings,
        );
        // A comparison that is so whatever is in proportion is written out as any other.
        findings.retain(|found| !matches!(found.problem, crate::rules::Problem::OutOfProportion { .. }));
        assert!(findings.is_empty(), "{requirement}: {findings:?}");
        let rule = &set.rules[0];
        let said = words(&rule.requirement, rule);
        (said.strip_suffix(" and rise < most").unwrap().to_owned(), exact(&rule.requirement, rule))
    }

    #[test]
    fn what_is_written_out_reads_back_as_the_same() {
        for clause in [
            "rise <= 12\" + 2 * run",
            "(rise + run) * 2 <= most",
            "rise - (run - width) <= most",
            "0\" - most <= rise <= most",
            "not (rise > most or run > 3\")",
            "(rise < most or run > 3\")",
            "use of stair is not one of shared, public",
            "number of (handrails where risers missed = 0) >= 1",
            "largest height of risers - smallest height of risers <= 3/8\"",
            "largest change of height along risers <= 3/8\"",
            "(lesser of rise and run) + width <= most",
            "-rise < most",
            "rise / run <= 1",
        ] {
            let (said, meant) = written(clause);
            assert_eq!(said, clause);
            assert_eq!(written(&said).1, meant);
        }
    }

    #[test]
    fn two_ways_to_write_one_thing_mean_the_same() {
        for (a, b) in [
            ("rise  <=   7-1/2\"", "rise ≤ 190.5 mm"),
            ("((rise)) < 12\"", "rise < 1'"),
            ("number of (handrails) > 0", "number of handrails > 0"),
            ("rise <= most", "most >= rise"),
            ("3\" <= rise <= most", "most >= rise >= 3\""),
            ("rise + run <= most", "run + rise <= most"),
            ("(rise < 3\" or run > 3\")", "(run > 3\" or rise < 3\")"),
            ("use of stair is one of shared, public", "use of stair is one of public, shared"),
            ("(lesser of rise and run) < most", "(lesser of run and rise) < most"),
        ] {
            assert_eq!(written(a).1, written(b).1);
        }
        assert_ne!(written("rise <= 7.0001\"").1, written("rise <= 7.0002\"").1);
        assert_ne!(written("rise < 7\"").1, written("rise <= 7\"").1);
        assert_ne!(written("rise - run < 7\"").1, written("run - rise < 7\"").1);
        assert_ne!(written("rise < run").1, written("run < rise").1);
    }
}
