//! Designs made at random, each written in several ways: in another order, with other names, in millimetres, in other
//! notations of inches, beside another stair. None of that changes an outcome; a metric figure of a limit is the one
//! thing by which notation decides, and is taken out here. A statement taken away never takes a check with it.

use std::collections::{BTreeMap, BTreeSet};

use pitchboard::base::Source;
use pitchboard::check::{Analysis, BUILT_IN, Settled};
use pitchboard::session::Session;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use crate::drawing::Dice;
use crate::properties::cases;

/// A piece of a statement.
#[derive(Debug, Clone, PartialEq)]
enum Piece {
    Words(String),
    /// In sixty-fourths of an inch.
    Length(u64),
    /// The name of a flight, a landing or a part.
    Name(String),
}

/// Words with lengths in inches, `{36.25}`, and names, `<lower>`.
fn pieces(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(['{', '<']) {
        let close = if rest[at..].starts_with('{') { '}' } else { '>' };
        let end = at + rest[at..].find(close).expect("closed");
        let inside = &rest[at + 1..end];
        pieces.push(Piece::Words(rest[..at].to_owned()));
        pieces.push(match close {
            '}' => Piece::Length((inside.parse::<f64>().expect("inches") * 64.0).round() as u64),
            _ => Piece::Name(inside.to_owned()),
        });
        rest = &rest[end + 1..];
    }
    pieces.push(Piece::Words(rest.to_owned()));
    pieces
}

/// A thing drawn.
#[derive(Debug, Clone)]
struct Block {
    head: Vec<Piece>,
    statements: Vec<Vec<Piece>>,
    blocks: Vec<Block>,
    /// It keeps its place among those that do: a flight, and a landing between flights.
    keeps_place: bool,
}

impl Block {
    fn new(head: &str, statements: &[String]) -> Self {
        let statements = statements.iter().map(|statement| pieces(statement)).collect();
        Self { head: pieces(head), statements, blocks: Vec::new(), keeps_place: false }
    }

    /// Every statement of it and of what is in it, counted off; takes out the one of this number.
    fn without(&mut self, number: &mut usize) {
        self.statements.retain(|statement| {
            let is_rules = matches!(statement.first(), Some(Piece::Words(words)) if words.starts_with("rules"));
            let goes = *number == 0 && !is_rules;
            *number = number.wrapping_sub(usize::from(!is_rules));
            !goes
        });
        self.blocks.iter_mut().for_each(|block| block.without(number));
    }

    fn shuffled(&mut self, dice: &mut Dice) {
        for at in (1..self.statements.len()).rev() {
            self.statements.swap(at, dice.below(at + 1));
        }
        let (kept, mut free): (Vec<Block>, Vec<Block>) = self.blocks.drain(..).partition(|block| block.keeps_place);
        for at in (1..free.len()).rev() {
            free.swap(at, dice.below(at + 1));
        }
        // Those that keep their order stand anywhere between the others.
        let mut all = Vec::new();
        let (mut kept, mut free) = (kept.into_iter().peekable(), free.into_iter().peekable());
        while kept.peek().is_some() || free.peek().is_some() {
            let from = if free.peek().is_none() || kept.peek().is_some() && dice.below(2) == 0 {
                &mut kept
            } else {
                &mut free
            };
            all.extend(from.next());
        }
        self.blocks = all;
        self.blocks.iter_mut().for_each(|block| block.shuffled(dice));
    }

    fn write(&self, way: &Way, out: &mut String) {
        let of = |pieces: &[Piece]| pieces.iter().map(|piece| way.piece(piece)).collect::<String>();
        *out += &format!("{} {{ ", of(&self.head));
        for statement in &self.statements {
            *out += &format!("{}\n", of(statement));
        }
        self.blocks.iter().for_each(|block| block.write(way, out));
        *out += "}\n";
    }
}

/// How lengths and names are written.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Way {
    Inches,
    Decimals,
    Blank,
    Feet,
    Millimetres,
    OtherNames,
}

impl Way {
    fn piece(&self, piece: &Piece) -> String {
        match piece {
            Piece::Words(words) => words.clone(),
            Piece::Name(name) if *self == Way::OtherNames => format!("q{}", name.chars().rev().collect::<String>()),
            Piece::Name(name) => name.clone(),
            Piece::Length(sixty_fourths) => self.length(*sixty_fourths),
        }
    }

    fn length(&self, sixty_fourths: u64) -> String {
        let (whole, left) = (sixty_fourths / 64, sixty_fourths % 64);
        let fraction = |joint: &str, whole: u64| {
            let by = (0..7).map(|halves| 1 << halves).rev().find(|by| left % by == 0 && 64 % by == 0).unwrap_or(1);
            match (whole, left) {
                (_, 0) => format!("{whole}\""),
                (0, _) => format!("{}/{}\"", left / by, 64 / by),
                _ => format!("{whole}{joint}{}/{}\"", left / by, 64 / by),
            }
        };
        match self {
            Way::Inches | Way::OtherNames => fraction("-", whole),
            Way::Blank => fraction(" ", whole),
            Way::Decimals => format!("{}\"", sixty_fourths as f64 / 64.0),
            Way::Feet if whole >= 12 => format!("{}'-{}", whole / 12, fraction(" ", whole % 12)),
            Way::Feet => fraction("-", whole),
            // 1/64 in is 0.396875 mm, exact.
            Way::Millimetres => format!("{} mm", sixty_fourths as f64 * 396_875.0 / 1e6),
        }
    }
}

fn written(stair: &Block, way: Way) -> String {
    let mut out = String::new();
    stair.write(&way, &mut out);
    out
}

/// A stair, neither sound nor wholly stated: every thing and most of the statements are there or not.
fn stair(dice: &mut Dice) -> Block {
    let yes = |dice: &mut Dice, of: usize| dice.below(of) != 0;
    let length = |dice: &mut Dice, least: f64, most: f64| format!("{{{}}}", dice.between(least, most));
    let mut head = vec!["rules: residential, workshop".to_owned()];
    let word = |dice: &mut Dice, name: &str, words: &[&str]| format!("{name}: {}", dice.one(words).unwrap_or("no"));
    head.extend(yes(dice, 4).then(|| word(dice, "setting", &["indoors", "outdoors"])));
    head.extend(yes(dice, 3).then(|| word(dice, "standing", &["anchored", "freestanding"])));
    head.extend(yes(dice, 3).then(|| format!("bottom finish: {}", length(dice, 0.0, 1.0))));
    head.extend(yes(dice, 3).then(|| format!("longest bit: {}", length(dice, 4.0, 20.0))));
    head.extend(yes(dice, 3).then(|| word(dice, "switches", &["foot, head", "none", "foot"])));
    let mut whole = Block::new("stair \"random\"", &head);
    let flights = dice.below(3) + 1;
    for at in 0..flights {
        let name = ["<lower>", "<middle>", "<upper>"][at];
        let risers = dice.below(6) + 2;
        let size = length(dice, 6.5, 8.0);
        let mut stated = vec![match yes(dice, 4) {
            true => format!("risers: {risers} of {size}"),
            false => format!("risers: {} of {size}, {}", risers - 1, length(dice, 6.5, 8.0)),
        }];
        stated.extend(yes(dice, 8).then(|| format!("runs: {} of {}", risers - 1, length(dice, 9.5, 12.0))));
        stated.extend(yes(dice, 6).then(|| format!("width: {}", length(dice, 34.0, 44.0))));
        let mut flight = Block::new(&format!("flight {name}"), &stated);
        flight.keeps_place = true;
        for side in ["left", "right"] {
            match dice.below(4) {
                0 => flight.blocks.push(Block::new(&format!("wall {side}"), &[])),
                1 | 2 => flight.blocks.push(guard(dice, side, 33.0)),
                _ => {}
            }
            if dice.below(3) == 0 {
                flight.blocks.push(rail(dice, side, risers));
            }
        }
        if dice.below(3) == 0 {
            flight.blocks.push(Block::new("ceiling", &[format!("headroom: {}", length(dice, 78.0, 90.0))]));
        }
        if dice.below(6) == 0 && risers > 3 {
            let stated = ["from tread: 1", "to tread: 2", "turn: 90°"].map(str::to_owned);
            let narrow = format!("narrow: {}", length(dice, 4.0, 8.0));
            flight.blocks.push(Block::new("winders left", &[&stated[..], &[narrow]].concat()));
        }
        whole.blocks.push(flight);
        if at + 1 < flights {
            let mut between = landing(dice, ["<turn>", "<rest>"][at]);
            between
                .statements
                .extend(yes(dice, 6).then(|| pieces(&word(dice, "turn", &["straight", "quarter left", "half right"]))));
            between.keeps_place = true;
            whole.blocks.push(between);
        }
    }
    for place in ["top", "bottom"] {
        if yes(dice, 3) {
            whole.blocks.push(landing(dice, place));
        }
    }
    if yes(dice, 3) {
        let stated = [format!("below: {}", length(dice, 0.0, 20.0)), "slope: 1 in 24".to_owned()];
        let kept = if yes(dice, 3) { 2 } else { 1 };
        whole.blocks.push(Block::new("ground", &stated[..kept]));
    }
    if yes(dice, 5) {
        whole.blocks.push(some(
            "tread",
            &[
                "section: 2x12".to_owned(),
                "boards: 1".to_owned(),
                format!("length: {}", length(dice, 30.0, 44.0)),
                "timber: southern pine No.1, treated".to_owned(),
                format!("nosing: {}", length(dice, 0.0, 1.5)),
                format!("edge: radius {}", length(dice, 0.125, 0.5)),
                "slope: 1 in 96".to_owned(),
                "finish: grooved".to_owned(),
            ],
            dice,
        ));
    }
    if yes(dice, 2) {
        whole.blocks.push(some(
            "riser board",
            &[
                format!("section: {} x {}", length(dice, 0.5, 1.0), length(dice, 3.0, 7.5)),
                word(dice, "stands", &["on tread", "behind tread"]),
                "lean: 0°".to_owned(),
                "timber: larch".to_owned(),
            ],
            dice,
        ));
    }
    if yes(dice, 4) {
        let cut = ["notched", "solid", "housed"];
        whole.blocks.push(some(
            "stringer",
            &[
                format!("count: {}", dice.below(3) + 1),
                format!("spacing: {}", length(dice, 10.0, 30.0)),
                "section: 2x12".to_owned(),
                word(dice, "cut", &cut),
                "timber: douglas fir No.2".to_owned(),
            ],
            dice,
        ));
    }
    if yes(dice, 2) {
        whole.blocks.push(some(
            "post <newel>",
            &[
                "count: 4".to_owned(),
                "section: 4x4".to_owned(),
                format!("height: {}", length(dice, 30.0, 60.0)),
                word(dice, "notched", &["yes", "no"]),
                "timber: white oak".to_owned(),
            ],
            dice,
        ));
        if yes(dice, 3) {
            let mut joint = some(
                "joint <held>",
                &[
                    "joins: <newel> to stringer".to_owned(),
                    "bolts: 2 of 3/8\" x 6\" hex, galvanised".to_owned(),
                    format!("hole: {}", length(dice, 0.375, 0.5)),
                    word(dice, "washers", &["both sides", "nut side", "none"]),
                ],
                dice,
            );
            for member in ["<newel>", "stringer"] {
                joint.blocks.push(some(
                    &format!("in {member}"),
                    &[
                        format!("end: {}", length(dice, 1.0, 6.0)),
                        format!("edge: {}", length(dice, 0.5, 2.0)),
                        format!("spacing: {}", length(dice, 0.5, 4.0)),
                        format!("row spacing: {}", length(dice, 0.0, 1.0)),
                    ],
                    dice,
                ));
            }
            whole.blocks.push(joint);
        }
    }
    whole
}

/// A thing with most of what may be stated of it.
fn some(head: &str, may: &[String], dice: &mut Dice) -> Block {
    let stated: Vec<String> = may.iter().filter(|_| dice.below(8) != 0).cloned().collect();
    Block::new(head, &stated)
}

fn landing(dice: &mut Dice, name: &str) -> Block {
    let length = |dice: &mut Dice, least: f64, most: f64| format!("{{{}}}", dice.between(least, most));
    let stated = [
        format!("depth: {}", length(dice, 34.0, 50.0)),
        format!("width: {}", length(dice, 34.0, 90.0)),
        "slope: 1 in 60".to_owned(),
        format!("thickness: {}", length(dice, 1.0, 2.0)),
        format!("nosing: {}", length(dice, 0.5, 1.25)),
    ];
    let mut landing = some(&format!("landing {name}"), &stated, dice);
    for side in ["left", "right", "far"] {
        match dice.below(5) {
            0 => landing.blocks.push(Block::new(&format!("wall {side}"), &[])),
            1 => landing.blocks.push(guard(dice, side, 35.0)),
            _ => {}
        }
    }
    landing
}

fn guard(dice: &mut Dice, side: &str, least: f64) -> Block {
    let height = dice.between(least, 44.0);
    let stated = [
        format!("height: {{{height}}}"),
        format!("balusters: 2x2 every {{{}}}", dice.between(4.0, 6.5)),
        format!("bottom gap: {{{}}}", dice.between(0.0, 5.0)),
        format!("end gap: {{{}}}", dice.between(1.0, 5.0)),
        format!("handrail: {}", dice.one(&["yes", "no"]).unwrap_or("no")),
        "section: 2x4".to_owned(),
        "timber: southern pine No.1, treated".to_owned(),
    ];
    some(&format!("guard {side}"), &stated, dice)
}

fn rail(dice: &mut Dice, side: &str, risers: usize) -> Block {
    let stated = [
        format!("height: {{{}}}", dice.between(32.0, 40.0)),
        format!("section: round {{{}}}", dice.between(1.0, 2.5)),
        format!("clearance: {{{}}}", dice.between(1.0, 3.0)),
        format!("ends: {}", dice.one(&["safety terminal", "open"]).unwrap_or("open")),
        "from riser: 1".to_owned(),
        format!("to riser: {risers}"),
        format!("top extension: {{{}}}", dice.between(0.0, 14.0)),
        "timber: ash".to_owned(),
    ];
    some(&format!("handrail {side}"), &stated, dice)
}

/// The shipped sets with the inches of their limits alone.
fn in_inches() -> Session {
    BUILT_IN.iter().fold(Session::default(), |session, (name, text)| {
        let bare: String = text.lines().map(|line| format!("{}\n", without_metric(line))).collect();
        session.with_set(*name, Source::new(format!("{name}.rules"), bare))
    })
}

fn without_metric(line: &str) -> &str {
    let limit = line.trim_start().starts_with("limit ") && line.ends_with(" mm)");
    line.rfind(" (").filter(|_| limit).map_or(line, |at| &line[..at])
}

/// What every rule came to for every thing of a stair: its word, and the value that decided it, in nanometres or as it is.
fn outcomes(analysis: &Analysis, stair: usize) -> BTreeMap<(String, String), String> {
    let mut found = BTreeMap::new();
    for outcome in analysis.outcomes().into_iter().filter(|outcome| outcome.stair == stair) {
        let came = match &outcome.verdict {
            Settled::Pass(grounds) => {
                let value = grounds.comparison.as_ref().map(|compared| format!("{:.6e}", compared.value.value));
                format!("pass {}", value.unwrap_or_default())
            }
            Settled::Fail(_) => "fail".to_owned(),
            Settled::NotChecked(_) => "not checked".to_owned(),
            Settled::NotApplicable => "not applicable".to_owned(),
        };
        let rule = format!("{}: {}", outcome.rule.set().title, outcome.rule.rule().name);
        let both: &mut String = found.entry((rule, outcome.path.clone())).or_default();
        *both += &came;
    }
    found
}

fn checked(session: &Session, text: &str) -> Analysis {
    session.check(&Source::new("random.stair", text), None)
}

/// Where two sets of outcomes differ.
fn differences(a: &BTreeMap<(String, String), String>, b: &BTreeMap<(String, String), String>) -> Vec<String> {
    let keys: BTreeSet<_> = a.keys().chain(b.keys()).collect();
    let differs = keys.into_iter().filter(|key| a.get(*key) != b.get(*key));
    differs.map(|key| format!("{} of {}: {:?}, then {:?}", key.0, key.1, a.get(key), b.get(key))).collect()
}

#[test]
fn no_way_of_writing_a_design_changes_an_outcome() {
    let session = in_inches();
    let mut runner = TestRunner::new(cases(60));
    runner
        .run(&any::<u64>(), |seed| {
            let mut dice = Dice::new(seed);
            let drawn = stair(&mut dice);
            let text = written(&drawn, Way::Inches);
            let before = outcomes(&checked(&session, &text), 0);
            prop_assert!(before.len() > 60, "{} outcomes of\n{text}", before.len());
            for way in [Way::Decimals, Way::Blank, Way::Feet, Way::Millimetres] {
                let other = written(&drawn, way);
                let differ = differences(&before, &outcomes(&checked(&session, &other), 0));
                prop_assert!(differ.is_empty(), "{way:?}: {differ:#?}\n{text}\n{other}");
            }
            let mut shuffled = drawn.clone();
            shuffled.shuffled(&mut dice);
            let other = written(&shuffled, Way::Inches);
            let differ = differences(&before, &outcomes(&checked(&session, &other), 0));
            prop_assert!(differ.is_empty(), "in another order: {differ:#?}\n{text}\n{other}");

            let other = written(&drawn, Way::OtherNames);
            let renamed = outcomes(&checked(&session, &other), 0).into_iter().map(|((rule, path), came)| {
                let names = ["lower", "middle", "upper", "turn", "rest", "newel", "held"];
                let back = names.iter().fold(path, |path, name| {
                    path.replace(&format!("q{}", name.chars().rev().collect::<String>()), name)
                });
                ((rule, back), came)
            });
            let differ = differences(&before, &renamed.collect());
            prop_assert!(differ.is_empty(), "by other names: {differ:#?}\n{text}\n{other}");

            let neighbour = written(&stair(&mut dice), Way::Inches).replacen("random", "neighbour", 1);
            for (beside, at) in [(format!("{neighbour}{text}"), 1), (format!("{text}{neighbour}"), 0)] {
                let differ = differences(&before, &outcomes(&checked(&session, &beside), at));
                prop_assert!(differ.is_empty(), "beside another: {differ:#?}\n{beside}");
            }
            Ok(())
        })
        .unwrap();
}

/// Rules that a statement decides the scope of: without it they apply to less, and nothing of what they asked is lost.
const SCOPE: &[(&str, &str)] = &[];

#[test]
fn a_statement_taken_away_takes_no_check_with_it() {
    let session = in_inches();
    let mut runner = TestRunner::new(cases(60));
    runner
        .run(&any::<u64>(), |seed| {
            let mut dice = Dice::new(seed);
            let drawn = stair(&mut dice);
            let text = written(&drawn, Way::Inches);
            let before = outcomes(&checked(&session, &text), 0);
            for _ in 0..6 {
                let (mut less, mut number) = (drawn.clone(), dice.below(40));
                less.without(&mut number);
                let other = written(&less, Way::Inches);
                let after = outcomes(&checked(&session, &other), 0);
                let silent = before.iter().filter(|((rule, _), came)| {
                    // A contradiction of the drawing takes two statements.
                    !rule.starts_with("The drawing itself") && *came != "not applicable" && *came != "not checked"
                });
                let silent: Vec<String> = silent
                    .filter(|(key, _)| after.get(*key).is_some_and(|came| came == "not applicable"))
                    .map(|((rule, path), came)| format!("{rule} of {path}: {came}, then not applicable"))
                    .filter(|told| !SCOPE.iter().any(|(rule, _)| told.contains(rule)))
                    .collect();
                prop_assert!(silent.is_empty(), "{silent:#?}\n{text}\n{other}");
                // What failed is known no more, or fails still: a default never mends it.
                let gone: Vec<_> = before
                    .iter()
                    .filter(|((rule, _), came)| *came == "fail" && !rule.starts_with("The drawing itself"))
                    .filter(|(key, _)| !after.contains_key(*key))
                    .collect();
                let steps = other.matches("risers:").count() == text.matches("risers:").count()
                    && other.matches("runs:").count() == text.matches("runs:").count();
                prop_assert!(gone.is_empty() || !steps, "{gone:#?}\n{text}\n{other}");
            }
            Ok(())
        })
        .unwrap();
}
