//! `pitchboard tidy`: one layout for designs, rulesets and shop's files.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::ordered::{Next, in_order};
use super::selection::Selection;
use super::whole_file::replace;
use super::{Outcome, Output, output, read, unharmed};
use crate::base::{Source, Span};
use crate::report::{self, Look};
use crate::session::Refusal;
use crate::syntax::{self, Tidying};
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard tidy                          every design, ruleset and shop's file in this folder and below
  pitchboard tidy hide.stair sets/         a file and a folder
  pitchboard tidy --check library          write nothing; say which files are not tidy
  pitchboard tidy - < hide.stair           from standard input to standard output

Exit code: 0 all is tidy, or was made so; 1 a statement could not be read and was left as it is, or with --check
something is not tidy; 2 something could not be read or written. The highest of all files wins.";

/// What `tidy` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// Which designs, rulesets and shop's files.
    #[command(flatten)]
    pub selection: Selection,
    /// Write nothing, and say which files are not tidy and where
    #[arg(long)]
    pub check: bool,
    /// Tidy only these lines of each text, from 1, as an editor asks for a selection
    #[arg(long, value_name = "FIRST-LAST", value_parser = Lines::read)]
    pub lines: Option<Lines>,
    /// What the texts are, where their names do not tell
    #[arg(long, value_name = "LANGUAGE", value_enum)]
    pub language: Option<Language>,
}

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Language {
    /// A design, or a shop's file
    Design,
    /// A ruleset
    Rules,
}

/// Lines of a text, from 1, the last of them included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lines {
    first: usize,
    last: usize,
}

impl Lines {
    fn read(said: &str) -> Result<Self, String> {
        let (first, last) = said.split_once('-').unwrap_or((said, said));
        let number = |said: &str| said.trim().parse::<usize>().ok().filter(|line| *line > 0);
        match (number(first), number(last)) {
            (Some(first), Some(last)) if first <= last => Ok(Self { first, last }),
            _ => Err("write the first and the last line, such as `4-9`, or one line".to_owned()),
        }
    }

    /// Where they stand; none in a text that ends before them.
    fn place(self, source: &Source) -> Option<Span> {
        let mut at = 0;
        let mut lines = source.text.split_inclusive('\n').map(|line| {
            at += line.len();
            (at - line.len(), at - line.len() + line.trim_end_matches(['\n', '\r']).len())
        });
        let (start, end) = lines.nth(self.first - 1)?;
        let end = lines.take(self.last - self.first).last().map_or(end, |(_, end)| end);
        Some(Span::new(start, end))
    }
}

impl Ask {
    /// Tidies every text, in the order of the files.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let selected = match self.selection.find_texts() {
            Ok(selected) => selected,
            Err(why) => {
                output::complain(&format!("{}\n", report::sentence(&why, look.unicode)));
                return Outcome::Unchecked;
            }
        };
        let mut outcome = Outcome::Sound;
        let mut count = Count::default();
        in_order(
            &selected.designs,
            |found| self.one(found),
            |done| {
                outcome = outcome.max(self.take(done, &mut count, look, output));
                Next::GoOn
            },
        );
        selected.said().iter().for_each(|said| self.say(said, look, output));
        if count.files() > 1 {
            self.say(&count.said(self.check), look, output);
        }
        outcome
    }

    fn one(&self, found: &Result<PathBuf, Refusal>) -> Result<(PathBuf, Source, Tidying), Refusal> {
        let path = found.clone()?;
        let source = read(&path)?;
        let language = match self.language {
            Some(Language::Design) => syntax::Language::Design,
            Some(Language::Rules) => syntax::Language::Rules,
            None if path.extension().is_some_and(|end| end == "rules") => syntax::Language::Rules,
            None => syntax::Language::Design,
        };
        let mut tidying = unharmed(&source, || syntax::tidy(&source, language))?;
        if let Some(lines) = self.lines {
            let place = lines.place(&source);
            tidying = place.map_or_else(Tidying::default, |place| tidying.within(&source, place));
        }
        Ok((path, source, tidying))
    }

    /// Writes a text, or says what is not tidy in it.
    fn take(
        &self,
        done: Result<(PathBuf, Source, Tidying), Refusal>,
        count: &mut Count,
        look: &Look,
        output: &mut Output<'_>,
    ) -> Outcome {
        let (path, source, tidying) = match done {
            Ok(done) => done,
            Err(refused) => {
                count.refused += 1;
                self.put(&format!("{}\n", report::finding(&*refused, look)), output);
                return Outcome::Unchecked;
            }
        };
        let is_tidy = tidying.edits.is_empty();
        *(if is_tidy { &mut count.tidy } else { &mut count.changed }) += 1;
        if path == Path::new("-") && !self.check {
            output.as_it_is(&tidying.apply(&source));
        } else if !is_tidy && !self.check {
            if let Err(why) = replace(&source, &tidying.apply(&source)) {
                (count.changed, count.refused) = (count.changed - 1, count.refused + 1);
                self.say(&format!("{} was left as it is: {}", source.name, wording::why(&why)), look, output);
                return Outcome::Unchecked;
            }
            self.say(&format!("{}: tidied", source.name), look, output);
        } else if !is_tidy {
            let places = lines(&source, tidying.edits.iter().map(|edit| edit.span));
            self.say(&format!("{}: not tidy in {places}", source.name), look, output);
        }
        if !tidying.left.is_empty() {
            let places = lines(&source, tidying.left.iter().copied());
            self.say(&format!("{}: not understood, and left as it is: {places}", source.name), look, output);
        }
        if tidying.left.is_empty() && (is_tidy || !self.check) { Outcome::Sound } else { Outcome::Broken }
    }

    fn say(&self, said: &str, look: &Look, output: &mut Output<'_>) {
        self.put(&format!("{}\n", report::sentence(said, look.unicode)), output);
    }

    /// What is said goes beside a text that is printed, not into it.
    fn put(&self, text: &str, output: &mut Output<'_>) {
        let printed = !self.check && self.selection.paths.iter().any(|path| path == Path::new("-"));
        if printed { output::complain(text) } else { output.put(text) }
    }
}

/// How many files came out how.
#[derive(Debug, Default)]
struct Count {
    tidy: usize,
    changed: usize,
    refused: usize,
}

impl Count {
    fn files(&self) -> usize {
        self.tidy + self.changed + self.refused
    }

    fn said(&self, check: bool) -> String {
        let mut said = format!("{} files: {} tidy", self.files(), self.tidy);
        let changed = if check { "not tidy" } else { "tidied" };
        for (number, what) in [(self.changed, changed), (self.refused, "not read or not written")] {
            if number > 0 {
                // To write into memory does not fail.
                let _ = write!(said, ", {number} {what}");
            }
        }
        said
    }
}

/// The lines on which these places begin: `line 3`, `lines 3, 5 to 8`.
fn lines(source: &Source, places: impl Iterator<Item = Span>) -> String {
    let mut places: Vec<u32> = places.map(|span| span.start).collect();
    places.sort_unstable();
    let (mut line, mut from) = (1, 0);
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in places {
        line += source.slice(Span { start: from, end: at }).matches('\n').count();
        from = at;
        match runs.last_mut() {
            Some((_, last)) if *last + 1 >= line => *last = line,
            _ => runs.push((line, line)),
        }
    }
    let said: Vec<String> = runs
        .iter()
        .map(|(first, last)| if first == last { first.to_string() } else { format!("{first} to {last}") })
        .collect();
    let one = matches!(runs.as_slice(), [(first, last)] if first == last);
    format!("{} {}", if one { "line" } else { "lines" }, said.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_told_as_a_person_would() {
        let source = Source::new("a", "a\nb\nc\nd\ne\n");
        let said = |places: &[usize]| lines(&source, places.iter().map(|at| Span::new(*at, *at)));
        assert_eq!(said(&[2]), "line 2");
        assert_eq!(said(&[3, 2]), "line 2");
        assert_eq!(said(&[8, 0, 2, 4]), "lines 1 to 3, 5");
        let place = |said: &str| Lines::read(said).unwrap().place(&source);
        assert_eq!(place("2-3"), Some(Span::new(2, 5)));
        assert_eq!(place("5-90"), Some(Span::new(8, 9)));
        assert_eq!(place("1"), Some(Span::new(0, 1)));
        assert_eq!(place("6"), None);
    }
}
