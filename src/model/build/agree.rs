//! Whether two statements of one fact say the same.

use crate::measure::{Marks, Measure, equal, mark};
use crate::model::value::{Balusters, Edge, Fasteners, Section, Value};

/// Whether two values are the same, however they are written. What was not understood agrees with nothing.
pub(super) fn agree(one: Option<&Value>, other: Option<&Value>) -> bool {
    let (Some(one), Some(other)) = (one, other) else { return false };
    match (one, other) {
        (Value::Measure(one), Value::Measure(other)) => same(*one, *other),
        (Value::List(one), Value::List(other)) => {
            one.len() == other.len()
                && one.iter().zip(other.iter()).all(|(one, other)| same(one.measure, other.measure))
        }
        (Value::Names(one), Value::Names(other)) => {
            one.len() == other.len()
                && one.iter().zip(other).all(|((one, _), (other, _))| one.eq_ignore_ascii_case(other))
        }
        (Value::Section(one), Value::Section(other)) => sections(one, other),
        (Value::Edge(one), Value::Edge(other)) => edges(one, other),
        (Value::Balusters(one), Value::Balusters(other)) => balusters(one, other),
        (Value::Fasteners(one), Value::Fasteners(other)) => fasteners(one, other),
        _ => one == other,
    }
}

/// Whether two measures are the same: exactly in one unit, in two units to half a mark of the coarser.
fn same(one: Measure, other: Measure) -> bool {
    let apart = (one.value - other.value).abs();
    let marks = [one, other].map(|measure| mark(measure.style, Marks::Plain) / 2.0);
    let metric = one.style.unit().system != other.style.unit().system;
    one.dimension == other.dimension
        && (equal(one.value, other.value, one.dimension) || metric && apart <= marks.into_iter().fold(0.0, f64::max))
}

fn both(one: Option<Measure>, other: Option<Measure>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => same(one, other),
        (one, other) => one.is_none() && other.is_none(),
    }
}

fn sections(one: &Section, other: &Section) -> bool {
    let way = |value, of: &Section| Measure { value, ..of.measure };
    *one == Section { measure: one.measure, ..*other }
        || one.shape == other.shape
            && one.recess == other.recess
            && one.edge_radius == other.edge_radius
            && same(way(one.thickness, one), way(other.thickness, other))
            && same(way(one.depth, one), way(other.depth, other))
}

fn edges(one: &Edge, other: &Edge) -> bool {
    match (one, other) {
        (Edge::Radius(one), Edge::Radius(other)) | (Edge::Bevel(one), Edge::Bevel(other)) => same(*one, *other),
        _ => one == other,
    }
}

fn balusters(one: &Balusters, other: &Balusters) -> bool {
    same(one.width, other.width) && both(one.every, other.every) && one.count == other.count
}

fn fasteners(one: &Fasteners, other: &Fasteners) -> bool {
    same(one.diameter, other.diameter)
        && both(one.length, other.length)
        && (one.kind, one.count) == (other.kind, other.count)
        && one.coating == other.coating
}
