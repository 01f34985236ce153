//! A limit is a limit in every unit: one smallest mark past it fails, at it passes, whatever base units it is held in.

use pitchboard::base::Source;
use pitchboard::check::Library;
use pitchboard::derive::Working;
use pitchboard::{model, rules, syntax};
use proptest::prelude::*;
use uom::si::f64::{Force, Length, Pressure};
use uom::si::{force, length, pressure};

struct Empty;

impl Library for Empty {
    fn ruleset(&self, name: &str, _asked_by: Option<&str>) -> Result<Source, String> {
        Err(format!("no set `{name}`"))
    }
}

/// Whether each requirement holds for a flight 36 in wide, read as the clause of a rule in a ruleset.
fn verdicts(requirements: &[String]) -> Vec<bool> {
    let rule = |at: usize, asked: &String| {
        format!("rule \"r{at}\" {{ each flight shall have {asked}\n source: \"common practice, no source\" }}")
    };
    let text: Vec<String> = requirements.iter().enumerate().map(|(at, asked)| rule(at, asked)).collect();
    let text = format!("ruleset \"limits\" {{ }}\nchapter \"limits\" {{ {} }}", text.join("\n"));
    let mut findings = Vec::new();
    let set = rules::load(&Source::new("limits.rules", text), &Empty, &mut findings);
    assert!(findings.is_empty(), "{:?}", findings.iter().map(|finding| &finding.message).collect::<Vec<_>>());
    assert_eq!(set.rules.len(), requirements.len());
    let design = Source::new("bird-hide.stair", "stair \"Bird hide\" { flight { width: 36\" } }");
    let (tree, mut findings) = syntax::parse_design(&design);
    let stairs = model::build(&tree, &design, &mut findings);
    assert!(findings.is_empty());
    let working = Working::new(&stairs[0].drawn);
    let verdict = |rule| match rules::hold(rule, &working).as_slice() {
        [outcome] => match outcome.standing {
            rules::Standing::Pass => true,
            rules::Standing::Fail(_) => false,
            ref other => panic!("{other:?}"),
        },
        other => panic!("{other:?}"),
    };
    set.rules.iter().map(verdict).collect()
}

/// A figure of so many smallest marks of a unit.
type Write = fn(u32) -> String;

/// The mark beside each unit that a rule, a saw or a scale is set to, or a tenth of the unit where that is coarser.
const MARKS: &[(&str, Write)] = &[
    ("in", |n| format!("{}/64\"", n)),
    ("in, decimal", |n| format!("{}\"", f64::from(n) / 64.0)),
    ("ft and in", |n| format!("{}'-{}\"", n / 768, f64::from(n % 768) / 64.0)),
    ("mm", |n| format!("{} mm", tenths(n))),
    ("cm", |n| format!("{}.{:02} cm", n / 100, n % 100)),
    ("m", |n| format!("{}.{:04} m", n / 10_000, n % 10_000)),
    ("degree", |n| format!("{}°", tenths(n))),
    ("number", tenths),
    ("percent", |n| format!("{}%", tenths(n))),
    ("1 in", |n| format!("1:{}", tenths(n + 10))),
    ("per foot", |n| format!("{n}/64\" per 12\"")),
    ("lb", |n| format!("{} lb", tenths(n))),
    ("N", |n| format!("{} N", tenths(n))),
    ("kN", |n| format!("{}.{:03} kN", n / 1000, n % 1000)),
    ("psf", |n| format!("{} psf", tenths(n))),
    ("psi", |n| format!("{} psi", tenths(n))),
    ("kPa", |n| format!("{}.{:03} kPa", n / 1000, n % 1000)),
    ("MPa", |n| format!("{}.{:03} MPa", n / 1000, n % 1000)),
    ("plf", |n| format!("{} plf", tenths(n))),
    ("kN/m", |n| format!("{}.{:03} kN/m", n / 1000, n % 1000)),
    ("N/m", |n| format!("{} N/m", tenths(n))),
    ("sq in", |n| format!("{} sq in", tenths(n))),
    ("sq ft", |n| format!("{} sq ft", tenths(n))),
    ("mm2", |n| format!("{} mm2", tenths(n))),
];

fn tenths(n: u32) -> String {
    format!("{}.{}", n / 10, n % 10)
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
        for (unit, write) in MARKS {
            // Slopes finer than `1 in 500` are none.
            let n = if *unit == "1 in" { n % 5_000 + 1 } else { n };
            for (relation, holds) in RELATIONS {
                for (at, holds) in (0..3).zip(holds) {
                    // The more of a run that `1 in` goes along, the less the slope.
                    let value = if *unit == "1 in" { n + 1 - at } else { n + at - 1 };
                    // What the design says stands in it, so that it is no constant, and a division spoils its last bits.
                    asked.push(format!("{} * width / width {relation} {}", write(value), write(n)));
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
