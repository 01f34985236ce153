//! The measured values, laid over the drawing.

use std::sync::Arc;

use super::twice::said_otherwise;
use super::{Builder, Stair};
use crate::base::{Day, Span};
use crate::measure::{Dimension, Measure, equal};
use crate::model::design::{Design, Element, Id, Stated};
use crate::model::kind::{FILE, Kind, Property, PropertyName};
use crate::model::problem::{DrawingProblem, HeadProblem};
use crate::model::value::Value;
use crate::model::vocabulary::{KINDS, kinds, properties};
use crate::syntax::{Item, Term, TermKind};

/// What was measured of a stair so far: of what, the property, where, and on which day.
type Seen = Vec<(Id, &'static Property, Span, Option<Day>)>;

/// How a figure stands beside what was measured before of the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Turn {
    /// Nothing was, or it was on an earlier day.
    Counts,
    /// It was on a later day, whose figure counts.
    Superseded,
    /// It was, and nobody knows which is right.
    Twice,
}

impl Builder<'_> {
    /// Lays the measured values over the drawing; `seen` is what earlier blocks have measured of the same stair.
    pub(super) fn measure(&mut self, stair: &mut Stair, seen: &mut Seen, body: &[Item]) {
        let first = stair.measured.is_none();
        let before = stair.measured.take().unwrap_or_else(|| Arc::clone(&stair.drawn));
        let mut design = Arc::unwrap_or_clone(before);
        design.as_drawn = Some(Arc::clone(&stair.drawn));
        design.elements.truncate(design.drawn);
        let flights: Vec<Id> = design.drawn_of_kind(kinds::FLIGHT).collect();
        let measured = Some(kinds::MEASURED);
        // Each block has a day of its own, who measured then, and with which grain.
        seen.retain(|(_, property, ..)| !OF_THE_BLOCK.contains(&property.handle()));
        let mut of_block = Vec::new();
        let day = day_of(body);
        for item in body {
            match item {
                Item::Property { name, name_span, value, value_span, damaged, .. } => {
                    let Some(stated) = self.property(measured, name, *name_span, value, *value_span, *damaged) else {
                        continue;
                    };
                    let target = match (stated.property.handle(), flights.as_slice()) {
                        (property, _) if OF_THE_BLOCK.contains(&property) => {
                            if self.once(seen, usize::MAX, &stated, day) == Turn::Counts {
                                of_block.push(stated);
                            }
                            continue;
                        }
                        (property, _) if property == properties::TOTAL_RISE => 0,
                        (_, [only]) => *only,
                        // A flight that could not be read was reported as such.
                        (_, []) if design.unread.contains(&kinds::FLIGHT) => continue,
                        _ => {
                            let property = name.to_string();
                            self.push(*name_span, DrawingProblem::WhichFlightMeasured { property });
                            continue;
                        }
                    };
                    self.overlay(&mut design, seen, target, stated, day);
                }
                Item::Block { head, head_span, body, .. } => {
                    self.measure_block(&mut design, (&mut *seen, day), 0, head, *head_span, body)
                }
                other => self.stray(other, measured),
            }
        }
        self.finer_than_read(&design, &of_block, body);
        sign(&mut design, of_block, first);
        self.measured_twice(&mut design);
        design.expand_steps();
        for id in 0..design.drawn {
            self.other_length(&design, id);
        }
        stair.measured = Some(Arc::new(design));
    }

    fn measure_block(
        &mut self,
        design: &mut Design,
        (seen, day): (&mut Seen, Option<Day>),
        parent: Id,
        head: &[Term],
        span: Span,
        body: &[Item],
    ) {
        let Some((kind, names)) = self.head_of_measured(head, span, design.kind(parent).map_or(FILE, |kind| kind.name))
        else {
            return;
        };
        if kind == kinds::WAIVER {
            return self.push(span, HeadProblem::WrongPlace { kind, within: kinds::MEASURED.name });
        }
        let wanted: Vec<Option<String>> =
            if names.is_empty() { vec![None] } else { names.iter().map(|name| Some(name.text.clone())).collect() };
        for name in wanted {
            let id = match which(design, kind, name.as_deref(), parent) {
                Which::One(id) => id,
                Which::Several => {
                    let property = self.source.slice(span).to_owned();
                    self.push(span, DrawingProblem::WhichFlightMeasured { property });
                    continue;
                }
                // It may be drawn in the block that could not be read.
                Which::None if design.unread.contains(&kind) => continue,
                Which::None => {
                    self.push(span, DrawingProblem::NotDrawn { kind, name });
                    continue;
                }
            };
            for item in body {
                match item {
                    Item::Property { name, name_span, value, value_span, damaged, .. } => {
                        if let Some(stated) = self.property(Some(kind), name, *name_span, value, *value_span, *damaged)
                        {
                            self.overlay(design, seen, id, stated, day);
                        }
                    }
                    Item::Block { head, head_span, body, .. } => {
                        self.measure_block(design, (&mut *seen, day), id, head, *head_span, body)
                    }
                    other => self.stray(other, Some(kind)),
                }
            }
        }
    }

    /// How a figure stands beside what was measured before of the same: on a later day it was measured again; a second
    /// time on one day is reported.
    fn once(&mut self, seen: &mut Seen, id: Id, stated: &Stated, day: Option<Day>) -> Turn {
        let (property, span) = (stated.property, stated.span);
        let first = seen.iter_mut().find(|(of, earlier, ..)| *of == id && earlier.name == property.name);
        if let Some(first) = first {
            match first.3.zip(day) {
                Some((earlier, day)) if earlier < day => {
                    (first.2, first.3) = (span, Some(day));
                    return Turn::Counts;
                }
                Some((later, day)) if later > day => return Turn::Superseded,
                _ => {}
            }
            let first = first.2;
            self.push(span, DrawingProblem::StatedTwice { property, first });
            return Turn::Twice;
        }
        seen.push((id, property, span, day));
        Turn::Counts
    }

    /// Figures of a block that lie between the marks to which it was read, where both are of one system of units.
    fn finer_than_read(&mut self, design: &Design, of_block: &[Stated], body: &[Item]) {
        let read_to = of_block.iter().find(|stated| stated.property.handle() == properties::READ_TO);
        let Some(Value::Measure(marks)) = read_to.and_then(|stated| stated.value.as_ref()) else { return };
        let Some(reach) = extent(body) else { return };
        let between = |figure: &Measure| {
            let parts = figure.value / marks.value;
            figure.dimension == Dimension::LENGTH
                && marks.value > 0.0
                && figure.style.is_metric() == marks.style.is_metric()
                && !equal(parts.round() * marks.value, figure.value, Dimension::LENGTH)
        };
        let measured = design.elements.iter().take(design.drawn).flat_map(|element| &element.stated);
        let spans: Vec<Span> = measured
            .filter(|stated| stated.measured && reach.start <= stated.span.start && stated.span.end <= reach.end)
            .filter(|stated| match &stated.value {
                Some(Value::Measure(figure)) => between(figure),
                Some(Value::List(items)) => items.iter().any(|item| between(&item.measure)),
                _ => false,
            })
            .map(|stated| stated.span)
            .collect();
        for span in spans {
            self.push(span, DrawingProblem::FinerThanRead { marks: *marks });
        }
    }

    fn overlay(&mut self, design: &mut Design, seen: &mut Seen, id: Id, stated: Stated, day: Option<Day>) {
        let name = stated.property.name;
        let turn = self.once(seen, id, &stated, day);
        let Some(element) = design.get_mut(id) else { return };
        if turn == Turn::Superseded {
            return;
        }
        if turn == Turn::Twice {
            // Of two measurements nobody knows which is right.
            let earlier = element.stated.iter_mut().filter(|earlier| earlier.property.name == name);
            earlier.for_each(|earlier| earlier.value = None);
            return;
        }
        let Some(property) = element.kind.property(name) else { return };
        let mut stated = stated;
        let drawn = element.stated(property.handle()).and_then(|drawn| drawn.value.as_ref());
        if let (Some(Value::List(drawn)), Some(Value::List(items))) = (drawn, &stated.value)
            && drawn.len() != items.len()
            && KINDS.iter().any(|kind| kind.list() == Some(property.handle()))
        {
            let (many, drawn) = (items.len(), drawn.len());
            self.push(stated.span, DrawingProblem::MeasuredOther { property, many, drawn });
            stated.value = None;
        }
        let Some(element) = design.get_mut(id) else { return };
        // What the drawing says of it in another way gives way to what was measured.
        let otherwise: Vec<PropertyName> = said_otherwise(property.handle()).collect();
        element.stated.retain(|earlier| {
            let gives_way = !earlier.measured && otherwise.contains(&earlier.property.handle());
            earlier.property.name != name && !gives_way
        });
        element.stated.push(Stated { property, measured: true, ..stated });
    }
}

/// The day that a block says it was measured on.
fn day_of(body: &[Item]) -> Option<Day> {
    body.iter().find_map(|item| match item {
        Item::Property { name, value, .. } if &**name == "on" => value.iter().find_map(|term| match &term.kind {
            TermKind::Date(date) => Day::of(date),
            _ => None,
        }),
        _ => None,
    })
}

/// From the first to the last of the words of a block.
fn extent(body: &[Item]) -> Option<Span> {
    let span = |item: &Item| match item {
        Item::Property { name_span, value_span, .. } => name_span.to(*value_span),
        Item::Block { head_span, open, body, close, .. } => {
            let last = close.or_else(|| extent(body)).unwrap_or(*open);
            head_span.to(last)
        }
        Item::Malformed { span, .. } | Item::Damaged { span, .. } => *span,
        _ => Span::default(),
    };
    let spans = body.iter().map(span).filter(|span| span.end > 0);
    spans.reduce(|one, other| Span { start: one.start.min(other.start), end: one.end.max(other.end) })
}

/// What a block says of its figures, beside them.
const OF_THE_BLOCK: [PropertyName; 3] = [properties::ON, properties::BY, properties::READ_TO];

/// Notes with the stair what a block says of its figures. Of several blocks each has to say it, and the coarsest grain
/// and the latest day are those of them all.
fn sign(design: &mut Design, of_block: Vec<Stated>, first: bool) {
    let Some(stair) = design.get_mut(0) else { return };
    for property in OF_THE_BLOCK {
        let here = of_block.iter().find(|stated| stated.property.handle() == property);
        let is_of_earlier = |stated: &Stated| stated.measured && stated.property.handle() == property;
        let earlier = stair.stated.iter().find(|stated| is_of_earlier(stated)).cloned();
        stair.stated.retain(|stated| !is_of_earlier(stated));
        let both = match (here, earlier) {
            (Some(here), None) if first => here.clone(),
            (Some(here), Some(earlier)) if counts_for_both(here, &earlier) => here.clone(),
            (Some(_), Some(earlier)) => earlier,
            _ => continue,
        };
        stair.stated.push(Stated { measured: true, ..both });
    }
}

/// Whether one was read more coarsely than the other, or later; what was not understood counts before all.
fn counts_for_both(one: &Stated, other: &Stated) -> bool {
    match (&one.value, &other.value) {
        (Some(Value::Measure(one)), Some(Value::Measure(other))) => one.value > other.value,
        (Some(Value::Word(one)), Some(Value::Word(other))) => {
            Day::of(one).zip(Day::of(other)).is_some_and(|(one, other)| one > other)
        }
        (one, _) => one.is_none(),
    }
}

/// Which thing a block of measured values speaks of.
enum Which {
    One(Id),
    Several,
    None,
}

/// The thing of a kind, by its name or side, that a block in `parent` speaks of: what stands there; else what belongs
/// to no place, and from the top of the stair whatever is the only one.
fn which(design: &Design, kind: &'static Kind, name: Option<&str>, parent: Id) -> Which {
    let called = |element: &Element| {
        element.goes_by(name.unwrap_or_default()) || element.side.is_some_and(|side| Some(side.word()) == name)
    };
    let is = |element: &Element| element.kind == kind && (name.is_none() || called(element));
    let found: Vec<(Id, &Element)> =
        design.elements.iter().map(|element| &**element).enumerate().filter(|(_, element)| is(element)).collect();
    let inside = |element: &Element| element.parent == Some(parent) || element.serves == Some(parent);
    let own = found.iter().any(|(_, element)| inside(element));
    let meant = |element: &Element| match own {
        true => inside(element),
        false => parent == 0 || element.serves.is_none(),
    };
    let mut meant = found.into_iter().filter(|(_, element)| meant(element));
    match (meant.next(), meant.next()) {
        (None, _) => Which::None,
        // Copies (`left, right`) share their words; of those within a place the first stands for all.
        (Some((_, first)), Some((_, other))) if parent == 0 && first.span != other.span => Which::Several,
        (Some((id, _)), _) => Which::One(id),
    }
}
