//! Where units, printed figures and limits that stand each for itself have trapped checkers. The figures are those of
//! the codes named beside them; sums on them are arithmetic.

use crate::worked::{draw, number, standing};

/// Whether a stair meets a rule, which has to speak of it and to be decided.
#[track_caller]
fn meets(set: &str, rule: &str, body: &str) -> bool {
    match standing(set, rule, body) {
        "pass" => true,
        "fail" => false,
        stands => panic!("{rule} is {stands}: {body}"),
    }
}

fn pitch(body: &str) -> f64 {
    number(&draw(body), "flight", 0, "pitch")
}

/// Four risers and three runs, in millimetres.
fn steps(rise: f64, going: f64) -> String {
    format!("flight {{ risers: 4 of {rise} mm; runs: 3 of {going} mm }}")
}

/// The 2010 ADA Standards print millimetres beside their inches, rounded to either side: 7 in (177.8) as 180, 11 in
/// (279.4) as 280, 4 in (101.6) as 100, 34 in (863.6) as 865. The inches govern.
#[test]
fn rounded_millimetres_of_the_accessible_standard_are_not_its_limits() {
    let riser = |rise: f64| meets("accessible", "riser height", &steps(rise, 280.0));
    assert!(riser(177.8) && !riser(177.9) && !riser(180.0), "180 mm is 7.087 in");
    assert!(riser(101.6) && !riser(101.5) && !riser(100.0), "100 mm is 3.937 in");
    let tread = |run: f64| meets("accessible", "tread depth", &steps(170.0, run));
    assert!(tread(280.0) && tread(279.4) && !tread(279.3));
    let rail = |height: f64| {
        let body = format!("{}; handrail left {{ height: {height} mm }}", steps(170.0, 280.0));
        meets("accessible", "handrail height", &body)
    };
    assert!(rail(865.0) && rail(863.6) && !rail(863.5));
    assert!(rail(965.0) && rail(965.2) && !rail(965.3), "38 in, printed as 965");
}

/// A perimeter of 6-1/4 in is 158.75 mm; the IRC and the ADA print 160, California 159.
#[test]
fn a_printed_perimeter_is_wider_than_its_inches() {
    for set in ["residential", "public", "accessible"] {
        let square = |side: f64| {
            let body = format!("{}; handrail left {{ section: square {side} mm }}", steps(170.0, 280.0));
            meets(set, "grip of a shaped handrail", &body)
        };
        assert!(square(158.75 / 4.0), "{set}");
        assert!(!square(159.0 / 4.0) && !square(160.0 / 4.0), "{set}");
    }
}

/// Approved Document K 2013, Table 1.1 and its note 1: rise 150 to 220, going 220 to 300, and no more than 42 degrees.
#[test]
fn a_private_stair_within_both_ranges_may_be_too_steep() {
    let private =
        |rule: &str, going: f64| meets("dwelling-metric", rule, &format!("access: private; {}", steps(220.0, going)));
    assert!(private("rise of a private stair", 220.0) && private("going of a private stair", 220.0));
    assert!((pitch(&steps(220.0, 220.0)) - 45.0).abs() < 1e-9);
    assert!(!private("pitch of a private stair", 220.0));
    // 220 / tan 42 is 244.33.
    assert!(!private("pitch of a private stair", 244.33) && private("pitch of a private stair", 244.34));
}

/// The British Woodworking Federation gives 244 mm for a rise of 220; that is rounded, and just past 42 degrees.
#[test]
fn the_going_of_the_trade_is_a_hair_too_short() {
    for (going, degrees, passes) in [(244.0, 42.039, false), (245.0, 41.923, true)] {
        assert!((pitch(&steps(220.0, going)) - degrees).abs() < 5e-4, "{going}");
        let body = format!("access: private; {}", steps(220.0, going));
        assert_eq!(meets("dwelling-metric", "pitch of a private stair", &body), passes, "{going}");
    }
}

/// Approved Document K 2013, Table 1.1: within the ranges of each category, twice the rise and the going may come to
/// 520, 740 and 780, where 550 to 700 is asked.
#[test]
fn rise_and_going_within_their_ranges_may_be_no_stride() {
    for (access, rise, going, sum) in
        [("private", 150.0, 220.0, 520.0), ("general", 170.0, 400.0, 740.0), ("utility", 190.0, 400.0, 780.0)]
    {
        let body = format!("access: {access}; {}", steps(rise, going));
        assert!((2.0 * rise + going - sum).abs() < f64::EPSILON);
        assert!(meets("dwelling-metric", &format!("rise of a {access} stair"), &body), "{access}");
        let goings =
            if access == "private" { "going of a private stair" } else { "going of a utility or general stair" };
        assert!(meets("dwelling-metric", goings, &body), "{access}");
        assert!(!meets("dwelling-metric", "twice the rise and the going", &body), "{access}");
    }
}

/// 29 CFR 1910.25(c): 30 to 50 degrees, and a riser of at most and a tread of at least 9-1/2 in, which give at most 45.
/// A letter of 17 June 2025 says so, and refuses a rise of 9-1/2 with a run of 8 and a nosing of 1-1/2.
#[test]
fn half_of_the_angles_of_a_work_place_cannot_be_reached() {
    let stair = |rise: f64, run: f64| format!("flight {{ risers: 4 of {rise}\"; runs: 3 of {run}\" }}");
    let steepest = stair(9.5, 9.5);
    assert!((pitch(&steepest) - 45.0).abs() < 1e-9);
    assert!(["riser height", "tread depth", "angle"].iter().all(|rule| meets("workplace", rule, &steepest)));
    let refused = format!("{}; tread {{ section: 1-1/2\" x 9-1/2\"; nosing: 1-1/2\" }}", stair(9.5, 8.0));
    assert!(meets("workplace", "angle", &refused) && meets("workplace", "riser height", &refused));
    assert!(!meets("workplace", "tread depth", &refused));
    // Past 45 degrees one of the two always gives way, wherever the angle itself is allowed.
    for run in [8.0, 8.5, 9.0, 9.4, 9.5, 10.0] {
        for degrees in [45.1, 47.0, 49.9] {
            let body = stair(run * f64::to_radians(degrees).tan(), run);
            assert!(meets("workplace", "angle", &body), "{body}");
            assert!(!(meets("workplace", "riser height", &body) && meets("workplace", "tread depth", &body)), "{body}");
        }
    }
}

/// A guard that says no side closes the one that is open; of two that are open it may stand at either. IRC 2021,
/// R312.1.1: a side more than 30 in above the floor below takes a guard.
#[test]
fn a_guard_of_no_side_is_not_taken_for_two() {
    let tread = |sides: &str| {
        let body = format!("flight {{ risers: 6 of 7\"; runs: 5 of 10\"; {sides} }}");
        standing("residential", "guard needed at a tread", &body)
    };
    assert_eq!(tread("wall right { }; guard \"over the mud\" { height: 36\" }"), "pass");
    assert_eq!(tread("guard right { height: 36\" }; guard \"over the mud\" { height: 36\" }"), "pass");
    assert_eq!(tread("guard left { height: 36\" }"), "fail");
    assert!(!["pass", "fail"].contains(&tread("guard \"over the mud\" { height: 36\" }")));
}
