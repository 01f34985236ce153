//! One pass over one design: quantities asked for, remembered, with the record of what each one read.

use std::borrow::Cow;
use std::cell::RefCell;
use std::rc::Rc;

use super::missing::{Drawing, Missing, Reason, Statement, Undefined};
use super::quantity::{Asked, Derive, Quantity};
use crate::base::Span;
use crate::measure::{Dimension, Measure, Style};
use crate::model::{
    Design, Edge, Fasteners, Id, Kind, ListItem, PropertyName, Section, Stated, Takes, Timber, Value, kinds, properties,
};

/// A value that a rule can hold.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Datum {
    /// A number.
    Measure(Measure),
    /// One for each step.
    List(Vec<ListItem>),
    /// A word.
    Word(Cow<'static, str>),
}

/// What a derivation gives.
pub type Derived = Result<Datum, Missing>;

/// A custom that stands in for what is not stated, in the one closed list of them.
#[derive(Debug, PartialEq, Eq)]
pub struct Custom {
    /// What is taken to be so.
    pub sentence: &'static str,
}

/// Every customary default. A report lists the ones it used.
pub static CUSTOMS: &[Custom] = &[
    Custom {
        sentence: "No `ground` is drawn: the ground beside the stair is taken as level with the floor at its foot.",
    },
    Custom { sentence: "No `bottom finish` is stated: no floor finish is taken to be still to come at the foot." },
    Custom { sentence: "No `boards` is stated: each tread is taken as one board." },
    Custom { sentence: "No `nosing` of the landing above is stated: its edge is taken as even with the treads'." },
];
pub(super) const LEVEL_GROUND: usize = 0;
pub(super) const NO_FINISH: usize = 1;
pub(super) const ONE_BOARD: usize = 2;
pub(super) const EVEN_NOSING: usize = 3;

/// Where something that was read comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// Words of the design.
    Stated {
        /// The property that they state.
        property: PropertyName,
        /// Where.
        span: Span,
        /// As measured, not as drawn.
        measured: bool,
    },
    /// Another quantity, and the place it was asked at, where it is asked at one.
    Derived(&'static Quantity, Option<Measure>),
    /// A custom.
    Custom(&'static Custom),
}

/// One thing that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// Of what.
    pub element: Id,
    /// From where.
    pub input: Input,
    /// What it was.
    pub datum: Option<Datum>,
}

impl Read {
    /// The name it was read by.
    pub fn name(&self) -> &'static str {
        match self.input {
            Input::Stated { property, .. } => property.text(),
            Input::Derived(quantity, _) => quantity.name,
            Input::Custom(_) => "custom",
        }
    }
}

/// A quantity worked out.
#[derive(Debug, PartialEq)]
pub struct Worked {
    /// Which.
    pub quantity: &'static Quantity,
    /// Of what.
    pub element: Id,
    /// At which place, where it is asked at one.
    pub place: Option<Measure>,
    /// What came out.
    pub result: Derived,
    /// What was read on the way.
    pub reads: Vec<Read>,
}

#[derive(Default)]
struct Frame {
    reads: Vec<Read>,
    style: Option<Style>,
}

/// One pass over one design.
pub struct Working<'d> {
    /// The design.
    pub design: &'d Design,
    /// A short row for each element: few quantities are asked of one.
    memo: RefCell<Vec<Vec<Rc<Worked>>>>,
    frames: RefCell<Vec<Frame>>,
}

/// The properties by which a joint is fastened.
const FASTENINGS: &[PropertyName] = &[properties::BOLTS, properties::LAGS, properties::SCREWS, properties::NAILS];

/// Deeper than any derivation of the catalogue goes; a circle in it would be a fault of ours.
const DEEPEST: usize = 40;

impl<'d> Working<'d> {
    /// A fresh pass over a design.
    pub fn new(design: &'d Design) -> Self {
        Self { design, memo: RefCell::default(), frames: RefCell::default() }
    }

    /// Works out a quantity, or remembers it. One that is asked at a place needs it; to others it means nothing.
    pub fn work(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Rc<Worked> {
        let asked = |worked: &&Rc<Worked>| std::ptr::eq(worked.quantity, entry) && worked.place == place;
        let known = |row: &Vec<Rc<Worked>>| row.iter().find(asked).map(Rc::clone);
        if let Some(worked) = self.memo.borrow().get(id).and_then(known) {
            return worked;
        }
        if self.frames.borrow().len() > DEEPEST {
            let result = Err(Missing::new(id, Reason::Undefined(entry, Undefined::Circular)));
            return Rc::new(Worked { quantity: entry, element: id, place, result, reads: Vec::new() });
        }
        let (result, reads) = self.trace(|| match (entry.derive, place) {
            (Derive::Whole(derive), _) => derive(self, id),
            (Derive::At(derive), Some(place)) => derive(self, id, place.value),
            (Derive::At(_), None) => Err(Missing::new(id, Reason::Undefined(entry, Undefined::WithoutPlace))),
        });
        let worked = Rc::new(Worked { quantity: entry, element: id, place, result, reads });
        let mut memo = self.memo.borrow_mut();
        if memo.len() <= id {
            memo.resize_with(id + 1, Vec::new);
        }
        if let Some(row) = memo.get_mut(id) {
            row.push(Rc::clone(&worked));
        }
        drop(memo);
        worked
    }

    /// Runs something and gives back what it read.
    pub fn trace<T>(&self, run: impl FnOnce() -> T) -> (T, Vec<Read>) {
        self.frames.borrow_mut().push(Frame::default());
        let result = run();
        let reads = self.frames.borrow_mut().pop().unwrap_or_default().reads;
        (result, reads)
    }

    /// Notes reads of an inner trace as reads of this one.
    pub fn note_again(&self, reads: Vec<Read>) {
        if let Some(frame) = self.frames.borrow_mut().last_mut() {
            frame.reads.extend(reads);
        }
    }

    fn note(&self, element: Id, input: Input, datum: Option<Datum>) {
        if let Some(frame) = self.frames.borrow_mut().last_mut() {
            if frame.style.is_none()
                && let Some(Datum::Measure(measure)) = &datum
                && measure.dimension == Dimension::LENGTH
                // Nothing at all has no unit to speak of.
                && measure.value != 0.0
            {
                frame.style = Some(measure.style);
            }
            if frame.style.is_none()
                && let Some(Datum::List(items)) = &datum
            {
                frame.style = items.first().map(|item| item.measure.style);
            }
            frame.reads.push(Read { element, input, datum });
        }
    }

    /// Uses a custom, and says so.
    pub(super) fn custom(&self, which: usize, element: Id) {
        if let Some(custom) = CUSTOMS.get(which) {
            self.note(element, Input::Custom(custom), None);
        }
    }

    /// Things of a kind that belong to an element.
    ///
    /// # Errors
    /// Where a list of steps, or a block that may be one of them, could not be read: then they cannot be counted.
    pub fn things(&self, kind: &'static Kind, to: Id) -> Result<Vec<Id>, Missing> {
        if let Some(list) = kind.list() {
            let of_flight = self.design.is(to, kinds::FLIGHT);
            for flight in self.design.belonging(kinds::FLIGHT, to).filter(|flight| !of_flight || *flight == to) {
                self.list(flight, list)?;
            }
        }
        if self.design.unread.contains(&kind) {
            return Err(Missing::new(to, Reason::BlockNotUnderstood(kind)));
        }
        Ok(self.design.belonging(kind, to).collect())
    }

    /// For a property that is not stated, or stated in words that could not be read.
    pub fn missing(&self, id: Id, property: PropertyName) -> Missing {
        let id = self.design.get(id).and_then(|element| element.base).unwrap_or(id);
        if let Some(step) = self.design.get(id).filter(|element| element.step.is_some()) {
            return Missing::statement(step.parent.unwrap_or(id), Statement::OfBlock(property, step.kind));
        }
        let statement = Statement::Property(property);
        let unread = self.design.stated(id, property).is_some_and(|stated| stated.value.is_none());
        Missing::new(id, if unread { Reason::NotUnderstood(statement) } else { Reason::NotStated(statement) })
    }

    /// For a kind of which none is drawn.
    pub fn not_drawn(&self, id: Id, kind: &'static Kind) -> Missing {
        Missing::drawing(id, Drawing::A(kind))
    }

    /// For a thing drawn that does not say at which side it stands.
    pub(super) fn side_not_known(&self, id: Id) -> Missing {
        let kind = self.design.kind(id).unwrap_or(kinds::GUARD);
        Missing::drawing(id, Drawing::SideOf(kind))
    }

    /// The value of a quantity or a stated property.
    pub fn datum(&self, id: Id, asked: impl Into<Asked>) -> Derived {
        match asked.into() {
            Asked::Quantity(entry) => self.derived(id, entry, None),
            Asked::Property(property) => self.stated(id, property),
        }
    }

    /// The value of a quantity, asked at a place where it is asked at one.
    pub fn derived(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Derived {
        let worked = self.work(id, entry, place);
        self.note(id, Input::Derived(entry, place), worked.result.as_ref().ok().cloned());
        worked.result.clone()
    }

    /// The value of a stated property, as a rule reads it.
    pub fn stated(&self, id: Id, property: PropertyName) -> Derived {
        let stated = self.known(id, property)?;
        let datum = match &stated.value {
            Some(Value::Measure(measure)) => Some(Datum::Measure(*measure)),
            Some(Value::List(items)) => match items.as_slice() {
                [only] => Some(Datum::Measure(only.measure)),
                _ => Some(Datum::List(items.clone())),
            },
            Some(Value::Word(word)) => Some(Datum::Word(match stated.property.takes {
                // A word of a closed list is at hand already.
                Takes::OneOf(words) => words
                    .iter()
                    .find(|known| *known == word)
                    .map_or_else(|| Cow::Owned(word.clone()), |known| Cow::Borrowed(*known)),
                _ => Cow::Owned(word.clone()),
            })),
            Some(Value::Finish(word, _)) => Some(Datum::Word(Cow::Owned(word.clone()))),
            Some(Value::Edge(edge)) => Some(Datum::Word(Cow::Borrowed(match edge {
                Edge::Square => "square",
                Edge::Radius(_) => "radius",
                Edge::Bevel(_) => "bevel",
            }))),
            _ => None,
        };
        let input = Input::Stated { property, span: stated.span, measured: stated.measured };
        self.note(id, input, datum.clone());
        datum.ok_or_else(|| self.missing(id, property))
    }

    /// The word of a stated property, or the one that stands where it is not stated.
    pub(super) fn stated_or(&self, id: Id, property: PropertyName, otherwise: &'static str) -> Derived {
        if self.design.stated(id, property).is_some() { self.stated(id, property) } else { Self::say(otherwise) }
    }

    fn known(&self, id: Id, property: PropertyName) -> Result<&'d Stated, Missing> {
        let stated = self.design.stated(id, property).filter(|stated| stated.value.is_some());
        stated.ok_or_else(|| self.missing(id, property))
    }

    /// Notes that a stated value was read.
    fn read(&self, id: Id, property: PropertyName, stated: &Stated) {
        self.note(id, Input::Stated { property, span: stated.span, measured: stated.measured }, None);
    }

    /// A number in base units.
    pub(super) fn number(&self, id: Id, asked: impl Into<Asked>) -> Result<f64, Missing> {
        let asked = asked.into();
        match self.datum(id, asked)? {
            Datum::Measure(measure) => Ok(measure.value),
            _ => Err(self.no_such_value(id, asked)),
        }
    }

    /// A number in base units, from a quantity asked at a place.
    pub(super) fn number_at(&self, id: Id, entry: &'static Quantity, place: f64) -> Result<f64, Missing> {
        let style = self.frames.borrow().last().and_then(|frame| frame.style).unwrap_or(Style::INCHES);
        let place = Measure { value: place, dimension: Dimension::LENGTH, style };
        match self.derived(id, entry, Some(place))? {
            Datum::Measure(measure) => Ok(measure.value),
            _ => Err(self.no_such_value(id, entry.into())),
        }
    }

    /// A word.
    pub(super) fn word(&self, id: Id, asked: impl Into<Asked>) -> Result<Cow<'static, str>, Missing> {
        let asked = asked.into();
        match self.datum(id, asked)? {
            Datum::Word(word) => Ok(word),
            _ => Err(self.no_such_value(id, asked)),
        }
    }

    /// For a value of another sort than the one that is read: a list of several where a number stands.
    fn no_such_value(&self, id: Id, asked: Asked) -> Missing {
        match asked {
            Asked::Property(property) => self.missing(id, property),
            Asked::Quantity(entry) => Missing::new(id, Reason::Undefined(entry, Undefined::OtherSort)),
        }
    }

    /// Every item of a stated list, base units. A flight of one riser has no runs, and need not say so.
    pub(super) fn list(&self, id: Id, name: PropertyName) -> Result<Vec<f64>, Missing> {
        if name == properties::RUNS
            && self.design.stated(id, name).is_none()
            && self.list(id, properties::RISERS).is_ok_and(|risers| risers.len() == 1)
        {
            return Ok(Vec::new());
        }
        let stated = self.known(id, name)?;
        let Some(Value::List(items)) = &stated.value else { return Err(self.missing(id, name)) };
        let input = Input::Stated { property: name, span: stated.span, measured: stated.measured };
        self.note(id, input, Some(Datum::List(items.clone())));
        Ok(items.iter().map(|item| item.measure.value).collect())
    }

    /// The item of a stated list for a step; a list of one item serves all.
    pub(super) fn item(&self, id: Id, name: PropertyName, step: usize) -> Result<Measure, Missing> {
        let stated = self.known(id, name)?;
        let Some(Value::List(items)) = &stated.value else { return Err(self.missing(id, name)) };
        let item = match items.as_slice() {
            [only] => Some(only),
            items => items.get(step),
        };
        let Some(item) = item else { return Err(self.missing(id, name)) };
        let input = Input::Stated { property: name, span: item.span, measured: stated.measured };
        self.note(id, input, Some(Datum::Measure(item.measure)));
        Ok(item.measure)
    }

    /// A stated section.
    pub(super) fn section(&self, id: Id) -> Result<Section, Missing> {
        let stated = self.known(id, properties::SECTION)?;
        let Some(Value::Section(section)) = &stated.value else { return Err(self.missing(id, properties::SECTION)) };
        let input = Input::Stated { property: properties::SECTION, span: stated.span, measured: stated.measured };
        self.note(id, input, Some(Datum::Measure(section.measure)));
        Ok(*section)
    }

    /// A stated timber.
    pub(super) fn timber(&self, id: Id) -> Result<&'d Timber, Missing> {
        let stated = self.known(id, properties::TIMBER)?;
        let Some(Value::Timber(timber)) = &stated.value else { return Err(self.missing(id, properties::TIMBER)) };
        self.read(id, properties::TIMBER, stated);
        Ok(timber)
    }

    /// A stated value of any other sort.
    pub(super) fn value(&self, id: Id, name: PropertyName) -> Result<&'d Value, Missing> {
        let stated = self.known(id, name)?;
        self.read(id, name, stated);
        stated.value.as_ref().ok_or_else(|| self.missing(id, name))
    }

    /// The fasteners of a joint.
    pub(super) fn fasteners(&self, id: Id) -> Result<&'d Fasteners, Missing> {
        for name in FASTENINGS.iter().copied() {
            if let Ok(stated) = self.known(id, name)
                && let Some(Value::Fasteners(fasteners)) = &stated.value
            {
                let input = Input::Stated { property: name, span: stated.span, measured: stated.measured };
                self.note(id, input, Some(Datum::Measure(fasteners.diameter)));
                return Ok(fasteners);
            }
        }
        Err(Missing::statement(id, Statement::OneOf(FASTENINGS)))
    }

    /// The flight that an element is part of or serves.
    pub(super) fn flight_of(&self, id: Id) -> Result<Id, Missing> {
        self.design.related(id, kinds::FLIGHT).ok_or_else(|| self.not_drawn(id, kinds::FLIGHT))
    }

    /// The parent of an element.
    pub(super) fn parent(&self, id: Id) -> Id {
        self.design.get(id).and_then(|element| element.parent).unwrap_or(0)
    }

    /// The step of an element.
    pub(super) fn step(&self, id: Id) -> usize {
        self.design.get(id).and_then(|element| element.step).unwrap_or(0)
    }

    /// A length, written as the lengths that it came from.
    pub(super) fn length(&self, value: f64) -> Derived {
        self.give(value, Dimension::LENGTH)
    }

    /// An area, written in the units of the lengths that it came from.
    pub(super) fn area(&self, value: f64) -> Derived {
        self.give(value, Dimension::AREA)
    }

    /// A plain number.
    pub(super) fn plain(value: f64) -> Derived {
        Ok(Datum::Measure(Measure::number(value)))
    }

    /// A word.
    pub(super) fn say(word: &'static str) -> Derived {
        Ok(Datum::Word(Cow::Borrowed(word)))
    }

    fn give(&self, value: f64, dimension: Dimension) -> Derived {
        let style = self.frames.borrow().last().and_then(|frame| frame.style).unwrap_or(Style::INCHES);
        Ok(Datum::Measure(Measure { value, dimension, style: style.for_dimension(dimension) }))
    }

    /// Every stated value behind some reads, with what it states; each place once.
    pub fn stated_behind(&self, reads: &[Read]) -> Vec<StatedRead> {
        let mut found = Vec::new();
        self.walk(reads, &mut |read| {
            if let Input::Stated { property, span, measured } = read.input
                && !found.iter().any(|stated: &StatedRead| stated.span == span)
            {
                found.push(StatedRead { span, property, element: read.element, measured });
            }
        });
        found
    }

    /// Every custom behind some reads.
    pub fn customs_behind(&self, reads: &[Read]) -> Vec<&'static Custom> {
        let mut found = Vec::new();
        self.walk(reads, &mut |read| {
            if let Input::Custom(custom) = read.input
                && !found.contains(&custom)
            {
                found.push(custom);
            }
        });
        found
    }

    /// Visits reads depth first, in the order they were read.
    fn walk(&self, reads: &[Read], visit: &mut impl FnMut(&Read)) {
        let mut seen = std::collections::BTreeSet::new();
        self.walk_within(reads, visit, &mut seen);
    }

    fn walk_within(
        &self,
        reads: &[Read],
        visit: &mut impl FnMut(&Read),
        seen: &mut std::collections::BTreeSet<(Id, usize, Option<u64>)>,
    ) {
        for read in reads {
            visit(read);
            if let Input::Derived(entry, place) = read.input
                && seen.insert((read.element, std::ptr::from_ref(entry) as usize, place.map(|at| at.value.to_bits())))
            {
                let worked = self.work(read.element, entry, place);
                self.walk_within(&worked.reads, visit, seen);
            }
        }
    }
}

/// A stated value behind a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StatedRead {
    /// Where it stands.
    pub span: Span,
    /// The property.
    pub property: PropertyName,
    /// Of what.
    pub element: Id,
    /// As measured, not as drawn.
    pub measured: bool,
}
