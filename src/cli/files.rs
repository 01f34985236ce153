//! Finding designs on the disk and reading them: one clear message for whatever cannot be read.

use std::collections::{BTreeSet, VecDeque};
use std::fs::{self, File, FileType};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use crate::base::{Diagnostic, Source, Span, limits};
use crate::rules::FileProblem;
use crate::session::Refusal;

const LARGEST: u64 = limits::BYTES as u64;
/// What a report calls standard input.
const STANDARD_INPUT: &str = "standard input";

/// The designs that these paths name, in the order given, sorted within a folder, each once.
/// What cannot be reached stands in its place as a refusal.
pub fn designs(paths: &[PathBuf]) -> Vec<Result<PathBuf, Refusal>> {
    let mut seen = BTreeSet::new();
    let mut out = Vec::new();
    for path in paths {
        if fs::metadata(path).is_ok_and(|found| found.is_dir()) {
            folder(path, &mut seen, &mut out);
        } else if seen.insert(path.clone()) {
            out.push(Ok(path.clone()));
        }
    }
    out
}

/// Adds the designs of a folder and of those below it.
fn folder(root: &Path, seen: &mut BTreeSet<PathBuf>, out: &mut Vec<Result<PathBuf, Refusal>>) {
    let real = root.canonicalize().unwrap_or_else(|_| root.to_owned());
    let mut walk =
        Walk { root, real: real.clone(), entered: BTreeSet::new(), links: VecDeque::new(), found: Vec::new() };
    walk.through(root, &real);
    while let Some((link, real)) = walk.links.pop_front() {
        walk.through(&link, &real);
    }
    if walk.found.is_empty() {
        let folder = root.display().to_string();
        walk.found.push(Err(refuse(&named(root), FileProblem::NoDesigns { folder })));
    }
    out.extend(walk.found.into_iter().filter(|found| found.as_ref().map_or(true, |path| seen.insert(path.clone()))));
}

/// A walk through a folder that is asked for. Each real folder is entered once, whichever links lead to it, and none
/// outside of it.
struct Walk<'a> {
    /// The folder as it was asked for.
    root: &'a Path,
    /// The same without links.
    real: PathBuf,
    /// The folders entered, without links.
    entered: BTreeSet<PathBuf>,
    /// Links to folders, to be entered once all others were, and where they lead.
    links: VecDeque<(PathBuf, PathBuf)>,
    found: Vec<Result<PathBuf, Refusal>>,
}

impl Walk<'_> {
    /// Walks through a folder whose path without links is `real`.
    fn through(&mut self, folder: &Path, real: &Path) {
        let mut entries = WalkDir::new(folder).sort_by_file_name().into_iter();
        while let Some(entry) = entries.next() {
            match entry {
                Ok(entry) if !wanted(&entry) => {
                    if entry.file_type().is_dir() {
                        entries.skip_current_dir();
                    }
                }
                Ok(entry) if entry.file_type().is_dir() || entry.depth() == 0 => {
                    let below = entry.path().strip_prefix(folder).unwrap_or(Path::new(""));
                    if !self.entered.insert(real.join(below)) {
                        entries.skip_current_dir();
                    }
                }
                Ok(entry) if entry.file_type().is_symlink() => self.link(entry.path()),
                Ok(entry) if is_design(entry.path()) => self.design(entry.path(), entry.file_type()),
                Ok(_) => {}
                Err(error) => {
                    let why = error.io_error().map_or(FileProblem::NotRead, why);
                    self.refuse(error.path().unwrap_or(folder), why);
                }
            }
        }
    }

    /// Takes a link into account that leads to a folder or stands for a design.
    fn link(&mut self, path: &Path) {
        let (real, found) = match path.canonicalize().and_then(|real| Ok((fs::metadata(&real)?, real))) {
            Ok((found, real)) => (real, found),
            // A link to nowhere matters only if it stands for a design.
            Err(error) if is_design(path) || error.kind() == ErrorKind::PermissionDenied => {
                return self.refuse(path, why(&error));
            }
            Err(_) => return,
        };
        if !found.is_dir() && !is_design(path) {
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

/// Hidden things and build folders are no part of a shop's drawings. The folder asked for is always entered.
fn wanted(entry: &DirEntry) -> bool {
    let name = entry.file_name().to_string_lossy();
    entry.depth() == 0 || !(name.starts_with('.') || name == "target" && entry.file_type().is_dir())
}

fn is_design(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == "stair")
}

/// The text of a design; `-` is standard input.
///
/// # Errors
/// Why there is none.
pub fn read(path: &Path) -> Result<Source, Refusal> {
    let name = named(path);
    let bytes = bytes(path).map_err(|why| refuse(&name, why))?;
    if bytes.len() as u64 > LARGEST {
        return Err(refuse(&name, FileProblem::TooLarge { tenths: None }));
    }
    let text = String::from_utf8(bytes).map_err(|error| not_text(&name, &error))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(refuse(&name, if text.is_empty() { FileProblem::Empty } else { FileProblem::Blank }));
    }
    if path == Path::new("-") { Ok(Source::new(name, text)) } else { Ok(Source::at(path, text.into())) }
}

/// At most one byte more than the largest text, whatever the file claims to be.
fn bytes(path: &Path) -> Result<Vec<u8>, FileProblem> {
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        io::stdin().lock().take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| why(&error))?;
        return Ok(bytes);
    }
    let found = fs::metadata(path).map_err(|error| why(&error))?;
    if found.is_dir() {
        return Err(FileProblem::IsAFolder);
    }
    // To open a pipe or a device may hold up the run for ever; so may a file of the system's that says it holds nothing.
    if !found.is_file() {
        return Err(FileProblem::NotAFile);
    }
    if found.len() > LARGEST {
        return Err(FileProblem::TooLarge { tenths: Some(tenths(found.len())) });
    }
    if found.len() > 0 {
        let file = File::open(path).map_err(|error| why(&error))?;
        // The size is only what the file claims; with room for it, and for the end to be seen, it is read in one go.
        bytes.reserve(usize::try_from(found.len()).unwrap_or(0) + 1);
        file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| why(&error))?;
    }
    Ok(bytes)
}

/// Tenths of a megabyte that so many bytes are, rounded up, so that a little over one never reads as one.
fn tenths(bytes: u64) -> u64 {
    bytes.saturating_mul(10).div_ceil(LARGEST)
}

fn not_text(name: &str, error: &std::string::FromUtf8Error) -> Refusal {
    let bytes = error.as_bytes();
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return refuse(name, FileProblem::Utf16);
    }
    // Up to the first bad byte the replaced text stands where the bytes stood.
    let at = error.utf8_error().valid_up_to();
    let shown = String::from_utf8_lossy(bytes);
    let wrong = bytes.get(at).copied().unwrap_or_default();
    let source = Source::new(name, shown);
    let line = source.line(u32::try_from(at).unwrap_or(u32::MAX));
    Box::new(Diagnostic::new(&source, Span::new(at, at + 3), FileProblem::NotUtf8 { byte: wrong, line }))
}

/// The refusal of a whole file, of which there is no text to show.
fn refuse(name: &str, problem: FileProblem) -> Refusal {
    Box::new(Diagnostic::whole(&Source::new(name, ""), problem))
}

fn named(path: &Path) -> String {
    if path == Path::new("-") { STANDARD_INPUT.to_owned() } else { path.to_string_lossy().into_owned() }
}

/// Why the system refused.
pub(super) fn why(error: &io::Error) -> FileProblem {
    match error.kind() {
        ErrorKind::NotFound => FileProblem::NotFound,
        ErrorKind::PermissionDenied => FileProblem::PermissionDenied,
        ErrorKind::IsADirectory => FileProblem::IsAFolder,
        ErrorKind::NotADirectory => FileProblem::PathThroughAFile,
        ErrorKind::StorageFull => FileProblem::DiskFull,
        _ => FileProblem::System(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    /// A folder of its own for each test, taken away at the end.
    struct Yard(PathBuf);

    impl Yard {
        fn new() -> Self {
            static NEXT: AtomicUsize = AtomicUsize::new(0);
            let name = format!("pitchboard-{}-{}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
            let path = std::env::temp_dir().join(name);
            fs::create_dir_all(&path).unwrap();
            Self(path)
        }

        fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
            let path = self.0.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(&path, bytes).unwrap();
            path
        }

        fn found(&self) -> Vec<String> {
            let tail = |path: &Path| path.strip_prefix(&self.0).unwrap_or(path).to_string_lossy().into_owned();
            designs(std::slice::from_ref(&self.0))
                .iter()
                .map(|found| found.as_ref().map_or_else(|refused| refused.name().to_owned(), |path| tail(path)))
                .collect()
        }
    }

    impl Drop for Yard {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
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
        assert_eq!(yard.found(), ["a.stair", "boats/b.stair", "boats/target.stair", "z.stair"]);
        let twice = [yard.0.join("z.stair"), yard.0.clone(), yard.0.join("notes.txt")];
        let named: Vec<PathBuf> = designs(&twice).into_iter().map(Result::unwrap).collect();
        assert_eq!(named.len(), 5);
        assert!(named[0].ends_with("z.stair") && named[4].ends_with("notes.txt"));
    }

    #[test]
    fn a_folder_without_designs_says_so() {
        let yard = Yard::new();
        yard.put("notes.txt", "x");
        assert_eq!(yard.found(), ["no designs"]);
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
        assert_eq!(yard.found(), ["a.stair", "unreadable", "linked.stair", "unreadable"]);
        assert_eq!(read(&yard.0.join("self.stair")).unwrap_err().name(), "unreadable");
    }

    #[test]
    fn whatever_cannot_be_read_gives_one_finding() {
        let yard = Yard::new();
        let big = vec![b' '; LARGEST as usize + 1];
        let cases: [(&str, &[u8], &str); 6] = [
            ("empty.stair", b"", "nothing in it"),
            ("blank.stair", b"\xef\xbb\xbf \n\t\r\n", "nothing in it"),
            ("latin.stair", b"stair {\n  note: caf\xe9\n}", "not text"),
            ("wide.stair", b"\xff\xfes\0t\0", "not text"),
            ("cut.stair", b"abc\xe6\x9d", "not text"),
            ("big.stair", &big, "too large"),
        ];
        for (file, bytes, name) in cases {
            assert_eq!(read(&yard.put(file, bytes)).unwrap_err().name(), name, "{file}");
        }
        assert_eq!(read(&yard.0.join("none.stair")).unwrap_err().name(), "unreadable");
        assert_eq!(read(&yard.0).unwrap_err().name(), "unreadable");
        let latin = read(&yard.0.join("latin.stair")).unwrap_err();
        assert_eq!(latin.source.slice(latin.span.unwrap()), "\u{fffd}");
        assert_eq!(latin.problem, FileProblem::NotUtf8 { byte: 0xe9, line: 2 });
        let whole = vec![b'x'; LARGEST as usize];
        assert!(read(&yard.put("limit.stair", whole)).is_ok());
    }

    #[cfg(unix)]
    #[test]
    fn a_device_is_not_opened() {
        for device in ["/dev/zero", "/dev/null"] {
            assert_eq!(read(Path::new(device)).unwrap_err().problem, FileProblem::NotAFile);
        }
    }
}
