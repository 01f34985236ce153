//! The header or the rim that the strings of a flight hang on, as a beam under them.

use super::evaluation::Evaluation;
use super::formula::Derive;
use super::load::{self, length};
use super::member::{self, Timbered, over, service, timber};
use super::missing::Missing;
use super::place::PLACE;
use super::quantity::{Quantity, ROW};
use crate::mechanics::adjusted::{self, Duration, Held, Lies, Sharing};
use crate::mechanics::amount::greatest;
use crate::mechanics::beam::{Effects, bending_stress, shear_stress, span_over};
use crate::mechanics::header::{load_on_a_header, under_strings};
use crate::mechanics::section::{Properties, Section};
use crate::mechanics::{Amount, Outside, Working};
use crate::model::{Id, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    service(kinds::HEADER),
    Quantity {
        kind: kinds::HEADER,
        name: "span over deflection",
        help: "live load of half the flight and of the strip of floor; where snow lies, the \
            greatest of live load, snow and three quarters of both",
        formula: "L / y",
        source: "statics; NDS 2018, 3.2 to 3.4 and 4.3, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let header = header(w, id, working)?;
            let load = load::live_or_snow(w, id, working)?;
            let found = header.under(working, load)?;
            span_over(working, header.span, found.deflection).map_err(|outside| Missing::beyond(header.id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HEADER,
        name: "bending ratio",
        help: "bending stress over what the timber takes, dead and live load, and with snow \
            where it lies",
        formula: "f_b / F_b'",
        source: "statics; NDS 2018, 3.2 to 3.4 and 4.3, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let header = header(w, id, working)?;
            let beyond = |outside| Missing::beyond(header.id, outside);
            header.under_each(w, working, |working, found, lasts| {
                let stress = bending_stress(working, found.moment, header.section.modulus).map_err(beyond)?;
                let piece = header.timber.piece(Lies::OnEdge)?;
                let conditions = header.timber.conditions(lasts, Sharing::Single);
                // The floor along one edge, and what is framed into its side: NDS 4.4.1.2.
                let taken = adjusted::bending(working, &piece, conditions, header.timber.width, Held::Bridged)
                    .map_err(|outside| header.timber.lacks(outside))?;
                over(header.id, working, stress, taken)
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::HEADER,
        name: "shear ratio",
        help: "shear stress over what the timber takes, dead and live load, and with snow \
            where it lies",
        formula: "f_v / F_v'",
        source: "statics; NDS 2018, 3.2 to 3.4 and 4.3, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let header = header(w, id, working)?;
            header.under_each(w, working, |working, found, lasts| {
                let (width, depth) = (header.section.width, header.section.depth);
                let stress = shear_stress(working, found.shear, width, depth)
                    .map_err(|outside| Missing::beyond(header.id, outside))?;
                let piece = header.timber.piece(Lies::OnEdge)?;
                let conditions = header.timber.conditions(lasts, Sharing::Single);
                let taken =
                    adjusted::shear(working, &piece, conditions).map_err(|outside| header.timber.lacks(outside))?;
                over(header.id, working, stress, taken)
            })
        }),
        ..ROW
    },
];

/// A header as a beam.
struct Header {
    id: Id,
    flight: Id,
    timber: Timbered,
    section: Properties,
    span: Amount,
    strip: Amount,
    run: Amount,
    apart: Amount,
    stiffness: Amount,
}

/// The flight whose strings hang on a header.
fn flight_on(w: &Evaluation<'_>, id: Id) -> Result<Id, Missing> {
    // Flights and landings that could not be read may be its own.
    let _ = w.things(kinds::FLIGHT, 0)?;
    let landing = w.parent(id);
    if w.design.is(landing, kinds::LANDING) {
        let _ = w.word(landing, PLACE)?;
    }
    w.design.flight_on(id).ok_or_else(|| w.not_drawn(id, kinds::FLIGHT))
}

fn header(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Header, Missing> {
    let flight = flight_on(w, id)?;
    let beyond = |outside| Missing::beyond(id, outside);
    let timber = timber(w, id, working)?;
    let span = length(w.number(id, properties::SPAN)?);
    let strip = length(w.number(id, properties::STRIP_OF_FLOOR)?);
    let boards = w.number(id, properties::COUNT)?;
    let (run, _) = member::on_the_level(w, flight)?;
    let mut apart: Option<f64> = None;
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        let here = w.number(stringer, member::LOAD_WIDTH)?;
        apart = Some(apart.map_or(here, |apart| apart.max(here)));
        Ok(())
    })?;
    let apart = length(apart.ok_or_else(|| w.not_drawn(flight, kinds::STRINGER))?);
    let section = Section::on_edge(timber.thickness * boards, timber.width).properties(working).map_err(beyond)?;
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
    let stiffness = modulus * section.inertia;
    Ok(Header { id, flight, timber, section, span, strip, run, apart, stiffness })
}

impl Header {
    fn under(&self, working: &mut Working, load: Amount) -> Result<Effects, Missing> {
        let beyond = |outside| Missing::beyond(self.id, outside);
        let q = load_on_a_header(working, load, self.run, self.strip).map_err(beyond)?;
        under_strings(working, q, self.span, self.apart, self.stiffness).map_err(beyond)
    }

    /// The greatest of a ratio under each of the loads that are taken together, each with how long it lasts.
    fn under_each(
        &self,
        w: &Evaluation<'_>,
        working: &mut Working,
        ratio: impl Fn(&mut Working, &Effects, Duration) -> Result<Amount, Missing>,
    ) -> Result<Amount, Missing> {
        let mut most: Option<Amount> = None;
        for (lasts, part, load) in load::together(w, self.flight, working)? {
            let found = working.part(part, |working| {
                let found = self.under(working, load)?;
                ratio(working, &found, lasts)
            })?;
            most = Some(most.map_or(found, |most| greatest(most, found)));
        }
        most.ok_or_else(|| Missing::beyond(self.id, Outside::NothingThere))
    }
}
