//! Whatever is typed, the whole path holds: nothing panics, every label lies on whole characters of its text, no
//! control character reaches the terminal raw, and a slip costs no more than its own statement.
//!
//! Every run here is a tenth of its length unless `FULL=1` asks for all of it.

use std::path::Path;
use std::{env, fs};

use crate::switches::long_run;
use crate::whole_path::{check, check_rules, lie_under};
use pitchboard::base::{Severity, Source};
use pitchboard::measure::INCH;
use pitchboard::model::{self, Value, vocabulary};
use pitchboard::syntax;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};

/// What a keyboard and a careless paste give.
const HOSTILE: &[&str] = &[
    "\u{0}",
    "\u{1b}[31m",
    "\u{7}",
    "\u{202e}",
    "\u{2066}",
    "\u{feff}",
    "\r",
    "\r\n",
    "\t",
    "\u{a0}",
    "\u{2028}",
    "\"",
    "“",
    "”",
    "'",
    "{",
    "}",
    "{{{",
    "}}}",
    "(",
    ")",
    ";",
    ":",
    ",",
    "#",
    "#1",
    "\\\"",
    "\\",
    "½",
    "⅜",
    "é",
    "e\u{301}",
    "梯",
    "🪵",
    "👩‍🔧",
    "1/0\"",
    "99999999999999'",
    "1e308",
    "-",
    "--",
    "4 of",
    "0 of 7\"",
    "100000000 of 7\"",
    "7\"",
    "3'-6\"",
    "187 mm",
];

/// Words and figures of both languages.
const TOKENS: &[&str] = &[
    "stair",
    "flight",
    "landing",
    "top",
    "handrail",
    "guard",
    "left",
    "right",
    "left, right",
    "joint",
    "in newel",
    "tread",
    "riser board",
    "post",
    "measured",
    "timber",
    "section",
    "risers",
    "runs",
    "width",
    "height",
    "nosing",
    "balusters",
    "bolts",
    "edge",
    "slope",
    "rules",
    "residential",
    "along",
    ":",
    ":",
    ":",
    ":",
    "{",
    "}",
    "{",
    "}",
    ",",
    ";",
    "\n",
    "\n",
    "\n",
    "4 of 7\"",
    "3 of 10-1/4\"",
    "7\", 6-15/16\"",
    "36\"",
    "1 in 48",
    "2%",
    "30°",
    "2x12",
    "1-1/2\" x 11-1/4\"",
    "round 1-1/2\"",
    "2x2 every 5\"",
    "2 of 3/8\" x 6\" carriage, galvanised",
    "No.10",
    "16d",
    "x",
    "-",
    "to",
    "of",
    "is",
    "each",
    "where",
    "shall have",
    "should have",
    "<=",
    "number of risers",
    "largest change of height along risers",
    "limit",
    "rule \"r\" {",
    "chapter \"c\" {",
    "ruleset \"s\" {",
    "passes:",
    "fails:",
    "source: \"x\"",
    "amends: residential",
    "# a comment",
    "\"text\"",
    "\"",
    "+",
    "*",
    "(",
    ")",
];

pub fn soup(most: usize) -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        8 => prop::sample::select(TOKENS),
        2 => prop::sample::select(HOSTILE),
    ];
    vec((piece, any::<bool>()), 0..most).prop_map(|pieces| {
        pieces.iter().fold(String::new(), |text, (piece, blank)| text + piece + if *blank { " " } else { "" })
    })
}

/// One change to a text, at places given as fractions of its length.
#[derive(Debug, Clone)]
pub enum Slip {
    Delete(f64, usize),
    Duplicate(f64, usize),
    Swap(f64, f64, usize),
    Insert(f64, &'static str),
}

pub fn slip() -> impl Strategy<Value = Slip> {
    let at = || 0.0..1.0_f64;
    prop_oneof![
        (at(), 1..60_usize).prop_map(|(at, length)| Slip::Delete(at, length)),
        (at(), 1..60_usize).prop_map(|(at, length)| Slip::Duplicate(at, length)),
        (at(), at(), 1..40_usize).prop_map(|(a, b, length)| Slip::Swap(a, b, length)),
        (at(), prop::sample::select(HOSTILE)).prop_map(|(at, what)| Slip::Insert(at, what)),
    ]
}

pub fn slipped(text: &str, slips: &[Slip]) -> String {
    let mut chars: Vec<char> = text.chars().collect();
    for slip in slips {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
        let place = |at: &f64, chars: &[char]| (at * chars.len() as f64) as usize;
        match slip {
            Slip::Delete(at, length) => {
                let at = place(at, &chars);
                let end = (at + length).min(chars.len());
                chars.drain(at..end);
            }
            Slip::Duplicate(at, length) => {
                let at = place(at, &chars);
                let end = (at + length).min(chars.len());
                let copy: Vec<char> = chars.get(at..end).unwrap_or_default().to_vec();
                chars.splice(end..end, copy);
            }
            Slip::Swap(a, b, length) => {
                let (a, b) = (place(a, &chars), place(b, &chars));
                let (a, b) = (a.min(b), a.max(b));
                let length = (*length).min(b - a).min(chars.len() - b);
                for step in 0..length {
                    chars.swap(a + step, b + step);
                }
            }
            Slip::Insert(at, what) => {
                let at = place(at, &chars);
                chars.splice(at..at, what.chars());
            }
        }
    }
    chars.into_iter().collect()
}

fn texts(folder: &str, ending: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut paths: Vec<_> = fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|found| found == ending));
    paths.sort();
    assert!(!paths.is_empty(), "{folder:?} holds no .{ending}");
    paths.iter().map(|path| fs::read_to_string(path).unwrap()).collect()
}

/// The same cases in every run; PROPTEST_RNG_SEED asks for others, PROPTEST_CASES for another number of them.
pub fn cases(full: usize) -> ProptestConfig {
    let cases = u32::try_from(long_run(full)).unwrap();
    let set = |name: &str| env::var_os(name).is_some();
    let usual = ProptestConfig { failure_persistence: None, ..ProptestConfig::default() };
    let seeded =
        if set("PROPTEST_RNG_SEED") { usual } else { ProptestConfig { rng_seed: RngSeed::Fixed(2026), ..usual } };
    if set("PROPTEST_CASES") { seeded } else { ProptestConfig { cases, ..seeded } }
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_bytes_at_all(bytes in vec(any::<u8>(), 0..600)) {
        let text = String::from_utf8_lossy(&bytes);
        check(&text);
        check_rules(&text);
        lie_under(&text);
    }

    #[test]
    fn any_words_of_the_languages_in_any_order(text in soup(60)) {
        check(&text);
        check(&format!("stair \"a\" {{\n{text}\n}}"));
        check_rules(&text);
        lie_under(&format!("shop \"s\" {{ rules: residential; {text} }}"));
        lie_under(&format!("section \"marsh rail\" {{ {text} }}\ntimber \"bog oak\" {{ {text} }}\nfolder cabins {{ {text} }}"));
        check_rules(&format!("ruleset \"s\" {{ }}\nchapter \"c\" {{\nrule \"r\" {{\neach flight shall have {text}\n}}\n}}"));
    }
}

/// A shop's file cut off anywhere.
#[test]
fn a_shops_file_that_breaks_off() {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/yard/shop.pitchboard")).unwrap();
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).step_by(4).collect();
    for at in places.iter().copied().step_by(places.len() / long_run(places.len())) {
        lie_under(&text[..at]);
    }
}

/// Each example in turn, so that none is left to chance.
#[test]
fn slips_in_every_example() {
    for text in texts("examples", "stair") {
        let mut runner = TestRunner::new(cases(24));
        runner
            .run(&vec(slip(), 1..5), |slips| {
                check(&slipped(&text, &slips));
                Ok(())
            })
            .unwrap();
    }
}

#[test]
fn slips_in_every_ruleset() {
    for text in texts("rulesets", "rules") {
        let mut runner = TestRunner::new(cases(12));
        runner
            .run(&vec(slip(), 1..5), |slips| {
                check_rules(&slipped(&text, &slips));
                Ok(())
            })
            .unwrap();
    }
}

proptest! {
    #![proptest_config(cases(500))]

    /// Anything but a brace may stand on a line between healthy statements; they all stay read.
    #[test]
    fn a_slip_costs_its_own_statement(lines in vec(soup(12), 1..4)) {
        let damage: String = lines.iter().map(|line| line.replace(['{', '}'], "") + "\n").collect();
        let text = format!(
            "stair \"a\" {{\n    flight {{\n        width: 37\"\n{damage}\n    }}\n    handrail left {{ height: 36\" }}\n}}\nstair \"b\" {{ flight {{ width: 38\" }} }}\n"
        );
        check(&text);
        let source = Source::new("case", &text);
        let (tree, slips) = syntax::parse_design(&source);
        let mut findings = pitchboard::base::lift(slips);
        let stairs = model::build(&tree, &source, &mut findings);
        let stated = |stair: usize, kind: &str, name: &str| {
            let design = &stairs.get(stair)?.drawn;
            let kind = vocabulary::kind(kind)?;
            let id = design.of_kind(kind).next()?;
            match design.stated(id, kind.property(name)?.handle())?.value.clone()? {
                Value::Measure(measure) => Some(measure.value / INCH),
                Value::List(items) => items.first().map(|item| item.measure.value / INCH),
                _ => None,
            }
        };
        prop_assert_eq!(stated(0, "flight", "width"), Some(37.0), "{}", text);
        prop_assert_eq!(stated(0, "handrail", "height"), Some(36.0), "{}", text);
        prop_assert_eq!(stated(1, "flight", "width"), Some(38.0), "{}", text);
    }
}

/// A hard case and its notice. A sum that grew with the square of its size would be felt here, and is measured
/// by the benchmark.
fn told(what: &str, text: &str, notice: &str) {
    let report = check(text);
    let names: Vec<&str> = report.findings.iter().map(|finding| finding.name()).take(5).collect();
    assert!(names.contains(&notice), "{what}: {names:?}");
}

#[test]
fn what_nests_without_end_is_refused() {
    let (open, close) = ("{".repeat(100_000), "}".repeat(100_000));
    told("nested", &format!("{open}{close}"), "nested too deep");
    told("opened", &open, "nested too deep");
    told("in a stair", &format!("stair {{ flight {{ width: {open}{close} }} }}"), "nested too deep");
    told("closed", &close, "stray brace");
    let round = "(".repeat(100_000);
    told("in a value", &format!("stair {{ flight {{ width: {round} }} }}"), "wrong value");
}

/// What a quote, a number sign or a comment makes of a brace is the parser's to say: what opens by its reading nests.
#[test]
fn what_nests_past_a_quote_or_a_comment_is_refused() {
    let deep = "{".repeat(8_000);
    told("after a name that ends in a figure", &format!("flight f1\"a\"{deep}"), "nested too deep");
    told("after a number sign", &format!("timber #10\"a\"{deep}"), "nested too deep");
    told("closed in a text only", &"{f7\"}\"\n".repeat(8_000), "nested too deep");
    check_rules(&format!("each a # {deep}"));
    check_rules(&format!("each a \"{deep}"));
    for quote in ["\"", "“", "# \n"] {
        check_rules(&format!("rule \"r\" {{ passes: {quote}{deep}"));
    }
    check_rules(&"{f7\"}\"\n".repeat(8_000));
}

#[test]
fn a_clause_that_nests_or_adds_without_end_is_refused() {
    let clause = |asked: &str| check_rules(&format!("rule \"r\" {{ each flight shall have {asked} <= 3\n}}"));
    clause(&"(".repeat(8_000));
    clause(&format!("f7\"a\"; each flight shall have {}", "(".repeat(8_000)));
    clause(&"lesser of ".repeat(8_000));
    clause(&"number of (risers where ".repeat(8_000));
    for join in ["and", "or"] {
        let narrows = format!("width > 1\" {join} ").repeat(4_000);
        check_rules(&format!("rule \"r\" {{ each flight where {narrows} width > 1\" shall have width > 2\"\n}}"));
    }
    for sign in ["+", "-", "*", "/"] {
        clause(&format!("1{}", format!("{sign}1").repeat(8_000)));
        clause(&format!("{}1{}", "(".repeat(60), format!("{sign}(1{sign}1){sign}1)").repeat(60)));
    }
}

#[test]
fn what_is_long_is_read_or_refused() {
    let long = |what: &str, full: usize| what.repeat(long_run(full));
    told("quotes", &long("\"\n", 100_000), "unclosed quote");
    told("braces after a quote", &format!("\"{}", long("{", 400_000)), "unclosed quote");
    told("quotes on a line", &format!("stair {{ {} }}", long("\" ", 100_001)), "unclosed quote");
    told("junk", &long("marsh gate hinge 7 ", 52_000), "not a statement");
    told("junk by lines", &long("marsh gate hinge 7\n", 52_000), "not a statement");
    told("a long line", &format!("stair {{ total rise: {}", long("7, ", 300_000)), "unclosed brace");
    told("a long word", &format!("stair {{ {}: 7\" }}", long("a", 900_000)), "unknown property");
    told("many things", &format!("stair {{ {} }}", long("post { }\n", 60_000)), "too many things");
    told("a large file", &" ".repeat(1_048_577), "too large");
    check_rules(&format!("rule \"r\" {{ each a{}b c", long("\n", 400_000)));
    check_rules(&format!("rule \"r\" {{ each a{}b c", long("\n# {\n", 100_000)));
}

/// Steps of two flights that break a rule by one and the same word, in an order that does not climb.
#[test]
fn flights_that_share_a_tread_are_told_apart() {
    let text = "stair { rules: residential; riser board { }; tread { nosing: 1/2\" }\n\
                flight a { risers: 3 of 7\"; runs: 12\", 10\" }; flight b { risers: 2 of 7\"; runs: 10\" } }";
    let report = check(text);
    let finding = report.findings.iter().find(|finding| finding.name() == "nosing").expect("1/2 in is too little");
    assert_eq!(report.source.slice(finding.place().unwrap()), "1/2\"");
}

#[test]
fn many_things_and_many_faults_take_no_more_than_their_share() {
    let many = |count: usize, each: &dyn Fn(usize) -> String| -> String { (0..count).map(each).collect() };
    let flights = many(200, &|at| format!("flight f{at} {{ risers: 200 of 7\"; runs: 199 of 10\" }}\n"));
    told("many steps", &format!("stair {{ {flights} }}"), "too many things");
    let joints = many(300, &|at| {
        format!("joint j{at} {{ joins: a to stringer; bolts: 2 of 3/8\" x 6\"; in a {{ end: 1\" }} }}\n")
    });
    let frame = "post a { section: 4x4 }; stringer { section: 2x12 }";
    told("many joints", &format!("stair {{ {frame}\n{joints} }}"), "full bolt end across the grain");
    let names = many(600, &|at| format!("r{at}, "));
    let flights = format!("flight {names}x {{ risers: 2 of 7\" }}");
    told(
        "things for each flight",
        &format!("stair {{ {flights} {} }}", "stringer { }\n".repeat(100)),
        "too many things",
    );
    let report = check(&"stair { flight { risers: 200 of 9\" } }\n".repeat(400));
    assert!(report.findings.iter().any(|finding| finding.name() == "too many things"), "80 000 steps in one file");
    let stairs = many(2_000, &|at| format!("stair \"s{at}\" {{ }}\n"));
    let measured = many(500, &|at| format!("measured \"t{at}\" {{ }}\n"));
    let timbers = many(200, &|at| format!("timber t{at} {{ }}\n"));
    let report = check(&[stairs, measured, timbers].concat());
    assert!(report.findings.iter().any(|finding| finding.name() == "too many things"), "2 000 stairs in one file");
    check_rules(&format!("ruleset \"s\" {{ {} }}", "amends: workshop\n".repeat(400)));
    told(
        "one word over and over",
        &format!("stair {{ {} }}", "total rise: 7\"\n".repeat(long_run(20_000))),
        "stated twice",
    );
    told(
        "unknown words",
        &format!("stair {{ {} }}", many(long_run(20_000), &|at| format!("p{at}: 7\"\n"))),
        "unknown property",
    );
}

#[test]
fn figures_that_cannot_be_are_one_finding_each() {
    for (text, words) in [
        ("total rise: 1/0\"", "1/0\""),
        ("total rise: 99999999999999'", "99999999999999'"),
        ("flight { risers: 100000000 of 7\" }", "100000000"),
        ("flight { risers: 0 of 7\" }", "0 of 7\""),
        ("flight { risers: 4 of 0\" }", "4 of 0\""),
        ("stringer { count: 2.5 }", "2.5"),
    ] {
        let report = check(&format!("stair {{ rules: residential; {text} }}"));
        let unread = report.findings.iter().filter(|finding| finding.severity() == Severity::NotUnderstood);
        let unread: Vec<_> = unread.collect();
        let [finding] = unread.as_slice() else { panic!("{text}: {unread:?}") };
        assert_eq!(finding.name(), "impossible number", "{text}");
        assert_eq!(report.source.slice(finding.place().unwrap()), words, "{text}");
    }
}
