//! Readings of the texts that are shipped, which the build script had pest make: a set, each of its clauses, each name
//! of a limit, each value that a table goes by or a sentence puts in. A text that is the same, byte for byte, need not be read again.
//!
//! A reading is kept as its events: for each the place in `RULES` of the rule that begins, counted from one, or nought
//! where a rule ends; then how many bytes of text lie between it and the event before, seven bits a byte, the low ones
//! first, the high bit set in all but the last.

use pest::Token;

use super::grammar::Rule;

/// One event: a rule begins or ends, at a byte of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// This rule begins here.
    Begin(Rule, usize),
    /// The innermost rule that is open ends here.
    End(usize),
}

impl From<Token<'_, Rule>> for Step {
    fn from(token: Token<'_, Rule>) -> Self {
        match token {
            Token::Start { rule, pos } => Step::Begin(rule, pos.pos()),
            Token::End { pos, .. } => Step::End(pos.pos()),
        }
    }
}

/// The reading of a text from a start rule.
pub struct Reading {
    text: &'static str,
    start: Rule,
    events: &'static [u8],
}

// `RULES`, the rules that begin in them, and `READINGS`, all of them in the order of their texts, those of one text by their start rules.
include!(concat!(env!("OUT_DIR"), "/readings.rs"));

/// The events of the text's reading, if it is kept.
pub fn reading(text: &str, start: Rule) -> Option<Kept> {
    let sought = |kept: &Reading| kept.text.cmp(text).then(kept.start.cmp(&start));
    let kept = READINGS.binary_search_by(sought).ok().and_then(|at| READINGS.get(at))?;
    Some(Kept { rest: kept.events, at: 0 })
}

/// The events of a reading that are still to come.
pub struct Kept {
    rest: &'static [u8],
    at: usize,
}

impl Iterator for Kept {
    type Item = Step;

    #[inline]
    fn next(&mut self) -> Option<Step> {
        let (rule, mut rest) = self.rest.split_first()?;
        match rest {
            // Most lie near the one before.
            [byte @ ..0x80, after @ ..] => {
                self.at += usize::from(*byte);
                rest = after;
            }
            _ => {
                let mut shift = 0;
                while let Some((byte, after)) = rest.split_first() {
                    rest = after;
                    self.at += usize::from(byte & 0x7f) << shift;
                    shift += 7;
                    if *byte < 0x80 {
                        break;
                    }
                }
            }
        }
        self.rest = rest;
        match rule.checked_sub(1) {
            Some(place) => RULES.get(usize::from(place)).map(|rule| Step::Begin(*rule, self.at)),
            None => Some(Step::End(self.at)),
        }
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::super::{Item, Tree, grammar, parse_rules};
    use super::*;
    use crate::base::Source;

    #[test]
    fn what_is_kept_is_what_pest_reads() {
        for pair in READINGS.windows(2) {
            assert!(
                (pair[0].text, pair[0].start) < (pair[1].text, pair[1].start),
                "no look-up finds what stands out of order"
            );
        }
        for kept in READINGS {
            let events: Vec<Step> = reading(kept.text, kept.start).expect("it is kept").collect();
            assert!(events.len() > 3, "{}", kept.text);
            let pairs = grammar::read(kept.text, kept.start).expect("it reads");
            assert!(events.iter().copied().eq(pairs.tokens().map(Step::from)), "{}", kept.text);
        }
    }

    /// What is read on its own of a set.
    fn parts(items: &[Item], tree: &Tree, found: &mut Vec<(String, Rule)>) {
        for item in items {
            match item {
                Item::Block { body, .. } => parts(body, tree, found),
                Item::Clause(span) => found.push((tree.source.slice(*span).to_owned(), Rule::clause)),
                Item::Property { name, .. } => {
                    let limit = name.strip_prefix("limit ").or(name.starts_with("is by ").then_some(name.as_str()));
                    let Some(limit) = limit else { continue };
                    let (limit, by) = limit.split_once(" by ").unwrap_or((limit, ""));
                    let limit = limit.split_once(" formerly ").map_or(limit, |(limit, _)| limit);
                    found.extend((limit != "is").then(|| (limit.to_owned(), Rule::name)));
                    // What goes by two things is read in two parts.
                    let by = by.split(" and ").filter(|by| !by.is_empty());
                    found.extend(by.map(|by| (by.to_owned(), Rule::lone_value)));
                }
                _ => {}
            }
        }
    }

    #[test]
    fn every_shipped_set_is_kept_and_what_is_read_on_its_own() {
        let sets = Path::new(env!("CARGO_MANIFEST_DIR")).join("rulesets");
        let mut kept: Vec<Rule> = Vec::new();
        for entry in std::fs::read_dir(sets).expect("a folder") {
            let path = entry.expect("an entry").path();
            // Tables lie in a folder beside the sets.
            if path.extension().is_none_or(|end| end != "rules") {
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("a text");
            assert!(reading(&text, Rule::rules).is_some(), "{}", path.display());
            let (tree, _) = parse_rules(&Source::new("set", &text));
            let mut found = Vec::new();
            parts(&tree.items, &tree, &mut found);
            for (part, start) in found {
                assert!(reading(&part, start).is_some(), "{}: {part}", path.display());
                kept.push(start);
            }
        }
        for (start, least) in [(Rule::clause, 200), (Rule::name, 200), (Rule::lone_value, 4)] {
            let many = kept.iter().filter(|kept| **kept == start).count();
            assert!(many > least, "{many} of {start:?}");
        }
        // The values of sentences, besides.
        let values = READINGS.iter().filter(|kept| kept.start == Rule::lone_value).count();
        assert!(values > 40, "{values} values");
    }

    #[test]
    fn another_text_and_another_start_rule_have_none() {
        let kept = READINGS.iter().find(|kept| kept.start == Rule::clause).expect("a clause");
        assert!(reading(&format!("{} ", kept.text), Rule::clause).is_none());
        assert!(reading(&kept.text[1..], Rule::clause).is_none());
        assert!(reading(kept.text, Rule::rules).is_none());
        assert!(reading("", Rule::rules).is_none());
    }
}
