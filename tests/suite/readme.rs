//! Runs README.md: every command of a `console` block is run as typed, in a folder that holds the files the page
//! tells its reader to write, and must print what the page shows.
//!
//! How the page says so, in ways that a reader of the rendered page does not see:
//! - a block opened by "```text file=NAME" is the file NAME from here on;
//! - a block opened by "```text append=NAME" is added to the end of it;
//! - `<!-- edit NAME | old | new -->` is a change that the text beside it asks for (`\n` is a line end);
//! - a block opened by "```text output=ARGUMENTS" is what the tool prints for these arguments.
//!
//! `[...]` as the first or the last line of an output marks that more was cut there. The closing lines of a report
//! (sets held to and their cautions) may be left out without a mark, as the page says.
//!
//! `UPDATE=1 cargo test --test suite readme` pastes what the commands print now; read the difference before you keep it.

use std::path::Path;
use std::process::Command;

const CUT: &str = "[...]";

/// Splits a typed command at blanks outside quotes.
fn words(typed: &str) -> Vec<String> {
    let (mut words, mut word, mut quote, mut any) = (Vec::new(), String::new(), None, false);
    for c in typed.chars() {
        match (c, quote) {
            ('"' | '\'', None) => (quote, any) = (Some(c), true),
            (c, Some(open)) if c == open => quote = None,
            (' ', None) => {
                if any {
                    words.push(std::mem::take(&mut word));
                }
                any = false;
            }
            _ => {
                word.push(c);
                any = true;
            }
        }
    }
    if any {
        words.push(word);
    }
    words
}

fn run(folder: &Path, typed: &str) -> Vec<String> {
    let output = Command::new(env!("CARGO_BIN_EXE_pitchboard"))
        .args(words(typed))
        .current_dir(folder)
        .env("LC_ALL", "C.UTF-8")
        .env_remove("COLUMNS")
        .env_remove("NO_COLOR")
        .output()
        .unwrap_or_else(|why| panic!("{typed}: {why}"));
    let text = [output.stdout, output.stderr].concat();
    let text = String::from_utf8(text).unwrap_or_else(|why| panic!("{typed}: {why}"));
    text.trim_end().lines().map(str::to_owned).collect()
}

/// Whether the rest of an output is no more than the closing lines of a report.
fn only_closing(rest: &[String]) -> bool {
    let cautions = rest.iter().position(|line| line.contains(": A pass is no ")).unwrap_or(rest.len());
    rest.iter().take(cautions).all(|line| {
        let line = line.as_str();
        line.is_empty()
            || line.starts_with("  held to ")
            || line.contains(" on figures from memory: ")
            || line.starts_with("Pitchboard ")
            || line.starts_with("  jurisdiction")
    })
}

/// Whether an output is as shown.
fn shows(shown: &[&str], printed: &[String]) -> bool {
    let (open_start, shown) = match shown {
        [first, rest @ ..] if *first == CUT => (true, rest),
        all => (false, all),
    };
    let (open_end, shown) = match shown {
        [rest @ .., last] if *last == CUT => (true, rest),
        all => (false, all),
    };
    let starts = if open_start { 0..printed.len() } else { 0..1 };
    starts.into_iter().any(|start| {
        let Some(here) = printed.get(start..start + shown.len()) else { return false };
        let rest = printed.get(start + shown.len()..).unwrap_or_default();
        here.iter().map(String::as_str).eq(shown.iter().copied()) && (open_end || only_closing(rest))
    })
}

/// The output cut as the old one was: from the line that begins alike to the line that begins alike.
fn cut_alike(shown: &[&str], printed: &[String]) -> Vec<String> {
    let kept: Vec<&str> = shown.iter().copied().filter(|line| *line != CUT).collect();
    let begins = |line: &str, old: &str| {
        let start: String = old.trim_start().chars().take_while(|c| !c.is_whitespace()).collect();
        !start.is_empty() && line.trim_start().starts_with(&start)
    };
    let first = kept.first().and_then(|old| printed.iter().position(|line| begins(line, old))).unwrap_or(0);
    // Shown to its end, or left out from the closing lines on.
    let to_the_end = kept.last().copied() == printed.last().map(String::as_str);
    let whole = if to_the_end { printed.len().checked_sub(1) } else { None };
    let whole = whole.or_else(|| (0..printed.len()).find(|at| only_closing(printed.get(at + 1..).unwrap_or_default())));
    let last = whole.filter(|_| shown.last() != Some(&CUT)).or_else(|| {
        let old = kept.last()?;
        let exact = printed.iter().skip(first).position(|line| line == old);
        exact.or_else(|| printed.iter().skip(first).position(|line| begins(line, old))).map(|at| at + first)
    });
    let last = last.unwrap_or(printed.len().saturating_sub(1)).max(first);
    let mut new: Vec<String> = printed.get(first..=last).unwrap_or_default().to_vec();
    if first > 0 {
        new.insert(0, CUT.to_owned());
    }
    let rest = printed.get(last + 1..).unwrap_or_default();
    if !only_closing(rest) {
        new.push(CUT.to_owned());
    }
    new
}

#[test]
fn every_command_prints_what_the_page_shows() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = std::fs::read_to_string(root.join("README.md")).expect("README.md");
    let folder = std::env::temp_dir().join(format!("pitchboard-readme-{}", std::process::id()));
    let examples = folder.join("examples");
    std::fs::create_dir_all(&examples).expect("a folder for the page's files");
    for entry in std::fs::read_dir(root.join("examples")).expect("examples").filter_map(Result::ok) {
        if entry.path().is_file() {
            std::fs::copy(entry.path(), examples.join(entry.file_name())).expect("a copy of an example");
        }
    }
    let update = std::env::var_os("UPDATE").is_some();
    let (mut told, mut new, mut ran) = (String::new(), String::new(), 0);
    let mut hold = |shown: &[&str], typed: &str, new: &mut String| {
        let printed = run(&folder, typed);
        ran += 1;
        if shows(shown, &printed) {
            shown.iter().for_each(|line| *new += &format!("{line}\n"));
            return;
        }
        cut_alike(shown, &printed).iter().for_each(|line| *new += &format!("{line}\n"));
        told += &format!("$ pitchboard {typed}\nshown:\n{}\nprinted:\n{}\n\n", shown.join("\n"), printed.join("\n"));
    };
    let mut lines = page.lines().peekable();
    while let Some(line) = lines.next() {
        new += &format!("{line}\n");
        if let Some(edit) = line.strip_prefix("<!-- edit ").and_then(|rest| rest.strip_suffix(" -->")) {
            let [name, old, put] = edit.split(" | ").collect::<Vec<_>>()[..] else { panic!("{line}") };
            let path = folder.join(name.trim());
            let text = std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{line}: {why}"));
            let (old, put) = (old.replace("\\n", "\n"), put.replace("\\n", "\n"));
            let at = text.rfind(&old).unwrap_or_else(|| panic!("{name} holds no `{old}`"));
            let text = format!("{}{put}{}", &text[..at], &text[at + old.len()..]);
            std::fs::write(&path, text).expect("the edited file");
            continue;
        }
        let Some(info) = line.strip_prefix("```").filter(|info| !info.is_empty()) else { continue };
        let mut body: Vec<&str> = Vec::new();
        while let Some(next) = lines.next_if(|next| *next != "```") {
            body.push(next);
        }
        lines.next();
        if let Some((_, name)) = info.split_once(" file=") {
            let path = folder.join(name);
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder of the page");
            std::fs::write(path, body.join("\n") + "\n").expect("a file of the page");
        }
        if let Some((_, name)) = info.split_once(" append=") {
            let path = folder.join(name);
            let text = std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{info}: {why}"));
            std::fs::write(path, format!("{text}\n{}\n", body.join("\n"))).expect("the longer file");
        }
        if let Some((_, typed)) = info.split_once(" output=") {
            hold(&body, typed, &mut new);
        } else if info == "console" {
            let commands: Vec<usize> =
                body.iter().enumerate().filter(|(_, line)| line.starts_with("$ ")).map(|(at, _)| at).collect();
            for (nth, at) in commands.iter().enumerate() {
                let end = commands.get(nth + 1).copied().unwrap_or(body.len());
                let typed = body[*at].strip_prefix("$ pitchboard ").unwrap_or_else(|| panic!("{}", body[*at]));
                new += &format!("{}\n", body[*at]);
                hold(&body[at + 1..end], typed, &mut new);
            }
        } else {
            body.iter().for_each(|line| new += &format!("{line}\n"));
        }
        new += "```\n";
    }
    let _ = std::fs::remove_dir_all(&folder);
    assert!(ran >= 10, "the page ran only {ran} commands");
    if update && !told.is_empty() {
        std::fs::write(root.join("README.md"), new).expect("README.md");
    } else {
        assert!(told.is_empty(), "\n{told}UPDATE=1 pastes what is printed.");
    }
}

#[test]
fn what_is_shown_is_compared_line_by_line() {
    let printed: Vec<String> =
        ["one", "two", "three", "  held to X", "", "X: A pass is no permit."].map(str::to_owned).to_vec();
    assert!(shows(&["one", "two", "three"], &printed), "closing lines may be left out");
    assert!(shows(&[CUT, "two", CUT], &printed));
    assert!(!shows(&["two", CUT], &printed), "a cut start needs its mark");
    assert!(!shows(&["one", "two"], &printed), "a cut end needs its mark");
    assert!(!shows(&["one", "too", "three"], &printed));
    assert_eq!(
        words("working a.stair \"tread 1\" 'depth at 12\"'"),
        ["working", "a.stair", "tread 1", "depth at 12\""]
    );
}
