//! What the tests of worked examples share: a stair is drawn, a quantity is asked, a rule is held.

// Each test file uses some of it.
use pitchboard::base::Source;
use pitchboard::check::{BUILT_IN, LoadedSet};
use pitchboard::derive::{Datum, Derived, Evaluation, quantity};
use pitchboard::measure::INCH;
use pitchboard::model::{self, Stair, vocabulary};
use pitchboard::rules::{self, Rule, RuleSet, Verdict};
use pitchboard::session::Session;
use pitchboard::syntax;
use pitchboard::wording::messages;

/// Draws a stair; every word of it has to be read.
pub fn draw(body: &str) -> Stair {
    let source = Source::new("case", format!("stair {{ {body} }}"));
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let mut stairs = model::build(&tree, &source, &mut findings);
    assert!(findings.is_empty(), "{body}: {:?}", findings);
    assert_eq!(stairs.len(), 1, "{body}");
    stairs.pop().unwrap()
}

pub fn ask(stair: &Stair, kind: &str, nth: usize, name: &str) -> Derived {
    let evaluation = Evaluation::plain(&stair.drawn);
    let of = vocabulary::kind(kind).unwrap_or_else(|| panic!("no kind {kind}"));
    let id = stair.drawn.of_kind(of).nth(nth).unwrap_or_else(|| panic!("no {kind} {nth}"));
    // One that is asked at a place has it behind its name: `drop within 36"`.
    let at_a_place = || name.rsplit_once(' ').and_then(|(name, at)| Some((quantity(of, name)?, syntax::length(at))));
    let found = quantity(of, name).map(|entry| (entry, None)).or_else(at_a_place);
    let (entry, place) = found.unwrap_or_else(|| panic!("no {name} of {kind}"));
    evaluation.derived(id, entry, place)
}

/// A number in base units.
pub fn number(stair: &Stair, kind: &str, nth: usize, name: &str) -> f64 {
    match ask(stair, kind, nth, name) {
        Ok(Datum::Measure(measure)) => measure.value,
        other => panic!("{name} of {kind}: {other:?}"),
    }
}

pub fn inches(body: &str, kind: &str, nth: usize, name: &str) -> f64 {
    number(&draw(body), kind, nth, name) / INCH
}

/// How a rule stands: the worst of its elements.
fn held(rule: &Rule, body: &str) -> &'static str {
    let stair = draw(body);
    let evaluation = Evaluation::plain(&stair.drawn);
    let verdicts: Vec<Verdict> = rules::verdicts(rule, &evaluation).map(|(_, verdict)| verdict).collect();
    let any = |wanted: fn(&Verdict) -> bool| verdicts.iter().any(wanted);
    if any(|verdict| *verdict == Verdict::Fail) {
        "fail"
    } else if any(|verdict| matches!(verdict, Verdict::NotChecked(_))) {
        "not checked"
    } else if any(|verdict| *verdict == Verdict::Pass) {
        "pass"
    } else {
        "not applicable"
    }
}

/// How a rule of a built-in set stands.
pub fn standing(set: &str, rule: &str, body: &str) -> &'static str {
    let (name, text) = BUILT_IN.iter().find(|(known, _)| *known == set).unwrap();
    let set: RuleSet = Session::default().read_set(&Source::new(*name, *text)).set;
    held(set.rules.iter().find(|known| known.name == rule).unwrap_or_else(|| panic!("no rule `{rule}`")), body)
}

pub fn residential(rule: &str, body: &str) -> &'static str {
    standing("residential", rule, body)
}

/// A rule of the workshop, or of the drawing itself, which is held with it.
pub fn workshop(rule: &str, body: &str) -> &'static str {
    let drawing = BUILT_IN.iter().any(|(set, text)| *set == "drawing" && text.contains(&format!("rule \"{rule}\"")));
    standing(if drawing { "drawing" } else { "workshop" }, rule, body)
}

/// Clauses of a code that no shipped set holds, each with a name; every one has to be read.
pub fn clauses(named: &[(&str, &str)]) -> RuleSet {
    let rules: String = named
        .iter()
        .map(|(name, clause)| {
            format!("rule \"{name}\" {{\n{clause}\nsource: \"the test\"\nbecause: \"the test\"\n}}\n")
        })
        .collect();
    let text = format!("ruleset \"clauses\" {{ basis: \"the test\" }}\nchapter \"clauses\" {{\n{rules}}}");
    let LoadedSet { set, diagnostics } = Session::default().read_set(&Source::new("clauses", text));
    assert_eq!(set.rules.len(), named.len(), "{:?}", messages(&diagnostics));
    set
}

/// Names of the clauses that a stair does not meet. All of them have to be decided.
pub fn unmet(set: &RuleSet, body: &str) -> Vec<String> {
    let decided = |rule: &&std::sync::Arc<Rule>| match held(rule, body) {
        "not checked" => panic!("{} is not checked: {body}", rule.name),
        stands => stands == "fail",
    };
    set.rules.iter().filter(decided).map(|rule| rule.name.clone()).collect()
}

/// Of these rules of a built-in set, each with a short name, the short names of those that a stair does not meet. All of
/// them have to be decided, and to speak of something.
pub fn broken<'a>(set: &str, rules: &[(&'a str, &str)], body: &str) -> Vec<&'a str> {
    let decided = |(_, rule): &&(&str, &str)| match standing(set, rule, body) {
        "pass" => false,
        "fail" => true,
        stands => panic!("{rule} is {stands}: {body}"),
    };
    rules.iter().filter(decided).map(|(short, _)| *short).collect()
}

#[track_caller]
pub fn near(found: f64, wanted: f64, allowed: f64) {
    assert!((found - wanted).abs() <= allowed, "found {found}, wanted {wanted} within {allowed}");
}

/// `n` risers and `n - 1` runs, all alike, in inches.
pub fn steps(risers: usize, rise: f64, run: f64) -> String {
    format!("flight {{ risers: {risers} of {rise}\"; runs: {} of {run}\" }}", risers - 1)
}
