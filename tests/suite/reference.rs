//! What the reference shows is what the readers read, and `pitchboard reference` prints all of it.

use std::process::Command;

use pitchboard::base::Source;
use pitchboard::check::LoadedSet;
use pitchboard::derive::{CUSTOMS, quantities};
use pitchboard::measure::{Dimension, Figures, UNITS, print};
use pitchboard::model::{self, KINDS, NOTATIONS, Takes, Value, example};
use pitchboard::rules::WORDS;
use pitchboard::session::Session;
use pitchboard::syntax::parse_design;
use pitchboard::wording::{Message, messages};

/// What a design says against a property of a kind, with all that it may name drawn beside it.
fn said(kind: &str, property: &str, value: &str) -> Vec<String> {
    let line = format!("{property}: {value}");
    let beside = "flight upper { risers: 4 of 7\"; runs: 3 of 10\" }\n post \"newel\" { }\n stringer { }\n";
    let text = match kind {
        "stair" => format!("stair \"a\" {{ {line}\n {beside} }}"),
        // What is called a spiral turns.
        "flight" if property == "spiral" => {
            format!("stair \"a\" {{ flight {{ {line}; risers: 4 of 7\"; winders left {{ turn: 90° }} }} }}")
        }
        "flight" => format!("stair \"a\" {{ flight {{ {line} }} }}"),
        "winders" => format!("stair \"a\" {{ flight {{ risers: 4 of 7\"; winders left {{ {line} }} }} }}"),
        "member" => format!("stair \"a\" {{ {beside} joint {{ joins: newel to stringer; in newel {{ {line} }} }} }}"),
        "wall" | "handrail" | "ground" => format!("stair \"a\" {{ {beside} {kind} left {{ {line} }} }}"),
        "guard" if property != "toe board gap" => format!("stair \"a\" {{ {beside} {kind} left {{ {line} }} }}"),
        "door" if property == "at" => format!("stair \"a\" {{ {beside} landing upper {{ }}\n door {{ {line} }} }}"),
        // What a string or a post stands at is drawn.
        "stringer" | "post" => {
            format!(
                "stair \"a\" {{ {beside} wall left {{ }}\n landing bottom {{ turn: quarter left }}\n {kind} {{ {line} }} }}"
            )
        }
        // What a property belongs to is stated.
        "joint" if property == "hold-down by" => {
            format!("stair \"a\" {{ {beside} joint {{ hold-down: 1800 lb; {line} }} }}")
        }
        "guard" if property == "toe board gap" => {
            format!("stair \"a\" {{ {beside} guard left {{ toe board: 4\"; {line} }} }}")
        }
        // As many as the example has.
        "measured" => {
            format!("stair \"a\" {{ flight {{ risers: 4 of 7\"; runs: 4 of 10\" }} }}\n{kind} \"a\" {{ {line} }}")
        }
        "timber" | "section" => format!("stair \"a\" {{ {beside} }}\n{kind} \"a\" {{ {line} }}"),
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
        let figure = matches!(
            takes,
            Takes::Length
                | Takes::Angle
                | Takes::Area
                | Takes::Force
                | Takes::Pressure
                | Takes::Slope
                | Takes::Number
                | Takes::Count
        );
        let word = matches!(takes, Takes::OneOf(_) | Takes::SomeOf(_) | Takes::Words | Takes::Name);
        assert!(figure || word || shown(&takes), "{takes:?} is not shown");
    }
}

#[test]
fn every_figure_is_read_as_what_it_is_called_and_prints_back() {
    for unit in UNITS {
        for text in unit.examples {
            if unit.figures == Figures::Slopes {
                let source = Source::new("t.stair", format!("stair \"a\" {{ ground left {{ slope: {text} }} }}"));
                let (tree, slips) = parse_design(&source);
                let mut findings = pitchboard::base::lift(slips);
                let stairs = model::build(&tree, &source, &mut findings);
                let stated =
                    stairs[0].drawn.stated(1, model::properties::SLOPE).and_then(|stated| stated.value.clone());
                let Some(Value::Measure(measure)) = stated else { panic!("{text}: {findings:?}") };
                assert_eq!(measure.style.unit(), unit, "{text}");
                continue;
            }
            let kind = if unit.dimension == Dimension::FORCE { "joint" } else { "flight" };
            let rule = format!("rule \"r\" {{ limit x: {text}\n each {kind} shall have x = x\n source: \"t\" }}");
            let LoadedSet { set, diagnostics } = Session::default().read_set(&Source::new("t.rules", &rule));
            let limit = &set.rules.first().unwrap_or_else(|| panic!("{text}: {diagnostics:?}")).limits[0];
            assert_eq!(limit.measure.dimension, unit.dimension, "{text}");
            assert_eq!(limit.measure.style.unit(), unit, "{text}");
            assert!(!print(limit.measure).is_empty(), "{text}");
        }
    }
}

/// What the tool prints, 120 columns wide.
fn printed(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
        .args(arguments)
        .env("LC_ALL", "C.UTF-8")
        .env("COLUMNS", "120")
        .output()
        .unwrap_or_else(|why| panic!("{arguments:?}: {why}"));
    assert!(output.status.success(), "{arguments:?}: {}", output.status);
    String::from_utf8(output.stdout).expect("text")
}

/// What stands under a heading of a Markdown page, down to the next one.
fn under<'p>(page: &'p str, heading: &str) -> &'p str {
    let (_, rest) = page.split_once(&format!("\n{heading}\n")).unwrap_or_else(|| panic!("no heading `{heading}`"));
    rest.split("\n#").next().unwrap_or_default()
}

/// Whether a row of a table begins with these cells.
fn has_row(part: &str, cells: &[&str]) -> bool {
    part.lines().any(|line| line.starts_with(&format!("| {} |", cells.join(" | "))))
}

/// The commands that the command line helps with.
fn commands() -> Vec<String> {
    let help = printed(&["--help"]);
    let (_, list) = help.split_once("\nCommands:\n").expect("commands");
    let lines = list.lines().take_while(|line| !line.is_empty()).filter_map(|line| line.strip_prefix("  "));
    let names = lines.filter_map(|line| line.split(' ').next()).filter(|name| !name.is_empty() && *name != "help");
    names.map(str::to_owned).collect()
}

#[test]
fn the_printed_reference_holds_every_row_of_every_table() {
    let page = printed(&["reference", "--markdown"]);
    for figures in UNITS.iter().map(|unit| unit.figures.name()) {
        assert!(has_row(under(&page, "## How figures are written"), &[figures]), "{figures}");
    }
    for notation in NOTATIONS {
        assert!(has_row(under(&page, "## How other values are written"), &[notation.name]), "{}", notation.name);
    }
    for example in UNITS.iter().flat_map(|unit| unit.examples).chain(NOTATIONS.iter().flat_map(|row| row.examples)) {
        assert!(page.contains(&format!("`{example}`")), "{example}");
    }
    for kind in KINDS {
        let part = under(&page, &format!("### {}", kind.name));
        for property in kind.properties {
            assert!(has_row(part, &[&format!("`{}`", property.name)]), "{} of {}", property.name, kind.name);
        }
        for entry in quantities().filter(|entry| entry.kind == kind) {
            assert!(part.contains(&format!("\n| `{}`", entry.name)), "{} of {}", entry.name, kind.name);
        }
    }
    for custom in CUSTOMS {
        assert!(under(&page, "## Customs").contains(&format!("- {}\n", custom.sentence)), "{}", custom.sentence);
    }
    let (_, words) = page.split_once("\n## Words of the rule language\n").expect("the words");
    for word in WORDS {
        assert!(has_row(words, &[&format!("`{}`", word.word), word.help]), "{}", word.word);
    }
    let commands = commands();
    assert!(commands.len() >= 6, "{commands:?}");
    for command in &commands {
        assert!(under(&page, &format!("### pitchboard {command}")).contains("| `--colour"), "{command}");
    }
}

#[test]
fn the_reference_on_a_terminal_holds_every_name() {
    let page = printed(&["reference"]);
    let begins = |name: &str| page.lines().any(|line| line.trim_start().starts_with(name));
    let properties = KINDS.iter().flat_map(|kind| kind.properties).map(|property| property.name);
    let names = KINDS.iter().map(|kind| kind.name).chain(properties).chain(quantities().map(|entry| entry.name));
    let names = names.chain(NOTATIONS.iter().map(|row| row.name)).chain(UNITS.iter().map(|unit| unit.figures.name()));
    for name in names.chain(WORDS.iter().map(|word| word.word)) {
        assert!(begins(name), "{name}");
    }
    for command in commands() {
        assert!(begins(&format!("pitchboard {command}")), "{command}");
    }
}
