//! `rules SET RULE`: one rule in full. Every part of every shipped rule is on its page, as the set states it.

use pitchboard::check::BUILT_IN;
use pitchboard::report;
use pitchboard::rules::one_line;
use pitchboard::session::Session;

use crate::yard::Yard;

#[test]
fn every_part_of_every_shipped_rule_is_on_its_page() {
    let (mut rules, mut limits, mut examples) = (0, 0, 0);
    for (name, _) in BUILT_IN {
        let loaded = Session::default().set(name, None).expect("it is shipped");
        for rule in &loaded.set.rules {
            let page = report::rule(&loaded.set, rule).markdown(0);
            let has = |what: &str| assert!(page.contains(what), "{name}, {}: no `{what}` in\n{page}", rule.name);
            has(&rule.name);
            // A bar parts the cells of a table, and is written otherwise in one.
            has(&rule.wording());
            has(&rule.cites);
            has(&rule.because);
            has(&loaded.set.title);
            has(if rule.shall { "It is required" } else { "It is advice" });
            for limit in &rule.limits {
                has(&format!("{} {}", limit.name, limit.figures()));
                has(&format!("set by {}", limit.set));
                limits += 1;
            }
            for (source, fragment) in &rule.fragments {
                has(&one_line(source.slice(fragment.span)));
                examples += 1;
            }
            assert_eq!(rule.limits.is_empty(), !page.contains("Limits\n"), "{page}");
            rules += 1;
        }
    }
    assert!(rules > 200 && limits > 200 && examples > 1000, "{rules} rules, {limits} limits, {examples} examples");
}

#[test]
fn a_rule_is_explained_with_who_changed_it_and_what_it_rests_on() {
    let yard = Yard::with_house();
    yard.put(
        "county.rules",
        "ruleset \"County\" { amends: residential }\n\
         amend \"riser height\" { limit tallest: 7-1/4\"; source: \"Ordinance 3\"; waive: never }\n",
    );
    let (code, text) = yard.run(&["rules", "county.rules", "riser height"]);
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "A rule of County, chapter",
        "tallest is 7-1/4\", set by County (county.rules:2)",
        "in place of 7-3/4\"",
        "set by Residential stairs (built-in residential:",
        "Source: Ordinance 3",
        "No design may waive it.",
        "height of riser",
        "passes built-in residential:",
    ] {
        assert!(words.contains(said), "no `{said}`: {text}");
    }
    let (code, text) = yard.run(&["rules", "residential", "risr height"]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("riser height"), "the nearest is offered: {text}");
    let (_, text) = yard.run(&["rules", "residential", "handrail needed", "--markdown"]);
    assert!(text.contains("number of") && text.starts_with("# handrail needed"), "{text}");
}
