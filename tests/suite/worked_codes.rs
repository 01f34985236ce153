//! Worked examples of other codes than the dwelling code: work places, public buildings and England's stairs by their
//! shipped sets; Australia, Ontario and New York by clauses written here. Sums of stated lengths are exact in the tool and
//! held without tolerance; a pitch is held to half of the last figure that is shown.

use crate::worked::{broken, clauses, draw, inches, near, number, standing, steps, unmet};
use pitchboard::measure::MILLIMETRE;

/// 29 CFR 1910.25(c) of 2017, seen in the letters and in Nevada's and Washington's digests: what the set has of it.
const WORK_PLACE: &[(&str, &str)] =
    &[("pitch", "angle"), ("riser", "riser height"), ("tread", "tread depth"), ("width", "clear width")];

fn work_place(body: &str) -> Vec<&'static str> {
    broken("workplace", WORK_PLACE, body)
}

/// A flight with its width, so that only the step is in question.
fn work(risers: usize, rise: f64, run: f64) -> String {
    format!("flight {{ risers: {risers} of {rise}\"; runs: {} of {run}\"; width: 22\" }}", risers - 1)
}

#[test]
fn old_angle_table_under_the_rule_of_2017() {
    // Rows of Table D-1 of old 29 CFR 1910.24(e), seen as WAC 296-24-76511. All lie within 30 to 50 degrees and under
    // 9-1/2 in of riser; the tread of 9-1/2 in that the rule asks since 2017 is met down to 8 by 9-1/2, exactly.
    let rows = [
        (6.5, 11.0),
        (6.75, 10.75),
        (7.0, 10.5),
        (7.5, 10.0),
        (7.75, 9.75),
        (8.0, 9.5),
        (8.5, 9.0),
        (8.75, 8.75),
        (9.0, 8.5),
        (9.5, 8.0),
    ];
    for (rise, run) in rows {
        let wanted: &[&str] = if run >= 9.5 { &[] } else { &["tread"] };
        assert_eq!(work_place(&work(9, rise, run)), wanted, "{rise} by {run}");
    }
}

#[test]
fn angles_of_letters_of_interpretation() {
    // Letter of 17 June 2025: 9-1/2 by 9-1/2 is 45 degrees, the most that the limits of 2017 allow; a run of 8 with a
    // nosing of 1-1/2 does not make a tread of 9-1/2. The angle (49.899 by arithmetic) is not what fails.
    assert!(work_place(&work(9, 9.5, 9.5)).is_empty());
    let letter = format!("{}; tread {{ nosing: 1-1/2\" }}", work(9, 9.5, 8.0));
    near(number(&draw(&letter), "flight", 0, "pitch"), 49.899, 5e-4);
    assert_eq!(work_place(&letter), ["tread"]);
    // Same letter, 49 to 50 degrees, "a run of 8": 8.258 in at 49, 7.971 at 50, so that 8 lies between.
    let run = |degrees: f64| 9.5 / degrees.to_radians().tan();
    near(run(49.0), 8.258, 5e-4);
    near(run(50.0), 7.971, 5e-4);
    near(number(&draw(&work(9, 9.5, run(49.0))), "flight", 0, "pitch"), 49.0, 1e-9);
    // Letter of 6 June 2012: 40 degrees with a run of 8 was refused; its riser is 6.713 (the reason was not read, so
    // this says only what the rule of 2017 makes of it).
    let rise = 8.0 * 40.0_f64.to_radians().tan();
    near(rise, 6.713, 5e-4);
    assert_eq!(work_place(&work(9, rise, 8.0)), ["tread"]);
    // Letter of 10 February 2006: 60 degrees is no standard stair. 1910.25(c), (e) and (f): 30 to 50, and 50 to 70 for
    // ship stairs and alternating treads; 50 belongs to both.
    let at = |degrees: f64| work(9, 9.5, run(degrees));
    let ship = |degrees: f64| {
        standing("workplace", "angle of a ship stair", &at(degrees).replace("width", "ship: yes; width"))
    };
    assert_eq!((work_place(&at(60.0)), ship(60.0)), (vec!["pitch", "tread"], "pass"));
    assert_eq!((work_place(&at(50.0)), ship(50.0)), (vec!["tread"], "pass"));
    assert_eq!((work_place(&at(49.9)), ship(49.9)), (vec!["tread"], "fail"));
    assert_eq!((work_place(&at(50.1)), ship(70.1)), (vec!["pitch", "tread"], "fail"));
    // Letter of 17 October 2024: 22 in between walls stay 22 in, since a handrail is no barrier.
    let rail = "flight { risers: 4 of 9-1/2\"; runs: 3 of 9-1/2\"; width: 22\" }; \
                handrail left { section: round 1-1/2\"; clearance: 2-1/4\" }";
    assert!(work_place(rail).is_empty());
    assert_eq!(inches(rail, "flight", 0, "width at the rails"), 18.25);
}

#[test]
fn flights_of_public_buildings() {
    // IBC 2015-2021, 1011.5.2 and 1011.8 (2012: 1009.10), seen: risers 4 to 7 in, a flight of 12 ft. 144 in over 21
    // risers are 6.857143 each (arithmetic): the riser passes, the flight passes exactly.
    let public = |body: &str| broken("public", &[("riser", "riser height"), ("flight", "flight rise")], body);
    let flight = |rise: f64| format!("flight {{ risers: 21 of {rise}\" }}");
    near(inches(&flight(144.0 / 21.0), "flight", 0, "unit rise"), 6.857143, 5e-7);
    assert!(public(&flight(144.0 / 21.0)).is_empty());
    assert_eq!(public(&flight(6.858)), ["flight"]);
    // 20 of 7.2 are 144 in too, with too tall a riser.
    assert_eq!(public("flight { risers: 20 of 7.2\" }"), ["riser"]);
    // 29 CFR 1910.28(b)(11)(ii), at least three treads and four risers: three risers of 7-3/4 need no handrail, four do.
    let between_walls = |risers: usize| {
        let flight = format!(
            "flight {{ risers: {risers} of 7-3/4\"; runs: {} of 10\"; width: 36\"; wall left, right {{ }} }}",
            risers - 1
        );
        standing("workplace", "handrail between walls", &flight)
    };
    assert_eq!((between_walls(3), between_walls(4)), ("not applicable", "fail"));
    // A trade page, Maximum Handrail Projection: 44 in with two rails 4-1/2 off leave 35; a rule of 36 between the rails
    // fails it, the IBC's 44 of clear width and 4-1/2 each side (1011.2 from memory, 1014.8 seen) do not.
    let page = "occupants: 50; flight { risers: 4 of 7\"; runs: 3 of 11\"; width: 44\" }; \
                handrail left, right { section: round 2\"; clearance: 2-1/2\" }";
    assert_eq!(inches(page, "flight", 0, "width at the rails"), 35.0);
    assert!(
        broken("public", &[("clear", "clear width for many"), ("projection", "handrail projection")], page).is_empty()
    );
    let between = clauses(&[("between", "limit least: 36\"\neach flight shall have width at the rails >= least")]);
    assert_eq!(unmet(&between, page), ["between"]);
}

#[test]
fn riser_by_run_as_law_and_as_a_pocketbook_has_it() {
    // New York Multiple Dwelling Law, section 52(3), limits seen: riser up to 7-3/4, run from 9-1/2 without the nosing,
    // their product from 70 to 75. Pairs by arithmetic.
    let law = clauses(&[
        ("riser", "limit most: 7-3/4\"\neach riser shall have height <= most"),
        ("run", "limit least: 9-1/2\"\neach tread shall have run >= least"),
        (
            "product",
            "limit least: 70 sq in\nlimit most: 75 sq in\neach flight shall have least <= unit rise * unit run <= most",
        ),
    ]);
    let product = |body: &str| {
        let stair = draw(body);
        let inch = pitchboard::measure::INCH;
        number(&stair, "flight", 0, "unit rise") / inch * number(&stair, "flight", 0, "unit run") / inch
    };
    let cases: [(f64, f64, f64, &[&str]); 4] = [
        (7.5, 9.5, 71.25, &[]),
        (7.25, 9.5, 68.875, &["product"]),
        (7.75, 9.75, 75.5625, &["product"]),
        (7.75, 9.625, 74.59375, &[]),
    ];
    for (rise, run, area, fails) in cases {
        let body = steps(9, rise, run);
        assert_eq!(product(&body), area);
        assert_eq!(unmet(&law, &body), fails, "{rise} by {run}");
    }
    // A nosing counts for nothing: 9 in of run and 1 of nosing is no tread of 9-1/2.
    assert_eq!(unmet(&law, &format!("{}; tread {{ nosing: 1\" }}", steps(9, 7.75, 9.25))), ["run"]);
    // Building Trades Pocketbook, Notes on Stairways: the product is 66; 6 by 11, and 7 by 9-3/7 (66/7 = 9.428571).
    assert_eq!(product(&steps(9, 6.0, 11.0)), 66.0);
    near(product(&steps(9, 7.0, 66.0 / 7.0)), 66.0, 1e-6);
    near(66.0 / 7.0, 9.428571, 5e-7);
}

#[test]
fn rise_and_going_of_england_and_australia() {
    // Limits seen: Approved Document K 2013, printed page 5, private stairs and general access; the NCC's table
    // (D3D14; HP 11.2.2a) as a knowledge page quotes it, private stairs. All sums by arithmetic.
    let dwelling = |access: &str, rules: &[(&'static str, &str)], body: &str| {
        broken("dwelling-metric", rules, &format!("access: {access}; {body}")).join(" ")
    };
    let private = |body: &str| {
        let rules = [
            ("R", "rise of a private stair"),
            ("G", "going of a private stair"),
            ("sum", "twice the rise and the going"),
            ("pitch", "pitch of a private stair"),
        ];
        dwelling("private", &rules, body)
    };
    let general = |body: &str| {
        let rules = [
            ("R", "rise of a general stair"),
            ("G", "going of a utility or general stair"),
            ("sum", "twice the rise and the going"),
        ];
        dwelling("general", &rules, body)
    };
    let ncc = clauses(&[
        ("R", "limit least: 115 mm\nlimit most: 190 mm\neach riser shall have least <= height <= most"),
        ("G", "limit least: 240 mm\nlimit most: 355 mm\neach tread shall have least <= run <= most"),
        (
            "sum",
            "limit least: 550 mm\nlimit most: 700 mm\neach flight shall have least <= 2 * unit rise + unit run <= most",
        ),
    ]);
    let cases: [(f64, f64, f64, f64, &str, &str, &str); 12] = [
        (220.0, 220.0, 660.0, 45.00, "pitch", "R G", "R G"),
        (220.0, 245.0, 685.0, 41.92, "", "R G", "R"),
        (150.0, 220.0, 520.0, 34.29, "sum", "G sum", "G sum"),
        (150.0, 250.0, 550.0, 30.96, "", "", ""),
        (170.0, 250.0, 590.0, 34.22, "", "", ""),
        (170.0, 400.0, 740.0, 23.03, "G sum", "sum", "G sum"),
        (150.0, 400.0, 700.0, 20.56, "G", "", "G"),
        (190.0, 240.0, 620.0, 38.37, "", "R G", ""),
        (190.0, 355.0, 735.0, 28.16, "G sum", "R sum", "sum"),
        (115.0, 240.0, 470.0, 25.60, "R sum", "R G sum", "sum"),
        (115.0, 355.0, 585.0, 17.95, "R G", "R", ""),
        (180.0, 280.0, 640.0, 32.74, "", "R", ""),
    ];
    for (rise, going, sum, pitch, in_private, in_general, in_ncc) in cases {
        let body = format!("flight {{ risers: 5 of {rise} mm; runs: 4 of {going} mm }}");
        let stair = draw(&body);
        assert_eq!(2.0 * rise + going, sum);
        assert_eq!(number(&stair, "flight", 0, "unit rise"), rise * MILLIMETRE);
        near(number(&stair, "flight", 0, "pitch"), pitch, 5e-3);
        assert_eq!(private(&body), in_private, "private, {body}");
        assert_eq!(general(&body), in_general, "general access, {body}");
        assert_eq!(unmet(&ncc, &body).join(" "), in_ncc, "NCC, {body}");
    }
    // The British Woodworking Federation states a going of at least 244 mm at 220. Exact is 220 / tan 42 = 244.33:
    // 244 is 42.039 degrees and fails, 245 is 41.923 and passes.
    let at = |going: f64| format!("flight {{ risers: 5 of 220 mm; runs: 4 of {going} mm }}");
    near(number(&draw(&at(244.0)), "flight", 0, "pitch"), 42.039, 5e-4);
    near(number(&draw(&at(245.0)), "flight", 0, "pitch"), 41.923, 5e-4);
    assert_eq!(private(&at(244.0)), "pitch");
    assert_eq!(private(&at(245.0)), "");
    near(220.0 / 42.0_f64.to_radians().tan(), 244.33, 5e-3);
    assert_eq!(private(&at(244.33)), "pitch");
    assert_eq!(private(&at(244.34)), "");
}

#[test]
fn risers_of_one_flight_in_australia() {
    // NCC 2022, HP 11.2.2 (earlier D2.13), seen: 2 to 18 risers in a flight. 18 of 190 mm rise 3420 mm (arithmetic).
    let ncc =
        clauses(&[("risers", "limit few: 2\nlimit many: 18\neach flight shall have few <= number of risers <= many")]);
    let flight = |risers: usize| format!("flight {{ risers: {risers} of 190 mm }}");
    assert_eq!(number(&draw(&flight(18)), "flight", 0, "rise"), 3420.0 * MILLIMETRE);
    assert!(unmet(&ncc, &flight(18)).is_empty());
    assert!(unmet(&ncc, &flight(2)).is_empty());
    assert_eq!(unmet(&ncc, &flight(19)), ["risers"]);
    assert_eq!(unmet(&ncc, &flight(1)), ["risers"]);
}

#[test]
fn unevenness_by_neighbours_and_over_the_flight() {
    // Ontario Building Code 9.8.4.4, seen, and the NBC alike: 5 mm between neighbours, 10 mm over the flight. The rows
    // by arithmetic.
    let ontario = clauses(&[
        ("neighbours", "limit most: 5 mm\neach flight shall have largest change of height along risers <= most"),
        (
            "flight",
            "limit most: 10 mm\neach flight shall have largest height of risers - smallest height of risers <= most",
        ),
    ]);
    let fails = |list: &str| unmet(&ontario, &format!("flight {{ risers: {list} }}")).join(" ");
    assert_eq!(fails("190 mm, 194 mm, 190 mm"), "");
    assert_eq!(fails("190 mm, 196 mm, 190 mm"), "neighbours");
    assert_eq!(fails("186 mm, 190 mm, 194 mm, 197 mm"), "flight");
    // At both limits: 5 mm each time, 10 mm in all.
    assert_eq!(fails("185 mm, 190 mm, 195 mm"), "");
}

#[test]
fn midrails_second_rails_and_sets_of_winders() {
    // A trade page on falls, seen, of the "standard railing": top 42 in, midrail 21 in, toe board 3-1/2 in and at most 1/4
    // in clear of the floor. 29 CFR 1910.29(b)(2)(i), seen quoted: midway between the top and the walking surface.
    let railing = "landing top { depth: 30\"; guard left { height: 42\"; midrail: 21\"; toe board: 3-1/2\"; \
                   toe board gap: 1/4\" } }";
    assert_eq!(inches(railing, "guard", 0, "midrail off midway"), 0.0);
    for rule in ["midrail", "toe board", "guard height at a landing"] {
        assert_eq!(standing("workplace", rule, railing), "pass", "{rule}");
    }
    // The page gives no play; 19 in between members is that of 1910.29(b)(2), from memory: 21 in are more, and pass by the
    // midrail alone.
    assert_eq!(inches(railing, "guard", 0, "opening"), 21.0);
    assert_eq!(standing("workplace", "midrail", &railing.replace("midrail: 21\"", "midrail: 10\"")), "fail");
    // 2010 ADA Standards, 505.4 (34 to 38 in) and its advisory, seen: a second rail of 28 in at most.
    let rails = |upper: f64, lower: f64| {
        format!(
            "flight {{ risers: 4 of 7\"; runs: 3 of 11\"; width: 60\" }}; handrail left \"a\" {{ height: {lower}\"; section: \
             round 1-1/2\"; clearance: 1-1/2\" }}; handrail left \"b\" {{ height: {upper}\"; section: round 1-1/2\"; clearance: 2\" }}"
        )
    };
    let held = |upper, lower| {
        let rules =
            [("adults", "handrail height"), ("children", "lower handrail"), ("between", "room between two handrails")];
        broken("accessible", &rules, &rails(upper, lower))
    };
    assert!(held(38.0, 27.5).is_empty());
    assert_eq!(held(38.25, 28.25), ["adults", "children", "between"]);
    // Two at one side take 3-1/2 in, that of the wider, and reach as one: IBC 1014.9, no place further than 30 in.
    assert_eq!(inches(&rails(36.0, 24.0), "flight", 0, "width at the rails"), 56.5);
    assert_eq!(inches(&rails(36.0, 24.0), "flight", 0, "reach to a rail"), 56.5);
    // O. Reg. 332/12, 9.8.4.5(2), seen: 1200 mm in plan between two sets. Four straight treads of 300 mm are that.
    let sets = |straight: usize| {
        let last = straight + 4;
        format!(
            "flight {{ width: 900 mm; risers: {} of 180 mm; runs: {last} of 300 mm; winders left {{ from tread: 1; to tread: \
             2; turn: 90°; narrow: 150 mm }}; winders right {{ from tread: {}; to tread: {last}; turn: 90°; narrow: 150 mm \
             }} }}",
            last + 1,
            last - 1
        )
    };
    let apart = |straight| number(&draw(&sets(straight)), "winders", 0, "level to the set above") / MILLIMETRE;
    assert_eq!((apart(4), apart(3), apart(0)), (1200.0, 900.0, 0.0));
    assert_eq!(standing("ontario", "between two sets of winders", &sets(3)), "fail");
    assert_eq!(standing("ontario", "between two sets of winders", &sets(4)), "pass");
}
