//! What the reference shows is what the readers read.

use pitchboard::base::Source;
use pitchboard::check::LoadedSet;
use pitchboard::measure::{Dimension, WRITTEN, print};
use pitchboard::model::{self, KINDS, NOTATIONS, Takes, Value, example};
use pitchboard::session::Session;
use pitchboard::syntax::parse_design;
use pitchboard::wording::{Message, messages};

/// What a design says against a property of a kind, with all that it may name drawn beside it.
fn said(kind: &str, property: &str, value: &str) -> Vec<String> {
    let line = format!("{property}: {value}");
    let beside = "flight upper { risers: 4 of 7\"; runs: 3 of 10\" }\n post \"newel\" { }\n stringer { }\n";
    let text = match kind {
        "stair" => format!("stair \"a\" {{ {line}\n {beside} }}"),
        "flight" => format!("stair \"a\" {{ flight {{ {line} }} }}"),
        "winders" => format!("stair \"a\" {{ flight {{ risers: 4 of 7\"; winders left {{ {line} }} }} }}"),
        "member" => format!("stair \"a\" {{ {beside} joint {{ joins: newel to stringer; in newel {{ {line} }} }} }}"),
        "wall" | "handrail" | "guard" | "ground" => format!("stair \"a\" {{ {beside} {kind} left {{ {line} }} }}"),
        "door" if property == "at" => format!("stair \"a\" {{ {beside} landing upper {{ }}\n door {{ {line} }} }}"),
        "timber" | "section" | "measured" => format!("stair \"a\" {{ {beside} }}\n{kind} \"a\" {{ {line} }}"),
        _ => format!("stair \"a\" {{ {beside} {kind} {{ {line} }} }}"),
    };
    let source = Source::new("t.stair", &text);
    let (tree, slips) = parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    model::build(&tree, &source, &mut findings);
    let at = text.find(&line).expect("written");
    let here = |found: &Message| {
        found.labels.iter().any(|label| (at..=at + line.len()).contains(&(label.span.start as usize)))
    };
    messages(&findings).into_iter().filter(here).map(|found| found.message).collect()
}

#[test]
fn every_example_of_a_property_is_read() {
    let mut read = 0;
    for kind in KINDS {
        for property in kind.properties {
            let value = example(property);
            // A count of its own bounds, and what a stair may repeat, is another rule than how it is written.
            let told = said(kind.name, property.name, value);
            assert!(told.is_empty(), "{} of {}: {value}: {told:?}", property.name, kind.name);
            read += 1;
        }
    }
    assert!(read > 90, "{read}");
    assert_ne!(said("guard", "height", "36"), Vec::<String>::new(), "a slip is seen");
}

#[test]
fn every_notation_is_read_by_the_property_that_it_names() {
    for notation in NOTATIONS {
        for value in notation.examples {
            let told = said(notation.kind, notation.property, value);
            assert!(told.is_empty(), "{}: {value}: {told:?}", notation.name);
        }
    }
    let shown = |takes: &Takes| {
        let takers = NOTATIONS.iter().map(|row| {
            let kind = KINDS.iter().find(|kind| kind.name == row.kind).expect("a kind");
            kind.property(row.property).expect("a property").takes
        });
        takers.collect::<Vec<_>>().contains(takes)
    };
    for takes in KINDS.iter().flat_map(|kind| kind.properties).map(|property| property.takes) {
        let figure =
            matches!(takes, Takes::Length | Takes::Angle | Takes::Area | Takes::Slope | Takes::Number | Takes::Count);
        let word = matches!(takes, Takes::OneOf(_) | Takes::SomeOf(_) | Takes::Words | Takes::Name);
        assert!(figure || word || shown(&takes), "{takes:?} is not shown");
    }
}

#[test]
fn every_figure_is_read_as_what_it_is_called_and_prints_back() {
    for way in WRITTEN {
        for text in way.examples {
            if way.slope {
                let source = Source::new("t.stair", format!("stair \"a\" {{ ground left {{ slope: {text} }} }}"));
                let (tree, slips) = parse_design(&source);
                let mut findings = pitchboard::base::lift(slips);
                let stairs = model::build(&tree, &source, &mut findings);
                let stated = stairs[0].drawn.stated(1, "slope").and_then(|stated| stated.value.clone());
                let Some(Value::Measure(measure)) = stated else { panic!("{text}: {findings:?}") };
                assert!(measure.style.is_slope(), "{text}");
                continue;
            }
            let kind = if way.dimension == Dimension::FORCE { "joint" } else { "flight" };
            let rule = format!("rule \"r\" {{ limit x: {text}\n each {kind} shall have x = x\n source: \"t\" }}");
            let LoadedSet { set, diagnostics } = Session::default().read_set(&Source::new("t.rules", &rule));
            let limit = &set.rules.first().unwrap_or_else(|| panic!("{text}: {diagnostics:?}")).limits[0];
            assert_eq!(limit.measure.dimension, way.dimension, "{text}");
            assert!(!limit.measure.style.is_slope() && print(limit.measure).chars().next().is_some(), "{text}");
        }
    }
}
