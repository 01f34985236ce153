//! Holds every design of `examples/` and every case of `tests/cases/` to the findings marked in it: exactly
//! those, on exactly those lines. Adding a case is adding a file.
//!
//! A mark is a comment at the end of the line it speaks of: `#= broken riser height @ 4 of 8"` names the class,
//! the rule or the reader's notice, and the exact words that the finding's first label points at. A line may hold
//! several. Where a line can hold no comment (a quote left open swallows it), the mark stands on the next line and
//! begins with `#=^`. Findings about the drawing and about the measured work are marked alike. What a waiver excuses
//! is marked `#= waived broken riser height @ 4 of 8"`; the cases are checked on one day, that of `session`.
//!
//! A design may say at its head which rules it is about, one a line: `#= about riser height`. Then only what those rules
//! find, and what the readers find, is held to its marks; what other rules find is ignored, so a broad new rule leaves
//! it as it is. The rule has to stand in a set that the design is held to.
//!
//! `UPDATE=1 cargo test --test suite cases` rewrites the marks in place; read the difference before you keep it.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use crate::marks::{Mark, Marked, WAIVED, marks, said};
use crate::switches::update;
use pitchboard::base::{Day, Severity, Source, Span, lift, notices};
use pitchboard::check::{Analysis, BUILT_IN, LoadedSet};
use pitchboard::cli::Disk;
use pitchboard::model::{SHOP_FILE, build_shop};
use pitchboard::rules::{self, Proof};
use pitchboard::session::{Files, Refusal, Session, ShopPlace};
use pitchboard::syntax;
use pitchboard::wording::{Message, messages};

/// The files of the cases; a shop's file is sought no further up than the folders that hold cases.
#[derive(Debug)]
pub struct Cases;

impl Files for Cases {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        Disk.read(path)
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn shops_above(&self, folder: &Path) -> Vec<ShopPlace> {
        let above = folder.ancestors().filter(|above| !above.as_os_str().is_empty());
        let with_shop = above.filter(|above| above.join(SHOP_FILE).is_file());
        with_shop.map(|above| ShopPlace::new(above.to_owned(), folder.strip_prefix(above).expect("below"))).collect()
    }
}

/// A finding as a mark, and its message for the one who reads a failure.
struct Came {
    mark: Mark,
    /// Of the rule or the reader's notice.
    name: String,
    message: String,
}

fn came(source: &Source, finding: &Message) -> Came {
    let place = finding.labels.first().map(|label| label.span);
    let words = place.map_or("", |span| finding.source.slice(span));
    let mut line = place.map_or(1, |span| finding.source.line(span.start));
    let mut said = said(finding.severity, &finding.name, words);
    if finding.waived.is_some() {
        said.insert_str(0, WAIVED);
    }
    if finding.source != *source {
        // What another text is found to lack is marked on the first line, with the other's name.
        line = 1;
        let _ = write!(said, " (in {})", finding.source.name);
    }
    Came { mark: Mark { line, said }, name: finding.name.clone(), message: finding.message.clone() }
}

/// What checking a file comes to.
struct Checked {
    came: Vec<Came>,
    /// The rules that it was held to; none for a set and for a shop's file, in which only the readers find anything.
    rules: Option<BTreeSet<String>>,
}

/// Everything that checking a file finds; an error where the file proves nothing.
fn run(source: &Source, session: &Session) -> Result<Checked, String> {
    if source.name.ends_with(".rules") {
        return Ok(Checked { came: run_rules(source, session), rules: None });
    }
    if source.name.ends_with(SHOP_FILE) {
        let (tree, slips) = syntax::parse_design(source);
        let mut found = lift(slips);
        build_shop(&tree, source, &mut found);
        return Ok(Checked {
            came: messages(&found).iter().map(|finding| came(source, finding)).collect(),
            rules: None,
        });
    }
    let Analysis { report, sets, .. } = session.check(source, None);
    let given_up = report.findings.iter().any(|finding| finding.severity() == Severity::Unchecked);
    if report.sets.is_empty() && !given_up && !source.text.contains("rules:") {
        return Err("is held to no ruleset: state `rules:`".to_owned());
    }
    let came = messages(&report.findings).iter().map(|finding| came(source, finding)).collect();
    let rules = sets.iter().flat_map(|loaded| &loaded.set.rules).map(|rule| rule.name.clone()).collect();
    Ok(Checked { came, rules: Some(rules) })
}

fn run_rules(source: &Source, session: &Session) -> Vec<Came> {
    let LoadedSet { set, mut diagnostics } = session.read_set(source);
    if diagnostics.iter().all(|slip| slip.severity() == Severity::Advised) {
        diagnostics.extend(rules::lacking_proof(&set));
        diagnostics.extend(rules::prove(&set).iter().filter_map(Proof::diagnostic));
    }
    messages(&diagnostics).iter().map(|finding| came(source, finding)).collect()
}

fn is_notice(name: &str) -> bool {
    notices::NOTICES.iter().any(|notice| notice.name() == name)
}

/// What is held to the marks, and what is not because the file is about other rules.
fn held(came: Vec<Came>, about: &[String]) -> (Vec<Came>, Vec<Came>) {
    came.into_iter().partition(|came| about.is_empty() || about.contains(&came.name) || is_notice(&came.name))
}

/// What is wrong with the rules that a file says it is about; empty if nothing is.
fn wrong_about(about: &[String], marks: &[Mark], rules: Option<&BTreeSet<String>>) -> String {
    let mut told = String::new();
    if about.is_empty() {
        return told;
    }
    let Some(rules) = rules else { return "  says what it is about; only a design is held to rules\n".to_owned() };
    for name in about.iter().filter(|name| !rules.contains(name.as_str())) {
        let _ = writeln!(told, "  is about `{name}`; no set that it is held to has such a rule");
    }
    for mark in marks {
        let name = mark.name();
        if !is_notice(name) && !about.iter().any(|about| about == name) {
            let _ = writeln!(told, "  line {}: marks `{name}`, and the file is not about it", mark.line);
        }
    }
    told
}

/// What a file should show and does not, and what it shows and should not; empty if all is as marked.
fn compare(source: &Source, session: &Session) -> String {
    let Checked { came, rules } = match run(source, session) {
        Ok(checked) => checked,
        Err(why) => return format!("{} {why}\n", source.name),
    };
    let Marked { mut marks, bare, about } = marks(&source.text);
    let mut told = wrong_about(&about, &marks, rules.as_ref());
    let (held, ignored) = held(came, &about);
    let mut surplus = Vec::new();
    for came in held {
        match marks.iter().position(|mark| *mark == came.mark) {
            Some(at) => {
                marks.swap_remove(at);
            }
            None => surplus.push(came),
        }
    }
    marks.sort();
    for mark in &marks {
        let _ = writeln!(told, "  line {}: marked and not found\n    #= {}", mark.line, mark.said);
    }
    for Came { mark, message, .. } in &surplus {
        let line = bare.get(mark.line - 1).map_or("", |line| line.trim());
        let _ = writeln!(told, "  line {}: found and not marked ({message})", mark.line);
        let _ = writeln!(told, "    {line}  #= {}", mark.said);
    }
    if told.is_empty() {
        return told;
    }
    if !ignored.is_empty() {
        let names: Vec<String> =
            ignored.iter().map(|came| format!("{} (line {})", came.name, came.mark.line)).collect();
        let _ = writeln!(told, "  ignored, for it is about {}: {}", about.join(", "), names.join(", "));
    }
    format!("{}\n{told}", source.name)
}

/// The text with its marks replaced by what came.
fn rewritten(source: &Source, session: &Session) -> Result<String, String> {
    let Marked { marks: old, bare, about } = marks(&source.text);
    let (came, _) = held(run(source, session)?.came, &about);
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
        let open = new.iter().any(|mark| mark.said.starts_with("not understood unclosed quote"));
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

/// How many there must be is for `folders.rs` to say.
fn hold(folder: &str) {
    let files = files(folder);
    assert!(!files.is_empty(), "{folder} holds nothing");
    let session = session();
    let mut told = String::new();
    for path in files {
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        let source = Source::new(path.to_string_lossy(), &text);
        if update() {
            match rewritten(&source, &session) {
                Ok(new) if new != text => match std::fs::write(&path, new) {
                    Ok(()) => {}
                    Err(why) => told.push_str(&format!("{}: {why}\n", source.name)),
                },
                Ok(_) => {}
                Err(why) => told.push_str(&format!("{} {why}\n", source.name)),
            }
        } else {
            told.push_str(&compare(&source, &session));
        }
    }
    assert!(told.is_empty(), "\n{told}\nUPDATE=1 rewrites the marks in place.");
}

#[test]
fn examples_show_what_is_marked_and_nothing_else() {
    hold("examples");
}

#[test]
fn cases_show_what_is_marked_and_nothing_else() {
    hold("tests/cases");
}

/// Notices about files rather than texts, and about more things than a case should hold; other tests show these.
const ELSEWHERE: &[&str] =
    &["too large", "not text", "unreadable", "no designs", "too many things", "amended too deep", "no example notices"];

#[test]
fn every_rule_and_every_notice_has_a_case() {
    let shown = shown("tests/cases");
    let excused = |name: &str| ELSEWHERE.contains(&name);
    let names = || notices::NOTICES.iter().map(|notice| notice.name());
    let missing: Vec<&str> = names().filter(|name| !excused(name) && !shown.contains(*name)).collect();
    assert!(missing.is_empty(), "no case shows {missing:?}");
    let idle: Vec<&&str> = ELSEWHERE.iter().filter(|name| shown.contains(**name) || !is_notice(name)).collect();
    assert!(idle.is_empty(), "excused without need: {idle:?}");

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
fn shown(folder: &str) -> BTreeSet<String> {
    let mut shown = BTreeSet::new();
    for path in files(folder) {
        let text = std::fs::read_to_string(path).unwrap_or_default();
        shown.extend(marks(&text).marks.iter().map(|mark| mark.name().to_owned()));
    }
    shown
}

/// The cases are checked on the same day for ever.
pub fn session() -> Session {
    Session::new(Cases).on(Day::of("2026-06-01").expect("a day"))
}

fn told_of(source: &Source) -> String {
    compare(source, &session())
}

fn anew(source: &Source) -> Result<String, String> {
    rewritten(source, &session())
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
    assert_eq!(told_of(&design(right, asks)), "");

    let none = told_of(&design("", asks));
    assert!(none.contains("line 3: found and not marked"), "{none}");
    assert!(none.contains("flight { risers: 3 of 8\" }  #= broken riser height @ 3 of 8\""), "{none}");

    let more = told_of(&design(&format!("{right}  #= advised eased edge @ square"), asks));
    assert!(more.contains("line 3: marked and not found\n    #= advised eased edge @ square"), "{more}");
    assert!(!more.contains("not marked"), "{more}");

    let twice = told_of(&design(&format!("{right}{right}"), asks));
    assert!(twice.contains("marked and not found"), "{twice}");

    for wrong in [
        "#= broken riser height @ 3 of 7\"",
        "#= advised riser height @ 3 of 8\"",
        "\n#= broken riser height @ 3 of 8\"",
    ] {
        let told = told_of(&design(&format!("  {wrong}"), asks));
        assert!(told.contains("marked and not found") && told.contains("found and not marked"), "{wrong}: {told}");
    }

    let unheld = told_of(&design(right, "use: dwelling"));
    assert!(unheld.contains("no rules asked for"), "{unheld}");
}

#[test]
fn marks_are_rewritten_in_place() {
    let source = |text: &str| Source::new("hide.stair", text);
    let old = "stair \"hide\" {\r\n    rules: residential #= broken riser height @ stair\r\n    setting: \"indoors\r\n    flight { risers: 3 of 8\" } # tall\r\n}\r\n";
    let new = anew(&source(old)).unwrap_or_default();
    let want = "stair \"hide\" {\r\n    rules: residential\r\n    setting: \"indoors\r\n#=^ not understood unclosed quote @ \"\r\n    flight { risers: 3 of 8\" } # tall  #= broken riser height @ 3 of 8\"\r\n}\r\n";
    assert_eq!(new, want);
    assert_eq!(told_of(&source(&new)), "");
    assert_eq!(anew(&source(&new)).unwrap_or_default(), new);
}

/// A design that is about a rule is held to that rule and to the readers.
#[test]
fn a_case_about_a_rule_is_held_to_that_rule() {
    let design = |head: &str, flight: &str, more: &str| {
        let text =
            format!("{head}stair \"hide\" {{\n    rules: residential\n    flight {{ {flight}\n    }}{more}\n}}\n");
        told_of(&Source::new("hide.stair", text))
    };
    let two = "risers: 7\", 8\"";
    let both = design("", two, "");
    assert!(both.contains("found and not marked") && both.contains("riser spread"), "{both}");
    let about = "# A hide.\n\n#= about riser height\n";
    assert_eq!(design(about, &format!("{two}  #= broken riser height @ 8\""), ""), "", "another rule is ignored");

    let unmarked = design(about, two, "");
    assert!(unmarked.contains("#= broken riser height @ 8\""), "{unmarked}");
    assert!(unmarked.contains("  ignored, for it is about riser height: riser spread (line "), "{unmarked}");
    assert!(!unmarked.contains("#= broken riser spread"), "{unmarked}");

    let gone = design(about, "risers: 7\", 7\"  #= broken riser height @ 8\"", "");
    assert!(gone.contains("marked and not found\n    #= broken riser height"), "{gone}");
    let reader = design(about, "risers: 7\", 7\"", "\n    colour: green");
    assert!(reader.contains("found and not marked") && reader.contains("unknown property @ colour"), "{reader}");

    let two_rules = format!("{about}#= about riser spread\n");
    let missing = design(&two_rules, &format!("{two}  #= broken riser height @ 8\""), "");
    assert!(missing.contains("#= broken riser spread"), "{missing}");

    let unknown = design("#= about riser hight\n", "risers: 7\", 7\"", "");
    assert!(unknown.contains("is about `riser hight`; no set that it is held to has such a rule"), "{unknown}");
    let of_another_set = design("#= about pitch\n", "risers: 7\", 7\"", "");
    assert!(of_another_set.contains("is about `pitch`"), "{of_another_set}");
    let other = design(about, &format!("{two}  #= broken riser height @ 8\"  #= broken riser spread @ 8\""), "");
    assert!(other.contains("marks `riser spread`, and the file is not about it"), "{other}");
    let late = design("", "risers: 7\", 7\"", "\n#= about riser height");
    assert!(late.contains("marked and not found\n    #= about riser height"), "only at the head: {late}");
    let set = told_of(&Source::new("hide.rules", "#= about riser height\nruleset \"s\" { }\n"));
    assert!(set.contains("only a design is held to rules"), "{set}");

    let old = "#= about riser height\nstair \"hide\" {\n    rules: residential\n    flight { risers: 7\", 8\" }\n}\n";
    let new = anew(&Source::new("hide.stair", old)).unwrap();
    assert_eq!(new, old.replace("8\" }", "8\" }  #= broken riser height @ 8\""));
}

/// Words that run over several lines are marked as if on one, and a mark among them is no part of them.
#[test]
fn words_over_several_lines_are_one_mark() {
    let source = Source::new("hide.rules", "one  #= broken x @ one two\n  two");
    assert_eq!(said(Severity::Broken, "x", source.slice(Span::new(0, source.text.len()))), "broken x @ one two");
}
