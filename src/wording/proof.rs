//! What came of a fragment that does not do what it is there for.

use super::need;
use crate::rules::Saw;

/// What came of it.
pub fn saw(saw: &Saw) -> String {
    match saw {
        Saw::Unread(message) => format!("it cannot be read: {message}"),
        Saw::Nothing => "the rule applies to nothing in it".to_owned(),
        Saw::Needs(needs) => format!("it needs {}", need(needs)),
        Saw::Outcomes { kind, passed, failed, needs } => {
            let needs = needs.as_ref().map(|needs| format!(", and it needs {}", need(needs))).unwrap_or_default();
            let things = if *passed == 1 { kind.name } else { kind.plural };
            format!("{passed} {things} passed, {failed} failed{needs}")
        }
    }
}
