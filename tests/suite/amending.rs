//! Sets that amend other sets: what holds whatever is amended, and what no case file can show.

use std::fmt::Write as _;
use std::path::Path;
use std::sync::Arc;

use crate::switches::long_run;
use pitchboard::base::{Severity, Source};
use pitchboard::check::{BUILT_IN, LoadedSet, Report};
use pitchboard::measure::{Measure, print};
use pitchboard::rules::{self, Proof, RuleSet};
use pitchboard::session::Session;
use pitchboard::wording::{Message, message, messages, need};
use proptest::prelude::*;

/// Sets by name, before the shipped ones.
struct Written(Vec<(String, String)>);

impl Written {
    fn session(&self) -> Session {
        let own = self.0.iter().map(|(name, text)| (name, Source::new(name, text)));
        own.fold(Session::default(), |session, (name, source)| session.with_set(name, source))
    }
}

fn load(name: &str, session: Session) -> (RuleSet, Vec<Message>) {
    let loaded = session.set(name, None).unwrap();
    drop(session);
    let LoadedSet { set, diagnostics } = Arc::into_inner(loaded).unwrap();
    (set, messages(&diagnostics))
}

fn examples() -> Vec<Source> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut paths: Vec<_> = walkdir::WalkDir::new(folder).into_iter().map(|entry| entry.unwrap().into_path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "stair"));
    paths.sort();
    paths.iter().map(|path| Source::new(path.to_string_lossy(), std::fs::read_to_string(path).unwrap())).collect()
}

/// A set over a shipped one that multiplies the limits that the bits name, and one over it that puts them back.
fn there_and_back(base: &str, factor: f64, bits: u64) -> Written {
    let (set, _) = load(base, Session::default());
    let (mut there, mut back) = (format!("ruleset \"There\" {{ amends: {base} }}\n"), String::new());
    writeln!(back, "ruleset \"Back\" {{ amends: there }}").unwrap();
    for (_, rule) in
        set.rules.iter().enumerate().filter(|(at, rule)| bits >> (at % 64) & 1 == 1 && !rule.limits.is_empty())
    {
        writeln!(there, "amend \"{}\" {{", rule.name).unwrap();
        writeln!(back, "amend \"{}\" {{", rule.name).unwrap();
        for limit in &rule.limits {
            let other = Measure { value: limit.measure.value * factor, ..limit.measure };
            writeln!(there, "    limit {}: {}", limit.name, print(other)).unwrap();
            writeln!(back, "    limit {}: {}", limit.name, limit.source.slice(limit.span)).unwrap();
        }
        writeln!(there, "}}").unwrap();
        writeln!(back, "}}").unwrap();
    }
    Written(vec![("there".to_owned(), there), ("back".to_owned(), back)])
}

/// Everything that a report says of the design itself, without the names of the sets.
fn outcomes(report: &Report) -> Vec<String> {
    let own = messages(&report.findings).into_iter().filter(|finding| finding.source == report.source);
    let mut told: Vec<String> = own
        .map(|finding| {
            format!(
                "{:?} {} {} {:?} {:?}",
                finding.severity, finding.name, finding.message, finding.labels, finding.help
            )
        })
        .collect();
    told.extend(report.not_checked.iter().map(|item| format!("{} {} {}", item.rule, item.about, need(&item.needs))));
    told.push(format!("{:?} {:?} {}", report.tally, report.customs, report.from_memory));
    told
}

fn cases() -> ProptestConfig {
    let cases = u32::try_from(long_run(24)).unwrap();
    ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(cases())]

    /// Amending limits and amending them back leaves every outcome on every example as it was.
    #[test]
    fn there_and_back_changes_nothing(factor in 0.4_f64..1.8, bits in any::<u64>()) {
        for (base, _) in BUILT_IN.iter().filter(|(base, _)| *base != "drawing") {
            let library = there_and_back(base, factor, bits);
            let (plain, amended) = (Session::default(), library.session());
            for design in examples() {
                let before = plain.check(&design, Some(&[(*base).to_owned()])).report;
                let after = amended.check(&design, Some(&["back".to_owned()])).report;
                prop_assert_eq!(outcomes(&before), outcomes(&after), "{} by {}", design.name, factor);
            }
        }
    }
}

/// The way there does change outcomes, so the test above compares something.
#[test]
fn the_way_there_changes_outcomes() {
    let library = there_and_back("residential", 0.5, u64::MAX);
    let told = |rules: &str| {
        let session = library.session();
        let all = examples();
        all.iter()
            .flat_map(|design| outcomes(&session.check(design, Some(&[rules.to_owned()])).report))
            .collect::<Vec<_>>()
    };
    assert_ne!(told("there"), told("residential"));
    assert_eq!(told("back"), told("residential"));
    let (set, findings) = load("back", library.session());
    assert!(findings.iter().all(|finding| finding.severity == Severity::Advised), "{findings:?}");
    let tallest = set.rules.iter().find(|rule| rule.name == "riser height").unwrap();
    assert_eq!(tallest.amendments.len(), 2);
    assert_eq!(tallest.limits[0].replaced.as_ref().unwrap().set, "There");
}

/// Sixteen sets one over the other are read; one more is told, and once.
#[test]
fn a_chain_of_sets_has_an_end() {
    let chain = |many: usize| {
        let set = |at: usize| {
            let amends = if at + 1 < many { format!("amends: s{}", at + 1) } else { String::new() };
            let rule =
                "rule \"r\" { limit most: 9\"; each riser shall have height <= most; source: \"common practice\" }";
            let body = if at + 1 < many { "" } else { rule };
            (format!("s{at}"), format!("ruleset \"Set {at}\" {{ {amends} }}\n{body}\n"))
        };
        Written((0..many).map(set).collect())
    };
    let (set, findings) = load("s0", chain(16).session());
    assert_eq!((set.rules.len(), findings.len(), set.takes_in.len()), (1, 0, 15));
    let (set, findings) = load("s0", chain(17).session());
    assert_eq!((set.rules.len(), set.takes_in.len()), (0, 15));
    let names: Vec<&str> = findings.iter().map(|finding| finding.name.as_str()).collect();
    assert_eq!(names, ["amended too deep"]);
    assert_eq!(&*findings[0].source.name, "s15");
}

/// A circle is named whole, from the set that it is closed at.
#[test]
fn a_circle_is_named_whole() {
    let set = |name: &str, amends: &str| (name.to_owned(), format!("ruleset \"{name}\" {{ amends: {amends} }}\n"));
    let library = Written(vec![set("a", "b"), set("b", "c"), set("c", "b")]);
    let (_, findings) = load("a", library.session());
    let said: Vec<&str> = findings.iter().map(|finding| finding.message.as_str()).collect();
    assert_eq!(said, ["these sets amend one another in a circle: `b` amends `c`, which amends `b`"]);
}

/// Figures that another document states in full are no longer from memory; those that it leaves are.
#[test]
fn memory_goes_with_the_figures() {
    let base = "ruleset \"Base\" { }\nrule \"rail\" { limit low: 34\"; limit high: 38\"; each handrail shall have low <= height <= high; source: \"IRC\"; sure: memory }\n";
    let sure = |amend: &str| {
        let text = format!("ruleset \"Over\" {{ amends: base }}\namend \"rail\" {{ {amend} }}\n");
        let library = Written(vec![("base".to_owned(), base.to_owned()), ("over".to_owned(), text)]);
        let (set, findings) = load("over", library.session());
        assert!(findings.is_empty(), "{findings:?}");
        set.rules[0].sure.clone()
    };
    assert_eq!(sure("limit low: 33\"; source: \"Ordinance 1\""), "memory");
    assert_eq!(sure("limit low: 33\"; limit high: 37\""), "memory");
    assert_eq!(sure("limit low: 33\"; limit high: 37\"; source: \"Ordinance 1\""), "");
    assert_eq!(sure("limit low: 33\"; source: \"Ordinance 1\"; sure: seen"), "");
}

/// The clause as it is in force is put together from the words of the sets that wrote it.
#[test]
fn the_wording_is_that_of_all_sets() {
    let base = "ruleset \"Base\" { }\nrule \"rail\" {\n each flight where (number of risers > 3 # four\n or rise > 30\")\n shall have\n number of handrails >= 1\n source: \"IRC\" }\n";
    let wording = |amend: &str| {
        let text = format!("ruleset \"Over\" {{ amends: base }}\namend \"rail\" {{ {amend} }}\n");
        let library = Written(vec![("base".to_owned(), base.to_owned()), ("over".to_owned(), text)]);
        load("over", library.session()).0.rules[0].wording()
    };
    let asks = "number of handrails >= 1";
    let narrows = "(number of risers > 3 or rise > 30\")";
    assert_eq!(wording("because: \"x\""), format!("each flight where {narrows} shall have {asks}"));
    assert_eq!(wording("verb: should"), format!("each flight where {narrows} should have {asks}"));
    assert_eq!(wording("where: always"), format!("each flight shall have {asks}"));
    assert_eq!(wording("where: not (rise < 5\")"), format!("each flight where not (rise < 5\") shall have {asks}"));
    assert_eq!(wording("each flight should have width > 9\""), "each flight should have width > 9\"");
}

/// What a clerk writes, at what it is told, and what is to be written instead.
const SLIPS: &[(&str, &str, &str)] = &[
    ("amend \"riser heights\" { limit tallest: 7\" }", "riser heights", "did you mean `riser height`?"),
    ("amend \"riser height\" { limit max: 7\" }", "max", "It has `tallest`."),
    ("amend \"riser height\" { tallest: 7\" }", "tallest", "For a figure write `limit tallest: 7\"`."),
    ("amend \"riser height\" { limit tallest: 7 cm }", "7 cm", "Look at the unit. If it is right, write `2.756\"`."),
    ("amend \"riser lean\" { limit most: 50% }", "50%", "Write an angle; that slope is 26.565°."),
    ("amend \"tread slope\" { limit steepest: 45° }", "45°", "that angle is 100%."),
    ("amend \"riser height\" {\nNo riser shall exceed seven inches\n}", "No riser", "`limit NAME: 7\"`"),
    ("amend \"riser height\" {\n// by-law 7\n}", "// by-law 7", "A remark begins with `#`."),
    ("withdraw \"riser lean\"", "withdraw", "`withdraw \"riser lean\" { because: "),
    ("withdraw \"riser lean\", \"nosing\" { because: \"x\" }", ",", "Write a `withdraw` of its own for each name."),
    ("amend \"handrail needed\" { where: 3 or more risers }", "3 or more risers", "`number of risers >= 3`"),
    ("amend \"handrail needed\" { where: risers >= 3 }", "3", "To count them, write `number of risers`."),
    (
        "amend \"handrail ends\" { each handrail shall have ends is one of returned, open or at a post }",
        "at a post",
        "Write `ends is one of returned, open, at a post`.",
    ),
    ("amend \"handrail ends\" { each handrail shall have ends is \"open\" }", "\"open\"", "without quotes"),
    (
        "amend \"landing depth\" { each landing where setting is outdoors shall have depth >= 40\" }",
        "setting",
        "A stair has one: write `setting of stair`.",
    ),
    ("amend \"landing depth\" { each landing shall have depth at least 40\" }", "depth at least", "`depth >= 40\"`"),
    ("amend \"landing depth\" { each landing shall have depth => 40\" }", ">", "Write `>=`."),
    (
        "amend \"landing depth\" { each landing shall have depth >= the lesser of width and 40\" }",
        "the lesser",
        "Write `lesser of A and B`.",
    ),
    (
        "amend \"flight rise\" { each flight shall have no more than 16 risers }",
        "risers",
        "Write `<=` for `no more than`",
    ),
    (
        "amend \"flight rise\" { each flight shall have number of steps <= 16 }",
        "steps",
        "A rule can speak of stair, landing",
    ),
    (
        "amend \"winder at the walkline\" { each winders shall have depth at 12\" >= 11\" }",
        "depth at",
        "It is asked of a tread.",
    ),
    (
        "amend \"winder at the walkline\" { each tread where shape is winder shall have depth >= 11\" }",
        "depth",
        "It is asked at a place: `depth at 12\"`.",
    ),
];

#[test]
fn a_clerks_slips_are_told_with_what_to_write() {
    for (slip, words, help) in SLIPS {
        let text = format!("ruleset \"County\" {{ amends: residential }}\n{slip}\n");
        let library = Written(vec![("county".to_owned(), text)]);
        let (_, findings) = load("county", library.session());
        let [finding] = findings.as_slice() else { panic!("{slip}: {findings:#?}") };
        let label = finding.labels.first().unwrap();
        assert!(finding.source.slice(label.span).contains(words), "{slip}: at {}", finding.source.slice(label.span));
        assert!(finding.help.as_deref().unwrap_or_default().contains(help), "{slip}: {:?}", finding.help);
    }
}

#[test]
fn an_example_that_goes_otherwise_shows_the_figures() {
    let proved = |block: &str| {
        let text = format!("ruleset \"County\" {{ amends: residential }}\n{block}\n");
        let (set, _) = load("county", Written(vec![("county".to_owned(), text)]).session());
        let failed: Vec<_> = rules::prove(&set).iter().filter_map(Proof::diagnostic).collect();
        let [failed] = failed.as_slice() else { panic!("{block}: {failed:#?}") };
        let Message { message, help, .. } = message(failed);
        (message.split_once("; ").unwrap().1.to_owned(), help.unwrap_or_default())
    };
    let (saw, why) = proved("amend \"riser height\" { limit tallest: 7\"; fails: flight { risers: 3 of 7\" } }");
    assert_eq!(
        (saw.as_str(), why.as_str()),
        ("3 risers passed, 0 failed", "For riser 1, `height <= tallest`, that is 7\" <= 7\", holds.")
    );
    let (saw, why) = proved("amend \"handrail needed\" { limit few risers: 2; fails: flight { risers: 2 of 7\" } }");
    assert_eq!(saw, "the rule applies to nothing in it");
    assert!(why.contains("that is 2 > 2, does not hold, so nothing is asked of it"), "{why}");
    let (_, why) = proved("amend \"landing depth\" { limit least: 40\"; passes: flight { risers: 2 of 7\" } }");
    assert_eq!(why, "There is no landing in it, and the rule applies to each landing.");
}
