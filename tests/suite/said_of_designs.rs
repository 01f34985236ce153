//! What is offered to one who writes a design at a word that is not understood, where the offer is all that helps.

use crate::cases::Cases;
use pitchboard::base::Source;
use pitchboard::session::Session;
use pitchboard::wording::message;

/// The help of each finding at these words.
fn offered(design: &str, words: &str) -> Vec<String> {
    let report = Session::default().check(&Source::new("a.stair", design), None).report;
    let told = report.findings.iter().map(message);
    let at = told.filter(|told| told.labels.first().is_some_and(|label| told.source.slice(label.span) == words));
    at.filter_map(|told| told.help.clone()).collect()
}

/// A property in the wrong block: what the word belongs to, if that stands in this block; else what the block takes.
#[test]
fn a_property_in_the_wrong_block_is_told_where_it_belongs() {
    for (design, words, help) in [
        ("stair { risers: 4 of 7\" }", "risers", "`risers` belongs to a flight: `flight { risers: ... }`."),
        (
            "stair { balusters: 2x2 every 4\" }",
            "balusters",
            "`balusters` belongs to a guard: `guard { balusters: ... }`.",
        ),
        ("stair { flight { handrail: 36\" } }", "handrail", "It is a thing with parts of its own: `handrail { }`."),
        ("stair { flight { risrs: 4 of 7\" } }", "risrs", "did you mean `risers`?"),
    ] {
        assert_eq!(offered(design, words), [help], "{design}");
    }
    // The setting is the stair's, which stands in no flight.
    let none = offered("stair { flight { setting: indoors } }", "setting");
    assert!(none.iter().all(|help| help.starts_with("A flight takes ")) && none.len() == 1, "{none:?}");
}

/// `none` beside other words: the first of them is what it cannot stand beside.
#[test]
fn none_is_held_against_the_first_word() {
    let design = "stair { rules: residential; switches: foot, head, none }";
    let report = Session::default().check(&Source::new("a.stair", design), None).report;
    let said: Vec<String> = report.findings.iter().map(|finding| message(finding).message).collect();
    assert!(said.contains(&"`none` cannot be so where `foot` is".to_owned()), "{said:?}");
}

/// Words of a shop's file behind a finding say what they are: of a section that a design calls, that it is stocked.
#[test]
fn a_stocked_section_is_called_so() {
    let path = "tests/cases/shop/yard/top.stair";
    let text = std::fs::read_to_string(path).expect("a case");
    let report = Session::new(Cases).check(&Source::new(path, text), None).report;
    let of_rule = report.findings.iter().find(|finding| finding.name() == "slim rail").expect("a finding of the rail");
    let labels: Vec<String> = message(of_rule).labels.iter().map(|label| label.text.clone()).collect();
    let shops: Vec<String> =
        message(of_rule).beside.iter().flat_map(|beside| &beside.labels).map(|label| label.text.clone()).collect();
    assert!(labels.iter().chain(&shops).any(|label| label == "the section that is stocked"), "{labels:?} {shops:?}");
}

/// Of several things at the same words the one that misses by most is named: here the highest tread.
#[test]
fn of_several_things_the_worst_is_named() {
    let design = "stair { rules: residential; use: dwelling; setting: indoors
        flight { risers: 8 of 7-1/4\"; runs: 7 of 10\"; width: 36\" } }";
    let report = Session::default().check(&Source::new("a.stair", design), None).report;
    let told: Vec<String> = report.findings.iter().map(|found| message(found).message).collect();
    // The last of seven treads is seven risers up: 7 x 7-1/4" = 50-3/4", 20-3/4" past 30".
    let guard = told.iter().find(|told| told.contains("unguarded drop")).expect("it lacks guards");
    assert!(guard.contains("is 50-3/4\"") && guard.contains("20-3/4\" too much"), "{guard}");
}
