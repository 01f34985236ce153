//! One fact stated in two ways that cannot both hold, and lists that are longer than what they are for.

use super::Builder;
use crate::model::design::{Design, Element, Id, Side};
use crate::model::kind::{Kind, PropertyName};
use crate::model::problem::DrawingProblem;
use crate::model::value::Value;
use crate::model::vocabulary::{kinds, properties};

/// Two properties of one thing that cannot both be stated; of the first, where it says nothing but this word.
struct Rivals {
    one: PropertyName,
    but: Option<&'static str>,
    other: PropertyName,
}

const fn rivals(one: PropertyName, other: PropertyName) -> Rivals {
    Rivals { one, but: None, other }
}

const RIVALS: &[Rivals] = &[
    rivals(properties::BOLTS, properties::LAGS),
    rivals(properties::BOLTS, properties::SCREWS),
    rivals(properties::BOLTS, properties::NAILS),
    rivals(properties::LAGS, properties::SCREWS),
    rivals(properties::LAGS, properties::NAILS),
    rivals(properties::SCREWS, properties::NAILS),
    rivals(properties::HEADROOM, properties::HEIGHT),
    rivals(properties::SLOPE, properties::FALL),
    Rivals { one: properties::INFILL, but: Some("balusters"), other: properties::BALUSTERS },
    Rivals { one: properties::INFILL, but: Some("rails"), other: properties::RAILS },
    Rivals { one: properties::INFILL, but: Some("cables"), other: properties::CABLES },
    rivals(properties::BALUSTERS, properties::RAILS),
    rivals(properties::BALUSTERS, properties::CABLES),
    rivals(properties::RAILS, properties::CABLES),
];

/// What one property of a thing says too, in another way: of two such one gives way to the other that was measured.
pub(super) fn said_otherwise(property: PropertyName) -> impl Iterator<Item = PropertyName> {
    RIVALS.iter().filter_map(move |rivals| match property {
        one if one == rivals.one => Some(rivals.other),
        other if other == rivals.other => Some(rivals.one),
        _ => None,
    })
}

impl Builder<'_> {
    /// Reports what two of the measured figures of a thing say in two ways that cannot both be.
    pub(super) fn measured_twice(&mut self, design: &mut Design) {
        for id in 0..design.drawn {
            for rivals in RIVALS {
                let measured = |property| {
                    design.get(id).and_then(|element| element.stated(property)).is_some_and(|stated| stated.measured)
                };
                if measured(rivals.one) && measured(rivals.other) {
                    self.rivals(design, id, rivals);
                }
            }
        }
    }

    /// Reports what a design states twice and differently. What rests on it is not known.
    pub(super) fn twice(&mut self, design: &mut Design) {
        for id in 0..design.drawn {
            for rivals in RIVALS {
                self.rivals(design, id, rivals);
            }
            self.open_and_walled(design, id);
            self.none_open_and_closed(design, id);
            self.door_in_two(design, id);
            self.other_length(design, id);
        }
    }

    fn rivals(&mut self, design: &mut Design, id: Id, rivals: &Rivals) {
        let Some(element) = design.get(id) else { return };
        let (Some(one), Some(other)) = (element.stated(rivals.one), element.stated(rivals.other)) else { return };
        if let (Some(but), Some(Value::Word(word))) = (rivals.but, &one.value)
            && but == word
        {
            return;
        }
        let (first, second) = if one.span.start <= other.span.start { (one, other) } else { (other, one) };
        let problem = DrawingProblem::Rivals { property: second.property, other: first.property, first: first.span };
        let span = second.span;
        // What was not understood of either was told where it stands.
        if first.value.is_some() && second.value.is_some() {
            self.push(span, problem);
        }
        for property in [rivals.one, rivals.other] {
            forget(design, id, property);
        }
    }

    /// A landing whose side is said to be open, and has a wall of its own.
    fn open_and_walled(&mut self, design: &mut Design, id: Id) {
        let Some(open) = design.get(id).and_then(|element| element.stated(properties::OPEN_SIDES)) else { return };
        let Some(Value::Words(words)) = &open.value else { return };
        let closes = |wall: &Id| {
            design.get(*wall).is_some_and(|wall| {
                // A part of an open side may be walled.
                let part = wall.stated(properties::LENGTH).is_some();
                let own = !part && (wall.parent == Some(id) || wall.serves == Some(id));
                own && wall.side.is_none_or(|side| words.contains(&side.word())) && !words.contains(&"none")
            })
        };
        let Some(wall) = design.of_kind(kinds::WALL).find(closes) else { return };
        let (span, first) = (open.span, design.get(wall).map(|wall| wall.span).unwrap_or_default());
        self.push(span, DrawingProblem::OpenAndWalled { first });
        forget(design, id, properties::OPEN_SIDES);
    }

    /// A landing that is said to have no open side, at one of which a guard stands, or a wall that closes a part of it.
    fn none_open_and_closed(&mut self, design: &mut Design, id: Id) {
        let Some(open) = design.get(id).and_then(|element| element.stated(properties::OPEN_SIDES)) else { return };
        let none = matches!(&open.value, Some(Value::Words(words)) if words.contains(&"none"));
        let closes = |thing: &Id| {
            design.get(*thing).is_some_and(|thing| {
                let own = thing.parent == Some(id) || thing.serves == Some(id);
                let sided = matches!(thing.side, Some(Side::Left | Side::Right | Side::Far));
                own && sided && (thing.kind == kinds::GUARD || thing.stated(properties::LENGTH).is_some())
            })
        };
        let mut closing = design.of_kind(kinds::GUARD).chain(design.of_kind(kinds::WALL));
        let Some(thing) = closing.find(closes).and_then(|id| design.get(id)).filter(|_| none) else { return };
        let (span, kind, first) = (open.span, thing.kind, thing.span);
        self.push(span, DrawingProblem::NoneOpenAndClosed { kind, first });
        forget(design, id, properties::OPEN_SIDES);
    }

    /// A door whose name is that of one place, and which is said to open at another.
    fn door_in_two(&mut self, design: &mut Design, id: Id) {
        let Some(door) = design.get(id).filter(|door| door.kind == kinds::DOOR) else { return };
        let Some(at) = door.stated(properties::AT) else { return };
        // One that stands in a landing and is said to open at another place opens at neither for certain.
        let landing = door.parent.filter(|parent| design.is(*parent, kinds::LANDING));
        if let (Some(landing), Some(Value::Names(names))) = (landing.and_then(|id| design.get(id)), &at.value)
            && !names.iter().any(|(at, _)| landing.goes_by(at))
        {
            let (span, inside, first) = (at.span, design.called(door.parent.unwrap_or_default()), landing.span);
            self.push(span, DrawingProblem::InTwoPlaces { inside, first });
            forget(design, id, properties::AT);
            if let Some(door) = design.get_mut(id) {
                door.lost = Some(properties::AT);
            }
            return;
        }
        let Some(name) = &door.name else { return };
        let Some(Value::Names(names)) = &at.value else { return };
        let place = matches!(name.to_lowercase().as_str(), "top" | "bottom")
            || design.of_kind(kinds::LANDING).any(|id| design.get(id).is_some_and(|landing| landing.goes_by(name)));
        if !place || names.iter().any(|(at, _)| at.eq_ignore_ascii_case(name)) {
            return;
        }
        let (span, first) = (at.span, door.span);
        self.push(span, DrawingProblem::InTwoPlaces { inside: format!("`{name}`"), first });
        forget(design, id, properties::AT);
        if let Some(door) = design.get_mut(id) {
            door.lost = Some(properties::AT);
        }
    }

    /// A list that is longer than what it is for; of what was measured a shorter one too, for what is left of it was not
    /// measured.
    pub(super) fn other_length(&mut self, design: &Design, id: Id) {
        let Some(element) = design.get(id) else { return };
        let (properties, kind, steps): (&[PropertyName], _, _) = match element.kind {
            kind if kind == kinds::TREAD => (&[properties::NOSING], kinds::TREAD, steps(design, id, kinds::TREAD)),
            // A guard on the level has one height.
            kind if kind == kinds::GUARD && level_place(design, element).is_some() => {
                let place = level_place(design, element).unwrap_or(kinds::LANDING);
                (&[properties::HEIGHT], place, Some((1, 1)))
            }
            kind if kind == kinds::GUARD || kind == kinds::HANDRAIL => {
                (&[properties::HEIGHT], kinds::RISER, steps(design, id, kinds::RISER))
            }
            kind if kind == kinds::WINDERS => {
                let wound = wound(element);
                (&[properties::NARROW, properties::TURN], kinds::TREAD, wound.map(|wound| (wound, wound)))
            }
            _ => return,
        };
        for property in properties {
            self.of_other_length(element, *property, kind, steps);
        }
    }

    /// A list that is longer than the steps are of any flight that it is for, or shorter than those of every one: of a
    /// list that stops short nobody knows what it is for the rest.
    fn of_other_length(
        &mut self,
        element: &Element,
        property: PropertyName,
        kind: &'static Kind,
        steps: Option<(usize, usize)>,
    ) {
        let (Some(stated), Some((fewest, most))) = (element.stated(property), steps) else { return };
        let Some(Value::List(items)) = &stated.value else { return };
        // The floor above is no tread: of the heights of a rail the last may be left out.
        let floor = usize::from(property == properties::HEIGHT);
        // Of what was measured along all flights nothing is left out.
        let least = if stated.measured { most } else { fewest.min(stands_beside(element).unwrap_or(fewest)) };
        let short = items.len() > 1 && items.len() + floor < least;
        if items.len() > most.max(1) || short {
            let (property, many, span) = (stated.property, items.len(), stated.span);
            self.push(span, DrawingProblem::TooLong { property, many, kind, most });
        }
    }
}

/// How many steps of a kind the shortest flight has that a thing belongs to, and how many the longest.
fn steps(design: &Design, id: Id, kind: &'static Kind) -> Option<(usize, usize)> {
    let steps = design.steps_beside(id, kind);
    steps.iter().copied().min().zip(steps.into_iter().max())
}

/// How many steps a rail or a guard stands beside that is said to begin and to end at one.
fn stands_beside(element: &Element) -> Option<usize> {
    let step = |property| match element.stated(property)?.value {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Some(Value::Measure(measure)) => Some(measure.value.max(0.0) as usize),
        _ => None,
    };
    let ends = [(properties::FROM_RISER, properties::TO_RISER), (properties::FROM_TREAD, properties::TO_TREAD)];
    let stated = ends.into_iter().filter(|(from, to)| element.stated(*from).or(element.stated(*to)).is_some());
    // One end alone leaves it to the flight where the other is.
    stated.map(|(from, to)| step(from).zip(step(to)).map_or(0, |(from, to)| from.abs_diff(to) + 1)).next()
}

/// The landing or the well that a thing stands at, by its kind.
fn level_place(design: &Design, element: &Element) -> Option<&'static Kind> {
    let place = design.get(element.serves.or(element.parent)?)?.kind;
    (place == kinds::LANDING || place == kinds::WELL).then_some(place)
}

/// How many treads a block of winders counts.
fn wound(winders: &Element) -> Option<usize> {
    let tread = |property| match winders.stated(property)?.value {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Some(Value::Measure(measure)) => Some(measure.value.max(0.0) as usize),
        _ => None,
    };
    let (from, to) = (tread(properties::FROM_TREAD)?, tread(properties::TO_TREAD)?);
    Some(from.abs_diff(to) + 1)
}

/// Takes what is stated of a property for not understood.
pub(super) fn forget(design: &mut Design, id: Id, property: PropertyName) {
    let stated = design.get_mut(id).map(|element| element.stated.as_mut_slice()).unwrap_or_default();
    for stated in stated.iter_mut().filter(|stated| stated.property.handle() == property) {
        stated.value = None;
    }
}
