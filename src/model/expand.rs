//! What a drawing implies: a step for each item of a list, and a ceiling or a well that stands there though nobody drew it.

use std::sync::Arc;

use super::design::{ByKind, Design, Element, Id, MOST_OF_A_STAIR};
use super::kind::PropertyName;
use super::value::Value;
use super::vocabulary::{kinds, properties};
use crate::measure::{Dimension, equal};

impl Design {
    /// Makes a riser for each item of a flight's risers, a tread for each of its runs; where a flight states no such
    /// list, or none that could be read, one that no rule can settle stands for them all. False if they are more than
    /// can be checked; then the rest of them are not made.
    pub fn expand_steps(&mut self) -> bool {
        self.drawn = self.elements.len();
        let whole = self.make_steps();
        self.by_kind = Arc::new(ByKind::of(&self.elements, self.drawn));
        whole
    }

    /// Something is overhead wherever it is not said that the stair stands outdoors: a ceiling of which nothing is
    /// known hangs over whatever part of a flight or a landing no ceiling is drawn over. A headroom stated for the stair as
    /// a whole is that of its landings too.
    fn unseen_ceilings(&mut self) {
        let outdoors = self.stated(0, properties::SETTING).and_then(|setting| setting.value.as_ref());
        if matches!(outdoors, Some(Value::Word(word)) if word == "outdoors") {
            return;
        }
        let places: Vec<Id> = self.drawn_of_kind(kinds::FLIGHT).chain(self.drawn_of_kind(kinds::LANDING)).collect();
        for place in places {
            if self.elements.len() < MOST_OF_A_STAIR
                && (!self.is_overhung(place) || self.lacks_underside_of_floor(place))
            {
                let span = self.get(place).map(|place| place.span).unwrap_or_default();
                let ceiling =
                    Element { parent: Some(place), serves: Some(place), span, ..Element::bare(kinds::CEILING) };
                self.elements.push(Arc::new(ceiling));
            }
        }
    }

    /// A floor that the steps come up through has a well in it: where a ceiling that may be that floor's ends over a
    /// flight, or hangs over the ends of its treads, and no well is drawn, one of which nothing is known stands for it.
    fn unseen_well(&mut self) {
        if self.elements.len() >= MOST_OF_A_STAIR || self.drawn_of_kind(kinds::WELL).next().is_some() {
            return;
        }
        let ceilings = self.drawn_of_kind(kinds::CEILING);
        if let Some(floor) = ceilings.filter(|id| self.may_be_floor_above(*id)).min() {
            let span = self.get(floor).map(|floor| floor.span).unwrap_or_default();
            self.elements.push(Arc::new(Element { parent: Some(0), span, ..Element::bare(kinds::WELL) }));
        }
    }

    /// Whether a ceiling over part of a flight may be the underside of the floor at its head: it says so, or says
    /// nothing of whose it is and does not lie as high as the flight goes.
    fn may_be_floor_above(&self, ceiling: Id) -> bool {
        if let Some(part) = self.stated(ceiling, properties::PART_OF) {
            return matches!(&part.value, Some(Value::Word(word)) if word == "floor")
                && self.over_flight(ceiling).is_some();
        }
        let Some(flight) = self.over_flight(ceiling) else { return false };
        let measure = |name| match self.stated(ceiling, name).map(|stated| &stated.value) {
            Some(Some(Value::Measure(measure))) => Some(measure.value),
            _ => None,
        };
        let slopes = [properties::SLOPE, properties::FALL, properties::FALL_ACROSS];
        let rises = slopes.into_iter().any(|name| self.stated(ceiling, name).is_some());
        let ends = measure(properties::TO).zip(self.level_length(flight)).is_some_and(|(to, end)| to < end);
        let below_head = measure(properties::HEIGHT).is_none_or(|height| height < self.rise_from(flight));
        !rises && below_head && (self.hangs_beside(ceiling) || ends)
    }

    /// The flight that a ceiling hangs over, where it is one.
    fn over_flight(&self, ceiling: Id) -> Option<Id> {
        let mut over = self.drawn_of_kind(kinds::FLIGHT).filter(|flight| self.belongs(ceiling, *flight));
        let first = over.next()?;
        over.next().is_none().then_some(first)
    }

    /// From the foot of a flight to the head of the last one, as far as their risers are stated.
    fn rise_from(&self, flight: Id) -> f64 {
        let risers = |flight: Id| match self.stated(flight, properties::RISERS).map(|risers| &risers.value) {
            Some(Some(Value::List(items))) => items.iter().map(|item| item.measure.value).sum::<f64>(),
            _ => 0.0,
        };
        self.drawn_of_kind(kinds::FLIGHT).filter(|other| *other >= flight).map(risers).sum()
    }

    /// Properties by which it is known what hangs over a flight, and how far.
    pub const OVERHEAD: [PropertyName; 12] = [
        properties::LENGTH,
        properties::RISERS,
        properties::RUNS,
        properties::SLOPE,
        properties::FALL,
        properties::FALL_ACROSS,
        properties::OVER,
        properties::PART_OF,
        properties::HEADROOM,
        properties::HEIGHT,
        properties::FROM,
        properties::TO,
    ];

    /// Whether the floor at the head reaches over the last flight as far as its well begins, and nothing is said of how low
    /// its underside hangs there.
    pub fn lacks_underside_of_floor(&self, flight: Id) -> bool {
        let Some(well) = self.drawn_of_kind(kinds::WELL).next() else { return false };
        if self.drawn_of_kind(kinds::FLIGHT).last() != Some(flight) {
            return false;
        }
        let length = match self.stated(well, properties::LENGTH).map(|length| &length.value) {
            Some(Some(Value::Measure(measure))) => Some(measure.value),
            _ => None,
        };
        let shorter = |(length, run): (f64, f64)| length < run && !equal(length, run, Dimension::LENGTH);
        let reaches_over = length.zip(self.level_length(flight)).is_none_or(shorter);
        let mut over = self.drawn_of_kind(kinds::CEILING).filter(|id| self.belongs(*id, flight));
        let settles = |ceiling: Id| {
            self.may_be_floor_above(ceiling)
                || self.stated(ceiling, properties::HEADROOM).is_some()
                    && self.stated(ceiling, properties::PART_OF).is_none()
        };
        reaches_over && !over.any(settles)
    }

    /// Whether the ceilings that are drawn leave nothing of a flight; whether those over a landing, if there are any,
    /// leave nothing of it.
    fn is_overhung(&self, place: Id) -> bool {
        let over: Vec<Id> = self.drawn_of_kind(kinds::CEILING).filter(|id| self.belongs(*id, place)).collect();
        if over.is_empty() {
            return self.is(place, kinds::LANDING) && self.states_headroom_of_all();
        }
        // Only what is stated can fall short; what was said of an end and not understood was reported there.
        let end_of = |ceiling: Id, end| match self.stated(ceiling, end)?.value {
            Some(Value::Measure(measure)) => Some(measure.value),
            _ => None,
        };
        let reach = |ceiling: Id| {
            let from = end_of(ceiling, properties::FROM).unwrap_or(f64::NEG_INFINITY);
            (from, end_of(ceiling, properties::TO).unwrap_or(f64::INFINITY))
        };
        let mut reaches: Vec<(f64, f64)> = over.into_iter().filter(|id| !self.hangs_beside(*id)).map(reach).collect();
        reaches.sort_by(|one, other| one.0.total_cmp(&other.0));
        let end = self.level_length(place).unwrap_or(f64::INFINITY);
        let meets = |one: f64, other: f64| one >= other || equal(one, other, Dimension::LENGTH);
        let mut covered = 0.0;
        for (from, to) in reaches {
            covered = if meets(covered, from) { f64::max(covered, to) } else { covered };
        }
        meets(covered, end)
    }

    /// Whether a ceiling that is drawn in no flight and no landing hangs over all of the stair by its headroom.
    fn states_headroom_of_all(&self) -> bool {
        let ends = [properties::FROM, properties::TO, properties::OVERHANG];
        self.drawn_of_kind(kinds::CEILING).filter_map(|id| Some((id, self.get(id)?))).any(|(id, ceiling)| {
            let part = ends.iter().any(|end| self.stated(id, *end).is_some()) || self.hangs_beside(id);
            ceiling.parent == Some(0) && !part && self.stated(id, properties::HEADROOM).is_some()
        })
    }

    /// Whether a ceiling hangs over the ends of the treads alone.
    fn hangs_beside(&self, ceiling: Id) -> bool {
        let over = self.stated(ceiling, properties::OVER).and_then(|over| over.value.as_ref());
        matches!(over, Some(Value::Word(word)) if word == "the ends of the treads")
    }

    /// How long a flight or a landing is, level, in the direction of travel, where that is stated.
    fn level_length(&self, place: Id) -> Option<f64> {
        if self.is(place, kinds::FLIGHT) && self.has_one_riser(place) {
            return Some(0.0);
        }
        let of = if self.is(place, kinds::FLIGHT) { properties::RUNS } else { properties::DEPTH };
        match self.stated(place, of)?.value.as_ref()? {
            Value::List(items) => Some(items.iter().map(|item| item.measure.value).sum()),
            Value::Measure(measure) => Some(measure.value),
            _ => None,
        }
    }

    fn make_steps(&mut self) -> bool {
        let flights: Vec<Id> = self.drawn_of_kind(kinds::FLIGHT).collect();
        let mut unlisted = Vec::new();
        for flight in flights {
            for kind in [kinds::RISER, kinds::TREAD] {
                let list = kind.list().and_then(|list| self.stated(flight, list));
                let base = self.tread_block(flight).filter(|_| kind == kinds::TREAD);
                // A flight of one riser has no tread, and need not say so.
                if kind == kinds::TREAD && list.is_none() && self.has_one_riser(flight) {
                    continue;
                }
                let step = Element { parent: Some(flight), base, serves: Some(flight), ..Element::bare(kind) };
                let Some(Value::List(items)) = list.and_then(|list| list.value.as_ref()) else {
                    let span = self.get(flight).map(|flight| flight.span).unwrap_or_default();
                    unlisted.push(Element { span: list.map_or(span, |list| list.span), ..step });
                    continue;
                };
                if self.elements.len() + items.len() > MOST_OF_A_STAIR {
                    return false;
                }
                let made = items.iter().enumerate();
                let made = made.map(|(at, item)| Element { step: Some(at), span: item.span, ..step.clone() });
                let made: Vec<Arc<Element>> = made.map(Arc::new).collect();
                self.elements.extend(made);
            }
        }
        self.unseen_ceilings();
        self.unseen_well();
        // Where no flight states its runs, the block that draws the treads stands for them.
        let of_no_block = |step: &Element| step.kind == kinds::TREAD && step.base.is_none();
        let stepped = self.elements.iter().skip(self.drawn).any(|step| step.kind == kinds::TREAD)
            || unlisted.iter().any(of_no_block);
        unlisted.retain(|step| stepped || step.base.is_none());
        self.elements.extend(unlisted.into_iter().map(Arc::new));
        true
    }

    fn has_one_riser(&self, flight: Id) -> bool {
        let risers = kinds::RISER.list().and_then(|list| self.stated(flight, list));
        matches!(risers.and_then(|list| list.value.as_ref()), Some(Value::List(items)) if items.len() == 1)
    }

    fn tread_block(&self, flight: Id) -> Option<Id> {
        let blocks = |within: Id| {
            self.elements
                .iter()
                .take(self.drawn)
                .position(move |element| element.kind == kinds::TREAD && element.parent == Some(within))
        };
        blocks(flight).or_else(|| blocks(0))
    }
}
