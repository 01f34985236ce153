//! The face for tools that read SARIF 2.1.0, the OASIS standard: results as they come, the tables of rules and clauses at
//! the end.
//!
//! Every finding is a result of the kind `fail`, every rule that could not be settled one of the kind `open`. Columns count
//! code points. No path of the machine stands in it: designs lie below `SRCROOT`, the folder of the run, and built-in sets
//! below `SETS`, the tool's own folder of sets.
//!
//! What is excused is suppressed. No result has a `baselineState`: a baseline knows a fault by its rule and thing, and so
//! not whether it changed.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde::Serialize;

use super::checked::{Checked, Entry, Excuse, Spot, Wait, Weight};
use super::face::{Face, ROW, Run};
use super::figures::Figures;
use super::fingerprint::digest;
use super::positions::{Named, told_apart};
use super::tallied::Tallied;
use super::totals::caution;
use super::wire::line;
use crate::base::{Levels, Severity, Source, Span};
use crate::check::{Fix, RuleOutcome, RuleRef, Settled, View};
use crate::rules::{Rule, RuleSet};
use crate::wording::{self, Label, sure};

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
/// What designs and files of sets are relative to.
const ROOT: &str = "SRCROOT";
/// What built-in sets are relative to.
const SETS: &str = "SETS";
/// What stands before the name of a notice of the reader where another has its set.
const READER: &str = "reader";

/// `sarif`.
pub(super) const FACE: Face = Face {
    name: "sarif",
    about: "SARIF 2.1.0, which code hosts and viewers of findings read",
    ending: "sarif",
    schema: "SARIF 2.1.0",
    tallies: true,
    begins: |_| {
        format!(
            "{{\"$schema\":\"{SCHEMA}\",\"version\":\"2.1.0\",\"runs\":[{{\"columnKind\":\"unicodeCodePoints\",\"results\":[\n"
        )
    },
    between: ",\n",
    design,
    ends,
    ..ROW
};

/// Words in a message.
#[derive(Serialize)]
struct Text {
    text: String,
}

fn text(text: impl Into<String>) -> Text {
    Text { text: text.into() }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactLocation {
    uri: String,
    uri_base_id: &'static str,
}

impl ArtifactLocation {
    fn new(named: &Named) -> Self {
        Self { uri: named.uri(), uri_base_id: if matches!(named, Named::BuiltIn(_)) { SETS } else { ROOT } }
    }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    /// One past the last character.
    end_column: usize,
}

impl Region {
    fn new(spot: &Spot) -> Self {
        Self {
            start_line: spot.start.line,
            start_column: spot.start.column,
            end_line: spot.end.line,
            end_column: spot.end.column,
        }
    }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation {
    artifact_location: ArtifactLocation,
    region: Region,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct LogicalLocation {
    fully_qualified_name: String,
    kind: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<usize>,
    physical_location: PhysicalLocation,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    logical_locations: Vec<LogicalLocation>,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Text>,
}

impl Location {
    fn at(spot: &Spot) -> Self {
        let (artifact_location, region) = (ArtifactLocation::new(&spot.file), Region::new(spot));
        let physical_location = PhysicalLocation { artifact_location, region };
        Self { id: None, physical_location, logical_locations: Vec::new(), message: None }
    }

    /// A whole file, at its first line: code hosts show nothing that has no line.
    fn whole(named: &Named) -> Self {
        let region = Region { start_line: 1, start_column: 1, end_line: 1, end_column: 1 };
        let physical_location = PhysicalLocation { artifact_location: ArtifactLocation::new(named), region };
        Self { id: None, physical_location, logical_locations: Vec::new(), message: None }
    }

    fn of(mut self, elements: &[String]) -> Self {
        let named = |element: &String| LogicalLocation { fully_qualified_name: element.clone(), kind: "element" };
        self.logical_locations = elements.iter().map(named).collect();
        self
    }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Result<'a> {
    rule_id: String,
    kind: &'static str,
    level: &'static str,
    message: Text,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    partial_fingerprints: BTreeMap<&'static str, &'a str>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    fixes: Vec<FixOut>,
    /// Of every result, for the standard asks that all of a run have it or none.
    suppressions: Vec<Suppression>,
    properties: Properties<'a>,
}

/// What excuses a result: a waiver stands in the design, a baseline beside it.
#[derive(Serialize)]
struct Suppression {
    kind: &'static str,
    status: &'static str,
    justification: String,
    /// Where the waiver stands.
    #[serde(skip_serializing_if = "Option::is_none")]
    location: Option<Location>,
}

impl Suppression {
    fn of(checked: &Checked<'_>, excuse: Option<Excuse<'_>>) -> Vec<Self> {
        let of = |excuse: Excuse<'_>| Self {
            kind: if matches!(excuse, Excuse::Waived(_)) { "inSource" } else { "external" },
            status: "accepted",
            justification: checked.words(&excuse.words()),
            location: match (excuse, checked.report()) {
                (Excuse::Waived(waiver), Some(report)) => {
                    Some(Location::at(&checked.spot(&report.source, waiver.span)))
                }
                _ => None,
            },
        };
        excuse.map(of).into_iter().collect()
    }
}

/// What SARIF has no place for.
#[derive(Serialize, Default)]
#[serde(rename_all = "camelCase")]
struct Properties<'a> {
    severity: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    view: Option<&'static str>,
    #[serde(flatten)]
    figures: Option<Figures>,
    #[serde(skip_serializing_if = "Option::is_none")]
    needs: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<String>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct FixOut {
    description: Text,
    artifact_changes: [ArtifactChange; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactChange {
    artifact_location: ArtifactLocation,
    replacements: Vec<Replacement>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement {
    deleted_region: Region,
    inserted_content: Text,
}

/// The name of the identity that a fingerprint is made from, and its number.
const FINGERPRINT: &str = "ruleElementOutcome/v1";

fn design(checked: &Checked<'_>, run: &Run) -> String {
    let mut out: Vec<String> = checked.entries().iter().map(|entry| line(&found(checked, entry))).collect();
    out.extend(checked.waits().iter().map(|wait| line(&open(checked, wait))));
    if run.every_outcome {
        out.extend(checked.outcomes().iter().filter_map(|outcome| settled(checked, outcome)).map(|of| line(&of)));
    }
    out.join(",\n")
}

/// What fails the run is an error. What is excused is as grave as it would be.
fn level(checked: &Checked<'_>, entry: &Entry<'_>) -> &'static str {
    match checked.weight(entry) {
        Weight::Fails => "error",
        Weight::Excused if checked.verdict.levels.fail(entry.severity()) => "error",
        Weight::Told | Weight::Excused => "warning",
    }
}

/// What a rule or a notice is where nothing else is chosen.
fn usual(severity: Severity) -> &'static str {
    if Levels::default().fail(severity) { "error" } else { "warning" }
}

fn id_of(rule: &RuleRef, here: &Path) -> String {
    id(&told_apart(rule.set(), here), &rule.rule().name)
}

fn id(set: &str, rule: &str) -> String {
    format!("{set}/{rule}")
}

fn found<'a>(checked: &Checked<'_>, entry: &'a Entry<'_>) -> Result<'a> {
    let message = &entry.message;
    let main = entry.spot.as_ref().map_or_else(|| Location::whole(&checked.named(&message.source)), Location::at);
    let of_rule = entry.finding;
    let fix = of_rule.and_then(|finding| Some((&finding.source, finding.fix.as_ref()?)));
    let help = message.help.as_ref().map(|help| checked.words(help));
    let fix = fix.filter(|(_, fix)| !fix.edits.is_empty());
    Result {
        rule_id: of_rule.map_or_else(|| id(READER, &message.name), |finding| id_of(&finding.rule, checked.here)),
        kind: "fail",
        level: level(checked, entry),
        message: text(checked.words(&message.message)),
        locations: vec![main.of(&entry.elements)],
        related_locations: related(checked, entry),
        partial_fingerprints: BTreeMap::from([(FINGERPRINT, entry.fingerprint.as_str())]),
        fixes: fix.map(|(source, fix)| mend(checked, source, fix, help.clone())).into_iter().collect(),
        suppressions: Suppression::of(checked, entry.excuse()),
        properties: Properties {
            severity: entry.severity().word(),
            view: of_rule.map(|finding| if finding.view == View::Measured { "measured" } else { "drawn" }),
            figures: of_rule.and_then(|finding| Figures::of_compared(&finding.decision.compared)),
            needs: None,
            help,
        },
    }
}

/// The other words behind a finding: of the design, of the shop's file, of the set and those that amend it.
fn related(checked: &Checked<'_>, entry: &Entry<'_>) -> Vec<Location> {
    let message = &entry.message;
    let mut all: Vec<(&Source, Span, String)> = Vec::new();
    let mut add = |source, labels: &[Label]| {
        all.extend(labels.iter().map(|label| (source, label.span, label.text.clone())));
    };
    add(&message.source, message.labels.get(1..).unwrap_or_default());
    if let Some(beside) = &message.beside {
        add(&beside.source, &beside.labels);
    }
    if let Some(clause) = &message.clause {
        add(&clause.source, &[wording::the_clause(clause)]);
        add(&clause.source, &clause.limits);
        clause.amended.iter().for_each(|amended| add(&amended.source, &amended.changes));
    }
    let location = |(at, (source, span, said)): (usize, (&Source, Span, String))| Location {
        id: Some(at + 1),
        message: Some(text(checked.words(&said))),
        ..Location::at(&checked.spot(source, span))
    };
    all.into_iter().enumerate().map(location).collect()
}

fn mend(checked: &Checked<'_>, source: &Source, fix: &Fix, help: Option<String>) -> FixOut {
    let replacement = |edit: &crate::check::Edit| Replacement {
        deleted_region: Region::new(&checked.spot(source, edit.span)),
        inserted_content: text(edit.text.clone()),
    };
    let artifact_location = ArtifactLocation::new(&checked.named(source));
    let replacements = fix.edits.iter().map(replacement).collect();
    FixOut {
        description: text(help.unwrap_or_default()),
        artifact_changes: [ArtifactChange { artifact_location, replacements }],
    }
}

fn open<'a>(checked: &Checked<'_>, wait: &'a Wait<'_>) -> Result<'a> {
    Result {
        rule_id: wait.rule.map_or_else(|| id(&wait.item.set, &wait.item.rule), |rule| id_of(rule, checked.here)),
        kind: "open",
        level: "none",
        message: text(format!("{}: needs {}", wait.item.about, wait.needs)),
        locations: vec![Location::at(&wait.spot).of(std::slice::from_ref(&wait.item.about))],
        related_locations: Vec::new(),
        partial_fingerprints: BTreeMap::from([(FINGERPRINT, wait.fingerprint.as_str())]),
        fixes: Vec::new(),
        suppressions: Suppression::of(checked, wait.excuse()),
        properties: Properties { severity: "not checked", needs: Some(&wait.needs), ..Properties::default() },
    }
}

/// What is neither a finding nor open: a pass, or a rule that does not apply.
fn settled<'a>(checked: &Checked<'_>, outcome: &RuleOutcome) -> Option<Result<'a>> {
    let (kind, grounds) = match &outcome.verdict {
        Settled::Pass(grounds) => ("pass", Some(grounds)),
        Settled::NotApplicable => ("notApplicable", None),
        Settled::Fail(_) | Settled::NotChecked(_) => return None,
    };
    let analysis = checked.came.ok()?;
    let stated = grounds.and_then(|grounds| grounds.stated.first()).map(|stated| stated.span);
    let stair = analysis.stairs.get(outcome.stair)?;
    let design = if outcome.view == View::Measured { stair.measured.as_ref()? } else { &stair.drawn };
    let drawn = design.get(outcome.element).map(|element| element.span);
    let spot = checked.spot(&analysis.report.source, stated.or(drawn).unwrap_or(stair.span));
    let figures = grounds.and_then(|grounds| grounds.comparison.as_ref()).map(Figures::of);
    let said = figures.as_ref().map_or_else(String::new, |figures| {
        format!(": {} {} {}", figures.value.text, figures.relation, figures.limit.text)
    });
    Some(Result {
        rule_id: id_of(&outcome.rule, checked.here),
        kind,
        level: "none",
        message: text(format!("{}{said}", outcome.path)),
        locations: vec![Location::at(&spot).of(std::slice::from_ref(&outcome.path))],
        related_locations: Vec::new(),
        partial_fingerprints: BTreeMap::new(),
        fixes: Vec::new(),
        suppressions: Vec::new(),
        properties: Properties {
            severity: if kind == "pass" { "passed" } else { "not applicable" },
            view: Some(if outcome.view == View::Measured { "measured" } else { "drawn" }),
            figures,
            ..Properties::default()
        },
    })
}

/// What stands after the results.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Tail<'a> {
    tool: Tool<'a>,
    invocations: [Invocation; 1],
    original_uri_base_ids: BTreeMap<&'static str, BaseId>,
    artifacts: Vec<Artifact>,
    taxonomies: Vec<Taxonomy<'a>>,
    language: &'static str,
    properties: RunProperties,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct RunProperties {
    caution: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation {
    execution_successful: bool,
}

#[derive(Serialize)]
struct BaseId {
    description: Text,
}

#[derive(Serialize)]
struct Artifact {
    location: ArtifactLocation,
    hashes: BTreeMap<&'static str, String>,
    description: Text,
}

#[derive(Serialize)]
struct Tool<'a> {
    driver: Driver<'a>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Driver<'a> {
    name: &'static str,
    version: &'static str,
    semantic_version: &'static str,
    short_description: Text,
    rules: Vec<Descriptor<'a>>,
    supported_taxonomies: Vec<Component<'a>>,
}

#[derive(Serialize)]
struct Component<'a> {
    name: &'a str,
    index: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Descriptor<'a> {
    id: String,
    short_description: Text,
    full_description: Text,
    help: Help,
    default_configuration: Configuration,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    relationships: Vec<Relationship<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    properties: Option<OfRule<'a>>,
}

#[derive(Serialize)]
struct Help {
    text: String,
    markdown: String,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct OfRule<'a> {
    set: &'a str,
    edition: &'a str,
    chapter: &'a str,
    source: &'a str,
    sure: &'a str,
}

#[derive(Serialize)]
struct Relationship<'a> {
    target: Target<'a>,
    kinds: [&'static str; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Target<'a> {
    id: &'a str,
    tool_component: Component<'a>,
}

/// The clauses that the rules of one set rest on.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Taxonomy<'a> {
    name: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    version: &'a str,
    short_description: Text,
    is_comprehensive: bool,
    taxa: Vec<Taxon<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Taxon<'a> {
    id: &'a str,
    short_description: Text,
}

/// A set, and those of its rules that the run tells of, by name.
struct OfSet<'a> {
    set: &'a RuleSet,
    rules: BTreeMap<&'a str, &'a RuleRef>,
}

fn ends(tallied: &Tallied, run: &Run) -> String {
    let name = |rule: &RuleRef| told_apart(rule.set(), &run.here);
    let mut sets: BTreeMap<String, OfSet<'_>> = BTreeMap::new();
    for (rule, _) in tallied.rules.values() {
        let of = sets.entry(name(rule)).or_insert_with(|| OfSet { set: rule.set(), rules: BTreeMap::new() });
        of.rules.insert(&rule.rule().name, rule);
    }
    let descriptors = sets.iter().enumerate().flat_map(|(index, (name, of))| {
        of.rules.values().map(move |rule| of_rule(rule, name, Component { name, index }))
    });
    let notices = tallied.notices.keys().map(|(severity, name)| of_notice(*severity, name));
    let components = sets.keys().enumerate().map(|(index, name)| Component { name, index });
    let base = |name, said: &str| (name, BaseId { description: text(said) });
    let tail = Tail {
        tool: Tool {
            driver: Driver {
                name: env!("CARGO_PKG_NAME"),
                version: env!("CARGO_PKG_VERSION"),
                semantic_version: env!("CARGO_PKG_VERSION"),
                short_description: text(env!("CARGO_PKG_DESCRIPTION")),
                rules: descriptors.chain(notices).collect(),
                supported_taxonomies: components.collect(),
            },
        },
        invocations: [Invocation { execution_successful: tallied.totals.refused == 0 }],
        original_uri_base_ids: BTreeMap::from([
            base(ROOT, "The folder in which the check was run."),
            base(SETS, "The tool's own folder of rulesets."),
        ]),
        artifacts: artifacts(sets.values().map(|of| of.set), run),
        taxonomies: sets.iter().map(|(name, of)| taxonomy(name, of)).collect(),
        language: "en-GB",
        properties: RunProperties { caution: caution() },
    };
    let tail = line(&tail);
    format!("\n],\n{}]}}\n", tail.strip_prefix('{').unwrap_or(&tail))
}

fn of_rule<'a>(rule: &'a RuleRef, set_name: &str, component: Component<'a>) -> Descriptor<'a> {
    let (set, of) = (rule.set(), rule.rule());
    let Rule { name, chapter, cites, because, .. } = of;
    let wording = of.wording();
    let source = if cites.is_empty() { "no source stated" } else { cites };
    let why = if because.is_empty() { wording.as_str() } else { because };
    let sure = sure::after_a_source(&of.sure);
    Descriptor {
        id: id(set_name, name),
        short_description: text(format!("{name}.")),
        full_description: text(why),
        help: Help {
            text: format!("{wording}\n{}: {source}{sure}\n{because}", set.title),
            markdown: format!("`{}`\n\n{}: {source}{sure}\n\n{because}", wording.replace('`', "'"), set.title),
        },
        default_configuration: Configuration {
            level: usual(if of.shall { Severity::Broken } else { Severity::Advised }),
        },
        relationships: (!cites.is_empty())
            .then(|| Relationship { target: Target { id: cites, tool_component: component }, kinds: ["relevant"] })
            .into_iter()
            .collect(),
        properties: Some(OfRule { set: &set.title, edition: &set.edition, chapter, source: cites, sure: &of.sure }),
    }
}

fn of_notice<'a>(severity: Severity, name: &str) -> Descriptor<'a> {
    let help = wording::notice_help(name);
    let said = if help.is_empty() { format!("{}: {name}.", severity.word()) } else { help.to_owned() };
    Descriptor {
        id: id(READER, name),
        short_description: text(format!("{name}.")),
        full_description: text(said.clone()),
        help: Help { text: said.clone(), markdown: said },
        default_configuration: Configuration { level: usual(severity) },
        relationships: Vec::new(),
        properties: None,
    }
}

fn taxonomy<'a>(name: &'a str, of: &OfSet<'a>) -> Taxonomy<'a> {
    let set = of.set;
    let cited: BTreeSet<&str> = of.rules.values().map(|rule| rule.rule().cites.as_str()).collect();
    let taxon = |id: &&'a str| Taxon { id, short_description: text(*id) };
    Taxonomy {
        name,
        version: &set.edition,
        short_description: text(if set.basis.is_empty() { &set.title } else { &set.basis }),
        is_comprehensive: false,
        taxa: cited.iter().filter(|cites| !cites.is_empty()).map(taxon).collect(),
    }
}

/// The texts of the sets, each once.
fn artifacts<'s>(sets: impl Iterator<Item = &'s RuleSet>, run: &Run) -> Vec<Artifact> {
    let texts: BTreeMap<Named, String> =
        sets.flat_map(|set| set.texts()).map(|source| (Named::of(source, &run.here), digest(&source.text))).collect();
    let artifact = |(named, digest): (Named, String)| Artifact {
        location: ArtifactLocation::new(&named),
        hashes: BTreeMap::from([("sha-256", digest)]),
        description: text(named.words()),
    };
    texts.into_iter().map(artifact).collect()
}
