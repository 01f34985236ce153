//! What the hand closes round: the section of a handrail, or of a guard's top rail that serves as one.

use super::missing::{Method, Missing, Statement};
use super::quantity::{GEOMETRY, Gives, LENGTH, Quantity, entry};
use super::working::{Datum, Derived, Working};
use crate::model::{Edge, Id, Recess, Section, Shape, Value};

const CLAUSE: &str = "IRC 2021, R311.7.8.5";

macro_rules! grip {
    ($kind:literal) => {
        &[
            entry!($kind "shape" Gives::Word(&["round", "rectangular", "profiled"]), "of its section", "as stated in section", GEOMETRY, |w, id| {
                Working::say(w.section(id)?.shape.word())
            }),
            entry!($kind "diameter" LENGTH, "of a round one", "as stated in section", CLAUSE, |w, id| {
                let section = w.section(id)?;
                if section.shape != Shape::Round {
                    return Err(Missing::outside(id, Method::RoundSection));
                }
                w.length(section.depth)
            }),
            entry!($kind "perimeter" LENGTH, "round its section", "pi x diameter, or 2 x (width + depth) of section", CLAUSE, |w, id| {
                of_section(w, id, "perimeter", |section| section.perimeter)
            }),
            entry!($kind "across" LENGTH, "the farthest that two points of its section lie apart", "sqrt(width^2 + depth^2) of section, or its diameter; across of a profiled one", CLAUSE, |w, id| {
                of_section(w, id, "across", |section| section.across)
            }),
            entry!($kind "edge radius" LENGTH, "of its edges; a round one has none that is sharper", "as stated in edge, or in its section", CLAUSE, |w, id| {
                if w.design.stated(id, "edge").is_some() {
                    return match w.value(id, "edge")? {
                        Value::Edge(Edge::Radius(radius)) => Ok(Datum::Measure(*radius)),
                        _ => w.length(0.0),
                    };
                }
                let section = w.section(id)?;
                if section.shape == Shape::Round {
                    return w.length(section.depth / 2.0);
                }
                w.length(section.edge_radius.ok_or_else(|| w.missing(id, "edge"))?)
            }),
            entry!($kind "recess depth" LENGTH, "of the finger recess at each side; none in a plain round or square one", "recess depth of its section", CLAUSE, |w, id| {
                let section = w.section(id)?;
                if section.shape != Shape::Profiled {
                    return w.length(0.0);
                }
                of_section(w, id, "recess depth", |section| recess(section).depth)
            }),
            entry!($kind "recess start" LENGTH, "plumb, from the tallest point down to where the recess begins", "recess start of its section", CLAUSE, |w, id| {
                of_section(w, id, "recess start", |section| recess(section).start)
            }),
            entry!($kind "recess reached" LENGTH, "plumb, from the widest point down to where the recess has its depth", "recess reached of its section", CLAUSE, |w, id| {
                of_section(w, id, "recess reached", |section| recess(section).reached)
            }),
            entry!($kind "recess kept" LENGTH, "plumb, how far down the recess keeps its depth", "recess kept of its section", CLAUSE, |w, id| {
                of_section(w, id, "recess kept", |section| recess(section).kept)
            }),
            entry!($kind "recess end" LENGTH, "plumb, from the tallest point down to where the recess ends", "recess end of its section", CLAUSE, |w, id| {
                of_section(w, id, "recess end", |section| recess(section).end)
            }),
            entry!($kind "width above recess" LENGTH, "across, at its widest above the recess", "width above recess of its section", CLAUSE, |w, id| {
                of_section(w, id, "width above recess", |section| recess(section).width_above)
            }),
        ]
    };
}

pub(super) static HANDRAIL: &[Quantity] = grip!("handrail");
pub(super) static GUARD: &[Quantity] = grip!("guard");

fn recess(section: &Section) -> Recess {
    section.recess.unwrap_or_default()
}

fn of_section(w: &Working<'_>, id: Id, name: &'static str, of: impl Fn(&Section) -> Option<f64>) -> Derived {
    let section = w.section(id)?;
    w.length(of(&section).ok_or_else(|| Missing::statement(id, Statement::OfSection(name)))?)
}
