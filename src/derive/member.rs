//! Treads and stringers as beams: what a load does to them, over what they can take.

use super::custom::CustomId;
use super::evaluation::{Evaluation, number, word};
use super::flight::{PITCH, RUN};
use super::formula::Derive;
use super::load::{self, length};
use super::missing::{Method, Missing, Statement};
use super::part::{known_timber, own_timber};
use super::quantity::{GEOMETRY, Gives, LENGTH, PRESSURE, Quantity, ROW, row};
use super::stringer::THROAT;
use super::tread_ends::OVERHANG;
use super::winder::SHAPE;
use crate::handbook::{DesignValues, Table};
use crate::measure::Dimension;
use crate::mechanics::adjusted::{
    self, Bears, Conditions, Duration, Faces, Held, Lies, Piece, Service, Sharing, values_for, values_of_species,
};
use crate::mechanics::amount::{Amount, INCHES, PSI, greatest};
use crate::mechanics::beam::{Beam, Effects, bearing_stress, bending_stress, effects, shear_stress, span_over};
use crate::mechanics::demand::{dead_and_live, ratio};
use crate::mechanics::section::{Properties, Section};
use crate::mechanics::stringer::{Sloped, line_load, over_a_prop, sloped};
use crate::mechanics::{Assumption, Lacking, Outside, Working};
use crate::model::{Id, Kind, Shape, kinds, properties};

const STATICS: &str = "statics; NDS 2018, 3.2 to 3.5 and 4.3, values by its Supplement";

pub(super) static QUANTITIES: &[Quantity] = &[
    service(kinds::TREAD),
    service(kinds::STRINGER),
    service(kinds::POST),
    service(kinds::GUARD),
    Quantity {
        kind: kinds::TREAD,
        name: "clear span",
        gives: LENGTH,
        help: "of its boards, from face to face of what carries them",
        formula: "span as stated, else spacing of the stringers - their thickness; between two solid ones the length of a \
            board, between two housed ones that less what is let in",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let span = clear_span(w, id)?;
            w.length(span)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "drawn span",
        gives: LENGTH,
        help: "of its boards, from face to face of the stringers that are drawn, whatever `span` says",
        formula: "spacing of the stringers - their thickness; between two solid ones the length of a board, between two \
            housed ones that less what is let in",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let span = drawn_span(w, id)?;
            w.length(span)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "span over deflection",
        help: "of one board laid flat, 300 lb in the middle of one span",
        formula: "clear span / (P x clear span^3 / (48 x E' x I))",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let (_, span, deflection) = tread(w, id, working)?;
            span_over(working, span, deflection).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "bending ratio",
        help: "bending stress over what the timber takes: one board laid flat, 300 lb in the middle of one span",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let timber = timber(w, id, working)?;
            let span = length(w.number(id, CLEAR_SPAN)?);
            let load = load::on_a_tread(working);
            let beyond = |outside| Missing::beyond(id, outside);
            let piece = timber.piece(Lies::Flat)?;
            let flat = Section::flat(timber.thickness, timber.width).properties(working).map_err(beyond)?;
            let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
            // A load in the middle bends as stiffness has no say in it: any stiffness gives the same moment.
            let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
            let found = effects(working, Beam::SimpleMiddle, load, span, modulus * flat.inertia).map_err(beyond)?;
            let stress = bending_stress(working, found.moment, flat.modulus).map_err(beyond)?;
            let held = Held::BothEdges;
            let taken = adjusted::bending(working, &piece, conditions, timber.thickness, held)
                .map_err(|outside| timber.lacks(outside))?;
            over(id, working, stress, taken)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "rests on",
        gives: Gives::Word(&[NOTCHES, HOUSINGS, FASTENERS, CLEATS, BRACKETS]),
        help: "what carries its ends",
        formula: "notches of notched stringers, housings of housed ones, else cleats or brackets where held by says so, else \
            fasteners",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| word(carried_on(w, id)?)),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "overhang bending ratio",
        help: "bending stress over what the timber takes: one board laid flat, 300 lb at the tip of what stands out past the \
            outer stringer",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            // What to change first: the board, and then how far it stands out.
            let timber = timber(w, id, working)?;
            let found = tipped(w, id, working, &timber)?;
            let flat = Section::flat(timber.thickness, timber.width).properties(working).map_err(beyond)?;
            let stress = bending_stress(working, found.moment, flat.modulus).map_err(beyond)?;
            let piece = timber.piece(Lies::Flat)?;
            let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
            let taken = adjusted::bending(working, &piece, conditions, timber.thickness, Held::BothEdges)
                .map_err(|outside| timber.lacks(outside))?;
            over(id, working, stress, taken)
        }),
        ..ROW
    },
    // A cantilever's span counts twice: IRC R301.7, note on cantilevers.
    Quantity {
        kind: kinds::TREAD,
        name: "overhang over deflection",
        help: "of one board laid flat, 300 lb at the tip of what stands out past the outer stringer; twice what stands out over \
            how far its tip goes down",
        formula: "2 x overhang / (P x overhang^2 x (clear span + overhang) / (3 x E' x I))",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let timber = timber(w, id, working)?;
            let found = tipped(w, id, working, &timber)?;
            let twice = 2.0 * length(w.number(id, OVERHANG)?);
            span_over(working, twice, found.deflection).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "shear ratio",
        help: "shear stress over what the timber takes: one board laid flat, 300 lb beside a support",
        formula: "f_v / F_v'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let timber = timber(w, id, working)?;
            let load = load::on_a_tread(working);
            let stress = shear_stress(working, load, timber.width, timber.thickness);
            let stress = stress.map_err(|outside| Missing::beyond(id, outside))?;
            let piece = timber.piece(Lies::Flat)?;
            let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
            let taken = adjusted::shear(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
            over(id, working, stress, taken)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::TREAD,
        name: "bearing ratio",
        help: "pressure across the grain over what the timber takes: one board on a notch or in a housing, 300 lb beside it",
        formula: "f_c / F_c_perp'",
        source: "statics; NDS 2018, 3.10.2, values by its Supplement",
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let (_, bears) = rests_on(w, id)?;
            let bears = bears.ok_or_else(|| beyond(Outside::NothingThere))?;
            let timber = timber(w, id, working)?;
            let load = load::on_a_tread(working);
            let stress = bearing_stress(working, load, timber.width, length(bears)).map_err(beyond)?;
            let piece = timber.piece(Lies::Flat)?;
            let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
            // It bears at its end, where no wood beside it helps.
            let bears = Bears { length: length(bears), from_end: 0.0 * INCHES };
            let taken =
                adjusted::across(working, &piece, conditions, bears).map_err(|outside| timber.lacks(outside))?;
            over(id, working, stress, taken)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "level span",
        gives: LENGTH,
        help: "from support to support, level",
        formula: "span as stated, else run of its flight",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let span = if w.looked_up(id, properties::SPAN).is_some() {
                w.number(id, properties::SPAN)?
            } else {
                let run = w.number(straight_flight(w, id)?, RUN)?;
                w.custom(CustomId::OVER_THE_RUN, id);
                run
            };
            w.length(span)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "spans",
        help: "how many it has: more than one where it is held up between foot and head",
        formula: "1 where no span is stated, or one as long as the run of its flight or nearly; else run of its flight / span, \
            rounded up",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::SPAN).is_none() {
                return number(1.0);
            }
            let run = w.number(straight_flight(w, id)?, RUN)?;
            // A twentieth is what a span is measured short of the run by, from support to support.
            number((run / w.number(id, LEVEL_SPAN)? - 0.05).ceil().max(1.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "load width",
        gives: LENGTH,
        help: "how wide a strip of the stair loads the one that carries most: half the distance to each neighbour",
        formula: "of two, width of flight / 2; of more, the greater of spacing and (width of flight - (count - 2) x spacing) / 2",
        source: "statics",
        derive: Derive::Whole(|w, id| {
            let count = w.number(id, properties::COUNT)?;
            if count < 2.0 {
                // Of two that are unlike neither is the only one.
                let alone = w.things(kinds::STRINGER, w.flight_of(id)?)?.count() < 2;
                let method = if alone { Method::SeveralStringers } else { Method::StringersAlike };
                return Err(Missing::outside(id, method));
            }
            let width = w.number(straight_flight(w, id)?, properties::WIDTH)?;
            if count < 3.0 {
                return w.length(width / 2.0);
            }
            let spacing = w.number(id, properties::SPACING)?;
            w.length(spacing.max((width - (count - 2.0) * spacing) / 2.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "dead load",
        gives: PRESSURE,
        help: "what the parts of its flight weigh on the level area, and at least 10 psf",
        formula: "the greater of 10 psf and the weight of a tread / its run + that of a riser board / the least run \
            + that of the stringers / (width of flight x cos(pitch))",
        source: "weight of wood by NDS Supplement 3.1.3; 10 psf by DCA6",
        derive: Derive::Mechanics(|w, id, working| load::dead(w, straight_flight(w, id)?, working)),
        ..ROW
    },
    Quantity {
        kind: kinds::STAIR,
        name: "snow load",
        gives: PRESSURE,
        help: "on its steps",
        formula: "indoors none; outdoors snow as stated",
        source: "ASCE 7 2.4.1",
        derive: Derive::Whole(|w, _| w.measure(load::snow_stated(w)?.in_base(), Dimension::PRESSURE)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "span over deflection",
        help: "of the one that carries most, the live load on its whole length, along the slope; where snow lies, the \
            greatest of live load, snow and three quarters of both",
        formula: "L_s / y",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beam = stringer(w, id, working)?;
            let load = load::live_or_snow(w, id, working)?;
            let found = beam.under(working, load, At::Props)?;
            span_over(working, found.length, found.deflection).map_err(|outside| Missing::beyond(id, outside))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "bending ratio",
        help: "bending stress over what the timber takes, of the one that carries most: dead and live load, and with snow where \
            it lies",
        formula: "f_b / F_b'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let beam = stringer(w, id, working)?;
            beam.under_each(w, working, At::Props, |working, found, lasts| {
                let stress = bending_stress(working, found.moment, beam.section.modulus).map_err(beyond)?;
                let piece = beam.timber.piece(Lies::OnEdge)?;
                let conditions = beam.timber.conditions(lasts, Sharing::Single);
                // Treads along one edge, or between the two: NDS 4.4.1.2.
                let held = if beam.cut { Held::OneEdge } else { Held::Bridged };
                let taken = adjusted::bending(working, &piece, conditions, beam.section.depth, held)
                    .map_err(|outside| beam.timber.lacks(outside))?;
                over(id, working, stress, taken)
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "worst load",
        gives: Gives::Word(&[DEAD_AND_LIVE, DEAD_AND_SNOW, ALL_THREE]),
        help: "which of the loads taken together asks most of it, with how long each lasts",
        formula: "the greatest of D + L, (D + S) / 1.15 and (D + 0.75 (L + S)) / 1.15",
        source: "ASCE 7 2.4.1; NDS 2018, 2.3.2",
        derive: Derive::Whole(|w, id| {
            let mut worst: Option<(f64, &'static str)> = None;
            let working = &mut Working::default();
            let called = [DEAD_AND_LIVE, DEAD_AND_SNOW, ALL_THREE];
            for ((lasts, _, load), called) in
                load::together(w, straight_flight(w, id)?, working)?.into_iter().zip(called)
            {
                let factor = adjusted::duration(working, lasts).map_err(|outside| Missing::beyond(id, outside))?;
                let asks = (load / factor).in_base();
                if worst.is_none_or(|(most, _)| asks > most) {
                    worst = Some((asks, called));
                }
            }
            word(worst.map_or(DEAD_AND_LIVE, |(_, called)| called))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "shear ratio",
        help: "shear stress over what the timber takes, of the one that carries most: dead and live load, and with snow where \
            it lies",
        formula: "f_v / F_v'",
        source: STATICS,
        derive: Derive::Mechanics(|w, id, working| {
            let beyond = |outside| Missing::beyond(id, outside);
            let beam = stringer(w, id, working)?;
            beam.under_each(w, working, At::Props, |working, found, lasts| {
                let (width, depth) = (beam.section.width, beam.section.depth);
                let stress = shear_stress(working, found.shear, width, depth).map_err(beyond)?;
                let piece = beam.timber.piece(Lies::OnEdge)?;
                let conditions = beam.timber.conditions(lasts, Sharing::Single);
                let taken =
                    adjusted::shear(working, &piece, conditions).map_err(|outside| beam.timber.lacks(outside))?;
                over(id, working, stress, taken)
            })
        }),
        ..ROW
    },
];

/// Whether the timber of a part is wet where it stands.
pub(super) const fn service(kind: &'static Kind) -> Quantity {
    Quantity {
        kind,
        name: "service",
        gives: Gives::Word(&["wet", "dry"]),
        help: "whether its timber counts as wet in service",
        formula: "wet outdoors, dry indoors",
        source: "NDS 2018, 4.1.4; outdoors is an assumption",
        derive: Derive::Whole(|w, _| word(if w.word(0, properties::SETTING)? == "outdoors" { "wet" } else { "dry" })),
        ..ROW
    }
}

const DEAD_AND_LIVE: &str = "dead and live load";
const DEAD_AND_SNOW: &str = "dead load and snow";
const ALL_THREE: &str = "dead load, live load and snow";

const NOTCHES: &str = "notches";
const HOUSINGS: &str = "housings";
const FASTENERS: &str = "fasteners";
const CLEATS: &str = "cleats";
const BRACKETS: &str = "brackets";

/// What carries the ends of a tread. How far they lie on it is asked only where its stringers are unlike.
fn carried_on(w: &Evaluation<'_>, id: Id) -> Result<&'static str, Missing> {
    let flight = w.flight_of(id)?;
    let (mut notched, mut housed, mut solid) = (false, false, false);
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        match w.word(stringer, properties::CUT)?.as_ref() {
            "notched" => notched = true,
            "housed" => housed = true,
            _ => solid = true,
        }
        Ok(())
    })?;
    match (notched, housed, solid) {
        (true, false, false) => Ok(NOTCHES),
        (false, true, false) => Ok(HOUSINGS),
        _ => Ok(rests_on(w, id)?.0),
    }
}

/// What carries the ends of a tread, and how far they lie on it: the least of its stringers.
fn rests_on(w: &Evaluation<'_>, id: Id) -> Result<(&'static str, Option<f64>), Missing> {
    let flight = w.flight_of(id)?;
    let mut found: Option<(&'static str, Option<f64>)> = None;
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        let here = match w.word(stringer, properties::CUT)?.as_ref() {
            "notched" => (NOTCHES, Some(w.section(stringer)?.thickness)),
            "housed" => (HOUSINGS, Some(w.number(stringer, properties::HOUSING)?)),
            _ => (FASTENERS, None),
        };
        found = Some(match found {
            None => here,
            // What hangs on one side hangs.
            Some((_, None)) => (FASTENERS, None),
            Some((_, Some(_))) if here.1.is_none() => here,
            Some((on, Some(least))) => match here.1 {
                Some(bears) if bears < least => here,
                _ => (on, Some(least)),
            },
        });
        Ok(())
    })?;
    match found {
        None => Err(w.not_drawn(flight, kinds::STRINGER)),
        Some((FASTENERS, _)) if w.looked_up(id, properties::HELD_BY).is_some() => {
            let by = w.word(id, properties::HELD_BY)?;
            let on = [CLEATS, BRACKETS].into_iter().find(|on| *on == by.as_ref());
            Ok((on.unwrap_or(FASTENERS), None))
        }
        Some(found) => Ok(found),
    }
}

const CLEAR_SPAN: &Quantity = row(QUANTITIES, kinds::TREAD, "clear span");
const LEVEL_SPAN: &Quantity = row(QUANTITIES, kinds::STRINGER, "level span");
pub(super) const SPANS: &Quantity = row(QUANTITIES, kinds::STRINGER, "spans");
pub(super) const LOAD_WIDTH: &Quantity = row(QUANTITIES, kinds::STRINGER, "load width");

/// A demand on an element over what it takes.
pub(super) fn over(id: Id, working: &mut Working, demand: Amount, taken: Amount) -> Result<Amount, Missing> {
    ratio(working, demand, taken).map_err(|outside| Missing::beyond(id, outside))
}

/// The timber of a member and what it meets.
pub(super) struct Timbered {
    id: Id,
    /// Its reference design values; of a thin board nothing but its stiffness. Or why there are none.
    values: Result<DesignValues, Outside>,
    /// The lesser way of its section.
    pub(super) thickness: Amount,
    /// The greater.
    pub(super) width: Amount,
    service: Service,
    faces: Faces,
}

impl Timbered {
    /// As a piece that lies so.
    pub(super) fn piece(&self, lies: Lies) -> Result<Piece<'_>, Missing> {
        let values = self.values.as_ref().map_err(|outside| Missing::beyond(self.id, *outside))?;
        // A thin board goes by the stiffness of lumber, and by the factors of that.
        let thickness = greatest(self.thickness, 1.5 * INCHES);
        Ok(Piece { values, thickness, width: greatest(self.width, thickness), lies })
    }

    /// What is missing where a method has no value: of a timber of the user's own, what it would have to state.
    pub(super) fn lacks(&self, outside: Outside) -> Missing {
        let own = self.values.is_ok_and(|values| values.table == Table::Own);
        let thin = self.thickness.is_below(1.5 * INCHES);
        let Outside::Lacking(lacking) = outside else { return Missing::beyond(self.id, outside) };
        let property = match lacking {
            Lacking::Bending | Lacking::Shear | Lacking::Across | Lacking::Compression if !own && thin => {
                return Missing::beyond(self.id, Outside::ThinBoard);
            }
            Lacking::Bending => properties::BENDING,
            Lacking::Shear => properties::SHEAR,
            Lacking::Across => properties::CRUSHING,
            Lacking::Compression => properties::COMPRESSION,
            Lacking::Stiffness => properties::ELASTICITY,
            Lacking::LeastStiffness => properties::LEAST_ELASTICITY,
            _ => return Missing::beyond(self.id, outside),
        };
        match own {
            true => Missing::statement(self.id, Statement::OfTimber(property)),
            false => Missing::beyond(self.id, outside),
        }
    }

    pub(super) fn conditions(&self, duration: Duration, sharing: Sharing) -> Conditions {
        Conditions { service: self.service, duration, sharing, faces: self.faces }
    }
}

/// Species of which the cells take a preservative without being cut open: common practice, no source.
const TAKES_PRESERVATIVE: &[&str] = &["southern pine", "mixed southern pine", "ponderosa pine", "pine", "scots pine"];

/// The timber of a member by what is stated of it, and whether it is wet where it stands.
pub(super) fn timber(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Timbered, Missing> {
    let section = w.section(id)?;
    if section.shape == Shape::Profiled {
        return Err(Missing::outside(id, Method::PlainSection));
    }
    as_section(w, id, working, (length(section.thickness), length(section.depth)))
}

/// The timber of a member as a piece of a section, by what is stated of it.
pub(super) fn as_section(
    w: &Evaluation<'_>,
    id: Id,
    working: &mut Working,
    (thickness, width): (Amount, Amount),
) -> Result<Timbered, Missing> {
    let stated = w.timber(id)?;
    let service = match w.word(0, properties::SETTING)?.as_ref() {
        "outdoors" => {
            working.assume(Assumption::WetOutdoors);
            Service::Wet
        }
        _ => {
            working.assume(Assumption::DryIndoors);
            Service::Dry
        }
    };
    if let Some(own) = own_timber(w, stated) {
        let values = Ok(own_values(w, own)?);
        return Ok(Timbered { id, values, thickness, width, service, faces: Faces::Plain });
    }
    if stated.is_fire_retardant() {
        return Err(Missing::beyond(id, Outside::FireRetardant));
    }
    let species = known_timber(id, stated, properties::GRAVITY)?;
    let faces = if stated.is_treated() && !species.hardwood && !TAKES_PRESERVATIVE.contains(&species.name) {
        working.assume(Assumption::Incised);
        Faces::Incised
    } else {
        Faces::Plain
    };
    let graded = |grade: &str| values_for(species.name, grade, thickness, width).copied();
    let values = match graded(stated.grade.map_or("", |grade| grade.name)) {
        Err(Outside::ThinBoard) => values_of_species(working, species.name),
        Err(_) if stated.grade.is_none() => return Err(Missing::statement(id, Statement::GradeOfTimber)),
        values => values,
    };
    Ok(Timbered { id, values, thickness, width, service, faces })
}

/// The design values that a timber of the user's own states; they hold as they are stated, for its size and its use.
fn own_values(w: &Evaluation<'_>, own: Id) -> Result<DesignValues, Missing> {
    let psi = |property| match w.looked_up(own, property) {
        Some(_) => Ok(Some(Amount::base(w.number(own, property)?, Dimension::PRESSURE).per(PSI))),
        None => Ok(None),
    };
    Ok(DesignValues {
        bending: psi(properties::BENDING)?,
        shear: psi(properties::SHEAR)?,
        across: psi(properties::CRUSHING)?,
        compression: psi(properties::COMPRESSION)?,
        stiffness: psi(properties::ELASTICITY)?,
        least: psi(properties::LEAST_ELASTICITY)?,
        ..DesignValues::OWN
    })
}

/// A tread's board as a beam under the single load: its timber, its span, its deflection.
fn tread(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<(Timbered, Amount, Amount), Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let timber = timber(w, id, working)?;
    let span = length(w.number(id, CLEAR_SPAN)?);
    let load = load::on_a_tread(working);
    let piece = timber.piece(Lies::Flat)?;
    let flat = Section::flat(timber.thickness, timber.width).properties(working).map_err(beyond)?;
    let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
    let found = effects(working, Beam::SimpleMiddle, load, span, modulus * flat.inertia).map_err(beyond)?;
    Ok((timber, span, found.deflection))
}

/// What 300 lb at the tip of what a tread stands out past its outer stringer do to one board of it.
fn tipped(w: &Evaluation<'_>, id: Id, working: &mut Working, timber: &Timbered) -> Result<Effects, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let out = length(w.number(id, OVERHANG)?);
    let behind = length(w.number(id, CLEAR_SPAN)?);
    let load = load::on_a_tread(working);
    let piece = timber.piece(Lies::Flat)?;
    let flat = Section::flat(timber.thickness, timber.width).properties(working).map_err(beyond)?;
    let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
    effects(working, Beam::OverhangEnd(behind), load, out, modulus * flat.inertia).map_err(beyond)
}

fn clear_span(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    if w.looked_up(id, properties::SPAN).is_some() { w.number(id, properties::SPAN) } else { drawn_span(w, id) }
}

/// From face to face of the stringers that carry a tread, as they are drawn.
fn drawn_span(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    let is_one = w.design.get(id).is_some_and(|tread| tread.step.is_some());
    if is_one && w.word(id, SHAPE)? != "rectangular" {
        return Err(Missing::outside(id, Method::StraightStringer));
    }
    // Of all together, where they cannot be told one from another, some may taper.
    let flight = if is_one { w.flight_of(id)? } else { straight_flight(w, id)? };
    let mut widest: Option<f64> = None;
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        let span = span_on(w, id, stringer)?;
        widest = Some(widest.map_or(span, |widest| widest.max(span)));
        Ok(())
    })?;
    widest.ok_or_else(|| w.not_drawn(flight, kinds::STRINGER))
}

/// How far a tread spans on the stringers of one block.
fn span_on(w: &Evaluation<'_>, tread: Id, stringer: Id) -> Result<f64, Missing> {
    let spaced = w.looked_up(stringer, properties::SPACING).is_some();
    let cut = if spaced { "notched".into() } else { w.word(stringer, properties::CUT)? };
    Ok(match cut.as_ref() {
        "notched" => w.number(stringer, properties::SPACING)? - w.section(stringer)?.thickness,
        "housed" => w.number(tread, properties::LENGTH)? - 2.0 * w.number(stringer, properties::HOUSING)?,
        _ => w.number(tread, properties::LENGTH)?,
    })
}

/// A flight whose stringers are straight.
fn straight_flight(w: &Evaluation<'_>, id: Id) -> Result<Id, Missing> {
    let flight = w.flight_of(id)?;
    if w.things(kinds::WINDERS, flight)?.next().is_some() || w.word(flight, super::flight::SPIRAL)? != "no" {
        return Err(Missing::outside(id, Method::StraightStringer));
    }
    Ok(flight)
}

/// Run and width of a flight that is straight.
pub(super) fn on_the_level(w: &Evaluation<'_>, flight: Id) -> Result<(Amount, Amount), Missing> {
    let flight = straight_flight(w, flight)?;
    Ok((length(w.number(flight, RUN)?), length(w.number(flight, properties::WIDTH)?)))
}

/// Where what a load does to a stringer is asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum At {
    /// Wherever it is most: over a prop, where there is one.
    Props,
    /// At its head or its foot, where no more reaches it than of one span.
    AnEnd,
}

/// A stringer as a sloped beam.
pub(super) struct Stringer {
    id: Id,
    flight: Id,
    pub(super) timber: Timbered,
    pub(super) section: Properties,
    /// Whether treads are cut into it.
    pub(super) cut: bool,
    pub(super) span: Amount,
    spans: f64,
    width: Amount,
    pub(super) pitch: Amount,
    stiffness: Amount,
}

pub(super) fn stringer(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Stringer, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let timber = timber(w, id, working)?;
    let span = length(w.number(id, LEVEL_SPAN)?);
    let spans = w.number(id, SPANS)?;
    let width = length(w.number(id, LOAD_WIDTH)?);
    let flight = straight_flight(w, id)?;
    let pitch = Amount::degrees(w.number(flight, PITCH)?);
    let cut = w.word(id, properties::CUT)?;
    let mut thickness = timber.thickness;
    if cut == "housed" {
        thickness = thickness - length(w.number(id, properties::HOUSING)?);
    }
    let depth = length(w.number(id, THROAT)?);
    let section = Section::on_edge(thickness, depth).properties(working).map_err(beyond)?;
    let piece = timber.piece(Lies::OnEdge)?;
    let conditions = timber.conditions(Duration::TenYears, Sharing::Single);
    let modulus = adjusted::stiffness(working, &piece, conditions).map_err(|outside| timber.lacks(outside))?;
    let stiffness = modulus * section.inertia;
    Ok(Stringer { id, flight, cut: cut == "notched", timber, section, span, spans, width, pitch, stiffness })
}

/// The force of a stringer on each of its supports: dead load, and the greatest of what comes and goes. What takes it is
/// reckoned as for a live load, snow or none.
pub(super) fn reaction(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beam = stringer(w, id, working)?;
    let (dead, load) = (load::dead(w, beam.flight, working)?, load::live_or_snow(w, id, working)?);
    let all = dead_and_live(working, dead, load).map_err(|outside| Missing::beyond(id, outside))?;
    Ok(beam.under(working, all, At::Props)?.reaction)
}

impl Stringer {
    fn under(&self, working: &mut Working, load: Amount, at: At) -> Result<Sloped, Missing> {
        let beyond = |outside| Missing::beyond(self.id, outside);
        let q = line_load(working, load, self.width, self.width).map_err(beyond)?;
        let found = sloped(working, q, self.span, self.pitch, self.stiffness).map_err(beyond)?;
        if self.spans < 2.0 || at == At::AnEnd {
            return Ok(found);
        }
        let (reaction, shear) = over_a_prop(working, q, self.span, self.pitch).map_err(beyond)?;
        Ok(Sloped { reaction, shear, ..found })
    }

    /// Its force on the support that takes most, under each of the loads that are taken together.
    pub(super) fn reactions(&self, w: &Evaluation<'_>, working: &mut Working) -> Result<Vec<load::Together>, Missing> {
        let mut all = Vec::new();
        for (lasts, part, load) in load::together(w, self.flight, working)? {
            let found = working.part(part, |working| self.under(working, load, At::Props))?;
            all.push((lasts, part, found.reaction));
        }
        Ok(all)
    }

    /// The greatest of a ratio under each of the loads that are taken together, each with how long it lasts.
    pub(super) fn under_each(
        &self,
        w: &Evaluation<'_>,
        working: &mut Working,
        at: At,
        ratio: impl Fn(&mut Working, &Sloped, Duration) -> Result<Amount, Missing>,
    ) -> Result<Amount, Missing> {
        let mut most: Option<Amount> = None;
        for (lasts, part, load) in load::together(w, self.flight, working)? {
            let found = working.part(part, |working| {
                let found = self.under(working, load, at)?;
                ratio(working, &found, lasts)
            })?;
            most = Some(most.map_or(found, |most| greatest(most, found)));
        }
        most.ok_or_else(|| Missing::beyond(self.id, Outside::NothingThere))
    }
}
