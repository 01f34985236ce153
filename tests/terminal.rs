//! The terminal face on shared samples, whole. A few snapshots pin the look; case files pin the meaning.

use pitchboard::base::Source;
use pitchboard::check::{Checker, Library, Shipped};
use pitchboard::report::{Look, report};

struct Shelf;

impl Library for Shelf {
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, String> {
        match LEVELS.iter().find(|(known, _)| *known == name) {
            _ if name == "own" => Ok(Source::new("own.rules", OWN)),
            Some((name, text)) => Ok(Source::new(format!("{name}.rules"), text)),
            None => Shipped.ruleset(name, asked_by),
        }
    }
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
        r#"ruleset "Marsh County" { amends: coast }
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
    report(&Checker::new(&Shelf).check(&Source::new(name, text), None), look)
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
    assert!(heads.contains(&"Coast (2024): Coast ordinance 3"), "{report}");
    assert!(heads.contains(&"Jetty shop (2026): IRC 2021, R311.7.5.1"), "{report}");
    assert!(heads.contains(&"Jetty shop (2026), in Coast: common practice"), "{report}");
    assert!(report.contains("shall be at most 7-1/2\"") && report.contains("shall be at most 7-3/4\""), "{report}");
    assert!(report.contains("held to Coast") && report.contains("held to Jetty shop, edition: 2026"), "{report}");
}
