//! Names and dimensions of a clause, checked against the vocabulary and the catalogue before any design is.

use super::node::{Collected, Node, Place, What};
use super::rule::Limit;
use crate::base::names::did_you_mean;
use crate::base::{Finding, Notice, Source, Span, notices};
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

/// Type of an expression.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Type {
    Truth,
    Number(Dimension),
    Word(&'static [&'static str]),
}

/// Looks up every name of a clause; findings at the words that name nothing or do not fit together.
pub(super) fn clause(
    tree: &ClauseTree,
    limits: &[Limit],
    source: &Source,
    findings: &mut Vec<Finding>,
) -> Option<Resolved> {
    let mut resolver = Resolver { source, findings, limits, used: vec![false; limits.len()] };
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
    source: &Source,
    findings: &mut Vec<Finding>,
) -> Option<(Node, Vec<bool>)> {
    let mut resolver = Resolver { source, findings, limits, used: vec![false; limits.len()] };
    let node = resolver.truth(tree, kind)?;
    Some((node, resolver.used))
}

/// Whether a name means something of a kind by itself, so that a limit of that name would hide it.
pub(super) fn known(name: &str, kind: &Kind) -> bool {
    quantity(kind, name).is_some() || kind.property(name).is_some()
}

struct Resolver<'a> {
    source: &'a Source,
    findings: &'a mut Vec<Finding>,
    limits: &'a [Limit],
    used: Vec<bool>,
}

impl Resolver<'_> {
    fn say(&mut self, notice: &Notice, span: Span, message: String, help: Option<String>) {
        let finding = Finding::notice(notice, self.source, span, message);
        self.findings.push(match help {
            Some(help) => finding.with_help(help),
            None => finding,
        });
    }

    fn kind(&mut self, name: &Name) -> Option<&'static Kind> {
        let found = KINDS.iter().find(|kind| kind.name == name.words || kind.plural == name.words);
        if found.is_none() {
            let names = KINDS.iter().flat_map(|kind| [kind.name, kind.plural]);
            let help = did_you_mean(&name.words, names).or_else(|| {
                let kinds: Vec<&str> = KINDS.iter().map(|kind| kind.name).collect();
                Some(format!("A rule can speak of {}.", kinds.join(", ")))
            });
            let message = format!("`{}` is no kind of thing that is known", name.words);
            self.say(&notices::UNKNOWN_KIND, name.span, message, help);
        }
        found
    }

    /// A condition. Terms joined by `and` and `or` are all looked at, so that each slip is told.
    fn truth(&mut self, expr: &Expr, kind: &'static Kind) -> Option<Node> {
        let (node, of) = self.node(expr, kind)?;
        if of == Type::Truth {
            return Some(node);
        }
        let help = "Compare it: `... <= limit`, or `... is word`.".to_owned();
        let message = "this is a value, where something true or false is asked".to_owned();
        self.say(&notices::NOT_A_CONDITION, expr.span(), message, Some(help));
        None
    }

    fn number(&mut self, expr: &Expr, kind: &'static Kind) -> Option<(Node, Dimension)> {
        match self.node(expr, kind)? {
            (node, Type::Number(dimension)) => Some((node, dimension)),
            (_, other) => {
                let what = if other == Type::Truth { "a condition" } else { "a word" };
                let help = (other != Type::Truth).then(|| "Ask for a word with `is`.".to_owned());
                let message = format!("`{}` is {what}, where a number is asked", self.source.slice(expr.span()));
                self.say(&notices::MIXED_DIMENSIONS, expr.span(), message, help);
                None
            }
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
            Expr::Sum(a, minus, b, span) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                if !self.alike(of, and, *span, a.span(), b.span()) {
                    return None;
                }
                Some((Node::Sum(Box::new(left), *minus, Box::new(right)), Type::Number(of)))
            }
            Expr::Product(a, over, b, _) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                let dimension = if *over { of.over(and) } else { of.times(and) };
                Some((Node::Product(Box::new(left), *over, Box::new(right)), Type::Number(dimension)))
            }
            Expr::Pick(greater, a, b, span) => {
                let (left, right) = (self.number(a, kind), self.number(b, kind));
                let ((left, of), (right, and)) = (left?, right?);
                if !self.alike(of, and, *span, a.span(), b.span()) {
                    return None;
                }
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
                    let message = format!("`{}` is a word; only numbers are summed up", asked.name.words);
                    self.say(&notices::MIXED_DIMENSIONS, asked.span(), message, None);
                    return None;
                };
                Some((Node::Over(*aggregate, what, collected), Type::Number(dimension)))
            }
            Expr::Reference(asked, of) => self.reference(asked, of, kind),
        }
    }

    /// Whether an `or` stands where English has one and a clause has none: among the words of a choice, or in
    /// `3 or more risers`. It is told.
    fn a_choice_in_words(&mut self, terms: &[Expr], kind: &'static Kind) -> bool {
        for pair in terms.windows(2) {
            let [before, Expr::Reference(asked, of)] = pair else { continue };
            if !of.is_empty() || asked.place.is_some() {
                continue;
            }
            let said = asked.name.words.as_str();
            let last = if let Expr::And(all) = before { all.last().unwrap_or(before) } else { before };
            if let Expr::Figure(_, figure) = last
                && let Some(counted) = said.strip_prefix("more ").or_else(|| said.strip_prefix("fewer "))
            {
                let sign = if said.starts_with("more") { ">=" } else { "<=" };
                let figure = self.source.slice(*figure);
                let message = format!("`{figure} or {said}` is said by a sign");
                let help = format!("Write `number of {counted} {sign} {figure}`.");
                self.say(&notices::NOT_A_CONDITION, last.span().to(asked.span()), message, Some(help));
                return true;
            }
            let Expr::Is(subject, _, words) = last else { continue };
            let told = self.findings.len();
            let of = self.node(subject, kind);
            self.findings.truncate(told);
            let Some((_, Type::Word(known))) = of else { continue };
            if known.contains(&said) {
                let mut choice: Vec<&str> = words.iter().map(|word| word.words.as_str()).collect();
                choice.push(said);
                let message = format!("after `or` stands a condition, and `{said}` is a word");
                let help = format!("Write `{} is one of {}`.", self.source.slice(subject.span()), choice.join(", "));
                self.say(&notices::NOT_A_CONDITION, asked.span(), message, Some(help));
                if let Some(label) = self.findings.last_mut().and_then(|finding| finding.labels.first_mut()) {
                    "a word, not a condition".clone_into(&mut label.text);
                }
                return true;
            }
        }
        false
    }

    fn truths(&mut self, terms: &[Expr], kind: &'static Kind) -> Option<Vec<Node>> {
        let mut read: Vec<Option<Node>> = Vec::with_capacity(terms.len());
        for term in terms {
            let told = self.findings.len();
            let node = self.truth(term, kind);
            // A value that is left over from a slip before it is not told as a slip of its own.
            let left_over = matches!(read.last(), Some(None)) && matches!(term, Expr::Figure(..) | Expr::Reference(..));
            if left_over && self.findings.get(told).is_some_and(|finding| finding.name == notices::NOT_A_CONDITION.name)
            {
                self.findings.truncate(told);
            }
            read.push(node);
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
        let mut before: Option<(Dimension, Span)> = None;
        for (term, (node, dimension)) in terms.iter().zip(read) {
            if let Some((earlier, place)) = before
                && !self.alike(earlier, dimension, place.to(term.span()), place, term.span())
            {
                return None;
            }
            before = Some((dimension, term.span()));
            nodes.push((node, term.span()));
        }
        Some((Node::Chain(nodes, rest.iter().map(|(relation, _)| *relation).collect()), Type::Truth))
    }

    fn alike(&mut self, a: Dimension, b: Dimension, _whole: Span, left: Span, right: Span) -> bool {
        if a == b {
            return true;
        }
        let (left_words, right_words) = (self.source.slice(left), self.source.slice(right));
        let message = format!("`{left_words}` is {a} and `{right_words}` is {b}; they cannot be held together");
        let finding = Finding::notice(&notices::MIXED_DIMENSIONS, self.source, right, message);
        let mut finding = finding.with_label(left, a.to_string());
        if let Some(main) = finding.labels.first_mut() {
            main.text = b.to_string();
        }
        let plural = |words: &str| KINDS.iter().any(|kind| kind.plural == words && kind.plural != kind.name);
        let counts = [(left_words, b), (right_words, a)];
        let counted = counts.into_iter().find(|(words, other)| *other == Dimension::NUMBER && plural(words));
        let count = |words: &str, other: Dimension| words.starts_with("number of ") && other != Dimension::NUMBER;
        finding.help = match counted {
            Some((words, _)) => Some(format!("To count them, write `number of {words}`.")),
            None if counts.iter().any(|(words, other)| count(words, *other)) => {
                Some("A count is a bare number, without a unit.".to_owned())
            }
            None => None,
        };
        self.findings.push(finding);
        false
    }

    fn is(&mut self, subject: &Expr, not: bool, words: &[Name], kind: &'static Kind) -> Option<(Node, Type)> {
        let (node, of) = self.node(subject, kind)?;
        let span = words.iter().fold(subject.span(), |span, word| span.to(word.span));
        let Type::Word(known) = of else {
            let message =
                format!("`{}` is not a word; compare it with `<=` and the like", self.source.slice(subject.span()));
            self.say(&notices::MIXED_DIMENSIONS, subject.span(), message, None);
            return None;
        };
        for word in words {
            if !known.is_empty() && !known.contains(&word.words.as_str()) {
                let help = did_you_mean(&word.words, known.iter().copied())
                    .unwrap_or_else(|| format!("It is one of: {}.", known.join(", ")));
                let message = format!("`{}` is never `{}`", self.source.slice(subject.span()), word.words);
                self.say(&notices::UNKNOWN_WORD, word.span, message, Some(help));
                return None;
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
            let message = format!("`{}` is no quantity", asked.name.words);
            let help = format!("Write `{pick} of A and B`.");
            self.say(&notices::UNKNOWN_QUANTITY, asked.name.span, message, Some(help));
            return None;
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
                let place = self.source.slice(span).to_owned();
                if let Some((at, phrase, sign)) = syntax::sign_of(words)
                    && let Some(held) = words.get(..at)
                {
                    let message = format!("`{phrase}` is said by a sign");
                    let held = if held.is_empty() { "QUANTITY" } else { held.trim_end() };
                    let help = format!("Write `{held} {sign} {place}`.");
                    self.say(&notices::UNKNOWN_QUANTITY, asked.span(), message, Some(help));
                    return None;
                }
                if let Some(held) = words.strip_suffix(" between") {
                    let message = "`between` is said by two signs".to_owned();
                    let help = format!("Write `{place} <= {held} <= ...`.");
                    self.say(&notices::UNKNOWN_QUANTITY, asked.span(), message, Some(help));
                    return None;
                }
                let others: Vec<&str> = quantities()
                    .filter(|entry| entry.name == words && entry.at_a_place())
                    .map(|entry| entry.kind.name)
                    .collect();
                let message = format!("`{words}` of a {} is not asked at a place", kind.name);
                let help = match others.as_slice() {
                    [] => self.places(kind),
                    others => Some(format!("It is asked of a {}.", others.join(" and a "))),
                };
                self.say(&notices::UNKNOWN_QUANTITY, asked.span(), message, help);
                return None;
            };
            return self.placed(entry, Place::Figure(measure), measure.dimension, span);
        }
        let split = words.match_indices(' ').find_map(|(at, _)| {
            let entry = at_a_place(words.get(..at)?)?;
            Some((entry, words.get(at + 1..)?))
        });
        if let Some((entry, place)) = split {
            let Some(at) = self.limit(place) else {
                let limits = self.limits.iter().map(|limit| limit.name.as_str());
                let help = did_you_mean(place, limits)
                    .unwrap_or_else(|| format!("Write a length, `{} 12\"`, or the name of a limit.", entry.name));
                let message = format!("`{place}` is no limit of this rule");
                self.say(&notices::UNKNOWN_QUANTITY, asked.span(), message, Some(help));
                return None;
            };
            let dimension = self.limits.get(at)?.measure.dimension;
            return self.placed(entry, Place::Limit(at), dimension, asked.span());
        }
        if let Some(entry) = at_a_place(words) {
            let message = format!("`{words}` needs a place");
            let help = format!("Write `{} 12\"`, or the name of a limit.", entry.name);
            self.say(&notices::UNKNOWN_QUANTITY, asked.span(), message, Some(help));
            return None;
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
            let message = format!("`{}` asks for a length, and this is {dimension}", entry.name);
            let help = match place {
                Place::Figure(_) if dimension == Dimension::NUMBER => {
                    let figure = self.source.slice(span);
                    format!("Write `{} {figure}\"` for inches, or `{figure} mm`.", entry.name)
                }
                _ => format!("Write a length, `{} 12\"`.", entry.name),
            };
            self.say(&notices::MIXED_DIMENSIONS, span, message, Some(help));
            return None;
        }
        Some((What::At(entry, place), given(entry)))
    }

    /// What a kind can be asked at a place, for a message.
    fn places(&self, kind: &Kind) -> Option<String> {
        let names: Vec<&str> =
            quantities().filter(|entry| entry.kind == kind && entry.at_a_place()).map(|entry| entry.name).collect();
        (!names.is_empty()).then(|| format!("Asked at a place is: {}.", names.join(", ")))
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
                Takes::Slope | Takes::Number | Takes::Count => Some(Type::Number(Dimension::NUMBER)),
                Takes::OneOf(words) => Some(Type::Word(words)),
                Takes::Edge => Some(Type::Word(&["square", "radius", "bevel"])),
                Takes::Words | Takes::Finish | Takes::Date => Some(Type::Word(&[])),
                _ => None,
            };
            if let Some(of) = of {
                return Some((What::Property(property), of));
            }
            let message = format!("`{}` of a {} is not a number or a word that a rule can hold", name.words, kind.name);
            let help = "Name a quantity that is derived from it.".to_owned();
            self.say(&notices::UNKNOWN_QUANTITY, name.span, message, Some(help));
            return None;
        }
        let quantities = quantities().filter(|entry| entry.kind == kind).map(|entry| entry.name);
        let mut names: Vec<&str> = Vec::new();
        for name in quantities.chain(kind.properties.iter().map(|property| property.name)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let limits = self.limits.iter().map(|limit| limit.name.as_str());
        let help = self
            .instead(&name.words, kind)
            .or_else(|| did_you_mean(&name.words, names.iter().copied().chain(limits)))
            .or_else(|| of_another(&name.words))
            .unwrap_or_else(|| format!("A {} has {}.", kind.name, names.join(", ")));
        let message = format!("a {} has no `{}`", kind.name, name.words);
        self.say(&notices::UNKNOWN_QUANTITY, name.span, message, Some(help));
        None
    }
}

/// The kinds that have what this one lacks.
fn of_another(words: &str) -> Option<String> {
    let others: Vec<String> =
        KINDS.iter().filter(|other| known(words, other)).map(|other| format!("`{}`", other.name)).collect();
    (!others.is_empty()).then(|| format!("It is asked of {}.", others.join(", ")))
}

impl Resolver<'_> {
    /// What is meant by a name that says more than one, or that belongs to what the thing stands in.
    fn instead(&self, words: &str, kind: &Kind) -> Option<String> {
        let here = |name: &str| known(name, kind) || self.limits.iter().any(|limit| limit.name == name);
        if let Some((at, phrase, sign)) = syntax::sign_of(words) {
            let (left, right) = (words.get(..at)?.trim(), words.get(at + phrase.len()..)?.trim());
            let or = |said: &str, else_: &str| if said.is_empty() { else_.to_owned() } else { said.to_owned() };
            return Some(format!("Write `{} {sign} {}`.", or(left, "QUANTITY"), or(right, "LIMIT")));
        }
        for article in ["the ", "its ", "their ", "a "] {
            if let Some(bare) = words.strip_prefix(article).filter(|bare| here(bare)) {
                return Some(format!("Leave out `{}`: `{bare}`.", article.trim()));
            }
        }
        let placed = quantities().find(|entry| {
            let at = entry.name.strip_prefix(words);
            entry.kind == kind && entry.at_a_place() && at.is_some_and(|at| at.starts_with(' '))
        });
        if let Some(entry) = placed {
            return Some(format!("It is asked at a place: `{} 12\"`.", entry.name));
        }
        let serves =
            |owner: &Kind| owner == kinds::STAIR || kind.within.contains(&owner.name) || kind.made_from.is_some();
        let owner = [kinds::STAIR, kinds::FLIGHT].into_iter().filter(|owner| *owner != kind && serves(owner));
        let mut owner = owner.filter(|owner| known(words, owner)).map(|owner| owner.name);
        owner.next().map(|owner| format!("A {owner} has one: write `{words} of {owner}`."))
    }
}

fn given(entry: &Quantity) -> Type {
    match entry.gives {
        Gives::Measure(dimension) => Type::Number(dimension),
        Gives::Word(words) => Type::Word(words),
    }
}
