//! What would pass, in a sentence.

use super::phrase::{self, a};
use crate::check::{Drawn, Fix, Offer, RuleRef};
use crate::measure::print;
use crate::rules::{Rule, clause_text};

/// What to write or to draw, and what would then be broken.
pub(super) fn help(fix: &Fix, rule: &Rule) -> String {
    let offered = offer(&fix.offer, rule);
    match fix.then_breaks.as_slice() {
        [] => offered,
        others => format!("{offered} Then {}.", then(others)),
    }
}

/// What would be broken, or advised of, after the change.
fn then(others: &[RuleRef]) -> String {
    let (required, advised): (Vec<&RuleRef>, Vec<&RuleRef>) = others.iter().partition(|other| other.rule().shall);
    let named = |others: &[&RuleRef]| {
        let names: Vec<String> = others.iter().map(|other| format!("\"{}\"", other.rule().name)).collect();
        phrase::all_of(&names)
    };
    match (required.as_slice(), advised.as_slice()) {
        (required, []) => format!("{} would be broken", named(required)),
        ([], advised) => format!("{} would be advised of", named(advised)),
        (required, advised) => format!("{} would be broken, and {} advised of", named(required), named(advised)),
    }
}

fn offer(offer: &Offer, rule: &Rule) -> String {
    match offer {
        Offer::Value { property, value } => format!("`{property}: {value}` would pass."),
        Offer::Item(size) => format!("`{}` there would pass.", print(*size)),
        Offer::Steps { property, list, runs } => {
            let runs = runs.map(|runs| format!(", with {runs} runs")).unwrap_or_default();
            format!("`{property}: {list}`{runs} would pass.")
        }
        Offer::BalusterSpacing { width, every } => {
            format!("Balusters of {} every `{}` would pass.", print(*width), print(*every))
        }
        Offer::BalusterCount(count) => format!("`{count}` of these balusters would pass."),
        Offer::FastenerLength { property, length } => {
            format!("{} `{}` long would pass.", capital(property.text()), print(*length))
        }
        Offer::Draw { kind, how } => match how {
            Drawn::Example(example) => format!("Draw {}, for example `{example}`.", a(kind)),
            Drawn::AtPlace(example) => format!("Draw one, for example `{example}`."),
            Drawn::Stating(property, word) => {
                format!("Draw {}, for example `{} {{ {property}: {word} }}`.", a(kind), kind.opens)
            }
            Drawn::Where(condition) => format!("Draw {} where {}.", a(kind), clause_text(condition, rule)),
        },
        Offer::Both(first, second) => both(first, second, rule),
        Offer::TreatedTimber => {
            "Take it treated, as `southern pine No.2, treated` is, or take a timber that lasts where it stands."
                .to_owned()
        }
        Offer::Coating(words) => format!("End it with a coating: {}.", words.join(" or ")),
        Offer::RoundedEdge => "For example `edge: radius 3/8\"`.".to_owned(),
    }
}

/// Two changes of which neither serves alone: `a` and `b` would pass together.
fn both(first: &Offer, second: &Offer, rule: &Rule) -> String {
    let one = |change: &Offer| {
        if let Offer::Draw { how: Drawn::Example(example) | Drawn::AtPlace(example), .. } = change {
            return format!("`{example}` drawn");
        }
        let words = offer(change, rule);
        words.strip_suffix(" would pass.").map_or_else(|| words.trim_end_matches('.').to_owned(), str::to_owned)
    };
    format!("{}, and {}, would pass together.", one(first), one(second))
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
