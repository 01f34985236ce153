//! The face for who inspects a design: each clause of each set with its outcome, value, limit, margin and source, as
//! Markdown.

use super::checked::{Checked, Excuse};
use super::face::{Face, ROW, Run};
use super::figures::Figures;
use super::fingerprint::digest;
use super::page::{Cell, Page, Table};
use super::totals::caution;
use super::words::{count, sentence};
use crate::check::{Analysis, LoadedSet, RuleOutcome, Settled, Standing, View};
use crate::rules::{Rule, clause_text};
use crate::wording::{self, need, sure};

/// `compliance`.
pub(super) const FACE: Face = Face {
    name: "compliance",
    about: "Markdown for an inspector: each clause with outcome, value, limit, source",
    ending: "md",
    between: "\n",
    design,
    ends: |_, _| format!("\n{}\n", caution()),
    ..ROW
};

/// Characters of a digest that a person compares.
const SHORT: usize = 16;

fn design(checked: &Checked<'_>, _: &Run) -> String {
    let mut page = Page::default();
    page.heading(1, format!("Compliance of {}", checked.name.words()));
    let Ok(analysis) = checked.came else {
        checked.entries().iter().for_each(|entry| page.words(entry.message.message.clone()));
        return page.markdown(0);
    };
    for entry in checked.entries().iter().filter(|entry| entry.finding.is_none()) {
        let message = &entry.message;
        page.line(format!("{}: {}: {}", entry.severity().word(), message.name, checked.words(&message.message)));
    }
    for (at, stair) in analysis.stairs.iter().enumerate() {
        for view in [View::Drawn, View::Measured] {
            let of_view: Vec<&RuleOutcome> =
                checked.outcomes().iter().filter(|of| of.stair == at && of.view == view).collect();
            if of_view.is_empty() {
                continue;
            }
            let measured = if view == View::Measured { ", as measured" } else { "" };
            page.heading(2, format!("{}{measured}", stair.title));
            for loaded in analysis.stair_sets.get(at).into_iter().flatten() {
                of_set(&mut page, (checked, analysis), loaded, &of_view);
            }
        }
    }
    for custom in &analysis.report.customs {
        page.line(format!("assumed: {custom}"));
    }
    wording::unasked(&analysis.report.unasked).into_iter().for_each(|line| page.line(line));
    wording::usual_left_out(&analysis.report.usual_left_out).into_iter().for_each(|line| page.line(line));
    wording::waived(&analysis.report).into_iter().for_each(|line| page.line(line));
    wording::excused(&analysis.report).into_iter().for_each(|line| page.line(line));
    page.markdown(0)
}

fn of_set(
    page: &mut Page,
    (checked, analysis): (&Checked<'_>, &Analysis),
    loaded: &LoadedSet,
    outcomes: &[&RuleOutcome],
) {
    let set = &loaded.set;
    let own: Vec<&RuleOutcome> =
        outcomes.iter().copied().filter(|outcome| std::ptr::eq(outcome.rule.set(), set)).collect();
    if own.is_empty() {
        return;
    }
    page.heading(3, set.title.clone());
    let edition = |edition: &str| if edition.is_empty() { String::new() } else { format!(", edition: {edition}") };
    let mut about = format!("Checked against {}{}", set.title, edition(&set.edition));
    for below in &set.takes_in {
        about += &format!(", which {} {}{}", wording::takes_in(below), below.title, edition(&below.edition));
    }
    let digests = set.texts().map(|text| digest(&text.text).chars().take(SHORT).collect::<String>());
    page.words(format!("{about}. SHA-256 of the text: {}.", digests.collect::<Vec<_>>().join(", ")));
    page.words(set.caution.clone());
    let mut table = Table::new(&["source", "rule", "outcome", "value", "limit", "margin", "of"]);
    let mut without = 0;
    for rule in &set.rules {
        let of_rule: Vec<&RuleOutcome> =
            own.iter().copied().filter(|outcome| std::ptr::eq(outcome.rule.rule(), &**rule)).collect();
        match row(analysis, rule, &of_rule, checked.verdict.waits_fail(rule.shall)) {
            Some(row) => table.row(row),
            None => without += 1,
        }
    }
    page.table(table);
    if without > 0 {
        page.words(format!("{} of this set had nothing of this stair to apply to.", count(without, "further rule")));
    }
}

/// How an outcome stands.
fn standing(outcome: &RuleOutcome) -> Standing {
    match outcome.verdict {
        _ if outcome.waived.is_some() => Standing::Waived,
        Settled::Fail(_) if outcome.known => Standing::Known,
        _ => unexcused(outcome),
    }
}

/// The same, as if nothing excused it.
fn unexcused(outcome: &RuleOutcome) -> Standing {
    match outcome.verdict {
        Settled::Fail(_) if outcome.rule.rule().shall => Standing::Broken,
        Settled::Fail(_) => Standing::Advised,
        Settled::NotChecked(_) => Standing::NotChecked,
        Settled::Pass(_) => Standing::Passes,
        Settled::NotApplicable => Standing::NotApplicable,
    }
}

/// A rule by its worst outcome, and of several alike by the one with the least room; none where it applies to nothing.
fn row(analysis: &Analysis, rule: &Rule, outcomes: &[&RuleOutcome], waits_fail: bool) -> Option<Vec<Cell>> {
    let worst = outcomes.iter().map(|outcome| standing(outcome)).max().filter(|of| *of != Standing::NotApplicable)?;
    let alike: Vec<&RuleOutcome> = outcomes.iter().copied().filter(|outcome| standing(outcome) == worst).collect();
    let applies = outcomes.iter().filter(|outcome| standing(outcome) != Standing::NotApplicable).count();
    let room = |outcome: &RuleOutcome| comparison(outcome).map_or(f64::INFINITY, |of| of.margin.value);
    let shown = alike.iter().copied().min_by(|a, b| room(a).total_cmp(&room(b)))?;
    let figures = comparison(shown).map(Figures::of);
    let mut outcome = unexcused(shown).word().to_owned();
    match Excuse::of_outcome(shown) {
        Some(excuse) => outcome += &format!(" ({})", excuse.words()),
        None if worst == Standing::NotChecked && waits_fail => outcome += " (counts as broken)",
        None => {}
    }
    if alike.len() < applies {
        outcome += &format!(", for {} of {applies}", alike.len());
    }
    let (value, limit, margin) = match (&figures, &shown.verdict) {
        (Some(of), _) => (of.value.text.clone(), format!("{} {}", of.relation, of.limit.text), of.margin.text.clone()),
        (None, Settled::NotChecked(needs)) => (format!("needs {}", need(needs)), String::new(), String::new()),
        (None, Settled::Fail(grounds)) => (String::new(), clause_text(&grounds.term, rule), String::new()),
        (None, _) => Default::default(),
    };
    let more = alike.len().saturating_sub(1);
    let of = if more == 0 { shown.path.clone() } else { format!("{} and {more} more", shown.path) };
    let stair = analysis.stairs.get(shown.stair).map_or("", |stair| &stair.title);
    let of = if shown.path == "stair" { sentence(stair, true) } else { of };
    let source = if rule.cites.is_empty() { "no source stated" } else { &rule.cites };
    let source = format!("{source}{}", sure::after_a_source(&rule.sure));
    Some([source, rule.name.clone(), outcome, value, limit, margin, of].into_iter().map(Cell::words).collect())
}

fn comparison(outcome: &RuleOutcome) -> Option<&crate::check::Comparison> {
    match &outcome.verdict {
        Settled::Pass(grounds) | Settled::Fail(grounds) => grounds.comparison.as_ref(),
        Settled::NotApplicable | Settled::NotChecked(_) => None,
    }
}
