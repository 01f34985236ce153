//! The designs on which a set bears: those that ask for it, or for a set that takes it in.

use std::path::PathBuf;

use super::ordered::{Next, in_order};
use super::output::complain;
use super::selection::Selected;
use super::{Disk, Outcome, Output, read, unharmed};
use crate::base::Source;
use crate::check::LoadedSet;
use crate::report::{self, Look};
use crate::session::{Files, Refusal, Session};
use crate::wording;

/// Names them, a line each, as a list of files is read; whatever else there is to say goes to standard error.
pub(super) fn names(
    set: &str,
    selected: &Selected,
    session: &Session,
    look: &Look,
    output: &mut Output<'_>,
) -> Outcome {
    let (wanted, whole) = match session.set(set, None) {
        Ok(loaded) => {
            // Of a text that is no ruleset nobody can say who takes it in.
            (loaded.set.texts().next().map(identity), !loaded.set.rules.is_empty())
        }
        Err(refusal) => {
            complain(&format!("{}\n", report::sentence(&wording::refusal(&refusal), look.unicode)));
            return Outcome::Unchecked;
        }
    };
    let bears = |loaded: &LoadedSet| loaded.set.texts().any(|text| Some(identity(text)) == wanted);
    let (mut outcome, mut named) = (Outcome::Sound, 0);
    if !whole {
        let said = format!("`{set}` could not be read: designs that reach it through another set may not be named");
        complain(&format!("{}\n", report::sentence(&said, look.unicode)));
        outcome = Outcome::Unchecked;
    }
    in_order(
        &selected.designs,
        |found| -> Result<Option<String>, Refusal> {
            let source = read(&found.clone()?)?;
            unharmed(&source, || {
                let bears = session.check(&source, None).sets.iter().any(|loaded| bears(loaded));
                bears.then(|| format!("{}\n", report::visible(&source.name, true)))
            })
        },
        |found| {
            match found {
                Ok(name) => {
                    named += usize::from(name.is_some());
                    output.put(&name.unwrap_or_default());
                }
                Err(refused) => {
                    complain(&format!("{}\n", report::finding(&*refused, &Look { colour: false, ..*look })));
                    outcome = Outcome::Unchecked;
                }
            }
            if output.is_closed() { Next::Stop } else { Next::GoOn }
        },
    );
    if named == 0 {
        complain(&format!("{}\n", report::sentence(&format!("`{set}` bears on none of these designs"), look.unicode)));
    }
    outcome
}

/// A text by the file that it is, whatever path leads there.
fn identity(text: &Source) -> PathBuf {
    Disk.identity(text.path())
}
