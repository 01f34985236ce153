//! Designs mended: over the examples, the cases and the seeded faults what is written leaves nothing new, touches only
//! what was chosen, keeps remarks and layout beside its edits, and a second run changes nothing. The share of findings
//! that is mended stands in the guide, and is held to it.
//!
//! Of the seeded faults a tenth is taken, which has its row in the guide, or with `FULL=1` all.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use pitchboard::base::{Severity, Source};
use pitchboard::check::{Analysis, Finding, Settled};
use pitchboard::model::{Basis, Stated};
use pitchboard::session::{Mended, Session};

use crate::cases::Cases;
use crate::mutation::faulty_designs;
use crate::offers::{applied, files};
use crate::switches::full;

/// What misses: the sort of finding, the stair, the rule or notice, the thing's path. Read from outcomes, by which no
/// change was sought.
fn missed(analysis: &Analysis) -> BTreeSet<(String, usize, String, String)> {
    let outcomes = analysis.outcomes();
    let failed = outcomes.iter().filter(|outcome| matches!(outcome.verdict, Settled::Fail(_)));
    failed
        .map(|outcome| {
            let rule = format!("{}: {}", outcome.rule.set().title, outcome.rule.rule().name);
            (format!("{:?}", outcome.view), outcome.stair, rule, outcome.path.clone())
        })
        .collect()
}

fn notices(analysis: &Analysis) -> BTreeMap<String, usize> {
    let mut found = BTreeMap::new();
    for finding in &analysis.report.findings {
        if let Finding::Reader(_) = finding {
            *found.entry(finding.name().to_owned()).or_insert(0) += 1;
        }
    }
    found
}

/// What is not so that was said of mending; empty if all is.
fn wrong(session: &Session, source: &Source, mended: &Mended) -> Vec<String> {
    let mut wrong = Vec::new();
    let (before, after) = (session.check(source, None), session.check(&mended.source, None));
    wrong.extend(missed(&after).difference(&missed(&before)).map(|new| format!("new: {new:?}")));
    let known = notices(&before);
    let more = notices(&after).into_iter().filter(|(name, count)| *count > known.get(name).copied().unwrap_or(0));
    wrong.extend(more.map(|(name, _)| format!("the readers find {name}")));
    // The text is what its edits make of it, and each of them only what the designer chose.
    let mut text = source.text.to_string();
    for mend in &mended.mends {
        if *mend.before.text != *text {
            wrong.push("a change was made in another text".to_owned());
        }
        let stairs = session.draw(&mend.before).stairs;
        let views = stairs.iter().flat_map(|stair| std::iter::once(&stair.drawn).chain(&stair.measured));
        let stated: Vec<&Stated> = views.flat_map(|view| &view.elements).flat_map(|element| &element.stated).collect();
        for edit in mend.edits.iter().filter(|edit| edit.span.start < edit.span.end) {
            let of = |stated: &&&Stated| stated.span.start <= edit.span.start && edit.span.end <= stated.span.end;
            match stated.iter().filter(|stated| stated.shop.is_none_or(|shop| shop.called)).find(of) {
                Some(stated) if stated.measured || stated.property.basis != Basis::Choice => {
                    wrong.push(format!("{} is not the designer's to change", stated.property.name));
                }
                Some(_) => {}
                None => wrong.push(format!("`{}` states nothing", mend.before.slice(edit.span))),
            }
        }
        text = applied(&text, &mend.edits);
    }
    if *text != *mended.source.text {
        wrong.push("the text is not what its edits make".to_owned());
    }
    wrong.extend(
        remarks(&source.text)
            .into_iter()
            .filter(|remark| !mended.source.text.contains(remark))
            .map(|lost| format!("a remark is lost: {lost}")),
    );
    let again = session.mend(&mended.source, None);
    if !again.mends.is_empty() {
        wrong.push(format!("a second run writes {:?}", again.mends[0].edits));
    }
    wrong
}

/// The remarks of a text, each with the end of its line: what stands behind a `#` that no figure follows.
fn remarks(text: &str) -> Vec<&str> {
    let start = |line: &str| {
        line.match_indices('#').map(|(at, _)| at).find(|at| {
            !line[at + 1..].starts_with(|c: char| c.is_ascii_digit())
                && line[..*at].matches('"').count().is_multiple_of(2)
        })
    };
    text.split_inclusive('\n').filter_map(|line| start(line).map(|at| &line[at..])).collect()
}

/// Findings before and after, those of rules on the drawing apart.
#[derive(Default)]
struct Share {
    designs: usize,
    found: usize,
    of_rules: usize,
    mended: usize,
}

impl Share {
    fn add(&mut self, mended: &Mended) {
        let of_rules = |analysis: &Analysis| {
            analysis.report.findings.iter().filter(|finding| matches!(finding, Finding::Rule(_))).count()
        };
        let before = of_rules(&mended.before);
        self.designs += 1;
        self.found += mended.before.report.findings.len();
        self.of_rules += before;
        self.mended += before - of_rules(mended.analysis());
    }

    /// A row of the guide's table.
    fn row(&self, what: &str) -> String {
        let percent = 100 * self.mended / self.of_rules;
        let Share { designs, found, of_rules, mended } = self;
        format!("| {what} | {designs} | {found} | {of_rules} | {mended} | {percent} % |")
    }
}

fn share_of(session: &Session, designs: Vec<(String, String)>, told: &mut Vec<String>) -> Share {
    let mut share = Share::default();
    for (name, text) in designs {
        let lies = if Path::new(&name).exists() { name.clone() } else { "spoilt.stair".to_owned() };
        let source = Source::new(&*lies, &text);
        let mended = session.mend(&source, None);
        told.extend(wrong(session, &source, &mended).iter().map(|wrong| format!("{name}: {wrong}")));
        share.add(&mended);
    }
    share
}

#[test]
fn mending_leaves_nothing_new_and_its_share_is_as_the_guide_says() {
    let session = Session::new(Cases);
    let mut told = Vec::new();
    let shares = [
        ("the examples", share_of(&session, files(&["examples"]), &mut told)),
        ("the cases", share_of(&session, files(&["tests/cases"]), &mut told)),
        ("seeded faults, each tenth", share_of(&session, faulty_designs(), &mut told)),
    ];
    assert!(told.is_empty(), "{} are not as said:\n{}", told.len(), told.join("\n"));
    let page = fs::read_to_string("src/guide/mend.md").unwrap();
    let rows: Vec<String> = shares.iter().map(|(what, share)| share.row(what)).collect();
    println!("{}", rows.join("\n"));
    for ((what, share), row) in shares.iter().zip(&rows) {
        // All of the faults are ten times as many, and have no row of their own.
        if full() && what.starts_with("seeded") {
            assert!(share.mended * 4 > share.of_rules * 3, "{row}");
        } else {
            assert!(page.contains(row.as_str()), "the guide has another row than\n{row}");
        }
    }
}

#[test]
fn what_is_not_so_is_told() {
    let session = Session::default();
    let source = Source::new(
        "hide.stair",
        "stair \"hide\" {\n rules: residential\n flight { risers: 3 of 8\"; runs: 2 of 11\" } # of the yard\n}\n",
    );
    let good = session.mend(&source, None);
    assert_eq!(wrong(&session, &source, &good), Vec::<String>::new());
    assert!(!good.mends.is_empty());
    for (text, says) in [
        (good.source.text.replace("# of the yard", ""), "a remark is lost"),
        (good.source.text.replace("3 of 11\"", "3 of 5\""), "new:"),
        (good.source.text.replace("3 of 11\"", "3 of 11 florins"), "the readers find"),
        (source.text.to_string(), "a second run writes"),
    ] {
        assert_ne!(text, *good.source.text, "{says}");
        let mut spoilt = session.mend(&source, None);
        spoilt.source = Source::new("hide.stair", text);
        let told = wrong(&session, &source, &spoilt);
        assert!(told.iter().any(|told| told.starts_with(says)), "{says}: {told:?}");
    }
}

#[test]
fn remarks_are_found_beside_figures_and_texts() {
    assert_eq!(remarks("a: #10 # one\n\"# no\"\n b # two"), ["# one\n", "# two"]);
}

/// A folder of its own, gone afterwards.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("pitchboard-mend-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn put(&self, name: &str, text: &str) -> PathBuf {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, text).unwrap();
        path
    }

    /// Runs `mend` there: exit code, standard output, standard error.
    fn mend(&self, arguments: &[&str], input: &str) -> (i32, String, String) {
        let mut command = Command::new(env!("CARGO_BIN_EXE_pitchboard"));
        command.arg("mend").args(arguments).current_dir(&self.0).env("LC_ALL", "C.UTF-8").env("COLUMNS", "100");
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
    }

    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(&self.0).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

const TALL: &str = "stair \"hide\" {\n\trules: residential # the county asks\n\n    flight { risers: 3 of 8\"; runs: 2 of 11\"   }  # three up\n}";
const MENDED: &str = "stair \"hide\" {\n\trules: residential # the county asks\n\n    flight { risers: 4 of 6\"; runs: 3 of 11\"; handrail left { height: 36\" }   }  # three up\n}";

/// A patch laid over a text, by its line numbers and its own lines.
fn patched(text: &str, patch: &str) -> String {
    let old: Vec<&str> = text.split_inclusive('\n').collect();
    let (mut out, mut at) = (String::new(), 0);
    for line in patch.split_inclusive('\n').skip(2) {
        if let Some(head) = line.strip_prefix("@@ -") {
            let start: usize = head.split([',', ' ']).next().unwrap().parse().unwrap();
            out.extend(old[at..start - 1].iter().copied());
            at = start - 1;
        } else if let Some(added) = line.strip_prefix('+') {
            out.push_str(added);
        } else if line.starts_with('\\') {
            out.pop();
        } else {
            let (kept, line) = line.split_at(1);
            assert_eq!(old[at].trim_end_matches('\n'), line.trim_end_matches('\n'), "{patch}");
            if kept == " " {
                out.push_str(old[at]);
                if !old[at].ends_with('\n') {
                    out.push('\n');
                }
            }
            at += 1;
        }
    }
    out.extend(old[at..].iter().copied());
    out
}

#[test]
fn a_file_is_mended_in_place_and_a_second_run_leaves_it() {
    let folder = Folder::new("place");
    let path = folder.put("hide.stair", TALL);
    let (code, out, _) = folder.mend(&["hide.stair"], "");
    assert_eq!((code, fs::read_to_string(&path).unwrap().as_str()), (0, MENDED), "{out}");
    assert!(out.contains("1 change mends 1 of 1 finding") && out.contains("no permit and no approval"), "{out}");
    assert!(out.contains("line 4: `4 of 6\"` in place of `3 of 8\"`;"), "{out}");
    let written = fs::metadata(&path).unwrap().modified().unwrap();
    let (code, out, _) = folder.mend(&[], "");
    assert_eq!(code, 0);
    assert!(out.contains("nothing to mend"), "{out}");
    assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), written);
    assert_eq!(folder.names(), ["hide.stair"]);
}

#[test]
fn a_patch_makes_the_mended_text_and_touches_no_file() {
    let folder = Folder::new("patch");
    for text in [TALL.to_owned(), format!("{TALL}\n"), TALL.replace('\n', "\r\n"), format!("\u{feff}{TALL}")] {
        let path = folder.put("yard/hide.stair", &text);
        let (code, patch, told) = folder.mend(&["--patch", "yard"], "");
        assert_eq!((code, told.as_str()), (0, ""), "{patch}");
        assert!(patch.starts_with("--- a/yard/hide.stair\n+++ b/yard/hide.stair\n@@ "), "{patch}");
        assert_eq!(fs::read_to_string(&path).unwrap(), text);
        let (_, from_input, _) = folder.mend(&["-"], &text);
        assert_eq!(patched(&text, &patch), from_input);
        folder.mend(&["yard"], "");
        assert_eq!(fs::read_to_string(&path).unwrap(), from_input);
        let by_hand = text.replace("3 of 8\"", "4 of 6\"");
        let by_hand = by_hand.replace("2 of 11\"", "3 of 11\"; handrail left { height: 36\" }");
        assert_eq!(from_input, by_hand);
        assert_eq!(folder.mend(&["--patch", "yard"], ""), (0, String::new(), String::new()));
    }
}

#[test]
fn a_patch_that_would_command_a_log_is_withheld() {
    let folder = Folder::new("log");
    folder.put("a.stair", &TALL.replace("\n\n", "\n# remark\n::error::stolen\n"));
    let (code, out, told) = folder.mend(&["--patch", "a.stair"], "");
    assert_eq!(code, 2, "{out}{told}");
    assert!(out.is_empty() && told.contains("would be a command to a log"), "{out}{told}");
}

#[test]
fn the_exit_code_is_that_of_the_mended_design() {
    let folder = Folder::new("exit");
    // A fact of the site stays, and so does what misses by it.
    let low =
        "stair \"a\" { rules: residential; flight { risers: 2 of 7\"; runs: 10\" }; ceiling { headroom: 70\" } }\n";
    let path = folder.put("low.stair", low);
    let (code, out, _) = folder.mend(&["low.stair"], "");
    assert_eq!((code, fs::read_to_string(path).unwrap().as_str()), (1, low), "{out}");
    assert_eq!(folder.mend(&["gone.stair"], "").0, 2);
    assert_eq!(folder.mend(&["-"], low), (1, low.to_owned(), String::new()));
}

#[cfg(unix)]
#[test]
fn a_file_is_written_whole_with_its_permissions_or_not_at_all() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let set = |path: &Path, mode: u32| fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    let folder = Folder::new("whole");
    let path = folder.put("kept.stair", TALL);
    set(&path, 0o640);
    assert_eq!(folder.mend(&["kept.stair"], "").0, 0);
    assert_eq!((mode(&path), fs::read_to_string(&path).unwrap().as_str()), (0o640, MENDED));
    let path = folder.put("locked.stair", TALL);
    set(&path, 0o444);
    let (code, out, _) = folder.mend(&["locked.stair"], "");
    assert_eq!((code, fs::read_to_string(&path).unwrap().as_str()), (2, TALL), "{out}");
    assert!(out.contains("it was not mended, and stands as it was: there is no permission to write it"), "{out}");
    // A link within its folder stays a link; one that leads out of it is not followed.
    let real = folder.put("real.stair", TALL);
    symlink("real.stair", folder.0.join("link.stair")).unwrap();
    assert_eq!(folder.mend(&["link.stair"], "").0, 0);
    assert!(fs::symlink_metadata(folder.0.join("link.stair")).unwrap().is_symlink());
    assert_eq!(fs::read_to_string(&real).unwrap(), MENDED);
    let outside = Folder::new("outside");
    let secret = outside.put("secret.stair", TALL);
    symlink(&secret, folder.0.join("lead.stair")).unwrap();
    let (code, out, _) = folder.mend(&["lead.stair"], "");
    assert_eq!((code, fs::read_to_string(&secret).unwrap().as_str()), (2, TALL), "{out}");
    assert!(out.contains("a link that leads out of its folder"), "{out}");
    assert_eq!(folder.names(), ["kept.stair", "lead.stair", "link.stair", "locked.stair", "real.stair"]);
}

#[test]
fn advice_is_mended_too_and_a_remark_within_the_words_stays() {
    let session = Session::default();
    let design = |risers: &str| format!("stair \"a\" {{\n rules: residential\n flight {{ risers: {risers} }}\n}}\n");
    // The edit would take the remark with it: it is left to the writer.
    let source = Source::new("a.stair", design("8\", # the first\n 8\", 8\""));
    let mended = session.mend(&source, None);
    let (before, after) = (mended.before.report.findings.len(), mended.analysis().report.findings.len());
    assert!(mended.mends.is_empty() && before == after && before > 0, "{:?}", mended.mends);
    let advised = session
        .mend(&Source::new("a.stair", "stair { rules: workshop; flight { risers: 3 of 7\"; runs: 2 of 9\" } }"), None);
    assert!(advised.mends.iter().any(|mend| mend.cured.iter().all(|(severity, _)| *severity == Severity::Advised)));
}
