//! One rule's outcome for one element: the clause, the numbers put in, each term, what decided, and who set the limits.

use super::Look;
use super::derivation::{beside, called, stated, steps_behind, worked_steps};
use super::set::named;
use super::words::{listed, sentence};
use crate::base::Source;
use crate::check::waivers_of;
use crate::derive::{Evaluation, Input};
use crate::model::{Design, Id};
use crate::rules::{Holds, Joined, Limit, Printed, Rule, RuleSet, Term, Verdict, explain};
use crate::wording::{self, needs, sure};

/// What a rule of a set comes to for an element, after the working of each number that it reads.
pub fn explanation(
    evaluation: &Evaluation<'_>,
    source: &Source,
    (set, rule): (&RuleSet, &Rule),
    element: Id,
    look: &Look,
) -> String {
    let told = explain(rule, evaluation, element);
    let steps = steps_behind(evaluation, &told.reads);
    let number = if steps.is_empty() { String::new() } else { format!("{}. ", steps.len() + 1) };
    let mut out = worked_steps(evaluation, source, &steps, true, look);
    let of = called(evaluation, element);
    let outcome = match &told.verdict {
        Verdict::NotChecked(missing) => format!("not checked, needs {}", needs(evaluation.design, missing)),
        verdict => verdict.word(rule.shall).to_owned(),
    };
    let head = format!("{number}{} of {of}: {outcome}", rule.name);
    let mut lines = vec![sentence(&head, look.unicode)];
    let indent = number.len() + 2;
    let mut line = |name: &str, text: &str| lines.extend(beside(name, text, indent, look));
    let edition = if set.edition.is_empty() { String::new() } else { format!(", edition: {}", set.edition) };
    line("set", &format!("{}{edition}", set.title));
    line("clause", &rule.wording());
    line("put in", &told.put_in);
    let verb = if rule.shall { "shall" } else { "should" };
    for (name, term) in [("where", &told.condition), (verb, &told.requirement)] {
        for (at, text) in term.iter().flat_map(|term| terms(evaluation.design, term, 0)).enumerate() {
            let text = text.trim_end();
            let inset = text.len() - text.trim_start().len();
            let name = if at == 0 { name } else { "" };
            // Parts of a term stand further in.
            let shown = beside(&format!("{name:<9}{}", " ".repeat(inset)), text, indent, look);
            lines.extend(shown);
        }
    }
    let mut line = |name: &str, text: &str| lines.extend(beside(name, text, indent, look));
    line("decided", &decided(&told.verdict, told.requirement.as_ref().or(told.condition.as_ref())));
    for limit in &rule.limits {
        for (at, text) in chain(limit).iter().enumerate() {
            line(if at == 0 { "limit" } else { "" }, text);
        }
    }
    for text in amended(rule) {
        line("amended", &text);
    }
    for read in &told.reads {
        match &read.input {
            Input::Stated { span, measured, .. } => line("stated", &stated(evaluation, source, read, *span, *measured)),
            Input::Custom(custom) => custom.custom().into_iter().for_each(|custom| line("custom", custom.sentence)),
            Input::Derived(..) => {}
        }
    }
    let sure = sure::after_a_source(&rule.sure);
    line("source", &format!("{}{sure}", rule.cites));
    if !rule.because.is_empty() {
        line("because", &rule.because);
    }
    if matches!(told.verdict, Verdict::Fail | Verdict::NotChecked(_)) {
        for waiver in waivers_of(evaluation.design, set, rule, element) {
            let place = format!("{}:{}", source.name, source.line(waiver.span.start));
            line("waiver", &format!("{}; {place}; a check says whether it holds", wording::waiver(waiver)));
        }
    }
    out += &(lines.join("\n") + "\n");
    out
}

/// A term and its parts, each part further in.
fn terms(design: &Design, term: &Term, depth: usize) -> Vec<String> {
    let inset = " ".repeat(2 * depth);
    let holds = match &term.holds {
        Holds::Yes => "holds".to_owned(),
        Holds::No => "does not hold".to_owned(),
        Holds::Unknown(missing) => format!("not known, needs {}", needs(design, missing)),
    };
    let said = match term.joined {
        Joined::Single => {
            let put_in = if term.put_in == term.words { String::new() } else { format!(", that is {}", term.put_in) };
            let reckoned = term.reckoned.as_ref().map(|text| format!(", or {text}")).unwrap_or_default();
            let miss = term.miss.as_ref().map(|gap| format!(", by {gap}")).unwrap_or_default();
            let by = match (term.printed, &term.holds) {
                (Some(Printed::Metric), _) => " (the metric figure)",
                (Some(Printed::First), Holds::Yes | Holds::No) => " (the figure that stands first)",
                (Some(Printed::First), Holds::Unknown(_)) | (None, _) => "",
            };
            format!("{inset}{}{put_in}{reckoned}{by}: {holds}{miss}", term.words)
        }
        Joined::All => format!("{inset}all of these: {holds}"),
        Joined::Any => format!("{inset}any of these: {holds}"),
        Joined::Not => format!("{inset}not this: {holds}"),
    };
    std::iter::once(said).chain(term.parts.iter().flat_map(|part| terms(design, part, depth + 1))).collect()
}

/// What settled the outcome, in a sentence.
fn decided(verdict: &Verdict, term: Option<&Term>) -> String {
    let terms: Vec<String> = term.map(Term::deciding).unwrap_or_default().iter().map(|t| t.words.clone()).collect();
    let (is, holds, does) = if terms.len() == 1 { ("is", "holds", "does") } else { ("are", "hold", "do") };
    let said = listed(&terms);
    match verdict {
        Verdict::Pass => format!("{said} {holds}"),
        Verdict::Fail => decided_against(term, &said, does, holds),
        Verdict::NotApplicable => format!("{}, so nothing is asked", decided_against(term, &said, does, holds)),
        Verdict::NotChecked(_) => format!("{said} {is} not known"),
    }
}

/// A term that fails because a part of it holds is under a `not`.
fn decided_against(term: Option<&Term>, said: &str, does: &str, holds: &str) -> String {
    let deciding = term.map(Term::deciding).unwrap_or_default();
    if deciding.iter().all(|term| term.holds == Holds::Yes) {
        return format!("{said} {holds}");
    }
    format!("{said} {does} not hold")
}

/// What was changed of the rule beside its limits, by whom and where; the newest first.
pub(super) fn amended(rule: &Rule) -> Vec<String> {
    let newest = rule.amendments.iter().rev();
    let changes = newest.flat_map(|by| by.changes.iter().map(move |change| (by, change)));
    let said = changes.filter_map(|(by, change)| {
        let what = named(&change.part)?;
        let place = format!("{}:{}", by.source.name, by.source.line(change.span.start));
        let before = if change.before.is_empty() { "none" } else { &change.before };
        let set_by = &change.set_by;
        Some(format!("{what}, set by {} ({place}), in place of {before} of {set_by}", by.set))
    });
    said.collect()
}

/// A limit in force with who set it, and what it replaced, back to the first.
pub fn chain(limit: &Limit) -> Vec<String> {
    let set_by =
        |limit: &Limit| format!("set by {} ({}:{})", limit.set, limit.source.name, limit.source.line(limit.span.start));
    let mut said = vec![format!("{} is {}, {}", limit.name, limit.figures(), set_by(limit))];
    let mut at = limit;
    while let Some(before) = &at.replaced {
        said.push(format!("in place of {}, {}", before.figures(), set_by(before)));
        at = before;
    }
    said
}
