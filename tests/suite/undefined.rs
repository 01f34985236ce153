//! What is undefined is not checked: a division by nothing, a value past all bounds. It equals nothing, passes nothing
//! and fails nothing, in a plain verdict and in a traced one alike. That division by nothing has no value is arithmetic;
//! that `and` and `or` decide without what is not known is Kleene's strong logic.

use pitchboard::base::{Severity, Source};
use pitchboard::derive::{Evaluation, Missing, NoNumber, Reason};
use pitchboard::measure::Dimension;
use pitchboard::model::{self, Stair};
use pitchboard::rules::{self, Relation, RuleSet, Verdict};
use pitchboard::session::Session;
use pitchboard::syntax;
use pitchboard::wording::{message, need};

/// Two risers, a run, a handrail, no guard, no wall.
const DESIGN: &str =
    "stair \"s\" { use: private; flight { risers: 7\", 7\"; runs: 10\"; width: 36\" } handrail left { height: 36\" } }";

fn stair(text: &str) -> Stair {
    let source = Source::new("s.stair", text);
    let (tree, _) = syntax::parse_design(&source);
    model::build(&tree, &source, &mut Vec::new()).remove(0)
}

fn read(clause: &str) -> (RuleSet, Vec<(Severity, String)>) {
    let text = format!("rule \"r\" {{ limit most: 5\"; limit none: 0\"; limit nought: 0\n {clause}\n source: \"x\" }}");
    let loaded = Session::default().read_set(&Source::new("t.rules", text));
    // A value beside itself is told as idle; what is undefined is held to it here all the same.
    // So is a figure that nothing in proportion runs into.
    let idle = ["unused limit", "always holds", "out of proportion"];
    let found = loaded.diagnostics.iter().filter(|slip| !idle.contains(&slip.name()));
    let found = found.map(|slip| (slip.severity(), message(slip).message)).collect();
    (loaded.set, found)
}

/// What a clause comes to for the first thing that it speaks of, by both evaluators.
fn verdict(clause: &str, design: &str) -> Verdict {
    let (set, found) = read(clause);
    assert!(found.is_empty(), "{clause}: {found:?}");
    let stair = stair(design);
    let (plain, traced) = (Evaluation::plain(&stair.drawn), Evaluation::traced(&stair.drawn));
    let rule = &set.rules[0];
    let (element, plainly) = rules::verdicts(rule, &plain).next().expect("something to check");
    assert_eq!(rules::outcome(rule, &traced, element).verdict, plainly, "{clause}");
    assert_eq!(rules::trace(rule, &traced, element).verdict, plainly, "{clause}");
    assert_eq!(rules::explain(rule, &traced, element).verdict, plainly, "{clause}");
    plainly
}

fn why(verdict: &Verdict) -> Option<Reason> {
    match verdict {
        Verdict::NotChecked(Missing { reason, .. }) => Some(*reason),
        _ => None,
    }
}

const DIVIDED: Reason = Reason::NoNumber(NoNumber::DividedByNothing);
const PAST: Reason = Reason::NoNumber(NoNumber::PastBounds);

#[test]
fn a_division_by_nothing_is_not_checked_whatever_is_asked_of_it() {
    for value in [
        "rise / number of guards",
        "-rise / number of guards",
        "(rise - rise) / number of guards",
        "rise * rise / (rise - rise)",
        "(lesser of rise / number of guards and 6\")",
        "(greater of 4\" and rise / number of guards)",
        "rise / number of guards + most",
        "most - rise / number of guards",
        "rise / number of guards * number of guards",
        "rise * number of guards / number of guards",
        "most / (number of risers / number of guards)",
    ] {
        for sign in ["<=", "<", ">=", ">", "=", "!="] {
            for clause in [format!("{value} {sign} most"), format!("most {sign} {value}")] {
                let clause = format!("each flight shall have {clause}");
                assert_eq!(why(&verdict(&clause, DESIGN)), Some(DIVIDED), "{clause}");
            }
        }
        let same = format!("each flight shall have {value} = {value}");
        assert_eq!(why(&verdict(&same, DESIGN)), Some(DIVIDED), "{same}");
    }
}

#[test]
fn in_a_where_in_a_collection_and_in_a_sum_over_things_it_is_not_checked_either() {
    for clause in [
        "each flight where rise / number of guards > most shall have width >= most",
        "each flight where not (rise / number of guards > most) shall have width >= most",
        "each stair shall have number of (flights where rise / number of guards > most) = 0",
        "each stair shall have number of (risers where height / (height - height) > 5) = 0",
        "each flight shall have largest height of (risers where height / (height - height) > 5) <= most",
    ] {
        assert_eq!(why(&verdict(clause, DESIGN)), Some(DIVIDED), "{clause}");
    }
}

#[test]
fn and_and_or_decide_without_what_is_undefined_where_they_can() {
    let undefined = "rise / number of guards <= most";
    for (clause, comes_to) in [
        ("U and width >= most", None),
        ("width >= most and U", None),
        ("U and width < most", Some(Verdict::Fail)),
        ("width < most and U", Some(Verdict::Fail)),
        ("U or width < most", None),
        ("U or width >= most", Some(Verdict::Pass)),
        ("width >= most or U", Some(Verdict::Pass)),
        ("not (U)", None),
        ("not (U and width < most)", Some(Verdict::Pass)),
        ("not (U or width >= most)", Some(Verdict::Fail)),
        ("none < rise / number of guards < most", None),
        ("width < most < rise / number of guards", Some(Verdict::Fail)),
        ("rise / number of guards > most > width", Some(Verdict::Fail)),
    ] {
        let clause = format!("each flight shall have {}", clause.replace('U', undefined));
        let came = verdict(&clause, DESIGN);
        match comes_to {
            Some(settled) => assert_eq!(came, settled, "{clause}"),
            None => assert_eq!(why(&came), Some(DIVIDED), "{clause}"),
        }
    }
}

#[test]
fn the_largest_of_none_is_not_checked() {
    for aggregate in ["largest", "smallest", "total"] {
        let clause = format!("each flight shall have {aggregate} height of guards <= most");
        let why = why(&verdict(&clause, DESIGN));
        assert!(matches!(why, Some(Reason::NotDrawn(_))), "{clause}: {why:?}");
    }
}

#[test]
fn a_value_past_all_bounds_and_one_that_vanishes_are_not_checked() {
    // 45 lengths of about 2e8 base units multiplied pass what a number holds; of a quotient as long nothing is left.
    let many = vec!["rise"; 45].join(" * ");
    let clause = format!("each flight shall have {many} >= {many}");
    assert_eq!(why(&verdict(&clause, DESIGN)), Some(PAST));
    let few = format!("number of risers / rise{}", " / rise".repeat(44));
    let clause = format!("each flight shall have {few} = {few}");
    assert_eq!(why(&verdict(&clause, DESIGN)), Some(PAST));
}

#[test]
fn a_clause_that_divides_by_nothing_by_its_own_figures_is_refused_when_the_set_is_read() {
    for value in ["rise / 0", "rise / nought", "most / nought * 2", "7\" / (2 - 2)", "rise + most * (1 / nought)"] {
        for clause in [
            format!("each flight shall have {value} <= most"),
            format!("each flight where {value} <= most shall have width >= most"),
            format!("each stair shall have number of (flights where {value} <= most) = 0"),
        ] {
            let (set, found) = read(&clause);
            assert!(set.rules.is_empty(), "{clause}");
            assert!(found.iter().any(|(_, said)| said.contains("divides by nothing")), "{clause}: {found:?}");
        }
    }
}

#[test]
fn no_relation_holds_of_what_is_not_finite() {
    let all = [Relation::Less, Relation::AtMost, Relation::More, Relation::AtLeast, Relation::Equal, Relation::Unequal];
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for other in [0.0, -1.0, 1e9, odd] {
            for relation in all {
                assert!(!rules::holds(odd, relation, other, Dimension::LENGTH), "{odd} {relation:?} {other}");
                assert!(!rules::holds(other, relation, odd, Dimension::LENGTH), "{other} {relation:?} {odd}");
            }
        }
    }
}

#[test]
fn no_quantity_gives_a_number_that_is_none() {
    use pitchboard::derive::{Datum, quantities};
    use pitchboard::measure::Measure;
    let nought = "stair \"s\" { total rise: 0\"; flight { risers: 2 of 0\"; runs: 0\"; width: 0\"; winders left { from tread: 1; to tread: 1; turn: 0°; narrow: 0\" } } \
        handrail left { height: 0\"; section: round 0\" } guard right { height: 0\"; post { section: 4x4; height: 0\" } } ceiling { height: 0\"; slope: 0% } \
        stringer left { section: 2x12; throat: 0\" } tread { thickness: 0\"; nosing: 0\" } joint \"j\" { bolts: 1/2\"; count: 0; in post { edge: 0\"; end: 0\" } } }";
    let mut known = 0;
    for design in [nought, DESIGN, "stair \"s\" { flight { } }"] {
        let stair = stair(design);
        let evaluation = Evaluation::plain(&stair.drawn);
        for entry in quantities() {
            for id in stair.drawn.of_kind(entry.kind) {
                let place = entry.at_a_place().then(|| Measure::inches(0.0));
                if let Ok(Datum::Measure(measure)) = evaluation.derived(id, entry, place) {
                    known += 1;
                    assert!(measure.value.is_finite(), "{entry:?}: {}", measure.value);
                }
            }
        }
    }
    assert!(known > 50, "{known}");
}

#[test]
fn the_reason_is_said_once_and_in_words() {
    let (set, _) = read("each flight shall have rise / number of guards <= most");
    let stair = stair(DESIGN);
    let evaluation = Evaluation::plain(&stair.drawn);
    let (_, verdict) = rules::verdicts(&set.rules[0], &evaluation).next().expect("a flight");
    let Verdict::NotChecked(missing) = verdict else { panic!("{verdict:?}") };
    let said = need(&pitchboard::derive::Need::of(&stair.drawn, &missing));
    assert_eq!(said, "something to divide by in flight (what is divided by nothing is undefined)");
}
