//! What is wrong with a set's file as a whole.

use super::file::refusal;
use super::message::{Describe, Description, Place};
use super::phrase::{did_you_mean, does, is_many, marked, offered};
use crate::rules::Purpose;
use crate::rules::problem::{BlockKind, LineMeant, MoreNames, SetProblem};

const IN_A_RULE: &str = "It stands between the braces of the rule: `rule \"low risers\" { ... }`.";
const MADE_OF: &str =
    "A ruleset is made of `ruleset \"name\" { }`, `chapter`, `figure`, `rule`, `amend` and `withdraw`.";

impl Describe for SetProblem {
    fn describe(&self, _: &Place<'_>) -> Description {
        match self {
            SetProblem::PropertyOutside { name, of_heading } => {
                let heading = "It stands in the heading: `ruleset \"Our county\" { ... }`.";
                Description::new(format!("`{name}` stands outside of any rule")).help(if *of_heading {
                    heading
                } else {
                    IN_A_RULE
                })
            }
            SetProblem::ChapterProperty { name } => Description::new(format!("a chapter has no property `{name}`"))
                .help("A chapter holds rules; what is said of a rule stands in it."),
            SetProblem::NotAStatement(meant) => Description::new("this line is no statement").help(instead(meant)),
            SetProblem::ClauseOutside => Description::new("a clause stands outside of any rule").help(IN_A_RULE),
            SetProblem::ConditionOutside => Description::new("`where` stands outside of any rule")
                .help("It stands in an amendment: `amend \"riser height\" { where: ... }`."),
            SetProblem::FragmentOutside => Description::new("an example stands outside of any rule").help(IN_A_RULE),
            SetProblem::UnknownBlock { word, title: Some(title), .. } => {
                let title = if title.is_empty() { "the title of the set" } else { title };
                Description::new(format!("`{word}` does not begin a set"))
                    .help(format!("A set begins with its heading: write `ruleset \"{title}\" {{`."))
            }
            SetProblem::UnknownBlock { word, near, .. } => {
                Description::new(format!("`{word}` is no part of a ruleset"))
                    .help(offered(*near, || MADE_OF.to_owned()))
            }
            SetProblem::SeveralNames { block, more } => several_names(*block, *more),
            SetProblem::Unnamed { block } => Description::new(format!("this {} goes by no name", block.word()))
                .help(format!("Write `{} \"riser height\" {{`.", block.word())),
            SetProblem::SecondHeading { first } => {
                Description::new("a set has one heading; this is a second").beside(*first, "the first")
            }
            SetProblem::HeadingProperty { name, near } => {
                Description::new(format!("a ruleset has no property `{name}`")).help(offered(*near, || {
                    "A ruleset takes basis, edition, caution, for, classes, amends.".to_owned()
                }))
            }
            SetProblem::TitleOfBelow { title } => {
                Description::new(format!("the set that this one takes in is called \"{title}\" too"))
                    .help("Give it a name of its own, so that a report can tell the two apart.")
            }
            SetProblem::TitleOfShipped { title, shipped } => {
                Description::new(format!("this set is called \"{title}\", as the shipped set `{shipped}` is"))
                    .help("Give it a title of its own, so that a report can tell the two apart.")
            }
            SetProblem::HeldAlways => Description::new("the set `drawing` is held with every design as it stands")
                .help("Amend another one, or none: nothing has to take `drawing` in."),
            SetProblem::SeveralBases => Description::new("a set amends one other")
                .help("Amend one that amends the other, or let a design ask for both."),
            SetProblem::Refused(why) => Description::new(refusal(why)),
            SetProblem::Circle { sets } => Description::new(circle(sets)),
            SetProblem::NotARuleset => Description::new(
                "this file is no ruleset: nothing in it opens with `ruleset`, `chapter`, `rule`, `amend` or `withdraw`",
            ),
            SetProblem::TooDeep { name } => {
                Description::new(format!("`{name}` is the seventeenth set of a chain of sets that amend one another"))
            }
            SetProblem::RuleTwice { name, first } => taken(name).beside(*first, "named here first"),
            SetProblem::RuleOfBelow { name, set } => taken(name).help(format!(
                "It came with {set}. `amend \"{name}\" {{ }}` changes it; to put this one in its place, `withdraw` it \
                 first."
            )),
            SetProblem::AsksNothing { withdrawn: 0 } => Description::new("this set holds no rule, so it asks nothing"),
            SetProblem::AsksNothing { withdrawn } => Description::new(format!(
                "this set withdraws all {withdrawn} rules that it takes in, so it asks nothing"
            )),
            SetProblem::Purpose { said, near } => {
                let all = || format!("It is one or more of {}.", Purpose::ALL.map(Purpose::word).join(", "));
                Description::new(format!("`{said}` is nothing that a set is for")).help(offered(*near, all))
            }
            SetProblem::NoClause { rule } => Description::new(format!("rule \"{rule}\" asks for nothing")),
            SetProblem::NoSource { rule } => Description::new(format!("rule \"{rule}\" names no source")),
            SetProblem::LimitHides { limit, kind } => Description::new(format!(
                "{} a `{limit}` of {} own; the limit hides it",
                does(kind, "has", "have"),
                if is_many(kind) { "their" } else { "its" }
            ))
            .help("Give the limit another name, such as `least` or `most`."),
            SetProblem::NoFigure { figure } => Description::new(format!("figure \"{figure}\" states no figure"))
                .help(format!("Write `figure \"{figure}\" {{ is: 36\" }}`.")),
            SetProblem::FigureTwice { figure, set } => {
                Description::new(format!("a figure \"{figure}\" is in the set already, from {set}"))
                    .help(format!("`amend figure \"{figure}\" {{ is: ... }}` moves it."))
            }
            SetProblem::NoSuchFigure { figure, own: Some(own), .. } => {
                Description::new(format!("figure \"{figure}\" is this set's own"))
                    .label("a figure of this very set")
                    .help("Change it where it stands.")
                    .beside(*own, "written here")
            }
            SetProblem::NoSuchFigure { figure, near, known, own: None } => {
                Description::new(format!("no set below has a figure \"{figure}\""))
                    .label("no figure has this name")
                    .help(offered(near.as_deref(), || match known.as_slice() {
                        [] => "None has any; `figure` without `amend` writes a new one.".to_owned(),
                        known => format!("They have {}; `figure` without `amend` writes a new one.", marked(known)),
                    }))
            }
            SetProblem::FormerFigure { was, now } => {
                Description::former_name(&format!("figure \"{was}\""), &format!("\"{now}\""))
            }
            SetProblem::FormerNameTaken { name, now } => {
                let said = match now {
                    true => format!("a rule of the set goes by \"{name}\" now"),
                    false => format!("another rule of the set went by \"{name}\" too"),
                };
                Description::new(said).help("One name can lead to one thing only: take it out here.")
            }
            SetProblem::UnusedFigure { figure } => Description::new(format!("figure \"{figure}\" is never read"))
                .label("no rule reads it")
                .help("Let a clause name it, or take it out."),
            SetProblem::UnusedLimit { limit } => Description::new(format!("limit `{limit}` is never read")),
        }
    }
}

fn taken(name: &str) -> Description {
    Description::new(format!("a rule \"{name}\" is in the set already"))
}

/// What to write in place of a line outside any rule that is no statement.
fn instead(meant: &LineMeant) -> String {
    match meant {
        LineMeant::Block(kind, name) => {
            let name = name.as_deref().unwrap_or("...");
            let follows = if *kind == BlockKind::Withdraw { "{ because: \"struck by section 3\" }" } else { "{" };
            format!("A block has braces: `{} \"{name}\" {follows}`.", kind.word())
        }
        LineMeant::Near(near) => did_you_mean(near),
        LineMeant::Unknown => MADE_OF.to_owned(),
    }
}

fn several_names(block: BlockKind, more: MoreNames) -> Description {
    let word = block.word();
    let article = if block == BlockKind::Amend { "an" } else { "a" };
    let help = match more {
        MoreNames::Listed => format!("Write {article} `{word}` of its own for each name."),
        MoreNames::Unquoted => "Put all of it in one pair of quotes.".to_owned(),
    };
    Description::new(format!("{article} {word} has one name")).help(help)
}

fn circle(sets: &[String]) -> String {
    let names: Vec<String> = sets.iter().map(|name| format!("`{name}`")).collect();
    match names.as_slice() {
        [only] => format!("{only} amends itself"),
        [first, rest @ ..] => format!(
            "these sets amend one another in a circle: {first} amends {}, which amends {first}",
            rest.join(", which amends ")
        ),
        [] => String::new(),
    }
}
