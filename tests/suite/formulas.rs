//! What is printed of a quantity is what is worked, over every design of the examples and cases and every fragment of
//! the shipped sets.
//!
//! A quantity is an expression, and its printed text is read and worked here by a reader that knows nothing of the
//! expression (`formula_text.rs`); or it tells cases apart, and stands in the closed list of `formula_cases.rs` with a
//! computation of its own from what is stated. None stands outside of both.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::formula_cases::CASES;
use crate::formula_text::by_text;
use crate::step_text;
use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::derive::{Datum, Derive, Evaluation, Quantity, quantities, quantity};
use pitchboard::measure::{Dimension, INCH, MILLIMETRE, Measure};
use pitchboard::model::{self, Design, Element, Id, Kind, PropertyName, Value, kinds};
use pitchboard::session::Session;
use pitchboard::syntax;

/// What a quantity comes to: a number in base units, or a word.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    Number(f64),
    Word(String),
}

impl From<f64> for Told {
    fn from(number: f64) -> Self {
        Told::Number(number)
    }
}

impl From<&str> for Told {
    fn from(word: &str) -> Self {
        Told::Word(word.to_owned())
    }
}

/// One stair, read by the names of properties and quantities.
pub struct Seen<'d> {
    pub design: &'d Design,
    pub evaluation: Evaluation<'d>,
}

impl<'d> Seen<'d> {
    pub fn element(&self, id: Id) -> &'d Element {
        self.design.get(id).expect("an element")
    }

    pub fn kind(&self, id: Id) -> &'static Kind {
        self.element(id).kind
    }

    pub fn name(&self, id: Id) -> &'d str {
        self.element(id).name.as_deref().unwrap_or("")
    }

    fn property(&self, id: Id, name: &str) -> Option<PropertyName> {
        self.kind(id).property(name).map(model::Property::handle)
    }

    pub fn is_stated(&self, id: Id, name: &str) -> bool {
        self.property(id, name).is_some_and(|property| self.design.stated(id, property).is_some())
    }

    /// A stated value.
    pub fn value(&self, id: Id, name: &str) -> Option<&'d Value> {
        self.design.stated(id, self.property(id, name)?)?.value.as_ref()
    }

    /// A stated number.
    pub fn number(&self, id: Id, name: &str) -> Option<f64> {
        match self.value(id, name)? {
            Value::Measure(measure) => Some(measure.value),
            Value::List(items) if items.len() == 1 => Some(items[0].measure.value),
            _ => None,
        }
    }

    /// A stated list. A flight of one riser has no runs.
    pub fn list(&self, id: Id, name: &str) -> Option<Vec<f64>> {
        match self.value(id, name) {
            Some(Value::List(items)) => Some(items.iter().map(|item| item.measure.value).collect()),
            None if name == "runs" && self.list(id, "risers").is_some_and(|risers| risers.len() == 1) => Some(vec![]),
            _ => None,
        }
    }

    /// A stated word.
    pub fn word(&self, id: Id, name: &str) -> Option<&'d str> {
        match self.value(id, name)? {
            Value::Word(word) => Some(word),
            _ => None,
        }
    }

    /// A quantity.
    pub fn derived(&self, id: Id, name: &str, place: Option<f64>) -> Option<Told> {
        let place = place.map(|value| Measure { value, ..Measure::inches(1.0) });
        told(&self.evaluation.derived(id, quantity(self.kind(id), name)?, place).ok()?)
    }

    pub fn derived_number(&self, id: Id, name: &str) -> Option<f64> {
        match self.derived(id, name, None)? {
            Told::Number(number) => Some(number),
            Told::Word(_) => None,
        }
    }

    pub fn derived_word(&self, id: Id, name: &str) -> Option<String> {
        match self.derived(id, name, None)? {
            Told::Word(word) => Some(word),
            Told::Number(_) => None,
        }
    }

    /// Things of a kind that belong to another.
    pub fn of(&self, kind: &Kind, to: Id) -> Vec<Id> {
        self.design.belonging(kind, to).collect()
    }

    pub fn flight(&self, id: Id) -> Option<Id> {
        self.design.related(id, kinds::FLIGHT)
    }

    /// The number of a step, from 1.
    pub fn nth(&self, id: Id) -> Option<usize> {
        self.element(id).step.map(|step| step + 1)
    }
}

fn told(datum: &Datum) -> Option<Told> {
    match datum {
        Datum::Measure(measure) => Some(measure.value.into()),
        Datum::Word(word) => Some((&**word).into()),
        Datum::List(_) => None,
    }
}

fn designs() -> Vec<(String, Arc<Design>)> {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("readable") {
            let path = entry.expect("entry").path();
            if path.is_dir() { walk(&path, found) } else { found.push(path) }
        }
    }
    let mut found = Vec::new();
    for folder in ["examples", "tests/cases"] {
        walk(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder), &mut found);
    }
    found.sort();
    found.retain(|path| path.extension().is_some_and(|end| end == "stair"));
    let mut designs = Vec::new();
    let texts = found.iter().map(|path| (path.to_string_lossy().into_owned(), fs::read_to_string(path).expect("text")));
    for (name, text) in texts.chain([("uneven runs".to_owned(), UNEVEN_RUNS.to_owned())]) {
        let source = Source::new(&name, text);
        let (tree, _) = syntax::parse_design(&source);
        for stair in model::build(&tree, &source, &mut Vec::new()) {
            designs.push((name.clone(), stair.drawn));
            designs.extend(stair.measured.map(|measured| (format!("{name}, as measured"), measured)));
        }
    }
    for (name, text) in BUILT_IN {
        let set = Session::default().read_set(&Source::new(*name, *text)).set;
        for (rule, (source, fragment)) in
            set.rules.iter().flat_map(|rule| rule.fragments.iter().map(move |f| (rule, f)))
        {
            let (tree, _) = syntax::parse_fragment(source, fragment.span);
            if let Some(stair) = model::build_fragment(&tree, source, &mut Vec::new()) {
                designs.push((format!("{name}: {}", rule.name), stair.drawn));
            }
        }
    }
    designs
}

/// No other design has a triangle under its guard and runs that differ.
const UNEVEN_RUNS: &str = r#"stair "jetty" {
    flight { risers: 4 of 7"; runs: 10", 10-1/2", 10" }
    tread { section: 2x12; nosing: 1" }
    riser board { section: 1x8 }
    guard left { bottom gap: 1" }
}"#;

/// A length on the level where a quantity is asked that is asked at a place.
const PLACES: [f64; 3] = [12.0 * INCH, 270.0 * MILLIMETRE, 42.0 * INCH];

fn is_mechanics(entry: &Quantity) -> bool {
    matches!(entry.derive, Derive::Mechanics(_))
}

fn is_expression(entry: &Quantity) -> bool {
    matches!(entry.derive, Derive::Formula(_) | Derive::FormulaAt(_))
}

/// A value that was derived.
struct Sample<'s> {
    name: &'s str,
    seen: &'s Seen<'s>,
    id: Id,
    entry: &'static Quantity,
    place: f64,
    derived: Told,
    dimension: Option<Dimension>,
}

impl Sample<'_> {
    /// The other way to the value.
    fn independently(&self) -> Option<Told> {
        let entry = self.entry;
        if is_mechanics(entry) {
            return step_text::worked_again(&self.seen.evaluation, self.id, entry).map(Told::from);
        }
        if is_expression(entry) {
            return by_text(self.seen, self.id, &entry.formula(), self.place);
        }
        let case = CASES.iter().find(|case| (case.0, case.1) == (entry.kind.name, entry.name));
        (case.unwrap_or_else(|| panic!("{entry:?} is in neither list")).2)(self.seen, self.id, self.place)
    }

    fn is(&self, other: &Told) -> bool {
        match (&self.derived, other) {
            (Told::Number(a), Told::Number(b)) => {
                // A hundredth of a nanometre is far under what `equal` allows, and over the last bits of a sum.
                let least = if self.dimension == Some(Dimension::LENGTH) { 1e-2 } else { 1e-9 };
                (a - b).abs() <= least + 1e-9 * a.abs().max(b.abs())
            }
            (a, b) => a == b,
        }
    }
}

/// Visits every value of every quantity that is known, of every design.
fn every_value(mut visit: impl FnMut(&Sample<'_>)) {
    for (name, design) in designs() {
        let seen = Seen { design: &design, evaluation: Evaluation::plain(&design) };
        for entry in quantities() {
            let places = if entry.at_a_place() { &PLACES[..] } else { &PLACES[..1] };
            for (id, place) in design.of_kind(entry.kind).flat_map(|id| places.iter().map(move |place| (id, *place))) {
                let asked = entry.at_a_place().then_some(Measure { value: place, ..Measure::inches(1.0) });
                let Ok(datum) = seen.evaluation.derived(id, entry, asked) else { continue };
                let dimension = match &datum {
                    Datum::Measure(measure) => Some(measure.dimension),
                    _ => None,
                };
                if let Some(derived) = told(&datum) {
                    visit(&Sample { name: &name, seen: &seen, id, entry, place, derived, dimension });
                }
            }
        }
    }
}

#[test]
fn every_quantity_is_an_expression_or_stands_in_the_closed_list() {
    let listed: Vec<(&str, &str)> = CASES.iter().map(|case| (case.0, case.1)).collect();
    let by_code: BTreeSet<(&str, &str)> = quantities()
        .filter(|entry| !is_expression(entry) && !is_mechanics(entry))
        .map(|entry| (entry.kind.name, entry.name))
        .collect();
    assert_eq!(listed.len(), listed.iter().collect::<BTreeSet<_>>().len(), "a quantity is listed twice");
    assert_eq!(listed.into_iter().collect::<BTreeSet<_>>(), by_code);
}

#[test]
fn what_is_printed_of_a_quantity_is_what_is_worked() {
    let mut values: BTreeMap<(&str, &str), BTreeSet<String>> =
        quantities().map(|entry| ((entry.kind.name, entry.name), BTreeSet::new())).collect();
    let (mut faults, mut compared) = (Vec::new(), 0);
    every_value(|sample| {
        let Sample { name, seen, id, entry, derived, .. } = sample;
        let other = sample.independently();
        compared += 1;
        if !other.as_ref().is_some_and(|other| sample.is(other)) {
            let (of, formula) = (seen.design.called(*id), entry.formula());
            faults.push(format!("{name}: {} of {of} is {derived:?}, not {other:?}: {formula}", entry.name));
        }
        values.entry((entry.kind.name, entry.name)).or_default().insert(format!("{derived:?}"));
    });
    assert!(faults.is_empty(), "{} of {compared}:\n{}", faults.len(), faults[..faults.len().min(60)].join("\n"));
    // A check that has met one value only might be held by a constant.
    let idle: Vec<_> = values.iter().filter(|(_, values)| values.len() < 2).collect();
    assert!(idle.is_empty(), "hardly met, so hardly held: {idle:?}");
    assert!(compared > 40_000, "{compared}");
}

/// A text with one of its words or signs changed for another, once for each place where it stands.
fn misprints(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (right, wrong) in [
        (" + ", " - "),
        (" - ", " + "),
        (" x ", " / "),
        (" / ", " x "),
        ("^2", ""),
        ("sqrt(", "("),
        ("sum of ", "mean of "),
        ("mean of ", "sum of "),
        ("largest of ", "smallest of "),
        ("first of ", "last of "),
        ("last of ", "first of "),
        ("lesser of ", "greater of "),
        ("greater of ", "lesser of "),
        ("smaller", "larger"),
        ("larger", "smaller"),
        ("2 x ", "3 x "),
        ("/ 2", "/ 3"),
        ("/ 4", "/ 5"),
        ("+ 1", "+ 2"),
        ("- 1", "- 2"),
    ] {
        for (at, _) in text.match_indices(right) {
            let after = &text[at + right.len()..];
            // These signs are part of a phrase.
            let phrase =
                after.starts_with("the first") || after.starts_with("smallest ") && !after.starts_with("smallest of");
            if !phrase {
                found.push(format!("{}{wrong}{after}", &text[..at]));
            }
        }
    }
    found
}

/// The check can fail: whatever sign of a formula is printed otherwise, some design tells.
#[test]
fn a_misprint_is_found_out() {
    let mut unseen: BTreeMap<String, (&'static Quantity, String)> = BTreeMap::new();
    for entry in quantities().filter(|entry| is_expression(entry)) {
        for wrong in misprints(&entry.formula()) {
            unseen.insert(format!("{entry:?}: {wrong}"), (entry, wrong));
        }
    }
    let all = unseen.len();
    every_value(|sample| {
        unseen.retain(|_, (entry, wrong)| {
            let tells = || by_text(sample.seen, sample.id, wrong, sample.place).is_some_and(|other| !sample.is(&other));
            *entry != sample.entry || !tells()
        });
    });
    assert!(unseen.is_empty(), "{} of {all}: {:#?}", unseen.len(), unseen.keys());
    assert!(all > 60, "{all}");
}
