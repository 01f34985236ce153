//! One owner of texts, sets and analyses: a design comes to the same alone and beside any others, in any order, and
//! what is remembered is dropped when a text that it rests on changes.

use std::path::Path;
use std::sync::Arc;

use pitchboard::base::Source;
use pitchboard::check::Analysis;
use pitchboard::report::{self, Look};
use pitchboard::session::{Memory, Session};

const LAX: &str = "ruleset \"Lax\" { }\nrule \"riser height\" { limit tallest: 10\"; each riser shall have height <= tallest; source: \"common practice\" }\n";
const STRICT: &str = "ruleset \"Strict\" { }\nrule \"riser height\" { limit tallest: 6\"; each riser shall have height <= tallest; source: \"common practice\" }\n";
const OVER: &str = "ruleset \"Over\" { amends: \"below.rules\" }\n";

fn design(rules: &str) -> String {
    format!("stair \"hide\" {{ rules: {rules}; flight {{ risers: 3 of 8\"; runs: 2 of 10\" }} }}")
}

fn drawn(analysis: &Analysis) -> String {
    report::report(&analysis.report, &Look { colour: false, unicode: true, width: 100, list_not_checked: true })
}

fn broken(analysis: &Analysis) -> Vec<&str> {
    analysis.report.findings.iter().map(|finding| finding.name()).collect()
}

#[test]
fn a_session_can_be_shared_between_threads() {
    fn shared<T: Send + Sync>() {}
    shared::<Session>();
    shared::<Analysis>();
}

/// A file whose name looks like a shipped set's does not stand in for it in the designs that come after.
#[test]
fn a_set_is_known_by_the_file_that_it_is() {
    let files = || {
        Memory::new()
            .with("yard/built-in residential", LAX)
            .with("yard/d/../built-in residential", LAX)
            .with("yard/own.rules", LAX)
            .with("marsh/own.rules", STRICT)
    };
    let designs = [
        ("yard/a.stair", design("\"d/../built-in residential\"")),
        ("yard/b.stair", design("residential")),
        ("yard/c.stair", design("\"residential/\"")),
        ("yard/d.stair", design("\"own.rules\"")),
        ("marsh/e.stair", design("\"own.rules\"")),
        ("marsh/f.stair", design("\"../yard/own.rules\", \"own.rules\"")),
    ];
    let source = |at: usize| Source::new(designs[at].0, &designs[at].1);
    let alone = |at: usize| drawn(&Session::new(files()).check(&source(at), None));
    for order in [[0, 1, 2, 3, 4, 5], [5, 4, 3, 2, 1, 0], [3, 5, 0, 4, 1, 2]] {
        let together = Session::new(files());
        for at in order {
            assert_eq!(drawn(&together.check(&source(at), None)), alone(at), "{} in {order:?}", designs[at].0);
        }
    }
    assert!(broken(&Session::new(files()).check(&source(1), None)).contains(&"riser height"));
    assert!(!broken(&Session::new(files()).check(&source(0), None)).contains(&"riser height"));
}

/// Every example says the same in one session as in one of its own.
#[test]
fn an_example_comes_to_the_same_beside_the_others() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut paths: Vec<_> = walkdir::WalkDir::new(root.join("examples")).into_iter().map(|e| e.unwrap()).collect();
    paths.retain(|entry| entry.path().extension().is_some_and(|end| end == "stair"));
    assert!(paths.len() > 20, "only {} examples", paths.len());
    let sources: Vec<Source> = paths
        .iter()
        .map(|entry| Source::new(entry.path().to_string_lossy(), std::fs::read_to_string(entry.path()).unwrap()))
        .collect();
    let together = Session::new(pitchboard::cli::Disk);
    for source in sources.iter().rev() {
        let alone = Session::new(pitchboard::cli::Disk).check(source, None);
        assert_eq!(drawn(&together.check(source, None)), drawn(&alone), "{}", source.name);
    }
}

#[test]
fn a_text_that_lies_over_a_file_counts_until_it_is_taken_away() {
    let session = Session::new(Memory::new().with("a.stair", design("\"own.rules\"")).with("own.rules", LAX));
    let said = || broken(&session.analyse("a.stair").unwrap()).into_iter().map(str::to_owned).collect::<Vec<_>>();
    assert!(said().is_empty());
    session.open("own.rules", STRICT);
    assert_eq!(said(), ["riser height"]);
    session.open("a.stair", design("\"own.rules\"").replace("8\"", "5\""));
    assert!(said().is_empty());
    session.close("a.stair");
    assert_eq!(said(), ["riser height"]);
    session.close("own.rules");
    assert!(said().is_empty());
}

/// A change makes the designs stale that rest on the text, through any number of sets, and no others.
#[test]
fn a_change_reaches_what_rests_on_it_and_nothing_else() {
    let files = Memory::new().with("below.rules", LAX).with("over.rules", OVER).with("other.rules", LAX);
    let session = Session::new(files);
    session.open("a.stair", design("\"over.rules\""));
    session.open("b.stair", design("\"other.rules\""));
    let both = || (session.analyse("a.stair").unwrap(), session.analyse("b.stair").unwrap());
    let (a, b) = both();
    assert!(broken(&a).is_empty() && broken(&b).is_empty());
    let (again, other) = both();
    assert!(Arc::ptr_eq(&a, &again) && Arc::ptr_eq(&b, &other), "nothing changed, and all was made anew");
    session.open("below.rules", STRICT);
    let (after, beside) = both();
    assert_eq!(broken(&after), ["riser height"]);
    assert!(Arc::ptr_eq(&b, &beside), "b rests on no text that changed");
}

/// A shop's file that comes, changes and goes.
#[test]
fn a_shop_is_a_text_like_any_other() {
    let shop = |rules: &str| format!("shop \"Marsh joinery\" {{ rules: {rules} }}");
    let bare = "stair \"hide\" { flight { risers: 3 of 8\"; runs: 2 of 10\" } }";
    let files = Memory::new().with("yard/shop.pitchboard", shop("\"lax.rules\"")).with("yard/lax.rules", LAX);
    let session = Session::new(files.with("yard/strict.rules", STRICT));
    session.open("yard/hides/a.stair", bare);
    assert!(broken(&session.analyse("yard/hides/a.stair").unwrap()).is_empty());
    session.open("yard/shop.pitchboard", shop("\"strict.rules\""));
    assert_eq!(broken(&session.analyse("yard/hides/a.stair").unwrap()), ["riser height"]);
}

/// Threads that ask one session at once get what each would get alone.
#[test]
fn many_may_ask_at_once() {
    let session = Session::default();
    let asked: Vec<String> =
        (0..8).map(|at| design("residential").replace("8\"", &format!("{}\"", 6 + at % 3))).collect();
    let alone: Vec<String> =
        asked.iter().map(|text| drawn(&Session::default().check(&Source::new("a.stair", text), None))).collect();
    let session = &session;
    std::thread::scope(|scope| {
        let threads: Vec<_> = asked
            .iter()
            .map(|text| scope.spawn(move || drawn(&session.check(&Source::new("a.stair", text), None))))
            .collect();
        for (thread, alone) in threads.into_iter().zip(&alone) {
            assert_eq!(&thread.join().unwrap(), alone);
        }
    });
}
