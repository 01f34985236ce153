//! The one owner of texts, rulesets and analyses. Every command, test and face asks it, so that a design comes to the
//! same alone and beside any others, in any order.
//!
//! A text is known by the file that it is, whatever path leads there, and by its revision. A ruleset is read once for
//! each revision of the texts that it rests on, and dropped when one of them changes.

mod files;
mod mend;
mod sources;

#[cfg(feature = "cli")]
use std::cell::Cell;
use std::collections::BTreeMap;
use std::path::Path;
#[cfg(feature = "cli")]
use std::path::PathBuf;
use std::sync::{Arc, RwLock};
#[cfg(feature = "cli")]
use std::thread;

pub use files::{Files, Memory, NoFiles, Refusal, ShopPlace};
pub use mend::Mended;
use sources::{Key, Revision, Sources};

#[cfg(feature = "cli")]
use crate::base::limits;
use crate::base::{Day, Diagnostic, Source, lift};
#[cfg(feature = "cli")]
use crate::check::asked_for;
use crate::check::{self, Analysis, Drawing, Earlier, LoadedSet, LoadedShop, Sets, ShopAbove};
use crate::model::problem::ShopProblem;
use crate::model::{self, SHOP_FILE};
use crate::rules::{self, SetRefusal};
use crate::syntax;

/// Texts that something was made from, each at the revision that was read.
type RestsOn = Vec<(Key, Revision)>;

/// Something made from texts.
#[derive(Debug)]
struct Made<T> {
    value: Arc<T>,
    rests_on: RestsOn,
}

impl<T> Clone for Made<T> {
    fn clone(&self) -> Self {
        Self { value: Arc::clone(&self.value), rests_on: self.rests_on.clone() }
    }
}

/// What was made, by the text that it was made from and the name that its place is reported by.
type Cache<T> = RwLock<BTreeMap<(Key, Arc<str>), Made<T>>>;

/// The owner of texts, sets and analyses. It can be shared between threads.
#[derive(Debug)]
pub struct Session {
    sources: Sources,
    sets: Cache<LoadedSet>,
    shops: Cache<LoadedShop>,
    analyses: Cache<Analysis>,
    /// What rules came to, by what it rests on.
    earlier: Earlier,
    /// The day on which designs are checked, where that is known.
    on: Option<Day>,
}

impl Default for Session {
    /// A session with the shipped sets and no files.
    fn default() -> Self {
        Self::new(NoFiles)
    }
}

/// So many sets beside the first are read on threads of their own; a design that names more waits for the rest.
#[cfg(feature = "cli")]
const READ_AHEAD: usize = 8;

impl Session {
    /// A session over files, with the shipped sets.
    pub fn new(files: impl Files + 'static) -> Self {
        Self {
            sources: Sources::new(Box::new(files)),
            sets: Cache::default(),
            shops: Cache::default(),
            analyses: Cache::default(),
            earlier: Earlier::default(),
            on: None,
        }
    }

    /// The same on a day: a waiver that has an end holds up to it. Where no day is given, none that has one holds.
    #[must_use]
    pub fn on(self, day: Day) -> Self {
        Self { on: Some(day), ..self }
    }

    /// Sets the day on which designs are checked, once it has become another: what was remembered is checked anew. Whether it has.
    #[cfg(feature = "cli")]
    pub fn turn_to(&mut self, day: Day) -> bool {
        let turned = self.on != Some(day);
        if turned {
            self.on = Some(day);
            self.analyses = Cache::default();
        }
        turned
    }

    /// Adds a ruleset that a design asks for by a bare name, as it asks for a shipped one; the name wins over a
    /// shipped set of the same name.
    #[must_use]
    pub fn with_set(mut self, name: impl Into<String>, source: Source) -> Self {
        self.sources.own(name.into(), source);
        self
    }

    /// Lays a text over a file, as an editor does with what is not saved.
    pub fn open(&self, path: impl AsRef<Path>, text: impl AsRef<str>) {
        self.sources.lay_over(path.as_ref(), text.as_ref());
    }

    /// The text of a file, or the one that lies over it.
    ///
    /// # Errors
    /// Why it cannot be read.
    #[cfg(feature = "cli")]
    pub fn text(&self, path: impl AsRef<Path>) -> Result<Source, Refusal> {
        self.sources.text(path.as_ref()).map(|(_, source, _)| source)
    }

    /// The designs, rulesets and shops' files in a folder and below it, in their order.
    #[cfg(feature = "cli")]
    pub fn texts_below(&self, folder: impl AsRef<Path>) -> Vec<PathBuf> {
        self.sources.texts_below(folder.as_ref())
    }

    /// Takes the text that lies over a file away again; the file counts.
    pub fn close(&self, path: impl AsRef<Path>) {
        self.sources.take_away(path.as_ref());
    }

    /// Tells that a file has changed on its disk: it is read again when it is next asked for.
    pub fn changed(&self, path: impl AsRef<Path>) {
        let path = path.as_ref();
        self.sources.forget(path);
        // A shop's file that has come to be is a text that no answer rests on yet.
        if path.file_name().is_some_and(|name| name == SHOP_FILE)
            && let Ok(mut analyses) = self.analyses.write()
        {
            let folder = self.sources.identity(path.parent().unwrap_or(Path::new("")));
            analyses.retain(|(key, _), _| !matches!(key, Key::File(design) if design.starts_with(&folder)));
        }
    }

    /// Whether the analysis of a file over which a text lies is remembered, and every text that it rests on is as it was.
    pub fn is_current(&self, path: impl AsRef<Path>) -> bool {
        let known = self.sources.text(path.as_ref()).ok();
        known.is_some_and(|(key, source, _)| self.current(&self.analyses, &(key, source.name)).is_some())
    }

    /// A shop's file, read as the designs below it read it.
    ///
    /// # Errors
    /// Why it cannot be read.
    pub fn shop(&self, path: impl AsRef<Path>) -> Result<Arc<LoadedShop>, Refusal> {
        let folder = path.as_ref().parent().unwrap_or(Path::new(""));
        let place = ShopPlace::new(folder.to_owned(), Path::new(""));
        Asking::new(self).shop_above(&place, "").map(|above| above.opened)
    }

    /// The analysis of a file, against the sets that it asks for. It is remembered until a text that it rests on
    /// changes, as long as a text lies over the file; that of a file nobody edits is made anew each time.
    ///
    /// # Errors
    /// Why the file cannot be read.
    pub fn analyse(&self, path: impl AsRef<Path>) -> Result<Arc<Analysis>, Refusal> {
        self.analysis(path.as_ref(), None)
    }

    /// The same while somebody waits for it: where `given_up` says that nobody does any more, nothing comes of it. It is
    /// asked again and again, the first time before anything is checked.
    ///
    /// # Errors
    /// Why the file cannot be read.
    #[cfg(feature = "cli")]
    pub fn analyse_until(
        &self,
        path: impl AsRef<Path>,
        given_up: &dyn Fn() -> bool,
    ) -> Result<Option<Arc<Analysis>>, Refusal> {
        let was_given_up = Cell::new(false);
        let asked = || {
            was_given_up.set(was_given_up.get() || given_up());
            was_given_up.get()
        };
        let analysis = self.analysis(path.as_ref(), Some(&asked))?;
        Ok((!was_given_up.get()).then_some(analysis))
    }

    fn analysis(&self, path: &Path, given_up: Option<&dyn Fn() -> bool>) -> Result<Arc<Analysis>, Refusal> {
        let (key, source, revision) = self.sources.text(path)?;
        let place = (key.clone(), Arc::clone(&source.name));
        if let Some(known) = self.current(&self.analyses, &place) {
            return Ok(known);
        }
        let asking = Asking { given_up, ..Asking::resting_on(self, vec![(key.clone(), revision)]) };
        let drawing = asking.draw(&source);
        let analysis = Arc::new(check::check(drawing, None, self.on, &asking));
        if self.sources.is_open(&key) && !asking.is_given_up() {
            let made = Made { value: Arc::clone(&analysis), rests_on: asking.rests_on() };
            put(&self.analyses, place, made);
        }
        Ok(analysis)
    }

    /// The analysis of a text, against the sets that it asks for or, where they are given, against `rules` in their
    /// place. The text's name is where it is taken to lie.
    pub fn check(&self, source: &Source, rules: Option<&[String]>) -> Analysis {
        let asking = Asking::new(self);
        let drawing = asking.draw(source);
        #[cfg(feature = "cli")]
        self.read_ahead(&drawing, rules);
        check::check(drawing, rules, self.on, &asking)
    }

    /// Reads the sets that the first design asks for side by side: to read one takes longer than to check the design.
    #[cfg(feature = "cli")]
    fn read_ahead(&self, drawing: &Drawing, rules: Option<&[String]>) {
        if !self.sets.read().is_ok_and(|sets| sets.is_empty()) {
            return;
        }
        let own = || drawing.stairs.iter().flat_map(|stair| asked_for(stair, &drawing.source, drawing.shop.as_ref()));
        let asked: BTreeMap<&str, Option<&Source>> = match rules {
            Some(rules) => rules.iter().map(|name| (name.as_str(), None)).collect(),
            None => own().map(|(name, by, _)| (name, Some(by))).collect(),
        };
        let mut asked = asked.into_iter();
        // This thread reads one of them itself. What of them cannot be had is told when it is asked for.
        let Some((name, by)) = asked.next() else { return };
        thread::scope(|scope| {
            for (name, by) in asked.take(READ_AHEAD) {
                let _ = thread::Builder::new()
                    .stack_size(limits::STACK)
                    .spawn_scoped(scope, move || drop(self.set(name, by)));
            }
            drop(self.set(name, by));
        });
    }

    /// What a text draws and states, below its shop's file.
    pub fn draw(&self, source: &Source) -> Drawing {
        Asking::new(self).draw(source)
    }

    /// A ruleset by its name, or by its file as `asked_by` names it; by nobody, from the current folder.
    ///
    /// # Errors
    /// Why there is no such set.
    pub fn set(&self, name: &str, asked_by: Option<&Source>) -> Result<Arc<LoadedSet>, SetRefusal> {
        Asking::new(self).set(name, asked_by)
    }

    /// A ruleset from a text that lies in no file, or not yet; the sets that it amends are sought from where its name
    /// says that it lies.
    pub fn read_set(&self, source: &Source) -> LoadedSet {
        Asking::new(self).read_set(source)
    }

    fn current<T>(&self, cache: &Cache<T>, place: &(Key, Arc<str>)) -> Option<Arc<T>> {
        self.current_made(cache, place).map(|made| made.value)
    }

    fn current_made<T>(&self, cache: &Cache<T>, place: &(Key, Arc<str>)) -> Option<Made<T>> {
        let cache = cache.read().ok()?;
        let made = cache.get(place)?;
        let current = made.rests_on.iter().all(|(key, revision)| self.sources.is_current(key, *revision));
        current.then(|| made.clone())
    }
}

fn put<T>(cache: &Cache<T>, place: (Key, Arc<str>), made: Made<T>) {
    if let Ok(mut cache) = cache.write() {
        cache.insert(place, made);
    }
}

/// One question to a session, which notes the texts that its answer rests on.
struct Asking<'s> {
    session: &'s Session,
    rests_on: RwLock<RestsOn>,
    /// The sets that it had so far, by the text that each is: one by another path is the same.
    had: RwLock<BTreeMap<Key, Arc<LoadedSet>>>,
    /// Whether nobody waits for the answer any more.
    given_up: Option<&'s dyn Fn() -> bool>,
}

impl<'s> Asking<'s> {
    fn new(session: &'s Session) -> Self {
        Self::resting_on(session, Vec::new())
    }

    fn resting_on(session: &'s Session, rests_on: RestsOn) -> Self {
        Self { session, rests_on: RwLock::new(rests_on), had: RwLock::default(), given_up: None }
    }

    fn rests_on(&self) -> RestsOn {
        self.rests_on.read().map(|noted| noted.clone()).unwrap_or_default()
    }

    fn note(&self, more: impl IntoIterator<Item = (Key, Revision)>) {
        if let Ok(mut noted) = self.rests_on.write() {
            noted.extend(more);
        }
    }

    fn draw(&self, source: &Source) -> Drawing {
        check::draw(source, self.shops_above(source))
    }

    fn read_set(&self, source: &Source) -> LoadedSet {
        let find_base = |name: &str, asked_by: &Source| {
            let found = self.session.sources.ruleset(name, Some(asked_by));
            let (key, source, revision) =
                found.inspect_err(|_| self.note(self.session.sources.lacking(name, Some(asked_by))))?;
            self.note([(key, revision)]);
            Ok(source)
        };
        let mut diagnostics = Vec::new();
        let set = rules::load(source, &find_base, &mut diagnostics);
        diagnostics.extend(check::borrowed_titles(&set));
        LoadedSet { set, diagnostics }
    }

    /// The shops that a design lies under, the nearest first.
    fn shops_above(&self, design: &Source) -> Vec<Result<ShopAbove, Refusal>> {
        let path = design.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let places = self.session.sources.shops_above(path.parent().unwrap_or(Path::new("")));
        places.iter().map(|place| self.shop_above(place, &name)).collect()
    }

    fn shop_above(&self, place: &ShopPlace, name: &str) -> Result<ShopAbove, Refusal> {
        let path = place.folder.join(SHOP_FILE);
        if let Some(why) = self.session.sources.distrusted_shop(&place.folder) {
            return Err(Box::new(Diagnostic::whole(&Source::at(&path, Arc::from("")), why)));
        }
        let (key, source, revision) = self.session.sources.text(&path)?;
        self.note([(key.clone(), revision)]);
        let design = if place.down.is_empty() { name.to_owned() } else { format!("{}/{name}", place.down) };
        let at = (key.clone(), Arc::clone(&source.name));
        let opened = self.session.current(&self.session.shops, &at).unwrap_or_else(|| {
            let (tree, slips) = syntax::parse_design(&source);
            let mut diagnostics = lift(slips);
            let shop = model::build_shop(&tree, &source, &mut diagnostics);
            let lost = shop.folders.iter().filter(|named| !self.session.sources.has_folder(&place.folder, &named.path));
            let lost = lost.map(|named| {
                let problem = ShopProblem::NoSuchFolder { path: named.path.clone() };
                Diagnostic::new(&source, named.span, problem)
            });
            diagnostics.extend(lost);
            let value = Arc::new(LoadedShop { shop, diagnostics });
            put(&self.session.shops, at, Made { value: Arc::clone(&value), rests_on: vec![(key, revision)] });
            value
        });
        Ok(ShopAbove { opened, design, beyond: Vec::new() })
    }
}

impl Sets for Asking<'_> {
    fn set(&self, name: &str, asked_by: Option<&Source>) -> Result<Arc<LoadedSet>, SetRefusal> {
        let (key, source, revision) = self.session.sources.ruleset(name, asked_by).inspect_err(|_| {
            // What waits for a file rests on there being none.
            self.note(self.session.sources.lacking(name, asked_by));
        })?;
        if let Some(had) = self.had.read().ok().and_then(|had| had.get(&key).map(Arc::clone)) {
            return Ok(had);
        }
        let loaded = self.load(&key, &source, revision);
        if let Ok(mut had) = self.had.write() {
            had.insert(key, Arc::clone(&loaded));
        }
        Ok(loaded)
    }

    fn is_given_up(&self) -> bool {
        self.given_up.is_some_and(|given_up| given_up())
    }

    fn earlier(&self) -> Option<&Earlier> {
        Some(&self.session.earlier)
    }
}

impl Asking<'_> {
    /// The set of a text, read or remembered.
    fn load(&self, key: &Key, source: &Source, revision: Revision) -> Arc<LoadedSet> {
        let place = (key.clone(), Arc::clone(&source.name));
        if let Some(known) = self.session.current_made(&self.session.sets, &place) {
            self.note(known.rests_on);
            return known.value;
        }
        let reading = Asking::resting_on(self.session, vec![(key.clone(), revision)]);
        let value = Arc::new(reading.read_set(source));
        let rests_on = reading.rests_on();
        self.note(rests_on.clone());
        put(&self.session.sets, place, Made { value: Arc::clone(&value), rests_on });
        value
    }
}
