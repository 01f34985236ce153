//! A design comes to the same alone and after others of the very same things, of which some rules need not be held
//! again: each example and case is checked after copies of itself that state something else, and they after it.

use std::fs;
use std::path::Path;

use pitchboard::base::Source;
use pitchboard::report::{self, Look};
use pitchboard::session::Session;

use crate::chance::Chance;
use crate::random_designs::{self, USUAL};
use crate::switches::long_run;
use crate::{cases, record};

/// All that a report says, and how every rule stands.
fn said(session: &Session, source: &Source) -> String {
    let look = Look { colour: false, unicode: true, width: 100, list_not_checked: true };
    let found = session.check(source, None).report;
    let standings = found.standings.iter().map(|stands| format!("{:?} {:?}\n", stands.rule, stands.standing));
    [report::report(&found, &look), standings.collect()].concat()
}

/// The text with another digit at one place, with a word said twice, or with a word less.
fn otherwise(text: &str, chance: &mut Chance) -> String {
    let digits: Vec<usize> = text.match_indices(|sign: char| sign.is_ascii_digit()).map(|(at, _)| at).collect();
    // The change before may have left none.
    if digits.is_empty() {
        return text.to_owned();
    }
    let at = digits[usize::try_from(chance.below(digits.len() as u64)).expect("fits")];
    let end = text[at..].find([';', '\n', '}']).map_or(text.len(), |end| at + end);
    let begin = text[..at].rfind([';', '\n', '{']).map_or(0, |begin| begin + 1);
    match chance.below(8) {
        // Not stated.
        0 => [&text[..begin], &text[end..]].concat(),
        // Not understood.
        1 => [&text[..at], "umpteen", &text[end..]].concat(),
        _ => {
            let digit = text.as_bytes()[at] - b'0';
            let other = (u64::from(digit) + 1 + chance.below(8)) % 10;
            [&text[..at], &other.to_string(), &text[at + 1..]].concat()
        }
    }
}

#[test]
fn a_design_comes_to_the_same_after_another_of_the_same_things() {
    let mut chance = Chance(2026);
    let (mut compared, mut differ) = (0, 0);
    let paths = ["examples", "tests/cases"].map(|folder| record::designs(Path::new(folder))).concat();
    let drawn = paths.iter().step_by(8 / long_run(8)).map(|path| {
        let text = fs::read_to_string(path).expect("text");
        Source::at(path, text.as_str().into())
    });
    let random = (0..long_run(200) as u64).map(|number| {
        let text = random_designs::design(number).written(USUAL);
        Source::new("random.stair", text.as_str())
    });
    for own in drawn.chain(random).filter(|own| own.text.contains(|sign: char| sign.is_ascii_digit())) {
        let together = cases::session();
        let mut texts = vec![own];
        for _ in 0..3 {
            let last = texts.last().expect("one");
            texts.push(last.with_text(&otherwise(&last.text, &mut chance)));
        }
        texts.rotate_left(1);
        let mut last = String::new();
        for source in &texts {
            let (beside, alone) = (said(&together, source), said(&cases::session(), source));
            assert_eq!(beside, alone, "{}", source.text);
            compared += 1;
            differ += usize::from(alone != last);
            last = alone;
        }
    }
    assert!(compared > 300 && differ > compared / 2, "{compared} compared, {differ} of them unlike the one before");
}
