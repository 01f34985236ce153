//! What the hand closes round: the section of a handrail, or of a guard's top rail that serves as one.

use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, word};
use super::formula::{Derive, Formula, Way};
use super::missing::{Method, Missing, Statement};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, ROW};
use crate::model::{Edge, Id, Kind, PropertyName, Recess, Section, Shape, Value, kinds, properties};

const CLAUSE: &str = "IRC 2021, R311.7.8.5";

/// Of a handrail, and of a guard's top rail.
const fn rows(kind: &'static Kind) -> [Quantity; 13] {
    [
        Quantity {
            kind,
            name: "shape",
            gives: Gives::Word(&["round", "rectangular", "profiled"]),
            help: "of its section",
            formula: "as stated in section",
            source: GEOMETRY,
            derive: Derive::Whole(|w, id| word(w.section(id)?.shape.word())),
            ..ROW
        },
        Quantity {
            kind,
            name: "diameter",
            gives: LENGTH,
            help: "of a round one",
            formula: "as stated in section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| {
                let section = w.section(id)?;
                if section.shape != Shape::Round {
                    return Err(Missing::outside(id, Method::RoundSection));
                }
                w.length(section.depth)
            }),
            ..ROW
        },
        Quantity {
            kind,
            name: "thinner way",
            gives: LENGTH,
            help: "the smaller way of its section",
            source: GEOMETRY,
            derive: Derive::Formula(&Formula::Section(Way::Smaller)),
            ..ROW
        },
        Quantity {
            kind,
            name: "larger way",
            gives: LENGTH,
            help: "the larger way of its section",
            source: GEOMETRY,
            derive: Derive::Formula(&Formula::Section(Way::Larger)),
            ..ROW
        },
        Quantity {
            kind,
            name: "perimeter",
            gives: LENGTH,
            help: "round its section",
            formula: "pi x diameter of a round one; else perimeter as stated in its section, or 2 x (width + depth)",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| of_section(w, id, properties::PERIMETER, |section| section.perimeter)),
            ..ROW
        },
        Quantity {
            kind,
            name: "across",
            gives: LENGTH,
            help: "the farthest that two points of its section lie apart",
            formula: "diameter of a round one; else across as stated in its section, or sqrt(width^2 + depth^2)",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| of_section(w, id, properties::ACROSS, |section| section.across)),
            ..ROW
        },
        Quantity {
            kind,
            name: "edge radius",
            gives: LENGTH,
            help: "of its edges; a round one has none that is sharper",
            formula: "as stated in edge, or in its section; half the way across of a round one",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| {
                if w.looked_up(id, properties::EDGE).is_some() {
                    return match w.value(id, properties::EDGE)? {
                        Value::Edge(Edge::Radius(radius)) => Ok(Datum::Measure(*radius)),
                        _ => w.length(0.0),
                    };
                }
                let section = w.section(id)?;
                if section.shape == Shape::Round {
                    return w.length(section.depth / 2.0);
                }
                w.length(section.edge_radius.ok_or_else(|| w.missing(id, properties::EDGE))?)
            }),
            ..ROW
        },
        Quantity {
            kind,
            name: "recess depth",
            gives: LENGTH,
            help: "of the finger recess at each side; none in a plain round or square one",
            formula: "recess depth of its section, none where it has no profile",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| {
                let section = w.section(id)?;
                if section.shape != Shape::Profiled {
                    return w.length(0.0);
                }
                of_section(w, id, properties::RECESS_DEPTH, |section| recess(section).depth)
            }),
            ..ROW
        },
        Quantity {
            kind,
            name: "recess start",
            gives: LENGTH,
            help: "plumb, from the tallest point down to where the recess begins",
            formula: "recess start of its section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| of_section(w, id, properties::RECESS_START, |section| recess(section).start)),
            ..ROW
        },
        Quantity {
            kind,
            name: "recess reached",
            gives: LENGTH,
            help: "plumb, from the widest point down to where the recess has its depth",
            formula: "recess reached of its section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| {
                of_section(w, id, properties::RECESS_REACHED, |section| recess(section).reached)
            }),
            ..ROW
        },
        Quantity {
            kind,
            name: "recess kept",
            gives: LENGTH,
            help: "plumb, how far down the recess keeps its depth",
            formula: "recess kept of its section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| of_section(w, id, properties::RECESS_KEPT, |section| recess(section).kept)),
            ..ROW
        },
        Quantity {
            kind,
            name: "recess end",
            gives: LENGTH,
            help: "plumb, from the tallest point down to where the recess ends",
            formula: "recess end of its section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| of_section(w, id, properties::RECESS_END, |section| recess(section).end)),
            ..ROW
        },
        Quantity {
            kind,
            name: "width above recess",
            gives: LENGTH,
            help: "across, at its widest above the recess",
            formula: "width above recess of its section",
            source: CLAUSE,
            derive: Derive::Whole(|w, id| {
                of_section(w, id, properties::WIDTH_ABOVE_RECESS, |section| recess(section).width_above)
            }),
            ..ROW
        },
    ]
}

pub(super) static HANDRAIL: &[Quantity] = &rows(kinds::HANDRAIL);
pub(super) static GUARD: &[Quantity] = &rows(kinds::GUARD);

fn recess(section: &Section) -> Recess {
    section.recess.unwrap_or_default()
}

fn of_section(w: &Evaluation<'_>, id: Id, name: PropertyName, of: impl Fn(&Section) -> Option<f64>) -> Derived {
    let section = w.section(id)?;
    w.length(of(section).ok_or_else(|| Missing::statement(id, Statement::OfSection(name)))?)
}
