//! Source texts and places in them. Line and column are computed at the edge, by the faces.

use std::path::Path;
use std::sync::Arc;

/// A named text. Cheap to clone.
#[derive(Debug, Clone, Eq)]
pub struct Source {
    /// What a report calls the text: a path, or the name of a built-in set.
    pub name: Arc<str>,
    /// The whole text.
    pub text: Arc<str>,
    /// Its path, where the name does not say it: where a part of the path is not UTF-8.
    path: Option<Arc<Path>>,
}

impl PartialEq for Source {
    /// One that was copied from the other is told by its place: the text of a set is long.
    fn eq(&self, other: &Self) -> bool {
        let same = |text: &Arc<str>, other: &Arc<str>| Arc::ptr_eq(text, other) || text == other;
        same(&self.name, &other.name) && same(&self.text, &other.text) && self.path == other.path
    }
}

impl Source {
    /// Names a text.
    pub fn new(name: impl AsRef<str>, text: impl AsRef<str>) -> Self {
        Self { name: Arc::from(name.as_ref()), text: Arc::from(text.as_ref()), path: None }
    }

    /// The text of a file, named by its path.
    pub fn at(path: &Path, text: Arc<str>) -> Self {
        let name = path.to_string_lossy();
        let said = Path::new(&*name) == path;
        Self { text, path: (!said).then(|| Arc::from(path)), name: Arc::from(&*name) }
    }

    /// Another text of the same name and place.
    pub fn with_text(&self, text: &str) -> Self {
        Self { text: Arc::from(text), ..self.clone() }
    }

    /// The path of the file that it names.
    pub fn path(&self) -> &Path {
        self.path.as_deref().unwrap_or(Path::new(&*self.name))
    }

    /// The words at a span; empty if the span lies outside the text or cuts a character.
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(span.start as usize..span.end as usize).unwrap_or("")
    }

    /// The words at a span as a value of their own.
    pub fn passage(&self, span: Span) -> Passage {
        Passage { source: self.clone(), span }
    }

    /// One-based line of a byte offset.
    pub fn line(&self, offset: u32) -> usize {
        let upto = self.text.as_bytes().get(..offset as usize).unwrap_or(self.text.as_bytes());
        1 + line_ends(upto)
    }
}

/// How many ends of lines there are. Counted in runs short enough for one byte, which a processor adds up many at a time.
pub fn line_ends(text: &[u8]) -> usize {
    let of_run = |run: &[u8]| run.iter().map(|byte| u8::from(*byte == b'\n')).sum::<u8>();
    #[allow(clippy::disallowed_methods)] // The size is a constant.
    let runs = text.chunks(usize::from(u8::MAX));
    runs.map(|run| usize::from(of_run(run))).sum()
}

/// Words of a text that a message quotes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passage {
    /// The text.
    pub source: Source,
    /// The words.
    pub span: Span,
}

/// A half-open range of bytes in one source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span of the bytes `start..end`; texts over 4 GiB are refused before they get here.
    pub fn new(start: usize, end: usize) -> Self {
        let clamp = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
        Self { start: clamp(start), end: clamp(end.max(start)) }
    }

    /// The same words in a text that begins so many bytes further up.
    pub fn later(self, by: u32) -> Self {
        Self { start: self.start.saturating_add(by), end: self.end.saturating_add(by) }
    }

    /// The same words counted from so many bytes further down.
    pub fn earlier(self, by: u32) -> Self {
        Self { start: self.start.saturating_sub(by), end: self.end.saturating_sub(by) }
    }

    /// The smallest span that holds both.
    pub fn to(self, other: Span) -> Self {
        Self { start: self.start.min(other.start), end: self.end.max(other.end) }
    }
}
