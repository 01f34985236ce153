//! A file that is written whole or not at all: beside its place under another name, and moved there at the end.

use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Endings of what the tool reads: none is ever written over.
const INPUTS: [&str; 3] = ["stair", "rules", "pitchboard"];
/// Names that are tried for the file beside the place.
const TRIES: usize = 16;

/// A file under way. Dropped before its end, it leaves nothing behind.
pub(super) struct WholeFile {
    /// As it was asked for.
    asked: PathBuf,
    /// Where it is to lie: behind a link, what that leads to.
    place: PathBuf,
    /// The file beside its place.
    beside: PathBuf,
    /// Nothing once it was moved or given up.
    sink: Option<BufWriter<File>>,
    trouble: Option<io::Error>,
    /// Those of the file that it takes the place of.
    permissions: Option<Permissions>,
}

impl WholeFile {
    /// Begins a file.
    ///
    /// # Errors
    /// Why none can be written there, in a sentence.
    pub fn begin(asked: &Path) -> Result<Self, String> {
        let refused = |why: &str| format!("`{}` could not be written: {why}", asked.display());
        if asked.extension().is_some_and(|ending| INPUTS.iter().any(|input| ending == *input)) {
            return Err(refused("a name that ends so is a design, a set or a shop's file"));
        }
        let place = asked.canonicalize().unwrap_or_else(|_| in_its_folder(asked));
        let permissions = match fs::metadata(&place) {
            Ok(found) if found.is_dir() => return Err(refused("it is a folder")),
            Ok(found) if !found.is_file() => return Err(refused("it is a pipe or a device, not a file")),
            Ok(found) if found.permissions().readonly() => return Err(refused("it may only be read")),
            Ok(found) => Some(found.permissions()),
            Err(_) => None,
        };
        let name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let mut last = None;
        for number in 0..TRIES {
            let beside = place.with_file_name(format!(".{name}.{}-{number}.part", std::process::id()));
            match OpenOptions::new().write(true).create_new(true).open(&beside) {
                Ok(file) => {
                    let sink = Some(BufWriter::new(file));
                    return Ok(Self { asked: asked.to_owned(), place, beside, sink, trouble: None, permissions });
                }
                Err(error) if error.kind() == ErrorKind::AlreadyExists => last = Some(error),
                Err(error) => return Err(refused(&why(&error))),
            }
        }
        Err(refused(&last.map_or_else(String::new, |error| why(&error))))
    }

    /// Where it is to lie.
    pub fn place(&self) -> &Path {
        &self.place
    }

    /// Writes more of it.
    pub fn put(&mut self, text: &str) {
        if let Some(sink) = self.sink.as_mut().filter(|_| self.trouble.is_none()) {
            self.trouble = sink.write_all(text.as_bytes()).err();
        }
    }

    /// Moves it to its place.
    ///
    /// # Errors
    /// Why it is not there, in a sentence; nothing of it is left then.
    pub fn finish(mut self) -> Result<(), String> {
        self.moved().map_err(|error| format!("`{}` could not be written: {}", self.asked.display(), why(&error)))
    }

    fn moved(&mut self) -> io::Result<()> {
        if let Some(trouble) = self.trouble.take() {
            return Err(trouble);
        }
        if let Some(sink) = self.sink.as_mut() {
            sink.flush()?;
            // A full disk may only be told of now.
            sink.get_ref().sync_all()?;
        }
        if let Some(permissions) = self.permissions.take() {
            fs::set_permissions(&self.beside, permissions)?;
        }
        fs::rename(&self.beside, &self.place)?;
        self.sink = None;
        Ok(())
    }
}

impl Drop for WholeFile {
    fn drop(&mut self) {
        if self.sink.take().is_some() {
            let _ = fs::remove_file(&self.beside);
        }
    }
}

/// A file that is not there yet, in its folder without links.
fn in_its_folder(asked: &Path) -> PathBuf {
    let folder = asked.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (folder.canonicalize(), asked.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => asked.to_owned(),
    }
}

/// Why the system refused to write.
fn why(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "its folder is not there".to_owned(),
        ErrorKind::NotADirectory => "a part of its path is no folder".to_owned(),
        ErrorKind::PermissionDenied => "there is no permission to write there".to_owned(),
        ErrorKind::ReadOnlyFilesystem => "nothing can be written on that disk".to_owned(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        _ => error.to_string(),
    }
}
