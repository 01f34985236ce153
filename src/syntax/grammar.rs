//! The parser that pest derives from `grammar/`: one lexicon, two languages. The build script reads with it too.

// The derive writes an undocumented public enum.
#![allow(missing_docs)]

use pest::Parser;
use pest::iterators::Pairs;

#[derive(pest_derive::Parser)]
#[grammar = "../grammar/lexicon.pest"]
#[grammar = "../grammar/design.pest"]
#[grammar = "../grammar/rules.pest"]
struct Grammar;

/// Reads a text from one start rule; the error is the byte at which reading stopped.
pub fn read(text: &str, start: Rule) -> Result<Pairs<'_, Rule>, usize> {
    Grammar::parse(start, text).map_err(|error| match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => at,
    })
}
