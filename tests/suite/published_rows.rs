//! The published figures, row by row, against the shipped sets, both ways: `tests/published/<set>.tsv` says where each
//! row stands, and each limit of the set has to stand in some row. The head of a table says how it is laid out.
//!
//! A further set needs its table and nothing here.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use pitchboard::base::Source;
use pitchboard::check::BUILT_IN;
use pitchboard::measure::{Measure, equal};
use pitchboard::rules::{Collected, Node, Place, Rule, RuleSet, What};
use pitchboard::session::Session;

/// A row that stands in a rule.
struct Row {
    line: usize,
    id: String,
    rule: String,
    limit: Option<(String, String, String)>,
    sure: String,
}

/// One table.
#[derive(Default)]
struct Table {
    rows: Vec<Row>,
    left_out: BTreeSet<String>,
    /// What it says it holds.
    told: BTreeSet<String>,
}

fn tables() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut found: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    found.retain(|path| path.extension().is_some_and(|end| end == "tsv"));
    found.sort();
    found
}

fn read(text: &str, wrong: &mut Vec<String>) -> Table {
    let mut table = Table::default();
    for (at, line) in text.lines().enumerate().filter(|(_, line)| !line.is_empty() && !line.starts_with('#')) {
        let line_number = at + 1;
        let fields: Vec<&str> = line.split('\t').collect();
        if fields.iter().any(|field| field.trim().is_empty()) {
            wrong.push(format!("line {line_number} has an empty column"));
        }
        match fields[..] {
            ["rows", ids] => table.told.extend(ids.split(' ').map(str::to_owned)),
            ["left out", id, _] => _ = table.left_out.insert(id.to_owned()),
            [id, _, _, rule, limit, written, relation, sure @ ("seen" | "second hand" | "memory")] => {
                let nothing = [limit, written, relation].iter().filter(|field| **field == "-").count();
                if ![0, 3].contains(&nothing) {
                    wrong.push(format!("line {line_number}: a row with no figure has `-` for all three"));
                }
                let limit = (nothing == 0).then(|| (limit.to_owned(), written.to_owned(), relation.to_owned()));
                let row =
                    Row { line: line_number, id: id.to_owned(), rule: rule.to_owned(), limit, sure: sure.to_owned() };
                table.rows.push(row);
            }
            _ => wrong.push(format!("line {line_number} is none of the three forms: {line}")),
        }
    }
    table
}

/// A figure as a set writes it.
fn figure(written: &str) -> Option<Measure> {
    let text = format!(
        "ruleset \"figure\" {{ }}\nchapter \"figure\" {{ rule \"figure\" {{\nlimit asked: {written}\neach flight shall have width > 1\"\nsource: \"common practice\"\n}} }}"
    );
    let set = Session::default().read_set(&Source::new("figure", text)).set;
    set.rules.first().and_then(|rule| rule.limits.first()).map(|limit| limit.measure)
}

/// How a clause uses each limit: the relation that a quantity has to it, as written; `=` where it is a place.
fn uses(rule: &Rule) -> BTreeSet<(String, &'static str)> {
    let mut found = BTreeSet::new();
    for node in rule.condition.iter().chain([&rule.requirement]) {
        walk(node, &mut found);
    }
    let name = |at: usize| rule.limits.get(at).map(|limit| limit.name.clone()).unwrap_or_default();
    found.into_iter().map(|(at, relation)| (name(at), relation)).collect()
}

fn walk(node: &Node, found: &mut BTreeSet<(usize, &'static str)>) {
    match node {
        Node::Any(terms) | Node::All(terms) => terms.iter().for_each(|term| walk(term, found)),
        Node::Not(inner) | Node::Negative(inner) | Node::Is(inner, ..) => walk(inner, found),
        Node::Chain(terms, relations) => {
            for (pair, relation) in terms.windows(2).zip(relations) {
                let [(left, _), (right, _)] = pair else { continue };
                match (left.limits(), right.limits()) {
                    (left, _) if !left.is_empty() => {
                        found.extend(left.into_iter().map(|at| (at, relation.turned().sign())));
                    }
                    (_, right) => found.extend(right.into_iter().map(|at| (at, relation.sign()))),
                }
            }
            for (term, _) in terms.iter().filter(|(term, _)| term.limits().is_empty()) {
                walk(term, found);
            }
            // What a table goes by may be asked at a limit.
            for (term, _) in terms {
                if let Node::ByRow(rows) = term {
                    rows.iter().filter_map(|row| row.when.as_ref()).for_each(|when| walk(when, found));
                }
            }
        }
        // A limit inside a sum, or at which a quantity is asked, is a place.
        Node::Limit(at) => _ = found.insert((*at, "=")),
        Node::Sum(a, _, b) | Node::Product(a, _, b) | Node::Pick(_, a, b) => {
            walk(a, found);
            walk(b, found);
        }
        Node::Count(collected) => within(collected, found),
        Node::Over(_, what, collected) => {
            asked_at(what, found);
            within(collected, found);
        }
        Node::Read(what, _) => asked_at(what, found),
        Node::ReadAt(_, inner, _) | Node::Drawn(inner) | Node::Measured(inner) => walk(inner, found),
        // The rows of a table that is compared were met there.
        Node::ByRow(_) | Node::Between(..) => found.extend(node.limits().into_iter().map(|at| (at, "="))),
        Node::Figure(_) => {}
    }
}

fn within(collected: &Collected, found: &mut BTreeSet<(usize, &'static str)>) {
    if let Some(condition) = &collected.condition {
        walk(condition, found);
    }
}

fn asked_at(what: &What, found: &mut BTreeSet<(usize, &'static str)>) {
    if let What::At(_, Place::Limit(at)) = what {
        found.insert((*at, "="));
    }
}

/// What is wrong between a table and its set.
fn compare(text: &str, set: &RuleSet) -> Vec<String> {
    let mut wrong = Vec::new();
    let table = read(text, &mut wrong);
    let mut stands: BTreeSet<(&str, String, &str)> = BTreeSet::new();
    let mut by_rule: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    for row in &table.rows {
        let at = format!("line {}, row {}", row.line, row.id);
        by_rule.entry(&row.rule).or_default().push(row);
        let Some(rule) = set.rules.iter().find(|rule| rule.name == row.rule) else {
            wrong.push(format!("{at}: the set has no rule `{}`", row.rule));
            continue;
        };
        let Some((name, written, relation)) = &row.limit else { continue };
        stands.insert((&row.rule, name.clone(), relation));
        let Some(limit) = rule.limits.iter().find(|limit| limit.name == *name) else {
            wrong.push(format!("{at}: `{}` has no limit `{name}`", row.rule));
            continue;
        };
        match figure(written) {
            None => wrong.push(format!("{at}: `{written}` is no figure")),
            Some(figure) if figure.dimension != limit.measure.dimension => {
                wrong.push(format!("{at}: `{written}` is of another dimension than `{name}` of `{}`", row.rule));
            }
            Some(figure) if !equal(figure.value, limit.measure.value, figure.dimension) => {
                wrong.push(format!("{at}: {written} is published, `{name}` of `{}` is another figure", row.rule));
            }
            Some(_) => {}
        }
        if !uses(rule).contains(&(name.clone(), relation.as_str())) {
            wrong.push(format!("{at}: the clause of `{}` never asks {relation} {name}", row.rule));
        }
    }
    for rule in &set.rules {
        let rows = by_rule.get(rule.name.as_str()).map(Vec::as_slice).unwrap_or_default();
        if rows.is_empty() {
            wrong.push(format!("rule `{}` stands in no row", rule.name));
            continue;
        }
        for (name, relation) in uses(rule) {
            if !stands.contains(&(rule.name.as_str(), name.clone(), relation)) {
                wrong.push(format!("`{name}` of rule `{}` ({relation}) stands in no row", rule.name));
            }
        }
        for word in ["memory", "second hand"] {
            let says = rule.sure == word;
            if rows.iter().all(|row| row.sure == word) && !says {
                wrong.push(format!("all that rule `{}` rests on is {word}, and it does not say so", rule.name));
            }
            if says && !rows.iter().any(|row| row.sure == word) {
                wrong.push(format!("rule `{}` says that it is {word}; none of its rows is", rule.name));
            }
        }
    }
    let held: BTreeSet<String> = table.rows.iter().map(|row| row.id.clone()).chain(table.left_out.clone()).collect();
    wrong.extend(table.told.difference(&held).map(|id| format!("row {id} stands neither in a rule nor as left out")));
    wrong.extend(held.difference(&table.told).map(|id| format!("row {id} is not in the list of rows")));
    wrong
}

fn set(name: &str) -> RuleSet {
    let (name, text) = BUILT_IN.iter().find(|(known, _)| *known == name).unwrap_or_else(|| panic!("no set `{name}`"));
    Session::default().read_set(&Source::new(*name, *text)).set
}

#[test]
fn every_published_row_stands_in_its_set_and_every_limit_in_a_row() {
    let tables = tables();
    assert!(tables.iter().any(|path| path.ends_with("residential.tsv")));
    let mut told = String::new();
    for path in tables {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        for wrong in compare(&std::fs::read_to_string(&path).unwrap(), &set(&name)) {
            told += &format!("{name}: {wrong}\n");
        }
    }
    assert!(told.is_empty(), "\n{told}");
}

#[test]
fn what_does_not_agree_is_told() {
    let text = "ruleset \"s\" { }\nchapter \"c\" {\nrule \"height\" {\nlimit tallest: 7-3/4\"\nlimit walkline: 12\"\n\
                each tread shall have depth at walkline <= tallest\nsource: \"common practice\"\n}\n\
                rule \"ends\" {\neach handrail shall have ends is returned\nsource: \"common practice\"\nsure: memory\n} }";
    let set = Session::default().read_set(&Source::new("s", text)).set;
    let row = |id: &str, rule: &str, rest: &str| format!("{id}\tclause\ttopic\t{rule}\t{}\n", rest.replace(' ', "\t"));
    let all = row("1.1", "height", "tallest 7-3/4\" <= seen")
        + &row("1.2", "height", "walkline 12\" = seen")
        + &row("1.3", "ends", "- - - memory");
    let told = "rows\t1.1 1.2 1.3 1.4\nleft out\t1.4\tcannot be drawn\n";
    assert_eq!(compare(&format!("{told}{all}"), &set), Vec::<String>::new());
    let says = |old: &str, new: &str, wanted: &str| {
        let text = format!("{told}{all}");
        assert!(text.contains(old), "{old}");
        let found = compare(&text.replace(old, new), &set);
        assert!(found.iter().any(|wrong| wrong.contains(wanted)), "{wanted}: {found:?}");
    };
    says("7-3/4\"", "7.76\"", "another figure");
    says("7-3/4\"", "7-3/4", "another dimension");
    says("7-3/4\"", "tall", "no figure");
    says("<=", "<", "never asks < tallest");
    says("tallest", "most", "no limit `most`");
    says("tallest", "most", "`tallest` of rule `height` (<=) stands in no row");
    says("1.2\tclause", "# 1.2\tclause", "`walkline` of rule `height` (=) stands in no row");
    says("\tends\t", "\tnone\t", "rule `ends` stands in no row");
    says("memory", "seen", "none of its rows is");
    says("seen", "memory", "does not say so");
    says("left out\t1.4\tcannot be drawn\n", "", "row 1.4 stands neither");
    says("1.3 1.4", "1.4", "row 1.3 is not in the list");
    says("\t-\t-\t-\t", "\t-\t1\t-\t", "`-` for all three");
}
