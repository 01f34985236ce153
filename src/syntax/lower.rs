//! Pairs to tree.

use pest::iterators::{Pair, Pairs};

use super::grammar::Rule;
use super::problem::{Impossible, Problem};
use super::tree::{Fragment, FragmentKind, Item, Term, TermKind};
use crate::base::{Diagnostic, Reporter, Source, Span};
use crate::measure::{Dimension, INCH, Measure, Style};

/// Shared state of one lowering: where the text stands in its source, and what was found.
struct Lower<'a> {
    report: Reporter<'a, Problem>,
    offset: u32,
}

/// Lowers the pairs of a whole text that starts at `offset` of `source`.
pub fn items(pairs: Pairs<'_, Rule>, source: &Source, offset: u32, found: &mut Vec<Diagnostic<Problem>>) -> Vec<Item> {
    let mut lower = Lower { report: Reporter { source, found }, offset };
    pairs.flat_map(Pair::into_inner).filter_map(|pair| lower.item(pair)).collect()
}

/// Lowers one figure of a clause.
pub fn figure_in_clause(pair: Pair<'_, Rule>, offset: u32) -> Term {
    let span = span_at(&pair, offset);
    Term { kind: figure(pair), span }
}

/// Span of a pair in its source.
pub fn span_at(pair: &Pair<'_, Rule>, offset: u32) -> Span {
    let span = pair.as_span();
    Span::new(offset as usize + span.start(), offset as usize + span.end())
}

impl Lower<'_> {
    fn span(&self, pair: &Pair<'_, Rule>) -> Span {
        span_at(pair, self.offset)
    }

    fn item(&mut self, pair: Pair<'_, Rule>) -> Option<Item> {
        let span = self.span(&pair);
        match pair.as_rule() {
            Rule::statement | Rule::rule_statement => self.statement(pair),
            Rule::raw_clause => {
                let length = pair.as_str().trim_end().len();
                Some(Item::Clause(Span::new(span.start as usize, span.start as usize + length)))
            }
            Rule::raw_condition => {
                let mut parts = pair.into_inner();
                let word = self.span(&parts.next()?);
                let text = parts.find(|part| part.as_rule() == Rule::condition_text)?;
                let start = self.span(&text).start as usize;
                Some(Item::Condition(word, Span::new(start, start + text.as_str().trim_end().len())))
            }
            Rule::fragment => self.fragment(pair),
            Rule::stray_close => {
                self.report.push(span, Problem::StrayBrace);
                None
            }
            _ => None,
        }
    }

    fn fragment(&mut self, pair: Pair<'_, Rule>) -> Option<Item> {
        let mut inner = pair.into_inner();
        let kind = match inner.next()?.as_str() {
            "passes" => FragmentKind::Passes,
            "fails" => FragmentKind::Fails,
            _ => FragmentKind::Spares,
        };
        let text = inner.find(|pair| pair.as_rule() == Rule::fragment_text)?;
        let start = self.span(&text).start as usize;
        let span = Span::new(start, start + text.as_str().trim_end().len());
        Some(Item::Fragment(Fragment { kind, span }))
    }

    fn statement(&mut self, pair: Pair<'_, Rule>) -> Option<Item> {
        let whole = self.span(&pair);
        let (mut head, mut colon, mut value, mut body) = (None, None, None, None);
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::head => head = Some(part),
                Rule::colon => colon = Some(self.span(&part)),
                Rule::value => value = Some(part),
                Rule::body | Rule::rule_body => body = Some(part),
                Rule::too_deep => {
                    let span = Span::new(whole.start as usize, whole.start as usize + 1);
                    self.report.push(span, Problem::NestedTooDeep);
                    return None;
                }
                _ => {}
            }
        }
        let head_span = head.as_ref().map(|pair| self.span(pair));
        let before = self.report.found.len();
        let head = head.map(|pair| self.terms(pair)).unwrap_or_default();
        match (colon, body) {
            (colon, Some(body)) => {
                let head_span = head_span.unwrap_or(Span::new(whole.start as usize, whole.start as usize + 1));
                if let Some(colon) = colon {
                    self.report.push(colon, Problem::ColonBeforeBrace);
                }
                Some(Item::Block { head, head_span, body: self.body(body), damaged: colon.is_some() })
            }
            (Some(colon), None) => {
                let value_span =
                    value.as_ref().map_or(Span::new(colon.end as usize, colon.end as usize), |pair| self.span(pair));
                let value = value.map(|pair| self.terms(pair)).unwrap_or_default();
                self.subtraction(&value);
                self.tight_list(&value);
                let name_span = head_span.unwrap_or(colon);
                if head.is_empty() || !head.iter().all(|term| term.word().is_some()) {
                    if self.report.found.len() == before {
                        self.report.push(name_span, Problem::NoName);
                    }
                    return None;
                }
                let name = words(&head);
                let damaged = self.report.found.len() > before;
                Some(Item::Property { name, name_span, value, value_span, damaged })
            }
            (None, None) => {
                let damaged = self.report.found.len() > before;
                (!damaged).then_some(Item::Malformed { terms: head, span: head_span.unwrap_or(whole) })
            }
        }
    }

    fn body(&mut self, pair: Pair<'_, Rule>) -> Vec<Item> {
        let mut items = Vec::new();
        let mut open = Span::default();
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::open => open = self.span(&part),
                Rule::unclosed => {
                    let taken_by = items.iter().rev().find_map(|item| self.left_open(item));
                    self.report.push(open, Problem::UnclosedBrace { taken_by });
                }
                _ => items.extend(self.item(part)),
            }
        }
        items
    }

    /// The brace that a fragment leaves open on its first line, where it runs on over further lines.
    fn left_open(&self, item: &Item) -> Option<Span> {
        let Item::Fragment(fragment) = item else { return None };
        let (line, _) = self.report.source.slice(fragment.span).split_once('\n')?;
        let mut open = Vec::new();
        for (at, sign) in line.char_indices() {
            match sign {
                '{' => open.push(at),
                '}' => drop(open.pop()),
                _ => {}
            }
        }
        let at = fragment.span.start as usize + open.pop()?;
        Some(Span::new(at, at + 1))
    }

    fn terms(&mut self, pair: Pair<'_, Rule>) -> Vec<Term> {
        let mut terms: Vec<Term> = Vec::new();
        // A list that runs on over a line end may carry a comment.
        for part in pair.into_inner().filter(|part| part.as_rule() != Rule::comment) {
            let span = self.span(&part);
            let kind = match part.as_rule() {
                Rule::figure => figure(part),
                Rule::number_sign => number_sign(part),
                Rule::by => TermKind::By,
                Rule::word => TermKind::Word(part.as_str().to_owned()),
                Rule::text => TermKind::Text(unquote(part)),
                Rule::comma => TermKind::Comma,
                Rule::dash => TermKind::Dash,
                Rule::stray_colon => TermKind::Colon,
                Rule::open_text => {
                    let quote = part.as_str().chars().next().map_or(1, char::len_utf8);
                    let span = Span::new(span.start as usize, span.start as usize + quote);
                    self.report.push(span, Problem::UnclosedQuote);
                    TermKind::Odd
                }
                _ => TermKind::Odd,
            };
            terms.push(Term { kind, span });
        }
        per(terms)
    }

    /// `3' - 6"` and `7 - 3/8"`: one dimension or a sum? The writer has to say.
    fn subtraction(&mut self, value: &[Term]) {
        for window in value.windows(3) {
            let [a, dash, b] = window else { continue };
            let (TermKind::Figure(_), TermKind::Dash, TermKind::Figure(_)) = (&a.kind, &dash.kind, &b.kind) else {
                continue;
            };
            self.report.push(a.span.to(b.span), Problem::UnclearSubtraction { left: a.span, right: b.span });
        }
    }

    /// `190,194,190 mm`: a list, or a decimal comma?
    fn tight_list(&mut self, value: &[Term]) {
        let unclear = value.windows(3).find(|window| match window {
            [a, comma, b] => {
                matches!(&a.kind, TermKind::Figure(m) if m.dimension == Dimension::NUMBER && m.style == Style::Number)
                    && comma.kind == TermKind::Comma
                    && matches!(b.kind, TermKind::Figure(_))
                    && a.span.end == comma.span.start
                    && comma.span.end == b.span.start
            }
            _ => false,
        });
        if let Some([a, _, b]) = unclear {
            self.report.push(a.span.to(b.span), Problem::UnclearList);
        }
    }
}

/// The words of a head in lower case with single blanks.
fn words(terms: &[Term]) -> String {
    let words: Vec<String> = terms.iter().filter_map(Term::word).map(str::to_lowercase).collect();
    words.join(" ")
}

/// `1/4" per 12"` is one slope.
fn per(terms: Vec<Term>) -> Vec<Term> {
    let mut joined: Vec<Term> = Vec::with_capacity(terms.len());
    for term in terms {
        if let TermKind::Figure(run) = &term.kind
            && let [.., Term { kind: TermKind::Figure(rise), span }, Term { kind: TermKind::Word(word), .. }] =
                joined.as_slice()
            && word == "per"
            && rise.dimension == Dimension::LENGTH
            && run.dimension == Dimension::LENGTH
        {
            let span = span.to(term.span);
            let kind = slope(rise, run);
            joined.truncate(joined.len() - 2);
            joined.push(Term { kind, span });
            continue;
        }
        joined.push(term);
    }
    joined
}

/// The slope of a rise over a run, both lengths.
pub fn slope(rise: &Measure, run: &Measure) -> TermKind {
    if run.value == 0.0 {
        return TermKind::Impossible(Impossible::SlopeWithoutRun);
    }
    let value = rise.value / run.value;
    let style = if run.value == 12.0 * INCH { Style::PerFoot } else { Style::OneIn };
    TermKind::Figure(Measure { value, dimension: Dimension::NUMBER, style })
}

fn unquote(pair: Pair<'_, Rule>) -> String {
    pair.into_inner().next().map(|inside| inside.as_str().replace("\\\"", "\"")).unwrap_or_default()
}

fn number_sign(pair: Pair<'_, Rule>) -> TermKind {
    match pair.into_inner().next().and_then(|digits| digits.as_str().parse().ok()) {
        Some(number) => TermKind::NumberSign(number),
        None => TermKind::Impossible(Impossible::NumberTooGreat),
    }
}

/// Largest figure that is taken, in the unit it is written in and in base units.
const LARGEST_FIGURE: f64 = 1e9;

fn amount(pair: Pair<'_, Rule>) -> Result<(f64, Style), Impossible> {
    let text = pair.as_str();
    let mut parts = pair.into_inner();
    let first = parts.next().ok_or(Impossible::TooBig)?;
    let number = |text: &str| text.parse::<f64>().map_err(|_| Impossible::TooBig);
    let Some(tail) = parts.next() else {
        return match first.as_rule() {
            Rule::vulgar => Ok((vulgar(text), Style::INCHES)),
            Rule::zero_comma => number(&text.replace(',', ".")).map(|value| (value, Style::Number)),
            Rule::decimals => number(text).map(|value| (value, Style::DecimalInches)),
            _ => number(text).map(|value| (value, Style::INCHES)),
        };
    };
    match tail.as_rule() {
        Rule::decimals => number(text).map(|value| (value, Style::DecimalInches)),
        Rule::continentals => number(&text.replace(',', ".")).map(|value| (value, Style::Number)),
        Rule::below => {
            let below = number(tail.into_inner().next().map_or("", |digits| digits.as_str()))?;
            let value = number(first.as_str())? / below;
            if below == 0.0 { Err(Impossible::OverNothing) } else { Ok((value, Style::INCHES)) }
        }
        _ => {
            let blank = text.contains([' ', '\t', '\u{A0}', '\u{2009}', '\u{202F}']);
            let part = if tail.as_rule() == Rule::vulgar { vulgar(tail.as_str()) } else { fraction(tail)? };
            let value = number(first.as_str())? + part;
            if part >= 1.0 { Err(Impossible::FractionOverOne) } else { Ok((value, Style::Inches { blank })) }
        }
    }
}

fn fraction(pair: Pair<'_, Rule>) -> Result<f64, Impossible> {
    let mut parts = pair.into_inner();
    let (top, bottom) = (parts.next(), parts.next());
    match (top, bottom) {
        (Some(top), Some(bottom)) => {
            let top: f64 = top.as_str().parse().map_err(|_| Impossible::TooBig)?;
            let bottom: f64 = bottom.as_str().parse().map_err(|_| Impossible::TooBig)?;
            if bottom == 0.0 { Err(Impossible::OverNothing) } else { Ok(top / bottom) }
        }
        (Some(only), None) => Ok(vulgar(only.as_str())),
        _ => Err(Impossible::TooBig),
    }
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

fn figure(pair: Pair<'_, Rule>) -> TermKind {
    read_figure(pair).unwrap_or_else(TermKind::Impossible)
}

fn read_figure(pair: Pair<'_, Rule>) -> Result<TermKind, Impossible> {
    let whole = pair.as_str();
    let mut parts = pair.into_inner();
    let first = parts.next().ok_or(Impossible::TooBig)?;
    if first.as_rule() == Rule::date {
        return Ok(TermKind::Date(first.as_str().to_owned()));
    }
    let digits = first.as_str();
    let (value, written) = amount(first)?;
    let Some(tail) = parts.next() else { return plain(value) };
    match tail.as_rule() {
        Rule::foot | Rule::foot_word => {
            let (rest, _) = match parts.next().and_then(|rest| rest.into_inner().next()) {
                Some(rest) => amount(rest)?,
                None => (0.0, Style::Number),
            };
            if rest >= 12.0 {
                return Err(Impossible::TwelveInches);
            }
            // `3' 6"` keeps its blank, `3'-6"` its hyphen.
            let blank = !whole.contains("'-") && !whole.contains("′-") && !whole.contains("’-") && rest != 0.0;
            measured(value + rest / 12.0, Style::FeetInches { blank })
        }
        Rule::inch => measured(value, written),
        Rule::degree => measured(value, Style::Degrees),
        Rule::percent => measured(value, Style::Percent),
        Rule::penny => digits.parse().map(TermKind::Penny).map_err(|_| Impossible::BrokenPenny),
        Rule::size => match tail.into_inner().find(|part| part.as_rule() == Rule::amount) {
            Some(second) => Ok(TermKind::Nominal(value, amount(second)?.0)),
            None => Err(Impossible::TooBig),
        },
        Rule::in_run => match tail.into_inner().next() {
            Some(run) => {
                let (run, _) = amount(run)?;
                if run == 0.0 {
                    return Err(Impossible::SlopeWithoutRun);
                }
                Ok(TermKind::Figure(Measure { value: value / run, dimension: Dimension::NUMBER, style: Style::OneIn }))
            }
            None => Err(Impossible::TooBig),
        },
        Rule::unit => measured(value, unit(tail.as_str(), written)),
        _ => plain(value),
    }
}

fn plain(value: f64) -> Result<TermKind, Impossible> {
    if value > LARGEST_FIGURE { Err(Impossible::TooBig) } else { Ok(TermKind::Figure(Measure::number(value))) }
}

fn measured(value: f64, style: Style) -> Result<TermKind, Impossible> {
    let (unit, dimension, _) = style.unit();
    let value = exact(value, unit);
    // A length over a kilometre is a slip, whatever it is of.
    let too_long = dimension == Dimension::LENGTH && value > 1e12;
    if too_long || value / unit > LARGEST_FIGURE {
        return Err(Impossible::TooBig);
    }
    Ok(TermKind::Figure(Measure { value, dimension, style }))
}

/// Snaps a product to the whole base unit it is a hair away from: 1.2 m is 1 200 000 000 nm, not one bit less.
fn exact(value: f64, unit: f64) -> f64 {
    let product = value * unit;
    let whole = product.round();
    if unit >= 1e6 && (product - whole).abs() < 1e-3 { whole } else { product }
}

fn unit(text: &str, written: Style) -> Style {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match text.as_str() {
        "sq in" => Style::SquareInches,
        "sq ft" => Style::SquareFeet,
        "mm2" | "mm²" => Style::SquareMillimetres,
        "mm" => Style::Millimetres,
        "cm" => Style::Centimetres,
        "m" => Style::Metres,
        "feet" | "foot" | "ft" => Style::FeetInches { blank: false },
        "lb" | "lbs" => Style::Pounds,
        "kN/m" => Style::KilonewtonsPerMetre,
        "kN" => Style::Kilonewtons,
        "N/m" => Style::NewtonsPerMetre,
        "N" => Style::Newtons,
        "psf" => Style::Psf,
        "psi" => Style::Psi,
        "plf" => Style::Plf,
        "kPa" => Style::Kilopascals,
        "MPa" => Style::Megapascals,
        _ => written,
    }
}
