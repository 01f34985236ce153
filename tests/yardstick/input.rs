//! The inputs: texts under the names by which they are checked, all in one file, and the folder in which the sets and
//! shops that they name are sought.

use std::fs;
use std::path::{Path, PathBuf};

use super::record::plain;

/// What an input is taken for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Design,
    /// A set: read and proved.
    Rules,
    /// A shop's file, and a design below it where there is one.
    Shop,
}

/// One text.
#[derive(Debug, Clone)]
pub struct Input {
    /// `examples/...`, `tests/cases/...`, `faults/...`, `damaged/...`.
    pub name: String,
    pub kind: Kind,
    /// Its path below the tree: what it names is sought beside it.
    pub path: String,
    /// A design below this shop's file, or nothing.
    pub below: String,
    pub text: String,
}

impl Input {
    fn read(line: &str) -> Option<Self> {
        let mut columns = line.split('\t');
        let mut next = || columns.next();
        let (name, kind, path, below, text) = (next()?, next()?, next()?, next()?, next()?);
        let kind = match kind {
            "design" => Kind::Design,
            "rules" => Kind::Rules,
            _ => Kind::Shop,
        };
        Some(Self { name: name.to_owned(), kind, path: path.to_owned(), below: below.to_owned(), text: plain(text) })
    }

    /// It stands in the tree as it is.
    pub fn is_file(&self) -> bool {
        self.name == self.path
    }
}

/// The texts of one run.
#[derive(Debug)]
pub struct Corpus {
    pub folder: PathBuf,
    pub inputs: Vec<Input>,
}

impl Corpus {
    /// All inputs of a folder; with `every`, one in so many of those that are damaged.
    pub fn read(folder: &Path, every: usize) -> std::io::Result<Self> {
        let lines = fs::read_to_string(folder.join("inputs"))?;
        let mut inputs: Vec<Input> = lines.split('\n').filter_map(Input::read).collect();
        inputs.retain(|input| {
            let number = input.name.strip_prefix("damaged/").and_then(|number| number.parse::<usize>().ok());
            number.is_none_or(|number| number % every.max(1) == 0)
        });
        Ok(Self { folder: folder.to_owned(), inputs })
    }

    /// The text of a file below the tree: a set, a shop's file or a design.
    pub fn file(&self, path: &str) -> Option<String> {
        fs::read_to_string(self.folder.join("tree").join(path)).ok()
    }
}

/// The path that a file named from another leads to, without `..`.
pub fn beside(name: &str, asked_by: Option<&str>) -> String {
    let mut parts: Vec<&str> = asked_by.map_or(Vec::new(), |asked_by| asked_by.split('/').collect());
    parts.pop();
    for part in name.split('/') {
        match part {
            ".." if parts.last().is_some_and(|last| *last != "..") => {
                parts.pop();
            }
            "." => {}
            part => parts.push(part),
        }
    }
    parts.join("/")
}
