//! Has pest read the sets that are shipped, so that the tool need not do so each time it starts: every set of
//! `rulesets/`, and what of it is read on its own. What cannot be read is left out; the tool reads it then, and reports it.
//!
//! `src/syntax/kept.rs` tells how a reading is written, and holds what is written here to what pest reads.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{env, fs};

use grammar::Rule;
use pest::Token;
use pest::iterators::{Pair, Pairs};

#[path = "../src/syntax/grammar.rs"]
mod grammar;

fn main() {
    // What editors are given lies in folders beside these.
    let grammars = ["lexicon", "design", "rules"].map(|name| format!("grammar/{name}.pest"));
    for read in grammars.iter().map(String::as_str).chain(["rulesets", "src/syntax/grammar.rs"]) {
        println!("cargo:rerun-if-changed={read}");
    }
    let (mut rules, mut readings) = (Rules::default(), BTreeMap::new());
    let entries = fs::read_dir("rulesets").expect("the folder of the sets");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry of it").path()).collect();
    paths.sort();
    // An editor may have laid files of its own beside the sets.
    for path in paths.iter().filter(|path| path.extension().is_some_and(|end| end == "rules")) {
        let Ok(text) = fs::read_to_string(path) else { continue };
        let Ok(pairs) = grammar::read(&text, Rule::rules) else { continue };
        for (part, start) in parts(&pairs) {
            if let Ok(pairs) = grammar::read(&part, start) {
                let row = rules.row(&format!("{part:?}"), start, pairs);
                readings.insert((part, start), row);
            }
        }
        let name = path.file_name().expect("a name").to_str().expect("a name in plain letters");
        let included = format!("include_str!(concat!(env!(\"CARGO_MANIFEST_DIR\"), \"/rulesets/{name}\"))");
        let row = rules.row(&included, Rule::rules, pairs);
        readings.insert((text, Rule::rules), row);
    }
    let rules: String = rules.0.iter().map(|rule| format!("    Rule::{rule:?},\n")).collect();
    let readings: String = readings.into_values().collect();
    let tables = format!("static RULES: &[Rule] = &[\n{rules}];\n\nstatic READINGS: &[Reading] = &[\n{readings}];\n");
    let out = env::var_os("OUT_DIR").expect("cargo names a folder");
    fs::write(Path::new(&out).join("readings.rs"), tables).expect("the folder can be written to");
}

/// What is read on its own of a set: its clauses, without the blanks at their ends, the names of its limits, what its
/// tables go by, the values that its sentences put in.
fn parts(set: &Pairs<'_, Rule>) -> Vec<(String, Rule)> {
    let part = |pair: Pair<'_, Rule>| match pair.as_rule() {
        Rule::raw_clause => vec![(pair.as_str().trim_end().to_owned(), Rule::clause)],
        Rule::head => match (pair.as_str().strip_prefix("limit "), pair.as_str().strip_prefix("is by ")) {
            (Some(words), _) => limit(words),
            (None, Some(by)) => goes_by(by),
            (None, None) => Vec::new(),
        },
        Rule::text => values(pair.as_str()),
        _ => Vec::new(),
    };
    set.clone().flatten().flat_map(part).collect()
}

/// The name of a limit, and what its table goes by.
fn limit(words: &str) -> Vec<(String, Rule)> {
    let (name, by) = words.split_once(" by ").map_or((words, None), |(name, by)| (name, Some(by)));
    let name = name.split_once(" formerly ").map_or(name, |(name, _)| name);
    let mut parts = vec![(name.to_owned(), Rule::name)];
    parts.extend(by.into_iter().flat_map(goes_by));
    parts
}

/// What a table goes by: one thing, or two that are joined.
fn goes_by(by: &str) -> Vec<(String, Rule)> {
    let halves = by.split_once(" and ").map(|(first, second)| [first, second]);
    [by].into_iter().chain(halves.into_iter().flatten()).map(|by| (by.to_owned(), Rule::lone_value)).collect()
}

/// The values between the braces of a sentence.
fn values(sentence: &str) -> Vec<(String, Rule)> {
    let places = sentence.split('{').skip(1).filter_map(|rest| rest.split_once('}'));
    let values = places.map(|(place, _)| {
        let value = place.split_once(':').map_or(place, |(value, _)| value).trim();
        (value.strip_suffix("in %").unwrap_or(value).trim().to_owned(), Rule::lone_value)
    });
    values.collect()
}

/// The rules that begin in any reading so far, in the order of their numbers.
#[derive(Default)]
struct Rules(Vec<Rule>);

impl Rules {
    /// A row of the table: a text as Rust writes it, and its reading from a start rule.
    fn row(&mut self, text: &str, start: Rule, pairs: Pairs<'_, Rule>) -> String {
        let events = self.events(pairs).escape_ascii().to_string();
        format!("    Reading {{ text: {text}, start: Rule::{start:?}, events: b\"{events}\" }},\n")
    }

    fn events(&mut self, pairs: Pairs<'_, Rule>) -> Vec<u8> {
        let (mut events, mut before) = (Vec::new(), 0);
        for token in pairs.tokens() {
            let (rule, at) = match token {
                Token::Start { rule, pos } => (self.number(rule), pos.pos()),
                Token::End { pos, .. } => (0, pos.pos()),
            };
            events.push(rule);
            let mut bytes = at - before;
            while bytes >= 0x80 {
                events.push(bytes as u8 | 0x80);
                bytes >>= 7;
            }
            events.push(bytes as u8);
            before = at;
        }
        events
    }

    /// Counted from one.
    fn number(&mut self, rule: Rule) -> u8 {
        let known = self.0.iter().position(|known| *known == rule);
        let place = known.unwrap_or(self.0.len());
        if known.is_none() {
            self.0.push(rule);
        }
        u8::try_from(place + 1).expect("fewer rules than a byte can number")
    }
}
