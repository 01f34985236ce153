//! A ruleset as a page: each rule with its verb, what it applies to, its limits, its source and how sure that is.

use super::page::{Cell, Page, Table};
use super::words::count;
use crate::rules::{Change, Limit, Part, Rule, RuleSet, Sourced, Sure};
use crate::wording::{self, sure};

/// The page of a set: a table for each chapter.
pub fn set(set: &RuleSet) -> Page {
    let mut page = Page::default();
    page.heading(1, set.title.clone());
    page.words(about(set));
    let mut table: Option<Table> = None;
    let mut chapter: Option<&str> = None;
    for rule in &set.rules {
        if chapter != Some(&rule.chapter) {
            page.table(table.take().unwrap_or_else(head));
            chapter = Some(&rule.chapter);
            if !rule.chapter.is_empty() || page_has_chapters(set) {
                let name = if rule.chapter.is_empty() { "In no chapter" } else { &rule.chapter };
                page.heading(2, name);
            }
        }
        table.get_or_insert_with(head).row(row(rule));
    }
    page.table(table.take().unwrap_or_else(head));
    if !set.withdrawn.is_empty() {
        page.heading(2, "Withdrawn");
        page.table(withdrawn(set));
    }
    for sure in [Sure::Memory, Sure::SecondHand] {
        let unsure = set.rules.iter().filter(|rule| Sure::of(&rule.sure) == Some(sure)).count();
        sure::of_rules(unsure, sure).into_iter().for_each(|line| page.words(line));
    }
    page.words(set.caution.clone());
    page
}

/// Rules of any chapters in one table.
pub(super) fn table(rules: &[&Rule]) -> Table {
    let mut table = head();
    rules.iter().for_each(|rule| table.row(row(rule)));
    table
}

fn head() -> Table {
    Table::new(&["rule", "verb", "applies to", "limits", "source", "how sure", "clause"]).with_last_below()
}

fn page_has_chapters(set: &RuleSet) -> bool {
    set.rules.iter().any(|rule| !rule.chapter.is_empty())
}

/// `Basis: International Residential Code, 2021. Edition: 2021.`, as far as they are stated, and the sets below.
fn about(set: &RuleSet) -> String {
    let edition = |edition: &str| if edition.is_empty() { String::new() } else { format!(", edition: {edition}") };
    let mut below = String::new();
    for (at, one) in set.takes_in.iter().enumerate() {
        let how = if at == 0 { String::new() } else { format!(", which {} ", wording::takes_in(one)) };
        below += &format!("{how}{}{}", one.title, edition(&one.edition));
    }
    let amends = set.takes_in.first().is_some_and(|below| below.amended);
    let how = if amends { "Amends" } else { "Takes in" };
    let serves = set.serves.iter().map(|purpose| purpose.word()).collect::<Vec<_>>().join(", ");
    let stated = [("Basis", &set.basis), ("Edition", &set.edition), ("For", &serves), (how, &below)];
    let stated = stated.into_iter().filter(|(_, text)| !text.is_empty());
    stated.map(|(name, text)| format!("{name}: {}.", text.trim_end_matches('.'))).collect::<Vec<_>>().join(" ")
}

/// Rules that the set, or one below it, has taken out.
fn withdrawn(set: &RuleSet) -> Table {
    let mut table = Table::new(&["rule", "withdrawn by", "because"]);
    for gone in &set.withdrawn {
        table.row(vec![Cell::words(&gone.rule.name), Cell::words(&gone.set), Cell::words(&gone.because)]);
    }
    table
}

/// What sets above the one that wrote a rule have put in place, beside limits; the newest first.
fn amended(rule: &Rule) -> Vec<String> {
    let newest = rule.amendments.iter().rev();
    let changes = newest.flat_map(|amendment| amendment.changes.iter().map(move |change| (&amendment.set, change)));
    let said = changes.filter_map(|(set, Change { part, before, set_by, .. })| {
        let before = if before.is_empty() { "none" } else { before };
        Some(format!("{} set by {set}, in place of {before} of {set_by}", named(part)?))
    });
    let bare = rule.amendments.iter().rev().filter(|amendment| amendment.grounds == Sourced::No);
    let never = (!rule.waivable).then(|| "no design may waive it".to_owned());
    let bare = bare.map(|amendment| format!("{} names no source of its own", amendment.set));
    said.chain(bare).chain(never).collect()
}

/// What a part of a rule is called, if it is not told elsewhere.
pub(super) fn named(part: &Part) -> Option<&'static str> {
    match part {
        Part::Limit(_) | Part::Because => None,
        Part::Verb => Some("verb"),
        Part::Condition => Some("condition"),
        Part::Clause => Some("clause"),
        Part::Source => Some("source"),
        Part::Sure => Some("how sure"),
        Part::Waive => Some("whether it may be waived"),
        Part::Says => Some("sentence"),
    }
}

fn row(rule: &Rule) -> Vec<Cell> {
    let of_table =
        |limit: &&Limit| rule.tables.iter().any(|table| table.rows.iter().any(|row| row.limit == limit.name));
    let put = |cell: Cell, limit: &Limit| {
        let cell = cell.and_code(format!("{} {}", limit.name, limit.figures()));
        cell.and_words(replaced(limit))
    };
    let limits = rule.limits.iter().filter(|limit| !of_table(limit)).fold(Cell::default(), put);
    let limits = rule.tables.iter().fold(limits, |cell, table| {
        let between = if table.between { ", read between" } else { "" };
        let cell = cell.and_code(format!("{} by {}{between}:", table.name, table.by_words));
        let rows = table.rows.iter().filter_map(|row| rule.limits.iter().find(|limit| limit.name == row.limit));
        rows.fold(cell, put)
    });
    let sure = sure::in_a_column(&rule.sure);
    vec![
        Cell::words(&rule.name),
        Cell::words(if rule.shall { "shall" } else { "should" }),
        Cell::words(rule.kind.name),
        limits,
        Cell::words(&rule.cites),
        Cell::words(sure),
        amended(rule).into_iter().fold(Cell::code(rule.wording()), Cell::and_words),
    ]
}

/// Who set a limit in place of another, and what it replaced, back to the first.
fn replaced(limit: &Limit) -> String {
    let mut told = String::new();
    let mut at = limit;
    while let Some(before) = &at.replaced {
        told += &if told.is_empty() { format!("set by {}, in place of ", at.set) } else { ", in place of ".to_owned() };
        told += &format!("{} of {}", before.figures(), before.set);
        at = before;
    }
    told
}

/// The last line of a proof: rules, examples and how many of them went otherwise, how many rules lack which of the two,
/// how many points of them no example notices. What could not be read is proven by nothing, so its number comes first.
pub fn proof_counts(
    set: &RuleSet,
    slips: usize,
    (ran, failed): (usize, usize),
    lacking: &[usize],
    gaps: usize,
) -> String {
    let lack = |number: usize, what: &str| {
        format!("{} {} {what}", count(number, "rule"), if number == 1 { "lacks" } else { "lack" })
    };
    let (passing, failing) = (lacking.first().copied().unwrap_or(0), lacking.get(1).copied().unwrap_or(0));
    let bare = match (passing, failing) {
        (0, 0) => "no rule lacks a passing or a failing one".to_owned(),
        _ => format!("{}, {}", lack(passing, "a passing example"), lack(failing, "a failing one")),
    };
    let (rules, examples) = (count(set.rules.len(), "rule"), count(ran, "example"));
    let came = match (ran, failed) {
        (0, _) => String::new(),
        (_, 0) => ", all as expected".to_owned(),
        _ => format!(", {failed} not as expected"),
    };
    let slips = match slips {
        0 => String::new(),
        1 => "not proven while 1 slip stands; ".to_owned(),
        many => format!("not proven while {many} slips stand; "),
    };
    let gaps = match gaps {
        0 => String::new(),
        1 => "; no example notices 1 change".to_owned(),
        many => format!("; no example notices {many} changes"),
    };
    format!("{}: {slips}{rules}, {examples}{came}; {bare}{gaps}", set.title)
}
