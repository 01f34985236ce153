//! What the examples of a rule leave open, and what an amendment leaves unsaid.

use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::rules::{self, RuleSet};
use pitchboard::session::Session;
use pitchboard::wording::message;

fn read(text: &str) -> (RuleSet, Vec<String>) {
    let loaded = Session::default().read_set(&Source::new("t.rules", text));
    let said = loaded.diagnostics.iter().map(|slip| message(slip).message).collect();
    (loaded.set, said)
}

/// What no example of a rule notices.
fn open(rule: &str) -> Vec<String> {
    let (set, said) = read(&format!("rule \"r\" {{ {rule}\nsource: \"x\" }}"));
    assert!(said.is_empty(), "{said:?}");
    let told = "rule \"r\": no example notices if ";
    let gaps = rules::gaps(&set).found;
    gaps.iter().map(|gap| message(gap).message.replace(told, "")).collect()
}

#[test]
fn a_limit_is_held_by_examples_at_it_and_one_mark_past_it() {
    let rule = |passes: &str, fails: &str| {
        open(&format!(
            "limit least: 36\"\neach flight shall have width >= least\npasses: flight {{ width: {passes} }}\nfails: flight {{ width: {fails} }}"
        ))
    };
    assert_eq!(rule("36\"", "35-63/64\""), Vec::<String>::new());
    assert_eq!(rule("36\"", "35-31/32\""), ["`least` were 35-63/64\" in place of 36\""]);
    assert_eq!(
        rule("36-1/64\"", "35-63/64\""),
        ["`least` were 36-1/64\" in place of 36\"", "`>` stood in place of `>=`"]
    );
}

#[test]
fn both_figures_of_a_limit_are_moved() {
    let rule = "limit least: 36\" (914 mm)\neach flight shall have width >= least
        passes: flight { width: 36\" }\nfails: flight { width: 35-63/64\" }\n";
    assert_eq!(open(rule), ["`least` were 914.1 mm in place of 914 mm", "`least` were 913.9 mm in place of 914 mm"]);
    let with = format!("{rule}passes: flight {{ width: 914 mm }}\nfails: flight {{ width: 913.9 mm }}");
    assert!(open(&with).is_empty(), "{:?}", open(&with));
}

#[test]
fn each_part_each_condition_each_relation_and_each_word_is_held() {
    let rule = "each handrail where height > 30\" and place is flight shall have ends is one of returned, at a post
        passes: flight { risers: 2 of 7\" }; handrail left { height: 31\"; ends: returned }
        fails: flight { risers: 2 of 7\" }; handrail left { height: 31\"; ends: open }
        spares: flight { risers: 2 of 7\" }; handrail left { height: 30\"; ends: open }\n";
    let found = open(rule);
    for wanted in ["`place is flight` were left out", "`at a post` were left out", "30-1/64\" stood in place of 30\""] {
        assert!(found.iter().any(|said| said == wanted), "{wanted}: {found:?}");
    }
    assert!(!found.iter().any(|said| said.contains("`returned`")), "{found:?}");
    assert!(!found.iter().any(|said| said.contains("stood in place of `>`")), "{found:?}");
}

#[test]
fn things_are_counted_one_by_one() {
    let rule = "limit few: 3\neach flight where number of risers > few shall have number of handrails >= 1
        passes: flight { risers: 4 of 7\" }; handrail left { }
        passes: flight { risers: 4 of 7\" }; handrail left, right { }
        fails: flight { risers: 4 of 7\" }\nspares: flight { risers: 3 of 7\" }";
    assert!(open(rule).is_empty(), "{:?}", open(rule));
}

#[test]
fn the_shipped_sets_leave_nothing_open() {
    let mut wrong = Vec::new();
    for (name, text) in BUILT_IN {
        let set = Session::default().read_set(&Source::new(*name, *text)).set;
        let gaps = rules::gaps(&set);
        assert!(gaps.tried > 5 * set.rules.len(), "{name}: {}", gaps.tried);
        wrong.extend(gaps.found.iter().map(|gap| format!("{name}: {}", message(gap).message)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn each_part_of_an_or_is_held() {
    let rule = "each handrail where place is flight shall have ends is returned or height > 30\"
        passes: flight { risers: 2 of 7\" }; handrail left { height: 31\"; ends: returned }
        passes: flight { risers: 2 of 7\" }; handrail left { height: 30-1/64\"; ends: open }
        fails: flight { risers: 2 of 7\" }; handrail left { height: 30\"; ends: open }
        spares: flight { risers: 2 of 7\" }; landing top { handrail left { height: 30\"; ends: open } }\n";
    let open = open(rule);
    assert!(open.iter().any(|said| said == "`ends is returned` were left out"), "{open:?}");
    assert!(!open.iter().any(|said| said.contains("`height > 30\"` were left out")), "{open:?}");
}

#[test]
fn a_rule_of_what_was_measured_is_refused() {
    for clause in [
        "each measured shall have width >= 30\"",
        "each stair shall have number of measured >= 1",
        "each stair shall have total width of measured >= 30\"",
    ] {
        let (set, said) = read(&format!("rule \"r\" {{ {clause}\nsource: \"x\" }}"));
        assert!(set.rules.is_empty(), "{clause}");
        assert!(said.iter().any(|said| said.contains("would check nothing")), "{clause}: {said:?}");
    }
}

const BELOW: &str = "ruleset \"Below\" { basis: \"code\" }
rule \"rail\" { limit low: 34\"\neach handrail where place is flight and risers missed = 0 shall have height >= low; source: \"code 1\" }
rule \"held guard\" { limit low: 34\"\neach guard where handrail is yes shall have height >= low; source: \"code 2\" }
rule \"gap\" { limit wide: 34\"\neach guard shall have bottom gap <= wide; source: \"code 3\" }";

fn over(amendment: &str) -> (RuleSet, Vec<String>) {
    let session = Session::default().with_set("below", Source::new("below.rules", BELOW));
    let text = format!("ruleset \"Over\" {{ amends: below }}\n{amendment}");
    let loaded = session.read_set(&Source::new("over.rules", text));
    let said = loaded.diagnostics.iter().map(|slip| message(slip).message).collect();
    (loaded.set, said)
}

#[test]
fn a_figure_that_another_rule_keeps_is_pointed_out() {
    let (_, said) = over("amend \"rail\" { limit low: 36\"; source: \"ours\" }");
    assert_eq!(said, ["\"held guard\" keeps 34\", which this changes"]);
    let (_, said) = over(
        "amend \"rail\" { limit low: 36\"; source: \"ours\" } amend \"held guard\" { limit low: 36\"; source: \"ours\" }",
    );
    assert!(said.is_empty(), "{said:?}");
    let (_, said) = over("amend \"gap\" { limit wide: 36\"; source: \"ours\" }");
    assert!(said.is_empty(), "another quantity: {said:?}");
}

#[test]
fn what_a_new_condition_drops_is_listed() {
    let (_, said) = over("amend \"rail\" { where: place is flight and height > 1\"; source: \"ours\" }");
    assert_eq!(said, ["this drops `risers missed = 0` of Below"]);
    let (_, said) =
        over("amend \"rail\" { where: risers missed = 0 and place is flight and height > 1\"; source: \"ours\" }");
    assert!(said.is_empty(), "{said:?}");
}

#[test]
fn a_finding_says_where_an_amendment_names_no_source() {
    let finding = |amendment: &str| {
        let text = format!("ruleset \"Over\" {{ amends: below }}\namend \"rail\" {{ limit low: 36\"; {amendment} }}");
        let session = Session::default()
            .with_set("below", Source::new("below.rules", BELOW))
            .with_set("over", Source::new("over.rules", text));
        let design = "stair \"s\" { rules: over; flight { risers: 2 of 7\" } handrail left { height: 35\"; from riser: 1; to riser: 2 } }";
        let report = session.check(&Source::new("s.stair", design), None).report;
        let clause = message(&report.findings[0]).clause.expect("a rule is broken");
        clause.amended[0].changes.iter().map(|label| label.text.clone()).collect::<Vec<_>>().join("; ")
    };
    assert_eq!(finding(""), "low is 36\", in place of 34\" of Below, and names no source of its own");
    assert!(!finding("source: \"ours 7\"").contains("no source"));
    assert!(!finding("because: \"Boots.\"").contains("no source"));
}

#[test]
fn a_set_that_asks_nothing_is_an_error() {
    let (_, said) = read("# Only remarks.\n");
    assert!(said.iter().any(|said| said.contains("this file is no ruleset")), "{said:?}");
    for text in ["ruleset \"Empty\" { basis: \"none\" }", "chapter \"c\" { }"] {
        let (_, said) = read(text);
        assert!(said.iter().any(|said| said.contains("it asks nothing")), "{text}: {said:?}");
    }
    let all = "withdraw \"rail\" { because: \"a\" } withdraw \"held guard\" { because: \"b\" } withdraw \"gap\" { because: \"c\" }";
    assert_eq!(over(all).1, ["this set withdraws all 3 rules that it takes in, so it asks nothing"]);
}

/// An amendment that lifts a limit out of reach is told in the report of each design that is held to it.
#[test]
fn a_limit_lifted_out_of_reach_is_told_with_each_design() {
    let below = "ruleset \"Below\" { } rule \"low\" { limit most: 7\"; each riser shall have height <= most; source: \"code 1\" }";
    let over = "ruleset \"Over\" { amends: below } amend \"low\" { limit most: 100\"; source: \"ours\" }";
    let session = Session::default()
        .with_set("below", Source::new("below.rules", below))
        .with_set("over", Source::new("over.rules", over));
    let design = "stair \"s\" { rules: over; flight { risers: 2 of 7\" } }";
    let report = session.check(&Source::new("s.stair", design), None).report;
    let said: Vec<String> = report.findings.iter().map(|finding| message(finding).message).collect();
    assert_eq!(said, ["whatever is in proportion meets `height <= most` (most is 100\")"]);
}
