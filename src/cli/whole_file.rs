//! The one way in which a file is written: whole, or not at all. It grows in the same folder under a name that begins with
//! a dot, and takes its own name at the end, so that nobody ever reads half of it and whatever fails on the way leaves what
//! was there. A run that is killed leaves no more than the file with the dot.
//!
//! Permissions and owner of what was there stay, and so does a link that leads to it; another hard name of it keeps the
//! old text.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

use super::files::why;
use crate::base::Source;
use crate::rules::{FileProblem, Unwritten};

/// Endings of what the tool reads: what is no such text is never written over it.
const INPUTS: [&str; 3] = ["stair", "rules", "pitchboard"];
/// Most links that are followed to where a file is to lie.
const LINKS: usize = 8;
/// How the name of a file under way begins.
const UNDER_WAY: &str = ".pitchboard-";

/// A file under way. Dropped before its end, it leaves nothing behind.
#[derive(Debug)]
pub(super) struct WholeFile {
    /// Where it is to lie: behind a link, what that leads to.
    place: PathBuf,
    /// What it takes the place of.
    before: Option<Metadata>,
    sink: BufWriter<NamedTempFile>,
    trouble: Option<io::Error>,
}

impl WholeFile {
    /// Begins a file that is none of a user's texts, and that need not be there.
    ///
    /// # Errors
    /// Why none can be written there.
    pub fn begin(asked: &Path) -> Result<Self, FileProblem> {
        // A link is judged by where it leads, too: whoever laid it may not be who asks for the file.
        let place = place_of(asked);
        if is_input(asked) || is_input(&place) {
            return Err(FileProblem::InputName);
        }
        // A pipe has no folder in which anything could take its name.
        if fs::metadata(asked).is_ok_and(|found| !found.is_file() && !found.is_dir()) {
            return Err(FileProblem::NotAFile);
        }
        Self::at(place)
    }

    fn at(place: PathBuf) -> Result<Self, FileProblem> {
        let before = match fs::metadata(&place) {
            Ok(before) => Some(before),
            // Links that lead round.
            Err(error) if place.is_symlink() => return Err(why(&error)),
            Err(_) => None,
        };
        if let Some(before) = &before {
            may_be_written(&place, before)?;
        }
        let folder = place.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        if is_shut(folder) {
            return Err(FileProblem::FolderDenied);
        }
        let mut name = Builder::new();
        name.prefix(UNDER_WAY);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            // As anybody's new file; what the surroundings forbid is taken off.
            name.permissions(fs::Permissions::from_mode(0o666));
        }
        let file = name.tempfile_in(folder).map_err(|error| match error.kind() {
            ErrorKind::NotFound => FileProblem::NoFolder,
            _ => in_folder(&error),
        })?;
        Ok(Self { place, before, sink: BufWriter::new(file), trouble: None })
    }

    /// Where it is to lie.
    pub fn place(&self) -> &Path {
        &self.place
    }

    /// Writes more of it; what fails is reported at its end.
    pub fn put(&mut self, text: &str) {
        if self.trouble.is_none() {
            self.trouble = self.sink.write_all(text.as_bytes()).err();
        }
    }

    /// Moves it to its place.
    ///
    /// # Errors
    /// Why it is not there; nothing of it is left then.
    pub fn finish(self) -> Result<(), FileProblem> {
        self.finish_if(|_| Ok(()))
    }

    /// The same, if what lies in its place just before allows it.
    fn finish_if(self, allows: impl Fn(&Path) -> Result<(), FileProblem>) -> Result<(), FileProblem> {
        let Self { place, before, sink, trouble } = self;
        if let Some(trouble) = trouble {
            return Err(why(&trouble));
        }
        let file = sink.into_inner().map_err(|failed| why(failed.error()))?;
        if let Some(before) = &before {
            keep_owner(file.as_file(), before);
            file.as_file().set_permissions(before.permissions()).map_err(|error| why(&error))?;
        }
        // A disk may tell only now that it is full, and the name must not lead to what a fault of the power leaves empty.
        file.as_file().sync_all().map_err(|error| why(&error))?;
        allows(&place)?;
        // What cannot take the name is removed as it is dropped.
        file.persist(&place).map(drop).map_err(|refused| in_folder(&refused.error))
    }
}

/// Where a file lies or is to lie that is asked for by this path: behind a link, where that leads.
pub(super) fn place_of(asked: &Path) -> PathBuf {
    asked.canonicalize().unwrap_or_else(|_| in_its_folder(asked, LINKS))
}

/// Whether a name is of what the tool reads, however large its letters are: a search takes it so.
fn is_input(path: &Path) -> bool {
    let ending = path.extension().and_then(|ending| ending.to_str());
    ending.is_some_and(|ending| INPUTS.iter().any(|input| ending.eq_ignore_ascii_case(input)))
}

/// Puts another text in the place of one that was read, unless a link leads out of its folder: to whom that belongs
/// nobody asked.
///
/// # Errors
/// Why the file stands as it was: the more so where it is not what was read any more.
pub(super) fn replace(read: &Source, with: &str) -> Result<(), FileProblem> {
    if leads_out(read.path()) {
        return Err(FileProblem::NotWritten(Unwritten::LeadsOut));
    }
    put_in_place(read.path(), Some(&read.text), with)
}

/// The same of a file that held this text when it was read, or was not there.
///
/// # Errors
/// As there.
pub(super) fn put_in_place(path: &Path, read: Option<&str>, with: &str) -> Result<(), FileProblem> {
    let held = |place: &Path| match fs::read(place) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(why(&error)),
    };
    let mut file = match read {
        Some(_) => WholeFile::at(path.canonicalize().map_err(|error| why(&error))?)?,
        None => WholeFile::begin(path)?,
    };
    if held(&file.place)?.is_some_and(|now| now == with.as_bytes()) {
        // A file may have two names, by one of which it was written already.
        return Ok(());
    }
    file.put(with);
    file.finish_if(|place| {
        let now = held(place)?;
        let is = |text: Option<&str>| now.as_deref() == text.map(str::as_bytes);
        if is(read) || is(Some(with)) { Ok(()) } else { Err(FileProblem::Changed) }
    })
}

fn leads_out(path: &Path) -> bool {
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (path.canonicalize(), folder.canonicalize()) {
        (Ok(real), Ok(folder)) => !real.starts_with(folder),
        _ => false,
    }
}

/// To take the name of a file would not ask for this.
fn may_be_written(place: &Path, before: &Metadata) -> Result<(), FileProblem> {
    if before.is_dir() {
        return Err(FileProblem::IsAFolder);
    }
    if !before.is_file() {
        return Err(FileProblem::NotAFile);
    }
    if before.permissions().readonly() {
        return Err(FileProblem::WriteDenied);
    }
    OpenOptions::new().write(true).open(place).map(drop).map_err(|error| match error.kind() {
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => FileProblem::WriteDenied,
        _ => why(&error),
    })
}

/// A file that is not there yet, in its folder without links; behind so many links to it at most.
fn in_its_folder(asked: &Path, links: usize) -> PathBuf {
    let folder = asked.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (fs::read_link(asked), folder.canonicalize(), asked.file_name()) {
        (Ok(leads_to), ..) if links > 0 => in_its_folder(&folder.join(leads_to), links - 1),
        (_, Ok(folder), Some(name)) => folder.join(name),
        _ => asked.to_owned(),
    }
}

/// Gives a file the owner and the group of the old one, as far as the system lets it: whoever writes for another takes
/// no file away from them.
#[cfg(unix)]
fn keep_owner(file: &File, before: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let _ = fchown(file, Some(before.uid()), Some(before.gid()));
}

/// A new file has the owner of its folder.
#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) {}

/// Why the system refused in a folder.
pub(super) fn in_folder(error: &io::Error) -> FileProblem {
    match error.kind() {
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => FileProblem::FolderDenied,
        _ => why(error),
    }
}

/// Whether nobody may write in a folder. The superuser could all the same, and is not meant to.
#[cfg(unix)]
pub(super) fn is_shut(folder: &Path) -> bool {
    fs::metadata(folder).is_ok_and(|found| found.permissions().readonly())
}

/// Elsewhere the mark on a folder says something else.
#[cfg(not(unix))]
pub(super) fn is_shut(_: &Path) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    fn write(asked: &Path, text: &str) -> Result<(), FileProblem> {
        let mut file = WholeFile::begin(asked)?;
        file.put(text);
        file.finish()
    }

    fn file(folder: &Path, text: &str) -> PathBuf {
        let path = folder.join("hide.stair");
        fs::write(&path, text).unwrap();
        path
    }

    #[test]
    fn a_file_is_written_whole_and_nothing_is_left_beside_it() {
        let yard = tempfile::tempdir().unwrap();
        let long = "a much longer text than the one that takes its place";
        let path = file(yard.path(), long);
        put_in_place(&path, Some(long), "short").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"short");
        assert_eq!(names(yard.path()), ["hide.stair"]);
        write(&yard.path().join("new.json"), "{}").unwrap();
        assert_eq!(fs::read(yard.path().join("new.json")).unwrap(), b"{}");
        assert_eq!(names(yard.path()), ["hide.stair", "new.json"]);
    }

    #[test]
    fn one_under_way_has_a_name_with_a_dot_and_goes_where_it_is_given_up() {
        let yard = tempfile::tempdir().unwrap();
        let path = yard.path().join("report.json");
        fs::write(&path, "old").unwrap();
        let mut under_way = WholeFile::begin(&path).unwrap();
        under_way.put("new");
        let beside = names(yard.path());
        assert!(matches!(&*beside, [dot, named] if dot.starts_with('.') && named == "report.json"), "{beside:?}");
        drop(under_way);
        assert_eq!((fs::read(&path).unwrap().as_slice(), names(yard.path()).len()), (b"old".as_slice(), 1));
    }

    #[test]
    fn what_is_not_there_or_is_no_file_is_not_written() {
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        assert_eq!(put_in_place(&yard.path().join("none.stair"), Some("x"), "y"), Err(FileProblem::NotFound));
        assert_eq!(put_in_place(&path.join("below.stair"), Some("x"), "y"), Err(FileProblem::PathThroughAFile));
        assert_eq!(put_in_place(yard.path(), Some("x"), "y"), Err(FileProblem::IsAFolder));
        assert_eq!(write(&yard.path().join("none/x.json"), "y"), Err(FileProblem::NoFolder));
        assert_eq!(write(&path.join("x.json"), "y"), Err(FileProblem::PathThroughAFile));
        assert_eq!(write(yard.path(), "y"), Err(FileProblem::IsAFolder));
        assert_eq!(write(&path, "y"), Err(FileProblem::InputName));
        assert_eq!(names(yard.path()), ["hide.stair"]);
        #[cfg(unix)]
        assert_eq!(write(Path::new("/dev/null"), "y"), Err(FileProblem::NotAFile));
    }

    #[test]
    fn what_somebody_saved_meanwhile_is_not_written_over() {
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "theirs");
        assert_eq!(put_in_place(&path, Some("read"), "ours"), Err(FileProblem::Changed));
        assert_eq!((fs::read(&path).unwrap().as_slice(), names(yard.path()).len()), (b"theirs".as_slice(), 1));
        // By another of its names it was written already.
        assert_eq!(put_in_place(&path, Some("read"), "theirs"), Ok(()));
        assert_eq!(put_in_place(&path, Some("theirs"), "ours"), Ok(()));
        assert_eq!(fs::read(&path).unwrap(), b"ours");
        // What was not there when it was looked for, and is now.
        let known = yard.path().join("library.known");
        assert_eq!(put_in_place(&known, None, "ours"), Ok(()));
        assert_eq!(put_in_place(&known, None, "mine"), Err(FileProblem::Changed));
        assert_eq!(fs::read(&known).unwrap(), b"ours");
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        let named = yard.path().join("x.json");
        fs::write(&named, "x").unwrap();
        fs::create_dir(yard.path().join("below")).unwrap();
        for (real, link) in [(&path, "linked.stair"), (&named, "linked.json")] {
            fs::set_permissions(real, fs::Permissions::from_mode(0o666)).unwrap();
            symlink(real, yard.path().join("below").join(link)).unwrap();
        }
        put_in_place(&yard.path().join("below/linked.stair"), Some("x"), "y").unwrap();
        write(&yard.path().join("below/linked.json"), "y").unwrap();
        for (real, link) in [(&path, "linked.stair"), (&named, "linked.json")] {
            assert_eq!(fs::read(real).unwrap(), b"y");
            assert!(yard.path().join("below").join(link).is_symlink());
            assert_eq!(fs::metadata(real).unwrap().permissions().mode() & 0o777, 0o666);
        }
        // So does one to what is not there yet.
        symlink("../new.json", yard.path().join("below/later.json")).unwrap();
        write(&yard.path().join("below/later.json"), "z").unwrap();
        assert_eq!(fs::read(yard.path().join("new.json")).unwrap(), b"z");
        assert!(yard.path().join("below/later.json").is_symlink());
        symlink("round.json", yard.path().join("below/round.json")).unwrap();
        let round = write(&yard.path().join("below/round.json"), "z");
        assert!(matches!(round, Err(FileProblem::System(_))), "{round:?}");
        assert!(yard.path().join("below/round.json").is_symlink());
        assert_eq!(names(&yard.path().join("below")), ["later.json", "linked.json", "linked.stair", "round.json"]);
    }

    /// Only the superuser gives a file away; for anybody else it is their own before and after.
    #[cfg(unix)]
    #[test]
    fn the_owner_stays() {
        use std::os::unix::fs::{MetadataExt, chown};
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        let _ = chown(&path, Some(65_534), Some(65_534));
        let owner = |path: &Path| fs::metadata(path).map(|about| (about.uid(), about.gid())).unwrap();
        let before = owner(&path);
        put_in_place(&path, Some("x"), "y").unwrap();
        assert_eq!((owner(&path), fs::read(&path).unwrap().as_slice()), (before, b"y".as_slice()));
    }

    #[cfg(unix)]
    #[test]
    fn what_nobody_may_write_stays_as_it_was() {
        use std::os::unix::fs::PermissionsExt;
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        let mode = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
        mode(&path, 0o444);
        assert_eq!(put_in_place(&path, Some("x"), "y"), Err(FileProblem::WriteDenied));
        mode(&path, 0o644);
        mode(yard.path(), 0o555);
        assert_eq!(put_in_place(&path, Some("x"), "y"), Err(FileProblem::FolderDenied));
        assert_eq!(write(&yard.path().join("x.json"), "y"), Err(FileProblem::FolderDenied));
        assert_eq!((fs::read(&path).unwrap().as_slice(), names(yard.path()).len()), (b"x".as_slice(), 1));
        mode(yard.path(), 0o755);
    }
}
