//! Rulesets by name or by path.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

use super::files::{self, Refusal};
use crate::base::Source;
use crate::check::{Library, SetRefusal, Shipped, ShopFile};
use crate::model::SHOP_FILE;

/// The built-in sets and those on the disk. Each text is fetched once in a run.
#[derive(Debug, Default)]
pub struct Shelf {
    fetched: RefCell<BTreeMap<PathBuf, Result<Source, SetRefusal>>>,
    /// For each folder of designs the folder of the shop's file above it, and the path down from there.
    shops: RefCell<BTreeMap<PathBuf, Option<(PathBuf, String)>>>,
}

impl Library for Shelf {
    /// A bare name is a built-in set. What holds a slash or ends in `.rules` is a file, sought beside the file
    /// that asks for it, or from the current folder if the command line asks.
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, SetRefusal> {
        let place = if is_path(name) { beside(name, asked_by) } else { PathBuf::from(name) };
        if let Some(known) = self.fetched.borrow().get(&place) {
            return known.clone();
        }
        let found = if is_path(name) { from_disk(name, &place) } else { Shipped.ruleset(name, asked_by) };
        self.fetched.borrow_mut().insert(place, found.clone());
        found
    }

    /// The first file of the name in the design's folder or above it.
    fn shop(&self, design: &str) -> Result<Option<ShopFile>, Refusal> {
        let design = Path::new(design);
        let folder = design.parent().unwrap_or(Path::new(""));
        let known = self.shops.borrow().get(folder).cloned();
        let found = known.unwrap_or_else(|| shop_above(folder));
        self.shops.borrow_mut().insert(folder.to_owned(), found.clone());
        let Some((root, down)) = found else { return Ok(None) };
        let place = root.join(SHOP_FILE);
        let known = self.fetched.borrow().get(&place).and_then(|known| known.clone().ok());
        let source = match known {
            Some(source) => source,
            None => files::read(&place)?,
        };
        self.fetched.borrow_mut().insert(place, Ok(source.clone()));
        let name = design.file_name().unwrap_or_default().to_string_lossy();
        let design = if down.is_empty() { name.into_owned() } else { format!("{down}/{name}") };
        Ok(Some(ShopFile { source, design }))
    }
}

/// The folder at or above this one that holds a shop's file, and the path from there down to this one.
fn shop_above(folder: &Path) -> Option<(PathBuf, String)> {
    let here = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let whole = here.canonicalize().ok()?;
    let mut at = folder.to_owned();
    for above in whole.ancestors() {
        if at.join(SHOP_FILE).is_file() {
            let down = whole.strip_prefix(above).ok()?.components();
            let down: Vec<String> = down.map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
            return Some((at, down.join("/")));
        }
        // Told as the user would write it: shorter while the path that was given lasts, then with `..`.
        match at.components().next_back() {
            Some(Component::Normal(_)) if at.as_os_str() != "" && !at.is_symlink() => {
                at.pop();
            }
            _ => at.push(".."),
        }
    }
    None
}

fn is_path(name: &str) -> bool {
    name.ends_with(".rules") || name.contains(std::path::is_separator)
}

fn beside(name: &str, asked_by: Option<&str>) -> PathBuf {
    let folder = asked_by.and_then(|file| Path::new(file).parent()).unwrap_or(Path::new(""));
    folder.join(name)
}

fn from_disk(name: &str, place: &Path) -> Result<Source, SetRefusal> {
    files::read(&plain(place)).map_err(|refused| {
        let stem = Path::new(name).file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let near = Shipped::near(&stem).filter(|_| !place.exists());
        SetRefusal::File { path: place.display().to_string(), why: refused.problem, near }
    })
}

/// The path without `..` where it leads to the same file: `marsh.rules` for `village/../marsh.rules`.
fn plain(place: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in place.components() {
        let folder = matches!(plain.components().next_back(), Some(Component::Normal(_)));
        if part == Component::ParentDir && folder {
            plain.pop()
        } else {
            plain.push(part);
            true
        };
    }
    let same = matches!((plain.canonicalize(), place.canonicalize()), (Ok(a), Ok(b)) if a == b);
    if same { plain } else { place.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::refusal;

    #[test]
    fn a_built_in_set_goes_by_its_name_and_a_slip_is_offered_the_nearest() {
        let shelf = Shelf::default();
        let set = shelf.ruleset("residential", Some("boats/hide.stair")).unwrap();
        assert_eq!(&*set.name, "built-in residential");
        let slip = refusal(&shelf.ruleset("residental", None).unwrap_err());
        assert_eq!(slip, "no built-in ruleset is named `residental`; did you mean the built-in set `residential`?");
        let other = refusal(&shelf.ruleset("bridges", None).unwrap_err());
        assert!(other.contains("`residential`") && other.contains("`shop.rules`"), "{other}");
    }

    #[test]
    fn a_path_is_sought_beside_the_file_that_names_it() {
        assert_eq!(beside("shop.rules", Some("boats/hide.stair")), Path::new("boats/shop.rules"));
        assert_eq!(beside("../shop.rules", Some("boats/hide.stair")), Path::new("boats/../shop.rules"));
        assert_eq!(beside("shop.rules", Some("standard input")), Path::new("shop.rules"));
        assert_eq!(beside("sets/shop.rules", None), Path::new("sets/shop.rules"));
        assert!(is_path("sets/shop") && is_path("shop.rules") && !is_path("shop"));
    }

    #[test]
    fn a_path_is_told_without_detours_where_it_leads_to_the_same_file() {
        assert_eq!(plain(Path::new("src/cli/../lib.rs")), Path::new("src/lib.rs"));
        assert_eq!(plain(Path::new("../none/../none.rules")), Path::new("../none/../none.rules"));
        assert_eq!(plain(Path::new("src/lib.rs")), Path::new("src/lib.rs"));
    }

    #[test]
    fn a_file_that_is_not_there_is_named() {
        let shelf = Shelf::default();
        let why = shelf.ruleset("none/residential.rules", None).unwrap_err();
        assert_eq!(
            refusal(&why),
            "the ruleset `none/residential.rules` could not be used: there is no such file; did you mean the built-in set `residential`?"
        );
        assert_eq!(shelf.ruleset("none/residential.rules", None).unwrap_err(), why);
    }
}
