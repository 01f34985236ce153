//! What can be wrong with a shop's file.

use crate::base::{HasNotice, Notice, Span};

/// A block of a shop's file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShopBlock {
    /// The shop as a whole.
    Shop,
    /// A folder of its drawings.
    Folder,
    /// A section that it stocks.
    Section,
    /// A timber that it stocks.
    Timber,
}

impl ShopBlock {
    /// Every block.
    pub const ALL: [ShopBlock; 4] = [ShopBlock::Shop, ShopBlock::Folder, ShopBlock::Section, ShopBlock::Timber];

    /// The word that opens it.
    pub fn word(self) -> &'static str {
        match self {
            ShopBlock::Shop => "shop",
            ShopBlock::Folder => "folder",
            ShopBlock::Section => "section",
            ShopBlock::Timber => "timber",
        }
    }
}

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
        /// The block.
        block: ShopBlock,
        /// As written.
        name: String,
        /// The property that was likely meant.
        near: Option<&'static str>,
        /// The properties that it takes.
        takes: &'static [&'static str],
    },
    /// A block inside a block that holds none.
    BlockIn(ShopBlock),
    /// A block without its name.
    Unnamed(ShopBlock),
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
        block: ShopBlock,
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
            ShopProblem::FolderTwice { .. } | ShopProblem::StockedTwice { .. } => Notice::NamedTwice,
        }
    }
}
