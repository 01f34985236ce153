//! One rule in full: its clause, its limits and who set them, its source and why, what it rests on, its examples.

use super::explanation::{amended, chain};
use super::page::{Cell, Page, Table};
use crate::model::kinds;
use crate::rules::{Node, Rule, RuleSet, What, one_line};
use crate::wording::sure;

/// The page of a rule of a set.
pub fn rule(set: &RuleSet, rule: &Rule) -> Page {
    let mut page = Page::default();
    page.heading(1, rule.name.clone());
    let edition = if set.edition.is_empty() { String::new() } else { format!(", edition: {}", set.edition) };
    let chapter = if rule.chapter.is_empty() { String::new() } else { format!(", chapter {}", rule.chapter) };
    page.words(format!("A rule of {}{edition}{chapter}.", set.title));
    page.words(format!("`{}`", rule.wording()));
    page.words(if rule.shall { "It is required: not met, it is broken." } else { "It is advice." });
    page.words(rule.because.clone());
    let line = rule.source.line(rule.clause.start);
    page.words(format!(
        "Source: {}{}. The clause stands in {}, line {line}.",
        rule.cites,
        sure::after_a_source(&rule.sure),
        rule.source.name
    ));
    if !rule.formerly.is_empty() {
        page.words(format!("Formerly: \"{}\".", rule.formerly.join("\", \"")));
    }
    if !rule.waivable {
        page.words("No design may waive it.");
    }
    limits(&mut page, rule);
    let amended = amended(rule);
    if !amended.is_empty() {
        page.heading(2, "Amended");
        amended.into_iter().for_each(|line| page.words(line));
    }
    rests_on(&mut page, rule);
    examples(&mut page, rule);
    page.words(set.caution.clone());
    page
}

fn limits(page: &mut Page, rule: &Rule) {
    let mut table = Table::new(&["limit", "where it is from"]);
    for limit in &rule.limits {
        let told = chain(limit).into_iter().fold(Cell::default(), Cell::and_words);
        table.row(vec![Cell::code(format!("{} {}", limit.name, limit.figures())), told]);
    }
    if !table.is_empty() {
        page.heading(2, "Limits");
        page.table(table);
    }
}

/// What its clause reads: each quantity with how it comes about, and each property as it is stated.
fn rests_on(page: &mut Page, rule: &Rule) {
    let mut rows: Vec<(String, String, String)> = Vec::new();
    let mut add = |name: String, help: String, how: String| {
        if !rows.iter().any(|(known, ..)| *known == name) {
            rows.push((name, help, how));
        }
    };
    let mut see = |node: &Node| match node {
        Node::Read(what, path) => {
            let of = path.last().map_or(rule.kind, |of| of.kind);
            add_read(*what, of.name, &mut add);
        }
        Node::ReadAt(entry, _, path) => {
            let of = path.last().map_or(rule.kind, |of| of.kind);
            add_read(What::Quantity(entry), of.name, &mut add);
        }
        Node::Over(_, what, collected) => add_read(*what, collected.kind.name, &mut add),
        Node::Count(collected) => {
            let (kind, how) = (collected.kind, "as many as are drawn".to_owned());
            let how = if kind == kinds::PART { String::new() } else { how };
            add(format!("number of {}", kind.plural), kind.help.to_owned(), how);
        }
        _ => {}
    };
    rule.condition.iter().chain([&rule.requirement]).for_each(|node| node.each(&mut see));
    let mut table = Table::new(&["it rests on", "which is", "how it is had"]);
    for (name, help, how) in rows {
        table.row(vec![Cell::code(name), Cell::words(help), Cell::words(how)]);
    }
    if !table.is_empty() {
        page.heading(2, "What it rests on");
        page.table(table);
        page.words("Where one of them is not known, the rule is not checked, and says what is lacking.");
    }
}

fn add_read(what: What, of: &str, add: &mut impl FnMut(String, String, String)) {
    match what {
        What::Quantity(entry) | What::At(entry, _) => {
            let how = format!("{} ({})", entry.formula(), entry.source);
            add(format!("{} of {of}", entry.name), entry.help.to_owned(), how);
        }
        What::Property(property) => {
            add(format!("{} of {of}", property.name), property.help.to_owned(), "as it is stated".to_owned());
        }
    }
}

fn examples(page: &mut Page, rule: &Rule) {
    let mut table = Table::new(&["example", "where it stands", "text"]).with_last_below();
    for (source, fragment) in &rule.fragments {
        let place = format!("{}:{}", source.name, source.line(fragment.word.start));
        let text = one_line(source.slice(fragment.span));
        table.row(vec![Cell::words(source.slice(fragment.word)), Cell::words(place), Cell::code(text)]);
    }
    if !table.is_empty() {
        page.heading(2, "Examples");
        page.table(table);
    }
}
