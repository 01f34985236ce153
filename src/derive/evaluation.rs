//! One evaluation of one design: quantities asked for and remembered, plainly or with a trace of what each one read.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use super::custom::{Behind, CustomId, Units};
use super::datum::{Datum, Derived};
use super::missing::{Drawing, Missing, Reason, Statement, Undefined};
use super::quantity::Quantity;
use super::trace::{Input, Read, Reads, Worked};
use crate::measure::{Dimension, Measure, Style};
use crate::model::{Design, Id, Kind, PropertyName, PropertyNames, Stated, kinds};

/// What is kept of an evaluation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Keeps {
    /// Values alone.
    Values,
    /// Beside them what was read for each.
    Trace,
}

/// What a derivation under way has read so far.
#[derive(Clone, Copy, Default)]
struct Frame {
    /// How the first length was written that it read.
    style: Option<Style>,
    behind: Behind,
}

/// A quantity that was worked out before.
struct Known {
    place: Option<Measure>,
    result: Derived,
    behind: Behind,
    /// What was looked up for it in what is stated.
    looked_up: PropertyNames,
    /// What it was worked out from, where a trace is kept.
    worked: Option<Rc<Worked>>,
}

/// Which quantity one is that was worked out before. They are kept apart from what came of them: many are looked
/// through for each that is found.
struct Remembered {
    quantity: &'static Quantity,
    /// The one of the same element before it, by its place plus one; nothing where it is the first.
    earlier: usize,
}

/// Quantities that were worked out, in one list: few are asked of one element, and of most elements some.
#[derive(Default)]
struct Memo {
    asked: Vec<Remembered>,
    /// What came of each of those.
    known: Vec<Known>,
    /// The last one of each element, by its place plus one; nothing where there is none.
    last: Vec<usize>,
}

impl Memo {
    #[inline]
    fn get(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Option<&Known> {
        let mut at = *self.last.get(id)?;
        loop {
            let place_in_list = at.checked_sub(1)?;
            let asked = self.asked.get(place_in_list)?;
            if std::ptr::eq(asked.quantity, entry) {
                let known = self.known.get(place_in_list)?;
                if known.place == place {
                    return Some(known);
                }
            }
            at = asked.earlier;
        }
    }

    fn add(&mut self, id: Id, elements: usize, quantity: &'static Quantity, known: Known) {
        if self.last.len() <= id {
            self.last.resize(elements.max(id + 1), 0);
        }
        if let Some(last) = self.last.get_mut(id) {
            self.asked.push(Remembered { quantity, earlier: *last });
            self.known.push(known);
            *last = self.known.len();
        }
    }
}

/// One evaluation of one design.
pub struct Evaluation<'d> {
    /// The design.
    pub design: &'d Design,
    keeps: Keeps,
    memo: RefCell<Memo>,
    frame: Cell<Frame>,
    /// How many derivations are under way.
    depth: Cell<usize>,
    /// What those under way have read, where a trace is kept.
    reads: RefCell<Vec<Read>>,
    /// The properties that were looked up so far, stated or not.
    looked_up: Cell<PropertyNames>,
    /// An evaluation of the same things with something else stated of them.
    before: Option<Before<'d>>,
}

/// An earlier evaluation of the very same things, and the properties of which another value was stated then.
struct Before<'d> {
    evaluation: &'d Evaluation<'d>,
    changed: PropertyNames,
}

/// So many quantities of an element are asked for, about; room is made for no more than so many at once.
const OF_ONE: usize = 8;
const MOST_AT_ONCE: usize = 512;

/// Deeper than any derivation of the catalogue goes; a circle in it would be a fault of ours.
const DEEPEST: usize = 40;

impl<'d> Evaluation<'d> {
    /// An evaluation that keeps values alone: several times as fast as one with a trace.
    pub fn plain(design: &'d Design) -> Self {
        let evaluation = Self::keeping(design, Keeps::Values);
        let usual = (design.elements.len() * OF_ONE).min(MOST_AT_ONCE);
        evaluation.memo.replace(Memo {
            asked: Vec::with_capacity(usual),
            known: Vec::with_capacity(usual),
            last: Vec::with_capacity(design.elements.len()),
        });
        evaluation
    }

    /// An evaluation that keeps what was read for each value.
    pub fn traced(design: &'d Design) -> Self {
        Self::keeping(design, Keeps::Trace)
    }

    /// A plain evaluation of a design that was made from another by a change of what is stated. What rests on nothing
    /// that was changed is as it was.
    pub fn after(design: &'d Design, before: &'d Evaluation<'d>) -> Self {
        let changed = design.changed_since(before.design);
        let before = changed.map(|changed| Before { evaluation: before, changed });
        Self { before, ..Self::keeping(design, Keeps::Values) }
    }

    /// Whether what rests on these properties alone may be another than before the change that this follows.
    pub fn may_change(&self, looked_up: PropertyNames) -> bool {
        self.before.as_ref().is_none_or(|before| before.changed.may_share(looked_up))
    }

    /// Whether it follows an evaluation of the very same things.
    pub fn is_of_same_things(&self) -> bool {
        self.before.is_some()
    }

    fn keeping(design: &'d Design, keeps: Keeps) -> Self {
        Self {
            design,
            keeps,
            memo: RefCell::default(),
            frame: Cell::default(),
            depth: Cell::new(0),
            reads: RefCell::default(),
            looked_up: Cell::default(),
            before: None,
        }
    }

    /// An evaluation of the same things as they were drawn, where this is one of what was measured of them.
    pub fn drawn(&self) -> Option<Evaluation<'d>> {
        self.design.as_drawn.as_deref().map(Self::plain)
    }

    /// Takes what was looked up in another evaluation for looked up in this one too.
    pub fn looks_up_as(&self, other: &Evaluation<'_>) {
        let mut looked_up = self.looked_up.get();
        looked_up.add_all(other.looked_up.get());
        self.looked_up.set(looked_up);
    }

    /// What is stated of a property, on the element or on the block it shares. Whatever is worked out looks it up here,
    /// and nowhere else, so that it is known what it rests on.
    #[inline]
    pub fn looked_up(&self, id: Id, property: PropertyName) -> Option<&'d Stated> {
        let element = self.design.get(id)?;
        let base = element.base.and_then(|base| self.design.get(base));
        let mut names = self.looked_up.get();
        names.add(element.kind, property);
        // What a step shares is stated of its block.
        if let Some(base) = base.filter(|base| !std::ptr::eq(base.kind, element.kind)) {
            names.add(base.kind, property);
        }
        self.looked_up.set(names);
        element.stated(property).or_else(|| base?.stated(property))
    }

    /// Runs something, and gives what it looked up.
    pub fn looking<T>(&self, run: impl FnOnce() -> T) -> (T, PropertyNames) {
        let outer = self.looked_up.take();
        let result = run();
        let names = self.looked_up.get();
        self.add_looked_up(outer);
        (result, names)
    }

    fn add_looked_up(&self, more: PropertyNames) {
        let mut names = self.looked_up.get();
        names.add_all(more);
        self.looked_up.set(names);
    }

    /// Takes everything for looked up: whether anything at all was measured may be another answer later.
    pub(super) fn looks_up_all(&self) {
        self.looked_up.set(PropertyNames::ALL);
    }

    /// Whether it keeps what was read for each value.
    pub fn is_traced(&self) -> bool {
        self.keeps == Keeps::Trace
    }

    /// A quantity with what it was worked out from. One that is asked at a place needs it; to others it means nothing.
    pub fn work(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Rc<Worked> {
        // What is remembered has its trace from here on, if one is kept.
        let _ = self.derive(id, entry, place);
        let remembered = self.recall(id, entry, place, |known| known.worked.clone()).flatten();
        remembered.unwrap_or_else(|| {
            let (result, reads) = self.run(id, entry, place);
            Rc::new(Worked { quantity: entry, element: id, place, result, reads: reads.reads })
        })
    }

    #[inline]
    fn recall<T>(
        &self,
        id: Id,
        entry: &'static Quantity,
        place: Option<Measure>,
        read: impl FnOnce(&Known) -> T,
    ) -> Option<T> {
        self.memo.borrow().get(id, entry, place).map(read)
    }

    /// What was worked out before: in this evaluation, or in the one before it from nothing that is another now.
    fn remembered(
        &self,
        id: Id,
        entry: &'static Quantity,
        place: Option<Measure>,
    ) -> Option<(Derived, Behind, PropertyNames)> {
        let all = |known: &Known| (known.result.clone(), known.behind, known.looked_up);
        self.recall(id, entry, place, all).or_else(|| {
            let Before { evaluation, changed } = self.before.as_ref()?;
            let known = evaluation.remembered(id, entry, place);
            known.filter(|(.., looked_up)| !changed.may_share(*looked_up))
        })
    }

    /// Derives a quantity, or remembers it.
    fn derive(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> (Derived, Behind) {
        if let Some((result, behind, looked_up)) = self.remembered(id, entry, place) {
            self.add_looked_up(looked_up);
            return (result, behind);
        }
        self.derive_anew(id, entry, place)
    }

    fn derive_anew(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> (Derived, Behind) {
        if self.depth.get() > DEEPEST {
            return (Err(Missing::new(id, Reason::Undefined(entry, Undefined::Circular))), Behind::default());
        }
        let ((result, Reads { reads, behind }), looked_up) = self.looking(|| self.run(id, entry, place));
        let worked = self.is_traced().then(|| {
            let result = result.clone();
            Rc::new(Worked { quantity: entry, element: id, place, result, reads })
        });
        let known = Known { place, result: result.clone(), behind, looked_up, worked };
        self.memo.borrow_mut().add(id, self.design.elements.len(), entry, known);
        (result, behind)
    }

    fn run(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> (Derived, Reads) {
        let undefined = || Missing::new(id, Reason::Undefined(entry, Undefined::NotFinite));
        self.trace(|| {
            let derived = entry.derive.run(self, id, entry, place);
            derived.and_then(|datum| if datum.is_finite() { Ok(datum) } else { Err(undefined()) })
        })
    }

    /// Runs something and gives back what it read, as far as that is kept.
    pub fn trace<T>(&self, run: impl FnOnce() -> T) -> (T, Reads) {
        let outer = self.frame.replace(Frame::default());
        let depth = self.depth.get();
        self.depth.set(depth + 1);
        let begin = self.reads.borrow().len();
        let result = run();
        let reads = match self.is_traced() {
            #[allow(clippy::disallowed_methods)] // Nothing that runs takes reads away from before it.
            true => self.reads.borrow_mut().split_off(begin),
            false => Vec::new(),
        };
        self.depth.set(depth);
        let Frame { behind, .. } = self.frame.replace(outer);
        (result, Reads { reads, behind })
    }

    /// Runs something of which a trace is kept apart from what was read before, if a trace is kept at all. What it
    /// reads is to be noted again.
    #[inline]
    pub fn part<T>(&self, run: impl FnOnce() -> T) -> (T, Reads) {
        if self.is_traced() { self.trace(run) } else { (run(), Reads::default()) }
    }

    /// Notes reads of an inner trace as reads of this one.
    #[inline]
    pub fn note_again(&self, reads: Reads) {
        if !reads.behind.is_empty() {
            let mut frame = self.frame.get();
            frame.behind.add(reads.behind);
            self.frame.set(frame);
        }
        if self.depth.get() > 0 && !reads.reads.is_empty() {
            self.reads.borrow_mut().extend(reads.reads);
        }
    }

    /// Notes what was read. The first length gives the style in which a length that comes of it is written.
    #[inline]
    pub(super) fn note(&self, element: Id, input: Input, datum: Option<&Datum>, units: Units) {
        self.note_with(element, input, datum, Behind::of(units));
    }

    #[inline]
    fn note_with(&self, element: Id, input: Input, datum: Option<&Datum>, behind: Behind) {
        let mut behind = behind;
        match input {
            Input::Stated { measured, .. } => behind.measured |= measured,
            Input::Custom(custom) => behind.uses(custom),
            Input::Derived(..) => {}
        }
        self.add_to_frame(datum, behind);
        self.keep_read(element, || input, datum);
    }

    #[inline]
    fn add_to_frame(&self, datum: Option<&Datum>, behind: Behind) {
        let mut frame = self.frame.get();
        if frame.style.is_none() {
            frame.style = datum.and_then(Datum::length_style);
        }
        frame.behind.add(behind);
        self.frame.set(frame);
    }

    /// Keeps what was read, where a trace is kept.
    #[inline]
    fn keep_read(&self, element: Id, input: impl FnOnce() -> Input, datum: Option<&Datum>) {
        if self.is_traced() && self.depth.get() > 0 {
            self.reads.borrow_mut().push(Read { element, input: input(), datum: datum.cloned() });
        }
    }

    /// Uses a custom, and says so.
    pub(super) fn custom(&self, custom: CustomId, element: Id) {
        self.note(element, Input::Custom(custom), None, Units::None);
    }

    /// The value of a quantity, asked at a place where it is asked at one.
    pub fn derived(&self, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Derived {
        let read = |result: &Derived, behind: Behind| {
            let datum = result.as_ref().ok();
            self.add_to_frame(datum, behind);
            self.keep_read(id, || Input::Derived(entry, place), datum);
        };
        let remembered = self.recall(id, entry, place, |known| {
            self.add_looked_up(known.looked_up);
            read(&known.result, known.behind);
            known.result.clone()
        });
        remembered.unwrap_or_else(|| {
            let (result, behind) = self.derive(id, entry, place);
            read(&result, behind);
            result
        })
    }

    /// Things of a kind that belong to an element.
    ///
    /// # Errors
    /// Where a list of steps, or a block that may be one of them, could not be read: then they cannot be counted.
    pub fn things(&self, kind: &'static Kind, to: Id) -> Result<impl Iterator<Item = Id> + use<'d>, Missing> {
        if let Some(list) = kind.list() {
            let of_flight = self.design.is(to, kinds::FLIGHT);
            for flight in self.design.belonging(kinds::FLIGHT, to).filter(|flight| !of_flight || *flight == to) {
                self.list(flight, list)?;
            }
        }
        if let Some(unread) = self.design.unread.iter().find(|unread| unread.counts_as(kind)) {
            return Err(Missing::new(to, Reason::BlockNotUnderstood(unread)));
        }
        for id in self.design.of_kind(kind) {
            let Some(element) = self.design.get(id) else { continue };
            if let Some(property) = element.lost {
                return Err(Missing::not_understood(id, property));
            }
            if element.is_in_doubt() && self.design.belonging(kind, to).any(|belongs| belongs == id) {
                return Err(Missing::new(id, Reason::BlockNotUnderstood(kind)));
            }
        }
        Ok(self.design.belonging(kind, to))
    }

    /// The stated value of a property, if its words could be read.
    pub(super) fn known(&self, id: Id, property: PropertyName) -> Result<&'d Stated, Missing> {
        let stated = self.looked_up(id, property).filter(|stated| stated.value.is_some());
        stated.ok_or_else(|| self.missing(id, property))
    }

    /// For a property that is not stated, or stated in words that could not be read.
    pub fn missing(&self, id: Id, property: PropertyName) -> Missing {
        let id = self.design.get(id).and_then(|element| element.base).unwrap_or(id);
        if let Some(step) = self.design.get(id).filter(|element| element.step.is_some()) {
            return Missing::statement(step.parent.unwrap_or(id), Statement::OfBlock(property, step.kind));
        }
        if let Some(unseen) =
            self.design.get(id).filter(|unseen| unseen.kind == kinds::CEILING && id >= self.design.drawn)
        {
            let place = unseen.parent.unwrap_or(id);
            let over = |ceiling: Id| ceiling < self.design.drawn;
            // What it rests on that nothing more is known of it.
            for kind in [kinds::CEILING, kinds::WELL, kinds::FLIGHT] {
                for id in self.design.of_kind(kind) {
                    for of in Design::OVERHEAD {
                        let _ = self.looked_up(id, of);
                    }
                }
            }
            if self.design.lacks_underside_of_floor(place) {
                return Missing::drawing(place, Drawing::UndersideOfFloor);
            }
            return match self.design.belonging(kinds::CEILING, place).any(over) {
                true => Missing::drawing(place, Drawing::RestOfCeiling),
                false => Missing::statement(place, Statement::OfBlock(property, unseen.kind)),
            };
        }
        if self.design.is(id, kinds::WELL) && id >= self.design.drawn {
            return Missing::drawing(0, Drawing::WellOfFloor);
        }
        let statement = Statement::Property(property);
        let unread = self.looked_up(id, property).is_some_and(|stated| stated.value.is_none());
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

    /// How a length is written that comes of what was read so far.
    pub(super) fn style(&self) -> Style {
        self.frame.get().style.unwrap_or(Style::INCHES)
    }

    /// A length, written as the lengths that it came from.
    pub(super) fn length(&self, value: f64) -> Derived {
        self.measure(value, Dimension::LENGTH)
    }

    /// A number of a dimension, written in the units of the lengths that it came from.
    pub(super) fn measure(&self, value: f64, dimension: Dimension) -> Derived {
        Ok(Datum::Measure(Measure { value, dimension, style: self.style().for_dimension(dimension) }))
    }
}

/// A plain number.
pub(super) fn number(value: f64) -> Derived {
    Ok(Datum::Measure(Measure::number(value)))
}

/// A word.
pub(super) fn word(word: &'static str) -> Derived {
    Ok(Datum::Word(word.into()))
}
