//! The stated design: elements in the order drawn, each with what is stated of it.

use std::sync::Arc;

use super::kind::{Kind, Property, PropertyName, PropertyNames, Trait};
use super::value::Value;
use super::vocabulary::{KINDS, kinds, properties};
use super::waiver::Waiver;
use crate::base::{Source, Span};

/// Most elements of one design, its steps among them. What is derived of each may look at all the others.
pub(super) const MOST_OF_A_STAIR: usize = 2_000;

/// How long what a report calls an element seldom exceeds, in bytes.
const USUAL_NAME: usize = 32;

/// An element of one design.
pub type Id = usize;

/// A side, seen going up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// Left hand going up.
    Left,
    /// Right hand going up.
    Right,
    /// Straight ahead of one who comes up onto a landing.
    Far,
    /// Where the steps come up onto a landing, beside them.
    Near,
}

impl Side {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
            Side::Far => "far",
            Side::Near => "near",
        }
    }
}

/// One stated property.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stated {
    /// Which.
    pub property: &'static Property,
    /// What; nothing where the words could not be read (a finding has said so).
    pub value: Option<Value>,
    /// Where.
    pub span: Span,
    /// As measured on the finished work, not as drawn.
    pub measured: bool,
    /// Words of the shop's file that the value comes from, where it does.
    pub shop: Option<ShopWords>,
    /// The name by which a section is asked for, in a design that lies below a shop's file; none where it is written
    /// as it measures.
    pub section: Option<SectionName>,
}

/// A section by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SectionName {
    /// Its nominal size without blanks, `2x12`, or a name of its own as it is written.
    pub name: String,
    /// It is a nominal size.
    pub nominal: bool,
    /// Where it stands.
    pub span: Span,
}

impl Stated {
    /// Whether it says the same as another of the same property, wherever the words of the two stand in their texts.
    pub(super) fn says_the_same(&self, other: &Self) -> bool {
        let Self { property: _, value, span: _, measured, shop, section } = self;
        let value_is_same = match (value, &other.value) {
            (Some(value), Some(other)) => value.says_the_same(other),
            (None, None) => true,
            _ => false,
        };
        let section_is_same = match (section, &other.section) {
            (Some(section), Some(other)) => (&section.name, section.nominal) == (&other.name, other.nominal),
            (None, None) => true,
            _ => false,
        };
        value_is_same && section_is_same && *measured == other.measured && *shop == other.shop
    }
}

/// Words of a shop's file behind a stated value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShopWords {
    /// Where they stand in the shop's file.
    pub words: Span,
    /// The design calls for them by a name; else it says nothing, and the place in it is that of its stair.
    pub called: bool,
}

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Element {
    /// What it is.
    pub kind: &'static Kind,
    /// Its own name, or its place (`top`).
    pub name: Option<String>,
    /// Its side.
    pub side: Option<Side>,
    /// Which step it is, from 0, for risers and treads.
    pub step: Option<usize>,
    /// The words that draw it.
    pub span: Span,
    /// What it stands in.
    pub parent: Option<Id>,
    /// The block whose properties it shares: the tread block of a step's tread.
    pub base: Option<Id>,
    /// The flight or landing it serves, where that is one.
    pub serves: Option<Id>,
    /// For `in newel`: the element joined.
    pub target: Option<Id>,
    /// The property that should say what it serves and names nothing drawn: what it serves is not known.
    pub lost: Option<PropertyName>,
    /// Words inside it that were not understood and belong to no property of it.
    pub not_understood: Option<Span>,
    /// What is stated.
    pub stated: Vec<Stated>,
}

impl Element {
    /// An element of a kind of which nothing is stated.
    pub(super) fn bare(kind: &'static Kind) -> Self {
        Self {
            kind,
            name: None,
            side: None,
            step: None,
            span: Span::default(),
            parent: None,
            base: None,
            serves: None,
            target: None,
            lost: None,
            not_understood: None,
            stated: Vec::new(),
        }
    }

    /// Whether a joint can join it; steps are joined by the block that they share.
    pub fn can_be_joined(&self) -> bool {
        self.step.is_none() && self.kind.is(Trait::Joinable)
    }

    /// Whether it counts by being there (it closes a side, gives a hold, carries the ground) and something said of it
    /// was not understood, which may be that it does not.
    pub fn is_in_doubt(&self) -> bool {
        let counts = self.kind.is(Trait::Sided) || self.kind == kinds::RISER_BOARD || self.kind == kinds::BRACE;
        counts && self.not_understood.is_some()
    }

    /// Whether it is made of timber and drawn as such; steps share their block's timber.
    pub fn is_part(&self) -> bool {
        self.step.is_none() && self.kind.has(properties::TIMBER).is_some()
    }

    /// What is stated of a property on the element itself.
    pub fn stated(&self, property: PropertyName) -> Option<&Stated> {
        self.stated.iter().find(|stated| stated.property.handle() == property)
    }

    /// Whether it is the same thing at the same place as another, whatever is stated of it.
    fn is_same_thing(&self, other: &Self) -> bool {
        let placed = |of: &Self| (of.kind, of.side, of.step, of.parent, of.base, of.serves, of.target, of.lost);
        let understood = |of: &Self| (of.not_understood.is_none(), of.is_understood());
        placed(self) == placed(other) && self.name == other.name && understood(self) == understood(other)
    }

    /// Whether everything that is said of it was understood.
    pub fn is_understood(&self) -> bool {
        self.not_understood.is_none() && self.stated.iter().all(|stated| stated.value.is_some())
    }

    /// Whether it goes by a name: its own, or its kind's.
    pub fn goes_by(&self, name: &str) -> bool {
        match &self.name {
            Some(own) if own.eq_ignore_ascii_case(name) => true,
            _ => self.kind.name == name || self.kind.opens == name,
        }
    }
}

/// The things of one stair. Element 0 is the stair itself. A copy shares the elements until one of them is changed.
#[derive(Debug, Clone, Default, PartialEq)]
#[non_exhaustive]
pub struct Design {
    /// In the order drawn; steps last.
    pub elements: Vec<Arc<Element>>,
    /// How many were drawn; the rest are steps.
    pub drawn: usize,
    /// Kinds of which a block stands here that could not be read: how many are drawn is not known.
    pub unread: Vec<&'static Kind>,
    /// Leave that it gives itself to depart from rules.
    pub waivers: Vec<Arc<Waiver>>,
    /// The text of the shop's file that it lies under.
    pub shop: Option<Source>,
    /// The same things as they were drawn, where this is what was measured of them.
    pub as_drawn: Option<Arc<Design>>,
    pub(super) by_kind: Arc<ByKind>,
}

/// The elements of each kind, in the order drawn; made with the steps. One that is shared is seen to be the same.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct ByKind {
    ids: Vec<Id>,
    /// Where those of a kind begin, by its place in the table.
    begin: Vec<usize>,
}

impl ByKind {
    pub(super) fn of(elements: &[Arc<Element>], drawn: usize) -> Self {
        let treads_from = treads_from(elements, drawn);
        let listed = || {
            elements.iter().enumerate().flat_map(move |(id, element)| {
                let own = element.kind != kinds::TREAD || id >= treads_from;
                let part = is_part(id, element, drawn);
                let overhead = element.kind.is(Trait::Overhead);
                [own.then_some(element.kind), part.then_some(kinds::PART), overhead.then_some(kinds::CEILING)]
                    .into_iter()
                    .flatten()
                    .map(move |kind| (kind, id))
            })
        };
        // Where those of each kind end: first how many there are, then how many with those before them.
        let mut begin = vec![0; KINDS.len() + 1];
        for (kind, _) in listed() {
            if let Some(count) = begin.get_mut(kind.index() + 1) {
                *count += 1;
            }
        }
        let mut sum = 0;
        for count in &mut begin {
            sum += *count;
            *count = sum;
        }
        let (mut next, mut ids) = (begin.clone(), vec![0; sum]);
        for (kind, id) in listed() {
            if let Some(place) = next.get_mut(kind.index())
                && let Some(slot) = ids.get_mut(*place)
            {
                *slot = id;
                *place += 1;
            }
        }
        Self { ids, begin }
    }

    fn get(&self, kind: &Kind) -> &[Id] {
        match self.begin.get(kind.index()..) {
            Some([from, to, ..]) => self.ids.get(*from..*to).unwrap_or_default(),
            _ => &[],
        }
    }
}

/// Elements of a kind. Treads are the steps' treads, or the block itself where no runs are stated.
fn scan<'a>(elements: &'a [Arc<Element>], drawn: usize, kind: &'static Kind) -> impl Iterator<Item = Id> + 'a {
    let from = if kind == kinds::TREAD { treads_from(elements, drawn) } else { 0 };
    let is =
        move |id: usize, element: &Element| element.kind == kind || kind == kinds::PART && is_part(id, element, drawn);
    elements.iter().enumerate().skip(from).filter(move |(id, element)| is(*id, element)).map(|(id, _)| id)
}

/// The first element that may be a tread: the blocks that draw them are none where there are steps.
fn treads_from(elements: &[Arc<Element>], drawn: usize) -> usize {
    let stepped = elements.iter().skip(drawn).any(|step| step.kind == kinds::TREAD);
    if stepped { drawn } else { 0 }
}

/// Whether an element is a part of its own; what stands for steps of which no list is stated is none.
fn is_part(id: Id, element: &Element, drawn: usize) -> bool {
    element.is_part() && id < drawn
}

impl Design {
    /// An element.
    pub fn get(&self, id: Id) -> Option<&Element> {
        self.elements.get(id).map(|element| &**element)
    }

    /// An element, to change it; copies of the design keep theirs.
    pub fn get_mut(&mut self, id: Id) -> Option<&mut Element> {
        self.elements.get_mut(id).map(Arc::make_mut)
    }

    /// The kind of an element.
    pub fn kind(&self, id: Id) -> Option<&'static Kind> {
        self.get(id).map(|element| element.kind)
    }

    /// Whether an element is of a kind.
    pub fn is(&self, id: Id, kind: &Kind) -> bool {
        self.get(id).is_some_and(|element| element.kind == kind)
    }

    /// Whether an element is a place that others stand in or serve: a flight, a landing.
    pub fn is_place(&self, id: Id) -> bool {
        self.get(id).is_some_and(|element| element.kind.is(Trait::Place))
    }

    /// What is stated of a property, on the element or on the block it shares.
    pub fn stated(&self, id: Id, property: PropertyName) -> Option<&Stated> {
        let element = self.get(id)?;
        element.stated(property).or_else(|| element.base.and_then(|base| self.stated(base, property)))
    }

    /// What a report calls an element: `handrail left`, `tread 2`, `joint "newel to stringer"`.
    pub fn called(&self, id: Id) -> String {
        let mut called = String::with_capacity(USUAL_NAME);
        self.call(id, &mut called);
        called
    }

    /// Writes what a report calls an element behind what is written so far.
    fn call(&self, id: Id, called: &mut String) {
        let Some(element) = self.get(id) else { return };
        if element.kind == kinds::MEMBER {
            called.push_str(element.name.as_deref().unwrap_or("member"));
            called.push_str(" in ");
            element.parent.into_iter().for_each(|joint| self.call(joint, called));
            return;
        }
        called.push_str(element.kind.name);
        if let Some(name) = &element.name {
            let quote = if name.chars().all(char::is_alphanumeric) { "" } else { "\"" };
            for part in [" ", quote, name, quote] {
                called.push_str(part);
            }
        }
        if let Some(step) = element.step {
            called.push(' ');
            called.push_str(&(step + 1).to_string());
        }
        if let Some(side) = element.side {
            called.push(' ');
            called.push_str(side.word());
        }
        let of = match element.serves.filter(|_| element.step.is_none()).and_then(|place| self.get(place)) {
            Some(place) if place.name.is_some() && element.kind != kinds::RISER => element.serves,
            _ if element.step.is_some() && self.of_kind(kinds::FLIGHT).len() > 1 => element.parent,
            _ => return,
        };
        called.push_str(" of ");
        self.call(of.unwrap_or_default(), called);
    }

    /// Whether a report calls an element so, whatever the quotes and the case of the letters.
    pub fn is_called(&self, id: Id, wanted: &str) -> bool {
        let plain = |text: &str| text.replace('"', "").to_lowercase();
        plain(&self.called(id)) == plain(wanted)
    }

    /// Elements of a kind, in the order drawn. Treads are the steps' treads, or the block itself where no runs are
    /// stated. Known once the steps are made.
    pub fn of_kind(&self, kind: &Kind) -> std::iter::Copied<std::slice::Iter<'_, Id>> {
        self.by_kind.get(kind).iter().copied()
    }

    /// Elements of a kind before the steps are made.
    pub(super) fn drawn_of_kind(&self, kind: &'static Kind) -> impl Iterator<Item = Id> + '_ {
        scan(&self.elements, self.drawn, kind)
    }

    /// Elements of a kind that are in an element, or serve it, or (where nothing says which they serve) may.
    pub fn belonging(&self, kind: &Kind, to: Id) -> impl Iterator<Item = Id> + '_ {
        self.of_kind(kind).filter(move |id| self.belongs(*id, to))
    }

    /// Whether no flight is drawn, and no block that could not be read may be one: a stair has steps all the same.
    pub fn lacks_steps(&self) -> bool {
        self.of_kind(kinds::FLIGHT).len() == 0 && !self.unread.contains(&kinds::FLIGHT)
    }

    /// Whether flights are drawn, or may be, and nothing that carries their treads, and no block that could not be read
    /// may be it. Those of a spiral hang on its pole.
    pub fn lacks_stringers(&self) -> bool {
        let spiral = |flight: Id| {
            let stated = self.stated(flight, properties::SPIRAL).and_then(|spiral| spiral.value.as_ref());
            stated.is_some_and(|word| !matches!(word, Value::Word(word) if word == "no"))
        };
        let none = self.of_kind(kinds::STRINGER).len() == 0 && !self.unread.contains(&kinds::STRINGER);
        none && (self.unread.contains(&kinds::FLIGHT) || self.of_kind(kinds::FLIGHT).any(|flight| !spiral(flight)))
    }

    /// The flight whose strings hang on a header: that which ends at its landing; the last one, where it stands in none.
    pub fn flight_on(&self, header: Id) -> Option<Id> {
        let parent = self.get(header)?.parent.and_then(|parent| Some((parent, self.get(parent)?)));
        let name = match parent {
            Some((_, landing)) if landing.kind == kinds::LANDING => landing.name.as_deref().unwrap_or_default(),
            _ => "top",
        };
        let mut flights = self.of_kind(kinds::FLIGHT);
        match parent {
            _ if name.eq_ignore_ascii_case("bottom") => None,
            Some((landing, _)) if !name.eq_ignore_ascii_case("top") => flights.rfind(|id| *id < landing),
            _ => flights.next_back(),
        }
    }

    /// A flight with strings that hang on something at its head, and no header or rim there that is drawn, or may be.
    pub fn flight_without_header(&self) -> Option<Id> {
        let hangs = |stringer: Id| {
            let stated = self.stated(stringer, properties::HEAD).and_then(|head| head.value.as_ref());
            !matches!(stated, Some(Value::Word(word)) if matches!(&**word, "ledger" | "nothing"))
        };
        let hung = |flight: &Id| self.belonging(kinds::STRINGER, *flight).any(hangs);
        let bare = |flight: &Id| !self.of_kind(kinds::HEADER).any(|header| self.flight_on(header) == Some(*flight));
        self.of_kind(kinds::FLIGHT).filter(|_| !self.unread.contains(&kinds::HEADER)).filter(hung).find(bare)
    }

    /// A landing between flights under which no joist is drawn, and no block that could not be read may be one.
    pub fn landing_without_joists(&self) -> Option<Id> {
        let between = |landing: &Id| {
            let name = self.get(*landing).and_then(|landing| landing.name.as_deref()).unwrap_or_default();
            !["top", "bottom"].iter().any(|end| name.eq_ignore_ascii_case(end))
        };
        let bare = |landing: &Id| self.belonging(kinds::JOIST, *landing).next().is_none();
        self.of_kind(kinds::LANDING).filter(|_| !self.unread.contains(&kinds::JOIST)).filter(between).find(bare)
    }

    /// A handrail at the side of a wall on which no bracket is drawn, and no block that could not be read may be one.
    pub fn rail_without_brackets(&self) -> Option<Id> {
        let at_a_wall = |rail: &Id| {
            let Some(drawn) = self.get(*rail) else { return false };
            let Some(side) = drawn.side else { return false };
            // One of which nobody knows what it serves may stand at any wall of its side.
            let stands_there = |wall: &Id| drawn.serves.is_none_or(|place| self.belongs(*wall, place));
            let mut walls = self.of_kind(kinds::WALL).filter(stands_there).filter_map(|wall| self.get(wall));
            walls.any(|wall| wall.side.is_none_or(|at| at == side))
        };
        let bare = |rail: &Id| self.belonging(kinds::BRACKET, *rail).next().is_none();
        self.of_kind(kinds::HANDRAIL).filter(|_| !self.unread.contains(&kinds::BRACKET)).filter(bare).find(at_a_wall)
    }

    /// How many steps of a kind each of the flights has that a thing belongs to; none for what serves a landing, or a
    /// flight whose steps are not known.
    pub fn steps_beside(&self, id: Id, kind: &'static Kind) -> Vec<usize> {
        let flights = self.of_kind(kinds::FLIGHT).filter(|flight| self.belongs(id, *flight));
        let counts = flights.map(|flight| {
            let steps = self.belonging(kind, flight).filter_map(|step| self.get(step));
            steps.filter(|step| step.step.is_some()).count()
        });
        counts.filter(|count| *count > 0).collect()
    }

    /// Whether an element is in another, or serves it, or may.
    pub(crate) fn belongs(&self, id: Id, to: Id) -> bool {
        if to == 0 || id == to {
            return true;
        }
        let Some(element) = self.get(id) else { return false };
        if let Some(serves) = element.serves {
            return serves == to || self.get(serves).is_some_and(|place| place.parent == Some(to));
        }
        match element.parent {
            // Drawn in the stair, saying nothing: serves every flight, and no landing.
            Some(0) | None if element.kind.is(Trait::ServesEveryPlace) => {
                // What stands round the hole in the floor above stands on that floor.
                // What says beside which treads it stands goes on past none of them.
                let ends = [properties::FROM_TREAD, properties::TO_TREAD];
                let beside_steps = || ends.into_iter().any(|end| element.stated(end).is_some());
                self.is(to, kinds::FLIGHT) || self.is_place(to) && !self.is(to, kinds::WELL) && !beside_steps()
            }
            Some(0) | None => self.is(to, kinds::FLIGHT) && !element.kind.is(Trait::Place),
            Some(parent) => self.belongs(parent, to),
        }
    }

    /// Whether an element is a thing, stands in it, or shares its block: whatever the words in that block are about.
    pub(crate) fn is_of_block(&self, element: Id, block: Id) -> bool {
        let words = self.get(block).map(|block| (block.kind, block.span));
        let mut next = Some(element);
        // A thing stands in an earlier one, so that this ends.
        while let Some(at) = next {
            let Some(found) = self.get(at) else { return false };
            // A thing drawn once that stands for one in each flight shares its words with its copies.
            let is_copy = found.step.is_none() && Some((found.kind, found.span)) == words;
            if at == block || found.base == Some(block) || is_copy {
                return true;
            }
            next = found.parent.filter(|parent| *parent < at);
        }
        false
    }

    /// The one element of a kind that an element is in, serves, or rests on.
    pub fn related(&self, id: Id, kind: &Kind) -> Option<Id> {
        if self.is(id, kind) {
            return Some(id);
        }
        if kind == kinds::STAIR {
            return Some(0);
        }
        let element = self.get(id)?;
        for next in [element.target, element.serves, element.parent].into_iter().flatten().filter(|next| *next != 0) {
            if self.is(next, kind) {
                return Some(next);
            }
        }
        if let Some(parent) = element.parent.filter(|parent| *parent != 0 && *parent != id)
            && let Some(found) = self.related(parent, kind)
        {
            return Some(found);
        }
        // From a place down to the one thing of the kind that belongs to it, and from anything to the only one.
        let place = element.serves.or(element.parent).unwrap_or(0);
        let mut belonging = self.belonging(kind, place);
        if let (Some(only), None) = (belonging.next(), belonging.next()) {
            return Some(only);
        }
        let mut all = self.of_kind(kind);
        match (all.next(), all.next()) {
            (Some(only), None) => Some(only),
            _ => None,
        }
    }

    /// The same design with one value changed, for asking what would pass.
    #[must_use]
    pub fn with(&self, id: Id, property: PropertyName, value: Value) -> Self {
        let mut changed = self.clone();
        let own = changed.elements.get(id).is_some_and(|element| element.step.is_none());
        debug_assert!(own, "steps hold nothing of their own");
        if let Some(element) = changed.get_mut(id)
            && let Some(stated) = element.stated.iter_mut().find(|stated| stated.property.handle() == property)
        {
            stated.value = Some(value);
        }
        // The steps stand as they are unless the list that they are made from is another.
        // So does what is overhead and is not drawn.
        let overhead = changed.is(id, kinds::WELL) || changed.is(id, kinds::CEILING);
        if overhead || KINDS.iter().any(|kind| kind.list() == Some(property)) {
            changed.elements.truncate(self.drawn);
            changed.expand_steps();
        }
        changed
    }

    /// The same design without one statement, wherever its words stand: copies share them.
    #[must_use]
    pub fn without(&self, property: PropertyName, span: Span) -> Self {
        let mut changed = self.clone();
        let is = |stated: &Stated| stated.property.handle() == property && stated.span == span;
        for element in changed.elements.iter_mut().filter(|element| element.stated.iter().any(is)) {
            Arc::make_mut(element).stated.retain(|stated| !is(stated));
        }
        changed
    }

    /// The properties of which something else is stated here than in another design of the very same things; none where
    /// the things are others. Where words stand counts for nothing.
    pub fn stated_otherwise(&self, other: &Self) -> Option<PropertyNames> {
        if self.drawn != other.drawn || self.unread != other.unread || self.by_kind != other.by_kind {
            return None;
        }
        let mut names = PropertyNames::default();
        for (element, was) in self.elements.iter().zip(&other.elements) {
            if Arc::ptr_eq(element, was) {
                continue;
            }
            if !element.is_same_thing(was) {
                return None;
            }
            let differs = |stated: &&Stated, of: &Element| {
                !of.stated(stated.property.handle()).is_some_and(|other| other.says_the_same(stated))
            };
            let gone = was.stated.iter().filter(|stated| differs(stated, element));
            let come = element.stated.iter().filter(|stated| differs(stated, was));
            gone.chain(come).for_each(|stated| names.add(element.kind, stated.property.handle()));
        }
        Some(names)
    }

    /// The same, where this is what was measured of them too: what was drawn counts beside it.
    pub fn changed_since(&self, earlier: &Self) -> Option<PropertyNames> {
        let changed = self.stated_otherwise(earlier);
        match (&self.as_drawn, &earlier.as_drawn) {
            (Some(now), Some(then)) => changed.zip(now.stated_otherwise(then)).map(|(mut changed, drawn)| {
                changed.add_all(drawn);
                changed
            }),
            _ => changed,
        }
    }
}
