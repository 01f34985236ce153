//! The head of a block: which kind it opens, under which names, and what a misspelt one was meant for.

use super::Builder;
use crate::base::names::{did_you_mean, nearest};
use crate::base::{Span, notices};
use crate::model::kind::{Kind, Property, Trait};
use crate::model::vocabulary::{KINDS, kinds};
use crate::syntax::{Item, Term, TermKind};

/// Words that a side is meant by; only `left` and `right` name one.
const SIDE_WORDS: [&str; 4] = ["left", "right", "both", "sides"];

/// A name in a block's head.
#[derive(Debug, Clone)]
pub(super) struct HeadName {
    pub(super) text: String,
    pub(super) span: Span,
}

impl Builder<'_> {
    /// Kind and names of a block's head, or a finding.
    pub(super) fn head(&mut self, head: &[Term], span: Span, within: &str) -> Option<(&'static Kind, Vec<HeadName>)> {
        let words = leading_words(head);
        let Some((kind, used)) = opened(&words) else {
            self.unknown_kind(head, &words, span, within);
            return None;
        };
        if !kind.within.contains(&within) {
            let (message, help) = match kind.made_from {
                Some(_) if !kind.is_drawn() => (
                    "risers are made from a flight's list".to_owned(),
                    "Write `risers: 4 of 7\"` in the flight.".to_owned(),
                ),
                _ => {
                    let places: Vec<&str> =
                        kind.within.iter().map(|place| if place.is_empty() { "file" } else { place }).collect();
                    let what =
                        if within.is_empty() { "at the top of a file".to_owned() } else { format!("in a {within}") };
                    (
                        format!("a {} does not stand {what}", kind.opens),
                        format!("It stands in a {}.", places.join(", or a ")),
                    )
                }
            };
            self.say(&notices::WRONG_PLACE, span, message, &help);
            return None;
        }
        let mut names = Vec::new();
        for part in head.get(used..).unwrap_or_default().split(|term| term.kind == TermKind::Comma) {
            let Some((first, last)) = part.first().zip(part.last()) else { continue };
            let place = first.span.to(last.span);
            let text = match part {
                [Term { kind: TermKind::Text(text), .. }] => text.to_string(),
                _ if part.iter().all(|term| term.word().is_some()) => {
                    let name = part.iter().filter_map(Term::word).map(str::to_lowercase).collect::<Vec<_>>().join(" ");
                    if KINDS.iter().any(|kind| kind.name == name || kind.opens == name) && kind != kinds::MEMBER {
                        let message = format!("`{name}` is a kind of thing, and no name by itself");
                        let help = format!("Put it in quotes, `{} \"{name}\" {{`, or draw it by itself.", kind.opens);
                        self.say(&notices::WRONG_VALUE, place, message, &help);
                    }
                    name
                }
                _ => {
                    let message = format!("`{}` is no name", self.source.slice(place));
                    self.say(&notices::WRONG_VALUE, place, message, "A name is words, or a text in quotes.");
                    continue;
                }
            };
            names.push(HeadName { text, span: place });
        }
        Some((kind, names))
    }

    fn unknown_kind(&mut self, head: &[Term], words: &[String], span: Span, within: &str) {
        let (Some(word), Some(first)) = (words.first(), head.first()) else {
            self.say(
                &notices::UNKNOWN_KIND,
                span,
                "this brace opens a thing without a kind".to_owned(),
                "Write `kind name {`.",
            );
            return;
        };
        let here = || KINDS.iter().filter(|kind| kind.within.contains(&within)).map(|kind| kind.opens);
        let two = words.get(..2).map(|two| two.join(" ")).unwrap_or_default();
        let help = did_you_mean(word, here())
            .or_else(|| did_you_mean(&two, here()))
            .unwrap_or_else(|| format!("Here may stand: {}.", here().collect::<Vec<_>>().join(", ")));
        self.say(&notices::UNKNOWN_KIND, first.span, format!("`{word}` is no kind of thing that is known"), &help);
    }
}

/// The words that a head begins with, in lower case.
fn leading_words(head: &[Term]) -> Vec<String> {
    head.iter().map_while(Term::word).map(str::to_lowercase).collect()
}

/// The kind that these words open, the longest that there is, and how many of them it takes.
fn opened(words: &[String]) -> Option<(&'static Kind, usize)> {
    (1..=words.len()).rev().find_map(|used| {
        // What is never drawn has no name: `riser bord` is a slip in another kind.
        let sound = |kind: &Kind| kind.is_drawn() || words.len() == used;
        let said = |kind: &Kind| kind.opens.split(' ').eq(words.iter().take(used).map(String::as_str));
        KINDS.iter().find(|kind| said(kind) && sound(kind)).map(|kind| (kind, used))
    })
}

/// Whether a head opens a section of the user's own, or was most likely meant to.
pub(super) fn opens_section(head: &[Term]) -> Option<Spelling> {
    if head.first().and_then(Term::word) == Some(kinds::SECTION.opens) {
        return Some(Spelling::Right);
    }
    // Nearness to every kind is dear, and a head that opens another was not meant for this one.
    let another = opened(&leading_words(head)).is_some_and(|(kind, _)| kind != kinds::SECTION);
    (!another && likely_kind(head) == Some(kinds::SECTION)).then_some(Spelling::Slip)
}

/// How the kind of a head is spelt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Spelling {
    Right,
    Slip,
}

/// What to write where a name was meant for a side and is none. A wall and the ground have sides and no names.
pub(super) fn not_a_side(kind: &Kind, name: &str, names: &[HeadName]) -> Option<String> {
    let is_side = |name: &str| matches!(name, "left" | "right");
    let only_sides = kind.is(Trait::SidesOnly);
    if !kind.is(Trait::Sided) || is_side(name)
        // Between the sides of a wide flight.
        || kind.is(Trait::Middle) && name == "middle"
    {
        return None;
    }
    let near = nearest(name, ["left", "right"]);
    let said = name.split([' ', '&']).any(|word| SIDE_WORDS.contains(&word));
    let listed = names.iter().any(|other| is_side(&other.text));
    match near {
        Some(near) => Some(format!("did you mean `{near}`?")),
        None if said || listed || only_sides => {
            let far = if far_side(kind, Some(kinds::LANDING)) && kind.within.contains(&kinds::LANDING.name) {
                ", of a landing also `far`"
            } else {
                ""
            };
            Some(format!(
                "Sides are `left` and `right`{far}, seen going up; for both write `{} left, right {{ }}`.",
                kind.opens
            ))
        }
        None => None,
    }
}

/// Whether a thing of this kind may stand at the far side: only a landing has one.
pub(super) fn far_side(kind: &Kind, within: Option<&Kind>) -> bool {
    kind.is(Trait::FarSide) && within.is_some_and(|within| within == kinds::LANDING || within == kinds::STAIR)
}

/// Whether two blocks open in the same words.
pub(super) fn same_head(a: &Item, b: &Item) -> bool {
    match (a, b) {
        (Item::Block { head: a, .. }, Item::Block { head: b, .. }) => {
            a.iter().map(|term| &term.kind).eq(b.iter().map(|term| &term.kind))
        }
        _ => false,
    }
}

/// The property that a misspelt one was most likely meant for.
pub(super) fn meant(kind: &'static Kind, name: &str) -> Option<&'static Property> {
    kind.property(nearest(name, kind.properties.iter().map(|property| property.name))?)
}

/// The property whose name begins a line that lacks its colon.
pub(super) fn begun(kind: &'static Kind, terms: &[Term]) -> Option<&'static Property> {
    let words: Vec<String> = terms.iter().map_while(Term::word).map(str::to_lowercase).collect();
    (1..=words.len()).rev().find_map(|used| kind.property(&words.get(..used)?.join(" ")))
}

/// The words and texts of a head, in lower case.
pub(super) fn said(head: &[Term]) -> String {
    let words = head.iter().filter_map(|term| match &term.kind {
        TermKind::Word(word) | TermKind::Text(word) => Some(word.to_lowercase()),
        _ => None,
    });
    words.collect::<Vec<_>>().join(" ")
}

/// The kind that a head which could not be read was most likely meant to open.
pub(super) fn likely_kind(head: &[Term]) -> Option<&'static Kind> {
    let words: Vec<&str> = head.iter().map_while(Term::word).collect();
    let said =
        |many: usize| words.get(..many).map(|words| words.join(" ").to_lowercase()).filter(|said| !said.is_empty());
    let opens = || KINDS.iter().map(|kind| kind.opens);
    let near = [said(2), said(1)].into_iter().flatten().find_map(|said| nearest(&said, opens()))?;
    KINDS.iter().find(|kind| kind.opens == near)
}
