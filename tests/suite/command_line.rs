//! The binary as its user runs it: exit codes, messages, bad input of every sort.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A folder of its own for each test, gone afterwards.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("pitchboard-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).expect("a folder");
        Self(path)
    }

    fn file(&self, name: &str, text: impl AsRef<[u8]>) -> String {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().expect("parent")).expect("folder");
        fs::write(&path, text).expect("written");
        path.to_string_lossy().into_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn run(arguments: &[&str]) -> (i32, String) {
    told(&command(arguments).output().expect("runs"))
}

fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pitchboard"));
    command.args(arguments).env("LC_ALL", "C.UTF-8").env("COLUMNS", "100").env_remove("NO_COLOR");
    command.current_dir(Path::new(env!("CARGO_MANIFEST_DIR")));
    command
}

fn told(output: &Output) -> (i32, String) {
    let text = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    (output.status.code().expect("no signal"), text)
}

const GOOD: &str = "stair \"punt landing\" {\n  rules: residential\n  flight { risers: 2 of 7\"; runs: 10\"; width: 36\" }\n  wall left, right { }\n  tread { slope: level }\n}\n";

#[test]
fn a_sound_design_exits_with_0_and_a_broken_one_with_1() {
    let folder = Folder::new("exit");
    let good = folder.file("good.stair", GOOD);
    let (code, text) = run(&["check", &good]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("nothing broken"), "{text}");
    assert!(text.contains("no permit and no approval"), "{text}");
    let bad = folder.file("bad.stair", GOOD.replace("2 of 7\"", "2 of 8\""));
    let (code, text) = run(&["check", &bad]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("height is 8\", shall be at most 7-3/4\": 1/4\" too much"), "{text}");
    assert!(text.contains("IRC 2021, R311.7.5.1"), "{text}");
}

#[test]
fn advice_does_not_break_and_strict_counts_what_was_not_checked() {
    let folder = Folder::new("strict");
    let rules = folder.file(
        "own.rules",
        "ruleset \"Own\" { }\nrule \"low\" { each riser should have height <= 6\"; source: \"common practice\" }\nrule \"wide\" { each flight shall have width >= 30\"; source: \"common practice\" }\n",
    );
    let design = folder.file("a.stair", "stair \"a\" { flight { risers: 2 of 7\" } }");
    let (code, text) = run(&["check", "--rules", &rules, &design]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("advised: low"), "{text}");
    assert!(text.contains("1 rule not checked"), "{text}");
    let (code, text) = run(&["check", "--strict", "--rules", &rules, &design]);
    assert_eq!(code, 1, "{text}");
    let (_, text) = run(&["check", "--unsettled", "--rules", &rules, &design]);
    assert!(text.contains("`width` of flight: wide;"), "{text}");
}

#[test]
fn one_bad_file_hides_no_other() {
    let folder = Folder::new("bad-input");
    folder.file("good.stair", GOOD);
    folder.file("latin1.stair", b"stair \"caf\xe9\" { }");
    folder.file("empty.stair", "");
    folder.file("blank.stair", " \n\n");
    folder.file("braces.stair", "{".repeat(100_000));
    folder.file("round.stair", "(".repeat(100_000));
    folder.file("unclosed.stair", "stair \"a\" {\n  rules: residential\n  flight { risers: 3 of 8\"\n");
    folder.file("line.stair", "x".repeat(900_000));
    let huge = fs::File::create(folder.0.join("huge.stair")).expect("created");
    huge.set_len(50 << 20).expect("sparse");
    folder.file("line10.stair", "y".repeat(10 << 20));
    let (code, text) = run(&["check", folder.0.to_str().expect("utf-8")]);
    assert_eq!(code, 2, "{text}");
    for word in ["not text", "nothing in it", "nested too deep", "unclosed brace", "too large", "not a statement"] {
        assert!(text.contains(word), "`{word}` is not told in\n{text}");
    }
    assert!(text.contains("good.stair: nothing broken"), "{text}");
    assert!(text.contains("height is 8\""), "the unclosed design is still held to its rules\n{text}");
    // Round brackets open nothing in a design; they are no statement and nest nothing.
    assert_eq!(text.matches("nested too deep").count(), 1, "{text}");
    assert!(text.contains("round.stair: 1 statement not understood"), "{text}");
}

#[test]
fn what_is_not_there_is_told() {
    let (code, text) = run(&["check", "no-such-file.stair"]);
    assert_eq!(code, 2);
    assert!(text.contains("there is no such file"), "{text}");
    let folder = Folder::new("bare");
    let (code, text) = run(&["check", folder.0.to_str().expect("utf-8")]);
    assert_eq!(code, 2);
    assert!(text.contains("no designs"), "{text}");
    let bad = folder.file("a.stair", GOOD.replace("rules: residential", "rules: residental"));
    let (code, text) = run(&["check", &bad]);
    assert_eq!(code, 2);
    assert!(text.contains("unknown ruleset") && text.contains("residential"), "{text}");
    let none = folder.file("b.stair", GOOD.replace("rules: residential", ""));
    let (code, text) = run(&["check", &none]);
    assert_eq!(code, 2);
    assert!(text.contains("no rules asked for"), "{text}");
    assert_eq!(run(&["chek"]).0, 2);
    assert_eq!(run(&["check", "--wide"]).0, 2);
}

#[cfg(unix)]
#[test]
fn a_loop_of_links_ends() {
    let folder = Folder::new("loop");
    folder.file("sub/good.stair", GOOD);
    std::os::unix::fs::symlink(&folder.0, folder.0.join("sub/again")).expect("linked");
    let (code, text) = run(&["check", folder.0.to_str().expect("utf-8")]);
    assert_eq!(code, 0, "{text}");
    assert_eq!(text.matches("good.stair: nothing broken").count(), 1, "{text}");
}

#[test]
fn impossible_figures_are_told_at_their_words() {
    let folder = Folder::new("figures");
    let text = GOOD.replace("width: 36\"", "width: 1/0\"").replace("runs: 10\"", "runs: 99999999999999'");
    let (code, text) = run(&["check", &folder.file("a.stair", text)]);
    assert_eq!(code, 1, "{text}");
    assert_eq!(text.matches("not understood: impossible number").count(), 2, "{text}");
    assert!(text.contains("1/0\"") && text.contains("99999999999999'"), "{text}");
}

#[test]
fn standard_input_is_a_design_and_colour_comes_only_when_asked() {
    let mut child = command(&["check", "-"]).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("runs");
    child.stdin.take().expect("piped").write_all(GOOD.replace("2 of 7\"", "2 of 8\"").as_bytes()).expect("written");
    let (code, text) = told(&child.wait_with_output().expect("ends"));
    assert_eq!(code, 1, "{text}");
    assert!(!text.contains('\x1b'), "piped output is plain\n{text}");
    let folder = Folder::new("colour");
    let bad = folder.file("bad.stair", GOOD.replace("2 of 7\"", "2 of 8\""));
    assert!(run(&["check", "--colour", "always", &bad]).1.contains('\x1b'));
}

#[test]
fn control_characters_of_a_file_never_reach_the_terminal() {
    let folder = Folder::new("control");
    let text =
        "stair \"a\x1b[31m\u{202e}b\" {\n  rules: residential\n  colour\x07: red\n  flight { risers: 3 of 8\" }\n}\n";
    let (code, text) = run(&["check", &folder.file("a.stair", text)]);
    assert_eq!(code, 1, "{text}");
    let raw = |c: char| c.is_control() && c != '\n' || ('\u{202a}'..='\u{202e}').contains(&c);
    assert!(!text.contains(raw), "{text:?}");
}

#[test]
fn the_sets_prove_themselves() {
    let (code, text) = run(&["rules", "--prove"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("Residential stairs: ") && text.contains("all as expected"), "{text}");
    assert!(!text.contains("without a "), "every rule has a passing and a failing example\n{text}");
    let folder = Folder::new("prove");
    let wrong = folder.file(
        "wrong.rules",
        "ruleset \"Wrong\" { }\nrule \"r\" {\n  limit most: 7\"\n  each riser shall have height <= most\n  source: \"common practice\"\n  passes: flight { risers: 8\" }\n}\n",
    );
    let (code, text) = run(&["rules", &wrong, "--prove"]);
    assert_eq!(code, 1, "{text}");
    assert!(text.contains("this example should pass; 0 risers passed, 1 failed"), "{text}");
    assert!(text.contains("For riser 1, `height <= most`, that is 8\" <= 7\", does not hold."), "{text}");
}

const COUNTY: &str = "tests/cases/rules/marsh-county.rules";

/// A set of the shop's own, and what it was last year.
const LAST_YEAR: &str = r#"ruleset "Last year" { basis: "our bench"; edition: "2025"; caution: "No permit." }
chapter "Steps" {
    rule "low risers" { limit most: 7-1/2"; each riser shall have height <= most; source: "common practice" }
    rule "deep treads" { limit least: 10"; each tread should have run >= least; source: "common practice" }
    rule "posts | rails" { limit few: 1; each flight where number of risers > few shall have width >= 30"; source: "a | b" }
    rule "gone" { each flight shall have width >= 30"; source: "common practice" }
    rule "same" { each flight shall have width >= 28"; source: "common practice" }
}
"#;
const THIS_YEAR: &str = r#"ruleset "This year" { basis: "our bench"; edition: "2026"; caution: "No permit." }
chapter "Steps" {
    rule "low risers" { limit most: 7"; each riser shall have height <= most; source: "common practice" }
    rule "deep treads" { limit least: 10"; each tread shall have run >= least; source: "the master"; sure: memory }
    rule "posts | rails" { limit few: 2; each flight where number of risers > few shall have width >= 30"; source: "a | b" }
    rule "come" { each flight shall have width <= 60"; source: "common practice" }
    rule "same" { each flight   shall have width ≥ 28"; source: "common practice" }
}
"#;

#[test]
fn a_set_is_listed_with_limits_sources_and_what_was_amended() {
    let (code, text) = run(&["rules", COUNTY]);
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "Basis: County ordinance 14 (an invented example)",
        "Risers and runs",
        "riser height shall riser tallest 7-1/2\"",
        "shall have height <= tallest",
        " on memory: look ",
    ] {
        assert!(words.contains(said), "`{said}` is not told in\n{text}");
    }
    let row = text.lines().skip_while(|line| !line.contains("riser height")).take(4).collect::<Vec<_>>().join(" ");
    let row = row.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(row.contains("Ordinance 14-3"), "{text}");
    assert!(text.contains("set by Marsh County") && text.contains("7-3/4\" (196"), "{text}");
    assert!(text.contains("from memory"), "{text}");
}

#[test]
fn a_set_is_listed_as_markdown() {
    let folder = Folder::new("markdown");
    let (code, text) = run(&["rules", &folder.file("own.rules", THIS_YEAR), "--markdown"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("## Steps\n\n| rule | verb | applies to | limits | source | how sure | clause |"), "{text}");
    assert!(text.contains("\n| posts \\| rails | shall | flight | `few 2` | a \\| b |"), "{text}");
    assert!(text.contains("| the master | from memory |"), "{text}");
    assert!(text.contains("Edition: 2026") && text.contains("our bench") && text.contains("No permit."), "{text}");
    let cells = |line: &str| line.replace("\\|", "").matches('|').count();
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with('|')).collect();
    assert!(rows.len() == 7 && rows.iter().all(|row| cells(row) == 8), "{text}");
}

#[test]
fn a_proof_names_the_rules_that_lack_a_fragment() {
    let folder = Folder::new("bare-rules");
    let rules = folder.file(
        "bare.rules",
        "ruleset \"Bare\" { }\nrule \"low\" {\n  each riser shall have height <= 7\"\n  source: \"common practice\"\n  passes: flight { risers: 7\" }\n}\nrule \"wide\" { each flight shall have width >= 30\"; source: \"common practice\" }\n",
    );
    let (code, text) = run(&["rules", &rules, "--prove"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("without a passing example: wide") && text.contains("bare.rules:7"), "{text}");
    assert!(text.contains("without a failing example: low") && text.contains("bare.rules:3"), "{text}");
    let last = text.lines().last().unwrap_or_default();
    assert_eq!(
        last,
        "Bare: 2 rules, 1 example, all as expected; 1 rule lacks a passing example, 2 rules lack a failing one"
    );
    let (code, text) = run(&["rules", &rules, "--prove", "--strict"]);
    assert_eq!(code, 1, "{text}");
    assert_eq!(run(&["rules", &rules, "--strict"]).0, 2, "strict is a word of the proof");
}

#[test]
fn two_sets_are_compared_rule_by_rule() {
    let folder = Folder::new("compare");
    let (old, new) = (folder.file("old.rules", LAST_YEAR), folder.file("new.rules", THIS_YEAR));
    let (code, text) = run(&["compare", &old, &new]);
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "low risers limit most 7-1/2\" 7\" tighter",
        "deep treads verb should shall tighter",
        "source common practice the master",
        "posts | rails limit few 1 2 looser",
        "1 rule alike, 3 differ, 1 only in the first, 1 only in the second",
    ] {
        assert!(words.contains(said), "`{said}` is not told in\n{text}");
    }
    assert!(!text.contains("same"), "what is alike is counted, not listed\n{text}");
    let (code, text) = run(&["compare", &old, &old]);
    assert_eq!((code, text.contains("5 rules alike, 0 differ")), (0, true), "{text}");
    let (code, text) = run(&["compare", &old, &new, "--markdown"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("| posts \\| rails | limit few | 1 | 2 | looser |"), "{text}");
    let (code, text) = run(&["compare", &old, "no-such.rules"]);
    assert_eq!((code, text.contains("there is no such file")), (2, true), "{text}");
}

#[test]
fn a_comparison_says_whose_outcome_changes() {
    let folder = Folder::new("compare-designs");
    let (old, new) = (folder.file("old.rules", LAST_YEAR), folder.file("new.rules", THIS_YEAR));
    let design = "stair \"a\" { flight { risers: 3 of 7\"; runs: 2 of 10\"; width: 36\" } }\n";
    folder.file("designs/even.stair", design);
    folder.file("designs/tall.stair", design.replace("3 of 7\"", "3 of 7-1/4\""));
    let measured = format!("{design}measured \"a\" {{ on: 2026-05-04; risers: 7\", 7-1/4\", 6-3/4\" }}\n");
    folder.file("designs/settled.stair", measured);
    let designs = folder.0.join("designs").to_string_lossy().into_owned();
    let (code, text) = run(&["compare", &old, &new, &designs]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("tall.stair: low risers of riser 1, riser 2 and riser 3  passes -> broken\n"), "{text}");
    assert!(text.contains("settled.stair: low risers of riser 2, as measured  passes -> broken\n"), "{text}");
    assert!(!text.contains("even.stair"), "{text}");
    assert!(text.ends_with("3 designs: 2 with a change; 2 outcomes change: 2 to broken\n"), "{text}");
    let (code, text) = run(&["compare", &old, &new, &designs, "--must-agree"]);
    assert_eq!(code, 1, "{text}");
    assert_eq!(run(&["compare", &old, &old, &designs, "--must-agree"]).0, 0);
    let (code, text) = run(&["compare", &old, &new, "no-such.stair"]);
    assert_eq!((code, text.contains("there is no such file")), (2, true), "{text}");
}

#[test]
fn a_rule_is_explained_for_one_thing() {
    let folder = Folder::new("explain");
    folder.file("marsh-county.rules", fs::read_to_string(COUNTY).expect("the county's set"));
    let design = folder.file(
        "hide.stair",
        "stair \"hide\" {\n  rules: \"marsh-county.rules\"\n  flight { risers: 7\", 7-5/8\", 7\"; runs: 2 of 10\" }\n}\n",
    );
    let (code, text) = run(&["working", &design, "riser 2", "riser height"]);
    assert_eq!(code, 0, "{text}");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "height of riser 2 = 7-5/8\"",
        "riser height of riser 2: broken",
        "shall have height <= tallest",
        "shall have 7-5/8\" <= 7-1/2\"",
        "shall height <= tallest, that is 7-5/8\" <= 7-1/2\": does not hold, by 1/8\"",
        "limit tallest is 7-1/2\", set by Marsh County",
        "in place of 7-3/4\" (196 mm), set by Residential stairs (built-in residential:",
        "source Ordinance 14-3",
        "because A tall step tires the climber",
    ] {
        assert!(words.contains(said), "`{said}` is not told in\n{text}");
    }
    let outcome = |thing: &str, rule: &str| {
        let (code, text) = run(&["working", &design, thing, rule]);
        assert_eq!(code, 0, "{text}");
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(outcome("riser 1", "riser height").contains("riser height of riser 1: passes"));
    let spared = outcome("flight", "handrail needed");
    assert!(spared.contains("handrail needed of flight: does not apply"), "{spared}");
    assert!(spared.contains("where number of risers > few risers, that is 3 > 3: does not hold"), "{spared}");
    let open = outcome("flight", "clear width");
    assert!(open.contains("clear width of flight: not checked") && open.contains("needs `width` of flight"), "{open}");
    let (code, text) = run(&["working", &design, "riser 2", "riser heigth"]);
    assert_eq!((code, text.contains("Did you mean `riser height`?")), (2, true), "{text}");
    let (code, text) = run(&["working", &design, "flight", "riser height"]);
    assert_eq!((code, text.contains("holds each riser")), (2, true), "{text}");
}

#[test]
fn the_reference_is_printed_from_the_tables() {
    let (code, text) = run(&["reference", "guard"]);
    assert_eq!(code, 0, "{text}");
    for said in ["balusters", "2x2 every 5\"", "triangle opening", "inscribed circle", "bottom gap"] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
    assert!(!text.contains("\ntread\n"), "{text}");
    let (code, text) = run(&["reference"]);
    assert!(code == 0 && text.contains("\ntread\n"), "{text}");
    for said in ["No `ground` is drawn", "7-3/8\"", "largest change of", "spares", "pitchboard check"] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
    let (code, text) = run(&["reference", "gard"]);
    assert_eq!((code, text.contains("did you mean `guard`?")), (2, true), "{text}");
    let (code, text) = run(&["reference", "tread", "--markdown"]);
    assert_eq!((code, text.contains("\n| `nosing` | ")), (0, true), "{text}");
}

#[test]
fn the_guide_is_printed_a_topic_at_a_time() {
    let (code, text) = run(&["guide"]);
    assert_eq!(code, 0, "{text}");
    for said in ["  design ", "  ci ", "  adapt ", "  changes "] {
        assert!(text.contains(said), "`{said}` is not listed in\n{text}");
    }
    let (code, text) = run(&["guide", "Design"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.starts_with("# The design language\n") && text.contains("\n```text\nstair "), "{text}");
    for note in ["<!--", "]: ", "]["] {
        assert!(!text.contains(note), "`{note}` is for other readers\n{text}");
    }
    let (code, text) = run(&["guide", "wokrings"]);
    assert_eq!((code, text.contains("did you mean `workings`?")), (2, true), "{text}");
    let (code, text) = run(&["guide", "plumbing"]);
    assert_eq!((code, text.contains("there are design, ")), (2, true), "{text}");
}

#[test]
fn a_working_shows_formula_numbers_and_source() {
    let design = "examples/sedge-cabin-north-door.stair";
    let (code, text) = run(&["working", design, "guard left", "triangle opening"]);
    assert_eq!(code, 0, "{text}");
    // stair-worked examples: R 7, T 10-1/4, N 1, rail 1/2 square to the slope: 5.728 (arithmetic, brute force).
    assert!(text.contains("triangle opening of guard left = 5.728\""), "{text}");
    assert!(text.contains("stated   bottom gap of guard left: 1/2\""), "{text}");
    assert!(text.contains("source   inscribed circle"), "{text}");
    let (code, text) = run(&["working", design, "guard lift"]);
    assert_eq!(code, 2);
    assert!(text.contains("Did you mean `guard left`?"), "{text}");
}

#[test]
fn every_command_helps_with_an_example() {
    for command in ["", "check", "working", "rules", "compare", "reference", "guide"] {
        let asked: Vec<&str> = [command, "--help"].into_iter().filter(|word| !word.is_empty()).collect();
        let (code, text) = run(&asked);
        assert_eq!(code, 0);
        assert!(text.contains("Example"), "{text}");
    }
}

/// What a shop's file states for the designs below it, and what wins over it.
#[test]
fn a_shops_file_is_found_from_a_design_and_gives_way() {
    let folder = Folder::new("shop");
    folder.file("yard/shop.pitchboard", "shop \"Marsh joinery\" { rules: \"sets/low.rules\"; longest bit: 6\" }\nfolder cabins { rules: \"sets/steep.rules\" }\n");
    let set = |name: &str, most: &str| {
        format!(
            "ruleset \"{name}\" {{ }}\nrule \"low\" {{ each riser shall have height <= {most}; source: \"common practice\" }}\nrule \"bit\" {{ each stair shall have longest bit >= 5\"; source: \"common practice\" }}\n"
        )
    };
    folder.file("yard/sets/low.rules", set("Low", "6\""));
    folder.file("yard/sets/steep.rules", set("Steep", "9\""));
    let design = "stair \"a\" { flight { risers: 2 of 7\" } }\n";
    let top = folder.file("yard/a.stair", design);
    let cabin = folder.file("yard/cabins/deep/a.stair", design);
    let (code, text) = run(&["check", &top]);
    assert_eq!(code, 1, "{text}");
    assert!(
        text.contains("checked against Low") && text.contains("shop.pitchboard: rules sets/low.rules, longest bit"),
        "{text}"
    );
    assert!(text.contains("1 rule broken, 1 passed"), "{text}");
    let (code, text) = run(&["check", &cabin]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("checked against Steep"), "{text}");
    // The design's own words win over the shop's, but for its sets: to those it only adds.
    let own = folder.file(
        "yard/cabins/own.stair",
        "stair \"a\" { rules: \"../sets/low.rules\"; longest bit: 4\"; flight { risers: 2 of 7\" } }\n",
    );
    let (_, text) = run(&["check", &own]);
    for said in [
        "checked against Low",
        "checked against Steep",
        "3 rules broken",
        "pitchboard: rules sets/steep.rules, not its",
    ] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
    assert!(!text.contains("longest bit\n"), "{text}");
    // The command line's word on sets wins over both.
    let steep = folder.0.join("yard/sets/steep.rules");
    let (code, text) = run(&["check", "--rules", steep.to_str().expect("utf-8"), &top]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("checked against Steep") && text.contains("shop.pitchboard: longest bit"), "{text}");
    // From inside the folder, and from standard input there.
    let inside = command(&["check", "a.stair"]).current_dir(folder.0.join("yard/cabins/deep")).output().expect("runs");
    let (code, text) = told(&inside);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("from ../../shop.pitchboard: rules"), "{text}");
    let (code, text) = run(&["working", &top, "stair"]);
    assert_eq!(code, 0, "{text}");
    // A rule of the shop's sets is explained, with the words of the shop's file that it reads.
    let (code, text) = run(&["working", &cabin, "stair", "bit"]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("set      Steep") && text.contains("6\" >= 5\""), "{text}");
}

/// A shop's file that cannot be read is told, and the design is still read.
#[test]
fn a_shops_file_that_is_no_text_is_told() {
    let folder = Folder::new("bad-shop");
    folder.file("shop.pitchboard", b"shop \"caf\xe9\" { }");
    let design = folder.file("a.stair", "stair \"a\" { rules: residential; flight { risers: 2 of 8\" } }\n");
    let (code, text) = run(&["check", &design]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("unchecked: not text") && text.contains("shop.pitchboard"), "{text}");
    assert!(text.contains("broken: riser height"), "{text}");
}

const LOOSE: &str = "stair \"a\"{\nrules:residential   \n\n\n  flight { risers: 2 of 7\" } }";
const TIDY: &str = "stair \"a\" {\n    rules: residential\n\n    flight { risers: 2 of 7\" } }\n";

#[test]
fn tidy_writes_what_is_not_tidy_and_check_writes_nothing() {
    let folder = Folder::new("tidy");
    let design = folder.file("hides/a.stair", LOOSE);
    let rules = folder.file("sets/a.rules", "ruleset \"Own\"{\nedition: \"2026\"}\n");
    let shop = folder.file("shop.pitchboard", "shop{longest bit: 12\"}");
    let own = folder.file("sets/b.rules", "ruleset \"Own\" { }\n");
    let others = ["notes.txt", ".old/a.stair", "target/a.stair"].map(|name| folder.file(name, LOOSE));
    let all = folder.0.to_str().expect("utf-8");
    let read = |path: &str| fs::read_to_string(path).expect("text");

    let (code, text) = run(&["tidy", "--check", all]);
    assert_eq!((code, read(&design).as_str()), (1, LOOSE), "{text}");
    assert!(text.contains("hides/a.stair: not tidy in lines 1 to 2, 5\n"), "{text}");
    assert!(text.contains("4 files: 1 tidy, 3 not tidy\n"), "{text}");

    let (code, text) = run(&["tidy", all]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("hides/a.stair: tidied\n") && text.contains("4 files: 1 tidy, 3 tidied\n"), "{text}");
    assert_eq!(read(&design), TIDY);
    assert_eq!(read(&rules), "ruleset \"Own\" {\n    edition: \"2026\" }\n");
    assert_eq!(read(&shop), "shop { longest bit: 12\" }\n");
    assert_eq!(read(&own), "ruleset \"Own\" { }\n");
    assert!(others.iter().all(|path| read(path) == LOOSE));
    let names = |folder: &Path| fs::read_dir(folder).expect("readable").count();
    assert_eq!(names(&folder.0.join("hides")) + names(&folder.0.join("sets")), 3, "nothing is left beside a file");

    let passed = "passed over: 2 files or folders (1 hidden, 1 called target)\n";
    assert_eq!(run(&["tidy", "--check", all]), (0, format!("{passed}4 files: 4 tidy\n")));
    // A file that is tidy is not written at all.
    let written = |path: &str| fs::metadata(path).and_then(|about| about.modified()).expect("a time");
    let before = written(&design);
    assert_eq!((run(&["tidy", &design]), written(&design)), ((0, String::new()), before));
}

/// Standard input goes to standard output as it is, whatever a log would make of it, and what is said goes beside it.
#[test]
fn tidy_hands_standard_input_on() {
    let tidied = |arguments: &[&str], text: &str| {
        let mut command = command(arguments);
        let mut child =
            command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("runs");
        child.stdin.take().expect("piped").write_all(text.as_bytes()).expect("written");
        let output = child.wait_with_output().expect("ends");
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).expect("text");
        (output.status.code().expect("no signal"), text(&output.stdout), text(&output.stderr))
    };
    assert_eq!(tidied(&["tidy", "-"], LOOSE), (0, TIDY.to_owned(), String::new()));
    let log = "stair {\n# x\n  note:  \"\n::error::x\n}\n";
    let (code, text, said) = tidied(&["tidy", "-"], log);
    assert_eq!((code, text.as_str()), (1, "stair {\n    # x\n    note:  \"\n    ::error::x\n}\n"));
    assert_eq!(said, "standard input: not understood, and left as it is: lines 3 to 4\n");
    let rule = "rule \"r\"{\neach riser shall have height<=7\"\n}\n";
    let meant = "rule \"r\" {\n    each riser shall have height <= 7\"\n}\n";
    assert_eq!(tidied(&["tidy", "--language", "rules", "-"], rule), (0, meant.to_owned(), String::new()));
    let (code, text, _) = tidied(&["tidy", "--check", "-"], LOOSE);
    assert_eq!((code, text.as_str()), (1, "standard input: not tidy in lines 1 to 2, 5\n"));
    let (code, text, _) = tidied(&["tidy", "--lines", "2-3", "-"], LOOSE);
    assert_eq!((code, text.as_str()), (0, "stair \"a\"{\n    rules: residential\n\n  flight { risers: 2 of 7\" } }"));
    assert_eq!(tidied(&["tidy", "--lines", "90", "-"], LOOSE), (0, LOOSE.to_owned(), String::new()));
    for wrong in ["0", "3-2", "x", "-", "1-x"] {
        assert_eq!(run(&["tidy", &format!("--lines={wrong}"), "-"]).0, 2, "{wrong}");
    }
}

#[test]
fn what_cannot_be_read_hides_nothing_from_tidy() {
    let folder = Folder::new("tidy-bad");
    let slip = folder.file("a.stair", "stair{\nrules  residential\nwidth:36\" }\n");
    let latin = folder.file("b.stair", b"stair \"caf\xe9\" { }");
    let good = folder.file("c.stair", LOOSE);
    let (code, text) = run(&["tidy", folder.0.to_str().expect("utf-8")]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("a.stair: not understood, and left as it is: line 2\n"), "{text}");
    assert!(
        text.contains("not text") && text.contains("3 files: 0 tidy, 2 tidied, 1 not read or not written"),
        "{text}"
    );
    assert_eq!(fs::read_to_string(&slip).expect("text"), "stair {\n    rules  residential\n    width: 36\" }\n");
    assert_eq!(fs::read(&latin).expect("bytes"), b"stair \"caf\xe9\" { }");
    assert_eq!(fs::read_to_string(&good).expect("text"), TIDY);
    assert_eq!(run(&["tidy", &slip]).0, 1, "what is left as it is counts, tidy or not");
    assert_eq!(run(&["tidy", "no-such-file.stair"]).0, 2);
}

#[cfg(unix)]
#[test]
fn a_file_that_cannot_be_written_stays_as_it_was() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new("tidy-shut");
    let design = folder.file("a.stair", LOOSE);
    let mode = |path: &Path, mode| fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("set");
    let stays = |why: &str, (code, text): (i32, String)| {
        assert_eq!(code, 2, "{text}");
        assert!(text.contains(&format!("a.stair was left as it is: {why}\n")), "{text}");
        assert_eq!(text.lines().count(), 1, "{text}");
        assert_eq!(fs::read_to_string(&design).expect("text"), LOOSE);
        assert_eq!(fs::read_dir(&folder.0).expect("readable").count(), 1);
    };
    mode(Path::new(&design), 0o444);
    stays("there is no permission to write it", run(&["tidy", &design]));
    mode(Path::new(&design), 0o640);
    mode(&folder.0, 0o555);
    stays("there is no permission to write in its folder", run(&["tidy", &design]));
    mode(&folder.0, 0o755);
    // As on a disk that is full: nothing can be written past the first byte.
    let script = "trap '' XFSZ; ulimit -f 0; exec \"$0\" tidy \"$1\"";
    let mut full = Command::new("sh");
    full.args(["-c", script, env!("CARGO_BIN_EXE_pitchboard"), &design]);
    stays("the disk is full, or no more of it may be taken", told(&full.output().expect("runs")));
    let (code, text) = run(&["tidy", &design]);
    assert_eq!((code, fs::read_to_string(&design).expect("text").as_str()), (0, TIDY), "{text}");
    assert_eq!(fs::metadata(&design).expect("about").permissions().mode() & 0o777, 0o640);
}
