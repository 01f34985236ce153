//! What is wrong with a waiver.

use super::message::{Describe, Description, Place};
use super::phrase::offered;
use crate::check::WaiverProblem;

impl Describe for WaiverProblem {
    fn describe(&self, _: &Place<'_>) -> Description {
        match self {
            WaiverProblem::Incomplete { rule, why, by } => {
                let lacks = match (why, by) {
                    (true, true) => "neither why nor by whom",
                    (true, false) => "not why",
                    (false, _) => "not by whom",
                };
                Description::new(format!("the waiver of \"{rule}\" says {lacks}, so it does not hold"))
                    .help("State both: `why: \"...\"` and `by: \"...\"`.")
            }
            WaiverProblem::Expired { rule, until, on } => {
                let when = on
                    .map_or_else(|| ", and this check was given no day".to_owned(), |on| format!(", and this is {on}"));
                Description::new(format!("the waiver of \"{rule}\" held until {until}{when}"))
                    .help("Mend what it excused, or have it granted anew with another `until`.")
            }
            WaiverProblem::Unneeded { rule } => Description::new(format!(
                "\"{rule}\" needs no waiver here: nothing breaks it, and nothing leaves it open"
            )),
            WaiverProblem::WithdrawnRule { rule, set, because } => {
                Description::new(format!("{set} withdraws \"{rule}\", so there is nothing to waive: \"{because}\""))
                    .label("a rule that is no longer there")
                    .help("Take it out.")
            }
            WaiverProblem::UnknownRule { rule, set, near } => {
                let of = set.as_ref().map_or_else(
                    || "no set that this stair is checked against".to_owned(),
                    |set| format!("{set} does not"),
                );
                let has = if set.is_some() { "have" } else { "has" };
                Description::new(format!("{of} {has} a rule \"{rule}\" to waive"))
                    .help(offered(near.as_deref(), || {
                        "`pitchboard rules` with a set's name lists its rules.".to_owned()
                    }))
            }
            WaiverProblem::UnknownSet { set, near } => {
                Description::new(format!("this stair is checked against no set called `{set}`"))
                    .help(offered(near.as_deref(), || "Write the title of the set, or leave `set` out.".to_owned()))
            }
            WaiverProblem::NothingCalled { name, near } => {
                Description::new(format!("this waiver stands in nothing that is called `{name}`"))
                    .help(offered(near.as_deref(), || "Name things as a report does: `riser 1, riser 3`.".to_owned()))
            }
            WaiverProblem::FormerRule { was, now } => {
                Description::former_name(&format!("rule \"{was}\""), &format!("\"{now}\""))
            }
            WaiverProblem::Forbidden { rule, set } => {
                let why = set.as_ref().map_or_else(
                    || "a drawing that contradicts itself cannot be excused".to_owned(),
                    |set| format!("{set} forbids it"),
                );
                Description::new(format!("\"{rule}\" cannot be waived: {why}"))
                    .help("Mend what breaks it, and take the waiver out.")
            }
        }
    }
}
