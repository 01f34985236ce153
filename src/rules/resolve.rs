//! Names and dimensions of a clause, checked against the vocabulary and the catalogue before any design is.

use super::node::{Collected, Node, Place, What};
use super::problem::{ClauseProblem, Counting, Problem, QuantityMeant};
use super::rule::Limit;
use crate::base::names::nearest;
use crate::base::{Reporter, Span};
use crate::derive::{Gives, Quantity, quantities, quantity};
use crate::measure::Dimension;
use crate::model::{KINDS, Kind, Takes, kinds};
use crate::syntax::{self, Asked, ClauseTree, Collection, Expr, Name, Relation};

/// A clause with its names looked up.
pub(super) struct Resolved {
    pub kind: &'static Kind,
    pub condition: Option<Node>,
    pub requirement: Node,
    /// Which of the limits it reads.
    pub used: Vec<bool>,
}

/// Kinds of which no design holds one, for their statements are laid over other things: a rule of them would hold
/// nothing.
const NEVER_DRAWN: [&Kind; 2] = [kinds::MEASURED, kinds::WAIVER];

/// Type of an expression.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Type {
    Truth,
    Number(Dimension),
    Word(&'static [&'static str]),
}

/// Looks up every name of a clause; reports the words that name nothing or do not fit together.
pub(super) fn clause(tree: &ClauseTree, limits: &[Limit], report: &mut Reporter<'_, Problem>) -> Option<Resolved> {
    let mut resolver = Resolver { report, limits, used: vec![false; limits.len()] };
    let kind = resolver.kind(&tree.kind)?;
    let condition = tree.condition.as_ref().map(|condition| resolver.truth(condition, kind));
    let requirement = resolver.truth(&tree.requirement, kind);
    let used = std::mem::take(&mut resolver.used);
    let condition = match condition {
        Some(None) => return None,
        Some(Some(node)) => Some(node),
        None => None,
    };
    Some(Resolved { kind, condition, requirement: requirement?, used })
}

/// Looks up the names of a condition that stands alone; it speaks of things of this kind. Also which limits it reads.
pub(super) fn condition(
    tree: &Expr,
    kind: &'static Kind,
    limits: &[Limit],
    report: &mut Reporter<'_, Problem>,
) -> Option<(Node, Vec<bool>)> {
    let mut resolver = Resolver { report, limits, used: vec![false; limits.len()] };
    let node = resolver.truth(tree, kind)?;
    Some((node, resolver.used))
}

/// Whether a name means something of a kind by itself, so that a limit of that name would hide it.
pub(super) fn known(name: &str, kind: &Kind) -> bool {
    quantity(kind, name).is_some() || kind.property(name).is_some()
}

struct Resolver<'r, 'a> {
    report: &'r mut Reporter<'a, Problem>,
    limits: &'r [Limit],
    used: Vec<bool>,
}

impl Resolver<'_, '_> {
    /// Reports a problem at a place; what it is found in cannot be resolved.
    fn refuse<T>(&mut self, span: Span, problem: ClauseProblem) -> Option<T> {
        self.report.push(span, problem);
        None
    }

    fn kind(&mut self, name: &Name) -> Option<&'static Kind> {
        let found = KINDS.iter().find(|kind| kind.name == name.words || kind.plural == name.words);
        if found.is_none() {
            let near = nearest(&name.words, KINDS.iter().flat_map(|kind| [kind.name, kind.plural]));
            self.report.push(name.span, ClauseProblem::UnknownKind { words: name.words.clone(), near });
        }
        match found {
            Some(kind) if NEVER_DRAWN.contains(&kind) => self.refuse(name.span, ClauseProblem::NeverDrawn { kind }),
            found => found,
        }
    }

    /// A condition. Terms joined by `and` and `or` are all looked at, so that each slip is reported.
    fn truth(&mut self, expr: &Expr, kind: &'static Kind) -> Option<Node> {
        match self.node(expr, kind)? {
            (node, Type::Truth) => Some(node),
            _ => self.refuse(expr.span(), ClauseProblem::ValueForCondition),
        }
    }

    fn number(&mut self, expr: &Expr, kind: &'static Kind) -> Option<(Node, Dimension)> {
        match self.node(expr, kind)? {
            (node, Type::Number(dimension)) => Some((node, dimension)),
            (_, Type::Truth) => self.refuse(expr.span(), ClauseProblem::ConditionForNumber),
            (_, Type::Word(_)) => self.refuse(expr.span(), ClauseProblem::WordForNumber),
        }
    }

    fn node(&mut self, expr: &Expr, kind: &'static Kind) -> Option<(Node, Type)> {
        match expr {
            Expr::Or(terms) if self.a_choice_in_words(terms, kind) => None,
            Expr::Or(terms) => Some((Node::Any(self.truths(terms, kind)?), Type::Truth)),
            Expr::And(terms) => Some((Node::All(self.truths(terms, kind)?), Type::Truth)),
            Expr::Not(inner) => Some((Node::Not(Box::new(self.truth(inner, kind)?)), Type::Truth)),
            Expr::Chain(first, rest) => self.chain(first, rest, kind),
            Expr::Is(subject, not, words) => self.is(subject, *not, words, kind),
            Expr::Sum(a, minus, b, _) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                self.alike((a, of), (b, and))?;
                Some((Node::Sum(Box::new(left), *minus, Box::new(right)), Type::Number(of)))
            }
            Expr::Product(a, over, b, _) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                let dimension = if *over { of.over(and) } else { of.times(and) };
                Some((Node::Product(Box::new(left), *over, Box::new(right)), Type::Number(dimension)))
            }
            Expr::Pick(greater, a, b, _) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                self.alike((a, of), (b, and))?;
                Some((Node::Pick(*greater, Box::new(left), Box::new(right)), Type::Number(of)))
            }
            Expr::Negative(inner) => {
                let (node, dimension) = self.number(inner, kind)?;
                Some((Node::Negative(Box::new(node)), Type::Number(dimension)))
            }
            Expr::Figure(measure, _) => Some((Node::Figure(*measure), Type::Number(measure.dimension))),
            Expr::Count(collection, _) => {
                Some((Node::Count(self.collected(collection)?), Type::Number(Dimension::NUMBER)))
            }
            Expr::Over(aggregate, asked, collection, _) => {
                let collected = self.collected(collection)?;
                let (what, of) = self.asked(asked, collected.kind)?;
                let Type::Number(dimension) = of else {
                    return self.refuse(asked.span(), ClauseProblem::WordSummed { name: asked.name.words.clone() });
                };
                Some((Node::Over(*aggregate, what, collected), Type::Number(dimension)))
            }
            Expr::Reference(asked, of) => self.reference(asked, of, kind),
        }
    }

    /// Whether an `or` stands where English has one and a clause has none: among the words of a choice, or in
    /// `3 or more risers`. It is reported.
    fn a_choice_in_words(&mut self, terms: &[Expr], kind: &'static Kind) -> bool {
        for pair in terms.windows(2) {
            let [before, Expr::Reference(asked, of)] = pair else { continue };
            if !of.is_empty() || asked.place.is_some() {
                continue;
            }
            let said = asked.name.words.as_str();
            let last = if let Expr::And(all) = before { all.last().unwrap_or(before) } else { before };
            if let Expr::Figure(_, figure) = last
                && let Some((counted, sign)) = more_or_fewer(said)
            {
                let (said, counted, figure) = (said.to_owned(), counted.to_owned(), *figure);
                let problem = ClauseProblem::FigureOrMore { figure, said, counted, sign };
                self.report.push(last.span().to(asked.span()), problem);
                return true;
            }
            let Expr::Is(subject, _, words) = last else { continue };
            if self.words_of(subject, kind).is_some_and(|known| known.contains(&said)) {
                let choice = words.iter().map(|word| word.words.clone()).chain([said.to_owned()]).collect();
                let (said, subject) = (said.to_owned(), subject.span());
                self.report.push(asked.span(), ClauseProblem::WordAfterOr { said, subject, choice });
                return true;
            }
        }
        false
    }

    /// The words that an expression can be, where it is one. Nothing is reported of it, and no limit counts as read.
    fn words_of(&self, expr: &Expr, kind: &'static Kind) -> Option<&'static [&'static str]> {
        let mut report = Reporter { source: self.report.source, found: &mut Vec::new() };
        let mut aside = Resolver { report: &mut report, limits: self.limits, used: vec![false; self.limits.len()] };
        match aside.node(expr, kind)? {
            (_, Type::Word(known)) => Some(known),
            _ => None,
        }
    }

    fn truths(&mut self, terms: &[Expr], kind: &'static Kind) -> Option<Vec<Node>> {
        let mut read: Vec<Option<Node>> = Vec::with_capacity(terms.len());
        for term in terms {
            // A value that is left over from a slip before it is not reported as a slip of its own.
            let left_over = matches!(read.last(), Some(None)) && matches!(term, Expr::Figure(..) | Expr::Reference(..));
            read.push(match self.node(term, kind) {
                Some((node, Type::Truth)) => Some(node),
                Some(_) if !left_over => self.refuse(term.span(), ClauseProblem::ValueForCondition),
                _ => None,
            });
        }
        read.into_iter().collect()
    }

    fn chain(&mut self, first: &Expr, rest: &[(Relation, Expr)], kind: &'static Kind) -> Option<(Node, Type)> {
        let terms: Vec<&Expr> = std::iter::once(first).chain(rest.iter().map(|(_, term)| term)).collect();
        // One slip spoils one comparison; what stands beside it is not told as another.
        let read: Vec<(Node, Dimension)> = terms.iter().map_while(|term| self.number(term, kind)).collect();
        if read.len() < terms.len() {
            return None;
        }
        let mut nodes: Vec<(Node, Span)> = Vec::new();
        let mut before: Option<(&Expr, Dimension)> = None;
        for (term, (node, dimension)) in terms.iter().zip(read) {
            if let Some(before) = before {
                self.alike(before, (term, dimension))?;
            }
            before = Some((term, dimension));
            nodes.push((node, term.span()));
        }
        Some((Node::Chain(nodes, rest.iter().map(|(relation, _)| *relation).collect()), Type::Truth))
    }

    /// Whether two values can be compared or added; nothing if they cannot, which is reported.
    fn alike(&mut self, (left, a): (&Expr, Dimension), (right, b): (&Expr, Dimension)) -> Option<()> {
        if a == b {
            return Some(());
        }
        let sides = [(left, b), (right, a)];
        let uncounted = sides.into_iter().filter(|(_, other)| *other == Dimension::NUMBER);
        let counting = match uncounted.filter_map(|(side, _)| things(side)).next() {
            Some(things) => Some(Counting::Uncounted(things.to_owned())),
            None => sides
                .iter()
                .any(|(side, other)| begins_with_a_count(side) && *other != Dimension::NUMBER)
                .then_some(Counting::WithUnit),
        };
        let problem = ClauseProblem::MixedDimensions { left: (left.span(), a), right: b, counting };
        self.refuse(right.span(), problem)
    }

    fn is(&mut self, subject: &Expr, not: bool, words: &[Name], kind: &'static Kind) -> Option<(Node, Type)> {
        let (node, of) = self.node(subject, kind)?;
        let span = words.iter().fold(subject.span(), |span, word| span.to(word.span));
        let Type::Word(known) = of else { return self.refuse(subject.span(), ClauseProblem::NotAWord) };
        for word in words {
            if !known.is_empty() && !known.contains(&word.words.as_str()) {
                let near = nearest(&word.words, known.iter().copied());
                let (subject, said) = (subject.span(), word.words.clone());
                let problem = ClauseProblem::NeverThisWord { subject, word: said, known, near };
                return self.refuse(word.span, problem);
            }
        }
        let words = words.iter().map(|word| word.words.clone()).collect();
        Some((Node::Is(Box::new(node), not, words, span), Type::Truth))
    }

    fn collected(&mut self, collection: &Collection) -> Option<Collected> {
        let kind = self.kind(&collection.kind)?;
        let condition = match &collection.condition {
            Some(condition) => Some(Box::new(self.truth(condition, kind)?)),
            None => None,
        };
        Some(Collected { kind, condition })
    }

    fn reference(&mut self, asked: &Asked, of: &[Name], kind: &'static Kind) -> Option<(Node, Type)> {
        if of.is_empty()
            && asked.place.is_none()
            && let Some(at) = self.limit(&asked.name.words)
        {
            let dimension = self.limits.get(at)?.measure.dimension;
            return Some((Node::Limit(at), Type::Number(dimension)));
        }
        let pick = match asked.name.words.as_str() {
            "the lesser" | "the smaller" | "smaller" | "minimum" | "the minimum" => Some("lesser"),
            "the greater" | "the larger" | "larger" | "maximum" | "the maximum" => Some("greater"),
            _ => None,
        };
        if let Some(pick) = pick.filter(|_| !of.is_empty()) {
            let words = asked.name.words.clone();
            return self.refuse(asked.name.span, ClauseProblem::PickAsQuantity { words, pick });
        }
        let mut path = Vec::new();
        for step in of.iter().rev() {
            path.push(self.kind(step)?);
        }
        let at = path.last().copied().unwrap_or(kind);
        let (what, of) = self.asked(asked, at)?;
        Some((Node::Read(what, path), of))
    }

    /// A limit by its name; from then on it counts as read.
    fn limit(&mut self, name: &str) -> Option<usize> {
        let at = self.limits.iter().position(|limit| limit.name == name)?;
        if let Some(used) = self.used.get_mut(at) {
            *used = true;
        }
        Some(at)
    }

    /// A quantity or property, asked at a place where its name ends in the word for one.
    fn asked(&mut self, asked: &Asked, kind: &'static Kind) -> Option<(What, Type)> {
        let words = asked.name.words.as_str();
        let at_a_place = |name: &str| quantity(kind, name).filter(|entry| entry.at_a_place());
        if let Some((measure, span)) = asked.place {
            let Some(entry) = at_a_place(words) else {
                let problem = not_at_a_place(words, span, kind);
                return self.refuse(asked.span(), problem);
            };
            return self.placed(entry, Place::Figure(measure), measure.dimension, span);
        }
        let split = words.match_indices(' ').find_map(|(at, _)| {
            let entry = at_a_place(words.get(..at)?)?;
            Some((entry, words.get(at + 1..)?))
        });
        if let Some((entry, place)) = split {
            let Some(at) = self.limit(place) else {
                let near = nearest(place, self.limits.iter().map(|limit| limit.name.as_str())).map(str::to_owned);
                let problem = ClauseProblem::PlaceIsNoLimit { place: place.to_owned(), quantity: entry, near };
                return self.refuse(asked.span(), problem);
            };
            let dimension = self.limits.get(at)?.measure.dimension;
            return self.placed(entry, Place::Limit(at), dimension, asked.span());
        }
        if let Some(entry) = at_a_place(words) {
            return self.refuse(asked.span(), ClauseProblem::NeedsAPlace { quantity: entry });
        }
        self.what(&asked.name, kind)
    }

    /// Places are lengths.
    fn placed(
        &mut self,
        entry: &'static Quantity,
        place: Place,
        dimension: Dimension,
        span: Span,
    ) -> Option<(What, Type)> {
        if dimension != Dimension::LENGTH {
            let bare = matches!(place, Place::Figure(_)) && dimension == Dimension::NUMBER;
            return self.refuse(span, ClauseProblem::PlaceIsNoLength { quantity: entry, dimension, bare });
        }
        Some((What::At(entry, place), given(entry)))
    }

    fn what(&mut self, name: &Name, kind: &'static Kind) -> Option<(What, Type)> {
        if let Some(entry) = quantity(kind, &name.words) {
            return Some((What::Quantity(entry), given(entry)));
        }
        if let Some(property) = kind.property(&name.words) {
            let of = match property.takes {
                Takes::Length | Takes::Lengths => Some(Type::Number(Dimension::LENGTH)),
                Takes::Angle => Some(Type::Number(Dimension::ANGLE)),
                Takes::Area => Some(Type::Number(Dimension::AREA)),
                Takes::Force => Some(Type::Number(Dimension::FORCE)),
                Takes::Pressure => Some(Type::Number(Dimension::PRESSURE)),
                Takes::Slope | Takes::Number | Takes::Count => Some(Type::Number(Dimension::NUMBER)),
                Takes::OneOf(words) => Some(Type::Word(words)),
                Takes::Edge => Some(Type::Word(&["square", "radius", "bevel"])),
                Takes::Words | Takes::Finish | Takes::Date => Some(Type::Word(&[])),
                _ => None,
            };
            if let Some(of) = of {
                return Some((What::Property(property), of));
            }
            let problem = ClauseProblem::NotComparable { name: name.words.clone(), kind };
            return self.refuse(name.span, problem);
        }
        let meant = self.meant(&name.words, kind);
        self.refuse(name.span, ClauseProblem::UnknownQuantity { name: name.words.clone(), kind, meant })
    }

    /// What was likely meant by a name that means nothing of a kind.
    fn meant(&self, words: &str, kind: &'static Kind) -> QuantityMeant {
        let mut names: Vec<&'static str> = Vec::new();
        let quantities = quantities().filter(|entry| entry.kind == kind).map(|entry| entry.name);
        for name in quantities.chain(kind.properties.iter().map(|property| property.name)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let near = || {
            let limits = self.limits.iter().map(|limit| limit.name.as_str());
            nearest(words, names.iter().copied().chain(limits)).map(|near| QuantityMeant::Near(near.to_owned()))
        };
        let others = || {
            let others: Vec<&'static Kind> = KINDS.iter().filter(|other| known(words, other)).collect();
            (!others.is_empty()).then_some(QuantityMeant::OfOthers(others))
        };
        let meant = self.in_other_words(words, kind).or_else(near).or_else(others);
        meant.unwrap_or(QuantityMeant::Unknown(names))
    }

    /// What is meant by a name that says more than one, or that belongs to what the thing stands in.
    fn in_other_words(&self, words: &str, kind: &Kind) -> Option<QuantityMeant> {
        let here = |name: &str| known(name, kind) || self.limits.iter().any(|limit| limit.name == name);
        if let Some((at, phrase, sign)) = syntax::sign_of(words) {
            let (left, right) = (words.get(..at)?.trim(), words.get(at + phrase.len()..)?.trim());
            return Some(QuantityMeant::Sign(left.to_owned(), sign, right.to_owned()));
        }
        for article in ["the", "its", "their", "a"] {
            let bare = words.strip_prefix(article).and_then(|rest| rest.strip_prefix(' '));
            if let Some(bare) = bare.filter(|bare| here(bare)) {
                return Some(QuantityMeant::Article(article, bare.to_owned()));
            }
        }
        let placed = quantities().find(|entry| {
            let at = entry.name.strip_prefix(words);
            entry.kind == kind && entry.at_a_place() && at.is_some_and(|at| at.starts_with(' '))
        });
        if let Some(entry) = placed {
            return Some(QuantityMeant::AtAPlace(entry));
        }
        let serves =
            |owner: &Kind| owner == kinds::STAIR || kind.within.contains(&owner.name) || kind.made_from.is_some();
        let owner = [kinds::STAIR, kinds::FLIGHT].into_iter().filter(|owner| *owner != kind && serves(owner));
        let mut owner = owner.filter(|owner| known(words, owner)).map(|owner| owner.name);
        owner.next().map(QuantityMeant::Of)
    }
}

/// What is wrong with a name that a figure follows, as if it were asked there.
fn not_at_a_place(words: &str, figure: Span, kind: &'static Kind) -> ClauseProblem {
    if let Some((at, phrase, sign)) = syntax::sign_of(words)
        && let Some(subject) = words.get(..at)
    {
        return ClauseProblem::PhraseBeforeFigure { phrase, sign, subject: subject.trim_end().to_owned(), figure };
    }
    if let Some(subject) = words.strip_suffix(" between") {
        return ClauseProblem::Between { subject: subject.to_owned(), figure };
    }
    let placed = || quantities().filter(|entry| entry.at_a_place());
    let others = placed().filter(|entry| entry.name == words).map(|entry| entry.kind.name).collect();
    let here = placed().filter(|entry| entry.kind == kind).map(|entry| entry.name).collect();
    ClauseProblem::NotAtAPlace { words: words.to_owned(), kind, others, placed: here }
}

/// The things counted in `more risers` or `fewer risers`, and the sign that says it.
fn more_or_fewer(said: &str) -> Option<(&str, Relation)> {
    let more = said.strip_prefix("more ").map(|counted| (counted, Relation::AtLeast));
    more.or_else(|| said.strip_prefix("fewer ").map(|counted| (counted, Relation::AtMost)))
}

/// The plural of a kind, where an expression is nothing else.
fn things(expr: &Expr) -> Option<&'static str> {
    let Expr::Reference(Asked { name, place: None }, of) = expr else { return None };
    let kind = KINDS.iter().find(|kind| kind.plural == name.words && kind.plural != kind.name && of.is_empty())?;
    Some(kind.plural)
}

/// Whether `number of` are the first words of an expression.
fn begins_with_a_count(expr: &Expr) -> bool {
    match expr {
        Expr::Count(..) => true,
        Expr::Sum(first, ..) | Expr::Product(first, ..) => begins_with_a_count(first),
        _ => false,
    }
}

fn given(entry: &Quantity) -> Type {
    match entry.gives {
        Gives::Measure(dimension) => Type::Number(dimension),
        Gives::Word(words) => Type::Word(words),
    }
}
