//! Stated values that are more than a number.

use std::borrow::Cow;
use std::sync::Arc;

use super::finishes::Finish;
use super::timbers::{FIRE_RETARDANT, Grade, Lasts, Treatment};
use crate::base::Span;
use crate::measure::Measure;

/// A stated value.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Value {
    /// A number.
    Measure(Measure),
    /// One for all, or one a step.
    List(Arc<[ListItem]>),
    /// A word of a closed list, or free words.
    Word(Cow<'static, str>),
    /// How a surface is treated.
    Finish(Finish),
    /// Several words of a closed list.
    Words(Vec<&'static str>),
    /// Names, each with its place.
    Names(Vec<(String, Span)>),
    /// A section.
    Section(Section),
    /// A timber.
    Timber(Timber),
    /// An edge.
    Edge(Edge),
    /// Balusters.
    Balusters(Balusters),
    /// Fasteners.
    Fasteners(Fasteners),
}

impl Value {
    /// Whether it is the same as another, wherever the words of the two stand in their texts.
    pub(super) fn says_the_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Value::List(one), Value::List(other)) => {
                one.iter().map(|item| item.measure).eq(other.iter().map(|item| item.measure))
            }
            (Value::Names(one), Value::Names(other)) => {
                one.iter().map(|(name, _)| name).eq(other.iter().map(|(name, _)| name))
            }
            (Value::Balusters(one), Value::Balusters(other)) => one.says_the_same(other),
            (Value::Fasteners(one), Value::Fasteners(other)) => one.says_the_same(other),
            _ => self == other,
        }
    }
}

/// One item of a list, with the words that state it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ListItem {
    /// The number.
    pub measure: Measure,
    /// Its place; items of `4 of 7"` share one.
    pub span: Span,
}

/// A section across a member. Lengths in nanometres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    /// Round, rectangular, or profiled.
    pub shape: Shape,
    /// The smaller way, or the diameter.
    pub thickness: f64,
    /// The larger way, or the diameter.
    pub depth: f64,
    /// Round the outside, where stated or plain from the shape.
    pub perimeter: Option<f64>,
    /// The farthest that two points of it lie apart, where stated or plain from the shape.
    pub across: Option<f64>,
    /// How lengths of it are written.
    pub measure: Measure,
    /// Of its edges, where stated.
    pub edge_radius: Option<f64>,
    /// The finger recess at each side of a handrail, where it has one.
    pub recess: Option<Recess>,
}

/// A finger recess at each side of a handrail, as far as it is stated. Lengths in nanometres, plumb but for the
/// depth and the width.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Recess {
    /// From the tallest point down to where it begins.
    pub start: Option<f64>,
    /// How deep it goes in.
    pub depth: Option<f64>,
    /// From the widest point down to where it is that deep.
    pub reached: Option<f64>,
    /// How far down it stays that deep.
    pub kept: Option<f64>,
    /// From the tallest point down to where it ends.
    pub end: Option<f64>,
    /// Across the rail, at its widest above the recess.
    pub width_above: Option<f64>,
}

impl Section {
    /// A rectangle with plain edges.
    pub fn rectangle(a: Measure, b: Measure) -> Self {
        let (thin, wide) = if a.value <= b.value { (a, b) } else { (b, a) };
        Self {
            shape: Shape::Rectangular,
            thickness: thin.value,
            depth: wide.value,
            perimeter: Some(2.0 * (thin.value + wide.value)),
            across: Some(thin.value.hypot(wide.value)),
            // Where only one way is metric, the section is not written in metric.
            measure: if thin.style.is_metric() { wide } else { wide.styled(thin.style) },
            edge_radius: None,
            recess: None,
        }
    }

    /// A circle.
    pub fn round(diameter: Measure) -> Self {
        Self {
            shape: Shape::Round,
            thickness: diameter.value,
            depth: diameter.value,
            perimeter: Some(std::f64::consts::PI * diameter.value),
            across: Some(diameter.value),
            measure: diameter,
            edge_radius: None,
            recess: None,
        }
    }
}

/// Shape of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A circle.
    Round,
    /// A rectangle.
    Rectangular,
    /// Anything else.
    Profiled,
}

impl Shape {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Shape::Round => "round",
            Shape::Rectangular => "rectangular",
            Shape::Profiled => "profiled",
        }
    }
}

/// A timber.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timber {
    /// Species or the user's own name for it, lower case.
    pub species: String,
    /// Its grade, where it is stated.
    pub grade: Option<&'static Grade>,
    /// What was done to it before it was built in.
    pub treatments: Vec<&'static Treatment>,
}

impl Timber {
    /// Whether it was treated against fire, which takes strength from it that only the treater can say.
    pub fn is_fire_retardant(&self) -> bool {
        self.treatments.iter().any(|treatment| treatment.name == FIRE_RETARDANT)
    }

    /// Whether a preservative was forced into it.
    pub fn is_treated(&self) -> bool {
        self.treatments.iter().any(|treatment| treatment.lasts == Lasts::Preserved)
    }
}

/// How a front edge is worked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Edge {
    /// Left square.
    Square,
    /// Rounded.
    Radius(Measure),
    /// Bevelled.
    Bevel(Measure),
}

/// Balusters of a guard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balusters {
    /// Width along the guard: the narrower way of their section.
    pub width: Measure,
    /// The wider way of their section.
    pub deep: Measure,
    /// Level, centre to centre.
    pub every: Option<Measure>,
    /// How many between two posts.
    pub count: Option<f64>,
    /// The words of the spacing, or of the number.
    pub varies: Span,
}

impl Balusters {
    fn says_the_same(&self, other: &Self) -> bool {
        let Self { width, deep, every, count, varies: _ } = self;
        (width, deep, every, count) == (&other.width, &other.deep, &other.every, &other.count)
    }
}

/// Fasteners of a joint.
#[derive(Debug, Clone, PartialEq)]
pub struct Fasteners {
    /// How many.
    pub count: f64,
    /// The words of how many.
    pub count_words: Span,
    /// `carriage bolt`, `hex bolt`, `lag`, `wood screw`, `nail`.
    pub kind: &'static str,
    /// Shank diameter.
    pub diameter: Measure,
    /// The words of the diameter, where it is stated as a figure.
    pub diameter_words: Option<Span>,
    /// Under the head to the tip.
    pub length: Option<Measure>,
    /// The words of the length, where it is stated by itself.
    pub length_words: Option<Span>,
    /// `galvanised`, `stainless`, `coated`; not stated is not known.
    pub coating: Option<&'static str>,
}

impl Fasteners {
    fn says_the_same(&self, other: &Self) -> bool {
        let Self { count, count_words: _, kind, diameter, diameter_words: _, length, length_words: _, coating } = self;
        (count, kind, diameter, length, coating)
            == (&other.count, &other.kind, &other.diameter, &other.length, &other.coating)
    }
}
