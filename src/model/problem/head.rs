//! What can be wrong with the head of a block.

use crate::base::{HasNotice, Notice};
use crate::model::kind::Kind;

/// A problem of a block's head.
#[derive(Debug, Clone, PartialEq)]
pub enum HeadProblem {
    /// A riser drawn by itself, where a flight's list makes it.
    RiserDrawn,
    /// A kind that does not stand here.
    WrongPlace {
        /// The kind.
        kind: &'static Kind,
        /// The kind in which it stands, empty for the top of a file.
        within: &'static str,
    },
    /// A name that is a kind of thing.
    KindAsName {
        /// The name.
        name: String,
        /// The kind that is opened.
        kind: &'static Kind,
    },
    /// Something that is no name.
    NoName,
    /// A brace without a kind before it.
    NoKind,
    /// A kind that is not known.
    UnknownKind {
        /// As written, in lower case.
        word: String,
        /// The kind that was likely meant.
        near: Option<&'static str>,
        /// The kind in which it stands, empty for the top of a file.
        within: &'static str,
    },
}

impl HasNotice for HeadProblem {
    fn notice(&self) -> Notice {
        match self {
            HeadProblem::RiserDrawn | HeadProblem::WrongPlace { .. } => Notice::WrongPlace,
            HeadProblem::KindAsName { .. } | HeadProblem::NoName => Notice::WrongValue,
            HeadProblem::NoKind | HeadProblem::UnknownKind { .. } => Notice::UnknownKind,
        }
    }
}
