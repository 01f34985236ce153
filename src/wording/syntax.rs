//! What is wrong with a text before its words are looked up.

use super::message::{Describe, Description, Place};
use super::phrase::offered;
use crate::base::Span;
use crate::syntax::problem::{ClauseProblem, Hides, Impossible, Meant, Problem, Reading};

const VERBS: &str = "Write `shall have` for what is required, `should have` for advice.";

impl Describe for Problem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            Problem::TooLarge => Description::new(format!("`{}` is larger than a design can be", place.source.name)),
            Problem::NestedTooDeep => Description::new("braces nest more than 64 deep"),
            Problem::NothingMore => Description::new("nothing after this place could be read"),
            Problem::StrayBrace => Description::new("this brace closes nothing"),
            Problem::UnclosedBrace { taken_by, missed } => unclosed(*taken_by, *missed),
            Problem::UnclosedQuote => Description::new("this quote is not closed on its line"),
            Problem::ColonBeforeBrace => Description::new("a colon stands between a thing and its brace")
                .help("Write `kind name {` for a thing that has parts, without a colon."),
            Problem::NoName => {
                let said = place.quote();
                let table = said.strip_prefix("limit ").and_then(|limit| limit.split_once(" by "));
                Description::new("no property's name stands before the colon").maybe_help(table.map(|(name, by)| {
                    let figure = by.split_whitespace().last().unwrap_or(by);
                    let quantity = by.strip_suffix(figure).unwrap_or(by).trim_end();
                    format!(
                        "A figure there goes by a name: `limit reach: {figure}`, then `limit {name} by {quantity} reach: ...`."
                    )
                }))
            }
            Problem::UnclearSubtraction { left, right } => {
                let (left, right) = (place.quote_at(*left), place.quote_at(*right));
                // `6'-8` lacks the mark of its inches.
                let feet = left.ends_with(['\'', '’', '′']);
                let mark = if feet && right.ends_with(|c: char| c.is_ascii_digit()) { "\"" } else { "" };
                Description::new(format!("`{}` is a subtraction, or one dimension?", place.quote()))
                    .help(format!("For one dimension write `{left}-{right}{mark}`; else write the result."))
            }
            Problem::Hidden { hides, sign, many } => hidden(*hides, *sign, *many),
            Problem::UnclearList => Description::new(format!("`{}` may be a list or a decimal comma", place.quote())),
            Problem::Clause(problem) => problem.describe(place),
        }
    }
}

fn hidden(hides: Hides, sign: char, many: usize) -> Description {
    let code = format!("U+{:04X}", u32::from(sign));
    let message = match hides {
        Hides::LineEnd => format!("{code} ends a line in some editors and none here"),
        Hides::Direction => format!("{code} makes an editor show the letters in another order than they are read"),
        Hides::Nothing => format!("{code} is a sign that no editor shows"),
        Hides::OutOfSight => "this stands behind so many blanks that no window shows it".to_owned(),
    };
    let help = match hides {
        Hides::LineEnd => "End the line as the others are, or take the sign out.",
        Hides::OutOfSight => "Put it on a line of its own.",
        Hides::Direction | Hides::Nothing => "Take it out.",
    };
    let more = if many > 1 { format!(" The text holds {many} of this sort.") } else { String::new() };
    Description::new(message).help(format!("{help}{more}"))
}

fn unclosed(taken_by: Option<Span>, missed: Option<Span>) -> Description {
    let description = Description::new("this brace is never closed");
    if let Some(missed) = missed {
        return description.beside(missed, "by its indentation this stands outside").help("Write `}` before it.");
    }
    match taken_by {
        Some(piece) => description
            .beside(piece, "this one, not closed on its line, took the next")
            .help("Close the piece of a design first, with `}` at the end of its line."),
        None => description,
    }
}

impl Describe for ClauseProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            ClauseProblem::Stopped { reading, word, meant } => stopped(*reading, word.as_deref(), *meant),
            ClauseProblem::Unreadable => Description::new("this clause cannot be read"),
            ClauseProblem::TooManySigns { most } => {
                Description::new(format!("this clause reckons with more than {most} signs"))
            }
            ClauseProblem::SlopeOfNoLength { dimension } => {
                Description::new(format!("`{}` is {dimension}; a slope is a length `per` a length", place.quote()))
            }
            ClauseProblem::Impossible(why) => Description::new(impossible(*why)),
            ClauseProblem::NotAFigure => Description::new("only a number with its unit can stand here"),
            ClauseProblem::NoVerb { word, near } => {
                Description::new(format!("`{word}` is no verb of a rule")).help(offered(*near, || VERBS.to_owned()))
            }
            ClauseProblem::WithoutVerb => Description::new("this clause has no verb").help(VERBS),
            ClauseProblem::NotHave { verb, word, near } => {
                let near = near.then_some("have");
                Description::new(format!("`have` stands after `{verb}`, not `{word}`"))
                    .help(offered(near, || format!("Write `{verb} have ...`, then what it shall have.")))
            }
            ClauseProblem::WithoutHave { verb } => {
                Description::new(format!("`have` stands after `{verb}`")).help(VERBS)
            }
        }
    }
}

fn stopped(reading: Reading, word: Option<&str>, meant: Option<Meant>) -> Description {
    let what = match reading {
        Reading::Clause => "clause",
        Reading::Condition => "condition",
        Reading::Value => "value",
    };
    let message = match word {
        Some(word) => format!("this {what} cannot be read from `{word}` on"),
        None => format!("this {what} stops too early"),
    };
    let help = match (meant, reading) {
        (Some(meant), _) => Some(instead(meant)),
        (None, Reading::Condition) => {
            Some("A condition reads `where: number of risers > 3`; write `where: always` for none.".to_owned())
        }
        (None, Reading::Clause | Reading::Value) => None,
    };
    Description::new(message).maybe_help(help)
}

/// What to write in place of what a clause was likely to say.
fn instead(meant: Meant) -> String {
    match meant {
        Meant::Sign(relation) => format!("Write `{}`.", relation.sign()),
        Meant::WithoutQuotes => {
            "Words stand in a clause without quotes: `ends is one of returned, at a post`.".to_owned()
        }
        Meant::Phrase(phrase, relation) => {
            let sign = relation.sign();
            format!("Write `{sign}` for `{phrase}`, after what is checked: `QUANTITY {sign} FIGURE`.")
        }
        Meant::Pick(pick) => format!("Write `{pick} of A and B`."),
        Meant::CountOfOthers => "A count is of what belongs to the thing that is checked: to count what belongs to a \
                                 stair, hold `each stair`."
            .to_owned(),
    }
}

/// Why a figure cannot be.
pub(super) fn impossible(why: Impossible) -> &'static str {
    match why {
        Impossible::SlopeWithoutRun => "a slope needs a run that is not nothing",
        Impossible::NumberTooGreat => "this number is beyond any screw or grade",
        Impossible::OverNothing => "a fraction over nothing has no value",
        Impossible::FractionOverOne => "the fraction after a whole number is more than one",
        Impossible::TooBig => "no stair is of this size",
        Impossible::NoSuchDay => "no calendar has this day; a date is written year, month, day",
        Impossible::TwelveInches => "the inches beside feet stay below 12",
        Impossible::UnknownUnit => "no such unit is known",
        Impossible::BrokenPenny => "a nail's pennyweight is a whole number",
    }
}
