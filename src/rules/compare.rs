//! Two sets compared, rule by rule, by name: what only one has, and in which points the others differ.

use super::clause_text::{exact, words};
use super::node::{Collected, Node, Place, What};
#[cfg(feature = "cli")]
use super::rule::RuleSet;
use super::rule::{Limit, Printed, Rule};
use super::way::Way;
#[cfg(feature = "cli")]
use crate::base::names::nearest;
use crate::measure::{Measure, equal};
use crate::syntax::Relation;

#[cfg(feature = "cli")]
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

#[cfg(feature = "cli")]
impl Comparison<'_> {
    /// Whether nothing sets the two apart.
    pub fn agree(&self) -> bool {
        self.only_first.is_empty() && self.only_second.is_empty() && self.differing.is_empty()
    }
}

#[cfg(feature = "cli")]
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
    /// The name.
    Name,
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
    /// Whether a design may give itself leave to depart from it.
    Waive,
}

#[cfg(feature = "cli")]
/// Compares two sets. Rules of one name belong together; of the others, those that ask the same, that cite the same
/// clause for the same kind of thing, or whose names are near.
pub fn compare<'a>(first: &'a RuleSet, second: &'a RuleSet) -> Comparison<'a> {
    let pairs = pairs(first, second);
    let mut found = Comparison::default();
    for rule in &first.rules {
        match pairs.iter().find(|(a, _)| std::ptr::eq(*a, &**rule)).map(|(_, other)| *other) {
            None => found.only_first.push(rule),
            Some(other) => match differences(rule, other) {
                differences if differences.is_empty() => found.alike += 1,
                differences => found.differing.push(Differing { first: rule, differences }),
            },
        }
    }
    let paired = |rule: &&Rule| pairs.iter().any(|(_, other)| std::ptr::eq(*other, *rule));
    found.only_second = second.rules.iter().map(|rule| &**rule).filter(|rule| !paired(rule)).collect();
    found
}

#[cfg(feature = "cli")]
/// Whether two rules belong together.
type Belongs<'a> = dyn Fn(&Rule, &Rule) -> bool + 'a;

#[cfg(feature = "cli")]
/// The rules of two sets that belong together.
pub fn pairs<'a>(first: &'a RuleSet, second: &'a RuleSet) -> Vec<(&'a Rule, &'a Rule)> {
    let rules = |set: &'a RuleSet| set.rules.iter().map(|rule| &**rule);
    let named = |rule: &'a Rule| Some((rule, rules(second).find(|other| other.name == rule.name)?));
    let mut found: Vec<(&Rule, &Rule)> = rules(first).filter_map(named).collect();
    let was_called = |a: &Rule, b: &Rule| b.was_called(&a.name) || a.was_called(&b.name);
    let near = |a: &Rule, b: &Rule| nearest(&a.name, [b.name.as_str()]).is_some();
    let asks_alike = |a: &Rule, b: &Rule| {
        a.shall == b.shall
            && a.limits.len() == b.limits.len()
            && a.limits.iter().zip(&b.limits).all(|(a, b)| a.name == b.name && same(a.measure, b.measure))
            && exact(&a.requirement, a) == exact(&b.requirement, b)
            && a.condition.as_ref().map(|node| exact(node, a)) == b.condition.as_ref().map(|node| exact(node, b))
    };
    let one_clause = |a: &Rule, b: &Rule| {
        !a.cites.is_empty() && a.cites == b.cites && a.cites.chars().any(|sign| sign.is_ascii_digit())
    };
    let ways: [&Belongs<'_>; 4] = [&was_called, &asks_alike, &one_clause, &near];
    for belongs in ways {
        let free_first = |rule: &&Rule, found: &[(&Rule, &Rule)]| !found.iter().any(|(a, _)| std::ptr::eq(*a, *rule));
        let free_second = |rule: &&Rule, found: &[(&Rule, &Rule)]| !found.iter().any(|(_, b)| std::ptr::eq(*b, *rule));
        for rule in rules(first) {
            if !free_first(&rule, &found) {
                continue;
            }
            let alike = |other: &&Rule| rule.kind == other.kind && belongs(rule, other);
            let others: Vec<&Rule> = rules(second).filter(|other| free_second(other, &found)).filter(alike).collect();
            let back = |other: &Rule| {
                let candidates = rules(first).filter(|rule| free_first(rule, &found));
                candidates.filter(|rule| rule.kind == other.kind && belongs(rule, other)).count()
            };
            // Two that could both be meant are neither.
            if let [other] = others.as_slice()
                && back(other) == 1
            {
                found.push((rule, other));
            }
        }
    }
    found
}

/// What the second of two rules does to what passes, in all: looser if it is so in any point, tighter only if it is so in
/// every one; nothing where they ask the same.
pub(super) fn way_of(first: &Rule, second: &Rule) -> Option<Way> {
    let said = |point: &Point| matches!(point, Point::Name | Point::Source | Point::Sure | Point::Waive);
    let decides = differences(first, second).into_iter().filter(|difference| !said(&difference.point));
    decides.map(|difference| difference.way).max()
}

fn differences(a: &Rule, b: &Rule) -> Vec<Difference> {
    let mut found = Vec::new();
    let mut tell = |point: Point, first: Option<String>, second: Option<String>, way: Way| {
        found.push(Difference { point, first, second, way });
    };
    if a.name != b.name {
        tell(Point::Name, Some(a.name.clone()), Some(b.name.clone()), Way::Open);
    }
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
        let way = match narrowed((a.condition.as_ref(), a), (b.condition.as_ref(), b)) {
            Some(Narrowed::Less) => Way::Looser,
            Some(Narrowed::More) => Way::Tighter,
            None => Way::Open,
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
    if a.waivable != b.waivable {
        let word = |rule: &Rule| Some(if rule.waivable { "allowed" } else { "never" }.to_owned());
        tell(Point::Waive, word(a), word(b), Way::Open);
    }
    found
}

/// To how many things the second of two conditions lets a rule apply.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Narrowed {
    /// To fewer than the first.
    Less,
    /// To more.
    More,
}

/// Whether one condition plainly holds wherever another does: it asks for a part of what that asks for, or leaves more
/// to choose from.
fn narrowed((a, of): (Option<&Node>, &Rule), (b, by): (Option<&Node>, &Rule)) -> Option<Narrowed> {
    let among = |some: &[String], all: &[String]| some.iter().all(|part| all.contains(part));
    let (all_a, all_b) = (parts(a, of, Join::All), parts(b, by, Join::All));
    if among(&all_a, &all_b) {
        return Some(Narrowed::Less);
    }
    if among(&all_b, &all_a) {
        return Some(Narrowed::More);
    }
    let (any_a, any_b) = (parts(a, of, Join::Any), parts(b, by, Join::Any));
    match (among(&any_a, &any_b), among(&any_b, &any_a)) {
        (true, false) => Some(Narrowed::More),
        (false, true) => Some(Narrowed::Less),
        _ => None,
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Join {
    All,
    Any,
}

/// The parts of a condition, in words that tell whether two are the same.
fn parts(node: Option<&Node>, rule: &Rule, join: Join) -> Vec<String> {
    match (node, join) {
        (None, _) => Vec::new(),
        (Some(Node::All(terms)), Join::All) | (Some(Node::Any(terms)), Join::Any) => {
            terms.iter().flat_map(|term| parts(Some(term), rule, join)).collect()
        }
        (Some(node), _) => vec![exact(node, rule)],
    }
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
        Node::ReadAt(_, place, _) => value(place, limit).unless_still(),
        Node::Drawn(inner) | Node::Measured(inner) => value(inner, limit),
        Node::ByRow(rows) => rows.iter().fold(Moves::Not, |moves, row| {
            let when = row.when.as_ref().map_or(Moves::Not, |when| holding(when, limit).unless_still());
            let is = if row.limit == limit { Moves::Up } else { Moves::Not };
            moves.and(is).and(when)
        }),
        Node::Between(by, rows) => {
            let is = if rows.iter().any(|(_, at)| *at == limit) { Moves::Up } else { Moves::Not };
            is.and(value(by, limit).unless_still())
        }
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
            ("each riser shall have height < 0.5 * most", Way::Looser),
            ("each riser shall have height < most * 0.5", Way::Looser),
            ("each riser shall have height < most / 2", Way::Looser),
            ("each riser shall have 0.5 * height < most", Way::Looser),
            ("each riser shall have height >= most", Way::Tighter),
            ("each riser shall have most > height", Way::Looser),
            ("each riser shall have not (height <= most)", Way::Tighter),
            ("each stair shall have 0\" - most <= rise closure <= most", Way::Looser),
            ("each riser shall have most <= height <= 2 * most", Way::Open),
            ("each riser shall have height = most", Way::Open),
            ("each guard where drop within 3' > most shall have height >= 34\"", Way::Looser),
            ("each guard where drop within 3' <= most shall have height >= 34\"", Way::Tighter),
            ("each guard where drop within 3' > most shall have height >= most", Way::Open),
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
        let first = set(clause, "7-1/2\"");
        let turned = set("each riser shall have most >= height", "7-1/2\"");
        assert_eq!(compare(&first, &turned).alike, 1);
        let other = set("each riser shall have height < most", "7-1/2\"");
        let points: Vec<Point> =
            compare(&first, &other).differing[0].differences.iter().map(|found| found.point.clone()).collect();
        assert_eq!(points, [Point::Requirement]);
    }

    fn named(name: &str, clause: &str, source: &str) -> RuleSet {
        let mut set = set(clause, "7\"");
        let rule = Rule { name: name.to_owned(), cites: source.to_owned(), ..Rule::clone(&set.rules[0]) };
        set.rules = vec![std::sync::Arc::new(rule)];
        set
    }

    #[test]
    fn a_renamed_rule_is_found_by_what_it_asks_its_clause_or_its_name() {
        let clause = "each riser shall have height <= most";
        let low = named("riser height", clause, "county 3");
        for (other, renamed) in [
            (named("low risers", clause, "x"), true),
            (named("low risers", "each riser shall have height < most", "county 3"), true),
            (named("riser heigth", "each riser shall have height < most", "x"), true),
            (named("low risers", "each riser shall have height < most", "x"), false),
            (named("low risers", "each flight shall have rise <= most", "county 3"), false),
        ] {
            let found = compare(&low, &other);
            assert_eq!(found.only_first.is_empty() && found.only_second.is_empty(), renamed, "{}", other.rules[0].name);
            let points = found.differing.first().map(|rule| rule.differences[0].point.clone());
            assert_eq!(points, renamed.then_some(Point::Name));
        }
    }

    #[test]
    fn a_condition_that_lets_a_rule_apply_to_less_is_told_as_looser() {
        let of = |narrows: &str| set(&format!("each riser where {narrows} shall have height <= most"), "7\"");
        let way = |a: &str, b: &str| compare(&of(a), &of(b)).differing[0].differences[0].way;
        let (few, more) = ("height > 3\"", "height > 3\" and width of flight > 36\"");
        assert_eq!((way(few, more), way(more, few)), (Way::Looser, Way::Tighter));
        let choice = "height > 3\" or width of flight > 36\"";
        assert_eq!((way(few, choice), way(choice, few)), (Way::Tighter, Way::Looser));
        assert_eq!(way("height > 3\"", "height > 4\""), Way::Open);
    }
}
