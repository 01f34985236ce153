//! Outcomes to findings: who, what is asked, what the design has, by how much it misses, and where.

use super::remedy;
use super::{Amended, Beside, Clause, Label, RuleFinding, View};
use crate::base::{Severity, Span};
use crate::derive::{StatedRead, Working, unguarded_sides};
use crate::measure::{Measure, print, print_distinct};
use crate::model::{Id, PropertyName, ShopWords, Side, kinds};
use crate::rules::{Amendment, Change, Compared, Decider, Limit, Outcome, Part, Rule, RuleSet, Standing};
use crate::syntax::Relation;

/// Outcomes of one rule that point at the same words are one finding, told by the worst of them.
struct Group<'o> {
    place: Span,
    worst: &'o Decider,
    element: Id,
    elements: Vec<Id>,
    labels: Vec<Label>,
    /// Words of the shop's file.
    of_shop: Vec<Label>,
}

/// The findings of one rule.
pub fn tell(
    view: &View<'_>,
    set: &RuleSet,
    rule: &Rule,
    outcomes: &[Outcome],
    working: &Working<'_>,
) -> Vec<RuleFinding> {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for outcome in outcomes {
        let Standing::Fail(decider) = &outcome.standing else { continue };
        let mut stated = working.stated_behind(&decider.reads);
        // A fact of the place stands; the words to change are the others.
        stated.sort_by_key(|stated| {
            let property = view.design.get(stated.element).and_then(|element| element.kind.has(stated.property));
            property.is_some_and(|property| property.fact)
        });
        if view.measured && !speaks_of_measured(decider, working) {
            continue;
        }
        let of_shop = of_shop(view, &stated);
        let mut labels: Vec<Label> = stated
            .iter()
            .filter(|stated| shop_words(view, stated).is_none_or(|shop| shop.called))
            .map(|stated| Label {
                span: stated.span,
                text: label(view, stated.property, stated.element, stated.measured),
            })
            .collect();
        if let (Some(item), Some(list)) = (decider.item, labels.first_mut()) {
            list.span = item;
        }
        if labels.is_empty() || decider.lacking.is_some() {
            labels.insert(0, lacking_label(view, decider, outcome.element, !stated.is_empty()));
        }
        // Where nothing is lacking, measured words come first: they are what the finding speaks of.
        if view.measured && decider.lacking.is_none() {
            labels.sort_by_key(|label| !stated.iter().any(|stated| stated.measured && stated.span == label.span));
        }
        let place = labels.first().map(|label| label.span).unwrap_or_default();
        match groups.iter_mut().find(|group| group.place == place) {
            Some(group) => {
                group.elements.push(outcome.element);
                if decider.miss() > group.worst.miss() {
                    group.worst = decider;
                    group.element = outcome.element;
                    group.labels = labels;
                    group.of_shop = of_shop;
                }
            }
            None => {
                let elements = vec![outcome.element];
                groups.push(Group { place, worst: decider, element: outcome.element, elements, labels, of_shop });
            }
        }
    }
    groups.into_iter().map(|group| finding(view, set, rule, group)).collect()
}

/// A measured finding speaks of a value that was measured; a drawn value beside a measured limit is none.
pub fn speaks_of_measured(decider: &Decider, working: &Working<'_>) -> bool {
    let given = working.stated_behind(decider.reads.get(..decider.given).unwrap_or_default());
    given.iter().any(|stated| stated.measured)
}

/// The words of the shop's file behind a stated value.
fn shop_words(view: &View<'_>, stated: &StatedRead) -> Option<ShopWords> {
    view.design.stated(stated.element, stated.property).and_then(|stated| stated.shop)
}

/// What the shop's file states of all that was read.
fn of_shop(view: &View<'_>, stated: &[StatedRead]) -> Vec<Label> {
    let mut labels: Vec<Label> = Vec::new();
    for stated in stated {
        let Some(shop) = shop_words(view, stated) else { continue };
        if labels.iter().any(|label| label.span == shop.words) {
            continue;
        }
        let text = match view.design.get(stated.element) {
            Some(element) if element.kind == kinds::TIMBER => {
                format!("{} of the timber", stated.property)
            }
            _ if shop.called => "the section that is stocked".to_owned(),
            _ => format!("{} of the shop", stated.property),
        };
        labels.push(Label { span: shop.words, text });
    }
    labels
}

fn lacking_label(view: &View<'_>, decider: &Decider, element: Id, stated: bool) -> Label {
    // What is lacking at a step is drawn beside the flight.
    let place = view.design.get(element).filter(|element| element.step.is_some()).and_then(|step| step.parent);
    let element = place.unwrap_or(element);
    let span = view.design.get(element).map(|element| element.span).unwrap_or_default();
    let called = view.design.called(element);
    // Some are drawn, and none does what is asked by what is stated of it: point at them, not at the gap.
    if let Some(kind) = decider.lacking
        && let Some(drawn) =
            view.design.belonging(kind, element).next().and_then(|id| view.design.get(id).map(|drawn| (id, drawn.span)))
        && matches!(decider.compared, Compared::Numbers(count, ..) if count.value == 0.0)
        && decider.counted
        && stated
    {
        return Label { span: drawn.1, text: format!("{} is none", view.design.called(drawn.0)) };
    }
    let text = match decider.lacking {
        Some(kind) if kind == kinds::GUARD => {
            let sides = unguarded_sides(&Working::new(view.design), element);
            let sides: Vec<&str> = sides.into_iter().map(Side::word).collect();
            let at = if sides.is_empty() { "drawn".to_owned() } else { sides.join(" or ") };
            format!("{called}, with no guard {at}")
        }
        Some(kind) if view.design.belonging(kind, element).next().is_some() => {
            format!("{called}, with too few {} drawn", kind.plural)
        }
        Some(kind) => format!("{called}, with no {} drawn", kind.name),
        None => called,
    };
    Label { span, text }
}

fn label(view: &View<'_>, name: PropertyName, element: Id, measured: bool) -> String {
    let of = view.design.get(element).and_then(|element| element.base).unwrap_or(element);
    let of = if of == 0 { "the stair".to_owned() } else { view.design.called(of) };
    let as_measured = if measured { ", as measured" } else { "" };
    format!("{name} of {of}{as_measured}")
}

fn finding(view: &View<'_>, set: &RuleSet, rule: &Rule, group: Group<'_>) -> RuleFinding {
    let who = who(view, &group);
    let told = told(rule, group.worst);
    let told = if told.starts_with("has ") { format!(" {told}") } else { format!(": {told}") };
    let measured = if view.measured { "as measured, " } else { "" };
    RuleFinding {
        severity: if rule.shall { Severity::Broken } else { Severity::Advised },
        name: rule.name.clone(),
        message: format!("{measured}{who}{told}"),
        source: view.source.clone(),
        labels: group.labels,
        beside: view
            .design
            .shop
            .as_ref()
            .filter(|_| !group.of_shop.is_empty())
            .map(|source| Beside { source: source.clone(), labels: group.of_shop }),
        help: remedy::remedy(view, rule, group.element, group.worst),
        clause: clause(set, rule),
    }
}

fn clause(set: &RuleSet, rule: &Rule) -> Clause {
    let cited_by = rule.set_by(&Part::Source);
    let below = set.takes_in.iter().find(|below| below.title == cited_by);
    Clause {
        set: set.title.clone(),
        from: below.map(|below| below.title.clone()).unwrap_or_default(),
        edition: below.map_or(&set.edition, |below| &below.edition).clone(),
        source: rule.source.clone(),
        clause: rule.clause,
        limits: rule.limits.iter().filter_map(|limit| written(rule, limit)).collect(),
        amended: rule.amendments.iter().rev().filter_map(amended).collect(),
        cites: rule.cites.clone(),
        because: rule.because.clone(),
        sure: rule.sure.clone(),
    }
}

/// A limit where the clause was written, with the value that it has or had there.
fn written(rule: &Rule, limit: &Limit) -> Option<Label> {
    let first = std::iter::successors(Some(limit), |limit| limit.replaced.as_deref()).last()?;
    let is = if first.replaced.is_none() && limit.replaced.is_some() { "was" } else { "is" };
    let text = format!("{} {is} {}", first.name, print(first.measure));
    (first.source == rule.source).then_some(Label { span: first.span, text })
}

/// What one set has changed, where it bears on the outcome.
fn amended(amendment: &Amendment) -> Option<Amended> {
    let told = |change: &Change| {
        let Change { now, before, set_by, .. } = change;
        let text = match &change.part {
            Part::Limit(name) if before.is_empty() => format!("{name} is {now}"),
            Part::Limit(name) => format!("{name} is {now}, in place of {before} of {set_by}"),
            Part::Verb => format!("`{now}`, in place of `{before}` of {set_by}"),
            Part::Condition => match (now.as_str(), before.as_str()) {
                ("always", before) => format!("applies always, no longer only where {before}, as {set_by} has it"),
                (_, "always") => format!("applies only here, no longer always, as {set_by} has it"),
                (_, before) => format!("applies here, in place of where {before} of {set_by}"),
            },
            Part::Clause => format!("in place of `{before}` of {set_by}"),
            Part::Source if before.is_empty() => "the source".to_owned(),
            Part::Source => format!("the source, in place of {before} of {set_by}"),
            Part::Because | Part::Sure => return None,
        };
        Some(Label { span: change.span, text })
    };
    let changes: Vec<Label> = amendment.changes.iter().filter_map(told).collect();
    let (set, source) = (amendment.set.clone(), amendment.source.clone());
    (!changes.is_empty()).then_some(Amended { set, source, changes })
}

/// `risers 2 to 4`, `handrail left and handrail right`.
fn who(view: &View<'_>, group: &Group<'_>) -> String {
    let steps: Vec<usize> =
        group.elements.iter().filter_map(|id| view.design.get(*id).and_then(|element| element.step)).collect();
    let called = view.design.called(group.element);
    if let ([first, .., last], Some(element)) = (steps.as_slice(), view.design.get(group.element)) {
        let parents: Vec<Option<Id>> =
            group.elements.iter().map(|id| view.design.get(*id).and_then(|step| step.parent)).collect();
        let one_flight = parents.windows(2).all(|pair| matches!(pair, [a, b] if a == b));
        if !one_flight {
            return format!("{called} and {} more", group.elements.len() - 1);
        }
        let climbs = steps.windows(2).all(|pair| matches!(pair, [a, b] if a + 1 == *b));
        let listed = match (steps.len(), climbs) {
            (2, _) => format!("{} and {}", first + 1, last + 1),
            (_, true) => format!("{} to {}", first + 1, last + 1),
            _ => steps.iter().map(|step| (step + 1).to_string()).collect::<Vec<_>>().join(", "),
        };
        let steps = format!("{} {listed}", element.kind.plural);
        let flights = view.design.of_kind(kinds::FLIGHT).len() > 1;
        return if flights { format!("{steps} of {}", view.design.called(element.parent.unwrap_or(0))) } else { steps };
    }
    match group.elements.as_slice() {
        [first, second] => format!("{} and {}", view.design.called(*first), view.design.called(*second)),
        [_, _, _, ..] => format!("{called} and {} more", group.elements.len() - 1),
        _ => called,
    }
}

fn told(rule: &Rule, decider: &Decider) -> String {
    let verb = if rule.shall { "shall" } else { "should" };
    let asked = phrase(rule.source.slice(decider.asked));
    match &decider.compared {
        Compared::Numbers(value, relation, limit) => {
            let style = value.style.for_dimension(value.dimension);
            let value = value.styled(style);
            let (is, be) = print_distinct(value, *limit, style);
            let (words, side) = relation_words(*relation);
            // A count is told as one counts: `flight has 0 handrails, shall have at least 1`.
            if let Some(counted) = asked.strip_prefix("number of ") {
                let each = counted.split(" + number of ").map(|one| one.trim_start_matches('(').trim_end_matches(')'));
                let counted = each.collect::<Vec<_>>().join(" or ");
                let words = if words.is_empty() { be } else { format!("{words} {be}") };
                return format!("has {is} {counted}, {verb} have {words}");
            }
            let gap = Measure { value: (value.value - limit.value).abs(), ..value };
            let miss = if *relation == Relation::Unequal {
                "just there, where it must not be".to_owned()
            } else if crate::measure::equal(value.value, limit.value, value.dimension) {
                "the limit itself does not count".to_owned()
            } else {
                let side = match (relation, value.value > limit.value) {
                    (Relation::Equal, true) => "too much",
                    (Relation::Equal, false) => "too little",
                    _ => side,
                };
                let gap = match value.style {
                    style if style.is_slope() => {
                        return format!("{asked} is {is}, {verb} be {words} {be}: {}", steep(*relation));
                    }
                    _ => print(gap),
                };
                format!("{gap} {side}")
            };
            format!("{asked} is {is}, {verb} be {words} {be}: {miss}")
        }
        Compared::Words(word, not, words) => {
            let subject = asked.split(" is ").next().unwrap_or(&asked).to_owned();
            let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
            let not = if *not { "not " } else { "" };
            format!("{subject} is \"{word}\", {verb} {not}be {}", words.join(" or "))
        }
        Compared::Denied => format!("{verb} have {asked}"),
    }
}

fn steep(relation: Relation) -> &'static str {
    match relation {
        Relation::Less | Relation::AtMost => "too steep",
        _ => "not steep enough",
    }
}

fn relation_words(relation: Relation) -> (&'static str, &'static str) {
    match relation {
        Relation::Less => ("less than", "too much"),
        Relation::AtMost => ("at most", "too much"),
        Relation::More => ("more than", "too little"),
        Relation::AtLeast => ("at least", "too little"),
        Relation::Equal => ("", "off"),
        Relation::Unequal => ("other than", "off"),
    }
}

/// A piece of a clause on one line.
fn phrase(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
