//! Words that the trade uses for what has a name of ours in a design, by the kind that they are stated of.

use super::kind::Kind;
use super::vocabulary::kinds;

/// What is made of timber and has a section.
const MADE: [&Kind; 6] =
    [kinds::TREAD, kinds::RISER_BOARD, kinds::STRINGER, kinds::POST, kinds::HANDRAIL, kinds::GUARD];

/// A word for a property of each of these kinds, and ours.
const WORDS: &[(&[&Kind], &str, &str)] = &[
    (&[kinds::STAIR], "rise", "total rise"),
    (&[kinds::STAIR], "run", "total run"),
    (&[kinds::STAIR], "rulesets", "rules"),
    (&[kinds::STAIR], "codes", "rules"),
    (&[kinds::FLIGHT], "rise", "risers"),
    (&[kinds::FLIGHT], "rises", "risers"),
    (&[kinds::FLIGHT], "going", "runs"),
    (&[kinds::FLIGHT], "goings", "runs"),
    (&[kinds::FLIGHT], "treads", "runs"),
    (&[kinds::TREAD], "overhang", "nosing"),
    (&[kinds::TREAD], "number", "boards"),
    (&[kinds::STRINGER, kinds::POST], "number", "count"),
    (&[kinds::LANDING], "length", "depth"),
    (&[kinds::GUARD], "gap", "balusters"),
    (&[kinds::GUARD], "pickets", "balusters"),
    (&[kinds::GUARD], "spindles", "balusters"),
    (&[kinds::HANDRAIL], "wall clearance", "clearance"),
    (&[kinds::HANDRAIL], "diameter", "section"),
    (&MADE, "thickness", "section"),
    (&MADE, "size", "section"),
    (&MADE, "profile", "section"),
    (&MADE, "wood", "timber"),
    (&MADE, "lumber", "timber"),
    (&MADE, "species", "timber"),
    (&MADE, "material", "timber"),
    (&MADE, "treated", "timber"),
    (&MADE, "treatment", "timber"),
    (&MADE, "grade", "timber"),
];

/// Our name for the property of a kind that a word of the trade means.
pub fn ours(kind: &Kind, word: &str) -> Option<&'static str> {
    let found = WORDS.iter().find(|(of, said, _)| *said == word && of.contains(&kind));
    found.map(|(.., ours)| *ours)
}

/// The kinds of which a word of the trade is stated, with our name for it.
pub fn meant(word: &str) -> impl Iterator<Item = (&'static Kind, &'static str)> + '_ {
    let rows = WORDS.iter().filter(move |(_, said, _)| *said == word);
    rows.flat_map(|(of, _, ours)| of.iter().map(|kind| (*kind, *ours)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_stands_for_a_property_of_its_kinds_and_is_none_itself() {
        for (of, word, ours) in WORDS {
            for kind in *of {
                assert!(kind.property(ours).is_some(), "`{ours}` of {}", kind.name);
                assert!(kind.property(word).is_none(), "`{word}` of {} is a name of its own", kind.name);
            }
        }
    }
}
