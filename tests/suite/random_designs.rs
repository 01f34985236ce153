//! Random designs over the whole vocabulary, the same in every run: every kind that can be drawn, every property and
//! every word of the one table, in whatever company. What is drawn need not be sound, and seldom is; it is told apart
//! from how it is written, so that one design can be written in another order, in other units, under other names.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use crate::drawing::Dice;
use pitchboard::base::{Severity, Source};
use pitchboard::model::{KINDS, Kind, Property, Takes, Trait};
use pitchboard::session::Session;
use pitchboard::wording::messages;

/// What is stated of a property, apart from units and names.
#[derive(Debug, Clone, PartialEq)]
pub enum Said {
    /// Words, with marks for figures: `{l:96}` a length in sixty-fourths of an inch, `{s:48}` a slope of one in so many,
    /// `{w:200}` pounds, `{p:900}` pounds on a square inch, `{f:40}` on a square foot, `{a:9}` square feet, `{d:35}`
    /// degrees, `{n:heron}` a name.
    Words(String),
    /// Lengths in sixty-fourths of an inch, one for each step.
    Lengths(Vec<u32>),
    /// Degrees, one for each step.
    Angles(Vec<u32>),
}

/// One block of a design.
#[derive(Debug, Clone)]
pub struct Block {
    pub kind: &'static Kind,
    /// Its sides, or the words that it goes by whatever others are called.
    pub head: String,
    /// Its own name.
    pub name: Option<&'static str>,
    pub stated: Vec<(&'static str, Said)>,
    pub within: Vec<Block>,
}

/// In which unit lengths are written, and with that all other figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    Fractions,
    Decimals,
    FeetAndInches,
    Millimetres,
    Centimetres,
    Metres,
}

/// How a design is written.
#[derive(Debug, Clone, Copy)]
pub struct Hand {
    pub unit: Unit,
    /// Alike ones of a list together: `4 of 7"`.
    pub together: bool,
    /// Under other names.
    pub renamed: bool,
}

pub const USUAL: Hand = Hand { unit: Unit::Fractions, together: true, renamed: false };

/// Names of things; their order turned round gives the other names.
const NAMES: &[&str] = &[
    "avocet",
    "bittern",
    "curlew",
    "dunlin",
    "egret",
    "fulmar",
    "gadwall",
    "heron",
    "ibis",
    "jackdaw",
    "knot",
    "lapwing",
    "merlin",
    "nightjar",
    "ouzel",
    "pintail",
    "quail",
    "redshank",
    "shoveler",
    "turnstone",
    "whimbrel",
    "yellowhammer",
];

/// What a thing is called under other names.
pub fn renamed(name: &str) -> Option<String> {
    let at = NAMES.iter().position(|known| *known == name)?;
    Some(format!("zz{}", NAMES[NAMES.len() - 1 - at]))
}

/// The other names in a text put back.
pub fn named_back(text: &str) -> String {
    let mut text = text.to_owned();
    for name in NAMES {
        let other = renamed(name).expect("one of them");
        text = text.replace(&other, &format!("\0{name}"));
    }
    text.replace('\0', "")
}

fn decimal(value: f64) -> String {
    let text = format!("{value:.10}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn fraction(sixty_fourths: u32) -> String {
    let (whole, mut above, mut below) = (sixty_fourths / 64, sixty_fourths % 64, 64);
    while above > 0 && above % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{above}/{below}"),
        _ => format!("{whole}-{above}/{below}"),
    }
}

impl Hand {
    fn is_metric(self) -> bool {
        matches!(self.unit, Unit::Millimetres | Unit::Centimetres | Unit::Metres)
    }

    fn length(self, sixty_fourths: u32) -> String {
        let inches = f64::from(sixty_fourths) / 64.0;
        match self.unit {
            Unit::Fractions => format!("{}\"", fraction(sixty_fourths)),
            Unit::Decimals => format!("{}\"", decimal(inches)),
            Unit::FeetAndInches if sixty_fourths >= 12 * 64 => {
                let (feet, rest) = (sixty_fourths / (12 * 64), sixty_fourths % (12 * 64));
                if rest == 0 { format!("{feet}'") } else { format!("{feet}'-{}\"", fraction(rest).replace('-', " ")) }
            }
            Unit::FeetAndInches => format!("{}\"", fraction(sixty_fourths).replace('-', " ")),
            // 25.4 mm to the inch, exact: a sixty-fourth is 0.396875 mm.
            Unit::Millimetres => format!("{} mm", decimal(inches * 25.4)),
            Unit::Centimetres => format!("{} cm", decimal(inches * 2.54)),
            Unit::Metres => format!("{} m", decimal(inches * 0.0254)),
        }
    }

    fn slope(self, one_in: u32) -> String {
        match self.unit {
            _ if one_in == 0 => "level".to_owned(),
            Unit::Fractions | Unit::Millimetres => format!("1 in {one_in}"),
            Unit::Decimals | Unit::Centimetres => format!("1:{one_in}"),
            Unit::FeetAndInches if 12 * 64 % one_in == 0 => format!("{}\" per 12\"", fraction(12 * 64 / one_in)),
            Unit::FeetAndInches | Unit::Metres => format!("{}%", decimal(100.0 / f64::from(one_in))),
        }
    }

    fn figure(self, sort: &str, figure: &str) -> String {
        let number = || figure.parse::<f64>().expect("a number");
        match (sort, self.is_metric()) {
            ("l", _) => self.length(figure.parse().expect("sixty-fourths")),
            ("s", _) => self.slope(figure.parse().expect("one in so many")),
            ("w", false) => format!("{figure} lb"),
            // The pound-force is 4.4482216152605 N, exact; the foot 0.3048 m.
            ("w", true) => format!("{:.12} N", number() * 4.448_221_615_260_5),
            ("p", false) => format!("{figure} psi"),
            ("p", true) => format!("{:.15} MPa", number() * 4.448_221_615_260_5 / 645.16),
            ("f", false) => format!("{figure} psf"),
            ("f", true) => format!("{:.15} kPa", number() * 4.448_221_615_260_5 / 92.903_04),
            ("a", false) => format!("{figure} sq ft"),
            ("a", true) => format!("{} mm2", decimal(number() * 92_903.04)),
            ("d", _) if self.unit == Unit::Fractions => format!("{figure}°"),
            ("d", _) => format!("{figure} deg"),
            ("n", _) if self.renamed => renamed(figure).unwrap_or_else(|| figure.to_owned()),
            ("n", _) => figure.to_owned(),
            other => panic!("no such mark: {other:?}"),
        }
    }

    fn words(self, words: &str) -> String {
        let mut out = String::new();
        let mut rest = words;
        while let Some((before, after)) = rest.split_once('{') {
            let (mark, after) = after.split_once('}').expect("a whole mark");
            let (sort, figure) = mark.split_once(':').expect("a sort and a figure");
            out += before;
            out += &self.figure(sort, figure);
            rest = after;
        }
        out + rest
    }

    fn list(self, items: &[String]) -> String {
        let mut groups: Vec<(usize, &str)> = Vec::new();
        for item in items {
            match groups.last_mut() {
                Some((count, same)) if self.together && same == item => *count += 1,
                _ => groups.push((1, item)),
            }
        }
        let said = groups.iter().map(|(count, item)| match count {
            1 => (*item).to_owned(),
            _ => format!("{count} of {item}"),
        });
        said.collect::<Vec<_>>().join(", ")
    }

    pub fn said(self, said: &Said) -> String {
        match said {
            Said::Words(words) => self.words(words),
            Said::Lengths(items) => self.list(&items.iter().map(|item| self.length(*item)).collect::<Vec<_>>()),
            Said::Angles(items) => {
                self.list(&items.iter().map(|item| self.figure("d", &item.to_string())).collect::<Vec<_>>())
            }
        }
    }
}

impl Block {
    fn write(&self, hand: Hand, depth: usize, out: &mut String) {
        let indent = "    ".repeat(depth);
        let _ = write!(out, "{indent}{}", self.kind.opens);
        if !self.head.is_empty() {
            let _ = write!(out, " {}", hand.words(&self.head));
        }
        if let Some(name) = self.name {
            let _ = write!(out, " \"{}\"", hand.figure("n", name));
        }
        out.push_str(" {\n");
        for (property, said) in &self.stated {
            let _ = writeln!(out, "{indent}    {property}: {}", hand.said(said));
        }
        for block in &self.within {
            block.write(hand, depth + 1, out);
        }
        let _ = writeln!(out, "{indent}}}");
    }

    pub fn written(&self, hand: Hand) -> String {
        let mut out = String::new();
        self.write(hand, 0, &mut out);
        out
    }

    /// The same with statements and blocks in another order. Flights and landings keep theirs, which is the order in
    /// which one climbs them.
    pub fn reordered(&self, dice: &mut Dice) -> Self {
        let mut block = self.clone();
        shuffle(&mut block.stated, dice);
        block.within.iter_mut().for_each(|within| *within = within.reordered(dice));
        let is_climbed = |block: &Block| matches!(block.kind.name, "flight" | "landing");
        let (climbed, mut others): (Vec<Block>, Vec<Block>) = block.within.into_iter().partition(is_climbed);
        shuffle(&mut others, dice);
        for block in climbed.into_iter().rev() {
            others.insert(0, block);
        }
        // Where the others stand between those that are climbed is as good as any other place.
        let mut order: Vec<Block> = Vec::new();
        let (mut climbed, mut others): (Vec<Block>, Vec<Block>) = others.into_iter().partition(is_climbed);
        climbed.reverse();
        others.reverse();
        while !climbed.is_empty() || !others.is_empty() {
            let total = climbed.len() + others.len();
            let from = if dice.below(total) < climbed.len() { &mut climbed } else { &mut others };
            order.extend(from.pop());
        }
        block.within = order;
        block
    }

    /// How many statements there are, in it and in what stands within.
    pub fn statements(&self) -> usize {
        self.stated.len() + self.within.iter().map(Block::statements).sum::<usize>()
    }

    /// The same without its nth statement, with the kind and the property that it was of.
    pub fn without(&self, nth: usize) -> Option<(Self, &'static str, &'static str)> {
        let mut block = self.clone();
        let (kind, property) = block.take(&mut { nth })?;
        Some((block, kind, property))
    }

    fn take(&mut self, nth: &mut usize) -> Option<(&'static str, &'static str)> {
        if *nth < self.stated.len() {
            let (property, _) = self.stated.remove(*nth);
            return Some((self.kind.name, property));
        }
        *nth -= self.stated.len();
        self.within.iter_mut().find_map(|block| block.take(nth))
    }

    /// Every block, this one first.
    fn each<'a>(&'a self, visit: &mut dyn FnMut(&'a Block)) {
        visit(self);
        self.within.iter().for_each(|block| block.each(visit));
    }
}

fn shuffle<T>(items: &mut [T], dice: &mut Dice) {
    for at in (1..items.len()).rev() {
        items.swap(at, dice.below(at + 1));
    }
}

/// Figures that a joiner would choose, in inches: by property, and by kind where one property has several sizes.
const USUAL_FIGURES: &[(&str, &str, f64, f64)] = &[
    ("stair", "bottom finish", 0.0, 1.5),
    ("stair", "longest bit", 6.0, 18.0),
    ("landing", "depth", 33.0, 48.0),
    ("landing", "width", 33.0, 96.0),
    ("landing", "thickness", 0.75, 4.0),
    ("", "nosing", 0.0, 1.5),
    ("door", "width", 28.0, 40.0),
    ("door", "leaf", 28.0, 40.0),
    ("door", "threshold", 0.0, 8.0),
    ("well", "length", 72.0, 140.0),
    ("well", "width", 33.0, 48.0),
    ("wall", "length", 12.0, 60.0),
    ("ceiling", "headroom", 74.0, 90.0),
    ("beam", "headroom", 74.0, 90.0),
    ("space below", "headroom", 40.0, 84.0),
    ("ceiling", "height", 76.0, 130.0),
    ("beam", "height", 76.0, 130.0),
    ("ceiling", "overhang", 2.0, 7.0),
    ("ceiling", "from", 0.0, 40.0),
    ("ceiling", "to", 40.0, 90.0),
    ("beam", "from", 0.0, 90.0),
    ("beam", "width", 2.0, 8.0),
    ("ground", "below", 0.0, 36.0),
    ("flight", "width", 30.0, 48.0),
    ("tread", "gap", 0.0, 0.5),
    ("tread", "length", 28.0, 48.0),
    ("tread", "span", 12.0, 36.0),
    ("", "contrast", 0.0, 2.5),
    ("", "contrast below", 0.0, 2.5),
    ("riser bar", "below", 1.0, 5.0),
    ("stringer", "spacing", 10.0, 24.0),
    ("stringer", "housing", 0.25, 0.75),
    ("stringer", "first cut", 5.0, 8.0),
    ("stringer", "span", 24.0, 120.0),
    ("stringer", "head bearing", 0.5, 4.0),
    ("stringer", "last cut", 5.0, 9.0),
    ("stringer", "dropped header", 0.0, 8.0),
    ("post", "height", 30.0, 60.0),
    ("handrail", "height", 32.0, 40.0),
    ("handrail", "clearance", 1.0, 3.0),
    ("handrail", "off the steps", 0.0, 8.0),
    ("handrail", "top extension", 0.0, 14.0),
    ("handrail", "bottom extension", 0.0, 14.0),
    ("bracket", "every", 20.0, 60.0),
    ("bracket", "end", 1.0, 16.0),
    ("bracket", "below", 0.5, 3.0),
    ("guard", "height", 32.0, 44.0),
    ("guard", "bottom gap", 0.0, 5.0),
    ("guard", "end gap", 1.0, 5.0),
    ("guard", "between posts", 24.0, 72.0),
    ("guard", "midrail", 16.0, 24.0),
    ("guard", "toe board", 2.0, 5.0),
    ("guard", "toe board gap", 0.0, 1.0),
    ("guard", "give", 0.0, 1.0),
    ("guard", "let in", 0.0, 1.5),
    ("guard", "panel gap", 0.0, 5.0),
    ("guard", "length", 12.0, 60.0),
    ("guard", "infill to", 20.0, 36.0),
    ("guard", "top gap", 0.0, 8.0),
    ("guard", "widest gap", 2.0, 6.0),
    ("gate", "width", 30.0, 40.0),
    ("gate", "leaf", 30.0, 40.0),
    ("gate", "height", 32.0, 44.0),
    ("gate", "gap", 0.0, 5.0),
    ("joint", "hole", 0.25, 0.625),
    ("joint", "pilot", 0.0625, 0.375),
    ("joint", "plate", 1.5, 4.0),
    ("joint", "spacer", 0.0, 1.0),
    ("member", "end", 0.5, 6.0),
    ("member", "edge", 0.25, 3.0),
    ("member", "spacing", 0.0, 5.0),
    ("member", "row spacing", 0.0, 4.0),
    ("member", "through", 0.75, 4.0),
    ("measured", "read to", 0.015_625, 0.25),
];

const TIMBERS: &[&str] = &[
    "southern pine No.2, treated",
    "southern pine No.2",
    "douglas fir No.2",
    "white oak",
    "larch",
    "western red cedar",
    "spruce-pine-fir, treated",
    "\"marsh oak\"",
];

const SECTIONS: &[&str] = &[
    "2x12",
    "2x10",
    "4x4",
    "2x4",
    "5/4x6",
    "1x8",
    "{l:96} x {l:720}",
    "{l:112} x {l:224}",
    "round {l:96}",
    "round {l:128}",
    "square {l:224}",
    "\"marsh rail\"",
];

const FINISHES: &[&str] = &[
    "oil",
    "grit strip {l:2304}",
    "grooved",
    "rough sawn",
    "varnish",
    "wax",
    "sand in the paint",
    "oil, grooved",
    "paint",
];

const FASTENERS: &[(&str, &[&str])] = &[
    (
        "bolts",
        &[
            "2 of {l:24} x {l:384} carriage, galvanised",
            "2 of {l:32} x {l:448} hex",
            "1 of {l:32} x {l:384} carriage, plain",
            "4 of {l:24} x {l:384} hex, galvanised",
        ],
    ),
    (
        "lags",
        &["2 of {l:24} x {l:256}, galvanised", "2 of {l:24} x {l:256}, plain", "1 of {l:32} x {l:320}, stainless"],
    ),
    ("screws", &["3 of No.10 x {l:192}, galvanised", "2 of No.12 x {l:224}, stainless", "3 of No.8 x {l:160}, coated"]),
    ("nails", &["3 of 16d common, galvanised", "6 of 8d box, plain", "4 of 10d common"]),
];

/// Properties of which one rules the others out.
const RIVALS: &[&[&str]] = &[
    &["bolts", "lags", "screws", "nails"],
    &["headroom", "height"],
    &["slope", "fall"],
    &["infill", "balusters", "rails", "cables"],
];

/// How often a kind is drawn where it may be, in a hundred.
const OFTEN: &[(&str, usize)] = &[
    ("door", 30),
    ("well", 20),
    ("wall", 30),
    ("ceiling", 35),
    ("beam", 12),
    ("space below", 15),
    ("ground", 60),
    ("winders", 20),
    ("riser board", 35),
    ("riser bar", 15),
    ("stringer", 55),
    ("post", 35),
    ("handrail", 60),
    ("bracket", 50),
    ("guard", 60),
    ("gate", 25),
    ("joint", 45),
    ("brace", 20),
    ("measured", 25),
    ("waiver", 2),
    ("timber", 100),
    ("section", 100),
];

/// What is known of a design while it is drawn.
struct Shop {
    dice: Dice,
    /// How many of a hundred properties are stated.
    dense: usize,
    names: Vec<&'static str>,
    flights: Vec<(&'static str, usize)>,
    landings: Vec<&'static str>,
    joinable: Vec<String>,
}

impl Shop {
    fn chance(&mut self, of_hundred: usize) -> bool {
        self.dice.below(100) < of_hundred
    }

    fn one(&mut self, of: &[&'static str]) -> &'static str {
        of[self.dice.below(of.len())]
    }

    fn words(&mut self, of: &[&'static str]) -> Said {
        Said::Words(self.one(of).to_owned())
    }

    fn name(&mut self) -> Option<&'static str> {
        self.names.pop()
    }

    /// A length of a property, in sixty-fourths: mostly one that a joiner would choose, on a mark of a rule.
    fn length(&mut self, kind: &str, property: &Property) -> u32 {
        let usual =
            USUAL_FIGURES.iter().find(|(of, name, ..)| (of.is_empty() || *of == kind) && *name == property.name);
        let range = property.range.expect("the range of a length");
        // Nanometres in base units.
        let (least, most) = (range.least / 25.4e6, range.most / 25.4e6);
        let (least, most) = match usual {
            Some((.., least, most)) if !self.chance(12) => (*least, *most),
            _ => (least, most.min(least + 60.0)),
        };
        let step = if most - least > 4.0 { 4.0 } else { 16.0 };
        let steps = ((most - least) * step).floor().max(0.0) as usize;
        let at = least + self.dice.below(steps + 1) as f64 / step;
        ((at * 64.0).ceil() as u32).max((least * 64.0).ceil() as u32)
    }

    fn steps(&self, place: Option<&'static str>) -> usize {
        let of = |name| self.flights.iter().find(|(flight, _)| Some(*flight) == name);
        of(place).or(self.flights.first()).map_or(3, |(_, steps)| *steps)
    }

    fn value(&mut self, kind: &'static Kind, property: &'static Property, place: Option<&'static str>) -> Option<Said> {
        let words = |text: String| Some(Said::Words(text));
        let steps = self.steps(place);
        match property.takes {
            Takes::Length => {
                let length = self.length(kind.name, property);
                words(format!("{{l:{length}}}"))
            }
            Takes::Lengths => {
                let count = match (kind.name, property.name) {
                    ("handrail", _) => steps,
                    _ => steps.saturating_sub(1),
                };
                let one = self.length(kind.name, property);
                // Of what stands in the stair it is not known here which of several flights it serves.
                let unsure = place.is_none() && self.flights.len() > 1;
                if self.chance(70) || unsure || count < 2 || kind.name == "winders" {
                    return Some(Said::Lengths(vec![one]));
                }
                let mut items = vec![one; count];
                let other = self.dice.below(count);
                items[other] = self.length(kind.name, property);
                Some(Said::Lengths(items))
            }
            Takes::Angle => {
                let most = property.range.map_or(60.0, |range| range.most.min(60.0)) as usize;
                words(format!("{{d:{}}}", self.dice.below(most + 1)))
            }
            Takes::Angles => Some(Said::Angles(vec![[90, 45, 180][self.dice.below(3)]])),
            Takes::Area => words(format!("{{a:{}}}", 4 + self.dice.below(40))),
            Takes::Force => words(format!("{{w:{}}}", 100 * (1 + self.dice.below(40)))),
            Takes::Pressure => {
                let range = property.range?;
                // A pound on a square inch in base units, newtons on a square nanometre.
                let psi = 4.448_221_615_260_5 / (25.4e6 * 25.4e6);
                let (least, most) = (range.least / psi, range.most / psi);
                if most < 10.0 {
                    return words(format!("{{f:{}}}", 5 * self.dice.below((most * 144.0 / 5.0) as usize)));
                }
                let of = least + (most - least) * self.dice.below(60) as f64 / 100.0;
                words(format!("{{p:{}}}", of.ceil()))
            }
            Takes::Slope => {
                let one_in = [0, 24, 32, 48, 64, 96, 8][self.dice.below(7)];
                words(format!("{{s:{one_in}}}"))
            }
            Takes::Number => {
                let range = property.range?;
                let of = range.least + (range.most - range.least) * self.dice.below(100) as f64 / 100.0;
                words(decimal((of * 100.0).ceil() / 100.0))
            }
            Takes::Count => {
                let range = property.range?;
                let most = (range.most as usize).min(if property.name == "occupants" { 200 } else { 6 });
                words(format!("{}", (range.least as usize).max(1 + self.dice.below(most))))
            }
            Takes::OneOf(of) => Some(self.words(of)),
            Takes::SomeOf(of) => {
                let first = self.one(of);
                let second = self.one(of);
                if first == "none" || second == "none" || first == second || self.chance(60) {
                    return words(first.to_owned());
                }
                words(format!("{first}, {second}"))
            }
            Takes::Sets => words("residential, workshop".to_owned()),
            Takes::Words if property.name == "class" => {
                Some(self.words(&["service", "main private", "secondary private", "common", "accessible"]))
            }
            Takes::Words if property.name == "hold-down by" => words("\"the maker's table\"".to_owned()),
            Takes::Words => words("\"the marsh shop\"".to_owned()),
            Takes::Finish => Some(self.words(FINISHES)),
            Takes::Date => words("2026-05-04".to_owned()),
            Takes::Section => Some(self.words(SECTIONS)),
            Takes::Timber => Some(self.words(TIMBERS)),
            Takes::Edge => Some(self.words(&["square", "radius {l:24}", "bevel {l:32}", "radius {l:40}"])),
            Takes::Balusters => Some(self.words(&[
                "square {l:96} every {l:320}",
                "2x2 every {l:352}",
                "9 of 2x2",
                "round {l:12} every {l:256}",
                "round {l:12} every {l:192}",
                "7 of square {l:96}",
            ])),
            Takes::Fasteners => {
                let of = FASTENERS.iter().find(|(name, _)| *name == property.name)?.1;
                Some(self.words(of))
            }
            Takes::Members => {
                let often = |name: &&String| self.joinable.iter().filter(|other| other == name).count();
                let (clear, unclear) = (2, 9);
                let at_most = if self.dice.below(12) == 0 { unclear } else { clear - 1 };
                let all: Vec<String> = self.joinable.iter().filter(|name| often(name) <= at_most).cloned().collect();
                if all.len() < 2 {
                    return None;
                }
                let first = &all[self.dice.below(all.len())];
                let second = &all[self.dice.below(all.len())];
                if first == second { None } else { words(format!("{first} to {second}")) }
            }
            Takes::Name => {
                let places: Vec<&'static str> = match (kind.name, property.name) {
                    ("door", _) => self.landings.iter().copied().chain(["top", "bottom"]).collect(),
                    _ => self.flights.iter().map(|(name, _)| *name).chain(self.landings.iter().copied()).collect(),
                };
                let place = places[self.dice.below(places.len())];
                words(format!("{{n:{place}}}"))
            }
        }
    }

    /// What is stated of a thing: each property of the table, or not.
    fn stated(&mut self, kind: &'static Kind, place: Option<&'static str>) -> Vec<(&'static str, Said)> {
        let rivals: Vec<&'static str> = RIVALS.iter().map(|rivals| self.one(rivals)).collect();
        let mut stated = Vec::new();
        for property in kind.properties {
            let rival = RIVALS.iter().position(|group| group.contains(&property.name));
            // A kind that has but one of them has no rival.
            let others = |group: &&[&str]| group.iter().filter(|name| kind.property(name).is_some()).count() > 1;
            if let Some(nth) = rival.filter(|nth| others(&RIVALS[*nth]))
                && rivals[nth] != property.name
                && !self.chance(1)
            {
                continue;
            }
            let wanted = match (kind.name, property.name) {
                // A place that is stated of a thing in its place is a place too many.
                (_, "along") => place.is_none() && self.chance(if self.flights.len() > 1 { 92 } else { 50 }),
                ("door", "at") => place.is_none() && self.chance(60),
                (_, "from tread" | "to tread" | "from riser" | "to riser") => false,
                ("stair", "rules") | (_, "on" | "by" | "why") => true,
                ("waiver", _) => false,
                ("measured", "risers" | "runs" | "total rise" | "width") => false,
                ("flight", "spiral" | "ship") => self.chance(8),
                ("landing", "plan" | "area") => self.chance(15),
                ("handrail", "interrupted" | "continues") => self.chance(8),
                _ => rival.is_some() || self.chance(self.dense),
            };
            if wanted && let Some(said) = self.value(kind, property, place) {
                stated.push((property.name, said));
            }
        }
        self.reach(kind, place, &mut stated);
        stated
    }

    /// From which step to which a thing stands, the lower one first.
    fn reach(&mut self, kind: &'static Kind, place: Option<&'static str>, stated: &mut Vec<(&'static str, Said)>) {
        let steps = self.steps(place);
        let (from, to, count) = match (kind.property("from tread"), kind.property("from riser")) {
            (Some(_), _) => ("from tread", "to tread", steps.saturating_sub(1)),
            (_, Some(_)) => ("from riser", "to riser", steps),
            _ => return,
        };
        let (a, b) = (1 + self.dice.below(count.max(1)), 1 + self.dice.below(count.max(1)));
        let always = kind.name == "winders";
        if always || self.chance(30) {
            stated.push((from, Said::Words(a.min(b).to_string())));
        }
        if always || self.chance(30) {
            stated.push((to, Said::Words(a.max(b).to_string())));
        }
    }

    /// Everything of a kind that stands in a place.
    fn some_of(&mut self, kind: &'static Kind, parent: &'static str, place: Option<&'static str>) -> Vec<Block> {
        let often = OFTEN.iter().find(|(name, _)| *name == kind.name).map_or(0, |(_, often)| *often);
        // What stands in the stair and in a place of it seldom stands in both.
        let often = if parent == "stair" || !kind.within.contains(&"stair") { often } else { often / 3 };
        if !self.chance(often) {
            return Vec::new();
        }
        let mut heads: Vec<String> = Vec::new();
        if kind.is(Trait::Sided) {
            let mut sides = vec!["left", "right"];
            if kind.is(Trait::FarSide) && matches!(parent, "landing" | "well") {
                sides.push("far");
            }
            if kind.is(Trait::Middle) && parent != "landing" {
                sides.push("middle");
            }
            let side = self.one(&sides);
            let others: Vec<&'static str> = sides.iter().copied().filter(|other| *other != side).collect();
            heads.push(side.to_owned());
            match self.dice.below(4) {
                0 if kind.name != "winders" => heads.push(self.one(&others).to_owned()),
                1 if kind.name != "winders" && side != "middle" => {
                    heads = vec![if self.chance(50) { "left, right" } else { "right, left" }.to_owned()];
                }
                2 if kind.name == "ground" => heads = vec![String::new()],
                _ => {}
            }
        } else if kind.name == "door" {
            heads.push(self.one(&["top", "bottom", ""]).to_owned());
        } else {
            heads.push(String::new());
        }
        let mut blocks: Vec<Block> = heads.into_iter().map(|head| self.block(kind, head, place)).collect();
        // A floor has no steps, of which a list could hold one figure each.
        if matches!(parent, "landing" | "well") && self.chance(95) {
            for (_, said) in blocks.iter_mut().flat_map(|block| &mut block.stated) {
                if let Said::Lengths(items) = said {
                    items.truncate(1);
                }
            }
        }
        blocks
    }

    fn block(&mut self, kind: &'static Kind, head: String, place: Option<&'static str>) -> Block {
        let named = head.is_empty() && matches!(kind.name, "post" | "joint" | "beam" | "brace");
        let name = if named { self.name() } else { None };
        if kind.is(Trait::Joinable) {
            self.joinable.push(match (name, head.as_str()) {
                (Some(name), _) => format!("{{n:{name}}}"),
                // A side is no name that a joint could use; and now and then nobody knows which of several is meant.
                _ => kind.opens.to_owned(),
            });
        }
        let mut stated = self.stated(kind, place);
        let mut within = Vec::new();
        for inner in KINDS.iter().filter(|inner| inner.within == [kind.name] || inner.name == "gate") {
            if inner.within.contains(&kind.name) && inner.name != "member" {
                within.extend(self.some_of(inner, kind.name, place));
            }
        }
        if kind.name == "joint"
            && let Some((_, Said::Words(joins))) = stated.iter().find(|(property, _)| *property == "joins")
        {
            let member = KINDS.iter().find(|kind| kind.name == "member").expect("a kind");
            let joins = joins.clone();
            for joined in joins.split(" to ") {
                if self.chance(75) {
                    let stated = self.stated(member, place);
                    within.push(Block {
                        kind: member,
                        head: joined.to_owned(),
                        name: None,
                        stated,
                        within: Vec::new(),
                    });
                }
            }
        }
        // What wants something beside it that is seldom drawn there is stated seldom.
        let wanting = [
            ("landing", "open sides", "none"),
            ("stringer", "stands", "at the wall"),
            ("post", "stands", "at a turn"),
            ("stringer", "stands", "on a landing"),
            ("handrail", "ends", "returned"),
            ("handrail", "ends", "at a post"),
            ("handrail", "continues", "up"),
            ("handrail", "continues", "down"),
            ("handrail", "continues", "both ways"),
            ("flight", "spiral", "yes"),
        ];
        if wanting.iter().any(|(of, ..)| *of == kind.name) && self.chance(75) {
            stated.retain(|(property, said)| {
                let is = |(of, name, word): &(&str, &str, &str)| {
                    *of == kind.name && name == property && *said == Said::Words((*word).to_owned())
                };
                !wanting.iter().any(is)
            });
        }
        if kind.name == "ceiling" && stated.iter().all(|(property, _)| *property != "height") {
            stated.retain(|(property, _)| !matches!(*property, "slope" | "fall" | "fall across"));
        }
        Block { kind, head, name, stated, within }
    }
}

fn kind(name: &str) -> &'static Kind {
    KINDS.iter().find(|kind| kind.name == name).expect("a kind of the table")
}

/// The design of a number: the same whenever it is asked for.
pub fn design(number: u64) -> Block {
    let mut dice = Dice::new(0x5eed + number);
    let mut names = NAMES.to_vec();
    shuffle(&mut names, &mut dice);
    let dense = [35, 60, 85][dice.below(3)];
    let mut shop = Shop { dice, dense, names, flights: Vec::new(), landings: Vec::new(), joinable: Vec::new() };
    let many = [1, 1, 1, 2, 2, 3][shop.dice.below(6)];
    let (mut climbed, mut rise, mut run) = (Vec::new(), 0, 0);
    if shop.chance(60) {
        climbed.push((kind("landing"), "bottom".to_owned(), None, Vec::new()));
    }
    for nth in 0..many {
        if nth > 0 && shop.chance(85) {
            let name = shop.name();
            shop.landings.extend(name);
            climbed.push((kind("landing"), String::new(), name, Vec::new()));
        }
        let steps = 2 + shop.dice.below(6);
        let name = shop.name();
        shop.flights.extend(name.map(|name| (name, steps)));
        let riser = (13 + shop.dice.below(5)) as u32 * 32;
        let tread = (18 + shop.dice.below(6)) as u32 * 32;
        let mut risers = vec![riser; steps];
        let mut runs = vec![tread; if shop.chance(15) { steps } else { steps - 1 }];
        if shop.chance(25) {
            risers[shop.dice.below(steps)] += 4 * (1 + shop.dice.below(8)) as u32;
        }
        if shop.chance(25) {
            let at = shop.dice.below(runs.len());
            runs[at] -= 4 * (1 + shop.dice.below(8)) as u32;
        }
        rise += risers.iter().sum::<u32>();
        run += runs.iter().sum::<u32>();
        let lists = vec![("risers", Said::Lengths(risers)), ("runs", Said::Lengths(runs))];
        climbed.push((kind("flight"), String::new(), name, lists));
    }
    if shop.chance(60) {
        climbed.push((kind("landing"), "top".to_owned(), None, Vec::new()));
    }
    let mut within = Vec::new();
    for (kind, head, name, lists) in climbed {
        let mut stated = shop.stated(kind, name.or(Some("")));
        stated.retain(|(property, _)| lists.iter().all(|(other, _)| other != property));
        stated.extend(lists.into_iter().filter(|_| !shop.chance(3)));
        let mut inner = Vec::new();
        for of in KINDS.iter().filter(|of| of.within.contains(&kind.name) && of.name != "landing" && of.name != "joint")
        {
            if of.name == "tread" && many > 1 && shop.chance(50) {
                inner.push(shop.block(of, String::new(), name));
            }
            inner.extend(shop.some_of(of, kind.name, name.or(Some(""))));
        }
        within.push(Block { kind, head, name, stated, within: inner });
    }
    if within.iter().all(|block| block.within.iter().all(|inner| inner.kind.name != "tread")) && shop.chance(85) {
        within.push(shop.block(kind("tread"), String::new(), None));
    }
    if shop.chance(3) {
        // Nothing that is drawn goes by it.
        shop.joinable.push("{n:dabchick}".to_owned());
    }
    // Joints come last, when what they join is drawn.
    let apart = ["flight", "landing", "tread", "joint", "measured", "timber", "section", "waiver"];
    for of in KINDS.iter().filter(|of| of.within.contains(&"stair") && !apart.contains(&of.name)) {
        within.extend(shop.some_of(of, "stair", None));
    }
    for _ in 0..3 {
        within.extend(shop.some_of(kind("joint"), "stair", None));
    }
    for (own, name) in [("timber", "\"marsh oak\""), ("section", "\"marsh rail\"")] {
        let stated = shop.stated(kind(own), None);
        within.push(Block { kind: kind(own), head: name.to_owned(), name: None, stated, within: Vec::new() });
    }
    within.extend(measured(&mut shop, &within.clone()));
    let mut stated = shop.stated(kind("stair"), None);
    for (property, said) in &mut stated {
        let sum = match *property {
            "total rise" => rise,
            "total run" => run,
            _ => continue,
        };
        let off = if shop.chance(80) { 0 } else { 16 };
        *said = Said::Words(format!("{{l:{}}}", sum + off));
    }
    Block { kind: kind("stair"), head: String::new(), name: shop.name(), stated, within }
}

/// What was measured of some of what is drawn.
fn measured(shop: &mut Shop, drawn: &[Block]) -> Option<Block> {
    if !shop.chance(25) {
        return None;
    }
    let mut within = Vec::new();
    for block in drawn.iter().filter(|block| matches!(block.kind.name, "handrail" | "guard" | "tread")) {
        let property = if block.kind.name == "tread" { "nosing" } else { "height" };
        let property = block.kind.property(property).expect("a property of it");
        let stated = vec![(property.name, Said::Lengths(vec![shop.length(block.kind.name, property)]))];
        // Of one that serves several places it is not known which is meant.
        if shop.chance(60) && !block.head.contains(',') && shop.flights.len() == 1 {
            within.push(Block { within: Vec::new(), stated, ..block.clone() });
        }
    }
    let stated = shop.stated(kind("measured"), None);
    Some(Block { kind: kind("measured"), head: String::new(), name: None, stated, within })
}

/// What of the vocabulary some designs state: kinds, their properties, and the words of those that take a word.
fn vocabulary(designs: &[Block]) -> BTreeSet<String> {
    let mut met = BTreeSet::new();
    for design in designs {
        design.each(&mut |block| {
            met.insert(block.kind.name.to_owned());
            for (property, said) in &block.stated {
                met.insert(format!("{}: {property}", block.kind.name));
                if let Said::Words(words) = said {
                    let each = words.split(", ");
                    met.extend(each.map(|word| format!("{}: {property}: {word}", block.kind.name)));
                }
            }
        });
    }
    met
}

/// Properties that no random design states: their values are of other files, or of what is not drawn.
const NOT_STATED: &[(&str, &str)] = &[
    ("measured: total rise", "what was measured of a list is held by the cases"),
    ("measured: risers", "what was measured of a list is held by the cases"),
    ("measured: runs", "what was measured of a list is held by the cases"),
    ("measured: width", "what was measured of a list is held by the cases"),
    ("waiver", "a waiver changes no outcome"),
    ("joist", "no landing of these designs is framed; the cases of `strength` hold joists"),
    ("header", "no flight of these designs hangs on a header that is drawn; the cases of `strength` hold headers"),
];

#[test]
fn random_designs_cover_the_whole_vocabulary() {
    let designs: Vec<Block> = (0..300).map(design).collect();
    let met = vocabulary(&designs);
    let mut missing = Vec::new();
    for kind in KINDS.iter().filter(|kind| kind.is_drawn()) {
        for property in kind.properties {
            let name = format!("{}: {}", kind.name, property.name);
            let left_out = NOT_STATED.iter().any(|(left, _)| *left == name || *left == kind.name);
            let words: &[&str] = match property.takes {
                Takes::OneOf(words) | Takes::SomeOf(words) => words,
                _ => &[],
            };
            let said = words.iter().map(|word| format!("{name}: {word}")).chain([name.clone()]);
            missing.extend(said.filter(|said| !left_out && !met.contains(said)));
        }
    }
    assert!(missing.is_empty(), "never stated: {missing:#?}");
}

/// Most of what is drawn is understood, or the rest of these tests would say little.
#[test]
fn random_designs_are_understood() {
    let mut notices: BTreeMap<String, (usize, u64)> = BTreeMap::new();
    let mut told = 0;
    let many = 200;
    let session = Session::default();
    for number in 0..many {
        let text = design(number).written(USUAL);
        let report = session.check(&Source::new("random", &*text), None).report;
        let findings = messages(&report.findings);
        let found: Vec<_> = findings.iter().filter(|found| found.severity == Severity::NotUnderstood).collect();
        told += usize::from(!found.is_empty());
        for found in found {
            let message: String = found.message.chars().filter(|c| !c.is_ascii_digit()).collect();
            let entry = notices.entry(format!("{}: {message}", found.name)).or_default();
            *entry = (entry.0 + 1, number);
        }
    }
    for (notice, (times, number)) in &notices {
        println!("{times:5} {notice} ({number})");
    }
    assert!(told * 2 < many as usize, "{told} of {many} designs are not understood in full");
}
