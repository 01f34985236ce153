//! The files that texts come from. The core asks; a face answers from a disk, a test from memory.

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

use crate::base::{Diagnostic, Source};
use crate::model::SHOP_FILE;
use crate::rules::FileProblem;

/// A file that cannot be read, and why.
pub type Refusal = Box<Diagnostic<FileProblem>>;

/// Files that a session reads. What it reads once it does not read again until it is told that the file has changed.
pub trait Files: Send + Sync + fmt::Debug {
    /// The text of a file, named as the path is written.
    ///
    /// # Errors
    /// Why the file cannot be read.
    fn read(&self, path: &Path) -> Result<Source, Refusal>;

    /// One path for each file, whichever path leads to it: without links, and without `..` where that can be told.
    fn identity(&self, path: &Path) -> PathBuf {
        plain(path)
    }

    /// Whether there is anything at a path.
    fn exists(&self, path: &Path) -> bool;

    /// Whether a folder stands at a path; where that cannot be told it is taken to.
    fn is_folder(&self, _path: &Path) -> bool {
        true
    }

    /// The designs, rulesets and shops' files in a folder and below it, in their order; where there is no list of them,
    /// none.
    fn texts_below(&self, _folder: &Path) -> Vec<PathBuf> {
        Vec::new()
    }

    /// The folders, at or above this one and within its repository, that hold a shop's file; the nearest first.
    fn shops_above(&self, folder: &Path) -> Vec<ShopPlace>;
}

/// Where a shop's file lies, seen from a folder of designs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShopPlace {
    /// The folder that holds it, as a user of the designs' folder would write it.
    pub folder: PathBuf,
    /// The path down from there to the designs' folder, parts joined by `/`; empty where it is the same.
    pub down: String,
}

impl ShopPlace {
    /// A shop's file in a folder, and the way down from there to the designs.
    pub fn new(folder: PathBuf, down: &Path) -> Self {
        let down: Vec<_> = down.components().map(|part| part.as_os_str().to_string_lossy()).collect();
        Self { folder, down: down.join("/") }
    }
}

/// No files at all: designs are checked against shipped sets only.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoFiles;

impl Files for NoFiles {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        Err(no_such_file(path))
    }

    fn exists(&self, _path: &Path) -> bool {
        false
    }

    fn shops_above(&self, _folder: &Path) -> Vec<ShopPlace> {
        Vec::new()
    }
}

/// Files in memory, by their paths.
#[derive(Debug, Clone, Default)]
pub struct Memory(BTreeMap<PathBuf, String>);

impl Memory {
    /// No files yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a file.
    #[must_use]
    pub fn with(mut self, path: impl Into<PathBuf>, text: impl Into<String>) -> Self {
        self.0.insert(path.into(), text.into());
        self
    }
}

impl Files for Memory {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        let text = self.0.get(&self.identity(path)).ok_or_else(|| no_such_file(path))?;
        Ok(Source::at(path, Arc::from(text.as_str())))
    }

    fn exists(&self, path: &Path) -> bool {
        self.0.contains_key(&self.identity(path))
    }

    fn is_folder(&self, path: &Path) -> bool {
        let path = self.identity(path);
        self.0.keys().any(|file| *file != path && file.starts_with(&path))
    }

    fn texts_below(&self, folder: &Path) -> Vec<PathBuf> {
        let folder = self.identity(folder);
        let is_text = |file: &&PathBuf| {
            let ending = file.extension().is_some_and(|ending| ending == "stair" || ending == "rules");
            file.starts_with(&folder) && (ending || file.file_name().is_some_and(|name| name == SHOP_FILE))
        };
        self.0.keys().filter(is_text).cloned().collect()
    }

    fn shops_above(&self, folder: &Path) -> Vec<ShopPlace> {
        let place = |above: &Path| {
            let down = folder.strip_prefix(above).ok()?;
            self.exists(&above.join(SHOP_FILE)).then(|| ShopPlace::new(above.to_owned(), down))
        };
        folder.ancestors().filter_map(place).collect()
    }
}

/// The path without `.`, and without `..` where a folder stands before it.
fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        let below = matches!(plain.components().next_back(), Some(Component::Normal(_)));
        match part {
            Component::CurDir => {}
            Component::ParentDir if below => drop(plain.pop()),
            other => plain.push(other),
        }
    }
    plain
}

fn no_such_file(path: &Path) -> Refusal {
    Box::new(Diagnostic::whole(&Source::new(path.to_string_lossy(), ""), FileProblem::NotFound))
}
