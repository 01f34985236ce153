//! A rule evaluated for the elements of a design: plainly to verdicts, or traced to the term that decided.

use std::borrow::Cow;

use super::node::{Collected, Node, Of, Place, What, Which};
use super::rule::{Applies, Printed, Rule};
use crate::base::Span;
use crate::derive::{Asked, Datum, Drawing, Evaluation, Missing, NoNumber, Read, Reads, Reason, Units, going_up};
use crate::measure::{self, Dimension, Measure};
use crate::model::{Design, Id, Kind, ListItem, kinds, properties};
use crate::syntax::{Aggregate, Relation};

/// What a rule comes to for one element. The names are those of published checklist standards.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// It holds.
    Pass,
    /// It does not hold.
    Fail,
    /// Its `where` does not hold.
    NotApplicable,
    /// Something is not known.
    NotChecked(Missing),
}

impl Verdict {
    /// The word for it, by the rule's verb.
    #[cfg(feature = "cli")]
    pub fn word(&self, shall: bool) -> &'static str {
        match self {
            Verdict::Pass => "passes",
            Verdict::Fail if shall => "broken",
            Verdict::Fail => "advised",
            Verdict::NotApplicable => "does not apply",
            Verdict::NotChecked(_) => "not checked",
        }
    }
}

/// What a rule comes to for one element, and why.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// The element.
    pub element: Id,
    /// What it comes to.
    // Tests read it; a check by itself needs the decision only.
    #[cfg_attr(not(feature = "internals"), allow(dead_code))]
    pub verdict: Verdict,
    /// What decided, where the rule fails.
    pub decision: Option<Box<Decision>>,
}

/// The term of a requirement that decided.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Decision {
    /// The side that the design gives; of a condition that should not be so, the condition.
    pub subject: Node,
    /// What was compared.
    pub compared: Compared,
    /// What was read for it, where the evaluation is traced; the value's side first.
    pub reads: Vec<Read>,
    /// How many of the reads are of the value's side.
    pub given: usize,
    /// The item of a stated list that decided, where the value is one.
    pub item: Option<Span>,
    /// The value counts things, perhaps narrowed by a condition.
    pub counted: bool,
    /// A kind of thing that is lacking, where that is the trouble.
    pub lacking: Option<&'static Kind>,
    /// Which figure of its limit the value was held to, where a limit has two.
    pub printed: Option<Printed>,
    /// The row of a table that it was held to, by the place of its limit.
    pub row: Option<usize>,
    /// What else of the same requirement is not met; it is all to be met.
    pub also: Vec<Decision>,
}

/// What was compared.
#[derive(Debug, Clone, PartialEq)]
pub enum Compared {
    /// Numbers: the value, the relation it should have to the limit, the limit.
    Numbers(Measure, Relation, Measure),
    /// Words: the word found, whether it should not be, the words asked for.
    Words(String, bool, Vec<String>),
    /// A condition that should not hold.
    Denied,
}

impl Decision {
    /// How far the value is on the wrong side, in base units; nothing for words.
    pub fn miss(&self) -> f64 {
        self.distance().map_or(0.0, |distance| distance.value.abs())
    }

    /// Whether it is nearer to being met than another alternative: first what lacks no word and no part of a thing, then
    /// what misses in fewer parts, then what misses by less of its limit. Of two that lack such the first stays.
    fn is_nearer_than(&self, other: &Self) -> bool {
        match (self.lacks(), other.lacks()) {
            (0, 0) => (1 + self.also.len(), self.share()) < (1 + other.also.len(), other.share()),
            (here, there) => here < there,
        }
    }

    /// How many parts miss by a word, or because there is nothing of what is asked.
    fn lacks(&self) -> usize {
        let nothing = |part: &&Self| match &part.compared {
            Compared::Numbers(value, relation, limit) => {
                value.value == 0.0 && limit.value > 0.0 && matches!(relation, Relation::AtLeast | Relation::More)
            }
            Compared::Words(..) | Compared::Denied => true,
        };
        std::iter::once(self).chain(&self.also).filter(nothing).count()
    }

    /// By what share of its limit it misses.
    fn share(&self) -> f64 {
        match &self.compared {
            Compared::Numbers(value, _, limit) if limit.value != 0.0 => {
                ((value.value - limit.value) / limit.value).abs()
            }
            Compared::Numbers(value, ..) => value.value.abs(),
            Compared::Words(..) | Compared::Denied => 0.0,
        }
    }

    /// The value less its limit, where numbers were compared.
    pub fn distance(&self) -> Option<Measure> {
        match &self.compared {
            Compared::Numbers(value, _, limit) => Some(Measure { value: value.value - limit.value, ..*value }),
            Compared::Words(..) | Compared::Denied => None,
        }
    }
}

/// What a rule comes to for every element that it speaks of, with what decided where it fails. What was read is told
/// where the evaluation is traced.
pub fn evaluate(rule: &Rule, evaluation: &Evaluation<'_>) -> Vec<Outcome> {
    let elements = evaluation.design.of_kind(rule.kind);
    let drawn = elements.map(|element| outcome(rule, evaluation, element));
    let unread = unread(rule, evaluation).map(Verdict::NotChecked);
    drawn.chain(unread.map(|verdict| Outcome { element: 0, verdict, decision: None })).collect()
}

/// The same for one element.
pub fn outcome(rule: &Rule, evaluation: &Evaluation<'_>, element: Id) -> Outcome {
    let (verdict, decision) = Evaluator::new(rule, evaluation, Tells::Decision).outcome(element);
    Outcome { element, verdict, decision }
}

/// What a rule comes to for every element that it speaks of, and no more.
pub fn verdicts<'a>(rule: &'a Rule, evaluation: &'a Evaluation<'_>) -> impl Iterator<Item = (Id, Verdict)> + 'a {
    let elements = evaluation.design.of_kind(rule.kind);
    let drawn = elements.map(|element| (element, verdict(rule, evaluation, element)));
    drawn.chain(unread(rule, evaluation).map(|missing| (0, Verdict::NotChecked(missing))))
}

/// What there is of every stair that has steps at all.
const STEPS: [&Kind; 3] = [kinds::FLIGHT, kinds::RISER, kinds::TREAD];

/// Why a rule is not checked for a thing that it may speak of: a block that may draw one was not understood, or every
/// stair has one and none is drawn.
pub fn unread(rule: &Rule, evaluation: &Evaluation<'_>) -> Option<Missing> {
    let design = evaluation.design;
    if design.lacks_steps() && STEPS.contains(&rule.kind) && design.of_kind(rule.kind).len() == 0 {
        return Some(Missing { element: 0, reason: Reason::NotDrawn(Drawing::A(kinds::FLIGHT)) });
    }
    if rule.kind == kinds::STRINGER {
        for flight in design.of_kind(kinds::FLIGHT) {
            // A spiral has none, so it rests on that too.
            let _ = evaluation.looked_up(flight, properties::SPIRAL);
        }
    }
    if rule.kind == kinds::HEADER {
        for stringer in design.of_kind(kinds::STRINGER) {
            // What hangs on nothing, or on a ledger, takes none.
            let _ = evaluation.looked_up(stringer, properties::HEAD);
        }
    }
    if rule.applies == Applies::Always
        && let Some(at) = lacks_one(design, rule.kind)
        && !Evaluator::new(rule, evaluation, Tells::Verdict).is_spared_by_its_stair()
    {
        return Some(Missing { element: at, reason: Reason::NotDrawn(Drawing::A(rule.kind)) });
    }
    // A landing that was not understood may be framed, and what was not understood of a flight hangs on a header.
    let frames = |kind: &Kind| {
        rule.kind == kinds::JOIST && kind == kinds::LANDING
            || rule.kind == kinds::HEADER && [kinds::FLIGHT, kinds::STRINGER].contains(&kind)
    };
    let kind = design.unread.iter().find(|kind| kind.counts_as(rule.kind) || frames(kind))?;
    Some(Missing { element: 0, reason: Reason::BlockNotUnderstood(kind) })
}

/// Where a thing of a kind is lacking that what is drawn does not stand without, and none is drawn.
fn lacks_one(design: &Design, kind: &Kind) -> Option<Id> {
    if kind == kinds::STRINGER {
        design.lacks_stringers().then_some(0)
    } else if kind == kinds::HEADER {
        design.flight_without_header()
    } else if kind == kinds::JOIST {
        design.landing_without_joists()
    } else if kind == kinds::BRACKET {
        design.rail_without_brackets()
    } else {
        None
    }
}

/// What a rule comes to for one element, and no more.
pub fn verdict(rule: &Rule, evaluation: &Evaluation<'_>, element: Id) -> Verdict {
    Evaluator::new(rule, evaluation, Tells::Verdict).outcome(element).0
}

/// Whether a rule fails for any element.
pub fn fails(rule: &Rule, evaluation: &Evaluation<'_>) -> bool {
    verdicts(rule, evaluation).any(|(_, verdict)| verdict == Verdict::Fail)
}

/// Three values: true, false with what decided, not known with what would settle it.
pub(super) enum Truth {
    True,
    False(Option<Box<Decision>>),
    Unknown(Missing),
}

/// How much an evaluator tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tells {
    /// The verdict alone.
    Verdict,
    /// What decided, too.
    Decision,
}

#[derive(Clone, Copy)]
pub(super) struct Evaluator<'a, 'd> {
    pub rule: &'a Rule,
    pub evaluation: &'a Evaluation<'d>,
    tells: Tells,
    /// The figure by which limits are read.
    printed: Printed,
}

/// Both sides of a comparison: the one that the design gives, and its limit.
pub(super) struct Sides<'n> {
    pub value: &'n Node,
    pub relation: Relation,
    pub value_is: Result<Datum, Missing>,
    pub limit_is: Result<Datum, Missing>,
    pub reads: Reads,
    /// How many of the reads are of the value's side.
    pub given: usize,
    /// Which figure of its limits counts, where one has two.
    pub printed: Option<Printed>,
}

impl<'a, 'd> Evaluator<'a, 'd> {
    pub fn new(rule: &'a Rule, evaluation: &'a Evaluation<'d>, tells: Tells) -> Self {
        Self { rule, evaluation, tells, printed: Printed::First }
    }
    pub fn outcome(&self, element: Id) -> (Verdict, Option<Box<Decision>>) {
        if let Some(condition) = &self.rule.condition {
            match self.narrows().truth(condition, element) {
                Truth::True => {}
                Truth::False(_) => return (Verdict::NotApplicable, None),
                Truth::Unknown(missing) => return (self.not_known(missing), None),
            }
        }
        match self.truth(&self.rule.requirement, element) {
            Truth::True => (Verdict::Pass, None),
            Truth::False(decision) => {
                let decision = decision.or_else(|| self.decision(&self.rule.requirement, || Compared::Denied));
                (Verdict::Fail, decision)
            }
            Truth::Unknown(missing) => (self.not_known(missing), None),
        }
    }

    /// Whether a rule does not apply to anything of a stair such as this: its condition asks for another setting.
    fn is_spared_by_its_stair(&self) -> bool {
        let condition = self.rule.condition.as_ref();
        condition.is_some_and(|condition| matches!(self.narrows().truth(condition, 0), Truth::False(_)))
    }

    /// Whether a word is a class of use that the rule's set does not have.
    fn is_no_class(&self, subject: &Node, word: &str) -> bool {
        let has = |class: &String| class.eq_ignore_ascii_case(word);
        is_class(subject) && !self.rule.classes.is_empty() && !self.rule.classes.iter().any(has)
    }

    /// Whether a word is one that is asked for; a class goes by its name however it is written.
    fn is_word(&self, subject: &Node, asked: &str, word: &str) -> bool {
        asked == word || is_class(subject) && asked.eq_ignore_ascii_case(word)
    }

    /// What a rule comes to where something is not known.
    fn not_known(&self, missing: Missing) -> Verdict {
        if missing.is_of_nothing() {
            return Verdict::NotApplicable;
        }
        let absent = self.evaluation.is_absent(&missing);
        match self.rule.applies {
            Applies::WhereStated if absent => Verdict::NotApplicable,
            Applies::WhereStated | Applies::Always => Verdict::NotChecked(missing),
        }
    }

    /// Of two things that are missing, the one to tell: the first that somebody can settle. In a rule that holds only
    /// where something is stated it is the first of what may be stated all the same: in whatever order they are drawn, one
    /// such thing leaves the rule open.
    fn graver(&self, first: Option<Missing>, second: Missing) -> Option<Missing> {
        let weight = |missing: &Missing| match self.rule.applies {
            _ if missing.is_of_nothing() => 0,
            Applies::WhereStated if self.evaluation.is_absent(missing) => 1,
            Applies::WhereStated | Applies::Always => 2,
        };
        Some(match first {
            Some(first) if weight(&first) >= weight(&second) => first,
            _ => second,
        })
    }

    /// The evaluator of a condition that narrows: nobody asks what decided in it.
    fn narrows(&self) -> Self {
        Self { tells: Tells::Verdict, ..*self }
    }

    /// What decided, where that is told; the reads are still to come.
    fn decision(&self, subject: &Node, compared: impl FnOnce() -> Compared) -> Option<Box<Decision>> {
        (self.tells == Tells::Decision).then(|| {
            let compared = compared();
            Box::new(Decision {
                subject: subject.clone(),
                compared,
                reads: Vec::new(),
                given: 0,
                item: None,
                counted: false,
                lacking: None,
                printed: None,
                row: None,
                also: Vec::new(),
            })
        })
    }

    /// What else of terms that must all hold does not: told, but not traced, for it decides nothing.
    fn also(&self, terms: &[Node], element: Id) -> Vec<Decision> {
        let missed = terms.iter().filter_map(|term| match self.evaluation.trace(|| self.truth(term, element)).0 {
            Truth::False(decision) => decision.map(|decision| *decision),
            Truth::True | Truth::Unknown(_) => None,
        });
        missed
            .flat_map(|mut decision| {
                let also = std::mem::take(&mut decision.also);
                std::iter::once(decision).chain(also)
            })
            .collect()
    }

    pub fn truth(&self, node: &Node, element: Id) -> Truth {
        match node {
            Node::All(terms) => {
                let mut unknown = None;
                for (at, term) in terms.iter().enumerate() {
                    match self.truth(term, element) {
                        Truth::True => {}
                        Truth::False(Some(mut decision)) => {
                            decision.also.extend(self.also(terms.get(at + 1..).unwrap_or_default(), element));
                            return Truth::False(Some(decision));
                        }
                        Truth::False(None) => return Truth::False(None),
                        Truth::Unknown(missing) => unknown = self.graver(unknown, missing),
                    }
                }
                unknown.map_or(Truth::True, Truth::Unknown)
            }
            Node::Any(terms) => {
                let (mut unknown, mut decision): (_, Option<Box<Decision>>) = (None, None);
                for term in terms {
                    match self.truth(term, element) {
                        Truth::True => return Truth::True,
                        Truth::False(found) => decision = nearer(decision, found),
                        Truth::Unknown(missing) => unknown = self.graver(unknown, missing),
                    }
                }
                unknown.map_or(Truth::False(decision), Truth::Unknown)
            }
            Node::Not(inner) => match self.truth(inner, element) {
                Truth::True => Truth::False(None),
                Truth::False(_) => Truth::True,
                Truth::Unknown(missing) => Truth::Unknown(missing),
            },
            Node::Chain(terms, relations) => self.chain(terms, relations, element),
            Node::Is(subject, not, words, _) => {
                let (value, reads) = self.evaluation.part(|| self.value(subject, element));
                let truth = match value {
                    Ok(Datum::Word(word)) if self.is_no_class(subject, &word) => {
                        Truth::Unknown(Missing { element: 0, reason: Reason::NoSuchClass })
                    }
                    Ok(Datum::Word(word)) if words.iter().any(|asked| self.is_word(subject, asked, &word)) != *not => {
                        Truth::True
                    }
                    Ok(Datum::Word(word)) => {
                        let compared = || Compared::Words(word.into_owned(), *not, words.clone());
                        let lacking = lacking(subject, Relation::Equal).filter(|_| !not);
                        let decision = self.decision(subject, compared).map(|decision| {
                            let (given, reads) = (reads.reads.len(), reads.reads.clone());
                            Box::new(Decision { given, reads, lacking, ..*decision })
                        });
                        Truth::False(decision)
                    }
                    Ok(_) => Truth::False(None),
                    Err(missing) => Truth::Unknown(missing),
                };
                self.evaluation.note_again(reads);
                truth
            }
            // The resolver lets only conditions stand here.
            _ => Truth::False(None),
        }
    }

    /// Both sides of one comparison. Where a limit has two figures, the metric one counts for a value of which all
    /// that is written in units is written in metric ones.
    pub fn sides<'n>(&self, left: &'n Node, relation: Relation, right: &'n Node, element: Id) -> Sides<'n> {
        // The side that the design gives is the value; the other is its limit.
        let turned = (left.is_asked() && !right.is_asked()) || (right.is_plain() && !left.is_plain());
        let (value, limit, relation) = if turned { (right, left, relation.turned()) } else { (left, right, relation) };
        let first = Self { printed: Printed::First, ..*self };
        let may_have_two = self.rule.limits.iter().any(|limit| limit.metric.is_some());
        if !may_have_two || !self.has_two_figures(left) && !self.has_two_figures(right) {
            let (value_is, reads) = self.evaluation.part(|| first.value(value, element));
            let (limit_is, limit_reads) = self.evaluation.part(|| first.value(limit, element));
            let given = reads.reads.len();
            return Sides { value, relation, value_is, limit_is, reads: reads.then(limit_reads), given, printed: None };
        }
        let by = |evaluator: Self| {
            let (value_is, reads) = self.evaluation.trace(|| evaluator.value(value, element));
            let (limit_is, limit_reads) = self.evaluation.trace(|| evaluator.value(limit, element));
            let given = reads.reads.len();
            let printed = Some(evaluator.printed);
            Sides { value, relation, value_is, limit_is, reads: reads.then(limit_reads), given, printed }
        };
        let sides = by(first);
        match sides.reads.behind.units {
            Units::Metric => by(Self { printed: Printed::Metric, ..*self }),
            Units::None | Units::Customary | Units::Mixed => sides,
        }
    }

    /// Whether a value reads a limit that has a metric figure beside its first. A condition inside it is looked at
    /// where it is evaluated.
    fn has_two_figures(&self, node: &Node) -> bool {
        let two = |at: usize| self.rule.limits.get(at).is_some_and(|limit| limit.metric.is_some());
        match node {
            Node::Limit(at)
            | Node::Read(What::At(_, Place::Limit(at)), _)
            | Node::Over(_, What::At(_, Place::Limit(at)), _) => two(*at),
            Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
                self.has_two_figures(a) || self.has_two_figures(b)
            }
            Node::Negative(inner) | Node::Drawn(inner) | Node::Measured(inner) => self.has_two_figures(inner),
            Node::ReadAt(_, place, _) => self.has_two_figures(place),
            table @ (Node::ByRow(_) | Node::Between(..)) => table.limits().into_iter().any(two),
            _ => false,
        }
    }

    fn chain(&self, terms: &[(Node, Span)], relations: &[Relation], element: Id) -> Truth {
        let mut unknown = None;
        for (pair, relation) in terms.windows(2).zip(relations) {
            let [(left, _), (right, _)] = pair else { continue };
            let Sides { value, relation, value_is, limit_is, reads, given, printed } =
                self.sides(left, *relation, right, element);
            let decided = match (value_is, limit_is) {
                (Ok(value_is), Ok(limit_is)) => {
                    let worst = worst(&value_is, relation, &limit_is);
                    // What is stated of some of the steps says nothing of the others.
                    if let Some(missing) = self.rest_of_list(value, element).filter(|_| worst.is_none()) {
                        unknown = self.graver(unknown, missing);
                    }
                    worst
                }
                (Err(missing), _) | (_, Err(missing)) => {
                    unknown = self.graver(unknown, missing);
                    None
                }
            };
            let Some((value_is, item, limit_is)) = decided else {
                self.evaluation.note_again(reads);
                continue;
            };
            let decision = self.decision(value, || Compared::Numbers(value_is, relation, limit_is)).map(|decision| {
                let (counted, lacking) = (value.counts(), lacking(value, relation));
                let row = self.row(left, element).or_else(|| self.row(right, element));
                let reads = reads.reads.clone();
                Box::new(Decision { reads, given, item, counted, lacking, printed, row, ..*decision })
            });
            self.evaluation.note_again(reads);
            return Truth::False(decision);
        }
        unknown.map_or(Truth::True, Truth::Unknown)
    }

    /// The row of a table that counts for an element, by the place of its limit.
    fn row(&self, node: &Node, element: Id) -> Option<usize> {
        let Node::ByRow(rows) = node else { return None };
        let holds = |when: &Node| match self.evaluation.trace(|| self.narrows().truth(when, element)).0 {
            Truth::True => Some(true),
            Truth::False(_) => Some(false),
            Truth::Unknown(_) => None,
        };
        for row in rows {
            if row.when.as_ref().map_or(Some(true), holds)? {
                return Some(row.limit);
            }
        }
        None
    }

    pub fn value(&self, node: &Node, element: Id) -> Result<Datum, Missing> {
        let number = |node: &Node| self.number(node, element);
        match node {
            Node::Figure(measure) => finite(*measure, element),
            Node::Limit(at) => {
                let limit = self.rule.limits.get(*at).map(|limit| limit.figure(self.printed));
                finite(limit.unwrap_or(Measure::number(f64::NAN)), element)
            }
            Node::Read(what, path) => match path.split_last() {
                // A timber and a section are called for by the thing, whether or not the design defines one.
                Some((Of { kind, which: Which::TheOne }, path))
                    if *kind == kinds::TIMBER || *kind == kinds::SECTION =>
                {
                    let of = self.follow(path, element)?;
                    if self.evaluation.design.is(of, kind) {
                        return self.read(*what, of);
                    }
                    let asked: Asked = match what {
                        What::Quantity(entry) | What::At(entry, _) => (*entry).into(),
                        What::Property(property) => property.handle().into(),
                    };
                    match *kind == kinds::TIMBER {
                        true => self.evaluation.of_timber(of, asked),
                        false => self.evaluation.of_section(of, asked),
                    }
                }
                _ => self.read(*what, self.follow(path, element)?),
            },
            Node::ReadAt(entry, place, path) => {
                let place = self.number(place, element)?;
                self.evaluation.derived(self.follow(path, element)?, entry, Some(place))
            }
            Node::ByRow(rows) => {
                for row in rows {
                    match row.when.as_ref().map_or(Truth::True, |when| self.narrows().truth(when, element)) {
                        Truth::True => return self.value(&Node::Limit(row.limit), element),
                        Truth::False(_) => {}
                        Truth::Unknown(missing) => return Err(missing),
                    }
                }
                Err(Missing { element, reason: Reason::NoNumber(NoNumber::NoRow) })
            }
            Node::Between(by, rows) => self.between(by, rows, element),
            Node::Drawn(inner) => match self.evaluation.drawn() {
                Some(drawn) => {
                    let value = Evaluator { evaluation: &drawn, ..*self }.value(inner, element);
                    self.evaluation.looks_up_as(&drawn);
                    value
                }
                None => self.value(inner, element),
            },
            Node::Measured(inner) => match self.evaluation.design.as_drawn {
                Some(_) => {
                    let (value, reads) = self.evaluation.trace(|| self.value(inner, element));
                    let measured = reads.behind.measured;
                    self.evaluation.note_again(reads);
                    // What is only drawn was not measured, whatever else was.
                    match value {
                        Err(missing) if missing.reason.is_of_what_was_not_understood() => Err(missing),
                        _ if !measured => Err(Missing { element, reason: Reason::NotMeasured }),
                        value => value,
                    }
                }
                None => {
                    // What was measured later may be another value, so it is looked up all the same.
                    let _ = self.value(inner, element);
                    Err(Missing { element, reason: Reason::NotMeasured })
                }
            },
            Node::Sum(a, minus, b) => {
                let (a, b) = (number(a)?, number(b)?);
                let value = if *minus { a.value - b.value } else { a.value + b.value };
                finite(Measure { value, ..a }, element)
            }
            Node::Product(a, over, b) => {
                let by = if *over { By::Divided } else { By::Times };
                let found = product(number(a)?, by, number(b)?);
                found.map(Datum::Measure).map_err(|why| Missing { element, reason: Reason::NoNumber(why) })
            }
            Node::Negative(inner) => {
                let inner = number(inner)?;
                Ok(Datum::Measure(Measure { value: -inner.value, ..inner }))
            }
            Node::Pick(greater, a, b) => {
                let (a, b) = (number(a)?, number(b)?);
                let first = if *greater { a.value >= b.value } else { a.value <= b.value };
                Ok(Datum::Measure(if first { a } else { b }))
            }
            Node::Count(collected) => {
                #[allow(clippy::cast_precision_loss)]
                let count = self.count(collected, element)? as f64;
                Ok(Datum::Measure(Measure::number(count)))
            }
            Node::Over(aggregate, what, collected) => self.over(*aggregate, *what, collected, element),
            // The resolver lets only values stand here.
            _ => Ok(Datum::Word(Cow::Borrowed(""))),
        }
    }

    /// The thing at the end of a path.
    fn follow(&self, path: &[Of], element: Id) -> Result<Id, Missing> {
        let mut at = element;
        for of in path {
            at = self.one(*of, at)?;
        }
        Ok(at)
    }

    /// The thing of a kind that another belongs to, or that stands before, after, first or last beside it.
    fn one(&self, Of { kind, which }: Of, at: Id) -> Result<Id, Missing> {
        let design = self.evaluation.design;
        if which == Which::TheOne {
            return self.evaluation.the_one(kind, at);
        }
        let one = if design.is(at, kind) { Some(at) } else { None };
        let parent = one.and_then(|one| design.get(one)).map(|one| one.parent.unwrap_or(0));
        // The landings of a stair stand in one row, whatever they are drawn in.
        let parent = if kind == kinds::LANDING { parent.map(|_| 0) } else { parent };
        let row: Vec<Id> = match parent {
            Some(parent) => {
                let of_one = |id: &Id| {
                    kind == kinds::LANDING || design.get(*id).is_some_and(|other| other.parent.unwrap_or(0) == parent)
                };
                self.evaluation.belonging(kind, parent)?.into_iter().filter(of_one).collect()
            }
            None => self.evaluation.belonging(kind, at)?,
        };
        let row = going_up(self.evaluation, kind, row)?;
        let place = one.and_then(|one| row.iter().position(|id| *id == one));
        let found = match which {
            Which::First => row.first(),
            Which::Last => row.last(),
            Which::Before => place.and_then(|place| row.get(place.checked_sub(1)?)),
            Which::After => place.and_then(|place| row.get(place + 1)),
            Which::TheOne => None,
        };
        found.copied().ok_or(Missing { element: at, reason: Reason::NoNeighbour(kind) })
    }

    /// What lies between two rows of a table, in proportion.
    fn between(&self, by: &Node, rows: &[(Measure, usize)], element: Id) -> Result<Datum, Missing> {
        let by = self.number(by, element)?;
        let limit = |at: usize| self.rule.limits.get(at).map(|limit| limit.figure(self.printed));
        for pair in rows.windows(2) {
            let [(low, first), (high, second)] = pair else { continue };
            let within = holds(by.value, Relation::AtLeast, low.value, by.dimension)
                && holds(by.value, Relation::AtMost, high.value, by.dimension);
            let (Some(first), Some(second)) = (limit(*first), limit(*second)) else { continue };
            if within {
                let share = (by.value - low.value) / (high.value - low.value);
                return finite(Measure { value: first.value + share * (second.value - first.value), ..first }, element);
            }
        }
        Err(Missing { element, reason: Reason::NoNumber(NoNumber::NoRow) })
    }

    /// What is missing of the stated list that a term reads, if it is short.
    fn rest_of_list(&self, node: &Node, element: Id) -> Option<Missing> {
        let Node::Read(What::Property(property), path) = node else { return None };
        let at = self.follow(path, element).ok()?;
        self.evaluation.rest_of_list(at, property.handle())
    }

    fn number(&self, node: &Node, element: Id) -> Result<Measure, Missing> {
        match self.value(node, element)? {
            Datum::Measure(measure) => Ok(measure),
            // A list in a sum stands for its largest: the sums of a stair ask how much there is at most.
            Datum::List(items) => {
                let largest = items.iter().map(|item| item.measure).max_by(|a, b| a.value.total_cmp(&b.value));
                largest.ok_or(no_number(element))
            }
            // The resolver lets only numbers stand here.
            Datum::Word(_) => Err(no_number(element)),
        }
    }

    fn read(&self, what: What, element: Id) -> Result<Datum, Missing> {
        match what {
            What::Quantity(entry) => self.evaluation.derived(element, entry, None),
            What::At(entry, Place::Figure(place)) => self.evaluation.derived(element, entry, Some(place)),
            What::At(entry, Place::Limit(at)) => {
                let place = self.rule.limits.get(at).map(|limit| limit.figure(self.printed));
                self.evaluation.derived(element, entry, place)
            }
            What::Property(property) => self.evaluation.stated(element, property.handle()),
        }
    }

    /// The things of a collection that its condition leaves.
    fn collect(&self, collected: &Collected, element: Id) -> Result<Vec<Id>, Missing> {
        let all = self.evaluation.belonging(collected.kind, element)?;
        let Some(condition) = &collected.condition else { return Ok(all) };
        let (mut kept, mut unknown) = (Vec::new(), None);
        for id in all {
            match self.narrows().truth(condition, id) {
                Truth::True => kept.push(id),
                Truth::False(_) => {}
                // What has no neighbour is none of such as have one that is so.
                Truth::Unknown(missing) if missing.is_of_nothing() => {}
                Truth::Unknown(missing) => unknown = self.graver(unknown, missing),
            }
        }
        unknown.map_or(Ok(kept), Err)
    }

    fn count(&self, collected: &Collected, element: Id) -> Result<usize, Missing> {
        match &collected.condition {
            None => Ok(self.evaluation.belonging(collected.kind, element)?.len()),
            Some(_) => Ok(self.collect(collected, element)?.len()),
        }
    }

    /// Sums up, and notes as read only what decided: the largest, or the two neighbours that differ most.
    fn over(&self, aggregate: Aggregate, what: What, collected: &Collected, element: Id) -> Result<Datum, Missing> {
        let mut seen: Vec<(Measure, Reads)> = Vec::new();
        // Which things there are is not what decides here; the items are.
        let (things, _) = self.evaluation.trace(|| {
            let things = self.collect(collected, element)?;
            if aggregate.is_along() { going_up(self.evaluation, collected.kind, things) } else { Ok(things) }
        });
        let mut unknown = None;
        for id in things? {
            let (datum, reads) = self.evaluation.trace(|| self.read(what, id));
            match datum {
                Ok(Datum::Measure(measure)) => seen.push((measure, reads)),
                Ok(Datum::List(items)) => seen.extend(items.iter().map(|item| (item.measure, reads.clone()))),
                Ok(Datum::Word(_)) => {}
                Err(missing) => unknown = self.graver(unknown, missing),
            }
        }
        if let Some(missing) = unknown {
            return Err(missing);
        }
        let nothing = || Missing { element, reason: Reason::NotDrawn(Drawing::A(collected.kind)) };
        let first = seen.first().ok_or_else(nothing)?.0;
        let by = |a: &(Measure, Reads), b: &(Measure, Reads)| a.0.value.total_cmp(&b.0.value);
        let none = || (Measure { value: 0.0, ..first }, Reads::default());
        let (measure, reads) = match aggregate {
            Aggregate::Largest => seen.into_iter().rev().max_by(by).unwrap_or_else(none),
            Aggregate::Smallest => seen.into_iter().min_by(by).unwrap_or_else(none),
            Aggregate::Total => {
                let value = seen.iter().map(|(measure, _)| measure.value).sum();
                let reads = seen.into_iter().map(|(_, reads)| reads).reduce(Reads::then).unwrap_or_default();
                (Measure { value, ..first }, reads)
            }
            Aggregate::Change => most_changed(&seen, f64::abs).unwrap_or_else(none),
            Aggregate::Increase => most_changed(&seen, |change| change).unwrap_or_else(none),
            Aggregate::Decrease => most_changed(&seen, |change| -change).unwrap_or_else(none),
        };
        self.evaluation.note_again(reads);
        finite(measure, element)
    }
}

/// Whether a value is the class of use that a stair is of.
fn is_class(subject: &Node) -> bool {
    matches!(subject, Node::Read(What::Property(property), _) if property.handle() == properties::CLASS)
}

/// A value of the thing that a finding is about, read for its sentence; nothing where it is not known.
pub fn value_of(rule: &Rule, evaluation: &Evaluation<'_>, node: &Node, element: Id, printed: Printed) -> Option<Datum> {
    let evaluator = Evaluator { printed, ..Evaluator::new(rule, evaluation, Tells::Verdict) };
    evaluator.value(node, element).ok()
}

/// Of two alternatives that are not met, the one that lacks less.
fn nearer(first: Option<Box<Decision>>, second: Option<Box<Decision>>) -> Option<Box<Decision>> {
    match (first, second) {
        (Some(first), Some(second)) => Some(if second.is_nearer_than(&first) { second } else { first }),
        (first, second) => first.or(second),
    }
}

fn no_number(element: Id) -> Missing {
    Missing { element, reason: Reason::NoNumber(NoNumber::PastBounds) }
}

/// A number as a value; not known where it is none that can be compared.
fn finite(measure: Measure, element: Id) -> Result<Datum, Missing> {
    if measure.value.is_finite() { Ok(Datum::Measure(measure)) } else { Err(no_number(element)) }
}

/// Which of the two a product is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum By {
    Times,
    Divided,
}

/// A product or a quotient.
///
/// # Errors
/// Why it is no number: what is divided by nothing is undefined, and so is what can no longer be told from nothing
/// though no part of it is nothing.
pub(super) fn product(a: Measure, by: By, b: Measure) -> Result<Measure, NoNumber> {
    let (value, dimension) = match by {
        By::Divided if measure::equal(b.value, 0.0, b.dimension) => return Err(NoNumber::DividedByNothing),
        By::Divided => (a.value / b.value, a.dimension.over(b.dimension)),
        By::Times => (a.value * b.value, a.dimension.times(b.dimension)),
    };
    let vanished = a.value != 0.0 && b.value != 0.0 && !value.is_normal();
    if !value.is_finite() || vanished {
        return Err(NoNumber::PastBounds);
    }
    let style = if b.dimension == Dimension::LENGTH { b.style } else { a.style };
    Ok(Measure { value, dimension, style: style.for_dimension(dimension) })
}

/// The change between the two neighbours that differ most, and what was read of both; nothing where none differ.
fn most_changed(seen: &[(Measure, Reads)], counts: fn(f64) -> f64) -> Option<(Measure, Reads)> {
    let (mut most, mut found) = (0.0, None);
    for pair in seen.windows(2) {
        let [(a, from), (b, to)] = pair else { continue };
        let change = counts(b.value - a.value);
        if change > most {
            (most, found) = (change, Some((Measure { value: change, ..*a }, from, to)));
        }
    }
    found.map(|(measure, from, to)| (measure, to.clone().then(from.clone())))
}

/// What is not there, where a count or an unguarded drop decides.
fn lacking(value: &Node, relation: Relation) -> Option<&'static Kind> {
    match value {
        Node::Count(Collected { kind, .. }) if !kind.example.is_empty() => {
            matches!(relation, Relation::AtLeast | Relation::More).then_some(*kind)
        }
        // A sum of counts lacks what the first of them counts.
        Node::Sum(first, false, _) => lacking(first, relation),
        Node::Read(What::Quantity(entry) | What::At(entry, _), _) | Node::ReadAt(entry, ..) => entry.cure,
        _ => None,
    }
}

/// Whether a relation holds. A value at its limit passes `<=` and fails `<`. What is not finite has no relation.
pub fn holds(value: f64, relation: Relation, limit: f64, dimension: Dimension) -> bool {
    if !value.is_finite() || !limit.is_finite() {
        return false;
    }
    let same = || measure::equal(value, limit, dimension);
    match relation {
        Relation::Less => value < limit && !same(),
        Relation::AtMost => value <= limit || same(),
        Relation::More => value > limit && !same(),
        Relation::AtLeast => value >= limit || same(),
        Relation::Equal => same(),
        Relation::Unequal => !same(),
    }
}

/// The numbers of a value; a list is compared item by item.
fn items(datum: &Datum) -> impl Iterator<Item = (Measure, Option<Span>)> + '_ {
    let (one, many): (_, &[ListItem]) = match datum {
        Datum::Measure(measure) => (Some((*measure, None)), &[]),
        Datum::List(items) => (None, items),
        Datum::Word(_) => (None, &[]),
    };
    one.into_iter().chain(many.iter().map(|item| (item.measure, Some(item.span))))
}

/// The pair that misses by most, if any does.
fn worst(value: &Datum, relation: Relation, limit: &Datum) -> Option<(Measure, Option<Span>, Measure)> {
    if let (Datum::Measure(value), Datum::Measure(limit)) = (value, limit) {
        let holds = holds(value.value, relation, limit.value, value.dimension);
        return (!holds).then_some((*value, None, *limit));
    }
    let pairs = items(value).flat_map(|(value, item)| items(limit).map(move |(limit, _)| (value, item, limit)));
    pairs
        .filter(|(value, _, limit)| !holds(value.value, relation, limit.value, value.dimension))
        .max_by(|a, b| (a.0.value - a.2.value).abs().total_cmp(&(b.0.value - b.2.value).abs()))
}
