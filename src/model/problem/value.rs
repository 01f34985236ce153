//! What can be wrong with the value of a property.

use crate::base::{HasNotice, Notice};
use crate::measure::{Dimension, Measure};
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
    /// A coating that is not known.
    UnknownCoating {
        /// The coatings that are.
        known: &'static [&'static str],
        /// The coating that was likely meant.
        near: Option<&'static str>,
    },
    /// A head of a bolt that is not known.
    UnknownBoltHead {
        /// As written, in lower case.
        words: String,
        /// The heads that are known.
        known: &'static [&'static str],
        /// The head that was likely meant.
        near: Option<&'static str>,
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

impl HasNotice for ValueProblem {
    fn notice(&self) -> Notice {
        match self {
            ValueProblem::Impossible { .. }
            | ValueProblem::NoCount
            | ValueProblem::TooManyItems { .. }
            | ValueProblem::NotSold
            | ValueProblem::NoSuchNail { .. }
            | ValueProblem::NoSuchScrew { .. } => Notice::ImpossibleNumber,
            ValueProblem::NothingStated => Notice::MissingValue,
            ValueProblem::OtherSort
            | ValueProblem::NoSetName
            | ValueProblem::EmptyItem
            | ValueProblem::BalustersWithoutSection => Notice::WrongValue,
            ValueProblem::StepsWithoutUnit
            | ValueProblem::LengthWithoutUnit
            | ValueProblem::WithoutUnit { .. }
            | ValueProblem::SlopeWithoutUnit
            | ValueProblem::ScrewWithoutUnit => Notice::MissingUnit,
            ValueProblem::WrongDimension { .. } | ValueProblem::NoSlope { .. } => Notice::WrongDimension,
            ValueProblem::UnknownWord { .. }
            | ValueProblem::UnknownCoating { .. }
            | ValueProblem::UnknownBoltHead { .. } => Notice::UnknownWord,
            ValueProblem::UnknownSection { .. } => Notice::UnknownName,
        }
    }
}
