//! The faces for programs of one's own: one JSON document, or a JSON object a line. Their schemas are in `schema/`.

use serde::Serialize;

use super::checked::{Checked, Entry, Excuse, Spot, Wait};
use super::face::{Face, ROW, Run};
use super::figures::{Figure, Figures};
use super::fingerprint::digest;
use super::tallied::Tallied;
use super::totals::{Totals, caution};
use super::wire::line;
use crate::check::{Analysis, Fix, Grounds, LoadedSet, RuleOutcome, RuleRef, Settled, Tally, View};
use crate::rules::{Compared, Limit, Rule, clause_text};
use crate::wording::{self, need};

/// The number of both schemas; a change that a reader could trip over takes the next.
const VERSION: u32 = 1;

/// `json`.
pub(super) const DOCUMENT: Face = Face {
    name: "json",
    about: "one JSON document for programs of your own",
    ending: "json",
    schema: "json",
    tallies: true,
    begins: |run| {
        let head = line(&Head::new(run));
        format!("{},\"designs\":[\n", head.strip_suffix('}').unwrap_or(&head))
    },
    between: ",\n",
    design: |checked, run| line(&design(checked, run)),
    ends: |tallied, _| {
        let rules: Vec<String> = rules(tallied).map(|rule| line(&rule)).collect();
        let totals = line(&Counts::new(&tallied.totals, Some(tallied.failing)));
        format!("\n],\"rules\":[\n{}\n],\"totals\":{totals}}}\n", rules.join(",\n"))
    },
    ..ROW
};

/// `lines`.
pub(super) const LINES: Face = Face {
    name: "lines",
    about: "a JSON object on each line: findings, outcomes, designs, rules, totals",
    ending: "jsonl",
    schema: "lines",
    tallies: true,
    begins: |run| record(&Line::Run(Head::new(run))),
    design: of_design,
    ends: |tallied, _| {
        let mut out: String = rules(tallied).map(|rule| record(&Line::Rule(rule))).collect();
        out += &record(&Line::Totals(Counts::new(&tallied.totals, Some(tallied.failing))));
        out
    },
    ..ROW
};

/// One line of `lines`: what it is stands in `line`.
#[derive(Serialize)]
#[serde(tag = "line", rename_all = "snake_case")]
enum Line<'a> {
    Run(Head),
    Design(Box<DesignLine<'a>>),
    Finding(Of<'a, FindingLine<'a>>),
    NotChecked(Of<'a, WaitLine<'a>>),
    Outcome(Of<'a, OutcomeLine<'a>>),
    Rule(Box<RuleLine>),
    Totals(Counts),
}

/// Something of a design, with the design's name.
#[derive(Serialize)]
struct Of<'a, T> {
    design: &'a str,
    #[serde(flatten)]
    what: T,
}

fn record(of: &Line<'_>) -> String {
    line(of) + "\n"
}

fn of_design(checked: &Checked<'_>, run: &Run) -> String {
    let mut whole = design(checked, run);
    let (findings, waits) = (std::mem::take(&mut whole.findings), std::mem::take(&mut whole.not_checked));
    let outcomes = whole.outcomes.take().unwrap_or_default();
    let name = checked.name.words();
    let design = name.as_str();
    let mut out = String::new();
    for what in findings.into_iter().flatten() {
        out += &record(&Line::Finding(Of { design, what }));
    }
    for what in waits.into_iter().flatten() {
        out += &record(&Line::NotChecked(Of { design, what }));
    }
    for what in outcomes {
        out += &record(&Line::Outcome(Of { design, what }));
    }
    out + &record(&Line::Design(Box::new(whole)))
}

/// What stands at the head of a run.
#[derive(Serialize)]
struct Head {
    version: u32,
    tool: &'static str,
    tool_version: &'static str,
    caution: String,
    /// A required rule that could not be settled fails the run.
    strict: bool,
    /// Outcomes are listed.
    every_outcome: bool,
}

impl Head {
    fn new(run: &Run) -> Self {
        Self {
            version: VERSION,
            tool: env!("CARGO_PKG_NAME"),
            tool_version: env!("CARGO_PKG_VERSION"),
            caution: caution(),
            strict: run.strict,
            every_outcome: run.every_outcome,
        }
    }
}

/// One design.
#[derive(Serialize)]
struct DesignLine<'a> {
    design: String,
    fails: bool,
    counts: Counts,
    /// The titles of its stairs, which others name by their place.
    stairs: Vec<&'a str>,
    sets: Vec<SetLine<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    findings: Option<Vec<FindingLine<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    not_checked: Option<Vec<WaitLine<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    outcomes: Option<Vec<OutcomeLine<'a>>>,
    assumed: Vec<String>,
    taken_at_its_word: Vec<String>,
    unasked: Vec<&'static str>,
    usual_left_out: Vec<&'static str>,
    from_shop: Vec<ShopLine>,
}

fn design<'a>(checked: &'a Checked<'_>, run: &Run) -> DesignLine<'a> {
    let report = checked.report();
    let mut totals = Totals::default();
    match report {
        Some(report) => totals.add(report),
        None => totals.add_refused(),
    }
    let analysis = checked.came.ok();
    let outcomes = analysis.filter(|_| run.every_outcome).map(|analysis| {
        checked.outcomes().iter().map(|outcome| OutcomeLine::new(checked, analysis, outcome)).collect()
    });
    let shops = report.into_iter().flat_map(|report| &report.shops);
    DesignLine {
        design: checked.name.words(),
        fails: checked.verdict.fails,
        counts: Counts::new(&totals, None),
        stairs: analysis.into_iter().flat_map(|of| &of.stairs).map(|stair| stair.title.as_str()).collect(),
        sets: analysis.into_iter().flat_map(|of| &of.sets).map(|loaded| SetLine::new(checked, loaded)).collect(),
        findings: Some(checked.entries().iter().map(|entry| FindingLine::new(checked, entry)).collect()),
        not_checked: Some(checked.waits().iter().map(|wait| WaitLine::new(checked, wait)).collect()),
        outcomes,
        assumed: report.map(|report| report.customs.clone()).unwrap_or_default(),
        taken_at_its_word: report.map(|report| said(checked, wording::excused(report))).unwrap_or_default(),
        unasked: report.map(|report| report.unasked.iter().map(|kind| kind.name).collect()).unwrap_or_default(),
        usual_left_out: report
            .map(|report| report.usual_left_out.iter().map(|usual| usual.name).collect())
            .unwrap_or_default(),
        from_shop: shops
            .map(|(file, shares)| ShopLine { file: checked.words(file), what: wording::shares(shares) })
            .collect(),
    }
}

fn said(checked: &Checked<'_>, lines: Vec<String>) -> Vec<String> {
    lines.iter().map(|line| checked.words(line)).collect()
}

/// How many rules and statements.
#[derive(Serialize)]
struct Counts {
    #[serde(skip_serializing_if = "Option::is_none")]
    designs: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    failing: Option<usize>,
    #[serde(flatten)]
    rules: RuleCounts,
    /// Statements.
    not_understood: usize,
    /// Designs of which something could not be checked at all.
    unchecked: usize,
}

impl Counts {
    /// Of a run, if it is said how many designs fail it; else of one design.
    fn new(totals: &Totals, failing: Option<usize>) -> Self {
        Self {
            designs: failing.map(|_| totals.files),
            failing,
            rules: RuleCounts::new(&totals.rules),
            not_understood: totals.not_understood,
            unchecked: totals.refused,
        }
    }
}

/// How many rules stand how.
#[derive(Serialize)]
struct RuleCounts {
    broken: usize,
    advised: usize,
    passed: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    not_applicable: Option<usize>,
    not_checked: usize,
    waived: usize,
    known: usize,
}

impl RuleCounts {
    fn new(tally: &Tally) -> Self {
        Self {
            broken: tally.broken,
            advised: tally.advised,
            passed: tally.passed,
            not_applicable: Some(tally.not_applicable),
            not_checked: tally.not_checked,
            waived: tally.waived,
            known: tally.known,
        }
    }

    /// Of one rule, where it applies.
    fn where_it_applies(tally: &Tally) -> Self {
        Self { not_applicable: None, ..Self::new(tally) }
    }
}

/// A set, its edition and the digests of its texts.
#[derive(Serialize)]
struct SetLine<'a> {
    title: &'a str,
    edition: &'a str,
    basis: &'a str,
    caution: &'a str,
    file: String,
    sha256: String,
    /// The sets that it amends, the nearest first.
    amends: Vec<BelowLine<'a>>,
}

#[derive(Serialize)]
struct BelowLine<'a> {
    title: &'a str,
    edition: &'a str,
    file: String,
    sha256: String,
}

impl<'a> SetLine<'a> {
    fn new(checked: &Checked<'_>, loaded: &'a LoadedSet) -> Self {
        let set = &loaded.set;
        let of = |at: usize| {
            let source = set.texts().nth(at);
            let file = source.map(|source| checked.named(source).words()).unwrap_or_default();
            (file, source.map(|source| digest(&source.text)).unwrap_or_default())
        };
        let (file, sha256) = of(0);
        let amends = set.takes_in.iter().enumerate().map(|(at, below)| {
            let (file, sha256) = of(at + 1);
            BelowLine { title: &below.title, edition: &below.edition, file, sha256 }
        });
        Self {
            title: &set.title,
            edition: &set.edition,
            basis: &set.basis,
            caution: &set.caution,
            file,
            sha256,
            amends: amends.collect(),
        }
    }
}

#[derive(Serialize)]
struct ShopLine {
    file: String,
    what: String,
}

/// Words of a file.
#[derive(Serialize)]
struct PlaceLine {
    file: String,
    /// From the first byte of the file, half open.
    bytes: [u32; 2],
    start: PositionLine,
    end: PositionLine,
    #[serde(skip_serializing_if = "Option::is_none")]
    label: Option<String>,
}

#[derive(Serialize)]
struct PositionLine {
    line: usize,
    column: usize,
}

impl PlaceLine {
    fn new(spot: &Spot, label: Option<String>) -> Self {
        let at = |position: super::positions::Position| PositionLine { line: position.line, column: position.column };
        Self {
            file: spot.file.words(),
            bytes: [spot.span.start, spot.span.end],
            start: at(spot.start),
            end: at(spot.end),
            label,
        }
    }
}

/// A rule of a set, by its name; or a notice of the reader.
#[derive(Serialize)]
struct Who<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    set: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    notice: Option<&'a str>,
}

impl<'a> Who<'a> {
    fn rule(rule: &'a RuleRef) -> Self {
        Self { set: Some(&rule.set().title), rule: Some(&rule.rule().name), notice: None }
    }
}

#[derive(Serialize)]
struct FindingLine<'a> {
    severity: &'static str,
    #[serde(flatten)]
    who: Who<'a>,
    message: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    stair: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    view: Option<&'static str>,
    /// The one that misses by most first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    elements: Vec<&'a str>,
    #[serde(flatten)]
    figures: Option<Figures>,
    #[serde(flatten)]
    words: Option<WordsLine<'a>>,
    /// The words to change first; none where the whole file is meant.
    places: Vec<PlaceLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    mend: Option<MendLine<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    excused: Option<Box<ExcusedLine>>,
    fingerprint: &'a str,
}

/// Why something fails nothing, though it is so.
#[derive(Serialize)]
struct ExcusedLine {
    how: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    until: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<String>,
}

impl ExcusedLine {
    fn new(checked: &Checked<'_>, excuse: Excuse<'_>) -> Self {
        let how = excuse.word();
        let Excuse::Waived(waiver) = excuse else { return Self { how, until: None, why: None, by: None } };
        let [why, by] = [&waiver.why, &waiver.by].map(|said| said.as_ref().map(|said| checked.words(said)));
        Self { how, until: waiver.until.map(|(day, _)| day.to_string()), why, by }
    }
}

/// Words held against those that are asked for.
#[derive(Serialize)]
struct WordsLine<'a> {
    word: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    one_of: Option<&'a [String]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    none_of: Option<&'a [String]>,
}

impl<'a> WordsLine<'a> {
    fn of(compared: &'a Compared) -> Option<Self> {
        let Compared::Words(word, not, words) = compared else { return None };
        let words = Some(words.as_slice());
        let (one_of, none_of) = if *not { (None, words) } else { (words, None) };
        Some(Self { word, one_of, none_of })
    }
}

impl<'a> FindingLine<'a> {
    fn new(checked: &Checked<'_>, entry: &'a Entry<'_>) -> Self {
        let message = &entry.message;
        let of_rule = entry.finding;
        let notice = || Who { set: None, rule: None, notice: Some(&message.name) };
        let place = |source: &crate::base::Source, label: &wording::Label| {
            PlaceLine::new(&checked.spot(source, label.span), Some(checked.words(&label.text)))
        };
        let own = message.labels.iter().map(|label| place(&message.source, label));
        let beside = message.beside.iter().flat_map(|beside| beside.labels.iter().map(|label| (&beside.source, label)));
        Self {
            severity: entry.severity().word(),
            who: of_rule.map_or_else(notice, |finding| Who::rule(&finding.rule)),
            message: checked.words(&message.message),
            stair: of_rule.map(|_| entry.stair),
            view: of_rule.map(|finding| view(finding.view)),
            elements: entry.elements.iter().map(String::as_str).collect(),
            figures: of_rule.and_then(|finding| Figures::of_compared(&finding.decision.compared)),
            words: of_rule.and_then(|finding| WordsLine::of(&finding.decision.compared)),
            places: own.chain(beside.map(|(source, label)| place(source, label))).collect(),
            help: message.help.as_ref().map(|help| checked.words(help)),
            mend: of_rule.and_then(|finding| {
                let fix = finding.fix.as_ref().filter(|fix| !fix.edits.is_empty())?;
                Some(MendLine::new(checked, &finding.source, fix))
            }),
            excused: entry.excuse().map(|excuse| Box::new(ExcusedLine::new(checked, excuse))),
            fingerprint: &entry.fingerprint,
        }
    }
}

/// A change of the design's text that would pass.
#[derive(Serialize)]
struct MendLine<'a> {
    /// It was made, and the rule held.
    tried: bool,
    edits: Vec<EditLine<'a>>,
    /// Rules that would be broken then.
    then_breaks: Vec<Who<'a>>,
}

#[derive(Serialize)]
struct EditLine<'a> {
    #[serde(flatten)]
    place: PlaceLine,
    text: &'a str,
}

impl<'a> MendLine<'a> {
    fn new(checked: &Checked<'_>, source: &crate::base::Source, fix: &'a Fix) -> Self {
        let edit = |edit: &'a crate::check::Edit| EditLine {
            place: PlaceLine::new(&checked.spot(source, edit.span), None),
            text: &edit.text,
        };
        Self {
            tried: fix.was_tried(),
            edits: fix.edits.iter().map(edit).collect(),
            then_breaks: fix.then_breaks.iter().map(Who::rule).collect(),
        }
    }
}

#[derive(Serialize)]
struct WaitLine<'a> {
    set: &'a str,
    rule: &'a str,
    required: bool,
    about: &'a str,
    needs: &'a str,
    places: [PlaceLine; 1],
    #[serde(skip_serializing_if = "Option::is_none")]
    excused: Option<Box<ExcusedLine>>,
    fingerprint: &'a str,
}

impl<'a> WaitLine<'a> {
    fn new(checked: &Checked<'_>, wait: &'a Wait<'_>) -> Self {
        Self {
            set: &wait.item.set,
            rule: &wait.item.rule,
            required: wait.item.shall,
            about: &wait.item.about,
            needs: &wait.needs,
            places: [PlaceLine::new(&wait.spot, None)],
            excused: wait.excuse().map(|excuse| Box::new(ExcusedLine::new(checked, excuse))),
            fingerprint: &wait.fingerprint,
        }
    }
}

#[derive(Serialize)]
struct OutcomeLine<'a> {
    stair: usize,
    view: &'static str,
    set: &'a str,
    rule: &'a str,
    element: &'a str,
    verdict: &'static str,
    /// What was compared, or the condition that decided.
    #[serde(skip_serializing_if = "Option::is_none")]
    term: Option<String>,
    #[serde(flatten)]
    figures: Option<Figures>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    places: Vec<PlaceLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    needs: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    assumed: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    excused: Option<Box<ExcusedLine>>,
}

impl<'a> OutcomeLine<'a> {
    fn new(checked: &Checked<'_>, analysis: &Analysis, outcome: &'a RuleOutcome) -> Self {
        let (grounds, needs) = match &outcome.verdict {
            Settled::Pass(grounds) | Settled::Fail(grounds) => (Some(grounds), None),
            Settled::NotApplicable => (None, None),
            Settled::NotChecked(needs) => (None, Some(checked.words(&need(needs)))),
        };
        let places = |grounds: &Grounds| {
            let spot = |span| PlaceLine::new(&checked.spot(&analysis.report.source, span), None);
            grounds.stated.iter().map(|stated| spot(stated.span)).collect()
        };
        Self {
            stair: outcome.stair,
            view: view(outcome.view),
            set: &outcome.rule.set().title,
            rule: &outcome.rule.rule().name,
            element: &outcome.path,
            verdict: verdict(&outcome.verdict),
            term: grounds.map(|grounds| clause_text(&grounds.term, outcome.rule.rule())),
            figures: grounds.and_then(|grounds| grounds.comparison.as_ref()).map(Figures::of),
            places: grounds.map(places).unwrap_or_default(),
            needs,
            assumed: outcome.customs.iter().map(|custom| custom.sentence).collect(),
            excused: Excuse::of_outcome(outcome).map(|excuse| Box::new(ExcusedLine::new(checked, excuse))),
        }
    }
}

/// The names of published checklist standards.
fn verdict(verdict: &Settled) -> &'static str {
    match verdict {
        Settled::Pass(_) => "pass",
        Settled::Fail(_) => "fail",
        Settled::NotApplicable => "not applicable",
        Settled::NotChecked(_) => "not checked",
    }
}

fn view(view: View) -> &'static str {
    match view {
        View::Drawn => "drawn",
        View::Measured => "measured",
    }
}

/// A rule with its limits, as it is in force.
#[derive(Serialize)]
struct RuleLine {
    set: String,
    rule: String,
    chapter: String,
    required: bool,
    clause: String,
    source: String,
    because: String,
    sure: String,
    limits: Vec<LimitLine>,
    /// How it stands, each stair to which it applies counted once.
    counts: RuleCounts,
}

/// A limit, and what it was before another set amended it.
#[derive(Serialize)]
struct LimitLine {
    name: String,
    #[serde(flatten)]
    figure: Figure,
    unit: &'static str,
    /// As it stands in its set, with a metric figure beside it where there is one.
    written: String,
    set: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    replaced: Option<Box<LimitLine>>,
}

impl LimitLine {
    fn new(limit: &Limit) -> Self {
        let (figure, unit) = Figure::with_unit(limit.measure);
        Self {
            name: limit.name.clone(),
            figure,
            unit,
            written: limit.figures(),
            set: limit.set.clone(),
            replaced: limit.replaced.as_ref().map(|replaced| Box::new(Self::new(replaced))),
        }
    }
}

fn rules(tallied: &Tallied) -> impl Iterator<Item = Box<RuleLine>> {
    tallied.rules.iter().map(|((set, name, _), (of, tally))| {
        let rule: &Rule = of.rule();
        Box::new(RuleLine {
            set: set.clone(),
            rule: name.clone(),
            chapter: rule.chapter.clone(),
            required: rule.shall,
            clause: rule.wording(),
            source: rule.cites.clone(),
            because: rule.because.clone(),
            sure: rule.sure.clone(),
            limits: rule.limits.iter().map(LimitLine::new).collect(),
            counts: RuleCounts::where_it_applies(tally),
        })
    })
}
