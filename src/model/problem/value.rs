//! What can be wrong with the value of a property.

use crate::base::{HasNotice, Notice};
use crate::measure::{Dimension, Measure};
use crate::model::kind::{Kind, PropertyName, Range};
use crate::model::spelling::Misspelling;
use crate::syntax::problem::Impossible;

/// A problem of a value; the diagnostic's place is the words that do not fit.
#[derive(Debug, Clone, PartialEq)]
pub enum ValueProblem {
    /// A figure that cannot be.
    Impossible {
        /// Why.
        why: Impossible,
    },
    /// Nothing stands after the colon.
    NothingStated,
    /// A value of another sort.
    OtherSort,
    /// Words that hold a figure, and are not one.
    Misspelt(Misspelling),
    /// Something other than names, where names of rulesets belong.
    NoSetName,
    /// A count of risers or runs without their size.
    StepsWithoutUnit,
    /// A bare number, where a length belongs.
    LengthWithoutUnit,
    /// A bare number, where something of another dimension belongs.
    WithoutUnit {
        /// What belongs there.
        dimension: Dimension,
    },
    /// A figure of another dimension.
    WrongDimension {
        /// The figure.
        is: Measure,
    },
    /// A bare number, where a slope belongs.
    SlopeWithoutUnit,
    /// A figure of another dimension, where a slope belongs.
    NoSlope {
        /// The figure.
        is: Measure,
    },
    /// A number that no count of things can be.
    NoCount,
    /// Nothing stands beside a comma.
    EmptyItem,
    /// A list of no steps, or of too many.
    TooManyItems {
        /// The most that are taken.
        most: f64,
    },
    /// A word that is not among those taken.
    UnknownWord {
        /// The words taken.
        known: &'static [&'static str],
        /// The word that was likely meant.
        near: Option<&'static str>,
    },
    /// A section by a name that is not known.
    UnknownSection {
        /// The name.
        name: String,
        /// The name that was likely meant.
        near: Option<String>,
    },
    /// A nominal size in which no boards are sold.
    NotSold,
    /// Balusters without their section.
    BalustersWithoutSection,
    /// A word that begins no phrase of the table behind a value.
    StrangeWord {
        /// The table.
        table: Table,
        /// The phrase that was likely meant.
        near: Option<String>,
    },
    /// A word that denies something, where what is there belongs.
    Denied {
        /// The table of what may be said.
        table: Table,
    },
    /// The same again, or a second of what there is one of.
    SaidTwice,
    /// What cannot be true beside what stands before it.
    Contradicts {
        /// What stands before it, as the table calls it.
        first: String,
    },
    /// Grades and treatments of no timber.
    NoSpecies,
    /// A figure behind a part of a finish that has no length.
    NoStrip,
    /// A date that no calendar has.
    NoDay,
    /// A date before any of a stair that is checked here.
    LongPast,
    /// A metric thread that is not in the table.
    NoSuchThread,
    /// A figure that is out of all proportion; it counts all the same.
    OutOfProportion {
        /// The kind that it is stated of.
        of: &'static Kind,
        /// The figure.
        is: Measure,
        /// Between which it would make sense.
        range: Range,
        /// What was likely meant.
        likely: Option<Measure>,
    },
    /// A nail that is not in the table.
    NoSuchNail {
        /// Common, box or sinker.
        kind: String,
        /// Its pennyweight.
        penny: u32,
    },
    /// A screw that is not in the table.
    NoSuchScrew {
        /// Its number.
        number: u32,
    },
    /// A bare number, where a screw's number or a diameter belongs.
    ScrewWithoutUnit,
}

/// A closed table of words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// Words of one property.
    Words(&'static [&'static str]),
    /// Species, grades, treatments.
    Timbers,
    /// Parts of a finish.
    Finishes,
    /// Heads and coatings of the fasteners of a property.
    Fasteners(PropertyName),
}

impl HasNotice for ValueProblem {
    fn notice(&self) -> Notice {
        match self {
            ValueProblem::Impossible { .. }
            | ValueProblem::NoCount
            | ValueProblem::TooManyItems { .. }
            | ValueProblem::NotSold
            | ValueProblem::NoSuchNail { .. }
            | ValueProblem::NoSuchScrew { .. }
            | ValueProblem::NoSuchThread
            | ValueProblem::LongPast
            | ValueProblem::NoDay => Notice::ImpossibleNumber,
            ValueProblem::NothingStated => Notice::MissingValue,
            ValueProblem::Misspelt(Misspelling::BelowNothing) => Notice::ImpossibleNumber,
            ValueProblem::OtherSort
            | ValueProblem::Misspelt(_)
            | ValueProblem::NoSetName
            | ValueProblem::EmptyItem
            | ValueProblem::BalustersWithoutSection
            | ValueProblem::SaidTwice
            | ValueProblem::Contradicts { .. }
            | ValueProblem::NoSpecies
            | ValueProblem::NoStrip => Notice::WrongValue,
            ValueProblem::StepsWithoutUnit
            | ValueProblem::LengthWithoutUnit
            | ValueProblem::WithoutUnit { .. }
            | ValueProblem::SlopeWithoutUnit
            | ValueProblem::ScrewWithoutUnit => Notice::MissingUnit,
            ValueProblem::WrongDimension { .. } | ValueProblem::NoSlope { .. } => Notice::WrongDimension,
            ValueProblem::UnknownWord { .. } | ValueProblem::StrangeWord { .. } | ValueProblem::Denied { .. } => {
                Notice::UnknownWord
            }
            ValueProblem::UnknownSection { .. } => Notice::UnknownName,
            ValueProblem::OutOfProportion { .. } => Notice::OutOfProportion,
        }
    }
}
