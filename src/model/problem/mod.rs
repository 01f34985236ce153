//! What can be wrong with a stated design or with a shop's file, as values. Their English is made in `wording`.

mod drawing;
mod head;
mod shop;
mod value;

pub use drawing::{DrawingProblem, Limit, NeedsDrawn, Onward, PropertyMeant};
pub use head::HeadProblem;
pub use shop::ShopProblem;
pub use value::{Table, ValueProblem};

use super::kind::Property;
use crate::base::{HasNotice, Notice};
use crate::syntax;

/// A problem of a design or of a shop's file.
#[derive(Debug, Clone, PartialEq)]
pub enum Problem {
    /// The text could not be read, or not all of it.
    Syntax(syntax::Problem),
    /// The head of a block.
    Head(HeadProblem),
    /// The value of a property.
    Value {
        /// The property.
        property: &'static Property,
        /// What is wrong with it.
        slip: ValueProblem,
    },
    /// What is drawn, and what it is said to belong to.
    Drawing(DrawingProblem),
    /// A shop's file.
    Shop(ShopProblem),
}

impl From<syntax::Problem> for Problem {
    fn from(problem: syntax::Problem) -> Self {
        Problem::Syntax(problem)
    }
}

impl From<HeadProblem> for Problem {
    fn from(problem: HeadProblem) -> Self {
        Problem::Head(problem)
    }
}

impl From<DrawingProblem> for Problem {
    fn from(problem: DrawingProblem) -> Self {
        Problem::Drawing(problem)
    }
}

impl From<ShopProblem> for Problem {
    fn from(problem: ShopProblem) -> Self {
        Problem::Shop(problem)
    }
}

impl HasNotice for Problem {
    fn notice(&self) -> Notice {
        match self {
            Problem::Syntax(problem) => problem.notice(),
            Problem::Head(problem) => problem.notice(),
            Problem::Value { slip, .. } => slip.notice(),
            Problem::Drawing(problem) => problem.notice(),
            Problem::Shop(problem) => problem.notice(),
        }
    }
}
