//! A ruleset: rules with their limits, sources and fragments.

use std::sync::Arc;

use super::node::{Node, What};
use super::saying::Saying;
use super::table::Table;
use super::way::Way;
use crate::base::{Source, Span};
use crate::measure::{Measure, print};
use crate::model::{Kind, PropertyName};
use crate::syntax::Fragment;

/// A ruleset.
#[derive(Debug, Clone, Default)]
#[non_exhaustive]
pub struct RuleSet {
    /// The text that it was read from.
    pub text: Option<Source>,
    /// Its title.
    pub title: String,
    /// Where its heading says that; nowhere where it has none.
    pub titled: Span,
    /// What it rests on.
    pub basis: String,
    /// The edition of that.
    pub edition: String,
    /// What its authors warn of.
    pub caution: String,
    /// What it is for; nothing where neither it nor a set that it takes in says so.
    pub serves: Vec<Purpose>,
    /// The sets that it takes in, the nearest first.
    pub takes_in: Vec<Below>,
    /// The classes of use that its document has; empty where it has none of its own.
    pub classes: Arc<[String]>,
    /// Figures that its rules share, by their names.
    pub figures: Vec<Limit>,
    /// Its rules, in order.
    pub rules: Vec<Arc<Rule>>,
    /// Rules that it, or a set that it takes in, takes out.
    pub withdrawn: Vec<Withdrawn>,
    /// Names of rules that stand in it and could not be read.
    pub unread: Vec<String>,
    /// Those of its figures that are tables, of which each row is a figure of it.
    pub figure_tables: Vec<Table>,
    /// Names that its figures went by before, each with the one of now.
    pub former_figures: Vec<(String, String)>,
    /// Figures that stand in it and could not be read, by name.
    pub unread_figures: Vec<String>,
    /// The texts that it is made from: its own, then those of the sets that it takes in.
    pub texts: Vec<Source>,
}

impl RuleSet {
    /// The rule that goes by a name; where none does, the one that did before.
    pub fn rule_called(&self, name: &str) -> Option<&Arc<Rule>> {
        let now = self.rules.iter().find(|rule| rule.name == name);
        now.or_else(|| self.rules.iter().find(|rule| rule.was_called(name)))
    }

    /// The texts that it was read from: its own, then those of the sets that it takes in, in their order.
    pub fn texts(&self) -> impl Iterator<Item = &Source> {
        self.text.iter().chain(self.takes_in.iter().filter_map(|below| below.text.as_ref()))
    }

    /// What it, and the sets that it takes in, change of the sets below them.
    pub fn departures(&self) -> Departures {
        let amended = |way: Way| {
            let goes =
                |rule: &&Arc<Rule>| rule.amendments.iter().filter_map(|amendment| amendment.way).max() == Some(way);
            self.rules.iter().filter(goes).map(|rule| rule.name.clone()).collect()
        };
        let withdrawn = self.withdrawn.iter().map(|gone| gone.rule.name.clone()).collect();
        Departures { looser: amended(Way::Looser), changed: amended(Way::Open), withdrawn }
    }

    /// Whether another set is taken in by this one, with each of its rules as it stands there.
    pub fn takes_in_whole(&self, other: &RuleSet) -> bool {
        let same = |rule: &Rule, own: &Rule| {
            own.name == rule.name && own.source == rule.source && own.amendments.len() == rule.amendments.len()
        };
        let stands = |rule: &Arc<Rule>| self.rules.iter().any(|own| same(rule, own));
        self.takes_in.iter().any(|below| below.text == other.text) && other.rules.iter().all(stands)
    }

    /// Whether it is the set that the tool holds with every design, by whatever name it was asked for.
    pub fn is_drawing(&self) -> bool {
        self.takes_in.is_empty() && self.rules.first().is_some_and(|rule| rule.applies == Applies::WhereStated)
    }
}

/// The rules that a set lets more pass by than the sets which it takes in, or may do so, by name.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Departures {
    /// Rules that let more pass than before.
    pub looser: Vec<String>,
    /// Rules that ask for something else, of which it is not plain whether more passes.
    pub changed: Vec<String>,
    /// Rules that are taken out.
    pub withdrawn: Vec<String>,
}

/// What a set is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Stairs of a household.
    Dwelling,
    /// Stairs that several households share.
    Shared,
    /// Stairs that anybody may climb.
    Public,
    /// Stairs of a work place.
    Workplace,
    /// Stairs that have to be accessible.
    Accessible,
    /// Stairs of any use.
    Any,
}

impl Purpose {
    /// Every one.
    pub const ALL: [Purpose; 6] =
        [Purpose::Dwelling, Purpose::Shared, Purpose::Public, Purpose::Workplace, Purpose::Accessible, Purpose::Any];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Purpose::Dwelling => "dwelling",
            Purpose::Shared => "shared",
            Purpose::Public => "public",
            Purpose::Workplace => "workplace",
            Purpose::Accessible => "accessible",
            Purpose::Any => "any",
        }
    }

    /// The one that a word stands for.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|purpose| purpose.word() == word)
    }
}

/// A set that another one takes in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Below {
    /// Its title.
    pub title: String,
    /// Its edition, empty if it states none.
    pub edition: String,
    /// The text that it was read from.
    pub text: Option<Source>,
    /// Whether the set over it amends or withdraws any of its rules; else it is taken in as it is.
    pub amended: bool,
}

/// A rule that a set takes out of the one that it takes in.
#[derive(Debug, Clone)]
pub struct Withdrawn {
    /// The rule as it was.
    pub rule: Arc<Rule>,
    /// Title of the set that takes it out.
    pub set: String,
    /// The text that does so.
    pub source: Source,
    /// The rule's name there.
    pub span: Span,
    /// Why.
    pub because: String,
}

/// A named number of a rule.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Limit {
    /// Its name.
    pub name: String,
    /// Its value.
    pub measure: Measure,
    /// The metric figure that its source prints beside it: what is written in metric alone is held to that one.
    pub metric: Option<Measure>,
    /// The text that sets it.
    pub source: Source,
    /// Where its value stands there.
    pub span: Span,
    /// Where its name stands there.
    pub named: Span,
    /// The set that set it.
    pub set: String,
    /// What it was before another set amended it.
    pub replaced: Option<Box<Limit>>,
    /// Whose it is.
    pub of: LimitOf,
    /// Names that it went by before.
    pub formerly: Vec<String>,
    /// Where a figure of the set comes from, as it says itself; else empty.
    pub cites: String,
}

/// Whose a limit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitOf {
    /// The rule's own.
    Rule,
    /// A figure of the set, which other rules may read too.
    Set,
}

/// How sure a figure is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sure {
    /// It was seen on a page that prints the clause.
    Seen,
    /// It was seen where another quotes the clause.
    SecondHand,
    /// It was not looked up.
    Memory,
}

impl Sure {
    /// Every one.
    pub const ALL: [Sure; 3] = [Sure::Seen, Sure::SecondHand, Sure::Memory];

    /// The word for it in a set.
    pub fn word(self) -> &'static str {
        match self {
            Sure::Seen => "seen",
            Sure::SecondHand => "second hand",
            Sure::Memory => "memory",
        }
    }

    /// The one that a word stands for; none for a text of the set's own.
    pub fn of(word: &str) -> Option<Self> {
        match word {
            // What was seen needs no remark.
            "" => Some(Sure::Seen),
            word => Self::ALL.into_iter().find(|sure| sure.word() == word),
        }
    }
}

/// Which of the figures that a source prints for one limit is meant.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Printed {
    /// The one that stands first.
    #[default]
    First,
    /// The metric one beside it.
    Metric,
}

impl Limit {
    /// Its value by one of its figures; where it has no metric one, the first.
    pub fn figure(&self, printed: Printed) -> Measure {
        match printed {
            Printed::First => self.measure,
            Printed::Metric => self.metric.unwrap_or(self.measure),
        }
    }

    /// Its figures as they stand in a set: `36"`, or `36" (914 mm)`.
    pub fn figures(&self) -> String {
        figures(self.measure, self.metric)
    }
}

/// A figure, and in parentheses the metric one beside it.
pub fn figures(first: Measure, metric: Option<Measure>) -> String {
    let metric = metric.map(|metric| format!(" ({})", print(metric))).unwrap_or_default();
    format!("{}{metric}", print(first))
}

/// One rule.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Rule {
    /// Its name.
    pub name: String,
    /// The chapter it stands in.
    pub chapter: String,
    /// The set that wrote it.
    pub set: String,
    /// The text that the clause stands in.
    pub source: Source,
    /// The words that open it.
    pub span: Span,
    /// The clause.
    pub clause: Span,
    /// What it holds.
    pub kind: &'static Kind,
    /// What narrows it.
    pub condition: Option<Node>,
    /// The words of what narrows it, and their text.
    pub narrows: Option<(Source, Span)>,
    /// The words of what it spares behind `unless`, and their texts.
    pub unless: Vec<(Source, Span)>,
    /// `shall`, not `should`.
    pub shall: bool,
    /// What it asks.
    pub requirement: Node,
    /// The words of what it asks, in the text of the clause.
    pub asks: Span,
    /// Its limits.
    pub limits: Vec<Limit>,
    /// The classes of use that its set has.
    pub classes: Arc<[String]>,
    /// Its tables, of which each row is a limit.
    pub tables: Vec<Table>,
    /// The sentences by which it tells a finding.
    pub says: Vec<Saying>,
    /// Document and clause.
    pub cites: String,
    /// Why, in a sentence.
    pub because: String,
    /// `memory` or `second hand`, where the figure was not seen on a page that prints the clause.
    pub sure: String,
    /// What proves it, each with its text.
    pub fragments: Vec<(Source, Fragment)>,
    /// What sets above the one that wrote it have changed, the oldest first.
    pub amendments: Vec<Amendment>,
    /// What it speaks of.
    pub applies: Applies,
    /// Names that it went by before.
    pub formerly: Vec<String>,
    /// A design may give itself leave to depart from it.
    pub waivable: bool,
}

/// What a rule speaks of where something that it asks about is not there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Applies {
    /// It is not checked.
    Always,
    /// It does not apply: it tells a contradiction, and that needs two statements.
    WhereStated,
}

/// What one set changes of a rule of a set below it.
#[derive(Debug, Clone)]
pub struct Amendment {
    /// Title of the set.
    pub set: String,
    /// Its text.
    pub source: Source,
    /// The rule's name there.
    pub span: Span,
    /// What it changes, in the order stated.
    pub changes: Vec<Change>,
    /// How many fragments the rule had from the sets below.
    pub inherited: usize,
    /// Whether it says where what it changes comes from.
    pub grounds: Sourced,
    /// What it does to what passes; nothing where it changes no more than what is said of the rule.
    pub way: Option<Way>,
}

/// Whether an amendment says where what it changes comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sourced {
    /// It names a source, or says why.
    Yes,
    /// It does neither, and asks for something else than the source that the rule cites.
    No,
}

/// One thing that an amendment changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What.
    pub part: Part,
    /// The words that change it.
    pub span: Span,
    /// What it is now, as a report says it.
    pub now: String,
    /// What it was.
    pub before: String,
    /// Title of the set that had set it before.
    pub set_by: String,
}

/// A part of a rule that another set may change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// A limit, by its name.
    Limit(String),
    /// `shall` or `should`.
    Verb,
    /// What narrows the rule.
    Condition,
    /// The whole clause.
    Clause,
    /// Document and clause cited.
    Source,
    /// The sentence of why.
    Because,
    /// How sure the figure is.
    Sure,
    /// Whether a design may give itself leave to depart from it.
    Waive,
    /// The sentences by which it tells a finding.
    Says,
}

impl Amendment {
    /// Whether other designs pass now than before: a limit, a condition or the clause is changed.
    pub fn alters(&self) -> bool {
        let alters = |change: &Change| matches!(change.part, Part::Limit(_) | Part::Condition | Part::Clause);
        self.changes.iter().any(alters)
    }
}

impl Rule {
    /// Whether it went by a name before.
    pub fn was_called(&self, name: &str) -> bool {
        self.formerly.iter().any(|former| former == name)
    }

    /// Title of the set that set a part as it now stands.
    pub fn set_by(&self, part: &Part) -> &str {
        let sets = |change: &Change| {
            change.part == *part || change.part == Part::Clause && matches!(part, Part::Verb | Part::Condition)
        };
        let last = self.amendments.iter().rev().find(|amendment| amendment.changes.iter().any(sets));
        last.map_or(&self.set, |amendment| &amendment.set)
    }

    /// Whether its clause asks for a property by name, of whatever thing.
    pub fn asks_for(&self, property: PropertyName) -> bool {
        let mut asks = false;
        for node in self.condition.iter().chain([&self.requirement]) {
            node.reads(&mut |what| {
                asks |= matches!(what, What::Property(read) if read.handle() == property);
            });
        }
        asks
    }

    /// How many fragments speak of the rule as it was before a set above changed what passes.
    pub fn overtaken(&self) -> usize {
        let last = self.amendments.iter().rev().find(|amendment| amendment.alters());
        last.map_or(0, |amendment| amendment.inherited)
    }

    /// The words of what narrows it, on one line.
    pub fn condition_words(&self) -> Option<String> {
        let narrows = self.narrows.as_ref().map(|(source, span)| one_line(source.slice(*span)));
        let unless = self.unless.iter().map(|(source, span)| format!("unless {}", one_line(source.slice(*span))));
        let all: Vec<String> = narrows.into_iter().chain(unless).collect();
        (!all.is_empty()).then(|| all.join(" "))
    }

    /// The clause as it is in force: as written, or put together from the words of several sets.
    pub fn wording(&self) -> String {
        let apart = |change: &Change| matches!(change.part, Part::Verb | Part::Condition);
        if !self.amendments.iter().any(|amendment| amendment.changes.iter().any(apart)) {
            return one_line(self.source.slice(self.clause));
        }
        let verb = if self.shall { "shall" } else { "should" };
        let narrows = self.condition_words().map(|words| match &self.narrows {
            Some(_) => format!(" where {words}"),
            None => format!(" {words}"),
        });
        let narrows = narrows.unwrap_or_default();
        let asks = one_line(self.source.slice(self.asks));
        format!("each {}{narrows} {verb} have {asks}", self.kind.name)
    }
}

/// Words on one line with single blanks, remarks left out.
pub fn one_line(text: &str) -> String {
    let remark = |line: &str| {
        line.match_indices('#')
            .find(|(at, _)| !line.get(at + 1..).unwrap_or("").starts_with(|next: char| next.is_ascii_digit()))
            .map_or(line.len(), |(at, _)| at)
    };
    let said = text.lines().filter_map(|line| line.get(..remark(line)));
    said.flat_map(str::split_whitespace).collect::<Vec<_>>().join(" ")
}
