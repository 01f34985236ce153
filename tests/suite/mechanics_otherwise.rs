//! The mechanics by other means, which know nothing of its formulas: beams integrated along their length, yield modes by the
//! equilibrium of a dowel, sections and throats by a geometry crate (`geo`).

use geo::{Area, BooleanOps, Centroid, Coord, Distance, Euclidean, Line, LineString, Point, Polygon};
use pitchboard::mechanics::amount::{INCHES, POUNDS, POUNDS_PER_INCH, PSI, fourth, squared};
use pitchboard::mechanics::beam::{self, Beam};
use pitchboard::mechanics::column::share_of_a_leg;
use pitchboard::mechanics::dowel::{Against, Dowel, Thread};
use pitchboard::mechanics::header::under_strings;
use pitchboard::mechanics::section::Section;
use pitchboard::mechanics::stringer::{moment_beside, sloped};
use pitchboard::mechanics::yield_limit::{Bearing, Shear, reference};
use pitchboard::mechanics::{Amount, Working, notch};

/// Pieces that a beam is cut into; even, so that its middle is a joint.
const PIECES: usize = 4000;

/// Effects of plumb forces on a beam, found piece by piece: reactions by flexibility, the moment by summing, the deflection
/// by summing twice. Forces are at the joints between pieces. Whole beam of unit length, unit stiffness.
struct Beams {
    /// Load at each joint.
    forces: Vec<f64>,
}

#[derive(Debug, Clone, Copy, Default)]
struct Found {
    moment: f64,
    shear: f64,
    reaction: f64,
    deflection: f64,
}

impl Beams {
    fn none() -> Self {
        Self { forces: vec![0.0; PIECES + 1] }
    }

    fn uniform(from: f64, to: f64) -> Self {
        let mut beam = Self::none();
        let share = 1.0 / PIECES as f64;
        for piece in 0..PIECES {
            let middle = (piece as f64 + 0.5) * share;
            if middle > from && middle < to {
                beam.forces[piece] += share / 2.0;
                beam.forces[piece + 1] += share / 2.0;
            }
        }
        beam
    }

    fn at(places: &[f64]) -> Self {
        let mut beam = Self::none();
        for place in places {
            beam.forces[(place * PIECES as f64).round() as usize] += 1.0;
        }
        beam
    }

    /// Shear just right of each joint and moment at it, by what stands to the left; `ends` are the reactions left and right.
    fn moments(&self, left: f64) -> (Vec<f64>, Vec<f64>) {
        let share = 1.0 / PIECES as f64;
        let (mut shears, mut moments) = (Vec::new(), vec![0.0]);
        let mut shear = left;
        for joint in 0..PIECES {
            shear -= self.forces[joint];
            shears.push(shear);
            moments.push(moments[joint] + shear * share);
        }
        (shears, moments)
    }

    fn left(&self) -> f64 {
        let share = 1.0 / PIECES as f64;
        self.forces.iter().enumerate().map(|(joint, force)| force * (1.0 - joint as f64 * share)).sum()
    }

    /// Deflections of a beam on its two ends, downward above nothing.
    fn bent(moments: &[f64]) -> Vec<f64> {
        let share = 1.0 / PIECES as f64;
        let (mut slope, mut bent) = (0.0, vec![0.0]);
        for joint in 0..PIECES {
            let curved = (moments[joint] + moments[joint + 1]) / 2.0;
            bent.push(bent[joint] + (slope + curved * share / 2.0) * share);
            slope += curved * share;
        }
        let end = bent[PIECES];
        bent.iter().enumerate().map(|(joint, down)| end * joint as f64 * share - down).collect()
    }

    fn largest(values: &[f64]) -> f64 {
        values.iter().fold(0.0, |most: f64, value| most.max(value.abs()))
    }

    /// On its two ends.
    fn simple(&self) -> Found {
        let left = self.left();
        let right = self.forces.iter().sum::<f64>() - left;
        let (shears, moments) = self.moments(left);
        Found {
            moment: Self::largest(&moments),
            shear: Self::largest(&shears),
            reaction: left.max(right),
            deflection: Self::largest(&Self::bent(&moments)),
        }
    }

    /// On its ends and its middle: the middle's force is the one that lifts it back to nothing.
    fn on_three(&self) -> Found {
        let down = Self::bent(&self.moments(self.left()).1)[PIECES / 2];
        let unit = Self::at(&[0.5]);
        let lift = Self::bent(&unit.moments(unit.left()).1)[PIECES / 2];
        let middle = down / lift;
        let mut held = Self { forces: self.forces.clone() };
        held.forces[PIECES / 2] -= middle;
        let left = held.left();
        let right = held.forces.iter().sum::<f64>() - left;
        let (shears, moments) = held.moments(left);
        Found {
            moment: Self::largest(&moments),
            shear: Self::largest(&shears),
            reaction: left.abs().max(right.abs()).max(middle),
            deflection: Self::largest(&Self::bent(&moments)),
        }
    }

    /// Held at its left end alone.
    fn cantilever(&self) -> Found {
        let share = 1.0 / PIECES as f64;
        let shear_right_of = |joint: usize| self.forces[joint + 1..].iter().sum::<f64>();
        let (mut moment, mut moments) = (0.0, vec![0.0; PIECES + 1]);
        let mut shear = 0.0;
        for joint in (0..PIECES).rev() {
            shear += self.forces[joint + 1];
            moment += shear * share;
            moments[joint] = moment;
        }
        let (mut slope, mut down) = (0.0, 0.0);
        for joint in 0..PIECES {
            let curved = (moments[joint] + moments[joint + 1]) / 2.0;
            down += (slope + curved * share / 2.0) * share;
            slope += curved * share;
        }
        Found { moment: moments[0], shear: shear_right_of(0), reaction: shear_right_of(0), deflection: down }
    }
}

/// The largest of each effect over loads at many places.
fn anywhere(effects: impl Fn(f64) -> Found) -> Found {
    (1..400).map(|at| effects(f64::from(at) / 400.0)).fold(Found::default(), |most, one| Found {
        moment: most.moment.max(one.moment),
        shear: most.shear.max(one.shear),
        reaction: most.reaction.max(one.reaction),
        deflection: most.deflection.max(one.deflection),
    })
}

#[test]
fn beams_come_out_as_they_are_integrated() {
    let simple_at = |at: f64| Beams::at(&[at]).simple();
    // A span of two is half the beam: moments go by it, deflections by its third or fourth power.
    let cases: [(Beam, Found, bool, f64); 11] = [
        (Beam::SimpleUniform, Beams::uniform(0.0, 1.0).simple(), true, 1.0),
        (Beam::SimpleMiddle, simple_at(0.5), false, 1.0),
        (Beam::SimpleAt(30.0 * INCHES), simple_at(0.3), false, 1.0),
        (Beam::SimpleAnywhere, anywhere(simple_at), false, 1.0),
        (Beam::CantileverUniform, Beams::uniform(0.0, 1.0).cantilever(), true, 1.0),
        (Beam::CantileverEnd, Beams::at(&[1.0]).cantilever(), false, 1.0),
        (Beam::TwoUniformBoth, Beams::uniform(0.0, 1.0).on_three(), true, 0.5),
        (Beam::TwoUniformOne, Beams::uniform(0.0, 0.5).on_three(), true, 0.5),
        (Beam::TwoMiddleOne, Beams::at(&[0.25]).on_three(), false, 0.5),
        (Beam::TwoMiddleBoth, Beams::at(&[0.25, 0.75]).on_three(), false, 0.5),
        (Beam::TwoAnywhere, anywhere(|at| Beams::at(&[at]).on_three()), false, 0.5),
    ];
    let stiffness = 1.4e6 * PSI * (20.8 * fourth(INCHES));
    let whole = 100.0 * INCHES;
    for (beam, found, uniform, part) in cases {
        let load = if uniform { 3.0 * POUNDS_PER_INCH } else { 300.0 * POUNDS };
        let force = if uniform { load * whole } else { load };
        let effects = beam::effects(&mut Working::default(), beam, load, part * whole, stiffness).unwrap();
        let near = |name: &str, ours: Amount, theirs: Amount, within: f64| {
            let ratio = ours.per(theirs);
            assert!((ratio - 1.0).abs() < within, "{beam:?} {name}: {} against {}", ours.text(), theirs.text());
        };
        near("moment", effects.moment, found.moment * force * whole, 1e-3);
        // A load beside a support comes no nearer than a piece; shear of a uniform load is taken half a piece in.
        near("shear", effects.shear, found.shear * force, 6e-3);
        near("reaction", effects.reaction, found.reaction * force, 6e-3);
        near("deflection", effects.deflection, found.deflection * force * squared(whole) * whole / stiffness, 1e-3);
    }
}

/// A stringer across its slope, piece by piece: the plumb load resolved on each piece of its length.
#[test]
fn a_sloped_stringer_bends_as_its_pieces_do() {
    let stiffness = 1.4e6 * PSI * (16.8 * fourth(INCHES));
    let (load, span, slope) = (6.25 * POUNDS_PER_INCH, 72.0 * INCHES, 37.0);
    let found = sloped(&mut Working::default(), load, span, Amount::degrees(slope), stiffness).unwrap();
    let (sine, cosine) = f64::to_radians(slope).sin_cos();
    let length = span / cosine;
    // The whole load, resolved across the slope, on a beam as long as the slope.
    let across = load * span * cosine;
    let unit = Beams::uniform(0.0, 1.0).simple();
    let ratio = |ours: Amount, theirs: Amount| ours.per(theirs);
    assert!((ratio(found.moment, unit.moment * across * length) - 1.0).abs() < 1e-3);
    assert!((ratio(found.shear, unit.reaction * across) - 1.0).abs() < 1e-3);
    assert!((ratio(found.axial, 0.5 * load * span * sine) - 1.0).abs() < 1e-9);
    let bent = unit.deflection * across * length * squared(length) / stiffness;
    assert!((ratio(found.deflection, bent) - 1.0).abs() < 1e-3);
}

/// What one member's wood does to a dowel under a force `P` at the shear plane, pounds and inches: its moment about the plane
/// that holds the dowel against turning. `None` where the wood cannot take the force.
fn holding_moment(force: f64, wood: f64, length: f64, yields: Option<f64>) -> Option<f64> {
    // How far from the plane the wood presses one way: to the hinge where the dowel bends, else so far that the rest, which
    // presses the other way, leaves the force.
    let near = match yields {
        Some(_) => force / wood,
        None => f64::midpoint(length, force / wood),
    };
    if near > length * (1.0 + 1e-12) {
        return None;
    }
    let end = if yields.is_some() { near } else { length };
    let pieces = 300;
    let share = end / f64::from(pieces);
    let sum: f64 = (0..pieces)
        .map(|piece| {
            let at = (f64::from(piece) + 0.5) * share;
            // A piece that the turn lies in presses both ways.
            let pressed = ((near - f64::from(piece) * share) / share).clamp(0.0, 1.0);
            wood * share * at * (1.0 - 2.0 * pressed)
        })
        .sum();
    Some(sum + yields.unwrap_or(0.0))
}

/// The force at which the moments of both members come to nothing, by halving.
fn in_equilibrium(main: (f64, f64, Option<f64>), side: (f64, f64, Option<f64>)) -> Option<f64> {
    let left_over = |force: f64| {
        Some(holding_moment(force, main.0, main.1, main.2)? + holding_moment(force, side.0, side.1, side.2)?)
    };
    let (mut low, mut high) = (0.0, (main.0 * main.1).min(side.0 * side.1));
    if left_over(high).is_some_and(|rest| rest > 0.0) {
        return None;
    }
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if left_over(middle).is_some_and(|rest| rest > 0.0) { low = middle } else { high = middle }
    }
    Some(low)
}

#[test]
fn yield_modes_are_the_equilibria_of_a_dowel() {
    let mut met = 0;
    for (diameter, gravities) in
        [(0.25, (0.5, 0.5)), (0.5, (0.55, 0.42)), (0.5, (0.36, 0.67)), (0.75, (0.43, 0.55)), (1.0, (0.5, 0.36))]
    {
        for (main_length, side_length) in [(1.5, 1.5), (3.5, 1.5), (5.5, 3.5), (2.5, 0.75), (7.0, 5.5), (1.5, 3.5)] {
            for (main_angle, side_angle) in [(0.0, 0.0), (0.0, 90.0), (90.0, 0.0), (30.0, 60.0)] {
                let dowel = Dowel::bolt(diameter * INCHES, Thread::ClearOfTheWood).unwrap();
                let bearing = |gravity: f64, angle, length: f64| Bearing {
                    against: Against::Wood { gravity: gravity.into(), angle },
                    length: length * INCHES,
                };
                let main = bearing(gravities.0, main_angle, main_length);
                let side = bearing(gravities.1, side_angle, side_length);
                let mut w = Working::default();
                let least = reference(&mut w, &dowel, main, side, Shear::Single).unwrap();
                let figure = |symbol: &str, unit: Amount| w.value(symbol).unwrap().per(unit);
                // Force on each inch of the dowel, and the moment at which it bends for good, `F_yb D^3 / 6`.
                let (in_main, in_side) = (figure("F_em", PSI) * diameter, figure("F_es", PSI) * diameter);
                let bends = 45_000.0 * diameter.powi(3) / 6.0;
                let modes = [
                    ("Z_II", "R_2", in_equilibrium((in_main, main_length, None), (in_side, side_length, None))),
                    (
                        "Z_IIIm",
                        "R_3",
                        in_equilibrium((in_main, main_length, None), (in_side, side_length, Some(bends))),
                    ),
                    (
                        "Z_IIIs",
                        "R_3",
                        in_equilibrium((in_main, main_length, Some(bends)), (in_side, side_length, None)),
                    ),
                    (
                        "Z_IV",
                        "R_3",
                        in_equilibrium((in_main, main_length, Some(bends)), (in_side, side_length, Some(bends))),
                    ),
                    ("Z_Im", "R_1", Some(in_main * main_length)),
                    ("Z_Is", "R_1", Some(in_side * side_length)),
                ];
                let mut lowest = f64::INFINITY;
                for (symbol, reduction, force) in modes {
                    let Some(force) = force else { continue };
                    let reduced = force / figure(reduction, 1.0.into());
                    let ours = figure(symbol, POUNDS);
                    assert!((ours / reduced - 1.0).abs() < 1e-4, "{symbol} of {diameter}: {ours} against {reduced}");
                    lowest = lowest.min(reduced);
                    met += 1;
                }
                assert!((least.per(POUNDS) / lowest - 1.0).abs() < 1e-4);
            }
        }
    }
    assert!(met > 500, "only {met} modes were met");
}

fn polygon(points: &[(f64, f64)]) -> Polygon<f64> {
    Polygon::new(LineString(points.iter().map(|(x, y)| Coord { x: *x, y: *y }).collect()), vec![])
}

/// Area and second moment about the middle of a polygon, strip by strip, by `geo`.
fn of_strips(shape: &Polygon<f64>, half_depth: f64) -> (f64, f64) {
    let strips = 200;
    let share = 2.0 * half_depth / f64::from(strips);
    (0..strips).fold((0.0, 0.0), |(area, second), strip| {
        let low = -half_depth + f64::from(strip) * share;
        let band = polygon(&[(-50.0, low), (50.0, low), (50.0, low + share), (-50.0, low + share)]);
        let cut = shape.intersection(&band);
        let y = cut.centroid().map_or(0.0, |centre| centre.y());
        (area + cut.unsigned_area(), second + cut.unsigned_area() * y * y)
    })
}

#[test]
fn sections_have_the_properties_that_their_shapes_have() {
    let square_inch = INCHES * INCHES;
    for (b, d) in [(1.5, 11.25), (3.5, 3.5), (5.5, 1.0), (0.75, 5.125)] {
        let ours =
            Section::Rectangle { width: b * INCHES, depth: d * INCHES }.properties(&mut Working::default()).unwrap();
        let shape = polygon(&[(-b / 2.0, -d / 2.0), (b / 2.0, -d / 2.0), (b / 2.0, d / 2.0), (-b / 2.0, d / 2.0)]);
        let (area, second) = of_strips(&shape, d / 2.0);
        assert!((ours.area.per(square_inch) - area).abs() < 1e-6 * area);
        assert!((ours.inertia.per(fourth(INCHES)) / second - 1.0).abs() < 1e-4, "{b} x {d}");
        assert!((ours.modulus.per(square_inch * INCHES) / (second / (d / 2.0)) - 1.0).abs() < 1e-4);
    }
    let d = 1.75_f64;
    let round: Vec<(f64, f64)> = (0..400)
        .map(|nth| (f64::from(nth) * std::f64::consts::TAU / 400.0).sin_cos())
        .map(|(sine, cosine)| (d / 2.0 * cosine, d / 2.0 * sine))
        .collect();
    let (area, second) = of_strips(&polygon(&round), d / 2.0);
    let ours = Section::Round { diameter: d * INCHES }.properties(&mut Working::default()).unwrap();
    assert!((ours.area.per(square_inch) / area - 1.0).abs() < 2e-4);
    assert!((ours.inertia.per(fourth(INCHES)) / second - 1.0).abs() < 3e-4);
}

/// From the inner corner of a step's cut to the lower edge of the board, by `geo`: the corners that touch the upper edge lie a
/// rise and a run from it.
#[test]
fn a_throat_is_the_distance_from_the_cut_to_the_lower_edge() {
    for (depth, rise, run) in [(11.25, 7.75, 10.0), (11.25, 7.0, 11.0), (9.25, 6.5, 12.0), (13.25, 9.5, 9.0)] {
        let along = f64::hypot(rise, run);
        let (sine, cosine) = (rise / along, run / along);
        // The lower edge runs at the slope, the depth below a line through the noses, of which one is at the origin.
        let off = |t: f64| Coord { x: t * cosine + depth * sine, y: t * sine - depth * cosine };
        let lower = Line::new(off(-40.0), off(40.0));
        // From the nose level in by the run, then plumb up by the rise to the next nose: the inner corner.
        let corner = Point::new(run, 0.0);
        let throat = Euclidean.distance(&corner, &lower);
        let ours = notch::throat(&mut Working::default(), depth * INCHES, rise * INCHES, run * INCHES).unwrap();
        assert!((ours.per(INCHES) - throat).abs() < 1e-9, "{depth} {rise} {run}: {throat}");
    }
}

/// The moment near a support: what the force on it does about the place, less what the load up to there does, piece by piece.
#[test]
fn a_moment_beside_a_support_is_that_of_the_forces_up_to_it() {
    for (load, span, reach) in [(6.25, 96.0, 1.5), (5.0, 60.0, 12.0), (8.0, 120.0, 60.0), (8.0, 120.0, 0.0)] {
        let piece = reach / PIECES as f64;
        let of_the_load = |nth: usize| load * piece * (reach - (nth as f64 + 0.5) * piece);
        let summed = load * span / 2.0 * reach - (0..PIECES).map(of_the_load).sum::<f64>();
        let force = load * span / 2.0 * POUNDS;
        let ours = moment_beside(&mut Working::default(), force, reach * INCHES, span * INCHES).unwrap();
        assert!((ours.per(POUNDS * INCHES) - summed).abs() < 1e-6 * (1.0 + summed), "{load} {span} {reach}: {summed}");
    }
}

/// A level seat as long as a ledger is thick, cut into the lower end of a board at a slope: how deep its corner lies, by `geo`.
#[test]
fn a_seat_is_as_deep_as_its_corner_lies_from_the_lower_edge() {
    for (seat, rise, run) in [(1.5, 7.5, 10.0), (2.0, 7.0, 11.0), (3.5, 8.25, 9.0)] {
        let along = f64::hypot(rise, run);
        let lower = Line::new(Coord { x: -40.0 * run, y: -40.0 * rise }, Coord { x: 40.0 * run, y: 40.0 * rise });
        // From where the lower edge meets the plumb end, at the origin, level in under the wood.
        let deep = Euclidean.distance(&Point::new(-seat, 0.0), &lower);
        let text = format!(
            "flight {{ risers: 2 of {rise}\"; runs: {run}\" }} stringer {{ section: 2x12; cut: solid; head bearing: {seat}\" }}"
        );
        let ours = crate::worked::inches(&text, "stringer", 0, "seat depth");
        assert!((ours - deep).abs() < 1e-9 * along, "{seat} {rise} {run}: {ours}, {deep}");
    }
}

/// Strings a distance apart at every place along a header, each bringing the load of that length, never ask more of it than what
/// is reckoned; nor does that ask more than half as much again of moment and deflection where the strings are many.
#[test]
fn no_row_of_strings_asks_more_of_a_header_than_is_reckoned() {
    let (inch, stiffness) = (INCHES, 1e6 * PSI * fourth(INCHES));
    let mut met = 0;
    for span in [10.0, 18.0, 24.0, 30.0, 47.0, 60.0, 96.0_f64] {
        for apart in [9.0, 16.0, 18.0, 24.0_f64] {
            let q = 5.0 * POUNDS_PER_INCH;
            let most = under_strings(&mut Working::default(), q, span * inch, apart * inch, stiffness).unwrap();
            let mut asked = Found::default();
            for offset in 1..40 {
                let first = f64::from(offset) / 40.0 * apart;
                let places: Vec<f64> = (0..100)
                    .map(|nth| (first + f64::from(nth) * apart) / span)
                    .take_while(|place| *place < 1.0)
                    .collect();
                if places.is_empty() {
                    continue;
                }
                let found = Beams::at(&places).simple();
                asked.moment = asked.moment.max(found.moment);
                asked.shear = asked.shear.max(found.shear);
                asked.deflection = asked.deflection.max(found.deflection);
                met += 1;
            }
            // Each string brings 5 lb on each inch between it and the next.
            let one = 5.0 * apart;
            let moment = most.moment.per(POUNDS * inch) / (one * span);
            let shear = most.shear.per(POUNDS) / one;
            let deflection =
                (most.deflection * stiffness).per(POUNDS * inch * inch * inch) / (one * span * span * span);
            let case = format!("{span} by {apart}");
            assert!(asked.moment <= moment * (1.0 + 1e-3), "{case}: {} over {moment}", asked.moment);
            assert!(asked.shear <= shear * (1.0 + 1e-2), "{case}: {} over {shear}", asked.shear);
            assert!(asked.deflection <= deflection * (1.0 + 1e-3), "{case}: {} over {deflection}", asked.deflection);
            if span > 3.0 * apart {
                assert!(asked.moment > moment / 1.5 && asked.deflection > deflection / 1.5, "{case} is far off");
            }
        }
    }
    assert!(met > 500, "{met}");
}

/// Of legs in two even rows under the edges of a floor the one in the middle of a row carries most: 10/8, 1.1 and 1.143 of a bay's
/// load with three, four and five in a row (beam tables of equal spans; the latter two from memory). Three legs with one alone
/// under an edge: that one carries half.
#[test]
fn a_leg_carries_no_more_of_a_landing_than_is_reckoned() {
    let row = |legs: f64, most: f64| most / (legs - 1.0) / 2.0;
    let three = Beams::uniform(0.0, 1.0).on_three().reaction / 2.0;
    assert!((row(3.0, 10.0 / 8.0) - three).abs() < 1e-3, "{three}");
    for (legs, most) in
        [(2.0, 0.5), (3.0, 0.5), (4.0, 0.25), (5.0, three), (6.0, three), (8.0, row(4.0, 1.1)), (10.0, row(5.0, 1.143))]
    {
        let share = share_of_a_leg(legs);
        assert!(share >= most && share <= 1.5 * most, "{legs} legs: {share}, {most}");
        assert!(share * legs >= 1.0 - 1e-9, "{legs} legs carry less than the floor");
    }
}
