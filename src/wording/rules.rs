//! What is wrong with a ruleset: what stands in its blocks, and what it changes of the set below.

use super::fault;
use super::message::{Describe, Description, Place};
use super::phrase::{as_a_length, did_you_mean, marked, offered, sort};
use super::proof;
use super::syntax::impossible;
use crate::base::{Source, limits};
use crate::measure::{Dimension, Measure, Style, print};
use crate::rules::problem::{
    AmendmentProblem, BesideFault, BlockKind, BlockProblem, Holder, PropertyMeant, StatementMeant, TableFault,
    Withdrawer,
};
use crate::rules::{Own, Part, Problem};

const TAKE_IT_OUT: &str = "A withdrawal says only why, with `because:`.";
const A_CLAUSE: &str = "`each KIND shall have CONDITION`, such as `each riser shall have height <= 7\"`";

impl Describe for Problem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            Problem::Syntax(problem) => problem.describe(place),
            Problem::Set(problem) => problem.describe(place),
            Problem::Block(problem) => problem.describe(place),
            Problem::Amendment(problem) => problem.describe(place),
            Problem::Clause(problem) => problem.describe(place),
            Problem::Unsound { fault, amended, against } => fault::describe(fault, *amended, *against),
            Problem::OutOfProportion { settles, words, limits } => fault::out_of_proportion(*settles, words, limits),
            Problem::Unproven { rule, kind, otherwise } => proof::unproven(rule, *kind, otherwise),
            Problem::NotNoticed { rule, altered } => proof::not_noticed(rule, altered),
            Problem::UnprovenAmendment { rule, lacks } => proof::unproven_amendment(rule, *lacks),
        }
    }
}

impl Describe for BlockProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            BlockProblem::StatedTwice { name, first } => {
                Description::new(format!("`{name}` is stated twice")).beside(*first, "stated here first")
            }
            BlockProblem::NothingStated { name } => Description::new(format!("`{name}` states nothing")),
            BlockProblem::WithdrawalProves => Description::new("a withdrawal proves nothing").help(TAKE_IT_OUT),
            BlockProblem::FigureProves { figure } => {
                Description::new("an example shows what a rule comes to, and a figure is none").help(format!(
                    "Put it into an `amend` of a rule that reads `{figure}`: `amend \"RULE\" {{ passes: ... }}` needs no more."
                ))
            }
            BlockProblem::FigureAsks => Description::new("a figure asks for nothing")
                .help("Write a `rule` whose clause reads it by its name."),
            BlockProblem::WithdrawalAsks => Description::new("a withdrawal asks for nothing").help(TAKE_IT_OUT),
            BlockProblem::SecondClause { first } => Description::new("a rule has one clause; this is a second")
                .help("Give it a rule of its own.")
                .beside(*first, "the first"),
            BlockProblem::AlwaysAlone { rest } => {
                let without = match rest.strip_prefix("unless ") {
                    Some(spared) => format!("Write `where: not ({spared})`: always but for that."),
                    None => "Write the condition alone.".to_owned(),
                };
                Description::new("`always` stands alone: it drops every condition").help(without)
            }
            BlockProblem::ConditionIn(holder) => {
                Description::new(format!("{} has no property `where`", called(*holder)))
                    .help("A rule's own condition stands in its clause: `each KIND where CONDITION shall have ...`.")
            }
            BlockProblem::UnknownProperty { holder, name, meant } => {
                Description::new(format!("{} has no property `{name}`", called(*holder)))
                    .help(property_meant(*holder, name, meant, place))
            }
            BlockProblem::UnnamedLimit => Description::new("this limit goes by no name")
                .help("Write `limit tallest: 7-3/4\"`, and let the clause read `<= tallest`."),
            BlockProblem::TooManyLimits => Description::new(format!(
                "this rule states more than {} limits; those from here on are not read",
                limits::RULE_LIMITS
            )),
            BlockProblem::LimitName { name } => Description::new(format!("no clause could name a limit `{name}`"))
                .help("Words like `of`, `and` and `where` cannot stand in a name."),
            BlockProblem::LimitImpossible { limit, why } => {
                Description::new(format!("`{limit}`: {}", impossible(*why)))
            }
            BlockProblem::Beside { limit, why } => beside(place, limit, *why),
            BlockProblem::LimitValue { limit } => {
                Description::new(format!("limit `{limit}` takes one number with its unit")).help(format!(
                    "Write `limit {limit}: 7-1/2\"`, or for a count `limit {limit}: 3`; words stand in the clause \
                     itself."
                ))
            }
            BlockProblem::Table { limit, why } => table(place, limit, *why),
            BlockProblem::SaysNoText => Description::new("a sentence stands in quotes, and nothing beside it")
                .help("Write `says: \"{value} is too high, {verb} be {asked}\"`."),
            BlockProblem::SaysOfNothing { name, near, known } => {
                Description::new(format!("the clause does not ask for `{name}`, so this is never said"))
                    .help(offered(*near, || format!("It asks for {}.", known.join(", "))))
            }
            BlockProblem::PlaceLeftOpen => {
                Description::new("this place of the sentence is not closed").help("Close it with `}`.")
            }
            BlockProblem::UnnamedPlace => Description::new("this place of the sentence names nothing").help(format!(
                "Put in one of {}, a limit, or what the clause could ask.",
                Own::ALL.map(Own::word).join(", ")
            )),
            BlockProblem::CountedOneWay { said } => {
                Description::new(format!("`{said}` says what one is called, and not what several are"))
                    .help("Write both: `{value: side has | sides have}`.")
            }
            BlockProblem::Verb { said, near } => {
                let verbs = || "It is `shall` for what is required, `should` for advice.".to_owned();
                Description::new(format!("`{said}` is no verb of a rule")).help(offered(*near, verbs))
            }
            BlockProblem::Sure { said, near } => {
                let words = || "Write `memory`, `second hand`, `seen`, or a text in quotes.".to_owned();
                Description::new(format!("`{said}` does not say how sure the figure is")).help(offered(*near, words))
            }
            BlockProblem::Waive { said, near } => {
                let words = || "Write `waive: never`; a rule that may be waived need not say so.".to_owned();
                Description::new(format!("`{said}` does not say whether the rule may be waived"))
                    .help(offered(*near, words))
            }
            BlockProblem::FormerlyNoName => Description::new("a former name stands in quotes")
                .help("Write `formerly: \"clear width\"`; several are parted by commas."),
            BlockProblem::MissingColon { said } => {
                Description::new(format!("a colon is missing after `{said}`")).help(format!("Write `{said}: ...`."))
            }
            BlockProblem::NotAStatement(meant) => {
                Description::new("this line is no statement").help(statement_meant(*meant))
            }
        }
    }
}

/// A figure in parentheses beside a limit's own that cannot stand there.
fn beside(place: &Place<'_>, limit: &str, why: BesideFault) -> Description {
    let figure = place.quote();
    let message = match why {
        BesideFault::NoFigure => format!("`{limit}`: `{figure}` is no figure"),
        BesideFault::OtherSort { first } => format!("`{limit}` is {first}; `{figure}` beside it is not"),
        BesideFault::NotMetric => format!("`{figure}` is not the metric figure beside one in inches"),
        BesideFault::Far { exact, metric } => {
            format!("`{limit}` comes to {} in metric; {} is another figure", print(exact), print(metric))
        }
    };
    Description::new(message).help(format!(
        "Beside a figure in inches may stand the metric one that the source prints: `limit {limit}: 36\" (914 mm)`."
    ))
}

/// A table of limits that cannot be read.
fn table(place: &Place<'_>, limit: &str, why: TableFault) -> Description {
    const ROWS: &str = "A row is a figure, then when it counts: `36\" up to 49`, `44\" over 49`, `220 mm for private`, `44\" otherwise`.";
    let said = place.quote();
    match why {
        TableFault::NoBy { figure } => {
            let named = if figure { "is".to_owned() } else { format!("limit {limit}") };
            Description::new(format!("nothing says what the figures of `{limit}` go by"))
                .help(format!("Name it: `{named} by width of flight: 36\" up to 44\", 44\" otherwise`."))
        }
        TableFault::NoFigure => Description::new(format!("`{said}` does not begin with a figure")).help(ROWS),
        TableFault::OtherSort { first } => {
            Description::new(format!("the first figure of `{limit}` is {first}; `{said}` is not"))
        }
        TableFault::RowWords => Description::new(format!("`{said}` does not say when this row counts")).help(ROWS),
        TableFault::Twice => Description::new(format!("`{said}` stands in a row before this one already")),
        TableFault::AfterOtherwise => {
            Description::new("behind `otherwise` no row is ever read").help("Put the row for all others last.")
        }
        TableFault::NotAt => Description::new("what is read between rows stands at a figure in each")
            .help("Write `250 mm at 60°, 200 mm at 65°, read between`."),
        TableFault::OneRow => Description::new("between one row and none nothing can be read"),
        TableFault::BetweenTwo => Description::new("a table that goes by two things is not read between its rows")
            .help("Let it go by one of the two, or leave `read between` out."),
        TableFault::TwoOfOne => {
            Description::new(format!("`{said}` says two things, and the table goes by one")).help(format!(
                "Name both: `limit {limit} by use of stair and width: 36\" for dwelling and up to 44\", 44\" otherwise`."
            ))
        }
    }
}

fn called(holder: Holder) -> &'static str {
    match holder {
        Holder::Rule => "a rule",
        Holder::Amendment => "an amendment",
        Holder::Withdrawal => "a withdrawal",
        Holder::Figure => "a figure",
    }
}

fn property_meant(holder: Holder, name: &str, meant: &PropertyMeant, place: &Place<'_>) -> String {
    let takes = holder.takes().join(", ");
    match (meant, holder) {
        (PropertyMeant::Near(near), _) => did_you_mean(near),
        (PropertyMeant::Verb, _) => {
            "A rule's own verb stands in its clause: `each KIND shall have ...` or `should have ...`.".to_owned()
        }
        (PropertyMeant::Limit(figure), _) => {
            format!("For a figure write `limit {name}: {}`.", place.quote_at(*figure))
        }
        (PropertyMeant::Unknown, Holder::Withdrawal | Holder::Figure) => {
            format!("{} takes {takes}.", super::phrase::begun(called(holder)))
        }
        (PropertyMeant::Unknown, _) => format!("It takes each ..., {takes}."),
    }
}

fn statement_meant(meant: StatementMeant) -> String {
    match meant {
        StatementMeant::Each => did_you_mean("each"),
        StatementMeant::Remark => "A remark begins with `#`.".to_owned(),
        StatementMeant::Reason => "A withdrawal says why: `because: \"struck by section 3\"`.".to_owned(),
        StatementMeant::ClauseOfAll => format!("A clause begins with `each`: {A_CLAUSE}."),
        StatementMeant::Change => format!(
            "A figure is changed by `limit NAME: 7\"`, `pitchboard rules` shows its name; what the rule asks, by a \
             clause: {A_CLAUSE}."
        ),
        StatementMeant::Clause => format!("What a rule asks is a clause: {A_CLAUSE}."),
    }
}

impl Describe for AmendmentProblem {
    fn describe(&self, place: &Place<'_>) -> Description {
        match self {
            AmendmentProblem::NoReason { rule } => {
                Description::new(format!("rule \"{rule}\" is withdrawn without a reason"))
            }
            AmendmentProblem::AmendedTwice { rule, first } => {
                Description::new(format!("this set amends \"{rule}\" already"))
                    .help("Put all that differs into one `amend`.")
                    .beside(*first, "amended here first")
            }
            AmendmentProblem::NothingDiffers { rule } => {
                Description::new(format!("this says of \"{rule}\" nothing that differs"))
            }
            AmendmentProblem::SameLimit { limit, is, set } => {
                Description::new(format!("`{limit}` is {is} already, set by {set}"))
            }
            AmendmentProblem::AnotherUnit { now, was } => {
                let now = print(*now);
                Description::new(format!("`{}` is {now}, in place of {}", place.quote(), print(*was)))
                    .help(format!("Look at the unit. If it is right, write `{now}`."))
            }
            AmendmentProblem::LimitWithoutUnit { limit } => {
                let figure = place.quote();
                Description::new(format!("`{limit}` is a length; `{figure}` has no unit")).help(as_a_length(figure))
            }
            AmendmentProblem::OtherSort { now, was, set } => other_sort(place, *now, *was, set),
            AmendmentProblem::BesideClause { clause } => {
                Description::new("the clause that stands beside this says it already").beside(*clause, "the clause")
            }
            AmendmentProblem::SameVerb { verb } => Description::new(format!("the verb is `{verb}` already")),
            AmendmentProblem::SameCondition => Description::new("the rule applies so already"),
            AmendmentProblem::Drops { dropped, set } => {
                Description::new(format!("this drops {} of {set}", marked(dropped)))
            }
            AmendmentProblem::RowsLeftOut { table, by, was, rows } => {
                let now = match by {
                    Some(by) if by == was => format!("the table `{table}` is read otherwise"),
                    Some(by) => format!("`{table}` goes by `{by}` now, and no longer by `{was}`"),
                    None => format!("`{table}` is one figure now, and no longer goes by `{was}`"),
                };
                Description::new(format!(
                    "{now}: {} {} left out",
                    marked(rows),
                    if rows.len() == 1 { "is" } else { "are" }
                ))
            }
            AmendmentProblem::SameFigure { figure, rules } => {
                let rules: Vec<String> = rules.iter().map(|rule| format!("\"{rule}\"")).collect();
                let have = if rules.len() == 1 { "keeps" } else { "keep" };
                Description::new(format!("{} {have} {figure}, which this changes", rules.join(", ")))
            }
            AmendmentProblem::SameText(part) => Description::new(format!("the {} is this already", text(part))),
            AmendmentProblem::NoSuchLimit { rule, limit, row: Some(row), .. } => {
                Description::new(format!("rule \"{rule}\" has no limit `{limit}` to amend"))
                    .label("no row of its table says so")
                    .help(format!(
                        "Write `limit {} by {}: {} {}`; the rows that are not restated stay.",
                        row.table, row.by, row.figures, row.row
                    ))
            }
            AmendmentProblem::NoSuchLimit { rule, limit, near, known, row: None } => {
                Description::new(format!("rule \"{rule}\" has no limit `{limit}` to amend"))
                    .label("the rule has no such limit")
                    .help(offered(near.as_deref(), || match known.as_slice() {
                        [] => "It names none.".to_owned(),
                        known => format!("It has {}.", marked(known)),
                    }))
            }
            AmendmentProblem::FormerRule { was, now } => {
                Description::former_name(&format!("rule \"{was}\""), &format!("\"{now}\""))
            }
            AmendmentProblem::FormerLimit { was, now } => {
                Description::former_name(&format!("limit `{was}`"), &format!("`{now}`"))
            }
            AmendmentProblem::NothingBelow(block) => {
                let what = block.word();
                Description::new(format!("this set takes no other in, so there is nothing to {what}"))
                    .label("no set below has it")
                    .help("Say which set it starts from: `amends: residential`, in the `ruleset` block.")
            }
            AmendmentProblem::Withdrawn { rule, block, by, because, heir: Some(heir) } => {
                let said = withdrawn(rule, *block, by, because);
                said.help(format!("\"{heir}\" stands in its place, by the same source: speak of that one."))
            }
            AmendmentProblem::Withdrawn { rule, block, by, because, heir: None } => {
                withdrawn(rule, *block, by, because)
            }
            AmendmentProblem::OwnRule { rule, block, written } => {
                let amends = *block == BlockKind::Amend;
                Description::new(format!("\"{rule}\" is this set's own rule"))
                    .label("a rule of this very set")
                    .help(if amends { "Change it where it stands." } else { "Take it out where it stands." })
                    .beside(*written, "written here")
            }
            AmendmentProblem::HeldAlways { rule, block } => {
                Description::new(format!("\"{rule}\" is held with every design, and no set can {} it", block.word()))
                    .label("a rule of the drawing itself")
                    .help("`pitchboard rules drawing` lists what a drawing must not contradict in itself.")
            }
            AmendmentProblem::NoSuchRule { rule, block, below, near, sharing } => {
                let list = || {
                    let sharing: Vec<String> = sharing.iter().map(|name| format!("\"{name}\"")).collect();
                    let list = format!("`pitchboard rules` with the name of {below} lists its rules");
                    match sharing.is_empty() {
                        true => format!("{list}."),
                        false => format!("It has {}; {list}.", sharing.join(", ")),
                    }
                };
                Description::new(format!("{below} has no rule \"{rule}\" to {}", block.word()))
                    .label("no rule has this name")
                    .help(offered(near.as_deref(), list))
            }
        }
    }
}

fn text(part: &Part) -> &'static str {
    match part {
        Part::Source => "source",
        Part::Because => "reason",
        Part::Waive => "word on waivers",
        Part::Says => "sentence",
        _ => "word on how sure it is",
    }
}

fn withdrawn(rule: &str, block: BlockKind, by: &Withdrawer, because: &str) -> Description {
    let who = match by {
        Withdrawer::Here(_) => "this set".to_owned(),
        Withdrawer::Below(set, place) => format!("{set} ({})", at_line(&place.source, place.span.start)),
    };
    let description = Description::new(format!("{who} withdraws \"{rule}\" already: \"{because}\""));
    match (block, by) {
        (BlockKind::Amend, Withdrawer::Here(first)) => {
            description.help("Take out one of the two.").beside(*first, "withdrawn here")
        }
        (BlockKind::Amend, Withdrawer::Below(..)) => {
            description.help("To bring it back, write it as a `rule` of this set.")
        }
        (_, Withdrawer::Here(first)) => description.help("Take this one out.").beside(*first, "withdrawn here"),
        (_, Withdrawer::Below(..)) => description.help("Take this one out."),
    }
}

/// `county.rules:7`.
fn at_line(source: &Source, offset: u32) -> String {
    format!("{}:{}", source.name, source.line(offset))
}

/// A figure that takes the place of one of another sort.
fn other_sort(place: &Place<'_>, now: Measure, was: Measure, set: &str) -> Description {
    let is = sort(now);
    let message = format!("`{}` is {is}, in place of {}: `{}` of {set}", place.quote(), sort(was), print(was));
    Description::new(message).label(is).maybe_help(as_sort(now, was))
}

/// How a figure is written that is to take the place of another: an angle for an angle, a slope for a slope.
fn as_sort(new: Measure, old: Measure) -> Option<String> {
    let exact = |measure: Measure| Measure { value: (measure.value * 1e3).round() / 1e3, ..measure };
    if old.dimension == Dimension::ANGLE && new.style.is_slope() {
        let angle = Measure { value: new.value.atan().to_degrees(), ..old };
        return Some(format!("Write an angle; that slope is {}.", print(exact(angle))));
    }
    if old.style.is_slope() && new.dimension == Dimension::ANGLE {
        let slope = Measure { value: new.value.to_radians().tan(), style: Style::PERCENT, ..old };
        return Some(format!("Write a slope, as `1 in 48` or `2%`; that angle is {}.", print(exact(slope))));
    }
    match old.dimension {
        Dimension::LENGTH => Some("Write a length, such as `7-1/2\"` or `190 mm`.".to_owned()),
        Dimension::ANGLE => Some("Write an angle, such as `30°`.".to_owned()),
        Dimension::NUMBER if !old.style.is_slope() => Some("Write a bare number, without a unit.".to_owned()),
        _ => None,
    }
}
