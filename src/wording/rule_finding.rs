//! A rule that is not met: who, what is asked, what the design has, by how much it misses, and where.

use super::told::told;
use super::{Beside, Label, Message, ToMessage, clause_shown, fix, phrase};
use crate::check::{HowMany, Place, Role, RuleFinding, View};
use crate::measure::{Measure, equal, print, print_distinct};
use crate::model::{Design, Id, Side, kinds};
use crate::rules::{Collected, Compared, Decision, Node, Printed, Relation, Rule, clause_text};

impl ToMessage for RuleFinding {
    fn to_message(&self) -> Message {
        let rule = self.rule.rule();
        let view = if self.view == View::Measured { "as measured, " } else { "" };
        Message {
            severity: self.severity(),
            name: rule.name.clone(),
            message: format!("{view}{}{}", who(self), what(self)),
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
        Role::Lacks { element, kind, drawn, sides } => {
            let called = design.called(*element);
            match drawn {
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

/// `risers 2 to 4`, `handrail left and handrail right`.
fn who(finding: &RuleFinding) -> String {
    let design = &finding.design;
    let called = design.called(finding.element);
    let more = || format!("{called} and {} more", finding.elements.len() - 1);
    let step = |id: &Id| design.get(*id).and_then(|element| element.step);
    let steps: Vec<usize> = finding.elements.iter().filter_map(step).collect();
    if let ([first, .., last], Some(element)) = (steps.as_slice(), design.get(finding.element)) {
        let parent = |id: &Id| design.get(*id).and_then(|step| step.parent);
        let parents: Vec<Option<Id>> = finding.elements.iter().map(parent).collect();
        if parents.windows(2).any(|pair| matches!(pair, [a, b] if a != b)) {
            return more();
        }
        let climbs = steps.windows(2).all(|pair| matches!(pair, [a, b] if a + 1 == *b));
        let listed = match (steps.len(), climbs) {
            (2, _) => format!("{} and {}", first + 1, last + 1),
            (_, true) => format!("{} to {}", first + 1, last + 1),
            _ => steps.iter().map(|step| (step + 1).to_string()).collect::<Vec<_>>().join(", "),
        };
        let steps = format!("{} {listed}", element.kind.plural);
        let flights = design.of_kind(kinds::FLIGHT).len() > 1;
        return if flights { format!("{steps} of {}", design.called(element.parent.unwrap_or(0))) } else { steps };
    }
    match finding.elements.as_slice() {
        [first, second] => format!("{} and {}", design.called(*first), design.called(*second)),
        [_, _, _, ..] => more(),
        _ => called,
    }
}

/// What it has and what it shall have, after who it is.
fn what(finding: &RuleFinding) -> String {
    told(finding).unwrap_or_else(|| from_its_clause(finding))
}

fn from_its_clause(finding: &RuleFinding) -> String {
    let (rule, decision) = (finding.rule.rule(), &finding.decision);
    let beside = which_figure(decision);
    let verb = if rule.shall { "shall" } else { "should" };
    match &decision.compared {
        Compared::Numbers(value, relation, limit) => {
            let value = value.styled(value.style.for_dimension(value.dimension));
            match counted(&decision.subject, value, rule) {
                Some(counted) => {
                    let (_, be) = print_distinct(value, *limit, value.style);
                    let none = limit.value == 0.0 && matches!(relation, Relation::AtMost | Relation::Equal);
                    let asked = if none { "none".to_owned() } else { join(phrase::relation_words(*relation), &be) };
                    format!(" has {counted}, {verb} have {asked}")
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

/// A count is said as one counts: `no handrail`, `1 handrail that runs from the first riser to the last`.
fn counted(subject: &Node, number: Measure, rule: &Rule) -> Option<String> {
    let mut things = Vec::new();
    things_counted(subject, &mut things)?;
    let none = number.value == 0.0;
    let said = things.iter().map(|things| {
        let noun = if none || number.value == 1.0 { things.kind.name } else { things.kind.plural };
        match &things.condition {
            Some(condition) => format!("{noun} {}", narrowed(&clause_text(condition, rule))),
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

/// What narrows a count as a joiner says it, where that is known; else the condition as the rule has it.
fn narrowed(condition: &str) -> String {
    let said = match condition {
        "risers missed = 0" | "risers missed = 0 and place is not middle" => {
            "that runs from the first riser to the last"
        }
        "handrail is yes" => "that serves as one",
        "place is top" => "at the head",
        "place is bottom" => "at the foot",
        "place is between" => "between two flights",
        "place is middle" => "in the middle",
        "direction is across" => "across",
        "direction is not across" => "along",
        other => return format!("where {other}"),
    };
    said.to_owned()
}

/// `height is 8", shall be at most 7-3/4": 1/4" too much`.
fn compared(subject: &str, value: Measure, relation: Relation, limit: Measure, (verb, beside): (&str, &str)) -> String {
    let (is, be) = print_distinct(value, limit, value.style);
    let asked = join(phrase::relation_words(relation), &be);
    format!("{subject} is {is}, {verb} be {asked}{beside}: {}", miss(value, relation, limit))
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

fn join(words: &str, limit: &str) -> String {
    if words.is_empty() { limit.to_owned() } else { format!("{words} {limit}") }
}

fn miss(value: Measure, relation: Relation, limit: Measure) -> String {
    if value.style.is_slope() {
        return match relation {
            Relation::Less | Relation::AtMost => "too steep",
            _ => "not steep enough",
        }
        .to_owned();
    }
    if relation == Relation::Unequal {
        return "just there, where it must not be".to_owned();
    }
    if equal(value.value, limit.value, value.dimension) {
        return "the limit itself does not count".to_owned();
    }
    let gap = Measure { value: (value.value - limit.value).abs(), ..value };
    let side = match (relation, value.value > limit.value) {
        (Relation::Equal, true) | (Relation::Less | Relation::AtMost, _) => "too much",
        (Relation::Equal, false) | (Relation::More | Relation::AtLeast, _) => "too little",
        (Relation::Unequal, _) => "off",
    };
    format!("{} {side}", print(gap))
}

/// How much room is left to the limit of a rule.
#[cfg(feature = "cli")]
pub fn room_left(margin: Measure, rule: &str) -> String {
    format!("{} within {rule}", print(margin))
}
