//! What stands in the block of a rule, an amendment or a withdrawal; each slip reported at its word.

use std::collections::BTreeMap;

use smol_str::SmolStr;

use super::problem::{BesideFault, BlockProblem, Holder, Problem, PropertyMeant, StatementMeant, TableFault};
use super::rows;
use super::rule::{Limit, LimitOf, Sure};
use super::sentence::StatedSaying;
use super::table::{RowAsks, Table, TableRow};
use crate::base::names::{nearest, says_something};
use crate::base::{Reporter, Source, Span, limits, work};
use crate::measure::Measure;
use crate::syntax::{self, ClauseTree, Expr, Fragment, Item, LoneCondition, Term, TermKind};

/// How far a metric figure may lie from the one that it stands beside, as a share of it: the codes round 1/4 in to
/// 6 mm, which is 6 % away.
const FARTHEST_BESIDE: f64 = 0.1;

/// What an amendment puts in place of a condition.
pub(super) enum NewCondition {
    /// `where: always`.
    Always(Span),
    /// A condition, with its words.
    Where(Box<LoneCondition>, Span),
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
    /// Names that the rule or the figure went by before.
    pub formerly: Vec<StatedText>,
    /// Names that the figure went by before as a limit of rules of their own.
    pub former_limits: Vec<StatedText>,
    pub limits: Vec<Limit>,
    pub tables: Vec<Table>,
    pub says: Vec<StatedSaying>,
    pub cites: Option<StatedText>,
    pub because: Option<StatedText>,
    pub sure: Option<StatedText>,
    /// A design may give itself leave to depart from the rule; the words that say so, or that it may not.
    pub waivable: Option<(bool, Span)>,
    pub fragments: Vec<Fragment>,
    /// Names of limits and tables that could not be read, which was reported.
    pub refused: Vec<String>,
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
            && self.says.is_empty()
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
    parts_of(body, holder, (set, ""), report)
}

/// The same of a block of this name, where its parts go by it.
pub(super) fn parts_of(
    body: &[Item],
    holder: Holder,
    (set, block_name): (&str, &str),
    report: &mut Reporter<'_, Problem>,
) -> Parts {
    let mut reader = PartsReader {
        holder,
        set,
        block_name,
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
    /// Name of the block, where its parts go by it.
    block_name: &'p str,
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
            Item::Fragment(fragment) if self.holder == Holder::Figure => {
                self.report.push(fragment.span, BlockProblem::FigureProves { figure: self.block_name.to_owned() });
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
                let takes_figures =
                    name.starts_with("limit ") || self.holder == Holder::Figure && !name.starts_with("formerly");
                if *damaged && takes_figures {
                    self.refuses(name);
                }
                if !damaged {
                    self.property(name, *name_span, value, *value_span);
                }
            }
            Item::Malformed { terms, span } => self.malformed(terms, *span),
            Item::Damaged { terms, .. } => {
                let words: Vec<&str> = terms.iter().map_while(Term::word).take_while(|word| *word != "by").collect();
                if let ["limit", name @ ..] = words.as_slice() {
                    self.parts.refused.push(name.join(" "));
                }
            }
            Item::Block { .. } => {}
        }
        self.parts.damaged |= self.report.found.len() > before;
    }

    fn clause(&mut self, span: Span) {
        match self.holder {
            Holder::Withdrawal => return self.report.push(span, BlockProblem::WithdrawalAsks),
            Holder::Figure => return self.report.push(span, BlockProblem::FigureAsks),
            Holder::Rule | Holder::Amendment => {}
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
        let said = super::rule::one_line(self.report.source.slice(span));
        if let Some(rest) = said.strip_prefix("always ") {
            return self.report.push(span, BlockProblem::AlwaysAlone { rest: rest.to_owned() });
        }
        match syntax::parse_lone_condition(self.report.source, span) {
            Ok(tree) => self.parts.condition = Some(NewCondition::Where(Box::new(tree), span)),
            Err(diagnostic) => self.report.found.push(diagnostic.lift()),
        }
    }

    fn property(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let is_limit = name == "limit" || name.starts_with("limit ");
        let says = name == "says" || name.starts_with("says ");
        let by = self.holder == Holder::Figure && name.strip_prefix("is").is_some_and(|rest| rest.starts_with(" by"));
        let known = if is_limit {
            "limit"
        } else if by {
            "is"
        } else if says {
            "says"
        } else {
            name
        };
        if !self.holder.takes().contains(&known) {
            let meant = self.property_meant(name, value, value_span);
            let (holder, name) = (self.holder, name.to_owned());
            return self.report.push(name_span, BlockProblem::UnknownProperty { holder, name, meant });
        }
        if value.is_empty() {
            return self.report.push(name_span, BlockProblem::NothingStated { name: name.to_owned() });
        }
        if is_limit || by || name == "is" {
            return self.limit(name, name_span, value, value_span);
        }
        if says {
            return self.says(name, name_span, value, value_span);
        }
        if name.starts_with("formerly") {
            return self.formerly(name, value, value_span);
        }
        let text = text_of(self.report.source, value, value_span);
        if !says_something(&text) {
            // That a withdrawal gives no reason is reported of it.
            if self.holder == Holder::Withdrawal && name == "because" {
                return;
            }
            return self.report.push(value_span, BlockProblem::NothingStated { name: name.to_owned() });
        }
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

    /// `says: "..."`, or `says NAME: "..."` where that decided.
    fn says(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let [Term { kind: TermKind::Text(_), span }] = value else {
            return self.report.push(value_span, BlockProblem::SaysNoText);
        };
        let of = name.strip_prefix("says ").map(|of| {
            let span = last_of(self.report.source.slice(name_span), name_span);
            (of.to_owned(), span)
        });
        self.parts.says.push(StatedSaying { of, span: inside_quotes(self.report.source, *span) });
    }

    /// `formerly: "riser height"`, several parted by commas.
    fn formerly(&mut self, name: &str, value: &[Term], value_span: Span) {
        for term in value.iter().filter(|term| term.kind != TermKind::Comma) {
            match &term.kind {
                TermKind::Text(text) if says_something(text) => {
                    let names =
                        if name == "formerly" { &mut self.parts.formerly } else { &mut self.parts.former_limits };
                    names.push((text.trim().to_owned(), term.span));
                }
                TermKind::Text(_) => self.report.push(term.span, BlockProblem::NothingStated { name: name.to_owned() }),
                _ => return self.report.push(value_span, BlockProblem::FormerlyNoName),
            }
        }
    }

    fn limit(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let read = self.parts.limits.len();
        self.read_limit(name, name_span, value, value_span);
        if self.parts.limits.len() == read {
            self.refuses(name);
        }
    }

    /// Notes that a limit could not be read: that nothing goes by its name is no slip of the clause then.
    fn refuses(&mut self, name: &str) {
        let limit = name.strip_prefix("limit ").unwrap_or(self.block_name);
        let limit = limit.split_once(" by ").map_or(limit, |(table, _)| table);
        let limit = limit.split_once(FORMERLY).map_or(limit, |(limit, _)| limit);
        self.parts.refused.push(limit.to_owned());
    }

    fn read_limit(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span) {
        let limit = match (self.holder, name.strip_prefix("limit ")) {
            // A figure goes by the name of its block.
            (Holder::Figure, _) => format!("{}{}", self.block_name, name.strip_prefix("is").unwrap_or_default()),
            (_, Some(limit)) => limit.to_owned(),
            (_, None) => return self.report.push(name_span, BlockProblem::UnnamedLimit),
        };
        let (limit, former) = former(&limit);
        let many = value.iter().filter(|term| matches!(term.kind, TermKind::Figure(_))).count() > 1
            && !self.in_parentheses(value.get(1..).unwrap_or_default())
            || value.iter().any(|term| term.kind == TermKind::Comma);
        if many || value.len() > 1 && limit.contains(" by ") {
            return self.table_or_nothing((&limit, former), name_span, value, value_span);
        }
        if self.are_too_many(name_span) {
            return;
        }
        let named = last_of(self.report.source.slice(name_span), name_span);
        // An amendment may restate one row of a table by the name of its limit, `most for service or private`.
        let of_row = |words: &str| {
            let begins = |begin: &str| words.contains(&format!(" {begin} "));
            self.holder == Holder::Amendment && rows::BEGIN.iter().any(|begin| begins(begin))
        };
        // The name of a figure is that of its block, and looked at there.
        if self.holder != Holder::Figure && !syntax::is_name(&limit) && !of_row(&limit) {
            return self.report.push(named, BlockProblem::LimitName { name: limit });
        }
        let Some((measure, metric)) = self.figure(&limit, value, value_span) else { return };
        self.put_limit((limit, former), (measure, metric), value_span, named);
    }

    fn put_limit(
        &mut self,
        (name, former): (String, Option<String>),
        (measure, metric): (Measure, Option<Measure>),
        span: Span,
        named: Span,
    ) {
        let (source, set) = (self.report.source.clone(), self.set.to_owned());
        let of = if self.holder == Holder::Figure { LimitOf::Set } else { LimitOf::Rule };
        let (cites, formerly, replaced) = (String::new(), former.into_iter().collect(), None);
        self.parts.limits.push(Limit {
            name,
            measure,
            metric,
            source,
            span,
            named,
            set,
            replaced,
            of,
            formerly,
            cites,
        });
    }

    /// Whether a rule has as many limits as it may; the first one too many is reported.
    fn are_too_many(&mut self, place: Span) -> bool {
        work::done(self.parts.limits.len());
        if self.parts.limits.len() < limits::RULE_LIMITS {
            return false;
        }
        let told = std::mem::replace(&mut self.too_many_limits, Told::Told);
        if told == Told::Not {
            self.report.push(place, BlockProblem::TooManyLimits);
        }
        true
    }

    /// A table, and none of its rows where one could not be read.
    fn table_or_nothing(&mut self, limit: (&str, Option<String>), name_span: Span, value: &[Term], value_span: Span) {
        let (limits, tables) = (self.parts.limits.len(), self.parts.tables.len());
        self.table(limit, name_span, value, value_span);
        if self.parts.tables.len() == tables {
            self.parts.limits.truncate(limits);
        }
    }

    /// A table of limits: `limit least by occupants of stair: 36" up to 49, 44" otherwise`.
    fn table(&mut self, (limit, formerly): (&str, Option<String>), name_span: Span, value: &[Term], value_span: Span) {
        let source = self.report.source.clone();
        let words = source.slice(name_span);
        let called = limit.split_once(" by ").map_or(limit, |(name, _)| name);
        let refuse = |why| BlockProblem::Table { limit: called.to_owned(), why };
        let Some((name, at)) = limit.split_once(" by ").zip(words.find(" by ")).map(|((name, _), at)| (name, at))
        else {
            let figure = self.holder == Holder::Figure;
            return self.report.push(value_span, refuse(TableFault::NoBy { figure }));
        };
        let named =
            last_of(words.get(..at).unwrap_or_default(), Span { end: name_span.start + at as u32, ..name_span });
        if self.holder != Holder::Figure && !syntax::is_name(name) {
            return self.report.push(named, BlockProblem::LimitName { name: name.to_owned() });
        }
        let by = Span::new(name_span.start as usize + at + " by ".len(), name_span.end as usize);
        let (stands, by_words) = (by, super::rule::one_line(source.slice(by)));
        let (by, and_by) = match what_it_goes_by(&source, by) {
            Ok(by) => by,
            Err(diagnostic) => return self.report.found.push(diagnostic.lift()),
        };
        let (mut rows, mut between, mut first): (Vec<TableRow>, _, Option<Measure>) = (Vec::new(), false, None);
        for terms in value.split(|term| term.kind == TermKind::Comma).filter(|terms| !terms.is_empty()) {
            let whole = terms.first().zip(terms.last()).map_or(value_span, |(first, last)| first.span.to(last.span));
            if rows::reads_between(terms) {
                between = true;
                continue;
            }
            if self.are_too_many(whole) {
                return;
            }
            if !matches!(terms, [Term { kind: TermKind::Figure(_), .. }, ..]) {
                return self.report.push(whole, refuse(TableFault::NoFigure));
            }
            let with_metric = self.in_parentheses(terms.get(1..4).unwrap_or_default());
            let figures = if with_metric { 4 } else { 1 };
            let Some((figure, words)) = terms.split_at_checked(figures) else { continue };
            let span = figure.first().zip(figure.last()).map_or(whole, |(first, last)| first.span.to(last.span));
            let Some((measure, metric)) = self.figure(name, figure, span) else { return };
            match first {
                Some(first) if first.dimension != measure.dimension => {
                    return self.report.push(span, refuse(TableFault::OtherSort { first: first.dimension }));
                }
                _ => first = Some(measure),
            }
            let place = words.first().zip(words.last()).map_or(whole, |(first, last)| first.span.to(last.span));
            let asks = match rows::row(&source, words, and_by.is_some()) {
                Ok(asks) => asks,
                Err((at, why)) => {
                    return self.report.push(if at == Span::default() { whole } else { at }, refuse(why));
                }
            };
            if rows.last().is_some_and(|row| row.asks == RowAsks::Otherwise) {
                return self.report.push(whole, refuse(TableFault::AfterOtherwise));
            }
            let says = super::rule::one_line(source.slice(place));
            let limit = format!("{name} {says}");
            let former = formerly.as_ref().map(|former| format!("{former} {says}"));
            if rows.iter().any(|row| row.limit == limit) {
                return self.report.push(place, refuse(TableFault::Twice));
            }
            self.put_limit((limit.clone(), former), (measure, metric), span, place);
            rows.push(TableRow { asks, limit, span: place });
        }
        let at_one = |row: &TableRow| matches!(&row.asks, RowAsks::Number(bounds) if matches!(bounds.as_slice(), [(crate::syntax::Relation::Equal, ..)]));
        if between && let Some(row) = rows.iter().find(|row| !at_one(row)) {
            return self.report.push(row.span, refuse(TableFault::NotAt));
        }
        if between && rows.len() < 2 {
            return self.report.push(value_span, refuse(TableFault::OneRow));
        }
        if between && and_by.is_some() {
            return self.report.push(stands, refuse(TableFault::BetweenTwo));
        }
        self.parts.tables.push(Table { name: name.to_owned(), formerly, by, and_by, by_words, stands, rows, between });
    }

    /// A figure, with the metric one beside it; nothing where it is none, which is reported.
    fn figure(&mut self, limit: &str, value: &[Term], value_span: Span) -> Option<(Measure, Option<Measure>)> {
        let limit = limit.to_owned();
        let mut metric = None;
        let measure = match value {
            [Term { kind: TermKind::Figure(measure), .. }] => *measure,
            [Term { kind: TermKind::Figure(measure), .. }, beside @ ..] if self.in_parentheses(beside) => {
                metric = Some(match self.beside(*measure, beside) {
                    Ok(metric) => metric,
                    Err((span, why)) => {
                        self.report.push(span, BlockProblem::Beside { limit, why });
                        return None;
                    }
                });
                *measure
            }
            [Term { kind: TermKind::Impossible(why), .. }] => {
                self.report.push(value_span, BlockProblem::LimitImpossible { limit, why: *why });
                return None;
            }
            _ => {
                self.report.push(value_span, BlockProblem::LimitValue { limit });
                return None;
            }
        };
        Some((measure, metric))
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
            (Holder::Withdrawal | Holder::Figure, _) => StatementMeant::Reason,
            (_, "all" | "every" | "any") => StatementMeant::ClauseOfAll,
            (Holder::Amendment, _) => StatementMeant::Change,
            (Holder::Rule, _) => StatementMeant::Clause,
        }
    }
}

/// What stands between a limit's name and the one that it went by before.
const FORMERLY: &str = " formerly ";

/// A limit's name with what its table goes by, and the name that it went by before: `most formerly widest by use`.
fn former(limit: &str) -> (String, Option<String>) {
    match limit.split_once(FORMERLY) {
        Some((name, rest)) => {
            let (former, by) = rest.find(" by ").and_then(|at| rest.split_at_checked(at)).unwrap_or((rest, ""));
            (format!("{name}{by}"), Some(former.to_owned()))
        }
        None => (limit.to_owned(), None),
    }
}

/// What a table goes by: one thing, or two that are joined by `and`.
fn what_it_goes_by(
    source: &Source,
    by: Span,
) -> Result<(Expr, Option<Expr>), Box<crate::base::Diagnostic<syntax::Problem>>> {
    let refused = match syntax::parse_value(source, by) {
        Ok(by) => return Ok((by, None)),
        Err(refused) => refused,
    };
    for (at, joined) in source.slice(by).match_indices(" and ") {
        let (first, second) = (by.start as usize + at, by.start as usize + at + joined.len());
        let first = syntax::parse_value(source, Span::new(by.start as usize, first));
        let second = syntax::parse_value(source, Span::new(second, by.end as usize));
        if let (Ok(first), Ok(second)) = (first, second) {
            return Ok((first, Some(second)));
        }
    }
    Err(refused)
}

/// The place of a text without its quotes.
fn inside_quotes(source: &Source, text: Span) -> Span {
    let quote = |sign: Option<char>| sign.map_or(0, char::len_utf8) as u32;
    let mut signs = source.slice(text).chars();
    let (first, last) = (quote(signs.next()), quote(signs.next_back()));
    Span { start: text.start + first, end: text.end.saturating_sub(last).max(text.start + first) }
}

/// The place of what stands after the first word.
fn last_of(words: &str, span: Span) -> Span {
    let rest = words.find(char::is_whitespace).and_then(|blank| words.get(blank..)).unwrap_or("");
    let length = rest.trim_start().len();
    Span::new((span.end as usize).saturating_sub(length), span.end as usize)
}
