//! What nests: refused one level past the bound, counted rightly after whatever failed before it, and read on a small
//! stack. The bound is counted by marks on the parser's own stack; a mark that a failed attempt left there would refuse
//! sound text further on.

use std::thread;

use crate::whole_path;
use pitchboard::base::Source;
use pitchboard::syntax::{self, Problem};

/// Most brackets, of whatever sort, within one another.
const MOST: usize = 64;

fn design_is_too_deep(text: &str) -> bool {
    let (_, findings) = syntax::parse_design(&Source::new("case", text));
    findings.iter().any(|finding| finding.problem == Problem::NestedTooDeep)
}

fn blocks(levels: usize) -> String {
    format!("{}width: 37\"\n{}", "flight {\n".repeat(levels), "}\n".repeat(levels))
}

/// Statements that fail or close in every way that a brace can, each at its own level.
const TRIED: [&str; 8] = [
    "flight a { width: 37\" }\n",
    "width: flight { a: 1 }\n",
    ": { a: 1 }\n",
    "{ }\n",
    "\"open { a\n}\n",
    "width 37\" { \"open {{{ \n}\n",
    "flight { } } } }\n",
    "flight { post { rail { } } \"{\" } # {{{\n",
];

#[test]
fn blocks_count_after_whatever_was_tried_before() {
    assert!(!design_is_too_deep(&blocks(MOST)));
    assert!(design_is_too_deep(&blocks(MOST + 1)));
    for tried in TRIED {
        let before = tried.repeat(200);
        assert!(!design_is_too_deep(&format!("{before}{}", blocks(MOST))), "{tried}");
        assert!(design_is_too_deep(&format!("{before}{}", blocks(MOST + 1))), "{tried}");
        let within = format!("stair {{\n{before}{}}}", blocks(MOST - 1));
        assert!(tried.contains("} } }") || !design_is_too_deep(&within), "{tried}");
    }
}

fn rules_are_too_deep(text: &str) -> bool {
    let (_, findings) = syntax::parse_rules(&Source::new("case", text));
    findings.iter().any(|finding| finding.problem == Problem::NestedTooDeep)
}

#[test]
fn rule_blocks_count_after_clauses_and_fragments() {
    let chapters = |levels: usize| format!("{}{}", "chapter \"c\" {\n".repeat(levels), "}\n".repeat(levels));
    let pieces = ["a { }", "a { b { c { } } }", "a { 7\" \"{\" } b", "{{{ }}}"];
    let clauses = ["each a shall have (b < 3)", "each a shall have (b < 3", "each a # {{\n", "where: ((a"];
    let pieces = pieces.map(|piece| format!("rule \"r\" {{ passes: {piece}\n }}\n"));
    let clauses = clauses.map(|clause| format!("rule \"r\" {{ {clause}\n }}\n"));
    for tried in pieces.iter().chain(&clauses) {
        let before = tried.repeat(200);
        assert!(!rules_are_too_deep(&format!("{before}{}", chapters(MOST))), "{tried}");
        assert!(rules_are_too_deep(&format!("{before}{}", chapters(MOST + 1))), "{tried}");
    }
}

fn clause_reads(asked: &str) -> bool {
    let source = Source::new("case", format!("each flight shall have {asked} < 3"));
    let span = syntax::parse_rules(&source).0.span;
    syntax::parse_clause(&source, span).is_ok()
}

fn groups(levels: usize) -> String {
    format!("{}width{}", "(".repeat(levels), ")".repeat(levels))
}

#[test]
fn groups_count_after_whatever_was_tried_before() {
    assert!(clause_reads(&groups(MOST)));
    assert!(!clause_reads(&groups(MOST + 1)));
    let tried = [
        "lesser",
        "lesser of width and height",
        "lesser of width and greater of (width) and height",
        "number of (risers where lesser of width and 1 < 2)",
        "largest height of (risers where not (height < 2))",
        "((1))",
    ];
    for tried in tried {
        let before = format!("{tried} + ").repeat(90);
        assert!(clause_reads(&format!("{before}{}", groups(MOST))), "{tried}");
        assert!(!clause_reads(&format!("{before}{}", groups(MOST + 1))), "{tried}");
    }
}

/// Each of these, read once as the lesser of two and once as a name, would read what follows it twice.
#[test]
fn the_lesser_of_one_is_refused_at_once() {
    for joined in
        ["lesser of width + ", "greater of width * ", "lesser of (width) + ", "number of (risers where lesser of 1 + "]
    {
        assert!(!clause_reads(&format!("{}width", joined.repeat(90))), "{joined}");
    }
    assert!(!clause_reads(&format!("{}width and width", "lesser of width + ".repeat(90))));
}

/// The deepest texts of each sort that are read, on half the stack that a thread has.
#[test]
fn the_deepest_texts_need_little_stack() {
    let clause = |asked: &str| format!("rule \"r\" {{ each flight shall have {asked} <= 3\n}}");
    let deepest = [
        clause(&groups(MOST)),
        clause(&format!("{}1{}", "lesser of ".repeat(60), " and 2".repeat(60))),
        clause(&format!("{}1{}", "number of (risers where 1 < ".repeat(60), ")".repeat(60))),
        clause(&format!("1{}", " + 1".repeat(99))),
        clause(&"(".repeat(100_000)),
        format!("rule \"r\" {{ passes: {}{}\n}}", "a {".repeat(62), "}".repeat(62)),
        blocks(MOST),
        "{".repeat(100_000),
    ];
    for text in deepest {
        let read = move || {
            whole_path::check_rules(&text);
            whole_path::read_design(&text);
        };
        thread::Builder::new().stack_size(1024 * 1024).spawn(read).unwrap().join().unwrap();
    }
}
