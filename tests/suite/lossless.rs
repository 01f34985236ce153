//! A tree loses nothing: whatever the text, its tokens follow one another from its first byte to its last, each holds
//! what its kind says, and printed one after another they are the text. That no statement hides in the trivia is held
//! by the signs that trivia may hold.

use std::fs;
use std::path::{Path, PathBuf};

use crate::recovery::{cases, slip, slipped, soup};
use pitchboard::base::Source;
use pitchboard::syntax::{self, FragmentKind, Item, TokenKind, Tree, TriviaKind};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

fn files(folder: &str) -> Vec<PathBuf> {
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)];
    let mut files = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() { folders.push(path) } else { files.push(path) }
        }
    }
    files.sort();
    files
}

/// Every design, ruleset, shop's file and damaged text of the repository.
fn texts() -> Vec<String> {
    let paths = ["examples", "rulesets", "tests/cases", "tests/corpus"].into_iter().flat_map(files);
    let texts: Vec<String> = paths.map(|path| String::from_utf8_lossy(&fs::read(path).unwrap()).into_owned()).collect();
    assert!(texts.len() > 400, "{} texts", texts.len());
    texts
}

/// What the lexicon takes for blanks and ends of lines.
const BLANKS: [char; 7] = [' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}', '\n', '\r'];

/// Blanks of the grammar and, after a clause, whatever else is blank.
fn is_blank(text: &str) -> bool {
    text.chars().all(|c| c.is_whitespace() && c != '\n' && c != '\r')
}

fn holds(kind: TokenKind, text: &str) -> bool {
    match kind {
        TokenKind::Colon => text == ":",
        TokenKind::Open => text == "{",
        TokenKind::Close => text == "}",
        TokenKind::Keyword => ["where", "passes", "fails", "spares"].contains(&text),
        TokenKind::Trivia(TriviaKind::ByteOrderMark) => text == "\u{feff}",
        TokenKind::Trivia(TriviaKind::Blank) => is_blank(text),
        TokenKind::Trivia(TriviaKind::LineEnd) => ["\n", "\r\n", "\r"].contains(&text),
        TokenKind::Trivia(TriviaKind::Separator) => text == ";",
        TokenKind::Trivia(TriviaKind::Comment) => {
            let number = text[1..].starts_with(|next: char| next.is_ascii_digit());
            text.starts_with('#') && !number && !text.contains(['\n', '\r'])
        }
        // A quote that is left open takes the blanks at the end of its line.
        TokenKind::Name | TokenKind::Term => {
            !text.starts_with(BLANKS) && (!text.ends_with(BLANKS) || text.starts_with(['"', '“']))
        }
        TokenKind::Clause | TokenKind::Condition | TokenKind::Fragment | TokenKind::Unread => true,
    }
}

fn tiles(tree: &Tree) {
    let mut at = tree.span.start;
    for token in tree.tokens() {
        let text = tree.source.slice(token.span);
        assert_eq!(token.span.start, at, "a gap or an overlap before {token:?} `{text}`");
        assert!(!text.is_empty() && holds(token.kind, text), "{token:?} is `{text}`");
        at = token.span.end;
    }
    assert_eq!(at, tree.span.end);
    assert_eq!(tree.print(), tree.source.slice(tree.span));
}

fn fragments_tile(items: &[Item], source: &Source) {
    for item in items {
        match item {
            Item::Fragment(fragment) => tiles(&syntax::parse_fragment(source, fragment.span).0),
            Item::Block { body, .. } => fragments_tile(body, source),
            _ => {}
        }
    }
}

/// As a design, as a ruleset, and the fragments of that.
fn loses_nothing(text: &str) {
    let source = Source::new("case", text);
    tiles(&syntax::parse_design(&source).0);
    let (tree, _) = syntax::parse_rules(&source);
    tiles(&tree);
    fragments_tile(&tree.items, &source);
}

#[test]
fn every_text_of_the_repository() {
    texts().iter().for_each(|text| loses_nothing(text));
}

#[test]
fn every_text_of_the_repository_damaged() {
    for text in texts().iter().filter(|text| text.len() < 20_000) {
        let run = |slips: Vec<_>| {
            loses_nothing(&slipped(text, &slips));
            Ok(())
        };
        TestRunner::new(cases(8)).run(&vec(slip(), 1..5), run).unwrap();
    }
}

proptest! {
    #![proptest_config(cases(2_000))]

    #[test]
    fn any_text(bytes in vec(any::<u8>(), 0..300)) {
        loses_nothing(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn any_words_of_the_languages(text in soup(60)) {
        loses_nothing(&text);
        loses_nothing(&format!("\u{feff}stair \"a\" {{\r\n{text}\r\n}}"));
        loses_nothing(&format!("rule \"r\" {{\n each flight {text}\n source: \"x\"\n passes: {text} }} }}"));
    }
}

/// What could not be read at all is one statement, and is printed too.
#[test]
fn a_text_too_large_or_too_deep() {
    for text in ["{".repeat(100), format!("stair {{ {}", "a {\n".repeat(64)), " ".repeat(syntax::LARGEST + 1)] {
        let (tree, findings) = syntax::parse_design(&Source::new("case", &text));
        assert_eq!(findings.len(), 1);
        assert!(matches!(tree.items.as_slice(), [Item::Damaged { .. }]));
        tiles(&tree);
    }
}

/// What is taken out of a tree is not printed: no text is handed through beside it.
#[test]
fn printing_reads_the_tree() {
    let text = "stair \"a\" { # north\n    flight { width: 37\" }\n}\n";
    let (tree, _) = syntax::parse_design(&Source::new("case", text));
    let without = |change: &dyn Fn(&mut Tree)| {
        let mut tree = tree.clone();
        change(&mut tree);
        tree.print()
    };
    assert_eq!(without(&|_| {}), text);
    assert_eq!(without(&|tree| tree.items.clear()).replace(' ', ""), "# north\n\n\n".replace(' ', ""));
    let no_comment = |tree: &mut Tree| tree.trivia.retain(|piece| piece.kind != TriviaKind::Comment);
    assert_eq!(without(&no_comment), text.replace("# north", ""));
    assert_eq!(without(&|tree| tree.trivia.clear()), "stair\"a\"{flight{width:37\"}}");
}

/// A value put in the place of another, and a statement put into a block, leave every other byte as it was.
#[test]
fn an_edit_by_the_tree() {
    let text = "stair \"a\" { # the north door\n    flight {\n        risers: 4 of 7\"  # as drawn\n\n    }\n}\n";
    let (tree, _) = syntax::parse_design(&Source::new("case", text));
    let Some(Item::Block { body, .. }) = tree.items.first() else { panic!("no stair") };
    let Some(Item::Block { body, close: Some(close), .. }) = body.first() else { panic!("no flight") };
    let Some(Item::Property { name_span, value_span, .. }) = body.last() else { panic!("no property") };
    // The blanks that a line begins with.
    let indent = tree.trivia.iter().find(|piece| piece.span.end == name_span.start).unwrap();
    // Past the comment on the line of the last statement.
    let end = tree.trivia.iter().find(|piece| {
        piece.kind == TriviaKind::LineEnd && piece.span.start >= value_span.end && piece.span.end <= close.start
    });
    let end = end.unwrap().span.end as usize;
    let mut edited = text.to_owned();
    edited.insert_str(end, &format!("{}width: 37\"\n", tree.source.slice(indent.span)));
    edited.replace_range(value_span.start as usize..value_span.end as usize, "5 of 6-3/4\"");
    assert_eq!(
        edited,
        "stair \"a\" { # the north door\n    flight {\n        risers: 5 of 6-3/4\"  # as drawn\n        width: 37\"\n\n    }\n}\n"
    );
}

#[test]
fn comments_in_a_clause_are_trivia() {
    let text = "amend \"r\" {\n    where: a > 1 # the first\n      and b is #2\n    each flight # of any stair\n     shall have c < 2 # so\n\n    passes: flight { } # ends\n}\n";
    let (tree, findings) = syntax::parse_rules(&Source::new("case", text));
    assert_eq!(findings, []);
    tiles(&tree);
    let comments = tree.trivia.iter().filter(|piece| piece.kind == TriviaKind::Comment);
    let comments: Vec<&str> = comments.map(|piece| tree.source.slice(piece.span)).collect();
    assert_eq!(comments, ["# the first", "# of any stair", "# so", "# ends"]);
    let Some(Item::Block { body, .. }) = tree.items.first() else { panic!("no block") };
    let Some(Item::Fragment(fragment)) = body.last() else { panic!("no fragment") };
    assert_eq!(fragment.kind, FragmentKind::Passes);
}

/// What is damaged stays in the tree.
#[test]
fn damaged_statements_stay() {
    let text = "} \"open\nrisers: 4\"; 7\": width; stair: x, y { }";
    let (tree, findings) = syntax::parse_design(&Source::new("case", text));
    assert_eq!(findings.len(), 4, "{findings:?}");
    let kinds = tree.items.iter().map(|item| match item {
        Item::Damaged { terms, .. } if terms.is_empty() => "sign",
        Item::Damaged { .. } => "damaged",
        Item::Property { .. } => "property",
        Item::Block { misplaced, .. } if misplaced.len() == 4 => "block",
        _ => "other",
    });
    assert_eq!(kinds.collect::<Vec<_>>(), ["sign", "damaged", "property", "damaged", "block"]);
    tiles(&tree);
}

/// A tree can be shared between threads, beside its text.
#[test]
fn a_tree_is_shared() {
    fn shared<T: Send + Sync + 'static>() {}
    shared::<Tree>();
}
