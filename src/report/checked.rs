//! One design as the faces for machines see it: what was found and what waits, each with its place and its identity. Every
//! such face reads this, so that none counts or names otherwise than another.

use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

use super::Look;
use super::fingerprint::fingerprint;
use super::positions::{Lines, Named, Position};
use super::words::sentence;
use crate::base::{Diagnostic, Level, Levels, Severity, Source, Span};
use crate::check::{Analysis, Finding, NotChecked, Report, RuleFinding, RuleOutcome, RuleRef, View};
use crate::model::{Design, Waiver};
use crate::rules::FileProblem;
use crate::wording::{self, Message, need};

/// A design that was checked, or could not be.
pub struct Checked<'a> {
    /// What it is called.
    pub(super) name: Named,
    /// What came of it.
    pub(super) came: Result<&'a Analysis, &'a Diagnostic<FileProblem>>,
    /// What the command makes of it.
    pub(super) verdict: Verdict<'a>,
    pub(super) here: &'a Path,
    entries: OnceCell<Vec<Entry<'a>>>,
    waits: OnceCell<Vec<Wait<'a>>>,
    outcomes: OnceCell<Vec<RuleOutcome>>,
    lines: RefCell<Vec<Rc<Lines>>>,
}

/// What the command makes of a design: a face decides nothing.
#[derive(Clone, Copy)]
pub struct Verdict<'a> {
    /// It fails the run.
    pub fails: bool,
    /// What fails the run, of a design that lies where it does.
    pub levels: Levels,
    /// What stands below its full report for that.
    pub remarks: &'a dyn Fn(&Look) -> String,
}

impl Verdict<'_> {
    /// Whether a rule fails the run where it could not be settled: advice only where advice does.
    pub(super) fn waits_fail(&self, shall: bool) -> bool {
        self.levels.hold(Level::NotChecked) && (shall || self.levels.hold(Level::Advised))
    }
}

/// A finding in words and places.
pub(super) struct Entry<'a> {
    /// Its words.
    pub message: Message,
    /// The rule that is not met; none where a reader speaks.
    pub finding: Option<&'a RuleFinding>,
    /// The stair, by its place among those drawn.
    pub stair: usize,
    /// The paths of the things that miss; that of the one that misses by most first.
    pub elements: Vec<String>,
    /// The words to change first.
    pub spot: Option<Spot>,
    /// What stays the same while the finding does, whatever lines are added above it.
    pub fingerprint: String,
}

/// A rule that could not be settled for one thing.
pub(super) struct Wait<'a> {
    pub item: &'a NotChecked,
    /// The rule.
    pub rule: Option<&'a RuleRef>,
    /// What would settle it.
    pub needs: String,
    /// Where the thing is drawn.
    pub spot: Spot,
    pub fingerprint: String,
}

/// What a finding is to the run, for formats that have levels of their own: what fails the run is an error there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    /// It fails the run.
    Fails,
    /// It is told, and fails nothing.
    Told,
    /// It fails nothing, since a waiver or a baseline excuses it.
    Excused,
}

/// Why something fails nothing, though it is so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Excuse<'a> {
    /// A waiver of the design excuses it.
    Waived(&'a Waiver),
    /// A baseline knows it.
    Known,
}

impl<'a> Excuse<'a> {
    fn of(waived: Option<&'a Arc<Waiver>>, known: bool) -> Option<Self> {
        waived.map(|waiver| Excuse::Waived(waiver)).or(known.then_some(Excuse::Known))
    }

    /// Of what a rule came to for one thing.
    pub fn of_outcome(outcome: &'a RuleOutcome) -> Option<Self> {
        Self::of(outcome.waived.as_ref(), outcome.known)
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Excuse::Waived(_) => "waived",
            Excuse::Known => "known",
        }
    }

    /// What it rests on.
    pub fn words(self) -> String {
        match self {
            Excuse::Waived(waiver) => format!("waived {}", wording::waiver(waiver)),
            Excuse::Known => "a baseline knows it".to_owned(),
        }
    }
}

/// Words of a text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Spot {
    pub file: Named,
    pub span: Span,
    pub start: Position,
    /// One past the last character.
    pub end: Position,
}

impl<'a> Checked<'a> {
    /// A design, as seen from the folder `here`.
    pub fn new(came: Result<&'a Analysis, &'a Diagnostic<FileProblem>>, verdict: Verdict<'a>, here: &'a Path) -> Self {
        let source = came.map_or_else(|refused| &refused.source, |analysis| &analysis.report.source);
        Self {
            name: Named::of(source, here),
            came,
            verdict,
            here,
            entries: OnceCell::new(),
            waits: OnceCell::new(),
            outcomes: OnceCell::new(),
            lines: RefCell::default(),
        }
    }

    /// What it came to; nothing of a file that could not be read.
    pub(super) fn report(&self) -> Option<&'a Report> {
        self.came.ok().map(|analysis| &analysis.report)
    }

    /// What every rule came to for every element.
    pub(super) fn outcomes(&self) -> &[RuleOutcome] {
        self.outcomes.get_or_init(|| self.came.map(Analysis::outcomes).unwrap_or_default())
    }

    /// Every finding, in the order of the report.
    pub(super) fn entries(&self) -> &[Entry<'a>] {
        self.entries.get_or_init(|| match self.came {
            Ok(analysis) => self.found(analysis),
            Err(refused) => {
                let mut entry = self.entry(wording::message(refused), None, (0, Vec::new()));
                entry.fingerprint = fingerprint(&[entry.severity().word(), &entry.message.name]);
                vec![entry]
            }
        })
    }

    fn found(&self, analysis: &'a Analysis) -> Vec<Entry<'a>> {
        let (mut paths, mut alike) = (Vec::new(), BTreeMap::new());
        let entry = |finding: &'a Finding| {
            let message = wording::message(finding);
            let Finding::Rule(found) = finding else {
                let words = message.labels.first().map(|label| message.source.slice(label.span)).unwrap_or_default();
                let identity = [message.severity.word(), &message.name, words].map(str::to_owned);
                return (self.entry(message, None, (0, Vec::new())), identity.to_vec());
            };
            let (stair, paths) = paths_of(analysis, &found.design, &mut paths);
            let path = |id: &usize| paths.get(*id).cloned().unwrap_or_default();
            // Of several things the one whose path comes first as text: no other order of the drawing changes it.
            let one = found.elements.iter().map(path).min().unwrap_or_default();
            let others = found.elements.iter().filter(|id| **id != found.element);
            let elements = std::iter::once(&found.element).chain(others).map(path).collect();
            let title = analysis.stairs.get(stair).map_or("", |stair| &stair.title);
            let view = if found.view == View::Measured { "measured" } else { "drawn" };
            let (set, rule) = (&found.rule.set().title, &found.rule.rule().name);
            let identity = [message.severity.word(), set, rule, title, view, &one].map(str::to_owned);
            (self.entry(message, Some(&**found), (stair, elements)), identity.to_vec())
        };
        let found: Vec<_> = analysis.report.findings.iter().map(entry).collect();
        let told_apart = |(mut entry, identity): (Entry<'a>, Vec<String>)| {
            entry.fingerprint = told_apart(&mut alike, identity);
            entry
        };
        found.into_iter().map(told_apart).collect()
    }

    fn entry(
        &self,
        message: Message,
        finding: Option<&'a RuleFinding>,
        (stair, elements): (usize, Vec<String>),
    ) -> Entry<'a> {
        let spot = message.labels.first().map(|label| self.spot(&message.source, label.span));
        Entry { message, finding, stair, elements, spot, fingerprint: String::new() }
    }

    /// Every rule that could not be settled, in the order of the report.
    pub(super) fn waits(&self) -> &[Wait<'a>] {
        self.waits.get_or_init(|| {
            let Some(report) = self.report() else { return Vec::new() };
            let rules: BTreeMap<(&str, &str), &RuleRef> = report
                .standings
                .iter()
                .map(|of| ((of.rule.set().title.as_str(), of.rule.rule().name.as_str()), &of.rule))
                .collect();
            let mut alike = BTreeMap::new();
            let waits = report.not_checked.iter().map(|item| {
                let needs = self.words(&need(&item.needs));
                let identity = ["not checked", &item.set, &item.rule, &item.about, &needs].map(str::to_owned);
                let fingerprint = told_apart(&mut alike, identity.to_vec());
                let rule = rules.get(&(item.set.as_str(), item.rule.as_str())).copied();
                Wait { item, rule, needs, spot: self.spot(&report.source, item.span), fingerprint }
            });
            waits.collect()
        })
    }

    /// What a finding is to the run.
    pub(super) fn weight(&self, entry: &Entry<'_>) -> Weight {
        match entry.excuse() {
            Some(_) => Weight::Excused,
            None if self.verdict.levels.fail(entry.severity()) => Weight::Fails,
            None => Weight::Told,
        }
    }

    /// Whether a rule that could not be settled counts as broken.
    pub(super) fn counts_as_broken(&self, wait: &Wait<'_>) -> bool {
        self.verdict.waits_fail(wait.item.shall) && wait.excuse().is_none()
    }

    /// The rules that could not be settled which a face lists that does not list all: all if that was asked for, and
    /// those that count as broken.
    pub(super) fn listed_waits(&self, look: &Look) -> impl Iterator<Item = &Wait<'a>> {
        let all = look.list_not_checked;
        // Worded only where one can be listed: of most designs there are far more of them than findings.
        let waits = if all || self.verdict.levels.hold(Level::NotChecked) { self.waits() } else { &[] };
        waits.iter().filter(move |wait| all || self.counts_as_broken(wait))
    }

    /// Words of a text with their lines and columns.
    pub(super) fn spot(&self, source: &Source, span: Span) -> Spot {
        let lines = self.lines(source);
        let (start, end) = lines.region(span);
        Spot { file: Named::of(source, self.here), span, start, end }
    }

    /// What a text is called.
    pub(super) fn named(&self, source: &Source) -> Named {
        Named::of(source, self.here)
    }

    fn lines(&self, source: &Source) -> Rc<Lines> {
        let mut known = self.lines.borrow_mut();
        if let Some(lines) = known.iter().find(|lines| lines.are_of(source)) {
            return Rc::clone(lines);
        }
        let lines = Rc::new(Lines::of(source));
        known.push(Rc::clone(&lines));
        lines
    }

    /// A sentence and, in parentheses, what excuses it.
    pub(super) fn excused(&self, said: &str, excuse: Option<Excuse<'_>>) -> String {
        let excuse = excuse.map(|excuse| format!(" ({})", excuse.words())).unwrap_or_default();
        self.words(&format!("{said}{excuse}"))
    }

    /// A sentence on one line, with control characters made visible and no path of this machine.
    pub(super) fn words(&self, text: &str) -> String {
        let said = sentence(text, true);
        let here = self.here.to_string_lossy();
        if here.len() < 2 { said } else { said.replace(&format!("{here}/"), "") }
    }
}

impl<'a> Entry<'a> {
    pub fn severity(&self) -> Severity {
        self.message.severity
    }

    /// Why it fails nothing; none where it does, as far as its severity goes.
    pub fn excuse(&self) -> Option<Excuse<'a>> {
        self.finding.and_then(|finding| Excuse::of(finding.waived.as_ref(), finding.known))
    }
}

impl<'a> Wait<'a> {
    /// Why it fails nothing, where what could not be settled does.
    pub fn excuse(&self) -> Option<Excuse<'a>> {
        Excuse::of(self.item.waived.as_ref(), self.item.known)
    }
}

/// A fingerprint of an identity; a second one alike within a design gets another.
fn told_apart(alike: &mut BTreeMap<Vec<String>, usize>, mut identity: Vec<String>) -> String {
    let before = alike.entry(identity.clone()).or_default();
    *before += 1;
    if *before > 1 {
        identity.push(before.to_string());
    }
    fingerprint(&identity.iter().map(String::as_str).collect::<Vec<_>>())
}

/// The paths of the elements of one view of one stair.
type Paths = (Arc<Design>, usize, Vec<String>);

/// Which stair a view is of, and the paths of its elements, worked out once.
fn paths_of<'p>(analysis: &Analysis, design: &Arc<Design>, known: &'p mut Vec<Paths>) -> (usize, &'p [String]) {
    let at = known.iter().position(|(of, ..)| Arc::ptr_eq(of, design)).unwrap_or_else(|| {
        let is = |of: &Arc<Design>| Arc::ptr_eq(of, design);
        let stair =
            analysis.stairs.iter().position(|stair| is(&stair.drawn) || stair.measured.as_ref().is_some_and(is));
        known.push((Arc::clone(design), stair.unwrap_or_default(), design.paths()));
        known.len() - 1
    });
    known.get(at).map_or((0, &[]), |(_, stair, paths)| (*stair, paths))
}
