//! Places as files of results give them: which file, by a path that holds on every machine, and where in it, in lines
//! and columns counted in characters.

use std::path::{Component, Path};

use crate::base::{Source, Span};
use crate::rules::RuleSet;

/// What standard input is called in a file of results.
pub(super) const STANDARD_INPUT: &str = "stdin";
/// How the names of built-in texts begin.
const BUILT_IN: &str = "built-in ";
/// Bytes between two counts of the characters before them, as a power of two.
const STRIDE: usize = 8;

/// A line and a column, both from one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Position {
    /// Ends at each line feed.
    pub line: usize,
    /// Counts characters (code points); a byte-order mark is none.
    pub column: usize,
}

/// Where the lines of a text begin, so that a place is found without reading the text again.
#[derive(Debug)]
pub(super) struct Lines {
    source: Source,
    /// First byte of each line.
    starts: Vec<usize>,
    /// Characters before every 256th byte.
    counts: Vec<usize>,
}

impl Lines {
    /// Reads a text once.
    pub fn of(source: &Source) -> Self {
        let bytes = source.text.as_bytes();
        let (mut starts, mut counts, mut characters) = (vec![0], Vec::new(), 0);
        for (at, byte) in bytes.iter().enumerate() {
            if at.trailing_zeros() as usize >= STRIDE {
                counts.push(characters);
            }
            characters += usize::from(begins(*byte));
            if *byte == b'\n' {
                starts.push(at + 1);
            }
        }
        Self { source: source.clone(), starts, counts }
    }

    /// Whether these are the lines of this text.
    pub fn are_of(&self, source: &Source) -> bool {
        std::sync::Arc::ptr_eq(&self.source.text, &source.text)
    }

    /// Where a byte stands; past the end, where the text ends.
    pub fn position(&self, byte: u32) -> Position {
        let byte = (byte as usize).min(self.source.text.len());
        let line = self.starts.partition_point(|start| *start <= byte);
        let start = line.checked_sub(1).and_then(|at| self.starts.get(at)).copied().unwrap_or_default();
        let mark = usize::from(line == 1 && byte > 0 && self.source.text.starts_with('\u{feff}'));
        Position { line, column: 1 + self.characters(byte) - self.characters(start) - mark }
    }

    /// Where a span begins, and one past where it ends.
    pub fn region(&self, span: Span) -> (Position, Position) {
        (self.position(span.start), self.position(span.end.max(span.start)))
    }

    /// Characters before a byte.
    fn characters(&self, byte: usize) -> usize {
        let at = byte >> STRIDE;
        let Some(before) = self.counts.get(at) else {
            // The text ends right at a count.
            let last = self.counts.len().saturating_sub(1);
            return self.counts.last().copied().unwrap_or_default() + self.between(last << STRIDE, byte);
        };
        before + self.between(at << STRIDE, byte)
    }

    fn between(&self, from: usize, to: usize) -> usize {
        let bytes = self.source.text.as_bytes().get(from..to).unwrap_or_default();
        bytes.iter().filter(|byte| begins(**byte)).count()
    }
}

/// Whether a byte of UTF-8 begins a character.
fn begins(byte: u8) -> bool {
    byte & 0xc0 != 0x80
}

/// A text by a name that holds on every machine.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Named {
    /// A file, by its path from the folder of the run, parts joined by `/`.
    File(String),
    /// A text that comes with the tool, by its name.
    BuiltIn(String),
}

impl Named {
    /// What a text is called, as seen from the folder `here`.
    pub fn of(source: &Source, here: &Path) -> Self {
        match source.name.strip_prefix(BUILT_IN) {
            Some(name) => Named::BuiltIn(name.to_owned()),
            None if &*source.name == "standard input" => Named::File(STANDARD_INPUT.to_owned()),
            None => Named::File(relative(source.path(), here)),
        }
    }

    /// In words: the path, or `built-in residential`.
    pub fn words(&self) -> String {
        match self {
            Named::File(path) => path.clone(),
            Named::BuiltIn(name) => format!("{BUILT_IN}{name}"),
        }
    }

    /// As a relative reference of RFC 3986. A built-in set is that file of the tool's own folder of sets.
    pub fn uri(&self) -> String {
        match self {
            Named::File(path) => reference_to(path),
            Named::BuiltIn(name) => reference_to(&format!("{name}.rules")),
        }
    }
}

/// The title of a set, as no other set has it: of one that is a file, with the file's name.
pub(super) fn told_apart(set: &RuleSet, here: &Path) -> String {
    match set.text.as_ref().map(|text| Named::of(text, here)) {
        Some(Named::File(path)) => format!("{} ({path})", set.title),
        Some(Named::BuiltIn(_)) | None => set.title.clone(),
    }
}

/// A path from the folder `here`: without `.`, with `/` between its parts.
fn relative(path: &Path, here: &Path) -> String {
    let parts = |path: &Path| -> Vec<String> {
        let named = path.components().filter(|part| !matches!(part, Component::CurDir | Component::RootDir));
        named.map(|part| part.as_os_str().to_string_lossy().into_owned()).collect()
    };
    let own = parts(path);
    if !path.has_root() {
        return own.join("/");
    }
    let here = parts(here);
    let shared = own.iter().zip(&here).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n("..", here.len() - shared);
    let down = own.iter().skip(shared).map(String::as_str);
    up.chain(down).collect::<Vec<_>>().join("/")
}

/// A path with every sign that a reference does not take by itself as `%20` and the like. A colon in the first part would
/// make that part a scheme.
pub fn reference_to(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => out.push(char::from(byte)),
            other => out += &format!("%{other:02X}"),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The slow way: characters of the line before the byte.
    fn counted(text: &str, byte: usize) -> Position {
        let before = &text[..byte];
        let line = before.rsplit('\n').next().unwrap().trim_start_matches('\u{feff}');
        Position { line: before.matches('\n').count() + 1, column: line.chars().count() + 1 }
    }

    #[test]
    fn a_place_is_the_one_that_counting_finds() {
        let wide = format!("\u{feff}a⅞🦆b\r\nc\n\n{}", "é🦆x\n⅞y".repeat(200));
        for text in ["", "a", "a\n", "⅞", &"x".repeat(256), &"é".repeat(128), &"é".repeat(700), &wide] {
            let lines = Lines::of(&Source::new("a.stair", text));
            for byte in (0..=text.len()).filter(|byte| text.is_char_boundary(*byte)) {
                assert_eq!(lines.position(byte as u32), counted(text, byte), "{byte} of {text:?}");
            }
            assert_eq!(lines.position(u32::MAX), counted(text, text.len()));
        }
    }

    #[test]
    fn names_hold_on_every_machine() {
        let here = Path::new("/marsh/shop");
        let named = |name: &str| Named::of(&Source::new(name, ""), here);
        for (name, words, uri) in [
            ("./hides/reed bed.stair", "hides/reed bed.stair", "hides/reed%20bed.stair"),
            ("/marsh/shop/a.stair", "a.stair", "a.stair"),
            ("/marsh/sets/a.rules", "../sets/a.rules", "../sets/a.rules"),
            ("c:a.stair", "c:a.stair", "c%3Aa.stair"),
            ("é#?.stair", "é#?.stair", "%C3%A9%23%3F.stair"),
            #[cfg(unix)]
            ("back\\slash.stair", "back\\slash.stair", "back%5Cslash.stair"),
            ("built-in residential", "built-in residential", "residential.rules"),
            ("standard input", "stdin", "stdin"),
        ] {
            assert_eq!((named(name).words().as_str(), named(name).uri().as_str()), (words, uri));
        }
    }
}
