//! Figures that are out of all proportion for their property, and which slip of the pen each likely is.

#[cfg(feature = "internals")]
use super::kind::Takes;
use super::kind::{Property, Range};
use super::value::{Edge, Shape, Value};
use crate::base::{Source, Span};
use crate::measure::{Dimension, Joint, Measure, Notation, Style, System, Unit};

/// Ranges of the figures within values that hold several: common practice, no source.
const SECTION_WAY: Range = Range::inches(0.125, 48.0);
const BALUSTER_WAY: Range = Range::inches(0.0625, 12.0);
const BALUSTER_SPACING: Range = Range::inches(1.0, 36.0);
const BALUSTER_COUNT: Range = Range { least: 1.0, most: 100.0 };
const FASTENER_COUNT: Range = Range { least: 1.0, most: 60.0 };
const FASTENER_DIAMETER: Range = Range::inches(0.05, 1.5);
const FASTENER_LENGTH: Range = Range::inches(0.5, 36.0);
const EDGE: Range = Range::inches(0.005, 3.0);
const STRIP: Range = Range::inches(2.0, 240.0);

/// A figure that is out of all proportion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disproportion {
    /// The words that state it, where it is one of several in a value.
    pub span: Option<Span>,
    /// The figure.
    pub is: Measure,
    /// Between which it would make sense.
    pub range: Range,
    /// What was likely meant.
    pub likely: Option<Measure>,
}

/// What of a stated value is out of all proportion: the first figure of each place.
pub fn disproportions(property: &Property, value: &Value, span: Span, source: &Source) -> Vec<Disproportion> {
    let mut found: Vec<Disproportion> = Vec::new();
    for (at, is, range) in figures(property, value) {
        if range.holds(is.value) || found.iter().any(|earlier| earlier.span == at) {
            continue;
        }
        let likely = likely(is, range, source.slice(at.unwrap_or(span)));
        found.push(Disproportion { span: at, is, range, likely });
    }
    found
}

/// The range of every sort of figure that a property takes; none for words.
#[cfg(feature = "internals")]
pub fn ranges(property: &Property) -> Vec<Range> {
    match property.takes {
        Takes::Length
        | Takes::Lengths
        | Takes::Angle
        | Takes::Angles
        | Takes::Area
        | Takes::Pressure
        | Takes::Force
        | Takes::Slope
        | Takes::Number
        | Takes::Count => property.range.into_iter().collect(),
        Takes::Section => ways(property).to_vec(),
        Takes::Balusters => vec![BALUSTER_WAY, BALUSTER_SPACING, BALUSTER_COUNT],
        Takes::Fasteners => vec![FASTENER_COUNT, FASTENER_DIAMETER, FASTENER_LENGTH],
        Takes::Edge => vec![EDGE],
        Takes::Finish => vec![STRIP],
        Takes::OneOf(_) | Takes::SomeOf(_) | Takes::Sets | Takes::Words | Takes::Date | Takes::Timber => Vec::new(),
        Takes::Members | Takes::Name => Vec::new(),
    }
}

/// Between what both ways of a section make sense.
fn ways(property: &Property) -> [Range; 2] {
    property.ways.unwrap_or([SECTION_WAY, SECTION_WAY])
}

/// The figures of a value, each with its place where it has one of its own, and its range.
fn figures(property: &Property, value: &Value) -> Vec<(Option<Span>, Measure, Range)> {
    let number = |value: f64| Measure::number(value);
    match value {
        Value::Measure(measure) => property.range.map(|range| (None, *measure, range)).into_iter().collect(),
        Value::List(items) => {
            let range = property.range;
            items.iter().filter_map(|item| Some((Some(item.span), item.measure, range?))).collect()
        }
        // A nominal size is one that is sold.
        Value::Section(section) => {
            let way = |value: f64, range: Range| (None, Measure { value, ..section.measure }, range);
            let [thin, wide] = ways(property);
            match section.shape {
                Shape::Round => vec![way(section.depth, thin)],
                Shape::Rectangular | Shape::Profiled => vec![way(section.thickness, thin), way(section.depth, wide)],
            }
        }
        Value::Balusters(balusters) => {
            let every = balusters.every.map(|every| (Some(balusters.varies), every, BALUSTER_SPACING));
            let count = balusters.count.map(|count| (Some(balusters.varies), number(count), BALUSTER_COUNT));
            let width = (None, balusters.width, BALUSTER_WAY);
            every.into_iter().chain(count).chain([width]).collect()
        }
        Value::Fasteners(fasteners) => {
            let length = fasteners.length.map(|length| (fasteners.length_words, length, FASTENER_LENGTH));
            let size = [(None, fasteners.diameter, FASTENER_DIAMETER), (None, number(fasteners.count), FASTENER_COUNT)];
            size.into_iter().chain(length).collect()
        }
        Value::Edge(Edge::Radius(size) | Edge::Bevel(size)) => vec![(None, *size, EDGE)],
        Value::Finish(finish) => finish.strip.map(|strip| (None, strip, STRIP)).into_iter().collect(),
        Value::Edge(Edge::Square) | Value::Word(_) | Value::Words(_) | Value::Names(_) | Value::Timber(_) => Vec::new(),
    }
}

/// How far a slip lies from the pen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Slip {
    /// A hyphen left out of a mixed number: `71/2"`.
    Hyphen,
    /// Another unit of the same system.
    Unit,
    /// A decimal point left out, or a digit; a unit of the other system.
    Other,
}

/// What was likely meant: of the slips that lead into the range the nearest to the pen, and of those of one sort the
/// value nearest to the middle of the range.
fn likely(is: Measure, range: Range, words: &str) -> Option<Measure> {
    let middle = (range.least.max(range.most / 100.0) * range.most).sqrt();
    let far = |measure: &Measure| (measure.value / middle).ln().abs();
    let mut slips: Vec<(Slip, Measure)> = mixed(is, words).into_iter().map(|meant| (Slip::Hyphen, meant)).collect();
    if is.dimension == Dimension::LENGTH {
        slips.extend(other_units(is));
    }
    // What is written in fractions has no point to lose.
    let whole = (is.value / is.style.unit().scale).fract() == 0.0 || is.style.notation() == Notation::Decimal;
    let shifts = if whole { &[0.1, 10.0, 0.01, 100.0][..] } else { &[] };
    let shifted = shifts.iter().map(|shift| Measure { value: is.value * shift, ..is });
    slips.extend(shifted.map(|meant| (Slip::Other, meant)));
    slips.retain(|(_, meant)| range.holds(meant.value) && meant.value > 0.0);
    slips.into_iter().min_by(|a, b| a.0.cmp(&b.0).then(far(&a.1).total_cmp(&far(&b.1)))).map(|(_, meant)| meant)
}

/// `71/2"` as `7-1/2"`.
fn mixed(is: Measure, words: &str) -> Option<Measure> {
    let (top, rest) = words.split_once('/')?;
    if is.style.unit().name != "inch" || !top.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let bottom: String = rest.chars().take_while(char::is_ascii_digit).collect();
    let bottom: f64 = bottom.parse().ok()?;
    let cut = |at: usize| {
        let (whole, top) = (top.get(..at)?.parse::<f64>().ok()?, top.get(at..)?.parse::<f64>().ok()?);
        let value = (whole + top / bottom) * is.style.unit().scale;
        let style = is.style.with(Notation::Fraction(Joint::Hyphen));
        (top < bottom && top > 0.0).then_some(Measure { value, style, ..is })
    };
    (1..top.len()).find_map(cut)
}

/// The same figure in the other units of length.
fn other_units(is: Measure) -> impl Iterator<Item = (Slip, Measure)> {
    let figure = is.value / is.style.unit().scale;
    let units = ["\"", "'", "mm", "cm", "m"].into_iter().filter_map(Unit::spelled);
    let others = units.filter(move |unit| unit.name != is.style.unit().name);
    others.map(move |unit| {
        let metric = unit.system == System::Metric;
        let slip = if metric == is.style.is_metric() { Slip::Unit } else { Slip::Other };
        (slip, Measure { value: figure * unit.scale, style: Style::of(unit), ..is })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{INCH, print};

    fn meant(is: Measure, range: Range, words: &str) -> Option<String> {
        likely(is, range, words).map(print)
    }

    #[test]
    fn the_slip_nearest_to_the_pen_is_offered() {
        let feet = |feet: f64| Measure { style: Style::feet(Joint::Hyphen), ..Measure::inches(12.0 * feet) };
        let guard = Range::inches(12.0, 96.0);
        let riser = Range::inches(2.5, 14.0);
        assert_eq!(meant(feet(36.0), guard, "36'").as_deref(), Some("36\""));
        assert_eq!(meant(Measure::millimetres(18.0), riser, "18 mm").as_deref(), Some("18 cm"));
        assert_eq!(meant(Measure::inches(75.0), riser, "75\"").as_deref(), Some("7-1/2\""));
        assert_eq!(meant(Measure::inches(35.5), riser, "71/2\"").as_deref(), Some("7-1/2\""));
        assert_eq!(meant(Measure::inches(914.0), guard, "914\"").as_deref(), Some("914 mm"));
        assert_eq!(meant(Measure::degrees(900.0), Range { least: 10.0, most: 360.0 }, "900°").as_deref(), Some("90°"));
        assert!(riser.holds(7.5 * INCH));
    }
}
