//! Lines that the machine which keeps a log would take for a command of its own: `::error::`, `##[group]` and the like.
//! Names, titles and messages come from files of other people; here, at the one way out, none of them can give one.

use std::borrow::Cow;

use crate::report::visible;

/// What opens a section of a log where a line begins with it.
const HEADS: [&str; 4] = ["--- ", "+++ ", "~~~ ", "^^^ "];

/// A text in which no line is a command to a log. The first sign of one is written by its number, as a control
/// character is.
pub(super) fn harmless(text: &str) -> Cow<'_, str> {
    if !text.contains("::") && !text.contains("##") && !HEADS.iter().any(|head| text.contains(head)) {
        return Cow::Borrowed(text);
    }
    let lines: Vec<Cow<'_, str>> = text.split('\n').map(line).collect();
    if lines.iter().all(|line| matches!(line, Cow::Borrowed(_))) {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(lines.join("\n"))
    }
}

fn line(line: &str) -> Cow<'_, str> {
    let (before, words) = line.split_at_checked(line.len() - start(line).len()).unwrap_or(("", line));
    let head = words.starts_with("::") || HEADS.iter().any(|head| words.starts_with(head));
    let opened = match head {
        true => Cow::Owned(format!("{before}{}", first_by_number(words))),
        false => Cow::Borrowed(line),
    };
    // `##[error]` counts wherever it stands in a line, and so does `##name[...]`.
    if opened.match_indices("##").any(|(at, _)| opened.get(at + 2..).is_some_and(is_bracketed)) {
        return Cow::Owned(opened.replace("##", "#\\x23"));
    }
    opened
}

/// The line after its blanks and its colours.
fn start(line: &str) -> &str {
    let mut rest = line;
    loop {
        let bare = rest.trim_start();
        let painted = bare.strip_prefix("\u{1b}[").and_then(|code| code.split_once('m'));
        match painted.filter(|(code, _)| code.chars().all(|c| c.is_ascii_digit() || c == ';')) {
            Some((_, after)) => rest = after,
            None => return bare,
        }
    }
}

fn is_bracketed(rest: &str) -> bool {
    rest.trim_start_matches(|c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | '#')).starts_with('[')
}

fn first_by_number(words: &str) -> String {
    let mut rest = words.chars();
    let first = rest.next().map_or(0, u32::from);
    format!("\\x{first:02x}{}", rest.as_str())
}

/// A text whose lines hold nothing that a terminal would obey.
pub(super) fn plain(text: &str) -> Cow<'_, str> {
    if text.split('\n').all(|line| matches!(visible(line, false), Cow::Borrowed(_))) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.split('\n').map(|line| visible(line, false)).collect::<Vec<_>>().join("\n"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_a_command() {
        let said = "a.stair: fine\n::error::x\n  \t::set-output name=x::y\nsee ::error:: there\n";
        assert_eq!(
            harmless(said),
            "a.stair: fine\n\\x3a:error::x\n  \t\\x3a:set-output name=x::y\nsee ::error:: there\n"
        );
        assert_eq!(harmless("a ##[error]b ##vso[x] ## x"), "a #\\x23[error]b #\\x23vso[x] #\\x23 x");
        assert_eq!(harmless("\u{1b}[1m\u{1b}[31m::error::x"), "\u{1b}[1m\u{1b}[31m\\x3a:error::x");
        assert_eq!(harmless("###[x]\n--- x\n+++ x"), "#\\x23#[x]\n\\x2d-- x\n\\x2b++ x");
        for sound in ["## Steps\n| --- | --- |\n", "a -- b --- c\n", "depth::at", ""] {
            assert!(matches!(harmless(sound), Cow::Borrowed(_)), "{sound}");
        }
        assert_eq!(plain("--ru\u{202e}les\n\x1b[31m"), "--ru\\u{202e}les\n\\x1b[31m");
    }
}
