//! Values in words: every word is one of a closed table, or the value is not understood.

use super::{Read, Reader, span_of};
use crate::base::Span;
use crate::base::names::{nearest, single_blanks};
use crate::measure::Dimension;
use crate::model::finishes::{self, Finish, FinishWord, Laid};
use crate::model::phrases::{Piece, PieceKind, Strange, denies, longest, pieces, says, strange};
use crate::model::problem::{Table, ValueProblem};
use crate::model::timbers::{self, Grade, Lasts, Said, Treatment};
use crate::model::value::{Timber, Value};
use crate::syntax::{Term, TermKind};

/// What the words of a timber say so far.
#[derive(Default)]
struct TimberSaid {
    species: Option<String>,
    grade: Option<&'static Grade>,
    treatments: Vec<&'static Treatment>,
}

impl Reader<'_> {
    /// One of the words that a property takes, and nothing beside it.
    pub(super) fn one_of(&self, terms: &[Term], words: &'static [&'static str]) -> Read<&'static str> {
        let pieces = pieces(terms);
        let whole = |word: &&&str| says(&pieces, word) == Some(pieces.len());
        if let Some(word) = words.iter().find(whole) {
            return Ok(word);
        }
        // The same words in another order say the same: `tempered laminated`.
        let sorted = |said: &str| {
            let mut said: Vec<String> = said.split([' ', '-']).map(str::to_lowercase).collect();
            said.sort_unstable();
            said
        };
        let span = span_of(terms).unwrap_or(self.span);
        let said = sorted(&single_blanks(self.source.slice(span)));
        if let Some(word) = words.iter().find(|word| said.len() > 1 && sorted(word) == said) {
            return Ok(word);
        }
        if let Some(denial) = self.denial(&pieces, words) {
            return self.refuse(denial, ValueProblem::Denied { table: Table::Words(words) });
        }
        let said = self.source.slice(span).to_lowercase();
        let near = nearest(&said, words.iter().copied());
        self.refuse(span, ValueProblem::UnknownWord { known: words, near })
    }

    /// Several of the words that a property takes, each once, with commas between or `and`.
    pub(super) fn some_of(&self, terms: &[Term], words: &'static [&'static str]) -> Read<Value> {
        let mut said: Vec<&'static str> = Vec::new();
        for part in terms.split(|term| term.kind == TermKind::Comma || term.word() == Some("and")) {
            let word = self.one_of(part, words)?;
            let span = span_of(part).unwrap_or(self.span);
            if said.contains(&word) {
                return self.refuse(span, ValueProblem::SaidTwice);
            }
            // `none` stands alone.
            if let Some(first) = said.first().filter(|first| **first == "none" || word == "none") {
                return self.refuse(span, ValueProblem::Contradicts { first: (*first).to_owned() });
            }
            said.push(word);
        }
        Ok(Value::Words(said))
    }

    fn denial(&self, pieces: &[Piece], words: &[&str]) -> Option<Span> {
        let denying = |piece: &&Piece| matches!(&piece.kind, PieceKind::Word(word) if denies(word, words));
        // `no` and `none` deny nothing where they are what the property takes.
        let taken = |piece: &&Piece| words.iter().any(|word| says(std::slice::from_ref(piece), word) == Some(1));
        pieces.iter().find(|piece| denying(piece) && (!taken(piece) || pieces.len() > 1)).map(|piece| piece.span)
    }

    /// Refuses a word that begins no phrase of a table.
    pub(super) fn strange<T>(&self, strange: &Strange, table: Table) -> Read<T> {
        let slip = match strange.denies {
            true => ValueProblem::Denied { table },
            false => ValueProblem::StrangeWord { table, near: strange.near.clone() },
        };
        self.refuse(strange.span, slip)
    }

    /// Species, grade and treatment in any order, each word understood.
    pub(super) fn timber(&self, terms: &[Term]) -> Read<Timber> {
        let pieces = pieces(terms);
        let mut said = TimberSaid::default();
        let mut at = 0;
        while let Some(rest) = pieces.get(at..).filter(|rest| !rest.is_empty()) {
            at += match rest {
                [Piece { kind: PieceKind::Comma, span }, rest @ ..] => {
                    if at == 0 || matches!(rest.first().map(|next| &next.kind), None | Some(PieceKind::Comma)) {
                        return self.refuse(*span, ValueProblem::EmptyItem);
                    }
                    1
                }
                rest => self.of_timber(rest, &mut said)?,
            };
        }
        match said.species {
            Some(species) => Ok(Timber { species, grade: said.grade, treatments: said.treatments }),
            None => self.refuse(span_of(terms).unwrap_or(self.span), ValueProblem::NoSpecies),
        }
    }

    /// The phrase at the start of `rest`; how many pieces it takes.
    fn of_timber(&self, rest: &[Piece], timber: &mut TimberSaid) -> Read<usize> {
        let own = longest(rest, self.own.timbers.iter().map(|name| (name.as_str(), name)));
        let of_trade = timbers::INDEX.longest(rest);
        let span = |used: usize| {
            let (first, last) = (rest.first(), rest.get(used.saturating_sub(1)));
            first.zip(last).map_or(self.span, |(first, last)| first.span.to(last.span))
        };
        let twice = |used| self.refuse(span(used), ValueProblem::SaidTwice);
        match (own, of_trade) {
            (Some((used, name)), trade) if trade.is_none_or(|(longer, _)| used >= longer) => {
                match timber.species.replace(name.to_lowercase()) {
                    Some(_) => twice(used),
                    None => Ok(used),
                }
            }
            (_, Some((used, Said::Species(species)))) => match timber.species.replace(species.name.to_owned()) {
                Some(_) => twice(used),
                None => Ok(used),
            },
            (_, Some((used, Said::Grade(grade)))) => match timber.grade.replace(grade) {
                Some(_) => twice(used),
                None => Ok(used),
            },
            (_, Some((used, Said::Treatment(treatment)))) => {
                let against = |lasts: Lasts| match lasts {
                    Lasts::Preserved => Lasts::Unpreserved,
                    Lasts::Unpreserved => Lasts::Preserved,
                    Lasts::AsBefore => Lasts::AsBefore,
                };
                if timber.treatments.contains(&treatment) {
                    return twice(used);
                }
                let denied = timber
                    .treatments
                    .iter()
                    .find(|first| first.lasts != Lasts::AsBefore && first.lasts == against(treatment.lasts));
                if let Some(first) = denied {
                    return self.refuse(span(used), ValueProblem::Contradicts { first: first.name.to_owned() });
                }
                timber.treatments.push(treatment);
                Ok(used)
            }
            (_, None) => {
                let known: Vec<&str> = timbers::phrases().map(|(phrase, _)| phrase).collect();
                let known: Vec<&str> = self.own.timbers.iter().map(String::as_str).chain(known).collect();
                self.strange(&strange(rest, &known), Table::Timbers)
            }
        }
    }

    /// The parts of a finish, with commas between, `and` or `with`; behind a strip its length.
    pub(super) fn finish(&self, terms: &[Term]) -> Read<Finish> {
        let pieces = pieces(terms);
        let mut finish = Finish { parts: Vec::new(), strip: None };
        let mut at = 0;
        while let Some(rest) = pieces.get(at..) {
            let Some(first) = rest.first() else { return self.refuse(self.span, ValueProblem::EmptyItem) };
            let Some((used, part)) = finishes::INDEX.longest(rest) else {
                let known: Vec<&str> = finishes::phrases().map(|(phrase, _)| phrase).collect();
                return self.strange(&strange(rest, &known), Table::Finishes);
            };
            let span = first.span.to(rest.get(used - 1).map_or(first.span, |last| last.span));
            self.part_of_finish(part, span, &mut finish)?;
            at += used;
            if let Some(Piece { kind: PieceKind::Figure(length), span }) = pieces.get(at) {
                if part.laid != Laid::Strip || length.dimension != Dimension::LENGTH {
                    return self.refuse(*span, ValueProblem::NoStrip);
                }
                finish.strip = Some(*length);
                at += 1;
            }
            match pieces.get(at) {
                None => break,
                Some(next) if next.kind == PieceKind::Comma || joins(next) => at += 1,
                Some(_) => {
                    let known: Vec<&str> = finishes::phrases().map(|(phrase, _)| phrase).collect();
                    let rest = pieces.get(at..).unwrap_or_default();
                    return self.strange(&strange(rest, &known), Table::Finishes);
                }
            }
        }
        Ok(finish)
    }

    fn part_of_finish(&self, part: &'static FinishWord, span: Span, finish: &mut Finish) -> Read<()> {
        if finish.parts.contains(&part) || part.laid == Laid::Strip && finish.has_strip() {
            return self.refuse(span, ValueProblem::SaidTwice);
        }
        if let Some(first) = finish.parts.iter().find(|first| first.contradicts(part)) {
            return self.refuse(span, ValueProblem::Contradicts { first: first.name.to_owned() });
        }
        finish.parts.push(part);
        Ok(())
    }
}

/// Whether a piece joins two parts of a finish.
fn joins(piece: &Piece) -> bool {
    matches!(&piece.kind, PieceKind::Word(word) if word == "and" || word == "with")
}
