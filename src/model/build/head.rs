//! The head of a block: which kind it opens, under which names, and what a misspelt one was meant for.

use super::Builder;
use crate::base::names::{near, nearest};
use crate::base::{Span, limits, work};
use crate::model::design::Side;
use crate::model::kind::{FILE, Kind, Property, Trait};
use crate::model::problem::HeadProblem;
use crate::model::vocabulary::{KINDS, kinds};
use crate::syntax::{Item, Term, TermKind};

/// Words that a side, or a place between the sides, is meant by; only `left` and `right` name a side of every thing.
const SIDE_WORDS: [&str; 9] = ["left", "right", "both", "sides", "far", "near", "middle", "centre", "center"];

/// A name in a block's head.
#[derive(Debug, Clone)]
pub(super) struct HeadName {
    pub(super) text: String,
    /// The side before a name in quotes: `guard left "upper"`.
    pub(super) side: Option<Side>,
    pub(super) span: Span,
}

impl Builder<'_> {
    /// Kind and names of the head of a block of what was measured: there a thing may be named without the place that it stands in.
    pub(super) fn head_of_measured(
        &mut self,
        head: &[Term],
        span: Span,
        within: &'static str,
    ) -> Option<(&'static Kind, Vec<HeadName>)> {
        let opened = opened(&leading_words(head)).filter(|_| within == kinds::STAIR.name);
        let place = opened.and_then(|(kind, _)| {
            let measured = kind != kinds::WAIVER && kind.is_drawn() && !kind.within.contains(&within);
            kind.within.first().filter(|_| measured)
        });
        self.head(head, span, place.copied().unwrap_or(within))
    }

    /// Kind and names of a block's head; if it opens nothing here, that is reported.
    pub(super) fn head(
        &mut self,
        head: &[Term],
        span: Span,
        within: &'static str,
    ) -> Option<(&'static Kind, Vec<HeadName>)> {
        let words = leading_words(head);
        let Some((kind, used)) = opened(&words) else {
            self.unknown_kind(head, &words, span, within);
            return None;
        };
        if !kind.within.contains(&within) {
            let made = kind.made_from.is_some() && !kind.is_drawn();
            self.push(span, if made { HeadProblem::RiserDrawn } else { HeadProblem::WrongPlace { kind, within } });
            return None;
        }
        let mut names = Vec::new();
        for part in head.get(used..).unwrap_or_default().split(|term| term.kind == TermKind::Comma) {
            let Some((first, last)) = part.first().zip(part.last()) else { continue };
            let place = first.span.to(last.span);
            let side = match part {
                [side, Term { kind: TermKind::Text(_), .. }] if kind.is(Trait::Sided) => side_of(side),
                _ => None,
            };
            let text = match part {
                [.., Term { kind: TermKind::Text(text), .. }] if part.len() == 1 || side.is_some() => text.to_string(),
                _ if part.iter().all(|term| term.word().is_some()) => {
                    let name = part.iter().filter_map(Term::word).map(str::to_lowercase).collect::<Vec<_>>().join(" ");
                    if KINDS.iter().any(|kind| kind.name == name || kind.opens == name) && kind != kinds::MEMBER {
                        self.push(place, HeadProblem::KindAsName { name: name.clone(), kind });
                    }
                    name
                }
                _ => String::new(),
            };
            // A thing of no name that could be read stays, so that it is not taken for one that needs none.
            if text.is_empty() {
                self.push(place, HeadProblem::NoName);
            }
            names.push(HeadName { text, side, span: place });
        }
        Some((kind, names))
    }

    fn unknown_kind(&mut self, head: &[Term], words: &[String], span: Span, within: &'static str) {
        let (Some(word), Some(first)) = (words.first(), head.first()) else {
            return self.push(span, HeadProblem::NoKind);
        };
        let here = || KINDS.iter().filter(|kind| kind.within.contains(&within)).map(|kind| kind.opens);
        let two = words.get(..2).map(|two| two.join(" ")).unwrap_or_default();
        let near = nearest(word, here()).or_else(|| nearest(&two, here()));
        self.push(first.span, HeadProblem::UnknownKind { word: word.clone(), near, within });
    }
}

/// The side that a word names.
fn side_of(term: &Term) -> Option<Side> {
    let word = term.word()?;
    [Side::Left, Side::Right, Side::Far, Side::Near].into_iter().find(|side| side.word() == word)
}

/// The words that a head begins with, in lower case, as many as any name of ours has.
pub(super) fn leading_words(head: &[Term]) -> Vec<String> {
    head.iter().map_while(Term::word).take(limits::NAME_WORDS).map(str::to_lowercase).collect()
}

/// The kind that these words open, the longest that there is, and how many of them it takes.
fn opened(words: &[String]) -> Option<(&'static Kind, usize)> {
    let first = words.first()?;
    (1..=words.len()).rev().find_map(|used| {
        // What is never drawn has no name: `riser bord` is a slip in another kind.
        let sound = |kind: &Kind| kind.is_drawn() || words.len() == used;
        let said = |kind: &Kind| {
            // The first word rules out almost all of them.
            kind.opens.starts_with(first.as_str())
                && kind.opens.split(' ').eq(words.iter().take(used).map(String::as_str))
        };
        KINDS.iter().find(|kind| said(kind) && sound(kind)).map(|kind| (kind, used))
    })
}

/// Whether the first word of a head opens, by itself, something that is neither a section nor a timber of the user's own.
pub(super) fn draws(head: &[Term]) -> bool {
    let opens = head.first().and_then(Term::word).unwrap_or_default();
    KINDS.iter().any(|kind| kind.opens == opens && *kind != *kinds::SECTION && *kind != *kinds::TIMBER)
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

/// The sides at which a thing of this kind may stand there.
pub(super) fn sides(kind: &Kind, within: Option<&Kind>) -> &'static [&'static str] {
    if far_side(kind, within) { &["left", "right", "near", "far"] } else { &["left", "right"] }
}

/// Whether a name was meant for one of these sides and is none. A wall and the ground have sides and no names.
pub(super) fn is_no_side(kind: &Kind, name: &str, names: &[HeadName], sides: &[&'static str]) -> bool {
    let is_side = |name: &str| matches!(name, "left" | "right");
    let only_sides = kind.is(Trait::SidesOnly);
    if !kind.is(Trait::Sided) || is_side(name)
        // Between the sides of a wide flight.
        || kind.is(Trait::Middle) && name == "middle"
    {
        return false;
    }
    let of_sides = name.split([' ', '&']).any(|word| SIDE_WORDS.contains(&word));
    let listed = names.iter().any(|other| is_side(&other.text));
    of_sides || listed || only_sides || nearest(name, sides.iter().copied()).is_some()
}

/// Whether a thing of this kind may stand at the far side or the near one: only a floor has them.
pub(super) fn far_side(kind: &Kind, within: Option<&Kind>) -> bool {
    let has_one = |within: &Kind| [kinds::LANDING, kinds::WELL, kinds::STAIR].contains(&within);
    kind.is(Trait::FarSide) && within.is_some_and(has_one)
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

/// The kinds that a block may be of whose head was not understood: those that its words are near to, all of them; where
/// they are near to none, those that may stand there and have every property it states, and what may only carry others,
/// such as a flight, where it states any. What it stands in may be anything too, where nothing is said of that.
pub(super) fn possible_kinds(head: &[Term], within: Option<&str>, body: &[Item]) -> Vec<&'static Kind> {
    let likely = likely_kinds(head);
    if !likely.is_empty() {
        return likely;
    }
    let is_known = |name: &str| KINDS.iter().any(|kind| kind.property(name).is_some());
    let named = |kind: &Kind| {
        body.iter().all(|item| match item {
            // A property of no kind at all says nothing of which it is.
            Item::Property { name, .. } => kind.property(name).is_some() || !is_known(name),
            _ => true,
        })
    };
    let states_any = body.iter().any(|item| matches!(item, Item::Property { .. }));
    let here = |kind: &Kind| {
        let stocked = kind.is(Trait::Stocked);
        within.is_none_or(|within| kind.within.contains(&within))
            && (states_any || !kind.is(Trait::Place))
            && (!stocked || within == Some(FILE))
    };
    KINDS.iter().filter(|kind| here(kind) && named(kind)).collect()
}

/// The kinds of the things that are drawn inside of a block that is not drawn itself.
pub(super) fn drawn_within(body: &[Item]) -> Vec<&'static Kind> {
    let drawn = |item: &Item| match item {
        Item::Block { head, body, .. } => possible_kinds(head, None, body),
        _ => Vec::new(),
    };
    body.iter().flat_map(drawn).collect()
}

/// The property that a misspelt one was most likely meant for.
pub(super) fn meant(kind: &'static Kind, name: &str) -> Option<&'static Property> {
    kind.property(nearest(name, kind.properties.iter().map(|property| property.name))?)
}

/// Whether a property belongs to a kind that is drawn inside, or is one itself.
pub(super) fn belongs_inside(kind: &Kind, name: &str) -> bool {
    let mut inside = KINDS.iter().filter(|other| other.within.contains(&kind.name));
    inside.any(|other| other.opens == name || other.property(name).is_some())
}

/// The property whose name begins a line that lacks its colon.
pub(super) fn begun(kind: &'static Kind, terms: &[Term]) -> Option<&'static Property> {
    let words = leading_words(terms);
    (1..=words.len()).rev().find_map(|used| {
        work::done(used);
        kind.property(&words.get(..used)?.join(" "))
    })
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
    let words: Vec<&str> = head.iter().map_while(Term::word).take(2).collect();
    let said =
        |many: usize| words.get(..many).map(|words| words.join(" ").to_lowercase()).filter(|said| !said.is_empty());
    let opens = || KINDS.iter().map(|kind| kind.opens);
    let near = [said(2), said(1)].into_iter().flatten().find_map(|said| nearest(&said, opens()))?;
    KINDS.iter().find(|kind| kind.opens == near)
}

/// The kinds whose words stand in a text before a brace that opens.
pub(super) fn kinds_in(text: &str) -> impl Iterator<Item = &'static Kind> {
    let heads: Vec<String> = text.split('{').map(str::to_lowercase).collect();
    let before_a_brace = heads.len() - 1;
    let opens = move |kind: &Kind| {
        heads.iter().take(before_a_brace).any(|head| {
            let head = head.rsplit([';', '}']).next().unwrap_or_default().trim();
            head.strip_prefix(kind.opens).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
        })
    };
    KINDS.iter().filter(move |kind| opens(kind))
}

/// Every kind that a head may have been meant to open: the one that it opens, or all those that its words are near to.
pub(super) fn likely_kinds(head: &[Term]) -> Vec<&'static Kind> {
    let words = leading_words(head);
    if let Some((kind, _)) = opened(&words) {
        return vec![kind];
    }
    let said = (1..=words.len().min(2)).filter_map(|many| words.get(..many)).map(|words| words.join(" "));
    let near: Vec<&str> =
        said.flat_map(|said| near(&said, KINDS.iter().map(|kind| kind.opens))).map(|(_, opens)| opens).collect();
    // What is never drawn was meant only where nothing is nearer.
    let nearest = likely_kind(head);
    let meant = |kind: &&'static Kind| kind.is_drawn() && near.contains(&kind.opens) || nearest == Some(*kind);
    KINDS.iter().filter(meant).collect()
}

/// The names of the timbers that a head defines, or was most likely meant to define.
pub(super) fn timbers_defined(head: &[Term]) -> Vec<String> {
    let [first, names @ ..] = head else { return Vec::new() };
    let opens = kinds::TIMBER.opens;
    let is_slip = || nearest(first.word().unwrap_or_default(), [opens]).is_some();
    if first.word() != Some(opens) && !(is_slip() && opened(&leading_words(head)).is_none()) {
        return Vec::new();
    }
    names.split(|term| term.kind == TermKind::Comma).map(said).filter(|name| !name.is_empty()).collect()
}
