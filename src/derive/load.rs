//! What a stair has to carry: loads on areas and single ones, each with where it is from.

use super::custom::CustomId;
use super::evaluation::Evaluation;
use super::flight::PITCH;
use super::missing::Missing;
use super::part::gravity;
use super::step::RUN;
use crate::handbook::{Certainty, Cited};
use crate::measure::Dimension;
use crate::mechanics::adjusted::Duration;
use crate::mechanics::amount::{POUNDS, PSF, least};
use crate::mechanics::moisture::weight;
use crate::mechanics::{Amount, Assumption, Working, demand};
use crate::model::{Id, kinds, properties};

const fn code(source: &'static str, certainty: Certainty) -> Cited {
    Cited { source, edition: "", certainty }
}

/// A length to be reckoned with.
pub(super) fn length(nanometres: f64) -> Amount {
    Amount::base(nanometres, Dimension::LENGTH)
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

/// The snow on the steps: none indoors; outdoors what the site states.
pub(super) fn snow(w: &Evaluation<'_>, working: &mut Working) -> Result<Amount, Missing> {
    let stated = snow_stated(w)?;
    if !stated.is_positive() {
        return Ok(stated);
    }
    working.assume(Assumption::SnowAsStated);
    Ok(working.given("p_S", "snow", stated, Cited::STATED))
}

/// The snow that the site states; none indoors.
pub(super) fn snow_stated(w: &Evaluation<'_>) -> Result<Amount, Missing> {
    if w.word(0, properties::SETTING)? != "outdoors" {
        return Ok(0.0 * PSF);
    }
    Ok(Amount::base(w.number(0, properties::SNOW)?, Dimension::PRESSURE))
}

/// What comes and goes on a stair: the live load; where snow lies on it, the greatest of live load, snow and both.
pub(super) fn live_or_snow(w: &Evaluation<'_>, id: Id, working: &mut Working) -> Result<Amount, Missing> {
    let (live, snow) = (live(w, working)?, snow(w, working)?);
    if !snow.is_positive() {
        return Ok(live);
    }
    demand::live_or_snow(working, live, snow).map_err(|outside| Missing::beyond(id, outside))
}

const LIVE: &str = "D + L";
const SNOW: &str = "D + S";
const BOTH: &str = "D + 0.75 (L + S)";

/// How long loads last that are taken together, what they are called, and what they come to.
pub(super) type Together = (Duration, &'static str, Amount);

/// The loads on the stringers of a flight that are taken together: ASCE 7 2.4.1, as far as a stair meets them.
pub(super) fn together(w: &Evaluation<'_>, flight: Id, working: &mut Working) -> Result<Vec<Together>, Missing> {
    let dead = dead(w, flight, working)?;
    with_dead(w, flight, working, dead)
}

/// The loads that are taken together with a dead load.
fn with_dead(w: &Evaluation<'_>, id: Id, working: &mut Working, dead: Amount) -> Result<Vec<Together>, Missing> {
    let beyond = |outside| Missing::beyond(id, outside);
    let (live, snow) = (live(w, working)?, snow(w, working)?);
    if !snow.is_positive() {
        let all = demand::dead_and_live(working, dead, live).map_err(beyond)?;
        return Ok(vec![(Duration::TenYears, "", all)]);
    }
    let all = working.part(LIVE, |working| demand::dead_and_live(working, dead, live)).map_err(beyond)?;
    let snowed = working.part(SNOW, |working| demand::dead_and_snow(working, dead, snow)).map_err(beyond)?;
    let both = working.part(BOTH, |working| demand::dead_live_and_snow(working, dead, live, snow)).map_err(beyond)?;
    Ok(vec![(Duration::TenYears, LIVE, all), (Duration::TwoMonths, SNOW, snowed), (Duration::TwoMonths, BOTH, both)])
}

/// The dead load on the level area of a flight: what its treads, riser boards and stringers weigh before they are cut, and
/// at least 10 psf.
pub(super) fn dead(w: &Evaluation<'_>, flight: Id, working: &mut Working) -> Result<Amount, Missing> {
    let beyond = |outside| Missing::beyond(flight, outside);
    let moisture = if w.word(0, properties::SETTING)? == "outdoors" { SATURATED } else { DRY_AT_MOST };
    working.assume(Assumption::OwnWeight);
    working.assume(Assumption::HeavyWithWater);
    let mut all: Option<Amount> = None;
    let mut add = |working: &mut Working, part, id, sizes, over| {
        let parts = working.part(part, |working| {
            let heavy = weight(working, gravity(w, id)?, moisture).map_err(beyond)?;
            demand::spread(working, sizes, heavy, over).map_err(beyond)
        })?;
        all = Some(match all {
            Some(all) => demand::with_those_before(working, all, parts),
            None => parts,
        });
        Ok::<_, Missing>(())
    };
    let level = Amount::degrees(0.0);
    let mut steepest: Option<Amount> = None;
    let mut heaviest: Option<(f64, Id, f64, Amount)> = None;
    for tread in w.things(kinds::TREAD, flight)? {
        let (section, run) = (w.section(tread)?, w.number(tread, RUN)?);
        let boards = match w.looked_up(tread, properties::BOARDS) {
            Some(_) => w.number(tread, properties::BOARDS)?,
            None => {
                w.custom(CustomId::ONE_BOARD, tread);
                1.0
            }
        };
        let weighs = boards * section.thickness * section.depth * gravity(w, tread)?.value / run;
        if heaviest.is_none_or(|(most, ..)| weighs > most) {
            heaviest = Some((weighs, tread, boards, length(run)));
        }
        steepest = Some(steepest.map_or(length(run), |before| least(before, length(run))));
    }
    if let Some((_, tread, boards, run)) = heaviest {
        let section = w.section(tread)?;
        let sizes = (boards, length(section.thickness), length(section.depth));
        add(working, "treads", tread, sizes, (run, level))?;
    }
    w.each(w.things(kinds::RISER_BOARD, flight)?, |board| {
        let section = w.section(board)?;
        let run = steepest.ok_or_else(|| w.not_drawn(flight, kinds::TREAD))?;
        let sizes = (1.0, length(section.thickness), length(section.depth));
        add(working, "riser boards", board, sizes, (run, level))?;
        Ok(())
    })?;
    let pitch = Amount::degrees(w.number(flight, PITCH)?);
    let width = length(w.number(flight, properties::WIDTH)?);
    w.each(w.things(kinds::STRINGER, flight)?, |stringer| {
        let section = w.section(stringer)?;
        let sizes = (w.number(stringer, properties::COUNT)?, length(section.thickness), length(section.depth));
        add(working, "stringers", stringer, sizes, (width, pitch))?;
        Ok(())
    })?;
    let all = all.ok_or_else(|| w.not_drawn(flight, kinds::STRINGER))?;
    demand::dead(working, all, (10.0 * PSF, code("DCA6", Certainty::Seen))).map_err(beyond)
}

/// The loads on the joists of a landing that are taken together.
pub(super) fn on_a_landing(w: &Evaluation<'_>, joist: Id, working: &mut Working) -> Result<Vec<Together>, Missing> {
    let beyond = |outside| Missing::beyond(joist, outside);
    let moisture = if w.word(0, properties::SETTING)? == "outdoors" { SATURATED } else { DRY_AT_MOST };
    let (section, spacing) = (w.section(joist)?, length(w.number(joist, properties::SPACING)?));
    let deck = length(w.number(w.parent(joist), properties::THICKNESS)?);
    w.custom(CustomId::DECK_AS_JOISTS, joist);
    working.assume(Assumption::HeavyWithWater);
    let heavy = weight(working, gravity(w, joist)?, moisture).map_err(beyond)?;
    let over = (spacing, Amount::degrees(0.0));
    let mut spread = |part, sizes| working.part(part, |working| demand::spread(working, sizes, heavy, over));
    let joists = spread("joists", (1.0, length(section.thickness), length(section.depth))).map_err(beyond)?;
    let deck = spread("deck", (1.0, deck, spacing)).map_err(beyond)?;
    let all = demand::with_those_before(working, joists, deck);
    let dead = demand::dead(working, all, (10.0 * PSF, code("DCA6", Certainty::Seen))).map_err(beyond)?;
    with_dead(w, joist, working, dead)
}

/// The moisture up to which wood counts as dry in service, percent: NDS 4.1.4.
const DRY_AT_MOST: f64 = 19.0;

/// The moisture past which water fills wood and swells it no further, percent: NDS Supplement 3.1.3.
const SATURATED: f64 = 30.0;

/// The load on 2 in by 2 in of a tread, which counts by itself.
pub(super) fn on_a_tread(working: &mut Working) -> Amount {
    working.given("P", "load on 2 in by 2 in of one board", 300.0 * POUNDS, code("IRC R301.5, note c", Certainty::Seen))
}

const PUSH: Cited = code("ASCE 7 4.5.1, IRC R301.5, note d", Certainty::Seen);

/// The push on the top of a guard, which counts by itself.
pub(super) fn on_a_guard(working: &mut Working) -> Amount {
    working.given("P", "push at the top of a guard", 200.0 * POUNDS, PUSH)
}

/// The push on a handrail, which counts by itself.
pub(super) fn on_a_handrail(working: &mut Working) -> Amount {
    working.given("P", "push on a handrail", 200.0 * POUNDS, code("IRC R301.5", Certainty::Seen))
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
