//! Texts by the file that each one is, with their revisions: shipped sets, files, and what lies over a file unsaved.

use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, RwLock};

use super::files::{Files, Refusal, ShopPlace};
use crate::base::{Diagnostic, Source, limits};
use crate::check::{nearest_shipped, shipped};
use crate::model::SHOP_FILE;
use crate::rules::{FileProblem, SetRefusal};

/// What a text is, whatever path leads to it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Key {
    /// A set by a bare name.
    Named(String),
    /// A file, by its identity.
    File(PathBuf),
}

/// How many times the texts of a session had changed when a text was read.
pub(super) type Revision = u64;

/// A text, or why there is none.
type Read = Result<Arc<str>, Refusal>;

#[derive(Debug, Default)]
struct Texts {
    /// Counts every change, so that no two texts of one file share a revision.
    changes: Revision,
    read: BTreeMap<PathBuf, (Read, Revision)>,
    /// Texts that lie over files, unsaved.
    over: BTreeMap<PathBuf, (Arc<str>, Revision)>,
    /// The shops' files above each folder of designs.
    shops: BTreeMap<PathBuf, Arc<[ShopPlace]>>,
    /// The file that each path leads to; to ask the disk costs more than to read a design.
    identities: BTreeMap<PathBuf, PathBuf>,
}

#[derive(Debug)]
pub(super) struct Sources {
    files: Box<dyn Files>,
    own: BTreeMap<String, Source>,
    texts: RwLock<Texts>,
}

impl Sources {
    pub(super) fn new(files: Box<dyn Files>) -> Self {
        Self { files, own: BTreeMap::new(), texts: RwLock::default() }
    }

    pub(super) fn own(&mut self, name: String, source: Source) {
        self.own.insert(name, source);
    }

    pub(super) fn lay_over(&self, path: &Path, text: &str) {
        let identity = self.files.identity(path);
        self.change(|texts| {
            texts.over.insert(identity, (Arc::from(text), texts.changes));
        });
    }

    pub(super) fn take_away(&self, path: &Path) {
        let identity = self.files.identity(path);
        self.change(|texts| {
            texts.over.remove(&identity);
            texts.read.remove(&identity);
        });
    }

    pub(super) fn forget(&self, path: &Path) {
        let identity = self.files.identity(path);
        self.change(|texts| {
            texts.read.remove(&identity);
            // A shop's file may have come or gone, and a link may lead elsewhere.
            texts.shops.clear();
            texts.identities.clear();
        });
    }

    fn change(&self, change: impl FnOnce(&mut Texts)) {
        if let Ok(mut texts) = self.texts.write() {
            texts.changes += 1;
            change(&mut texts);
        }
    }

    pub(super) fn identity(&self, path: &Path) -> PathBuf {
        if let Some(known) = self.texts.read().ok().and_then(|texts| texts.identities.get(path).cloned()) {
            return known;
        }
        let identity = self.files.identity(path);
        if let Ok(mut texts) = self.texts.write() {
            texts.identities.insert(path.to_owned(), identity.clone());
        }
        identity
    }

    /// Whether a text lies over the file.
    pub(super) fn is_open(&self, key: &Key) -> bool {
        match key {
            Key::Named(_) => false,
            Key::File(path) => self.texts.read().is_ok_and(|texts| texts.over.contains_key(path)),
        }
    }

    /// Whether a text is still the one that was read.
    pub(super) fn is_current(&self, key: &Key, revision: Revision) -> bool {
        let Key::File(path) = key else { return true };
        self.texts.read().is_ok_and(|texts| {
            let over = texts.over.get(path).map(|(_, at)| *at);
            over.or_else(|| texts.read.get(path).map(|(_, at)| *at)) == Some(revision)
        })
    }

    /// The text of a file under the name that its path has.
    pub(super) fn text(&self, path: &Path) -> Result<(Key, Source, Revision), Refusal> {
        let identity = self.identity(path);
        let (read, revision) = self.known(&identity).unwrap_or_else(|| self.read(path, &identity));
        let text = read.map_err(|refused| {
            Box::new(Diagnostic { source: Source::at(path, Arc::clone(&refused.source.text)), ..*refused })
        })?;
        Ok((Key::File(identity), Source::at(path, text), revision))
    }

    fn known(&self, identity: &Path) -> Option<(Read, Revision)> {
        let texts = self.texts.read().ok()?;
        let over = texts.over.get(identity).map(|(text, at)| (Ok(Arc::clone(text)), *at));
        over.or_else(|| texts.read.get(identity).cloned())
    }

    fn read(&self, path: &Path, identity: &Path) -> (Read, Revision) {
        let read = self.files.read(path).map(|source| source.text);
        let Ok(mut texts) = self.texts.write() else { return (read, 0) };
        let revision = texts.changes;
        // Where two threads have read one file, the first text stands for both.
        texts.read.entry(identity.to_owned()).or_insert((read, revision)).clone()
    }

    /// The text of a set. A bare name is one of its own or a shipped one. What holds a slash or ends in `.rules` is a
    /// file: sought from the current folder if nobody asks for it but the command line, which may name any; else beside
    /// the text that asks for it, which is another person's and may name only sets below its root.
    pub(super) fn ruleset(&self, name: &str, asked_by: Option<&Source>) -> Result<(Key, Source, Revision), SetRefusal> {
        if let Some(source) = self.own.get(name) {
            return Ok((Key::Named(name.to_owned()), source.clone(), 0));
        }
        if !is_path(name) {
            let near = || SetRefusal::NotBuiltIn { name: name.to_owned(), near: nearest_shipped(name) };
            return shipped(name).map(|source| (Key::Named(name.to_owned()), source, 0)).ok_or_else(near);
        }
        let folder = asked_by.and_then(|source| source.path().parent()).unwrap_or(Path::new(""));
        let place = folder.join(name);
        let refused = |why, near| SetRefusal::File { path: place.display().to_string(), why, near };
        if let Some(why) = asked_by.and_then(|_| self.distrusted(name, folder, &place)) {
            return Err(refused(why, None));
        }
        self.text(&self.plain(&place)).map_err(|found| {
            let stem = Path::new(name).file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
            let near = nearest_shipped(&stem).filter(|_| !self.files.exists(&place));
            refused(found.problem, near)
        })
    }

    /// The file of a set that could not be had, at the revision at which that was found.
    pub(super) fn lacking(&self, name: &str, asked_by: Option<&Source>) -> Option<(Key, Revision)> {
        let folder = asked_by.and_then(|source| source.path().parent()).unwrap_or(Path::new(""));
        let identity = self.identity(&self.plain(&folder.join(name)));
        let revision = self.known(&identity)?.1;
        Some((Key::File(identity), revision))
    }

    /// Why a text in a folder may not name a set so, if it may not. Nothing is said of what lies at the place.
    fn distrusted(&self, name: &str, folder: &Path, place: &Path) -> Option<FileProblem> {
        if name.len() > limits::PATH {
            return Some(FileProblem::LongPath);
        }
        if !name.ends_with(".rules") {
            return Some(FileProblem::NoRulesName);
        }
        let shops = self.shops_above(folder);
        let root = shops.first().map_or(folder, |shop| &shop.folder);
        let below = Path::new(name).is_relative() && self.is_below(place, root);
        (!below).then(|| FileProblem::Outside { root: shown(root) })
    }

    /// Why the shop's file of a folder may not be read, if it may not.
    pub(super) fn distrusted_shop(&self, folder: &Path) -> Option<FileProblem> {
        let below = self.is_below(&folder.join(SHOP_FILE), folder);
        (!below).then(|| FileProblem::Outside { root: shown(folder) })
    }

    /// Whether a folder lies below another by just these names: no design lies in one that is called otherwise, or in a
    /// link.
    pub(super) fn has_folder(&self, folder: &Path, below: &str) -> bool {
        let place = folder.join(below);
        self.files.is_folder(&place) && self.identity(&place) == self.identity(folder).join(below)
    }

    /// Whether a path leads to a place below a folder, whatever links lie on it.
    fn is_below(&self, path: &Path, folder: &Path) -> bool {
        let (path, folder) = (self.identity(path), self.identity(folder));
        let mut down = path.strip_prefix(&folder).into_iter().flat_map(Path::components).peekable();
        down.peek().is_some() && down.all(|part| matches!(part, Component::Normal(_)))
    }

    /// The path without `..` where it leads to the same file: `marsh.rules` for `village/../marsh.rules`.
    fn plain(&self, place: &Path) -> PathBuf {
        let mut plain = PathBuf::new();
        for part in place.components() {
            let folder = matches!(plain.components().next_back(), Some(Component::Normal(_)));
            if part == Component::ParentDir && folder {
                plain.pop();
            } else {
                plain.push(part);
            }
        }
        let same = self.identity(&plain) == self.identity(place);
        if same { plain } else { place.to_owned() }
    }

    #[cfg(feature = "cli")]
    pub(super) fn texts_below(&self, folder: &Path) -> Vec<PathBuf> {
        self.files.texts_below(folder)
    }

    /// The shops' files at or above a folder of designs, the nearest first.
    pub(super) fn shops_above(&self, folder: &Path) -> Arc<[ShopPlace]> {
        if let Some(known) = self.texts.read().ok().and_then(|texts| texts.shops.get(folder).cloned()) {
            return known;
        }
        let found: Arc<[ShopPlace]> = self.files.shops_above(folder).into();
        if let Ok(mut texts) = self.texts.write() {
            texts.shops.insert(folder.to_owned(), Arc::clone(&found));
        }
        found
    }
}

/// A folder as a message names it.
fn shown(folder: &Path) -> String {
    if folder.as_os_str().is_empty() { ".".to_owned() } else { folder.display().to_string() }
}

fn is_path(name: &str) -> bool {
    name.ends_with(".rules") || name.contains(std::path::is_separator)
}
