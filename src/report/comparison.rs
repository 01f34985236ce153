//! Two sets side by side as a page, and whose outcome changes.

use std::collections::BTreeMap;

use super::page::{Cell, Page, Table};
use super::set::table;
use super::totals::caution;
use super::words::{count, listed};
use crate::check::{Changes, Standing};
use crate::rules::{Comparison, Point, RuleSet, Way};

/// The page of a comparison; `tables` puts the outcomes into a table, too, where nobody searches them by line.
pub fn comparison(
    sets: (&RuleSet, &RuleSet),
    found: &Comparison<'_>,
    designs: &[(String, Changes)],
    tables: bool,
) -> Page {
    let (first, second) = sets;
    let mut page = Page::default();
    page.heading(1, format!("{} and {}", first.title, second.title));
    page.line(format!("first: {}", named(first)));
    page.line(format!("second: {}", named(second)));
    if !found.differing.is_empty() {
        page.heading(2, "Rules that differ");
        page.table(differing(found));
    }
    for (title, rules) in [("Only in the first", &found.only_first), ("Only in the second", &found.only_second)] {
        if !rules.is_empty() {
            page.heading(2, title);
            page.table(table(rules));
        }
    }
    outcomes(&mut page, designs, tables);
    let mut cautions: Vec<&str> = [first, second].iter().map(|set| set.caution.as_str()).collect();
    cautions.dedup();
    for caution in cautions {
        page.words(caution);
    }
    if !designs.is_empty() {
        page.words(caution());
    }
    page.line(format!(
        "{} alike, {} {}, {} only in the first, {} only in the second",
        count(found.alike, "rule"),
        found.differing.len(),
        if found.differing.len() == 1 { "differs" } else { "differ" },
        found.only_first.len(),
        found.only_second.len()
    ));
    if !designs.is_empty() {
        page.line(counts(designs));
    }
    page
}

fn named(set: &RuleSet) -> String {
    let edition = if set.edition.is_empty() { String::new() } else { format!(", edition: {}", set.edition) };
    format!("{}{edition}", set.title)
}

fn differing(found: &Comparison<'_>) -> Table {
    let mut table = Table::new(&["rule", "what", "first", "second", "change"]);
    for rule in &found.differing {
        for difference in &rule.differences {
            let side = |text: &Option<String>, nothing: &str| Cell::words(text.as_deref().unwrap_or(nothing));
            let nothing = match difference.point {
                Point::Sure => "not said",
                _ => "none",
            };
            table.row(vec![
                Cell::words(&rule.first.name),
                Cell::words(point(&difference.point)),
                side(&difference.first, nothing),
                side(&difference.second, nothing),
                Cell::words(match (difference.way, &difference.point) {
                    (Way::Tighter, Point::Condition) => "tighter: applies to more",
                    (Way::Looser, Point::Condition) => "looser: applies to less",
                    (Way::Tighter, _) => "tighter",
                    (Way::Looser, _) => "looser",
                    (Way::Open, _) => "",
                }),
            ]);
        }
    }
    table
}

fn point(point: &Point) -> String {
    match point {
        Point::Name => "name".to_owned(),
        Point::Verb => "verb".to_owned(),
        Point::Kind => "what it applies to".to_owned(),
        Point::Condition => "condition".to_owned(),
        Point::Requirement => "what it asks".to_owned(),
        Point::Limit(name) => format!("limit {name}"),
        Point::Source => "source".to_owned(),
        Point::Sure => "how sure".to_owned(),
        Point::Waive => "waivers".to_owned(),
    }
}

fn outcomes(page: &mut Page, designs: &[(String, Changes)], tables: bool) {
    let changed = designs.iter().any(|(_, found)| !found.changes.is_empty());
    let unread = designs.iter().filter(|(_, found)| !found.unread.is_empty());
    let unread: Vec<String> = unread
        .map(|(design, found)| {
            let statements = count(found.unread.len(), "statement");
            format!(
                "{design}: {statements} not understood, checked against neither set; `pitchboard check` tells which"
            )
        })
        .collect();
    if changed || !unread.is_empty() {
        page.heading(2, "Outcomes that change");
    }
    let mut table = Table::new(&["design", "rule", "of", "view", "first", "second"]);
    for (design, change) in designs.iter().flat_map(|(design, found)| found.changes.iter().map(move |c| (design, c))) {
        let design = match &change.stair {
            Some(stair) => format!("{design} \"{stair}\""),
            None => design.clone(),
        };
        let (first, second) = (change.first.word(), change.second.word());
        if tables {
            let view = if change.measured { "as measured" } else { "as drawn" };
            let of = named_few(&change.elements);
            table.row([&design, &change.rule, of.as_str(), view, first, second].into_iter().map(Cell::words).collect());
        } else {
            let view = if change.measured { ", as measured" } else { "" };
            let of =
                if change.elements.is_empty() { String::new() } else { format!(" of {}", named_few(&change.elements)) };
            page.line(format!("{design}: {}{of}{view}  {first} -> {second}", change.rule));
        }
    }
    page.table(table);
    for line in unread {
        page.line(line);
    }
    let one: usize = designs.iter().map(|(_, found)| found.held_by_one).sum();
    if one > 0 {
        let are = if one == 1 { "is" } else { "are" };
        let outcomes = count(one, "outcome");
        page.words(format!("{outcomes} {are} not listed: only one of the sets has the rule, and it holds."));
    }
}

/// Names, or the first few of many.
fn named_few(names: &[String]) -> String {
    let shown: Vec<String> = names.iter().take(MOST_NAMED).cloned().collect();
    match names.len().checked_sub(MOST_NAMED) {
        None | Some(0) => listed(&shown),
        Some(more) => format!("{} and {more} more", shown.join(", ")),
    }
}

/// How many things are named before the rest are counted.
const MOST_NAMED: usize = 4;

/// `3 designs: 2 with a change; 2 outcomes change: 1 to broken and 1 to passes`.
fn counts(designs: &[(String, Changes)]) -> String {
    let changes: Vec<Standing> =
        designs.iter().flat_map(|(_, found)| &found.changes).map(|change| change.second).collect();
    let with = designs.iter().filter(|(_, found)| !found.changes.is_empty()).count();
    let designs = count(designs.len(), "design");
    if changes.is_empty() {
        return format!("{designs}: none with a change");
    }
    let mut to: BTreeMap<std::cmp::Reverse<Standing>, usize> = BTreeMap::new();
    for held in &changes {
        *to.entry(std::cmp::Reverse(*held)).or_default() += 1;
    }
    let to: Vec<String> = to.iter().map(|(held, number)| format!("{number} to {}", held.0.word())).collect();
    let change = if changes.len() == 1 { "changes" } else { "change" };
    format!("{designs}: {with} with a change; {} {change}: {}", count(changes.len(), "outcome"), listed(&to))
}
