//! Holds every design of `examples/` and every case of `tests/cases/` to the findings marked in it: exactly
//! those, on exactly those lines. Adding a case is adding a file.
//!
//! A mark is a comment at the end of the line it speaks of: `#= broken riser height @ 4 of 8"` names the class,
//! the rule or the reader's notice, and the exact words that the finding's first label points at. A line may hold
//! several. Where a line can hold no comment (a quote left open swallows it), the mark stands on the next line and
//! begins with `#=^`. Findings about the drawing and about the measured work are marked alike.
//!
//! `UPDATE=1 cargo test --test suite cases` rewrites the marks in place; read the difference before you keep it.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use pitchboard::base::{Severity, Source, Span, lift, notices};
use pitchboard::check::{BUILT_IN, LoadedSet};
use pitchboard::cli::Disk;
use pitchboard::model::{SHOP_FILE, build_shop};
use pitchboard::rules::{self, Proof};
use pitchboard::session::{Files, Refusal, Session, ShopPlace};
use pitchboard::syntax;
use pitchboard::wording::{Message, messages};

/// The files of the cases; a shop's file is sought no further up than the folders that hold cases.
#[derive(Debug)]
struct Cases;

impl Files for Cases {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        Disk.read(path)
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn shop_above(&self, folder: &Path) -> Option<ShopPlace> {
        let found = folder.ancestors().find(|above| above.join(SHOP_FILE).is_file())?;
        let down = folder.strip_prefix(found).expect("below").to_string_lossy().into_owned();
        (!found.as_os_str().is_empty()).then(|| ShopPlace { folder: found.to_owned(), down })
    }
}

/// What is expected of a line, or what came of it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Mark {
    line: usize,
    said: String,
}

/// A finding as a mark, and its message for the one who reads a failure.
struct Came {
    mark: Mark,
    message: String,
}

/// Words on one line with single blanks; marks that stand among them are no part of them.
fn folded(words: &str) -> String {
    let bare = words.lines().map(|line| line.split("#=").next().unwrap_or_default());
    bare.flat_map(str::split_whitespace).collect::<Vec<_>>().join(" ")
}

fn said(severity: Severity, name: &str, words: &str) -> String {
    let words = folded(words);
    let at = if words.is_empty() { String::new() } else { format!(" @ {words}") };
    format!("{} {name}{at}", severity.word())
}

/// The marks of a text, and the text of each line without them.
fn marks(text: &str) -> (Vec<Mark>, Vec<&str>) {
    let mut marks = Vec::new();
    let mut bare = Vec::new();
    for (index, line) in text.split('\n').enumerate() {
        let mut pieces = line.split("#=");
        bare.push(pieces.next().unwrap_or_default());
        for piece in pieces {
            let (line, said) = match piece.strip_prefix('^') {
                Some(said) => (index, said),
                None => (index + 1, piece),
            };
            marks.push(Mark { line, said: folded(said) });
        }
    }
    (marks, bare)
}

fn came(source: &Source, finding: &Message) -> Came {
    let place = finding.labels.first().map(|label| label.span);
    let words = place.map_or("", |span| finding.source.slice(span));
    let mut line = place.map_or(1, |span| finding.source.line(span.start));
    let mut said = said(finding.severity, &finding.name, words);
    if finding.source != *source {
        // What another text is found to lack is marked on the first line, with the other's name.
        line = 1;
        let _ = write!(said, " (in {})", finding.source.name);
    }
    Came { mark: Mark { line, said }, message: finding.message.clone() }
}

/// Everything that checking a file finds; an error where the file proves nothing.
fn run(source: &Source) -> Result<Vec<Came>, String> {
    if source.name.ends_with(".rules") {
        return Ok(run_rules(source));
    }
    if source.name.ends_with(SHOP_FILE) {
        let (tree, slips) = syntax::parse_design(source);
        let mut found = lift(slips);
        build_shop(&tree, source, &mut found);
        return Ok(messages(&found).iter().map(|finding| came(source, finding)).collect());
    }
    let report = Session::new(Cases).check(source, None).report;
    let given_up = report.findings.iter().any(|finding| finding.severity() == Severity::Unchecked);
    if report.sets.is_empty() && !given_up && !source.text.contains("rules:") {
        return Err("is held to no ruleset: state `rules:`".to_owned());
    }
    Ok(messages(&report.findings).iter().map(|finding| came(source, finding)).collect())
}

fn run_rules(source: &Source) -> Vec<Came> {
    let LoadedSet { set, mut diagnostics } = Session::new(Cases).read_set(source);
    if diagnostics.iter().all(|slip| slip.severity() == Severity::Advised) {
        diagnostics.extend(rules::lacking_proof(&set));
        diagnostics.extend(rules::prove(&set).iter().filter_map(Proof::diagnostic));
    }
    messages(&diagnostics).iter().map(|finding| came(source, finding)).collect()
}

/// What a file should show and does not, and what it shows and should not; empty if all is as marked.
fn compare(source: &Source) -> String {
    let came = match run(source) {
        Ok(came) => came,
        Err(why) => return format!("{} {why}\n", source.name),
    };
    let (mut missing, bare) = marks(&source.text);
    let mut surplus = Vec::new();
    for came in came {
        match missing.iter().position(|mark| *mark == came.mark) {
            Some(at) => {
                missing.swap_remove(at);
            }
            None => surplus.push(came),
        }
    }
    if missing.is_empty() && surplus.is_empty() {
        return String::new();
    }
    missing.sort();
    let mut told = format!("{}\n", source.name);
    for mark in &missing {
        let _ = writeln!(told, "  line {}: marked and not found\n    #= {}", mark.line, mark.said);
    }
    for Came { mark, message } in &surplus {
        let line = bare.get(mark.line - 1).map_or("", |line| line.trim());
        let _ = writeln!(told, "  line {}: found and not marked ({message})", mark.line);
        let _ = writeln!(told, "    {line}  #= {}", mark.said);
    }
    told
}

/// The text with its marks replaced by what came.
fn rewritten(source: &Source) -> Result<String, String> {
    let came = run(source)?;
    let (old, bare) = marks(&source.text);
    let lines: Vec<&str> = source.text.split('\n').collect();
    let mut text = Vec::new();
    for (index, (bare, whole)) in bare.iter().zip(&lines).enumerate() {
        let of_line = |mark: &&Mark| mark.line == index + 1;
        let new: Vec<&Mark> = came.iter().map(|came| &came.mark).filter(of_line).collect();
        let mut before: Vec<&Mark> = old.iter().filter(of_line).collect();
        let mut after = new.clone();
        before.sort();
        after.sort();
        let above = bare.trim().is_empty() && whole.contains("#=^");
        if above {
            continue;
        }
        if before == after && !new.is_empty() && whole.contains("#=") {
            text.push((*whole).to_owned());
            continue;
        }
        let end = if whole.ends_with('\r') { "\r" } else { "" };
        let open = new.iter().any(|mark| mark.said.starts_with("unread unclosed quote"));
        let (sign, joint) = if open { ("#=^", format!("{end}\n")) } else { ("#=", "  ".to_owned()) };
        let mut line = if bare.len() < whole.len() || !new.is_empty() { bare.trim_end() } else { bare }.to_owned();
        for (nth, mark) in new.iter().enumerate() {
            let _ = write!(line, "{}{sign} {}", if nth == 0 { &joint } else { "  " }, mark.said);
        }
        if line.len() != bare.len() && !line.ends_with('\r') {
            line.push_str(end);
        }
        text.push(line);
    }
    Ok(text.join("\n"))
}

fn files(folder: &str) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(folder).sort_by_file_name().into_iter().filter_map(Result::ok);
    let is_case = |path: &Path| {
        path.extension().is_some_and(|ending| ending == "stair" || ending == "rules" || ending == "pitchboard")
    };
    entries.map(walkdir::DirEntry::into_path).filter(|path| is_case(path)).collect()
}

fn hold(folder: &str, fewest: usize) {
    let files = files(folder);
    assert!(files.len() >= fewest, "{folder} holds {} files, {fewest} were expected at least", files.len());
    let mut told = String::new();
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        let source = Source::new(path.to_string_lossy(), &text);
        if std::env::var_os("UPDATE").is_some() {
            match rewritten(&source) {
                Ok(new) if new != text => match std::fs::write(&path, new) {
                    Ok(()) => {}
                    Err(why) => told.push_str(&format!("{}: {why}\n", source.name)),
                },
                Ok(_) => {}
                Err(why) => told.push_str(&format!("{} {why}\n", source.name)),
            }
        } else {
            told.push_str(&compare(&source));
        }
    }
    assert!(told.is_empty(), "\n{told}\nUPDATE=1 rewrites the marks in place.");
}

#[test]
fn examples_show_what_is_marked_and_nothing_else() {
    hold("examples", 9);
}

#[test]
fn cases_show_what_is_marked_and_nothing_else() {
    hold("tests/cases", 150);
}

/// Notices about files rather than texts, and about more things than a case should hold; other tests show these.
const ELSEWHERE: &[&str] =
    &["too large", "not text", "unreadable", "no designs", "too many things", "amended too deep"];

#[test]
fn every_rule_and_every_notice_has_a_case() {
    let mut wanted: Vec<String> = notices::NOTICES.iter().map(|notice| notice.name().to_owned()).collect();
    wanted.retain(|name| !ELSEWHERE.contains(&name.as_str()));
    let shown = shown("tests/cases");
    wanted.retain(|name| !shown.contains(name));
    assert!(wanted.is_empty(), "no case shows {wanted:?}");

    for (set, text) in BUILT_IN {
        // What the set itself states: its own rules, and those of another that it amends.
        let stated = text.lines().filter_map(|line| {
            let opened = line.trim().strip_prefix("rule \"").or_else(|| line.trim().strip_prefix("amend \""))?;
            opened.split('"').next()
        });
        let folder = self::shown(&format!("tests/cases/{set}"));
        let missing: Vec<&str> = stated.filter(|name| !folder.contains(*name)).collect();
        assert!(missing.is_empty(), "no case of tests/cases/{set} shows {missing:?}");
    }
}

/// The names of everything that the marks of a folder show.
fn shown(folder: &str) -> std::collections::BTreeSet<String> {
    let mut shown = std::collections::BTreeSet::new();
    for path in files(folder) {
        let text = std::fs::read_to_string(path).unwrap_or_default();
        for mark in marks(&text).0 {
            let named = mark.said.split(" @ ").next().and_then(|head| head.split_once(' '));
            shown.extend(named.map(|(_, name)| name.to_owned()));
        }
    }
    shown
}

/// The runner itself: a mark too many, a mark too few, a mark on the wrong line or words, all are told.
#[test]
fn a_wrong_mark_is_reported() {
    let design = |risers: &str, rules: &str| {
        Source::new(
            "hide.stair",
            format!("stair \"hide\" {{\n    {rules}\n    flight {{ risers: 3 of 8\" }}{risers}\n}}\n"),
        )
    };
    let asks = "rules: residential";
    let right = "  #= broken riser height @ 3 of 8\"";
    assert_eq!(compare(&design(right, asks)), "");

    let none = compare(&design("", asks));
    assert!(none.contains("line 3: found and not marked"), "{none}");
    assert!(none.contains("flight { risers: 3 of 8\" }  #= broken riser height @ 3 of 8\""), "{none}");

    let more = compare(&design(&format!("{right}  #= advised eased edge @ square"), asks));
    assert!(more.contains("line 3: marked and not found\n    #= advised eased edge @ square"), "{more}");
    assert!(!more.contains("not marked"), "{more}");

    let twice = compare(&design(&format!("{right}{right}"), asks));
    assert!(twice.contains("marked and not found"), "{twice}");

    for wrong in [
        "#= broken riser height @ 3 of 7\"",
        "#= advised riser height @ 3 of 8\"",
        "\n#= broken riser height @ 3 of 8\"",
    ] {
        let told = compare(&design(&format!("  {wrong}"), asks));
        assert!(told.contains("marked and not found") && told.contains("found and not marked"), "{wrong}: {told}");
    }

    let unheld = compare(&design(right, "use: dwelling"));
    assert!(unheld.contains("no rules asked for"), "{unheld}");
}

#[test]
fn marks_are_rewritten_in_place() {
    let source = |text: &str| Source::new("hide.stair", text);
    let old = "stair \"hide\" {\r\n    rules: residential #= broken riser height @ stair\r\n    setting: \"indoors\r\n    flight { risers: 3 of 8\" } # tall\r\n}\r\n";
    let new = rewritten(&source(old)).unwrap_or_default();
    let want = "stair \"hide\" {\r\n    rules: residential\r\n    setting: \"indoors\r\n#=^ unread unclosed quote @ \"\r\n    flight { risers: 3 of 8\" } # tall  #= broken riser height @ 3 of 8\"\r\n}\r\n";
    assert_eq!(new, want);
    assert_eq!(compare(&source(&new)), "");
    assert_eq!(rewritten(&source(&new)).unwrap_or_default(), new);
}

/// Words that run over several lines are marked as if on one, and a mark among them is no part of them.
#[test]
fn words_over_several_lines_are_one_mark() {
    let source = Source::new("hide.rules", "one  #= broken x @ one two\n  two");
    assert_eq!(said(Severity::Broken, "x", source.slice(Span::new(0, source.text.len()))), "broken x @ one two");
}
