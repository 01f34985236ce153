//! What a set is for, against what a stair says that it is for.

use pitchboard::base::Source;
use pitchboard::check::{BUILT_IN, FOR};
use pitchboard::rules::Purpose;
use pitchboard::session::Session;
use pitchboard::wording::message;

/// The messages about a design that are of no rule and no slip.
fn told(stated: &str) -> Vec<String> {
    let design = format!("stair \"s\" {{ {stated}; flight {{ risers: 2 of 7\"; runs: 10\" }} }}");
    let report = Session::default().check(&Source::new("s.stair", design), None).report;
    let about =
        report.findings.iter().filter(|found| ["rules for another use", "no rules asked for"].contains(&found.name()));
    about.map(|found| message(found).message + " " + &message(found).help.unwrap_or_default()).collect()
}

#[test]
fn a_stair_is_told_which_shipped_set_fits() {
    for (stated, fits) in [
        ("rules: residential; use: public", Some("`public`, `dwelling-metric`, `germany` or `new-zealand` would fit")),
        ("rules: residential; use: workplace", Some("`workplace`")),
        ("rules: residential, workshop; use: shared", Some("`public`")),
        ("rules: residential; accessible: yes", Some("`accessible`")),
        ("rules: residential; occupants: 200", Some("`public`")),
        ("rules: residential; access: general", Some("`public`")),
        ("rules: public; use: dwelling", Some("`residential`")),
        ("rules: workshop; use: public", Some("`public`")),
        ("rules: marsh-county; use: public", Some("`public`")),
        ("rules: residential; use: dwelling; occupants: 4; accessible: no", None),
        ("rules: residential, public; use: public; occupants: 200; accessible: yes", None),
        ("rules: dwelling-metric; use: shared; access: general", None),
        ("rules: workplace; use: workplace", None),
        ("use: public", Some("`rules: public`")),
    ] {
        let said = told(stated);
        match fits {
            Some(fits) => assert!(said.len() == 1 && said[0].contains(fits), "{stated}: {said:?}"),
            None => assert!(said.is_empty(), "{stated}: {said:?}"),
        }
    }
}

#[test]
fn a_set_that_does_not_say_what_it_is_for_may_be_for_anything() {
    let set = "ruleset \"Ours\" { } rule \"r\" { each riser shall have height <= 8\"; source: \"x\" }";
    let session = Session::default().with_set("ours", Source::new("ours.rules", set));
    let design = "stair \"s\" { rules: ours; use: public; flight { risers: 2 of 7\" } }";
    assert!(session.check(&Source::new("s.stair", design), None).report.findings.is_empty());
}

#[test]
fn the_shipped_sets_are_for_what_the_table_says() {
    for (name, text) in BUILT_IN {
        let set = Session::default().read_set(&Source::new(*name, *text)).set;
        assert!(!set.serves.is_empty(), "{name} does not say what it is for");
        if *name == "marsh-county" {
            continue; // It amends one of them, and binds nobody.
        }
        let by_table = FOR.iter().filter(|(_, of)| of == name).map(|(purpose, _)| *purpose);
        let stated = set.serves.iter().copied().filter(|purpose| *purpose != Purpose::Any);
        assert!(by_table.eq(stated), "{name}: {:?}", set.serves);
    }
}

#[test]
fn a_purpose_is_a_word_of_a_closed_list() {
    let read = |purpose: &str| {
        let text = format!(
            "ruleset \"s\" {{ for: {purpose} }} rule \"r\" {{ each riser shall have height <= 8\"; source: \"x\" }}"
        );
        let loaded = Session::default().read_set(&Source::new("t.rules", text));
        (loaded.set.serves, loaded.diagnostics.iter().map(|slip| message(slip).message).collect::<Vec<_>>())
    };
    assert_eq!(read("dwelling, public"), (vec![Purpose::Dwelling, Purpose::Public], Vec::new()));
    assert_eq!(read("publik").1, ["`publik` is nothing that a set is for"]);
}
