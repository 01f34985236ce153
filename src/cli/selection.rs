//! Which designs a run is about: folders and files of the command line, a list, and what differs from a commit.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use clap::Args;

use super::files;
use super::passed::{self, Filter, Passed};
use super::search::Found;
use crate::model::SHOP_FILE;
use crate::session::Refusal;

/// Which designs; of what is tidied, which rulesets and shop's files too.
#[derive(Debug, Args)]
pub struct Selection {
    /// Files, folders (which are searched), or `-` for a design from standard input; this folder, unless files are listed
    #[arg(value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Take the files and folders that a file names, one on a line; `-` is standard input
    #[arg(long, value_name = "FILE")]
    pub list: Option<PathBuf>,
    /// Of a folder or a list, take only what a glob names, written as in .gitignore; may be given several times
    #[arg(long, value_name = "GLOB", value_parser = passed::glob)]
    pub only: Vec<String>,
    /// Of a folder or a list, leave out what a glob names; may be given several times
    #[arg(long, value_name = "GLOB", value_parser = passed::glob)]
    pub without: Vec<String>,
    /// Search what .gitignore names and what is hidden, too
    #[arg(long)]
    pub all: bool,
    /// Take only what differs from a commit of git, what is new too; all designs, where a ruleset or a shop's file differs on
    /// which they rest
    #[arg(long, value_name = "COMMIT")]
    pub changed_since: Option<String>,
}

/// The designs of a run.
#[derive(Debug)]
pub(super) struct Selected {
    /// Those found, each once; what cannot be reached stands in its place as a refusal.
    pub designs: Vec<Result<PathBuf, Refusal>>,
    pub passed: Passed,
    /// What is to be said of the choice.
    pub notes: Vec<String>,
}

impl Selected {
    /// What there is to say of the choice: notes, and what was passed over.
    pub(super) fn said(&self) -> Vec<String> {
        self.notes.iter().cloned().chain(self.passed.words()).collect()
    }
}

impl Selection {
    /// Finds the designs.
    ///
    /// # Errors
    /// Why they cannot be found, in words.
    pub(super) fn find(&self) -> Result<Selected, String> {
        self.seek(false)
    }

    /// Finds designs, rulesets and shop's files, each of which stands for itself.
    ///
    /// # Errors
    /// Why they cannot be found, in words.
    pub(super) fn find_texts(&self) -> Result<Selected, String> {
        self.seek(true)
    }

    fn seek(&self, texts: bool) -> Result<Selected, String> {
        let dash = Path::new("-");
        if self.list.as_deref() == Some(dash) && self.paths.iter().any(|path| path == dash) {
            return Err("`-` stands for a design and for the list; standard input can be read once".to_owned());
        }
        let filter = Filter::new(&self.only, &self.without, self.all);
        let mut found = if texts { Found::texts(&filter) } else { Found::new(&filter) };
        let mut notes = Vec::new();
        let here = [PathBuf::from(".")];
        let paths = if self.paths.is_empty() && self.list.is_none() { &here[..] } else { &self.paths };
        paths.iter().for_each(|path| found.add(path));
        if let Some(list) = &self.list {
            let listed = listed(list)?;
            if listed.is_empty() {
                notes.push(format!("the list `{}` names nothing", files::named(list)));
            }
            listed.iter().for_each(|path| found.add_listed(path));
        }
        let Found { mut designs, mut passed, .. } = found;
        if let Some(commit) = &self.changed_since {
            let differing = Differing::from(commit, &designs, paths, self.all)?;
            match differing.rules.as_ref().filter(|_| !texts) {
                Some(rules) => {
                    notes.push(format!("`{rules}` differs from {commit}, so designs that do not are checked too"))
                }
                None => designs.retain(|design| {
                    let keep = design.as_ref().map_or(true, |path| path == dash || differing.has(path));
                    passed.alike += usize::from(!keep);
                    keep
                }),
            }
            if designs.is_empty() {
                notes.push(format!("no {} differs from {commit}", if texts { "text" } else { "design" }));
            }
        }
        if designs.is_empty() {
            notes.push(if texts { "nothing was tidied" } else { "nothing was checked" }.to_owned());
        }
        Ok(Selected { designs, passed, notes })
    }
}

/// The paths that a list names: a line each, or each ended by a zero byte.
fn listed(list: &Path) -> Result<Vec<PathBuf>, String> {
    let text = files::text(list).map_err(|refused| {
        format!("the list `{}` could not be read: {}", files::named(list), crate::wording::why(&refused.problem))
    })?;
    let by_zero = text.contains('\0');
    let parts: Vec<&str> = if by_zero { text.split('\0').collect() } else { text.lines().collect() };
    Ok(parts.into_iter().filter(|part| !part.trim().is_empty()).map(PathBuf::from).collect())
}

/// What differs from a commit.
struct Differing {
    /// Files, without links.
    files: BTreeSet<PathBuf>,
    /// A ruleset or a shop's file among them, on which designs that do not differ rest.
    rules: Option<String>,
}

impl Differing {
    /// Asks git, in the repository of each folder that is searched or holds a design.
    fn from(commit: &str, designs: &[Result<PathBuf, Refusal>], paths: &[PathBuf], all: bool) -> Result<Self, String> {
        if commit.starts_with('-') || commit.is_empty() {
            return Err(format!("`{commit}` is no commit"));
        }
        let of_design = designs.iter().flatten().filter(|path| *path != Path::new("-"));
        let folders = of_design.chain(paths).map(|path| folder_of(path)).collect::<BTreeSet<_>>();
        let mut differing = Self { files: BTreeSet::new(), rules: None };
        let mut roots: BTreeSet<PathBuf> = BTreeSet::new();
        for folder in folders {
            if roots.iter().any(|root| is_in(&folder, root)) {
                continue;
            }
            let root = git(&folder, &["rev-parse", "--show-toplevel"])?;
            let root = PathBuf::from(root.trim_end_matches(['\n', '\r']));
            let root = root.canonicalize().unwrap_or(root);
            if roots.insert(root.clone()) {
                differing.add(&root, commit, all)?;
            }
        }
        // What is named by itself is wanted, though git be told to ignore it: it differs where git does not hold it.
        for file in paths.iter().filter(|path| *path != Path::new("-") && path.is_file()) {
            let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            if !git(&folder_of(file), &["ls-files", "-z", "--others", "--", &format!(":(literal){name}")])?.is_empty() {
                differing.files.insert(file.canonicalize().unwrap_or_else(|_| file.clone()));
            }
        }
        Ok(differing)
    }

    fn add(&mut self, root: &Path, commit: &str, all: bool) -> Result<(), String> {
        let commit = git(root, &["rev-parse", "--verify", "--quiet", &format!("{commit}^{{commit}}")])
            .map_err(|said| if said.is_empty() { format!("git knows no commit `{commit}`") } else { said })?;
        let since =
            ["diff", "--name-only", "-z", "--no-renames", "--no-ext-diff", "--no-textconv", commit.trim(), "--"];
        let mut names = git(root, &since)?;
        let mut new = vec!["ls-files", "-z", "--others"];
        if !all {
            new.push("--exclude-standard");
        }
        names += &git(root, &new)?;
        for name in names.split('\0').filter(|name| !name.is_empty()) {
            let path = root.join(name);
            let is_shop = path.file_name().is_some_and(|file| file == SHOP_FILE);
            if is_shop || path.extension().is_some_and(|ending| ending == "rules") {
                self.rules.get_or_insert_with(|| name.to_owned());
            }
            self.files.insert(path.canonicalize().unwrap_or(path));
        }
        Ok(())
    }

    fn has(&self, design: &Path) -> bool {
        // A link differs where it or what it leads to does.
        let parent = design.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let itself = parent.canonicalize().ok().zip(design.file_name()).map(|(parent, name)| parent.join(name));
        let real = design.canonicalize().ok();
        real.into_iter().chain(itself).any(|path| self.files.contains(&path))
    }
}

/// The folder of a path, or itself where it is one.
fn folder_of(path: &Path) -> PathBuf {
    let parent = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if path.is_dir() { path.to_owned() } else { parent.to_owned() }
}

/// Whether a folder lies in a repository that is known; one within it has its own.
fn is_in(folder: &Path, root: &Path) -> bool {
    let Ok(real) = folder.canonicalize() else { return false };
    real.ancestors().find(|above| above.join(".git").symlink_metadata().is_ok()) == Some(root)
}

/// What git says, asked in a folder by its arguments alone: no shell, no pager, no monitor, no diff of another's.
///
/// # Errors
/// What it says against it, in words; nothing where it says nothing.
fn git(folder: &Path, arguments: &[&str]) -> Result<String, String> {
    let mut command = Command::new("git");
    command.args(["-c", "core.fsmonitor=false", "-c", "core.quotepath=off", "--no-pager"]).arg("-C").arg(folder);
    command.args(arguments).stdin(Stdio::null());
    // Where it runs is said by the folder; a hook of git's would say otherwise.
    ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"].iter().for_each(|name| _ = command.env_remove(name));
    let said = command.output().map_err(|error| {
        let why = crate::wording::why(&files::why(&error));
        format!("git could not be asked what differs: {why}")
    })?;
    if !said.status.success() {
        let words = String::from_utf8_lossy(&said.stderr);
        let first = words.lines().next().unwrap_or_default().trim_start_matches("fatal: ").to_owned();
        return Err(if first.is_empty() { first } else { format!("git could not say what differs: {first}") });
    }
    Ok(String::from_utf8_lossy(&said.stdout).into_owned())
}
