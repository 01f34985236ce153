//! Worked examples of places in the stair: the drop of a stringer, headroom under a floor, doors, open risers, the
//! slope of a rail. Sources stand beside each; `arithmetic` is plain sums on them.
//!
//! Sums of stated lengths are exact in the tool, so they are held without tolerance; where a root, a tangent or a
//! quotient comes in, the tolerance is half of the last figure that is shown.

use crate::worked::{draw, inches, near, number, residential, steps, workshop};

#[test]
fn finished_risers_of_a_dropped_stringer() {
    let cut = |risers: &str, runs: usize, tread: &str, first: &str, more: &str| {
        format!(
            "{more} flight {{ risers: {risers}; runs: {runs} of 10\" }}; tread {{ section: {tread} }}; \
             stringer {{ cut: notched; first cut: {first} }}"
        )
    };
    let ends = |body: &str| {
        (inches(body, "stringer", 0, "finished first riser"), inches(body, "stringer", 0, "finished last riser"))
    };
    // Carpenters Guide, Stairs: the bottom is cut by the thickness of the tread. 7 in risers, 1 in treads: a first cut
    // of 6, and every riser comes to 7 (figures by arithmetic).
    let dropped = cut("16 of 7\"", 15, "1\" x 11\"", "6\"", "");
    assert_eq!(ends(&dropped), (7.0, 7.0));
    assert_eq!(workshop("first cut", &dropped), "pass");
    // The same, not dropped: the bottom is a tread too high, the top a tread too low.
    assert_eq!(ends(&cut("16 of 7\"", 15, "1\" x 11\"", "7\"", "")), (8.0, 6.0));

    // Stringer Layout at Landing Difference: risers 7-5/8, treads 1-1/8, and a landing deck of 3/4, thinner than the
    // tread, still to come at the foot: 3/8 off, a first cut of 7-1/4, and all finished risers 7-5/8.
    let landing = cut("14 of 7-5/8\"", 13, "1-1/8\" x 11\"", "7-1/4\"", "bottom finish: 3/4\";");
    assert_eq!(inches(&landing, "stringer", 0, "first cut needed"), 7.25);
    assert_eq!(ends(&landing), (7.625, 7.625));
    assert_eq!(workshop("first cut", &landing), "pass");

    // Arithmetic: 7-1/4 risers, 3/16 of finish on the treads, not dropped: 7-7/16 at the bottom and 7-1/16 at the top,
    // a spread of exactly 3/8, which IRC 2021 R311.7.5.1 lets pass.
    let (first, last) = ends(&cut("13 of 7-1/4\"", 12, "3/16\" x 11\"", "7-1/4\"", ""));
    assert_eq!((first, last, first - last), (7.4375, 7.0625, 0.375));
    let finished = format!("flight {{ risers: {first}\", 11 of 7-1/4\", {last}\" }}");
    assert_eq!(residential("riser spread", &finished), "pass");

    // Building Code Forum, Stair Rise, page 2: treads that all tilt 1/8 in toward the nosing over 13 risers gain
    // 12 x 1/8 = 1-1/2 in of total rise. Each is well within 1 in 48 (IRC 2021 R311.7.7); the sum is what is missed.
    let tilted =
        "total rise: 92-1/2\"; flight { risers: 13 of 7\"; runs: 12 of 11\" }; tread { slope: 1/8\" per 11\" }";
    assert_eq!(inches(tilted, "stair", 0, "rise closure"), 1.5);
    assert_eq!(workshop("rise adds up", tilted), "fail");
    assert_eq!(residential("tread slope", tilted), "pass");
    // Same page: an 11 in tread at 2 % falls 0.22 in.
    let fall = |slope: &str| {
        residential("tread slope", &format!("flight {{ risers: 2 of 7\"; runs: 11\" }}; tread {{ slope: {slope} }}"))
    };
    assert_eq!((fall("0.22\" per 11\""), fall("0.23\" per 11\"")), ("pass", "fail"));
}

#[test]
fn headroom_under_a_floor() {
    // Carpenters Guide, Stairs: a ceiling of 8 ft 6, the third riser at 21 in, 6 ft 9 left: 102 - 21 = 81.
    let guide =
        "setting: outdoors; flight { risers: 12 of 7\"; runs: 11 of 10\" }; ceiling { height: 8'-6\"; to: 20\" }";
    assert_eq!(inches(guide, "ceiling", 0, "headroom"), 81.0);
    assert_eq!(residential("headroom", guide), "pass");

    // A general how-to on stairway openings: headroom and depth of the floor, over the riser, times the run, is the
    // length of the opening from the edge of the floor above. The floor lies `depth` under the head of the stair.
    let opening = |risers: usize, rise: f64, run: f64, depth: f64, opening: f64| {
        #[allow(clippy::cast_precision_loss)]
        let (climb, length) = (risers as f64 * rise, (risers - 1) as f64 * run);
        format!(
            "setting: outdoors; {}; ceiling {{ height: {}\"; to: {}\" }}",
            steps(risers, rise, run),
            climb - depth,
            length - opening
        )
    };
    // Figures by arithmetic. 80 in clear, 10 in of floor, 7-1/2 by 10: 12 risers down, 120 in.
    assert_eq!((80.0 + 10.0) / 7.5 * 10.0, 120.0);
    let exact = opening(14, 7.5, 10.0, 10.0, 120.0);
    assert_eq!(inches(&exact, "ceiling", 0, "headroom"), 80.0);
    assert_eq!(residential("headroom", &exact), "pass");
    let short = opening(14, 7.5, 10.0, 10.0, 119.875);
    near(inches(&short, "ceiling", 0, "headroom"), 80.0 - 0.125 * 0.75, 1e-9);
    assert_eq!(residential("headroom", &short), "fail");
    // 80 in clear, 11-3/4 of floor, 7-1/4 by 10-1/2: 132.879 in, told to a thousandth, which is 0.0003 in of headroom.
    let told = opening(15, 7.25, 10.5, 11.75, 132.879);
    near(inches(&told, "ceiling", 0, "headroom"), 80.0, 5e-4 * 7.25 / 10.5);
    assert_eq!(residential("headroom", &opening(15, 7.25, 10.5, 11.75, 132.88)), "pass");
    assert_eq!(residential("headroom", &opening(15, 7.25, 10.5, 11.75, 132.87)), "fail");
}

#[test]
fn a_rail_set_square_to_the_slope_is_too_high() {
    // Arithmetic on IRC 2021 R311.7.8.1: 34 in plumb over 7-3/4 by 10 (37.776 degrees) is 26.874 in square to the
    // slope; 34 in square to the slope is 43.015 in plumb (told as 43.01), above the 38 in.
    let pitch = number(&draw(&steps(4, 7.75, 10.0)), "flight", 0, "pitch").to_radians();
    near(34.0 * pitch.cos(), 26.874, 5e-4);
    let plumb = 34.0 / pitch.cos();
    near(plumb, 43.0154, 5e-5);
    let rail = |height: f64| format!("{}; handrail left {{ height: {height}\" }}", steps(4, 7.75, 10.0));
    assert_eq!(residential("handrail height", &rail(34.0)), "pass");
    assert_eq!(residential("handrail height", &rail(plumb)), "fail");
}

#[test]
fn two_risers_at_a_side_door_and_a_long_flight_indoors() {
    // IRC 2021 R311.3.2, as a Building Code Forum thread on landings quotes it: no landing at the head of two risers
    // outside a door that is not the required way out, unless it swings over them.
    let door = |risers: usize, swing: &str, egress: &str| {
        let flight = steps(risers, 7.0, 10.0);
        residential(
            "landing at the head",
            &format!("setting: outdoors; {flight}; door {{ at: top; swing: {swing}; egress: {egress} }}"),
        )
    };
    for away in ["away from the stair", "slides"] {
        assert_eq!(door(2, away, "no"), "not applicable");
        assert_eq!(door(3, away, "no"), "fail");
        assert_eq!(door(2, away, "yes"), "fail");
    }
    assert_eq!(door(2, "over the stair", "no"), "fail");
    // The thread's pair: three risers outside a sliding door need a landing; fourteen down to a cellar, with the door
    // opening the other way, need none (R311.7.6).
    let cellar =
        |swing: &str| format!("setting: indoors; {}; door {{ at: top; swing: {swing} }}", steps(14, 7.0, 10.0));
    assert_eq!(residential("landing at the head", &cellar("away from the stair")), "not applicable");
    assert_eq!(residential("door over the steps", &cellar("away from the stair")), "not applicable");
    assert_eq!(residential("door over the steps", &cellar("over the stair")), "fail");
    // R311.3.1 and R311.3.2, from another thread: 1-1/2 in under the threshold of the way out, 7-3/4 where the door
    // does not swing over the landing.
    let way_out = |swing: &str, threshold: &str| {
        let door = format!(
            "setting: outdoors; {}; landing top {{ }}; door {{ at: top; egress: yes; swing: {swing}; threshold: {threshold} }}",
            steps(3, 7.0, 10.0)
        );
        (residential("threshold of the way out", &door), residential("door threshold", &door))
    };
    assert_eq!(way_out("over the stair", "1-1/2\""), ("pass", "pass"));
    assert_eq!(way_out("over the stair", "1-9/16\""), ("fail", "pass"));
    assert_eq!(way_out("away from the stair", "7-3/4\""), ("not applicable", "pass"));
    assert_eq!(way_out("away from the stair", "7-13/16\""), ("not applicable", "fail"));
}

#[test]
fn open_risers_filled_by_the_tread() {
    // Arithmetic on IRC 2021 R311.7.5.1: of a 7-3/4 riser, tread (or tread and bar) must fill more than 3-3/4 to stop
    // a 4 in ball; the ball just fits at 3-3/4 and passes.
    let filled = |tread: &str| {
        format!(
            "flight {{ risers: 8 of 7-3/4\"; runs: 7 of 10\" }}; tread {{ section: {tread} x 11\" }}; \
             landing top {{ thickness: {tread} }}"
        )
    };
    assert_eq!(inches(&filled("3-3/4\""), "riser", 5, "opening"), 4.0);
    assert_eq!(residential("open risers", &filled("3-3/4\"")), "fail");
    assert_eq!(residential("open risers", &filled("3-49/64\"")), "pass");
    // Row of the same clause: the height is that above the floor or the grade below, not above the foot alone.
    let low = |below: &str| format!("{}; ground {{ below: {below}; slope: level }}", filled("1-1/2\""));
    assert_eq!(inches(&low("0\""), "riser", 2, "height above ground"), 23.25);
    assert_eq!(inches(&low("7\""), "riser", 2, "height above ground"), 30.25);
}

#[test]
fn four_risers_of_27_inches() {
    // A home repair page, Calculating Stairs: 27 in makes 4 risers of 6-3/4. By IRC 2021 R311.7.8 four risers want a
    // handrail; by R312.1.1 27 in is no height for a guard.
    let four = "flight { risers: 4 of 6-3/4\"; runs: 3 of 10\" }; landing top { }; ground { below: 0\"; slope: level }";
    assert_eq!(inches(four, "stair", 0, "rise"), 27.0);
    assert_eq!(residential("handrail needed", four), "fail");
    assert_eq!(residential("guard needed at a landing", four), "pass");
    assert_eq!(residential("guard needed at a tread", four), "pass");
}

#[test]
fn the_triangle_plumb_and_square_to_the_slope() {
    // Arithmetic on IRC 2021 R312.1.3: how far plumb above the line of the nosings the underside of the rail may lie
    // until the 6 in ball passes, and the same square to the slope, which is what a design states. No nosing. Both are
    // told to 1e-4, and the ball grows by less than four times what the rail is moved.
    let cases = [
        (7.75, 10.0, 1.3705, 1.0832),
        (7.5, 10.0, 1.5, 1.2),
        (7.0, 11.0, 1.4650, 1.2360),
        (7.25, 10.5, 1.4671, 1.2073),
        (6.5, 11.0, 1.7573, 1.5129),
    ];
    for (rise, run, plumb, square) in cases {
        let guard = |gap: f64| {
            format!(
                "{}; tread {{ nosing: 0\" }}; riser board {{ }}; guard left {{ bottom gap: {gap}\" }}",
                steps(6, rise, run)
            )
        };
        let pitch = number(&draw(&steps(6, rise, run)), "flight", 0, "pitch").to_radians();
        near(plumb * pitch.cos(), square, 1e-4);
        near(inches(&guard(plumb * pitch.cos()), "guard", 0, "triangle opening"), 6.0, 4e-4);
        assert_eq!(residential("guard triangle", &guard(square - 2e-4)), "pass", "{rise} by {run}");
        assert_eq!(residential("guard triangle", &guard(square + 2e-4)), "fail", "{rise} by {run}");
    }
}

#[test]
fn diagonals_of_square_grips() {
    // Arithmetic on IRC 2021 R311.7.8.5, Type I: a square of 1-9/16 is 6-1/4 round and 2.2097 across, within 2-1/4; of
    // 1-5/8 it is 6-1/2 round and 2.298 across, and misses both. The perimeter governs: 1.591 would do across.
    let rail = |section: &str| format!("{}; handrail left {{ section: {section} }}", steps(4, 7.0, 10.0));
    for (side, perimeter, across, stands) in
        [("1-9/16\"", 6.25, 2.2097, "pass"), ("1-5/8\"", 6.5, 2.2981, "fail"), ("1.591\"", 6.364, 2.25, "fail")]
    {
        let body = rail(&format!("square {side}"));
        near(inches(&body, "handrail", 0, "perimeter"), perimeter, 1e-9);
        near(inches(&body, "handrail", 0, "across"), across, 5e-5);
        assert_eq!(residential("grip of a shaped handrail", &body), stands, "{side}");
    }
    // A 2x4, on edge or flat, is 10 in round and 3.81 across, and has no recess: neither type.
    near(inches(&rail("2x4"), "handrail", 0, "perimeter"), 10.0, 1e-9);
    near(inches(&rail("2x4"), "handrail", 0, "across"), 3.81, 5e-3);
    assert_eq!(residential("grip of a shaped handrail", &rail("2x4")), "fail");
    assert_eq!(residential("grip of a shaped handrail", &rail("3-1/2\" x 1-1/2\"")), "fail");
}
