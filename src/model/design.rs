//! The stated design: elements in the order drawn, each with what is stated of it.

use super::value::Value;
use super::vocabulary::{Kind, Property};
use crate::base::{Source, Span};

/// Most elements of one design, its steps among them. What is derived of each may look at all the others.
pub(super) const MOST_OF_A_STAIR: usize = 2_000;

/// The kind that stands for every kind made of timber.
const PART: &str = "part";

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
}

impl Side {
    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
            Side::Far => "far",
        }
    }
}

/// One stated property.
#[derive(Debug, Clone, PartialEq)]
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
    /// What is stated.
    pub stated: Vec<Stated>,
}

impl Element {
    /// An element of a kind of which nothing is stated.
    pub(super) fn bare(kind: &str) -> Option<Self> {
        Some(Self {
            kind: super::vocabulary::kind(kind)?,
            name: None,
            side: None,
            step: None,
            span: Span::default(),
            parent: None,
            base: None,
            serves: None,
            target: None,
            stated: Vec::new(),
        })
    }

    /// Whether a joint can join it: it has a section of its own.
    pub fn can_be_joined(&self) -> bool {
        self.step.is_none() && self.kind.property("section").is_some() || self.kind.name == "landing"
    }

    /// Whether it is made of timber and drawn as such; steps share their block's timber.
    pub fn is_part(&self) -> bool {
        self.step.is_none() && self.kind.property("timber").is_some()
    }

    /// Whether it goes by a name: its own, or its kind's.
    pub fn goes_by(&self, name: &str) -> bool {
        match &self.name {
            Some(own) if own.eq_ignore_ascii_case(name) => true,
            _ => self.kind.name == name || self.kind.opens == name,
        }
    }
}

/// The things of one stair. Element 0 is the stair itself.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Design {
    /// In the order drawn; steps last.
    pub elements: Vec<Element>,
    /// How many were drawn; the rest are steps.
    pub drawn: usize,
    /// Kinds of which a block stands here that could not be read: how many are drawn is not known.
    pub unread: Vec<&'static str>,
    /// The text of the shop's file that it lies under.
    pub shop: Option<Source>,
}

impl Design {
    /// An element.
    pub fn get(&self, id: Id) -> Option<&Element> {
        self.elements.get(id)
    }

    /// The kind's name of an element, empty for none.
    pub fn kind(&self, id: Id) -> &'static str {
        self.get(id).map_or("", |element| element.kind.name)
    }

    /// What is stated of a property, on the element or on the block it shares.
    pub fn stated(&self, id: Id, property: &str) -> Option<&Stated> {
        let element = self.get(id)?;
        let own = element.stated.iter().find(|stated| stated.property.name == property);
        own.or_else(|| element.base.and_then(|base| self.stated(base, property)))
    }

    /// What a report calls an element: `handrail left`, `tread 2`, `joint "newel to stringer"`.
    pub fn called(&self, id: Id) -> String {
        let Some(element) = self.get(id) else { return String::new() };
        let mut called = element.kind.name.to_owned();
        if element.kind.name == "member" {
            let joint = element.parent.map(|joint| self.called(joint)).unwrap_or_default();
            return format!("{} in {joint}", element.name.as_deref().unwrap_or("member"));
        }
        if let Some(name) = &element.name {
            let plain = name.chars().all(char::is_alphanumeric);
            called += &if plain { format!(" {name}") } else { format!(" \"{name}\"") };
        }
        if let Some(step) = element.step {
            called += &format!(" {}", step + 1);
        }
        if let Some(side) = element.side {
            called += &format!(" {}", side.word());
        }
        match element.serves.filter(|_| element.step.is_none()).and_then(|place| self.get(place)) {
            Some(place) if place.name.is_some() && element.kind.name != "riser" => {
                called + &format!(" of {}", self.called(element.serves.unwrap_or_default()))
            }
            _ if element.step.is_some() && self.of_kind("flight").count() > 1 => {
                called + &format!(" of {}", self.called(element.parent.unwrap_or_default()))
            }
            _ => called,
        }
    }

    /// Elements of a kind. Treads are the steps' treads, or the block itself where no runs are stated.
    pub fn of_kind<'a>(&'a self, kind: &'a str) -> impl Iterator<Item = Id> + 'a {
        let steps = kind == "tread" && self.elements.iter().skip(self.drawn).any(|step| step.kind.name == "tread");
        let from = if steps { self.drawn } else { 0 };
        self.elements
            .iter()
            .enumerate()
            .skip(from)
            .filter(move |(_, element)| element.kind.name == kind || kind == PART && element.is_part())
            .map(|(id, _)| id)
    }

    /// Elements of a kind that are in an element, or serve it, or (where nothing says which they serve) may.
    pub fn belonging<'a>(&'a self, kind: &'a str, to: Id) -> impl Iterator<Item = Id> + 'a {
        self.of_kind(kind).filter(move |id| self.belongs(*id, to))
    }

    fn belongs(&self, id: Id, to: Id) -> bool {
        if to == 0 || id == to {
            return true;
        }
        let Some(element) = self.get(id) else { return false };
        if let Some(serves) = element.serves {
            return serves == to || self.get(serves).is_some_and(|place| place.parent == Some(to));
        }
        match element.parent {
            // Drawn in the stair, saying nothing: serves every flight, and no landing.
            Some(0) | None if element.kind.name == "wall" => matches!(self.kind(to), "flight" | "landing"),
            Some(0) | None => {
                self.kind(to) == "flight" && element.kind.name != "landing" && element.kind.name != "flight"
            }
            Some(parent) => self.belongs(parent, to),
        }
    }

    /// The one element of a kind that an element is in, serves, or rests on.
    pub fn related(&self, id: Id, kind: &str) -> Option<Id> {
        if self.kind(id) == kind {
            return Some(id);
        }
        if kind == "stair" {
            return Some(0);
        }
        let element = self.get(id)?;
        for next in [element.target, element.serves, element.parent].into_iter().flatten().filter(|next| *next != 0) {
            if next < self.elements.len() && self.kind(next) == kind {
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

    /// The list of a flight that a kind of step is made from.
    pub fn list_of(kind: &str) -> Option<&'static str> {
        match kind {
            "riser" => Some("risers"),
            "tread" => Some("runs"),
            _ => None,
        }
    }

    /// The same design with one value changed, for asking what would pass.
    #[must_use]
    pub fn with(&self, id: Id, property: &str, value: Value) -> Self {
        let mut changed = self.clone();
        changed.elements.truncate(self.drawn);
        let own = changed.elements.get(id).is_some_and(|element| element.step.is_none());
        debug_assert!(own, "steps hold nothing of their own");
        if let Some(element) = changed.elements.get_mut(id)
            && let Some(stated) = element.stated.iter_mut().find(|stated| stated.property.name == property)
        {
            stated.value = Some(value);
        }
        changed.expand_steps();
        changed
    }

    /// Makes a riser for each item of a flight's risers, a tread for each of its runs. False if they are more than
    /// can be checked; then the rest of them are not made.
    pub fn expand_steps(&mut self) -> bool {
        self.drawn = self.elements.len();
        let flights: Vec<Id> = self.of_kind("flight").collect();
        for flight in flights {
            for (list, kind) in [("risers", "riser"), ("runs", "tread")] {
                let Some(Stated { value: Some(Value::List(items)), .. }) = self.stated(flight, list) else { continue };
                let Some(kind) = super::vocabulary::kind(kind) else { continue };
                let base = self.tread_block(flight).filter(|_| kind.name == "tread");
                if self.elements.len() + items.len() > MOST_OF_A_STAIR {
                    return false;
                }
                let spans: Vec<Span> = items.iter().map(|item| item.span).collect();
                for (step, span) in spans.into_iter().enumerate() {
                    self.elements.push(Element {
                        kind,
                        name: None,
                        side: None,
                        step: Some(step),
                        span,
                        parent: Some(flight),
                        base,
                        serves: Some(flight),
                        target: None,
                        stated: Vec::new(),
                    });
                }
            }
        }
        true
    }

    fn tread_block(&self, flight: Id) -> Option<Id> {
        let blocks = |within: Id| {
            self.elements
                .iter()
                .take(self.drawn)
                .position(move |element| element.kind.name == "tread" && element.parent == Some(within))
        };
        blocks(flight).or_else(|| blocks(0))
    }
}
