//! What a stair has to carry: loads on areas and single ones, each with where it is from.

use super::evaluation::Evaluation;
use super::missing::Missing;
use crate::handbook::{Certainty, Cited};
use crate::mechanics::amount::{POUNDS, PSF};
use crate::mechanics::{Amount, Assumption, Working};
use crate::model::properties;

const fn code(source: &'static str, certainty: Certainty) -> Cited {
    Cited { source, edition: "", certainty }
}

/// The live load on a stair by who climbs it: 40 psf in a dwelling, 100 psf elsewhere.
pub(super) fn live(w: &Evaluation<'_>, working: &mut Working) -> Result<Amount, Missing> {
    Ok(match w.word(0, properties::USE)?.as_ref() {
        "dwelling" => {
            working.given("p_L", "live load, stairs of a dwelling", 40.0 * PSF, code("IRC R301.5", Certainty::Seen))
        }
        _ => working.given("p_L", "live load, other stairs", 100.0 * PSF, code("IBC Table 1607.1", Certainty::Seen)),
    })
}

/// The dead load: what the parts of a wooden stair weigh comes to less.
pub(super) fn dead(working: &mut Working) -> Amount {
    working.assume(Assumption::OwnWeight);
    working.given("p_D", "dead load", 10.0 * PSF, code("DCA6", Certainty::Seen))
}

/// The load on 2 in by 2 in of a tread, which counts by itself.
pub(super) fn on_a_tread(working: &mut Working) -> Amount {
    working.given("P", "load on 2 in by 2 in of one board", 300.0 * POUNDS, code("IRC R301.5, note c", Certainty::Seen))
}

const PUSH: Cited = code("ASCE 7 4.5.1, IRC R301.5, note d", Certainty::Seen);

/// The push on the top of a guard, which counts by itself.
pub(super) fn on_a_guard(working: &mut Working) -> Amount {
    working.given("P", "push at the top of a guard", 200.0 * POUNDS, PUSH)
}

/// The push on the infill of a guard, which counts by itself.
pub(super) fn on_infill(working: &mut Working) -> Amount {
    working.given(
        "P",
        "push on a square foot of infill, all of it on one",
        50.0 * POUNDS,
        code("IRC R301.5", Certainty::Memory),
    )
}
