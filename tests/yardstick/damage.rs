//! Damage to a text as a keyboard, a careless paste and a torn file do it, the same for the same seed.

/// What a keyboard and a careless paste give.
const HOSTILE: &[&str] = &[
    "\u{0}",
    "\u{1b}[31m",
    "\u{7}",
    "\u{202e}",
    "\u{2066}",
    "\u{feff}",
    "\r",
    "\r\n",
    "\t",
    "\u{a0}",
    "\u{2028}",
    "\"",
    "“",
    "”",
    "'",
    "{",
    "}",
    "{{{",
    "}}}",
    "(",
    ")",
    ";",
    ":",
    ",",
    "#",
    "#1",
    "\\\"",
    "\\",
    "½",
    "⅜",
    "é",
    "e\u{301}",
    "梯",
    "🪵",
    "👩‍🔧",
    "1/0\"",
    "99999999999999'",
    "1e308",
    "-",
    "--",
    "4 of",
    "0 of 7\"",
    "100000000 of 7\"",
    "7\"",
    "3'-6\"",
    "187 mm",
    "\n",
    "\n\n",
    "   ",
    "`",
    "—",
    "×",
    "°",
    "%",
];

/// Words and figures of both languages.
const WORDS: &[&str] = &[
    "stair",
    "flight",
    "landing",
    "top",
    "handrail",
    "guard",
    "left",
    "right",
    "left, right",
    "joint",
    "in newel",
    "tread",
    "riser board",
    "post",
    "measured",
    "timber",
    "section",
    "risers",
    "runs",
    "width",
    "height",
    "nosing",
    "balusters",
    "bolts",
    "edge",
    "slope",
    "rules",
    "residential",
    "workshop",
    "along",
    "stringer",
    "newel",
    "door",
    "setting",
    "outdoors",
    "4 of 7\"",
    "3 of 10-1/4\"",
    "7\", 6-15/16\"",
    "36\"",
    "1 in 48",
    "2%",
    "30°",
    "2x12",
    "1-1/2\" x 11-1/4\"",
    "round 1-1/2\"",
    "2x2 every 5\"",
    "2 of 3/8\" x 6\" carriage, galvanised",
    "No.10",
    "16d",
    "x",
    "to",
    "of",
    "is",
    "each",
    "where",
    "shall have",
    "should have",
    "<=",
    ">=",
    "=",
    "number of risers",
    "largest change of height along risers",
    "limit",
    "rule \"r\" {",
    "chapter \"c\" {",
    "ruleset \"s\" {",
    "passes:",
    "fails:",
    "spares:",
    "amend",
    "withdraw",
    "because:",
    "source: \"x\"",
    "amends: residential",
    "# a comment",
    "\"text\"",
    "+",
    "*",
    "lesser of",
    "greater of",
    "and",
    "or",
    "not",
    "yes",
    "no",
    "none",
];

/// SplitMix64 (Steele, Lea, Flood 2014).
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From 0 to below this.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }

    pub fn one<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }
}

/// The text with one to four damages.
pub fn damaged(text: &str, random: &mut Random) -> String {
    let mut text = text.to_owned();
    for _ in 0..1 + random.below(4).min(random.below(4)) {
        text = damage(&text, random);
    }
    text
}

/// Cut, double, swap or replace a piece, of a few characters, of words or of lines; or slip.
fn damage(text: &str, random: &mut Random) -> String {
    let mut pieces: Vec<&str> = match random.below(3) {
        0 => text.split_inclusive('\n').collect(),
        1 => words(text),
        _ => text.char_indices().map(|(at, c)| &text[at..at + c.len_utf8()]).collect(),
    };
    if pieces.is_empty() {
        return random.one(WORDS).to_owned();
    }
    let at = random.below(pieces.len());
    let length = 1 + random.below(12).min(random.below(12)).min(pieces.len() - at - 1);
    let end = at + length.min(pieces.len() - at);
    match random.below(20) {
        0..3 => drop(pieces.drain(at..end)),
        3..5 => {
            let copy = pieces[at..end].to_vec();
            pieces.splice(end..end, copy);
        }
        5..7 => {
            let other = random.below(pieces.len());
            pieces.swap(at, other);
        }
        7..9 => pieces[at] = random.one(HOSTILE),
        9 => pieces.insert(at, random.one(HOSTILE)),
        10 => drop(pieces.splice(at..at, [random.one(WORDS), " "])),
        11..13 => return reworded(text, random, |_, random| random.one(WORDS).to_owned()),
        13..15 => return reworded(text, random, slip),
        // Figures that can be, and may break a rule.
        15..19 => return refigured(text, random),
        _ => {
            // A file that breaks off, once in a while.
            if random.below(4) == 0 {
                pieces.truncate(at);
            }
        }
    }
    pieces.concat()
}

/// Runs of letters and figures, and what stands between them.
fn words(text: &str) -> Vec<&str> {
    let mut words = Vec::new();
    let mut start = 0;
    let mut inside = false;
    for (at, c) in text.char_indices() {
        if at > start && (c.is_alphanumeric() != inside || !inside) {
            words.push(&text[start..at]);
            start = at;
        }
        inside = c.is_alphanumeric();
    }
    words.push(&text[start..]);
    words
}

fn replaced(
    text: &str,
    random: &mut Random,
    wanted: fn(&str) -> bool,
    new: impl Fn(&str, &mut Random) -> String,
) -> String {
    let pieces = words(text);
    let found: Vec<usize> = (0..pieces.len()).filter(|at| wanted(pieces[*at])).collect();
    if found.is_empty() {
        return text.to_owned();
    }
    let at = found[random.below(found.len())];
    let new = new(pieces[at], random);
    pieces.iter().enumerate().map(|(index, piece)| if index == at { new.as_str() } else { *piece }).collect()
}

fn reworded(text: &str, random: &mut Random, new: impl Fn(&str, &mut Random) -> String) -> String {
    replaced(text, random, |word| word.starts_with(char::is_alphabetic), new)
}

/// A letter too many, too few, another, or two that changed places.
fn slip(word: &str, random: &mut Random) -> String {
    let mut letters: Vec<char> = word.chars().collect();
    let at = random.below(letters.len());
    let letter = char::from(b'a' + random.below(26) as u8);
    match random.below(4) {
        0 => letters.insert(at, letter),
        1 => drop(letters.remove(at)),
        2 => letters[at] = letter,
        _ => {
            let next = (at + 1) % letters.len();
            letters.swap(at, next);
        }
    }
    letters.into_iter().collect()
}

fn refigured(text: &str, random: &mut Random) -> String {
    replaced(
        text,
        random,
        |word| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit()),
        |word, random| {
            let figure: u64 = word.parse().unwrap_or(1);
            let new = match random.below(6) {
                0 => figure + 1,
                1 => figure.saturating_sub(1),
                2 => figure * 2,
                3 => figure / 2,
                4 => random.below(100) as u64,
                _ => figure + random.below(8) as u64,
            };
            new.to_string()
        },
    )
}
