//! One figure of a working, as a line.

use crate::handbook::{Certainty, Cited};
use crate::mechanics::Step;

/// Its formula and value, what it is, and where it is from.
pub fn step(step: &Step) -> String {
    let symbol = step.symbol();
    let formula = match (step.decides, step.formula()) {
        (Some(decides), _) => format!(" = {decides}, the least of them"),
        (None, Some(formula)) => format!(" = {formula}"),
        (None, None) => String::new(),
    };
    let part = if step.part.is_empty() { String::new() } else { format!("{}, ", step.part) };
    format!("{symbol}{formula} = {}; {part}{} ({})", step.value.text(), step.name, from(&step.cited))
}

/// Where a figure is from, and how sure it is.
pub fn from(cited: &Cited) -> String {
    if cited.certainty == Certainty::Stated {
        // A method is handed what the drawing states and what was worked before it alike.
        return "by the drawing, or from above".to_owned();
    }
    let edition = if cited.edition.is_empty() { String::new() } else { format!(", {}", cited.edition) };
    let sure = match cited.certainty {
        Certainty::Memory => ", from memory",
        Certainty::Reproduced => ", from memory, and a printed table comes out by it",
        Certainty::Derived | Certainty::Seen | Certainty::Stated => "",
    };
    format!("{}{edition}{sure}", cited.source)
}
