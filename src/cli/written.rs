//! Writing a file of the user's: whole, or not at all.

use std::fs::{self, File, Metadata, OpenOptions, Permissions};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use tempfile::Builder;

use super::files::why;
use crate::rules::FileProblem;

/// Puts these bytes in the place of what a file holds. They are written beside it, into a file whose name begins with a
/// dot, which then takes its name: nobody ever reads half of them, and whatever fails on the way leaves the file as it
/// was. Its permissions and its owner stay, and so does a link that leads to it; another hard name of it keeps the old
/// text.
///
/// # Errors
/// Why it was not written.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), FileProblem> {
    let real = path.canonicalize().map_err(|error| why(&error))?;
    let before = fs::metadata(&real).map_err(|error| why(&error))?;
    if !before.is_file() {
        return Err(if before.is_dir() { FileProblem::IsAFolder } else { FileProblem::NotAFile });
    }
    // To take its name would not ask for this.
    OpenOptions::new().write(true).open(&real).map_err(|error| of(&error, FileProblem::WriteDenied))?;
    if before.permissions().readonly() {
        return Err(FileProblem::WriteDenied);
    }
    let folder = real.parent().unwrap_or(Path::new("/"));
    if is_shut(folder) {
        return Err(FileProblem::FolderDenied);
    }
    let mut beside = Builder::new()
        .prefix(".pitchboard-")
        .tempfile_in(folder)
        .map_err(|error| of(&error, FileProblem::FolderDenied))?;
    keep_owner(beside.as_file(), &before);
    fill(beside.as_file_mut(), bytes, before.permissions()).map_err(|error| why(&error))?;
    // What cannot take the name is removed as it is dropped.
    beside.persist(&real).map(drop).map_err(|refused| of(&refused.error, FileProblem::FolderDenied))
}

fn fill(file: &mut File, bytes: &[u8], permissions: Permissions) -> io::Result<()> {
    file.write_all(bytes)?;
    file.set_permissions(permissions)?;
    // A disk may tell only now that it is full, and the name must not lead to what a fault of the power leaves empty.
    file.sync_all()
}

/// Gives a file the owner and the group of the old one, as far as the system lets it: whoever tidies for another takes
/// no file away from them.
#[cfg(unix)]
fn keep_owner(file: &File, before: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let _ = fchown(file, Some(before.uid()), Some(before.gid()));
}

/// A new file has the owner of its folder.
#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) {}

/// Why the system refused, where `denied` says what it is that may not be written.
fn of(error: &io::Error, denied: FileProblem) -> FileProblem {
    match error.kind() {
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => denied,
        _ => why(error),
    }
}

/// Whether nobody may write in a folder. The superuser could all the same, and is not meant to.
#[cfg(unix)]
fn is_shut(folder: &Path) -> bool {
    fs::metadata(folder).is_ok_and(|found| found.permissions().readonly())
}

/// Elsewhere the mark on a folder says something else.
#[cfg(not(unix))]
fn is_shut(_: &Path) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    fn file(folder: &Path, text: &str) -> PathBuf {
        let path = folder.join("hide.stair");
        fs::write(&path, text).unwrap();
        path
    }

    #[test]
    fn a_file_is_written_whole_and_nothing_is_left_beside_it() {
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "a much longer text than the one that takes its place");
        write_whole(&path, b"short").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"short");
        assert_eq!(names(yard.path()), ["hide.stair"]);
    }

    #[test]
    fn what_is_not_there_or_is_no_file_is_not_written() {
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        assert_eq!(write_whole(&yard.path().join("none.stair"), b"y"), Err(FileProblem::NotFound));
        assert_eq!(write_whole(&path.join("below.stair"), b"y"), Err(FileProblem::PathThroughAFile));
        assert_eq!(write_whole(yard.path(), b"y"), Err(FileProblem::IsAFolder));
        assert_eq!(names(yard.path()), ["hide.stair"]);
        #[cfg(unix)]
        assert_eq!(write_whole(Path::new("/dev/null"), b"y"), Err(FileProblem::NotAFile));
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        fs::set_permissions(&path, Permissions::from_mode(0o666)).unwrap();
        fs::create_dir(yard.path().join("below")).unwrap();
        let link = yard.path().join("below/linked.stair");
        symlink("../hide.stair", &link).unwrap();
        write_whole(&link, b"y").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"y");
        assert!(link.is_symlink());
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o666);
        assert_eq!(names(&yard.path().join("below")), ["linked.stair"]);
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
        write_whole(&path, b"y").unwrap();
        assert_eq!((owner(&path), fs::read(&path).unwrap().as_slice()), (before, b"y".as_slice()));
    }

    #[cfg(unix)]
    #[test]
    fn what_nobody_may_write_stays_as_it_was() {
        use std::os::unix::fs::PermissionsExt;
        let yard = tempfile::tempdir().unwrap();
        let path = file(yard.path(), "x");
        let mode = |path: &Path, mode| fs::set_permissions(path, Permissions::from_mode(mode)).unwrap();
        mode(&path, 0o444);
        assert_eq!(write_whole(&path, b"y"), Err(FileProblem::WriteDenied));
        mode(&path, 0o644);
        mode(yard.path(), 0o555);
        assert_eq!(write_whole(&path, b"y"), Err(FileProblem::FolderDenied));
        assert_eq!((fs::read(&path).unwrap().as_slice(), names(yard.path()).len()), (b"x".as_slice(), 1));
        mode(yard.path(), 0o755);
    }
}
