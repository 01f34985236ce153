//! Prints the dictionary of the fuzz targets: the words of both languages, as the tables of the library have them.

use std::collections::BTreeSet;

use pitchboard::check::BUILT_IN;
use pitchboard::derive::{Gives, quantities};
use pitchboard::model::{KINDS, Takes};

/// What the grammars write out: words that are in no table, signs and units.
const GRAMMAR: &[&str] = &[
    "each ",
    "where ",
    "shall have ",
    "should have ",
    "and ",
    "or ",
    "not ",
    "of ",
    "is ",
    "is one of ",
    "along ",
    "number of ",
    "largest change of ",
    "largest ",
    "smallest ",
    "total ",
    "lesser of ",
    "greater of ",
    "limit ",
    "source:",
    "because:",
    "sure: memory",
    "waive: never",
    "passes:",
    "fails:",
    "spares:",
    "amends:",
    "basis:",
    "edition:",
    "caution:",
    "ruleset \"s\" {",
    "chapter \"c\" {",
    "rule \"r\" {",
    "amend \"r\" {",
    "withdraw \"r\"",
    "figure \"f\" {",
    "amend figure \"f\" {",
    "is: ",
    "is by ",
    " by ",
    " formerly ",
    "formerly: \"r\"",
    "formerly limit: \"l\"",
    "for: ",
    "classes: ",
    "says: \"{element} is {value}, {verb} be {asked}\"",
    "where: always",
    "verb: should",
    " otherwise",
    " up to ",
    " over ",
    " for dwelling and up to ",
    "read between",
    "unless ",
    "deviation of ",
    "drawn ",
    "measured ",
    "riser before",
    "last riser",
    "<=",
    ">=",
    "!=",
    "≤",
    "≥",
    "≠",
    "×",
    "÷",
    "½",
    "⅜",
    "⅔",
    "″",
    "′",
    "”",
    "“",
    "’",
    "⁄",
    "°",
    "№ ",
    "No.10",
    "#10",
    "16d",
    " every ",
    " mm",
    " cm",
    " m",
    " in",
    " ft",
    " sq in",
    " mm²",
    " lb",
    " kN",
    " kN/m",
    " psf",
    " psi",
    " plf",
    " kPa",
    " MPa",
    " deg",
    "%",
    "1 in 48",
    "0,5 mm",
    "1,000 mm",
    "4 of 7\"",
    "2x12",
    "1-1/2\" x 11-1/4\"",
    "3'-6\"",
    "1/0\"",
    "99999999999999'",
    "5000 of ",
    "radius 3/8\"",
    "bevel 1/2\"",
    "round 1-1/2\"",
    "2x2 every 5\"",
    "2 of 3/8\" x 6\" carriage, galvanised",
    "southern pine No.2, treated",
    "2026-05-04",
    "newel to stringer",
    "left, right",
    "\u{feff}",
    "\u{a0}",
    "\r\n",
    "\u{202e}",
    "\t",
    "梯",
    "🪵",
    "e\u{301}",
];

fn main() {
    let mut words: BTreeSet<String> = GRAMMAR.iter().map(|word| (*word).to_owned()).collect();
    words.extend(BUILT_IN.iter().map(|(name, _)| (*name).to_owned()));
    for kind in KINDS {
        words.insert(format!("{} {{", kind.opens));
        words.insert(kind.name.to_owned());
        words.insert(kind.plural.to_owned());
        words.insert(kind.example.to_owned());
        for property in kind.properties {
            words.insert(format!("{}: ", property.name));
            if let Takes::OneOf(known) | Takes::SomeOf(known) = property.takes {
                words.extend(known.iter().map(|word| (*word).to_owned()));
            }
        }
    }
    for entry in quantities() {
        words.insert(entry.name.to_owned());
        if let Gives::Word(known) = entry.gives {
            words.extend(known.iter().map(|word| (*word).to_owned()));
        }
    }
    for word in words.iter().filter(|word| !word.is_empty()) {
        println!("\"{}\"", escaped(word));
    }
}

/// As libFuzzer reads it: printable ASCII as it is, the rest by its bytes.
fn escaped(word: &str) -> String {
    let mut out = String::new();
    for byte in word.bytes() {
        match byte {
            b'"' | b'\\' => out.extend(['\\', char::from(byte)]),
            b' '..=b'~' => out.push(char::from(byte)),
            _ => out += &format!("\\x{byte:02X}"),
        }
    }
    out
}
