//! What keeps one from falling: its place, its drop, and the openings a body or a head could pass.

use super::datum::{Datum, Derived};
use super::evaluation::{Evaluation, number, word};
use super::flight::{RISE, RISER_FACES, RUN as FLIGHT_RUN};
use super::formula::Formula::{
    self, Asks, Each, List, Minus, Name, Number, Only, Otherwise, Over, Plus, Root, Square, Stated, Times, With,
};
use super::formula::{Derive, Fold, Of, Things};
use super::missing::{Method, Missing, Reason};
use super::place::{drop_at, edge_at, sides, stands_beside};
use super::quantity::{GEOMETRY, Gives, LENGTH, NUMBER, Quantity, ROW, row};
use super::reading::values;
use super::step::{BOARD_THICKNESS, NOSING};
use crate::measure::{Dimension, equal};
use crate::model::{Balusters, INFILLS, Id, PropertyName, Side, Value, kinds, properties};

pub(super) static QUANTITIES: &[Quantity] = &[
    Quantity {
        kind: kinds::GUARD,
        name: "place",
        gives: Gives::Word(&["flight", "level"]),
        help: "beside the steps, or beside a landing",
        formula: "level where it guards a landing or a well",
        source: "IRC 2021, R312.1.2",
        derive: Derive::Whole(|w, id| word(if landing_of(w, id).is_some() { "level" } else { "flight" })),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "side",
        gives: Gives::Word(&["left", "right", "far", "near"]),
        help: "at which it stands, as one goes up",
        formula: "as its head says",
        source: "the drawing",
        derive: Derive::Whole(|w, id| {
            let side = w.design.get(id).and_then(|guard| guard.side);
            word(side.ok_or_else(|| w.side_not_known(id))?.word())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "drop within",
        shown_at: "36\"",
        gives: LENGTH,
        help: "the deepest beside what it guards, to the lowest ground so far out",
        formula: "largest of elevation + below + so far out x slope at each side that it may stand at",
        source: "IRC 2021, R312.1.1",
        derive: Derive::At(|w, id, reach| {
            let side = w.design.get(id).and_then(|guard| guard.side);
            let place = landing_of(w, id);
            let sides: Vec<Side> = match (side, place) {
                (Some(side), _) => vec![side],
                (None, Some(landing)) => sides(w, landing)?,
                (None, None) => vec![Side::Left, Side::Right],
            };
            let surfaces: Vec<Id> = match place {
                Some(landing) => vec![landing],
                None => {
                    let flight = w.flight_of(id)?;
                    let treads: Vec<Id> = w.design.belonging(kinds::TREAD, flight).collect();
                    if treads.iter().all(|tread| w.design.get(*tread).is_none_or(|tread| tread.step.is_none())) {
                        return Err(w.missing(flight, properties::RUNS));
                    }
                    let mut beside = Vec::new();
                    for tread in treads {
                        if stands_beside(w, id, w.step(tread))? {
                            beside.push(tread);
                        }
                    }
                    beside
                }
            };
            let mut deepest: f64 = 0.0;
            for surface in surfaces {
                for side in &sides {
                    deepest = deepest.max(drop_at(w, surface, *side, reach)?);
                }
            }
            w.length(deepest)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "baluster width",
        gives: LENGTH,
        help: "of one baluster along the guard",
        formula: "as stated in balusters",
        source: "PS 20 for nominal sizes",
        derive: Derive::Whole(|w, id| {
            let width = balusters(w, id)?.width;
            Ok(Datum::Measure(width))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "baluster count",
        gives: NUMBER,
        help: "between two posts",
        formula: "as stated in balusters, else the fewest that leave no end gap wider than the gap \
            between two; with end gaps stated, as many as fit between them",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let balusters = balusters(w, id)?;
            match (balusters.count, balusters.every) {
                (Some(count), _) => number(count),
                (None, Some(every)) => {
                    let clear = w.number(id, properties::BETWEEN_POSTS)?;
                    let fit = |clear: f64| ((clear - balusters.width.value) / every.value + 1e-9).floor() + 1.0;
                    if w.looked_up(id, properties::END_GAP).is_some() {
                        return number(fit(clear - 2.0 * w.number(id, properties::END_GAP)?).max(0.0));
                    }
                    let gaps = 2.0 * (every.value - balusters.width.value);
                    let even = ((clear - balusters.width.value - gaps) / every.value - 1e-9).ceil() + 1.0;
                    number(even.max(1.0).min(fit(clear)).max(0.0))
                }
                (None, None) => Err(w.missing(id, properties::BALUSTERS)),
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "baluster gap",
        gives: LENGTH,
        help: "clear between two balusters, level",
        formula: "every - width of balusters; of counted ones what the end gaps leave between them, (between posts - \
            2 x end gap - baluster count x baluster width) / (baluster count - 1), else even gap",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let balusters = balusters(w, id)?;
            match balusters.every {
                Some(every) => {
                    w.number(id, BALUSTER_WIDTH)?;
                    w.length(every.value - balusters.width.value)
                }
                None if balusters.count.is_some_and(|count| count > 1.0)
                    && w.looked_up(id, properties::END_GAP).is_some() =>
                {
                    let clear = w.number(id, properties::BETWEEN_POSTS)?;
                    let ends = 2.0 * w.number(id, properties::END_GAP)?;
                    let count = w.number(id, BALUSTER_COUNT)?;
                    w.length((clear - ends - count * w.number(id, BALUSTER_WIDTH)?) / (count - 1.0))
                }
                None => {
                    let gap = w.number(id, EVEN_GAP)?;
                    w.length(gap)
                }
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "even gap",
        gives: LENGTH,
        help: "if the balusters stood evenly between the posts",
        source: "common practice",
        derive: Derive::Formula(&Over(
            &Minus(
                &Stated(Of::This, properties::BETWEEN_POSTS),
                &Times(&Asks(Of::This, || BALUSTER_COUNT), &Asks(Of::This, || BALUSTER_WIDTH)),
            ),
            &Plus(&Asks(Of::This, || BALUSTER_COUNT), &Number(1.0)),
        )),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "end gap",
        gives: LENGTH,
        help: "between the last baluster and its post",
        formula: "end gap as stated, else (between posts - baluster width - (baluster count - 1) x every) / 2",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::END_GAP).is_some() {
                return w.length(w.number(id, properties::END_GAP)?);
            }
            let clear = w.number(id, properties::BETWEEN_POSTS).map_err(|_| w.missing(id, properties::END_GAP))?;
            let balusters = balusters(w, id)?;
            let count = w.number(id, BALUSTER_COUNT)?;
            let width = w.number(id, BALUSTER_WIDTH)?;
            match balusters.every {
                Some(every) => w.length((clear - width - (count - 1.0) * every.value) / 2.0),
                None => w.length(w.number(id, EVEN_GAP)?),
            }
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "baluster remainder",
        gives: LENGTH,
        help: "what balusters so far apart and their end gaps leave of the room between the posts, or take too much",
        formula: "between posts - 2 x end gap - baluster width, less the nearest multiple of every",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let clear = w.number(id, properties::BETWEEN_POSTS)?;
            let ends = 2.0 * w.number(id, properties::END_GAP)?;
            let every = balusters(w, id)?.every.ok_or_else(|| w.missing(id, properties::BALUSTERS))?.value;
            let room = clear - ends - w.number(id, BALUSTER_WIDTH)?;
            w.length(room - every * (room / every).round())
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "bottom gap",
        gives: LENGTH,
        help: "square off the line of the nosings to the underside of the bottom rail; none below a wall",
        formula: "bottom gap as stated; nothing below a wall",
        source: "IRC 2021, R312.1.3",
        derive: Derive::Whole(|w, id| {
            let stands = w.looked_up(id, properties::INFILL).is_some() && w.word(id, properties::INFILL)? == "wall";
            if stands && w.looked_up(id, properties::BOTTOM_GAP).is_none() {
                return w.length(0.0);
            }
            w.datum(id, properties::BOTTOM_GAP)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "level gap",
        gives: LENGTH,
        help: "clear between two rails or cables that run level, plumb; cables are pushed apart by the ball",
        formula: "every - width of rails or cables, of counted ones (height - bottom gap - count x width) / count; of \
            cables 2 x give more; of rails that lie on edge the wider way for the width",
        source: "IRC 2021, R312.1.3; what a cable gives is measured",
        derive: Derive::Whole(|w, id| {
            let cables = w.looked_up(id, properties::CABLES).is_some();
            let property = if cables { properties::CABLES } else { properties::RAILS };
            let Value::Balusters(level) = w.value(id, property)? else { return Err(w.missing(id, property)) };
            let one_way = equal(level.width.value, level.deep.value, Dimension::LENGTH);
            let plumb = match cables || one_way || w.word(id, properties::RAILS_LIE)? == "flat" {
                true => level.width.value,
                false => level.deep.value,
            };
            let apart = match (level.every, level.count) {
                (Some(every), _) => every.value - plumb,
                (None, count) => {
                    let count = count.ok_or_else(|| w.missing(id, property))?;
                    let clear = w.number(id, properties::HEIGHT)? - w.number(id, BOTTOM_GAP)?;
                    (clear - count * plumb) / count
                }
            };
            let give = if cables { w.number(id, properties::GIVE)? } else { 0.0 };
            w.length(apart + 2.0 * give)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "climbable",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a child finds a foothold in it: on what runs level",
        formula: "yes where rails or cables close it, or a midrail is drawn",
        source: "Approved Document K, 2013 edition, 3.3",
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::MIDRAIL).is_some() {
                w.datum(id, properties::MIDRAIL)?;
                return word("yes");
            }
            word(if matches!(w.word(id, INFILL)?.as_ref(), "rails" | "cables") { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "rail depth",
        gives: LENGTH,
        help: "plumb, of its top rail, at the most",
        formula: "the larger way of section; the smaller where its top rail lies flat",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let section = w.section(id)?;
            let flat = w.looked_up(id, properties::TOP_RAIL_LIES).is_some()
                && w.word(id, properties::TOP_RAIL_LIES)? == "flat";
            w.length(if flat { section.thickness } else { section.depth })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "midrail drawn",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a rail runs half way up",
        formula: "yes where midrail is stated",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| drawn(w, id, properties::MIDRAIL)),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "midrail off midway",
        gives: LENGTH,
        help: "how far its midrail is from half its height, at the most",
        formula: "largest of midrail less half of each height, either way",
        source: "29 CFR 1910.29(b)(2)(i)",
        derive: Derive::Whole(|w, id| {
            let midrail = w.number(id, properties::MIDRAIL)?;
            let heights = values(w.list(id, properties::HEIGHT)?);
            w.length(heights.map(|height| (midrail - height / 2.0).abs()).fold(0.0, f64::max))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "midrail opening",
        gives: LENGTH,
        help: "the larger of what its midrail leaves: up to the top, and down to the floor or to the toe board",
        formula: "greater of largest height - the smaller way of section - midrail and midrail - midrail thickness - toe \
            board, each as far as it is stated; the larger way of section where its top rail lies on edge",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let midrail = w.number(id, properties::MIDRAIL)?;
            let top = values(w.list(id, properties::HEIGHT)?).fold(0.0, f64::max);
            // Laid flat it takes least of the opening under it.
            let rail = w.looked_up(id, properties::SECTION).map(|_| w.section(id)).transpose()?;
            let on_edge = w.looked_up(id, properties::TOP_RAIL_LIES).is_some()
                && w.word(id, properties::TOP_RAIL_LIES)? == "on edge";
            let rail = rail.map_or(0.0, |rail| if on_edge { rail.depth } else { rail.thickness });
            let stated = |name| w.looked_up(id, name).map(|_| w.number(id, name)).transpose();
            let (board, own) = (stated(properties::TOE_BOARD)?, stated(properties::MIDRAIL_THICKNESS)?);
            let above = top - rail - midrail;
            w.length(above.max(midrail - own.unwrap_or(0.0) - board.unwrap_or(0.0)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "toe board drawn",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether a board at its foot keeps things from falling",
        formula: "yes where toe board or toe board gap is stated",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| {
            // A gap says that there is a board, whose height was left out.
            let gap = w.looked_up(id, properties::TOE_BOARD_GAP).is_some();
            drawn(w, id, if gap { properties::TOE_BOARD_GAP } else { properties::TOE_BOARD })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "reaches the rail",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether it is as high as the underside of the handrail at its side",
        formula: "yes where its smallest height is no less than largest height - the smaller way of section of a handrail \
            at its side",
        source: "SPS 321.04(3)(c)2.",
        derive: Derive::Whole(|w, id| {
            let guard = w.design.get(id);
            let Some(place) = guard.and_then(|guard| guard.serves) else {
                // A flight that was not understood may be the one that it guards.
                let unread = w.design.unread.contains(&kinds::FLIGHT);
                return if unread {
                    Err(Missing::new(id, Reason::BlockNotUnderstood(kinds::FLIGHT)))
                } else {
                    word("no")
                };
            };
            let rails: Vec<Id> = w.things(kinds::HANDRAIL, place)?.collect();
            if rails.is_empty() {
                return word("no");
            }
            let side = guard.and_then(|guard| guard.side).ok_or_else(|| w.side_not_known(id))?;
            let mut reached = false;
            for rail in rails {
                if w.design.get(rail).and_then(|rail| rail.side) == Some(side) {
                    let own = values(w.list(id, properties::HEIGHT)?).fold(f64::INFINITY, f64::min);
                    let top = values(w.list(rail, properties::HEIGHT)?).fold(0.0, f64::max);
                    let underside = top - w.section(rail)?.thickness;
                    reached |= own >= underside || equal(own, underside, Dimension::LENGTH);
                }
            }
            word(if reached { "yes" } else { "no" })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "edge length",
        gives: LENGTH,
        help: "of what it stands along: a flight on the slope from first to last nosing, a landing at its side",
        formula: "depth of the landing or length of the well, at its far side its width, where no side is said the larger; of a flight \
            sqrt(rise^2 + run^2)",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let Some(landing) = landing_of(w, id) else {
                let flight = w.flight_of(id)?;
                let (rise, run) = (w.number(flight, RISE)?, w.number(flight, FLIGHT_RUN)?);
                return w.length(rise.hypot(run));
            };
            w.length(match w.design.get(id).and_then(|guard| guard.side) {
                Some(side) => edge_at(w, landing, side)?,
                None => edge_at(w, landing, Side::Left)?.max(edge_at(w, landing, Side::Far)?),
            })
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "opening",
        gives: LENGTH,
        help: "the widest between balusters or above them; beside the posts it is asked for apart",
        formula: "largest of baluster gap, level gap or panel gap, and top gap; nothing where solid; where open the height, \
            or midrail opening; widest gap for the infill where it was measured",
        source: "IRC 2021, R312.1.3",
        derive: Derive::Whole(|w, id| {
            let infill = infill_opening(w, id)?;
            w.length(infill.max(top_gap(w, id)?.map_or(0.0, |(_, gap)| gap)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "opening below",
        gives: LENGTH,
        help: "the widest lower than so far up",
        formula: "largest of baluster gap, level gap or panel gap (or widest gap), and top gap where infill to is lower",
        source: "IBC 2021, 1015.4",
        derive: Derive::At(|w, id, place| {
            let infill = infill_opening(w, id)?;
            let above = top_gap(w, id)?.filter(|(reach, _)| *reach < place);
            w.length(infill.max(above.map_or(0.0, |(_, gap)| gap)))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "opening above",
        gives: LENGTH,
        help: "the widest from so far up to the top",
        formula: "top gap, and baluster gap, level gap or panel gap (or widest gap) where the infill reaches higher",
        source: "IBC 2021, 1015.4",
        derive: Derive::At(|w, id, place| match top_gap(w, id)? {
            Some((reach, gap)) if reach <= place => w.length(gap),
            Some((_, gap)) => w.length(infill_opening(w, id)?.max(gap)),
            None => w.length(infill_opening(w, id)?),
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "gap at the posts",
        gives: LENGTH,
        help: "between what closes it and its posts",
        formula: "end gap, or panel gap; nothing where it is solid or runs level, the height where open and without a midrail",
        source: "IRC 2021, R312.1.3",
        derive: Derive::Whole(|w, id| {
            let gap = match w.word(id, INFILL)?.as_ref() {
                // What runs level ends in the posts.
                "solid" | "wall" | "rails" | "cables" => 0.0,
                "panels" | "glass" => w.number(id, properties::PANEL_GAP)?,
                "open" if w.looked_up(id, properties::MIDRAIL).is_some() => 0.0,
                "open" => w.number(id, properties::HEIGHT)?,
                _ => w.number(id, END_GAP)?,
            };
            w.length(gap)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "post spacing",
        gives: LENGTH,
        help: "centre to centre of its posts, at the least: the thinnest post drawn may be one of them",
        formula: "between posts + the smallest way of the section of each post",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let clear = w.number(id, properties::BETWEEN_POSTS)?;
            let mut thinnest: Option<f64> = None;
            w.each(w.things(kinds::POST, 0)?, |post| {
                let way = w.section(post)?.thickness;
                thinnest = Some(thinnest.map_or(way, |least| least.min(way)));
                Ok(())
            })?;
            w.length(clear + thinnest.ok_or_else(|| w.not_drawn(id, kinds::POST))?)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "infill",
        gives: Gives::Word(INFILLS),
        help: "what closes it",
        formula: "infill as stated, else by what is drawn; open where that is but a midrail",
        source: "what is not drawn is not there",
        derive: Derive::Whole(|w, id| {
            if w.looked_up(id, properties::INFILL).is_some() {
                return w.stated(id, properties::INFILL);
            }
            // How rails lie and how far a cable gives says as much as how far apart they are.
            let level =
                [(properties::RAILS, properties::RAILS_LIE, "rails"), (properties::CABLES, properties::GIVE, "cables")];
            for (drawn, said_of, infill) in level {
                let balusters = w.looked_up(id, properties::BALUSTERS).is_some();
                for property in [Some(drawn), (!balusters).then_some(said_of)].into_iter().flatten() {
                    if w.looked_up(id, property).is_some() {
                        w.value(id, property)?;
                        return word(infill);
                    }
                }
            }
            let balusters = [properties::BALUSTERS, properties::BALUSTER_CUT];
            if w.looked_up(id, properties::MIDRAIL).is_some()
                && balusters.iter().all(|name| w.looked_up(id, *name).is_none())
            {
                return word("open");
            }
            // How they are cut says as much as how far apart they are.
            let cut =
                w.looked_up(id, properties::BALUSTERS).is_none() && w.looked_up(id, properties::BALUSTER_CUT).is_some();
            w.value(id, if cut { properties::BALUSTER_CUT } else { properties::BALUSTERS })?;
            word("balusters")
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "handrail",
        gives: Gives::Word(&["yes", "no"]),
        help: "whether its top serves as the handrail",
        source: "what is not drawn is not there",
        derive: Derive::Formula(&Otherwise(properties::HANDRAIL, "no")),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "tread below the feet",
        gives: LENGTH,
        help: "plumb, what of the thinnest tread is left below the feet of its balusters, where they are let in",
        formula: "smallest board thickness of the treads of its flight - let in",
        source: GEOMETRY,
        derive: Derive::Whole(|w, id| {
            let let_in = w.number(id, properties::LET_IN)?;
            let flight = w.flight_of(id)?;
            let mut thinnest = f64::INFINITY;
            w.each(w.things(kinds::TREAD, flight)?, |tread| {
                thinnest = thinnest.min(w.number(tread, BOARD_THICKNESS)?);
                Ok(())
            })?;
            if !thinnest.is_finite() {
                return Err(w.not_drawn(id, kinds::TREAD));
            }
            w.length(thinnest - let_in)
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "balusters for",
        shown_at: "4\"",
        gives: NUMBER,
        help: "how few of them keep every gap under so much",
        formula: "smallest count with (between posts - count x baluster width) / (count + 1) under it",
        source: GEOMETRY,
        derive: Derive::At(|w, id, sphere| {
            let clear = w.number(id, properties::BETWEEN_POSTS)?;
            let width = w.number(id, BALUSTER_WIDTH)?;
            let needed = ((clear - sphere) / (width + sphere) + 1e-9).floor() + 1.0;
            number(needed.max(0.0))
        }),
        ..ROW
    },
    Quantity {
        kind: kinds::GUARD,
        name: "triangle opening",
        gives: LENGTH,
        help: "the largest sphere in the triangle of riser, tread and bottom rail",
        source: "inscribed circle of a right triangle; IRC 2021, R312.1.3",
        derive: Derive::Formula(TRIANGLE_OPENING),
        ..ROW
    },
];

pub(super) const PLACE: &Quantity = row(QUANTITIES, kinds::GUARD, "place");
pub(super) const DROP: &Quantity = row(QUANTITIES, kinds::GUARD, "drop within");
pub(super) const EDGE_LENGTH: &Quantity = row(QUANTITIES, kinds::GUARD, "edge length");
const BALUSTER_WIDTH: &Quantity = row(QUANTITIES, kinds::GUARD, "baluster width");
const BOTTOM_GAP: &Quantity = row(QUANTITIES, kinds::GUARD, "bottom gap");
const MIDRAIL_OPENING: &Quantity = row(QUANTITIES, kinds::GUARD, "midrail opening");
const LEVEL_GAP: &Quantity = row(QUANTITIES, kinds::GUARD, "level gap");
const BALUSTER_COUNT: &Quantity = row(QUANTITIES, kinds::GUARD, "baluster count");
const BALUSTER_GAP: &Quantity = row(QUANTITIES, kinds::GUARD, "baluster gap");
const EVEN_GAP: &Quantity = row(QUANTITIES, kinds::GUARD, "even gap");
const END_GAP: &Quantity = row(QUANTITIES, kinds::GUARD, "end gap");
pub(super) const INFILL: &Quantity = row(QUANTITIES, kinds::GUARD, "infill");
pub(super) const HANDRAIL: &Quantity = row(QUANTITIES, kinds::GUARD, "handrail");

/// Of the sphere that touches riser, tread and rail. The riser face stands a nosing behind the line of the nosings,
/// which lets the sphere in further. Where a riser is low and the nosing deep, the nose of the tread above stops the sphere
/// first and this is more than passes: it refuses too much, by 0.3 in of 6.1, and never too little. To take that off would
/// need the thickness of the tread, which most designs leave out, and nothing would be known of theirs.
const TRIANGLE_OPENING: &Formula = &Only(
    risers_are_closed,
    &With(
        &[
            ("g", Asks(Of::This, || BOTTOM_GAP)),
            ("R", List(Fold::Largest, Of::Flight, properties::RISERS)),
            ("T", List(Fold::Largest, Of::Flight, properties::RUNS)),
            ("N", Each(Fold::Largest, TREADS, &Asks(Of::This, || NOSING))),
            ("L", Root(&Plus(&Square(&Name("R")), &Square(&Name("T"))))),
        ],
        &Times(
            &Minus(&Plus(&Name("R"), &Name("T")), &Name("L")),
            &Plus(
                &Number(1.0),
                &Over(
                    &Times(&Plus(&Name("g"), &Over(&Times(&Name("N"), &Name("R")), &Name("L"))), &Name("L")),
                    &Times(&Name("R"), &Name("T")),
                ),
            ),
        ),
    ),
);

fn risers_are_closed(w: &Evaluation<'_>, id: Id) -> Result<(), Missing> {
    if w.word(w.flight_of(id)?, RISER_FACES)? == "open" {
        return Err(Missing::outside(id, Method::ClosedRisers));
    }
    Ok(())
}

const TREADS: &Things = &Things {
    text: "each tread",
    walk: |w, id, visit| w.design.belonging(kinds::TREAD, w.flight_of(id)?).try_for_each(visit),
};

/// Whether a part of it that is stated by a figure is there.
fn drawn(w: &Evaluation<'_>, id: Id, property: PropertyName) -> Derived {
    // What was not understood is not taken for absent.
    match w.looked_up(id, property) {
        Some(_) => w.datum(id, property).and_then(|_| word("yes")),
        None => word("no"),
    }
}

/// The widest opening within the infill: where a gauge found it, that; what is drawn beside such a figure of the drawing
/// itself counts too.
fn infill_opening(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    let Some(found) = w.looked_up(id, properties::WIDEST_GAP) else { return drawn_opening(w, id) };
    let widest = w.number(id, properties::WIDEST_GAP)?;
    if found.measured { Ok(widest) } else { Ok(widest.max(drawn_opening(w, id)?)) }
}

fn drawn_opening(w: &Evaluation<'_>, id: Id) -> Result<f64, Missing> {
    match w.word(id, INFILL)?.as_ref() {
        "solid" | "wall" => return Ok(0.0),
        "panels" | "glass" => return w.number(id, properties::PANEL_GAP),
        "rails" | "cables" => return Ok(w.number(id, LEVEL_GAP)?.max(0.0)),
        "open" if w.looked_up(id, properties::MIDRAIL).is_some() => return w.number(id, MIDRAIL_OPENING),
        // Nothing between the posts: the opening is as high as the guard.
        "open" => return w.number(id, properties::HEIGHT),
        _ => {}
    }
    // What overlaps leaves no opening; that it does is told of the drawing itself.
    Ok(w.number(id, BALUSTER_GAP)?.max(0.0))
}

/// How high the infill reaches, and the widest opening above it, where it stops short of the top.
fn top_gap(w: &Evaluation<'_>, id: Id) -> Result<Option<(f64, f64)>, Missing> {
    if [properties::INFILL_TO, properties::TOP_GAP].iter().all(|name| w.looked_up(id, *name).is_none()) {
        return Ok(None);
    }
    Ok(Some((w.number(id, properties::INFILL_TO)?, w.number(id, properties::TOP_GAP)?)))
}

pub(super) fn landing_of(w: &Evaluation<'_>, id: Id) -> Option<Id> {
    let level = |place: &Id| w.design.is(*place, kinds::LANDING) || w.design.is(*place, kinds::WELL);
    w.design.get(id).and_then(|guard| guard.serves).filter(level)
}

fn balusters(w: &Evaluation<'_>, id: Id) -> Result<Balusters, Missing> {
    match w.value(id, properties::BALUSTERS)? {
        Value::Balusters(balusters) => Ok(*balusters),
        _ => Err(w.missing(id, properties::BALUSTERS)),
    }
}
