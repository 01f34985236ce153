//! Writing a design back: whole or not at all.

use std::fs::{self, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use super::files;
use crate::base::{Diagnostic, Source};
use crate::rules::{FileProblem, Unwritten};
use crate::session::Refusal;

/// Puts another text in the place of one that was read. The file keeps its permissions; a link stays a link.
///
/// # Errors
/// Why the file stands as it was.
pub(super) fn replace(read: &Source, with: &str) -> Result<(), Refusal> {
    write(read, with).map_err(|why| {
        let whole = Source::at(read.path(), "".into());
        Box::new(Diagnostic::whole(&whole, FileProblem::NotWritten(why)))
    })
}

fn write(read: &Source, with: &str) -> Result<(), Unwritten> {
    let path = read.path();
    let real = path.canonicalize().map_err(|error| other(&error))?;
    let folder = real.parent().ok_or(Unwritten::LeadsOut)?;
    let beside = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if !beside.canonicalize().is_ok_and(|beside| real.starts_with(beside)) {
        return Err(Unwritten::LeadsOut);
    }
    let permissions = fs::metadata(&real).map_err(|error| other(&error))?.permissions();
    // To open it for writing asks the system too, which knows more than the bits.
    if permissions.readonly() || OpenOptions::new().write(true).open(&real).is_err() {
        return Err(Unwritten::ReadOnly);
    }
    if fs::read(&real).map_err(|error| other(&error))? != read.text.as_bytes() {
        return Err(Unwritten::Changed);
    }
    let in_folder = |error: io::Error| match error.kind() {
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => Unwritten::NoPermission,
        _ => other(&error),
    };
    let mut beside = tempfile::Builder::new().prefix(".mend-").tempfile_in(folder).map_err(in_folder)?;
    beside.write_all(with.as_bytes()).map_err(in_folder)?;
    beside.as_file().set_permissions(permissions).map_err(in_folder)?;
    beside.as_file().sync_all().map_err(in_folder)?;
    beside.persist(&real).map_err(|failed| in_folder(failed.error))?;
    Ok(())
}

fn other(error: &io::Error) -> Unwritten {
    Unwritten::Other(Box::new(files::why(error)))
}
