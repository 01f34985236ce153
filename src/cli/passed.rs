//! What a search for designs passes over, and by what: the globs of the command line, and `.gitignore`.

use std::fs;
use std::ops::AddAssign;
use std::path::{Path, PathBuf};

use ignore::gitignore::{Gitignore, GitignoreBuilder};

use super::files;
use crate::base::limits;

/// What lies at the root of a repository.
pub(super) const REPOSITORY: &str = ".git";
/// The file of a folder that names what is no part of its repository.
const IGNORES: &str = ".gitignore";

/// A glob of the command line, written as in `.gitignore`.
pub(super) fn glob(text: &str) -> Result<String, String> {
    match globs(std::slice::from_ref(&text.to_owned())) {
        Some(globs) if globs.len() == 1 => Ok(text.to_owned()),
        _ => Err("a glob is written as in .gitignore: `*.stair`, `sketches/`, `hides/**`".to_owned()),
    }
}

/// Globs that are looked for from no folder in particular.
fn globs(texts: &[String]) -> Option<Gitignore> {
    let mut builder = GitignoreBuilder::new("");
    for text in texts {
        builder.add_line(None, text).ok()?;
    }
    builder.build().ok()
}

/// What a search is to pass over.
#[derive(Debug)]
pub(super) struct Filter {
    only: Option<Gitignore>,
    without: Option<Gitignore>,
    /// Neither what `.gitignore` names is passed over, nor what is hidden.
    all: bool,
}

impl Filter {
    /// By globs that were read as such before.
    pub fn new(only: &[String], without: &[String], all: bool) -> Self {
        let of = |texts: &[String]| globs(texts).filter(|globs| !globs.is_empty());
        Self { only: of(only), without: of(without), all }
    }

    /// Whether a folder is to be passed over with all that lies in it, by its path from where the search began.
    pub fn leaves_out_folder(&self, below: &Path) -> bool {
        self.without.as_ref().is_some_and(|without| names(without, below, true))
    }

    /// Whether a design is to be passed over.
    pub fn leaves_out(&self, below: &Path) -> bool {
        let only = self.only.as_ref().is_some_and(|only| !names(only, below, false));
        only || self.without.as_ref().is_some_and(|without| names(without, below, false))
    }

    /// Whether what is hidden, or named in a `.gitignore`, counts as well.
    pub fn takes_all(&self) -> bool {
        self.all
    }
}

/// Whether globs name a path, or a folder on it.
fn names(globs: &Gitignore, path: &Path, is_folder: bool) -> bool {
    let path = path.strip_prefix("/").unwrap_or(path);
    let parts = path.ancestors().filter(|part| !part.as_os_str().is_empty());
    parts.enumerate().any(|(at, part)| globs.matched(part, at > 0 || is_folder).is_ignore())
}

/// The `.gitignore` files that bear on a folder that is being walked, the outermost first, each with how deep its
/// folder lies.
#[derive(Debug, Default)]
pub(super) struct Ignores {
    of: Vec<(usize, Gitignore)>,
    /// The folder lies in a repository.
    counts: bool,
}

impl Ignores {
    /// Those of the folders above a folder, whose path is without links, up to the root of its repository.
    pub fn above(folder: &Path) -> Self {
        let mut above: Vec<&Path> = Vec::new();
        for at in folder.ancestors() {
            if at != folder {
                above.push(at);
            }
            if at.join(REPOSITORY).symlink_metadata().is_ok() {
                let of = above.into_iter().rev().filter_map(of_folder).map(|ignores| (0, ignores)).collect();
                return Self { of, counts: true };
            }
        }
        Self::default()
    }

    /// Enters a folder that lies so deep below the first.
    pub fn enter(&mut self, folder: &Path, depth: usize) {
        self.leave(depth);
        if let Some(ignores) = Some(folder).filter(|_| self.counts).and_then(of_folder) {
            self.of.push((depth + 1, ignores));
        }
    }

    /// Leaves the folders that do not hold what lies so deep.
    pub fn leave(&mut self, depth: usize) {
        self.of.retain(|(of, _)| *of <= depth);
    }

    /// Whether one of them names a path; the nearest decides.
    pub fn name(&self, path: &Path, is_folder: bool) -> bool {
        let said = self.of.iter().rev().map(|(_, ignores)| ignores.matched(path, is_folder));
        said.into_iter().find(|said| !said.is_none()).is_some_and(|said| said.is_ignore())
    }
}

/// What a folder's own file names; lines of it that are no glob name nothing.
fn of_folder(folder: &Path) -> Option<Gitignore> {
    let path: PathBuf = folder.join(IGNORES);
    // Another person's file: never through a link, nor what could hold up the run.
    let is_read = |found: &fs::Metadata| found.is_file() && found.len() <= limits::BYTES as u64;
    fs::symlink_metadata(&path).ok().filter(is_read)?;
    let text = files::text(&path).ok()?;
    let mut builder = GitignoreBuilder::new(folder);
    for line in text.lines() {
        let _ = builder.add_line(None, line);
    }
    builder.build().ok()
}

/// How many designs and folders were passed over, by why.
#[derive(Debug, Default, Clone)]
pub(super) struct Passed {
    /// A `.gitignore` names them.
    pub ignored: usize,
    /// Their names begin with a dot.
    pub hidden: usize,
    /// They are folders of what is built.
    pub built: usize,
    /// `--only` or `--without` leaves them out.
    pub left_out: usize,
    /// They do not differ from the commit.
    pub alike: usize,
    /// Shop's files under another name, which are not read.
    pub misnamed: usize,
    /// They are listed, and their names do not end in `.stair`.
    pub no_designs: usize,
}

impl AddAssign for Passed {
    fn add_assign(&mut self, other: Self) {
        self.ignored += other.ignored;
        self.hidden += other.hidden;
        self.built += other.built;
        self.left_out += other.left_out;
        self.alike += other.alike;
        self.misnamed += other.misnamed;
        self.no_designs += other.no_designs;
    }
}

impl Passed {
    /// Whether a folder of which nothing is left may hold designs all the same.
    pub(super) fn any(&self) -> bool {
        self.ignored + self.hidden + self.built + self.left_out > 0
    }

    /// In words; nothing where nothing was passed over.
    pub(super) fn words(&self) -> Option<String> {
        let counted = [
            (self.ignored, "named in .gitignore"),
            (self.hidden, "hidden"),
            (self.built, "called target"),
            (self.left_out, "left out by a glob"),
            (self.alike, "as they were"),
            (self.misnamed, "named like a shop's file, which is `shop.pitchboard`"),
            (self.no_designs, "listed that are no designs"),
        ];
        let words = counted.iter().filter(|(number, _)| *number > 0);
        let words: Vec<String> = words.map(|(number, why)| format!("{number} {why}")).collect();
        let all = counted.iter().map(|(number, _)| number).sum::<usize>();
        let things = if all == 1 { "file or folder" } else { "files or folders" };
        (all > 0).then(|| format!("passed over: {all} {things} ({})", words.join(", ")))
    }
}
