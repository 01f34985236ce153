//! What would settle a value that is not known.

use super::phrase::a;
use crate::derive::{Drawing, FastenerPart, Method, Missing, Need, NoNumber, Reason, Statement, Undefined};
use crate::model::Design;

/// What would settle a value of a design.
pub fn needs(design: &Design, missing: &Missing) -> String {
    need(&Need::of(design, missing))
}

/// What would settle a value.
pub fn need(need: &Need) -> String {
    let of = &need.of;
    match need.reason {
        Reason::NotStated(statement) | Reason::NotUnderstood(statement) => stated(need, statement),
        Reason::BlockNotUnderstood(kind) => format!("the {} block that could not be read", kind.name),
        Reason::NotDrawn(drawing) => drawn(of, drawing),
        Reason::Outside(method) => served(of, method),
        Reason::Beyond(outside) => super::outside::beyond(of, outside),
        Reason::Undefined(quantity, Undefined::WithoutPlace) => format!("a place: `{} 12\"`", quantity.name),
        Reason::Undefined(quantity, Undefined::OtherSort) => format!("`{}` of {of}", quantity.name),
        Reason::Undefined(_, Undefined::Circular) => "less roundabout facts".to_owned(),
        Reason::Undefined(quantity, Undefined::NotFinite) => {
            format!("`{}` of {of}, which is undefined (divided by nothing, or past all bounds)", quantity.name)
        }
        Reason::NoNumber(NoNumber::DividedByNothing) => {
            format!("something to divide by in {of} (what is divided by nothing is undefined)")
        }
        Reason::NoNumber(NoNumber::PastBounds) => {
            format!("figures of {of} that can be worked with (what comes of them is past all bounds)")
        }
        Reason::NoNumber(NoNumber::NoRow) => format!("a row of the rule's table for {of} (none of them holds)"),
        Reason::NoNeighbour(kind) => format!("a {} beside {of}", kind.name),
        Reason::NoSuchClass => {
            let (known, near) = need
                .classes
                .as_ref()
                .map_or((String::new(), None), |classes| (classes.known.join(", "), classes.near.as_deref()));
            let near = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            format!("a `class` of the stair that the set has ({known}{near})")
        }
        Reason::NotMeasured => "what was measured".to_owned(),
    }
}

fn stated(need: &Need, statement: Statement) -> String {
    let of = &need.of;
    let name_of = need.name.as_deref().unwrap_or_default();
    match statement {
        Statement::Property(name) => format!("`{name}` of {of}"),
        Statement::OfBlock(name, kind) => format!("`{name}` of a {} block", kind.name),
        Statement::OneOf(names) => {
            let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
            match quoted.split_last() {
                Some((last, [])) => format!("{last} of {of}"),
                Some((last, others)) => format!("{} or {last} of {of}", others.join(", ")),
                None => of.clone(),
            }
        }
        Statement::GradeOfTimber => format!("the grade in `timber` of {of}"),
        Statement::OfSection(name) => format!("`{name}` of the section of {of}"),
        Statement::OfTimber(name) => format!("`{name}` of timber \"{name_of}\""),
        Statement::OfMember(name, _) => format!("`{name}` of {name_of} in {of}"),
        Statement::OfFasteners(FastenerPart::Length) => format!("the length of the fasteners of {of}"),
        Statement::OfFasteners(FastenerPart::Coating) => format!("the coating of the fasteners of {of}"),
        Statement::LengthOfStrip => "the length of the strip in `finish`".to_owned(),
    }
}

fn drawn(of: &str, drawing: Drawing) -> String {
    match drawing {
        Drawing::A(kind) => a(kind),
        Drawing::TheOne(kind) => format!("the one {} of {of}", kind.name),
        Drawing::RestOfCeiling => format!("a ceiling over the rest of {of}"),
        Drawing::UndersideOfFloor => {
            format!("a `ceiling` that is `part of: floor`, where the well leaves {of} under it")
        }
        Drawing::WellOfFloor => "a `well` in the floor above (or `part of` of a ceiling that is no floor)".to_owned(),
        Drawing::JointThatHolds => format!("the joint that holds {of}"),
        Drawing::PostOnTheWay => format!("a post that `stands: between ends`, and the joint that holds {of} to it"),
        Drawing::LandingAbove => "the landing above".to_owned(),
        Drawing::LandingBelow => "the landing below".to_owned(),
        Drawing::LandingAtDoor => "the landing where it opens".to_owned(),
        Drawing::FlightAtEachEnd => "a flight at each end, or `top` or `bottom` for its name".to_owned(),
        Drawing::FlightBetweenLandings => format!("a flight between {of} and the landing beside it"),
        Drawing::MemberJoined => "the member that is joined".to_owned(),
        Drawing::WindersOfTread => "`winders` that count it".to_owned(),
        Drawing::WhichFlight => format!("{of} drawn within the one of the flights that it belongs to"),
        Drawing::SideOf(kind) => format!("the side that the {} stands at", kind.name),
    }
}

fn served(of: &str, method: Method) -> String {
    match method {
        Method::FlightsInLine => "flights in one line: a stair that turns has no one run".to_owned(),
        Method::ClosedRisers => {
            "a `riser board` (with open risers there is no triangle; judge the opening under the rail by eye)"
                .to_owned()
        }
        Method::OneWayOfSection => "a `through` that is one of the two ways of the section".to_owned(),
        Method::LandingAsWideAsItsSteps => {
            "a wall or a guard beside the steps, at its `near` side or where the next ones leave, or a landing no wider than \
             they are".to_owned()
        }
        Method::StraightStringer => {
            "a stringer in one straight line (one that winds is outside the method: ask a licensed engineer)".to_owned()
        }
        Method::SeveralStringers => {
            "two stringers or more (a single one is outside the method: ask a licensed engineer)".to_owned()
        }
        Method::StringersAlike => {
            "one `stringer` block for all of the flight (what unlike ones leave between them is outside the method)".to_owned()
        }
        Method::TwoSolidStrings => "two solid strings, drawn by one block, that the treads stand between".to_owned(),
        Method::PlateOnIt => format!("a plate of {of} that lies on it"),
        Method::JointOfKnownLoad => {
            format!("the load that goes through {of} (it is outside the method: ask a licensed engineer)")
        }
        Method::ThroughBolts => {
            format!(
                "bolts through {of}, or a `hold-down` (a pull on anything else is outside the method: ask a licensed engineer)"
            )
        }
        Method::TwoRows => {
            format!("a second fastener in {of} (what one alone holds is outside the method: ask a licensed engineer)")
        }
        Method::OnCleats => {
            format!(
                "what holds the cleats or brackets at {of} (what they take is outside the method: their maker says, or a \
                 licensed engineer)"
            )
        }
        Method::PoleAsColumn => {
            format!("what {of} carries (the pole of a spiral is outside the method: ask a licensed engineer)")
        }
        Method::OneLeg => {
            format!("a second leg under {of}, or what a wall carries of it (a beam on one leg is outside the method: ask a \
                 licensed engineer)")
        }
        Method::InfillOfBars => {
            format!(
                "what the infill of {of} takes of 50 lb on a square foot (panels, panes and cables are outside the method: their \
                 maker says, or a licensed engineer)"
            )
        }
        Method::HeldBehind => {
            format!(
                "a `hold-down` at {of} that ties the post to the framing, or what is `behind` its rim and how that is `tied by` \
                 metal (what else keeps a rim from rolling is outside the method: ask a licensed engineer)"
            )
        }
        Method::PlainSection => {
            format!(
                "a round or rectangular section of {of} (a profiled one is outside the method: ask a licensed engineer)"
            )
        }
        Method::GroupInOneLine => {
            format!("fasteners in one line at {of} (how several rows lie in a member that crosses aslant, judge by a sketch)")
        }
        Method::TreadOnNotches => "a tread on the notches of its stringers".to_owned(),
        Method::RoundSection => "a round `section`".to_owned(),
        Method::NumberedScrews => format!("screws by their number in {of}"),
    }
}
