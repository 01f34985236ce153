//! Finding designs on the disk: files as they are named, and what lies in a folder.

use std::collections::{BTreeSet, VecDeque};
use std::fs::{self, FileType};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use super::files::{named, refuse, why};
use super::passed::{Filter, Ignores, Passed, REPOSITORY};
use crate::model::SHOP_FILE;
use crate::rules::FileProblem;
use crate::session::Refusal;

/// The designs that these paths name, in the order given, sorted within a folder, each once.
/// What cannot be reached stands in its place as a refusal.
#[cfg(any(test, feature = "internals"))]
pub fn designs(paths: &[PathBuf]) -> Vec<Result<PathBuf, Refusal>> {
    let filter = Filter::new(&[], &[], false);
    let mut found = Found::new(&filter);
    paths.iter().for_each(|path| found.add(path));
    found.designs
}

/// Files and folders that are looked at where nobody has asked for a whole folder: an editor may have a home folder open.
const MOST_LOOKED_AT: usize = 50_000;

/// The designs that were found so far.
pub(super) struct Found<'f> {
    filter: &'f Filter,
    /// Whether a name is of what is sought.
    sought: fn(&Path) -> bool,
    /// How many files and folders may still be looked at.
    left: usize,
    seen: BTreeSet<PathBuf>,
    pub designs: Vec<Result<PathBuf, Refusal>>,
    pub passed: Passed,
}

impl<'f> Found<'f> {
    pub fn new(filter: &'f Filter) -> Self {
        let (seen, designs, passed) = (BTreeSet::new(), Vec::new(), Passed::default());
        Self { filter, sought: is_design, left: usize::MAX, seen, designs, passed }
    }

    /// The same of designs, rulesets and shop's files.
    pub fn texts(filter: &'f Filter) -> Self {
        Self { sought: is_text, ..Self::new(filter) }
    }

    /// The same, but of a folder that holds no end of files the first.
    pub fn first_texts(filter: &'f Filter) -> Self {
        Self { left: MOST_LOOKED_AT, ..Self::texts(filter) }
    }

    /// Adds a file, whatever it is called, or the designs of a folder.
    pub fn add(&mut self, path: &Path) {
        if is_folder(path) {
            self.folder(path);
        } else if self.seen.insert(one_name(path)) {
            self.designs.push(Ok(path.to_owned()));
        }
    }

    /// Adds a file that a list names, if it is a design that is wanted, or those of a folder.
    pub fn add_listed(&mut self, path: &Path) {
        if is_folder(path) {
            self.folder(path);
        } else if !(self.sought)(path) {
            self.passed.no_designs += 1;
        } else if self.filter.leaves_out(path.strip_prefix(".").unwrap_or(path)) {
            self.passed.left_out += 1;
        } else {
            self.add(path);
        }
    }

    /// Adds the designs of a folder and of those below it.
    fn folder(&mut self, root: &Path) {
        let real = root.canonicalize().unwrap_or_else(|_| root.to_owned());
        let mut walk = Walk {
            root,
            real: real.clone(),
            filter: self.filter,
            sought: self.sought,
            left: self.left,
            entered: BTreeSet::new(),
            links: VecDeque::new(),
            found: Vec::new(),
            passed: Passed::default(),
        };
        walk.through(root, &real);
        while let Some((link, real)) = walk.links.pop_front() {
            walk.through(&link, &real);
        }
        if walk.found.is_empty() {
            let folder = root.display().to_string();
            let why = match walk.passed.any() {
                true => FileProblem::AllPassedOver { folder },
                false => FileProblem::NoDesigns { folder },
            };
            walk.found.push(Err(refuse(&named(root), why)));
        }
        let Walk { found, passed, left, .. } = walk;
        self.left = left;
        let new = found.into_iter().filter(|found| {
            let Ok(path) = found else { return true };
            self.seen.insert(path.strip_prefix(root).map_or_else(|_| path.clone(), |below| real.join(below)))
        });
        self.designs.extend(new);
        self.passed += passed;
    }
}

/// A file by one name, however its folder is written. A link to a file is a name of its own.
fn one_name(path: &Path) -> PathBuf {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (folder.canonicalize(), path.file_name()) {
        (Ok(folder), Some(name)) if path != Path::new("-") => folder.join(name),
        _ => path.to_owned(),
    }
}

fn is_folder(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|found| found.is_dir())
}

/// A walk through a folder that is asked for. Each real folder is entered once, whichever links lead to it, and none
/// outside of it.
struct Walk<'a> {
    /// The folder as it was asked for.
    root: &'a Path,
    /// The same without links.
    real: PathBuf,
    filter: &'a Filter,
    sought: fn(&Path) -> bool,
    left: usize,
    /// The folders entered, without links.
    entered: BTreeSet<PathBuf>,
    /// Links to folders, to be entered once all others were, and where they lead.
    links: VecDeque<(PathBuf, PathBuf)>,
    found: Vec<Result<PathBuf, Refusal>>,
    passed: Passed,
}

impl Walk<'_> {
    /// Walks through a folder whose path without links is `real`.
    fn through(&mut self, folder: &Path, real: &Path) {
        let mut ignores = Ignores::above(real);
        let mut entries = WalkDir::new(folder).sort_by_file_name().into_iter();
        while let Some(entry) = entries.next() {
            let Some(left) = self.left.checked_sub(1) else { return };
            self.left = left;
            match entry {
                Ok(entry) if !self.wants(&entry, folder, real, &mut ignores) => {
                    if entry.file_type().is_dir() {
                        entries.skip_current_dir();
                    }
                }
                Ok(entry) if entry.file_type().is_dir() || entry.depth() == 0 => {
                    let below = entry.path().strip_prefix(folder).unwrap_or(Path::new(""));
                    let whole = if entry.depth() == 0 { real.to_owned() } else { real.join(below) };
                    if self.entered.insert(whole.clone()) {
                        ignores.enter(&whole, entry.depth());
                    } else {
                        entries.skip_current_dir();
                    }
                }
                Ok(entry) if is_shop_misnamed(&entry) => self.passed.misnamed += 1,
                Ok(entry) if entry.file_type().is_symlink() => self.link(entry.path()),
                Ok(entry) if (self.sought)(entry.path()) => self.design(entry.path(), entry.file_type()),
                Ok(_) => {}
                Err(error) => {
                    let why = error.io_error().map_or(FileProblem::NotRead, why);
                    self.refuse(error.path().unwrap_or(folder), why);
                }
            }
        }
    }

    /// Whether something is a part of the drawings that were asked for: hidden things, build folders and what
    /// `.gitignore` names are not. The folder asked for is always entered. What is passed over is counted, as far as it
    /// may be a design or hold one.
    fn wants(&mut self, entry: &DirEntry, folder: &Path, real: &Path, ignores: &mut Ignores) -> bool {
        if entry.depth() == 0 {
            return true;
        }
        ignores.leave(entry.depth());
        let is_folder = entry.file_type().is_dir();
        let name = entry.file_name();
        if is_folder && name == REPOSITORY {
            return false;
        }
        let below = entry.path().strip_prefix(folder).unwrap_or(Path::new(""));
        let asked = entry.path().strip_prefix(self.root).unwrap_or(entry.path());
        let counts = usize::from(is_folder || (self.sought)(entry.path()));
        let takes_all = self.filter.takes_all();
        let over = if !takes_all && name.to_string_lossy().starts_with('.') {
            &mut self.passed.hidden
        } else if !takes_all && is_folder && name == "target" {
            &mut self.passed.built
        } else if !takes_all && ignores.name(&real.join(below), is_folder) {
            &mut self.passed.ignored
        } else if is_folder && self.filter.leaves_out_folder(asked)
            || !is_folder && (self.sought)(entry.path()) && self.filter.leaves_out(asked)
        {
            &mut self.passed.left_out
        } else {
            return true;
        };
        *over += counts;
        false
    }

    /// Takes a link into account that leads to a folder or stands for a design.
    fn link(&mut self, path: &Path) {
        let (real, found) = match path.canonicalize().and_then(|real| Ok((fs::metadata(&real)?, real))) {
            Ok((found, real)) => (real, found),
            // A link to nowhere matters only if it stands for a design.
            Err(error) if (self.sought)(path) || error.kind() == ErrorKind::PermissionDenied => {
                return self.refuse(path, why(&error));
            }
            Err(_) => return,
        };
        if !found.is_dir() && !(self.sought)(path) {
            return;
        }
        if !real.starts_with(&self.real) {
            return self.refuse(path, FileProblem::Outside { root: self.root.display().to_string() });
        }
        if found.is_dir() {
            self.links.push_back((path.to_owned(), real))
        } else {
            self.design(path, found.file_type())
        }
    }

    /// A design, if it is a file: a pipe or a device could hold up the run for ever.
    fn design(&mut self, path: &Path, found: FileType) {
        if !found.is_file() {
            return self.refuse(path, FileProblem::NotAFile);
        }
        self.found.push(Ok(path.strip_prefix(".").unwrap_or(path).to_owned()));
    }

    fn refuse(&mut self, path: &Path, why: FileProblem) {
        self.found.push(Err(refuse(&named(path.strip_prefix(".").unwrap_or(path)), why)));
    }
}

/// Under any other name a shop's file is not read.
fn is_shop_misnamed(entry: &DirEntry) -> bool {
    let ending = entry.path().extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pitchboard"));
    ending && entry.file_name() != SHOP_FILE
}

fn is_design(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("stair"))
}

fn is_text(path: &Path) -> bool {
    let is_set = path.extension().is_some_and(|extension| extension == "rules");
    is_design(path) || is_set || path.file_name().is_some_and(|name| name == SHOP_FILE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::yard::Yard;

    fn found(yard: &Yard) -> Vec<String> {
        let tail = |path: &Path| path.strip_prefix(&yard.0).unwrap_or(path).to_string_lossy().into_owned();
        designs(std::slice::from_ref(&yard.0))
            .iter()
            .map(|found| found.as_ref().map_or_else(|refused| refused.name().to_owned(), |path| tail(path)))
            .collect()
    }

    #[test]
    fn a_folder_gives_its_designs_in_order_without_hidden_and_built_things() {
        let yard = Yard::new();
        for name in [
            "z.stair",
            "a.stair",
            "boats/b.stair",
            ".git/c.stair",
            "target/d.stair",
            "boats/.old/e.stair",
            "notes.txt",
            "boats/target.stair",
            ".#a.stair",
        ] {
            yard.put(name, "stair {}");
        }
        assert_eq!(found(&yard), ["a.stair", "boats/b.stair", "boats/target.stair", "z.stair"]);
        let twice = [yard.0.join("z.stair"), yard.0.clone(), yard.0.join("notes.txt")];
        let named: Vec<PathBuf> = designs(&twice).into_iter().map(Result::unwrap).collect();
        assert_eq!(named.len(), 5);
        assert!(named[0].ends_with("z.stair") && named[4].ends_with("notes.txt"));
    }

    #[test]
    fn a_folder_without_designs_says_so() {
        let yard = Yard::new();
        yard.put("notes.txt", "x");
        assert_eq!(found(&yard), ["no designs"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_back_is_quiet_and_a_dead_one_costs_one_message() {
        use std::os::unix::fs::symlink;
        let yard = Yard::new();
        yard.put("a.stair", "stair {}");
        symlink(&yard.0, yard.0.join("round")).unwrap();
        symlink(yard.0.join("gone"), yard.0.join("dead.stair")).unwrap();
        symlink(yard.0.join("gone"), yard.0.join("dead.txt")).unwrap();
        symlink("self.stair", yard.0.join("self.stair")).unwrap();
        symlink(yard.0.join("a.stair"), yard.0.join("linked.stair")).unwrap();
        assert_eq!(found(&yard), ["a.stair", "unreadable", "linked.stair", "unreadable"]);
        assert_eq!(super::super::read(&yard.0.join("self.stair")).unwrap_err().name(), "unreadable");
    }
}
