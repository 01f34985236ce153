//! Finding designs on the disk and reading them: one clear message for whatever cannot be read.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use walkdir::{DirEntry, WalkDir};

use crate::base::{Diagnostic, Source, Span};
use crate::rules::FileProblem;
use crate::session::Refusal;

/// A design is a few kilobytes; beyond this a file is something else.
const LARGEST: u64 = 1024 * 1024;
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
    let before = out.len();
    let mut met = false;
    for entry in WalkDir::new(root).follow_links(true).sort_by_file_name().into_iter().filter_entry(wanted) {
        match entry {
            Ok(entry) if is_design(entry.path()) && !entry.file_type().is_dir() => {
                met = true;
                let path = entry.path().strip_prefix(".").unwrap_or(entry.path()).to_owned();
                if seen.insert(path.clone()) {
                    out.push(plain_file(&entry, path));
                }
            }
            Ok(_) => {}
            Err(error) => out.extend(walk_refusal(&error).map(Err)),
        }
    }
    if !met && out.len() == before {
        let folder = root.display().to_string();
        out.push(Err(refuse(&named(root), FileProblem::NoDesigns { folder })));
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

/// A pipe or a device inside a folder could hold up the run for ever; it is read only when named on the command line.
fn plain_file(entry: &DirEntry, path: PathBuf) -> Result<PathBuf, Refusal> {
    if entry.file_type().is_file() {
        return Ok(path);
    }
    Err(refuse(&named(&path), FileProblem::NotAFile))
}

/// What kept the walk through a folder from a part of it, if that matters.
fn walk_refusal(error: &walkdir::Error) -> Option<Refusal> {
    let path = error.path().unwrap_or(Path::new("."));
    let path = path.strip_prefix(".").unwrap_or(path);
    if let Some(ancestor) = error.loop_ancestor() {
        let ancestor = ancestor.display().to_string();
        return Some(refuse(&named(path), FileProblem::LinkLoop { ancestor }));
    }
    let why = error.io_error().map_or(FileProblem::NotRead, why);
    // A link to nowhere matters only if it stands for a design.
    let nowhere = error.io_error().is_some_and(|error| error.kind() == ErrorKind::NotFound);
    (!nowhere || is_design(path)).then(|| refuse(&named(path), why))
}

/// The text of a design; `-` is standard input.
///
/// # Errors
/// Why there is none.
pub fn read(path: &Path) -> Result<Source, Refusal> {
    let name = named(path);
    let bytes = bytes(path).map_err(|error| refuse(&name, why(&error)))?;
    if bytes.len() as u64 > LARGEST {
        return Err(refuse(&name, FileProblem::TooLarge { tenths: size(path) }));
    }
    let text = String::from_utf8(bytes).map_err(|error| not_text(&name, &error))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(refuse(&name, if text.is_empty() { FileProblem::Empty } else { FileProblem::Blank }));
    }
    Ok(Source::new(name, text))
}

/// At most one byte more than the largest text, whatever the file claims to be.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        io::stdin().lock().take(LARGEST + 1).read_to_end(&mut bytes)?;
        return Ok(bytes);
    }
    let found = fs::metadata(path)?;
    if found.is_dir() {
        return Err(ErrorKind::IsADirectory.into());
    }
    if found.len() > LARGEST {
        return Ok(vec![0; LARGEST as usize + 1]);
    }
    File::open(path)?.take(LARGEST + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Tenths of a megabyte that a file says it holds, if that is more than is read.
fn size(path: &Path) -> Option<u64> {
    let bytes = fs::metadata(path).map_or(0, |found| found.len());
    // Rounded up, so that a little over one never reads as one.
    (bytes > LARGEST).then(|| bytes.saturating_mul(10).div_ceil(LARGEST))
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
    fn link_loops_and_dead_links_cost_one_message_each() {
        use std::os::unix::fs::symlink;
        let yard = Yard::new();
        yard.put("a.stair", "stair {}");
        symlink(&yard.0, yard.0.join("round")).unwrap();
        symlink(yard.0.join("gone"), yard.0.join("dead.stair")).unwrap();
        symlink(yard.0.join("gone"), yard.0.join("dead.txt")).unwrap();
        symlink("self.stair", yard.0.join("self.stair")).unwrap();
        symlink(yard.0.join("a.stair"), yard.0.join("linked.stair")).unwrap();
        assert_eq!(yard.found(), ["a.stair", "unreadable", "linked.stair", "unreadable", "unreadable"]);
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
    fn a_device_without_end_is_read_no_further_than_the_limit() {
        assert_eq!(read(Path::new("/dev/zero")).unwrap_err().name(), "too large");
        assert_eq!(read(Path::new("/dev/null")).unwrap_err().name(), "nothing in it");
    }
}
