//! Value, relation, limit and offers, read out of the English sentences of a version that has them nowhere else.

use super::record::Finding;

const RELATIONS: &[&str] = &["at most", "at least", "less than", "more than", "other than"];

/// Fills in what message and help say. The class is a rule's (`broken`, `advised`) or a reader's.
pub fn read(finding: &mut Finding, of_rule: bool, message: &str, help: &str) {
    finding.said = if help.is_empty() { message.to_owned() } else { format!("{message} | {help}") };
    if of_rule {
        compared(finding, message);
    }
    let meant = "did you mean ";
    let mut rest = help;
    if let Some(at) = help.find(meant) {
        let after = help.get(at + meant.len()..).unwrap_or_default();
        finding.nearest = ticked(after).into_iter().next().unwrap_or_default();
        rest = help.get(..at).unwrap_or_default();
    }
    finding.offers = ticked(rest);
    if let Some((_, then)) = rest.rsplit_once(" Then \"") {
        let ends = ["\" asks for more.", "\" would be broken."];
        finding.then = ends.iter().find_map(|end| then.strip_suffix(end)).unwrap_or(then).to_owned();
    }
}

/// What stands between backticks.
fn ticked(text: &str) -> Vec<String> {
    text.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

/// `X is V, shall be at most L: ...`, `has N things, shall have at least M`, `X is "w", shall be "u" or "v"`,
/// `shall have X`. The clause comes last, and what a design is called by stands before it.
fn compared(finding: &mut Finding, message: &str) {
    let last = |verb: &str| message.rfind(verb).map(|at| (at, at + verb.len()));
    let counted = [", shall have ", ", should have "].into_iter().filter_map(last).max();
    let sized = [", shall be ", ", should be "].into_iter().filter_map(last).max();
    let worded = [", shall not be ", ", should not be "].into_iter().filter_map(last).max();
    let before = |at: usize| message.get(..at).unwrap_or_default();
    let after = |at: usize| message.get(at..).unwrap_or_default();
    let value = |at: usize| before(at).rsplit_once(" is ").map_or("", |(_, value)| value).to_owned();
    if let Some((at, end)) = worded.filter(|found| sized.is_none_or(|other| other < *found)) {
        finding.value = value(at);
        finding.relation = "not".to_owned();
        finding.limit = after(end).to_owned();
    } else if let Some((at, end)) = sized.filter(|found| counted.is_none_or(|other| other < *found)) {
        finding.value = value(at);
        let (relation, rest) = relation(after(end));
        finding.relation = relation.to_owned();
        // A word that is asked for stands in quotes and has no miss after it.
        finding.limit = if rest.starts_with('"') { rest } else { rest.split(": ").next().unwrap_or(rest) }.to_owned();
    } else if let Some((at, end)) = counted {
        let said = before(at).rsplit_once(" has ").map_or("", |(_, said)| said);
        let (count, things) = said.split_once(' ').unwrap_or((said, ""));
        let (relation, rest) = relation(after(end));
        finding.value = count.to_owned();
        finding.relation = format!("{relation} {things}").trim().to_owned();
        finding.limit = rest.to_owned();
    } else {
        let denied = [": shall have ", ": should have "].into_iter().filter_map(last).max();
        finding.limit = denied.map_or("", |(_, end)| after(end)).to_owned();
    }
}

fn relation(said: &str) -> (&str, &str) {
    let found = RELATIONS.iter().find_map(|relation| Some((*relation, said.strip_prefix(relation)?.trim_start())));
    found.unwrap_or(("", said))
}
