//! The reference as a page: every kind with its properties and quantities, how values are written, the customs, and
//! the words of the rule language. All of it is read from the tables.

use super::page::{Cell, Page, Table};
use crate::derive::{CUSTOMS, Gives, quantities};
use crate::measure::{Dimension, Measure, Style, UNITS, print};
use crate::model::fastenings::{COATING_WORDS, HEADS};
use crate::model::finishes::{FINISHES, Grips};
use crate::model::timbers::{GRADES, Lasts, SPECIES, TREATMENTS};
use crate::model::{Basis, KINDS, Kind, NOTATIONS, Property, Range, Takes, example};
use crate::rules::{Stands, WORDS};
use crate::wording::takes;

/// Every table.
pub fn reference() -> Page {
    let mut page = Page::default();
    figures(&mut page);
    values(&mut page);
    words_of_values(&mut page);
    page.heading(2, "Kinds, their properties and quantities");
    page.words(
        "A property is stated in a design. A quantity is derived from what is stated. A rule may name either. \
         A report suggests no change of a fact of the site, nor of a measurement. A figure outside of what is usual \
         counts, and is advised of.",
    );
    KINDS.iter().for_each(|kind| of_kind(&mut page, kind));
    customs(&mut page);
    language(&mut page);
    page
}

/// One kind.
pub fn kind(kind: &'static Kind) -> Page {
    let mut page = Page::default();
    of_kind(&mut page, kind);
    page
}

fn examples(examples: &[&str]) -> Cell {
    examples.iter().fold(Cell::default(), |cell, example| cell.and_code(*example))
}

fn figures(page: &mut Page) {
    page.heading(2, "How figures are written");
    page.words("A figure prints back in the unit and the style in which it was written.");
    let mut table = Table::new(&["figures", "written"]);
    for units in UNITS.chunk_by(|unit, next| unit.figures == next.figures) {
        let name = units.first().map_or("", |unit| unit.figures.name());
        let shown: Vec<&str> = units.iter().flat_map(|unit| unit.examples).copied().collect();
        table.row(vec![Cell::words(name), examples(&shown)]);
    }
    page.table(table);
}

fn values(page: &mut Page) {
    page.heading(2, "How other values are written");
    let mut table = Table::new(&["value", "written", "what it says"]);
    for notation in NOTATIONS {
        table.row(vec![Cell::words(notation.name), examples(notation.examples), Cell::words(notation.help)]);
    }
    page.table(table);
}

/// The closed tables of words behind timbers, finishes and fasteners.
fn words_of_values(page: &mut Page) {
    page.heading(2, "Words of timbers, finishes and fasteners");
    page.words("Every word of such a value stands here, or is defined; of any other the value is not understood.");
    let also = |names: &[&'static str]| examples(names);
    let mut timbers = Table::new(&["timber", "also", "gravity", "hardness", "lasts outdoors"]);
    for row in SPECIES {
        timbers.row(vec![
            Cell::code(row.name),
            also(row.also),
            Cell::words(row.gravity().map_or(String::new(), |gravity| print(Measure::number(gravity)))),
            Cell::words(if row.hardwood { "hardwood" } else { "softwood" }),
            Cell::words(if row.durable { "yes" } else { "no" }),
        ]);
    }
    page.table(timbers);
    let mut table = Table::new(&["grade or treatment", "also", "lasts outdoors"]);
    GRADES.iter().for_each(|row| table.row(vec![Cell::code(row.name), also(row.also), Cell::words("")]));
    for row in TREATMENTS {
        let lasts = match row.lasts {
            Lasts::Preserved => "yes",
            Lasts::Unpreserved | Lasts::AsBefore => "as its species does",
        };
        table.row(vec![Cell::code(row.name), also(row.also), Cell::words(lasts)]);
    }
    page.table(table);
    let mut table = Table::new(&["finish", "also", "grips when it is wet"]);
    for row in FINISHES {
        let grips = match row.grips {
            Grips::Always => "yes",
            Grips::Open => "under no film, and not smoothed",
            Grips::Never => "no",
        };
        table.row(vec![Cell::code(row.name), also(row.also), Cell::words(grips)]);
    }
    page.table(table);
    let mut table = Table::new(&["fastener or coating", "also", "of"]);
    for row in HEADS {
        table.row(vec![Cell::code(row.name), also(row.also), Cell::code(row.of.text())]);
    }
    for (name, names) in COATING_WORDS {
        table.row(vec![Cell::code(*name), also(names), Cell::words("all")]);
    }
    page.table(table);
}

fn of_kind(page: &mut Page, kind: &'static Kind) {
    page.heading(3, kind.name);
    let opens = if kind.opens == kind.name { String::new() } else { format!(" Written `{}`.", kind.opens) };
    let drawn = if kind.example.is_empty() { String::new() } else { format!(" For example `{}`.", example_of(kind)) };
    page.words(format!("{} {}.{opens}{drawn}", kind.help, stands(kind)));
    let mut table = Table::new(&["property", "takes", "for example", "what it is"]);
    for property in kind.properties {
        table.row(vec![
            Cell::code(property.name),
            Cell::words(takes(property.takes)),
            Cell::code(example(property)),
            Cell::words(what(property)),
        ]);
    }
    page.table(table);
    let mut table = Table::new(&["quantity", "gives", "what it is", "source", "formula"]).with_last_below();
    for entry in quantities().filter(|entry| entry.kind == kind) {
        let place = if entry.at_a_place() { "and a length" } else { "" };
        table.row(vec![
            Cell::code(entry.name).and_words(place),
            Cell::words(gives(entry.gives)),
            Cell::words(entry.help),
            Cell::words(entry.source),
            Cell::words(&*entry.formula()),
        ]);
    }
    page.table(table);
}

/// A block that is left open in its example is closed.
fn example_of(kind: &Kind) -> String {
    let open = kind.example.matches('{').count() > kind.example.matches('}').count();
    if open { format!("{} ... }}", kind.example) } else { kind.example.to_owned() }
}

fn stands(kind: &Kind) -> String {
    let place = |within: &&'static str| match *within {
        "" => "at the top of a file".to_owned(),
        other => format!("in a {other}"),
    };
    match kind.within {
        ["-"] => "It is never drawn by itself".to_owned(),
        within => {
            let places: Vec<String> = within.iter().map(place).collect();
            format!("It stands {}", places.join(", "))
        }
    }
}

fn what(property: &Property) -> String {
    let basis = match property.basis {
        Basis::Site => "; a fact of the site",
        Basis::Measurement => "; a measurement",
        Basis::Choice => "",
    };
    let usual = property.range.map_or(String::new(), |range| usual(property.takes, range));
    format!("{}{basis}{usual}", property.help)
}

/// Between which values a property is usual.
fn usual(takes: Takes, range: Range) -> String {
    let style = match takes {
        Takes::Length | Takes::Lengths => Style::INCHES,
        Takes::Angle | Takes::Angles => Style::DEGREES,
        Takes::Area => Style::INCHES.for_dimension(Dimension::AREA),
        Takes::Force => Style::INCHES.for_dimension(Dimension::FORCE),
        Takes::Pressure => Style::INCHES.for_dimension(Dimension::PRESSURE),
        _ => Style::NUMBER,
    };
    let shown = |value: f64| print(Measure { value, dimension: style.unit().dimension, style });
    format!("; {} to {} as a rule", shown(range.least), shown(range.most))
}

fn gives(gives: Gives) -> String {
    match gives {
        Gives::Measure(Dimension::NUMBER) => "a number".to_owned(),
        other => other.words(),
    }
}

fn customs(page: &mut Page) {
    page.heading(2, "Customs");
    page.words("What stands in for something that is not stated. A report tells each one that it used.");
    CUSTOMS.iter().for_each(|custom| page.line(custom.sentence));
}

fn language(page: &mut Page) {
    page.heading(2, "Words of the rule language");
    for (stands, title) in [
        (Stands::Set, "In a ruleset"),
        (Stands::Heading, "In its heading"),
        (Stands::Rule, "In a rule"),
        (Stands::Amendment, "In an amendment, beside these"),
        (Stands::Clause, "In a clause"),
    ] {
        page.heading(3, title);
        let mut table = Table::new(&["word", "what it says", "for example"]).with_last_below();
        for word in WORDS.iter().filter(|word| word.stands == stands) {
            table.row(vec![Cell::code(word.word), Cell::words(word.help), Cell::code(word.example)]);
        }
        page.table(table);
    }
}
