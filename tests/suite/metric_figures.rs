//! A limit with the metric figure that its source prints beside the inches: what is written in metric alone is held to
//! that one, whatever else is held to the inches. The figures are those of IRC 2021 R311.7.1: 36 in prints as 914 mm,
//! which is 0.4 mm less.

use pitchboard::Severity;
use pitchboard::base::Source;
use pitchboard::check::Finding;
use pitchboard::session::Session;
use pitchboard::wording::message;

const SET: &str = "ruleset \"Two figures\" { basis: \"IRC\" }
rule \"width\" { limit least: 36\" (914 mm); each flight shall have width >= least; source: \"IRC 2021, R311.7.1\" }
rule \"most\" { limit most: 7-3/4\" (196 mm); each riser shall have height <= most; source: \"x\" }
rule \"spread\" { limit most: 3/8\" (9.5 mm); each flight shall have largest height of risers - smallest height of risers <= most; source: \"x\" }
rule \"many\" { limit tall: 7-3/4\" (196 mm); each flight shall have number of (risers where height > tall) = 0; source: \"x\" }
rule \"narrow\" { limit least: 36\" (914 mm); each flight where width < least shall have rise <= 30\"; source: \"x\" }
rule \"reach\" { limit far: 36\" (914 mm); each handrail shall have height + clearance >= far; source: \"x\" }
rule \"strict\" { limit gap: 4\" (102 mm); each handrail shall have clearance < gap; source: \"x\" }
";

fn checked(set: &str, stated: &str) -> Vec<(String, String)> {
    let source = Source::new("s.stair", format!("stair \"s\" {{ rules: two; {stated} }}"));
    let session = Session::default().with_set("two", Source::new("two.rules", set));
    let report = session.check(&source, None).report;
    let rules = report.findings.iter().filter(|finding| matches!(finding, Finding::Rule(_)));
    rules.map(message).map(|said| (said.name, said.message)).collect()
}

/// Which rules are broken.
fn broken(stated: &str) -> Vec<String> {
    checked(SET, stated).into_iter().map(|(name, _)| name).collect()
}

#[test]
fn what_is_written_in_metric_alone_is_held_to_the_metric_figure() {
    let width = |width: &str| broken(&format!("flight {{ risers: 2 of 7\"; width: {width} }}"));
    assert!(width("36\"").is_empty() && width("914.4 mm").is_empty());
    assert!(width("914 mm").is_empty(), "914 mm is what the source prints");
    assert!(width("91.4 cm").is_empty() && width("0.914 m").is_empty());
    assert_eq!(width("913.9 mm"), ["width"]);
    assert_eq!(width("35.99\""), ["width"], "35.99 in is 914.1 mm, and is not written in metric");
    assert_eq!(width("2' 11-63/64\""), ["width"]);
    // The metric figure can be the stricter one: 7-3/4 in is 196.85 mm.
    let riser = |riser: &str| broken(&format!("flight {{ risers: 2 of {riser} }}"));
    assert!(riser("7-3/4\"").is_empty() && riser("196 mm").is_empty());
    assert_eq!(riser("196.5 mm"), ["most", "many"]);
    // A strict limit is strict at either figure: 4 in is 101.6 mm.
    let gap = |gap: &str| broken(&format!("flight {{ risers: 2 of 7\" }} handrail left {{ clearance: {gap} }}"));
    assert!(gap("101.9 mm").is_empty() && gap("3-63/64\"").is_empty());
    assert_eq!((gap("102 mm"), gap("4\"")), (vec!["strict".to_owned()], vec!["strict".to_owned()]));
}

#[test]
fn every_length_behind_a_value_counts() {
    let spread = |risers: &str| broken(&format!("flight {{ risers: {risers} }}"));
    // 9.52 mm is less than 3/8 in (9.525 mm) and more than 9.5 mm.
    assert_eq!(spread("170 mm, 179.52 mm"), ["spread"]);
    // One of the two in inches, written in inches: the inches count.
    assert!(spread("6\", 161.92 mm").is_empty(), "152.4 mm and 9.52 mm more, but not all in metric");
    // Nothing at all has no unit.
    let reach = |height: &str, clearance: &str| {
        broken(&format!("flight {{ risers: 2 of 7\" }} handrail left {{ height: {height}; clearance: {clearance} }}"))
    };
    assert!(reach("914 mm", "0\"").is_empty());
    assert_eq!(reach("913 mm", "1/64\""), ["reach"], "1/64 in is 0.4 mm, and 36 in is 914.4 mm");
}

#[test]
fn a_condition_goes_by_the_figure_of_what_it_reads() {
    let narrow = |width: &str| {
        let found = broken(&format!("flight {{ risers: 5 of 7\"; width: {width} }}"));
        found.iter().any(|name| name == "narrow")
    };
    assert!(!narrow("914 mm") && narrow("913 mm") && narrow("35.99\"") && !narrow("36\""));
}

#[test]
fn the_finding_says_which_figure_it_was_held_to() {
    let said = |stated: &str| checked(SET, stated).remove(0).1;
    let flight = |width: &str| format!("flight {{ risers: 2 of 7\"; width: {width} }}");
    assert_eq!(
        said(&flight("910 mm")),
        "flight: width is 910 mm, shall be at least 914 mm (the metric figure): 4 mm too little"
    );
    assert_eq!(said(&flight("35\"")), "flight: width is 35\", shall be at least 36\": 1\" too little");
    assert!(
        said("flight { risers: 190 mm, 6\" }").contains("the figure in inches: not all is written in metric"),
        "{}",
        said("flight { risers: 190 mm, 6\" }")
    );
}

#[test]
fn an_amendment_without_a_metric_figure_drops_it() {
    let with = |limit: &str| {
        let over = format!("ruleset \"Over\" {{ amends: two }} amend \"width\" {{ limit least: {limit} }}");
        let source = Source::new("s.stair", "stair \"s\" { rules: over; flight { risers: 2 of 7\"; width: 914 mm } }");
        let session = Session::default()
            .with_set("two", Source::new("two.rules", SET))
            .with_set("over", Source::new("over.rules", over));
        let report = session.check(&source, None).report;
        let slips = report.findings.iter().filter(|finding| matches!(finding, Finding::Reader(_))).count();
        assert_eq!(slips, 0, "{:?}", report.findings);
        report.findings.iter().filter(|finding| finding.severity() == Severity::Broken).count()
    };
    assert_eq!(with("35\" (889 mm)"), 0);
    assert_eq!(with("36\""), 1, "the same inches, and no metric figure any more");
    assert_eq!(with("36-1/64\" (914 mm)"), 0);
}

#[test]
fn a_figure_that_is_not_the_metric_one_is_refused() {
    let refused = |limit: &str| {
        let text =
            format!("rule \"r\" {{ limit least: {limit}; each flight shall have width >= least; source: \"x\" }}");
        let found = Session::default().read_set(&Source::new("t.rules", text)).diagnostics;
        found.first().map(|slip| message(slip).message)
    };
    for (limit, said) in [
        ("36\" (914 mm)", None),
        ("36\"(914mm)", None),
        ("3' (0.914 m)", None),
        ("30-1/4\" (768 mm)", None),
        ("36\" (36\")", Some("`36\"` is not the metric figure beside one in inches")),
        ("914 mm (36\")", Some("`36\"` is not the metric figure beside one in inches")),
        ("914 mm (91.4 cm)", Some("`91.4 cm` is not the metric figure beside one in inches")),
        ("36\" (914)", Some("`least` is a length; `914` beside it is not")),
        ("36\" (9140 mm)", Some("`least` comes to 914.4 mm in metric; 9140 mm is another figure")),
        ("36\" (about)", Some("`least`: `about` is no figure")),
    ] {
        assert_eq!(refused(limit).as_deref(), said, "{limit}");
    }
    assert!(refused("36\" 914 mm").is_some() && refused("36\" (914 mm").is_some() && refused("36\" ()").is_some());
}

#[test]
fn bounds_are_reasoned_over_by_both_figures() {
    let text = "rule \"r\" { limit least: 100\" (2540 mm); limit most: 100-1/64\" (2539 mm)
        each flight shall have least <= width <= most; source: \"x\" }";
    let loaded = Session::default().read_set(&Source::new("t.rules", text));
    assert!(loaded.set.rules.is_empty(), "nothing lies between 2540 and 2539 mm");
    let said = message(&loaded.diagnostics[0]).message;
    assert_eq!(said, "`least` is 100\" (2540 mm) and `most` is 100-1/64\" (2539 mm): nothing lies between");
}
