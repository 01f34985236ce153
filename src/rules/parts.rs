//! What stands in the block of a rule, an amendment or a withdrawal; each slip reported at its word.

use std::collections::BTreeMap;

use smol_str::SmolStr;

use super::problem::{BesideFault, BlockProblem, Holder, Problem, PropertyMeant, StatementMeant};
use super::rule::{Limit, Sure};
use crate::base::names::nearest;
use crate::base::{Reporter, Source, Span, limits, work};
use crate::measure::Measure;
use crate::syntax::{self, ClauseTree, Expr, Fragment, Item, Term, TermKind};

/// How far a metric figure may lie from the one that it stands beside, as a share of it: the codes round 1/4 in to
/// 6 mm, which is 6 % away.
const FARTHEST_BESIDE: f64 = 0.1;

/// What an amendment puts in place of a condition.
pub(super) enum NewCondition {
    /// `where: always`.
    Always(Span),
    /// A condition, with its words.
    Where(Expr, Span),
}

/// A text with its place.
pub(super) type StatedText = (String, Span);

/// A verb that takes the place of the rule's own.
#[derive(Clone, Copy)]
pub(super) struct StatedVerb {
    /// `shall`, not `should`.
    pub shall: bool,
    pub span: Span,
}

/// What stands in a block.
#[derive(Default)]
pub(super) struct Parts {
    pub clause: Option<ClauseTree>,
    pub verb: Option<StatedVerb>,
    pub condition: Option<NewCondition>,
    pub limits: Vec<Limit>,
    pub cites: Option<StatedText>,
    pub because: Option<StatedText>,
    pub sure: Option<StatedText>,
    /// A design may give itself leave to depart from the rule; the words that say so, or that it may not.
    pub waivable: Option<(bool, Span)>,
    pub fragments: Vec<Fragment>,
    /// Something in it could not be read, and was reported.
    pub damaged: bool,
}

impl Parts {
    /// Whether nothing at all is stated.
    pub fn is_empty(&self) -> bool {
        self.clause.is_none()
            && self.verb.is_none()
            && self.condition.is_none()
            && self.limits.is_empty()
            && self.cites.is_none()
            && self.because.is_none()
            && self.sure.is_none()
            && self.waivable.is_none()
            && self.fragments.is_empty()
    }
}

/// A text as it was meant: without its quotes, or as it stands.
pub(super) fn text_of(source: &Source, value: &[Term], span: Span) -> String {
    match value {
        [Term { kind: TermKind::Text(text), .. }] => text.to_string(),
        _ => source.slice(span).split_whitespace().collect::<Vec<_>>().join(" "),
    }
}

/// Reads a block's parts; its limits are set by the set of this title. Blocks inside it are read where the file's
/// other blocks are.
pub(super) fn parts(body: &[Item], holder: Holder, set: &str, report: &mut Reporter<'_, Problem>) -> Parts {
    let mut reader = PartsReader {
        holder,
        set,
        report,
        stated: BTreeMap::new(),
        too_many_limits: Told::Not,
        parts: Parts::default(),
    };
    for item in body {
        reader.item(item);
    }
    reader.parts
}

/// Reports a property that is stated a second time; false if it is.
pub(super) fn stated_once(
    stated: &mut BTreeMap<SmolStr, Span>,
    name: &str,
    span: Span,
    report: &mut Reporter<'_, Problem>,
) -> bool {
    let first = stated.get(name).copied();
    match first {
        Some(first) => report.push(span, BlockProblem::StatedTwice { name: name.to_owned(), first }),
        None => drop(stated.insert(name.into(), span)),
    }
    first.is_none()
}

/// Whether a message that comes once was given.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Told {
    Not,
    Told,
}

struct PartsReader<'p, 'a> {
    holder: Holder,
    /// Title of the set.
    set: &'p str,
    report: &'p mut Reporter<'a, Problem>,
    /// The properties that were stated so far, and where.
    stated: BTreeMap<SmolStr, Span>,
    too_many_limits: Told,
    parts: Parts,
}

impl PartsReader<'_, '_> {
    fn item(&mut self, item: &Item) {
        let before = self.report.found.len();
        match item {
            Item::Clause(span) => self.clause(*span),
            Item::Condition { word, span, .. } => {
                if stated_once(&mut self.stated, "where", *word, self.report) {
                    self.condition(*word, *span);
                }
            }
            Item::Fragment(fragment) if self.holder == Holder::Withdrawal => {
                self.report.push(fragment.span, BlockProblem::WithdrawalProves);
            }
            Item::Fragment(fragment) => self.parts.fragments.push(*fragment),
            Item::Property { name, name_span, value, value_span, damaged, .. } => {
                // A second statement leaves the first as it is.
                if !stated_once(&mut self.stated, name, *name_span, self.report) {
                    return;
                }
                self.parts.damaged |= *damaged;
                if !damaged {
                    self.property(name, *name_span, value, *value_span);
                }
            }
            Item::Malformed { terms, span } => self.malformed(terms, *span),
            Item::Block { .. } | Item::Damaged { .. } => {}
        }
        self.parts.damaged |= self.report.found.len() > before;
    }

    fn clause(&mut self, span: Span) {
        if self.holder == Holder::Withdrawal {
            return self.report.push(span, BlockProblem::WithdrawalAsks);
        }
        match syntax::parse_clause(self.report.source, span) {
            Ok(clause) => match &self.parts.clause {
                None => self.parts.clause = Some(clause),
                Some(first) => self.report.push(span, BlockProblem::SecondClause { first: first.span }),
            },
            Err(diagnostic) => self.report.found.push(diagnostic.lift()),
        }
    }

    fn condition(&mut self, word: Span, span: Span) {
        if self.holder != Holder::Amendment {
            return self.report.push(word, BlockProblem::ConditionIn(self.holder));
        }
        if super::rule::one_line(self.report.source.slice(span)) == "always" {
            self.parts.condition = Some(NewCondition::Always(span));
            return;
        }
        match syntax::parse_condition(self.report.source, span) {
            Ok(tree) => self.parts.condition = Some(NewCondition::Where(tree, span)),
            Err(diagnostic) => self.report.found.push(diagnostic.lift()),
        }
    }

    fn property(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let is_limit = name == "limit" || name.starts_with("limit ");
        if !self.holder.takes().contains(&if is_limit { "limit" } else { name }) {
            let meant = self.property_meant(name, value, value_span);
            let (holder, name) = (self.holder, name.to_owned());
            return self.report.push(name_span, BlockProblem::UnknownProperty { holder, name, meant });
        }
        if value.is_empty() {
            return self.report.push(name_span, BlockProblem::NothingStated { name: name.to_owned() });
        }
        if is_limit {
            return self.limit(name, name_span, value, value_span);
        }
        let text = text_of(self.report.source, value, value_span);
        match name {
            "verb" => self.verb(text, value_span),
            "source" => self.parts.cites = Some((text, value_span)),
            "because" => self.parts.because = Some((text, value_span)),
            "sure" => self.sure(text, value, value_span),
            "waive" => self.waive(text, value_span),
            // `passes` and the like are read as fragments, `where` as a condition.
            _ => {}
        }
    }

    fn property_meant(&self, name: &str, value: &[Term], value_span: Span) -> PropertyMeant {
        let figure = matches!(value, [Term { kind: TermKind::Figure(_), .. }]) && self.holder != Holder::Withdrawal;
        match (nearest(name, self.holder.takes().iter().copied()), self.holder, name) {
            (Some(near), ..) => PropertyMeant::Near(near),
            (None, Holder::Rule, "verb") => PropertyMeant::Verb,
            _ if figure && syntax::is_name(name) => PropertyMeant::Limit(value_span),
            _ => PropertyMeant::Unknown,
        }
    }

    fn limit(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let Some(limit) = name.strip_prefix("limit ").map(str::to_owned) else {
            return self.report.push(name_span, BlockProblem::UnnamedLimit);
        };
        work::done(self.parts.limits.len());
        if self.parts.limits.len() >= limits::RULE_LIMITS {
            let told = std::mem::replace(&mut self.too_many_limits, Told::Told);
            if told == Told::Not {
                self.report.push(name_span, BlockProblem::TooManyLimits);
            }
            return;
        }
        let named = last_of(self.report.source.slice(name_span), name_span);
        if !syntax::is_name(&limit) {
            return self.report.push(named, BlockProblem::LimitName { name: limit });
        }
        let mut metric = None;
        let measure = match value {
            [Term { kind: TermKind::Figure(measure), .. }] => *measure,
            [Term { kind: TermKind::Figure(measure), .. }, beside @ ..] if self.in_parentheses(beside) => {
                metric = Some(match self.beside(*measure, beside) {
                    Ok(metric) => metric,
                    Err((span, why)) => return self.report.push(span, BlockProblem::Beside { limit, why }),
                });
                *measure
            }
            [Term { kind: TermKind::Impossible(why), .. }] => {
                return self.report.push(value_span, BlockProblem::LimitImpossible { limit, why: *why });
            }
            _ => return self.report.push(value_span, BlockProblem::LimitValue { limit }),
        };
        let (source, set) = (self.report.source.clone(), self.set.to_owned());
        let (span, replaced) = (value_span, None);
        self.parts.limits.push(Limit { name: limit, measure, metric, source, span, named, set, replaced });
    }

    /// Whether what follows a figure stands in parentheses, as a second figure does.
    fn in_parentheses(&self, terms: &[Term]) -> bool {
        let said = |term: &Term| self.report.source.slice(term.span);
        matches!(terms, [open, _, close] if said(open) == "(" && said(close) == ")")
    }

    /// The metric figure that stands beside another; or what is wrong with it, and where.
    fn beside(&self, first: Measure, terms: &[Term]) -> Result<Measure, (Span, BesideFault)> {
        let [_, Term { kind, span }, _] = terms else { return Err((Span::default(), BesideFault::NoFigure)) };
        let TermKind::Figure(metric) = kind else { return Err((*span, BesideFault::NoFigure)) };
        if metric.dimension != first.dimension {
            return Err((*span, BesideFault::OtherSort { first: first.dimension }));
        }
        if first.style.is_metric() || !metric.style.is_metric() {
            return Err((*span, BesideFault::NotMetric));
        }
        let apart = (metric.value - first.value).abs();
        if apart > FARTHEST_BESIDE * first.value.abs() {
            let exact = Measure { value: first.value, ..*metric };
            return Err((*span, BesideFault::Far { exact, metric: *metric }));
        }
        Ok(*metric)
    }

    fn verb(&mut self, said: String, span: Span) {
        match said.as_str() {
            "shall" | "should" => self.parts.verb = Some(StatedVerb { shall: said == "shall", span }),
            _ => {
                let near = nearest(&said, ["shall", "should"]);
                self.report.push(span, BlockProblem::Verb { said, near });
            }
        }
    }

    /// `memory`, `second hand`, `seen`, or a text in quotes.
    fn sure(&mut self, said: String, value: &[Term], span: Span) {
        let quoted = matches!(value, [Term { kind: TermKind::Text(_), .. }]);
        let known = Sure::of(&said);
        if quoted || known.is_some() {
            // What was seen on a page needs no remark.
            let sure = if known == Some(Sure::Seen) { String::new() } else { said };
            self.parts.sure = Some((sure, span));
            return;
        }
        let near = nearest(&said, Sure::ALL.map(Sure::word));
        self.report.push(span, BlockProblem::Sure { said, near });
    }

    /// `never`, or `allowed`.
    fn waive(&mut self, said: String, span: Span) {
        match said.as_str() {
            "never" | "allowed" => self.parts.waivable = Some((said == "allowed", span)),
            _ => {
                let near = nearest(&said, ["never", "allowed"]);
                self.report.push(span, BlockProblem::Waive { said, near });
            }
        }
    }

    /// A line of a block that is no statement.
    fn malformed(&mut self, terms: &[Term], span: Span) {
        let words: Vec<String> = terms.iter().map_while(Term::word).map(str::to_lowercase).collect();
        let first = words.first().map_or("", String::as_str);
        let place = terms.first().map_or(span, |term| term.span);
        if self.holder.takes().contains(&first) {
            let upto = if first == "limit" { words.len().min(terms.len().saturating_sub(1)).max(1) } else { 1 };
            let said = words.get(..upto).map(|words| words.join(" ")).unwrap_or_default();
            let place = terms.get(upto - 1).map_or(place, |last| place.to(last.span));
            return self.report.push(place, BlockProblem::MissingColon { said });
        }
        if self.holder != Holder::Withdrawal && nearest(first, ["each"]).is_some() {
            return self.report.push(place, BlockProblem::NotAStatement(StatementMeant::Each));
        }
        let meant = self.statement_meant(first, span);
        self.report.push(span, BlockProblem::NotAStatement(meant));
    }

    fn statement_meant(&self, first: &str, span: Span) -> StatementMeant {
        let line = self.report.source.slice(span);
        match (self.holder, first) {
            _ if line.starts_with("//") || line.starts_with("--") => StatementMeant::Remark,
            (Holder::Withdrawal, _) => StatementMeant::Reason,
            (_, "all" | "every" | "any") => StatementMeant::ClauseOfAll,
            (Holder::Amendment, _) => StatementMeant::Change,
            (Holder::Rule, _) => StatementMeant::Clause,
        }
    }
}

/// The place of what stands after the first word.
fn last_of(words: &str, span: Span) -> Span {
    let rest = words.find(char::is_whitespace).and_then(|blank| words.get(blank..)).unwrap_or("");
    let length = rest.trim_start().len();
    Span::new((span.end as usize).saturating_sub(length), span.end as usize)
}
