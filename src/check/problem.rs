//! What can be wrong with a design before a rule is held against it, as values. Their English is made in `wording`.

use crate::base::{HasNotice, Notice};
use crate::model::{self, PropertyName};
use crate::rules::{self, FileProblem, Purpose, SetRefusal};

/// A problem of a design, of the shop's file above it, or of the sets that it asks for.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Problem {
    /// The design, or the shop's file, could not be read, or not all of it.
    Model(model::Problem),
    /// A set that it is held to could not be read, or not all of it.
    Rules(rules::Problem),
    /// The shop's file could not be read as text.
    File(FileProblem),
    /// A set that it asks for cannot be had.
    Refused(SetRefusal),
    /// The text draws no stair.
    NoStair,
    /// A stair asks for no rules.
    NoRules {
        /// Its title.
        stair: String,
        /// The shipped sets that fit what it says that it is for.
        fits: Vec<&'static str>,
    },
    /// A stair says that it is for something that none of its sets is for.
    OtherPurpose {
        /// The property that says so.
        property: PropertyName,
        /// What it is for.
        purpose: Option<Purpose>,
        /// The shipped sets that fit.
        fits: Vec<&'static str>,
    },
    /// A section or a timber that the shop does not stock.
    NotStocked {
        /// Title of the shop.
        shop: String,
        /// As the design names it.
        name: String,
        /// What was likely meant.
        near: Option<String>,
        /// What of that sort is stocked.
        stocked: Vec<String>,
    },
}

impl From<model::Problem> for Problem {
    fn from(problem: model::Problem) -> Self {
        Problem::Model(problem)
    }
}

impl From<rules::Problem> for Problem {
    fn from(problem: rules::Problem) -> Self {
        Problem::Rules(problem)
    }
}

impl From<FileProblem> for Problem {
    fn from(problem: FileProblem) -> Self {
        Problem::File(problem)
    }
}

impl HasNotice for Problem {
    fn notice(&self) -> Notice {
        match self {
            Problem::Model(problem) => problem.notice(),
            Problem::Rules(problem) => problem.notice(),
            Problem::File(problem) => problem.notice(),
            Problem::Refused(refusal) => refusal.notice(),
            Problem::NoStair => Notice::Empty,
            Problem::NoRules { .. } => Notice::NoRules,
            Problem::OtherPurpose { .. } => Notice::OtherPurpose,
            Problem::NotStocked { .. } => Notice::NotStocked,
        }
    }
}
