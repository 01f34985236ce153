//! Why a value is not known: a reason as a value, and the element at which it would be settled.

use std::sync::Arc;

use super::quantity::Quantity;
use crate::base::names::nearest;
use crate::mechanics::Outside;
use crate::model::{Design, Id, Kind, PropertyName, Value, properties};

/// A value that is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Missing {
    /// Where it would be settled.
    pub element: Id,
    /// Why it is not known.
    pub reason: Reason,
}

impl Missing {
    pub(super) fn new(element: Id, reason: Reason) -> Self {
        Self { element, reason }
    }

    /// For a kind of thing of which none is drawn.
    pub(super) fn drawing(element: Id, drawing: Drawing) -> Self {
        Self { element, reason: Reason::NotDrawn(drawing) }
    }

    /// For a statement that is not there.
    pub(super) fn statement(element: Id, statement: Statement) -> Self {
        Self { element, reason: Reason::NotStated(statement) }
    }

    /// For what was drawn, and not measured.
    pub(super) fn not_measured(element: Id) -> Self {
        Self { element, reason: Reason::NotMeasured }
    }

    /// For a statement that was not understood.
    pub(super) fn not_understood(element: Id, property: PropertyName) -> Self {
        Self { element, reason: Reason::NotUnderstood(Statement::Property(property)) }
    }

    /// For what the mechanics do not cover, or a table of them does not hold.
    pub(super) fn beyond(element: Id, outside: Outside) -> Self {
        Self { element, reason: Reason::Beyond(outside) }
    }

    /// For an element that no method of the catalogue serves.
    pub(super) fn outside(element: Id, method: Method) -> Self {
        Self { element, reason: Reason::Outside(method) }
    }
}

/// Why a value is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Reason {
    /// Nothing states it.
    NotStated(Statement),
    /// It is stated in words that could not be read.
    NotUnderstood(Statement),
    /// A block of this kind stands in the design and could not be read.
    BlockNotUnderstood(&'static Kind),
    /// Something that it rests on is not drawn.
    NotDrawn(Drawing),
    /// The method does not serve this element.
    Outside(Method),
    /// The mechanics do not cover it, or a table of them does not hold it.
    Beyond(Outside),
    /// The term has no value as it was asked.
    Undefined(&'static Quantity, Undefined),
    /// A clause asks for what is no number.
    NoNumber(NoNumber),
    /// None of the kind stands there beside the element.
    NoNeighbour(&'static Kind),
    /// The class of use is none of those that the set has.
    NoSuchClass,
    /// A clause asks what was measured, and nothing was.
    NotMeasured,
}

impl Reason {
    /// Whether the same statement would settle both.
    pub fn settled_with(&self, other: &Reason) -> bool {
        match (self, other) {
            (Reason::NotStated(a) | Reason::NotUnderstood(a), Reason::NotStated(b) | Reason::NotUnderstood(b)) => {
                // The name tells which member it is; the same one may stand at another place of another joint.
                a == b || matches!((a, b), (Statement::OfMember(a, _), Statement::OfMember(b, _)) if a == b)
            }
            _ => self == other,
        }
    }

    /// Whether it is that something was not understood: nothing may excuse that.
    pub fn is_of_what_was_not_understood(&self) -> bool {
        matches!(self, Reason::NotUnderstood(_) | Reason::BlockNotUnderstood(_))
    }

    /// The statement that would settle it, where one would.
    pub fn statement(&self) -> Option<Statement> {
        match self {
            Reason::NotStated(statement) | Reason::NotUnderstood(statement) => Some(*statement),
            _ => None,
        }
    }

    /// Whether it is settled at one element, not once for all things that wait for it.
    pub fn is_of_one_element(&self) -> bool {
        match self {
            Reason::NotStated(statement) | Reason::NotUnderstood(statement) => match statement {
                Statement::Property(_)
                | Statement::OneOf(_)
                | Statement::OfSection(_)
                | Statement::OfMember(..)
                | Statement::GradeOfTimber
                | Statement::OfFasteners(_) => true,
                Statement::OfBlock(..) | Statement::OfTimber(..) | Statement::LengthOfStrip => false,
            },
            Reason::NotDrawn(drawing) => {
                matches!(
                    drawing,
                    Drawing::TheOne(_) | Drawing::RestOfCeiling | Drawing::JointThatHolds | Drawing::PostOnTheWay
                )
            }
            Reason::Outside(method) => matches!(
                method,
                Method::NumberedScrews
                    | Method::HeldBehind
                    | Method::OnCleats
                    | Method::OneLeg
                    | Method::PoleAsColumn
                    | Method::InfillOfBars
            ),
            Reason::Undefined(_, why) => matches!(why, Undefined::OtherSort | Undefined::NotFinite),
            Reason::NoNumber(_) | Reason::NoNeighbour(_) | Reason::Beyond(_) => true,
            Reason::BlockNotUnderstood(_) | Reason::NotMeasured | Reason::NoSuchClass => false,
        }
    }
}

/// A statement that would settle a value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Statement {
    /// A property of the element.
    Property(PropertyName),
    /// A property of a block of this kind, which is not drawn, in the element.
    OfBlock(PropertyName, &'static Kind),
    /// One of several properties of the element.
    OneOf(&'static [PropertyName]),
    /// A property of the section that the element is stated to have.
    OfSection(PropertyName),
    /// A property of the timber that the element is stated to be of.
    OfTimber(PropertyName),
    /// A property of one of the members of the joint, by its place among those that it is stated to join.
    OfMember(PropertyName, usize),
    /// The grade of the timber that the element is stated to be of.
    GradeOfTimber,
    /// A part of what is stated of the fasteners of the joint.
    OfFasteners(FastenerPart),
    /// The length of the strip that the finish is laid on in.
    LengthOfStrip,
}

/// A part of what is stated of fasteners.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FastenerPart {
    /// Under the head to the tip.
    Length,
    /// Against rust.
    Coating,
}

/// What would have to be drawn, or drawn otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Drawing {
    /// One of a kind.
    A(&'static Kind),
    /// One of a kind, and no more than one, that the element belongs to.
    TheOne(&'static Kind),
    /// A ceiling over what of a flight or a landing those that are drawn leave.
    RestOfCeiling,
    /// How low the floor at the head hangs over what of a flight its well leaves.
    UndersideOfFloor,
    /// A well in the floor at the head, or a word that what hangs over part of the flight is no floor.
    WellOfFloor,
    /// The joint that holds the element.
    JointThatHolds,
    /// A post that holds the element up on its way.
    PostOnTheWay,
    /// A landing at the head of the flight.
    LandingAbove,
    /// A landing at the foot of the flight.
    LandingBelow,
    /// A landing at the door.
    LandingAtDoor,
    /// A flight below the landing and one above it, or a name that says where it lies.
    FlightAtEachEnd,
    /// A flight between the landing and another that no flight parts from it.
    FlightBetweenLandings,
    /// The member that the block names.
    MemberJoined,
    /// Winders that count the tread.
    WindersOfTread,
    /// The side of a thing of this kind.
    SideOf(&'static Kind),
    /// Which of several flights a thing belongs to.
    WhichFlight,
}

/// What a method asks of the element that it serves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// One run of all flights: they lie in one line.
    FlightsInLine,
    /// The triangle under a guard: a board closes it at the back.
    ClosedRisers,
    /// The diameter of a rail: its section is round.
    RoundSection,
    /// The root of a screw: it goes by a number.
    NumberedScrews,
    /// The far edge of a member: a fastener passes one of the two ways of its section.
    OneWayOfSection,
    /// The edge of a landing beside the steps: nothing that is drawn says that it closes it.
    LandingAsWideAsItsSteps,
    /// A stringer as a beam: its flight is straight.
    StraightStringer,
    /// What several stringers share: there are two at least.
    SeveralStringers,
    /// What several stringers of a flight come to across it: one block draws them all.
    StringersAlike,
    /// What two solid strings leave between them: there are two, and no more.
    TwoSolidStrings,
    /// The edges of a member beside a plate: one lies on it.
    PlateOnIt,
    /// What goes through a joint: it is one whose load is known from what it joins.
    JointOfKnownLoad,
    /// A pull on a row of fasteners: they are bolts.
    ThroughBolts,
    /// What holds a post against a push: two fasteners at the least, for one is a pivot.
    TwoRows,
    /// What keeps a rim from rolling behind a post: a hold-down ties the post to the framing.
    HeldBehind,
    /// What cleats or brackets take under a tread: what holds them is no member that is drawn.
    OnCleats,
    /// A section as a beam: it is round or a rectangle.
    PlainSection,
    /// A group of fasteners in members that cross aslant: it is one line, which has one direction.
    GroupInOneLine,
    /// What the pole of a spiral carries.
    PoleAsColumn,
    /// What carries the edge of a landing: two legs at the least, or something that is drawn.
    OneLeg,
    /// What a push does to infill: it is of bars that bend between two supports.
    InfillOfBars,
    /// What is beneath the fasteners of a tread: it lies on the notches of stringers.
    TreadOnNotches,
}

/// Why a term has no value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undefined {
    /// It is asked at a place, and none was given.
    WithoutPlace,
    /// It rests on itself.
    Circular,
    /// It gives a value of another sort than is asked for.
    OtherSort,
    /// It comes to no finite number: something is divided by nothing, or is past all bounds.
    NotFinite,
}

/// Why what a clause works out is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoNumber {
    /// Something is divided by nothing.
    DividedByNothing,
    /// It is larger, or nearer to nothing, than can be worked with.
    PastBounds,
    /// No row of a table holds.
    NoRow,
}

/// What would settle a value, with the names that tell where, so that it outlives the design.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Need {
    /// The element, as a report calls it.
    pub of: String,
    /// The timber, or the member of the joint, that it is stated of.
    pub name: Option<String>,
    /// The classes of use that the set has, where it is one of those that is lacking.
    pub classes: Option<Classes>,
    /// Why the value is not known.
    pub reason: Reason,
}

/// The classes of use that a set has.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Classes {
    /// All of them.
    pub known: Arc<[String]>,
    /// The one that is nearest to what the stair calls itself.
    pub near: Option<String>,
}

impl Classes {
    /// Those of a set, and the one nearest to what a stair calls itself.
    pub fn near(known: &Arc<[String]>, word: Option<&str>) -> Self {
        let near = word.and_then(|word| nearest(word, known.iter().map(String::as_str))).map(str::to_owned);
        Self { known: Arc::clone(known), near }
    }
}

impl Need {
    /// What would settle a value of a design.
    pub fn of(design: &Design, missing: &Missing) -> Self {
        // What is stated once for all steps of a flight is settled there.
        let of_block = match missing.reason {
            Reason::NotStated(statement) | Reason::NotUnderstood(statement) => {
                matches!(statement, Statement::GradeOfTimber | Statement::OfTimber(_) | Statement::OfSection(_))
            }
            reason => matches!(reason, Reason::Beyond(_)),
        };
        let block = design.get(missing.element).and_then(|element| element.base);
        let id = block.filter(|_| of_block).unwrap_or(missing.element);
        let value = |property| design.stated(id, property).and_then(|stated| stated.value.as_ref());
        let name = match missing.reason.statement() {
            Some(Statement::OfTimber(_)) => match value(properties::TIMBER) {
                Some(Value::Timber(timber)) => Some(timber.species.clone()),
                _ => None,
            },
            Some(Statement::OfMember(_, nth)) => match value(properties::JOINS) {
                Some(Value::Names(names)) => names.get(nth).map(|(name, _)| name.clone()),
                _ => None,
            },
            _ => None,
        };
        Self { of: design.called(id), name, classes: None, reason: missing.reason }
    }

    /// Whether the same statement would settle both.
    pub fn settled_with(&self, other: &Need) -> bool {
        let one_place = self.of == other.of || !self.reason.is_of_one_element();
        one_place
            && (&self.name, &self.classes) == (&other.name, &other.classes)
            && self.reason.settled_with(&other.reason)
    }
}
