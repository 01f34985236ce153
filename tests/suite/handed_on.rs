//! What goes out beside the binary: completions, pages for `man`, the hooks for pre-commit, the step of a job. That the
//! last two are of the shape that others publish is held by `.ci/outside-install`; here, that they call the tool as it
//! is.
#![cfg(unix)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use clap::{CommandFactory, Parser};
use pitchboard::cli::Cli;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn page(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

fn binary() -> &'static Path {
    Path::new(env!("CARGO_BIN_EXE_pitchboard"))
}

fn printed(arguments: &[&str]) -> String {
    let output = Command::new(binary()).args(arguments).output().expect("runs");
    assert!(output.status.success(), "{arguments:?}");
    String::from_utf8(output.stdout).expect("text")
}

fn commands() -> Vec<String> {
    Cli::command().get_subcommands().map(|command| command.get_name().to_owned()).collect()
}

/// What is printed is what was made, byte for byte: the way out changes no line of a script.
#[test]
fn completions_are_those_of_the_definitions() {
    for shell in [clap_complete::Shell::Bash, clap_complete::Shell::Zsh, clap_complete::Shell::Fish] {
        let mut made = Vec::new();
        clap_complete::generate(shell, &mut Cli::command(), "pitchboard", &mut made);
        let script = printed(&["completions", &shell.to_string()]);
        assert_eq!(script.as_bytes(), made, "{shell}");
        for command in commands() {
            assert!(script.contains(&command), "{shell} does not complete {command}");
        }
    }
}

#[test]
fn bash_reads_its_completions_and_completes_a_command() {
    let ask = "source /dev/stdin; COMP_WORDS=(pitchboard wor); COMP_CWORD=1; \
               _pitchboard pitchboard wor pitchboard; echo \"${COMPREPLY[@]}\"";
    let mut bash = Command::new("bash");
    bash.args(["--norc", "-c", ask]).stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = bash.spawn().expect("bash runs");
    let script = printed(&["completions", "bash"]);
    std::io::Write::write_all(&mut child.stdin.take().expect("piped"), script.as_bytes()).expect("written");
    let output = child.wait_with_output().expect("ends");
    assert_eq!(String::from_utf8_lossy(&output.stdout).trim(), "working");
}

#[test]
fn every_command_has_a_page_of_the_manual() {
    let folder = std::env::temp_dir().join(format!("pitchboard-manual-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder");
    printed(&["manual", "--into", folder.to_str().expect("UTF-8")]);
    for command in commands() {
        let written = fs::read_to_string(folder.join(format!("pitchboard-{command}.1"))).expect("a page");
        assert_eq!(written, printed(&["manual", &command]), "{command}");
        assert!(written.contains(&format!(".TH pitchboard-{command} 1")), "{written}");
        assert!(written.contains(&format!("pitchboard {}", env!("CARGO_PKG_VERSION"))), "{written}");
        assert_eq!(written.matches("no permit").count(), 1, "{written}");
        let example = written.split(".nf").nth(1).and_then(|rest| rest.split(".fi").next()).expect("examples");
        assert!(example.contains(&format!("pitchboard {command}")), "{written}");
    }
    let whole = fs::read_to_string(folder.join("pitchboard.1")).expect("a page");
    assert_eq!(whole, printed(&["manual"]));
    assert_eq!(fs::read_dir(&folder).expect("readable").count(), commands().len() + 1);
    fs::remove_dir_all(&folder).expect("gone");
    for wrong in [["manual", "chekc"], ["manual", "--into=/dev/null/none"]] {
        assert_eq!(Command::new(binary()).args(wrong).output().expect("runs").status.code(), Some(2), "{wrong:?}");
    }
}

#[test]
fn the_notices_are_printed_whole() {
    let printed = printed(&["licences"]);
    assert!(printed.contains(&page("LICENSE")) && printed.ends_with(&page("src/cli/licences.txt")));
}

/// Lines `name: value` of a YAML text whose name is this one, at any depth.
fn values<'t>(text: &'t str, name: &str) -> Vec<&'t str> {
    let value = |line: &'t str| line.trim().trim_start_matches("- ").strip_prefix(name)?.strip_prefix(": ");
    text.lines().filter_map(value).collect()
}

#[test]
fn the_hooks_call_commands_that_are_there() {
    let manifest = page(".pre-commit-hooks.yaml");
    let (ids, entries) = (values(&manifest, "id"), values(&manifest, "entry"));
    assert!(ids.len() == entries.len() && ids.len() >= 2, "{ids:?} {entries:?}");
    for entry in entries {
        let read = Cli::try_parse_from(entry.split(' ').chain(["hide.stair"]));
        assert!(read.is_ok(), "{entry}: {read:?}");
    }
    assert!(Cli::try_parse_from(["pitchboard", "chekc", "hide.stair"]).is_err());
    let guide = page("src/guide/install.md");
    let named = values(&guide, "id");
    assert!(!named.is_empty());
    for id in named {
        assert!(ids.contains(&id), "the guide names a hook `{id}`");
    }
}

#[test]
fn the_inputs_of_the_step_are_those_that_are_told_and_used() {
    let action = page(".github/actions/check/action.yml");
    let (inputs, steps) = action.split_once("\nruns:").expect("two parts");
    let inputs = inputs.split_once("\ninputs:\n").expect("inputs").1;
    let script = page(".github/actions/check/check.sh");
    let guide = page("src/guide/install.md");
    let mut seen = 0;
    for name in inputs.lines().filter_map(|line| line.strip_prefix("  ")?.strip_suffix(':')) {
        let variable = name.to_uppercase();
        assert!(steps.contains(&format!("{variable}: ${{{{ inputs.{name} }}}}")), "{name} is handed to nothing");
        assert!(script.contains(&format!("${{{variable}:-")), "{name} is read by nothing");
        assert!(guide.contains(&format!("`{name}`")), "{name} is told nowhere");
        seen += 1;
    }
    assert_eq!((seen, steps.matches("inputs.").count()), (4, 4));
    // What a user writes never stands in a command.
    let commands: Vec<&str> = values(steps, "run");
    assert!(commands.len() == 2 && !commands.iter().any(|command| command.contains("${{")), "{commands:?}");
}

/// The script of the step, with the binary of this build.
fn step(inputs: &[(&str, &str)], folder: &Path) -> Output {
    let path = std::env::var("PATH").expect("a path");
    Command::new("bash")
        .arg(root().join(".github/actions/check/check.sh"))
        .env("PATH", format!("{}:{path}", binary().parent().expect("a folder").display()))
        .env_remove("RULES")
        .envs(inputs.iter().copied())
        .current_dir(folder)
        .output()
        .expect("bash runs")
}

#[test]
fn the_step_ends_as_its_commands_do() {
    let folder = std::env::temp_dir().join(format!("pitchboard-step-{}", std::process::id()));
    let write = |name: &str, text: &str| {
        let path: PathBuf = folder.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text).expect("written");
    };
    write("a b/low hide.stair", "stair { rules: \"../own.rules\"; flight { risers: 2 of 7\" } }");
    write("high.stair", "stair { rules: \"own.rules\"; flight { risers: 2 of 8\" } }");
    let rule = "rule \"r\" { limit most: 7-1/2\"; each riser shall have height <= most; source: \"our bench\"";
    let set = format!(
        "ruleset \"Own\" {{ }}\n{rule}\n passes: flight {{ risers: 7\" }}\n fails: flight {{ risers: 8\" }}\n}}"
    );
    write("own.rules", &set);
    write("unproven.rules", &set.replace("fails: flight { risers: 8\" }", "fails: flight { risers: 7\" }"));
    let outcome = |inputs: &[(&str, &str)]| step(inputs, &folder).status.code();
    let rules = ("RULES", "own.rules");
    assert_eq!(outcome(&[("PATHS", "a b"), rules]), Some(0));
    assert_eq!(outcome(&[("PATHS", "\n  a b/low hide.stair\n\n"), rules, ("PROVE", "own.rules\n")]), Some(0));
    assert_eq!(outcome(&[("PATHS", "a b\nhigh.stair"), rules]), Some(1));
    assert_eq!(outcome(&[rules]), Some(1), "without a path, all that is there");
    assert_eq!(outcome(&[("PATHS", "a b"), rules, ("PROVE", "own.rules\nunproven.rules")]), Some(1));
    assert_eq!(outcome(&[("PATHS", "nowhere.stair"), ("PROVE", "unproven.rules")]), Some(2));
    assert_eq!(outcome(&[("PATHS", "a b"), rules, ("STRICT", "perhaps")]), Some(2));
    // A path is a path, whatever it looks like.
    let said = step(&[("PATHS", "--rules=x\n$(touch gone)\n`touch gone`; touch gone")], &folder);
    assert_eq!((said.status.code(), folder.join("gone").exists()), (Some(2), false));
    assert!(String::from_utf8_lossy(&said.stdout).contains("--rules=x"), "{said:?}");
    fs::remove_dir_all(&folder).expect("gone");
}

/// A fault of the checker is to cost one design (`src/cli/fault.rs`), in the binary that is handed on too.
#[test]
fn the_release_is_built_as_it_is_tested() {
    let manifest: toml_edit::DocumentMut = page("Cargo.toml").parse().expect("TOML");
    let release = &manifest["profile"]["release"];
    assert!(release.get("panic").is_none_or(|panic| panic.as_str() == Some("unwind")));
    assert_eq!(release["lto"].as_str(), Some("fat"));
}
