//! A fact taken away is never a check taken away: for every rule of the shipped sets and every statement of its passing
//! examples that its answer rests on, the rule is broken or not checked once the statement is gone; unless what remains
//! decides without it, or a default of the closed list stands in. What is excused is in `excused.tsv`, by rule and
//! property, each with its reason; a row that excuses nothing fails too.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use pitchboard::base::{Source, Span};
use pitchboard::check::BUILT_IN;
use pitchboard::derive::Evaluation;
use pitchboard::model;
use pitchboard::rules::{Rule, Verdict, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax::{self, FragmentKind, Item};

const EXCUSED: &str = "tests/suite/excused.tsv";

/// The statements of some items, within blocks too: the property and where its statement stands.
fn statements(items: &[Item], found: &mut Vec<(String, Span)>) {
    for item in items {
        match item {
            Item::Property { name, name_span, value_span, .. } => {
                found.push((name.to_string(), name_span.to(*value_span)))
            }
            Item::Block { body, .. } => statements(body, found),
            _ => {}
        }
    }
}

/// How a rule stands for a text: whether it fails somewhere, is not checked somewhere, passes somewhere; and the places
/// of the statements that its answer rests on.
struct Answer {
    open: bool,
    failed: bool,
    passed: bool,
    rests_on: Vec<Span>,
    assumed: usize,
}

fn answer(rule: &Rule, text: &str) -> Option<Answer> {
    let source = Source::new("example", text);
    let (tree, slips) = syntax::parse_design(&source);
    let mut found = Vec::new();
    let stair = model::build_fragment(&tree, &source, &mut found)?;
    if !slips.is_empty() {
        return None;
    }
    let evaluation = Evaluation::traced(&stair.drawn);
    let (outcomes, reads) =
        evaluation.trace(|| verdicts(rule, &evaluation).map(|(_, verdict)| verdict).collect::<Vec<_>>());
    let rests_on = evaluation.stated_behind(&reads.reads).into_iter().map(|stated| stated.span).collect();
    Some(Answer {
        open: outcomes.iter().any(|verdict| matches!(verdict, Verdict::NotChecked(_))),
        failed: outcomes.contains(&Verdict::Fail),
        passed: outcomes.contains(&Verdict::Pass),
        rests_on,
        assumed: reads.behind.customs().count(),
    })
}

/// Rule and property for which a statement can go and the rule goes on to pass, or to be silent.
fn silent() -> (BTreeMap<(String, String), String>, usize) {
    let (mut silent, mut tried) = (BTreeMap::new(), 0);
    for (name, text) in BUILT_IN {
        let set = Session::default().read_set(&Source::new(*name, *text)).set;
        for rule in &set.rules {
            for (source, fragment) in
                rule.fragments.iter().filter(|(_, fragment)| fragment.kind == FragmentKind::Passes)
            {
                let text = source.slice(fragment.span);
                let Some(before) = answer(rule, text).filter(|before| before.passed) else { continue };
                let (tree, _) = syntax::parse_design(&Source::new("example", text));
                let mut found = Vec::new();
                statements(&tree.items, &mut found);
                let within = |span: &Span, read: &Span| span.start <= read.start && read.end <= span.end;
                for (property, span) in found {
                    if !before.rests_on.iter().any(|read| within(&span, read)) {
                        continue;
                    }
                    tried += 1;
                    let (start, end) = (span.start as usize, span.end as usize);
                    let less = format!("{}{}", &text[..start], &text[end..]);
                    let Some(after) = answer(rule, &less) else { continue };
                    if !after.failed && !after.open && after.assumed <= before.assumed {
                        let how = if after.passed { "passes" } else { "silent" };
                        silent.insert((format!("{name}: {}", rule.name), property), format!("{how}: {less}"));
                    }
                }
            }
        }
    }
    (silent, tried)
}

#[test]
fn a_statement_taken_away_leaves_no_silence() {
    let (silent, tried) = silent();
    let text = fs::read_to_string(EXCUSED).expect("the table of excuses");
    let rows = text.lines().filter(|line| !line.starts_with('#')).map(|line| {
        let cells: Vec<&str> = line.split('\t').collect();
        let [rule, property, reason] = cells.as_slice() else { panic!("three cells: {line}") };
        assert!(!reason.trim().is_empty(), "a reason: {line}");
        ((*rule).to_owned(), (*property).to_owned())
    });
    let excused: BTreeSet<(String, String)> = rows.collect();
    let unexcused: Vec<_> = silent.iter().filter(|(key, _)| !excused.contains(*key)).collect();
    let shown =
        unexcused.iter().map(|((rule, property), how)| format!("{rule}\t{property}\t{how}")).collect::<Vec<_>>();
    assert!(unexcused.is_empty(), "{} of {tried} statements can go in silence:\n{}", unexcused.len(), shown.join("\n"));
    let idle: Vec<_> = excused.iter().filter(|key| !silent.contains_key(*key)).collect();
    assert!(idle.is_empty(), "rows that excuse nothing: {idle:?}");
    assert!(tried > 500, "{tried} statements taken away");
}
