//! One clause of a rule: text to expression tree, names not yet looked up.

use std::cell::Cell;

use pest::iterators::{Pair, Pairs};

use super::figure::{figure_in_clause, slope};
use super::grammar::{self, Rule};
use super::plain;
use super::problem::{ClauseProblem, Problem, Reading};
use super::relation::Relation;
use super::tree::TermKind;
use super::verb;
use crate::base::{Diagnostic, Source, Span};
use crate::measure::{Dimension, Measure};

/// `each KIND [where CONDITION] shall|should have REQUIREMENT`.
#[derive(Debug, Clone, PartialEq)]
pub struct ClauseTree {
    /// The kind held.
    pub kind: Name,
    /// What narrows it.
    pub condition: Option<Expr>,
    /// `shall`, not `should`.
    pub shall: bool,
    /// Where the verb stands.
    pub verb: Span,
    /// What is asked.
    pub requirement: Expr,
    /// The words of what narrows it, parentheses and `not` among them.
    pub narrows: Option<Span>,
    /// The words of what is asked.
    pub asks: Span,
    /// The whole clause.
    pub span: Span,
}

/// Words that name something, in lower case with single blanks.
#[derive(Debug, Clone, PartialEq)]
pub struct Name {
    /// The words.
    pub words: String,
    /// Where they stand.
    pub span: Span,
}

/// What is asked of an element, and the place that the last word of its name asks it at: `depth at 12"`. A place
/// that is written as a limit's name is still part of the name here.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The name.
    pub name: Name,
    /// The place.
    pub place: Option<(Measure, Span)>,
}

impl Asked {
    /// Where it stands.
    pub fn span(&self) -> Span {
        self.place.map_or(self.name.span, |(_, place)| self.name.span.to(place))
    }
}

/// How a collection is summed up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aggregate {
    /// `largest X of`
    Largest,
    /// `smallest X of`
    Smallest,
    /// `total X of`
    Total,
    /// `largest change of X along`
    Change,
}

/// A plural kind, perhaps narrowed.
#[derive(Debug, Clone, PartialEq)]
pub struct Collection {
    /// The kind, as written.
    pub kind: Name,
    /// What narrows it.
    pub condition: Option<Box<Expr>>,
}

/// An expression. Conditions and values share one tree; the resolver tells them apart.
#[derive(Debug, Clone, PartialEq)]
pub enum Expr {
    /// Any of these.
    Or(Vec<Expr>),
    /// All of these.
    And(Vec<Expr>),
    /// Not this.
    Not(Box<Expr>),
    /// `a <= b <= c`: first term, then sign and term.
    Chain(Box<Expr>, Vec<(Relation, Expr)>),
    /// `X is [not] word` or `X is one of a, b`.
    Is(Box<Expr>, bool, Vec<Name>),
    /// `a + b` or, if the flag is set, `a - b`.
    Sum(Box<Expr>, bool, Box<Expr>, Span),
    /// `a * b` or, if the flag is set, `a / b`.
    Product(Box<Expr>, bool, Box<Expr>, Span),
    /// `-a`.
    Negative(Box<Expr>),
    /// `number of KINDS`.
    Count(Collection, Span),
    /// `largest X of KINDS`, and its like.
    Over(Aggregate, Asked, Collection, Span),
    /// `lesser of a and b`, or, if the flag is set, `greater of`.
    Pick(bool, Box<Expr>, Box<Expr>, Span),
    /// A figure.
    Figure(Measure, Span),
    /// A name, and the kinds it is asked of: `width of flight`.
    Reference(Asked, Vec<Name>),
}

impl Expr {
    /// Where the expression stands.
    pub fn span(&self) -> Span {
        match self {
            Expr::Or(terms) | Expr::And(terms) => {
                let first = terms.first().map(Expr::span).unwrap_or_default();
                terms.last().map_or(first, |last| first.to(last.span()))
            }
            Expr::Not(inner) | Expr::Negative(inner) => inner.span(),
            Expr::Chain(first, rest) => rest.last().map_or(first.span(), |(_, last)| first.span().to(last.span())),
            Expr::Is(subject, _, words) => words.last().map_or(subject.span(), |word| subject.span().to(word.span)),
            Expr::Sum(.., span)
            | Expr::Product(.., span)
            | Expr::Count(_, span)
            | Expr::Over(.., span)
            | Expr::Pick(.., span)
            | Expr::Figure(_, span) => *span,
            Expr::Reference(asked, of) => of.last().map_or(asked.span(), |last| asked.span().to(last.span)),
        }
    }
}

/// What was read, or why it cannot be.
type Read<T> = Result<T, Box<Diagnostic<Problem>>>;

/// Reads one clause.
///
/// # Errors
/// Why it cannot be read, at the place where reading stopped.
pub fn parse_clause(source: &Source, span: Span) -> Read<ClauseTree> {
    let text = source.slice(span);
    let reader = Reader { source, offset: span.start, joined: Cell::new(0) };
    let pairs = grammar::read(text, Rule::clause)
        .map_err(|at| verb::lacking(source, span).unwrap_or_else(|| stopped(source, span, at, Reading::Clause)))?;
    reader.clause(pairs, span).ok_or_else(|| stopped(source, span, 0, Reading::Clause))?
}

/// Reads a condition that stands alone, as an amendment states it.
///
/// # Errors
/// Why it cannot be read, at the place where reading stopped.
pub fn parse_condition(source: &Source, span: Span) -> Read<Expr> {
    let reader = Reader { source, offset: span.start, joined: Cell::new(0) };
    let refused = |at| stopped(source, span, at, Reading::Condition);
    let pairs = grammar::read(source.slice(span), Rule::lone_condition).map_err(refused)?;
    match pairs.flat_map(Pair::into_inner).find(|part| part.as_rule() == Rule::condition) {
        Some(part) => reader.condition(part),
        None => Err(refused(0)),
    }
}

/// Whether words can be named in a clause: none of them is a word of the language.
pub fn is_name(words: &str) -> bool {
    grammar::read(words, Rule::name).is_ok_and(|mut pairs| pairs.next().is_some_and(|pair| pair.as_str() == words))
}

/// What is wrong at the word where reading stopped.
fn stopped(source: &Source, span: Span, at: usize, reading: Reading) -> Box<Diagnostic<Problem>> {
    let at = span.start as usize + at.min(source.slice(span).len());
    let rest = source.text.get(at..span.end as usize).unwrap_or("");
    let word: usize = rest.chars().take_while(|c| !c.is_whitespace()).map(char::len_utf8).sum();
    let place = if rest.trim().is_empty() {
        span
    } else {
        Span::new(at, at + word.max(rest.chars().next().map_or(0, char::len_utf8)))
    };
    let before = source.text.get(span.start as usize..at).unwrap_or("");
    let (word, meant) = (rest.split_whitespace().next().map(str::to_owned), plain::meant(before, rest));
    Box::new(Diagnostic::new(source, place, ClauseProblem::Stopped { reading, word, meant }))
}

/// Most sums, differences, products and quotients of one clause: each stands one level deeper in the tree.
const MOST_JOINED: usize = 100;

/// Where a pair of a text that begins at `offset` stands in its source.
fn span_at(pair: &Pair<'_, Rule>, offset: u32) -> Span {
    let span = pair.as_span();
    Span::new(offset as usize + span.start(), offset as usize + span.end())
}

struct Reader<'a> {
    source: &'a Source,
    offset: u32,
    joined: Cell<usize>,
}

impl Reader<'_> {
    fn clause(&self, pairs: Pairs<'_, Rule>, span: Span) -> Option<Read<ClauseTree>> {
        let (mut kind, mut shall, mut verb) = (None, true, span);
        let (mut conditions, mut places) = (Vec::new(), Vec::new());
        for part in pairs.flat_map(Pair::into_inner) {
            match part.as_rule() {
                Rule::name => kind = Some(self.name(&part)),
                Rule::verb => (shall, verb) = (part.as_str() == "shall", span_at(&part, self.offset)),
                Rule::condition => {
                    let place = span_at(&part, self.offset);
                    let length = part.as_str().trim_end().len();
                    places.push(Span::new(place.start as usize, place.start as usize + length));
                    match self.condition(part) {
                        Ok(expr) => conditions.push(expr),
                        Err(finding) => return Some(Err(finding)),
                    }
                }
                _ => {}
            }
        }
        let (requirement, asks) = (conditions.pop()?, places.pop()?);
        let (condition, narrows) = (conditions.pop(), places.pop());
        Some(Ok(ClauseTree { kind: kind?, condition, shall, verb, requirement, narrows, asks, span }))
    }

    fn name(&self, pair: &Pair<'_, Rule>) -> Name {
        let words = pair.as_str().split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
        Name { words, span: span_at(pair, self.offset) }
    }

    fn condition(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        self.joined(pair, Rule::conjunction, Expr::Or, |part| {
            self.joined(part, Rule::negation, Expr::And, |part| self.negation(part))
        })
    }

    fn joined(
        &self,
        pair: Pair<'_, Rule>,
        wanted: Rule,
        join: fn(Vec<Expr>) -> Expr,
        read: impl Fn(Pair<'_, Rule>) -> Read<Expr>,
    ) -> Read<Expr> {
        let mut terms =
            pair.into_inner().filter(|part| part.as_rule() == wanted).map(read).collect::<Read<Vec<_>>>()?;
        Ok(match (terms.pop(), terms.is_empty()) {
            (Some(only), true) => only,
            (last, _) => {
                terms.extend(last);
                join(terms)
            }
        })
    }

    fn negation(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        let mut not = false;
        let mut read = None;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::not_ => not = true,
                _ => read = Some(self.comparison(part)?),
            }
        }
        let inner = self.some(read)?;
        Ok(if not { Expr::Not(Box::new(inner)) } else { inner })
    }

    fn comparison(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        let (mut first, mut rest, mut relation) = (None, Vec::new(), None);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::relation => relation = Some(Relation::of(part.as_str())),
                Rule::membership => {
                    let not = part.clone().into_inner().any(|word| word.as_rule() == Rule::not_);
                    let names = part.into_inner().filter(|word| word.as_rule() == Rule::choice);
                    let names = names.map(|word| self.name(&word)).collect();
                    return Ok(Expr::Is(Box::new(self.some(first)?), not, names));
                }
                _ => {
                    let sum = self.sum(part)?;
                    match (&first, relation.take()) {
                        (Some(_), Some(relation)) => rest.push((relation, sum)),
                        _ => first = Some(sum),
                    }
                }
            }
        }
        let first = self.some(first)?;
        Ok(if rest.is_empty() { first } else { Expr::Chain(Box::new(first), rest) })
    }

    fn sum(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        self.folded(pair, Rule::minus, Expr::Sum, |part| {
            self.folded(part, Rule::divided, Expr::Product, |part| self.factor(part))
        })
    }

    fn folded(
        &self,
        pair: Pair<'_, Rule>,
        inverse: Rule,
        join: fn(Box<Expr>, bool, Box<Expr>, Span) -> Expr,
        read: impl Fn(Pair<'_, Rule>) -> Read<Expr>,
    ) -> Read<Expr> {
        let (mut left, mut turned): (Option<Expr>, bool) = (None, false);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::plus | Rule::times => turned = false,
                rule if rule == inverse => turned = true,
                _ => {
                    let right = read(part)?;
                    left = Some(match left.take() {
                        Some(before) => {
                            let span = before.span().to(right.span());
                            self.joined.set(self.joined.get() + 1);
                            if self.joined.get() > MOST_JOINED {
                                let problem = ClauseProblem::TooManySigns { most: MOST_JOINED };
                                return self.refuse(right.span(), problem);
                            }
                            join(Box::new(before), turned, Box::new(right), span)
                        }
                        None => right,
                    });
                }
            }
        }
        self.some(left)
    }

    fn factor(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        let (mut negative, mut read) = (false, None);
        for part in pair.into_inner() {
            let span = span_at(&part, self.offset);
            match part.as_rule() {
                Rule::negative => negative = true,
                Rule::group => read = Some(self.condition(self.some(part.into_inner().next())?)?),
                Rule::aggregate => read = Some(self.aggregate(part, span)?),
                Rule::pick => read = Some(self.pick(part, span)?),
                Rule::slope => read = Some(self.slope(part)?),
                _ => {
                    let (mut first, mut names, mut place) = (None, Vec::new(), None);
                    for part in part.into_inner() {
                        match part.as_rule() {
                            Rule::name if first.is_none() => first = Some(self.name(&part)),
                            Rule::name => names.push(self.name(&part)),
                            Rule::figure => place = Some(self.figure(part)?),
                            _ => {}
                        }
                    }
                    let name = self.some(first)?;
                    read = Some(Expr::Reference(Asked { name, place }, names));
                }
            }
        }
        let inner = self.some(read)?;
        Ok(if negative { Expr::Negative(Box::new(inner)) } else { inner })
    }

    /// A figure, or two that make a slope.
    fn slope(&self, pair: Pair<'_, Rule>) -> Read<Expr> {
        let figures = pair.into_inner().filter(|part| part.as_rule() == Rule::figure);
        let figures = figures.map(|part| self.figure(part)).collect::<Read<Vec<_>>>()?;
        match figures.as_slice() {
            [(rise, from), (run, to)] => {
                let span = from.to(*to);
                if let Some((measure, span)) =
                    figures.iter().find(|(measure, _)| measure.dimension != Dimension::LENGTH)
                {
                    let problem = ClauseProblem::SlopeOfNoLength { dimension: measure.dimension };
                    return self.refuse(*span, problem);
                }
                self.measure(slope(rise, run), span).map(|measure| Expr::Figure(measure, span))
            }
            [(measure, span), ..] => Ok(Expr::Figure(*measure, *span)),
            [] => self.some(None),
        }
    }

    fn figure(&self, pair: Pair<'_, Rule>) -> Read<(Measure, Span)> {
        let span = span_at(&pair, self.offset);
        Ok((self.measure(figure_in_clause(pair, self.offset).kind, span)?, span))
    }

    fn measure(&self, kind: TermKind, span: Span) -> Read<Measure> {
        match kind {
            TermKind::Figure(measure) => Ok(measure),
            TermKind::Impossible(why) => self.refuse(span, ClauseProblem::Impossible(why)),
            _ => self.refuse(span, ClauseProblem::NotAFigure),
        }
    }

    fn aggregate(&self, pair: Pair<'_, Rule>, span: Span) -> Read<Expr> {
        let (mut over, mut name, mut place, mut collection) = (None, None, None, None);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::change_of => over = Some(Aggregate::Change),
                Rule::over => {
                    over = Some(match part.as_str() {
                        "largest" => Aggregate::Largest,
                        "smallest" => Aggregate::Smallest,
                        _ => Aggregate::Total,
                    });
                }
                Rule::name => name = Some(self.name(&part)),
                Rule::figure => place = Some(self.figure(part)?),
                Rule::collection => collection = Some(self.collection(part)?),
                _ => {}
            }
        }
        let collection = self.some(collection)?;
        Ok(match (over, name) {
            (Some(over), Some(name)) => Expr::Over(over, Asked { name, place }, collection, span),
            _ => Expr::Count(collection, span),
        })
    }

    fn collection(&self, pair: Pair<'_, Rule>) -> Read<Collection> {
        let (mut kind, mut condition) = (None, None);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::name => kind = Some(self.name(&part)),
                Rule::condition => condition = Some(Box::new(self.condition(part)?)),
                _ => {}
            }
        }
        Ok(Collection { kind: self.some(kind)?, condition })
    }

    fn pick(&self, pair: Pair<'_, Rule>, span: Span) -> Read<Expr> {
        let greater = pair.as_str().starts_with("greater");
        let mut sums = pair.into_inner().filter(|part| part.as_rule() == Rule::sum);
        let (a, b) = (self.some(sums.next())?, self.some(sums.next())?);
        Ok(Expr::Pick(greater, Box::new(self.sum(a)?), Box::new(self.sum(b)?), span))
    }

    /// The grammar promises these parts; should it ever break its promise, the clause is unread, not a panic.
    fn some<T>(&self, part: Option<T>) -> Read<T> {
        let place = Span::new(self.offset as usize, self.offset as usize);
        part.map_or_else(|| self.refuse(place, ClauseProblem::Unreadable), Ok)
    }

    fn refuse<T>(&self, place: Span, problem: ClauseProblem) -> Read<T> {
        Err(Box::new(Diagnostic::new(self.source, place, problem)))
    }
}
