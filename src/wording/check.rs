//! What is wrong with a design before a rule is held against it.

use super::file::refusal;
use super::message::{Describe, Description, Message, Place, ToMessage};
use super::phrase::{either, offered};
use crate::check::{Finding, Problem};
use crate::rules::Purpose;

impl Describe for Problem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            Problem::Model(problem) => problem.describe(place),
            Problem::Rules(problem) => problem.describe(place),
            Problem::File(problem) => problem.describe(place),
            Problem::Refused(why) => Description::new(refusal(why)),
            Problem::NoStair => Description::new(format!("`{}` draws no stair", place.source.name)),
            Problem::NoRules { stair, fits } => {
                let help = (!fits.is_empty()).then(|| {
                    format!("By what it says of itself {} would fit: `rules: {}`.", either(fits), either_first(fits))
                });
                Description::new(format!("\"{stair}\" asks for no rules, so it was checked against nothing"))
                    .maybe_help(help)
            }
            Problem::OtherPurpose { property, purpose, fits } => {
                let (said, purpose) = (place.quote(), purpose.map(purpose_words).unwrap_or_default());
                Description::new(format!(
                    "`{property}: {said}` says {purpose}; no set that it is checked against is for one"
                ))
                .help(format!("Of the sets that come with the tool {} would fit.", either(fits)))
            }
            Problem::MeasuredAhead { today } => Description::new(format!(
                "{} is still to come: it is {today}, so nothing was measured then",
                place.quote()
            ))
            .help("Write the day on which the work was measured.".to_owned()),
            Problem::Waiver(problem) => problem.describe(place),
            Problem::NotStocked { shop, name, near, stocked } => {
                Description::new(format!("{shop} does not stock `{name}`"))
                    .help(offered(near.as_deref(), || format!("It stocks {}.", stocked.join(", "))))
            }
        }
    }
}

fn either_first<'n>(names: &[&'n str]) -> &'n str {
    names.first().copied().unwrap_or_default()
}

fn purpose_words(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Dwelling => "a stair of a household",
        Purpose::Shared => "a stair that several households share",
        Purpose::Public => "a stair for more than a household",
        Purpose::Workplace => "a stair of a work place",
        Purpose::Accessible => "a stair that has to be accessible",
        Purpose::Any => "any stair",
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
