//! One rule's outcome for one element, term by term: what stands in the clause, what it came to, what decided.

use super::clause_text;
use super::eval::{Evaluator, Tells, Truth, Verdict};
use super::node::Node;
use super::rule::{Limit, Printed, Rule};
use crate::derive::{Datum, Evaluation, Missing, Read};
use crate::measure::{Measure, print, print_distinct};
use crate::model::Id;
use crate::syntax::Relation;

/// How a rule came to its outcome for one element.
#[derive(Debug, Clone)]
pub struct Explanation {
    /// The outcome.
    pub verdict: Verdict,
    /// The clause with the numbers put in.
    pub put_in: String,
    /// What narrows the rule.
    pub condition: Option<Term>,
    /// What it asks; nothing where it does not apply, or is not known to.
    pub requirement: Option<Term>,
    /// What was read.
    pub reads: Vec<Read>,
}

/// One condition of a clause.
#[derive(Debug, Clone)]
pub struct Term {
    /// As the clause has it.
    pub words: String,
    /// With the numbers put in.
    pub put_in: String,
    /// With both sides reckoned, where there was something to reckon.
    pub reckoned: Option<String>,
    /// By how much the value is on the wrong side.
    pub miss: Option<String>,
    /// Which figure of its limit counted, where that has two.
    pub printed: Option<Printed>,
    /// Whether it holds.
    pub holds: Holds,
    /// How its parts are joined.
    pub joined: Joined,
    /// Its parts.
    pub parts: Vec<Term>,
    /// It settles the outcome.
    pub decides: bool,
}

/// Three values.
#[derive(Debug, Clone, PartialEq)]
pub enum Holds {
    /// It holds.
    Yes,
    /// It does not.
    No,
    /// Something is not stated.
    Unknown(Missing),
}

/// How the parts of a term are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joined {
    /// It has none.
    Single,
    /// All must hold.
    All,
    /// One is enough.
    Any,
    /// It must not hold.
    Not,
}

/// Explains what a rule comes to for an element.
pub fn explain(rule: &Rule, evaluation: &Evaluation<'_>, element: Id) -> Explanation {
    let evaluator = Evaluator::new(rule, evaluation, Tells::Verdict);
    let ((verdict, _), reads) = evaluation.trace(|| evaluator.outcome(element));
    let reads = reads.reads;
    let explainer = Explainer { evaluator, element };
    let mut condition = rule.condition.as_ref().map(|node| explainer.term(node));
    let applies = condition.as_ref().is_none_or(|term| term.holds == Holds::Yes);
    let mut requirement = applies.then(|| explainer.term(&rule.requirement));
    if let Some(term) = requirement.as_mut().or(condition.as_mut()) {
        term.settle();
    }
    let narrowed = rule.condition.as_ref().map(|node| format!(" where {}", explainer.put_in(node))).unwrap_or_default();
    let verb = if rule.shall { "shall" } else { "should" };
    let put_in = format!("each {}{narrowed} {verb} have {}", rule.kind.name, explainer.put_in(&rule.requirement));
    Explanation { verdict, put_in, condition, requirement, reads }
}

impl Term {
    /// The terms without parts that settle the outcome.
    pub fn deciding(&self) -> Vec<&Term> {
        if self.parts.is_empty() {
            return if self.decides { vec![self] } else { Vec::new() };
        }
        self.parts.iter().flat_map(Term::deciding).collect()
    }

    /// Marks what settles it: of parts that must all hold, each that does not; of others, the first that does.
    fn settle(&mut self) {
        self.decides = true;
        let settled = |holds: &Holds| match (self.joined, &self.holds) {
            (Joined::All, Holds::No) => *holds == Holds::No,
            (Joined::Any, Holds::Yes) => *holds == Holds::Yes,
            (_, Holds::Unknown(_)) => matches!(holds, Holds::Unknown(_)),
            _ => true,
        };
        let one = matches!((self.joined, &self.holds), (Joined::Any, Holds::Yes));
        let chosen: Vec<bool> = self.parts.iter().map(|part| settled(&part.holds)).collect();
        let most = if one { 1 } else { usize::MAX };
        let parts = self.parts.iter_mut().zip(chosen).filter(|(_, chosen)| *chosen).take(most);
        parts.for_each(|(part, _)| part.settle());
    }
}

struct Explainer<'a, 'd> {
    evaluator: Evaluator<'a, 'd>,
    element: Id,
}

impl Explainer<'_, '_> {
    fn term(&self, node: &Node) -> Term {
        let (joined, parts) = match node {
            Node::All(terms) => (Joined::All, terms.iter().map(|term| self.term(term)).collect()),
            Node::Any(terms) => (Joined::Any, terms.iter().map(|term| self.term(term)).collect()),
            Node::Not(inner) => (Joined::Not, vec![self.term(inner)]),
            Node::Chain(terms, relations) if relations.len() > 1 => {
                let pairs = terms.windows(2).zip(relations);
                (Joined::All, pairs.map(|(pair, relation)| self.pair(pair, *relation)).collect())
            }
            _ => (Joined::Single, Vec::new()),
        };
        // A trace of its own: to explain is not to read.
        let (truth, _) = self.evaluator.evaluation.trace(|| self.evaluator.truth(node, self.element));
        let holds = match truth {
            Truth::True => Holds::Yes,
            Truth::False(_) => Holds::No,
            Truth::Unknown(missing) => Holds::Unknown(missing),
        };
        let words = clause_text::words(node, self.evaluator.rule);
        let put_in = self.put_in(node);
        let Reckoned { said, miss, printed } = self.reckoned(node, &put_in, &holds);
        Term { words, put_in, reckoned: said, miss, printed, holds, joined, parts, decides: false }
    }

    fn pair(&self, pair: &[(Node, crate::base::Span)], relation: Relation) -> Term {
        self.term(&Node::Chain(pair.to_vec(), vec![relation]))
    }

    fn value(&self, node: &Node) -> Result<Datum, Missing> {
        self.evaluator.evaluation.trace(|| self.evaluator.value(node, self.element)).0
    }

    fn put_in(&self, node: &Node) -> String {
        clause_text::put_in(node, self.evaluator.rule, &|leaf| match leaf {
            Node::Limit(at) => self.evaluator.rule.limits.get(*at).map(Limit::figures),
            Node::Read(..)
            | Node::ReadAt(..)
            | Node::ByRow(_)
            | Node::Between(..)
            | Node::Drawn(_)
            | Node::Measured(_)
            | Node::Count(_)
            | Node::Over(..)
            | Node::Figure(_) => self.value(leaf).ok().map(|datum| told(&datum)),
            _ => None,
        })
    }

    /// Both sides of one comparison as single numbers, told apart, and by how much they miss.
    fn reckoned(&self, node: &Node, put_in: &str, holds: &Holds) -> Reckoned {
        let Node::Chain(terms, relations) = node else { return Reckoned::default() };
        let ([(left, _), (right, _)], [relation]) = (terms.as_slice(), relations.as_slice()) else {
            return Reckoned::default();
        };
        let sides = self.evaluator.evaluation.trace(|| self.evaluator.sides(left, *relation, right, self.element)).0;
        let printed = sides.printed;
        let (Ok(Datum::Measure(value)), Ok(Datum::Measure(limit))) = (sides.value_is, sides.limit_is) else {
            return Reckoned { printed, ..Reckoned::default() };
        };
        let turned = std::ptr::eq(sides.value, right);
        let (left, right) = if turned { (limit, value) } else { (value, limit) };
        let style = left.style.for_dimension(left.dimension);
        let (a, b) = print_distinct(left.styled(style), right, style);
        let said = format!("{a} {} {b}", relation.sign());
        let gap = Measure { value: (left.value - right.value).abs(), ..left.styled(style) };
        let told = *holds == Holds::No && gap.value > 0.0 && !style.is_slope() && *relation != Relation::Unequal;
        let miss = told.then(|| print(gap)).filter(|gap| gap.contains(|c| ('1'..='9').contains(&c)));
        Reckoned { said: (said != put_in).then_some(said), miss, printed }
    }
}

/// A comparison worked out.
#[derive(Default)]
struct Reckoned {
    said: Option<String>,
    miss: Option<String>,
    printed: Option<Printed>,
}

fn told(datum: &Datum) -> String {
    match datum {
        Datum::Measure(measure) => print(*measure),
        Datum::List(_) => format!("({datum})"),
        Datum::Word(word) => format!("\"{word}\""),
    }
}
