//! The files of a disk.

use std::path::{Component, Path, PathBuf};

use super::files;
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

    fn identity(&self, path: &Path) -> PathBuf {
        path.canonicalize().unwrap_or_else(|_| path.to_owned())
    }

    fn exists(&self, path: &Path) -> bool {
        path.exists()
    }

    fn shop_above(&self, folder: &Path) -> Option<ShopPlace> {
        let here = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        let whole = here.canonicalize().ok()?;
        let mut at = folder.to_owned();
        for above in whole.ancestors() {
            if at.join(SHOP_FILE).is_file() {
                let down = whole.strip_prefix(above).ok()?.components();
                let down: Vec<String> = down.map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
                return Some(ShopPlace { folder: at, down: down.join("/") });
            }
            // Written as the user would: shorter while the path that was given lasts, then with `..`.
            match at.components().next_back() {
                Some(Component::Normal(_)) if at.as_os_str() != "" && !at.is_symlink() => {
                    at.pop();
                }
                _ => at.push(".."),
            }
        }
        None
    }
}
