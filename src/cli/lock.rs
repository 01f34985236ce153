//! One run at a time: a lock on a file that is read, changed and written again. It is held by a file beside it, whose name
//! begins with a dot and which goes when the lock does. The system lets go of it where a run is killed; the file that is
//! left then holds up nobody.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use fs4::{FileExt, TryLockError};
use same_file::Handle;

use super::files::why;
use super::whole_file::{in_folder, is_shut};
use crate::rules::FileProblem;

/// How long another run is waited for. None holds a lock for longer than it takes to write one file.
const PATIENCE: Duration = Duration::from_secs(30);
/// Between two looks at whether it is free.
const PAUSE: Duration = Duration::from_millis(5);

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub(super) struct Lock {
    /// The file that holds it, open.
    file: File,
    beside: PathBuf,
}

impl Lock {
    /// Waits for the lock on a file, which need not be there.
    ///
    /// # Errors
    /// Why it is not to be had: it is held for too long, or nothing may be written in that folder.
    pub fn on(path: &Path) -> Result<Self, FileProblem> {
        Self::within(path, PATIENCE)
    }

    fn within(path: &Path, patience: Duration) -> Result<Self, FileProblem> {
        let name = path.file_name().ok_or(FileProblem::IsAFolder)?.to_string_lossy();
        let beside = path.with_file_name(format!(".pitchboard-{name}.lock"));
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        if is_shut(folder) {
            return Err(FileProblem::FolderDenied);
        }
        let began = Instant::now();
        loop {
            let file = opened(&beside).map_err(|error| in_folder(&error))?;
            // Asked through the trait, for a newer standard library has another method of that name.
            let held = match FileExt::try_lock(&file) {
                Ok(()) => true,
                Err(TryLockError::WouldBlock) => false,
                Err(TryLockError::Error(error)) => return Err(why(&error)),
            };
            // Whoever held it before has taken the file away; then another may lie there by now.
            if held && is_at(&file, &beside) {
                return Ok(Self { file, beside });
            }
            if began.elapsed() > patience {
                return Err(FileProblem::Held);
            }
            if !held {
                thread::sleep(PAUSE);
            }
        }
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        // As long as it is held: nobody else can have a lock on another file of this name.
        let _ = fs::remove_file(&self.beside);
        let _ = FileExt::unlock(&self.file);
    }
}

/// The file that holds a lock, made where it is not there. What is no file, or leads elsewhere, is not opened.
fn opened(beside: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.read(true).write(true);
    loop {
        match options.clone().create_new(true).open(beside) {
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            made => return made,
        }
        match fs::symlink_metadata(beside) {
            Ok(found) if !found.is_file() => return Err(io::Error::other("what holds its lock is no file")),
            Ok(_) => {}
            Err(error) if error.kind() == ErrorKind::NotFound => continue,
            Err(error) => return Err(error),
        }
        match options.open(beside) {
            Err(error) if error.kind() == ErrorKind::NotFound => {}
            opened => return opened,
        }
    }
}

/// Whether an open file is the one of this name.
fn is_at(file: &File, beside: &Path) -> bool {
    let open = file.try_clone().and_then(Handle::from_file);
    matches!((open, Handle::from_path(beside)), (Ok(open), Ok(there)) if open == there)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> usize {
        fs::read_dir(folder).unwrap().count()
    }

    #[test]
    fn one_holds_it_and_the_other_waits_its_turn() {
        let yard = tempfile::tempdir().unwrap();
        let path = yard.path().join("library.known");
        let first = Lock::on(&path).unwrap();
        assert_eq!(Lock::within(&path, Duration::from_millis(20)).err(), Some(FileProblem::Held));
        // Another file is another lock.
        assert!(Lock::within(&yard.path().join("other.known"), Duration::ZERO).is_ok());
        assert_eq!(names(yard.path()), 1);
        drop(first);
        assert_eq!(names(yard.path()), 0);
        assert!(Lock::within(&path, Duration::ZERO).is_ok());
        // What a killed run left.
        fs::write(yard.path().join(".pitchboard-library.known.lock"), "").unwrap();
        assert!(Lock::within(&path, Duration::ZERO).is_ok());
        assert_eq!(names(yard.path()), 0);
    }

    #[test]
    fn of_many_at_once_each_has_it_alone() {
        let yard = tempfile::tempdir().unwrap();
        let (path, count) = (yard.path().join("library.known"), yard.path().join("count"));
        fs::write(&count, "0").unwrap();
        thread::scope(|scope| {
            for _ in 0..8 {
                scope.spawn(|| {
                    for _ in 0..25 {
                        let _held = Lock::on(&path).unwrap();
                        let before: u32 = fs::read_to_string(&count).unwrap().parse().unwrap();
                        fs::write(&count, (before + 1).to_string()).unwrap();
                    }
                });
            }
        });
        assert_eq!(fs::read_to_string(&count).unwrap(), "200");
        assert_eq!(names(yard.path()), 1);
    }

    #[cfg(unix)]
    #[test]
    fn what_leads_elsewhere_is_not_opened() {
        let yard = tempfile::tempdir().unwrap();
        let path = yard.path().join("library.known");
        std::os::unix::fs::symlink("elsewhere", yard.path().join(".pitchboard-library.known.lock")).unwrap();
        assert!(matches!(Lock::within(&path, Duration::ZERO), Err(FileProblem::System(_))));
        assert!(!yard.path().join("elsewhere").exists());
    }
}
