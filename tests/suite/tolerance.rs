//! A limit is a limit in every unit: one smallest mark past it fails, at it passes, whatever base units it is held in.

use pitchboard::base::{Source, lift};
use pitchboard::check::LoadedSet;
use pitchboard::derive::Evaluation;
use pitchboard::measure::{Notation, UNITS, Unit};
use pitchboard::session::Session;
use pitchboard::{model, rules, syntax};
use proptest::prelude::*;
use uom::si::f64::{Force, Length, Pressure};
use uom::si::{force, length, pressure};

/// Whether each requirement holds for a flight 36 in wide, read as the clause of a rule in a ruleset.
fn verdicts(requirements: &[String]) -> Vec<bool> {
    let rule = |at: usize, asked: &String| {
        format!("rule \"r{at}\" {{ each flight shall have {asked}\n source: \"common practice, no source\" }}")
    };
    let text: Vec<String> = requirements.iter().enumerate().map(|(at, asked)| rule(at, asked)).collect();
    let text = format!("ruleset \"limits\" {{ }}\nchapter \"limits\" {{ {} }}", text.join("\n"));
    let LoadedSet { set, diagnostics } = Session::default().read_set(&Source::new("limits.rules", text));
    // Figures about nothing are in no proportion to a stair.
    let of_nothing = ["out of proportion", "rules that cannot both be met"];
    let slips: Vec<_> = diagnostics.iter().filter(|slip| !of_nothing.contains(&slip.name())).collect();
    assert!(slips.is_empty(), "{slips:?}");
    assert_eq!(set.rules.len(), requirements.len());
    let design = Source::new("bird-hide.stair", "stair \"Bird hide\" { flight { width: 36\" } }");
    let (tree, slips) = syntax::parse_design(&design);
    let mut findings = lift(slips);
    let stairs = model::build(&tree, &design, &mut findings);
    assert!(findings.is_empty());
    let evaluation = Evaluation::plain(&stairs[0].drawn);
    let verdict =
        |rule: &std::sync::Arc<rules::Rule>| match rules::verdicts(rule, &evaluation).collect::<Vec<_>>().as_slice() {
            [(_, rules::Verdict::Pass)] => true,
            [(_, rules::Verdict::Fail)] => false,
            other => panic!("{other:?}"),
        };
    set.rules.iter().map(verdict).collect()
}

/// A figure of so many smallest marks of a unit, as a spelling of it has it.
fn write(unit: &Unit, spelling: &str, marks: u32) -> String {
    match unit.notation {
        Notation::OneIn => format!("1:{}.{}", marks / 10 + 1, marks % 10),
        Notation::PerFoot => format!("{marks}/64\" per 12\""),
        _ => format!("{:.6}{spelling}", f64::from(marks) * unit.steps.fine / unit.scale),
    }
}

/// Each relation, and whether it holds of a value below, at and above its limit.
const RELATIONS: &[(&str, [bool; 3])] = &[
    ("<=", [true, true, false]),
    ("<", [true, false, false]),
    (">=", [false, true, true]),
    (">", [false, false, true]),
    ("=", [false, true, false]),
    ("!=", [true, false, true]),
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn one_mark_past_a_limit_fails_and_at_it_passes_in_every_unit(n in prop_oneof![1_u32..200, 1_u32..100_000]) {
        let (mut asked, mut wanted) = (Vec::new(), Vec::new());
        for unit in UNITS {
            let spellings = if unit.spellings.is_empty() { &[""] } else { unit.spellings };
            // Slopes finer than `1 in 500` are none.
            let n = if unit.notation == Notation::OneIn { n % 5_000 + 1 } else { n };
            for ((relation, holds), spelling) in RELATIONS.iter().zip(spellings.iter().cycle().skip(n as usize % 7)) {
                for (at, holds) in (0..3).zip(holds) {
                    // The more of a run that `1 in` goes along, the less the slope.
                    let marks = if unit.notation == Notation::OneIn { n + 1 - at } else { n + at - 1 };
                    let (value, limit) = (write(unit, spelling, marks), write(unit, spelling, n));
                    // What the design says stands in it, so that it is no constant, and a division spoils its last bits.
                    asked.push(format!("{value} * width / width {relation} {limit}"));
                    wanted.push(*holds);
                }
            }
        }
        for ((asked, wanted), verdict) in asked.iter().zip(wanted).zip(verdicts(&asked)) {
            prop_assert_eq!(verdict, wanted, "{}", asked);
        }
    }
}

#[test]
fn a_pressure_over_its_limit_fails() {
    let asked = ["1000 psi * width / width <= 900 psi", "900 psi * width / width <= 900 psi"].map(str::to_owned);
    assert_eq!(verdicts(&asked), [false, true]);
    let asked = ["49.94 plf * width / width >= 50 plf", "50 plf * width / width >= 50 plf"].map(str::to_owned);
    assert_eq!(verdicts(&asked), [false, true]);
}

/// A limit in one unit, a value in another: how far the one is in the other is `uom`'s to say.
#[test]
fn a_value_in_another_unit_is_held_to_its_limit() {
    let psi = Pressure::new::<pressure::pound_force_per_square_inch>(1.0);
    let pound = Force::new::<force::pound_force>(1.0);
    let foot = Length::new::<length::foot>(1.0);
    let plf = (pound / foot).value;
    for (limit, unit, one, marks) in [
        ("1000 psi", "MPa", psi.get::<pressure::megapascal>() * 1000.0, 1e4),
        ("40 psf", "kPa", (pound / (foot * foot)).get::<pressure::kilopascal>() * 40.0, 1e4),
        ("50 plf", "N/m", plf * 50.0, 10.0),
        ("50 plf", "kN/m", plf * 50.0 / 1000.0, 1e4),
        ("200 lb", "N", pound.get::<force::newton>() * 200.0, 10.0),
        ("36\"", "mm", Length::new::<length::inch>(36.0).get::<length::millimeter>() + 0.05, 10.0),
    ] {
        let below = (one * marks).floor() / marks;
        let above = below + 1.0 / marks;
        let asked: Vec<String> = [below, above]
            .iter()
            .flat_map(|value| ["<=", ">="].map(|sign| format!("{value:.4} {unit} * width / width {sign} {limit}")))
            .collect();
        let below_is_at = unit == "mm";
        assert_eq!(verdicts(&asked), [true, below_is_at, false, true], "{asked:?}");
    }
}

/// A moment, a volume and a force on a volume are no unit's, and have limits all the same.
#[test]
fn mixed_dimensions_have_limits_too() {
    let hold = |value: &str, limit: &str| {
        let asked = [format!("{value} <= {limit}"), format!("{value} >= {limit}"), format!("{value} = {limit}")];
        <[bool; 3]>::try_from(verdicts(&asked)).unwrap()
    };
    for (over, at) in [
        ("200.1 lb * width", "200 lb * width"),
        ("0.1 lb * 1/64\" * width / width", "0 lb * 1/64\""),
        ("1/64\" * 1/64\" * 1/64\" * width / width", "0\" * 1\" * 1\""),
        ("0.1 mm * 0.1 mm * 0.1 mm * 0.1 mm * width / width", "0\" * 1\" * 1\" * 1\""),
        ("0.1 psi / 10 m * width / width", "0 psi / 10 m"),
        ("900.1 psi / width", "900 psi / width"),
        ("1/64\" / 1000 lb * width / width", "0\" / 1000 lb"),
        ("1.1° / width", "1° / width"),
    ] {
        assert_eq!(hold(over, at), [false, true, false], "{over} against {at}");
        assert_eq!(hold(&format!("{at} * width / width"), at), [true, true, true], "{at}");
    }
}
