//! A baseline: what a library is known to have wrong, in a file that is reviewed like any other. It holds a line for
//! each rule and thing, sorted, and is written whole or not at all.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Component, Path, PathBuf};

use super::files;
use super::lock::Lock;
use super::whole_file::put_in_place;
use crate::base::{Diagnostic, Level, Source};
use crate::check::{Analysis, Fault};
use crate::report::{self, Look};
use crate::rules::FileProblem;
use crate::session::Refusal;
use crate::wording::{self, gate::BaselineDone};

/// The first line of the file. What follows it is read by this version only.
const HEAD: &str = "pitchboard baseline 1";

/// How often it is read and written once more where somebody else wrote it in between.
const TRIES: usize = 16;

/// What is done with a baseline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Use {
    /// What is new fails, what is gone is reported.
    Hold,
    /// What is found becomes known.
    Record,
    /// What is gone is taken out.
    Shrink,
}

/// A baseline that was read.
#[derive(Debug)]
pub(super) struct Baseline {
    /// The file, as it was asked for.
    name: String,
    /// The same without links.
    path: PathBuf,
    /// The folder in which it lies, without links.
    folder: PathBuf,
    pub how: Use,
    known: BTreeMap<String, BTreeSet<Fault>>,
}

/// What a design came to beside a baseline.
#[derive(Debug, Default)]
pub(super) struct Beside {
    /// The design as the baseline calls it; none of what it could not name.
    design: Option<String>,
    found: BTreeSet<Fault>,
    /// Known, and not found any more.
    pub gone: Vec<Fault>,
    /// What it is called elsewhere, where no baseline can name it.
    unnamed: Option<String>,
}

/// What a whole run came to beside a baseline.
#[derive(Debug, Default)]
pub(super) struct Tally {
    /// What was found and is known.
    pub known: usize,
    /// What was found and is not.
    pub new: usize,
    /// What is known and was not found, by design.
    pub gone: BTreeMap<String, Vec<Fault>>,
    /// Designs that no baseline can name, with how much was found of each.
    unnamed: Vec<(String, usize)>,
    found: BTreeMap<String, BTreeSet<Fault>>,
}

impl Baseline {
    /// Reads a baseline; one that is about to be recorded need not be there.
    ///
    /// # Errors
    /// Why it cannot be read.
    pub fn open(path: &Path, how: Use) -> Result<Self, Refusal> {
        let refuse = |why| refused(path, why);
        let real = path.canonicalize();
        let here = real.as_deref().unwrap_or(path);
        let parent = here.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let folder = parent.canonicalize().map_err(|error| refuse(files::why(&error)))?;
        let text = match fs::metadata(here) {
            Ok(_) => Some(files::text(path)?),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound && how == Use::Record => None,
            Err(error) => return Err(refuse(files::why(&error))),
        };
        let known = match text {
            Some(text) => parsed(&text).map_err(|line| refuse(FileProblem::NoBaseline { line }))?,
            None => BTreeMap::new(),
        };
        // A link stays one: what it leads to is written.
        Ok(Self { name: path.to_string_lossy().into_owned(), path: here.to_owned(), folder, how, known })
    }

    /// Marks what is known of a design. Of sets that it was not checked against nothing is gone, unless it was checked
    /// against those of its own.
    pub fn mark(&self, analysis: &mut Analysis, design: &Path, own_sets: bool) -> Beside {
        let name = self.called(design);
        let none = BTreeSet::new();
        let known = name.as_ref().and_then(|name| self.known.get(name)).unwrap_or(&none);
        let records = self.how == Use::Record && name.is_some();
        let found = analysis.mark_known(&|fault| records || known.contains(fault));
        let found: BTreeSet<Fault> = found.into_iter().collect();
        let report = &analysis.report;
        let held = |fault: &&Fault| own_sets || report.sets.iter().any(|set| set.title == fault.set);
        let whole = !report.findings.iter().any(|found| {
            use crate::base::Severity::{NotUnderstood, Unchecked};
            matches!(found.severity(), NotUnderstood | Unchecked)
        });
        // What a slip hides is not gone.
        let gone = known.iter().filter(|fault| whole && !found.contains(fault)).filter(held).cloned().collect();
        let unnamed = name.is_none().then(|| files::named(design));
        Beside { design: name, found, gone, unnamed }
    }

    /// Takes what a design came to into account.
    pub fn add(&self, tally: &mut Tally, beside: Beside) {
        let Some(design) = beside.design else {
            tally.new += beside.found.len();
            let found = beside.found.len();
            tally.unnamed.extend(beside.unnamed.filter(|_| found > 0).map(|name| (name, found)));
            return;
        };
        let known = self.known.get(&design);
        let is_known = |fault: &&Fault| known.is_some_and(|known| known.contains(fault));
        let of_known = beside.found.iter().filter(is_known).count();
        tally.known += of_known;
        tally.new += beside.found.len() - of_known;
        if !beside.gone.is_empty() {
            tally.gone.insert(design.clone(), beside.gone);
        }
        if self.how == Use::Record {
            tally.found.insert(design, beside.found);
        }
    }

    /// Adds the designs that are known and no longer there.
    pub fn lost(&self, tally: &mut Tally) {
        for (design, known) in &self.known {
            if !self.folder.join(design).exists() {
                tally.gone.insert(design.clone(), known.iter().cloned().collect());
            }
        }
    }

    /// Writes it anew, where that was asked for and changes anything; whether it did. What another run has written since
    /// it was read stays.
    ///
    /// # Errors
    /// Why it cannot be written; then what was there stands as it was.
    pub fn write(&self, tally: &Tally) -> Result<bool, Refusal> {
        if self.how == Use::Hold || self.anew(tally)?.is_none() {
            return Ok(false);
        }
        // From here on no other run writes it. Whatever else does so is seen, as far as a system lets anybody see it.
        let _held = Lock::on(&self.path).map_err(|why| refused(&self.path, why))?;
        for _ in 0..TRIES {
            let Some((now, known)) = self.anew(tally)? else { return Ok(false) };
            match put_in_place(&self.path, now.as_deref(), &known) {
                Ok(()) => return Ok(true),
                Err(FileProblem::Changed) => {}
                Err(why) => return Err(refused(&self.path, why)),
            }
        }
        Err(refused(&self.path, FileProblem::Changed))
    }

    /// The text that the file has now, and the one that it is to have; nothing where that changes nothing.
    fn anew(&self, tally: &Tally) -> Result<Option<(Option<String>, String)>, Refusal> {
        let now = if self.path.exists() { Some(files::text(&self.path)?) } else { None };
        let before = match &now {
            Some(text) => parsed(text).map_err(|line| refused(&self.path, FileProblem::NoBaseline { line }))?,
            None => self.known.clone(),
        };
        let known = self.after(before.clone(), tally);
        let changes = now.is_none() || known != before;
        Ok(changes.then(|| (now, written(&known))))
    }

    /// What is known once what a run came to is taken into it.
    fn after(&self, mut known: BTreeMap<String, BTreeSet<Fault>>, tally: &Tally) -> BTreeMap<String, BTreeSet<Fault>> {
        for (design, gone) in &tally.gone {
            if let Some(of_design) = known.get_mut(design) {
                of_design.retain(|fault| !gone.contains(fault));
            }
        }
        for (design, found) in &tally.found {
            known.entry(design.clone()).or_default().extend(found.iter().cloned());
        }
        known.retain(|_, faults| !faults.is_empty());
        known
    }

    /// What the run came to beside it, in words, a line each.
    pub fn told(&self, tally: &Tally, written: Result<bool, &Refusal>) -> Vec<String> {
        let there = |design: &str| self.folder.join(design).exists();
        let lost = tally.gone.iter().filter(|(design, _)| !there(design));
        let lost = lost.map(|(design, gone)| wording::gate::lost(design, gone.len()));
        let done = match (written, self.how) {
            (Err(_), _) => BaselineDone::NotWritten,
            (Ok(_), Use::Hold) => BaselineDone::Held,
            (Ok(false), _) => BaselineDone::AsItWas,
            (Ok(true), Use::Record) => BaselineDone::Recorded,
            (Ok(true), Use::Shrink) => BaselineDone::Shrunk,
        };
        let gone = tally.gone.values().map(Vec::len).sum();
        let counts = (tally.known, tally.new, gone);
        let writes = self.how == Use::Record;
        let unnamed = tally.unnamed.iter().filter(|_| writes).map(|(name, new)| wording::gate::unnamed(name, *new));
        lost.chain(unnamed).chain([wording::gate::baseline(&self.name, counts, done)]).collect()
    }

    /// A design as the baseline calls it: its path from the folder of the file, parts joined by `/`. Nothing for what
    /// is no file, such as standard input.
    fn called(&self, design: &Path) -> Option<String> {
        let real = design.canonicalize().ok().filter(|_| design != Path::new("-"))?;
        let mut up = PathBuf::new();
        let below = self.folder.ancestors().find_map(|above| {
            let below = real.strip_prefix(above).ok();
            if below.is_none() {
                up.push("..");
            }
            below
        })?;
        let parts = up.join(below);
        let parts = parts.components().map(|part| match part {
            Component::Normal(part) => part.to_str(),
            Component::ParentDir => Some(".."),
            _ => None,
        });
        Some(parts.collect::<Option<Vec<_>>>()?.join("/"))
    }
}

/// Most of what is gone of one design that is reported before the rest is counted.
const MOST_GONE: usize = 5;

/// What is known of a design and not found any more, beneath its report.
pub(super) fn told_of(gone: &[Fault], look: &Look) -> String {
    let lines = gone.iter().take(MOST_GONE).map(|fault| report::beneath(&wording::gate::gone(fault), look));
    let more = gone.len().saturating_sub(MOST_GONE);
    let rest = (more > 0).then(|| report::beneath(&format!("gone from the baseline: {more} more"), look));
    lines.chain(rest).collect()
}

fn refused(path: &Path, why: FileProblem) -> Refusal {
    Box::new(Diagnostic::whole(&Source::new(path.to_string_lossy(), ""), why))
}

/// A line for each: design, stair, thing, set, rule, level, with a tab between them.
fn written(known: &BTreeMap<String, BTreeSet<Fault>>) -> String {
    let mut text = format!("{HEAD}\n");
    for (design, faults) in known {
        for Fault { stair, element, set, rule, level } in faults {
            let parts = [design, stair, element, set, rule].map(|part| escaped(part));
            let _ = writeln!(text, "{}\t{}", parts.join("\t"), level.word());
        }
    }
    text
}

/// The faults that a text holds, or the number of the first line that is none.
fn parsed(text: &str) -> Result<BTreeMap<String, BTreeSet<Fault>>, usize> {
    let mut lines = text.lines().enumerate();
    if lines.next().map(|(_, line)| line) != Some(HEAD) {
        return Err(1);
    }
    let mut known: BTreeMap<String, BTreeSet<Fault>> = BTreeMap::new();
    for (at, line) in lines {
        let parts: Option<Vec<String>> = line.split('\t').map(plain).collect();
        let (design, fault) = parts.and_then(fault).ok_or(at + 1)?;
        known.entry(design).or_default().insert(fault);
    }
    Ok(known)
}

fn fault(parts: Vec<String>) -> Option<(String, Fault)> {
    let [design, stair, element, set, rule, level] = <[String; 6]>::try_from(parts).ok()?;
    Some((design, Fault { stair, element, set, rule, level: Level::of(&level)? }))
}

/// A text without tabs, ends of lines and whatever else a terminal would obey.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            c if c.is_control() => {
                let _ = write!(out, "\\x{:02x}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out
}

fn plain(text: &str) -> Option<String> {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('\\') {
        out.push_str(before);
        if let Some(after) = after.strip_prefix('\\') {
            out.push('\\');
            rest = after;
            continue;
        }
        let code = after.strip_prefix('x')?;
        out.push(char::from(u8::from_str_radix(code.get(..2)?, 16).ok()?));
        rest = code.get(2..)?;
    }
    out.push_str(rest);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of two runs that read the same, the one that ends last takes nothing out that the other wrote.
    #[test]
    fn what_another_run_wrote_meanwhile_stays() {
        let yard = tempfile::tempdir().unwrap();
        let path = yard.path().join("library.known");
        let fault = |rule: &str| Fault {
            stair: "Low".into(),
            element: "flight".into(),
            set: "House rules".into(),
            rule: rule.into(),
            level: Level::Broken,
        };
        let tally = |found: &[(&str, &str)], gone: &[(&str, &str)]| {
            let by_design = |(design, rule): &(&str, &str)| ((*design).to_owned(), fault(rule));
            Tally {
                found: found.iter().map(by_design).map(|(design, fault)| (design, BTreeSet::from([fault]))).collect(),
                gone: gone.iter().map(by_design).map(|(design, fault)| (design, vec![fault])).collect(),
                ..Tally::default()
            }
        };
        let open = |how| Baseline::open(&path, how).unwrap();
        let names = || open(Use::Hold).known.into_keys().collect::<Vec<_>>();
        let (first, second) = (open(Use::Record), open(Use::Record));
        assert!(first.write(&tally(&[("a.stair", "riser")], &[])).unwrap());
        assert!(second.write(&tally(&[("b.stair", "riser")], &[])).unwrap());
        assert_eq!(names(), ["a.stair", "b.stair"]);
        let (first, second) = (open(Use::Shrink), open(Use::Record));
        assert!(second.write(&tally(&[("c.stair", "riser")], &[])).unwrap());
        assert!(first.write(&tally(&[], &[("a.stair", "riser")])).unwrap());
        assert!(!first.write(&tally(&[], &[("a.stair", "riser")])).unwrap(), "it is as it should be");
        assert_eq!(names(), ["b.stair", "c.stair"]);
        // What somebody else spoilt meanwhile is not written over.
        fs::write(&path, "pitchboard baseline 1\n<<<<<<< ours\n").unwrap();
        assert!(first.write(&tally(&[], &[("b.stair", "riser")])).is_err());
        assert!(fs::read_to_string(&path).unwrap().ends_with("<<<<<<< ours\n"));
    }

    #[test]
    fn what_is_written_is_read_and_what_was_not_is_refused() {
        let fault = |stair: &str, level| Fault {
            stair: stair.into(),
            element: "guard right".into(),
            set: "House rules".into(),
            rule: "easy riser".into(),
            level,
        };
        let strange = fault("a\tb\nc\\d\u{85}\u{1b}[31m é", Level::NotChecked);
        let known = BTreeMap::from([
            ("hides/low.stair".to_owned(), BTreeSet::from([fault("Low", Level::Broken), strange])),
            ("a b.stair".to_owned(), BTreeSet::from([fault("", Level::Advised)])),
        ]);
        let text = written(&known);
        assert!(
            text.starts_with("pitchboard baseline 1\na b.stair\t\tguard right\tHouse rules\teasy riser\tadvised\n")
        );
        assert!(!text.contains(['\u{1b}', '\u{85}', '\r']), "{text}");
        assert_eq!(text.lines().count(), 4);
        assert_eq!(parsed(&text), Ok(known));
        for (line, bad) in [
            (1, ""),
            (1, "pitchboard baseline 2\n"),
            (2, "pitchboard baseline 1\n<<<<<<< ours\n"),
            (2, "pitchboard baseline 1\na\tb\tc\td\te\tworse\n"),
            (2, "pitchboard baseline 1\na\tb\\q\tc\td\te\tbroken\n"),
            (3, "pitchboard baseline 1\na\tb\tc\td\te\tbroken\n\n"),
        ] {
            assert_eq!(parsed(bad), Err(line), "{bad}");
        }
    }
}
