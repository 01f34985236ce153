//! The closed list of quantities that are no single expression: they tell cases apart, count, look something up or
//! give a word. Each is computed here once more from what is stated, by plain code that follows its printed words.
//!
//! Figures of tables stand here a second time: roots of screws by NDS 2018 Table L3 and tips of lags by Table L2 from
//! memory, gravities by Table 12.3.3A as `model/timbers.rs` tells where they come from.

use std::collections::BTreeSet;

use crate::formulas::{Seen, Told};
use pitchboard::measure::{INCH, MILLIMETRE, POUND};
use pitchboard::model::{Balusters, Edge, Fasteners, Id, Kind, Section, Shape, Side, Timber, Value, kinds};

/// Kind, quantity, and its value once more; the place means something only to one that is asked at a place.
pub type Case = (&'static str, &'static str, fn(&Seen<'_>, Id, f64) -> Option<Told>);

pub const CASES: &[Case] = &[
    ("stair", "run closure", |s, id, _| {
        if s.design.of_kind(kinds::WINDERS).next().is_some() {
            return None;
        }
        let run = s.derived_number(id, "run")?;
        Some((s.number(id, "total run")? - run).into())
    }),
    ("stair", "access", |s, id, _| {
        let by_use = || match s.word(id, "use")? {
            "dwelling" => Some("private"),
            "shared" | "public" => Some("general"),
            _ => None,
        };
        s.word(id, "access").or_else(by_use).map(Told::from)
    }),
    ("stair", "grain", |s, id, _| match &s.element(id).stated.iter().find(|of| of.property.name == "read to")?.value {
        Some(Value::Measure(grain)) => Some(grain.value.into()),
        _ => None,
    }),
    ("stair", "measurements signed", |s, id, _| {
        s.design.as_drawn.as_ref()?;
        let says = |name: &&str| s.element(id).stated.iter().any(|of| of.property.name == *name && of.value.is_some());
        let signed = ["by", "on"].iter().all(says);
        Some(if signed { "yes" } else { "no" }.into())
    }),
    ("handrail", "height off the drawing", |s, id, _| off_the_drawing(s, id)),
    ("guard", "height off the drawing", |s, id, _| off_the_drawing(s, id)),
    ("stair", "switch floors", |s, id, _| {
        let Value::Words(words) = s.value(id, "switches")? else { return None };
        let floors: BTreeSet<_> = words.iter().filter(|word| **word != "none").collect();
        Some((floors.len() as f64).into())
    }),
    ("landing", "place", |s, id, _| Some(end_of(s.name(id)).into())),
    ("landing", "elevation", |s, id, _| {
        let mut flights: Vec<Id> = s.design.of_kind(kinds::FLIGHT).collect();
        match s.name(id) {
            "top" if flights.is_empty() => return s.number(0, "total rise").map(Told::from),
            "top" => {}
            "bottom" => flights.clear(),
            _ => flights.retain(|flight| *flight < id),
        }
        flights.iter().map(|flight| rise(s, *flight)).sum::<Option<f64>>().map(Told::from)
    }),
    ("landing", "way on", |s, id, _| {
        let things = [kinds::WALL, kinds::GUARD].into_iter().flat_map(|kind| s.of(kind, id));
        let of_the_stair = |thing: Id| s.element(thing).parent == Some(0) && s.element(thing).serves.is_none();
        let between = !matches!(end_of(s.name(id)), "top" | "bottom");
        let things = things.filter(|thing| !(between && of_the_stair(*thing)));
        let things = things.filter(|thing| !s.is_stated(*thing, "length") && s.of(kinds::GATE, *thing).is_empty());
        let closed: BTreeSet<&str> = things.filter_map(|thing| s.element(thing).side.map(Side::word)).collect();
        let fills = |edge: &str| Some(s.number(id, edge)? < joined_widths(s, id)?[1] + 12.0 * INCH);
        let shut = match (end_of(s.name(id)), s.word(id, "turn")) {
            ("top" | "bottom", _) => {
                let ways: &[&str] = match s.word(id, "leads on") {
                    None => &["left", "right", "far"],
                    Some("nowhere") => &[],
                    Some(way) => &[way],
                };
                !ways.is_empty() && ways.iter().all(|side| closed.contains(side)) && s.of(kinds::DOOR, id).is_empty()
            }
            (_, Some("straight")) => closed.contains("far") && fills("width")?,
            (_, Some("quarter left")) => closed.contains("left") && fills("depth")?,
            (_, Some("quarter right")) => closed.contains("right") && fills("depth")?,
            _ => false,
        };
        Some(if shut { "closed" } else { "open" }.into())
    }),
    ("landing", "drop within", |s, id, reach| deepest(s, id, &open_sides(s, id)?, reach)),
    ("landing", "unguarded drop within", |s, id, reach| deepest(s, id, &bare_sides(s, id)?, reach)),
    ("well", "drop", |s, id, _| well_drop(s, id).map(Told::from)),
    ("well", "unguarded drop", |s, id, _| {
        Some(if bare_sides(s, id)?.is_empty() { 0.0 } else { well_drop(s, id)? }.into())
    }),
    ("gate", "drop within", |s, id, reach| {
        let stands_in = s.element(id).parent?;
        let guarded = s.design.is(stands_in, kinds::GUARD).then(|| guard_drop(s, stands_in, reach));
        guarded.unwrap_or_else(|| s.derived_number(stands_in, "elevation")).map(Told::from)
    }),
    ("gate", "edge length", |s, id, _| {
        let stands_in = s.element(id).parent?;
        let edge = s.design.is(stands_in, kinds::GUARD).then(|| s.derived_number(stands_in, "edge length"));
        edge.unwrap_or_else(|| s.number(stands_in, "width")).map(Told::from)
    }),
    ("gate", "room behind", |s, id, _| {
        let mut landing = s.element(id).parent?;
        while !s.design.is(landing, kinds::LANDING) {
            landing = s.element(landing).serves.or(s.element(landing).parent)?;
        }
        let leaf = if s.word(id, "swing")? == "away from the steps" { s.number(id, "leaf")? } else { 0.0 };
        let depth = s.number(landing, "depth")?;
        Some((if leaf > depth { 0.0 } else { depth - leaf }).into())
    }),
    ("gate", "steps behind", |s, id, _| {
        let stands_in = s.element(id).parent?;
        if s.design.is(stands_in, kinds::GUARD) {
            return Some(0.0.into());
        }
        Some(joined_widths(s, stands_in)?.into_iter().fold(0.0, f64::max).into())
    }),
    ("gate", "edge left", |s, id, _| {
        let stands_in = s.element(id).parent?;
        if s.design.is(stands_in, kinds::GUARD) {
            return Some(0.0.into());
        }
        let things = [kinds::WALL, kinds::GUARD].into_iter().flat_map(|kind| s.of(kind, stands_in));
        let near = things.filter(|thing| s.element(*thing).side == Some(Side::Near));
        let taken: f64 = near.filter_map(|thing| s.number(thing, "length")).sum();
        Some((s.number(stands_in, "width")? - taken - s.number(id, "width")?).into())
    }),
    ("ceiling", "edge off the well", |s, id, _| {
        if s.word(id, "part of") != Some("floor") {
            return Some(0.0.into());
        }
        let flight = s.design.of_kind(kinds::FLIGHT).last()?;
        if goes_round(s, flight) || s.flight(id)? != flight {
            return Some(0.0.into());
        }
        let floor_ends = s.number(id, "to")?;
        let well = s.design.of_kind(kinds::WELL).next()?;
        let opening = s.list(flight, "runs")?.iter().sum::<f64>() - floor_ends;
        Some((opening - s.number(well, "length")?).abs().into())
    }),
    ("well", "room under its edge", |s, id, _| {
        let flight = s.design.of_kind(kinds::FLIGHT).last()?;
        let risers = s.list(flight, "risers")?;
        let rise: f64 = risers.iter().sum();
        if s.derived_word(flight, "spiral")? == "yes" {
            return Some(rise.into());
        }
        // Down from the head, step by step, as long as the well reaches; of the last step the part that it reaches.
        let mut left = s.number(id, "length")?;
        let mut down = 0.0;
        let runs = [vec![f64::INFINITY], s.list(flight, "runs")?].concat();
        let steps: Vec<(f64, f64)> = risers.into_iter().zip(runs).collect();
        for (riser, run) in steps.into_iter().rev() {
            if left <= run && run.is_finite() {
                return Some((down + riser * left / run).into());
            }
            (left, down) = (left - run, down + riser);
        }
        Some(rise.into())
    }),
    // Down from the floor: the deck, the rim and the header one below the other, less where the string begins.
    ("stringer", "head on its rim", |s, id, _| {
        if s.word(id, "cut")? != "notched" {
            return None;
        }
        let flight = s.flight(id)?;
        let landing = landing_above(s, flight)?;
        let joists = s.of(kinds::JOIST, landing);
        let depths = joists.iter().map(|joist| section(s, *joist).map(|of| of.depth)).collect::<Option<Vec<f64>>>()?;
        let mut parts = vec![depths.into_iter().max_by(f64::total_cmp)?];
        if s.design.of_kind(kinds::FLIGHT).last() == Some(flight) {
            parts.push(s.number(landing, "thickness")?);
        }
        if s.is_stated(id, "dropped header") {
            parts.push(s.number(id, "dropped header")?);
        }
        Some((parts.iter().sum::<f64>() - s.number(id, "last cut")?).into())
    }),
    ("stringer", "first cut needed", |s, id, _| {
        let flight = s.flight(id)?;
        let lowest = s.design.of_kind(kinds::FLIGHT).next() == Some(flight);
        let finish = if lowest { s.number(0, "bottom finish").unwrap_or(0.0) } else { 0.0 };
        let tread = s.of(kinds::TREAD, flight).into_iter().find(|tread| s.nth(*tread) == Some(1))?;
        Some((s.list(flight, "risers")?.first()? - (s.derived_number(tread, "board thickness")? - finish)).into())
    }),
    // Where the lower edge, as a line, is at the height of the floor.
    ("stringer", "foot seat", |s, id, _| {
        let slope = s.derived_number(s.flight(id)?, "pitch")?.to_radians().tan();
        let plumb = section(s, id)?.depth * slope.hypot(1.0);
        let cut = s.word(id, "cut") == Some("notched") && s.is_stated(id, "first cut");
        let first = if cut { s.number(id, "first cut")? } else { 0.0 };
        Some(((plumb - first) / slope).into())
    }),
    ("ceiling", "deck lacking", |s, id, _| {
        let hangs_over_steps = !s.element(id).serves.is_some_and(|place| s.design.is(place, kinds::LANDING));
        if s.word(id, "part of") != Some("floor") || !s.is_stated(id, "to") || !hangs_over_steps {
            return Some(0.0.into());
        }
        let flight = s.flight(id)?;
        let later: Vec<Id> = s.design.of_kind(kinds::FLIGHT).skip_while(|later| *later != flight).collect();
        let top: f64 = later.iter().map(|later| rise(s, *later)).sum::<Option<f64>>()?;
        let thick = top - s.number(id, "height")?;
        if thick < 0.0 {
            return Some(0.0.into());
        }
        let deck = s.number(landing_above(s, *later.last()?)?, "thickness")?;
        Some(if deck > thick { deck - thick } else { 0.0 }.into())
    }),
    ("well", "spiral across", |s, _, _| {
        let flight = s.design.of_kind(kinds::FLIGHT).last()?;
        let pole = pole_radius(s, flight)?;
        Some((pole + s.number(flight, "width")? + s.number(flight, "width")? + pole).into())
    }),
    ("post", "foot fasteners", |s, id, _| {
        let others = |joint: Id| -> Vec<Id> {
            let members = s.of(kinds::MEMBER, joint).into_iter().filter_map(|member| s.element(member).target);
            members.filter(|other| *other != id).collect()
        };
        let rail = |other: &Id| s.element(*other).kind == kinds::HANDRAIL || s.element(*other).kind == kinds::GUARD;
        let own = |joint: &Id| s.of(kinds::MEMBER, *joint).iter().any(|member| s.element(*member).target == Some(id));
        let mut joints: Vec<Id> = s.design.of_kind(kinds::JOINT).filter(own).collect();
        joints.retain(|joint| others(*joint).is_empty() || !others(*joint).iter().all(rail));
        let counts =
            joints.iter().map(|joint| fasteners(s, *joint).map(|of| of.count)).collect::<Option<Vec<f64>>>()?;
        counts.into_iter().reduce(|sum, more| sum + more).map(Told::from)
    }),
    ("well", "width lacking", |s, id, _| {
        let flight = s.design.of_kind(kinds::FLIGHT).last()?;
        let beside = |ceiling: Id| s.word(ceiling, "over") == Some("the ends of the treads");
        if goes_round(s, flight) || s.of(kinds::CEILING, flight).into_iter().any(beside) {
            return Some(0.0.into());
        }
        let (wide, well) = (s.number(flight, "width")?, s.number(id, "width")?);
        Some(if well < wide { wide - well } else { 0.0 }.into())
    }),
    ("joist", "drawn span", |s, id, _| {
        let landing = s.element(id).parent?;
        let (depth, width) = (s.number(landing, "depth")?, s.number(landing, "width")?);
        Some(if depth < width { depth } else { width }.into())
    }),
    ("joist", "spans", |s, id, _| {
        let across = s.derived_number(id, "drawn span")?;
        let span = s.number(id, "span")?;
        // As many as it takes to come within a quarter of one.
        Some(((1..100_000).map(f64::from).find(|many| (many + 0.25) * span >= across - 1e-3)?).into())
    }),
    ("joist", "props", |s, id, _| {
        let posts = s.of(kinds::POST, s.element(id).parent?);
        let held = posts.into_iter().filter(|post| s.word(*post, "stands") == Some("between ends"));
        held.map(|post| s.number(post, "count")).sum::<Option<f64>>().map(Told::from)
    }),
    ("joist", "room beneath", |s, id, _| {
        let landing = s.element(id).parent?;
        let grounds: Vec<Id> = s.design.of_kind(kinds::GROUND).collect();
        let below = grounds.iter().map(|ground| s.number(*ground, "below")).collect::<Option<Vec<f64>>>()?;
        let lowest = below.into_iter().max_by(f64::total_cmp)?;
        let of = section(s, id)?;
        let takes = s.number(landing, "thickness")? + of.depth.max(of.thickness);
        Some((s.derived_number(landing, "elevation")? - (takes - lowest)).into())
    }),
    ("joist", "leg height", |s, id, _| {
        let posts = s.of(kinds::POST, s.element(id).parent?);
        let legs = posts.into_iter().filter(|post| s.word(*post, "stands") == Some("between ends"));
        let heights = legs.map(|post| s.number(post, "height")).collect::<Option<Vec<f64>>>()?;
        heights.into_iter().min_by(f64::total_cmp).map(Told::from)
    }),
    ("joist", "underside", |s, id, _| {
        let landing = s.element(id).parent?;
        let below = section(s, id)?.depth + s.number(landing, "thickness")?;
        Some((s.derived_number(landing, "elevation")? - below).into())
    }),
    ("landing", "bare edge", |s, id, _| {
        let joists = s.of(kinds::JOIST, id);
        let numbers = |name: &str| joists.iter().map(|joist| s.number(*joist, name)).collect::<Option<Vec<f64>>>();
        let count: f64 = numbers("count")?.iter().sum();
        let covered =
            if count > 1.0 { (count - 1.0) * numbers("spacing")?.into_iter().fold(0.0, f64::max) } else { 0.0 };
        let mut sides = [s.number(id, "depth")?, s.number(id, "width")?];
        sides.sort_by(f64::total_cmp);
        let props = joists.iter().map(|joist| s.derived_number(*joist, "spans")).collect::<Option<Vec<f64>>>()?;
        let longways =
            numbers("span")?.into_iter().any(|span| span > sides[0]) || props.iter().any(|spans| *spans > 1.5);
        Some(((sides[usize::from(!longways)] - covered) / 2.0).into())
    }),
    ("tread", "room between", |s, id, _| {
        let flight = s.flight(id)?;
        let strings = s.of(kinds::STRINGER, flight);
        let [string] = strings[..] else { return None };
        if s.number(string, "count")? != 2.0 || s.word(string, "cut")? != "solid" {
            return None;
        }
        let (long, thick) = (s.number(id, "length")?, section(s, string)?.thickness);
        let wide = match s.is_stated(string, "spacing") {
            true => vec![s.number(string, "spacing")? - thick],
            false => vec![s.number(flight, "width")?, s.number(flight, "width")? - 2.0 * thick],
        };
        wide.into_iter().map(|wide| wide - long).min_by(|one, other| one.abs().total_cmp(&other.abs())).map(Told::from)
    }),
    ("ceiling", "above its floor", |s, id, _| {
        let hangs_over_steps = !s.element(id).serves.is_some_and(|place| s.design.is(place, kinds::LANDING));
        if s.word(id, "part of") != Some("floor") || !s.is_stated(id, "to") || !hangs_over_steps {
            return Some(0.0.into());
        }
        let flight = s.flight(id)?;
        let later = s.design.of_kind(kinds::FLIGHT).skip_while(|later| *later != flight);
        let top: f64 = later.map(|later| rise(s, later)).sum::<Option<f64>>()?;
        let over = s.number(id, "height")? - top;
        Some(if over > 0.0 { over } else { 0.0 }.into())
    }),
    ("member", "next fastener", |s, id, _| {
        let (along, rows) = (s.number(id, "spacing")?, s.number(id, "row spacing")?);
        let grid = fasteners(s, s.element(id).parent?)?.count > 2.5 && along * rows > 0.0;
        Some(if grid { if along < rows { along } else { rows } } else { (along * along + rows * rows).sqrt() }.into())
    }),
    ("member", "plate room", |s, id, _| {
        let joint = s.element(id).parent?;
        let names = joined(s, joint)?;
        let called = |name: Option<&&str>| name.is_some_and(|name| s.element(id).goes_by(name));
        let lies = match s.word(joint, "washers")? {
            "both sides" => called(names.first()) || called(names.last()),
            "nut side" => called(names.last()),
            _ => false,
        };
        let (edge, other) = (s.number(id, "edge")?, s.derived_number(id, "other edge")?);
        lies.then(|| (2.0 * if edge < other { edge } else { other }).into())
    }),
    ("gate", "place", |s, id, _| {
        let stands_in = s.element(id).parent?;
        let beside = s.design.is(stands_in, kinds::GUARD) && floor_at(s, stands_in).is_none();
        Some(if beside { "flight" } else { "level" }.into())
    }),
    ("guard", "level length", |s, id, _| {
        if s.is_stated(id, "length") {
            return s.number(id, "length").map(Told::from);
        }
        let Some(floor) = floor_at(s, id) else {
            let flight = s.flight(id)?;
            if goes_round(s, flight) {
                return None;
            }
            let runs = s.list(flight, "runs")?;
            let from = s.number(id, "from tread").map_or(1, |from| from as usize).max(1);
            let to = s.number(id, "to tread").map_or(runs.len(), |to| to as usize).min(runs.len());
            return Some(runs.iter().skip(from - 1).take((to + 1).saturating_sub(from)).sum::<f64>().into());
        };
        let side = s.element(id).side?.word();
        Some((side_length(s, floor, side)? - steps_at_side(s, floor, side)?).into())
    }),
    ("guard", "edge past the steps", |s, id, _| {
        let (floor, side) = (floor_at(s, id)?, s.element(id).side?.word());
        let left = side_length(s, floor, side)? - steps_at_side(s, floor, side)?;
        Some(if left > 0.0 { left } else { 0.0 }.into())
    }),
    ("guard", "bays", |s, id, _| {
        let posts: Vec<Id> = s.design.of_kind(kinds::POST).collect();
        let sections = posts.iter().map(|post| section(s, *post)).collect::<Option<Vec<&Section>>>()?;
        let thick = sections.iter().map(|section| section.depth).max_by(f64::total_cmp)?;
        let (apart, long) = (s.number(id, "between posts")?, s.derived_number(id, "level length")?);
        // One after the other, a post and a bay each, until what is left is less than a quarter of them.
        Some(((1..100_000).map(f64::from).find(|bays| thick + (bays + 0.25) * (apart + thick) >= long - 1e-3)?).into())
    }),
    ("guard", "own posts", |s, id, _| {
        let bays = s.derived_number(id, "bays")?;
        let end_to_end = matches!(s.element(id).side.map(Side::word), Some("left" | "right"));
        Some((bays - f64::from(u8::from(!end_to_end))).into())
    }),
    ("guard", "rail depth", |s, id, _| {
        let section = section(s, id)?;
        let flat = s.word(id, "top rail lies") == Some("flat");
        Some(if flat { section.thickness.min(section.depth) } else { section.depth.max(section.thickness) }.into())
    }),
    ("post", "reaches a guard", |s, id, _| {
        if holds_up(s, id)? {
            return Some("no".into());
        }
        let hung = |guard: &Id| s.is_stated(*guard, "between posts") && s.word(*guard, "infill") != Some("wall");
        let guards: Vec<Id> = s.design.of_kind(kinds::GUARD).filter(hung).collect();
        let below = |guard: &Id| {
            let rail = if s.is_stated(*guard, "section") { section(s, *guard)?.depth } else { 5.5 * INCH };
            Some(s.list(*guard, "height")?.into_iter().min_by(f64::total_cmp)? - rail)
        };
        let lowest = guards.iter().map(below).collect::<Option<Vec<f64>>>()?.into_iter().min_by(f64::total_cmp)?;
        Some(if s.number(id, "height")? > lowest - 20.0 { "yes" } else { "no" }.into())
    }),
    ("stringer", "prop height", |s, id, _| {
        let heights = props_of(s, id).into_iter().map(|post| s.number(post, "height")).collect::<Option<Vec<f64>>>()?;
        heights.into_iter().min_by(f64::total_cmp).map(Told::from)
    }),
    // Down from the corner of a tread and the riser above it: half a step's diagonal of depth away lies the lower edge.
    ("stringer", "underside at its prop", |s, id, _| {
        if s.word(id, "cut")? != "notched" {
            return None;
        }
        let flight = s.flight(id)?;
        let (span, spans) = (s.number(id, "span")?, s.derived_number(id, "spans")?);
        let run: f64 = s.list(flight, "runs")?.iter().sum();
        let at = span.min(run - span * (spans - 1.0));
        let (up, level) = (s.derived_number(flight, "unit rise")?, s.derived_number(flight, "unit run")?);
        let boards = s.of(kinds::TREAD, flight).into_iter().map(|tread| s.derived_number(tread, "board thickness"));
        let thick = boards.collect::<Option<Vec<f64>>>()?.into_iter().fold(0.0, f64::max);
        let plumb = s.derived_number(id, "throat")? * (up * up + level * level).sqrt() / level;
        Some((at * up / level - (thick + plumb)).into())
    }),
    ("tread", "let in", |s, id, _| let_in(s, id).map(Told::from)),
    ("tread", "room in the housing", |s, id, _| {
        let stringer = let_into(s, s.flight(id)?)?;
        Some((s.number(stringer, "housing")? - let_in(s, id)?).into())
    }),
    ("tread", "overhang", |s, id, _| {
        let stringer = *s.of(kinds::STRINGER, s.flight(id)?).first()?;
        let gaps = s.number(stringer, "count")? - 1.0;
        let over_all =
            section(s, stringer)?.thickness + if gaps > 0.0 { gaps * s.number(stringer, "spacing")? } else { 0.0 };
        Some(((s.number(id, "length")? - over_all) / 2.0).into())
    }),
    ("stringer", "next string", |s, id, _| {
        let all = s.of(kinds::STRINGER, s.flight(id)?);
        let says = |id: Id, word: &str| s.word(id, "stands") == Some(word);
        let outer = all.iter().copied().rfind(|string| says(*string, "outer"));
        let Some(outer) = outer.filter(|_| all.len() > 1 && (says(id, "outer") || says(id, "between"))) else {
            return s.number(id, "spacing").map(Told::from);
        };
        let gaps = (s.number(outer, "count")? - 1.0).max(1.0);
        let between = all.iter().filter(|string| says(**string, "between"));
        let strings = between.map(|string| s.number(*string, "count")).sum::<Option<f64>>()?;
        Some((s.number(outer, "spacing")? * gaps / (strings + gaps)).into())
    }),
    ("stringer", "step depth", |s, id, _| {
        let flight = s.flight(id)?;
        let (risers, runs) = (s.list(flight, "risers")?, s.list(flight, "runs")?);
        let straight = (0..runs.len()).filter(|nth| winders_of(s, flight, nth + 1).is_none()).map(|nth| runs[nth]);
        let rise = risers.into_iter().reduce(f64::max)?;
        let run = straight.reduce(f64::max).or_else(|| s.derived_number(flight, "unit run"))?;
        Some((rise * rise.atan2(run).cos()).into())
    }),
    ("flight", "steps above", |s, id, _| {
        let turns = |flight| {
            s.of(kinds::TREAD, flight).iter().map(|tread| s.derived_number(*tread, "turn")).sum::<Option<f64>>()
        };
        if s.derived_word(id, "spiral")? == "yes" {
            return Some(if turns(id)? > 360.01 { "yes" } else { "no" }.into());
        }
        let later = s.design.of_kind(kinds::FLIGHT).filter(|other| *other > id).count();
        if later < 2 || !s.of(kinds::WINDERS, id).is_empty() {
            return Some("no".into());
        }
        Some(if room_under_the_turn_above(s, id).is_some() { "yes" } else { "no" }.into())
    }),
    ("flight", "room under the turn above", |s, id, _| room_under_the_turn_above(s, id).map(Told::from)),
    ("door", "sweep over the steps", |s, id, _| sweep(s, id).map(Told::from)),
    ("door", "treads swept", |s, id, _| {
        let mut left = sweep(s, id)?;
        let mut swept = 0.0;
        if left > 0.0 {
            let flights: Vec<Id> = s.design.of_kind(kinds::FLIGHT).collect();
            let bottom = s.derived_word(id, "place")? == "bottom";
            let mut runs = s.list(if bottom { *flights.first()? } else { *flights.last()? }, "runs")?;
            if !bottom {
                runs.reverse();
            }
            for run in runs {
                swept += if left > 0.0 { 1.0 } else { 0.0 };
                left -= run;
            }
        }
        Some(swept.into())
    }),
    ("flight", "unit run", |s, id, _| {
        let runs = s.list(id, "runs")?;
        let straight = |nth: &usize| winders_of(s, id, nth + 1).is_none();
        let straight: Vec<f64> = (0..runs.len()).filter(straight).map(|nth| runs[nth]).collect();
        let of = if straight.is_empty() { runs } else { straight };
        Some((of.iter().sum::<f64>() / of.len() as f64).into())
    }),
    ("flight", "treads wound twice", |s, id, _| {
        let mut counted = std::collections::BTreeMap::new();
        let treads = s.list(id, "runs")?.len() as i64;
        for block in s.of(kinds::WINDERS, id) {
            let (one, other) = (s.number(block, "from tread")? as i64, s.number(block, "to tread")? as i64);
            for tread in one.min(other)..=one.max(other) {
                *counted.entry(tread).or_insert(0) += 1;
            }
        }
        let twice = counted.iter().filter(|(tread, many)| (1..=treads).contains(*tread) && **many >= 2);
        Some((twice.count() as f64).into())
    }),
    ("flight", "nosing spread", |s, id, _| {
        let treads = s.of(kinds::TREAD, id).into_iter().map(|tread| s.derived_number(tread, "nosing"));
        let mut nosings = treads.collect::<Option<Vec<f64>>>()?;
        nosings.extend(landing_above(s, id).and_then(|landing| s.number(landing, "nosing")));
        nosings.sort_by(f64::total_cmp);
        Some((nosings.last().unwrap_or(&0.0) - nosings.first().unwrap_or(&0.0)).into())
    }),
    ("landing", "width needed", |s, id, _| {
        let [below, above] = joined_widths(s, id)?;
        Some(Told::from(match turn_of(s, id)? {
            "straight" if below > above => below,
            "straight" => above,
            "half left" | "half right" => above + below,
            _ => below,
        }))
    }),
    ("landing", "depth needed", |s, id, _| match turn_of(s, id)? {
        "quarter left" | "quarter right" => joined_widths(s, id).map(|widths| widths[1].into()),
        _ => Some(0.0.into()),
    }),
    ("landing", "flight above width", |s, id, _| match end_of(s.name(id)) {
        "between" => joined_widths(s, id).map(|widths| widths[1].into()),
        _ => Some(0.0.into()),
    }),
    ("landing", "flights abreast", |s, id, _| {
        Some((joined_widths(s, id)?.iter().sum::<f64>() + s.number(id, "between flights")?).into())
    }),
    ("landing", "drop beside the steps within", |s, id, reach| deepest(s, id, &["left", "right"], reach)),
    ("landing", "edge beside the steps", |s, id, _| {
        let stands = |wall: &Id| s.element(*wall).side.is_none();
        let walled = !s.is_stated(id, "open sides") && s.of(kinds::WALL, id).iter().any(stands);
        let none = s.is_stated(id, "open sides") && open_sides(s, id)?.is_empty();
        if walled || none || end_of(s.name(id)) == "bottom" {
            return Some("closed".into());
        }
        let [below, above] = joined_widths(s, id)?;
        let (width, depth) = (s.number(id, "width")?, s.number(id, "depth"));
        let left = match turn_of(s, id)? {
            _ if end_of(s.name(id)) == "top" => vec![("near", width - below.max(above))],
            "straight" => vec![("near", width - below), ("far", width - above)],
            "half left" | "half right" => vec![("near", width - below - above)],
            turn => vec![("near", width - below), (turn.trim_start_matches("quarter "), depth? - above)],
        };
        let things: Vec<Id> = [kinds::WALL, kinds::GUARD].into_iter().flat_map(|kind| s.of(kind, id)).collect();
        let mut settled = Some("closed".into());
        let guards = s.of(kinds::GUARD, id);
        let all_sided = !guards.is_empty() && guards.iter().all(|guard| s.element(*guard).side.is_some());
        let ends = if matches!(turn_of(s, id), Some("half left" | "half right")) { 3.0 } else { 2.0 };
        for (side, open) in left.into_iter().filter(|(_, open)| *open >= 1.0) {
            let here = things.iter().filter(|thing| s.element(**thing).side.map(Side::word) == Some(side));
            let lengths: Vec<Option<f64>> = here.map(|thing| s.number(*thing, "length")).collect();
            let filled = lengths.contains(&None) || open - lengths.iter().flatten().sum::<f64>() < 4.0 * INCH;
            match (things.is_empty() || !filled, lengths.is_empty()) {
                (true, bare) if things.is_empty() || !bare => return Some("open".into()),
                (_, true) if all_sided && open < 4.0 * INCH => {}
                (_, true) if all_sided && open >= ends * 4.0 * INCH => {
                    let posts = s.of(kinds::POST, 0).into_iter().map(|post| Some(section(s, post)?.depth));
                    let post = posts.collect::<Option<Vec<f64>>>()?.into_iter().fold(0.0, f64::max);
                    if open - 4.0 * post >= ends * 4.0 * INCH {
                        return Some("open".into());
                    }
                    settled = None;
                }
                (_, true) => settled = None,
                _ => {}
            }
        }
        settled
    }),
    ("flight", "riser faces", |s, id, _| {
        Some(if s.of(kinds::RISER_BOARD, id).is_empty() { "open" } else { "closed" }.into())
    }),
    ("flight", "open sides", |s, id, _| Some((open_sides(s, id)?.len() as f64).into())),
    ("flight", "bare sides", |s, id, _| Some((bare_sides(s, id)?.len() as f64).into())),
    ("flight", "handrail sides", |s, id, _| Some((handrail_sides(s, id)?.len() as f64).into())),
    ("flight", "railed sides", |s, id, _| Some((railed_sides(s, id)?.len() as f64).into())),
    ("flight", "unrailed walls", |s, id, _| {
        let followed = followed_sides(s, id, &handrails_over(s, id)?)?;
        let (open, railed) = (open_sides(s, id)?, followed);
        let walls = ways_off(s, id)?.into_iter().filter(|side| !open.contains(side));
        Some((walls.filter(|side| !railed.contains(side)).count() as f64).into())
    }),
    ("flight", "unrailed open sides", |s, id, _| {
        let (open, railed) = (open_sides(s, id)?, railed_sides(s, id)?);
        Some((open.iter().filter(|side| !railed.contains(*side)).count() as f64).into())
    }),
    ("flight", "unrailed wide sides", |s, id, _| {
        let over = rails_over(s, id)?;
        let mut bare = 0.0;
        for block in s.of(kinds::WINDERS, id) {
            let narrow = s.element(block).side?.word();
            let (a, b) = (s.number(block, "from tread")? as usize, s.number(block, "to tread")? as usize);
            // A tread has a riser below it and one above.
            let mut risers = a.min(b)..=(a.max(b) + 1).min(s.list(id, "risers")?.len());
            let railed = risers.all(|riser| over.iter().any(|(side, at)| *side != narrow && at.contains(&riser)));
            bare += f64::from(u8::from(!railed));
        }
        Some(bare.into())
    }),
    ("riser", "index", |s, id, _| Some((s.nth(id).unwrap_or(1) as f64).into())),
    ("riser", "opening", |s, id, _| {
        let risers = s.list(s.element(id).parent?, "risers")?;
        let height = if risers.len() == 1 { risers[0] } else { risers[s.nth(id)? - 1] };
        // Up from the tread below: what a board closes, what is open, what lies over it.
        let closed = match s.of(kinds::RISER_BOARD, s.element(id).parent?).first() {
            Some(board) => section(s, *board)?.depth - hidden_behind(s, id, *board, height)?,
            None => 0.0,
        };
        if closed >= height {
            return Some(0.0.into());
        }
        let top = height - thickness_above(s, id)?;
        let bars: Option<Vec<(f64, f64)>> = s
            .of(kinds::RISER_BAR, s.element(id).parent?)
            .into_iter()
            .map(|bar| {
                let below = s.number(bar, "below")?;
                Some((below, below + section(s, bar)?.depth))
            })
            .collect();
        let bars = bars?;
        // What is open above an edge goes on to the next thing over it.
        let edges = std::iter::once(closed).chain(bars.iter().map(|bar| bar.1));
        let open = edges.map(|edge| {
            let covered = bars.iter().any(|bar| bar.0 <= edge && edge < bar.1) || edge < closed;
            let next = bars.iter().map(|bar| bar.0).filter(|below| *below >= edge).fold(top, f64::min);
            if covered { 0.0 } else { next - edge }
        });
        Some(open.fold(0.0, f64::max).into())
    }),
    ("riser", "opening above ground", |s, id, _| {
        Some((s.derived_number(id, "height above ground")? - thickness_above(s, id)?).into())
    }),
    ("tread", "index", |s, id, _| Some((s.nth(id).unwrap_or(1) as f64).into())),
    ("tread", "nosing", |s, id, _| match s.list(id, "nosing") {
        Some(nosings) => Some(if nosings.len() == 1 { nosings[0] } else { nosings[s.nth(id)? - 1] }.into()),
        None => Some((board_depth(s, id)? - s.derived_number(id, "run")? - riser_board_on(s, id)?).into()),
    }),
    ("tread", "board count", |s, id, _| match s.is_stated(id, "boards") {
        true => s.number(id, "boards").map(Told::from),
        false => Some(1.0.into()),
    }),
    ("tread", "set back", |s, id, _| {
        let flight = s.element(id).parent?;
        let Some(board) = s.of(kinds::RISER_BOARD, flight).first().copied() else { return Some(0.0.into()) };
        let below = s.list(flight, "risers")?;
        let below = if below.len() == 1 { below[0] } else { *below.get(s.nth(id)? - 1)? };
        let open = (below - section(s, id)?.thickness).max(0.0);
        let lean = s.number(board, "lean")? * std::f64::consts::PI / 180.0;
        Some((open * lean.sin() / lean.cos()).into())
    }),
    ("winders", "off square", |s, id, _| {
        let turn = s.number(id, "turn")?;
        Some(if turn < 45.0 { 45.0 - turn } else { (turn % 45.0).min(45.0 - turn % 45.0) }.into())
    }),
    ("tread", "board depth", |s, id, _| board_depth(s, id).map(Told::from)),
    ("tread", "grip", |s, id, _| {
        let Value::Finish(finish) = s.value(id, "finish")? else { return None };
        let has = |words: &[&str]| finish.parts.iter().any(|part| words.contains(&part.name));
        let laid = ["grit strip", "grip strip", "grip tape", "wire mesh", "grooved"];
        let sanded = ["sand in the paint", "sand in the varnish", "anti-slip paint", "anti-slip varnish"];
        let closed = ["hard wax oil", "wax", "varnish", "lacquer", "paint", "carpet", "planed"];
        let open = has(&["rough sawn"]) && !has(&closed);
        Some(if has(&laid) || has(&sanded) || open { "yes" } else { "no" }.into())
    }),
    ("tread", "strip margin", |s, id, _| {
        let Value::Finish(finish) = s.value(id, "finish")? else { return None };
        let laid = ["strip", "tape"].iter().any(|word| finish.words().contains(word));
        Some(Told::from(match finish.strip {
            Some(strip) => (s.number(id, "length")? - strip.value) / 2.0,
            None if laid => return None,
            None => 0.0,
        }))
    }),
    ("tread", "edge radius", |s, id, _| match s.value(id, "edge")? {
        Value::Edge(Edge::Radius(radius)) => Some(radius.value.into()),
        _ => Some(0.0.into()),
    }),
    ("tread", "edge bevel", |s, id, _| match s.value(id, "edge")? {
        Value::Edge(Edge::Bevel(bevel)) => Some(bevel.value.into()),
        _ => Some(0.0.into()),
    }),
    ("tread", "drop within", |s, id, reach| deepest(s, id, &open_sides(s, id)?, reach)),
    ("tread", "unguarded drop within", |s, id, reach| deepest(s, id, &bare_sides(s, id)?, reach)),
    ("tread", "shape", |s, id, _| Some(if winders(s, id).is_some() { "winder" } else { "rectangular" }.into())),
    ("flight", "pole radius", |s, id, _| pole_radius(s, id).map(Told::from)),
    ("handrail", "winder side", |s, id, _| {
        let blocks = s.flight(id).filter(|_| landing_at(s, id).is_none()).map(|flight| s.of(kinds::WINDERS, flight));
        let beside = |block: Id| Some(s.element(block).side? == s.element(id).side?);
        let sides = blocks.into_iter().flatten().map(beside).collect::<Option<BTreeSet<bool>>>()?;
        Some(match sides.into_iter().collect::<Vec<_>>()[..] {
            [] => "none".into(),
            [true] => "narrow".into(),
            [false] => "wide".into(),
            _ => "both".into(),
        })
    }),
    ("tread", "turn", |s, id, _| turn(s, id).map(Told::from)),
    ("tread", "narrow depth", |s, id, _| narrow(s, id).map(Told::from)),
    ("tread", "taken at the narrow side", |s, id, _| {
        let (block, ..) = winders(s, id)?;
        let side = s.element(block).side?;
        let rails = s.of(kinds::HANDRAIL, s.element(id).parent?).into_iter();
        let taken = rails.filter(|rail| s.element(*rail).side == Some(side));
        let taken = taken.map(|rail| s.derived_number(rail, "projection")).collect::<Option<Vec<f64>>>()?;
        Some(taken.into_iter().fold(0.0, f64::max).into())
    }),
    ("tread", "depth at", |s, id, place| depth_at(s, id, place).map(Told::from)),
    ("tread", "narrow going", |s, id, _| {
        let width = width_of(s, id);
        let place = if winders(s, id).is_none() { 0.0 } else { (width? / 2.0).min(in_from_side(width?)) };
        depth_at(s, id, place).map(Told::from)
    }),
    ("tread", "broad going", |s, id, _| {
        let width = width_of(s, id);
        let place = if winders(s, id).is_none() { 0.0 } else { (width? / 2.0).max(width? - in_from_side(width?)) };
        depth_at(s, id, place).map(Told::from)
    }),
    ("riser board", "board height needed", |s, id, _| {
        let flight = s.flight(id)?;
        let risers = s.list(flight, "risers")?;
        let rise = risers.iter().sum::<f64>() / risers.len() as f64;
        let tread = || section(s, *s.of(kinds::TREAD, flight).first()?);
        Some((if s.word(id, "stands")? == "behind tread" { rise } else { rise - tread()?.thickness }).into())
    }),
    ("ceiling", "headroom", |s, id, _| headroom(s, id).map(Told::from)),
    ("beam", "headroom", |s, id, _| headroom(s, id).map(Told::from)),
    ("ceiling", "over", |s, id, _| match s.word(id, "over") {
        None if s.is_stated(id, "overhang") => None,
        over => Some(over.unwrap_or("the stair").into()),
    }),
    ("ceiling", "above", |s, id, _| Some(above(s, id).into())),
    ("beam", "above", |s, id, _| Some(above(s, id).into())),
    ("door", "place", |s, id, _| {
        let at = match s.value(id, "at") {
            Some(Value::Names(names)) => names.first().map(|(name, _)| name.as_str()),
            _ => None,
        };
        let landing = || landing_at(s, id).map(|landing| s.name(landing)).filter(|name| !name.is_empty());
        Some(end_of(at.or_else(landing).unwrap_or(s.name(id))).into())
    }),
    ("door", "landing drawn", |s, id, _| Some(if landing_at(s, id).is_some() { "yes" } else { "no" }.into())),
    ("door", "room left", |s, id, _| {
        let over = s.word(id, "swing")? == "over the stair";
        let leaf = if over { s.number(id, "leaf")? } else { 0.0 };
        Some((s.number(landing_at(s, id)?, "depth")? - leaf).into())
    }),
    ("handrail", "side", |s, id, _| {
        let middle = s.name(id).to_lowercase() == "middle";
        if middle { Some("middle".into()) } else { s.element(id).side.map(|side| side.word().into()) }
    }),
    ("guard", "side", |s, id, _| s.element(id).side.map(|side| side.word().into())),
    ("handrail", "place", |s, id, _| {
        let on_landing = s.element(id).serves.is_some_and(|place| s.design.is(place, kinds::LANDING));
        let middle = s.name(id).to_lowercase() == "middle";
        Some(
            if middle {
                "middle"
            } else if on_landing {
                "level"
            } else {
                "flight"
            }
            .into(),
        )
    }),
    ("handrail", "room above", |s, id, _| s.number(landing_above(s, s.flight(id)?)?, "depth").map(Told::from)),
    ("handrail", "room below", |s, id, _| {
        let flight = s.flight(id)?;
        let landings = || s.design.of_kind(kinds::LANDING).filter(|landing| s.name(*landing) != "top");
        let before = landings().filter(|landing| s.name(*landing) != "bottom" && *landing < flight).last();
        let foot = || landings().find(|landing| s.name(*landing) == "bottom");
        s.number(before.or_else(foot)?, "depth").map(Told::from)
    }),
    ("handrail", "projection", |s, id, _| {
        let middle = s.name(id).to_lowercase() == "middle";
        let clearance = if middle { 0.0 } else { s.number(id, "clearance")? };
        Some((clearance + section(s, id)?.depth).into())
    }),
    ("handrail", "wall beside", |s, id, _| {
        if s.name(id).to_lowercase() == "middle" {
            return Some("no".into());
        }
        let (Some(side), Some(place)) = (s.element(id).side, s.element(id).serves) else { return Some("yes".into()) };
        let beside = |kind| s.of(kind, place).into_iter().map(|other| s.element(other).side).collect::<Vec<_>>();
        let walls = beside(kinds::WALL);
        let walled = walls.contains(&Some(side)) || walls.contains(&None);
        Some(if walled || !beside(kinds::GUARD).contains(&Some(side)) { "yes" } else { "no" }.into())
    }),
    ("handrail", "guard beside", |s, id, _| {
        if s.name(id).to_lowercase() == "middle" {
            return Some("no".into());
        }
        let place = s.element(id).serves.unwrap_or(0);
        let sides = |kind| s.of(kind, place).into_iter().map(|of| s.element(of).side).collect::<Vec<_>>();
        let (guards, walls) = (sides(kinds::GUARD), sides(kinds::WALL));
        let Some(side) = s.element(id).side.filter(|_| s.element(id).serves.is_some()) else {
            return guards.is_empty().then(|| "no".into());
        };
        let walled = walls.iter().any(|wall| wall.is_none() || *wall == Some(side));
        let guarded = guards.contains(&Some(side));
        if !walled && !guarded && guards.contains(&None) {
            return None;
        }
        Some(if guarded && !walled { "yes" } else { "no" }.into())
    }),
    ("handrail", "wall behind", |s, id, _| {
        if s.name(id).to_lowercase() == "middle" {
            return Some("no".into());
        }
        let (side, place) = (s.element(id).side?, s.element(id).serves?);
        let walls = s.of(kinds::WALL, place).into_iter();
        let walls = walls.filter(|wall| s.element(*wall).side.is_none_or(|at| at == side));
        let guards = s.of(kinds::GUARD, place).into_iter().filter(|guard| s.element(*guard).side == Some(side));
        let low = guards.filter(|guard| s.word(*guard, "infill") == Some("wall"));
        let behind: Vec<Id> = walls.chain(low).collect();
        let drawn = [kinds::WALL, kinds::GUARD].iter().any(|kind| !s.of(kind, place).is_empty());
        if behind.is_empty() && !drawn {
            return None;
        }
        let at_a_flight = s.kind(place) == kinds::FLIGHT;
        let beside = |riser: usize| {
            behind.iter().any(|wall| {
                let (from, to) = (s.number(*wall, "from tread"), s.number(*wall, "to tread"));
                from.is_none_or(|from| from as usize <= riser) && to.is_none_or(|to| riser <= to as usize + 1)
            })
        };
        let risers = if at_a_flight { s.list(place, "risers").map(|risers| risers.len()) } else { Some(0) };
        let first = s.number(id, "from riser").map_or(1, |from| from as usize);
        let last = s.number(id, "to riser").map(|to| to as usize).or(risers)?;
        let all = if at_a_flight { (first..=last).all(beside) } else { !behind.is_empty() };
        Some(if all { "yes" } else { "no" }.into())
    }),
    ("handrail", "shape", shape),
    ("handrail", "diameter", diameter),
    ("handrail", "perimeter", perimeter),
    ("handrail", "across", across),
    ("handrail", "edge radius", edge_radius),
    ("handrail", "recess depth", recess_depth),
    ("handrail", "recess start", |s, id, _| section(s, id)?.recess?.start.map(Told::from)),
    ("handrail", "recess reached", |s, id, _| section(s, id)?.recess?.reached.map(Told::from)),
    ("handrail", "recess kept", |s, id, _| section(s, id)?.recess?.kept.map(Told::from)),
    ("handrail", "recess end", |s, id, _| section(s, id)?.recess?.end.map(Told::from)),
    ("handrail", "width above recess", |s, id, _| section(s, id)?.recess?.width_above.map(Told::from)),
    ("guard", "shape", shape),
    ("guard", "diameter", diameter),
    ("guard", "perimeter", perimeter),
    ("guard", "across", across),
    ("guard", "edge radius", edge_radius),
    ("guard", "recess depth", recess_depth),
    ("guard", "recess start", |s, id, _| section(s, id)?.recess?.start.map(Told::from)),
    ("guard", "recess reached", |s, id, _| section(s, id)?.recess?.reached.map(Told::from)),
    ("guard", "recess kept", |s, id, _| section(s, id)?.recess?.kept.map(Told::from)),
    ("guard", "recess end", |s, id, _| section(s, id)?.recess?.end.map(Told::from)),
    ("guard", "width above recess", |s, id, _| section(s, id)?.recess?.width_above.map(Told::from)),
    ("guard", "place", |s, id, _| Some(if floor_at(s, id).is_some() { "level" } else { "flight" }.into())),
    ("guard", "drop within", |s, id, reach| guard_drop(s, id, reach).map(Told::from)),
    ("guard", "baluster width", |s, id, _| Some(balusters(s, id)?.width.value.into())),
    ("guard", "baluster count", |s, id, _| baluster_count(s, id).map(Told::from)),
    ("guard", "baluster gap", |s, id, _| gap(s, id).map(Told::from)),
    ("guard", "end gap", |s, id, _| end_gap(s, id).map(Told::from)),
    ("guard", "opening", |s, id, _| Some(infill_gap(s, id)?.max(top_gap(s, id).map_or(0.0, |(_, gap)| gap)).into())),
    ("guard", "opening below", |s, id, place| {
        let top = top_gap(s, id).filter(|(reach, _)| *reach < place);
        Some(infill_gap(s, id)?.max(top.map_or(0.0, |(_, gap)| gap)).into())
    }),
    ("guard", "opening above", |s, id, place| {
        let (reach, top) = top_gap(s, id).unwrap_or((f64::INFINITY, 0.0));
        Some(if reach <= place { top } else { top.max(infill_gap(s, id)?) }.into())
    }),
    ("guard", "gap at the posts", |s, id, _| match s.word(id, "infill") {
        Some("solid" | "wall") => Some(0.0.into()),
        Some("open") if s.is_stated(id, "midrail") => Some(0.0.into()),
        Some("open") => s.number(id, "height").map(Told::from),
        None if only_a_midrail(s, id) => Some(0.0.into()),
        None if s.is_stated(id, "rails lie") || s.is_stated(id, "give") => Some(0.0.into()),
        Some("panels" | "glass") => s.number(id, "panel gap").map(Told::from),
        _ if s.is_stated(id, "rails") || s.is_stated(id, "cables") => Some(0.0.into()),
        Some("rails" | "cables") => Some(0.0.into()),
        _ => end_gap(s, id).map(Told::from),
    }),
    ("guard", "post spacing", |s, id, _| {
        let posts = s.design.of_kind(kinds::POST).map(|post| Some(section(s, post)?.thickness));
        let thinnest = posts.collect::<Option<Vec<f64>>>()?.into_iter().reduce(f64::min)?;
        Some((s.number(id, "between posts")? + thinnest).into())
    }),
    ("guard", "baluster remainder", |s, id, _| {
        let (balusters, end) = (balusters(s, id)?, s.number(id, "end gap")?);
        let (every, room) =
            (balusters.every?.value, s.number(id, "between posts")? - balusters.width.value - end - end);
        // Of all spacings that could be laid off, the one that comes nearest.
        let left = (-1_000..1_000).map(|many| room - f64::from(many) * every);
        left.min_by(|one, other| one.abs().total_cmp(&other.abs())).map(Told::from)
    }),
    ("guard", "edge length", |s, id, _| match (floor_at(s, id), s.element(id).side.map(Side::word)) {
        (Some(floor), Some(side)) => side_length(s, floor, side).map(Told::from),
        (Some(floor), None) => Some(side_length(s, floor, "far")?.max(side_length(s, floor, "left")?).into()),
        (None, _) => {
            let flight = s.flight(id)?;
            let (rise, run) = (rise(s, flight)?, s.list(flight, "runs")?.iter().sum::<f64>());
            Some((rise * rise + run * run).sqrt().into())
        }
    }),
    ("guard", "bottom gap", |s, id, _| {
        let walled = (s.word(id, "infill") == Some("wall")).then_some(0.0);
        s.number(id, "bottom gap").or(walled).map(Told::from)
    }),
    ("guard", "midrail drawn", |s, id, _| Some(if s.is_stated(id, "midrail") { "yes" } else { "no" }.into())),
    ("guard", "toe board drawn", |s, id, _| {
        let stated = ["toe board", "toe board gap"].iter().any(|part| s.is_stated(id, part));
        Some(if stated { "yes" } else { "no" }.into())
    }),
    ("guard", "midrail opening", |s, id, _| midrail_opening(s, id).map(Told::from)),
    ("guard", "midrail off midway", |s, id, _| {
        let midrail = s.number(id, "midrail")?;
        let off = s.list(id, "height")?.into_iter().map(|height| (2.0 * midrail - height).abs() / 2.0);
        off.reduce(f64::max).map(Told::from)
    }),
    ("guard", "reaches the rail", |s, id, _| {
        if s.element(id).serves.is_none() {
            return Some("no".into());
        }
        let beside =
            |rail: &Id| s.element(*rail).side == s.element(id).side && s.element(*rail).serves == s.element(id).serves;
        let mut reached = false;
        for rail in s.design.of_kind(kinds::HANDRAIL).filter(beside) {
            let underside = top_of_rail(s, rail)? - section(s, rail)?.thickness;
            reached |= s.list(id, "height")?.into_iter().all(|height| height >= underside - 0.1);
        }
        Some(if reached { "yes" } else { "no" }.into())
    }),
    ("handrail", "tier", |s, id, _| {
        let beside = rails_beside(s, id);
        let higher = |rail: &Id| Some(top_of_rail(s, *rail)? > top_of_rail(s, id)?);
        let higher = beside.iter().map(higher).collect::<Option<Vec<bool>>>()?;
        Some(
            if beside.is_empty() {
                "single"
            } else if higher.contains(&true) {
                "lower"
            } else {
                "upper"
            }
            .into(),
        )
    }),
    ("handrail", "clear to the rail below", |s, id, _| {
        let own = top_of_rail(s, id)?;
        let tops = rails_beside(s, id).into_iter().filter_map(|rail| top_of_rail(s, rail));
        let below = tops.filter(|top| *top <= own).reduce(f64::max)?;
        let section = section(s, id)?;
        let lowest = s.list(id, "height")?.into_iter().reduce(f64::min)?;
        Some((lowest - section.depth.max(section.thickness) - below).into())
    }),
    ("winders", "set above", |s, id, _| Some(if winders_above(s, id).is_some() { "yes" } else { "no" }.into())),
    ("winders", "level to the set above", |s, id, _| {
        let next = winders_above(s, id)?;
        let last = s.number(id, "from tread")?.max(s.number(id, "to tread")?) as usize;
        let first = s.number(next, "from tread")?.min(s.number(next, "to tread")?) as usize;
        let (from, to) = (s.element(id).parent?, s.element(next).parent?);
        let mut level = 0.0;
        for flight in s.design.of_kind(kinds::FLIGHT).filter(|flight| (from..=to).contains(flight)) {
            for (at, run) in s.list(flight, "runs").unwrap_or_default().into_iter().enumerate() {
                let past = flight != from || at >= last;
                let short = flight != to || at + 1 < first;
                level += if past && short { run } else { 0.0 };
            }
        }
        for landing in s.design.of_kind(kinds::LANDING).filter(|landing| (from..to).contains(landing)) {
            level += s.number(landing, "depth")?;
        }
        Some(level.into())
    }),
    ("guard", "level gap", |s, id, _| level_gap(s, id).map(Told::from)),
    ("guard", "risers missed", |s, id, _| {
        let (from, to) = (s.number(id, "from tread"), s.number(id, "to tread"));
        if from.is_none() && to.is_none() {
            return Some(0.0.into());
        }
        let risers = s.list(s.element(id).serves?, "risers")?.len();
        // Over a tread a guard stands over the riser before it and the one behind.
        let stands_over =
            |riser: f64| from.is_none_or(|tread| riser >= tread) && to.is_none_or(|tread| riser <= tread + 1.0);
        Some(((1..=risers).filter(|riser| !stands_over(*riser as f64)).count() as f64).into())
    }),
    ("guard", "climbable", |s, id, _| {
        let said = !s.is_stated(id, "balusters") && ["rails lie", "give"].iter().any(|part| s.is_stated(id, part));
        let level = said || ["rails", "cables"].iter().any(|part| s.is_stated(id, part));
        let climbs = level || s.is_stated(id, "midrail") || matches!(s.word(id, "infill"), Some("rails" | "cables"));
        Some(if climbs { "yes" } else { "no" }.into())
    }),
    ("guard", "infill", |s, id, _| {
        let drawn = || ["rails", "cables", "balusters"].into_iter().find(|drawn| s.value(id, drawn).is_some());
        let rails = || s.word(id, "rails lie").map(|_| "rails");
        let cables = || s.number(id, "give").map(|_| "cables");
        let cut = || rails().or_else(cables).or_else(|| s.number(id, "baluster cut").map(|_| "balusters"));
        let open = || s.is_stated(id, "midrail").then_some("open");
        s.word(id, "infill").or_else(drawn).or_else(cut).or_else(open).map(Told::from)
    }),
    ("guard", "tread below the feet", |s, id, _| {
        let flight = s.flight(id)?;
        let treads = s
            .design
            .elements
            .iter()
            .enumerate()
            .filter(|(tread, element)| element.kind == kinds::TREAD && s.flight(*tread) == Some(flight));
        let thick: Vec<f64> = treads
            .map(|(tread, _)| section(s, tread).map(|board| board.thickness.min(board.depth)))
            .collect::<Option<_>>()?;
        let thinnest = thick.into_iter().reduce(f64::min)?;
        Some((thinnest - s.number(id, "let in")?).into())
    }),
    ("guard", "balusters for", |s, id, ball| {
        let (clear, width) = (s.number(id, "between posts")?, balusters(s, id)?.width.value);
        // Within a tenth of a nanometre a gap of so much is no less than it.
        let under = |count: &i32| clear - f64::from(*count) * width < ball * (f64::from(*count) + 1.0) - 0.1;
        (0..10_000).find(under).map(|count| f64::from(count).into())
    }),
    ("stringer", "two-by depth", |s, id, _| {
        let section = section(s, id)?;
        // As the section modulus of both, b d^2 / 6.
        let whole = section.thickness - if s.word(id, "cut")? == "housed" { s.number(id, "housing")? } else { 0.0 };
        let modulus = whole.max(0.0) * section.depth.powi(2) / 6.0;
        Some((modulus * 6.0 / (1.5 * INCH)).sqrt().into())
    }),
    ("stringer", "last cut needed", |s, id, _| {
        let flight = s.flight(id)?;
        let last = *s.list(flight, "risers")?.last()?;
        let tread = *s.of(kinds::TREAD, flight).last()?;
        let board = s.derived_number(tread, "board thickness")?;
        let finish = match s.design.of_kind(kinds::FLIGHT).any(|other| other > flight) {
            true => s.number(landing_above(s, flight)?, "thickness")?,
            false => s.number(0, "top finish").unwrap_or(0.0),
        };
        Some((last - finish + board).into())
    }),
    ("stringer", "seat depth", |s, id, _| {
        let pitch = s.derived_number(s.flight(id)?, "pitch")?;
        // The depth of a level cut is the height over the longest side of the triangle that is cut out.
        let (level, plumb) = (s.number(id, "head bearing")?, s.number(id, "head bearing")? * pitch.to_radians().tan());
        Some(if plumb > 0.0 { level * plumb / level.hypot(plumb) } else { 0.0 }.into())
    }),
    ("stringer", "head notch share", |s, id, _| {
        Some((s.number(id, "head notch")? / s.derived_number(id, "throat")?).into())
    }),
    ("stringer", "foot notch share", |s, id, _| {
        Some((s.number(id, "foot notch")? / s.derived_number(id, "throat")?).into())
    }),
    ("joist", "notch share", |s, id, _| Some((s.number(id, "notch")? / section(s, id)?.depth).into())),
    ("stringer", "throat", |s, id, _| {
        let depth = section(s, id)?.depth;
        if s.word(id, "cut")? != "notched" {
            return Some(depth.into());
        }
        let flight = s.flight(id)?;
        let (risers, runs) = (s.list(flight, "risers")?, s.list(flight, "runs")?);
        let straight = (0..runs.len()).filter(|nth| winders_of(s, flight, nth + 1).is_none()).map(|nth| runs[nth]);
        let rise = risers.into_iter().reduce(f64::max)?;
        let run = straight.reduce(f64::max).or_else(|| s.derived_number(flight, "unit run"))?;
        // The notch is a right triangle; its height over the longest side is the short side times the cosine beside it.
        Some((depth - rise * rise.atan2(run).cos()).into())
    }),
    ("tread", "clear span", |s, id, _| {
        if let Some(span) = s.number(id, "span") {
            return Some(span.into());
        }
        if s.nth(id).is_some() && s.derived_word(id, "shape")? == "winder" {
            return None;
        }
        let mut spans = Vec::new();
        for stringer in s.of(kinds::STRINGER, s.flight(id)?) {
            spans.push(match (s.number(stringer, "spacing"), s.word(stringer, "cut")) {
                (Some(spacing), _) => spacing - section(s, stringer)?.thickness,
                (None, Some("housed")) => s.number(id, "length")? - 2.0 * s.number(stringer, "housing")?,
                (None, Some("solid")) => s.number(id, "length")?,
                (None, _) => return None,
            });
        }
        spans.into_iter().reduce(f64::max).map(Told::from)
    }),
    ("tread", "rests on", |s, id, _| {
        let stringers = s.of(kinds::STRINGER, s.flight(id)?);
        let cuts: BTreeSet<&str> = stringers.iter().filter_map(|stringer| s.word(*stringer, "cut")).collect();
        if let (1, Some(cut @ ("notched" | "housed"))) = (cuts.len(), cuts.first().copied())
            && stringers.iter().all(|stringer| s.word(*stringer, "cut").is_some())
        {
            return Some(if cut == "housed" { "housings" } else { "notches" }.into());
        }
        let all_known = stringers.iter().all(|stringer| match s.word(*stringer, "cut") {
            Some("notched") => section(s, *stringer).is_some(),
            Some("housed") => s.is_stated(*stringer, "housing"),
            Some(_) => true,
            None => false,
        });
        if stringers.is_empty() || !all_known {
            return None;
        }
        let cut = |stringer: &Id| s.word(*stringer, "cut").unwrap_or_default();
        let hangs = stringers.iter().any(|stringer| cut(stringer) == "solid");
        let deep = |stringer: &Id| match cut(stringer) {
            "notched" => section(s, *stringer).map(|section| section.thickness),
            _ => s.number(*stringer, "housing"),
        };
        let least = stringers.iter().min_by(|a, b| deep(a).partial_cmp(&deep(b)).unwrap());
        Some(
            match least.map(cut) {
                _ if hangs => {
                    s.word(id, "held by").filter(|by| ["cleats", "brackets"].contains(by)).unwrap_or("fasteners")
                }
                Some("housed") => "housings",
                _ => "notches",
            }
            .into(),
        )
    }),
    ("tread", "service", |s, _, _| service(s)),
    ("stringer", "service", |s, _, _| service(s)),
    ("post", "service", |s, _, _| service(s)),
    ("joist", "service", |s, _, _| service(s)),
    ("header", "service", |s, _, _| service(s)),
    ("guard", "service", |s, _, _| service(s)),
    ("stringer", "worst load", |s, id, _| {
        let psf = |pressure: f64| pressure / (POUND / (144.0 * INCH * INCH));
        let dead = psf(s.derived_number(id, "dead load")?);
        let live = if s.word(0, "use")? == "dwelling" { 40.0 } else { 100.0 };
        let snow = match s.word(0, "setting")? {
            "outdoors" => psf(s.number(0, "snow")?),
            _ => 0.0,
        };
        let (with_snow, all) = ((dead + snow) / 1.15, (dead + 0.75 * (live + snow)) / 1.15);
        Some(
            match snow > 0.0 {
                true if with_snow > dead + live && with_snow >= all => "dead load and snow",
                true if all > dead + live => "dead load, live load and snow",
                _ => "dead and live load",
            }
            .into(),
        )
    }),
    ("stringer", "spans", |s, id, _| {
        let Some(span) = s.number(id, "span") else { return Some(1.0.into()) };
        let run = s.derived_number(s.flight(id)?, "run")?;
        // As many as it takes to come within a twentieth of one.
        Some(((1..100_000).map(f64::from).find(|many| (many + 0.05) * span >= run - 1e-6)?).into())
    }),
    ("stringer", "level span", |s, id, _| {
        s.number(id, "span").or_else(|| s.derived_number(s.flight(id)?, "run")).map(Told::from)
    }),
    ("stringer", "load width", |s, id, _| {
        let (count, width) = (s.number(id, "count")?, s.number(s.flight(id)?, "width")?);
        if count == 2.0 {
            return Some((width / 2.0).into());
        }
        let between = s.number(id, "spacing")?;
        // An outer one carries half a bay and what stands out past it.
        let outer = between / 2.0 + (width - (count - 1.0) * between) / 2.0;
        Some(if outer > between { outer } else { between }.into())
    }),
    ("post", "guards beside", |s, id, _| {
        let railed = || s.design.of_kind(kinds::HANDRAIL).any(|rail| carrier(s, rail) == "posts");
        let drawn = s.design.elements.iter().any(|element| element.kind == kinds::GUARD) || railed();
        let pole = s.word(id, "stands") == Some("in the centre");
        Some(if drawn && !pole && !holds_up(s, id)? { "yes" } else { "no" }.into())
    }),
    ("joint", "group apart", |s, id, _| group_apart(s, id).map(Told::from)),
    ("member", "group across", |s, id, _| {
        let joint = s.element(id).parent?;
        let rows = s.number(id, "row spacing")?;
        let many = fasteners(s, joint)?.count;
        let steps: Vec<Option<(f64, f64)>> = s.of(kinds::MEMBER, joint).into_iter().map(|of| spaced(s, of)).collect();
        let line = many < 2.5 || steps.iter().flatten().any(|(along, across)| along * across == 0.0);
        line.then(|| (1..many as usize).map(|_| rows).sum::<f64>().into())
    }),
    ("member", "wood beneath", |s, id, _| {
        let (_, string) = on_notches(s, id)?;
        Some(section(s, string)?.thickness.into())
    }),
    ("member", "outer string inward", |s, id, _| {
        let (tread, string) = on_notches(s, id)?;
        let apart = s.number(string, "spacing")? * (s.number(string, "count")? - 1.0);
        let beside = (s.number(tread, "length")? - apart) / 2.0;
        Some((beside + section(s, string)?.thickness / 2.0).into())
    }),
    ("guard", "post top", |s, id, _| {
        let heights = s.list(id, "height")?;
        let highest = heights.into_iter().max_by(f64::total_cmp)?;
        let stated = s.is_stated(id, "section");
        let rail = if stated { section(s, id).map(|of| of.depth.max(of.thickness))? } else { 5.5 * INCH };
        Some((highest - rail).into())
    }),
    ("tread", "drawn span", |s, id, _| {
        if s.nth(id).is_some() && s.derived_word(id, "shape")? == "winder" {
            return None;
        }
        let mut widest = f64::NEG_INFINITY;
        for stringer in s.of(kinds::STRINGER, s.flight(id)?) {
            let clear = match (s.number(stringer, "spacing"), s.word(stringer, "cut")) {
                (Some(spacing), _) => spacing - section(s, stringer)?.thickness,
                (None, Some("housed")) => s.number(id, "length")? - 2.0 * s.number(stringer, "housing")?,
                (None, Some("solid")) => s.number(id, "length")?,
                (None, _) => return None,
            };
            widest = widest.max(clear);
        }
        widest.is_finite().then(|| widest.into())
    }),
    ("flight", "tread fasteners", |s, id, _| {
        let treads = s.of(kinds::TREAD, id);
        let is_tread = |of: Id| treads.contains(&of) || treads.iter().any(|tread| s.element(*tread).base == Some(of));
        fewest(s, &is_tread, &|of| s.kind(of).name == "stringer")
    }),
    ("stringer", "head fasteners", |s, id, _| {
        let alone = s.design.of_kind(kinds::BRACE).next().is_some();
        let span = s.element(id).span;
        let own = |of: Id| s.kind(of).name == "stringer" && s.element(of).span == span;
        fewest(s, &own, &|of| s.kind(of).name == "landing" || alone && s.kind(of).name == "post")
    }),
    ("guard", "rail fasteners", |s, _, _| fewest(s, &|of| s.kind(of).name == "guard", &|of| s.kind(of).name == "post")),
    ("stringer", "props", |s, id, _| {
        let span = s.element(id).span;
        let mut props = 0.0;
        for joint in s.design.of_kind(kinds::JOINT) {
            let joined: Vec<Id> = s.of(kinds::MEMBER, joint).iter().filter_map(|of| s.element(*of).target).collect();
            if joined.iter().any(|of| s.kind(*of).name == "stringer" && s.element(*of).span == span) {
                for post in joined.iter().filter(|of| s.kind(**of).name == "post") {
                    if s.word(*post, "stands") == Some("between ends") {
                        props += s.number(*post, "count")?;
                    }
                }
            }
        }
        (props > 0.0).then_some(())?;
        let each = s.number(id, "count")?;
        Some(
            (0..)
                .take_while(|nth| (f64::from(*nth) + 1.0) * each <= props)
                .count()
                .min(100)
                .try_into()
                .map(|n: u8| f64::from(n))
                .ok()?
                .into(),
        )
    }),
    ("post", "carries", |s, id, _| {
        let (stands, landing) = (s.word(id, "stands"), s.element(id).parent);
        let in_a_landing = landing.is_some_and(|landing| s.kind(landing).name == "landing");
        let to = beside_in_joints(s, id);
        let joined_to = |name: &str| to.iter().any(|of| s.kind(*of).name == name);
        match stands {
            Some("in the centre") => None,
            Some("between ends") if in_a_landing => Some("a landing".into()),
            _ if joined_to("stringer") => Some("a string".into()),
            Some("between ends") => None,
            None if in_a_landing || joined_to("landing") => None,
            _ => Some("nothing".into()),
        }
    }),
    ("joist", "legs", |s, id, _| {
        let landing = s.element(id).parent?;
        let legs = s.derived_number(id, "props")?;
        let walled = !s.of(kinds::WALL, landing).is_empty();
        let none = legs < 0.5 && !matches!(s.word(id, "rests on"), None | Some("beam"));
        (none || legs > 1.5 || legs > 0.5 && !walled).then(|| legs.into())
    }),
    ("handrail", "carried by", |s, id, _| Some(carrier(s, id).into())),
    ("handrail", "rail posts", |s, id, _| {
        let posts = posts_for_rails(s)?;
        let counts = posts.iter().map(|post| s.number(*post, "count")).collect::<Option<Vec<f64>>>()?;
        let _ = id;
        counts.into_iter().reduce(|sum, more| sum + more).map(Told::from)
    }),
    ("handrail", "tallest post", |s, _, _| {
        let heights = posts_for_rails(s)?.iter().map(|post| s.number(*post, "height")).collect::<Option<Vec<f64>>>()?;
        heights.into_iter().max_by(f64::total_cmp).map(Told::from)
    }),
    ("handrail", "service", |s, _, _| service(s)),
    ("part", "past its grade", |s, id, _| {
        let Value::Timber(timber) = s.value(id, "timber")? else { return None };
        let inches = |most: f64| Some(section(s, id)?.depth / INCH > most + 1e-6);
        Some(
            match timber.grade.map_or("", |grade| grade.name) {
                "stud" if inches(6.0)? => "stud",
                "utility" | "standard" | "construction" if inches(4.0)? => "light framing",
                _ => "no",
            }
            .into(),
        )
    }),
    ("riser bar", "room above", |s, id, _| {
        let flight = s.flight(id)?;
        let top = s.number(id, "below")? + section(s, id)?.depth;
        let mut least = f64::INFINITY;
        for riser in s.of(kinds::RISER, flight) {
            let height = s.list(flight, "risers")?.get(s.nth(riser).unwrap_or(1) - 1).copied()?;
            least = least.min(height - thickness_above(s, riser)?);
        }
        least.is_finite().then(|| (least - top).into())
    }),
    ("post", "push height", |s, id, _| {
        let member = at_the_foot(s, id)?;
        Some((s.number(id, "height")? - s.number(member, "end")? - s.number(member, "spacing")?).into())
    }),
    ("post", "held behind", |s, id, _| {
        let joint = s.element(at_the_foot(s, id)?).parent?;
        if s.value(joint, "hold-down").is_some() {
            return s.value(joint, "hold-down by").map(|_| "yes".into());
        }
        let bolted = || Some(["hex bolt", "carriage bolt", "lag"].contains(&fasteners(s, joint)?.kind));
        match (s.word(joint, "behind"), s.word(joint, "tied by")) {
            (Some("nothing"), _) | (_, Some("end grain")) => Some("no".into()),
            _ if !bolted()? => Some("no".into()),
            (behind, by) => behind.and(by).map(|_| "yes".into()),
        }
    }),
    ("stair", "snow load", |s, id, _| match s.word(id, "setting")? {
        "indoors" => Some(0.0.into()),
        _ => s.number(id, "snow").map(Told::from),
    }),
    ("joint", "duty", |s, id, _| {
        let names = joined(s, id)?;
        let (first, second) = (drawn(s, names.first()?)?, drawn(s, names.get(1)?)?);
        let kind = |id: Id| s.element(id).kind;
        let any_of = |wanted| kind(first) == wanted || kind(second) == wanted;
        let guarded = s.design.elements.iter().any(|element| element.kind == kinds::GUARD);
        if any_of(kinds::STRINGER) && any_of(kinds::TREAD) {
            let stringer = if kind(first) == kinds::STRINGER { first } else { second };
            let rests = ["notched", "housed"].contains(&s.word(stringer, "cut")?);
            let tread = if stringer == first { second } else { first };
            if !rests && ["cleats", "brackets"].contains(&s.word(tread, "held by").unwrap_or_default()) {
                return None;
            }
            let hangs = stringer == first;
            return if rests { Some("other".into()) } else { hangs.then(|| "hangs a tread".into()) };
        }
        let rail = any_of(kinds::HANDRAIL) || any_of(kinds::GUARD);
        let prop = |id: Id| kind(id) == kinds::POST && s.word(id, "stands") == Some("between ends");
        let boards = [kinds::TREAD, kinds::RISER_BOARD, kinds::STRINGER];
        let all_boards = boards.contains(&kind(first)) && boards.contains(&kind(second)) && kind(first) != kind(second);
        let all_boards = all_boards || kind(first) == kinds::TREAD && kind(second) == kinds::TREAD;
        Some(Told::from(match any_of(kinds::POST) {
            _ if any_of(kinds::BRACE) => "other",
            true if rail => "holds a rail",
            true if any_of(kinds::STRINGER) && (!guarded || prop(first) || prop(second)) => "holds up a stringer",
            false if all_boards || kind(first) == kinds::RISER_BOARD => "other",
            _ => return None,
        }))
    }),
    ("joint", "drawn from end grain", |s, id, _| {
        if !["wood screw", "nail"].contains(&fasteners(s, id)?.kind) {
            return Some("no".into());
        }
        let names = joined(s, id)?;
        let (first, second) = (drawn(s, names.first()?)?, drawn(s, names.get(1)?)?);
        if s.kind(first).name != "post" || !["handrail", "guard"].contains(&s.kind(second).name) {
            return Some("no".into());
        }
        let ends = s.kind(second).name == "handrail" && s.word(second, "ends") == Some("at a post");
        ends.then(|| "yes".into())
    }),
    ("joint", "fastener", |s, id, _| Some(fasteners(s, id)?.kind.into())),
    ("joint", "diameter", |s, id, _| Some(fasteners(s, id)?.diameter.value.into())),
    ("joint", "fastener length", |s, id, _| Some(fasteners(s, id)?.length?.value.into())),
    ("joint", "fastener count", |s, id, _| Some(fasteners(s, id)?.count.into())),
    ("joint", "coating", |s, id, _| fasteners(s, id)?.coating.map(Told::from)),
    ("joint", "toe-nailed", |s, id, _| {
        let nails = fasteners(s, id)?.kind == "nail";
        Some(if nails && s.word(id, "toe-nailed") == Some("yes") { "yes" } else { "no" }.into())
    }),
    ("joint", "coating stands", |s, id, _| {
        let (at, elsewhere) = match s.word(0, "setting") {
            Some(place) => (coating_at(s, id, place == "outdoors")?, None),
            None => (coating_at(s, id, true)?, Some(coating_at(s, id, false)?)),
        };
        let said = |worst: u8| Told::from(["yes", "by its maker", "no"][usize::from(worst)]);
        match (at, elsewhere) {
            ((worst, open), None) => (worst == 2 || !open).then(|| said(worst)),
            ((worst, open), Some((other, open_too))) => {
                (worst == other && (worst == 2 || !open && !open_too)).then(|| said(worst))
            }
        }
    }),
    ("joint", "stack", |s, id, _| Some((thicknesses(s, id)?.iter().sum::<f64>() + spacer(s, id)).into())),
    ("joint", "length past the first", |s, id, _| past_the_first(s, id).map(Told::from)),
    ("joint", "penetration", |s, id, _| {
        let (past, second) = (past_the_first(s, id)?, thickness(s, id, joined(s, id)?.get(1)?)?);
        Some(if past > second { second } else { past }.into())
    }),
    ("joint", "treated", |s, id, _| {
        let members = joined(s, id)?.into_iter().map(|name| timber(s, drawn(s, name)?).map(treated));
        let members: Vec<Option<bool>> = members.collect();
        match members.contains(&Some(true)) {
            true => Some("yes".into()),
            false => members.iter().all(Option::is_some).then(|| "no".into()),
        }
    }),
    ("joint", "gravity", |s, id, _| {
        let held = drawn(s, joined(s, id)?.last()?)?;
        let timber = timber(s, held)?;
        own_timber(s, timber).map_or_else(|| known_timber(timber)?.1, |own| s.number(own, "gravity")).map(Told::from)
    }),
    ("joint", "wood ahead", |s, id, _| {
        let names = joined(s, id)?;
        let members = || s.design.of_kind(kinds::MEMBER).filter(|member| s.element(*member).parent == Some(id));
        let stated = members().filter(|member| s.element(*member).goes_by(names[1]));
        let stated = stated.filter_map(|member| s.number(member, "through")).next();
        let second = stated.or_else(|| Some(section(s, drawn(s, names[1])?)?.depth))?;
        Some((second + spacer(s, id) + thickness(s, id, names[0])?).into())
    }),
    ("joint", "root share", |s, id, _| {
        let shank = fasteners(s, id)?.diameter.value / INCH;
        let (_, root) = SCREWS.iter().find(|(diameter, _)| (diameter - shank).abs() < 1e-4)?;
        Some((s.number(id, "pilot")? / INCH / root).into())
    }),
    ("joint", "slenderness", |s, id, _| {
        let (mut lengths, fasteners) = (thicknesses(s, id)?, fasteners(s, id)?);
        if fasteners.kind == "lag" {
            // In the last member, what goes in, its tip with it.
            lengths.push(fasteners.length?.value - lengths.first()? - spacer(s, id));
        }
        Some((lengths.into_iter().reduce(f64::min)? / fasteners.diameter.value).into())
    }),
    ("member", "far edge in diameters", |s, id, _| {
        let section = section(s, s.element(id).target?)?;
        let along = passes(s, id)?;
        // Of the two ways, the one that the fastener does not pass.
        let across = section.thickness + section.depth - along;
        let is_way = [section.thickness, section.depth].iter().any(|way| (way - along).abs() < 1.0);
        let string = s.element(id).target.filter(|of| s.kind(*of).name == "stringer");
        let cut = string.filter(|string| s.word(*string, "cut") == Some("notched") && across > section.thickness);
        let whole = cut.map_or(Some(across), |string| s.derived_number(string, "throat"))?;
        let far = whole - s.number(id, "edge")?;
        is_way.then(|| Some((far / fasteners(s, s.element(id).parent?)?.diameter.value).into()))?
    }),
    ("member", "other edge", |s, id, _| {
        let section = section(s, s.element(id).target?)?;
        let along = passes(s, id)?;
        Some((section.thickness + section.depth - along - s.number(id, "edge")?).into())
    }),
    ("member", "room in the wedge", |s, id, _| {
        let (board, joint) = (s.element(id).target?, s.element(id).parent?);
        let pole = |member: &Id| {
            let post = s.element(*member).target;
            post.is_some_and(|post| s.kind(post) == kinds::POST && s.word(post, "stands") == Some("in the centre"))
        };
        if s.kind(board) != kinds::TREAD || !s.of(kinds::MEMBER, joint).iter().any(pole) {
            return None;
        }
        let treads = s.of(kinds::TREAD, 0).into_iter();
        let made = treads.filter(|tread| s.element(*tread).step.is_some() && s.element(*tread).base == Some(board));
        let wedges = made.filter(|tread| winders(s, *tread).is_some());
        let rooms = wedges.map(|tread| {
            let deep = depth_at(s, tread, s.number(id, "end")?)? + s.derived_number(tread, "nosing")?;
            Some(deep - s.number(id, "edge")?)
        });
        rooms.collect::<Option<Vec<f64>>>()?.into_iter().reduce(f64::min).map(Told::from)
    }),
    ("member", "grain length", |s, id, _| {
        let of = s.element(id).target?;
        if s.kind(of).name == "stringer" {
            // The longest side of the triangle of its whole rise, and what is cut aslant.
            let flight = s.flight(of)?;
            let (rise, slope) = (rise(s, flight)?, s.derived_number(flight, "pitch")?.to_radians().tan());
            return Some((rise.hypot(rise / slope) + section(s, of)?.depth).into());
        }
        s.number(of, if s.kind(of).name == "post" { "height" } else { "length" }).map(Told::from)
    }),
    ("member", "most fasteners", |s, id, _| {
        // One after the other, until the next would stand in the air.
        let places = |first: f64, every: f64, end: f64| {
            (0..).take_while(|nth| first + every * f64::from(*nth) < end - 1.0).count().min(1_000)
        };
        let (row_spacing, spacing) = (s.number(id, "row spacing")?, s.number(id, "spacing")?);
        let rows = match row_spacing == 0.0 {
            true => 1,
            false => places(0.0, row_spacing, s.derived_number(id, "other edge")?),
        };
        let end = s.number(id, "end")?;
        let in_row = if spacing == 0.0 { 1 } else { places(end, spacing, s.derived_number(id, "grain length")?) };
        Some(((rows * in_row) as f64).into())
    }),
    ("member", "load", |s, id, _| {
        if s.kind(s.element(id).target?).name == "brace" {
            return Some("along the grain".into());
        }
        let level = ["tread", "riser board", "riser bar"].contains(&s.kind(s.element(id).target?).name);
        Some(if level { "across the grain" } else { "both" }.into())
    }),
    ("member", "hardness", |s, id, _| {
        let timber = timber(s, s.element(id).target?)?;
        if let Some(own) = own_timber(s, timber) {
            return s.word(own, "hardness").map(Told::from);
        }
        Some(if known_timber(timber)?.2.contains("hard") { "hardwood" } else { "softwood" }.into())
    }),
    ("part", "treated", |s, id, _| Some(if treated(timber(s, id)?) { "yes" } else { "no" }.into())),
    ("part", "durable", |s, id, _| {
        let timber = timber(s, id)?;
        if treated(timber) {
            return Some("yes".into());
        }
        if let Some(own) = own_timber(s, timber) {
            return s.word(own, "durable").map(Told::from);
        }
        Some(if known_timber(timber)?.2.contains("lasting") { "yes" } else { "no" }.into())
    }),
];

/// The worst that a coating comes to in a place (0 stands, 1 by its maker, 2 does not), and whether wood that is not known may
/// do worse.
fn coating_at(s: &Seen<'_>, id: Id, outdoors: bool) -> Option<(u8, bool)> {
    let fasteners = fasteners(s, id)?;
    let thick = fasteners.kind.ends_with("bolt") && fasteners.diameter.value >= INCH / 2.0 - 1.0;
    let coating = fasteners.coating?;
    let of = |wood: &str| match (wood, coating) {
        (_, "stainless") | ("treated" | "plain", "galvanised") => 0,
        ("tannin", "galvanised") if outdoors => 2,
        ("tannin", "galvanised") => 0,
        ("treated", "coated") => 1,
        (_, "coated") => u8::from(outdoors),
        ("treated", _) if thick => 0,
        ("treated", _) => 2,
        _ if outdoors => 2,
        _ => 0,
    };
    let (mut worst, mut open) = (0, false);
    for name in joined(s, id)? {
        let woods = || {
            let timber = timber(s, drawn(s, name)?)?;
            let rich = match own_timber(s, timber) {
                Some(own) => s.word(own, "tannin")? == "rich",
                None => rich_in_tannin(&timber.species),
            };
            Some([("treated", treated(timber)), ("tannin", rich)])
        };
        worst = worst.max(of("plain"));
        match woods() {
            Some(woods) => {
                worst = worst.max(woods.into_iter().filter(|(_, is)| *is).map(|(wood, _)| of(wood)).max().unwrap_or(0));
            }
            None => open |= of("treated").max(of("tannin")) > of("plain"),
        }
    }
    Some((worst, open))
}

fn service(s: &Seen<'_>) -> Option<Told> {
    Some(if s.word(0, "setting")? == "outdoors" { "wet" } else { "dry" }.into())
}

/// Families of woods whose tannin goes blue-black with iron, by a word of the trade's name, each with where that is from. By
/// the rule of the family no list of timbers is copied: whatever is called an oak is one.
const TANNIN: &[(&str, &str)] = &[
    ("oak", "Quercus: Wood Handbook, 2010, chapter 16, iron stain: from memory"),
    ("redwood", "Sequoia: Wood Handbook, 2010, chapter 16, iron stain: from memory"),
    ("cedar", "Thuja and Callitropsis: Wood Handbook, 2010, chapter 16, iron stain: from memory"),
    ("chestnut", "Castanea: its wood is boiled for the tanner, from memory"),
    ("walnut", "Juglans: common practice, no source"),
    ("locust", "Robinia: common practice, no source"),
    ("iroko", "Milicia: common practice, no source"),
    ("ipe", "Handroanthus: common practice, no source"),
    ("teak", "Tectona: common practice, no source"),
];

fn rich_in_tannin(species: &str) -> bool {
    species.to_lowercase().split([' ', '-']).any(|word| TANNIN.iter().any(|(family, _)| *family == word))
}

/// Which end of the stair a name means.
fn end_of(name: &str) -> &'static str {
    if name.eq_ignore_ascii_case("top") {
        "top"
    } else if name.eq_ignore_ascii_case("bottom") {
        "bottom"
    } else {
        "between"
    }
}

/// What of a board behind a tread is hidden by it.
fn hidden_behind(s: &Seen<'_>, riser: Id, board: Id, height: f64) -> Option<f64> {
    let behind = s.word(board, "stands")? == "behind tread";
    let treads = s.of(kinds::TREAD, s.element(riser).parent?);
    let below = treads.into_iter().find(|tread| behind && s.nth(*tread).map(|nth| nth + 1) == s.nth(riser));
    let Some(below) = below else { return Some(0.0) };
    let (thickness, depth) = (section(s, below)?.thickness, section(s, board)?.depth);
    Some(if depth < height + thickness { thickness } else { 0.0 })
}

fn thickness_above(s: &Seen<'_>, riser: Id) -> Option<f64> {
    let flight = s.element(riser).parent?;
    match s.of(kinds::TREAD, flight).into_iter().find(|tread| s.nth(*tread) == s.nth(riser)) {
        Some(tread) => Some(section(s, tread)?.thickness),
        None => s.number(landing_above(s, flight)?, "thickness"),
    }
}

/// Widths of the flights that come up to a landing and leave it; nothing for one that is not there.
/// From one fastener to the next in a member.
fn spaced(s: &Seen<'_>, member: Id) -> Option<(f64, f64)> {
    Some((s.number(member, "spacing")?, s.number(member, "row spacing")?))
}

/// Which way of its member a fastener passes: down into the edge of a notched string it goes along the wider one.
fn passes(s: &Seen<'_>, member: Id) -> Option<f64> {
    if s.is_stated(member, "through") {
        return s.number(member, "through");
    }
    let target = s.element(member).target?;
    let of = section(s, target)?;
    let beside = s.of(kinds::MEMBER, s.element(member).parent?).into_iter().filter_map(|other| s.element(other).target);
    let under = s.kind(target).name == "stringer" && beside.into_iter().any(|other| s.kind(other).name == "tread");
    Some(if under && s.word(target, "cut")? == "notched" { of.depth } else { of.thickness })
}

/// The law of cosines between the directions of a step, both folded into the first quadrant.
fn group_apart(s: &Seen<'_>, joint: Id) -> Option<f64> {
    let many = fasteners(s, joint)?.count;
    let members = s.of(kinds::MEMBER, joint);
    if many < 1.5 {
        return Some(0.0);
    }
    let steps: Vec<(f64, f64)> = members.iter().map(|of| spaced(s, *of)).collect::<Option<_>>()?;
    let mut worst = 0.0_f64;
    for (at, pair) in steps.windows(2).enumerate() {
        let polar = |(along, across): (f64, f64)| (across.hypot(along), across.atan2(along).to_degrees());
        let ((one, from), (other, to)) = (polar(pair[0]), polar(pair[1]));
        let (a, b) = (s.element(members[at]).target?, s.element(members[at + 1]).target?);
        let grain = |of: Id| match s.kind(of).name {
            "post" => Some(90.0),
            "stringer" => s.derived_number(s.flight(of)?, "pitch"),
            _ => None,
        };
        let level = |of: Id| ["tread", "riser board", "riser bar"].contains(&s.kind(of).name);
        let names = [s.kind(a).name, s.kind(b).name];
        let turn = match names {
            ["post", "post"] => Some(0.0),
            ["post", "stringer"] | ["stringer", "post"] => Some((grain(a)? - grain(b)?).abs()),
            _ if names.contains(&"post") && (level(a) || level(b)) => Some(90.0),
            ["tread", "stringer"] | ["stringer", "tread"]
                if s.word(if names[0] == "tread" { b } else { a }, "cut") == Some("notched") =>
            {
                let (tread, string, of) =
                    if names[0] == "tread" { (pair[0], pair[1], b) } else { (pair[1], pair[0], a) };
                let slope = s.derived_number(s.flight(of)?, "pitch")?.to_radians().tan();
                let (level, sloped) = (tread.1, tread.1 * slope.hypot(1.0));
                let along = string.0.clamp(level, sloped) - string.0;
                worst = worst.max(along.hypot(tread.0 - string.1));
                continue;
            }
            _ if names.contains(&"stringer") && (level(a) || level(b)) => return None,
            _ => None,
        };
        let off = match turn {
            None => (one - other).abs(),
            Some(turn) => {
                let aslant = turn % 90.0 != 0.0;
                let line = many < 2.5 || pair.iter().any(|(along, across)| along * across == 0.0);
                if aslant && !line {
                    return None;
                }
                let fold = |angle: f64| if angle.abs() > 90.0 { 180.0 - angle.abs() } else { angle.abs() };
                let ways = [turn + from, turn - from].map(|way| {
                    let between = (fold(way) - to).to_radians();
                    (one * one + other * other - 2.0 * one * other * between.cos()).max(0.0).sqrt()
                });
                ways[0].min(ways[1])
            }
        };
        worst = worst.max(off);
    }
    Some(worst)
}

/// The tread and the notched string beneath it that a member of a joint speaks of.
fn on_notches(s: &Seen<'_>, member: Id) -> Option<(Id, Id)> {
    let joint = s.element(member).parent?;
    let names = joined(s, joint)?;
    let [first, second] = names.as_slice() else { return None };
    let (tread, string) = (drawn(s, first)?, drawn(s, second)?);
    let own = s.element(member).target? == tread && s.kind(tread).name == "tread";
    (own && s.kind(string).name == "stringer" && s.word(string, "cut")? == "notched").then_some((tread, string))
}

/// The fewest fasteners of a joint that joins one to another.
fn fewest(s: &Seen<'_>, one: &dyn Fn(Id) -> bool, other: &dyn Fn(Id) -> bool) -> Option<Told> {
    let mut counts = Vec::new();
    for joint in s.design.of_kind(kinds::JOINT) {
        let joined: Vec<Id> = s.of(kinds::MEMBER, joint).iter().filter_map(|of| s.element(*of).target).collect();
        if joined.iter().any(|of| one(*of)) && joined.iter().any(|of| other(*of)) {
            counts.push(fasteners(s, joint)?.count);
        }
    }
    counts.into_iter().min_by(f64::total_cmp).map(Told::from)
}

fn joined_widths(s: &Seen<'_>, landing: Id) -> Option<[f64; 2]> {
    let flights: Vec<Id> = s.design.of_kind(kinds::FLIGHT).collect();
    let (below, above) = match end_of(s.name(landing)) {
        "top" => (flights.last(), None),
        "bottom" => (None, flights.first()),
        _ => (flights.iter().rfind(|flight| **flight < landing), flights.iter().find(|flight| **flight > landing)),
    };
    let width = |flight: Option<&Id>| flight.map_or(Some(0.0), |flight| s.number(*flight, "width"));
    Some([width(below)?, width(above)?])
}

fn turn_of<'d>(s: &Seen<'d>, landing: Id) -> Option<&'d str> {
    if end_of(s.name(landing)) == "between" { s.word(landing, "turn") } else { Some("straight") }
}

fn treated(timber: &Timber) -> bool {
    timber.treatments.iter().any(|treatment| treatment.name == "treated")
}

/// A lag without its tip, and whatever stands past the member under its head.
fn past_the_first(s: &Seen<'_>, joint: Id) -> Option<f64> {
    let fasteners = fasteners(s, joint)?;
    let tip = if fasteners.kind == "lag" { lag_tip(fasteners.diameter.value / INCH) * INCH } else { 0.0 };
    let first = thickness(s, joint, joined(s, joint)?.first()?)?;
    Some(fasteners.length?.value - first - spacer(s, joint) - tip)
}

fn rise(s: &Seen<'_>, flight: Id) -> Option<f64> {
    s.list(flight, "risers").map(|risers| risers.iter().sum())
}

fn section<'d>(s: &Seen<'d>, id: Id) -> Option<&'d Section> {
    match s.value(id, "section")? {
        Value::Section(section) => Some(section),
        _ => None,
    }
}

fn landing_at(s: &Seen<'_>, id: Id) -> Option<Id> {
    s.element(id).serves.filter(|place| s.design.is(*place, kinds::LANDING))
}

/// The landing or the well that a guard stands at.
fn floor_at(s: &Seen<'_>, id: Id) -> Option<Id> {
    let level = |place: &Id| s.design.is(*place, kinds::LANDING) || s.design.is(*place, kinds::WELL);
    s.element(id).serves.filter(level)
}

fn landing_above(s: &Seen<'_>, flight: Id) -> Option<Id> {
    let above = |landing: &Id| match s.name(*landing) {
        "top" => true,
        "bottom" => false,
        _ => *landing > flight,
    };
    s.design.of_kind(kinds::LANDING).find(above)
}

/// The sides by which nobody comes or goes.
fn ways_off(s: &Seen<'_>, place: Id) -> Option<Vec<&'static str>> {
    if s.word(place, "spiral") == Some("yes") {
        let inner = s.of(kinds::STRINGER, place).iter().any(|string| s.word(*string, "stands") == Some("inner"));
        let pole = s.of(kinds::POST, place).iter().any(|post| s.word(*post, "stands") == Some("in the centre"));
        if inner && !pole {
            return Some(vec!["left", "right"]);
        }
        // The pole stands where its treads are narrow; with no winders nothing says where that is.
        let poles: Vec<Option<Side>> = s.of(kinds::WINDERS, place).iter().map(|of| s.element(*of).side).collect();
        let left =
            ["left", "right"].into_iter().filter(|side| !poles.iter().flatten().any(|pole| pole.word() == *side));
        let closing = !s.of(kinds::WALL, place).is_empty() || !s.of(kinds::GUARD, place).is_empty();
        return (!poles.is_empty() || !closing).then(|| left.collect());
    }
    if s.design.is(place, kinds::WELL) {
        return Some(vec!["left", "right", "far"]);
    }
    if !s.design.is(place, kinds::LANDING) {
        return Some(vec!["left", "right"]);
    }
    if end_of(s.name(place)) != "between" {
        let way = s.word(place, "leads on").unwrap_or("far");
        return Some(["left", "right", "far"].into_iter().filter(|side| *side != way).collect());
    }
    Some(match s.word(place, "turn")? {
        "straight" => vec!["left", "right"],
        "quarter left" => vec!["right", "far"],
        "quarter right" => vec!["left", "far"],
        _ => vec!["left", "right", "far"],
    })
}

/// The place of a step, and which it is; of a place all of them.
fn place_and_step(s: &Seen<'_>, of: Id) -> Option<(Id, Option<usize>)> {
    if s.design.is(of, kinds::TREAD) { Some((s.element(of).parent?, s.nth(of))) } else { Some((of, None)) }
}

/// The treads beside which a wall or a guard stands: all of them, unless it says which.
fn beside(s: &Seen<'_>, id: Id, tread: usize) -> bool {
    let tread = tread as f64;
    s.number(id, "from tread").unwrap_or(1.0) <= tread && tread <= s.number(id, "to tread").unwrap_or(f64::INFINITY)
}

/// The sides of these that things of some kinds leave open: a side of a landing is closed where less than a ball's 4 in
/// are left of it, a flight's where something stands beside each tread.
fn left_open(s: &Seen<'_>, of: Id, kinds: &[&Kind], sides: Vec<&'static str>) -> Option<Vec<&'static str>> {
    let (place, step) = place_and_step(s, of)?;
    let things: Vec<Id> = kinds.iter().flat_map(|kind| s.of(kind, place)).collect();
    let closed = |side: &str| -> Option<bool> {
        let here: Vec<Id> =
            things.iter().copied().filter(|id| s.element(*id).side.is_some_and(|of| of.word() == side)).collect();
        if here.is_empty() {
            return Some(false);
        }
        if s.design.is(place, kinds::FLIGHT) {
            let steps = match step {
                Some(step) => vec![step],
                None if here.iter().any(|id| !s.is_stated(*id, "from tread") && !s.is_stated(*id, "to tread")) => {
                    vec![]
                }
                None => (1..=s.list(place, "runs")?.len()).collect(),
            };
            return Some(steps.into_iter().all(|step| here.iter().any(|id| beside(s, *id, step))));
        }
        if here.iter().any(|id| !s.is_stated(*id, "length")) {
            return Some(true);
        }
        let length = here.iter().map(|id| s.number(*id, "length")).sum::<Option<f64>>()?;
        Some(side_length(s, place, side)? - length < 4.0 * INCH)
    };
    let mut left = Vec::new();
    for side in sides {
        if !closed(side)? {
            left.push(side);
        }
    }
    let all_round = |id: &Id| s.element(*id).side.is_none() && step.is_none_or(|step| beside(s, *id, step));
    if things.iter().any(all_round) {
        // It closes the one side that is left.
        assert!(left.len() < 2, "which side it stands at is not known");
        left.clear();
    }
    Some(left)
}

fn side_length(s: &Seen<'_>, place: Id, side: &str) -> Option<f64> {
    let along = if s.design.is(place, kinds::WELL) { "length" } else { "depth" };
    s.number(place, if side == "far" || side == "near" { "width" } else { along })
}

fn open_sides(s: &Seen<'_>, of: Id) -> Option<Vec<&'static str>> {
    let (place, _) = place_and_step(s, of)?;
    if s.is_stated(place, "open sides") {
        let Value::Words(words) = s.value(place, "open sides")? else { return None };
        return Some(["left", "right", "far"].into_iter().filter(|side| words.contains(side)).collect());
    }
    left_open(s, of, &[kinds::WALL], ways_off(s, place)?)
}

fn bare_sides(s: &Seen<'_>, of: Id) -> Option<Vec<&'static str>> {
    let (place, _) = place_and_step(s, of)?;
    let open = open_sides(s, of)?;
    let kinds = if s.is_stated(place, "open sides") { &[kinds::GUARD][..] } else { &[kinds::WALL, kinds::GUARD] };
    left_open(s, of, kinds, open)
}

/// From the head down, riser by riser, as long as the tread below ends before the well does.
fn well_drop(s: &Seen<'_>, well: Id) -> Option<f64> {
    let flight = s.design.of_kind(kinds::FLIGHT).last()?;
    let (risers, runs) = (s.list(flight, "risers")?, s.list(flight, "runs")?);
    let length = s.number(well, "length")?;
    let reach = |nth: usize| runs[nth..].iter().sum::<f64>();
    match (0..runs.len()).rev().find(|nth| reach(*nth) >= length) {
        Some(tread) => Some(risers[tread + 1..].iter().sum()),
        None => Some(risers.iter().sum::<f64>() + s.derived_number(flight, "foot")?),
    }
}

fn sweep(s: &Seen<'_>, door: Id) -> Option<f64> {
    if s.word(door, "swing")? != "over the stair" {
        return Some(0.0);
    }
    let depth = landing_at(s, door).map_or(Some(0.0), |landing| s.number(landing, "depth"))?;
    Some((s.number(door, "leaf")? - depth).max(0.0))
}

fn handrail_sides(s: &Seen<'_>, flight: Id) -> Option<BTreeSet<&'static str>> {
    let beside = s.of(kinds::HANDRAIL, flight).into_iter().filter(|rail| s.name(*rail).to_lowercase() != "middle");
    beside.map(|rail| s.element(rail).side.map(Side::word)).collect()
}

/// Each handrail with its side and the risers that it stands over.
type Over = Vec<(&'static str, std::ops::RangeInclusive<usize>)>;

fn handrails_over(s: &Seen<'_>, flight: Id) -> Option<Over> {
    let last = s.list(flight, "risers").map_or(usize::MAX - 1, |risers| risers.len());
    let beside = s.of(kinds::HANDRAIL, flight).into_iter().filter(|rail| s.name(*rail).to_lowercase() != "middle");
    let over = beside.map(|rail| {
        let from = s.number(rail, "from riser").map_or(1, |from| from as usize);
        let begins = s.word(rail, "begins").is_some_and(|begins| begins != "plain");
        let from = if from == 2 && begins { 1 } else { from };
        let to = s.number(rail, "to riser").map_or(last, |to| to as usize);
        Some((s.element(rail).side?.word(), from..=to))
    });
    over.collect()
}

/// Those, and the guards that serve as such: over a tread one stands over the risers at both its ends.
fn rails_over(s: &Seen<'_>, flight: Id) -> Option<Over> {
    let last = s.list(flight, "risers").map_or(usize::MAX - 1, |risers| risers.len());
    let mut over = handrails_over(s, flight)?;
    for guard in s.of(kinds::GUARD, flight) {
        if s.word(guard, "handrail") == Some("yes") {
            let open = open_sides(s, flight)?;
            let from = s.number(guard, "from tread").map_or(1, |from| from as usize);
            let to = s.number(guard, "to tread").map_or(last, |to| to as usize + 1);
            over.push((s.element(guard).side.map_or_else(|| open[0], Side::word), from..=to));
        }
    }
    Some(over)
}

/// The sides at which every riser has a rail over it.
fn followed_sides(s: &Seen<'_>, flight: Id, over: &Over) -> Option<BTreeSet<&'static str>> {
    let sides: BTreeSet<&str> = over.iter().map(|(side, _)| *side).collect();
    let last = s.list(flight, "risers").map_or(1, |risers| risers.len());
    let followed = |side: &&'static str| {
        (1..=last).all(|riser| over.iter().any(|(other, at)| other == side && at.contains(&riser)))
    };
    Some(sides.into_iter().filter(|side| followed(side)).collect())
}

fn railed_sides(s: &Seen<'_>, flight: Id) -> Option<BTreeSet<&'static str>> {
    followed_sides(s, flight, &rails_over(s, flight)?)
}

fn goes_round(s: &Seen<'_>, flight: Id) -> bool {
    s.derived_word(flight, "spiral").is_some_and(|spiral| spiral == "yes") || !s.of(kinds::WINDERS, flight).is_empty()
}

/// The strings that both ends of a tread are let into, or the first that is drawn.
fn let_into(s: &Seen<'_>, flight: Id) -> Option<Id> {
    let strings = s.of(kinds::STRINGER, flight);
    strings.iter().find(|string| s.word(**string, "cut") == Some("housed")).or(strings.first()).copied()
}

/// How wide the steps are that come or go at a side of a floor.
fn steps_at_side(s: &Seen<'_>, floor: Id, side: &str) -> Option<f64> {
    if !s.design.is(floor, kinds::LANDING) {
        return Some(0.0);
    }
    let at_an_end = end_of(s.name(floor)) != "between";
    if side != "near" && (at_an_end || !s.is_stated(floor, "turn")) {
        return Some(0.0);
    }
    let [below, above] = joined_widths(s, floor)?;
    if at_an_end {
        return Some(below.max(above));
    }
    Some(match (side, s.word(floor, "turn")) {
        ("near", Some(turn)) if turn.starts_with("half") => below + above,
        ("near", Some(_)) => below,
        ("near", None) => return None,
        ("far", Some("straight")) | ("left", Some("quarter left")) | ("right", Some("quarter right")) => above,
        _ => 0.0,
    })
}

/// The posts that stand between the ends of a string and that a joint holds to it.
fn props_of(s: &Seen<'_>, string: Id) -> Vec<Id> {
    let span = s.element(string).span;
    let mut posts = Vec::new();
    for joint in s.design.of_kind(kinds::JOINT) {
        let joined: Vec<Id> = s.of(kinds::MEMBER, joint).iter().filter_map(|of| s.element(*of).target).collect();
        if joined.iter().any(|of| s.kind(*of).name == "stringer" && s.element(*of).span == span) {
            let here = |post: &&Id| s.kind(**post).name == "post" && s.word(**post, "stands") == Some("between ends");
            posts.extend(joined.iter().filter(here).copied());
        }
    }
    posts
}

/// What stands beside a post in the joints that it stands in.
fn beside_in_joints(s: &Seen<'_>, post: Id) -> Vec<Id> {
    let joints = s
        .design
        .of_kind(kinds::JOINT)
        .map(|joint| s.of(kinds::MEMBER, joint).into_iter().filter_map(|of| s.element(of).target).collect::<Vec<Id>>());
    joints.filter(|joined| joined.contains(&post)).flatten().filter(|of| *of != post).collect()
}

/// What a handrail is fixed to.
fn carrier(s: &Seen<'_>, rail: Id) -> &'static str {
    if !s.of(kinds::BRACKET, rail).is_empty() {
        return "brackets";
    }
    if s.name(rail).eq_ignore_ascii_case("middle")
        || beside_in_joints(s, rail).iter().any(|of| s.kind(*of).name == "post")
    {
        return "posts";
    }
    let element = s.element(rail);
    let found = |kind: &Kind| match (element.serves, element.side) {
        (Some(place), Some(side)) => {
            s.of(kind, place).iter().any(|other| s.element(*other).side.is_none_or(|at| at == side))
        }
        _ => s.design.elements.iter().any(|element| element.kind == kind),
    };
    if found(kinds::GUARD) {
        "a guard"
    } else if found(kinds::WALL) {
        "a wall"
    } else {
        "posts"
    }
}

/// The posts that may carry a rail.
fn posts_for_rails(s: &Seen<'_>) -> Option<Vec<Id>> {
    let mut posts = Vec::new();
    for post in s.design.of_kind(kinds::POST) {
        if s.derived_word(post, "guards beside")? == "yes" {
            posts.push(post);
        }
    }
    Some(posts)
}

/// Whether a post holds up a string or a landing that is said to span less than its run.
fn holds_up(s: &Seen<'_>, post: Id) -> Option<bool> {
    if s.word(post, "stands") != Some("between ends") {
        return Some(false);
    }
    let several = |of: Id| s.derived_number(of, "spans").map(|spans| spans > 1.5);
    let landing = s.element(post).parent.filter(|landing| s.design.is(*landing, kinds::LANDING));
    for joist in landing.map(|landing| s.of(kinds::JOIST, landing)).unwrap_or_default() {
        if s.word(joist, "rests on") == Some("beam") || s.is_stated(joist, "span") && several(joist)? {
            return Some(true);
        }
    }
    let spanning = |string: &Id| s.is_stated(*string, "span") && props_of(s, *string).contains(&post);
    s.design.of_kind(kinds::STRINGER).find(spanning).map_or(Some(false), several)
}

/// Both ends together are what a board has more than there is between the faces of the strings.
fn let_in(s: &Seen<'_>, tread: Id) -> Option<f64> {
    let flight = s.flight(tread)?;
    let stringer = let_into(s, flight)?;
    let (length, thick) = (s.number(tread, "length")?, section(s, stringer)?.thickness);
    if s.is_stated(stringer, "spacing") {
        let gaps = s.number(stringer, "count")? - 1.0;
        let faces = gaps * s.number(stringer, "spacing")? - thick;
        return Some((length - if gaps > 0.0 { faces } else { -thick }) / 2.0);
    }
    let width = s.number(flight, "width")?;
    let readings = [(length - width) / 2.0, (length - (width - 2.0 * thick)) / 2.0];
    if readings[1] <= 0.0 && !s.is_stated(stringer, "housing") {
        return Some(readings[1]);
    }
    let housing = s.number(stringer, "housing")?;
    let fits = |end: f64| if end < 0.0 { -end } else { end - housing };
    Some(if fits(readings[0]) <= fits(readings[1]) { readings[0] } else { readings[1] })
}

/// Every nosing of a flight in plan and height, the foot of the flight at the origin.
fn nosings(s: &Seen<'_>, flight: Id) -> Option<Vec<(f64, f64)>> {
    let (risers, runs) = (s.list(flight, "risers")?, s.list(flight, "runs")?);
    let mut line = vec![(0.0, *risers.first()?)];
    for (riser, run) in risers.iter().skip(1).zip(&runs) {
        let (x, y) = line[line.len() - 1];
        line.push((x + run, y + riser));
    }
    Some(line)
}

fn at(line: &[(f64, f64)], x: f64) -> f64 {
    let after = line.iter().position(|point| point.0 >= x - 1e-9).unwrap_or(line.len() - 1).max(1).min(line.len() - 1);
    let ((x0, y0), (x1, y1)) = (line[after.saturating_sub(1)], line[after]);
    if x1 > x0 { y0 + (y1 - y0) * (x - x0) / (x1 - x0) } else { y1 }
}

fn room_under_the_turn_above(s: &Seen<'_>, flight: Id) -> Option<f64> {
    if s.derived_word(flight, "spiral")? == "yes" {
        let treads = s.of(kinds::TREAD, flight);
        let risers = s.list(flight, "risers")?;
        let turns = treads.iter().map(|tread| s.derived_number(*tread, "turn")).collect::<Option<Vec<f64>>>()?;
        let begins = |nth: usize| turns[..nth].iter().sum::<f64>();
        let mut rooms = Vec::new();
        for low in 0..treads.len() {
            // The tread in which the front edge of this one lies, a full turn on.
            let edge = begins(low) + 360.0 + 0.01;
            let high = (low + 1..treads.len()).find(|nth| begins(*nth) <= edge && edge <= begins(nth + 1));
            rooms.extend(high.map(|high| risers[low + 1..=high].iter().sum::<f64>()));
        }
        let thick =
            treads.iter().map(|tread| s.derived_number(*tread, "board thickness")).collect::<Option<Vec<_>>>()?;
        return Some(rooms.into_iter().reduce(f64::min)? - thick.into_iter().fold(0.0, f64::max));
    }
    let flights: Vec<Id> = s.design.of_kind(kinds::FLIGHT).collect();
    let landings: Vec<Id> = s.design.of_kind(kinds::LANDING).collect();
    let first = flights.iter().position(|other| *other == flight)?;
    if !s.of(kinds::WINDERS, flight).is_empty() {
        return None;
    }
    let own = nosings(s, flight)?;
    // In quarter turns to the left; a vector of the plan turns with them.
    let (mut quarters, mut x, mut y, mut up) = (0_i32, 0.0, 0.0, 0.0);
    let mut rooms = Vec::new();
    for pair in flights[first..].windows(2) {
        let (run, rise) =
            (s.list(pair[0], "runs")?.iter().sum::<f64>(), s.list(pair[0], "risers")?.iter().sum::<f64>());
        match quarters.rem_euclid(4) {
            0 => x += run,
            1 => y += run,
            2 => x -= run,
            _ => y -= run,
        }
        up += rise;
        for landing in landings.iter().filter(|landing| pair[0] < **landing && **landing < pair[1]) {
            quarters += match s.word(*landing, "turn")? {
                "quarter left" => 1,
                "quarter right" => -1,
                "half left" => 2,
                "half right" => -2,
                _ => 0,
            };
        }
        if goes_round(s, pair[1]) {
            break;
        }
        if quarters.abs() == 4 && f64::abs(y) < s.number(flight, "width")? {
            let over = nosings(s, pair[1])?;
            let (from, to) = (f64::max(x, 0.0), own[own.len() - 1].0.min(x + over[over.len() - 1].0));
            let places =
                own.iter().map(|point| point.0).chain([from, to]).filter(|place| from <= *place && *place <= to);
            rooms.extend(places.map(|place| up + at(&over, place - x) - at(&own, place)));
        }
    }
    rooms.into_iter().reduce(f64::min)
}

/// From a surface to the ground within reach of one of these sides, at its lowest.
fn drop_of(s: &Seen<'_>, surface: Id, sides: &[&str], reach: f64) -> Option<f64> {
    if s.design.is(surface, kinds::WELL) {
        return well_drop(s, surface);
    }
    let mut deepest: f64 = 0.0;
    for side in sides {
        let mut down = s.derived_number(surface, "elevation")?;
        let beside = |ground: &Id| s.element(*ground).side.is_none_or(|of| of.word() == *side);
        if let Some(ground) = s.design.of_kind(kinds::GROUND).find(beside) {
            down += s.number(ground, "below").unwrap_or(0.0);
            down += reach * s.number(ground, "slope").unwrap_or(0.0);
        }
        deepest = deepest.max(down);
    }
    Some(deepest)
}

/// The deepest beside what a guard guards.
fn guard_drop(s: &Seen<'_>, id: Id, reach: f64) -> Option<f64> {
    let landing = floor_at(s, id);
    let sides: Vec<&str> = match (s.element(id).side, landing) {
        (Some(side), _) => vec![side.word()],
        (None, Some(landing)) => ways_off(s, landing)?,
        (None, None) => vec!["left", "right"],
    };
    let treads = || s.of(kinds::TREAD, s.flight(id).unwrap_or(id)).into_iter();
    let treads = || treads().filter(|tread| s.nth(*tread).is_none_or(|nth| beside(s, id, nth))).collect();
    let surfaces: Vec<Id> = landing.map_or_else(treads, |landing| vec![landing]);
    let drops = surfaces.into_iter().map(|surface| drop_of(s, surface, &sides, reach)).collect::<Option<Vec<f64>>>()?;
    Some(drops.into_iter().fold(0.0, f64::max))
}

fn deepest(s: &Seen<'_>, surface: Id, sides: &[&str], reach: f64) -> Option<Told> {
    drop_of(s, surface, sides, reach).map(Told::from)
}

fn riser_board_on(s: &Seen<'_>, tread: Id) -> Option<f64> {
    match s.of(kinds::RISER_BOARD, s.element(tread).parent?).first() {
        Some(board) if s.word(*board, "stands")? != "behind tread" => Some(section(s, *board)?.thickness),
        _ => Some(0.0),
    }
}

fn board_depth(s: &Seen<'_>, tread: Id) -> Option<f64> {
    let boards = if s.is_stated(tread, "boards") { s.number(tread, "boards")? } else { 1.0 };
    let between = (boards - 1.0).max(0.0);
    let gap = if between > 0.0 { s.number(tread, "gap")? } else { 0.0 };
    Some(boards * section(s, tread)?.depth + between * gap)
}

/// The block that counts a tread among its winders, and which of them it is, from 0, and of how many.
fn winders_of(s: &Seen<'_>, flight: Id, tread: usize) -> Option<(Id, usize, f64)> {
    s.of(kinds::WINDERS, flight).into_iter().find_map(|block| {
        let (from, to) = (s.number(block, "from tread")?, s.number(block, "to tread")?);
        let (first, last) = (from.min(to), from.max(to));
        let within = first <= tread as f64 && tread as f64 <= last;
        within.then_some((block, (tread as f64 - first) as usize, last - first + 1.0))
    })
}

fn winders(s: &Seen<'_>, tread: Id) -> Option<(Id, usize, f64)> {
    winders_of(s, s.element(tread).parent?, s.nth(tread)?)
}

fn turn(s: &Seen<'_>, tread: Id) -> Option<f64> {
    let Some((block, nth, count)) = winders(s, tread) else { return Some(0.0) };
    let turns = s.list(block, "turn")?;
    if turns.len() == 1 { Some(turns[0] / count) } else { turns.get(nth).copied() }
}

fn pole_radius(s: &Seen<'_>, flight: Id) -> Option<f64> {
    let pole = s.of(kinds::POST, flight).into_iter().find(|post| s.word(*post, "stands") == Some("in the centre"))?;
    Some(section(s, pole)?.depth / 2.0)
}

fn narrow(s: &Seen<'_>, tread: Id) -> Option<f64> {
    if let Some((block, ..)) = winders(s, tread).filter(|(block, ..)| !s.is_stated(*block, "narrow")) {
        // From the two points of the pole's circle where the edges of the tread meet it.
        let (radius, turn) = (pole_radius(s, s.element(block).parent?)?, turn(s, tread)?.to_radians());
        return Some((radius - radius * turn.cos()).hypot(radius * turn.sin()));
    }
    let (list, nth) = match winders(s, tread) {
        Some((block, nth, _)) => (s.list(block, "narrow")?, nth),
        None => (s.list(s.element(tread).parent?, "runs")?, s.nth(tread)? - 1),
    };
    if list.len() == 1 { list.first().copied() } else { list.get(nth).copied() }
}

/// The chord between two points so far out on the two edges, whose narrow ends lie so far apart: by the places of the
/// points, with the centre of the turn at the origin.
fn depth_at(s: &Seen<'_>, tread: Id, place: f64) -> Option<f64> {
    let (narrow, turn) = (narrow(s, tread)?, turn(s, tread)?.to_radians());
    if winders(s, tread).is_none() {
        return Some(narrow);
    }
    let out = narrow / 2.0 / (turn / 2.0).sin() + place;
    Some((out - out * turn.cos()).hypot(out * turn.sin()))
}

fn width_of(s: &Seen<'_>, tread: Id) -> Option<f64> {
    s.number(s.element(tread).parent?, "width")
}

/// In a narrow stair one treads in its middle.
fn in_from_side(width: f64) -> f64 {
    if width < 1000.0 * MILLIMETRE { width / 2.0 } else { 270.0 * MILLIMETRE }
}

fn above(s: &Seen<'_>, id: Id) -> &'static str {
    if s.element(id).serves.is_some_and(|place| s.design.is(place, kinds::LANDING)) {
        return "landing";
    }
    let spiral = s.flight(id).is_some_and(|flight| s.word(flight, "spiral") == Some("yes"));
    if spiral { "spiral" } else { "flight" }
}

/// The least of what is left over the line of the nosings, tried at every nosing and at a thousand places between the
/// ends of the ceiling.
fn headroom(s: &Seen<'_>, id: Id) -> Option<f64> {
    if s.is_stated(id, "headroom") {
        return s.number(id, "headroom");
    }
    let height = s.number(id, "height")?;
    let rises = s.number(id, "slope").unwrap_or(0.0) - s.number(id, "fall").unwrap_or(0.0);
    let beam = s.design.is(id, kinds::BEAM);
    // Where it hangs lowest: at the far end of the width that it hangs over.
    let height = match s.number(id, "fall across") {
        Some(falls) => {
            let place = landing_at(s, id).or_else(|| s.flight(id))?;
            height - falls * s.number(id, "overhang").or_else(|| s.number(place, "width"))?
        }
        None => height,
    };
    if let Some(landing) = landing_at(s, id) {
        let from = s.number(id, "from").filter(|_| !beam).unwrap_or(0.0);
        let to = if rises < 0.0 { s.number(id, "to").or_else(|| s.number(landing, "depth"))? } else { from };
        return Some((height + rises * from).min(height + rises * to));
    }
    let flight = s.flight(id)?;
    let (risers, runs) = (s.list(flight, "risers")?, s.list(flight, "runs")?);
    let mut nosings = vec![(0.0, risers[0])];
    for (riser, run) in risers.iter().skip(1).zip(&runs) {
        let (x, y) = nosings[nosings.len() - 1];
        nosings.push((x + run, y + riser));
    }
    let end = nosings[nosings.len() - 1].0;
    let face = s.number(id, "from").unwrap_or(0.0);
    let far = if beam { Some(s.number(id, "from")? + s.number(id, "width")?) } else { s.number(id, "to") };
    let from = face.clamp(0.0, end);
    let to = far.unwrap_or(end).clamp(from, end);
    let between = (0..=1000).map(|part| from + (to - from) * f64::from(part) / 1000.0);
    let at_nosings = nosings.iter().map(|nosing| nosing.0).filter(|x| from <= *x && *x <= to);
    let left = between.chain(at_nosings).map(|x| {
        let before = nosings.iter().rev().find(|nosing| nosing.0 <= x).copied().unwrap_or(nosings[0]);
        let after = nosings.iter().find(|nosing| nosing.0 >= x).copied().unwrap_or(before);
        let share = if after.0 > before.0 { (x - before.0) / (after.0 - before.0) } else { 0.0 };
        height + rises * x - (before.1 + share * (after.1 - before.1))
    });
    left.reduce(f64::min)
}

fn shape(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    let word = match section(s, id)?.shape {
        Shape::Round => "round",
        Shape::Rectangular => "rectangular",
        Shape::Profiled => "profiled",
    };
    Some(word.into())
}

fn is_round(s: &Seen<'_>, id: Id) -> bool {
    shape(s, id, 0.0) == Some("round".into())
}

fn is_profiled(s: &Seen<'_>, id: Id) -> bool {
    shape(s, id, 0.0) == Some("profiled".into())
}

fn diameter(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    is_round(s, id).then(|| section(s, id).map(|section| section.thickness.into()))?
}

/// Whether the design defines a section of these two ways.
fn is_own(s: &Seen<'_>, id: Id) -> bool {
    let Some(section) = section(s, id) else { return false };
    let ways = |own: Id| Some((s.number(own, "width")?, s.number(own, "depth")?));
    let same = |(a, b): (f64, f64)| a.min(b) == section.thickness && a.max(b) == section.depth;
    s.design.of_kind(kinds::SECTION).any(|own| ways(own).is_some_and(same))
}

fn perimeter(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    let section = section(s, id)?;
    let sides = 2.0 * (section.thickness + section.depth);
    Some(Told::from(match section.perimeter {
        _ if is_round(s, id) => std::f64::consts::PI * section.depth,
        None if is_profiled(s, id) => return None,
        // A design may state it of a section of its own.
        stated => stated.filter(|_| is_own(s, id)).unwrap_or(sides),
    }))
}

fn across(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    let section = section(s, id)?;
    let corners = (section.thickness.powi(2) + section.depth.powi(2)).sqrt();
    Some(Told::from(match section.across {
        _ if is_round(s, id) => section.depth,
        None if is_profiled(s, id) => return None,
        stated => stated.filter(|_| is_own(s, id)).unwrap_or(corners),
    }))
}

fn edge_radius(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    match s.value(id, "edge") {
        Some(Value::Edge(Edge::Radius(radius))) => return Some(radius.value.into()),
        Some(_) => return Some(0.0.into()),
        None => {}
    }
    let section = section(s, id)?;
    if is_round(s, id) { Some(section.depth / 2.0) } else { section.edge_radius }.map(Told::from)
}

fn recess_depth(s: &Seen<'_>, id: Id, _: f64) -> Option<Told> {
    if is_profiled(s, id) { section(s, id)?.recess?.depth } else { Some(0.0) }.map(Told::from)
}

fn balusters(s: &Seen<'_>, id: Id) -> Option<Balusters> {
    match s.value(id, "balusters")? {
        Value::Balusters(balusters) => Some(*balusters),
        _ => None,
    }
}

/// As stated, else by trying one more until it fits no longer, or the ends are no wider than the gaps.
fn baluster_count(s: &Seen<'_>, id: Id) -> Option<f64> {
    let balusters = balusters(s, id)?;
    if balusters.count.is_some() {
        return balusters.count;
    }
    let (width, every, clear) = (balusters.width.value, balusters.every?.value, s.number(id, "between posts")?);
    let ends = |count: i32| clear - width - f64::from(count - 1) * every;
    let slack = 1e-9 * every;
    let stated = if s.is_stated(id, "end gap") { 2.0 * s.number(id, "end gap")? } else { 0.0 };
    let most = (1..10_000).take_while(|count| ends(*count) - stated >= -slack).last().unwrap_or(0);
    if s.is_stated(id, "end gap") {
        return Some(f64::from(most));
    }
    let fewest = (1..10_000).find(|count| ends(*count) <= 2.0 * (every - width) + slack)?;
    Some(f64::from(fewest.min(most)))
}

fn even_gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    let (count, width) = (baluster_count(s, id)?, balusters(s, id)?.width.value);
    Some((s.number(id, "between posts")? - count * width) / (count + 1.0))
}

fn gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    let balusters = balusters(s, id)?;
    if let Some(every) = balusters.every {
        return Some(every.value - balusters.width.value);
    }
    match (balusters.count, s.is_stated(id, "end gap")) {
        (Some(count), true) if count > 1.0 => {
            let room = s.number(id, "between posts")? - 2.0 * s.number(id, "end gap")?;
            Some((room - count * balusters.width.value) / (count - 1.0))
        }
        _ => even_gap(s, id),
    }
}

fn end_gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    if s.is_stated(id, "end gap") {
        return s.number(id, "end gap");
    }
    let balusters = balusters(s, id)?;
    let Some(every) = balusters.every else { return even_gap(s, id) };
    let taken = balusters.width.value + (baluster_count(s, id)? - 1.0) * every.value;
    Some((s.number(id, "between posts")? - taken) / 2.0)
}

/// Where the foot of a post is held: in its joint, or of several in the one that joins more to it than rails.
fn at_the_foot(s: &Seen<'_>, post: Id) -> Option<Id> {
    let held: Vec<Id> = s.design.of_kind(kinds::MEMBER).filter(|id| s.element(*id).target == Some(post)).collect();
    let joints = |held: &[Id]| held.iter().filter_map(|id| s.element(*id).parent).collect::<BTreeSet<Id>>();
    let carries = |id: &Id| {
        let others = s.design.of_kind(kinds::MEMBER).filter(|other| s.element(*other).parent == s.element(*id).parent);
        let mut others = others.filter_map(|other| s.element(other).target).filter(|other| *other != post).peekable();
        let rail = |other: Id| s.element(other).kind == kinds::HANDRAIL || s.element(other).kind == kinds::GUARD;
        others.peek().is_none() || others.any(|other| !rail(other))
    };
    let held: Vec<Id> = held.into_iter().filter(carries).collect();
    if joints(&held).len() == 1 { held.first().copied() } else { None }
}

fn only_a_midrail(s: &Seen<'_>, id: Id) -> bool {
    let others = ["infill", "rails", "rails lie", "cables", "give", "balusters", "baluster cut"];
    s.is_stated(id, "midrail") && !others.iter().any(|other| s.is_stated(id, other))
}

fn midrail_opening(s: &Seen<'_>, id: Id) -> Option<f64> {
    let (midrail, board) = (s.number(id, "midrail")?, s.number(id, "toe board").unwrap_or(0.0));
    let on_edge = s.word(id, "top rail lies") == Some("on edge");
    let rail = section(s, id).map_or(0.0, |section| if on_edge { section.depth } else { section.thickness });
    let own = s.number(id, "midrail thickness").unwrap_or(0.0);
    let above = s.list(id, "height")?.into_iter().map(|height| height - midrail - rail).fold(f64::MIN, f64::max);
    let below = midrail - own - board;
    Some(if above > below { above } else { below })
}

/// The rails that stand at the side of one, over some of its risers.
fn rails_beside(s: &Seen<'_>, id: Id) -> Vec<Id> {
    let place = s.element(id).serves;
    let alike = |other: &Id| {
        let (one, two) = (s.element(id), s.element(*other));
        let ends = |rail, end, none: f64| s.number(rail, end).unwrap_or(none);
        *other != id
            && two.serves == place
            && one.side.is_some()
            && one.side == two.side
            && ends(id, "from riser", 0.0) <= ends(*other, "to riser", f64::MAX)
            && ends(*other, "from riser", 0.0) <= ends(id, "to riser", f64::MAX)
    };
    s.design.of_kind(kinds::HANDRAIL).filter(alike).collect()
}

fn top_of_rail(s: &Seen<'_>, rail: Id) -> Option<f64> {
    s.list(rail, "height")?.into_iter().reduce(f64::max)
}

/// The next block of winders up, by flight and first tread.
fn winders_above(s: &Seen<'_>, id: Id) -> Option<Id> {
    let place = |block: Id| {
        let ends = [s.number(block, "from tread")?, s.number(block, "to tread")?];
        Some((s.element(block).parent?, ends[0].min(ends[1]) as usize))
    };
    let own = place(id)?;
    let mut above: Vec<_> = s.design.of_kind(kinds::WINDERS).filter_map(|block| Some((place(block)?, block))).collect();
    above.retain(|(at, _)| *at > own);
    above.into_iter().min().map(|(_, block)| block)
}

fn infill_gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    let gauge = s.element(id).stated.iter().find(|stated| stated.property.name == "widest gap");
    let Some(gauge) = gauge else { return drawn_gap(s, id) };
    let widest = s.number(id, "widest gap")?;
    if gauge.measured { Some(widest) } else { drawn_gap(s, id).map(|drawn| drawn.max(widest)) }
}

fn drawn_gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    match s.word(id, "infill") {
        Some("solid" | "wall") => Some(0.0),
        Some("open") if s.is_stated(id, "midrail") => midrail_opening(s, id),
        Some("open") => s.number(id, "height"),
        None if only_a_midrail(s, id) => midrail_opening(s, id),
        Some("panels" | "glass") => s.number(id, "panel gap"),
        _ if s.is_stated(id, "rails") || s.is_stated(id, "cables") => level_gap(s, id).map(|gap| gap.max(0.0)),
        _ => gap(s, id),
    }
}

/// What two of them leave between their faces, and both of them give way.
fn level_gap(s: &Seen<'_>, id: Id) -> Option<f64> {
    let (level, give) = match (s.value(id, "cables"), s.value(id, "rails")) {
        (Some(Value::Balusters(cables)), _) => (cables, s.number(id, "give")?),
        (_, Some(Value::Balusters(rails))) => (rails, 0.0),
        _ => return None,
    };
    let every = level.every.map(|every| every.value).or_else(|| {
        let bottom = s.derived_number(id, "bottom gap")?;
        Some((s.number(id, "height")? - bottom) / level.count?)
    })?;
    let square = level.width.value == level.deep.value;
    let plumb = match (square || s.is_stated(id, "cables"), s.word(id, "rails lie")) {
        (true, _) | (false, Some("flat")) => level.width,
        (false, Some("on edge")) => level.deep,
        _ => return None,
    };
    Some(every - plumb.value + give + give)
}

/// How high the infill reaches, and what is open above it.
fn top_gap(s: &Seen<'_>, id: Id) -> Option<(f64, f64)> {
    Some((s.number(id, "infill to")?, s.number(id, "top gap")?))
}

fn fasteners<'d>(s: &Seen<'d>, joint: Id) -> Option<&'d Fasteners> {
    ["bolts", "lags", "screws", "nails"].iter().find_map(|name| match s.value(joint, name)? {
        Value::Fasteners(fasteners) => Some(fasteners),
        _ => None,
    })
}

fn joined<'d>(s: &Seen<'d>, joint: Id) -> Option<Vec<&'d str>> {
    match s.value(joint, "joins")? {
        Value::Names(names) => Some(names.iter().map(|(name, _)| name.as_str()).collect()),
        _ => None,
    }
}

fn drawn(s: &Seen<'_>, name: &str) -> Option<Id> {
    (0..s.design.drawn).find(|id| s.element(*id).can_be_joined() && s.element(*id).goes_by(name))
}

/// By heights of the drawing that lies below what was measured.
fn off_the_drawing(s: &Seen<'_>, id: Id) -> Option<Told> {
    let heights = |design: &pitchboard::model::Design| -> Option<(bool, Vec<f64>)> {
        let stated = design.get(id)?.stated.iter().find(|stated| stated.property.name == "height")?;
        let Some(Value::List(items)) = &stated.value else { return None };
        Some((stated.measured, items.iter().map(|item| item.measure.value).collect()))
    };
    let (true, built) = heights(s.design)? else { return None };
    let (_, drawn) = heights(s.design.as_drawn.as_ref()?)?;
    let at = |list: &[f64], nth: usize| if list.len() == 1 { Some(list[0]) } else { list.get(nth).copied() };
    let both = (0..built.len().max(drawn.len())).map_while(|nth| at(&built, nth).zip(at(&drawn, nth)));
    let apart = both.map(|(built, drawn)| if built > drawn { built - drawn } else { drawn - built });
    Some(apart.fold(0.0, f64::max).into())
}

fn spacer(s: &Seen<'_>, joint: Id) -> f64 {
    s.number(joint, "spacer").unwrap_or(0.0)
}

/// As stated of the member, else the smaller way of its section.
fn thickness(s: &Seen<'_>, joint: Id, name: &str) -> Option<f64> {
    let members = s.design.of_kind(kinds::MEMBER).filter(|member| s.element(*member).parent == Some(joint));
    let stated =
        members.filter(|member| s.element(*member).goes_by(name)).find_map(|member| s.number(member, "through"));
    stated.or_else(|| Some(section(s, drawn(s, name)?)?.thickness))
}

fn thicknesses(s: &Seen<'_>, joint: Id) -> Option<Vec<f64>> {
    joined(s, joint)?.into_iter().map(|name| thickness(s, joint, name)).collect()
}

fn timber<'d>(s: &Seen<'d>, id: Id) -> Option<&'d Timber> {
    match s.value(id, "timber")? {
        Value::Timber(timber) => Some(timber),
        _ => None,
    }
}

fn own_timber(s: &Seen<'_>, timber: &Timber) -> Option<Id> {
    s.design.of_kind(kinds::TIMBER).find(|own| s.name(*own).to_lowercase() == timber.species)
}

/// Words of a species, its gravity where the name is of one timber, and whether it is hard and lasting.
type Known = (&'static str, Option<f64>, &'static str);

const TIMBERS: &[Known] = &[
    ("southern pine", Some(0.55), ""),
    ("douglas fir", Some(0.50), ""),
    ("spruce-pine-fir", Some(0.42), ""),
    ("hem-fir", Some(0.43), ""),
    ("eastern white pine", Some(0.36), ""),
    ("western red cedar", Some(0.36), "lasting"),
    ("redwood", Some(0.44), "lasting"),
    ("larch", None, "lasting"),
    ("cypress", None, "lasting"),
    ("spruce", None, ""),
    ("pine", None, ""),
    ("red oak", Some(0.67), "hard"),
    ("white oak", Some(0.73), "hard, lasting"),
    ("oak", Some(0.68), "hard"),
    ("poplar", Some(0.43), "hard"),
    ("beech", Some(0.71), "hard"),
    ("birch", Some(0.71), "hard"),
    ("ash", None, "hard"),
    ("black walnut", None, "hard, lasting"),
    ("teak", None, "hard, lasting"),
    ("ipe", None, "hard, lasting"),
];

/// By the longest name that stands in what is stated.
fn known_timber(timber: &Timber) -> Option<&'static Known> {
    let named = TIMBERS.iter().filter(|known| timber.species.contains(known.0));
    named.max_by_key(|known| known.0.len())
}

/// Shank and root of wood screws by their numbers, in inches: NDS 2018, Table L3, from memory.
const SCREWS: &[(f64, f64)] = &[
    (0.138, 0.113),
    (0.151, 0.122),
    (0.164, 0.131),
    (0.177, 0.142),
    (0.190, 0.152),
    (0.216, 0.171),
    (0.242, 0.196),
    (0.268, 0.209),
    (0.294, 0.232),
    (0.320, 0.255),
    (0.372, 0.298),
];

/// Length of the tip of a lag by its diameter, both in inches: NDS 2018, Table L2, from memory.
fn lag_tip(diameter: f64) -> f64 {
    let thirty_seconds = match (diameter * 16.0).round() as i32 {
        4 => 5.0,
        5 => 6.0,
        6 => 7.0,
        7 => 9.0,
        8 => 10.0,
        10 => 13.0,
        12 => 16.0,
        14 => 19.0,
        16 => 22.0,
        other => panic!("no lag of {other} sixteenths"),
    };
    thirty_seconds / 32.0
}

/// Every timber of the table, whether any design names it or not.
#[test]
fn whether_a_timber_is_rich_in_tannin_goes_by_its_family() {
    use pitchboard::handbook::RICH_IN_TANNIN;
    use pitchboard::model::timbers::SPECIES;
    for timber in SPECIES {
        assert_eq!(RICH_IN_TANNIN.contains(&timber.name), rich_in_tannin(timber.name), "{}", timber.name);
    }
    let unknown: Vec<_> =
        RICH_IN_TANNIN.iter().filter(|name| SPECIES.iter().all(|known| known.name != **name)).collect();
    assert!(unknown.is_empty(), "rich in tannin, and no timber: {unknown:?}");
}
