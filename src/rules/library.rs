//! Where rulesets and the shop's file are had from. The core asks; a face answers.

use crate::base::{Diagnostic, HasNotice, Notice, Source};

/// Where rulesets are found.
pub trait Library {
    /// The text of a set, by a built-in name or a path as a file wrote it.
    ///
    /// # Errors
    /// Why there is no such set.
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, SetRefusal>;

    /// The shop's file that a design lies under, if there is one.
    ///
    /// # Errors
    /// Why the file cannot be read.
    fn shop(&self, _design: &str) -> Result<Option<ShopFile>, Box<Diagnostic<FileProblem>>> {
        Ok(None)
    }
}

/// A shop's file, as found from a design.
#[derive(Debug, Clone)]
pub struct ShopFile {
    /// Its text.
    pub source: Source,
    /// The design's path from its folder, parts joined by `/`.
    pub design: String,
}

/// Why a ruleset cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SetRefusal {
    /// No set that comes with the tool has this name.
    NotBuiltIn {
        /// The name asked for.
        name: String,
        /// The name that it was likely meant for.
        near: Option<&'static str>,
    },
    /// Its file cannot be used.
    File {
        /// The file's path, as a user would write it.
        path: String,
        /// Why.
        why: FileProblem,
        /// The built-in set that was likely meant, where there is no such file.
        near: Option<&'static str>,
    },
    /// A library of someone else's says why, in its own words.
    Other(String),
}

impl HasNotice for SetRefusal {
    fn notice(&self) -> Notice {
        Notice::UnknownSet
    }
}

/// Why a file cannot be read as text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileProblem {
    /// There is no such file.
    NotFound,
    /// The system denies it.
    PermissionDenied,
    /// It is a folder.
    IsAFolder,
    /// Something on its path is no folder.
    PathThroughAFile,
    /// It is a pipe or a device in a folder, which could hold up the run for ever.
    NotAFile,
    /// It is a link that leads back to a folder in which it lies.
    LinkLoop {
        /// That folder.
        ancestor: String,
    },
    /// The walk through a folder gave no reason.
    NotRead,
    /// The disk is full; what is written can meet it.
    DiskFull,
    /// The system's own words, for what has no other.
    System(String),
    /// Its size; none where its end was not reached.
    TooLarge {
        /// Tenths of a megabyte (2^20 bytes), rounded up.
        tenths: Option<u64>,
    },
    /// It holds no byte.
    Empty,
    /// It holds nothing but blanks.
    Blank,
    /// It is UTF-16 text.
    Utf16,
    /// It holds a byte that is no UTF-8.
    NotUtf8 {
        /// The first such byte.
        byte: u8,
        /// Its line, from 1.
        line: usize,
    },
    /// A folder in which no name ends in `.stair`.
    NoDesigns {
        /// Its path.
        folder: String,
    },
}

impl HasNotice for FileProblem {
    fn notice(&self) -> Notice {
        match self {
            FileProblem::TooLarge { .. } => Notice::TooLarge,
            FileProblem::Empty | FileProblem::Blank => Notice::Empty,
            FileProblem::Utf16 | FileProblem::NotUtf8 { .. } => Notice::NotText,
            FileProblem::NoDesigns { .. } => Notice::NoDesigns,
            _ => Notice::Unreadable,
        }
    }
}
