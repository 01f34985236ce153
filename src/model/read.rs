//! Terms to values: what each property takes, read in the notation of the trade.

use super::kind::{Property, Takes};
use super::sizes::{dressed, dressed_width, nail, screw};
use super::value::{Balusters, Edge, Fasteners, ListItem, Recess, Section, Shape, Timber, Value};
use crate::base::names::did_you_mean;
use crate::base::{Finding, Notice, Source, Span, notices};
use crate::measure::{Dimension, Measure, Style};
use crate::syntax::{Term, TermKind};

/// Longest list, and largest count, that is taken.
const MOST: f64 = 200.0;

/// Sections of the user's own, by name.
pub type OwnSections = Vec<(String, Section)>;

/// Reads the value of a property.
///
/// # Errors
/// A finding at the word that does not fit.
pub fn value(
    property: &Property,
    terms: &[Term],
    span: Span,
    source: &Source,
    own: &OwnSections,
) -> Result<Value, Box<Finding>> {
    let reader = Reader { property, source, span, own };
    if let Some((term, why)) = terms.iter().find_map(|term| match term.kind {
        TermKind::Impossible(why) => Some((term, why)),
        _ => None,
    }) {
        return Err(reader.at(&notices::IMPOSSIBLE_NUMBER, term.span, format!("`{}`: {why}", source.slice(term.span))));
    }
    if terms.is_empty() {
        let message = format!("`{}` states nothing", property.name);
        return Err(reader.at(&notices::MISSING_VALUE, span, message));
    }
    reader.value(terms)
}

struct Reader<'a> {
    property: &'a Property,
    source: &'a Source,
    span: Span,
    own: &'a OwnSections,
}

type Read<T> = Result<T, Box<Finding>>;

impl Reader<'_> {
    fn at(&self, notice: &Notice, span: Span, message: String) -> Box<Finding> {
        let mut finding = Finding::notice(notice, self.source, span, message);
        if finding.labels.first().is_some_and(|label| label.text.is_empty())
            && let Some(label) = finding.labels.first_mut()
        {
            label.text = format!("`{}` takes {}", self.property.name, takes(self.property.takes));
        }
        Box::new(finding)
    }

    fn wrong(&self, terms: &[Term]) -> Box<Finding> {
        let span = span_of(terms).unwrap_or(self.span);
        let message =
            format!("`{}` takes {}, not `{}`", self.property.name, takes(self.property.takes), self.source.slice(span));
        self.at(&notices::WRONG_VALUE, span, message).with_example(self.property)
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
                    let words = self.source.slice(*span);
                    let message = format!("`{}` takes a length; `{words}` has no unit", self.property.name);
                    let help =
                        format!("Write `{words} of 7\"` for {words} of them, `{words}\"` for one of that height.");
                    let help = if self.property.name == "runs" {
                        help.replace("height", "depth").replace("7\"", "10\"")
                    } else {
                        help
                    };
                    Err(Box::new(self.at(&notices::MISSING_UNIT, *span, message).with_help(help)))
                }
                _ => self.list(terms).map(Value::List),
            },
            Takes::Angle => self.one(terms, Dimension::ANGLE).map(Value::Measure),
            Takes::Area => self.one(terms, Dimension::AREA).map(Value::Measure),
            Takes::Slope => self.slope(terms),
            Takes::Number => self.one(terms, Dimension::NUMBER).map(Value::Measure),
            Takes::Count => self.count(terms).map(Value::Measure),
            Takes::OneOf(words) => self.one_of(terms, words).map(Value::Word),
            Takes::SomeOf(words) => {
                let parts = terms.split(|term| term.kind == TermKind::Comma);
                parts.map(|part| self.one_of(part, words)).collect::<Read<Vec<_>>>().map(Value::Words)
            }
            Takes::Sets => self.names(terms, |term| term.kind == TermKind::Comma),
            Takes::Members => self.names(terms, |term| term.word() == Some("to")),
            Takes::Name => self.names(terms, |_| false),
            Takes::Words => Ok(Value::Word(self.source.slice(self.span).trim().to_owned())),
            Takes::Finish => {
                let mut lengths = terms.iter().filter_map(|term| match term.kind {
                    TermKind::Figure(measure) if measure.dimension == Dimension::LENGTH => Some(measure),
                    _ => None,
                });
                Ok(Value::Finish(self.source.slice(self.span).trim().to_owned(), lengths.next_back()))
            }
            Takes::Date => match terms {
                [Term { kind: TermKind::Date(date), .. }] => Ok(Value::Word(date.to_string())),
                _ => Err(self.wrong(terms)),
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
            _ => Err(self.wrong(terms)),
        }
    }

    fn figure(&self, term: &Term, dimension: Dimension) -> Read<Measure> {
        let TermKind::Figure(measure) = term.kind else {
            return Err(self.wrong(std::slice::from_ref(term)));
        };
        if measure.dimension == dimension && (dimension != Dimension::NUMBER || measure.style == Style::NUMBER) {
            return Ok(measure);
        }
        let words = self.source.slice(term.span);
        let bare = measure.dimension == Dimension::NUMBER && measure.style == Style::NUMBER;
        if bare && dimension == Dimension::LENGTH {
            let message = format!("`{}` takes a length; `{words}` has no unit", self.property.name);
            let help = format!("Write `{words}\"` for inches, or `{words} mm`.");
            return Err(Box::new(self.at(&notices::MISSING_UNIT, term.span, message).with_help(help)));
        }
        if bare && dimension != Dimension::NUMBER {
            let message = format!("`{}` takes {dimension}; `{words}` has no unit", self.property.name);
            let help = if dimension == Dimension::ANGLE { format!("Write `{words}°`.") } else { String::new() };
            return Err(Box::new(self.at(&notices::MISSING_UNIT, term.span, message).with_help(help)));
        }
        let message =
            format!("`{}` takes {}, and `{words}` is {}", self.property.name, takes(self.property.takes), is(measure));
        Err(self.at(&notices::WRONG_DIMENSION, term.span, message))
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
                let words = self.source.slice(*span);
                let message = format!("`{}` takes a slope; `{words}` alone is none", self.property.name);
                let help = format!("Write `1 in {words}`, or `{words}%`.");
                Err(Box::new(self.at(&notices::MISSING_UNIT, *span, message).with_help(help)))
            }
            [Term { kind: TermKind::Figure(measure), span }] => {
                let words = self.source.slice(*span);
                let message = format!("`{}` takes a slope, and `{words}` is {}", self.property.name, is(*measure));
                let told = self.at(&notices::WRONG_DIMENSION, *span, message);
                if measure.dimension == Dimension::ANGLE {
                    let rise = 12.0 * measure.value.to_radians().tan();
                    return Err(Box::new(told.with_help(format!("As a slope that is `{rise:.2}\" per 12\"`."))));
                }
                Err(Box::new(told).with_example(self.property))
            }
            _ => Err(self.wrong(terms)),
        }
    }

    fn count(&self, terms: &[Term]) -> Read<Measure> {
        let measure = self.one(terms, Dimension::NUMBER)?;
        self.whole(measure, terms)
    }

    fn whole(&self, measure: Measure, terms: &[Term]) -> Read<Measure> {
        if measure.value.fract() != 0.0 || !(0.0..=MOST).contains(&measure.value) {
            let span = span_of(terms).unwrap_or(self.span);
            let message = format!("`{}` is no count of things in a stair", self.source.slice(span));
            return Err(self.at(&notices::IMPOSSIBLE_NUMBER, span, message));
        }
        Ok(measure)
    }

    /// `7", 6-15/16", 7"`, `4 of 7"`, or both mixed.
    fn list(&self, terms: &[Term]) -> Read<Vec<ListItem>> {
        let mut items = Vec::new();
        let parts = terms.split(|term| term.kind == TermKind::Comma);
        for part in parts {
            let (count, item) = match part {
                [item] => (1.0, item),
                [count, of, item] if of.word() == Some("of") => {
                    let many = self.figure(count, Dimension::NUMBER)?;
                    (self.whole(many, std::slice::from_ref(count))?.value, item)
                }
                [] => {
                    let message = format!("a comma of `{}` has nothing beside it", self.property.name);
                    return Err(self.at(&notices::WRONG_VALUE, self.span, message));
                }
                _ => return Err(self.wrong(part)),
            };
            let measure = self.figure(item, Dimension::LENGTH)?;
            let span = span_of(part).unwrap_or(self.span);
            let mut left = count;
            while left >= 1.0 {
                items.push(ListItem { measure, span });
                left -= 1.0;
            }
            #[allow(clippy::cast_precision_loss)]
            let many = items.len() as f64;
            if many > MOST || count == 0.0 {
                let message = format!("`{}` lists no steps, or more than {MOST}", self.property.name);
                return Err(self.at(&notices::IMPOSSIBLE_NUMBER, span, message));
            }
        }
        Ok(items)
    }

    fn one_of(&self, terms: &[Term], words: &[&str]) -> Read<String> {
        let said = plain_words(terms);
        if words.contains(&said.as_str()) {
            return Ok(said);
        }
        let span = span_of(terms).unwrap_or(self.span);
        let message = format!("`{}` is not a word that `{}` takes", self.source.slice(span), self.property.name);
        let help = did_you_mean(&said, words.iter().copied()).unwrap_or_else(|| format!("It takes {}.", listed(words)));
        Err(Box::new(self.at(&notices::UNKNOWN_WORD, span, message).with_help(help)))
    }

    fn names(&self, terms: &[Term], divides: impl Fn(&Term) -> bool) -> Read<Value> {
        let mut names = Vec::new();
        for part in terms.split(divides) {
            let span = span_of(part).unwrap_or(self.span);
            match part {
                [Term { kind: TermKind::Text(text), .. }] => names.push((text.to_string(), span)),
                [_, ..] if part.iter().all(|term| term.word().is_some()) => names.push((plain_words(part), span)),
                _ => {
                    let wrong = self.wrong(if part.is_empty() { terms } else { part });
                    if self.property.takes == Takes::Sets && !part.is_empty() {
                        let file = self.source.slice(span);
                        return Err(Box::new(
                            wrong.with_help(format!("A set of your own is its file, in quotes: `\"{file}\"`.")),
                        ));
                    }
                    return Err(wrong);
                }
            }
        }
        Ok(Value::Names(names))
    }

    fn section(&self, terms: &[Term]) -> Read<Section> {
        let own =
            |name: &str| self.own.iter().find(|(own, _)| own.eq_ignore_ascii_case(name)).map(|(_, section)| *section);
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
            [Term { kind: TermKind::Text(name), span }] => own(name).ok_or_else(|| self.unknown_section(name, *span)),
            _ => {
                let name = plain_words(terms);
                own(&name).ok_or_else(|| match span_of(terms) {
                    Some(span) if terms.iter().all(|term| term.word().is_some()) => self.unknown_section(&name, span),
                    _ => self.wrong(terms),
                })
            }
        }
    }

    fn unknown_section(&self, name: &str, span: Span) -> Box<Finding> {
        let message = format!("no section called `{name}` is known");
        let names = self.own.iter().map(|(name, _)| name.as_str());
        let help = did_you_mean(name, names).unwrap_or_else(|| {
            "Write `2x12`, `1-1/2\" x 11-1/4\"`, `round 1-1/2\"`, or define `section \"name\" { }`.".to_owned()
        });
        Box::new(self.at(&notices::UNKNOWN_NAME, span, message).with_help(help))
    }

    fn nominal(&self, a: f64, b: f64, span: Span) -> Read<Section> {
        let (thin, wide) = if a <= b { (a, b) } else { (b, a) };
        match (dressed(thin, wide), dressed_width(wide, thin)) {
            (Some(thickness), Some(depth)) => {
                Ok(Section::rectangle(Measure::inches(thickness), Measure::inches(depth)))
            }
            _ => {
                let message = format!("`{}` is not a size that boards are sold in", self.source.slice(span));
                let help = "For a size as it measures give both their units: `1-1/2\" x 11-1/4\"`.";
                Err(Box::new(self.at(&notices::IMPOSSIBLE_NUMBER, span, message).with_help(help)))
            }
        }
    }

    fn timber(&self, terms: &[Term]) -> Read<Timber> {
        let mut parts = terms.split(|term| term.kind == TermKind::Comma);
        let first = parts.next().unwrap_or_default();
        let grade: Vec<&Term> = first.iter().filter(|term| matches!(term.kind, TermKind::NumberSign(_))).collect();
        let species = match first {
            [Term { kind: TermKind::Text(text), .. }] => text.to_lowercase(),
            _ => plain_words(&first.iter().filter(|term| term.word().is_some()).cloned().collect::<Vec<_>>()),
        };
        if species.is_empty() || first.iter().any(|term| matches!(term.kind, TermKind::Figure(_) | TermKind::Odd)) {
            return Err(self.wrong(terms));
        }
        let grade = grade.first().map(|term| self.source.slice(term.span).to_owned()).unwrap_or_default();
        Ok(Timber { species, grade, treatment: parts.map(plain_words).collect() })
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
            _ => return Err(self.wrong(terms)),
        };
        Ok(Value::Edge(edge))
    }

    fn balusters(&self, terms: &[Term]) -> Read<Balusters> {
        let at = |word: &str| terms.iter().position(|term| term.word() == Some(word));
        if let Some(every) = at("every") {
            let (section, rest) = terms.split_at(every);
            let width = self.baluster_width(section)?;
            let rest = rest.get(1..).unwrap_or_default();
            let every = self.one(rest, Dimension::LENGTH)?;
            let varies = span_of(rest).unwrap_or(self.span);
            return Ok(Balusters { width, every: Some(every), count: None, varies });
        }
        if let Some(of) = at("of") {
            let (count, rest) = terms.split_at(of);
            let varies = span_of(count).unwrap_or(self.span);
            let count = self.count(count)?.value;
            let width = self.baluster_width(rest.get(1..).unwrap_or_default())?;
            return Ok(Balusters { width, every: None, count: Some(count), varies });
        }
        Err(self.wrong(terms))
    }

    fn baluster_width(&self, terms: &[Term]) -> Read<Measure> {
        if terms.is_empty() {
            return Err(self.at(&notices::WRONG_VALUE, self.span, "balusters need their section".to_owned()));
        }
        let section = self.section(terms)?;
        Ok(Measure { value: section.thickness, ..section.measure })
    }

    fn fasteners(&self, terms: &[Term]) -> Read<Fasteners> {
        let mut parts = terms.split(|term| term.kind == TermKind::Comma);
        let first = parts.next().unwrap_or_default();
        let [count, of, size @ ..] = first else { return Err(self.wrong(terms)) };
        if of.word() != Some("of") {
            return Err(self.wrong(terms));
        }
        let count = self.count(std::slice::from_ref(count))?.value;
        let mut coating = None;
        for part in parts {
            let word = plain_words(part);
            let known = ["galvanised", "stainless", "coated", "plain"];
            let word = if word == "galvanized" { "galvanised".to_owned() } else { word };
            if !known.contains(&word.as_str()) {
                let span = span_of(part).unwrap_or(self.span);
                let message = format!("`{}` is no coating that is known", self.source.slice(span));
                let help = did_you_mean(&word, known).unwrap_or_else(|| format!("Known are {}.", listed(&known)));
                return Err(Box::new(self.at(&notices::UNKNOWN_WORD, span, message).with_help(help)));
            }
            coating = Some(word);
        }
        let (diameter, length, words) = self.fastener_size(size)?;
        let kind = match self.property.name {
            "bolts" if words == "carriage" => "carriage bolt",
            "bolts" if words.is_empty() || words == "hex" => "hex bolt",
            "lags" => "lag",
            "screws" => "wood screw",
            "nails" => "nail",
            _ => {
                let span = size.iter().rev().find(|term| term.word().is_some()).map_or(self.span, |term| term.span);
                let message = format!("`{words}` is no head of a bolt that is known");
                let heads = ["carriage", "hex"];
                let help = did_you_mean(&words, heads).unwrap_or_else(|| format!("Known are {}.", listed(&heads)));
                return Err(Box::new(self.at(&notices::UNKNOWN_WORD, span, message).with_help(help)));
            }
        };
        let length_words = match size {
            [_, by, length, ..] if by.kind == TermKind::By => Some(length.span),
            _ => None,
        };
        Ok(Fasteners { count, kind, diameter, length, length_words, coating })
    }

    /// `3/8" x 6" carriage`, `No.10 x 3"`, `16d common`: diameter, length, the words left.
    fn fastener_size(&self, terms: &[Term]) -> Read<(Measure, Option<Measure>, String)> {
        let (diameter, rest) = match terms {
            [Term { kind: TermKind::Penny(penny), span }, rest @ ..] => {
                let words = plain_words(rest);
                let kind = if words.is_empty() { "common" } else { &words };
                return match nail(*penny, kind) {
                    Some((length, diameter)) => {
                        let diameter = Measure::inches(diameter).styled(Style::DECIMAL_INCHES);
                        Ok((diameter, Some(Measure::inches(length)), kind.to_owned()))
                    }
                    None => {
                        let message = format!("no {kind} nail of {penny}d is in the table");
                        let help = "State it as it measures: `3 of 0.148\" x 3\"`.";
                        Err(Box::new(self.at(&notices::IMPOSSIBLE_NUMBER, *span, message).with_help(help)))
                    }
                };
            }
            [Term { kind: TermKind::NumberSign(number), span }, rest @ ..] => match screw(*number) {
                Some(diameter) => (Measure::inches(diameter).styled(Style::DECIMAL_INCHES), rest),
                None => {
                    let message = format!("no screw of No.{number} is in the table");
                    return Err(self.at(&notices::IMPOSSIBLE_NUMBER, *span, message));
                }
            },
            [Term { kind: TermKind::Figure(measure), span }, ..]
                if self.property.name == "screws"
                    && measure.dimension == Dimension::NUMBER
                    && measure.style == Style::NUMBER =>
            {
                let words = self.source.slice(*span);
                let message = format!("`{words}` is neither the number of a screw nor a diameter with its unit");
                let help = format!("Write `No.{words}` for a number.");
                return Err(Box::new(self.at(&notices::MISSING_UNIT, *span, message).with_help(help)));
            }
            [diameter, rest @ ..] => (self.figure(diameter, Dimension::LENGTH)?, rest),
            [] => return Err(self.wrong(terms)),
        };
        let (length, words) = match rest {
            [by, length, words @ ..] if by.kind == TermKind::By => {
                (Some(self.figure(length, Dimension::LENGTH)?), words)
            }
            words => (None, words),
        };
        if words.iter().any(|term| term.word().is_none()) {
            return Err(self.wrong(words));
        }
        Ok((diameter, length, plain_words(words)))
    }
}

trait WithExample {
    fn with_example(self, property: &Property) -> Self;
}

impl WithExample for Box<Finding> {
    fn with_example(mut self, property: &Property) -> Self {
        let example = example(property);
        if !example.is_empty() {
            self.help = Some(format!("For example `{}: {example}`.", property.name));
        }
        self
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

/// `a, b or c`, each marked.
fn listed(words: &[&str]) -> String {
    let mut marked: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match marked.pop() {
        Some(last) if marked.is_empty() => last,
        Some(last) => format!("{} or {last}", marked.join(", ")),
        None => String::new(),
    }
}

fn is(measure: Measure) -> String {
    match measure.style {
        style if style.is_slope() => "a slope".to_owned(),
        _ => measure.dimension.to_string(),
    }
}

/// What a property takes, in words.
pub fn takes(takes: Takes) -> String {
    match takes {
        Takes::Length => "a length",
        Takes::Lengths => "a length, or one for each step",
        Takes::Angle => "an angle",
        Takes::Area => "an area",
        Takes::Slope => "a slope",
        Takes::Number => "a plain number",
        Takes::Count => "a whole number",
        Takes::OneOf(words) => return listed(words),
        Takes::SomeOf(words) => return format!("some of {}", listed(words)),
        Takes::Sets => "names of rulesets",
        Takes::Words => "words",
        Takes::Finish => "words, perhaps with a length",
        Takes::Date => "a date",
        Takes::Section => "a section",
        Takes::Timber => "a timber",
        Takes::Edge => "an edge",
        Takes::Balusters => "balusters",
        Takes::Fasteners => "fasteners",
        Takes::Members => "the members joined",
        Takes::Name => "the name of something drawn",
    }
    .to_owned()
}

/// How such a value is written.
pub fn example(property: &Property) -> &'static str {
    match property.name {
        "lags" => return "2 of 3/8\" x 4\", galvanised",
        "screws" => return "3 of No.10 x 3\", stainless",
        "nails" => return "3 of 16d common, galvanised",
        // One figure for all of them is the rule; a list is for what differs.
        "height" => return "36\"",
        "nosing" => return "1\"",
        "narrow" => return "6\"",
        _ => {}
    }
    match property.takes {
        Takes::Length => "7-3/8\"",
        Takes::Lengths => "4 of 7\"",
        Takes::Angle => "12°",
        Takes::Area => "1296 sq in",
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
    // What a profile measures round and across does not follow from its two ways.
    let follows = |plain: Option<f64>| plain.filter(|_| shape != Shape::Profiled);
    Some(Section {
        shape,
        perimeter: length("perimeter").or(follows(plain.perimeter)),
        across: length("across").or(follows(plain.across)),
        edge_radius: length("edge radius"),
        recess: (recess != Recess::default()).then_some(recess),
        ..plain
    })
}
