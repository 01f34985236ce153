//! What a design, a set or a folder of another person may not bring about: a fault that costs other designs their
//! reports, a file read or shown that the command line did not name, a run that waits, a line that a log obeys.
//!
//! The binary is run as its user runs it, in folders made for each test.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// No run of these few files takes as long, unless it waits for something.
const WAITS: Duration = Duration::from_secs(60);
/// What no report may show.
const SECRET: &str = "tide-table-of-the-marsh";

/// A folder of its own for each test, gone afterwards. It is a repository, so that nothing above it counts.
struct Yard(PathBuf);

impl Yard {
    fn new() -> Self {
        static NEXT: AtomicUsize = AtomicUsize::new(0);
        let name = format!("pitchboard-hostile-{}-{}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
        let path = std::env::temp_dir().join(name);
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(path.join("yard/.git")).unwrap();
        Self(path)
    }

    fn put(&self, name: &str, text: impl AsRef<[u8]>) -> &Self {
        let path = self.at(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, text).unwrap();
        self
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.join("yard").join(name)
    }

    #[cfg(unix)]
    fn link(&self, to: impl AsRef<Path>, name: &str) -> &Self {
        fs::create_dir_all(self.at(name).parent().unwrap()).unwrap();
        std::os::unix::fs::symlink(to, self.at(name)).unwrap();
        self
    }

    fn run(&self, arguments: &[&str]) -> (i32, String) {
        self.run_in("", arguments)
    }

    /// Runs the tool in a folder of the yard. A run that waits is ended, and fails.
    fn run_in(&self, folder: &str, arguments: &[&str]) -> (i32, String) {
        let out = self.0.join("out.txt");
        let file = fs::File::create(&out).unwrap();
        let mut child = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
            .args(arguments)
            .env("LC_ALL", "C.UTF-8")
            .env("COLUMNS", "100")
            .env_remove("NO_COLOR")
            .current_dir(self.at(folder))
            .stdin(Stdio::null())
            .stderr(file.try_clone().unwrap())
            .stdout(file)
            .spawn()
            .unwrap();
        let began = Instant::now();
        let code = loop {
            if let Some(ended) = child.try_wait().unwrap() {
                break ended.code().expect("no signal");
            }
            if began.elapsed() > WAITS {
                child.kill().unwrap();
                panic!("{arguments:?} waits");
            }
            std::thread::sleep(Duration::from_millis(5));
        };
        (code, String::from_utf8_lossy(&fs::read(&out).unwrap()).into_owned())
    }
}

impl Drop for Yard {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn design(rules: &str) -> String {
    format!("stair \"hide\" {{ rules: {rules}; flight {{ risers: 3 of 8\"; runs: 2 of 10\"; width: 36\" }} }}\n")
}

const BARE: &str = "stair \"hide\" { flight { risers: 3 of 8\"; runs: 2 of 10\"; width: 36\" } }\n";

fn set(title: &str, most: &str) -> String {
    format!(
        "ruleset \"{title}\" {{ }}\nrule \"low riser\" {{ each riser shall have height <= {most}; source: \"common practice\" }}\n"
    )
}

fn shop(rules: &str) -> String {
    format!("shop \"Marsh joinery\" {{ rules: {rules} }}\n")
}

/// Words of a report, however its lines are broken.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

// One design's fault.

/// A mend tries a negative run, so that the flight ends before it begins.
#[test]
fn a_mend_may_try_a_flight_that_goes_backwards() {
    let yard = Yard::new();
    yard.put(
        "back.stair",
        "stair \"p\" { rules: residential; flight { risers: 4 of 6-1/2\"\nruns: 10\", 10-1/2\", 10\"; ceiling { height: 60\"; slope: 1 in 48 } } }\n",
    );
    yard.put("beside.stair", design("residential"));
    let (code, text) = yard.run(&["check", "."]);
    assert_eq!(code, 1, "{text}");
    for said in ["back.stair: ", "broken: headroom", "beside.stair: 1 rule broken"] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
}

/// Should the checker fail on a design all the same, it costs that design.
#[test]
fn a_fault_of_the_checker_is_a_refusal_of_one_design() {
    let source = pitchboard::Source::new("a.stair", "stair { }");
    let refused = pitchboard::cli::unharmed(&source, || -> u8 { panic!("a fault") }).unwrap_err();
    assert_eq!((&*refused.source.name, refused.name()), ("a.stair", "unreadable"));
    assert!(refused.severity() == pitchboard::Severity::Unchecked);
    assert_eq!(pitchboard::cli::unharmed(&source, || 7).unwrap(), 7);
}

// The rule of trust.

/// Whatever a design, a set or a shop's file names, by whichever way it leads out, is neither read nor shown.
#[test]
fn nothing_outside_of_the_root_is_read() {
    let secret = format!("{SECRET}\nrule \"{SECRET}\" {{ {SECRET}: 1 }}\n");
    let yard = Yard::new();
    fs::write(yard.0.join("outside.rules"), &secret).unwrap();
    fs::write(yard.0.join("outside.txt"), &secret).unwrap();
    yard.put("deep/below/secret.rules", &secret).put("secret.txt", &secret).put("deep/secret.rules", &secret);
    let absolute = yard.0.join("outside.rules").to_string_lossy().into_owned();
    let mut ways = vec![
        absolute.clone(),
        "../../../outside.rules".into(),
        "../secret.rules".into(),
        "../../secret.txt".into(),
        "./../secret.rules".into(),
        "below/../../secret.rules".into(),
        "none/../../secret.rules".into(),
        "/proc/self/environ".into(),
        "/etc/passwd".into(),
        "/dev/stdin".into(),
        "secret.txt/".into(),
    ];
    #[cfg(unix)]
    {
        yard.link(&absolute, "deep/here/link.rules").link("../..", "deep/here/up");
        yard.link("../secret.rules", "deep/here/near.rules").link("/proc/self/environ", "deep/here/env.rules");
        ways.extend(
            ["link.rules", "near.rules", "env.rules", "up/secret.txt", "up/deep/secret.rules"].map(String::from),
        );
    }
    for way in ways {
        yard.put("deep/here/a.stair", design(&format!("\"{way}\"")));
        let (code, text) = yard.run(&["check", "deep/here/a.stair"]);
        assert_eq!(code, 2, "{way}\n{text}");
        assert!(!text.contains(SECRET) && !text.contains("PATH="), "{way} is shown\n{text}");
        yard.put("deep/here/own.rules", format!("ruleset \"Own\" {{ amends: \"{way}\" }}\n"));
        yard.put("deep/here/a.stair", design("\"own.rules\""));
        let (code, text) = yard.run(&["check", "deep/here/a.stair"]);
        assert_eq!(code, 2, "amends {way}\n{text}");
        assert!(!text.contains(SECRET) && !text.contains("PATH="), "{way} is shown\n{text}");
        fs::create_dir_all(yard.at("deep/shop")).unwrap();
        yard.put("deep/here/shop.pitchboard", shop(&format!("\"{way}\""))).put("deep/here/a.stair", BARE);
        let (code, text) = yard.run(&["check", "deep/here/a.stair"]);
        assert_eq!(code, 2, "a shop's {way}\n{text}");
        assert!(!text.contains(SECRET) && !text.contains("PATH="), "{way} is shown\n{text}");
        fs::remove_file(yard.at("deep/here/shop.pitchboard")).unwrap();
    }
}

/// What is no ruleset is not quoted, whoever names it.
#[test]
fn a_file_that_is_no_ruleset_is_not_quoted() {
    let yard = Yard::new();
    let texts =
        [format!("{SECRET}\n"), format!("password: {SECRET}\n"), format!("{SECRET} {{ {SECRET}: 1\n"), "}\n".into()];
    for text in texts {
        yard.put("keys.rules", &text).put("a.stair", design("\"keys.rules\""));
        yard.put("over.rules", "ruleset \"Over\" { amends: \"keys.rules\" }\namend \"x\" { limit a: 1\" }\n");
        yard.put("b.stair", design("\"over.rules\""));
        for arguments in [
            ["check", "a.stair"].as_slice(),
            &["check", "b.stair"],
            &["check", "--rules", "keys.rules", "a.stair"],
            &["rules", "keys.rules"],
            &["rules", "keys.rules", "--prove"],
            &["compare", "keys.rules", "keys.rules"],
        ] {
            let (code, said) = yard.run(arguments);
            assert_eq!(code, 2, "{arguments:?}\n{said}");
            assert!(
                !said.contains(SECRET) && words(&said).contains("this file is no ruleset"),
                "{arguments:?}\n{said}"
            );
        }
    }
}

/// What a walk leaves out is said in one line; nothing is where nothing was left out.
#[test]
fn what_a_walk_passes_over_is_said() {
    let yard = Yard::new();
    yard.put("a.stair", BARE).put("shop.pitchboard", shop("\"low.rules\"")).put("low.rules", set("Low", "20\""));
    let (code, text) = yard.run(&["check"]);
    assert_eq!((code, text.contains("passed over")), (0, false), "{text}");
    yard.put(".draft.stair", BARE).put(".old/b.stair", BARE).put("target/c.stair", BARE).put(".gitignore", "x");
    yard.put("cabins/Shop.pitchboard", "");
    let (code, text) = yard.run(&["check"]);
    let line = "passed over, not read: 4 names (.draft.stair, .old, cabins/Shop.pitchboard and target)";
    assert_eq!((code, words(&text).contains(line)), (0, true), "{text}");
    // What is asked for by its name is read.
    let (code, text) = yard.run(&["check", ".old", ".draft.stair"]);
    assert_eq!((code, text.contains("passed over"), text.contains("2 files")), (0, false, true), "{text}");
}

/// The root is the nearest folder upwards that holds a shop's file; a repository ends the search.
#[test]
fn sets_are_had_from_below_the_root() {
    let yard = Yard::new();
    yard.put("sets/low.rules", set("Low", "7\"")).put("hides/a.stair", design("\"../sets/low.rules\""));
    let (code, text) = yard.run(&["check", "hides/a.stair"]);
    assert_eq!(code, 2, "without a shop's file the root is the design's own folder\n{text}");
    assert!(words(&text).contains("it lies outside of `hides`"), "{text}");
    // The command line may name any.
    let absolute = yard.at("sets/low.rules").to_string_lossy().into_owned();
    for named in ["sets/low.rules", &absolute] {
        assert_eq!(yard.run(&["check", "--rules", named, "hides/a.stair"]).0, 1);
    }
    // A shop's file outside of the repository does not make a root of what lies there.
    fs::write(yard.0.join("shop.pitchboard"), shop("workshop")).unwrap();
    assert_eq!(yard.run(&["check", "hides/a.stair"]).0, 2);
    yard.put("shop.pitchboard", shop("\"sets/low.rules\""));
    for (folder, path) in [("", "hides/a.stair"), ("hides", "a.stair"), ("sets", "../hides/a.stair"), ("hides", ".")] {
        let (code, text) = yard.run_in(folder, &["check", path]);
        assert_eq!(code, 1, "{folder} {path}\n{text}");
        assert!(text.contains("broken: low riser"), "{text}");
    }
    // A set of the root may amend another of it.
    yard.put("sets/over.rules", "ruleset \"Over\" { amends: \"../low.rules\" }\n").put("low.rules", set("Low", "7\""));
    yard.put("hides/a.stair", design("\"../sets/over.rules\""));
    assert_eq!(yard.run(&["check", "hides/a.stair"]).0, 1);
}

/// The outermost shop's file governs; one nearer only adds.
#[test]
fn a_nearer_shops_file_only_adds_sets() {
    let yard = Yard::new();
    yard.put("shop.pitchboard", shop("\"low.rules\"")).put("low.rules", set("Low", "7\""));
    yard.put("mine/shop.pitchboard", shop("\"lax.rules\"")).put("mine/lax.rules", set("Lax", "20\""));
    yard.put("mine/a.stair", BARE);
    let (code, text) = yard.run(&["check", "mine"]);
    assert_eq!(code, 1, "{text}");
    for said in ["broken: low riser", "checked against Low", "checked against Lax", "from shop.pitchboard: rules"] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
    yard.put("mine/lax.rules", set("Lax", "2\"")).put("low.rules", set("Low", "20\""));
    let (code, text) = yard.run(&["check", "mine"]);
    assert_eq!((code, text.contains("§ Lax")), (1, true), "{text}");
    // One that cannot be read spoils the check and hides nothing of the other.
    yard.put("mine/shop.pitchboard", "").put("low.rules", set("Low", "7\""));
    let (code, text) = yard.run(&["check", "mine"]);
    assert_eq!((code, text.contains("broken: low riser")), (2, true), "{text}");
}

/// The yard that is shipped as an example comes to the same from any folder of it.
#[test]
fn the_yard_works_from_any_folder_of_it() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/yard");
    let yard = Yard::new();
    for name in ["shop.pitchboard", "sets/marsh-county.rules", "cabins/teal-cabin.stair", "hides/snipe-hide.stair"] {
        yard.put(name, fs::read(root.join(name)).unwrap());
    }
    let outcome = |folder: &str, path: &str| {
        let (code, text) = yard.run_in(folder, &["check", path]);
        let counts =
            text.lines().filter_map(|line| line.split_once("cabin.stair: ")).map(|(_, counts)| counts.to_owned());
        (code, counts.collect::<Vec<_>>(), text.contains("checked against Marsh County"))
    };
    let whole = outcome("", ".");
    assert_eq!((whole.0, whole.1.len(), whole.2), (0, 1, true), "{whole:?}");
    let ways =
        [("cabins", "."), ("cabins", "teal-cabin.stair"), ("sets", "../cabins"), ("hides", ".."), ("", "cabins")];
    for (folder, path) in ways {
        assert_eq!(outcome(folder, path), whole, "{folder} {path}");
    }
}

/// A folder's walk keeps to the folder, whatever links lie in it.
#[cfg(unix)]
#[test]
fn links_that_lead_outside_are_refused() {
    let yard = Yard::new();
    fs::create_dir_all(yard.0.join("outside")).unwrap();
    fs::write(yard.0.join("outside/secret.stair"), format!("{SECRET}\n")).unwrap();
    fs::write(yard.0.join("outside/shop.pitchboard"), format!("{SECRET} {{\n")).unwrap();
    let outside = yard.0.join("outside");
    yard.put("in/good.stair", design("residential"));
    for (to, link) in [(outside.join("secret.stair"), "in/linked.stair"), (outside.clone(), "in/folder")] {
        yard.link(&to, link);
        let (code, text) = yard.run(&["check", "in"]);
        assert_eq!(code, 2, "{link}\n{text}");
        assert!(!text.contains(SECRET) && words(&text).contains(&format!("{link}: it lies outside of `in`")), "{text}");
        assert!(text.contains("in/good.stair: 1 rule broken"), "{text}");
        fs::remove_file(yard.at(link)).unwrap();
    }
    // The command line may name it.
    yard.link(outside.join("secret.stair"), "in/linked.stair");
    assert!(yard.run(&["check", "in/linked.stair"]).1.contains(SECRET));
    fs::remove_file(yard.at("in/linked.stair")).unwrap();
    // A link within the folder is a design like another.
    yard.link("good.stair", "in/linked.stair");
    let (code, text) = yard.run(&["check", "in"]);
    assert_eq!((code, text.contains("2 files: 2 rules broken")), (1, true), "{text}");
    for to in [outside.join("shop.pitchboard"), PathBuf::from("/etc/passwd"), PathBuf::from("/proc/self/environ")] {
        let _ = fs::remove_file(yard.at("in/shop.pitchboard"));
        yard.link(&to, "in/shop.pitchboard");
        let (code, text) = yard.run(&["check", "in/good.stair"]);
        assert_eq!(code, 2, "{text}");
        assert!(
            !text.contains(SECRET) && words(&text).contains("in/shop.pitchboard: it lies outside of `in`"),
            "{text}"
        );
    }
}

/// Each real folder is entered once, however many links lead to it.
#[cfg(unix)]
#[test]
fn a_maze_of_links_is_walked_once() {
    let yard = Yard::new();
    for at in 0..18 {
        yard.put(&format!("maze/f{at}/a.stair"), design("residential"));
        for way in ["left", "right"] {
            yard.link(format!("../f{}", (at + 1) % 18), &format!("maze/f{at}/{way}"));
        }
    }
    yard.link(".", "maze/round").link("..", "maze/f0/back").link("gone", "maze/dead");
    let (code, text) = yard.run(&["check", "maze"]);
    assert_eq!((code, text.contains("18 files: 18 rules broken")), (1, true), "{text}");
}

// What could hold up the run.

/// Nothing is opened that is no regular file, nor what the system's own files pretend to be.
#[cfg(unix)]
#[test]
fn nothing_is_waited_for() {
    let yard = Yard::new();
    let pipe = |name: &str| {
        fs::create_dir_all(yard.at(name).parent().unwrap()).unwrap();
        assert!(Command::new("mkfifo").arg(yard.at(name)).status().unwrap().success());
    };
    for name in ["pipe.rules", "pipe.stair", "piped/shop.pitchboard", "walk/pipe.stair"] {
        pipe(name);
    }
    let _socket = std::os::unix::net::UnixListener::bind(yard.at("socket.stair")).unwrap();
    yard.put("good.stair", design("residential")).put("set.stair", design("\"pipe.rules\""));
    yard.put("amends.rules", "ruleset \"Over\" { amends: \"pipe.rules\" }\n")
        .put("amends.stair", design("\"amends.rules\""));
    yard.put("piped/a.stair", BARE);
    let mut runs: Vec<Vec<&str>> = vec![
        vec!["check", "set.stair"],
        vec!["check", "amends.stair"],
        vec!["check", "piped"],
        vec!["check", "walk"],
        vec!["check", "--rules", "pipe.rules", "good.stair"],
        vec!["rules", "pipe.rules"],
        vec!["compare", "pipe.rules", "pipe.rules"],
        vec!["working", "pipe.stair"],
    ];
    for file in
        ["pipe.stair", "socket.stair", "/dev/stdin", "/dev/zero", "/dev/tty", "/proc/kmsg", "/proc/self/environ"]
    {
        runs.push(vec!["check", file]);
        runs.push(vec!["check", "--rules", file, "good.stair"]);
    }
    for run in runs {
        let (code, text) = yard.run(&run);
        assert_eq!(code, 2, "{run:?}\n{text}");
        assert!(!text.contains("PATH="), "{run:?}\n{text}");
    }
}

// One design's fate is its own.

/// Sets are known by the file that they are, and a name that another file has means nothing to a shipped one.
#[test]
fn a_shipped_name_means_the_shipped_set() {
    let yard = Yard::new();
    let lax = set("Lax", "20\"");
    for name in ["built-in residential", "residential", "d/built-in residential.rules", "residential.rules"] {
        yard.put(name, &lax);
    }
    for odd in ["d/../built-in residential", "residential/", "./residential", "built-in residential", "Residential"] {
        yard.put("a.stair", design(&format!("\"{odd}\""))).put("b.stair", design("residential"));
        for order in [["a.stair", "b.stair"], ["b.stair", "a.stair"]] {
            let (code, text) = yard.run(&["check", order[0], order[1]]);
            assert_eq!(code, 2, "{odd}\n{text}");
            assert!(text.contains("b.stair: 1 rule broken") && !text.contains("checked against Lax"), "{odd}\n{text}");
        }
    }
}

/// A set by two ways is one set: it is held once, and told once.
#[cfg(unix)]
#[test]
fn one_set_by_two_ways_is_held_once() {
    let yard = Yard::new();
    yard.put("low.rules", set("Low", "7\"")).link("low.rules", "again.rules");
    yard.put("d/x", "");
    yard.put("a.stair", design("\"low.rules\", \"d/../low.rules\", \"again.rules\", \"./low.rules\""));
    let (code, text) = yard.run(&["check", "a.stair"]);
    assert_eq!((code, text.matches("broken: low riser").count()), (1, 1), "{text}");
    assert_eq!(text.matches("checked against Low").count(), 1, "{text}");
}

/// Two sets of one title are two sets, and the cautions of both are told.
#[test]
fn two_sets_of_one_title_are_two() {
    let yard = Yard::new();
    let titled =
        |caution: &str, most: &str| set("House", most).replace("{ }", &format!("{{ caution: \"{caution}\" }}"));
    yard.put("one/h.rules", titled("No permit of the one.", "7\"")).put("one/a.stair", design("\"h.rules\""));
    yard.put("two/h.rules", titled("No permit of the other.", "20\"")).put("two/a.stair", design("\"h.rules\""));
    let (code, text) = yard.run(&["check", "."]);
    assert_eq!(code, 1, "{text}");
    for said in ["No permit of the one.", "No permit of the other.", "two/a.stair: nothing broken, "] {
        assert!(text.contains(said), "`{said}` is not told in\n{text}");
    }
}

/// What one stair of a file defines is nothing to the next.
#[test]
fn a_section_of_one_stair_is_not_the_next_ones() {
    let yard = Yard::new();
    let rail = "section \"marsh rail\" { shape: round; diameter: 1-1/2\" }";
    let stair = |own: &str| {
        format!(
            "stair {{ rules: residential; flight {{ risers: 2 of 7\" }} {own} handrail left {{ section: marsh rail }} }}\n"
        )
    };
    yard.put("a.stair", format!("{}{}", stair(rail), stair(""))).put("b.stair", stair(""));
    let (of_both, alone) = (yard.run(&["check", "a.stair"]).1, yard.run(&["check", "b.stair"]).1);
    for text in [of_both, alone] {
        assert_eq!(text.matches("not understood: ").count(), 1, "{text}");
    }
}

// What a log obeys.

/// No line of any face is a command to the machine that keeps the log, whatever a file is called and says.
#[test]
fn no_line_is_a_command_to_a_log() {
    let mut seen = 0;
    for command in ["::error::x", "::set-output name=x::y", "##[error]x", "##vso[task.complete]x", "--- x", "+++ x"] {
        let yard = Yard::new();
        let long = format!("{command} {}", format!("{command} ").repeat(20));
        let rule = format!(
            "chapter \"{command}\" {{ rule \"{command}\" {{ limit least: 6'; each flight shall have width >= least; source: \"{long}\"; because: \"{long}\"; sure: \"{long}\"\n passes: flight {{ risers: 7\"; width: 6' }}\n fails: flight {{ width: 6' }} }} }}\n"
        );
        let text =
            format!("ruleset \"{command}\" {{ basis: \"{long}\"; edition: \"{long}\"; caution: \"{long}\" }}\n{rule}");
        let (rules, stair) = (format!("{command}.rules"), format!("{command}.stair"));
        let stairs = format!(
            "stair \"{command}\" {{ rules: \"{rules}\"; flight \"{command}\" {{ risers: 8\"; width: 36\" }} {command}\n}}\nstair \"{long}\" {{ }}\n"
        );
        yard.put(&rules, &text).put("other.rules", text.replace("6'", "2'")).put(&stair, stairs);
        yard.put(
            &format!("{command}/shop.pitchboard"),
            format!("shop \"{command}\" {{ rules: \"none.rules\" }}\n{command}\n"),
        );
        yard.put(&format!("{command}/a.stair"), BARE);
        let flight = format!("flight {command}");
        for arguments in [
            ["check", "."].as_slice(),
            &["check", "--unsettled", "--colour", "always", "."],
            &["check", &stair, &command.replace('-', "_")],
            &["working", &stair],
            &["working", &stair, &flight, "rise"],
            &["working", &stair, &flight, command.trim_start_matches('-')],
            &["rules", &rules],
            &["rules", &rules, "--markdown"],
            &["rules", &rules, "--prove"],
            &["compare", &rules, "other.rules", &stair],
            &["compare", &rules, "other.rules", &stair, "--markdown"],
            &["guide", &command.replace('-', "_")],
            &[&command.replace('-', "_")],
        ] {
            let (_, text) = yard.run(arguments);
            for line in text.lines() {
                let bare = unpainted(line);
                let bare = bare.trim_start();
                assert!(
                    !bare.starts_with("::") && !line.contains("##[") && !line.contains("##vso["),
                    "{arguments:?}: {line}\n{text}"
                );
                assert!(!bare.starts_with("--- ") && !bare.starts_with("+++ "), "{arguments:?}: {line}");
            }
            seen += usize::from(text.contains("error") || text.contains('x'));
        }
    }
    assert_eq!(seen, 6 * 13, "every face shows the names");
}

fn unpainted(line: &str) -> String {
    let mut out = String::new();
    let mut code = false;
    for c in line.chars() {
        code = code || c == '\x1b';
        if !code {
            out.push(c);
        }
        code = code && c != 'm';
    }
    out
}

/// What was typed, or given by a script, comes back harmless too.
#[test]
fn the_command_line_is_repeated_harmlessly() {
    let yard = Yard::new();
    for typed in ["--ru\u{202e}les", "--\x1b[31mred", "\u{2066}x", "--a\r::error::x", "::error::x"] {
        for arguments in [["check", typed], ["guide", typed], ["rules", typed], [typed, typed]] {
            let (code, text) = yard.run(&arguments);
            assert_eq!(code, 2, "{text}");
            let raw =
                |c: char| c.is_control() && c != '\n' || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
            assert!(!text.contains(raw) && !text.lines().any(|line| line.trim_start().starts_with("::")), "{text:?}");
        }
    }
}

// The exit code.

/// The reader may go after the first line; the exit code still speaks of all designs.
#[test]
fn the_exit_code_is_true_through_a_closed_pipe() {
    let yard = Yard::new();
    for at in 0..400 {
        yard.put(&format!("many/a{at:03}.stair"), BARE.replace("8\"", "7\""));
    }
    yard.put("many/shop.pitchboard", shop("\"low.rules\"")).put("many/low.rules", set("Low", "7\""));
    yard.put("many/z.stair", BARE);
    for (last, code) in [(BARE.to_owned(), 1), (String::new(), 2), (BARE.replace("8\"", "7\""), 0)] {
        yard.put("many/z.stair", last);
        let mut child = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
            .args(["check", "many"])
            .current_dir(yard.at(""))
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = [0; 16];
        std::io::Read::read_exact(child.stdout.as_mut().unwrap(), &mut line).unwrap();
        drop(child.stdout.take());
        assert_eq!(child.wait().unwrap().code(), Some(code));
    }
}

// Small things.

/// Below a folder whose name is no UTF-8 sets and the shop's file are found.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_may_have_any_name() {
    use std::os::unix::ffi::OsStrExt;
    let yard = Yard::new();
    let odd = yard.at("").join(std::ffi::OsStr::from_bytes(b"caf\xe9"));
    fs::create_dir_all(odd.join("in")).unwrap();
    fs::write(odd.join("shop.pitchboard"), shop("\"sets/low.rules\"")).unwrap();
    fs::create_dir_all(odd.join("sets")).unwrap();
    fs::write(odd.join("sets/low.rules"), "ruleset \"Low\" { amends: \"base.rules\" }\n").unwrap();
    fs::write(odd.join("sets/base.rules"), set("Base", "7\"")).unwrap();
    fs::write(odd.join("in/a.stair"), BARE).unwrap();
    let (code, text) = yard.run(&["check", "."]);
    assert_eq!((code, text.contains("broken: low riser")), (1, true), "{text}");
}

/// The stack that the surroundings give does not matter.
#[cfg(unix)]
#[test]
fn the_deepest_texts_are_read_on_a_small_stack() {
    let yard = Yard::new();
    let deep = format!("{}width{} {}", "(".repeat(60), ")".repeat(60), "+ width ".repeat(98));
    yard.put(
        "deep.rules",
        format!("ruleset \"Deep\" {{ }}\nrule \"deep\" {{ each flight shall have {deep} > 0\"; source: \"x\" }}\n"),
    );
    yard.put("deep.stair", design("\"deep.rules\""))
        .put("more.stair", format!("{}{}", "flight { ".repeat(60), "}".repeat(60)));
    let check = format!("ulimit -s 256; exec {} check deep.stair", env!("CARGO_BIN_EXE_pitchboard"));
    for arguments in ["", " more.stair"] {
        let run =
            Command::new("sh").args(["-c", &format!("{check}{arguments}")]).current_dir(yard.at("")).output().unwrap();
        let text = String::from_utf8_lossy(&run.stdout);
        assert!(run.status.code().is_some(), "{text}{}", String::from_utf8_lossy(&run.stderr));
        assert!(text.contains("deep.stair: nothing broken"), "{text}");
    }
}

/// A date is a day of the calendar.
#[test]
fn a_date_is_a_day() {
    let yard = Yard::new();
    let measured = |on: &str| {
        format!("{BARE}measured \"hide\" {{ on: {on}; risers: 8\", 8\", 8\" }}\n")
            .replace("{ flight", "{ rules: workshop; flight")
    };
    for (on, sound) in [
        ("2026-05-04", true),
        ("2024-02-29", true),
        ("2000-02-29", true),
        ("2026-99-99", false),
        ("2026-02-29", false),
        ("1900-02-29", false),
        ("2026-00-10", false),
        ("2026-04-31", false),
        ("2026-01-00", false),
        ("0000-01-01", false),
    ] {
        yard.put("a.stair", measured(on));
        let (_, text) = yard.run(&["check", "a.stair"]);
        assert_eq!(!text.contains("not understood"), sound, "{on}\n{text}");
    }
}
