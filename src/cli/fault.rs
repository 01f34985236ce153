//! A fault of the checker itself: it costs the design on which it comes up, never the reports of the others.

use std::panic::{self, AssertUnwindSafe};

use crate::base::{Diagnostic, Source};
use crate::rules::FileProblem;
use crate::session::Refusal;

/// Does a piece of work for a text.
///
/// # Errors
/// The checker failed on it.
pub fn unharmed<T>(source: &Source, work: impl FnOnce() -> T) -> Result<T, Refusal> {
    // What a session remembers it puts in place whole, and a lock that was held counts as empty.
    panic::catch_unwind(AssertUnwindSafe(work))
        .map_err(|_| Box::new(Diagnostic::whole(&Source::at(source.path(), "".into()), FileProblem::Fault)))
}

/// Says nothing of a fault but what a report says.
pub(super) fn quietly() {
    panic::set_hook(Box::new(|_| {}));
}
