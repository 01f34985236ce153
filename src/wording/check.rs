//! What is wrong with a design before a rule is held against it.

use super::file::refusal;
use super::message::{Describe, Description, Message, Place, ToMessage};
use super::phrase::offered;
use crate::check::{Finding, Problem};

impl Describe for Problem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            Problem::Model(problem) => problem.describe(place),
            Problem::Rules(problem) => problem.describe(place),
            Problem::File(problem) => problem.describe(place),
            Problem::Refused(why) => Description::new(refusal(why)),
            Problem::NoStair => Description::new(format!("`{}` draws no stair", place.source.name)),
            Problem::NoRules { stair } => {
                Description::new(format!("\"{stair}\" asks for no rules, so it was checked against nothing"))
            }
            Problem::NotStocked { shop, name, near, stocked } => {
                Description::new(format!("{shop} does not stock `{name}`"))
                    .help(offered(near.as_deref(), || format!("It stocks {}.", stocked.join(", "))))
            }
        }
    }
}

impl ToMessage for Finding {
    fn to_message(&self) -> Message {
        match self {
            Finding::Reader(diagnostic) => diagnostic.to_message(),
            Finding::Rule(finding) => finding.to_message(),
        }
    }
}
