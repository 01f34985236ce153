//! The terminal face on shared samples, whole. A few snapshots pin the look; case files pin the meaning.

use std::sync::Arc;

use pitchboard::base::{Severity, Source};
use pitchboard::check::changes;
use pitchboard::derive::Evaluation;
use pitchboard::report::{self, Clauses, Look, Totals, closing, report};
use pitchboard::rules::{self, RuleSet};
use pitchboard::session::Session;
use pitchboard::{model, syntax};

/// A session in which the sets of this file are asked for by a bare name.
fn session() -> Session {
    let levels = LEVELS.iter().map(|(name, text)| (*name, Source::new(format!("{name}.rules"), text)));
    let own = [("own", Source::new("own.rules", OWN)), ("stricter", Source::new("stricter.rules", STRICTER))];
    own.into_iter().chain(levels).fold(Session::default(), |session, (name, source)| session.with_set(name, source))
}

/// A small set of our own, so that a new rule of a shipped set moves no snapshot.
const OWN: &str = r#"ruleset "Jetty shop" { edition: "2026"; caution: "No permit." }

rule "riser height" {
    limit tallest: 7-3/4"
    each riser shall have height <= tallest
    source: "IRC 2021, R311.7.5.1"
    because: "A tall step tires the climber."
}

rule "even risers" {
    limit spread: 3/8"
    each flight shall have
        largest height of risers - smallest height of risers <= spread
    source: "IRC 2021, R311.7.5.1"
}

rule "handrail needed" {
    each flight where number of risers > 3 shall have number of handrails >= 1
    source: "IRC 2021, R311.7.8"
}

rule "gap" {
    each guard shall have opening < 4"
    source: "IRC 2021, R312.1.3"
    sure: memory
}

rule "eased edge" {
    each tread should have edge is not square
    source: "common practice"
}

rule "rail height" {
    each handrail shall have 34" <= height <= 38"
    source: "IRC 2021, R311.7.8.1"
}
"#;

/// The same, amended, with what must not break a table.
const STRICTER: &str = r#"ruleset "Jetty shop | stricter" { amends: own; edition: "2027"; basis: "the master's *own* rule" }

amend "riser height" {
    limit tallest: 7-1/4"
    source: "shop rule | 3"
}

amend "gap" { sure: "looked up" }

withdraw "even risers" { because: "Neighbours are held." }

chapter "Neighbours" {
    rule "neighbouring risers" {
        limit step: 3/16"
        each flight where number of risers > 1 and not (width < 24" or width > 60")
            shall have largest change of height along risers <= step
        source: "shop rule <4>"
        sure: memory
        because: "The foot trusts the last step."
    }
}
"#;

/// Three sets, each over the one before, and the first over our own.
const LEVELS: &[(&str, &str)] = &[
    (
        "coast",
        r#"ruleset "Coast" { amends: own; edition: "2024" }
amend "riser height" { limit tallest: 7-1/2"; source: "Coast ordinance 3" }
amend "handrail needed" { where: number of risers > 2 }
amend "eased edge" { each tread should have edge is one of radius, bevel }
"#,
    ),
    (
        "marsh",
        r#"ruleset "Reedy County" { amends: coast }
amend "riser height" { limit tallest: 7-1/4"; because: "Waders are heavy." }
amend "handrail needed" { verb: should }
amend "eased edge" { verb: shall; source: "Ordinance 14-5" }
"#,
    ),
    (
        "sluice",
        r#"ruleset "Sluice End" { amends: marsh; edition: "spring" }
amend "riser height" { limit tallest: 7"; source: "By-law 2" }
amend "handrail needed" { where: always }
"#,
    ),
];

const STEEP: &str = r#"stair "Sluice steps" {
    rules: sluice
    flight { risers: 7-1/8", 7-1/8"; runs: 10" }
    tread { edge: square }
}
"#;

const FAULTY: &str = r#"stair "Bird hide" {
    rules: own
    flight { risers: 7-1/4", 7-3/8", 7-11/16", 8"; runs: 3 of 10" }
    tread { edge: square; nozing: 1" }
    guard left { balusters: 2x2 every 5-1/2" }
    width 36"
}
"#;

const MEASURED: &str = r#"stair "Röstbo 船 loft" {
	rules: own
	flight { risers: 4 of 180 mm; runs: 3 of 255 mm }
	handrail left, right { height: 920 mm }
	handrail right { }
}
measured "Röstbo 船 loft" {
	risers: 180 mm, 180 mm, 190.5 mm, 180 mm
	handrail left { height: 840 mm }
}
"#;

fn look() -> Look {
    Look { colour: false, unicode: true, width: 100, list_not_checked: false }
}

fn told(name: &str, text: &str, look: &Look) -> String {
    let found = session().check(&Source::new(name, text), None).report;
    let mut totals = Totals::default();
    totals.add(&found);
    format!("{}\n{}", report(&found, look), closing(&totals, look))
}

#[test]
fn the_text_of_a_rule_stands_once_where_it_is_asked_for() {
    let mut clauses = Clauses::default();
    for name in ["a.stair", "b.stair"] {
        let mut of_file = Clauses::default();
        of_file.add(&session().check(&Source::new(name, STEEP), None).report);
        clauses.merge(of_file);
    }
    insta::assert_snapshot!(clauses.text(&look()));
}

#[test]
fn faults_of_a_design_and_of_its_writing() {
    insta::assert_snapshot!(told("bird-hide.stair", FAULTY, &look()));
}

#[test]
fn measured_beside_drawn_with_tabs_and_wide_letters() {
    insta::assert_snapshot!(told("loft.stair", MEASURED, &look()));
}

#[test]
fn plain_and_narrow_with_all_that_is_not_settled() {
    let look = Look { unicode: false, width: 80, list_not_checked: true, ..look() };
    insta::assert_snapshot!(told("bird-hide.stair", FAULTY, &look));
}

#[test]
fn colour_only_where_asked() {
    assert!(!told("a.stair", FAULTY, &look()).contains('\x1b'));
    assert!(told("a.stair", FAULTY, &Look { colour: true, ..look() }).contains('\x1b'));
}

#[test]
fn the_whole_chain_of_three_sets_over_a_fourth() {
    insta::assert_snapshot!(told("sluice.stair", STEEP, &look()));
}

/// Two sets of which the one amends the other are each held, and told apart by name.
#[test]
fn a_set_and_the_one_it_amends_are_held_each_on_its_own() {
    let report =
        told("sluice.stair", &STEEP.replace("rules: sluice", "rules: coast, own").replace("7-1/8", "8"), &look());
    let heads: Vec<&str> =
        report.lines().filter_map(|line| line.split_once("§ ")).map(|(_, head)| head.trim()).collect();
    assert!(heads.contains(&"Coast (2024): Coast ordinance 3, as amended by Coast"), "{report}");
    assert!(heads.contains(&"Jetty shop (2026), in Coast: common practice, as amended by Coast"), "{report}");
    // What one change cures in both is one group, and each line names its set.
    assert!(report.contains("also broken: riser height (Jetty shop): riser 1"), "{report}");
    assert!(report.contains("also advised: eased edge (Jetty shop): tread 1"), "{report}");
    assert!(report.contains("shall be at most 7-1/2\"") && report.contains("shall be at most 7-3/4\""), "{report}");
    assert!(report.contains("checked against Coast") && report.contains("against Jetty shop (own.rules)"), "{report}");
}

fn set(name: &str) -> RuleSet {
    let loaded = session().set(name, None).expect("there");
    let advised = loaded.diagnostics.iter().all(|slip| slip.severity() == Severity::Advised);
    assert!(advised, "{:?}", loaded.diagnostics);
    Arc::into_inner(loaded).expect("the session is gone").set
}

fn compared(tables: bool) -> report::Page {
    let (first, second) = (set("own"), set("stricter"));
    let design =
        |name: &str, text: &str| (name.to_owned(), changes(&session().draw(&Source::new(name, text)), &first, &second));
    let designs = [design("bird-hide.stair", FAULTY), design("loft.stair", MEASURED)];
    report::comparison((&first, &second), &rules::compare(&first, &second), &designs, tables)
}

#[test]
fn a_set_with_its_limits_and_what_they_replaced() {
    insta::assert_snapshot!(report::set(&set("stricter")).text(&look()));
}

#[test]
fn a_set_over_three_others() {
    insta::assert_snapshot!(report::set(&set("sluice")).text(&look()));
}

#[test]
fn a_set_as_markdown() {
    insta::assert_snapshot!(report::set(&set("stricter")).markdown(0));
}

#[test]
fn two_sets_and_whose_outcome_changes() {
    insta::assert_snapshot!(compared(false).text(&look()));
}

#[test]
fn two_sets_plain_and_narrow() {
    let plain = compared(false).text(&Look { unicode: false, width: 80, ..look() });
    assert!(plain.is_ascii());
    insta::assert_snapshot!(plain);
}

#[test]
fn two_sets_as_markdown() {
    insta::assert_snapshot!(compared(true).markdown(0));
}

#[test]
fn a_rule_explained_for_things_that_pass_fail_are_spared_and_not_known() {
    let source = Source::new("bird-hide.stair", FAULTY);
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let stair = model::build(&tree, &source, &mut findings).remove(0);
    let evaluation = Evaluation::traced(&stair.drawn);
    let set = set("stricter");
    let mut told = String::new();
    for (rule, element) in [
        ("riser height", "riser 1"),
        ("riser height", "riser 4"),
        ("neighbouring risers", "flight"),
        ("gap", "guard left"),
    ] {
        let rule = set.rules.iter().find(|known| known.name == rule).expect("a rule");
        let id = (0..stair.drawn.elements.len()).find(|id| stair.drawn.called(*id) == element).expect("drawn");
        told += &format!("{}\n", report::explanation(&evaluation, &source, (&set, rule), id, &look()));
    }
    insta::assert_snapshot!(told);
}

#[test]
fn a_rule_whose_clause_verb_and_source_were_amended_explained() {
    let source = Source::new("sluice.stair", STEEP);
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let stair = model::build(&tree, &source, &mut findings).remove(0);
    let evaluation = Evaluation::traced(&stair.drawn);
    let set = set("sluice");
    let rule = set.rules.iter().find(|known| known.name == "eased edge").expect("a rule");
    let id = stair.drawn.of_kind(pitchboard::model::kinds::TREAD).next().expect("drawn");
    insta::assert_snapshot!(report::explanation(&evaluation, &source, (&set, rule), id, &look()));
}

#[test]
fn no_control_character_of_a_set_reaches_a_page() {
    let text = OWN.replace("tires the climber", "\u{1b}[2J").replace("Jetty shop", "a\u{1b}[31m\u{202e}b");
    let text = text.replace("common practice", "c\u{7}\u{200f}d").replace("eased edge", "e\u{1b}]8;;x");
    let set = Session::default().read_set(&Source::new("evil.rules", text)).set;
    assert_eq!(set.rules.len(), 6);
    let page = report::set(&set);
    for text in [page.text(&look()), page.text(&Look { unicode: false, ..look() }), page.markdown(0)] {
        let raw = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{202e}' | '\u{200f}');
        assert!(!text.contains(raw), "{text:?}");
    }
}
