//! One clause of a rule: text to expression tree, names not yet looked up.

use super::events::{self, Events};
use super::figure::{figure, slope};
use super::grammar::Rule;
use super::plain;
use super::problem::{ClauseProblem, Problem, Reading};
use super::relation::Relation;
use super::tree::TermKind;
use super::verb;
use crate::base::{Diagnostic, Source, Span};
use crate::measure::{Dimension, Measure};

/// `each KIND [where CONDITION] [unless CONDITION] shall|should have REQUIREMENT [unless CONDITION]`.
#[derive(Debug, Clone, PartialEq)]
pub struct ClauseTree {
    /// The kind held.
    pub kind: Name,
    /// What narrows it.
    pub condition: Option<Expr>,
    /// What it spares.
    pub unless: Vec<Expr>,
    /// `shall`, not `should`.
    pub shall: bool,
    /// Where the verb stands.
    pub verb: Span,
    /// What is asked.
    pub requirement: Expr,
    /// The words of what narrows it, parentheses and `not` among them.
    pub narrows: Option<Span>,
    /// The words of what it spares.
    pub spares: Vec<Span>,
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
    pub place: Option<AskedAt>,
}

/// A place that stands behind a name.
#[derive(Debug, Clone, PartialEq)]
pub enum AskedAt {
    /// A figure.
    Figure(Measure, Span),
    /// A value in parentheses, worked out for the thing that the clause is about.
    Worked(Box<Expr>, Span),
}

impl AskedAt {
    /// Where it stands.
    pub fn span(&self) -> Span {
        match self {
            AskedAt::Figure(_, span) | AskedAt::Worked(_, span) => *span,
        }
    }
}

impl Asked {
    /// Where it stands.
    pub fn span(&self) -> Span {
        self.place.as_ref().map_or(self.name.span, |place| self.name.span.to(place.span()))
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
    /// `largest increase of X along`: from one to the next above it
    Increase,
    /// `largest decrease of X along`
    Decrease,
}

impl Aggregate {
    /// Whether it asks of neighbours: what it sums up stands in a row.
    pub fn is_along(self) -> bool {
        matches!(self, Aggregate::Change | Aggregate::Increase | Aggregate::Decrease)
    }
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
    let events = events::read(source.slice(span), Rule::clause)
        .map_err(|at| verb::lacking(source, span).unwrap_or_else(|| stopped(source, span, at, Reading::Clause)))?;
    let clause = Reader { source, offset: span.start, joined: 0, events }.clause(span);
    clause.ok_or_else(|| stopped(source, span, 0, Reading::Clause))?
}

/// Reads a condition that stands alone, as an amendment states it.
///
/// # Errors
/// Why it cannot be read, at the place where reading stopped.
#[cfg(feature = "cli")]
pub fn parse_condition(source: &Source, span: Span) -> Read<Expr> {
    parse_lone_condition(source, span).map(|read| read.condition)
}

/// Reads a condition that stands alone, with what it spares.
///
/// # Errors
/// Why it cannot be read, at the place where reading stopped.
pub fn parse_lone_condition(source: &Source, span: Span) -> Read<LoneCondition> {
    let refused = |at| stopped(source, span, at, Reading::Condition);
    let events = events::read(source.slice(span), Rule::lone_condition).map_err(refused)?;
    let mut reader = Reader { source, offset: span.start, joined: 0, events };
    let mut read = Vec::with_capacity(1);
    reader.events.begin();
    while let Some((rule, start)) = reader.events.begin() {
        if rule == Rule::condition {
            let condition = reader.condition()?;
            read.push((condition, reader.trimmed(start)));
        } else {
            reader.events.end();
        }
    }
    let mut read = read.into_iter();
    let (condition, narrows) = read.next().ok_or_else(|| refused(0))?;
    Ok(LoneCondition { condition, narrows, unless: read.next() })
}

/// A condition that stands alone, and what it spares behind `unless`.
#[derive(Debug, Clone, PartialEq)]
pub struct LoneCondition {
    /// The condition.
    pub condition: Expr,
    /// Its words.
    pub narrows: Span,
    /// What it spares, and the words of that.
    pub unless: Option<(Expr, Span)>,
}

/// Reads a value that stands alone.
///
/// # Errors
/// Why it cannot be read, at the place where reading stopped.
pub fn parse_value(source: &Source, span: Span) -> Read<Expr> {
    let refused = |at| stopped(source, span, at, Reading::Value);
    let events = events::read(source.slice(span), Rule::lone_value).map_err(refused)?;
    let mut reader = Reader { source, offset: span.start, joined: 0, events };
    reader.events.begin();
    while let Some((rule, _)) = reader.events.begin() {
        if rule == Rule::sum {
            return reader.sum();
        }
        reader.events.end();
    }
    Err(refused(0))
}

/// Whether words can be named in a clause: none of them is a word of the language.
pub fn is_name(words: &str) -> bool {
    events::read(words, Rule::name).is_ok_and(|mut events| {
        let start = events.begin().map_or(0, |(_, start)| start);
        events.end();
        events.since(start) == words
    })
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

/// Reads what is open, rule by rule; each function closes the one that is open when it is called.
struct Reader<'a> {
    source: &'a Source,
    /// Where the text of the events begins in its source.
    offset: u32,
    /// How many signs have joined terms so far.
    joined: usize,
    events: Events<'a>,
}

impl Reader<'_> {
    /// The clause, if its text holds one: the whole of the events.
    fn clause(mut self, span: Span) -> Option<Read<ClauseTree>> {
        let (mut kind, mut shall, mut verb) = (None, true, span);
        let (mut condition, mut requirement, mut unless) = (None, None, Vec::new());
        // The word that says what the next condition is.
        let mut word = Rule::have;
        self.events.begin();
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::name => kind = Some(self.name(start)),
                Rule::verb => {
                    verb = self.place(start);
                    shall = self.events.since(start) == "shall";
                }
                Rule::where_ | Rule::unless | Rule::have => {
                    word = rule;
                    self.events.end();
                }
                Rule::condition => {
                    let read = match self.condition() {
                        Ok(expr) => expr,
                        Err(finding) => return Some(Err(finding)),
                    };
                    let read = (read, self.trimmed(start));
                    match word {
                        Rule::where_ => condition = Some(read),
                        Rule::unless => unless.push(read),
                        _ => requirement = Some(read),
                    }
                }
                _ => {
                    self.events.end();
                }
            }
        }
        let (requirement, asks) = requirement?;
        let (condition, narrows) = condition.unzip();
        let (unless, spares) = unless.into_iter().unzip();
        Some(Ok(ClauseTree { kind: kind?, condition, unless, shall, verb, requirement, narrows, spares, asks, span }))
    }

    /// The place of the rule that was closed last and began at `start`, without the blanks at its end.
    fn trimmed(&self, start: usize) -> Span {
        let (from, length) = (self.offset as usize + start, self.events.since(start).trim_end().len());
        Span::new(from, from + length)
    }

    /// The place of the rule that is open and began at `start`; closes it.
    fn place(&mut self, start: usize) -> Span {
        let end = self.events.end();
        Span::new(self.offset as usize + start, self.offset as usize + end)
    }

    fn name(&mut self, start: usize) -> Name {
        let span = self.place(start);
        let said = self.events.since(start);
        // As most are written.
        if said.bytes().all(|byte| matches!(byte, b'a'..=b'z' | b' ' | b'-')) && !said.contains("  ") {
            return Name { words: said.to_owned(), span };
        }
        let mut words = String::with_capacity(said.len());
        for word in said.split_whitespace() {
            if !words.is_empty() {
                words.push(' ');
            }
            words.push_str(word);
        }
        let plain = words.bytes().all(|byte| byte.is_ascii() && !byte.is_ascii_uppercase());
        Name { words: if plain { words } else { words.to_lowercase() }, span }
    }

    fn condition(&mut self) -> Read<Expr> {
        self.joined(Rule::conjunction, Expr::Or, |reader| reader.joined(Rule::negation, Expr::And, Self::negation))
    }

    fn joined(
        &mut self,
        wanted: Rule,
        join: fn(Vec<Expr>) -> Expr,
        read: impl Fn(&mut Self) -> Read<Expr>,
    ) -> Read<Expr> {
        let (mut first, mut more) = (None, Vec::new());
        while let Some((rule, _)) = self.events.begin() {
            if rule != wanted {
                self.events.end();
                continue;
            }
            let term = read(self)?;
            match first.take() {
                None if more.is_empty() => first = Some(term),
                before => {
                    more.extend(before);
                    more.push(term);
                }
            }
        }
        Ok(first.unwrap_or_else(|| join(more)))
    }

    fn negation(&mut self) -> Read<Expr> {
        let mut not = false;
        let mut read = None;
        while let Some((rule, _)) = self.events.begin() {
            if rule == Rule::not_ {
                not = true;
                self.events.end();
            } else {
                read = Some(self.comparison()?);
            }
        }
        let inner = self.some(read)?;
        Ok(if not { Expr::Not(Box::new(inner)) } else { inner })
    }

    fn comparison(&mut self) -> Read<Expr> {
        let (mut first, mut rest, mut relation, mut among) = (None, Vec::new(), None, None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::relation => {
                    self.events.end();
                    relation = Some(Relation::of(self.events.since(start)));
                }
                Rule::membership => among = Some(self.membership()),
                _ => {
                    let sum = self.sum()?;
                    match (&first, relation.take()) {
                        (Some(_), Some(relation)) => rest.push((relation, sum)),
                        _ => first = Some(sum),
                    }
                }
            }
        }
        let first = self.some(first)?;
        if let Some((not, names)) = among {
            return Ok(Expr::Is(Box::new(first), not, names));
        }
        Ok(if rest.is_empty() { first } else { Expr::Chain(Box::new(first), rest) })
    }

    /// Whether `not` stands among them, and the words of a choice.
    fn membership(&mut self) -> (bool, Vec<Name>) {
        let (mut not, mut names) = (false, Vec::new());
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::choice => names.push(self.name(start)),
                _ => {
                    not |= rule == Rule::not_;
                    self.events.end();
                }
            }
        }
        (not, names)
    }

    fn sum(&mut self) -> Read<Expr> {
        self.folded(Rule::minus, Expr::Sum, |reader| reader.folded(Rule::divided, Expr::Product, Self::factor))
    }

    fn folded(
        &mut self,
        inverse: Rule,
        join: fn(Box<Expr>, bool, Box<Expr>, Span) -> Expr,
        read: impl Fn(&mut Self) -> Read<Expr>,
    ) -> Read<Expr> {
        let (mut left, mut turned): (Option<Expr>, bool) = (None, false);
        while let Some((rule, _)) = self.events.begin() {
            if matches!(rule, Rule::plus | Rule::times) || rule == inverse {
                turned = rule == inverse;
                self.events.end();
                continue;
            }
            let right = read(self)?;
            left = Some(match left.take() {
                Some(before) => {
                    let span = before.span().to(right.span());
                    self.joined += 1;
                    if self.joined > MOST_JOINED {
                        let problem = ClauseProblem::TooManySigns { most: MOST_JOINED };
                        return self.refuse(right.span(), problem);
                    }
                    join(Box::new(before), turned, Box::new(right), span)
                }
                None => right,
            });
        }
        self.some(left)
    }

    fn factor(&mut self) -> Read<Expr> {
        let (mut negative, mut read) = (false, None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::negative => {
                    negative = true;
                    self.events.end();
                }
                Rule::group => read = Some(self.group()?),
                Rule::aggregate => read = Some(self.aggregate(start)?),
                Rule::pick => read = Some(self.pick(start)?),
                Rule::slope => read = Some(self.slope()?),
                _ => read = Some(self.reference()?),
            }
        }
        let inner = self.some(read)?;
        Ok(if negative { Expr::Negative(Box::new(inner)) } else { inner })
    }

    fn group(&mut self) -> Read<Expr> {
        let mut read = None;
        while self.events.begin().is_some() {
            read = Some(self.condition()?);
        }
        self.some(read)
    }

    fn reference(&mut self) -> Read<Expr> {
        let (mut first, mut names, mut place) = (None, Vec::new(), None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::name if first.is_none() => first = Some(self.name(start)),
                Rule::name => names.push(self.name(start)),
                Rule::figure => place = Some(self.figure(start).map(|(figure, span)| AskedAt::Figure(figure, span))?),
                Rule::place => place = Some(self.place_worked_out(start)?),
                _ => {
                    self.events.end();
                }
            }
        }
        let name = self.some(first)?;
        Ok(Expr::Reference(Asked { name, place }, names))
    }

    /// A place in parentheses.
    fn place_worked_out(&mut self, at: usize) -> Read<AskedAt> {
        let mut read = None;
        while self.events.begin().is_some() {
            read = Some(self.sum()?);
        }
        let worked = self.some(read)?;
        Ok(AskedAt::Worked(Box::new(worked), self.since(at)))
    }

    /// A figure, or two that make a slope.
    fn slope(&mut self) -> Read<Expr> {
        let mut figures = Vec::with_capacity(1);
        while let Some((rule, start)) = self.events.begin() {
            if rule == Rule::figure {
                figures.push(self.figure(start)?);
            } else {
                self.events.end();
            }
        }
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

    fn figure(&mut self, start: usize) -> Read<(Measure, Span)> {
        let kind = figure(&mut self.events, start);
        let from = self.offset as usize + start;
        let span = Span::new(from, from + self.events.since(start).len());
        Ok((self.measure(kind, span)?, span))
    }

    fn measure(&self, kind: TermKind, span: Span) -> Read<Measure> {
        match kind {
            TermKind::Figure(measure) => Ok(measure),
            TermKind::Impossible(why) => self.refuse(span, ClauseProblem::Impossible(why)),
            _ => self.refuse(span, ClauseProblem::NotAFigure),
        }
    }

    fn aggregate(&mut self, at: usize) -> Read<Expr> {
        let (mut over, mut name, mut place, mut collection) = (None, None, None, None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::name => name = Some(self.name(start)),
                Rule::figure => place = Some(self.figure(start).map(|(figure, span)| AskedAt::Figure(figure, span))?),
                Rule::place => place = Some(self.place_worked_out(start)?),
                Rule::collection => collection = Some(self.collection()?),
                _ => {
                    self.events.end();
                    over = match (rule, self.events.since(start)) {
                        (Rule::change_of, words) if words.contains("increase") => Some(Aggregate::Increase),
                        (Rule::change_of, words) if words.contains("decrease") => Some(Aggregate::Decrease),
                        (Rule::change_of, _) => Some(Aggregate::Change),
                        (Rule::over, "largest") => Some(Aggregate::Largest),
                        (Rule::over, "smallest") => Some(Aggregate::Smallest),
                        (Rule::over, _) => Some(Aggregate::Total),
                        _ => over,
                    };
                }
            }
        }
        let span = self.since(at);
        let collection = self.some(collection)?;
        Ok(match (over, name) {
            (Some(over), Some(name)) => Expr::Over(over, Asked { name, place }, collection, span),
            _ => Expr::Count(collection, span),
        })
    }

    fn collection(&mut self) -> Read<Collection> {
        let (mut kind, mut condition) = (None, None);
        while let Some((rule, start)) = self.events.begin() {
            match rule {
                Rule::name => kind = Some(self.name(start)),
                Rule::condition => condition = Some(Box::new(self.condition()?)),
                _ => {
                    self.events.end();
                }
            }
        }
        Ok(Collection { kind: self.some(kind)?, condition })
    }

    fn pick(&mut self, at: usize) -> Read<Expr> {
        let mut sums = Vec::with_capacity(2);
        while let Some((rule, _)) = self.events.begin() {
            if rule == Rule::sum {
                sums.push(self.sum()?);
            } else {
                self.events.end();
            }
        }
        let greater = self.events.since(at).starts_with("greater");
        let (b, a) = (sums.pop(), sums.pop());
        Ok(Expr::Pick(greater, Box::new(self.some(a)?), Box::new(self.some(b)?), self.since(at)))
    }

    /// The place of the rule that was closed last and began at `start`.
    fn since(&self, start: usize) -> Span {
        let from = self.offset as usize + start;
        Span::new(from, from + self.events.since(start).len())
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
