//! Every word of every value is understood, or the value is not: over every closed table of words, a misspelt, a
//! doubled, a denied and an added word never leave the same value without a diagnostic. And every property says what
//! range its figures have.

use std::collections::BTreeSet;

use pitchboard::base::{Source, Span};
use pitchboard::model::fastenings::{COATING_WORDS, HEADS};
use pitchboard::model::{self, KINDS, Kind, Property, Takes, Value, example, finishes, ranges, timbers};
use pitchboard::syntax::parse_design;

/// Properties that take free words, and why nothing can rest on them unseen.
const FREE: &[(&str, &str, &str)] = &[
    ("stair", "class", "a class of use: one that a set does not have leaves its rules not checked"),
    ("timber", "species", "a note beside the name of a timber of one's own: its figures are stated for themselves"),
    (
        "joint",
        "hold-down by",
        "where its load is printed, which a working repeats; without any the load does not count",
    ),
    ("measured", "by", "a name: without any a rule says that nobody stands by the figures"),
    ("waiver", "why", "a reason, which a report repeats"),
    ("waiver", "by", "a name, which a report repeats"),
    ("waiver", "only", "names: one that nothing goes by is reported"),
    ("waiver", "set", "a title: one that no set has is reported"),
];

/// What is read of a property that states `value`, and how many diagnostics there are.
fn read(kind: &Kind, property: &Property, value: &str) -> (Option<Value>, usize) {
    let line = format!("{}: {value}", property.name);
    let beside = "flight upper { risers: 4 of 7\"; runs: 3 of 10\" }\n post \"newel\" { }\n stringer { }\n";
    let text = match kind.name {
        "stair" => format!("stair \"a\" {{ {line}\n {beside} }}"),
        // What a rail continues into is drawn.
        "handrail" if property.name == "continues" => {
            let flight = |name: &str, rail: &str| {
                format!("flight {name} {{ risers: 4 of 7\"; runs: 3 of 10\"; handrail left {{ {rail} }} }}\n")
            };
            format!("stair \"a\" {{ {}{}{} }}", flight("one", ""), flight("two", &line), flight("three", ""))
        }
        // What is called a spiral turns.
        "flight" if property.name == "spiral" => {
            format!("stair \"a\" {{ flight {{ {line}; risers: 4 of 7\"; winders left {{ turn: 90° }} }} }}")
        }
        "flight" => format!("stair \"a\" {{ flight {{ {line} }} }}"),
        "winders" => format!("stair \"a\" {{ flight {{ risers: 4 of 7\"; winders left {{ {line} }} }} }}"),
        "member" => format!("stair \"a\" {{ {beside} joint {{ joins: newel to stringer; in newel {{ {line} }} }} }}"),
        "wall" | "handrail" | "guard" | "ground" => {
            format!("stair \"a\" {{ {beside} {} left {{ {line} }} }}", kind.name)
        }
        // What a string or a post stands at is drawn.
        "stringer" | "post" => {
            format!(
                "stair \"a\" {{ {beside} wall left {{ }}\n landing bottom {{ turn: quarter left }}\n {} {{ {line} }} }}",
                kind.name
            )
        }
        "timber" | "section" => format!("stair \"a\" {{ {beside} {} \"a\" {{ {line} }} }}", kind.name),
        "gate" => format!("stair \"a\" {{ {beside} landing top {{ gate {{ {line} }} }} }}"),
        "bracket" => format!("stair \"a\" {{ {beside} handrail left {{ bracket {{ {line} }} }} }}"),
        "landing" => format!("stair \"a\" {{ {beside} landing top {{ {line} }} }}"),
        name => format!("stair \"a\" {{ {beside} {name} {{ {line} }} }}"),
    };
    let source = Source::new("t.stair", &text);
    let (tree, slips) = parse_design(&source);
    let mut found = pitchboard::base::lift(slips);
    let stairs = model::build(&tree, &source, &mut found);
    let elements = stairs.iter().flat_map(|stair| &stair.drawn.elements).filter(|element| element.kind == kind);
    let stated = elements.flat_map(|element| &element.stated).find(|stated| stated.property == property);
    let at = text.find(&line).expect("written");
    let here = |span: Span| span.end as usize > at && (span.start as usize) < at + line.len();
    let told = found.iter().filter(|found| found.span.is_none_or(here)).count();
    (stated.and_then(|stated| stated.value.clone()), told)
}

/// A value, and whether its words are phrases of a table, so that another of them may be the same by right.
struct Said {
    kind: &'static Kind,
    property: &'static Property,
    /// The value, with `_` where the phrase stands.
    frame: String,
    phrase: &'static str,
    known: BTreeSet<String>,
}

fn plain(phrase: &str) -> String {
    phrase.to_lowercase().replace('-', " ")
}

fn property(kind: &str, name: &str) -> (&'static Kind, &'static Property) {
    let kind = KINDS.iter().find(|known| known.name == kind).expect("a kind");
    (kind, kind.property(name).expect("a property"))
}

/// Every phrase of every table, in a value of the property that takes it.
fn everything() -> Vec<Said> {
    let mut all = Vec::new();
    let mut add = |(kind, property): (&'static Kind, &'static Property), frame: &str, phrases: Vec<&'static str>| {
        let known: BTreeSet<String> = phrases.iter().map(|phrase| plain(phrase)).collect();
        let said = |phrase| Said { kind, property, frame: frame.to_owned(), phrase, known: known.clone() };
        all.extend(phrases.into_iter().map(said));
    };
    for kind in KINDS {
        for property in kind.properties {
            if let Takes::OneOf(words) | Takes::SomeOf(words) = property.takes {
                add((kind, property), "_", words.to_vec());
            }
        }
    }
    let timber = property("stringer", "timber");
    let of = |wanted: fn(&timbers::Said) -> bool| {
        timbers::phrases().filter(move |(_, said)| wanted(said)).map(|(phrase, _)| phrase).collect::<Vec<_>>()
    };
    add(timber, "_", of(|said| matches!(said, timbers::Said::Species(_))));
    add(timber, "larch, _", of(|said| matches!(said, timbers::Said::Treatment(_))));
    add(timber, "larch _", of(|said| matches!(said, timbers::Said::Grade(_))));
    add(property("tread", "finish"), "_", finishes::phrases().map(|(phrase, _)| phrase).collect());
    add(property("tread", "finish"), "stain, _", vec!["oil", "varnish", "grooved"]);
    for head in HEADS {
        let at = property("joint", head.of.text());
        let size = if head.of.text() == "nails" { "2 of 16d _" } else { "2 of 3/8\" x 4\" _" };
        let same = HEADS
            .iter()
            .filter(|other| other.of == head.of)
            .flat_map(|other| std::iter::once(other.name).chain(other.also.iter().copied()));
        add(at, size, same.collect());
        let coatings = COATING_WORDS.iter().flat_map(|(name, also)| std::iter::once(*name).chain(also.iter().copied()));
        add(at, &size.replace(" _", ", _"), coatings.collect());
    }
    add(property("tread", "edge"), "_", vec!["square"]);
    add(property("tread", "edge"), "_ 3/8\"", vec!["radius", "rounded", "bevel", "bevelled"]);
    all
}

/// A phrase with a slip in each of its words in turn: a letter left out, doubled, two swapped.
fn misspelt(phrase: &str) -> Vec<String> {
    let letters: Vec<char> = phrase.chars().collect();
    let mut slips = Vec::new();
    for at in 0..letters.len() {
        if !letters[at].is_alphabetic() {
            continue;
        }
        let (before, after) = (&letters[..at], &letters[at + 1..]);
        let with = |middle: &[char]| before.iter().chain(middle).chain(after).collect::<String>();
        slips.push(with(&[]));
        slips.push(with(&[letters[at], letters[at]]));
        if let [next, rest @ ..] = after {
            let swapped: String = before.iter().chain([next, &letters[at]]).chain(rest).collect();
            slips.push(swapped);
        }
    }
    slips.retain(|slip| slip != phrase);
    slips
}

fn doubled_denied_added(phrase: &str) -> Vec<String> {
    let mut slips = vec![format!("{phrase} {phrase}"), format!("{phrase}, {phrase}"), format!("{phrase} and {phrase}")];
    let denials = ["not", "no", "never", "without", "hardly", "neither"];
    slips.extend(denials.iter().flat_map(|denial| [format!("{denial} {phrase}"), format!("{phrase} {denial}")]));
    slips.extend(["un", "non-", "non", "in"].iter().map(|denial| format!("{denial}{phrase}")));
    let added = ["indeed", "5", "5\"", "!", "?", "\"x\"", ",", "or so", "(say)", ";5", "/", "2x4"];
    slips.extend(added.iter().map(|added| format!("{phrase} {added}")));
    slips.extend(["very", "quite", "5"].iter().map(|added| format!("{added} {phrase}")));
    slips
}

#[test]
fn every_phrase_of_every_table_is_read() {
    for Said { kind, property, frame, phrase, .. } in everything() {
        let value = frame.replace('_', phrase);
        let (read, told) = read(kind, property, &value);
        assert!(read.is_some() && told == 0, "{} of {}: {value}: {read:?}, {told} told", property.name, kind.name);
    }
}

#[test]
fn no_slip_in_a_word_leaves_the_value_as_it_was_in_silence() {
    let mut tried = 0;
    for Said { kind, property, frame, phrase, known } in everything() {
        let (sound, _) = read(kind, property, &frame.replace('_', phrase));
        for slip in misspelt(phrase).into_iter().chain(doubled_denied_added(phrase)) {
            // `bolts` for `bolt` is no slip.
            if known.contains(&plain(&slip)) {
                continue;
            }
            let value = frame.replace('_', &slip);
            let (read, told) = read(kind, property, &value);
            tried += 1;
            assert!(told > 0 || read != sound, "{} of {}: `{value}` is read as {read:?}", property.name, kind.name);
        }
    }
    println!("{tried} slips");
    assert!(tried > 10_000, "{tried}");
}

#[test]
fn no_figure_is_without_end_or_less_than_nothing() {
    let (kind, width) = property("flight", "width");
    let long = "9".repeat(400);
    let endless = [
        format!("{long}\""),
        format!("{long}/{long}\""),
        format!("1 {long}/{long}\""),
        format!("1 1/{long}\""),
        format!("{long}.5 mm"),
        format!("{long}' 6\""),
        format!("1' {long}\""),
        format!("{long} in {long}"),
        format!("{long}%"),
        "-36\"".to_owned(),
        "- 36\"".to_owned(),
        "−36\"".to_owned(),
        "NaN".to_owned(),
        "inf\"".to_owned(),
        "1e999 mm".to_owned(),
        "0/0\"".to_owned(),
        "1/0\"".to_owned(),
    ];
    for value in endless {
        let (read, told) = read(kind, width, &value);
        assert!(read.is_none() && told > 0, "{value}: {read:?}");
    }
    let (kind, slope) = property("ground", "slope");
    for value in [format!("{long} in {long}"), format!("1 in {long}"), format!("{long}:{long}"), format!("{long}%")] {
        let (read, _) = read(kind, slope, &value);
        let finite = |value: &Value| matches!(value, Value::Measure(measure) if measure.value.is_finite());
        assert!(read.as_ref().is_none_or(finite), "{value}: {read:?}");
    }
}

#[test]
fn free_words_stand_only_where_nothing_rests_on_them() {
    let free = KINDS.iter().flat_map(|kind| kind.properties.iter().map(move |property| (kind.name, property)));
    let free =
        free.filter(|(_, property)| property.takes == Takes::Words).map(|(kind, property)| (kind, property.name));
    let listed: BTreeSet<(&str, &str)> = FREE.iter().map(|(kind, property, _)| (*kind, *property)).collect();
    assert_eq!(free.collect::<BTreeSet<_>>(), listed);
}

#[test]
fn every_property_that_takes_a_figure_has_a_range_which_holds_its_example() {
    let mut ranged = 0;
    for kind in KINDS.iter().chain(model::SHOP_KINDS) {
        for property in kind.properties {
            let words = matches!(
                property.takes,
                Takes::OneOf(_)
                    | Takes::SomeOf(_)
                    | Takes::Sets
                    | Takes::Words
                    | Takes::Date
                    | Takes::Timber
                    | Takes::Members
                    | Takes::Name
            );
            let found = ranges(property);
            assert_eq!(found.is_empty(), words, "{} of {}", property.name, kind.name);
            for range in &found {
                assert!(range.least < range.most && range.least >= 0.0, "{} of {}", property.name, kind.name);
            }
            ranged += usize::from(!words);
            if !words && property.basis == model::Basis::Choice && kind.is_drawn() && kind.name != "shop" {
                let value = example(property);
                if KINDS.iter().any(|known| known == kind) && !value.is_empty() {
                    let (_, told) = read(kind, property, value);
                    assert!(
                        told == 0 || property.takes == Takes::Length,
                        "{} of {}: {value}",
                        property.name,
                        kind.name
                    );
                }
            }
        }
    }
    assert!(ranged > 90, "{ranged}");
}
