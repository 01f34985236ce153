//! The faces: what a report looks like. They read findings and counts, and decide nothing.

mod annotations;
mod checked;
mod checkstyle;
mod clauses;
mod code_quality;
mod comparison;
mod compliance;
mod derivation;
mod explanation;
mod face;
mod faces;
mod figures;
mod fingerprint;
mod full;
mod json;
mod junit;
mod look;
mod markdown;
mod mend;
mod page;
mod positions;
mod reference;
mod rule;
mod sarif;
mod schemas;
mod set;
mod short;
mod summary;
mod tallied;
mod terminal;
mod totals;
mod window;
mod wire;
mod words;
mod xml;

use std::collections::{BTreeMap, BTreeSet};

pub use checked::{Checked, Verdict};
pub use clauses::Clauses;
pub use comparison::comparison;
pub use derivation::{derivation, derivation_page, headline};
pub use explanation::{chain as limit_history, explanation};
pub use face::{Face, Run};
pub use faces::FACES;
pub use look::Look;
use look::Paint;
pub use markdown::prose;
pub use mend::{mended, patch};
pub use page::{Cell, Page, Table};
pub use positions::reference_to;
pub use reference::{kind, reference};
pub use rule::rule;
pub use schemas::SCHEMAS;
pub use set::{proof_counts, set};
pub use tallied::{Gist, Tallied, Wanted};
pub use totals::{Totals, closing};
pub use words::{columns, count, listed, sentence, visible, wrap};

use crate::check::{Group, NeedsOfOne, NotChecked, Report};
use crate::derive::Need;
use crate::wording::{self, Message, ToMessage, need};

/// Findings of one file beyond this number are only counted.
const MOST_FINDINGS: usize = 200;

/// One finding, or one diagnostic of the readers, in full.
pub fn finding<T: ToMessage + ?Sized>(found: &T, look: &Look) -> String {
    message(&wording::message(found), look)
}

/// One message in full.
pub fn message(message: &Message, look: &Look) -> String {
    terminal::draw(message, look)
}

/// All that a check has to say about one file: its findings by their causes, counts, and what was not checked. What it
/// shares with other files of a run is said once, in [`closing`].
pub fn report(report: &Report, look: &Look) -> String {
    let mut out = String::new();
    // What is waived is told on a line at the end, and what is known is counted.
    let told = |group: &Group| {
        let found = report.findings.get(group.findings.clone()).unwrap_or_default();
        found.iter().filter(|found| !found.is_excused()).count()
    };
    let (mut shown, all) = (0, report.groups.iter().map(told).sum::<usize>());
    for group in &report.groups {
        if shown >= MOST_FINDINGS {
            break;
        }
        shown += told(group);
        let Some(found) = wording::grouped(report, group) else { continue };
        out.push_str(&message(&found, look));
        out.push('\n');
    }
    let more = all.saturating_sub(shown);
    if more > 0 {
        out.push_str(&look.hang(&format!("{} in {} not shown.", count(more, "more finding"), report.source.name), 0));
        out.push('\n');
    }
    out.push_str(&summary(report, look));
    out.push_str(&not_checked(report, look));
    for line in wording::waived(report).iter().chain(&wording::excused(report)).chain(&wording::redefined(report)) {
        out.push_str(&look.hang(line, 2));
    }
    for set in report.sets.iter().filter(|set| !set.only.is_empty()) {
        out.push_str(&look.hang(&format!("checked against {}{}", set.title, wording::only_of(set)), 2));
    }
    out
}

/// The file's name and its counts, on one line.
fn summary(report: &Report, look: &Look) -> String {
    let totals = Totals::of(report);
    let name = visible(&report.source.name, look.unicode);
    let paint = if totals.is_bad() { Paint::Bad } else { Paint::Good };
    let lines = wrap(&totals.words(), look.width.saturating_sub(columns(&name) + 2).max(40), &[]);
    let painted: Vec<String> = lines.iter().map(|line| look.paint(paint, line)).collect();
    format!("{}: {}\n", look.paint(Paint::Strong, &name), painted.join("\n  "))
}

/// Rules that could not be settled: one line, or all of them if asked for.
fn not_checked(report: &Report, look: &Look) -> String {
    let items = || report.not_checked.iter().filter(|item| item.waived.is_none());
    let Some(all) = settles(&Waiting::of(items()), report.tally.not_checked) else { return String::new() };
    if !look.list_not_checked {
        return look.hang(&all, 2);
    }
    let mut out = look.hang("not checked, by what settles it:", 2);
    let mut waiting: Vec<Unsettled<'_>> = Vec::new();
    let (mut known, mut said, mut named) = (BTreeMap::new(), BTreeSet::new(), BTreeSet::new());
    for item in items() {
        let verb = if item.shall { "" } else { " (advice)" };
        let told = item.needs.reason.is_of_one_element() && item.needs.of == item.about;
        let about = if told || item.about.is_empty() { String::new() } else { format!(" of {}", item.about) };
        let (rule, line) = (format!("{}{about}{verb}", item.rule), report.source.line(item.span.start));
        let at = *known.entry((need(&item.needs), &*item.set)).or_insert(waiting.len());
        if at == waiting.len() {
            waiting.push(Unsettled { needs: need(&item.needs), set: &item.set, rules: Vec::new(), lines: Vec::new() });
        }
        let Some(one) = waiting.get_mut(at) else { continue };
        if said.insert((at, rule.clone())) {
            one.rules.push(rule);
        }
        if named.insert((at, line)) {
            one.lines.push(line);
        }
    }
    for Unsettled { needs, set, rules, lines } in waiting {
        let lines = lines.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        let place = format!("{}:{lines}", report.source.name);
        out.push_str(&look.hang(&format!("{needs}: {}; {set}, {place}", rules.join(", ")), 4));
    }
    out
}

/// The rules of a set that one need keeps from being settled, and the lines of what they wait for.
struct Unsettled<'a> {
    needs: String,
    set: &'a str,
    rules: Vec<String>,
    lines: Vec<usize>,
}

/// A line beneath the counts of a file.
pub fn beneath(text: &str, look: &Look) -> String {
    look.hang(text, 2)
}

/// A line of a whole run.
pub fn line(text: &str, look: &Look) -> String {
    look.hang(text, 0)
}

/// What is required and could not be settled, which fails a run where that is asked for, and advice too where that
/// does: each rule, with what it needs.
pub fn open(report: &Report, advice_fails: bool, look: &Look) -> String {
    let mut rules: Vec<(Rule<'_>, Vec<String>)> = Vec::new();
    let items = || report.not_checked.iter().filter(|item| !item.is_excused());
    for item in items().filter(|item| item.shall || advice_fails) {
        let (rule, needs) = ((item.set.as_str(), item.rule.as_str()), need(&item.needs));
        match rules.iter_mut().find(|(known, _)| *known == rule) {
            Some((_, known)) if known.contains(&needs) => {}
            Some((_, known)) => known.push(needs),
            None => rules.push((rule, vec![needs])),
        }
    }
    if rules.is_empty() {
        return String::new();
    }
    let advice: BTreeSet<Rule<'_>> =
        items().filter(|item| !item.shall && !advice_fails).map(|item| (&*item.set, &*item.rule)).collect();
    let mut out = look.hang(&wording::gate::open(rules.len(), advice.len(), advice_fails), 2);
    for ((set, rule), needs) in rules {
        let more = needs.len().saturating_sub(MOST_NEEDS);
        let shown = needs.iter().take(MOST_NEEDS).cloned().collect::<Vec<_>>().join("; ");
        let more = if more > 0 { format!("; and {more} more") } else { String::new() };
        out.push_str(&look.hang(&format!("{rule}, {set}: needs {shown}{more}"), 4));
    }
    out
}

/// How many needs of one rule are told before the rest are counted.
const MOST_NEEDS: usize = 3;

/// A rule by the title of its set and its name.
type Rule<'a> = (&'a str, &'a str);

/// What the rules wait for: each need once, and for each rule which of them it waits for.
struct Waiting<'a> {
    needs: Vec<&'a Need>,
    rules: BTreeMap<Rule<'a>, BTreeSet<usize>>,
}

impl<'a> Waiting<'a> {
    fn of(items: impl Iterator<Item = &'a NotChecked>) -> Self {
        let mut waiting = Self { needs: Vec::new(), rules: BTreeMap::new() };
        let mut places = NeedsOfOne::default();
        for item in items {
            let known = places.settled_with(&item.needs, |at| waiting.needs.get(at).copied());
            let at = known.unwrap_or_else(|| {
                places.add(&item.needs, waiting.needs.len());
                waiting.needs.push(&item.needs);
                waiting.needs.len() - 1
            });
            waiting.rules.entry((&item.set, &item.rule)).or_default().insert(at);
        }
        waiting
    }

    /// The three needs that settle most rules, in the order of their words, and how many rules they settle together.
    fn first(&self) -> (Vec<String>, usize) {
        let mut waits = vec![0; self.needs.len()];
        for at in self.rules.values().flatten() {
            if let Some(waits) = waits.get_mut(*at) {
                *waits += 1;
            }
        }
        let mut needs: Vec<(usize, usize, String)> =
            self.needs.iter().zip(waits).enumerate().map(|(at, (needs, waits))| (at, waits, need(needs))).collect();
        needs.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.2.cmp(&b.2)));
        needs.truncate(3);
        let stated: BTreeSet<usize> = needs.iter().map(|(at, ..)| *at).collect();
        let settled = self.rules.values().filter(|needs| needs.is_subset(&stated)).count();
        let mut words: Vec<String> = needs.into_iter().map(|(.., words)| words).collect();
        words.sort();
        (words, settled)
    }
}

/// `5 rules not checked; stating ... would settle 4 of them`: at most three properties, those that settle most. A rule
/// that is broken for one thing and waits for another counts as broken; it waits in part.
fn settles(waiting: &Waiting<'_>, not_checked: usize) -> Option<String> {
    let rules = waiting.rules.len();
    if rules == 0 {
        return None;
    }
    let (names, settled) = waiting.first();
    let head = match rules.saturating_sub(not_checked) {
        0 => format!("{} not checked", count(rules, "rule")),
        partly if not_checked == 0 => format!("{} not checked in part", count(partly, "broken rule")),
        partly => format!("{} not checked, and {partly} that are broken in part", count(not_checked, "rule")),
    };
    let rest = match settled {
        0 => format!("; the first things to state are {}", listed(&names)),
        all if all == rules => {
            format!("; stating {} would settle {}", listed(&names), if all == 1 { "it" } else { "them" })
        }
        some => format!("; stating {} would settle {some} of them", listed(&names)),
    };
    Some(format!("{head}{rest} (--unsettled lists them)"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::{Diagnostic, Source, Span};
    use crate::check::{Cause, Group, Problem, SetLine, Tally};
    use crate::check::{Excused, FromShop};
    use crate::derive::{Reason, Statement};
    use crate::model::kinds;
    use crate::model::problem::ValueProblem;
    use crate::model::{PropertyName, properties};
    use crate::rules::{Below, Departures};

    const LOOK: Look = Look { colour: false, unicode: true, width: 100, list_not_checked: false };

    fn needing(rule: &str, property: PropertyName) -> NotChecked {
        NotChecked {
            set: "Residential stairs".into(),
            rule: rule.into(),
            shall: true,
            about: "handrail left".into(),
            needs: Need {
                of: "handrail left".into(),
                name: None,
                classes: None,
                reason: Reason::NotStated(Statement::Property(property)),
            },
            span: Span::new(8, 9),
            waived: None,
            known: false,
        }
    }

    fn sample(findings: usize) -> Report {
        let source = Source::new("jetty.stair", "stair {\nwidth: 36\n}\n");
        let property = kinds::FLIGHT.property("width").unwrap();
        let problem = crate::model::Problem::Value { property, slip: ValueProblem::LengthWithoutUnit };
        let finding = crate::check::Finding::from(Diagnostic::new(&source, Span::new(15, 17), Problem::Model(problem)));
        Report {
            source,
            findings: vec![finding; findings],
            groups: (0..findings).map(|at| Group { findings: at..at + 1, cause: Cause::Own }).collect(),
            not_checked: vec![
                needing("rail height", properties::HEIGHT),
                needing("rail reach", properties::HEIGHT),
                needing("rail grip", properties::SECTION),
            ],
            tally: Tally { passed: 3, broken: 1, advised: 0, not_applicable: 2, not_checked: 3, waived: 0, known: 0 },
            standings: Vec::new(),
            customs: vec!["a nut takes 2 diameters".into()],
            unasked: Vec::new(),
            usual_left_out: Vec::new(),
            excused: vec![Excused {
                property: properties::CONTINUES,
                of: "handrail left".into(),
                span: Span::new(8, 13),
                rules: vec!["top extension".into(), "handrail ends".into()],
            }],
            untried: 0,
            sets: vec![SetLine {
                title: "Residential stairs".into(),
                edition: "2021".into(),
                basis: String::new(),
                caution: "A pass is no permit.".into(),
                file: None,
                amends: vec![(
                    Below { title: "Coast stairs".into(), edition: "2019".into(), text: None, amended: true },
                    Some("coast.rules".into()),
                )],
                only: Vec::new(),
                departs: Departures { looser: vec!["headroom".into()], ..Departures::default() },
            }],
            from_memory: 1,
            second_hand: 0,
            shops: vec![(
                "shop.pitchboard".into(),
                vec![FromShop::Rules(vec!["residential".into()]), FromShop::Property(properties::LONGEST_BIT)],
            )],
        }
    }

    #[test]
    fn a_report_ends_with_counts_what_is_missing_customs_and_sets() {
        let sample = sample(1);
        let text = format!("{}{}", report(&sample, &LOOK), closing(&Totals::of(&sample), &LOOK));
        let tail: Vec<&str> = text.lines().skip_while(|line| !line.starts_with("jetty.stair:")).collect();
        assert_eq!(
            tail[..11].join("\n"),
            "jetty.stair: 1 rule broken, 3 passed, 2 not applicable, 3 not checked, 1 statement not understood\n\
             \x20 3 rules not checked; stating `height` of handrail left and `section` of handrail left would\n\
             \x20   settle them (--unsettled lists them)\n\
             \x20 taken at its word: `continues: width` of handrail left, which takes out top extension and\n\
             \x20   handrail ends\n\
             assumed: a nut takes 2 diameters\n\
             checked against Residential stairs, edition: 2021, which amends Coast stairs (coast.rules),\n\
             \x20 edition: 2019\n\
             Residential stairs departs from what it amends: 1 rule lets more pass (headroom)\n\
             from shop.pitchboard: rules residential, longest bit\n\
             1 outcome rests on figures from memory: look them up before you rely on it"
        );
    }

    #[test]
    fn unsettled_rules_are_listed_when_asked_for() {
        let text = report(&sample(0), &Look { list_not_checked: true, ..LOOK });
        let height = "`height` of handrail left: rail height, rail reach; Residential stairs, jetty.stair:2\n";
        let section = "`section` of handrail left: rail grip; Residential stairs, jetty.stair:2\n";
        assert!(text.contains(height) && text.contains(section), "{text}");
        assert_eq!(text.matches("of handrail left: ").count(), 2, "a need stands once, whatever waits for it");
    }

    #[test]
    fn most_of_a_flood_is_only_counted() {
        let text = report(&sample(450), &LOOK);
        assert_eq!(text.matches("not understood: missing unit").count(), MOST_FINDINGS);
        assert!(text.contains("250 more findings in jetty.stair not shown."));
        assert!(text.contains("450 statements not understood"));
    }

    #[test]
    fn the_closing_counts_every_file_and_says_who_decides() {
        let mut totals = Totals::default();
        totals.add(&sample(1));
        totals.add(&sample(0));
        totals.add_refused();
        let text = closing(&totals, &LOOK);
        assert_eq!(text.matches("A pass is no permit.").count(), 1);
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let counts = "3 files: 2 rules broken, 6 passed, 4 not applicable, 6 not checked, 1 statement not understood, 1 file could not be checked in full";
        assert!(words.starts_with(counts), "{text}");
        assert!(
            words.contains("is no permit and no approval: local codes and the authority that has jurisdiction decide"),
            "{text}"
        );
        assert!(text.contains(env!("CARGO_PKG_VERSION")));
    }
}
