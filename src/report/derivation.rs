//! The working of a quantity: formula, numbers put in, source, as a joiner could redo it with a pencil.

use std::rc::Rc;

use super::{Look, listed, sentence, wrap};
use crate::base::{Source, Span};
use crate::derive::{Datum, Input, Read, Worked, Working};
use crate::measure::print;
use crate::model::{Id, ListItem};

/// Every step from stated values to a quantity, in the order they are worked.
pub fn derivation(working: &Working<'_>, source: &Source, worked: &Rc<Worked>, look: &Look) -> String {
    let mut steps: Vec<Rc<Worked>> = Vec::new();
    order(working, worked, &mut steps);
    let many = steps.len() > 1;
    let mut out = String::new();
    for (at, step) in steps.iter().enumerate() {
        let number = if many { format!("{}. ", at + 1) } else { String::new() };
        out.push_str(&one(working, source, step, &number, look));
    }
    out
}

/// What a value looks like in a line of text.
pub fn told(datum: &Datum) -> String {
    match datum {
        Datum::Measure(measure) => print(*measure),
        Datum::List(items) => list(items),
        Datum::Word(word) => word.to_string(),
    }
}

/// A quantity's name and value, or what it needs.
pub fn headline(working: &Working<'_>, worked: &Worked) -> String {
    let of = called(working, worked.element);
    let place = worked.place.map(|place| format!(" {}", print(place))).unwrap_or_default();
    match &worked.result {
        Ok(datum) => format!("{}{place} of {of} = {}", worked.quantity.name, told(datum)),
        Err(missing) => format!("{}{place} of {of}: not known, needs {}", worked.quantity.name, missing.needs),
    }
}

fn called(working: &Working<'_>, id: Id) -> String {
    if id == 0 { "the stair".to_owned() } else { working.design.called(id) }
}

fn order(working: &Working<'_>, worked: &Rc<Worked>, steps: &mut Vec<Rc<Worked>>) {
    for read in &worked.reads {
        if let Input::Derived(entry, place) = read.input {
            let inner = working.work(read.element, entry, place);
            if !steps.iter().any(|step| Rc::ptr_eq(step, &inner)) {
                order(working, &inner, steps);
            }
        }
    }
    if !steps.iter().any(|step| Rc::ptr_eq(step, worked)) {
        steps.push(Rc::clone(worked));
    }
}

fn one(working: &Working<'_>, source: &Source, worked: &Worked, number: &str, look: &Look) -> String {
    let mut lines = vec![format!("{number}{}", headline(working, worked))];
    let indent = " ".repeat(number.len() + 2);
    let mut line = |name: &str, text: &str| {
        let text = sentence(text, look.unicode);
        let width = look.width.saturating_sub(indent.len() + 11);
        for (at, part) in wrap(&text, width, &[]).iter().enumerate() {
            let name = if at == 0 { name } else { "" };
            lines.push(format!("{indent}{name:<9}{part}"));
        }
    };
    line("what", worked.quantity.help);
    line("formula", worked.quantity.formula);
    let put_in = put_in(worked.quantity.formula, &worked.reads);
    if worked.result.is_ok() && put_in != worked.quantity.formula {
        line("put in", &put_in);
    }
    for read in &worked.reads {
        match &read.input {
            Input::Stated { span, measured } => line("stated", &stated(working, source, read, *span, *measured)),
            Input::Custom(custom) => line("custom", custom.sentence),
            Input::Derived(..) => {}
        }
    }
    line("source", worked.quantity.source);
    lines.join("\n") + "\n"
}

fn stated(working: &Working<'_>, source: &Source, read: &Read, span: Span, measured: bool) -> String {
    let as_measured = if measured { ", as measured" } else { "" };
    let (words, line) = (source.slice(span), source.line(span.start));
    format!("{} of {}: {words} (line {line}{as_measured})", read.name, called(working, read.element))
}

/// `4 of 7"`, or the items one by one.
fn list(items: &[ListItem]) -> String {
    let alike = items.windows(2).all(|pair| matches!(pair, [a, b] if a.measure.value == b.measure.value));
    match items {
        [first, _, ..] if alike => format!("{} of {}", items.len(), print(first.measure)),
        _ => items.iter().map(|item| print(item.measure)).collect::<Vec<_>>().join(", "),
    }
}

/// The formula with every name that was read replaced by its number.
fn put_in(formula: &str, reads: &[Read]) -> String {
    let mut names: Vec<&str> = reads.iter().map(|read| read.name).collect();
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    names.dedup();
    let mut out = String::new();
    let mut rest = formula;
    let mut boundary = true;
    while let Some(first) = rest.chars().next() {
        let whole = |name: &&&str| {
            boundary
                && rest
                    .strip_prefix(**name)
                    .is_some_and(|after| !after.chars().next().is_some_and(char::is_alphanumeric))
        };
        if let Some(name) = names.iter().find(whole) {
            out.push_str(&values(name, reads).unwrap_or_else(|| (*name).to_owned()));
            rest = rest.strip_prefix(*name).unwrap_or_default();
            boundary = false;
            continue;
        }
        boundary = !first.is_alphanumeric();
        out.push(first);
        rest = rest.strip_prefix(first).unwrap_or_default();
    }
    out
}

fn values(name: &str, reads: &[Read]) -> Option<String> {
    let mut values: Vec<String> = Vec::new();
    let mut elements: Vec<Id> = Vec::new();
    for read in reads.iter().filter(|read| read.name == name) {
        if !elements.contains(&read.element) {
            elements.push(read.element);
            let value = match read.datum.as_ref()? {
                Datum::List(items) => format!("({})", list(items)),
                datum => told(datum),
            };
            if !values.contains(&value) {
                values.push(value);
            }
        }
    }
    (!values.is_empty()).then(|| listed(&values))
}
