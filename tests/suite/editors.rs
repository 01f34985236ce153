//! What editors are given (`grammar/vscode`, `grammar/vim`, `grammar/emacs`): their lists of words are those of the tables,
//! written there by `UPDATE=1`. How the files colour a text is tried with the editors' own engines in `.ci/outside`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use pitchboard::derive::quantities;
use pitchboard::measure::UNITS;
use pitchboard::model::fastenings::{COATING_WORDS, HEADS};
use pitchboard::model::finishes::FINISHES;
use pitchboard::model::timbers::{GRADES, SPECIES, TREATMENTS};
use pitchboard::model::{FILE, KINDS, SHOP_FILE, SHOP_KINDS, Takes};
use pitchboard::rules::{Stands, WORDS};
use serde_json::Value;

use crate::switches::update;

/// A list by its name in the files, longest first: the first of a pattern that fits is taken.
fn list(name: &str) -> Vec<String> {
    let kinds = || KINDS.iter().chain(SHOP_KINDS);
    let rules = |stands: &[Stands]| -> BTreeSet<String> {
        let of = WORDS.iter().filter(|word| stands.contains(&word.stands));
        let parts = of.flat_map(|word| word.word.split([',', '(', ')'])).map(str::trim);
        parts.filter(|part| part.starts_with(char::is_alphabetic)).map(str::to_owned).collect()
    };
    let found: BTreeSet<String> = match name {
        "kinds" => {
            let drawn =
                kinds().filter(|kind| !kind.within.is_empty() && kind.within.iter().all(|within| *within != "-"));
            drawn.map(|kind| kind.opens.to_owned()).collect()
        }
        "properties" => kinds().flat_map(|kind| kind.properties).map(|property| property.name.to_owned()).collect(),
        "words" => {
            let of_property = |takes: Takes| match takes {
                Takes::OneOf(words) | Takes::SomeOf(words) => words,
                _ => &[][..],
            };
            let closed = kinds().flat_map(|kind| kind.properties).flat_map(|property| of_property(property.takes));
            let timbers = SPECIES.iter().map(|row| (&row.name, row.also));
            let grades = GRADES.iter().map(|row| (&row.name, row.also));
            let treatments = TREATMENTS.iter().map(|row| (&row.name, row.also));
            let finishes = FINISHES.iter().map(|row| (&row.name, row.also));
            let heads = HEADS.iter().map(|row| (&row.name, row.also));
            let coatings = COATING_WORDS.iter().map(|(name, also)| (name, *also));
            let tables = timbers.chain(grades).chain(treatments).chain(finishes).chain(heads).chain(coatings);
            let named = tables.flat_map(|(name, also)| std::iter::once(name).chain(also));
            // What begins with a figure is coloured as one.
            let words = closed.chain(named).filter(|word| word.starts_with(char::is_alphabetic));
            words.map(|word| (*word).to_owned()).collect()
        }
        "units" => {
            let spellings = UNITS.iter().flat_map(|unit| unit.spellings);
            spellings.filter(|word| word.starts_with(char::is_alphabetic)).map(|word| (*word).to_owned()).collect()
        }
        "blocks" => rules(&[Stands::Set]),
        "parts" => rules(&[Stands::Heading, Stands::Rule, Stands::Amendment]),
        "fragments" => {
            let of = WORDS.iter().filter(|word| word.help.starts_with("a piece of a design"));
            of.map(|word| word.word.to_owned()).collect()
        }
        "clauses" => rules(&[Stands::Clause]),
        "things" => kinds().flat_map(|kind| [kind.name, kind.plural]).map(str::to_owned).collect(),
        "quantities" => {
            // A name is nothing that a rule compares, and what is a kind too is coloured as one.
            let is_compared =
                |takes: &Takes| !matches!(takes, Takes::Name | Takes::Members | Takes::Sets | Takes::Words);
            let stated = kinds().flat_map(|kind| kind.properties).filter(|property| is_compared(&property.takes));
            let names = stated.map(|property| property.name).chain(quantities().map(|quantity| quantity.name));
            let things = self::list("things");
            names.map(str::to_owned).filter(|name| !things.contains(name)).collect()
        }
        other => panic!("no list is called {other}"),
    };
    assert!(found.len() > 2, "{name}: {found:?}");
    let mut words: Vec<String> = found.into_iter().collect();
    words.sort_by_key(|word| (std::cmp::Reverse(word.chars().count()), word.clone()));
    words
}

/// A word within a pattern of Oniguruma or of Vim: those that mean something there are few.
fn plain(word: &str) -> String {
    assert!(word.chars().all(|c| c.is_alphanumeric() || " -/.'²".contains(c)), "{word} needs more care in a pattern");
    word.replace('.', "\\.")
}

/// Words of a list, so many to a line.
fn lines(words: &[String], before: &str, between: &str, after: &str) -> String {
    let (mut out, mut line) = (String::new(), String::new());
    for word in words {
        if !line.is_empty() && line.chars().count() + word.chars().count() > 100 {
            out += &format!("{before}{line}{after}\n");
            line.clear();
        }
        if !line.is_empty() {
            line += between;
        }
        line += word;
    }
    format!("{out}{before}{line}{after}\n")
}

/// What stands between the marks of a list, by the file that holds it.
fn written(path: &Path, name: &str) -> String {
    let words = list(name);
    match path.extension().and_then(|ending| ending.to_str()) {
        Some("json") => {
            let pattern = words.iter().map(|word| plain(word)).collect::<Vec<_>>().join("|");
            let quoted = Value::from(pattern).to_string();
            quoted[1..quoted.len() - 1].to_owned()
        }
        Some("vim") => {
            let words: Vec<String> =
                words.iter().map(|word| format!("'{}'", plain(word).replace('\'', "''"))).collect();
            format!("let s:words = []\n{}", lines(&words, "let s:words += [", ", ", "]"))
        }
        Some("el") => {
            let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
            lines(&words, "    ", " ", "")
        }
        other => panic!("{other:?}"),
    }
}

/// How the marks round a list look, by the file: what begins it, what stands behind its name, and what ends it.
fn marks(path: &Path) -> (&'static str, &'static str, fn(&str) -> String) {
    match path.extension().and_then(|ending| ending.to_str()) {
        Some("json") => ("(?#", ")", |_| "(?#)".to_owned()),
        Some("vim") => ("\" begin ", "\n", |name| format!("\" end {name}\n")),
        Some("el") => (";; begin ", "\n", |name| format!(";; end {name}\n")),
        other => panic!("{other:?}"),
    }
}

/// A text with its lists as they are to be, and their names.
fn renewed(path: &Path, text: &str) -> (String, BTreeSet<String>) {
    let (begins, behind, ends) = marks(path);
    let (mut out, mut rest, mut names) = (String::new(), text, BTreeSet::new());
    while let Some((before, after)) = rest.split_once(begins) {
        let (name, after) = after.split_once(behind).expect("a name");
        let end = ends(name);
        let at = after.find(&end).unwrap_or_else(|| panic!("{}: `{name}` has no end", path.display()));
        out += &format!("{before}{begins}{name}{behind}{}{end}", written(path, name));
        rest = &after[at + end.len()..];
        names.insert(name.to_owned());
    }
    (out + rest, names)
}

fn grammar() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar")
}

#[test]
fn every_list_of_words_is_that_of_the_tables() {
    let design = ["kinds", "properties", "words", "units"];
    let rules = ["blocks", "parts", "clauses", "things", "quantities", "words", "units"];
    for (file, lists) in [
        ("vscode/syntaxes/stair.tmLanguage.json", design.to_vec()),
        ("vscode/syntaxes/rules.tmLanguage.json", [&rules[..], &["fragments"]].concat()),
        ("vim/syntax/stair.vim", design.to_vec()),
        ("vim/syntax/stairrules.vim", [&rules[..], &design].concat()),
        ("emacs/pitchboard.el", [&rules[..], &design].concat()),
    ] {
        let path = grammar().join(file);
        let text = fs::read_to_string(&path).expect(file);
        let (renewed, names) = renewed(&path, &text);
        assert_eq!(names, lists.into_iter().map(str::to_owned).collect(), "{file}");
        if update() {
            fs::write(&path, renewed).expect(file);
        } else {
            assert!(renewed == text, "{file}: its lists are not those of the tables; UPDATE=1 writes them");
        }
    }
}

#[test]
fn lists_hold_what_the_tables_hold_and_no_others() {
    for (name, held, not_held) in [
        ("kinds", &["stair", "in", "riser board", "waive", "folder"][..], &["member", "part", "riser"][..]),
        ("properties", &["risers", "total rise", "fail on"], &["riser", "rise"]),
        ("words", &["anchored", "white oak", "not understood"], &["stair"]),
        ("units", &["mm", "inches", "kN/m"], &["\"", ""]),
        ("blocks", &["ruleset", "withdraw"], &["limit"]),
        ("parts", &["limit", "verb", "amends", "where"], &["limit ( )", "each"]),
        ("fragments", &["passes", "fails", "spares"], &["source"]),
        ("clauses", &["shall have", "is one of", "along"], &["<=", "passes"]),
        ("things", &["tread", "treads", "part"], &["in"]),
        ("quantities", &["rise", "unit run", "height", "risers missed"], &["tread", "risers", "at"]),
    ] {
        let list = list(name);
        let has = |word: &&&str| list.iter().any(|known| known == **word);
        assert_eq!(held.iter().filter(has).count(), held.len(), "{name}: {list:?}");
        assert_eq!(not_held.iter().filter(has).count(), 0, "{name}: {list:?}");
        assert!(list.windows(2).all(|pair| pair[0].chars().count() >= pair[1].chars().count()), "{name}: {list:?}");
    }
    assert!(KINDS.iter().any(|kind| kind.within.contains(&FILE)));
}

fn json(file: &str) -> Value {
    let text = fs::read_to_string(grammar().join(file)).expect(file);
    serde_json::from_str(&text).unwrap_or_else(|why| panic!("{file}: {why}"))
}

/// What the files say of the tool: how it is started, which files are its own, and where each part lies.
#[test]
fn the_extension_names_what_is_there() {
    let manifest = json("vscode/package.json");
    assert_eq!(manifest["version"], env!("CARGO_PKG_VERSION"));
    let texts = |value: &Value| -> Vec<String> {
        value.as_array().into_iter().flatten().map(|text| text.as_str().unwrap().to_owned()).collect()
    };
    // What npm brings lies there only where it is packed.
    let brought = "node_modules";
    for name in texts(&manifest["files"]).iter().map(String::as_str).chain(["client.js"]) {
        assert_eq!(grammar().join("vscode").join(name).exists(), name != brought, "{name}");
    }
    let languages = manifest["contributes"]["languages"].as_array().unwrap();
    let endings: Vec<String> = languages.iter().flat_map(|language| texts(&language["extensions"])).collect();
    let names: Vec<String> = languages.iter().flat_map(|language| texts(&language["filenames"])).collect();
    assert_eq!((endings, names), (vec![".stair".into(), ".rules".into()], vec![SHOP_FILE.to_owned()]));
    for language in languages {
        let configuration = language["configuration"].as_str().unwrap();
        assert_eq!(json(&format!("vscode/{configuration}"))["comments"]["lineComment"], "#");
    }
    let grammars = manifest["contributes"]["grammars"].as_array().unwrap();
    assert_eq!(grammars.len(), languages.len());
    for (grammar, language) in grammars.iter().zip(languages) {
        assert_eq!(grammar["language"], language["id"]);
        let file = json(&format!("vscode/{}", grammar["path"].as_str().unwrap()));
        assert_eq!(file["scopeName"], grammar["scopeName"]);
        // Every part that is taken in is there.
        let mut asked = BTreeSet::new();
        included(&file, &mut asked);
        let there: BTreeSet<String> = file["repository"].as_object().unwrap().keys().cloned().collect();
        assert_eq!(asked, there, "{}", grammar["path"]);
    }
}

/// The parts of a grammar that it takes in, at any depth.
fn included(value: &Value, into: &mut BTreeSet<String>) {
    match value {
        Value::Object(members) => {
            into.extend(
                members
                    .get("include")
                    .and_then(Value::as_str)
                    .and_then(|part| part.strip_prefix('#'))
                    .map(str::to_owned),
            );
            members.values().for_each(|member| included(member, into));
        }
        Value::Array(items) => items.iter().for_each(|item| included(item, into)),
        _ => {}
    }
}

/// Each editor starts the server in the same way.
#[test]
fn every_editor_starts_the_server() {
    let text = |file: &str| fs::read_to_string(grammar().join(file)).expect(file);
    for (file, start) in [
        ("vscode/server.js", "args: ['lsp']"),
        ("vim/lua/pitchboard.lua", "{ \"pitchboard\", \"lsp\" }"),
        ("emacs/pitchboard.el", "(\"pitchboard\" \"lsp\")"),
        ("helix/languages.toml", "command = \"pitchboard\"\nargs = [\"lsp\"]"),
    ] {
        assert!(text(file).contains(start), "{file}");
    }
    let helix: toml_edit::DocumentMut = text("helix/languages.toml").parse().expect("it is TOML");
    assert_eq!(helix["language"].as_array_of_tables().expect("languages").len(), 2);
}
