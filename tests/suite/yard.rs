//! A yard of drawings for one test: a folder of its own, gone afterwards, in which the binary is run as its user runs it.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};

/// House rules: risers, runs as advice, and a width that few drawings state.
pub const HOUSE: &str = "ruleset \"House rules\" { edition: \"2026\" }\n\
    rule \"easy riser\" { each riser shall have height <= 7-1/2\"; source: \"common practice\" }\n\
    rule \"deep tread\" { each tread should have run >= 10\"; source: \"common practice\" }\n\
    rule \"clear width\" { each flight shall have width >= 36\"; source: \"common practice\" }\n";

/// The folder of a test.
pub struct Yard(PathBuf);

impl Yard {
    pub fn new() -> Self {
        static NEXT: AtomicUsize = AtomicUsize::new(0);
        let name = format!("pitchboard-yard-{}-{}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
        let path = std::env::temp_dir().join(name);
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).expect("a folder");
        Self(path)
    }

    /// With a shop's file that asks for the house rules.
    pub fn with_house() -> Self {
        let yard = Self::new();
        yard.put("house.rules", HOUSE);
        yard.put("shop.pitchboard", "shop \"Marsh joinery\" { rules: \"house.rules\" }\n");
        yard
    }

    pub fn at(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    pub fn put(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.at(name);
        fs::create_dir_all(path.parent().expect("parent")).expect("a folder");
        fs::write(&path, text).expect("written");
    }

    /// A stair whose risers and runs are these, 36 in wide.
    pub fn stair(&self, name: &str, risers: &str, runs: &str) {
        let title = Path::new(name).file_stem().expect("a name").to_string_lossy().into_owned();
        let flight = format!("flight {{ risers: 2 of {risers}; runs: {runs}; width: 36\" }}");
        self.put(name, format!("stair \"{title}\" {{\n    {flight}\n}}\n"));
    }

    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).expect(name)
    }

    pub fn names(&self, folder: &str) -> Vec<String> {
        let entries = fs::read_dir(self.at(folder)).expect("a folder");
        let mut names: Vec<String> =
            entries.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    pub fn command(&self, program: &str, arguments: &[&str]) -> Command {
        let mut command = Command::new(program);
        command.args(arguments).env("LC_ALL", "C.UTF-8").env("COLUMNS", "100").env_remove("NO_COLOR");
        for own in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE"] {
            command.env_remove(own);
        }
        command.current_dir(&self.0).stdin(Stdio::null());
        command
    }

    pub fn tool(&self, arguments: &[&str]) -> Command {
        self.command(env!("CARGO_BIN_EXE_pitchboard"), arguments)
    }

    /// Exit code, and what was printed to either stream.
    pub fn run(&self, arguments: &[&str]) -> (i32, String) {
        told(&self.tool(arguments).output().expect("it runs"))
    }

    /// The same with a text on standard input.
    pub fn run_on(&self, arguments: &[&str], input: &str) -> (i32, String) {
        let mut command = self.tool(arguments);
        let mut child =
            command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("it runs");
        child.stdin.take().expect("piped").write_all(input.as_bytes()).expect("written");
        told(&child.wait_with_output().expect("it ends"))
    }

    /// Runs git, which must succeed.
    pub fn git(&self, arguments: &[&str]) {
        let who = ["-c", "user.name=J. Reed", "-c", "user.email=reed@marsh.example", "-c", "init.defaultBranch=main"];
        let said = self.command("git", &[&who[..], arguments].concat()).output().expect("git runs");
        assert!(said.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&said.stderr));
    }
}

impl Drop for Yard {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn told(output: &Output) -> (i32, String) {
    let text = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    (output.status.code().expect("no signal"), text)
}

/// The designs of which a report gives the counts, in its order.
pub fn checked(report: &str) -> Vec<String> {
    let counts = report.lines().filter_map(|line| line.split_once(".stair: "));
    counts.filter(|(name, _)| !name.starts_with(' ')).map(|(name, _)| format!("{name}.stair")).collect()
}
