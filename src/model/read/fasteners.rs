//! Fasteners: how many, of what size, under which head, and how they are coated.

use super::{Read, Reader};
use crate::measure::{Dimension, Measure, Style};
use crate::model::fastenings::{self, Head, Said, heads, metric};
use crate::model::phrases::{PieceKind, longest, pieces, strange};
use crate::model::problem::{Table, ValueProblem};
use crate::model::sizes::{nail, screw};
use crate::model::value::Fasteners;
use crate::model::vocabulary::properties;
use crate::syntax::{Term, TermKind};

/// The size of a fastener, and the words left beside it.
struct Size<'t> {
    diameter: Measure,
    diameter_words: Option<&'t Term>,
    length: Option<Measure>,
    length_words: Option<&'t Term>,
    words: &'t [Term],
    /// The pennyweight of a nail, whose size hangs on its sort.
    penny: Option<(u32, &'t Term)>,
}

/// What the words beside a size say.
#[derive(Default)]
struct Beside {
    head: Option<&'static Head>,
    coating: Option<&'static str>,
}

impl Reader<'_> {
    pub(super) fn fasteners(&self, terms: &[Term]) -> Read<Fasteners> {
        let [count, of, size @ ..] = terms else { return self.wrong(terms) };
        if of.word() != Some("of") {
            return self.wrong(terms);
        }
        let count_words = count.span;
        let count = self.count(std::slice::from_ref(count))?.value;
        let size = self.fastener_size(size)?;
        let beside = self.beside_size(size.words)?;
        let property = self.property.handle();
        let Some(head) = beside.head.or_else(|| heads(property).next()) else { return self.wrong(terms) };
        let (diameter, length) = match size.penny {
            Some((penny, term)) => self.nail(penny, term, head)?,
            None => (size.diameter, size.length),
        };
        Ok(Fasteners {
            count,
            count_words,
            kind: head.kind,
            diameter,
            diameter_words: size.diameter_words.map(|term| term.span),
            length,
            length_words: size.length_words.map(|term| term.span),
            coating: beside.coating,
        })
    }

    /// `hex, galvanised`: one head, one coating, and nothing that is neither.
    fn beside_size(&self, terms: &[Term]) -> Read<Beside> {
        let pieces = pieces(terms);
        let mut rest = pieces.as_slice();
        let mut beside = Beside::default();
        let known: Vec<&str> = fastenings::phrases(self.property.handle()).map(|(phrase, _)| phrase).collect();
        while let Some(first) = rest.first() {
            if first.kind == PieceKind::Comma {
                rest = rest.get(1..).unwrap_or_default();
                if matches!(rest.first().map(|next| &next.kind), None | Some(PieceKind::Comma)) {
                    return self.refuse(first.span, ValueProblem::EmptyItem);
                }
                continue;
            }
            let Some((used, said)) = longest(rest, fastenings::phrases(self.property.handle())) else {
                return self.strange(&strange(rest, &known), Table::Fasteners(self.property.handle()));
            };
            let span = first.span.to(rest.get(used - 1).map_or(first.span, |last| last.span));
            let earlier = match said {
                Said::Head(head) => beside.head.replace(head).is_some(),
                Said::Coating(coating) => beside.coating.replace(coating).is_some(),
            };
            if earlier {
                return self.refuse(span, ValueProblem::SaidTwice);
            }
            rest = rest.get(used..).unwrap_or_default();
        }
        Ok(beside)
    }

    fn nail(&self, penny: u32, term: &Term, head: &'static Head) -> Read<(Measure, Option<Measure>)> {
        match nail(penny, head.name) {
            Some((length, diameter)) => {
                let diameter = Measure::inches(diameter).styled(Style::DECIMAL_INCHES);
                Ok((diameter, Some(Measure::inches(length))))
            }
            None => self.refuse(term.span, ValueProblem::NoSuchNail { kind: head.name.to_owned(), penny }),
        }
    }

    /// `3/8" x 6" carriage`, `No.10 x 3"`, `16d common`, `M10 x 120`: diameter, length, the words left.
    fn fastener_size<'t>(&self, terms: &'t [Term]) -> Read<Size<'t>> {
        let property = self.property.handle();
        let mut diameter_words = None;
        let (diameter, in_name, rest) = match terms {
            [term @ Term { kind: TermKind::Penny(penny), .. }, words @ ..] if property == properties::NAILS => {
                return Ok(Size {
                    diameter: Measure::inches(0.0),
                    diameter_words: None,
                    length: None,
                    length_words: None,
                    words,
                    penny: Some((*penny, term)),
                });
            }
            [Term { kind: TermKind::NumberSign(number), span }, rest @ ..] if property == properties::SCREWS => {
                match screw(*number) {
                    Some(diameter) => (Measure::inches(diameter).styled(Style::DECIMAL_INCHES), None, rest),
                    None => return self.refuse(*span, ValueProblem::NoSuchScrew { number: *number }),
                }
            }
            [Term { kind: TermKind::Word(word), span }, rest @ ..] if is_metric_name(word) => match metric(word) {
                Some((diameter, length)) => (diameter, length, rest),
                None => return self.refuse(*span, ValueProblem::NoSuchThread),
            },
            [Term { kind: TermKind::Figure(measure), span }, ..]
                if property == properties::SCREWS
                    && measure.dimension == Dimension::NUMBER
                    && measure.style == Style::NUMBER =>
            {
                return self.refuse(*span, ValueProblem::ScrewWithoutUnit);
            }
            [diameter, rest @ ..] => {
                diameter_words = Some(diameter);
                (self.figure(diameter, Dimension::LENGTH)?, None, rest)
            }
            [] => return self.wrong(terms),
        };
        let metric = diameter.style.is_metric();
        match rest {
            [by, length, words @ ..] if by.kind == TermKind::By && in_name.is_none() => {
                let measure = match length.kind {
                    // Of a metric thread the length is in millimetres, written or not.
                    TermKind::Figure(bare) if bare.style == Style::NUMBER && metric => Measure::millimetres(bare.value),
                    _ => self.figure(length, Dimension::LENGTH)?,
                };
                let length_words = Some(length);
                Ok(Size { diameter, diameter_words, length: Some(measure), length_words, words, penny: None })
            }
            words => Ok(Size { diameter, diameter_words, length: in_name, length_words: None, words, penny: None }),
        }
    }
}

/// Whether a word is written as a metric thread is.
fn is_metric_name(word: &str) -> bool {
    word.strip_prefix(['M', 'm']).is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
}
