//! The table of faults: what each changes, which rule or notice must tell it, and which others it may honestly set
//! off. Limits are those of the sources that the rules name, put down here once more by hand.

use crate::drawing::{Damage, Dice, Drawing, Fasteners, Statement, inches, written};
use pitchboard::base::Severity::{self, Advised, Broken, NotUnderstood, Unchecked};

/// One kind of fault.
pub struct Fault {
    pub name: &'static str,
    pub severity: Severity,
    /// The rule or notice that must tell it. Of several, which one it is depends on the place: on how deep the drop
    /// is, or on the timber.
    pub finds: &'static [&'static str],
    /// What else it may set off.
    pub also: &'static [&'static str],
    /// One such fault in a design, if it can hold one.
    pub damage: fn(&Drawing, &mut Dice) -> Option<Damage>,
}

/// Another riser moves all that stands above it, changes the mean riser and so the pitch, the first cut if it is the
/// first, and the board or opening behind it; and two figures for one riser no longer add up or match.
const CLIMB: &[&str] = &[
    "rise adds up",
    "riser height",
    "riser spread",
    "neighbouring risers",
    "open risers",
    "two risers and a run",
    "riser and run",
    "riser by run",
    "first cut",
    "one group of fasteners",
    "riser board height",
    "ends of a handrail",
    "ends of a guard's rails",
    "ends of the balusters",
    "guard needed at a tread",
    "guard needed at a landing",
    "guard triangle",
    "low guard triangle",
    "headroom",
    "throat",
];

/// Another run moves the foot of the stair, changes the mean run and so the pitch, and asks for another board;
/// one as deep as 11 in asks for no nosing, and a shorter one does. Of longer runs fewer steps lie under a well.
const REACH: &[&str] = &[
    "headroom at the edge of a well",
    "nosing",
    "one group of fasteners",
    "run adds up",
    "tread spread",
    "neighbouring runs",
    "two risers and a run",
    "riser and run",
    "riser by run",
    "board depth",
    "nosing the boards give",
    "ends of a handrail",
    "ends of a guard's rails",
    "ends of the balusters",
    "guard triangle",
    "low guard triangle",
    "headroom",
    "span of a notched stringer",
    "throat",
];

/// What less wood under the notches takes.
const SHALLOW: &[&str] = &[
    // Strings of two flights that are not alike any more are two things of one name.
    "unclear name",
    // Its notches leave less beside its bolts.
    "bolt edge",
    "full bolt edge across the grain",
    "edge beside slender bolts",
    "span of a notched stringer",
    "bending of a notched stringer",
    "stringer stiffness",
];

/// A rail that takes more room leaves less.
const ROOM: &[&str] = &[
    "treads between their walls",
    "stringers within the flight",
    "handrail projection",
    "width between two rails",
    "width beside one rail",
    "width of a spiral",
    "treads fit between their strings",
];

/// What is less than the least is less than full strength too; and bolts farther down a post are pulled harder.
const FULL_END: &[&str] = &[
    "full bolt end along softwood",
    "full bolt end along hardwood",
    "bolt end across the grain",
    "full bolt end across the grain",
    "pull on a guard post",
    "bending of a guard post",
];

/// The same of a lag in a tread, which may taper.
const LAG_END: &[&str] = &[
    "full bolt end along softwood",
    "full bolt end along hardwood",
    "bolt end across the grain",
    "full bolt end across the grain",
    "pull on a guard post",
    "bending of a guard post",
    "fastener within its wedge",
];

/// What bolts that are spaced otherwise in one member than in the other set off.
const APART: &[&str] =
    &["bolt rows across the grain", "rows within their member", "one group of fasteners", "group within its member"];

/// Bolts close together are pulled harder by a push at the top of their post, and let it sway.
const CLOSE: &[&str] = &[
    "full bolt spacing",
    "pull on a guard post",
    "slack of a guard post",
    "one group of fasteners",
    "guard above its bolts",
];

/// Why a rule on what cannot be at all is not spoilt.
const UNFIT: &str = "what cannot be at all is shown by the cases of tests/cases/drawing";

/// Why a rule on the end of a stringer is not spoilt.
const STOUT: &str = "what is cut so deep that the wood gives is past the method; its case breaks it";

/// A drawing that is spoilt is off what was measured of the work.
pub const OFF_THE_WORK: &[&str] =
    &["risers as drawn", "runs as drawn", "width as drawn", "rail as drawn", "guard as drawn"];

/// Why a rule on the work against its drawing is not spoilt.
const WORK: &str = "what was measured is no part of the drawing that is spoilt";

/// Rules at which no fault of the table aims, and why. The cases and the fragments of the sets hold them.
pub const NOT_SPOILT: &[(&str, &str)] = &[
    ("fastener within its wedge", UNFIT),
    ("foot of an upper flight", UNFIT),
    ("span of a joist", UNFIT),
    ("joists under the whole deck", UNFIT),
    ("joists above the ground", UNFIT),
    ("head of a string against its rim", UNFIT),
    ("seat at the foot of a string", UNFIT),
    ("heel over its kicker", UNFIT),
    ("board depth round a pole", UNFIT),
    ("well as wide as its spiral", UNFIT),
    ("floor as thick as its deck", UNFIT),
    ("deck on its joists", UNFIT),
    ("joist in its hanger", UNFIT),
    ("legs up to their landing", "no good design draws a leg; its case breaks it"),
    ("least elasticity of a timber", UNFIT),
    ("posts up to the handrail", UNFIT),
    ("a post at each end of a handrail", UNFIT),
    ("riser bar below its tread", UNFIT),
    ("light framing as wide as it is sold", UNFIT),
    ("studs as wide as they are sold", UNFIT),
    ("post as a column", "no good design has a post so slender; its case breaks it"),
    ("slenderness of a post", "no good design has a post so slender; its case breaks it"),
    ("legs of a landing", "no good design draws a leg; its case breaks it"),
    ("header stiffness", "no good design draws a header; its case breaks it"),
    ("header bending", "no good design draws a header; its case breaks it"),
    ("header shear", "no good design draws a header; its case breaks it"),
    ("push on the infill of a guard", "no sound design has level bars; its case breaks it"),
    ("rail held by its end grain", "takes two changes: who is under the head and by what; its case breaks it"),
    ("shear of a timber", UNFIT),
    ("something behind a hold-down", UNFIT),
    ("wood above the notches of a string's ends", UNFIT),
    ("plate over its hole", "no good design has plates; its case breaks it"),
    ("two fasteners at a guard post", "one fastener is told beside its spacing; its case breaks it"),
    ("guard past the steps", UNFIT),
    ("gate at a floor", UNFIT),
    ("posts for every bay", "the good designs have more posts than they need; its case breaks it"),
    ("tall posts for every bay", "few good designs say how tall their posts are; its case breaks it"),
    ("gap up to its rail", UNFIT),
    ("prop up to its string", "no good design draws a prop; its case breaks it"),
    ("treads reach their solid strings", UNFIT),
    ("treads fit between their solid strings", UNFIT),
    ("floor above its underside", UNFIT),
    ("plate within its member", "no good design has plates; its case breaks it"),
    ("plates side by side", "no good design has plates; its case breaks it"),
    ("bending of a tread that stands out", "no sound design has treads that stand out far; its case breaks it"),
    ("stiffness of a tread that stands out", "no sound design has treads that stand out far; its case breaks it"),
    ("least bearing of a string's foot on wood", "few good designs say how far a foot lies on; its case breaks it"),
    ("least bearing of a string's foot on concrete", "few good designs say how far a foot lies on; its case breaks it"),
    ("deck over its joists indoors", "the sound landing lies outdoors; its case breaks it"),
    ("deck over its joists outdoors", "takes a board of another thickness, told beside the joists; its case breaks it"),
    ("a post for each guard", "the good designs have more posts than they need; its case breaks it"),
    ("one group of fasteners", "told beside the spacing of either member; its case breaks it"),
    (
        "tread fasteners over their stringer",
        "the good designs lay their screws one behind the other; its case breaks it",
    ),
    ("group within its member", UNFIT),
    ("tread fasteners over the outer stringer", UNFIT),
    ("guard above its bolts", "few good designs say how tall their posts are; its case breaks it"),
    ("span of a tread", UNFIT),
    ("newel at a landing", UNFIT),
    ("room for the hand beside a guard", "told at the words of the rails beside walls too; its case breaks it"),
    ("recess kept within it", UNFIT),
    ("pole up to its treads", "one good design has a pole; its case breaks it"),
    ("brackets on a wall", "takes two changes: the brackets, and the wall that is none; its case breaks it"),
    ("gate over a drop", "no good design has a gate in a guard; its case breaks it"),
    ("screw rows", "the good designs lay their screws in one row; its case breaks it"),
    ("screws in a row across the grain", "the good designs lay their screws along the grain; its case breaks it"),
    ("riser bar in an open riser", UNFIT),
    ("string held up on its way", "no good design draws a prop; its case breaks it"),
    ("fasteners of a tread", "one screw is told beside its spacing; its case breaks it"),
    ("fasteners at a string's head", "few good designs draw that joint; its case breaks it"),
    ("fasteners of a guard's rail", "few good designs draw that joint; its case breaks it"),
    ("posts up to the guard", "few good designs say how tall their posts are; its case breaks it"),
    ("door over the steps", "takes two changes: the landing above and the swing of the door"),
    ("threshold of the way out", "takes two changes: the swing of the door and its threshold"),
    ("landing that is no rectangle", "no good design has one"),
    ("winder at the walkline", "6 in at the newel always give 10 in there; told beside others"),
    ("full bolt end across the grain", "told beside the rules along the grain"),
    ("edge beside slender bolts", "no good design has bolts so slender"),
    ("flight rise", "a taller flight takes two changes: its risers and their number"),
    ("span of a solid stringer", "no good design has a flight so long"),
    ("fasteners in treated wood", "told beside the coating of what stands outdoors"),
    ("cut ends of treated wood", "told beside the cut ends of what stands outdoors"),
    ("bending of a baluster", "no sound design has one long enough; its case breaks it"),
    ("bending of a notched stringer within the guide", "the guide's row takes it out of the fault; its case breaks it"),
    ("bending of a solid stringer within the guide", "the guide's row takes it out of the fault; its case breaks it"),
    ("what holds a guard post's rim", "without its hold-down it is not checked; its cases break it"),
    ("shear at the head of a stringer", STOUT),
    ("shear at the foot of a stringer", STOUT),
    ("bending at the head of a stringer", STOUT),
    ("bending at the foot of a stringer", STOUT),
    ("bearing at the head of a stringer", STOUT),
    ("bearing at the foot of a stringer", STOUT),
    ("notch at the head of a notched stringer", "told of the foot; its case breaks it"),
    ("notch at the foot of a stringer", "told of the head; its case breaks it"),
    ("bearing of a joist on masonry", "takes two changes: what it rests on and how far; its case breaks it"),
    ("joist stiffness", "bending decides first in the sound landing; its case breaks it"),
    ("joist shear", "bending decides first in the sound landing; its case breaks it"),
    ("joist bearing", "told beside the least bearing; its case breaks it"),
    ("screw end along the grain", "screws hold treads, which take no load along the grain"),
    ("balusters side by side", UNFIT),
    ("balusters between their posts", UNFIT),
    ("infill within the guard", UNFIT),
    ("gap above the infill", UNFIT),
    ("gap below the guard", UNFIT),
    ("stringers within the flight", UNFIT),
    ("rails within the width", UNFIT),
    ("strip on its board", UNFIT),
    ("ceiling ends past its beginning", UNFIT),
    ("bearing of a string's head", "no good design has a string on a ledger"),
    ("lining that is there", UNFIT),
    ("who measured, and when", WORK),
    ("risers as drawn", WORK),
    ("runs as drawn", WORK),
    ("nosings as drawn", WORK),
    ("width as drawn", WORK),
    ("rail as drawn", WORK),
    ("guard as drawn", WORK),
    ("headroom as drawn", WORK),
    ("holes as drawn", WORK),
    ("fasteners where they are drawn", WORK),
    ("grain of what was measured", WORK),
    ("door of a space below", UNFIT),
    ("edge of a barrier", UNFIT),
    ("bolt in its hole", UNFIT),
    ("pilot within the shank", UNFIT),
    ("fastener reaches the second member", UNFIT),
    ("fastener within its member", UNFIT),
    ("winders of one turn", UNFIT),
    ("turn of a winder", UNFIT),
    ("run within a winder", UNFIT),
    ("spiral all the way", UNFIT),
    ("treads at the pole", UNFIT),
    ("pole of a spiral", UNFIT),
    ("level rails side by side", UNFIT),
    ("door leaf over the steps", "takes two changes: the swing of the door and its leaf"),
    ("glass of a guard", "no good design has glass in a guard"),
    ("newel at a turn", UNFIT),
    ("door clear of the first riser", UNFIT),
    ("leaf of its gate", UNFIT),
    ("gate within its edge", UNFIT),
    ("length of a guard", UNFIT),
    ("guard within the flight", UNFIT),
    ("wall within the flight", UNFIT),
    ("pole or inner string", UNFIT),
    ("rail within the landings", UNFIT),
    ("rail within its guard", UNFIT),
    ("balusters at their spacing", UNFIT),
    ("posts within the length", UNFIT),
    ("infill above its gap", UNFIT),
    ("nosing within the run", UNFIT),
    ("treads between their walls", UNFIT),
    ("edge within its board", UNFIT),
    ("edge within its rail", UNFIT),
    ("edge within a guard's rail", UNFIT),
    ("stringers side by side", UNFIT),
    ("housing within its string", UNFIT),
    ("winders turn squarely", UNFIT),
    ("end gap of balusters", UNFIT),
    ("balusters let into the treads", UNFIT),
    ("gap between two boards", UNFIT),
    ("nosing over a leaning riser", UNFIT),
    ("edge of a round handrail", UNFIT),
    ("edge of a guard's round rail", UNFIT),
    ("housing of a string that takes one", UNFIT),
    ("first cut of a string that has one", UNFIT),
    ("last cut of a string that has one", UNFIT),
    ("last cut", "no good design states one; its case breaks it"),
    ("wedges in a housing", UNFIT),
    ("flights abreast", UNFIT),
    ("spacing of one stringer", UNFIT),
    ("overhang over the ends of the treads", UNFIT),
    ("pilot of a bolt", UNFIT),
    ("spacing of one fastener", UNFIT),
    ("fasteners within their rows", UNFIT),
    ("turn of a landing between flights", UNFIT),
    ("housed strings in pairs", UNFIT),
    ("ceiling over its flight", UNFIT),
    ("risers of a ship stair", UNFIT),
    ("pitch of a ship stair", UNFIT),
    ("bolt of its stack", UNFIT),
    ("point within the wood", UNFIT),
    ("head over its hole", UNFIT),
    ("pilot within the hole", UNFIT),
    ("rows within their member", UNFIT),
    ("fastener within the length", UNFIT),
    ("way off a landing", UNFIT),
    ("headroom under the next turn", "no good design goes round more than once"),
    ("headroom under the flight above", "no good design turns back twice one way"),
    ("overhang of treads", "a board so long is off the rules of the drawing on its length first"),
    ("way to the next flight", UNFIT),
    ("where a landing between flights leads on", UNFIT),
    ("edge of a floor at its well", UNFIT),
    ("well as wide as its flight", UNFIT),
    ("treads reach into their strings", UNFIT),
    ("treads fit between their strings", UNFIT),
    ("treads between two housed strings", UNFIT),
    ("treads reach over their stringers", UNFIT),
    ("steps within a housed string", UNFIT),
    ("wood under the notches", UNFIT),
    ("tread thinner than a riser", UNFIT),
    ("gate as wide as its steps", UNFIT),
    ("gate beside what closes its edge", UNFIT),
    ("leaves that fill their gate", UNFIT),
    ("leaf no wider than its door", UNFIT),
    ("midrail below its top", UNFIT),
    ("toe board above its gap", UNFIT),
    ("rails one above the other", UNFIT),
    ("area of its landing", UNFIT),
    ("contrast within its step", UNFIT),
    ("area of a landing", UNFIT),
    ("door within its landing", UNFIT),
    ("leaf of its door", UNFIT),
    ("round section", UNFIT),
    ("diameter of a section", UNFIT),
    ("perimeter of a circle", UNFIT),
    ("perimeter of a rectangle", UNFIT),
    ("perimeter of a profile", UNFIT),
    ("across a circle", UNFIT),
    ("across a section", UNFIT),
    ("edge within its section", UNFIT),
    ("recess of a profile", UNFIT),
    ("recess within its section", UNFIT),
];

/// What a fault may bring to bear that stands elsewhere: a rule, by what it applies to, which asks for something else; a
/// name of what the fault takes out, or of two things that are alike no more.
pub const BROUGHT_TO_BEAR: &[&str] = &["nosing", "unknown name", "unclear name"];

fn any(_: &Drawing, _: &Statement) -> bool {
    true
}

/// A statement of a property that may be changed.
fn pick<'d>(
    d: &'d Drawing,
    dice: &mut Dice,
    kind: &str,
    property: &str,
    may: fn(&Drawing, &Statement) -> bool,
) -> Option<&'d Statement> {
    let of: Vec<&Statement> = d.of(kind, property).into_iter().filter(|statement| may(d, statement)).collect();
    dice.one(&of)
}

/// A length set between two figures, inches.
fn length(
    d: &Drawing,
    dice: &mut Dice,
    kind: &str,
    property: &str,
    may: fn(&Drawing, &Statement) -> bool,
    between: (f64, f64),
) -> Option<Damage> {
    let statement = pick(d, dice, kind, property, may)?;
    let length = dice.between(between.0, between.1);
    Some(Damage::new(&statement.value, written(length, d.value(statement))))
}

/// A length made longer by something between two figures, inches; shorter if they are negative.
fn moved(d: &Drawing, dice: &mut Dice, kind: &str, property: &str, by: (f64, f64)) -> Option<Damage> {
    let statement = pick(d, dice, kind, property, any)?;
    let by = if dice.below(2) == 0 { dice.between(by.0, by.1) } else { -dice.between(by.0, by.1) };
    let length = inches(d.value(statement))? + by;
    (length > 0.0).then(|| Damage::new(&statement.value, written(length, d.value(statement))))
}

/// A value replaced by one of some words.
fn word(
    d: &Drawing,
    dice: &mut Dice,
    kind: &str,
    property: &str,
    may: fn(&Drawing, &Statement) -> bool,
    words: &[&str],
) -> Option<Damage> {
    let statement = pick(d, dice, kind, property, may)?;
    Some(Damage::new(&statement.value, dice.one(words)?))
}

/// Words within a value replaced by others, where they stand in it.
fn part(d: &Drawing, dice: &mut Dice, kind: &str, property: &str, swaps: &[(&str, &str)]) -> Option<Damage> {
    let hold = |s: &&Statement| swaps.iter().any(|(from, _)| d.value(s).contains(from));
    let of: Vec<&Statement> = d.of(kind, property).into_iter().filter(hold).collect();
    let statement = dice.one(&of)?;
    let (from, to) = swaps.iter().find(|(from, _)| d.value(statement).contains(from))?;
    Some(Damage::new(&statement.value, d.value(statement).replace(from, to)))
}

/// The items of a list as they are written, one for each step.
fn items(said: &str) -> Vec<&str> {
    let each = said.split(", ").map(|item| item.split_once(" of ").unwrap_or(("1", item)));
    each.flat_map(|(count, item)| vec![item; count.parse().unwrap_or(1)]).collect()
}

/// A list with one item changed; what is told points at that item if `narrow`, else at the list.
fn with_item(d: &Drawing, statement: &Statement, step: usize, length: f64, narrow: bool) -> Option<Damage> {
    let said = d.value(statement);
    let new = written(length, said);
    let items = items(said);
    let (before, after) = (&items[..step], &items[step + 1..]);
    let run = |items: &[&str]| {
        let mut parts: Vec<(usize, String)> = Vec::new();
        for item in items {
            match parts.last_mut().filter(|(_, last)| last == item) {
                Some((count, _)) => *count += 1,
                None => parts.push((1, (*item).to_owned())),
            }
        }
        let each = parts.into_iter().map(|(count, item)| if count == 1 { item } else { format!("{count} of {item}") });
        each.collect::<Vec<_>>()
    };
    let list = [run(before), vec![new.clone()], run(after)].concat().join(", ");
    let damage = Damage::new(&statement.value, &*list);
    let lead = run(before).join(", ").len() + if before.is_empty() { 0 } else { 2 };
    Some(if narrow { damage.told_in_new(lead..lead + new.len()) } else { damage })
}

/// One riser of a flight set to a height.
fn riser(
    d: &Drawing,
    dice: &mut Dice,
    spiral: bool,
    height: fn(f64, &mut Dice) -> f64,
    narrow: bool,
) -> Option<Damage> {
    if d.is_spiral() != spiral {
        return None;
    }
    let statement = pick(d, dice, "flight", "risers", |d, s| d.list(s.block, "risers").len() > 1)?;
    let risers = d.list(statement.block, "risers");
    let step = dice.below(risers.len());
    with_item(d, statement, step, height(risers[step], dice), narrow)
}

/// One run of a straight tread set to a length.
fn run(d: &Drawing, dice: &mut Dice, length: fn(f64, &mut Dice) -> f64, fewest: usize, narrow: bool) -> Option<Damage> {
    let statement = pick(d, dice, "flight", "runs", |d, _| !d.is_spiral())?;
    let runs = d.list(statement.block, "runs");
    if runs.len() < fewest {
        return None;
    }
    let step = dice.below(runs.len());
    if winds(d, statement.block, step) {
        return None;
    }
    with_item(d, statement, step, length(runs[step], dice), narrow)
}

/// Whether a tread of a flight is a winder.
fn winds(d: &Drawing, flight: usize, step: usize) -> bool {
    d.kind("winders").any(|winders| {
        let count = |property| d.stated(winders, property).and_then(|count| count.parse::<usize>().ok());
        d.blocks[winders].parent == Some(flight)
            && count("from tread").zip(count("to tread")).is_some_and(|(from, to)| (from..=to).contains(&(step + 1)))
    })
}

/// A block taken out, told at the head of another that stands before it; the lines stay.
fn without(d: &Drawing, block: usize, told_at: usize) -> Option<Damage> {
    let whole = &d.blocks[block].whole;
    let blank: String = d.text[whole.clone()].chars().filter(|c| *c == '\n').collect();
    let head = &d.blocks[told_at].head;
    (head.end <= whole.start).then(|| Damage::new(whole, blank).told_at(head))
}

/// Blocks of a kind that fit.
fn block(d: &Drawing, dice: &mut Dice, kind: &str, may: fn(&Drawing, usize) -> bool) -> Option<usize> {
    let of: Vec<usize> = d.kind(kind).filter(|block| may(d, *block)).collect();
    dice.one(&of)
}

fn is_notched(d: &Drawing) -> bool {
    d.kind("stringer").any(|stringer| d.stated(stringer, "cut") == Some("notched"))
}

fn is_round(d: &Drawing, s: &Statement) -> bool {
    d.value(s).starts_with("round")
}

fn on_flight(d: &Drawing, s: &Statement) -> bool {
    !d.is_on_landing(s.block)
}

fn on_landing(d: &Drawing, s: &Statement) -> bool {
    d.is_on_landing(s.block)
}

/// Beside a drop that asks for a guard: 30 in, IRC 2021, R312.1.1.
fn is_high(d: &Drawing, block: usize) -> bool {
    let place = d.place(block);
    if d.is_on_landing(block) { d.elevation(place) > 30.0 } else { d.highest_tread(place) > 30.0 }
}

fn is_closed(d: &Drawing, _: &Statement) -> bool {
    d.has("riser board")
}

/// Balusters so few that the gap between them is at least so wide, inches.
fn sparse(d: &Drawing, dice: &mut Dice, level: bool, gap: f64) -> Option<Damage> {
    let of: Vec<&Statement> =
        d.of("guard", "balusters").into_iter().filter(|s| d.is_on_landing(s.block) == level).collect();
    let statement = dice.one(&of)?;
    let said = d.value(statement);
    let width = |section: &str| match section {
        "2x2" => Some(1.5),
        other => inches(other.trim_start_matches("round ").split(" x ").next()?),
    };
    if let Some((section, _)) = said.split_once(" every ") {
        let every = written(dice.between(width(section)? + gap, width(section)? + gap + 2.0), said);
        return Some(Damage::new(&statement.value, format!("{section} every {every}")));
    }
    let (count, section) = said.split_once(" of ")?;
    let (clear, count) = (inches(d.stated(statement.block, "between posts")?)?, count.parse::<u32>().ok()?);
    let gaps = |count: u32| (clear - f64::from(count) * width(section).unwrap_or(0.0)) / f64::from(count + 1);
    let fewer: Vec<u32> = (1..count).filter(|fewer| gaps(*fewer) >= gap && gaps(*fewer) < gap + 6.0).collect();
    Some(Damage::new(&statement.value, format!("{} of {section}", dice.one(&fewer)?)))
}

/// A distance of a member set between two figures, in shank diameters.
fn diameters(
    d: &Drawing,
    dice: &mut Dice,
    property: &str,
    may: fn(&Drawing, &Statement, &'static str, &Fasteners) -> bool,
    between: (f64, f64),
) -> Option<Damage> {
    let of: Vec<(&Statement, Fasteners)> = d
        .of("in", property)
        .into_iter()
        .filter_map(|s| {
            let (kind, fasteners) = d.fasteners(s.block)?;
            may(d, s, kind, &fasteners).then_some((s, fasteners))
        })
        .collect();
    let at = dice.below(of.len());
    let (statement, fasteners) = of.get(at)?;
    let (least, most) = (between.0 * fasteners.diameter, between.1 * fasteners.diameter);
    // Rounded inwards, so that it stays between them.
    let length = dice.between((least * 64.0).ceil() / 64.0, most - 1.0 / 64.0);
    (length > least && length < most).then(|| Damage::new(&statement.value, written(length, d.value(statement))))
}

fn bolted(_: &Drawing, _: &Statement, kind: &'static str, _: &Fasteners) -> bool {
    matches!(kind, "bolts" | "lags")
}

fn several_bolts(_: &Drawing, _: &Statement, kind: &'static str, fasteners: &Fasteners) -> bool {
    matches!(kind, "bolts" | "lags") && fasteners.count > 1
}

fn screwed(_: &Drawing, _: &Statement, kind: &'static str, _: &Fasteners) -> bool {
    matches!(kind, "screws" | "nails")
}

/// A bolted or lagged member of softwood.
fn softwood(d: &Drawing, s: &Statement, kind: &'static str, _: &Fasteners) -> bool {
    matches!(kind, "bolts" | "lags") && !is_hard(d, s) && !is_tread(d, s)
}

fn hardwood(d: &Drawing, s: &Statement, kind: &'static str, _: &Fasteners) -> bool {
    matches!(kind, "bolts" | "lags") && is_hard(d, s) && !is_tread(d, s)
}

/// Across the grain only: a tread or a riser board in a joint.
fn is_tread(d: &Drawing, s: &Statement) -> bool {
    matches!(d.blocks[s.block].names.as_str(), "tread" | "riser board")
}

fn member(d: &Drawing, name: &str) -> Option<usize> {
    (0..d.blocks.len()).find(|block| {
        let block = &d.blocks[*block];
        (block.kind == name && block.kind != "in") || (block.kind == "post" && block.names.trim_matches('"') == name)
    })
}

fn is_hard(d: &Drawing, s: &Statement) -> bool {
    let name = &d.blocks[s.block].names;
    member(d, name)
        .and_then(|block| d.stated(block, "timber"))
        .is_some_and(|timber| ["oak", "beech", "ash", "birch", "walnut"].iter().any(|hard| timber.contains(hard)))
}

/// The length of the fasteners of a kind set to what is left of it by another.
fn shorter(
    d: &Drawing,
    dice: &mut Dice,
    kind: &str,
    length: fn(&Drawing, usize, &Fasteners) -> Option<f64>,
) -> Option<Damage> {
    let statement = pick(d, dice, "joint", kind, any)?;
    let (_, fasteners) = d.fasteners(statement.block)?;
    let most = length(d, statement.block, &fasteners)?;
    let length = most - dice.between(0.0, 0.5);
    (length > 0.25).then(|| Damage::new(&statement.value, fasteners.long(length)))
}

/// The thickness that a fastener passes in the member that holds its head.
fn first_member(d: &Drawing, joint: usize) -> Option<f64> {
    through(d, joint, d.stated(joint, "joins")?.split(" to ").next()?)
}

fn stack(d: &Drawing, joint: usize) -> Option<f64> {
    d.stated(joint, "joins")?.split(" to ").map(|name| through(d, joint, name)).sum()
}

fn through(d: &Drawing, joint: usize, name: &str) -> Option<f64> {
    let named = |block: &usize| d.blocks[*block].parent == Some(joint) && d.blocks[*block].names == name;
    if let Some(stated) = d.kind("in").find(named).and_then(|block| d.stated(block, "through")) {
        return inches(stated);
    }
    let section = d.stated(member(d, name)?, "section")?;
    // Dressed thickness by PS 20.
    let nominal = [("1x", 0.75), ("5/4x", 1.0), ("2x", 1.5), ("3x", 2.5), ("4x", 3.5), ("6x", 5.5)];
    if let Some((_, thick)) = nominal.iter().find(|(named, _)| section.starts_with(named)) {
        return Some(*thick);
    }
    let size = section.trim_start_matches("square ").split(" x ");
    size.filter_map(inches).reduce(f64::min)
}

/// A letter lost from a word.
fn misspelt(word: &str, dice: &mut Dice) -> Option<String> {
    let letters: Vec<usize> =
        word.char_indices().filter(|(at, c)| *at > 0 && c.is_ascii_alphabetic()).map(|(at, _)| at).collect();
    let at = dice.one(&letters)?;
    Some(format!("{}{}", &word[..at], &word[at + 1..]))
}

/// A statement whose value is one length.
fn plain_length<'d>(d: &'d Drawing, dice: &mut Dice) -> Option<&'d Statement> {
    let of: Vec<&Statement> = d.statements.iter().filter(|s| is_length(d, s)).collect();
    dice.one(&of)
}

fn is_length(d: &Drawing, s: &Statement) -> bool {
    let said = d.value(s);
    !said.contains(['\'', ',']) && inches(said).is_some_and(|length| length > 0.0)
}

/// Every fault.
#[allow(clippy::too_many_lines)]
pub fn faults() -> Vec<Fault> {
    let mut table = Vec::new();
    let mut row = |name, severity, finds, also, damage| {
        table.push(Fault { name, severity, finds, also, damage });
    };

    // Risers and runs.
    row("a riser taller than 7-3/4 in", Broken, &["riser height"], CLIMB, |d, dice| {
        riser(d, dice, false, |_, dice| dice.between(7.78125, 8.75), true)
    });
    row("a riser 1/2 in taller or lower than the others", Broken, &["riser spread"], CLIMB, |d, dice| {
        riser(d, dice, false, |height, dice| if dice.below(2) == 0 { height + 0.5 } else { height - 0.5 }, false)
    });
    row("a riser 5/16 in off its neighbours", Advised, &["neighbouring risers"], CLIMB, |d, dice| {
        riser(d, dice, false, |height, dice| if dice.below(2) == 0 { height + 0.3125 } else { height - 0.3125 }, false)
    });
    row("a total rise that the risers do not make", Broken, &["rise adds up"], &[], |d, dice| {
        moved(d, dice, "stair", "total rise", (0.125, 3.0))
    });
    row("a riser of a spiral taller than 9-1/2 in", Broken, &["riser of a spiral"], CLIMB, |d, dice| {
        riser(d, dice, true, |_, dice| dice.between(9.53125, 10.5), true)
    });
    row("a run shorter than 10 in", Broken, &["tread depth"], REACH, |d, dice| {
        run(d, dice, |_, dice| dice.between(8.75, 9.984_375), 1, true)
    });
    row("a run 1/2 in longer than the others", Broken, &["tread spread"], REACH, |d, dice| {
        run(d, dice, |run, _| run + 0.5, 2, false)
    });
    row("a run 1/4 in longer than its neighbours", Advised, &["neighbouring runs"], REACH, |d, dice| {
        run(d, dice, |run, _| run + 0.25, 2, false)
    });
    row("a total run that the runs do not make", Broken, &["run adds up"], &[], |d, dice| {
        moved(d, dice, "stair", "total run", (0.125, 3.0))
    });
    // The line of the nosings has another length for the same rise, and there is a tread too many or too few.
    row("a run too many or too few", Broken, &["one run fewer than risers"], REACH, |d, dice| {
        let statement = pick(d, dice, "flight", "runs", |d, s| {
            d.value(s).contains(" of ") && !d.value(s).contains(',') && !d.has("winders")
        })?;
        let (count, run) = d.value(statement).split_once(" of ")?;
        let count = count.parse::<usize>().ok()?;
        let count = if dice.below(2) == 0 { count + 1 } else { count - 1 };
        Some(Damage::new(&statement.value, format!("{count} of {run}")))
    });

    // The three sums of comfort do not always agree; any of them may tell it.
    let sums: &[&str] = &["two risers and a run", "riser and run", "riser by run"];
    row("runs too long for the stride", Advised, sums, REACH, |d, dice| {
        let statement = pick(d, dice, "flight", "runs", |d, s| !d.value(s).contains(',') && !d.has("winders"))?;
        let long = written(dice.between(11.5, 12.5), d.value(statement));
        let count = d.list(statement.block, "runs").len();
        Some(Damage::new(&statement.value, format!("{count} of {long}")))
    });

    // Treads.
    row("a tread that falls more than 1 in 48", Broken, &["tread slope"], &[], |d, dice| {
        word(d, dice, "tread", "slope", any, &["1 in 47", "1 in 40", "1 in 30", "1 in 24", "2.5%", "1/2\" per 12\""])
    });
    row(
        "a nosing past 1-1/4 in",
        Broken,
        &["nosing"],
        &["board depth", "nosing spread", "guard triangle", "low guard triangle"],
        |d, dice| length(d, dice, "tread", "nosing", |d, s| is_closed(d, s) && is_shallow(d), (1.28125, 2.0)),
    );
    row("a nosing short of 3/4 in", Broken, &["nosing"], &["nosing the boards give", "nosing spread"], |d, dice| {
        length(d, dice, "tread", "nosing", |d, s| is_closed(d, s) && is_shallow(d), (0.125, 0.71875))
    });
    row("a landing's nosing 3/8 in off the treads'", Broken, &["nosing spread"], &[], |d, dice| {
        let statement = pick(d, dice, "landing", "nosing", any)?;
        let treads = inches(d.stated(d.kind("tread").next()?, "nosing")?)?;
        Some(Damage::new(&statement.value, written(treads + dice.between(0.40625, 1.0), d.value(statement))))
    });
    row("an edge rounder than 9/16 in", Broken, &["nosing edge radius"], &[], |d, dice| {
        let radius = written(dice.between(0.59375, 1.0), if d.is_metric() { "mm" } else { "\"" });
        let statement = pick(d, dice, "tread", "edge", any)?;
        Some(Damage::new(&statement.value, format!("radius {radius}")))
    });
    row("a bevel wider than 1/2 in", Broken, &["nosing edge bevel"], &[], |d, dice| {
        let bevel = written(dice.between(0.53125, 1.0), if d.is_metric() { "mm" } else { "\"" });
        let statement = pick(d, dice, "tread", "edge", any)?;
        Some(Damage::new(&statement.value, format!("bevel {bevel}")))
    });
    row("a sharp edge", Advised, &["eased edge"], &[], |d, dice| word(d, dice, "tread", "edge", any, &["square"]));
    row(
        "a board that does not reach across",
        Advised,
        &["tread length"],
        &[
            "tread fasteners over the outer stringer",
            "grip strip",
            "strip on its board",
            "treads reach into their strings",
            "treads reach over their stringers",
            "treads reach their solid strings",
        ],
        |d, dice| {
            let statement = pick(d, dice, "tread", "length", any)?;
            let width = d.kind("flight").filter_map(|flight| inches(d.stated(flight, "width")?)).reduce(f64::max)?;
            Some(Damage::new(&statement.value, written(width - dice.between(4.0625, 10.0), d.value(statement))))
        },
    );
    row("a grip strip too short or too long", Advised, &["grip strip"], &["strip on its board"], |d, dice| {
        let statement = pick(d, dice, "tread", "finish", |d, s| d.value(s).contains("strip"))?;
        let (words, _) = d.value(statement).rsplit_once(' ')?;
        let board = inches(d.stated(statement.block, "length")?)?;
        let strip = board + if dice.below(2) == 0 { dice.between(0.25, 3.0) } else { -dice.between(5.25, 12.0) };
        Some(Damage::new(&statement.value, format!("{words} {}", written(strip, "\""))))
    });
    row("a finish that does not grip outdoors", Advised, &["grip outdoors"], &[], |d, dice| {
        d.outdoors().then_some(())?;
        word(d, dice, "tread", "finish", any, &["varnish", "oil", "paint", "bare", "wax"])
    });
    row("a board narrower than run and nosing", Broken, &["board depth"], &[], |d, dice| {
        d.has("winders").then_some(()).map_or(Some(()), |()| None)?;
        let swaps =
            [("2x12", "2x10"), (" x 11\"", " x 10\""), (" x 11-1/2\"", " x 10-1/2\""), (" x 11-5/8\"", " x 11\"")];
        part(d, dice, "tread", "section", &swaps)
    });
    row("a board wider than run and nosing", Broken, &["nosing the boards give"], &[], |d, dice| {
        d.has("winders").then_some(()).map_or(Some(()), |()| None)?;
        let swaps = [
            ("2x12", "1-1/2\" x 11-3/4\""),
            (" x 11\"", " x 11-1/2\""),
            (" x 11-1/2\"", " x 12\""),
            ("280 mm", "290 mm"),
        ];
        part(d, dice, "tread", "section", &swaps)
    });
    row("a board too few", Broken, &["board depth"], &["gap between two boards"], |d, dice| {
        word(d, dice, "tread", "boards", |d, s| d.value(s) == "2", &["1"])
    });
    row("a wide gap between two boards", Broken, &["nosing the boards give"], &[], |d, dice| {
        length(d, dice, "tread", "gap", any, (0.5, 1.5))
    });

    // Riser boards and stringers.
    row(
        "a riser board that leans more than 30 degrees",
        Broken,
        &["riser lean"],
        &["nosing over a leaning riser"],
        |d, dice| word(d, dice, "riser board", "lean", any, &["31°", "30.5°", "35°", "40 deg"]),
    );
    row("a riser board of another height than its riser", Broken, &["riser board height"], &[], |d, dice| {
        let statement = pick(d, dice, "riser board", "section", |d, s| d.value(s).contains(" x "))?;
        let (thick, high) = d.value(statement).split_once(" x ")?;
        let by = if dice.below(2) == 0 { dice.between(0.125, 1.0) } else { -dice.between(0.125, 1.0) };
        Some(Damage::new(&statement.value, format!("{thick} x {}", written(inches(high)? + by, high))))
    });
    // Boards that stood on the tread gave it room; without them it stands out further.
    row("no riser boards above 30 in", Broken, &["open risers"], &["nosing the boards give"], |d, dice| {
        let block = block(d, dice, "riser board", |d, board| member_of_no_joint(d, &d.blocks[board].kind))?;
        let high: Vec<usize> = d.kind("flight").filter(|flight| d.elevation(*flight) > 30.0).collect();
        without(d, block, dice.one(&high)?)
    });
    row("a stringer too shallow for its notches", Advised, &["throat"], SHALLOW, |d, dice| {
        is_notched(d).then_some(())?;
        part(d, dice, "stringer", "section", &[("2x12", "2x10"), ("60 mm x 300 mm", "60 mm x 240 mm")])
    });
    row(
        "notched stringers more than 18 in apart",
        Advised,
        &["stringer spacing"],
        &[
            "stringers within the flight",
            "tread stiffness",
            "tread fasteners over the outer stringer",
            "treads reach over their stringers",
        ],
        |d, dice| {
            is_notched(d).then_some(())?;
            length(d, dice, "stringer", "spacing", any, (18.0625, 30.0))
        },
    );
    row(
        "too few stringers for the width",
        Advised,
        &["stringers across the flight"],
        &[
            "spacing of one stringer",
            "overhang of treads",
            "bending of a tread that stands out",
            "stiffness of a tread that stands out",
        ],
        |d, dice| {
            is_notched(d).then_some(())?;
            word(d, dice, "stringer", "count", any, &["1"])
        },
    );
    row("a housed tread that is screwed", Advised, &["wedges of a housed tread"], &[], |d, dice| {
        word(d, dice, "tread", "held by", any, &["fasteners", "cleats", "brackets"])
    });
    row("a first cut that was not dropped", Broken, &["first cut"], &[], |d, dice| {
        moved(d, dice, "stringer", "first cut", (0.125, 1.5))
    });
    row(
        "a long stringer notched",
        Advised,
        &["span of a notched stringer"],
        &["stringer spacing", "throat", "wedges in a housing"],
        |d, dice| {
            d.outdoors().then_some(())?;
            let long = |d: &Drawing, _: &Statement| {
                d.kind("flight").any(|flight| d.list(flight, "runs").iter().sum::<f64>() > 72.0)
            };
            let runs = &d.of("flight", "runs").first()?.value;
            Some(word(d, dice, "stringer", "cut", long, &["notched"])?.told_at(runs))
        },
    );

    // Width and headroom.
    row("a flight narrower than 36 in", Broken, &["clear width"], ROOM, |d, dice| {
        (!d.is_spiral()).then_some(())?;
        length(d, dice, "flight", "width", any, (30.0, 35.9375))
    });
    row("a narrow spiral", Broken, &["width of a spiral"], &[], |d, dice| {
        d.is_spiral().then_some(())?;
        length(d, dice, "flight", "width", any, (24.0, 28.875))
    });
    row(
        "a rail on each side of too little width",
        Broken,
        &["width between two rails"],
        &[
            "clear width",
            "stringers within the flight",
            "treads between their walls",
            "treads fit between their strings",
        ],
        |d, dice| {
            let two = |d: &Drawing, s: &Statement| {
                let rails = d.kind("handrail").filter(|rail| d.place(*rail) == s.block);
                rails.map(|rail| d.blocks[rail].names.split(", ").count()).sum::<usize>() == 2
            };
            length(d, dice, "flight", "width", two, (28.0, 31.0))
        },
    );
    row(
        "a rail on one side of too little width",
        Broken,
        &["width beside one rail"],
        &[
            "clear width",
            "stringers within the flight",
            "treads between their walls",
            "treads fit between their strings",
        ],
        |d, dice| {
            let one = |d: &Drawing, s: &Statement| {
                let rails = d.kind("handrail").filter(|rail| d.place(*rail) == s.block);
                !d.is_spiral() && rails.map(|rail| d.blocks[rail].names.split(", ").count()).sum::<usize>() == 1
            };
            length(d, dice, "flight", "width", one, (30.0, 33.5))
        },
    );
    row(
        "a well too short for its steps",
        Broken,
        &["headroom at the edge of a well"],
        &["edge of a floor at its well"],
        |d, dice| {
            (!d.is_spiral()).then_some(())?;
            length(d, dice, "well", "length", any, (40.0, 90.0))
        },
    );
    row("a string let in past its middle", Advised, &["wood behind a housing"], &[], |d, dice| {
        length(d, dice, "stringer", "housing", any, (0.8125, 0.9375))
    });
    row("headroom under 80 in", Broken, &["headroom"], &[], |d, dice| {
        (!d.is_spiral()).then_some(())?;
        length(d, dice, "ceiling", "headroom", |d, s| d.stated(s.block, "over").is_none(), (70.0, 79.9375))
    });
    row("a ceiling too low over the stair", Broken, &["headroom"], &[], |d, dice| {
        let statement = pick(d, dice, "ceiling", "height", any)?;
        let low = if on_landing(d, statement) { dice.between(72.0, 79.75) } else { dice.between(76.0, 86.0) };
        Some(Damage::new(&statement.value, written(low, "\"")))
    });
    row("an outside string that nails hold", Broken, &["anchor of an outside stair"], &[], |d, dice| {
        (d.outdoors() && d.stair("standing").is_some_and(|standing| standing.starts_with("anchored"))).then_some(())?;
        word(d, dice, "stringer", "head", any, &["nails", "toenails", "nothing"])
    });
    row("a string that nails hold", Advised, &["head of a string"], &[], |d, dice| {
        (!d.outdoors()).then_some(())?;
        word(d, dice, "stringer", "head", any, &["nails", "toenails", "nothing"])
    });
    row("a string on the ground", Advised, &["foot of a string outdoors"], &["foot of an upper flight"], |d, dice| {
        d.outdoors().then_some(())?;
        word(d, dice, "stringer", "foot", any, &["ground"])
    });
    row("a beam too low over the steps", Broken, &["headroom"], &[], |d, dice| {
        let statement = pick(d, dice, "beam", "height", any)?;
        Some(Damage::new(&statement.value, written(dice.between(110.0, 136.0), "\"")))
    });
    row("a cupboard below lined too thinly", Broken, &["lining of an enclosed space below"], &[], |d, dice| {
        length(d, dice, "space below", "thickness", any, (0.25, 0.484))
    });
    row("a ceiling that reaches too far over the steps", Broken, &["headroom"], &[], |d, dice| {
        length(d, dice, "ceiling", "to", any, (24.0, 60.0))
    });
    row("headroom of a spiral under 78 in", Broken, &["headroom of a spiral"], &[], |d, dice| {
        d.is_spiral().then_some(())?;
        length(d, dice, "ceiling", "headroom", any, (70.0, 77.9375))
    });
    row("an edge of the floor too far in", Broken, &["edge of a floor opening"], &[], |d, dice| {
        length(d, dice, "ceiling", "overhang", any, (4.78125, 8.0))
    });

    // Handrails.
    row("a handrail too low", Broken, &["handrail height"], &[], |d, dice| {
        length(d, dice, "handrail", "height", any, (28.0, 33.9375))
    });
    row("a handrail too high", Broken, &["handrail height"], &[], |d, dice| {
        length(d, dice, "handrail", "height", any, (38.0625, 42.0))
    });
    row("a handrail that begins a riser late", Broken, &["handrail reach"], &[], |d, dice| {
        let statement = pick(d, dice, "handrail", "from riser", reaches_alone)?;
        Some(Damage::new(&statement.value, dice.one(&["2", "3"])?).told_within(&d.blocks[statement.block].whole))
    });
    row("a handrail that ends a riser early", Broken, &["handrail reach"], &[], |d, dice| {
        let statement = pick(d, dice, "handrail", "to riser", reaches_alone)?;
        let last = d.value(statement).parse::<usize>().ok()?;
        let early = (last - 1 - dice.below(2)).to_string();
        Some(Damage::new(&statement.value, early).told_within(&d.blocks[statement.block].whole))
    });
    row("a handrail that ends past the last riser", Broken, &["handrail within the flight"], &[], |d, dice| {
        let statement = pick(d, dice, "handrail", "to riser", reaches_alone)?;
        let last = d.value(statement).parse::<usize>().ok()?;
        Some(Damage::new(&statement.value, (last + 1 + dice.below(3)).to_string()))
    });
    row("a handrail close to the wall", Broken, &["handrail clearance"], &[], |d, dice| {
        // Where a guard stands there is no wall to be close to.
        length(d, dice, "handrail", "clearance", |d, _| !d.has("guard"), (0.5, 1.46875))
    });
    row("a handrail far from the wall", Broken, &["handrail projection"], ROOM, |d, dice| {
        length(d, dice, "handrail", "clearance", any, (3.25, 5.0))
    });
    row("a handrail with open ends", Broken, &["handrail ends"], &[], |d, dice| {
        word(d, dice, "handrail", "ends", any, &["open", "safety terminal"])
    });
    row("a round handrail too thick", Broken, &["grip of a round handrail"], ROOM, |d, dice| {
        let statement = pick(d, dice, "handrail", "section", is_round)?;
        Some(Damage::new(
            &statement.value,
            format!("round {}", written(dice.between(2.03125, 3.0), d.value(statement))),
        ))
    });
    row("a round handrail too thin", Broken, &["grip of a round handrail"], &[], |d, dice| {
        let statement = pick(d, dice, "handrail", "section", is_round)?;
        Some(Damage::new(
            &statement.value,
            format!("round {}", written(dice.between(0.75, 1.21875), d.value(statement))),
        ))
    });
    row("a plank for a handrail", Broken, &["grip of a shaped handrail"], ROOM, |d, dice| {
        word(d, dice, "handrail", "section", any, &["2x4", "2x6", "5/4x6", "1-1/2\" x 3\""])
    });
    row("a handrail with sharp edges", Broken, &["edges of a shaped handrail"], &[], |d, dice| {
        word(d, dice, "handrail", "edge", any, &["square"])
    });
    row("a broad rail with too little to hold", Broken, &["grip of a shaped handrail"], &[], |d, dice| {
        let (property, value) = dice.one(&[
            ("recess depth", "1/4\""),
            ("recess start", "1\""),
            ("recess reached", "1\""),
            ("recess kept", "1/4\""),
            ("recess end", "1-1/2\""),
            ("recess depth", "3/16\""),
        ])?;
        // Told at the rail that is of this section.
        let rail = pick(d, dice, "handrail", "section", |d, s| d.value(s) == "club rail")?;
        Some(word(d, dice, "section", property, any, &[value])?.told_at(&rail.value))
    });
    row("no handrail", Broken, &["handrail needed"], &[], |d, dice| {
        let rail = block(d, dice, "handrail", |d, rail| {
            let flight = d.place(rail);
            d.list(flight, "risers").len() > 3
                && d.kind("handrail").filter(|other| d.place(*other) == flight).count() == 1
        })?;
        without(d, rail, d.place(rail))
    });
    row("a guard that is no handrail any more", Broken, &["handrail needed"], &[], |d, dice| {
        let statement = pick(d, dice, "guard", "handrail", any)?;
        Some(Damage::new(&statement.value, "no").told_within(&d.blocks[statement.block].whole))
    });
    row("a handrail cut at another pitch", Advised, &["ends of a handrail"], &[], |d, dice| {
        let statement = pick(d, dice, "handrail", "end cut", any)?;
        Some(Damage::new(&statement.value, dice.one(&["28°", "30°", "38.5°", "41°", "25 deg"])?))
    });

    // Guards.
    row(
        "a guard on a flight too low",
        Broken,
        &["guard height on a flight", "low guard height on a flight", "guard that is the handrail"],
        &["guard height on a flight", "low guard height on a flight"],
        |d, dice| length(d, dice, "guard", "height", on_flight, (28.0, 33.9375)),
    );
    row(
        "a guard on a landing too low",
        Broken,
        &["guard height on the level", "low guard height on the level"],
        &[],
        |d, dice| length(d, dice, "guard", "height", on_landing, (28.0, 35.9375)),
    );
    row("a guard too high to hold", Broken, &["guard that is the handrail"], &[], |d, dice| {
        length(d, dice, "guard", "height", |d, s| d.stated(s.block, "handrail") == Some("yes"), (38.0625, 44.0))
    });
    row("a guard too broad to hold", Broken, &["grip of a guard that is the handrail"], &[], |d, dice| {
        word(
            d,
            dice,
            "guard",
            "section",
            |d, s| d.stated(s.block, "handrail") == Some("yes"),
            &["2x4", "2x6", "round 2-1/8\"", "round 1\""],
        )
    });
    // Balusters set out at another distance leave another gap at the ends.
    row(
        "balusters on a flight too far apart",
        Broken,
        &["guard openings on a flight", "low guard openings on a flight"],
        &["even balusters", "balusters at their spacing"],
        |d, dice| sparse(d, dice, false, 4.40625),
    );
    row(
        "balusters on a landing too far apart",
        Broken,
        &["guard openings on the level", "low guard openings on the level"],
        &["even balusters", "balusters at their spacing"],
        |d, dice| sparse(d, dice, true, 4.03125),
    );
    // The same balusters stand further apart between posts that do.
    row(
        "posts of a guard too far apart",
        Advised,
        &["posts far apart"],
        &[
            "bending of a guard's rail",
            "guard openings on a flight",
            "low guard openings on a flight",
            "guard openings on the level",
            "low guard openings on the level",
            "even balusters",
            "balusters at their spacing",
            "posts within the length",
        ],
        |d, dice| {
            d.outdoors().then_some(())?;
            length(d, dice, "guard", "between posts", any, (72.0625, 96.0))
        },
    );
    row("a wide gap under the rail of a flight", Broken, &["guard triangle", "low guard triangle"], &[], |d, dice| {
        length(d, dice, "guard", "bottom gap", |d, s| on_flight(d, s) && is_closed(d, s), (2.5, 6.0))
    });
    row(
        "a wide gap under the rail beside open risers",
        Broken,
        &["gap under a guard beside open risers", "gap under a low guard beside open risers"],
        &[],
        |d, dice| length(d, dice, "guard", "bottom gap", |d, s| on_flight(d, s) && !is_closed(d, s), (4.375, 8.0)),
    );
    row("a wide gap under the rail of a landing", Broken, &["gap under a level guard"], &[], |d, dice| {
        length(d, dice, "guard", "bottom gap", |d, s| on_landing(d, s) && is_high(d, s.block), (4.0, 8.0))
    });
    row("a wide gap under the rail of a low landing", Broken, &["gap under a low level guard"], &[], |d, dice| {
        length(d, dice, "guard", "bottom gap", |d, s| on_landing(d, s) && !is_high(d, s.block), (4.0, 8.0))
    });
    row("a guard's rails cut at another pitch", Advised, &["ends of a guard's rails"], &[], |d, dice| {
        word(d, dice, "guard", "end cut", on_flight, &["28°", "30°", "38.5°", "41°", "25 deg"])
    });
    row("balusters cut at another pitch", Advised, &["ends of the balusters"], &[], |d, dice| {
        word(d, dice, "guard", "baluster cut", on_flight, &["28°", "30°", "38.5°", "41°", "25 deg"])
    });
    row(
        "balusters not even at the ends",
        Advised,
        &["even balusters"],
        &[
            "guard openings on a flight",
            "low guard openings on a flight",
            "guard openings on the level",
            "low guard openings on the level",
            "balusters at their spacing",
        ],
        |d, dice| length(d, dice, "guard", "end gap", any, (0.25, 2.5)),
    );
    // A rail that ended at a post of that guard ends nowhere then.
    row("no guard beside a flight", Broken, &["guard needed at a tread"], &["unknown name"], |d, dice| {
        let guard = block(d, dice, "guard", |d, guard| {
            !d.is_on_landing(guard) && is_high(d, guard) && d.stated(guard, "handrail").is_none()
        })?;
        without(d, guard, d.place(guard))
    });
    row("no guard beside a landing", Broken, &["guard needed at a landing"], &[], |d, dice| {
        // Beside the head of the steps it is not known what closes the edge, where others are drawn.
        let guard = block(d, dice, "guard", |d, guard| {
            let landing = d.blocks[d.place(guard)].kind == "landing" && d.blocks[guard].names != "near";
            landing && is_high(d, guard)
        })?;
        without(d, guard, d.place(guard))
    });

    // What closes a side in parts, wells and gates.
    row("a wall that ends too soon", Broken, &["guard needed at a tread"], &[], |d, dice| {
        let statement = pick(d, dice, "wall", "to tread", any)?;
        let flight = d.kind("flight").next()?;
        Some(Damage::new(&statement.value, (1 + dice.below(4)).to_string()).told_at(&d.blocks[flight].head))
    });
    row("a guard that begins too late", Broken, &["guard needed at a tread"], &[], |d, dice| {
        let statement = pick(d, dice, "guard", "from tread", any)?;
        let flight = d.kind("flight").next()?;
        Some(Damage::new(&statement.value, (9 + dice.below(4)).to_string()).told_at(&d.blocks[flight].head))
    });
    row("a well with a side left open", Broken, &["guard needed at a well"], &[], |d, dice| {
        let well = block(d, dice, "well", |_, _| true)?;
        let guard = d.kind("guard").find(|guard| d.blocks[*guard].parent == Some(well))?;
        without(d, guard, well)
    });
    row("a gate lower than its guard", Broken, &["gate of a guard"], &[], |d, dice| {
        length(d, dice, "gate", "height", any, (24.0, 35.9375))
    });
    row("a gate that a child gets through", Broken, &["gate of a guard"], &[], |d, dice| {
        length(d, dice, "gate", "gap", any, (4.0, 8.0))
    });
    row("a gate over the steps", Advised, &["gate over the steps"], &["room behind a gate"], |d, dice| {
        word(d, dice, "gate", "swing", any, &["over the steps"])
    });
    row("a gate that is latched by hand", Advised, &["gate that stays shut"], &[], |d, dice| {
        word(d, dice, "gate", "latch", any, &["by hand", "none"])
    });
    row(
        "a gate that sweeps its landing",
        Advised,
        &["room behind a gate"],
        &["leaves that fill their gate"],
        |d, dice| length(d, dice, "gate", "leaf", any, (52.0625, 70.0)),
    );
    row("cables that give too far", Broken, &["guard openings on the level"], &[], |d, dice| {
        length(d, dice, "guard", "give", any, (0.625, 2.0))
    });
    row(
        "level rails in place of balusters",
        Advised,
        &["guard that can be climbed"],
        &["end gap of balusters", "means nothing here"],
        |d, dice| {
            // In a work place nobody is kept from climbing.
            (d.stair("use") != Some("workplace")).then_some(())?;
            let statement = pick(d, dice, "guard", "balusters", |d, s| {
                on_flight(d, s) && d.stated(s.block, "between posts").is_some()
            })?;
            let balusters = statement.whole.start..statement.value.end;
            let said = "rails: 1x4 every 5\"";
            Some(Damage::new(&balusters, said).told_in_new(7..said.len()))
        },
    );
    row("brackets far apart", Advised, &["brackets far apart"], &[], |d, dice| {
        let far = if dice.below(2) == 0 { ("every", (48.0625, 90.0)) } else { ("end", (12.0625, 30.0)) };
        length(d, dice, "bracket", far.0, any, far.1)
    });

    // Winders and spirals.
    row(
        "winders narrower than 6 in at the newel",
        Broken,
        &["winder at its narrow side"],
        &["run of a winder", "winder at the walkline"],
        |d, dice| {
            (!d.is_spiral()).then_some(())?;
            length(d, dice, "winders", "narrow", any, (2.0, 5.9375))
        },
    );
    row(
        "winders that turn another way than their runs",
        Broken,
        &["run of a winder"],
        &["winder at the walkline", "tread of a spiral", "walkline of a spiral", "treads at the pole"],
        |d, dice| {
            let statement = pick(d, dice, "winders", "turn", any)?;
            let turn = d.value(statement).trim_end_matches('°').parse::<usize>().ok()?;
            Some(Damage::new(&statement.value, format!("{}°", turn - turn / 8 - dice.below(turn / 8))))
        },
    );
    row("a winder unlike the others", Broken, &["winder spread"], &["run of a winder"], |d, dice| {
        (!d.is_spiral()).then_some(())?;
        let statement = pick(d, dice, "winders", "narrow", any)?;
        let odd = written(6.0 + dice.between(0.40625, 1.0), "\"");
        Some(Damage::new(&statement.value, format!("6\", 6\", {odd}")))
    });
    // One more shares the turn, so each has less of it.
    row(
        "winders past the last tread",
        Broken,
        &["winders within the flight"],
        &[
            "run of a winder",
            "winder at the walkline",
            "tread of a spiral",
            "run within a winder",
            "treads at the pole",
        ],
        |d, dice| {
            let statement = pick(d, dice, "winders", "to tread", any)?;
            let treads = d.list(d.place(statement.block), "runs").len();
            Some(Damage::new(&statement.value, (treads + 1 + dice.below(3)).to_string()))
        },
    );
    row(
        "a tread unlike the others of a spiral",
        Broken,
        &["alike treads of a spiral"],
        &["run of a winder", "winder spread", "treads at the pole"],
        |d, dice| {
            d.is_spiral().then_some(())?;
            let statement = pick(d, dice, "winders", "narrow", any)?;
            let odd = written(inches(d.value(statement))? + dice.between(0.03125, 0.5), "\"");
            Some(Damage::new(&statement.value, format!("10 of {}, {odd}", d.value(statement))))
        },
    );
    row(
        "a spiral that turns too wide",
        Broken,
        &["walkline of a spiral"],
        &["run of a winder", "run within a winder", "treads at the pole"],
        |d, dice| {
            d.is_spiral().then_some(())?;
            length(d, dice, "winders", "narrow", any, (6.5, 9.0))
        },
    );
    row("a rail where the winders are narrow", Advised, &["rail at the wide side of winders"], &[], |d, dice| {
        (!d.is_spiral()).then_some(())?;
        let winders = block(d, dice, "winders", |_, _| true)?;
        let flight = d.blocks[winders].parent?;
        let rails: Vec<usize> = d.kind("handrail").filter(|rail| d.place(*rail) == flight).collect();
        let ([rail], narrow) = (rails.as_slice(), d.blocks[winders].names.clone()) else { return None };
        let rail = &d.blocks[*rail];
        (rail.names != narrow).then_some(())?;
        let names = rail.head.end - rail.names.len()..rail.head.end;
        Some(Damage::new(&names, narrow).told_at(&d.blocks[flight].head))
    });
    row(
        "treads of a spiral too shallow",
        Broken,
        &["tread of a spiral"],
        &["run of a winder", "treads at the pole", "fastener within its wedge"],
        |d, dice| {
            d.is_spiral().then_some(())?;
            length(d, dice, "winders", "narrow", any, (0.0625, 0.5))
        },
    );

    // Landings and doors.
    row(
        "a landing shallower than 36 in",
        Broken,
        &["landing depth"],
        &["run adds up", "posts within the length", "room behind a gate"],
        |d, dice| length(d, dice, "landing", "depth", any, (24.0, 35.9375)),
    );
    row(
        "a landing narrower than its flight",
        Broken,
        &["landing width"],
        &["landing as wide as its door"],
        |d, dice| {
            let statement = pick(d, dice, "landing", "width", any)?;
            let flight = d.kind("flight").filter_map(|flight| inches(d.stated(flight, "width")?)).reduce(f64::min)?;
            Some(Damage::new(&statement.value, written(flight - dice.between(0.0625, 6.0), d.value(statement))))
        },
    );
    row("a landing that falls more than 1 in 48", Broken, &["landing slope"], &[], |d, dice| {
        word(d, dice, "landing", "slope", any, &["1 in 47", "1 in 40", "1 in 30", "1 in 24", "2.5%", "1/2\" per 12\""])
    });
    row("no landing at the foot", Broken, &["landing at the foot"], &[], |d, dice| {
        d.outdoors().then_some(())?;
        let landing = block(d, dice, "landing", |d, landing| d.blocks[landing].names == "bottom")?;
        without(d, landing, d.kind("stair").next()?)
    });
    row("no landing at the head", Broken, &["landing at the head"], &[], |d, dice| {
        d.outdoors().then_some(())?;
        let needed = |d: &Drawing, landing: usize| {
            let risers: usize = d.kind("flight").map(|flight| d.list(flight, "risers").len()).sum();
            d.blocks[landing].names == "top" && risers > 2
        };
        let landing = block(d, dice, "landing", needed)?;
        without(d, landing, d.kind("stair").next()?)
    });
    row("no landing between two flights", Broken, &["landing between flights"], &[], |d, dice| {
        let turns = |d: &Drawing, landing: usize| d.stated(landing, "turn").is_some_and(|turn| turn != "straight");
        let landing = block(d, dice, "landing", turns)?;
        without(d, landing, d.kind("stair").next()?)
    });
    row("a door that opens over the steps", Broken, &["landing at the head"], &[], |d, dice| {
        d.outdoors().then_some(())?;
        let none = |d: &Drawing, _: &Statement| !d.kind("landing").any(|landing| d.blocks[landing].names == "top");
        let stair = &d.blocks[d.kind("stair").next()?].head;
        Some(word(d, dice, "door", "swing", none, &["over the stair"])?.told_at(stair))
    });
    row("a threshold taller than a step", Broken, &["door threshold"], &[], |d, dice| {
        d.outdoors().then_some(())?;
        length(d, dice, "door", "threshold", any, (7.78125, 10.0))
    });
    row("a way out that is too narrow", Broken, &["door of the way out"], &[], |d, dice| {
        length(d, dice, "door", "width", |d, s| d.stated(s.block, "egress") == Some("yes"), (24.0, 31.9))
    });
    row(
        "a door wider than its landing",
        Broken,
        &["landing as wide as its door"],
        &["door within its landing"],
        |d, dice| {
            d.outdoors().then_some(())?;
            length(
                d,
                dice,
                "door",
                "width",
                |d, s| {
                    let at = d.stated(s.block, "at").unwrap_or(&d.blocks[s.block].names);
                    d.kind("landing").any(|landing| d.blocks[landing].names == at)
                },
                (120.0, 140.0),
            )
        },
    );

    // The stair as a whole.
    row("a switch on one floor only", Advised, &["light switches"], &[], |d, dice| {
        word(d, dice, "stair", "switches", any, &["foot", "head", "none"])
    });
    row("cut ends left bare", Advised, &["cut ends outdoors"], &["cut ends of treated wood"], |d, dice| {
        word(d, dice, "stair", "cut ends", any, &["bare"])
    });
    row("timber that does not last outdoors", Advised, &["timber outdoors"], &["unclear name"], |d, dice| {
        d.outdoors().then_some(())?;
        let parts = ["tread", "riser board", "stringer", "post", "handrail", "guard", "brace"];
        let kind = dice.one(&parts)?;
        part(
            d,
            dice,
            kind,
            "timber",
            &[
                ("pine No.1, treated", "pine No.1"),
                ("pine No.2, treated", "pine No.2"),
                ("fir No.1, treated", "fir No.1"),
                ("white oak", "red oak"),
                ("western red cedar", "spruce-pine-fir"),
                ("larch", "spruce"),
            ],
        )
    });
    row("a notched post", Advised, &["notched post"], &[], |d, dice| word(d, dice, "post", "notched", any, &["yes"]));
    row("a brace across too few", Advised, &["brace across"], &[], |d, dice| {
        let statement = pick(d, dice, "brace", "direction", |d, s| d.value(s) == "across")?;
        let first = d.kind("brace").next()?;
        Some(
            Damage::new(&statement.value, "along")
                .told_within(&(d.blocks[first].whole.start..d.blocks[statement.block].whole.end)),
        )
    });
    row("no brace along", Advised, &["brace along"], &[], |d, dice| {
        let brace = block(d, dice, "brace", |d, brace| d.stated(brace, "direction") == Some("along"))?;
        without(d, brace, d.kind("brace").next()?)
    });

    // Bolts.
    row("a bolt hole too wide", Broken, &["bolt hole"], &["head over its hole", "slack of a guard post"], |d, dice| {
        let statement = pick(d, dice, "joint", "hole", any)?;
        let (_, bolts) = d.fasteners(statement.block)?;
        Some(Damage::new(&statement.value, written(bolts.diameter + dice.between(0.078_125, 0.5), d.value(statement))))
    });
    row("a bolt hole no wider than the bolt", Broken, &["tight bolt hole"], &["bolt in its hole"], |d, dice| {
        let statement = pick(d, dice, "joint", "hole", any)?;
        let (_, bolts) = d.fasteners(statement.block)?;
        Some(Damage::new(&statement.value, written(bolts.diameter - dice.between(0.0, 0.125), d.value(statement))))
    });
    row(
        "a bolt that does not come through",
        Broken,
        &["bolt through the stack"],
        &["thread past the nut"],
        |d, dice| shorter(d, dice, "bolts", |d, joint, _| stack(d, joint)),
    );
    row("a bolt too short for its nut", Advised, &["thread past the nut"], &[], |d, dice| {
        shorter(d, dice, "bolts", |d, joint, bolts| Some(stack(d, joint)? + 2.0 * bolts.diameter - 0.0625))
            .filter(|_| d.kind("joint").all(|joint| d.fasteners(joint).is_none_or(|(_, bolts)| bolts.diameter > 0.3)))
    });
    row(
        "a bolt without a washer at its nut",
        Broken,
        &["washer of a carriage bolt", "washers of a hex bolt"],
        &[],
        |d, dice| word(d, dice, "joint", "washers", any, &["none"]),
    );
    row("a hex bolt with one washer", Broken, &["washers of a hex bolt"], &[], |d, dice| {
        word(
            d,
            dice,
            "joint",
            "washers",
            |d, s| d.fasteners(s.block).is_some_and(|(_, bolts)| bolts.rest.contains("hex")),
            &["nut side"],
        )
    });
    row("a plain fastener outdoors", Advised, &["coating outdoors"], &["fasteners in treated wood"], |d, dice| {
        d.outdoors().then_some(())?;
        let kind = dice.one(&["bolts", "lags", "screws", "nails"])?;
        part(d, dice, "joint", kind, &[("galvanised", "plain"), ("stainless", "plain")])
    });
    row("a bit that does not reach through", Advised, &["hole within reach"], &[], |d, dice| {
        let bolted: Vec<f64> = d
            .kind("joint")
            .filter(|joint| d.stated(*joint, "bolts").is_some())
            .filter_map(|joint| stack(d, joint))
            .collect();
        let most = bolted.into_iter().reduce(f64::max)?;
        let statement = pick(d, dice, "stair", "longest bit", any)?;
        Some(Damage::new(&statement.value, written(most - dice.between(0.0625, 2.0), d.value(statement))))
    });
    row("a bolt at the end of softwood", Broken, &["bolt end along softwood"], FULL_END, |d, dice| {
        diameters(d, dice, "end", softwood, (0.5, 3.49))
    });
    row("a bolt at the end of hardwood", Broken, &["bolt end along hardwood"], FULL_END, |d, dice| {
        diameters(d, dice, "end", hardwood, (0.5, 2.49))
    });
    row("a bolt too near the end for its strength", Advised, &["full bolt end along softwood"], FULL_END, |d, dice| {
        diameters(d, dice, "end", softwood, (3.51, 6.99))
    });
    row(
        "a bolt too near the end of hardwood for its strength",
        Advised,
        &["full bolt end along hardwood"],
        FULL_END,
        |d, dice| diameters(d, dice, "end", hardwood, (2.51, 4.99)),
    );
    row("a lag at the end of a tread", Broken, &["bolt end across the grain"], LAG_END, |d, dice| {
        diameters(d, dice, "end", |d, s, kind, _| matches!(kind, "bolts" | "lags") && is_tread(d, s), (0.5, 1.99))
    });
    row("a bolt at the edge", Broken, &["bolt edge"], &["full bolt edge across the grain"], |d, dice| {
        diameters(d, dice, "edge", bolted, (0.5, 1.49))
    });
    row("a bolt too near the edge for its strength", Advised, &["full bolt edge across the grain"], &[], |d, dice| {
        diameters(d, dice, "edge", bolted, (1.51, 3.99)).filter(|_| d.name != "ferry-deck")
    });
    row("bolts on top of each other", Broken, &["bolt spacing"], CLOSE, |d, dice| {
        diameters(d, dice, "spacing", several_bolts, (1.0, 2.99))
    });
    row("bolts too close for their strength", Advised, &["full bolt spacing"], CLOSE, |d, dice| {
        diameters(d, dice, "spacing", |d, s, kind, f| several_bolts(d, s, kind, f) && !is_tread(d, s), (3.01, 3.99))
    });
    row("rows of bolts too close", Broken, &["bolt rows"], APART, |d, dice| {
        diameters(d, dice, "row spacing", bolted, (0.5, 1.49))
    });
    row("rows of bolts too close across the grain", Advised, &["bolt rows across the grain"], APART, |d, dice| {
        diameters(d, dice, "row spacing", bolted, (1.51, 3.0))
    });
    row("rows of bolts far apart", Advised, &["bolt rows far apart"], APART, |d, dice| {
        length(
            d,
            dice,
            "in",
            "row spacing",
            |d, s| d.fasteners(s.block).is_some_and(|(kind, _)| kind == "bolts"),
            (5.0625, 8.0),
        )
    });

    // Lags, screws and nails.
    row("a lag too short", Broken, &["lag penetration"], &[], |d, dice| {
        shorter(d, dice, "lags", |d, joint, lags| Some(first_member(d, joint)? + 4.0 * lags.diameter - 0.0625))
    });
    row("a screw too short", Broken, &["screw penetration"], &[], |d, dice| {
        shorter(d, dice, "screws", |d, joint, screws| Some(first_member(d, joint)? + 6.0 * screws.diameter - 0.0625))
    });
    row("a nail too short", Broken, &["nail penetration"], &[], |d, dice| {
        // A 6d common nail is 2 in long, 0.113 in thick: NDS Table L4.
        let joint = block(d, dice, "joint", |d, joint| d.stated(joint, "nails").is_some())?;
        (2.0 - first_member(d, joint)? < 6.0 * 0.113).then_some(())?;
        part(d, dice, "joint", "nails", &[("16d common", "6d common")])
    });
    row(
        "a lag's pilot too tight or too wide",
        Broken,
        &["lag pilot in soft timber", "lag pilot in middling timber", "lag pilot in heavy timber"],
        &[],
        |d, dice| {
            let statement = pick(d, dice, "joint", "pilot", |d, s| d.stated(s.block, "lags").is_some())?;
            let (_, lags) = d.fasteners(statement.block)?;
            let share = dice.one(&[0.2, 0.3, 0.35, 0.9, 0.95])?;
            Some(Damage::new(&statement.value, written(share * lags.diameter, "\"")))
        },
    );
    row(
        "a screw's pilot wider than its root",
        Advised,
        &["screw pilot too wide"],
        &["pilot within the shank"],
        |d, dice| {
            let statement = pick(d, dice, "joint", "pilot", |d, s| d.stated(s.block, "screws").is_some())?;
            let (_, screws) = d.fasteners(statement.block)?;
            Some(Damage::new(&statement.value, written(screws.diameter + dice.between(0.0, 0.125), "\"")))
        },
    );
    // Unbored, a screw wants more wood round it as well.
    row(
        "a screw driven without its pilot",
        Advised,
        &["screw pilot in soft timber", "screw pilot in middling timber", "screw pilot in heavy timber"],
        &["screw end across the grain", "screw end along the grain", "screw spacing"],
        |d, dice| {
            let bored = |d: &Drawing, s: &Statement| d.stated(s.block, "screws").is_some();
            word(d, dice, "joint", "pilot", bored, &["0\"", "1/32\"", "1/16\""])
        },
    );
    row(
        "a nail bored too wide",
        Broken,
        &["prebored nail", "prebored nail in heavy timber"],
        &["pilot within the shank"],
        |d, dice| {
            let statement = pick(d, dice, "joint", "pilot", |d, s| d.stated(s.block, "nails").is_some())?;
            let (_, nails) = d.fasteners(statement.block)?;
            Some(Damage::new(&statement.value, written(nails.diameter + dice.between(0.0, 0.125), "\"")))
        },
    );
    row(
        "a screw or nail at the end of a tread",
        Advised,
        &["screw end across the grain"],
        &["screw end along the grain"],
        |d, dice| diameters(d, dice, "end", screwed, (1.0, 4.9)),
    );
    row(
        "screws or nails too close",
        Advised,
        &["screw spacing"],
        &["tread fasteners over their stringer", "fasteners within their rows", "one group of fasteners"],
        |d, dice| {
            diameters(d, dice, "spacing", |_, _, kind, f| matches!(kind, "screws" | "nails") && f.count > 1, (1.0, 9.9))
        },
    );
    row("a screw or nail at the edge", Advised, &["screw edge"], &[], |d, dice| {
        diameters(d, dice, "edge", screwed, (0.5, 2.49))
    });

    // Slips of the pen. What cannot be read is not known, and never taken for gone: nothing else may be told.
    row("a misspelt property", NotUnderstood, &["unknown property"], &[], |d, dice| {
        let of: Vec<&Statement> =
            d.statements.iter().filter(|s| s.property.len() > 3 && s.property != "rules").collect();
        let statement = dice.one(&of)?;
        let property = statement.whole.start..statement.whole.start + statement.property.len();
        Some(Damage::new(&property, misspelt(&statement.property, dice)?))
    });
    row("a misspelt kind", NotUnderstood, &["unknown kind"], &[], |d, dice| {
        let of: Vec<usize> = (0..d.blocks.len())
            .filter(|b| !["stair", "in", "measured"].contains(&d.blocks[*b].kind.as_str()))
            .collect();
        let block = &d.blocks[dice.one(&of)?];
        let kind = block.head.start..block.head.start + block.kind.len();
        Some(Damage::new(&kind, misspelt(&block.kind, dice)?))
    });
    row("a length without its unit", NotUnderstood, &["missing unit"], &[], |d, dice| {
        let statement = plain_length(d, dice)?;
        let bare = d.value(statement).trim_end_matches(['"', 'm', ' ']);
        Some(Damage::new(&statement.value, bare))
    });
    row("an angle for a length", NotUnderstood, &["wrong dimension"], &[], |d, dice| {
        let statement = plain_length(d, dice)?;
        Some(Damage::new(&statement.value, dice.one(&["30°", "36 deg", "7°"])?))
    });
    row("a missing colon", NotUnderstood, &["missing colon"], &[], |d, dice| {
        let of: Vec<&Statement> = d.statements.iter().filter(|s| s.property != "rules").collect();
        let statement = dice.one(&of)?;
        let gap = statement.whole.start + statement.property.len()..statement.value.start;
        Some(Damage::new(&gap, " ").told_within(&statement.whole))
    });
    row("a missing value", NotUnderstood, &["missing value"], &[], |d, dice| {
        let of: Vec<&Statement> = d.statements.iter().filter(|s| s.property != "rules").collect();
        let statement = dice.one(&of)?;
        Some(Damage::new(&statement.value, "").told_within(&statement.whole))
    });
    row("a thing stated twice", NotUnderstood, &["stated twice"], &[], |d, dice| {
        let of: Vec<&Statement> = d.statements.iter().filter(|s| s.property != "rules").collect();
        let statement = dice.one(&of)?;
        let end = statement.whole.end..statement.whole.end;
        Some(Damage::new(&end, format!("; {}", &d.text[statement.whole.clone()])))
    });
    row("a misspelt word", NotUnderstood, &["unknown word"], &[], |d, dice| {
        let known = [
            ("stair", "setting"),
            ("stair", "standing"),
            ("stair", "use"),
            ("stringer", "cut"),
            ("riser board", "stands"),
            ("handrail", "ends"),
            ("door", "swing"),
            ("joint", "washers"),
            ("brace", "direction"),
            ("landing", "turn"),
            ("stair", "cut ends"),
            ("post", "notched"),
        ];
        let (kind, property) = dice.one(&known)?;
        let statement = pick(d, dice, kind, property, any)?;
        Some(Damage::new(&statement.value, misspelt(d.value(statement), dice)?))
    });
    row("a figure that cannot be", NotUnderstood, &["impossible number"], &[], |d, dice| {
        let statement = plain_length(d, dice)?;
        Some(Damage::new(&statement.value, dice.one(&["7-1/0\"", "1/0\"", "36/0\""])?))
    });
    row("blanks round a hyphen", NotUnderstood, &["unclear subtraction"], &[], |d, dice| {
        let of: Vec<&Statement> = d.statements.iter().filter(|s| is_length(d, s) && d.value(s).contains('-')).collect();
        let statement = dice.one(&of)?;
        Some(Damage::new(&statement.value, d.value(statement).replace('-', " - ")))
    });
    row("a straight flight called a spiral", NotUnderstood, &["wrong value"], &[], |d, dice| {
        d.kind("winders").next().is_none().then_some(())?;
        let drawn = |d: &Drawing, flight: usize| d.blocks[flight].parent.is_some_and(|of| d.blocks[of].kind == "stair");
        let flight = block(d, dice, "flight", drawn)?;
        let end = d.blocks[flight].whole.end - 1;
        let said = "; spiral: yes ";
        Some(Damage::new(&(end..end), said).told_in_new(said.len() - 4..said.len() - 1))
    });
    row("a member by a wrong name", NotUnderstood, &["unknown name"], &[], |d, dice| {
        let block = block(d, dice, "in", |_, _| true)?;
        let block = &d.blocks[block];
        let name = block.head.end - block.names.len()..block.head.end;
        Some(Damage::new(&name, misspelt(&block.names, dice)?).told_within(&block.head))
    });
    row("a joint to what is not drawn", NotUnderstood, &["unknown name"], &[], |d, dice| {
        let statement = pick(d, dice, "joint", "joins", any)?;
        let (first, _) = d.value(statement).split_once(" to ")?;
        Some(Damage::new(&statement.value, format!("{first} to {}", dice.one(&["wall plate", "gatepost", "ledger"])?)))
    });
    row("a thing in the wrong place", NotUnderstood, &["wrong place"], &[], |d, dice| {
        let inner = block(d, dice, "joint", |_, _| true)?;
        let end = d.blocks[inner].whole.end - 1;
        let stray = dice.one(&[
            "ceiling { headroom: 7' }",
            "door { at: top }",
            "flight { width: 40\" }",
            "stringer { count: 2 }",
        ])?;
        Some(Damage::new(&(end..end), format!("; {stray} ")))
    });
    row("a line that says nothing", NotUnderstood, &["not a statement"], &[], |d, dice| {
        let of: Vec<&Statement> = d.statements.iter().collect();
        let at = dice.one(&of)?.whole.start;
        let line = dice.one(&["as the last one", "see the other sheet", "ask Tam first", "7\" or so"])?;
        Some(Damage::new(&(at..at), format!("{line}; ")))
    });
    row("words for a section", NotUnderstood, &["wrong value", "unknown name"], &[], |d, dice| {
        let kind = dice.one(&["tread", "stringer", "post", "handrail"])?;
        word(d, dice, kind, "section", any, &["12 by 2", "as sold", "7\"", "stout"])
    });
    row("a brace too many", NotUnderstood, &["stray brace"], &[], |d, _| {
        let end = d.text.len();
        Some(Damage::new(&(end..end), "}\n"))
    });
    row("a brace too few", NotUnderstood, &["unclosed brace"], &[], |d, _| {
        // The last one: whatever it leaves open is read as if closed at the end.
        let last = d.text.rfind('}')?;
        let block = d.blocks.iter().rfind(|block| block.whole.end == last + 1)?;
        Some(Damage::new(&(last..last + 1), "").told_within(&block.whole))
    });
    row("a ruleset that is not there", Unchecked, &["unknown ruleset"], &[], |d, dice| {
        let statement = pick(d, dice, "stair", "rules", any)?;
        let sets = dice.one(&["residental, workshop", "residential, workshp", "residential, workshop, county"])?;
        Some(Damage::new(&statement.value, sets))
    });
    row("no rules asked for", Unchecked, &["no rules asked for"], &[], |d, dice| {
        let statement = pick(d, dice, "stair", "rules", any)?;
        Some(Damage::new(&statement.whole, "").told_at(&d.blocks[statement.block].head))
    });
    table
}

/// Every straight run of the flights is shorter than the 11 in that ask for no nosing: IRC 2021, R311.7.5.3.
fn is_shallow(d: &Drawing) -> bool {
    !d.is_spiral() && d.kind("flight").flat_map(|flight| d.list(flight, "runs")).any(|run| run < 11.0)
}

fn member_of_no_joint(d: &Drawing, kind: &str) -> bool {
    !d.kind("joint").any(|joint| d.stated(joint, "joins").is_some_and(|joins| joins.contains(kind)))
}

/// A handrail of more than three risers that alone runs from the first to the last.
fn reaches_alone(d: &Drawing, s: &Statement) -> bool {
    let flight = d.place(s.block);
    let risers = d.list(flight, "risers").len();
    let whole = |rail: &usize| {
        d.stated(*rail, "from riser") == Some("1") && d.stated(*rail, "to riser") == Some(&risers.to_string())
    };
    let whole: Vec<usize> = d.kind("handrail").filter(|rail| d.place(*rail) == flight).filter(whole).collect();
    risers > 3 && whole == [s.block]
}

/// Faults of members and joints that carry, for the sound stairs of tests/cases/strength: what they ask of a part is
/// put to a part that cannot take it.
pub fn strength() -> Vec<Fault> {
    fn fault(
        name: &'static str,
        finds: &'static [&'static str],
        also: &'static [&'static str],
        damage: fn(&Drawing, &mut Dice) -> Option<Damage>,
    ) -> Fault {
        Fault { name, severity: Broken, finds, also, damage }
    }
    vec![
        fault("a board too thin for its span", &["tread stiffness"], &[], |d, dice| {
            part(d, dice, "tread", "section", &[("2x6", "3/4\" x 5-1/2\"")])
        }),
        fault(
            "a stringer cut too deep",
            &["bending of a notched stringer"],
            &[
                "stringer stiffness",
                "stringer shear",
                "shear at the head of a stringer",
                "shear at the foot of a stringer",
                "notch at the head of a notched stringer",
                "notch at the foot of a notched stringer",
            ],
            |d, dice| {
                is_notched(d).then_some(())?;
                word(d, dice, "stringer", "section", any, &["2x8", "2x10", "1-1/2\" x 8-1/2\""])
            },
        ),
        fault("a bolt too few", &["joint across its fasteners"], &[], |d, dice| {
            part(d, dice, "joint", "bolts", &[("3 of ", "2 of ")])
        }),
        fault("a post too thin", &["bending of a guard post"], &[], |d, dice| {
            d.kind("guard").next()?;
            word(d, dice, "post", "section", any, &["3x3", "2-3/4\" x 2-3/4\"", "2-1/2\" x 3-1/2\""])
        }),
        fault("a hold-down too weak", &["pull on a guard post"], &[], |d, dice| {
            word(d, dice, "joint", "hold-down", any, &["700 lb", "1000 lb", "1500 lb"])
        }),
        fault("a rail too long between posts", &["bending of a guard's rail"], &[], |d, dice| {
            length(d, dice, "guard", "between posts", any, (50.0, 60.0))
        }),
        fault("a handrail too long between posts", &["bending of a handrail"], &[], |d, dice| {
            length(d, dice, "handrail", "between posts", any, (55.0, 70.0))
        }),
        fault(
            "more snow than a stringer takes",
            &["bending of a notched stringer"],
            &["shear at the head of a stringer", "shear at the foot of a stringer"],
            |d, dice| {
                is_notched(d).then_some(())?;
                word(d, dice, "stair", "snow", any, &["200 psf", "250 psf"])
            },
        ),
        fault(
            "a stringer too long between supports",
            &["bending of a solid stringer"],
            &["stringer stiffness", "joint across its fasteners"],
            |d, dice| length(d, dice, "stringer", "span", any, (180.0, 220.0)),
        ),
        fault("a timber too weak in shear", &["tread shear"], &["stringer shear"], |d, dice| {
            word(d, dice, "timber", "shear", any, &["20 psi", "25 psi"])
        }),
        fault("a timber that a stringer shears", &["stringer shear"], &["tread shear"], |d, dice| {
            word(d, dice, "timber", "shear", any, &["10 psi", "12 psi"])
        }),
        fault(
            "a timber too limp for a stringer",
            &["stringer stiffness"],
            &["tread stiffness", "least elasticity of a timber"],
            |d, dice| word(d, dice, "timber", "elasticity", any, &["100000 psi"]),
        ),
        fault(
            "a timber too weak for a tread",
            &["tread bending"],
            &["bending of a solid stringer", "shear of a timber"],
            |d, dice| word(d, dice, "timber", "bending", any, &["100 psi", "150 psi"]),
        ),
        Fault {
            severity: Advised,
            ..fault("a hole that lets a post sway", &["slack of a guard post"], &["head over its hole"], |d, dice| {
                d.kind("guard").next()?;
                word(d, dice, "joint", "hole", any, &["1\"", "1-1/8\""])
            })
        },
        fault("a timber too soft for its housing", &["tread bearing"], &[], |d, dice| {
            word(d, dice, "timber", "crushing", any, &["50 psi", "52 psi"])
        }),
        fault(
            "a screw too few in a rail",
            &["joint of a rail pulled aslant"],
            &["joint across its fasteners"],
            |d, dice| part(d, dice, "joint", "screws", &[("4 of ", "1 of ")]),
        ),
        fault("bolts at the end of a post", &["wood torn beside bolts"], &[], |d, dice| {
            d.kind("guard").next().is_none().then_some(())?;
            length(d, dice, "in", "end", |d, s| d.blocks[s.block].names == "leg", (0.1, 0.25))
        }),
        fault(
            "toe-nails outdoors",
            &["toe-nails under a stringer outdoors"],
            &["joint across its fasteners"],
            |d, dice| word(d, dice, "joint", "toe-nailed", any, &["yes"]),
        ),
        fault("a head cut too deep", &["notch at the head of a stringer"], &[], |d, dice| {
            (!is_notched(d)).then_some(())?;
            length(d, dice, "stringer", "head notch", any, (3.0, 5.0))
        }),
        Fault {
            severity: Advised,
            ..fault("a heel cut too deep", &["notch at the foot of a notched stringer"], &[], |d, dice| {
                is_notched(d).then_some(())?;
                length(d, dice, "stringer", "foot notch", any, (1.5, 2.5))
            })
        },
        fault("a seat too shallow for its ledger", &["seat at the head of a string"], &[], |d, dice| {
            length(d, dice, "stringer", "head notch", |d, s| d.stated(s.block, "head") == Some("ledger"), (0.0, 0.5))
        }),
        fault("a joist cut too deep at its end", &["notch at the end of a joist"], &[], |d, dice| {
            length(d, dice, "joist", "notch", any, (2.0, 4.0))
        }),
        fault("a joist that lies on too little", &["least bearing of a joist"], &["joist bearing"], |d, dice| {
            length(d, dice, "joist", "bearing", any, (0.5, 1.25))
        }),
        fault("a joist that hangs by nails", &["ends of a joist"], &[], |d, dice| {
            word(d, dice, "joist", "rests on", any, &["nails"])
        }),
        fault(
            "a joist too long",
            &["joist bending"],
            &["joist stiffness", "joist shear", "joist bearing"],
            |d, dice| length(d, dice, "joist", "span", any, (180.0, 220.0)),
        ),
        fault("a front foot too far back", &["overturning of a freestanding stair"], &[], |d, dice| {
            length(d, dice, "stair", "front foot", any, (3.0, 8.0))
        }),
    ]
}
