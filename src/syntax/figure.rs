//! Figures to measures.

use super::events::Events;
use super::grammar::Rule;
use super::problem::Impossible;
use super::tree::TermKind;
use crate::base::Day;
use crate::measure::{Dimension, INCH, Joint, Measure, Notation, Style, Unit};

/// Largest figure that is taken, in the unit it is written in and in base units.
const LARGEST_FIGURE: f64 = 1e9;

/// Largest number of digits alone that is taken, whatever stands below it.
const LARGEST_NUMBER: f64 = 1e15;

/// How a whole number of inches prints, and with a fraction what is made of it.
const WHOLE: Notation = Notation::Fraction(Joint::Hyphen);

type Read<T> = Result<T, Impossible>;

/// Reads the figure that is open and began at `start`, and closes it.
pub fn figure(events: &mut Events<'_>, start: usize) -> TermKind {
    let depth = events.depth();
    let kind = read(events, start).unwrap_or_else(TermKind::Impossible);
    events.end_at(depth);
    kind
}

/// Reads the number sign that is open, and closes it.
pub fn number_sign(events: &mut Events<'_>) -> TermKind {
    let depth = events.depth();
    let number = events.begin().and_then(|(_, start)| {
        events.end();
        events.since(start).parse().ok()
    });
    events.end_at(depth);
    number.map_or(TermKind::Impossible(Impossible::NumberTooGreat), TermKind::NumberSign)
}

/// The slope of a rise over a run, both lengths.
pub fn slope(rise: &Measure, run: &Measure) -> TermKind {
    if run.value == 0.0 {
        return TermKind::Impossible(Impossible::SlopeWithoutRun);
    }
    let value = rise.value / run.value;
    let style = if run.value == 12.0 * INCH { Style::PER_FOOT } else { Style::ONE_IN };
    TermKind::Figure(Measure { value, dimension: Dimension::NUMBER, style })
}

fn read(events: &mut Events<'_>, start: usize) -> Read<TermKind> {
    let (first, _) = events.begin().ok_or(Impossible::TooBig)?;
    if first == Rule::date {
        events.end();
        let date = events.since(start);
        return if Day::of(date).is_some() { Ok(TermKind::Date(date.into())) } else { Err(Impossible::NoSuchDay) };
    }
    let (value, notation) = amount(events, start)?;
    let digits = events.since(start);
    let Some((tail, at)) = events.begin() else { return plain(value) };
    match tail {
        Rule::foot | Rule::foot_word => feet(events, start, value),
        Rule::inch => measured(value, Style::INCHES.with(notation)),
        Rule::degree => measured(value, Style::DEGREES),
        Rule::percent => measured(value, Style::PERCENT),
        Rule::penny => digits.parse().map(TermKind::Penny).map_err(|_| Impossible::BrokenPenny),
        Rule::size => Ok(TermKind::Nominal(value, inner_amount(events)?)),
        Rule::in_run => {
            let run = inner_amount(events)?;
            if run == 0.0 {
                return Err(Impossible::SlopeWithoutRun);
            }
            Ok(TermKind::Figure(Measure { value: value / run, dimension: Dimension::NUMBER, style: Style::ONE_IN }))
        }
        Rule::unit => {
            events.end();
            let style =
                Unit::spelled(events.since(at).trim_end_matches('.')).map(Style::of).ok_or(Impossible::UnknownUnit)?;
            measured(value, if style == Style::INCHES { style.with(notation) } else { style })
        }
        _ => plain(value),
    }
}

/// What stands beside feet whose mark is open.
fn feet(events: &mut Events<'_>, start: usize, feet: f64) -> Read<TermKind> {
    events.end();
    let inches = match events.begin() {
        Some(_) => inner_amount(events)?,
        None => 0.0,
    };
    if inches >= 12.0 {
        return Err(Impossible::TwelveInches);
    }
    // `3' 6"` keeps its blank, `3'-6"` its hyphen.
    let whole = events.since(start);
    let blank = inches != 0.0 && !whole.contains("'-") && !whole.contains("′-") && !whole.contains("’-");
    measured(feet + inches / 12.0, Style::feet(if blank { Joint::Blank } else { Joint::Hyphen }))
}

/// The amount in the rule that is open, past what else stands there; closes that rule.
fn inner_amount(events: &mut Events<'_>) -> Read<f64> {
    let depth = events.depth();
    while let Some((rule, start)) = events.begin() {
        if rule == Rule::amount {
            let (value, _) = amount(events, start)?;
            events.end_at(depth);
            return Ok(value);
        }
        events.end();
    }
    Err(Impossible::TooBig)
}

/// The amount that is open and began at `start`, with the notation of inches that follow it; closes it.
fn amount(events: &mut Events<'_>, start: usize) -> Read<(f64, Notation)> {
    let depth = events.depth();
    let (first, _) = events.begin().ok_or(Impossible::TooBig)?;
    events.end();
    let digits = events.since(start);
    let Some((tail, at)) = events.begin() else {
        return Ok(match first {
            Rule::vulgar => (vulgar(digits), WHOLE),
            Rule::zero_comma => (number(&digits.replace(',', "."))?, Notation::Decimal),
            Rule::decimals => (number(digits)?, Notation::Decimal),
            _ => (number(digits)?, WHOLE),
        });
    };
    let part = match tail {
        Rule::below => inner_number(events).ok_or(Impossible::TooBig),
        Rule::fraction => fraction(events),
        _ => Ok(0.0),
    };
    events.end_at(depth);
    let whole = events.since(start);
    match tail {
        Rule::decimals => Ok((number(whole)?, Notation::Decimal)),
        Rule::continentals => Ok((number(&whole.replace(',', "."))?, Notation::Decimal)),
        Rule::below => over(number(digits)?, part?).map(|value| (value, WHOLE)),
        _ => {
            let part = if tail == Rule::vulgar { vulgar(whole.get(at - start..).unwrap_or("")) } else { part? };
            let blank = whole.contains([' ', '\t', '\u{A0}', '\u{2009}', '\u{202F}']);
            let value = number(digits)? + part;
            let joint = if blank { Joint::Blank } else { Joint::Hyphen };
            if part >= 1.0 { Err(Impossible::FractionOverOne) } else { Ok((value, Notation::Fraction(joint))) }
        }
    }
}

/// The fraction that is open: one number over another, or a sign of its own.
fn fraction(events: &mut Events<'_>) -> Read<f64> {
    let (_, start) = events.begin().ok_or(Impossible::TooBig)?;
    events.end();
    let top = events.since(start);
    let Some((_, at)) = events.begin() else { return Ok(vulgar(top)) };
    events.end();
    over(number(top)?, number(events.since(at))?)
}

/// The next number in the rule that is open.
fn inner_number(events: &mut Events<'_>) -> Option<f64> {
    let (_, start) = events.begin()?;
    events.end();
    number(events.since(start)).ok()
}

fn over(top: f64, bottom: f64) -> Read<f64> {
    if bottom == 0.0 { Err(Impossible::OverNothing) } else { Ok(top / bottom) }
}

/// Most digits of a whole number that are summed up here: an `f64` holds them exactly.
const EXACT_DIGITS: usize = 15;

fn number(text: &str) -> Read<f64> {
    if text.len() <= EXACT_DIGITS && !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit()) {
        return Ok(text.bytes().fold(0.0, |sum, digit| sum * 10.0 + f64::from(digit - b'0')));
    }
    // Digits without end are no number: an infinite one over another would be none at all.
    text.parse().ok().filter(|value| *value <= LARGEST_NUMBER).ok_or(Impossible::TooBig)
}

fn vulgar(text: &str) -> f64 {
    match text {
        "½" => 1.0 / 2.0,
        "¼" => 1.0 / 4.0,
        "¾" => 3.0 / 4.0,
        "⅛" => 1.0 / 8.0,
        "⅜" => 3.0 / 8.0,
        "⅝" => 5.0 / 8.0,
        "⅞" => 7.0 / 8.0,
        "⅓" => 1.0 / 3.0,
        "⅔" => 2.0 / 3.0,
        "⅙" => 1.0 / 6.0,
        "⅚" => 5.0 / 6.0,
        "⅕" => 1.0 / 5.0,
        "⅖" => 2.0 / 5.0,
        "⅗" => 3.0 / 5.0,
        _ => 4.0 / 5.0,
    }
}

fn plain(value: f64) -> Result<TermKind, Impossible> {
    if value > LARGEST_FIGURE { Err(Impossible::TooBig) } else { Ok(TermKind::Figure(Measure::number(value))) }
}

fn measured(value: f64, style: Style) -> Result<TermKind, Impossible> {
    let &Unit { scale, dimension, .. } = style.unit();
    let value = exact(value * scale, dimension);
    // A length over a kilometre is a slip, whatever it is of.
    let too_long = dimension == Dimension::LENGTH && value > 1e12;
    if too_long || value / scale > LARGEST_FIGURE {
        return Err(Impossible::TooBig);
    }
    Ok(TermKind::Figure(Measure { value, dimension, style }))
}

/// Snaps a length or an area to the whole nanometre it is a hair away from: 1.2 m is 1 200 000 000 nm, not one bit less.
fn exact(product: f64, dimension: Dimension) -> f64 {
    let whole = product.round();
    let counted = matches!(dimension, Dimension::LENGTH | Dimension::AREA);
    if counted && (product - whole).abs() < 1e-3 { whole } else { product }
}
