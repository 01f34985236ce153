//! Terms to values: what each property takes, read in the notation of the trade.

mod fasteners;
mod words;

use super::design::SectionName;
use super::kind::{Property, Takes};
use super::problem::{Problem, ValueProblem};
use super::shop;
use super::sizes::{dressed, dressed_width};
use super::spelling::misspelling;
use super::value::{Balusters, Edge, ListItem, Recess, Section, Shape, Value};
use crate::base::names::{nearest, says_something, single_blanks};
use crate::base::{Day, Diagnostic, Source, Span};
use crate::measure::{Dimension, INCH, Measure, POUND, Style};
use crate::syntax::{Term, TermKind};

/// Longest list, and largest count, that is taken.
const MOST: f64 = 200.0;

/// Sections of the user's own, by name.
pub type OwnSections = Vec<(String, Section)>;

/// What a design and its shop define.
#[derive(Debug, Clone, Copy)]
pub struct Own<'a> {
    /// Their sections.
    pub sections: &'a OwnSections,
    /// The names of their timbers.
    pub timbers: &'a [String],
}

/// Reads the value of a property.
///
/// # Errors
/// What is wrong, at the word that does not fit.
pub fn value(property: &'static Property, terms: &[Term], span: Span, source: &Source, own: Own<'_>) -> Read<Value> {
    let reader = Reader { property, source, span, own };
    if let Some((term, why)) = terms.iter().find_map(|term| match term.kind {
        TermKind::Impossible(why) => Some((term, why)),
        _ => None,
    }) {
        return reader.refuse(term.span, ValueProblem::Impossible { why });
    }
    if terms.is_empty() {
        return reader.refuse(span, ValueProblem::NothingStated);
    }
    reader.value(terms)
}

/// The name by which a value asks for a section: a nominal size, or a name of its own.
pub fn section_name(property: &Property, terms: &[Term], source: &Source) -> Option<SectionName> {
    let at = |word: &str| terms.iter().position(|term| term.word() == Some(word));
    let section = match property.takes {
        Takes::Section => terms,
        // `2x2 every 5"`, `9 of 2x2`.
        Takes::Balusters => match (at("every"), at("of")) {
            (Some(every), _) => terms.get(..every)?,
            (None, Some(of)) => terms.get(of + 1..)?,
            (None, None) => return None,
        },
        _ => return None,
    };
    let span = span_of(section)?;
    let nominal = matches!(section, [Term { kind: TermKind::Nominal(..), .. }]);
    let name = match section {
        [Term { kind: TermKind::Nominal(..), .. }] => shop::nominal(source.slice(span))?,
        [Term { kind: TermKind::Text(name), .. }] => name.trim().to_owned(),
        words if words.iter().all(|term| term.word().is_some()) => single_blanks(source.slice(span)).into_owned(),
        _ => return None,
    };
    // A name with figures in it is taken for a size as it measures, which says nothing of what it is ripped from.
    let plain = nominal || name.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-'));
    plain.then_some(SectionName { name, nominal, span })
}

struct Reader<'a> {
    property: &'static Property,
    source: &'a Source,
    span: Span,
    own: Own<'a>,
}

/// A value, or what is wrong with it.
type Read<T> = Result<T, Box<Diagnostic<Problem>>>;

impl Reader<'_> {
    fn refuse<T>(&self, span: Span, slip: ValueProblem) -> Read<T> {
        Err(Box::new(Diagnostic::new(self.source, span, Problem::Value { property: self.property, slip })))
    }

    /// A value of another sort than the property takes.
    fn wrong<T>(&self, terms: &[Term]) -> Read<T> {
        self.refuse(span_of(terms).unwrap_or(self.span), ValueProblem::OtherSort)
    }

    fn value(&self, terms: &[Term]) -> Read<Value> {
        match self.property.takes {
            Takes::Length => self.one(terms, Dimension::LENGTH).map(Value::Measure),
            Takes::Lengths => match terms {
                // Steps are counted as readily as measured.
                [Term { kind: TermKind::Figure(measure), span }]
                    if matches!(self.property.name, "risers" | "runs")
                        && measure.dimension == Dimension::NUMBER
                        && measure.style == Style::NUMBER
                        && measure.value.fract() == 0.0 =>
                {
                    self.refuse(*span, ValueProblem::StepsWithoutUnit)
                }
                _ => self.list(terms, Dimension::LENGTH).map(|items| Value::List(items.into())),
            },
            Takes::Angle => self.one(terms, Dimension::ANGLE).map(Value::Measure),
            Takes::Angles => self.list(terms, Dimension::ANGLE).map(|items| Value::List(items.into())),
            Takes::Area => self.one(terms, Dimension::AREA).map(Value::Measure),
            Takes::Force => self.one(terms, Dimension::FORCE).map(Value::Measure),
            Takes::Pressure => self.one(terms, Dimension::PRESSURE).map(Value::Measure),
            Takes::Slope => self.slope(terms),
            Takes::Number => self.one(terms, Dimension::NUMBER).map(Value::Measure),
            Takes::Count => self.count(terms).map(Value::Measure),
            Takes::OneOf(words) => self.one_of(terms, words).map(|word| Value::Word(word.into())),
            Takes::SomeOf(words) => self.some_of(terms, words),
            Takes::Sets => self.names(terms, |term| term.kind == TermKind::Comma),
            Takes::Members => self.names(terms, |term| term.word() == Some("to")),
            Takes::Name => self.names(terms, |_| false),
            Takes::Words if !says_something(self.source.slice(self.span)) => {
                self.refuse(self.span, ValueProblem::NothingStated)
            }
            Takes::Words => Ok(Value::Word(single_blanks(self.source.slice(self.span).trim()).into_owned().into())),
            Takes::Finish => self.finish(terms).map(Value::Finish),
            Takes::Date => match terms {
                [Term { kind: TermKind::Date(date), span }] if Day::of(date).is_some_and(Day::is_long_past) => {
                    self.refuse(*span, ValueProblem::LongPast)
                }
                [Term { kind: TermKind::Date(date), .. }] if Day::of(date).is_some() => {
                    Ok(Value::Word(date.to_string().into()))
                }
                [Term { kind: TermKind::Date(_), span }] => self.refuse(*span, ValueProblem::NoDay),
                _ => self.wrong(terms),
            },
            Takes::Section => self.section(terms).map(Value::Section),
            Takes::Timber => self.timber(terms).map(Value::Timber),
            Takes::Edge => self.edge(terms),
            Takes::Balusters => self.balusters(terms).map(Value::Balusters),
            Takes::Fasteners => self.fasteners(terms).map(Value::Fasteners),
        }
    }

    /// One figure of a dimension, and nothing else.
    fn one(&self, terms: &[Term], dimension: Dimension) -> Read<Measure> {
        match terms {
            [only] => self.figure(only, dimension),
            _ => self.no_figure(terms, dimension),
        }
    }

    /// Words that are no figure of a dimension.
    fn no_figure<T>(&self, terms: &[Term], dimension: Dimension) -> Read<T> {
        let span = span_of(terms).unwrap_or(self.span);
        let misspelt = misspelling(self.source.slice(span), dimension);
        self.refuse(span, misspelt.map_or(ValueProblem::OtherSort, ValueProblem::Misspelt))
    }

    fn figure(&self, term: &Term, dimension: Dimension) -> Read<Measure> {
        let TermKind::Figure(measure) = term.kind else {
            return self.no_figure(std::slice::from_ref(term), dimension);
        };
        if measure.dimension == dimension && (dimension != Dimension::NUMBER || measure.style == Style::NUMBER) {
            return Ok(measure);
        }
        let bare = measure.dimension == Dimension::NUMBER && measure.style == Style::NUMBER;
        let slip = match dimension {
            Dimension::LENGTH if bare => ValueProblem::LengthWithoutUnit,
            dimension if bare && dimension != Dimension::NUMBER => ValueProblem::WithoutUnit { dimension },
            _ => ValueProblem::WrongDimension { is: measure },
        };
        self.refuse(term.span, slip)
    }

    fn slope(&self, terms: &[Term]) -> Read<Value> {
        match terms {
            [Term { kind: TermKind::Figure(measure), .. }]
                if measure.dimension == Dimension::NUMBER && measure.style != Style::NUMBER =>
            {
                Ok(Value::Measure(*measure))
            }
            [Term { kind: TermKind::Word(word), .. }] if word == "level" => {
                Ok(Value::Measure(Measure { value: 0.0, dimension: Dimension::NUMBER, style: Style::ONE_IN }))
            }
            [Term { kind: TermKind::Figure(measure), span }] if measure.style == Style::NUMBER => {
                self.refuse(*span, ValueProblem::SlopeWithoutUnit)
            }
            [Term { kind: TermKind::Figure(measure), span }] => {
                self.refuse(*span, ValueProblem::NoSlope { is: *measure })
            }
            _ => self.wrong(terms),
        }
    }

    fn count(&self, terms: &[Term]) -> Read<Measure> {
        let measure = self.one(terms, Dimension::NUMBER)?;
        self.whole(measure, terms)
    }

    fn whole(&self, measure: Measure, terms: &[Term]) -> Read<Measure> {
        // The people of a house are more than its risers.
        let counted = self.property.range.filter(|_| self.property.takes == Takes::Count);
        let most = counted.map_or(MOST, |range| range.most.max(MOST));
        if measure.value.fract() != 0.0 || !(0.0..=most).contains(&measure.value) {
            return self.refuse(span_of(terms).unwrap_or(self.span), ValueProblem::NoCount);
        }
        Ok(measure)
    }

    /// `7", 6-15/16", 7"`, `4 of 7"`, or both mixed.
    fn list(&self, terms: &[Term], dimension: Dimension) -> Read<Vec<ListItem>> {
        let mut items = Vec::new();
        let parts = terms.split(|term| term.kind == TermKind::Comma);
        for part in parts {
            let (count, item) = match part {
                [item] => (1.0, item),
                [count, of, item] if of.word() == Some("of") => {
                    let many = self.figure(count, Dimension::NUMBER)?;
                    (self.whole(many, std::slice::from_ref(count))?.value, item)
                }
                [] => return self.refuse(self.span, ValueProblem::EmptyItem),
                _ => return self.no_figure(part, dimension),
            };
            let measure = self.figure(item, dimension)?;
            let span = span_of(part).unwrap_or(self.span);
            let mut left = count;
            while left >= 1.0 {
                items.push(ListItem { measure, span });
                left -= 1.0;
            }
            #[allow(clippy::cast_precision_loss)]
            let many = items.len() as f64;
            if many > MOST || count == 0.0 {
                return self.refuse(span, ValueProblem::TooManyItems { most: MOST });
            }
        }
        Ok(items)
    }

    fn names(&self, terms: &[Term], divides: impl Fn(&Term) -> bool) -> Read<Value> {
        let mut names = Vec::new();
        for part in terms.split(divides) {
            let span = span_of(part).unwrap_or(self.span);
            match part {
                [Term { kind: TermKind::Text(text), .. }] => names.push((text.to_string(), span)),
                [_, ..] if part.iter().all(|term| term.word().is_some()) => names.push((plain_words(part), span)),
                [] => return self.wrong(terms),
                _ if self.property.takes == Takes::Sets => return self.refuse(span, ValueProblem::NoSetName),
                _ => return self.wrong(part),
            }
        }
        Ok(Value::Names(names))
    }

    fn section(&self, terms: &[Term]) -> Read<Section> {
        let own = |name: &str| {
            self.own.sections.iter().find(|(own, _)| own.eq_ignore_ascii_case(name)).map(|(_, section)| *section)
        };
        match terms {
            [Term { kind: TermKind::Nominal(a, b), span }] => self.nominal(*a, *b, *span),
            [a, by, b] if by.kind == TermKind::By => {
                let b = self.figure(b, Dimension::LENGTH)?;
                let a = match a.kind {
                    // `38 x 286 mm`: one metric unit for both. Inches say it twice: `2 x 12` is a board's name.
                    TermKind::Figure(bare) if bare.style == Style::NUMBER && b.style.is_metric() => {
                        Measure { value: bare.value * b.style.unit().scale, ..b }
                    }
                    _ => self.figure(a, Dimension::LENGTH)?,
                };
                Ok(Section::rectangle(a, b))
            }
            [shape, size] if matches!(shape.word(), Some("round" | "square")) => {
                let size = self.figure(size, Dimension::LENGTH)?;
                if shape.word() == Some("square") {
                    return Ok(Section::rectangle(size, size));
                }
                Ok(Section::round(size))
            }
            [Term { kind: TermKind::Text(name), span }] => {
                own(name).map_or_else(|| self.unknown_section(name, *span), Ok)
            }
            _ => {
                let name = plain_words(terms);
                match (own(&name), span_of(terms)) {
                    (Some(section), _) => Ok(section),
                    (None, Some(span)) if terms.iter().all(|term| term.word().is_some()) => {
                        self.unknown_section(&name, span)
                    }
                    _ => self.wrong(terms),
                }
            }
        }
    }

    fn unknown_section(&self, name: &str, span: Span) -> Read<Section> {
        let near = nearest(name, self.own.sections.iter().map(|(name, _)| name.as_str())).map(str::to_owned);
        self.refuse(span, ValueProblem::UnknownSection { name: name.to_owned(), near })
    }

    fn nominal(&self, a: f64, b: f64, span: Span) -> Read<Section> {
        let (thin, wide) = if a <= b { (a, b) } else { (b, a) };
        match (dressed(thin, wide), dressed_width(wide, thin)) {
            (Some(thickness), Some(depth)) => {
                Ok(Section::rectangle(Measure::inches(thickness), Measure::inches(depth)))
            }
            _ => self.refuse(span, ValueProblem::NotSold),
        }
    }

    fn edge(&self, terms: &[Term]) -> Read<Value> {
        let edge = match terms {
            [word] if word.word() == Some("square") => Edge::Square,
            [word, size] if matches!(word.word(), Some("radius" | "rounded")) => {
                Edge::Radius(self.figure(size, Dimension::LENGTH)?)
            }
            [word, size] if matches!(word.word(), Some("bevel" | "bevelled")) => {
                Edge::Bevel(self.figure(size, Dimension::LENGTH)?)
            }
            _ => return self.wrong(terms),
        };
        Ok(Value::Edge(edge))
    }

    fn balusters(&self, terms: &[Term]) -> Read<Balusters> {
        let at = |word: &str| terms.iter().position(|term| term.word() == Some(word));
        if let Some(every) = at("every") {
            let (section, rest) = terms.split_at_checked(every).unwrap_or_default();
            let (width, deep) = self.baluster_ways(section)?;
            let rest = rest.get(1..).unwrap_or_default();
            let every = self.one(rest, Dimension::LENGTH)?;
            let varies = span_of(rest).unwrap_or(self.span);
            return Ok(Balusters { width, deep, every: Some(every), count: None, varies });
        }
        if let Some(of) = at("of") {
            let (count, rest) = terms.split_at_checked(of).unwrap_or_default();
            let varies = span_of(count).unwrap_or(self.span);
            let count = self.count(count)?.value;
            let (width, deep) = self.baluster_ways(rest.get(1..).unwrap_or_default())?;
            return Ok(Balusters { width, deep, every: None, count: Some(count), varies });
        }
        self.wrong(terms)
    }

    /// The narrower and the wider way of their section.
    fn baluster_ways(&self, terms: &[Term]) -> Read<(Measure, Measure)> {
        if terms.is_empty() {
            return self.refuse(self.span, ValueProblem::BalustersWithoutSection);
        }
        let section = self.section(terms)?;
        let way = |value| Measure { value, ..section.measure };
        Ok((way(section.thickness), way(section.depth)))
    }
}

fn span_of(terms: &[Term]) -> Option<Span> {
    let (first, last) = (terms.first()?, terms.last()?);
    Some(first.span.to(last.span))
}

fn plain_words(terms: &[Term]) -> String {
    let words: Vec<String> = terms.iter().filter_map(Term::word).map(str::to_lowercase).collect();
    words.join(" ")
}

/// Lengths for an example, with their inches: of a property the first that makes sense for it.
const LENGTHS: [(&str, f64); 5] =
    [("7-3/8\"", 7.375), ("36\"", 36.0), ("80\"", 80.0), ("1-1/2\"", 1.5), ("3/8\"", 0.375)];

fn typical(property: &Property, examples: &'static [(&'static str, f64)]) -> &'static str {
    let holds = |inches: f64| property.range.is_none_or(|range| range.holds(inches * INCH));
    let first = examples.first().map_or("", |(text, _)| text);
    examples.iter().find(|(_, inches)| holds(*inches)).map_or(first, |(text, _)| text)
}

/// How such a value is written.
pub fn example(property: &Property) -> &'static str {
    match property.name {
        "lags" => return "2 of 3/8\" x 4\", galvanised",
        "screws" => return "3 of No.10 x 3\", stainless",
        "nails" => return "3 of 16d common, galvanised",
        // One figure for all of them is the rule; a list is for what differs.
        "height" => return "36\"",
        "rails" => return "1x4 every 6\"",
        "cables" => return "round 1/8\" every 3\"",
        "nosing" => return "1\"",
        "narrow" => return "6\"",
        "snow" => return "30 psf",
        "turn" if property.takes == Takes::Angles => return "90°",
        _ => {}
    }
    match property.takes {
        Takes::Length => typical(property, &LENGTHS),
        Takes::Lengths => "4 of 7\"",
        Takes::Angle | Takes::Angles => "12°",
        Takes::Area => "1296 sq in",
        Takes::Force => "1800 lb",
        Takes::Pressure => {
            let holds = |psi: f64| property.range.is_none_or(|range| range.holds(psi * POUND / (INCH * INCH)));
            if holds(900.0) { "900 psi" } else { "1600000 psi" }
        }
        Takes::Slope => "1 in 48",
        Takes::Number => "0.55",
        Takes::Count => "3",
        Takes::OneOf([first, ..]) | Takes::SomeOf([first, ..]) => first,
        Takes::OneOf([]) | Takes::SomeOf([]) => "",
        Takes::Sets => "residential, workshop",
        Takes::Words => "pitch pine",
        Takes::Finish => "grip strip 36\"",
        Takes::Date => "2026-05-04",
        Takes::Section => "1-1/2\" x 11-1/4\"",
        Takes::Timber => "southern pine No.2, treated",
        Takes::Edge => "radius 3/8\"",
        Takes::Balusters => "2x2 every 5\"",
        Takes::Fasteners => "2 of 3/8\" x 6\", galvanised",
        Takes::Members => "newel to stringer",
        Takes::Name => "upper",
    }
}

/// Reads the sections of the user's own out of the properties of a `section` block.
pub fn own_section(shape: Shape, lengths: &[(&str, Measure)]) -> Option<Section> {
    let of = |name: &str| lengths.iter().find(|(named, _)| *named == name).map(|(_, measure)| *measure);
    let length = |name: &str| of(name).map(|measure| measure.value);
    let recess = Recess {
        start: length("recess start"),
        depth: length("recess depth"),
        reached: length("recess reached"),
        kept: length("recess kept"),
        end: length("recess end"),
        width_above: length("width above recess"),
    };
    let plain = match shape {
        Shape::Round => Section::round(of("diameter")?),
        _ => Section::rectangle(of("width")?, of("depth")?),
    };
    // What a profile measures round and across does not follow from its two ways; of a rectangle it may be less, where
    // its edges are eased; a circle leaves no choice.
    let stated = |name: &str| length(name).filter(|_| shape != Shape::Round);
    let follows = |plain: Option<f64>| plain.filter(|_| shape != Shape::Profiled);
    Some(Section {
        shape,
        perimeter: stated("perimeter").or(follows(plain.perimeter)),
        across: stated("across").or(follows(plain.across)),
        edge_radius: length("edge radius"),
        recess: (recess != Recess::default()).then_some(recess),
        ..plain
    })
}
