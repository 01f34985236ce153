//! Words that screens no longer use: none stands in the text literals of the faces, nor in a page. The doc comments
//! of `src/cli` are read too, since they are what `--help` prints.

use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{TokenStream, TokenTree};

/// The old words, each with what is said now; `src/guide/changes.md` lists them for readers.
const RETIRED: &[(&str, &str)] = &[
    ("held to", "checked against"),
    ("custom used", "assumed"),
    ("asks for more", "would be broken"),
    ("beyond reckoning", "undefined"),
    ("fragment", "example"),
    ("fragments", "examples"),
    ("not as they should be", "not as expected"),
    ("unproven", "example failed"),
    ("unread", "not understood"),
    ("put aside", "ignored"),
    ("set aside", "ignored"),
    ("told", "reported"),
];

/// Files that may use old words: how their paths end, which words, and why.
const MAY: &[(&str, &[&str], &str)] = &[(
    "src/guide/changes.md",
    &[
        "held to",
        "custom used",
        "asks for more",
        "beyond reckoning",
        "fragments",
        "not as they should be",
        "unproven",
        "unread",
    ],
    "it lists the old words beside the new",
)];

/// The text literals of code. Doc comments are among them; one in `src/cli` is what `--help` prints.
fn literals(code: TokenStream, docs: Docs, found: &mut Vec<String>) {
    let mut tokens = code.into_iter().peekable();
    while let Some(token) = tokens.next() {
        match token {
            TokenTree::Punct(sign) if sign.as_char() == '#' && docs == Docs::LeftOut => {
                tokens.next_if(|next| matches!(next, TokenTree::Punct(inner) if inner.as_char() == '!'));
                tokens.next_if(|next| matches!(next, TokenTree::Group(_)));
            }
            TokenTree::Group(group) => literals(group.stream(), docs, found),
            TokenTree::Literal(literal) => {
                if let syn::Lit::Str(text) = syn::Lit::new(literal) {
                    found.push(text.value());
                }
            }
            _ => {}
        }
    }
}

/// Whether doc comments are shown on a screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Docs {
    Shown,
    LeftOut,
}

/// The retired words in a text, whole words only, over line breaks too.
fn retired(text: &str) -> Vec<&'static str> {
    let letters = |c: char| if c.is_alphanumeric() { c.to_ascii_lowercase() } else { ' ' };
    let plain: String = text.chars().map(letters).collect();
    let plain = format!(" {} ", plain.split_whitespace().collect::<Vec<_>>().join(" "));
    RETIRED.iter().map(|(old, _)| *old).filter(|old| plain.contains(&format!(" {old} "))).collect()
}

fn files(folder: &Path, end: &str) -> Vec<PathBuf> {
    let all = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    all.filter(|path| path.extension().is_some_and(|found| found == end)).collect()
}

/// Each text that a reader sees, with the path of its file from the root.
fn shown() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let name = |path: &Path| path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
    let mut texts = vec![("README.md".to_owned(), fs::read_to_string(root.join("README.md")).unwrap())];
    for path in files(&root.join("src/guide"), "md") {
        texts.push((name(&path), fs::read_to_string(&path).unwrap()));
    }
    for (folder, docs) in [("wording", Docs::LeftOut), ("report", Docs::LeftOut), ("cli", Docs::Shown)] {
        for path in files(&root.join("src").join(folder), "rs") {
            let mut found = Vec::new();
            literals(fs::read_to_string(&path).unwrap().parse().unwrap(), docs, &mut found);
            texts.extend(found.into_iter().map(|text| (name(&path), text)));
        }
    }
    texts
}

#[test]
fn no_screen_and_no_page_says_a_retired_word() {
    let texts = shown();
    assert!(texts.len() > 1_000, "only {} texts were read", texts.len());
    let mut used: Vec<(&str, &str)> = Vec::new();
    let mut wrong = String::new();
    for (file, text) in &texts {
        for old in retired(text) {
            if let Some((end, ..)) = MAY.iter().find(|(end, words, _)| file.ends_with(end) && words.contains(&old)) {
                used.push((end, old));
            } else {
                let new = RETIRED.iter().find(|(word, _)| *word == old).map_or("", |(_, new)| new);
                let sign: String = text.chars().take(60).collect();
                wrong += &format!("{file}: say `{new}` for `{old}`, in {sign:?}\n");
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
    for (end, words, why) in MAY {
        for word in *words {
            assert!(used.contains(&(end, word)), "{end} no longer says `{word}` ({why}): take it off the list");
        }
    }
}

#[test]
fn a_retired_word_is_seen() {
    assert_eq!(retired("  Held\nto Coast"), ["held to"]);
    assert_eq!(retired("1 statement unread"), ["unread"]);
    assert!(retired("upheld to the unreadable").is_empty());
    let code = "//! one fragment\n/// two fragments\nfn f() { g(format!(\"is {a} unread\")) }";
    let read = |docs| {
        let mut found = Vec::new();
        literals(code.parse().unwrap(), docs, &mut found);
        found.iter().flat_map(|text| retired(text)).collect::<Vec<_>>()
    };
    assert_eq!(read(Docs::LeftOut), ["unread"]);
    assert_eq!(read(Docs::Shown), ["fragment", "fragments", "unread"]);
}
