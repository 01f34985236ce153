//! One design written otherwise comes to the same: random designs over the whole vocabulary (`random_designs.rs`) in
//! another order, under other names, in other units and notations, beside other stairs. And with one statement taken
//! away nothing falls silent. A tenth of them by default, all with `FULL=1`; `DESIGNS_FROM=n` begins elsewhere.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::drawing::Dice;
use crate::random_designs::{Block, Hand, USUAL, Unit, design, named_back};
use crate::switches::long_run;
use pitchboard::base::{Severity, Source};
use pitchboard::check::BUILT_IN;
use pitchboard::derive::Evaluation;
use pitchboard::model;
use pitchboard::rules::{Rule, RuleSet, Verdict, verdicts};
use pitchboard::session::Session;
use pitchboard::syntax;
use pitchboard::wording;

/// How many random designs are tried in full.
const DESIGNS: usize = 400;

/// Which figure of a limit that carries two is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Figure {
    /// As the value is written.
    AsWritten,
    Inches,
    Metric,
}

fn sets(figure: Figure) -> Vec<RuleSet> {
    let mut sets: Vec<RuleSet> =
        BUILT_IN.iter().map(|(name, text)| Session::default().read_set(&Source::new(*name, *text)).set).collect();
    for rule in sets.iter_mut().flat_map(|set| &mut set.rules) {
        let mut one = Rule::clone(rule);
        for limit in &mut one.limits {
            match (figure, limit.metric) {
                (Figure::AsWritten, _) => {}
                (Figure::Metric, Some(metric)) => (limit.measure, limit.metric) = (metric, None),
                _ => limit.metric = None,
            }
        }
        *rule = Arc::new(one);
    }
    sets
}

/// Sizes of random designs that go by their inches in whatever units the rest is written.
const NOMINAL: [&str; 7] = ["2x12", "2x10", "4x4", "2x4", "5/4x6", "1x8", "2x2"];

/// How a rule stands for a thing.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Stands {
    Passes,
    Fails,
    DoesNotApply,
    /// And what would settle it.
    NotChecked(String),
}

/// Rule by set and name, thing by its path, and how the one stands for the other.
type Outcome = (String, String, Stands);

/// Every outcome of the nth stair of a text, in an order of their own.
fn outcomes(text: &str, nth: usize, sets: &[RuleSet]) -> Vec<Outcome> {
    let source = Source::new("random", text);
    let (tree, _) = syntax::parse_design(&source);
    let stairs = model::build(&tree, &source, &mut Vec::new());
    let stair = stairs.get(nth).unwrap_or_else(|| panic!("{} stairs:\n{text}", stairs.len()));
    let views = [("", Some(&stair.drawn)), ("as measured, ", stair.measured.as_ref())];
    let mut found = Vec::new();
    for (view, design) in views.into_iter().filter_map(|(view, design)| Some((view, design?))) {
        let (evaluation, paths) = (Evaluation::plain(design), design.paths());
        for set in sets {
            for rule in &set.rules {
                for (element, verdict) in verdicts(rule, &evaluation) {
                    let stands = match verdict {
                        Verdict::Pass => Stands::Passes,
                        Verdict::Fail => Stands::Fails,
                        Verdict::NotApplicable => Stands::DoesNotApply,
                        Verdict::NotChecked(missing) => Stands::NotChecked(wording::needs(design, &missing)),
                    };
                    let path = paths.get(element).map_or("", String::as_str);
                    found.push((format!("{}: {}", set.title, rule.name), format!("{view}{path}"), stands));
                }
            }
        }
    }
    found.sort();
    found
}

/// What one has and the other has not, a line each.
fn differences(one: &[Outcome], other: &[Outcome]) -> Vec<String> {
    let mut count: BTreeMap<&Outcome, i32> = BTreeMap::new();
    one.iter().for_each(|outcome| *count.entry(outcome).or_default() += 1);
    other.iter().for_each(|outcome| *count.entry(outcome).or_default() -= 1);
    let told = count.into_iter().filter(|(_, times)| *times != 0);
    told.map(|(outcome, times)| format!("{} {outcome:?}", if times > 0 { '-' } else { '+' })).collect()
}

/// What settles it left out: where units differ so do the figures in it.
fn bare(outcomes: Vec<Outcome>) -> Vec<Outcome> {
    let without = |stands| match stands {
        Stands::NotChecked(_) => Stands::NotChecked(String::new()),
        other => other,
    };
    outcomes.into_iter().map(|(rule, thing, stands)| (rule, thing, without(stands))).collect()
}

fn numbers() -> impl Iterator<Item = u64> {
    let from = std::env::var("DESIGNS_FROM").ok().and_then(|from| from.parse().ok()).unwrap_or(0);
    (from..).take(long_run(DESIGNS))
}

/// Holds a rewriting of every design to the design itself, and says how many outcomes were the same.
fn hold(rewritten: impl Fn(u64, &Block) -> Vec<(Vec<Outcome>, Vec<Outcome>, String)>) {
    let (mut told, mut same) = (Vec::new(), BTreeMap::new());
    for number in numbers() {
        for (before, after, how) in rewritten(number, &design(number)) {
            let differ = differences(&before, &after);
            if differ.is_empty() {
                for (_, _, stands) in &before {
                    let key = format!("{stands:?}").split('(').next().unwrap_or_default().to_owned();
                    *same.entry(key).or_insert(0) += 1;
                }
            } else {
                told.push(format!("design {number}, {how}:\n    {}", differ[..differ.len().min(6)].join("\n    ")));
            }
        }
    }
    println!("{same:?}");
    assert!(told.is_empty(), "{} differ:\n{}", told.len(), told[..told.len().min(12)].join("\n"));
    let many = |stands: &str| same.get(stands).is_some_and(|times| *times > 1_000);
    assert!(["Passes", "Fails", "DoesNotApply", "NotChecked"].into_iter().all(many), "{same:?}");
}

#[test]
fn in_another_order_it_comes_to_the_same() {
    let sets = sets(Figure::AsWritten);
    hold(|number, design| {
        let other = design.reordered(&mut Dice::new(number)).written(USUAL);
        // Of several facts that are missing the first is named; of several things of one name the first is the first.
        let unordered = |text: &str| {
            let mut all = bare(outcomes(text, 0, &sets));
            for (_, thing, _) in &mut all {
                let number = thing.find(" #").map(|at| at..at + 3);
                number.into_iter().for_each(|range| thing.replace_range(range, ""));
            }
            all
        };
        vec![(unordered(&design.written(USUAL)), unordered(&other), "reordered".to_owned())]
    });
}

#[test]
fn under_other_names_it_comes_to_the_same() {
    let sets = sets(Figure::AsWritten);
    hold(|_, design| {
        let other = outcomes(&design.written(Hand { renamed: true, ..USUAL }), 0, &sets);
        let back = |stands| match stands {
            Stands::NotChecked(needs) => Stands::NotChecked(named_back(&needs)),
            other => other,
        };
        let mut other: Vec<Outcome> =
            other.into_iter().map(|(rule, thing, stands)| (rule, named_back(&thing), back(stands))).collect();
        other.sort();
        vec![(outcomes(&design.written(USUAL), 0, &sets), other, "renamed".to_owned())]
    });
}

#[test]
fn in_other_units_and_notations_it_comes_to_the_same() {
    let (written, inches, metric) = (sets(Figure::AsWritten), sets(Figure::Inches), sets(Figure::Metric));
    hold(|_, design| {
        let text = design.written(USUAL);
        let mut held = Vec::new();
        for (unit, together) in [(Unit::Decimals, false), (Unit::FeetAndInches, true)] {
            let other = design.written(Hand { unit, together, ..USUAL });
            let (before, after) = (outcomes(&text, 0, &written), outcomes(&other, 0, &written));
            held.push((bare(before), bare(after), format!("{unit:?}")));
        }
        for (unit, together) in [(Unit::Millimetres, true), (Unit::Centimetres, false), (Unit::Metres, true)] {
            let other = design.written(Hand { unit, together, ..USUAL });
            let (before, after) = (outcomes(&text, 0, &inches), outcomes(&other, 0, &inches));
            held.push((bare(before), bare(after), format!("{unit:?}")));
            // Of a limit that has two figures it is the metric one that is asked, and no other; but the first of them of
            // what a size that goes by its inches, as 2x4, stands behind.
            let (before, by_inches) = (outcomes(&text, 0, &metric), outcomes(&text, 0, &inches));
            let (mut before, by_inches, after) = (bare(before), bare(by_inches), bare(outcomes(&other, 0, &written)));
            if NOMINAL.iter().any(|size| text.contains(size)) {
                for outcome in &mut before {
                    let other = by_inches.iter().find(|other| (&other.0, &other.1) == (&outcome.0, &outcome.1));
                    let meant = other.filter(|other| !after.contains(outcome) && after.contains(other));
                    if let Some(other) = meant.cloned() {
                        *outcome = other;
                    }
                }
                before.sort();
            }
            held.push((before, after, format!("{unit:?}, by the metric figure of a limit")));
        }
        held
    });
}

#[test]
fn beside_other_stairs_it_comes_to_the_same() {
    let sets = sets(Figure::AsWritten);
    hold(|number, one| {
        let text = one.written(USUAL);
        let neighbour = |by: u64| design(number + by).written(USUAL);
        let beside = format!("{}{text}{}", neighbour(1), neighbour(2));
        vec![(outcomes(&text, 0, &sets), outcomes(&beside, 1, &sets), "beside others".to_owned())]
    });
}

/// Statements whose absence says something, by kind and property, and what it says.
const DEFAULTS: &[(&str, &str, &str)] = &[
    ("stair", "access", "whose way it is follows from its use"),
    ("guard", "along", "in a stair of one flight it guards that flight"),
    ("guard", "handrail", "a guard serves as the handrail only where it says so"),
    ("guard", "toe board", "what is not drawn is not there; a rule that asks for one asks for it then"),
    ("guard", "toe board gap", "what is not drawn is not there; a rule that asks for one asks for it then"),
    ("guard", "infill", "what is drawn of its infill says what it is"),
    ("guard", "balusters", "a guard of which but a midrail is drawn is open"),
    ("guard", "cables", "a guard of which but a midrail is drawn is open"),
    ("guard", "rails", "a guard of which but a midrail is drawn is open"),
    ("flight", "spiral", "a flight is a spiral only where it says so"),
    ("flight", "ship", "a flight is a stepladder only where it says so"),
    ("landing", "plan", "a landing is a rectangle, unless it says so"),
];

/// Statements without which a rule does not apply, that change how the drawing is taken to be: statement, rule, why.
const TAKEN_SO: &[(&str, &str, &str)] = &[
    (
        "ceiling: overhang",
        "edge of a floor opening",
        "what has no overhang hangs over the stair, unless it says otherwise",
    ),
    (
        "ceiling: over",
        "headroom",
        "what hangs over the stair leaves nothing of the flight: it is held to the rule itself",
    ),
    ("ceiling: over", "edge of a floor opening", "the same"),
    ("ceiling: over", "guard needed at a private well", "the same"),
    ("ceiling: fall across", "edge of a floor opening", "what falls no way is level: it is held by its height alone"),
    (
        "handrail: along",
        "bending of a handrail",
        "with one flight drawn a rail of no place serves it, and stands on what is drawn there",
    ),
    (
        "post: stands",
        "post as a column",
        "a post that does not say that it stands between its ends carries a guard: it is pushed, and held to that",
    ),
    ("post: stands", "slenderness of a post", "the same"),
    ("ceiling: over", "guard needed at a utility or general well", "the same"),
    ("ceiling: over", "guard needed at a well", "the same"),
    ("ceiling: over", "guard-rail at a well", "the same"),
    ("ceiling: over", "headroom at the edge of a well", "the same"),
    (
        "ceiling: part of",
        "guard needed at a well",
        "what ends over no flight is no floor with a well, unless it says so",
    ),
    ("ceiling: part of", "guard needed at a private well", "the same"),
    ("ceiling: part of", "guard needed at a utility or general well", "the same"),
    ("ceiling: part of", "guard-rail at a well", "the same"),
    ("ceiling: part of", "headroom at the edge of a well", "the same"),
    ("ground: slope", "gap under a level guard", "taken as level, which the report says: the drop is a lesser one"),
    ("ground: slope", "guard height on a flight", "the same"),
    ("ground: slope", "guard openings on a flight", "the same"),
    ("ground: slope", "guard triangle", "the same"),
    ("ground: slope", "gate of a guard", "the same"),
    ("ground: slope", "gate that stays shut", "the same"),
    ("ground: slope", "guard height on the level", "the same"),
    ("ground: slope", "guard height", "the same"),
    ("ground: slope", "guard openings at the top", "the same"),
    ("ground: slope", "guard openings on the level", "the same"),
    ("ground: slope", "guard openings", "the same"),
    ("guard: from tread", "low guard height on a flight", "it begins at the lowest tread: a guard over a drop"),
    ("guard: from tread", "low guard openings on a flight", "the same"),
    ("guard: from tread", "low guard triangle", "the same"),
    (
        "guard: to tread",
        "gap under a low guard beside open risers",
        "it goes on to the last tread: a guard over a drop",
    ),
    ("guard: to tread", "low guard height on a flight", "the same"),
    ("guard: to tread", "low guard openings on a flight", "the same"),
    ("member: through", "edge beside slender bolts", "a bolt goes through as much as its section is thick"),
    (
        "section: shape",
        "grip of a handrail",
        "a section is a rectangle, unless it says otherwise: held to another rule",
    ),
    ("section: shape", "grip of a round handrail", "the same"),
    ("tread: boards", "nosing", "taken as one board, which the report says: its nosing is the lesser"),
    ("tread: nosing", "nosing", "what its boards leave is its nosing, unless one is stated"),
    (
        "wall: along",
        "room for the hand beside a guard",
        "a wall stands along the whole stair, unless it says otherwise: held to the clearance of a wall",
    ),
    ("stringer: span", "string held up on its way", "taken as held at its ends alone, which the report says"),
];

/// Where statements of a text are reported as not understood, such as one that contradicts another.
fn reported(text: &str) -> Vec<usize> {
    let source = Source::new("random", text);
    let (tree, _) = syntax::parse_design(&source);
    let mut found = Vec::new();
    let _ = model::build(&tree, &source, &mut found);
    let grave = found.iter().filter(|found| found.severity() == Severity::NotUnderstood);
    grave.filter_map(|found| found.span.map(|span| span.start as usize)).collect()
}

/// Whether a statement was reported that is gone, or what it contradicted: a text with it, and without.
fn settles(with: &str, without: &str) -> bool {
    let (before, after) = (reported(with), reported(without));
    let alike = with.lines().zip(without.lines()).take_while(|(one, other)| one == other);
    let start: usize = alike.map(|(line, _)| line.len() + 1).sum();
    let gone = with.len() - without.len();
    let stands_at = |at: usize| if at < start { at } else { at.saturating_sub(gone) };
    before.iter().any(|at| (start..start + gone).contains(at) || !after.contains(&stands_at(*at)))
}

/// What fell silent: how a rule stood for a thing, and how it does without the statement.
fn silent(before: &[Outcome], after: &[Outcome]) -> Vec<String> {
    let mut by_rule: BTreeMap<&str, Vec<&Outcome>> = BTreeMap::new();
    after.iter().for_each(|outcome| by_rule.entry(&outcome.0).or_default().push(outcome));
    let mut told = Vec::new();
    for (rule, thing, stood) in before.iter().filter(|(.., stood)| *stood != Stands::DoesNotApply) {
        let now = by_rule.get(rule.as_str()).map(Vec::as_slice).unwrap_or_default();
        let of_thing: Vec<&&Outcome> = now.iter().filter(|outcome| outcome.1 == *thing).collect();
        let is_open = |outcome: &&Outcome| matches!(outcome.2, Stands::Fails | Stands::NotChecked(_));
        let silent = if of_thing.is_empty() {
            // A thing that is gone, or goes by another name, leaves its rule open or holds it all the same. What stood
            // for a ceiling that nobody drew is gone where those that are drawn leave no room for it.
            let undrawn = ["a ceiling over the rest of", "`headroom` of a ceiling block"];
            let no_rest = |needs: &String| undrawn.iter().any(|undrawn| needs.starts_with(undrawn));
            let no_rest = matches!(stood, Stands::NotChecked(needs) if no_rest(needs));
            let passed = (*stood == Stands::Passes || no_rest) && now.iter().any(|outcome| outcome.2 == Stands::Passes);
            !passed && !now.iter().any(is_open)
        } else {
            of_thing.iter().all(|outcome| outcome.2 == Stands::DoesNotApply)
        };
        if silent {
            told.push(format!("{rule} | {thing} | {stood:?}"));
        }
    }
    told
}

#[test]
fn without_a_statement_nothing_falls_silent() {
    let mut sets = sets(Figure::AsWritten);
    // What a drawing contradicts in itself takes two statements: with one of them gone there is nothing to tell.
    sets.retain(|set| set.title != "The drawing itself");
    sets.iter_mut().for_each(|set| set.rules.retain(|rule| !rule.name.ends_with(" as drawn")));
    let (mut told, mut tried, mut used) = (BTreeMap::<(String, String), Vec<String>>::new(), 0, BTreeSet::new());
    for number in numbers() {
        let design = design(number);
        let mut dice = Dice::new(number + 1);
        let before = outcomes(&design.written(USUAL), 0, &sets);
        // A dozen statements of each.
        for _ in 0..12 {
            let Some((less, kind, property)) = design.without(dice.below(design.statements())) else { continue };
            let after = outcomes(&less.written(USUAL), 0, &sets);
            tried += 1;
            if let Some(default) = DEFAULTS.iter().find(|(of, name, _)| (*of, *name) == (kind, property)) {
                used.insert(*default);
                continue;
            }
            // With one of two that contradict each other gone, nothing is left open of what they were about.
            let settles = settles(&design.written(USUAL), &less.written(USUAL));
            let stood = |outcome: &&Outcome| !(settles && matches!(outcome.2, Stands::NotChecked(_)));
            let held: Vec<Outcome> = before.iter().filter(stood).cloned().collect();
            for wrong in silent(&held, &after) {
                let rule = wrong.split(" | ").next().unwrap_or_default().to_owned();
                let key = (format!("{kind}: {property}"), rule);
                told.entry(key).or_default().push(format!("{number}: {wrong}"));
            }
        }
    }
    told.retain(|(of, rule), _| {
        !TAKEN_SO.iter().any(|(known, name, _)| known == of && rule.ends_with(&format!(": {name}")))
    });
    let lines = told.iter().map(|((of, rule), all)| format!("{of} -> {rule} ({}): {}", all.len(), all[0]));
    let lines: Vec<String> = lines.collect();
    assert!(lines.is_empty(), "{} of {tried} taken away:\n{}", lines.len(), lines.join("\n"));
    assert!(tried > 300, "{tried}");
}
