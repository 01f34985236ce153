//! The marks of a case: comments that say what is expected of the lines they stand on. `cases.rs` says how they read.

use pitchboard::base::Severity;

const SEVERITIES: [Severity; 4] = [Severity::Unchecked, Severity::NotUnderstood, Severity::Broken, Severity::Advised];

/// What stands before the mark of a finding that a waiver excuses.
pub const WAIVED: &str = "waived ";

/// What is expected of a line, or what came of it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark {
    pub line: usize,
    pub said: String,
}

impl Mark {
    /// The rule or the reader's notice that it names.
    pub fn name(&self) -> &str {
        let said = self.said.strip_prefix(WAIVED).unwrap_or(&self.said);
        let head = said.split(" @ ").next().unwrap_or_default();
        let after = |severity: &Severity| head.strip_prefix(severity.word())?.strip_prefix(' ');
        SEVERITIES.iter().find_map(after).unwrap_or_default()
    }
}

/// A text with its marks apart.
pub struct Marked<'t> {
    pub marks: Vec<Mark>,
    /// Each line without its marks.
    pub bare: Vec<&'t str>,
    /// The rules that it says it is about; none if it is held to all.
    pub about: Vec<String>,
}

/// Words on one line with single blanks; marks that stand among them are no part of them.
fn folded(words: &str) -> String {
    let bare = words.lines().map(|line| line.split("#=").next().unwrap_or_default());
    bare.flat_map(str::split_whitespace).collect::<Vec<_>>().join(" ")
}

pub fn said(severity: Severity, name: &str, words: &str) -> String {
    let words = folded(words);
    let at = if words.is_empty() { String::new() } else { format!(" @ {words}") };
    format!("{} {name}{at}", severity.word())
}

const ABOUT: &str = "#= about ";

/// The rule that a line says the file is about.
fn about(line: &str) -> Option<String> {
    line.trim_start().strip_prefix(ABOUT).map(folded)
}

/// How many lines stand above the first statement: blank ones, remarks, and what the file is about.
fn head_lines(text: &str) -> usize {
    let is_remark =
        |line: &str| line.is_empty() || line.starts_with(ABOUT) || line.starts_with('#') && !line.starts_with("#=");
    text.split('\n').take_while(|line| is_remark(line.trim())).count()
}

pub fn marks(text: &str) -> Marked<'_> {
    let head = head_lines(text);
    let mut marked = Marked { marks: Vec::new(), bare: Vec::new(), about: Vec::new() };
    for (index, line) in text.split('\n').enumerate() {
        let about = about(line).filter(|_| index < head);
        // What the file is about is no mark, and stays where the marks are written anew.
        let start = about.as_ref().map_or(0, |_| line.find(ABOUT).unwrap_or_default() + ABOUT.len());
        let bare = line[start..].find("#=").map_or(line, |end| &line[..start + end]);
        marked.about.extend(about);
        marked.bare.push(bare);
        for piece in line[bare.len()..].split("#=").skip(1) {
            let (line, said) = match piece.strip_prefix('^') {
                Some(said) => (index, said),
                None => (index + 1, piece),
            };
            marked.marks.push(Mark { line, said: folded(said) });
        }
    }
    marked
}
