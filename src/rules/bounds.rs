//! What a clause can come to at all, reasoned over one quantity at a time: a condition that can never be so, bounds
//! that cross, a requirement that its own `where` settles. Two quantities compared with each other, and a quantity
//! beside a multiple of itself, are beyond it; of those nothing is said.

use super::node::{Collected, Node, Place, What};
use super::rule::Limit;
use crate::base::{Notice, Span, notices};
use crate::derive::Gives;
use crate::measure::{self, Dimension, Measure, print};
use crate::model::Takes;
use crate::syntax::Relation;

/// A rule as it is in force.
pub(super) struct Held<'a> {
    pub condition: Option<&'a Node>,
    pub requirement: &'a Node,
    pub limits: &'a [Limit],
    /// The words at a place of the `where`, if the flag is set, or else of what is asked.
    pub words: &'a dyn Fn(bool, Span) -> String,
}

/// A clause that cannot do what it is there for.
pub(super) struct Trouble {
    pub notice: &'static Notice,
    pub message: String,
    /// The words at fault; in the `where` if the flag is set.
    pub place: (bool, Span),
    /// What they quarrel with.
    pub beside: Option<(bool, Span, &'static str)>,
    /// The limits that they read.
    pub limits: Vec<usize>,
}

impl Trouble {
    /// Whether the rule would do harm, or nothing at all. One that always holds is only idle.
    pub fn spoils(&self) -> bool {
        !std::ptr::eq(self.notice, &notices::ALWAYS_HOLDS)
    }
}

/// More ways than this for a condition to be so are not told apart.
const MOST_WAYS: usize = 256;

/// A way of more terms than this is not reasoned about: each is held against all the others.
const MOST_TERMS: usize = 64;

/// Nor are ways that have more than this of them together.
const MOST_TERMS_OF_ALL: usize = 1024;

/// The first trouble of a rule; further ones would follow from it.
pub(super) fn trouble(held: &Held<'_>) -> Option<Trouble> {
    let condition = held.condition.map(|node| (node, held.ways(node, true, true)));
    let requirement = held.ways(held.requirement, false, true);
    let nested = |node, narrows| held.nested(node, narrows);
    if let Some((node, ways)) = &condition
        && let Some(trouble) = held.never(node, true, ways.as_ref()).or_else(|| nested(node, true))
    {
        return Some(trouble);
    }
    if let Some(trouble) =
        held.never(held.requirement, false, requirement.as_ref()).or_else(|| nested(held.requirement, false))
    {
        return Some(trouble);
    }
    let where_ = condition.as_ref().map(|(_, ways)| ways.as_ref());
    held.settled(where_, requirement.as_ref(), &notices::NEVER_PASSES)
        .or_else(|| {
            let (node, _) = condition.as_ref()?;
            let otherwise = held.ways(node, true, false)?;
            let idle = otherwise.iter().all(|way| clash(way).is_some());
            idle.then(|| held.whole(&notices::ALWAYS_HOLDS, node, true, "is always so, and narrows nothing"))
        })
        .or_else(|| {
            let broken = held.ways(held.requirement, false, false);
            held.settled(where_, broken.as_ref(), &notices::ALWAYS_HOLDS)
        })
}

/// One comparison, or its denial.
#[derive(Clone)]
struct Term<'a> {
    says: Says<'a>,
    /// The words; in the `where` if the flag is set.
    place: (bool, Span),
    /// The chained comparison it is a link of.
    chain: Option<&'a Node>,
    limits: Vec<usize>,
}

#[derive(Clone)]
enum Says<'a> {
    /// A number lies within these bounds. Of a list that was denied, only some item does.
    Within(&'a Node, Bounds, bool),
    /// A word is among these, or is not.
    Among(&'a Node, &'a [String], bool),
    /// It is so, or is not, whatever is built.
    Fixed(bool),
    /// Beyond this reasoning.
    Open,
}

/// The ways in which a condition can be so; in each of them all terms hold.
type Ways<'a> = Vec<Vec<Term<'a>>>;

impl<'a> Held<'a> {
    /// All the ways for a node to be so, or not to be; nothing if they are too many.
    fn ways<'n>(&'n self, node: &'n Node, narrows: bool, so: bool) -> Option<Ways<'n>> {
        match (node, so) {
            (Node::Not(inner), so) => self.ways(inner, narrows, !so),
            (Node::All(terms), true) | (Node::Any(terms), false) => {
                let mut each = terms.iter().map(|term| self.ways(term, narrows, so));
                each.try_fold(vec![Vec::new()], |before, ways| both(&before, &ways?))
            }
            (Node::All(terms), false) | (Node::Any(terms), true) => {
                let mut all = Vec::new();
                for term in terms {
                    all.extend(self.ways(term, narrows, so)?);
                    if all.len() > MOST_WAYS || all.iter().map(Vec::len).sum::<usize>() > MOST_TERMS_OF_ALL {
                        return None;
                    }
                }
                Some(all)
            }
            (Node::Chain(terms, _), _) if terms.len() > MOST_TERMS => None,
            (Node::Chain(terms, relations), so) => {
                let links = terms.windows(2).zip(relations).filter_map(|(pair, relation)| match pair {
                    [left, right] => Some(self.link(node, left, *relation, right, narrows, so)),
                    _ => None,
                });
                Some(if so { vec![links.collect()] } else { links.map(|link| vec![link]).collect() })
            }
            (Node::Is(subject, not, words, span), so) => {
                let says = Says::Among(subject, words, *not == so);
                Some(vec![vec![Term { says, place: (narrows, *span), chain: None, limits: Vec::new() }]])
            }
            _ => Some(vec![vec![Term {
                says: Says::Open,
                place: (narrows, Span::default()),
                chain: None,
                limits: Vec::new(),
            }]]),
        }
    }

    fn link<'n>(
        &self,
        chain: &'n Node,
        left: &'n (Node, Span),
        relation: Relation,
        right: &'n (Node, Span),
        narrows: bool,
        so: bool,
    ) -> Term<'n> {
        let relation = if so { relation } else { denied(relation) };
        let says = match (self.constant(&left.0), self.constant(&right.0)) {
            (Some(a), Some(b)) => Says::Fixed(super::holds(a.value, relation, b.value, a.dimension)),
            (None, Some(bound)) => {
                Says::Within(&left.0, Bounds::of(relation, bound), !so && matches!(left.0, Node::Read(..)))
            }
            (Some(bound), None) => {
                Says::Within(&right.0, Bounds::of(relation.turned(), bound), !so && matches!(right.0, Node::Read(..)))
            }
            (None, None) => Says::Open,
        };
        let mut limits = Vec::new();
        read_limits(&left.0, &mut limits);
        read_limits(&right.0, &mut limits);
        Term { says, place: (narrows, left.1.to(right.1)), chain: Some(chain), limits }
    }

    /// The value of what depends on the rule alone.
    fn constant(&self, node: &Node) -> Option<Measure> {
        let found = match node {
            Node::Figure(measure) => *measure,
            Node::Limit(at) => self.limits.get(*at)?.measure,
            Node::Negative(inner) => {
                let inner = self.constant(inner)?;
                Measure { value: -inner.value, ..inner }
            }
            Node::Sum(a, minus, b) => {
                let (a, b) = (self.constant(a)?, self.constant(b)?);
                Measure { value: if *minus { a.value - b.value } else { a.value + b.value }, ..a }
            }
            Node::Product(a, over, b) => {
                let (a, b) = (self.constant(a)?, self.constant(b)?);
                let dimension = if *over { a.dimension.over(b.dimension) } else { a.dimension.times(b.dimension) };
                let value = if *over { a.value / b.value } else { a.value * b.value };
                Measure { value, dimension, style: a.style.for_dimension(dimension) }
            }
            Node::Pick(greater, a, b) => {
                let (a, b) = (self.constant(a)?, self.constant(b)?);
                if (a.value >= b.value) == *greater { a } else { b }
            }
            _ => return None,
        };
        found.value.is_finite().then_some(found)
    }

    /// A condition of which every way runs into itself.
    fn never(&self, node: &Node, narrows: bool, ways: Option<&Ways<'_>>) -> Option<Trouble> {
        let ways = ways?;
        let clashes: Option<Vec<(&Term<'_>, Option<&Term<'_>>)>> = ways.iter().map(|way| clash(way)).collect();
        let clashes = clashes?;
        let [(first, second)] = clashes.as_slice() else {
            return Some(self.whole(&notices::NEVER_HOLDS, node, narrows, "can never be so"));
        };
        let Some(second) = second else {
            let message = format!("`{}` can never be so{}", self.said(first), self.figures(&first.limits));
            return Some(Trouble {
                notice: &notices::NEVER_HOLDS,
                message,
                place: first.place,
                beside: None,
                limits: first.limits.clone(),
            });
        };
        let one_chain = first.chain.is_some_and(|a| second.chain.is_some_and(|b| std::ptr::eq(a, b)));
        let limits: Vec<usize> = first.limits.iter().chain(&second.limits).copied().collect();
        let crossed = one_chain || (!first.limits.is_empty() && !second.limits.is_empty());
        if let (true, Says::Within(_, a, _), Says::Within(_, b, _)) = (crossed, &first.says, &second.says)
            && let (Some(least), Some(most)) = (a.low.or(b.low), b.high.or(a.high))
        {
            let bound = |bound: Bound| self.named(bound.at, &limits);
            let message = format!("{} and {}: nothing lies between", bound(least), bound(most));
            let place = (first.place.0, first.place.1.to(second.place.1));
            return Some(Trouble { notice: &notices::CROSSED_BOUNDS, message, place, beside: None, limits });
        }
        let figures = self.figures(&limits);
        let message = format!("`{}` and `{}` cannot both be so{figures}", self.said(first), self.said(second));
        let beside = Some((first.place.0, first.place.1, "against this"));
        Some(Trouble { notice: &notices::NEVER_HOLDS, message, place: second.place, beside, limits })
    }

    /// What is asked, or its denial, beside the `where`: every way of the one runs into every way of the other.
    fn settled(
        &self,
        narrows: Option<Option<&Ways<'_>>>,
        asked: Option<&Ways<'_>>,
        notice: &'static Notice,
    ) -> Option<Trouble> {
        let asked = asked?;
        let everything = vec![Vec::new()];
        let narrows = narrows.unwrap_or(Some(&everything))?;
        let ways = both(narrows, asked)?;
        let clashes: Vec<_> = ways.iter().map(|way| clash(way)).collect::<Option<_>>()?;
        let terms = || clashes.iter().flat_map(|(first, second)| std::iter::once(*first).chain(*second));
        let beside = terms().find(|term| term.place.0);
        let mut limits: Vec<usize> = terms().flat_map(|term| term.limits.clone()).collect();
        limits.sort_unstable();
        limits.dedup();
        let place = span(self.requirement).unwrap_or_default();
        let said = (self.words)(false, place);
        let figures = self.figures(&limits);
        let how =
            if std::ptr::eq(notice, &notices::NEVER_PASSES) { "can never be so" } else { "is so whatever is built" };
        let message = match beside {
            Some(beside) => format!("where `{}`, `{said}` {how}{figures}", self.said(beside)),
            None => format!("`{said}` {how}{figures}"),
        };
        let beside = beside.map(|term| (true, term.place.1, "the rule applies only here"));
        Some(Trouble { notice, message, place: (false, place), beside, limits })
    }

    /// The conditions of collections inside a node.
    fn nested(&self, node: &Node, narrows: bool) -> Option<Trouble> {
        let within = |collected: &Collected| {
            let condition = collected.condition.as_deref()?;
            let ways = self.ways(condition, narrows, true);
            self.never(condition, narrows, ways.as_ref()).or_else(|| self.nested(condition, narrows))
        };
        match node {
            Node::Any(terms) | Node::All(terms) => terms.iter().find_map(|term| self.nested(term, narrows)),
            Node::Not(inner) | Node::Negative(inner) | Node::Is(inner, ..) => self.nested(inner, narrows),
            Node::Chain(terms, _) => terms.iter().find_map(|(term, _)| self.nested(term, narrows)),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                self.nested(a, narrows).or_else(|| self.nested(b, narrows))
            }
            Node::Count(collected) | Node::Over(_, _, collected) => within(collected),
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => None,
        }
    }

    fn whole(&self, notice: &'static Notice, node: &Node, narrows: bool, how: &str) -> Trouble {
        let place = span(node).unwrap_or_default();
        let mut limits = Vec::new();
        read_limits(node, &mut limits);
        let message = format!("`{}` {how}{}", (self.words)(narrows, place), self.figures(&limits));
        Trouble { notice, message, place: (narrows, place), beside: None, limits }
    }

    fn said(&self, term: &Term<'_>) -> String {
        (self.words)(term.place.0, term.place.1)
    }

    /// The values behind the limits that were named: ` (least is 8")`.
    fn figures(&self, limits: &[usize]) -> String {
        let named = limits.iter().filter_map(|at| self.limits.get(*at));
        let told: Vec<String> = named.map(|limit| format!("{} is {}", limit.name, print(limit.measure))).collect();
        if told.is_empty() { String::new() } else { format!(" ({})", told.join(", ")) }
    }

    /// A bound by the limit that sets it, or as it is written.
    fn named(&self, bound: Measure, limits: &[usize]) -> String {
        let limit = limits.iter().filter_map(|at| self.limits.get(*at)).find(|limit| limit.measure == bound);
        limit.map_or_else(|| print(bound), |limit| format!("`{}` is {}", limit.name, print(bound)))
    }
}

/// Every way of the one together with every way of the other; nothing if they are too many, or too long.
fn both<'a>(a: &Ways<'a>, b: &Ways<'a>) -> Option<Ways<'a>> {
    let terms = |ways: &Ways<'_>| ways.iter().map(Vec::len).sum::<usize>();
    let longest = |ways: &Ways<'_>| ways.iter().map(Vec::len).max().unwrap_or(0);
    let few = a.len() * b.len() <= MOST_WAYS
        && longest(a) + longest(b) <= MOST_TERMS
        && terms(a) * b.len() + terms(b) * a.len() <= MOST_TERMS_OF_ALL;
    few.then(|| a.iter().flat_map(|a| b.iter().map(|b| [a.clone(), b.clone()].concat())).collect())
}

/// The term of a way that cannot be, or the two that cannot be together.
fn clash<'t, 'a>(way: &'t [Term<'a>]) -> Option<(&'t Term<'a>, Option<&'t Term<'a>>)> {
    for (at, term) in way.iter().enumerate() {
        if impossible(&[term]) {
            return Some((term, None));
        }
        if let Some(other) = way.iter().take(at).find(|other| impossible(&[other, term])) {
            return Some((other, Some(term)));
        }
    }
    // Three or more that only together leave nothing.
    (1..=way.len())
        .find_map(|upto| {
            let terms: Vec<&Term<'_>> = way.iter().take(upto).collect();
            impossible(&terms).then(|| way.first().zip(way.get(upto - 1))).flatten()
        })
        .map(|(first, last)| (first, Some(last)))
}

/// Whether terms leave nothing of some quantity.
fn impossible(terms: &[&Term<'_>]) -> bool {
    if terms.iter().any(|term| matches!(term.says, Says::Fixed(false))) {
        return true;
    }
    terms.iter().any(|term| match &term.says {
        Says::Within(subject, ..) => no_number(subject, terms),
        Says::Among(subject, ..) => no_word(subject, terms),
        _ => false,
    })
}

fn no_number(subject: &Node, terms: &[&Term<'_>]) -> bool {
    let whole = counts(subject);
    let mut all = Bounds::default();
    if whole {
        all.low = Some(Bound { at: Measure::number(0.0), closed: true });
    }
    let mut some = Vec::new();
    for term in terms {
        match &term.says {
            Says::Within(other, bounds, of_some) if *other == subject => {
                if *of_some {
                    some.push(bounds)
                } else {
                    all.meet(bounds)
                }
            }
            _ => {}
        }
    }
    all.empty(whole)
        || some.iter().any(|bounds| {
            let mut item = all.clone();
            item.meet(bounds);
            item.empty(whole)
        })
}

fn no_word(subject: &Node, terms: &[&Term<'_>]) -> bool {
    let (mut left, mut not): (Option<Vec<&str>>, Vec<&str>) = (words(subject), Vec::new());
    for term in terms {
        match &term.says {
            Says::Among(other, among, true) if *other == subject => not.extend(among.iter().map(String::as_str)),
            Says::Among(other, among, false) if *other == subject => {
                let kept = |word: &&str| left.as_ref().is_none_or(|left| left.contains(word));
                left = Some(among.iter().map(String::as_str).filter(kept).collect());
            }
            _ => {}
        }
    }
    left.is_some_and(|left| left.iter().all(|word| not.contains(word)))
}

/// The words that a subject can be, where they are a closed list.
fn words(subject: &Node) -> Option<Vec<&'static str>> {
    let Node::Read(what, _) = subject else { return None };
    match what {
        What::Quantity(entry) | What::At(entry, _) => match entry.gives {
            Gives::Word(words) if !words.is_empty() => Some(words.to_vec()),
            _ => None,
        },
        What::Property(property) => match property.takes {
            Takes::OneOf(words) => Some(words.to_vec()),
            _ => None,
        },
    }
}

/// Whether a subject is a whole number, and none below nothing.
fn counts(subject: &Node) -> bool {
    match subject {
        Node::Count(_) => true,
        Node::Sum(a, false, b) => counts(a) && counts(b),
        Node::Read(What::Property(property), _) => property.takes == Takes::Count,
        _ => false,
    }
}

/// The bounds of a number.
#[derive(Clone, Default)]
struct Bounds {
    low: Option<Bound>,
    high: Option<Bound>,
    /// Values it may not have.
    not: Vec<f64>,
}

#[derive(Clone, Copy)]
struct Bound {
    at: Measure,
    closed: bool,
}

impl Bounds {
    fn of(relation: Relation, at: Measure) -> Self {
        let bound = |closed| Some(Bound { at, closed });
        let (low, high) = match relation {
            Relation::Less => (None, bound(false)),
            Relation::AtMost => (None, bound(true)),
            Relation::More => (bound(false), None),
            Relation::AtLeast => (bound(true), None),
            Relation::Equal => (bound(true), bound(true)),
            Relation::Unequal => return Self { not: vec![at.value], ..Self::default() },
        };
        Self { low, high, not: Vec::new() }
    }

    fn meet(&mut self, other: &Self) {
        let tighter = |a: Bound, b: Bound, higher: bool| {
            let wins = if higher { b.at.value > a.at.value } else { b.at.value < a.at.value };
            let same = measure::equal(a.at.value, b.at.value, a.at.dimension);
            if same {
                if b.closed { a } else { b }
            } else if wins {
                b
            } else {
                a
            }
        };
        self.low = match (self.low, other.low) {
            (Some(a), Some(b)) => Some(tighter(a, b, true)),
            (a, b) => a.or(b),
        };
        self.high = match (self.high, other.high) {
            (Some(a), Some(b)) => Some(tighter(a, b, false)),
            (a, b) => a.or(b),
        };
        self.not.extend(&other.not);
    }

    fn empty(&self, whole: bool) -> bool {
        let Some(high) = self.high else { return false };
        let Some(low) = self.low else { return false };
        let dimension: Dimension = low.at.dimension;
        let barred = |value: f64| self.not.iter().any(|not| measure::equal(*not, value, dimension));
        if whole {
            let mut least = low.at.value.ceil();
            if !low.closed && measure::equal(least, low.at.value, dimension) {
                least += 1.0;
            }
            let mut most = high.at.value.floor();
            if !high.closed && measure::equal(most, high.at.value, dimension) {
                most -= 1.0;
            }
            while least <= most && barred(least) {
                least += 1.0;
            }
            return least > most;
        }
        if measure::equal(low.at.value, high.at.value, dimension) {
            return !(low.closed && high.closed) || barred(low.at.value);
        }
        low.at.value > high.at.value
    }
}

fn denied(relation: Relation) -> Relation {
    match relation {
        Relation::Less => Relation::AtLeast,
        Relation::AtMost => Relation::More,
        Relation::More => Relation::AtMost,
        Relation::AtLeast => Relation::Less,
        Relation::Equal => Relation::Unequal,
        Relation::Unequal => Relation::Equal,
    }
}

fn read_limits(node: &Node, found: &mut Vec<usize>) {
    match node {
        Node::Limit(at) | Node::Read(What::At(_, Place::Limit(at)), _) => found.push(*at),
        Node::Negative(inner) | Node::Not(inner) => read_limits(inner, found),
        Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
            read_limits(a, found);
            read_limits(b, found);
        }
        Node::Chain(terms, _) => terms.iter().for_each(|(term, _)| read_limits(term, found)),
        Node::Any(terms) | Node::All(terms) => terms.iter().for_each(|term| read_limits(term, found)),
        _ => {}
    }
}

/// Where a condition stands.
fn span(node: &Node) -> Option<Span> {
    match node {
        Node::Chain(terms, _) => Some(terms.first()?.1.to(terms.last()?.1)),
        Node::Is(.., span) => Some(*span),
        Node::Not(inner) => span(inner),
        Node::Any(terms) | Node::All(terms) => Some(span(terms.first()?)?.to(span(terms.last()?)?)),
        _ => None,
    }
}
