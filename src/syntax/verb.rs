//! A second look at a clause that could not be read: does it lack its verb?

use super::problem::{ClauseProblem, Problem};
use crate::base::names::nearest;
use crate::base::{Diagnostic, Source, Span};

/// Words that other writers put where `shall` or `should` stands.
const OTHER_VERBS: [&str; 6] = ["must", "may", "will", "can", "ought", "needs"];
const VERBS: [&str; 2] = ["shall", "should"];
/// The problem of a clause without `shall have` or `should have`, at the word that stands in its place.
pub(super) fn lacking(source: &Source, clause: Span) -> Option<Box<Diagnostic<Problem>>> {
    let words = words(source, clause);
    let report = |place: Span, problem: ClauseProblem| Some(Box::new(Diagnostic::new(source, place, problem)));
    let verb = words.iter().position(|(word, _)| VERBS.contains(word));
    let Some(verb) = verb else {
        let meant = |(word, _): &&(&str, Span)| OTHER_VERBS.contains(word) || nearest(word, VERBS).is_some();
        // Past `each` and the kind.
        if let Some((word, place)) = words.iter().skip(2).find(meant) {
            return report(*place, ClauseProblem::NoVerb { word: (*word).to_owned(), near: nearest(word, VERBS) });
        }
        let have = words.iter().find(|(word, _)| *word == "have").map(|(_, place)| *place);
        return report(have.unwrap_or(clause), ClauseProblem::WithoutVerb);
    };
    match (words.get(verb), words.get(verb + 1)) {
        (_, Some(("have", _))) | (None, _) => None,
        (Some((verb, _)), Some((word, place))) => {
            let (verb, near) = ((*verb).to_owned(), nearest(word, ["have"]).is_some());
            report(*place, ClauseProblem::NotHave { verb, word: (*word).to_owned(), near })
        }
        (Some((verb, place)), None) => report(*place, ClauseProblem::WithoutHave { verb: (*verb).to_owned() }),
    }
}

/// The words of a clause with their places, remarks left out.
fn words(source: &Source, clause: Span) -> Vec<(&str, Span)> {
    let text = source.slice(clause);
    let mut found = Vec::new();
    let mut at = clause.start as usize;
    for line in text.split_inclusive(['\n', '\r']) {
        let remark = line.match_indices('#').find(|(at, _)| {
            !line.get(at + 1..).and_then(|rest| rest.chars().next()).is_some_and(|next| next.is_ascii_digit())
        });
        let said = remark.map_or(line, |(end, _)| line.get(..end).unwrap_or(line));
        let mut from = 0;
        for word in said.split_whitespace() {
            let start = said.get(from..).and_then(|rest| rest.find(word)).map_or(from, |offset| from + offset);
            from = start + word.len();
            found.push((word, Span::new(at + start, at + from)));
        }
        at += line.len();
    }
    found
}
