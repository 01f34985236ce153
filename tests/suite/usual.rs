//! What a stair is usually held to, against what the shipped sets ask, and what a report says of it.

use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::session::Session;
use pitchboard::wording::usual_left_out;

/// What no rule of these sets asks.
fn left_out(sets: &str) -> Vec<&'static str> {
    let design = format!("stair \"s\" {{ rules: {sets}; flight {{ risers: 2 of 7\"; runs: 10\" }} }}");
    let report = Session::default().check(&Source::new("s.stair", design), None).report;
    report.usual_left_out.iter().map(|usual| usual.name).collect()
}

/// What a shipped set leaves out of what a stair is usually held to; its head says so, and why.
#[test]
fn a_shipped_set_leaves_out_what_its_document_does_and_no_more() {
    let guards = ["a guard beside the steps", "a guard at a landing"];
    for (name, _) in BUILT_IN {
        let expected: Vec<&str> = match *name {
            "drawing" => continue,
            // Its clauses on stairs are of steps and handrails; guards, headroom and landings are the building code's.
            "accessible" => vec![guards[0], guards[1], "headroom", "the depth of landings"],
            // No paragraph gives a figure for it.
            "construction" => vec!["headroom"],
            // What it asks of landings it asks between flights alone; the lengths were not seen.
            "new-zealand" => vec!["the depth of landings"],
            // They are laid over a code, and are none.
            "workshop" => left_out("workshop"),
            "strength" => left_out("strength"),
            _ => vec![],
        };
        assert_eq!(left_out(name), expected, "{name}");
    }
    assert_eq!(left_out("accessible, public"), Vec::<&str>::new());
    assert!(left_out("strength").contains(&"a handrail"));
}

#[test]
fn a_report_says_what_no_rule_asks_for() {
    let report = |sets: &str| {
        let design = format!("stair \"s\" {{ rules: {sets}; flight {{ risers: 2 of 7\"; runs: 10\" }} }}");
        let report = Session::default().check(&Source::new("s.stair", design), None).report;
        usual_left_out(&report.usual_left_out)
    };
    assert_eq!(
        report("construction").as_deref(),
        Some("not asked: no rule of the sets that were named asks for headroom, drawn or not")
    );
    assert_eq!(report("residential"), None);
}

/// A rule that only says how a rail has to be does not ask that one be there.
#[test]
fn how_a_thing_has_to_be_does_not_ask_for_it() {
    let held = |rule: &str| {
        let set = format!("ruleset \"fen\" {{ }}\nchapter \"c\" {{ rule \"r\" {{ {rule}\nsource: \"x\" }} }}");
        let session = Session::default().with_set("fen", Source::new("fen", set));
        let design = "stair \"s\" { rules: fen; flight { risers: 2 of 7\"; runs: 10\" } }";
        let report = session.check(&Source::new("s.stair", design), None).report;
        !report.usual_left_out.iter().any(|usual| usual.name == "a handrail")
    };
    assert!(!held("each handrail shall have height >= 34\""));
    assert!(held("each flight shall have railed sides >= 1"));
    assert!(held("each flight shall have number of handrails >= 1"));
    assert!(!held("each flight where number of handrails >= 1 shall have width >= 36\""));
}
