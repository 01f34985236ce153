//! Reading files of the disk: one clear message for whatever cannot be read.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::Path;

use crate::base::{Diagnostic, Source, Span, limits};
use crate::rules::FileProblem;
use crate::session::Refusal;

const LARGEST: u64 = limits::BYTES as u64;
/// Most bytes of a list or a baseline: a line for each of a great many designs.
const LARGEST_LIST: u64 = 64 * LARGEST;
/// What a report calls standard input.
const STANDARD_INPUT: &str = "standard input";

/// The text of a design; `-` is standard input.
///
/// # Errors
/// Why there is none.
pub fn read(path: &Path) -> Result<Source, Refusal> {
    let name = named(path);
    let bytes = bytes(path, LARGEST).map_err(|why| refuse(&name, why))?;
    if bytes.len() as u64 > LARGEST {
        return Err(refuse(&name, FileProblem::TooLarge { tenths: None }));
    }
    let text = String::from_utf8(bytes).map_err(|error| not_text(&name, &error))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(refuse(&name, if text.is_empty() { FileProblem::Empty } else { FileProblem::Blank }));
    }
    if path == Path::new("-") { Ok(Source::new(name, text)) } else { Ok(Source::at(path, text.into())) }
}

/// The text of a file that is neither a design nor a set: a list, a baseline.
///
/// # Errors
/// Why there is none.
pub(super) fn text(path: &Path) -> Result<String, Refusal> {
    let name = named(path);
    let bytes = bytes(path, LARGEST_LIST).map_err(|why| refuse(&name, why))?;
    if bytes.len() as u64 > LARGEST_LIST {
        return Err(refuse(&name, FileProblem::System("it is larger than a list may be".to_owned())));
    }
    String::from_utf8(bytes).map_err(|error| not_text(&name, &error))
}

/// At most one byte more than `largest`, whatever the file claims to be.
fn bytes(path: &Path, largest: u64) -> Result<Vec<u8>, FileProblem> {
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        io::stdin().lock().take(largest + 1).read_to_end(&mut bytes).map_err(|error| why(&error))?;
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
    if found.len() > largest {
        return Err(FileProblem::TooLarge { tenths: Some(tenths(found.len())) });
    }
    if found.len() > 0 {
        let file = File::open(path).map_err(|error| why(&error))?;
        // The size is only what the file claims; with room for it, and for the end to be seen, it is read in one go.
        bytes.reserve(usize::try_from(found.len()).unwrap_or(0).min(usize::try_from(largest).unwrap_or(0)) + 1);
        file.take(largest + 1).read_to_end(&mut bytes).map_err(|error| why(&error))?;
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
pub(super) fn refuse(name: &str, problem: FileProblem) -> Refusal {
    Box::new(Diagnostic::whole(&Source::new(name, ""), problem))
}

pub(super) fn named(path: &Path) -> String {
    if path == Path::new("-") { STANDARD_INPUT.to_owned() } else { path.to_string_lossy().into_owned() }
}

/// Why the system refused.
pub(super) fn why(error: &io::Error) -> FileProblem {
    match error.kind() {
        ErrorKind::NotFound => FileProblem::NotFound,
        ErrorKind::PermissionDenied => FileProblem::PermissionDenied,
        ErrorKind::IsADirectory => FileProblem::IsAFolder,
        ErrorKind::NotADirectory => FileProblem::PathThroughAFile,
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => FileProblem::DiskFull,
        _ => FileProblem::System(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::yard::Yard;

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
