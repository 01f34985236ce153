//! Properties that hold whatever the figures: the unit changes no outcome, a more even stair is found fault with no
//! more, a mirrored design gives mirrored findings, and a value just inside its limit is left alone.

#[allow(dead_code)]
use std::path::Path;
use std::sync::Arc;
use std::{env, fs};

use crate::drawing::{Drawing, Statement, inches, written as length_like};
use pitchboard::base::{Severity, Source};
use pitchboard::check::{BUILT_IN, Report};
use pitchboard::derive::Evaluation;
use pitchboard::model;
use pitchboard::rules::{self, Rule, RuleSet, Verdict};
use pitchboard::session::Session;
use pitchboard::syntax;
use pitchboard::wording;
use pitchboard::wording::messages;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};

/// The same cases in every run; PROPTEST_RNG_SEED asks for others, PROPTEST_CASES for another number of them.
pub fn cases(cases: u32) -> ProptestConfig {
    let set = |name: &str| env::var_os(name).is_some();
    let usual = ProptestConfig { failure_persistence: None, ..ProptestConfig::default() };
    let seeded =
        if set("PROPTEST_RNG_SEED") { usual } else { ProptestConfig { rng_seed: RngSeed::Fixed(2026), ..usual } };
    if set("PROPTEST_CASES") { seeded } else { ProptestConfig { cases, ..seeded } }
}

/// The designs of a folder, by their names.
fn designs(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut paths: Vec<_> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|found| found == "stair"));
    paths.sort();
    assert!(!paths.is_empty(), "{folder:?} holds no designs");
    paths
        .iter()
        .map(|path| (path.file_stem().unwrap().to_string_lossy().into_owned(), fs::read_to_string(path).unwrap()))
        .collect()
}

fn check(session: &Session, text: &str) -> Report {
    session.check(&Source::new("case.stair", text), None).report
}

/// Lengths of a small design, in sixteenths.
#[derive(Debug, Clone)]
struct Figures {
    risers: Vec<u32>,
    runs: Vec<u32>,
    lengths: [u32; 12],
}

fn figures() -> impl Strategy<Value = Figures> {
    let lengths = (
        (33 * 16..40 * 16_u32, 24..40 * 16_u32, 16 * 16..30 * 16_u32, 0..24_u32),
        (8..40_u32, 32 * 16..40 * 16_u32, 16..40_u32, 16..60_u32),
        (0..30_u32, 70 * 16..90 * 16_u32, 20 * 16..50 * 16_u32, 30 * 16..40 * 16_u32),
    );
    (vec(100..140_u32, 2..7), vec(150..190_u32, 1..6), lengths).prop_map(|(risers, runs, (a, b, c))| Figures {
        risers,
        runs,
        lengths: [a.0, a.1, a.2, a.3, b.0, b.1, b.2, b.3, c.0, c.1, c.2, c.3],
    })
}

fn written(figures: &Figures, metric: bool) -> String {
    // A sixteenth is 1.5875 mm, exact.
    let length = |sixteenths: &u32| {
        if metric {
            format!("{} mm", f64::from(*sixteenths * 15_875) / 1e4)
        } else {
            format!("{}\"", f64::from(*sixteenths) / 16.0)
        }
    };
    let list = |lengths: &[u32]| lengths.iter().map(length).collect::<Vec<_>>().join(", ");
    let [width, _, clear, nosing, thick, high, rail, clearance, gap, headroom, depth, guard] = figures.lengths;
    let l = |sixteenths: u32| length(&sixteenths);
    format!(
        "stair \"hide\" {{ rules: residential, workshop; setting: outdoors\n total rise: {}; ground {{ below: {} }}\n flight {{ risers: {}; runs: {}; width: {} }}\n tread {{ section: {} x {}; nosing: {} }}\n riser board {{ section: {} x {}; stands: on tread }}\n handrail left {{ height: {}; section: round {}; clearance: {} }}\n guard right {{ height: {}; bottom gap: {}; between posts: {}; balusters: square {} every {} }}\n landing top {{ depth: {}; width: {} }}\n ceiling {{ headroom: {} }} }}",
        l(figures.risers.iter().sum()),
        l(gap * 4),
        list(&figures.risers),
        list(&figures.runs),
        l(width),
        l(thick),
        l(180),
        l(nosing),
        l(12),
        l(88),
        l(high),
        l(rail),
        l(clearance),
        l(guard),
        l(gap),
        l(clear),
        l(rail),
        l(rail + 60),
        l(depth),
        l(width),
        l(headroom),
    )
}

/// How every rule of both sets stands for every element, and what is found.
fn outcomes(text: &str, sets: &[RuleSet]) -> Vec<String> {
    let source = Source::new("case", text);
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let stairs = model::build(&tree, &source, &mut findings);
    // What is out of all proportion is only advised of.
    findings.retain(|found| found.severity() != Severity::Advised);
    assert!(findings.is_empty(), "{text}: {:?}", findings);
    let design = &stairs.first().unwrap().drawn;
    let evaluation = Evaluation::plain(design);
    let mut out = Vec::new();
    for rule in sets.iter().flat_map(|set| &set.rules) {
        for (element, verdict) in rules::verdicts(rule, &evaluation) {
            let stands = match verdict {
                Verdict::Pass => "pass".to_owned(),
                Verdict::Fail => "fail".to_owned(),
                Verdict::NotApplicable => "not applicable".to_owned(),
                Verdict::NotChecked(missing) => wording::needs(design, &missing),
            };
            out.push(format!("{} of {}: {stands}", rule.name, design.called(element)));
        }
    }
    out
}

fn sets() -> Vec<RuleSet> {
    BUILT_IN.iter().map(|(name, text)| Session::default().read_set(&Source::new(*name, *text)).set).collect()
}

/// The shipped sets with the inches of their limits alone.
fn sets_in_inches() -> Vec<RuleSet> {
    let mut sets = sets();
    for rule in sets.iter_mut().flat_map(|set| &mut set.rules) {
        let mut bare = Rule::clone(rule);
        bare.limits.iter_mut().for_each(|limit| limit.metric = None);
        *rule = Arc::new(bare);
    }
    sets
}

#[test]
fn notation_decides_by_a_metric_figure_alone() {
    let (sets, mut differ) = (sets(), 0);
    let two_figures = |line: &str| {
        let rules = sets.iter().flat_map(|set| &set.rules);
        let mut named = rules.filter(|rule| line.starts_with(&format!("{} of ", rule.name)));
        named.any(|rule| rule.limits.iter().any(|limit| limit.metric.is_some()))
    };
    for millimetres in [196.4, 914.2, 864.2] {
        let metric = format!(
            "stair {{ flight {{ risers: 4 of {millimetres} mm; runs: 3 of 254 mm; width: {millimetres} mm }} \
             handrail left {{ height: {millimetres} mm }} }}"
        );
        // A length in another notation of the same value: 25.4 mm to the inch, to the bit.
        let inches = metric.replace(&format!("{millimetres} mm"), &format!("{}\"", millimetres / 25.4));
        let (inches, metric) = (outcomes(&inches, &sets), outcomes(&metric, &sets));
        assert_eq!(inches.len(), metric.len());
        for (a, b) in inches.iter().zip(&metric).filter(|(a, b)| a != b) {
            assert!(two_figures(a), "{a}, and in millimetres {b}");
            differ += 1;
        }
    }
    assert!(differ > 2, "{differ}");
}

#[test]
fn inches_and_their_exact_metric_equals_come_to_the_same() {
    let sets = sets_in_inches();
    let mut runner = TestRunner::new(cases(200));
    runner
        .run(&figures(), |figures| {
            let (inches, metric) = (written(&figures, false), written(&figures, true));
            prop_assert_eq!(outcomes(&inches, &sets), outcomes(&metric, &sets), "{}\n{}", inches, metric);
            Ok(())
        })
        .unwrap();
}

/// Every inch length of an example in its exact millimetres: 25.4 to the inch.
fn in_millimetres(text: &str) -> String {
    let drawing = Drawing::read("case", text);
    let mut out = text.to_owned();
    for statement in drawing.statements.iter().rev() {
        let said = drawing.value(statement);
        let metric = |item: &str| {
            let (count, size) = item.split_once(" of ").map_or(("", item), |(count, size)| (count, size));
            let length = inches(size).filter(|_| size.ends_with(['"', '\'']))?;
            // 1/64 in is 0.396875 mm; a third or a seventh of an inch has no end, so it stays as it is.
            let exact = (length * 64.0).fract().abs() < 1e-9;
            let of = if count.is_empty() { "" } else { " of " };
            exact.then(|| format!("{count}{of}{} mm", (length * 64.0).round() * 396_875.0 / 1e6))
        };
        let items: Option<Vec<String>> = said.split(", ").map(metric).collect();
        if let Some(items) = items {
            out.replace_range(statement.value.clone(), &items.join(", "));
        }
    }
    out
}

#[test]
fn every_example_comes_to_the_same_in_millimetres() {
    let sets = sets_in_inches();
    let mut changed = 0;
    for (name, text) in designs("examples") {
        let metric = in_millimetres(&text);
        changed += usize::from(metric != text);
        assert_eq!(outcomes(&text, &sets), outcomes(&metric, &sets), "{name}");
    }
    assert!(changed >= 20, "only {changed} were in inches");
}

#[test]
fn a_more_even_stair_is_found_fault_with_no_more() {
    let sets = sets();
    let uneven = |risers: &[i32], tenths: i32| {
        // Hundredths of a millimetre about 180 mm, all drawn in by the same share.
        let list: Vec<String> =
            risers.iter().map(|off| format!("{} mm", f64::from(18_000 + off * tenths) / 100.0)).collect();
        let found = outcomes(&format!("stair {{ flight {{ risers: {} }} }}", list.join(", ")), &sets);
        let uneven = |line: &&String| {
            (line.starts_with("riser spread") || line.starts_with("neighbouring risers")) && line.ends_with("fail")
        };
        found.iter().filter(uneven).count()
    };
    let mut runner = TestRunner::new(cases(200));
    runner
        .run(&(vec(-80..80_i32, 2..9), 0..10_i32), |(risers, tenths)| {
            let (before, after) = (uneven(&risers, 10), uneven(&risers, tenths));
            prop_assert!(after <= before, "{risers:?} drawn in to {tenths} tenths: {before}, then {after}");
            Ok(())
        })
        .unwrap();
    // The property is not idle: the widest of them are broken, and drawn in wholly they are not.
    assert!(uneven(&[-80, 80], 10) >= 2);
    assert_eq!(uneven(&[-80, 80], 0), 0);
}

/// Taking from a taller riser what a lower one is given, up to where they meet, never widens the spread.
#[test]
fn evening_two_risers_out_adds_no_spread() {
    let sets = sets();
    let spreads = |risers: &[i32]| {
        let list: Vec<String> = risers.iter().map(|off| format!("{} mm", f64::from(18_000 + off) / 100.0)).collect();
        let found = outcomes(&format!("stair {{ flight {{ risers: {} }} }}", list.join(", ")), &sets);
        found.iter().any(|line| line.starts_with("riser spread") && line.ends_with("fail"))
    };
    let mut runner = TestRunner::new(cases(200));
    runner
        .run(&(vec(-800..800_i32, 2..9), any::<(usize, usize)>(), 0..=50_i32), |(risers, (a, b), share)| {
            let (a, b) = (a % risers.len(), b % risers.len());
            let mut evened = risers.clone();
            let given = (risers[a] - risers[b]) * share / 100;
            evened[a] -= given;
            evened[b] += given;
            prop_assert!(spreads(&risers) || !spreads(&evened), "{risers:?}, then {evened:?}");
            Ok(())
        })
        .unwrap();
    assert!(spreads(&[-800, 800]) && !spreads(&[0, 0]), "the property is not idle");
}

/// Left for right and right for left, outside of texts and comments.
fn mirrored(text: &str) -> String {
    let mut out = String::new();
    let mut word = String::new();
    let (mut quoted, mut comment, mut before) = (false, false, ' ');
    let end = |word: &mut String, swap: bool| {
        let whole = std::mem::take(word);
        match whole.as_str() {
            "left" if swap => "right".to_owned(),
            "right" if swap => "left".to_owned(),
            _ => whole,
        }
    };
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        if c.is_alphabetic() {
            word.push(c);
        } else {
            out += &end(&mut word, !quoted && !comment);
            match c {
                '\n' => (quoted, comment) = (false, false),
                '#' if !quoted && !chars.peek().is_some_and(char::is_ascii_digit) => comment = true,
                '"' if !comment && (quoted || !(before.is_ascii_digit() || before == '\'')) => quoted = !quoted,
                _ => {}
            }
            out.push(c);
        }
        before = c;
    }
    out + &end(&mut word, !quoted && !comment)
}

/// What is found, and at which words, in an order of its own.
fn found(report: &Report) -> Vec<String> {
    let mut found: Vec<String> = messages(&report.findings)
        .iter()
        .map(|finding| {
            let mut labels: Vec<String> = finding
                .labels
                .iter()
                .map(|label| {
                    let line = report.source.line(label.span.start);
                    format!("{line} `{}` {}", report.source.slice(label.span), label.text)
                })
                .collect();
            labels.sort();
            format!("{} {}: {} at {}", finding.severity.word(), finding.name, finding.message, labels.join(" and "))
        })
        .collect();
    found.sort();
    found
}

#[test]
fn a_mirrored_design_gives_mirrored_findings() {
    assert_eq!(
        mirrored("guard left, right { } # left\npost \"left one\" { height: 7\" } wall left { }"),
        "guard right, left { } # left\npost \"left one\" { height: 7\" } wall right { }"
    );
    let session = Session::default();
    let (mut turned, mut told) = (0, 0);
    for folder in ["examples", "tests/cases/building", "tests/cases/residential", "tests/cases/workshop"] {
        for (name, text) in designs(folder) {
            let other = mirrored(&text);
            let (here, there) = (check(&session, &text), check(&session, &other));
            let mut expected: Vec<String> = found(&here).iter().map(|line| mirrored_words(line)).collect();
            expected.sort();
            assert_eq!(expected, found(&there), "{folder}/{name}");
            assert_eq!(here.tally, there.tally, "{folder}/{name}");
            turned += usize::from(other != text);
            told += here.findings.len();
        }
    }
    assert!(turned >= 40 && told >= 100, "{turned} designs with sides, {told} findings");
}

/// Left for right and right for left, wherever they stand.
fn mirrored_words(line: &str) -> String {
    let swapped = line.replace("left", "\u{0}").replace("right", "left").replace('\u{0}', "right");
    // Both of them are listed left first, whichever way the design stands.
    swapped.replace("no guard right or left", "no guard left or right")
}

/// A value just inside its limit: kind, property, what is written there, and where it may be.
type Inside = (&'static str, &'static str, fn(&Drawing, &Statement) -> Option<String>);

fn inside() -> Vec<Inside> {
    fn like(d: &Drawing, s: &Statement, length: f64) -> Option<String> {
        // Tenths of a millimetre would land beside the limit.
        (!d.is_metric()).then(|| length_like(length, d.value(s)))
    }
    vec![
        ("handrail", "height", |d, s| like(d, s, 34.0)),
        ("handrail", "height", |d, s| like(d, s, 38.0)),
        ("handrail", "clearance", |d, s| like(d, s, 1.5)),
        ("handrail", "section", |d, s| d.value(s).starts_with("round").then(|| "round 1-1/4\"".to_owned())),
        ("handrail", "section", |d, s| d.value(s).starts_with("round").then(|| "round 2\"".to_owned())),
        ("guard", "height", |d, s| if d.is_on_landing(s.block) { like(d, s, 36.0) } else { like(d, s, 34.0) }),
        ("guard", "bottom gap", |d, s| if d.is_on_landing(s.block) { like(d, s, 4.0 - 1.0 / 64.0) } else { None }),
        ("tread", "slope", |_, _| Some("1 in 48".to_owned())),
        ("landing", "slope", |_, _| Some("2.08%".to_owned())),
        ("landing", "depth", |d, s| {
            // Nor may its guard be longer than its side.
            let posts = d.kind("guard").filter(|guard| d.is_on_landing(*guard));
            if posts.filter_map(|guard| inches(d.stated(guard, "between posts")?)).any(|posts| posts > 36.0) {
                return None;
            }
            let widths = d.kind("flight").filter_map(|flight| inches(d.stated(flight, "width")?));
            match d.stated(s.block, "turn") {
                Some("straight") => None,
                // The flight that leaves it at a side is as wide as it is deep.
                Some(turn) if turn.starts_with("quarter") => like(d, s, widths.fold(36.0, f64::max)),
                _ => like(d, s, 36.0),
            }
        }),
        ("landing", "width", |d, s| {
            let widths = d.kind("flight").filter_map(|flight| inches(d.stated(flight, "width")?));
            let back = d.stated(s.block, "turn").is_some_and(|turn| turn.starts_with("half"));
            let least = if back { widths.reduce(|lower, upper| lower + upper) } else { widths.reduce(f64::max) }?;
            if d.outdoors() && d.has("door") { None } else { like(d, s, least) }
        }),
        ("tread", "edge", |_, _| Some("radius 9/16\"".to_owned())),
        ("tread", "edge", |_, _| Some("bevel 1/2\"".to_owned())),
        ("ceiling", "headroom", |d, s| {
            let ends = d.stated(s.block, "over").is_some();
            if ends { None } else { like(d, s, if d.is_spiral() { 78.0 } else { 80.0 }) }
        }),
        ("ceiling", "overhang", |d, s| like(d, s, 4.75)),
        ("door", "threshold", |d, s| like(d, s, 7.75)),
        ("stair", "total rise", |d, s| like(d, s, inches(d.value(s))? + 1.0 / 16.0)),
        ("stair", "total run", |d, s| like(d, s, inches(d.value(s))? - 1.0 / 16.0)),
        ("stringer", "first cut", |d, s| like(d, s, inches(d.value(s))? + 1.0 / 16.0)),
        ("flight", "width", |d, s| {
            // A flight as narrow as this has a room of its own only where its landings and boards follow.
            // Nor may the stringers stand wider than the flight.
            let spread = d.kind("stringer").any(|stringer| d.stated(stringer, "spacing").is_some());
            let board = d.kind("tread").filter_map(|tread| inches(d.stated(tread, "length")?)).fold(0.0, f64::max);
            let housed = d.kind("stringer").any(|stringer| d.stated(stringer, "cut") == Some("housed"));
            if d.is_spiral() || spread || housed || board > 40.0 { None } else { like(d, s, 36.0) }
        }),
        ("joint", "hole", |d, s| like(d, s, d.fasteners(s.block)?.1.diameter + 1.0 / 16.0)),
        ("in", "spacing", |d, s| {
            // Where they hold a guard's post they stand apart for what a push at its top pulls.
            let holds_a_post = d.blocks[s.block].parent.is_some_and(|joint| d.stated(joint, "hold-down").is_some());
            // What is spaced in rows, or in both members, is moved in both.
            let laid_out = d.stated(s.block, "row spacing").is_some();
            if holds_a_post || laid_out { None } else { like(d, s, 3.0 * d.fasteners(s.block)?.1.diameter) }
        }),
        ("in", "end", |d, s| {
            let (kind, fasteners) = d.fasteners(s.block)?;
            if matches!(kind, "bolts" | "lags") { like(d, s, 3.5 * fasteners.diameter) } else { None }
        }),
        ("in", "edge", |d, s| {
            let (kind, fasteners) = d.fasteners(s.block)?;
            if matches!(kind, "bolts" | "lags") { like(d, s, 1.5 * fasteners.diameter) } else { None }
        }),
    ]
}

/// Noise: a value that is just inside breaks nothing, neither its own rule nor another.
#[test]
fn a_value_just_inside_its_limit_breaks_nothing() {
    let session = Session::default();
    let bad = |report: &Report| -> Vec<String> {
        let bad = messages(&report.findings).into_iter().filter(|finding| finding.severity != Severity::Advised);
        bad.map(|finding| format!("{}: {}", finding.name, finding.message)).collect()
    };
    let table = inside();
    let mut tried = vec![0; table.len()];
    let mut told = Vec::new();
    for (name, text) in designs("examples") {
        if !bad(&check(&session, &text)).is_empty() {
            continue;
        }
        let drawing = Drawing::read(&name, &text);
        for ((kind, property, value), tried) in table.iter().zip(&mut tried) {
            for statement in drawing.of(kind, property) {
                let Some(value) = value(&drawing, statement) else { continue };
                let mut moved = text.clone();
                moved.replace_range(statement.value.clone(), &value);
                *tried += 1;
                let bad = bad(&check(&session, &moved));
                if !bad.is_empty() {
                    told.push(format!("{name}: {kind} {property}: {value}: {bad:?}"));
                }
            }
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
    for ((kind, property, _), tried) in table.iter().zip(&tried) {
        assert!(*tried > 0, "no design states `{property}` of a {kind} there");
    }
}
