//! The whole path, held to what must be so of any text: read by `recovery.rs`, `corpus.rs` and the fuzz targets.

use pitchboard::base::{Source, Span};
use pitchboard::check::{LoadedSet, Report};
use pitchboard::model::{self, Design};
use pitchboard::report::{self, Look};
use pitchboard::rules;
use pitchboard::session::{Memory, Session};
use pitchboard::syntax::{self, Item, Language, Term, tidy};
use pitchboard::wording::{Message, messages};

thread_local! {
    // Both sets are read once for all the cases of a thread.
    static SESSION: Session = Session::default();
}

fn look(colour: bool, unicode: bool) -> Look {
    Look { colour, unicode, width: 80, list_not_checked: true }
}

fn whole(source: &Source, span: Span) {
    let (start, end) = (span.start as usize, span.end as usize);
    assert!(source.text.get(start..end).is_some(), "{span:?} in {} bytes of {:?}", source.text.len(), source.name);
}

pub fn labels_are_whole(finding: &Message) {
    finding.labels.iter().for_each(|label| whole(&finding.source, label.span));
    if let Some(beside) = &finding.beside {
        beside.labels.iter().for_each(|label| whole(&beside.source, label.span));
    }
    if let Some(clause) = &finding.clause {
        whole(&clause.source, clause.clause);
        clause.limits.iter().for_each(|limit| whole(&clause.source, limit.span));
        for amended in &clause.amended {
            amended.changes.iter().for_each(|label| whole(&amended.source, label.span));
        }
    }
}

/// Control characters, and those that turn the order of what is shown (Unicode Standard Annex 9).
fn is_raw(c: char) -> bool {
    (c.is_control() && c != '\n') || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

fn is_clean(drawn: &str) {
    let raw: Vec<char> = drawn.chars().filter(|c| is_raw(*c)).collect();
    assert!(raw.is_empty(), "{raw:?} in {drawn:?}");
}

/// Takes out the colours, `ESC [ digits and semicolons m`.
fn uncoloured(drawn: &str) -> String {
    let mut parts = drawn.split("\u{1b}[");
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let rest = part.trim_start_matches(|c: char| c.is_ascii_digit() || c == ';');
        out.push_str(rest.strip_prefix('m').unwrap_or(part));
    }
    out
}

/// No sum that came to nothing a rule can show is shown, unless the text itself says so.
fn figures_are_finite(text: &str, drawn: &str) {
    for unreal in ["NaN", "inf"] {
        if text.contains(unreal) {
            continue;
        }
        let stands = drawn.split(|c: char| !c.is_alphanumeric()).any(|word| word == unreal);
        assert!(!stands, "{unreal} in {drawn}");
    }
}

/// What a report points at lies on whole characters.
pub fn points_are_whole(report: &Report) {
    messages(&report.findings).iter().for_each(labels_are_whole);
    report.not_checked.iter().for_each(|item| whole(&report.source, item.span));
}

/// As above, and it is drawn without a raw control character in every look.
pub fn is_sound(report: &Report) {
    points_are_whole(report);
    is_clean(&report::report(report, &look(false, false)));
    let drawn = report::report(report, &look(false, true));
    is_clean(&drawn);
    figures_are_finite(&report.source.text, &drawn);
    is_clean(&uncoloured(&report::report(report, &look(true, true))));
}

/// A design held to what it asks for, and to both shipped sets.
pub fn check(text: &str) -> Report {
    SESSION.with(|session| is_sound(&session.check(&Source::new("case.stair", text), None).report));
    let report = held_to_both(text);
    is_sound(&report);
    report
}

/// A design held to both shipped sets.
pub fn held_to_both(text: &str) -> Report {
    let asked = ["residential".to_owned(), "workshop".to_owned()];
    SESSION.with(|session| session.check(&Source::new("case.stair", text), Some(&asked)).report)
}

/// The terminal rendering of a report, in one look; the other looks differ in their signs only.
pub fn is_drawn(report: &Report) {
    points_are_whole(report);
    let drawn = uncoloured(&report::report(report, &look(true, true)));
    is_clean(&drawn);
    figures_are_finite(&report.source.text, &drawn);
}

fn terms_are_whole(terms: &[Term], source: &Source) {
    terms.iter().for_each(|term| whole(source, term.span));
}

fn items_are_whole(items: &[Item], source: &Source) {
    for item in items {
        match item {
            Item::Property { name_span, value, value_span, .. } => {
                whole(source, *name_span);
                whole(source, *value_span);
                terms_are_whole(value, source);
            }
            Item::Block { head, head_span, body, .. } => {
                whole(source, *head_span);
                terms_are_whole(head, source);
                items_are_whole(body, source);
            }
            Item::Malformed { terms, span } | Item::Damaged { terms, span } => {
                whole(source, *span);
                terms_are_whole(terms, source);
            }
            Item::Clause(span) => whole(source, *span),
            Item::Condition { word, span: condition, .. } => {
                whole(source, *word);
                whole(source, *condition);
            }
            Item::Fragment(fragment) => whole(source, fragment.span),
        }
    }
}

fn design_is_whole(design: &Design, source: &Source) {
    for element in &design.elements {
        whole(source, element.span);
        element.stated.iter().for_each(|stated| whole(source, stated.span));
    }
}

/// A design read to its tree and to what it states.
pub fn read_design(text: &str) {
    let source = Source::new("case.stair", text);
    is_tidied_once(&source, Language::Design);
    let (tree, slips) = syntax::parse_design(&source);
    let mut findings = pitchboard::base::lift(slips);
    items_are_whole(&tree.items, &source);
    let stairs = model::build(&tree, &source, &mut findings);
    messages(&findings).iter().for_each(labels_are_whole);
    for stair in &stairs {
        design_is_whole(&stair.drawn, &source);
        stair.measured.iter().for_each(|design| design_is_whole(design, &source));
        stair.rules.iter().for_each(|(_, span)| whole(&source, *span));
    }
}

/// A text tidied: what it holds but blanks stays, and once is enough.
pub fn is_tidied_once(source: &Source, language: Language) {
    let tidying = tidy(source, language);
    tidying.edits.iter().for_each(|edit| whole(source, edit.span));
    let once = Source::new("once", tidying.apply(source));
    let held = |source: &Source| source.text.replace(char::is_whitespace, "");
    assert_eq!(held(&once), held(source));
    assert_eq!(tidy(&once, language).edits, [], "tidied twice: {:?}", once.text);
}

/// A ruleset read, told of, and proved.
pub fn check_rules(text: &str) {
    let source = Source::new("case.rules", text);
    is_tidied_once(&source, Language::Rules);
    let LoadedSet { set, diagnostics } = Session::default().read_set(&source);
    let found = messages(&diagnostics);
    found.iter().for_each(labels_are_whole);
    for message in found.iter().take(40) {
        is_clean(&report::message(message, &look(false, true)));
    }
    for proof in rules::prove(&set) {
        whole(&proof.source, proof.span);
    }
}

/// A design of ours held to a ruleset.
pub fn hold_to(text: &str, design: &str) {
    let session = Session::new(Memory::new().with("case.rules", text));
    let asked = ["case.rules".to_owned()];
    let report = session.check(&Source::new("case.stair", design), Some(&asked)).report;
    points_are_whole(&report);
    let drawn = uncoloured(&report::report(&report, &look(true, true)));
    is_clean(&drawn);
    figures_are_finite(text, &drawn);
}

/// Designs of ours below the file of a shop.
pub fn lie_under(text: &str) {
    let session = Session::new(Memory::new().with(model::SHOP_FILE, text));
    let bare = "stair \"a\" { flight { risers: 2 of 8\"; runs: 10\" }; handrail left { section: marsh rail } }";
    let joined = "stair \"b\" { rules: workshop; post \"newel\" { section: 4x4; timber: bog oak }; stringer { section: 2x12 }\njoint { joins: newel to stringer; bolts: 2 of 3/8\" x 9\"; in newel { through: 12\" } } }";
    for (name, design) in [("cabins/a.stair", bare), ("b.stair", joined)] {
        is_sound(&session.check(&Source::new(name, design), None).report);
    }
}
