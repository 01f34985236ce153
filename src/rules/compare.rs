//! Two sets compared, rule by rule, by name: what only one has, and in which points the others differ.

use super::clause_text::{exact, words};
use super::node::{Collected, Node, Place, What};
use super::rule::{Limit, Printed, Rule, RuleSet};
use crate::measure::{Measure, equal};
use crate::syntax::Relation;

/// What sets two sets apart.
#[derive(Debug, Clone, Default)]
pub struct Comparison<'a> {
    /// Rules that only the first has.
    pub only_first: Vec<&'a Rule>,
    /// Rules that only the second has.
    pub only_second: Vec<&'a Rule>,
    /// Rules of one name that differ.
    pub differing: Vec<Differing<'a>>,
    /// How many are alike.
    pub alike: usize,
}

/// A rule that both have, and not alike.
#[derive(Debug, Clone)]
pub struct Differing<'a> {
    /// As the first has it.
    pub first: &'a Rule,
    /// In which points they differ.
    pub differences: Vec<Difference>,
}

/// One point in which two rules differ.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// Which.
    pub point: Point,
    /// In the first; nothing where it lacks the limit or the condition.
    pub first: Option<String>,
    /// In the second.
    pub second: Option<String>,
    /// What that does to what passes.
    pub way: Way,
}

/// A point in which rules may differ.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Point {
    /// `shall` or `should`.
    Verb,
    /// The kind held.
    Kind,
    /// What narrows it.
    Condition,
    /// What is asked.
    Requirement,
    /// A limit, by its name.
    Limit(String),
    /// Document and clause.
    Source,
    /// How sure the figure is.
    Sure,
}

/// What a difference does to what passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// The second lets less pass.
    Tighter,
    /// The second lets more pass.
    Looser,
    /// The clause does not make it plain, or it decides nothing.
    Open,
}

/// Compares two sets.
pub fn compare<'a>(first: &'a RuleSet, second: &'a RuleSet) -> Comparison<'a> {
    let find = |set: &'a RuleSet, name: &str| set.rules.iter().find(|rule| rule.name == name);
    let mut found = Comparison::default();
    for rule in &first.rules {
        match find(second, &rule.name).map(|other| differences(rule, other)) {
            None => found.only_first.push(rule),
            Some(differences) if differences.is_empty() => found.alike += 1,
            Some(differences) => found.differing.push(Differing { first: rule, differences }),
        }
    }
    found.only_second =
        second.rules.iter().filter(|rule| find(first, &rule.name).is_none()).map(|rule| &**rule).collect();
    found
}

fn differences(a: &Rule, b: &Rule) -> Vec<Difference> {
    let mut found = Vec::new();
    let mut tell = |point: Point, first: Option<String>, second: Option<String>, way: Way| {
        found.push(Difference { point, first, second, way });
    };
    if a.shall != b.shall {
        let verb = |rule: &Rule| Some(if rule.shall { "shall" } else { "should" }.to_owned());
        tell(Point::Verb, verb(a), verb(b), if b.shall { Way::Tighter } else { Way::Looser });
    }
    if a.kind != b.kind {
        tell(Point::Kind, Some(a.kind.name.to_owned()), Some(b.kind.name.to_owned()), Way::Open);
    }
    let meant = |rule: &Rule| rule.condition.as_ref().map(|node| exact(node, rule));
    if meant(a) != meant(b) {
        let said = |rule: &Rule| rule.condition.as_ref().map(|node| words(node, rule));
        let way = match (&a.condition, &b.condition) {
            (None, Some(_)) => Way::Looser,
            (Some(_), None) => Way::Tighter,
            _ => Way::Open,
        };
        tell(Point::Condition, said(a), said(b), way);
    }
    if exact(&a.requirement, a) != exact(&b.requirement, b) {
        tell(Point::Requirement, Some(words(&a.requirement, a)), Some(words(&b.requirement, b)), Way::Open);
    }
    // Only within one clause does a limit say by itself what passes.
    let one_clause = a.kind == b.kind && meant(a) == meant(b) && exact(&a.requirement, a) == exact(&b.requirement, b);
    for (at, limit) in a.limits.iter().enumerate() {
        let other = b.limits.iter().find(|other| other.name == limit.name);
        let point = || Point::Limit(limit.name.clone());
        match other.map(|other| (other, raised(limit, other))) {
            Some((_, None)) => {}
            Some((other, Some(raised))) => {
                let way = raised.filter(|_| one_clause).map_or(Way::Open, |raised| way(a, at, raised));
                tell(point(), Some(limit.figures()), Some(other.figures()), way);
            }
            None => tell(point(), Some(limit.figures()), None, Way::Open),
        }
    }
    for limit in b.limits.iter().filter(|limit| a.limits.iter().all(|other| other.name != limit.name)) {
        tell(Point::Limit(limit.name.clone()), None, Some(limit.figures()), Way::Open);
    }
    let stated = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    if a.cites != b.cites {
        tell(Point::Source, stated(&a.cites), stated(&b.cites), Way::Open);
    }
    if a.sure != b.sure {
        tell(Point::Sure, stated(&a.sure), stated(&b.sure), Way::Open);
    }
    found
}

fn same(a: Measure, b: Measure) -> bool {
    a.dimension == b.dimension && equal(a.value, b.value, a.dimension)
}

/// Whether a limit is raised, which is not plain where of its two figures one is raised and one lowered; nothing
/// where it is the same.
fn raised(limit: &Limit, other: &Limit) -> Option<Option<bool>> {
    let moved = |printed: Printed| {
        let (from, to) = (limit.figure(printed), other.figure(printed));
        (!same(from, to)).then_some(to.value > from.value)
    };
    match (moved(Printed::First), moved(Printed::Metric)) {
        (None, None) => None,
        (Some(a), Some(b)) if a != b => Some(None),
        (first, metric) => Some(first.or(metric)),
    }
}

/// What a limit that is raised, or lowered, does to what a rule lets pass.
fn way(rule: &Rule, limit: usize, raised: bool) -> Way {
    let asked = holding(&rule.requirement, limit);
    // The more a condition lets in, the more the rule holds.
    let narrowed = rule.condition.as_ref().map_or(Moves::Not, |condition| holding(condition, limit).turned());
    match (asked.and(narrowed), raised) {
        (Moves::Up, true) | (Moves::Down, false) => Way::Looser,
        (Moves::Up, false) | (Moves::Down, true) => Way::Tighter,
        _ => Way::Open,
    }
}

/// How something moves as a limit is raised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Moves {
    Not,
    Up,
    Down,
    Either,
}

impl Moves {
    fn turned(self) -> Self {
        match self {
            Moves::Up => Moves::Down,
            Moves::Down => Moves::Up,
            same => same,
        }
    }

    fn and(self, other: Self) -> Self {
        match (self, other) {
            (Moves::Not, other) | (other, Moves::Not) => other,
            (a, b) if a == b => a,
            _ => Moves::Either,
        }
    }

    fn unless_still(self) -> Self {
        if self == Moves::Not { Moves::Not } else { Moves::Either }
    }
}

/// Whether a condition holds more readily (up) or less as a limit is raised.
fn holding(node: &Node, limit: usize) -> Moves {
    match node {
        Node::Any(terms) | Node::All(terms) => {
            terms.iter().fold(Moves::Not, |moves, term| moves.and(holding(term, limit)))
        }
        Node::Not(inner) => holding(inner, limit).turned(),
        Node::Chain(terms, relations) => terms.windows(2).zip(relations).fold(Moves::Not, |moves, (pair, relation)| {
            let [(a, _), (b, _)] = pair else { return moves };
            let (a, b) = (value(a, limit), value(b, limit));
            moves.and(match relation {
                Relation::Less | Relation::AtMost => a.turned().and(b),
                Relation::More | Relation::AtLeast => a.and(b.turned()),
                Relation::Equal | Relation::Unequal => a.and(b).unless_still(),
            })
        }),
        other => value(other, limit).unless_still(),
    }
}

/// Whether a value grows (up) or shrinks as a limit is raised.
fn value(node: &Node, limit: usize) -> Moves {
    let collected = |what: Option<What>, collected: &Collected| {
        let narrowed = collected.condition.as_ref().map_or(Moves::Not, |condition| holding(condition, limit));
        narrowed.and(what.map_or(Moves::Not, |what| asked(what, limit))).unless_still()
    };
    match node {
        Node::Limit(at) if *at == limit => Moves::Up,
        Node::Limit(_) | Node::Figure(_) => Moves::Not,
        Node::Read(what, _) => asked(*what, limit),
        Node::Sum(a, minus, b) => {
            let b = value(b, limit);
            value(a, limit).and(if *minus { b.turned() } else { b })
        }
        Node::Product(a, over, b) => match (&**a, &**b) {
            (_, Node::Figure(by)) if by.value > 0.0 => value(a, limit),
            (Node::Figure(by), _) if by.value > 0.0 && !over => value(b, limit),
            _ => value(a, limit).and(value(b, limit)).unless_still(),
        },
        Node::Negative(inner) => value(inner, limit).turned(),
        Node::Pick(_, a, b) => value(a, limit).and(value(b, limit)),
        Node::Count(of) => collected(None, of),
        Node::Over(_, what, of) => collected(Some(*what), of),
        Node::Is(subject, ..) => value(subject, limit),
        condition => holding_is_still(condition, limit),
    }
}

fn asked(what: What, limit: usize) -> Moves {
    match what {
        What::At(_, Place::Limit(at)) if at == limit => Moves::Either,
        _ => Moves::Not,
    }
}

/// A condition where a value belongs: the resolver lets none through.
fn holding_is_still(condition: &Node, limit: usize) -> Moves {
    match condition {
        Node::Any(_) | Node::All(_) | Node::Not(_) | Node::Chain(..) => holding(condition, limit).unless_still(),
        _ => Moves::Either,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{SetRefusal, load};
    use super::*;
    use crate::base::Source;

    fn set(clause: &str, limit: &str) -> RuleSet {
        let text = format!("rule \"r\" {{ limit most: {limit}\n {clause}\n source: \"x\" }}");
        let mut findings = Vec::new();
        let set = load(
            &Source::new("t.rules", &text),
            &|name, _| Err(SetRefusal::NotBuiltIn { name: name.to_owned(), near: None }),
            &mut findings,
        );
        assert_eq!(set.rules.len(), 1, "{clause}: {findings:?}");
        set
    }

    fn raised(clause: &str) -> Way {
        let (low, high) = (set(clause, "7\""), set(clause, "8\""));
        let up = compare(&low, &high).differing[0].differences[0].way;
        let down = compare(&high, &low).differing[0].differences[0].way;
        let turned = match up {
            Way::Tighter => Way::Looser,
            Way::Looser => Way::Tighter,
            Way::Open => Way::Open,
        };
        assert_eq!(down, turned, "{clause}");
        up
    }

    #[test]
    fn a_limit_is_called_tighter_or_looser_only_where_the_clause_makes_it_plain() {
        for (clause, way) in [
            ("each riser shall have height <= most", Way::Looser),
            ("each riser shall have height < 2 * most", Way::Looser),
            ("each riser shall have height >= most", Way::Tighter),
            ("each riser shall have most > height", Way::Looser),
            ("each riser shall have not (height <= most)", Way::Tighter),
            ("each stair shall have 0\" - most <= rise closure <= most", Way::Looser),
            ("each riser shall have most <= height <= 2 * most", Way::Open),
            ("each riser shall have height = most", Way::Open),
            ("each guard where drop > most shall have height >= 34\"", Way::Looser),
            ("each guard where drop <= most shall have height >= 34\"", Way::Tighter),
            ("each guard where drop > most shall have height >= most", Way::Open),
            ("each flight shall have number of (risers where height > most) = 0", Way::Open),
            ("each flight shall have lesser of rise and most >= 3\"", Way::Looser),
            ("each flight shall have rise * run / most <= 100\"", Way::Open),
        ] {
            assert_eq!(raised(clause), way, "{clause}");
        }
    }

    #[test]
    fn one_limit_more_than_the_other_in_another_unit_is_told_and_the_same_is_not() {
        let clause = "each riser shall have height <= most";
        assert_eq!(compare(&set(clause, "7-1/2\""), &set(clause, "190.5 mm")).alike, 1);
        let other = set("each riser shall have most >= height", "7-1/2\"");
        let first = set(clause, "7-1/2\"");
        let points: Vec<Point> =
            compare(&first, &other).differing[0].differences.iter().map(|found| found.point.clone()).collect();
        assert_eq!(points, [Point::Requirement]);
    }
}
