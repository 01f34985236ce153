//! Why a file cannot be read, and why a ruleset cannot be had.

use crate::base::{HasNotice, Notice};

/// Why a ruleset cannot be had.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
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
}

impl HasNotice for SetRefusal {
    fn notice(&self) -> Notice {
        Notice::UnknownSet
    }
}

/// Why a file cannot be written.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Unwritten {
    /// A link leads out of the folder that it lies in.
    LeadsOut,
    /// Whatever else is against it.
    Other(Box<FileProblem>),
    /// A line of its patch would command the machine that keeps a log.
    CommandsALog,
}

/// Why a file cannot be read as text.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum FileProblem {
    /// There is no such file.
    NotFound,
    /// The system denies it.
    PermissionDenied,
    /// The system denies to write it, which was asked for.
    WriteDenied,
    /// The system denies to write in its folder, which was asked for.
    FolderDenied,
    /// There is no such folder, in which it was to be written.
    NoFolder,
    /// It was to be written, and its name is of a text that is read.
    InputName,
    /// It is a folder.
    IsAFolder,
    /// Something on its path is no folder.
    PathThroughAFile,
    /// It is a pipe or a device, which could hold up the run for ever.
    NotAFile,
    /// Its path or a link on it leads out of the folder below which it may lie.
    Outside {
        /// That folder.
        root: String,
    },
    /// It is named as a set by another text, and its name does not end in `.rules`.
    NoRulesName,
    /// Its path is longer than is read.
    LongPath,
    /// The checker failed on it, which is the tool's own fault.
    Fault,
    /// The walk through a folder gave no reason.
    NotRead,
    /// The disk is full; what is written can meet it.
    DiskFull,
    /// It was to be written, and is no longer what was read.
    Changed,
    /// It was to be written, and another run did not let go of it.
    Held,
    /// It could not be written, and stands as it was.
    NotWritten(Unwritten),
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
    /// A folder of which all that may be or hold a design was passed over.
    AllPassedOver {
        /// Its path.
        folder: String,
    },
    /// It is no baseline.
    NoBaseline {
        /// The first line that is none of one.
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
            FileProblem::NoDesigns { .. } | FileProblem::AllPassedOver { .. } => Notice::NoDesigns,
            _ => Notice::Unreadable,
        }
    }
}
