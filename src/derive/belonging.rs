//! What belongs to what, as a clause counts it and asks of it: beside what is drawn in a thing or serves it, the flights
//! that a landing joins, what a joint joins, and the timber and the section that a thing calls for.

use super::coating::is_rich_in_tannin;
use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, number, word};
use super::missing::{Drawing, Method, Missing, Reason, Statement};
use super::part::{durable, known_timber, own_timber};
use super::place::joined;
use super::quantity::Asked;
use crate::measure::{Dimension, Measure, equal};
use crate::model::{Id, Kind, PropertyName, Section, Shape, Trait, Value, kinds, properties};

impl Evaluation<'_> {
    /// Things of a kind that belong to an element.
    ///
    /// # Errors
    /// Where it is not known which do.
    pub fn belonging(&self, kind: &'static Kind, to: Id) -> Result<Vec<Id>, Missing> {
        let things = self.things(kind, to)?;
        if !self.may_meet(kind, to) {
            return Ok(things.collect());
        }
        let mut found = Vec::new();
        for id in self.design.of_kind(kind) {
            if self.belongs_to(id, to)? {
                found.push(id);
            }
        }
        Ok(found)
    }

    /// Whether things of a kind may belong to an element that neither stand in it nor serve it.
    fn may_meet(&self, kind: &'static Kind, to: Id) -> bool {
        let Some(owner) = self.design.kind(to) else { return false };
        let places = [(kinds::FLIGHT, kinds::LANDING), (kinds::LANDING, kinds::FLIGHT)];
        places.iter().any(|(one, other)| *one == kind && *other == owner)
            || owner == kinds::JOINT && kind != kinds::MEMBER
            || owner.is(Trait::Joinable) && (kind == kinds::JOINT || kind == kinds::MEMBER)
    }

    /// Whether an element belongs to another.
    fn belongs_to(&self, id: Id, to: Id) -> Result<bool, Missing> {
        let design = self.design;
        let (Some(kind), Some(owner)) = (design.kind(id), design.kind(to)) else { return Ok(false) };
        if kind == kinds::FLIGHT && owner == kinds::LANDING {
            return Ok(joined(self, to)?.contains(&id));
        }
        if kind == kinds::LANDING && owner == kinds::FLIGHT {
            return Ok(joined(self, id)?.contains(&to));
        }
        if design.belongs(id, to) {
            return Ok(true);
        }
        if kind == kinds::JOINT && owner.is(Trait::Joinable) {
            return self.joins(id, to);
        }
        if kind == kinds::MEMBER && owner.is(Trait::Joinable) {
            return Ok(self.is_or_shares(self.target_of(id)?, to));
        }
        if owner == kinds::JOINT && kind.is(Trait::Joinable) {
            return self.joins(to, id);
        }
        Ok(false)
    }

    /// Whether a joint joins an element.
    fn joins(&self, joint: Id, element: Id) -> Result<bool, Missing> {
        let mut members = self.things(kinds::MEMBER, joint)?.peekable();
        if members.peek().is_none() {
            return Err(self.missing(joint, properties::JOINS));
        }
        for member in members {
            if self.is_or_shares(self.target_of(member)?, element) {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// What a member of a joint is.
    fn target_of(&self, member: Id) -> Result<Id, Missing> {
        let target = self.design.get(member).and_then(|member| member.target);
        target.ok_or_else(|| Missing::drawing(member, Drawing::MemberJoined))
    }

    /// Whether a thing that is joined is an element, or the block that stands for it: that of its steps, or one that is
    /// drawn once for several flights.
    fn is_or_shares(&self, joined: Id, element: Id) -> bool {
        let design = self.design;
        if joined == element || design.get(element).is_some_and(|element| element.base == Some(joined)) {
            return true;
        }
        let drawn_once = |id: Id| {
            let once = |one: &&crate::model::Element| one.kind.is(Trait::OneForEachFlight) && one.parent == Some(0);
            design.get(id).filter(once).map(|one| (one.kind, one.span))
        };
        drawn_once(joined).is_some_and(|one| drawn_once(element) == Some(one))
    }

    /// The one thing of a kind that an element belongs to, or that belongs to it.
    ///
    /// # Errors
    /// Where there is none, or more than one, or it is not known which.
    pub fn the_one(&self, kind: &'static Kind, of: Id) -> Result<Id, Missing> {
        let design = self.design;
        if design.is(of, kind) {
            return Ok(of);
        }
        if kind == kinds::STAIR {
            return Ok(0);
        }
        let Some(element) = design.get(of) else { return Err(Missing::drawing(of, Drawing::TheOne(kind))) };
        let owned = element.kind.may_belong_to(kind);
        let found = if owned {
            if let Some(property) = element.lost {
                return Err(Missing::not_understood(of, property));
            }
            // What says where it stands stands there, whatever else is drawn.
            let placed = element.serves.is_some() || element.parent.is_some_and(|parent| parent != 0);
            if !placed && let Some(unread) = design.unread.iter().find(|unread| unread.counts_as(kind)) {
                return Err(Missing::new(of, Reason::BlockNotUnderstood(unread)));
            }
            let mut owners = Vec::new();
            for owner in design.of_kind(kind) {
                if self.belongs_to(of, owner)? {
                    owners.push(owner);
                }
            }
            owners
        } else {
            self.belonging(kind, of)?
        };
        match found.as_slice() {
            [only] => Ok(*only),
            // What a joint joins beside a member stands at it too.
            [] if element.kind == kinds::MEMBER && kind.is(Trait::Joinable) => {
                self.the_one(kind, element.parent.unwrap_or(0))
            }
            _ => Err(Missing::drawing(of, Drawing::TheOne(kind))),
        }
    }

    /// Something asked of the timber that an element calls for: of the user's own as it states, else as the tables have it.
    ///
    /// # Errors
    /// Where the timber is not stated, or neither it nor a table says so.
    pub fn of_timber(&self, id: Id, asked: impl Into<Asked>) -> Derived {
        let id = if self.design.is(id, kinds::MEMBER) { self.target_of(id)? } else { id };
        let timber = self.timber(id)?;
        let asked = asked.into();
        if asked == Asked::Property(properties::DURABLE) {
            return durable(self, id);
        }
        if let Some(own) = own_timber(self, timber) {
            return self.datum(own, asked);
        }
        // A timber of the design's own that could not be read may be the one that is named.
        if self.things(kinds::TIMBER, 0).is_err() {
            return Err(self.missing(id, properties::TIMBER));
        }
        let needs = |property| Missing::statement(id, Statement::OfTimber(property));
        match asked {
            Asked::Property(properties::SPECIES) => word(known_timber(id, timber, properties::SPECIES)?.name),
            Asked::Property(properties::HARDNESS) => {
                let known = known_timber(id, timber, properties::HARDNESS)?;
                word(if known.hardwood { "hardwood" } else { "softwood" })
            }
            Asked::Property(properties::GRAVITY) => {
                let known = known_timber(id, timber, properties::GRAVITY)?;
                number(known.gravity().ok_or_else(|| needs(properties::GRAVITY))?)
            }
            Asked::Property(properties::TANNIN) => {
                let known = known_timber(id, timber, properties::TANNIN)?;
                word(if is_rich_in_tannin(known.name) { "rich" } else { "poor" })
            }
            Asked::Property(property) => Err(needs(property)),
            Asked::Quantity(entry) => Err(Missing::drawing(id, Drawing::A(entry.kind))),
        }
    }

    /// Something asked of the section that an element calls for, by its shape or as one of the user's own states.
    ///
    /// # Errors
    /// Where the section is not stated, or has no such figure.
    pub fn of_section(&self, id: Id, asked: impl Into<Asked>) -> Derived {
        let id = if self.design.is(id, kinds::MEMBER) { self.target_of(id)? } else { id };
        let section = self.section(id)?;
        let [first, second] = self.ways_of(section);
        let round = section.shape == Shape::Round;
        let is_round = || if round { Ok(()) } else { Err(Missing::outside(id, Method::RoundSection)) };
        let length = |value: f64| {
            Ok(Datum::Measure(Measure { value, dimension: Dimension::LENGTH, style: section.measure.style }))
        };
        let stated = |property: PropertyName, value: Option<f64>| {
            value.map_or_else(|| Err(Missing::statement(id, Statement::OfSection(property))), length)
        };
        let recess = section.recess.unwrap_or_default();
        match asked.into() {
            Asked::Quantity(entry) => match entry.name {
                "shape" => word(section.shape.word()),
                "circumference" => is_round().and_then(|()| length(std::f64::consts::PI * section.thickness)),
                "diagonal" => length(first.hypot(second)),
                "girth" => length(2.0 * (first + second)),
                _ => Err(Missing::drawing(id, Drawing::A(entry.kind))),
            },
            Asked::Property(property) => match property {
                properties::SHAPE => word(section.shape.word()),
                properties::WIDTH => length(first),
                properties::DEPTH => length(second),
                properties::DIAMETER => is_round().and_then(|()| length(section.thickness)),
                properties::PERIMETER => stated(property, section.perimeter),
                properties::ACROSS => stated(property, section.across),
                properties::EDGE_RADIUS => stated(property, section.edge_radius),
                properties::RECESS_START => stated(property, recess.start),
                properties::RECESS_DEPTH => stated(property, recess.depth),
                properties::RECESS_REACHED => stated(property, recess.reached),
                properties::RECESS_KEPT => stated(property, recess.kept),
                properties::RECESS_END => stated(property, recess.end),
                properties::WIDTH_ABOVE_RECESS => stated(property, recess.width_above),
                _ => Err(Missing::statement(id, Statement::OfSection(property))),
            },
        }
    }

    /// Across and plumb, as one of the user's own that measures so has them; else the smaller way and the larger.
    fn ways_of(&self, section: &Section) -> [f64; 2] {
        let (smaller, larger) = (section.thickness, section.depth);
        let way = |own: Id, property| match self.looked_up(own, property).map(|stated| &stated.value) {
            Some(Some(Value::Measure(measure))) => Some(measure.value),
            _ => None,
        };
        let turned = |own: Id| {
            let same = |a: f64, b: f64| equal(a, b, Dimension::LENGTH);
            let stated = way(own, properties::WIDTH).zip(way(own, properties::DEPTH));
            stated.is_some_and(|(width, depth)| same(width, section.depth) && same(depth, section.thickness))
        };
        if self.design.of_kind(kinds::SECTION).any(turned) { [larger, smaller] } else { [smaller, larger] }
    }
}
