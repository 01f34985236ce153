//! Whether the coating of fasteners stands the wood that they are in.

use super::evaluation::{Evaluation, word};
use super::formula::Derive;
use super::joint::joined;
use super::missing::{FastenerPart, Missing, Statement};
use super::part::own_timber;
use super::quantity::{Gives, Quantity, ROW};
use crate::handbook::{self, CoatingStands, RICH_IN_TANNIN, WoodFor};
use crate::measure::INCH;
use crate::model::{Id, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[Quantity {
    kind: kinds::JOINT,
    name: "coating stands",
    gives: Gives::Word(&["yes", "by its maker", "no"]),
    help: "whether the coating of its fasteners stands the wood of every member, where the stair stands",
    formula: "the worst that the table of coatings says of a member: of any wood, of wood that is treated, of wood rich in tannin, \
        indoors or outdoors",
    source: "IRC 2021, R317.3.1, for treated wood; else common practice",
    derive: Derive::Whole(|w, id| {
        let fasteners = w.fasteners(id)?;
        let needs = || Missing::statement(id, Statement::OfFasteners(FastenerPart::Coating));
        let coating = fasteners.coating.ok_or_else(needs)?;
        // Thick steel bolts are an exception of the clause; thick screws are none.
        let bolts = matches!(fasteners.kind, "carriage bolt" | "hex bolt");
        let fastened = (coating, if bolts { fasteners.diameter.value / INCH } else { 0.0 });
        let (worst, missing) = match w.word(0, properties::SETTING) {
            Ok(place) => worst_of(w, id, fastened, &place)?,
            Err(setting) => {
                let (indoors, lacks) = worst_of(w, id, fastened, "indoors")?;
                let (outdoors, lacks_too) = worst_of(w, id, fastened, "outdoors")?;
                let missing = if rank(indoors) == rank(outdoors) { lacks.or(lacks_too) } else { Some(setting) };
                (better(indoors, outdoors), missing)
            }
        };
        match (worst, missing) {
            (CoatingStands::Yes | CoatingStands::ByItsMaker, Some(missing)) => Err(missing),
            (CoatingStands::Yes, None) => word("yes"),
            (CoatingStands::ByItsMaker, None) => word("by its maker"),
            (CoatingStands::No, _) => word("no"),
        }
    }),
    ..ROW
}];

/// The worst over all members of a joint in one place, by coating and diameter; and what is missing where a member's wood is
/// not known and may do worse.
fn worst_of(
    w: &Evaluation<'_>,
    id: Id,
    (coating, diameter): (&str, f64),
    place: &str,
) -> Result<(CoatingStands, Option<Missing>), Missing> {
    let stands = |wood| handbook::coating(wood, place, coating, diameter).map_or(CoatingStands::No, |row| row.stands);
    let (mut worst, mut missing) = (CoatingStands::Yes, None);
    for (name, _) in joined(w, id)? {
        let wood = w
            .design
            .joined(id, name)
            .ok_or_else(|| w.missing(id, properties::JOINS))
            .and_then(|member| woods(w, member));
        match wood {
            Ok(woods) => worst = woods.into_iter().map(stands).fold(worst, worse),
            Err(reason) => {
                // Whatever wood it is, it is wood.
                let any = stands(WoodFor::Plain);
                worst = worse(worst, any);
                if [WoodFor::Treated, WoodFor::Tannin].into_iter().any(|wood| rank(stands(wood)) > rank(any)) {
                    missing = missing.or(Some(reason));
                }
            }
        }
    }
    Ok((worst, missing))
}

/// Whether the table of coatings takes a species for one rich in tannin.
pub(super) fn is_rich_in_tannin(species: &str) -> bool {
    RICH_IN_TANNIN.iter().any(|rich| rich.eq_ignore_ascii_case(species))
}

fn rank(stands: CoatingStands) -> u8 {
    match stands {
        CoatingStands::Yes => 0,
        CoatingStands::ByItsMaker => 1,
        CoatingStands::No => 2,
    }
}

fn worse(a: CoatingStands, b: CoatingStands) -> CoatingStands {
    if rank(b) > rank(a) { b } else { a }
}

fn better(a: CoatingStands, b: CoatingStands) -> CoatingStands {
    if rank(b) < rank(a) { b } else { a }
}

/// What the wood of a member does to metal: it may be treated and rich in tannin at once, and rusts it outdoors whatever it
/// is.
fn woods(w: &Evaluation<'_>, member: Id) -> Result<Vec<WoodFor>, Missing> {
    let timber = w.timber(member)?;
    let treated = if timber.is_treated() { vec![WoodFor::Treated] } else { Vec::new() };
    let tannin = match own_timber(w, timber) {
        Some(own) => w.word(own, properties::TANNIN)? == "rich",
        // A timber of the design's own that could not be read may be the one that is named.
        None if w.things(kinds::TIMBER, 0).is_err() => return Err(w.missing(member, properties::TIMBER)),
        None => is_rich_in_tannin(&timber.species),
    };
    let tannin = if tannin { vec![WoodFor::Tannin] } else { Vec::new() };
    Ok([treated, tannin, vec![WoodFor::Plain]].concat())
}
