//! The joists of a landing as beams, and what their ends rest on.

use super::evaluation::{Evaluation, number};
use super::fastened::on_the_way;
use super::formula::Derive;
use super::load::{self, length};
use super::member::{Timbered, over, service, timber};
use super::missing::Missing;
use super::place::ELEVATION;
use super::quantity::{GEOMETRY, LENGTH, NUMBER, Quantity, ROW, row};
use crate::mechanics::adjusted::{self, Bears, Duration, Held, Lies, Sharing};
use crate::mechanics::amount::{INCHES, greatest};
use crate::mechanics::beam::{Beam, Effects, bearing_stress, bending_stress, effects, span_over};
use crate::mechanics::notch::{Notched, notched_shear};
use crate::mechanics::section::{Properties, Section};
use crate::mechanics::stringer::line_load;
use crate::mechanics::{Amount, Outside, Working};
use crate::model::{Id, kinds, properties};

const STATICS: &str = "statics; NDS 2018, 3.2 to 3.5 and 4.3, values by its Supplement";

/// What joists may stand out past a beam, in their span: IRC 2015, R507.5, and deck guides after it.
const PAST_A_BEAM: f64 = 0.25;

pub(super) static QUANTITIES: &[Quantity] = &[
    service(kinds::JOIST),
    Quantity {
        kind: kinds::JOIST,
        name: "drawn span",
        gives: LENGTH,
        help: "of joists that run the shorter way from edge to edge of their landing, whatever `span` says",
        formula: "the lesser of depth and width of the landing",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            w.length(w.number(landing, properties::DEPTH)?.min(w.number(landing, properties::WIDTH)?))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "spans",
        gives: NUMBER,
        help: "how many it takes of its span to cross the landing, of which the last may stand out past a beam by a quarter",
        formula: "drawn span / span - 1/4, rounded up, and at least 1",
        source: "IRC 2015, R507.5, for what stands out",
        derive: Derive::Whole(|w, id| {
            let span = w.number(id, properties::SPAN)?;
            let across = w.number(id, DRAWN_SPAN)?;
            number((across / span - PAST_A_BEAM - 1e-9).ceil().max(1.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "props",
        gives: NUMBER,
        help: "how many posts are drawn in its landing that hold it up between its edges",
        formula: "count of the posts of the landing that stand between ends",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let mut props = 0.0;
            w.each(w.things(kinds::POST, landing)?, |post| {
                if on_the_way(w, post)? {
                    props += w.number(post, properties::COUNT)?;
                }
                Ok(())
            })?;
            number(props)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::LANDING,
        name: "bare edge",
        gives: LENGTH,
        help: "how far its deck stands out past the outer joists at each side, if they lie evenly under it",
        formula: "(the longer of depth and width - (count of all joists - 1) x the largest spacing) / 2; in place of the \
            longer the shorter, where a joist spans more than that or is held up on its way",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let (mut count, mut apart, mut lengthwise) = (0.0, 0.0_f64, false);
            let joists: Vec<Id> = w.things(kinds::JOIST, id)?.collect();
            // What to change first: the joists, and not the floor that they carry.
            w.each(joists.iter().copied(), |joist| {
                count += w.number(joist, properties::COUNT)?;
                Ok(())
            })?;
            let (depth, width) = (w.number(id, properties::DEPTH)?, w.number(id, properties::WIDTH)?);
            w.each(joists.iter().copied(), |joist| {
                let span = w.number(joist, properties::SPAN)?;
                lengthwise |= span > depth.min(width) || w.number(joist, SPANS)? > 1.0;
                Ok(())
            })?;
            if count > 1.0 {
                w.each(joists, |joist| {
                    apart = apart.max(w.number(joist, properties::SPACING)?);
                    Ok(())
                })?;
            }
            let beside = if lengthwise { depth.min(width) } else { depth.max(width) };
            w.length((beside - (count - 1.0) * apart) / 2.0)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "leg height",
        gives: LENGTH,
        help: "of the shortest post that is drawn in its landing and holds it up between its edges",
        formula: "smallest height of the posts of the landing that stand between ends",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let mut shortest: Option<f64> = None;
            w.each(w.things(kinds::POST, landing)?, |post| {
                if on_the_way(w, post)? {
                    let height = w.number(post, properties::HEIGHT)?;
                    shortest = Some(shortest.map_or(height, |shortest| shortest.min(height)));
                }
                Ok(())
            })?;
            w.length(shortest.ok_or_else(|| w.not_drawn(landing, kinds::POST))?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "underside",
        gives: LENGTH,
        help: "of it, above the floor at the foot of the stair",
        formula: "elevation of the landing - thickness of the landing - the larger way of section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let elevation = w.number(landing, ELEVATION)?;
            w.length(elevation - w.number(landing, properties::THICKNESS)? - w.section(id)?.depth)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "room beneath",
        gives: LENGTH,
        help: "between its lower edge and the lowest ground beside the stair; less than nothing where it would lie in it",
        formula: "elevation of the landing + the largest below of ground - thickness of the landing - the larger way of \
            section",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let landing = w.the_one(kinds::LANDING, id)?;
            let elevation = w.number(landing, ELEVATION)?;
            let mut lowest: Option<f64> = None;
            w.each(w.things(kinds::GROUND, 0)?, |ground| {
                let below = w.number(ground, properties::BELOW)?;
                lowest = Some(lowest.map_or(below, |lowest| lowest.max(below)));
                Ok(())
            })?;
            let lowest = lowest.ok_or_else(|| w.not_drawn(0, kinds::GROUND))?;
            w.length(elevation + lowest - w.number(landing, properties::THICKNESS)? - w.section(id)?.depth)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "notch share",
        gives: NUMBER,
        help: "how much of its depth the notch at its end takes",
        formula: "notch / the larger way of section",
        source: "IRC 2021, R502.8.1; NDS 2018, 4.4.3",
        derive: Derive::Whole(|w, id| number(w.number(id, properties::NOTCH)? / w.section(id)?.depth)),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "span over deflection",
        help: "the live load on its whole length; where snow lies, the greatest of live load, snow and three quarters of both",
        formula: "L / y",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beam = joist(w, id, working)?;
            let load = load::live_or_snow(w, id, working)?;
            let found = beam.under(working, load)?;
            span_over(working, beam.span, found.deflection).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "bending ratio",
        help: "bending stress over what the timber takes: dead and live load, and with snow where it lies",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let beam = joist(w, id, working)?;
            beam.under_each(w, working, |working, found, lasts| {
                let stress = bending_stress(working, found.moment, beam.section.modulus).map_err(beyond)?;
                let piece = beam.timber.piece(Lies::OnEdge)?;
                let conditions = beam.timber.conditions(lasts, beam.sharing);
                // The deck along one edge, and within 8 ft what holds its ends from rolling: NDS 4.4.1.2.
                let held = if beam.span.per(INCHES) > 96.0 + 1e-9 { Held::OneEdge } else { Held::Bridged };
                let taken = adjusted::bending(working, &piece, conditions, beam.section.depth, held)
                    .map_err(|outside| beam.timber.lacks(outside))?;
                over(id, working, stress, taken)
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "shear ratio",
        help: "shear at its end over what the wood above the notch there takes: dead and live load, and with snow where it \
            lies",
        formula: "V / V_r'",
        source: "NDS 2018, 3.4.3.2 and 4.4.3, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let beam = joist(w, id, working)?;
            let (width, depth) = (beam.section.width, beam.section.depth);
            let left = depth - length(w.number(id, properties::NOTCH)?);
            beam.under_each(w, working, |working, found, lasts| {
                let piece = beam.timber.piece(Lies::OnEdge)?;
                let conditions = beam.timber.conditions(lasts, Sharing::Single);
                let value =
                    adjusted::shear(working, &piece, conditions).map_err(|outside| beam.timber.lacks(outside))?;
                let taken = notched_shear(working, value, width, depth, left, Notched::Stretched).map_err(beyond)?;
                over(id, working, found.shear, taken)
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::JOIST,
        name: "bearing ratio",
        help: "pressure across the grain on its end over what the timber takes: dead and live load, and with snow where it \
            lies",
        formula: "f_c / F_c_perp'",
        source: "statics; NDS 2018, 3.10.2, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            // What to change first: how far it lies on.
            let bears = length(w.number(id, properties::BEARING)?);
            let beam = joist(w, id, working)?;
            beam.under_each(w, working, |working, found, lasts| {
                let stress = bearing_stress(working, found.reaction, beam.section.width, bears)
                    .map_err(|outside| Missing::beyond(id, outside))?;
                let piece = beam.timber.piece(Lies::OnEdge)?;
                let conditions = beam.timber.conditions(lasts, Sharing::Single);
                // It bears at its end, where no wood beside it helps.
                let bears = Bears { length: bears, from_end: 0.0 * INCHES };
                let taken = adjusted::across(working, &piece, conditions, bears)
                    .map_err(|outside| beam.timber.lacks(outside))?;
                over(id, working, stress, taken)
            })
        }),
        ..ROW
    },
];

const DRAWN_SPAN: &Quantity = row(QUANTITIES, kinds::JOIST, "drawn span");
pub(super) const SPANS: &Quantity = row(QUANTITIES, kinds::JOIST, "spans");
pub(super) const PROPS: &Quantity = row(QUANTITIES, kinds::JOIST, "props");

/// A joist as a beam.
struct Joist {
    id: Id,
    timber: Timbered,
    section: Properties,
    span: Amount,
    spacing: Amount,
    sharing: Sharing,
    stiffness: Amount,
}

fn joist(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Joist, Missing> {
    let timber = timber(w, id, working)?;
    let span = length(w.number(id, properties::SPAN)?);
    let spacing = length(w.number(id, properties::SPACING)?);
    // Three of them or more, no farther apart than 24 in, under one deck: NDS 4.3.9.
    let apart = spacing.per(INCHES) > 24.0 + 1e-9;
    let sharing = if w.number(id, properties::COUNT)? < 3.0 || apart { Sharing::Single } else { Sharing::Repetitive };
    let section = Section::on_edge(timber.thickness, timber.width).properties(working);
    let section = section.map_err(|outside| Missing::beyond(id, outside))?;
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenYears, sharing);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
    let stiffness = modulus * section.inertia;
    Ok(Joist { id, timber, section, span, spacing, sharing, stiffness })
}

impl Joist {
    fn under(&self, working: &mut Working, load: Amount) -> Result<Effects, Missing> {
        let beyond = |outside| Missing::beyond(self.id, outside);
        let q = line_load(working, load, self.spacing, self.spacing).map_err(beyond)?;
        effects(working, Beam::SimpleUniform, q, self.span, self.stiffness).map_err(beyond)
    }

    /// The greatest of a ratio under each of the loads that are taken together, each with how long it lasts.
    fn under_each(
        &self,
        w: &Evaluation<'_>,
        working: &mut Working,
        ratio: impl Fn(&mut Working, &Effects, Duration) -> Result<Amount, Missing>,
    ) -> Result<Amount, Missing> {
        let mut most: Option<Amount> = None;
        for (lasts, part, load) in load::on_a_landing(w, self.id, working)? {
            let found = working.part(part, |working| {
                let found = self.under(working, load)?;
                ratio(working, &found, lasts)
            })?;
            most = Some(most.map_or(found, |most| greatest(most, found)));
        }
        most.ok_or_else(|| Missing::beyond(self.id, Outside::NothingThere))
    }
}
