//! What a face of a check is: how it begins, writes a design and ends.

use std::path::PathBuf;

use super::Look;
use super::checked::Checked;
use super::tallied::Tallied;

/// What a run was asked for, as far as a face shows it.
#[derive(Debug, Clone)]
pub struct Run {
    /// Colours, characters and width.
    pub look: Look,
    /// It was asked for that a required rule that could not be settled counts as broken.
    pub strict: bool,
    /// Every outcome is wanted, passes too, where a face can hold them.
    pub every_outcome: bool,
    /// The texts of the rules behind the findings are wanted, each once, at the end of what people read.
    pub clauses: bool,
    /// The folder of the run.
    pub here: PathBuf,
}

/// How what a check came to is written.
pub struct Face {
    /// What it is asked for by.
    pub name: &'static str,
    /// What it is for, in one line.
    pub about: &'static str,
    /// How the name of a file of it ends.
    pub ending: &'static str,
    /// The schema that it follows, by its name in `SCHEMAS` or as its standard is known; empty where it is for people.
    pub schema: &'static str,
    /// Whether it gives commands to the log that it is printed into.
    pub commands: bool,
    /// Whether its end tells of every rule, so that these are counted.
    pub tallies: bool,
    /// Whether its end says what there is to say of the run as a whole.
    pub remarks: bool,
    /// What stands before the first design.
    pub begins: fn(&Run) -> String,
    /// What stands between two designs that each have something.
    pub between: &'static str,
    /// One design.
    pub design: fn(&Checked<'_>, &Run) -> String,
    /// What stands after the last one.
    pub ends: fn(&Tallied, &Run) -> String,
}

impl std::fmt::Debug for Face {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Face").field("name", &self.name).finish_non_exhaustive()
    }
}

/// What most rows have in common.
pub(super) const ROW: Face = Face {
    name: "",
    about: "",
    ending: "txt",
    schema: "",
    commands: false,
    tallies: false,
    remarks: false,
    begins: |_| String::new(),
    between: "",
    design: |_, _| String::new(),
    ends: |_, _| String::new(),
};
