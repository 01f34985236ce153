//! Which file of `src/` names what of which other, read from the syntax of the code.
//!
//! A name that a `mod.rs` only passes on leads to the file that it comes from, and passing it on ties the `mod.rs` to
//! nothing; what a `mod.rs` holds itself leads to it. Code under `#[cfg(test)]` is left out. Methods are not seen: a
//! file that calls what another file added to a type names no path to it.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fs;
use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};

/// Names from the root of the crate down, or as written.
type Names = Vec<String>;

/// By file: the files that it names something of.
pub type Edges<'a> = BTreeMap<&'a str, BTreeSet<&'a str>>;

/// One file of code.
#[derive(Default)]
struct Code {
    /// From `src`, with `/`.
    file: String,
    /// Names that `use` binds, with where they lead and whether they are only passed on.
    bound: BTreeMap<String, (Names, Bound)>,
    /// Every other path that the code writes, as if it stood in no module inside the file.
    written: Vec<Names>,
    module: Names,
    /// While it is read: how many modules that are written out in the file stand round the place.
    depth: usize,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Bound {
    /// For the file itself.
    Used,
    /// `pub use`, of whatever reach.
    PassedOn,
}

impl Code {
    /// A path as it would be written at the head of the file.
    fn at_the_head(&self, path: Names) -> Names {
        let up = path.iter().take_while(|name| *name == "super").count().min(self.depth);
        match path.get(up) {
            Some(next) if up > 0 && next != "super" => [&["self".to_owned()], &path[up..]].concat(),
            _ => path[up..].to_vec(),
        }
    }

    /// A written path from the root of the crate; nothing if it may lead out of the crate.
    fn absolute(&self, here: &[String], path: &[String], has: impl Fn(&Names) -> bool) -> Option<Names> {
        let first = path.first()?;
        let rest = || path.iter().skip(1).cloned();
        match first.as_str() {
            "crate" => Some(rest().collect()),
            // The value that a method is called on.
            "self" if path.len() == 1 => None,
            "self" => Some(here.iter().cloned().chain(rest()).collect()),
            "super" => {
                let (_, above) = here.split_last()?;
                match path.get(1) {
                    Some(next) if next == "super" => self.absolute(above, &path[1..], has),
                    _ => Some(above.iter().cloned().chain(rest()).collect()),
                }
            }
            name => {
                let child: Names = here.iter().cloned().chain([name.to_owned()]).collect();
                match self.bound.get(name) {
                    Some((leads, _)) => Some(leads.iter().cloned().chain(rest()).collect()),
                    None if has(&child) => Some(child.into_iter().chain(rest()).collect()),
                    None => None,
                }
            }
        }
    }

    fn tree(&mut self, before: &Names, tree: &syn::UseTree, bound: Bound) {
        let with = |name: &syn::Ident| before.iter().cloned().chain([name.to_string()]).collect::<Names>();
        let (name, path) = match tree {
            syn::UseTree::Path(path) => return self.tree(&with(&path.ident), &path.tree, bound),
            syn::UseTree::Group(group) => return group.items.iter().for_each(|tree| self.tree(before, tree, bound)),
            syn::UseTree::Name(name) if name.ident == "self" => (before.last().cloned(), before.clone()),
            syn::UseTree::Name(name) => (Some(name.ident.to_string()), with(&name.ident)),
            syn::UseTree::Rename(name) => (Some(name.rename.to_string()), with(&name.ident)),
            // As if the module were named, and something of it.
            syn::UseTree::Glob(_) => (None, before.iter().cloned().chain(["*".to_owned()]).collect()),
        };
        match name {
            Some(name) => _ = self.bound.insert(name, (self.at_the_head(path), bound)),
            None => self.written.push(self.at_the_head(path)),
        }
    }

    fn tokens(&mut self, tokens: TokenStream) {
        let mut path = Names::new();
        let mut joins = 0;
        for token in tokens {
            match token {
                TokenTree::Punct(sign) if sign.as_char() == ':' => joins += 1,
                TokenTree::Ident(name) => {
                    if joins != 2 {
                        self.written.push(std::mem::take(&mut path));
                    }
                    path.push(name.to_string());
                    joins = 0;
                }
                other => {
                    self.written.push(std::mem::take(&mut path));
                    joins = 0;
                    if let TokenTree::Group(group) = other {
                        self.tokens(group.stream());
                    }
                }
            }
        }
        self.written.push(path);
    }
}

fn is_for_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg")
            && attribute.parse_args::<syn::Path>().is_ok_and(|condition| condition.is_ident("test"))
    })
}

impl<'a> Visit<'a> for Code {
    fn visit_item_mod(&mut self, item: &'a syn::ItemMod) {
        if !is_for_tests(&item.attrs) {
            self.depth += 1;
            visit::visit_item_mod(self, item);
            self.depth -= 1;
        }
    }

    fn visit_item_use(&mut self, item: &'a syn::ItemUse) {
        let bound = if matches!(item.vis, syn::Visibility::Inherited) { Bound::Used } else { Bound::PassedOn };
        if !is_for_tests(&item.attrs) {
            self.tree(&Names::new(), &item.tree, bound);
        }
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        let names = path.segments.iter().map(|segment| segment.ident.to_string()).collect();
        self.written.push(self.at_the_head(names));
        visit::visit_path(self, path);
    }

    fn visit_vis_restricted(&mut self, _: &'a syn::VisRestricted) {}

    fn visit_macro(&mut self, call: &'a syn::Macro) {
        self.tokens(call.tokens.clone());
    }
}

/// The code of a crate by the module that each file is.
pub struct Crate(BTreeMap<Names, Code>);

impl Crate {
    /// Files by their names from `src`, with their texts.
    pub fn read(files: impl IntoIterator<Item = (String, String)>) -> Self {
        let mut texts = Vec::new();
        for (file, text) in files {
            let module = file.trim_end_matches(".rs").trim_end_matches("/mod");
            let module: Names =
                if module == "lib" { Names::new() } else { module.split('/').map(str::to_owned).collect() };
            texts.push((module, file, text));
        }
        let modules: BTreeSet<Names> = texts.iter().map(|(module, ..)| module.clone()).collect();
        let read = |(module, file, text): (Names, String, String)| {
            let mut code = Code { module: module.clone(), file, ..Code::default() };
            let parsed = syn::parse_file(&text).unwrap_or_else(|why| panic!("{}: {why}", code.file));
            code.visit_file(&parsed);
            let bound = std::mem::take(&mut code.bound);
            for (name, (path, how)) in bound {
                if let Some(leads) = code.absolute(&module, &path, |module| modules.contains(module)) {
                    code.bound.insert(name, (leads, how));
                }
            }
            (module, code)
        };
        Self(texts.into_iter().map(read).collect())
    }

    /// The file that holds what a path from the root names; none if it names a module as a whole.
    fn holder(&self, path: &[String], steps: usize) -> Option<&Code> {
        let mut module = Names::new();
        for (at, name) in path.iter().enumerate() {
            let rest = &path[at + 1..];
            let child: Names = module.iter().cloned().chain([name.clone()]).collect();
            let code = self.0.get(&module)?;
            // A function may have the name of a module; what nothing follows is the function.
            let is_module = self.0.contains_key(&child);
            match code.bound.get(name) {
                Some((leads, _)) if steps > 0 && (!is_module || rest.is_empty()) => {
                    return self.holder(&[leads.as_slice(), rest].concat(), steps - 1);
                }
                _ if is_module => module = child,
                _ => return Some(code),
            }
        }
        None
    }

    /// By file: the other files of the same top folder that it names something of.
    pub fn edges(&self) -> Edges<'_> {
        let mut edges = Edges::new();
        for (module, code) in &self.0 {
            let used = code.bound.values().filter(|(_, how)| *how == Bound::Used).map(|(path, _)| path.clone());
            let written = code
                .written
                .iter()
                .filter_map(|path| code.absolute(module, path, |module| self.0.contains_key(module)));
            for path in used.chain(written) {
                let Some(other) = self.holder(&path, 20) else { continue };
                if other.file != code.file && other.module.first() == module.first() {
                    edges.entry(&code.file).or_default().insert(&other.file);
                }
            }
        }
        edges
    }
}

/// A way from one file to another along the edges, both ends included, as short as any.
pub fn way<'a>(edges: &Edges<'a>, from: &'a str, to: &str) -> Option<Vec<&'a str>> {
    let mut ways = VecDeque::from([vec![from]]);
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop_front() {
        for next in way.last().and_then(|last| edges.get(last)).into_iter().flatten() {
            let further = [way.as_slice(), &[*next]].concat();
            if *next == to {
                return Some(further);
            }
            if seen.insert(*next) {
                ways.push_back(further);
            }
        }
    }
    None
}

/// The shortest way of each file back to itself.
pub fn circles<'a>(edges: &Edges<'a>) -> Vec<Vec<&'a str>> {
    edges.keys().filter_map(|file| way(edges, file, file)).collect()
}

/// Every file of a folder, read.
pub fn of(src: &Path) -> Crate {
    let files = walkdir::WalkDir::new(src).sort_by_file_name().into_iter().map(|entry| entry.expect("readable"));
    let code = files.filter(|entry| entry.path().extension().is_some_and(|end| end == "rs"));
    Crate::read(code.map(|entry| {
        let name = entry.path().strip_prefix(src).expect("inside").to_string_lossy().replace('\\', "/");
        (name, fs::read_to_string(entry.path()).expect("text"))
    }))
}

#[test]
fn a_name_leads_to_the_file_that_holds_it() {
    let files = [
        ("lib.rs", "pub mod base; pub mod rules;"),
        ("base/mod.rs", "mod finding; pub use finding::Finding; pub struct Own; pub mod names;"),
        ("base/finding.rs", "use super::names; pub struct Finding; fn f() { names::near() }"),
        ("base/names.rs", "pub fn near() { format!(\"{}\", crate::base::Own) }"),
        (
            "rules/mod.rs",
            "mod load; mod eval; pub use load::{load, Library}; use crate::base; pub use eval::hold as held;\n\
                          fn f() { held(base::names::near()) }",
        ),
        (
            "rules/load.rs",
            "//! super::eval\nuse crate::base::Finding; pub fn load() { self.of(super::eval::hold()) } pub struct Library;\n\
                           #[cfg(test)] mod tests { use super::super::eval; }",
        ),
        ("rules/eval.rs", "use super::{load, Library as L}; mod inner { use super::super::held; use super::L; }"),
    ];
    let code = Crate::read(files.map(|(file, text)| (file.to_owned(), text.to_owned())));
    let of = |file: &str| code.edges().remove(file).unwrap_or_default().into_iter().collect::<Vec<_>>().join(" ");
    assert_eq!(of("base/mod.rs"), "", "what is passed on ties to nothing");
    assert_eq!(of("base/finding.rs"), "base/names.rs", "by way of the module");
    assert_eq!(of("base/names.rs"), "base/mod.rs", "what the module holds itself, in a macro");
    assert_eq!(of("rules/mod.rs"), "rules/eval.rs", "passed on and used here too; another stage does not count");
    assert_eq!(of("rules/load.rs"), "rules/eval.rs", "a path in the code; neither remarks nor tests");
    assert_eq!(of("rules/eval.rs"), "rules/load.rs", "a function that has the name of its module");
    assert_eq!(
        circles(&code.edges()),
        [["rules/eval.rs", "rules/load.rs", "rules/eval.rs"], ["rules/load.rs", "rules/eval.rs", "rules/load.rs"]]
    );
}
