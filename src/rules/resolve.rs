//! Names and dimensions of a clause, checked against the vocabulary and the catalogue before any design is.

use super::node::{Collected, Node, Of, Place, Row, What, Which};
use super::problem::{ClauseProblem, Counting, Problem, QuantityMeant};
use super::reach::{Along, Reached};
use super::rule::{Limit, LimitOf};
use super::table::{RowAsks, Table, TableRow};
use super::trade;
use crate::base::names::nearest;
use crate::base::{Reporter, Span};
use crate::derive::{Gives, Quantity, asked_at, quantities, quantities_of, quantity};
use crate::measure::{Dimension, Style};
use crate::model::{KINDS, Kind, Takes, kinds, properties};
use crate::syntax::{self, Asked, AskedAt, ClauseTree, Collection, Expr, Name, Relation};

/// A clause with its names looked up.
pub(super) struct Resolved {
    pub kind: &'static Kind,
    pub condition: Option<Node>,
    pub requirement: Node,
    /// Which of the limits it reads.
    pub used: Vec<bool>,
    /// What is odd about the reach of the tables that it reads.
    pub reach: Vec<Reach>,
}

/// Something odd about the reach of a table: a row that is never read, or a value for which none holds.
pub(super) struct Reach {
    /// The table, by its name.
    pub table: String,
    /// The row, by its limit; of the table as a whole, nothing.
    pub row: Option<String>,
    pub span: Span,
    pub problem: ClauseProblem,
    /// Where it stands what the table goes by.
    pub of: Span,
    /// What the table goes by.
    by: Vec<Node>,
}

/// Kinds of which no design holds one, for their statements are laid over other things: a rule of them would hold
/// nothing.
const NEVER_DRAWN: [&Kind; 2] = [kinds::MEASURED, kinds::WAIVER];

/// Kinds of which one stands before another, going up.
const IN_A_ROW: [&Kind; 4] = [kinds::RISER, kinds::TREAD, kinds::FLIGHT, kinds::LANDING];

/// Type of an expression.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Type {
    Truth,
    Number(Dimension),
    Word(&'static [&'static str]),
}

/// What a clause may name beside what a thing has: limits, and tables of limits.
#[derive(Clone, Copy)]
pub(super) struct Names<'r> {
    pub limits: &'r [Limit],
    pub tables: &'r [Table],
    pub classes: &'r [String],
    /// Names of limits and figures that could not be read, which was reported.
    pub refused: &'r [String],
}

/// Looks up every name of a clause; reports the words that name nothing or do not fit together.
pub(super) fn clause(tree: &ClauseTree, names: Names<'_>, report: &mut Reporter<'_, Problem>) -> Option<Resolved> {
    let mut resolver = Resolver::new(names, report);
    let kind = resolver.kind(&tree.kind)?;
    let condition = resolver.narrowed(tree.condition.as_ref(), tree.unless.iter(), kind);
    let requirement = resolver.truth(&tree.requirement, kind);
    let used = std::mem::take(&mut resolver.used);
    let mut reach = std::mem::take(&mut resolver.reach);
    let condition = condition?;
    // A rule that its condition keeps to some of the values may leave the others without a row.
    let narrowed = |by: &[Node]| {
        let mut found = false;
        condition.iter().for_each(|condition| condition.each(&mut |node| found |= by.contains(node)));
        found
    };
    reach.retain(|reach| reach.row.is_some() || !narrowed(&reach.by));
    Some(Resolved { kind, condition, requirement: requirement?, used, reach })
}

/// Looks up the names of a condition that stands alone; it speaks of things of this kind. Also which limits it reads.
pub(super) fn condition(
    tree: &syntax::LoneCondition,
    kind: &'static Kind,
    names: Names<'_>,
    report: &mut Reporter<'_, Problem>,
) -> Option<(Node, Vec<bool>)> {
    let mut resolver = Resolver::new(names, report);
    let unless = tree.unless.iter().map(|(unless, _)| unless);
    let node = resolver.narrowed(Some(&tree.condition), unless, kind)??;
    Some((node, resolver.used))
}

/// Looks up the names of a value that stands alone; it is a value of things of this kind.
pub(super) fn value(
    tree: &Expr,
    kind: &'static Kind,
    names: Names<'_>,
    report: &mut Reporter<'_, Problem>,
) -> Option<Node> {
    let mut resolver = Resolver::new(names, report);
    match resolver.node(tree, kind)? {
        (_, Type::Truth) => resolver.refuse(tree.span(), ClauseProblem::ConditionForNumber),
        (node, _) => Some(node),
    }
}

/// Whether a name means something of a kind by itself, so that a limit of that name would hide it.
pub(super) fn known(name: &str, kind: &Kind) -> bool {
    quantity(kind, name).is_some() || kind.property(name).is_some()
}

/// Whether a rule may ask this of a kind.
pub(super) fn asked(name: &str, kind: &Kind) -> bool {
    quantity(kind, name).is_some() || kind.property(name).is_some_and(|property| given_by(property.takes).is_some())
}

/// What a clause sees of a property, where it sees anything.
fn given_by(takes: Takes) -> Option<Type> {
    match takes {
        Takes::Length | Takes::Lengths => Some(Type::Number(Dimension::LENGTH)),
        Takes::Angle | Takes::Angles => Some(Type::Number(Dimension::ANGLE)),
        Takes::Area => Some(Type::Number(Dimension::AREA)),
        Takes::Force => Some(Type::Number(Dimension::FORCE)),
        Takes::Pressure => Some(Type::Number(Dimension::PRESSURE)),
        Takes::Slope | Takes::Number | Takes::Count => Some(Type::Number(Dimension::NUMBER)),
        Takes::OneOf(words) => Some(Type::Word(words)),
        Takes::Edge => Some(Type::Word(&["square", "radius", "bevel"])),
        Takes::Words | Takes::Finish | Takes::Date => Some(Type::Word(&[])),
        _ => None,
    }
}

struct Resolver<'r, 'a> {
    report: &'r mut Reporter<'a, Problem>,
    names: Names<'r>,
    used: Vec<bool>,
    reach: Vec<Reach>,
}

impl<'r, 'a> Resolver<'r, 'a> {
    fn new(names: Names<'r>, report: &'r mut Reporter<'a, Problem>) -> Self {
        Self { report, names, used: vec![false; names.limits.len()], reach: Vec::new() }
    }
}

impl<'r> Resolver<'r, '_> {
    /// The words that what a table goes by can be, where they are known: one without a row is told.
    fn words_to_hold(&self, by: &Node, of: Type) -> Vec<&'r str> {
        let Type::Word(known) = of else { return Vec::new() };
        let is_class = matches!(by, Node::Read(What::Property(property), _) if property.handle() == properties::CLASS);
        let classes = self.names.classes.iter().filter(|_| is_class).map(String::as_str);
        known.iter().copied().chain(classes).collect()
    }

    /// A limit by its name, or by one that it went by before, which is told.
    fn limit_by_any_name(&mut self, name: &Name, kind: &Kind) -> Option<usize> {
        if let Some(at) = self.limit(&name.words) {
            return Some(at);
        }
        if known(&name.words, kind) || self.names.tables.iter().any(|table| table.name == name.words) {
            return None;
        }
        let mut former = self.names.limits.iter().filter(|limit| limit.formerly.contains(&name.words));
        let (Some(limit), None) = (former.next(), former.next()) else { return None };
        let now = limit.name.clone();
        self.report.push(name.span, ClauseProblem::FormerLimit { was: name.words.clone(), now: now.clone() });
        self.limit(&now)
    }

    fn table_by_any_name(&mut self, name: &Name, kind: &Kind) -> Option<&'r Table> {
        let tables = self.names.tables;
        if let Some(table) = tables.iter().find(|table| table.name == name.words) {
            return Some(table);
        }
        if known(&name.words, kind) {
            return None;
        }
        let was = |table: &&Table| table.formerly.as_ref().is_some_and(|former| *former == name.words);
        let table = tables.iter().find(was)?;
        let now = table.name.clone();
        self.report.push(name.span, ClauseProblem::FormerLimit { was: name.words.clone(), now });
        Some(table)
    }
}

impl Resolver<'_, '_> {
    /// What narrows a rule: a condition that holds, and none of those that it spares. The inner nothing is that nothing
    /// narrows it.
    #[allow(clippy::option_option)] // What could not be read is another thing than what is not there.
    fn narrowed<'e>(
        &mut self,
        condition: Option<&Expr>,
        unless: impl Iterator<Item = &'e Expr>,
        kind: &'static Kind,
    ) -> Option<Option<Node>> {
        let condition = condition.map(|condition| self.truth(condition, kind));
        let spared: Vec<Option<Node>> = unless.map(|spared| self.truth(spared, kind)).collect();
        let mut all = match condition {
            Some(None) => return None,
            // Terms that are joined already take the others in.
            Some(Some(Node::All(terms))) => terms,
            Some(Some(node)) => vec![node],
            None => Vec::new(),
        };
        for spared in spared {
            all.push(Node::Not(Box::new(spared?)));
        }
        Some(match all.len() {
            0 => None,
            1 => all.pop(),
            _ => Some(Node::All(all)),
        })
    }

    /// Reports a problem at a place; what it is found in cannot be resolved.
    fn refuse<T>(&mut self, span: Span, problem: ClauseProblem) -> Option<T> {
        self.report.push(span, problem);
        None
    }

    fn kind(&mut self, name: &Name) -> Option<&'static Kind> {
        let found = KINDS.iter().find(|kind| kind.name == name.words || kind.plural == name.words);
        if found.is_none()
            && let Some((kind, side)) = at_a_side(&name.words)
        {
            return self.refuse(name.span, ClauseProblem::KindAtASide { words: name.words.clone(), kind, side });
        }
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
                self.added_to_a_place(a, b, *minus);
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
                Some((Node::Count(self.collected(collection, kind)?), Type::Number(Dimension::NUMBER)))
            }
            Expr::Over(aggregate, asked, collection, _) => {
                let collected = self.collected(collection, kind)?;
                if aggregate.is_along() && !IN_A_ROW.contains(&collected.kind) {
                    let problem = ClauseProblem::NotInARow { kind: collected.kind };
                    return self.refuse(collection.kind.span, problem);
                }
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
        let mut aside = Resolver::new(self.names, &mut report);
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
        // A limit that lacks its unit is told where its figure stands.
        for (side, other) in sides {
            if let Expr::Reference(Asked { name, place: None }, of) = side
                && of.is_empty()
                && other == Dimension::LENGTH
                && let Some(limit) = self.names.limits.iter().find(|limit| limit.name == name.words)
                && limit.measure.style == Style::NUMBER
                && limit.source == *self.report.source
            {
                let problem = ClauseProblem::LimitWithoutUnit { limit: limit.name.clone(), of: other };
                return self.refuse(limit.span, problem);
            }
        }
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
        let is_class =
            matches!(&node, Node::Read(What::Property(property), _) if property.handle() == properties::CLASS);
        let classes = self.names.classes;
        if let Some(word) = words.iter().find(|word| is_class && !classes.is_empty() && !classes.contains(&word.words))
        {
            let near = nearest(&word.words, classes.iter().map(String::as_str)).map(str::to_owned);
            let (said, known) = (word.words.clone(), classes.to_vec());
            return self.refuse(word.span, ClauseProblem::NoSuchClass { word: said, known, near });
        }
        let words = words.iter().map(|word| word.words.clone()).collect();
        Some((Node::Is(Box::new(node), not, words, span), Type::Truth))
    }

    /// Advises of a sum whose first part ends in a place: was the place meant to be the sum?
    fn added_to_a_place(&mut self, first: &Expr, second: &Expr, minus: bool) {
        let Expr::Reference(asked, of) = first else { return };
        let ends_in_a_place = of.is_empty() && !matches!(asked.place, Some(AskedAt::Worked(..)));
        let words = asked.name.words.as_str();
        let entry = quantities().filter(|entry| entry.at_a_place() && words.starts_with(entry.name)).find(|entry| {
            let rest = words.get(entry.name.len()..).unwrap_or_default();
            rest.starts_with(' ') || rest.is_empty() && asked.place.is_some()
        });
        let a_length = match second {
            Expr::Figure(..) => true,
            Expr::Reference(asked, of) => {
                of.is_empty() && self.names.limits.iter().any(|limit| limit.name == asked.name.words)
            }
            _ => false,
        };
        let between = Span { start: first.span().end, end: second.span().start };
        let apart = self.report.source.slice(between).contains(')');
        if let Some(quantity) = entry.filter(|_| ends_in_a_place && a_length && !apart) {
            let problem = ClauseProblem::AddedToAPlace { quantity, first: first.span(), second: second.span(), minus };
            self.report.push(first.span().to(second.span()), problem);
        }
    }

    /// What is counted of a thing of this kind, or summed up over what belongs to it.
    fn collected(&mut self, collection: &Collection, owner: &'static Kind) -> Option<Collected> {
        let kind = self.kind(&collection.kind)?;
        if !kind.may_belong_to(owner) {
            return self.refuse(collection.kind.span, ClauseProblem::NeverBelongs { kind, owner });
        }
        let condition = match &collection.condition {
            Some(condition) => Some(Box::new(self.truth(condition, kind)?)),
            None => None,
        };
        Some(Collected { kind, condition })
    }

    fn reference(&mut self, asked: &Asked, of: &[Name], kind: &'static Kind) -> Option<(Node, Type)> {
        if of.is_empty()
            && asked.place.is_none()
            && let Some(at) = self.limit_by_any_name(&asked.name, kind)
        {
            let dimension = self.names.limits.get(at)?.measure.dimension;
            return Some((Node::Limit(at), Type::Number(dimension)));
        }
        if of.is_empty()
            && asked.place.is_none()
            && let Some(table) = self.table_by_any_name(&asked.name, kind)
        {
            return self.table(table, asked.name.span, kind);
        }
        if let Some(read) = self.in_a_view(asked, of, kind) {
            return read;
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
        let mut path: Vec<Of> = Vec::new();
        for step in of.iter().rev() {
            let from = path.last().map_or(kind, |of| of.kind);
            path.push(self.of(step, from, &asked.name)?);
        }
        let at = path.last().map_or(kind, |of| of.kind);
        if let Some(AskedAt::Worked(place, span)) = &asked.place {
            return self.worked_out(asked, (place, *span), path, kind);
        }
        let (what, of) = self.asked(asked, at)?;
        Some((Node::Read(what, path), of))
    }

    /// A thing that another belongs to or stands beside: `flight`, `riser before`, `last tread`.
    fn of(&mut self, name: &Name, from: &'static Kind, asked: &Name) -> Option<Of> {
        let words = name.words.strip_prefix("the ").unwrap_or(&name.words);
        let ends = |end: &str| words.strip_suffix(end).map(str::trim_end);
        let begins = |begin: &str| words.strip_prefix(begin);
        let (kind, which) = if let Some(kind) = ends(" before").or_else(|| begins("previous ")) {
            (kind, Which::Before)
        } else if let Some(kind) = ends(" after").or_else(|| begins("next ")) {
            (kind, Which::After)
        } else if let Some(kind) = begins("first ") {
            (kind, Which::First)
        } else if let Some(kind) = begins("last ") {
            (kind, Which::Last)
        } else {
            (words, Which::TheOne)
        };
        let kind = self.kind(&Name { words: kind.to_owned(), span: name.span })?;
        if which != Which::TheOne && !IN_A_ROW.contains(&kind) {
            return self.refuse(name.span, ClauseProblem::NotInARow { kind });
        }
        let related = match which {
            Which::TheOne => from.may_ask_of(kind),
            Which::Before | Which::After => kind == from,
            Which::First | Which::Last => kind == from || kind.may_belong_to(from),
        };
        if !related {
            let named = Of { kind, which }.words();
            // By what both belong to, the other can be asked for.
            let through = [kinds::FLIGHT, kinds::LANDING, kinds::GUARD, kinds::HANDRAIL, kinds::JOINT, kinds::STAIR];
            let joins = |through: &&'static Kind| from.may_ask_of(through) && kind.may_belong_to(through);
            let through = through.into_iter().filter(|_| !matches!(which, Which::Before | Which::After));
            // Of a timber and a section of their own things say so themselves.
            let through = through.filter(|_| kind != kinds::TIMBER && kind != kinds::SECTION).find(joins);
            let problem = ClauseProblem::NotRelated {
                asked: asked.words.clone(),
                named,
                kind,
                from,
                through,
                row: which != Which::TheOne,
            };
            return self.refuse(name.span, problem);
        }
        Some(Of { kind, which })
    }

    /// A quantity asked at a place that is worked out.
    fn worked_out(
        &mut self,
        asked: &Asked,
        (place, span): (&Expr, Span),
        path: Vec<Of>,
        kind: &'static Kind,
    ) -> Option<(Node, Type)> {
        let at = path.last().map_or(kind, |of| of.kind);
        let words = asked.name.words.as_str();
        let Some(entry) = quantity(at, words).filter(|entry| entry.at_a_place()) else {
            let problem = not_at_a_place(words, span, at);
            return self.refuse(asked.span(), problem);
        };
        let (node, dimension) = self.number(place, kind)?;
        if dimension != Dimension::LENGTH {
            return self.refuse(span, ClauseProblem::PlaceIsNoLength { quantity: entry, dimension, bare: false });
        }
        Some((Node::ReadAt(entry, Box::new(node), path), given(entry)))
    }

    /// `drawn X`, `measured X` and `deviation of X`, where the whole is no name of its own.
    fn in_a_view(&mut self, asked: &Asked, of: &[Name], kind: &'static Kind) -> Option<Option<(Node, Type)>> {
        let words = asked.name.words.as_str();
        let bare = |words: &str| Asked { name: Name { words: words.to_owned(), ..asked.name }, ..asked.clone() };
        let own = || of.is_empty() && known(words, kind);
        if let Some(inner) = words.strip_prefix("drawn ").filter(|_| !own()) {
            let read = self.reference(&bare(inner), of, kind);
            return Some(read.map(|(node, of)| (Node::Drawn(Box::new(node)), of)));
        }
        if let Some(inner) = words.strip_prefix("measured ").filter(|_| !own()) {
            let read = self.reference(&bare(inner), of, kind);
            return Some(read.map(|(node, of)| (Node::Measured(Box::new(node)), of)));
        }
        if words == "deviation" && !own() && asked.place.is_none() {
            let Some((first, of)) = of.split_first() else {
                return Some(self.refuse(asked.name.span, ClauseProblem::DeviationOfNothing));
            };
            let inner = Asked { name: first.clone(), place: None };
            return Some(self.reference(&inner, of, kind).and_then(|(node, of)| {
                let Type::Number(dimension) = of else {
                    let name = first.words.clone();
                    return self.refuse(first.span, ClauseProblem::WordSummed { name });
                };
                let (measured, drawn) = (Node::Measured(Box::new(node.clone())), Node::Drawn(Box::new(node)));
                let apart = |a: &Node, b: &Node| Node::Sum(Box::new(a.clone()), true, Box::new(b.clone()));
                let (over, under) = (apart(&measured, &drawn), apart(&drawn, &measured));
                Some((Node::Pick(true, Box::new(over), Box::new(under)), Type::Number(dimension)))
            }));
        }
        None
    }

    /// A table by its name. One that a set below wrote for several rules may go by what cannot be asked here: that is
    /// reported where it is read.
    fn table(&mut self, table: &Table, read: Span, kind: &'static Kind) -> Option<(Node, Type)> {
        let first =
            table.rows.first().and_then(|row| self.names.limits.iter().find(|limit| limit.name == row.limit))?;
        if first.of != LimitOf::Set || first.source == *self.report.source {
            return self.table_here(table, kind);
        }
        let mut found = Vec::new();
        let mut aside = Reporter { source: &first.source, found: &mut found };
        let mut resolver = Resolver::new(self.names, &mut aside);
        let node = resolver.table_here(table, kind);
        let used = std::mem::take(&mut resolver.used);
        self.used.iter_mut().zip(used).for_each(|(read, used)| *read |= used);
        if node.is_none() {
            let (figure, by) = (table.name.clone(), table.by_words.clone());
            self.report.push(read, ClauseProblem::FigureGoesByOther { figure, by, kind });
        }
        node
    }

    /// A table: the row that holds, or what lies between two.
    fn table_here(&mut self, table: &Table, kind: &'static Kind) -> Option<(Node, Type)> {
        let limits: Vec<usize> = table.rows.iter().map(|row| self.limit(&row.limit)).collect::<Option<_>>()?;
        let dimension = self.names.limits.get(*limits.first()?)?.measure.dimension;
        let mut by: Vec<(&Expr, Node, Type)> = Vec::new();
        for expr in std::iter::once(&table.by).chain(&table.and_by) {
            let (node, of) = self.node(expr, kind)?;
            by.push((expr, node, of));
        }
        if table.between {
            let (_, node, of) = by.pop()?;
            let Type::Number(of) = of else { return self.refuse(table.by.span(), ClauseProblem::BetweenWords) };
            let mut rows = Vec::new();
            for (row, limit) in table.rows.iter().zip(&limits) {
                let RowAsks::Number(bounds) = &row.asks else { continue };
                let [(_, at, span)] = bounds.as_slice() else { continue };
                if at.dimension != of {
                    return self.refuse(*span, ClauseProblem::RowOfOtherSort { row: at.dimension, by: of });
                }
                rows.push((*at, *limit));
            }
            rows.sort_by(|(a, _), (b, _)| a.value.total_cmp(&b.value));
            return Some((Node::Between(Box::new(node), rows), Type::Number(dimension)));
        }
        let (mut rows, mut read) = (Vec::new(), Vec::new());
        for (row, limit) in table.rows.iter().zip(limits) {
            let asks = self.shared_out(table, row, &by)?;
            let mut all = Vec::new();
            for (asks, (expr, node, of)) in asks.iter().zip(&by) {
                for asks in asks {
                    self.row_asks(row, asks, (expr, node, *of), kind, &mut all)?;
                }
            }
            let when = if all.len() > 1 { Some(Node::All(all)) } else { all.pop() };
            rows.push(Row { when, limit });
            read.push(asks);
        }
        self.reaches(table, &by, &read);
        Some((Node::ByRow(rows), Type::Number(dimension)))
    }

    /// What a part of a row asks of what it goes by.
    fn row_asks(
        &mut self,
        row: &TableRow,
        asks: &RowAsks,
        (expr, by, of): (&Expr, &Node, Type),
        kind: &'static Kind,
        all: &mut Vec<Node>,
    ) -> Option<()> {
        match asks {
            RowAsks::Words(words) => {
                let (mut node, _) = self.is(expr, false, words, kind)?;
                // Its place is that of its words: what the table goes by may stand in another text.
                if let (Node::Is(.., place), Some((first, last))) = (&mut node, words.first().zip(words.last())) {
                    *place = first.span.to(last.span);
                }
                all.push(node);
            }
            RowAsks::Number(bounds) => {
                let Type::Number(of) = of else {
                    return self.refuse(row.span, ClauseProblem::NumberForWord);
                };
                for (relation, at, span) in bounds {
                    if at.dimension != of {
                        return self.refuse(*span, ClauseProblem::RowOfOtherSort { row: at.dimension, by: of });
                    }
                    let terms = vec![(by.clone(), row.span), (Node::Figure(*at), *span)];
                    all.push(Node::Chain(terms, vec![*relation]));
                }
            }
            RowAsks::Otherwise | RowAsks::Both(_) => {}
        }
        Some(())
    }

    /// What a row says of each thing that its table goes by: by what it can be, and where it can be either, in their order.
    fn shared_out<'t>(
        &mut self,
        table: &Table,
        row: &'t TableRow,
        by: &[(&Expr, Node, Type)],
    ) -> Option<Vec<Vec<&'t RowAsks>>> {
        let parts = row.asks.parts();
        let [(_, first_node, first), (_, second_node, second)] = by else { return Some(vec![parts.iter().collect()]) };
        let sort = |part: &RowAsks, of: Type| match (part, of) {
            (RowAsks::Words(_), Type::Word(_)) => true,
            (RowAsks::Number(bounds), Type::Number(of)) => bounds.iter().all(|(_, at, _)| at.dimension == of),
            _ => false,
        };
        let (first_words, second_words) =
            (self.words_to_hold(first_node, *first), self.words_to_hold(second_node, *second));
        // A word of a list is of the thing that has the list.
        let names = |part: &RowAsks, known: &[&str]| match part {
            RowAsks::Words(words) => words.iter().any(|word| known.contains(&word.words.as_str())),
            _ => false,
        };
        let mut said: Vec<Vec<&RowAsks>> = vec![Vec::new(), Vec::new()];
        let by_words = || table.by_words.clone();
        for (at, part) in parts.iter().enumerate() {
            let named = (names(part, &first_words), names(part, &second_words));
            let sorts = (sort(part, *first), sort(part, *second));
            let of = match (named, sorts) {
                ((true, false), _) => 0,
                ((false, true), _) => 1,
                (_, (true, false)) => 0,
                (_, (false, true)) => 1,
                _ if parts.len() == 2 => at,
                (_, (true, true)) => return self.refuse(row.span, ClauseProblem::RowOfWhich { by: by_words() }),
                // What is wrong with it is reported where it is read, of one that is at least of figures, or of words.
                (_, (false, false)) => {
                    let figures = |of: Type| matches!(of, Type::Number(_)) == matches!(part, RowAsks::Number(_));
                    usize::from(!figures(*first) && figures(*second))
                }
            };
            let Some(said) = said.get_mut(of) else { continue };
            let words = |part: &RowAsks| matches!(part, RowAsks::Words(_));
            if !said.is_empty() && (words(part) || said.iter().any(|said| words(said))) {
                return self.refuse(row.span, ClauseProblem::RowOfNeither { by: by_words() });
            }
            said.push(part);
        }
        Some(said)
    }

    /// Notes which rows of a table are never read or meet others, and where none holds.
    fn reaches(&mut self, table: &Table, by: &[(&Expr, Node, Type)], rows: &[Vec<Vec<&RowAsks>>]) {
        if self.reach.iter().any(|reach| reach.table == table.name) {
            return;
        }
        let goes_by: Vec<Vec<&str>> = by.iter().map(|(_, node, of)| self.words_to_hold(node, *of)).collect();
        let goes_by: Vec<Along<'_>> = goes_by
            .into_iter()
            .zip(by)
            .map(|(words, (_, node, of))| match of {
                Type::Number(_) => Along::Numbers { counts: node.is_count() },
                _ => Along::Words(words),
            })
            .collect();
        let reached = Reached::of(&goes_by, rows);
        let by: Vec<Node> = by.iter().map(|(_, node, _)| node.clone()).collect();
        let mut put = |row: Option<&TableRow>, problem| {
            let (span, row) = row.map_or((table.stands, None), |row| (row.span, Some(row.limit.clone())));
            let (table, of) = (table.name.clone(), table.stands);
            self.reach.push(Reach { table, row, span, problem, of, by: by.clone() });
        };
        for row in reached.never_read().into_iter().filter_map(|at| table.rows.get(at)) {
            put(Some(row), ClauseProblem::DeadRow);
        }
        for (first, second) in reached.meetings() {
            if let (Some(first), Some(second)) = (table.rows.get(first), table.rows.get(second)) {
                put(Some(second), ClauseProblem::RowsMeet { first: first.span });
            }
        }
        let without = reached.without();
        if !without.is_empty() {
            put(None, ClauseProblem::TableGap { by: table.by_words.clone(), without });
        }
    }

    /// A limit by its name; from then on it counts as read.
    fn limit(&mut self, name: &str) -> Option<usize> {
        let at = self.names.limits.iter().position(|limit| limit.name == name)?;
        if let Some(used) = self.used.get_mut(at) {
            *used = true;
        }
        Some(at)
    }

    /// A quantity or property, asked at a place where its name ends in the word for one.
    fn asked(&mut self, asked: &Asked, kind: &'static Kind) -> Option<(What, Type)> {
        let words = asked.name.words.as_str();
        if let Some(AskedAt::Worked(_, span)) = &asked.place {
            return self.refuse(*span, ClauseProblem::WorkedOutOfMany);
        }
        if let Some(AskedAt::Figure(measure, span)) = asked.place {
            let Some(entry) = quantity(kind, words).filter(|entry| entry.at_a_place()) else {
                let problem = not_at_a_place(words, span, kind);
                return self.refuse(asked.span(), problem);
            };
            return self.placed(entry, Place::Figure(measure), measure.dimension, span);
        }
        if let Some((entry, place)) = asked_at(kind, words) {
            let Some(at) = self.limit(place) else {
                if self.names.refused.iter().any(|refused| refused == place) {
                    return None;
                }
                let near = nearest(place, self.names.limits.iter().map(|limit| limit.name.as_str())).map(str::to_owned);
                let problem = ClauseProblem::PlaceIsNoLimit { place: place.to_owned(), quantity: entry, near };
                return self.refuse(asked.span(), problem);
            };
            let dimension = self.names.limits.get(at)?.measure.dimension;
            return self.placed(entry, Place::Limit(at), dimension, asked.span());
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
            if entry.at_a_place() {
                return self.refuse(name.span, ClauseProblem::NeedsAPlace { quantity: entry });
            }
            return Some((What::Quantity(entry), given(entry)));
        }
        if let Some(property) = kind.property(&name.words) {
            if let Some(of) = given_by(property.takes) {
                return Some((What::Property(property), of));
            }
            let problem = ClauseProblem::NotComparable { name: name.words.clone(), kind };
            return self.refuse(name.span, problem);
        }
        if self.names.refused.contains(&name.words) {
            return None;
        }
        let meant = self.meant(&name.words, kind);
        self.refuse(name.span, ClauseProblem::UnknownQuantity { name: name.words.clone(), kind, meant })
    }

    /// What was likely meant by a name that means nothing of a kind.
    fn meant(&self, words: &str, kind: &'static Kind) -> QuantityMeant {
        let mut names: Vec<&'static str> = Vec::new();
        let quantities = quantities_of(kind).map(|entry| entry.name);
        for name in quantities.chain(kind.properties.iter().map(|property| property.name)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let near = || {
            let limits = self.names.limits.iter().map(|limit| limit.name.as_str());
            let limits = limits.chain(self.names.tables.iter().map(|table| table.name.as_str()));
            nearest(words, names.iter().copied().chain(limits)).map(|near| QuantityMeant::Near(near.to_owned()))
        };
        let others = || {
            let others: Vec<&'static Kind> = KINDS.iter().filter(|other| known(words, other)).collect();
            (!others.is_empty()).then_some(QuantityMeant::OfOthers(others))
        };
        let of_another = || trade::of_another(words, asked).map(|(other, ours)| QuantityMeant::OfOther(other, ours));
        let meant = self.in_other_words(words, kind).or_else(near).or_else(others).or_else(of_another);
        meant.unwrap_or(QuantityMeant::Unknown(names))
    }

    /// What is meant by a name that says more than one, or that belongs to what the thing stands in.
    fn in_other_words(&self, words: &str, kind: &Kind) -> Option<QuantityMeant> {
        if let Some(ours) = trade::ours(words, kind, asked) {
            return Some(QuantityMeant::Near(ours.to_owned()));
        }
        let here = |name: &str| known(name, kind) || self.names.limits.iter().any(|limit| limit.name == name);
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

/// The kind and the side in `handrail left`, where the kind has a side to ask for.
fn at_a_side(words: &str) -> Option<(&'static Kind, &'static str)> {
    let (of, side) = words.rsplit_once(' ')?;
    let kind = KINDS.iter().find(|kind| kind.name == of || kind.plural == of)?;
    let Gives::Word(sides) = quantity(kind, "side")?.gives else { return None };
    sides.iter().find(|known| **known == side).map(|side| (kind, *side))
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
