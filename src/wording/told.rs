//! How a finding is said where its clause, with the figures put in, reads badly: by the name of the quantity that
//! decided.

use super::phrase;
use crate::check::{Role, RuleFinding};
use crate::derive::{Datum, Evaluation};
use crate::measure::{Measure, print};
use crate::model::{Value, properties};
use crate::rules::{Compared, Node, Relation, What};

/// What is counted: one of it, several of it, and what it is to have.
struct Count {
    quantity: &'static str,
    one: &'static str,
    several: &'static str,
}

/// Quantities that count sides or floors.
const COUNTS: &[Count] = &[
    Count {
        quantity: "bare sides",
        one: "side has neither wall nor guard",
        several: "sides have neither wall nor guard",
    },
    Count {
        quantity: "unrailed open sides",
        one: "open side has no rail for the hand",
        several: "open sides have no rail for the hand",
    },
    Count { quantity: "unrailed walls", one: "wall has no handrail", several: "walls have no handrail" },
    Count {
        quantity: "unrailed wide sides",
        one: "turn of winders has no rail at its wide side",
        several: "turns of winders have no rail at their wide side",
    },
    Count { quantity: "railed sides", one: "side has a rail for the hand", several: "sides have a rail for the hand" },
    Count { quantity: "handrail sides", one: "side has a handrail", several: "sides have a handrail" },
    Count {
        quantity: "switch floors",
        one: "floor has a switch for the light",
        several: "floors have a switch for the light",
    },
];

/// Shares of a fastener's thickness, and of what.
const SHARES: &[(&str, &str)] = &[("root share", "the screw's root"), ("pilot share", "the shank")];

/// Sums that are to come to a stated total: what is added up, and the total.
const SUMS: &[(&str, &str, &str)] =
    &[("rise closure", "the risers add up to", "total rise"), ("run closure", "the runs add up to", "total run")];

/// The sentence behind who it is, where the quantity that decided has one.
pub(super) fn told(finding: &RuleFinding) -> Option<String> {
    let decision = &finding.decision;
    let Node::Read(What::Quantity(quantity), path) = &decision.subject else { return None };
    if !path.is_empty() {
        return None;
    }
    let verb = if finding.rule.rule().shall { "shall" } else { "should" };
    match &decision.compared {
        Compared::Numbers(value, relation, limit) => {
            let asked = Asked { value: *value, relation: *relation, limit: *limit, verb };
            number(finding, quantity.name, &asked)
        }
        Compared::Words(word, false, words) => {
            let here = finding.places.first().filter(|place| matches!(place.role, Role::Stated { .. }))?;
            let here = finding.source.slice(here.span);
            match (quantity.name, word.as_str(), words.as_slice()) {
                ("durable", "no", _) => Some(format!(
                    ": {here} does not last outdoors as it is, {verb} be treated or of a timber that does"
                )),
                ("landing drawn", "no", _) => Some(format!(" opens where no landing is drawn, {verb} open onto one")),
                ("grip", "no", _) => Some(format!(": {here} gives the foot no grip, {verb} give it one")),
                ("shape", "rectangular", [round]) if round == "round" => {
                    Some(format!(": {here} is rectangular, {verb} be round, as a hand closes round it"))
                }
                _ => None,
            }
        }
        Compared::Words(..) | Compared::Denied => None,
    }
}

/// A value, and what it is asked to be.
struct Asked {
    value: Measure,
    relation: Relation,
    limit: Measure,
    verb: &'static str,
}

impl Asked {
    /// `shall be at least 4`.
    fn to_be(&self, limit: &str) -> String {
        let Asked { relation, verb, .. } = self;
        let words = phrase::relation_words(*relation);
        if words.is_empty() { format!("{verb} be {limit}") } else { format!("{verb} be {words} {limit}") }
    }
}

fn number(finding: &RuleFinding, name: &str, asked: &Asked) -> Option<String> {
    let (value, limit) = (asked.value.value, asked.limit.value);
    if let Some(count) = COUNTS.iter().find(|count| count.quantity == name) {
        let things = |number: f64| if number == 1.0 { count.one } else { count.several };
        let has = if value == 0.0 { "no".to_owned() } else { value.to_string() };
        // "no side has", not "no sides have".
        let has_things = if value == 0.0 { count.one } else { things(value) };
        let relation = phrase::relation_words(asked.relation);
        let bound = match (relation, limit == 0.0) {
            ("at most", true) | ("", true) => "none".to_owned(),
            ("", false) => limit.to_string(),
            (relation, _) => format!("{relation} {limit}"),
        };
        return Some(format!(": {has} {has_things}, {bound} {}", asked.verb));
    }
    if let Some((_, of)) = SHARES.iter().find(|(share, _)| *share == name) {
        let (has, bound) = percents(value, limit);
        return Some(format!(": the pilot is {has} of {of}, {}", asked.to_be(&bound)));
    }
    if let Some((_, add_up, total)) = SUMS.iter().find(|(sum, ..)| *sum == name) {
        let property = if *total == "total rise" { properties::TOTAL_RISE } else { properties::TOTAL_RUN };
        let Some(Value::Measure(whole)) = finding.design.stated(0, property)?.value.clone() else { return None };
        let of = |value: f64| print(Measure { value, ..whole });
        let off = if value < 0.0 { "too much" } else { "too little" };
        return Some(format!(
            ": {add_up} {}, the {total} is {}: {} {off}",
            of(whole.value - value),
            of(whole.value),
            of(value.abs())
        ));
    }
    if name == "hole play" {
        let of = |value: f64| print(Measure { value, ..asked.value });
        return Some(match value < 0.0 {
            true => format!(": the hole is {} narrower than its bolt, {} be as wide", of(value.abs()), asked.verb),
            false => {
                let gap = of((value - limit).abs());
                let off = if value < limit { "too little" } else { "too much" };
                format!(": the hole is {} wider than its bolt, {}: {gap} {off}", of(value), asked.to_be(&of(limit)))
            }
        });
    }
    let distance = name.strip_suffix(" in diameters")?;
    let called = finding.design.called(finding.element);
    let Ok(Datum::Measure(length)) = Evaluation::plain(&finding.design).ask(&called, distance, None) else {
        return None;
    };
    let diameter = length.value / value;
    if !diameter.is_finite() || diameter <= 0.0 {
        return None;
    }
    let of = |value: f64| print(Measure { value, ..length });
    let times = |number: f64| {
        let number = print(Measure { value: number, ..asked.value });
        if number == "1" { format!("{number} diameter") } else { format!("{number} diameters") }
    };
    let bound = format!("{} ({})", of(limit * diameter), times(limit));
    let gap = of((limit - value).abs() * diameter);
    let off = if value < limit { "too little" } else { "too much" };
    Some(format!(": {distance} is {} ({}), {}: {gap} {off}", of(length.value), times(value), asked.to_be(&bound)))
}

/// Two shares in hundredths, with as many figures as tell them apart.
fn percents(value: f64, limit: f64) -> (String, String) {
    let said = |share: f64, figures: usize| format!("{:.figures$} %", 100.0 * share);
    let apart = (0..4).find(|figures| said(value, *figures) != said(limit, *figures)).unwrap_or(4);
    let bound = said(limit, apart);
    let bound = if apart > 0 && said(limit, 0).trim_end_matches(" %").parse() == Ok(100.0 * limit) {
        said(limit, 0)
    } else {
        bound
    };
    (said(value, apart), bound)
}

#[cfg(test)]
mod tests {
    use super::percents;

    #[test]
    fn a_miss_never_reads_as_its_limit() {
        for (value, limit, has, bound) in [
            (0.855, 0.9, "86 %", "90 %"),
            (0.8996, 0.9, "89.96 %", "90 %"),
            (1.0004, 1.0, "100.04 %", "100 %"),
            (0.583, 0.65, "58 %", "65 %"),
        ] {
            assert_eq!(percents(value, limit), (has.to_owned(), bound.to_owned()));
        }
    }
}
