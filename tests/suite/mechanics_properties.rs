//! What holds of the mechanics whatever the figures: more wood never weakens, a longer span never stiffens, a wider distance
//! never lowers a value, a heavier load never helps; and every figure of a working has the dimension that its symbol says.

use pitchboard::measure::Dimension;
use pitchboard::mechanics::adjusted::{self, Bears, Conditions, Duration, Faces, Held, Lies, Piece, Service, Sharing};
use pitchboard::mechanics::amount::{INCHES, POUNDS, POUNDS_PER_INCH, PSF, PSI, fourth};
use pitchboard::mechanics::beam::{self, Beam};
use pitchboard::mechanics::dowel::{self, Against, Dowel, DowelKind, Thread};
use pitchboard::mechanics::group::{Joins, Row, group_action};
use pitchboard::mechanics::lateral::{self, Enters, Meets, Moisture, Pattern};
use pitchboard::mechanics::placing::{Grain, Hardness, Stands, geometry};
use pitchboard::mechanics::section::Section;
use pitchboard::mechanics::withdrawal::{self, Pulled, Shank};
use pitchboard::mechanics::yield_limit::{Bearing, Shear, reference};
use pitchboard::mechanics::{
    Amount, Outside, Working, bolt, column, demand, guard_post, header, holes, moisture, notch, overturning, stringer,
};
use proptest::prelude::*;

const CONDITIONS: Conditions =
    Conditions { service: Service::Wet, duration: Duration::TenYears, sharing: Sharing::Single, faces: Faces::Incised };

/// The moment that a board of hem-fir takes on edge or flat, inch-pounds.
fn moment(thickness: f64, depth: f64, lies: Lies) -> Result<Amount, Outside> {
    let w = &mut Working::default();
    let (t, d) = (thickness * INCHES, depth * INCHES);
    let values = adjusted::values_for("hem-fir", "No.2", t, d)?;
    let piece = Piece { values, thickness: t, width: d, lies };
    let (section, along) = match lies {
        Lies::OnEdge => (Section::on_edge(t, d), d),
        Lies::Flat => (Section::flat(t, d), t),
    };
    let strength = adjusted::bending(w, &piece, CONDITIONS, along, Held::BothEdges)?;
    Ok(strength * section.properties(w)?.modulus)
}

fn wood(gravity: f64, angle: f64) -> Against {
    Against::Wood { gravity: gravity.into(), angle }
}

/// The lateral value of a fastener of each kind.
fn value(kind: DowelKind, main: f64, side: f64, gravity: f64, angle: f64, shear: Shear) -> Result<Amount, Outside> {
    let dowel = match kind {
        DowelKind::Bolt => Dowel::bolt(0.5 * INCHES, Thread::ClearOfTheWood)?,
        DowelKind::Lag => Dowel::lag(0.375 * INCHES)?,
        DowelKind::WoodScrew => Dowel::wood_screw(0.19 * INCHES)?,
        DowelKind::Nail => Dowel::nail(0.162 * INCHES)?,
    };
    let bearing = |length: f64| Bearing { against: wood(gravity, angle), length: length * INCHES };
    reference(&mut Working::default(), &dowel, bearing(main), bearing(side), shear)
}

fn kinds() -> impl Strategy<Value = DowelKind> {
    prop_oneof![Just(DowelKind::Bolt), Just(DowelKind::Lag), Just(DowelKind::WoodScrew), Just(DowelKind::Nail)]
}

fn stands(edge: f64, end: f64, spacing: f64) -> Stands {
    Stands {
        diameter: 0.5 * INCHES,
        hardness: Hardness::Softwood,
        end: Some(end * INCHES),
        loaded_edge: Some(edge * INCHES),
        unloaded_edge: Some(edge * INCHES),
        spacing: Some(spacing * INCHES),
        rows: None,
        lengths: (3.5 * INCHES, 1.5 * INCHES),
    }
}

const WET: Meets = Meets {
    duration: Duration::TenYears,
    moisture: Moisture::UsedWet,
    pattern: Pattern::OneRow,
    enters: Enters::SideGrain,
};

fn pulled_lag(lag: &Dowel, deep: f64) -> Pulled<'_> {
    Pulled { dowel: lag, shank: Shank::Smooth, gravity: 0.5.into(), holds: deep * INCHES }
}

const GRAINS: [Grain; 3] = [Grain::TowardEnd, Grain::AwayFromEnd, Grain::Across];

fn no_less(more: Amount, less: Amount) -> bool {
    !more.is_below(less)
}

proptest! {
    #[test]
    fn more_depth_and_more_thickness_never_weaken(
        depth in 3.5..15.0_f64, thickness in 1.5..4.0_f64, more in 0.0..3.0_f64, flat in any::<bool>(),
    ) {
        let lies = if flat { Lies::Flat } else { Lies::OnEdge };
        let at = |thickness: f64, depth: f64| moment(thickness, depth.max(thickness), lies);
        if let (Ok(less), Ok(deeper)) = (at(thickness, depth), at(thickness, (depth + more).min(15.25))) {
            prop_assert!(no_less(deeper, less), "{} {}", less.text(), deeper.text());
        }
        // Laid flat, a piece thicker than 3 in has a lower flat use factor: NDS Supplement 2018, Table 4A.
        let most = if flat && thickness <= 3.0 { 3.0 } else { 4.0 };
        if let (Ok(less), Ok(thicker)) = (at(thickness, depth), at((thickness + more).min(most), depth)) {
            prop_assert!(no_less(thicker, less), "{} {}", less.text(), thicker.text());
        }
    }

    #[test]
    fn a_longer_span_and_a_heavier_load_never_help(
        span in 10.0..200.0_f64, longer in 0.0..100.0_f64, load in 1.0..500.0_f64, heavier in 0.0..500.0_f64,
    ) {
        let stiffness = 1.2e6 * PSI * (10.0 * fourth(INCHES));
        for (beam, uniform) in [
            (Beam::SimpleUniform, true), (Beam::SimpleMiddle, false), (Beam::SimpleAnywhere, false),
            (Beam::CantileverUniform, true), (Beam::CantileverEnd, false), (Beam::TwoUniformBoth, true),
            (Beam::TwoUniformOne, true), (Beam::TwoMiddleOne, false), (Beam::TwoMiddleBoth, false),
            (Beam::TwoAnywhere, false),
        ] {
            let unit = if uniform { POUNDS_PER_INCH } else { POUNDS };
            let under = |load: f64, span: f64| {
                beam::effects(&mut Working::default(), beam, load * unit, span * INCHES, stiffness).unwrap()
            };
            let (less, long, heavy) = (under(load, span), under(load, span + longer), under(load + heavier, span));
            prop_assert!(no_less(long.deflection, less.deflection) && no_less(long.moment, less.moment));
            prop_assert!(no_less(heavy.deflection, less.deflection) && no_less(heavy.moment, less.moment));
            prop_assert!(no_less(heavy.shear, less.shear) && no_less(heavy.reaction, less.reaction));
        }
        let push = |load: f64| guard_post::couple(&mut Working::default(), load * POUNDS, 39.0 * INCHES, 5.0 * INCHES).unwrap();
        prop_assert!(no_less(push(load + heavier).upper, push(load).upper));
    }

    #[test]
    fn more_wood_under_a_fastener_and_denser_wood_never_weaken(
        kind in kinds(), main in 0.5..8.0_f64, side in 0.5..4.0_f64, more in 0.0..3.0_f64,
        gravity in 0.31..0.7_f64, denser in 0.0..0.1_f64, angle in 0.0..90.0_f64, double in any::<bool>(),
    ) {
        let shear = if double { Shear::Double } else { Shear::Single };
        let at = |main, side, gravity| value(kind, main, side, gravity, angle, shear).unwrap();
        let less = at(main, side, gravity);
        prop_assert!(no_less(at(main + more, side, gravity), less));
        prop_assert!(no_less(at(main, side + more, gravity), less));
        prop_assert!(no_less(at(main, side, gravity + denser), less));
        let steeper = value(kind, main, side, gravity, (angle + more * 10.0).min(90.0), shear).unwrap();
        prop_assert!(no_less(less, steeper), "across the grain is no stronger than along it");
        prop_assert!(no_less(at(main, side, gravity), value(kind, main, side, gravity, angle, Shear::Single).unwrap()));
    }

    #[test]
    fn a_wider_distance_never_lowers_a_value(
        edge in 0.5..4.0_f64, end in 0.5..5.0_f64, spacing in 0.5..4.0_f64, more in 0.0..3.0_f64,
    ) {
        for grain in GRAINS {
            let at = |edge, end, spacing| geometry(&mut Working::default(), &stands(edge, end, spacing), &[grain]);
            let less = at(edge, end, spacing);
            for wider in [at(edge + more, end, spacing), at(edge, end + more, spacing), at(edge, end, spacing + more)] {
                match (&less, &wider) {
                    (Ok(less), Ok(wider)) => prop_assert!(no_less(*wider, *less)),
                    (Ok(_), Err(why)) => prop_assert!(false, "wider is refused: {why:?}"),
                    (Err(_), _) => {}
                }
            }
            if let Ok(factor) = less {
                prop_assert!((0.5..=1.0).contains(&factor.plain()), "{}", factor.plain());
            }
        }
    }

    #[test]
    fn more_in_a_row_are_never_weaker_and_each_is_no_stronger(count in 1..12_u8, spacing in 1.5..6.0_f64) {
        let row = |count: u8| Row {
            count: f64::from(count),
            diameter: 0.5 * INCHES,
            spacing: spacing * INCHES,
            main: (1.4e6 * PSI, 10.875 * INCHES * INCHES),
            side: (1.4e6 * PSI, 5.25 * INCHES * INCHES),
            joins: Joins::WoodToWood,
        };
        let factor = |count| group_action(&mut Working::default(), &row(count)).unwrap();
        let (fewer, more) = (factor(count), factor(count + 1));
        prop_assert!(no_less(fewer, more) && fewer.plain() <= 1.0 && more.plain() > 0.0);
    }

    #[test]
    fn a_deeper_thread_holds_no_less_and_a_fuller_notch_shears_no_sooner(
        deep in 0.5..4.0_f64, more in 0.0..2.0_f64, left in 5.44..7.25_f64,
    ) {
        let lag = Dowel::lag(0.5 * INCHES).unwrap();
        let pulled = |deep: f64| {
            withdrawal::adjusted(&mut Working::default(), &pulled_lag(&lag, deep), WET).unwrap()
        };
        prop_assert!(no_less(pulled(deep + more), pulled(deep)));
        let shears = |left: f64| {
            let w = &mut Working::default();
            notch::notched_shear(w, 150.0 * PSI, 1.5 * INCHES, 7.25 * INCHES, left * INCHES, notch::Notched::Stretched)
        };
        let whole = shears(7.25).unwrap();
        prop_assert!(no_less(whole, shears(left).unwrap()));
        prop_assert!(no_less(shears((left + more).min(7.25)).unwrap(), shears(left).unwrap()));
    }

    #[test]
    fn no_figure_brings_a_method_down(
        value in prop_oneof![Just(0.0), Just(-1.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e-300), Just(1e300), any::<f64>()],
        other in prop_oneof![Just(0.0), Just(1.5), Just(f64::NAN), any::<f64>()],
    ) {
        let w = &mut Working::default();
        let (a, b) = (value * INCHES, other * INCHES);
        let finite = |amount: Result<Amount, Outside>| amount.is_err() || amount.is_ok_and(Amount::is_finite);
        let dowel = Dowel::bolt(a, Thread::InTheWood).or_else(|_| Dowel::nail(a)).or_else(|_| Dowel::lag(0.5 * INCHES)).unwrap();
        let bearing = |length| Bearing { against: wood(other, value), length };
        prop_assert!(finite(reference(w, &dowel, bearing(a), bearing(b), Shear::Single)));
        prop_assert!(finite(dowel::main_length(w, &dowel, a, b)));
        prop_assert!(finite(notch::throat(w, a, b, a)));
        prop_assert!(finite(bolt::thread_length(w, a, b)));
        prop_assert!(finite(bolt::pressed_area(w, a, bolt::Under::Plate(b))));
        prop_assert!(finite(moisture::weight(w, value, other)));
        prop_assert!(finite(withdrawal::head_pull_through(w, value, a, b)));
        let _ = (Section::on_edge(a, b).properties(w), stringer::sloped(w, value * POUNDS_PER_INCH, a, Amount::degrees(other), value * PSI * fourth(INCHES)));
        let _ = (adjusted::values_for("hem-fir", "No.2", a, b), geometry(w, &stands(value, other, value), &GRAINS));
        let _ = overturning::overturning(w, value * POUNDS, a, other * POUNDS, b, 0.0 * POUNDS * INCHES);
    }
}

/// What was worked is in the working; its value is not looked at.
fn worked<T>(_: T) {}

/// A formula is printed of plain numbers, units, functions, and symbols whose figures stand before it: so a person can follow
/// it with a pencil.
fn only_of_figures_before(name: &str, working: &Working) {
    let known = ["sqrt", "squared", "cubed", "fourth", "power", "sin", "cos", "least", "greatest", "nearest"];
    let other = ["of", "them", "x", "in", "psi", "lb", "psf", "pcf", "pi"];
    for (nth, step) in working.steps.iter().enumerate() {
        let Some(formula) = step.formula() else { continue };
        let before = |word: &str| working.steps[..nth].iter().any(|step| step.symbol() == word);
        let words = formula.split(|sign: char| !(sign.is_alphanumeric() || "_.'".contains(sign)));
        for word in words.filter(|word| !word.is_empty()) {
            let plain = word.parse::<f64>().is_ok() || known.contains(&word) || other.contains(&word);
            assert!(plain || before(word), "{name}: `{word}` of `{}` = `{formula}` stands nowhere", step.symbol());
        }
    }
}

/// The dimension that a symbol stands for, by what the standards use its letters for.
fn dimension(symbol: &str) -> Dimension {
    let length = |exponent: i8, force: i8| Dimension { length: exponent, force, angle: 0 };
    match symbol {
        "theta" | "alpha" | "slope" => Dimension::ANGLE,
        "EI" => length(2, 1),
        "EA_m" | "EA_s" | "P" | "T" | "C" | "V" | "R" | "N" | "V_r" | "W_adj" | "Z_adj" | "Z_all" | "Z_alpha"
        | "W_H" => Dimension::FORCE,
        "M" | "M_r" | "M_o" | "M_a" => length(1, 1),
        "q" | "q_s" | "gamma" | "W" => Dimension::LINE_LOAD,
        "p_area" => Dimension::PRESSURE,
        "A" | "A_w" | "A_m" | "A_s" | "A_net" | "A_group" => Dimension::AREA,
        "S" => length(3, 0),
        "I" => length(4, 0),
        "weight" => length(-3, 1),
        "E" | "E_adj" | "E_min" | "E_min_adj" | "E_m" | "E_s" => Dimension::PRESSURE,
        _ if symbol.starts_with("F_") || symbol.starts_with("f_") => Dimension::PRESSURE,
        _ if symbol.starts_with("Z") => Dimension::FORCE,
        "G" | "n" | "u" | "m" | "r" | "theta_90" | "least_share" | "most_share" | "MC" | "bound" | "threaded"
        | "reach" | "factor" => Dimension::NUMBER,
        _ if symbol.starts_with("C_")
            || symbol.starts_with("K_")
            || symbol.starts_with("R_")
            || symbol.starts_with("k_") =>
        {
            Dimension::NUMBER
        }
        _ if symbol.starts_with("c_") => Dimension::NUMBER,
        _ => Dimension::LENGTH,
    }
}

/// A working of every method, each with its own `E` or `s` where a symbol has two meanings.
#[test]
fn every_figure_has_the_dimension_of_its_symbol() {
    let inch = INCHES;
    let mut workings: Vec<(&str, Working)> = Vec::new();
    let mut add = |name, work: &dyn Fn(&mut Working)| {
        let mut w = Working::default();
        work(&mut w);
        assert!(!w.steps.is_empty(), "{name} notes nothing");
        workings.push((name, w));
    };
    let values = adjusted::values_for("hem-fir", "No.2", 1.5 * inch, 9.25 * inch).unwrap();
    let piece = Piece { values, thickness: 1.5 * inch, width: 9.25 * inch, lies: Lies::OnEdge };
    add("bending", &|w| {
        worked(adjusted::bending(w, &piece, CONDITIONS, 9.25 * inch, Held::Over(48.0 * inch)).unwrap())
    });
    add("shear", &|w| worked(adjusted::shear(w, &piece, CONDITIONS).unwrap()));
    add("tension", &|w| worked(adjusted::tension(w, &piece, CONDITIONS).unwrap()));
    let bears = Bears { length: 1.5 * inch, from_end: 4.0 * inch };
    add("across", &|w| worked(adjusted::across(w, &piece, CONDITIONS, bears).unwrap()));
    add("along", &|w| worked(adjusted::along(w, &piece, CONDITIONS, 60.0 * inch).unwrap()));
    add("stiffness", &|w| worked(adjusted::stiffness(w, &piece, CONDITIONS).unwrap()));
    add("section", &|w| worked(Section::on_edge(1.5 * inch, 9.25 * inch).properties(w).unwrap()));
    add("round", &|w| worked(Section::Round { diameter: 1.5 * inch }.properties(w).unwrap()));
    let stiffness = 1e6 * PSI * fourth(inch);
    for beam in
        [Beam::SimpleAt(10.0 * inch), Beam::SimpleMiddle, Beam::CantileverEnd, Beam::TwoMiddleBoth, Beam::TwoAnywhere]
    {
        add("a load", &|w| worked(beam::effects(w, beam, 300.0 * POUNDS, 40.0 * inch, stiffness).unwrap()));
    }
    for beam in [Beam::SimpleUniform, Beam::CantileverUniform, Beam::TwoUniformBoth, Beam::TwoUniformOne] {
        add("a line", &|w| worked(beam::effects(w, beam, 3.0 * POUNDS_PER_INCH, 40.0 * inch, stiffness).unwrap()));
    }
    add("sloped", &|w| {
        worked(stringer::sloped(w, 5.0 * POUNDS_PER_INCH, 70.0 * inch, Amount::degrees(37.0), stiffness).unwrap())
    });
    for kind in [DowelKind::Bolt, DowelKind::Lag, DowelKind::WoodScrew, DowelKind::Nail] {
        for shear in [Shear::Single, Shear::Double] {
            add("yield", &|w| {
                let dowel = match kind {
                    DowelKind::Bolt => Dowel::bolt(0.5 * inch, Thread::InTheWood),
                    DowelKind::Lag => Dowel::lag(0.3125 * inch),
                    DowelKind::WoodScrew => Dowel::wood_screw(0.242 * inch),
                    DowelKind::Nail => Dowel::nail(0.131 * inch),
                };
                let bearing = |length: f64| Bearing { against: wood(0.5, 40.0), length: length * inch };
                worked(reference(w, &dowel.unwrap(), bearing(3.0), bearing(1.5), shear).unwrap());
            });
        }
    }
    let lag = Dowel::lag(0.5 * inch).unwrap();
    add("main length", &|w| worked(dowel::main_length(w, &lag, 3.0 * inch, 3.5 * inch).unwrap()));
    add("hole", &|w| worked(holes::hole(w, &lag, holes::Part::Thread, holes::Loaded::Lateral, 0.5).unwrap()));
    add("withdrawal", &|w| {
        let end = Meets { enters: Enters::EndGrain, ..WET };
        worked(withdrawal::adjusted(w, &pulled_lag(&lag, 2.0), end).unwrap());
    });
    add("head", &|w| worked(withdrawal::head_pull_through(w, 0.5, 0.3 * inch, 1.0 * inch).unwrap()));
    add("combined", &|w| {
        worked(withdrawal::combined(w, DowelKind::Lag, 300.0 * POUNDS, 400.0 * POUNDS, Amount::degrees(30.0)).unwrap());
    });
    let meets = Meets {
        duration: Duration::TenMinutes,
        moisture: Moisture::UsedWet,
        pattern: Pattern::OneRow,
        enters: Enters::SideGrain,
    };
    add("lateral", &|w| {
        worked(lateral::adjusted(w, 300.0 * POUNDS, 0.5 * inch, 0.98.into(), 0.7.into(), 4.0, meets).unwrap());
    });
    add("geometry", &|w| worked(geometry(w, &stands(2.0, 3.0, 1.8), &GRAINS).unwrap()));
    add("notch", &|w| {
        worked(
            notch::notched_shear(
                w,
                150.0 * PSI,
                1.5 * inch,
                9.25 * inch,
                8.0 * inch,
                notch::Notched::Pressed(2.0 * inch),
            )
            .unwrap(),
        );
    });
    add("fastened", &|w| {
        worked(notch::fastened_shear(w, 150.0 * PSI, 1.5 * inch, 9.25 * inch, 7.0 * inch, 20.0 * inch).unwrap())
    });
    let row = Row {
        count: 3.0,
        diameter: 0.5 * inch,
        spacing: 2.0 * inch,
        main: (1.4e6 * PSI, 5.0 * inch * inch),
        side: (1.2e6 * PSI, 4.0 * inch * inch),
        joins: Joins::WoodToWood,
    };
    add("group", &|w| worked(group_action(w, &row).unwrap()));
    add("throat", &|w| worked(notch::throat(w, 11.25 * inch, 7.0 * inch, 11.0 * inch).unwrap()));
    add("washer", &|w| worked(bolt::pressed_area(w, 0.5 * inch, bolt::Under::CutWasher).unwrap()));
    add("bolt length", &|w| worked(bolt::length_needed(w, 0.5 * inch, 5.0 * inch, 0.25 * inch).unwrap()));
    add("couple", &|w| worked(guard_post::couple(w, 200.0 * POUNDS, 39.0 * inch, 5.0 * inch).unwrap()));
    add("dead and live", &|w| worked(demand::dead_and_live(w, 10.0 * PSF, 40.0 * PSF).unwrap()));
    let snow = (10.0 * PSF, 40.0 * PSF, 60.0 * PSF);
    add("dead and snow", &|w| worked(demand::dead_and_snow(w, snow.0, snow.2).unwrap()));
    add("dead, live and snow", &|w| worked(demand::dead_live_and_snow(w, snow.0, snow.1, snow.2).unwrap()));
    add("live or snow", &|w| worked(demand::live_or_snow(w, snow.1, snow.2).unwrap()));
    add("dead load", &|w| {
        let weight = moisture::weight(w, 0.55, 19.0).unwrap();
        let level = Amount::degrees(0.0);
        let treads = demand::spread(w, (2.0, 1.5 * inch, 5.5 * inch), weight, (10.0 * inch, level)).unwrap();
        let slope = Amount::degrees(37.0);
        let stringers = demand::spread(w, (3.0, 1.5 * inch, 11.25 * inch), weight, (36.0 * inch, slope)).unwrap();
        let all = demand::with_those_before(w, treads, stringers);
        worked(demand::dead(w, all, (10.0 * PSF, pitchboard::handbook::Cited::STATED)).unwrap());
    });
    add("end of a tread", &|w| {
        let loads = (10.0 * PSF, 40.0 * PSF, 300.0 * POUNDS);
        worked(demand::end_of_a_tread(w, (10.0 * inch, 36.0 * inch), loads).unwrap());
    });
    add("along the slope", &|w| worked(demand::along_the_slope(w, 40.0 * inch, Amount::degrees(37.0)).unwrap()));
    add("push", &|w| worked(demand::moment_in_the_middle(w, 200.0 * POUNDS, 60.0 * inch).unwrap()));
    add("ratio", &|w| worked(demand::ratio(w, 300.0 * POUNDS, 400.0 * POUNDS).unwrap()));
    add("pressed", &|w| worked(bolt::pressed(w, 400.0 * PSI, 2.0 * inch * inch, 1.0).unwrap()));
    add("pieces", &|w| {
        let weight = moisture::weight(w, 0.5, 12.0).unwrap();
        let these = moisture::pieces(w, ((1.5 * inch, 9.25 * inch), 40.0 * inch), 2.0, weight).unwrap();
        worked(moisture::with_those_before(w, 10.0 * POUNDS, these));
    });
    add("column", &|w| {
        worked(column::column(w, (3.5 * inch, 5.5 * inch), false).unwrap());
        let round = column::column(w, (4.0 * inch, 4.0 * inch), true).unwrap();
        let long = column::effective_length(w, 90.0 * inch).unwrap();
        worked(column::slenderness(w, long, round.way).unwrap());
        worked(column::stress(w, 900.0 * POUNDS, round.area).unwrap());
    });
    add("leg", &|w| {
        let flight = column::end_of_a_flight(w, 50.0 * PSF, 70.0 * inch, 36.0 * inch).unwrap();
        let flights = column::with_flights_before(w, 300.0 * POUNDS, flight);
        let sizes = (48.0 * inch, 60.0 * inch);
        worked(column::on_a_leg(w, 50.0 * PSF, sizes, column::share_of_a_leg(4.0), flights).unwrap());
    });
    add("header", &|w| {
        let load = header::load_on_a_header(w, 50.0 * PSF, 70.0 * inch, 12.0 * inch).unwrap();
        worked(header::under_strings(w, load, 60.0 * inch, 18.0 * inch, stiffness).unwrap());
    });
    add("together", &|w| {
        worked(overturning::together(w, (90.0 * POUNDS, 30.0 * inch), (60.0 * POUNDS, 110.0 * inch)).unwrap());
    });
    for (name, working) in &workings {
        crate::step_text::agrees(working, name);
        only_of_figures_before(name, working);
        for step in &working.steps {
            // `E` is the tip of a fastener in its own methods, `S_0` a shrinkage, `T` a run where the throat is worked.
            let own = match (*name, step.symbol) {
                ("main length", "E") | ("throat", "T" | "R" | "d_t") => Dimension::LENGTH,
                ("along" | "column", "s") => Dimension::NUMBER,
                ("leg", "k") => Dimension::NUMBER,
                ("leg" | "header", "p") => Dimension::PRESSURE,
                ("leg", "R_i" | "R_0" | "R_f") | ("together", "W" | "W_0" | "W_i") => Dimension::FORCE,
                ("dead and live" | "dead and snow" | "dead, live and snow" | "live or snow", _) => Dimension::PRESSURE,
                ("dead load", "s") => Dimension::LENGTH,
                ("dead load", symbol) if symbol.starts_with("p_") => Dimension::PRESSURE,
                ("end of a tread", "p_D" | "p_L") => Dimension::PRESSURE,
                ("end of a tread", "R_P" | "R_L") | ("ratio", "demand" | "capacity") => Dimension::FORCE,
                ("ratio", "ratio") => Dimension::NUMBER,
                ("pieces", "W_i" | "W_0" | "W_all") => Dimension::FORCE,
                _ => dimension(step.symbol),
            };
            assert_eq!(step.value.dimension(), own, "{name}: {} is {}", step.symbol, step.value.text());
            assert!(step.value.is_finite(), "{name}: {}", step.symbol);
        }
    }
    let line = stringer::line_load(&mut Working::default(), 40.0 * PSF, 18.0 * inch, 18.0 * inch).unwrap();
    assert_eq!(line.dimension(), Dimension::LINE_LOAD);
    // A load of the wrong dimension is no load.
    let wrong = beam::effects(&mut Working::default(), Beam::SimpleUniform, 300.0 * POUNDS, 40.0 * inch, stiffness);
    assert_eq!(wrong, Err(Outside::Undefined));
}
