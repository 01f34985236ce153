//! Where a stringer rests, at its head and its foot: what a notch leaves there, and what presses on the wood.

use super::datum::Derived;
use super::evaluation::{Evaluation, number};
use super::flight::PITCH;
use super::formula::Derive;
use super::load::length;
use super::member::{At, over, stringer};
use super::missing::Missing;
use super::quantity::{LENGTH, NUMBER, Quantity, ROW};
use super::stringer::THROAT;
use crate::mechanics::adjusted::{self, Bears, Held, Lies, Sharing};
use crate::mechanics::amount::INCHES;
use crate::mechanics::beam::{bearing_stress, bending_stress};
use crate::mechanics::notch::{Notched, notched_shear};
use crate::mechanics::section::Section;
use crate::mechanics::stringer::moment_beside;
use crate::mechanics::{Amount, Outside, Working};
use crate::model::{Id, PropertyName, kinds, properties};

const NOTCH: &str = "NDS 2018, 3.4.3.2 and 4.4.3, values by its Supplement";
const LEFT: &str = "NDS 2018, 3.3 and 4.4.3, values by its Supplement";
const ANGLE: &str = "NDS 2018, 3.10.2 and 3.10.3, values by its Supplement";

/// An end of a stringer, by what is stated of it.
#[derive(Clone, Copy)]
struct End {
    notch: PropertyName,
    bearing: PropertyName,
}

const HEAD: End = End { notch: properties::HEAD_NOTCH, bearing: properties::HEAD_BEARING };
const FOOT: End = End { notch: properties::FOOT_NOTCH, bearing: properties::FOOT_BEARING };

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::STRINGER,
        name: "seat depth",
        gives: LENGTH,
        help: "how deep its head has to be cut into to lie level on its ledger, square to its slope",
        formula: "head bearing x sin(pitch)",
        source: "plane geometry: a level cut into a board at a slope",
        derive: Derive::Whole(|w, id| {
            let bears = w.number(id, properties::HEAD_BEARING)?;
            let pitch = w.number(w.flight_of(id)?, PITCH)?;
            w.length(bears * pitch.to_radians().sin())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "head notch share",
        gives: NUMBER,
        help: "how much of its depth the notch at its head takes: of a notched one, of its throat",
        formula: "head notch / throat",
        source: NOTCH,
        derive: Derive::Whole(|w, id| share(w, id, HEAD)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "foot notch share",
        gives: NUMBER,
        help: "how much of its depth the notch at its foot takes: of a notched one, of its throat",
        formula: "foot notch / throat",
        source: NOTCH,
        derive: Derive::Whole(|w, id| share(w, id, FOOT)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "head shear ratio",
        help: "shear at its head over what the wood above the notch takes; of a notched one by its throat",
        formula: "V / V_r'",
        source: NOTCH,
        derive: Derive::Mechanics(|w, id, working| shears(w, id, working, HEAD)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "foot shear ratio",
        help: "shear at its foot over what the wood above the notch takes; of a notched one by its throat",
        formula: "V / V_r'",
        source: NOTCH,
        derive: Derive::Mechanics(|w, id, working| shears(w, id, working, FOOT)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "head bending ratio",
        help: "bending stress where the notch at its head ends, over what the timber takes; of a notched one by its throat",
        formula: "f_b / F_b'",
        source: LEFT,
        derive: Derive::Mechanics(|w, id, working| bends(w, id, working, HEAD)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "foot bending ratio",
        help: "bending stress where the notch at its foot ends, over what the timber takes; of a notched one by its throat",
        formula: "f_b / F_b'",
        source: LEFT,
        derive: Derive::Mechanics(|w, id, working| bends(w, id, working, FOOT)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "head bearing ratio",
        help: "pressure on its head where it lies on a ledger, at its slope to the grain, over what the timber takes",
        formula: "f_c / F_theta'",
        source: ANGLE,
        derive: Derive::Mechanics(|w, id, working| presses(w, id, working, HEAD)),
        ..ROW
    },
    Quantity {
        kind: kinds::STRINGER,
        name: "foot bearing ratio",
        help: "pressure on its foot, at its slope to the grain, over what the timber takes",
        formula: "f_c / F_theta'",
        source: ANGLE,
        derive: Derive::Mechanics(|w, id, working| presses(w, id, working, FOOT)),
        ..ROW
    },
];

fn share(w: &Evaluation<'_>, id: Id, end: End) -> Derived {
    let notch = w.number(id, end.notch)?;
    number(notch / w.number(id, THROAT)?)
}

/// The shear at an end over what the wood left at its notch takes: NDS 3.4.3.2.
fn shears(w: &Evaluation<'_>, id: Id, working: &mut Working, end: End) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let beam = stringer(w, id, working)?;
    let (width, depth) = (beam.section.width, beam.section.depth);
    let left = depth - length(w.number(id, end.notch)?);
    beam.under_each(w, working, At::AnEnd, |working, found, lasts| {
        let piece = beam.timber.piece(Lies::OnEdge)?;
        let conditions = beam.timber.conditions(lasts, Sharing::Single);
        let value = adjusted::shear(working, &piece, conditions).map_err(|outside| beam.timber.lacks(outside))?;
        let taken = notched_shear(working, value, width, depth, left, Notched::Stretched).map_err(beyond)?;
        over(id, working, found.shear, taken)
    })
}

/// The bending stress at the inner end of a notch, on what it leaves. It reaches as far in as the bearing.
fn bends(w: &Evaluation<'_>, id: Id, working: &mut Working, end: End) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let beam = stringer(w, id, working)?;
    let (width, depth) = (beam.section.width, beam.section.depth);
    let notch = length(w.number(id, end.notch)?);
    if (0.25 * depth).is_below(notch) {
        return Err(beyond(Outside::Notch));
    }
    let reach = length(w.number(id, end.bearing)?);
    let left = Section::on_edge(width, depth - notch).properties(working).map_err(beyond)?;
    beam.under_each(w, working, At::AnEnd, |working, found, lasts| {
        let moment = moment_beside(working, found.reaction, reach, beam.span).map_err(beyond)?;
        let stress = bending_stress(working, moment, left.modulus).map_err(beyond)?;
        let piece = beam.timber.piece(Lies::OnEdge)?;
        let conditions = beam.timber.conditions(lasts, Sharing::Single);
        let held = if beam.cut { Held::OneEdge } else { Held::Bridged };
        let taken = adjusted::bending(working, &piece, conditions, depth, held)
            .map_err(|outside| beam.timber.lacks(outside))?;
        over(id, working, stress, taken)
    })
}

/// The pressure of the force on an end over what its timber takes at that angle: the force is plumb, the grain at the slope.
fn presses(w: &Evaluation<'_>, id: Id, working: &mut Working, end: End) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    // What to change first: how far it lies on.
    let bears = length(w.number(id, end.bearing)?);
    let beam = stringer(w, id, working)?;
    let angle = Amount::degrees(90.0) - beam.pitch;
    beam.under_each(w, working, At::AnEnd, |working, found, lasts| {
        let stress = bearing_stress(working, found.reaction, beam.timber.thickness, bears).map_err(beyond)?;
        let piece = beam.timber.piece(Lies::OnEdge)?;
        let conditions = beam.timber.conditions(lasts, Sharing::Single);
        // It bears at its end, where no wood beside it helps.
        let bears = Bears { length: bears, from_end: 0.0 * INCHES };
        let taken = adjusted::at_an_angle(working, &piece, conditions, bears, angle)
            .map_err(|outside| beam.timber.lacks(outside))?;
        over(id, working, stress, taken)
    })
}
