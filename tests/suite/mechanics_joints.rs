//! Joints put together from their parts, each against a sum by hand; wood that tears beside its bolts; coatings.

use pitchboard::handbook::{CoatingStands, WoodFor, coating};
use pitchboard::mechanics::adjusted::Duration;
use pitchboard::mechanics::amount::{INCHES, POUNDS, PSI};
use pitchboard::mechanics::dowel::{Against, Dowel, Thread};
use pitchboard::mechanics::group::{Joins, Row};
use pitchboard::mechanics::joint::{Joined, Joint, lateral_value};
use pitchboard::mechanics::lateral::{Enters, Meets, Moisture, Pattern};
use pitchboard::mechanics::local::{Pulled, torn};
use pitchboard::mechanics::placing::{Grain, Hardness, Stands};
use pitchboard::mechanics::yield_limit::Shear;
use pitchboard::mechanics::{Outside, Placed, Working};

const ALONG: [Grain; 1] = [Grain::TowardEnd];

fn stands(end: f64) -> Stands {
    Stands {
        diameter: 0.5 * INCHES,
        hardness: Hardness::Softwood,
        end: Some(end * INCHES),
        loaded_edge: Some(1.75 * INCHES),
        unloaded_edge: Some(1.75 * INCHES),
        spacing: Some(2.5 * INCHES),
        rows: None,
        lengths: (3.5 * INCHES, 1.5 * INCHES),
    }
}

fn member(thickness: f64, end: f64, gravity: f64) -> Joined<'static> {
    Joined {
        against: Against::Wood { gravity: gravity.into(), angle: 0.0 },
        thickness: thickness * INCHES,
        stands: Some(stands(end)),
        loads: &ALONG,
    }
}

const PUSHED_WET: Meets = Meets {
    duration: Duration::TenMinutes,
    moisture: Moisture::UsedWet,
    pattern: Pattern::OneRow,
    enters: Enters::SideGrain,
};

/// Douglas fir, 1-1/2 in on 3-1/2 in, 1/2 in bolts along the grain: 614.84 lb for one, which NDS Table 12A prints as 610. A push
/// of ten minutes 1.6, wet 0.7, an end of 3 in of the 3-1/2 that are full.
#[test]
fn a_bolted_joint_comes_to_its_sum_by_hand() {
    let bolt = Dowel::bolt(0.5 * INCHES, Thread::ClearOfTheWood).unwrap();
    let joint = Joint {
        dowel: &bolt,
        count: 1.0,
        main: member(3.5, 4.0, 0.5),
        side: member(1.5, 3.0, 0.5),
        shear: Shear::Single,
        length: None,
        row: None,
        meets: PUSHED_WET,
    };
    let w = &mut Working::default();
    let one = lateral_value(w, &joint).unwrap();
    assert!((one.per(POUNDS) - 614.84 * 1.6 * 0.7 * 3.0 / 3.5).abs() < 0.05, "{}", one.text());
    for (symbol, figure) in [("C_D", 1.6), ("C_M", 0.7), ("C_delta", 3.0 / 3.5), ("C_g", 1.0), ("C_eg", 1.0)] {
        assert!((w.value(symbol).unwrap().plain() - figure).abs() < 1e-12, "{symbol}");
    }
    // Two in a row share unevenly, and hold more than one all the same.
    let area = |thickness: f64, width: f64| thickness * width * INCHES * INCHES;
    let row = Row {
        count: 2.0,
        diameter: 0.5 * INCHES,
        spacing: 2.5 * INCHES,
        main: (1.6e6 * PSI, area(3.5, 3.5)),
        side: (1.6e6 * PSI, area(1.5, 11.25)),
        joins: Joins::WoodToWood,
    };
    let two = lateral_value(w, &Joint { count: 2.0, row: Some(row), ..joint }).unwrap();
    assert!(two.is_below(2.0 * one) && one.is_below(two));
    let near = Joint { main: member(3.5, 1.5, 0.5), ..joint };
    assert_eq!(lateral_value(w, &near), Err(Outside::TooNear(Placed::End)));
}

/// A 16d common nail, 1-1/2 in of Douglas fir to more of it: 141 lb by NDS Table 12N. It goes in 2 in, over 10 diameters, of which
/// half the tip does not count; the mode at which it bends on both sides of the plane knows no length.
#[test]
fn a_nailed_joint_comes_to_its_sum_by_hand() {
    let nail = Dowel::nail(0.162 * INCHES).unwrap();
    let plain = |thickness: f64| Joined { stands: None, ..member(thickness, 4.0, 0.5) };
    let joint = Joint {
        dowel: &nail,
        count: 3.0,
        main: plain(3.5),
        side: plain(1.5),
        shear: Shear::Single,
        length: Some(3.5 * INCHES),
        row: None,
        meets: Meets { duration: Duration::TenYears, moisture: Moisture::Dry, ..PUSHED_WET },
    };
    let w = &mut Working::default();
    let value = lateral_value(w, &joint).unwrap();
    assert!((value.per(POUNDS) - 3.0 * 140.89).abs() < 0.05, "{}", value.text());
    assert_eq!(w.decides("Z"), Some("Z_IV"));
    // Into end grain, and set aslant.
    let enters = |enters| {
        let joint = Joint { meets: Meets { enters, ..joint.meets }, ..joint };
        lateral_value(&mut Working::default(), &joint).unwrap().per(value)
    };
    assert!((enters(Enters::EndGrain) - 0.67).abs() < 1e-12 && (enters(Enters::ToeNailed) - 0.83).abs() < 1e-12);
    let short = Joint { length: Some(2.4 * INCHES), ..joint };
    assert_eq!(lateral_value(w, &short), Err(Outside::TooShallow { least: 6.0 }));
}

/// By hand: 500 psi on 1-1/2 by 6-11/16 in is 5,016 lb; two bolts shear 2 x 150 psi x 1-1/2 x 2 in, 900 lb.
#[test]
fn wood_beside_a_row_tears_at_the_least_of_its_ways() {
    let pulled = Pulled {
        thickness: 1.5 * INCHES,
        width: 7.25 * INCHES,
        hole: 0.5625 * INCHES,
        rows: 1.0,
        in_row: 2.0,
        end: 3.5 * INCHES,
        spacing: Some(2.0 * INCHES),
        across: 0.0 * INCHES,
    };
    let w = &mut Working::default();
    let value = torn(w, &pulled, 500.0 * PSI, 150.0 * PSI).unwrap();
    assert!((value.per(POUNDS) - 900.0).abs() < 1e-9);
    assert_eq!(w.decides("Z_tear"), Some("Z_RT"));
    assert!((w.value("Z_NT").unwrap().per(POUNDS) - 500.0 * 1.5 * 6.6875).abs() < 1e-6);
    // Two rows 3 in apart: 900 lb at their edges and 500 psi on 1-1/2 by 2-7/16 in between them; the rows alone take 1,800.
    let two = Pulled { rows: 2.0, across: 3.0 * INCHES, ..pulled };
    let value = torn(w, &two, 500.0 * PSI, 150.0 * PSI).unwrap();
    assert_eq!(w.decides("Z_tear"), Some("Z_RT"));
    assert!((w.value("Z_GT").unwrap().per(POUNDS) - (900.0 + 500.0 * 1.5 * 2.4375)).abs() < 1e-6);
    assert!((value.per(POUNDS) - 1800.0).abs() < 1e-9);
    let holes = Pulled { hole: 4.0 * INCHES, ..two };
    assert_eq!(torn(w, &holes, 500.0 * PSI, 150.0 * PSI), Err(Outside::NothingThere));
}

/// IRC R317.3.1: in treated wood galvanised, stainless; plain steel bolts from 1/2 in on.
#[test]
fn a_coating_stands_the_wood_by_the_clause() {
    let stands = |wood, place, name, diameter| coating(wood, place, name, diameter).map(|row| row.stands);
    assert_eq!(stands(WoodFor::Treated, "indoors", "plain", 0.375), Some(CoatingStands::No));
    assert_eq!(stands(WoodFor::Treated, "outdoors", "plain", 0.5), Some(CoatingStands::Yes));
    assert_eq!(stands(WoodFor::Treated, "outdoors", "coated", 0.19), Some(CoatingStands::ByItsMaker));
    assert_eq!(stands(WoodFor::Treated, "outdoors", "galvanised", 0.19), Some(CoatingStands::Yes));
    assert_eq!(stands(WoodFor::Tannin, "outdoors", "galvanised", 0.162), Some(CoatingStands::No));
    assert_eq!(stands(WoodFor::TreatedDry, "outdoors", "plain", 0.162), None, "only where it is kept dry");
}
