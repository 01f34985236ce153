//! Clauses of the mechanics, each worked once more by hand: on both sides of where its formula changes, and where it ends. The
//! sums were made by another program from the clause as it is named here; reference values are those of the NDS Supplement.

use pitchboard::handbook::{self, WasherShape};
use pitchboard::mechanics::adjusted::{self, Conditions, Duration, Faces, Held, Lies, Piece, Service, Sharing};
use pitchboard::mechanics::amount::{INCHES, POUNDS, POUNDS_PER_INCH, PSF, PSI};
use pitchboard::mechanics::bolt::{self, Under};
use pitchboard::mechanics::dowel::{self, Against, Dowel, DowelKind, Thread};
use pitchboard::mechanics::local::{Pulled, torn};
use pitchboard::mechanics::placing::{Grain, Hardness, Needed, Stands, needed};
use pitchboard::mechanics::{Amount, Outside, Placed, Working};
use pitchboard::mechanics::{
    beam, column, demand, guard_post, lateral, moisture, notch, section, stringer, withdrawal,
};

/// Whether it comes to that, to the last figure that is written.
#[track_caller]
fn comes_to(value: Result<Amount, Outside>, unit: Amount, written: &str) {
    let value = value.expect("a value").per(unit);
    let places = written.split_once('.').map_or(0, |(_, after)| after.len());
    assert_eq!(format!("{value:.places$}"), written);
}

const ONE: f64 = 1.0;

fn one() -> Amount {
    Amount::number(ONE)
}

/// Dry, loaded for ten years, alone.
const DRY: Conditions =
    Conditions { service: Service::Dry, duration: Duration::TenYears, sharing: Sharing::Single, faces: Faces::Plain };

fn new() -> Working {
    Working::default()
}

/// Douglas fir-larch No.2, 2x12: F_b 900 psi, E_min 580,000 psi (NDS Supplement Table 4A, from memory). Over an unbraced length
/// l_u the effective one is 2.06 l_u below seven depths and 1.63 l_u + 3 d from there on (NDS Table 3.3.3); R_B is at most 50.
#[test]
fn a_beam_held_at_its_ends_alone_buckles_by_its_unbraced_length() {
    let (thickness, width) = (1.5 * INCHES, 11.25 * INCHES);
    let values = adjusted::values_for("douglas fir", "No.2", thickness, width).unwrap();
    let piece = Piece { values, thickness, width, lies: Lies::OnEdge };
    let over = |inches: f64| adjusted::bending(&mut new(), &piece, DRY, width, Held::Over(inches * INCHES));
    let factor = |inches: f64| over(inches).map(|value| value / (900.0 * PSI));
    comes_to(factor(48.0), one(), "0.93144");
    comes_to(factor(78.0), one(), "0.80117");
    comes_to(factor(79.0), one(), "0.79618");
    comes_to(factor(120.0), one(), "0.62292");
    assert!(over(286.0).is_ok());
    assert_eq!(over(287.0), Err(Outside::TooSlender));
}

/// What bears in the main member: no more than it, and half the tip does not count (NDS 12.3.5.3). The tip of a nail is 2 D,
/// and so is taken that of a wood screw; a lag's stands in NDS Table L2. Least are 4 D of a lag without the tip, 6 D of others with it.
#[test]
fn a_point_bears_but_for_half_its_tip() {
    let of = |dowel: &Dowel, goes_in: f64, member: f64| {
        dowel::main_length(&mut new(), dowel, goes_in * INCHES, member * INCHES)
    };
    let screw = Dowel::wood_screw(0.19 * INCHES).unwrap();
    comes_to(of(&screw, 1.5, 3.5), INCHES, "1.3100");
    comes_to(of(&screw, 1.14, 3.5), INCHES, "0.9500");
    assert_eq!(of(&screw, 1.13, 3.5), Err(Outside::TooShallow { least: 6.0 }));
    let lag = Dowel::lag(0.5 * INCHES).unwrap();
    comes_to(of(&lag, 3.0, 3.5), INCHES, "2.84375");
    comes_to(of(&lag, 4.0, 3.5), INCHES, "3.5000");
    assert_eq!(of(&lag, 2.31, 3.5), Err(Outside::TooShallow { least: 4.0 }));
    assert!(of(&lag, 2.3125, 3.5).is_ok());
    let bolt = Dowel::bolt(0.5 * INCHES, Thread::ClearOfTheWood).unwrap();
    assert!(of(&bolt, 3.4, 3.5).is_err());
}

/// A 16d nail, 3-1/2 in, started a third of its length from the end at 30 degrees: NDS 12.1.6.4 and its Commentary, from memory.
#[test]
fn a_toe_nail_stands_a_third_in_one_and_the_rest_in_the_other() {
    let (first, other) = dowel::toe_nail(&mut new(), 3.5 * INCHES).unwrap();
    comes_to(Ok(first), INCHES, "1.1667");
    comes_to(Ok(other), INCHES, "1.8644");
}

/// The formula of Hankinson between 5600 along and 3150 across (NDS Table 12.3.3, a 1/2 in bolt, G 0.50); past 90 degrees it is
/// the mirror image. Wood screws go by no grain, however thick. Concrete is 7500 psi.
#[test]
fn a_dowel_bears_by_its_angle_to_the_grain() {
    let wood = |angle| Against::Wood { gravity: 0.5.into(), angle };
    let bears = |dowel: &Dowel, against| dowel::bearing_strength(&mut new(), dowel, against);
    let bolt = Dowel::bolt(0.5 * INCHES, Thread::ClearOfTheWood).unwrap();
    for (angle, written) in [(0.0, "5600.0"), (30.0, "4688.4"), (45.0, "4032.0"), (90.0, "3150.0"), (150.0, "4688.4")] {
        comes_to(bears(&bolt, wood(angle)), PSI, written);
    }
    comes_to(bears(&bolt, Against::Concrete), PSI, "7500.0");
    let thick = Dowel::wood_screw(0.294 * INCHES).unwrap();
    comes_to(bears(&thick, wood(90.0)), PSI, "4650.0");
    assert!(!thick.is_large() && Dowel::bolt(0.25 * INCHES, Thread::ClearOfTheWood).unwrap().is_large());
}

/// The rows of a joint loaded across the grain (NDS Table 12.5.1D, from memory): 2.5 D up to a slenderness of 2, 5 D from 6 on,
/// (5 l + 10 D) / 8 between. Along it slender ones want half the distance of their rows to the edge (NDS Table 12.5.1C).
#[test]
fn rows_and_edges_go_by_the_slenderness() {
    let of = |slender: f64, rows: Option<f64>, placed, grain| -> Needed {
        let stands = Stands {
            diameter: 0.5 * INCHES,
            hardness: Hardness::Softwood,
            end: None,
            loaded_edge: None,
            unloaded_edge: None,
            spacing: None,
            rows: rows.map(|rows| rows * INCHES),
            lengths: (8.0 * INCHES, slender * 0.5 * INCHES),
        };
        needed(&stands, placed, grain).unwrap()
    };
    for (slender, diameters) in
        [(1.0, "2.500"), (2.0, "2.500"), (3.0, "3.125"), (4.0, "3.750"), (6.0, "5.000"), (9.0, "5.000")]
    {
        comes_to(Ok(of(slender, None, Placed::Rows, Grain::Across).least), 0.5 * INCHES, diameters);
        comes_to(Ok(of(slender, None, Placed::Rows, Grain::Across).full), 0.5 * INCHES, diameters);
    }
    let edge = |slender, rows| of(slender, Some(rows), Placed::LoadedEdge, Grain::TowardEnd).least;
    comes_to(Ok(edge(6.0, 4.0)), 0.5 * INCHES, "1.500");
    comes_to(Ok(edge(6.5, 4.0)), 0.5 * INCHES, "4.000");
    comes_to(Ok(edge(6.5, 1.0)), 0.5 * INCHES, "1.500");
}

/// Screws and nails under a load at an angle: NDS 12.4, from memory. At 0 it is the one value and at 90 the other.
#[test]
fn both_loads_at_once_lie_between_the_two() {
    let (lateral, along) = (200.0 * POUNDS, 300.0 * POUNDS);
    let at = |kind, angle| withdrawal::combined(&mut new(), kind, lateral, along, Amount::degrees(angle));
    for (angle, lag, nail) in
        [(0.0, "200.00", "200.00"), (30.0, "218.18", "166.76"), (60.0, "266.67", "185.64"), (90.0, "300.00", "300.00")]
    {
        comes_to(at(DowelKind::Lag, angle), POUNDS, lag);
        comes_to(at(DowelKind::Nail, angle), POUNDS, nail);
        comes_to(at(DowelKind::WoodScrew, angle), POUNDS, nail);
    }
    assert_eq!(at(DowelKind::Bolt, 30.0), Err(Outside::PulledBolt));
    let worst = |kind| withdrawal::at_the_worst_angle(&mut new(), kind, lateral, along);
    comes_to(worst(DowelKind::Lag), POUNDS, "200.00");
    comes_to(worst(DowelKind::Nail), POUNDS, "166.41");
    let all = withdrawal::all_at_the_worst_angle(&mut new(), DowelKind::Nail, (lateral, 100.0 * POUNDS), 3.0);
    comes_to(all, POUNDS, "166.41");
    // The least over all angles, by trying them.
    let tried = (0..=900).map(|tenth| at(DowelKind::Nail, f64::from(tenth) / 10.0).unwrap().per(POUNDS));
    assert!((tried.fold(f64::INFINITY, f64::min) - 166.41).abs() < 0.01);
}

/// Wood torn beside two rows of two 1/2 in bolts in 9/16 in holes of a 2x8, 4 in apart and 3-1/2 in from the end, the rows 3 in
/// apart: NDS Appendix E, from memory, with 575 and 180 psi.
#[test]
fn rows_and_their_group_tear_by_the_appendix() {
    let pulled = Pulled {
        thickness: 1.5 * INCHES,
        width: 7.25 * INCHES,
        hole: 0.5625 * INCHES,
        rows: 2.0,
        in_row: 2.0,
        end: 3.5 * INCHES,
        spacing: Some(4.0 * INCHES),
        across: 3.0 * INCHES,
    };
    let mut w = new();
    comes_to(torn(&mut w, &pulled, 575.0 * PSI, 180.0 * PSI), POUNDS, "3780.00");
    for (symbol, written) in [("Z_NT", "5282.81"), ("Z_RT", "3780.00"), ("Z_GT", "3992.34")] {
        comes_to(Ok(w.value(symbol).unwrap()), POUNDS, written);
    }
    for (rows, in_row) in [(0.5, 2.0), (2.0, 0.5)] {
        assert!(torn(&mut new(), &Pulled { rows, in_row, ..pulled }, 575.0 * PSI, 180.0 * PSI).is_err());
    }
}

/// Shear at a notch and beside fasteners, b 1-1/2 in, d 9-1/4 in, 180 psi: NDS 3.4.3.2 and 3.4.3.3. Below: two thirds F_v b d_n
/// times (d_n/d) squared; above, reaching e: d - e (d - d_n) / d_n. Within five depths of the end the ratio counts squared.
#[test]
fn notches_and_fastenings_near_an_end_by_the_clause() {
    let (b, d) = (1.5 * INCHES, 9.25 * INCHES);
    let notched = |of| notch::notched_shear(&mut new(), 180.0 * PSI, b, d, 7.25 * INCHES, of);
    comes_to(notched(notch::Notched::Stretched), POUNDS, "801.68");
    comes_to(notched(notch::Notched::Pressed(3.0 * INCHES)), POUNDS, "1516.03");
    // It reaches no further than what is left.
    comes_to(notched(notch::Notched::Pressed(9.0 * INCHES)), POUNDS, "1305.00");
    let hung = |from_end: f64| notch::fastened_shear(&mut new(), 180.0 * PSI, b, d, 7.25 * INCHES, from_end * INCHES);
    comes_to(hung(46.0), POUNDS, "801.68");
    comes_to(hung(46.25), POUNDS, "1305.00");
    assert!(notch::fastened_shear(&mut new(), 180.0 * PSI, b, d, 9.5 * INCHES, 46.0 * INCHES).is_err());
}

/// Under heads and nuts: a cut washer for a 1/2 in bolt is 1-3/8 in across, the head of a carriage bolt 1.094 in with a neck of
/// 0.515 in, a hex head 3/4 in across flats; the hole is 1/16 in over. ANSI and ASME sizes, as the handbook's rows cite them.
#[test]
fn what_presses_on_the_wood_is_the_head_less_its_hole() {
    let area = |under| bolt::pressed_area(&mut new(), 0.5 * INCHES, under);
    comes_to(area(Under::CutWasher), INCHES * INCHES, "1.2364");
    comes_to(area(Under::Plate(2.0 * INCHES)), INCHES * INCHES, "3.7515");
    comes_to(area(Under::RoundHead), INCHES * INCHES, "0.6748");
    comes_to(area(Under::HexHead), INCHES * INCHES, "0.1933");
    assert!(area(Under::Plate(0.4 * INCHES)).is_err());
    let pressed = |count| bolt::pressed(&mut new(), 400.0 * PSI, 1.2364 * INCHES * INCHES, count);
    comes_to(pressed(2.0), POUNDS, "989.1");
    assert!(pressed(0.0).is_err());
    // A size as a sixty-fourth or a millimetre writes it is that of the table, to half a thousandth.
    let washer = |inches| bolt::washer(WasherShape::Round, inches).is_some();
    assert!(washer(0.5) && washer(0.500_49) && !washer(0.500_505) && !washer(0.51));
}

/// The neck of a 1/2 in carriage bolt is 0.281 in deep and 0.515 in square: ASME B18.5. It stays in thicker wood, in a hole no wider.
#[test]
fn a_square_neck_holds_in_thicker_wood_and_a_hole_no_wider() {
    let holds = |member: f64, hole: f64| bolt::neck_holds(0.5 * INCHES, member * INCHES, hole * INCHES).is_ok();
    assert!(holds(1.5, 0.5) && holds(0.29, 0.515));
    assert!(!holds(0.28, 0.5) && !holds(1.5, 0.5625));
}

/// Bolts are sold in half inches up to 8 in and in whole ones beyond, and a bit reaches its share of a stack: common practice, no
/// source. The length under the head takes the nut of the handbook.
#[test]
fn a_bolt_is_as_long_as_its_stack_wants_and_the_shop_sells() {
    for (wanted, sold) in
        [(4.0, "4.0"), (4.01, "4.5"), (4.5, "4.5"), (7.6, "8.0"), (8.0, "8.0"), (8.1, "9.0"), (9.0, "9.0")]
    {
        comes_to(Ok(bolt::sold_length(wanted * INCHES)), INCHES, sold);
    }
    comes_to(bolt::bit_reach(&mut new(), 6.0 * INCHES, 8.0 * INCHES), one(), "0.7500");
    let row = handbook::by_diameter(&handbook::BOLTS, 0.5, |row| row.diameter).unwrap();
    let needed = bolt::length_needed(&mut new(), 0.5 * INCHES, 5.0 * INCHES, 0.25 * INCHES).unwrap();
    assert!((needed.per(INCHES) - 5.25 - row.nut).abs() < 1e-9);
    // A 1/2 x 6 in bolt has 1-1/4 in of thread (ASME B18.2.1): of 1-1/2 in under the nut a quarter and no more may be threaded.
    let thread = |stack: f64, last: f64| {
        bolt::thread_in_wood(&mut new(), 0.5 * INCHES, 6.0 * INCHES, stack * INCHES, 0.0 * INCHES, last * INCHES)
    };
    assert_eq!(thread(5.125, 1.5), Ok(Thread::ClearOfTheWood));
    assert_eq!(thread(5.13, 1.5), Ok(Thread::InTheWood));
    assert!(thread(5.0, 0.0).is_err());
}

/// Slack of 1/16 in over 5 in sways a 36 in post by 0.45 in: statics. A push in the middle of a span comes to a quarter of their
/// product. Compression bears more within a member: (l_b + 3/8) / l_b, from 3 in of the end on and below 6 in (NDS 3.10.4).
#[test]
fn slack_pushes_and_bearings_by_statics() {
    comes_to(guard_post::slack_sway(&mut new(), 0.0625 * INCHES, 5.0 * INCHES, 36.0 * INCHES), INCHES, "0.4500");
    comes_to(demand::moment_in_the_middle(&mut new(), 200.0 * POUNDS, 72.0 * INCHES), POUNDS * INCHES, "3600.0");
    let values = adjusted::values_for("douglas fir", "No.2", 1.5 * INCHES, 9.25 * INCHES).unwrap();
    let piece = Piece { values, thickness: 1.5 * INCHES, width: 9.25 * INCHES, lies: Lies::OnEdge };
    let bears = |length: f64, from_end: f64| {
        let bears = adjusted::Bears { length: length * INCHES, from_end: from_end * INCHES };
        adjusted::across(&mut new(), &piece, DRY, bears)
    };
    comes_to(bears(1.5, 3.0), PSI, "781.25");
    comes_to(bears(1.5, 2.9), PSI, "625.00");
    comes_to(bears(6.0, 12.0), PSI, "625.00");
    assert!(bears(0.0, 12.0).is_err());
}

/// A 4x4 of Douglas fir-larch No.2, 96 in long between its ends: F_c 1350 psi times 1.15 for its size, E_min 580,000 psi (NDS
/// Supplement Table 4A, from memory), c 0.8 of sawn lumber; a slenderness of 50 is the last (NDS 3.7.1).
#[test]
fn a_column_buckles_by_its_slenderness() {
    let (thickness, width) = (3.5 * INCHES, 3.5 * INCHES);
    let values = adjusted::values_for("douglas fir", "No.2", thickness, width).unwrap();
    let piece = Piece { values, thickness, width, lies: Lies::OnEdge };
    let along = |inches: f64| adjusted::along(&mut new(), &piece, DRY, inches * INCHES);
    comes_to(along(96.0), PSI, "568.13");
    assert!(along(175.0).is_ok());
    assert_eq!(along(175.5), Err(Outside::TooSlender));
}

/// E_min of lumber graded by eye is E (1 - 1.645 x 0.25) 1.03 / 1.66 (NDS Appendix D, from memory): 580,000 psi of 1,600,000, as
/// Table 4A prints it to the nearest ten thousand. A round column counts as the square of its area (NDS 3.7.3): of 4 in, 3.545.
#[test]
fn a_timber_without_a_printed_least_stiffness_has_that_of_its_mean() {
    let printed = adjusted::values_for("douglas fir", "No.2", 3.5 * INCHES, 3.5 * INCHES).unwrap();
    let values = handbook::DesignValues { least: None, ..*printed };
    let piece = Piece { values: &values, thickness: 3.5 * INCHES, width: 3.5 * INCHES, lies: Lies::OnEdge };
    comes_to(adjusted::least_stiffness(&mut new(), &piece, DRY).map(|least| least * 1e-4), PSI, "58.45");
    assert_eq!(printed.least, Some(580_000.0));
    let round = column::column(&mut new(), (4.0 * INCHES, 4.0 * INCHES), true).unwrap();
    comes_to(Ok(round.way), INCHES, "3.545");
    comes_to(Ok(round.area), INCHES * INCHES, "12.57");
}

/// A timber deeper than 12 in: (12 / d) to the ninth root, of 13-1/2 in 0.9870 (NDS Supplement Table 4D, from memory).
#[test]
fn a_deep_timber_bends_by_its_size() {
    let (thickness, width) = (5.5 * INCHES, 13.5 * INCHES);
    let values = adjusted::values_for("douglas fir", "No.2", thickness, width).unwrap();
    let piece = Piece { values, thickness, width, lies: Lies::OnEdge };
    let mut w = new();
    adjusted::bending(&mut w, &piece, DRY, width, Held::BothEdges).unwrap();
    comes_to(Ok(w.value("C_F").unwrap()), one(), "0.9870");
}

/// ASCE 7, 2.4.1: D + 0.75 (L + S), and of what comes and goes the greatest of L, S and 0.75 (L + S). Two equal spans under an even
/// load q: 10 q L / 8 on the middle support and 5 q L / 8 beside it. A connection's load duration is at most 1.6 (NDS 11.3.2).
#[test]
fn loads_are_taken_together_and_carried_over_a_prop() {
    let [dead, live, snow, little] = [10.0, 40.0, 30.0, 5.0].map(|load| load * PSF);
    comes_to(demand::dead_live_and_snow(&mut new(), dead, live, snow), PSF, "62.50");
    comes_to(demand::dead_and_snow(&mut new(), dead, snow), PSF, "40.00");
    comes_to(demand::live_or_snow(&mut new(), live, snow), PSF, "52.50");
    comes_to(demand::live_or_snow(&mut new(), live, little), PSF, "40.00");
    comes_to(demand::live_or_snow(&mut new(), little, snow), PSF, "30.00");
    let over = |degrees: f64| {
        stringer::over_a_prop(&mut new(), 10.0 * POUNDS_PER_INCH, 96.0 * INCHES, Amount::degrees(degrees)).unwrap()
    };
    comes_to(Ok(over(30.0).0), POUNDS, "1200.00");
    comes_to(Ok(over(30.0).1), POUNDS, "519.62");
    comes_to(Ok(over(0.0).1), POUNDS, "600.00");
    comes_to(lateral::joint_duration(&mut new(), Duration::Impact), one(), "1.600");
    comes_to(lateral::joint_duration(&mut new(), Duration::TenMinutes), one(), "1.600");
}

/// A board of 11-1/4 in that moves by 0.0024 with each percent shrinks from 19 to 12 % by 0.189 in: Wood Handbook, chapter 13.
#[test]
fn wood_moves_with_its_moisture() {
    comes_to(moisture::change(&mut new(), 11.25 * INCHES, Amount::number(0.0024), 19.0, 12.0), INCHES, "-0.1890");
    assert!(moisture::board_shrinkage(&mut new(), moisture::Board::Width, 8.0).is_ok());
    assert!(moisture::board_shrinkage(&mut new(), moisture::Board::Width, 7.9).is_err());
    assert!(moisture::movement(&mut new(), 7.0, 10.0).is_err() && moisture::movement(&mut new(), 0.0, 30.0).is_err());
}

/// Where any one of what a method asks for is nothing, less than nothing or no number, it has no value.
#[test]
fn nothing_and_no_number_have_no_value() {
    type Method = fn(&[f64]) -> Result<Amount, Outside>;
    let methods: [(&str, &[f64], Method); 21] = [
        ("thread of a bolt", &[0.5, 6.0], |a| bolt::thread_length(&mut new(), a[0] * INCHES, a[1] * INCHES)),
        ("reach of a bit", &[6.0, 8.0], |a| bolt::bit_reach(&mut new(), a[0] * INCHES, a[1] * INCHES)),
        ("couple", &[200.0, 40.0, 5.0], |a| {
            guard_post::couple(&mut new(), a[0] * POUNDS, a[1] * INCHES, a[2] * INCHES).map(|couple| couple.upper)
        }),
        ("sway", &[5.0, 36.0], |a| guard_post::slack_sway(&mut new(), 0.06 * INCHES, a[0] * INCHES, a[1] * INCHES)),
        ("lag", &[0.5, 0.5], |a| withdrawal::lag(&mut new(), a[0], a[1] * INCHES)),
        ("screw", &[0.5, 0.19], |a| withdrawal::wood_screw(&mut new(), a[0], a[1] * INCHES)),
        ("nail", &[0.5, 0.162], |a| withdrawal::nail(&mut new(), a[0], a[1] * INCHES, withdrawal::Shank::Smooth)),
        ("head", &[0.5, 0.28, 1.5], |a| withdrawal::head_pull_through(&mut new(), a[0], a[1] * INCHES, a[2] * INCHES)),
        ("worst angle", &[200.0, 300.0], |a| {
            withdrawal::at_the_worst_angle(&mut new(), DowelKind::Nail, a[0] * POUNDS, a[1] * POUNDS)
        }),
        ("at an angle", &[200.0, 300.0], |a| {
            let angle = Amount::degrees(30.0);
            withdrawal::combined(&mut new(), DowelKind::Nail, a[0] * POUNDS, a[1] * POUNDS, angle)
        }),
        ("push", &[200.0, 72.0], |a| demand::moment_in_the_middle(&mut new(), a[0] * POUNDS, a[1] * INCHES)),
        ("plate", &[58_000.0, 0.25], |a| dowel::steel_bearing(&mut new(), a[0] * PSI, a[1] * INCHES)),
        ("torn: thickness, width, hole, end", &[1.5, 7.25, 0.56, 3.5], |a| {
            let [thickness, width, hole, end] = [0, 1, 2, 3].map(|at: usize| a[at] * INCHES);
            let pulled =
                Pulled { thickness, width, hole, rows: 1.0, in_row: 1.0, end, spacing: None, across: 0.0 * INCHES };
            torn(&mut new(), &pulled, 575.0 * PSI, 180.0 * PSI)
        }),
        ("weight", &[0.5], |a| moisture::weight(&mut new(), a[0], 12.0)),
        ("weight by its volume", &[0.5], |a| moisture::weight_by_own_volume(&mut new(), a[0], 12.0)),
        ("pieces", &[1.5, 9.25, 96.0, 3.0], |a| {
            let sizes = ((a[0] * INCHES, a[1] * INCHES), a[2] * INCHES);
            moisture::pieces(&mut new(), sizes, a[3], POUNDS / (INCHES * INCHES * INCHES))
        }),
        ("fastened", &[1.5, 7.25], |a| {
            notch::fastened_shear(&mut new(), 180.0 * PSI, a[0] * INCHES, 9.25 * INCHES, a[1] * INCHES, 4.0 * INCHES)
        }),
        ("section", &[1.5, 9.25], |a| {
            section::Section::on_edge(a[0] * INCHES, a[1] * INCHES).properties(&mut new()).map(|of| of.modulus)
        }),
        ("round section", &[1.5], |a| {
            section::Section::Round { diameter: a[0] * INCHES }.properties(&mut new()).map(|of| of.modulus)
        }),
        ("beam", &[96.0], |a| {
            let stiffness = 1.0e8 * PSI * INCHES * INCHES * INCHES * INCHES;
            beam::effects(&mut new(), beam::Beam::SimpleMiddle, 100.0 * POUNDS, a[0] * INCHES, stiffness)
                .map(|of| of.moment)
        }),
        ("bearing across", &[1.5], |a| {
            let values = adjusted::values_for("douglas fir", "No.2", 1.5 * INCHES, 9.25 * INCHES)?;
            let piece = Piece { values, thickness: 1.5 * INCHES, width: 9.25 * INCHES, lies: Lies::OnEdge };
            let bears = adjusted::Bears { length: a[0] * INCHES, from_end: 12.0 * INCHES };
            adjusted::across(&mut new(), &piece, DRY, bears)
        }),
    ];
    for (name, good, method) in methods {
        assert!(method(good).is_ok_and(Amount::is_finite), "{name}: {good:?}");
        for at in 0..good.len() {
            for bad in [0.0, -1.0, f64::NAN] {
                let mut with = good.to_vec();
                with[at] = bad;
                assert!(method(&with).is_err(), "{name}: {with:?}");
            }
        }
    }
    for moisture in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(moisture::weight(&mut new(), 0.5, moisture).is_err());
        assert!(moisture::weight_by_own_volume(&mut new(), 0.5, moisture).is_err());
    }
}
