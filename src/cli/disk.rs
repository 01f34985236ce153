//! The files of a disk.

use std::fs;
use std::path::{Component, Path, PathBuf};

use super::files;
use super::passed::{Filter, REPOSITORY};
use super::search::Found;
use crate::base::Source;
use crate::model::SHOP_FILE;
use crate::session::{Files, Refusal, ShopPlace};

/// The files of the disk, from the current folder on.
#[derive(Debug, Clone, Copy, Default)]
pub struct Disk;

impl Files for Disk {
    fn read(&self, path: &Path) -> Result<Source, Refusal> {
        files::read(path)
    }

    /// What there is of the path without links; what there is not, as it is written.
    fn identity(&self, path: &Path) -> PathBuf {
        let here = |path: &Path| if path.as_os_str().is_empty() { PathBuf::from(".") } else { path.to_owned() };
        for above in path.ancestors() {
            let Ok(mut whole) = here(above).canonicalize() else { continue };
            for part in path.strip_prefix(above).into_iter().flat_map(Path::components) {
                match part {
                    Component::ParentDir => drop(whole.pop()),
                    part => whole.push(part),
                }
            }
            return whole;
        }
        path.to_owned()
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn is_folder(&self, path: &Path) -> bool {
        path.is_dir()
    }

    /// What is passed over by a check of the folder is passed over here. Of a folder that holds no end of files the first
    /// are looked at.
    fn texts_below(&self, folder: &Path) -> Vec<PathBuf> {
        let filter = Filter::new(&[], &[], false);
        let mut found = Found::first_texts(&filter);
        found.add(folder);
        found.designs.into_iter().flatten().filter(|path| path != folder).collect()
    }

    /// Whatever is called so counts, but for a folder: one that cannot be read is reported, not passed over.
    fn shops_above(&self, folder: &Path) -> Vec<ShopPlace> {
        let here = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        let Ok(whole) = here.canonicalize() else { return Vec::new() };
        let mut at = folder.to_owned();
        let mut places = Vec::new();
        for above in whole.ancestors() {
            let is_there = fs::symlink_metadata(at.join(SHOP_FILE)).is_ok_and(|found| !found.is_dir());
            if let Some(down) = whole.strip_prefix(above).ok().filter(|_| is_there) {
                places.push(ShopPlace::new(at.clone(), down));
            }
            if at.join(REPOSITORY).symlink_metadata().is_ok() {
                break;
            }
            // Written as the user would: shorter while the path that was given lasts, then with `..`.
            match at.components().next_back() {
                Some(Component::Normal(_)) if at.as_os_str() != "" && !at.is_symlink() => {
                    at.pop();
                }
                _ => at.push(".."),
            }
        }
        places
    }
}
