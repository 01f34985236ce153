//! A small reader of the examples, enough to find the words that a fault changes, and dice that fall alike in
//! every run. It knows blocks, statements and lengths, and nothing of what they mean.

use std::ops::Range;

/// A block: `handrail left, right { ... }`.
#[derive(Debug)]
pub struct Block {
    pub kind: String,
    /// Its names and sides.
    pub names: String,
    /// From the kind to before the brace.
    pub head: Range<usize>,
    /// From the kind past the closing brace.
    pub whole: Range<usize>,
    pub parent: Option<usize>,
}

/// A statement: `height: 36"`.
#[derive(Debug)]
pub struct Statement {
    pub block: usize,
    pub property: String,
    pub whole: Range<usize>,
    pub value: Range<usize>,
}

/// What a fault changes, and where its finding is to point in the text that comes of it.
#[derive(Debug)]
pub struct Damage {
    edit: Range<usize>,
    new: String,
    pub at: Range<usize>,
}

impl Damage {
    pub fn new(edit: &Range<usize>, new: impl Into<String>) -> Self {
        let new = new.into();
        let at = edit.start..edit.start + new.len();
        Self { edit: edit.clone(), new, at }
    }

    /// The finding points at a part of the new words.
    pub fn told_in_new(self, part: Range<usize>) -> Self {
        Self { at: self.edit.start + part.start..self.edit.start + part.end, ..self }
    }

    /// The finding points at other words, which stand before or after what is changed.
    pub fn told_at(self, at: &Range<usize>) -> Self {
        let moved = |at: usize| if at < self.edit.end { at } else { at + self.new.len() - self.edit.len() };
        let at = moved(at.start)..moved(at.end);
        Self { at, ..self }
    }

    /// The finding points somewhere in these words, as they stand after the change.
    pub fn told_within(self, before: &Range<usize>) -> Self {
        assert!(before.start <= self.edit.start && self.edit.end <= before.end, "words that hold the change");
        let end = before.end + self.new.len() - self.edit.len();
        Self { at: before.start..end, ..self }
    }
}

/// One design.
#[derive(Debug)]
pub struct Drawing {
    pub name: String,
    pub text: String,
    pub blocks: Vec<Block>,
    pub statements: Vec<Statement>,
}

impl Drawing {
    pub fn read(name: &str, text: &str) -> Self {
        let mut drawing =
            Self { name: name.to_owned(), text: text.to_owned(), blocks: Vec::new(), statements: Vec::new() };
        let bytes = text.as_bytes();
        let mut open: Vec<usize> = Vec::new();
        let (mut start, mut at) = (0, 0);
        while at < bytes.len() {
            let after_figure = at > 0 && (bytes[at - 1].is_ascii_digit() || bytes[at - 1] == b'\'');
            match bytes[at] {
                b'#' if !bytes.get(at + 1).is_some_and(u8::is_ascii_digit) => {
                    drawing.statement(&open, start..at);
                    at += text[at..].find('\n').unwrap_or(text.len() - at);
                    start = at;
                    continue;
                }
                b'"' if !after_figure => at += 1 + text[at + 1..].find('"').unwrap_or(0),
                b'{' => {
                    let head = trimmed(text, start..at);
                    let (kind, names) = kind_of(&text[head.clone()]);
                    let block = Block { kind, names, whole: head.clone(), head, parent: open.last().copied() };
                    open.push(drawing.blocks.len());
                    drawing.blocks.push(block);
                    start = at + 1;
                }
                b'}' => {
                    drawing.statement(&open, start..at);
                    let closed = open.pop().expect("a brace for each");
                    drawing.blocks[closed].whole.end = at + 1;
                    start = at + 1;
                }
                b';' | b'\n' => {
                    drawing.statement(&open, start..at);
                    start = at + 1;
                }
                _ => {}
            }
            at += 1;
        }
        drawing
    }

    fn statement(&mut self, open: &[usize], within: Range<usize>) {
        let whole = trimmed(&self.text, within);
        let Some((block, (property, value))) =
            open.last().zip(self.text[whole.clone()].split_once(':').map(|(p, v)| (p.trim().to_owned(), v)))
        else {
            return;
        };
        let value = trimmed(&self.text, whole.end - value.len()..whole.end);
        self.statements.push(Statement { block: *block, property, whole, value });
    }

    pub fn with(&self, damage: &Damage) -> String {
        let mut text = self.text.clone();
        text.replace_range(damage.edit.clone(), &damage.new);
        text
    }

    pub fn value(&self, statement: &Statement) -> &str {
        &self.text[statement.value.clone()]
    }

    /// Statements of a property in blocks of a kind.
    pub fn of(&self, kind: &str, property: &str) -> Vec<&Statement> {
        let is = |statement: &&Statement| statement.property == property && self.blocks[statement.block].kind == kind;
        self.statements.iter().filter(is).collect()
    }

    /// What a block states.
    pub fn stated(&self, block: usize, property: &str) -> Option<&str> {
        let is = |statement: &&Statement| statement.block == block && statement.property == property;
        self.statements.iter().find(is).map(|statement| self.value(statement))
    }

    /// What the stair states.
    pub fn stair(&self, property: &str) -> Option<&str> {
        self.stated(self.kind("stair").next()?, property)
    }

    pub fn outdoors(&self) -> bool {
        self.stair("setting") == Some("outdoors")
    }

    pub fn is_metric(&self) -> bool {
        self.stair("total rise").is_some_and(|rise| rise.ends_with('m'))
    }

    /// Blocks of a kind.
    pub fn kind<'d>(&'d self, kind: &'d str) -> impl Iterator<Item = usize> + 'd {
        (0..self.blocks.len()).filter(move |block| self.blocks[*block].kind == kind)
    }

    /// The flight or landing that a block stands in, or the only flight.
    pub fn place(&self, block: usize) -> usize {
        let mut at = Some(block);
        while let Some(block) = at {
            if ["flight", "landing", "well"].contains(&self.blocks[block].kind.as_str()) {
                return block;
            }
            at = self.blocks[block].parent;
        }
        self.kind("flight").next().expect("a flight")
    }

    pub fn is_on_landing(&self, block: usize) -> bool {
        ["landing", "well"].contains(&self.blocks[self.place(block)].kind.as_str())
    }

    /// Lengths of a list of a block, in inches.
    pub fn list(&self, block: usize, property: &str) -> Vec<f64> {
        let items = self.stated(block, property).unwrap_or_default().split(", ");
        items
            .flat_map(|item| {
                let (count, size) = item.split_once(" of ").unwrap_or(("1", item));
                vec![inches(size).expect("a length"); count.parse().expect("a count")]
            })
            .collect()
    }

    pub fn is_spiral(&self) -> bool {
        self.kind("flight").any(|flight| self.stated(flight, "spiral") == Some("yes"))
    }

    pub fn has(&self, kind: &str) -> bool {
        self.kind(kind).next().is_some()
    }

    /// How high a flight's head, or a landing, stands above the foot of the stair. Inches.
    pub fn elevation(&self, place: usize) -> f64 {
        let top = self.blocks[place].names == "top" || self.blocks[place].kind == "well";
        let flights = self.kind("flight").filter(|flight| *flight <= place || top);
        flights.map(|flight| self.list(flight, "risers").iter().sum::<f64>()).sum()
    }

    /// How high the highest tread of a flight stands above the foot of the stair. Inches.
    pub fn highest_tread(&self, flight: usize) -> f64 {
        self.elevation(flight) - self.list(flight, "risers").last().copied().unwrap_or(0.0)
    }

    /// The fasteners of a joint that a member stands in, or of the joint itself.
    pub fn fasteners(&self, block: usize) -> Option<(&'static str, Fasteners)> {
        let joint = if self.blocks[block].kind == "joint" { block } else { self.blocks[block].parent? };
        ["bolts", "lags", "screws", "nails"].into_iter().find_map(|kind| {
            let said = self.stated(joint, kind)?;
            Some((kind, Fasteners::read(said)?))
        })
    }
}

/// Fasteners as they are written.
#[derive(Debug, Clone)]
pub struct Fasteners {
    pub count: usize,
    /// Shank, inches.
    pub diameter: f64,
    /// As it is written: `3/8"`, `No.10`.
    pub size: String,
    /// Kind of head and coating.
    pub rest: String,
}

impl Fasteners {
    fn read(said: &str) -> Option<Self> {
        let (count, rest) = said.split_once(" of ")?;
        let count = count.parse().ok()?;
        let Some((size, rest)) = rest.split_once(" x ") else {
            // `16d box`, as NDS Table L4 has them.
            let diameter = match rest.split(',').next()? {
                "8d box" => 0.113,
                "16d box" => 0.135,
                "16d common" => 0.162,
                _ => return None,
            };
            return Some(Self { count, diameter, size: rest.to_owned(), rest: String::new() });
        };
        // Wood screws: ASME B18.6.1.
        let diameter = match size.trim_start_matches("No.").trim_start_matches('#') {
            "8" => 0.164,
            "10" => 0.190,
            "12" => 0.216,
            _ => inches(size)?,
        };
        let end = rest.find(['"', 'm']).map(|at| if rest[at..].starts_with("mm") { at + 2 } else { at + 1 })?;
        Some(Self { count, diameter, size: size.to_owned(), rest: rest[end..].to_owned() })
    }

    /// The same at another length.
    pub fn long(&self, length: f64) -> String {
        let length = if self.size.ends_with("mm") { written(length, "mm") } else { written(length, "\"") };
        format!("{} of {} x {length}{}", self.count, self.size, self.rest)
    }
}

/// Dice that fall alike in every run: xorshift, Marsaglia 2003.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// From 0 to below this.
    #[allow(clippy::cast_possible_truncation)]
    pub fn below(&mut self, end: usize) -> usize {
        ((self.next() >> 33) as usize) % end.max(1)
    }

    /// One of several.
    pub fn one<T: Copy>(&mut self, of: &[T]) -> Option<T> {
        of.get(self.below(of.len())).copied()
    }

    /// Between two figures, in sixty-fourths.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        let steps = ((most - least) * 64.0).floor().max(0.0) as usize;
        least + self.below(steps + 1) as f64 / 64.0
    }
}

fn trimmed(text: &str, within: Range<usize>) -> Range<usize> {
    let words = &text[within.clone()];
    let start = within.start + words.len() - words.trim_start().len();
    start..start + words.trim().len()
}

fn kind_of(head: &str) -> (String, String) {
    let two = ["riser board", "riser bar", "space below"].into_iter().find(|two| head.starts_with(two));
    let kind = two.unwrap_or_else(|| head.split(' ').next().unwrap_or(""));
    (kind.to_owned(), head[kind.len()..].trim().to_owned())
}

/// A length of the examples, in inches: `7-1/4"`, `5'-5 1/4"`, `4'`, `175 mm`, `2.7 m`.
pub fn inches(said: &str) -> Option<f64> {
    if let Some(figure) = said.strip_suffix("mm") {
        return Some(figure.trim().parse::<f64>().ok()? / 25.4);
    }
    if let Some(figure) = said.strip_suffix('m') {
        return Some(figure.trim().parse::<f64>().ok()? / 0.0254);
    }
    let (feet, rest) = match said.split_once('\'') {
        Some((feet, rest)) => (feet.parse::<f64>().ok()?, rest.trim_start_matches('-').trim()),
        None => (0.0, said),
    };
    if rest.is_empty() {
        return Some(feet * 12.0);
    }
    let figure = rest.strip_suffix('"')?;
    let fraction = |part: &str| match part.split_once('/') {
        Some((above, below)) => Some(above.parse::<f64>().ok()? / below.parse::<f64>().ok()?),
        None => part.parse().ok(),
    };
    let sum: Option<f64> = figure.split(['-', ' ']).map(fraction).sum();
    Some(feet * 12.0 + sum?)
}

/// A length in the unit of another: sixty-fourths of an inch as a mixed number, or tenths of a millimetre.
#[allow(clippy::cast_possible_truncation)]
pub fn written(length: f64, like: &str) -> String {
    if like.ends_with('m') {
        return format!("{:.1} mm", length * 25.4);
    }
    let parts = (length * 64.0).round() as i64;
    let (whole, mut above, mut below) = (parts / 64, parts % 64, 64);
    while above > 0 && above % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (_, 0) => format!("{whole}\""),
        (0, _) => format!("{above}/{below}\""),
        _ => format!("{whole}-{above}/{below}\""),
    }
}

#[test]
fn lengths_are_read_as_they_are_written() {
    for (said, long) in [("7-1/4\"", 7.25), ("5'-5 1/4\"", 65.25), ("4'", 48.0), ("254 mm", 10.0), ("0.508 m", 20.0)] {
        assert!((inches(said).unwrap() - long).abs() < 1e-9, "{said}");
    }
    for long in [7.0, 7.25, 0.375, 1.0 / 64.0] {
        assert!((inches(&written(long, "\"")).unwrap() - long).abs() < 1e-9);
    }
}
