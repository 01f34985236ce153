//! The library against worked examples: sums that handbooks, codes and standards print, or that plain arithmetic gives.
//! Where a printed figure is itself rounded or wrong, the exact one is the check and the comment says how they differ.

use crate::worked::{ask, draw, inches, near, number, residential, steps, workshop};
use pitchboard::measure::{Dimension, INCH, MILLIMETRE};

/// Rows of Table D-1 of old 29 CFR 1910.24(e), still kept for older stairs by 1910.25(c)(5); seen as WAC 296-24-76511:
/// degrees and minutes as printed, riser, run, all in inches; then 2R+T, RxT and the unit line by arithmetic.
const OSHA: &[(f64, f64, f64, f64, f64, f64, f64)] = &[
    (30.0, 35.0, 6.5, 11.0, 24.0, 71.5, 12.7769),
    (32.0, 8.0, 6.75, 10.75, 24.25, 72.5625, 12.6935),
    (33.0, 41.0, 7.0, 10.5, 24.5, 73.5, 12.6194),
    (36.0, 52.0, 7.5, 10.0, 25.0, 75.0, 12.5),
    (38.0, 29.0, 7.75, 9.75, 25.25, 75.5625, 12.4549),
    (40.0, 8.0, 8.0, 9.5, 25.5, 76.0, 12.4197),
    (43.0, 22.0, 8.5, 9.0, 26.0, 76.5, 12.3794),
    (45.0, 0.0, 8.75, 8.75, 26.25, 76.5625, 12.3744),
    (46.0, 38.0, 9.0, 8.5, 26.5, 76.5, 12.3794),
    (49.0, 54.0, 9.5, 8.0, 27.0, 76.0, 12.4197),
];

#[test]
fn pitch_agrees_with_the_osha_angle_table() {
    for (degrees, minutes, rise, run, stride, product, line) in OSHA {
        let stair = draw(&steps(9, *rise, *run));
        let pitch = number(&stair, "flight", 0, "pitch");
        // Printed to the minute, one of them (8 by 9-1/2) two minutes too large: 40 08' for 40 06.05'.
        let allowed = if *rise == 8.0 { 2.1 } else { 0.6 };
        near(pitch * 60.0, degrees * 60.0 + minutes, allowed);
        near(pitch, (rise / run).atan().to_degrees(), 1e-9);
        assert!((30.0..=50.0).contains(&pitch), "the range of 1910.25(c)(1)");
        let unit_rise = number(&stair, "flight", 0, "unit rise") / INCH;
        let unit_run = number(&stair, "flight", 0, "unit run") / INCH;
        assert_eq!((unit_rise + unit_run, 2.0 * unit_rise + unit_run, unit_rise * unit_run), (17.5, *stride, *product));
        near(number(&stair, "flight", 0, "nosing line") / INCH, *line, 5e-5);
        // Arithmetic on the printed pairs: which of them the comfort sums take.
        let comfort = |rule: &str| workshop(rule, &steps(9, *rise, *run));
        assert_eq!(comfort("riser and run"), "pass");
        assert_eq!(comfort("two risers and a run"), if *rise <= 7.5 { "pass" } else { "fail" }, "{rise}");
        assert_eq!(comfort("riser by run"), if *rise <= 7.5 { "pass" } else { "fail" }, "{rise}");
    }
    // A5 is the 3-4-5 triangle.
    near(inches(&steps(9, 7.5, 10.0), "flight", 0, "nosing line"), 12.5, 1e-12);
}

#[test]
fn steepest_pair_of_the_2017_limits_is_45_degrees() {
    // OSHA letter of interpretation, 17 June 2025: 9-1/2 by 9-1/2 is 45 degrees; 9-1/2 by 8 lies between 49 and 50.
    near(number(&draw(&steps(9, 9.5, 9.5)), "flight", 0, "pitch"), 45.0, 1e-9);
    let steep = number(&draw(&steps(9, 9.5, 8.0)), "flight", 0, "pitch");
    assert!((49.0..50.0).contains(&steep));
}

#[test]
fn risers_runs_and_totals_of_published_layouts() {
    // US Army EN5156, Stairway Calculations: 94 in makes 13 risers, printed 7.23 "or 7-1/4". Exact is 94/13, and
    // 13 of 7-1/4 overshoot by 1/4 in: a closure that the design has to say.
    let army = "total rise: 7'-10\"; total run: 10'-6\"; flight { risers: 13 of 7-1/4\"; runs: 12 of 10-1/2\" }";
    near(inches(army, "stair", 0, "rise"), 94.25, 0.0);
    near(inches(army, "stair", 0, "rise closure"), -0.25, 0.0);
    near(inches(&steps(13, 94.0 / 13.0, 10.5), "flight", 0, "unit rise"), 7.230769, 5e-7);
    // Same manual, Stair Run: 12 of 10-1/2 are 126 in, 10 ft 6.
    near(inches(army, "flight", 0, "run"), 126.0, 0.0);
    near(inches(army, "stair", 0, "run closure"), 0.0, 0.0);
    assert_eq!(workshop("rise adds up", army), "fail");
    assert_eq!(workshop("run adds up", army), "pass");

    // US Navy NAVEDTRA 14044, Stairway Layout: 107 in, 15 risers; 7-1/8 each (from memory) is short by 1/8.
    let navy = "total rise: 8'-11\"; flight { risers: 15 of 7-1/8\"; runs: 14 of 10-3/8\" }";
    near(inches(navy, "stair", 0, "rise closure"), 0.125, 0.0);
    // Same manual, R + T = 17-1/2; the run of 14 is arithmetic.
    near(inches(navy, "flight", 0, "unit run") + inches(navy, "flight", 0, "unit rise"), 17.5, 1e-12);
    near(inches(navy, "flight", 0, "run"), 145.25, 0.0);

    // Radford's Cyclopedia, volume 3, Stair Building Simplified: 10 ft 3 in 17 risers, 16 treads, run 12 ft 8.
    let radford = "total rise: 10'-3\"; total run: 12'-8\"; flight { risers: 17 of 7.235294\"; runs: 16 of 9-1/2\" }";
    near(inches(radford, "flight", 0, "run"), 152.0, 0.0);
    near(inches(radford, "stair", 0, "run closure"), 0.0, 0.0);
    near(inches(radford, "stair", 0, "rise closure"), 0.0, 1e-5);
    // Its "about 1 ft 2-1/2" for two of them is 14.47 exactly; taken from 9 ft 1/2 it leaves 94 in, printed 7 ft 10.
    near(2.0 * inches(radford, "flight", 0, "unit rise"), 14.470588, 5e-6);
    near(108.5 - 14.5, 94.0, 0.0);

    // Trade article, Building Stairs: 106-3/4 in is exactly 14 of 7-5/8.
    let article = "total rise: 106-3/4\"; flight { risers: 14 of 7-5/8\"; runs: 13 of 10-3/8\" }";
    near(inches(article, "stair", 0, "rise closure"), 0.0, 0.0);
    assert_eq!(workshop("rise adds up", article), "pass");

    // A how-to note: 108 in, 15 risers, "7.2, about 7-3/16". 15 of 7-3/16 are short by 3/16; 14 of 10 run 140.
    let note = "total rise: 9'; flight { risers: 15 of 7-3/16\"; runs: 14 of 10\" }";
    near(inches(note, "stair", 0, "rise closure"), 0.1875, 0.0);
    near(inches(note, "flight", 0, "run"), 140.0, 0.0);

    // A home repair page: 27 in makes 4 of 6.75 or 5 of 5.4; 8 risers at 10 in run 70.
    near(inches("total rise: 27\"; flight { risers: 4 of 6.75\" }", "stair", 0, "rise closure"), 0.0, 0.0);
    near(inches("total rise: 27\"; flight { risers: 5 of 5.4\" }", "stair", 0, "rise closure"), 0.0, 1e-9);
    near(inches(&steps(8, 7.0, 10.0), "flight", 0, "run"), 70.0, 0.0);

    // A how-to page counts 11 treads with 11 risers (the last tread level with the floor). The language counts
    // n - 1 runs, so 121 in over 10 runs is 12.1 each, not the 11 of that page.
    near(inches("flight { risers: 11 of 6.454545\"; runs: 10 of 12.1\" }", "flight", 0, "run"), 121.0, 1e-9);
    assert_eq!(workshop("one run fewer than risers", "flight { risers: 11 of 6.454545\"; runs: 11 of 11\" }"), "fail");
}

#[test]
fn comfort_sums_of_published_pairs() {
    let sum = |rule: &str, rise: f64, run: f64| workshop(rule, &steps(4, rise, run));
    // Cyclopedia of Carpentry, Laying Out Stairs: twice the riser and the run make 24.
    for (rise, run) in [(8.0, 8.0), (7.5, 9.0), (7.0, 10.0)] {
        assert_eq!(sum("two risers and a run", rise, run), "pass");
    }
    // Masonry and Concrete (2004), figure 8-5: 24 and 25 at both ends.
    for (rise, run) in [(6.0, 12.0), (5.0, 14.0), (7.0, 10.0), (7.0, 11.0), (7.5, 10.0)] {
        assert_eq!(sum("two risers and a run", rise, run), "pass");
    }
    // Cyclopedia of Architecture, Carpentry and Building, volume 1: 70 to 75 for riser times run; at 6 in, 11-2/3 to 12-1/2.
    assert_eq!(sum("riser by run", 6.0, 12.5), "pass");
    assert_eq!(sum("riser by run", 6.0, 11.667), "pass");
    assert_eq!(sum("riser by run", 6.0, 11.66), "fail");
    assert_eq!(sum("riser by run", 6.0, 12.51), "fail");
    // Building Trades Pocketbook, Notes on Stairways, wants 66: outside the band of 70 to 75.
    assert_eq!(sum("riser by run", 6.0, 11.0), "fail");
    // NY Multiple Dwelling Law, section 52(3): the same band; pairs by arithmetic.
    let law = [(7.5, 9.5, "pass"), (7.25, 9.5, "fail"), (7.75, 9.75, "fail"), (7.75, 9.625, "pass")];
    for (rise, run, stands) in law {
        assert_eq!(sum("riser by run", rise, run), stands, "{rise} by {run}");
    }
    // A drawing textbook, Stairways: 7 by 10 is 17 and 24, the low end of both.
    assert_eq!(sum("riser and run", 7.0, 10.0), "pass");
    assert_eq!(sum("riser and run", 7.0, 9.984375), "fail");
}

#[test]
fn pitch_is_that_of_a_step_and_not_of_the_whole_triangle() {
    // Arithmetic on the layouts above: unit line, n - 1 of them, pitch of a step. The whole triangle (rise by run)
    // has a riser more than it has runs and is steeper; printing that angle is the usual mistake.
    let cases = [
        (94.0, 13, 10.5, 12.7489, 152.987, 157.201, 34.553, 36.724),
        (107.0, 15, 10.375, 12.5907, 176.269, 180.407, 34.510, 36.378),
        (112.0, 16, 10.0, 12.2066, 183.098, 187.200, 34.992, 36.747),
        (106.75, 14, 10.375, 12.8756, 167.383, 172.008, 36.314, 38.361),
        (109.0, 15, 10.0, 12.3614, 173.060, 177.429, 36.005, 37.903),
    ];
    for (rise, risers, run, line, slope, side, pitch, whole) in cases {
        let runs = f64::from(risers) - 1.0;
        let stair = draw(&steps(usize::try_from(risers).unwrap(), rise / f64::from(risers), run));
        near(number(&stair, "flight", 0, "nosing line") / INCH, line, 6e-5);
        near(number(&stair, "flight", 0, "nosing line") / INCH * runs, slope, 6e-4);
        near(number(&stair, "flight", 0, "pitch"), pitch, 6e-4);
        let (climb, length) = (number(&stair, "flight", 0, "rise"), number(&stair, "flight", 0, "run"));
        near((climb / length).atan().to_degrees(), whole, 6e-4);
        // EN5156 calls the whole flight the triangle and the stringer its long side: four inches more than the nosings.
        near(climb.hypot(length) / INCH, side, 6e-4);
        assert!(whole - number(&stair, "flight", 0, "pitch") > 1.5);
    }
    // Trade page on the unit line of 7 by 10: 12.20655 printed, and "12-1/4", which is 0.0434 too long.
    // Over 14 steps that is 0.61 in.
    near(inches(&steps(4, 7.0, 10.0), "flight", 0, "nosing line"), 12.206_556, 5e-7);
    near(12.25 - inches(&steps(4, 7.0, 10.0), "flight", 0, "nosing line"), 0.0434, 5e-5);
    near(14.0 * (12.25 - inches(&steps(4, 7.0, 10.0), "flight", 0, "nosing line")), 0.61, 5e-3);
    // Arithmetic: the steepest step of the residential code, and of the accessible one.
    near(number(&draw(&steps(4, 7.75, 10.0)), "flight", 0, "pitch"), 37.7757, 5e-5);
    near(inches(&steps(4, 7.75, 10.0), "flight", 0, "nosing line"), 12.6516, 5e-5);
    near(number(&draw(&steps(4, 7.0, 11.0)), "flight", 0, "pitch"), 32.4712, 5e-5);
    near(inches(&steps(4, 7.0, 11.0), "flight", 0, "nosing line"), 13.0384, 5e-5);
}

#[test]
fn first_cut_is_dropped_by_the_tread() {
    // Carpenters Guide, Stairs: cut the bottom by the tread's thickness. Figures by arithmetic.
    let cut = |body: &str| inches(body, "stringer", 0, "first cut needed");
    near(
        cut("flight { risers: 16 of 7\"; runs: 15 of 10\" }; tread { section: 1\" x 11\" }; stringer { }"),
        6.0,
        1e-12,
    );
    // Stringer Layout at Landing Difference: treads 1-1/8, a landing deck 3/4 thick still to come, so 3/8 off.
    let landing = "bottom finish: 3/4\"; flight { risers: 14 of 7-5/8\"; runs: 13 of 10\" }; \
                   tread { section: 1-1/8\" x 11\" }; stringer { }";
    near(cut(landing), 7.25, 1e-12);
    // Arithmetic: a 3/16 finish on 7-1/4 steps, not dropped; the bottom is 7-7/16, the top 7-1/16, and 3/8 passes.
    let uneven = "flight { risers: 7-7/16\", 11 of 7-1/4\", 7-1/16\"; runs: 12 of 10\" }";
    near(inches(uneven, "flight", 0, "riser spread"), 0.375, 0.0);
    assert_eq!(residential("riser spread", uneven), "pass");
    let stated = |first: &str| {
        format!(
            "flight {{ risers: 4 of 7\"; runs: 3 of 10\" }}; tread {{ section: 1\" x 11\" }}; stringer {{ cut: notched; first cut: {first} }}"
        )
    };
    assert_eq!(workshop("first cut", &stated("6\"")), "pass");
    assert_eq!(workshop("first cut", &stated("7\"")), "fail");
}

#[test]
fn flight_limits_of_the_residential_rules() {
    // IRC 2021 R311.7.3: 151 in at most; the counts by arithmetic.
    assert_eq!(residential("flight rise", &steps(20, 7.55, 10.0)), "pass");
    assert_eq!(residential("riser height", &steps(20, 7.55, 10.0)), "pass");
    assert_eq!(residential("riser height", "flight { risers: 19 of 7.947\" }"), "fail");
    assert_eq!(residential("flight rise", "flight { risers: 20 of 7.551\" }"), "fail");
    // IRC 2021 R312.1.1, R311.7.8: 4 of 7-1/2 leave the top at 30.0 in, 4 of 7-3/4 at 31.0; both want a handrail.
    let four = |rise: &str| format!("flight {{ risers: 4 of {rise}; runs: 3 of 10\" }}; landing top {{ }}");
    assert_eq!(residential("guard needed at a landing", &four("7-1/2\"")), "pass");
    assert_eq!(residential("guard needed at a landing", &four("7-3/4\"")), "fail");
    near(inches(&four("7-3/4\""), "landing", 0, "unguarded drop within 36\""), 31.0, 0.0);
    assert_eq!(residential("handrail needed", &four("7-1/2\"")), "fail");
    assert_eq!(residential("handrail needed", &four("7-3/4\"")), "fail");
    // 3 of 7-3/4 are 23-1/4: neither.
    let three = "flight { risers: 3 of 7-3/4\"; runs: 2 of 10\" }; landing top { }";
    near(inches(three, "stair", 0, "rise"), 23.25, 0.0);
    assert_eq!(residential("handrail needed", three), "not applicable");
    assert_eq!(residential("guard needed at a landing", three), "pass");
    // Spread of 3/8 over the flight, IRC 2021 R311.7.5.1: decimals at the limit, exactly and just past.
    assert_eq!(residential("riser spread", "flight { risers: 7.30\", 7.675\" }"), "pass");
    assert_eq!(residential("riser spread", "flight { risers: 7.30\", 7.68\" }"), "fail");
    // Floor height of a landing in mid-flight, and the drops beside the treads, by arithmetic; the ground falls
    // away 1 in 12, so 36 in out (IRC R312.1.1) it lies 3 in lower, and 6 in below the foot to begin with.
    let ground = "ground { below: 6\"; slope: 1 in 12 }; flight { risers: 4 of 7\"; runs: 3 of 10\" }; landing top { }";
    near(inches(ground, "tread", 2, "drop within 36\""), 21.0 + 6.0 + 3.0, 1e-9);
    near(inches(ground, "landing", 0, "drop within 36\""), 28.0 + 6.0 + 3.0, 1e-9);
    let two = "flight a { risers: 3 of 7\"; runs: 2 of 10\" }; landing middle { }; flight b { risers: 5 of 7\"; runs: 4 of 10\" }";
    near(inches(two, "landing", 0, "elevation"), 21.0, 0.0);
    near(inches(two, "tread", 2, "elevation"), 28.0, 0.0);
    near(inches(two, "stair", 0, "rise"), 56.0, 0.0);
}

#[test]
fn open_risers_and_baluster_gaps() {
    // Arithmetic on IRC 2021 R311.7.5.1: 7-3/4 less a tread of 1-1/2 leaves 6-1/4, and a 4 in ball wants under 5-1/2.
    let open = |rise: &str| {
        format!(
            "flight {{ risers: 8 of {rise}; runs: 7 of 10\" }}; tread {{ section: 1-1/2\" x 11\" }}; landing top {{ thickness: 1-1/2\" }}"
        )
    };
    near(inches(&open("7-3/4\""), "riser", 3, "opening"), 6.25, 1e-12);
    assert_eq!(residential("open risers", &open("7-3/4\"")), "fail");
    assert_eq!(residential("open risers", &open("5-1/2\"")), "fail");
    assert_eq!(residential("open risers", &open("5-31/64\"")), "pass");
    let closed = "flight { risers: 8 of 7-3/4\"; runs: 7 of 10\" }; riser board { section: 1x8; stands: on tread }; tread { section: 2x12 }";
    near(inches(closed, "riser", 3, "opening"), 0.0, 0.0);

    // Published spacing sums: gap with a count, and the fewest that stay under 4 in (the minimum by arithmetic).
    let gap = |clear: &str, count: usize, width: &str| {
        let guard = format!(
            "guard left {{ between posts: {clear}; balusters: {count} of square {width} }}; flight {{ risers: 4 of 7\" }}"
        );
        (inches(&guard, "guard", 0, "even gap"), number(&draw(&guard), "guard", 0, "balusters for 4\""))
    };
    // Calculate the Distance Between Balusters: 52 in, 10 of 1-1/2 (printed 3.36); 9 would do, at 3.85.
    let (even, fewest) = gap("52\"", 10, "1-1/2\"");
    near(even, 37.0 / 11.0, 1e-9);
    assert_eq!(fewest, 9.0);
    near(gap("52\"", 9, "1-1/2\"").0, 3.85, 1e-9);
    // How to Determine Space Between Balusters: 72 in, 13 of 1-1/2, gap 3.75, and 13 is the fewest (12 give 4.154).
    let (even, fewest) = gap("72\"", 13, "1-1/2\"");
    near(even, 3.75, 1e-9);
    assert_eq!(fewest, 13.0);
    near(gap("72\"", 12, "1-1/2\"").0, 4.154, 5e-4);
    // How to Calculate Even Spacing: 75 in, 15 of 2 in. Printed "3 in" is wrong; it is 45/16.
    near(gap("75\"", 15, "2\"").0, 2.8125, 1e-9);

    // Balusters on treads (arithmetic on IRC 2021 R312.1.3: under 4-3/8 beside a flight, under 4 on the level).
    let on = |run: f64, per_tread: f64, width: &str| {
        let every = run / per_tread;
        let steps = format!("flight {{ risers: 8 of 7-1/2\"; runs: 7 of {run}\" }}");
        let stair = format!("{steps}; guard left {{ balusters: square {width} every {every}\"; end gap: 2\" }}");
        let level = format!(
            "{steps}; landing top {{ guard left {{ balusters: square {width} every {every}\"; end gap: 2\" }} }}"
        );
        (
            inches(&stair, "guard", 0, "opening"),
            residential("guard openings on a flight", &stair),
            residential("guard openings on the level", &level),
        )
    };
    assert_eq!(on(10.0, 2.0, "3/4\""), (4.25, "pass", "fail"));
    assert_eq!(on(10.0, 2.0, "1-1/4\""), (3.75, "pass", "pass"));
    assert_eq!(on(11.0, 2.0, "1-1/4\""), (4.25, "pass", "fail"));
    assert_eq!(on(11.0, 2.0, "3/4\""), (4.75, "fail", "fail"));
    assert_eq!(on(11.0, 3.0, "3/4\"").1, "pass");
}

/// The triangle of a flight: closed risers, a nosing, and a rail so far off the line of the nosings.
fn triangle(rise: f64, run: f64, nosing: f64, gap: f64) -> f64 {
    let body = format!(
        "flight {{ risers: 6 of {rise}\"; runs: 5 of {run}\" }}; tread {{ nosing: {nosing}\" }}; riser board {{ }}; guard left {{ bottom gap: {gap}\" }}"
    );
    inches(&body, "guard", 0, "triangle opening")
}

/// The widest ball on the tread, behind the rail and the nose of a tread above of some thickness: by trying every one, a
/// thousandth of an inch at a time, as near to the riser as it goes.
fn under_the_nose(rise: f64, run: f64, nosing: f64, gap: f64, thick: f64) -> f64 {
    let slant = rise.hypot(run);
    let passes = |radius: f64| {
        let free = (0..20_000).map(|step| radius + f64::from(step) / 1000.0).find(|across| {
            let up = (rise - thick - radius).max(0.0);
            (across - nosing).hypot(up) >= radius || *across - nosing >= radius
        });
        let below_rail = |across: f64| gap - (rise * (across - nosing) + run * (radius - rise)) / slant;
        free.is_some_and(|across| below_rail(across) >= radius)
    };
    let widest = (1..5_000).map(|step| f64::from(step) / 1000.0).take_while(|radius| passes(*radius)).last();
    2.0 * widest.unwrap_or(0.0)
}

#[test]
fn the_six_inch_triangle() {
    // Inscribed circle of a right triangle (plane geometry); the 6 in ball of IRC 2021 R312.1.3. Sphere with the rail
    // on the line of the nosings, and the clearance, square to the slope, at which it comes to 6 in; no nosing.
    let cases = [
        (7.75, 10.0, 5.0984, 1.0832),
        (7.5, 10.0, 5.0, 1.2),
        (7.0, 11.0, 4.9616, 1.2360),
        (7.25, 10.5, 4.9902, 1.2073),
        (6.5, 11.0, 4.7231, 1.5129),
    ];
    for (rise, run, on_line, gap) in cases {
        near(triangle(rise, run, 0.0, 0.0), on_line, 6e-5);
        near(triangle(rise, run, 0.0, gap), 6.0, 2e-4);
    }
    // The 3-4-5 step comes out whole.
    near(triangle(7.5, 10.0, 0.0, 0.0), 5.0, 1e-9);
    near(triangle(7.5, 10.0, 0.0, 1.2), 6.0, 1e-9);
    // A riser face 1 in behind the nosing (found by brute force): 6.147 at 1 in off, 5.728 at 1/2 in; without the
    // nosing the sum says 5.675 and would pass what a ball goes through.
    near(triangle(7.0, 10.25, 1.0, 1.0), 6.147, 6e-4);
    near(triangle(7.0, 10.25, 1.0, 0.5), 5.728, 6e-4);
    near(triangle(7.0, 10.25, 0.0, 1.0), 5.675, 6e-4);
    // A low riser under a deep nosing: the nose of a tread 1-1/2 in thick stops the ball at 5.830 (found by brute force);
    // the sum does not know the tread's thickness, and is never less than what passes.
    let told = triangle(6.0, 12.0, 1.25, 1.25);
    near(told, 6.129, 6e-4);
    near(under_the_nose(6.0, 12.0, 1.25, 1.25, 1.5), 5.830, 2e-3);
    assert!(told > under_the_nose(6.0, 12.0, 1.25, 1.25, 1.5));
    let held = |gap: &str| {
        format!(
            "flight {{ risers: 6 of 7\"; runs: 5 of 10-1/4\" }}; tread {{ nosing: 1\" }}; riser board {{ }}; guard left {{ bottom gap: {gap} }}"
        )
    };
    assert_eq!(residential("guard triangle", &held("1\"")), "fail");
    assert_eq!(residential("guard triangle", &held("1/2\"")), "pass");
    // With open risers there is no triangle, so the rule has nothing to hold.
    let open = "flight { risers: 6 of 7\"; runs: 5 of 10-1/4\" }; guard left { bottom gap: 1\" }";
    assert!(ask(&draw(open), "guard", 0, "triangle opening").is_err());
    assert_eq!(residential("guard triangle", open), "not applicable");
}

#[test]
fn widths_at_the_rails_and_round_the_grip() {
    // IRC 2021 R311.7.1: 31-1/2 beside one rail, 27 between two (limits seen in Jefferson County's handout); sums by arithmetic.
    let rails = |width: &str, sides: &str, section: &str, clearance: &str| {
        format!(
            "flight {{ risers: 4 of 7\"; width: {width} }}; handrail {sides} {{ section: {section}; clearance: {clearance} }}"
        )
    };
    let one = rails("36\"", "left", "round 2\"", "2-1/2\"");
    near(inches(&one, "flight", 0, "width at the rails"), 31.5, 1e-9);
    assert_eq!(residential("width beside one rail", &one), "pass");
    assert_eq!(residential("width beside one rail", &rails("36\"", "left", "round 2\"", "2-33/64\"")), "fail");
    let two = rails("36\"", "left, right", "round 2\"", "2-1/2\"");
    near(inches(&two, "flight", 0, "width at the rails"), 27.0, 1e-9);
    assert_eq!(residential("width between two rails", &two), "pass");
    // Projection at most 4-1/2: 2 in rail at 1-1/2, at 2-1/4, and 2-1/4 rail at 2-1/4, which is exactly there.
    for (section, clearance, projection) in
        [("round 2\"", "1-1/2\"", 3.5), ("round 2\"", "2-1/4\"", 4.25), ("square 2-1/4\"", "2-1/4\"", 4.5)]
    {
        let rail = rails("36\"", "left", section, clearance);
        near(inches(&rail, "handrail", 0, "projection"), projection, 1e-9);
        assert_eq!(residential("handrail projection", &rail), "pass");
    }
    assert_eq!(residential("handrail projection", &rails("36\"", "left", "square 2-1/4\"", "2-17/64\"")), "fail");
    // Type I grips, IRC 2021 R311.7.8.5: square 1-9/16 is 6-1/4 round exactly, 1-5/8 is 6-1/2; round 2 in is 6.283
    // round and passes all the same, since a round rail is held to its diameter.
    near(inches(&rails("36\"", "left", "square 1-9/16\"", "2\""), "handrail", 0, "perimeter"), 6.25, 1e-12);
    assert_eq!(residential("grip of a shaped handrail", &rails("36\"", "left", "square 1-9/16\"", "2\"")), "pass");
    near(inches(&rails("36\"", "left", "square 1-5/8\"", "2\""), "handrail", 0, "perimeter"), 6.5, 1e-12);
    assert_eq!(residential("grip of a shaped handrail", &rails("36\"", "left", "square 1-5/8\"", "2\"")), "fail");
    let round = rails("36\"", "left", "round 2\"", "2\"");
    near(inches(&round, "handrail", 0, "perimeter"), std::f64::consts::TAU, 1e-9);
    assert_eq!(residential("grip of a shaped handrail", &round), "not applicable");
    assert_eq!(residential("grip of a round handrail", &round), "pass");
    // 44 in with two rails 4-1/2 off leaves 35 (a trade page, Maximum Handrail Projection, for the IBC).
    near(inches(&rails("44\"", "left, right", "round 2\"", "2-1/2\""), "flight", 0, "width at the rails"), 35.0, 1e-9);
}

#[test]
fn metric_sums_and_pitches() {
    // Approved Document K 2013, printed page 5, and the NCC table give limits at these pairs; sums by arithmetic.
    let cases = [
        (220.0, 220.0, 660.0, 45.00),
        (220.0, 245.0, 685.0, 41.92),
        (150.0, 220.0, 520.0, 34.29),
        (150.0, 250.0, 550.0, 30.96),
        (170.0, 250.0, 590.0, 34.22),
        (170.0, 400.0, 740.0, 23.03),
        (150.0, 400.0, 700.0, 20.56),
        (190.0, 240.0, 620.0, 38.37),
        (190.0, 355.0, 735.0, 28.16),
        (115.0, 240.0, 470.0, 25.60),
        (115.0, 355.0, 585.0, 17.95),
        (180.0, 280.0, 640.0, 32.74),
    ];
    for (rise, run, sum, pitch) in cases {
        let stair = draw(&format!("flight {{ risers: 5 of {rise} mm; runs: 4 of {run} mm }}"));
        near(number(&stair, "flight", 0, "pitch"), pitch, 6e-3);
        let rise = number(&stair, "flight", 0, "unit rise") / MILLIMETRE;
        let run = number(&stair, "flight", 0, "unit run") / MILLIMETRE;
        assert_eq!(2.0 * rise + run, sum);
    }
    // NCC: 18 risers of 190 mm rise 3420 mm.
    let ncc = draw("flight { risers: 18 of 190 mm }");
    assert_eq!(number(&ncc, "flight", 0, "rise"), 3420.0 * MILLIMETRE);
    // Spread over a flight as the Ontario code words it (5 mm beside, 10 mm in all): the rows' own numbers.
    for (list, spread) in [("190 mm, 194 mm, 190 mm", 4.0), ("186 mm, 190 mm, 194 mm, 197 mm", 11.0)] {
        let stair = draw(&format!("flight {{ risers: {list} }}"));
        assert_eq!(number(&stair, "flight", 0, "riser spread"), spread * MILLIMETRE);
    }
}

#[test]
fn nominal_sizes_are_those_of_ps_20() {
    // American Softwood Lumber Standard PS 20, dry: dressed thickness and width of boards and dimension lumber.
    let sizes = [
        ("1x4", 0.75, 3.5),
        ("1x6", 0.75, 5.5),
        ("1x8", 0.75, 7.25),
        ("1x10", 0.75, 9.25),
        ("1x12", 0.75, 11.25),
        ("2x2", 1.5, 1.5),
        ("2x4", 1.5, 3.5),
        ("2x6", 1.5, 5.5),
        ("2x8", 1.5, 7.25),
        ("2x10", 1.5, 9.25),
        ("2x12", 1.5, 11.25),
        ("4x4", 3.5, 3.5),
        ("6x6", 5.5, 5.5),
    ];
    for (nominal, thickness, width) in sizes {
        let body = format!("tread {{ section: {nominal} }}; flight {{ risers: 2 of 7\"; runs: 10\" }}");
        near(inches(&body, "tread", 0, "board thickness"), thickness, 0.0);
        near(inches(&body, "tread", 0, "board depth"), width, 0.0);
    }
    // A prescriptive deck guide (DCA6) prints 5.125 of wood left in a 2x12 cut for 7-3/4 by 10; exact is 5.1243.
    let cut = "flight { risers: 4 of 7-3/4\"; runs: 3 of 10\" }; stringer { section: 2x12; cut: notched }";
    near(inches(cut, "stringer", 0, "throat"), 11.25 - 77.5 / 7.75_f64.hypot(10.0), 1e-9);
    near(inches(cut, "stringer", 0, "throat"), 5.125, 0.01);
}

#[test]
fn bolts_in_their_holes_and_stacks() {
    // NDS 2018, 12.1.3.2: a bolt hole is 1/32 to 1/16 over the bolt. The stack and 2 diameters for washer, nut and
    // thread: arithmetic, and common practice, no source.
    let joint = |hole: &str, length: &str| {
        format!(
            "post newel {{ section: 4x4 }}; stringer {{ section: 2x12 }}; \
             joint a {{ joins: newel to stringer; bolts: 2 of 3/8\" x {length} carriage; hole: {hole}; in newel {{ end: 3-1/2\"; edge: 1-3/4\" }} }}"
        )
    };
    near(inches(&joint("7/16\"", "6\""), "joint", 0, "hole play"), 0.0625, 1e-12);
    assert_eq!(workshop("bolt hole", &joint("7/16\"", "6\"")), "pass");
    assert_eq!(workshop("bolt hole", &joint("29/64\"", "6\"")), "fail");
    assert_eq!(workshop("tight bolt hole", &joint("13/32\"", "6\"")), "pass");
    assert_eq!(workshop("tight bolt hole", &joint("3/8\"", "6\"")), "fail");
    near(inches(&joint("7/16\"", "6\""), "joint", 0, "stack"), 3.5 + 1.5, 1e-12);
    near(inches(&joint("7/16\"", "6\""), "joint", 0, "nut room"), 0.75, 1e-12);
    assert_eq!(workshop("thread past the nut", &joint("7/16\"", "6\"")), "pass");
    assert_eq!(workshop("thread past the nut", &joint("7/16\"", "5-1/2\"")), "fail");
    // NDS 2018, Table 12.5.1A and C: distances are counted in shank diameters.
    near(number(&draw(&joint("7/16\"", "6\"")), "member", 0, "end in diameters"), 3.5 / 0.375, 1e-12);
    near(number(&draw(&joint("7/16\"", "6\"")), "member", 0, "edge in diameters"), 1.75 / 0.375, 1e-12);
}

#[test]
fn screws_and_nails_have_the_diameters_of_the_nds_tables() {
    let diameter = |kind: &str, size: &str| {
        inches(
            &format!(
                "post newel {{ section: 4x4 }}; stringer {{ section: 2x12 }}; joint a {{ joins: stringer to newel; {kind}: 2 of {size} }}"
            ),
            "joint",
            0,
            "diameter",
        )
    };
    // NDS 2018, Appendix L, Table L3: wood screws, unthreaded shank. Figures from memory.
    for (number, wanted) in [(6, 0.138), (8, 0.164), (10, 0.190), (12, 0.216), (14, 0.242)] {
        near(diameter("screws", &format!("No.{number} x 3\"")), wanted, 1e-9);
    }
    // NDS 2018, Appendix L, Table L4: common nails, length and diameter. Figures from memory, but for the
    // diameters of 8d and 16d.
    for (penny, length, wanted) in [(8, 2.5, 0.131), (10, 3.0, 0.148), (16, 3.5, 0.162), (20, 4.0, 0.192)] {
        near(diameter("nails", &format!("{penny}d common")), wanted, 1e-9);
        let body = format!("joint a {{ nails: 2 of {penny}d common }}");
        near(inches(&body, "joint", 0, "fastener length"), length, 1e-9);
    }
    // Penetration by arithmetic: a 16d common through a 2x leaves 3-1/2 less 1-1/2.
    let nailed = "post newel { section: 4x4 }; stringer { section: 2x12 }; joint a { joins: stringer to newel; nails: 3 of 16d common }";
    near(inches(nailed, "joint", 0, "penetration"), 2.0, 1e-9);
}

#[test]
fn dimensions_are_kept_apart() {
    // Plane geometry: a product of two lengths is an area; a quotient of them is a number.
    assert_eq!(Dimension::LENGTH.times(Dimension::LENGTH), Dimension::AREA);
    assert_eq!(Dimension::LENGTH.over(Dimension::LENGTH), Dimension::NUMBER);
    assert_eq!(Dimension::FORCE.over(Dimension::AREA), Dimension::PRESSURE);
    assert_eq!(Dimension::PRESSURE.times(Dimension::LENGTH), Dimension::LINE_LOAD);
}

#[test]
fn the_going_of_a_taper_is_taken_in_the_middle_or_well_in() {
    // Approved Document K 2013, 1.25: in the middle of a flight narrower than 1 m, else 270 mm in from each side. By
    // arithmetic: three tapers to a quarter turn, 50 mm at the newel, so the chord at d is 50 + 2 d sin 15.
    let going = |width: u32, name: &str| {
        let body = format!(
            "flight {{ width: {width} mm; risers: 4 of 200 mm; runs: 3 of 250 mm; winders left {{ from tread: 1; to tread: 3; turn: 90°; narrow: 50 mm }} }}"
        );
        number(&draw(&body), "tread", 1, name) / MILLIMETRE
    };
    near(going(850, "narrow going"), 269.996, 5e-4);
    near(going(850, "broad going"), 269.996, 5e-4);
    near(going(999, "narrow going"), 308.560, 5e-4);
    near(going(1000, "narrow going"), 189.762, 5e-4);
    near(going(1000, "broad going"), 427.876, 5e-4);
}

#[test]
fn sides_of_a_flight_are_counted_as_they_are_drawn() {
    // Counted by hand: 29 CFR 1910.28, Table D-2, asks by them.
    let sides = |drawn: &str| {
        let stair = draw(&format!("flight {{ risers: 4 of 7\"; runs: 3 of 10\"; {drawn} }}"));
        let names = ["open sides", "bare sides", "handrail sides", "railed sides", "unrailed walls"];
        names.map(|name| number(&stair, "flight", 0, name))
    };
    assert_eq!(sides(""), [2.0, 2.0, 0.0, 0.0, 0.0]);
    assert_eq!(sides("wall left { }"), [1.0, 1.0, 0.0, 0.0, 1.0]);
    assert_eq!(sides("wall left { }; handrail left { }; guard right { }"), [1.0, 0.0, 1.0, 1.0, 0.0]);
    assert_eq!(sides("wall left { }; handrail right, middle { }"), [1.0, 1.0, 1.0, 1.0, 1.0]);
    assert_eq!(sides("guard left, right { handrail: yes }"), [2.0, 0.0, 0.0, 2.0, 0.0]);
    // A rail whose side is not said stands somewhere.
    let unsaid = draw("flight { risers: 4 of 7\"; handrail { } }");
    assert!(ask(&unsaid, "flight", 0, "handrail sides").is_err());
}

#[test]
fn what_a_door_leaves_and_a_rail_reaches() {
    // Arithmetic: a leaf of 34 in over a landing of 56 leaves 22, the least of 29 CFR 1910.25(b)(5).
    let door = |swing: &str| {
        let body = format!(
            "flight {{ risers: 3 of 7\" }}; landing top {{ depth: 56\" }}; door {{ at: top; swing: {swing}; leaf: 34\" }}"
        );
        inches(&body, "door", 0, "room left")
    };
    assert_eq!((door("over the stair"), door("away from the stair"), door("slides")), (22.0, 56.0, 56.0));
    // IBC 2021, 1014.9: no point farther than 30 in from a rail. 67 in less two rails of 3-1/2 is 60.
    let reach = |rails: &str, width: &str| {
        let body = format!(
            "flight {{ risers: 4 of 7\"; width: {width} }}; handrail {rails} {{ section: round 2\"; clearance: 1-1/2\" }}"
        );
        inches(&body, "flight", 0, "reach to a rail")
    };
    assert_eq!(
        (reach("left", "36\""), reach("left, right", "67\""), reach("left, right, middle", "129\"")),
        (32.5, 30.0, 30.0)
    );
}
