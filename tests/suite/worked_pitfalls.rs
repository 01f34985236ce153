//! Where the published figures trap a checker of dwellings: prints that do not match their own inches, and limits that
//! are strict. Sums by arithmetic; limits seen in Jefferson County's handouts on the IRC, unless said otherwise.

use crate::worked::{draw, inches, near, number, residential, steps, workshop};
use pitchboard::measure::MILLIMETRE;

#[test]
fn the_printed_millimetres_govern_what_is_metric_where_they_round_the_inches() {
    // R311.7.5.1 prints 196 mm for 7-3/4 in, which is 196.85 exactly. A riser between the two passes in inches alone.
    let riser = |height: &str| residential("riser height", &format!("flight {{ risers: 4 of {height} }}"));
    assert_eq!(number(&draw("flight { risers: 4 of 7-3/4\" }"), "riser", 0, "height"), 196.85 * MILLIMETRE);
    for (height, stands) in [
        ("196 mm", "pass"),
        ("196.01 mm", "fail"),
        ("196.85 mm", "fail"),
        ("7.74\"", "pass"),
        ("7-3/4\"", "pass"),
        ("197 mm", "fail"),
    ] {
        assert_eq!(riser(height), stands, "{height}");
    }
    // R311.7.1 prints 787 mm for 31-1/2 in, which is 800.1 exactly (787 is 31 in less 0.4 mm), and 698 mm for 27 in,
    // which is 685.8 exactly.
    let between = |sides: &str, left: f64| {
        let rails = if sides == "left" { 1.0 } else { 2.0 };
        let body = format!(
            "flight {{ risers: 4 of 180 mm; width: {} mm }}; handrail {sides} {{ section: round 40 mm; clearance: 40 mm }}",
            left + rails * 80.0
        );
        near(number(&draw(&body), "flight", 0, "width at the rails") / MILLIMETRE, left, 1e-9);
        residential(if rails == 1.0 { "width beside one rail" } else { "width between two rails" }, &body)
    };
    assert_eq!((between("left", 787.0), between("left", 800.0), between("left", 800.1)), ("fail", "fail", "pass"));
    let two = "left, right";
    assert_eq!((between(two, 685.0), between(two, 685.8), between(two, 698.0)), ("fail", "pass", "pass"));
    // R311.7.8.5 prints 160 mm for a perimeter of 6-1/4 in, which is 158.75 exactly (a handout on handrails; Texas's
    // and California's prints of the same rule say 160 and 159). A square of 40 mm is 160 round and fails.
    let grip = |side: &str| {
        residential(
            "grip of a shaped handrail",
            &format!("{}; handrail left {{ section: square {side} }}", steps(4, 7.0, 10.0)),
        )
    };
    assert_eq!((grip("39 mm"), grip("39.6875 mm"), grip("39.75 mm"), grip("40 mm")), ("pass", "pass", "fail", "fail"));
}

#[test]
fn the_steepest_step_that_passes_is_not_a_comfortable_one() {
    // 7-3/4 by 10 passes R311.7.5.1 and R311.7.5.2, at both limits. Of the comfort sums, 2R+T is 25.5 (24 to 25 in
    // Architectural Graphic Standards) and RxT is 77.5 (70 to 75 in the Cyclopedia of Architecture), both over; R+T is
    // 17.75 (17 to 18 in a drawing textbook), within. Pitch 37.776.
    let verdicts = |rise: f64, run: f64| {
        let body = steps(4, rise, run);
        assert_eq!(residential("riser height", &body), "pass");
        assert_eq!(residential("tread depth", &body), "pass");
        let rise = inches(&body, "flight", 0, "unit rise");
        let run = inches(&body, "flight", 0, "unit run");
        let sums = (2.0 * rise + run, rise * run, rise + run);
        let rules = ["two risers and a run", "riser by run", "riser and run"].map(|rule| workshop(rule, &body));
        (sums, rules, number(&draw(&body), "flight", 0, "pitch"))
    };
    let (sums, rules, pitch) = verdicts(7.75, 10.0);
    assert_eq!(sums, (25.5, 77.5, 17.75));
    assert_eq!(rules, ["fail", "fail", "pass"]);
    near(pitch, 37.776, 5e-4);
    // 7 by 11 meets 2R+T (25) and R+T (18), but not the product (77). Pitch 32.471.
    let (sums, rules, pitch) = verdicts(7.0, 11.0);
    assert_eq!(sums, (25.0, 77.0, 18.0));
    assert_eq!(rules, ["pass", "fail", "pass"]);
    near(pitch, 32.471, 5e-4);
}

#[test]
fn more_than_thirty_inches_is_strict() {
    // R312.1.1: a landing 30.0 in up (4 risers of 7-1/2) needs no guard, one 31.0 in up (4 of 7-3/4) does; the treads
    // below it lie at 22-1/2 and 23-1/4 and need none. R311.7.8: both flights need a handrail.
    let cases = [("7-1/2\"", 30.0, 22.5, "pass"), ("7-3/4\"", 31.0, 23.25, "fail")];
    for (rise, top, tread, landing) in cases {
        let body = format!(
            "flight {{ risers: 4 of {rise}; runs: 3 of 10\" }}; landing top {{ }}; ground {{ below: 0\"; slope: level }}"
        );
        assert_eq!(inches(&body, "landing", 0, "unguarded drop within 36\""), top);
        assert_eq!(inches(&body, "tread", 2, "unguarded drop within 36\""), tread);
        assert_eq!(residential("guard needed at a landing", &body), landing);
        assert_eq!(residential("guard needed at a tread", &body), "pass");
        assert_eq!(residential("handrail needed", &body), "fail");
    }
}

#[test]
fn a_sphere_that_just_fits_passes_through() {
    // R312.1.3 and R311.7.5.1, "shall not pass": an opening of exactly the sphere lets it through and fails.
    let flight = "flight { risers: 5 of 7-1/2\"; runs: 4 of 10\" }";
    let level = |gap: &str| {
        let guard =
            format!("{flight}; landing top {{ guard left {{ balusters: square 1\" every {gap}; end gap: 3\" }} }}");
        (inches(&guard, "guard", 0, "opening"), residential("guard openings on the level", &guard))
    };
    assert_eq!(level("5\""), (4.0, "fail"));
    assert_eq!(level("4-63/64\""), (3.984375, "pass"));
    // 101.6 mm is 4 in exactly; the printed 102 is more, and holds what is metric. Risers in inches are not behind it.
    let metric = |every: f64| {
        let guard = format!(
            "{flight}; landing top {{ guard left {{ balusters: square 25.4 mm every {every} mm; end gap: 76 mm }} }}"
        );
        residential("guard openings on the level", &guard)
    };
    assert_eq!((metric(127.0), metric(127.3), metric(127.4)), ("pass", "pass", "fail"));
    let beside = |gap: &str| {
        let guard = format!(
            "{flight}; guard left {{ balusters: square 1\" every {gap}; end gap: 3\" }}; ground {{ below: 1\"; slope: level }}"
        );
        (inches(&guard, "guard", 0, "opening"), residential("guard openings on a flight", &guard))
    };
    assert_eq!(beside("5-3/8\""), (4.375, "fail"));
    assert_eq!(beside("5-23/64\""), (4.359375, "pass"));
    // Beneath a guard on the level, and between treads.
    let under = |gap: &str| {
        residential(
            "gap under a level guard",
            &format!("{flight}; landing top {{ guard left {{ bottom gap: {gap} }} }}"),
        )
    };
    assert_eq!((under("4\""), under("3-63/64\"")), ("fail", "pass"));
    // The triangle: 7-1/2 by 10 and a rail 1.2 in off the line of the nosings give 6 in exactly.
    let triangle = |gap: &str| {
        let body = format!(
            "{flight}; tread {{ nosing: 0\" }}; riser board {{ }}; guard left {{ bottom gap: {gap} }}; ground {{ below: 1\"; slope: level }}"
        );
        residential("guard triangle", &body)
    };
    assert_eq!((triangle("1.2\""), triangle("1.19\"")), ("fail", "pass"));
}
