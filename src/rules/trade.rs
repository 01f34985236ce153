//! Words that the trade and other codes use for what has a name of ours, by the kind that is asked. A word that a design
//! knows for one of its properties is a row of its table, and is not repeated here.

use crate::model::{Kind, kinds, trade};

/// A kind, a word for something of it, and ours.
const WORDS: &[(&Kind, &str, &str)] = &[
    (kinds::TREAD, "going", "run"),
    (kinds::TREAD, "goings", "run"),
    (kinds::TREAD, "tread depth", "run"),
    (kinds::TREAD, "width", "length"),
    (kinds::TREAD, "overlap", "nosing"),
    (kinds::RISER, "rise", "height"),
    (kinds::RISER, "riser height", "height"),
    (kinds::FLIGHT, "going", "unit run"),
    (kinds::FLIGHT, "slope", "pitch"),
    (kinds::FLIGHT, "clear width", "width"),
    (kinds::FLIGHT, "angle", "pitch"),
    (kinds::LANDING, "landing length", "depth"),
    (kinds::LANDING, "landing depth", "depth"),
    (kinds::HANDRAIL, "rail height", "height"),
    (kinds::GUARD, "gap", "opening"),
    (kinds::GUARD, "guard height", "height"),
];

/// Whether a rule may ask something of a kind.
pub(super) type Asked = fn(&str, &Kind) -> bool;

/// Our name for a word of the trade, asked of a kind.
pub(super) fn ours(words: &str, kind: &Kind, asked: Asked) -> Option<&'static str> {
    let found = WORDS.iter().find(|(of, word, _)| *of == kind && *word == words).map(|(.., ours)| *ours);
    // Not all that a design states can be asked.
    found.or_else(|| trade::ours(kind, words).filter(|ours| asked(ours, kind)))
}

/// The first kind of which a word of the trade is asked, and our name for it.
pub(super) fn of_another(words: &str, asked: Asked) -> Option<(&'static Kind, &'static str)> {
    let found = WORDS.iter().find(|(_, word, _)| *word == words).map(|(kind, _, ours)| (*kind, *ours));
    found.or_else(|| trade::meant(words).find(|(kind, ours)| asked(ours, kind)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::resolve::known;

    #[test]
    fn each_stands_for_a_name_of_ours_and_is_none_itself() {
        for (kind, word, ours) in WORDS {
            assert!(known(ours, kind), "{ours} of {kind:?}");
            assert!(!known(word, kind), "{word} of {kind:?} is a name of its own");
            assert_ne!(trade::ours(kind, word), Some(*ours), "{word} of {kind:?} stands in the table of the design");
        }
    }
}
