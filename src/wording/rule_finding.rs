//! A rule that is not met: who, what is asked, what the design has, by how much it misses, and where.

use super::finding_words::{asked, join, miss, who};
use super::{Beside, Label, Message, ToMessage, clause_shown, fix, phrase, said};
use crate::check::{HowMany, Place, Role, RuleFinding, View};
use crate::measure::{Measure, print, print_distinct};
use crate::model::{Design, Side, kinds};
use crate::rules::{Collected, Compared, Decision, Node, Printed, Relation, Rule, Table, clause_text};

impl ToMessage for RuleFinding {
    fn to_message(&self) -> Message {
        let rule = self.rule.rule();
        let view = if self.view == View::Measured { "as measured, " } else { "" };
        Message {
            severity: self.severity(),
            name: rule.name.clone(),
            message: format!("{view}{}", whole(self)),
            source: self.source.clone(),
            labels: self.places.iter().map(|place| label(&self.design, place)).collect(),
            help: self.fix.as_ref().map(|offered| fix::help(offered, rule)),
            also: Vec::new(),
            beside: beside(self),
            clause: Some(clause_shown::clause(self.rule.set(), rule)),
            waived: self.waived.clone(),
        }
    }
}

/// The words of the shop's file that it rests on.
fn beside(finding: &RuleFinding) -> Option<Beside> {
    let source = finding.design.shop.as_ref().filter(|_| !finding.shop_places.is_empty())?;
    let labels = finding.shop_places.iter().map(|place| shop_label(&finding.design, place)).collect();
    Some(Beside { source: source.clone(), labels })
}

fn shop_label(design: &Design, place: &Place) -> Label {
    let text = match &place.role {
        Role::Stated { property, element, .. } if design.is(*element, kinds::TIMBER) => {
            format!("{property} of the timber")
        }
        Role::Stated { property, .. } => format!("{property} of the shop"),
        _ => "the section that is stocked".to_owned(),
    };
    Label { span: place.span, text }
}

fn label(design: &Design, place: &Place) -> Label {
    let text = match &place.role {
        Role::Stated { property, element, view } => {
            let of = design.get(*element).and_then(|element| element.base).unwrap_or(*element);
            let of = if of == 0 { "the stair".to_owned() } else { design.called(of) };
            let as_measured = if *view == View::Measured { ", as measured" } else { "" };
            format!("{property} of {of}{as_measured}")
        }
        Role::Drawn(element) => design.called(*element),
        Role::Lacks { element, kind, drawn, sides, short } => {
            let called = design.called(*element);
            match drawn {
                _ if *kind == kinds::GUARD && sides.is_empty() && !short.is_empty() => {
                    format!("{called}, whose guard or wall {} is too short", at(short))
                }
                _ if *kind == kinds::GUARD && !short.is_empty() => {
                    format!("{called}, with no guard {}, and too short a guard or wall {}", at(sides), at(short))
                }
                _ if *kind == kinds::GUARD => format!("{called}, with no guard {}", at(sides)),
                HowMany::TooFew => format!("{called}, with too few {} drawn", kind.plural),
                HowMany::None => format!("{called}, with no {} drawn", kind.name),
            }
        }
        Role::DoesNotCount(element) => format!("{} does not count as one", design.called(*element)),
        Role::StockedSection => "the section that is stocked".to_owned(),
    };
    Label { span: place.span, text }
}

fn at(sides: &[Side]) -> String {
    let sides: Vec<&str> = sides.iter().map(|side| side.word()).collect();
    if sides.is_empty() { "drawn".to_owned() } else { sides.join(" or ") }
}

/// Who misses, and what: a sentence of the rule's own may name the thing itself.
fn whole(finding: &RuleFinding) -> String {
    let what = what(finding);
    let names_it = finding.said.first().is_some_and(|said| said.as_ref().is_some_and(said::names_its_thing));
    if names_it { what.trim_start_matches(": ").to_owned() } else { format!("{}{what}", who(finding)) }
}

/// What it has and what it shall have, after who it is; what else of the same requirement it misses behind that.
fn what(finding: &RuleFinding) -> String {
    let decisions = std::iter::once(&finding.decision).chain(&finding.decision.also);
    let said = finding.said.iter().map(Option::as_ref).chain(std::iter::repeat(None));
    let mut told = String::new();
    for (at, (decision, said)) in decisions.zip(said).enumerate() {
        let sentence = said.and_then(|said| said::sentence(finding, decision, said));
        let sentence = sentence.unwrap_or_else(|| from_its_clause(finding, decision));
        match at {
            0 => told = sentence,
            _ => {
                told += "; also";
                told += sentence.strip_prefix(':').unwrap_or(&sentence);
            }
        }
    }
    told
}

fn from_its_clause(finding: &RuleFinding, decision: &Decision) -> String {
    let rule = finding.rule.rule();
    let beside = format!("{}{}", which_row(decision, rule), which_figure(decision));
    let beside = beside.as_str();
    let verb = if rule.shall { "shall" } else { "should" };
    match &decision.compared {
        Compared::Numbers(value, relation, limit) => {
            let value = value.styled(value.style.for_dimension(value.dimension));
            match counted(&decision.subject, value, rule) {
                Some(counted) => {
                    let (_, be) = print_distinct(value, *limit, value.style);
                    let has = if is_several(finding) { "have" } else { "has" };
                    format!(" {has} {counted}, {verb} have {}", asked(*relation, *limit, &be))
                }
                None => {
                    format!(
                        ": {}",
                        compared(&clause_text(&decision.subject, rule), value, *relation, *limit, (verb, beside))
                    )
                }
            }
        }
        Compared::Words(word, not, words) => {
            let subject = clause_text(&decision.subject, rule);
            let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
            let not = if *not { "not " } else { "" };
            format!(": {subject} is \"{word}\", {verb} {not}be {}", words.join(" or "))
        }
        Compared::Denied => format!(": {verb} have {}", clause_text(&decision.subject, rule)),
    }
}

/// Whether a finding speaks of more than one thing, or of what goes by a plural.
fn is_several(finding: &RuleFinding) -> bool {
    let many = |kind| phrase::is_many(kind);
    finding.elements.len() > 1 || finding.design.kind(finding.element).is_some_and(many)
}

/// A count is said as one counts: `no handrail`, `1 handrail that runs from the first riser to the last`.
fn counted(subject: &Node, number: Measure, rule: &Rule) -> Option<String> {
    let mut things = Vec::new();
    things_counted(subject, &mut things)?;
    let none = number.value == 0.0;
    let said = things.iter().map(|things| {
        let noun = if none || number.value == 1.0 { things.kind.name } else { things.kind.plural };
        match &things.condition {
            Some(condition) => format!("{noun} where {}", clause_text(condition, rule)),
            None => noun.to_owned(),
        }
    });
    let said: Vec<String> = said.collect();
    Some(if none {
        format!("no {}", said.join(" and no "))
    } else {
        format!("{} {}", print(number), said.join(" or "))
    })
}

/// What a count, or a sum of counts, counts.
fn things_counted<'n>(subject: &'n Node, things: &mut Vec<&'n Collected>) -> Option<()> {
    match subject {
        Node::Count(collected) => things.push(collected),
        Node::Sum(a, false, b) => {
            things_counted(a, things)?;
            things_counted(b, things)?;
        }
        _ => return None,
    }
    Some(())
}

/// `height is 8", shall be at most 7-3/4": 1/4" too much`.
fn compared(subject: &str, value: Measure, relation: Relation, limit: Measure, (verb, beside): (&str, &str)) -> String {
    let (is, be) = print_distinct(value, limit, value.style);
    let asked = join(phrase::relation_words(relation), &be);
    format!("{subject} is {is}, {verb} be {asked}{beside}: {}", miss(value, relation, limit))
}

/// The row of a table that the value was held to, by what it goes.
fn which_row(decision: &Decision, rule: &Rule) -> String {
    let Some(limit) = decision.row.and_then(|at| rule.limits.get(at)) else { return String::new() };
    let has = |table: &&Table| table.rows.iter().any(|row| row.limit == limit.name);
    let Some(table) = rule.tables.iter().find(has) else { return String::new() };
    let row = limit.name.strip_prefix(table.name.as_str()).unwrap_or_default().trim_start();
    format!(" ({row}, by {})", table.by_words)
}

/// Which of a limit's two figures the value was held to, where that is not what one would think.
fn which_figure(decision: &Decision) -> &'static str {
    let Compared::Numbers(value, ..) = &decision.compared else { return "" };
    match decision.printed {
        Some(Printed::Metric) => " (the metric figure)",
        Some(Printed::First) if value.style.is_metric() => " (the figure in inches: not all is written in metric)",
        _ => "",
    }
}

/// How much room is left to the limit of a rule.
#[cfg(feature = "cli")]
pub fn room_left(margin: Measure, rule: &str) -> String {
    format!("{} within {rule}", print(margin))
}
