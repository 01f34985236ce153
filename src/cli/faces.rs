//! The faces that a check was asked for: which, and where each goes. Designs come in their order; each face writes its part
//! of a design on the core that checked it.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::str::FromStr;

use super::commands::harmless;
use super::whole_file::{WholeFile, place_of};
use super::{Outcome, Output, output};
use crate::base::names::nearest;
use crate::report::{self, Checked, FACES, Face, Gist, Look, Run, Tallied, Wanted};
use crate::rules::FileProblem;
use crate::wording;

/// Columns of a report in a file, whatever the terminal is.
const FILE_WIDTH: usize = 100;

/// A face, and the file that it goes to.
#[derive(Debug, Clone)]
pub struct Asked {
    face: &'static Face,
    /// None for standard output.
    file: Option<PathBuf>,
}

impl FromStr for Asked {
    type Err = String;

    fn from_str(said: &str) -> Result<Self, String> {
        let (name, file) = said.split_once('=').map_or((said, None), |(name, file)| (name, Some(file)));
        let names = || FACES.iter().map(|face| face.name);
        let face = FACES.iter().find(|face| face.name == name).ok_or_else(|| {
            let known = || format!("there are {}", names().collect::<Vec<_>>().join(", "));
            nearest(name, names()).map_or_else(known, wording::did_you_mean)
        })?;
        match file {
            Some("") => Err(format!("a file is named after the sign, as in `{name}=report.{}`", face.ending)),
            None | Some("-") => Ok(Self { face, file: None }),
            Some(file) => Ok(Self { face, file: Some(PathBuf::from(file)) }),
        }
    }
}

/// The table of faces, for the end of the help.
pub(super) fn listed() -> String {
    let mut out = String::from("Faces, for --as:\n");
    for face in FACES {
        let _ = writeln!(out, "  {:<13} {}", face.name, face.about);
    }
    out
}

/// What every face is asked to write of one design, on any core.
pub(super) struct Faces {
    writers: Vec<(&'static Face, Run)>,
    wanted: Wanted,
}

/// What the faces wrote of one design.
pub(super) struct Written {
    texts: Vec<String>,
    gist: Gist,
}

/// Where the faces go, and the counts so far.
pub(super) struct Outlets {
    all: Vec<Outlet>,
    tallied: Tallied,
}

struct Outlet {
    face: &'static Face,
    run: Run,
    /// The file, as it was asked for.
    name: PathBuf,
    /// None for standard output.
    file: Option<WholeFile>,
    /// Whether something of a design was written.
    begun: bool,
}

fn unwritten(file: &Path, why: &FileProblem) -> String {
    format!("`{}` could not be written: {}", file.display(), wording::why(why))
}

/// The faces and where they go; `run` is how one looks on standard output, `baseline` the file of the run's baseline.
///
/// # Errors
/// Why one of them cannot be written, in a sentence.
pub(super) fn open(asked: &[Asked], run: &Run, baseline: Option<&Path>) -> Result<(Faces, Outlets), String> {
    let mut all: Vec<Outlet> = Vec::new();
    let baseline = baseline.map(place_of);
    for Asked { face, file } in asked {
        let name = file.clone().unwrap_or_default();
        if baseline.is_some() && file.as_deref().map(place_of) == baseline {
            return Err(format!("`{}` and the baseline cannot both be one file", face.name));
        }
        let file = file.as_deref().map(WholeFile::begin).transpose().map_err(|why| unwritten(&name, &why))?;
        let place = |file: &Option<WholeFile>| file.as_ref().map(|file| file.place().to_owned());
        if let Some(other) = all.iter().find(|other| place(&other.file) == place(&file)) {
            let (face, other) = (face.name, other.face.name);
            return Err(match file {
                Some(_) => format!("`{other}` and `{face}` cannot both be one file"),
                None => format!("`{other}` and `{face}` cannot both go to standard output: write `{face}=FILE`"),
            });
        }
        let look = if file.is_some() {
            Look { colour: false, unicode: true, width: FILE_WIDTH, ..run.look }
        } else {
            run.look
        };
        all.push(Outlet { face, run: Run { look, ..run.clone() }, name, file, begun: false });
    }
    if all.is_empty() {
        all.extend(FACES.iter().take(1).map(|face| Outlet {
            face,
            run: run.clone(),
            name: PathBuf::new(),
            file: None,
            begun: false,
        }));
    }
    let writers: Vec<_> = all.iter().map(|outlet| (outlet.face, outlet.run.clone())).collect();
    let by_rule = writers.iter().any(|(face, _)| face.tallies);
    let wanted = Wanted { by_rule, every_outcome: run.every_outcome, clauses: run.clauses };
    Ok((Faces { writers, wanted }, Outlets { all, tallied: Tallied::default() }))
}

impl Faces {
    /// One design.
    pub fn write(&self, checked: &Checked<'_>) -> Written {
        let texts = self.writers.iter().map(|(face, run)| (face.design)(checked, run)).collect();
        Written { texts, gist: Gist::of(checked, self.wanted) }
    }
}

impl Outlets {
    /// What stands before the first design.
    pub fn begin(&mut self, output: &mut Output<'_>) {
        for outlet in &mut self.all {
            let text = (outlet.face.begins)(&outlet.run);
            outlet.put(&text, output);
        }
    }

    /// One design, in its order.
    pub fn take(&mut self, written: Written, output: &mut Output<'_>) {
        for (outlet, text) in self.all.iter_mut().zip(written.texts) {
            if text.is_empty() {
                continue;
            }
            if outlet.begun {
                outlet.put(outlet.face.between, output);
            }
            outlet.begun = true;
            outlet.put(&text, output);
        }
        self.tallied.add(written.gist);
    }

    /// Whether further designs are read of by somebody.
    pub fn are_read(&self, output: &Output<'_>) -> bool {
        !output.is_closed() || self.all.iter().any(|outlet| outlet.file.is_some())
    }

    /// What stands after the last design; then each file is moved to its place. What there is to say of the run as a whole
    /// goes to standard error where no face of it is for people.
    pub fn finish(mut self, remarks: Vec<String>, output: &mut Output<'_>) -> Outcome {
        let mut outcome = Outcome::Sound;
        // What a program reads holds none.
        if !self.all.iter().any(|outlet| outlet.face.remarks) {
            remarks.iter().for_each(|remark| output::complain(&format!("{}\n", report::sentence(remark, false))));
        }
        self.tallied.remarks = remarks;
        for outlet in &mut self.all {
            let text = (outlet.face.ends)(&self.tallied, &outlet.run);
            outlet.put(&text, output);
            if let Some(Err(why)) = outlet.file.take().map(WholeFile::finish) {
                output::complain(&format!("{}\n", unwritten(&outlet.name, &why)));
                outcome = Outcome::Unchecked;
            }
        }
        outcome
    }
}

impl Outlet {
    fn put(&mut self, text: &str, output: &mut Output<'_>) {
        match (&mut self.file, self.face.commands) {
            _ if text.is_empty() => {}
            (None, false) => output.put(text),
            (None, true) => output.as_it_is(text),
            (Some(file), false) => file.put(&harmless(text)),
            (Some(file), true) => file.put(text),
        }
    }
}
