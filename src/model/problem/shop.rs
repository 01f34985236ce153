//! What can be wrong with a shop's file.

use crate::base::{HasNotice, Notice, Span};
use crate::model::kind::Kind;

/// A problem of a shop's file.
#[derive(Debug, Clone, PartialEq)]
pub enum ShopProblem {
    /// A second shop.
    SecondShop {
        /// The first.
        first: Span,
    },
    /// A block of no known kind.
    UnknownBlock {
        /// The word that opens it.
        word: String,
        /// The word that was likely meant.
        near: Option<&'static str>,
    },
    /// A property outside of any block.
    OutsideBlock {
        /// As written.
        name: String,
    },
    /// A line that is no statement.
    NotAStatement,
    /// A property that the block does not take.
    UnknownProperty {
        /// The block's kind.
        kind: &'static Kind,
        /// As written.
        name: String,
        /// The property that was likely meant.
        near: Option<&'static str>,
    },
    /// A block inside a block that holds none.
    BlockIn(&'static Kind),
    /// A block without its name.
    Unnamed(&'static Kind),
    /// A folder that is not there.
    NoSuchFolder {
        /// Its path.
        path: String,
    },
    /// A folder without its rules.
    FolderWithoutRules,
    /// A path that is no folder below the file.
    NotBelow {
        /// As written.
        path: String,
    },
    /// A folder that has its rules already.
    FolderTwice {
        /// Its path.
        path: String,
        /// Where they are stated first.
        first: Span,
    },
    /// A section or a timber that is stocked already.
    StockedTwice {
        /// Which of the two.
        kind: &'static Kind,
        /// Its name.
        name: String,
        /// Where it is named first.
        first: Span,
    },
    /// A nominal size, whose name says how it measures, with figures of its own.
    NominalWithFigures {
        /// Its name.
        name: String,
    },
    /// A section that does not say how it measures.
    WithoutFigures {
        /// Its name.
        name: String,
    },
}

impl HasNotice for ShopProblem {
    fn notice(&self) -> Notice {
        match self {
            ShopProblem::SecondShop { .. } => Notice::StatedTwice,
            ShopProblem::UnknownBlock { .. } => Notice::UnknownKind,
            ShopProblem::OutsideBlock { .. } | ShopProblem::BlockIn(_) | ShopProblem::NominalWithFigures { .. } => {
                Notice::WrongPlace
            }
            ShopProblem::NotAStatement => Notice::NotAStatement,
            ShopProblem::UnknownProperty { .. } => Notice::UnknownProperty,
            ShopProblem::Unnamed(_) => Notice::MissingName,
            ShopProblem::FolderWithoutRules | ShopProblem::WithoutFigures { .. } => Notice::MissingValue,
            ShopProblem::NotBelow { .. } => Notice::WrongValue,
            ShopProblem::NoSuchFolder { .. } => Notice::UnknownName,
            ShopProblem::FolderTwice { .. } | ShopProblem::StockedTwice { .. } => Notice::NamedTwice,
        }
    }
}
