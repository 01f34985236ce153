//! Every unit against the `uom` crate, the exactness of stated lengths, and printing that reads back as it was written.

use pitchboard::base::Source;
use pitchboard::check::LoadedSet;
use pitchboard::measure::{Dimension, INCH, Joint, MILLIMETRE, Measure, Notation, Style, UNITS, Unit, print};
use pitchboard::model::{self, Value};
use pitchboard::session::Session;
use pitchboard::syntax;
use uom::si::f64::{Acceleration, Angle, Area, Force, Length, Mass, Pressure, Ratio};
use uom::si::{acceleration, angle, area, force, length, mass, pressure, ratio};

/// Each unit by its name, with what one of it is in nanometres, newtons and degrees by `uom`.
fn by_uom() -> Vec<(&'static str, f64)> {
    let nm = |one: Length| one.get::<length::nanometer>();
    let nm2 = |one: Area| one.get::<area::square_meter>() * 1e18;
    let newton = |one: Force| one.get::<force::newton>();
    let pressed = |one: Pressure| one.get::<pressure::pascal>() / 1e18;
    // uom has no quantity for a force on a length; it is its force over its length.
    let line = |one: Force, on: Length| (one / on).value / 1e9;
    let inch = Length::new::<length::inch>(1.0);
    let foot = Length::new::<length::foot>(1.0);
    let metre = Length::new::<length::meter>(1.0);
    // uom's own pound, pound-force and psi are rounded to seven figures, so the pound is made from its definition
    // (0.453 592 37 kg, international yard and pound agreement, 1959) under uom's standard gravity.
    let gravity = Acceleration::new::<acceleration::standard_gravity>(1.0);
    let pound: Force = Mass::new::<mass::kilogram>(0.453_592_37) * gravity;
    let ratio = Ratio::new::<ratio::ratio>(1.0).get::<ratio::ratio>();
    vec![
        ("inch", nm(inch)),
        ("foot", nm(foot)),
        ("millimetre", nm(Length::new::<length::millimeter>(1.0))),
        ("centimetre", nm(Length::new::<length::centimeter>(1.0))),
        ("metre", nm(metre)),
        ("degree", Angle::new::<angle::degree>(1.0).get::<angle::degree>()),
        ("number", ratio),
        ("one in", ratio),
        // Written as inches over twelve of them: the figure that is kept is the ratio.
        ("inch per foot", ratio),
        ("percent", Ratio::new::<ratio::percent>(1.0).get::<ratio::ratio>()),
        ("pound", newton(pound)),
        ("newton", newton(Force::new::<force::newton>(1.0))),
        ("kilonewton", newton(Force::new::<force::kilonewton>(1.0))),
        ("pound per square foot", pressed(pound / (foot * foot))),
        ("pound per square inch", pressed(pound / (inch * inch))),
        ("kilopascal", pressed(Pressure::new::<pressure::kilopascal>(1.0))),
        ("megapascal", pressed(Pressure::new::<pressure::megapascal>(1.0))),
        ("pound per foot", line(pound, foot)),
        ("kilonewton per metre", line(Force::new::<force::kilonewton>(1.0), metre)),
        ("newton per metre", line(Force::new::<force::newton>(1.0), metre)),
        ("square inch", nm2(Area::new::<area::square_inch>(1.0))),
        ("square foot", nm2(Area::new::<area::square_foot>(1.0))),
        ("square millimetre", nm2(Area::new::<area::square_millimeter>(1.0))),
    ]
}

/// What one of a unit is in base units, by the table.
fn one(name: &str) -> f64 {
    UNITS.iter().find(|unit| unit.name == name).expect(name).scale
}

#[test]
fn every_unit_is_that_of_a_units_library() {
    let by_uom = by_uom();
    assert_eq!(by_uom.len(), UNITS.len());
    for (name, wanted) in by_uom {
        let scale = one(name);
        // Only the last bits may differ: the two multiply in another order.
        assert!((scale - wanted).abs() <= wanted.abs() * 1e-14, "{name}: {scale}, uom says {wanted}");
    }
    // The rounded ones agree as far as they go.
    let rounded = Force::new::<force::pound_force>(1.0).get::<force::newton>();
    assert!((pitchboard::measure::POUND - rounded).abs() < 5e-7);
    let rounded = Pressure::new::<pressure::pound_force_per_square_inch>(1.0).get::<pressure::pascal>() / 1e18;
    assert!((one("pound per square inch") / rounded - 1.0).abs() < 1e-7);
    let right = Angle::new::<angle::degree>(90.0).get::<angle::radian>();
    assert!((right - std::f64::consts::FRAC_PI_2).abs() < 1e-15);
    // Exact by definition: the international yard and pound, 1959, and standard gravity, CGPM 1901.
    assert_eq!(INCH, 25.4 * MILLIMETRE);
    assert_eq!(pitchboard::measure::POUND, 0.453_592_37 * 9.806_65);
}

/// Every measure that designs of these total rises hold, one stair each, no more of them in a file than are read.
fn read_lengths(texts: &[String]) -> Vec<Measure> {
    texts.chunks(500).flat_map(read_file).collect()
}

fn read_file(texts: &[String]) -> Vec<Measure> {
    let stairs: Vec<String> = texts.iter().map(|text| format!("stair {{ total rise: {text} }}")).collect();
    let source = Source::new("lengths", stairs.join("\n"));
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    let stairs = model::build(&tree, &source, &mut findings);
    // A rise of a sixty-fourth is out of all proportion, and counts.
    findings.retain(|found| found.severity() != pitchboard::base::Severity::Advised);
    assert!(findings.is_empty(), "{} of {}", findings.len(), texts.len());
    let measure =
        |stair: &model::Stair| match stair.drawn.stated(0, model::properties::TOTAL_RISE).and_then(|s| s.value.clone())
        {
            Some(Value::Measure(measure)) => measure,
            other => panic!("{other:?}"),
        };
    stairs.iter().map(measure).collect()
}

#[test]
fn every_64th_and_every_millimetre_is_a_whole_number_of_nanometres() {
    // 1/64 in is 396 875 nm: 25.4 / 64 mm, exact.
    let marks: Vec<u32> = (1..=200 * 64).collect();
    for marks in marks.chunks(2_000) {
        let as_fraction: Vec<String> = marks
            .iter()
            .map(|n| match (n / 64, n % 64) {
                (whole, 0) => format!("{whole}\""),
                (0, part) => format!("{part}/64\""),
                (whole, part) => format!("{whole}-{part}/64\""),
            })
            .collect();
        let as_decimal: Vec<String> = marks.iter().map(|n| format!("{}\"", f64::from(*n) / 64.0)).collect();
        let fractions = read_lengths(&as_fraction);
        let decimals = read_lengths(&as_decimal);
        assert_eq!((fractions.len(), decimals.len()), (marks.len(), marks.len()));
        for ((n, fraction), decimal) in marks.iter().zip(fractions).zip(decimals) {
            let wanted = f64::from(*n) * 396_875.0;
            assert_eq!((fraction.value, decimal.value), (wanted, wanted), "{n}/64 in");
        }
    }
    let millimetres: Vec<u32> = (1..=5_000).collect();
    for some in millimetres.chunks(2_000) {
        for (n, measure) in some.iter().zip(read_lengths(&some.iter().map(|n| format!("{n} mm")).collect::<Vec<_>>())) {
            assert_eq!(measure.value, f64::from(*n) * 1e6, "{n} mm");
        }
        for (n, measure) in
            some.iter().zip(read_lengths(&some.iter().map(|n| format!("{}.{} cm", n / 10, n % 10)).collect::<Vec<_>>()))
        {
            assert_eq!(measure.value, f64::from(*n) * 1e6, "{n} mm written in centimetres");
        }
        for (n, measure) in some
            .iter()
            .zip(read_lengths(&some.iter().map(|n| format!("{}.{:03} m", n / 1000, n % 1000)).collect::<Vec<_>>()))
        {
            assert_eq!(measure.value, f64::from(*n) * 1e6, "{n} mm written in metres");
        }
    }
}

#[test]
fn nothing_at_all_is_a_length_too() {
    // A door's threshold may lie flush: nought of any unit reads, and prints as it was written.
    for text in ["0\"", "0 mm"] {
        let source = Source::new("nought", format!("stair {{ door {{ threshold: {text} }} }}"));
        let (tree, slips) = syntax::parse_design(&source);
        let mut findings = pitchboard::base::lift(slips);
        let stairs = model::build(&tree, &source, &mut findings);
        assert!(findings.is_empty());
        let threshold = model::vocabulary::kind("door").unwrap().property("threshold").unwrap().handle();
        match stairs.first().and_then(|stair| stair.drawn.stated(1, threshold)).and_then(|s| s.value.clone()) {
            Some(Value::Measure(measure)) => assert_eq!((measure.value, print(measure).as_str()), (0.0, text)),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn lengths_print_as_they_were_written() {
    let mut texts: Vec<String> = Vec::new();
    for whole in [0_u32, 1, 7, 11, 12, 35, 120] {
        for part in 0..64_u32 {
            let (mut top, mut bottom) = (part, 64);
            while top > 0 && top % 2 == 0 {
                (top, bottom) = (top / 2, bottom / 2);
            }
            match (whole, top) {
                (0, 0) => {}
                (_, 0) => texts.push(format!("{whole}\"")),
                (0, _) => texts.push(format!("{top}/{bottom}\"")),
                _ => texts.extend([format!("{whole}-{top}/{bottom}\""), format!("{whole} {top}/{bottom}\"")]),
            }
        }
    }
    for text in [
        "3'",
        "3'-6\"",
        "3' 6\"",
        "3'-6 1/2\"",
        "3' 6 1/2\"",
        "12'-11 63/64\"",
        "1'-1/16\"",
        "7.375\"",
        "7.3\"",
        "0.5\"",
    ] {
        texts.push(text.to_owned());
    }
    for text in ["187 mm", "187.5 mm", "18.7 cm", "120 cm", "1.2 m", "1.875 m", "3 m"] {
        texts.push(text.to_owned());
    }
    for (text, measure) in texts.iter().zip(read_lengths(&texts)) {
        assert_eq!(&print(measure), text);
    }
}

/// The limits of a set, which take every dimension.
fn read_limits(texts: &[&str]) -> Vec<Measure> {
    let limits: Vec<String> =
        texts.iter().enumerate().map(|(at, text)| format!("limit l{}: {text}", letters(at))).collect();
    let text = format!(
        "ruleset \"units\" {{ }}\nchapter \"units\" {{ rule \"units\" {{\n{}\neach flight shall have width > 1\"\nsource: \"common practice\"\n}} }}",
        limits.join("\n")
    );
    let LoadedSet { set, diagnostics } = Session::default().read_set(&Source::new("units", text));
    let unread: Vec<_> =
        diagnostics.iter().filter(|slip| !["unused limit", "out of proportion"].contains(&slip.name())).collect();
    assert!(unread.is_empty(), "{unread:?}");
    let rule = set.rules.first().unwrap();
    assert_eq!(rule.limits.len(), texts.len());
    rule.limits.iter().map(|limit| limit.measure).collect()
}

fn letters(at: usize) -> String {
    "abcdefghijklmnopqrstuvwxyz".chars().nth(at % 26).unwrap().to_string().repeat(at / 26 + 1)
}

#[test]
fn figures_of_every_dimension_print_as_they_were_written() {
    let cases = [
        ("34.3°", 34.3, Dimension::ANGLE),
        ("3", 3.0, Dimension::NUMBER),
        ("3.5", 3.5, Dimension::NUMBER),
        ("1 in 48", 1.0 / 48.0, Dimension::NUMBER),
        ("1/4\" per 12\"", 1.0 / 48.0, Dimension::NUMBER),
        ("2%", 0.02, Dimension::NUMBER),
        ("200 lb", one("pound") * 200.0, Dimension::FORCE),
        ("890 N", 890.0, Dimension::FORCE),
        ("4.5 kN", 4500.0, Dimension::FORCE),
        ("40 psf", one("pound per square foot") * 40.0, Dimension::PRESSURE),
        ("625 psi", one("pound per square inch") * 625.0, Dimension::PRESSURE),
        ("1.9 kPa", one("kilopascal") * 1.9, Dimension::PRESSURE),
        ("8.5 MPa", one("megapascal") * 8.5, Dimension::PRESSURE),
        ("50 plf", one("pound per foot") * 50.0, Dimension::LINE_LOAD),
        ("0.75 kN/m", one("kilonewton per metre") * 0.75, Dimension::LINE_LOAD),
        ("730 N/m", one("newton per metre") * 730.0, Dimension::LINE_LOAD),
        ("70 sq in", INCH * INCH * 70.0, Dimension::AREA),
        ("2.5 sq ft", one("square foot") * 2.5, Dimension::AREA),
        ("2000 mm2", MILLIMETRE * MILLIMETRE * 2000.0, Dimension::AREA),
        ("7-3/4\"", INCH * 7.75, Dimension::LENGTH),
        ("7 3/4\"", INCH * 7.75, Dimension::LENGTH),
        ("7.75\"", INCH * 7.75, Dimension::LENGTH),
        ("3'-6\"", INCH * 42.0, Dimension::LENGTH),
        ("3' 6\"", INCH * 42.0, Dimension::LENGTH),
        ("187 mm", MILLIMETRE * 187.0, Dimension::LENGTH),
        ("18.7 cm", MILLIMETRE * 187.0, Dimension::LENGTH),
        ("1.2 m", MILLIMETRE * 1200.0, Dimension::LENGTH),
    ];
    let texts: Vec<&str> = cases.iter().map(|(text, _, _)| *text).collect();
    let read = read_limits(&texts);
    let mut seen: Vec<Style> = Vec::new();
    for ((text, value, dimension), measure) in cases.iter().zip(&read) {
        assert!((measure.value - value).abs() <= value.abs() * 1e-12, "{text}: {} for {value}", measure.value);
        assert_eq!(measure.dimension, *dimension, "{text}");
        assert_eq!(print(*measure), *text);
        seen.push(measure.style);
    }
    // No unit is left out, nor any notation of one.
    for style in UNITS.iter().map(Style::of).chain([
        Style::DECIMAL_INCHES,
        Style::INCHES.with(Notation::Fraction(Joint::Blank)),
        Style::feet(Joint::Blank),
    ]) {
        assert!(seen.contains(&style), "{style:?} has no case");
    }
    // What is printed reads back to the same value.
    let printed: Vec<String> = read.iter().map(|measure| print(*measure)).collect();
    let again = read_limits(&printed.iter().map(String::as_str).collect::<Vec<_>>());
    assert_eq!(read, again);
}

#[test]
fn other_ways_of_writing_a_unit_mean_the_same() {
    let same = [
        ("7-3/4\"", "7¾\""),
        ("7-3/4\"", "7-3/4 in"),
        ("7-3/4\"", "7 3/4 inches"),
        ("7-3/4\"", "7-3/4″"),
        ("3'-6\"", "3′ 6″"),
        ("3'", "3 ft"),
        ("3'", "3 feet"),
        ("187.5 mm", "187,5 mm"),
        ("30°", "30 deg"),
        ("30°", "30 degrees"),
        ("30°", "30 deg."),
        ("30°", "30º"),
        ("48\"", "48in."),
        ("3'-6\"", "3 ft. 6 in."),
        ("900 mm", "900 mm."),
        ("200 lb", "200 lbs"),
        ("2000 mm2", "2000 mm²"),
        ("1 in 12", "1:12"),
    ];
    for (one, other) in same {
        let [a, b] = read_limits(&[one, other]).try_into().unwrap();
        assert_eq!((a.value, a.dimension), (b.value, b.dimension), "{one} and {other}");
    }
}

/// All the spellings of a rule of the lexicon that holds nothing but words, blanks and looks ahead.
struct Spellings<'a> {
    rest: &'a str,
}

impl Spellings<'_> {
    fn of(rule: &str) -> Vec<String> {
        let lexicon = include_str!("../../grammar/lexicon.pest");
        let mut lines = lexicon.lines().skip_while(|line| line.split_whitespace().next() != Some(rule));
        let first = lines.next().unwrap_or_else(|| panic!("no rule `{rule}`"));
        let further = lines.take_while(|line| line.starts_with([' ', '|']));
        let text: String = std::iter::once(first).chain(further).collect();
        let (_, body) = text.split_once('{').unwrap();
        let mut reader = Spellings { rest: body };
        let all = reader.choice();
        assert_eq!(reader.rest.trim(), "}", "`{rule}` holds more than words");
        all
    }

    fn eat(&mut self, sign: char) -> bool {
        self.rest = self.rest.trim_start();
        let rest = self.rest.strip_prefix(sign);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn choice(&mut self) -> Vec<String> {
        let mut all = self.sequence();
        while self.eat('|') {
            all.extend(self.sequence());
        }
        all
    }

    fn sequence(&mut self) -> Vec<String> {
        let mut all = self.term();
        while self.eat('~') {
            let next = self.term();
            all = all.iter().flat_map(|start| next.iter().map(move |end| format!("{start}{end}"))).collect();
        }
        all
    }

    fn term(&mut self) -> Vec<String> {
        if self.eat('!') || self.eat('&') {
            self.term();
            return vec![String::new()];
        }
        let all = if self.eat('(') {
            let all = self.choice();
            assert!(self.eat(')'), "{}", self.rest);
            all
        } else if self.eat('"') {
            let word = self.rest.strip_prefix("\\\"").map(|rest| ("\"", rest));
            let (word, rest) = word.unwrap_or_else(|| self.rest.split_at(self.rest.find('"').unwrap()));
            self.rest = rest.strip_prefix('"').unwrap();
            vec![word.to_owned()]
        } else {
            let end = self.rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap();
            let (name, rest) = self.rest.split_at(end);
            self.rest = rest;
            assert!(["blank", "LETTER", "ASCII_DIGIT", "ASCII_ALPHANUMERIC"].contains(&name), "`{name}`");
            vec![" ".to_owned()]
        };
        match (self.eat('*') || self.eat('?'), self.eat('+')) {
            (true, _) => vec![String::new()],
            _ => all,
        }
    }
}

#[test]
fn the_grammar_and_the_table_know_the_same_spellings() {
    let mut grammar: Vec<String> =
        ["unit", "inch", "foot", "degree", "percent"].into_iter().flat_map(Spellings::of).collect();
    for again in ["foot_word", "inch_word"].into_iter().flat_map(Spellings::of) {
        assert!(grammar.contains(&again), "`{again}` is no unit by itself");
    }
    let mut table: Vec<&str> = UNITS.iter().flat_map(|unit| unit.spellings).copied().collect();
    grammar.sort_unstable();
    table.sort_unstable();
    assert_eq!(grammar, table);
}

#[test]
fn every_spelling_is_read_as_its_unit() {
    for unit in UNITS {
        for spelling in unit.spellings {
            let word = spelling.starts_with(|c: char| c.is_ascii_alphabetic());
            let apart = word.then(|| format!("2.5 {spelling}"));
            for text in std::iter::once(format!("2.5{spelling}")).chain(apart) {
                let [measure] = read_limits(&[&text]).try_into().unwrap();
                let read: &Unit = measure.style.unit();
                assert_eq!(read, unit, "{text}");
                assert_eq!((measure.value, measure.dimension), (2.5 * unit.scale, unit.dimension), "{text}");
            }
        }
    }
}
