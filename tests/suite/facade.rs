//! What the library offers, name by name, and what it costs: a change of either is seen here.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use toml_edit::{DocumentMut, Item};

/// Every name that `src/lib.rs` gives to others, by the stage it comes from; `?` where the feature `cli` gives it.
const FACADE: &str = "
base: Day Diagnostic Severity Source Span
check: Analysis BUILT_IN Cause Comparison Drawing Drawn Edit Finding Fix FromShop Grounds Group HowMany LoadedSet Mend
check: NotChecked Offer Place Problem Report Role
check: RuleFinding RuleOutcome RuleRef SetLine Settled Tally View WaiverProblem
cli: Disk? Outcome? command_line?
derive: Datum Evaluation Missing Need NotAnswered Quantity Reason quantities quantity
guide: guide
measure: Dimension Measure Style Unit print
model: Design Element Id Kind ListItem Property PropertyName Side Stair Stated Value Waiver
rules: Decision FileProblem Limit Rule RuleSet SetRefusal
session: Files Memory Mended NoFiles Refusal Session ShopPlace
wording: Amended Beside Clause Label Message ToMessage message need needs refusal
";

/// Most packages that the library alone may name.
const MOST_DEPENDENCIES: usize = 6;

fn page(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).expect(name)
}

/// Features that an item asks for, as it writes them.
fn condition(attributes: &[syn::Attribute]) -> Option<String> {
    let cfg = attributes.iter().find(|attribute| attribute.path().is_ident("cfg"))?;
    Some(cfg.parse_args::<proc_macro2::TokenStream>().expect("a condition").to_string())
}

fn names(tree: &syn::UseTree, stage: Option<&str>, mark: &str, found: &mut BTreeSet<String>) {
    let mut add = |name: &syn::Ident| found.insert(format!("{}: {name}{mark}", stage.expect("of a stage")));
    match tree {
        syn::UseTree::Path(path) => {
            let first = path.ident.to_string();
            names(&path.tree, stage.or(Some(&first)), mark, found);
        }
        syn::UseTree::Group(group) => group.items.iter().for_each(|tree| names(tree, stage, mark, found)),
        syn::UseTree::Name(name) => _ = add(&name.ident),
        syn::UseTree::Rename(name) => _ = add(&name.rename),
        syn::UseTree::Glob(_) => panic!("a glob offers what nobody has listed"),
    }
}

/// What a root module offers without the feature `internals`.
fn offered(code: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for item in syn::parse_file(code).expect("it is Rust").items {
        let (visibility, attributes) = match &item {
            syn::Item::Use(item) => (&item.vis, &item.attrs),
            syn::Item::Mod(item) => (&item.vis, &item.attrs),
            syn::Item::Struct(item) => (&item.vis, &item.attrs),
            _ => panic!("the root module passes things on, and holds none"),
        };
        let condition = condition(attributes);
        if !matches!(visibility, syn::Visibility::Public(_)) || condition.as_deref() == Some("feature = \"internals\"")
        {
            continue;
        }
        let mark = match condition.as_deref() {
            None => "",
            Some("feature = \"cli\"") => "?",
            Some(other) => panic!("what is `{other}`?"),
        };
        match &item {
            syn::Item::Use(item) => names(&item.tree, None, mark, &mut found),
            syn::Item::Mod(item) => _ = found.insert(format!("{0}: {0}{mark}", item.ident)),
            _ => panic!("a public struct at the root"),
        }
    }
    found
}

#[test]
fn the_facade_is_the_one_that_is_listed() {
    let listed: BTreeSet<String> = FACADE
        .lines()
        .filter_map(|line| line.split_once(": "))
        .flat_map(|(stage, names)| names.split(' ').map(move |name| format!("{stage}: {name}")))
        .collect();
    assert_eq!(offered(&page("src/lib.rs")), listed);
}

#[test]
fn what_a_root_module_offers_is_seen() {
    let code = "mod a; #[cfg(feature = \"internals\")] pub mod b; pub mod c;
        pub use a::{A, deep::B as C}; #[cfg(feature = \"cli\")] pub use d::D; use a::E;";
    let offered: Vec<String> = offered(code).into_iter().collect();
    assert_eq!(offered, ["a: A", "a: C", "c: c", "d: D?"]);
}

/// Packages that the library is built with if no feature is asked for.
fn of_the_library_alone(manifest: &str) -> Vec<String> {
    let manifest: DocumentMut = manifest.parse().expect("it is TOML");
    let table = manifest.get("dependencies").and_then(Item::as_table_like).expect("dependencies");
    let optional = |item: &Item| item.get("optional").and_then(Item::as_bool).unwrap_or(false);
    table.iter().filter(|(_, item)| !optional(item)).map(|(name, _)| name.to_owned()).collect()
}

#[test]
fn the_library_alone_needs_few_packages() {
    let manifest = page("Cargo.toml");
    let needed = of_the_library_alone(&manifest);
    assert!(needed.iter().any(|name| name == "pest"), "{needed:?}");
    assert!(needed.len() <= MOST_DEPENDENCIES, "{needed:?}");
    let with_one_more = manifest.replace("\n[dependencies]\n", "\n[dependencies]\nmarsh = \"1\"\n");
    assert_eq!(of_the_library_alone(&with_one_more).len(), needed.len() + 1);
    // The tables that cargo also reads would be missed above.
    assert!(!manifest.contains("\n[dependencies.") && !manifest.contains("\n[target."));
}

#[test]
fn the_build_script_needs_nothing_that_the_library_does_not() {
    let manifest: DocumentMut = page("Cargo.toml").parse().expect("it is TOML");
    let table = |name: &str| manifest.get(name).and_then(Item::as_table_like).expect("a table");
    let (build, library) = (table("build-dependencies"), table("dependencies"));
    assert!(!build.is_empty());
    for (name, version) in build.iter() {
        let own = library.get(name).expect("a dependency of the library").as_str();
        assert_eq!(version.as_str(), own, "{name} is not the same release");
    }
}
