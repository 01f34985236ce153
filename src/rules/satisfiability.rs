//! What a clause can come to at all, reasoned over one quantity at a time: a condition that can never be so, bounds
//! that cross, a requirement that its own `where` settles, a quantity held against a multiple of itself. Two quantities
//! compared with each other are beyond it; of those nothing is said.

mod between;

pub(super) use self::between::quarrel;
use super::eval::{self, By};
use super::node::{Collected, Node, Place as AtPlace, What};
use super::problem::{BoundValue, Fault, LimitValue};
use super::rule::{Limit, Printed, Rule};
use crate::base::{HasNotice, Notice, Passage, Span};
use crate::derive::Gives;
use crate::measure::{self, Dimension, Measure};
use crate::model::{KINDS, Property, Takes};
use crate::syntax::{Aggregate, Relation};

/// The part of a rule in which words stand; an amendment can give the two different texts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    Condition,
    Requirement,
}

/// A fault of a rule, where it stands and what it rests on.
pub(super) struct Found {
    pub fault: Fault,
    /// The words at fault.
    pub place: (Place, Span),
    /// The words that they quarrel with.
    pub against: Option<Span>,
    /// The limits that they read, by their places in the rule's list.
    pub limits: Vec<usize>,
}

/// More ways than this for a condition to be so are not told apart.
const MOST_WAYS: usize = 256;

/// A way of more terms than this is not reasoned about: each is held against all the others.
const MOST_TERMS: usize = 64;

/// Of more that are joined by `or` none is held against the others.
const MOST_JOINED_BY_OR: usize = 8;

/// Nor are ways that have more than this of them together.
const MOST_TERMS_OF_ALL: usize = 1024;

/// The first fault of a rule as it is in force; further ones would follow from it. It is sought by the figures that
/// stand first, then by the metric ones beside them.
pub(super) fn fault(rule: &Rule) -> Option<Found> {
    let two = rule.limits.iter().any(|limit| limit.metric.is_some());
    fault_by(rule, Printed::First).or_else(|| two.then(|| fault_by(rule, Printed::Metric)).flatten())
}

fn fault_by(rule: &Rule, printed: Printed) -> Option<Found> {
    let reasoner = Reasoner { rule, printed };
    let of_each = |find: &dyn Fn(&Node, Place) -> Option<Found>| {
        let narrowed = rule.condition.as_ref().and_then(|node| find(node, Place::Condition));
        narrowed.or_else(|| find(&rule.requirement, Place::Requirement))
    };
    let at_once = of_each(&|node, place| reasoner.undefined(node, place));
    if let Some(found) = at_once.or_else(|| of_each(&|node, place| reasoner.of_itself(node, place))) {
        return Some(found);
    }
    if reasoner.is_quiet() {
        let narrowed = rule.condition.as_ref().and_then(|node| reasoner.nested(node, Place::Condition));
        return narrowed.or_else(|| reasoner.nested(&rule.requirement, Place::Requirement));
    }
    let condition = rule.condition.as_ref().map(|node| (node, reasoner.ways(node, Place::Condition, Asked::Holds)));
    let requirement = reasoner.ways(&rule.requirement, Place::Requirement, Asked::Holds);
    if let Some((node, ways)) = &condition
        && let Some(found) =
            reasoner.never(node, Place::Condition, ways.as_ref()).or_else(|| reasoner.nested(node, Place::Condition))
    {
        return Some(found);
    }
    if let Some(found) = reasoner
        .never(&rule.requirement, Place::Requirement, requirement.as_ref())
        .or_else(|| reasoner.nested(&rule.requirement, Place::Requirement))
    {
        return Some(found);
    }
    let narrows = condition.as_ref().map(|(_, ways)| ways.as_ref());
    reasoner
        .settled(narrows, requirement.as_ref(), Asked::Holds)
        .or_else(|| {
            let (node, _) = condition.as_ref()?;
            let otherwise = reasoner.ways(node, Place::Condition, Asked::Denied)?;
            let idle = otherwise.iter().all(|way| clash(way).is_some());
            idle.then(|| {
                reasoner.whole(node, Place::Condition, |words, limits| Fault::NarrowsNothing { words, limits })
            })
        })
        .or_else(|| {
            let broken = reasoner.ways(&rule.requirement, Place::Requirement, Asked::Denied);
            reasoner.settled(narrows, broken.as_ref(), Asked::Denied)
        })
}

/// The words of what a rule asks, without a remark behind them.
pub(super) fn asks(rule: &Rule) -> Span {
    span(&rule.requirement).unwrap_or(rule.asks)
}

/// Whether a condition settles a part of another: wherever it is so, that is so too.
pub(super) fn settles(condition: &Node, part: &Node, rule: &Rule) -> bool {
    let asked = Rule { condition: Some(condition.clone()), requirement: part.clone(), ..rule.clone() };
    let always =
        |found: Found| matches!(found.fault.notice(), Notice::AlwaysHolds) && found.place.0 == Place::Requirement;
    fault(&asked).is_some_and(always)
}

/// The first of several ways to meet a requirement that adds nothing: wherever it is so, another of them is.
pub(super) fn idle(rule: &Rule) -> Option<Found> {
    let mut found = None;
    rule.requirement.each(&mut |node| {
        let Node::Any(terms) = node else { return };
        let other = |at: usize| terms.iter().enumerate().filter(move |(other, _)| *other != at).map(|(_, term)| term);
        let idle = |(at, term): (usize, &'_ Node)| {
            let beside = other(at).find(|other| settles(term, other, rule))?;
            Some((span(term)?, span(beside)?, term.clone()))
        };
        if found.is_none() && terms.len() <= MOST_JOINED_BY_OR {
            found = terms.iter().enumerate().find_map(idle);
        }
    });
    let (place, beside, term) = found?;
    let passage = |span| rule.source.passage(span);
    let mut limits = Vec::new();
    read_limits(&term, &mut limits);
    let reasoner = Reasoner { rule, printed: Printed::First };
    let fault = Fault::Idle { words: passage(place), beside: passage(beside), limits: reasoner.values(&limits) };
    Some(Found { fault, place: (Place::Requirement, place), against: None, limits })
}

/// Whether a condition is to be so, or not to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asked {
    Holds,
    Denied,
}

impl Asked {
    fn turned(self) -> Self {
        match self {
            Asked::Holds => Asked::Denied,
            Asked::Denied => Asked::Holds,
        }
    }
}

/// One comparison, or its denial.
#[derive(Clone, Copy)]
struct Term<'a> {
    states: States<'a>,
    place: (Place, Span),
    /// The chained comparison it is a link of.
    chain: Option<&'a Node>,
    /// What it compares.
    sides: Option<[&'a Node; 2]>,
}

#[derive(Clone, Copy)]
enum States<'a> {
    /// A number lies within these bounds.
    Within(&'a Node, Bounds),
    /// Some item of a list lies within these bounds: what is left of a list whose items all had to.
    SomeWithin(&'a Node, Bounds),
    /// A word is one of these.
    Among(&'a Node, &'a [String]),
    /// A word is none of these.
    NotAmong(&'a Node, &'a [String]),
    /// It is so, or is not, whatever is built.
    Fixed(bool),
    /// Beyond this reasoning.
    Open,
}

impl<'a> Term<'a> {
    /// The limits that it reads.
    fn limits(&self) -> Vec<usize> {
        let mut limits = Vec::new();
        self.sides.iter().flatten().for_each(|side| read_limits(side, &mut limits));
        limits
    }

    /// Whether it and another speak of one number, or of one word.
    fn alike(&self, other: &Self) -> bool {
        match (&self.states, &other.states) {
            (States::Within(a, _) | States::SomeWithin(a, _), States::Within(b, _) | States::SomeWithin(b, _))
            | (States::Among(a, _) | States::NotAmong(a, _), States::Among(b, _) | States::NotAmong(b, _)) => a == b,
            _ => false,
        }
    }
}

/// The ways in which a condition can be so; in each of them all terms hold.
type Ways<'a> = Vec<Vec<Term<'a>>>;

/// Where a comparison stands.
struct Link<'a> {
    place: (Place, Span),
    /// The chain that it is a link of.
    chain: &'a Node,
}

/// A multiple of a value that the design gives, and what is added to it.
struct Linear<'a> {
    subject: Option<&'a Node>,
    times: f64,
    plus: Measure,
}

fn same_number(a: f64, b: f64) -> bool {
    measure::equal(a, b, Dimension::NUMBER)
}

/// All of some conditions, or any of them, as ways; nothing if they are too many.
fn join(each: Vec<Option<Ways<'_>>>, all: bool) -> Option<Ways<'_>> {
    if all {
        return each.into_iter().try_fold(vec![Vec::new()], |before, ways| both(before, ways?));
    }
    let mut found = Vec::new();
    for ways in each {
        found.extend(ways?);
        if found.len() > MOST_WAYS || found.iter().map(Vec::len).sum::<usize>() > MOST_TERMS_OF_ALL {
            return None;
        }
    }
    Some(found)
}

/// Whether a value may be several, one for each step.
fn may_be_a_list(node: &Node) -> bool {
    match node {
        Node::Read(What::Property(property), _) => matches!(property.takes, Takes::Lengths | Takes::Angles),
        Node::Negative(inner) => may_be_a_list(inner),
        Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => may_be_a_list(a) || may_be_a_list(b),
        _ => false,
    }
}

/// What a comparison of the largest of some values with their smallest comes to, if it is settled.
fn of_one_list(left: &Node, relation: Relation, right: &Node) -> Option<bool> {
    // Those that a condition picks out are no more than all.
    if let (Node::Count(a), Node::Count(b)) = (left, right) {
        let whole = |collected: &Collected| collected.condition.is_none();
        return match relation {
            _ if a.kind != b.kind => None,
            Relation::AtMost if whole(b) => Some(true),
            Relation::AtLeast if whole(a) => Some(true),
            Relation::More if whole(b) => Some(false),
            Relation::Less if whole(a) => Some(false),
            _ => None,
        };
    }
    let (Node::Over(a, what, of), Node::Over(b, other, other_of)) = (left, right) else { return None };
    if what != other || of != other_of {
        return None;
    }
    match (a, b, relation) {
        (Aggregate::Largest, Aggregate::Smallest, Relation::AtLeast)
        | (Aggregate::Smallest, Aggregate::Largest, Relation::AtMost) => Some(true),
        (Aggregate::Largest, Aggregate::Smallest, Relation::Less)
        | (Aggregate::Smallest, Aggregate::Largest, Relation::More) => Some(false),
        _ => None,
    }
}

struct Reasoner<'a> {
    rule: &'a Rule,
    printed: Printed,
}

impl<'a> Reasoner<'a> {
    /// All the ways for a node to be so, or not to be; nothing if they are too many.
    fn ways<'n>(&self, node: &'n Node, place: Place, asked: Asked) -> Option<Ways<'n>> {
        match (node, asked) {
            (Node::Not(inner), asked) => self.ways(inner, place, asked.turned()),
            (Node::All(terms), Asked::Holds) | (Node::Any(terms), Asked::Denied) => {
                let mut each = terms.iter().map(|term| self.ways(term, place, asked));
                each.try_fold(vec![Vec::new()], |before, ways| both(before, ways?))
            }
            (Node::All(terms), Asked::Denied) | (Node::Any(terms), Asked::Holds) => {
                let mut all = Vec::new();
                for term in terms {
                    all.extend(self.ways(term, place, asked)?);
                    if all.len() > MOST_WAYS || all.iter().map(Vec::len).sum::<usize>() > MOST_TERMS_OF_ALL {
                        return None;
                    }
                }
                Some(all)
            }
            (Node::Chain(terms, _), _) if terms.len() > MOST_TERMS => None,
            (Node::Chain(terms, relations), asked) => {
                let links = terms.windows(2).zip(relations).filter_map(|(pair, relation)| match pair {
                    [left, right] => {
                        let of = Link { place: (place, left.1.to(right.1)), chain: node };
                        Some(self.links(&left.0, *relation, &right.0, asked, &of))
                    }
                    _ => None,
                });
                join(links.collect(), asked == Asked::Holds)
            }
            (Node::Is(subject, not, words, span), asked) => {
                let states = match (*not, asked) {
                    (false, Asked::Holds) | (true, Asked::Denied) => States::Among(subject, words),
                    _ => States::NotAmong(subject, words),
                };
                Some(vec![vec![Term { states, place: (place, *span), chain: None, sides: None }]])
            }
            _ => Some(vec![vec![Term {
                states: States::Open,
                place: (place, Span::default()),
                chain: None,
                sides: None,
            }]]),
        }
    }

    /// Whether each comparison of the rule can come to both, and no two of them speak of one thing: then nothing clashes
    /// in whatever way the rule holds or does not. That is so of most rules, and soon seen.
    fn is_quiet(&self) -> bool {
        let mut terms = Vec::new();
        let mut quiet = |node| self.each_can_be(node, &mut terms);
        self.rule.condition.iter().all(&mut quiet) && quiet(&self.rule.requirement)
    }

    /// Whether each comparison of a node can be so and can not be, and speaks of something that none of these does,
    /// which it is added to then.
    fn each_can_be<'n>(&self, node: &'n Node, terms: &mut Vec<Term<'n>>) -> bool {
        if let Node::Not(inner) = node {
            return self.each_can_be(inner, terms);
        }
        if let Node::All(inner) | Node::Any(inner) = node {
            return inner.iter().all(|node| self.each_can_be(node, terms));
        }
        let ways = |asked| self.ways(node, Place::Requirement, asked).into_iter().flatten().flatten();
        ways(Asked::Denied).all(|term| !impossible(&[&term]))
            && ways(Asked::Holds).all(|term| {
                let alone = !impossible(&[&term]) && !terms.iter().any(|other| other.alike(&term));
                terms.push(term);
                alone
            })
    }

    /// The ways for one comparison of a chain: one, or where it is with the lesser or the greater of two values, those
    /// with either of them.
    fn links<'n>(
        &self,
        left: &'n Node,
        relation: Relation,
        right: &'n Node,
        asked: Asked,
        of: &Link<'n>,
    ) -> Option<Ways<'n>> {
        let lists = may_be_a_list(left) || may_be_a_list(right);
        let upward = match relation {
            Relation::Less | Relation::AtMost => Some(true),
            Relation::More | Relation::AtLeast => Some(false),
            Relation::Equal | Relation::Unequal => None,
        };
        if let Some(upward) = upward.filter(|_| !lists) {
            // At most the greater: at most either. The greater at most: both at most.
            let both_hold = |greater: bool, on_the_right: bool| (greater == upward) != on_the_right;
            if let Node::Pick(greater, a, b) = right
                && self.constant(right).is_none()
            {
                let either = [a, b].map(|one| self.links(left, relation, one, asked, of));
                return join(either.into(), both_hold(*greater, true) == (asked == Asked::Holds));
            }
            if let Node::Pick(greater, a, b) = left
                && self.constant(left).is_none()
            {
                let either = [a, b].map(|one| self.links(one, relation, right, asked, of));
                return join(either.into(), both_hold(*greater, false) == (asked == Asked::Holds));
            }
        }
        let states = self.link(left, relation, right, asked);
        Some(vec![vec![Term { states, place: of.place, chain: Some(of.chain), sides: Some([left, right]) }]])
    }

    /// What one comparison states.
    fn link<'n>(&self, left: &'n Node, relation: Relation, right: &'n Node, asked: Asked) -> States<'n> {
        let relation = if asked == Asked::Holds { relation } else { denied(relation) };
        let within = |subject: &'n Node, bounds: Bounds| match asked {
            Asked::Denied if may_be_a_list(subject) => States::SomeWithin(subject, bounds),
            _ => States::Within(subject, bounds),
        };
        if let (Some(a), Some(b)) = (self.constant(left), self.constant(right)) {
            return States::Fixed(super::holds(a.value, relation, b.value, a.dimension));
        }
        if let Some(so) = of_one_list(left, relation, right) {
            return States::Fixed(so);
        }
        let (Some(left), Some(right)) = (self.linear(left), self.linear(right)) else { return States::Open };
        match (left.subject, right.subject) {
            (Some(subject), None) => {
                let at = Measure { value: (right.plus.value - left.plus.value) / left.times, ..right.plus };
                within(subject, Bounds::of(if left.times < 0.0 { relation.turned() } else { relation }, at))
            }
            (None, Some(subject)) => {
                let at = Measure { value: (left.plus.value - right.plus.value) / right.times, ..left.plus };
                within(subject, Bounds::of(if right.times < 0.0 { relation } else { relation.turned() }, at))
            }
            (a, b) if a == b && (a.is_none() || same_number(left.times, right.times)) => {
                let of = if left.plus.value == 0.0 { right.plus } else { left.plus };
                States::Fixed(super::holds(left.plus.value, relation, right.plus.value, of.dimension))
            }
            _ => States::Open,
        }
    }

    /// A value as a multiple of one that the design gives, and what is added to it; nothing where it is made of several.
    fn linear<'n>(&self, node: &'n Node) -> Option<Linear<'n>> {
        if let Some(plus) = self.constant(node) {
            return Some(Linear { subject: None, times: 0.0, plus });
        }
        let alone = |node: &'n Node| Linear { subject: Some(node), times: 1.0, plus: Measure::number(0.0) };
        let scaled = |of: Linear<'n>, by: f64| {
            let plus = Measure { value: of.plus.value * by, ..of.plus };
            let scaled = Linear { times: of.times * by, plus, ..of };
            Some(scaled).filter(|of| of.times.is_finite() && (of.subject.is_none() || of.times != 0.0))
        };
        let plain = |node: &Node| self.constant(node).filter(|by| by.dimension == Dimension::NUMBER);
        match node {
            Node::Negative(inner) => scaled(self.linear(inner)?, -1.0),
            Node::Product(a, over, b) => match (plain(a), plain(b)) {
                (_, Some(by)) => scaled(self.linear(a)?, if *over { 1.0 / by.value } else { by.value }),
                (Some(by), None) if !over => scaled(self.linear(b)?, by.value),
                // A value over itself is one, whatever it is.
                _ if *over && a == b => Some(Linear { subject: None, times: 0.0, plus: Measure::number(1.0) }),
                _ => Some(alone(node)),
            },
            Node::Sum(a, minus, b) => {
                let (a, b) = (self.linear(a)?, self.linear(b)?);
                let sign = if *minus { -1.0 } else { 1.0 };
                let subject = match (a.subject, b.subject) {
                    (Some(a), Some(b)) if a != b => return None,
                    (a, b) => a.or(b),
                };
                let times = a.times + sign * b.times;
                // A bare nought has no dimension of its own.
                let of = if a.subject.is_some() && a.plus.value == 0.0 { b.plus } else { a.plus };
                let plus = Measure { value: a.plus.value + sign * b.plus.value, ..of };
                Some(Linear { subject: subject.filter(|_| !same_number(times, 0.0)), times, plus })
            }
            _ => Some(alone(node)),
        }
    }

    /// A comparison of a value with a multiple of itself, which only asks whether it is above nothing.
    fn of_itself(&self, node: &Node, place: Place) -> Option<Found> {
        match node {
            Node::Any(terms) | Node::All(terms) => terms.iter().find_map(|term| self.of_itself(term, place)),
            Node::Not(inner) => self.of_itself(inner, place),
            Node::Chain(terms, _) => terms.windows(2).find_map(|pair| {
                let [left, right] = pair else { return None };
                let (a, b) = (self.linear(&left.0)?, self.linear(&right.0)?);
                let same = a.subject.is_some() && a.subject == b.subject && !same_number(a.times, b.times);
                let idle = same && a.plus.value == 0.0 && b.plus.value == 0.0;
                let place = (place, left.1.to(right.1));
                let mut limits = Vec::new();
                read_limits(&left.0, &mut limits);
                read_limits(&right.0, &mut limits);
                let fault = Fault::OfItself { words: self.words(place), limits: self.values(&limits) };
                idle.then_some(Found { fault, place, against: None, limits })
            }),
            _ => None,
        }
    }

    /// The value of what depends on the rule alone.
    fn constant(&self, node: &Node) -> Option<Measure> {
        let found = match node {
            Node::Figure(measure) => *measure,
            Node::Limit(at) => self.rule.limits.get(*at)?.figure(self.printed),
            Node::Negative(inner) => {
                let inner = self.constant(inner)?;
                Measure { value: -inner.value, ..inner }
            }
            Node::Sum(a, minus, b) => {
                let (a, b) = (self.constant(a)?, self.constant(b)?);
                Measure { value: if *minus { a.value - b.value } else { a.value + b.value }, ..a }
            }
            Node::Product(a, over, b) => {
                let by = if *over { By::Divided } else { By::Times };
                eval::product(self.constant(a)?, by, self.constant(b)?).ok()?
            }
            Node::Pick(greater, a, b) => {
                let (a, b) = (self.constant(a)?, self.constant(b)?);
                if (a.value >= b.value) == *greater { a } else { b }
            }
            _ => return None,
        };
        found.value.is_finite().then_some(found)
    }

    /// A term that is undefined whatever is built: its own figures divide by nothing.
    fn undefined(&self, node: &Node, place: Place) -> Option<Found> {
        match node {
            Node::Any(terms) | Node::All(terms) => terms.iter().find_map(|term| self.undefined(term, place)),
            Node::Not(inner) | Node::Is(inner, ..) => self.undefined(inner, place),
            Node::Chain(terms, _) => terms.iter().find_map(|(term, span)| {
                if !self.is_no_number(term) {
                    return self.undefined_inside(term, place);
                }
                let mut limits = Vec::new();
                read_limits(term, &mut limits);
                let fault = Fault::Undefined { words: self.words((place, *span)), limits: self.values(&limits) };
                Some(Found { fault, place: (place, *span), against: None, limits })
            }),
            _ => None,
        }
    }

    /// The same of the conditions of collections inside a value.
    fn undefined_inside(&self, node: &Node, place: Place) -> Option<Found> {
        match node {
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                self.undefined_inside(a, place).or_else(|| self.undefined_inside(b, place))
            }
            Node::Negative(inner) => self.undefined_inside(inner, place),
            Node::Count(collected) | Node::Over(_, _, collected) => {
                self.undefined(collected.condition.as_deref()?, place)
            }
            _ => None,
        }
    }

    /// Whether some part of a value is constant and no number.
    fn is_no_number(&self, node: &Node) -> bool {
        let inside = match node {
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                self.is_no_number(a) || self.is_no_number(b)
            }
            Node::Negative(inner) => self.is_no_number(inner),
            _ => false,
        };
        let by_nothing = |b: &Node| self.constant(b).is_some_and(|by| measure::equal(by.value, 0.0, by.dimension));
        inside
            || matches!(node, Node::Product(_, true, b) if by_nothing(b))
            || node.is_constant() && self.constant(node).is_none()
    }

    /// A condition of which every way runs into itself.
    fn never(&self, node: &Node, place: Place, ways: Option<&Ways<'_>>) -> Option<Found> {
        let clashes: Vec<Clash<'_>> = ways?.iter().map(|way| clash(way)).collect::<Option<_>>()?;
        let [(first, second)] = clashes.as_slice() else {
            return Some(self.whole(node, place, |words, limits| Fault::Never { words, limits }));
        };
        let Some(second) = second else {
            let limits = first.limits();
            let fault = Fault::Never { words: self.words(first.place), limits: self.values(&limits) };
            return Some(Found { fault, place: first.place, against: None, limits });
        };
        let limits = [first.limits(), second.limits()].concat();
        if let Some((least, most)) = crossed(first, second) {
            let place = (first.place.0, first.place.1.to(second.place.1));
            let (least, most) = (self.bound(least.at, &limits), self.bound(most.at, &limits));
            return Some(Found { fault: Fault::Crossed { least, most }, place, against: None, limits });
        }
        let (against, place) = (Some(first.place.1), second.place);
        let (first, second) = (self.words(first.place), self.words(second.place));
        let fault = Fault::NeverBoth { first, second, limits: self.values(&limits) };
        Some(Found { fault, place, against, limits })
    }

    /// What is asked, or its denial, beside the `where`: every way of the one runs into every way of the other.
    fn settled(&self, narrows: Option<Option<&Ways<'_>>>, ways: Option<&Ways<'_>>, asked: Asked) -> Option<Found> {
        let everything = vec![Vec::new()];
        let (narrows, ways) = (narrows.unwrap_or(Some(&everything))?, ways?);
        let pairs = narrows.iter().flat_map(|a| ways.iter().map(move |b| [a.as_slice(), b].concat()));
        let clashes = if few(narrows, ways) { pairs.map(|way| clash(&way)).collect() } else { None };
        let clashes: Vec<Clash<'_>> = clashes?;
        let terms = || clashes.iter().flat_map(|(first, second)| std::iter::once(first).chain(second));
        let beside = terms().find(|term| term.place.0 == Place::Condition);
        let mut limits: Vec<usize> = terms().flat_map(Term::limits).collect();
        limits.sort_unstable();
        limits.dedup();
        let place = (Place::Requirement, span(&self.rule.requirement).unwrap_or_default());
        let (words, values) = (self.words(place), self.values(&limits));
        let narrowed_by = beside.map(|term| self.words(term.place));
        let fault = match asked {
            Asked::Holds => Fault::NeverPasses { words, narrowed_by, limits: values },
            Asked::Denied => Fault::AlwaysHolds { words, narrowed_by, limits: values },
        };
        Some(Found { fault, place, against: beside.map(|term| term.place.1), limits })
    }

    /// The conditions of collections inside a node.
    fn nested(&self, node: &Node, place: Place) -> Option<Found> {
        let within = |collected: &Collected| {
            let condition = collected.condition.as_deref()?;
            let ways = self.ways(condition, place, Asked::Holds);
            self.never(condition, place, ways.as_ref()).or_else(|| self.nested(condition, place))
        };
        match node {
            Node::Any(terms) | Node::All(terms) => terms.iter().find_map(|term| self.nested(term, place)),
            Node::Not(inner) | Node::Negative(inner) | Node::Is(inner, ..) => self.nested(inner, place),
            Node::Chain(terms, _) => terms.iter().find_map(|(term, _)| self.nested(term, place)),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                self.nested(a, place).or_else(|| self.nested(b, place))
            }
            Node::Count(collected) | Node::Over(_, _, collected) => within(collected),
            Node::ByRow(rows) => {
                rows.iter().filter_map(|row| row.when.as_ref()).find_map(|when| self.nested(when, place))
            }
            Node::Between(inner, _) | Node::ReadAt(_, inner, _) | Node::Drawn(inner) | Node::Measured(inner) => {
                self.nested(inner, place)
            }
            Node::Figure(_) | Node::Limit(_) | Node::Read(..) => None,
        }
    }

    /// The fault of a condition as a whole.
    fn whole(&self, node: &Node, place: Place, fault: fn(Passage, Vec<LimitValue>) -> Fault) -> Found {
        let place = (place, span(node).unwrap_or_default());
        let mut limits = Vec::new();
        read_limits(node, &mut limits);
        Found { fault: fault(self.words(place), self.values(&limits)), place, against: None, limits }
    }

    /// The words at a place of the rule, in the text that they stand in.
    fn words(&self, (place, span): (Place, Span)) -> Passage {
        match (&self.rule.narrows, place) {
            (Some((source, _)), Place::Condition) => source.passage(span),
            _ => self.rule.source.passage(span),
        }
    }

    /// The limits at these places of the rule's list.
    fn values(&self, limits: &[usize]) -> Vec<LimitValue> {
        let named = limits.iter().filter_map(|at| self.rule.limits.get(*at));
        let value = |limit: &Limit| LimitValue { name: limit.name.clone(), value: limit.measure, metric: limit.metric };
        named.map(value).collect()
    }

    /// A bound by the limit that sets it, or as it is written.
    fn bound(&self, value: Measure, limits: &[usize]) -> BoundValue {
        let mut named = limits.iter().filter_map(|at| self.rule.limits.get(*at));
        match named.find(|limit| limit.figure(self.printed) == value) {
            Some(limit) => BoundValue { limit: Some(limit.name.clone()), value: limit.measure, metric: limit.metric },
            None => BoundValue { limit: None, value, metric: None },
        }
    }
}

/// The lower and the upper bound of two terms that belong together: links of one chain, or both set by limits.
fn crossed(first: &Term<'_>, second: &Term<'_>) -> Option<(Bound, Bound)> {
    let one_chain = first.chain.is_some_and(|a| second.chain.is_some_and(|b| std::ptr::eq(a, b)));
    if !one_chain && (first.limits().is_empty() || second.limits().is_empty()) {
        return None;
    }
    let bounds = |term: &Term<'_>| match &term.states {
        States::Within(_, bounds) | States::SomeWithin(_, bounds) => Some((bounds.low, bounds.high)),
        _ => None,
    };
    let (a, b) = (bounds(first)?, bounds(second)?);
    a.0.or(b.0).zip(b.1.or(a.1))
}

/// Whether the ways of two together are neither too many nor too long.
fn few(a: &Ways<'_>, b: &Ways<'_>) -> bool {
    let terms = |ways: &Ways<'_>| ways.iter().map(Vec::len).sum::<usize>();
    let longest = |ways: &Ways<'_>| ways.iter().map(Vec::len).max().unwrap_or(0);
    a.len() * b.len() <= MOST_WAYS
        && longest(a) + longest(b) <= MOST_TERMS
        && terms(a) * b.len() + terms(b) * a.len() <= MOST_TERMS_OF_ALL
}

/// Every way of the one together with every way of the other; nothing if they are too many, or too long.
fn both<'a>(a: Ways<'a>, b: Ways<'a>) -> Option<Ways<'a>> {
    if !few(&a, &b) {
        return None;
    }
    if matches!(a.as_slice(), [way] if way.is_empty()) {
        return Some(b);
    }
    Some(a.iter().flat_map(|a| b.iter().map(move |b| [a.as_slice(), b].concat())).collect())
}

/// The term of a way that cannot be, or the two that cannot be together.
type Clash<'a> = (Term<'a>, Option<Term<'a>>);

fn clash<'a>(way: &[Term<'a>]) -> Option<Clash<'a>> {
    let mut most_alike = 0;
    for (at, term) in way.iter().enumerate() {
        if impossible(&[term]) {
            return Some((*term, None));
        }
        // What speaks of something else leaves it what it was.
        let alike = || way.iter().take(at).filter(|other| other.alike(term));
        if let Some(other) = alike().find(|other| impossible(&[other, term])) {
            return Some((*other, Some(*term)));
        }
        most_alike = most_alike.max(1 + alike().count());
    }
    if most_alike < 3 {
        return None;
    }
    // Three or more that only together leave nothing.
    (1..=way.len())
        .find_map(|upto| {
            let terms: Vec<&Term<'_>> = way.iter().take(upto).collect();
            impossible(&terms).then(|| way.first().zip(way.get(upto - 1))).flatten()
        })
        .map(|(first, last)| (*first, Some(*last)))
}

/// Whether terms leave nothing of some quantity.
fn impossible(terms: &[&Term<'_>]) -> bool {
    terms.iter().any(|term| match &term.states {
        States::Fixed(so) => !so,
        States::Within(subject, _) | States::SomeWithin(subject, _) => no_number(subject, terms),
        States::Among(subject, _) | States::NotAmong(subject, _) => no_word(subject, terms),
        States::Open => false,
    })
}

fn no_number(subject: &Node, terms: &[&Term<'_>]) -> bool {
    let whole = counts(subject);
    let (mut all, mut barred, mut some) = (Bounds::default(), Vec::new(), Vec::new());
    if whole {
        all.low = Some(Bound { at: Measure::number(0.0), closed: true });
    } else if let Some(closed) = from_nothing(subject) {
        all.low = Some(Bound { at: Measure::number(0.0), closed });
    }
    for term in terms {
        match &term.states {
            States::Within(other, bounds) if *other == subject => {
                all.meet(bounds);
                barred.extend(bounds.not);
            }
            States::SomeWithin(other, bounds) if *other == subject => some.push(*bounds),
            _ => {}
        }
    }
    all.empty(whole, &barred)
        || some.iter().any(|bounds| {
            let mut item = all;
            item.meet(bounds);
            let barred: Vec<f64> = barred.iter().copied().chain(bounds.not).collect();
            item.empty(whole, &barred)
        })
}

/// Whether a value that is none below nothing can be nothing. Nothing is stated as less than that, and what has a range of
/// sense from above it is more; so is what is summed up of such.
fn from_nothing(subject: &Node) -> Option<bool> {
    let lengths = |property: &Property| {
        matches!(property.takes, Takes::Length | Takes::Lengths | Takes::Area | Takes::Pressure | Takes::Force)
    };
    let may_be_nothing = |property: &Property| property.range.is_none_or(|range| range.least <= 0.0);
    let Node::Read(what, _) = subject else { return None };
    match what {
        What::Property(property) => lengths(property).then(|| may_be_nothing(property)),
        What::Quantity(entry) => {
            let stated = entry.adds_up()?;
            let rows = KINDS.iter().filter_map(|kind| kind.has(stated));
            rows.map(|row| lengths(row).then(|| may_be_nothing(row))).reduce(|a, b| Some(a? || b?))?
        }
        What::At(..) => None,
    }
}

fn no_word(subject: &Node, terms: &[&Term<'_>]) -> bool {
    let (mut left, mut not): (Option<Vec<&str>>, Vec<&str>) = (words(subject), Vec::new());
    for term in terms {
        match &term.states {
            States::NotAmong(other, among) if *other == subject => not.extend(among.iter().map(String::as_str)),
            States::Among(other, among) if *other == subject => {
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
#[derive(Clone, Copy, Default)]
struct Bounds {
    low: Option<Bound>,
    high: Option<Bound>,
    /// A value it may not have.
    not: Option<f64>,
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
            Relation::Unequal => return Self { not: Some(at.value), ..Self::default() },
        };
        Self { low, high, not: None }
    }

    /// Draws the bounds in to what another leaves, but for the values that it bars.
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
    }

    /// Whether nothing is left between them but barred values.
    fn empty(&self, whole: bool, barred: &[f64]) -> bool {
        let Some(high) = self.high else { return false };
        let Some(low) = self.low else { return false };
        let dimension: Dimension = low.at.dimension;
        let barred = |value: f64| barred.iter().any(|not| measure::equal(*not, value, dimension));
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

pub(super) fn read_limits(node: &Node, found: &mut Vec<usize>) {
    match node {
        Node::Limit(at) | Node::Read(What::At(_, AtPlace::Limit(at)), _) => found.push(*at),
        Node::Negative(inner) | Node::Not(inner) | Node::ReadAt(_, inner, _) => read_limits(inner, found),
        Node::ByRow(_) | Node::Between(..) => found.extend(node.limits()),
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
pub(super) fn span(node: &Node) -> Option<Span> {
    match node {
        Node::Chain(terms, _) => Some(terms.first()?.1.to(terms.last()?.1)),
        Node::Is(.., span) => Some(*span),
        Node::Not(inner) => span(inner),
        Node::Any(terms) | Node::All(terms) => Some(span(terms.first()?)?.to(span(terms.last()?)?)),
        _ => None,
    }
}
