//! A finding in the sentence of its rule, with the figures put in.

use super::finding_words::{asked, join, miss, who};
use super::phrase;
use crate::check::{Role, RuleFinding, Said, SaidPiece};
use crate::derive::Datum;
use crate::measure::{Dimension, Measure, print, print_distinct};
use crate::rules::{Compared, Decision, Own, Shown};

/// Whether a sentence begins with the thing that it is about.
pub(super) fn names_its_thing(said: &Said) -> bool {
    matches!(said.pieces.first(), Some(SaidPiece::Own(Own::Element, _)))
}

/// The sentence; nothing where something that it puts in is not there.
pub(super) fn sentence(finding: &RuleFinding, decision: &Decision, said: &Said) -> Option<String> {
    let mut told = String::from(": ");
    for piece in &said.pieces {
        told += &match piece {
            SaidPiece::Text(text) => text.clone(),
            SaidPiece::Own(own, shown) => put(finding, decision, *own, shown)?,
            SaidPiece::Value(Datum::Measure(measure), shown) => {
                number(in_the_style_of(decision, *measure), shown, None)
            }
            SaidPiece::Value(datum, _) => datum.to_string(),
        };
    }
    Some(told)
}

/// A value as the finding's own is written, where the two are of one sort.
fn in_the_style_of(decision: &Decision, measure: Measure) -> Measure {
    match &decision.compared {
        Compared::Numbers(value, ..) if value.dimension == measure.dimension => measure.styled(value.style),
        _ => measure.styled(measure.style.for_dimension(measure.dimension)),
    }
}

fn put(finding: &RuleFinding, decision: &Decision, own: Own, shown: &Shown) -> Option<String> {
    match own {
        Own::Element => return Some(who(finding)),
        Own::Verb => return Some(if finding.rule.rule().shall { "shall" } else { "should" }.to_owned()),
        Own::Words => {
            let place = finding.places.first().filter(|place| matches!(place.role, Role::Stated { .. }))?;
            return Some(finding.source.slice(place.span).to_owned());
        }
        Own::Value | Own::Limit | Own::Asked | Own::Miss => {}
    }
    match &decision.compared {
        Compared::Numbers(value, relation, limit) => {
            let value = value.styled(value.style.for_dimension(value.dimension));
            let (has, be) = apart(value, *limit, shown);
            Some(match own {
                Own::Value => number(value, shown, Some(has)),
                Own::Limit => number(limit.styled(value.style), shown, Some(be)),
                Own::Miss => miss(value, *relation, *limit),
                _ => match shown {
                    Shown::Percent => join(phrase::relation_words(*relation), &be),
                    _ => asked(*relation, *limit, &number(limit.styled(value.style), shown, Some(be))),
                },
            })
        }
        Compared::Words(word, not, words) => match own {
            Own::Value => Some(word.clone()),
            Own::Limit | Own::Asked => Some(format!("{}{}", if *not { "not " } else { "" }, words.join(" or "))),
            _ => None,
        },
        Compared::Denied => None,
    }
}

/// A value and its limit, written so that they can be told apart.
fn apart(value: Measure, limit: Measure, shown: &Shown) -> (String, String) {
    match shown {
        Shown::Percent => percents(value.value, limit.value),
        Shown::Plain | Shown::Counted(..) => print_distinct(value, limit, value.style),
    }
}

/// A number as it is shown; `written` where it is to be told apart from another.
fn number(measure: Measure, shown: &Shown, written: Option<String>) -> String {
    let written = written.unwrap_or_else(|| match shown {
        Shown::Percent => percents(measure.value, f64::NAN).0,
        Shown::Plain | Shown::Counted(..) => print(measure),
    });
    let Shown::Counted(one, several) = shown else { return written };
    let whole = measure.dimension == Dimension::NUMBER;
    match measure.value {
        0.0 if whole => format!("no {one}"),
        1.0 if whole => format!("{written} {one}"),
        _ => format!("{written} {several}"),
    }
}

/// Two shares in hundredths, with as many figures as tell them apart.
fn percents(value: f64, limit: f64) -> (String, String) {
    let said = |share: f64, figures: usize| format!("{:.figures$} %", 100.0 * share);
    let apart = (0..4).find(|figures| said(value, *figures) != said(limit, *figures)).unwrap_or(4);
    let bound = said(limit, apart);
    let bound = if apart > 0 && said(limit, 0).trim_end_matches(" %").parse() == Ok(100.0 * limit) {
        said(limit, 0)
    } else {
        bound
    };
    (said(value, apart), bound)
}

#[cfg(test)]
mod tests {
    use super::percents;

    #[test]
    fn a_miss_never_reads_as_its_limit() {
        for (value, limit, has, bound) in [
            (0.855, 0.9, "86 %", "90 %"),
            (0.8996, 0.9, "89.96 %", "90 %"),
            (1.0004, 1.0, "100.04 %", "100 %"),
            (0.583, 0.65, "58 %", "65 %"),
        ] {
            assert_eq!(percents(value, limit), (has.to_owned(), bound.to_owned()));
        }
    }
}
