//! The working of a quantity: formula, numbers put in, source, as a joiner could redo it with a pencil.

use std::rc::Rc;

use super::page::{Cell, Page, Table};
use super::{Look, listed, sentence, wrap};
use crate::base::{Source, Span};
use crate::derive::{Datum, Evaluation, Input, Read, Worked};
use crate::measure::print;
use crate::mechanics::Step;
use crate::model::Id;
use crate::wording::{self, needs};

/// Every step from stated values to a quantity, in the order they are worked.
pub fn derivation(evaluation: &Evaluation<'_>, source: &Source, worked: &Rc<Worked>, look: &Look) -> String {
    let mut steps: Vec<Rc<Worked>> = Vec::new();
    order(evaluation, worked, &mut steps);
    worked_steps(evaluation, source, &steps, steps.len() > 1, look)
}

/// Steps in their order, with numbers or without.
pub(super) fn worked_steps(
    evaluation: &Evaluation<'_>,
    source: &Source,
    steps: &[Rc<Worked>],
    numbered: bool,
    look: &Look,
) -> String {
    let mut out = String::new();
    for (at, step) in steps.iter().enumerate() {
        let number = if numbered { format!("{}. ", at + 1) } else { String::new() };
        out.push_str(&one(evaluation, source, step, &number, look));
    }
    out
}

/// Every step behind some reads, in the order they are worked.
pub(super) fn steps_behind(evaluation: &Evaluation<'_>, reads: &[Read]) -> Vec<Rc<Worked>> {
    let mut steps = Vec::new();
    behind(evaluation, reads, &mut steps);
    steps
}

/// A quantity's name and value, or what it needs.
pub fn headline(evaluation: &Evaluation<'_>, worked: &Worked) -> String {
    let of = called(evaluation, worked.element);
    let place = worked.place.map(|place| format!(" {}", print(place))).unwrap_or_default();
    match &worked.result {
        Ok(datum) => format!("{}{place} of {of} = {}", worked.quantity.name, datum),
        Err(missing) => {
            format!("{}{place} of {of}: not known, needs {}", worked.quantity.name, needs(evaluation.design, missing))
        }
    }
}

pub(super) fn called(evaluation: &Evaluation<'_>, id: Id) -> String {
    if id == 0 { "the stair".to_owned() } else { evaluation.design.called(id) }
}

fn order(evaluation: &Evaluation<'_>, worked: &Rc<Worked>, steps: &mut Vec<Rc<Worked>>) {
    behind(evaluation, &worked.reads, steps);
    if !steps.iter().any(|step| Rc::ptr_eq(step, worked)) {
        steps.push(Rc::clone(worked));
    }
}

fn behind(evaluation: &Evaluation<'_>, reads: &[Read], steps: &mut Vec<Rc<Worked>>) {
    for read in reads {
        if let Input::Derived(entry, place) = read.input {
            let inner = evaluation.work(read.element, entry, place);
            if !steps.iter().any(|step| Rc::ptr_eq(step, &inner)) {
                order(evaluation, &inner, steps);
            }
        }
    }
}

/// A line of a step under its name, wrapped beside it.
pub(super) fn beside(name: &str, text: &str, indent: usize, look: &Look) -> Vec<String> {
    let text = sentence(text, look.unicode);
    let wrapped = wrap(&text, look.width.saturating_sub(indent + 11), &[]);
    let line = |(at, part): (usize, &String)| {
        let name = if at == 0 { name } else { "" };
        format!("{}{name:<9}{part}", " ".repeat(indent))
    };
    wrapped.iter().enumerate().map(line).collect()
}

fn one(evaluation: &Evaluation<'_>, source: &Source, worked: &Worked, number: &str, look: &Look) -> String {
    let mut lines = vec![format!("{number}{}", headline(evaluation, worked))];
    for (name, text) in rows(evaluation, source, worked) {
        lines.extend(beside(name, &text, number.len() + 2, look));
    }
    lines.join("\n") + "\n"
}

/// What stands of one step below its headline: each line by its name.
fn rows(evaluation: &Evaluation<'_>, source: &Source, worked: &Worked) -> Vec<(&'static str, String)> {
    let mut rows = vec![("what", worked.quantity.help.to_owned())];
    let formula = worked.quantity.formula();
    rows.push(("formula", formula.to_string()));
    let working = worked.quantity.derive.working(evaluation, worked.element);
    let steps = working.map(|working| working.steps).unwrap_or_default();
    for (nth, step) in steps.iter().enumerate() {
        // What a method is handed by the one before it stands above already.
        let known =
            |before: &Step| before.symbol == step.symbol && before.value == step.value && before.part == step.part;
        match step.formula() {
            Some(_) => rows.push(("worked", wording::step::step(step))),
            None if steps.iter().take(nth).any(known) => {}
            None => rows.push(("given", wording::step::step(step))),
        }
    }
    let put_in = put_in(&formula, &worked.reads);
    if worked.result.is_ok() && put_in != formula {
        rows.push(("put in", put_in));
    }
    for read in &worked.reads {
        match &read.input {
            Input::Stated { span, measured, .. } => {
                let row = ("stated", stated(evaluation, source, read, *span, *measured));
                // The mechanics read some facts more than once.
                if !rows.contains(&row) {
                    rows.push(row);
                }
            }
            Input::Custom(custom) => {
                rows.extend(custom.custom().map(|custom| ("custom", custom.sentence.to_owned())));
            }
            Input::Derived(..) => {}
        }
    }
    rows.push(("source", worked.quantity.source.to_owned()));
    rows
}

/// Every step from stated values to a quantity, as a page.
pub fn derivation_page(evaluation: &Evaluation<'_>, source: &Source, worked: &Rc<Worked>) -> Page {
    let mut steps: Vec<Rc<Worked>> = Vec::new();
    order(evaluation, worked, &mut steps);
    let mut page = Page::default();
    for step in steps {
        page.heading(2, headline(evaluation, &step));
        let mut table = Table::new(&["line", "working"]);
        for (name, text) in rows(evaluation, source, &step) {
            table.row(vec![Cell::words(name), Cell::words(text)]);
        }
        page.table(table);
    }
    page
}

pub(super) fn stated(evaluation: &Evaluation<'_>, source: &Source, read: &Read, span: Span, measured: bool) -> String {
    let as_measured = if measured { ", as measured" } else { "" };
    // What the shop states stands in its file.
    let shop = match read.input {
        Input::Stated { property, .. } => {
            evaluation.design.stated(read.element, property).and_then(|stated| stated.shop)
        }
        _ => None,
    };
    if let (Some(shop), Some(text)) = (shop.filter(|shop| !shop.called), &evaluation.design.shop) {
        let (words, line) = (text.slice(shop.words), text.line(shop.words.start));
        return format!(
            "{} of {}: {words} ({}, line {line})",
            read.name(),
            called(evaluation, read.element),
            text.name
        );
    }
    let (words, line) = (source.slice(span), source.line(span.start));
    format!("{} of {}: {words} (line {line}{as_measured})", read.name(), called(evaluation, read.element))
}

/// The formula with every name that was read replaced by its number.
fn put_in(formula: &str, reads: &[Read]) -> String {
    let mut names: Vec<&str> = reads.iter().map(Read::name).collect();
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
    for read in reads.iter().filter(|read| read.name() == name) {
        if !elements.contains(&read.element) {
            elements.push(read.element);
            let value = match read.datum.as_ref()? {
                datum @ Datum::List(_) => format!("({datum})"),
                datum => datum.to_string(),
            };
            if !values.contains(&value) {
                values.push(value);
            }
        }
    }
    (!values.is_empty()).then(|| listed(&values))
}
