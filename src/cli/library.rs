//! Rulesets by name or by path.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::files;
use crate::base::Source;
use crate::check::{Library, Shipped};

/// The built-in sets and those on the disk. Each text is fetched once in a run.
#[derive(Debug, Default)]
pub struct Shelf {
    fetched: RefCell<BTreeMap<PathBuf, Result<Source, String>>>,
}

impl Library for Shelf {
    /// A bare name is a built-in set. What holds a slash or ends in `.rules` is a file, sought beside the file
    /// that asks for it, or from the current folder if the command line asks.
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, String> {
        let place = if is_path(name) { beside(name, asked_by) } else { PathBuf::from(name) };
        if let Some(known) = self.fetched.borrow().get(&place) {
            return known.clone();
        }
        let found = if is_path(name) { from_disk(name, &place) } else { Shipped.ruleset(name, asked_by) };
        self.fetched.borrow_mut().insert(place, found.clone());
        found
    }
}

fn is_path(name: &str) -> bool {
    name.ends_with(".rules") || name.contains(std::path::is_separator)
}

fn beside(name: &str, asked_by: Option<&str>) -> PathBuf {
    let folder = asked_by.and_then(|file| Path::new(file).parent()).unwrap_or(Path::new(""));
    folder.join(name)
}

fn from_disk(name: &str, place: &Path) -> Result<Source, String> {
    files::read(place).map_err(|refused| {
        let said = format!("the ruleset `{}` could not be used: {}", place.display(), refused.message);
        let stem = Path::new(name).file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        match Shipped::offer(&stem) {
            Some(offer) if !place.exists() => format!("{said}; {offer}"),
            _ => said,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_built_in_set_goes_by_its_name_and_a_slip_is_offered_the_nearest() {
        let shelf = Shelf::default();
        let set = shelf.ruleset("residential", Some("boats/hide.stair")).unwrap();
        assert_eq!(&*set.name, "built-in residential");
        let slip = shelf.ruleset("residental", None).unwrap_err();
        assert_eq!(slip, "no built-in ruleset is named `residental`; did you mean the built-in set `residential`?");
        let other = shelf.ruleset("bridges", None).unwrap_err();
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
    fn a_file_that_is_not_there_is_named() {
        let shelf = Shelf::default();
        let why = shelf.ruleset("none/residential.rules", None).unwrap_err();
        assert_eq!(
            why,
            "the ruleset `none/residential.rules` could not be used: there is no such file; did you mean the built-in set `residential`?"
        );
        assert_eq!(shelf.ruleset("none/residential.rules", None).unwrap_err(), why);
    }
}
