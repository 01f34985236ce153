//! Which designs a run is about: globs, `.gitignore`, lists, and what differs from a commit.

use std::fs;

use crate::yard::{Yard, checked};

fn yard() -> Yard {
    let yard = Yard::with_house();
    for name in ["a.stair", "hides/b.stair", "hides/old/c.stair", "sketches/d.stair", "sketches/e.stair"] {
        yard.stair(name, "7\"", "10\"");
    }
    yard
}

fn found(yard: &Yard, more: &[&str]) -> Vec<String> {
    let (code, text) = yard.run(&[&["check"], more].concat());
    assert_eq!(code, 0, "{text}");
    checked(&text)
}

#[test]
fn globs_choose_and_leave_out() {
    let yard = yard();
    let all = ["a.stair", "hides/b.stair", "hides/old/c.stair", "sketches/d.stair", "sketches/e.stair"];
    assert_eq!(found(&yard, &["."]), all);
    assert_eq!(found(&yard, &[]), all);
    assert_eq!(found(&yard, &["--without", "sketches/", "."]), all[..3]);
    assert_eq!(found(&yard, &["--without", "sketches", "--without", "old/", "."]), all[..2]);
    assert_eq!(found(&yard, &["--only", "hides/", "."]), all[1..3]);
    assert_eq!(found(&yard, &["--only", "hides/*.stair", "."]), all[1..2]);
    assert_eq!(found(&yard, &["--only", "hides/**", "--only", "a.stair", "--without", "c.stair"]), all[..2]);
    assert_eq!(found(&yard, &["--only", "b.stair", "hides"]), ["hides/b.stair"], "a name counts at any depth");
    assert_eq!(found(&yard, &["--without", "a.stair", "a.stair"]), ["a.stair"], "a file that is named is checked");
    let (_, text) = yard.run(&["check", "--without", "sketches/", "."]);
    assert!(text.contains("passed over: 1 file or folder (1 left out by a glob)"), "{text}");
    let (code, text) = yard.run(&["check", "--only", "punts/", "."]);
    assert_eq!(code, 2, "a glob that names nothing is a slip: {text}");
    assert!(text.contains("all that may be a design in `.` or below is passed over"), "{text}");
    for wrong in ["a[", "", "# nothing"] {
        assert_eq!(yard.run(&["check", "--only", wrong, "."]).0, 2, "{wrong}");
    }
}

#[test]
fn gitignore_counts_in_a_repository_and_is_said() {
    let yard = yard();
    yard.put(".gitignore", "sketches/\n*.old.stair\n!kept.old.stair\n");
    yard.put("hides/.gitignore", "/old\n");
    yard.stair("x.old.stair", "7\"", "10\"");
    yard.stair("kept.old.stair", "7\"", "10\"");
    assert_eq!(found(&yard, &["."]).len(), 7, "there is no repository, so nothing is named in it");
    yard.git(&["init", "--quiet"]);
    let (_, text) = yard.run(&["check", "."]);
    assert_eq!(checked(&text), ["a.stair", "hides/b.stair", "kept.old.stair"]);
    assert!(text.contains("passed over: 3 files or folders (3 named in .gitignore)"), "{text}");
    assert_eq!(found(&yard, &["hides"]), ["hides/b.stair"], "the files above count too");
    assert_eq!(found(&yard, &["sketches"]).len(), 2, "a folder that is named is searched");
    assert_eq!(found(&yard, &["--all", "."]).len(), 7);
    // git agrees, file by file.
    for name in ["a.stair", "hides/b.stair", "hides/old/c.stair", "sketches/d.stair", "x.old.stair", "kept.old.stair"] {
        let said = yard.command("git", &["check-ignore", "--quiet", name]).status().expect("git runs");
        assert_eq!(said.success(), !found(&yard, &["."]).contains(&name.to_owned()), "{name}");
    }
}

#[test]
fn what_is_hidden_or_built_is_passed_over_and_said() {
    let yard = yard();
    yard.stair(".draft.stair", "7\"", "10\"");
    yard.stair("target/t.stair", "7\"", "10\"");
    yard.put("target/notes.txt", "");
    yard.put(".notes.txt", "");
    let (_, text) = yard.run(&["check", "."]);
    assert_eq!(checked(&text).len(), 5);
    assert!(text.contains("passed over: 2 files or folders (1 hidden, 1 called target)"), "{text}");
    assert_eq!(found(&yard, &["--all", "."]).len(), 7);
}

#[cfg(unix)]
#[test]
fn a_gitignore_that_is_a_link_or_a_pipe_is_not_opened() {
    let yard = yard();
    yard.git(&["init", "--quiet"]);
    yard.put("names.txt", "*.stair\n");
    std::os::unix::fs::symlink("../names.txt", yard.at("hides/.gitignore")).expect("a link");
    let made = yard.command("mkfifo", &["sketches/.gitignore"]).status().expect("mkfifo runs");
    assert!(made.success());
    assert_eq!(found(&yard, &["."]).len(), 5);
}

#[test]
fn a_list_names_files_and_folders() {
    let yard = yard();
    yard.put("list.txt", "hides/b.stair\r\n\n./a.stair\nhouse.rules\nhides/b.stair\nsketches\n");
    let (code, text) = yard.run(&["check", "--list", "list.txt"]);
    assert_eq!(code, 0, "{text}");
    assert_eq!(checked(&text), ["hides/b.stair", "./a.stair", "sketches/d.stair", "sketches/e.stair"]);
    assert!(text.contains("passed over: 1 file or folder (1 listed that are no designs)"), "{text}");
    let (_, text) = yard.run_on(&["check", "--list", "-"], "a.stair\0hides/b.stair\0");
    assert_eq!(checked(&text), ["a.stair", "hides/b.stair"]);
    let (_, text) =
        yard.run_on(&["check", "--list", "-", "--without", "hides/", "sketches"], "a.stair\nhides/b.stair\n");
    assert_eq!(checked(&text), ["sketches/d.stair", "sketches/e.stair", "a.stair"]);
    let (code, text) = yard.run_on(&["check", "--list", "-"], "gone.stair\na.stair\n");
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("there is no such file") && checked(&text) == ["a.stair"], "{text}");
    let (code, text) = yard.run_on(&["check", "--list", "-", "-"], "a.stair\n");
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("standard input can be read once"), "{text}");
    let (code, text) = yard.run(&["check", "--list", "gone.txt"]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("the list `gone.txt` could not be read: there is no such file"), "{text}");
}

#[test]
fn an_empty_list_checks_nothing_and_says_so() {
    let yard = yard();
    for empty in ["", "\n \n", "house.rules\n"] {
        let (code, text) = yard.run_on(&["check", "--list", "-"], empty);
        assert_eq!(code, 0, "{text}");
        assert!(checked(&text).is_empty() && text.contains("nothing was checked"), "{text}");
    }
    assert!(yard.run_on(&["check", "--list", "-"], "").1.contains("the list `standard input` names nothing"));
}

#[test]
fn only_what_differs_from_a_commit_is_checked() {
    let yard = yard();
    yard.git(&["init", "--quiet"]);
    yard.git(&["add", "."]);
    yard.git(&["commit", "--quiet", "--message", "The library"]);
    let since = ["--changed-since", "HEAD"];
    let (code, text) = yard.run(&[&["check"], &since[..], &["."]].concat());
    assert_eq!(code, 0, "{text}");
    assert!(checked(&text).is_empty(), "{text}");
    assert!(text.contains("no design differs from HEAD") && text.contains("nothing was checked"), "{text}");
    assert!(text.contains("5 as they were"), "{text}");

    yard.stair("hides/b.stair", "7-1/4\"", "10\"");
    yard.stair("hides/new reeds é.stair", "7\"", "10\"");
    fs::remove_file(yard.at("a.stair")).expect("it was there");
    assert_eq!(found(&yard, &since), ["hides/b.stair", "hides/new reeds é.stair"]);
    assert_eq!(found(&yard, &[&since[..], &["sketches", "hides/b.stair"]].concat()), ["hides/b.stair"]);
    yard.git(&["add", "."]);
    yard.git(&["commit", "--quiet", "--message", "Another hide"]);
    assert_eq!(found(&yard, &["--changed-since", "HEAD~1"]), ["hides/b.stair", "hides/new reeds é.stair"]);

    // What a design rests on may make it come out otherwise.
    yard.put("house.rules", crate::yard::HOUSE.replace("7-1/2\"", "7-3/8\""));
    let (_, text) = yard.run(&["check", "--changed-since", "HEAD"]);
    assert_eq!(checked(&text).len(), 5, "{text}");
    assert!(text.contains("`house.rules` differs from HEAD, so designs that do not are checked too"), "{text}");
}

#[test]
fn a_commit_that_is_none_or_a_folder_outside_of_git_is_one_message() {
    let yard = yard();
    let (code, text) = yard.run(&["check", "--changed-since", "HEAD", "."]);
    assert_eq!(code, 2, "{text}");
    assert!(text.contains("git could not say what differs"), "{text}");
    assert_eq!(text.lines().count(), 1, "{text}");
    yard.git(&["init", "--quiet"]);
    for wrong in ["HEAD", "nowhere", "--output=x", "-h", "", "a b; touch x"] {
        let (code, text) = yard.run(&["check", &format!("--changed-since={wrong}"), "."]);
        assert_eq!(code, 2, "{wrong}: {text}");
        assert!(!yard.at("x").exists(), "{wrong}");
    }
    let mut command = yard.tool(&["check", "--changed-since", "HEAD", "."]);
    let said = command.env("PATH", yard.at("empty")).output().expect("it runs");
    assert_eq!(said.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&said.stderr).contains("git could not be asked what differs"));
}

/// A configuration may name programs that git runs to say what differs; a check runs none of these.
#[cfg(unix)]
#[test]
fn git_runs_no_monitor_no_pager_and_no_diff_of_anothers() {
    let yard = yard();
    yard.git(&["init", "--quiet"]);
    yard.put(".gitattributes", "*.stair diff=own\n");
    yard.git(&["add", "."]);
    yard.git(&["commit", "--quiet", "--message", "The library"]);
    for (key, value) in [
        ("core.fsmonitor", "touch ran-fsmonitor; false"),
        ("diff.external", "touch ran-external"),
        ("diff.own.command", "touch ran-command"),
        ("diff.own.textconv", "touch ran-textconv; cat"),
        ("core.pager", "touch ran-pager; cat"),
    ] {
        yard.git(&["config", key, value]);
    }
    yard.stair("a.stair", "7-1/4\"", "10\"");
    assert_eq!(found(&yard, &["--changed-since", "HEAD"]), ["a.stair"]);
    assert!(yard.names("").iter().all(|name| !name.starts_with("ran-")), "{:?}", yard.names(""));
}

#[test]
fn the_designs_on_which_a_set_bears_are_named_as_a_list_is_read() {
    let yard = yard();
    yard.put("sketches/shop.pitchboard", "shop \"Sketches\" { }\n");
    yard.put("own.rules", "ruleset \"Own\" { amends: \"house.rules\" }\namend \"easy riser\" { limit x: 1\" }\n");
    // A repository of its own, over which no shop's file lies.
    yard.put("punts/.git/HEAD", "");
    yard.put("punts/f.stair", "stair \"f\" { rules: residential\n flight { risers: 2 of 7\" } }");
    yard.put("hides/b.stair", "stair \"b\" { rules: \"../own.rules\"\n flight { risers: 2 of 7\" } }");
    let named = |set: &str| {
        let (code, text) = yard.run(&["check", "--affected-by", set, "."]);
        assert_eq!(code, 0, "{text}");
        text.lines().map(str::to_owned).collect::<Vec<_>>()
    };
    let house = ["a.stair", "hides/b.stair", "hides/old/c.stair", "sketches/d.stair", "sketches/e.stair"];
    assert_eq!(named("house.rules"), house);
    assert_eq!(named("./hides/../house.rules"), house, "by whatever path");
    assert_eq!(named("own.rules"), ["hides/b.stair"]);
    assert_eq!(named("residential"), ["punts/f.stair"]);
    assert_eq!(named("public"), ["`public` bears on none of these designs"]);
    let list = yard.tool(&["check", "--affected-by", "own.rules", "."]).output().expect("it runs");
    let (_, text) = yard.run_on(&["check", "--list", "-"], &String::from_utf8_lossy(&list.stdout));
    assert_eq!(checked(&text), ["hides/b.stair"]);
    assert_eq!(yard.run(&["check", "--affected-by", "gone.rules", "."]).0, 2);
}

/// `mend` and `tidy` touch what `check` would check, and nothing else.
#[test]
fn what_is_mended_and_tidied_is_chosen_as_what_is_checked() {
    const LOOSE: &str = "stair \"low\" {\n  flight { risers: 2 of 8\"; runs: 10\"; width: 36\" }\n}\n";
    let yard = || {
        let yard = Yard::with_house();
        for name in ["a.stair", "hides/b.stair", "sketches/c.stair", ".old/d.stair"] {
            yard.put(name, LOOSE);
        }
        yard
    };
    let changed = |yard: &Yard| -> Vec<&str> {
        let all = ["a.stair", "hides/b.stair", "sketches/c.stair", ".old/d.stair"];
        all.into_iter().filter(|name| yard.text(name) != LOOSE).collect()
    };
    let passed = "passed over: 2 files or folders (1 hidden, 1 left out by a glob)";
    for command in ["mend", "tidy"] {
        for (options, wanted, said) in [
            (&["--without", "sketches/"][..], &["a.stair", "hides/b.stair"][..], passed),
            (&["--only", "hides/"], &["hides/b.stair"], "left out by a glob"),
            (&["--all", "--without", "sketches/"], &["a.stair", "hides/b.stair", ".old/d.stair"], "1 left out"),
            (&["--list", "list.txt"], &["a.stair", "sketches/c.stair"], "1 listed that are no designs"),
        ] {
            let yard = yard();
            yard.put("list.txt", "a.stair\nlist.txt\nsketches\n");
            let (code, text) = yard.run(&[&[command], options].concat());
            assert_eq!(code, 0, "{command} {options:?}: {text}");
            assert_eq!(changed(&yard), wanted, "{command} {options:?}: {text}");
            let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(text.contains(said), "{command} {options:?}: {text}");
        }
        let yard = yard();
        yard.git(&["init", "--quiet"]);
        yard.git(&["add", "."]);
        yard.git(&["commit", "--quiet", "--message", "The library"]);
        yard.put("hides/b.stair", format!("{LOOSE}# The low hide.\n"));
        let (code, text) = yard.run(&[command, "--changed-since", "HEAD"]);
        assert_eq!(code, 0, "{command}: {text}");
        assert_eq!(changed(&yard), ["hides/b.stair"], "{command}: {text}");
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("as they were"), "{text}");
        assert_eq!(yard.run(&[command, "--changed-since", "none"]).0, 2);
    }
    // A text stands for itself: another ruleset makes no design less tidy, but may make it broken.
    for (command, wanted) in [("tidy", 0), ("mend", 3)] {
        let yard = yard();
        yard.git(&["init", "--quiet"]);
        yard.git(&["add", "."]);
        yard.git(&["commit", "--quiet", "--message", "The library"]);
        yard.put("house.rules", crate::yard::HOUSE.replace("7-1/2\"", "7-3/8\""));
        let (code, text) = yard.run(&[command, "--changed-since", "HEAD"]);
        assert_eq!((code, changed(&yard).len()), (0, wanted), "{command}: {text}");
    }
    // What is said of the choice is no part of a patch.
    let yard = yard();
    let output = yard.tool(&["mend", "--patch", "--without", "sketches/"]).output().expect("it runs");
    let (patch, said) = (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
    assert!(patch.starts_with("--- a/a.stair\n") && !patch.contains("passed"), "{patch}");
    assert!(said.contains("passed over: 2"), "{said}");
}
