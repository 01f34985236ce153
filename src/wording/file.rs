//! Files that cannot be read, and sets that cannot be had.

use super::message::{Describe, Description, Place};
use super::phrase::marked;
use crate::base::limits;
use crate::check::BUILT_IN;
use crate::rules::{FileProblem, SetRefusal, Unwritten};

impl Describe for FileProblem {
    fn describe(&self, _: &Place<'_>) -> Description {
        Description::new(why(self))
    }
}

/// Why a file cannot be read or written, without its name.
pub fn why(problem: &FileProblem) -> String {
    let plain = match problem {
        FileProblem::NotFound => "there is no such file",
        FileProblem::PermissionDenied => "there is no permission to read it",
        FileProblem::WriteDenied => "there is no permission to write it",
        FileProblem::FolderDenied => "there is no permission to write in its folder",
        FileProblem::NoFolder => "its folder is not there",
        FileProblem::InputName => "a name that ends so is a design, a set or a shop's file",
        FileProblem::IsAFolder => "it is a folder",
        FileProblem::PathThroughAFile => "a part of its path is no folder",
        FileProblem::NotAFile => "it is a pipe or a device, not a file",
        FileProblem::NoRulesName => "the name of a set's file ends in `.rules`",
        FileProblem::Fault => "Pitchboard itself failed on it, which is a fault of the tool; nothing of it was checked",
        FileProblem::NotRead => "it could not be read",
        FileProblem::DiskFull => "the disk is full, or no more of it may be taken",
        FileProblem::Changed => "it was changed by something else in the meantime",
        FileProblem::Held => "another run that writes it has not ended",
        FileProblem::Empty => "the file is empty",
        FileProblem::Blank => "the file holds nothing but blanks",
        FileProblem::Utf16 => "the file is UTF-16 text, not UTF-8",
        FileProblem::TooLarge { tenths: None } => "it goes on beyond one megabyte, and is not read",
        FileProblem::System(words) => words,
        FileProblem::TooLarge { tenths: Some(tenths) } => {
            return format!("it holds {}.{} megabytes; more than one is not read", tenths / 10, tenths % 10);
        }
        FileProblem::Outside { root } => {
            return format!("it lies outside of `{root}`; only the command line can name what lies there");
        }
        FileProblem::NotWritten(unwritten) => return not_written(unwritten),
        FileProblem::LongPath => return format!("its path is longer than {} bytes", limits::PATH),
        FileProblem::NotUtf8 { byte, line } => return format!("the byte {byte:#04x} on line {line} is not UTF-8 text"),
        FileProblem::AllPassedOver { folder } => {
            return format!("all that may be a design in `{folder}` or below is passed over");
        }
        FileProblem::NoBaseline { line } => return format!("its line {line} is none of a baseline"),
        FileProblem::NoDesigns { folder } => return format!("no name in `{folder}` or below ends in `.stair`"),
    };
    plain.to_owned()
}

fn not_written(why_not: &Unwritten) -> String {
    let reason = match why_not {
        Unwritten::LeadsOut => "it is a link that leads out of its folder".to_owned(),
        Unwritten::Other(problem) => why(problem),
        Unwritten::CommandsALog => {
            return "a line of its patch would be a command to a log: mend the file itself".to_owned();
        }
    };
    format!("it was not mended, and stands as it was: {reason}")
}

/// Why a ruleset cannot be had.
pub fn refusal(refusal: &SetRefusal) -> String {
    match refusal {
        SetRefusal::NotBuiltIn { name, near: Some(near) } => format!("{}; {}", not_built_in(name), built_in(near)),
        SetRefusal::NotBuiltIn { name, near: None } => {
            let known: Vec<&str> = BUILT_IN.iter().map(|(known, _)| *known).collect();
            format!(
                "{}; there are {}, and a set of your own is named by its file, such as `shop.rules`",
                not_built_in(name),
                marked(&known)
            )
        }
        SetRefusal::File { path, why: problem, near } => {
            let offer = near.map(|near| format!("; {}", built_in(near))).unwrap_or_default();
            format!("the ruleset `{path}` could not be used: {}{offer}", why(problem))
        }
    }
}

fn not_built_in(name: &str) -> String {
    format!("no built-in ruleset is named `{name}`")
}

fn built_in(near: &str) -> String {
    format!("did you mean the built-in set `{near}`?")
}
