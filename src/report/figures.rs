//! Values and limits as files of results give them: a number in its unit, and as it is written in the trade.

use serde::Serialize;

use crate::check::Comparison;
use crate::measure::{Measure, print, print_distinct};
use crate::rules::{self, Compared, Relation};

/// A value held against a limit, all in one unit.
#[derive(Debug, Clone, Serialize)]
pub(super) struct Figures {
    pub value: Figure,
    pub relation: &'static str,
    pub limit: Figure,
    /// The room that is left; below nothing by as much as is missed.
    pub margin: Figure,
    /// The unit of the three numbers, singular.
    pub unit: &'static str,
}

/// A number and how it is written.
#[derive(Debug, Clone, Serialize)]
pub(super) struct Figure {
    /// In the unit; none where it is beyond all bounds.
    pub number: Option<f64>,
    pub text: String,
}

impl Figures {
    pub fn new(value: Measure, relation: Relation, limit: Measure) -> Self {
        let value = value.styled(value.style.for_dimension(value.dimension));
        let (is, be) = print_distinct(value, limit, value.style);
        let margin = rules::margin(value, relation, limit);
        let (unit, scale) = unit(value);
        let figure = |measure: Measure, text| {
            let number = measure.value / scale;
            // No negative nothing.
            Figure { number: number.is_finite().then_some(number + 0.0), text }
        };
        Self {
            value: figure(value, is),
            relation: relation.sign(),
            limit: figure(limit, be),
            margin: figure(margin, print(margin)),
            unit,
        }
    }

    pub fn of(comparison: &Comparison) -> Self {
        Self::new(comparison.value, comparison.relation, comparison.limit)
    }

    /// Of what decided; none where words did.
    pub fn of_compared(compared: &Compared) -> Option<Self> {
        match compared {
            Compared::Numbers(value, relation, limit) => Some(Self::new(*value, *relation, *limit)),
            Compared::Words(..) | Compared::Denied => None,
        }
    }
}

impl Figure {
    /// A single figure and its unit.
    pub fn with_unit(measure: Measure) -> (Self, &'static str) {
        let measure = measure.styled(measure.style.for_dimension(measure.dimension));
        let (unit, scale) = unit(measure);
        let number = measure.value / scale;
        (Self { number: number.is_finite().then_some(number + 0.0), text: print(measure) }, unit)
    }
}

/// The unit that a measure is written in, and its size; of a dimension that no unit has, the base units.
fn unit(measure: Measure) -> (&'static str, f64) {
    let unit = measure.style.unit();
    if unit.dimension == measure.dimension { (unit.name, unit.scale) } else { ("base units", 1.0) }
}
