//! How derivations read what is stated, and quantities, of an element: each in the sort that they ask for.

use std::borrow::Cow;

use super::custom::Units;
use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, word};
use super::missing::{Drawing, Missing, Reason, Statement, Undefined};
use super::quantity::{Asked, Quantity};
use super::trace::Input;
use crate::measure::{Dimension, Measure};
use crate::model::{
    Edge, Fasteners, Id, Kind, ListItem, PropertyName, Section, Side, Stated, Timber, Value, kinds, properties,
};

/// The properties by which a joint is fastened.
const FASTENINGS: &[PropertyName] = &[properties::BOLTS, properties::LAGS, properties::SCREWS, properties::NAILS];

/// The values of a list, in base units.
pub(super) fn values(items: &[ListItem]) -> impl DoubleEndedIterator<Item = f64> + ExactSizeIterator + Clone + '_ {
    items.iter().map(|item| item.measure.value)
}

/// In which units the numbers of a stated value are written.
fn units(value: &Value) -> Units {
    let all = |measures: &[Option<&Measure>]| {
        measures.iter().flatten().fold(Units::None, |units, measure| units.and(Units::of(measure)))
    };
    match value {
        Value::Measure(measure) | Value::Edge(Edge::Radius(measure) | Edge::Bevel(measure)) => Units::of(measure),
        Value::List(items) => items.iter().fold(Units::None, |units, item| units.and(Units::of(&item.measure))),
        Value::Section(section) => Units::of(&section.measure),
        Value::Finish(finish) => all(&[finish.strip.as_ref()]),
        Value::Balusters(balusters) => all(&[Some(&balusters.width), balusters.every.as_ref()]),
        Value::Fasteners(fasteners) => all(&[Some(&fasteners.diameter), fasteners.length.as_ref()]),
        _ => Units::None,
    }
}

impl<'d> Evaluation<'d> {
    /// The value of a quantity or a stated property.
    pub fn datum(&self, id: Id, asked: impl Into<Asked>) -> Derived {
        match asked.into() {
            Asked::Quantity(entry) => self.derived(id, entry, None),
            Asked::Property(property) => self.stated(id, property),
        }
    }

    /// The value of a stated property, as a rule reads it.
    pub fn stated(&self, id: Id, property: PropertyName) -> Derived {
        let stated = self.known(id, property)?;
        let datum = match &stated.value {
            Some(Value::Measure(measure)) => Some(Datum::Measure(*measure)),
            Some(Value::List(items)) => match &**items {
                [only] => Some(Datum::Measure(only.measure)),
                _ => Some(Datum::List(items.clone())),
            },
            Some(Value::Word(word)) => Some(Datum::Word(word.clone())),
            Some(Value::Finish(finish)) => Some(Datum::Word(Cow::Owned(finish.words()))),
            Some(Value::Edge(edge)) => Some(Datum::Word(Cow::Borrowed(match edge {
                Edge::Square => "square",
                Edge::Radius(_) => "radius",
                Edge::Bevel(_) => "bevel",
            }))),
            _ => None,
        };
        self.read(id, property, stated, datum.as_ref());
        datum.ok_or_else(|| self.missing(id, property))
    }

    /// The word of a stated property, or the one that stands where it is not stated.
    pub(super) fn stated_or(&self, id: Id, property: PropertyName, otherwise: &'static str) -> Derived {
        if self.looked_up(id, property).is_some() { self.stated(id, property) } else { word(otherwise) }
    }

    /// Notes that a stated value was read.
    fn read(&self, id: Id, property: PropertyName, stated: &Stated, datum: Option<&Datum>) {
        let units = stated.value.as_ref().map_or(Units::None, units);
        self.note(id, Input::Stated { property, span: stated.span, measured: stated.measured }, datum, units);
    }

    /// Notes that something measured was read: the first figure of it.
    pub(super) fn read_measured(&self) {
        let measured = |id: Id| self.design.get(id)?.stated.iter().find(|stated| stated.measured);
        let first = (0..self.design.drawn).find_map(|id| Some((id, measured(id)?)));
        if let Some((id, stated)) = first {
            self.read(id, stated.property.handle(), stated, None);
        }
    }

    /// A number in base units.
    pub(super) fn number(&self, id: Id, asked: impl Into<Asked>) -> Result<f64, Missing> {
        let asked = asked.into();
        match self.datum(id, asked)? {
            Datum::Measure(measure) => Ok(measure.value),
            _ => Err(self.of_another_sort(id, asked)),
        }
    }

    /// A number in base units, from a quantity asked at a place.
    pub(super) fn number_at(&self, id: Id, entry: &'static Quantity, place: f64) -> Result<f64, Missing> {
        let place = Measure { value: place, dimension: Dimension::LENGTH, style: self.style() };
        match self.derived(id, entry, Some(place))? {
            Datum::Measure(measure) => Ok(measure.value),
            _ => Err(self.of_another_sort(id, entry.into())),
        }
    }

    /// A word.
    pub(super) fn word(&self, id: Id, asked: impl Into<Asked>) -> Result<Cow<'static, str>, Missing> {
        let asked = asked.into();
        match self.datum(id, asked)? {
            Datum::Word(word) => Ok(word),
            _ => Err(self.of_another_sort(id, asked)),
        }
    }

    /// For a value of another sort than the one that is read: a list of several where a number stands.
    fn of_another_sort(&self, id: Id, asked: Asked) -> Missing {
        match asked {
            Asked::Property(property) => self.missing(id, property),
            Asked::Quantity(entry) => Missing::new(id, Reason::Undefined(entry, Undefined::OtherSort)),
        }
    }

    /// Every item of a stated list. A flight of one riser has no runs, and need not say so.
    pub(super) fn list(&self, id: Id, property: PropertyName) -> Result<&'d [ListItem], Missing> {
        if property == properties::RUNS
            && self.looked_up(id, property).is_none()
            && self.list(id, properties::RISERS).is_ok_and(|risers| risers.len() == 1)
        {
            return Ok(&[]);
        }
        let stated = self.known(id, property)?;
        let Some(Value::List(items)) = &stated.value else { return Err(self.missing(id, property)) };
        self.read(id, property, stated, Some(&Datum::List(items.clone())));
        self.rest_of_list(id, property).map_or(Ok(&**items), Err)
    }

    /// What is missing of a list that has several items and yet fewer than the steps that they are for: of the heights of
    /// a rail the last may stand at the floor above, and need not be stated.
    pub fn rest_of_list(&self, id: Id, property: PropertyName) -> Option<Missing> {
        if property != properties::HEIGHT {
            return None;
        }
        let Some(Value::List(items)) = &self.looked_up(id, property)?.value else { return None };
        let risers = self.design.steps_beside(id, kinds::RISER).into_iter().max()?;
        let end = |property| match self.looked_up(id, property)?.value {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            Some(Value::Measure(measure)) => Some(measure.value.max(0.0) as usize),
            _ => None,
        };
        let from = end(properties::FROM_RISER).unwrap_or(1).max(1);
        let to = end(properties::TO_RISER).unwrap_or(risers).min(risers);
        let steps = (to + 1).saturating_sub(from);
        (items.len() > 1 && items.len() + 1 < steps).then(|| Missing::statement(id, Statement::Property(property)))
    }

    /// The item of a stated list for a step; a list of one item serves all. What stands for all steps of a flight that
    /// lists none is none of several.
    pub(super) fn item_for(&self, step: Id, of: Id, property: PropertyName) -> Result<Measure, Missing> {
        let unlisted = self.design.get(step).filter(|element| element.step.is_none());
        let items = self.looked_up(of, property).and_then(|stated| stated.value.as_ref());
        if let Some(list) = unlisted.and_then(|element| element.kind.list())
            && matches!(items, Some(Value::List(items)) if items.len() > 1)
        {
            return Err(self.missing(self.flight_of(step).unwrap_or_else(|_| self.parent(step)), list));
        }
        self.item(of, property, self.step(step))
    }

    /// An item of a stated list, from 0; a list of one item serves all.
    pub(super) fn item(&self, id: Id, property: PropertyName, step: usize) -> Result<Measure, Missing> {
        let stated = self.known(id, property)?;
        let Some(Value::List(items)) = &stated.value else { return Err(self.missing(id, property)) };
        let item = match &**items {
            [only] => Some(only),
            items => items.get(step),
        };
        let Some(item) = item else { return Err(self.missing(id, property)) };
        let input = Input::Stated { property, span: item.span, measured: stated.measured };
        self.note(id, input, Some(&Datum::Measure(item.measure)), Units::of(&item.measure));
        Ok(item.measure)
    }

    /// A stated section.
    pub(super) fn section(&self, id: Id) -> Result<&'d Section, Missing> {
        let stated = self.known(id, properties::SECTION)?;
        let Some(Value::Section(section)) = &stated.value else { return Err(self.missing(id, properties::SECTION)) };
        self.read(id, properties::SECTION, stated, Some(&Datum::Measure(section.measure)));
        Ok(section)
    }

    /// A stated timber.
    pub(super) fn timber(&self, id: Id) -> Result<&'d Timber, Missing> {
        let stated = self.known(id, properties::TIMBER)?;
        let Some(Value::Timber(timber)) = &stated.value else { return Err(self.missing(id, properties::TIMBER)) };
        self.read(id, properties::TIMBER, stated, None);
        Ok(timber)
    }

    /// A stated value of any other sort.
    pub(super) fn value(&self, id: Id, property: PropertyName) -> Result<&'d Value, Missing> {
        let stated = self.known(id, property)?;
        self.read(id, property, stated, None);
        stated.value.as_ref().ok_or_else(|| self.missing(id, property))
    }

    /// The fasteners of a joint.
    pub(super) fn fasteners(&self, id: Id) -> Result<&'d Fasteners, Missing> {
        for property in FASTENINGS.iter().copied() {
            if let Some(stated) = self.looked_up(id, property)
                && let Some(Value::Fasteners(fasteners)) = &stated.value
            {
                self.read(id, property, stated, Some(&Datum::Measure(fasteners.diameter)));
                return Ok(fasteners);
            }
            if self.looked_up(id, property).is_some() {
                return Err(Missing::not_understood(id, property));
            }
        }
        Err(Missing::statement(id, Statement::OneOf(FASTENINGS)))
    }

    /// The flight that an element is part of or serves.
    pub(super) fn flight_of(&self, id: Id) -> Result<Id, Missing> {
        self.design.related(id, kinds::FLIGHT).ok_or_else(|| match self.design.of_kind(kinds::FLIGHT).len() {
            0 | 1 => self.not_drawn(id, kinds::FLIGHT),
            _ => Missing::drawing(id, Drawing::WhichFlight),
        })
    }

    /// The flight that a step was made for. A tread block without runs has made none.
    pub(super) fn made_for(&self, id: Id, list: PropertyName) -> Result<Id, Missing> {
        let step = self.design.get(id).and_then(|element| element.step);
        match step {
            Some(_) => Ok(self.parent(id)),
            None => Err(match self.design.related(id, kinds::FLIGHT) {
                Some(flight) => self.missing(flight, list),
                None => self.not_drawn(id, kinds::FLIGHT),
            }),
        }
    }

    /// The riser or tread of a flight at a step.
    pub(super) fn step_of(&self, flight: Id, kind: &'static Kind, step: usize) -> Option<Id> {
        let stands = |id: &Id| self.design.get(*id).is_some_and(|element| element.step == Some(step));
        self.design.belonging(kind, flight).find(stands)
    }

    /// The side at which a thing stands.
    pub(super) fn side(&self, id: Id) -> Result<Side, Missing> {
        self.design.get(id).and_then(|thing| thing.side).ok_or_else(|| self.side_not_known(id))
    }

    /// The parent of an element.
    pub(super) fn parent(&self, id: Id) -> Id {
        self.design.get(id).and_then(|element| element.parent).unwrap_or(0)
    }

    /// The step of an element.
    pub(super) fn step(&self, id: Id) -> usize {
        self.design.get(id).and_then(|element| element.step).unwrap_or(0)
    }
}
