//! A thing to draw where one is lacking.

use super::offer::{Drawn, Fix, Offer};
use crate::check::view::CheckedView;
use crate::derive::unguarded_sides;
use crate::measure::Dimension;
use crate::model::{Design, Id, Kind, Side, Trait, Value, kinds};
use crate::rules::{Collected, Decision, Node, What};

/// The thing that is lacking, or nothing where one is drawn that is not as asked: drawing another is no cure.
pub(super) fn draw(view: &CheckedView<'_>, kind: &'static Kind, element: Id, decision: &Decision) -> Option<Fix> {
    if decision.counted && view.design.belonging(kind, element).next().is_some() {
        return None;
    }
    let how = match condition(&decision.subject) {
        Some(condition) => narrowed(view, kind, condition),
        None => Drawn::Example(example(view, kind, element)?),
    };
    Some(Fix::new(Offer::Draw { kind, how }))
}

/// What narrows the count that decided; of a sum of counts the first is the plain cure.
fn condition(subject: &Node) -> Option<&Node> {
    match subject {
        Node::Count(Collected { condition, .. }) => condition.as_deref(),
        Node::Sum(first, ..) => condition(first),
        _ => None,
    }
}

fn narrowed(view: &CheckedView<'_>, kind: &'static Kind, condition: &Node) -> Drawn {
    if let Node::Is(subject, false, words, _) = condition
        && let (Node::Read(what, path), [word]) = (&**subject, words.as_slice())
        && path.is_empty()
    {
        match what {
            What::Quantity(quantity) if quantity.name == "place" => {
                return Drawn::AtPlace(in_its_units(view.design, &kind.example.replacen("top", word, 1)));
            }
            What::Quantity(quantity) => {
                if let Some(property) = kind.property(quantity.name) {
                    return Drawn::Stating(property.handle(), word.clone());
                }
            }
            What::Property(property) => return Drawn::Stating(property.handle(), word.clone()),
            What::At(..) => {}
        }
    }
    Drawn::Where(Box::new(condition.clone()))
}

/// How one is drawn at a side that has none yet; nothing where it stands at every side.
fn example(view: &CheckedView<'_>, kind: &'static Kind, element: Id) -> Option<String> {
    if kind.example.is_empty() {
        return Some(kind.opens.to_owned());
    }
    let example = in_its_units(view.design, kind.example);
    let sides = if kind == kinds::GUARD { unguarded_sides(&view.plain, element) } else { Vec::new() };
    if !sides.is_empty() {
        let sides: Vec<&str> = sides.into_iter().map(Side::word).collect();
        return Some(example.replacen("left", &sides.join(", "), 1));
    }
    if !kind.is(Trait::Sided) || !example.contains(" left ") {
        return Some(example);
    }
    let place = view.design.related(element, kinds::FLIGHT).filter(|_| kind != kinds::GUARD).unwrap_or(element);
    let drawn: Vec<Option<Side>> =
        view.design.belonging(kind, place).filter_map(|id| view.design.get(id).map(|element| element.side)).collect();
    let free = [Side::Left, Side::Right].into_iter().find(|side| !drawn.contains(&Some(*side)))?;
    Some(example.replacen("left", free.word(), 1))
}

/// An example in the units that the design is written in: whole inches become millimetres of the next five.
fn in_its_units(design: &Design, example: &str) -> String {
    let measures =
        design.elements.iter().flat_map(|element| &element.stated).filter_map(|stated| match &stated.value {
            Some(Value::Measure(measure)) => Some(*measure),
            Some(Value::List(items)) => items.first().map(|item| item.measure),
            _ => None,
        });
    let lengths: Vec<bool> = measures
        .filter(|measure| measure.dimension == Dimension::LENGTH)
        .map(|measure| measure.style.is_metric())
        .collect();
    if lengths.iter().filter(|metric| **metric).count() * 2 <= lengths.len() {
        return example.to_owned();
    }
    let mut out = String::new();
    for (at, piece) in example.split('"').enumerate() {
        if at > 0 {
            let digits = out.chars().rev().take_while(char::is_ascii_digit).count();
            let inches: f64 = out.split_off(out.len() - digits).parse().unwrap_or(0.0);
            out += &format!("{} mm", (inches * 25.4 / 5.0).ceil() * 5.0);
        }
        out += piece;
    }
    out
}
