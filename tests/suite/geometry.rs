//! Sums of the geometry against searches that know nothing of the formula: the ball in the triangle under a guard,
//! and the spacing of balusters.

use geo::{Contains, Distance, Euclidean, LineString, Point, Polygon};
use pitchboard::base::Source;
use pitchboard::derive::{Datum, Evaluation, quantity};
use pitchboard::measure::{INCH, Measure};
use pitchboard::model;
use pitchboard::syntax;

/// Random numbers that are the same in every run (SplitMix64; Steele, Lea and Flood, 2014).
struct Dice(u64);

impl Dice {
    fn new() -> Self {
        Self(2026)
    }

    fn up_to(&mut self, most: u32) -> u32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        u32::try_from((mixed ^ (mixed >> 31)) % (u64::from(most) + 1)).unwrap()
    }

    /// One of `from, from + 1/64, ..., to`, in inches.
    fn inches(&mut self, from: u32, to: u32) -> f64 {
        f64::from(from * 64 + self.up_to((to - from) * 64)) / 64.0
    }
}

fn ask(body: &str, name: &str) -> f64 {
    let source = Source::new("case", format!("stair {{ {body} }}"));
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let stairs = model::build(&tree, &source, &mut findings);
    assert!(findings.is_empty(), "{body}: {:?}", findings);
    let design = &stairs.first().unwrap().drawn;
    let guard = design.of_kind(model::kinds::GUARD).next().unwrap();
    let entry = quantity(model::kinds::GUARD, name).unwrap();
    // The ball of IRC 2021 R312.1.3, where a quantity is asked at a size.
    let ball = entry.at_a_place().then(|| Measure::inches(4.0));
    match Evaluation::plain(design).derived(guard, entry, ball) {
        Ok(Datum::Measure(measure)) => measure.value,
        other => panic!("{name} for {body}: {other:?}"),
    }
}

/// The step as drawn: tread along the bottom from the riser face, the face upright at the back, and the underside of
/// the rail across the front, square off the line of the nosings by `gap`.
///
/// The origin is the corner of tread and riser face, x runs level toward the wall of steps. The nosing above hangs
/// over the face by `nosing`; the front edge of this tread lies a run before it and a riser lower.
fn step(rise: f64, run: f64, nosing: f64, gap: f64) -> Polygon {
    let (upper, lower) = ((-nosing, rise), (-nosing - run, 0.0));
    // Square off the line through both, away from the steps: up and toward the climber.
    let line = rise.hypot(run);
    let off = (-rise / line * gap, run / line * gap);
    let (a, b) = ((lower.0 + off.0, lower.1 + off.1), (upper.0 + off.0, upper.1 + off.1));
    let slope = (b.1 - a.1) / (b.0 - a.0);
    let foot = (a.0 - a.1 / slope, 0.0);
    let top = (0.0, a.1 + slope * (0.0 - a.0));
    Polygon::new(LineString::from(vec![(0.0, 0.0), top, foot]), Vec::new())
}

/// The widest ball that stays inside: a grid over the triangle that closes in on its best point.
fn widest_ball(triangle: &Polygon) -> f64 {
    let edge = triangle.exterior();
    let points: Vec<Point> = edge.points().collect();
    let span = |of: fn(&Point) -> f64| {
        let least = points.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = points.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        (f64::midpoint(least, most), (most - least) / 2.0)
    };
    let ((mut x, mut reach_x), (mut y, mut reach_y)) = (span(|point| point.x()), span(|point| point.y()));
    let mut widest = 0.0;
    for _ in 0..40 {
        let (from_x, from_y) = (x, y);
        for across in -5..=5_i32 {
            for up in -5..=5_i32 {
                let point =
                    Point::new(from_x + reach_x * f64::from(across) / 5.0, from_y + reach_y * f64::from(up) / 5.0);
                if !triangle.contains(&point) {
                    continue;
                }
                let ball = 2.0 * Euclidean.distance(&point, edge);
                if ball > widest {
                    (widest, x, y) = (ball, point.x(), point.y());
                }
            }
        }
        (reach_x, reach_y) = (reach_x * 0.6, reach_y * 0.6);
    }
    widest
}

#[test]
fn the_search_finds_the_ball_of_a_known_triangle() {
    // Plane geometry: the inscribed circle of the 3-4-5 triangle has radius 1.
    let triangle = Polygon::new(LineString::from(vec![(0.0, 0.0), (3.0, 0.0), (0.0, 4.0)]), Vec::new());
    assert!((widest_ball(&triangle) - 2.0).abs() < 1e-6);
    // The step without a nosing and without a gap is that triangle 2.5 times over.
    assert!((widest_ball(&step(7.5, 10.0, 0.0, 0.0)) - 5.0).abs() < 1e-6);
}

#[test]
fn the_ball_under_a_guard_is_the_one_that_a_search_finds() {
    let mut dice = Dice::new();
    for _ in 0..300 {
        let (rise, run) = (dice.inches(4, 9), dice.inches(8, 14));
        let (nosing, gap) = (dice.inches(0, 2), dice.inches(0, 3));
        let body = format!(
            "flight {{ risers: 6 of {rise}\"; runs: 5 of {run}\" }}; tread {{ nosing: {nosing}\" }}; riser board {{ }}; guard left {{ bottom gap: {gap}\" }}"
        );
        let told = ask(&body, "triangle opening") / INCH;
        let found = widest_ball(&step(rise, run, nosing, gap));
        assert!((told - found).abs() < 1e-4, "{body}: told {told}, found {found}");
    }
}

#[test]
fn balusters_are_as_few_and_as_even_as_counting_makes_them() {
    let mut dice = Dice::new();
    for _ in 0..500 {
        let clear = dice.inches(3, 120);
        let width = f64::from(3 + dice.up_to(5)) / 4.0;
        // Counting up: the first count whose gaps all stay under the 4 in ball of IRC 2021 R312.1.3.
        let gap = |count: u32| (clear - f64::from(count) * width) / f64::from(count + 1);
        let fewest = (0..).find(|count| gap(*count) < 4.0).unwrap();
        let count = fewest.max(1);
        let body = format!(
            "flight {{ risers: 4 of 7\" }}; guard left {{ between posts: {clear}\"; balusters: {count} of square {width}\" }}"
        );
        assert_eq!(ask(&body, "balusters for"), f64::from(fewest), "{body}");
        // Standing them one after another at that gap ends exactly at the other post.
        let even = ask(&body, "even gap") / INCH;
        let end = (0..count).fold(even, |at, _| at + width + even);
        assert!((end - clear).abs() < 1e-9, "{body}: ends at {end}");
        assert_eq!(ask(&body, "baluster gap"), ask(&body, "even gap"), "{body}");
        assert_eq!(ask(&body, "baluster count"), f64::from(count), "{body}");
    }
}

#[test]
fn balusters_at_a_spacing_are_the_fewest_whose_ends_are_no_wider() {
    let mut dice = Dice::new();
    for _ in 0..500 {
        let clear = dice.inches(12, 120);
        let width = f64::from(3 + dice.up_to(5)) / 4.0;
        let every = width + 1.0 + f64::from(dice.up_to(48)) / 16.0;
        let body = format!(
            "flight {{ risers: 4 of 7\" }}; guard left {{ between posts: {clear}\"; balusters: square {width}\" every {every}\" }}"
        );
        // Setting them one by one while the ends are wider than the gaps and the next still fits.
        let end = |count: i32| (clear - width - f64::from(count - 1) * every) / 2.0;
        let mut count = 1;
        while end(count) > every - width && end(count + 1) >= 0.0 {
            count += 1;
        }
        assert_eq!(ask(&body, "baluster count"), f64::from(count), "{body}");
        let used = width + f64::from(count - 1) * every;
        assert!((ask(&body, "end gap") / INCH - (clear - used) / 2.0).abs() < 1e-9, "{body}");
    }
}
