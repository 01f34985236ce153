//! What can be wrong with what is drawn, and with what it is said to belong to.

use crate::base::{HasNotice, Notice, Span};
use crate::measure::Measure;
use crate::model::kind::{Kind, Property};
use crate::model::redefined::Departure;

/// A problem of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum DrawingProblem {
    /// A block of what was measured that names none of several stairs.
    WhichStairMeasured,
    /// A timber of one's own by a word of the trade that says a grade or a treatment.
    NamesNoTimber {
        /// The name.
        name: String,
    },
    /// A stair by a name that another of the file has.
    StairTwice {
        /// The name.
        name: String,
        /// The first.
        first: Span,
    },
    /// More than can be checked.
    TooMany(Limit),
    /// Measured figures of a stair that the file does not draw.
    NoSuchStair {
        /// The stair's name, empty where none is given.
        name: String,
        /// The stair that was likely meant.
        near: Option<String>,
    },
    /// A property that is stated a second time.
    StatedTwice {
        /// The property.
        property: &'static Property,
        /// Where it is stated first.
        first: Span,
    },
    /// A rail that is said to continue where no rail is.
    ContinuesOverNothing {
        /// The landing that it would run on over.
        first: Span,
    },
    /// A rail that is said to continue, and no other at its side that it runs on into.
    ContinuesNowhere {
        /// Which way.
        onward: Onward,
    },
    /// A timber or a section of one's own under a name that the trade knows, with other figures.
    Redefined {
        /// Timber or section.
        kind: &'static Kind,
        /// Its name.
        name: String,
        /// In what it departs from the trade's; at least one.
        departures: Vec<Departure>,
    },
    /// A waiver that names no rule.
    WaivesNothing,
    /// A size of nothing.
    SizeOfNothing {
        /// The property.
        property: &'static Property,
    },
    /// A property that the thing does not have.
    UnknownProperty {
        /// The thing's kind.
        kind: &'static Kind,
        /// As written.
        name: String,
        /// What was likely meant.
        meant: PropertyMeant,
    },
    /// A name where a side belongs.
    NoSide {
        /// The thing's kind.
        kind: &'static Kind,
        /// As written.
        name: String,
        /// The side that was likely meant.
        near: Option<&'static str>,
    },
    /// A thing that is drawn a second time by the same name.
    DrawnTwice {
        /// The thing's kind.
        kind: &'static Kind,
        /// Its name or side.
        name: String,
        /// Where it is drawn first.
        first: Span,
    },
    /// A thing that is drawn in one place and said to serve another.
    InTwoPlaces {
        /// The place that it is drawn in, as a report calls it.
        inside: String,
        /// Where that is drawn.
        first: Span,
    },
    /// A name that may mean one of several things that are not alike.
    WhichOfTheName {
        /// As written.
        name: String,
        /// One of them, as a report calls it, and where it is drawn.
        one: (String, Span),
        /// Another.
        other: (String, Span),
    },
    /// Two properties of a thing of which only one can be so.
    Rivals {
        /// The later one.
        property: &'static Property,
        /// The one stated first.
        other: &'static Property,
        /// Where.
        first: Span,
    },
    /// A side of a landing that is said to be open, and has a wall.
    OpenAndWalled {
        /// The wall.
        first: Span,
    },
    /// A list of more items than there are things that they are for.
    TooLong {
        /// The property.
        property: &'static Property,
        /// How many items it has.
        many: usize,
        /// What they are for.
        kind: &'static Kind,
        /// How many of those there are.
        most: usize,
    },
    /// A rail that is said to end at a post, where none is drawn.
    NoPostAtItsEnds,
    /// A step from or to which something goes, of what stands where there are none.
    NoStepsBeside {
        /// The property.
        property: &'static Property,
        /// Where it stands.
        place: &'static Kind,
    },
    /// A property that means nothing beside what else is stated of its thing.
    MeansNothing {
        /// The property.
        property: &'static Property,
        /// What is stated that leaves it without meaning, and where; nothing where it lacks what it belongs to.
        beside: Option<(&'static Property, Span)>,
        /// What it would belong to.
        belongs: Option<&'static Property>,
    },
    /// A word that needs something drawn, which is not.
    NeedsDrawn(NeedsDrawn),
    /// A block of a joint for something that the joint does not join.
    NotJoined {
        /// As written.
        name: String,
        /// What it joins.
        joined: Vec<String>,
    },
    /// A joint of a thing and itself.
    JoinsItself {
        /// As written.
        name: String,
    },
    /// A flight whose name says that it lies above another, and which is drawn below that.
    FlightsOutOfOrder {
        /// Its name.
        name: String,
        /// The name of the other.
        other: String,
        /// Where that is drawn.
        first: Span,
    },
    /// A landing that is said to have no open side, and has a guard, or a wall that closes a part.
    NoneOpenAndClosed {
        /// The guard or the wall.
        kind: &'static Kind,
        /// Where it is drawn.
        first: Span,
    },
    /// A measured figure that lies between the marks to which the work was read.
    FinerThanRead {
        /// The marks.
        marks: Measure,
    },
    /// A rail that is said to return, with nothing beside it to return to.
    ReturnsToNothing,
    /// A flight that is said to be a spiral, of which no tread tapers.
    SpiralOfStraightTreads,
    /// A list of what was measured that has another length than the one that is drawn.
    MeasuredOther {
        /// The property.
        property: &'static Property,
        /// How many were measured.
        many: usize,
        /// How many are drawn.
        drawn: usize,
    },
    /// A property outside of any stair.
    OutsideStair,
    /// A property without its colon.
    MissingColon {
        /// The property.
        said: String,
        /// The words that would be its value.
        value: Option<Span>,
    },
    /// A property without its colon, which belongs to a thing drawn inside.
    MissingColonIn {
        /// The kind that has such a property.
        kind: &'static Kind,
    },
    /// A kind without its brace.
    NotOpened,
    /// A line that is no statement.
    NotAStatement,
    /// A thing that may serve any of several flights.
    WhichFlight {
        /// The thing's kind.
        kind: &'static Kind,
    },
    /// A property that was measured on any of several flights.
    WhichFlightMeasured {
        /// The property, as written.
        property: String,
    },
    /// A landing that lies neither between two flights nor at an end.
    LandingBesideFlights {
        /// Its name.
        name: Option<String>,
    },
    /// A name that nothing drawn goes by.
    NothingCalled {
        /// As written.
        name: String,
        /// The name that was likely meant.
        near: Option<String>,
        /// The names that could stand there.
        drawn: Vec<String>,
    },
    /// A thing that is measured and not drawn.
    NotDrawn {
        /// Its kind.
        kind: &'static Kind,
        /// Its name or side.
        name: Option<String>,
    },
}

/// A word of a design that speaks of something that is not drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NeedsDrawn {
    /// A string that stands on a landing at its foot.
    LandingAtItsFoot,
    /// A string at a wall.
    WallBesideIt,
    /// The inner string of a turn, or a post at one.
    Turn,
    /// The framing in which the strings of a stair hang that no building holds.
    FramingOfItsOwn,
}

/// What a file draws more of than can be checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// Things of a file.
    Things,
    /// Stairs of a file.
    Stairs,
    /// Steps of a stair.
    Steps,
    /// Things of a stair that are there for each of its flights.
    EachFlight,
    /// Sections or timbers that a file lists.
    Stock,
    /// Waivers of a stair.
    Waivers,
}

/// What a property that a thing does not have was likely meant for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PropertyMeant {
    /// A property of a name near to it.
    Near(&'static str),
    /// A property that the trade has another word for.
    Trade(&'static str),
    /// A thing of its own, drawn inside.
    Thing,
    /// A property of a kind that is drawn inside.
    Of(&'static Kind),
    /// How high a wall is: one that is low is a guard.
    LowWall,
    /// Nothing that is known.
    Unknown,
}

/// Which way a rail is said to continue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Onward {
    /// Into the next flight up.
    Up,
    /// Into the next flight down.
    Down,
}

impl HasNotice for DrawingProblem {
    fn notice(&self) -> Notice {
        match self {
            DrawingProblem::TooMany(_) => Notice::TooMany,
            DrawingProblem::NoSuchStair { .. }
            | DrawingProblem::NothingCalled { .. }
            | DrawingProblem::NotDrawn { .. } => Notice::UnknownName,
            DrawingProblem::StatedTwice { .. }
            | DrawingProblem::InTwoPlaces { .. }
            | DrawingProblem::Rivals { .. }
            | DrawingProblem::OpenAndWalled { .. } => Notice::StatedTwice,
            DrawingProblem::WhichOfTheName { .. } => Notice::UnclearName,
            DrawingProblem::SizeOfNothing { .. } => Notice::ImpossibleNumber,
            DrawingProblem::ContinuesNowhere { .. }
            | DrawingProblem::ContinuesOverNothing { .. }
            | DrawingProblem::NoPostAtItsEnds
            | DrawingProblem::NeedsDrawn(_)
            | DrawingProblem::NotJoined { .. }
            | DrawingProblem::ReturnsToNothing => Notice::UnknownName,
            DrawingProblem::WaivesNothing => Notice::MissingName,
            DrawingProblem::Redefined { .. } => Notice::Redefined,
            DrawingProblem::UnknownProperty { .. } => Notice::UnknownProperty,
            DrawingProblem::NoSide { .. } | DrawingProblem::TooLong { .. } | DrawingProblem::MeasuredOther { .. } => {
                Notice::WrongValue
            }
            DrawingProblem::WhichStairMeasured => Notice::UnknownName,
            DrawingProblem::NamesNoTimber { .. } | DrawingProblem::JoinsItself { .. } => Notice::WrongValue,
            DrawingProblem::MeansNothing { .. } | DrawingProblem::NoStepsBeside { .. } => Notice::MeansNothing,
            DrawingProblem::FinerThanRead { .. } => Notice::FinerThanRead,
            DrawingProblem::FlightsOutOfOrder { .. } => Notice::WrongPlace,
            DrawingProblem::NoneOpenAndClosed { .. } => Notice::StatedTwice,
            DrawingProblem::SpiralOfStraightTreads => Notice::WrongValue,
            DrawingProblem::DrawnTwice { .. } | DrawingProblem::StairTwice { .. } => Notice::NamedTwice,
            DrawingProblem::OutsideStair | DrawingProblem::LandingBesideFlights { .. } => Notice::WrongPlace,
            DrawingProblem::MissingColon { .. } | DrawingProblem::MissingColonIn { .. } => Notice::MissingColon,
            DrawingProblem::NotOpened | DrawingProblem::NotAStatement => Notice::NotAStatement,
            DrawingProblem::WhichFlight { .. } | DrawingProblem::WhichFlightMeasured { .. } => Notice::UnclearFlight,
        }
    }
}
